//! `rackful serve`.

use super::Call;
use clap::Args;

/// The words of the call.
#[derive(Args, Debug)]
pub struct Serve {}

impl Serve {
    pub(super) fn run(&self, _call: &Call) -> anyhow::Result<()> {
        Ok(())
    }
}
