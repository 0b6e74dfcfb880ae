//! How values are written: numbers, weights, jars, days, times, heights.
//!
//! Every rule is a combinator over tokens (`nom`), named by `context`; a value is read at every token at which one can begin, in every way in
//! which it can be read, and what is meant is decided later.
//!
//! # Grammar
//!
//! A word in angle brackets is a class of the lexicon (`english/values.txt` says which words it has). The grammar is run by the tests, both
//! ways: sentences made from it are read whole, and what is read can be made from it.
//!
//! ```text
//! (see below)
//! ```

pub(super) mod amount;
pub(super) mod input;
pub(super) mod jars;
pub(super) mod kinds;
pub(super) mod measure;
pub(super) mod number;
pub(super) mod place;
pub(super) mod time;

use super::lex::{Mark, Shape};
use crate::processes::Measure;
use crate::quantity::{Number, Pressure, Volume};
use crate::vocabulary::Ripeness;
use amount::Portions;
use input::{Known, Tokens};
use jars::{Jars, OutOf};
use kinds::{Count, Figure, Weight};
use measure::{Height, Share};
use time::{Clock, Dated};

/// Something said with a figure, or a day.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(super) enum Value {
    /// A bare number.
    Number(Figure),
    /// A weight.
    Weight(Weight),
    /// A measure of a harvest.
    Measure(Number, Measure),
    /// A volume; whether it is `a quart`.
    Volume(Volume, bool),
    /// Containers.
    Count(Count),
    /// Containers of a weight each.
    Portions(Portions),
    /// Containers of so much each, the unit not said.
    CountOf(Count, Number),
    /// Jars.
    Jars(Jars),
    /// Some out of how many.
    OutOf(OutOf),
    /// A day.
    Day(Dated),
    /// A time of day.
    Clock(Clock),
    /// A span of time, in seconds.
    Duration(u32),
    /// So many seconds before now.
    Ago(u32),
    /// A temperature: its figure, and whether it is Celsius if that was said.
    Temperature(Number, Option<bool>),
    /// A pressure.
    Pressure(Pressure),
    /// A height.
    Height(Height),
    /// A part of something.
    Share(Share),
    /// How much of the skin shows colour.
    Colour(Ripeness),
    /// Two figures of a grid.
    Grid(Number, Number),
    /// The number of an entry: `#4`.
    Entry(u32),
    /// A place in the garden.
    Place,
}

impl Value {
    /// Whether it says how much of something.
    pub(super) const fn is_amount(&self) -> bool {
        match self {
            Self::Weight(weight) => !weight.article,
            Self::Measure(..) | Self::Portions(_) | Self::CountOf(..) | Self::OutOf(_) => true,
            Self::Count(count) => !count.article,
            Self::Jars(jars) => jars.count.is_some() && !jars.article,
            Self::Volume(_, article) => !*article,
            _ => false,
        }
    }

    /// Whether it says when.
    pub(super) const fn is_day(&self) -> bool {
        matches!(self, Self::Day(_) | Self::Clock(_) | Self::Ago(_))
    }
}

/// A value and the token behind its last one.
pub(super) type Ending = (usize, Value);

/// All values that begin at a token.
pub(super) fn values_at(known: &Known<'_>, at: usize, out: &mut Vec<Ending>) {
    let end = known.lexed.tokens.len();
    let input = Tokens { known, at, end };
    let Some(first) = input.first() else { return };
    let classes = known.classes();
    let starts = |class: super::lexicon::sense::Class| input.hits().iter().any(|hit| class.has(hit.sense));
    let figure_first = match first.shape {
        Shape::Digits(..) | Shape::Vulgar(..) => true,
        Shape::Mark(Mark::Dot) => input::glued_digits(input.skip(1)).is_ok(),
        Shape::Mark(Mark::Tilde) => true,
        Shape::Mark(Mark::Dash) => !first.glued || at == 0,
        Shape::Mark(Mark::Hash) => {
            entry_number(input, out);
            false
        }
        Shape::Mark(_) => false,
        Shape::Word => {
            starts(classes.num)
                || starts(classes.heard)
                || starts(classes.article)
                || starts(classes.approx)
                || starts(classes.between)
        }
    };
    if figure_first {
        amounts(input, out);
        spans(input, out);
    }
    if first.shape == Shape::Word {
        words(input, &starts, out);
    }
}

