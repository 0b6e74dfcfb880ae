//! `chat` through a pipe.

use super::Home;
use std::io::{BufRead, BufReader, Write};
use std::process::{Child, ChildStdin, Stdio};
use std::sync::mpsc::{Receiver, channel};
use std::time::Duration;

/// Longer than any answer takes on a busy machine.
const PATIENCE: Duration = Duration::from_secs(30);

/// A chat that goes on while the test watches it.
struct Open {
    child: Child,
    stdin: Option<ChildStdin>,
    lines: Receiver<String>,
}

impl Open {
    fn start(home: &Home, words: &[&str]) -> Self {
        let mut command = home.command(words);
        let mut child = command.stdin(Stdio::piped()).stdout(Stdio::piped()).spawn().unwrap();
        let out = BufReader::new(child.stdout.take().unwrap());
        let (to, lines) = channel();
        std::thread::spawn(move || out.lines().map_while(Result::ok).try_for_each(|line| to.send(line)));
        Self { stdin: child.stdin.take(), child, lines }
    }

    fn say(&mut self, text: &str) {
        writeln!(self.stdin.as_mut().unwrap(), "{text}").unwrap();
    }

    /// The next line that holds this.
    #[track_caller]
    fn wait_for(&self, what: &str) -> String {
        let mut seen = Vec::new();
        while let Ok(line) = self.lines.recv_timeout(PATIENCE) {
            if line.contains(what) {
                return line;
            }
            seen.push(line);
        }
        panic!("no {what:?} in {seen:?}");
    }

    /// Closes its input; it must end well.
    fn end(mut self) {
        self.stdin = None;
        assert!(self.child.wait().unwrap().success());
    }
}

impl Drop for Open {
    fn drop(&mut self) {
        // After a failed check; a child that has ended already cannot be killed.
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

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
    let mut chat = Open::start(&home, &["chat"]);
    chat.say("timer 1 second for the egg");
    assert!(chat.wait_for("⏰").contains("egg"));
    chat.end();
}

#[test]
fn what_fell_due_while_it_was_down_is_announced_at_the_next_start_and_once() {
    let home = Home::new();
    home.run(&["chat"], "timer 1 second for the egg\n").well();
    std::thread::sleep(Duration::from_millis(1500));
    assert!(home.run(&["chat"], "").well().contains("egg"));
    assert_eq!(home.run(&["chat"], "").well(), "");
}

#[test]
fn a_store_in_use_is_said_to_be() {
    let home = Home::new();
    let mut chat = Open::start(&home, &["--data", "store", "chat"]);
    chat.say("froze 7 lb");
    chat.wait_for("7 lb");
    for words in [&["chat"][..], &["export"], &["import", "-"], &["check"]] {
        let words = [&["--data", "store"], words].concat();
        let outcome = home.run(&words, "froze 7 lb\n");
        assert_eq!(outcome.code, 1, "{words:?}");
        assert!(outcome.err.contains("in use by another rackful"), "{words:?} {}", outcome.err);
    }
    chat.end();
    assert!(home.run(&["--data", "store", "chat"], "freezer?\n").well().contains("7 lb"));
}

#[test]
fn a_kill_loses_nothing_that_was_answered() {
    let home = Home::new();
    let mut chat = Open::start(&home, &["chat"]);
    chat.say("froze 7 lb");
    chat.wait_for("7 lb");
    drop(chat);
    assert!(home.run(&["chat"], "freezer?\n").well().contains("7 lb"));
}

#[test]
fn the_sample_season_can_be_asked_about_and_leaves_nothing_behind() {
    let home = Home::new();
    let out = home.run(&["chat", "--sample"], "what's in the freezer?\n").well();
    // Five bags since the last canning day; see the season's script.
    assert!(out.contains("35 lb"), "{out}");
    assert_eq!(std::fs::read_dir(home.path()).unwrap().count(), 0);
}
