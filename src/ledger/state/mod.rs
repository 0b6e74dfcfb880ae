//! What a household has at one instant: the fold of its entries.
//!
//! Invariants: nothing is ever negative; for each year, picked = frozen + eaten, given and tossed from the counter +
//! used fresh + what of it is still on the counter (checked by [`State::balance`]); bags are oldest first. A state
//! knows no entry and no clock.

mod counter;
mod diary;
mod freezer;
mod history;
mod plans;
mod settings;
mod shelf;
mod supplies;
mod totals;

pub use counter::{Counter, Fruit};
pub use diary::{Diary, Flow, Frozen, Use, Way};
pub use freezer::{Bag, Freezer};
pub use history::{Finished, History};
pub use plans::{PlannedDay, Planting};
pub use settings::{Answers, Capacity, Digest, Quiet, Settings, Units, Yield};
pub use shelf::{Drying, Lot, Shelf};
pub use supplies::{Stocked, Supplies, SupplyKey};
pub use totals::Totals;

use crate::batch::Batch;
use crate::quantity::Mass;
use crate::statement::{Recipe, Teach};
use crate::vocabulary::{Crop, Stock};
use crate::zone::Zone;
use chrono::{DateTime, Datelike, Utc};
use std::collections::BTreeMap;

/// A kitchen timer.
#[derive(Clone, PartialEq, Debug)]
pub struct Timer {
    /// What for.
    pub label: Option<String>,
    /// When it rings.
    pub ends: DateTime<Utc>,
}

/// All that a household has, and how it works.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct State {
    /// Fresh fruit indoors.
    pub counter: Counter,
    /// Bags in the freezer.
    pub freezer: Freezer,
    /// Out of the freezer, not yet in a jar.
    pub thawing: BTreeMap<Crop, Mass>,
    /// Since when the last of it is out, and its heaviest bag.
    pub thawing_since: BTreeMap<Crop, (DateTime<Utc>, Mass)>,
    /// The household's own words, each once.
    pub taught: Vec<Teach>,
    /// Open batches, oldest first, and those closed a short while ago.
    pub batches: Vec<Batch>,
    /// How many batches there have been.
    pub batch_count: u32,
    /// Batches that are done with and no longer kept above.
    pub history: History,
    /// Jars on the shelf.
    pub pantry: Shelf,
    /// Jars in the refrigerator.
    pub fridge: Shelf,
    /// Jars in the freezer.
    pub freezer_jars: Shelf,
    /// In the dryer.
    pub dryer: Vec<Drying>,
    /// Out of the dryer dry, and not weighed yet.
    pub unweighed: Vec<Drying>,
    /// Dry weight, by what it is.
    pub dried: BTreeMap<String, Mass>,
    /// Lids, acid and the like.
    pub supplies: Supplies,
    /// The household's own recipes, by name.
    pub recipes: BTreeMap<String, Recipe>,
    /// Kitchen timers.
    pub timers: Vec<Timer>,
    /// The room's settings.
    pub settings: Settings,
    /// What was done, summed up by day, month and year.
    pub diary: Diary,
    /// What was planted, in the order told.
    pub planted: Vec<Planting>,
    /// Days set for canning, in order.
    pub planned: Vec<PlannedDay>,
    /// Sums by calendar year in the room's time zone.
    pub years: BTreeMap<i32, Totals>,
    /// How many entries it is the fold of.
    pub(super) folded: usize,
}

impl State {
    /// Of a room that has just been founded.
    pub fn new(zone: Zone) -> Self {
        Self { settings: Settings { zone, ..Settings::default() }, ..Self::default() }
    }

    /// The sums of the year of this instant.
    pub fn totals(&self, at: DateTime<Utc>) -> Totals {
        self.years.get(&self.settings.zone.day(at).year()).copied().unwrap_or_default()
    }

    /// The sums of the year of this instant, to add to.
    pub(super) fn totals_mut(&mut self, at: DateTime<Utc>) -> &mut Totals {
        self.years.entry(self.settings.zone.day(at).year()).or_default()
    }

    /// Jars in the pantry, the refrigerator or the freezer; those of the pantry for any other place.
    pub fn shelf(&self, place: Stock) -> &Shelf {
        match place {
            Stock::Fridge => &self.fridge,
            Stock::Freezer => &self.freezer_jars,
            Stock::Pantry | Stock::Counter | Stock::Thawing => &self.pantry,
        }
    }

    pub(super) fn shelf_mut(&mut self, place: Stock) -> &mut Shelf {
        match place {
            Stock::Fridge => &mut self.fridge,
            Stock::Freezer => &mut self.freezer_jars,
            Stock::Pantry | Stock::Counter | Stock::Thawing => &mut self.pantry,
        }
    }

    /// What lies on the counter of a crop.
    pub fn on_counter(&self, crop: Crop) -> Mass {
        self.counter.mass(crop)
    }

    /// What is thawing of a crop and not yet for any batch.
    pub fn thawing(&self, crop: Crop) -> Mass {
        self.thawing.get(&crop).copied().unwrap_or_default()
    }

    /// All that is thawing, for a batch or not.
    pub fn all_thawing(&self) -> Mass {
        self.thawing.values().copied().sum::<Mass>() + self.batches.iter().map(|batch| batch.thawed).sum()
    }

    /// Open batches, oldest first.
    pub fn open_batches(&self) -> impl DoubleEndedIterator<Item = &Batch> {
        self.batches.iter().filter(|batch| batch.is_open())
    }

    /// What was picked in all years less all that left the counter and less the counter itself: nothing, always.
    pub fn balance(&self) -> (Mass, Mass) {
        let picked: Mass = self.years.values().map(|year| year.picked).sum();
        let left: Mass = self.years.values().map(Totals::left_counter).sum();
        (picked, left + self.counter.total())
    }
}
