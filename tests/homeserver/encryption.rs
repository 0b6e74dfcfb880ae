//! Encrypted rooms, with another implementation at the other end.

use crate::bot::{Bot, USER};
use crate::encrypted_person::EncryptedPerson;
use crate::person::wait;
use crate::synapse::{Rations, Synapse};
use std::os::unix::fs::PermissionsExt;
use std::time::Duration;

const SILENCE: Duration = Duration::from_millis(1500);

fn body(said: &serde_json::Value) -> &str {
    said["content"]["body"].as_str().unwrap()
}

/// An assistant in an encrypted room that Ana has made.
fn in_an_encrypted_room(server: &Synapse, set: &[(&'static str, &str)]) -> (Bot, EncryptedPerson, String) {
    let raw = server.register("ana");
    server.register("rackful");
    let mut bot = Bot::new(server);
    for (name, value) in set {
        bot.set(name, value);
    }
    bot.start();
    let ana = EncryptedPerson::new(server, "ana", USER);
    let room = ana.room(&[USER]);
    raw.wait_member(&room, USER, "join");
    (bot, ana, room)
}

#[test]
fn in_an_encrypted_room_messages_replies_edits_deletions_and_late_keys_count_as_in_any_other() {
    let server = Synapse::start(Rations::None);
    let (mut bot, ana, room) = in_an_encrypted_room(&server, &[]);
    let first = ana.say(&room, "froze 7 lb quartered");
    let answer = ana.answer(&first);
    assert!(body(&answer).contains("7 lb") && answer["encrypted"] == true, "{answer}");
    let second = ana.say(&room, "froze 5 lb");
    ana.answer(&second);

    // Corrected by a reply to the older one, then by an edit.
    let fix = ana.reply(&room, &first, "make that 6.5");
    assert!(body(&ana.answer(&fix)).contains("11.5 lb"), "{}", ana.answer(&fix));
    ana.edit(&room, &first, "froze 6 lb");
    wait("the answer to the edit", || ana.answers(&first).len() == 2);
    ana.redact(&room, &second);
    wait("the answer to the deletion", || ana.answers(&second).len() == 2);

    // A key that comes after its message, and after a restart in between.
    let late = ana.say_locked(&room, "froze 3 lb");
    std::thread::sleep(SILENCE);
    assert_eq!(ana.answers(&late).len(), 0);
    bot.kill();
    bot.start();
    ana.release();
    assert!(body(&ana.answer(&late)).contains("9 lb"), "{}", ana.answer(&late));

    // Killed with something said meanwhile under a new key.
    bot.kill();
    let meanwhile = ana.send(
        &room,
        serde_json::json!({"msgtype": "m.text", "body": "froze 1 lb"}),
        serde_json::json!({"new_key": true}),
    );
    bot.start();
    assert!(body(&ana.answer(&meanwhile)).contains("10 lb"), "{}", ana.answer(&meanwhile));
    std::thread::sleep(SILENCE);
    for event in [&late, &meanwhile] {
        assert_eq!(ana.answers(event).len(), 1);
    }
    assert!(bot.stop().success());
    let log = bot.log();
    assert!(!log.contains("quartered"), "{log}");
}

#[test]
fn the_device_is_signed_and_the_recovery_key_is_made_once_and_brings_a_new_device_back() {
    let server = Synapse::start(Rations::None);
    let (mut bot, ana, room) = in_an_encrypted_room(&server, &[("RACKFUL_STORE_PASSPHRASE", "correct horse battery")]);
    let file = bot.file("matrix/recovery-key");
    wait("the recovery key", || file.exists() && bot.log().contains("recovery_key="));
    assert_eq!(ana.signed_devices(USER), 1);
    assert_eq!(std::fs::metadata(&file).unwrap().permissions().mode() & 0o777, 0o600);
    let key = std::fs::read_to_string(&file).unwrap();
    let said = ana.say(&room, "froze 7 lb");
    ana.answer(&said);
    bot.kill();
    bot.start();
    wait("it to see to its keys again", || bot.log().matches("recovery_key=").count() == 2);
    assert_eq!(std::fs::read_to_string(&file).unwrap(), key, "it is made once");
    assert!(bot.log().contains(&file.display().to_string()), "the log says where it is");
    assert!(
        !bot.log().contains(key.trim()) && !bot.log().contains("correct horse"),
        "secrets have no place in the log"
    );
    assert!(bot.stop().success());
    let checked = bot.check();
    assert!(checked.contains("recovery key: in ") && checked.contains("locked with a passphrase"), "{checked}");

    // What is on disk cannot be opened without the passphrase, nor with another.
    bot.set("RACKFUL_STORE_PASSPHRASE", "wrong");
    bot.start();
    assert_eq!(bot.ended().code(), Some(1));
    assert!(bot.log().contains("the passphrase does not open the key store"), "{}", bot.log());
    bot.set("RACKFUL_STORE_PASSPHRASE", "correct horse battery");

    // The session is lost: a new device, signed by the same identity with the kept key.
    std::fs::remove_file(bot.file("matrix/session.json")).unwrap();
    bot.start();
    wait("the keys to be recovered", || bot.log().matches("recovery_key=").count() == 3);
    assert!(bot.log().contains("recovered the keys of this account"), "{}", bot.log());
    assert_eq!(ana.signed_devices(USER), 2);
    let again = ana.say(&room, "froze 1 lb");
    assert!(body(&ana.answer(&again)).contains("8 lb"));
}

#[test]
fn of_messages_whose_keys_never_come_the_room_is_told_once() {
    let server = Synapse::start(Rations::None);
    let (mut bot, ana, room) = in_an_encrypted_room(&server, &[("RACKFUL_KEY_WAIT", "3s")]);
    let said = ana.say(&room, "froze 7 lb");
    ana.answer(&said);
    let lost = ana.say_locked(&room, "froze 50 lb");
    bot.kill();
    bot.start();
    let told = ana.answer(&lost);
    assert!(body(&told).contains("cannot read this message"), "{told}");
    ana.forget();
    bot.kill();
    bot.start();
    let total = ana.say(&room, "what's in the freezer?");
    assert!(body(&ana.answer(&total)).contains("7 lb"), "{}", ana.answer(&total));
    std::thread::sleep(SILENCE);
    assert_eq!(ana.answers(&lost).len(), 1);
}
