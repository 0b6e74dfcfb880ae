//! The words that tie a message to those before it: `english/discourse.txt`.

use super::super::item::Text;
use super::super::lex::{Lexed, Mark, Shape, Token, lex};
use super::super::lists::lists;
use std::sync::OnceLock;

const WORDS: &str = include_str!("../english/discourse.txt");
/// Between two words.
const SPACE: &str = " ";

/// What a list of words says.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Sign {
    /// That the message goes on with another one.
    GoesOn,
    /// That it speaks of an amount: `weight`.
    Amount,
    /// That it is not sure.
    Doubt,
    /// That something stands against it.
    But,
}

/// The lists in the order of the file, each phrase as its words.
type Lists = Vec<Vec<Vec<&'static str>>>;

fn list(sign: Sign) -> &'static [Vec<&'static str>] {
    static LISTS: OnceLock<Lists> = OnceLock::new();
    let lists = LISTS.get_or_init(|| {
        let phrases = |all: Vec<&'static str>| all.iter().map(|phrase| phrase.split_whitespace().collect()).collect();
        lists(WORDS).into_iter().map(phrases).collect()
    });
    lists.get(sign as usize).map_or(&[], |list| list)
}

fn is_word(token: &Token) -> bool {
    matches!(token.shape, Shape::Word | Shape::Digits(..))
}

/// The signs and words of a message, in its folded letters.
fn folded<'a>(lexed: &'a Lexed, tokens: impl Iterator<Item = &'a Token>) -> Vec<&'a str> {
    tokens.map(|token| lexed.folded(token)).collect()
}

/// Whether a phrase of the list stands in a message.
pub(super) fn has(text: &Text<'_>, sign: Sign) -> bool {
    let words = folded(&text.lexed, text.lexed.tokens.iter());
    list(sign).iter().any(|phrase| words.windows(phrase.len().max(1)).any(|window| window == phrase))
}

/// Whether a single word is on the list.
pub(super) fn is(text: &Text<'_>, n: usize, sign: Sign) -> bool {
    let said = text.said(n, n + 1).map(|said| said.to_lowercase());
    said.is_some_and(|said| list(sign).iter().any(|phrase| phrase.join(SPACE) == said))
}

/// What stands before a doubt at the end of a message, set off by a mark or a `but`; `None` where there is no doubt.
pub(super) fn before_doubt(text: &str) -> Option<&str> {
    let lexed = lex(text);
    let words: Vec<(usize, &str)> = (0..)
        .zip(&lexed.tokens)
        .filter(|(_, token)| is_word(token))
        .map(|(n, token)| (n, lexed.folded(token)))
        .collect();
    let ends = |phrase: &&Vec<&str>| {
        phrase.len() < words.len()
            && words.iter().rev().zip(phrase.iter().rev()).all(|((_, word), known)| word == known)
    };
    let longest = list(Sign::Doubt).iter().filter(ends).map(Vec::len).max()?;
    let (first, _) = *words.get(words.len() - longest)?;
    let before = first.checked_sub(1)?;
    let token = lexed.tokens.get(before)?;
    let but = list(Sign::But).iter().any(|phrase| **phrase == [lexed.folded(token)]);
    if is_word(token) && !but {
        return None;
    }
    let head = text.get(..token.from as usize)?.trim_end();
    (!head.is_empty()).then_some(head)
}

/// Whether a clause ends at a token: `2.75` and `1,000` go on.
fn ends_at(lexed: &Lexed, at: usize, marks: &[Mark]) -> bool {
    let is_mark = lexed.tokens.get(at).is_some_and(|token| marks.iter().any(|mark| token.is(*mark)));
    is_mark && !lexed.tokens.get(at + 1).is_some_and(|next| next.glued && is_word(next))
}

/// What stands before the first mark between two words, and what behind it.
pub(in super::super) fn first_clause(text: &str) -> Option<(&str, &str)> {
    let lexed = lex(text);
    let at = (0..lexed.tokens.len())
        .find(|at| ends_at(&lexed, *at, &[Mark::Comma, Mark::Dot, Mark::Bang, Mark::Semicolon]))?;
    let token = lexed.tokens.get(at)?;
    if at == 0 || !lexed.tokens.iter().skip(at).any(is_word) {
        return None;
    }
    Some((text.get(..token.from as usize)?.trim(), text.get(token.to as usize..)?.trim()))
}

/// The sentences of a text.
pub(super) fn sentences(text: &str) -> Vec<&str> {
    let lexed = lex(text);
    let mut from = 0;
    let mut all = Vec::new();
    let stops = |at: &usize| ends_at(&lexed, *at, &[Mark::Dot, Mark::Bang, Mark::Semicolon]);
    for token in (0..lexed.tokens.len()).filter(stops).filter_map(|at| lexed.tokens.get(at)) {
        all.extend(text.get(from..token.from as usize));
        from = token.to as usize;
    }
    all.extend(text.get(from..));
    all.into_iter().map(str::trim).filter(|part| !part.is_empty()).collect()
}
