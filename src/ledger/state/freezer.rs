//! Bags in the freezer, oldest first.

use crate::quantity::Mass;
use crate::vocabulary::Crop;
use chrono::NaiveDate;
use std::collections::BTreeMap;

/// A bag.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Bag {
    /// Its weight.
    pub mass: Mass,
    /// The day it was frozen.
    pub on: NaiveDate,
}

/// The freezer.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Freezer(BTreeMap<Crop, Vec<Bag>>);

impl Freezer {
    /// The bags of a crop, oldest first.
    pub fn bags(&self, crop: Crop) -> &[Bag] {
        self.0.get(&crop).map_or(&[], Vec::as_slice)
    }

    /// Every crop that has bags.
    pub fn crops(&self) -> impl Iterator<Item = (Crop, &[Bag])> {
        self.0.iter().map(|(crop, bags)| (*crop, bags.as_slice()))
    }

    /// The weight of a crop.
    pub fn mass(&self, crop: Crop) -> Mass {
        self.bags(crop).iter().map(|bag| bag.mass).sum()
    }

    /// Puts a bag in, behind those as old.
    pub(in crate::ledger) fn put(&mut self, crop: Crop, bag: Bag) {
        let bags = self.0.entry(crop).or_default();
        let place = bags.partition_point(|other| other.on <= bag.on);
        bags.insert(place, bag);
    }

    /// Takes out the `count` oldest bags, or, when a weight is said, those next to each other that weigh just that;
    /// fewer when there are fewer.
    pub(in crate::ledger) fn take_bags(&mut self, crop: Crop, count: u32, mass: Option<Mass>) -> Vec<Bag> {
        let Some(bags) = self.0.get_mut(&crop) else { return Vec::new() };
        let count = (count as usize).min(bags.len());
        let exact = mass.and_then(|mass| window(bags, count, mass));
        let start = exact.unwrap_or(0);
        let taken = bags.drain(start..start + count).collect();
        self.drop_empty(crop);
        taken
    }

    /// Takes out a weight: whole bags that weigh just that if there are such, else the oldest that fit whole and the
    /// rest from the oldest left, whose bag stays with what is left in it. Less when there is less.
    pub(in crate::ledger) fn take_mass(&mut self, crop: Crop, mass: Mass) -> Vec<Bag> {
        let Some(bags) = self.0.get_mut(&crop) else { return Vec::new() };
        let exact = (1..=bags.len()).find_map(|count| window(bags, count, mass).map(|start| (start, count)));
        if let Some((start, count)) = exact {
            let taken = bags.drain(start..start + count).collect();
            self.drop_empty(crop);
            return taken;
        }
        let (mut wanted, mut taken, mut kept) = (mass, Vec::new(), Vec::new());
        for bag in bags.drain(..) {
            if bag.mass <= wanted {
                wanted = wanted.less(bag.mass);
                taken.push(bag);
            } else {
                kept.push(bag);
            }
        }
        if !wanted.is_zero()
            && let Some(opened) = kept.first_mut()
        {
            taken.push(Bag { mass: wanted, on: opened.on });
            opened.mass = opened.mass.less(wanted);
        }
        *bags = kept;
        self.drop_empty(crop);
        taken
    }

    /// Sets the bags of a crop right, as counted: the newest are the ones that were miscounted.
    pub(in crate::ledger) fn set(&mut self, crop: Crop, bags: Vec<Bag>) {
        self.0.insert(crop, bags);
        self.drop_empty(crop);
    }

    fn drop_empty(&mut self, crop: Crop) {
        if self.0.get(&crop).is_some_and(Vec::is_empty) {
            self.0.remove(&crop);
        }
    }
}

/// Where the oldest `count` neighbouring bags that weigh exactly `mass` begin.
fn window(bags: &[Bag], count: usize, mass: Mass) -> Option<usize> {
    if count == 0 {
        return None;
    }
    bags.windows(count).position(|run| run.iter().map(|bag| bag.mass).sum::<Mass>() == mass)
}
