//! What happens to the canner or the jars beside the steps, and what it means for the jars of this batch.
//!
//! A process that was interrupted is done again in full (North Carolina State University extension, 2004), within two
//! hours of it (University of Nebraska extension; Iowa State extension, revised text). What may have interrupted it is
//! asked, and holds the jars until it is answered.

use super::{Batch, Stage};
use crate::processes::facts;
use crate::quantity::Pressure;
use crate::vocabulary::{CannerKind, Mishap};
use chrono::{DateTime, Utc};

/// A question about a process that nobody has answered.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Doubt {
    /// What raised it.
    pub what: Mishap,
    /// When.
    pub at: DateTime<Utc>,
    /// The round in which it was raised, counted in rounds that are out.
    pub round: usize,
}

/// What a mishap means for the jars.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Bearing {
    /// Nothing is lost.
    None,
    /// The clock ran, and is stopped.
    Stopped,
    /// Jars that were through have had no full process: how many of them stood on the shelf already.
    Undone {
        /// Of those, sealed and shelved.
        shelved: u32,
    },
    /// It is asked.
    Asked,
    /// The question is answered: nothing was lost.
    Held,
}

/// What a mishap does to a process of which it is not known that it was over before.
#[derive(PartialEq)]
enum Weight {
    Harmless,
    Asks,
    Breaks,
}

impl Batch {
    /// Something happened to the canner or the jars.
    pub(super) fn mishap(&mut self, what: Mishap, psi: Option<Pressure>, at: DateTime<Utc>) -> Bearing {
        let stage = self.stage(at);
        if what == Mishap::GaugeHigh && self.canner != CannerKind::PressureWeighted && self.canner.is_pressure() {
            // Nobody knows how much is too much where it is not said: then no pressure is enough.
            self.gauge_high = Some(psi.unwrap_or(self.gauge_high.unwrap_or(UNKNOWN)));
        }
        if what == Mishap::VentSkipped && self.canner.is_pressure() {
            (self.unvented, self.venting) = (true, None);
        }
        match what {
            Mishap::Held => match self.doubt.take() {
                Some(_) => Bearing::Held,
                None => Bearing::None,
            },
            Mishap::Fell => self.break_process(stage, at),
            _ => match self.weight(what, stage) {
                Weight::Harmless => Bearing::None,
                Weight::Asks => {
                    self.doubt = Some(Doubt { what, at, round: self.outs.len() });
                    Bearing::Asked
                }
                Weight::Breaks => self.break_process(stage, at),
            },
        }
    }

    fn weight(&self, what: Mishap, stage: Stage) -> Weight {
        let pressure = self.canner.is_pressure();
        // Cooling down is part of a process under pressure (`pressure_process_counts_come_up_and_cool_down`).
        let under_way = stage == Stage::Processing
            || pressure && matches!(stage, Stage::Done | Stage::Depressurising) && self.pressure_down.is_none();
        let begun = self.heat.is_some() || self.heat_off.is_some() || !self.outs.is_empty();
        if !begun {
            return Weight::Harmless;
        }
        let waits = matches!(stage, Stage::Begun | Stage::Filled | Stage::Venting);
        match what {
            // The jars that are out had their time; those that go in next are not in yet.
            _ if waits => Weight::Harmless,
            // A gauge that "reads 2 low" may be one that shows too little pressure.
            Mishap::GaugeLow if stage == Stage::Processing && pressure => Weight::Asks,
            Mishap::GaugeLow | Mishap::LeftIn | Mishap::Held | Mishap::Fell => Weight::Harmless,
            Mishap::VentSkipped if pressure => Weight::Breaks,
            Mishap::GaugeHigh if self.canner == CannerKind::PressureWeighted || !pressure => Weight::Harmless,
            Mishap::GaugeHigh if self.gauge_was_enough() => Weight::Harmless,
            Mishap::GaugeHigh | Mishap::CannerDry => Weight::Breaks,
            Mishap::VentSkipped => Weight::Harmless,
            Mishap::PlugBlown | Mishap::VentOpened | Mishap::WeightOff if !pressure => Weight::Harmless,
            Mishap::PlugBlown | Mishap::VentOpened | Mishap::WeightOff => after(under_way, stage),
            Mishap::WeightStill if !pressure => Weight::Harmless,
            Mishap::WeightStill if self.canner == CannerKind::PressureWeighted && stage == Stage::Processing => {
                Weight::Breaks
            }
            // Once the heat is off the weight is still.
            Mishap::WeightStill if matches!(stage, Stage::Depressurising | Stage::Resting) => Weight::Harmless,
            Mishap::WeightStill => Weight::Asks,
            Mishap::LidOpened if self.canner == CannerKind::BoilingWater => match stage {
                Stage::Processing => Weight::Asks,
                _ => Weight::Harmless,
            },
            // `steam_may_open_to_add_water` is no.
            Mishap::LidOpened => after(under_way, stage),
            Mishap::WaterLow if self.canner == CannerKind::BoilingWater && stage == Stage::Processing => Weight::Breaks,
            Mishap::WaterLow | Mishap::SteamLeak | Mishap::Unclear => Weight::Asks,
        }
    }

