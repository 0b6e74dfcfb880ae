//! The assistant on a console: lines in, answers out, alerts when they fall due, even while somebody types.
//!
//! ```
//! use rackful::{assistant::Defaults, clock::SystemClock, console, desk::Desk, store::MemoryStore, zone::Zone};
//! let desk = Desk::open(Box::new(MemoryStore::default()), Defaults::default())?;
//! let session = console::Session::new(desk, std::sync::Arc::new(SystemClock), Zone::UTC, "ana");
//! let mut out = Vec::new();
//! console::piped(session, std::io::Cursor::new("froze 7 lb\n"), &mut out)?;
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! | part | does |
//! |---|---|
//! | `session` | the only one that talks to the desk: one room, one person, message ids that never come twice |
//! | `bell` | waits for a line or for the next deadline, whichever is first |
//! | `piped` | lines from a pipe, answers to a pipe |
//! | `terminal` | line editing, history, and a printer that writes above the line being typed |
//! | `files` | puts pictures, labels and tables into a folder and says where |
//! | `page` | breaks what is said at the width of the terminal |
//! | `sample` | an invented season to ask about |
//!
//! Invariants: what is shown is on disk already; a message of the outbox is shown at least once. Nothing here knows
//! what a phrase means.

mod bell;
mod files;
mod page;
mod piped;
mod sample;
mod session;
mod terminal;

pub use piped::piped;
pub use sample::{SAMPLE, play_sample};
pub use session::{ROOM, Session};
pub use terminal::{Terminal, terminal};

use crate::store::StoreError;

/// Why a console ended.
#[derive(Debug, thiserror::Error)]
pub enum ConsoleError {
    /// The store failed: the last message does not count.
    #[error("{0}; the last message was not kept, say it again")]
    Store(#[from] StoreError),
    /// Reading failed.
    #[error("cannot read what is typed: {0}")]
    Read(std::io::Error),
    /// Writing failed.
    #[error("cannot write the answer: {0}")]
    Write(#[source] std::io::Error),
    /// The terminal cannot be used.
    #[error("cannot use this terminal: {0}; pipe the phrases in instead, one a line")]
    Terminal(#[from] rustyline::error::ReadlineError),
    /// The machine gives no thread.
    #[error("cannot start waiting for deadlines: {0}; close other programs and try again")]
    Thread(std::io::Error),
    /// The sample does not play.
    #[error(transparent)]
    Sample(#[from] crate::replay::ReplayError),
}
