//! Assistant and store together: what every driver talks to. A driver hands messages in, sends what is in the outbox,
//! and calls [`Desk::tick`] when [`Desk::next_due`] comes.

use crate::assistant::{Assistant, Commit, Defaults, Heard, Incoming, OutKind, Outgoing};
use crate::ledger::MessageId;
use crate::store::{Notes, Store, StoreError, Told};
use chrono::{DateTime, Utc};
use std::collections::BTreeSet;

/// What a driver adds to what it hands in.
#[derive(Clone, Debug, Default)]
pub struct Beside {
    /// Words of its own.
    pub say: Vec<Outgoing>,
    /// Messages that are taken in without an answer.
    pub quiet: BTreeSet<MessageId>,
}

/// The assistant at work on a store.
pub struct Desk {
    assistant: Assistant,
    defaults: Defaults,
    store: Box<dyn Store>,
    early: Early,
}

/// Messages that came ahead of others that they are to be kept with.
#[derive(Default)]
struct Early {
    messages: Vec<Incoming>,
    /// So many of them the assistant has heard.
    heard: usize,
    /// What those did.
    done: Heard,
}

impl Desk {
    /// Opens it and takes in all that the store holds.
    ///
    /// # Errors
    /// When the store cannot be read.
    pub fn open(store: Box<dyn Store>, defaults: Defaults) -> Result<Self, StoreError> {
        let mut desk = Self { assistant: Assistant::new(defaults.clone()), defaults, store, early: Early::default() };
        desk.restore()?;
        Ok(desk)
    }

    /// Takes in messages in the order given, keeps what they do (with the driver's notes, in one write), and returns
    /// what goes out for them. Messages heard before do nothing.
    ///
    /// # Errors
    /// When the store cannot keep it: then nothing counts, nothing may be sent, and the same messages can be handed in
    /// again.
    pub fn hear(
        &mut self,
        messages: &[Incoming],
        now: DateTime<Utc>,
        notes: &Notes,
    ) -> Result<Vec<Outgoing>, StoreError> {
        self.hear_and_say(messages, Beside::default(), now, notes)
    }

    /// As [`Desk::hear`], with words of the driver's own about the world it drives, which the assistant knows nothing
    /// of. They go the way of all that goes out.
    ///
    /// # Errors
    /// As [`Desk::hear`].
    pub fn hear_and_say(
        &mut self,
        messages: &[Incoming],
        beside: Beside,
        now: DateTime<Utc>,
        notes: &Notes,
    ) -> Result<Vec<Outgoing>, StoreError> {
        self.hear_early(now);
        let mut heard = std::mem::take(&mut self.early.done);
        self.assistant.hear_more(&mut heard, messages, now);
        let mut commits = self.assistant.answer_together(heard, now);
        for commit in &mut commits {
            if commit.message.as_ref().is_some_and(|message| beside.quiet.contains(message)) {
                commit.out.retain(|out| out.out == OutKind::Alert);
            }
        }
        commits.extend(beside.say.into_iter().map(|out| Commit {
            room: out.room.clone(),
            at: now,
            message: None,
            said: None,
            changes: Vec::new(),
            out: vec![out],
        }));
        // If it cannot be kept, these must be heard again with the others.
        self.early.heard = 0;
        let out = self.keep(commits, notes)?;
        self.early = Early::default();
        Ok(out)
    }

    /// Takes in messages ahead of a [`Desk::hear_and_say`] whose first they are, so that a long history can be read
    /// while the rest of it is on its way. They count and are kept with that, or not at all; whatever else happens
    /// before it happens without them.
    pub fn hear_ahead(&mut self, messages: Vec<Incoming>, now: DateTime<Utc>) {
        self.early.messages.extend(messages);
        self.hear_early(now);
    }

    fn hear_early(&mut self, now: DateTime<Utc>) {
        let Early { messages, heard, done } = &mut self.early;
        self.assistant.hear_more(done, messages.get(*heard..).unwrap_or_default(), now);
        *heard = messages.len();
    }

    /// Takes in what has fallen due, keeps it, and returns what goes out.
    ///
    /// # Errors
    /// As [`Desk::hear`].
    pub fn tick(&mut self, now: DateTime<Utc>) -> Result<Vec<Outgoing>, StoreError> {
        if self.early.heard > 0 {
            // What is not kept yet must not have a part in what is kept now.
            self.restore()?;
        }
        let commits = self.assistant.tick(now);
        self.keep(commits, &Notes::new())
    }

    /// When to call [`Desk::tick`] next, if nothing is said before.
    pub fn next_due(&self, now: DateTime<Utc>) -> Option<DateTime<Utc>> {
        self.assistant.next_due(now)
    }

    /// What was kept and not yet sent, oldest first.
    ///
    /// # Errors
    /// When the store cannot be read.
    pub fn outbox(&self) -> Result<Vec<Outgoing>, StoreError> {
        self.store.outbox()
    }

    /// A message of the outbox was sent.
    ///
    /// # Errors
    /// When the store cannot note it.
    pub fn sent(&mut self, key: &str) -> Result<(), StoreError> {
        self.store.sent(key)
    }

    /// A message of the outbox was sent, and has this id in the driver's world.
    ///
    /// # Errors
    /// When the store cannot note it.
    pub fn sent_as(&mut self, key: &str, id: &MessageId) -> Result<(), StoreError> {
        self.store.sent_as(key, Some(id))
    }

    /// What was sent under an id of the driver's world.
    ///
    /// # Errors
    /// When the store cannot be read.
    pub fn told(&self, id: &MessageId) -> Result<Option<Told>, StoreError> {
        self.store.told(id)
    }

    /// Has the store keep a copy of the day.
    ///
    /// # Errors
    /// When the disk does not take it.
    pub fn snapshot(&mut self, now: DateTime<Utc>) -> Result<(), StoreError> {
        self.store.snapshot(now)
    }

    /// A driver's note.
    ///
    /// # Errors
    /// When the store cannot be read.
    pub fn note(&self, name: &str) -> Result<Option<String>, StoreError> {
        self.store.note(name)
    }

    /// The store, to read from.
    pub fn store(&self) -> &dyn Store {
        &*self.store
    }

    /// The assistant, to look at rooms.
    pub fn assistant(&self) -> &Assistant {
        &self.assistant
    }

    fn keep(&mut self, commits: Vec<Commit>, notes: &Notes) -> Result<Vec<Outgoing>, StoreError> {
        if commits.is_empty() && notes.is_empty() {
            return Ok(Vec::new());
        }
        if let Err(error) = self.store.keep(&commits, notes) {
            // What could not be kept must not count in memory either.
            self.restore()?;
            return Err(error);
        }
        Ok(commits.into_iter().flat_map(|commit| commit.out).collect())
    }

    fn restore(&mut self) -> Result<(), StoreError> {
        let mut assistant = Assistant::new(self.defaults.clone());
        self.store.each(&mut |commit| assistant.restore(&commit))?;
        self.assistant = assistant;
        (self.early.heard, self.early.done) = (0, Heard::default());
        Ok(())
    }
}
