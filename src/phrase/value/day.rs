//! Days by how they were said, and which day of the calendar each is, past or coming.

use chrono::{Datelike, Days, Months, NaiveDate};

/// A day of so many days ago is one that people still speak of without its year (our own choice).
const RECENT: i64 = 60;

/// A day by how it was said: past and coming are two days for most of them.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(in super::super) enum Day {
    /// So many days before or behind today.
    Offset(i32),
    /// So many months before or behind today.
    Months(i32),
    /// A weekday: 0 is Monday; `last`, `next` or neither.
    Weekday(u8, Which),
    /// A weekday of the week before this one.
    LastWeek(u8),
    /// A day of a month of any year.
    OfMonth(u8, u8),
    /// A day of this month, the one before or the next: `the 12th`.
    OfAny(u8),
    /// A day of a year.
    Date(NaiveDate),
    /// Two figures, of which the first may be the month or the day: `8/12`.
    Figures(u8, u8, Option<i32>),
    /// The weekend; `last`, `next` or neither.
    Weekend(Which),
    /// The first and last day of a month: `in july`, `this month`, `last month`.
    Month(u8),
    /// A week, month, year or season that begins so many before this one.
    Span(Span, i32),
    /// A day that no calendar has.
    Impossible,
}

/// `last`, `next` or neither.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(in super::super) enum Which {
    /// `last`
    Last,
    /// `this`, or nothing.
    This,
    /// `next`
    Next,
}

/// A stretch of the calendar.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(in super::super) enum Span {
    /// From Monday.
    Week,
    /// From the first.
    Month,
    /// From 1 January.
    Year,
}

/// A day, and the part of the day if that was said: the hour it begins.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(in super::super) struct Dated {
    pub(in super::super) day: Day,
    pub(in super::super) part: Option<u8>,
}

impl Day {
    /// The latest such day up to today.
    pub(in super::super) fn past(self, today: NaiveDate, metric: bool) -> Option<NaiveDate> {
        match self {
            Self::Offset(days) => offset(today, days),
            Self::Months(months) => months_from(today, months),
            Self::Weekday(weekday, which) => {
                let back = (7 + today.weekday().num_days_from_monday() - u32::from(weekday)) % 7;
                let back = if back == 0 && which != Which::This { 7 } else { back };
                (which != Which::Next).then(|| today.checked_sub_days(Days::new(back.into()))).flatten()
            }
            Self::LastWeek(weekday) => {
                let monday = offset(today, -7 - today.weekday().num_days_from_monday() as i32)?;
                offset(monday, weekday.into())
            }
            Self::OfMonth(month, day) => {
                let of = |year| NaiveDate::from_ymd_opt(year, month.into(), day.into());
                of(today.year()).filter(|day| *day <= today).or_else(|| of(today.year() - 1))
            }
            Self::OfAny(day) => {
                let this = today.with_day(day.into()).filter(|day| *day <= today);
                this.or_else(|| today.with_day(1)?.checked_sub_months(Months::new(1))?.with_day(day.into()))
            }
            Self::Date(day) => Some(day),
            Self::Figures(first, second, year) => {
                let (month, day) = in_order(first, second, metric)?;
                match year {
                    Some(year) => NaiveDate::from_ymd_opt(year, month.into(), day.into()),
                    None => Self::of_either_order(first, second, today, metric),
                }
            }
            Self::Weekend(Which::Next) => None,
            // The one before the week that today is in.
            Self::Weekend(Which::Last) => Self::LastWeek(5).past(today, metric),
            Self::Weekend(Which::This) => Self::Weekday(5, Which::This).past(today, metric),
            Self::Month(_) | Self::Span(..) => Some(self.stretch(today)?.0),
            Self::Impossible => None,
        }
    }

    /// `8/12` in the order of the household; in the other one where only that was not long ago.
    fn of_either_order(first: u8, second: u8, today: NaiveDate, metric: bool) -> Option<NaiveDate> {
        let past = |metric| {
            let (month, day) = in_order(first, second, metric)?;
            Self::OfMonth(month, day).past(today, metric)
        };
        let recent = |day: &NaiveDate| today.signed_duration_since(*day).num_days() <= RECENT;
        past(metric).filter(recent).or_else(|| past(!metric).filter(recent)).or_else(|| past(metric))
    }

