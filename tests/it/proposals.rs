//! What is put to the household: when it is entered and as whose, when it is dropped, and that it never counts twice.

use crate::support::{Kitchen, minutes, topics};
use chrono::Duration;
use rackful::assistant::{Assistant, Defaults, Mark, Said};
use rackful::ledger::{Entry, MessageId};
use rackful::zone::Zone;

/// What is put to the household, whoever says it.
const DOUBTFUL: &str = "picked 10 lb, not sure";

fn entries(kitchen: &Kitchen) -> Vec<Entry> {
    kitchen.assistant.ledger("home").unwrap().entries().cloned().collect()
}

fn pounds(kitchen: &Kitchen) -> Vec<f64> {
    let grams = |entry: &Entry| serde_json::to_value(&entry.statement).unwrap()["mass_g"].as_f64().unwrap();
    entries(kitchen).iter().map(|entry| (grams(entry) / 4.5359237).round() / 100.0).collect()
}

/// A kitchen in which ana said something that was put to the household, with its message.
#[track_caller]
fn proposed() -> (Kitchen, MessageId) {
    let mut kitchen = Kitchen::new();
    assert_eq!(topics(&kitchen.say_as("ana", DOUBTFUL)), ["reply propose"]);
    assert_eq!(pounds(&kitchen), [0.0; 0], "it is put, not entered");
    let message = kitchen.last();
    (kitchen, message)
}

fn mark(target: &MessageId, mark: Mark) -> Said {
    Said::Mark { target: target.clone(), mark, alert: None }
}

fn reply(target: &MessageId, text: &str) -> Said {
    Said::Text { text: text.to_owned(), reply_to: Some(target.clone()) }
}

#[test]
fn a_yes_of_anybody_enters_it_as_said_by_whoever_said_it() {
    let all = [("ana", "yes"), ("ana", "yep"), ("ben", "Yes, please!"), ("ben", "that's right"), ("ana", "👍")];
    for (who, yes) in all {
        let (mut kitchen, message) = proposed();
        let said = kitchen.now;
        kitchen.wait(Duration::hours(2));
        assert_eq!(topics(&kitchen.say_as(who, yes)), ["reply picked"], "{yes}");
        let all = entries(&kitchen);
        assert_eq!((all.len(), &*all[0].who, &all[0].message, all[0].said), (1, "ana", &message, said), "{yes}");
        assert_eq!((all[0].happened, &*all[0].words), (said, DOUBTFUL), "{yes}");
        assert_eq!(pounds(&kitchen), [10.0]);
        kitchen.say_as("ben", "yes");
        assert_eq!(pounds(&kitchen), [10.0], "a second yes is talk");
    }
}

#[test]
fn a_mark_enters_it_or_drops_it() {
    let (mut kitchen, message) = proposed();
    assert_eq!(topics(&kitchen.hear("ben", mark(&message, Mark::Done))), ["reply picked"]);
    assert_eq!(pounds(&kitchen), [10.0]);
    assert_eq!(&*entries(&kitchen)[0].who, "ana");
    // Once it is entered, a mark is one on an entry.
    kitchen.hear("ben", mark(&message, Mark::Undo));
    assert_eq!(pounds(&kitchen), [0.0; 0]);

    let (mut kitchen, message) = proposed();
    assert_eq!(topics(&kitchen.hear("ben", mark(&message, Mark::Undo))), ["reply propose"]);
    kitchen.hear("ana", mark(&message, Mark::Done));
    kitchen.say_as("ana", "yes");
    assert_eq!(pounds(&kitchen), [0.0; 0]);
}

#[test]
fn the_right_figure_enters_it() {
    for (figure, right) in [("no, 12 lb", 12.0), ("12 lb", 12.0), ("make that 12", 12.0), ("no, 10 lb", 10.0)] {
        let (mut kitchen, message) = proposed();
        kitchen.say_as("ana", figure);
        assert_eq!(pounds(&kitchen), [right], "{figure}");
        let entry = &entries(&kitchen)[0];
        assert_eq!((&*entry.who, &entry.message), ("ana", &message), "{figure}");
        kitchen.say_as("ben", "yes");
        assert_eq!(pounds(&kitchen), [right], "{figure}, then yes");
    }
    // Anybody may put it right in a reply to it.
    let (mut kitchen, message) = proposed();
    kitchen.hear("ben", reply(&message, "no, 11 lb"));
    assert_eq!(pounds(&kitchen), [11.0]);
    assert_eq!(&*entries(&kitchen)[0].who, "ana");
}

