//! Stores: one suite for all of them, then what only a disk can do to one.

#![allow(clippy::unwrap_used)]

mod disk_faults;
mod mending;
pub(crate) mod sample;
mod sim;
mod snapshots;
mod suite;

use rackful::assistant::Commit;
use rackful::store::Store;

/// All commits of a store.
pub(crate) fn all(store: &dyn Store) -> Vec<Commit> {
    let mut commits = Vec::new();
    store.each(&mut |commit| commits.push(commit)).unwrap();
    commits
}

/// The keys of its outbox.
pub(crate) fn waiting(store: &dyn Store) -> Vec<String> {
    store.outbox().unwrap().into_iter().map(|out| out.key).collect()
}
