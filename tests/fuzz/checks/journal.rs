//! No bytes make reading a journal, or folding what was read, panic; a torn end is cut off once and for all, and a
//! store opens with what was read. Bytes are tried as they are, and with the checksum of each line made right.

use super::common::live_on;
use rackful::assistant::Commit;
use rackful::store::{DiskStore, Notes, Store, read_journal};

const CRC_KEY: &[u8] = b",\"crc\":\"";

/// Checks one input.
pub(crate) fn check(bytes: &[u8]) {
    let _ = rooms_of(bytes);
    let sealed = sealed(bytes);
    if let Some(commits) = rooms_of(&sealed)
        && crc32fast::hash(bytes).is_multiple_of(128)
    {
        on_disk(&sealed, &commits);
    }
}

/// What a journal says, folded and looked at; nothing when it cannot be read.
fn rooms_of(journal: &[u8]) -> Option<Vec<Commit>> {
    let commits = {
        let mut commits = Vec::new();
        let found = read_journal(journal, &mut |commit| commits.push(commit)).ok()?;
        assert_eq!(found.commits, commits.len() as u64);
        let (whole, torn) = journal.split_at(journal.len() - found.torn as usize);
        assert!(torn.is_empty() || !whole.is_empty() || found.records == 0);
        let mut again = Vec::new();
        let cut = read_journal(whole, &mut |commit| again.push(commit)).expect("a cut journal is whole");
        assert_eq!((cut.records, cut.torn), (found.records, 0));
        assert!(again == commits);
        commits
    };
    live_on(&commits);
    Some(commits)
}

/// Opens a store on a journal, adds to it and opens it again.
fn on_disk(journal: &[u8], commits: &[Commit]) {
    let folder = tempfile::tempdir().expect("a folder");
    std::fs::write(folder.path().join("journal.jsonl"), journal).expect("the disk takes it");
    let mut store = DiskStore::open(folder.path()).expect("what can be read can be opened");
    assert!(all(&store) == commits);
    let more = Commit {
        room: "elsewhere".into(),
        at: chrono::DateTime::UNIX_EPOCH,
        message: None,
        said: None,
        changes: Vec::new(),
        out: Vec::new(),
    };
    store.keep(std::slice::from_ref(&more), &Notes::new()).expect("the disk takes it");
    drop(store);
    let store = DiskStore::open(folder.path()).expect("it opens again");
    assert!(all(&store) == [commits, &[more]].concat());
}

fn all(store: &dyn Store) -> Vec<Commit> {
    let mut commits = Vec::new();
    store.each(&mut |commit| commits.push(commit)).expect("the disk gives it");
    commits
}

/// The same lines, each with the checksum that fits it.
fn sealed(bytes: &[u8]) -> Vec<u8> {
    let mut made = Vec::with_capacity(bytes.len() + 64);
    for line in bytes.split_inclusive(|byte| *byte == b'\n') {
        let ended = line.ends_with(b"\n");
        let line = line.strip_suffix(b"\n").unwrap_or(line);
        let body = match line.windows(CRC_KEY.len()).rposition(|part| part == CRC_KEY) {
            Some(at) => &line[..at],
            None => line.strip_suffix(b"}").unwrap_or(line),
        };
        made.extend_from_slice(body);
        made.extend_from_slice(CRC_KEY);
        made.extend_from_slice(format!("{:08x}\"}}", crc32fast::hash(body)).as_bytes());
        if ended {
            made.push(b'\n');
        }
    }
    made
}
