//! Sentences made from the grammar are read whole, as the value of the rule that they were made from.

mod reasons;

use super::grammar::{Grammar, KINDS, Part, is_under, names};
use super::{Dice, today};
use rackful::phrase::training::{Seen, Valued, tokens_of, values_of};
use reasons::{ASKED, Asked, REASONS};
use std::collections::{BTreeMap, BTreeSet, HashMap};

/// A sentence, with the rules and classes that its stretches were made from.
#[derive(Default)]
struct Made {
    text: String,
    /// The next word stands right behind what is before.
    glue: bool,
    /// Rules and classes, and where they begin and end in the text.
    parts: Vec<Stretch>,
    /// Choices and ways taken.
    ways: BTreeSet<(usize, usize)>,
    /// No way was found that fits.
    failed: bool,
}

/// What a stretch of a sentence was made from.
#[derive(Clone, Debug)]
struct Stretch {
    /// The rule, or the class in angle brackets.
    name: String,
    /// The path of a word, empty for a rule.
    path: String,
    from: usize,
    to: usize,
}

struct Maker<'a> {
    grammar: &'a Grammar,
    names: &'a [(String, Vec<String>)],
    #[expect(clippy::type_complexity, reason = "one map of words, in one place")]
    by_class: HashMap<(String, Option<String>), Vec<(&'a str, &'a str)>>,
    broken: BTreeMap<(&'static str, &'static str), usize>,
    dice: Dice,
    /// Ways that were taken in sentences that were read: the others are taken more often.
    taken: BTreeSet<(usize, usize)>,
}

/// Deeper than this nothing is made that need not be.
const DEEPEST: usize = 24;

impl<'a> Maker<'a> {
    fn make(&mut self, part: &'a Part, depth: usize, made: &mut Made) {
        match part {
            Part::Rule(name) => self.rule(name, depth, made),
            Part::Class(class, but) => {
                let (path, word) = self.word(class, but.as_ref());
                self.say(&word, made);
                let (from, to) = (made.text.len() - word.len(), made.text.len());
                made.parts.push(Stretch { name: format!("<{class}>"), path, from, to });
            }
            Part::Digits(count, values) => {
                let (low, high) = values.unwrap_or(match count {
                    Some(3) => (100, 999),
                    Some(2) => (10, 99),
                    Some(4) => (1990, 2099),
                    _ => *self.dice.of(&[(1, 1), (1, 4), (1, 9), (1, 40), (1, 400), (500, 500), (250, 250)]),
                });
                let n = low + self.dice.below((high - low + 1) as usize) as u64;
                self.say(&if *count == Some(2) { format!("{n:02}") } else { n.to_string() }, made);
            }
            Part::Vulgar => {
                let sign = *self.dice.of(&["½", "¼", "¾", "⅓", "⅔", "⅛"]);
                self.say(sign, made);
            }
            Part::Letter => {
                let letter = *self.dice.of(&["A", "B", "e", "k", "R", "v"]);
                self.say(letter, made);
            }
            Part::Hyphen => {
                made.glue = true;
                self.say("-", made);
                made.glue = true;
            }
            Part::Mark(sign) => self.say(&sign.to_string(), made),
            Part::Glued(part) => {
                made.glue = true;
                self.make(part, depth, made);
            }
            Part::Maybe(number, part) => {
                let taken = depth < DEEPEST && self.dice.below(5) < 2;
                made.ways.insert((*number, taken.into()));
                if taken {
                    self.make(part, depth + 1, made);
                }
            }
            Part::Repeated(number, part) => {
                let times = self.dice.below(3);
                made.ways.insert((*number, times.min(1)));
                (0..times).for_each(|_| self.make(part, depth + 1, made));
            }
            Part::Row(all) => all.iter().for_each(|part| self.make(part, depth, made)),
            Part::Either(number, all) => {
                // Plain digits are what most people write.
                let plain =
                    all.iter().position(|part| matches!(part, Part::Digits(..))).filter(|_| self.dice.below(2) == 1);
                let new: Vec<usize> = (0..all.len()).filter(|way| !self.taken.contains(&(*number, *way))).collect();
                let new = (!new.is_empty() && self.dice.below(8) == 0).then(|| *self.dice.of(&new));
                let way = new.or(plain).unwrap_or_else(|| self.dice.below(all.len()));
                made.ways.insert((*number, way));
                self.make(&all[way], depth + 1, made);
            }
        }
    }

