//! What the tables' own directions say of a product, as phrases in `english/directions.txt`: words that leave a
//! product as it was tested, and words that tell which of several products is meant.

use super::item::{Item, Text};
use super::lexicon::Mistake;
use crate::processes::{ProductGroup, ProductInfo};
use crate::vocabulary::Jar;
use std::collections::{BTreeSet, HashMap};
use std::ops::Range;
use std::sync::OnceLock;

const FILE: &str = "english/directions.txt";
const DIRECTIONS: &str = include_str!("english/directions.txt");

/// How many words of a message are looked through.
const MOST: usize = 512;

/// One place of a phrase.
#[derive(Debug, Clone)]
struct Slot {
    /// The words that may stand there.
    words: Vec<&'static str>,
    /// Whether none of them need stand there.
    optional: bool,
    /// Whether several of them may.
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
    /// For each word the phrases that may begin with it: their line and their place in it.
    by_first: HashMap<&'static str, Vec<(usize, usize)>>,
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
        let mut by_first: HashMap<_, Vec<_>> = HashMap::new();
        for (n, line) in lines.iter().enumerate() {
            for (p, phrase) in line.phrases.iter().enumerate() {
                for word in firsts(phrase) {
                    by_first.entry(word).or_default().push((n, p));
                }
            }
        }
        Ok(Self { lines, by_first })
    }
}

/// The words that a phrase may begin with.
fn firsts(phrase: &[Slot]) -> BTreeSet<&'static str> {
    let needed = phrase.iter().position(|slot| !slot.optional).map_or(phrase.len(), |n| n + 1);
    phrase.iter().take(needed).flat_map(|slot| slot.words.iter().copied()).collect()
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

/// A stretch of a message that the directions of its products say too.
#[derive(Debug, Clone)]
pub(super) struct Stretch {
    /// The items of it.
    pub(super) items: Range<usize>,
    /// Whether it says what is put in.
    pub(super) put_in: bool,
}

/// For each item of a message the stretch that it lies in, if the directions of all of the products say it, for all of
/// the jars.
pub(super) fn said(text: &Text<'_>, infos: &[&'static ProductInfo], jars: &[Jar]) -> Vec<Option<Stretch>> {
    let mut said = vec![None; text.items.len()];
    if infos.is_empty() {
        return said;
    }
    let words = words_of(text);
    let of_jar = |line: &Line| line.jar.is_none_or(|jar| !jars.is_empty() && jars.iter().all(|said| *said == jar));
    let of_all = |line: &Line| infos.iter().all(|info| line.groups.iter().any(|group| group.has(info)));
    let directions = directions();
    for (from, word) in words.iter().enumerate() {
        for (n, p) in directions.by_first.get(&*word.text).into_iter().flatten() {
            let Some(line) = directions.lines.get(*n).filter(|line| line.role != Role::Tells) else { continue };
            let Some(tokens) = line.phrases.get(*p).and_then(|phrase| stands(phrase, &words, from)) else { continue };
            if of_jar(line) && of_all(line) {
                mark(text, &mut said, &tokens, line.role == Role::PutIn);
            }
        }
    }
    said
}

/// The tokens of a phrase that stands at a place among the words.
fn stands(phrase: &[Slot], words: &[Word<'_>], from: usize) -> Option<Range<u32>> {
    let here = words.get(from..)?;
    let last = length(phrase, here).checked_sub(1)?;
    Some(here.first()?.token..here.get(last)?.token + 1)
}

/// Marks the items that lie inside of a stretch of tokens. What the directions say goes before what is put in, and the
/// longer stretch before the shorter: `2 T bottled lemon` before `bottled lemon`.
fn mark(text: &Text<'_>, said: &mut [Option<Stretch>], tokens: &Range<u32>, put_in: bool) {
    let inside = |item: &Item| item.from >= tokens.start && item.to <= tokens.end;
    let Some(first) = text.items.iter().position(inside) else { return };
    let items = first..first + text.items.iter().skip(first).take_while(|item| inside(item)).count();
    for place in said.get_mut(items.clone()).into_iter().flatten() {
        let goes_before = |before: &Stretch| (put_in, before.items.len()) < (before.put_in, items.len());
        if place.as_ref().is_none_or(goes_before) {
            *place = Some(Stretch { items: items.clone(), put_in });
        }
    }
}

/// Which of several products a message tells of; `None` where it tells of none, or of more than one.
pub(super) fn told_of(text: &Text<'_>, members: &[&'static ProductInfo]) -> Option<&'static ProductInfo> {
    let of_one = |info: &&'static ProductInfo| {
        let lines = directions().lines.iter().filter(|line| line.role == Role::Tells);
        let phrases =
            lines.filter(|line| line.groups.iter().any(|group| group.has(info))).flat_map(|line| &line.phrases);
        let phrases: Vec<_> = phrases.collect();
        (!phrases.is_empty()).then_some((*info, phrases))
    };
    let may_be_told: Vec<_> = members.iter().filter_map(of_one).collect();
    if may_be_told.is_empty() {
        return None;
    }
    let words = words_of(text);
    let is_said = |phrase: &&Vec<Slot>| (0..words.len()).any(|from| stands(phrase, &words, from).is_some());
    let mut told = may_be_told.iter().filter(|(_, phrases)| phrases.iter().any(is_said));
    let (first, _) = told.next()?;
    told.next().is_none().then_some(*first)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::processes::{Query, family, family_words, lookup, products};
    use crate::quantity::Length;
    use crate::vocabulary::{CannerKind, Pack, Product};

    /// A name that means several products is asked about; words may tell which only where nothing is processed too
    /// short by it: the longest of them, or one by its own name.
    #[test]
    fn no_words_tell_of_a_product_that_is_processed_shorter() -> anyhow::Result<()> {
        let lines = Directions::read()?.lines;
        let (altitude, pressure) = (Length::from_metres(0.0), None);
        let minutes = |info: &'static ProductInfo| {
            let canners = CannerKind::ALL.iter().flat_map(|canner| Jar::ALL.iter().map(move |jar| (*canner, *jar)));
            let processes = canners.flat_map(|(canner, jar)| Pack::ALL.iter().map(move |pack| (canner, jar, *pack)));
            let product = Product::tested(info.id);
            let found = processes.filter_map(|(canner, jar, pack)| {
                lookup(&Query { product: &product, pack: Some(pack), jar, canner, altitude, pressure }).ok()
            });
            found.map(|process| process.minutes).max().unwrap_or_default()
        };
        let mut told = 0;
        for line in lines.iter().filter(|line| line.role == Role::Tells) {
            for info in products().iter().filter(|info| line.groups.iter().any(|group| group.has(info))) {
                let families = family_words().filter_map(family);
                let kin = families.filter(|members| members.iter().any(|member| member.id == info.id));
                let longest = kin.flatten().map(minutes).max().unwrap_or_default();
                let name = info.name.to_lowercase();
                let named = |slot: &Slot| slot.words.iter().all(|word| name.contains(word));
                let by_name = line.phrases.iter().all(|phrase| phrase.iter().all(named));
                assert!(by_name || minutes(info) == longest, "{}", info.id);
                told += 1;
            }
        }
        assert!(told > 1, "no line tells of a product");
        Ok(())
    }

    #[test]
    fn the_file_is_without_mistakes() {
        assert_eq!(Directions::read().err(), None);
    }
}
