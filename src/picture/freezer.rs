//! The freezer over time, against the line of a load.

use super::Picture;
use super::history::History;
use super::unit::{Unit, counted, thousandth};
use crate::ledger::Ledger;
use crate::ledger::state::State;
use crate::planning::{load_state, target};
use crate::processes;
use crate::quantity::Mass;
use crate::vocabulary::{Crop, Jar, Product};
use chrono::{DateTime, NaiveDate, NaiveDateTime, TimeDelta, Utc};
use serde::{Deserialize, Serialize};

/// How far back it looks at most.
const LONGEST: TimeDelta = TimeDelta::days(182);

/// A freezer that stood still for this long begins at its last standstill.
const STANDSTILL: TimeDelta = TimeDelta::days(75);

/// The weight of a crop in the freezer over time. All times are the room's own.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize)]
pub struct Freezer {
    /// The unit of the weights.
    pub unit: Unit,
    /// Which crop.
    pub crop: Crop,
    /// When the first stock stands that is shown.
    pub since: NaiveDateTime,
    /// Now.
    pub until: NaiveDateTime,
    /// The weight from each instant on, until the next one.
    pub stock: Vec<Stock>,
    /// The weight now.
    pub now: f64,
    /// The bags now.
    pub bags: u32,
    /// What a load takes, where its weight is known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub load: Option<LoadLine>,
    /// What is likely to come, where there is enough to tell from.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub fan: Option<Fan>,
}

/// A weight from an instant on.
#[derive(Clone, Copy, PartialEq, Debug, Serialize, Deserialize)]
pub struct Stock {
    /// From when on.
    pub at: NaiveDateTime,
    /// How much.
    pub mass: f64,
}

/// The line of a load.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize)]
pub struct LoadLine {
    /// Its weight.
    pub mass: f64,
    /// What it makes: `7 quarts of thick tomato sauce`.
    pub makes: String,
}

/// A forecast of the weight: of ten futures like the past, in one it is below `p10`, in five below `p50`, in nine below
/// `p90`.
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct Fan {
    /// Days in order, from tomorrow on.
    pub days: Vec<FanDay>,
    /// The day by which a load is there in one future of ten.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub ready_p10: Option<NaiveDate>,
    /// In five of ten.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub ready_p50: Option<NaiveDate>,
    /// In nine of ten.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub ready_p90: Option<NaiveDate>,
}

/// A day of a forecast.
#[derive(Clone, Copy, PartialEq, Debug, Serialize, Deserialize)]
pub struct FanDay {
    /// At the end of this day.
    pub on: NaiveDate,
    /// In one future of ten it is less.
    pub p10: f64,
    /// In five of ten.
    pub p50: f64,
    /// In nine of ten.
    pub p90: f64,
}

/// The freezer, against a load of a product (the usual one where none is named), with a forecast if there is one.
/// `None` where nothing of its crop was in the freezer in the last half year.
pub fn freezer(
    ledger: &Ledger,
    load_of: Option<&Product>,
    jar: Option<Jar>,
    fan: Option<Fan>,
    now: DateTime<Utc>,
) -> Option<Picture> {
    let state = ledger.state();
    let (unit, zone) = (Unit::of(state.settings.units), state.settings.zone);
    let load = target(state, load_of, jar).map(|target| load_state(state, target));
    let crop = load.as_ref().map_or(Crop::Tomato, |load| load.target.crop);
    let steps = steps(ledger, crop, now);
    let shown = shown(&steps);
    let first = shown.first()?;
    let local = |at: DateTime<Utc>| zone.local(at).naive_local();
    Some(Picture::Freezer(Freezer {
        unit,
        crop,
        since: local(first.0),
        until: local(now),
        stock: shown.iter().map(|(at, mass)| Stock { at: local(*at), mass: unit.figure(*mass) }).collect(),
        now: unit.figure(state.freezer.mass(crop)),
        bags: state.freezer.bags(crop).len() as u32,
        load: load.map(|load| LoadLine {
            mass: unit.figure(load.target.mass),
            makes: format!("{} of {}", load.target.jar.counted(load.target.jars), spoken(&load.target.product)),
        }),
        fan,
    }))
}

/// A product as said in a sentence.
pub(super) fn spoken(product: &Product) -> String {
    processes::product(product.as_str()).map_or_else(|| product.as_str().to_owned(), |info| info.spoken.to_owned())
}

