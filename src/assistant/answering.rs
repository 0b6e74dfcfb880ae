//! An answer to a question that the assistant asked: with the question it makes the statement that was meant.

use super::entering::Source;
use super::hearing::is_entry;
use super::turn::Turn;
use crate::ledger::{Change, Pending, Refusal, made};
use crate::phrase::{self, Context, Last, Reading};
use crate::reply::Words;
use crate::statement::{self as said, AcidMissing, Clarify, Statement};
use crate::vocabulary::{Kind, Mishap, Missing, Pack, SettingKey};
use chrono::Duration;

/// An answer counts within this time of its question.
pub(super) const ANSWER_WITHIN: Duration = Duration::minutes(10);

/// A recipe that nobody knows has a name of at most so many words (our own choice).
const LONGEST_NAME: usize = 5;

impl Turn<'_> {
    /// What a yes or a no means to the latest question about heat that a batch has open, unless something else has been
    /// asked since. Anybody may answer, whenever: the jars wait for it.
    pub(super) fn doubt_answered(&self, source: &Source) -> Option<Statement> {
        let fell = phrase::assent(&source.words)?;
        let open = self.room.state().open_batches().filter_map(|batch| Some((batch.doubt?.at, batch)));
        let (asked, batch) = open.max_by_key(|(at, _)| *at)?;
        let proposed = self.room.proposals.iter().map(|open| open.said).max();
        let pending = self.room.pending.get(&source.who).map(|pending| pending.asked);
        if proposed.max(pending).is_some_and(|other| other > asked) {
            return None;
        }
        let what = if fell { Mishap::Fell } else { Mishap::Held };
        Some(Statement::Mishap(said::Mishap { what, psi: None, batch: Some(batch.name.clone()), on: None }))
    }

    /// The statements that somebody's pending question and this message make together. What is no answer leaves the
    /// question open, whoever says it, until its time is over, or until the same person says the thing in full.
    pub(super) fn answered(&mut self, source: &Source, alone: &Reading) -> Option<(Kind, Vec<Statement>)> {
        let pending = self.room.pending.get(&source.who)?.clone();
        let about = pending.question.about;
        let in_time = source.said - pending.asked <= ANSWER_WITHIN;
        if in_time
            && let Some(word) = &pending.question.word
            && let Some(partial) = &pending.partial
            && let Some(matters) = phrase::assent(&source.words)
        {
            let held = Clarify { word: Some(word.clone()), ..pending.question.clone() };
            let made = if matters { Statement::Clarify(held) } else { partial.clone() };
            return Some((about, self.taken_as_answer(source, pending, vec![made])));
        }
        if in_time && is_offer(&pending) && phrase::assent(&source.words) == Some(false) {
            // No acid is no courtesy that is turned down: it is told.
            if let Some(missing) = pending.partial.as_ref().and_then(missing_acid) {
                return Some((about, self.taken_as_answer(source, pending, vec![missing])));
            }
            self.change(Change::Answered { who: source.who.clone() });
            return Some((about, Vec::new()));
        }
        if in_time && let Some(statements) = self.answered_first(&pending, source) {
            return Some((about, self.taken_as_answer(source, pending, statements)));
        }
        if !in_time || alone.statements.iter().any(|said| said.kind() == about && is_entry(said)) {
            self.change(Change::Answered { who: source.who.clone() });
            return None;
        }
        // A question is withdrawn by a no, or by `never mind`.
        if phrase::assent(&source.words) == Some(false) {
            self.change(Change::Answered { who: source.who.clone() });
            return Some((about, Vec::new()));
        }
        let says_other =
            alone.statements.iter().any(|said| is_entry(said) || matches!(said, Statement::Undo | Statement::Ask(_)));
        let completed = if says_other && !fits_both(&pending) { None } else { self.complete(&pending, source) };
        let Some(completed) = completed else {
            if !pending.passed {
                let passed = Pending { passed: true, ..pending };
                self.change(Change::Asked { who: source.who.clone(), pending: Box::new(passed) });
            }
            return None;
        };
        Some((about, self.taken_as_answer(source, pending, completed)))
    }

    /// Notes that somebody else spoke while a question for a product waits: from then on only a product that is known
    /// answers it, for any words could be the name of a recipe.
    pub(super) fn talk_goes_on(&mut self, source: &Source) {
        let open = self.room.pending.iter().filter(|(who, pending)| {
            **who != source.who && !pending.passed && pending.question.missing == Missing::Product && !is_offer(pending)
        });
        let open: Vec<_> =
            open.map(|(who, pending)| (who.clone(), Pending { passed: true, ..pending.clone() })).collect();
        for (who, passed) in open {
            self.change(Change::Asked { who, pending: Box::new(passed) });
        }
    }

    fn taken_as_answer(&mut self, source: &Source, pending: Pending, statements: Vec<Statement>) -> Vec<Statement> {
        self.change(Change::Answered { who: source.who.clone() });
        let by = source.message.clone();
        self.change(Change::Completed { by, pending: Box::new(pending) });
        statements
    }

    /// An answer with more behind it: `lb. And 4 lb of peppers`, `9 lb actually, weighed it again`. What follows counts
    /// where it enters something by itself or goes on with what the answer made.
    fn answered_first(&self, pending: &Pending, source: &Source) -> Option<Vec<Statement>> {
        if !matches!(pending.question.missing, Missing::Unit | Missing::Amount | Missing::Jar) {
            return None;
        }
        let (answer, rest) = phrase::first_clause(&source.words)?;
        let mut statements = self.complete(pending, &Source { words: answer.into(), ..source.clone() })?;
        let made = statements.last().filter(|made| is_entry(made))?.clone();
        let words = format!("{} {answer}", pending.words);
        let last = Some(Last { own: true, statement: &made, words: &words });
        let more = self.read_after(&Source { words: rest.into(), ..source.clone() }, last).statements;
        if more.iter().all(|more| is_entry(more) && *more != made) {
            statements.extend(more);
        }
        Some(statements)
    }

    /// The statements that a question and its answer make; `None` where the words are no answer to it.
    pub(super) fn complete(&self, pending: &Pending, source: &Source) -> Option<Vec<Statement>> {
        // What was offered is taken with a yes, and with nothing else.
        if let Some(offered) = pending.partial.as_ref().filter(|_| is_offer(pending)) {
            let unsure = matches!(offered, Statement::AcidAdded(_)) && phrase::only_heard(&source.words);
            return (phrase::assent(&source.words) == Some(true) && !unsure).then(|| vec![offered.clone()]);
        }
        let completed = |partial: &Statement| {
            self.with_batch(partial, &source.words)
                .or_else(|| self.with_choice(partial, &source.words))
                .or_else(|| with_pack(partial, &source.words))
        };
        let zone = self.room.state().settings.zone;
        let context = Context { now: source.said, zone, lexicon: &self.room.lexicon, last: None };
        if let Some(completed) = pending.partial.as_ref().and_then(completed) {
            let held = phrase::held_in(&completed, &source.words, &context);
            return Some(vec![held.map_or(completed, Statement::Clarify)]);
        }
        // Any words could name a product; those that say something by themselves are not an answer.
        let alone = || self.read_after(source, None);
        if pending.question.missing == Missing::Product && !alone().statements.is_empty() {
            return None;
        }
        let question = Clarify { partial: pending.partial.clone().map(Box::new), ..pending.question.clone() };
        let statements = phrase::complete(&question, &source.words, &context)?;
        // Later words of a talk that went on are no name of a recipe, nor is a whole sentence.
        let talk = pending.passed || source.words.split_whitespace().count() > LONGEST_NAME;
        let unknown = statements.iter().any(|statement| self.names_nothing_known(statement, talk));
        (!unknown).then_some(statements)
    }

    /// Whether a statement that needs a known product names one that is not: then its words were no answer.
    fn names_nothing_known(&self, statement: &Statement, talk: bool) -> bool {
        let named =
            statement.product().filter(|_| talk || matches!(statement, Statement::Began(_) | Statement::Ask(_)));
        named.is_some_and(|named| matches!(made(self.room.state(), Some(named)), Err(Refusal::UnknownProduct(_))))
    }

    /// The statement with the one product, of several that its name fits, whose name has all the words of the answer.
    fn with_choice(&self, partial: &Statement, answer: &str) -> Option<Statement> {
        let named = partial.product()?;
        let Err(Refusal::WhichProduct(_, choices)) = made(self.room.state(), Some(named)) else { return None };
        let words = Words::of(&self.room.state().settings);
        let names = choices.iter().map(|choice| (choice, words.product(choice)));
        only_named(answer, names).and_then(|choice| partial.with_product(choice))
    }

    /// The step of a batch, with the batch that the answer names.
    fn with_batch(&self, partial: &Statement, answer: &str) -> Option<Statement> {
        let answer = answer.trim().to_lowercase();
        let word = answer.trim_start_matches("the ").trim_end_matches(['.', '!']);
        let words = Words::of(&self.room.state().settings);
        let batches = &self.room.state().batches;
        let called = batches.iter().find(|batch| batch.is_called(word));
        let batch = called
            .or_else(|| only_named(&answer, batches.iter().map(|batch| (batch, words.product(&batch.product)))))?;
        partial.with_batch(&batch.name)
    }
}

