//! One turn: a message, or a moment, at work on a room. It collects the changes, each applied at once, and what goes
//! out.

use super::message::{Commit, OutKind, Outgoing};
use super::room::{Applied, Room};
use crate::alert::{Watch, told_at, watches};
use crate::enclosure::Enclosure;
use crate::ledger::state::State;
use crate::ledger::{Change, MessageId};
use crate::reply::{self, Reply, Scene};
use crate::vocabulary::Kind;
use chrono::{DateTime, Utc};
use std::sync::Arc;

pub(super) struct Turn<'a> {
    pub(super) room: &'a mut Room,
    pub(super) name: Arc<str>,
    pub(super) now: DateTime<Utc>,
    /// The message that replies answer.
    pub(super) re: Option<MessageId>,
    /// What a question was about that this message answers: then the topic of its reply.
    pub(super) topic: Option<Kind>,
    /// The thread that what goes out belongs in.
    pub(super) thread: Option<MessageId>,
    /// What makes this turn's outgoing messages unique.
    pub(super) key: String,
    changes: Vec<Change>,
    pub(super) out: Vec<Outgoing>,
    /// Which of these says no more than that an entry was taken in.
    pub(super) plain: Option<usize>,
}

impl<'a> Turn<'a> {
    pub(super) fn new(room: &'a mut Room, name: Arc<str>, now: DateTime<Utc>, key: String) -> Self {
        Self {
            room,
            name,
            now,
            re: None,
            topic: None,
            thread: None,
            key,
            changes: Vec::new(),
            out: Vec::new(),
            plain: None,
        }
    }

    pub(super) fn change(&mut self, change: Change) -> Applied {
        let applied = self.room.apply(&change);
        self.changes.push(change);
        applied
    }

    pub(super) fn scene(&self) -> Scene<'_> {
        Scene { state: self.room.state(), now: self.now }
    }

    pub(super) fn reply(&mut self, topic: &str, reply: Reply) {
        self.reply_with(topic, reply, Vec::new());
    }

    pub(super) fn reply_with(&mut self, topic: &str, reply: Reply, files: Vec<Enclosure>) {
        self.send(OutKind::Reply, topic, reply);
        if let Some(out) = self.out.last_mut() {
            out.files = files;
        }
    }

    pub(super) fn problem(&mut self, topic: &str, reply: Reply) {
        self.send(OutKind::Problem, topic, reply);
    }

    pub(super) fn alert(&mut self, name: &str, topic: &str, reply: Reply, mention: bool) {
        self.send(OutKind::Alert, topic, reply);
        if let Some(out) = self.out.last_mut() {
            out.mention = mention;
            out.alert = Some(name.to_owned());
        }
    }

    fn send(&mut self, out: OutKind, topic: &str, reply: Reply) {
        let n = self.out.len();
        self.out.push(Outgoing {
            key: format!("{}|{}|{n}", self.name, self.key),
            room: self.name.clone(),
            at: self.room.state().settings.zone.local(self.now),
            out,
            re: if out == OutKind::Alert { None } else { self.re.clone() },
            topic: topic.to_owned(),
            text: reply.text,
            facts: reply.facts.0,
            mention: false,
            thread: self.thread.clone(),
            alert: None,
            files: Vec::new(),
        });
    }

    /// Adds a line to the answer to the message, if it has one.
    pub(super) fn add_to_last(&mut self, line: &str) {
        self.plain = None;
        if let Some(out) = self.out.iter_mut().rev().find(|out| out.out != OutKind::Alert) {
            out.text.push('\n');
            out.text.push_str(line);
        }
    }

    /// Whether the message was answered with a refusal or a question back, so that nothing of it was taken in.
    pub(super) fn is_refused(&self) -> bool {
        let answers = || self.out.iter().filter(|out| out.out != OutKind::Alert);
        answers().count() > 0 && answers().all(|out| out.out == OutKind::Problem)
    }

    /// Whether what can wait must wait now.
    pub(super) fn is_quiet(&self) -> bool {
        told_at(&self.room.state().settings, self.now, false) > self.now
    }

    /// Notes which told conditions were over in a state on the way to the present one: they may be told again.
    pub(super) fn rearm_for(&mut self, on_the_way: &State) {
        for watch in watches(on_the_way) {
            if let Watch::Over(name) = watch
                && self.room.told.contains_key(&name)
            {
                self.change(Change::Rearmed { alert: name });
            }
        }
    }

    /// Tells what came true and was not told, and notes what is over. In quiet hours it waits, to be found again.
    pub(super) fn settle(&mut self) {
        // It concerns the household, not the conversation that happened to bring it about.
        self.thread = None;
        for watch in watches(self.room.state()) {
            match watch {
                Watch::Holds(name, holding) if !self.room.told.contains_key(&name) && !self.is_quiet() => {
                    let reply = reply::holding(self.scene(), &holding);
                    let topic = holding.topic();
                    self.change(Change::Told { alert: name.clone(), due: self.now });
                    self.alert(&name, topic, reply, topic == "load-ready");
                }
                Watch::Passed(name) if !self.room.told.contains_key(&name) => {
                    self.change(Change::Told { alert: name, due: self.now });
                }
                Watch::Over(name) if self.room.told.contains_key(&name) => {
                    self.change(Change::Rearmed { alert: name });
                }
                Watch::Holds(..) | Watch::Passed(_) | Watch::Over(_) => {}
            }
        }
    }

    /// All that the turn did; `None` when it did nothing and no message caused it.
    pub(super) fn done(self, message: Option<MessageId>) -> Option<Commit> {
        if message.is_none() && self.changes.is_empty() && self.out.is_empty() {
            return None;
        }
        Some(Commit { room: self.name, at: self.now, message, said: None, changes: self.changes, out: self.out })
    }
}
