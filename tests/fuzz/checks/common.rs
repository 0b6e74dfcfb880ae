//! What must hold of rooms whatever led to them.

use chrono::{DateTime, Datelike, TimeDelta, Utc};
use rackful::assistant::{Assistant, Commit, Incoming, Outgoing, Said};
use rackful::export::csv::{self, Table};
use rackful::ledger::MessageId;
use std::sync::Arc;

/// Every kind of question once, and some words that change much.
const QUESTIONS: [&str; 16] = [
    "what's in the freezer?",
    "what's on the counter?",
    "pantry?",
    "what's in the fridge?",
    "supplies?",
    "how much have we picked this year?",
    "how close to a load?",
    "when will we have a load?",
    "time left?",
    "what's next?",
    "what's the plan for today?",
    "how much should we plant next year?",
    "chart season",
    "labels for the sauce",
    "send me the calendar",
    "undo",
];

/// A message of somebody's.
pub(crate) fn message(room: &str, who: &str, id: &str, at: DateTime<Utc>, said: Said) -> Incoming {
    let direct = who == "ana";
    Incoming {
        room: room.into(),
        who: who.into(),
        id: MessageId::new(id),
        at: at.fixed_offset(),
        direct,
        thread: None,
        said,
    }
}

/// Words that answer nothing in particular.
pub(crate) fn text(text: &str) -> Said {
    Said::Text { text: text.to_owned(), reply_to: None }
}

/// An assistant that takes in commits as at a start.
pub(crate) fn restored<'a>(commits: impl IntoIterator<Item = &'a Commit>) -> Assistant {
    let mut assistant = Assistant::new(rackful::assistant::Defaults::default());
    commits.into_iter().for_each(|commit| assistant.restore(commit));
    assistant
}

/// When the last of them was taken in, by a clock that can be.
pub(crate) fn end_of(commits: &[Commit]) -> DateTime<Utc> {
    let times = commits.iter().map(|commit| commit.at);
    times.filter(|at| (1970..2500).contains(&at.year())).max().unwrap_or_default()
}

/// All that other programs read of its rooms at an instant, and when something is due in them.
pub(crate) fn seen(assistant: &Assistant, now: DateTime<Utc>) -> String {
    let rooms: Vec<String> = assistant.rooms().map(str::to_owned).collect();
    let states: Vec<_> = rooms.iter().map(|room| (room, assistant.state_json(room, now).to_string())).collect();
    format!("{states:?} {:?}", assistant.next_due(now))
}

/// Lets time pass; what falls due comes to an end.
pub(crate) fn wait(assistant: &mut Assistant, now: &mut DateTime<Utc>, time: TimeDelta) -> Vec<Commit> {
    let until = *now + time;
    let mut commits = Vec::new();
    while let Some(due) = assistant.next_due(*now).filter(|due| *due <= until) {
        assert!(due >= *now, "due in the past");
        *now = due;
        let ticked = assistant.tick(due);
        assert!(commits.len() < 2_000, "no end of alerts");
        if ticked.is_empty() {
            break;
        }
        commits.extend(ticked);
    }
    *now = until;
    commits
}

/// Puts every question in every room, and makes every table.
pub(crate) fn ask_all(assistant: &mut Assistant, now: DateTime<Utc>) -> Vec<Commit> {
    ask(assistant, now, &QUESTIONS)
}

/// As [`ask_all`], with three of the questions: a forecast takes longer than a conversation.
pub(crate) fn ask_some(assistant: &mut Assistant, now: DateTime<Utc>, which: u32) -> Vec<Commit> {
    let some = [which, which >> 8, which >> 16].map(|which| QUESTIONS[which as usize % QUESTIONS.len()]);
    ask(assistant, now, &some)
}

fn ask(assistant: &mut Assistant, now: DateTime<Utc>, questions: &[&str]) -> Vec<Commit> {
    let rooms: Vec<String> = assistant.rooms().map(str::to_owned).collect();
    let mut commits = Vec::new();
    for room in &rooms {
        for (n, words) in questions.iter().enumerate() {
            let question = message(room, "ana", &format!("asked {n} {now}"), now, text(words));
            commits.extend(assistant.hear(&question, now));
        }
        let ledger = assistant.ledger(room).expect("a room that is named is there");
        for table in [Table::Log, Table::Freezer, Table::Pantry, Table::Batches, Table::Totals] {
            let mut sheet = Vec::new();
            csv::write(table, [(room.as_str(), ledger)], &mut sheet).expect("memory takes it");
            assert!(std::str::from_utf8(&sheet).is_ok());
        }
    }
    commits
}

/// A commit comes back from the journal's JSON as it went in.
pub(crate) fn comes_back(commit: &Commit) {
    let json = serde_json::to_string(commit).expect("a commit is JSON");
    let again: Commit = serde_json::from_str(&json).expect("its JSON is a commit");
    assert!(again == *commit, "{json}");
}

/// Each commit comes out of JSON as it went in, and the rooms that they make are the same twice, answer every question
/// and go on for two days.
pub(crate) fn live_on(commits: &[Commit]) {
    commits.iter().for_each(comes_back);
    let mut now = end_of(commits);
    let mut rooms = restored(commits);
    assert_eq!(seen(&rooms, now), seen(&restored(commits), now));
    ask_all(&mut rooms, now);
    wait(&mut rooms, &mut now, TimeDelta::days(2));
}

/// A room whose fruit is what was picked of it.
pub(crate) fn balances(assistant: &Assistant, room: &Arc<str>) {
    if let Some(ledger) = assistant.ledger(room) {
        let (picked, left) = ledger.state().balance();
        assert_eq!(picked, left);
    }
}

/// What goes out has words, fits an event, and says its figures as numbers.
pub(crate) fn can_go_out(out: &Outgoing) {
    assert!(!out.text.trim().is_empty(), "{out:?}");
    assert!(out.text.len() <= 24 * 1024, "{} bytes: {out:?}", out.text.len());
    assert!(out.facts.values().all(|fact| !fact.is_null()), "{out:?}");
}
