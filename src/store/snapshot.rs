//! Dated copies of the journal, kept in rotation, and putting one back. The journal alone is the whole ledger: the
//! index is made anew from it.

use super::codec::{Body, Flaw, decode, encode};
use super::door::{private, sync_folder};
use super::inspect::{Inspection, inspect_journal};
use super::journal::Survey;
use super::lines::Lines;
use super::{Notes, StoreError};
use crate::assistant::Commit;
use chrono::{DateTime, Utc};
use serde::{Deserialize, Serialize};
use std::fs::{self, DirBuilder, File, TryLockError};
use std::io::{self, Read, Write};
use std::path::{Path, PathBuf};

/// The folder of the snapshots, in the store's.
const FOLDER: &str = "snapshots";

/// A note that a store was put back to an earlier state.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
pub struct Restored {
    /// When that was done.
    pub at: DateTime<Utc>,
    /// The last instant of which the store knows.
    pub to: DateTime<Utc>,
}

impl Restored {
    /// The note's name.
    pub const NOTE: &'static str = "restored";

    /// From the note; a damaged one is none.
    pub fn read(note: Option<&str>) -> Option<Self> {
        serde_json::from_str(note?).ok()
    }
}

/// The snapshots in a store's folder, oldest first.
pub fn snapshots(folder: &Path) -> Vec<PathBuf> {
    let entries = fs::read_dir(folder.join(FOLDER)).into_iter().flatten().flatten().map(|entry| entry.path());
    let is_one = |path: &PathBuf| {
        let name = path.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
        name.starts_with("journal-") && name.ends_with(".jsonl")
    };
    let mut found: Vec<_> = entries.filter(is_one).collect();
    // Their names are dates.
    found.sort();
    found
}

/// Copies the first `len` bytes of a journal into the day's snapshot, unless there is one, and removes all but the
/// newest `keep`.
pub(super) fn make(
    folder: &Path,
    journal: Box<dyn Read + '_>,
    len: u64,
    keep: usize,
    now: DateTime<Utc>,
) -> Result<(), StoreError> {
    let place = folder.join(FOLDER);
    let path = place.join(format!("journal-{}.jsonl", now.format("%Y-%m-%d")));
    if keep == 0 || path.exists() {
        return Ok(());
    }
    let failed = |e: io::Error| StoreError::io("write the snapshot", &path, e);
    let mut builder = DirBuilder::new();
    #[cfg(unix)]
    std::os::unix::fs::DirBuilderExt::mode(&mut builder, 0o700);
    builder.recursive(true).create(&place).map_err(failed)?;
    put(&mut journal.take(len), &path).map_err(failed)?;
    let all = snapshots(folder);
    for old in all.iter().take(all.len().saturating_sub(keep)) {
        fs::remove_file(old).map_err(|e| StoreError::io("remove the old snapshot", old, e))?;
    }
    Ok(())
}

/// A file with this content, whole or not at all.
fn put(from: &mut dyn Read, path: &Path) -> io::Result<()> {
    let draft = path.with_extension("new");
    let mut to = private().write(true).create(true).truncate(true).open(&draft)?;
    io::copy(from, &mut to)?;
    to.sync_all()?;
    fs::rename(&draft, path)?;
    sync_folder(path)
}

/// Looks at a snapshot, or at any copy of a journal, record by record.
///
/// # Errors
/// [`StoreError::Io`] when it cannot be read; [`StoreError::Journal`] and [`StoreError::Newer`] as opening a store
/// says.
pub fn inspect_snapshot(path: &Path) -> Result<Inspection, StoreError> {
    let open = || File::open(path).map_err(|e| StoreError::io("read", path, e));
    let found = inspect_journal(open()?, open()?, path)?;
    if found.records == 0 {
        return Err(StoreError::Journal { path: path.to_owned(), line: 1, why: "it holds no record".into() });
    }
    Ok(found)
}

/// Puts a snapshot in the place of a store's journal. What was there is kept beside it. Returns what the store then
/// holds.
///
/// # Errors
/// [`StoreError::Locked`] while the store is open; otherwise as [`inspect_snapshot`]; then the store is as it was.
pub fn restore(folder: &Path, snapshot: &Path, now: DateTime<Utc>) -> Result<Inspection, StoreError> {
    let found = inspect_snapshot(snapshot)?;
    fs::create_dir_all(folder).map_err(|e| StoreError::io("make the folder", folder, e))?;
    let path = folder.join("lock");
    let lock = private().write(true).create(true).open(&path).map_err(|e| StoreError::io("open", &path, e))?;
    match lock.try_lock() {
        Ok(()) => {}
        Err(TryLockError::WouldBlock) => return Err(StoreError::Locked(folder.to_owned())),
        Err(TryLockError::Error(e)) => return Err(StoreError::io("lock", &path, e)),
    }
    let journal = folder.join("journal.jsonl");
    let failed = |e: io::Error| StoreError::io("restore", &journal, e);
    let restored = with_note(snapshot, now)?;
    let aside = folder.join(format!("before-restore-{}", now.format("%Y-%m-%dT%H%M%SZ")));
    fs::create_dir_all(&aside).map_err(failed)?;
    // The index first: a journal without one is whole, an index that knows more would give the journal the rest back.
    for name in ["index", "index.opening", "journal.jsonl"] {
        match fs::rename(folder.join(name), aside.join(name)) {
            Err(error) if error.kind() != io::ErrorKind::NotFound => return Err(failed(error)),
            _ => {}
        }
    }
    put(&mut restored.as_slice(), &journal).map_err(failed)?;
    Ok(found)
}

/// The records of a snapshot, and one more that says that they were put back.
fn with_note(snapshot: &Path, now: DateTime<Utc>) -> Result<Vec<u8>, StoreError> {
    let failed = |e: io::Error| StoreError::io("read", snapshot, e);
    let open = || File::open(snapshot).map_err(failed);
    let survey = Survey::of(Box::new(open()?), snapshot)?;
    let (mut bytes, mut to) = (Vec::new(), None);
    let mut lines = Lines::new(Box::new(open()?.take(survey.whole)));
    while let Some(raw) = lines.next().map_err(failed)? {
        match decode::<Commit>(raw.bytes) {
            Ok(line) => to = line.commit.map(|commit| commit.at).or(to),
            Err(Flaw::Newer(v)) => return Err(StoreError::Newer(snapshot.to_owned(), v)),
            Err(Flaw::Broken(why)) => {
                return Err(StoreError::Journal { path: snapshot.to_owned(), line: raw.number, why });
            }
        }
        bytes.extend_from_slice(raw.bytes);
    }
    let note = serde_json::to_string(&Restored { at: now, to: to.unwrap_or(now) }).map_err(io::Error::other);
    let notes = Notes::from([(Restored::NOTE.to_owned(), Some(note.map_err(failed)?))]);
    let seq = survey.last + 1;
    encode(&mut bytes, seq, seq, Body::Notes(notes)).map_err(|why| failed(io::Error::other(why)))?;
    bytes.flush().map_err(failed)?;
    Ok(bytes)
}
