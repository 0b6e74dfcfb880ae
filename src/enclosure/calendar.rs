//! What is due, for a calendar.

use chrono::{DateTime, NaiveDate, Utc};
use serde::{Deserialize, Serialize};

/// What is due in a room.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, Deserialize)]
pub struct Calendar {
    /// When it was made.
    pub made: DateTime<Utc>,
    /// In order of time.
    pub occasions: Vec<Occasion>,
}

/// One thing that is due.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, Deserialize)]
pub struct Occasion {
    /// What it is about, the same whenever it is due: so that a calendar that is taken in again moves it and does not
    /// show it twice. Unique in its room.
    pub subject: String,
    /// A few words.
    pub summary: String,
    /// A sentence with what to do.
    pub detail: String,
    /// When.
    pub when: Moment,
}

/// A time, or a whole day.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Moment {
    /// At this instant: it wants a hand then, and an alarm.
    At(DateTime<Utc>),
    /// On this day of the room.
    Day(NaiveDate),
}
