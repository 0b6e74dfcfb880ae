//! `rackful export`.

use super::Call;
use crate::desk::Desk;
use crate::export::csv::{self, Table};
use clap::Args;
use clap::builder::{PossibleValuesParser, TypedValueParser};
use std::io::{BufWriter, Write};

/// The words of the call.
#[derive(Args, Debug)]
pub struct Export {
    /// A table for a spreadsheet instead of the whole ledger
    #[arg(long, value_name = "TABLE", value_parser = table())]
    csv: Option<Table>,
}

/// The tables by their written forms.
fn table() -> impl TypedValueParser<Value = Table> {
    PossibleValuesParser::new(Table::ALL.iter().map(|table| table.as_str()))
        .map(|word| Table::named(&word).unwrap_or(Table::Log))
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
