//! Learns what features of a phrase weigh, and says how well what was learned does on writers that it did not see.

mod compare;
mod corpus;
mod look;
mod model;
mod outcome;

use compare::same_statements;
use corpus::Line;
use model::{Example, Features, Plan, Reading, example, readings, train};
use rackful::phrase::training;
use serde_json::Value;
use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::path::Path;

fn plan() -> Plan {
    let of = |name: &str, default: f32| std::env::var(name).ok().and_then(|n| n.parse().ok()).unwrap_or(default);
    Plan {
        epochs: of("EPOCHS", 12.0) as usize,
        rate: of("RATE", 0.12),
        l2: of("L2", 3e-4),
        seed: 7,
        dropout: of("DROPOUT", 0.0),
        all: of("DROPALL", 0.0) > 0.0,
    }
}

fn main() {
    let args: Vec<String> = std::env::args().skip(1).collect();
    let command = args.first().map_or("reach", String::as_str);
    let mut lines = Vec::new();
    for folder in args.iter().skip(1).filter(|arg| Path::new(arg).is_dir()) {
        corpus::load(Path::new(folder), &mut lines);
    }
    let share: f32 = std::env::var("JOIN")
        .ok()
        .and_then(|n| n.parse().ok())
        .unwrap_or(if command == "train" || command == "fold" { 3.0 } else { 0.0 });
    for round in 0..share.ceil() as u64 {
        corpus::join(&mut lines, share, round);
    }
    if share > 0.0 {
        corpus::with_open_batch(&mut lines, 0.3);
    }
    if command == "look" {
        look::look(&lines);
        return;
    }
    let mut features = Features::default();
    let start = std::time::Instant::now();
    let examples: Vec<Example> =
        lines.iter().enumerate().map(|(n, line)| example(n, line, &mut features, weight(line))).collect();
    eprintln!("{} lines, {} features, {:.1} s", lines.len(), features.keys.len(), start.elapsed().as_secs_f32());
    match command {
        "reach" => reach(&lines, &examples),
        "fold" => fold(&lines, &examples, &features),
        "train" => write(&examples, &features, &lines),
        "triggers" => triggers(&examples, &features),
        other => eprintln!("no command {other}"),
    }
}

/// How much a line counts: the older silent corpora are near misses by design, and half of all lines.
fn weight(line: &Line) -> f32 {
    if line.joined {
        return std::env::var("JOINW").ok().and_then(|n| n.parse().ok()).unwrap_or(0.5);
    }
    // What the program itself tells people to say must be understood without a doubt.
    if line.writer == "kitchen" {
        return 6.0;
    }
    let old = line.wanted.is_empty() && !line.natural && !line.writer.starts_with('w');
    let factor = |name: &str, default: f32| std::env::var(name).ok().and_then(|n| n.parse().ok()).unwrap_or(default);
    if old {
        factor("OLD_SILENT", 0.25)
    } else if line.wanted.is_empty() {
        factor("TALKW", 1.0)
    } else {
        factor("TOLDW", 1.0)
    }
}

fn json(values: &[Value]) -> String {
    serde_json::to_string(values).unwrap_or_default()
}

/// Which wanted statements no way makes.
fn reach(lines: &[Line], examples: &[Example]) {
    let mut by: BTreeMap<&str, (usize, usize)> = BTreeMap::new();
    for example in examples {
        let line = &lines[example.line];
        let count = by.entry(&line.writer).or_default();
        if line.wanted.is_empty() {
            continue;
        }
        count.1 += 1;
        if example.reachable {
            count.0 += 1;
            continue;
        }
        println!("{}: {}\n   wants {}", line.writer, line.text, json(&line.wanted));
        let mut seen = Vec::new();
        for edge in example.edges.iter().filter(|edge| !edge.statements.is_empty()) {
            let kinds: Vec<&str> = line.wanted.iter().filter_map(|s| s["kind"].as_str()).collect();
            let near = edge.statements.iter().any(|s| s["kind"].as_str().is_some_and(|kind| kinds.contains(&kind)));
            let said = json(&edge.statements);
            if near && !seen.contains(&said) {
                println!("   makes {said}");
                seen.push(said);
            }
        }
    }
    let (right, all) = by.values().fold((0, 0), |sum, one| (sum.0 + one.0, sum.1 + one.1));
    for (writer, (right, all)) in &by {
        if *all > 0 {
            println!("reach {writer}: {right} of {all}");
        }
    }
    println!("reach all: {right} of {all} = {:.1} %", 100.0 * right as f32 / all.max(1) as f32);
}

