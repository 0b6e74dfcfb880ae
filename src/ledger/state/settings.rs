//! The settings of a room, each said by phrase.

use crate::ledger::state::Stocked;
use crate::quantity::{Length, Mass, Number, Temperature};
use crate::vocabulary::{CannerKind, Jar, Product, Supply};
use crate::zone::Zone;
use chrono::{DateTime, NaiveDate, NaiveTime, Utc, Weekday};
use std::collections::BTreeMap;

/// The units a room is answered in.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum Units {
    /// Pounds, quarts, feet, Fahrenheit.
    #[default]
    Customary,
    /// Kilograms, litres, metres, Celsius.
    Metric,
}

/// How many of one jar a canner holds; of any jar or canner where none is named.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Capacity {
    /// Which canner.
    pub canner: Option<CannerKind>,
    /// Which jar.
    pub jar: Option<Jar>,
    /// How many.
    pub jars: u32,
}

/// Hours in which nothing that can wait is said.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Quiet {
    /// From this time of day.
    pub from: NaiveTime,
    /// Until this one, the next day if it is earlier.
    pub until: NaiveTime,
}

/// Whose raw weight for a quart a load goes by.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum Yield {
    /// The handbook's.
    #[default]
    Handbook,
    /// The household's own, from its last batches.
    Own,
}

/// When the digest comes.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Digest {
    /// Never.
    Off,
    /// Once a week.
    Weekly {
        /// On this day.
        day: Weekday,
        /// At this time.
        at: NaiveTime,
    },
}

/// How much is said of an entry that raises no question.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum Answers {
    /// The whole reply.
    #[default]
    Full,
    /// A mark on the message, and the reply's first line.
    Brief,
    /// A mark on the message.
    Silent,
}

/// The settings.
#[derive(Clone, PartialEq, Debug)]
pub struct Settings {
    /// The time zone.
    pub zone: Zone,
    /// Height above the sea; without it there is no process time.
    pub altitude: Option<Length>,
    /// The canner used unless another is named.
    pub canner: Option<CannerKind>,
    /// The pressure canner that was last named with its gauge.
    pub gauge: Option<CannerKind>,
    /// How many jars go in.
    pub capacities: Vec<Capacity>,
    /// The units of replies.
    pub units: Units,
    /// The usual bag, if set.
    pub bag: Option<Mass>,
    /// The usual product.
    pub product: Product,
    /// Its usual jar.
    pub jar: Jar,
    /// Quiet hours, if set.
    pub quiet: Option<Quiet>,
    /// Lines under which a supply is called low.
    pub low: BTreeMap<Supply, Stocked>,
    /// The room where fruit ripens.
    pub room: Option<Temperature>,
    /// What it was before, each until the day on which another was told, oldest first.
    pub rooms: Vec<(NaiveDate, Option<Temperature>)>,
    /// Whose yield a product's load goes by, where it was said.
    pub yields: BTreeMap<Product, Yield>,
    /// The digest, if set.
    pub digest: Option<Digest>,
    /// When the digest was set.
    pub digest_since: Option<DateTime<Utc>>,
    /// The day after which no more fruit is expected.
    pub season_end: Option<NaiveDate>,
    /// The grid and sheet of jar labels, as said.
    pub labels: Option<String>,
    /// How much is said of plain entries.
    pub answers: Answers,
    /// Whether pictures are dark.
    pub dark_pictures: bool,
}

impl Default for Settings {
    /// Thick sauce in quarts, customary units, nothing else known.
    fn default() -> Self {
        Self {
            zone: Zone::UTC,
            altitude: None,
            canner: None,
            gauge: None,
            capacities: Vec::new(),
            units: Units::Customary,
            bag: None,
            product: Product::THICK_SAUCE,
            jar: Jar::Quart,
            quiet: None,
            low: BTreeMap::new(),
            room: None,
            rooms: Vec::new(),
            yields: BTreeMap::new(),
            digest: None,
            digest_since: None,
            season_end: None,
            labels: None,
            answers: Answers::Full,
            dark_pictures: false,
        }
    }
}

impl Settings {
    /// The usual bag: as set, else 7 lb, or 3 kg in a metric room (a choice of this program).
    pub fn usual_bag(&self) -> Mass {
        let default = match self.units {
            Units::Customary => Mass::POUND.times(Number::whole(7)),
            Units::Metric => Mass::KILOGRAM.times(Number::whole(3)),
        };
        self.bag.or(default).unwrap_or(Mass::POUND)
    }

    /// The canner used unless another is named. Boiling water where none is set: its table and the steam canner's are
    /// the same, and food that needs pressure is refused either way.
    pub fn usual_canner(&self) -> CannerKind {
        self.canner.unwrap_or(CannerKind::BoilingWater)
    }

    /// The household's pressure canner, once its gauge is known: the usual canner, or the one last used.
    pub fn pressure_canner(&self) -> Option<CannerKind> {
        self.canner.filter(|usual| usual.is_pressure()).or(self.gauge)
    }

    /// How many of a jar a canner holds, if it was ever set: the most fitting setting, the latest among equals.
    pub fn capacity(&self, canner: CannerKind, jar: Jar) -> Option<u32> {
        let fits = |capacity: &&Capacity| {
            capacity.canner.is_none_or(|named| named == canner || named == CannerKind::Pressure && canner.is_pressure())
                && capacity.jar.is_none_or(|named| named == jar)
        };
        let named = |capacity: &&Capacity| u8::from(capacity.jar.is_some()) * 2 + u8::from(capacity.canner.is_some());
        self.capacities.iter().filter(fits).max_by_key(named).map(|capacity| capacity.jars)
    }

    /// Whether it is quiet at this time of day, and until when.
    pub fn quiet_until(&self, time: NaiveTime) -> Option<NaiveTime> {
        let Quiet { from, until } = self.quiet?;
        let quiet = if from <= until { from <= time && time < until } else { time >= from || time < until };
        quiet.then_some(until)
    }
}