    /// The first such day from today on.
    pub(in super::super) fn coming(self, today: NaiveDate, metric: bool) -> Option<NaiveDate> {
        match self {
            Self::Offset(days) => offset(today, days),
            Self::Months(months) => months_from(today, months),
            Self::Weekday(weekday, which) => {
                let from_monday = today.weekday().num_days_from_monday();
                let on = (7 + u32::from(weekday) - from_monday) % 7;
                match which {
                    Which::Last => None,
                    Which::This => today.checked_add_days(Days::new(on.into())),
                    // The week that begins on the next Monday.
                    Which::Next => today.checked_add_days(Days::new(u64::from(7 - from_monday) + u64::from(weekday))),
                }
            }
            Self::OfMonth(month, day) => {
                let of = |year| NaiveDate::from_ymd_opt(year, month.into(), day.into());
                let over = |day: &NaiveDate| today.signed_duration_since(*day).num_days() <= RECENT;
                // A day that is just over is meant, by mistake, sooner than one of next year.
                of(today.year()).filter(over).or_else(|| of(today.year() + 1))
            }
            Self::OfAny(day) => {
                let this = today.with_day(day.into()).filter(|day| *day >= today);
                this.or_else(|| today.with_day(1)?.checked_add_months(Months::new(1))?.with_day(day.into()))
            }
            Self::Date(day) => Some(day),
            Self::Figures(first, second, year) => {
                let (month, day) = in_order(first, second, metric)?;
                match year {
                    Some(year) => NaiveDate::from_ymd_opt(year, month.into(), day.into()),
                    None => Self::OfMonth(month, day).coming(today, metric),
                }
            }
            Self::Weekend(Which::Next) => Self::Weekday(5, Which::Next).coming(today, metric),
            Self::Weekend(Which::Last) => None,
            Self::Weekend(_) if today.weekday().num_days_from_monday() == 6 => Some(today),
            Self::Weekend(_) => Self::Weekday(5, Which::This).coming(today, metric),
            Self::Month(month) => Self::OfMonth(month, 1).coming(today, metric),
            Self::Span(..) | Self::Impossible | Self::LastWeek(_) => None,
        }
    }

    /// The first and the last day of a stretch; the last is `None` when it is not over.
    pub(in super::super) fn stretch(self, today: NaiveDate) -> Option<(NaiveDate, Option<NaiveDate>)> {
        let (from, until) = match self {
            Self::Month(month) => {
                let this = today.with_day(1)?.with_month(month.into())?;
                let from = if this > today { this.checked_sub_months(Months::new(12))? } else { this };
                (from, from.checked_add_months(Months::new(1))?.pred_opt()?)
            }
            Self::Span(Span::Week, before) => {
                let monday = today.checked_sub_days(Days::new(today.weekday().num_days_from_monday().into()))?;
                let from = offset(monday, -7 * before)?;
                (from, offset(from, 6)?)
            }
            Self::Span(Span::Month, before) => {
                let from = today.with_day(1)?.checked_sub_months(Months::new(before.unsigned_abs()))?;
                (from, from.checked_add_months(Months::new(1))?.pred_opt()?)
            }
            Self::Span(Span::Year, before) => {
                let from = NaiveDate::from_ymd_opt(today.year() - before, 1, 1)?;
                (from, NaiveDate::from_ymd_opt(today.year() - before, 12, 31)?)
            }
            _ => return None,
        };
        Some((from, Some(until).filter(|until| *until < today)))
    }
}

pub(super) fn offset(today: NaiveDate, days: i32) -> Option<NaiveDate> {
    let by = Days::new(days.unsigned_abs().into());
    if days < 0 { today.checked_sub_days(by) } else { today.checked_add_days(by) }
}

pub(super) fn months_from(today: NaiveDate, months: i32) -> Option<NaiveDate> {
    let by = Months::new(months.unsigned_abs());
    if months < 0 { today.checked_sub_months(by) } else { today.checked_add_months(by) }
}

/// Month and day of two figures: pounds go with the month first, kilograms with the day first, unless that cannot be.
pub(super) fn in_order(first: u8, second: u8, metric: bool) -> Option<(u8, u8)> {
    let day_first = metric && second <= 12 || first > 12;
    let (month, day) = if day_first { (second, first) } else { (first, second) };
    ((1..=12).contains(&month) && (1..=31).contains(&day)).then_some((month, day))
}
