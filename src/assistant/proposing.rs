//! What was fairly, not quite, understood: it is put to the household in one line, and entered when somebody of it says
//! yes within a day, as said by whoever said it, when it was said.

use super::answering::ANSWER_WITHIN;
use super::entering::Source;
use super::hearing::is_entry;
use super::turn::Turn;
use crate::batch::{Batch, Stage};
use crate::ledger::{Change, MessageId, Proposal, corrected};
use crate::phrase::{self, Context, Reading};
use crate::quantity::Pressure;
use crate::reply;
use crate::statement::{Ask, AtHeat, Clarify, Correct, Mishap, Statement};
use crate::vocabulary::{self, Crop, Matter, Missing, Subject};
use chrono::{DateTime, Duration, Utc};
use std::collections::BTreeSet;

/// A proposal lapses after this long.
const LAPSES_AFTER: Duration = Duration::days(1);
/// So many may be open at once in a room of several people: a room that is asked about every other line is soon left.
const OPEN_AT_ONCE: usize = 3;

/// What a message may tell to be amiss with the jars of an open batch.
fn amiss(ask: &Ask) -> Option<Matter> {
    let matter = ask.what.as_deref().filter(|_| ask.about == Subject::Safety).and_then(Matter::named)?;
    matter.is_doubt().then_some(matter)
}

/// Whether it can be amiss with a batch.
fn concerns(matter: Matter, batch: &Batch) -> bool {
    batch.filled > 0
        && match matter {
            Matter::AcidDoubt => batch.needs_acid,
            Matter::VentDoubt | Matter::OpenedDoubt => batch.canner.is_pressure(),
            _ => true,
        }
}

