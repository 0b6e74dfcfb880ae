//! The journal: every record as a line, in the order accepted, appended and synced. It is the source of truth; what
//! else the store holds can be made from it.
//!
//! It is not preallocated. On ext4 overwriting zeroed blocks makes a sync about a fifth faster (measured 157 against
//! 193 µs), since no length has to be written; a household writes a few hundred lines a day, and a file that ends
//! where its last line ends can be read, copied and followed by any tool.

use super::StoreError;
use super::codec::{Body, Flaw, encode, head};
use super::door::Disk;
use super::lines::Lines;
use std::io::{self, BufWriter, Read, Write};
use std::path::{Path, PathBuf};

/// The open journal.
pub(crate) struct Journal {
    disk: Box<dyn Disk>,
    path: PathBuf,
    /// Its length in bytes as far as it counts. The file can be longer after a failed write, until it is cut.
    len: u64,
    /// The number of the last record, 0 before the first.
    last: u64,
    /// The first record appended since the last sync.
    unsynced: Option<u64>,
    /// Whether the file may be longer than `len`.
    overhang: bool,
}

/// Lines as they were appended: for the index.
#[derive(Clone, Debug, Default)]
pub(crate) struct Appended {
    /// The number of the first.
    pub(crate) first: u64,
    /// All lines.
    pub(crate) bytes: Vec<u8>,
    /// Where each of them ends.
    pub(crate) ends: Vec<usize>,
}

impl Appended {
    /// The lines with their numbers.
    pub(crate) fn lines(&self) -> impl Iterator<Item = (u64, &[u8])> {
        let starts = std::iter::once(0).chain(self.ends.iter().copied());
        let lines = starts.zip(&self.ends).map(|(start, end)| self.bytes.get(start..*end).unwrap_or_default());
        (self.first..).zip(lines)
    }
}

impl Journal {
    /// Opens it: cuts off a write that never finished (a copy is kept beside it) and makes sure that the rest is on
    /// disk, not only in the cache of the system that a killed process left it in.
    pub(crate) fn open(mut disk: Box<dyn Disk>, path: &Path) -> Result<Self, StoreError> {
        let length = disk.len().map_err(|e| StoreError::io("read", path, e))?;
        let survey = Survey::of(disk.read().map_err(|e| StoreError::io("read", path, e))?, path)?;
        if survey.whole < length {
            tracing::warn!(
                journal = %path.display(), bytes = length - survey.whole, at = survey.whole,
                "the end of the journal is not whole and is cut off; \
                 a write that never finished was never answered, so unless the file was damaged nothing is lost"
            );
            if let Err(error) = disk.copy_aside(survey.whole) {
                tracing::warn!(%error, "no copy of it could be kept");
            }
            disk.truncate(survey.whole).map_err(|e| StoreError::io("cut the torn end off", path, e))?;
        }
        disk.sync().map_err(|e| StoreError::io("sync", path, e))?;
        let (len, last) = (survey.whole, survey.last);
        Ok(Self { disk, path: path.to_owned(), len, last, unsynced: None, overhang: false })
    }

    /// Appends records, and with `durable` returns when they are on disk for good: one write, one sync. After an error
    /// the journal is as it was.
    pub(crate) fn append(&mut self, records: Vec<Body<'_>>, durable: bool) -> Result<Appended, StoreError> {
        self.cut_overhang().map_err(|e| StoreError::io("write to", &self.path, e))?;
        let first = self.last + 1;
        let since = self.unsynced.unwrap_or(first);
        let mut appended = Appended { first, ..Appended::default() };
        for (seq, body) in (first..).zip(records) {
            encode(&mut appended.bytes, seq, since, body)
                .map_err(|why| StoreError::io("write to", &self.path, io::Error::other(why)))?;
            appended.ends.push(appended.bytes.len());
        }
        let written = self.disk.append(&appended.bytes).and_then(|()| if durable { self.disk.sync() } else { Ok(()) });
        if let Err(error) = written {
            self.overhang = true;
            if let Err(error) = self.cut_overhang() {
                tracing::warn!(
                    %error,
                    "what a failed write left in the journal is still there; it is cut before the next"
                );
            }
            return Err(StoreError::io("write to", &self.path, error));
        }
        self.len += appended.bytes.len() as u64;
        self.last += appended.ends.len() as u64;
        self.unsynced = if durable { None } else { Some(since) };
        Ok(appended)
    }

    /// All that counts of it, in bytes: a reader, and how many.
    pub(crate) fn whole(&self) -> Result<(Box<dyn Read + '_>, u64), StoreError> {
        Ok((self.disk.read().map_err(|e| StoreError::io("read", &self.path, e))?, self.len))
    }

    /// Its lines, from the first.
    pub(crate) fn lines(&self) -> Result<Lines<'_>, StoreError> {
        let disk = self.disk.read().map_err(|e| StoreError::io("read", &self.path, e))?;
        Ok(Lines::new(Box::new(disk.take(self.len))))
    }

    /// Puts other lines in place of its own, at once and for good, and opens it anew.
    pub(crate) fn rewrite(
        mut self,
        write: impl FnOnce(&Self, &mut dyn Write) -> Result<(), StoreError>,
    ) -> Result<Self, StoreError> {
        let failed = |e| StoreError::io("mend", &self.path, e);
        let mut draft = BufWriter::new(self.disk.draft().map_err(failed)?);
        write(&self, &mut draft)?;
        draft.flush().map_err(failed)?;
        drop(draft);
        self.disk.publish().map_err(|e| StoreError::io("mend", &self.path, e))?;
        Self::open(self.disk, &self.path)
    }

    /// Where it is.
    pub(crate) fn path(&self) -> &Path {
        &self.path
    }

    fn cut_overhang(&mut self) -> io::Result<()> {
        if self.overhang {
            self.disk.truncate(self.len)?;
            self.overhang = false;
        }
        Ok(())
    }
}

/// What a look through a journal finds.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub(crate) struct Survey {
    /// How many bytes count: up to a write that never finished, or to the end.
    pub(crate) whole: u64,
    /// The number of the last record that counts.
    pub(crate) last: u64,
    /// How many records count.
    pub(crate) records: u64,
}

impl Survey {
    /// Looks through a journal.
    ///
    /// A broken line was never finished if no later sync followed it: a write of several blocks can lose any of them
    /// when the power goes, not only the last. A broken line that later syncs followed was once whole, and stays for
    /// the merge with the index to mend or to refuse.
    pub(crate) fn of(from: Box<dyn Read + '_>, path: &Path) -> Result<Self, StoreError> {
        let mut lines = Lines::new(from);
        let mut so_far = Self::default();
        let mut torn: Option<Self> = None;
        while let Some(raw) = lines.next().map_err(|e| StoreError::io("read", path, e))? {
            let (ended, offset) = (raw.ended(), raw.offset);
            match head(raw.bytes) {
                Err(Flaw::Newer(v)) => return Err(StoreError::Newer(path.to_owned(), v)),
                Ok(head) if ended && head.seq > so_far.last => {
                    torn = torn.filter(|torn| torn.last + 1 >= head.since());
                    so_far.last = head.seq;
                    so_far.records += 1;
                }
                _ => torn = torn.or(Some(Self { whole: offset, ..so_far })),
            }
            so_far.whole = lines.offset();
        }
        Ok(torn.unwrap_or(so_far))
    }
}
