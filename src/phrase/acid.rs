//! Acid in the jars, told, missing or asked for: a rule on the words that has the last word over the learned reading.
//!
//! A jar of tomatoes without its acid is not safe, so that it is told to be in may never come of a clause that says it
//! is not, or that asks. And silence is no answer to words about missing acid while a batch is open. The words stand
//! in `english/acid.txt`.
//!
//! - `lemon juice is not in`, `forgot the acid`, `only in 5 of 7`: missing.
//! - `is the lemon juice in?`: a question whether it is.
//! - `1 tablespoon per quart`, `fresh lemon juice`: in, with what was said of it, so that the ledger can check it.

use super::context::{Context, Reading};
use super::item::Item;
use super::lex::Mark;
use super::lists::{Words, lists};
use super::readings::Read;
use super::value::Value;
use crate::quantity::Volume;
use crate::statement::{AcidAdded, AcidMissing, Ask, Propose, Statement};
use crate::vocabulary::{Acid, Jar, Subject, Supply};
use std::sync::OnceLock;

const WORDS: &str = include_str!("english/acid.txt");

/// The lists of the file, by their place in it.
#[derive(Clone, Copy)]
enum List {
    Lemon,
    Citric,
    Vinegar,
    Acid,
    Fresh,
    Lack,
    No,
    Sure,
    In,
    Asks,
    Open,
    Each,
    Only,
    Part,
    Shop,
    Doubt,
}

fn list(list: List) -> &'static [&'static str] {
    static READ: OnceLock<Vec<Vec<&'static str>>> = OnceLock::new();
    READ.get_or_init(|| lists(WORDS)).get(list as usize).map_or(&[], Vec::as_slice)
}

/// A stretch between two marks.
struct Part {
    words: Words,
    /// Whether a question mark ends it.
    asked: bool,
    /// The mark that ends it.
    mark: char,
}

impl Part {
    fn new(words: &str, mark: char) -> Self {
        Self { words: Words::of(words), asked: mark == '?', mark }
    }

    fn has(&self, of: List) -> bool {
        self.words.have(list(of))
    }

    fn starts(&self, of: List) -> bool {
        self.words.start(list(of))
    }

    fn is(&self, of: List) -> bool {
        self.words.are(list(of))
    }

    fn acid(&self) -> Option<Acid> {
        let found = [(List::Citric, Acid::CitricAcid), (List::Lemon, Acid::LemonJuice), (List::Vinegar, Acid::Vinegar)];
        found.into_iter().find(|(words, _)| self.has(*words)).map(|(_, acid)| acid)
    }

    fn names_acid(&self) -> bool {
        self.acid().is_some() || self.has(List::Acid)
    }

    /// Whether it says that something is not there, what says that nothing was forgotten apart.
    fn lacks(&self) -> bool {
        let rest = Self { words: self.words.without(list(List::Sure)), asked: self.asked, mark: self.mark };
        rest.has(List::Lack) || rest.none_of_it()
    }

    /// `no lemon juice`, `no bottled lemon juice`
    fn none_of_it(&self) -> bool {
        let words: Vec<&str> = self.words.iter().collect();
        let is_acid = |word: &str| Self::new(word, ' ').names_acid();
        words.iter().enumerate().any(|(n, word)| {
            list(List::No).contains(word) && words.iter().skip(n + 1).take(3).any(|word| is_acid(word))
        })
    }

    /// Whether it asks if acid is in.
    fn asks_whether(&self) -> bool {
        (self.asked || self.starts(List::Asks)) && !self.starts(List::Open)
    }
}

/// A message cut at its marks; a point inside of a figure is none.
fn parts(text: &str) -> Vec<Part> {
    let mut parts = Vec::new();
    let mut words = String::new();
    let mut chars = text.chars().peekable();
    while let Some(c) = chars.next() {
        let inside = chars.peek().is_some_and(|next| next.is_ascii_digit());
        let cuts = matches!(c, '?' | '!' | ';' | '\n' | '—' | '…') || matches!(c, '.' | ',') && !inside;
        if cuts {
            parts.push(Part::new(&words, c));
            words.clear();
        } else {
            words.push(c);
        }
    }
    parts.push(Part::new(&words, ' '));
    parts.retain(|part| !part.words.is_empty() || part.asked);
    parts
}

