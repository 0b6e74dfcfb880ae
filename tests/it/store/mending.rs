//! What journal and index give each other, and what is refused.

use super::sample::commit;
use super::{all, waiting};
use rackful::store::{DiskStore, Notes, Store, StoreError};
use std::fs;
use std::path::{Path, PathBuf};

/// A closed store with six commits, the second sent, and a note; and what is in it.
fn filled() -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    let mut store = DiskStore::open(folder.path()).unwrap();
    for n in 1..=5 {
        store.keep(&[commit(n)], &Notes::new()).unwrap();
    }
    store.sent(&commit(2).out[0].key).unwrap();
    store.keep(&[commit(6)], &Notes::from([("token".into(), Some("s9".into()))])).unwrap();
    folder
}

fn check_filled(folder: &Path) {
    let store = DiskStore::open(folder).unwrap();
    assert_eq!(all(&store), (1..=6).map(commit).collect::<Vec<_>>());
    assert_eq!(waiting(&store), [1, 3, 4, 5, 6].map(|n| commit(n).out[0].key.clone()));
    assert_eq!(store.note("token").unwrap().as_deref(), Some("s9"));
}

fn journal(folder: &Path) -> PathBuf {
    folder.join("journal.jsonl")
}

fn change(path: &Path, change: impl FnOnce(&mut Vec<u8>)) {
    let mut bytes = fs::read(path).unwrap();
    change(&mut bytes);
    fs::write(path, bytes).unwrap();
}

/// Where line `number`, from 1, begins.
fn start_of(bytes: &[u8], number: usize) -> usize {
    bytes.split_inclusive(|b| *b == b'\n').take(number - 1).map(<[u8]>::len).sum()
}

fn named(folder: &Path, start: &str) -> usize {
    fs::read_dir(folder)
        .unwrap()
        .filter(|e| e.as_ref().unwrap().file_name().to_string_lossy().starts_with(start))
        .count()
}

#[test]
fn lost_journal_comes_back_from_the_index_byte_for_byte() {
    let folder = filled();
    let before = fs::read(journal(folder.path())).unwrap();
    fs::remove_file(journal(folder.path())).unwrap();
    check_filled(folder.path());
    assert!(fs::read(journal(folder.path())).unwrap() == before);
}

#[test]
fn journal_cut_between_any_two_lines_comes_back_from_the_index() {
    for lines in 0..8 {
        let folder = filled();
        change(&journal(folder.path()), |bytes| bytes.truncate(start_of(bytes, lines + 1)));
        check_filled(folder.path());
    }
}

#[test]
fn broken_line_anywhere_is_mended_from_the_index_and_the_damaged_journal_is_kept() {
    for line in 1..=8 {
        let folder = filled();
        change(&journal(folder.path()), |bytes| {
            let at = start_of(bytes, line) + 20;
            bytes[at] ^= 1;
        });
        let damaged = fs::read(journal(folder.path())).unwrap();
        check_filled(folder.path());
        check_filled(folder.path());
        if line <= 5 {
            assert!(fs::read(folder.path().join("journal.jsonl.damaged")).unwrap() == damaged, "line {line}");
        } else {
            // Lines 6 to 8 are one sync: such a line cannot be told from a write that never finished.
            assert_eq!(named(folder.path(), "journal.jsonl.torn-"), 1, "line {line}");
        }
    }
}

#[test]
fn broken_line_that_the_index_cannot_give_is_refused_with_its_number() {
    for line in 1..=5 {
        let folder = filled();
        fs::remove_dir_all(folder.path().join("index")).unwrap();
        change(&journal(folder.path()), |bytes| {
            let at = start_of(bytes, line) + 20;
            bytes[at] ^= 1;
        });
        let before = fs::read(journal(folder.path())).unwrap();
        for _ in 0..2 {
            let error = DiskStore::open(folder.path()).err().unwrap();
            assert!(matches!(error, StoreError::Journal { line: l, .. } if l == line as u64), "{error}");
        }
        assert!(fs::read(journal(folder.path())).unwrap() == before, "a refusal changed the journal");
        // As the error advises: without the line the rest is there.
        change(&journal(folder.path()), |bytes| {
            let cut = start_of(bytes, line)..start_of(bytes, line + 1);
            bytes.drain(cut);
        });
        assert_eq!(all(&DiskStore::open(folder.path()).unwrap()).len(), 5);
    }
}

#[test]
fn junk_between_lines_is_taken_out_since_the_numbers_show_that_nothing_is_missing() {
    let junk: [&[u8]; 6] =
        [b"\n", b"{}\n", b"\0\0\0\0\n", b"null\n", b"\xff\xfe\n", &[b"[[[[[[[[".as_slice(); 16].concat()];
    for (with_index, junk) in [true, false].into_iter().flat_map(|i| junk.iter().map(move |j| (i, j))) {
        let folder = filled();
        if !with_index {
            fs::remove_dir_all(folder.path().join("index")).unwrap();
        }
        change(&journal(folder.path()), |bytes| {
            let at = start_of(bytes, 3);
            bytes.splice(at..at, junk.iter().copied());
        });
        if with_index || junk.ends_with(b"\n") {
            check_filled(folder.path());
        } else {
            assert!(matches!(DiskStore::open(folder.path()), Err(StoreError::Journal { line: 3, .. })));
        }
    }
}

