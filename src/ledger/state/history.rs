//! Batches that are done with: what their yields are learnt from, and what is exported.

use crate::batch::{Batch, Fate, Fates};
use crate::quantity::{Mass, Volume};
use crate::vocabulary::{CannerKind, Jar, Product};
use chrono::{DateTime, TimeDelta, Utc};
use std::sync::Arc;

/// So many are kept, the latest: more than a household fills in a decade.
const KEPT: usize = 500;

/// A batch of which the fate of every jar is known, or one that was told in one go.
#[derive(Clone, PartialEq, Debug)]
pub struct Finished {
    /// Its number, if it was logged as a batch.
    pub number: Option<u32>,
    /// Its short name; that of the product for one told in one go.
    pub name: String,
    /// What was made.
    pub product: Product,
    /// In which jars.
    pub jar: Jar,
    /// In which canner, if it was logged as a batch.
    pub canner: Option<CannerKind>,
    /// When it began, if it was logged as a batch.
    pub began: Option<DateTime<Utc>>,
    /// From its beginning until the jars of its one round were filled, where it was logged so.
    pub cooking: Option<TimeDelta>,
    /// When the fate of its last jar was known.
    pub closed: DateTime<Utc>,
    /// Its process time.
    pub minutes: Option<u32>,
    /// Raw weight that went in; nothing where it is not known.
    pub raw: Mass,
    /// Liquid poured off; what was measured by volume is taken at a kilogram a litre (a choice of this program: juice
    /// is nearly water).
    pub drained: Mass,
    /// What was in the pot after cooking down, by weight, if it was weighed.
    pub cooked: Option<Mass>,
    /// Jars filled.
    pub filled: u32,
    /// What became of them.
    pub fates: Fates,
    /// How often the clock had to start again.
    pub restarts: u32,
    /// Jars that lost liquid.
    pub siphoned: u32,
}

impl Finished {
    /// Of a batch that is closed; `None` while it is open.
    pub fn of(batch: &Batch) -> Option<Self> {
        Some(Self {
            number: Some(batch.number),
            name: batch.name.clone(),
            product: batch.product.clone(),
            jar: batch.jar,
            canner: Some(batch.canner),
            began: Some(batch.began),
            cooking: batch.filled_at.filter(|_| batch.rounds() == 1).map(|filled| filled - batch.began),
            closed: batch.closed?,
            minutes: batch.timing.minutes,
            raw: batch.raw,
            drained: batch.drained + Mass::from_grams(batch.drained_volume.as_millilitres()).unwrap_or_default(),
            cooked: batch.cooked,
            filled: batch.filled,
            fates: batch.fates,
            restarts: batch.restarts,
            siphoned: batch.siphoned,
        })
    }

    /// Told in one go: so many jars on the shelf, of so many that were filled.
    pub(in crate::ledger) fn told(
        product: &Product,
        jar: Jar,
        (sealed, filled): (u32, u32),
        raw: Mass,
        at: DateTime<Utc>,
    ) -> Self {
        let mut fates = Fates::default();
        fates.first.sealed = sealed;
        fates.unsealed = filled.saturating_sub(sealed);
        Self {
            number: None,
            name: product.as_str().to_owned(),
            product: product.clone(),
            jar,
            canner: None,
            began: None,
            cooking: None,
            closed: at,
            minutes: None,
            raw,
            drained: Mass::ZERO,
            cooked: None,
            filled,
            fates,
            restarts: 0,
            siphoned: 0,
        }
    }

    /// Raw weight for each quart that was filled, where it is known.
    pub fn raw_per_quart(&self) -> Option<Mass> {
        let quarts = self.jar.volume().ratio(Volume::QUART) * f64::from(self.filled);
        (quarts > 0.0 && !self.raw.is_zero()).then(|| Mass::from_grams(self.raw.as_grams() / quarts)).flatten()
    }

    /// Jars that came to this end.
    pub fn ended(&self, fate: Fate) -> u32 {
        self.fates.of(fate)
    }
}

/// Finished batches, oldest first. Shared between the states that are kept along a season, so that keeping one is
/// cheap.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct History(Vec<Arc<Finished>>);

impl History {
    /// All of them, oldest first.
    pub fn iter(&self) -> impl DoubleEndedIterator<Item = &Finished> {
        self.0.iter().map(|finished| &**finished)
    }

    pub(in crate::ledger) fn add(&mut self, finished: Finished) {
        let place = self.0.partition_point(|other| other.closed <= finished.closed);
        self.0.insert(place, Arc::new(finished));
        if self.0.len() > KEPT {
            self.0.remove(0);
        }
    }
}
