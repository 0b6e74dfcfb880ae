//! Journal and index side by side: where they agree, and what each can give the other.

use super::StoreError;
use super::codec::{Flaw, Line, Sends, decode, head};
use super::current::Current;
use super::index::{Index, whole};
use super::journal::Journal;
use std::io::Write;

/// One place of the merged order.
enum Step<'a> {
    /// The journal has this record; so has the index, or something else in its place, or nothing.
    Journal(Line<Sends>, &'a [u8], InIndex),
    /// Only the index has this record.
    Index(u64, &'a [u8]),
    /// A line of the journal is broken.
    Broken(u64, String),
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum InIndex {
    Same,
    Other,
    /// Nothing, though it has later ones.
    Hole,
    /// Nothing, nor anything later.
    NotYet,
}

/// Why a merge ended early.
pub(crate) enum Stop {
    /// The journal cannot be read.
    Store(StoreError),
    /// The index cannot be read.
    Index(String),
}

impl From<StoreError> for Stop {
    fn from(error: StoreError) -> Self {
        Self::Store(error)
    }
}

/// What a comparison finds.
#[derive(Debug, Default)]
pub(crate) struct Findings {
    /// Outbox and notes by the journal alone.
    pub(crate) current: Current,
    /// How many records only the index has.
    pub(crate) missing: u64,
    /// The first broken line of the journal.
    pub(crate) broken: Option<(u64, String)>,
    /// A broken line in whose place records are missing from both.
    beyond_mending: bool,
    /// The index holds another record under a number of the journal: it belongs to another history.
    foreign: bool,
    /// The index lacks records between others.
    holes: bool,
    /// The last record that both have.
    pub(crate) common: u64,
    /// The last record of the journal.
    pub(crate) last: u64,
}

impl Findings {
    /// Whether the journal lacks what the index can give, or has broken lines though its numbers show that no record is
    /// missing.
    pub(crate) fn can_mend(&self) -> bool {
        !self.foreign && !self.beyond_mending && (self.missing > 0 || self.broken.is_some())
    }

    /// Why the index is to be made anew.
    pub(crate) fn index_is_off(&self) -> Option<&'static str> {
        match self {
            Self { foreign: true, .. } => Some("it holds other records than the journal"),
            Self { holes: true, .. } => Some("records of the journal are not in it"),
            _ => None,
        }
    }
}

/// Compares them.
pub(crate) fn compare(journal: &Journal, index: Option<&Index>) -> Result<Findings, Stop> {
    let mut found = Findings::default();
    let (mut merged, mut hurt) = (0, false);
    merge(journal, index, &mut |step| {
        let (seq, from_journal) = match step {
            Step::Broken(number, why) => {
                found.broken.get_or_insert((number, why));
                hurt = true;
                return Ok(());
            }
            Step::Index(seq, _) => {
                found.missing += 1;
                (seq, false)
            }
            Step::Journal(line, _, there) => {
                let seq = line.seq;
                match there {
                    InIndex::Same => found.common = seq,
                    InIndex::Other => found.foreign = true,
                    InIndex::Hole => found.holes = true,
                    InIndex::NotYet => {}
                }
                found.current.take(line);
                found.last = seq;
                (seq, true)
            }
        };
        found.beyond_mending |= hurt && seq != merged + 1;
        hurt &= !from_journal;
        merged = seq;
        Ok(())
    })?;
    found.beyond_mending |= hurt;
    Ok(found)
}

/// Writes every record that either of them has, the journal's before the index's.
pub(crate) fn write_merged(journal: &Journal, index: Option<&Index>, to: &mut dyn Write) -> Result<(), Stop> {
    merge(journal, index, &mut |step| match step {
        Step::Journal(_, line, _) | Step::Index(_, line) => {
            Ok(to.write_all(line).map_err(|e| StoreError::io("mend", journal.path(), e))?)
        }
        Step::Broken(..) => Ok(()),
    })
}

/// Brings the index up from record `after`.
pub(crate) fn catch_up(journal: &Journal, index: &Index, after: u64) -> Result<(), Stop> {
    let mut lines = journal.lines()?;
    let mut batch: Vec<(u64, Vec<u8>)> = Vec::new();
    loop {
        let next = lines.next().map_err(|e| StoreError::io("read", journal.path(), e))?;
        if next.is_none() || batch.len() == 1_000 {
            index.put(batch.iter().map(|(seq, line)| (*seq, line.as_slice()))).map_err(Stop::Index)?;
            batch.clear();
        }
        match next {
            None => return Ok(()),
            Some(raw) => match head(raw.bytes) {
                Ok(head) if head.seq > after => batch.push((head.seq, raw.bytes.to_vec())),
                _ => {}
            },
        }
    }
}

fn merge(
    journal: &Journal,
    index: Option<&Index>,
    step: &mut dyn FnMut(Step<'_>) -> Result<(), Stop>,
) -> Result<(), Stop> {
    let mut theirs = index.map(Index::lines).into_iter().flatten();
    let mut their = theirs.next().transpose().map_err(Stop::Index)?;
    let mut lines = journal.lines()?;
    let mut last = 0;
    while let Some(raw) = lines.next().map_err(|e| StoreError::io("read", journal.path(), e))? {
        let line = match decode::<Sends>(raw.bytes) {
            Ok(line) if line.seq > last => line,
            Ok(_) => {
                step(Step::Broken(raw.number, "its number is not above that of the line before".into()))?;
                continue;
            }
            Err(Flaw::Broken(why)) => {
                step(Step::Broken(raw.number, why))?;
                continue;
            }
            Err(Flaw::Newer(v)) => return Err(StoreError::Newer(journal.path().to_owned(), v).into()),
        };
        last = line.seq;
        while let Some((seq, bytes)) = their.take_if(|(seq, _)| *seq < last) {
            whole(seq, &bytes).map_err(Stop::Index)?;
            step(Step::Index(seq, &bytes))?;
            their = theirs.next().transpose().map_err(Stop::Index)?;
        }
        let there = match their.take_if(|(seq, _)| *seq == last) {
            Some((_, bytes)) if *bytes == *raw.bytes => InIndex::Same,
            Some((seq, bytes)) => {
                whole(seq, &bytes).map_err(Stop::Index)?;
                InIndex::Other
            }
            None if their.is_some() => InIndex::Hole,
            None => InIndex::NotYet,
        };
        if matches!(there, InIndex::Same | InIndex::Other) {
            their = theirs.next().transpose().map_err(Stop::Index)?;
        }
        step(Step::Journal(line, raw.bytes, there))?;
    }
    while let Some((seq, bytes)) = their {
        whole(seq, &bytes).map_err(Stop::Index)?;
        step(Step::Index(seq, &bytes))?;
        their = theirs.next().transpose().map_err(Stop::Index)?;
    }
    Ok(())
}
