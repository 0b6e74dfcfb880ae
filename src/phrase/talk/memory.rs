//! What lies too far back to be an entry: childhoods, other years, the time when.

use crate::phrase::{
    scan::{Chunk, Item},
    token::one_of,
    words::{Form, Verb, Word},
};

fn key(chunks: &[Chunk], at: usize) -> u64 {
    chunks.get(at).map_or(0, |c| c.key)
}

/// Names of a stretch of time that a memory is hung on.
fn is_era(key: u64) -> bool {
    one_of!(
        key,
        "year"
            | "summer"
            | "winter"
            | "season"
            | "spring"
            | "fall"
            | "autumn"
            | "august"
            | "july"
            | "september"
            | "time"
            | "day"
            | "week"
            | "month"
            | "night"
            | "christmas"
            | "easter"
            | "thanksgiving"
    )
}

/// `gave grandma 2 quarts` before `for christmas`: a present, not a memory.
fn is_given(before: &[Chunk]) -> bool {
    let mut said = before.iter().filter(|c| !matches!(c.item, Item::Word(Word::Filler | Word::First) | Item::Mark(_)));
    said.next().is_some_and(|c| matches!(c.item, Item::Verb(Verb::Give, Form::Past)))
        && before.iter().any(|c| matches!(c.item, Item::Amount(a) if a.is_jars() || a.mass.is_some()))
}

/// Whether the chunk at a place begins words that look far back.
pub(super) fn looks_back(chunks: &[Chunk], at: usize) -> bool {
    let here = key(chunks, at);
    let (one, two) = (key(chunks, at + 1), key(chunks, at + 2));
    if one_of!(here, "years" | "decades" | "ages") && one_of!(one, "ago" | "back" | "before") {
        return true;
    }
    if one_of!(here, "used") && one_of!(one, "to")
        || one_of!(here, "once") && one_of!(one, "upon")
        || one_of!(here, "growing" | "grew") && one_of!(one, "up")
    {
        return true;
    }
    if one_of!(here, "back")
        && one_of!(one, "in" | "then" | "when")
        && !chunks
            .get(at + 2)
            .is_some_and(|c| matches!(c.item, Item::Store(_) | Item::Place | Item::Word(Word::Gear | Word::Link)))
    {
        return true;
    }
    if one_of!(here, "as")
        && one_of!(one, "a")
        && one_of!(two, "kid" | "child" | "boy" | "girl" | "teenager" | "student")
        || one_of!(here, "when") && one_of!(one, "i" | "we" | "she" | "he") && one_of!(two, "was" | "were")
    {
        return true;
    }
    if one_of!(here, "old" | "olden" | "those" | "early" | "younger") && one_of!(one, "days") {
        return true;
    }
    if one_of!(here, "last" | "at" | "for" | "that" | "since")
        && one_of!(one, "christmas" | "easter" | "thanksgiving" | "halloween" | "ramadan" | "hanukkah")
        && !(one_of!(here, "for") && is_given(chunks.get(..at).unwrap_or_default()))
    {
        return true;
    }
    if one_of!(here, "one") && one_of!(one, "year" | "summer" | "winter" | "christmas")
        || one_of!(here, "first" | "last") && one_of!(one, "time")
    {
        return true;
    }
    let told = |n: usize| {
        chunks.get(at + n).is_some_and(|c| {
            matches!(c.item, Item::Word(Word::First | Word::They | Word::Kin | Word::Folk | Word::You))
        }) || one_of!(key(chunks, at + n), "that")
    };
    let pointed = one_of!(here, "the" | "that" | "one" | "only" | "a")
        && is_era(one)
        && told(2)
        && !(one_of!(one, "day" | "time" | "night" | "week") && one_of!(here, "a"));
    pointed
        || one_of!(here, "that") && one_of!(one, "one") && is_era(two)
        || one_of!(here, "that") && one_of!(one, "summer" | "year" | "winter" | "august" | "season")
}
