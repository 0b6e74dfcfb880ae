//! Tokens: what the lexer makes of the letters, and the slice of them that the nom parsers take as input.

use super::words::Word;
use crate::quantity::Number;
use chrono::NaiveDate;

/// What a token is.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(super) enum Sense {
    /// Digits, with their decimals.
    Num(Number),
    /// `1,150`: a thousand and more, or with a metric unit one and a bit.
    Grouped(Number, Number),
    /// `1/2`, `6/7`, `8/12`.
    Ratio(u32, u32),
    /// `½`.
    Fraction(Number),
    /// `7:30`.
    Clock(u32, u32),
    /// `2026-08-12`.
    Date(NaiveDate),
    /// `8/12/2026`, `12.8.26`.
    Written(Written),
    /// `12th`.
    Ordinal(u32),
    /// A word of the tables.
    Word(Word),
    /// Letters that no table knows.
    Unknown,
    /// Punctuation.
    Mark(Mark),
}

/// A date in figures, with its year.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Written {
    pub(super) first: u32,
    pub(super) second: u32,
    pub(super) year: i32,
    /// With dots, which always stand behind the day.
    pub(super) dots: bool,
}

impl Written {
    /// The day: the month comes first where pounds are weighed, unless that cannot be.
    pub(super) fn day(self, metric: bool) -> Option<NaiveDate> {
        let Self { first, second, year, dots } = self;
        let day_first = dots || metric && second <= 12 || first > 12;
        let (month, day) = if day_first { (second, first) } else { (first, second) };
        NaiveDate::from_ymd_opt(year, month, day)
    }
}

/// Punctuation that means something.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Mark {
    Comma,
    Dot,
    Bang,
    Quest,
    Semi,
    Colon,
    /// With a space beside it.
    Dash,
    /// Between letters or digits.
    Hyphen,
    Slash,
    Equals,
    Arrow,
    Plus,
    And,
    At,
    Hash,
    Times,
    Money,
    Percent,
    Degree,
    Line,
    Other,
}

/// One token. `key` is the hash of its normalised letters, so that a literal is compared as one integer.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(super) struct Token {
    pub(super) sense: Sense,
    pub(super) key: u64,
    pub(super) from: u32,
    pub(super) to: u32,
    /// No space stands before it.
    pub(super) glued: bool,
}

impl Token {
    /// The word of the tables, if it is one.
    pub(super) const fn word(&self) -> Option<Word> {
        match self.sense {
            Sense::Word(word) => Some(word),
            _ => None,
        }
    }

    /// Whether it is this punctuation.
    pub(super) fn is_mark(&self, mark: Mark) -> bool {
        self.sense == Sense::Mark(mark)
    }
}

/// FNV-1a of normalised letters: a constant for literals, computed once for each token.
pub(super) const fn key(word: &str) -> u64 {
    key_of(word.as_bytes())
}

pub(super) const fn key_of(bytes: &[u8]) -> u64 {
    let mut hash = 0xcbf2_9ce4_8422_2325_u64;
    let mut at = 0;
    while at < bytes.len() {
        hash = (hash ^ bytes[at] as u64).wrapping_mul(0x0100_0000_01b3);
        at += 1;
    }
    hash
}

/// Whether a key is that of one of these literals; each is hashed when the program is compiled.
macro_rules! one_of {
    ($key:expr, $($word:literal)|+) => {{
        let key: u64 = $key;
        $( key == const { $crate::phrase::token::key($word) } )||+
    }};
}
pub(super) use one_of;

/// Which of 256 a key is, for a quick look whether it can be there at all.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub(super) struct Sketch([u64; 4]);

impl Sketch {
    pub(super) const EMPTY: Self = Self([0; 4]);

    /// With this key too.
    pub(super) const fn with(mut self, key: u64) -> Self {
        let bit = key >> 56;
        self.0[(bit >> 6) as usize] |= 1 << (bit & 63);
        self
    }

    /// Whether a key may be in both; `false` is certain.
    pub(super) const fn meets(&self, other: &Self) -> bool {
        (self.0[0] & other.0[0]) | (self.0[1] & other.0[1]) | (self.0[2] & other.0[2]) | (self.0[3] & other.0[3]) != 0
    }
}

/// Whether one of these literals begins a chunk of a clause.
macro_rules! says {
    ($facts:expr, $($word:literal)|+) => {{
        let facts: &$crate::phrase::facts::Facts<'_> = $facts;
        facts.sketch.meets(const { &$crate::phrase::token::Sketch::EMPTY $(.with($crate::phrase::token::key($word)))+ })
            && facts.chunks.iter().any(|c| $crate::phrase::token::one_of!(c.key, $($word)|+))
    }};
}
pub(super) use says;

/// Which keys begin something, as a set of bits: nearly every other word is turned away by one look.
#[derive(Debug)]
pub(super) struct Beginnings([u64; 64]);

impl Beginnings {
    pub(super) const EMPTY: Self = Self([0; 64]);

    pub(super) const fn with(mut self, key: u64) -> Self {
        let bit = key >> 52;
        self.0[(bit >> 6) as usize] |= 1 << (bit & 63);
        self
    }

    pub(super) fn may_have(&self, key: u64) -> bool {
        let bit = key >> 52;
        self.0.get((bit >> 6) as usize).is_some_and(|word| word & (1 << (bit & 63)) != 0)
    }
}

/// A run of tokens: the input of every parser here.
#[derive(Clone, Copy, Debug)]
pub(super) struct Tokens<'a>(pub(super) &'a [Token]);

impl<'a> Tokens<'a> {
    pub(super) fn first(self) -> Option<&'a Token> {
        self.0.first()
    }

    pub(super) fn nth(self, n: usize) -> Option<&'a Token> {
        self.0.get(n)
    }

    /// The key of the nth token; 0 past the end.
    pub(super) fn key(self, n: usize) -> u64 {
        self.0.get(n).map_or(0, |token| token.key)
    }

    pub(super) fn skip(self, n: usize) -> Self {
        Self(self.0.get(n..).unwrap_or_default())
    }
}

impl<'a> nom::Input for Tokens<'a> {
    type Item = Token;
    type Iter = std::iter::Copied<std::slice::Iter<'a, Token>>;
    type IterIndices = std::iter::Enumerate<Self::Iter>;

    fn input_len(&self) -> usize {
        self.0.len()
    }

    fn take(&self, index: usize) -> Self {
        Self(self.0.get(..index).unwrap_or(self.0))
    }

    fn take_from(&self, index: usize) -> Self {
        self.skip(index)
    }

    fn take_split(&self, index: usize) -> (Self, Self) {
        (self.skip(index), self.take(index))
    }

    fn position<P: Fn(Token) -> bool>(&self, predicate: P) -> Option<usize> {
        self.0.iter().position(|token| predicate(*token))
    }

    fn iter_elements(&self) -> Self::Iter {
        self.0.iter().copied()
    }

    fn iter_indices(&self) -> Self::IterIndices {
        self.iter_elements().enumerate()
    }

    fn slice_index(&self, count: usize) -> Result<usize, nom::Needed> {
        if self.0.len() >= count { Ok(count) } else { Err(nom::Needed::new(count - self.0.len())) }
    }
}

/// What a parser over tokens gives back.
pub(super) type Parsed<'a, O> = nom::IResult<Tokens<'a>, O, ()>;
