//! The store on disk: the journal, what it adds up to in memory, and the index that follows it.

use super::codec::{Body, Flaw, decode};
use super::current::{Current, still_waiting};
use super::door::{Disk, FileDisk, beside, private, sync_folder};
use super::follower::Follower;
use super::index::{Index, Trouble};
use super::journal::{Appended, Journal};
use super::merge::{Findings, Stop, catch_up, compare, write_merged};
use super::{Notes, Store, StoreError, Told, snapshot};
use crate::assistant::{Commit, Outgoing};
use crate::ledger::MessageId;
use chrono::{DateTime, Utc};
use std::collections::BTreeSet;
use std::fs::{self, DirBuilder, File, TryLockError};
use std::io;
use std::path::{Path, PathBuf};

/// A store in a folder of its own.
pub struct DiskStore {
    journal: Journal,
    current: Current,
    index: Option<Follower>,
    folder: PathBuf,
    /// How many snapshots are kept.
    keep: usize,
    /// Held for as long as the store is open, and let go of last.
    _lock: File,
}

impl DiskStore {
    /// Opens the store in a folder, or makes it. Mends by itself what one of journal and index can give the other.
    ///
    /// # Errors
    /// [`StoreError::Locked`] while another process has it open; [`StoreError::Journal`] when the journal is damaged
    /// and the index cannot mend it; [`StoreError::Lost`] when the journal is gone and the index cannot be read;
    /// [`StoreError::Newer`]; [`StoreError::Io`].
    pub fn open(folder: &Path) -> Result<Self, StoreError> {
        let place = Place::take(folder)?;
        let path = place.journal();
        let disk = FileDisk::open(&path).map_err(|e| StoreError::io("open", &path, e))?;
        Self::assemble(place, Box::new(disk))
    }

    /// As [`DiskStore::open`], with a journal elsewhere than in the folder: for tests of what disks do.
    ///
    /// # Errors
    /// As [`DiskStore::open`].
    pub fn open_on(folder: &Path, journal: Box<dyn Disk>) -> Result<Self, StoreError> {
        let place = Place { journal_is_lost: false, ..Place::take(folder)? };
        Self::assemble(place, journal)
    }

    /// From now on this many snapshots are kept; none by default.
    #[must_use]
    pub fn keeping_snapshots(self, keep: usize) -> Self {
        Self { keep, ..self }
    }

    fn assemble(place: Place, disk: Box<dyn Disk>) -> Result<Self, StoreError> {
        let mut journal = Journal::open(disk, &place.journal())?;
        let mut index = place.open_index()?;
        let mut found = place.compare(&journal, &mut index)?;
        if found.can_mend() {
            journal = mend(journal, index.as_ref(), &found)?;
            found = compare(&journal, index.as_ref()).map_err(|stop| unmended(stop, journal.path()))?;
        }
        if let Some((line, why)) = found.broken {
            return Err(StoreError::Journal { path: place.journal(), line, why });
        }
        if let (Some(why), Some(off)) = (found.index_is_off(), index.take_if(|_| found.index_is_off().is_some())) {
            off.close();
            place.set_index_aside(why, found.last);
            found.common = 0;
        }
        if index.is_none() {
            index = place.open_index()?;
            found.common = 0;
        }
        let index = index.and_then(|index| follow(index, &journal, &found));
        place.index_was_opened();
        Ok(Self { journal, current: found.current, index, folder: place.folder, keep: 0, _lock: place.lock })
    }

    /// Appends and syncs; the index hears of it afterwards.
    fn write(&mut self, records: Vec<Body<'_>>) -> Result<u64, StoreError> {
        let appended = self.journal.append(records, true)?;
        let first = appended.first;
        self.hand(appended);
        Ok(first)
    }

    fn hand(&mut self, appended: Appended) {
        if let Some(index) = &mut self.index {
            index.hand(appended);
        }
    }
}

