//! What happens in rooms when all goes well.

use crate::bot::{Bot, USER};
use crate::synapse::{Rations, Synapse};
use serde_json::json;
use std::time::Duration;

/// Long enough for anything that should not happen to have happened.
const SILENCE: Duration = Duration::from_millis(1500);

#[test]
fn a_permitted_person_invites_and_each_phrase_is_answered_by_a_notice_that_replies() {
    let server = Synapse::start(Rations::None);
    let ana = server.register("ana");
    let (mut bot, room) = Bot::in_a_room(&server, &ana, "12");
    let froze = ana.say(&room, "froze 7 lb quartered");
    let answer = ana.answer(&room, &froze);
    assert_eq!((answer.kind.as_str(), answer.sender.as_str()), ("m.notice", USER));
    assert!(answer.body.contains("7 lb"), "{}", answer.body);
    assert_eq!(answer.content["m.mentions"], json!({}), "a reply calls nobody");
    let total = ana.ask(&room, "froze 7 lb more");
    assert!(total.body.contains("14 lb"), "{}", total.body);

    // In a room of two even this is answered; what it quotes must not become markup.
    let odd = ana.ask(&room, "<script>alert(1)</script> & <b>");
    assert!(!odd.html.contains("<script") && !odd.html.contains("<b>"), "{}", odd.html);
    assert!(!odd.html.is_empty() && odd.content["format"] == "org.matrix.custom.html");

    // Neither its own words nor those of other programs are taken in.
    let before = ana.said(&room).len();
    ana.send(&room, json!({"msgtype": "m.notice", "body": "froze 7 lb"}));
    ana.send(&room, json!({"msgtype": "m.emote", "body": "froze 7 lb"}));
    std::thread::sleep(SILENCE);
    assert_eq!(ana.said(&room).len(), before + 2, "notices and emotes are not answered");
    let total = ana.ask(&room, "what's in the freezer?");
    assert!(total.body.contains("14 lb"), "{}", total.body);
    assert!(bot.stop().success(), "{}", bot.log());
    let log = bot.log();
    assert!(!log.contains("quartered") && !log.contains("froze 7"), "message text has no place in the log:\n{log}");
}

#[test]
fn strangers_are_neither_joined_nor_heard() {
    let server = Synapse::start(Rations::None);
    let (ana, eve) = (server.register("ana"), server.register("eve"));
    let (mut bot, room) = Bot::in_a_room(&server, &ana, "10");
    let theirs = eve.room("12", &[USER]);
    ana.invite(&room, &eve.id);
    eve.join(&room);
    eve.say(&room, "froze 50 lb");
    eve.say(&room, "rackful, what's in the freezer?");
    let answer = ana.ask(&room, "froze 7 lb");
    assert!(answer.body.contains("7 lb") && !answer.body.contains("57 lb"), "{}", answer.body);
    // In a room of three, talk is not answered.
    ana.say(&room, "remember when we froze 80 lb");
    std::thread::sleep(SILENCE);
    assert_eq!(ana.said_by(&room, USER).len(), 1, "one phrase was for the ledger");
    assert_eq!(eve.membership(&theirs, USER), "invite", "the stranger's invitation lies where it was");
    assert!(bot.is_running());
}

#[test]
fn what_was_said_before_it_joined_does_not_count_and_what_came_right_after_does() {
    let server = Synapse::start(Rations::None);
    let ana = server.register("ana");
    server.register("rackful");
    let mut bot = Bot::new(&server);
    bot.start();
    let room = ana.room("12", &[]);
    for _ in 0..3 {
        ana.say(&room, "froze 100 lb");
    }
    ana.invite(&room, USER);
    ana.wait_member(&room, USER, "join");
    let answer = ana.ask(&room, "froze 7 lb");
    assert!(answer.body.contains("7 lb") && !answer.body.contains("307 lb"), "{}", answer.body);
    assert_eq!(ana.said_by(&room, USER).len(), 1);
}

#[test]
fn edits_deletions_and_replies_act_on_the_entry() {
    let server = Synapse::start(Rations::None);
    let ana = server.register("ana");
    // The two shapes of deletions: before room version 11, and since.
    let (mut bot, old) = Bot::in_a_room(&server, &ana, "10");
    let new = ana.room("12", &[USER]);
    ana.wait_member(&new, USER, "join");
    for room in [old, new] {
        let first = ana.say(&room, "froze 7 lb");
        ana.answer(&room, &first);
        let second = ana.say(&room, "froze 5 lb");
        ana.answer(&room, &second);
        ana.edit(&room, &first, "froze 6 lb");
        crate::person::wait("the answer to the edit", || ana.answers(&room, &first).len() == 2);
        let total = ana.ask(&room, "what's in the freezer?");
        assert!(total.body.contains("11 lb"), "{}", total.body);
        ana.redact(&room, &second);
        crate::person::wait("the answer to the deletion", || ana.answers(&room, &second).len() == 2);
        let total = ana.ask(&room, "what's in the freezer?");
        assert!(total.body.contains("6 lb") && !total.body.contains("11 lb"), "{}", total.body);
    }
    assert!(bot.stop().success());
}

#[test]
fn an_alert_calls_the_household_rings_and_survives_a_restart() {
    let server = Synapse::start(Rations::None);
    let ana = server.register("ana");
    let (mut bot, room) = Bot::in_a_room(&server, &ana, "12");
    ana.ask(&room, "timer 3 seconds for the roast");
    bot.kill();
    std::thread::sleep(Duration::from_secs(3));
    bot.start();
    let mut alerts = Vec::new();
    crate::person::wait("the timer", || {
        alerts = ana.said_by(&room, USER).into_iter().filter(|said| said.re.is_none()).collect();
        !alerts.is_empty()
    });
    std::thread::sleep(SILENCE);
    assert_eq!(alerts.len(), 1, "{alerts:?}");
    assert!(alerts[0].body.contains("roast"), "{}", alerts[0].body);
    assert_eq!(alerts[0].content["m.mentions"], json!({"user_ids": ["@ana:home.test"]}));
    // By the push rules that an account begins with: the alert makes the phone ring, the answer before it does not.
    let rung = ana.rung();
    assert_eq!(rung, [(alerts[0].id.clone(), true)]);
}
