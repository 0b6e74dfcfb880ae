//! Every `keep` that returned `Ok` is there exactly once, whatever the journal's disk did.

use super::sample::{Lots, commit, number};
use super::sim::SimDisk;
use super::{all, waiting};
use rackful::store::{DiskStore, Notes, Store, StoreError};
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::{Arc, Mutex};

/// What a power cut at one sync may leave, and how many commits were accepted by then.
type Image = (u64, Vec<u8>);

/// Keeps some commits on a disk that remembers what may be left if the power goes: at each sync nothing since the last
/// one, all of it, a part, or any of its blocks; after each `keep` what is synced.
fn images_at_each_sync(seed: u64) -> Vec<Image> {
    const BLOCK: usize = 256;
    let images = Arc::new(Mutex::new(Vec::new()));
    let accepted = Arc::new(AtomicU64::new(0));
    let disk = SimDisk::default();
    let mut lots = Lots(seed);
    let (to, by) = (images.clone(), accepted.clone());
    disk.inner().at_sync = Some(Box::new(move |synced, cache| {
        let mut left = vec![synced.to_vec(), cache.to_vec()];
        left.push(cache[..synced.len() + lots.below((cache.len() - synced.len()) as u64) as usize].to_vec());
        for _ in 0..8 {
            let mut holed = cache.to_vec();
            for (index, block) in holed.chunks_mut(BLOCK).enumerate() {
                let lost = lots.below(3) == 0;
                for (at, byte) in block.iter_mut().enumerate().filter(|(at, _)| index * BLOCK + at >= synced.len()) {
                    *byte = if lost { [0, 0x5A, b'\n'][(at + index) % 3] * u8::from(index % 2 == 0) } else { *byte };
                }
            }
            left.push(holed);
        }
        let mut images = to.lock().unwrap();
        images.extend(left.into_iter().map(|image| (by.load(Ordering::SeqCst), image)));
    }));
    let folder = tempfile::tempdir().unwrap();
    let mut store = DiskStore::open_on(folder.path(), Box::new(disk.clone())).unwrap();
    let mut lots = Lots(!seed);
    let mut n = 0;
    for round in 0..12 {
        let commits: Vec<_> = (0..1 + lots.below(4)).map(|i| commit(n + 1 + i)).collect();
        store.keep(&commits, &Notes::from([("token".into(), Some(format!("s{round}")))])).unwrap();
        n += commits.len() as u64;
        accepted.store(n, Ordering::SeqCst);
        images.lock().unwrap().push((n, disk.inner().synced.clone()));
        for _ in 0..lots.below(3) {
            store.sent(&commit(1 + lots.below(n)).out[0].key).unwrap();
        }
    }
    std::mem::take(&mut *images.lock().unwrap())
}

#[test]
fn power_cut_at_each_sync_in_turn_leaves_every_accepted_commit_once() {
    for seed in 0..3 {
        for (accepted, image) in images_at_each_sync(seed) {
            let folder = tempfile::tempdir().unwrap();
            let store = DiskStore::open_on(folder.path(), Box::new(SimDisk::holding(&image)))
                .unwrap_or_else(|error| panic!("seed {seed}, after {accepted}: {error}"));
            let found: Vec<_> = all(&store).iter().map(number).collect();
            assert_eq!(found, (1..=found.len() as u64).collect::<Vec<_>>(), "seed {seed}, after {accepted}");
            assert!(found.len() as u64 >= accepted, "seed {seed}, after {accepted}: {}", found.len());
        }
    }
}

#[test]
fn opening_syncs_what_a_killed_process_left_in_the_cache() {
    let (folder, disk) = (tempfile::tempdir().unwrap(), SimDisk::default());
    let mut store = DiskStore::open_on(folder.path(), Box::new(disk.clone())).unwrap();
    store.keep(&[commit(1)], &Notes::new()).unwrap();
    drop(store);
    disk.inner().synced.clear();
    let store = DiskStore::open_on(folder.path(), Box::new(disk.clone())).unwrap();
    assert_eq!(store.outbox().unwrap().len(), 1);
    let sim = disk.inner();
    assert!(sim.synced == sim.cache, "a message would go out for a commit that the disk does not have");
}

