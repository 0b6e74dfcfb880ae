//! What canning uses up: stock of each supply, in its own unit.

use crate::quantity::{Mass, Volume};
use crate::vocabulary::{Jar, Supply};
use std::collections::BTreeMap;

/// A supply; jars are kept by size.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub struct SupplyKey(pub Supply, pub Option<Jar>);

/// How much of a supply there is. A supply that was never bought or counted has no entry, and nobody is warned of it.
#[derive(Clone, Copy, PartialEq, Debug, Default)]
pub struct Stocked {
    /// Pieces.
    pub count: u32,
    /// By weight: citric acid, salt.
    pub mass: Mass,
    /// By volume: lemon juice, vinegar.
    pub volume: Volume,
}

/// All supplies ever bought or counted.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Supplies(BTreeMap<SupplyKey, Stocked>);

impl Supplies {
    /// How much there is, if it was ever bought or counted.
    pub fn get(&self, supply: Supply) -> Option<Stocked> {
        self.0.get(&SupplyKey(supply, None)).copied()
    }

    /// As [`Supplies::get`], for jars of one size too.
    pub fn of(&self, key: SupplyKey) -> Option<Stocked> {
        self.0.get(&key).copied()
    }

    /// Every one, in order.
    pub fn iter(&self) -> impl Iterator<Item = (SupplyKey, Stocked)> {
        self.0.iter().map(|(key, stocked)| (*key, *stocked))
    }

    /// Adds what was bought.
    pub(in crate::ledger) fn add(&mut self, key: SupplyKey, more: Stocked) {
        let stocked = self.0.entry(key).or_default();
        stocked.count = stocked.count.saturating_add(more.count);
        stocked.mass += more.mass;
        stocked.volume += more.volume;
    }

    /// Sets right what was counted.
    pub(in crate::ledger) fn set(&mut self, key: SupplyKey, there: Stocked) {
        self.0.insert(key, there);
    }

    /// Uses some up; never below nothing, and never what was not entered. Returns what was there to use.
    pub(in crate::ledger) fn use_up(&mut self, key: SupplyKey, used: Stocked) -> Stocked {
        let Some(stocked) = self.0.get_mut(&key) else { return Stocked::default() };
        let before = *stocked;
        stocked.count = stocked.count.saturating_sub(used.count);
        stocked.mass = stocked.mass.less(used.mass);
        stocked.volume = stocked.volume.less(used.volume);
        Stocked {
            count: before.count - stocked.count,
            mass: before.mass - stocked.mass,
            volume: before.volume - stocked.volume,
        }
    }
}

impl Stocked {
    /// Whether it is enough for what is needed, in each unit that is needed.
    pub fn covers(&self, needed: Stocked) -> bool {
        self.count >= needed.count && self.mass >= needed.mass && self.volume >= needed.volume
    }
}
