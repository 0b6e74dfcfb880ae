//! Acid in the jars: whether it is known to be in, and what becomes of jars of which it is not.
//!
//! A batch that must be acidified is not until somebody says so. Silence changes nothing: its jars go through the
//! canner and may seal, but they are held ([`Fates::held`](super::Fates)) and reach the shelf only when the acid is
//! told.

use super::{Batch, Misfit};
use crate::processes::facts;
use crate::vocabulary::Acid;
use chrono::{DateTime, Utc};

impl Batch {
    /// Whether its jars are as acid as their process was tested for, as far as anybody said.
    pub fn is_acidified(&self) -> bool {
        !self.needs_acid || self.acid_in
    }

    /// Whether jars of it have had their process.
    fn is_processed(&self) -> bool {
        self.heat_off.is_some() || !self.outs.is_empty()
    }

    /// Until when jars that were processed without acid may be done again with it; `None` before they are out.
    pub fn acid_until(&self) -> Option<DateTime<Utc>> {
        let processed = self.heat_off.or(self.outs.first().map(|(out, _)| *out))?;
        Some(processed + facts::ACID_FORGOTTEN_WITHIN.value)
    }

    /// The acid is said to be in. Returns the jars that may now go onto the shelf, and whether a clock was lost: a lid
    /// that was opened for it while the canner ran needs the full time again.
    ///
    /// Jars that were said to be without when they were processed stay held: of two people who say different things,
    /// the one who says less is believed, until that is taken back. It is different where those jars are gone.
    pub(super) fn acidify(&mut self, acid: Option<Acid>, at: DateTime<Utc>) -> Result<(u32, bool), Misfit> {
        let mut lost = false;
        if let Some(missing) = self.acid_missing {
            let gone = missing < self.filled && self.fates.first.gone() >= missing;
            if self.is_processed() && self.needs_acid && !gone {
                return Err(Misfit::AcidDisputed);
            }
            lost = self.heat.is_some();
            if lost {
                self.wait_for_heat(at);
            }
        }
        self.acid_in = true;
        self.acid_missing = None;
        self.acid = acid.or(self.acid);
        let released = std::mem::take(&mut self.fates.held);
        self.fates.first.sealed += released;
        Ok((released, lost))
    }

    /// Jars are without acid. Returns how many of them are on the shelf and must come off it.
    pub(super) fn miss_acid(&mut self, jars: Option<u32>) -> Result<u32, Misfit> {
        let there = self.jars();
        let missing = jars.unwrap_or(there);
        if missing > there {
            return Err(Misfit::TooMany { said: missing, there });
        }
        if missing == 0 {
            return Ok(0);
        }
        self.acid_in = false;
        self.acid_missing = Some(self.acid_missing.map_or(missing, |before| before.max(missing)));
        if !self.needs_acid {
            return Ok(0);
        }
        // Which of the sealed jars they are, nobody can see.
        let first = std::mem::take(&mut self.fates.first.sealed);
        self.fates.held += first;
        let shelved = first + std::mem::take(&mut self.fates.again.sealed);
        if shelved > 0 {
            self.closed = None;
        }
        Ok(shelved)
    }

    /// Of jars that were to come off the shelf some are no longer there: what became of them stays as it was.
    pub fn keep_sealed(&mut self, jars: u32, at: DateTime<Utc>) {
        let kept = jars.min(self.fates.held);
        self.fates.held -= kept;
        self.fates.first.sealed += kept;
        self.close_if_decided(at);
    }

    /// Sealed jars are held while their acid is not told. Those that went through again have had their second chance.
    pub(super) fn hold(&mut self, jars: u32) {
        self.fates.held = self.fates.held.saturating_add(jars);
    }
}
