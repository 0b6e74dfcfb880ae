//! JSON lines: a head, then every commit in the order kept.
//!
//! ```json
//! {"rackful_export":1,"commits":2}
//! {"commit":{…}}
//! {"commit":{…},"waiting":["…"]}
//! ```
//!
//! `waiting` names the commit's messages that were not sent yet; all others are never sent again, wherever the file is
//! imported. The driver's notes stay behind: a sync position belongs to a login, not to the ledger. The head counts the
//! commits, so a file cut short at the end of a line is noticed too.

use crate::assistant::Commit;
use crate::store::{Store, StoreError};
use serde::{Deserialize, Serialize};
use std::collections::{BTreeSet, HashSet};
use std::io::{self, BufRead, Write};

const FORMAT: u64 = 1;

#[derive(Serialize, Deserialize)]
struct Head {
    rackful_export: u64,
    commits: u64,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Line<C> {
    commit: C,
    #[serde(default = "Vec::new", skip_serializing_if = "Vec::is_empty")]
    waiting: Vec<String>,
}

/// Why an export ended early.
#[derive(Debug, thiserror::Error)]
pub enum ExportError {
    /// The store cannot be read.
    #[error(transparent)]
    Store(#[from] StoreError),
    /// Where it goes does not take it.
    #[error("cannot write the export: {0}")]
    Write(#[from] io::Error),
}

/// Why nothing was imported.
#[derive(Debug, thiserror::Error)]
pub enum ImportError {
    /// A line is not what it should be.
    #[error("line {line}: {why}; nothing was imported")]
    Line {
        /// The line, from 1.
        line: u64,
        /// What is wrong with it.
        why: String,
    },
    /// The file was written by a newer program.
    #[error("the export was written by a newer rackful (format {0}); import it with that version or newer")]
    Newer(u64),
    /// The file cannot be read.
    #[error("cannot read the export: {0}; nothing was imported")]
    Read(io::Error),
    /// The store failed.
    #[error(transparent)]
    Store(#[from] StoreError),
}

/// What an import did.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub struct Imported {
    /// Commits that are new here.
    pub taken: u64,
    /// Commits that were here before, by their message or, where no message caused them, by all that they hold.
    pub known: u64,
}

/// Writes all commits of a store.
///
/// # Errors
/// When the store or the writer fails.
pub fn export(store: &dyn Store, to: impl Write) -> Result<(), ExportError> {
    export_where(store, |_| true, to)
}

/// Writes all commits of one room: nobody in it may read what was said in another one.
///
/// # Errors
/// As [`export`].
pub fn export_room(store: &dyn Store, room: &str, to: impl Write) -> Result<(), ExportError> {
    export_where(store, |commit| &*commit.room == room, to)
}

fn export_where(store: &dyn Store, wanted: impl Fn(&Commit) -> bool, mut to: impl Write) -> Result<(), ExportError> {
    let waiting: HashSet<_> = store.outbox()?.into_iter().map(|out| out.key).collect();
    let mut commits = 0;
    store.each(&mut |commit| commits += u64::from(wanted(&commit)))?;
    write_line(&mut to, &Head { rackful_export: FORMAT, commits })?;
    let mut written = Ok(());
    store.each(&mut |commit| {
        if written.is_ok() && wanted(&commit) {
            let keys = commit.out.iter().map(|out| &out.key).filter(|key| waiting.contains(*key));
            let waiting = keys.cloned().collect();
            written = write_line(&mut to, &Line { commit, waiting });
        }
    })?;
    written?;
    Ok(to.flush()?)
}

fn write_line(to: &mut impl Write, line: &impl Serialize) -> io::Result<()> {
    serde_json::to_writer(&mut *to, line)?;
    to.write_all(b"\n")
}

/// Reads an export into a store: everything is checked before anything is kept. Into a store that is not empty only
/// what is new there is taken. Nothing that was sent before is sent again.
///
/// # Errors
/// [`ImportError::Line`] with the first line that is broken; [`ImportError::Store`] when the store fails, then as
/// [`Store::keep`] says.
pub fn import(from: impl BufRead, store: &mut dyn Store) -> Result<Imported, ImportError> {
    let lines = read(from)?;
    let mut here = HashSet::new();
    store.each(&mut |commit| {
        here.insert(identity(&commit));
    })?;
    let all = lines.len() as u64;
    let mut waiting = BTreeSet::new();
    let mut commits = Vec::new();
    for line in lines {
        if here.is_empty() || !here.contains(&identity(&line.commit)) {
            commits.push(line.commit);
            waiting.extend(line.waiting);
        }
    }
    let taken = commits.len() as u64;
    store.adopt(&commits, &waiting)?;
    Ok(Imported { taken, known: all - taken })
}

/// What makes a commit count once.
fn identity(commit: &Commit) -> (String, String) {
    let what = match &commit.message {
        Some(message) => format!("m{message}"),
        None => format!("c{}", serde_json::to_string(commit).unwrap_or_default()),
    };
    (commit.room.to_string(), what)
}

fn read(mut from: impl BufRead) -> Result<Vec<Line<Commit>>, ImportError> {
    let (mut commits, mut head, mut number) = (Vec::new(), None::<Head>, 0);
    let mut bytes = Vec::new();
    loop {
        bytes.clear();
        if from.read_until(b'\n', &mut bytes).map_err(ImportError::Read)? == 0 {
            break;
        }
        number += 1;
        let bad = |why: String| ImportError::Line { line: number, why };
        match &head {
            None => {
                let read: Head = serde_json::from_slice(&bytes)
                    .map_err(|error| bad(format!("this is not the first line of an export ({error})")))?;
                if read.rackful_export > FORMAT {
                    return Err(ImportError::Newer(read.rackful_export));
                }
                head = Some(read);
            }
            Some(_) => commits.push(
                serde_json::from_slice(&bytes)
                    .map_err(|error| bad(format!("this is not a line of an export ({error})")))?,
            ),
        }
    }
    let bad = |why: String| ImportError::Line { line: number + 1, why };
    let head = head.ok_or_else(|| bad("the file is empty".into()))?;
    let found = commits.len() as u64;
    if head.commits == found {
        Ok(commits)
    } else {
        Err(bad(format!(
            "{} commits should be here, and there are {found}: the file was cut short or joined",
            head.commits
        )))
    }
}