#[test]
fn a_figure_is_about_what_was_entered_since() {
    let (mut kitchen, _) = proposed();
    kitchen.say_as("ana", "froze 4 lb");
    kitchen.say_as("ana", "no, 5 lb");
    assert_eq!(pounds(&kitchen), [5.0]);
    kitchen.say_as("ana", "yes");
    assert_eq!(pounds(&kitchen).iter().sum::<f64>(), 15.0, "what was put still waits");
}

#[test]
fn a_no_drops_it() {
    for no in ["no", "nope", "❌", "No, leave it."] {
        let (mut kitchen, _) = proposed();
        assert_eq!(topics(&kitchen.say_as("ben", no)), ["reply propose"], "{no}");
        kitchen.say_as("ana", "yes");
        assert_eq!(pounds(&kitchen), [0.0; 0], "{no}");
    }
}

#[test]
fn it_lapses_after_a_day() {
    let (mut kitchen, message) = proposed();
    kitchen.wait(Duration::days(1) + minutes(1));
    assert!(kitchen.say_as("ana", "yes").is_empty());
    kitchen.hear("ben", mark(&message, Mark::Done));
    assert_eq!(pounds(&kitchen), [0.0; 0]);

    let (mut kitchen, _) = proposed();
    kitchen.wait(Duration::hours(23));
    kitchen.say_as("ana", "yes");
    assert_eq!(pounds(&kitchen), [10.0]);
}

#[test]
fn said_properly_it_is_entered_once() {
    for who in ["ana", "ben"] {
        let (mut kitchen, message) = proposed();
        kitchen.say_as(who, "picked 10 lb");
        assert_eq!(pounds(&kitchen), [10.0]);
        kitchen.say_as("ben", "yes");
        kitchen.hear("ben", mark(&message, Mark::Done));
        assert_eq!(pounds(&kitchen), [10.0], "{who} said it, and it waits no longer");
    }
    // As much of something else is something else.
    let (mut kitchen, _) = proposed();
    kitchen.say_as("ana", "picked 10 lb of peppers");
    kitchen.say_as("ana", "yes");
    assert_eq!(pounds(&kitchen), [10.0, 10.0]);
}

#[test]
fn at_most_three_are_open_in_a_room_of_several() {
    let say = |kitchen: &mut Kitchen| {
        (1..=5).for_each(|n| drop(kitchen.say_as("ana", &format!("picked {n} lb, not sure"))));
        (1..=5).for_each(|_| drop(kitchen.say_as("ana", "yes")));
    };
    let mut kitchen = Kitchen::new();
    kitchen.say_as("ben", "picked 20 lb");
    say(&mut kitchen);
    assert_eq!(pounds(&kitchen), [20.0, 3.0, 4.0, 5.0], "the oldest ones went");
    let mut kitchen = Kitchen::new();
    say(&mut kitchen);
    assert_eq!(pounds(&kitchen), [1.0, 2.0, 3.0, 4.0, 5.0]);
}

#[test]
fn a_reply_decides_on_what_it_replies_to() {
    let (mut kitchen, first) = proposed();
    kitchen.say_as("ben", "picked 3 lb, not sure");
    kitchen.hear("ben", reply(&first, "yes"));
    assert_eq!(pounds(&kitchen), [10.0]);
    kitchen.say_as("ben", "yes");
    assert_eq!(pounds(&kitchen), [10.0, 3.0]);
}

