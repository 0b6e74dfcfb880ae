//! The veto of what was not understood. A process time, a pressure, a dose of acid and a place on the shelf hold only for the food, the jar and the
//! method that were tested: where a word of the sentence may change one of them and was not taken in, nothing is made of it, and the word is asked about.

use super::frame::Frame;
use super::item::{Item, WordKind};
use super::lattice::Edge;
use super::read::Read;
use super::score;
use crate::vocabulary::Kind;

/// A run of words of no list that is no longer than this and has neither verb nor person may be an addition: `…, venison`.
const NOUNS: usize = 3;

/// The words over which a clause is held back; `None` where it may count.
pub(super) fn held(read: &Read<'_>, reading: &score::Reading, edge: &Edge, frame: &Frame) -> Option<String> {
    let strict = frame.accounts_for_all;
    let shelf = matches!(frame.kind, Kind::PutUp | Kind::Filled);
    if !(strict || shelf) {
        return None;
    }
    let start = read.start(edge);
    let stretch = read.stretch(edge);
    let inside = stretch.clone().filter(|n| !edge.made.used.has(n - start));
    let inside: Vec<usize> = inside.filter(|n| read.text.items.get(*n).is_some_and(|item| may_change(read, item, strict))).collect();
    if let (Some(first), Some(last)) = (inside.first(), inside.last()) {
        return words(read, *first, *last + 1);
    }
    outside(read, reading, edge)
}

fn words(read: &Read<'_>, from: usize, to: usize) -> Option<String> {
    let (from, to) = read.text.span(from, to);
    read.text.text.get(from as usize..to as usize).map(str::to_owned)
}

/// Whether a word that was not taken in may change the food, the jar or the method.
fn may_change(read: &Read<'_>, item: &Item, strict: bool) -> bool {
    if is_risky(read, item) {
        return true;
    }
    strict && matches!(item.kind, WordKind::Ordinary | WordKind::Strange | WordKind::Alien | WordKind::Trade | WordKind::Deed | WordKind::Value) && !is_harmless(read, item)
}

/// A food, a form of it, a jar or a way to heat.
fn is_risky(read: &Read<'_>, item: &Item) -> bool {
    let classes = &read.language.words.classes;
    [classes.crop, classes.variety, classes.product, classes.dish, classes.food, classes.form, classes.method, classes.prep, classes.supply, classes.acid, classes.canner, classes.prep_without]
        .into_iter()
        .any(|class| item.is(class))
        && !(item.is(classes.filler) || item.is(classes.own) || item.is(classes.jar_word) && !item.is(classes.crop))
}

fn is_harmless(read: &Read<'_>, item: &Item) -> bool {
    let classes = &read.language.words.classes;
    [classes.harmless, classes.kin, classes.folk, classes.day_ago, classes.daypart, classes.batch, classes.canner_word, classes.jar_word, classes.store]
        .into_iter()
        .any(|class| item.is(class))
        || item.values.iter().all(super::value::Value::is_day) && !item.values.is_empty()
}

/// What stands beside the clause and belongs to no other: `…, chicken`, `… (with bacon)`, `… . It has beans in it`.
fn outside(read: &Read<'_>, reading: &score::Reading, edge: &Edge) -> Option<String> {
    let at = reading.path.edges.iter().position(|n| read.lattice.edges.get(*n as usize).is_some_and(|other| std::ptr::eq(other, edge)))?;
    let left_alone = |n: &&u32| read.lattice.edges.get(**n as usize).is_some_and(|other| other.frame.is_none());
    let behind = reading.path.edges.iter().skip(at + 1).take_while(left_alone);
    let before = reading.path.edges.iter().take(at).rev().take_while(left_alone);
    behind.chain(before).find_map(|n| {
        let stretch = read.stretch(read.lattice.edges.get(*n as usize)?);
        let items: Vec<(usize, &Item)> = stretch.filter_map(|n| Some((n, read.text.items.get(n)?))).collect();
        let risky = items.iter().filter(|(_, item)| is_risky(read, item));
        let classes = &read.language.words.classes;
        let says = items.iter().any(|(_, item)| matches!(item.kind, WordKind::Voice | WordKind::Deed) || item.is(classes.aux) || item.is(classes.subject));
        let content: Vec<&(usize, &Item)> = items.iter().filter(|(_, item)| item.is_content() && !is_harmless(read, item)).collect();
        let noun = !says && (1..=NOUNS).contains(&content.len()) && content.iter().all(|(_, item)| matches!(item.kind, WordKind::Ordinary | WordKind::Strange | WordKind::Alien | WordKind::Trade));
        let found: Vec<usize> = if noun { content.iter().map(|(n, _)| *n).collect() } else { risky.map(|(n, _)| *n).collect() };
        words(read, *found.first()?, found.last()? + 1)
    })
}