/// Whether something was offered, which a yes takes and a no turns down.
fn is_offer(pending: &Pending) -> bool {
    match &pending.partial {
        Some(Statement::Set(set)) => set.key == SettingKey::Yield,
        // With its batch it is the question whether the acid was in; without, which batch is meant.
        Some(Statement::AcidAdded(said)) => said.batch.is_some(),
        _ => false,
    }
}

/// What a no to the question about acid says.
fn missing_acid(offered: &Statement) -> Option<Statement> {
    match offered {
        Statement::AcidAdded(said) => {
            Some(Statement::AcidMissing(AcidMissing { batch: said.batch.clone(), ..AcidMissing::default() }))
        }
        _ => None,
    }
}

/// Whether the answer to a question may be a phrase of its own: `altitude 2400 ft` and `pints of salsa` are.
fn fits_both(pending: &Pending) -> bool {
    matches!(pending.question.missing, Missing::Altitude | Missing::Canner)
}

/// The start of a batch, or the question about a process, with the pack that the answer names.
fn with_pack(partial: &Statement, answer: &str) -> Option<Statement> {
    let answer = answer.to_lowercase();
    let says = |word: &str| answer.split(|c: char| !c.is_alphanumeric()).any(|part| part == word);
    let pack = match (says("hot"), says("raw")) {
        (true, false) => Pack::Hot,
        (false, true) => Pack::Raw,
        _ => return None,
    };
    let mut packed = partial.clone();
    match &mut packed {
        Statement::Began(began) => began.pack = Some(pack),
        Statement::Ask(ask) => ask.pack = Some(pack),
        _ => return None,
    }
    Some(packed)
}

/// The one thing, of several with their names, whose name has all the words of the answer.
fn only_named<T>(answer: &str, named: impl Iterator<Item = (T, String)>) -> Option<T> {
    const PASSED_OVER: [&str; 8] = ["the", "with", "from", "one", "of", "in", "pack", "packed"];
    let parts = |text: &str| -> Vec<String> {
        let words = text.split(|c: char| !c.is_alphanumeric()).map(|word| word.trim_end_matches('s').to_lowercase());
        words.filter(|word| word.len() > 1 && !PASSED_OVER.contains(&word.as_str())).collect()
    };
    let said = parts(answer);
    let mut fitting = named.filter(|(_, name)| {
        let name = parts(name);
        !said.is_empty() && said.iter().all(|word| name.contains(word))
    });
    match (fitting.next(), fitting.next()) {
        (Some((only, _)), None) => Some(only),
        _ => None,
    }
}
