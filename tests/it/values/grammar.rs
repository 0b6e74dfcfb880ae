//! The rules at the head of the grammar's source, and the words of their classes.

use std::collections::{BTreeMap, BTreeSet};

const SOURCE: &str = include_str!("../../../src/phrase/value/mod.rs");

/// A part of a rule.
#[derive(Clone, Debug)]
pub(super) enum Part {
    Rule(String),
    /// A class, and one of its own that is not meant.
    Class(String, Option<String>),
    /// Digits: how many, and of which values.
    Digits(Option<usize>, Option<(u64, u64)>),
    Vulgar,
    Letter,
    Hyphen,
    Mark(char),
    /// Right behind what is before.
    Glued(Box<Part>),
    /// With its number, for what has been made of it.
    Maybe(usize, Box<Part>),
    Repeated(usize, Box<Part>),
    Row(Vec<Part>),
    Either(usize, Vec<Part>),
}

/// All rules.
pub(super) struct Grammar {
    pub(super) rules: BTreeMap<String, Part>,
    /// How many choices there are, and between how many ways each.
    pub(super) choices: Vec<(String, usize)>,
}

impl Grammar {
    /// From the comment at the head of the source.
    pub(super) fn load() -> Self {
        let mut grammar = Self { rules: BTreeMap::new(), choices: Vec::new() };
        let text = SOURCE.split("```text").nth(1).and_then(|text| text.split("```").next()).unwrap();
        for (name, rule) in rules(text) {
            let mut reader = Reader { left: words(&rule), at: 0, rule: name, choices: &mut grammar.choices };
            let part = reader.either();
            assert_eq!(reader.at, reader.left.len(), "{name} = {rule}");
            assert!(grammar.rules.insert(name.to_owned(), part).is_none(), "twice: {name}");
        }
        grammar
    }
}

/// The rules by name, without what is remarked behind `--`. Lines that are indented go on with the rule before.
fn rules(text: &str) -> Vec<(&str, String)> {
    let mut rules: Vec<(&str, String)> = Vec::new();
    let lines = text.lines().filter_map(|line| line.strip_prefix("//! "));
    for line in lines.filter(|line| !line.is_empty()) {
        let asked = line.split("-- ").next().unwrap();
        match rules.last_mut() {
            Some((_, rule)) if line.starts_with(' ') => *rule = format!("{rule} {}", asked.trim()),
            _ => {
                let (name, rule) = asked.split_once('=').unwrap_or_else(|| panic!("no rule: {line}"));
                rules.push((name.trim(), rule.trim().to_owned()));
            }
        }
    }
    rules
}

/// A rule cut into words and signs.
fn words(rule: &str) -> Vec<String> {
    let mut out = Vec::new();
    let letters: Vec<char> = rule.chars().collect();
    let mut at = 0;
    while at < letters.len() {
        let from = at;
        match letters[at] {
            c if c.is_whitespace() => {
                at += 1;
                continue;
            }
            '<' => at += letters[at..].iter().position(|c| *c == '>').unwrap() + 1,
            '\'' => at += 3,
            'd' if letters.get(at + 1).is_none_or(|c| !c.is_alphabetic() && *c != '-') => {
                while letters.get(at).is_some_and(|c| c.is_alphanumeric()) {
                    at += 1;
                }
                if letters.get(at) == Some(&'(') {
                    at += letters[at..].iter().position(|c| *c == ')').unwrap() + 1;
                }
            }
            c if c.is_alphabetic() => {
                while letters.get(at).is_some_and(|c| c.is_alphanumeric() || *c == '-') {
                    at += 1;
                }
            }
            _ => at += 1,
        }
        out.push(letters[from..at].iter().collect());
    }
    out
}

struct Reader<'a> {
    left: Vec<String>,
    at: usize,
    rule: &'a str,
    choices: &'a mut Vec<(String, usize)>,
}

impl Reader<'_> {
    fn peek(&self) -> &str {
        self.left.get(self.at).map_or("", |word| word)
    }

    fn choice(&mut self, ways: usize) -> usize {
        self.choices.push((self.rule.to_owned(), ways));
        self.choices.len() - 1
    }

    fn either(&mut self) -> Part {
        let mut all = vec![self.row()];
        while self.peek() == "|" {
            self.at += 1;
            all.push(self.row());
        }
        if all.len() == 1 {
            return all.remove(0);
        }
        let number = self.choice(all.len());
        Part::Either(number, all)
    }

    fn row(&mut self) -> Part {
        let mut all = Vec::new();
        while !["", "|", "]", ")", "}"].contains(&self.peek()) {
            all.push(self.one());
        }
        if all.len() == 1 { all.remove(0) } else { Part::Row(all) }
    }

    fn closed(&mut self, by: &str) -> Part {
        let part = self.either();
        assert_eq!(self.peek(), by, "in {}", self.rule);
        self.at += 1;
        part
    }

    fn one(&mut self) -> Part {
        let word = self.peek().to_owned();
        self.at += 1;
        match word.as_str() {
            "[" => {
                let part = self.closed("]");
                Part::Maybe(self.choice(2), Box::new(part))
            }
            "{" => {
                let part = self.closed("}");
                Part::Repeated(self.choice(2), Box::new(part))
            }
            "(" => self.closed(")"),
            "_" => Part::Glued(Box::new(self.one())),
            "vulgar" => Part::Vulgar,
            "letter" => Part::Letter,
            "hyphen" => Part::Hyphen,
            _ if word.starts_with('\'') => Part::Mark(word.chars().nth(1).unwrap()),
            _ if word.starts_with('<') => {
                let inner = word.trim_matches(['<', '>']);
                let (class, but) = inner.split_once(" - ").map_or((inner, None), |(a, b)| (a, Some(b.to_owned())));
                Part::Class(class.to_owned(), but)
            }
            _ if word.starts_with('d') && !word.chars().nth(1).is_some_and(char::is_alphabetic) => digits(&word),
            _ => Part::Rule(word),
        }
    }
}

