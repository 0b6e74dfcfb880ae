//! `rackful card`.

use super::Call;
use super::output::{Room, put};
use crate::config::Units;
use crate::ledger::state::Units as RoomUnits;
use crate::paper;
use crate::sheet::SheetSize;
use clap::Args;
use clap::builder::PossibleValuesParser;
use std::path::PathBuf;

/// The words of the call.
#[derive(Args, Debug)]
pub struct Card {
    /// The paper [default: letter, or a4 where units are metric]
    #[arg(long, value_name = "SHEET", value_parser = PossibleValuesParser::new(["a4", "letter"]))]
    paper: Option<String>,
    /// Where to; - is standard output [default: kitchen-card.pdf here]
    #[arg(long, value_name = "FILE")]
    out: Option<PathBuf>,
}

impl Card {
    pub(super) fn run(&self, call: &Call) -> anyhow::Result<()> {
        let sheet = match self.paper.as_deref() {
            Some("a4") => SheetSize::A4,
            Some(_) => SheetSize::Letter,
            None if is_metric(call) => SheetSize::A4,
            None => SheetSize::Letter,
        };
        let bytes = paper::card(&call.config.name, sheet)?;
        put(self.out.as_deref(), "kitchen-card.pdf", &bytes, &format!("1 page, {}", sheet.as_str()))
    }
}

/// Whether the household's units are metric: those of its room where there is one, else those of the settings, since
/// the card is of use before anything was entered and while another process has the ledger open.
fn is_metric(call: &Call) -> bool {
    let of_room = Room::default().open(call).ok().and_then(|(desk, room, _)| {
        room.ledger(&desk).ok().map(|ledger| ledger.state().settings.units == RoomUnits::Metric)
    });
    of_room.unwrap_or(call.config.units == Units::Metric)
}
