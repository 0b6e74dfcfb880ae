//! Days in every usual writing, and spans of days.

use super::super::lex::Mark;
use super::super::lexicon::sense::{Meaning, Unit};
use super::day::{Dated, Day, Span, Which, in_order};
use super::input::{Read, Tokens, digits, glued_digits, glued_mark, mark, meaning, number_word, sense};
use super::kinds::Figure;
use super::number::single;
use crate::quantity::Number;
use chrono::NaiveDate;
use nom::Parser;
use nom::branch::alt;
use nom::combinator::{opt, verify};
use nom::error::context;

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
    let times = sense(classes.times)(after).is_ok() || mark(Mark::Times)(after).is_ok();
    if counts || times || goes_on || day < 3 { input.fail() } else { Ok((after, Day::OfAny(day))) }
}

/// `christmas eve`.
fn holiday(input: Tokens<'_>) -> Read<'_, Day> {
    let (rest, found) = sense(input.classes().holiday)(input)?;
    let mut parts = input.known.words.path(found).split('.').skip(1).filter_map(|part| part.parse().ok());
    match (parts.next(), parts.next()) {
        (Some(month), Some(day)) => Ok((rest, Day::OfMonth(month, day))),
        _ => input.fail(),
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
    let Some(n) = n.number.as_count().filter(|n| *n <= 400).map(|n| sign * n as i32) else { return input.fail() };
    match unit {
        Meaning::Unit(Unit::Days(30)) => Ok((rest, Day::Months(n))),
        Meaning::Unit(Unit::Days(365)) => Ok((rest, Day::Months(12 * n))),
        Meaning::Unit(Unit::Days(days)) => Ok((rest, Day::Offset(n * *days as i32))),
        _ => input.fail(),
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
    if (1..=31).contains(&n) && count <= 2 && !measured { Ok((rest, n as u8)) } else { input.fail() }
}

/// The letters of `12th`.
fn suffix(input: Tokens<'_>) -> Read<'_, ()> {
    if !input.is_glued() {
        return input.fail();
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
        return if rest.at > input.at && n > 3 { Ok((after, Day::OfAny(n as u8))) } else { input.fail() };
    }
    let (rest, (n, count)) = digits(rest)?;
    if !rest.is_glued() || count > 2 || !(1..=31).contains(&n) {
        return input.fail();
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
        return input.fail();
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
            _ => return input.fail(),
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
    let (Ok(first), Ok(second)) = (u8::try_from(first), u8::try_from(second)) else { return input.fail() };
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
        _ => input.fail(),
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
            _ => return input.fail(),
        };
        return match unit {
            Meaning::Unit(Unit::Days(7)) => Ok((after, Day::Span(Span::Week, before))),
            Meaning::Unit(Unit::Days(30)) => Ok((after, Day::Span(Span::Month, before))),
            Meaning::Unit(Unit::Days(365)) => Ok((after, Day::Span(Span::Year, before))),
            _ => input.fail(),
        };
    }
    let (after, month) = number_word(classes.month)(rest)?;
    let (rest, year) = opt(year_behind).parse(after)?;
    match year {
        Some(_) => input.fail(),
        None => Ok((rest, Day::Month(month as u8))),
    }
}
