//! The program is killed at random moments, again and again, while two people say, edit, delete and mark things in a
//! plain room and in an encrypted one, and timers run. In the end the ledger is what was said, and the rooms hold what
//! should have been answered, each once.
//!
//! `RACKFUL_TEST_KILLS` says how often, `RACKFUL_TEST_SEED` repeats the dice.

use crate::bot::{Bot, USER};
use crate::encrypted_person::EncryptedPerson;
use crate::person::{Person, wait_long};
use crate::synapse::{Rations, Synapse};
use crate::trouble::{number, seed};
use serde_json::{Value, json};
use std::collections::BTreeMap;
use std::os::unix::fs::PermissionsExt;
use std::time::Duration;

/// Starting, catching up and being killed again takes its time on a busy machine.
const PATIENCE: Duration = Duration::from_secs(120);

/// Numbers below a limit, always the same for a seed.
struct Dice(u64);

impl Dice {
    fn below(&mut self, limit: u64) -> u64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) % limit
    }
}

/// What somebody can do in a room, whether or not it is encrypted.
trait Member {
    fn say(&self, room: &str, words: &str) -> String;
    fn edit(&self, room: &str, target: &str, words: &str);
    fn redact(&self, room: &str, target: &str);
    fn react(&self, room: &str, target: &str, key: &str);
    /// The words of everything that the assistant said, with what each answers.
    fn heard(&self, room: &str) -> Vec<(Option<String>, String)>;
    /// Says words whose key comes later, where there are keys.
    fn say_late(&self, room: &str, words: &str) -> String {
        self.say(room, words)
    }
    /// What of the assistant's words it cannot read.
    fn locked(&self) -> Vec<String> {
        Vec::new()
    }
    /// Lets late keys come.
    fn release(&self) {}
}

impl Member for Person {
    fn say(&self, room: &str, words: &str) -> String {
        self.say(room, words)
    }
    fn edit(&self, room: &str, target: &str, words: &str) {
        self.edit(room, target, words);
    }
    fn redact(&self, room: &str, target: &str) {
        self.redact(room, target);
    }
    fn react(&self, room: &str, target: &str, key: &str) {
        self.react(room, target, key);
    }
    fn heard(&self, room: &str) -> Vec<(Option<String>, String)> {
        self.said_by(room, USER).into_iter().map(|said| (said.re, said.body)).collect()
    }
}

impl Member for EncryptedPerson {
    fn say(&self, room: &str, words: &str) -> String {
        self.say(room, words)
    }
    fn edit(&self, room: &str, target: &str, words: &str) {
        self.edit(room, target, words);
    }
    fn redact(&self, room: &str, target: &str) {
        self.redact(room, target);
    }
    fn react(&self, room: &str, target: &str, key: &str) {
        let content = json!({"m.relates_to": {"rel_type": "m.annotation", "event_id": target, "key": key}});
        self.send(room, content, json!({"type": "m.reaction"}));
    }
    fn heard(&self, room: &str) -> Vec<(Option<String>, String)> {
        let said = self.heard().into_iter();
        let said =
            said.filter(|said| said["sender"] == USER && said["room"] == room && said["type"] == "m.room.message");
        let text = |value: &Value| value.as_str().map(str::to_owned);
        said.map(|said| {
            let content = &said["content"];
            let re = text(&content["m.relates_to"]["m.in_reply_to"]["event_id"]);
            (re, text(&content["body"]).unwrap_or_default())
        })
        .collect()
    }
    fn say_late(&self, room: &str, words: &str) -> String {
        self.say_locked(room, words)
    }
    fn release(&self) {
        self.release();
    }
    fn locked(&self) -> Vec<String> {
        self.locked()
    }
}

/// What is still wanted, messages that lack answers or timers that did not ring, and what was said or could not be read
/// meanwhile. Told when the wait for them is in vain.
#[derive(Default)]
struct Lacking(Vec<String>, Vec<String>);

