//! `rackful check`.

use super::Call;
use crate::config::Matrix;
use crate::store::inspect_snapshot;
use clap::Args;
use std::io::Write;
use std::path::{Path, PathBuf};

/// The words of the call.
#[derive(Args, Debug)]
pub struct Check {
    /// Look at a snapshot, or another copy of a journal, instead
    #[arg(value_name = "SNAPSHOT")]
    snapshot: Option<PathBuf>,
}

impl Check {
    /// Says everything that is wrong at once: nobody should have to call it five times.
    pub(super) fn run(&self, call: &Call) -> anyhow::Result<()> {
        let mut out = std::io::stdout().lock();
        if let Some(snapshot) = &self.snapshot {
            let found = inspect_snapshot(snapshot)?;
            return Ok(writeln!(out, "{}: whole, {} commits", snapshot.display(), found.commits)?);
        }
        writeln!(out, "settings: can be read")?;
        let mut wrong = call.config.matrix.missing();
        let data = call.data_dir()?;
        match call.inspect_store() {
            Ok(found) => writeln!(out, "store: {found}")?,
            Err(error) => wrong.push(error.to_string()),
        }
        let (snapshots, broken) = call.inspect_snapshots()?;
        writeln!(out, "snapshots: {snapshots}")?;
        wrong.extend(broken);
        match log_in(&call.config.matrix, &data) {
            Ok(told) => told.iter().try_for_each(|line| writeln!(out, "{line}"))?,
            Err(why) => wrong.push(why),
        }
        #[cfg(not(feature = "matrix"))]
        wrong.push(super::serve::NO_MATRIX.to_owned());
        if wrong.is_empty() {
            return Ok(writeln!(out, "serve could start")?);
        }
        Err(anyhow::anyhow!(wrong.join("\nrackful: ")))
    }
}

/// What is to be said of session and keys, or what is wrong with the way to log in.
fn log_in(matrix: &Matrix, data: &Path) -> Result<Vec<String>, String> {
    let named = matrix.credential().map_err(|error| error.to_string())?.is_some();
    #[cfg(feature = "matrix")]
    if let Ok(settings) = super::serve::settings(matrix) {
        // Knows of the kept session too, which needs no secret.
        return crate::matrix::check(&settings, data).map_err(|error| error.to_string());
    }
    let _ = data;
    if named {
        return Ok(Vec::new());
    }
    Err("there is nothing to log in with; put the password into a file of its own and name it in matrix.password_file"
        .to_owned())
}
