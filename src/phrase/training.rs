//! What the trainer in `tests/train` sees of a message: its lattice, and features in words; and what the tests of the
//! grammar of values see: tokens and values. Nothing here is used by the program itself.

use super::context::Context;
use super::feature::{Feature, Namer, Template};
use super::frame::Group;
use super::household::Household;
use super::item::{self, items};
use super::language::language;
use super::lattice::{Edge, Lattice, lattice};
use super::lex::Shape;
use super::lexicon::sense::Meaning;
use super::readings::situation;
use super::value::{Value, values_at};
use crate::quantity::Number;
use chrono::{NaiveDate, NaiveTime};

/// The lattice of a message, its edges not weighed.
pub fn lattice_of(text: &str, context: &Context<'_>) -> Lattice {
    let language = language();
    let household = Household::new(context.lexicon, &language.words);
    let text = items(text, &language.words, &household);
    lattice(&text, &language.frames, &household, context, &situation(context, false))
}

/// A feature in words, as it stands in the weights file.
pub fn name(feature: Feature) -> String {
    let language = language();
    Namer { words: &language.words, frames: &language.frames }.name(feature)
}

/// The group of an edge, by its place among the groups; `None` for what is left alone.
pub fn group(edge: &Edge) -> Option<usize> {
    language().frames.get(edge.frame).map(|frame| frame.group as usize)
}

/// What brought an edge up: its frame and trigger.
pub fn trigger(edge: &Edge) -> Option<String> {
    let frame = language().frames.get(edge.frame)?;
    Some(format!("{}: {}", frame.name, frame.triggers.get(usize::from(edge.trigger))?.text))
}

/// How many states there are: what the last clause before was.
pub const STATES: usize = super::feature::STATES;

/// Whether an edge may stand behind a clause of a state: what a message takes back in the same breath is part of its
/// statement.
pub fn may_follow(edge: &Edge, state: usize) -> bool {
    super::score::may_follow(language().frames.get(edge.frame), state)
}

/// What speaks for a frame behind a clause of a state.
pub fn follows(edge: &Edge, state: usize) -> Option<[Key; 2]> {
    let frame = edge.frame?;
    let group = language().frames.get(frame)?.group as usize;
    Some([
        Feature::new(Template::Follows, frame.into(), state, 0).0,
        Feature::new(Template::GroupFollows, group, state, 0).0,
    ])
}

/// The ids of the products that a name may mean.
pub fn products_named(name: &str) -> Vec<String> {
    let language = language();
    let classes = &language.words.classes;
    let read = items(name, &language.words, &Household::default());
    let item = match read.items.as_slice() {
        [item] => item,
        _ => return Vec::new(),
    };
    let senses = item.senses.iter().filter(|hit| classes.product.has(hit.sense));
    senses
        .filter_map(|hit| match language.words.meaning(hit.sense) {
            Meaning::Product(product) => Some(product.as_str().to_owned()),
            _ => None,
        })
        .collect()
}

/// The crop that a word means.
pub fn crop_named(name: &str) -> Option<String> {
    let language = language();
    let read = items(name, &language.words, &Household::default());
    let sense = read.items.first()?.sense(language.words.classes.crop)?;
    language.words.path(sense).strip_prefix("crop.").map(str::to_owned)
}

/// The names of the groups, in their order.
pub fn groups() -> Vec<String> {
    Group::ALL.iter().map(|group| group.name()).collect()
}

/// A feature as a number.
pub type Key = u64;

/// The number of a feature.
pub fn key(feature: Feature) -> Key {
    feature.0
}

/// Whether a feature is about a word.
pub fn is_word(key: Key) -> bool {
    Feature(key).is_word()
}

/// The name of a feature by its number.
pub fn name_of(key: Key) -> String {
    name(Feature(key))
}

/// A token of a text.
#[derive(Clone, PartialEq, Debug)]
pub struct Seen {
    /// What it is made of: `word`, `digits`, `vulgar`, or the name of the mark.
    pub shape: String,
    /// Its letters or digits.
    pub letters: String,
    /// Where it begins in the text, in bytes.
    pub from: usize,
    /// Where it ends.
    pub to: usize,
    /// Nothing stands between it and the token before.
    pub glued: bool,
    /// The names that begin here: how many tokens long, and the path of a sense.
    pub names: Vec<(usize, String)>,
}

