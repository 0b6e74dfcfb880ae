//! When a thing happened, as exactly as it was said.

use chrono::{DateTime, FixedOffset, NaiveDate};
use serde::{Deserialize, Deserializer, Serialize, Serializer};

/// A day, or an instant. Written as ISO 8601: `2026-08-13` or RFC 3339 with the room's offset.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum When {
    /// Some time on this day, in the room's time zone.
    Day(NaiveDate),
    /// At this instant, with the offset in force in the room.
    At(DateTime<FixedOffset>),
}

impl When {
    /// The day, in the room's time zone.
    pub fn day(self) -> NaiveDate {
        match self {
            Self::Day(day) => day,
            Self::At(at) => at.date_naive(),
        }
    }
}

impl Serialize for When {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        match self {
            Self::Day(day) => to.collect_str(&day.format("%Y-%m-%d")),
            Self::At(at) => to.collect_str(&at.to_rfc3339()),
        }
    }
}

impl<'de> Deserialize<'de> for When {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let text = String::deserialize(from)?;
        if let Ok(day) = text.parse::<NaiveDate>() {
            return Ok(Self::Day(day));
        }
        DateTime::parse_from_rfc3339(&text)
            .map(Self::At)
            .map_err(|_| serde::de::Error::custom(format!("'{text}' is neither a date nor a time of ISO 8601")))
    }
}
