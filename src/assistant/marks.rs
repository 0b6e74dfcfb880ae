//! What is done to messages beside words: edits that are taken back, marks, threads; and the marks that the assistant
//! itself puts where a room wants few words.

use super::entering::Source;
use super::message::{Incoming, Mark, OutKind, Outgoing};
use super::room::{Room, Wording};
use super::turn::Turn;
use crate::alert::{Alert, Due};
use crate::ledger::state::Answers;
use crate::ledger::{Change, Effect, Entry, MessageId};
use crate::reply;
use crate::statement::Statement;
use crate::vocabulary::Kind;
use chrono::TimeDelta;

/// The mark on a message that was taken in.
const TAKEN_IN: &str = "✅";

impl Room {
    /// Applies a change that concerns marks, wordings and threads; it does nothing in the ledger.
    pub(super) fn mark(&mut self, change: &Change) {
        match change {
            Change::Edited { by, message, who, before, words } => {
                let first = || vec![Wording { by: message.clone(), who: who.clone(), words: before.clone() }];
                let wordings = self.wordings.entry(message.clone()).or_insert_with(first);
                wordings.push(Wording { by: by.clone(), who: who.clone(), words: Some(words.clone()) });
                self.edits.insert(by.clone(), message.clone());
            }
            Change::Unedited { by } => {
                if let Some(message) = self.edits.remove(by)
                    && let Some(wordings) = self.wordings.get_mut(&message)
                {
                    wordings.retain(|wording| wording.by != *by);
                }
            }
            Change::Struck { by, message, entries } => {
                self.struck.insert(by.clone(), (message.clone(), entries.clone()));
            }
            Change::Settled { by, alert } => {
                self.settled.insert(alert.clone(), by.clone());
            }
            Change::Unmarked { by } => {
                self.struck.remove(by);
                self.settled.retain(|_, mark| mark != by);
            }
            Change::Threaded { message, thread } => {
                self.threads.insert(message.clone(), thread.clone());
            }
            _ => {}
        }
    }

    /// The thread that an alert belongs in: the one in which its batch was begun, or its timer started.
    pub(super) fn thread_of(&self, due: &Due) -> Option<MessageId> {
        let started = |entry: &&Entry| match (&due.alert, &entry.statement) {
            (Alert::Batch(_, batch), Statement::Began(_)) => entry.happened == batch.began,
            (Alert::Timer(label), Statement::TimerStart(timer)) => {
                let ends = entry.happened + TimeDelta::seconds(timer.seconds.unwrap_or_default().into());
                timer.label == *label && ends == due.at
            }
            _ => false,
        };
        let entry = self.ledger.entries().rev().find(started)?;
        self.threads.get(&entry.message).cloned()
    }
}

