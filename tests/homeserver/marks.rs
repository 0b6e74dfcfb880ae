//! Reactions, replies to the assistant's own words, deleted edits, threads and receipts: what people do in rooms beside
//! saying things.

use crate::bot::{Bot, USER};
use crate::person::{Person, wait};
use crate::synapse::{Rations, Synapse};
use serde_json::json;
use std::time::Duration;

/// Long enough for anything that should not happen to have happened.
const SILENCE: Duration = Duration::from_millis(1500);

fn freezer(ana: &Person, room: &str) -> String {
    ana.ask(room, "what's in the freezer?").body
}

#[test]
fn reactions_and_replies_to_its_own_answers_mean_the_entries_that_these_were_about() {
    let server = Synapse::start(Rations::None);
    let (ana, eve) = (server.register("ana"), server.register("eve"));
    let (mut bot, room) = Bot::in_a_room(&server, &ana, "12");
    ana.invite(&room, &eve.id);
    eve.join(&room);
    let old = ana.ask(&room, "froze 7 lb");
    let other = ana.say(&room, "froze 3 lb");
    ana.answer(&room, &other);

    // A reply to its answer corrects the entry that it answered, not the last one; so does one after a restart.
    let fix = ana.reply(&room, &old.id, "make that 6 lb");
    ana.answer(&room, &fix);
    assert!(freezer(&ana, &room).contains("9 lb"));
    bot.kill();
    bot.start();
    let fix = ana.reply(&room, &old.id, "make that 5 lb");
    ana.answer(&room, &fix);
    assert!(freezer(&ana, &room).contains("8 lb"));

    // A stranger's thumb does nothing; a permitted one takes back what was answered; taken back it counts again.
    eve.react(&room, &old.id, "👎");
    std::thread::sleep(SILENCE);
    assert!(freezer(&ana, &room).contains("8 lb"));
    let thumb = ana.react(&room, &old.id, "👎🏽");
    let first = old.re.clone().unwrap();
    wait("the answer to the thumb", || ana.answers(&room, &first).len() == 2);
    assert!(freezer(&ana, &room).contains("3 lb"));
    ana.redact(&room, &thumb);
    wait("the answer to its deletion", || ana.answers(&room, &first).len() == 3);
    assert!(freezer(&ana, &room).contains("8 lb"));

    // So does a cross on the person's own message. What means nothing is not answered.
    let before = ana.said_by(&room, USER).len();
    ana.react(&room, &other, "❤️");
    ana.react(&room, &old.id, "✅");
    std::thread::sleep(SILENCE);
    assert_eq!(ana.said_by(&room, USER).len(), before);
    ana.react(&room, &other, "❌");
    wait("the answer to the cross", || ana.answers(&room, &other).len() == 2);
    assert!(freezer(&ana, &room).contains("5 lb"));

    // A deleted edit gives the words before it back.
    let edit = ana.edit(&room, &first, "froze 20 lb");
    wait("the answer to the edit", || ana.answers(&room, &first).len() == 4);
    assert!(freezer(&ana, &room).contains("20 lb"));
    ana.redact(&room, &edit);
    wait("the answer to the deletion", || ana.answers(&room, &first).len() == 5);
    assert!(freezer(&ana, &room).contains("7 lb"));
    assert!(bot.stop().success());
}

#[test]
fn a_thumb_on_an_answer_that_it_cannot_remember_is_looked_up() {
    let server = Synapse::start(Rations::None);
    let ana = server.register("ana");
    let (mut bot, room) = Bot::in_a_room(&server, &ana, "12");
    let old = ana.ask(&room, "froze 7 lb");
    assert!(bot.stop().success());
    // As after a restored backup, or a kill between sending and noting: the answer's id is not in the journal.
    let ledger = bot.run(&["export"]);
    std::fs::remove_file(bot.file("journal.jsonl")).unwrap();
    std::fs::remove_dir_all(bot.file("index")).unwrap();
    std::fs::write(bot.file("ledger.jsonl"), ledger).unwrap();
    bot.run(&["import", bot.file("ledger.jsonl").to_str().unwrap()]);
    bot.start();
    assert!(freezer(&ana, &room).contains("7 lb"));
    ana.react(&room, &old.id, "👎");
    wait("the answer to the thumb", || ana.answers(&room, old.re.as_ref().unwrap()).len() == 2);
    assert!(!freezer(&ana, &room).contains("7 lb"));
}

#[test]
fn what_is_said_in_a_thread_is_answered_there_and_a_batch_stays_where_it_was_begun() {
    let server = Synapse::start(Rations::None);
    let ana = server.register("ana");
    let (mut bot, room) = Bot::in_a_room(&server, &ana, "12");
    let root = ana.say(&room, "sauce day!");
    let timer = ana.say_in(&room, &root, "timer 2 seconds for the roast");
    let answer = ana.answer(&room, &timer);
    let relation = |content: &serde_json::Value| content["m.relates_to"].clone();
    assert_eq!(relation(&answer.content)["rel_type"], "m.thread");
    assert_eq!(relation(&answer.content)["event_id"], root.as_str());
    let mut alerts = Vec::new();
    wait("the timer", || {
        let said = ana.said_by(&room, USER);
        alerts = said.into_iter().filter(|said| said.body.contains("roast") && said.id != answer.id).collect();
        !alerts.is_empty()
    });
    let alert = relation(&alerts[0].content);
    assert_eq!((alert["event_id"].as_str(), alert["is_falling_back"].as_bool()), (Some(root.as_str()), Some(true)));
    assert_eq!(alerts[0].content["m.mentions"]["user_ids"][0], "@ana:home.test");

    // It has read what it did not answer.
    let talk = ana.say(&room, "nice weather");
    wait("the receipt", || ana.read_up_to(&room, USER).as_deref() == Some(talk.as_str()));
    assert!(bot.stop().success());
}

#[test]
fn a_room_that_wants_few_words_gets_a_reaction_for_a_plain_entry_and_answers_in_full_otherwise() {
    let server = Synapse::start(Rations::None);
    let ana = server.register("ana");
    let (mut bot, room) = Bot::in_a_room(&server, &ana, "12");
    assert!(bot.stop().success());
    let at = "2026-08-14T14:05:00Z";
    let set = json!({"message": "$set", "part": 0, "who": ana.id, "said": at, "happened": at, "words": "answers silent",
        "statement": {"kind": "set", "key": "answers", "word": "silent"}});
    let changes = json!([{"change": "founded", "zone": "America/Chicago"}, {"change": "entered", "entries": [set]}]);
    let commit = json!({"room": room, "at": at, "message": "$set", "changes": changes, "out": []});
    let file = bot.file("ledger.jsonl");
    std::fs::write(&file, format!("{}\n{}\n", json!({"rackful_export": 1, "commits": 1}), json!({"commit": commit})))
        .unwrap();
    bot.run(&["import", file.to_str().unwrap()]);
    bot.start();
    let said = ana.say(&room, "froze 7 lb");
    wait("the mark", || ana.reactions(&room, &said, USER) == ["✅"]);
    let total = ana.ask(&room, "what's in the freezer?");
    assert!(total.body.contains("7 lb"), "{}", total.body);
    bot.kill();
    bot.start();
    let more = ana.say(&room, "froze 3 lb");
    wait("the mark", || ana.reactions(&room, &more, USER) == ["✅"]);
    assert_eq!(ana.said_by(&room, USER).len(), 1, "only the question was answered in words");
    // A thumb on the message takes it back, and that is said.
    ana.react(&room, &said, "👎");
    assert!(!ana.answer(&room, &said).body.is_empty());
}