impl Store for DiskStore {
    fn keep(&mut self, commits: &[Commit], notes: &Notes) -> Result<(), StoreError> {
        let news = self.current.news(notes);
        let mut records: Vec<_> = commits.iter().map(|commit| Body::Commit(commit, None)).collect();
        if !news.is_empty() {
            // Last, so that what a crash leaves of this write never has a sync position without what came before it.
            records.push(Body::Notes(news));
        }
        if records.is_empty() {
            return Ok(());
        }
        let first = self.write(records)?;
        for (seq, commit) in (first..).zip(commits) {
            self.current.commit(seq, commit.message.as_ref(), commit.out.clone(), None);
        }
        self.current.note(notes);
        Ok(())
    }

    fn adopt(&mut self, commits: &[Commit], waiting: &BTreeSet<String>) -> Result<(), StoreError> {
        if commits.is_empty() {
            return Ok(());
        }
        let waiting: Vec<_> = commits.iter().map(|commit| still_waiting(commit, waiting)).collect();
        let records = commits.iter().zip(&waiting).map(|(commit, waiting)| Body::Commit(commit, waiting.clone()));
        let first = self.write(records.collect())?;
        for ((seq, commit), waiting) in (first..).zip(commits).zip(&waiting) {
            self.current.commit(seq, commit.message.as_ref(), commit.out.clone(), waiting.as_deref());
        }
        Ok(())
    }

    fn each(&self, take: &mut dyn FnMut(Commit)) -> Result<(), StoreError> {
        let path = self.journal.path();
        let mut lines = self.journal.lines()?;
        while let Some(raw) = lines.next().map_err(|e| StoreError::io("read", path, e))? {
            match decode::<Commit>(raw.bytes) {
                Ok(line) => line.commit.into_iter().for_each(&mut *take),
                Err(Flaw::Newer(v)) => return Err(StoreError::Newer(path.to_owned(), v)),
                Err(Flaw::Broken(why)) => {
                    return Err(StoreError::Journal { path: path.to_owned(), line: raw.number, why });
                }
            }
        }
        Ok(())
    }

    fn outbox(&self) -> Result<Vec<Outgoing>, StoreError> {
        Ok(self.current.outbox())
    }

    fn sent_as(&mut self, key: &str, id: Option<&MessageId>) -> Result<(), StoreError> {
        if self.current.waits(key) {
            let appended = self.journal.append(vec![Body::Sent(key, id)], false)?;
            self.hand(appended);
            self.current.sent(key, id);
        }
        Ok(())
    }

    fn snapshot(&mut self, now: DateTime<Utc>) -> Result<(), StoreError> {
        let (journal, len) = self.journal.whole()?;
        snapshot::make(&self.folder, journal, len, self.keep, now)
    }

    fn told(&self, id: &MessageId) -> Result<Option<Told>, StoreError> {
        Ok(self.current.told(id))
    }

    fn note(&self, name: &str) -> Result<Option<String>, StoreError> {
        Ok(self.current.named(name))
    }
}

/// The store's folder, taken by this process.
struct Place {
    folder: PathBuf,
    lock: File,
    /// There is an index and no journal.
    journal_is_lost: bool,
}

impl Place {
    fn take(folder: &Path) -> Result<Self, StoreError> {
        let io = |e| StoreError::io("make the folder", folder, e);
        if !folder.try_exists().map_err(io)? {
            let mut builder = DirBuilder::new();
            #[cfg(unix)]
            std::os::unix::fs::DirBuilderExt::mode(&mut builder, 0o700);
            builder.recursive(true).create(folder).map_err(io)?;
            sync_folder(folder).map_err(io)?;
        }
        let path = folder.join("lock");
        let lock = private().write(true).create(true).open(&path).map_err(|e| StoreError::io("open", &path, e))?;
        match lock.try_lock() {
            Ok(()) => {}
            Err(TryLockError::WouldBlock) => return Err(StoreError::Locked(folder.to_owned())),
            Err(TryLockError::Error(e)) => return Err(StoreError::io("lock", &path, e)),
        }
        let mut place = Self { folder: folder.to_owned(), lock, journal_is_lost: false };
        // The journal is made first, so an index without one was not left by a start that was cut short.
        place.journal_is_lost = place.index().exists() && !place.journal().exists();
        Ok(place)
    }

    fn journal(&self) -> PathBuf {
        self.folder.join("journal.jsonl")
    }

