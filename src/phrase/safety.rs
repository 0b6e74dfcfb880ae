//! Words over which nobody may be left without an answer: illness after home-canned food, jars that are spoiled, ways
//! that are no way to can. They are found by lists and rules (`english/safety.txt`) before anything else is read, and
//! what they say is never only proposed: a learned score may be wrong about a word, and here that could
//! poison somebody.

use super::build::{Clause, Scene, product_named};
use super::context::Context;
use super::frame::{Frame, Slots, types_of};
use super::household::Household;
use super::item::{Item, Text};
use super::lex::{Mark, Shape};
use super::thawed;
use super::value::Value;
use crate::quantity::Number;
use crate::statement::{Ask, Spoiled, Statement};
use crate::vocabulary::{Condition, Jar, Kind, Matter, Mishap, Product, Sign, Subject};
use levenshtein_automata::{Distance, LevenshteinAutomatonBuilder};
use rustc_hash::FxHashMap;
use std::sync::OnceLock;

const TEXT: &str = include_str!("english/safety.txt");

/// The lists that the code asks for by their place in the file; the rules ask for all others by name.
const DENIED: usize = 0;
const ASKING: usize = 1;
const WHAT_NOW: usize = 2;
const ONE: usize = 6;
const ENDS: usize = 7;
const THROWN: usize = 8;
const USED: usize = 9;

/// A message of so many words says no more than that something is gone.
const SHORT: usize = 5;

/// A word of a rule counts only where none of the list of denials stands within so many words before it.
const DENIAL_REACHES: usize = 4;
/// A shorter word is not looked for with a slip in it: of three letters everything is near to something.
const SHORTEST: usize = 5;
/// From this length on two slips are allowed.
const TWO_SLIPS: usize = 8;

/// Stands in the subject of a rule that holds only after a spoiled jar was told of.
const AFTER: char = '.';
/// What stands before a subject that counts while a batch is open.
const OPEN: char = '@';

/// Stands in the subject of a rule about thawed fruit, before the kind of statement that it makes.
const OF_THAWED: char = '/';

/// A list of words by its number.
type List = usize;

/// A rule: what a message with words of all of some lists, and of none of others, is about.
struct Rule {
    subject: &'static str,
    /// Lists of which a word must be there, and whether it must not be denied.
    all: Vec<(List, bool)>,
    none: Vec<List>,
}

/// The file, taken apart.
#[derive(Default)]
struct Rules {
    lists: Vec<&'static str>,
    /// Names by their first word: the list, and the words after the first.
    names: FxHashMap<&'static str, Vec<(List, Vec<&'static str>)>>,
    /// Every word in a name, for those that were mistyped.
    words: Vec<&'static str>,
    rules: Vec<Rule>,
    slips: Option<(LevenshteinAutomatonBuilder, LevenshteinAutomatonBuilder)>,
}

impl Rules {
    fn load() -> Self {
        let slips = Some((LevenshteinAutomatonBuilder::new(1, true), LevenshteinAutomatonBuilder::new(2, true)));
        let mut rules = Self { slips, ..Self::default() };
        let lines = || TEXT.lines().filter(|line| !line.starts_with('#'));
        for (name, all) in lines().filter_map(|line| line.split_once(": ")) {
            let list = rules.lists.len();
            rules.lists.push(name);
            for entry in all.split(',') {
                let mut words = entry.split_whitespace();
                let Some(first) = words.next() else { continue };
                let rest: Vec<_> = words.collect();
                rules.words.extend(std::iter::once(first).chain(rest.iter().copied()));
                rules.names.entry(first).or_default().push((list, rest));
            }
        }
        rules.words.sort_unstable();
        rules.words.dedup();
        let of = |name: &str| rules.lists.iter().position(|list| *list == name.trim());
        let rule = |(subject, line): (&'static str, &str)| {
            let mut parts = line.split(" - ");
            let all = parts.next()?.split(" + ").map(|name| {
                let name = name.trim();
                Some((of(name.trim_end_matches('!'))?, name.ends_with('!')))
            });
            Some(Rule { subject, all: all.collect::<Option<_>>()?, none: parts.map(of).collect::<Option<_>>()? })
        };
        let found = lines().filter_map(|line| line.split_once(" = ")).filter_map(rule).collect();
        rules.rules = found;
        rules
    }

