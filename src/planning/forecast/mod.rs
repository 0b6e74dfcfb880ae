//! The day on which the freezer reaches a load: not a rate but a spread of days, drawn from how fruit has come in this
//! season.
//!
//! Freezings are an irregular amount at irregular gaps. A regression gives the course of the season, with how much of
//! it is open (`trend`); hundreds of seasons to come are drawn from it and from the household's own gaps and amounts
//! (`simulate`). The days on which a tenth, half and nine tenths of them have reached the load are the answer.
//!
//! Invariants: the same ledger on the same day gives the same answer, as chance is seeded with the history; fewer than
//! [`FREEZINGS_NEEDED`] days of freezing give none; nothing is expected after the season's end, where it was told. How
//! often the 80 % interval holds is measured over invented seasons in `tests/it/planning/calibration.rs`.

mod simulate;
mod trend;

use super::ripening::ripe_by;
use super::{Target, load_state};
use crate::ledger::state::State;
use crate::quantity::Mass;
use crate::vocabulary::Crop;
use chrono::{DateTime, Days, NaiveDate, Utc};
use simulate::Paths;
use trend::Event;

/// So many days of freezing there must have been this season. Over invented seasons the 80 % interval held 74 % of the
/// time and the middle missed by 6 days with two of them, 76 % and 3 days with four.
pub const FREEZINGS_NEEDED: u32 = 4;

/// No freezing for so many days: another season.
pub const SEASON_BREAK: i64 = 45;

/// Later than this nobody plans; it is said as 'not by then'.
const HORIZON: Days = Days::new(90);

/// A season's end that is longer past than this was last year's.
const STALE_END: Days = Days::new(120);

/// The days on which the load is reached on a tenth, half and nine tenths of the paths.
#[derive(Clone, PartialEq, Debug)]
pub struct Forecast {
    /// What a load is.
    pub target: Target,
    /// From so many days of freezing it was estimated.
    pub freezings: usize,
    /// What is missing.
    pub short: Mass,
    /// Ripe fruit on the counter that was counted in.
    pub from_counter: Mass,
    /// One in ten is as early.
    pub p10: Option<NaiveDate>,
    /// As likely earlier as later; `None` when it is more likely not by `until`.
    pub p50: Option<NaiveDate>,
    /// One in ten is later; `None` when more than that are not by `until`.
    pub p90: Option<NaiveDate>,
    /// The last day looked at.
    pub until: NaiveDate,
    /// Whether that is the end of the season.
    pub is_season_end: bool,
}

/// Why there is no forecast.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum NoForecast {
    /// The load is there already.
    Ready,
    /// So many more days of freezing are needed.
    TooLittle {
        /// How many.
        more: u32,
    },
    /// The season is over.
    SeasonOver {
        /// Since when.
        end: NaiveDate,
    },
}

/// The day the freezer reaches a load; with what is ripe on the counter if it is to be counted in.
///
/// # Errors
/// When it is there, when there is too little history, or when the season is over.
pub fn forecast(state: &State, target: Target, with_counter: bool, now: DateTime<Utc>) -> Result<Forecast, NoForecast> {
    let today = state.settings.zone.day(now);
    let crop = target.crop;
    let load = load_state(state, target);
    let from_counter = if with_counter { ripe_by(state, crop, today) } else { Mass::ZERO };
    let short = load.short.less(from_counter);
    if short.is_zero() {
        return Err(NoForecast::Ready);
    }
    let end = season_end(state, today);
    if let Some(end) = end.filter(|end| *end < today) {
        return Err(NoForecast::SeasonOver { end });
    }
    let season = Season::of(state, crop, today)?;
    let until = end.unwrap_or(today + HORIZON).min(today + HORIZON);
    let days = season.paths().days_to(short.as_grams(), day_number(until));
    let share = |tenths: usize| days.get(days.len() * tenths / 10).copied().flatten().and_then(date);
    Ok(Forecast {
        target: load.target,
        freezings: season.events.len(),
        short,
        from_counter,
        p10: share(1),
        p50: share(5),
        p90: share(9),
        until,
        is_season_end: end == Some(until),
    })
}

/// What the freezer holds of a crop on one of the next days, if nothing is taken out.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct FanDay {
    /// The day.
    pub on: NaiveDate,
    /// At most this in one of ten.
    pub p10: Mass,
    /// As likely more as less.
    pub p50: Mass,
    /// At least this in one of ten.
    pub p90: Mass,
}

/// The fan of what the freezer will hold over the next days, up to the season's end.
///
/// # Errors
/// When there is too little history.
pub fn fan(state: &State, crop: Crop, now: DateTime<Utc>, days: usize) -> Result<Vec<FanDay>, NoForecast> {
    let today = state.settings.zone.day(now);
    let season = Season::of(state, crop, today)?;
    let there = state.freezer.mass(crop);
    let end = season_end(state, today);
    let days_left = end.map_or(days, |end| (end - today).num_days().clamp(0, days as i64) as usize);
    let sums = season.paths().sums(days_left);
    let fan = sums.iter().enumerate().map(|(place, sums)| {
        let share = |tenths: usize| {
            let sum = sums.get(sums.len() * tenths / 10).copied().unwrap_or(0.0);
            there + Mass::from_grams(sum).unwrap_or(Mass::ZERO)
        };
        FanDay { on: today + Days::new(place as u64 + 1), p10: share(1), p50: share(5), p90: share(9) }
    });
    Ok(fan.collect())
}

/// The season's end as set; none once it is so long past that it was last year's.
fn season_end(state: &State, today: NaiveDate) -> Option<NaiveDate> {
    state.settings.season_end.filter(|end| *end + STALE_END >= today)
}

/// This season's freezings of a crop, a line a day.
struct Season {
    events: Vec<Event>,
    today: i64,
}

impl Season {
    fn of(state: &State, crop: Crop, today: NaiveDate) -> Result<Self, NoForecast> {
        let mut events: Vec<Event> = Vec::new();
        let mut next = today;
        for day in state.diary.frozen(crop).rev().filter(|day| day.on <= today && !day.mass.is_zero()) {
            if (next - day.on).num_days() > SEASON_BREAK {
                break;
            }
            next = day.on;
            events.push(Event { day: day_number(day.on), amount: day.mass.as_grams() });
        }
        events.reverse();
        let more = FREEZINGS_NEEDED.saturating_sub(events.len() as u32);
        if more > 0 {
            return Err(NoForecast::TooLittle { more });
        }
        Ok(Self { events, today: day_number(today) })
    }

    fn paths(&self) -> Paths {
        Paths::new(&self.events, self.today, self.seed())
    }

    /// Chance that is the same for the same history on the same day.
    fn seed(&self) -> u64 {
        let mut hasher = crc32fast::Hasher::new();
        hasher.update(&self.today.to_le_bytes());
        for event in &self.events {
            hasher.update(&event.day.to_le_bytes());
            hasher.update(&event.amount.to_bits().to_le_bytes());
        }
        u64::from(hasher.finalize())
    }
}

fn day_number(day: NaiveDate) -> i64 {
    i64::from(day.to_epoch_days())
}

fn date(day: i64) -> Option<NaiveDate> {
    NaiveDate::from_epoch_days(i32::try_from(day).ok()?)
}
