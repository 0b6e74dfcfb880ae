//! Conditions that are told when they come true, and again only after they were over.

use crate::ledger::state::State;
use crate::planning::{LoadState, Need, below_lines, load_state, short_for, target};

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
    /// What a batch or a load will be short of.
    Short(String, Vec<Need>),
}

impl Holding {
    /// The topic, as the contract names it.
    pub fn topic(&self) -> &'static str {
        match self {
            Self::LoadNear(_) => "load-near",
            Self::LoadReady(_) => "load-ready",
            Self::Low(_) | Self::Short(..) => "supplies-low",
        }
    }
}

/// `load-near` and `load-ready` of the usual product, what a load or a batch that begins is short of, and every supply
/// with a line.
///
/// From below the near line straight to a load only the load is told. Fallen below the load, but not below the near
/// line, `load-near` stays silent: it was passed.
pub fn watches(state: &State) -> Vec<Watch> {
    let mut watches = Vec::new();
    if let Some(target) = target(state, None, None) {
        let load = Box::new(load_state(state, target));
        let (near, ready) = ("load-near".to_owned(), "load-ready".to_owned());
        if load.is_ready() {
            let target = &load.target;
            let short = short_for(state, &target.product, target.jar, target.jars, None);
            watches.push(Watch::Passed(near));
            watches.push(Watch::Holds(ready, Holding::LoadReady(load)));
            watches.extend(short_of("short load".to_owned(), "this load", short));
        } else {
            watches.push(Watch::Over(ready));
            watches.push(Watch::Over("short load".to_owned()));
            watches.push(if load.is_near(state.settings.usual_bag()) {
                Watch::Holds(near, Holding::LoadNear(load))
            } else {
                Watch::Over(near)
            });
        }
    }
    for batch in state.open_batches().filter(|batch| batch.filled == 0 && batch.stopped.is_none()) {
        let short = short_for(state, &batch.product, batch.jar, batch.jars(), batch.acid);
        watches.extend(short_of(format!("short batch {}", batch.number), &format!("'{}'", batch.name), short));
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

/// Nothing is news of what is not short: a batch is told once, even if it is short again.
fn short_of(name: String, what: &str, needs: Vec<Need>) -> Option<Watch> {
    (!needs.is_empty()).then(|| Watch::Holds(name, Holding::Short(what.to_owned(), needs)))
}
