//! Taking back and correcting.
//!
//! ```text
//! undo    = ( "undo" | "scratch" | "delete" ... ) [ "that" | "my last entry" ... ] | "take that back"
//! correct = ( "make that" | "i meant" | "should be" | "it was" | "no," | "oops" | "change that to" ) slots [ "not" slots ]
//! ```

use super::{
    build::{self, Carry},
    facts::{Facts, gather, has},
    product::said,
    scan::{Chunk, Item},
    settings::height,
    token::{Mark, one_of, says},
    words::{Unit, Verb, Word},
};
use crate::{
    quantity::Volume,
    statement::{Correct, Statement},
    vocabulary::Crop,
};

/// Whether a clause takes the last entry back.
pub(super) fn undo(f: &Facts<'_>) -> Option<Statement> {
    if !f.any_verb(&[Verb::Undo, Verb::Lift, Verb::Cancel, Verb::Take]) && !says!(f, "forget") || f.has(has::NOT) {
        return None;
    }
    let pointed = f.chunks.iter().any(|c| {
        one_of!(c.key, "that" | "it" | "last" | "entry" | "this" | "one" | "tht" | "previous" | "latest")
            || matches!(c.item, Item::Amount(a) if a.article)
    });
    let entry = says!(f, "last" | "entry" | "previous" | "latest");
    let verb = f.verb_is(Verb::Undo);
    let strict = f.any_verb(&[Verb::Lift, Verb::Cancel])
        && !f.has(has::JARS | has::CANNER)
        && pointed
        && !says!(f, "stop" | "end");
    let back = f.any_verb(&[Verb::Take]) && says!(f, "back") && pointed;
    let forget = says!(f, "forget") && entry;
    if !(verb || strict || back || forget) || f.has(has::NOT) {
        return None;
    }
    let named = says!(f, "undo");
    let plain = f.chunks.iter().all(|c| match c.item {
        Item::Word(Word::Filler | Word::Link | Word::First | Word::Modal | Word::You | Word::Aux) => true,
        Item::Word(Word::Gear) => one_of!(c.key, "entry" | "entries" | "log"),
        Item::Word(Word::PlaceSide) => one_of!(c.key, "back"),
        Item::Word(Word::Common) | Item::Unknown => {
            one_of!(c.key, "forget" | "last" | "message" | "thing" | "previous" | "latest" | "want" | "need")
        }
        Item::Word(Word::Some | Word::Is) => true,
        Item::Verb(Verb::Undo | Verb::Lift | Verb::Cancel | Verb::Take, _) => true,
        Item::Amount(a) => a.unit.is_none() || a.article,
        Item::Mark(_) | Item::When(_) => true,
        _ => false,
    });
    let yours = f.has(has::YOU) && says!(f, "your" | "ur" | "yours");
    let alone = f.chunks.iter().filter(|c| !matches!(c.item, Item::Word(Word::Filler) | Item::Mark(_))).count() <= 1
        && !says!(f, "ignore" | "scrap" | "strike");
    (plain && !yours && (pointed || named || alone)).then_some(Statement::Undo)
}

/// Whether a sentence begins with words that can only correct.
pub(super) fn is_strong(chunks: &[Chunk]) -> bool {
    marker(chunks).is_some_and(|(marker, _)| marker == Marker::Strong)
}

/// How a correction is begun.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Marker {
    /// `make that`, `change it to`, `i meant`, `correction`: can be nothing else.
    Strong,
    /// `it was`, `should be`, `they were`.
    Told,
    /// `no`, `oops`, `sorry`, `actually`: an amount has to follow.
    Weak,
}

