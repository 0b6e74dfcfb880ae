//! The steps of a batch: which fits where, and what each changes.

use super::{Batch, Heat, Stage};
use crate::quantity::{Mass, Pressure, Volume};
use crate::vocabulary::Acid;
use chrono::{DateTime, Utc};

/// A step, as the batch needs to know it.
#[derive(Clone, Copy, PartialEq, Debug)]
#[allow(missing_docs)] // as the kinds of statement of the same names, see `vocabulary::Kind`
pub enum Step {
    Drained { mass: Option<Mass>, volume: Option<Volume> },
    Filled { jars: Option<u32> },
    AcidAdded { acid: Option<Acid> },
    Venting,
    AtHeat,
    AtPressure(Pressure),
    LostHeat,
    HeatOff,
    PressureDown,
    Lifted { jars: Option<u32> },
    Sealed { jars: Option<u32>, of: Option<u32> },
    Unsealed { jars: Option<u32> },
    Reprocessed { jars: Option<u32> },
    Refrigerated { jars: Option<u32> },
    Gone { jars: u32 },
}

/// What a step did, beyond the batch itself: for the ledger.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub struct Taken {
    /// Jars newly filled.
    pub filled: u32,
    /// Jars newly sealed.
    pub sealed: u32,
    /// Jars newly in the refrigerator.
    pub refrigerated: u32,
    /// Jars that go through again.
    pub reprocessed: u32,
    /// The heat went off before the minutes were up.
    pub too_soon: bool,
}

/// Why a step does not fit.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Misfit {
    /// It comes before its time: the minutes are not up.
    TooSoon {
        /// When they will be.
        ends: DateTime<Utc>,
    },
    /// It belongs to another stage.
    OutOfOrder(Stage),
    /// The clock runs already.
    Running {
        /// Since when.
        since: DateTime<Utc>,
    },
    /// More jars than there are.
    TooMany {
        /// As said.
        said: u32,
        /// That there are.
        there: u32,
    },
    /// The 24 hours in which an unsealed jar may go through again are over.
    TooLate {
        /// Since when.
        until: DateTime<Utc>,
    },
    /// As many jars are filled already, and no more were planned.
    Filled {
        /// How many.
        jars: u32,
    },
    /// Only a pressure canner does this.
    NoPressure,
}

impl Batch {
    /// Takes a step.
    ///
    /// # Errors
    /// A [`Misfit`], and nothing is changed.
    pub fn take(&mut self, step: &Step, at: DateTime<Utc>) -> Result<Taken, Misfit> {
        // Steps that were not told are made up for before it is known whether this one fits.
        let mut next = self.clone();
        let taken = next.go(step, at)?;
        *self = next;
        Ok(taken)
    }

    fn go(&mut self, step: &Step, at: DateTime<Utc>) -> Result<Taken, Misfit> {
        let mut taken = Taken::default();
        match *step {
            Step::Drained { mass, volume } => {
                self.drained += mass.unwrap_or_default();
                self.drained_volume += volume.unwrap_or_default();
            }
            Step::Filled { jars } => taken.filled = self.fill(jars, at)?,
            Step::AcidAdded { acid } => {
                self.acid_in = true;
                self.acid = acid.or(self.acid);
            }
            Step::Venting => taken.filled = self.vent(at)?,
            Step::AtHeat => taken.filled = self.heat_up(None, at)?,
            Step::AtPressure(pressure) => taken.filled = self.heat_up(Some(pressure), at)?,
            Step::LostHeat => self.lose_heat(at)?,
            Step::HeatOff => taken.too_soon = self.heat_off(at)?,
            Step::PressureDown => self.pressure_down(at)?,
            Step::Lifted { jars } => taken.too_soon = self.lift(jars, at)?,
            Step::Sealed { jars, of } => taken.sealed = self.seal(jars, of, at)?,
            Step::Unsealed { jars } => self.find_unsealed(jars, at)?,
            Step::Reprocessed { jars } => taken.reprocessed = self.reprocess(jars, at)?,
            Step::Refrigerated { jars } => taken.refrigerated = self.refrigerate(jars, at)?,
            Step::Gone { jars } => self.lose_jars(jars)?,
        }
        self.close_if_decided(at);
        Ok(taken)
    }

