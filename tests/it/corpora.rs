//! Phrases as people type them, against what they say: `tests/data/phrases`.
//!
//! - `*.ok.jsonl` and `*.clarify.jsonl`: a phrase and its statements a line, in all their fields; `*.silent.txt`: talk
//!   that must give none.
//! - `household/`, `writers/`: lines of people who had seen neither the grammar nor its phrases, with the fields that a
//!   careful reader would enter.
//! - `talk/`: whole evenings of family rooms.
//!
//! A line may name the household's open `batches`, the `closed` ones and its `recipes`, how many jars wait `unsealed`,
//! when its `timer` rings and which days are `planned`. A quantity may be written as a string with its unit.
//!
//! What is not read as wanted stands in `known.tsv`, exactly: a line that is read rightly must be taken off it.
//! `RACKFUL_ACCEPT=1` writes it anew.

use crate::compare::{Wants, same_statements};
use chrono::{DateTime, Utc};
use rackful::phrase::{Context, Lexicon, read};
use rackful::zone::Zone;
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};
use std::{fs, path::Path, path::PathBuf};

/// When the phrases of the first corpora were said, and when those of the writers.
pub(crate) const MORNING: &str = "2026-08-14T09:05:00-05:00";
const EVENING: &str = "2026-08-14T18:30:00-05:00";

fn data() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/data/phrases")
}

pub(crate) fn at(now: &str) -> (DateTime<Utc>, Zone) {
    let now = DateTime::parse_from_rfc3339(now).unwrap();
    (now.to_utc(), Zone::Fixed(*now.offset()))
}

pub(crate) fn lexicon(case: &Value) -> Lexicon {
    let list = |field: &str| serde_json::from_value(case[field].clone()).unwrap_or_default();
    Lexicon {
        batches: list("batches"),
        closed: list("closed"),
        recipes: list("recipes"),
        planned: serde_json::from_value(case["planned"].clone()).unwrap_or_default(),
        unsealed: case["unsealed"].as_u64().unwrap_or_default() as u32,
        timer: case["timer"].as_str().map(|ends| at(ends).0),
        ..Lexicon::default()
    }
}

/// What became of a line.
fn outcome(case: &Value, wants: Wants) -> &'static str {
    let text = case["text"].as_str().or(case["say"].as_str()).unwrap();
    let wanted = case["statements"].as_array().or(case["want"].as_array()).unwrap();
    let (now, zone) = at(case["at"].as_str().unwrap_or(if wants == Wants::AllFields { MORNING } else { EVENING }));
    let lexicon = lexicon(case);
    let said = read(text, &Context { now, zone, lexicon: &lexicon, last: None }).statements;
    let got: Vec<Value> = said.iter().map(|said| serde_json::to_value(said).unwrap()).collect();
    let kind = |said: &Value| said["kind"].as_str().unwrap_or_default().to_owned();
    let proposal = got.iter().find(|said| kind(said) == "propose");
    let inner = proposal.map_or_else(|| got.clone(), |said| said["statements"].as_array().cloned().unwrap_or_default());
    let enters = got.iter().any(|said| !matches!(kind(said).as_str(), "ask" | "clarify" | "propose"));
    match () {
        () if same_statements(wanted, &inner, wants) && (proposal.is_none() || wants == Wants::GivenFields) => "right",
        () if same_statements(wanted, &inner, wants) => "proposed",
        () if got.is_empty() => "silent",
        () if proposal.is_some() => "other proposed",
        () if enters => "other entered",
        () => "other asked",
    }
}

