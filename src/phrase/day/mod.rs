//! The canning day beside its stages: a batch set aside and taken up again, its name, jars that broke or lost liquid, the pot
//! weighed after cooking down, and what came out of the dryer.
//!
//! ```text
//! stopped     = ( "stop" | "pause" | "set" … "aside" | "done with" … "for tonight" | "calling it a night on" ) batch
//! resumed     = ( "back to" | "resume" | "carry on with" | "picking" … "back up" ) batch
//! named       = ( "call" | "name" | "rename" ) batch [ "to" ] name | batch "is now called" name
//! broke       = jars ( "broke" | "cracked" | … ) | "lost" jars | "bottom fell out" [ "of" jars ]
//! siphoned    = jars ( "siphoned" | "lost" … "liquid" ) | "siphoning on" jars
//! cooked_down = ( "cooked" | "reduced" | … ) [ "down" ] "to" amount | ( batch | "it" ) "is down to" amount | "pot weighs" amount
//! dry         = what "is" ( "dry" | "brittle" | … ) [ amount ] | "dry weight" amount | what "out of the dryer" [ amount ]
//! batch       = "batch" number | a name of an open batch | product | "the batch"
//! ```
//!
//! These are told in few words. A clause counts only if every word of it belongs here (`only`): one foreign word makes it talk.

mod cooking;
mod halting;
mod mishaps;
mod naming;
mod words;

use super::{
    Lexicon,
    build::Carry,
    facts::{Facts, has},
    number::number,
    product::{matching, product},
    scan::{Chunk, Item},
    token::{Mark, Sense, Token, Tokens, one_of},
    words::Word,
};
use crate::{statement::Statement, vocabulary::Kind};
pub(super) use cooking::{is_kept, is_kept_tail, is_surely_dry, took_out};
pub(super) use naming::named;

/// A batch by its number (`batch 2`), or by the place of its name among those of the open ones.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Called {
    Number(u32),
    Name(u32),
}

impl Called {
    /// The word that the ledger knows it by.
    pub(super) fn name(self, lexicon: &Lexicon) -> Option<String> {
        match self {
            Self::Number(n) => Some(n.to_string()),
            Self::Name(at) => lexicon.batch_names().nth(at as usize).cloned(),
        }
    }
}

/// A batch at the start: how many tokens, and which.
pub(super) fn called(input: Tokens<'_>, text: &str, lexicon: &Lexicon) -> Option<(usize, Called)> {
    if one_of!(input.key(0), "batch") {
        return numbered(input);
    }
    let first = input.first().filter(|_| lexicon.batch_names().next().is_some())?;
    let rest = text.get(first.from as usize..)?;
    let found = lexicon.batch_names().enumerate().filter_map(|(at, name)| {
        let end = first.from as usize + matching(rest, name)?;
        let used = input.0.iter().take_while(|token| (token.to as usize) <= end).count();
        let whole = used > 0 && input.nth(used - 1)?.to as usize == end;
        (whole && is_own(input, used)).then_some((used, Called::Name(u32::try_from(at).ok()?)))
    });
    // The longest; of the same name the latest open one.
    let open = |called: &Called| matches!(called, Called::Name(at) if (*at as usize) < lexicon.batches.len());
    found.max_by_key(|(used, called)| (*used, open(called)))
}

/// `batch 2`, `batch #2`, `batch no 2`: no number of jars or pounds.
fn numbered(input: Tokens<'_>) -> Option<(usize, Called)> {
    let sign = usize::from(
        one_of!(input.key(1), "no" | "number" | "nr" | "num") || input.nth(1).is_some_and(|t| t.is_mark(Mark::Hash)),
    );
    let (rest, n) = number(input.skip(1 + sign)).ok()?;
    let used = input.0.len() - rest.0.len();
    let counts = rest.first().is_some_and(|t| matches!(t.word(), Some(Word::Unit(_))) || t.is_mark(Mark::Hash));
    n.as_count().filter(|n| (1..1000).contains(n) && !counts).map(|n| (used, Called::Number(n)))
}

