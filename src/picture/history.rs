//! The states that a ledger went through.

use crate::ledger::state::State;
use crate::ledger::{Entry, Ledger, Mode, apply};
use chrono::{DateTime, TimeDelta, Utc};

/// The state just before an instant, and every entry from then on with the state after it: the fold once more, in its
/// own order.
pub(super) struct History<'a> {
    state: State,
    entries: Box<dyn Iterator<Item = &'a Entry> + 'a>,
}

impl<'a> History<'a> {
    /// From this instant on.
    pub(super) fn since(ledger: &'a Ledger, from: DateTime<Utc>) -> Self {
        // Entries of this very instant are still to come.
        let state = ledger.state_at(from - TimeDelta::nanoseconds(1));
        Self { state, entries: Box::new(ledger.entries().filter(move |entry| entry.happened >= from)) }
    }

    /// From the first entry on.
    pub(super) fn whole(ledger: &'a Ledger) -> Self {
        Self::since(ledger, ledger.entries().next().map_or(DateTime::UNIX_EPOCH, |entry| entry.happened))
    }

    /// The state so far.
    pub(super) fn state(&self) -> &State {
        &self.state
    }

    /// Calls `visit` with each entry and the state after it.
    pub(super) fn each(mut self, mut visit: impl FnMut(&Entry, &State)) {
        for entry in self.entries {
            apply(&mut self.state, entry, Mode::Fold);
            visit(entry, &self.state);
        }
    }
}
