//! Invented seasons, played by `replay` into a store on disk that is stopped without care and started again at random
//! places, beside the same season played in one go: what is said, what there is and what is still due are the same, and
//! the fruit balances.
//!
//! `RACKFUL_SEASONS` says how many are played, `RACKFUL_SEASON_SEED` which one is the first.

mod household;
mod restarts;
mod words;

use crate::store::sample::Lots;
use household::{Line, NAMES};
use rackful::alert::deadlines;
use rackful::assistant::{Assistant, Defaults};
use rackful::desk::Desk;
use rackful::ledger::state::State;
use rackful::ledger::{Mode, apply};
use rackful::phrase::{Context, Lexicon, read};
use rackful::statement::Statement;
use rackful::store::{DiskStore, MemoryStore, Store};
use rackful::zone::Zone;
use restarts::Restarts;
use serde_json::{Value, json};
use std::collections::{HashMap, HashSet};

/// What the playing of some seasons came to.
#[derive(Default, Debug)]
struct Figures {
    seasons: u64,
    messages: usize,
    /// Messages that were meant as entries, questions or orders.
    meant: usize,
    entries: usize,
    replies: usize,
    problems: usize,
    alerts: usize,
    restarts: usize,
}

fn setting(name: &str, default: u64) -> u64 {
    std::env::var(name).map_or(default, |value| value.parse().expect("a number"))
}

fn zone() -> Zone {
    Zone::parse("America/Chicago").unwrap()
}

fn defaults() -> Defaults {
    Defaults { zone: Some(zone()), ..Defaults::default() }
}

#[test]
fn seasons_with_restarts_are_the_seasons_without() {
    let (first, seasons) = (setting("RACKFUL_SEASON_SEED", 1), setting("RACKFUL_SEASONS", 6));
    let mut figures = Figures::default();
    for seed in first..first + seasons {
        play(seed, &mut figures);
    }
    println!("{figures:?}");
    assert!(figures.entries > 30 * seasons as usize, "seasons in which little happens: {figures:?}");
}

#[test]
fn everything_that_is_meant_in_a_season_is_read_as_meant() {
    for seed in 1..=setting("RACKFUL_SEASONS", 40) {
        household::season(seed).iter().for_each(is_read_as_meant);
    }
}

