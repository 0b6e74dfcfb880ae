//! All words and names with their senses, and how they are looked up.

use super::super::lex::{Lexed, Shape, Token};
use super::ordinary;
use super::sense::{Class, Classes, Meaning, Sense};
use super::spelling::Spelling;
use super::word::{Hit, Spellings, WordId, is_hyphen, letters_of, mark_in_name};
use crate::statement::Teach;
use crate::vocabulary::Taught;
use rustc_hash::FxHashMap;
use smallvec::SmallVec;
use std::cmp::Ordering;

/// Paths are ordered part by part, so that what is under a path follows it at once.
pub(super) fn order(a: &str, b: &str) -> Ordering {
    let key = |letter: u8| if letter == b'.' { 0 } else { letter };
    a.bytes().map(key).cmp(b.bytes().map(key))
}

/// All words with their senses.
#[derive(Debug, Default)]
pub(in super::super) struct Words {
    /// Sorted.
    pub(super) paths: Vec<Box<str>>,
    pub(super) meanings: Vec<Meaning>,
    pub(super) forms: Vec<u8>,
    pub(super) numbers: FxHashMap<Box<str>, WordId>,
    pub(super) spelled: Vec<Box<str>>,
    /// From a node by a word to the next.
    pub(super) edges: FxHashMap<(u32, WordId), u32>,
    pub(super) ends: Vec<SmallVec<[Sense; 2]>>,
    /// What the grammar asks for by name.
    pub(in super::super) classes: Classes,
    pub(super) spelling: Spelling,
}

impl Words {
    /// The number of a word.
    pub(in super::super) fn number(&self, folded: &str) -> WordId {
        self.numbers.get(folded).copied().unwrap_or(WordId::UNKNOWN)
    }

    /// The letters of a word.
    pub(in super::super) fn letters(&self, word: WordId) -> &str {
        self.spelled.get(word.0 as usize).map_or("", |letters| letters)
    }

    /// Whether a word by itself has a sense of the class.
    pub(in super::super) fn is(&self, word: WordId, class: Class) -> bool {
        self.senses_of(word).iter().any(|sense| class.has(*sense))
    }

    /// The senses that a word has by itself.
    pub(super) fn senses_of(&self, word: WordId) -> &[Sense] {
        self.edges.get(&(0, word)).and_then(|node| self.ends.get(*node as usize)).map_or(&[], |senses| senses)
    }

    /// Whether a word has a sense of its own, or is an ordinary word.
    pub(in super::super) fn is_known(&self, folded: &str) -> bool {
        self.number(folded) != WordId::UNKNOWN || ordinary::has(folded)
    }

    /// Whether a word by itself is a name of something.
    pub(in super::super) fn is_name(&self, folded: &str) -> bool {
        !self.senses_of(self.number(folded)).is_empty()
    }

    /// Whether a word may stand before a name: an article, a preposition, a pronoun.
    pub(in super::super) fn leads(&self, folded: &str) -> bool {
        let leads = [self.classes.article, self.classes.preposition, self.classes.of, self.classes.own];
        self.senses_of(self.number(folded)).iter().any(|sense| leads.iter().any(|class| class.has(*sense)))
    }

    /// Takes in a word that has no sense of its own.
    pub(in super::super) fn intern(&mut self, folded: &str) -> WordId {
        if let Some(known) = self.numbers.get(folded) {
            return *known;
        }
        let number = WordId(self.spelled.len() as u32);
        self.numbers.insert(folded.into(), number);
        self.spelled.push(folded.into());
        number
    }

    /// Whether a sense is under a path that is given in a data file; `None` where no word has it.
    pub(in super::super) fn class(&self, path: &str) -> Option<Class> {
        let from = self.paths.partition_point(|known| order(known, path).is_lt());
        let below = |known: &str| known == path || known.strip_prefix(path).is_some_and(|rest| rest.starts_with('.'));
        let count = self.paths.get(from..)?.iter().take_while(|known| below(known)).count();
        (count > 0).then_some(Class { from: from as u16, to: (from + count) as u16 })
    }

    /// The path of a sense.
    pub(in super::super) fn path(&self, sense: Sense) -> &str {
        self.paths.get(sense.0 as usize).map_or("", |path| path)
    }

