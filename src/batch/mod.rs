//! One canner batch, from the first word to the fate of its last jar: which steps fit where it stands, and when its
//! clocks run out.
//!
//! ```
//! use rackful::batch::{Batch, Step, Timing, Stage};
//! use rackful::vocabulary::{CannerKind, Jar, Product};
//! # let at = |minute: i64| chrono::DateTime::UNIX_EPOCH + chrono::TimeDelta::minutes(minute);
//! let timing = Timing { minutes: Some(40), ..Timing::default() };
//! let mut batch = Batch::begin(1, "sauce", Product::THICK_SAUCE, Jar::Quart, CannerKind::Steam, 7, timing, at(0));
//! assert!(batch.take(&Step::Filled { jars: Some(7) }, at(60)).is_ok());
//! assert!(batch.take(&Step::AtHeat, at(75)).is_ok());
//! assert_eq!(batch.stage(at(80)), Stage::Processing);
//! assert_eq!(batch.ends_at(at(80)), Some(at(115)));
//! assert_eq!(batch.stage(at(115)), Stage::Done);
//! ```
//!
//! Invariants: a step that does not fit changes nothing and says why ([`Misfit`]); heat lost or turned off early sends
//! the batch back to wait for heat, and the full time starts again; so does one that is set aside while it runs; the
//! fates of jars ([`Fates`]) never sum to more than were filled. The batch knows no table: its [`Timing`] is given to
//! it, by whoever looked it up. Fruit, lids and the pantry are the ledger's.

mod acid;
mod clock;
mod fates;
mod mishap;
mod seals;
mod stage;
mod step;
mod steps;
mod window;

pub use crate::vocabulary::Stage;
pub use clock::Clock;
pub use fates::{Ends, Fate, Fates};
pub use mishap::{Bearing, Doubt};
pub use step::{Misfit, Step, Taken};
pub use window::Standing;

use crate::quantity::{Length, Mass, Pressure, Temperature, Volume};
use crate::vocabulary::{Acid, CannerKind, Jar, Pack, Product};
use chrono::{DateTime, Utc};

/// A round that is filled within this time after all jars before it were told of is of the same batch (our own
/// choice).
const SAME_DAY: chrono::Duration = chrono::Duration::hours(12);

/// The process that applies, as looked up in the published tables when the batch began or came to heat.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Timing {
    /// The process time in minutes. `None` only when what it was looked up by was changed afterwards, so that no tested
    /// process is known any more: then the clock never runs out, and no jar of it may be shelved.
    pub minutes: Option<u32>,
    /// Gauge pressure, for a pressure canner.
    pub pressure: Option<Pressure>,
    /// Boiling water and free steam at the room's altitude.
    pub heat: Option<Temperature>,
    /// From the food to the rim.
    pub headspace: Option<Length>,
    /// The jar whose time it is, where the table has none for the batch's own.
    pub timed_as: Option<Jar>,
    /// The table.
    pub source: Option<String>,
}

/// The process clock while it runs.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Heat {
    /// When the canner came to heat.
    pub since: DateTime<Utc>,
    /// The gauge, if said.
    pub pressure: Option<Pressure>,
}

/// One filling of the canner that came out: what later rounds are expected to take is learnt from it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Turn {
    /// When the canner could be loaded: the jars were filled, or the round before came out.
    pub ready: DateTime<Utc>,
    /// When it was at heat, the last time.
    pub heat: DateTime<Utc>,
    /// The process minutes.
    pub minutes: u32,
    /// When the jars came out.
    pub out: DateTime<Utc>,
    /// Whether the clock had to start again, so that it says nothing of how long a round takes.
    pub restarted: bool,
}