fn play(seed: u64, figures: &mut Figures) {
    println!("season {seed}");
    let mut lots = Lots(seed);
    let lines = household::season(seed);
    lines.iter().for_each(is_read_as_meant);
    let cuts = restarts::cuts(&lines, &mut lots);
    let lines = restarts::with_looks(lines, &cuts);

    let mut desk = Desk::open(Box::new(MemoryStore::default()), defaults()).unwrap();
    let mut out = Vec::new();
    let script: Vec<&Line> = lines.iter().flatten().collect();
    restarts::run(&script, &mut desk, &mut out);
    let out = String::from_utf8(out).unwrap();
    answers(&script, &out, figures);
    let now = script.last().unwrap().at.to_utc();
    let one_go = seen(desk.assistant(), now);
    crate::ledger::balances(desk.assistant().ledger("home").unwrap().state()).unwrap();

    for down in [false, true] {
        let mut restarts = Restarts::new(&mut lots);
        let mut pieces = Vec::new();
        for (n, piece) in lines.iter().enumerate() {
            // With the program down for a while, what fell due meanwhile is told late and in other words.
            let piece: Vec<&Line> = piece.iter().skip(usize::from(down && n > 0)).collect();
            restarts.play(&piece, &mut pieces);
        }
        let pieces = String::from_utf8(pieces).unwrap();
        if down {
            let states = pieces.lines().filter(|line| line.contains(r#""out":"state""#));
            let states: Vec<_> = states.inspect(|line| assert!(out.contains(line), "season {seed}: {line}")).collect();
            assert!(states.len() > 8, "season {seed}");
        } else {
            assert_same(seed, &out, &pieces);
        }
        assert_eq!(seen(restarts.desk().assistant(), now), one_go, "season {seed}");
        figures.restarts += restarts.count;
        folded_anew(&restarts.close(), now, &one_go);
    }
    figures.seasons += 1;
    figures.entries += desk.assistant().ledger("home").unwrap().len();
}

/// All that there is at an instant, and all that is still to come by itself.
fn seen(assistant: &Assistant, now: chrono::DateTime<chrono::Utc>) -> Value {
    let state = assistant.ledger("home").unwrap().state();
    let due: Vec<_> = deadlines(state).into_iter().filter(|due| due.at > now).map(|due| (due.name, due.at)).collect();
    json!({"state": assistant.state_json("home", now), "due": due, "next": assistant.next_due(now)})
}

/// The journal of the season, taken in anew, and its entries folded one by one without any short cut.
fn folded_anew(store: &DiskStore, now: chrono::DateTime<chrono::Utc>, expected: &Value) {
    let mut again = Assistant::new(defaults());
    store.each(&mut |commit| again.restore(&commit)).unwrap();
    assert_eq!(&seen(&again, now), expected);
    let ledger = again.ledger("home").unwrap();
    let mut plain = State::new(zone());
    for entry in ledger.entries() {
        apply(&mut plain, entry, Mode::Fold);
        let (picked, left) = plain.balance();
        assert_eq!(picked, left, "after {entry:?}");
    }
    assert!(*ledger.state() == plain, "the fold is not the plain fold");
    crate::ledger::balances(&plain).unwrap();
    assert!(store.outbox().unwrap().is_empty());
}

fn assert_same(seed: u64, expected: &str, found: &str) {
    for (n, (expected, found)) in expected.lines().zip(found.lines()).enumerate() {
        assert_eq!(expected, found, "season {seed}, line {n} of the output");
    }
    assert_eq!(expected.lines().count(), found.lines().count(), "season {seed}");
}

/// Everything that is meant is read as what is meant, and talk as nothing.
fn is_read_as_meant(line: &Line) {
    let Some(words) = &line.words else { return };
    let lexicon = Lexicon { recipes: vec!["fire salsa".to_owned()], ..Lexicon::default() };
    let reading = read(words, &Context { now: line.sent.to_utc(), zone: zone(), lexicon: &lexicon, last: None });
    // What is proposed is read as meant, too.
    let kinds: Vec<_> = reading
        .statements
        .iter()
        .flat_map(|statement| match statement {
            Statement::Propose(proposed) => proposed.statements.iter().map(|said| said.kind().as_str()).collect(),
            other => vec![other.kind().as_str()],
        })
        .collect();
    assert_eq!(kinds, line.meant, "{words}");
    assert!(!reading.figure_left, "{words}: {}", reading.unread);
}

/// Everything that is meant is answered, as what is meant or with a problem that is none of reading; talk is not
/// answered.
fn answers(script: &[&Line], out: &str, figures: &mut Figures) {
    let mut by: HashMap<String, Vec<Value>> = HashMap::new();
    for line in out.lines() {
        let line: Value = serde_json::from_str(line).unwrap();
        match line["out"].as_str().unwrap() {
            "reply" | "mark" => figures.replies += 1,
            "problem" => figures.problems += 1,
            "alert" => figures.alerts += 1,
            _ => {}
        }
        if let Some(re) = line["re"].as_str() {
            by.entry(re.to_owned()).or_default().push(line);
        }
    }
    let said = |line: &Line| -> Value { serde_json::from_str(&line.json).unwrap() };
    let edited: HashSet<_> = script.iter().map(|line| said(line)["edit"].to_string()).collect();
    for line in script {
        let Some(id) = &line.id else { continue };
        figures.messages += 1;
        figures.meant += usize::from(!line.meant.is_empty());
        let said = said(line);
        // An edit is answered on what it edited.
        if said["say"].is_null() || !said["edit"].is_null() || edited.contains(&said["id"].to_string()) {
            continue;
        }
        let answers = by.get(id).map_or(&[][..], Vec::as_slice);
        if line.meant.is_empty() {
            // The name of a batch is an answer when it was asked which one is meant.
            let is_name = line.words.as_deref().is_some_and(|words| NAMES.contains(&words));
            assert!(answers.is_empty() || is_name, "{line:?} {answers:?}");
            continue;
        }
        // Known not to be heard while a batch is open.
        let unheard = line.words.as_deref().is_some_and(|words| words.starts_with("call this batch"));
        if unheard && answers.is_empty() {
            continue;
        }
        let fits = |answer: &Value| {
            answer["topic"] == line.meant[0] || answer["topic"] == "propose" || answer["out"] == "problem"
        };
        assert!(answers.iter().any(fits), "{line:?} {answers:?}");
        let asked = answers.iter().find(|answer| answer["topic"] == "clarify");
        assert!(asked.is_none_or(ledger_asks), "{line:?} {answers:?}");
    }
}

/// A question that comes of what there is and not of the words: two batches are open, or nothing is there to correct.
fn ledger_asks(question: &Value) -> bool {
    let text = question["text"].as_str().unwrap();
    text.contains("hich")
}