/// `d`, `d3`, `d(1..31)`, `d2(0..59)`
fn digits(word: &str) -> Part {
    let (head, values) = word.split_once('(').unwrap_or((word, ""));
    let values = values.trim_end_matches(')').split_once("..");
    Part::Digits(head[1..].parse().ok(), values.map(|(low, high)| (low.parse().unwrap(), high.parse().unwrap())))
}

/// Whether a path is under a class.
pub(super) fn is_under(path: &str, class: &str) -> bool {
    path == class || path.strip_prefix(class).is_some_and(|rest| rest.starts_with('.'))
}

/// The names of every path, from the data files.
pub(super) fn names() -> Vec<(String, Vec<String>)> {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/src/phrase/english");
    let mut all = Vec::new();
    for file in ["values", "garden", "kitchen", "deeds", "matters", "small", "risks"] {
        let text = std::fs::read_to_string(format!("{folder}/{file}.txt")).unwrap();
        for line in text.lines().map(str::trim).filter(|line| !line.is_empty() && !line.starts_with('#')) {
            let (path, names) = line.split_once(':').unwrap();
            let mut spelled = Vec::new();
            for name in names.split(',').map(str::trim) {
                let stem = name.trim_end_matches('*');
                spelled.push(stem.to_owned());
                match name.len() - stem.len() {
                    1 => spelled.push(format!("{stem}s")),
                    2 => spelled.push(format!("{stem}es")),
                    _ => {}
                }
            }
            all.push((path.trim().to_owned(), spelled));
        }
    }
    all
}

/// The rules, classes and marks that a part asks for.
fn asked(part: &Part, rules: &mut BTreeSet<String>, classes: &mut BTreeSet<String>) {
    match part {
        Part::Rule(name) => drop(rules.insert(name.clone())),
        Part::Class(class, but) => {
            classes.insert(class.clone());
            classes.extend(but.clone());
        }
        Part::Glued(part) | Part::Maybe(_, part) | Part::Repeated(_, part) => asked(part, rules, classes),
        Part::Row(all) | Part::Either(_, all) => all.iter().for_each(|part| asked(part, rules, classes)),
        Part::Digits(..) | Part::Vulgar | Part::Letter | Part::Hyphen | Part::Mark(_) => {}
    }
}

/// What the tests ask of each kind of value.
pub(super) const KINDS: [&str; 20] = [
    "number",
    "mass",
    "measure",
    "volume",
    "count",
    "portions",
    "count-of",
    "jars",
    "out-of",
    "day",
    "clock",
    "duration",
    "ago",
    "temperature",
    "pressure",
    "height",
    "share",
    "colour",
    "grid",
    "entry",
];

#[test]
fn every_rule_is_used_and_every_class_has_words() {
    let grammar = Grammar::load();
    let (mut rules, mut classes) = (BTreeSet::new(), BTreeSet::new());
    grammar.rules.values().for_each(|part| asked(part, &mut rules, &mut classes));
    rules.extend(KINDS.map(str::to_owned));
    rules.insert("place".to_owned());
    let known: BTreeSet<String> = grammar.rules.keys().cloned().collect();
    assert_eq!(rules, known, "rules that are asked for, and rules that there are");
    let names = names();
    for class in classes {
        assert!(names.iter().any(|(path, _)| is_under(path, &class)), "no word has the class {class}");
    }
}

#[test]
fn every_named_combinator_is_a_rule() {
    let rules = Grammar::load().rules;
    let mut named = 0;
    for file in ["amount", "clock", "date", "jars", "measure", "number", "place", "portions", "mod"] {
        let path = format!("{}/src/phrase/value/{file}.rs", env!("CARGO_MANIFEST_DIR"));
        let source = std::fs::read_to_string(path).unwrap();
        for rest in source.split("context(\"").skip(1) {
            let name = rest.split('"').next().unwrap();
            assert!(rules.contains_key(name), "{name} of {file}.rs is no rule of the grammar");
            named += 1;
        }
    }
    assert!(named >= 12, "{named}");
}