/// The index itself. sled lets go of its lock a moment after the store is dropped.
fn index(folder: &Path) -> sled::Db {
    let patience = std::time::Instant::now() + std::time::Duration::from_secs(10);
    loop {
        match sled::open(folder.join("index")) {
            Ok(db) => return db,
            Err(error) => assert!(std::time::Instant::now() < patience, "{error}"),
        }
        std::thread::sleep(std::time::Duration::from_millis(20));
    }
}

/// Makes an index that this program does not read.
fn spoil_index(folder: &Path) {
    let db = index(folder);
    db.open_tree("meta").unwrap().insert("layout", b"9").unwrap();
    db.flush().unwrap();
}

#[test]
fn lost_journal_and_unreadable_or_empty_index_are_not_taken_for_a_new_store() {
    for emptied in [false, true] {
        let folder = filled();
        fs::remove_file(journal(folder.path())).unwrap();
        if emptied {
            fs::remove_dir_all(folder.path().join("index")).unwrap();
            fs::create_dir(folder.path().join("index")).unwrap();
        } else {
            spoil_index(folder.path());
        }
        for _ in 0..2 {
            let error = DiskStore::open(folder.path()).err().unwrap();
            assert!(matches!(error, StoreError::Lost { .. }), "{error}");
        }
    }
}

#[test]
fn journal_of_a_newer_program_is_left_alone() {
    let folder = filled();
    let line = b"{\"v\":2,\"seq\":9,\"thing\":true";
    let crc = crc32fast::hash(line);
    change(&journal(folder.path()), |bytes| {
        bytes.extend_from_slice(line);
        bytes.extend_from_slice(format!(",\"crc\":\"{crc:08x}\"}}\n").as_bytes());
    });
    let before = fs::read(journal(folder.path())).unwrap();
    assert!(matches!(DiskStore::open(folder.path()), Err(StoreError::Newer(_, 2))));
    assert!(fs::read(journal(folder.path())).unwrap() == before);
}

#[test]
fn index_of_another_store_is_set_aside_and_gives_nothing() {
    let (folder, other) = (filled(), tempfile::tempdir().unwrap());
    let mut store = DiskStore::open(other.path()).unwrap();
    for n in 11..=30 {
        store.keep(&[commit(n)], &Notes::new()).unwrap();
    }
    drop(store);
    fs::remove_dir_all(folder.path().join("index")).unwrap();
    fs::rename(other.path().join("index"), folder.path().join("index")).unwrap();
    check_filled(folder.path());
    assert_eq!(named(folder.path(), "index.aside-"), 1);
    // And the new index is as good as the first.
    fs::remove_file(journal(folder.path())).unwrap();
    check_filled(folder.path());
}

#[test]
fn index_with_another_layout_or_gaps_is_made_anew() {
    for gap in [false, true] {
        let folder = filled();
        if gap {
            let db = index(folder.path());
            db.open_tree("lines").unwrap().remove(3_u64.to_be_bytes()).unwrap();
            db.flush().unwrap();
        } else {
            spoil_index(folder.path());
        }
        check_filled(folder.path());
        assert_eq!(named(folder.path(), "index.aside-"), 1);
        fs::remove_file(journal(folder.path())).unwrap();
        check_filled(folder.path());
    }
}

#[test]
fn only_the_last_index_set_aside_is_kept() {
    let folder = filled();
    for _ in 0..3 {
        spoil_index(folder.path());
        check_filled(folder.path());
        assert_eq!(named(folder.path(), "index.aside-"), 1);
    }
}

#[test]
fn index_whose_opening_a_start_did_not_survive_is_set_aside() {
    let folder = filled();
    fs::write(folder.path().join("index.opening"), b"").unwrap();
    check_filled(folder.path());
    assert_eq!((named(folder.path(), "index.aside-"), named(folder.path(), "index.opening")), (1, 0));
}

#[test]
fn index_behind_the_journal_is_brought_up() {
    let folder = filled();
    let early = tempfile::tempdir().unwrap();
    let mut store = DiskStore::open(early.path()).unwrap();
    store.keep(&[commit(1)], &Notes::new()).unwrap();
    drop(store);
    fs::remove_dir_all(folder.path().join("index")).unwrap();
    fs::rename(early.path().join("index"), folder.path().join("index")).unwrap();
    check_filled(folder.path());
    assert_eq!(named(folder.path(), "index.aside-"), 0, "it was only late");
    fs::remove_file(journal(folder.path())).unwrap();
    check_filled(folder.path());
}

#[cfg(unix)]
#[test]
fn files_are_readable_for_their_owner_only() {
    use std::os::unix::fs::PermissionsExt;
    let folder = tempfile::tempdir().unwrap();
    let inner = folder.path().join("data");
    drop(DiskStore::open(&inner).unwrap());
    assert_eq!(fs::metadata(&inner).unwrap().permissions().mode() & 0o777, 0o700);
    assert_eq!(fs::metadata(journal(&inner)).unwrap().permissions().mode() & 0o777, 0o600);
}
