//! What the trainer in `tests/train` sees of a message: its lattice, and features in words. Nothing here is used by the program itself.

use super::context::Context;
use super::feature::{Feature, Namer, Template};
use super::frame::Group;
use super::household::Household;
use super::item::items;
use super::language::language;
use super::lattice::{Edge, Lattice, lattice};
use super::lexicon::sense::Meaning;
use super::readings::situation;

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

/// Whether an edge may stand behind a clause of a state: what a message takes back in the same breath is part of its statement.
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
