//! Orders, plans and requests: what is not done yet, by the form of its verb.

use super::voice::{is_light, key};
use crate::phrase::{
    scan::{Chunk, Item},
    token::one_of,
    words::{Form, Verb, Word},
};

/// A bare verb first: `turn the heat off`, `fill the jars`, `make sure`, `don't forget`.
pub(super) fn is_order(chunks: &[Chunk]) -> bool {
    let Some(first) = chunks.first() else { return false };
    let called = matches!(first.item, Item::Word(Word::Kin | Word::Folk | Word::They)) || first.item == Item::Unknown;
    begins_order(first)
        || called
            && !one_of!(first.key, "they" | "he" | "she")
            && chunks.get(1).is_some_and(|c| begins_order(c) && !one_of!(c.key, "put" | "set" | "cut"))
}

pub(super) fn begins_order(chunk: &Chunk) -> bool {
    match chunk.item {
        Item::Verb(
            Verb::Do
            | Verb::Show
            | Verb::Remind
            | Verb::Undo
            | Verb::Cancel
            | Verb::Change
            | Verb::Go
            | Verb::Come
            | Verb::Boil
            | Verb::Seal
            | Verb::Vent
            | Verb::Fall,
            _,
        ) => false,
        Item::Verb(_, Form::Base) => !one_of!(
            chunk.key,
            "harvest"
                | "haul"
                | "count"
                | "inventory"
                | "tally"
                | "inv"
                | "recount"
                | "headcount"
                | "stocktake"
                | "pick"
                | "picks"
        ),
        _ => one_of!(
            chunk.key,
            "turn"
                | "switch"
                | "kill"
                | "let"
                | "wait"
                | "keep"
                | "check"
                | "leave"
                | "simmer"
                | "stir"
                | "wipe"
                | "cook"
                | "wash"
                | "peel"
                | "chop"
                | "slice"
                | "blanch"
                | "allow"
                | "ensure"
                | "bring"
                | "follow"
                | "cover"
        ),
    }
}

/// Ahead, wished for, missed: `going to freeze`, `about to fill`, `forgot to`, `nearly dropped`.
pub(super) fn is_plan(chunks: &[Chunk]) -> bool {
    let mut done = false;
    for (at, chunk) in chunks.iter().enumerate() {
        let next = chunks.get(at + 1);
        match chunk.item {
            Item::Verb(verb, form) if !one_of!(chunk.key, "done") => {
                done |= form == Form::Past && !matches!(verb, Verb::Do | Verb::Go | Verb::Use) && !is_light(chunk)
            }
            Item::Word(Word::If) if next.is_some_and(|c| c.word() == Some(Word::You)) => return true,
            Item::Word(Word::Not)
                if one_of!(chunk.key, "never")
                    && (!jars_seal(chunks) || chunks.iter().any(|c| c.word() == Some(Word::First))) =>
            {
                return true;
            }
            Item::Word(Word::Filler)
                if one_of!(chunk.key, "almost" | "nearly")
                    && next.is_some_and(|c| matches!(c.item, Item::Verb(..)))
                    && !done =>
            {
                return true;
            }
            Item::Word(Word::Link) if one_of!(chunk.key, "to") => {
                let Some(Item::Verb(verb, form)) = next.map(|c| c.item) else { continue };
                if !is_bare(form, key(chunks, at + 1)) {
                    continue;
                }
                let before = key(chunks, at.wrapping_sub(1));
                if is_intent(before) {
                    return true;
                }
                let purpose = done || matches!(verb, Verb::Thaw | Verb::Dry | Verb::Drain | Verb::Show);
                if !purpose && !one_of!(before, "had" | "managed" | "out" | "hadda" | "got") && is_deed(verb) {
                    return true;
                }
            }
            _ => {}
        }
    }
    false
}

/// `one jar never sealed` tells of the jars.
pub(super) fn jars_seal(chunks: &[Chunk]) -> bool {
    chunks.iter().any(|c| matches!(c.item, Item::Verb(Verb::Seal, _)))
}

pub(super) fn is_bare(form: Form, key: u64) -> bool {
    form == Form::Base || one_of!(key, "put" | "set" | "cut" | "turn" | "switch" | "quit" | "hit")
}

/// Words that put what follows ahead.
pub(super) fn is_intent(key: u64) -> bool {
    one_of!(
        key,
        "going"
            | "goin"
            | "want"
            | "wants"
            | "wanted"
            | "wanting"
            | "need"
            | "needs"
            | "needed"
            | "have"
            | "has"
            | "plan"
            | "plans"
            | "planning"
            | "planned"
            | "hope"
            | "hoping"
            | "hoped"
            | "try"
            | "trying"
            | "tried"
            | "about"
            | "meant"
            | "mean"
            | "forgot"
            | "forget"
            | "supposed"
            | "time"
            | "ready"
            | "remember"
            | "ought"
            | "used"
            | "love"
            | "like"
            | "decided"
            | "due"
            | "intend"
            | "refuse"
            | "refused"
            | "afraid"
            | "scared"
            | "excited"
            | "tempted"
            | "got"
            | "how"
            | "what"
            | "when"
            | "where"
            | "best"
            | "yet"
            | "promised"
            | "wish"
            | "able"
            | "get"
            | "hate"
            | "easier"
            | "better"
            | "quicker"
            | "happy"
            | "prefer"
            | "starting"
            | "aiming"
            | "looking"
    )
}

/// Verbs that the ledger keeps.
pub(super) const fn is_deed(verb: Verb) -> bool {
    matches!(
        verb,
        Verb::Pick
            | Verb::Freeze
            | Verb::Bag
            | Verb::Eat
            | Verb::Give
            | Verb::Toss
            | Verb::Throw
            | Verb::Fill
            | Verb::Begin
            | Verb::Can
            | Verb::Open
            | Verb::Buy
            | Verb::Use
            | Verb::Make
            | Verb::Pour
            | Verb::Add
            | Verb::Turn
            | Verb::Seal
            | Verb::Reprocess
            | Verb::Lift
            | Verb::Take
            | Verb::Pull
            | Verb::Put
            | Verb::Boil
            | Verb::Bring
            | Verb::Run
            | Verb::Plant
    )
}

/// A question word first, or a helping verb before somebody else: `who ate`, `did you pick`, `can anyone lift`.
pub(super) fn is_asked(chunks: &[Chunk]) -> bool {
    let Some(first) = chunks.first() else { return false };
    match first.item {
        Item::Word(Word::Question) => {
            !(one_of!(first.key, "what")
                && (one_of!(key(chunks, 1), "a" | "an")
                    || matches!(chunks.get(1).map(|c| c.item), Some(Item::Amount(a)) if a.article)))
        }
        _ if one_of!(first.key, "does")
            || one_of!(first.key, "is" | "are" | "was" | "were")
                && one_of!(key(chunks, 1), "it" | "the" | "they" | "that" | "this") =>
        {
            true
        }
        Item::Word(Word::Aux | Word::Modal | Word::Not) | Item::Verb(Verb::Do, _) => {
            let polite = chunks.iter().any(|c| one_of!(c.key, "note" | "record" | "log" | "add" | "put" | "that"));
            let them = chunks
                .get(1)
                .is_some_and(|c| matches!(c.item, Item::Word(Word::You | Word::They | Word::Folk | Word::Kin)));
            them && !(polite && chunks.iter().any(|c| c.word() == Some(Word::First)))
        }
        _ => false,
    }
}
