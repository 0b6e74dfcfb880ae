//! Fresh fruit indoors, by picking.

use crate::processes::ripening;
use crate::quantity::{Mass, Temperature};
use crate::vocabulary::{Crop, Ripeness};
use chrono::NaiveDate;
use std::collections::BTreeMap;

/// What is left of the fruit of one day, one colour class and one variety.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Fruit {
    /// The day it was picked.
    pub on: NaiveDate,
    /// Its colour class then, if said.
    pub class: Option<Ripeness>,
    /// The variety, if said.
    pub variety: Option<String>,
    /// How much of it is left.
    pub mass: Mass,
}

/// The counter: pickings of each crop, oldest first.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Counter(BTreeMap<Crop, Vec<Fruit>>);

impl Counter {
    /// What lies there of a crop.
    pub fn mass(&self, crop: Crop) -> Mass {
        self.pickings(crop).iter().map(|fruit| fruit.mass).sum()
    }

    /// All of it.
    pub fn total(&self) -> Mass {
        self.sums().map(|(_, mass)| mass).sum()
    }

    /// Every crop that lies there, with its weight.
    pub fn sums(&self) -> impl Iterator<Item = (Crop, Mass)> {
        self.0.keys().map(|crop| (*crop, self.mass(*crop)))
    }

    /// The pickings of a crop of which something is left, oldest first.
    pub fn pickings(&self, crop: Crop) -> &[Fruit] {
        self.0.get(&crop).map_or(&[], Vec::as_slice)
    }

    /// Lays fruit on it.
    pub(in crate::ledger) fn put(&mut self, crop: Crop, fruit: Fruit) {
        if fruit.mass.is_zero() {
            return;
        }
        let pickings = self.0.entry(crop).or_default();
        let same =
            |other: &&mut Fruit| other.on == fruit.on && other.class == fruit.class && other.variety == fruit.variety;
        if let Some(known) = pickings.iter_mut().find(same) {
            known.mass += fruit.mass;
            return;
        }
        let place = pickings.partition_point(|other| other.on <= fruit.on);
        pickings.insert(place, fruit);
    }

    /// Takes a weight off it, less when there is less: what is ripest in a room of this temperature goes first, the
    /// oldest among equals. Fruit of no said class counts as picked ripe: what is not, people say.
    pub(in crate::ledger) fn take(&mut self, crop: Crop, mass: Mass, room: Option<Temperature>) {
        let Some(pickings) = self.0.get_mut(&crop) else { return };
        let mut order: Vec<(NaiveDate, usize)> =
            pickings.iter().enumerate().map(|(place, fruit)| (ripe_by(crop, fruit, room), place)).collect();
        order.sort();
        let mut wanted = mass;
        for (_, place) in order {
            if let Some(fruit) = pickings.get_mut(place) {
                let some = wanted.min(fruit.mass);
                fruit.mass -= some;
                wanted -= some;
            }
        }
        pickings.retain(|fruit| !fruit.mass.is_zero());
        if pickings.is_empty() {
            self.0.remove(&crop);
        }
    }
}

/// The day by which fruit is ripe, to put pickings in order; that of its picking where no figure says more.
fn ripe_by(crop: Crop, fruit: &Fruit, room: Option<Temperature>) -> NaiveDate {
    let class = fruit.class.filter(|_| crop == Crop::Tomato);
    // A room where nothing ripens keeps the order of the classes.
    let days = class.map_or(0.0, |class| {
        ripening::days_to_red(class, room)
            .or_else(|_| ripening::days_to_red(class, None))
            .map_or(0.0, |ripening| ripening.days)
    });
    fruit.on + chrono::Days::new(days.round() as u64)
}
