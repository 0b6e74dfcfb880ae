//! Jars on a shelf, and what is in the dryer.

use crate::quantity::Mass;
use crate::vocabulary::{Jar, Product};
use chrono::{DateTime, Months, NaiveDate, Utc};

/// Jars of one product and size that were put up on one day.
#[derive(Clone, PartialEq, Debug)]
pub struct Lot {
    /// What is in them.
    pub product: Product,
    /// Which jar.
    pub jar: Jar,
    /// How many.
    pub jars: u32,
    /// The day they came here.
    pub on: NaiveDate,
    /// The batch they are from, if it was logged.
    pub batch: Option<u32>,
}

/// A shelf, oldest lots first.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Shelf(Vec<Lot>);

impl Shelf {
    /// The lots, oldest first.
    pub fn lots(&self) -> &[Lot] {
        &self.0
    }

    /// How many jars of a product and size; of any where none is given.
    pub fn jars(&self, product: Option<&Product>, jar: Option<Jar>) -> u32 {
        self.0.iter().filter(|lot| lot.is(product, jar)).map(|lot| lot.jars).sum()
    }

    /// Products and sizes with their jars, in the order of their oldest lot.
    pub fn sums(&self) -> Vec<(Product, Jar, u32)> {
        let mut sums: Vec<(Product, Jar, u32)> = Vec::new();
        for lot in &self.0 {
            match sums.iter_mut().find(|(product, jar, _)| *product == lot.product && *jar == lot.jar) {
                Some(sum) => sum.2 += lot.jars,
                None => sums.push((lot.product.clone(), lot.jar, lot.jars)),
            }
        }
        sums
    }

    /// Puts jars on it.
    pub(in crate::ledger) fn put(&mut self, lot: Lot) {
        if lot.jars == 0 {
            return;
        }
        let same = |other: &&mut Lot| {
            other.on == lot.on && other.batch == lot.batch && other.is(Some(&lot.product), Some(lot.jar))
        };
        if let Some(known) = self.0.iter_mut().find(same) {
            known.jars = known.jars.saturating_add(lot.jars);
            return;
        }
        let place = self.0.partition_point(|other| other.on <= lot.on);
        self.0.insert(place, lot);
    }

    /// Takes jars off it, oldest first; fewer when there are fewer.
    pub(in crate::ledger) fn take(&mut self, product: Option<&Product>, jar: Option<Jar>, jars: u32) -> Vec<Lot> {
        self.take_where(jars, |lot| lot.is(product, jar))
    }

    /// How many jars of a batch.
    pub fn of_batch(&self, number: u32) -> u32 {
        self.0.iter().filter(|lot| lot.batch == Some(number)).map(|lot| lot.jars).sum()
    }

    /// Takes jars of a batch off it; fewer when there are fewer.
    pub(in crate::ledger) fn take_of_batch(&mut self, number: u32, jars: u32) -> Vec<Lot> {
        self.take_where(jars, |lot| lot.batch == Some(number))
    }

    fn take_where(&mut self, jars: u32, meant: impl Fn(&Lot) -> bool) -> Vec<Lot> {
        let (mut wanted, mut taken) = (jars, Vec::new());
        for lot in &mut self.0 {
            if wanted > 0 && meant(lot) {
                let some = wanted.min(lot.jars);
                wanted -= some;
                lot.jars -= some;
                taken.push(Lot { jars: some, ..lot.clone() });
            }
        }
        self.0.retain(|lot| lot.jars > 0);
        taken
    }

    /// Sets the jars of a product and size right, as counted: found more counts as of that day, found less leaves from
    /// the oldest.
    pub(in crate::ledger) fn set(&mut self, counted: Lot) {
        let there = self.jars(Some(&counted.product), Some(counted.jar));
        if counted.jars > there {
            self.put(Lot { jars: counted.jars - there, ..counted });
        } else {
            self.take(Some(&counted.product), Some(counted.jar), there - counted.jars);
        }
    }
}

impl Lot {
    /// The last day on which it is at its best: a year after it was put up (USDA AIB 539 (2015), Guide 1;
    /// `processes::facts`). Nothing is known of how long jars of an untested recipe keep, nor those of a size that no
    /// table has.
    pub fn best_by(&self) -> Option<NaiveDate> {
        crate::processes::product(self.product.as_str()).filter(|info| info.is_tested_in(self.jar))?;
        self.on.checked_add_months(Months::new(crate::processes::facts::BEST_WITHIN_MONTHS.value))
    }

    /// Whether it is of this product and size, as far as they are given.
    pub fn is(&self, product: Option<&Product>, jar: Option<Jar>) -> bool {
        product.is_none_or(|product| *product == self.product) && jar.is_none_or(|jar| jar == self.jar)
    }
}

/// Something in the dryer.
#[derive(Clone, PartialEq, Debug)]
pub struct Drying {
    /// Skins, halves, slices, peppers, …
    pub what: String,
    /// Weight when it went in, as far as it was said.
    pub mass: Mass,
    /// How many trays, as far as it was said.
    pub trays: u32,
    /// The day it went in.
    pub on: NaiveDate,
    /// When the first of it went in.
    pub since: DateTime<Utc>,
}
