//! Days past and coming, times of day, and spans of time.

use super::super::lex::Mark;
use super::super::lexicon::sense::{Meaning, Unit};
use super::amount::and_a_part;
use super::input::{Read, Tokens, digits, glued_digits, glued_mark, hyphen, mark, meaning, number_word, sense};
use super::kinds::Figure;
use super::number::{figure, single};
use crate::quantity::Number;
use chrono::{Datelike, Days, Months, NaiveDate, NaiveTime};
use nom::Parser;
use nom::branch::alt;
use nom::combinator::{opt, verify};
use nom::error::context;

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

/// A time of day.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(in super::super) struct Clock {
    pub(in super::super) time: NaiveTime,
    /// Whether morning or afternoon was said, or follows from the hour.
    pub(in super::super) sure: bool,
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

fn offset(today: NaiveDate, days: i32) -> Option<NaiveDate> {
    let by = Days::new(days.unsigned_abs().into());
    if days < 0 { today.checked_sub_days(by) } else { today.checked_add_days(by) }
}

fn months_from(today: NaiveDate, months: i32) -> Option<NaiveDate> {
    let by = Months::new(months.unsigned_abs());
    if months < 0 { today.checked_sub_months(by) } else { today.checked_add_months(by) }
}

/// Month and day of two figures: pounds go with the month first, kilograms with the day first, unless that cannot be.
fn in_order(first: u8, second: u8, metric: bool) -> Option<(u8, u8)> {
    let day_first = metric && second <= 12 || first > 12;
    let (month, day) = if day_first { (second, first) } else { (first, second) };
    ((1..=12).contains(&month) && (1..=31).contains(&day)).then_some((month, day))
}

