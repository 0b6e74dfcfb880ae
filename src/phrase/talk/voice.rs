//! Whose doing a clause tells, and in which mood: an order, a plan, a question to somebody, a habit or a thing received
//! is no entry, nor is what other people, animals or machines did.
//!
//! Every feature looks only at the clause's own chunks, once from left to right.

use super::orders::{is_asked, is_order, is_plan};
use crate::phrase::{
    scan::{Chunk, Item},
    token::{Mark, one_of},
    words::{Form, Unit, Verb, Word},
};

/// What a clause is besides its amounts.
#[derive(Clone, Copy, Debug, Default)]
pub(in crate::phrase) struct Voice {
    /// Somebody or something outside the household did it, or had it done.
    pub(in crate::phrase) foreign: bool,
    /// Its subject is named or said, not only carried over.
    pub(in crate::phrase) subject: bool,
    /// It speaks of somebody else without a verb that is known.
    pub(in crate::phrase) others: bool,
    /// I or we stand in it as the one who acts.
    pub(in crate::phrase) own: bool,
    /// Told to be done: it begins with a bare verb.
    pub(in crate::phrase) order: bool,
    /// Still ahead, wished, missed or only nearly done.
    pub(in crate::phrase) plan: bool,
    /// Asked of somebody.
    pub(in crate::phrase) asks: bool,
    /// So much a day, always, at a time.
    pub(in crate::phrase) habit: bool,
    /// `gave us`, `was given`: it came to the household.
    pub(in crate::phrase) received: bool,
    /// Words of another place or world stand in it.
    pub(in crate::phrase) stranger: bool,
}

impl Voice {
    /// Whether nothing that was done by the household can be told in this voice.
    pub(in crate::phrase) const fn is_silent(self) -> bool {
        self.foreign || self.plan || self.asks || self.habit || self.received
    }
}

/// Looks a clause over.
pub(in crate::phrase) fn voice(chunks: &[Chunk]) -> Voice {
    let start = chunks.iter().position(|c| !is_padding(c)).unwrap_or(chunks.len());
    let body = chunks.get(start..).unwrap_or_default();
    let verb = main_verb(body);
    let (foreign, subject, own) = subject(body.get(..verb.unwrap_or(0)).unwrap_or_default());
    // `they all sealed`: the jars did.
    let jars = verb
        .and_then(|at| body.get(at))
        .is_some_and(|c| matches!(c.item, Item::Verb(Verb::Seal | Verb::Fail | Verb::Boil, _)))
        && body.iter().any(|c| one_of!(c.key, "they"));
    Voice {
        foreign: foreign && !jars || foreign_object(body),
        others: verb.is_none()
            && body.len() > 2
            && body.iter().take(3).any(|c| c.word() == Some(Word::Folk))
            && body.iter().any(|c| matches!(c.item, Item::Unknown | Item::Word(Word::Common))),
        subject,
        own,
        order: is_order(body),
        plan: is_plan(body),
        asks: is_asked(body),
        habit: is_habit(body),
        received: is_received(body),
        stranger: body.iter().any(is_stranger),
    }
}

/// What may stand before a clause without being part of it.
fn is_padding(chunk: &Chunk) -> bool {
    match chunk.item {
        Item::Word(Word::Filler | Word::And) => !one_of!(chunk.key, "suppose" | "almost" | "nearly"),
        Item::Mark(_) => true,
        _ => one_of!(chunk.key, "so"),
    }
}

pub(super) fn key(chunks: &[Chunk], at: usize) -> u64 {
    chunks.get(at).map_or(0, |c| c.key)
}

/// The first verb that says what was done; a helping one when there is no other.
fn main_verb(chunks: &[Chunk]) -> Option<usize> {
    let is_verb = |c: &Chunk| matches!(c.item, Item::Verb(..)) && !one_of!(c.key, "done");
    let heavy = chunks.iter().position(|c| is_verb(c) && !is_light(c));
    let light = chunks.iter().position(is_verb)?;
    // `got 2 kilos in before the wind took them`: the deed is told before the other verb comes.
    let told = chunks.iter().take(heavy.unwrap_or(light)).skip(light).any(|c| matches!(c.item, Item::Amount(_)));
    heavy.filter(|_| !told).or(Some(light))
}

