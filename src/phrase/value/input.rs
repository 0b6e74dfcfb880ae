//! What the combinators read: a run of tokens with the senses of the names that begin at each, and the few parsers that
//! look at one token.

use super::super::lex::{Lexed, Mark, Shape, Token};
use super::super::lexicon::sense::{Class, Classes, Meaning, Sense};
use super::super::lexicon::{Hit, Words, is_hyphen};
use super::kinds::{Count, Figure, Weight};
use nom::error::{ContextError, ErrorKind, ParseError};
use std::cell::Cell;

/// A text with all that is known of its tokens before any value is read.
#[derive(Clone, Copy, Debug)]
pub(in super::super) struct Known<'a> {
    /// The tokens.
    pub(in super::super) lexed: &'a Lexed,
    /// Names, by the token at which they begin.
    pub(in super::super) hits: &'a [Hit],
    /// Where in `hits` those of a token begin; one more than there are tokens.
    pub(in super::super) starts: &'a [u32],
    /// All words.
    pub(in super::super) words: &'a Words,
    /// By token what has been read there.
    pub(in super::super) kept: &'a [Kept],
}

/// What a rule read at a token and the token behind it; the inner `None` where it failed.
type Once<T> = Cell<Option<Option<(u32, T)>>>;

/// What the rules with which most others begin read at a token: each is tried there once.
#[derive(Default, Debug)]
pub(in super::super) struct Kept {
    pub(super) single: Once<Figure>,
    pub(super) figure: Once<Figure>,
    pub(super) hundreds: Once<i64>,
    pub(super) weight: Once<Weight>,
    pub(super) count: Once<Count>,
}

/// Reads by a rule, or gives what it read at the same place before.
pub(super) fn once<'a, T: Copy>(
    input: Tokens<'a>,
    place: impl Fn(&Kept) -> &Once<T>,
    rule: impl FnOnce(Tokens<'a>) -> Read<'a, T>,
) -> Read<'a, T> {
    let Some(place) = input.known.kept.get(input.at).map(place) else { return rule(input) };
    let found = place.get().unwrap_or_else(|| {
        let found = rule(input).ok().map(|(rest, found)| (rest.at as u32, found));
        place.set(Some(found));
        found
    });
    match found {
        Some((at, found)) => Ok((Tokens { at: at as usize, ..input }, found)),
        None => input.fail(),
    }
}

impl<'a> Known<'a> {
    /// The names that begin at a token.
    pub(in super::super) fn hits_at(&self, at: usize) -> &'a [Hit] {
        let (Some(from), Some(to)) = (self.starts.get(at), self.starts.get(at + 1)) else { return &[] };
        self.hits.get(*from as usize..*to as usize).unwrap_or_default()
    }

    /// What the grammar asks for by name.
    pub(in super::super) fn classes(&self) -> &'a Classes {
        &self.words.classes
    }
}

/// The rest of a text, from a token on.
#[derive(Clone, Copy, Debug)]
pub(in super::super) struct Tokens<'a> {
    pub(in super::super) known: &'a Known<'a>,
    pub(in super::super) at: usize,
    pub(in super::super) end: usize,
}

/// Where a rule failed, and which rule.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(in super::super) struct Fault {
    /// The token.
    pub(in super::super) at: u32,
    /// The innermost rule with a name.
    pub(in super::super) rule: &'static str,
}

impl<'a> ParseError<Tokens<'a>> for Fault {
    fn from_error_kind(input: Tokens<'a>, _: ErrorKind) -> Self {
        Self { at: input.at as u32, rule: "" }
    }

    fn append(_: Tokens<'a>, _: ErrorKind, other: Self) -> Self {
        other
    }

    fn or(self, other: Self) -> Self {
        if self.at > other.at { self } else { other }
    }
}

impl<'a> ContextError<Tokens<'a>> for Fault {
    fn add_context(_: Tokens<'a>, rule: &'static str, other: Self) -> Self {
        if other.rule.is_empty() { Self { rule, ..other } } else { other }
    }
}

/// What a parser gives back.
pub(in super::super) type Read<'a, T> = nom::IResult<Tokens<'a>, T, Fault>;

impl<'a> Tokens<'a> {
    /// The token that comes next.
    pub(in super::super) fn first(self) -> Option<&'a Token> {
        if self.at < self.end { self.known.lexed.tokens.get(self.at) } else { None }
    }

    /// The same without its first `n` tokens.
    pub(in super::super) fn skip(self, n: usize) -> Self {
        Self { at: (self.at + n).min(self.end), ..self }
    }

    /// The names that begin here.
    pub(in super::super) fn hits(self) -> &'a [Hit] {
        if self.at < self.end { self.known.hits_at(self.at) } else { &[] }
    }

    /// What the grammar asks for by name.
    pub(in super::super) fn classes(self) -> &'a Classes {
        &self.known.words.classes
    }

    /// Whether what comes next stands right behind the token before it.
    pub(in super::super) fn is_glued(self) -> bool {
        self.first().is_some_and(|token| token.glued)
    }

    pub(super) fn fail<T>(self) -> Read<'a, T> {
        Err(nom::Err::Error(Fault { at: self.at as u32, rule: "" }))
    }
}

impl<'a> nom::Input for Tokens<'a> {
    type Item = &'a Token;
    type Iter = std::slice::Iter<'a, Token>;
    type IterIndices = std::iter::Enumerate<Self::Iter>;