/// A correction told by the rest of a sentence; `first` when nothing but politeness stands before it.
pub(super) fn correct(chunks: &[Chunk], first: bool, f: &Facts<'_>, carry: &Carry<'_, '_>) -> Option<Statement> {
    let (marker, start) = marker(chunks)?;
    if !first && marker != Marker::Strong {
        return None;
    }
    let rest = chunks.get(start..)?;
    let rest = ended(rest, marker);
    let rest = before_not(rest);
    // `no more zucchini` corrects nothing.
    if rest.first().is_some_and(|c| one_of!(c.key, "more")) && marker == Marker::Weak {
        return None;
    }
    if rest.is_empty() || !rest.iter().all(is_slot) {
        return None;
    }
    // Whatever else is said beside it makes it talk.
    let stranger = |c: &Chunk| {
        matches!(c.item, Item::Unknown | Item::Word(Word::Common | Word::Alien | Word::They | Word::Folk | Word::You))
    };
    if marker != Marker::Strong && chunks.iter().skip(start + rest.len()).any(stranger) {
        return None;
    }
    let slots = gather(f.text, f.tokens, rest);
    if !slots.clean() || slots.has(has::ALL | has::YOU | has::THEY) || slots.bad_object {
        return None;
    }
    let mut said = fields(&slots, carry)?;
    // `6.5 not 7 lb`: both are pounds.
    if let (Some(n), true) = (said.amount, chunks.iter().any(|c| one_of!(c.key, "not" | "instead"))) {
        let unit = chunks.iter().find_map(|c| match c.item {
            Item::Amount(a) if a.mass.is_some() && !a.is(Unit::Bag) => a.unit,
            _ => None,
        });
        if let Some(mass) = unit.and_then(super::measure::mass_unit).and_then(|unit| unit.times(n)) {
            (said.amount, said.mass) = (None, Some(mass));
        }
    }
    let owner = said.crop.is_some() && rest.iter().any(|c| c.word() == Some(Word::Is));
    let other = rest.iter().any(|c| one_of!(c.key, "other" | "others"));
    if owner || other {
        return None;
    }
    let only_supply = said == Correct { supply: said.supply, from: said.from, ..Correct::default() };
    if marker == Marker::Told
        && (only_supply || said.amount.is_some() && rest.iter().any(|c| one_of!(c.key, "one" | "ones")))
    {
        return None;
    }
    let only_when = said == Correct { on: said.on, ..Correct::default() };
    let made_it = chunks.windows(2).any(|w| one_of!(w[0].key, "make") && one_of!(w[1].key, "it"));
    if only_when
        && (made_it
            || marker == Marker::Weak
            || slots.when.is_none_or(|w| !w.has_day())
                && !(marker == Marker::Told && chunks.iter().any(|c| one_of!(c.key, "was" | "were"))))
    {
        return None;
    }
    let negated = chunks.iter().any(|c| one_of!(c.key, "not"));
    let bare = said.amount.is_some() && said == Correct { amount: said.amount, on: said.on, ..Correct::default() };
    let chatter = rest.len() < chunks.len().saturating_sub(start)
        && !negated
        && chunks
            .get(start + rest.len()..)
            .is_some_and(|tail| tail.iter().any(|c| !matches!(c.item, Item::Word(Word::Filler) | Item::Mark(_))));
    if bare && (said.on.is_some() || chatter)
        || slots.any_token(|k| one_of!(k, "oclock" | "o'clock" | "weeks" | "months"))
    {
        return None;
    }
    let measured = slots.amounts.iter().any(|a| a.unit.is_some() || negated)
        || slots.crop.is_some() && chunks.iter().any(|c| c.is_mark(Mark::Comma));
    if marker == Marker::Weak && (!measured || said.seconds.is_some()) && said.prep.is_none() {
        return None;
    }
    if slots.crop == Some(Crop::Mint) || said.seconds.is_some() && marker == Marker::Told && said.on.is_some() {
        return None;
    }
    Some(Statement::Correct(said))
}

