//! Statements to entries: each is tried where it belongs in time, accepted ones are entered together, and refused ones
//! are said why.

use super::hearing::is_entry;
use super::marks::is_smooth;
use super::room::Applied;
use super::turn::Turn;
use crate::alert::{Alert, Due, deadlines};
use crate::batch::{Batch, Clock};
use crate::ledger::state::{PlannedDay, State};
use crate::ledger::{Change, Cut, Effect, Entry, Ledger, MessageId, Pending, Refusal, check_bounds};
use crate::planning::canning_day::{NoPlan, plan_day};
use crate::processes;
use crate::reply::{self, Facts, Reply};
use crate::statement::{AcidAdded, Clarify, Set, Statement, When};
use crate::vocabulary::{Kind, Missing, SettingKey};
use crate::zone::Zone;
use chrono::{DateTime, Duration, NaiveTime, Utc};
use std::sync::Arc;

/// What happened longer before it was told is told afterwards (our own choice: a wet hand needs a minute or two).
const TOLD_AFTERWARDS: Duration = Duration::minutes(2);

/// Who said what, when.
#[derive(Clone)]
pub(super) struct Source {
    pub(super) message: MessageId,
    pub(super) who: Arc<str>,
    pub(super) said: DateTime<Utc>,
    pub(super) words: Arc<str>,
}

/// When a statement happened: at the time it gives; when it gives only a day that is over, at its end, so that it comes
/// after what was logged on that day; otherwise when it was said.
pub(super) fn happened(statement: &Statement, said: DateTime<Utc>, zone: Zone) -> DateTime<Utc> {
    match statement.on() {
        None => said,
        Some(When::At(at)) => at.to_utc(),
        Some(When::Day(day)) if day == zone.day(said) => said,
        Some(When::Day(day)) => zone.at(day, NaiveTime::from_hms_opt(23, 59, 59).unwrap_or_default()),
    }
}

impl Source {
    /// The message's entries, in the order said.
    pub(super) fn entries(&self, statements: Vec<Statement>, zone: Zone) -> Vec<Entry> {
        self.entries_from(0, statements, zone)
    }

    /// The same, numbered from a part on.
    fn entries_from(&self, first: u16, statements: Vec<Statement>, zone: Zone) -> Vec<Entry> {
        (first..)
            .zip(statements)
            .map(|(part, statement)| Entry {
                message: self.message.clone(),
                part,
                who: self.who.clone(),
                said: self.said,
                happened: happened(&statement, self.said, zone),
                words: self.words.clone(),
                statement,
            })
            .collect()
    }
}

/// Why a statement is not taken in.
enum Refused {
    /// It does not fit what there is.
    Entry(Refusal),
    /// The canning day it sets cannot be.
    Day(PlannedDay, NoPlan),
}

/// Whether it sets the height of the kitchen.
fn is_height(statement: &Statement) -> bool {
    matches!(statement, Statement::Set(set) if set.key == SettingKey::Altitude)
}

