//! Daily copies, and putting one back.

use super::sample::commit;
use super::{all, waiting};
use chrono::{DateTime, Days, Utc};
use rackful::store::{DiskStore, Notes, Restored, Store, StoreError, inspect_snapshot, restore, snapshots};
use std::fs;
use std::path::Path;

fn noon() -> DateTime<Utc> {
    "2026-08-14T12:00:00Z".parse().unwrap()
}

fn open(folder: &Path) -> DiskStore {
    DiskStore::open(folder).unwrap().keeping_snapshots(3)
}

fn names(folder: &Path) -> Vec<String> {
    snapshots(folder).iter().map(|path| path.file_name().unwrap().to_string_lossy().into_owned()).collect()
}

#[test]
fn one_snapshot_a_day_is_kept_and_the_oldest_give_way() {
    let folder = tempfile::tempdir().unwrap();
    let mut store = open(folder.path());
    for day in 0..5 {
        store.keep(&[commit(day + 1)], &Notes::new()).unwrap();
        store.snapshot(noon() + Days::new(day)).unwrap();
        store.snapshot(noon() + Days::new(day)).unwrap();
    }
    let expected = ["journal-2026-08-16.jsonl", "journal-2026-08-17.jsonl", "journal-2026-08-18.jsonl"];
    assert_eq!(names(folder.path()), expected);
    let commits: Vec<_> = snapshots(folder.path()).iter().map(|path| inspect_snapshot(path).unwrap().commits).collect();
    assert_eq!(commits, [3, 4, 5]);
    let none = tempfile::tempdir().unwrap();
    DiskStore::open(none.path()).unwrap().snapshot(noon()).unwrap();
    assert_eq!(snapshots(none.path()), [] as [std::path::PathBuf; 0]);
}

#[test]
fn a_snapshot_put_back_is_the_store_as_it_was_and_says_so() {
    let folder = tempfile::tempdir().unwrap();
    let mut store = open(folder.path());
    let before: Vec<_> = (1..=3).map(commit).collect();
    store.keep(&before, &Notes::from([("token".into(), Some("s1".into()))])).unwrap();
    store.sent(&before[0].out[0].key).unwrap();
    store.snapshot(noon()).unwrap();
    let left = waiting(&store);
    store.keep(&[commit(4)], &Notes::from([("token".into(), Some("s2".into()))])).unwrap();
    let snapshot = snapshots(folder.path()).remove(0);
    assert!(matches!(restore(folder.path(), &snapshot, noon()), Err(StoreError::Locked(_))));
    drop(store);

    assert_eq!(restore(folder.path(), &snapshot, noon()).unwrap().commits, 3);
    let mut store = open(folder.path());
    assert_eq!((all(&store), waiting(&store)), (before.clone(), left), "the index did not give the rest back");
    assert_eq!(store.note("token").unwrap().as_deref(), Some("s1"));
    let restored = Restored::read(store.note(Restored::NOTE).unwrap().as_deref()).unwrap();
    assert_eq!((restored.at, restored.to), (noon(), before[2].at));
    // It goes on from there, also when it is opened again.
    store.keep(&[commit(5)], &Notes::new()).unwrap();
    drop(store);
    assert_eq!(all(&open(folder.path())).len(), 4);
    let aside = fs::read_dir(folder.path()).unwrap().any(|entry| {
        let path = entry.unwrap().path();
        path.file_name().unwrap().to_string_lossy().starts_with("before-restore-")
            && path.join("journal.jsonl").exists()
    });
    assert!(aside, "what was there is kept");
}

#[test]
fn a_broken_snapshot_is_found_and_not_put_back() {
    let folder = tempfile::tempdir().unwrap();
    let mut store = open(folder.path());
    store.keep(&(1..=3).map(commit).collect::<Vec<_>>(), &Notes::new()).unwrap();
    store.snapshot(noon()).unwrap();
    store.keep(&[commit(4)], &Notes::new()).unwrap();
    drop(store);
    let snapshot = snapshots(folder.path()).remove(0);
    let whole = fs::read(&snapshot).unwrap();
    let first_end = whole.iter().position(|byte| *byte == b'\n').unwrap() + 1;
    let newer = {
        let mut line = br#"{"v":9,"seq":1"#.to_vec();
        let crc = crc32fast::hash(&line);
        line.extend_from_slice(format!(",\"crc\":\"{crc:08x}\"}}\n").as_bytes());
        line
    };
    for (bytes, says) in [(Vec::new(), "holds no record"), (newer, "newer rackful")] {
        fs::write(&snapshot, bytes).unwrap();
        let error = restore(folder.path(), &snapshot, noon()).unwrap_err().to_string();
        assert!(error.contains(says), "{error}");
    }
    // Cut short it is an earlier state, and is one.
    fs::write(&snapshot, &whole[..first_end + 20]).unwrap();
    assert_eq!(inspect_snapshot(&snapshot).unwrap().commits, 1);
    assert_eq!(all(&open(folder.path())).len(), 4, "the store is as it was");
}

#[test]
fn a_journal_of_the_first_release_is_read_and_goes_on() {
    let folder = tempfile::tempdir().unwrap();
    fs::copy("tests/data/store/format-1.jsonl", folder.path().join("journal.jsonl")).unwrap();
    let mut store = open(folder.path());
    let (commits, notes) = (all(&store), store.note("matrix").unwrap());
    assert_eq!((commits.len(), waiting(&store).len()), (2, 1));
    assert!(notes.unwrap().contains("s12_34"));
    store.keep(&[commit(3)], &Notes::new()).unwrap();
    drop(store);
    assert_eq!(all(&open(folder.path())).len(), 3);
}
