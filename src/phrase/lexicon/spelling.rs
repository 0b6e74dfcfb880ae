//! Mistyped and misheard words. Every word of the trade that is near enough to an unknown one is a candidate; which of
//! them was meant, or none, the reading of the whole decides.

use super::ordinary;
use super::word::{Spellings, WordId};
use fst::{IntoStreamer, Map, MapBuilder, Streamer};
use levenshtein_automata::LevenshteinAutomatonBuilder;
use rustc_hash::FxHashMap;
use smallvec::SmallVec;

/// Shortest word that is looked for: of three letters everything is near to something.
const SHORTEST: usize = 4;
/// Longest word that is looked for.
const LONGEST: usize = 24;
/// From this length on two slips are allowed.
const TWO_SLIPS: usize = 8;
/// At most so many candidates a word.
const CANDIDATES: usize = 4;

/// The words of the trade, by their letters, and what dictation hears instead of them.
#[derive(Default)]
pub(in super::super) struct Spelling {
    trade: Option<Map<Vec<u8>>>,
    misheard: FxHashMap<WordId, SmallVec<[WordId; 2]>>,
    one: Option<LevenshteinAutomatonBuilder>,
    two: Option<LevenshteinAutomatonBuilder>,
}

impl std::fmt::Debug for Spelling {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("Spelling")
    }
}

impl Spelling {
    /// Of the trade's words, sorted by their letters, with what is heard instead of them.
    pub(super) fn new(trade: &[(Box<str>, WordId)], misheard: FxHashMap<WordId, SmallVec<[WordId; 2]>>) -> Self {
        let mut builder = MapBuilder::memory();
        for (word, number) in trade {
            // The words come sorted and each once, so nothing can be refused.
            let _ = builder.insert(word.as_bytes(), u64::from(number.0));
        }
        let trade = builder.into_inner().ok().and_then(|bytes| Map::new(bytes).ok());
        let slips = |n| Some(LevenshteinAutomatonBuilder::new(n, true));
        Self { trade, misheard, one: slips(1), two: slips(2) }
    }

    /// Adds what a word may have been meant to be.
    pub(super) fn of(&self, letters: &str, known: WordId, out: &mut Spellings) {
        if known != WordId::UNKNOWN {
            if let Some(meant) = self.misheard.get(&known) {
                out.extend(meant.iter().copied());
            }
            return;
        }
        if !(SHORTEST..=LONGEST).contains(&letters.len()) || ordinary::has(letters) {
            return;
        }
        let near = |builder: &Option<LevenshteinAutomatonBuilder>, out: &mut Spellings| {
            if let (Some(trade), Some(builder)) = (&self.trade, builder) {
                search(trade, builder, letters, out);
            }
        };
        near(&self.one, out);
        if out.len() == 1 && letters.len() >= TWO_SLIPS {
            near(&self.two, out);
        }
    }
}

fn search(trade: &Map<Vec<u8>>, builder: &LevenshteinAutomatonBuilder, letters: &str, out: &mut Spellings) {
    let dfa = builder.build_dfa(letters);
    let mut found = trade.search(&dfa).into_stream();
    while let Some((_, number)) = found.next() {
        if out.len() > CANDIDATES {
            break;
        }
        out.push(WordId(number as u32));
    }
}
