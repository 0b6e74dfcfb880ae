//! Times of day, durations, and so long ago.

use super::super::lex::Mark;
use super::super::lexicon::sense::{Meaning, Unit};
use super::amount::and_a_part;
use super::input::{Read, Tokens, digits, glued_digits, glued_mark, hyphen, mark, meaning, number_word, sense};
use super::kinds::Figure;
use super::number::{figure, single};
use crate::quantity::Number;
use chrono::NaiveTime;
use nom::Parser;
use nom::branch::alt;
use nom::combinator::{opt, verify};
use nom::error::context;

/// A time of day.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(in super::super) struct Clock {
    pub(in super::super) time: NaiveTime,
    /// Whether morning or afternoon was said, or follows from the hour.
    pub(in super::super) sure: bool,
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
    clock.map_or_else(|| input.fail(), |clock| Ok((rest, clock)))
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
        return input.fail();
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
        return input.fail();
    }
    let (rest, minutes) = opt(verify(glued_digits, |(minutes, two)| *two == 2 && *minutes < 60)).parse(rest)?;
    let clock = at(hours % 24, minutes.map_or(0, |(minutes, _)| minutes), None);
    done(input, rest, clock.map(|clock| Clock { sure: clock.sure || count == 2, ..clock }))
}

/// `9 am`, `9pm`, `9 o'clock`, `seven in the morning`.
fn hour(input: Tokens<'_>) -> Read<'_, Clock> {
    let classes = input.classes();
    let (rest, n) = single(input)?;
    let Some(hour) = n.number.as_count() else { return input.fail() };
    let (rest, oclock) = opt(sense(classes.oclock)).parse(rest)?;
    let (rest, half) = opt(half).parse(rest)?;
    if oclock.is_none() && half.is_none() || hour > 24 {
        return input.fail();
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
        return input.fail();
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
    let Some(n) = n.number.as_count().filter(|n| (1..60).contains(n)) else { return input.fail() };
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
    let Some(hour) = n.number.as_count().filter(|n| (1..=12).contains(n)) else { return input.fail() };
    let (rest, half) = opt(half).parse(rest)?;
    if sense(input.classes().unit)(rest).is_ok() || sense(input.classes().container)(rest).is_ok() {
        return input.fail();
    }
    let Some(Clock { time, sure }) = at(hour.into(), 0, half) else { return input.fail() };
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
    let Meaning::Unit(Unit::Seconds(unit)) = unit else { return input.fail() };
    let (rest, part) = opt(and_a_part).parse(rest)?;
    match part.map_or(Some(n.number), |part| n.number.checked_add(part)) {
        Some(n) => Ok((rest, (n, *unit))),
        None => input.fail(),
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
        None => input.fail(),
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
                return input.fail();
            }
            (rest, (n.number, 60))
        }
        Err(fault) => return Err(fault),
    };
    match seconds(large, unit).zip(seconds(small, below)).and_then(|(a, b)| a.checked_add(b)) {
        Some(total) if below < unit => Ok((rest, total)),
        _ => input.fail(),
    }
}

/// `10 minutes ago`, `an hour ago`: so many seconds before now.
pub(in super::super) fn seconds_ago(input: Tokens<'_>) -> Read<'_, u32> {
    let (rest, span) = duration(input)?;
    let (rest, _) = sense(input.classes().day_ended)(rest)?;
    Ok((rest, span))
}
