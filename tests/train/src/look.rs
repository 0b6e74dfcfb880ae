//! A look: lines that nothing was learned from, read by the program as it is.

use crate::compare::same_statements;
use crate::corpus::Line;
use rackful::phrase::{Context, read};
use serde_json::Value;
use std::collections::BTreeMap;

/// What became of a line.
fn outcome(line: &Line, got: &[Value]) -> &'static str {
    let kind = |value: &Value| value["kind"].as_str().unwrap_or_default().to_owned();
    let proposal = got.iter().find(|said| kind(said) == "propose");
    let inner: Vec<Value> =
        proposal.map_or_else(|| got.to_vec(), |said| said["statements"].as_array().cloned().unwrap_or_default());
    let enters = got.iter().any(|said| !matches!(kind(said).as_str(), "ask" | "clarify" | "propose"));
    match line.group.as_str() {
        "talk" if got.is_empty() => "talk: silent",
        "talk" if enters => "talk: ENTERED",
        "talk" => "talk: answered",
        "unfinished" if same_statements(&line.wanted, &inner, line.wants) => "unfinished: fitting",
        "unfinished" => "unfinished: other",
        _ if same_statements(&line.wanted, &inner, line.wants) => {
            if proposal.is_some() {
                "told: exact, proposed"
            } else {
                "told: exact"
            }
        }
        _ if got.is_empty() => "told: silent",
        _ if proposal.is_some() => "told: other proposed",
        _ if enters => "told: WRONG",
        _ => "told: other asked",
    }
}

/// Counts what becomes of the lines, and prints those of the outcomes that contain `SHOW`.
pub fn look(lines: &[Line]) {
    let show = std::env::var("SHOW").ok();
    let mut counts: BTreeMap<(String, &str), usize> = BTreeMap::new();
    for line in lines {
        let context = Context { now: line.now, zone: line.zone, lexicon: &line.lexicon, last: None };
        let reading = read(&line.text, &context);
        let got: Vec<Value> =
            reading.statements.iter().map(|s| serde_json::to_value(s).expect("a statement")).collect();
        let outcome = outcome(line, &got);
        for writer in [line.writer.clone(), "all".to_owned()] {
            *counts.entry((writer, outcome)).or_default() += 1;
        }
        if show.as_ref().is_some_and(|show| outcome.contains(show.as_str())) {
            let said = serde_json::to_string(&got).unwrap_or_default();
            println!(
                "{outcome} {}: {}\n   wants {}\n   gets  {said}",
                line.writer,
                line.text,
                serde_json::to_string(&line.wanted).unwrap_or_default()
            );
        }
    }
    let of = |writer: &str, group: &str| -> usize {
        counts.iter().filter(|((w, o), _)| w == writer && o.starts_with(group)).map(|(_, n)| n).sum()
    };
    let mut writers: Vec<&String> = counts.keys().map(|(writer, _)| writer).collect();
    writers.dedup();
    for writer in writers {
        if std::env::var("BY").is_err() && writer != "all" {
            continue;
        }
        for ((_, outcome), n) in counts.iter().filter(|((w, _), _)| w == writer) {
            let group = outcome.split(':').next().unwrap_or_default();
            println!(
                "{writer} {outcome} {n} of {} = {:.1} %",
                of(writer, group),
                100.0 * *n as f32 / of(writer, group) as f32
            );
        }
    }
}
