//! What the contract promises of messages and moments, said as a household says it.

use crate::support::{Kitchen, topics};
use chrono::{Duration, TimeZone, Utc};
use rackful::assistant::{Assistant, Defaults, Incoming, Said};
use rackful::ledger::MessageId;
use serde_json::json;

fn text(text: &str) -> Said {
    Said::Text { text: text.to_owned(), reply_to: None }
}

fn freezer(kitchen: &Kitchen) -> f64 {
    let total = |crop: &serde_json::Value| crop["mass_g"].as_f64().unwrap() / 453.59237;
    kitchen.state()["freezer"].as_array().unwrap().iter().map(total).sum()
}

#[track_caller]
fn assert_freezer(kitchen: &Kitchen, pounds: f64) {
    let there = freezer(kitchen);
    assert!((there - pounds).abs() < 1e-4, "{there} lb in the freezer, not {pounds}");
}

#[test]
fn a_message_counts_once() {
    let mut kitchen = Kitchen::new();
    kitchen.say("froze 7 lb");
    let again = Incoming {
        room: "home".into(),
        who: "ana".into(),
        id: kitchen.last(),
        at: kitchen.now.fixed_offset(),
        direct: false,
        thread: None,
        said: text("froze 7 lb"),
    };
    assert_eq!(kitchen.assistant.hear(&again, kitchen.now), None);
    assert_freezer(&kitchen, 7.0);
}

#[test]
fn the_log_has_no_hour_where_none_was_said() {
    let mut kitchen = Kitchen::new();
    kitchen.say("froze 7 lb on Aug 3, 2025");
    kitchen.say("froze 6 lb on Aug 10");
    let log = kitchen.say("log?")[0].text.clone();
    let begins: Vec<&str> = log.lines().filter_map(|line| line.split_once(": ")).map(|(when, _)| when).collect();
    assert_eq!(begins, ["Aug 3, 2025", "Mon Aug 10"], "{log}");
}

#[test]
fn rooms_are_kept_apart() {
    let mut kitchen = Kitchen::new();
    kitchen.say("froze 7 lb");
    let other = Incoming {
        room: "cabin".into(),
        who: "ana".into(),
        id: MessageId::new("$cabin"),
        at: kitchen.now.fixed_offset(),
        direct: false,
        thread: None,
        said: text("froze 3 lb"),
    };
    kitchen.assistant.hear(&other, kitchen.now);
    assert_freezer(&kitchen, 7.0);
}

#[test]
fn restoring_the_commits_makes_the_same_rooms() {
    let mut kitchen = Kitchen::new();
    for said in
        ["altitude 2400 ft", "picked 20 lb, froze 7 and ate 2", "froze 9", "undo", "starting thick sauce in quarts"]
    {
        kitchen.say(said);
    }
    kitchen.hear("ana", Said::Edit { target: MessageId::new("$2"), text: "picked 30 lb".into() });
    kitchen.wait(Duration::hours(3));
    let mut restored =
        Assistant::new(Defaults { zone: rackful::zone::Zone::parse("America/Chicago"), ..Defaults::default() });
    for commit in &kitchen.commits {
        let line = serde_json::to_string(commit).unwrap();
        restored.restore(&serde_json::from_str(&line).unwrap());
    }
    assert_eq!(restored.state_json("home", kitchen.now), kitchen.state());
    assert_eq!(restored.next_due(kitchen.now), kitchen.assistant.next_due(kitchen.now));
    let late = Incoming {
        room: "home".into(),
        who: "ana".into(),
        id: MessageId::new("$1"),
        at: kitchen.now.fixed_offset(),
        direct: false,
        thread: None,
        said: text("altitude 9000 ft"),
    };
    assert_eq!(restored.hear(&late, kitchen.now), None, "what was heard stays heard");
}

