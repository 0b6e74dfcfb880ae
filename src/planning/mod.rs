//! What follows from what there is: how close a canner load is, which bags to thaw for it, what supplies it takes; and
//! looking ahead and back: when fruit is red, when the next load will be there, how a canning day is laid out, what to
//! use first, what to plant.
//!
//! ```
//! use rackful::ledger::state::State;
//! use rackful::planning::{load_state, target};
//! let empty = State::default();
//! let load = load_state(&empty, target(&empty, None, None).ok_or("nothing to aim at")?);
//! // USDA AIB 539 (2015), Guide 3: 46 lb of tomatoes for 7 quarts of thick sauce.
//! assert_eq!((load.short.as_pounds().round(), load.target.jars), (46.0, 7));
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! Invariants: planning reads a [`State`](crate::ledger::state::State) and changes nothing; the time is an argument;
//! every figure is a published one or the household's own, or is said to be from memory or a choice of this program.
//! How it is said is `reply`'s, when it is told `alert`'s.

mod bags;
pub mod canning_day;
mod day;
pub mod durations;
pub mod forecast;
mod load;
pub mod next_step;
pub mod next_year;
pub mod ripening;
pub mod shelf;
mod supplies;
pub mod thaw;
mod yields;

pub use bags::choose_bags;
pub use day::{BatchDay, Day, Round, day};
pub use load::{LoadState, Target, load_state, target};
pub use supplies::{Need, below_lines, short_for};
pub use yields::{ENOUGH, OwnYield, handbook_yield, own_for_loads, own_yield, yield_to_offer};
