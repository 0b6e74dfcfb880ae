//! `rackful chat`.

use super::Call;
use crate::clock::{Clock, ShiftedClock, machine_zone};
use crate::console::{self, Session, Terminal};
use clap::Args;
use std::io::IsTerminal;
use std::path::PathBuf;
use std::sync::Arc;

/// The words of the call.
#[derive(Args, Debug)]
pub struct Chat {
    /// Play an invented season first, into a store that is gone afterwards, so that there is something to ask about
    #[arg(long, conflicts_with = "data")]
    sample: bool,
    /// Where pictures, labels and tables are put [default: the folder `files` beside the ledger]
    #[arg(long, value_name = "DIR")]
    files: Option<PathBuf>,
}

const GREETING: &str = "Rackful keeps the ledger. \
     Say what you did: picked 23 lb romas · froze 3 bags at 7 lb · undo\n\
     Or ask: what's in the freezer? · how close to a load? · help   (Ctrl-D leaves)";

impl Chat {
    pub(super) fn run(&self, call: &Call) -> anyhow::Result<()> {
        let mut defaults = call.config.defaults();
        let (desk, clock, zone, how): (_, Arc<dyn Clock>, _, _) = if self.sample {
            let mut desk = call.throw_away_desk(defaults)?;
            let (end, zone) = console::play_sample(&mut desk)?;
            let day = zone.day(end).format("%A %-d %B %Y");
            let greeting = format!(
                "An invented season, kept nowhere; for you it is {day}.\n\
                 Ask: what's in the freezer? · how close to a load? · pantry? · how much have we picked?"
            );
            (desk, Arc::new(ShiftedClock::starting(end)), zone, Terminal { greeting, history: None })
        } else {
            let zone = defaults.zone.unwrap_or_else(machine_zone);
            defaults.zone = Some(zone);
            let history = Some(call.data_dir()?.join("history.txt"));
            let how = Terminal { greeting: GREETING.to_owned(), history };
            let (mut desk, clock) = (call.desk(defaults)?, call.config.clock());
            if let Err(error) = desk.snapshot(clock.now()) {
                tracing::warn!("no snapshot was made: {error}");
            }
            (desk, clock, zone, how)
        };
        let files = match &self.files {
            Some(said) => said.clone(),
            // Of an invented season nothing is kept beside the ledger.
            None if self.sample => std::env::temp_dir().join("rackful-sample"),
            None => call.data_dir()?.join("files"),
        };
        let session = Session::new(desk, clock, zone, &who()).with_files(files);
        if can_edit_lines() {
            console::terminal(session, &how)?;
        } else {
            // A lock on standard input cannot be handed to the reading thread.
            let input = std::io::BufReader::new(std::io::stdin());
            console::piped(session, input, &mut std::io::stdout().lock())?;
        }
        Ok(())
    }
}

/// Who sits there, as the system calls them.
fn who() -> String {
    let named = ["USER", "LOGNAME", "USERNAME"].into_iter().find_map(|name| std::env::var(name).ok());
    named.filter(|name| !name.is_empty()).unwrap_or_else(|| "you".to_owned())
}

/// Whether a person sits at a terminal whose cursor can be moved.
fn can_edit_lines() -> bool {
    let fixed = std::env::var("TERM").is_ok_and(|term| matches!(&*term, "dumb" | "cons25" | "emacs"));
    std::io::stdin().is_terminal() && std::io::stdout().is_terminal() && !fixed
}