/// What a message says of acid.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Said {
    Missing,
    Asked,
    Added,
}

impl Read<'_> {
    /// Puts right what a reading makes of words about acid.
    pub(super) fn watch_acid(&self, reading: &mut Reading, context: &Context<'_>) {
        let parts = parts(self.text.text);
        let told = reading.statements.iter().any(tells_of_acid);
        let open = !context.lexicon.batches.is_empty();
        let Some(said) = said(&parts, told, self.in_some(&parts)) else {
            if open && self.goes_on(&parts, reading, context) {
                reading.statements = vec![Statement::AcidMissing(self.missing(&parts))];
            }
            return;
        };
        // Jars of a batch that is done may turn out to be without.
        let lately = !context.lexicon.closed.is_empty() && said == Said::Missing;
        if !told && !((open || lately) && self.is_of_jars(said, &parts, reading)) {
            return;
        }
        let added = self.added(&parts);
        let put_right = |statement: &Statement| match (said, statement) {
            (Said::Missing, Statement::AcidAdded(before)) => Statement::AcidMissing(AcidMissing {
                batch: before.batch.clone(),
                on: before.on,
                ..self.missing(&parts)
            }),
            (Said::Missing, Statement::AcidMissing(before)) => Statement::AcidMissing(AcidMissing {
                batch: before.batch.clone(),
                on: before.on,
                ..self.missing(&parts)
            }),
            (Said::Asked, Statement::AcidAdded(before)) => self.asked(&parts, before.batch.clone()),
            (Said::Asked, Statement::AcidMissing(before)) => self.asked(&parts, before.batch.clone()),
            (Said::Added, Statement::AcidAdded(before)) => Statement::AcidAdded(AcidAdded {
                supply: before.supply.or(added.supply),
                each: added.each,
                volume: added.volume,
                jar: added.jar,
                fresh: added.fresh,
                ..before.clone()
            }),
            (_, other) => other.clone(),
        };
        let named = parts.iter().any(Part::names_acid);
        if told {
            let statements = std::mem::take(&mut reading.statements);
            reading.statements = statements.iter().flat_map(|said| entered_at_once(said, named, put_right)).collect();
        } else {
            reading.statements.retain(|said| !is_guess(said));
            reading.statements.push(match said {
                Said::Missing => Statement::AcidMissing(self.missing(&parts)),
                Said::Asked => self.asked(&parts, None),
                Said::Added => Statement::AcidAdded(added),
            });
        }
        self.name_batch(reading);
    }

    /// Whether words about acid of which the reading makes nothing are of the jars of the open batch.
    fn is_of_jars(&self, said: Said, parts: &[Part], reading: &Reading) -> bool {
        let silent = reading.statements.iter().all(is_guess);
        let entered = reading.statements.iter().any(|said| matches!(said, Statement::Filled(_) | Statement::AtHeat(_)));
        let of_acid = || parts.iter().filter(|part| part.names_acid());
        if parts.iter().any(|part| part.has(List::Shop)) {
            return false;
        }
        match said {
            Said::Missing => silent || entered,
            Said::Asked => silent && of_acid().any(|part| part.has(List::In)),
            // Only fresh juice is worth saying so: the rest is what the reading thinks of it.
            Said::Added => silent && of_acid().any(|part| part.has(List::In) && part.has(List::Fresh)),
        }
    }

    /// `only in 5 of 7`, `half of it`, with acid spoken of last.
    fn goes_on(&self, parts: &[Part], reading: &Reading, context: &Context<'_>) -> bool {
        let of_acid = |last: &Statement| matches!(last, Statement::AcidAdded(_) | Statement::AcidMissing(_));
        let last = context.last.is_some_and(|last| of_acid(last.statement));
        let guess = |said: &Statement| is_guess(said) || matches!(said, Statement::Sealed(_) | Statement::Correct(_));
        let says = |part: &Part| {
            part.is(List::Part)
                || part.starts(List::Part)
                || part.has(List::Only) && part.has(List::In) && self.jars_said().is_some()
        };
        last && reading.statements.iter().all(guess) && parts.iter().any(says)
    }

    /// A product that the message names beside the acid and that no clause took in is the batch that is meant: acid
    /// goes to that or to none.
    fn name_batch(&self, reading: &mut Reading) {
        let classes = &self.language.words.classes;
        let item = |n: usize| self.text.items.get(n);
        // `juice: citric acid is in`
        let is_label = |n: usize| {
            item(n).is_some_and(|item| item.is(classes.dish))
                && item(n + 1).is_some_and(|next| next.mark == Some(Mark::Colon))
        };
        let named = (0..self.text.items.len())
            .find(|n| item(*n).is_some_and(|item| item.is(classes.product)) || is_label(*n))
            .and_then(|n| self.text.said(n, n + 1));
        let Some(named) = named else { return };
        let sole = !reading.statements.iter().any(|said| said.product().is_some());
        let all = reading.statements.iter_mut().filter(|_| sole).flat_map(|statement| match statement {
            Statement::Propose(proposed) => proposed.statements.as_mut_slice(),
            other => std::slice::from_mut(other),
        });
        for statement in all {
            let place = match statement {
                Statement::AcidAdded(said) => &mut said.batch,
                Statement::AcidMissing(said) => &mut said.batch,
                _ => continue,
            };
            place.get_or_insert_with(|| named.clone());
        }
    }

    fn values(&self) -> impl Iterator<Item = &Value> {
        self.text.items.iter().flat_map(|item| item.values.iter())
    }

    /// Whether acid is said to be in some of the jars: `in 5 of 7`, `only in 5`.
    fn in_some(&self, parts: &[Part]) -> bool {
        let out_of = self.values().any(|value| matches!(value, Value::OutOf(out) if out.jars < out.of));
        out_of || parts.iter().any(|part| part.has(List::Only)) && self.jars_said().is_some()
    }

    /// How many jars are spoken of.
    fn jars_said(&self) -> Option<u32> {
        let out_of = self.values().find_map(|value| match value {
            Value::OutOf(out) => Some(out.jars),
            _ => None,
        });
        let counted = || {
            self.values().find_map(|value| match value {
                Value::Jars(jars) => jars.count.and_then(crate::quantity::Number::as_count),
                Value::Count(count) => count.count.as_count(),
                _ => None,
            })
        };
        let number = || {
            self.values().find_map(|value| match value {
                Value::Number(figure) => figure.number.as_count(),
                _ => None,
            })
        };
        out_of.or_else(counted).or_else(number)
    }

    fn missing(&self, parts: &[Part]) -> AcidMissing {
        let of_acid: Vec<&Part> = parts.iter().filter(|part| part.names_acid()).collect();
        let supply = of_acid.iter().find_map(|part| part.acid());
        let jars = self.jars_said().filter(|_| self.values().all(|value| !matches!(value, Value::Volume(..))));
        let only = parts.iter().any(|part| part.has(List::Only)) || !parts.iter().any(Part::lacks);
        AcidMissing { supply, jars: jars.filter(|_| !only), only: jars.filter(|_| only), batch: None, on: None }
    }

    /// The question whether it is in, or how much goes into each jar: `lemon juice per quart?`
    fn asked(&self, parts: &[Part], batch: Option<String>) -> Statement {
        if !parts.iter().any(|part| part.names_acid() && part.has(List::Each)) {
            return Statement::Ask(Ask { batch, ..Ask::about(Subject::AcidIn) });
        }
        let jar = self.values().find_map(|value| match value {
            Value::Jars(jars) => jars.jar,
            _ => None,
        });
        let acid = parts.iter().find_map(Part::acid);
        Statement::Ask(Ask { acid, jar, batch, ..Ask::about(Subject::Acid) })
    }

    fn added(&self, parts: &[Part]) -> AcidAdded {
        let of_acid: Vec<&Part> = parts.iter().filter(|part| part.names_acid()).collect();
        let supply = of_acid.iter().find_map(|part| part.acid());
        // `7 quarts` are jars.
        let measured =
            |item: &&Item| !item.values.iter().any(|value| matches!(value, Value::Jars(jars) if jars.count.is_some()));
        let amount: Option<Volume> = self.text.items.iter().filter(measured).find_map(|item| {
            item.values.iter().find_map(|value| match value {
                Value::Volume(volume, _) => Some(*volume),
                _ => None,
            })
        });
        let each = parts.iter().any(|part| part.has(List::Each));
        let size: Option<Jar> = self.values().find_map(|value| match value {
            Value::Jars(jars) => jars.jar,
            _ => None,
        });
        let fresh = of_acid.iter().any(|part| part.has(List::Fresh)).then_some(true);
        AcidAdded {
            supply,
            each: amount.filter(|_| each),
            volume: amount.filter(|_| !each),
            jar: size.filter(|_| each && amount.is_some()),
            fresh,
            batch: None,
            on: None,
        }
    }
}

