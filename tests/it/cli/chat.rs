//! `chat` through a pipe.

use super::Home;
use std::io::{BufRead, BufReader, Write};
use std::process::Stdio;

#[test]
fn each_line_is_answered_and_the_ledger_outlives_the_program() {
    let home = Home::new();
    let out = home.run(&["chat"], "froze 3 bags at 7 lb\n\nwhat's in the freezer?\n").well();
    assert!(out.contains("21 lb"), "{out}");
    let out = home.run(&["chat"], "freezer?").well();
    assert!(out.contains("21 lb"), "{out}");
}

#[test]
fn an_alert_appears_while_the_pipe_is_open_and_nobody_types() {
    let home = Home::new();
    let mut command = home.command(&["chat"]);
    let mut child = command.stdin(Stdio::piped()).stdout(Stdio::piped()).spawn().unwrap();
    let mut stdin = child.stdin.take().unwrap();
    stdin.write_all(b"timer 1 second for the egg\n").unwrap();
    let mut lines = BufReader::new(child.stdout.take().unwrap()).lines().map(Result::unwrap);
    let alert = lines.find(|line| line.starts_with('⏰'));
    assert!(alert.is_some_and(|alert| alert.contains("egg")));
    drop(stdin);
    assert!(child.wait().unwrap().success());
}

#[test]
fn a_store_in_use_is_said_to_be() {
    let home = Home::new();
    let mut command = home.command(&["--data", "store", "chat"]);
    let mut first = command.stdin(Stdio::piped()).stdout(Stdio::piped()).spawn().unwrap();
    let mut stdin = first.stdin.take().unwrap();
    stdin.write_all(b"froze 7 lb\n").unwrap();
    let mut out = BufReader::new(first.stdout.take().unwrap());
    out.read_line(&mut String::new()).unwrap();
    home.run(&["--data", "store", "chat"], "froze 7 lb\n").failed(1, "in use by another rackful");
    drop(stdin);
    assert!(first.wait().unwrap().success());
    assert!(home.run(&["--data", "store", "chat"], "freezer?\n").well().contains("7 lb"));
}

#[test]
fn the_sample_season_can_be_asked_about_and_leaves_nothing_behind() {
    let home = Home::new();
    let out = home.run(&["chat", "--sample"], "what's in the freezer?\npantry?\n").well();
    // Five bags since the last canning day; see the season's script.
    assert!(out.contains("35 lb"), "{out}");
    assert_eq!(std::fs::read_dir(home.path()).unwrap().count(), 0);
}
