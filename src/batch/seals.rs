//! The steps after the jars are out: which sealed, and what became of those that did not. A jar may break or lose
//! liquid before that, too.

use super::{Batch, Fate, Misfit, Stage};
use crate::processes::facts;
use chrono::{DateTime, Utc};

impl Batch {
    /// The seals are told once the jars are out, or when they must be: nobody logs every step. Those of an earlier
    /// round may be told while a later one is in the canner.
    fn out_untold(&mut self, at: DateTime<Utc>) -> Result<(), Misfit> {
        let earlier = self.undecided() > 0;
        match self.stage(at) {
            Stage::Begun | Stage::Filled | Stage::Venting | Stage::Processing if earlier => return Ok(()),
            _ => {
                // The heat went off when the minutes were up, or later.
                let ended = self.ends_at(at).filter(|_| self.heat.is_some());
                self.end_heat_untold(at)?;
                self.heat_off = ended.or(self.heat_off);
                self.off_at = self.heat_off.or(self.off_at);
            }
        }
        match self.stage(at) {
            Stage::Resting | Stage::Depressurising => {
                let off = self.heat_off.unwrap_or(at);
                // Lids that were pressed when they had cooled for as long as is printed are those of jars that are out.
                if at < off + facts::SEAL_CHECK_FROM.value {
                    self.check_pressure(at)?;
                }
                // Nobody said when they came out: the hours for reprocessing count from the earliest that they can
                // have.
                let earliest = self.rest_over().unwrap_or(off).min(at);
                self.take_out(None, earliest)
            }
            Stage::Cooling | Stage::Checking => Ok(()),
            Stage::Filled | Stage::Venting => Err(Misfit::Unprocessed),
            stage => Err(Misfit::OutOfOrder(stage)),
        }
    }

    /// Jars that came out a second time and whose end is not known.
    pub fn out_again(&self) -> u32 {
        self.again_lifted.saturating_sub(self.fates.again.sum())
    }

    /// Whether only jars that went through again are left to be told of.
    fn only_again(&self) -> bool {
        self.undecided() == self.fates.open && self.out_again() > 0
    }

    /// The jars of a round that was named whose fate is open.
    fn left_of(&self, round: u32) -> Result<(usize, u32), Misfit> {
        let out = u32::try_from(self.outs.len()).unwrap_or(u32::MAX);
        let misfit = Misfit::NoSuchRound { said: round, out };
        let at = round.checked_sub(1).filter(|at| *at < out).ok_or(misfit)? as usize;
        let (_, left) = self.left_of_rounds().nth(at).ok_or(misfit)?;
        Ok((at, left))
    }

    pub(super) fn seal(
        &mut self,
        jars: Option<u32>,
        of: Option<u32>,
        round: Option<u32>,
        at: DateTime<Utc>,
    ) -> Result<u32, Misfit> {
        self.out_untold(at)?;
        // A batch of one round has no other, however it is called.
        let Some(round) = round.filter(|round| self.rounds() > 1 || *round > 1) else {
            return self.seal_all(jars, of, at);
        };
        let (place, left) = self.left_of(round)?;
        let told = jars.unwrap_or_else(|| left.min(self.undecided().saturating_sub(self.fates.open)));
        if told > left {
            return Err(Misfit::TooMany { said: told, there: left });
        }
        let sealed = self.seal_all(Some(told), of, at)?;
        self.told.resize(self.outs.len(), 0);
        if let Some(known) = self.told.get_mut(place) {
            *known += sealed;
        }
        Ok(sealed)
    }

