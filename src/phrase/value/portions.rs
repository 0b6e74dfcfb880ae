//! Counts of containers with what each weighs, in every order, and sums of unlike ones.

use super::super::lex::Mark;
use super::super::lexicon::sense::{Container, Meaning};
use super::amount::{count, counted_by_article, ends_amount, sizes, weight};
use super::input::{Read, Tokens, hyphen, mark, meaning, sense};
use super::kinds::{Count, Figure, Weight};
use super::number::single;
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
        return input.fail();
    }
    let fluid = weight.fluid.and_then(|fluid| fluid.times(counted.count));
    match portions_of(counted.count, Some(counted.container), weight, plainly) {
        // `a bag of 7 lb`: one.
        Some(portions) => Ok((rest, Portions { fluid, ..portions })),
        None => input.fail(),
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
            None => input.fail(),
        };
    }
    let (rest, ()) = each_word(rest)?;
    let (rest, _) = opt(mark(Mark::Comma)).parse(rest)?;
    let (rest, counted) = count(rest)?;
    match portions_of(counted.count, Some(counted.container), weight, true) {
        Some(portions) => Ok((rest, portions)),
        None => input.fail(),
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
    let Meaning::Container(container) = container else { return input.fail() };
    let fluid = each.fluid.and_then(|fluid| fluid.times(n));
    match portions_of(n, Some(*container), each, true) {
        Some(portions) if !each.article => Ok((rest, Portions { fluid, ..portions })),
        _ => input.fail(),
    }
}

/// `3 x 7 lb`, `2 at 6 lb`, `4 @ 6.5 lb`, `3 of 7 lb`.
fn number_times_weight(input: Tokens<'_>) -> Read<'_, Portions> {
    let (rest, n) = single(input)?;
    let (rest, joint) = joint(rest)?;
    if joint == Joint::Loose || n.number.as_count().is_none() {
        return input.fail();
    }
    let (rest, weight) = weight(rest)?;
    let (rest, _) = opt(each_word).parse(rest)?;
    match portions_of(n.number, None, weight, true) {
        Some(portions) => Ok((rest, portions)),
        None => input.fail(),
    }
}

/// A list of so many weights or more is not summed: it is tried from each of its elements, and nobody writes one (our
/// own choice).
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
        return input.fail();
    }
    let all: Vec<(Figure, Weighed)> = std::iter::once(first).chain(more).collect();
    // Counts of one in words: `one 6 lb and one 7.5`; larger ones are portions of their own.
    if all.iter().any(|(n, _)| n.number != Number::whole(1)) {
        return input.fail();
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
    if comma.is_some() || and.is_some() { Ok((rest, ())) } else { input.fail() }
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
        return input.fail();
    }
    sum_listed(input, rest, &all, Some(counted))
}

/// The sum of weights that are said one by one: `7, 7 and 6.5 lb`.
fn sum_listed<'a>(input: Tokens<'a>, rest: Tokens<'a>, all: &[Weighed], counted: Option<Count>) -> Read<'a, Portions> {
    let unit = all.iter().rev().find_map(|(weight, _)| *weight).map(|weight| weight.unit);
    let Some(unit) = unit else { return input.fail() };
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
        _ => input.fail(),
    }
}

/// `3 bags at 7`: the unit is missing.
pub(in super::super) fn count_then_number(input: Tokens<'_>) -> Read<'_, (Count, Number)> {
    let (rest, counted) = count(input)?;
    let (rest, joint) = joint(rest)?;
    if joint != Joint::Each {
        return input.fail();
    }
    let (rest, n) = single(rest)?;
    let (rest, _) = opt(each_word).parse(rest)?;
    if ends_amount(rest) { Ok((rest, (counted, n.number))) } else { input.fail() }
}
