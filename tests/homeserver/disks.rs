//! A disk that is full or read-only: the room is told, nothing is taken in, and it goes on by itself.

use crate::bot::{Bot, USER};
use crate::person::{Person, wait};
use crate::repeats::{Seen, serve_until};
use crate::synapse::{Rations, Synapse};
use std::path::Path;
use std::process::Command;
use std::time::Duration;

const SILENCE: Duration = Duration::from_secs(2);

fn told(ana: &Person, room: &str) -> usize {
    ana.said_by(room, USER).iter().filter(|said| said.body.contains("disk takes nothing")).count()
}

/// A small disk, for as long as this lives.
struct SmallDisk<'a>(&'a Path);

impl SmallDisk<'_> {
    fn is_mounted(&self) -> bool {
        let mount =
            Command::new("mount").args(["-t", "tmpfs", "-o", "size=48m,mode=0700", "tmpfs"]).arg(self.0).status();
        mount.is_ok_and(|status| status.success())
    }
}

impl Drop for SmallDisk<'_> {
    fn drop(&mut self) {
        let _ = Command::new("umount").arg("-l").arg(self.0).status();
    }
}

#[test]
fn on_a_full_disk_the_room_is_told_and_everything_counts_once_there_is_room_again() {
    let server = Synapse::start(Rations::None);
    let ana = server.register("ana");
    server.register("rackful");
    let mut bot = Bot::new(&server);
    let data = bot.file("");
    std::fs::create_dir_all(&data).unwrap();
    let disk = SmallDisk(&data);
    if !disk.is_mounted() {
        eprintln!("no small disk can be mounted here (that takes root), so a full one is not tried");
        return;
    }
    bot.start();
    let room = ana.room("12", &[USER]);
    ana.wait_member(&room, USER, "join");
    ana.ask(&room, "froze 7 lb");
    let fill = bot.file("fill");
    std::fs::write(&fill, vec![1; 36 << 20]).unwrap();
    // The request that is under way may still come back with this; then the homeserver is not asked any more.
    let first = ana.say(&room, "froze 3 lb");
    wait("it to say so", || told(&ana, &room) == 1);
    let second = ana.say(&room, "froze 2 lb");
    std::thread::sleep(SILENCE);
    assert!(ana.answers(&room, &second).is_empty());
    // It is no different for one that starts on it.
    bot.kill();
    bot.start();
    std::thread::sleep(SILENCE);
    assert!(ana.answers(&room, &second).is_empty() && bot.is_running());
    std::fs::remove_file(&fill).unwrap();
    ana.answer(&room, &first);
    ana.answer(&room, &second);
    let total = ana.ask(&room, "what's in the freezer?");
    assert!(total.body.contains("12 lb"), "{}", total.body);
    assert_eq!(told(&ana, &room), 1, "once, though it was started twice");
    assert!(bot.stop().success());
    drop(disk);
}

#[test]
fn a_store_that_turns_read_only_is_borne_until_it_is_not() {
    let server = Synapse::start(Rations::None);
    let ana = server.register("ana");
    server.register("rackful");
    let folder = tempfile::tempdir().unwrap();
    let room = ana.room("12", &[USER]);
    let store = Seen::default();
    let (mut events, mut step) = (Vec::new(), 0);
    // Everything within one run of the program, whose store fails from outside.
    serve_until(&server, folder.path(), &store, "@ana:home.test", "all of it", || match step {
        0 if ana.membership(&room, USER) == "join" => {
            events.push(ana.say(&room, "froze 7 lb"));
            step = 1;
            false
        }
        1 if !ana.answers(&room, &events[0]).is_empty() => {
            store.fails(Some(std::io::ErrorKind::ReadOnlyFilesystem));
            events.push(ana.say(&room, "froze 3 lb"));
            step = 2;
            false
        }
        2 if told(&ana, &room) == 1 => {
            events.push(ana.say(&room, "froze 2 lb"));
            assert!(ana.answers(&room, &events[1]).is_empty());
            store.fails(None);
            step = 3;
            false
        }
        3 => events.iter().all(|event| ana.answers(&room, event).len() == 1),
        _ => false,
    });
    assert_eq!(told(&ana, &room), 1);
    let said = ana.answers(&room, &events[2]);
    assert!(said[0].body.contains("12 lb"), "{}", said[0].body);
}
