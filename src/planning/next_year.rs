//! How much to grow next year: from what was put up and what became of it, to loads, pounds and plants.
//!
//! A year is the twelve months up to now. What is needed of a product is what is used of it in a year, at the rate of
//! the last half year where that can be told, else of the whole, and what is given away; what will still be there when
//! the next season begins is taken off. Pounds are the loads' published raw weights and what is eaten or given away
//! fresh. Plants are by the household's own yield of a kind where plants and pickings were told, else by a published
//! range.

use super::shelf::used_per_day_of_year;
use super::{Target, target};
use crate::ledger::state::{Flow, State};
use crate::quantity::Mass;
use crate::vocabulary::{Crop, Jar, Product};
use chrono::{Datelike, Months, NaiveDate};

/// Pounds of fruit a well-kept tomato plant bears.
pub const PLANT_LOW_LB: f64 = 10.0;
/// At most this, as printed.
pub const PLANT_HIGH_LB: f64 = 15.0;
/// Where that is printed.
pub const PLANT_SOURCE: &str = "University of Georgia extension, Gwinnett County (2007): \
                                10 to 15 pounds or more from each plant, properly cared for";

/// A product's year, and what to aim for.
#[derive(Clone, PartialEq, Debug)]
pub struct Aim {
    /// What.
    pub product: Product,
    /// In which jar.
    pub jar: Jar,
    /// What came and went in twelve months.
    pub year: Flow,
    /// What is still there.
    pub left: u32,
    /// Jars used in a week, where that can be told.
    pub per_week: Option<f64>,
    /// Jars to put up next year; `None` while too little was used to tell.
    pub jars: Option<u32>,
    /// What a load is, where one is published or told.
    pub load: Option<Target>,
}

impl Aim {
    /// How many loads that is.
    pub fn loads(&self) -> Option<u32> {
        let load = self.load.as_ref()?;
        Some(self.jars?.div_ceil(load.jars.max(1)))
    }

    /// The raw weight it takes.
    pub fn mass(&self) -> Option<Mass> {
        let load = self.load.as_ref()?;
        Mass::from_grams(load.mass.as_grams() * f64::from(self.jars?) / f64::from(load.jars.max(1)))
    }
}

/// How many plants of one kind.
#[derive(Clone, PartialEq, Debug)]
pub struct Plants {
    /// The variety; none where pickings were told without one.
    pub variety: Option<String>,
    /// At least.
    pub low: u32,
    /// At most; the same where the yield is the household's own.
    pub high: u32,
    /// What they bear.
    pub bears: Bears,
}

/// What a plant bears.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Bears {
    /// As the household picked from so many plants that year.
    Own {
        /// A plant.
        each: Mass,
        /// How many there were.
        plants: u32,
    },
    /// As printed.
    Published,
}

/// What to grow.
#[derive(Clone, PartialEq, Debug)]
pub struct NextYear {
    /// By product.
    pub aims: Vec<Aim>,
    /// Raw tomatoes for all of it.
    pub for_jars: Mass,
    /// What was eaten, given and thrown away fresh in the calendar year looked at.
    pub fresh: Mass,
    /// All that was picked in that year, where too little was used of some product to tell what it takes: then the
    /// plants are for that.
    pub as_picked: Option<Mass>,
    /// The plants, by kind.
    pub plants: Vec<Plants>,
    /// The year whose pickings were looked at.
    pub year: i32,
}

/// What to grow next year, as far as the ledger tells.
pub fn next_year(state: &State, today: NaiveDate) -> NextYear {
    let aims = aims(state, today);
    let for_jars =
        aims.iter().filter(|aim| crate::ledger::crop_of(&aim.product) == Crop::Tomato).filter_map(Aim::mass).sum();
    let year = season_year(state, today);
    let fresh = state.years.get(&year).map_or(Mass::ZERO, |totals| totals.taken_from_counter);
    let is_untold = |aim: &Aim| aim.jars.is_none() && crate::ledger::crop_of(&aim.product) == Crop::Tomato;
    let picked = || state.diary.picked(year, Crop::Tomato).map(|(_, mass)| mass).sum();
    let as_picked: Option<Mass> = (aims.is_empty() || aims.iter().any(is_untold)).then(picked);
    let plants = plants(state, year, as_picked.unwrap_or(for_jars + fresh));
    NextYear { aims, for_jars, fresh, as_picked, plants, year }
}

