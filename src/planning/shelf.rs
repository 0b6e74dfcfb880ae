//! The winter shelf: what to use first, how fast it goes, and when it will be gone.
//!
//! Jars are best within the published twelve months, frozen tomatoes within the published eight to twelve; neither is a
//! matter of safety.

use crate::ledger::state::{Bag, Lot, State};
use crate::processes::facts;
use crate::vocabulary::{Crop, Jar, Product};
use chrono::{Datelike, Days, Months, NaiveDate};

/// Use is looked back on for so long: half a year, as winter's is not summer's (a choice of this program).
const LOOK_BACK: Days = Days::new(180);
/// So many days of use, over so many days, before a rate is spoken of (a choice of this program).
const USES_NEEDED: usize = 3;
const DAYS_NEEDED: i64 = 28;

/// The day from which a bag is past the shorter of the published times.
pub fn bag_best_until(bag: &Bag) -> NaiveDate {
    bag.on + Months::new(facts::FROZEN_BEST_MONTHS_LOW.value)
}

/// The day from which a bag is past the longer of the published times.
pub fn bag_keeps_until(bag: &Bag) -> NaiveDate {
    bag.on + Months::new(facts::FROZEN_BEST_MONTHS_HIGH.value)
}

/// Bags that are past the shorter published time by a day, oldest first.
pub fn old_bags(state: &State, today: NaiveDate) -> Vec<(Crop, Vec<Bag>)> {
    let old = |bags: &[Bag]| bags.iter().copied().filter(|bag| bag_best_until(bag) <= today).collect::<Vec<_>>();
    state.freezer.crops().map(|(crop, bags)| (crop, old(bags))).filter(|(_, bags)| !bags.is_empty()).collect()
}

/// Jars that are past their best by a day, oldest first.
pub fn old_jars(state: &State, today: NaiveDate) -> Vec<Lot> {
    state.pantry.lots().iter().filter(|lot| lot.best_by().is_some_and(|best| best <= today)).cloned().collect()
}

/// How fast jars of one product and size go.
#[derive(Clone, PartialEq, Debug)]
pub struct UseRate {
    /// What is in them.
    pub product: Product,
    /// Which jar.
    pub jar: Jar,
    /// How many are left.
    pub left: u32,
    /// Jars a week.
    pub per_week: f64,
    /// When they will be gone at that rate.
    pub runs_out: NaiveDate,
}

/// The rate at which each product of the pantry is used, where it can be told: from the days on which jars were opened
/// since the first of them within half a year.
pub fn use_rates(state: &State, today: NaiveDate) -> Vec<UseRate> {
    let sums = state.pantry.sums().into_iter();
    sums.filter_map(|(product, jar, left)| use_rate(state, product, jar, left, today)).collect()
}

fn use_rate(state: &State, product: Product, jar: Jar, left: u32, today: NaiveDate) -> Option<UseRate> {
    let per_day = used_per_day(state, &product, jar, today)?;
    let days = (f64::from(left) / per_day).ceil().min(3650.0) as u64;
    Some(UseRate { product, jar, left, per_week: 7.0 * per_day, runs_out: today + Days::new(days) })
}

/// Jars of a product and size that are used in a day; `None` when it cannot be told yet.
pub(super) fn used_per_day(state: &State, product: &Product, jar: Jar, today: NaiveDate) -> Option<f64> {
    used_per_day_over(state, product, jar, today, LOOK_BACK)
}

/// The same, over the whole year where half of it has too little: in spring, when rows are planned, the shelf may be
/// nearly empty.
pub(super) fn used_per_day_of_year(state: &State, product: &Product, jar: Jar, today: NaiveDate) -> Option<f64> {
    used_per_day(state, product, jar, today).or_else(|| used_per_day_over(state, product, jar, today, Days::new(365)))
}

fn used_per_day_over(state: &State, product: &Product, jar: Jar, today: NaiveDate, back: Days) -> Option<f64> {
    let meant = |day: &&crate::ledger::state::Use| {
        day.product == *product && day.jar == jar && day.on + back >= today && day.on <= today
    };
    let uses: Vec<_> = state.diary.uses().iter().filter(meant).collect();
    let first = uses.first()?;
    let days = (today - first.on).num_days();
    if uses.len() < USES_NEEDED || days < DAYS_NEEDED {
        return None;
    }
    // The first opens the stretch, it is not within it.
    let jars: u32 = uses.iter().skip(1).map(|day| day.jars).sum();
    Some(f64::from(jars) / days as f64)
}

/// Stock whose best time is over in one month: spoken of once.
#[derive(Clone, PartialEq, Debug)]
pub struct UseFirst {
    /// The first of the month.
    pub month: NaiveDate,
    /// The first day on which some of it is past its best.
    pub from: NaiveDate,
    /// Jars.
    pub lots: Vec<Lot>,
    /// Bags, by crop.
    pub bags: Vec<(Crop, Bag)>,
}

/// All stock by the month in which its best time is over, earliest first; jars and bags apart.
pub fn use_first(state: &State) -> Vec<UseFirst> {
    let mut months: Vec<UseFirst> = Vec::new();
    let mut place = |from: NaiveDate, lot: Option<&Lot>, bag: Option<(Crop, Bag)>| {
        let month = from.with_day(1).unwrap_or(from);
        let (lots, bags) = (lot.cloned().into_iter().collect(), bag.into_iter().collect());
        let one = UseFirst { month, from, lots, bags };
        let same = |known: &&mut UseFirst| known.month == month && known.lots.is_empty() == one.lots.is_empty();
        match months.iter_mut().find(same) {
            Some(known) => {
                known.from = known.from.min(from);
                known.lots.extend(one.lots);
                known.bags.extend(one.bags);
            }
            None => months.push(one),
        }
    };
    for lot in state.pantry.lots() {
        if let Some(best) = lot.best_by() {
            place(best, Some(lot), None);
        }
    }
    for (crop, bags) in state.freezer.crops() {
        for bag in bags {
            place(bag_best_until(bag), None, Some((crop, *bag)));
        }
    }
    months.sort_by_key(|group| (group.from, group.lots.is_empty()));
    months
}
