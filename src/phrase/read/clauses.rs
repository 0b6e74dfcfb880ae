//! A sentence into clauses: at commas and joints, and before a further verb or amount of its own.

use crate::phrase::{
    scan::{Chunk, Item},
    token::{Mark, one_of},
    words::{Form, Unit, Verb, Word},
};

pub(super) fn ends_sentence(chunk: &Chunk) -> bool {
    matches!(chunk.item, Item::Mark(Mark::Dot | Mark::Bang | Mark::Quest | Mark::Semi | Mark::Line))
}

pub(super) fn splits(chunks: &[Chunk], at: usize) -> bool {
    let chunk = &chunks[at];
    match chunk.item {
        Item::Mark(Mark::Comma | Mark::Dash | Mark::Other | Mark::And) => true,
        // `w/ 7 lb`, `b/c`: one letter and its slash are a word.
        Item::Mark(Mark::Slash) => {
            at > 0
                && !matches!(
                    chunks[at - 1].item,
                    Item::Word(Word::Link | Word::Question | Word::Unit(_)) | Item::Unknown
                )
                && chunks.get(at + 1).is_some_and(|c| matches!(c.item, Item::Amount(_) | Item::Verb(..)))
        }
        // `dryer: 4 trays`, `new batch: thick sauce` name where it belongs; `freezer + 2 bags` adds to it.
        Item::Mark(Mark::Colon | Mark::Plus) => !is_headed(chunks.get(at.saturating_sub(5)..at).unwrap_or_default()),
        // `all but one` is one thing.
        Item::Word(Word::And) => {
            !(one_of!(chunk.key, "but")
                && at > 0
                && (one_of!(chunks[at - 1].key, "all" | "every")
                    || matches!(chunks[at - 1].item, Item::Verb(Verb::Seal, _))
                        && chunks[..at].iter().any(|c| one_of!(c.key, "all" | "every"))
                        && chunks.len() <= at + 3))
        }
        Item::Word(Word::Filler) => {
            one_of!(chunk.key, "because" | "bc" | "cos" | "cuz" | "coz" | "while" | "whilst" | "although" | "though")
        }
        Item::Word(Word::Link) => {
            one_of!(chunk.key, "so")
                && !chunks.get(at + 1).is_some_and(|next| one_of!(next.key, "far" | "many" | "much"))
        }
        _ => false,
    }
}

/// Clauses of a sentence: at commas, joints, and before a further verb with its own amount.
pub(super) fn clauses(chunks: &[Chunk]) -> Vec<(usize, usize)> {
    let mut out = Vec::new();
    let mut from = 0;
    let (mut verb, mut amount) = (false, false);
    for at in 0..chunks.len() {
        let heads = matches!(chunks[at].item, Item::Verb(v, Form::Past) if is_ledger(v));
        let placed = matches!(
            chunks[at].item,
            Item::Verb(
                Verb::Put | Verb::Bag | Verb::Dry | Verb::Throw | Verb::Send | Verb::Make | Verb::Grind | Verb::Bring,
                Form::Past
            )
        ) && matches!(chunks.get(at + 1).map(|c| c.item), Some(Item::Amount(_)));
        let heads = heads || placed;
        let further = heads
            && verb
            && amount
            && chunks.get(at + 1..).is_some_and(|rest| rest.iter().take(4).any(|c| matches!(c.item, Item::Amount(_))))
            || is_seal_count(chunks, at);
        let listed = !further && begins_listed(chunks, from, at);
        if splits(chunks, at) || further || listed {
            // `yesterday picked 12 lb today picked 8 lb`: the day belongs to what follows.
            let dated = further
                && at > from + 2
                && matches!(chunks[at - 1].item, Item::When(_))
                && matches!(chunks[from].item, Item::When(_));
            let begin = at - usize::from(dated);
            if begin > from {
                out.push((from, begin));
            }
            from = if further || listed { begin } else { at + 1 };
            if listed {
                amount = true;
                continue;
            }
            (verb, amount) = (further, false);
            continue;
        }
        verb |= heads;
        amount |= verb && matches!(chunks[at].item, Item::Amount(a) if !a.uncounted);
    }
    if chunks.len() > from {
        out.push((from, chunks.len()));
    }
    out
}