#[test]
fn an_edit_or_a_deletion_withdraws_it() {
    let (mut kitchen, message) = proposed();
    kitchen.hear("ana", Said::Redact { target: message.clone() });
    kitchen.say_as("ana", "yes");
    kitchen.hear("ben", mark(&message, Mark::Done));
    assert_eq!(pounds(&kitchen), [0.0; 0], "deleted");

    let (mut kitchen, message) = proposed();
    kitchen.hear("ana", Said::Edit { target: message.clone(), text: "what a day".into() });
    kitchen.say_as("ana", "yes");
    assert_eq!(pounds(&kitchen), [0.0; 0], "edited to talk");

    let (mut kitchen, message) = proposed();
    kitchen.hear("ana", Said::Edit { target: message.clone(), text: "picked 11 lb".into() });
    kitchen.say_as("ana", "yes");
    kitchen.hear("ben", mark(&message, Mark::Done));
    assert_eq!(pounds(&kitchen), [11.0], "edited to what counts");

    // What was entered of it goes with the message too.
    let (mut kitchen, message) = proposed();
    kitchen.say_as("ben", "yes");
    kitchen.hear("ana", Said::Redact { target: message });
    assert_eq!(pounds(&kitchen), [0.0; 0]);
}

#[test]
fn the_commits_make_the_same_room() {
    let (mut kitchen, message) = proposed();
    for (who, said) in [
        ("ben", "picked 3 lb, not sure"),
        ("ben", "no"),
        ("ana", "froze 4 lb, i could be wrong"),
        ("ana", "no, 5 lb"),
        ("ben", "picked 2 lb, not certain"),
    ] {
        kitchen.say_as(who, said);
    }
    let mut restored = Assistant::new(Defaults { zone: Zone::parse("America/Chicago"), ..Defaults::default() });
    for commit in &kitchen.commits {
        let line = serde_json::to_string(commit).unwrap();
        restored.restore(&serde_json::from_str(&line).unwrap());
    }
    assert_eq!(restored.state_json("home", kitchen.now), kitchen.state());
    assert_eq!(pounds(&kitchen), [5.0]);
    // What waits there still waits.
    std::mem::swap(&mut kitchen.assistant, &mut restored);
    kitchen.say_as("ana", "yes");
    kitchen.hear("ana", mark(&message, Mark::Done));
    let here = entries(&kitchen);
    assert_eq!(here.iter().map(|entry| &*entry.who).collect::<Vec<_>>(), ["ana", "ana", "ben"]);
    assert_eq!(pounds(&kitchen), [10.0, 5.0, 2.0]);
}

#[test]
fn the_same_message_again_is_put_once() {
    let (mut kitchen, message) = proposed();
    kitchen.say_as("ana", "yes");
    // Edited to the same doubtful words it is put again, and what was entered of it does not stand beside that.
    kitchen.hear("ana", Said::Edit { target: message, text: DOUBTFUL.into() });
    kitchen.say_as("ana", "yes");
    assert_eq!(pounds(&kitchen), [10.0]);
}

#[test]
fn words_of_a_talk_that_goes_on_name_no_recipe() {
    // The very next words may name a recipe of the household's own, whatever they are.
    let mut kitchen = Kitchen::new();
    assert_eq!(topics(&kitchen.say_as("ana", "put up 7 quarts")), ["problem clarify"]);
    assert_eq!(topics(&kitchen.say_as("ana", "fire relish")), ["reply put_up"]);
    for (who, between) in [("ben", "dinner at six?"), ("ana", "phone is for you ben, it is your sister")] {
        let mut kitchen = Kitchen::new();
        kitchen.say_as("ana", "put up 7 quarts");
        kitchen.say_as(who, between);
        assert!(kitchen.say_as("ana", "lovely smell").is_empty(), "{between}");
        // A product that is known still answers, as long as the question waits.
        assert_eq!(topics(&kitchen.say_as("ana", "tomato juice")), ["reply put_up"], "{between}");
        assert_eq!(entries(&kitchen).len(), 1);
    }
}

#[test]
fn an_answer_may_be_followed_by_more() {
    let mut kitchen = Kitchen::new();
    kitchen.say_as("ana", "picked 20");
    kitchen.say_as("ana", "Lb. And 4 lb of peppers.");
    assert_eq!(pounds(&kitchen), [20.0, 4.0]);
    let mut kitchen = Kitchen::new();
    kitchen.say_as("ana", "froze 8 of peppers");
    kitchen.say_as("ana", "9 lb actually, weighed it again");
    assert_eq!(pounds(&kitchen), [9.0]);
    // What an answer made goes with the message that was asked about.
    kitchen.hear("ana", Said::Redact { target: MessageId::new("$1") });
    assert_eq!(pounds(&kitchen), [0.0; 0]);
}
