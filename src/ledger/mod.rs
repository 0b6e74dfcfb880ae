//! The ledger.

mod entry;

pub use entry::{Change, Entry, MessageId, Pending};
