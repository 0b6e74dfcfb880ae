//! What is read in the examples can be made from the grammar.

use super::grammar::{Grammar, Part, is_under};
use super::today;
use rackful::phrase::training::{Seen, tokens_of, values_of};
use std::collections::{BTreeMap, HashMap};

/// Where the parts of a grammar end on some tokens.
pub(super) struct Recogniser<'a> {
    grammar: &'a Grammar,
    tokens: &'a [Seen],
    known: HashMap<(&'a str, usize), Vec<usize>>,
    first: HashMap<(&'a str, usize), Option<usize>>,
}

impl<'a> Recogniser<'a> {
    pub(super) fn new(grammar: &'a Grammar, tokens: &'a [Seen]) -> Self {
        Self { grammar, tokens, known: HashMap::new(), first: HashMap::new() }
    }

    /// Where a rule can end that begins at a token.
    pub(super) fn rule(&mut self, name: &'a str, at: usize) -> Vec<usize> {
        if let Some(known) = self.known.get(&(name, at)) {
            return known.clone();
        }
        let grammar = self.grammar;
        let ends = self.part(&grammar.rules[name], at);
        self.known.insert((name, at), ends.clone());
        ends
    }

    /// Where a rule ends that takes the first alternative that fits, the longest name, and all that may be left out
    /// where it can be read.
    pub(super) fn first(&mut self, name: &'a str, at: usize) -> Option<usize> {
        if let Some(known) = self.first.get(&(name, at)) {
            return *known;
        }
        let grammar = self.grammar;
        let end = self.first_of(&grammar.rules[name], at);
        self.first.insert((name, at), end);
        end
    }

    fn first_of(&mut self, part: &'a Part, at: usize) -> Option<usize> {
        match part {
            Part::Rule(name) => self.first(name, at),
            Part::Glued(part) => self.tokens.get(at).filter(|token| token.glued).and_then(|_| self.first_of(part, at)),
            Part::Maybe(_, part) => Some(self.first_of(part, at).unwrap_or(at)),
            Part::Repeated(_, part) => {
                let mut end = at;
                while let Some(next) = self.first_of(part, end) {
                    end = next;
                }
                Some(end)
            }
            Part::Row(all) => all.iter().try_fold(at, |at, part| self.first_of(part, at)),
            Part::Either(_, all) => all.iter().find_map(|part| self.first_of(part, at)),
            _ => self.part(part, at).last().copied(),
        }
    }

    fn part(&mut self, part: &'a Part, at: usize) -> Vec<usize> {
        let token = self.tokens.get(at);
        let one = |fits: bool| if fits { vec![at + 1] } else { Vec::new() };
        let mut ends = match part {
            Part::Rule(name) => self.rule(name, at),
            Part::Class(class, but) => {
                let fits = |path: &str| is_under(path, class) && !but.as_ref().is_some_and(|but| is_under(path, but));
                let names = token.map_or(&[][..], |token| &token.names);
                names.iter().filter(|(_, path)| fits(path)).map(|(len, _)| at + len).collect()
            }
            Part::Digits(count, values) => one(token.is_some_and(|token| {
                token.shape == "digits"
                    && count.is_none_or(|count| token.letters.len() == count)
                    && values.is_none_or(|(low, high)| token.letters.parse().is_ok_and(|n| (low..=high).contains(&n)))
            })),
            Part::Vulgar => one(token.is_some_and(|token| token.shape == "vulgar")),
            Part::Letter => one(token.is_some_and(|token| token.shape == "word" && token.to - token.from == 1)),
            Part::Hyphen => {
                let glued = self.tokens.get(at + 1).is_some_and(|next| next.glued);
                one(token.is_some_and(|token| token.shape == "dash" && token.glued) && glued)
            }
            Part::Mark(sign) => one(token.is_some_and(|token| token.shape == mark(*sign))),
            Part::Glued(part) if token.is_some_and(|token| token.glued) => self.part(part, at),
            Part::Glued(_) => Vec::new(),
            Part::Maybe(_, part) => [vec![at], self.part(part, at)].concat(),
            Part::Repeated(_, part) => {
                let (mut all, mut new) = (vec![at], vec![at]);
                while let Some(from) = new.pop() {
                    for end in self.part(part, from) {
                        if !all.contains(&end) {
                            all.push(end);
                            new.push(end);
                        }
                    }
                }
                all
            }
            Part::Row(all) => all.iter().fold(vec![at], |ends, part| {
                let mut next: Vec<usize> = ends.into_iter().flat_map(|at| self.part(part, at)).collect();
                next.sort_unstable();
                next.dedup();
                next
            }),
            Part::Either(_, all) => all.iter().flat_map(|part| self.part(part, at)).collect(),
        };
        ends.sort_unstable();
        ends.dedup();
        ends
    }
}

/// What a sign of the grammar is called among the marks.
fn mark(sign: char) -> &'static str {
    match sign {
        '~' => "tilde",
        '-' => "dash",
        '/' => "slash",
        '.' => "dot",
        ',' => "comma",
        ':' => "colon",
        '+' => "plus",
        '@' => "at",
        '#' => "hash",
        '×' => "times",
        '(' => "bracket",
        '°' => "degree",
        '%' => "percent",
        '"' => "quote",
        _ => panic!("no mark: {sign}"),
    }
}

/// The messages of all examples.
fn messages() -> Vec<String> {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/data/phrases");
    let mut files: Vec<_> = std::fs::read_dir(folder).unwrap().map(|file| file.unwrap().path()).collect();
    files.retain(|path| path.to_string_lossy().ends_with(".ok.jsonl"));
    files.sort();
    let line =
        |line: &str| serde_json::from_str::<serde_json::Value>(line).unwrap()["text"].as_str().map(str::to_owned);
    let read = |path| std::fs::read_to_string(path).unwrap();
    files.iter().flat_map(|path| read(path).lines().filter_map(line).collect::<Vec<_>>()).collect()
}

#[test]
fn values_of_the_examples_are_made_by_the_rules() {
    let grammar = Grammar::load();
    let mut kinds: BTreeMap<&str, usize> = BTreeMap::new();
    let mut wrong = Vec::new();
    for text in messages() {
        let tokens = tokens_of(&text);
        let mut recogniser = Recogniser::new(&grammar, &tokens);
        for value in values_of(&text, today(), false) {
            *kinds.entry(value.kind).or_default() += 1;
            if !recogniser.rule(value.kind, value.from).contains(&value.to) {
                let said = &text[tokens[value.from].from..tokens[value.to - 1].to];
                wrong.push(format!("{}: {said:?} in {text:?}", value.kind));
            }
        }
    }
    assert!(wrong.is_empty(), "{} that no rule makes:\n{}", wrong.len(), wrong.join("\n"));
    assert!(kinds.values().sum::<usize>() > 7_000, "{kinds:?}");
    println!("{kinds:?}");
    // Every kind occurs among the examples, most of them often.
    assert!(kinds.len() >= 20, "{kinds:?}");
}
