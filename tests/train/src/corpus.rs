//! The lines that are learned from.

use crate::compare::Wants;
use chrono::{DateTime, Utc};
use rackful::{phrase::Lexicon, zone::Zone};
use serde_json::Value;
use std::{fs, path::Path};

/// When lines were said that do not say it.
const NOW: &str = "2026-08-14T09:05:00-05:00";
/// When writers said theirs.
const EVENING: &str = "2026-08-14T18:30:00-05:00";

/// A line.
#[derive(Clone)]
pub struct Line {
    /// The file, or the writer: left out as a whole.
    pub writer: String,
    pub text: String,
    pub wanted: Vec<Value>,
    pub wants: Wants,
    /// `told`, `unfinished`, `talk`.
    pub group: String,
    pub now: DateTime<Utc>,
    pub zone: Zone,
    pub lexicon: Lexicon,
    /// Whether it is natural talk, for the calibration.
    pub natural: bool,
    /// Whether it was joined from two others: learned from, not judged.
    pub joined: bool,
}

fn at(text: &str) -> (DateTime<Utc>, Zone) {
    let now = DateTime::parse_from_rfc3339(text).expect("a time of RFC 3339");
    (now.to_utc(), Zone::Fixed(*now.offset()))
}

fn lexicon(case: &Value) -> Lexicon {
    let list = |field: &str| serde_json::from_value(case[field].clone()).unwrap_or_default();
    Lexicon {
        batches: list("batches"),
        closed: list("closed"),
        recipes: list("recipes"),
        unsealed: case["unsealed"].as_u64().unwrap_or_default() as u32,
        planned: serde_json::from_value(case["planned"].clone()).unwrap_or_default(),
        timer: case["timer"].as_str().map(|ends| at(ends).0),
        ..Lexicon::default()
    }
}

/// Reads every file of a folder.
pub fn load(folder: &Path, out: &mut Vec<Line>) {
    let mut files: Vec<_> =
        fs::read_dir(folder).expect("a folder").map(|entry| entry.expect("an entry").path()).collect();
    files.sort();
    for file in files {
        if file.is_dir() {
            load(&file, out);
            continue;
        }
        let name = file.file_name().unwrap_or_default().to_string_lossy().into_owned();
        let text = fs::read_to_string(&file).unwrap_or_default();
        let own = name.ends_with(".ok.jsonl") || name.ends_with(".clarify.jsonl");
        let writer = name.split('.').next().unwrap_or_default().to_owned();
        if name.ends_with(".silent.txt") {
            for line in text.lines().filter(|line| !line.trim().is_empty()) {
                let (now, zone) = at(NOW);
                out.push(Line {
                    writer: writer.clone(),
                    text: line.to_owned(),
                    wanted: Vec::new(),
                    wants: Wants::AllFields,
                    group: "talk".to_owned(),
                    now,
                    zone,
                    lexicon: Lexicon::default(),
                    natural: false,
                    joined: false,
                });
            }
        } else if name.ends_with(".jsonl") {
            for (n, line) in text.lines().enumerate().filter(|(_, line)| !line.trim().is_empty()) {
                let case: Value =
                    serde_json::from_str(line).unwrap_or_else(|fault| panic!("{name}:{}: {fault}", n + 1));
                let said = case["text"].as_str().or(case["say"].as_str()).expect("a text");
                let wanted = case["statements"].as_array().or(case["want"].as_array()).expect("statements").clone();
                let (now, zone) = at(case["at"].as_str().unwrap_or(if own { NOW } else { EVENING }));
                let group = case["group"].as_str().map_or_else(
                    || {
                        if wanted.is_empty() {
                            "talk"
                        } else if wanted.iter().all(|s| s["kind"] == "clarify") {
                            "unfinished"
                        } else {
                            "told"
                        }
                    },
                    |group| group,
                );
                out.push(Line {
                    writer: writer.clone(),
                    text: said.to_owned(),
                    wants: if own { Wants::AllFields } else { Wants::GivenFields },
                    group: group.to_owned(),
                    wanted,
                    now,
                    zone,
                    lexicon: lexicon(&case),
                    natural: folder.ends_with("talk"),
                    joined: false,
                });
            }
        }
    }
}

