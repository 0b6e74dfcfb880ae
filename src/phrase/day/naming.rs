//! A batch gets a short name.

use super::words::{is_naming, names};
use crate::phrase::{
    build::Carry,
    facts::{Facts, has},
    product::{resolve, said},
    scan::{Chunk, Item},
    token::{Mark, one_of},
    words::{Verb, Word},
};
use crate::statement::{Named, Statement};

/// Longest name, in chunks.
const WORDS: usize = 4;

/// `call this batch big red`, `rename the batch to marinara`, `name batch 2 salsa`, `the sauce is now called red`.
pub(in crate::phrase) fn named(f: &Facts<'_>, carry: &Carry<'_, '_>) -> Option<Statement> {
    if !names(f) {
        return None;
    }
    let head = f.chunks.iter().position(|c| is_naming(c.key))?;
    if f.has(has::NOT | has::THEY) || f.alien_subject {
        return None;
    }
    let (before, after) = (f.chunks.get(..head)?, f.chunks.get(head + 1..)?);
    let key = f.chunks[head].key;
    if one_of!(key, "called" | "named" | "renamed") && before.iter().any(is_batch) {
        let is = before.iter().any(|c| matches!(c.item, Item::Word(Word::Is | Word::Aux | Word::Modal)));
        let plain = before.iter().all(|c| is_batch(c) || is_small(c) || c.word() == Some(Word::Modal));
        return (is && plain).then(|| given(f, before, after, carry)).flatten();
    }
    let leads =
        |c: &Chunk| is_small(c) || matches!(c.item, Item::Word(Word::You | Word::Modal) | Item::Verb(Verb::Change, _));
    if !before.iter().all(leads) {
        return None;
    }
    let end = object_end(after, one_of!(key, "rename" | "renaming" | "renamed"), carry)?;
    given(f, after.get(..end)?, after.get(end..)?, carry)
}

/// How far what is named reaches: up to `to` behind `rename`, else up to the batch, or over `it` and `this one`.
fn object_end(after: &[Chunk], renames: bool, carry: &Carry<'_, '_>) -> Option<usize> {
    let key = |n: usize| after.get(n).map_or(0, |c| c.key);
    let to = after.iter().take(6).position(|c| one_of!(c.key, "to" | "as")).filter(|at| *at > 0);
    if let Some(to) = to.filter(|_| renames) {
        return Some(to);
    }
    if one_of!(key(0), "this" | "that") && one_of!(key(1), "one") {
        return Some(2);
    }
    let first = after.iter().take(5).position(is_batch);
    if let Some(first) = first.filter(|at| after[..*at].iter().all(is_small)) {
        // `the salsa batch` is one thing; in `batch 2 salsa` the product is the name.
        let joined = one_of!(key(first + 1), "batch");
        return Some(first + 1 + usize::from(joined));
    }
    // Away from the stove `call it a success` names no batch.
    let open = !carry.context.lexicon.batches.is_empty();
    (one_of!(key(0), "it" | "this" | "that") && (renames || open)).then_some(1)
}

fn is_batch(c: &Chunk) -> bool {
    matches!(c.item, Item::Batch(_) | Item::Product(_)) || one_of!(c.key, "batch")
}

fn is_small(c: &Chunk) -> bool {
    match c.item {
        Item::Word(Word::Filler | Word::Is | Word::Aux | Word::First | Word::And) => true,
        Item::Mark(Mark::Comma | Mark::Hyphen) => true,
        Item::Word(Word::Link) => {
            one_of!(c.key, "the" | "this" | "that" | "our" | "my" | "it" | "new" | "last" | "to" | "a" | "of")
        }
        _ => one_of!(c.key, "let's"),
    }
}

/// What ends a name: punctuation, politeness, a joint.
fn ends_name(c: &Chunk) -> bool {
    matches!(c.item, Item::Mark(mark) if mark != Mark::Hyphen)
        || c.word() == Some(Word::And)
        || one_of!(
            c.key,
            "from"
                | "for"
                | "please"
                | "pls"
                | "plz"
                | "now"
                | "thanks"
                | "thx"
                | "ta"
                | "ok"
                | "okay"
                | "then"
                | "instead"
                | "btw"
                | "today"
                | "lol"
        )
}

/// Words that begin something else than a name: `call the salsa off`, `name the sauce in the jar`.
fn is_no_name(c: &Chunk) -> bool {
    one_of!(
        c.key,
        "off"
            | "a"
            | "an"
            | "back"
            | "me"
            | "him"
            | "her"
            | "them"
            | "done"
            | "finished"
            | "quits"
            | "even"
            | "closed"
            | "early"
            | "late"
            | "good"
            | "in"
            | "about"
            | "on"
            | "of"
            | "at"
            | "because"
            | "so"
            | "it"
            | "that"
            | "with"
    )
}

/// The statement of what is named and the name behind it.
fn given(f: &Facts<'_>, object: &[Chunk], rest: &[Chunk], carry: &Carry<'_, '_>) -> Option<Statement> {
    let leads = |c: &&Chunk| {
        matches!(c.item, Item::Mark(Mark::Colon | Mark::Dash | Mark::Equals | Mark::Arrow))
            || one_of!(c.key, "to" | "as" | "into" | "the" | "now" | "just" | "simply" | "then")
    };
    let skip = rest.iter().take_while(leads).count();
    let name = rest.get(skip..)?;
    let name = name.get(..name.iter().position(ends_name).unwrap_or(name.len()))?;
    let (first, last) = (name.first()?, name.last()?);
    let odd = |c: &Chunk| match c.item {
        Item::Amount(a) => a.unit.is_some() && !a.uncounted,
        Item::Word(word) => {
            matches!(word, Word::Not | Word::Modal | Word::If | Word::Question | Word::Aux | Word::First | Word::You)
        }
        _ => false,
    };
    let alone = name.len() == 1 && is_no_name(first);
    let leads_off = name.len() > 1 && is_no_name(first) && !one_of!(first.key, "late" | "early" | "good");
    if name.len() > WORDS || alone || leads_off || name.iter().any(odd) {
        return None;
    }
    let name = said(f.text, f.tokens, first.from as usize, last.to as usize).filter(|name| name.len() <= 40)?;
    // `rename the file to report`: no batch, as far as is known.
    let foreign = object.iter().any(|c| !is_small(c) && !is_batch(c) && !one_of!(c.key, "one"));
    let is_food =
        |c: &Chunk| f.words((c.from, c.to)).is_some_and(|word| carry.context.lexicon.open_batch(&word).is_some());
    if foreign && !object.iter().any(|c| is_batch(c) || is_food(c)) {
        return None;
    }
    Some(Statement::Named(Named { name, batch: batch_of(f, object, carry) }))
}

/// The batch that is named: by its name, number or product, or in the words said where none is known.
fn batch_of(f: &Facts<'_>, object: &[Chunk], carry: &Carry<'_, '_>) -> Option<String> {
    let lexicon = carry.context.lexicon;
    let known = object.iter().find_map(|c| match c.item {
        Item::Batch(called) => called.name(lexicon),
        Item::Product(named) => resolve(named, f.text, f.tokens, lexicon).map(|product| product.as_str().to_owned()),
        _ => None,
    });
    known.or_else(|| {
        let own: Vec<&Chunk> =
            object.iter().filter(|c| !is_small(c) && !is_batch(c) && !one_of!(c.key, "one")).collect();
        let (first, last) = (own.first()?, own.last()?);
        said(f.text, f.tokens, first.from as usize, last.to as usize)
    })
}