    fn list(&self, name: &str) -> Option<List> {
        self.lists.iter().position(|list| *list == name)
    }

    /// The words of the lists that a mistyped word may have been.
    fn meant(&self, word: &str) -> Vec<&'static str> {
        let Some((one, two)) = self.slips.as_ref().filter(|_| word.len() >= SHORTEST) else { return Vec::new() };
        let builder = if word.len() >= TWO_SLIPS { two } else { one };
        let automaton = builder.build_dfa(word);
        let near =
            |known: &&&str| known.len() >= SHORTEST && matches!(automaton.eval(known.as_bytes()), Distance::Exact(_));
        self.words.iter().filter(near).copied().collect()
    }
}

fn rules() -> &'static Rules {
    static RULES: OnceLock<Rules> = OnceLock::new();
    RULES.get_or_init(Rules::load)
}

/// A word of a message, with the token that it is; a mark between words is no word, and ends what a denial reaches.
struct Word<'a> {
    token: usize,
    letters: &'a str,
    meant: Vec<&'static str>,
}

impl Word<'_> {
    fn is(&self, known: &str) -> bool {
        self.letters == known || self.meant.contains(&known)
    }
}

/// A name of a list that stands in a message.
struct Hit {
    list: List,
    /// The token where it begins.
    token: usize,
    denied: bool,
}

/// What a message says, by the lists.
struct Heard {
    hits: Vec<Hit>,
}

impl Heard {
    fn of(text: &Text<'_>) -> Self {
        let (rules, words) = (rules(), words_of(text));
        let mut hits = Vec::new();
        for at in 0..words.len() {
            let Some(first) = words.get(at) else { continue };
            let firsts = std::iter::once(first.letters).chain(first.meant.iter().copied());
            for (list, rest) in firsts.filter_map(|word| rules.names.get(word)).flatten() {
                let fits = |(n, word): (usize, &&str)| words.get(at + 1 + n).is_some_and(|said| said.is(word));
                if rest.iter().enumerate().all(fits) {
                    hits.push(Hit { list: *list, token: first.token, denied: false });
                }
            }
        }
        let denials: Vec<usize> = hits.iter().filter(|hit| hit.list == DENIED).map(|hit| hit.token).collect();
        let word_at = |token: usize| words.iter().position(|word| word.token == token);
        for hit in &mut hits {
            let at = word_at(hit.token).unwrap_or_default();
            let reached = words.get(at.saturating_sub(DENIAL_REACHES)..at).unwrap_or_default();
            let near = reached.iter().rev().take_while(|word| word.letters.chars().any(char::is_alphanumeric));
            hit.denied = near.into_iter().any(|word| denials.contains(&word.token));
        }
        Self { hits }
    }

    fn has(&self, list: List, undenied: bool) -> bool {
        self.hits.iter().any(|hit| hit.list == list && !(undenied && hit.denied))
    }

    fn fits(&self, rule: &Rule) -> bool {
        rule.all.iter().all(|(list, undenied)| self.has(*list, *undenied))
            && !rule.none.iter().any(|list| self.has(*list, false))
    }

    /// What the message is about, by the first rule that fits.
    fn subject(&self) -> Option<&'static str> {
        let mut plain =
            rules().rules.iter().filter(|rule| !rule.subject.contains(AFTER) && !rule.subject.starts_with(OPEN));
        plain.find(|rule| self.fits(rule)).map(|rule| rule.subject)
    }

    /// Whether it tells of somebody who ate or fell ill, for one who knows that a jar was spoiled a short while ago.
    fn is_ill_after(&self) -> bool {
        let mut after = rules().rules.iter().filter(|rule| rule.subject.contains(AFTER));
        after.any(|rule| self.fits(rule)) || self.subject().and_then(Subject::named) == Some(Subject::Ill)
    }
}

