//! The frames' examples, as help and the kitchen card show them: each is read as what it is shown for.

use chrono::{DateTime, Utc};
use rackful::phrase::{Context, Lexicon, Task, read, tasks};
use rackful::statement::Statement;
use rackful::vocabulary::{Kind, Product};
use rackful::zone::Zone;
use serde::Deserialize;
use std::collections::BTreeSet;

/// Good examples that the reader does not read yet, and the kinds of statement that it reads instead. Both ways exact:
/// whoever teaches it one of them takes it off this list.
const MISREAD: &[(&str, &[&str])] = &[
    ("timezone -05:00", &[]),
    ("I opened the lid to add water", &["propose"]),
    ("putting it through again", &["propose"]),
];

const FRAMES: &str = include_str!("../../src/phrase/english/frames.toml");

#[derive(Deserialize)]
struct File {
    frame: Vec<Frame>,
}

/// What of a frame is seen from outside.
#[derive(Deserialize)]
struct Frame {
    kind: String,
    about: Option<String>,
    key: Option<String>,
    #[serde(default)]
    task: String,
    #[serde(default)]
    examples: String,
}

impl Frame {
    fn examples(&self) -> Vec<&str> {
        self.examples.lines().map(str::trim).filter(|line| !line.is_empty()).collect()
    }
}

fn frames() -> Vec<Frame> {
    toml::from_str::<File>(FRAMES).unwrap().frame
}

fn said(text: &str) -> Vec<Statement> {
    // A day is set, so that it can be moved.
    let planned = vec![("2026-08-15".parse().unwrap(), Product::THICK_SAUCE)];
    let lexicon = Lexicon { planned, ..Lexicon::default() };
    let now: DateTime<Utc> = "2026-08-14T14:05:00Z".parse().unwrap();
    let context = Context { now, zone: Zone::parse("-05:00").unwrap(), lexicon: &lexicon, last: None };
    read(text, &context).statements
}

/// A statement as far as a frame determines it: its kind, what a question is about, which setting is set.
fn is_of(statement: &Statement, frame: &Frame) -> bool {
    let about = match statement {
        Statement::Ask(ask) => frame.about.as_deref().is_none_or(|about| ask.about.as_str() == about),
        Statement::Set(set) => frame.key.as_deref().is_none_or(|key| set.key.as_str() == key),
        _ => true,
    };
    statement.kind().as_str() == frame.kind && about
}

/// Kinds of statements, questions and settings with what they are about.
fn names(statements: &[Statement]) -> Vec<String> {
    let name = |statement: &Statement| match statement {
        Statement::Ask(ask) => format!("ask {}", ask.about),
        Statement::Set(set) => format!("set {}", set.key),
        other => other.kind().to_string(),
    };
    statements.iter().map(name).collect()
}

#[test]
fn every_example_is_read_as_what_it_is_shown_for() {
    let mut wrong = Vec::new();
    for frame in frames() {
        for example in frame.examples() {
            let read = said(example);
            let is_right = matches!(&read[..], [statement] if is_of(statement, &frame));
            let known = MISREAD.iter().find(|(words, _)| *words == example);
            match known {
                None if !is_right => wrong.push(format!("    (\"{example}\", &{:?}),", names(&read))),
                Some(_) if is_right => wrong.push(format!("'{example}' is read rightly: take it off the list")),
                Some((_, instead)) if names(&read) != *instead => {
                    wrong.push(format!("'{example}' is now read as {:?}, not {instead:?}", names(&read)));
                }
                _ => {}
            }
        }
    }
    assert!(wrong.is_empty(), "\n{}", wrong.join("\n"));
}

#[test]
fn what_is_said_to_be_misread_is_an_example_and_never_all_that_is_shown_of_a_task() {
    let all: BTreeSet<String> =
        frames().iter().flat_map(|frame| frame.examples().into_iter().map(str::to_owned).collect::<Vec<_>>()).collect();
    for (words, _) in MISREAD {
        assert!(all.contains(*words), "'{words}' is no example any more");
    }
    for Task { task, examples, .. } in tasks() {
        let is_misread = |words: &str| MISREAD.iter().any(|(misread, _)| *misread == words);
        assert!(examples.iter().any(|example| !is_misread(example.words)), "{task}");
    }
}

#[test]
fn every_kind_of_statement_has_a_frame_with_a_task_and_examples() {
    for frame in frames() {
        let count = frame.examples().len();
        assert!((1..=3).contains(&count), "{} has {count} examples", frame.kind);
        assert!(!frame.task.is_empty(), "{} has no task", frame.kind);
    }
    let shown: BTreeSet<&str> =
        tasks().iter().flat_map(|task| task.examples.iter().map(|example| example.kind.as_str())).collect();
    for kind in Kind::ALL.iter().filter(|kind| !matches!(kind, Kind::Propose | Kind::Clarify)) {
        assert!(shown.contains(kind.as_str()), "{kind} is in no task");
    }
}

#[test]
fn frames_of_a_task_take_turns_in_its_examples() {
    let tasks = tasks();
    let named: BTreeSet<&str> = tasks.iter().map(|task| task.task).collect();
    assert_eq!(named.len(), tasks.len(), "a task stands twice");
    let count: usize = tasks.iter().map(|task| task.examples.len()).sum();
    assert_eq!(count, frames().iter().map(|frame| frame.examples().len()).sum::<usize>());
    let task = tasks.iter().find(|task| task.examples[0].kind == Kind::Ate).unwrap();
    let kinds: Vec<Kind> = task.examples.iter().take(3).map(|example| example.kind).collect();
    assert_eq!((task.frames, &kinds[..]), (3, &[Kind::Ate, Kind::Gave, Kind::Tossed][..]));
}
