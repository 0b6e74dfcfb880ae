//! What a message does: new words, edited words, deleted words.

use super::entering::Source;
use super::message::{Incoming, Mark, Said};
use super::turn::Turn;
use crate::ledger::Change;
use crate::ledger::{Entry, MessageId, corrected};
use crate::phrase::{self, Context, Last, Reading};
use crate::reply;
use crate::statement::{Ask, Clarify, Correct, Filled, Statement};
use crate::vocabulary::{Kind, Missing, Subject};
use chrono::{Duration, Utc};
use std::sync::Arc;

/// A message goes on with the one before (`and 4 lb of peppers`) within this time (our own choice).
const GOES_ON_WITHIN: Duration = Duration::minutes(30);

impl Turn<'_> {
    pub(super) fn message(&mut self, message: &Incoming) {
        let said = message.at.with_timezone(&Utc).min(self.now);
        let target = match &message.said {
            Said::Edit { target, .. } | Said::Redact { target } | Said::Mark { target, .. } => Some(target),
            Said::Text { .. } => None,
        };
        // What is said of an edit or a mark belongs where the message stands.
        let of_target = target.and_then(|target| self.room.threads.get(target));
        self.thread = message.thread.as_ref().or(of_target).cloned();
        match &message.said {
            Said::Text { text, reply_to } => {
                self.re = Some(message.id.clone());
                let source = Source {
                    message: message.id.clone(),
                    who: message.who.clone(),
                    said,
                    words: Arc::from(text.as_str()),
                };
                self.words(&source, message.direct, reply_to.as_ref());
            }
            Said::Edit { target, text } => {
                self.re = Some(target.clone());
                // An edit says what the message should have said when it was sent.
                let said = self.room.heard.get(target).copied().unwrap_or(said);
                let source =
                    Source { message: target.clone(), who: message.who.clone(), said, words: Arc::from(text.as_str()) };
                self.note_edit(&message.id, &source);
                self.edited(&source, message.direct);
                self.room.hear(target, said);
            }
            Said::Redact { target } => {
                self.re = Some(target.clone());
                if !self.taken_back(target) {
                    self.deleted(target);
                }
            }
            Said::Mark { target, mark, alert } => {
                self.re = Some(target.clone());
                let tossed = alert.as_deref().filter(|_| *mark == Mark::Done);
                self.marked(&message.id, target, *mark, alert.as_deref());
                if let Some(alert) = tossed {
                    self.thrown_away_by_mark(&message.id, &message.who, alert);
                }
            }
        }
        self.note_thread(message);
        self.abridge();
        self.settle();
    }

    pub(super) fn read(&self, source: &Source) -> Reading {
        self.read_after(source, self.last(source))
    }

    /// Reads a message after what the same person said last, if anything.
    pub(super) fn read_after(&self, source: &Source, last: Option<Last<'_>>) -> Reading {
        let zone = self.room.state().settings.zone;
        let context = Context { now: source.said, zone, lexicon: &self.room.lexicon, last };
        self.trace(source, &context);
        phrase::read(&source.words, &context)
    }

    /// Says at debug how a message was read: lengths and kinds, never its words.
    fn trace(&self, source: &Source, context: &Context<'_>) {
        if !tracing::enabled!(tracing::Level::DEBUG) {
            return;
        }
        let Some(why) = phrase::explain(&source.words, context) else { return };
        let kinds: Vec<&str> = why.spans.iter().map(|span| span.kind.as_str()).collect();
        let frames = why
            .readings
            .first()
            .map(|reading| reading.clauses.iter().map(|clause| clause.frame.as_str()).collect::<Vec<_>>().join(", "));
        let likely = why.readings.first().map_or(0.0, |reading| reading.probability);
        tracing::debug!(bytes = source.words.len(), ?kinds, ?frames, likely, silent = ?why.silent_because, "read");
    }

    /// What a message may go on with: what the same person entered last or, where that is too long ago, what was
    /// entered last here.
    fn last(&self, source: &Source) -> Option<Last<'_>> {
        let ledger = &self.room.ledger;
        let recent = |message: &MessageId| {
            let entry = ledger.message(message)?.pop()?;
            let recent = source.said >= entry.said && source.said - entry.said <= GOES_ON_WITHIN;
            (recent && entry.message != source.message).then_some(entry)
        };
        let own = ledger.latest_by(&source.who).and_then(recent);
        let of_others =
            || ledger.people().filter_map(|who| recent(ledger.latest_by(who)?)).max_by_key(|entry| entry.said);
        let entry = own.or_else(of_others)?;
        Some(Last { own: entry.who == source.who, statement: &entry.statement, words: &entry.words })
    }

    fn words(&mut self, source: &Source, direct: bool, reply_to: Option<&MessageId>) {
        self.lapse(source.said);
        self.talk_goes_on(source);
        let alone = self.read_after(source, None);
        if alone.refusal.is_some() {
            self.problem("out-of-range", reply::too_long());
            return;
        }
        if let Some(urgent) = self.urgent(source, &alone) {
            self.statements(source, urgent, reply_to);
            return;
        }
        if let Some(answer) = self.doubt_answered(source) {
            self.statements(source, vec![answer], None);
            return;
        }
        if let Some((about, statements)) = self.answered(source, &alone) {
            self.topic = Some(about);
            self.statements(source, statements, None);
            return;
        }
        if self.decided(source, &alone, reply_to) {
            return;
        }
        let reading = self.read(source);
        let reading = self.in_view_of_what_was_told(source, reading);
        if reading.statements.is_empty() {
            if (direct || reading.addressed) && !source.words.trim().is_empty() {
                let answer = reply::not_understood(self.scene(), &source.words);
                self.problem("clarify", answer);
            }
            return;
        }
        let reading = match reply_to {
            Some(_) => Reading { statements: sure_in_a_reply(reading.statements), ..reading },
            None => reading,
        };
        let enters = reading.statements.iter().any(is_entry);
        self.statements(source, reading.statements, reply_to);
        // What was passed over must not look as if it had been taken in.
        let tells = reading.addressed || direct || reading.figure_left && enters;
        if !reading.unread.trim().is_empty() && tells && !self.is_refused() {
            self.add_to_last(&reply::left_over(&reading.unread));
        }
    }

    /// Entries first, in one reply; then questions, corrections and answers in the order said.
    pub(super) fn statements(&mut self, source: &Source, statements: Vec<Statement>, reply_to: Option<&MessageId>) {
        let mut entries = Vec::new();
        let process =
            |statement: &&Statement| matches!(statement, Statement::Ask(ask) if ask.about == Subject::Process);
        let foods = statements.iter().filter(process).count();
        for statement in statements {
            let Some(statement) = self.doubted(statement, &source.words) else { continue };
            match statement {
                Statement::Ask(ask) => {
                    self.enter_all(source, &mut entries);
                    self.answer(source, &ask);
                }
                Statement::Undo => {
                    self.enter_all(source, &mut entries);
                    self.undo(source, reply_to);
                }
                Statement::Correct(correct) => {
                    self.enter_all(source, &mut entries);
                    self.correct(source, &correct, reply_to);
                }
                Statement::Propose(proposed) => {
                    self.enter_all(source, &mut entries);
                    self.propose(source, proposed.statements);
                }
                Statement::Clarify(question) if question.word.is_some() && question.partial.is_some() => {
                    self.enter_all(source, &mut entries);
                    self.clarify(source, question);
                }
                Statement::Clarify(Clarify { word: Some(word), about, missing, .. }) => {
                    self.enter_all(source, &mut entries);
                    if (about, missing) == (Kind::Set, Missing::Altitude) {
                        self.forget_height(source);
                    }
                    self.held_back(&word, about);
                }
                Statement::Clarify(question) => match self.filled_as_begun(&question) {
                    Some(filled) => entries.push(filled),
                    None => {
                        self.enter_all(source, &mut entries);
                        self.clarify(source, question);
                    }
                },
                entry => entries.push(entry),
            }
        }
        self.enter_all(source, &mut entries);
        if foods > 1 {
            self.add_to_last(reply::each_by_itself());
        }
    }

    /// "Filled 6" needs no jar where a batch that is to be filled has been begun with it; of several it is asked which.
    pub(super) fn filled_as_begun(&self, question: &Clarify) -> Option<Statement> {
        let jars = question.amount?.as_count().filter(|_| question.missing == Missing::Jar)?;
        let filled = match question.partial.as_deref() {
            Some(Statement::Filled(filled)) => filled.clone(),
            None if question.about == Kind::Filled => Filled::default(),
            _ => return None,
        };
        let mut batches = self.room.state().batches.iter();
        let to_fill = batches.any(|batch| {
            let first = batch.is_open() && batch.outs.is_empty() && batch.heat.is_none();
            first || batch.takes_more(self.now)
        });
        to_fill.then_some(Statement::Filled(Filled { jars: Some(jars), ..filled }))
    }

    fn enter_all(&mut self, source: &Source, entries: &mut Vec<Statement>) {
        if !entries.is_empty() {
            self.enter(source, std::mem::take(entries));
        }
    }

    /// Makes nothing of a statement on which a process would rest and in which a word was not understood, and says
    /// which.
    fn held_back(&mut self, word: &str, about: Kind) {
        let (topic, problem) = reply::not_understood_in(about, word);
        self.problem(topic, problem);
    }

    fn answer(&mut self, source: &Source, ask: &Ask) {
        match reply::answer_with(self.scene(), &self.room.ledger, ask) {
            Ok((answer, files)) => self.reply_with("ask", answer, files),
            Err(refusal) => {
                let statement = Statement::Ask(ask.clone());
                let zone = self.room.state().settings.zone;
                for entry in source.entries(vec![statement], zone) {
                    self.refuse(source, entry, &refusal);
                }
            }
        }
    }

    /// The message whose entries a message is about: a correction is about the one it corrected, a question about its
    /// answer.
    fn entry_of<'m>(&'m self, id: &'m MessageId) -> &'m MessageId {
        self.room.corrections.get(id).or_else(|| self.room.answered.get(id)).unwrap_or(id)
    }

    /// The entry that is meant: the one replied to if it is one, else the same person's latest.
    fn meant(&self, source: &Source, reply_to: Option<&MessageId>) -> Option<MessageId> {
        let has_entries = |id: &&MessageId| self.room.ledger.message(id).is_some_and(|entries| !entries.is_empty());
        let replied = reply_to.map(|id| self.entry_of(id)).filter(has_entries);
        replied.or_else(|| self.room.ledger.latest_by(&source.who)).cloned()
    }

    fn undo(&mut self, source: &Source, reply_to: Option<&MessageId>) {
        let Some(target) = self.meant(source, reply_to) else {
            self.reply("undo", reply::nothing_to_undo());
            return;
        };
        let words =
            self.room.ledger.message(&target).and_then(|entries| entries.first().map(|entry| entry.words.clone()));
        let applied = self.change(Change::Amended { message: target, entries: Vec::new() });
        let mut said = reply::undone(self.scene(), &words.unwrap_or_default());
        said.text.push_str(&reply::cuts(self.scene(), &applied.cuts));
        self.reply("undo", said);
    }

    fn correct(&mut self, source: &Source, correct: &Correct, reply_to: Option<&MessageId>) {
        let replied = reply_to.is_some();
        let target = match (correct.was, replied) {
            (Some(_), false) => self.entry_with(source, correct),
            _ => self.meant(source, reply_to),
        };
        let done = target.is_some_and(|target| self.correct_message(source, &target, correct));
        // "It was 8 pints", said while the clock runs, is about the jars and not about the clock.
        let earlier = if done || reply_to.is_some() { None } else { self.jars_told(source, correct) };
        let done = done || earlier.is_some_and(|target| self.correct_message(source, &target, correct));
        // Where somebody has entered nothing of late, `make that two` is said to somebody else.
        if !done && (replied || self.has_told(source)) {
            self.problem("clarify", reply::nothing_to_correct());
        }
    }

    /// The same person's latest entry of an open batch in which jars were filled or meant, for a correction of jars.
    fn jars_told(&self, source: &Source, correct: &Correct) -> Option<MessageId> {
        if correct.jars.is_none() && correct.jar.is_none() {
            return None;
        }
        let began = self.room.state().open_batches().map(|batch| batch.began).min()?;
        let tells_jars = |entry: &&Entry| {
            entry.who == source.who && matches!(entry.statement, Statement::Filled(_) | Statement::Began(_))
        };
        let entries = self.room.ledger.entries().rev().take_while(|entry| entry.happened >= began);
        entries.into_iter().find(tells_jars).map(|entry| entry.message.clone())
    }

    /// Lays a correction over the last entry of a message that it fits; `false` when it fits none.
    fn correct_message(&mut self, source: &Source, target: &MessageId, correct: &Correct) -> bool {
        let Some(entries) = self.room.ledger.message(target) else { return false };
        let mut entries: Vec<Entry> = entries.into_iter().cloned().collect();
        let zone = self.room.state().settings.zone;
        let changed = entries.iter_mut().rev().find_map(|entry| {
            let unit = phrase::mass_unit(&entry.words);
            let statement = corrected(&entry.statement, correct, unit)?;
            entry.happened = super::entering::happened(&statement, entry.said, zone);
            entry.statement = statement;
            Some(entry.part)
        });
        let Some(part) = changed else { return false };
        // What was wrong may have been wrong by a slip in the correction too.
        let fault = entries.iter().find(|entry| entry.part == part).and_then(|entry| {
            crate::ledger::check_bounds(&entry.statement, entry.happened, self.now)
                .err()
                .map(|refusal| (entry.clone(), refusal))
        });
        if let Some((entry, refusal)) = fault {
            self.refuse(source, entry, &refusal);
            return true;
        }
        self.change(Change::Corrected { by: source.message.clone(), target: target.clone() });
        self.amend(target, entries, Some(Kind::Correct));
        true
    }

    pub(super) fn edited(&mut self, source: &Source, direct: bool) {
        // A question that the old words raised has lapsed with them.
        if self.room.pending.contains_key(&source.who) {
            self.change(Change::Answered { who: source.who.clone() });
        }
        if self.edited_answer(source) {
            return;
        }
        // What the old words were asked about, and answered, goes with them.
        if let Some(answer) = self.room.answered.get(&source.message).cloned() {
            self.change(Change::Amended { message: answer, entries: Vec::new() });
        }
        self.withdraw(&source.message);
        let reading = self.read(source);
        if let Some(target) = self.room.corrections.get(&source.message).cloned() {
            if let Some(Statement::Correct(correct)) = reading.statements.first() {
                self.correct_message(source, &target, correct);
            }
            return;
        }
        let known =
            self.room.ledger.message(&source.message).map(|entries| entries.first().map(|entry| entry.who.clone()));
        match known {
            // Never an entry: it is one now, if it is one at all.
            None => self.edited_talk(source, reading, direct),
            Some(Some(who)) if who != source.who => {}
            Some(_) => self.edited_entry(source, reading),
        }
    }

    /// Another answer to the question that the message had answered.
    fn edited_answer(&mut self, source: &Source) -> bool {
        let Some(pending) = self.room.answers.get(&source.message).cloned() else { return false };
        let Some(statements) = self.complete(&pending, source) else { return false };
        let zone = self.room.state().settings.zone;
        let entries = source.entries(statements, zone);
        self.amend(&source.message, entries, Some(pending.question.about));
        true
    }

    fn edited_talk(&mut self, source: &Source, reading: Reading, direct: bool) {
        if reading.statements.is_empty() && direct {
            let answer = reply::not_understood(self.scene(), &source.words);
            self.problem("clarify", answer);
        }
        self.statements(source, reading.statements, None);
    }

    /// Changing the past is never refused; only what cannot be meant at all is.
    fn edited_entry(&mut self, source: &Source, reading: Reading) {
        let zone = self.room.state().settings.zone;
        let mut statements = Vec::new();
        let mut others = Vec::new();
        for statement in reading.statements {
            match statement {
                statement if !is_entry(&statement) => others.push(statement),
                entry => statements.push(entry),
            }
        }
        let (mut entries, mut absurd) = (Vec::new(), Vec::new());
        for entry in source.entries(statements, zone) {
            match crate::ledger::check_bounds(&entry.statement, entry.happened, self.now) {
                Ok(()) => entries.push(entry),
                Err(refusal) => absurd.push((entry, refusal)),
            }
        }
        if !absurd.is_empty() && entries.is_empty() {
            for (entry, refusal) in absurd {
                self.refuse(source, entry, &refusal);
            }
            return;
        }
        self.amend(&source.message, entries, None);
        for other in others {
            match other {
                Statement::Clarify(Clarify { word: Some(word), about, partial: None, .. }) => {
                    self.held_back(&word, about);
                }
                Statement::Clarify(question) => self.clarify(source, question),
                Statement::Propose(proposed) => self.propose(source, proposed.statements),
                Statement::Ask(ask) => self.answer(source, &ask),
                _ => {}
            }
        }
    }

    fn deleted(&mut self, target: &MessageId) {
        // A question that is deleted takes with it what its answer made.
        let target = self.room.answered.get(target).cloned().unwrap_or_else(|| target.clone());
        let entries = self.room.ledger.message(&target).unwrap_or_default();
        let words = entries.first().map(|entry| entry.words.clone());
        self.withdraw(&target);
        let Some(words) = words else { return };
        let applied = self.change(Change::Amended { message: target, entries: Vec::new() });
        let mut said = reply::undone(self.scene(), &words);
        said.text.push_str(&reply::cuts(self.scene(), &applied.cuts));
        self.reply("undo", said);
    }
}

/// A correction is meant where it replies to what it corrects, be it ever so short: `make that 6.5`.
fn sure_in_a_reply(statements: Vec<Statement>) -> Vec<Statement> {
    match &*statements {
        [Statement::Propose(proposed)] if matches!(&*proposed.statements, [Statement::Correct(_)]) => {
            proposed.statements.clone()
        }
        _ => statements,
    }
}

/// Whether a statement is one that is entered.
pub(super) const fn is_entry(statement: &Statement) -> bool {
    !matches!(
        statement,
        Statement::Ask(_) | Statement::Undo | Statement::Correct(_) | Statement::Clarify(_) | Statement::Propose(_)
    )
}
