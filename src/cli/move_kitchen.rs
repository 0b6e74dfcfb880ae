//! `rackful move`.

use super::Call;
use clap::Args;

/// The words of the call.
#[derive(Args, Debug)]
pub struct Move {
    /// The room that the kitchen is in, by its id: !abc:example.org
    #[arg(value_name = "OLD")]
    old: String,
    /// The room to carry on in
    #[arg(value_name = "NEW")]
    new: String,
}

impl Move {
    #[cfg(not(feature = "matrix"))]
    pub(super) fn run(&self, _call: &Call) -> anyhow::Result<()> {
        let _ = (&self.old, &self.new);
        anyhow::bail!(super::serve::NO_MATRIX)
    }

    #[cfg(feature = "matrix")]
    pub(super) fn run(&self, call: &Call) -> anyhow::Result<()> {
        use std::io::Write;
        let mut store = call.existing_store()?;
        crate::matrix::move_kitchen(&mut store, &self.old, &self.new, call.config.clock().now())?;
        let (old, new) = (&self.old, &self.new);
        Ok(writeln!(
            std::io::stdout(),
            "The kitchen of {old} goes on in {new}. Invite the assistant there if it is not in it."
        )?)
    }
}