#[test]
fn two_undos_go_back_two_and_only_ones_own() {
    let mut kitchen = Kitchen::new();
    kitchen.say_as("ben", "froze 20 lb");
    kitchen.say_as("ana", "froze 1 lb");
    kitchen.say_as("ana", "froze 2 lb");
    assert_eq!(topics(&kitchen.say_as("ana", "undo")), ["reply undo"]);
    assert_freezer(&kitchen, 21.0);
    kitchen.say_as("ana", "scratch that");
    assert_freezer(&kitchen, 20.0);
    kitchen.say_as("ana", "undo");
    assert_freezer(&kitchen, 20.0);
}

#[test]
fn undoing_a_corrected_entry_removes_it() {
    let mut kitchen = Kitchen::new();
    kitchen.say("froze 7 lb");
    let corrected = kitchen.say("make that 6.5 lb");
    assert_eq!(topics(&corrected), ["reply correct"]);
    assert_freezer(&kitchen, 6.5);
    kitchen.say("undo");
    assert_freezer(&kitchen, 0.0);
}

#[test]
fn a_reply_corrects_the_entry_it_answers() {
    let mut kitchen = Kitchen::new();
    kitchen.say("froze 7 lb");
    let first = kitchen.last();
    kitchen.say("froze 9 lb");
    kitchen.hear("ben", Said::Text { text: "make that 6 lb".into(), reply_to: Some(first) });
    assert_freezer(&kitchen, 15.0);
}

#[test]
fn edits_and_deletions_change_the_past() {
    let mut kitchen = Kitchen::new();
    kitchen.say("froze 3 bags at 7 lb");
    let first = kitchen.last();
    kitchen.say("thawing 3 bags");
    let out = kitchen.hear("ana", Said::Edit { target: first.clone(), text: "froze 1 bag at 7 lb".into() });
    assert_eq!(topics(&out), ["reply froze"]);
    assert_eq!(out[0].re, Some(first.clone()));
    assert!(out[0].text.contains("cut to 1 bag"), "{}", out[0].text);
    assert_eq!(kitchen.state()["thawing_g"], json!(3175.147));
    let out = kitchen.hear("ana", Said::Redact { target: first });
    assert_eq!(topics(&out), ["reply undo"]);
    assert_eq!(kitchen.state()["thawing_g"], json!(0.0));
    assert_eq!(kitchen.hear("ana", Said::Redact { target: MessageId::new("$nothing") }), []);
}

#[test]
fn an_edit_that_comes_first_counts_once() {
    let mut kitchen = Kitchen::new();
    let out = kitchen.hear("ana", Said::Edit { target: MessageId::new("$late"), text: "froze 6 lb".into() });
    assert_eq!(topics(&out), ["reply froze"]);
    let late = Incoming {
        room: "home".into(),
        who: "ana".into(),
        id: MessageId::new("$late"),
        at: kitchen.now.fixed_offset(),
        direct: false,
        thread: None,
        said: text("froze 7 lb"),
    };
    assert_eq!(kitchen.assistant.hear(&late, kitchen.now), None);
    assert_freezer(&kitchen, 6.0);
}

#[test]
fn talk_that_is_edited_into_an_entry_becomes_one() {
    let mut kitchen = Kitchen::new();
    assert_eq!(kitchen.say("lovely morning"), []);
    let talk = kitchen.last();
    let out = kitchen.hear("ana", Said::Edit { target: talk, text: "froze 7 lb".into() });
    assert_eq!(topics(&out), ["reply froze"]);
    assert_freezer(&kitchen, 7.0);
}

#[test]
fn nobody_edits_somebody_elses_entry() {
    let mut kitchen = Kitchen::new();
    kitchen.say_as("ana", "froze 7 lb");
    let target = kitchen.last();
    kitchen.hear("ben", Said::Edit { target, text: "froze 70 lb".into() });
    assert_freezer(&kitchen, 7.0);
}

