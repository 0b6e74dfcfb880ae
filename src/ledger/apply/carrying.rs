//! What a step of a batch moves in the rest of the ledger: fruit, lids and acid when jars are filled, jars when their
//! fate is known.

use super::meant::Meant;
use super::{Apply, Mode};
use crate::batch::{Bearing, Fate, Step, Taken};
use crate::ledger::effect::{Amount, Effect, Refusal, Shortage};
use crate::ledger::state::{Lot, Stocked, SupplyKey, Way};
use crate::quantity::Mass;
use crate::statement::Froze;
use crate::vocabulary::{Stock, Supply};

impl Apply<'_> {
    /// What a step moves outside the batch.
    pub(super) fn carry_over(&mut self, place: usize, taken: Taken) -> Effect {
        let Some(batch) = self.state.batches.get(place).cloned() else { return Effect::default() };
        let mut effect = Effect {
            batch: Some(batch.number),
            too_soon: taken.too_soon,
            too_low: taken.too_low,
            resumed: taken.resumed,
            lost_heat: taken.lost_heat,
            steady: taken.steady,
            bearing: taken.bearing,
            closed: batch.closed == Some(self.at),
            ..Effect::default()
        };
        if taken.filled > 0 {
            self.fill_jars(place, taken.filled, &mut effect);
        }
        self.count_acid_anew(place);
        if taken.reprocessed > 0 {
            let lids = SupplyKey(Supply::Lids, None);
            self.state.supplies.use_up(lids, Stocked { count: taken.reprocessed, ..Stocked::default() });
            effect.used = vec![lids];
            effect.used.retain(|key| self.state.supplies.get(key.0).is_some());
        }
        let on = self.day();
        let lot = |jars| Lot { product: batch.product.clone(), jar: batch.jar, jars, on, batch: Some(batch.number) };
        if taken.unshelved > 0 {
            self.take_off_shelf(place, taken.unshelved);
        }
        if taken.sealed > 0 {
            // A jar is as old as its last time in the canner.
            let canned = batch.again_out.or(batch.outs.last().map(|(out, _)| *out));
            let canned = canned.map_or(on, |out| self.state.settings.zone.day(out));
            self.state.pantry.put(Lot { on: canned, ..lot(taken.sealed) });
            self.state.diary.note_put_up(on, &batch.product, batch.jar, taken.sealed);
            self.state.totals_mut(self.at).jars_put_up += taken.sealed;
        }
        if let Some(Bearing::Undone { shelved: shelved @ 1.. }) = taken.bearing {
            let lots = self.state.pantry.take_of_batch(batch.number, shelved);
            let back = lots.iter().map(|lot| lot.jars).sum::<u32>();
            let totals = self.state.totals_mut(self.at);
            totals.jars_put_up = totals.jars_put_up.saturating_sub(back);
        }
        if let Some((fate, jars)) = taken.ended {
            effect.jars = vec![(batch.product.clone(), batch.jar, jars)];
            match fate {
                Fate::Refrigerated => self.state.fridge.put(lot(jars)),
                Fate::Frozen => self.state.freezer_jars.put(lot(jars)),
                Fate::Sealed | Fate::Eaten | Fate::Given | Fate::Tossed | Fate::Broken => {}
            }
        }
        effect
    }

    fn fill_jars(&mut self, place: usize, filled: u32, effect: &mut Effect) {
        let Some(batch) = self.state.batches.get(place).cloned() else { return };
        let first = batch.filled == filled;
        let stated = batch.stated.filter(|_| first);
        let (fruit, implied) = self.fruit_into_jars(&batch.product, Some(batch.thawed), stated);
        if let Some(batch) = self.state.batches.get_mut(place) {
            batch.raw += fruit.raw;
            batch.fresh += fruit.fresh;
            batch.thawed = Mass::ZERO;
        }
        effect.implied = implied;
        let acid = batch.acid.unwrap_or_else(|| self.state.acid_for(&batch.product, batch.jar));
        let (used, of_acid) = self.use_supplies(&batch.product, batch.jar, filled, Some(acid));
        effect.used = used;
        if let Some(batch) = self.state.batches.get_mut(place) {
            let before = batch.acid_counted.filter(|(counted, ..)| *counted == acid);
            let (mass, volume) = before.map_or_else(Default::default, |(_, mass, volume)| (mass, volume));
            batch.acid_counted = Some((acid, mass + of_acid.mass, volume + of_acid.volume));
        }
    }

    /// Jars into the freezer: those of a batch that did not seal, else those in the refrigerator, else those of a batch
    /// of which nothing is known.
    pub(super) fn froze_jars(&mut self, froze: &Froze, jars: u32) -> Effect {
        let step = Step::Ended { fate: Fate::Frozen, jars: Some(jars) };
        let meant = Meant { name: froze.batch.as_deref(), ..Meant::default() };
        let unsealed = self.state.batches.iter().any(|batch| batch.unsealed_open() + batch.fates.open_again > 0);
        if !unsealed && froze.batch.is_none() && self.state.fridge.jars(None, None) >= jars {
            return self.fridge_to_freezer(jars);
        }
        let mut effect = self.take_step(&step, &meant);
        match (&effect.refusal, self.mode) {
            (Some(Refusal::NoBatch(_)), Mode::Decide) => {
                let amount = |jars| Amount::Jars(jars, None, None);
                let there = amount(self.state.fridge.jars(None, None));
                effect.refusal =
                    Some(Refusal::NotEnough(Shortage { place: Stock::Fridge.as_str(), wanted: amount(jars), there }));
                effect
            }
            _ => effect,
        }
    }

    fn fridge_to_freezer(&mut self, jars: u32) -> Effect {
        let on = self.day();
        let lots = self.state.fridge.take(None, None, jars);
        let moved = lots.iter().map(|lot| (lot.product.clone(), lot.jar, lot.jars)).collect();
        for lot in lots {
            let batch = lot.batch.and_then(|number| self.state.batches.iter_mut().find(|batch| batch.number == number));
            if let Some(batch) = batch {
                batch.freeze_refrigerated(lot.jars);
            }
            self.state.freezer_jars.put(Lot { on, ..lot });
        }
        Effect { jars: moved, from: Some(Stock::Fridge), ..Effect::default() }
    }

    /// Sealed jars of a batch that was closed a short while ago broke on the shelf; `None` where an open batch is
    /// meant.
    pub(super) fn broke_on_the_shelf(&mut self, jars: u32, meant: &Meant<'_>) -> Option<Effect> {
        if self.fits_any_open(&Step::Broke { jars: Some(jars) }, meant) {
            return None;
        }
        let pantry = &self.state.pantry;
        let broken = |batch: &crate::batch::Batch| {
            meant.name.is_none_or(|name| batch.is_called(name)) && pantry.of_batch(batch.number) >= jars
        };
        let place = self.state.batches.iter().rposition(broken)?;
        let batch = self.state.batches.get_mut(place)?;
        batch.break_sealed(jars);
        let number = batch.number;
        let lots = self.state.pantry.take_of_batch(number, jars);
        let on = self.day();
        for lot in &lots {
            self.state.diary.note_gone(on, &lot.product, lot.jar, lot.jars, Way::Tossed);
        }
        let gone = lots.into_iter().map(|lot| (lot.product, lot.jar, lot.jars)).collect();
        Some(Effect { batch: Some(number), jars: gone, from: Some(Stock::Pantry), ..Effect::default() })
    }
}
