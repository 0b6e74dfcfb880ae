//! What follows from what there is: how close a canner load is, which bags to thaw for it, what supplies it takes, what
//! to do next.
//!
//! Invariants: planning reads a [`State`](crate::ledger::state::State) and changes nothing; every figure is a published one or the
//! household's own, never invented.

mod bags;
mod day;
pub mod canning_day;
pub mod durations;
pub mod forecast;
mod load;
pub mod next_step;
pub mod next_year;
pub mod ripening;
pub mod shelf;
mod supplies;
mod yields;
pub mod thaw;

pub use bags::choose_bags;
pub use day::{BatchDay, Day, Round, day};
pub use load::{LoadState, Target, load_state, target};
pub use supplies::{Need, below_lines, short_for};
pub use yields::{ENOUGH, OwnYield, handbook_yield, own_for_loads, own_yield, yield_to_offer};
