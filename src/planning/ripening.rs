//! Fruit on the counter by picking, and the days on which it will be red: an estimate from the published table, for the
//! temperature the room has now. Only tomatoes whose colour class was said have one.

use crate::ledger::state::{Fruit, State};
use crate::processes::ripening::{NoRed, Ripening, days_to_red, red_keeps};
use crate::quantity::Mass;
use crate::vocabulary::{Crop, Ripeness};
use chrono::{Days, NaiveDate};

/// What is left of the fruit of one day and one colour class.
#[derive(Clone, PartialEq, Debug)]
pub struct Picking {
    /// The day it was picked.
    pub on: NaiveDate,
    /// The crop.
    pub crop: Crop,
    /// Its colour class when it was picked, if said.
    pub class: Option<Ripeness>,
    /// Its varieties, as far as they were said.
    pub varieties: Vec<String>,
    /// How much of it is left.
    pub mass: Mass,
    /// When it is red.
    pub red: Red,
}

/// When fruit is red.
#[derive(Clone, PartialEq, Debug)]
pub enum Red {
    /// Nobody said how ripe it was, or it is no tomato.
    Unknown,
    /// The room is too cold or too warm for the table.
    None(NoRed),
    /// About then.
    About(RedDays),
}

/// The days of ripeness.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct RedDays {
    /// The first day on which it may be red: for fruit that was about to leave its class.
    pub soonest: NaiveDate,
    /// The day by which all of it is red.
    pub by: NaiveDate,
    /// The day after which red fruit is past its best.
    pub past: NaiveDate,
    /// The figures behind it.
    pub ripening: Ripening,
}

impl Picking {
    /// The days of ripeness, where there is an estimate.
    pub fn red_days(&self) -> Option<RedDays> {
        match self.red {
            Red::About(days) => Some(days),
            Red::Unknown | Red::None(_) => None,
        }
    }

    /// Whether it is red by a day, as far as that is known.
    pub fn is_ripe(&self, day: NaiveDate) -> bool {
        self.red_days().is_some_and(|red| red.by <= day)
    }

    /// Whether it is past its best by a day, as far as that is known.
    pub fn is_past(&self, day: NaiveDate) -> bool {
        self.red_days().is_some_and(|red| red.past < day)
    }
}

/// Less than this of a picking is not worth a word of its own (a choice of this program).
pub const WORTH_SAYING: Mass = Mass::POUND;

/// Every picking of which something is left, by the day it is red; those without a day last.
pub fn ripening(state: &State) -> Vec<Picking> {
    let mut pickings: Vec<Picking> = Vec::new();
    for (crop, _) in state.counter.sums() {
        for fruit in state.counter.pickings(crop) {
            let same = |known: &&mut Picking| (known.crop, known.on, known.class) == (crop, fruit.on, fruit.class);
            match pickings.iter_mut().find(same) {
                Some(known) => {
                    known.mass += fruit.mass;
                    known.varieties.extend(fruit.variety.clone());
                }
                None => pickings.push(picking(state, crop, fruit)),
            }
        }
    }
    pickings.sort_by_key(|picking| (picking.red_days().map_or(NaiveDate::MAX, |red| red.by), picking.on));
    pickings
}

/// The weight of a crop that is red by a day, by the estimates.
pub fn ripe_by(state: &State, crop: Crop, day: NaiveDate) -> Mass {
    ripening(state)
        .iter()
        .filter(|picking| picking.crop == crop && picking.is_ripe(day))
        .map(|picking| picking.mass)
        .sum()
}

fn picking(state: &State, crop: Crop, fruit: &Fruit) -> Picking {
    let red = match fruit.class.filter(|_| crop == Crop::Tomato) {
        None => Red::Unknown,
        Some(class) => match days_to_red(class, state.settings.room) {
            Err(why) => Red::None(why),
            Ok(ripening) => Red::About(red_days(fruit.on, ripening)),
        },
    };
    let varieties = fruit.variety.clone().into_iter().collect();
    Picking { on: fruit.on, crop, class: fruit.class, varieties, mass: fruit.mass, red }
}

fn red_days(on: NaiveDate, ripening: Ripening) -> RedDays {
    let after = |days: f64| on + Days::new(days.round().max(0.0) as u64);
    let by = after(ripening.days);
    let (_, keeps) = red_keeps();
    RedDays { soonest: after(ripening.soonest), by, past: by + Days::new(u64::from(keeps)), ripening }
}
