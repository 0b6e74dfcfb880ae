//! What was said while the program was down: how long until all of it is in its journal, beside plain reading of the
//! same history, page by page, over HTTP.
//!
//! Run it with `cargo bench --bench missed`. `RACKFUL_BENCH_MISSED` says how many messages were missed (10000). It
//! installs and starts its own homeserver, as `tests/homeserver` does.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::string_slice,
    missing_docs,
    unreachable_pub
)]

#[allow(dead_code, reason = "the tests use more of it")]
#[path = "../tests/homeserver/bot.rs"]
mod bot;
#[allow(dead_code, reason = "the other bench uses more of it")]
#[path = "matrix/figures.rs"]
mod figures;
#[path = "matrix/household.rs"]
mod household;
#[allow(dead_code, reason = "the tests use more of it")]
#[path = "../tests/homeserver/person.rs"]
mod person;
#[allow(dead_code, reason = "the tests use more of it")]
#[path = "../tests/homeserver/synapse.rs"]
mod synapse;

use bot::Bot;
use figures::{compare, head, memory};
use household::{gather, people, program};
use person::Person;
use serde_json::Value;
use std::io::{Read, Seek, SeekFrom};
use std::path::Path;
use std::process::Command;
use std::time::{Duration, Instant};
use synapse::{Rations, Synapse};

/// How often each is measured, in turns.
const ROUNDS: usize = 5;

/// As many events as the program asks for at once.
const PAGE: usize = 100;

/// How many write at the same time.
const WRITERS: usize = 8;

/// What the end of the journal is looked for in, in bytes.
const TAIL: u64 = 16_384;

fn main() {
    // Tests build this and start it; only `cargo bench` says so when it means it.
    if std::env::args().any(|word| word == "--bench") {
        run(figures::number("RACKFUL_BENCH_MISSED").unwrap_or(10_000));
    }
}

fn run(messages: usize) {
    let server = Synapse::start(Rations::None);
    server.register("rackful");
    let people = people(&server);
    let mut program = program(&server);
    let room = gather(&people, bot::USER);
    let first = people[0].say(&room, "froze 3 lb");
    people[0].answer(&room, &first);
    assert!(program.stop().success(), "{}", program.log());
    let kept = tempfile::tempdir().unwrap();
    copy(&program.file(""), &kept.path().join("data"));
    // Without anything missed, a start takes this long.
    let mut idle: Vec<_> = (0..ROUNDS).map(|_| taken_in(&mut program, kept.path(), None).0).collect();
    let history = History { address: server.address(), room: room.clone(), token: people[0].token().to_owned() };
    let from = history.now();

    let start = Instant::now();
    let last = write(&people, &room, messages);
    println!("\n{messages} messages written in {:.0} s", start.elapsed().as_secs_f64());
    // The homeserver has them in its cache from here on, for both.
    let events = history.read(&from, &last);
    let (mut ours, mut theirs, mut most) = (Vec::new(), Vec::new(), 0.0_f64);
    for _ in 0..ROUNDS {
        let start = Instant::now();
        assert_eq!(history.read(&from, &last), events);
        theirs.push(start.elapsed());
        let (took, memory) = taken_in(&mut program, kept.path(), Some(&last));
        ours.push(took);
        most = most.max(memory);
    }
    let middle = |times: &mut Vec<Duration>| {
        times.sort();
        times[ROUNDS / 2]
    };
    let (ours, theirs, idle) = (middle(&mut ours), middle(&mut theirs), middle(&mut idle));
    let rate = |time: Duration| events as f64 / time.as_secs_f64();
    head(&format!("Taking in {events} missed events (middle of {ROUNDS} rounds)"), "reading");
    compare("from the program's start", "/s", rate(ours), rate(theirs), "0.9");
    compare("without the start", "/s", rate(ours.saturating_sub(idle)), rate(theirs), "0.9");
    println!("a start with nothing missed: {:.0} ms; most memory resident: {most:.1} MiB", idle.as_secs_f64() * 1e3);
}

/// Writes messages, many at a time, then one more, and returns its id.
fn write(people: &[Person], room: &str, messages: usize) -> String {
    std::thread::scope(|scope| {
        for (writer, people) in people.chunks(people.len().div_ceil(WRITERS)).enumerate() {
            scope.spawn(move || {
                for n in (writer..messages - 1).step_by(WRITERS) {
                    people[n % people.len()].say(room, &format!("froze {} lb", 1 + n % 9));
                }
            });
        }
    });
    people[0].say(room, "froze 5 lb")
}

/// Starts the program on data as they were kept, and returns how long it takes until it has taken everything in up to
/// an event, or up to the present where nothing was missed, and how much memory it had at most; then stops it.
fn taken_in(program: &mut Bot, kept: &Path, last: Option<&str>) -> (Duration, f64) {
    std::fs::remove_dir_all(program.file("")).unwrap();
    copy(&kept.join("data"), &program.file(""));
    let journal = program.file("journal.jsonl");
    let before = std::fs::metadata(&journal).unwrap().len();
    let start = Instant::now();
    program.start();
    loop {
        std::thread::sleep(Duration::from_millis(2));
        let grown = std::fs::metadata(&journal).unwrap().len() > before;
        let tail = if grown { tail(&journal) } else { String::new() };
        // The position comes last of what belongs together.
        if tail.contains("\"notes\":") && last.is_none_or(|last| tail.contains(last)) {
            break;
        }
        assert!(start.elapsed() < Duration::from_secs(120), "it does not take them in: {}", program.log());
    }
    let took = start.elapsed();
    let most = memory(program.pid(), "VmHWM");
    assert!(program.stop().success(), "{}", program.log());
    (took, most)
}

fn tail(journal: &Path) -> String {
    let mut file = std::fs::File::open(journal).unwrap();
    let length = file.metadata().unwrap().len();
    file.seek(SeekFrom::Start(length.saturating_sub(TAIL))).unwrap();
    let mut bytes = Vec::new();
    file.read_to_end(&mut bytes).unwrap();
    String::from_utf8_lossy(&bytes).into_owned()
}

fn copy(from: &Path, to: &Path) {
    assert!(Command::new("cp").arg("-a").arg(from).arg(to).status().unwrap().success());
}

/// A room's history, read over plain HTTP.
struct History {
    address: String,
    room: String,
    token: String,
}

impl History {
    fn get(&self, agent: &ureq::Agent, path: &str) -> Value {
        let request = agent.get(format!("{}/_matrix/client/v3/{path}", self.address));
        let request = request.header("Authorization", format!("Bearer {}", self.token));
        request.call().unwrap().body_mut().read_json().unwrap()
    }

    /// The position after all that was said.
    fn now(&self) -> String {
        let synced = self.get(&ureq::Agent::new_with_defaults(), "sync?timeout=0");
        synced["next_batch"].as_str().unwrap().to_owned()
    }

    /// How many events came after a position, up to this one.
    fn read(&self, from: &str, last: &str) -> usize {
        let agent = ureq::Agent::new_with_defaults();
        let (mut from, mut events) = (from.to_owned(), 0);
        loop {
            let page = self.get(&agent, &format!("rooms/{}/messages?dir=f&limit={PAGE}&from={from}", self.room));
            let chunk = page["chunk"].as_array().unwrap();
            if let Some(at) = chunk.iter().position(|event| event["event_id"] == last) {
                return events + at + 1;
            }
            events += chunk.len();
            page["end"].as_str().unwrap().clone_into(&mut from);
        }
    }
}