fn words_of<'a>(text: &'a Text<'_>) -> Vec<Word<'a>> {
    let tokens = text.lexed.tokens.iter().enumerate();
    let kept = tokens.filter(|(_, token)| !token.is(Mark::Dash) && !token.is(Mark::Quote));
    let mut words: Vec<Word<'a>> = Vec::new();
    for (n, token) in kept {
        let letters = if token.is(Mark::Question) { "?" } else { text.lexed.folded(token) };
        // `it's` is `it`, and a word in the plural owns nothing.
        if letters.starts_with('\'') {
            continue;
        }
        let unknown = token.shape == Shape::Word && !text.words.is_known(letters);
        let meant = if unknown { rules().meant(letters) } else { Vec::new() };
        words.push(Word { token: n, letters, meant });
    }
    words
}

/// What a message says of illness, spoiled jars or what is safe; `None` where it says nothing of them.
pub(super) fn heard(text: &Text<'_>, household: &Household, context: &Context<'_>) -> Option<Statement> {
    let heard = Heard::of(text);
    let asked =
        |matter: Matter| Statement::Ask(Ask { what: Some(matter.as_str().to_owned()), ..Ask::about(Subject::Safety) });
    let after_spoiled = matches!(context.last.map(|last| last.statement), Some(Statement::Spoiled(_)));
    let subject = heard.subject();
    if subject.and_then(Subject::named) == Some(Subject::Ill) || after_spoiled && heard.is_ill_after() {
        return Some(Statement::Ask(Ask::about(Subject::Ill)));
    }
    let subject = subject?;
    if Kind::named(subject) == Some(Kind::Spoiled) {
        let asks = heard.has(ASKING, false) && !heard.has(WHAT_NOW, false);
        return Some(if asks {
            asked(Matter::Spoiled)
        } else {
            Statement::Spoiled(spoiled(text, household, context, &heard))
        });
    }
    if let Some((_, kind)) = subject.split_once(OF_THAWED) {
        return thawed::statement(Kind::named(kind)?, text);
    }
    Matter::named(subject).map(asked)
}

/// Whether a message may tell of heat or pressure that was lost, to one whose canner is hot.
pub(super) fn may_be_lost(text: &Text<'_>) -> bool {
    Heard::of(text).subject().and_then(Mishap::named) == Some(Mishap::Unclear)
}

/// What may be amiss with the jars of a batch that is open.
pub(super) fn amiss(text: &Text<'_>) -> Option<Matter> {
    let heard = Heard::of(text);
    let mut open = rules().rules.iter().filter_map(|rule| Some((rule.subject.strip_prefix(OPEN)?, rule)));
    open.find(|(_, rule)| heard.fits(rule)).and_then(|(subject, _)| Matter::named(subject))
}

/// Whether a message tells of fruit that thaws, or thawed, at room temperature.
pub(super) fn thaws_on_counter(text: &Text<'_>) -> bool {
    Heard::of(text).subject().and_then(Matter::named) == Some(Matter::ThawCounter)
}

/// Whether a message tells of somebody who ate or fell ill, for one who knows that a jar was spoiled a short while ago.
pub(super) fn may_be_ill(text: &Text<'_>) -> bool {
    Heard::of(text).is_ill_after()
}

/// Whether a message says that something was thrown away.
pub(super) fn throws(text: &Text<'_>) -> bool {
    Heard::of(text).has(THROWN, false)
}

/// What a message says of the fruit that was picked, where that decides whether it may go into jars.
pub(super) fn conditions(text: &Text<'_>) -> Vec<Condition> {
    let heard = Heard::of(text);
    let is_said = |state: &&Condition| rules().list(state.as_str()).is_some_and(|list| heard.has(list, true));
    Condition::ALL.iter().filter(is_said).copied().collect()
}

