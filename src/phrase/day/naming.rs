//! A batch gets a short name.

use crate::phrase::{
    build::Carry,
    facts::{Facts, has},
    product::said,
    scan::{Chunk, Item},
    token::{Mark, one_of},
    words::{Verb, Word},
};
use crate::statement::{Named, Statement};

/// Longest name, in words.
const WORDS: usize = 4;

/// `call this batch big red`, `rename the batch to marinara`, `name batch 2 salsa`, `the sauce is now called red`.
pub(in crate::phrase) fn named(f: &Facts<'_>, carry: &Carry<'_, '_>) -> Option<Statement> {
    let heads = |c: &Chunk| {
        one_of!(
            c.key,
            "call"
                | "calling"
                | "name"
                | "naming"
                | "rename"
                | "renaming"
                | "renamed"
                | "called"
                | "named"
                | "dub"
                | "calld"
        )
    };
    let head = f.chunks.iter().position(heads)?;
    if f.has(has::NOT | has::THEY) || f.alien_subject {
        return None;
    }
    let before = f.chunks.get(..head)?;
    let after = f.chunks.get(head + 1..)?;
    let renames = one_of!(f.chunks[head].key, "rename" | "renaming" | "renamed");
    let passive = one_of!(f.chunks[head].key, "called" | "named" | "renamed") && before.iter().any(is_batch);
    if passive {
        let is = before.iter().any(|c| matches!(c.item, Item::Word(Word::Is | Word::Aux | Word::Modal)));
        let plain = before.iter().all(|c| is_batch(c) || is_small(c) || c.word() == Some(Word::Modal));
        return (is && plain).then(|| given(f, before, after, carry)).flatten();
    }
    if !before.iter().all(|c| {
        is_small(c)
            || one_of!(c.key, "let's")
            || matches!(c.item, Item::Word(Word::You | Word::Modal) | Item::Verb(Verb::Change, _))
    }) {
        return None;
    }
    // What is named: up to the batch and what belongs to it.
    let last = after.iter().take(5).rposition(is_batch);
    let this_one = after.first().is_some_and(|c| one_of!(c.key, "this" | "that"))
        && after.get(1).is_some_and(|c| one_of!(c.key, "one"));
    let it = after.first().is_some_and(|c| one_of!(c.key, "it" | "this" | "that")) && renames || this_one;
    let end = match last {
        Some(at) if after[..at].iter().all(|c| is_small(c) || is_batch(c)) => at + 1,
        None if it => 1 + usize::from(after.get(1).is_some_and(|c| one_of!(c.key, "one"))),
        _ => return None,
    };
    // `name batch 2 salsa`: the second product is the name.
    let end = match after.get(..end)?.iter().position(is_batch) {
        Some(first)
            if last.is_some()
                && !has_joint(after.get(first + 1..end)?)
                && first + 1 < end
                && !one_of!(after[end - 1].key, "batch") =>
        {
            first + 1
        }
        _ => end,
    };
    given(f, after.get(..end)?, after.get(end..)?, carry)
}

fn has_joint(chunks: &[Chunk]) -> bool {
    chunks.iter().any(|c| one_of!(c.key, "batch"))
}

fn is_batch(c: &Chunk) -> bool {
    matches!(c.item, Item::Batch(_) | Item::Product(_)) || one_of!(c.key, "batch")
}

fn is_small(c: &Chunk) -> bool {
    matches!(
        c.item,
        Item::Word(Word::Filler | Word::Is | Word::Aux | Word::First | Word::And)
            | Item::Mark(Mark::Comma | Mark::Hyphen)
    ) || matches!(c.item, Item::Word(Word::Link))
        && one_of!(c.key, "the" | "this" | "that" | "our" | "my" | "it" | "new" | "last" | "to" | "a" | "of")
}

/// The statement of what is named and the name behind it.
fn given(f: &Facts<'_>, object: &[Chunk], rest: &[Chunk], carry: &Carry<'_, '_>) -> Option<Statement> {
    let skip = rest
        .iter()
        .take_while(|c| {
            matches!(
                c.item,
                Item::Mark(Mark::Colon | Mark::Dash | Mark::Equals | Mark::Arrow) | Item::Word(Word::Filler)
            ) || one_of!(c.key, "to" | "as" | "into" | "the")
        })
        .count();
    let name = rest.get(skip..)?;
    let end = name
        .iter()
        .position(|c| {
            matches!(c.item, Item::Mark(mark) if mark != Mark::Hyphen)
                || matches!(c.item, Item::Word(Word::Filler | Word::And))
                || one_of!(c.key, "from" | "for" | "from_")
        })
        .unwrap_or(name.len());
    let name = name.get(..end)?;
    let (first, last) = (name.first()?, name.last()?);
    let odd = |c: &Chunk| {
        matches!(c.item, Item::Amount(a) if a.unit.is_some())
            || matches!(
                c.item,
                Item::Word(Word::Not | Word::Modal | Word::If | Word::Question | Word::Aux | Word::First | Word::You)
            )
    };
    let talk = one_of!(
        first.key,
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
    );
    if name.len() > WORDS || talk || name.iter().any(odd) {
        return None;
    }
    let name = said(f.text, f.tokens, first.from as usize, last.to as usize).filter(|name| name.len() <= 40)?;
    let subject = object.iter().find_map(|c| match c.item {
        Item::Batch(called) => called.name(carry.context.lexicon),
        _ => None,
    });
    let product = || {
        let named = object.iter().find_map(|c| match c.item {
            Item::Product(named) => Some(named),
            _ => None,
        })?;
        crate::phrase::product::resolve(named, f.text, f.tokens, carry.context.lexicon)
            .map(|product| product.as_str().to_owned())
    };
    Some(Statement::Named(Named { name, batch: subject.or_else(product) }))
}