    fn fill(&mut self, jars: Option<u32>, at: DateTime<Utc>) -> Result<u32, Misfit> {
        match self.stage(at) {
            Stage::Begun | Stage::Filled | Stage::Venting => {}
            // A later round is filled while an earlier one is in the canner.
            _ if self.planned.is_some_and(|planned| planned > self.filled) && jars.is_some() => {}
            stage => return Err(Misfit::OutOfOrder(stage)),
        }
        // Two people may tell the same filling.
        if self.filled > 0 && self.planned.is_none_or(|planned| planned <= self.filled) {
            return Err(Misfit::Filled { jars: self.filled });
        }
        let filled = jars.unwrap_or_else(|| self.jars().saturating_sub(self.filled).max(1));
        self.filled = self.filled.saturating_add(filled);
        self.filled_at = Some(at);
        Ok(filled)
    }

    /// Nobody heats empty jars: when the filling was not told, it happened all the same.
    fn fill_untold(&mut self, at: DateTime<Utc>) -> Result<u32, Misfit> {
        if self.filled == 0 { self.fill(None, at) } else { Ok(0) }
    }

    fn vent(&mut self, at: DateTime<Utc>) -> Result<u32, Misfit> {
        if !self.canner.is_pressure() {
            return Err(Misfit::NoPressure);
        }
        match self.stage(at) {
            Stage::Begun | Stage::Filled => {}
            stage => return Err(Misfit::OutOfOrder(stage)),
        }
        let filled = self.fill_untold(at)?;
        self.venting = Some(at);
        Ok(filled)
    }

    fn heat_up(&mut self, pressure: Option<Pressure>, at: DateTime<Utc>) -> Result<u32, Misfit> {
        match (self.stage(at), self.heat) {
            (Stage::Begun | Stage::Filled | Stage::Venting, _) => {}
            (Stage::Processing, Some(heat)) => return Err(Misfit::Running { since: heat.since }),
            // Jars that did not seal go through again.
            (Stage::Cooling | Stage::Checking, _) if self.reprocessing() > 0 => self.closed = None,
            (stage, _) => return Err(Misfit::OutOfOrder(stage)),
        }
        let filled = self.fill_untold(at)?;
        self.heat = Some(Heat { since: at, pressure });
        Ok(filled)
    }

    fn lose_heat(&mut self, at: DateTime<Utc>) -> Result<(), Misfit> {
        match self.stage(at) {
            Stage::Processing => self.wait_for_heat(),
            stage => return Err(Misfit::OutOfOrder(stage)),
        }
        Ok(())
    }

    fn wait_for_heat(&mut self) {
        self.heat = None;
        self.venting = None;
        self.restarts += 1;
    }