/// Folds by writer: what was learned from others.
fn fold(lines: &[Line], examples: &[Example], features: &Features) {
    let folds: usize = std::env::var("FOLDS").ok().and_then(|n| n.parse().ok()).unwrap_or(7);
    let mut writers: Vec<&str> = lines.iter().map(|line| line.writer.as_str()).collect();
    writers.sort();
    writers.dedup();
    let fold_of = |writer: &str| writers.iter().position(|w| *w == writer).unwrap_or(0) % folds;
    let mut results: Vec<(usize, Vec<Reading>)> = Vec::new();
    let trained: Vec<Vec<f32>> = std::thread::scope(|scope| {
        let jobs: Vec<_> = (0..folds)
            .map(|fold| {
                scope.spawn(move || {
                    let others: Vec<&Example> =
                        examples.iter().filter(|e| fold_of(&lines[e.line].writer) != fold).collect();
                    learn(&others, &features.keys)
                })
            })
            .collect();
        jobs.into_iter().map(|job| job.join().expect("training")).collect()
    });
    for (fold, weights) in trained.iter().enumerate() {
        for example in examples.iter().filter(|e| fold_of(&lines[e.line].writer) == fold) {
            results.push((example.line, readings(example, weights)));
        }
    }
    results.sort_by_key(|(line, _)| *line);
    if let Ok(place) = std::env::var("READINGS") {
        let mut out = String::new();
        for (n, readings) in &results {
            let line = &lines[*n];
            let ok = readings
                .iter()
                .find(|r| !r.statements.is_empty())
                .is_some_and(|r| same_statements(&line.wanted, &r.statements, line.wants));
            let said: Vec<Value> =
                readings.iter().take(6).map(|r| serde_json::json!([r.probability, r.statements])).collect();
            let row = serde_json::json!({
                "t": line.text, "f": line.writer, "w": line.wanted, "g": line.group, "ok": ok, "r": said,
            });
            let _ = writeln!(out, "{row}");
        }
        std::fs::write(place, out).expect("readings");
    }
    report(lines, &results, examples);
    let cases = outcome::cases(lines, &results);
    let chosen = outcome::choose(&cases);
    outcome::report(&cases, &chosen);
    if std::env::var("SHOW").unwrap_or_default().contains("outcome") {
        outcome::show(lines, &results, &cases, &chosen);
    }
    if let Ok(place) = std::env::var("THRESHOLDS") {
        std::fs::write(place, outcome::file(&chosen)).expect("the thresholds file");
    }
}

fn report(lines: &[Line], results: &[(usize, Vec<Reading>)], examples: &[Example]) {
    let verbose = std::env::var("SHOW").unwrap_or_default();
    let only = std::env::var("ONLY").unwrap_or_default();
    let mut first = (0, 0);
    let mut by: BTreeMap<&str, [usize; 4]> = BTreeMap::new();
    let mut told: Vec<(f32, bool)> = Vec::new();
    let mut talk: Vec<f32> = Vec::new();
    for (n, readings) in results.iter().filter(|(n, _)| !lines[*n].joined) {
        let line = &lines[*n];
        let best = readings.first();
        if line.wanted.is_empty() {
            let said = readings.iter().filter(|r| !r.statements.is_empty()).map(|r| r.probability).fold(0.0, f32::max);
            talk.push(said);
            if verbose.contains("talk") && said > 0.5 && line.writer.starts_with(&only) {
                println!(
                    "talk {:.2} {}: {}\n   reads {}",
                    said,
                    line.writer,
                    line.text,
                    json(&best.map_or(Vec::new(), |b| b.statements.clone()))
                );
            }
            let count = by.entry(&line.writer).or_default();
            count[3] += 1;
            count[2] += usize::from(best.is_some_and(|b| !b.statements.is_empty() && b.probability > 0.7));
            continue;
        }
        let right = best.is_some_and(|best| same_statements(&line.wanted, &best.statements, line.wants));
        first.1 += 1;
        first.0 += usize::from(right);
        let count = by.entry(&line.writer).or_default();
        count[1] += 1;
        count[0] += usize::from(right);
        let said = readings.iter().find(|r| !r.statements.is_empty());
        if let Some(said) = said {
            told.push((said.probability, same_statements(&line.wanted, &said.statements, line.wants)));
        } else {
            told.push((0.0, false));
        }
        if verbose.contains("miss") && !right && line.writer.starts_with(&only) {
            let reachable = examples[*n].reachable;
            println!(
                "{} {}: {}\n   wants {}",
                if reachable { "misranked" } else { "unreachable" },
                line.writer,
                line.text,
                json(&line.wanted)
            );
            for reading in readings.iter().take(3) {
                println!("   {:.2} {}", reading.probability, json(&reading.statements));
            }
        }
    }
    talk.sort_by(|a, b| b.total_cmp(a));
    for share in [0.005, 0.01, 0.02, 0.05] {
        let limit = talk.get((talk.len() as f32 * share) as usize).copied().unwrap_or(0.0);
        let exact = told.iter().filter(|(p, right)| *right && *p > limit).count();
        let wrong = told.iter().filter(|(p, right)| !*right && *p > limit).count();
        println!(
            "with {:.1} % of talk answered (p > {limit:.2}): exact {:.1} %, other {:.1} %",
            100.0 * share,
            100.0 * exact as f32 / told.len() as f32,
            100.0 * wrong as f32 / told.len() as f32
        );
    }
    if verbose.contains("by") {
        for (writer, [right, all, false_, talk]) in &by {
            println!("{writer}: {right} of {all}; talk {false_} of {talk}");
        }
    }
    println!("first {} of {} = {:.2} %", first.0, first.1, 100.0 * first.0 as f32 / first.1 as f32);
}