    /// Makes a rule until what it asks for besides holds.
    fn rule(&mut self, name: &'a str, depth: usize, made: &mut Made) {
        let before = (made.text.len(), made.glue, made.parts.len(), made.ways.clone());
        for _ in 0..TRIES {
            made.parts.push(Stretch { name: name.to_owned(), path: String::new(), from: 0, to: 0 });
            self.make(&self.grammar.rules[name], depth + 1, made);
            let said = &made.text[before.0..];
            let from = before.0 + said.len() - said.trim_start().len();
            let whole = &mut made.parts[before.2];
            (whole.from, whole.to) = (from, made.text.len());
            let sub = Sub { text: &made.text, parts: &made.parts[before.2..] };
            let broken = ASKED.iter().find(|(of, _, holds)| *of == name && !holds(&sub));
            let Some((of, what, _)) = broken else { return };
            *self.broken.entry((of, what)).or_default() += 1;
            made.text.truncate(before.0);
            made.glue = before.1;
            made.parts.truncate(before.2);
            made.ways.clone_from(&before.3);
        }
        made.failed = true;
    }

    fn say(&mut self, word: &str, made: &mut Made) {
        if !made.glue && !made.text.is_empty() {
            made.text.push(' ');
        }
        made.glue = false;
        made.text.push_str(word);
    }

    fn word(&mut self, class: &str, but: Option<&String>) -> (String, String) {
        let known = self.by_class.entry((class.to_owned(), but.cloned())).or_insert_with(|| {
            let fits = |path: &str| is_under(path, class) && !but.is_some_and(|but| is_under(path, but));
            let paths = self.names.iter().filter(|(path, _)| fits(path));
            paths.flat_map(|(path, names)| names.iter().map(move |name| (path.as_str(), name.as_str()))).collect()
        });
        let (path, name) = *self.dice.of(known);
        (path.to_owned(), name.to_owned())
    }
}

/// How often a rule is made anew until it fits.
const TRIES: usize = 400;

/// What was made from a rule.
struct Sub<'a> {
    text: &'a str,
    parts: &'a [Stretch],
}

impl<'a> Sub<'a> {
    fn said(&self) -> &'a str {
        &self.text[self.parts[0].from..self.parts[0].to]
    }

    /// What was made from a rule or class inside, the outermost of each.
    fn all(&self, name: &str) -> Vec<&'a str> {
        self.stretches(name).into_iter().map(|part| &self.text[part.from..part.to]).collect()
    }

    fn stretches(&self, name: &str) -> Vec<&'a Stretch> {
        let mut out: Vec<&Stretch> = Vec::new();
        for part in self.parts[1..].iter().filter(|part| part.name == name) {
            if out.last().is_none_or(|last| last.to <= part.from) {
                out.push(part);
            }
        }
        out
    }

    /// The last parts of the paths of a class's words.
    fn numbers(&self, class: &str) -> Vec<i64> {
        let last = |part: &&Stretch| part.path.rsplit('.').next().and_then(|n| n.parse().ok());
        self.stretches(class).iter().filter_map(last).collect()
    }

    fn has(&self, name: &str) -> bool {
        self.parts[1..].iter().any(|part| part.name == name)
    }
}

/// A sentence that was made, with what is read of it.
struct Case<'a> {
    grammar: &'a Grammar,
    kind: &'a str,
    made: &'a Made,
    tokens: &'a [Seen],
    values: &'a [Valued],
}

impl Case<'_> {
    fn is_read(&self) -> bool {
        self.values.iter().any(|value| value.kind == self.kind && value.from == 0 && value.to == self.tokens.len())
    }

    fn has(&self, name: &str) -> bool {
        self.made.parts.iter().any(|part| part.name == name)
    }

    fn token_at(&self, byte: usize) -> Option<usize> {
        self.tokens.iter().position(|token| token.from == byte)
    }

    fn behind(&self, byte: usize) -> Option<usize> {
        self.tokens.iter().position(|token| token.to == byte).map(|at| at + 1)
    }
}

