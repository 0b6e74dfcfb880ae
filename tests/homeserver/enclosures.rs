//! Pictures and files in rooms.

use crate::bot::{Bot, USER};
use crate::encrypted_person::EncryptedPerson;
use crate::person::wait;
use crate::synapse::{Rations, Synapse};
use serde_json::Value;

/// Waits for what came with the answer to an event, of a kind.
fn enclosed(heard: &dyn Fn() -> Vec<Value>, event: &str, kind: &str) -> Value {
    let mut found = None;
    wait(&format!("{kind} for {event}"), || {
        let is_it = |content: &Value| {
            content["msgtype"] == kind && content["m.relates_to"]["m.in_reply_to"]["event_id"] == event
        };
        found = heard().into_iter().find(is_it);
        found.is_some()
    });
    found.unwrap()
}

#[test]
fn a_picture_and_a_file_come_after_their_words_in_the_same_thread_and_encrypted_where_the_room_is() {
    let server = Synapse::start(Rations::None);
    let (ana, raw_ben) = (server.register("ana"), server.register("ben"));
    server.register("rackful");
    let mut bot = Bot::new(&server);
    bot.set("RACKFUL_ALLOW", "home.test");
    bot.start();
    let room = ana.room("12", &[USER]);
    ana.wait_member(&room, USER, "join");
    for words in ["picked 30 lb", "froze 3 bags at 7 lb"] {
        ana.ask(&room, words);
    }
    let heard = || ana.said_by(&room, USER).into_iter().map(|said| said.content).collect();
    let asked = ana.say(&room, "chart freezer");
    let picture = enclosed(&heard, &asked, "m.image");
    assert_eq!(picture["info"]["mimetype"], "image/png");
    assert!(picture["info"]["w"].as_u64() > Some(100) && picture["url"].as_str().unwrap().starts_with("mxc://"));
    assert!(picture["body"].as_str().unwrap().len() > 10, "a sentence for those who do not see it: {picture}");
    let root = ana.say(&room, "papers");
    let asked = ana.say_in(&room, &root, "csv of the freezer");
    let table = enclosed(&heard, &asked, "m.file");
    assert_eq!(table["m.relates_to"]["event_id"], root.as_str(), "{table}");
    assert_eq!((table["body"].as_str(), table["info"]["mimetype"].as_str()), (Some("freezer.csv"), Some("text/csv")));

    let ben = EncryptedPerson::new(&server, "ben", USER);
    let secret = ben.room(&[USER]);
    raw_ben.wait_member(&secret, USER, "join");
    let froze = ben.say(&secret, "froze 3 bags at 7 lb");
    ben.answer(&froze);
    let asked = ben.say(&secret, "chart freezer");
    let heard =
        || ben.heard().into_iter().filter(|said| said["sender"] == USER).map(|said| said["content"].clone()).collect();
    let picture = enclosed(&heard, &asked, "m.image");
    assert!(picture["url"].is_null() && picture["file"]["key"]["k"].is_string(), "{picture}");
    assert!(bot.stop().success());
}
