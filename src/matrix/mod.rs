//! The driver for a Matrix homeserver: its events become [`Incoming`](crate::assistant::Incoming) messages, the outbox
//! becomes messages in rooms. Only here do Matrix library types appear.
//!
//! ```no_run
//! # async fn example(desk: rackful::desk::Desk, clock: std::sync::Arc<dyn rackful::clock::Clock>) {
//! use rackful::matrix::settings::{LogIn, MatrixSettings};
//! use std::sync::Arc;
//! let settings = MatrixSettings::new(
//!     "https://matrix.example.org",
//!     "rackful",
//!     Arc::new(|| Ok(Some(LogIn::Password("read from a file".into())))),
//!     Arc::new(|user| user == "@ana:example.org"),
//! );
//! # #[cfg(feature = "matrix")]
//! if let Err(why) = rackful::matrix::serve(&settings, desk, clock, std::path::Path::new("data")).await {
//!     eprintln!("{why}");
//! }
//! # }
//! ```
//!
//! Four tasks and one thread, joined by channels:
//!
//! - `owner` is a thread that alone owns the desk: one request after the other, each on disk before it is answered.
//! - `sync` asks the homeserver for what is new, from our own `position`; fills gaps from a room's `history`
//!   (`taking`); has it read by `incoming`; hands all of it over to be kept in one piece.
//! - `outgoing` sends what is in the outbox as a `notice` with its `files`, a queue for each room.
//! - `invites` joins where a permitted person invites, and `upgrades` of rooms.
//! - `keys` sees that the device is signed and that there is a recovery key.
//! - `receipts` says what was read.
//! - `serve` starts these, ticks when something falls due, ends on a signal.
//!
//! Invariants:
//! - The position in the event stream, the rooms followed and the events not yet readable are the desk's notes, written
//!   with the effects of the events before that position. A kill at any moment leaves both or neither; what is
//!   delivered again is known by its event id.
//! - An outbox entry's transaction id follows from its key, and the entry goes only when the homeserver has named the
//!   event: sending twice is sending once. The homeserver forgets transaction ids after a day, so an entry that is
//!   hours old is first looked for in the room.
//! - A sync that failed in the SDK after the homeserver answered is never tried again in this process: the SDK takes a
//!   repeated position for a repeated response, and drops it. The process ends, and its successor reads it again.
//! - A ledger goes by the room that it began in; `homes` knows in which it lives.
//! - A disk that takes nothing (`space`) stops the asking, so that nothing is taken in that could not be kept.
//! - What goes out after a store was put back, or is hours old, is looked for in the room before it is sent. What
//!   cannot be known there, because it cannot be read, goes out once more and says so.
//! - Events of people who are not on the list do nothing, nor do notices, nor the account's own events.
//!
//! What words mean is not known here (the assistant), nor what is on disk (the store), nor how settings are
//! written (the configuration).

pub mod settings;

#[cfg(feature = "matrix")]
mod files;
#[cfg(feature = "matrix")]
mod flood;
#[cfg(feature = "matrix")]
mod history;
#[cfg(feature = "matrix")]
mod homes;
#[cfg(feature = "matrix")]
mod html;
#[cfg(feature = "matrix")]
mod incoming;
#[cfg(feature = "matrix")]
mod invites;
#[cfg(feature = "matrix")]
mod kept;
#[cfg(feature = "matrix")]
mod keys;
#[cfg(feature = "matrix")]
mod meant;
#[cfg(feature = "matrix")]
mod notice;
#[cfg(feature = "matrix")]
mod outgoing;
#[cfg(feature = "matrix")]
mod owner;
#[cfg(feature = "matrix")]
mod position;
#[cfg(feature = "matrix")]
mod receipts;
#[cfg(feature = "matrix")]
mod serve;
#[cfg(feature = "matrix")]
mod session;
#[cfg(feature = "matrix")]
mod space;
#[cfg(feature = "matrix")]
mod sync;
#[cfg(feature = "matrix")]
mod taking;
#[cfg(feature = "matrix")]
mod trouble;
#[cfg(feature = "matrix")]
mod unread;
#[cfg(feature = "matrix")]
mod upgrades;

#[cfg(feature = "matrix")]
pub use homes::move_kitchen;
#[cfg(feature = "matrix")]
pub use serve::serve;
#[cfg(feature = "matrix")]
pub use session::check;
#[cfg(feature = "matrix")]
pub use trouble::ServeError;
