//! What every store does.

use super::sample::commit;
use super::{all, waiting};
use rackful::ledger::MessageId;
use rackful::store::{DiskStore, MemoryStore, Notes, Store, StoreError, Told};
use std::collections::BTreeSet;

/// Runs every check on a store; `again` closes and opens it, where that means something.
fn suite(mut store: Box<dyn Store>, again: &mut dyn FnMut(Box<dyn Store>) -> Box<dyn Store>) {
    assert!(all(&*store).is_empty() && waiting(&*store).is_empty());
    assert_eq!(store.note("token").unwrap(), None);

    // Commits and what they send come back in the order kept.
    let first: Vec<_> = (1..=3).map(commit).collect();
    store.keep(&first, &note("token", "s1")).unwrap();
    store = again(store);
    assert_eq!(all(&*store), first);
    assert_eq!(store.outbox().unwrap(), first.iter().flat_map(|c| c.out.clone()).collect::<Vec<_>>());
    assert_eq!(store.note("token").unwrap().as_deref(), Some("s1"));

    // What was sent waits no longer; an unknown key, or one sent before, does nothing.
    let key = |n: u64| commit(n).out[0].key.clone();
    for sent in [&key(2), &key(2), "never heard of"] {
        store.sent(sent).unwrap();
    }
    store = again(store);
    assert_eq!(waiting(&*store), [key(1), key(3)]);
    assert_eq!(all(&*store), first);

    // What was sent is known by the id that it got, and by what brought it about when it answers nothing.
    let mut alert = commit(9);
    alert.out[0].re = None;
    alert.out[0].alert = Some("load-ready".into());
    store.keep(&[commit(8), alert.clone()], &Notes::new()).unwrap();
    store.sent_as(&key(8), Some(&MessageId::new("$said8"))).unwrap();
    store.sent_as(&key(9), Some(&MessageId::new("$said9"))).unwrap();
    store = again(store);
    let told = |id: &str| store.told(&MessageId::new(id)).unwrap();
    assert_eq!(told("$said8"), Some(Told { about: commit(8).message, alert: None }));
    assert_eq!(told("$said9"), Some(Told { about: alert.message, alert: Some("load-ready".into()) }));
    assert_eq!(told("$other"), None);

    // Notes alone, changed, unchanged and removed.
    let mut notes = note("token", "s2");
    notes.insert("unread".into(), Some("$x".into()));
    store.keep(&[], &notes).unwrap();
    store.keep(&[], &notes).unwrap();
    store.keep(&[], &Notes::from([("unread".into(), None), ("never".into(), None)])).unwrap();
    store = again(store);
    assert_eq!(store.note("token").unwrap().as_deref(), Some("s2"));
    assert_eq!((store.note("unread").unwrap(), store.note("never").unwrap()), (None, None));

    // Several messages of one commit keep their order, and each is sent by itself.
    let mut many = commit(4);
    many.out = (40..43).flat_map(|n| commit(n).out).collect();
    store.keep(&[many], &Notes::new()).unwrap();
    store.sent(&key(41)).unwrap();
    store = again(store);
    assert_eq!(waiting(&*store), [key(1), key(3), key(40), key(42)]);

    // Adopted commits send nothing but what still waits.
    let adopted: Vec<_> = (5..8).map(commit).collect();
    store.adopt(&adopted, &BTreeSet::from([key(6), key(1)])).unwrap();
    store.adopt(&[], &BTreeSet::new()).unwrap();
    store = again(store);
    assert_eq!(waiting(&*store), [key(1), key(3), key(40), key(42), key(6)]);
    assert_eq!(all(&*store).len(), 9);
    assert_eq!(all(&*store)[6..], adopted);
}

fn note(name: &str, value: &str) -> Notes {
    Notes::from([(name.into(), Some(value.into()))])
}

#[test]
fn memory_store_does_what_stores_do() {
    suite(Box::new(MemoryStore::new()), &mut |store| store);
}

#[test]
fn disk_store_does_what_stores_do() {
    let folder = tempfile::tempdir().unwrap();
    suite(Box::new(DiskStore::open(folder.path()).unwrap()), &mut |store| store);
}

#[test]
fn disk_store_does_so_when_closed_and_opened_after_each_step() {
    let folder = tempfile::tempdir().unwrap();
    suite(Box::new(DiskStore::open(folder.path()).unwrap()), &mut |store| {
        drop(store);
        Box::new(DiskStore::open(folder.path()).unwrap())
    });
}

#[test]
fn disk_store_does_so_without_its_index() {
    let folder = tempfile::tempdir().unwrap();
    suite(Box::new(DiskStore::open(folder.path()).unwrap()), &mut |store| {
        drop(store);
        std::fs::remove_dir_all(folder.path().join("index")).unwrap();
        Box::new(DiskStore::open(folder.path()).unwrap())
    });
}

#[test]
fn a_store_in_use_is_locked_until_it_is_closed() {
    let folder = tempfile::tempdir().unwrap();
    let store = DiskStore::open(folder.path()).unwrap();
    let second = DiskStore::open(folder.path()).err().unwrap();
    assert!(matches!(&second, StoreError::Locked(path) if path == folder.path()), "{second}");
    assert!(matches!(rackful::store::inspect(folder.path()), Err(StoreError::Locked(_))));
    drop(store);
    DiskStore::open(folder.path()).unwrap();
}

#[test]
fn a_look_changes_nothing() {
    let folder = tempfile::tempdir().unwrap();
    assert_eq!(rackful::store::inspect(&folder.path().join("none")).unwrap(), None);
    let mut store = DiskStore::open(folder.path()).unwrap();
    store.keep(&[commit(1), commit(2)], &note("token", "s1")).unwrap();
    drop(store);
    let journal = folder.path().join("journal.jsonl");
    let mut bytes = std::fs::read(&journal).unwrap();
    bytes.extend_from_slice(b"{\"v\":1,\"se");
    std::fs::write(&journal, &bytes).unwrap();
    let seen = rackful::store::inspect(folder.path()).unwrap().unwrap();
    assert_eq!((seen.commits, seen.records, seen.torn), (2, 3, 10));
    assert_eq!(std::fs::read(&journal).unwrap(), bytes);
}
