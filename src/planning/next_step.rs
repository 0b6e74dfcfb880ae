//! The one thing worth doing, when no batch is open: the first rule that fits.

use super::canning_day::{DayPlan, PlannedStep, thawed_by, within_reach};
use super::ripening::{Picking, WORTH_SAYING, ripening};
use super::shelf::{old_bags, old_jars};
use super::{LoadState, Need, load_state, short_for, target};
use crate::ledger::state::{Bag, Lot, PlannedDay, State};
use crate::quantity::Mass;
use crate::vocabulary::Crop;
use chrono::{DateTime, Days, TimeDelta, Utc};

/// Something to do.
#[derive(Clone, PartialEq, Debug)]
pub enum NextStep {
    /// The next step of a day that is set, of its plan.
    Planned(Box<(PlannedDay, DayPlan, PlannedStep)>),
    /// A day that was set is over, and nothing of it was begun.
    Missed(PlannedDay),
    /// Fruit that was thawed and waits for the pot.
    Thawed {
        /// How much.
        mass: Mass,
        /// Of which crop.
        crop: Crop,
        /// Since when it is out of the freezer.
        since: DateTime<Utc>,
    },
    /// Fruit past its best: use it, or throw it out.
    PastRipe(Vec<Picking>),
    /// Jars in the refrigerator for three days or more.
    Fridge(Lot),
    /// A load is there and no day is set for it.
    Can(Box<LoadState>),
    /// A load is there, or nearly, and supplies are short for it.
    Buy(Vec<Need>),
    /// Ripe fruit on the counter: eat it or freeze it.
    Freeze {
        /// How much is ripe.
        ripe: Mass,
        /// The load it would make bigger.
        load: Option<Box<LoadState>>,
    },
    /// Jars or bags past their best.
    UseFirst {
        /// Jars.
        jars: Vec<Lot>,
        /// Bags.
        bags: Vec<Bag>,
    },
    /// One more bag makes a load.
    OneMoreBag(Box<LoadState>),
    /// Nothing.
    Nothing,
}

/// Steps of a planned day are spoken of so long before.
const AHEAD: TimeDelta = TimeDelta::hours(24);
/// Fruit past its best is spoken of for so long; then it is gone, whatever was logged.
const ASKED_FOR: Days = Days::new(7);
/// Jars in the refrigerator are asked about from their third day.
const FRIDGE_DAYS: Days = Days::new(2);

/// The first of these that fits: a planned day's next step, thawed fruit, a day that was missed, fruit past ripe, jars
/// in the refrigerator, a load to can, supplies to buy for it, ripe fruit to freeze, old stock to use, a day further
/// off, one bag more.
pub fn next_step(state: &State, now: DateTime<Utc>) -> NextStep {
    let today = state.settings.zone.day(now);
    if let Some(planned) = planned_step(state, now).filter(|planned| planned.2.at <= now + AHEAD) {
        return NextStep::Planned(Box::new(planned));
    }
    if let Some(thawed) = thawed(state, now) {
        return thawed;
    }
    if let Some(day) = missed(state, now) {
        return NextStep::Missed(day);
    }
    let pickings = ripening(state);
    let just_past = |picking: &&Picking| {
        let past = picking.red_days().is_some_and(|red| red.past < today && today <= red.past + ASKED_FOR);
        past && picking.mass >= WORTH_SAYING
    };
    let past: Vec<Picking> = pickings.iter().filter(just_past).cloned().collect();
    if !past.is_empty() {
        return NextStep::PastRipe(past);
    }
    if let Some(lot) = state.fridge.lots().iter().find(|lot| lot.on + FRIDGE_DAYS <= today) {
        return NextStep::Fridge(lot.clone());
    }
    let load = target(state, None, None).map(|target| Box::new(load_state(state, target)));
    let is_set = |load: &LoadState| {
        let meant = |day: &PlannedDay| day.product == load.target.product && end(state, day) > now;
        state.planned.iter().any(meant)
    };
    if let Some(load) = load.as_ref().filter(|load| load.is_ready() && !is_set(load) && state.all_thawing().is_zero()) {
        return NextStep::Can(load.clone());
    }
    let near = load.as_ref().filter(|load| load.is_ready() || load.is_near(state.settings.usual_bag()));
    if let Some(load) = near {
        let target = &load.target;
        let short = short_for(state, &target.product, target.jar, target.jars, None);
        if !short.is_empty() {
            return NextStep::Buy(short);
        }
    }
    let ripe: Mass = pickings.iter().filter(|p| p.crop == Crop::Tomato && p.is_ripe(today)).map(|p| p.mass).sum();
    if ripe >= WORTH_SAYING {
        let load = load.filter(|load| load.target.crop == Crop::Tomato && !load.is_ready());
        return NextStep::Freeze { ripe, load };
    }
    let (jars, bags) = (old_jars(state, today), old_bags(state, today));
    if !jars.is_empty() || !bags.is_empty() {
        return NextStep::UseFirst { jars, bags: bags.into_iter().flat_map(|(_, bags)| bags).collect() };
    }
    if let Some(planned) = planned_step(state, now) {
        return NextStep::Planned(Box::new(planned));
    }
    match load.filter(|load| load.is_near(state.settings.usual_bag())) {
        Some(load) => NextStep::OneMoreBag(load),
        None => NextStep::Nothing,
    }
}

/// Fruit that is thawed through, for which no day is set that is still to come.
fn thawed(state: &State, now: DateTime<Utc>) -> Option<NextStep> {
    state.thawing.iter().find_map(|(crop, mass)| {
        let (since, _) = state.thawing_since.get(crop)?;
        let is_thawed = thawed_by(state, *crop).is_some_and(|thawed| thawed <= now);
        let is_set = planned_step(state, now).is_some_and(|(day, ..)| crate::ledger::crop_of(&day.product) == *crop);
        (is_thawed && !is_set).then_some(NextStep::Thawed { mass: *mass, crop: *crop, since: *since })
    })
}

/// The day that was set last of those that are over, for as long as fruit past its best is asked for.
fn missed(state: &State, now: DateTime<Utc>) -> Option<PlannedDay> {
    let is_missed = |day: &&PlannedDay| end(state, day) <= now && now < end(state, day) + TimeDelta::days(7);
    state.planned.iter().rev().find(is_missed).cloned()
}

fn end(state: &State, day: &PlannedDay) -> DateTime<Utc> {
    state.settings.zone.at(day.day, day.by)
}

/// The next step of any day that is set and not over, with its day and plan.
fn planned_step(state: &State, now: DateTime<Utc>) -> Option<(PlannedDay, DayPlan, PlannedStep)> {
    let next = |day: &PlannedDay| {
        let plan = within_reach(state, day)?;
        let step = plan.steps.iter().copied().find(|step| step.at + step.takes.time > now)?;
        Some((day.clone(), plan, step))
    };
    state.planned.iter().filter_map(next).min_by_key(|(.., step)| step.at)
}
