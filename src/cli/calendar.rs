//! `rackful calendar`.

use super::Call;
use super::output::{Room, put};
use crate::{paper, reply};
use clap::Args;
use std::path::PathBuf;

/// The words of the call.
#[derive(Args, Debug)]
pub struct Calendar {
    /// Where to; - is standard output [default: due.ics here]
    #[arg(long, value_name = "FILE")]
    out: Option<PathBuf>,
    #[command(flatten)]
    room: Room,
}

impl Calendar {
    pub(super) fn run(&self, call: &Call) -> anyhow::Result<()> {
        let (desk, room, now) = self.room.open(call)?;
        let ledger = room.ledger(&desk)?;
        let calendar = reply::occasions(reply::Scene { state: ledger.state(), now });
        // A calendar without an event is none (RFC 5545, section 3.6).
        if calendar.occasions.is_empty() {
            anyhow::bail!("nothing is due, so no calendar was written");
        }
        let told = format!("{} dates", calendar.occasions.len());
        put(self.out.as_deref(), "due.ics", &paper::calendar(&calendar, room.name()), &told)
    }
}