/// A canner batch.
#[derive(Clone, PartialEq, Debug)]
pub struct Batch {
    /// Its number in the room, from 1.
    pub number: u32,
    /// Its short name, unique among the open ones.
    pub name: String,
    /// What is made.
    pub product: Product,
    /// In which jars.
    pub jar: Jar,
    /// In which canner.
    pub canner: CannerKind,
    /// Hot or raw pack, if it matters.
    pub pack: Option<Pack>,
    /// How many jars were meant, if said.
    pub planned: Option<u32>,
    /// How many of these jars go into the canner at once.
    pub capacity: u32,
    /// The process.
    pub timing: Timing,
    /// When it began.
    pub began: DateTime<Utc>,
    /// Raw weight that went in: thawed and fresh.
    pub raw: Mass,
    /// Thawed for it and not yet in a jar.
    pub thawed: Mass,
    /// Raw weight that was said when it began.
    pub stated: Option<Mass>,
    /// Of the raw weight: fresh, from the counter.
    pub fresh: Mass,
    /// Liquid poured off, by weight.
    pub drained: Mass,
    /// Liquid poured off, by volume.
    pub drained_volume: Volume,
    /// Whether the liquid was kept, as said last.
    pub drained_kept: Option<bool>,
    /// What was in the pot after cooking down, by weight, as said last.
    pub cooked: Option<Mass>,
    /// What was in the pot after cooking down, by volume, as said last.
    pub cooked_volume: Option<Volume>,
    /// The acid that was said to be in.
    pub acid: Option<Acid>,
    /// The acid that was counted down when jars were filled, and how much of it there was to take.
    pub acid_counted: Option<(Acid, Mass, Volume)>,
    /// Whether acid was said to be in, whichever.
    pub acid_in: bool,
    /// Whether acid must go into each jar: its process is tested only with it.
    pub needs_acid: bool,
    /// How many jars were said to be without acid, or with less than is published, until it is told to be in.
    pub acid_missing: Option<u32>,
    /// Jars filled so far.
    pub filled: u32,
    /// Jars that are through the canner, and those that broke on the way.
    pub lifted: u32,
    /// Jars that went into the canner with the clock of this round; `None` while none is running.
    pub loaded: Option<u32>,
    /// When this round was at heat, until it comes out.
    pub heated: Option<DateTime<Utc>>,
    /// Whether this round's clock had to start again.
    pub restarted: bool,
    /// Jars that broke since the last round came out, before they were through.
    pub broken_inside: u32,
    /// Of the round that came out last, the jars that were not said to be out.
    pub left_inside: u32,
    /// Jars that lost liquid.
    pub siphoned: u32,
    /// When it was set aside, while it is.
    pub stopped: Option<DateTime<Utc>>,
    /// When the last filling was.
    pub filled_at: Option<DateTime<Utc>>,
    /// Whether the filling was never told, and was taken to have happened when the canner was at heat.
    pub fill_untold: bool,
    /// When steam came from the vent.
    pub venting: Option<DateTime<Utc>>,
    /// The clock, while it runs.
    pub heat: Option<Heat>,
    /// When the burner was turned off after the full time.
    pub heat_off: Option<DateTime<Utc>>,
    /// When the pressure was down.
    pub pressure_down: Option<DateTime<Utc>>,
    /// Rounds that came out: when, and how many jars.
    pub outs: Vec<(DateTime<Utc>, u32)>,
    /// How many of them, from the first, are known to have no jar left whose fate is open.
    pub settled: usize,
    /// Of these rounds, the jars that were said to have sealed where the round was named.
    pub told: Vec<u32>,
    /// When jars that went through again came out.
    pub again_out: Option<DateTime<Utc>>,
    /// Of the jars that went through again, those that are out.
    pub again_lifted: u32,
    /// The rounds that came out.
    pub turns: Vec<Turn>,
    /// When an unsealed jar was first reported.
    pub unsealed_at: Option<DateTime<Utc>>,
    /// How often the clock had to start again.
    pub restarts: u32,
    /// What became of the jars.
    pub fates: Fates,
    /// When the fate of the last jar was known.
    pub closed: Option<DateTime<Utc>>,
    /// Since when jars stand without their full process, and why.
    pub stands: Option<Standing>,
    /// Since when jars that were out already stand without a full process.
    pub undone: Option<DateTime<Utc>>,
    /// A question about its process that nobody has answered.
    pub doubt: Option<Doubt>,
    /// Whether it has to vent before its clock may start: it was said that it did not.
    pub unvented: bool,
    /// By how much its gauge reads too high, as said.
    pub gauge_high: Option<Pressure>,
    /// When the heat was last turned off after the full time.
    pub off_at: Option<DateTime<Utc>>,
}

impl Batch {
    /// A batch that has just begun.
    #[allow(clippy::too_many_arguments)] // what a batch is made of, each of its own type
    pub fn begin(
        number: u32,
        name: &str,
        product: Product,
        jar: Jar,
        canner: CannerKind,
        capacity: u32,
        timing: Timing,
        began: DateTime<Utc>,
    ) -> Self {
        Self {
            number,
            name: name.to_owned(),
            product,
            jar,
            canner,
            pack: None,
            planned: None,
            capacity: capacity.max(1),
            timing,
            began,
            raw: Mass::ZERO,
            thawed: Mass::ZERO,
            stated: None,
            fresh: Mass::ZERO,
            drained: Mass::ZERO,
            drained_volume: Volume::ZERO,
            drained_kept: None,
            cooked: None,
            cooked_volume: None,
            acid: None,
            acid_counted: None,
            acid_in: false,
            needs_acid: false,
            acid_missing: None,
            filled: 0,
            lifted: 0,
            loaded: None,
            heated: None,
            restarted: false,
            broken_inside: 0,
            left_inside: 0,
            siphoned: 0,
            stopped: None,
            filled_at: None,
            fill_untold: false,
            venting: None,
            heat: None,
            heat_off: None,
            pressure_down: None,
            outs: Vec::new(),
            settled: 0,
            told: Vec::new(),
            again_out: None,
            again_lifted: 0,
            turns: Vec::new(),
            unsealed_at: None,
            restarts: 0,
            fates: Fates::default(),
            closed: None,
            stands: None,
            undone: None,
            doubt: None,
            unvented: false,
            gauge_high: None,
            off_at: None,
        }
    }

