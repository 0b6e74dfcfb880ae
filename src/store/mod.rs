//! What is on disk, and why nothing that was answered is ever lost.
//!
//! ```
//! use rackful::assistant::Commit;
//! use rackful::ledger::MessageId;
//! use rackful::store::{DiskStore, Notes, Store};
//! # let folder = tempfile::tempdir()?;
//! # let folder = folder.path();
//! let heard = Commit {
//!     room: "home".into(),
//!     at: "2026-08-14T14:05:00Z".parse()?,
//!     message: Some(MessageId::new("$1")),
//!     said: None,
//!     changes: vec![],
//!     out: vec![],
//! };
//! let mut store = DiskStore::open(folder)?;
//! store.keep(std::slice::from_ref(&heard), &Notes::new())?;
//! drop(store);
//!
//! let mut commits = Vec::new();
//! DiskStore::open(folder)?.each(&mut |commit| commits.push(commit))?;
//! assert_eq!(commits, [heard]);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! # The files
//!
//! | in the folder | what it is |
//! |---|---|
//! | `journal.jsonl` | the source of truth: each record one line of JSON with its number and checksum, appended |
//! | `index/` | sled: the same lines by number, written behind the journal; rebuilt when it is off |
//! | `lock` | empty, locked by the process that has the store open |
//! | `index.opening` | there only while the index is being opened |
//! | `journal.jsonl.torn-N` | what was cut off at byte N: the rest of a write that a crash cut short |
//! | `journal.jsonl.damaged` | the journal before it was last mended from the index |
//! | `index.aside-N` | the last index that was set aside, when the journal ended at record N |
//! | `snapshots/journal-DATE.jsonl` | the journal as it was on that day (UTC), in rotation |
//! | `before-restore-TIME/` | journal and index as they were before a snapshot was put back |
//!
//! A record is a commit, the driver's notes, or the key of a message that was sent with the id that it got. Outbox,
//! notes and the ids of what was sent are small and are what all records add up to; they are in memory, and so is
//! nothing else.
//!
//! # What is on disk before a reply goes out
//!
//! **Definition.** A record is *accepted* when [`Store::keep`] (or [`Store::adopt`]) with it has returned `Ok`.
//!
//! 1. *An accepted record is in the journal, synced.* `keep` writes all its lines in one write and returns after one
//!    `fdatasync`, which brings the file's new length too. The file's name is made durable when it is made. Opening
//!    syncs before it hands anything out: a line that a killed process left in the system's cache may not be on disk
//!    yet.
//! 2. *A commit, its de-duplication key and its messages are one line*, so they are there together or not at all. The
//!    notes of a `keep` are its last line: a sync position is never there without what came before it.
//! 3. *After an error nothing of the `keep` counts.* The journal is cut back to where it was. If even that fails, its
//!    length in memory stays what it was, nothing after it is read, and the next write cuts first.
//! 4. *`sent` is appended and not synced.* Losing it means sending again under the same key, which is sending once.
//! 5. *Nothing waits for the index.* It gets the lines after the journal's sync, in a thread of its own; when it fails,
//!    it is left behind and brought up at the next start.
//!
//! # What each end may leave
//!
//! - *A kill before the write*: nothing of it. At the next start there is nothing to do.
//! - *A kill within the write*: some of its lines, the last perhaps in part. At the next start whole lines count (they
//!   were never answered, and are found as heard); the rest is cut off and kept beside.
//! - *A power cut before the sync returned*: any of the blocks since the last sync. Each line says where its sync began
//!   (`since`): at the next start a broken line that no later sync followed is cut off with all after it.
//! - *A kill between sync and reply*: the commit, its messages in the outbox. At the next start they are sent.
//! - *A kill between sending and `sent`*: the message in the outbox. At the next start it is sent again under the same
//!   key.
//! - *A kill at any time*: an index some seconds old, or one that sled cannot open. At the next start it is brought up
//!   to date, or set aside and rebuilt.
//! - *A kill while mending*: the old journal, or the new one. At the next start it is mended again, or there is nothing
//!   to do.
//! - *A full disk*: an error, and the journal as it was.
//!
//! # What may be lost without losing an entry
//!
//! *The index*, wholly or in part, in any way: each start compares it with the journal line by line. A sled that will
//! not open, panics, has another layout, or holds other records or has gaps is moved aside and rebuilt.
//!
//! *The journal*, wholly or in part: what the index has and the journal has not is put back, if nothing in the index
//! contradicts the journal. Junk between lines is taken out where their numbers show that nothing is missing. Where a
//! record in the middle is broken and the index cannot give it, opening fails and names the line: going on would be to
//! forget something without being asked. Where the journal is gone and the index is empty or cannot be read, opening
//! fails too: an empty ledger would look like a new one.
//!
//! *Not both*: lines of the journal's last sync that were damaged after it look like a write that never finished, and
//! are cut off (and kept beside it); only the index can then give them back. The index is on disk some five seconds
//! after the journal.
//!
//! So sled earns its keep as a second copy with other failure modes, and as a second lock. It answers no question:
//! outbox and notes fit into memory, and the commits are read faster from the journal. It takes twice the journal's
//! disk and 10 to 15 µs a record in the background. At 10,000 commits, more than a household's year, opening with the
//! comparison takes 0.1 to 0.15 s, a third of it sled's; rebuilding the index 0.1 s more.
//!
//! # Assumed of the disk
//!
//! That a sync is one: what `fdatasync` confirmed survives a power cut. That renaming is atomic. That damage shows in a
//! CRC-32 (one in four billion random damages does not). Nothing is assumed of unsynced blocks: not their order, and
//! not that a block is written whole.
//!
//! # Elsewhere
//!
//! What a commit is: [`crate::assistant`]. Export and import: [`crate::export`].