pub(super) fn is_light(chunk: &Chunk) -> bool {
    matches!(
        chunk.item,
        Item::Verb(Verb::Get | Verb::Go | Verb::Come | Verb::Do | Verb::Show | Verb::Finish | Verb::Run, _)
    )
}

fn is_article(key: u64) -> bool {
    one_of!(
        key,
        "the"
            | "a"
            | "an"
            | "my"
            | "our"
            | "his"
            | "her"
            | "their"
            | "your"
            | "that"
            | "this"
            | "some"
            | "those"
            | "these"
            | "two"
            | "one"
    )
}

fn is_owned(key: u64) -> bool {
    one_of!(key, "the" | "my" | "our" | "his" | "her" | "their" | "your")
}

/// Who stands before the verb: outside the household, anyone at all, and I or we.
fn subject(before: &[Chunk]) -> (bool, bool, bool) {
    let (mut foreign, mut any, mut own) = (false, false, false);
    let mut governed = false;
    for (at, chunk) in before.iter().enumerate() {
        match chunk.item {
            Item::Word(Word::First) if !one_of!(chunk.key, "me" | "us") => return (false, true, true),
            Item::Word(Word::They | Word::Folk) if !governed => {
                // `neighbour's tomatoes`: theirs, but told by us.
                let owns = before.get(at + 1).is_some_and(|c| c.word() == Some(Word::Is));
                foreign |= !owns;
                any = true;
            }
            // `Becky's mum`.
            Item::Word(Word::Kin) if !governed => {
                foreign |= at > 0 && before[at - 1].word() == Some(Word::Is);
                any = true;
            }
            Item::Word(Word::Alien) if !governed => (foreign, any) = (true, true),
            Item::Word(Word::Common) | Item::Unknown if !governed && at > 0 => {
                foreign |= is_owned(before[at - 1].key)
                    || one_of!(before[at - 1].key, "a" | "an" | "some") && at + 1 == before.len()
                    || before
                        .get(at.wrapping_sub(2))
                        .is_some_and(|c| is_owned(c.key) && !matches!(before[at - 1].item, Item::Word(Word::Link)));
                any = true;
            }
            // `the kids next door`.
            Item::Word(Word::Link) if one_of!(chunk.key, "next") && any => foreign = true,
            Item::Word(Word::Link) if is_article(chunk.key) => {}
            Item::Word(Word::Link) => governed = is_preposition(chunk.key),
            Item::Amount(_) | Item::When(_) => governed = false,
            _ => {}
        }
        own |= chunk.word() == Some(Word::First);
    }
    (foreign, any, own)
}

fn is_preposition(key: u64) -> bool {
    one_of!(
        key,
        "in" | "into"
            | "from"
            | "off"
            | "out"
            | "at"
            | "on"
            | "for"
            | "with"
            | "of"
            | "by"
            | "to"
            | "w"
            | "per"
            | "about"
            | "next"
    )
}

/// `6 lb of ground beef`, `2 lb of chicken`: what an amount measures is none of the garden's.
fn foreign_object(chunks: &[Chunk]) -> bool {
    let mut counting = false;
    for chunk in chunks {
        match chunk.item {
            Item::Amount(amount) => counting = !amount.uncounted,
            Item::Word(Word::Alien) if counting => return true,
            Item::Word(Word::Quality) | Item::Prep(_) | Item::Verb(Verb::Grind, _) => {}
            Item::Word(Word::Link) if one_of!(chunk.key, "of" | "the" | "more") => {}
            _ => counting = false,
        }
    }
    false
}

