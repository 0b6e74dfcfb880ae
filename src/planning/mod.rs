//! What follows from what there is: how close a canner load is, which bags to thaw for it, what supplies it takes, what
//! to do next.
//!
//! Invariants: planning reads a [`State`](crate::ledger::state::State) and changes nothing; every figure is a published one or the
//! household's own, never invented.

mod bags;
pub mod canning_day;
pub mod durations;
pub mod forecast;
mod load;
pub mod next_step;
pub mod next_year;
pub mod ripening;
pub mod shelf;
mod supplies;
pub mod thaw;

pub use bags::choose_bags;
pub use load::{LoadState, Target, load_state, target};
pub use supplies::{Need, below_lines, short_for};
