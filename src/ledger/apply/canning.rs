//! A batch begins, and its fruit goes into the jars.

use super::process::{Made, made};
use super::{Apply, Mode};
use crate::batch::{Batch, Timing};
use crate::ledger::effect::{Effect, Refusal};
use crate::ledger::state::Finished;
use crate::processes;
use crate::quantity::Mass;
use crate::statement::Began;
use crate::vocabulary::{CannerKind, Crop, Jar, Product};
use chrono::{Days, Duration};

/// Closed batches are kept this long: a jar that went through again may still be reported.
const KEPT_CLOSED: Duration = Duration::days(3);

/// What came dry out of the dryer is waited for this long to be weighed.
const UNWEIGHED_KEPT: Duration = Duration::days(30);

impl Apply<'_> {
    /// Drops what can no longer matter, so that a state stays small.
    pub(super) fn forget_old(&mut self) {
        let at = self.at;
        let old = |batch: &Batch| batch.closed.is_some_and(|closed| at - closed >= KEPT_CLOSED);
        let finished: Vec<_> = self.state.batches.iter().filter(|batch| old(batch)).filter_map(Finished::of).collect();
        self.state.batches.retain(|batch| !old(batch));
        finished.into_iter().for_each(|finished| self.state.history.add(finished));
        let today = self.day();
        self.state.planned.retain(|planned| planned.day + Days::new(2) >= today);
        self.state.unweighed.retain(|load| at - load.since < UNWEIGHED_KEPT);
        self.state.timers.retain(|timer| at - timer.ends < Duration::days(1));
    }

    pub(super) fn began(&mut self, began: &Began) -> Effect {
        match self.try_begin(began) {
            Ok(batch) => {
                let number = batch.number;
                self.state.batch_count = number;
                self.day_has_come(&batch.product);
                self.state.batches.push(batch);
                Effect { batch: Some(number), ..Effect::default() }
            }
            Err(refusal) => Effect::refused(refusal),
        }
    }

    fn try_begin(&mut self, began: &Began) -> Result<Batch, Refusal> {
        let made = made(self.state, began.product.as_ref())?;
        let jar = match began.jar {
            Some(jar) => jar,
            None => self.jar_meant(&made)?,
        };
        let product = made.product();
        let canner = match self.state.canner_meant(began.canner) {
            Ok(canner) => canner,
            Err(_) if self.mode == Mode::Fold => CannerKind::Pressure,
            Err(refusal) => return Err(refusal),
        };
        if canner.is_pressure() && began.canner.is_some() {
            self.state.settings.gauge = Some(canner).filter(|canner| *canner != CannerKind::Pressure);
        }
        let timing = match &made {
            Made::Own(product) => return Err(Refusal::OwnRecipe(product.clone())),
            Made::Tested(_) => match self.state.process(&product, jar, canner, began.pack, None) {
                Ok(process) => Timing::from(&process),
                // It is known to have begun; a setting that was changed afterwards takes only its time away.
                Err(_) if self.mode == Mode::Fold => Timing::default(),
                Err(refusal) => return Err(refusal),
            },
        };
        let name = self.free_name(&made);
        let capacity = self.state.canner_holds(&product, canner, jar);
        let number = self.state.batch_count + 1;
        let mut batch = Batch::begin(number, &name, product, jar, canner, capacity, timing, self.at);
        batch.planned = began.jars.filter(|jars| *jars > 0);
        batch.pack = began.pack;
        batch.needs_acid = processes::product(batch.product.as_str()).is_some_and(processes::needs_acid);
        batch.stated = began.mass;
        batch.thawed = self.claim_thawing(&batch);
        Ok(batch)
    }

    /// What was thawed while no batch was open is for the first that begins with that crop: all of it, or what it is
    /// said to take.
    fn claim_thawing(&mut self, batch: &Batch) -> Mass {
        let crop = crop_of(&batch.product);
        let loose = self.state.thawing(crop);
        let claimed = batch.stated.map_or(loose, |stated| stated.min(loose));
        self.leave_thawing(crop, loose.less(claimed));
        claimed
    }

    pub(super) fn leave_thawing(&mut self, crop: Crop, left: Mass) {
        if left.is_zero() {
            self.state.thawing.remove(&crop);
            self.state.thawing_since.remove(&crop);
        } else {
            self.state.thawing.insert(crop, left);
        }
    }

    /// A short name that no open batch has.
    fn free_name(&self, made: &Made) -> String {
        let short = match made {
            Made::Own(product) => product.as_str().to_owned(),
            Made::Tested(info) => short_name(info),
        };
        let taken = |name: &str| self.state.open_batches().any(|batch| batch.name == name);
        (1..)
            .map(|n| if n == 1 { short.clone() } else { format!("{short} {n}") })
            .find(|name| !taken(name))
            .unwrap_or(short)
    }

    /// The batch that thawed fruit is for, if one is open that takes such fruit: the one named, else the latest begun.
    pub(super) fn batch_for_thawed(&self, named: Option<&str>, crop: Crop) -> Option<u32> {
        let takes = |batch: &&Batch| batch.filled == 0 && crop_of(&batch.product) == crop;
        let open: Vec<_> = self.state.open_batches().filter(takes).collect();
        let by_name = named.and_then(|name| open.iter().find(|batch| batch.is_called(name)));
        by_name.or_else(|| open.last()).map(|batch| batch.number)
    }

    /// Fruit for jars: all that thaws for them, and what the stated weight exceeds it from the counter. Returns the raw
    /// weight and how much fruit nobody had entered.
    pub(super) fn fruit_into_jars(
        &mut self,
        product: &Product,
        thawed_for: Option<Mass>,
        stated: Option<Mass>,
    ) -> (Fruit, Mass) {
        let crop = crop_of(product);
        let others = self.state.open_batches().any(|batch| batch.filled == 0 && crop_of(&batch.product) == crop);
        // What thaws for no batch yet goes into the first jars that are filled, unless another batch waits for its own.
        let loose = self.state.thawing(crop);
        let wanted = stated.unwrap_or_default().less(thawed_for.unwrap_or_default());
        let taken = if others { loose.min(wanted) } else { loose };
        self.leave_thawing(crop, loose.less(taken));
        let thawed = taken + thawed_for.unwrap_or_default();
        let fresh = stated.unwrap_or_default().less(thawed);
        let implied = if fresh.is_zero() { Mass::ZERO } else { self.off_counter(crop, fresh) };
        self.state.totals_mut(self.at).used_fresh += fresh;
        (Fruit { raw: thawed + fresh, fresh }, implied)
    }
}

