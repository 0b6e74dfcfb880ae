//! Files that go with answers: pictures, labels, calendars and tables, uploaded and sent after the words, each once.

use crate::bot::{Bot, USER};
use crate::encrypted_person::EncryptedPerson;
use crate::person::{Message, Person, wait};
use crate::synapse::{Rations, Synapse};

/// The files that answer an event, once there are so many.
fn files(ana: &Person, room: &str, event: &str, count: usize) -> Vec<Message> {
    let is_file = |said: &Message| said.kind == "m.image" || said.kind == "m.file";
    let all = || ana.answers(room, event).into_iter().filter(is_file).collect::<Vec<_>>();
    wait("the files of an answer", || all().len() >= count);
    all()
}

fn downloaded(ana: &Person, file: &Message) -> Vec<u8> {
    ana.download(file.content["url"].as_str().unwrap())
}

#[test]
fn pictures_labels_calendars_and_tables_arrive_as_files_after_the_words() {
    let server = Synapse::start(Rations::None);
    let ana = server.register("ana");
    let (mut bot, room) = Bot::in_a_room(&server, &ana, "12");
    for words in ["altitude 2400 ft", "picked 50 lb romas", "froze 14 lb in 2 bags"] {
        ana.ask(&room, words);
    }
    let asked = ana.say(&room, "chart freezer");
    let picture = &files(&ana, &room, &asked, 1)[0];
    assert_eq!((picture.kind.as_str(), &picture.content["info"]["mimetype"]), ("m.image", &"image/png".into()));
    assert_eq!((&picture.content["info"]["w"], &picture.content["info"]["h"]), (&1080.into(), &1350.into()));
    let png = downloaded(&ana, picture);
    assert!(png.starts_with(b"\x89PNG"));
    assert_eq!(picture.content["info"]["size"], png.len());
    let words = ana.answers(&room, &asked);
    assert_eq!(words.len(), 2, "the words, and the picture");
    assert!(words[0].kind == "m.notice" && words[0].body.contains("14 lb in 2 bags now"), "{:?}", words[0]);

    ana.ask(&room, "starting thick sauce, 7 quarts");
    ana.ask(&room, "filled 7 quarts");
    ana.ask(&room, "rolling boil");
    for (words, name, mime, begins) in [
        ("labels for the sauce", "labels-thick-tomato-sauce.pdf", "application/pdf", "%PDF-"),
        ("calendar please", "due.ics", "text/calendar", "BEGIN:VCALENDAR\r\n"),
        ("csv of the freezer", "freezer.csv", "text/csv", "room,crop,on,mass_g"),
        ("export everything", "ledger.jsonl", "application/jsonl", "{\"rackful_export\":1,"),
    ] {
        let asked = ana.say(&room, words);
        let file = &files(&ana, &room, &asked, 1)[0];
        assert_eq!((file.kind.as_str(), file.body.as_str()), ("m.file", name), "{words}");
        assert_eq!(file.content["info"]["mimetype"], mime, "{words}");
        assert!(downloaded(&ana, file).starts_with(begins.as_bytes()), "{words}");
    }
    assert!(bot.stop().success());
}

#[test]
fn a_room_is_never_sent_what_is_of_another_room() {
    let server = Synapse::start(Rations::None);
    let ana = server.register("ana");
    let (_bot, room) = Bot::in_a_room(&server, &ana, "12");
    let other = ana.room("12", &[USER]);
    ana.wait_member(&other, USER, "join");
    ana.ask(&room, "froze 11 lb quartered");
    ana.ask(&other, "froze 3 lb halved");
    for (words, own) in [("export everything", "halved"), ("csv of the freezer", "1360.777")] {
        let asked = ana.say(&other, words);
        let file = downloaded(&ana, &files(&ana, &other, &asked, 1)[0]);
        let text = String::from_utf8(file).unwrap();
        assert!(text.contains(own) && !text.contains("quartered") && !text.contains("4989"), "{text}");
    }
}

#[test]
fn a_file_is_shown_once_however_often_the_program_is_killed() {
    let server = Synapse::start(Rations::None);
    let ana = server.register("ana");
    let (mut bot, room) = Bot::in_a_room(&server, &ana, "12");
    ana.ask(&room, "froze 14 lb in 2 bags");
    let mut asked = Vec::new();
    for round in 0..6 {
        asked.push(ana.say(&room, "chart freezer"));
        // Somewhere between hearing it and having sent its picture.
        std::thread::sleep(std::time::Duration::from_millis(150 * round));
        bot.kill();
        bot.start();
    }
    for event in &asked {
        files(&ana, &room, event, 1);
    }
    ana.ask(&room, "what's in the freezer?");
    for event in &asked {
        assert_eq!(files(&ana, &room, event, 1).len(), 1, "a picture twice");
        assert_eq!(ana.answers(&room, event).len(), 2);
    }
}

#[test]
fn in_an_encrypted_room_a_picture_is_encrypted_too_and_another_client_opens_it() {
    let server = Synapse::start(Rations::None);
    let raw = server.register("ana");
    server.register("rackful");
    let mut bot = Bot::new(&server);
    bot.start();
    let ana = EncryptedPerson::new(&server, "ana", USER);
    let room = ana.room(&[USER]);
    raw.wait_member(&room, USER, "join");
    let entered = ana.say(&room, "froze 14 lb in 2 bags");
    ana.answer(&entered);
    let asked = ana.say(&room, "chart freezer");
    let picture = || ana.answers(&asked).into_iter().find(|said| said["content"]["msgtype"] == "m.image");
    wait("the picture", || picture().is_some());
    let content = picture().unwrap()["content"].clone();
    assert!(content.get("url").is_none(), "in the clear: {content}");
    let opened = ana.open_file(&content["file"]);
    assert!(opened.starts_with("89504e470d0a1a0a"), "{}", &opened[..32]);
}