/// Joins lines of one writer, so that what stands beside a statement is learned too: another statement, or talk.
pub fn join(lines: &mut Vec<Line>, share: f32, seed: u64) {
    use rand::{Rng, SeedableRng, rngs::SmallRng};
    const JOINTS: [&str; 10] = [" and ", ", ", ". ", " ", "; ", " then ", ", and ", "! ", " so ", " and then "];
    let mut random = SmallRng::seed_from_u64(seed);
    let own: Vec<usize> = (0..lines.len()).filter(|n| lines[*n].writer.starts_with('w')).collect();
    let mut joined = Vec::new();
    for n in &own {
        let first = &lines[*n];
        // A question is one without its mark, too.
        if first.group == "told" && first.text.trim_end().ends_with('?') && random.random::<f32>() < share {
            joined.push(Line {
                text: first.text.trim_end().trim_end_matches('?').to_owned(),
                joined: true,
                ..first.clone()
            });
        }
        if first.group != "told" || random.random::<f32>() > share || first.text.len() > 160 {
            continue;
        }
        let second = &lines[own[random.random_range(0..own.len())]];
        let same = second.writer == first.writer && second.now == first.now && second.text.len() < 160;
        let with_talk = second.group == "talk";
        if !(same || with_talk) || second.group == "unfinished" || second.wanted.len() + first.wanted.len() > 4 {
            continue;
        }
        // What takes back or counts on from the statement before is not the same in one message.
        let refers = |line: &Line| {
            line.wanted.iter().any(|s| {
                matches!(s["kind"].as_str(), Some("correct" | "undo" | "named" | "recipe" | "teach"))
                    || s.get("share").is_some()
            })
        };
        if refers(first) || refers(second) {
            continue;
        }
        let joint = JOINTS[random.random_range(0..JOINTS.len())];
        let turned = random.random::<bool>();
        let (a, b) = if turned { (second, first) } else { (first, second) };
        let head = a.text.trim_end_matches(['.', '!', ',']);
        joined.push(Line {
            text: format!("{head}{joint}{}", b.text),
            wanted: a.wanted.iter().chain(&b.wanted).cloned().collect(),
            writer: first.writer.clone(),
            joined: true,
            ..first.clone()
        });
    }
    lines.extend(joined);
}

/// Kinds of statements that are made while a batch is open.
const OF_BATCH: [&str; 18] = [
    "drained",
    "cooked_down",
    "filled",
    "acid_added",
    "venting",
    "at_heat",
    "lost_heat",
    "heat_off",
    "pressure_down",
    "lifted",
    "sealed",
    "unsealed",
    "reprocessed",
    "refrigerated",
    "broke",
    "siphoned",
    "stopped",
    "resumed",
];

/// Says again, in a kitchen with an open batch, what is said of batches and a share of all else: learned from, not
/// judged.
pub fn with_open_batch(lines: &mut Vec<Line>, share: f32) {
    use rand::{Rng, SeedableRng, rngs::SmallRng};
    let mut random = SmallRng::seed_from_u64(11);
    let mut again = Vec::new();
    for line in lines.iter().filter(|line| {
        (line.writer.starts_with('w') || line.writer == "kitchen") && !line.joined && line.lexicon.batches.is_empty()
    }) {
        let of_batch = !line.wanted.is_empty()
            && line.wanted.iter().all(|s| s["kind"].as_str().is_some_and(|kind| OF_BATCH.contains(&kind)));
        let kept = of_batch || random.random::<f32>() < share;
        if kept {
            let lexicon = Lexicon { batches: vec!["sauce".to_owned()], ..line.lexicon.clone() };
            again.push(Line { lexicon, joined: true, ..line.clone() });
        }
    }
    lines.extend(again);
}
