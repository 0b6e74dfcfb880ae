//! The words of the call, and `parse`.

use super::{Home, Outcome, finish};

#[test]
fn wrong_words_exit_with_2_and_one_sentence() {
    let home = Home::new();
    for (words, says) in [
        (&["pickle"][..], "unrecognized subcommand 'pickle'"),
        (&["replay"], "required arguments were not provided: <FILE>"),
        (&["parse", "--at", "yesterday", "hi"], "invalid value 'yesterday' for '--at <TIME>'"),
        (&["parse", "--jsn", "hi"], "unexpected argument '--jsn'"),
        (&["chat", "--data"], "a value is required for '--data <DIR>'"),
        (&["chat", "--sample", "--data", "x"], "'--sample' cannot be used with '--data <DIR>'"),
    ] {
        home.run(words, "").failed(2, says);
    }
}

#[test]
fn without_words_it_explains_itself_and_exits_with_2() {
    let Outcome { code, out, err } = Home::new().run(&[], "");
    assert_eq!((code, out.as_str()), (2, ""));
    assert!(err.contains("Usage: rackful") && err.contains("chat"), "{err}");
    assert!(Home::new().run(&["--help"], "").well().contains("Usage: rackful"));
    assert!(Home::new().run(&["--version"], "").well().starts_with("rackful 0."));
}

#[test]
fn parse_prints_the_agreed_object() {
    let words = ["parse", "--json", "--at", "2026-08-14T09:05:00-05:00", "froze 3 bags at 7 lb yesterday"];
    let printed: serde_json::Value = serde_json::from_str(&Home::new().run(&words, "").well()).unwrap();
    assert_eq!(printed["text"], "froze 3 bags at 7 lb yesterday");
    assert_eq!(printed["unread"], "");
    let froze = &printed["statements"][0];
    assert_eq!((&froze["kind"], &froze["bags"], &froze["on"]), (&"froze".into(), &3.into(), &"2026-08-13".into()));
    // 21 lb and 7 lb of 453.59237 g, to one part in a million.
    for (field, grams) in [("mass_g", 9525.43977), ("each_g", 3175.14659)] {
        let said = froze[field].as_f64().unwrap();
        assert!((said / grams - 1.0).abs() < 1e-6, "{field} {said}");
    }
}

#[test]
fn parse_answers_each_line_of_its_input_with_one_object() {
    let phrases = "froze 7 lb\r\n\nnice weather\npicked 3 kg, ate 1";
    let out = Home::new().run(&["parse", "--json"], phrases).well();
    let objects: Vec<serde_json::Value> = out.lines().map(|line| serde_json::from_str(line).unwrap()).collect();
    let counts: Vec<_> = objects
        .iter()
        .map(|object| (object["text"].as_str().unwrap(), object["statements"].as_array().unwrap().len()))
        .collect();
    assert_eq!(counts, [("froze 7 lb", 1), ("", 0), ("nice weather", 0), ("picked 3 kg, ate 1", 2)]);
}

#[test]
fn parse_without_json_says_it_in_words() {
    let home = Home::new();
    assert_eq!(home.run(&["parse", "froze", "7", "lb"], "").well(), "froze: 7 lb (3.175 kg).\n");
    assert_eq!(home.run(&["parse", "nice weather"], "").well(), "Nothing for the ledger.\n");
}

#[test]
fn a_reader_that_goes_away_is_no_error() {
    let home = Home::new();
    home.run(&["chat"], "froze 7 lb\n").well();
    home.write("script.jsonl", "{\"at\": \"2026-08-14T09:05:00-05:00\", \"room\": \"home\", \"state\": true}");
    home.write("said.txt", "froze 7 lb\n");
    for words in [&["parse", "--json", "froze 7 lb"][..], &["replay", "script.jsonl"], &["chat"], &["export"]] {
        let (reader, writer) = std::io::pipe().unwrap();
        drop(reader);
        let mut command = home.command(words);
        command.stdin(std::fs::File::open(home.path().join("said.txt")).unwrap());
        let child = command.stdout(writer).stderr(std::process::Stdio::piped()).spawn().unwrap();
        drop(command);
        let output = child.wait_with_output().unwrap();
        let err = String::from_utf8(output.stderr).unwrap();
        assert_eq!((output.status.code(), err.as_str()), (Some(0), ""), "{words:?}");
    }
}

#[test]
fn message_text_is_in_the_log_only_when_asked_for() {
    let home = Home::new();
    let mut command = home.command(&["chat"]);
    command.env("RACKFUL_LOG", "info");
    let Outcome { err, .. } = finish(command, "froze 7 lb quartered\n");
    assert!(!err.contains("quartered"), "{err}");
}
