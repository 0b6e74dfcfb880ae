//! What was done, summed up by day, month and year: what looking ahead and back is computed from.

use crate::quantity::Mass;
use crate::vocabulary::{Crop, Jar, Product};
use chrono::{Datelike, Days, NaiveDate};
use std::collections::BTreeMap;

/// Days of freezing and of use are kept this long: more than a year, so that last year's season can be looked back on.
const KEPT: Days = Days::new(450);

/// How a jar left the pantry.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Way {
    /// Opened, or eaten; or gone when it was counted, and nobody said where to.
    Used,
    /// Given away.
    Given,
    /// Thrown away.
    Tossed,
}

/// What went into the freezer on one day.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Frozen {
    /// The day.
    pub on: NaiveDate,
    /// The crop.
    pub crop: Crop,
    /// The weight.
    pub mass: Mass,
}

/// Jars that came and went.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub struct Flow {
    /// Put up.
    pub put_up: u32,
    /// Opened or eaten.
    pub used: u32,
    /// Given away.
    pub given: u32,
    /// Thrown away.
    pub tossed: u32,
}

/// Jars of one product that were used on one day.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Use {
    /// The day.
    pub on: NaiveDate,
    /// What was in them.
    pub product: Product,
    /// Which jar.
    pub jar: Jar,
    /// How many.
    pub jars: u32,
}

/// The sums. Days are in order.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Diary {
    frozen: Vec<Frozen>,
    flows: BTreeMap<(NaiveDate, Product, Jar), Flow>,
    uses: Vec<Use>,
    picked: BTreeMap<(i32, Crop, Option<String>), Mass>,
}

impl Diary {
    /// What was frozen of a crop, a line a day, oldest first.
    pub fn frozen(&self, crop: Crop) -> impl DoubleEndedIterator<Item = Frozen> + '_ {
        self.frozen.iter().copied().filter(move |day| day.crop == crop)
    }

    /// Jars that came and went, by the first of the month, product and size.
    pub fn flows(&self) -> impl Iterator<Item = (NaiveDate, &Product, Jar, Flow)> {
        self.flows.iter().map(|((month, product, jar), flow)| (*month, product, *jar, *flow))
    }

    /// Jars that were used, by day, oldest first.
    pub fn uses(&self) -> &[Use] {
        &self.uses
    }

    /// What was picked in a year of a crop, by variety where it was said.
    pub fn picked(&self, year: i32, crop: Crop) -> impl Iterator<Item = (Option<&str>, Mass)> {
        self.picked
            .iter()
            .filter(move |((of, what, _), _)| *of == year && *what == crop)
            .map(|((_, _, variety), mass)| (variety.as_deref(), *mass))
    }

    pub(in crate::ledger) fn note_picked(&mut self, on: NaiveDate, crop: Crop, variety: Option<String>, mass: Mass) {
        *self.picked.entry((on.year(), crop, variety)).or_default() += mass;
    }

    pub(in crate::ledger) fn note_frozen(&mut self, on: NaiveDate, crop: Crop, mass: Mass) {
        self.frozen.retain(|day| day.on + KEPT >= on);
        match self.frozen.iter_mut().find(|day| day.on == on && day.crop == crop) {
            Some(day) => day.mass += mass,
            None => {
                let place = self.frozen.partition_point(|day| day.on <= on);
                self.frozen.insert(place, Frozen { on, crop, mass });
            }
        }
    }

    pub(in crate::ledger) fn note_put_up(&mut self, on: NaiveDate, product: &Product, jar: Jar, jars: u32) {
        self.flow(on, product, jar).put_up += jars;
    }

    /// Jars that were put up came off the shelf again.
    pub(in crate::ledger) fn note_off_shelf(&mut self, on: NaiveDate, product: &Product, jar: Jar, jars: u32) {
        let flow = self.flow(on, product, jar);
        flow.put_up = flow.put_up.saturating_sub(jars);
    }

    pub(in crate::ledger) fn note_gone(&mut self, on: NaiveDate, product: &Product, jar: Jar, jars: u32, way: Way) {
        let flow = self.flow(on, product, jar);
        match way {
            Way::Used => flow.used += jars,
            Way::Given => flow.given += jars,
            Way::Tossed => flow.tossed += jars,
        }
        if way == Way::Used && jars > 0 {
            self.uses.retain(|day| day.on + KEPT >= on);
            let place = self.uses.partition_point(|day| day.on <= on);
            self.uses.insert(place, Use { on, product: product.clone(), jar, jars });
        }
    }

    fn flow(&mut self, on: NaiveDate, product: &Product, jar: Jar) -> &mut Flow {
        self.flows.entry((on.with_day(1).unwrap_or(on), product.clone(), jar)).or_default()
    }
}
