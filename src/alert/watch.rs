//! Conditions that are told when they come true, and again only after they were over.

use crate::ledger::state::State;
use crate::planning::{LoadState, Need, below_lines, load_state, target};

/// A condition that holds, or one that is over.
#[derive(Clone, PartialEq, Debug)]
pub enum Watch {
    /// It holds: tell it, unless it was told.
    Holds(String, Holding),
    /// It holds, but is no news: something that says more is told instead.
    Passed(String),
    /// It is over: it may be told again.
    Over(String),
}

/// What holds.
#[derive(Clone, PartialEq, Debug)]
pub enum Holding {
    /// One more usual bag would make a load.
    LoadNear(Box<LoadState>),
    /// The freezer holds a load.
    LoadReady(Box<LoadState>),
    /// A supply is below its line.
    Low(Need),
}

/// `load-near` and `load-ready` of the usual product, and every supply with a line.
///
/// From below the near line straight to a load only the load is told. Fallen below the load, but not below the near line,
/// `load-near` stays silent: it was passed.
pub fn watches(state: &State) -> Vec<Watch> {
    let mut watches = Vec::new();
    if let Some(target) = target(state, None, None) {
        let load = Box::new(load_state(state, target));
        let (near, ready) = ("load-near".to_owned(), "load-ready".to_owned());
        if load.is_ready() {
            watches.push(Watch::Passed(near));
            watches.push(Watch::Holds(ready, Holding::LoadReady(load)));
        } else {
            watches.push(Watch::Over(ready));
            watches.push(if load.is_near(state.settings.usual_bag()) {
                Watch::Holds(near, Holding::LoadNear(load))
            } else {
                Watch::Over(near)
            });
        }
    }
    let below = below_lines(state);
    for supply in state.settings.low.keys() {
        let name = format!("low {supply}");
        watches.push(match below.iter().find(|need| need.key.0 == *supply) {
            Some(need) => Watch::Holds(name, Holding::Low(*need)),
            None => Watch::Over(name),
        });
    }
    watches
}
