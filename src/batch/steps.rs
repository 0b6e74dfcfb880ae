//! The steps of a batch: which fits where, and what each changes, from the start until the jars are out. What comes
//! after is in `seals.rs`.

use super::{Batch, Bearing, Fate, Heat, Misfit, Stage, Step, Taken, Turn};
use crate::processes::facts;
use crate::quantity::Pressure;
use crate::vocabulary::CannerKind;
use chrono::{DateTime, Utc};

impl Batch {
    /// Takes a step.
    ///
    /// # Errors
    /// A [`Misfit`], and nothing is changed.
    pub fn take(&mut self, step: &Step, at: DateTime<Utc>) -> Result<Taken, Misfit> {
        // Steps that were not told are made up for before it is known whether this one fits.
        let mut next = self.clone();
        let resumed = step.goes_on() && next.stopped.take().is_some();
        if !step.goes_on() {
            next.stopped = self.stopped;
        }
        let taken = next.go(step, at)?;
        *self = next;
        Ok(Taken { resumed, ..taken })
    }

    fn go(&mut self, step: &Step, at: DateTime<Utc>) -> Result<Taken, Misfit> {
        let mut taken = Taken::default();
        match *step {
            Step::Drained { mass, volume, kept } => {
                self.drained += mass.unwrap_or_default();
                self.drained_volume += volume.unwrap_or_default();
                self.drained_kept = kept.or(self.drained_kept);
            }
            Step::CookedDown { mass, volume } => {
                self.cooked = mass.or(self.cooked);
                self.cooked_volume = volume.or(self.cooked_volume);
            }
            Step::Filled { jars } => taken.filled = self.fill(jars, at)?,
            Step::AcidAdded { acid } => {
                (taken.sealed, taken.lost_heat) = self.acidify(acid, at)?;
            }
            Step::AcidMissing { jars } => taken.unshelved = self.miss_acid(jars)?,
            Step::Venting => taken.filled = self.vent(at)?,
            Step::AtHeat => taken.filled = self.heat_up(None, at)?,
            Step::AtPressure(pressure) if self.is_too_low(pressure, at) => {
                self.wait_for_heat(at);
                taken.too_low = true;
            }
            // The same gauge told once more, and high enough.
            Step::AtPressure(_) if self.stage(at) == Stage::Processing && self.timing.pressure.is_some() => {
                taken.steady = true;
            }
            Step::AtPressure(pressure) => taken.filled = self.heat_up(Some(pressure), at)?,
            Step::LostHeat if self.doubt.is_some() => taken.bearing = Some(self.break_process(self.stage(at), at)),
            Step::LostHeat => taken.bearing = self.lose_heat(at)?,
            Step::Mishap { what, psi } => taken.bearing = Some(self.mishap(what, psi, at)),
            Step::HeatOff => taken.too_soon = self.heat_off(at)?,
            // `no pressure` before the minutes are up is pressure lost, not a canner that has come down.
            Step::PressureDown if self.canner.is_pressure() && self.runs(at) => {
                self.wait_for_heat(at);
                taken.too_low = true;
            }
            Step::PressureDown => self.pressure_down(at)?,
            Step::Lifted { jars } => taken.too_soon = self.lift(jars, at)?,
            Step::Sealed { jars, of, round } => taken.sealed = self.seal(jars, of, round, at)?,
            Step::Unsealed { jars, round } => self.find_unsealed(jars, round, at)?,
            Step::Reprocessed { jars } => taken.reprocessed = self.reprocess(jars, at)?,
            Step::Ended { fate, jars } => taken.ended = Some((fate, self.end(fate, jars, at)?)),
            Step::Broke { jars } => taken.ended = Some((Fate::Broken, self.break_jars(jars, at)?)),
            Step::Siphoned { jars } => self.siphon(jars, at)?,
            Step::Stopped => taken.lost_heat = self.stop(at)?,
            Step::Resumed => self.resume()?,
        }
        self.fates.held = self.fates.held.min(self.undecided().saturating_sub(self.fates.open));
        if self.undecided() == 0 {
            self.settled = self.outs.len();
        }
        self.close_if_decided(at);
        Ok(taken)
    }

    /// A gauge that falls short while the clock runs is pressure lost: the minutes are tested at that pressure or
    /// above.
    fn is_too_low(&self, pressure: Pressure, at: DateTime<Utc>) -> bool {
        let needed = self.needed_on_gauge().filter(|_| self.stage(at) == Stage::Processing);
        needed.is_some_and(|needed| pressure < needed)
    }

    /// Whether minutes of its process are left.
    fn runs(&self, at: DateTime<Utc>) -> bool {
        self.stage(at) == Stage::Processing && self.ends_at(at).is_some()
    }