/// `7 lb a week`, `3 jars per day`, `14 at a time`, `always filled`.
fn is_habit(chunks: &[Chunk]) -> bool {
    chunks.iter().enumerate().any(|(at, chunk)| {
        let period = |c: &Chunk| matches!(c.item, Item::Amount(a) if matches!(a.unit, Some(Unit::Days | Unit::Weeks | Unit::Months | Unit::Years)) && a.article) || matches!(c.item, Item::Word(Word::Unit(Unit::Days | Unit::Weeks | Unit::Months | Unit::Years))) || one_of!(c.key, "night" | "summer" | "season" | "day" | "week" | "month" | "year" | "august");
        let rate = matches!(chunk.item, Item::Amount(a) if a.article && matches!(a.unit, Some(Unit::Days | Unit::Weeks | Unit::Months | Unit::Years))) && at > 0 && !one_of!(key(chunks, at - 1), "in" | "for" | "of" | "took" | "after" | "every")
            || one_of!(chunk.key, "per" | "every") && chunks.get(at + 1).is_some_and(period)
            || one_of!(chunk.key, "a") && at > 0 && chunks.get(at + 1).is_some_and(period) && !one_of!(key(chunks, at - 1), "in" | "for" | "it");
        let each_time = one_of!(chunk.key, "at") && one_of!(key(chunks, at + 1), "a") && one_of!(key(chunks, at + 2), "time" | "sitting" | "go");
        let always = one_of!(chunk.key, "always" | "usually" | "normally" | "typically" | "often" | "sometimes") && chunks.get(at + 1).is_some_and(|c| matches!(c.item, Item::Verb(..)));
        rate || each_time || always
    })
}

/// `gave us 3 jars`, `we were given 10 lb`, `brought me`.
fn is_received(chunks: &[Chunk]) -> bool {
    chunks.iter().enumerate().any(|(at, chunk)| match chunk.item {
        Item::Verb(Verb::Give | Verb::Send | Verb::Bring, _) => {
            let to_us = one_of!(key(chunks, at + 1), "us" | "me");
            let passive = one_of!(chunk.key, "given" | "gifted" | "handed" | "sent")
                && at > 0
                && one_of!(key(chunks, at - 1), "was" | "were" | "got" | "been" | "being");
            to_us && !chunks[..at].iter().any(|c| one_of!(c.key, "i"))
                || passive && chunks[..at].iter().any(|c| c.word() == Some(Word::First))
        }
        _ => false,
    })
}

/// Words that belong to no kitchen, for the few words that a stage is told in.
fn is_stranger(chunk: &Chunk) -> bool {
    match chunk.item {
        Item::Word(
            Word::Alien | Word::Common | Word::Folk | Word::They | Word::You | Word::Place | Word::PlaceSide,
        )
        | Item::Unknown
        | Item::Place => !one_of!(chunk.key, "kitchen" | "back" | "way" | "she" | "everybody" | "everyone"),
        Item::Word(Word::Gear) => {
            one_of!(chunk.key, "work" | "works" | "working" | "meat" | "room" | "garage" | "basement")
        }
        Item::Word(Word::Quality) => one_of!(chunk.key, "huge" | "funny" | "tiny"),
        _ => false,
    }
}

/// Whether a clause is told to somebody or told about somebody, whatever it goes on to say: `tell mum`, `make sure`,
/// `don't forget`, `in case`, `suppose`.
pub(super) fn opens_talk(chunks: &[Chunk]) -> bool {
    let start = chunks.iter().position(|c| !is_padding(c)).unwrap_or(chunks.len());
    let body = chunks.get(start..).unwrap_or_default();
    let second = body.get(1);
    let person = second.is_some_and(|c| {
        matches!(c.item, Item::Word(Word::Kin | Word::Folk | Word::They))
            || c.item == Item::Unknown
            || one_of!(c.key, "him" | "her" | "them")
    });
    let first = key(body, 0);
    one_of!(first, "tell" | "ask" | "remind" | "text" | "call" | "warn" | "let") && person
        || one_of!(first, "make" | "be") && one_of!(key(body, 1), "sure")
        || one_of!(first, "check" | "see") && one_of!(key(body, 1), "that" | "if" | "whether")
        || one_of!(first, "dont" | "never") && !body.get(1).is_some_and(|c| matches!(c.item, Item::Verb(_, Form::Past)))
        || one_of!(first, "suppose" | "imagine" | "pretend" | "picture")
        || one_of!(first, "say" | "lets") && second.is_some_and(|c| c.word() == Some(Word::First))
        || one_of!(first, "what" | "even" | "as" | "only") && one_of!(key(body, 1), "if")
        || one_of!(first, "in") && one_of!(key(body, 1), "case")
        || one_of!(first, "step") && matches!(second.map(|c| c.item), Some(Item::Amount(_)))
        || body.first().is_some_and(|c| c.is_mark(Mark::Hash))
}
