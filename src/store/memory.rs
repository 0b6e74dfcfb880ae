//! A store in memory.

use super::{Notes, Store, StoreError};
use crate::assistant::{Commit, Outgoing};

/// Keeps everything until it is dropped.
#[derive(Debug, Default)]
pub struct MemoryStore {
    commits: Vec<Commit>,
    outbox: Vec<Outgoing>,
    notes: Notes,
}

impl Store for MemoryStore {
    fn keep(&mut self, commits: &[Commit], notes: &Notes) -> Result<(), StoreError> {
        self.commits.extend_from_slice(commits);
        self.outbox.extend(commits.iter().flat_map(|commit| commit.out.iter().cloned()));
        self.notes.extend(notes.clone());
        Ok(())
    }

    fn each(&self, take: &mut dyn FnMut(Commit)) -> Result<(), StoreError> {
        self.commits.iter().cloned().for_each(take);
        Ok(())
    }

    fn outbox(&self) -> Result<Vec<Outgoing>, StoreError> {
        Ok(self.outbox.clone())
    }

    fn sent(&mut self, key: &str) -> Result<(), StoreError> {
        self.outbox.retain(|outgoing| outgoing.key != key);
        Ok(())
    }

    fn note(&self, name: &str) -> Result<Option<String>, StoreError> {
        Ok(self.notes.get(name).cloned().flatten())
    }
}