/// Whether a short message says that something is gone: thrown away, or used. It is for who asked to know of what.
pub(super) fn rid_of(text: &Text<'_>) -> Option<Kind> {
    if text.items.len() > SHORT || text.items.iter().any(|item| !item.values.is_empty()) {
        return None;
    }
    let heard = Heard::of(text);
    let kinds = [(THROWN, Kind::Tossed), (USED, Kind::Ate)];
    kinds.into_iter().find(|(list, _)| heard.has(*list, true)).map(|(_, kind)| kind)
}

/// Whether a message tells of a jar that was spoiled.
pub(super) fn is_spoiled(text: &Text<'_>) -> bool {
    Heard::of(text).subject().and_then(Kind::named) == Some(Kind::Spoiled)
}

fn spoiled(text: &Text<'_>, household: &Household, context: &Context<'_>, heard: &Heard) -> Spoiled {
    let sign = |sign: &&Sign| rules().list(sign.as_str()).is_some_and(|list| heard.has(list, true));
    let signs: Vec<Sign> = Sign::ALL.iter().filter(sign).copied().collect();
    let jars_of = |item: &Item| {
        item.values.iter().find_map(|value| match value {
            Value::Jars(jars) if jars.jar.is_some() || jars.count.is_some() => Some(*jars),
            _ => None,
        })
    };
    let from = text.items.iter().position(|item| jars_of(item).is_some());
    let jars = from.and_then(|n| text.items.get(n)).and_then(jars_of);
    let product = from
        .map(|from| (from, end(text, heard, from)))
        .and_then(|(from, to)| named(text, household, context, from, to));
    let product = product.or_else(|| {
        let food = text.items.iter().position(|item| is_food(text, item))?;
        named(text, household, context, food, food + 1)
    });
    let jar = jars.and_then(|jars| jars.jar).or_else(|| sizes(text));
    let counted = jars.and_then(|jars| jars.count).and_then(Number::as_count);
    let number = text.items.iter().flat_map(|item| &item.values).find_map(|value| match value {
        Value::Number(figure) if !figure.article => figure.number.as_count(),
        Value::OutOf(out) => Some(out.jars),
        _ => None,
    });
    let article = jars.is_some_and(|jars| jars.article);
    let jars = if article { number.or(counted) } else { counted.or(number) };
    Spoiled { signs: (!signs.is_empty()).then_some(signs), jars: jars.or_else(|| one(heard)), jar, product, on: None }
}

/// Where what a jar holds ends.
fn end(text: &Text<'_>, heard: &Heard, from: usize) -> usize {
    let stops = |item: &Item| {
        item.mark.is_some() || heard.hits.iter().any(|hit| hit.list == ENDS && hit.token == item.from as usize)
    };
    let behind = text.items.iter().enumerate().skip(from + 1);
    behind.into_iter().find(|(_, item)| stops(item)).map_or(text.items.len(), |(n, _)| n)
}

fn is_food(text: &Text<'_>, item: &Item) -> bool {
    item.is_any(&[text.words.classes.product, text.words.classes.crop])
}

fn named(text: &Text<'_>, household: &Household, context: &Context<'_>, from: usize, to: usize) -> Option<Product> {
    let types: Vec<_> = text.items.iter().map(types_of).collect();
    let frame = Frame::asking_for(Slots::Product.with(Slots::Jars));
    let scene = Scene { text, types: &types, context, household };
    let clause = Clause { scene, frame: &frame, from, to, trigger: &[] };
    product_named(&clause).map(|(product, _)| product)
}

/// The size of the jars, where they are not counted.
fn sizes(text: &Text<'_>) -> Option<Jar> {
    text.items.iter().flat_map(|item| &item.values).find_map(|value| match value {
        Value::Jars(jars) => jars.jar,
        Value::OutOf(out) => out.jar,
        _ => None,
    })
}

/// `the jar`: one, where no number was said.
fn one(heard: &Heard) -> Option<u32> {
    heard.has(ONE, false).then_some(1)
}