/// All lines, by file, with what became of each that is not read as wanted.
fn faults() -> (usize, BTreeMap<(String, String), &'static str>) {
    let mut faults = BTreeMap::new();
    let mut count = 0;
    let mut judge = |file: &Path, case: &Value, wants: Wants| {
        count += 1;
        let outcome = outcome(case, wants);
        if outcome != "right" {
            let name = file.strip_prefix(data()).unwrap().to_string_lossy().into_owned();
            let text = case["text"].as_str().or(case["say"].as_str()).unwrap().replace(['\t', '\n'], " ");
            faults.insert((name, text), outcome);
        }
    };
    for file in files(&data()) {
        let name = file.to_string_lossy().into_owned();
        let text = fs::read_to_string(&file).unwrap();
        let lines = text.lines().filter(|line| !line.trim().is_empty());
        if name.ends_with(".silent.txt") {
            lines.for_each(|line| judge(&file, &serde_json::json!({"text": line, "statements": []}), Wants::AllFields));
        } else if name.ends_with(".jsonl") {
            let all = name.ends_with(".ok.jsonl") || name.ends_with(".clarify.jsonl");
            let wants = if all { Wants::AllFields } else { Wants::GivenFields };
            lines.for_each(|line| judge(&file, &serde_json::from_str(line).unwrap(), wants));
        }
    }
    (count, faults)
}

/// The lines that say something in all their fields, by file.
pub(crate) fn whole() -> Vec<(String, String)> {
    let said = files(&data()).into_iter().filter(|file| file.to_string_lossy().ends_with(".ok.jsonl"));
    said.map(|file| (file.file_name().unwrap().to_string_lossy().into_owned(), fs::read_to_string(file).unwrap()))
        .collect()
}

/// The phrases that say something in all their fields.
pub(crate) fn texts() -> Vec<String> {
    let said = files(&data()).into_iter().filter(|file| file.to_string_lossy().ends_with(".ok.jsonl"));
    let texts = said.flat_map(|file| {
        let text = fs::read_to_string(file).unwrap();
        text.lines().map(|line| serde_json::from_str::<Value>(line).unwrap()).collect::<Vec<_>>()
    });
    texts.map(|case| case["text"].as_str().unwrap().to_owned()).collect()
}

fn files(folder: &Path) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for entry in fs::read_dir(folder).unwrap().map(Result::unwrap) {
        if entry.path().is_dir() { found.extend(files(&entry.path())) } else { found.push(entry.path()) }
    }
    found.sort();
    found
}

#[test]
fn every_line_is_read_as_wanted_or_known_not_to_be() {
    let (count, faults) = faults();
    let path = data().join("known.tsv");
    let known = fs::read_to_string(&path).unwrap_or_default();
    let reasons: BTreeMap<(String, String), String> = known
        .lines()
        .filter_map(|line| {
            let mut parts = line.split('\t');
            let (file, text, outcome) = (parts.next()?, parts.next()?, parts.next()?);
            Some(((file.to_owned(), text.to_owned()), [outcome, parts.next().unwrap_or_default()].join("\t")))
        })
        .collect();
    println!("{} of {count} lines are not read as wanted", faults.len());
    if std::env::var("RACKFUL_ACCEPT").is_ok() {
        let lines: Vec<String> = faults
            .iter()
            .map(|((file, text), outcome)| {
                let before = reasons.get(&(file.clone(), text.clone())).and_then(|known| known.split_once('\t'));
                let reason = before.map_or("", |(_, reason)| reason);
                format!("{file}\t{text}\t{outcome}\t{reason}").trim_end().to_owned()
            })
            .collect();
        fs::write(&path, lines.join("\n") + "\n").unwrap();
        return;
    }
    let now: BTreeSet<String> =
        faults.iter().map(|((file, text), outcome)| format!("{file}\t{text}\t{outcome}")).collect();
    let listed: BTreeSet<String> =
        known.lines().map(|line| line.split('\t').take(3).collect::<Vec<_>>().join("\t")).collect();
    let new: Vec<_> = now.difference(&listed).collect();
    let mended: Vec<_> = listed.difference(&now).collect();
    assert!(new.is_empty() && mended.is_empty(), "not listed: {new:#?}\nlisted, and no longer so: {mended:#?}");
}
