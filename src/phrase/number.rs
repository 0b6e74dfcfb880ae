//! Numbers, in digits and in words.
//!
//! ```text
//! number   = digits [ fraction ] [ "and" share ] [ scale ] | words [ "and" share ] | "half" [ "a" ] [ "dozen" ] | share
//! digits   = 7 | 7.5 | 7,5 | 2,400          fraction = ½ | 1/2 | -1/2
//! words    = "twenty" [ - ] "three" | "a hundred" | "two" "dozen" | "a couple" | "seven" "point" "five"
//! share    = "a half" | "three quarters" | "a third" | "a bit"
//! ```

use super::{
    token::{Mark, Parsed, Sense, Tokens, one_of},
    words::{Unit, Word},
};
use crate::quantity::Number;

/// Reads a number; an article alone is none.
pub(super) fn number(input: Tokens<'_>) -> Parsed<'_, Number> {
    scan(input).map(|(used, number)| (input.skip(used), number)).ok_or(nom::Err::Error(()))
}

fn scan(input: Tokens<'_>) -> Option<(usize, Number)> {
    match input.first()?.sense {
        Sense::Num(number) | Sense::Grouped(number, _) => Some(digits(input, number)),
        Sense::Ratio(above, below) => Number::new(above.into(), below.into()).map(|share| (1, share)),
        Sense::Fraction(share) => Some((1, share)),
        Sense::Word(Word::Link) if one_of!(input.key(0), "minus" | "negative") => {
            let (used, number) = scan(input.skip(1)).filter(|_| !one_of!(input.key(1), "minus" | "negative"))?;
            Some((used + 1, number.checked_mul(Number::whole(-1))?))
        }
        Sense::Word(_) => words(input),
        _ => None,
    }
}

fn digits(input: Tokens<'_>, whole: Number) -> (usize, Number) {
    let mut used = 1;
    let mut number = whole;
    // `3 quarters of a bushel`; three quarters and no more words may be cut fruit.
    if let (Some(above @ 1..4), true) = (whole.as_whole(), one_of!(input.key(2), "of"))
        && one_of!(input.key(3), "a" | "an" | "the")
        && let Some(part) = part_below(input.skip(1)).and_then(|below| Number::new(above, below))
    {
        return (2, part);
    }
    if whole.as_whole().is_some() {
        let hyphen = usize::from(input.nth(1).is_some_and(|t| t.is_mark(Mark::Hyphen)));
        let share = match input.nth(1 + hyphen).map(|t| t.sense) {
            Some(Sense::Fraction(share)) => Some(share),
            Some(Sense::Ratio(above, below)) if above < below && below <= 16 => Number::new(above.into(), below.into()),
            _ => None,
        };
        if let Some(sum) = share.and_then(|share| whole.checked_add(share)) {
            return (2 + hyphen, sum);
        }
    }
    let (more, scaled) = scale(input.skip(used), number);
    used += more;
    number = scaled;
    let (more, sum) = and_share(input.skip(used), number);
    (used + more, sum)
}

/// `dozen`, `hundred`, `thousand` behind a number.
fn scale(input: Tokens<'_>, number: Number) -> (usize, Number) {
    let by = match input.first().and_then(|t| t.word()) {
        Some(Word::Dozen) => 12,
        Some(Word::Hundred) => 100,
        Some(Word::Thousand) if !one_of!(input.key(0), "grand") => 1000,
        _ => return (0, number),
    };
    number.checked_mul(Number::whole(by)).map_or((0, number), |n| (1, n))
}

/// `and a half`, `and three quarters`, `and a bit`.
fn and_share(input: Tokens<'_>, number: Number) -> (usize, Number) {
    let joined =
        input.first().is_some_and(|t| t.word() == Some(Word::And) || t.is_mark(Mark::And) || t.is_mark(Mark::Plus));
    if !joined {
        return (0, number);
    }
    match share(input.skip(1)) {
        Some((used, part)) => number.checked_add(part).map_or((0, number), |sum| (1 + used, sum)),
        None if one_of!(input.key(1), "a") && one_of!(input.key(2), "bit") => (3, number),
        None => (0, number),
    }
}

/// `a half`, `half`, `a quarter`, `three quarters`, `1/4`.
fn share(input: Tokens<'_>) -> Option<(usize, Number)> {
    let article = usize::from(one_of!(input.key(0), "a" | "an" | "one"));
    match input.nth(article)?.sense {
        Sense::Word(Word::Part(below)) => Some((article + 1, Number::new(1, below.into())?)),
        Sense::Ratio(above, below) if above < below => Some((article + 1, Number::new(above.into(), below.into())?)),
        Sense::Fraction(part) => Some((article + 1, part)),
        Sense::Word(Word::Small(above)) if above < 4 => {
            let below = part_below(input.skip(article + 1))?;
            Some((article + 2, Number::new(above.into(), below)?))
        }
        _ => None,
    }
}

/// The `4` of `quarters`, which is also a way of cutting tomatoes.
fn part_below(input: Tokens<'_>) -> Option<i64> {
    match input.first()?.word()? {
        Word::Part(below) => Some(below.into()),
        _ if one_of!(input.key(0), "quarters") => Some(4),
        _ => None,
    }
}

fn words(input: Tokens<'_>) -> Option<(usize, Number)> {
    let article = usize::from(one_of!(input.key(0), "a" | "an"));
    match input.nth(article)?.word()? {
        // `13 lb the pair`: both together.
        Word::Couple if one_of!(input.key(article), "pair") && !one_of!(input.key(article + 1), "of") => None,
        Word::Couple => Some((article + 1, Number::whole(2))),
        Word::Dozen => Some((article + 1, Number::whole(12))),
        Word::Part(2) => half(input, article),
        Word::Part(below) => {
            let (used, behind) = of_a(input.skip(article + 1));
            behind.then_some((article + 1 + used, Number::new(1, below.into())?))
        }
        Word::Hundred | Word::Thousand if article == 1 => spelled(input, 1),
        Word::Small(above) if article == 0 => {
            if let Some(below) = part_below(input.skip(1)).filter(|below| *below > 2 && (1..4).contains(&above)) {
                let (used, behind) = of_a(input.skip(2));
                if behind {
                    return Some((2 + used, Number::new(above.into(), below)?));
                }
            }
            spelled(input, 0)
        }
        Word::Tens(_) if article == 0 => spelled(input, 0),
        _ => None,
    }
}

/// `of a` before a unit: how much is eaten by a share, and whether a unit follows.
fn of_a(input: Tokens<'_>) -> (usize, bool) {
    let of = usize::from(one_of!(input.key(0), "of"));
    let article = usize::from(one_of!(input.key(of), "a" | "an"));
    let unit = matches!(input.nth(of + article).and_then(|t| t.word()), Some(Word::Unit(_)));
    (of + article, unit)
}

fn half(input: Tokens<'_>, article: usize) -> Option<(usize, Number)> {
    let rest = input.skip(article + 1);
    let inner = usize::from(one_of!(rest.key(0), "a" | "an"));
    match rest.nth(inner)?.word()? {
        Word::Dozen => Some((article + 2 + inner, Number::whole(6))),
        // Half-pint and half-gallon are jars with names of their own.
        Word::Unit(Unit::Pint | Unit::Gallon) if inner == 0 => None,
        Word::Unit(_) => Some((article + 1 + inner, Number::new(1, 2)?)),
        _ => {
            let (used, behind) = of_a(rest);
            behind.then_some((article + 1 + used, Number::new(1, 2)?))
        }
    }
}

/// English number words; `hundred and five`, `twenty-three`, `seven point five`, `two dozen`.
fn spelled(input: Tokens<'_>, from: usize) -> Option<(usize, Number)> {
    let (mut total, mut current, mut at, mut low) = (0_i64, 0_i64, from, 100_i64);
    let mut dozen = false;
    loop {
        let skip = match input.nth(at) {
            Some(token) if token.is_mark(Mark::Hyphen) => 1,
            Some(token) if token.word() == Some(Word::And) && low >= 100 && current + total > 0 => 1,
            _ => 0,
        };
        let Some(word) = input.nth(at + skip).and_then(|t| t.word()) else { break };
        match word {
            Word::Small(n) if low >= 100 || low == 10 && (1..10).contains(&n) => {
                current += i64::from(n);
                low = 1;
            }
            Word::Tens(n) if low >= 100 => {
                current += i64::from(n);
                low = 10;
            }
            Word::Hundred if current < 100 => {
                current = current.max(1) * 100;
                low = 100;
            }
            Word::Thousand if current < 1000 && total == 0 && !one_of!(input.key(at + skip), "grand") => {
                total = current.max(1) * 1000;
                current = 0;
                low = 1000;
            }
            Word::Dozen if skip == 0 && current > 0 => {
                current *= 12;
                dozen = true;
                at += 1;
                break;
            }
            _ => break,
        }
        at += skip + 1;
    }
    if at == from {
        return None;
    }
    let number = Number::whole(total + current);
    if dozen {
        return Some((at, number));
    }
    if let Some((used, sum)) = point(input.skip(at), number) {
        return Some((at + used, sum));
    }
    let (used, sum) = and_share(input.skip(at), number);
    Some((at + used, sum))
}

/// `point five`, as a phone writes what is dictated.
fn point(input: Tokens<'_>, number: Number) -> Option<(usize, Number)> {
    if !one_of!(input.key(0), "point") {
        return None;
    }
    let digit = match input.nth(1)?.sense {
        Sense::Word(Word::Small(n)) if n < 10 => i64::from(n),
        Sense::Num(n) => n.as_whole().filter(|n| (0..10).contains(n))?,
        _ => return None,
    };
    Some((2, number.checked_add(Number::new(digit, 10)?)?))
}