    fn seal_all(&mut self, jars: Option<u32>, of: Option<u32>, at: DateTime<Utc>) -> Result<u32, Misfit> {
        if self.doubt.is_some() {
            return Err(Misfit::Doubtful);
        }
        let open = self.undecided();
        if let Some(of) = of.filter(|of| *of > self.filled) {
            return Err(Misfit::TooMany { said: of, there: self.filled });
        }
        if open == 0 || self.only_again() {
            // What was processed again without acid is not what was tested.
            return if self.is_acidified() { self.seal_again(jars) } else { Err(Misfit::NotAcidified) };
        }
        let total = jars.zip(of).filter(|(_, of)| *of == self.filled && self.fates.first.sealed > 0);
        let sealed = match (total, jars) {
            // "6 of 7 sealed" after "5 sealed" is the sum so far.
            (Some((sum, _)), _) => sum.saturating_sub(self.fates.first.sealed),
            (None, Some(jars)) => jars,
            (None, None) => open.saturating_sub(self.fates.open),
        };
        if sealed > open {
            return Err(Misfit::TooMany { said: sealed, there: open });
        }
        let shelved = if self.is_acidified() { sealed } else { 0 };
        self.fates.first.sealed += shelved;
        if shelved < sealed {
            self.hold(sealed);
        }
        // A lid that was given up may still go down.
        self.fates.open = self.fates.open.min(self.undecided().saturating_sub(sealed - shelved));
        if let (Some(jars), Some(of)) = (jars, of) {
            let failed = of.saturating_sub(jars).min(self.undecided());
            self.note_unsealed(failed.saturating_sub(self.fates.open), at);
        }
        Ok(shelved)
    }

    /// Only jars that went through again can still seal, and only once they are out.
    fn seal_again(&mut self, jars: Option<u32>) -> Result<u32, Misfit> {
        let there = self.out_again();
        let sealed = jars.unwrap_or(there);
        if sealed > there || there == 0 {
            return Err(Misfit::TooMany { said: sealed, there });
        }
        self.fates.again.sealed += sealed;
        self.fates.open_again = self.fates.open_again.min(self.out_again());
        Ok(sealed)
    }

    fn note_unsealed(&mut self, jars: u32, at: DateTime<Utc>) {
        if jars > 0 {
            self.fates.unsealed += jars;
            self.fates.open += jars;
            self.unsealed_at = self.unsealed_at.or(Some(at));
        }
    }

    pub(super) fn find_unsealed(
        &mut self,
        jars: Option<u32>,
        round: Option<u32>,
        at: DateTime<Utc>,
    ) -> Result<(), Misfit> {
        self.out_untold(at)?;
        let failed = jars.unwrap_or(1);
        if let Some(round) = round.filter(|round| self.rounds() > 1 || *round > 1) {
            let (_, left) = self.left_of(round)?;
            if failed > left {
                return Err(Misfit::TooMany { said: failed, there: left });
            }
        }
        let fresh = self.undecided().saturating_sub(self.fates.open);
        if failed <= fresh {
            self.note_unsealed(failed, at);
            return Ok(());
        }
        if failed <= self.out_again().saturating_sub(self.fates.open_again) {
            self.fates.open_again += failed;
            return Ok(());
        }
        // "6 of 7 sealed" and then "one didn't seal" is the same jar told twice.
        if failed <= self.fates.open + self.fates.open_again {
            return Ok(());
        }
        Err(Misfit::TooMany { said: failed, there: fresh })
    }

    /// How many jars "it" or "them" are: those found unsealed, else those that are held, or one.
    fn meant(&self, jars: Option<u32>) -> Result<u32, Misfit> {
        let known = if self.fates.open > 0 { self.fates.open } else { self.fates.held.max(1) };
        let meant = jars.unwrap_or(known);
        if meant > self.undecided() {
            return Err(Misfit::TooMany { said: meant, there: self.undecided() });
        }
        Ok(meant)
    }

    pub(super) fn reprocess(&mut self, jars: Option<u32>, at: DateTime<Utc>) -> Result<u32, Misfit> {
        self.out_untold(at)?;
        if self.undecided() == 0 && self.out_again() > 0 {
            return Err(Misfit::Again);
        }
        let meant = self.meant(jars)?;
        if let Some(until) = self.reprocess_until().filter(|until| at > *until) {
            return Err(Misfit::TooLate { until });
        }
        if !self.is_acidified() {
            if let Some(until) = self.acid_until().filter(|until| at > *until) {
                return Err(Misfit::AcidTooLate { until });
            }
            // They are opened for it: from here on it is in when somebody says so.
            self.acid_missing = None;
        }
        self.decide_unsealed(meant, true, at);
        self.fates.reprocessed += meant;
        Ok(meant)
    }

