//! When a thing happened or will: days, times and parts of days of a clause put together.

use crate::phrase::context::Context;
use crate::phrase::value::{clock::Clock, day::Dated};
use crate::statement::When;
use chrono::{DateTime, Duration, NaiveDate, NaiveTime, Timelike, Utc};

/// What a clause says of the time.
#[derive(Clone, Copy, PartialEq, Debug, Default)]
pub(super) struct Moment {
    pub(super) day: Option<Dated>,
    pub(super) clock: Option<Clock>,
    /// So many seconds before now.
    pub(super) ago: Option<u32>,
    /// Whether the message weighs in metric units: then the day stands before the month.
    pub(super) metric: bool,
}

impl Moment {
    /// The day or instant at which it happened; `None` where nothing was said. `Err` where what was said cannot be: a
    /// day ahead, or one that no calendar has.
    pub(super) fn past(&self, context: &Context<'_>) -> Result<Option<When>, ()> {
        let today = context.zone.day(context.now);
        if let Some(seconds) = self.ago {
            let at = context.now.checked_sub_signed(Duration::seconds(seconds.into())).ok_or(())?;
            return Ok(Some(When::At(context.zone.local(at))));
        }
        let day = match self.day {
            None => None,
            Some(dated) => Some(
                dated.day.past(today, context.lexicon.metric || self.metric).filter(|day| *day <= today).ok_or(())?,
            ),
        };
        let Some(clock) = self.clock else { return Ok(day.map(When::Day)) };
        let evening = self.day.and_then(|dated| dated.part).is_some_and(|hour| hour >= 12);
        let at = match day {
            Some(day) if day < today => {
                let time = if evening && !clock.sure { later(clock.time) } else { clock.time };
                Some(context.zone.at(day, time))
            }
            _ => latest(context, today, clock),
        };
        Ok(at.map(|at| When::At(context.zone.local(at))))
    }
}

/// Twelve hours later, for an hour of the afternoon.
fn later(time: NaiveTime) -> NaiveTime {
    if time.hour() < 12 { time.overflowing_add_signed(Duration::hours(12)).0 } else { time }
}

/// The latest instant up to now at which the clock showed this.
fn latest(context: &Context<'_>, today: NaiveDate, clock: Clock) -> Option<DateTime<Utc>> {
    let times = if clock.sure { [clock.time; 2] } else { [later(clock.time), clock.time] };
    let said = times.into_iter().map(|time| context.zone.at(today, time)).find(|at| *at <= context.now);
    said.or_else(|| Some(context.zone.at(today.pred_opt()?, times[0])))
}

/// The hour of `by 5` on a canning day: in the afternoon up to nine, if nothing else is said.
pub(super) fn by_day(clock: Clock) -> NaiveTime {
    if clock.sure || !(1..9).contains(&clock.time.hour()) { clock.time } else { later(clock.time) }
}

/// `HH:MM`.
pub(super) fn hours_minutes(time: NaiveTime) -> String {
    time.format("%H:%M").to_string()
}
