//! A store that forgets: for replays and tests.

use super::current::{Current, still_waiting};
use super::{Notes, Store, StoreError, Told};
use crate::assistant::{Commit, Outgoing};
use crate::ledger::MessageId;
use std::collections::BTreeSet;

/// Keeps everything in memory, for as long as it lives.
#[derive(Debug, Default)]
pub struct MemoryStore {
    commits: Vec<Commit>,
    current: Current,
}

impl MemoryStore {
    /// With nothing in it.
    pub fn new() -> Self {
        Self::default()
    }
}

impl Store for MemoryStore {
    fn keep(&mut self, commits: &[Commit], notes: &Notes) -> Result<(), StoreError> {
        for commit in commits {
            self.commits.push(commit.clone());
            self.current.commit(self.commits.len() as u64, commit.message.as_ref(), commit.out.clone(), None);
        }
        self.current.note(notes);
        Ok(())
    }

    fn adopt(&mut self, commits: &[Commit], waiting: &BTreeSet<String>) -> Result<(), StoreError> {
        for commit in commits {
            self.commits.push(commit.clone());
            let waiting = still_waiting(commit, waiting);
            let seq = self.commits.len() as u64;
            self.current.commit(seq, commit.message.as_ref(), commit.out.clone(), waiting.as_deref());
        }
        Ok(())
    }

    fn each(&self, take: &mut dyn FnMut(Commit)) -> Result<(), StoreError> {
        self.commits.iter().cloned().for_each(take);
        Ok(())
    }

    fn outbox(&self) -> Result<Vec<Outgoing>, StoreError> {
        Ok(self.current.outbox())
    }

    fn sent_as(&mut self, key: &str, id: Option<&MessageId>) -> Result<(), StoreError> {
        self.current.sent(key, id);
        Ok(())
    }

    fn told(&self, id: &MessageId) -> Result<Option<Told>, StoreError> {
        Ok(self.current.told(id))
    }

    fn note(&self, name: &str) -> Result<Option<String>, StoreError> {
        Ok(self.current.named(name))
    }
}