#[test]
fn an_answer_counts_from_the_same_person_within_ten_minutes() {
    let mut kitchen = Kitchen::new();
    assert_eq!(topics(&kitchen.say_as("ana", "froze 7")), ["problem clarify"]);
    assert_eq!(kitchen.say_as("ben", "lb"), []);
    assert_eq!(topics(&kitchen.say_as("ana", "lb")), ["reply froze"]);
    assert_freezer(&kitchen, 7.0);
    kitchen.say_as("ana", "froze 9");
    kitchen.wait(Duration::minutes(10));
    assert_eq!(kitchen.say_as("ana", "lb"), []);
    kitchen.say_as("ana", "froze 9");
    assert_eq!(kitchen.say_as("ben", "how hot it is"), []);
    assert_eq!(kitchen.say_as("ana", "how hot it is"), []);
    assert_eq!(topics(&kitchen.say_as("ana", "lb")), ["reply froze"], "what was said in between is no answer");
    assert_freezer(&kitchen, 16.0);
    kitchen.say_as("ana", "froze 9");
    assert_eq!(kitchen.say_as("ana", "never mind"), []);
    assert_eq!(kitchen.say_as("ana", "lb"), [], "the question was withdrawn");
    assert_freezer(&kitchen, 16.0);
}

#[test]
fn the_altitude_is_asked_once_and_remembered() {
    let mut kitchen = Kitchen::new();
    let out = kitchen.say("starting thick sauce in quarts");
    assert_eq!(topics(&out), ["problem clarify"]);
    assert_eq!(kitchen.state()["batch"], json!(null));
    let out = kitchen.say("2400 ft");
    assert_eq!(topics(&out), ["reply began"]);
    // USDA AIB 539 (2015), Guide 3, Standard tomato sauce: quarts, 1,001 to 3,000 ft: 45 minutes.
    assert_eq!((&out[0].facts["minutes"], &out[0].facts["tested"]), (&json!(45), &json!(true)));
    kitchen.say("undo");
    kitchen.say("altitude 2400 ft");
    assert_eq!(topics(&kitchen.say("starting thin sauce in pints")), ["reply began"]);
}

#[test]
fn a_clock_that_ran_out_while_nobody_looked_says_how_late_it_is() {
    let mut kitchen = Kitchen::new();
    for said in ["altitude 500 ft", "starting thick sauce in quarts", "filled 7 quarts", "rolling boil"] {
        kitchen.say(said);
    }
    // The program was down: no tick for an hour and a half; the process takes 40 minutes here.
    let late = kitchen.now + Duration::minutes(90);
    let commits = kitchen.assistant.tick(late);
    let out: Vec<_> = commits.iter().flat_map(|commit| commit.out.clone()).collect();
    assert_eq!(topics(&out), ["alert process-done"]);
    assert!(out[0].text.contains("I am 50 min late"), "{}", out[0].text);
    assert_eq!(kitchen.assistant.tick(late + Duration::minutes(1)), []);
}

#[test]
fn load_alerts_come_once_a_crossing_and_wait_out_quiet_hours() {
    let mut kitchen = Kitchen::new();
    kitchen.say("froze 35 lb");
    assert_eq!(topics(&kitchen.say("froze 6 lb")), ["reply froze", "alert load-near"]);
    assert_eq!(topics(&kitchen.say("froze 1 lb")), ["reply froze"]);
    assert_eq!(topics(&kitchen.say("froze 4 lb")), ["reply froze", "alert load-ready"]);
    assert_eq!(topics(&kitchen.say("froze 1 lb")), ["reply froze"]);
    assert_eq!(topics(&kitchen.say("ate 2 bags from the freezer")), ["reply ate"]);
    kitchen.say("quiet from 12:00 to 15:00");
    assert_eq!(topics(&kitchen.say("froze 20 lb")), ["reply froze"]);
    let out = kitchen.wait(Duration::hours(4));
    assert_eq!(topics(&out), ["alert load-ready"]);
    assert_eq!(out[0].at.to_rfc3339(), "2026-08-14T15:00:00-05:00");
}

#[test]
fn other_crops_do_not_make_a_load() {
    let mut kitchen = Kitchen::new();
    assert_eq!(topics(&kitchen.say("froze 60 lb of peppers")), ["reply froze"]);
}

