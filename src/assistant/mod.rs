//! The only door to the core: a message or a moment in, changes and outgoing messages out.
//!
//! ```
//! use rackful::assistant::{Assistant, Defaults, Incoming, Said};
//! use rackful::ledger::MessageId;
//! let mut assistant = Assistant::new(Defaults::default());
//! let at = chrono::DateTime::parse_from_rfc3339("2026-08-14T09:05:00-05:00")?;
//! let text = "froze 7 lb quartered".to_owned();
//! let message = Incoming {
//!     room: "home".into(),
//!     who: "ana".into(),
//!     id: MessageId::new("$1"),
//!     at,
//!     direct: false,
//!     thread: None,
//!     said: Said::Text { text, reply_to: None },
//! };
//! let commit = assistant.hear(&message, at.to_utc()).ok_or("a new message")?;
//! assert_eq!(commit.out[0].facts["freezer_bags"], 1);
//! assert!(assistant.hear(&message, at.to_utc()).is_none(), "each message counts once");
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! Invariants: what [`Assistant::hear`] and [`Assistant::tick`] return is already applied here, and applying the
//! returned changes to another assistant with [`Assistant::restore`] makes the same rooms; time is an argument; nothing
//! here touches disk or network. How words are read is `phrase`'s, what they come to `ledger`'s, what is said back
//! `reply`'s.

mod answering;
mod entering;
mod gathering;
mod hearing;
mod marks;
mod message;
mod perils;
mod proposing;
mod referring;
mod room;
mod turn;
mod view;

pub use gathering::Heard;
pub use message::{Commit, Incoming, Mark, OutKind, Outgoing, Said};

use crate::alert::{Due, deadlines, digests, is_held, told_at, watches};
use crate::ledger::{Change, Ledger, MessageId};
use crate::zone::Zone;
use chrono::{DateTime, Utc};
use room::Room;
use std::collections::BTreeMap;
use std::sync::Arc;
use turn::Turn;

/// What a room has before anything is said in it: from the configuration.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Defaults {
    /// The time zone of rooms that set none; without one, the offset of their first message.
    pub zone: Option<Zone>,
    /// The altitude of rooms that set none; without one it is asked.
    pub altitude: Option<crate::quantity::Length>,
    /// Whether rooms speak kilograms and litres until they set units.
    pub metric: bool,
    /// Whether pictures are dark until a room sets otherwise.
    pub dark_pictures: bool,
    /// The name it answers to; `rackful` when empty.
    pub name: String,
}

/// All rooms, in memory.
#[derive(Debug)]
pub struct Assistant {
    defaults: Defaults,
    rooms: BTreeMap<Arc<str>, Room>,
}

impl Assistant {
    /// With no room yet.
    pub fn new(defaults: Defaults) -> Self {
        Self { defaults, rooms: BTreeMap::new() }
    }

    /// Takes in what was committed earlier, in order: at start, after an import, after a failed write.
    pub fn restore(&mut self, commit: &Commit) {
        for change in &commit.changes {
            if let Change::Founded { zone } = change {
                self.rooms.insert(commit.room.clone(), Room::new(&self.defaults, *zone));
            }
            if let Some(room) = self.rooms.get_mut(&commit.room) {
                room.apply(change);
            }
        }
        if let (Some(room), Some(message)) = (self.rooms.get_mut(&commit.room), &commit.message) {
            room.hear(message, commit.said.unwrap_or(commit.at));
        }
    }

    /// Hears one message and says what it does, already applied here; `None` when it was heard before. The caller keeps
    /// the commit before it sends what goes out.
    pub fn hear(&mut self, message: &Incoming, now: DateTime<Utc>) -> Option<Commit> {
        if self.rooms.get(&message.room).is_some_and(|room| room.heard.contains_key(&message.id)) {
            return None;
        }
        let founded = !self.rooms.contains_key(&message.room);
        let zone = self.defaults.zone.unwrap_or(Zone::Fixed(*message.at.offset()));
        let room = self.rooms.entry(message.room.clone()).or_insert_with(|| Room::new(&self.defaults, zone));
        let mut turn = Turn::new(room, message.room.clone(), now, format!("re {}", message.id));
        if founded {
            turn.change(Change::Founded { zone });
        }
        turn.message(message);
        let mut commit = turn.done(Some(message.id.clone()))?;
        commit.said = Some(message.at.to_utc().min(now));
        room.hear(&message.id, message.at.to_utc().min(now));
        Some(commit)
    }

    /// What has fallen due by `now`.
    pub fn tick(&mut self, now: DateTime<Utc>) -> Vec<Commit> {
        let mut commits = Vec::new();
        for (name, room) in &mut self.rooms {
            room.forget_old(now);
            let due: Vec<Due> = untold(room, now).filter(|due| told_at_for(room, due) <= now).collect();
            for due in due {
                let mut turn = Turn::new(room, name.clone(), now, format!("due {}", due.name));
                turn.thread = turn.room.thread_of(&due);
                let reply = crate::reply::due(turn.scene(), &due);
                turn.change(Change::Told { alert: due.name.clone(), due: due.at });
                turn.alert(&due.name, due.topic(), reply, due.calls());
                commits.extend(turn.done(None));
            }
            let mut turn =
                Turn::new(room, name.clone(), now, format!("at {} {}", now.timestamp_micros(), room.told.len()));
            turn.settle();
            commits.extend(turn.done(None));
        }
        commits
    }

    /// When the next thing falls due, if anything does; never before `now`.
    pub fn next_due(&self, now: DateTime<Utc>) -> Option<DateTime<Utc>> {
        let next = |room: &Room| {
            let deadline = untold(room, now).map(|due| told_at_for(room, &due)).min();
            // What came true in quiet hours is told when they end.
            let holds = watches(room.state()).into_iter().any(|watch| match watch {
                crate::alert::Watch::Holds(name, _) => !room.told.contains_key(&name),
                _ => false,
            });
            let held = holds.then(|| told_at(&room.state().settings, now, false));
            deadline.into_iter().chain(held).min()
        };
        self.rooms.values().filter_map(next).min().map(|at| at.max(now))
    }

    /// The ledger of a room, to look at.
    pub fn ledger(&self, room: &str) -> Option<&Ledger> {
        self.rooms.get(room).map(|room| &room.ledger)
    }

    /// Whether a message was heard in a room.
    pub fn has_heard(&self, room: &str, message: &MessageId) -> bool {
        self.rooms.get(room).is_some_and(|room| room.heard.contains_key(message))
    }

    /// The rooms it knows.
    pub fn rooms(&self) -> impl Iterator<Item = &str> {
        self.rooms.keys().map(|name| &**name)
    }
}

fn untold(room: &Room, now: DateTime<Utc>) -> impl Iterator<Item = Due> {
    deadlines(room.state())
        .into_iter()
        .chain(digests(room.state(), now))
        .filter(|due| !room.told.contains_key(&due.name) && !room.settled.contains_key(&due.name))
        .filter(move |due| !is_held(room.state(), due, now))
}

fn told_at_for(room: &Room, due: &Due) -> DateTime<Utc> {
    let at = told_at(&room.state().settings, due.at, due.urgent());
    due.latest.map_or(at, |latest| at.min(latest))
}
