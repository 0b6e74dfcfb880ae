//! A season week by week.

use super::Picture;
use super::history::History;
use super::unit::{Unit, counted};
use crate::ledger::Ledger;
use crate::ledger::state::{State, Totals};
use crate::quantity::Mass;
use crate::zone::Zone;
use chrono::{DateTime, Datelike, Days, NaiveDate, NaiveTime, Utc};
use serde::{Deserialize, Serialize};

/// What was picked, frozen and put up in the weeks of a year in which there was anything, and those between them.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize)]
pub struct Season {
    /// The calendar year.
    pub year: i32,
    /// The unit of the weights.
    pub unit: Unit,
    /// Weeks that follow each other without a gap, Monday to Sunday.
    pub weeks: Vec<Week>,
    /// Whether the last week is not over yet.
    pub open: bool,
    /// The sum of the weeks.
    pub picked: f64,
    /// The sum of the weeks.
    pub frozen: f64,
    /// The sum of the weeks.
    pub put_up: u32,
}

/// One week.
#[derive(Clone, Copy, PartialEq, Debug, Serialize, Deserialize)]
pub struct Week {
    /// Its Monday.
    pub from: NaiveDate,
    /// Picked, what was never logged included.
    pub picked: f64,
    /// Into the freezer.
    pub frozen: f64,
    /// Jars that sealed, and jars put up.
    pub put_up: u32,
}

/// Sums of all years until now.
#[derive(Clone, Copy, PartialEq, Default)]
struct Sums {
    picked: Mass,
    frozen: Mass,
    put_up: u32,
}

impl Sums {
    fn of(state: &State) -> Self {
        let add = |sums: Self, year: &Totals| Self {
            picked: sums.picked + year.picked,
            frozen: sums.frozen + year.frozen,
            put_up: sums.put_up.saturating_add(year.jars_put_up),
        };
        state.years.values().fold(Self::default(), add)
    }

    fn since(self, before: Self) -> Self {
        Self {
            picked: self.picked.less(before.picked),
            frozen: self.frozen.less(before.frozen),
            put_up: self.put_up.saturating_sub(before.put_up),
        }
    }
}

/// The season of a year; without a year, the present one, or the last one in which there was anything.
pub fn season(ledger: &Ledger, year: Option<i32>, now: DateTime<Utc>) -> Option<Picture> {
    let zone = ledger.state().settings.zone;
    let any = |year: &i32| ledger.state().years.get(year).is_some_and(|sums| has_any(*sums));
    let present = zone.day(now).year();
    let year = match year {
        Some(year) => year,
        None => ledger.state().years.keys().rev().copied().filter(|year| *year <= present).find(any)?,
    };
    let first = monday(NaiveDate::from_ymd_opt(year, 1, 1)?);
    let last = monday(NaiveDate::from_ymd_opt(year, 12, 31)?.min(zone.day(now)));
    let weeks = weeks(ledger, zone, first, last, year);
    drawn(weeks, year, Unit::of(ledger.state().settings.units), monday(zone.day(now)))
}

fn has_any(sums: Totals) -> bool {
    !sums.picked.is_zero() || !sums.frozen.is_zero() || sums.jars_put_up > 0
}

fn monday(day: NaiveDate) -> NaiveDate {
    day.checked_sub_days(Days::new(u64::from(day.weekday().num_days_from_monday()))).unwrap_or(day)
}

/// The sums of each week from `first` to `last`, as far as they fall into the year.
fn weeks(ledger: &Ledger, zone: Zone, first: NaiveDate, last: NaiveDate, year: i32) -> Vec<(NaiveDate, Sums)> {
    let midnight = |day: NaiveDate| zone.at(day, NaiveTime::MIN);
    let start = NaiveDate::from_ymd_opt(year, 1, 1).map_or(DateTime::UNIX_EPOCH, midnight);
    let end = NaiveDate::from_ymd_opt(year + 1, 1, 1).map_or(DateTime::UNIX_EPOCH, midnight);
    let history = History::since(ledger, start);
    let mut before = Sums::of(history.state());
    let mut weeks: Vec<(NaiveDate, Sums)> =
        first.iter_weeks().take_while(|from| *from <= last).map(|from| (from, Sums::default())).collect();
    history.each(|entry, state| {
        let sums = Sums::of(state);
        let week = monday(zone.day(entry.happened));
        if sums != before
            && entry.happened < end
            && let Some((_, of_week)) = weeks.iter_mut().find(|(from, _)| *from == week)
        {
            let more = sums.since(before);
            of_week.picked += more.picked;
            of_week.frozen += more.frozen;
            of_week.put_up = of_week.put_up.saturating_add(more.put_up);
        }
        before = sums;
    });
    weeks
}

/// The picture, from the first week with anything to the last one, or to the present one if that is the next.
fn drawn(weeks: Vec<(NaiveDate, Sums)>, year: i32, unit: Unit, this_week: NaiveDate) -> Option<Picture> {
    let any = |(_, sums): &(NaiveDate, Sums)| *sums != Sums::default();
    let (first, last) = (weeks.iter().position(any)?, weeks.iter().rposition(any)?);
    let end = weeks.get(last + 1).map_or(last, |(from, _)| if *from == this_week { last + 1 } else { last });
    let season = weeks.get(first..=end)?;
    let total = season.iter().fold(Sums::default(), |sum, (_, week)| Sums {
        picked: sum.picked + week.picked,
        frozen: sum.frozen + week.frozen,
        put_up: sum.put_up.saturating_add(week.put_up),
    });
    let week = |(from, sums): &(NaiveDate, Sums)| Week {
        from: *from,
        picked: unit.figure(sums.picked),
        frozen: unit.figure(sums.frozen),
        put_up: sums.put_up,
    };
    Some(Picture::Season(Season {
        year,
        unit,
        weeks: season.iter().map(week).collect(),
        open: season.last().is_some_and(|(from, _)| *from == this_week),
        picked: unit.figure(total.picked),
        frozen: unit.figure(total.frozen),
        put_up: total.put_up,
    }))
}

impl Season {
    /// The week in which most was picked, the first of equals; none where that says nothing.
    pub fn best(&self) -> Option<&Week> {
        let best = self.weeks.iter().max_by(|a, b| a.picked.total_cmp(&b.picked).then(b.from.cmp(&a.from)));
        best.filter(|week| week.picked > 0.0 && self.weeks.len() > 1)
    }

    pub(super) fn alt(&self) -> String {
        let best = self.best().map(|week| {
            format!("; the most in a week, {}, from {}", self.unit.say(week.picked), self.unit.day(week.from))
        });
        format!(
            "Season {} over {}: {} picked, {} frozen, {} put up{}.",
            self.year,
            counted(self.weeks.len() as u32, "week", "weeks"),
            self.unit.say(self.picked),
            self.unit.say(self.frozen),
            counted(self.put_up, "jar", "jars"),
            best.unwrap_or_default()
        )
    }
}