    /// Sets it aside: a clock that runs is lost, and the full time starts again; jars that had their time rest.
    /// Says whether the clock ran.
    fn stop(&mut self, at: DateTime<Utc>) -> Result<bool, Misfit> {
        if let Some(since) = self.stopped {
            return Err(Misfit::Stopped { since });
        }
        let stage = self.stage(at);
        match stage {
            Stage::Processing => self.wait_for_heat(at),
            Stage::Done => self.heat_off(at).map(drop)?,
            Stage::Venting => self.venting = None,
            Stage::Begun | Stage::Filled | Stage::Depressurising | Stage::Resting => {}
            // Jars that are out stand still already.
            Stage::Cooling | Stage::Checking => return Err(Misfit::OutOfOrder(stage)),
        }
        self.stopped = Some(at);
        Ok(stage == Stage::Processing)
    }

    fn resume(&mut self) -> Result<(), Misfit> {
        self.stopped.take().map(drop).ok_or(Misfit::NotStopped)
    }

    fn fill(&mut self, jars: Option<u32>, at: DateTime<Utc>) -> Result<u32, Misfit> {
        match self.stage(at) {
            stage if !self.is_open() && self.to_fill() == 0 => return Err(Misfit::OutOfOrder(stage)),
            Stage::Begun | Stage::Filled | Stage::Venting => {}
            // A later round is filled while an earlier one is in the canner.
            _ if self.planned.is_some_and(|planned| planned > self.filled) && jars.is_some() => {}
            stage => return Err(Misfit::OutOfOrder(stage)),
        }
        // Two people may tell the same filling.
        if self.filled > 0 && self.planned.is_none_or(|planned| planned <= self.filled) {
            return Err(Misfit::Filled { jars: self.filled });
        }
        let left = if self.filled == 0 { self.jars() } else { self.to_fill() };
        let filled = jars.unwrap_or(left.max(1));
        self.closed = None;
        self.wait_from(at);
        self.filled = self.filled.saturating_add(filled);
        self.filled_at = Some(at);
        Ok(filled)
    }

    /// Nobody heats empty jars: when the filling was not told, it happened all the same.
    fn fill_untold(&mut self, at: DateTime<Utc>) -> Result<u32, Misfit> {
        if self.filled > 0 {
            return Ok(0);
        }
        self.fill_untold = true;
        self.fill(None, at)
    }

    fn vent(&mut self, at: DateTime<Utc>) -> Result<u32, Misfit> {
        if !self.canner.is_pressure() {
            return Err(Misfit::NoPressure);
        }
        match self.stage(at) {
            // Steam that was interrupted has to flow again for the whole time.
            Stage::Begun | Stage::Filled | Stage::Venting => {}
            // Jars that did not seal go through again.
            Stage::Cooling | Stage::Checking if self.waiting_again() > 0 => self.closed = None,
            stage => return Err(Misfit::OutOfOrder(stage)),
        }
        self.check_hours(at)?;
        let filled = self.fill_untold(at)?;
        self.unvented = false;
        self.venting = Some(at);
        Ok(filled)
    }

    fn heat_up(&mut self, pressure: Option<Pressure>, at: DateTime<Utc>) -> Result<u32, Misfit> {
        if pressure.is_some() && !self.canner.is_pressure() {
            return Err(Misfit::NoPressure);
        }
        match (self.stage(at), self.heat) {
            (Stage::Begun | Stage::Filled | Stage::Venting, _) => {}
            (Stage::Processing, Some(heat)) => return Err(Misfit::Running { since: heat.since }),
            // Jars that did not seal go through again.
            (Stage::Cooling | Stage::Checking, _) if self.waiting_again() > 0 => self.closed = None,
            (stage, _) => return Err(Misfit::OutOfOrder(stage)),
        }
        self.check_hours(at)?;
        if self.unvented {
            return Err(Misfit::VentFirst);
        }
        if self.gauge_high.is_some() {
            let enough = pressure.zip(self.needed_on_gauge()).is_some_and(|(shown, needed)| shown >= needed);
            if !enough || self.gauge_is_to_be_replaced() {
                return Err(Misfit::GaugeOff);
            }
        }
        // Air that was not driven out keeps the jars too cold, whatever the gauge says.
        let vented = self.venting.map(|venting| venting + facts::PRESSURE_VENT.value);
        if let Some(until) = vented.filter(|until| at < *until) {
            return Err(Misfit::Unvented { until });
        }
        // Boiling says nothing of pressure: a dial gauge has its figure, a weight rocks or does not.
        if pressure.is_none() && self.canner == CannerKind::PressureDial {
            return Err(Misfit::GaugeUnread);
        }
        let filled = self.fill_untold(at)?;
        self.heat = Some(Heat { since: at, pressure });
        self.heated = Some(at);
        self.loaded = Some(self.in_round());
        Ok(filled)
    }

    fn lose_heat(&mut self, at: DateTime<Utc>) -> Result<Option<Bearing>, Misfit> {
        match self.stage(at) {
            Stage::Processing => {
                self.wait_for_heat(at);
                Ok(None)
            }
            // No clock runs that could be lost. Steam has to flow again for its whole time.
            Stage::Begun | Stage::Filled | Stage::Venting => {
                self.venting = None;
                Ok(Some(Bearing::None))
            }
            stage => Err(Misfit::OutOfOrder(stage)),
        }
    }

