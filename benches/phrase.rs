//! How long a phrase takes to read, over the whole corpus.

#![allow(clippy::indexing_slicing, missing_docs)]

use criterion::{Criterion, Throughput, criterion_group, criterion_main};
use rackful::{
    phrase::{Context, Lexicon, read},
    zone::Zone,
};
use std::{fs, hint::black_box, path::Path};

fn corpus() -> Vec<String> {
    let data = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/data/phrases");
    let mut phrases = Vec::new();
    for entry in fs::read_dir(data).into_iter().flatten().flatten() {
        let ending = entry.path().extension().map(|ext| ext.to_string_lossy().into_owned()).unwrap_or_default();
        // Lists of what is not read as wanted, and tables, are no phrases.
        if !matches!(ending.as_str(), "jsonl" | "txt") {
            continue;
        }
        let json = ending == "jsonl";
        let lines = fs::read_to_string(entry.path()).unwrap_or_default();
        for line in lines.lines().filter(|line| !line.is_empty()) {
            let text = if json {
                serde_json::from_str::<serde_json::Value>(line)
                    .ok()
                    .and_then(|case| case["text"].as_str().map(str::to_owned))
            } else {
                Some(line.to_owned())
            };
            phrases.extend(text);
        }
    }
    phrases
}

fn bench(c: &mut Criterion) {
    let phrases = corpus();
    let lexicon = Lexicon::default();
    let now = chrono::DateTime::from_timestamp(1_786_716_300, 0).unwrap_or_default();
    let context = Context { now, zone: Zone::Named(chrono_tz::America::Chicago), lexicon: &lexicon, last: None };
    let mut group = c.benchmark_group("phrase");
    group.throughput(Throughput::Elements(phrases.len() as u64));
    group.bench_function("corpus", |b| {
        b.iter(|| {
            for phrase in &phrases {
                black_box(read(black_box(phrase), &context));
            }
        });
    });
    group.finish();
}

criterion_group!(benches, bench);
criterion_main!(benches);
