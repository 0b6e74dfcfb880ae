//! Marks on messages, edits that are taken back, and threads: what people do in a room beside saying words.

use crate::support::{Kitchen, entry, topics};
use chrono::Duration;
use rackful::assistant::{Assistant, Commit, Defaults, Mark, OutKind, Outgoing, Said};
use rackful::ledger::{Change, MessageId};
use rackful::statement::{Set, Statement};
use rackful::vocabulary::SettingKey;
use rackful::zone::Zone;

fn text(text: &str) -> Said {
    Said::Text { text: text.to_owned(), reply_to: None }
}

fn edit(target: &MessageId, text: &str) -> Said {
    Said::Edit { target: target.clone(), text: text.to_owned() }
}

fn redact(target: &MessageId) -> Said {
    Said::Redact { target: target.clone() }
}

fn thumbs_down(target: &MessageId) -> Said {
    Said::Mark { target: target.clone(), mark: Mark::Undo, alert: None }
}

#[track_caller]
fn assert_freezer(kitchen: &Kitchen, pounds: f64) {
    let total = |crop: &serde_json::Value| crop["mass_g"].as_f64().unwrap() / 453.59237;
    let there: f64 = kitchen.state()["freezer"].as_array().unwrap().iter().map(total).sum();
    assert!((there - pounds).abs() < 1e-4, "{there} lb in the freezer, not {pounds}");
    // What was kept makes the same room again.
    let mut again = Assistant::new(Defaults { zone: Zone::parse("America/Chicago"), ..Defaults::default() });
    kitchen.commits.iter().for_each(|commit| again.restore(commit));
    assert_eq!(again.state_json("home", kitchen.now), kitchen.state());
}

/// Sets how much is said of plain entries.
fn set_answers(kitchen: &mut Kitchen, word: &str) {
    kitchen.say("good morning");
    let mut set = Set::of(SettingKey::Answers);
    set.word = Some(word.to_owned());
    let entries = vec![entry("$set", kitchen.now, Statement::Set(set))];
    let (room, at, changes) = ("home".into(), kitchen.now, vec![Change::Entered { entries }]);
    let commit = Commit { room, at, message: Some(MessageId::new("$set")), said: None, changes, out: Vec::new() };
    kitchen.assistant.restore(&commit);
    kitchen.commits.push(commit);
}

#[test]
fn a_deleted_edit_gives_the_words_before_it_back() {
    let mut kitchen = Kitchen::new();
    kitchen.say("froze 7 lb");
    let message = kitchen.last();
    kitchen.hear("ana", edit(&message, "froze 6 lb"));
    let first = kitchen.last();
    kitchen.hear("ana", edit(&message, "froze 5 lb"));
    let second = kitchen.last();
    assert_freezer(&kitchen, 5.0);
    let out = kitchen.hear("ana", redact(&second));
    assert_freezer(&kitchen, 6.0);
    assert_eq!((topics(&out), out[0].re.as_ref()), (vec!["reply froze".to_owned()], Some(&message)));
    assert_eq!(topics(&kitchen.hear("ana", redact(&second))), Vec::<String>::new(), "it is gone already");
    kitchen.hear("ana", redact(&first));
    assert_freezer(&kitchen, 7.0);
    kitchen.hear("ana", redact(&message));
    assert_freezer(&kitchen, 0.0);
}

#[test]
fn an_edit_before_the_last_is_deleted_without_changing_anything() {
    let mut kitchen = Kitchen::new();
    kitchen.say("froze 7 lb");
    let message = kitchen.last();
    kitchen.hear("ana", edit(&message, "froze 6 lb"));
    let first = kitchen.last();
    kitchen.hear("ana", edit(&message, "froze 5 lb"));
    let second = kitchen.last();
    assert_eq!(kitchen.hear("ana", redact(&first)), []);
    assert_freezer(&kitchen, 5.0);
    kitchen.hear("ana", redact(&second));
    assert_freezer(&kitchen, 7.0);
}

#[test]
fn an_edit_that_made_an_entry_of_talk_makes_it_talk_again_when_it_is_deleted() {
    let mut kitchen = Kitchen::new();
    kitchen.say("nice weather");
    let message = kitchen.last();
    kitchen.hear("ana", edit(&message, "froze 6 lb"));
    assert_freezer(&kitchen, 6.0);
    let edited = kitchen.last();
    kitchen.hear("ana", redact(&edited));
    assert_freezer(&kitchen, 0.0);
}

#[test]
fn a_thumbs_down_undoes_that_entry_and_taking_it_back_enters_it_again() {
    let mut kitchen = Kitchen::new();
    kitchen.say("froze 7 lb");
    let old = kitchen.last();
    kitchen.say("froze 3 lb");
    let out = kitchen.hear("ben", thumbs_down(&old));
    let mark = kitchen.last();
    assert_eq!((topics(&out), out[0].re.as_ref()), (vec!["reply undo".to_owned()], Some(&old)));
    assert_freezer(&kitchen, 3.0);
    assert_eq!(kitchen.hear("ana", thumbs_down(&old)), [], "there is nothing left to undo");
    kitchen.hear("ben", redact(&mark));
    assert_freezer(&kitchen, 10.0);
    assert_eq!(kitchen.hear("ben", redact(&mark)), []);
    assert_eq!(kitchen.hear("ben", thumbs_down(&MessageId::new("$never"))), []);
}