#[test]
fn failed_write_leaves_the_journal_as_it_was_and_the_next_one_works() {
    let length = {
        let folder = tempfile::tempdir().unwrap();
        let disk = SimDisk::default();
        DiskStore::open_on(folder.path(), Box::new(disk.clone())).unwrap().keep(&[commit(2)], &Notes::new()).unwrap();
        disk.inner().cache.len()
    };
    let folder = tempfile::tempdir().unwrap();
    let disk = SimDisk::default();
    let mut store = DiskStore::open_on(folder.path(), Box::new(disk.clone())).unwrap();
    store.keep(&[commit(1)], &Notes::new()).unwrap();
    let before = disk.inner().cache.clone();
    for at in (0..=length).step_by(7).map(Some).chain([None]) {
        match at {
            Some(at) => disk.inner().append_fails_at = Some(at),
            None => disk.inner().sync_fails = true,
        }
        let error = store.keep(&[commit(2)], &Notes::from([("token".into(), Some("s1".into()))])).unwrap_err();
        assert!(matches!(error, StoreError::Io { .. }), "{error}");
        assert_eq!(disk.inner().cache, before, "failed at {at:?}");
        assert_eq!((all(&store).len(), waiting(&store).len(), store.note("token").unwrap()), (1, 1, None));
    }
    store.keep(&[commit(2)], &Notes::new()).unwrap();
    drop(store);
    let store = DiskStore::open_on(folder.path(), Box::new(disk)).unwrap();
    assert_eq!(all(&store), [commit(1), commit(2)]);
}

#[test]
fn what_a_failed_write_left_is_never_read_even_if_it_cannot_be_cut() {
    let folder = tempfile::tempdir().unwrap();
    let disk = SimDisk::default();
    let mut store = DiskStore::open_on(folder.path(), Box::new(disk.clone())).unwrap();
    store.keep(&[commit(1)], &Notes::new()).unwrap();
    let whole = disk.inner().cache.len();
    (disk.inner().sync_fails, disk.inner().truncate_fails) = (true, 2);
    store.keep(&[commit(2)], &Notes::new()).unwrap_err();
    assert!(disk.inner().cache.len() > whole, "the sim did not leave anything");
    assert_eq!(all(&store), [commit(1)]);
    store.keep(&[commit(3)], &Notes::new()).unwrap_err();
    store.keep(&[commit(4)], &Notes::new()).unwrap();
    assert_eq!(all(&store), [commit(1), commit(4)]);
    drop(store);
    let store = DiskStore::open_on(folder.path(), Box::new(disk)).unwrap();
    assert_eq!(all(&store), [commit(1), commit(4)]);
}

/// Random operations under a failing disk, against what they should add up to.
#[test]
fn random_failures_against_a_model() {
    for seed in 0..40 {
        let mut lots = Lots(seed);
        let folder = tempfile::tempdir().unwrap();
        let disk = SimDisk::default();
        let mut store = DiskStore::open_on(folder.path(), Box::new(disk.clone())).unwrap();
        let (mut kept, mut out, mut failed, mut n) = (Vec::new(), Vec::new(), Vec::new(), 0);
        for _ in 0..40 {
            match lots.below(8) {
                0 => disk.inner().append_fails_at = Some(lots.below(3_000) as usize),
                1 => disk.inner().sync_fails = true,
                2 => disk.inner().truncate_fails = lots.below(3) as u32,
                3 => {
                    // A crash of the process: the cache survives it, and the failures planned are over.
                    let cache = disk.inner().cache.clone();
                    drop(store);
                    let left = SimDisk::holding(&cache);
                    store = DiskStore::open_on(folder.path(), Box::new(left.clone())).unwrap();
                    *disk.inner() = std::mem::take(&mut *left.inner());
                    drop(store);
                    store = DiskStore::open_on(folder.path(), Box::new(disk.clone())).unwrap();
                    let found = all(&store);
                    assert!(found.starts_with(&kept), "seed {seed}");
                    // What failed and could not be cut off may be there: it was never answered.
                    out.extend(found[kept.len()..].iter().map(|c| c.out[0].key.clone()));
                    kept = found;
                    // So may a `sent` that failed: the message had gone out.
                    let waits = waiting(&store);
                    out.retain(|key| waits.contains(key) || !failed.contains(key));
                }
                4 if !out.is_empty() => {
                    let key: String = out[lots.below(out.len() as u64) as usize].clone();
                    match store.sent(&key) {
                        Ok(()) => out.retain(|k| *k != key),
                        Err(_) => failed.push(key),
                    }
                }
                _ => {
                    let commits: Vec<_> = (0..1 + lots.below(3)).map(|i| commit(n + i)).collect();
                    n += commits.len() as u64;
                    if store.keep(&commits, &Notes::new()).is_ok() {
                        out.extend(commits.iter().map(|c| c.out[0].key.clone()));
                        kept.extend(commits);
                    }
                }
            }
            assert_eq!(all(&store), kept, "seed {seed}");
            assert_eq!(waiting(&store), out, "seed {seed}");
        }
    }
}