    /// The clock is lost: the jars wait for heat, and their hours count from then.
    pub(super) fn wait_for_heat(&mut self, at: DateTime<Utc>) {
        self.wait_again(at);
        self.doubt = self.doubt.filter(|doubt| doubt.round < self.outs.len());
        self.heat = None;
        self.heated = None;
        self.venting = None;
        self.loaded = None;
        self.restarts += 1;
        self.restarted = true;
    }

    /// Says whether it was too soon: then the jars must be processed again in full.
    fn heat_off(&mut self, at: DateTime<Utc>) -> Result<bool, Misfit> {
        match self.stage(at) {
            Stage::Processing => {
                self.wait_for_heat(at);
                Ok(true)
            }
            Stage::Done => {
                self.heat = None;
                self.venting = None;
                self.heat_off = Some(at);
                self.off_at = Some(at);
                Ok(false)
            }
            stage => Err(Misfit::OutOfOrder(stage)),
        }
    }

    fn pressure_down(&mut self, at: DateTime<Utc>) -> Result<(), Misfit> {
        if !self.canner.is_pressure() {
            return Err(Misfit::NoPressure);
        }
        self.end_heat_untold(at)?;
        match self.stage(at) {
            Stage::Depressurising => self.pressure_down = Some(at),
            stage => return Err(Misfit::OutOfOrder(stage)),
        }
        Ok(())
    }

    /// When the minutes are up and the next step is told, the heat went off in between.
    pub(super) fn end_heat_untold(&mut self, at: DateTime<Utc>) -> Result<(), Misfit> {
        match self.stage(at) {
            Stage::Processing => match self.ends_at(at) {
                Some(ends) => Err(Misfit::TooSoon { ends }),
                None => Err(Misfit::OutOfOrder(Stage::Processing)),
            },
            Stage::Done => self.heat_off(at).map(drop),
            _ => Ok(()),
        }
    }

    /// Says whether it was too soon: jars taken out before their minutes are up must go through again in full.
    pub(super) fn lift(&mut self, jars: Option<u32>, at: DateTime<Utc>) -> Result<bool, Misfit> {
        if self.stage(at) == Stage::Processing {
            self.wait_for_heat(at);
            return Ok(true);
        }
        self.end_heat_untold(at)?;
        match self.stage(at) {
            Stage::Resting | Stage::Depressurising => self.check_pressure(at)?,
            Stage::Filled | Stage::Venting => return Err(Misfit::Unprocessed),
            stage => return Err(Misfit::OutOfOrder(stage)),
        }
        self.take_out(jars, at)?;
        Ok(false)
    }

    /// The round that is in the canner is out.
    pub(super) fn take_out(&mut self, jars: Option<u32>, at: DateTime<Utc>) -> Result<(), Misfit> {
        let again = self.waiting() == 0;
        let there = self.in_round();
        let out = jars.unwrap_or(there);
        if out > there.max(self.waiting()) {
            return Err(Misfit::TooMany { said: out, there });
        }
        let through = there.max(out);
        if again {
            self.again_out = Some(at);
            self.again_lifted = (self.again_lifted + there).min(self.fates.reprocessed);
        } else {
            self.end_round(through, at);
        }
        // Fewer than went in end the round all the same. What became of the others is asked, not guessed.
        self.left_inside = there.saturating_sub(out);
        self.heat_off = None;
        self.pressure_down = None;
        self.loaded = None;
        self.restarted = false;
        self.wait_on(at);
        Ok(())
    }

    /// Nobody can take jars out from under pressure. Only the gauge tells whether it is down, so that has to be told:
    /// how long it takes depends on the canner and what is in it.
    pub(super) fn check_pressure(&self, at: DateTime<Utc>) -> Result<(), Misfit> {
        if !self.canner.is_pressure() {
            return Ok(());
        }
        let rested = self.pressure_down.map(|down| down + facts::PRESSURE_REST.value);
        match rested {
            Some(rested) if at >= rested => Ok(()),
            until => Err(Misfit::UnderPressure { until }),
        }
    }

    /// A round is over: so many jars are through, and those that broke on the way are with them.
    pub(super) fn end_round(&mut self, through: u32, at: DateTime<Utc>) {
        let jars = through + self.broken_inside;
        let ready = self.turns.last().map(|turn| turn.out).or(self.filled_at);
        if let (Some(ready), Some(heat), Some(minutes)) = (ready, self.heated, self.timing.minutes) {
            self.turns.push(Turn { ready, heat, minutes, out: at, restarted: self.restarted });
        }
        self.lifted = (self.lifted + jars).min(self.filled);
        self.broken_inside = 0;
        self.outs.push((at, jars));
        self.heated = None;
        self.restarted = false;
    }

    pub(super) fn close_if_decided(&mut self, at: DateTime<Utc>) {
        let all_known = self.filled > 0 && self.waiting() == 0 && self.undecided() == 0 && !self.is_again_under_way();
        if all_known && self.heat.is_none() && self.heat_off.is_none() && self.venting.is_none() {
            self.closed = self.closed.or(Some(at));
        }
    }
}
