//! What is on disk.

mod memory;
pub use memory::MemoryStore;

use crate::assistant::{Commit, Outgoing};
use std::collections::BTreeMap;

/// Notes that a driver keeps beside the ledger, in the same write as the commits they belong to: its sync position, events
/// that it could not read yet. A `None` removes the note.
pub type Notes = BTreeMap<String, Option<String>>;

/// The door to the disk.
pub trait Store: Send {
    /// Keeps commits and notes, all or (after a crash in the middle) a prefix of the commits without the notes. When it returns
    /// `Ok`, they are on disk for good.
    ///
    /// # Errors
    /// When the disk does not take them; then none may be sent, and memory must be restored from the store.
    fn keep(&mut self, commits: &[Commit], notes: &Notes) -> Result<(), StoreError>;

    /// Hands over every commit ever kept, in order.
    ///
    /// # Errors
    /// When the disk does not give them.
    fn each(&self, take: &mut dyn FnMut(Commit)) -> Result<(), StoreError>;

    /// What was kept and not yet sent, oldest first.
    ///
    /// # Errors
    /// When the disk does not give it.
    fn outbox(&self) -> Result<Vec<Outgoing>, StoreError>;

    /// Notes that a message of the outbox was sent.
    ///
    /// # Errors
    /// When the disk does not take it; the message may then be sent again, under the same key.
    fn sent(&mut self, key: &str) -> Result<(), StoreError>;

    /// A driver's note.
    ///
    /// # Errors
    /// When the disk does not give it.
    fn note(&self, name: &str) -> Result<Option<String>, StoreError>;
}

/// What can go wrong with a store; each says what to do.
#[derive(Debug, thiserror::Error)]
pub enum StoreError {
    /// Another process has it open.
    #[error("the store in {0} is in use by another rackful; stop that one first, or name another folder with --data")]
    Locked(std::path::PathBuf),
    /// The disk refused.
    #[error("cannot {doing} {path}: {source}")]
    Io {
        /// What was tried.
        doing: &'static str,
        /// On which file.
        path: std::path::PathBuf,
        /// Why not.
        source: std::io::Error,
    },
    /// The journal has a line that is not a journal line, and not at its torn end.
    #[error("{path}, line {line}: {why}; restore this file from a backup, or remove the line")]
    Journal {
        /// The journal.
        path: std::path::PathBuf,
        /// The line, from 1.
        line: u64,
        /// What is wrong with it.
        why: String,
    },
    /// The store was written by a newer program.
    #[error("{0} was written by a newer rackful (format {1}); use that version or newer")]
    Newer(std::path::PathBuf, u64),
}