    /// Whether the pressure that was told of the round in the canner is enough on a gauge that reads high.
    fn gauge_was_enough(&self) -> bool {
        let shown = self.heat.and_then(|heat| heat.pressure).filter(|_| self.outs.is_empty());
        match (shown, self.needed_on_gauge()) {
            (Some(shown), Some(needed)) => shown >= needed && !self.gauge_is_to_be_replaced(),
            _ => false,
        }
    }

    /// The pressure that the gauge must show: what it reads too high comes on top (`dial_gauge_high_1_add_psi`,
    /// `dial_gauge_high_2_add_psi`).
    pub fn needed_on_gauge(&self) -> Option<Pressure> {
        let high = self.gauge_high.map_or(0.0, Pressure::as_psi);
        Pressure::from_psi(self.timing.pressure?.as_psi() + high)
    }

    /// Whether its gauge is off by more than may be corrected, or nobody knows by how much.
    pub fn gauge_is_to_be_replaced(&self) -> bool {
        self.gauge_high.is_some_and(|high| high.as_psi() > facts::gauge_may_be_off())
    }

    /// The process was interrupted: jars in the canner wait for heat, those that are out have had no full time.
    pub(super) fn break_process(&mut self, stage: Stage, at: DateTime<Utc>) -> Bearing {
        let earlier = self.doubt.is_some_and(|doubt| doubt.round < self.outs.len());
        self.doubt = None;
        match stage {
            Stage::Processing if !earlier => {
                self.wait_for_heat(at);
                Bearing::Stopped
            }
            Stage::Done | Stage::Depressurising | Stage::Resting if !earlier => {
                let since = self.heat_off.or_else(|| self.ends_at(at)).unwrap_or(at).min(at);
                self.wait_for_heat(since);
                (self.heat_off, self.pressure_down) = (None, None);
                Bearing::Undone { shelved: 0 }
            }
            _ if self.outs.is_empty() && self.again_out.is_none() => Bearing::None,
            _ => Bearing::Undone { shelved: self.undo_rounds(at) },
        }
    }

    /// Jars that are out, whatever was said of their lids, have had no full process: they wait as filled ones do. Which
    /// round it was nobody says, so all of them. Returns how many of them were sealed and shelved.
    fn undo_rounds(&mut self, at: DateTime<Utc>) -> u32 {
        let since = self.off_at.or(self.outs.last().map(|(out, _)| *out)).unwrap_or(at).min(at);
        let shelved = self.fates.sealed();
        // Those that went through again are jars like the others.
        let again = self.fates.reprocessed.saturating_sub(self.fates.again.gone());
        self.fates.reprocessed -= again;
        (self.fates.again.sealed, self.fates.open_again) = (0, 0);
        self.again_lifted = self.again_lifted.min(self.fates.reprocessed);
        (self.fates.first.sealed, self.fates.open) = (0, 0);
        let mut back = self.undecided();
        self.lifted = self.lifted.saturating_sub(back);
        while back > 0 {
            let Some((out, jars)) = self.outs.pop() else { break };
            let taken = back.min(jars);
            back -= taken;
            if taken < jars {
                self.outs.push((out, jars - taken));
            }
        }
        self.settled = self.settled.min(self.outs.len());
        self.told.clear();
        self.again_out = self.again_out.filter(|_| self.fates.reprocessed > 0);
        self.left_inside = 0;
        self.closed = None;
        self.restarts += 1;
        self.undone = Some(since);
        if self.heat.is_none() && self.heat_off.is_none() {
            self.restarted = true;
            self.wait_again(since);
        }
        shelved
    }
}

/// What lets the pressure out breaks a process that is under way; one that is over stands, and where it is told
/// afterwards it is asked when it was.
fn after(under_way: bool, stage: Stage) -> Weight {
    match stage {
        _ if under_way => Weight::Breaks,
        Stage::Cooling | Stage::Checking => Weight::Asks,
        _ => Weight::Harmless,
    }
}

/// More than any gauge may be off.
const UNKNOWN: Pressure = Pressure::MOST;