    fn input_len(&self) -> usize {
        self.end - self.at
    }

    fn take(&self, index: usize) -> Self {
        Self { end: (self.at + index).min(self.end), ..*self }
    }

    fn take_from(&self, index: usize) -> Self {
        self.skip(index)
    }

    fn take_split(&self, index: usize) -> (Self, Self) {
        (self.skip(index), self.take(index))
    }

    fn position<P: Fn(&'a Token) -> bool>(&self, predicate: P) -> Option<usize> {
        self.iter_elements().position(predicate)
    }

    fn iter_elements(&self) -> Self::Iter {
        self.known.lexed.tokens.get(self.at..self.end).unwrap_or_default().iter()
    }

    fn iter_indices(&self) -> Self::IterIndices {
        self.iter_elements().enumerate()
    }

    fn slice_index(&self, count: usize) -> Result<usize, nom::Needed> {
        let left = self.input_len();
        if left >= count { Ok(count) } else { Err(nom::Needed::new(count - left)) }
    }
}

/// The longest name of a class that begins here.
pub(in super::super) fn sense<'a>(class: Class) -> impl Fn(Tokens<'a>) -> Read<'a, Sense> {
    move |input| {
        let rank = |hit: &Hit| (hit.len, !hit.repaired);
        let mut longest: Option<&Hit> = None;
        for hit in input.hits().iter().filter(|hit| class.has(hit.sense)) {
            if longest.is_none_or(|known| rank(known) <= rank(hit)) && (!hit.misheard || behind_figure(input)) {
                longest = Some(hit);
            }
        }
        match longest {
            Some(hit) if input.at + usize::from(hit.len) <= input.end => Ok((input.skip(hit.len.into()), hit.sense)),
            _ => input.fail(),
        }
    }
}

/// Whether a figure stands before: only then is `7 ponds` seven pounds.
fn behind_figure(input: Tokens<'_>) -> bool {
    let Some(before) = input.at.checked_sub(1) else { return false };
    let digits = input.known.lexed.tokens.get(before).is_some_and(|token| matches!(token.shape, Shape::Digits(..)));
    digits || input.known.hits_at(before).iter().any(|hit| input.classes().num.has(hit.sense) && !hit.repaired)
}

/// What the longest name of a class means.
pub(in super::super) fn meaning<'a>(class: Class) -> impl Fn(Tokens<'a>) -> Read<'a, &'a Meaning> {
    move |input| {
        let (rest, found) = sense(class)(input)?;
        Ok((rest, input.known.words.meaning(found)))
    }
}

/// The number that a name of the class is.
pub(in super::super) fn number_word<'a>(class: Class) -> impl Fn(Tokens<'a>) -> Read<'a, i64> {
    move |input| {
        let (rest, found) = meaning(class)(input)?;
        // A number is not guessed from a short word that was mistyped: `mair` is no pair; `twnety` is twenty.
        let long = input.first().is_some_and(|token| token.to - token.from >= LONG);
        let written =
            |hit: &Hit| class.has(hit.sense) && (!hit.repaired || long) && usize::from(hit.len) == rest.at - input.at;
        match found {
            _ if class.within(input.classes().num) && !input.hits().iter().any(written) => input.fail(),
            Meaning::Number(n) | Meaning::Part(n) => Ok((rest, *n)),
            _ => input.fail(),
        }
    }
}

/// From this length on, in bytes, a mistyped word is taken for the number that it is near to.
const LONG: u32 = 5;

/// A mark.
pub(in super::super) fn mark<'a>(wanted: Mark) -> impl Fn(Tokens<'a>) -> Read<'a, ()> {
    move |input| match input.first() {
        Some(token) if token.is(wanted) => Ok((input.skip(1), ())),
        _ => input.fail(),
    }
}

/// A mark with nothing between it and what stands before.
pub(in super::super) fn glued_mark<'a>(wanted: Mark) -> impl Fn(Tokens<'a>) -> Read<'a, ()> {
    move |input| if input.is_glued() { mark(wanted)(input) } else { input.fail() }
}

/// Digits: their value and how many there are.
pub(in super::super) fn digits(input: Tokens<'_>) -> Read<'_, (u64, u8)> {
    match input.first().map(|token| token.shape) {
        Some(Shape::Digits(value, count)) => Ok((input.skip(1), (value, count))),
        _ => input.fail(),
    }
}

/// Digits with nothing between them and what stands before.
pub(in super::super) fn glued_digits(input: Tokens<'_>) -> Read<'_, (u64, u8)> {
    if input.is_glued() { digits(input) } else { input.fail() }
}

/// A fraction in one sign.
pub(in super::super) fn vulgar(input: Tokens<'_>) -> Read<'_, (u8, u8)> {
    match input.first().map(|token| token.shape) {
        Some(Shape::Vulgar(above, below)) => Ok((input.skip(1), (above, below))),
        _ => input.fail(),
    }
}

/// A hyphen, if there is one: `seven-pound`, `half-pint`.
pub(in super::super) fn hyphen(input: Tokens<'_>) -> Read<'_, ()> {
    if is_hyphen(&input.known.lexed.tokens, input.at) { Ok((input.skip(1), ())) } else { Ok((input, ())) }
}