#[test]
fn supplies_are_counted_down_and_short_ones_said() {
    let mut kitchen = Kitchen::new();
    kitchen.say("altitude 500 ft");
    kitchen.say("bought 5 lids");
    assert_eq!(topics(&kitchen.say("starting thick sauce in quarts")), ["reply began", "alert supplies-low"]);
    kitchen.say("bought 12 lids");
    kitchen.say("filled 7 quarts");
    assert_eq!(kitchen.state()["supplies"], json!({"lids": 10}));
    kitchen.say("low line for lids is 8");
    assert_eq!(topics(&kitchen.say("put up 3 quarts of sauce")), ["reply put_up", "alert supplies-low"]);
}

#[test]
fn thawed_fruit_goes_to_the_latest_batch_unless_one_is_named() {
    let mut kitchen = Kitchen::new();
    for said in [
        "altitude 500 ft",
        "froze 6 bags at 5 lb",
        "starting thick sauce in quarts",
        "starting tomato juice in quarts",
        "thawing 2 bags",
        "filled 3 quarts of juice",
    ] {
        kitchen.say(said);
    }
    let out = kitchen.say("thawing 2 bags");
    assert!(out[0].text.contains("for 'sauce'"), "{}", out[0].text);
}

#[test]
fn what_is_not_understood_is_answered_only_when_asked_directly() {
    let mut kitchen = Kitchen::new();
    assert_eq!(kitchen.say("the dog dug up the leeks again"), []);
    assert_eq!(topics(&kitchen.say("rackful, the dog dug up the leeks again")), ["problem clarify"]);
    let direct = Incoming {
        room: "home".into(),
        who: "ana".into(),
        id: MessageId::new("$direct"),
        at: kitchen.now.fixed_offset(),
        direct: true,
        thread: None,
        said: text("the dog dug up the leeks again"),
    };
    assert_eq!(topics(&kitchen.assistant.hear(&direct, kitchen.now).unwrap().out), ["problem clarify"]);
}

#[test]
fn many_messages_at_once_get_one_summary_and_few_get_their_own() {
    let messages = |count: i64| -> Vec<Incoming> {
        let at = |n| Utc.timestamp_opt(1_786_000_000 + 60 * n, 0).unwrap().fixed_offset();
        let message = |n| Incoming {
            room: "home".into(),
            who: "ana".into(),
            id: MessageId::new(&format!("${n}")),
            at: at(n),
            direct: false,
            thread: None,
            said: text("froze 1 lb"),
        };
        (0..count).map(message).collect()
    };
    let now = Utc.timestamp_opt(1_786_100_000, 0).unwrap();
    for (count, replies) in [(3, 3), (200, 1)] {
        let mut assistant = Assistant::new(Defaults::default());
        let commits = assistant.hear_all(&messages(count), now);
        assert_eq!(commits.len() as i64, count, "every message is kept");
        let out: Vec<_> = commits.iter().flat_map(|commit| commit.out.clone()).collect();
        assert_eq!(topics(&out).iter().filter(|topic| topic.starts_with("reply")).count(), replies);
        assert_eq!(assistant.state_json("home", now)["freezer"][0]["bags"].as_array().unwrap().len() as i64, count);
    }
}

#[test]
fn a_message_of_another_time_zone_belongs_to_the_day_it_was_there() {
    let mut kitchen = Kitchen::new();
    kitchen.say("timezone Pacific/Auckland");
    kitchen.say("froze 7 lb");
    // Noon of the 14th in Chicago is the 15th in Auckland.
    assert_eq!(kitchen.state()["freezer"][0]["bags"][0]["on"], json!("2026-08-15"));
}

/// What the assistant asks about is kept with the question; a number that cannot be kept would keep the message from
/// ever being heard.
#[test]
fn a_number_that_cannot_be_is_asked_about_and_kept() {
    for words in ["froze 4444444444444444444", "picked 99999999999999999999999", "make that 9223372036854775807"] {
        let mut kitchen = Kitchen::new();
        kitchen.say("picked 7 lb");
        kitchen.say(words);
        let commit = kitchen.commits.last().unwrap();
        let json = serde_json::to_string(commit).unwrap();
        serde_json::from_str::<rackful::assistant::Commit>(&json).unwrap();
    }
}
