//! What makes a sentence talk and not an entry: plans, conditions, hearsay, memories, prices, questions to people.

mod memory;
mod orders;
mod voice;

use super::{
    scan::{Chunk, Item},
    token::{Mark, one_of},
    words::{Unit, Word},
};

pub(super) use voice::{Voice, voice};

/// Signs found in a whole sentence.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Talk {
    /// Said by others, remembered, or priced: nothing in the sentence is an entry.
    pub(super) elsewhere: bool,
    /// A plan or a condition: only questions and settings count.
    pub(super) unreal: bool,
}

/// Looks a sentence over once.
pub(super) fn talk(chunks: &[Chunk]) -> Talk {
    let mut talk = Talk { elsewhere: voice::opens_talk(chunks), unreal: false };
    for (at, chunk) in chunks.iter().enumerate() {
        talk.elsewhere |= memory::looks_back(chunks, at);
        let key = |n: usize| chunks.get(at + n).map_or(0, |c| c.key);
        match chunk.item {
            // What a gauge says is no hearsay.
            // `heard a pop` tells of the canner.
            Item::Word(Word::Hearsay)
                if one_of!(chunk.key, "heard")
                    && (one_of!(key(1), "a" | "one")
                        || matches!(chunks.get(at + 1).map(|c| c.item), Some(Item::Amount(a)) if a.article)) => {}
            Item::Word(Word::Hearsay) => {
                talk.elsewhere |=
                    !is_report(chunks, at) && (at == 0 || !one_of!(chunks[at - 1].key, "gauge" | "dial" | "needle"))
            }
            // A dollar store is no price.
            Item::Word(Word::Price) if one_of!(key(1), "store" | "general" | "tree" | "shop") => {}
            Item::Word(Word::Memory | Word::Price) | Item::Mark(Mark::Money) => talk.elsewhere = true,
            Item::Amount(amount) => {
                talk.elsewhere |= matches!(amount.unit, Some(Unit::Years));
                let year = amount.unit.is_none()
                    && amount.number.as_whole().is_some_and(|n| (1900..2100).contains(&n))
                    && at > 0
                    && one_of!(chunks[at - 1].key, "in" | "since" | "back");
                talk.elsewhere |= year;
            }
            // A habit is no entry.
            Item::Word(Word::Filler) if one_of!(chunk.key, "usually" | "normally" | "always" | "typically") => {
                talk.unreal = true
            }
            Item::Word(Word::If) => {
                let starts = at == 0
                    || chunks[..at]
                        .iter()
                        .all(|c| matches!(c.item, Item::Word(Word::Filler) | Item::Mark(Mark::Comma)));
                talk.unreal |= starts && !one_of!(chunk.key, "once");
                talk.elsewhere |= one_of!(chunk.key, "once")
                    && at > 0
                    && matches!(chunks[at - 1].word(), Some(Word::Kin | Word::Folk | Word::They));
                talk.unreal |= one_of!(chunk.key, "if" | "until" | "till" | "til" | "unless") && at < 3;
            }
            Item::Word(Word::Link) => {
                let later = one_of!(chunk.key, "next")
                    && one_of!(key(1), "week" | "weekend" | "month" | "year" | "time" | "summer" | "spring");
                let past = one_of!(chunk.key, "last")
                    && one_of!(
                        key(1),
                        "year" | "summer" | "winter" | "month" | "spring" | "season" | "november" | "fall" | "autumn"
                    )
                    || one_of!(chunk.key, "every")
                        && one_of!(key(1), "summer" | "year" | "winter" | "august" | "fall" | "autumn");
                talk.elsewhere |= one_of!(chunk.key, "so") && one_of!(key(1), "many");
                talk.unreal |= later;
                talk.elsewhere |= past;
            }
            _ => {}
        }
    }
    talk
}

/// `regret to say that I threw away`, `I'd say 7 lb`: the speaker's own words.
fn is_report(chunks: &[Chunk], at: usize) -> bool {
    // `I should have said six` mends.
    if one_of!(chunks[at].key, "said") && at > 1 && one_of!(chunks[at - 1].key, "have" | "of" | "ve") {
        return true;
    }
    // `mom said log it: froze 2 bags` hands on what is to be entered.
    if chunks.get(at + 1..).is_some_and(|rest| rest.iter().take(4).any(|c| one_of!(c.key, "log" | "record" | "note"))) {
        return true;
    }
    let say = one_of!(chunks[at].key, "say" | "tell" | "telling" | "saying");
    say && chunks[..at].iter().any(|c| {
        one_of!(c.key, "regret" | "forgot" | "happy" | "sorry" | "pleased" | "to" | "sad" | "proud" | "glad" | "i")
    }) || one_of!(chunks[at].key, "say" | "tell") && chunks[..at].iter().any(|c| one_of!(c.key, "dont" | "don't"))
}