/// The year of the last pickings.
fn season_year(state: &State, today: NaiveDate) -> i32 {
    let picked = |year: &i32| state.diary.picked(*year, Crop::Tomato).next().is_some();
    [today.year(), today.year() - 1].into_iter().find(picked).unwrap_or(today.year())
}

fn aims(state: &State, today: NaiveDate) -> Vec<Aim> {
    let since = today - Months::new(12);
    let mut years: Vec<(Product, Jar, Flow, NaiveDate)> = Vec::new();
    for (month, product, jar, flow) in state.diary.flows().filter(|(month, ..)| *month > since) {
        match years.iter_mut().find(|(known, size, ..)| known == product && *size == jar) {
            Some((_, _, year, first)) => {
                year.put_up += flow.put_up;
                year.used += flow.used;
                year.given += flow.given;
                year.tossed += flow.tossed;
                *first = (*first).min(month);
            }
            None => years.push((product.clone(), jar, flow, month)),
        }
    }
    years.into_iter().map(|(product, jar, year, first)| aim(state, product, jar, year, first, today)).collect()
}

fn aim(state: &State, product: Product, jar: Jar, year: Flow, first: NaiveDate, today: NaiveDate) -> Aim {
    let left = state.pantry.jars(Some(&product), Some(jar));
    let load = target(state, Some(&product), Some(jar));
    let per_day = used_per_day_of_year(state, &product, jar, today);
    let jars = match per_day {
        Some(per_day) => {
            let next_season = first + Months::new(12);
            let until_then = (next_season - today).num_days().max(0) as f64;
            let left_then = (f64::from(left) - per_day * until_then).max(0.0);
            Some((365.0 * per_day + f64::from(year.given) - left_then).max(0.0).ceil() as u32)
        }
        // All gone within the year: at least as much again.
        None if left == 0 && year.used + year.given > 0 => Some(year.used + year.given),
        None => None,
    };
    Aim { product, jar, year, left, per_week: per_day.map(|jars| 7.0 * jars), jars, load }
}

/// Plants for a weight of tomatoes, each kind with the share of it that it bore.
fn plants(state: &State, year: i32, wanted: Mass) -> Vec<Plants> {
    if wanted.is_zero() {
        return Vec::new();
    }
    let picked: Vec<(Option<&str>, Mass)> = state.diary.picked(year, Crop::Tomato).collect();
    let planted = |variety: Option<&str>| -> u32 {
        let meant = |planting: &&crate::ledger::state::Planting| {
            planting.crop == Crop::Tomato
                && planting.on.year() == year
                && variety.is_none_or(|variety| planting.variety.as_deref() == Some(variety))
        };
        state.planted.iter().filter(meant).map(|planting| planting.count).sum()
    };
    let total: Mass = picked.iter().map(|(_, mass)| *mass).sum();
    // Kinds with plants and pickings of their own; where pickings were told without a kind, all plants are one kind.
    let kinds: Vec<(&str, Mass, u32)> = picked
        .iter()
        .filter_map(|(variety, mass)| variety.map(|variety| (variety, *mass, planted(Some(variety)))))
        .collect();
    let by_kind = !kinds.is_empty() && kinds.len() == picked.len() && kinds.iter().all(|(.., plants)| *plants > 0);
    if by_kind {
        return kinds
            .into_iter()
            .map(|(variety, mass, plants)| own(Some(variety), wanted.as_grams() * mass.ratio(total), mass, plants))
            .collect();
    }
    match planted(None) {
        0 => {
            let for_pounds = |each: f64| (wanted.as_pounds() / each).ceil() as u32;
            let (low, high) = (for_pounds(PLANT_HIGH_LB), for_pounds(PLANT_LOW_LB));
            vec![Plants { variety: None, low, high, bears: Bears::Published }]
        }
        plants => vec![own(None, wanted.as_grams(), total, plants)],
    }
}

fn own(variety: Option<&str>, wanted_g: f64, picked: Mass, plants: u32) -> Plants {
    let each_g = picked.as_grams() / f64::from(plants.max(1));
    let count = if each_g > 0.0 { (wanted_g / each_g).ceil() as u32 } else { 0 };
    let each = Mass::from_grams(each_g).unwrap_or(Mass::ZERO);
    Plants { variety: variety.map(str::to_owned), low: count, high: count, bears: Bears::Own { each, plants } }
}