fn marker(chunks: &[Chunk]) -> Option<(Marker, usize)> {
    let key = |n: usize| chunks.get(n).map_or(0, |c| c.key);
    let mut at = 0;
    let mut found: Option<Marker> = None;
    // `6.5 lb not 7 lb` by itself, `*8 lb`.
    let measured = |n: usize| matches!(chunks.get(n).map(|c| c.item), Some(Item::Amount(a)) if a.unit.is_some() && !a.uncounted && !a.article);
    if chunks.len() == 3 && measured(0) && chunks[1].word() == Some(Word::Not) && measured(2) {
        return Some((Marker::Strong, 0));
    }
    if chunks.first().is_some_and(|c| c.is_mark(Mark::Times)) && measured(1) {
        return Some((Marker::Weak, 1));
    }
    while let Some(chunk) = chunks.get(at) {
        let pronoun = |n: usize| {
            one_of!(
                key(n),
                "jar"
                    | "jars"
                    | "crop"
                    | "weight"
                    | "amount"
                    | "count"
                    | "size"
                    | "date"
                    | "that"
                    | "it"
                    | "those"
                    | "them"
                    | "they"
                    | "this"
                    | "these"
                    | "tht"
                    | "last"
            )
        };
        let (next, step) = match chunk.item {
            Item::Mark(Mark::Comma | Mark::Dash | Mark::Colon) => (found, 1),
            _ if one_of!(chunk.key, "make" | "makes") && (pronoun(at + 1) || one_of!(key(at + 1), "the")) => {
                (Some(Marker::Strong), 2)
            }
            // `make that two`: the article has been read with the number.
            _ if one_of!(chunk.key, "change" | "correct" | "fix" | "amend" | "edit") && pronoun(at + 1) => {
                (Some(Marker::Strong), 2 + usize::from(one_of!(key(at + 2), "to")))
            }
            _ if one_of!(chunk.key, "meant" | "mean") => (Some(Marker::Strong), 1),
            _ if one_of!(chunk.key, "correction") => (Some(Marker::Strong), 1),
            _ if pronoun(at) && one_of!(key(at + 1), "was" | "were" | "shouldve") => (Some(told(found)), 2),
            _ if one_of!(chunk.key, "should" | "shld" | "shoulda")
                && one_of!(key(at + 1), "be" | "have" | "read" | "say" | "been") =>
            {
                (
                    Some(told(found)),
                    2 + usize::from(one_of!(key(at + 2), "been" | "said" | "put" | "written" | "typed" | "read")),
                )
            }
            _ if one_of!(chunk.key, "i") && one_of!(key(at + 1), "should" | "shld" | "shoulda") => (found, 1),
            _ if one_of!(chunk.key, "my") && one_of!(key(at + 1), "bad" | "mistake" | "fault" | "error") => {
                (found.or(Some(Marker::Weak)), 2)
            }
            _ if one_of!(chunk.key, "ought") && one_of!(key(at + 1), "to") && one_of!(key(at + 2), "be") => {
                (Some(told(found)), 3)
            }
            _ if pronoun(at) && one_of!(key(at + 1), "should" | "shld" | "ought") => (found, 1),
            _ if one_of!(chunk.key, "no" | "nope" | "nah") && at <= 2 => (found.or(Some(Marker::Weak)), 1),
            _ if one_of!(
                chunk.key,
                "oops"
                    | "whoops"
                    | "woops"
                    | "sorry"
                    | "soz"
                    | "actually"
                    | "wait"
                    | "pardon"
                    | "apologies"
                    | "mistake"
                    | "typo"
                    | "wrong"
                    | "argh"
                    | "ugh"
                    | "oh"
                    | "excuse"
            ) =>
            {
                (found.or(Some(Marker::Weak)), 1)
            }
            Item::Word(Word::Filler) => (found, 1),
            _ if one_of!(chunk.key, "i" | "me" | "my" | "we")
                && (one_of!(key(at + 1), "meant" | "mean")
                    || found.is_some() && at > 0 && one_of!(key(at), "me" | "my")) =>
            {
                (found, 1)
            }
            _ if one_of!(chunk.key, "to" | "from_") && found == Some(Marker::Strong) => (found, 1),
            _ => break,
        };
        found = next;
        at += step;
    }
    found.map(|marker| (marker, at))
}

/// `it was` after a weak marker stays what it is: told.
const fn told(found: Option<Marker>) -> Marker {
    match found {
        Some(Marker::Strong) => Marker::Strong,
        _ => Marker::Told,
    }
}

/// Up to where chatter begins: `that was yesterday, sorry`.
fn ended(rest: &[Chunk], marker: Marker) -> &[Chunk] {
    let end = rest.iter().enumerate().position(|(n, c)| {
        c.is_mark(Mark::Comma)
            && rest.get(n + 1..).is_some_and(|tail| {
                tail.iter().all(|c| {
                    matches!(
                        c.item,
                        Item::Word(Word::Filler | Word::First | Word::Link | Word::Aux | Word::Is)
                            | Item::Mark(_)
                            | Item::Verb(..)
                    ) || marker == Marker::Strong && matches!(c.item, Item::Unknown | Item::Word(_) | Item::Verb(..))
                })
            })
    });
    rest.get(..end.unwrap_or(rest.len())).unwrap_or(rest)
}