/// A name that is no product's and no plain word of the trade, which a clause may use in its own sense; nor the count of what follows.
fn is_own(input: Tokens<'_>, used: usize) -> bool {
    let counts = input.nth(used.saturating_sub(1)).is_some_and(|t| matches!(t.sense, Sense::Num(_)))
        && input.nth(used).is_some_and(|t| matches!(t.word(), Some(Word::Unit(_))));
    let known = product(input).is_some_and(|(n, _)| n == used);
    let own = used > 1
        || input.first().is_some_and(|t| {
            matches!(t.sense, Sense::Unknown | Sense::Word(Word::Common | Word::Kin | Word::Folk | Word::Alien))
        });
    own && !known && !counts
}

/// The name of an open batch that is a plain word too (`red`): at the head of a clause, beside `batch`, or behind `on the`.
pub(super) fn plain_name(f: &Facts<'_>, lexicon: &Lexicon) -> Option<String> {
    let single = |name: &&String| !name.contains(' ');
    let names = lexicon.batch_names().filter(single);
    let starts = f
        .chunks
        .iter()
        .position(|c| !matches!(c.item, Item::Word(Word::Filler | Word::And | Word::Link) | Item::Mark(_)))?;
    let at = |n: usize, name: &str| {
        let token: Option<&Token> = f.chunks.get(n).and_then(|c| f.tokens.get(c.from as usize));
        token
            .and_then(|t| f.text.get(t.from as usize..t.to as usize))
            .is_some_and(|word| word.eq_ignore_ascii_case(name))
            && !matches!(f.chunks.get(n).map(|c| c.item), Some(Item::Product(_)))
    };
    let beside = |n: usize| {
        let before = |back: usize| n.checked_sub(back).and_then(|at| f.chunks.get(at)).map_or(0, |c| c.key);
        n == starts
            || f.chunks.get(n + 1).is_some_and(|c| one_of!(c.key, "batch"))
            || one_of!(before(1), "on" | "for" | "to" | "with" | "batch")
            || one_of!(before(1), "the") && one_of!(before(2), "on" | "for" | "to" | "with")
    };
    names.into_iter().find(|name| (0..f.chunks.len()).any(|n| beside(n) && at(n, name))).cloned()
}

/// What a clause tells of the day beside its stages.
pub(super) fn day(f: &Facts<'_>, carry: &Carry<'_, '_>) -> Option<Statement> {
    if f.alien > 0 || f.negated || f.has(has::YOU | has::FOLK | has::KIN | has::THEY | has::NOT) {
        return None;
    }
    halting::stopped(f, carry)
        .or_else(|| halting::resumed(f, carry))
        .or_else(|| mishaps::siphoned(f, carry))
        .or_else(|| mishaps::broke(f, carry))
        .or_else(|| cooking::cooked_down(f, carry))
        .or_else(|| cooking::dry(f))
}

/// Whether a clause only goes on about what the one before told: `bottom fell out`, `finishing tomorrow`.
pub(super) fn is_tail(kind: Kind, f: &Facts<'_>) -> bool {
    match kind {
        Kind::Stopped => halting::is_tail(f),
        Kind::Broke => mishaps::is_tail(f),
        _ => false,
    }
}

/// Whether every word of a clause is a small word, a moment, a batch, or allowed.
fn only(f: &Facts<'_>, allowed: impl Fn(&Chunk) -> bool) -> bool {
    f.chunks.iter().all(|c| match c.item {
        Item::Word(
            Word::Filler
            | Word::Link
            | Word::Is
            | Word::Aux
            | Word::First
            | Word::And
            | Word::DayPart(_)
            | Word::Day(_),
        ) => true,
        Item::Mark(mark) => !matches!(mark, Mark::Quest | Mark::Money | Mark::Percent),
        Item::When(_) | Item::Batch(_) | Item::Product(_) => true,
        _ => allowed(c) || one_of!(c.key, "batch" | "let's" | "looks" | "seems"),
    })
}

/// Whether a clause names a batch in any way.
fn has_batch(f: &Facts<'_>) -> bool {
    f.batch.is_some() || f.product.is_some() || f.has(has::BATCH)
}
