//! `rackful export`.

use super::Call;
use crate::desk::Desk;
use crate::export::csv::{self, Table};
use clap::Args;
use std::io::{BufWriter, Write};

/// The words of the call.
#[derive(Args, Debug)]
pub struct Export {
    /// A table for a spreadsheet instead of the whole ledger
    #[arg(long, value_name = "TABLE")]
    csv: Option<Table>,
}

impl Export {
    pub(super) fn run(&self, call: &Call) -> anyhow::Result<()> {
        let store = call.existing_store()?;
        let mut out = BufWriter::new(std::io::stdout().lock());
        match self.csv {
            None => crate::export::export(&store, &mut out)?,
            Some(table) => {
                let desk = Desk::open(Box::new(store), call.config.defaults())?;
                let assistant = desk.assistant();
                let rooms = assistant.rooms().filter_map(|room| Some((room, assistant.ledger(room)?)));
                csv::write(table, rooms, &mut out)?;
            }
        }
        Ok(out.flush()?)
    }
}