/// What the parts of a message say of acid; `None` where they speak of none. Where the reading tells of acid, a
/// question of whatever kind is one.
fn said(parts: &[Part], told: bool, in_some: bool) -> Option<Said> {
    let mut found = None;
    // What the reading knows in spite of its spelling is looked at as a whole.
    let all = told && !parts.iter().any(Part::names_acid);
    for (n, part) in parts.iter().enumerate().filter(|(_, part)| all || part.names_acid()) {
        // `lemon juice, not in yet`
        let next = parts.get(n + 1).filter(|next| part.mark == ',' && !next.names_acid() && !part.has(List::In));
        let now = match part {
            part if part.asked || part.starts(List::Asks) || part.starts(List::Open) => {
                if told || part.asks_whether() {
                    Said::Asked
                } else {
                    continue;
                }
            }
            part if part.lacks() || in_some => Said::Missing,
            _ if next.is_some_and(|next| next.lacks() && next.has(List::In)) => Said::Missing,
            // `lemon juice is in the fridge`, `… will be in`: what was told so far is said, and nothing is noted.
            part if told && (part.has(List::Doubt) || part.has(List::Shop)) => Said::Asked,
            _ if told && next.is_some_and(|next| next.has(List::Doubt)) => Said::Asked,
            _ => Said::Added,
        };
        found = match (found, now) {
            (Some(Said::Missing), _) | (_, Said::Missing) => Some(Said::Missing),
            (Some(Said::Asked), _) | (_, Said::Asked) => Some(Said::Asked),
            _ => Some(Said::Added),
        };
    }
    found
}