impl Turn<'_> {
    /// Notes in which thread a message with entries was said.
    pub(super) fn note_thread(&mut self, message: &Incoming) {
        let Some(thread) = &message.thread else { return };
        if self.room.ledger.message(&message.id).is_some_and(|entries| !entries.is_empty()) {
            self.change(Change::Threaded { message: message.id.clone(), thread: thread.clone() });
        }
    }

    /// Notes an edit, so that the words before it come back when it is deleted.
    pub(super) fn note_edit(&mut self, by: &MessageId, source: &Source) {
        let entries = self.room.ledger.message(&source.message).unwrap_or_default();
        let before = entries.first().map(|entry| entry.words.clone());
        let (message, who, words) = (source.message.clone(), source.who.clone(), source.words.clone());
        self.change(Change::Edited { by: by.clone(), message, who, before, words });
    }

    /// Somebody put a mark on a message.
    pub(super) fn marked(&mut self, by: &MessageId, target: &MessageId, mark: Mark, alert: Option<&str>) {
        if alert.is_none() && self.decided_by_mark(target, mark == Mark::Done) {
            return;
        }
        match mark {
            Mark::Undo => self.struck(by, target),
            Mark::Done => {
                if let Some(alert) = alert {
                    self.change(Change::Settled { by: by.clone(), alert: alert.to_owned() });
                }
            }
        }
    }

    fn struck(&mut self, by: &MessageId, target: &MessageId) {
        // A mark on a question is one on what its answer made.
        let target = self.room.answered.get(target).cloned().unwrap_or_else(|| target.clone());
        let entries: Vec<Entry> = self.room.ledger.message(&target).unwrap_or_default().into_iter().cloned().collect();
        let Some(words) = entries.first().map(|entry| entry.words.clone()) else {
            if self.room.corrections.contains_key(&target) {
                self.reply("undo", reply::nothing_to_undo());
            }
            return;
        };
        self.change(Change::Struck { by: by.clone(), message: target.clone(), entries });
        let applied = self.change(Change::Amended { message: target, entries: Vec::new() });
        let mut said = reply::undone(self.scene(), &words);
        said.text.push_str(&reply::cuts(self.scene(), &applied.cuts));
        self.reply("undo", said);
    }

    /// An edit or a mark was deleted: what it changed is as before, as far as nothing has come in between. `false` when
    /// it is neither.
    pub(super) fn taken_back(&mut self, target: &MessageId) -> bool {
        if let Some(message) = self.room.edits.get(target).cloned() {
            self.unedited(target, &message);
            return true;
        }
        if let Some((message, entries)) = self.room.struck.get(target).cloned() {
            self.change(Change::Unmarked { by: target.clone() });
            self.re = Some(message.clone());
            if self.room.ledger.message(&message).is_some_and(|standing| standing.is_empty()) {
                self.amend(&message, entries, None);
            }
            return true;
        }
        if self.room.settled.values().any(|mark| mark == target) {
            self.change(Change::Unmarked { by: target.clone() });
            // What the mark on an alert had entered goes with it.
            if self.room.ledger.message(target).is_some_and(|entries| !entries.is_empty()) {
                self.amend(target, Vec::new(), Some(Kind::Undo));
            }
            return true;
        }
        false
    }

    fn unedited(&mut self, edit: &MessageId, message: &MessageId) {
        let wordings = self.room.wordings.get(message).cloned().unwrap_or_default();
        let was_last = wordings.last().is_some_and(|wording| wording.by == *edit);
        self.change(Change::Unedited { by: edit.clone() });
        let Some(before) = wordings.iter().rev().nth(1).filter(|_| was_last) else { return };
        self.re = Some(message.clone());
        match &before.words {
            Some(words) => {
                let said = self.room.heard.get(message).copied().unwrap_or(self.now);
                let (message, who, words) = (message.clone(), before.who.clone(), words.clone());
                self.edited(&Source { message, who, said, words }, false);
            }
            // It was no entry, so it is none again.
            None if self.room.ledger.message(message).is_some_and(|entries| !entries.is_empty()) => {
                self.amend(message, Vec::new(), Some(Kind::Undo));
            }
            None => {}
        }
    }

    /// A reply to entries, noted as one that says nothing but that they were taken in, where that is so.
    pub(super) fn say_taken_in(&mut self, topic: &str, said: reply::Reply, entries: &[Entry], plain: bool) {
        self.reply(topic, said);
        if plain && entries.iter().all(|entry| is_plain(&entry.statement)) {
            self.plain = self.out.len().checked_sub(1);
        }
    }

    /// Puts a mark, and at most a line, in place of a plain reply, where the room wants it so.
    pub(super) fn abridge(&mut self) {
        let answers = self.room.state().settings.answers;
        let Some(place) = self.plain.take().filter(|_| answers != Answers::Full) else { return };
        let Some(reply) = self.out.get_mut(place) else { return };
        let text = TAKEN_IN.to_owned();
        let mark = Outgoing { key: format!("{}|mark", reply.key), out: OutKind::Mark, text, ..reply.clone() };
        match answers {
            Answers::Silent => *reply = mark,
            Answers::Brief | Answers::Full => {
                reply.text = first_line(&reply.text);
                self.out.insert(place, mark);
            }
        }
    }
}

/// Whether an effect says nothing that the household should read.
pub(super) fn is_smooth(effect: &Effect) -> bool {
    effect.refusal.is_none()
        && !effect.acid_lacks
        && effect.cut.is_none()
        && !effect.too_soon
        && !effect.too_low
        && effect.retimed.is_empty()
}

/// What is said many times a day, and whose reply only repeats it with a sum. Steps of a batch and settings are
/// answered in full: times, doses and pressures stand there.
fn is_plain(statement: &Statement) -> bool {
    matches!(
        statement.kind(),
        Kind::Picked
            | Kind::Froze
            | Kind::Thawed
            | Kind::Ate
            | Kind::Gave
            | Kind::Tossed
            | Kind::Counted
            | Kind::Opened
            | Kind::PutUp
            | Kind::Dried
            | Kind::Powdered
            | Kind::Bought
            | Kind::Drained
            | Kind::AcidAdded
            | Kind::Sealed
    )
}

fn first_line(text: &str) -> String {
    text.lines().next().unwrap_or_default().to_owned()
}
