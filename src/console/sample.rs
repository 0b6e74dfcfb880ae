//! An invented season, to ask about before anything was picked.

use super::ConsoleError;
use crate::desk::Desk;
use crate::replay;
use crate::zone::Zone;
use chrono::{DateTime, Utc};

/// A household, a place and a year that never were, as a script for a replay.
pub const SAMPLE: &str = include_str!("sample.jsonl");

const ZONE: &str = "America/Chicago";

/// Plays the season into a desk and says when it ends; nothing is printed.
///
/// # Errors
/// When the store fails.
pub fn play_sample(desk: &mut Desk) -> Result<DateTime<Utc>, ConsoleError> {
    replay::run(SAMPLE.as_bytes(), desk, &mut std::io::sink())?;
    let last = replay::lines(SAMPLE.as_bytes()).last().transpose()?;
    Ok(last.map_or(DateTime::UNIX_EPOCH, |line| line.at.with_timezone(&Utc)))
}

/// The time zone of the invented place.
pub fn sample_zone() -> Zone {
    Zone::parse(ZONE).unwrap_or(Zone::UTC)
}