/// A statement put right. What was only proposed stays so, but for acid that is missing, and for a question, where the
/// words name acid.
fn entered_at_once(statement: &Statement, named: bool, put_right: impl Fn(&Statement) -> Statement) -> Vec<Statement> {
    let Statement::Propose(proposed) = statement else { return vec![put_right(statement)] };
    let sure =
        |said: &Statement| matches!(said, Statement::Ask(_)) || named && matches!(said, Statement::AcidMissing(_));
    let (mut at_once, rest): (Vec<_>, Vec<_>) = proposed.statements.iter().map(put_right).partition(sure);
    if !rest.is_empty() {
        at_once.push(Statement::Propose(Propose { statements: rest }));
    }
    at_once
}

/// Whether a statement says that acid is in or missing, or proposes that.
fn tells_of_acid(statement: &Statement) -> bool {
    match statement {
        Statement::AcidAdded(_) | Statement::AcidMissing(_) => true,
        Statement::Propose(proposed) => proposed.statements.iter().any(tells_of_acid),
        _ => false,
    }
}

/// What was made of the words for want of better: a question, or a proposal.
fn is_guess(statement: &Statement) -> bool {
    match statement {
        Statement::Propose(_) | Statement::Clarify(_) => true,
        Statement::Ask(asked) => matches!(asked.about, Subject::Supplies | Subject::Acid | Subject::AcidIn),
        Statement::Counted(said) => matches!(said.supply, Some(Supply::LemonJuice | Supply::CitricAcid)),
        _ => false,
    }
}
