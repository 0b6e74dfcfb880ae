//! `replay`.

use super::Home;

fn line(time: &str, rest: &str) -> String {
    format!("{{\"at\": \"2026-08-14T{time}:00-05:00\", \"room\": \"home\", {rest}}}\n")
}

#[test]
fn a_broken_line_is_named_and_what_came_before_stands() {
    let home = Home::new();
    let state = line("09:05", r#""state": true"#);
    let outcome = home.run(&["replay", "-"], &format!("{state}\n{{\"at\":"));
    assert_eq!(outcome.out.lines().count(), 1, "{}", outcome.out);
    outcome.failed(1, "line 3 of the script: EOF while parsing a value");
}

#[test]
fn time_does_not_run_backwards() {
    let script = [line("09:05", r#""state": true"#), line("09:04", r#""state": true"#)].concat();
    Home::new().run(&["replay", "-"], &script).failed(1, "line 2 of the script: its time");
}

#[test]
fn a_script_that_is_not_there_is_named() {
    Home::new().run(&["replay", "none.jsonl"], "").failed(1, "cannot read none.jsonl");
}

#[test]
fn replies_come_out_in_the_agreed_form_and_always_the_same() {
    let home = Home::new();
    let script = [
        line("09:05", r#""who": "ana", "id": "$1", "say": "froze 7 lb quartered""#),
        line("09:06", r#""who": "ana", "say": "lovely weather""#),
        line("09:07", r#""who": "ana", "say": "timer 45 min for the roast""#),
        line("10:30", r#""who": "ana", "id": "$4", "edit": "$1", "say": "froze 6.5 lb quartered""#),
        line("10:31", r#""state": true"#),
        line("10:32", r#""who": "ben", "say": "timer 10 min""#),
    ]
    .concat();
    home.write("script.jsonl", &script);
    let out = home.run(&["replay", "script.jsonl"], "").well();
    assert_eq!(out, home.run(&["replay", "-"], &script).well());
    let objects: Vec<serde_json::Map<String, serde_json::Value>> =
        out.lines().map(|line| serde_json::from_str(line).unwrap()).collect();
    let told: Vec<_> = objects
        .iter()
        .map(|object| {
            let word = |name: &str| object.get(name).and_then(|value| value.as_str()).unwrap_or_default();
            (word("at"), word("out"), word("re"), word("topic"))
        })
        .collect();
    assert_eq!(
        told,
        [
            ("2026-08-14T09:05:00-05:00", "reply", "$1", "froze"),
            ("2026-08-14T09:07:00-05:00", "reply", "$line-3@1786716420", "timer_start"),
            ("2026-08-14T09:52:00-05:00", "alert", "", "timer-done"),
            ("2026-08-14T10:30:00-05:00", "reply", "$1", "froze"),
            ("2026-08-14T10:31:00-05:00", "state", "", ""),
            ("2026-08-14T10:32:00-05:00", "reply", "$line-6@1786721520", "timer_start"),
        ]
    );
    let keys: Vec<_> = objects[0].keys().map(String::as_str).collect();
    assert_eq!(keys, ["at", "room", "out", "re", "topic", "text", "facts"]);
    let keys: Vec<_> = objects[4].keys().map(String::as_str).collect();
    assert_eq!(keys, ["at", "room", "out", "state"]);
}

#[test]
fn a_replay_leaves_no_ledger_behind_unless_told_to() {
    let home = Home::new();
    let script = line("09:05", r#""who": "ana", "say": "froze 7 lb""#);
    home.run(&["replay", "-"], &script).well();
    assert_eq!(std::fs::read_dir(home.path()).unwrap().count(), 0);
    home.run(&["--data", "kept", "replay", "-"], &script).well();
    // The same message again: it was heard, so it counts once and is not answered twice.
    assert_eq!(home.run(&["--data", "kept", "replay", "-"], &script).well(), "");
}
