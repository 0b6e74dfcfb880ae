//! `rackful restore`.

use super::Call;
use crate::store::{restore, snapshots};
use anyhow::anyhow;
use clap::Args;
use std::io::Write;
use std::path::PathBuf;

/// The words of the call.
#[derive(Args, Debug)]
pub struct Restore {
    /// A snapshot: its file, its day as in 2026-08-14, or latest
    #[arg(value_name = "SNAPSHOT")]
    snapshot: PathBuf,
}

impl Restore {
    pub(super) fn run(&self, call: &Call) -> anyhow::Result<()> {
        let folder = call.data_dir()?;
        let snapshot = if self.snapshot.is_file() {
            self.snapshot.clone()
        } else {
            let word = self.snapshot.to_string_lossy();
            let all = snapshots(&folder);
            let named = |path: &&PathBuf| path.file_stem().is_some_and(|name| name.to_string_lossy().ends_with(&*word));
            let found = if word == "latest" { all.last() } else { all.iter().find(named) };
            found.cloned().ok_or_else(|| {
                let days: Vec<_> =
                    all.iter().filter_map(|path| path.file_stem()).map(|n| n.to_string_lossy()).collect();
                let days = days.join(", ").replace("journal-", "");
                let there = if days.is_empty() { "there are none".to_owned() } else { format!("there are: {days}") };
                anyhow!("{word} is no snapshot; {there}")
            })?
        };
        let found = restore(&folder, &snapshot, call.config.clock().now())?;
        let out = &mut std::io::stdout();
        writeln!(out, "Put back {}: {} commits. What was there is kept beside it.", snapshot.display(), found.commits)?;
        Ok(writeln!(
            out,
            "In Matrix rooms what was said since then is read again from the homeserver at the next start."
        )?)
    }
}