impl Turn<'_> {
    /// Puts statements to the household.
    pub(super) fn propose(&mut self, source: &Source, statements: Vec<Statement>) {
        let statements: Vec<Statement> = statements.into_iter().map(|statement| self.as_begun(statement)).collect();
        let asked = reply::proposal(self.scene(), &statements, &source.words);
        let proposal = Proposal {
            message: source.message.clone(),
            who: source.who.clone(),
            said: source.said,
            words: source.words.clone(),
            statements,
        };
        if self.is_of_several(source) {
            let too_many = (self.room.proposals.len() + 1).saturating_sub(OPEN_AT_ONCE);
            let oldest: Vec<_> = self.room.proposals.iter().take(too_many).map(|open| open.message.clone()).collect();
            oldest.iter().for_each(|message| self.withdraw(message));
        }
        self.change(Change::Proposed { proposal: Box::new(proposal) });
        self.reply("propose", asked);
    }

    /// What may have been lost heat is not put to the household as a guess that nobody has to answer: it is asked at
    /// once, and again before any jar is shelved. `None` for words that mean nothing where no canner was hot.
    pub(super) fn doubted(&self, statement: Statement, words: &str) -> Option<Statement> {
        let now = self.scene().now;
        let state = self.room.ledger.state();
        let any = |is: &dyn Fn(&Batch) -> bool| state.open_batches().any(is);
        let runs = |batch: &Batch| batch.stage(now) == Stage::Processing && batch.ends_at(now).is_some();
        let was_hot = |batch: &Batch| !matches!(batch.stage(now), Stage::Begun | Stage::Filled | Stage::Venting);
        let unclear = |batch: Option<String>| {
            Statement::Mishap(Mishap { what: vocabulary::Mishap::Unclear, psi: None, batch, on: None })
        };
        let lost = |said: &Statement| match said {
            Statement::LostHeat(_) => any(&was_hot),
            Statement::HeatOff(_) => any(&runs),
            Statement::Mishap(mishap) => {
                any(&was_hot) && !matches!(mishap.what, vocabulary::Mishap::Held | vocabulary::Mishap::Fell)
            }
            _ => false,
        };
        let under_pressure = |batch: &Batch| batch.canner.is_pressure() && !was_hot(batch);
        match &statement {
            // What only boils, with the vent open, is at no pressure at all.
            Statement::AtHeat(heat)
                if heat.psi.is_none()
                    && phrase::only_boils(words)
                    && state.open_batches().next().is_some()
                    && state.open_batches().all(under_pressure) =>
            {
                Some(Statement::AtHeat(AtHeat { psi: Pressure::from_psi(0.0), ..heat.clone() }))
            }
            Statement::Propose(proposed) if proposed.statements.iter().any(lost) => Some(unclear(None)),
            // What may be amiss with jars is said where there are jars.
            Statement::Ask(ask) if amiss(ask).is_some_and(|matter| !any(&|batch| concerns(matter, batch))) => None,
            // Where nothing was hot nothing was lost.
            Statement::Propose(proposed)
                if !any(&was_hot) && matches!(&*proposed.statements, [Statement::LostHeat(_)]) =>
            {
                None
            }
            Statement::Mishap(mishap) if mishap.what == vocabulary::Mishap::Unclear => {
                any(&was_hot).then_some(statement)
            }
            // Told when the jars are through: it was lost before, or it is of no matter.
            Statement::LostHeat(lost) if any(&was_hot) && !any(&|batch| batch.stage(now) == Stage::Processing) => {
                Some(unclear(lost.batch.clone()))
            }
            _ => Some(statement),
        }
    }

    /// A question about jars for which the batch that was begun has the answer is none.
    fn as_begun(&self, statement: Statement) -> Statement {
        match statement {
            Statement::Clarify(question) => self.filled_as_begun(&question).unwrap_or(Statement::Clarify(question)),
            statement => statement,
        }
    }

    /// Whether more than one person has said anything for the ledger here.
    fn is_of_several(&self, source: &Source) -> bool {
        let mut people: BTreeSet<&str> = self.room.ledger.people().collect();
        people.extend(self.room.proposals.iter().map(|open| &*open.who));
        people.insert(&source.who);
        people.len() > 1
    }

    /// Drops the proposals that are too old.
    pub(super) fn lapse(&mut self, now: DateTime<Utc>) {
        let old = self.room.proposals.iter().filter(|open| now - open.said > LAPSES_AFTER);
        let old: Vec<_> = old.map(|open| open.message.clone()).collect();
        old.iter().for_each(|message| self.withdraw(message));
    }

    /// Drops the proposal that a message led to, if it did.
    pub(super) fn withdraw(&mut self, message: &MessageId) {
        if self.room.proposals.iter().any(|open| open.message == *message) {
            self.change(Change::Decided { message: message.clone() });
        }
    }

    /// Whether a message decides on a proposal: a yes or a no of anybody, or the right figure from whoever said it.
    pub(super) fn decided(&mut self, source: &Source, alone: &Reading, reply_to: Option<&MessageId>) -> bool {
        let open = self.room.proposals.iter();
        let meant = match reply_to {
            Some(target) => open.rev().find(|open| open.message == *target),
            None => open.last(),
        };
        let Some(proposal) = meant.cloned() else { return false };
        // What was only heard puts no acid into a jar.
        let acid = proposal.statements.iter().any(|said| matches!(said, Statement::AcidAdded(_)));
        match phrase::assent(&source.words) {
            Some(true) if acid && phrase::only_heard(&source.words) => return false,
            Some(true) => {
                self.take_up(&proposal, proposal.statements.clone());
                return true;
            }
            Some(false) => {
                self.withdraw(&proposal.message);
                self.reply("propose", reply::turned_down());
                return true;
            }
            None => {}
        }
        let own = proposal.who == source.who
            && source.said - proposal.said <= ANSWER_WITHIN
            && !self.has_entered_since(&proposal, source);
        let Some(statements) = self.amended(&proposal, source, alone).filter(|_| own || reply_to.is_some()) else {
            return false;
        };
        self.take_up(&proposal, statements);
        true
    }

    /// A check mark or a cross on what was proposed.
    pub(super) fn decided_by_mark(&mut self, message: &MessageId, yes: bool) -> bool {
        self.lapse(self.now);
        let Some(proposal) = self.room.proposals.iter().find(|open| open.message == *message).cloned() else {
            return false;
        };
        if yes {
            self.take_up(&proposal, proposal.statements.clone());
        } else {
            self.withdraw(message);
            self.reply("propose", reply::turned_down());
        }
        true
    }

    /// Whether somebody has entered something since a proposal: then a figure is about that.
    fn has_entered_since(&self, proposal: &Proposal, source: &Source) -> bool {
        let latest = self.room.ledger.latest_by(&source.who).and_then(|id| self.room.ledger.message(id));
        latest.is_some_and(|entries| entries.iter().any(|entry| entry.said > proposal.said))
    }

    fn take_up(&mut self, proposal: &Proposal, statements: Vec<Statement>) {
        self.withdraw(&proposal.message);
        let (message, who) = (proposal.message.clone(), proposal.who.clone());
        let source = Source { message, who, said: proposal.said, words: proposal.words.clone() };
        self.topic = statements.first().map(Statement::kind);
        self.statements(&source, statements, None);
    }

    /// The one statement that was proposed, with what a message puts right: `no, 10 lb`, `10 lb`, `kg`.
    fn amended(&self, proposal: &Proposal, source: &Source, alone: &Reading) -> Option<Vec<Statement>> {
        let [statement] = &*proposal.statements else { return None };
        let said = match &*alone.statements {
            [Statement::Propose(proposed)] => &*proposed.statements,
            said => said,
        };
        if let [Statement::Correct(correct)] = said {
            let unit = phrase::mass_unit(&proposal.words);
            let by = Correct { was: None, ..correct.clone() };
            return Some(vec![corrected(statement, &by, unit).unwrap_or_else(|| statement.clone())]);
        }
        if alone.statements.iter().any(|said| !matches!(said, Statement::Propose(_))) {
            return None;
        }
        let zone = self.room.state().settings.zone;
        let context = Context { now: source.said, zone, lexicon: &self.room.lexicon, last: None };
        let about = statement.kind();
        let partial = Some(Box::new(statement.clone()));
        let question = Clarify { about, missing: Missing::Amount, amount: None, word: None, partial };
        let completed = phrase::complete(&question, &source.words, &context)?;
        completed.iter().all(is_entry).then_some(completed)
    }

    /// Drops proposals that say what was now said properly.
    pub(super) fn said_properly(&mut self, statements: &[Statement], message: &MessageId) {
        let repeats = |open: &&Proposal| {
            open.message != *message
                && open.statements.iter().all(|proposed| statements.iter().any(|said| says_the_same(proposed, said)))
        };
        let repeated: Vec<_> = self.room.proposals.iter().filter(repeats).map(|open| open.message.clone()).collect();
        repeated.iter().for_each(|message| self.withdraw(message));
    }
}

/// Whether two statements tell of one thing: the same deed with the same amount of the same.
fn says_the_same(one: &Statement, other: &Statement) -> bool {
    let crop = |statement: &Statement| statement.crop().unwrap_or(Crop::Tomato);
    let amount = one.mass() == other.mass() && one.count() == other.count();
    one.kind() == other.kind() && amount && crop(one) == crop(other) && one.product() == other.product()
}