    fn index(&self) -> PathBuf {
        self.folder.join("index")
    }

    /// A file that is there while the index is being opened. If it is there before, a start did not survive that: sled
    /// can also abort, or never come back, where no guard helps.
    fn marker(&self) -> PathBuf {
        beside(&self.index(), "opening")
    }

    fn index_was_opened(&self) {
        let _ = fs::remove_file(self.marker());
    }

    /// The index, or none when it was unusable and is now set aside.
    fn open_index(&self) -> Result<Option<Index>, StoreError> {
        if self.marker().exists() && self.index().exists() && !self.journal_is_lost {
            self.set_index_aside("an earlier start ended while opening it", 0);
        }
        // Without the marker opening is only less safe.
        let _ = File::create(self.marker());
        match Index::open(&self.index()) {
            Ok(index) => Ok(Some(index)),
            Err(Trouble::Locked) => {
                self.index_was_opened();
                Err(StoreError::Locked(self.folder.clone()))
            }
            Err(Trouble::Unusable(why)) => self.unusable(why).map(|()| None),
        }
    }

    fn compare(&self, journal: &Journal, index: &mut Option<Index>) -> Result<Findings, StoreError> {
        match compare(journal, index.as_ref()) {
            Ok(found) if self.journal_is_lost && found.missing == 0 => {
                self.unusable("it has no records".into())?;
                Ok(found)
            }
            Ok(found) => Ok(found),
            Err(Stop::Store(error)) => Err(error),
            Err(Stop::Index(why)) => {
                index.take().into_iter().for_each(Index::close);
                self.unusable(why)?;
                compare(journal, None).map_err(|stop| unmended(stop, journal.path()))
            }
        }
    }

    fn unusable(&self, why: String) -> Result<(), StoreError> {
        if self.journal_is_lost {
            // As it was found, so that the next start does not take an empty journal for a new store.
            if fs::metadata(self.journal()).is_ok_and(|journal| journal.len() == 0) {
                let _ = fs::remove_file(self.journal());
            }
            self.index_was_opened();
            return Err(StoreError::Lost { journal: self.journal(), index: self.index(), why });
        }
        self.set_index_aside(&why, 0);
        Ok(())
    }

    /// Moves the index out of the way. One is kept, the latest.
    fn set_index_aside(&self, why: &str, last: u64) {
        let aside = beside(&self.index(), &format!("aside-{last}"));
        let earlier = fs::read_dir(&self.folder).into_iter().flatten().flatten();
        for entry in earlier.filter(|entry| entry.file_name().to_string_lossy().starts_with("index.aside-")) {
            let _ = fs::remove_dir_all(entry.path());
        }
        tracing::warn!(why, aside = %aside.display(), "the index is set aside and made anew from the journal");
        if let Err(error) = fs::rename(self.index(), &aside) {
            tracing::warn!(%error, "the index could not be set aside");
        }
    }
}

fn mend(journal: Journal, index: Option<&Index>, found: &Findings) -> Result<Journal, StoreError> {
    tracing::warn!(
        journal = %journal.path().display(), missing = found.missing, broken_line = found.broken.as_ref().map(|b| b.0),
        "the journal is damaged and is mended; as it was it is kept beside it"
    );
    journal.rewrite(|old, to| write_merged(old, index, to).map_err(|stop| unmended(stop, old.path())))
}

fn unmended(stop: Stop, journal: &Path) -> StoreError {
    match stop {
        Stop::Store(error) => error,
        Stop::Index(why) => StoreError::io("mend", journal, io::Error::other(why)),
    }
}

/// Brings the index up to the journal and lets it follow; the store does without it when that fails.
fn follow(index: Index, journal: &Journal, found: &Findings) -> Option<Follower> {
    if found.last > found.common {
        let brought = catch_up(journal, &index, found.common);
        if let Err(stop) = brought {
            let why = unmended(stop, journal.path());
            tracing::warn!(%why, "the index cannot be brought up to date; the store works without it");
            index.close();
            return None;
        }
    }
    Follower::start(index).inspect_err(|error| tracing::warn!(%error, "no thread for the index")).ok()
}
