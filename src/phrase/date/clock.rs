//! Times of day: at 7, half past 7, 7:30 am, noon; and what only looks like one.

use super::{Moment, Time};
use crate::phrase::{
    token::{Mark, Sense, Token, Tokens, one_of},
    words::Word,
};

pub(super) fn time(input: Tokens<'_>) -> Option<(usize, Moment)> {
    let intro = introduced(input);
    let rest = input.skip(intro);
    let (used, hour, minute) = clock(rest, intro > 0)?;
    let behind = rest.skip(used);
    let (more, hour, certain) = half_day(behind, hour)?;
    if intro == 0 && more == 0 && !matches!(rest.first()?.sense, Sense::Clock(..)) && !certain_word(rest) {
        return None;
    }
    let bare = more == 0 && matches!(rest.first()?.sense, Sense::Num(_) | Sense::Word(Word::Small(_)));
    if bare && !ends_time(behind) {
        return None;
    }
    let certain = certain || certain_word(rest) || hour == 0;
    Some((intro + used + more, Moment { time: Some(Time { hour, minute, certain }), ..Moment::default() }))
}

/// `at`, `around`, `at about`, `@`.
pub(super) fn introduced(input: Tokens<'_>) -> usize {
    let is_intro = |n: usize| {
        input.nth(n).is_some_and(|t| t.is_mark(Mark::At))
            || one_of!(
                input.key(n),
                "at" | "around" | "about" | "by" | "circa" | "roughly" | "approx" | "like" | "since" | "bout" | "round"
            )
    };
    if !is_intro(0) {
        0
    } else if is_intro(1) {
        2
    } else {
        1
    }
}

pub(super) fn certain_word(input: Tokens<'_>) -> bool {
    one_of!(input.key(0), "noon" | "midnight" | "midday" | "lunchtime")
}

/// Hour and minute, before morning or evening is known.
pub(super) fn clock(input: Tokens<'_>, introduced: bool) -> Option<(usize, u32, u32)> {
    let first = input.first()?;
    match first.sense {
        Sense::Clock(hour, minute) => return Some((1, hour, minute)),
        Sense::Word(Word::DayPart(hour)) if certain_word(input) && (introduced || !one_of!(first.key, "lunchtime")) => {
            let hour = if one_of!(first.key, "midnight") { 0 } else { u32::from(hour) };
            return Some((1, hour, 0));
        }
        Sense::Word(Word::Part(below)) => {
            let to = one_of!(input.key(1), "to" | "before" | "til" | "till");
            let past = one_of!(input.key(1), "past" | "after");
            let minutes = 60 / u32::from(below);
            if to || past {
                let hour = hour_number(input.nth(2)?)?;
                return Some(if past { (3, hour, minutes) } else { (3, (hour + 23) % 24, 60 - minutes) });
            }
            // `at half 5`, as the British say it.
            return (below == 2 && introduced).then(|| hour_number(input.nth(1)?).map(|hour| (2, hour, 30)))?;
        }
        Sense::Num(n) if n.as_whole().is_none() => {
            // `7.30`, with the decimals that a clock can show.
            let minutes = ((n.as_f64().fract() * 100.0).round()) as u32;
            let hour = n.as_f64().trunc() as u32;
            let two = first.to - first.from >= 4;
            return (two && hour <= 24 && minutes < 60).then_some((1, hour, minutes));
        }
        _ => {}
    }
    let hour = hour_number(first).filter(|hour| *hour > 0)?;
    if let Some(minute) = input.nth(1).and_then(minute_number).filter(|_| introduced)
        && !matches!(input.nth(2).and_then(|t| t.word()), Some(Word::Unit(_)))
    {
        return Some((2, hour, minute));
    }
    Some((1, hour, 0))
}

pub(super) fn hour_number(token: &Token) -> Option<u32> {
    let n = match token.sense {
        Sense::Num(n) => n.as_count()?,
        Sense::Word(Word::Small(n)) => n.into(),
        _ => return None,
    };
    (n <= 24).then_some(n)
}

/// `thirty`, `fifteen` behind a spelled hour.
pub(super) fn minute_number(token: &Token) -> Option<u32> {
    match token.word()? {
        Word::Tens(n) if n < 60 => Some(n.into()),
        Word::Small(n) if n >= 10 => Some(n.into()),
        _ => None,
    }
}

/// `am`, `pm`, `o'clock`, `in the evening`: how much, the hour of 24, and whether that is certain.
pub(super) fn half_day(input: Tokens<'_>, hour: u32) -> Option<(usize, u32, bool)> {
    let oclock = usize::from(one_of!(input.key(0), "oclock" | "o'clock"));
    let rest = input.skip(oclock);
    if one_of!(rest.key(0), "am" | "pm") || one_of!(rest.key(0), "a" | "p") && one_of!(rest.key(1), "m") {
        let used = if one_of!(rest.key(0), "am" | "pm") { 1 } else { 2 };
        let pm = one_of!(rest.key(0), "pm" | "p");
        if hour > 12 {
            return Some((oclock + used, hour, true));
        }
        return Some((oclock + used, hour % 12 + if pm { 12 } else { 0 }, true));
    }
    if one_of!(rest.key(0), "in") && one_of!(rest.key(1), "the") || one_of!(rest.key(0), "at") {
        let at = if one_of!(rest.key(0), "at") { 1 } else { 2 };
        if let Some(Word::DayPart(start)) = rest.nth(at).and_then(|t| t.word())
            && !one_of!(rest.key(at), "am" | "pm")
        {
            let late = start >= 13 && hour < 12;
            return Some((oclock + at + 1, if late { hour + 12 } else { hour }, true));
        }
    }
    Some((oclock, hour, hour > 12))
}

/// Whether a bare number can end here as a time: not before a unit or a thing.
pub(super) fn ends_time(rest: Tokens<'_>) -> bool {
    match rest.first().map(|t| t.sense) {
        None => true,
        Some(Sense::Mark(mark)) => matches!(
            mark,
            Mark::Comma
                | Mark::Dot
                | Mark::Bang
                | Mark::Quest
                | Mark::Semi
                | Mark::Line
                | Mark::Dash
                | Mark::Other
                | Mark::Colon
        ),
        Some(Sense::Word(word)) => {
            !(word == Word::And && begins_share(rest))
                && matches!(
                    word,
                    Word::Day(_)
                        | Word::Weekday(_)
                        | Word::And
                        | Word::First
                        | Word::DayPart(_)
                        | Word::Filler
                        | Word::Verb(..)
                        | Word::Kin
                )
                || one_of!(rest.key(0), "on" | "this" | "last" | "in" | "from" | "for" | "with" | "off" | "out")
        }
        _ => false,
    }
}

/// `and a half`: what was taken for an hour is a number.
pub(super) fn begins_share(rest: Tokens<'_>) -> bool {
    let article = 1 + usize::from(one_of!(rest.key(1), "a" | "one" | "three"));
    matches!(
        rest.nth(article).map(|t| t.sense),
        Some(Sense::Word(Word::Part(_)) | Sense::Fraction(_) | Sense::Ratio(..))
    ) || one_of!(rest.key(article), "quarters" | "bit")
}
