//! Words by number, names at a place of a text, and what a token is looked up by.

use super::super::lex::{Lexed, Mark, Shape, Token};
use super::sense::Sense;
use smallvec::SmallVec;

/// A word that the data files know, by number; 0 is none of them.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, Default)]
pub(in super::super) struct WordId(pub(in super::super) u32);

impl WordId {
    /// A word that no data file has.
    pub(in super::super) const UNKNOWN: Self = Self(0);
}

/// A name at a place of a text.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(in super::super) struct Hit {
    /// How many tokens it is long.
    pub(in super::super) len: u16,
    /// One of its senses.
    pub(in super::super) sense: Sense,
    /// Whether a word of it was not written so.
    pub(in super::super) repaired: bool,
    /// Whether a word of it is another word, that sounds like it.
    pub(in super::super) misheard: bool,
    /// Which of the household's names it is, for senses that are the household's.
    pub(in super::super) own: u16,
}

/// What the words of a token may be: first as it is written, then as it may have been meant.
pub(in super::super) type Spellings = SmallVec<[WordId; 2]>;

/// A dash with nothing beside it but letters or digits.
pub(in super::super) fn is_hyphen(tokens: &[Token], at: usize) -> bool {
    tokens.get(at).is_some_and(|token| token.is(Mark::Dash) && token.glued)
        && tokens.get(at + 1).is_some_and(|next| next.glued)
}

/// What a token is looked up by; `None` for marks that stand in no name.
pub(in super::super) fn letters_of<'a>(lexed: &'a Lexed, token: &Token) -> Option<&'a str> {
    match token.shape {
        Shape::Word | Shape::Digits(..) | Shape::Mark(Mark::Other) => Some(lexed.folded(token)),
        Shape::Mark(Mark::Ampersand) => Some("&"),
        Shape::Mark(Mark::Plus) => Some("+"),
        Shape::Mark(Mark::Equals) => Some("="),
        Shape::Vulgar(..) | Shape::Mark(_) => None,
    }
}

/// The sign by which a mark inside of a printed name is looked up: `peaches, halved or sliced`, `soup (no seafood)`.
pub(in super::super) const fn mark_in_name(token: &Token) -> Option<&'static str> {
    match token.shape {
        Shape::Mark(Mark::Comma) => Some(","),
        Shape::Mark(Mark::Bracket) => Some("("),
        Shape::Mark(Mark::Colon) => Some(":"),
        _ => None,
    }
}