/// The tokens of a text with all names that begin at each.
pub fn tokens_of(text: &str) -> Vec<Seen> {
    let language = language();
    let seen = |known: &super::value::input::Known<'_>| -> Vec<Seen> {
        let all = known.lexed.tokens.iter().enumerate();
        all.map(|(at, token)| Seen {
            shape: match token.shape {
                Shape::Word => "word".to_owned(),
                Shape::Digits(..) => "digits".to_owned(),
                Shape::Vulgar(..) => "vulgar".to_owned(),
                Shape::Mark(mark) => format!("{mark:?}").to_lowercase(),
            },
            letters: known.lexed.folded(token).to_owned(),
            from: token.from as usize,
            to: token.to as usize,
            glued: token.glued,
            names: known
                .hits_at(at)
                .iter()
                .map(|hit| (hit.len.into(), language.words.path(hit.sense).to_owned()))
                .collect(),
        })
        .collect()
    };
    item::known(text, &language.words, &Household::default(), |known, _| seen(known)).1
}

/// A value that the grammar of values reads in a text.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Valued {
    /// The rule of the grammar.
    pub kind: &'static str,
    /// Its first token and the one behind its last.
    pub from: usize,
    /// The token behind its last.
    pub to: usize,
    /// What it comes to: a number, or so many grams, litres, seconds, degrees, psi or metres; all of what is counted.
    pub amount: Option<f64>,
    /// Whether degrees are Celsius, if that was said; whether a height is doubtful.
    pub flag: Option<bool>,
    /// The latest such day up to today and the first from today on.
    pub days: [Option<NaiveDate>; 2],
    /// The time of day.
    pub time: Option<NaiveTime>,
}

/// All values at every token of a text.
pub fn values_of(text: &str, today: NaiveDate, metric: bool) -> Vec<Valued> {
    let read = |known: &super::value::input::Known<'_>| {
        let mut all = Vec::new();
        for at in 0..known.lexed.tokens.len() {
            let mut found = Vec::new();
            values_at(known, at, &mut found);
            all.extend(found.into_iter().map(|(to, value)| Valued { from: at, to, ..valued(&value, today, metric) }));
        }
        all
    };
    item::known(text, &language().words, &Household::default(), |known, _| read(known)).1
}

fn valued(value: &Value, today: NaiveDate, metric: bool) -> Valued {
    let of = |kind, amount: Option<f64>| Valued { kind, amount, ..Valued::default() };
    let number = |kind, number: Number| of(kind, Some(number.as_f64()));
    match value {
        Value::Number(figure) => number("number", figure.number),
        Value::Weight(weight) => of("mass", Some(weight.mass.as_kilograms() * 1000.0)),
        Value::Measure(n, _) => number("measure", *n),
        Value::Volume(volume, _) => of("volume", Some(volume.as_litres())),
        Value::Count(count) => number("count", count.count),
        Value::Portions(portions) => of("portions", Some(portions.total.as_kilograms() * 1000.0)),
        Value::CountOf(_, n) => number("count-of", *n),
        Value::Jars(jars) => of("jars", jars.count.map(Number::as_f64)),
        Value::OutOf(some) => of("out-of", Some(some.jars.into())),
        Value::Day(dated) => {
            let days = [dated.day.past(today, metric), dated.day.coming(today, metric)];
            Valued { days, ..of("day", None) }
        }
        Value::Clock(clock) => Valued { time: Some(clock.time), flag: Some(clock.sure), ..of("clock", None) },
        Value::Duration(seconds) => of("duration", Some((*seconds).into())),
        Value::Ago(seconds) => of("ago", Some((*seconds).into())),
        Value::Temperature(n, celsius) => Valued { flag: *celsius, ..number("temperature", *n) },
        Value::Pressure(pressure) => of("pressure", Some(pressure.as_psi())),
        Value::Height(height) => {
            Valued { flag: Some(height.doubtful), ..of("height", Some(height.length.as_millimetres() / 1000.0)) }
        }
        Value::Share(super::value::measure::Share::Part(part)) => number("share", *part),
        Value::Share(_) => of("share", None),
        Value::Colour(_) => of("colour", None),
        Value::Grid(a, _) => number("grid", *a),
        Value::Entry(n) => of("entry", Some((*n).into())),
        Value::Place => of("place", None),
    }
}