    /// Whether the fate of some jar is still open.
    pub fn is_open(&self) -> bool {
        self.closed.is_none()
    }

    /// The jars it has, or is going to have: those filled, else those planned, else one canner load.
    pub fn jars(&self) -> u32 {
        if self.filled > 0 { self.filled } else { self.planned.unwrap_or(self.capacity) }
    }

    /// How many times the canner is loaded.
    pub fn rounds(&self) -> u32 {
        self.jars().div_ceil(self.capacity).max(1)
    }

    /// Filled jars that have not been through the canner.
    pub fn waiting(&self) -> u32 {
        self.filled.saturating_sub(self.lifted + self.broken_inside)
    }

    /// Jars that go through again and are not out yet.
    pub fn waiting_again(&self) -> u32 {
        self.fates.reprocessed.saturating_sub(self.again_lifted)
    }

    /// Whether jars that go through again lost their heat, and wait for it.
    pub(in crate::batch) fn is_again_under_way(&self) -> bool {
        self.waiting_again() > 0 && self.restarted
    }

    /// The jars in the canner now, or that go in next.
    pub fn in_round(&self) -> u32 {
        let next = match self.filled {
            0 => self.jars(),
            _ if self.waiting() > 0 => self.waiting(),
            _ => self.waiting_again(),
        };
        next.min(self.loaded.unwrap_or(self.capacity))
    }

    /// How many times the canner still has to be loaded, the round that is in it included.
    pub fn rounds_left(&self) -> u32 {
        let waiting = match self.filled {
            0 => self.jars(),
            _ if self.waiting() == 0 && self.is_again_under_way() => self.waiting_again(),
            _ => self.waiting(),
        };
        match self.loaded {
            Some(loaded) => 1 + waiting.saturating_sub(loaded).div_ceil(self.capacity),
            None => waiting.div_ceil(self.capacity),
        }
    }

    /// Jars that are out and of which nothing is known yet, the unsealed ones included.
    pub fn undecided(&self) -> u32 {
        self.filled.saturating_sub(self.waiting() + self.fates.known())
    }

    /// Rounds of which some jar's fate is still open, earliest first. Fates that were told without their round are
    /// taken for those of the earliest.
    pub fn open_rounds(&self) -> impl Iterator<Item = (DateTime<Utc>, u32)> {
        self.left_of_rounds().filter(|(_, left)| *left > 0)
    }

    /// All rounds that are out, with the jars of each whose fate is open.
    fn left_of_rounds(&self) -> impl Iterator<Item = (DateTime<Utc>, u32)> {
        let told = |round: usize| self.told.get(round).copied().unwrap_or_default();
        let named: u32 = self.told.iter().sum();
        let mut known = self.fates.known().saturating_sub(self.broken_inside).saturating_sub(named);
        self.outs.iter().enumerate().map(move |(round, (out, jars))| {
            let left = jars.saturating_sub(told(round));
            let decided = known.min(left);
            known -= decided;
            (*out, left - decided)
        })
    }

    /// Whether another round of it may be filled: all jars of those before may be told of already.
    pub fn takes_more(&self, now: DateTime<Utc>) -> bool {
        let is_fresh = |closed: DateTime<Utc>| now >= closed && now - closed < SAME_DAY;
        self.to_fill() > 0 && self.closed.is_none_or(is_fresh)
    }

    /// Jars that were meant and are not filled, where some are: another round is to be filled.
    pub fn to_fill(&self) -> u32 {
        if self.filled == 0 { 0 } else { self.planned.unwrap_or(0).saturating_sub(self.filled) }
    }

    /// Jars known not to have sealed and of which nothing more is known.
    pub fn unsealed_open(&self) -> u32 {
        self.fates.open
    }

    /// Jars that went through again and whose end is not known.
    pub fn reprocessing(&self) -> u32 {
        self.fates.reprocessed.saturating_sub(self.fates.again.sum())
    }
}