/// Learns with all features, then again with those that weighed most.
fn learn(examples: &[&Example], keys: &[training::Key]) -> Vec<f32> {
    let full = train(examples, keys, None, plan());
    let Some(keep) = std::env::var("KEEP").ok().and_then(|n| n.parse::<usize>().ok()) else { return full };
    let allowed = heaviest(examples, &full, keep);
    train(examples, keys, Some(&allowed), plan())
}

/// Which features are kept: those that weigh most where they stand most.
fn heaviest(examples: &[&Example], full: &[f32], keep: usize) -> Vec<bool> {
    let mut count = vec![0_usize; full.len()];
    for example in examples {
        for edge in &example.edges {
            edge.features.iter().for_each(|f| count[*f as usize] += 1);
            edge.follows.iter().flatten().for_each(|f| count[*f as usize] += 1);
        }
    }
    let mut order: Vec<usize> = (0..full.len()).collect();
    let worth = |f: &usize| full[*f].abs() * (count[*f] as f32).sqrt();
    order.sort_by(|a, b| worth(b).total_cmp(&worth(a)));
    let mut allowed = vec![false; full.len()];
    order.iter().take(keep).for_each(|f| allowed[*f] = true);
    allowed
}

fn write(examples: &[Example], features: &Features, lines: &[Line]) {
    let all: Vec<&Example> = examples.iter().collect();
    let weights = learn(&all, &features.keys);
    let mut rows: Vec<(String, f32)> = (0..weights.len())
        .filter(|f| weights[*f].abs() > 0.005)
        .map(|f| (training::name_of(features.keys[f]), weights[f]))
        .collect();
    rows.sort_by(|a, b| a.0.cmp(&b.0));
    let mut out = "feature,weight\n".to_owned();
    for (name, weight) in &rows {
        let _ = writeln!(out, "{name},{weight:.3}");
    }
    let place = std::env::var("OUT").unwrap_or_else(|_| "weights.csv".to_owned());
    std::fs::write(&place, out).expect("the weights file");
    let results: Vec<(usize, Vec<Reading>)> = examples.iter().map(|e| (e.line, readings(e, &weights))).collect();
    println!("{} weights", rows.len());
    report(lines, &results, examples);
}

/// How often each trigger stands in a way that says what is wanted, and how often in any.
fn triggers(examples: &[Example], features: &Features) {
    let weights = train(&examples.iter().collect::<Vec<_>>(), &features.keys, None, plan());
    let mut counts: BTreeMap<String, (f32, f32)> = BTreeMap::new();
    for example in examples {
        let scores = model::scores(example, &weights);
        let (_, gold) = model::constrained(example, &scores, &weights);
        let mut right = vec![0.0_f32; example.edges.len()];
        gold.iter().for_each(|(n, _, likely)| right[*n] += likely);
        for (edge, right) in example.edges.iter().zip(right) {
            if let Some(name) = &edge.trigger {
                let count = counts.entry(name.clone()).or_default();
                count.0 += right;
                count.1 += 1.0;
            }
        }
    }
    for (name, (right, all)) in counts {
        println!("{right:.1}\t{all}\t{name}");
    }
}