fn push<'a, T>(read: input::Read<'a, T>, out: &mut Vec<Ending>, value: impl FnOnce(T) -> Value) {
    if let Ok((rest, found)) = read {
        out.push((rest.at, value(found)));
    }
}

fn amounts(input: Tokens<'_>, out: &mut Vec<Ending>) {
    push(number::figure(input), out, Value::Number);
    push(amount::weight(input), out, Value::Weight);
    push(amount::measure(input), out, |(n, measure)| Value::Measure(n, measure));
    push(amount::volume(input), out, |(volume, article)| Value::Volume(volume, article));
    push(amount::count(input), out, Value::Count);
    push(amount::portions(input), out, Value::Portions);
    push(amount::count_then_number(input), out, |(count, n)| Value::CountOf(count, n));
    push(jars::jars(input), out, Value::Jars);
    // `3 of them` may be pounds, where pounds were spoken of.
    push(jars::of_them(input), out, |jars| Value::Number(Figure::of(jars.count.unwrap_or(Number::whole(0)))));
    push(jars::out_of(input), out, Value::OutOf);
    push(measure::height(input), out, Value::Height);
    push(measure::temperature(input), out, |(n, celsius)| Value::Temperature(n, celsius));
    push(measure::pressure(input), out, Value::Pressure);
    push(measure::coloured(input), out, Value::Colour);
    push(measure::grid(input), out, |(a, b)| Value::Grid(a, b));
    push(measure::share(input), out, Value::Share);
    if let Some((end, figure)) = number_at_stop(input) {
        out.push((end, Value::Number(figure)));
    }
}

/// `6.5.` at the end of a message: a day of a month, or a number and a full stop.
fn number_at_stop(input: Tokens<'_>) -> Option<(usize, Figure)> {
    let (rest, figure) = number::single(input).ok()?;
    let (rest, ()) = input::glued_mark(Mark::Dot)(rest).ok()?;
    (rest.first().is_none() && rest.at - input.at == 4).then_some((rest.at, figure))
}

fn spans(input: Tokens<'_>, out: &mut Vec<Ending>) {
    push(time::clock(input), out, Value::Clock);
    push(time::duration(input), out, Value::Duration);
    push(time::seconds_ago(input), out, Value::Ago);
    push(time::dated(input), out, Value::Day);
}

fn words(input: Tokens<'_>, starts: &dyn Fn(super::lexicon::sense::Class) -> bool, out: &mut Vec<Ending>) {
    let classes = input.classes();
    if starts(classes.jar) {
        push(jars::jars(input), out, Value::Jars);
        push(jars::size_then_count(input), out, Value::Jars);
    }
    if starts(classes.place_side)
        || starts(classes.place_noun)
        || input.first().is_some_and(|first| first.to - first.from == 1)
    {
        push(place::place(input), out, |()| Value::Place);
    }
    if starts(classes.container) {
        push(amount::count_behind(input), out, Value::Count);
    }
    if starts(classes.share) {
        push(measure::share(input), out, Value::Share);
        push(jars::out_of(input), out, Value::OutOf);
    }
    if starts(classes.sea_below) || starts(classes.sea_level) {
        push(measure::height(input), out, Value::Height);
    }
    let day = [
        classes.day_ago,
        classes.day_ahead,
        classes.day_night,
        classes.day_last,
        classes.day_next,
        classes.day_this,
        classes.weekend,
        classes.weekday,
        classes.month,
        classes.ordinal,
        classes.prep_in,
        classes.ytd,
        classes.holiday,
    ];
    if day.into_iter().any(starts) {
        push(time::dated(input), out, Value::Day);
    }
    if starts(classes.half_past)
        || starts(classes.quarter_past)
        || starts(classes.quarter_to)
        || starts(classes.daypart)
    {
        push(time::clock(input), out, Value::Clock);
    }
    if starts(classes.unit) {
        push(amount::weight(input), out, Value::Weight);
        push(amount::measure(input), out, |(n, measure)| Value::Measure(n, measure));
    }
}

/// `#4`
fn entry_number(input: Tokens<'_>, out: &mut Vec<Ending>) {
    let read = input::mark(Mark::Hash)(input).and_then(|(rest, ())| input::glued_digits(rest));
    if let Ok((rest, (n, _))) = read
        && let Ok(n) = u32::try_from(n)
    {
        out.push((rest.at, Value::Entry(n)));
    }
}
