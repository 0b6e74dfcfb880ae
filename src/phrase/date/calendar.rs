//! Days by their month, and which year is meant with them.

use super::{Context, Moment, month_day, today};
use crate::phrase::{
    token::{Mark, Sense, Token, Tokens, one_of},
    words::Word,
};
use chrono::{Datelike, NaiveDate};

/// `aug 12`, `12 August`, `august 12th`, `the 12th of august`, and with `on` also `the 12th`.
pub(super) fn calendar(input: Tokens<'_>, context: &Context<'_>, on: bool) -> Option<(usize, NaiveDate)> {
    let the = usize::from(one_of!(input.key(0), "the"));
    let first = input.nth(the)?;
    if let Some(month) = month_of(first) {
        let day = day_number(input.nth(the + 1)?)?;
        // `march 3 bags`, `august 12 lb`: the number belongs to what follows.
        if !matches!(input.nth(the + 1)?.sense, Sense::Ordinal(_))
            && matches!(input.nth(the + 2).and_then(|t| t.word()), Some(Word::Unit(_) | Word::Dozen))
        {
            return None;
        }
        let (used, date) = match year_behind(input.skip(the + 2)) {
            Some((used, year)) => (used, NaiveDate::from_ymd_opt(year, month, day)?),
            None => (0, month_day(context, month, day)?),
        };
        return Some((the + 2 + used, date));
    }
    let day = day_number(first)?;
    let of = usize::from(one_of!(input.key(the + 1), "of"));
    if let Some(month) = input.nth(the + 1 + of).and_then(month_of) {
        let (used, date) = match year_behind(input.skip(the + 2 + of)) {
            Some((used, year)) => (used, NaiveDate::from_ymd_opt(year, month, day)?),
            None => (0, month_day(context, month, day)?),
        };
        return Some((the + 2 + of + used, date));
    }
    if on && matches!(first.sense, Sense::Ordinal(_)) {
        let today = today(context);
        let this = today.with_day(day).filter(|date| *date <= today);
        return this.or_else(|| today.with_day(1)?.pred_opt()?.with_day(day)).map(|date| (the + 1, date));
    }
    None
}

/// `feb 30`, `the 31st of june`: a day that no calendar has.
pub(super) fn impossible(input: Tokens<'_>) -> Option<(usize, Moment)> {
    let skip = (0..2).take_while(|n| one_of!(input.key(*n), "on" | "the" | "since")).count();
    let rest = input.skip(skip);
    let of = usize::from(one_of!(rest.key(1), "of"));
    let (used, month, day) = match (month_of(rest.first()?), rest.nth(1 + of).and_then(month_of)) {
        (Some(month), _) => (2, month, any_day(rest.nth(1)?)?),
        (None, Some(month)) => (2 + of, month, any_day(rest.first()?)?),
        _ => return None,
    };
    let counts = matches!(rest.nth(used).and_then(|t| t.word()), Some(Word::Unit(_) | Word::Dozen));
    // 2024 has every day that any year has.
    let known = NaiveDate::from_ymd_opt(2024, month, day).is_some();
    (!counts && !known).then(|| (skip + used, Moment { impossible: true, ..Moment::default() }))
}

pub(super) fn any_day(token: &Token) -> Option<u32> {
    match token.sense {
        Sense::Ordinal(n) => Some(n),
        Sense::Num(n) => n.as_count().filter(|n| (1..=40).contains(n)),
        _ if one_of!(token.key, "first") => Some(1),
        _ => None,
    }
}

pub(super) fn month_of(token: &Token) -> Option<u32> {
    match token.word()? {
        Word::Month(n) => Some(n.into()),
        _ if one_of!(token.key, "may") => Some(5),
        _ => None,
    }
}

pub(super) fn day_number(token: &Token) -> Option<u32> {
    let n = match token.sense {
        Sense::Ordinal(n) => n,
        Sense::Num(n) => n.as_count()?,
        _ => return None,
    };
    (1..=31).contains(&n).then_some(n)
}

/// The year behind a day of a month, and its tokens: `2025`, `, 2025`; no number that counts or weighs something.
pub(super) fn year_behind(input: Tokens<'_>) -> Option<(usize, i32)> {
    let comma = usize::from(input.first()?.is_mark(Mark::Comma));
    let year = input.nth(comma).and_then(year_of)?;
    let counts = matches!(input.nth(comma + 1).and_then(Token::word), Some(Word::Unit(_) | Word::Dozen));
    (!counts).then_some((comma + 1, year))
}

pub(super) fn year_of(token: &Token) -> Option<i32> {
    match token.sense {
        Sense::Num(n) => n.as_whole().filter(|n| (1990..=2100).contains(n)).and_then(|n| i32::try_from(n).ok()),
        _ => None,
    }
}
