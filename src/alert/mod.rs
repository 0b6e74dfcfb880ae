//! What is due: deadlines that follow from the ledger, and conditions that came true.
//!
//! Invariants: a [`Due`] is found anew from the state each time, never kept; its name holds what it is about and, where
//! it is a deadline, when it was due, so that telling it once is remembering the name. A clock that was restarted has a
//! new instant and so a new name. What cannot wait ([`Due::urgent`]) is told in quiet hours too.

mod ahead;
mod deadlines;
mod watch;

pub use ahead::{digests, is_held};
pub use deadlines::{Alert, Due, deadlines};
pub use watch::{Holding, Watch, watches};

use crate::ledger::state::Settings;
use chrono::{DateTime, Days, Utc};

/// When an alert of this urgency may be told, at the earliest, if it fell due at `at`.
pub fn told_at(settings: &Settings, at: DateTime<Utc>, urgent: bool) -> DateTime<Utc> {
    if urgent {
        return at;
    }
    let clock = settings.zone.local(at);
    match settings.quiet_until(clock.time()) {
        None => at,
        Some(until) => {
            let today = clock.date_naive();
            let day = if until > clock.time() { today } else { today + Days::new(1) };
            settings.zone.at(day, until)
        }
    }
}
