//! A clock that runs faster, so that a canning day can be rehearsed in minutes: before the season, or in a test.

use crate::clock::RehearsalClock;
use chrono::{DateTime, FixedOffset, Utc};
use serde::de::Error;
use serde::{Deserialize, Deserializer};

/// How the clock runs. While this is set, messages and alarms count by it, in `chat` and in `serve`.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Rehearsal {
    /// How many of its seconds pass in one, 1 to 3600.
    #[serde(deserialize_with = "speed")]
    pub speed: u32,
    /// From this instant on.
    pub from: DateTime<FixedOffset>,
    /// What the clock shows then.
    pub shows: DateTime<FixedOffset>,
}

impl Rehearsal {
    /// The clock.
    pub fn clock(&self) -> RehearsalClock {
        let Self { speed, from, shows } = *self;
        RehearsalClock { from: from.with_timezone(&Utc), shows: shows.with_timezone(&Utc), speed }
    }
}

fn speed<'de, D: Deserializer<'de>>(from: D) -> Result<u32, D::Error> {
    let speed = u32::deserialize(from)?;
    if !(1..=3600).contains(&speed) {
        return Err(D::Error::custom(format!("a speed of {speed} is not between 1 and 3600")));
    }
    Ok(speed)
}
