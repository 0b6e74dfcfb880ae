//! An invented season, to ask about before anything was picked.

use super::{ConsoleError, ROOM};
use crate::desk::Desk;
use crate::replay;
use crate::zone::Zone;
use chrono::{DateTime, Utc};

/// A household, a place and a year that never were, as a script for a replay.
pub const SAMPLE: &str = include_str!("sample.jsonl");

/// Plays the season into a desk and says when and in which time zone it ends; nothing is printed.
///
/// # Errors
/// When the store fails.
pub fn play_sample(desk: &mut Desk) -> Result<(DateTime<Utc>, Zone), ConsoleError> {
    replay::run(SAMPLE.as_bytes(), desk, &mut std::io::sink())?;
    let last = replay::lines(SAMPLE.as_bytes()).last().transpose()?;
    let end = last.map_or(DateTime::UNIX_EPOCH, |line| line.at.to_utc());
    let zone = desk.assistant().ledger(ROOM).map_or(Zone::UTC, |ledger| ledger.state().settings.zone);
    Ok((end, zone))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::assistant::Defaults;
    use crate::store::MemoryStore;
    use anyhow::Context as _;
    use serde_json::Value;

    #[test]
    fn every_line_of_the_season_is_understood_and_the_year_balances() -> anyhow::Result<()> {
        let mut desk = Desk::open(Box::new(MemoryStore::default()), Defaults::default())?;
        let mut out = Vec::new();
        replay::run(SAMPLE.as_bytes(), &mut desk, &mut out)?;
        let out: Vec<Value> =
            out.split(|byte| *byte == b'\n').filter_map(|line| serde_json::from_slice(line).ok()).collect();
        assert!(out.iter().all(|line| line["out"] != "problem"), "{out:#?}");
        let replies = out.iter().filter(|line| line["out"] == "reply").count();
        // The fence and the thanks at the end are family talk.
        assert_eq!(replies, SAMPLE.lines().count() - 2);
        let alerts: Vec<_> = out.iter().filter(|line| line["out"] == "alert").map(|line| &line["topic"]).collect();
        for topic in ["load-near", "load-ready", "process-done", "rest-done", "seal-check"] {
            assert!(alerts.iter().any(|alert| *alert == topic), "{topic}");
        }
        let ledger = desk.assistant().ledger(ROOM).context("a ledger")?;
        let (came, went) = ledger.state().balance();
        assert_eq!(came, went);
        assert!(ledger.state().open_batches().next().is_none());
        Ok(())
    }
}