/// What became of the sentences.
#[derive(Default)]
struct Tally {
    read: BTreeMap<&'static str, usize>,
    made: usize,
    reasons: BTreeMap<&'static str, usize>,
    wrong: Vec<String>,
}

impl Tally {
    /// Makes sentences of a kind.
    fn sample<'a>(&mut self, maker: &mut Maker<'a>, kind: &'static str, times: usize) {
        let grammar: &'a Grammar = maker.grammar;
        let Some((rule, _)) = grammar.rules.get_key_value(kind) else { panic!("no rule: {kind}") };
        for _ in 0..times {
            let mut made = Made::default();
            maker.rule(rule, 0, &mut made);
            if made.failed {
                continue;
            }
            let (tokens, values) = (tokens_of(&made.text), values_of(&made.text, today(), false));
            let case = Case { grammar, kind, made: &made, tokens: &tokens, values: &values };
            self.made += 1;
            if case.is_read() {
                *self.read.entry(kind).or_insert(0) += 1;
                maker.taken.extend(&made.ways);
            } else if let Some((reason, _)) = REASONS.iter().find(|(_, holds)| holds(&case)) {
                *self.reasons.entry(reason).or_default() += 1;
            } else {
                self.wrong.push(format!("{kind}: {} | {:?}", made.text, made.parts));
            }
        }
    }
}

/// Ways of the grammar that no sentence took that was read.
fn missing(maker: &Maker<'_>) -> Vec<String> {
    let choices = maker.grammar.choices.iter().enumerate();
    choices
        .flat_map(|(number, (rule, ways))| (0..*ways).map(move |way| (number, rule, way)))
        .filter(|(number, _, way)| !maker.taken.contains(&(*number, *way)))
        .map(|(number, rule, way)| format!("{rule}, choice {number}, way {way}"))
        .collect()
}

#[test]
fn sentences_that_the_rules_make_are_read() {
    let (grammar, names) = (Grammar::load(), names());
    let mut maker = Maker {
        grammar: &grammar,
        names: &names,
        by_class: HashMap::new(),
        broken: BTreeMap::new(),
        dice: Dice(7),
        taken: BTreeSet::new(),
    };
    let mut tally = Tally::default();
    for kind in KINDS.into_iter().chain(["place"]) {
        // Numbers and portions have the most ways.
        tally.sample(&mut maker, kind, if ["number", "portions"].contains(&kind) { 3 } else { 1 } * SENTENCES);
    }
    // What is made seldom.
    for _ in 0..MORE {
        if !missing(&maker).is_empty() {
            ["number", "portions", "day"].into_iter().for_each(|kind| tally.sample(&mut maker, kind, SENTENCES / 2));
        }
    }
    // A day is written in so many ways that few of them are of one.
    while ASKED.iter().any(|of| !maker.broken.contains_key(&(of.0, of.1))) && tally.made < MOST {
        tally.sample(&mut maker, "day", SENTENCES);
    }
    println!("{:?} of {}\n{:#?}\n{:?}", tally.read, tally.made, tally.reasons, maker.broken);
    let mut problems = tally.wrong;
    // A few ways are too seldom made to be among so many sentences.
    let ways: usize = grammar.choices.iter().map(|(_, ways)| ways).sum();
    let seldom = missing(&maker);
    if seldom.len() * 20 > ways {
        problems.extend(seldom.into_iter().map(|way| format!("never read as made: {way}")));
    }
    let broken = |of: &Asked| maker.broken.contains_key(&(of.0, of.1));
    problems.extend(
        ASKED.iter().filter(|of| !broken(of)).map(|of| format!("asked for, and never broken: {}: {}", of.0, of.1)),
    );
    let occurs = |reason: &str| tally.reasons.contains_key(reason);
    problems
        .extend(REASONS.iter().filter(|of| !occurs(of.0)).map(|of| format!("a reason that never occurs: {}", of.0)));
    assert!(problems.is_empty(), "{}:\n{}", problems.len(), problems.join("\n"));
    // Most of what the rules make is read.
    let read: usize = tally.read.values().sum();
    assert!(read * 100 >= tally.made * 94, "{read} of {}", tally.made);
}

/// How many sentences are made of each rule.
const SENTENCES: usize = 200;
/// How often more are made for ways that none has taken.
const MORE: usize = 8;
/// No more are made than these.
const MOST: usize = 20_000;
