//! Messages that are handed in ahead of others count with those, or not at all.

use chrono::{DateTime, TimeDelta, Utc};
use rackful::assistant::{Commit, Defaults, Incoming, Outgoing, Said};
use rackful::desk::{Beside, Desk};
use rackful::ledger::MessageId;
use rackful::store::{MemoryStore, Notes, Store, StoreError, Told};
use std::collections::BTreeSet;
use std::sync::{Arc, Mutex};

/// A store that is seen from outside, and keeps nothing while it is full.
#[derive(Clone, Default)]
struct Seen(Arc<Mutex<(MemoryStore, bool)>>);

impl Seen {
    fn is_full(&self, full: bool) {
        self.0.lock().unwrap().1 = full;
    }

    fn commits(&self) -> Vec<Commit> {
        let mut commits = Vec::new();
        self.each(&mut |commit| commits.push(commit)).unwrap();
        commits
    }
}

impl Store for Seen {
    fn keep(&mut self, commits: &[Commit], notes: &Notes) -> Result<(), StoreError> {
        let (store, full) = &mut *self.0.lock().unwrap();
        if *full {
            let source = std::io::ErrorKind::StorageFull.into();
            return Err(StoreError::Io { doing: "write to", path: "journal.jsonl".into(), source });
        }
        store.keep(commits, notes)
    }
    fn adopt(&mut self, commits: &[Commit], waiting: &BTreeSet<String>) -> Result<(), StoreError> {
        self.0.lock().unwrap().0.adopt(commits, waiting)
    }
    fn each(&self, take: &mut dyn FnMut(Commit)) -> Result<(), StoreError> {
        self.0.lock().unwrap().0.each(take)
    }
    fn outbox(&self) -> Result<Vec<Outgoing>, StoreError> {
        self.0.lock().unwrap().0.outbox()
    }
    fn sent_as(&mut self, key: &str, id: Option<&MessageId>) -> Result<(), StoreError> {
        self.0.lock().unwrap().0.sent_as(key, id)
    }
    fn told(&self, id: &MessageId) -> Result<Option<Told>, StoreError> {
        self.0.lock().unwrap().0.told(id)
    }
    fn note(&self, name: &str) -> Result<Option<String>, StoreError> {
        self.0.lock().unwrap().0.note(name)
    }
}

fn start() -> DateTime<Utc> {
    "2026-08-14T14:05:00Z".parse().unwrap()
}

fn messages(words: &[&str], first: usize) -> Vec<Incoming> {
    let message = |(n, words): (usize, &&str)| Incoming {
        room: "home".into(),
        who: "ana".into(),
        id: MessageId::new(&format!("${}", first + n)),
        at: (start() + TimeDelta::seconds((first + n) as i64)).fixed_offset(),
        direct: false,
        thread: None,
        said: Said::Text { text: (*words).to_owned(), reply_to: None },
    };
    words.iter().enumerate().map(message).collect()
}

fn desk() -> (Seen, Desk) {
    let store = Seen::default();
    let desk = Desk::open(Box::new(store.clone()), Defaults::default()).unwrap();
    (store, desk)
}

fn hear(desk: &mut Desk, messages: &[Incoming], now: DateTime<Utc>) -> Result<Vec<Outgoing>, StoreError> {
    desk.hear_and_say(messages, Beside::default(), now, &Notes::from([("at".into(), Some("s2".into()))]))
}

const WORDS: [&str; 20] = ["froze 2 lb"; 20];

#[test]
fn heard_ahead_or_at_once_is_the_same_ledger_and_the_same_answer() {
    let now = start() + TimeDelta::hours(1);
    let (store, mut ahead) = desk();
    ahead.hear_ahead(messages(&WORDS, 0), now);
    ahead.hear_ahead(messages(&WORDS, 20), now);
    assert_eq!(store.commits(), [], "nothing is kept before the rest has come");
    let said = hear(&mut ahead, &messages(&["what's in the freezer?"], 40), now).unwrap();
    let (other, mut at_once) = desk();
    let all = [messages(&WORDS, 0), messages(&WORDS, 20), messages(&["what's in the freezer?"], 40)].concat();
    assert_eq!(hear(&mut at_once, &all, now).unwrap(), said);
    assert_eq!(store.commits(), other.commits());
    assert_eq!(store.commits().len(), 41);
    assert_eq!(hear(&mut ahead, &all, now).unwrap(), [], "each message counts once");
}

#[test]
fn an_alarm_rings_in_the_middle_without_them_and_then_they_count() {
    let (store, mut desk) = desk();
    hear(&mut desk, &messages(&["timer 10 minutes for roast"], 0), start()).unwrap();
    let now = start() + TimeDelta::minutes(11);
    desk.hear_ahead(messages(&WORDS, 1), now);
    let rang = desk.tick(now).unwrap();
    assert!(rang.len() == 1 && rang[0].topic == "timer-done", "{rang:?}");
    assert_eq!(store.commits().len(), 2, "the timer and its end");
    desk.hear_ahead(messages(&WORDS, 21), now);
    hear(&mut desk, &messages(&WORDS, 41), now).unwrap();
    assert_eq!(store.commits().len(), 62);
    assert_eq!(desk.tick(now).unwrap(), [], "it rings once");
    let again = Desk::open(Box::new(store), Defaults::default()).unwrap();
    let freezer = |desk: &Desk| desk.assistant().state_json("home", now)["freezer"].clone();
    assert_eq!(freezer(&again), freezer(&desk), "what counts is what was kept");
}

#[test]
fn what_a_full_disk_did_not_take_is_heard_again_with_all_that_came_ahead() {
    let (store, mut desk) = desk();
    let now = start() + TimeDelta::hours(1);
    desk.hear_ahead(messages(&WORDS, 0), now);
    store.is_full(true);
    for _ in 0..2 {
        hear(&mut desk, &messages(&WORDS, 20), now).unwrap_err();
        assert!(desk.assistant().ledger("home").is_none(), "nothing of it counts");
    }
    store.is_full(false);
    hear(&mut desk, &messages(&WORDS, 20), now).unwrap();
    assert_eq!(store.commits().len(), 40);
    assert_eq!(store.note("at").unwrap().as_deref(), Some("s2"));
}
