//! `rackful check`.

use super::Call;
use clap::Args;

/// The words of the call.
#[derive(Args, Debug)]
pub struct Check {}

impl Check {
    pub(super) fn run(&self, _call: &Call) -> anyhow::Result<()> {
        Ok(())
    }
}