#[test]
fn an_entry_that_was_edited_after_its_mark_stays_as_edited_when_the_mark_is_taken_back() {
    let mut kitchen = Kitchen::new();
    kitchen.say("froze 7 lb");
    let message = kitchen.last();
    kitchen.hear("ana", thumbs_down(&message));
    let mark = kitchen.last();
    kitchen.hear("ana", edit(&message, "froze 6 lb"));
    kitchen.hear("ana", redact(&mark));
    assert_freezer(&kitchen, 6.0);
}

#[test]
fn a_mark_on_a_question_undoes_what_its_answer_made() {
    let mut kitchen = Kitchen::new();
    kitchen.say("froze 7");
    let question = kitchen.last();
    kitchen.say("lb");
    assert_freezer(&kitchen, 7.0);
    kitchen.hear("ana", thumbs_down(&question));
    assert_freezer(&kitchen, 0.0);
}

#[test]
fn an_answer_stays_in_its_thread_and_what_concerns_the_household_does_not() {
    let mut kitchen = Kitchen::new();
    let root = MessageId::new("$root");
    let out = kitchen.hear_in(Some(root.clone()), "ana", text("froze 7 bags at 7 lb"));
    let thread = |kind: OutKind| out.iter().find(|out| out.out == kind).unwrap().thread.clone();
    assert_eq!(thread(OutKind::Reply), Some(root));
    assert_eq!(thread(OutKind::Alert), None, "{out:?}");
}

#[test]
fn the_alerts_of_a_batch_come_in_the_thread_that_it_was_begun_in() {
    let mut kitchen = Kitchen::new();
    let root = MessageId::new("$root");
    for words in ["altitude 500 ft", "canner is steam, holds 7 quarts", "froze 7 bags at 7 lb", "thawing 7 bags"] {
        kitchen.say(words);
    }
    kitchen.hear_in(Some(root.clone()), "ana", text("starting thick sauce in quarts"));
    for words in ["filled 7 quarts", "citric acid is in", "steam's up"] {
        kitchen.say(words);
    }
    kitchen.hear_in(Some(MessageId::new("$other")), "ana", text("timer 10 min for the roast"));
    let alerts = kitchen.wait(Duration::hours(1));
    let find = |topic: &str| -> &Outgoing { alerts.iter().find(|out| out.topic == topic).unwrap() };
    assert_eq!(find("process-done").thread, Some(root));
    assert_eq!(find("timer-done").thread, Some(MessageId::new("$other")));
    assert!(find("process-done").alert.is_some());
}

#[test]
fn a_room_of_few_words_gets_a_mark_for_plain_entries_and_everything_else_in_full() {
    for (answers, expected) in
        [("full", vec!["reply froze"]), ("brief", vec!["mark froze", "reply froze"]), ("silent", vec!["mark froze"])]
    {
        let mut kitchen = Kitchen::new();
        set_answers(&mut kitchen, answers);
        let out = kitchen.say("froze 7 lb");
        assert_eq!(topics(&out), expected, "{answers}");
        assert!(out.iter().all(|out| out.re == Some(kitchen.last()) && out.text.lines().count() == 1));
        for (words, topic) in [
            ("what's in the freezer?", "reply ask"),
            ("thawed 9 bags", "problem not-enough"),
            ("altitude 2400 ft", "reply set"),
            ("make that 6 lb", "problem clarify"),
            ("froze 7", "problem clarify"),
        ] {
            let said = topics(&kitchen.say(words));
            assert!(
                said.iter().any(|said| said == topic || (said.starts_with("reply") && !said.contains("mark"))),
                "{answers}, {words}: {said:?}"
            );
        }
        let begun = kitchen.say("starting thick sauce in quarts");
        assert!(begun.iter().all(|out| out.out != OutKind::Mark), "{begun:?}");
        // Keys are what makes sending twice sending once.
        let mut keys: Vec<_> =
            kitchen.commits.iter().flat_map(|commit| commit.out.iter().map(|out| &out.key)).collect();
        let all = keys.len();
        keys.sort();
        keys.dedup();
        assert_eq!(keys.len(), all);
    }
}

#[test]
fn what_was_not_read_is_said_in_full_even_where_words_are_few() {
    let mut kitchen = Kitchen::new();
    set_answers(&mut kitchen, "silent");
    let out = kitchen.say("froze 7 lb and 12 zorps");
    assert!(out.iter().all(|out| out.out != OutKind::Mark) && !out.is_empty(), "{out:?}");
}