mod codec;
mod current;
mod disk;
mod door;
mod follower;
mod index;
mod inspect;
mod journal;
mod lines;
mod memory;
mod merge;
mod snapshot;

pub use disk::DiskStore;
pub use door::Disk;
pub use inspect::{Inspection, inspect, read_journal};
pub use memory::MemoryStore;
pub use snapshot::{Restored, inspect_snapshot, restore, snapshots};

use crate::assistant::{Commit, Outgoing};
use crate::ledger::MessageId;
use chrono::{DateTime, Utc};
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

/// Notes that a driver keeps beside the ledger, in the same write as the commits they belong to: its sync position,
/// events that it could not read yet. A `None` removes the note.
pub type Notes = BTreeMap<String, Option<String>>;

/// A message that was sent, as far as it matters when somebody answers it or marks it.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Told {
    /// The message that it answered or, for an alert, that brought it about.
    pub about: Option<MessageId>,
    /// The name of the alert that it was.
    pub alert: Option<String>,
}

/// The door to the disk.
pub trait Store: Send {
    /// Keeps commits and notes, all or (after a crash in the middle) a prefix of the commits without the notes. When it
    /// returns `Ok`, they are on disk for good.
    ///
    /// # Errors
    /// When the disk does not take them; then none may be sent, and memory must be restored from the store.
    fn keep(&mut self, commits: &[Commit], notes: &Notes) -> Result<(), StoreError>;

    /// Keeps commits that were made elsewhere, as an import does: of the messages that they send out only those whose
    /// key is in `waiting` count as not yet sent. Otherwise as [`Store::keep`].
    ///
    /// # Errors
    /// As [`Store::keep`].
    fn adopt(&mut self, commits: &[Commit], waiting: &BTreeSet<String>) -> Result<(), StoreError>;

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

    /// Notes that a message of the outbox was sent; a key that does not wait does nothing.
    ///
    /// # Errors
    /// As [`Store::sent_as`].
    fn sent(&mut self, key: &str) -> Result<(), StoreError> {
        self.sent_as(key, None)
    }

    /// As [`Store::sent`], with the id that the message has in the driver's world.
    ///
    /// # Errors
    /// When the disk does not take it; the message may then be sent again, under the same key.
    fn sent_as(&mut self, key: &str, id: Option<&MessageId>) -> Result<(), StoreError>;

    /// What was sent under an id, if that was ever noted.
    ///
    /// # Errors
    /// When the disk does not give it.
    fn told(&self, id: &MessageId) -> Result<Option<Told>, StoreError>;

    /// Keeps a copy of everything, named by the day, unless there is one of that day. A store that keeps none does
    /// nothing.
    ///
    /// # Errors
    /// When the disk does not take it; the store itself is as it was.
    fn snapshot(&mut self, _now: DateTime<Utc>) -> Result<(), StoreError> {
        Ok(())
    }

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
    Locked(PathBuf),
    /// The disk refused.
    #[error("cannot {doing} {path}: {source}")]
    Io {
        /// What was tried.
        doing: &'static str,
        /// On which file.
        path: PathBuf,
        /// Why not.
        source: std::io::Error,
    },
    /// The journal has a line that is not a journal line, and not at its torn end.
    #[error("{path}, line {line}: {why}; restore this file from a backup, or remove the line")]
    Journal {
        /// The journal.
        path: PathBuf,
        /// The line, from 1.
        line: u64,
        /// What is wrong with it.
        why: String,
    },
    /// The journal is gone, and the index that could give it back cannot be read.
    #[error(
        "{journal} is gone and {index} cannot be read ({why}); restore one of them from a backup, or move {index} away \
             to begin anew"
    )]
    Lost {
        /// The journal.
        journal: PathBuf,
        /// The index.
        index: PathBuf,
        /// What is wrong with the index.
        why: String,
    },
    /// The store was written by a newer program.
    #[error("{0} was written by a newer rackful (format {1}); use that version or newer")]
    Newer(PathBuf, u64),
}

impl StoreError {
    fn io(doing: &'static str, path: &Path, source: std::io::Error) -> Self {
        Self::Io { doing, path: path.to_owned(), source }
    }
}