/// A day in any usual writing.
pub(in super::super) fn dated(input: Tokens<'_>) -> Read<'_, Dated> {
    let plain = |i| day(i).map(|(rest, day)| (rest, (day, None)));
    let (rest, (day, part)) = context("day", alt((weekday_night, part_of_today, plain))).parse(input)?;
    let (rest, behind) = opt(part_behind).parse(rest)?;
    Ok((rest, Dated { day, part: part.or(behind) }))
}

fn day(input: Tokens<'_>) -> Read<'_, Day> {
    alt((relative, ago, ahead, named_month, written, weekday_dated, weekday, weekend, holiday, span, of_any))
        .parse(input)
}

/// `yesterday morning`, `monday night`.
fn part_behind(input: Tokens<'_>) -> Read<'_, u8> {
    let (rest, hour) = number_word(input.classes().daypart)(input)?;
    Ok((rest, hour as u8))
}

/// `last night`, `this morning`.
fn part_of_today(input: Tokens<'_>) -> Read<'_, (Day, Option<u8>)> {
    let classes = input.classes();
    let (rest, ago) = number_word(classes.day_night)(input)?;
    Ok((rest, (Day::Offset(-(ago as i32)), Some(if ago > 0 { 20 } else { 0 }))))
}

/// `tuesday night`, `on the morning of the 12th` is not read here.
fn weekday_night(input: Tokens<'_>) -> Read<'_, (Day, Option<u8>)> {
    let (rest, day) = weekday(input)?;
    let (rest, hour) = part_behind(rest)?;
    Ok((rest, (day, Some(hour))))
}

fn relative(input: Tokens<'_>) -> Read<'_, Day> {
    let classes = input.classes();
    if let Ok((rest, n)) = number_word(classes.day_ago)(input) {
        return Ok((rest, Day::Offset(-(n as i32))));
    }
    let (rest, n) = number_word(classes.day_ahead)(input)?;
    Ok((rest, Day::Offset(n as i32)))
}

/// `last tuesday`, `next sat`, `tuesday`, `this coming friday`, `tues last week`, `a week ago sunday` is not read.
fn weekday(input: Tokens<'_>) -> Read<'_, Day> {
    let classes = input.classes();
    let (rest, which) = which(input)?;
    let (rest, n) = number_word(classes.weekday)(rest)?;
    let (rest, behind) = opt(|i| {
        let (rest, _) = opt(sense(classes.of)).parse(i)?;
        let (rest, which) = which_of(rest)?;
        let (rest, _) =
            verify(meaning(classes.unit_time), |m| matches!(m, Meaning::Unit(Unit::Days(7)))).parse(rest)?;
        Ok((rest, which))
    })
    .parse(rest)?;
    let rest = dot_behind(rest);
    let day = match behind {
        Some(Which::Last) => Day::LastWeek(n as u8),
        behind => Day::Weekday(n as u8, behind.unwrap_or(which)),
    };
    Ok((rest, day))
}

/// `saturday 22`, `friday the 14th`: the date decides.
fn weekday_dated(input: Tokens<'_>) -> Read<'_, Day> {
    let (rest, _) = weekday(input)?;
    let (rest, _) = opt(mark(Mark::Comma)).parse(rest)?;
    if let Ok(found) = alt((named_month, written)).parse(rest) {
        return Ok(found);
    }
    let (after, day) = {
        let (rest, _) = opt(sense(input.classes().article)).parse(rest)?;
        day_number(rest)?
    };
    let classes = input.classes();
    let counts =
        [classes.unit, classes.container, classes.jar, classes.clock_am, classes.clock_pm, classes.crop, classes.of]
            .into_iter()
            .any(|class| sense(class)(after).is_ok());
    let goes_on = after.first().is_some_and(|token| token.glued) && after.skip(1).is_glued();
    if counts || goes_on || day < 3 { input.fail("day") } else { Ok((after, Day::OfAny(day))) }
}

/// `christmas eve`.
fn holiday(input: Tokens<'_>) -> Read<'_, Day> {
    let (rest, found) = sense(input.classes().holiday)(input)?;
    let mut parts = input.known.words.path(found).split('.').skip(1).filter_map(|part| part.parse().ok());
    match (parts.next(), parts.next()) {
        (Some(month), Some(day)) => Ok((rest, Day::OfMonth(month, day))),
        _ => input.fail("day"),
    }
}

/// `wed.` is abbreviated.
fn dot_behind(input: Tokens<'_>) -> Tokens<'_> {
    match glued_mark(Mark::Dot)(input) {
        Ok((rest, ())) if rest.first().is_some_and(|next| !next.capital) => rest,
        _ => input,
    }
}

fn which(input: Tokens<'_>) -> Read<'_, Which> {
    Ok(which_of(input).unwrap_or((input, Which::This)))
}

fn which_of(input: Tokens<'_>) -> Read<'_, Which> {
    let classes = input.classes();
    alt((
        |i| sense(classes.day_last)(i).map(|(rest, _)| (rest, Which::Last)),
        |i| sense(classes.day_next)(i).map(|(rest, _)| (rest, Which::Next)),
        |i| sense(classes.day_this)(i).map(|(rest, _)| (rest, Which::This)),
    ))
    .parse(input)
}

fn weekend(input: Tokens<'_>) -> Read<'_, Day> {
    let classes = input.classes();
    let (rest, which) = which(input)?;
    let (rest, _) = opt(sense(classes.article)).parse(rest)?;
    let (rest, _) = sense(classes.weekend)(rest)?;
    Ok((rest, Day::Weekend(which)))
}

/// So many days, weeks, months or years before or behind today: `3 days`, `a week`, `two weeks`.
fn days(sign: i32, input: Tokens<'_>) -> Read<'_, Day> {
    let classes = input.classes();
    let article = |i| sense(classes.article)(i).map(|(rest, _)| (rest, Figure::of(Number::whole(1))));
    let (rest, n) = alt((single, article)).parse(input)?;
    let (rest, unit) = meaning(classes.unit_time)(rest)?;
    let Some(n) = n.number.as_count().filter(|n| *n <= 400).map(|n| sign * n as i32) else { return input.fail("days") };
    match unit {
        Meaning::Unit(Unit::Days(30)) => Ok((rest, Day::Months(n))),
        Meaning::Unit(Unit::Days(365)) => Ok((rest, Day::Months(12 * n))),
        Meaning::Unit(Unit::Days(days)) => Ok((rest, Day::Offset(n * *days as i32))),
        _ => input.fail("days"),
    }
}

/// `3 days ago`, `a week ago`.
fn ago(input: Tokens<'_>) -> Read<'_, Day> {
    let (rest, day) = days(-1, input)?;
    let (rest, _) = sense(input.classes().day_ended)(rest)?;
    Ok((rest, day))
}

/// `in 3 days`, `3 days from now` is not read.
fn ahead(input: Tokens<'_>) -> Read<'_, Day> {
    let (rest, _) = sense(input.classes().prep_in)(input)?;
    days(1, rest)
}

/// `aug 12`, `12 august`, `12th of aug`, `the 5th of october`, with a year or without.
fn named_month(input: Tokens<'_>) -> Read<'_, Day> {
    let classes = input.classes();
    let month = |i| {
        let (rest, month) = number_word(classes.month)(i)?;
        Ok((dot_behind(rest), month))
    };
    let month_first = |i| {
        let (rest, month) = month(i)?;
        let (rest, _) = opt(sense(classes.article)).parse(rest)?;
        let (rest, day) = day_number(rest)?;
        Ok((rest, (month, day)))
    };
    let day_first = |i| {
        let (rest, _) = opt(sense(classes.article)).parse(i)?;
        let (rest, day) = day_number(rest)?;
        let rest = glued_mark(Mark::Dot)(rest).map_or(rest, |(rest, ())| rest);
        let (rest, _) = opt(sense(classes.of)).parse(rest)?;
        let (rest, month) = month(rest)?;
        Ok((rest, (month, day)))
    };
    let (rest, (month, day)) = alt((month_first, day_first)).parse(input)?;
    let (after, year) = opt(year_behind).parse(rest)?;
    Ok(match year {
        Some(year) => {
            (after, NaiveDate::from_ymd_opt(year, month as u32, day.into()).map_or(Day::Impossible, Day::Date))
        }
        // A leap year has every day.
        None if NaiveDate::from_ymd_opt(2024, month as u32, day.into()).is_none() => (rest, Day::Impossible),
        None => (rest, Day::OfMonth(month as u8, day)),
    })
}

fn year_behind(input: Tokens<'_>) -> Read<'_, i32> {
    let (rest, _) = opt(mark(Mark::Comma)).parse(input)?;
    let (rest, (year, _)) = verify(digits, |(year, count)| *count == 4 && (1990..2100).contains(year)).parse(rest)?;
    Ok((rest, year as i32))
}

/// `12`, `12th`, `twelfth`.
fn day_number(input: Tokens<'_>) -> Read<'_, u8> {
    let classes = input.classes();
    if let Ok((rest, n)) = number_word(classes.ordinal)(input) {
        return Ok((rest, n as u8));
    }
    let (rest, (n, count)) = digits(input)?;
    let (rest, _) = opt(suffix).parse(rest)?;
    let measured = sense(classes.unit)(rest).is_ok() || glued_mark(Mark::Slash)(rest).is_ok();
    if (1..=31).contains(&n) && count <= 2 && !measured { Ok((rest, n as u8)) } else { input.fail("day") }
}

/// The letters of `12th`.
fn suffix(input: Tokens<'_>) -> Read<'_, ()> {
    if !input.is_glued() {
        return input.fail("day");
    }
    let (rest, _) = sense(input.classes().ordinal_suffix)(input)?;
    Ok((rest, ()))
}

/// `the 12th`, `on the 3rd`.
fn of_any(input: Tokens<'_>) -> Read<'_, Day> {
    let classes = input.classes();
    let (rest, _) = opt(sense(classes.article)).parse(input)?;
    if let Ok((after, n)) = number_word(classes.ordinal)(rest) {
        // `the second` may be a jar; a day has its article and stands alone.
        return if rest.at > input.at && n > 3 { Ok((after, Day::OfAny(n as u8))) } else { input.fail("day") };
    }
    let (rest, (n, count)) = digits(rest)?;
    if !rest.is_glued() || count > 2 || !(1..=31).contains(&n) {
        return input.fail("day");
    }
    let (rest, _) = sense(classes.ordinal_suffix)(rest)?;
    Ok((rest, Day::OfAny(n as u8)))
}

/// `2026-08-12`, `8/12/26`, `12.8.2026`, `8/12`, `13.8.`
fn written(input: Tokens<'_>) -> Read<'_, Day> {
    let (rest, (first, count)) = digits(input)?;
    let (rest, separator) = alt((
        |i| glued_mark(Mark::Dash)(i).map(|(rest, ())| (rest, Mark::Dash)),
        |i| glued_mark(Mark::Slash)(i).map(|(rest, ())| (rest, Mark::Slash)),
        |i| glued_mark(Mark::Dot)(i).map(|(rest, ())| (rest, Mark::Dot)),
    ))
    .parse(rest)?;
    let (rest, (second, second_count)) = glued_digits(rest)?;
    let third = |i| {
        let (rest, ()) = glued_mark(separator)(i)?;
        glued_digits(rest)
    };
    let whole = opt(third).parse(rest)?;
    if count > 4 || second_count > 2 || first > 9999 {
        return input.fail("date");
    }
    if let (rest, Some((third, third_count))) = whole {
        let (year, month, day) = if count == 4 {
            return match NaiveDate::from_ymd_opt(first as i32, second as u32, third as u32) {
                Some(day) => Ok((rest, Day::Date(day))),
                None => Ok((rest, Day::Impossible)),
            };
        } else if separator == Mark::Dot {
            (third, second, first)
        } else {
            (third, first, second)
        };
        let year = match third_count {
            2 => 2000 + year as i32,
            4 if (1990..2100).contains(&year) => year as i32,
            _ => return input.fail("date"),
        };
        if separator == Mark::Dot {
            return Ok((
                rest,
                NaiveDate::from_ymd_opt(year, month as u32, day as u32).map_or(Day::Impossible, Day::Date),
            ));
        }
        return match (u8::try_from(first), u8::try_from(second)) {
            (Ok(first), Ok(second))
                if in_order(first, second, true).is_some() || in_order(first, second, false).is_some() =>
            {
                Ok((rest, Day::Figures(first, second, Some(year))))
            }
            _ => Ok((rest, Day::Impossible)),
        };
    }
    let (Ok(first), Ok(second)) = (u8::try_from(first), u8::try_from(second)) else { return input.fail("date") };
    match separator {
        // `13.8.` with its last dot; `13.8` alone is a decimal.
        Mark::Dot if (1..=31).contains(&first) && (1..=12).contains(&second) => {
            let (rest, ()) = glued_mark(Mark::Dot)(rest)?;
            Ok((rest, Day::OfMonth(second, first)))
        }
        // `12-8`, where a message begins with it.
        Mark::Dash
            if input.at == 0
                && in_order(first, second, true).is_some()
                && sense(input.classes().unit)(rest).is_err() =>
        {
            Ok((rest, Day::Figures(first, second, None)))
        }
        // A fraction is no date: `1/2 lb`.
        Mark::Slash if in_order(first, second, false).is_some() && sense(input.classes().unit)(rest).is_err() => {
            Ok((rest, Day::Figures(first, second, None)))
        }
        _ => input.fail("date"),
    }
}

/// `this week`, `last month`, `this year`, `in july`, `last july`.
fn span(input: Tokens<'_>) -> Read<'_, Day> {
    let classes = input.classes();
    if let Ok((rest, _)) = sense(classes.ytd)(input) {
        return Ok((rest, Day::Span(Span::Year, 0)));
    }
    let (rest, which) = opt(which_of).parse(input)?;
    if let Ok((after, unit)) = meaning(classes.unit_time)(rest) {
        let before = match which {
            Some(Which::Last) => 1,
            Some(Which::This) => 0,
            _ => return input.fail("span"),
        };
        return match unit {
            Meaning::Unit(Unit::Days(7)) => Ok((after, Day::Span(Span::Week, before))),
            Meaning::Unit(Unit::Days(30)) => Ok((after, Day::Span(Span::Month, before))),
            Meaning::Unit(Unit::Days(365)) => Ok((after, Day::Span(Span::Year, before))),
            _ => input.fail("span"),
        };
    }
    let (after, month) = number_word(classes.month)(rest)?;
    let (rest, year) = opt(year_behind).parse(after)?;
    match year {
        Some(_) => input.fail("span"),
        None => Ok((rest, Day::Month(month as u8))),
    }
}

/// A time of day: `10:20`, `9 am`, `half past six`, `noon`, `9 o'clock`.
pub(in super::super) fn clock(input: Tokens<'_>) -> Read<'_, Clock> {
    let (start, _) =
        opt(alt((mark(Mark::Tilde), |i| sense(input.classes().approx)(i).map(|(rest, _)| (rest, ()))))).parse(input)?;
    context("clock", alt((half_or_quarter, minutes_past, with_minutes, hour_letter, spelled_minutes, hour, noon)))
        .parse(start)
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Half {
    Morning,
    Afternoon,
    /// The evening up to midnight, and the small hours.
    Night,
}

/// The hour from which a part of the day is night.
const NIGHT: i64 = 20;
/// The last of the small hours, as most people count them (our own choice).
const SMALL_HOURS: u64 = 4;

fn half(input: Tokens<'_>) -> Read<'_, Half> {
    let classes = input.classes();
    // `a.m.`
    alt((
        |i| sense(classes.clock_am)(i).map(|(rest, _)| (rest, Half::Morning)),
        later_half,
        |i| {
            let (rest, hour) = number_word(classes.daypart)(i)?;
            Ok((
                rest,
                match hour {
                    1..12 => Half::Morning,
                    12..NIGHT => Half::Afternoon,
                    _ => Half::Night,
                },
            ))
        },
    ))
    .parse(input)
}

/// `pm`, `in the evening`, `at night`.
fn later_half(input: Tokens<'_>) -> Read<'_, Half> {
    let classes = input.classes();
    let (rest, _) = sense(classes.clock_pm)(input)?;
    // The last word of `at night` is a part of the day.
    let last = Tokens { at: rest.at.saturating_sub(1).max(input.at), ..input };
    let night = number_word(classes.daypart)(last).is_ok_and(|(_, hour)| hour >= NIGHT);
    Ok((rest, if night { Half::Night } else { Half::Afternoon }))
}

fn at(hour: u64, minute: u64, half: Option<Half>) -> Option<Clock> {
    let (hour, sure) = match half {
        Some(Half::Afternoon) if hour < 12 => (hour + 12, true),
        Some(Half::Morning | Half::Night) if hour == 12 => (0, true),
        Some(Half::Night) if (SMALL_HOURS + 1..12).contains(&hour) => (hour + 12, true),
        Some(_) => (hour, true),
        None => (hour, hour > 12 || hour == 0),
    };
    let time = NaiveTime::from_hms_opt(u32::try_from(hour).ok()?, u32::try_from(minute).ok()?, 0)?;
    Some(Clock { time, sure })
}

fn done<'a>(input: Tokens<'a>, rest: Tokens<'a>, clock: Option<Clock>) -> Read<'a, Clock> {
    clock.map_or_else(|| input.fail("clock"), |clock| Ok((rest, clock)))
}

fn with_minutes(input: Tokens<'_>) -> Read<'_, Clock> {
    let (rest, (hours, count)) = digits(input)?;
    let colon = alt((|i| glued_mark(Mark::Colon)(i), |i| glued_mark(Mark::Dot)(i)));
    let (rest, dotted) = {
        let dotted = glued_mark(Mark::Dot)(rest).is_ok();
        let mut colon = colon;
        let (rest, ()) = colon.parse(rest)?;
        (rest, dotted)
    };
    let (rest, (minutes, two)) = glued_digits(rest)?;
    let (rest, half) = opt(half).parse(rest)?;
    // `7.30` is a time only with am or pm behind it.
    if two != 2 || count > 2 || dotted && half.is_none() {
        return input.fail("clock");
    }
    done(
        input,
        rest,
        at(hours, minutes, half).map(|clock| Clock { sure: clock.sure || count == 2 && hours < 10, ..clock }),
    )
}

/// `22h`, `16h30`: as a clock shows it where hours are counted to twenty-four.
fn hour_letter(input: Tokens<'_>) -> Read<'_, Clock> {
    let classes = input.classes();
    let (rest, (hours, count)) = digits(input)?;
    let letter = rest.is_glued() && rest.first().is_some_and(|token| token.to - token.from == 1);
    let (rest, _) = sense(classes.unit_hour)(rest)?;
    if !letter || hours > 24 {
        return input.fail("clock");
    }
    let (rest, minutes) = opt(verify(glued_digits, |(minutes, two)| *two == 2 && *minutes < 60)).parse(rest)?;
    let clock = at(hours % 24, minutes.map_or(0, |(minutes, _)| minutes), None);
    done(input, rest, clock.map(|clock| Clock { sure: clock.sure || count == 2, ..clock }))
}

/// `9 am`, `9pm`, `9 o'clock`, `seven in the morning`.
fn hour(input: Tokens<'_>) -> Read<'_, Clock> {
    let classes = input.classes();
    let (rest, n) = single(input)?;
    let Some(hour) = n.number.as_count() else { return input.fail("clock") };
    let (rest, oclock) = opt(sense(classes.oclock)).parse(rest)?;
    let (rest, half) = opt(half).parse(rest)?;
    if oclock.is_none() && half.is_none() || hour > 24 {
        return input.fail("clock");
    }
    done(input, rest, at(hour.into(), 0, half))
}

/// `six thirty`, `eight fifteen at night`.
fn spelled_minutes(input: Tokens<'_>) -> Read<'_, Clock> {
    let classes = input.classes();
    let (rest, hours) = verify(number_word(classes.ones), |n| (1..=12).contains(n)).parse(input)?;
    let (rest, minutes) =
        alt((|i| number_word(classes.tens)(i), |i| verify(number_word(classes.ones), |n| *n == 15).parse(i)))
            .parse(rest)?;
    let (rest, half) = opt(half).parse(rest)?;
    if minutes >= 60
        || sense(classes.unit)(rest).is_ok()
        || sense(classes.container)(rest).is_ok()
        || sense(classes.jar)(rest).is_ok()
    {
        return input.fail("clock");
    }
    done(input, rest, at(hours as u64, minutes as u64, half))
}

/// `half past six`, `quarter to 5`.
fn half_or_quarter(input: Tokens<'_>) -> Read<'_, Clock> {
    let classes = input.classes();
    let (rest, minutes) = alt((
        |i| sense(classes.half_past)(i).map(|(rest, _)| (rest, 30)),
        |i| sense(classes.quarter_past)(i).map(|(rest, _)| (rest, 15)),
        |i| sense(classes.quarter_to)(i).map(|(rest, _)| (rest, -15)),
    ))
    .parse(input)?;
    off_the_hour(input, rest, minutes)
}

/// `20 past 8`, `ten to five`.
fn minutes_past(input: Tokens<'_>) -> Read<'_, Clock> {
    let classes = input.classes();
    let (rest, n) = single(input)?;
    let Some(n) = n.number.as_count().filter(|n| (1..60).contains(n)) else { return input.fail("clock") };
    let (rest, _) =
        opt(verify(meaning(classes.unit_time), |m| matches!(m, Meaning::Unit(Unit::Seconds(60))))).parse(rest)?;
    let (rest, sign) = alt((
        |i| sense(classes.clock_past)(i).map(|(rest, _)| (rest, 1)),
        |i| sense(classes.clock_to)(i).map(|(rest, _)| (rest, -1)),
    ))
    .parse(rest)?;
    off_the_hour(input, rest, sign * n as i32)
}

fn off_the_hour<'a>(input: Tokens<'a>, rest: Tokens<'a>, minutes: i32) -> Read<'a, Clock> {
    let (rest, n) = single(rest)?;
    let Some(hour) = n.number.as_count().filter(|n| (1..=12).contains(n)) else { return input.fail("clock") };
    let (rest, half) = opt(half).parse(rest)?;
    if sense(input.classes().unit)(rest).is_ok() || sense(input.classes().container)(rest).is_ok() {
        return input.fail("clock");
    }
    let Some(Clock { time, sure }) = at(hour.into(), 0, half) else { return input.fail("clock") };
    let (time, _) = time.overflowing_add_signed(chrono::TimeDelta::minutes(minutes.into()));
    Ok((rest, Clock { time, sure }))
}

/// `noon`, `midnight`.
fn noon(input: Tokens<'_>) -> Read<'_, Clock> {
    let classes = input.classes();
    let (rest, hour) = alt((
        |i| sense(classes.noon)(i).map(|(rest, _)| (rest, 12)),
        |i| sense(classes.midnight)(i).map(|(rest, _)| (rest, 0)),
    ))
    .parse(input)?;
    done(input, rest, at(hour, 0, None).map(|clock| Clock { sure: true, ..clock }))
}

/// A span of time in seconds: `45 min`, `an hour and a half`, `1 h 20`, `half an hour`, `2 hours 10 min`.
pub(in super::super) fn duration(input: Tokens<'_>) -> Read<'_, u32> {
    context("duration", alt((two_spans, one_span))).parse(input)
}

fn spanned(input: Tokens<'_>) -> Read<'_, (Number, u32)> {
    let classes = input.classes();
    let article = |i| sense(classes.article)(i).map(|(rest, _)| (rest, Figure::of(Number::whole(1))));
    let (rest, n) = alt((figure, article)).parse(input)?;
    let (rest, _) = opt(sense(classes.of)).parse(rest)?;
    let (rest, _) = if n.number.as_f64() < 1.0 { opt(sense(classes.article)).parse(rest)? } else { (rest, None) };
    let (rest, ()) = hyphen(rest)?;
    let (rest, unit) = meaning(classes.unit_time)(rest)?;
    let Meaning::Unit(Unit::Seconds(unit)) = unit else { return input.fail("duration") };
    let (rest, part) = opt(and_a_part).parse(rest)?;
    match part.map_or(Some(n.number), |part| n.number.checked_add(part)) {
        Some(n) => Ok((rest, (n, *unit))),
        None => input.fail("duration"),
    }
}

fn seconds(number: Number, unit: u32) -> Option<u32> {
    let total = number.checked_mul(Number::whole(unit.into()))?.as_f64().round();
    (0.0..=4e9).contains(&total).then_some(total as u32)
}

fn one_span(input: Tokens<'_>) -> Read<'_, u32> {
    let (rest, (n, unit)) = spanned(input)?;
    match seconds(n, unit) {
        Some(total) => Ok((rest, total)),
        None => input.fail("duration"),
    }
}

fn two_spans(input: Tokens<'_>) -> Read<'_, u32> {
    let classes = input.classes();
    let (rest, (large, unit)) = spanned(input)?;
    let (rest, comma) = opt(alt((
        |i| sense(classes.and)(i).map(|(rest, _)| (rest, false)),
        |i| mark(Mark::Comma)(i).map(|(rest, ())| (rest, true)),
    )))
    .parse(rest)?;
    let (rest, (small, below)) = match spanned(rest) {
        Ok(found) => found,
        // `1 h 20`
        Err(_) if unit == 3600 && comma != Some(true) => {
            let (rest, n) = single(rest)?;
            if sense(classes.unit)(rest).is_ok()
                || sense(classes.container)(rest).is_ok()
                || sense(classes.jar)(rest).is_ok()
            {
                return input.fail("duration");
            }
            (rest, (n.number, 60))
        }
        Err(fault) => return Err(fault),
    };
    match seconds(large, unit).zip(seconds(small, below)).and_then(|(a, b)| a.checked_add(b)) {
        Some(total) if below < unit => Ok((rest, total)),
        _ => input.fail("duration"),
    }
}

/// `10 minutes ago`, `an hour ago`: so many seconds before now.
pub(in super::super) fn seconds_ago(input: Tokens<'_>) -> Read<'_, u32> {
    let (rest, span) = duration(input)?;
    let (rest, _) = sense(input.classes().day_ended)(rest)?;
    Ok((rest, span))
}
