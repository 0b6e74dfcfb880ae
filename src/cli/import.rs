//! `rackful import`.

use super::Call;
use crate::export::Imported;
use anyhow::anyhow;
use clap::Args;
use std::io::{BufReader, Write};
use std::path::{Path, PathBuf};

/// The words of the call.
#[derive(Args, Debug)]
pub struct Import {
    /// What `export` wrote; - reads standard input
    #[arg(value_name = "FILE")]
    file: PathBuf,
}

impl Import {
    pub(super) fn run(&self, call: &Call) -> anyhow::Result<()> {
        let imported = if self.file == Path::new("-") {
            crate::export::import(std::io::stdin().lock(), &mut call.store()?)?
        } else {
            let file = std::fs::File::open(&self.file).map_err(|error| {
                anyhow!(
                    "cannot read {}: {error}; name a file that export wrote, or - for standard input",
                    self.file.display()
                )
            })?;
            crate::export::import(BufReader::new(file), &mut call.store()?)?
        };
        let Imported { taken, known } = imported;
        Ok(writeln!(std::io::stdout(), "Taken in: {taken}. Here before: {known}.")?)
    }
}
