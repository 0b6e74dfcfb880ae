//! Bags into the freezer and out of it to thaw, and stock counted.

use super::{Apply, Mode};
use crate::ledger::effect::{Amount, Effect, Refusal, Shortage};
use crate::ledger::state::{Bag, Lot, Stocked, SupplyKey, Way};
use crate::quantity::{Mass, Number};
use crate::statement::{Counted, Froze, Thawed};
use crate::vocabulary::{Crop, Jar, Stock, Supply};

impl Apply<'_> {
    pub(super) fn froze(&mut self, froze: &Froze) -> Effect {
        if let Some(jars) = froze.jars {
            return self.froze_jars(froze, jars);
        }
        let crop = froze.crop.unwrap_or(Crop::Tomato);
        if froze.from == Some(Stock::Thawing) {
            return self.froze_again(froze, crop);
        }
        let (masses, usual_bag) = self.bags_of(froze);
        let total: Mass = masses.iter().copied().sum();
        let on = self.day();
        let bags: Vec<_> = masses.into_iter().map(|mass| Bag { mass, on }).collect();
        let implied = self.off_counter(crop, total);
        for bag in &bags {
            self.state.freezer.put(crop, *bag);
        }
        self.state.totals_mut(self.at).frozen += total;
        self.state.diary.note_frozen(on, crop, total);
        let empty = Stocked { count: u32::try_from(bags.len()).unwrap_or(u32::MAX), ..Stocked::default() };
        self.state.supplies.use_up(SupplyKey(Supply::Bags, None), empty);
        Effect { implied, moved: total, bags, usual_bag, ..Effect::default() }
    }

    /// The weights of the bags that were frozen, and whether the usual weight had to stand in for one that was not
    /// said.
    pub(super) fn bags_of(&self, froze: &Froze) -> (Vec<Mass>, bool) {
        let usual = self.state.settings.usual_bag();
        let times = |each: Mass, bags: u32| each.times(Number::whole(i64::from(bags))).unwrap_or_default().split(bags);
        match (froze.mass, froze.bags, froze.each) {
            (Some(mass), Some(bags), _) => (mass.split(bags.max(1)), false),
            (Some(mass), None, Some(each)) => (mass.split(whole_bags(mass, each)), false),
            (Some(mass), None, None) => (mass.split(whole_bags(mass, usual)), false),
            (None, bags, Some(each)) => (times(each, bags.unwrap_or(1).max(1)), false),
            (None, Some(bags), None) => (times(usual, bags.max(1)), true),
            (None, None, None) => (Vec::new(), false),
        }
    }

    pub(super) fn thawed(&mut self, thawed: &Thawed) -> Effect {
        let crop = thawed.crop.unwrap_or(Crop::Tomato);
        let taken = match self.out_of_freezer(crop, thawed.bags, thawed.mass) {
            Ok(taken) => taken,
            Err(refusal) => return Effect::refused(refusal),
        };
        let batch = self.batch_for_thawed(thawed.batch.as_deref(), crop);
        match batch.and_then(|number| self.state.batches.iter_mut().find(|batch| batch.number == number)) {
            Some(batch) => batch.thawed += taken.moved,
            None => {
                *self.state.thawing.entry(crop).or_default() += taken.moved;
                let heaviest = taken.bags.iter().map(|bag| bag.mass).max().unwrap_or_default();
                self.state.thawing_since.insert(crop, (self.at, heaviest));
            }
        }
        self.state.totals_mut(self.at).thawed += taken.moved;
        Effect { batch, ..taken }
    }

    /// Takes bags out of the freezer by count, by weight or by both.
    pub(super) fn out_of_freezer(
        &mut self,
        crop: Crop,
        bags: Option<u32>,
        mass: Option<Mass>,
    ) -> Result<Effect, Refusal> {
        let there = (self.state.freezer.bags(crop).len() as u32, self.state.freezer.mass(crop));
        let short = match (bags, mass) {
            (Some(bags), _) if bags > there.0 => Some((Amount::Bags(bags, crop), Amount::Bags(there.0, crop))),
            (None, Some(mass)) if mass > there.1 => Some((Amount::Mass(mass, crop), Amount::Mass(there.1, crop))),
            _ => None,
        };
        let cut = short.map(|(wanted, there)| Shortage { place: "freezer", wanted, there });
        if let (Some(shortage), Mode::Decide) = (&cut, self.mode) {
            return Err(Refusal::NotEnough(shortage.clone()));
        }
        let taken = match (bags, mass) {
            (Some(bags), mass) => self.state.freezer.take_bags(crop, bags, mass),
            (None, Some(mass)) => self.state.freezer.take_mass(crop, mass.min(there.1)),
            (None, None) => Vec::new(),
        };
        Ok(Effect { moved: taken.iter().map(|bag| bag.mass).sum(), bags: taken, cut, ..Effect::default() })
    }

    pub(super) fn counted(&mut self, counted: &Counted) -> Effect {
        if let Some(supply) = counted.supply {
            let there = Stocked {
                count: counted.count.unwrap_or(0),
                mass: counted.mass.unwrap_or_default(),
                volume: counted.volume.unwrap_or_default(),
            };
            let key = SupplyKey(supply, counted.jar.filter(|_| supply == Supply::Jars));
            self.state.supplies.set(key, there);
            return Effect { used: vec![key], ..Effect::default() };
        }
        let crop = counted.crop.unwrap_or(Crop::Tomato);
        let place = counted.from.unwrap_or(if counted.jars.is_some() {
            Stock::Pantry
        } else if counted.bags.is_some() {
            Stock::Freezer
        } else {
            Stock::Counter
        });
        match place {
            Stock::Counter => self.count_counter(crop, counted.mass.unwrap_or_default()),
            Stock::Freezer if counted.jars.is_some() => self.count_shelf(counted, place),
            Stock::Freezer => self.count_freezer(crop, counted.bags, counted.mass),
            Stock::Thawing => self.count_thawing(crop, counted.mass.unwrap_or_default()),
            Stock::Pantry | Stock::Fridge => self.count_shelf(counted, place),
        }
        Effect::default()
    }

    /// Sets the bags right: the oldest are the ones that went untold, and bags that were never told are of today. Where
    /// the weight does not fit the bags, all weigh the same.
    fn count_freezer(&mut self, crop: Crop, count: Option<u32>, mass: Option<Mass>) {
        let mut bags = self.state.freezer.bags(crop).to_vec();
        let usual = self.state.settings.usual_bag();
        let there: Mass = bags.iter().map(|bag| bag.mass).sum();
        let count = count.unwrap_or_else(|| match mass {
            Some(mass) if mass.is_zero() => 0,
            Some(mass) if mass == there => bags.len() as u32,
            Some(mass) => whole_bags(mass, usual),
            None => bags.len() as u32,
        }) as usize;
        let on = self.day();
        if count < bags.len() {
            bags.drain(..bags.len() - count);
        }
        bags.resize(count, Bag { mass: usual, on });
        let total: Mass = bags.iter().map(|bag| bag.mass).sum();
        if let Some(mass) = mass.filter(|mass| *mass != total) {
            for (bag, share) in bags.iter_mut().zip(mass.split(count as u32)) {
                bag.mass = share;
            }
        }
        self.state.freezer.set(crop, bags);
    }

    fn count_shelf(&mut self, counted: &Counted, place: Stock) {
        let product = counted.product.clone().unwrap_or_else(|| self.state.settings.product.clone());
        let on = self.day();
        let shelf = self.state.shelf(place);
        let product = super::shelf::on_shelf(shelf, &product, counted.jar);
        let jar = counted.jar.unwrap_or_else(|| {
            shelf.lots().iter().find(|lot| lot.product == product).map_or(Jar::Quart, |lot| lot.jar)
        });
        let lot = Lot { product, jar, jars: counted.jars.unwrap_or(0), on, batch: None };
        if place != Stock::Pantry {
            self.state.shelf_mut(place).set(lot);
            return;
        }
        // Jars that nobody told of have been eaten, as a rule; those found more were put up one day or another.
        let there = self.state.pantry.jars(Some(&lot.product), Some(lot.jar));
        let gone = there.saturating_sub(lot.jars);
        self.state.diary.note_gone(on, &lot.product, lot.jar, gone, Way::Used);
        self.state.pantry.set(lot);
    }
}

/// How many bags of a usual weight a weight is, at least one.
fn whole_bags(mass: Mass, usual: Mass) -> u32 {
    (mass.ratio(usual).round() as u32).clamp(1, 1000)
}
