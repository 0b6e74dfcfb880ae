//! Masses, volumes, counts of containers, and count times each in every order.

use super::super::endings::is_plural;
use super::super::lex::{Mark, Shape};
use super::super::lexicon::sense::{Container, Meaning, Unit};
use super::input::{Read, Tokens, digits, glued_mark, hyphen, mark, meaning, number_word, once, sense};
use super::kinds::{Count, Figure, Weight};
use super::number::{figure, single};
use crate::processes::Measure;
use crate::quantity::{Mass, Number, Volume};
use nom::Parser;
use nom::branch::alt;
use nom::combinator::opt;
use nom::error::context;
use nom::multi::many_m_n;
use nom::sequence::preceded;

/// So many containers of a weight each.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(in super::super) struct Portions {
    pub(in super::super) count: u32,
    pub(in super::super) container: Option<Container>,
    /// The weight of each, where all weigh the same.
    pub(in super::super) each: Option<Mass>,
    pub(in super::super) total: Mass,
    /// Whether the words plainly say that it is the weight of each.
    pub(in super::super) plainly: bool,
    /// In ounces, of a liquid: the volume of all.
    pub(in super::super) fluid: Option<Volume>,
    /// Whether it was weighed in metric units.
    pub(in super::super) metric: bool,
}

/// A weight: `7 lb`, `6 lb 4 oz`, `a pound and a half`, `half a kilo`, `20#`.
pub(in super::super) fn weight(input: Tokens<'_>) -> Read<'_, Weight> {
    once(
        input,
        |kept| &kept.weight,
        |i| context("mass", alt((two_units, unit_and_part, part_of_unit, one_unit))).parse(i),
    )
}

#[derive(Clone, Copy)]
struct MassUnit {
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
        _ => return input.fail("unit"),
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

/// The figure as it is meant with this unit: kilograms and litres are not counted in thousands, grams and millilitres are, and pounds are
/// where a comma stands.
fn resolved(figure: Figure, unit: Scale) -> Number {
    match figure.other {
        Some(other) if figure.dotted == (unit == Scale::Fine) && unit != Scale::Customary => other,
        _ => figure.number,
    }
}

/// How a unit is counted.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Scale {
    /// Pounds, quarts.
    Customary,
    /// Kilograms, litres: three digits behind a comma or dot are decimals.
    Coarse,
    /// Grams, millilitres: three digits behind a comma or dot are thousands.
    Fine,
}

fn mass_scale(unit: MassUnit) -> Scale {
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

fn counted_by_article(input: Tokens<'_>) -> Read<'_, Figure> {
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
        None => input.fail("mass"),
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
    if again.mass == unit { Ok((rest, resolved(high, mass_scale(again)))) } else { input.fail("range") }
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
        Ok(_) => return input.fail("mass"),
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
    let Some((rest, below)) = below else { return input.fail("mass") };
    let sum = |large: Weight, small: Weight| large.mass.checked_add(small.mass);
    let whole = weighed(large, unit);
    match whole.zip(weighed(small, below)).and_then(|(a, b)| sum(a, b)).zip(whole) {
        Some((mass, whole)) => Ok((rest, Weight { mass, article: false, fluid: None, ..whole })),
        None => input.fail("mass"),
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
        None => input.fail("mass"),
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
            None => input.fail("fraction"),
        },
        _ => input.fail("fraction"),
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
        _ => input.fail("mass"),
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
                None => input.fail("measure"),
            },
            Err(_) => Ok((rest, (n, *measure))),
        },
        _ => input.fail("measure"),
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
    let Meaning::Unit(Unit::Volume(unit, metric)) = unit else { return input.fail("volume") };
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
        None => input.fail("volume"),
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
        _ => input.fail("container"),
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
        _ => input.fail("container"),
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

/// Containers of a weight each, in every order, or of unlike weights that are all said.
pub(in super::super) fn portions(input: Tokens<'_>) -> Read<'_, Portions> {
    context("portions", alt((listed, unlike, count_then_each, each_then_count, sized_containers, number_times_weight)))
        .parse(input)
}

fn portions_of(count: Number, container: Option<Container>, weight: Weight, plainly: bool) -> Option<Portions> {
    let each = weight.mass;
    let n = count.as_count().filter(|n| (1..=500).contains(n))?;
    let total = each.times(count)?;
    Some(Portions {
        count: n,
        container,
        each: Some(each),
        total,
        plainly,
        fluid: None,
        metric: weight.unit == Mass::GRAM || weight.unit == Mass::KILOGRAM,
    })
}

/// `3 bags at 7 lb`, `3 bags, 7 lb each`, `two boxes of 5 kg`, `3 bags x 7 lb`.
fn count_then_each(input: Tokens<'_>) -> Read<'_, Portions> {
    let (rest, counted) = count(input)?;
    let (rest, joint) = joint(rest)?;
    let (rest, weight) = weight(rest)?;
    let (rest, each) = opt(each_word).parse(rest)?;
    let plainly = each.is_some() || joint == Joint::Each;
    if !plainly && joint != Joint::Of {
        return input.fail("each");
    }
    let fluid = weight.fluid.and_then(|fluid| fluid.times(counted.count));
    match portions_of(counted.count, Some(counted.container), weight, plainly) {
        // `a bag of 7 lb`: one.
        Some(portions) => Ok((rest, Portions { fluid, ..portions })),
        None => input.fail("each"),
    }
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Joint {
    /// `at`, `@`, `x`, `each`, `weighing`: what follows is the weight of one.
    Each,
    /// `of`, `with`
    Of,
    /// A comma, a dash, nothing.
    Loose,
}

/// What stands between a count and a weight.
fn joint(input: Tokens<'_>) -> Read<'_, Joint> {
    let classes = input.classes();
    let each = |i| {
        alt((
            |i| mark(Mark::At)(i),
            |i| mark(Mark::Times)(i),
            |i| sense(classes.times)(i).map(|(rest, _)| (rest, ())),
            |i| sense(classes.at)(i).map(|(rest, _)| (rest, ())),
            |i| sense(classes.each)(i).map(|(rest, _)| (rest, ())),
        ))
        .parse(i)
    };
    let (rest, comma) =
        opt(alt((mark(Mark::Comma), mark(Mark::Dash), mark(Mark::Colon), mark(Mark::Bracket)))).parse(input)?;
    if let Ok((rest, ())) = each(rest) {
        // `at about 7 lb`, `each of 7 lb`, `each at 7 lb`
        let (rest, _) = opt(each).parse(rest)?;
        let (rest, _) = opt(sense(classes.of)).parse(rest)?;
        return Ok((rest, Joint::Each));
    }
    if comma.is_none()
        && let Ok((rest, _)) = alt((sense(classes.of), sense(classes.prep_with), sense(classes.weighing))).parse(rest)
    {
        return Ok((rest, Joint::Of));
    }
    Ok((rest, Joint::Loose))
}

fn each_word(input: Tokens<'_>) -> Read<'_, ()> {
    let (rest, _) = opt(mark(Mark::Comma)).parse(input)?;
    let (rest, _) = opt(mark(Mark::Slash)).parse(rest)?;
    let (rest, _) = sense(input.classes().each)(rest)?;
    Ok((rest, ()))
}

/// `7 lb bags x 3`, `7 lb x 3`, `7 lb each, 3 bags`, `7 lb a bag, 3 bags`.
fn each_then_count(input: Tokens<'_>) -> Read<'_, Portions> {
    let classes = input.classes();
    let (rest, weight) = weight(input)?;
    let (rest, ()) = hyphen(rest)?;
    let (rest, bags) = opt(meaning(classes.container)).parse(rest)?;
    let container = match bags {
        Some(Meaning::Container(container)) => Some(*container),
        _ => None,
    };
    let times = |i| alt((|i| mark(Mark::Times)(i), |i| sense(classes.times)(i).map(|(rest, _)| (rest, ())))).parse(i);
    if let Ok((rest, ())) = times(rest) {
        let (rest, n) = single(rest)?;
        let (rest, named) = opt(meaning(classes.container)).parse(rest)?;
        let container = match named {
            Some(Meaning::Container(container)) => Some(*container),
            _ => container,
        };
        return match portions_of(n.number, container, weight, true) {
            Some(portions) => Ok((rest, portions)),
            None => input.fail("each"),
        };
    }
    let (rest, ()) = each_word(rest)?;
    let (rest, _) = opt(mark(Mark::Comma)).parse(rest)?;
    let (rest, counted) = count(rest)?;
    match portions_of(counted.count, Some(counted.container), weight, true) {
        Some(portions) => Ok((rest, portions)),
        None => input.fail("each"),
    }
}

/// `3 7 lb bags`, `three 7-lb bags`, `a 5 kg bag`.
fn sized_containers(input: Tokens<'_>) -> Read<'_, Portions> {
    let classes = input.classes();
    let numbered = |i| {
        let (rest, n) = alt((single, counted_by_article)).parse(i)?;
        let (rest, ()) = sizes(rest)?;
        let (rest, each) = weight(rest)?;
        Ok((rest, (n.number, each)))
    };
    // `7 lb bag`: one.
    let alone = |i| weight(i).map(|(rest, each)| (rest, (Number::whole(1), each)));
    let (rest, (n, each)) = alt((numbered, alone)).parse(input)?;
    let (rest, ()) = hyphen(rest)?;
    let (rest, container) = meaning(classes.container)(rest)?;
    let Meaning::Container(container) = container else { return input.fail("container") };
    let fluid = each.fluid.and_then(|fluid| fluid.times(n));
    match portions_of(n, Some(*container), each, true) {
        Some(portions) if !each.article => Ok((rest, Portions { fluid, ..portions })),
        _ => input.fail("each"),
    }
}

/// `3 x 7 lb`, `2 at 6 lb`, `4 @ 6.5 lb`, `3 of 7 lb`.
fn number_times_weight(input: Tokens<'_>) -> Read<'_, Portions> {
    let (rest, n) = single(input)?;
    let (rest, joint) = joint(rest)?;
    if joint == Joint::Loose || n.number.as_count().is_none() {
        return input.fail("each");
    }
    let (rest, weight) = weight(rest)?;
    let (rest, _) = opt(each_word).parse(rest)?;
    match portions_of(n.number, None, weight, true) {
        Some(portions) => Ok((rest, portions)),
        None => input.fail("each"),
    }
}

/// A list of so many weights or more is not summed: it is tried from each of its elements, and nobody writes one (our own choice).
const LONGEST_LIST: usize = 100;

/// `one 6 lb and one 7.5 lb`, `2 bags, one 6 lb, one 7.5`: each weight said, with what counts it.
fn unlike(input: Tokens<'_>) -> Read<'_, Portions> {
    let classes = input.classes();
    let (rest, counted) = opt(|i| {
        let (rest, counted) = count(i)?;
        let (rest, _) = opt(alt((mark(Mark::Comma), mark(Mark::Colon), mark(Mark::Dash)))).parse(rest)?;
        Ok((rest, counted))
    })
    .parse(input)?;
    let one = |i| {
        let (rest, n) = alt((single, counted_by_article)).parse(i)?;
        let (rest, _) = opt(meaning(classes.container)).parse(rest)?;
        let (rest, _) = opt(alt((
            |i| sense(classes.of)(i).map(|(rest, _)| (rest, ())),
            |i| sense(classes.at)(i).map(|(rest, _)| (rest, ())),
            |i| mark(Mark::At)(i),
        )))
        .parse(rest)?;
        let (rest, weight) = weight_or_number(rest)?;
        Ok((rest, (n, weight)))
    };
    let (rest, first) = one(rest)?;
    let (rest, more) = many_m_n(0, LONGEST_LIST, preceded(list_joint, one)).parse(rest)?;
    if more.is_empty() || more.len() == LONGEST_LIST {
        return input.fail("list");
    }
    let all: Vec<(Figure, Weighed)> = std::iter::once(first).chain(more).collect();
    // Counts of one in words: `one 6 lb and one 7.5`; larger ones are portions of their own.
    if all.iter().any(|(n, _)| n.number != Number::whole(1)) {
        return input.fail("list");
    }
    sum_listed(input, rest, &all.iter().map(|(_, weighed)| *weighed).collect::<Vec<_>>(), counted)
}

/// A weight, or a bare number whose unit stands at another one of the list.
type Weighed = (Option<Weight>, Number);

fn weight_or_number(input: Tokens<'_>) -> Read<'_, Weighed> {
    match weight(input) {
        Ok((rest, weight)) => Ok((rest, (Some(weight), weight.figure))),
        Err(_) => single(input).map(|(rest, figure)| (rest, (None, figure.number))),
    }
}

fn list_joint(input: Tokens<'_>) -> Read<'_, ()> {
    let classes = input.classes();
    let (rest, comma) = opt(alt((mark(Mark::Comma), mark(Mark::Plus), mark(Mark::Slash)))).parse(input)?;
    let (rest, and) = opt(sense(classes.and)).parse(rest)?;
    if comma.is_some() || and.is_some() { Ok((rest, ())) } else { input.fail("list") }
}

/// `4 bags: 7, 7, 6.5, 8 lb`: as many weights as bags.
fn listed(input: Tokens<'_>) -> Read<'_, Portions> {
    let (rest, counted) = count(input)?;
    let classes = input.classes();
    let (rest, _) = opt(alt((
        |i| mark(Mark::Comma)(i),
        |i| mark(Mark::Colon)(i),
        |i| mark(Mark::Dash)(i),
        |i| sense(classes.at)(i).map(|(rest, _)| (rest, ())),
        |i| sense(classes.of)(i).map(|(rest, _)| (rest, ())),
    )))
    .parse(rest)?;
    let (rest, first) = weight_or_number(rest)?;
    let (rest, more) = many_m_n(0, LONGEST_LIST, preceded(list_joint, weight_or_number)).parse(rest)?;
    let all: Vec<Weighed> = std::iter::once(first).chain(more).collect();
    if all.len() < 2 || all.len() > LONGEST_LIST || counted.count != Number::whole(all.len() as i64) {
        return input.fail("list");
    }
    sum_listed(input, rest, &all, Some(counted))
}

/// The sum of weights that are said one by one: `7, 7 and 6.5 lb`.
fn sum_listed<'a>(input: Tokens<'a>, rest: Tokens<'a>, all: &[Weighed], counted: Option<Count>) -> Read<'a, Portions> {
    let unit = all.iter().rev().find_map(|(weight, _)| *weight).map(|weight| weight.unit);
    let Some(unit) = unit else { return input.fail("list") };
    let mass = |(weight, number): &Weighed| weight.map_or_else(|| unit.times(*number), |weight| Some(weight.mass));
    let total = all.iter().try_fold(Mass::ZERO, |sum, one| sum.checked_add(mass(one)?));
    let (rest, _) = opt(each_word).parse(rest)?;
    match total {
        Some(total) if counted.is_none_or(|counted| counted.count == Number::whole(all.len() as i64)) => Ok((
            rest,
            Portions {
                count: all.len() as u32,
                container: counted.map(|counted| counted.container),
                each: None,
                total,
                plainly: true,
                fluid: None,
                metric: unit == Mass::GRAM || unit == Mass::KILOGRAM,
            },
        )),
        _ => input.fail("list"),
    }
}

/// `3 bags at 7`: the unit is missing.
pub(in super::super) fn count_then_number(input: Tokens<'_>) -> Read<'_, (Count, Number)> {
    let (rest, counted) = count(input)?;
    let (rest, joint) = joint(rest)?;
    if joint != Joint::Each {
        return input.fail("each");
    }
    let (rest, n) = single(rest)?;
    let (rest, _) = opt(each_word).parse(rest)?;
    if ends_amount(rest) { Ok((rest, (counted, n.number))) } else { input.fail("each") }
}