impl Drop for Lacking {
    fn drop(&mut self) {
        if std::thread::panicking() {
            eprintln!("lacking: {:?}; there are: {:?}", self.0, self.1);
        }
    }
}

/// A person in a room, and what should be there.
struct Household<'a> {
    who: &'a dyn Member,
    room: String,
    /// What each message put into the freezer, and how many answers it should have; none for one that was taken back.
    said: BTreeMap<String, (Option<u64>, usize)>,
    /// Those that are known to be answered, and may be edited or taken back.
    settled: Vec<String>,
    timers: u64,
}

impl<'a> Household<'a> {
    fn new(who: &'a dyn Member, room: String) -> Self {
        Self { who, room, said: BTreeMap::new(), settled: Vec::new(), timers: 0 }
    }

    /// Does something.
    fn act(&mut self, dice: &mut Dice) {
        let (room, pounds) = (self.room.as_str(), 1 + dice.below(9));
        match dice.below(10) {
            0 | 1 if !self.settled.is_empty() => {
                let target = self.settled[usize::try_from(dice.below(self.settled.len() as u64)).unwrap()].clone();
                self.who.edit(room, &target, &format!("froze {pounds} lb"));
                let (now, answers) = self.said.get_mut(&target).unwrap();
                (*now, *answers) = (Some(pounds), *answers + 1);
            }
            2 if !self.settled.is_empty() => {
                let target = self.settled.remove(usize::try_from(dice.below(self.settled.len() as u64)).unwrap());
                match dice.below(2) {
                    0 => self.who.redact(room, &target),
                    _ => self.who.react(room, &target, "👎"),
                }
                let (now, answers) = self.said.get_mut(&target).unwrap();
                (*now, *answers) = (None, *answers + 1);
            }
            3 => {
                self.timers += 1;
                let words = format!("timer {} seconds for roast{}", 1 + dice.below(4), self.timers);
                let event = self.who.say(room, &words);
                self.said.insert(event, (None, 1));
            }
            4 => {
                let event = self.who.say_late(room, &format!("froze {pounds} lb"));
                self.said.insert(event, (Some(pounds), 1));
            }
            _ => {
                let event = self.who.say(room, &format!("froze {pounds} lb"));
                self.said.insert(event, (Some(pounds), 1));
            }
        }
    }

    /// Waits until all is answered.
    fn settle(&mut self) {
        self.who.release();
        let mut lacking = Lacking::default();
        wait_long(&format!("answers in {}", self.room), PATIENCE, || {
            let heard = self.who.heard(&self.room);
            let answers = |event: &str| heard.iter().filter(|(re, _)| re.as_deref() == Some(event)).count();
            let lacks = |(event, (_, number)): &(&String, &(Option<u64>, usize))| answers(event) < *number;
            lacking.0 = self.said.iter().filter(lacks).map(|(event, wanted)| format!("{event} {wanted:?}")).collect();
            lacking.1 = self.who.locked();
            lacking.0.is_empty()
        });
        self.settled = self.said.iter().filter(|(_, (pounds, _))| pounds.is_some()).map(|(e, _)| e.clone()).collect();
    }

