//! `rackful import`.

use super::Call;
use clap::Args;

/// The words of the call.
#[derive(Args, Debug)]
pub struct Import {}

impl Import {
    pub(super) fn run(&self, _call: &Call) -> anyhow::Result<()> {
        Ok(())
    }
}
