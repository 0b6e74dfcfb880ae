//! Food that was eaten, given away or thrown away, from wherever it was.

use super::{Apply, Mode};
use crate::batch::{Fate, Step};
use crate::ledger::effect::{Amount, Effect, Refusal, Shortage};
use crate::ledger::state::Way;
use crate::quantity::Mass;
use crate::statement::Taken;
use crate::vocabulary::{Crop, Jar, Product, Stock};

/// What became of it.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Use {
    Eaten,
    Given,
    Tossed,
}

impl Use {
    const fn way(self) -> Way {
        match self {
            Self::Eaten => Way::Used,
            Self::Given => Way::Given,
            Self::Tossed => Way::Tossed,
        }
    }
}

impl Apply<'_> {
    pub(super) fn taken(&mut self, taken: &Taken, why: Use) -> Effect {
        if let Some(jars) = taken.jars {
            return self.jars_taken(taken, jars, why);
        }
        let crop = taken.crop.unwrap_or(Crop::Tomato);
        let place = taken.from.unwrap_or(if taken.bags.is_some() { Stock::Freezer } else { Stock::Counter });
        if place == Stock::Thawing {
            return match self.out_of_thawing(crop, taken.bags, taken.mass) {
                Ok(effect) => {
                    self.count_use(effect.moved, why, false);
                    effect
                }
                Err(refusal) => Effect::refused(refusal),
            };
        }
        if place == Stock::Freezer || taken.bags.is_some() {
            return match self.out_of_freezer(crop, taken.bags, taken.mass) {
                Ok(effect) => {
                    self.count_use(effect.moved, why, false);
                    effect
                }
                Err(refusal) => Effect::refused(refusal),
            };
        }
        let mass = taken.mass.unwrap_or_default();
        let implied = self.off_counter(crop, mass);
        self.count_use(mass, why, true);
        Effect { implied, moved: mass, ..Effect::default() }
    }

    fn count_use(&mut self, mass: Mass, why: Use, from_counter: bool) {
        let totals = self.state.totals_mut(self.at);
        match why {
            Use::Eaten => totals.eaten += mass,
            Use::Given => totals.given += mass,
            Use::Tossed => totals.tossed += mass,
        }
        if from_counter {
            totals.taken_from_counter += mass;
        }
    }

    /// Jars that leave: from where it was said, else from the pantry, the refrigerator, the freezer, else from the jars
    /// of a batch of which nothing is known yet.
    fn jars_taken(&mut self, taken: &Taken, jars: u32, why: Use) -> Effect {
        let (product, jar) = (taken.product.as_ref(), taken.jar);
        // A jar that is thrown away while one has not sealed is that one; so is one that is eaten and not said to be of
        // anything.
        let nameless = product.is_none() && jar.is_none() || taken.unsealed == Some(true);
        if (why == Use::Tossed || nameless)
            && taken.from.is_none()
            && let Some(effect) = self.lost_before_the_shelf(product, jar, jars, why, true)
        {
            return effect;
        }
        let places: &[Stock] = match taken.from {
            Some(Stock::Pantry) => &[Stock::Pantry],
            Some(Stock::Fridge) => &[Stock::Fridge],
            Some(Stock::Freezer) => &[Stock::Freezer],
            Some(Stock::Counter | Stock::Thawing) | None => &[Stock::Pantry, Stock::Fridge, Stock::Freezer],
        };
        for place in places {
            if let Some(effect) = self.off_shelf(*place, product, jar, jars, why.way()) {
                return effect;
            }
        }
        if let Some(effect) = self.lost_before_the_shelf(product, jar, jars, why, false) {
            return effect;
        }
        self.short_of_jars(places.first().copied().unwrap_or(Stock::Pantry), product, jar, jars, why.way())
    }

    /// Refuses, or when the past has changed takes what is there.
    pub(super) fn short_of_jars(
        &mut self,
        place: Stock,
        product: Option<&Product>,
        jar: Option<Jar>,
        jars: u32,
        way: Way,
    ) -> Effect {
        let shelf = self.state.shelf(place);
        let known = product.map(|product| super::shelf::on_shelf(shelf, product, jar));
        let there = shelf.jars(known.as_ref(), jar);
        let amount = |jars| Amount::Jars(jars, jar, product.cloned());
        let shortage = Shortage { place: place.as_str(), wanted: amount(jars), there: amount(there) };
        match self.mode {
            Mode::Decide => Effect::refused(Refusal::NotEnough(shortage)),
            Mode::Fold => {
                let taken = self.off_shelf(place, product, jar, there, way).unwrap_or_default();
                Effect { cut: Some(shortage), ..taken }
            }
        }
    }

    /// Jars of a batch that were not on the shelf yet: of those that did not seal, or of all that are out.
    fn lost_before_the_shelf(
        &mut self,
        product: Option<&Product>,
        jar: Option<Jar>,
        jars: u32,
        why: Use,
        unsealed: bool,
    ) -> Option<Effect> {
        let at = self.at;
        let batch = self.state.batches.iter_mut().rev().find(|batch| {
            let meant = product.is_none_or(|product| super::shelf::names(product, &batch.product));
            let open = batch.unsealed_open() + batch.fates.open_again;
            // What stood for too long is what is thrown away.
            let stood = if batch.is_too_late(at) { batch.may_end_waiting(at) } else { 0 };
            let there = if unsealed { open.max(stood) } else { batch.undecided().max(batch.may_end_waiting(at)) };
            meant && jar.is_none_or(|jar| jar == batch.jar) && there >= jars
        })?;
        let fate = match why {
            Use::Eaten => Fate::Eaten,
            Use::Given => Fate::Given,
            Use::Tossed => Fate::Tossed,
        };
        batch.take(&Step::Ended { fate, jars: Some(jars) }, self.at).ok()?;
        let gone = vec![(batch.product.clone(), batch.jar, jars)];
        let closed = batch.closed == Some(self.at);
        Some(Effect { jars: gone, batch: Some(batch.number), closed, ..Effect::default() })
    }
}
