//! Jars on the shelf by product and by the month they were put up.

use super::Picture;
use super::freezer::spoken;
use super::unit::{Unit, counted};
use crate::ledger::Ledger;
use crate::ledger::state::Lot;
use crate::processes::facts::BEST_WITHIN_MONTHS;
use crate::vocabulary::{Jar, Product};
use chrono::{DateTime, Datelike, Months, NaiveDate, Utc};
use serde::{Deserialize, Serialize};

/// Jars on the shelf.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize)]
pub struct Pantry {
    /// How days are written.
    pub unit: Unit,
    /// The day it shows.
    pub on: NaiveDate,
    /// All jars.
    pub jars: u32,
    /// The months in which any of them was put up, oldest first.
    pub months: Vec<Month>,
    /// A row for each product and jar, those with most jars first.
    pub rows: Vec<Lots>,
}

/// A month.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
pub struct Month {
    /// Its first day.
    pub first: NaiveDate,
    /// Whether what was put up in it is past its best (`best_quality_within_months` in `processes/tables/facts.csv`).
    pub past_best: bool,
}

/// The jars of one product and size.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, Deserialize)]
pub struct Lots {
    /// As said in a sentence.
    pub product: String,
    /// Which jar.
    pub jar: Jar,
    /// How many.
    pub jars: u32,
    /// How many of each month.
    pub by_month: Vec<u32>,
}

/// The shelf; `None` when it is empty.
pub fn pantry(ledger: &Ledger, now: DateTime<Utc>) -> Option<Picture> {
    let state = ledger.state();
    let on = state.settings.zone.day(now);
    let lots = state.pantry.lots();
    let mut months: Vec<NaiveDate> = lots.iter().map(first_of_month).collect();
    months.sort_unstable();
    months.dedup();
    let mut kinds: Vec<(Product, Jar, u32)> = state.pantry.sums();
    kinds.sort_by_key(|(_, _, jars)| std::cmp::Reverse(*jars));
    let row = |(product, jar, jars): (Product, Jar, u32)| {
        let of_kind = |month: &NaiveDate| {
            let fits = |lot: &&Lot| lot.is(Some(&product), Some(jar)) && first_of_month(lot) == *month;
            lots.iter().filter(fits).map(|lot| lot.jars).sum()
        };
        let by_month = months.iter().map(of_kind).collect();
        Lots { product: spoken(&product), jar, jars, by_month }
    };
    let rows: Vec<Lots> = kinds.into_iter().map(row).collect();
    let months = months.iter().map(|first| Month { first: *first, past_best: is_past_best(*first, on) }).collect();
    let (unit, jars) = (Unit::of(state.settings.units), state.pantry.jars(None, None));
    (!rows.is_empty()).then_some(Picture::Pantry(Pantry { unit, on, jars, months, rows }))
}

fn first_of_month(lot: &Lot) -> NaiveDate {
    lot.on.with_day(1).unwrap_or(lot.on)
}

/// Whether all of a month is past the published time.
fn is_past_best(month: NaiveDate, on: NaiveDate) -> bool {
    let over = month.checked_add_months(Months::new(BEST_WITHIN_MONTHS.value + 1));
    over.is_some_and(|over| on >= over)
}

impl Pantry {
    pub(super) fn alt(&self) -> String {
        let row = |lots: &Lots| format!("{} of {}", lots.jar.counted(lots.jars), lots.product);
        let mut rows: Vec<String> = self.rows.iter().take(6).map(row).collect();
        let others: u32 = self.rows.iter().skip(6).map(|lots| lots.jars).sum();
        if others > 0 {
            rows.push(format!("{others} of other kinds"));
        }
        let oldest = self.months.first().map(|month| month.first.format("%B %Y").to_string()).unwrap_or_default();
        format!("Pantry: {}, the oldest from {oldest}: {}.", counted(self.jars, "jar", "jars"), rows.join(", "))
    }
}