/// What went into the jars.
pub(super) struct Fruit {
    pub(super) raw: Mass,
    pub(super) fresh: Mass,
}

/// The crop a product is made from; tomatoes for a recipe of the household.
pub(crate) fn crop_of(product: &Product) -> Crop {
    match processes::product(product.as_str()) {
        Some(info) => info.crop.unwrap_or(Crop::Tomato),
        None => Crop::Tomato,
    }
}

/// What people call a batch while it is on the stove.
fn short_name(info: &processes::ProductInfo) -> String {
    let last = ["salsa", "ketchup", "juice", "sauce", "relish", "jam", "jelly", "butter", "pickles", "tomatoes"];
    let spoken = |word: &&&str| info.spoken.split(' ').any(|part| part == **word);
    match last.iter().find(spoken) {
        Some(word) => (*word).to_owned(),
        None => info.spoken.to_owned(),
    }
}

impl Batch {
    /// Whether a word names this batch: its name, its number, its product, or the last word of its name.
    pub fn is_called(&self, word: &str) -> bool {
        let number = word.trim_start_matches("batch").trim_start_matches([' ', '#']);
        self.name == word
            || number.parse() == Ok(self.number)
            || self.product.as_str() == word
            || super::shelf::names(&Product::named(word), &self.product)
            || self.name.rsplit(' ').next() == Some(word)
    }

    /// The jar and product it was begun with fit what a later phrase says, as far as it says it.
    pub(super) fn fits(&self, product: Option<&Product>, jar: Option<Jar>) -> bool {
        jar.is_none_or(|jar| jar == self.jar) && product.is_none_or(|product| self.is_called(product.as_str()))
    }
}
