//! The index: a second copy of the journal's lines, by number, in sled. It is written after the journal and never
//! waited for, and the store works without it; its worth is that a journal that is lost, cut short or damaged can be
//! mended from it.
//!
//! sled 0.34 can panic, and come up empty or with older data, after its files were damaged. So everything here runs
//! guarded, each line carries its checksum, and whoever reads compares with the journal.

use super::codec::{Flaw, head};
use sled::{Batch, Db, IVec, Tree};
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::Path;
use std::time::Duration;

/// The layout of the trees; another one is rebuilt.
const LAYOUT: &[u8] = b"1";

/// Pages that sled may keep in memory, in bytes.
const CACHE: u64 = 8 << 20;

/// How often sled writes to its files, in milliseconds. What a crash takes from it the journal gives back.
const FLUSH_EVERY: u64 = 5_000;

/// How long sled's lock is waited for, in tries of 50 ms: a sled closed in this process lets go of it a little later.
const LOCK_TRIES: u32 = 20;

/// The open index.
#[derive(Clone, Debug)]
pub(crate) struct Index {
    lines: Tree,
    db: Db,
}

/// Why there is no index.
#[derive(Debug)]
pub(crate) enum Trouble {
    /// Another process has it.
    Locked,
    /// sled refused or panicked, or what it holds is not what was written.
    Unusable(String),
}

impl Index {
    /// Opens it, or makes it.
    pub(crate) fn open(folder: &Path) -> Result<Self, Trouble> {
        let config = sled::Config::new().path(folder).cache_capacity(CACHE).flush_every_ms(Some(FLUSH_EVERY));
        let mut tries = 0;
        let db = loop {
            match guarded(|| config.open()) {
                Err(why) if why.contains("could not acquire lock") => {
                    tries += 1;
                    if tries == LOCK_TRIES {
                        return Err(Trouble::Locked);
                    }
                    std::thread::sleep(Duration::from_millis(50));
                }
                Err(why) => return Err(Trouble::Unusable(why)),
                Ok(db) => break db,
            }
        };
        let (lines, layout) = guarded(|| {
            let (lines, meta) = (db.open_tree("lines")?, db.open_tree("meta")?);
            let layout = match meta.get("layout")? {
                Some(layout) => layout,
                None if lines.is_empty() => {
                    meta.insert("layout", LAYOUT)?;
                    LAYOUT.into()
                }
                None => IVec::default(),
            };
            Ok((lines, layout))
        })
        .map_err(Trouble::Unusable)?;
        let index = Self { lines, db };
        if layout == LAYOUT {
            return Ok(index);
        }
        index.close();
        Err(Trouble::Unusable(format!("it has layout '{}'", String::from_utf8_lossy(&layout))))
    }

    /// Its lines in order, whole or not; ends at the first that sled cannot give.
    pub(crate) fn lines(&self) -> impl Iterator<Item = Result<(u64, IVec), String>> + use<> {
        let mut lines = self.lines.iter();
        let mut failed = false;
        std::iter::from_fn(move || match guarded(|| lines.next().transpose()) {
            _ if failed => None,
            Ok(next) => next.map(|(key, line)| Ok((numbered(&key)?, line))),
            Err(why) => {
                failed = true;
                Some(Err(why))
            }
        })
    }

    /// Takes lines in, all or none.
    pub(crate) fn put<'a>(&self, lines: impl Iterator<Item = (u64, &'a [u8])>) -> Result<(), String> {
        let mut batch = Batch::default();
        for (seq, line) in lines {
            batch.insert(&seq.to_be_bytes(), line);
        }
        guarded(|| self.lines.apply_batch(batch))
    }

    /// Writes everything out and closes it.
    pub(crate) fn close(self) {
        let closed = guarded(|| {
            let flushed = self.db.flush().map(drop);
            drop(self);
            flushed
        });
        if let Err(why) = closed {
            tracing::warn!(%why, "the index could not be closed well; it is mended from the journal at the next start");
        }
    }
}

fn numbered(key: &[u8]) -> Result<u64, String> {
    key.try_into().map(u64::from_be_bytes).map_err(|_| "it has a key that is no number".to_owned())
}

/// Whether a line of the index is the record that its key says.
pub(crate) fn whole(seq: u64, line: &[u8]) -> Result<(), String> {
    match head(line) {
        Ok(head) if head.seq == seq => Ok(()),
        Ok(_) => Err(format!("record {seq} is in another's place")),
        Err(Flaw::Newer(v)) => Err(format!("record {seq} has format {v}")),
        Err(Flaw::Broken(why)) => Err(format!("record {seq}: {why}")),
    }
}

/// Runs a use of sled so that its panics are errors.
fn guarded<T>(run: impl FnOnce() -> sled::Result<T>) -> Result<T, String> {
    match catch_unwind(AssertUnwindSafe(run)) {
        Ok(Ok(value)) => Ok(value),
        Ok(Err(error)) => Err(error.to_string()),
        Err(panic) => {
            let words =
                panic.downcast_ref::<String>().map(String::as_str).or_else(|| panic.downcast_ref::<&str>().copied());
            Err(format!("sled panicked: {}", words.unwrap_or("without a word")))
        }
    }
}
