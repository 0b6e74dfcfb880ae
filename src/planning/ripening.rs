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
    /// Whether the kind of some of it was not said, or it is of several.
    pub is_mixed: bool,
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
                    known.is_mixed |= fruit.variety.is_none() || known.varieties.is_empty();
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
        Some(class) => ripens(state, class, fruit.on),
    };
    let varieties = fruit.variety.clone().into_iter().collect();
    Picking { on: fruit.on, crop, class: fruit.class, varieties, is_mixed: false, mass: fruit.mass, red }
}

/// The days of ripeness of fruit that lay in all the rooms there were since it was picked: in each it went the share of
/// its way that the time there is of the days the table gives for it, and none where it has no days.
fn ripens(state: &State, class: Ripeness, on: NaiveDate) -> Red {
    let settings = &state.settings;
    // What is left of the way, for fruit that had just come into its class and for fruit that was about to leave it.
    let (mut to_go, mut to_go_soonest, mut since) = (1.0, 1.0, on);
    let mut done: (Option<NaiveDate>, Option<NaiveDate>) = (None, None);
    let now = match days_to_red(class, settings.room) {
        Ok(now) => Some(now),
        Err(why) if settings.rooms.iter().all(|(until, _)| *until <= on) => return Red::None(why),
        Err(_) => None,
    };
    let mut figures = now;
    for (until, room) in settings.rooms.iter().filter(|(until, _)| *until > on) {
        let days = (*until - since).num_days() as f64;
        if let Ok(there) = days_to_red(class, *room) {
            figures = figures.or(Some(there));
            done.0 = done.0.or_else(|| reached(since, to_go * there.days, days));
            done.1 = done.1.or_else(|| reached(since, to_go_soonest * there.soonest, days));
            to_go -= share(days, there.days);
            to_go_soonest -= share(days, there.soonest);
        }
        since = *until;
    }
    let after = |days: f64| since + Days::new(days.round().max(0.0) as u64);
    let by = done.0.or_else(|| Some(after(to_go * now?.days)));
    let soonest = done.1.or_else(|| Some(after(to_go_soonest * now?.soonest)));
    match (by, figures, days_to_red(class, settings.room)) {
        (Some(by), Some(ripening), _) => {
            let (_, keeps) = red_keeps();
            let soonest = soonest.unwrap_or(by).min(by);
            Red::About(RedDays { soonest, by, past: by + Days::new(u64::from(keeps)), ripening })
        }
        (_, _, Err(why)) => Red::None(why),
        _ => Red::Unknown,
    }
}

/// The day on which it is done, if that is within the days it lay there.
fn reached(since: NaiveDate, needs: f64, days: f64) -> Option<NaiveDate> {
    (needs.round() <= days).then(|| since + Days::new(needs.round().max(0.0) as u64))
}

fn share(days: f64, needs: f64) -> f64 {
    if needs > 0.0 { days / needs } else { 1.0 }
}
