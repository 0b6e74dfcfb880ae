//! Jar sizes: quarts, half pints, a pint and a half, 500 ml jars.

use super::containers::{bag_gap, qualities};
use crate::phrase::{
    number::number,
    token::{Mark, Tokens, one_of},
    words::{Unit, Word},
};
use crate::{quantity::Number, vocabulary::Jar};

/// `of 500 ml`, behind jars.
pub(super) fn size_behind(input: Tokens<'_>) -> Option<(usize, Jar)> {
    let of = usize::from(one_of!(input.key(0), "of" | "at" | "a" | "x"));
    let (rest, n) = number(input.skip(of)).ok()?;
    let used = input.0.len() - rest.0.len();
    metric_size(rest, n, true).filter(|_| of == 1).map(|(more, jar)| (used + more, jar))
}

/// A jar by its name: `half pints`, `pint and a half jars`, `quart`, `jelly jars`, `half gallon`.
pub(in crate::phrase) fn size(input: Tokens<'_>) -> Option<(usize, Jar)> {
    let token = input.first()?;
    let (used, jar) = match token.word()? {
        Word::Unit(Unit::HalfPint) => (1, Jar::HalfPint),
        Word::Unit(Unit::Pint) => match pint_and_half(input.skip(1)) {
            Some(more) => (1 + more, Jar::PintAndHalf),
            None => (1, Jar::Pint),
        },
        Word::Unit(Unit::Quart) => (1, Jar::Quart),
        Word::Part(2) => {
            let hyphen = usize::from(input.nth(1).is_some_and(|t| t.is_mark(Mark::Hyphen)));
            let jar = match input.nth(1 + hyphen)?.word()? {
                Word::Unit(Unit::Pint) => Jar::HalfPint,
                Word::Unit(Unit::Gallon) => Jar::HalfGallon,
                Word::Unit(Unit::Litre) => Jar::Ml500,
                _ => return None,
            };
            (2 + hyphen, jar)
        }
        Word::Product if one_of!(token.key, "jelly" | "jam") => {
            matches!(input.nth(1)?.word()?, Word::Unit(Unit::Jar)).then_some((1, Jar::HalfPint))?
        }
        Word::Unit(Unit::Litre) => matches!(input.nth(1)?.word()?, Word::Unit(Unit::Jar)).then_some((1, Jar::L1))?,
        _ => return None,
    };
    if bag_gap(input.skip(used)).is_some() {
        return None;
    }
    let hyphen = usize::from(input.nth(used).is_some_and(|t| t.is_mark(Mark::Hyphen)));
    let sized = hyphen
        + usize::from(one_of!(
            input.key(used + hyphen),
            "size" | "sized" | "mason" | "canning" | "glass" | "empty" | "new" | "wide" | "regular"
        ));
    let sized = sized + usize::from(one_of!(input.key(used + sized), "mouth"));
    match input.nth(used + sized).and_then(|t| t.word()) {
        Some(Word::Unit(Unit::Jar)) => Some((used + sized + 1, jar)),
        _ => Some((used, jar)),
    }
}

/// `and a half`, `-and-a-half`, behind `pint`.
pub(super) fn pint_and_half(input: Tokens<'_>) -> Option<usize> {
    let mut at = 0;
    let hyphen = |at: usize| usize::from(input.nth(at).is_some_and(|t| t.is_mark(Mark::Hyphen)));
    at += hyphen(at);
    if input.nth(at)?.word() != Some(Word::And) {
        return None;
    }
    at += 1;
    at += hyphen(at);
    at += usize::from(one_of!(input.key(at), "a"));
    at += hyphen(at);
    (input.nth(at)?.word()? == Word::Part(2))
        .then_some(at + 1 + usize::from(input.nth(at + 1).is_some_and(|t| t.word() == Some(Word::Unit(Unit::Pint)))))
}

/// `500 ml jars`, `1 litre jar`, and behind `12 x` without the jars; `n` is the number before the unit.
pub(super) fn metric_size(input: Tokens<'_>, n: Number, times: bool) -> Option<(usize, Jar)> {
    let hyphen = usize::from(input.first()?.is_mark(Mark::Hyphen));
    let ml = match input.nth(hyphen)?.word()? {
        Word::Unit(Unit::Millilitre) => n.as_whole()?,
        Word::Unit(Unit::Centilitre) => n.as_whole()?.checked_mul(10)?,
        Word::Unit(Unit::Litre) => n.checked_mul(Number::whole(1000))?.as_whole()?,
        _ => return None,
    };
    let jar = match ml {
        250 => Jar::Ml250,
        500 => Jar::Ml500,
        750 => Jar::Ml750,
        1000 => Jar::L1,
        _ => return None,
    };
    let at = hyphen + 1 + usize::from(input.nth(hyphen + 1).is_some_and(|t| t.is_mark(Mark::Hyphen)));
    let at = at + qualities(input.skip(at));
    let jarred = matches!(input.nth(at).and_then(|t| t.word()), Some(Word::Unit(Unit::Jar)))
        || one_of!(input.key(at), "kilner" | "bottles");
    if jarred {
        return Some((at + 1, jar));
    }
    times.then_some((hyphen + 1, jar))
}