/// What is right, of `9 lb not 6`, `not 6 but 9`.
fn before_not(rest: &[Chunk]) -> &[Chunk] {
    let Some(not) = rest.iter().position(|c| c.word() == Some(Word::Not)) else { return rest };
    if not == 0 {
        let but = rest.iter().position(|c| one_of!(c.key, "but") || c.is_mark(Mark::Comma)).map_or(0, |at| at + 1);
        return rest.get(but..).filter(|r| but > 0 && !r.is_empty()).unwrap_or_default();
    }
    let end = rest
        .get(not.wrapping_sub(1))
        .filter(|c| c.is_mark(Mark::Comma) || c.word() == Some(Word::And))
        .map_or(not, |_| not - 1);
    rest.get(..end).unwrap_or_default()
}

fn is_slot(chunk: &Chunk) -> bool {
    match chunk.item {
        Item::Word(Word::Link) => !one_of!(
            chunk.key,
            "left" | "here" | "there" | "round" | "over" | "about" | "for" | "next" | "before" | "after"
        ),
        Item::Word(Word::Filler | Word::Quality | Word::Is | Word::And | Word::PlaceSide) => true,
        Item::Word(Word::Gear) => one_of!(chunk.key, "canner" | "skins" | "plants"),
        Item::Amount(_)
        | Item::When(_)
        | Item::Product(_)
        | Item::Crop(_)
        | Item::Variety(..)
        | Item::Prep(_)
        | Item::Ripe(_)
        | Item::Place
        | Item::Store(_)
        | Item::Supply(_)
        | Item::Canner(_) => true,
        Item::Mark(mark) => matches!(mark, Mark::Comma | Mark::Hyphen | Mark::Dot | Mark::Bang | Mark::And),
        _ => false,
    }
}

fn fields(f: &Facts<'_>, carry: &Carry<'_, '_>) -> Option<Correct> {
    let mut said = Correct {
        prep: f.prep,
        ripeness: f.ripe,
        canner: f.canner,
        from: f.source.or(f.stock).or(f.dest),
        supply: f.supply,
        on: f.when.and_then(|w| w.when(carry.context)),
        ..Correct::default()
    };
    said.crop = f.crop.filter(|_| f.product.is_none());
    said.variety = f.variety.filter(|_| f.product.is_none()).map(str::to_owned);
    said.place = f.place.and_then(|(from, to)| said_place(f, from, to));
    said.product = f.product.and_then(|_| build::product(f, carry));
    if f.prep == Some(crate::vocabulary::Prep::Crushed) && f.crop == Some(Crop::Tomato) && f.jar().is_some() {
        said.product = build::product(f, carry);
    }
    for amount in &f.amounts {
        match amount.unit {
            _ if amount.uncounted => said.jar = amount.jar,
            Some(Unit::Jar) => {
                said.jars = amount.count();
                said.jar = amount.jar;
            }
            Some(Unit::Bag) => {
                said.bags = amount.count();
                said.each = amount.each;
                said.mass = amount.mass.or(said.mass);
            }
            None if f.supply.is_some() => said.count = amount.count(),
            None => said.amount = Some(amount.number),
            _ if amount.mass.is_some() => said.mass = amount.mass,
            _ if height(amount).is_some() => said.length = height(amount),
            _ if amount.seconds.is_some() => said.seconds = amount.seconds,
            _ => said.volume = Some(amount.volume().unwrap_or(Volume::ZERO)).filter(|v| !v.is_zero()),
        }
    }
    if f.each && said.bags.is_none() {
        (said.each, said.mass) = (said.mass, None);
    }
    (said != Correct::default()).then_some(said)
}

fn said_place(f: &Facts<'_>, from: u32, to: u32) -> Option<String> {
    said(f.text, f.tokens, from as usize, to as usize)
}
