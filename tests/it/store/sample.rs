//! Commits of an invented household, as the assistant makes them.

use rackful::assistant::{Commit, OutKind, Outgoing};
use rackful::ledger::{Change, Entry, MessageId};
use rackful::quantity::{Mass, Number};
use rackful::statement::{Froze, Statement};
use serde_json::{Map, json};

/// The n-th commit: a message froze a bag, and is answered.
pub(crate) fn commit(n: u64) -> Commit {
    let at = chrono::DateTime::from_timestamp(1_786_716_300 + 60 * n.cast_signed(), 0).unwrap();
    let message = MessageId::new(&format!("$zWq0lJx3pUu7mYk2aEoVt5cBnHs9dRgFi{n:010}"));
    let froze = Froze { mass: Mass::POUND.times(Number::whole(7)), bags: Some(1), ..Froze::default() };
    let entry = Entry {
        message: message.clone(),
        part: 0,
        who: "@ana:example.org".into(),
        said: at,
        happened: at,
        words: "froze 7 lb quartered, from the tunnel".into(),
        statement: Statement::Froze(froze),
    };
    let (frozen, short) = (3175.14659 * n as f64, 0.1 + n as f64);
    let facts = json!({"freezer_g": frozen, "freezer_bags": n, "target_g": 22226.02613, "short_g": short});
    Commit {
        room: "!kitchen:example.org".into(),
        at,
        message: Some(message.clone()),
        said: Some(at),
        changes: vec![Change::Entered { entries: vec![entry] }],
        out: vec![reply(n, &message, at.into(), facts.as_object().cloned().unwrap_or_default())],
    }
}

fn reply(
    n: u64,
    re: &MessageId,
    at: chrono::DateTime<chrono::FixedOffset>,
    facts: Map<String, serde_json::Value>,
) -> Outgoing {
    Outgoing {
        key: format!("r-{re}"),
        room: "!kitchen:example.org".into(),
        at,
        out: OutKind::Reply,
        re: Some(re.clone()),
        topic: "froze".into(),
        text: format!("7 lb in 1 bag. The freezer holds {n} bags, {} lb; a load is 49 lb.", 7 * n),
        facts,
        mention: false,
        thread: None,
        alert: None,
        files: Vec::new(),
    }
}

/// The n of a commit made here.
#[allow(dead_code)] // not every binary that shares this file counts
pub(crate) fn number(commit: &Commit) -> u64 {
    let id = commit.message.as_ref().unwrap().as_str();
    id[id.len() - 10..].parse().unwrap()
}

/// A small seeded generator (SplitMix64), so that a printed seed tells a failure again.
#[allow(dead_code)] // nor does every one draw lots
pub(crate) struct Lots(pub(crate) u64);

#[allow(dead_code)]
impl Lots {
    /// A number below `bound`.
    pub(crate) fn below(&mut self, bound: u64) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        (z ^ (z >> 31)) % bound.max(1)
    }
}
