//! The assistant.

mod message;

pub use message::{Commit, Incoming, OutKind, Outgoing, Said};

use crate::zone::Zone;
use chrono::{DateTime, Utc};

/// What a room has before anything is said in it: from the configuration.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Defaults {
    /// The time zone of rooms that set none; without one, the offset of their first message.
    pub zone: Option<Zone>,
    /// The altitude of rooms that set none; without one it is asked.
    pub altitude: Option<crate::quantity::Length>,
    /// Whether rooms speak kilograms and litres until they set units.
    pub metric: bool,
    /// The name it answers to; `rackful` when empty.
    pub name: String,
}

/// All rooms, in memory.
#[derive(Debug)]
pub struct Assistant {
    defaults: Defaults,
}

impl Assistant {
    /// With no room yet.
    pub fn new(defaults: Defaults) -> Self {
        Self { defaults }
    }

    /// Takes in what was committed earlier, in order: at start, after an import, after a failed write.
    pub fn restore(&mut self, commit: &Commit) {
        let _ = (commit, &self.defaults);
    }

    /// Hears one message and says what it does, already applied here; `None` when it was heard before. The caller keeps
    /// the commit before it sends what goes out.
    pub fn hear(&mut self, message: &Incoming, now: DateTime<Utc>) -> Option<Commit> {
        let _ = (message, now);
        None
    }

    /// What has fallen due by `now`.
    pub fn tick(&mut self, now: DateTime<Utc>) -> Vec<Commit> {
        let _ = now;
        Vec::new()
    }

    /// When the next thing falls due, if anything does.
    pub fn next_due(&self, now: DateTime<Utc>) -> Option<DateTime<Utc>> {
        let _ = now;
        None
    }

    /// The state of a room.
    pub fn state_json(&self, room: &str, now: DateTime<Utc>) -> serde_json::Value {
        let _ = (room, now);
        serde_json::Value::Null
    }
}
