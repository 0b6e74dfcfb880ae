//! Masses, volumes, counts of containers, and count times each in every order.

use super::super::endings::is_plural;
use super::super::lex::{Mark, Shape};
use super::super::lexicon::sense::{Meaning, Unit};
use super::input::{Read, Tokens, digits, glued_mark, hyphen, mark, meaning, number_word, once, sense};
use super::kinds::{Count, Figure, Weight};
use super::number::{figure, single};
use crate::processes::Measure;
use crate::quantity::{Mass, Number, Volume};
use nom::Parser;
use nom::branch::alt;
use nom::combinator::opt;
use nom::error::context;

/// A weight: `7 lb`, `6 lb 4 oz`, `a pound and a half`, `half a kilo`, `20#`.
pub(in super::super) fn weight(input: Tokens<'_>) -> Read<'_, Weight> {
    once(
        input,
        |kept| &kept.weight,
        |i| context("mass", alt((two_units, unit_and_part, part_of_unit, one_unit))).parse(i),
    )
}

#[derive(Clone, Copy)]
pub(super) struct MassUnit {
    mass: Mass,
    metric: bool,
    ounce: bool,
}

fn mass_unit(input: Tokens<'_>) -> Read<'_, MassUnit> {
    let (rest, ()) = hyphen(input)?;
    if let Ok((rest, ())) = glued_mark(Mark::Hash)(rest) {
        return Ok((rest, MassUnit { mass: Mass::POUND, metric: false, ounce: false }));
    }
    let (rest, unit) = meaning(input.classes().unit_mass)(rest)?;
    let unit = match unit {
        Meaning::Unit(Unit::Mass(mass, metric)) => MassUnit { mass: *mass, metric: *metric, ounce: false },
        Meaning::Unit(Unit::Ounce) => MassUnit { mass: Mass::OUNCE, metric: false, ounce: true },
        _ => return input.fail(),
    };
    // A unit is abbreviated with a dot: `3 lb. of`.
    Ok((dot_of_abbreviation(rest), unit))
}

/// So many letters an abbreviation has.
const ABBREVIATED: u32 = 3;

/// Passes over the dot of an abbreviation: right behind it, and what follows is no new sentence.
pub(super) fn dot_of_abbreviation(input: Tokens<'_>) -> Tokens<'_> {
    let before = input.at.checked_sub(1).and_then(|at| input.known.lexed.tokens.get(at));
    let short = before.is_some_and(|token| token.to - token.from <= ABBREVIATED);
    match glued_mark(Mark::Dot)(input) {
        Ok((rest, ())) if short && rest.first().is_some_and(|next| !next.capital && !next.glued) => rest,
        _ => input,
    }
}

/// The figure as it is meant with this unit: kilograms and litres are not counted in thousands, grams and millilitres
/// are, and pounds are where a comma stands.
fn resolved(figure: Figure, unit: Scale) -> Number {
    match figure.other {
        Some(other) if figure.dotted == (unit == Scale::Fine) && unit != Scale::Customary => other,
        _ => figure.number,
    }
}

/// How a unit is counted.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Scale {
    /// Pounds, quarts.
    Customary,
    /// Kilograms, litres: three digits behind a comma or dot are decimals.
    Coarse,
    /// Grams, millilitres: three digits behind a comma or dot are thousands.
    Fine,
}

pub(super) fn mass_scale(unit: MassUnit) -> Scale {
    match unit.metric {
        false => Scale::Customary,
        true if unit.mass < Mass::KILOGRAM => Scale::Fine,
        true => Scale::Coarse,
    }
}

fn weighed(figure: Figure, unit: MassUnit) -> Option<Weight> {
    let number = resolved(figure, mass_scale(unit));
    Some(Weight {
        mass: unit.mass.times(number)?,
        figure: number,
        unit: unit.mass,
        range: figure.range,
        article: figure.article,
        fluid: if unit.ounce { Volume::FLUID_OUNCE.times(number) } else { None },
    })
}

pub(super) fn counted_by_article(input: Tokens<'_>) -> Read<'_, Figure> {
    let (rest, _) = sense(input.classes().article)(input)?;
    Ok((rest, Figure { article: true, ..Figure::of(Number::whole(1)) }))
}

fn one_unit(input: Tokens<'_>) -> Read<'_, Weight> {
    let (rest, n) = alt((figure, counted_by_article)).parse(input)?;
    // `12 more lb`
    let (rest, _) = opt(sense(input.classes().extra)).parse(rest)?;
    let (rest, unit) = mass_unit(rest)?;
    // `15 lb to 20 lb`: the units may stand on both ends.
    if let Ok((after, high)) = second_end(rest, unit.mass) {
        let ends = resolved(n, mass_scale(unit)).checked_add(high);
        let middle = Number::new(1, 2).and_then(|half| ends?.checked_mul(half));
        if let Some(weight) = middle.and_then(|middle| weighed(Figure { range: true, ..Figure::of(middle) }, unit)) {
            return Ok((after, weight));
        }
    }
    match weighed(n, unit) {
        Some(weight) => Ok((rest, weight)),
        None => input.fail(),
    }
}

fn second_end(input: Tokens<'_>, unit: Mass) -> Read<'_, Number> {
    let classes = input.classes();
    let (rest, ()) = alt((
        |i| mark(Mark::Dash)(i),
        |i| sense(classes.prep_to)(i).map(|(rest, _)| (rest, ())),
        |i| sense(classes.or)(i).map(|(rest, _)| (rest, ())),
    ))
    .parse(input)?;
    let (rest, high) = single(rest)?;
    let (rest, again) = mass_unit(rest)?;
    if again.mass == unit { Ok((rest, resolved(high, mass_scale(again)))) } else { input.fail() }
}

/// `6 lb 4 oz`, `6lb4`, `6 lb and 4 ounces`, `1 kg 250 g`, `6 pounds 4`.
fn two_units(input: Tokens<'_>) -> Read<'_, Weight> {
    let classes = input.classes();
    let (rest, large) = alt((single, counted_by_article)).parse(input)?;
    let (rest, unit) = mass_unit(rest)?;
    let (joined, comma) = opt(alt((
        |i| sense(classes.and)(i).map(|(rest, _)| (rest, false)),
        |i| glued_mark(Mark::Comma)(i).map(|(rest, ())| (rest, true)),
        |i| mark(Mark::Dash)(i).map(|(rest, ())| (rest, false)),
    )))
    .parse(rest)?;
    let (rest, small) = single(joined)?;
    let below = match mass_unit(rest) {
        Ok((rest, below)) if below.mass < unit.mass && (below.ounce || below.metric == unit.metric) => {
            Some((rest, below))
        }
        Ok(_) => return input.fail(),
        // The ounces are not always named.
        Err(_)
            if comma.is_none()
                && unit.mass == Mass::POUND
                && bare_ounces(joined, small.number)
                && ends_amount(rest) =>
        {
            Some((rest, MassUnit { mass: Mass::OUNCE, metric: false, ounce: true }))
        }
        // `2 kg 300`: three digits behind kilograms are grams.
        Err(_) if comma.is_none() && unit.mass == Mass::KILOGRAM && three_digits(joined) && ends_amount(rest) => {
            Some((rest, MassUnit { mass: Mass::GRAM, metric: true, ounce: false }))
        }
        Err(_) => None,
    };
    let Some((rest, below)) = below else { return input.fail() };
    let sum = |large: Weight, small: Weight| large.mass.checked_add(small.mass);
    let whole = weighed(large, unit);
    match whole.zip(weighed(small, below)).and_then(|(a, b)| sum(a, b)).zip(whole) {
        Some((mass, whole)) => Ok((rest, Weight { mass, article: false, fluid: None, ..whole })),
        None => input.fail(),
    }
}

fn three_digits(input: Tokens<'_>) -> bool {
    input.first().is_some_and(|token| matches!(token.shape, Shape::Digits(_, 3)))
}

/// Whether a figure can be ounces without saying so.
fn bare_ounces(input: Tokens<'_>, number: Number) -> bool {
    let digits = input.first().is_some_and(|token| matches!(token.shape, Shape::Digits(..)));
    let whole = number.as_count().is_some_and(|n| (1..16).contains(&n));
    whole && (digits || number_word(input.classes().ones)(input).is_ok())
}

/// Whether nothing follows that the figure before could belong to.
pub(super) fn ends_amount(input: Tokens<'_>) -> bool {
    let classes = input.classes();
    let measured = alt((
        |i| sense(classes.unit)(i).map(|_| ()).map(|()| (input, ())),
        |i| sense(classes.container)(i).map(|_| ()).map(|()| (input, ())),
        |i| sense(classes.jar)(i).map(|_| ()).map(|()| (input, ())),
        |i| glued_mark(Mark::Percent)(i).map(|_| (input, ())),
        |i| glued_mark(Mark::Slash)(i).map(|_| (input, ())),
        |i| mark(Mark::Hash)(i).map(|_| (input, ())),
    ))
    .parse(input)
    .is_ok();
    let percent = mark(Mark::Percent)(input).is_ok();
    !measured && !percent
}

/// `a pound and a half`, `quart and a half`.
fn unit_and_part(input: Tokens<'_>) -> Read<'_, Weight> {
    let (rest, n) = opt(alt((single, counted_by_article))).parse(input)?;
    let (rest, unit) = mass_unit(rest)?;
    let (rest, part) = and_a_part(rest)?;
    let n = n.map_or(Number::whole(1), |n| n.number);
    match n.checked_add(part).and_then(|number| weighed(Figure::of(number), unit)) {
        Some(weight) => Ok((rest, weight)),
        None => input.fail(),
    }
}

/// `and a half`, `and a quarter`.
pub(super) fn and_a_part(input: Tokens<'_>) -> Read<'_, Number> {
    let classes = input.classes();
    let (rest, _) = sense(classes.and)(input)?;
    let (rest, _) = opt(sense(classes.article)).parse(rest)?;
    let (rest, found) = meaning(classes.part)(rest)?;
    match found {
        Meaning::Part(below) => match Number::new(1, *below) {
            Some(part) => Ok((rest, part)),
            None => input.fail(),
        },
        _ => input.fail(),
    }
}

/// `half a pound`, `three quarters of a kilo`, `quarter pound`.
fn part_of_unit(input: Tokens<'_>) -> Read<'_, Weight> {
    let classes = input.classes();
    let (rest, n) = single(input)?;
    let (rest, _) = opt(sense(classes.of)).parse(rest)?;
    let (rest, _) = sense(classes.article)(rest)?;
    let (rest, unit) = mass_unit(rest)?;
    match weighed(n, unit) {
        Some(weight) if n.number.as_f64() < 1.0 => Ok((rest, weight)),
        _ => input.fail(),
    }
}

/// A measure of a harvest: `2 bushels`, `half a bushel`, `a peck`.
pub(in super::super) fn measure(input: Tokens<'_>) -> Read<'_, (Number, Measure)> {
    let classes = input.classes();
    let (rest, n) = opt(alt((figure, counted_by_article))).parse(input)?;
    let (rest, _) = opt(sense(classes.of)).parse(rest)?;
    let (rest, _) = opt(sense(classes.article)).parse(rest)?;
    let (rest, unit) = meaning(classes.unit_measure)(rest)?;
    let n = n.map_or(Number::whole(1), |n| n.number);
    match unit {
        Meaning::Unit(Unit::Measure(measure)) => match and_a_part(rest) {
            Ok((rest, part)) => match n.checked_add(part) {
                Some(n) => Ok((rest, (n, *measure))),
                None => input.fail(),
            },
            Err(_) => Ok((rest, (n, *measure))),
        },
        _ => input.fail(),
    }
}

/// A volume: `3 quarts`, `a quart and a half`, `500 ml`, `0,5 l`, `half a cup`.
pub(in super::super) fn volume(input: Tokens<'_>) -> Read<'_, (Volume, bool)> {
    context("volume", measured_volume).parse(input)
}

fn measured_volume(input: Tokens<'_>) -> Read<'_, (Volume, bool)> {
    let classes = input.classes();
    let (rest, n) = alt((figure, counted_by_article)).parse(input)?;
    let (rest, _) = opt(sense(classes.of)).parse(rest)?;
    let (rest, _) = if n.number.as_f64() < 1.0 { opt(sense(classes.article)).parse(rest)? } else { (rest, None) };
    let (rest, ()) = hyphen(rest)?;
    let (rest, unit) = meaning(classes.unit_volume)(rest)?;
    let Meaning::Unit(Unit::Volume(unit, metric)) = unit else { return input.fail() };
    let rest = dot_of_abbreviation(rest);
    let (rest, part) = opt(and_a_part).parse(rest)?;
    let scale = match (*metric, *unit < Volume::LITRE) {
        (false, _) => Scale::Customary,
        (true, true) => Scale::Fine,
        (true, false) => Scale::Coarse,
    };
    let number = resolved(n, scale);
    match part.map_or(Some(number), |part| number.checked_add(part)).and_then(|n| unit.times(n)) {
        Some(volume) => Ok((rest, (volume, n.article))),
        None => input.fail(),
    }
}

/// A count of containers: `3 bags`, `two big bags`, `a bag`, `another 2 trays`.
pub(in super::super) fn count(input: Tokens<'_>) -> Read<'_, Count> {
    once(input, |kept| &kept.count, counted_containers)
}

fn counted_containers(input: Tokens<'_>) -> Read<'_, Count> {
    let (rest, n) = alt((figure, counted_by_article)).parse(input)?;
    let (rest, _) = sizes(rest)?;
    let (rest, ()) = hyphen(rest)?;
    let (rest, container) = meaning(input.classes().container)(rest)?;
    // `the jars` are not one.
    let plural = rest
        .at
        .checked_sub(1)
        .and_then(|at| rest.known.lexed.tokens.get(at))
        .is_some_and(|token| is_plural(rest.known.lexed.folded(token)));
    match container {
        Meaning::Container(container) if !(n.article && plural) => {
            Ok((rest, Count { count: n.number, container: *container, article: n.article, range: n.range }))
        }
        _ => input.fail(),
    }
}

/// `bag 3`: the number behind, as some write it.
pub(in super::super) fn count_behind(input: Tokens<'_>) -> Read<'_, Count> {
    let (rest, container) = meaning(input.classes().container)(input)?;
    let (rest, (n, _)) = digits(rest)?;
    let glued = rest.is_glued() && rest.skip(1).is_glued();
    match (container, i64::try_from(n)) {
        (Meaning::Container(container), Ok(n)) if n < 200 && ends_amount(rest) && !glued => {
            Ok((rest, Count { count: Number::whole(n), container: *container, article: false, range: false }))
        }
        _ => input.fail(),
    }
}

/// Up to two words of size or praise: `big`, `nice full`.
pub(super) fn sizes(input: Tokens<'_>) -> Read<'_, ()> {
    let classes = input.classes();
    let mut rest = input;
    for _ in 0..2 {
        let sized = rest.hits().iter().any(|hit| classes.harmless.has(hit.sense) || classes.extra.has(hit.sense));
        let counts = rest.hits().iter().any(|hit| classes.container.has(hit.sense) || classes.jar.has(hit.sense));
        if !sized || counts {
            break;
        }
        let len = rest
            .hits()
            .iter()
            .filter(|hit| classes.harmless.has(hit.sense) || classes.extra.has(hit.sense))
            .map(|hit| hit.len)
            .max();
        rest = rest.skip(len.unwrap_or(1).into());
    }
    Ok((rest, ()))
}
