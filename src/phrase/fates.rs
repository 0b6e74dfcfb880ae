//! What became of jars that did not seal, in the few words that do while some wait: `froze one`, `tossed one jar`,
//! `eat 1, fridge 1, freeze 1`.
//!
//! ```text
//! fate = ( "froze" | "ate" | "tossed" | "fridge" | ... ) jars | jars "in the freezer"
//! jars = number [ "jars" ] | "the jar" | "it" | "them" | "both"
//! ```

use super::{
    build::Carry,
    facts::{Facts, has},
    scan::{Chunk, Item},
    token::{one_of, says},
    words::{Unit, Verb, Word},
};
use crate::{
    statement::{Froze, SomeJars, Statement, Taken},
    vocabulary::{Kind, Stock},
};

/// The fate that a clause tells of jars that wait for one; `sentence` is all that was said with it.
pub(super) fn fate(f: &Facts<'_>, carry: &Carry<'_, '_>, sentence: &[Chunk]) -> Option<Statement> {
    let waiting = carry.context.lexicon.unsealed;
    if waiting == 0 || !is_of_jars(f) {
        return None;
    }
    let counted = f.amounts.first().and_then(|a| a.count());
    let jars = counted.or_else(|| pointed(f, waiting)).filter(|jars| (1..=waiting).contains(jars))?;
    let listed = is_listed(f, sentence);
    let sure = f.has(has::JARS) || listed;
    let batch = || carry.called(f);
    let taken = |kind| Taken { jars: Some(jars), on: carry.when(kind, f), ..Taken::default() };
    let verb = f.verb.map(|(verb, _)| verb);
    let first = f.chunks.iter().find(|c| !matches!(c.item, Item::Word(Word::Filler | Word::First | Word::And)))?;
    let leads = matches!(first.item, Item::Verb(..));
    match (verb, f.dest) {
        (Some(Verb::Freeze), None) if leads => {}
        (None | Some(Verb::Put | Verb::Throw | Verb::Set | Verb::Go | Verb::Get), Some(Stock::Freezer)) => {}
        (Some(Verb::Eat), None) if leads && sure => return Some(Statement::Ate(taken(Kind::Ate))),
        (Some(Verb::Toss), None) if leads && (sure || counted.is_some()) => {
            return Some(Statement::Tossed(taken(Kind::Tossed)));
        }
        (Some(Verb::Throw), None) if leads && sure && f.has(has::OUT | has::AWAY) => {
            return Some(Statement::Tossed(taken(Kind::Tossed)));
        }
        (None, _) if first.item == Item::Store(Stock::Fridge) && counted.is_some() && f.chunks.len() <= 2 => {
            let on = carry.when(Kind::Refrigerated, f);
            return Some(Statement::Refrigerated(SomeJars { jars: Some(jars), batch: batch(), on }));
        }
        (Some(Verb::Reprocess), None) if leads && listed => {
            let on = carry.when(Kind::Reprocessed, f);
            return Some(Statement::Reprocessed(SomeJars { jars: Some(jars), batch: batch(), on }));
        }
        _ => return None,
    }
    let on = carry.when(Kind::Froze, f);
    Some(Statement::Froze(Froze { jars: Some(jars), batch: batch(), on, ..Froze::default() }))
}

/// Nothing but jars of no size and no food: those that a shelf or a basket could hold are others.
fn is_of_jars(f: &Facts<'_>) -> bool {
    let of_jars = f.amounts.len() <= 1
        && f.amounts.iter().all(|a| a.unit.is_none() && !a.further || a.is(Unit::Jar) && a.jar.is_none());
    of_jars
        && f.clean()
        && f.crop.is_none()
        && f.variety.is_none()
        && f.product.is_none()
        && f.prep.is_none()
        && f.what.is_none()
        && f.place.is_none()
        && f.source.is_none()
        && f.supply.is_none()
        && !(f.unreal || f.negated || f.other_subject || f.asked_for)
        && !f.has(has::YOU | has::THEY | has::FOLK | has::MODAL | has::NOT)
        && f.when.is_none_or(|when| !when.future)
}

/// `it`, `the jar`, `both`, `them`.
fn pointed(f: &Facts<'_>, waiting: u32) -> Option<u32> {
    if f.has(has::BOTH) {
        return Some(2);
    }
    if says!(f, "it" | "jar" | "that" | "this") {
        return Some(1);
    }
    says!(f, "them" | "em" | "those" | "jars").then_some(waiting)
}

/// Whether other ends of jars are told beside this one: `ate 1, froze 1`.
fn is_listed(f: &Facts<'_>, sentence: &[Chunk]) -> bool {
    let ends = |c: &&Chunk| {
        matches!(c.item, Item::Store(Stock::Fridge | Stock::Freezer) | Item::Verb(Verb::Freeze | Verb::Reprocess, _))
            || one_of!(c.key, "fridged" | "refrigerated")
    };
    let own = f.chunks.iter().filter(ends).count();
    sentence.iter().take(60).filter(ends).count() > own
}