/// The stock of a crop at each instant at which it changed in the last half year, the stock at its beginning first.
fn steps(ledger: &Ledger, crop: Crop, now: DateTime<Utc>) -> Vec<(DateTime<Utc>, Mass)> {
    let from = now - LONGEST;
    let history = History::since(ledger, from);
    let held = |state: &State| state.freezer.mass(crop);
    let mut steps = vec![(from, held(history.state()))];
    history.each(|entry, state| {
        let mass = held(state);
        if steps.last().is_none_or(|(_, last)| *last != mass) {
            steps.push((entry.happened, mass));
        }
    });
    steps
}

/// The steps worth showing: without an empty beginning, and without a long standstill before the season.
fn shown(steps: &[(DateTime<Utc>, Mass)]) -> Vec<(DateTime<Utc>, Mass)> {
    let filled = steps.iter().position(|(_, mass)| !mass.is_zero());
    let Some(steps) = filled.and_then(|start| steps.get(start..)) else { return Vec::new() };
    let mut gaps = steps.iter().zip(steps.iter().skip(1)).map(|((before, _), (after, _))| *after - *before);
    let still = gaps.rposition(|gap| gap > STANDSTILL);
    let mut kept = steps.get(still.unwrap_or(0)..).unwrap_or_default().to_vec();
    // Its last days show where the stock came from.
    let next = kept.get(1).map(|(at, _)| *at).filter(|_| still.is_some());
    if let (Some(first), Some(next)) = (kept.first_mut(), next) {
        first.0 = next - TimeDelta::days(14);
    }
    kept
}

impl Fan {
    /// From days with their three weights, lowest first, in the unit of the picture.
    pub fn of(
        unit: Unit,
        days: impl IntoIterator<Item = (NaiveDate, [Mass; 3])>,
        ready: [Option<NaiveDate>; 3],
    ) -> Self {
        let day = |(on, weights): (NaiveDate, [Mass; 3])| {
            let [p10, p50, p90] = weights.map(|mass| unit.figure(mass));
            FanDay { on, p10, p50, p90 }
        };
        let [ready_p10, ready_p50, ready_p90] = ready;
        Self { days: days.into_iter().map(day).collect(), ready_p10, ready_p50, ready_p90 }
    }
}

impl Freezer {
    /// How much is missing for a load; nothing once there is enough, or where no load is known.
    pub fn short(&self) -> Option<f64> {
        self.load.as_ref().map(|load| thousandth((load.mass - self.now).max(0.0)))
    }

    /// The most there was.
    pub fn most(&self) -> f64 {
        self.stock.iter().map(|stock| stock.mass).fold(0.0, f64::max)
    }

    pub(super) fn alt(&self) -> String {
        let load = match (&self.load, self.short()) {
            (Some(load), Some(short)) if short > 0.0 => {
                format!("; a load of {} takes {}, {} to go", load.makes, self.unit.say(load.mass), self.unit.say(short))
            }
            (Some(load), _) => format!("; enough for {}, which take {}", load.makes, self.unit.say(load.mass)),
            (None, _) => String::new(),
        };
        let day = |day: Option<NaiveDate>| day.map(|day| self.unit.day(day));
        let fan = self.fan.as_ref().map(|fan| match (day(fan.ready_p10), day(fan.ready_p50), day(fan.ready_p90)) {
            (Some(early), Some(middle), Some(late)) => {
                format!(
                    "; a load is as likely before {middle} as after it, eight chances in ten from {early} to {late}"
                )
            }
            (Some(early), Some(middle), None) => {
                format!(
                    "; a load comes perhaps around {middle}, one chance in ten by {early}, and perhaps not this year"
                )
            }
            (Some(early), None, _) => format!("; a load comes more likely not this year, one chance in ten by {early}"),
            (None, Some(middle), _) => format!("; a load is as likely before {middle} as after it"),
            (None, None, _) => "; a load is not likely this year".to_owned(),
        });
        format!(
            "Freezer since {}: {} in {} now, at most {}{load}{}.",
            self.unit.day(self.since.date()),
            self.unit.say(self.now),
            counted(self.bags, "bag", "bags"),
            self.unit.say(self.most()),
            fan.unwrap_or_default()
        )
    }
}
