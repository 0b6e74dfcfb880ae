//! A look at a store that changes nothing.

use super::StoreError;
use super::codec::{Flaw, decode};
use super::journal::Survey;
use super::lines::Lines;
use crate::assistant::Commit;
use std::fs::{File, TryLockError};
use std::io::{self, Read};
use std::path::Path;

/// What is in a store.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub struct Inspection {
    /// How many commits.
    pub commits: u64,
    /// How many records of all kinds.
    pub records: u64,
    /// How many bytes of an unfinished write the next start will cut off.
    pub torn: u64,
}

/// Looks at the store in a folder; `None` when there is none yet.
///
/// # Errors
/// As [`super::DiskStore::open`], and [`StoreError::Journal`] also where opening would mend the line from the index.
pub fn inspect(folder: &Path) -> Result<Option<Inspection>, StoreError> {
    let path = folder.join("journal.jsonl");
    let failed = |error| StoreError::io("read", &path, error);
    match File::open(folder.join("lock")).map(|lock| lock.try_lock()) {
        Ok(Err(TryLockError::WouldBlock)) => return Err(StoreError::Locked(folder.to_owned())),
        Ok(Err(TryLockError::Error(error))) => return Err(failed(error)),
        Ok(Ok(())) => {}
        Err(error) if error.kind() == io::ErrorKind::NotFound => {}
        Err(error) => return Err(failed(error)),
    }
    let open = || match File::open(&path) {
        Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(None),
        other => other.map(Some).map_err(failed),
    };
    let (Some(first), Some(second)) = (open()?, open()?) else { return Ok(None) };
    inspect_journal(first, second, &path).map(Some)
}

/// Reads a journal that is in memory: every commit that counts is handed over in order, as after opening a store with
/// it and no index.
///
/// # Errors
/// As [`inspect`]; what was handed over before does not count.
pub fn read_journal(bytes: &[u8], take: &mut dyn FnMut(Commit)) -> Result<Inspection, StoreError> {
    read(bytes.len() as u64, [Box::new(bytes), Box::new(bytes)], Path::new("journal.jsonl"), take)
}

/// Looks at a journal, opened twice: for a survey, and to read every record.
pub(super) fn inspect_journal(first: File, second: File, path: &Path) -> Result<Inspection, StoreError> {
    let length = first.metadata().map_err(|error| StoreError::io("read", path, error))?.len();
    read(length, [Box::new(first), Box::new(second)], path, &mut |_| ())
}

fn read(
    length: u64,
    [first, second]: [Box<dyn Read + '_>; 2],
    path: &Path,
    take: &mut dyn FnMut(Commit),
) -> Result<Inspection, StoreError> {
    let survey = Survey::of(first, path)?;
    let mut found = Inspection { records: survey.records, torn: length.saturating_sub(survey.whole), commits: 0 };
    let mut lines = Lines::new(Box::new(second.take(survey.whole)));
    while let Some(raw) = lines.next().map_err(|error| StoreError::io("read", path, error))? {
        match decode::<Commit>(raw.bytes) {
            Ok(line) => {
                found.commits += u64::from(line.commit.is_some());
                line.commit.into_iter().for_each(&mut *take);
            }
            Err(Flaw::Newer(v)) => return Err(StoreError::Newer(path.to_owned(), v)),
            Err(Flaw::Broken(why)) => {
                return Err(StoreError::Journal { path: path.to_owned(), line: raw.number, why });
            }
        }
    }
    Ok(found)
}
