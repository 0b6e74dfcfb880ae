//! Jars: how many, of which size, and how many out of how many.

use super::super::lex::{Mark, Shape};
use super::super::lexicon::sense::Meaning;
use super::amount::{dot_of_abbreviation, ends_amount, sizes, volume};
use super::input::{Read, Tokens, digits, hyphen, mark, number_word, sense};
use super::kinds::Figure;
use super::number::{counting, figure, single};
use crate::quantity::Number;
use crate::vocabulary::Jar;
use nom::Parser;
use nom::branch::alt;
use nom::combinator::opt;
use nom::error::context;

/// Jars as they were said.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(in super::super) struct Jars {
    /// How many; `None` for a size alone (`in quarts`).
    pub(in super::super) count: Option<Number>,
    /// Which size; `None` for `3 jars`.
    pub(in super::super) jar: Option<Jar>,
    /// It is `a quart`.
    pub(in super::super) article: bool,
}

/// So many out of so many.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(in super::super) struct OutOf {
    pub(in super::super) jars: u32,
    pub(in super::super) of: u32,
    pub(in super::super) jar: Option<Jar>,
}

/// `7 quarts`, `9 pint jars`, `7 x 500 ml`, `8 jars of 250 ml`, `a quart`, `quart jars`, `in pints`.
pub(in super::super) fn jars(input: Tokens<'_>) -> Read<'_, Jars> {
    context("jars", alt((metric_size, fractional_size, counted_of_size, counted_sized, of_them, size_alone)))
        .parse(input)
}

fn counted(input: Tokens<'_>) -> Read<'_, Figure> {
    let classes = input.classes();
    let article = |i| {
        let (rest, _) = sense(classes.article)(i)?;
        Ok((rest, Figure { article: true, ..Figure::of(Number::whole(1)) }))
    };
    // `a half pint` is one of a size, not half of one.
    let whole = |i| {
        let (rest, n) = figure(i)?;
        if n.number.as_count().is_some() || n.number.as_f64() > 1.0 { Ok((rest, n)) } else { i.fail() }
    };
    // `one half-pint`
    let ones = |i| number_word(classes.ones)(i).map(|(rest, n)| (rest, Figure::of(Number::whole(n))));
    alt((whole, ones, article)).parse(input)
}

/// `a quart` is one, `the quarts` are so many as there are.
fn counted_if_single(input: Tokens<'_>, n: Figure) -> Option<Number> {
    let single = || {
        // By its letters: what was mistyped is looked at as it was meant, and `a 500 ml of salsa` is one of that size.
        let at = |n: usize| input.skip(n).hits().iter().any(|hit| input.classes().single_size.has(hit.sense));
        let figure = input.skip(1).first().is_some_and(|token| matches!(token.shape, Shape::Digits(..)));
        figure || (1..5).any(at)
    };
    (!n.article || single()).then_some(n.number)
}

/// A size by its name or by its volume in metric units.
fn size(input: Tokens<'_>) -> Read<'_, Jar> {
    let (start, ()) = hyphen(input)?;
    if let Ok((rest, Meaning::Jar(jar))) = named_size(start) {
        return Ok((rest, *jar));
    }
    let (rest, (held, article)) = volume(start)?;
    let metric = Jar::ALL.iter().find(|jar| jar.is_metric() && jar.volume() == held);
    match metric {
        Some(jar) if !article => Ok((rest, *jar)),
        _ => input.fail(),
    }
}

/// The longest name that is a size and not only a word for jars.
fn named_size(input: Tokens<'_>) -> Read<'_, &Meaning> {
    let classes = input.classes();
    let is_size = |sense| classes.jar.has(sense) && !classes.jar_word.has(sense);
    let longest = input.hits().iter().filter(|hit| is_size(hit.sense)).max_by_key(|hit| hit.len);
    match longest {
        Some(hit) => Ok((input.skip(hit.len.into()), input.known.words.meaning(hit.sense))),
        None => input.fail(),
    }
}

fn jar_word(input: Tokens<'_>) -> Read<'_, ()> {
    let (rest, ()) = hyphen(input)?;
    let (rest, _) = sense(input.classes().jar_word)(rest)?;
    Ok((rest, ()))
}

/// `8 jars of 250 ml`, `6 jars, pints`, `3 jars`.
fn counted_of_size(input: Tokens<'_>) -> Read<'_, Jars> {
    let classes = input.classes();
    let (rest, n) = counted(input)?;
    let (rest, ()) = sizes(rest)?;
    let (rest, ()) = jar_word(rest)?;
    let named = |i| {
        let (rest, _) = opt(alt((
            |i| sense(classes.of)(i).map(|(rest, _)| (rest, ())),
            |i| mark(Mark::Bracket)(i),
            |i| sense(classes.at)(i).map(|(rest, _)| (rest, ())),
        )))
        .parse(i)?;
        let (rest, jar) = size(rest)?;
        let (rest, _) = opt(mark(Mark::Bracket)).parse(rest)?;
        Ok((rest, jar))
    };
    let (rest, jar) = opt(named).parse(rest)?;
    Ok((rest, Jars { count: counted_if_single(input, n), jar, article: n.article }))
}

/// `7 quarts`, `9 pint jars`, `7 x 500 ml jars`, `a dozen half-pints`, `the quart`.
fn counted_sized(input: Tokens<'_>) -> Read<'_, Jars> {
    let classes = input.classes();
    let (rest, n) = counted(input)?;
    let times = |i| alt((|i| mark(Mark::Times)(i), |i| sense(classes.times)(i).map(|(rest, _)| (rest, ())))).parse(i);
    let (rest, _) = opt(times).parse(rest)?;
    let (rest, ()) = sizes(rest)?;
    let (rest, jar) = size(rest)?;
    let rest = dot_of_abbreviation(rest);
    let (rest, _) = opt(jar_word).parse(rest)?;
    Ok((rest, Jars { count: counted_if_single(input, n), jar: Some(jar), article: n.article }))
}

/// `pint 7`: the number behind, as some write it.
pub(in super::super) fn size_then_count(input: Tokens<'_>) -> Read<'_, Jars> {
    let written = input.hits().iter().any(|hit| input.classes().jar.has(hit.sense) && !hit.repaired);
    let (rest, jar) = size(input)?;
    let (rest, (n, _)) = digits(rest)?;
    match i64::try_from(n) {
        Ok(n) if written && n < 200 && ends_amount(rest) && !rest.is_glued() => {
            Ok((rest, Jars { count: Some(Number::whole(n)), jar: Some(jar), article: false }))
        }
        _ => input.fail(),
    }
}

/// `2 of the jars`, `one of the quarts`, `3 of them`.
pub(super) fn of_them(input: Tokens<'_>) -> Read<'_, Jars> {
    let classes = input.classes();
    let (rest, n) = single(input)?;
    let (rest, _) = sense(classes.of)(rest)?;
    let (rest, _) = opt(alt((sense(classes.article), sense(classes.own)))).parse(rest)?;
    let (rest, ()) = sizes(rest)?;
    let (rest, jar) = opt(size).parse(rest)?;
    let (rest, word) = opt(alt((jar_word, |i| sense(classes.pronoun)(i).map(|(rest, _)| (rest, ()))))).parse(rest)?;
    match (jar, word, n.number.as_count()) {
        (None, None, _) | (_, _, None) => input.fail(),
        _ => Ok((rest, Jars { count: Some(n.number), jar, article: false })),
    }
}

/// `1 litre jars`, `500 ml jars`: a volume before the word for jars is their size, not their number.
fn metric_size(input: Tokens<'_>) -> Read<'_, Jars> {
    let (rest, (held, article)) = volume(input)?;
    let (word, ()) = hyphen(rest)?;
    let single = word.hits().iter().any(|hit| input.classes().single_size.has(hit.sense));
    let (rest, ()) = jar_word(rest)?;
    match Jar::ALL.iter().find(|jar| jar.is_metric() && jar.volume() == held) {
        Some(jar) if !article && !single => Ok((rest, Jars { count: None, jar: Some(*jar), article: false })),
        _ => input.fail(),
    }
}

/// `1.5 pint jars`: a part of a jar is no number of jars but their size.
fn fractional_size(input: Tokens<'_>) -> Read<'_, Jars> {
    let (rest, n) = figure(input)?;
    let (rest, named) = size(rest)?;
    let (rest, _) = opt(jar_word).parse(rest)?;
    let held = named.volume().times(n.number).filter(|_| n.number.as_count().is_none() && n.number.as_f64() > 1.0);
    match Jar::ALL.iter().find(|jar| !jar.is_metric() && Some(jar.volume()) == held) {
        Some(jar) => Ok((rest, Jars { count: None, jar: Some(*jar), article: false })),
        None => input.fail(),
    }
}

/// `quarts`, `pint jars`, `500 ml jars`.
fn size_alone(input: Tokens<'_>) -> Read<'_, Jars> {
    let (rest, jar) = size(input)?;
    let (rest, _) = opt(jar_word).parse(rest)?;
    Ok((rest, Jars { count: None, jar: Some(jar), article: false }))
}

/// `6 of 7`, `6/7`, `6 out of the 7 quarts`, `all 7`, `6 of 7 pints`.
pub(in super::super) fn out_of(input: Tokens<'_>) -> Read<'_, OutOf> {
    context("out-of", alt((some_of, all_of))).parse(input)
}

fn some_of(input: Tokens<'_>) -> Read<'_, OutOf> {
    let classes = input.classes();
    let (rest, some) = counting(input)?;
    let (rest, ()) = alt((
        |i| mark(Mark::Slash)(i),
        |i| sense(classes.of)(i).map(|(rest, _)| (rest, ())),
        |i| sense(classes.prep_from)(i).map(|(rest, _)| (rest, ())),
        |i| sense(classes.out_of)(i).map(|(rest, _)| (rest, ())),
    ))
    .parse(rest)?;
    let (rest, _) = opt(alt((sense(classes.article), sense(classes.own)))).parse(rest)?;
    let (rest, of) = counting(rest)?;
    let (rest, jar) = opt(jar_behind).parse(rest)?;
    match (u32::try_from(some).ok(), u32::try_from(of).ok()) {
        (Some(jars), Some(of)) if of <= 200 && jars <= of => Ok((rest, OutOf { jars, of, jar: jar.flatten() })),
        _ => input.fail(),
    }
}

fn jar_behind(input: Tokens<'_>) -> Read<'_, Option<Jar>> {
    if let Ok((rest, jar)) = size(input) {
        let (rest, _) = opt(jar_word).parse(rest)?;
        return Ok((rest, Some(jar)));
    }
    let (rest, ()) = jar_word(input)?;
    Ok((rest, None))
}

/// `all 7`, `all seven jars`.
fn all_of(input: Tokens<'_>) -> Read<'_, OutOf> {
    let classes = input.classes();
    let (rest, _) = sense(classes.share_all)(input)?;
    let (rest, _) = opt(sense(classes.article)).parse(rest)?;
    let (rest, of) = counting(rest)?;
    let (rest, jar) = opt(jar_behind).parse(rest)?;
    // `all seven of them`
    let of_them = |i| {
        let (rest, _) = sense(classes.of)(i)?;
        sense(classes.pronoun)(rest)
    };
    let (rest, _) = opt(of_them).parse(rest)?;
    // `all 7 lb` is a weight.
    if sense(classes.unit)(rest).is_ok() || sense(classes.container)(rest).is_ok() {
        return input.fail();
    }
    match u32::try_from(of).ok() {
        Some(of) if of <= 200 => Ok((rest, OutOf { jars: of, of, jar: jar.flatten() })),
        _ => input.fail(),
    }
}
