//! What a batch uses up, against what is in the house. Only supplies that were ever bought or counted are spoken of.

use crate::ledger::state::{State, Stocked, SupplyKey};
use crate::vocabulary::{Acid, Jar, Product, Supply};

/// A supply that will not do.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Need {
    /// Which.
    pub key: SupplyKey,
    /// What there is.
    pub left: Stocked,
    /// What it takes; nothing when it is only below the line that was set.
    pub needed: Stocked,
}

impl Need {
    /// How much is to be got.
    pub fn missing(&self) -> Stocked {
        Stocked {
            count: self.needed.count.saturating_sub(self.left.count),
            mass: self.needed.mass.less(self.left.mass),
            volume: self.needed.volume.less(self.left.volume),
        }
    }
}

/// What is short for so many jars of a product: lids, jars of this size, acid.
pub fn short_for(state: &State, product: &Product, jar: Jar, jars: u32, said: Option<Acid>) -> Vec<Need> {
    let lids = (SupplyKey(Supply::Lids, None), Stocked { count: jars, ..Stocked::default() });
    let empty = (SupplyKey(Supply::Jars, Some(jar)), Stocked { count: jars, ..Stocked::default() });
    let acid = state.acid_needed(product, jar, jars, said);
    let ever = |key: SupplyKey| state.supplies.iter().find(|(known, _)| *known == key);
    [Some(lids), Some(empty), acid]
        .into_iter()
        .flatten()
        .filter_map(|(key, needed)| ever(key).map(|(key, left)| Need { key, left, needed }))
        .filter(|need| !need.left.covers(need.needed))
        .collect()
}

/// Supplies below the line that the household set for them.
pub fn below_lines(state: &State) -> Vec<Need> {
    let below = |(key, left): (SupplyKey, Stocked)| {
        let line = state.settings.low.get(&key.0)?;
        (!left.covers(*line)).then_some(Need { key, left, needed: Stocked::default() })
    };
    state.supplies.iter().filter_map(below).collect()
}
