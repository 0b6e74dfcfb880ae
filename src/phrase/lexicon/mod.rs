//! What words can mean. `english/*.txt` holds every word and name with its senses; here they are loaded, checked and looked up.
//!
//! A line of a data file is `path: name, name of several words, …`; a `*` behind a name adds the same with an s, `**` with es. A name may
//! have any number of senses, all of which are kept: which one is meant, the reading of the whole decides. The names that the process tables
//! print are names of their products too.
//!
//! A word that no file has is looked for among the ordinary words of the language, and if it is none of them, among the misspellings of the
//! trade's words ([`spelling`]).

pub(super) mod ordinary;
mod read;
pub(super) mod sense;
pub(super) mod spelling;

use super::lex::{Lexed, Mark, Shape, Token};
use crate::statement::Teach;
use crate::vocabulary::Taught;
use rustc_hash::FxHashMap;
use sense::{Class, Classes, Meaning, Sense};
use smallvec::SmallVec;

/// A word that the data files know, by number; 0 is none of them.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, Default)]
pub(super) struct WordId(pub(super) u32);

impl WordId {
    /// A word that no data file has.
    pub(super) const UNKNOWN: Self = Self(0);
}

/// A mistake in a data file.
#[derive(Clone, PartialEq, Eq, Debug, thiserror::Error)]
#[error("{file}, line {line}: {what}")]
pub struct Mistake {
    /// The file, below `src/phrase`.
    pub file: &'static str,
    /// The line, from 1; 0 for the file as a whole.
    pub line: usize,
    /// What is wrong with it, and what belongs there.
    pub what: String,
}

/// All words with their senses.
#[derive(Debug, Default)]
pub(super) struct Words {
    /// Sorted.
    paths: Vec<Box<str>>,
    meanings: Vec<Meaning>,
    forms: Vec<u8>,
    numbers: FxHashMap<Box<str>, WordId>,
    spelled: Vec<Box<str>>,
    /// From a node by a word to the next.
    edges: FxHashMap<(u32, WordId), u32>,
    ends: Vec<SmallVec<[Sense; 2]>>,
    /// What the grammar asks for by name.
    pub(super) classes: Classes,
    spelling: spelling::Spelling,
}

/// A name at a place of a text.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Hit {
    /// How many tokens it is long.
    pub(super) len: u16,
    /// One of its senses.
    pub(super) sense: Sense,
    /// Whether a word of it was not written so.
    pub(super) repaired: bool,
    /// Whether a word of it is another word, that sounds like it.
    pub(super) misheard: bool,
    /// Which of the household's names it is, for senses that are the household's.
    pub(super) own: u16,
}

/// What the words of a token may be: first as it is written, then as it may have been meant.
pub(super) type Spellings = SmallVec<[WordId; 2]>;

impl Words {
    /// From the data files and the names of the tables.
    pub(super) fn load() -> Result<Self, Mistake> {
        read::read()
    }

    /// The number of a word.
    pub(super) fn number(&self, folded: &str) -> WordId {
        self.numbers.get(folded).copied().unwrap_or(WordId::UNKNOWN)
    }

    /// The letters of a word.
    pub(super) fn letters(&self, word: WordId) -> &str {
        self.spelled.get(word.0 as usize).map_or("", |letters| letters)
    }

    /// Whether a word by itself has a sense of the class.
    pub(super) fn is(&self, word: WordId, class: Class) -> bool {
        let senses = self.edges.get(&(0, word)).and_then(|node| self.ends.get(*node as usize));
        senses.is_some_and(|senses| senses.iter().any(|sense| class.has(*sense)))
    }

    /// How many numbers of words there are.
    pub(super) fn count(&self) -> usize {
        self.spelled.len()
    }

    /// Takes in a word that has no sense of its own.
    pub(super) fn intern(&mut self, folded: &str) -> WordId {
        if let Some(known) = self.numbers.get(folded) {
            return *known;
        }
        let number = WordId(self.spelled.len() as u32);
        self.numbers.insert(folded.into(), number);
        self.spelled.push(folded.into());
        number
    }

    /// Whether a sense is under a path that is given in a data file; `None` where no word has it.
    pub(super) fn class(&self, path: &str) -> Option<Class> {
        let from = self.paths.partition_point(|known| read::order(known, path).is_lt());
        let below = |known: &str| known == path || known.strip_prefix(path).is_some_and(|rest| rest.starts_with('.'));
        let count = self.paths.get(from..)?.iter().take_while(|known| below(known)).count();
        (count > 0).then_some(Class { from: from as u16, to: (from + count) as u16 })
    }

    /// The path of a sense.
    pub(super) fn path(&self, sense: Sense) -> &str {
        self.paths.get(sense.0 as usize).map_or("", |path| path)
    }

    /// The form of a deed: 1 past, 2 `-ing`, 3 base, 0 none of them.
    pub(super) fn form(&self, sense: Sense) -> usize {
        self.forms.get(sense.0 as usize).copied().unwrap_or_default().into()
    }

    /// The sense of a word that a household taught.
    pub(super) fn taught(&self, teach: &Teach) -> Option<Sense> {
        let path = match (&teach.means, &teach.name) {
            (Taught::Place, _) => return Some(Sense(self.classes.place_noun.from)),
            (means, Some(name)) => format!("{means}.{name}"),
            (_, None) => return None,
        };
        self.class(&path).map(|class| Sense(class.from))
    }

    /// How many senses there are.
    pub(super) fn senses(&self) -> usize {
        self.paths.len()
    }

    /// The thing that a sense names.
    pub(super) fn meaning(&self, sense: Sense) -> &Meaning {
        self.meanings.get(sense.0 as usize).unwrap_or(&Meaning::Path)
    }

    /// What a token's word is, and what it may have been meant to be.
    pub(super) fn spellings(&self, lexed: &Lexed, token: &Token) -> Spellings {
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
    pub(super) fn names_at(&self, tokens: &[Token], spellings: &[Spellings], at: usize, out: &mut Vec<Hit>) {
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

    fn node(&mut self, from: u32, word: WordId) -> u32 {
        let new = self.ends.len() as u32;
        let node = *self.edges.entry((from, word)).or_insert(new);
        if node == new {
            self.ends.push(SmallVec::new());
        }
        node
    }
}

/// A dash with nothing beside it but letters or digits.
pub(super) fn is_hyphen(tokens: &[Token], at: usize) -> bool {
    tokens.get(at).is_some_and(|token| token.is(Mark::Dash) && token.glued)
        && tokens.get(at + 1).is_some_and(|next| next.glued)
}

/// What a token is looked up by; `None` for marks that stand in no name.
pub(super) fn letters_of<'a>(lexed: &'a Lexed, token: &Token) -> Option<&'a str> {
    match token.shape {
        Shape::Word | Shape::Digits(..) | Shape::Mark(Mark::Other) => Some(lexed.folded(token)),
        Shape::Mark(Mark::Ampersand) => Some("&"),
        Shape::Mark(Mark::Plus) => Some("+"),
        Shape::Mark(Mark::Equals) => Some("="),
        Shape::Vulgar(..) | Shape::Mark(_) => None,
    }
}
