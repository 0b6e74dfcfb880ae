//! No bytes make an import, or the rooms that it gives, panic; what was imported is exported and imports again as the
//! same, and importing twice is importing once.

use super::common::live_on;
use rackful::assistant::Commit;
use rackful::export::{Imported, export, import};
use rackful::store::{DiskStore, MemoryStore, Store};

/// Checks one input.
pub(crate) fn check(bytes: &[u8]) {
    let mut store = MemoryStore::new();
    let Ok(done) = import(bytes, &mut store) else {
        assert!(all(&store).is_empty(), "a refused file left something");
        return;
    };
    let commits = all(&store);
    assert_eq!(done, Imported { taken: commits.len() as u64, known: 0 });
    let again = import(bytes, &mut store).expect("what was read once is read again");
    assert_eq!(again, Imported { taken: 0, known: done.taken });

    let out = exported(&store);
    let mut second = MemoryStore::new();
    assert_eq!(import(&out[..], &mut second).expect("an export is imported"), done);
    assert!(all(&second) == commits);
    assert!(exported(&second) == out);
    // The disk is slow: one input in many goes there.
    if crc32fast::hash(bytes).is_multiple_of(128) {
        on_disk(&out, &commits);
    }
    live_on(&commits);
}

fn on_disk(file: &[u8], commits: &[Commit]) {
    let folder = tempfile::tempdir().expect("a folder");
    let mut store = DiskStore::open(folder.path()).expect("a new store opens");
    import(file, &mut store).expect("an export is imported on disk too");
    drop(store);
    let store = DiskStore::open(folder.path()).expect("it opens again");
    assert!(all(&store) == commits);
    assert!(exported(&store) == file);
}

fn all(store: &dyn Store) -> Vec<Commit> {
    let mut commits = Vec::new();
    store.each(&mut |commit| commits.push(commit)).expect("memory gives it");
    commits
}

fn exported(store: &dyn Store) -> Vec<u8> {
    let mut bytes = Vec::new();
    export(store, &mut bytes).expect("memory takes it");
    bytes
}