    /// Of jars whose fate is told now, so many were known not to have sealed; the others are found so by it, where
    /// their fate says it.
    fn decide_unsealed(&mut self, jars: u32, did_not_seal: bool, at: DateTime<Utc>) {
        let known = jars.min(self.fates.open);
        self.fates.open -= known;
        let held = (jars - known).min(self.fates.held);
        self.fates.held -= held;
        if did_not_seal && jars > known + held {
            self.fates.unsealed += jars - known - held;
            self.unsealed_at = self.unsealed_at.or(Some(at));
        }
    }

    /// Jars come to an end other than on the shelf.
    pub(super) fn end(&mut self, fate: Fate, jars: Option<u32>, at: DateTime<Utc>) -> Result<u32, Misfit> {
        if let Some(ended) = self.end_waiting(fate, jars, at) {
            return ended;
        }
        self.out_untold(at)?;
        if self.undecided() == 0 && self.out_again() > 0 {
            let meant = jars.unwrap_or_else(|| self.fates.open_again.max(1));
            if meant > self.out_again() {
                return Err(Misfit::TooMany { said: meant, there: self.out_again() });
            }
            *self.fates.again.count(fate) += meant;
            self.fates.open_again = self.fates.open_again.saturating_sub(meant);
            return Ok(meant);
        }
        let meant = self.meant(jars)?;
        self.decide_unsealed(meant, matches!(fate, Fate::Refrigerated | Fate::Frozen), at);
        *self.fates.first.count(fate) += meant;
        Ok(meant)
    }

    /// Jars break: those in the canner while it runs, else those that are out, else those that wait for it.
    pub(super) fn break_jars(&mut self, jars: Option<u32>, at: DateTime<Utc>) -> Result<u32, Misfit> {
        if self.filled == 0 {
            return Err(Misfit::OutOfOrder(self.stage(at)));
        }
        let broken = jars.unwrap_or(1);
        let runs = self.heat.is_some() || self.heat_off.is_some();
        if self.waiting() == 0 || (!runs && self.undecided() > 0) {
            return self.end(Fate::Broken, Some(broken), at);
        }
        let there = if runs { self.in_round() } else { self.waiting() };
        if broken > there {
            return Err(Misfit::TooMany { said: broken, there });
        }
        self.fates.first.broken += broken;
        self.broken_inside += broken;
        self.loaded = self.loaded.map(|loaded| loaded - broken.min(loaded));
        if self.loaded == Some(0) || self.waiting() == 0 {
            // Nothing is left in the canner.
            (self.heat, self.heat_off, self.pressure_down) = (None, None, None);
            (self.venting, self.loaded) = (None, None);
            self.end_round(0, at);
        }
        Ok(broken)
    }

    /// Sealed jars broke on the shelf; fewer when fewer had sealed.
    pub fn break_sealed(&mut self, jars: u32) {
        self.move_ends(Fate::Sealed, Fate::Broken, jars);
    }

    /// Jars went from the refrigerator into the freezer; fewer when fewer were there.
    pub fn freeze_refrigerated(&mut self, jars: u32) {
        self.move_ends(Fate::Refrigerated, Fate::Frozen, jars);
    }

    fn move_ends(&mut self, from: Fate, to: Fate, jars: u32) {
        let mut left = jars;
        for ends in [&mut self.fates.first, &mut self.fates.again] {
            let moved = left.min(ends.of(from));
            *ends.count(from) -= moved;
            *ends.count(to) += moved;
            left -= moved;
        }
    }

    /// Jars lost liquid: noted, and said when the seals are looked at.
    pub(super) fn siphon(&mut self, jars: Option<u32>, at: DateTime<Utc>) -> Result<(), Misfit> {
        let heated = self.heat.is_some() || self.heat_off.is_some() || !self.outs.is_empty();
        if !heated {
            return Err(Misfit::OutOfOrder(self.stage(at)));
        }
        let there = self.filled.saturating_sub(self.siphoned);
        let lost = jars.unwrap_or(1);
        if lost > there {
            return Err(Misfit::TooMany { said: lost, there });
        }
        self.siphoned += lost;
        Ok(())
    }
}
