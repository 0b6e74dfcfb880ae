//! What happens when something is down, or says no.

use crate::bot::{Bot, USER};
use crate::person::{Person, wait};
use crate::synapse::{Rations, Synapse, free_port};
use std::time::Duration;

/// Long enough for a second answer to have come.
const SILENCE: Duration = Duration::from_millis(1500);

fn answered_once(ana: &Person, room: &str, events: &[String]) {
    for event in events {
        ana.answer(room, event);
    }
    std::thread::sleep(SILENCE);
    for event in events {
        assert_eq!(ana.answers(room, event).len(), 1, "answers to {event}");
    }
}

/// A number of the environment.
pub fn number(name: &str) -> Option<u64> {
    std::env::var(name).ok().map(|text| text.parse().unwrap())
}

/// What the dice of a test begin with: `RACKFUL_TEST_SEED` repeats a run.
pub fn seed() -> u64 {
    let seed = number("RACKFUL_TEST_SEED").unwrap_or_else(|| {
        u64::from(std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH).unwrap().subsec_nanos())
    });
    eprintln!("RACKFUL_TEST_SEED={seed}");
    seed
}

#[test]
fn of_what_was_said_while_it_was_down_few_are_answered_one_by_one_and_many_in_one_summary() {
    let server = Synapse::start(Rations::None);
    let ana = server.register("ana");
    let (mut bot, room) = Bot::in_a_room(&server, &ana, "12");
    ana.ask(&room, "froze 1 lb");
    assert!(bot.stop().success());
    let few: Vec<_> = (0..3).map(|_| ana.say(&room, "froze 1 lb")).collect();
    bot.start();
    answered_once(&ana, &room, &few);
    bot.kill();
    let many: Vec<_> = (0..200).map(|_| ana.say(&room, "froze 1 lb")).collect();
    let before = ana.said_by(&room, USER).len();
    bot.start();
    wait("the summary", || ana.said_by(&room, USER).len() > before);
    let total = ana.ask(&room, "what's in the freezer?");
    assert!(total.body.contains("204 lb"), "{}", total.body);
    std::thread::sleep(SILENCE);
    let answers: usize = {
        let said = ana.said(&room);
        said.iter().filter(|message| message.re.as_ref().is_some_and(|re| many.contains(re))).count()
    };
    assert!(answers <= 1, "{answers} answers to 200 messages");
    let since = ana.said_by(&room, USER).len() - before;
    assert!(since <= 4, "a summary, the answer, and at most an alert of each kind: {since}");
}

#[test]
fn a_homeserver_that_goes_away_and_comes_back_is_found_again() {
    let mut server = Synapse::start(Rations::None);
    let ana = server.register("ana");
    let (mut bot, room) = Bot::in_a_room(&server, &ana, "12");
    ana.ask(&room, "froze 1 lb");
    server.down();
    wait("it to notice", || bot.log().contains("cannot reach the homeserver"));
    server.up();
    let said: Vec<_> = (0..2).map(|_| ana.say(&room, "froze 1 lb")).collect();
    answered_once(&ana, &room, &said);
    // It also starts while the homeserver is away, with a kept session that needs no password.
    bot.kill();
    server.down();
    bot.set("RACKFUL_PASSWORD", "");
    bot.start();
    std::thread::sleep(Duration::from_secs(1));
    assert!(bot.is_running());
    server.up();
    let total = ana.ask(&room, "what's in the freezer?");
    assert!(total.body.contains("3 lb"), "{}", total.body);
}

#[test]
fn a_wrong_password_ends_it_with_a_sentence_and_no_homeserver_does_not() {
    let server = Synapse::start(Rations::None);
    let account = server.register("rackful");
    let mut bot = Bot::new(&server);
    bot.set("RACKFUL_PASSWORD", "wrong-horse");
    bot.start();
    assert_eq!(bot.ended().code(), Some(1));
    let log = bot.log();
    assert!(log.contains("does not accept the password") && !log.contains("wrong-horse"), "{log}");
    assert!(!bot.file("matrix/session.json").exists());

    bot.set("RACKFUL_PASSWORD", "");
    bot.set("RACKFUL_ACCESS_TOKEN", "syt_no_such_token");
    bot.start();
    assert_eq!(bot.ended().code(), Some(1));
    assert!(!bot.log().contains("syt_no_such_token"));

    // The token of a device of its own does as well as a password.
    bot.set("RACKFUL_ACCESS_TOKEN", account.token());
    bot.start();
    wait("it to serve", || bot.file("matrix/session.json").exists());
    let ana = server.register("ana");
    let room = ana.room("12", &[USER]);
    ana.wait_member(&room, USER, "join");
    let answer = ana.ask(&room, "froze 7 lb");
    assert!(answer.body.contains("7 lb"), "{}", answer.body);
    assert!(bot.stop().success());

    let mut lost = Bot::new(&server);
    lost.set_address(&format!("http://127.0.0.1:{}", free_port()));
    lost.start();
    wait("it to say so", || lost.log().contains("cannot reach the homeserver"));
    std::thread::sleep(Duration::from_secs(2));
    assert!(lost.is_running(), "{}", lost.log());
    assert_eq!(lost.log().matches("cannot reach the homeserver").count(), 1, "{}", lost.log());
    assert!(lost.stop().success(), "{}", lost.log());
}

#[test]
fn under_the_homeservers_own_rations_every_reply_still_comes_once() {
    let server = Synapse::start(Rations::Own);
    let (ana, ben) = (server.register("ana"), server.register("ben"));
    server.register("rackful");
    let mut bot = Bot::new(&server);
    bot.set("RACKFUL_ALLOW", "home.test");
    bot.start();
    let room = ana.room("12", &[USER, &ben.id]);
    ben.join(&room);
    ana.wait_member(&room, USER, "join");
    let mut said = Vec::new();
    // Seven each are within the people's own rations, fourteen beyond the assistant's.
    for _ in 0..7 {
        said.push(ana.say(&room, "froze 1 lb"));
        said.push(ben.say(&room, "froze 1 lb"));
        // So that each is a sync of its own, and none is part of a summary.
        std::thread::sleep(Duration::from_millis(250));
    }
    answered_once(&ana, &room, &said);
    let answers = ana.said_by(&room, USER);
    assert!(answers.iter().any(|answer| answer.body.contains("14 lb")), "{answers:?}");
}
