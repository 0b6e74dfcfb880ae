//! What the tables' own directions say of a product, as phrases in `english/directions.txt`: words that leave a
//! product as it was tested, and words that tell which of several products is meant.

use super::item::Text;
use super::lexicon::Mistake;
use crate::processes::{ProductGroup, ProductInfo};
use crate::vocabulary::Jar;
use std::collections::HashMap;
use std::sync::OnceLock;

const FILE: &str = "english/directions.txt";
const DIRECTIONS: &str = include_str!("english/directions.txt");

/// How many words of a message are looked through.
const MOST: usize = 512;

/// One place of a phrase.
#[derive(Debug, Clone)]
struct Slot {
    words: Vec<&'static str>,
    optional: bool,
    repeated: bool,
}

/// What a line is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Role {
    /// It says of a product what its directions say.
    Says,
    /// It says what is put in.
    PutIn,
    /// It tells one product from its kin.
    Tells,
}

#[derive(Debug)]
struct Line {
    role: Role,
    groups: Vec<ProductGroup>,
    jar: Option<Jar>,
    phrases: Vec<Vec<Slot>>,
}

/// All the lines.
#[derive(Debug, Default)]
pub(super) struct Directions {
    lines: Vec<Line>,
}

/// The directions, read when they are first needed; with a mistake in the file there are none.
fn directions() -> &'static Directions {
    static READ: OnceLock<Directions> = OnceLock::new();
    READ.get_or_init(|| Directions::read().unwrap_or_default())
}

impl Directions {
    /// Reads the file.
    pub(super) fn read() -> Result<Self, Mistake> {
        let mut sets: HashMap<&str, Vec<&'static str>> = HashMap::new();
        let mut lines = Vec::new();
        for (n, text) in DIRECTIONS.lines().enumerate() {
            let mistake = |what: String| Mistake { file: FILE, line: n + 1, what };
            let text = text.trim();
            if text.is_empty() || text.starts_with('#') {
                continue;
            }
            if let Some((name, words)) = text.strip_prefix('$').and_then(|set| set.split_once(" = ")) {
                sets.insert(name, words.split('|').collect());
                continue;
            }
            let (of, phrases) = text
                .split_once(": ")
                .ok_or_else(|| mistake("neither a comment, nor '$set = words', nor 'products: phrases'".to_owned()))?;
            let (role, of) = match (of.strip_prefix('+'), of.strip_prefix('=')) {
                (Some(of), _) => (Role::PutIn, of),
                (_, Some(of)) => (Role::Tells, of),
                _ => (Role::Says, of),
            };
            let (of, jar) = match of.split_once('/') {
                Some((of, jar)) => {
                    (of, Some(Jar::named(jar).ok_or_else(|| mistake(format!("no jar is called '{jar}'")))?))
                }
                None => (of, None),
            };
            let group = |name| {
                ProductGroup::named(name).ok_or_else(|| mistake(format!("no product or group of products is '{name}'")))
            };
            let phrase = |phrase: &'static str| phrase.split_whitespace().map(|slot| slot_of(slot, &sets)).collect();
            let phrases: Option<Vec<Vec<Slot>>> = phrases.split("; ").map(phrase).collect();
            lines.push(Line {
                role,
                jar,
                groups: of.split(", ").map(group).collect::<Result<_, _>>()?,
                phrases: phrases.ok_or_else(|| mistake("a set of words that no line above names".to_owned()))?,
            });
        }
        Ok(Self { lines })
    }
}

fn slot_of(text: &'static str, sets: &HashMap<&str, Vec<&'static str>>) -> Option<Slot> {
    let (rest, optional) = text.strip_suffix('?').map_or((text, false), |rest| (rest, true));
    let (rest, repeated) = rest.strip_suffix('*').map_or((rest, false), |rest| (rest, true));
    let mut words = Vec::new();
    for word in rest.split('|') {
        match word.strip_prefix('$') {
            Some(set) => words.extend(sets.get(set)?.iter().copied()),
            None => words.push(word),
        }
    }
    Some(Slot { words, optional, repeated })
}

/// A word of the message, with its place among the tokens. A hyphen is none.
struct Word<'a> {
    token: u32,
    text: std::borrow::Cow<'a, str>,
}

