//! Runs a script of messages on a virtual clock and prints what the assistant says, one JSON object a line. The same
//! script gives the same bytes, so a conversation of months can be a test.
//!
//! ```
//! use rackful::{assistant::Defaults, desk::Desk, replay, store::MemoryStore};
//! let script = r#"{"at": "2026-08-14T09:05:00-05:00", "room": "home", "who": "ana", "say": "nice weather"}"#;
//! let mut desk = Desk::open(Box::new(MemoryStore::default()), Defaults::default())?;
//! let mut out = Vec::new();
//! replay::run(script.as_bytes(), &mut desk, &mut out)?;
//! assert_eq!(out, b"");      // plain talk gives no line
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! Before each line everything that falls due up to its time is announced, in order; what falls due after the last line
//! is not. Nothing here knows what a message means: lines become [`crate::assistant::Incoming`], what goes out becomes
//! lines.

mod print;
mod script;

pub use print::{print_outgoing, print_state};
pub use script::{Act, Line, lines};

use crate::assistant::Outgoing;
use crate::clock::{Clock, VirtualClock};
use crate::desk::Desk;
use crate::store::{Notes, StoreError};
use chrono::{DateTime, Utc};
use std::io::{BufRead, Write};

/// Why a replay stopped. What was printed before stands.
#[derive(Debug, thiserror::Error)]
pub enum ReplayError {
    /// A line of the script is not as it should be.
    #[error("line {line} of the script: {why}")]
    Line {
        /// Which, from 1.
        line: u64,
        /// What is wrong, and what would be right.
        why: String,
    },
    /// The script cannot be read.
    #[error("cannot read the script: {0}")]
    Read(std::io::Error),
    /// The output cannot be written.
    #[error("cannot write the output: {0}")]
    Write(#[source] std::io::Error),
    /// The store failed.
    #[error(transparent)]
    Store(#[from] StoreError),
}

/// Plays the whole script into the desk and prints what comes out.
///
/// # Errors
/// At the first line that is broken or goes back in time, and when the store or the output fails.
pub fn run(script: impl BufRead, desk: &mut Desk, out: &mut dyn Write) -> Result<(), ReplayError> {
    let mut lines = lines(script).peekable();
    let start = match lines.peek() {
        Some(Ok(line)) => line.at.with_timezone(&Utc),
        _ => DateTime::UNIX_EPOCH,
    };
    let mut player = Player { desk, clock: VirtualClock::at(start) };
    for line in lines {
        let line = line?;
        let at = line.at.with_timezone(&Utc);
        if at < player.clock.now() {
            let why = format!("its time, {}, is before that of the line above; put the lines in order", line.at);
            return Err(ReplayError::Line { line: line.number, why });
        }
        player.play(line, out)?;
    }
    out.flush().map_err(ReplayError::Write)
}

/// A desk and the hands of its clock.
struct Player<'a> {
    desk: &'a mut Desk,
    clock: VirtualClock,
}

impl Player<'_> {
    fn play(&mut self, line: Line, out: &mut dyn Write) -> Result<(), ReplayError> {
        let at = line.at.with_timezone(&Utc);
        self.advance(at, out)?;
        match line.act {
            Act::Message(message) => {
                let said = self.desk.hear(&[message], at, &Notes::new())?;
                self.print(&said, out)?;
                // What the message itself made due at once belongs to this moment, even after the last line.
                self.advance(at, out)
            }
            Act::State { room } => print_state(self.desk, &room, line.at, out).map_err(ReplayError::Write),
        }
    }

    /// Announces everything that falls due up to `until`, each at its own time, and leaves the clock there.
    fn advance(&mut self, until: DateTime<Utc>, out: &mut dyn Write) -> Result<(), ReplayError> {
        let mut silent = None;
        while let Some(due) = self.desk.next_due(self.clock.now()).filter(|due| *due <= until) {
            self.clock.advance_to(due);
            let said = self.desk.tick(self.clock.now())?;
            self.print(&said, out)?;
            // A deadline that stays where it is and says nothing would hold the clock for ever.
            if said.is_empty() && silent.replace(due) == Some(due) {
                break;
            }
        }
        self.clock.advance_to(until);
        Ok(())
    }

    fn print(&mut self, said: &[Outgoing], out: &mut dyn Write) -> Result<(), ReplayError> {
        for outgoing in said {
            print_outgoing(outgoing, out).map_err(ReplayError::Write)?;
            self.desk.sent(&outgoing.key)?;
        }
        Ok(())
    }
}
