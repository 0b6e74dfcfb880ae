//! The ledger: what was said, folded into what there is.
//!
//! ```
//! use rackful::ledger::{Entry, Ledger, MessageId};
//! use rackful::quantity::{Mass, Number};
//! use rackful::statement::{Froze, Statement};
//! use rackful::vocabulary::Crop;
//! use rackful::zone::Zone;
//! # let at = chrono::DateTime::UNIX_EPOCH;
//! let mut ledger = Ledger::new(Zone::UTC);
//! let seven = Mass::POUND.times(Number::whole(7));
//! ledger.enter(vec![Entry {
//!     message: MessageId::new("$1"),
//!     part: 0,
//!     who: "ana".into(),
//!     said: at,
//!     happened: at,
//!     words: "froze 7 lb".into(),
//!     statement: Statement::Froze(Froze { mass: seven, ..Froze::default() }),
//! }]);
//! assert_eq!(Some(ledger.state().freezer.mass(Crop::Tomato)), seven);
//! ```
//!
//! Deciding may refuse, folding may not: [`Ledger::try_entry`] says what an entry would do where it belongs in time,
//! and [`Ledger::enter`] takes in what was accepted. Entries are folded by when they happened, then by arrival, so an
//! entry of yesterday goes before those of today and what follows from it follows anew; takings that then no longer fit
//! are cut to what is there ([`Effect::cut`]).
//!
//! The ledger never asks what time it is, knows no text and no reply. Stages and clocks of a batch are `batch`'s,
//! published figures `processes`'.

mod apply;
mod bounds;
mod correct;
mod effect;
mod entry;
mod fold;
pub mod state;

pub use apply::{Made, Mode, apply, made};
pub use bounds::check as check_bounds;
pub use correct::corrected;
pub use effect::{Amount, Effect, Refusal, Shortage};
pub use entry::{Change, Entry, MessageId, Pending, Proposal};
pub use fold::{Cut, Ledger};

pub(crate) use apply::{crop_of, is_as_published, names};