fn words_of<'a>(text: &'a Text<'_>) -> Vec<Word<'a>> {
    let tokens = text.lexed.tokens.iter().enumerate().take(MOST);
    let written = |from: u32, to: u32| text.text.get(from as usize..to as usize).unwrap_or_default();
    // A single capital stays: `T` is a tablespoon, `t` a teaspoon.
    let lower = |word: &'a str| {
        if word.len() > 1 && word.bytes().any(|b| b.is_ascii_uppercase()) {
            word.to_lowercase().into()
        } else {
            word.into()
        }
    };
    tokens
        .filter_map(|(n, token)| {
            let word = written(token.from, token.to);
            (!matches!(word, "-" | "(" | ")")).then(|| Word { token: n as u32, text: lower(word) })
        })
        .collect()
}

/// How many words from a place on a phrase takes, at most; 0 where it does not stand there.
fn length(phrase: &[Slot], words: &[Word<'_>]) -> usize {
    let Some((slot, rest)) = phrase.split_first() else { return 0 };
    let here = words.first().is_some_and(|word| slot.words.contains(&&*word.text));
    let mut found = 0;
    if here {
        let behind = words.get(1..).unwrap_or_default();
        let again = if slot.repeated { length(phrase, behind) } else { 0 };
        let next = length(rest, behind);
        let ends = rest.iter().all(|slot| slot.optional);
        found = match again.max(next) {
            0 if ends => 1,
            0 => 0,
            taken => taken + 1,
        };
    }
    if slot.optional { found.max(length(rest, words)) } else { found }
}

/// The items that the directions of every one of the products say, each with whether it is put in; of the jars that are
/// named.
pub(super) struct Said {
    /// For each item: the stretch of items that it is said in.
    pub(super) spans: Vec<Option<(usize, usize, bool)>>,
}

/// What a message says of products in the words of their directions.
pub(super) fn said(text: &Text<'_>, infos: &[&'static ProductInfo], jars: &[Jar]) -> Said {
    let mut spans = vec![None; text.items.len()];
    if infos.is_empty() {
        return Said { spans };
    }
    let words = words_of(text);
    let of_jar = |line: &Line| line.jar.is_none_or(|jar| !jars.is_empty() && jars.iter().all(|said| *said == jar));
    let of_all = |line: &Line| infos.iter().all(|info| line.groups.iter().any(|group| group.has(info)));
    for line in directions().lines.iter().filter(|line| line.role != Role::Tells && of_jar(line) && of_all(line)) {
        for phrase in &line.phrases {
            for from in 0..words.len() {
                let taken = length(phrase, words.get(from..).unwrap_or_default());
                let (Some(first), Some(last)) = (words.get(from), words.get((from + taken).wrapping_sub(1))) else {
                    continue;
                };
                if taken > 0 {
                    mark(text, &mut spans, first.token, last.token + 1, line.role == Role::PutIn);
                }
            }
        }
    }
    Said { spans }
}

/// Marks the items that lie inside of a stretch of tokens.
fn mark(text: &Text<'_>, spans: &mut [Option<(usize, usize, bool)>], from: u32, to: u32, put_in: bool) {
    let inside = |n: usize| text.items.get(n).is_some_and(|item| item.from >= from && item.to <= to);
    let within: Vec<usize> = (0..text.items.len()).filter(|n| inside(*n)).collect();
    let (Some(first), Some(last)) = (within.first(), within.last()) else { return };
    for n in *first..=*last {
        if let Some(span) = spans.get_mut(n).filter(|span| !matches!(span, Some((_, _, false)))) {
            *span = Some((*first, *last + 1, put_in));
        }
    }
}

/// Which of several products a message tells of; `None` where it tells of none, or of more than one.
pub(super) fn told_of(text: &Text<'_>, members: &[&'static ProductInfo]) -> Option<&'static ProductInfo> {
    let words = words_of(text);
    let says = |info: &&&'static ProductInfo| {
        let lines = directions().lines.iter().filter(|line| line.role == Role::Tells);
        lines.filter(|line| line.groups.iter().any(|group| group.has(info))).any(|line| {
            line.phrases
                .iter()
                .any(|phrase| (0..words.len()).any(|from| length(phrase, words.get(from..).unwrap_or_default()) > 0))
        })
    };
    let mut told = members.iter().filter(says);
    let first = told.next()?;
    told.next().is_none().then_some(*first)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_file_is_without_mistakes() {
        assert_eq!(Directions::read().err(), None);
    }
}