    /// Says whether it was too soon: then the jars must be processed again in full.
    fn heat_off(&mut self, at: DateTime<Utc>) -> Result<bool, Misfit> {
        match self.stage(at) {
            Stage::Processing => {
                self.wait_for_heat();
                Ok(true)
            }
            Stage::Done => {
                self.heat = None;
                self.venting = None;
                self.heat_off = Some(at);
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
    fn end_heat_untold(&mut self, at: DateTime<Utc>) -> Result<(), Misfit> {
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
    fn lift(&mut self, jars: Option<u32>, at: DateTime<Utc>) -> Result<bool, Misfit> {
        if self.stage(at) == Stage::Processing {
            self.wait_for_heat();
            return Ok(true);
        }
        self.end_heat_untold(at)?;
        match self.stage(at) {
            Stage::Resting | Stage::Depressurising => {}
            stage => return Err(Misfit::OutOfOrder(stage)),
        }
        let again = self.waiting() == 0;
        let there = if again { self.reprocessing() } else { self.in_round() };
        let out = jars.unwrap_or(there);
        if out > there.max(self.waiting()) {
            return Err(Misfit::TooMany { said: out, there });
        }
        if again {
            self.again_out = Some(at);
        } else {
            // A jar that broke in the canner does not come out: fewer than went in end the round all the same.
            self.lifted = (self.lifted + there.max(out)).min(self.filled);
            self.fates.gone += there.saturating_sub(out);
            self.outs.push((at, there.max(out)));
        }
        self.heat_off = None;
        self.pressure_down = None;
        Ok(false)
    }

    /// The seals are told once the jars are out, or when they must be: nobody logs every step.
    fn out_untold(&mut self, at: DateTime<Utc>) -> Result<(), Misfit> {
        self.end_heat_untold(at)?;
        match self.stage(at) {
            Stage::Resting | Stage::Depressurising => self.lift(None, at).map(drop),
            Stage::Cooling | Stage::Checking => Ok(()),
            stage => Err(Misfit::OutOfOrder(stage)),
        }
    }

    fn seal(&mut self, jars: Option<u32>, of: Option<u32>, at: DateTime<Utc>) -> Result<u32, Misfit> {
        self.out_untold(at)?;
        let open = self.undecided();
        if let Some(of) = of.filter(|of| *of > self.filled) {
            return Err(Misfit::TooMany { said: of, there: self.filled });
        }
        if open == 0 {
            // Only jars that went through again can still seal.
            let again = self.reprocessing();
            let sealed = jars.unwrap_or(again);
            if sealed > again || again == 0 {
                return Err(Misfit::TooMany { said: sealed, there: again });
            }
            self.fates.sealed_later += sealed;
            return Ok(sealed);
        }
        let total = jars.zip(of).filter(|(_, of)| *of == self.filled && self.fates.sealed > 0);
        let sealed = match (total, jars) {
            // "6 of 7 sealed" after "5 sealed" is the sum so far.
            (Some((sum, _)), _) => sum.saturating_sub(self.fates.sealed),
            (None, Some(jars)) => jars,
            (None, None) => open.saturating_sub(self.unsealed_open()),
        };
        if sealed > open {
            return Err(Misfit::TooMany { said: sealed, there: open });
        }
        self.fates.sealed += sealed;
        if let (Some(jars), Some(of)) = (jars, of) {
            let failed = of.saturating_sub(jars).min(self.undecided());
            if failed > self.unsealed_open() {
                self.fates.unsealed += failed - self.unsealed_open();
                self.unsealed_at = self.unsealed_at.or(Some(at));
            }
        }
        Ok(sealed)
    }

    fn find_unsealed(&mut self, jars: Option<u32>, at: DateTime<Utc>) -> Result<(), Misfit> {
        self.out_untold(at)?;
        let failed = jars.unwrap_or(1);
        let open = self.undecided().saturating_sub(self.unsealed_open());
        if failed > open {
            // "6 of 7 sealed" and then "one didn't seal" is the same jar told twice.
            if failed <= self.unsealed_open() {
                return Ok(());
            }
            return Err(Misfit::TooMany { said: failed, there: open });
        }
        self.fates.unsealed += failed;
        self.unsealed_at = self.unsealed_at.or(Some(at));
        Ok(())
    }

    /// How many jars "it" or "them" are: those found unsealed, or one.
    fn meant(&self, jars: Option<u32>) -> Result<u32, Misfit> {
        let meant = jars.unwrap_or_else(|| self.unsealed_open().max(1));
        if meant > self.undecided() {
            return Err(Misfit::TooMany { said: meant, there: self.undecided() });
        }
        Ok(meant)
    }

    fn reprocess(&mut self, jars: Option<u32>, at: DateTime<Utc>) -> Result<u32, Misfit> {
        self.out_untold(at)?;
        let meant = self.meant(jars)?;
        if let Some(until) = self.reprocess_until().filter(|until| at > *until) {
            return Err(Misfit::TooLate { until });
        }
        self.fates.unsealed = self.fates.unsealed.max(self.decided_unsealed() + meant);
        self.fates.reprocessed += meant;
        Ok(meant)
    }

    fn refrigerate(&mut self, jars: Option<u32>, at: DateTime<Utc>) -> Result<u32, Misfit> {
        self.out_untold(at)?;
        let meant = self.meant(jars)?;
        self.fates.unsealed = self.fates.unsealed.max(self.decided_unsealed() + meant);
        self.fates.refrigerated += meant;
        Ok(meant)
    }

    fn lose_jars(&mut self, jars: u32) -> Result<(), Misfit> {
        if jars > self.undecided() {
            return Err(Misfit::TooMany { said: jars, there: self.undecided() });
        }
        self.fates.gone += jars;
        Ok(())
    }

    fn decided_unsealed(&self) -> u32 {
        self.fates.refrigerated + self.fates.reprocessed + self.fates.gone
    }

    fn close_if_decided(&mut self, at: DateTime<Utc>) {
        let all_known = self.filled > 0 && self.waiting() == 0 && self.undecided() == 0;
        if all_known && self.heat.is_none() && self.heat_off.is_none() {
            self.closed = self.closed.or(Some(at));
        }
    }
}
