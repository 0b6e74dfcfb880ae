//! What durability costs: `keep` of one commit against one raw write and `fdatasync` of the same bytes to a file in the
//! same folder. Aim: at least 0.9 of the raw rate. The two take turns within each measurement, since a disk's speed
//! drifts by more than they differ.

#![allow(clippy::unwrap_used, clippy::indexing_slicing, clippy::string_slice, missing_docs)]

#[path = "../tests/it/store/sample.rs"]
mod sample;

use criterion::{Criterion, criterion_group, criterion_main};
use rackful::store::{DiskStore, Notes, Store};
use sample::commit;
use std::fs::{File, OpenOptions};
use std::io::Write;
use std::path::Path;
use std::time::{Duration, Instant};

/// Both sides, at work in one folder.
struct Race {
    store: DiskStore,
    raw: File,
    journal: std::path::PathBuf,
    n: u64,
}

impl Race {
    fn new(folder: &Path) -> Self {
        let store = DiskStore::open(folder).unwrap();
        let raw = OpenOptions::new().append(true).create(true).open(folder.join("raw")).unwrap();
        Self { store, raw, journal: folder.join("journal.jsonl"), n: 0 }
    }

    /// One turn of each: what `keep` took, and what the raw write of as many bytes took.
    fn turn(&mut self) -> (Duration, Duration) {
        self.n += 1;
        let commit = commit(self.n);
        let before = self.journal.metadata().unwrap().len();
        let start = Instant::now();
        self.store.keep(std::slice::from_ref(&commit), &Notes::new()).unwrap();
        let kept = start.elapsed();
        let bytes = vec![b'x'; usize::try_from(self.journal.metadata().unwrap().len() - before).unwrap()];
        let start = Instant::now();
        self.raw.write_all(&bytes).unwrap();
        self.raw.sync_data().unwrap();
        let raw = start.elapsed();
        self.store.sent(&commit.out[0].key).unwrap();
        (kept, raw)
    }

    fn turns(&mut self, turns: u64) -> (Duration, Duration) {
        (0..turns).map(|_| self.turn()).fold(Default::default(), |sum, turn| (sum.0 + turn.0, sum.1 + turn.1))
    }
}

fn append(criterion: &mut Criterion) {
    // Beside the build, not in the system's temporary folder: that can be memory.
    let folder = tempfile::tempdir_in(env!("CARGO_TARGET_TMPDIR")).unwrap();
    let mut race = Race::new(folder.path());
    let mut group = criterion.benchmark_group("append");
    group.bench_function("keep", |bench| bench.iter_custom(|turns| race.turns(turns).0));
    group.bench_function("raw write and fdatasync", |bench| bench.iter_custom(|turns| race.turns(turns).1));
    group.finish();
    let mut ratios: Vec<_> =
        (0..20).map(|_| race.turns(200)).map(|(kept, raw)| raw.as_secs_f64() / kept.as_secs_f64()).collect();
    ratios.sort_by(f64::total_cmp);
    println!(
        "keep reaches {:.2} of the raw rate (middle of 20 rounds; {:.2} to {:.2})",
        ratios[10], ratios[0], ratios[19]
    );
}

criterion_group!(benches, append);
criterion_main!(benches);
