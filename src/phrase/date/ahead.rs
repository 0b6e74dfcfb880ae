//! Days that lie ahead: what a plan is made for, and when a season ends.

use super::calendar::{any_day, month_of, year_behind};
use super::{Context, is_weekday, today};
use crate::phrase::{
    number::number,
    token::{Sense, Tokens, one_of},
    words::{Unit, Word},
};
use chrono::{Datelike, Days, Months, NaiveDate, Weekday};

/// Reads a coming day at the start: `saturday`, `next sunday`, `tomorrow`, `the 22nd`, `aug 22`, `in 3 days`. A weekday is the
/// next such day, today included; with `next` it is that of the coming week, which begins on Monday.
pub(in crate::phrase) fn ahead(input: Tokens<'_>, context: &Context<'_>) -> Option<(usize, NaiveDate)> {
    let small = |n: usize| one_of!(input.key(n), "on" | "for" | "the" | "this" | "coming" | "to");
    let skip = (0..3).take_while(|n| small(*n)).count();
    let rest = input.skip(skip);
    let (used, day) = one_day(rest, context, skip > 0)?;
    Some((skip + used, day))
}

fn one_day(input: Tokens<'_>, context: &Context<'_>, led: bool) -> Option<(usize, NaiveDate)> {
    let now = today(context);
    let first = input.first()?;
    let next = one_of!(input.key(0), "next");
    if let Some(Word::Weekday(n)) = input.nth(usize::from(next)).and_then(|t| t.word())
        && (next || led || is_weekday(first, input))
    {
        return weekday(now, n, next).map(|day| (1 + usize::from(next), day));
    }
    // The weekend begins on Saturday.
    if one_of!(input.key(usize::from(next)), "weekend") && (next || led) {
        const SATURDAY: u8 = 5;
        let begun = now.weekday() == Weekday::Sun && !next;
        let day = if begun { Some(now) } else { weekday(now, SATURDAY, next) };
        return day.map(|day| (1 + usize::from(next), day));
    }
    match first.sense {
        Sense::Date(day) => return Some((1, day)),
        Sense::Written(written) => return written.day(context.lexicon.metric).map(|day| (1, day)),
        Sense::Ratio(a, b) if led => {
            let (month, day) = if context.lexicon.metric && b <= 12 || a > 12 { (b, a) } else { (a, b) };
            NaiveDate::from_ymd_opt(2024, month, day)?;
            return coming(now, month, day).map(|day| (1, day));
        }
        Sense::Word(Word::Day(offset)) if offset >= 0 => {
            return now.checked_add_days(Days::new(offset.unsigned_abs().into())).map(|day| (1, day));
        }
        Sense::Word(Word::DayPart(_)) if one_of!(first.key, "tonight" | "tonite") => return Some((1, now)),
        Sense::Word(Word::DayPart(hour)) if led && hour >= 12 && one_of!(first.key, "afternoon" | "evening") => {
            return Some((1, now));
        }
        _ => {}
    }
    if one_of!(input.key(0), "day") && one_of!(input.key(1), "after") {
        return matches!(input.nth(2)?.word()?, Word::Day(1))
            .then(|| Some((3, now.checked_add_days(Days::new(2))?)))?;
    }
    if one_of!(input.key(0), "in") {
        return in_days(input.skip(1), now).map(|(used, day)| (used + 1, day));
    }
    dated(input, now).or_else(|| {
        let Sense::Ordinal(n) = first.sense else { return None };
        let this = now.with_day(n).filter(|day| *day >= now);
        let later = || now.with_day(1)?.checked_add_months(Months::new(1))?.with_day(n);
        led.then(|| this.or_else(later)).flatten().map(|day| (1, day))
    })
}

fn weekday(now: NaiveDate, n: u8, next: bool) -> Option<NaiveDate> {
    let wanted = Weekday::try_from(n).ok()?;
    if next {
        let monday = now.checked_add_days(Days::new(7 - u64::from(now.weekday().num_days_from_monday())))?;
        return monday.checked_add_days(Days::new(wanted.num_days_from_monday().into()));
    }
    now.checked_add_days(Days::new(wanted.days_since(now.weekday()).into()))
}

/// `3 days`, `a week`, `two weeks` behind `in`.
fn in_days(input: Tokens<'_>, now: NaiveDate) -> Option<(usize, NaiveDate)> {
    let (used, count) = match number(input) {
        Ok((rest, n)) => (input.0.len() - rest.0.len(), n.as_count()?),
        Err(_) if one_of!(input.key(0), "a" | "an" | "one") => (1, 1),
        Err(_) => return None,
    };
    let each = match input.nth(used)?.word()? {
        Word::Unit(Unit::Days) => 1,
        Word::Unit(Unit::Weeks) => 7,
        _ => return None,
    };
    let days = u64::from(count.min(400)) * each;
    Some((used + 1, now.checked_add_days(Days::new(days))?))
}

/// `aug 22`, `22 August`, `the 22nd of august`, and with words for a part of it `the end of september`, `mid october`.
pub(in crate::phrase) fn dated(input: Tokens<'_>, now: NaiveDate) -> Option<(usize, NaiveDate)> {
    let the = (0..2).take_while(|n| one_of!(input.key(*n), "the" | "about" | "around")).count();
    let rest = input.skip(the);
    let first = rest.first()?;
    let part = match rest.key(0) {
        k if one_of!(k, "end" | "late") => Some(31),
        k if one_of!(k, "mid" | "middle") => Some(15),
        k if one_of!(k, "beginning" | "start" | "early") => Some(1),
        _ => None,
    };
    if let Some(day) = part {
        let of = (1..3)
            .take_while(|n| {
                one_of!(rest.key(*n), "of" | "in")
                    || rest.nth(*n).is_some_and(|t| t.is_mark(crate::phrase::token::Mark::Hyphen))
            })
            .count();
        let month = month_of(rest.nth(1 + of)?)?;
        let day = match (day, rest.key(0)) {
            (31, k) if one_of!(k, "late") => 25,
            (1, k) if one_of!(k, "early") => 5,
            (day, _) => day,
        };
        return coming(now, month, day).map(|day| (the + 2 + of, day));
    }
    let of = usize::from(one_of!(rest.key(1), "of"));
    let (used, month, day) = match (month_of(first), rest.nth(1 + of).and_then(month_of)) {
        (Some(month), _) => (2, month, any_day(rest.nth(1)?)?),
        (None, Some(month)) => (2 + of, month, any_day(first)?),
        _ => return None,
    };
    let counts = matches!(rest.nth(used).and_then(|t| t.word()), Some(Word::Unit(_) | Word::Dozen))
        && !matches!(rest.nth(used - 1)?.sense, Sense::Ordinal(_));
    if counts {
        return None;
    }
    if let Some((behind, year)) = year_behind(rest.skip(used)) {
        return NaiveDate::from_ymd_opt(year, month, day).map(|day| (the + used + behind, day));
    }
    NaiveDate::from_ymd_opt(2024, month, day)?;
    coming(now, month, day).map(|day| (the + used, day))
}

/// This year's such day, or next year's when it lies more than half a year back; the last day of a shorter month.
fn coming(now: NaiveDate, month: u32, day: u32) -> Option<NaiveDate> {
    let in_year =
        |year: i32| (28..=day.max(28)).rev().find_map(|last| NaiveDate::from_ymd_opt(year, month, day.min(last)));
    let this = in_year(now.year())?;
    if this < now.checked_sub_days(Days::new(182))? { in_year(now.year() + 1) } else { Some(this) }
}
