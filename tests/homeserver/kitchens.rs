//! Rooms that come and go: replaced, moved, shown out of; and several of them.

use crate::bot::{Bot, USER};
use crate::person::{Person, wait};
use crate::synapse::{Rations, Synapse};
use std::time::Duration;

/// Long enough for anything that should not happen to have happened.
const SILENCE: Duration = Duration::from_millis(1500);

fn freezer(person: &Person, room: &str) -> String {
    person.ask(room, "rackful, what's in the freezer?").body
}

fn alerts(person: &Person, room: &str) -> Vec<String> {
    let said = person.said_by(room, USER).into_iter();
    said.filter(|said| said.re.is_none()).map(|said| said.body).collect()
}

#[test]
fn when_a_room_is_replaced_the_ledger_and_its_alerts_go_on_in_the_new_one() {
    let server = Synapse::start(Rations::None);
    let ana = server.register("ana");
    let (mut bot, old) = Bot::in_a_room(&server, &ana, "10");
    ana.ask(&old, "froze 7 lb");
    ana.ask(&old, "timer 12 seconds for the roast");
    bot.kill();
    let new = ana.upgrade(&old, "12");
    // Said before the assistant is in the new room: for people it is the same one.
    let early = ana.say(&new, "froze 3 lb");
    bot.start();
    wait("it to wait for an invitation", || bot.log().contains("waits for an invitation"));
    ana.invite(&new, USER);
    ana.wait_member(&new, USER, "join");
    ana.answer(&new, &early);
    assert!(freezer(&ana, &new).contains("10 lb"), "{}", freezer(&ana, &new));
    wait("the timer in the new room", || alerts(&ana, &new).iter().any(|alert| alert.contains("roast")));
    assert!(alerts(&ana, &old).is_empty());
    bot.kill();
    bot.start();
    ana.ask(&new, "froze 1 lb");
    // And once more, while it runs.
    let newest = ana.upgrade(&new, "11");
    ana.invite(&newest, USER);
    ana.wait_member(&newest, USER, "join");
    assert!(freezer(&ana, &newest).contains("11 lb"), "{}", freezer(&ana, &newest));
    std::thread::sleep(SILENCE);
    assert_eq!(ana.answers(&new, &early).len(), 1);
    assert!(bot.stop().success());
}

#[test]
fn shown_out_it_is_silent_keeps_the_ledger_and_goes_on_when_it_is_invited_again() {
    let server = Synapse::start(Rations::None);
    let (ana, eve) = (server.register("ana"), server.register("eve"));
    let (mut bot, room) = Bot::in_a_room(&server, &ana, "12");
    ana.invite(&room, &eve.id);
    eve.join(&room);
    ana.ask(&room, "froze 7 lb");
    ana.ask(&room, "timer 3 seconds for the roast");
    bot.kill();
    // Said just before it is shown out, and after.
    ana.say(&room, "froze 2 lb");
    ana.show_out("ban", &room, USER);
    ana.say(&room, "froze 50 lb");
    bot.start();
    wait("it to notice", || bot.log().contains("no longer in the room"));
    std::thread::sleep(Duration::from_secs(3));
    assert!(bot.is_running());
    ana.show_out("unban", &room, USER);
    ana.invite(&room, USER);
    ana.wait_member(&room, USER, "join");
    assert!(freezer(&ana, &room).contains("9 lb"), "{}", freezer(&ana, &room));
    wait("what had waited", || alerts(&ana, &room).len() == 1);
    assert!(bot.stop().success());
}

#[test]
fn kitchens_are_kept_apart_and_one_can_be_moved_to_another_room() {
    let server = Synapse::start(Rations::None);
    let (ana, ben) = (server.register("ana"), server.register("ben"));
    server.register("rackful");
    let mut bot = Bot::new(&server);
    bot.set("RACKFUL_ALLOW", "@ana:home.test,@ben:home.test");
    bot.start();
    // Ana is in two kitchens, Ben in one of them.
    let home = ana.room("12", &[USER]);
    let cabin = ana.room("12", &[USER, &ben.id]);
    ben.join(&cabin);
    ana.wait_member(&home, USER, "join");
    ana.wait_member(&cabin, USER, "join");
    let at_home = ana.ask(&home, "froze 7 lb");
    ana.ask(&cabin, "froze 3 lb");
    ben.ask(&cabin, "froze 2 lb");
    assert!(freezer(&ana, &home).contains("7 lb") && freezer(&ben, &cabin).contains("5 lb"));
    let undone = ana.ask(&cabin, "undo");
    assert!(undone.body.contains('3'), "{}", undone.body);
    assert!(freezer(&ana, &home).contains("7 lb") && freezer(&ben, &cabin).contains("2 lb"));

    // The home kitchen moves; the cabin's room is taken.
    ana.ask(&home, "timer 8 seconds for the roast");
    assert!(bot.stop().success());
    let elsewhere = ana.room("12", &[USER]);
    assert!(bot.fails(&["move", &home, &cabin]).contains("entries of its own"));
    assert!(bot.run(&["move", &home, &elsewhere]).contains(&elsewhere));
    bot.start();
    ana.wait_member(&elsewhere, USER, "join");
    assert!(freezer(&ana, &elsewhere).contains("7 lb"));
    wait("the timer in the new room", || alerts(&ana, &elsewhere).iter().any(|alert| alert.contains("roast")));
    // What was answered in the old room can still be corrected there, and is answered in the new one.
    let before = ana.said_by(&elsewhere, USER).len();
    ana.react(&home, &at_home.id, "👎");
    wait("the answer to the thumb", || ana.said_by(&elsewhere, USER).len() > before);
    assert!(!freezer(&ana, &elsewhere).contains("7 lb"));
    assert!(bot.stop().success());
}
