//! Fruit that is out of the freezer and goes another way than into jars.

use super::{Apply, Mode};
use crate::ledger::effect::{Amount, Effect, Refusal, Shortage};
use crate::ledger::state::Bag;
use crate::quantity::{Mass, Number};
use crate::statement::Froze;
use crate::vocabulary::{Crop, Stock};

impl Apply<'_> {
    /// All of a crop that is thawing, for a batch or not.
    fn all_thawing(&self, crop: Crop) -> Mass {
        let claimed = self.state.batches.iter().filter(|batch| super::crop_of(&batch.product) == crop);
        self.state.thawing(crop) + claimed.map(|batch| batch.thawed).sum()
    }

    /// Takes a weight, or so many bags of the usual weight, of what is thawing: of what no batch has claimed first.
    pub(super) fn out_of_thawing(
        &mut self,
        crop: Crop,
        bags: Option<u32>,
        mass: Option<Mass>,
    ) -> Result<Effect, Refusal> {
        let there = self.all_thawing(crop);
        let usual = self.state.settings.usual_bag();
        // How many bags are thawing is not kept, so bags are taken as usual ones; more than is there they are not.
        let of_bags = bags.and_then(|bags| usual.times(Number::whole(bags.into()))).map(|mass| mass.min(there));
        let wanted = mass.or(of_bags).unwrap_or(there);
        let short = wanted > there || there.is_zero();
        let cut = short.then(|| {
            let wanted = if wanted.is_zero() { usual } else { wanted };
            let (wanted, there) = (Amount::Mass(wanted, crop), Amount::Mass(there, crop));
            Shortage { place: Stock::Thawing.as_str(), wanted, there }
        });
        if let (Some(shortage), Mode::Decide) = (&cut, self.mode) {
            return Err(Refusal::NotEnough(shortage.clone()));
        }
        let taken = wanted.min(there);
        self.take_thawing(crop, taken);
        Ok(Effect { moved: taken, cut, from: Some(Stock::Thawing), ..Effect::default() })
    }

    fn take_thawing(&mut self, crop: Crop, mass: Mass) {
        let loose = self.state.thawing(crop);
        let mut rest = mass.less(loose);
        self.leave_thawing(crop, loose.less(mass));
        for batch in &mut self.state.batches {
            if super::crop_of(&batch.product) == crop {
                let taken = rest.min(batch.thawed);
                batch.thawed = batch.thawed.less(taken);
                rest = rest.less(taken);
            }
        }
    }

    /// Puts thawed fruit back into the freezer: it was picked and frozen once, and counts no second time.
    pub(super) fn froze_again(&mut self, froze: &Froze, crop: Crop) -> Effect {
        let mut effect = match self.out_of_thawing(crop, froze.bags, froze.mass) {
            Ok(effect) => effect,
            Err(refusal) => return Effect::refused(refusal),
        };
        let told = Froze { mass: Some(effect.moved), bags: froze.bags, ..Froze::default() };
        let (masses, _) = self.bags_of(&told);
        let on = self.day();
        effect.bags = masses.into_iter().filter(|mass| !mass.is_zero()).map(|mass| Bag { mass, on }).collect();
        for bag in &effect.bags {
            self.state.freezer.put(crop, *bag);
        }
        let totals = self.state.totals_mut(self.at);
        totals.thawed = totals.thawed.less(effect.moved);
        effect
    }

    /// Sets right what is thawing.
    pub(super) fn count_thawing(&mut self, crop: Crop, mass: Mass) {
        let there = self.all_thawing(crop);
        if mass < there {
            self.take_thawing(crop, there.less(mass));
        } else if mass > there {
            let loose = self.state.thawing(crop);
            self.state.thawing.insert(crop, loose + mass.less(there));
            self.state.thawing_since.entry(crop).or_insert((self.at, mass.less(there)));
        }
    }
}