    /// Everything is there, once.
    fn check(&self) {
        let rang = |heard: &[(Option<String>, String)], n: u64| {
            let label = format!("roast{n}");
            let names = |words: &str| words.split(|c: char| !c.is_alphanumeric()).any(|word| word == label);
            heard.iter().filter(|(re, words)| re.is_none() && names(words)).count()
        };
        let mut lacking = Lacking::default();
        wait_long("the timers", PATIENCE, || {
            let heard = self.who.heard(&self.room);
            let silent = (1..=self.timers).filter(|n| rang(&heard, *n) == 0);
            lacking.0 = silent.map(|n| format!("roast{n}")).collect();
            lacking.1 = heard.into_iter().map(|(_, words)| words).filter(|words| words.contains("roast")).collect();
            lacking.0.is_empty()
        });
        // Long enough for a second one to have come.
        std::thread::sleep(Duration::from_secs(3));
        let heard = self.who.heard(&self.room);
        for (event, (_, number)) in &self.said {
            let answers: Vec<_> = heard.iter().filter(|(re, _)| re.as_ref() == Some(event)).collect();
            assert_eq!(answers.len(), *number, "answers to {event}: {answers:?}");
        }
        for n in 1..=self.timers {
            assert_eq!(rang(&heard, n), 1, "timer {n}");
        }
        let total: u64 = self.said.values().filter_map(|(pounds, _)| *pounds).sum();
        let asked = self.who.say(&self.room, "rackful, what's in the freezer?");
        let mut answer = String::new();
        wait_long("the sum", PATIENCE, || {
            let heard = self.who.heard(&self.room);
            answer = heard.into_iter().find(|(re, _)| re.as_ref() == Some(&asked)).unwrap_or_default().1;
            !answer.is_empty()
        });
        assert!(answer.replace(',', "").contains(&format!("{total} lb")), "{total} lb: {answer}");
    }
}

#[test]
fn killed_again_and_again_every_message_counts_once_and_everything_goes_out_once() {
    let kills = number("RACKFUL_TEST_KILLS").unwrap_or(30);
    let mut dice = Dice(seed());
    let server = Synapse::start(Rations::None);
    let (ana, raw_ben) = (server.register("ana"), server.register("ben"));
    server.register("rackful");
    let mut bot = Bot::new(&server);
    bot.set("RACKFUL_ALLOW", "@ana:home.test,@ben:home.test");
    bot.set("RACKFUL_STORE_PASSPHRASE", "correct horse");
    bot.start();
    let ben = EncryptedPerson::new(&server, "ben", USER);
    let plain = ana.room("12", &[USER]);
    let encrypted = ben.room(&[USER]);
    ana.wait_member(&plain, USER, "join");
    raw_ben.wait_member(&encrypted, USER, "join");
    let mut households = [Household::new(&ana, plain), Household::new(&ben, encrypted)];
    let started = std::time::Instant::now();
    for round in 1..=kills {
        households.iter_mut().for_each(|household| household.act(&mut dice));
        // Up to here it starts, syncs, decrypts, writes, replies, and notes what it sent.
        std::thread::sleep(Duration::from_millis(dice.below(900)));
        bot.kill();
        households.iter_mut().for_each(|household| household.act(&mut dice));
        bot.start();
        if round % 4 == 0 {
            // More at once would be answered by a summary.
            households.iter_mut().for_each(Household::settle);
        }
        if round % 20 == 0 {
            eprintln!("{round} kills in {:?}", started.elapsed());
        }
    }
    households.iter_mut().for_each(Household::settle);
    households.iter().for_each(Household::check);
    let said: usize = households.iter().map(|household| household.said.len()).sum();
    let answers: usize = households.iter().flat_map(|household| household.said.values()).map(|(_, n)| n).sum();
    let timers: u64 = households.iter().map(|household| household.timers).sum();
    eprintln!("{kills} kills in {:?}: {said} messages, {answers} answers, {timers} timers", started.elapsed());
    assert!(bot.stop().success(), "{}", bot.log());

    // The ledger knows each message once.
    let ledger = bot.run(&["export"]);
    let heard = ledger.lines().filter_map(|line| {
        let line: Value = serde_json::from_str(line).unwrap();
        line["commit"]["message"].as_str().map(str::to_owned)
    });
    let mut count = BTreeMap::<String, usize>::new();
    heard.for_each(|message| *count.entry(message).or_default() += 1);
    for event in households.iter().flat_map(|household| household.said.keys()) {
        assert_eq!(count.get(event), Some(&1), "{event} in the ledger");
    }
    let session = bot.file("matrix/session.json");
    assert_eq!(std::fs::metadata(session).unwrap().permissions().mode() & 0o777, 0o600);
}