impl Turn<'_> {
    /// Enters what of a message's statements fits, replies to it, and says why the rest does not.
    pub(super) fn enter(&mut self, source: &Source, statements: Vec<Statement>) {
        let zone = self.room.state().settings.zone;
        let statements = statements.into_iter().map(|statement| self.sized(self.weighed(source, statement)));
        let (entries, questions): (Vec<_>, Vec<_>) = statements.partition(is_entry);
        self.said_properly(&entries, &source.message);
        // What was proposed of a message may come to what was entered of it before.
        let standing: Vec<Entry> =
            self.room.ledger.message(&source.message).unwrap_or_default().into_iter().cloned().collect();
        let first = standing.iter().map(|entry| entry.part + 1).max().unwrap_or(0);
        let (accepted, refused, on_the_way) = self.decide(source.entries_from(first, entries, zone));
        for state in &on_the_way {
            self.rearm_for(state);
        }
        if !accepted.is_empty() {
            let applied = self.enter_beside(&source.message, standing, &accepted);
            self.say_entered(&accepted, &applied.effects, &applied.cuts);
            self.pass_over(&accepted, &applied.effects);
        }
        for question in questions {
            if let Statement::Clarify(question) = question {
                self.clarify(source, question);
            }
        }
        for (entry, refused) in refused {
            match refused {
                Refused::Entry(refusal) => {
                    if is_height(&entry.statement) {
                        self.forget_height(source);
                    }
                    self.refuse(source, entry, &refusal);
                }
                Refused::Day(_, NoPlan::Process(refusal)) => self.refuse(source, entry, &refusal),
                Refused::Day(day, why) => {
                    let (topic, problem) = reply::no_plan(self.scene(), &day, &why);
                    self.problem(topic, problem);
                }
            }
        }
    }

    /// A step that is told afterwards rings no bell for what was due before it was told. What is due of jars that wait
    /// is said all the same: it decides what becomes of them.
    fn pass_over(&mut self, accepted: &[Entry], effects: &[Effect]) {
        let told =
            accepted.iter().filter(|entry| entry.said - entry.happened > TOLD_AFTERWARDS).map(|entry| entry.said);
        let Some(said) = told.max() else { return };
        let meant = |batch: &Batch| effects.iter().any(|effect| effect.batch == Some(batch.number));
        let over = |due: &Due| match &due.alert {
            Alert::Batch(Clock::ProcessDone | Clock::RestDone | Clock::HeatCheck, batch) => {
                due.at <= said && meant(batch)
            }
            _ => false,
        };
        for due in deadlines(self.room.state()).into_iter().filter(over) {
            if !self.room.told.contains_key(&due.name) {
                self.change(Change::Told { alert: due.name, due: due.at });
            }
        }
    }

    /// After a height that cannot be or was not understood the one before holds no longer: nobody knows where the
    /// kitchen is.
    pub(super) fn forget_height(&mut self, source: &Source) {
        let settings = &self.room.state().settings;
        if settings.altitude.is_none() {
            return;
        }
        let zone = settings.zone;
        let standing: Vec<Entry> =
            self.room.ledger.message(&source.message).unwrap_or_default().into_iter().cloned().collect();
        let first = standing.iter().map(|entry| entry.part + 1).max().unwrap_or(0);
        let cleared = source.entries_from(first, vec![Statement::Set(Set::of(SettingKey::Altitude))], zone);
        self.enter_beside(&source.message, standing, &cleared);
    }

    /// Enters entries beside those of the same message that stand; the effects are those of the new ones.
    fn enter_beside(&mut self, message: &MessageId, standing: Vec<Entry>, accepted: &[Entry]) -> Applied {
        if standing.is_empty() {
            return self.change(Change::Entered { entries: accepted.to_vec() });
        }
        let mut all: Vec<Entry> = standing.into_iter().chain(accepted.iter().cloned()).collect();
        all.sort_by_key(|entry| (entry.happened, entry.part));
        let is_new: Vec<bool> = all.iter().map(|entry| accepted.iter().any(|new| new.part == entry.part)).collect();
        let applied = self.change(Change::Amended { message: message.clone(), entries: all });
        let effects =
            applied.effects.into_iter().zip(is_new).filter(|(_, new)| *new).map(|(effect, _)| effect).collect();
        Applied { effects, cuts: applied.cuts }
    }

    fn decide(&self, entries: Vec<Entry>) -> (Vec<Entry>, Vec<(Entry, Refused)>, Vec<State>) {
        let (mut accepted, mut refused, mut on_the_way) = (Vec::new(), Vec::new(), Vec::new());
        let last = entries.len().saturating_sub(1);
        // Most entries are of now: one state serves them all. Those of another time are tried where they belong.
        let mut trial: Option<(DateTime<Utc>, State)> = None;
        for (n, entry) in entries.into_iter().enumerate() {
            if let Err(refusal) = check_bounds(&entry.statement, entry.happened, self.now) {
                refused.push((entry, Refused::Entry(refusal)));
                continue;
            }
            let mut state = match trial.take() {
                Some((at, state)) if at == entry.happened => state,
                _ => self.room.ledger.state_at(entry.happened),
            };
            let before = matches!(entry.statement, Statement::Planned(_)).then(|| state.clone());
            let effect = Ledger::try_entry(&mut state, &entry);
            // What one message empties and fills again has been empty in between.
            if n < last && entry.happened == entry.said {
                on_the_way.push(state.clone());
            }
            let day = self.impossible_day(&state, &effect);
            let state = if day.is_some() { before.unwrap_or(state) } else { state };
            trial = Some((entry.happened, state));
            match effect.refusal.map(Refused::Entry).or(day) {
                None => accepted.push(entry),
                Some(why) => refused.push((entry, why)),
            }
        }
        (accepted, refused, on_the_way)
    }

    /// A canning day that is over, comes before the fruit is thawed, or has no tested process. Where fruit is missing
    /// the day is noted all the same: more may come in.
    fn impossible_day(&self, state: &State, effect: &Effect) -> Option<Refused> {
        let day = effect.planned.as_ref().filter(|day| state.planned.contains(day))?;
        match plan_day(state, day, self.now) {
            Ok(_) | Err(NoPlan::NotEnough { .. } | NoPlan::NoWeight) => None,
            Err(why) => Some(Refused::Day(day.clone(), why)),
        }
    }

    fn say_entered(&mut self, entries: &[Entry], effects: &[Effect], cuts: &[Cut]) {
        let Some(first) = entries.first() else { return };
        let completed = self.topic.take().filter(|about| entries.iter().any(|entry| entry.statement.kind() == *about));
        let topic = completed.unwrap_or(first.statement.kind()).as_str();
        let too_soon = effects.iter().find(|effect| effect.too_soon);
        if let Some(batch) = too_soon.and_then(|effect| self.batch(effect)) {
            let problem = reply::too_soon(self.scene(), &batch);
            self.problem("too-soon", problem);
            return;
        }
        let too_low = effects.iter().find(|effect| effect.too_low);
        if let Some(batch) = too_low.and_then(|effect| self.batch(effect)) {
            let problem = reply::too_low(self.scene(), &batch);
            self.problem("out-of-range", problem);
            return;
        }
        let mut said = self.joined(entries, effects);
        said.text.push_str(&reply::cuts(self.scene(), cuts));
        let offered = effects.iter().find(|effect| effect.closed).and_then(|effect| self.batch(effect));
        let offered = offered.and_then(|batch| reply::yield_offer(self.scene(), &batch));
        if let Some((line, _)) = &offered {
            said.text.push_str(&format!("\n{line}"));
        }
        let plain = cuts.is_empty() && offered.is_none() && effects.iter().all(is_smooth);
        self.say_taken_in(topic, said, entries, plain);
        if let Some((_, set)) = offered {
            self.offer(first, Statement::Set(set));
        } else if let Some(batch) = self.asked_of_acid(entries, effects) {
            self.offer(first, Statement::AcidAdded(AcidAdded { batch: Some(batch), ..AcidAdded::default() }));
        }
    }

    /// The batch of which the reply to these entries asks whether its acid is in.
    fn asked_of_acid(&self, entries: &[Entry], effects: &[Effect]) -> Option<String> {
        let asks = |entry: &Entry| {
            matches!(
                entry.statement,
                Statement::Filled(_) | Statement::AtHeat(_) | Statement::Sealed(_) | Statement::Unsealed(_)
            )
        };
        let mut asked = entries.iter().zip(effects).filter(|(entry, _)| asks(entry));
        asked.find_map(|(_, effect)| {
            let batch = self.batch(effect)?;
            (!batch.is_acidified() && batch.acid_missing.is_none()).then_some(batch.name)
        })
    }

    /// Remembers what a "yes" of the same person within ten minutes would enter.
    fn offer(&mut self, entry: &Entry, offered: Statement) {
        let source = Source {
            message: entry.message.clone(),
            who: entry.who.clone(),
            said: entry.said,
            words: entry.words.clone(),
        };
        let about = offered.kind();
        let partial = Some(Box::new(offered));
        self.ask(&source, Clarify { about, missing: Missing::Product, amount: None, word: None, partial });
    }

    fn batch(&self, effect: &Effect) -> Option<crate::batch::Batch> {
        let number = effect.batch?;
        self.room.state().batches.iter().find(|batch| batch.number == number).cloned()
    }

    /// One reply for all of a message's entries.
    pub(super) fn joined(&self, entries: &[Entry], effects: &[Effect]) -> Reply {
        let mut all = Reply::default();
        for (entry, effect) in entries.iter().zip(effects) {
            if effect.refusal.is_some() {
                continue;
            }
            let part = reply::entered(self.scene(), entry, effect);
            all.facts.merge(part.facts);
            // Two steps of one batch end in the same words.
            if all.text.ends_with(&part.text) {
                continue;
            }
            if !all.text.is_empty() {
                all.text.push('\n');
            }
            all.text.push_str(&part.text);
        }
        all
    }

    /// Says why a statement was not taken in; where something is missing that can be asked for, asks.
    pub(super) fn refuse(&mut self, source: &Source, entry: Entry, refusal: &Refusal) {
        let (topic, problem) = reply::refusal(self.scene(), refusal);
        let about = entry.statement.kind();
        let missing = match refusal {
            Refusal::WhichProduct(..) | Refusal::WhichBatch(_) => Some(Missing::Product),
            Refusal::WhichJar(..) => Some(Missing::Jar),
            Refusal::WhichGauge => Some(Missing::Canner),
            Refusal::Process { why: processes::Refusal::WhichPack { .. }, .. } => Some(Missing::Product),
            Refusal::Process { why: processes::Refusal::AltitudeUnknown, .. } => Some(Missing::Altitude),
            _ => None,
        };
        if let Some(missing) = missing {
            let partial = Box::new(entry.statement);
            self.ask(source, Clarify { about, missing, amount: None, word: None, partial: Some(partial) });
        }
        self.problem(topic, problem);
    }

    /// Remembers a question that waits for its answer.
    pub(super) fn ask(&mut self, source: &Source, mut question: Clarify) {
        let partial = question.partial.take().map(|partial| *partial);
        let pending = Pending {
            message: source.message.clone(),
            question,
            partial,
            asked: self.now,
            passed: false,
            words: source.words.clone(),
        };
        self.change(Change::Asked { who: source.who.clone(), pending: Box::new(pending) });
    }

    /// Asks for what an unfinished phrase lacks.
    pub(super) fn clarify(&mut self, source: &Source, question: Clarify) {
        let asked = reply::clarify(&question);
        if question.partial.as_deref().is_some_and(is_height) {
            self.forget_height(source);
        }
        self.ask(source, question);
        self.problem("clarify", asked);
    }

    /// Puts a message's entries where they now belong, says what stands, and what no longer fits.
    pub(super) fn amend(&mut self, message: &MessageId, entries: Vec<Entry>, topic: Option<Kind>) {
        let applied = self.change(Change::Amended { message: message.clone(), entries: entries.clone() });
        let topic = topic.or_else(|| entries.first().map(|entry| entry.statement.kind())).unwrap_or(Kind::Undo);
        let mut said = self.joined(&entries, &applied.effects);
        for refusal in applied.effects.iter().filter_map(|effect| effect.refusal.as_ref()) {
            said.text.push('\n');
            said.text.push_str(&reply::refusal(self.scene(), refusal).1.text);
        }
        let lead = match topic {
            Kind::Undo if entries.is_empty() => "Taken back.",
            _ => "Changed.",
        };
        said.text = format!("{lead} {}", said.text.trim_start()).trim_end().to_owned();
        said.text.push_str(&reply::cuts(self.scene(), &applied.cuts));
        if entries.is_empty() {
            said.facts.merge(self.standing());
        }
        self.reply(topic.as_str(), said);
    }

    /// The sums that stand after something was taken back.
    pub(super) fn standing(&self) -> Facts {
        reply::standing(self.scene())
    }
}
