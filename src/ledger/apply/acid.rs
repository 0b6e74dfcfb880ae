//! Acid as it was told, against the published dose; and jars that come off the shelf because theirs was not in.

use super::Apply;
use super::meant::Meant;
use crate::batch::{Batch, Step};
use crate::processes;
use crate::statement::AcidAdded;
use crate::vocabulary::Acid;

impl Apply<'_> {
    /// The step as it counts: acid that is not as published is acid that is missing, and `only in 5` means that the
    /// other jars are without.
    pub(super) fn as_told(&self, place: usize, step: &Step, meant: &Meant<'_>) -> Step {
        let Some(batch) = self.state.batches.get(place) else { return *step };
        match (*step, meant.acid, meant.only) {
            (Step::AcidAdded { .. }, Some(said), _) if !is_as_published(batch, said) => {
                Step::AcidMissing { jars: None }
            }
            (Step::AcidMissing { jars: None }, _, Some(only)) => {
                Step::AcidMissing { jars: batch.jars().checked_sub(only).filter(|jars| *jars > 0) }
            }
            (step, ..) => step,
        }
    }

    /// Whether a step leaves jars without the acid that they need, so that it must be said.
    pub(super) fn lacks_acid(&self, place: usize, step: &Step) -> bool {
        let tells = matches!(step, Step::AcidMissing { .. } | Step::AcidAdded { .. }) || step.is_of_seals();
        tells && self.state.batches.get(place).is_some_and(|batch| batch.is_open() && !batch.is_acidified())
    }

    /// Jars of a batch come off the shelf. Those that are no longer there keep the end that they had.
    pub(super) fn take_off_shelf(&mut self, place: usize, jars: u32) {
        let Some(number) = self.state.batches.get(place).map(|batch| batch.number) else { return };
        let lots = self.state.pantry.take_of_batch(number, jars);
        for lot in &lots {
            self.state.diary.note_off_shelf(lot.on, &lot.product, lot.jar, lot.jars);
        }
        let taken: u32 = lots.iter().map(|lot| lot.jars).sum();
        let totals = self.state.totals_mut(self.at);
        totals.jars_put_up = totals.jars_put_up.saturating_sub(taken);
        let at = self.at;
        if let Some(batch) = self.state.batches.get_mut(place) {
            batch.keep_sealed(jars.saturating_sub(taken), at);
        }
    }
}

/// Whether acid that is told to be in is as published for the jars: bottled, of an acid that has a dose for them, and
/// where an amount was said, as much as that (USDA AIB 539 (2015), Guide 3, Acidification; `processes::dose`). An
/// amount of which nobody said whether it went into each jar must be enough for all of them.
pub(crate) fn is_as_published(batch: &Batch, said: &AcidAdded) -> bool {
    let Some(info) = processes::product(batch.product.as_str()).filter(|_| batch.needs_acid) else { return true };
    if said.fresh == Some(true) {
        return false;
    }
    let amount = said.each.or(said.volume);
    let Some(acid) = said.supply.or(amount.and(batch.acid.or(Some(Acid::LemonJuice)))) else { return true };
    let jar = said.jar.unwrap_or(batch.jar);
    let Some(dose) = processes::dose(info, jar, acid) else { return false };
    match (said.each, said.volume) {
        (Some(each), _) => each >= dose.amount,
        (None, Some(volume)) => dose.for_jars(batch.jars()).is_some_and(|all| volume >= all),
        (None, None) => true,
    }
}