    /// The form of a deed: 1 past, 2 `-ing`, 3 base, 0 none of them.
    pub(in super::super) fn form(&self, sense: Sense) -> usize {
        self.forms.get(sense.0 as usize).copied().unwrap_or_default().into()
    }

    /// The sense of a word that a household taught.
    pub(in super::super) fn taught(&self, teach: &Teach) -> Option<Sense> {
        let path = match (&teach.means, &teach.name) {
            (Taught::Place, _) => return Some(Sense(self.classes.place_noun.from)),
            (means, Some(name)) => format!("{means}.{name}"),
            (_, None) => return None,
        };
        self.class(&path).map(|class| Sense(class.from))
    }

    /// How many senses there are.
    pub(in super::super) fn senses(&self) -> usize {
        self.paths.len()
    }

    /// The thing that a sense names.
    pub(in super::super) fn meaning(&self, sense: Sense) -> &Meaning {
        self.meanings.get(sense.0 as usize).unwrap_or(&Meaning::Path)
    }

    /// What a token's word is, and what it may have been meant to be.
    pub(in super::super) fn spellings(&self, lexed: &Lexed, token: &Token) -> Spellings {
        let Some(letters) = letters_of(lexed, token) else { return Spellings::new() };
        let known = self.number(letters);
        let mut all = Spellings::new();
        all.push(known);
        if token.shape == Shape::Word {
            self.spelling.of(letters, known, &mut all);
        }
        all
    }

    /// Every name that begins at a token.
    pub(in super::super) fn names_at(&self, tokens: &[Token], spellings: &[Spellings], at: usize, out: &mut Vec<Hit>) {
        self.walk(tokens, spellings, at, at, 0, (false, false), out);
    }

    #[expect(clippy::too_many_arguments, reason = "the state of a walk over a tree of words, in one place")]
    fn walk(
        &self,
        tokens: &[Token],
        spellings: &[Spellings],
        start: usize,
        at: usize,
        node: u32,
        (repaired, misheard): (bool, bool),
        out: &mut Vec<Hit>,
    ) {
        let Some(words) = spellings.get(at) else { return };
        if words.is_empty() {
            // A hyphen inside a name.
            let inside = at > start && is_hyphen(tokens, at);
            if inside {
                self.walk(tokens, spellings, start, at + 1, node, (repaired, misheard), out);
            } else if at > start {
                self.walk_mark(tokens, spellings, (start, at, node), (repaired, misheard), out);
            }
            return;
        }
        for (n, word) in words.iter().enumerate() {
            if *word == WordId::UNKNOWN {
                continue;
            }
            let Some(next) = self.edges.get(&(node, *word)) else { continue };
            let misheard = misheard || n > 0 && words.first() != Some(&WordId::UNKNOWN);
            let repaired = repaired || n > 0;
            if let Some(senses) = self.ends.get(*next as usize) {
                let len = (at + 1 - start) as u16;
                out.extend(senses.iter().map(|sense| Hit { len, sense: *sense, repaired, misheard, own: 0 }));
            }
            self.walk(tokens, spellings, start, at + 1, *next, (repaired, misheard), out);
        }
    }

    /// On over a mark that stands in a printed name.
    fn walk_mark(
        &self,
        tokens: &[Token],
        spellings: &[Spellings],
        (start, at, node): (usize, usize, u32),
        (repaired, misheard): (bool, bool),
        out: &mut Vec<Hit>,
    ) {
        let Some(sign) = tokens.get(at).and_then(mark_in_name) else { return };
        let Some(next) = self.edges.get(&(node, self.number(sign))).copied() else { return };
        if let Some(senses) = self.ends.get(next as usize) {
            let len = (at + 1 - start) as u16;
            out.extend(senses.iter().map(|sense| Hit { len, sense: *sense, repaired, misheard, own: 0 }));
        }
        self.walk(tokens, spellings, start, at + 1, next, (repaired, misheard), out);
    }

    /// The node behind a word, made where there is none.
    pub(super) fn node(&mut self, from: u32, word: WordId) -> u32 {
        let new = self.ends.len() as u32;
        let node = *self.edges.entry((from, word)).or_insert(new);
        if node == new {
            self.ends.push(SmallVec::new());
        }
        node
    }
}
