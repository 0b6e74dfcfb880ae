//! `rackful replay`.

use super::Call;
use crate::replay::ReplayError;
use clap::Args;
use std::io::{BufReader, BufWriter, Write};
use std::path::{Path, PathBuf};

/// The words of the call.
#[derive(Args, Debug)]
pub struct Replay {
    /// The script; - reads standard input
    #[arg(value_name = "FILE")]
    file: PathBuf,
}

impl Replay {
    pub(super) fn run(&self, call: &Call) -> anyhow::Result<()> {
        let defaults = call.config.defaults();
        // A folder in the settings is the household's own ledger: only --data plays into a store on disk.
        let mut desk = match call.data {
            Some(_) => call.desk(defaults)?,
            None => call.throw_away_desk(defaults)?,
        };
        let mut out = BufWriter::new(std::io::stdout().lock());
        let played = if self.file == Path::new("-") {
            crate::replay::run(std::io::stdin().lock(), &mut desk, &mut out)
        } else {
            let file = std::fs::File::open(&self.file).map_err(|error| {
                anyhow::anyhow!("cannot read {}: {error}; name a script, or - for standard input", self.file.display())
            })?;
            crate::replay::run(BufReader::new(file), &mut desk, &mut out)
        };
        // What was said before a broken line stands, and is worth seeing beside the error.
        let flushed = out.flush().map_err(ReplayError::Write);
        Ok(played.and(flushed)?)
    }
}
