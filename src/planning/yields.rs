//! What a household's own batches take: raw weight for a quart, the share that is drained, how far it is cooked down.

use crate::batch::Batch;
use crate::ledger::state::{Finished, State, Yield};
use crate::processes;
use crate::quantity::{Mass, Volume};
use crate::vocabulary::{Jar, Product};

/// Own yields are offered, and count for loads, once so many batches of a product have a known raw weight.
pub const ENOUGH: usize = 3;
/// Own yields are the median of the last so many batches: one day's slip of the scale must not move a load, and last
/// year's variety need not hold for this year's.
const LATEST: usize = 5;

/// What a household's batches of a product came to.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct OwnYield {
    /// Raw weight for a quart: the median of the latest batches that have one.
    pub per_quart: Mass,
    /// Of how many batches.
    pub of: usize,
    /// How many batches of it there are in all whose raw weight is known.
    pub known: usize,
    /// The share of the raw weight that was drained off, where it was told: the median.
    pub drained: Option<f64>,
    /// What was left in the pot, as a share of the raw weight, where it was weighed: the median.
    pub cooked: Option<f64>,
}

impl OwnYield {
    /// Whether there are enough batches for it to count.
    pub fn counts(&self) -> bool {
        self.known >= ENOUGH
    }

    /// Raw weight for so many jars.
    pub fn for_jars(&self, jars: u32, jar: Jar) -> Option<Mass> {
        let quarts = jar.volume().ratio(Volume::QUART) * f64::from(jars);
        Mass::from_grams(self.per_quart.as_grams() * quarts)
    }
}

/// The household's own yield of a product, from batches whose fate is known; `None` while no batch has a known raw
/// weight.
pub fn own_yield(state: &State, product: &Product) -> Option<OwnYield> {
    let closed: Vec<Finished> = state.batches.iter().filter_map(Finished::of).collect();
    let mut all: Vec<&Finished> =
        state.history.iter().chain(&closed).filter(|batch| batch.product == *product).collect();
    all.sort_by_key(|batch| batch.closed);
    let known: Vec<(&Finished, Mass)> =
        all.into_iter().filter_map(|batch| batch.raw_per_quart().map(|raw| (batch, raw))).collect();
    let latest = known.get(known.len().saturating_sub(LATEST)..)?;
    let share = |part: Mass, batch: &Finished| (!part.is_zero()).then(|| part.ratio(batch.raw));
    let per_quart = median(latest.iter().map(|(_, raw)| raw.as_grams()).collect())?;
    Some(OwnYield {
        per_quart: Mass::from_grams(per_quart)?,
        of: latest.len(),
        known: known.len(),
        drained: median(latest.iter().filter_map(|(batch, _)| share(batch.drained, batch)).collect()),
        cooked: median(latest.iter().filter_map(|(batch, _)| share(batch.cooked?, batch)).collect()),
    })
}

/// The own yield of a product, where loads go by it.
pub fn own_for_loads(state: &State, product: &Product) -> Option<OwnYield> {
    let chosen = state.settings.yields.get(product) == Some(&Yield::Own);
    chosen.then(|| own_yield(state, product)).flatten().filter(OwnYield::counts)
}

/// The handbook's raw weight for a quart, from its canner load, with where it is printed; `None` where it prints none.
pub fn handbook_yield(product: &Product) -> Option<(Mass, &'static str)> {
    let info = processes::product(product.as_str())?;
    let load = [Jar::Quart, Jar::Pint, Jar::HalfPint]
        .into_iter()
        .filter_map(|jar| processes::load(info, jar, None).map(|load| (jar, load)))
        .find(|(_, load)| !load.scaled);
    let (jar, load) = load?;
    let quarts = jar.volume().ratio(Volume::QUART) * f64::from(load.jars);
    Some((Mass::from_grams(load.mass.as_grams() / quarts)?, load.source))
}

/// The own yield to offer now that a batch is closed: with the third batch of a product, once, where nobody has chosen
/// yet.
pub fn yield_to_offer(state: &State, closed: &Batch) -> Option<OwnYield> {
    let fresh = closed.again_lifted == 0 && !closed.raw.is_zero();
    let chosen = state.settings.yields.contains_key(&closed.product);
    (fresh && !chosen).then(|| own_yield(state, &closed.product)).flatten().filter(|own| own.known == ENOUGH)
}

/// The middle value; of an even number the mean of the two in the middle.
fn median(mut values: Vec<f64>) -> Option<f64> {
    values.sort_by(f64::total_cmp);
    let upper = values.get(values.len() / 2).copied()?;
    if values.len() % 2 == 1 {
        return Some(upper);
    }
    let lower = values.get(values.len() / 2 - 1).copied()?;
    Some((lower + upper) / 2.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_median_is_the_value_in_the_middle() {
        assert_eq!(median(vec![]), None);
        assert_eq!(median(vec![3.0]), Some(3.0));
        assert_eq!(median(vec![9.0, 1.0, 2.0]), Some(2.0));
        assert_eq!(median(vec![4.0, 1.0, 2.0, 9.0]), Some(3.0));
    }

    /// USDA AIB 539 (2015), Guide 3, Standard tomato sauce: 46 lb for 7 quarts of thick sauce, 35 lb of thin.
    #[test]
    fn the_handbooks_yield_is_that_of_its_load() {
        let pounds = |product| handbook_yield(&Product::tested(product)).map(|(mass, _)| mass.as_pounds() * 7.0);
        assert!(pounds("tomato-sauce-thick").is_some_and(|pounds| (pounds - 46.0).abs() < 1e-6));
        assert!(pounds("tomato-sauce-thin").is_some_and(|pounds| (pounds - 35.0).abs() < 1e-6));
        assert_eq!(pounds("fruit-puree"), None);
    }
}
