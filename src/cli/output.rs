//! What the commands that make one file of one room share: which room, and where the file goes.

use super::Call;
use crate::desk::Desk;
use crate::ledger::Ledger;
use anyhow::{Context, anyhow};
use chrono::{DateTime, Utc};
use clap::Args;
use std::io::Write;
use std::path::Path;

/// Which room.
#[derive(Args, Debug, Default)]
pub(super) struct Room {
    /// The room, where the ledger has several
    #[arg(long, value_name = "ROOM")]
    room: Option<String>,
}

/// The room that is meant.
pub(super) struct Meant(String);

impl Room {
    /// Opens the ledger, which must be there, and finds the room.
    pub(super) fn open(&self, call: &Call) -> anyhow::Result<(Desk, Meant, DateTime<Utc>)> {
        let desk = Desk::open(Box::new(call.existing_store()?), call.config.defaults())?;
        let rooms: Vec<&str> = desk.assistant().rooms().collect();
        let meant = match (&self.room, rooms.as_slice()) {
            (Some(said), rooms) if rooms.contains(&said.as_str()) => said.clone(),
            (Some(said), rooms) => return Err(anyhow!("there is no room '{said}'; there is {}", rooms.join(", "))),
            (None, []) => return Err(anyhow!("nothing was entered yet, so there is nothing to show")),
            (None, [only]) => (*only).to_owned(),
            (None, rooms) => return Err(anyhow!("which room: {}? Name it with --room", rooms.join(", "))),
        };
        Ok((desk, Meant(meant), call.config.clock().now()))
    }
}

impl Meant {
    /// Its name.
    pub(super) fn name(&self) -> &str {
        &self.0
    }

    /// Its ledger.
    pub(super) fn ledger<'a>(&self, desk: &'a Desk) -> anyhow::Result<&'a Ledger> {
        desk.assistant().ledger(&self.0).ok_or_else(|| anyhow!("there is no room '{}'", self.0))
    }
}

/// Writes a file, or standard output for `-`, and says on standard output where it went and what it is.
pub(super) fn put(out: Option<&Path>, usual: &str, bytes: &[u8], told: &str) -> anyhow::Result<()> {
    let path = out.unwrap_or_else(|| Path::new(usual));
    let mut stdout = std::io::stdout().lock();
    if path == Path::new("-") {
        stdout.write_all(bytes)?;
        return Ok(stdout.flush()?);
    }
    std::fs::write(path, bytes)
        .map_err(|error| anyhow!("cannot write {}: {error}; name another file with --out", path.display()))?;
    writeln!(stdout, "{}: {told}", path.display()).context("cannot say where the file is")
}
