//! Temperatures, pressures, heights, shares, grids, and how much of the skin shows colour.

use super::super::lex::{Mark, Shape};
use super::super::lexicon::sense::{Meaning, Unit};
use super::input::{Read, Tokens, digits, glued_mark, hyphen, mark, meaning, sense};
use super::kinds::Figure;
use super::number::{figure, single};
use crate::quantity::{Length, Number, Pressure, Temperature};
use crate::vocabulary::Ripeness;
use nom::Parser;
use nom::branch::alt;
use nom::combinator::{opt, verify};
use nom::error::context;

/// A height above the sea.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(in super::super) struct Height {
    pub(in super::super) length: Length,
    /// `2.400 ft`: a dot before three digits may be a decimal point or separate thousands, so it is asked about.
    pub(in super::super) doubtful: bool,
}

/// `68 F`, `20 °C`, `68 degrees`, `21 degrees celsius`; a bare degree is of the household's own scale.
pub(in super::super) fn temperature(input: Tokens<'_>) -> Read<'_, (Number, Option<bool>)> {
    context("temperature", measured_temperature).parse(input)
}

fn measured_temperature(input: Tokens<'_>) -> Read<'_, (Number, Option<bool>)> {
    let (rest, n) = figure(input)?;
    let (rest, degree) = opt(mark(Mark::Degree)).parse(rest)?;
    let (rest, first) = opt(scale).parse(rest)?;
    let (rest, second) = if first == Some(Unit::Degree) { opt(scale).parse(rest)? } else { (rest, None) };
    let celsius = match second.or(first) {
        Some(Unit::Celsius) => Some(true),
        Some(Unit::Fahrenheit) => Some(false),
        Some(_) => None,
        None if degree.is_some() => None,
        None => return input.fail(),
    };
    Ok((rest, (n.number, celsius)))
}

fn scale(input: Tokens<'_>) -> Read<'_, Unit> {
    let (rest, ()) = hyphen(input)?;
    let (rest, unit) = meaning(input.classes().unit_temp)(rest)?;
    match unit {
        Meaning::Unit(unit) => Ok((rest, *unit)),
        _ => input.fail(),
    }
}

/// The temperature of a figure on a scale.
pub(in super::super) fn of_scale(number: Number, celsius: bool) -> Option<Temperature> {
    let degrees = number.as_f64();
    if celsius { Temperature::from_celsius(degrees) } else { Temperature::from_fahrenheit(degrees) }
}

/// `11 psi`, `11 pounds pressure`.
pub(in super::super) fn pressure(input: Tokens<'_>) -> Read<'_, Pressure> {
    let (rest, n) = figure(input)?;
    let (rest, _) = sense(input.classes().unit_pressure)(rest)?;
    match Pressure::from_psi(n.number.as_f64()) {
        Some(pressure) => Ok((rest, pressure)),
        None => input.fail(),
    }
}

/// `2400 ft`, `5,280 feet`, `-20 ft`, `minus 600 m`, `20 ft below sea level`, `sea level`, `1.5 km`.
pub(in super::super) fn height(input: Tokens<'_>) -> Read<'_, Height> {
    context("height", alt((measured_height, sea_level))).parse(input)
}

fn sea_level(input: Tokens<'_>) -> Read<'_, Height> {
    let (rest, _) = sense(input.classes().sea_level)(input)?;
    Ok((rest, Height { length: Length::ZERO, doubtful: false }))
}

/// `1 050`: thousands apart by a space.
fn spaced(input: Tokens<'_>) -> Read<'_, Figure> {
    let (rest, (head, _)) = verify(digits, |(head, count)| *count <= 2 && *head > 0).parse(input)?;
    let (rest, (tail, _)) = verify(digits, |(_, count)| *count == 3).parse(rest)?;
    match i64::try_from(head * 1000 + tail) {
        Ok(n) => Ok((rest, Figure::of(Number::whole(n)))),
        Err(_) => input.fail(),
    }
}

fn measured_height(input: Tokens<'_>) -> Read<'_, Height> {
    let classes = input.classes();
    let (rest, below) =
        opt(alt((|i| mark(Mark::Dash)(i), |i| sense(classes.sea_below)(i).map(|(rest, _)| (rest, ())))))
            .parse(input)?;
    let (rest, n) = alt((spaced, figure)).parse(rest)?;
    let (rest, ()) = hyphen(rest)?;
    let (rest, (unit, metric)) = match glued_mark(Mark::Quote)(rest) {
        Ok((rest, ())) if !rest.is_glued() => (rest, (Length::FOOT, false)),
        // `1's` is no height.
        Ok(_) => return input.fail(),
        Err(_) => {
            let (rest, unit) = meaning(classes.unit_length)(rest)?;
            match unit {
                Meaning::Unit(Unit::Length(unit, metric)) => (rest, (*unit, *metric)),
                _ => return input.fail(),
            }
        }
    };
    let (rest, above) = opt(sense(classes.sea_above)).parse(rest)?;
    let (rest, under) = if above.is_none() { opt(sense(classes.sea_below)).parse(rest)? } else { (rest, None) };
    let (rest, _) = opt(sense(classes.sea_level)).parse(rest)?;
    let kilometres = unit > Length::METRE;
    let number = match n.other {
        // `1,150 m`: heights are counted in thousands in both systems.
        Some(other) if n.dotted && !kilometres => other,
        Some(other) if !n.dotted && kilometres => other,
        _ => n.number,
    };
    let _ = metric;
    let number = if below.is_some() || under.is_some() { Number::whole(-1).checked_mul(number) } else { Some(number) };
    match number.and_then(|number| unit.times(number)) {
        Some(length) => Ok((rest, Height { length, doubtful: n.dotted && !kilometres })),
        None => input.fail(),
    }
}

/// A part of what was spoken of: `half`, `a third`, `30 %`, `all of it`, `the rest`.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(in super::super) enum Share {
    /// So much of it.
    Part(Number),
    /// All of it.
    All,
    /// What is left of it.
    Rest,
    /// Most of it: no figure.
    Most,
    /// `it`, `them`: all of it, if nothing else is said.
    It,
}

/// A share.
pub(in super::super) fn share(input: Tokens<'_>) -> Read<'_, Share> {
    let classes = input.classes();
    let whose = |i| {
        // `half of it`, `all of them`, `half the romas`
        let (rest, _) = opt(sense(classes.of)).parse(i)?;
        let (rest, _) = opt(alt((sense(classes.share_it), sense(classes.article)))).parse(rest)?;
        Ok((rest, ()))
    };
    let percent = |i| {
        let (rest, n) = single(i)?;
        let (rest, ()) = percent_sign(rest)?;
        let part = Number::new(1, 100).and_then(|hundredth| n.number.checked_mul(hundredth));
        part.map_or_else(|| i.fail(), |part| Ok((rest, Share::Part(part))))
    };
    let part = |i| {
        let (rest, n) = single(i)?;
        // `0.9` is a figure whose unit is missing, not nine tenths of something.
        let decimal =
            i.skip(1).first().is_some_and(|token| token.is(Mark::Dot) || token.is(Mark::Comma)) && i.skip(2).is_glued();
        if n.number.as_f64() < 1.0 && n.number.as_f64() > 0.0 && !decimal {
            Ok((rest, Share::Part(n.number)))
        } else {
            i.fail()
        }
    };
    let named = |i| {
        let (rest, found) = sense(classes.share)(i)?;
        let half = Number::new(1, 2).unwrap_or(Number::whole(1));
        let share = match found {
            found if classes.share_all.has(found) => Share::All,
            found if classes.share_rest.has(found) => Share::Rest,
            found if classes.share_half.has(found) => Share::Part(half),
            found if classes.share_it.has(found) => Share::It,
            _ => Share::Most,
        };
        Ok((rest, share))
    };
    let (rest, share) = context("share", alt((percent, part, named))).parse(input)?;
    let (rest, ()) = whose(rest)?;
    Ok((rest, share))
}

fn percent_sign(input: Tokens<'_>) -> Read<'_, ()> {
    match mark(Mark::Percent)(input) {
        Ok(found) => Ok(found),
        Err(_) => sense(input.classes().unit_percent)(input).map(|(rest, _)| (rest, ())),
    }
}

/// A colour class by how much of the skin shows colour: `20 % red`, `a third red`.
pub(in super::super) fn coloured(input: Tokens<'_>) -> Read<'_, Ripeness> {
    let (rest, n) = figure(input)?;
    let (rest, percent) = opt(percent_sign).parse(rest)?;
    let (rest, _) = opt(sense(input.classes().of)).parse(rest)?;
    let (rest, _) = opt(sense(input.classes().share_it)).parse(rest)?;
    let (rest, _) = sense(input.classes().ripe_colour)(rest)?;
    let share = n.number.as_f64() * if percent.is_some() { 1.0 } else { 100.0 };
    // `12 red`: twelve of them.
    if percent.is_none() && n.number.as_f64() >= 1.0 {
        return input.fail();
    }
    match class_of(share) {
        Some(class) => Ok((rest, class)),
        None => input.fail(),
    }
}

/// The class of a share of the surface that is not green, in percent: 7 CFR 51.1860.
fn class_of(percent: f64) -> Option<Ripeness> {
    match percent {
        p if !(0.0..=100.0).contains(&p) => None,
        0.0 => Some(Ripeness::Green),
        p if p <= 10.0 => Some(Ripeness::Breakers),
        p if p <= 30.0 => Some(Ripeness::Turning),
        p if p <= 60.0 => Some(Ripeness::Pink),
        p if p <= 90.0 => Some(Ripeness::LightRed),
        _ => Some(Ripeness::Red),
    }
}

fn plain(input: Tokens<'_>) -> Read<'_, Figure> {
    match input.first().map(|token| token.shape) {
        Some(Shape::Digits(..) | Shape::Word) => single(input),
        _ => input.fail(),
    }
}

/// `3x8`, `63.5 x 38.1`, `3 by 8`: two figures of a grid or a label.
pub(in super::super) fn grid(input: Tokens<'_>) -> Read<'_, (Number, Number)> {
    let classes = input.classes();
    let times = alt((|i| mark(Mark::Times)(i), |i| sense(classes.times)(i).map(|(rest, _)| (rest, ()))));
    let (rest, (a, (), b)) = (plain, times, plain).parse(input)?;
    if sense(classes.unit_mass)(rest).is_ok() || Figure::of(a.number).number.as_f64() <= 0.0 {
        return input.fail();
    }
    Ok((rest, (a.number, b.number)))
}