/// `14 lb tomatoes 8 lb peppers`: an amount behind the thing that the amount before it counts, with a thing of its own.
pub(super) fn begins_listed(chunks: &[Chunk], from: usize, at: usize) -> bool {
    let class = |chunk: &Chunk| match chunk.item {
        Item::Amount(a) if a.uncounted => None,
        Item::Amount(a) if a.mass.is_some() && !a.is(Unit::Bag) => Some(0),
        Item::Amount(a) if a.jar.is_some() => Some(1),
        Item::Amount(a) if a.is(Unit::Tray) => Some(2),
        _ => None,
    };
    let Some(this) = class(&chunks[at]) else { return false };
    let thing = |c: &Chunk| {
        matches!(c.item, Item::Crop(_) | Item::Variety(..) | Item::Product(_))
            || one_of!(c.key, "skins" | "halves" | "slices" | "rounds" | "rings" | "strips")
    };
    let day = |c: &Chunk| matches!(c.item, Item::When(_));
    let look = at.saturating_sub(8).max(from);
    let Some(before) = (look..at).rev().find(|n| class(&chunks[*n]).is_some()) else { return false };
    let between = chunks.get(before + 1..at).unwrap_or_default();
    let behind = chunks.get(at + 1..).unwrap_or_default();
    let behind = &behind[..behind.len().min(4)];
    let behind = &behind[..behind.iter().position(|c| class(c).is_some()).unwrap_or(behind.len())];
    let loose = |c: &Chunk| {
        c.word() == Some(Word::Not)
            || matches!(c.item, Item::Verb(Verb::Take | Verb::Make | Verb::Yield | Verb::Use, _))
            || one_of!(c.key, "for" | "or" | "per" | "than" | "to")
    };
    class(&chunks[before]) == Some(this)
        && !between.iter().any(loose)
        && (between.iter().any(thing) && behind.iter().any(thing) || between.iter().any(day) && behind.iter().any(day))
}

/// `8 sealed 1 failed`: the second number begins a clause.
pub(super) fn is_seal_count(chunks: &[Chunk], at: usize) -> bool {
    matches!(chunks[at].item, Item::Amount(_))
        && at > 0
        && matches!(chunks[at - 1].item, Item::Verb(Verb::Seal, Form::Past))
        && chunks.get(at + 1..).is_some_and(|rest| {
            rest.iter().take(3).any(|c| matches!(c.item, Item::Verb(Verb::Fail, _)) || c.word() == Some(Word::Not))
        })
}

/// Whether what stands before a colon is a heading: a few words that name what follows and no amount.
pub(super) fn is_headed(before: &[Chunk]) -> bool {
    let start = before
        .iter()
        .rposition(|c| matches!(c.item, Item::Mark(Mark::Comma) | Item::Word(Word::And)))
        .map_or(0, |at| at + 1);
    let before = before.get(start..).unwrap_or_default();
    let noun = |c: &Chunk| {
        matches!(c.item, Item::Verb(..) | Item::Supply(_) | Item::Place)
            || one_of!(c.key, "heat" | "unsealed" | "low" | "pressure" | "steam" | "duds" | "usual" | "yield")
    };
    before.iter().any(names_head)
        || before.iter().any(noun)
            && !before.iter().any(|c| {
                matches!(c.item, Item::Amount(a) if !a.uncounted)
                    || matches!(c.item, Item::Word(Word::Kin | Word::Folk))
            })
}

/// Words that head what stands behind a colon.
pub(super) fn names_head(chunk: &Chunk) -> bool {
    matches!(
        chunk.item,
        Item::Store(_) | Item::Place | Item::Batch(_) | Item::Verb(Verb::Pick | Verb::Count, Form::Base)
    ) || one_of!(
        chunk.key,
        "compost"
            | "check"
            | "dehydrator"
            | "dryer"
            | "drier"
            | "dehydratr"
            | "batch"
            | "canner"
            | "altitude"
            | "alt"
            | "elevation"
            | "units"
            | "usual"
            | "room"
            | "bags"
            | "bag"
            | "capacity"
            | "timer"
    )
}

pub(super) const fn is_ledger(verb: Verb) -> bool {
    matches!(
        verb,
        Verb::Pick
            | Verb::Freeze
            | Verb::Thaw
            | Verb::Eat
            | Verb::Give
            | Verb::Toss
            | Verb::Drain
            | Verb::Fill
            | Verb::Can
            | Verb::Open
            | Verb::Buy
            | Verb::Use
            | Verb::Plant
    )
}
