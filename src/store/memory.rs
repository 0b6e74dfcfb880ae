//! A store that forgets: for replays and tests.

use super::current::{Current, still_waiting};
use super::{Notes, Store, StoreError};
use crate::assistant::{Commit, Outgoing};
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
            self.current.commit(self.commits.len() as u64, commit.out.clone(), None);
        }
        self.current.note(notes);
        Ok(())
    }

    fn adopt(&mut self, commits: &[Commit], waiting: &BTreeSet<String>) -> Result<(), StoreError> {
        for commit in commits {
            self.commits.push(commit.clone());
            let waiting = still_waiting(commit, waiting);
            self.current.commit(self.commits.len() as u64, commit.out.clone(), waiting.as_deref());
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

    fn sent(&mut self, key: &str) -> Result<(), StoreError> {
        self.current.sent(key);
        Ok(())
    }

    fn note(&self, name: &str) -> Result<Option<String>, StoreError> {
        Ok(self.current.named(name))
    }
}
