//! A canning day planned backwards from the hour at which the last round should be out: which bags, when they go into the refrigerator, when to
//! drain, cook, heat the canner and fill.
//!
//! Invariants: each duration carries whose word it is ([`Takes`]); the process is the tables' for the room's altitude, and without one there is no
//! plan; fruit that is thawing already is not taken out again.

use super::durations::{Part, Takes, cook_down, drain, fill, heat_canner, round, sum};
use super::ripening::ripe_by;
use super::thaw::{heaviest_in_cold_water, in_refrigerator};
use super::{ENOUGH, Target, choose_bags, target};
use crate::ledger::Refusal;
use crate::ledger::state::{Bag, Finished, PlannedDay, State};
use crate::quantity::{Mass, Number};
use crate::vocabulary::Product;
use chrono::{DateTime, Days, NaiveTime, TimeDelta, Utc};

/// A day, planned.
#[derive(Clone, PartialEq, Debug)]
pub struct DayPlan {
    /// What is made, of how much, in how many jars.
    pub target: Target,
    /// In how many rounds of the canner.
    pub rounds: u32,
    /// The bags to thaw, oldest first.
    pub bags: Vec<Bag>,
    /// What is thawing already.
    pub thawing: Mass,
    /// What comes fresh from the counter, where the freezer has not enough.
    pub fresh: Mass,
    /// What happens when, in order.
    pub steps: Vec<PlannedStep>,
    /// When the jars of the last round are out.
    pub end: DateTime<Utc>,
}

/// A step of the day.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct PlannedStep {
    /// When it begins.
    pub at: DateTime<Utc>,
    /// What it is, how long it takes and on whose word.
    pub takes: Takes,
    /// The round it belongs to, from 1; none before the first.
    pub round: Option<u32>,
}

/// Why a day cannot be planned so.
#[derive(Clone, PartialEq, Debug)]
pub enum NoPlan {
    /// It is over.
    Past,
    /// No load weight is published or told for it.
    NoWeight,
    /// Freezer and ripe fruit together are not enough.
    NotEnough {
        /// What it takes.
        target: Mass,
        /// What there is, thawing, frozen and ripe by then.
        there: Mass,
        /// So many jars could be made of that.
        jars: u32,
    },
    /// The bags would not be thawed, or the work not be done.
    TooSoon {
        /// The same hour on the first day on which it is possible.
        earliest: DateTime<Utc>,
        /// How long the heaviest bag takes in the refrigerator; nothing where none is to thaw.
        thaw: TimeDelta,
        /// The heaviest bag that cold water thaws in the two hours allowed.
        in_water: Option<Mass>,
    },
    /// There is no tested process, or it cannot be found.
    Process(Box<Refusal>),
}

impl DayPlan {
    /// The latest instant at which its first step can begin: bags that go in at a civil hour have some time to spare.
    fn must_begin(&self) -> DateTime<Utc> {
        let start = self.steps.first().map_or(self.end, |step| step.at);
        match (self.steps.first(), self.begins(Part::Drain)) {
            (Some(thaw), Some(drain)) if thaw.takes.part == Part::Thaw => drain - thaw.takes.time,
            _ => start,
        }
    }

    /// When a part of the day first begins.
    pub fn begins(&self, part: Part) -> Option<DateTime<Utc>> {
        self.steps.iter().find(|step| step.takes.part == part).map(|step| step.at)
    }
}

/// Lays out a day that is set.
///
/// # Errors
/// When it is past, sooner than the thaw and the work take, when there is not enough fruit, or no process.
pub fn plan_day(state: &State, planned: &PlannedDay, now: DateTime<Utc>) -> Result<DayPlan, NoPlan> {
    if state.settings.zone.at(planned.day, planned.by) <= now {
        return Err(NoPlan::Past);
    }
    let plan = match lay_out(state, planned) {
        Ok(plan) => plan,
        Err(NoPlan::NotEnough { target, there, jars }) => {
            // What there is for fewer jars thaws no faster.
            if jars > 0 && planned.jars != Some(jars) {
                let fewer = PlannedDay { jars: Some(jars), ..planned.clone() };
                if let Err(soon @ NoPlan::TooSoon { .. }) = plan_day(state, &fewer, now) {
                    return Err(soon);
                }
            }
            return Err(NoPlan::NotEnough { target, there, jars });
        }
        Err(why) => return Err(why),
    };
    if plan.must_begin() >= now {
        return Ok(plan);
    }
    let thaw = plan.steps.iter().find(|step| step.takes.part == Part::Thaw);
    let thaw = thaw.map_or(TimeDelta::zero(), |step| step.takes.time);
    // The same hour on the first day that gives the time.
    let later = plan.must_begin().signed_duration_since(now).num_hours().unsigned_abs().div_ceil(24);
    let earliest = (later..later + 3)
        .map(|days| PlannedDay { day: planned.day + Days::new(days), ..planned.clone() })
        .find(|later| lay_out(state, later).is_ok_and(|plan| plan.must_begin() >= now));
    let earliest = earliest.map_or(planned.day + Days::new(later + 1), |later| later.day);
    Err(NoPlan::TooSoon {
        earliest: state.settings.zone.at(earliest, planned.by),
        thaw,
        in_water: heaviest_in_cold_water(),
    })
}

/// The same, whatever the time is now.
///
/// # Errors
/// As [`plan_day`], but for the time.
pub fn lay_out(state: &State, planned: &PlannedDay) -> Result<DayPlan, NoPlan> {
    let target = wanted(state, planned)?;
    let canner = state.settings.usual_canner();
    let process = state.process(&target.product, target.jar, canner, None, None);
    let process = process.map_err(|why| NoPlan::Process(Box::new(why)))?;
    let fruit = gather(state, planned, &target)?;
    let end = state.settings.zone.at(planned.day, planned.by);
    let capacity = state.canner_holds(&target.product, canner, target.jar);
    let rounds = target.jars.div_ceil(capacity).max(1);
    let minutes = TimeDelta::minutes(i64::from(process.minutes));
    let of_round = round(canner, target.jar, minutes, process.source);

    let first_round = end - sum(&of_round) * i32::try_from(rounds).unwrap_or(1);
    let filling = fill(target.jars.min(capacity));
    let cooking = cook_down(&target.product).or_own(own_cooking(state, &target.product));
    let heating = heat_canner(canner);
    let fill_at = first_round - filling.time;
    let cook_at = fill_at - cooking.time;
    let mut steps = Vec::new();
    let mut add = |at, takes, round| steps.push(PlannedStep { at, takes, round });
    if !fruit.bags.is_empty() || !fruit.thawing.is_zero() {
        add(cook_at - drain().time, drain(), None);
    }
    if let Some(heaviest) = fruit.bags.iter().map(|bag| bag.mass).max() {
        let thaw = thaw_of(heaviest);
        add(civil(state, cook_at - drain().time - thaw.time), thaw, None);
    }
    add(cook_at, cooking, None);
    // The jars are hot when they are filled.
    add(fill_at - heating.time, heating, None);
    add(fill_at, filling, None);
    let mut at = first_round;
    for number in 1..=rounds {
        for takes in &of_round {
            add(at, *takes, Some(number));
            at += takes.time;
        }
    }
    steps.sort_by_key(|step| step.at);
    let Fruit { bags, thawing, fresh } = fruit;
    Ok(DayPlan { target, rounds, bags, thawing, fresh, steps, end })
}

/// From the cold pot to filled jars, as the household's own batches took: the median of the latest, less the filling, once there are enough of them.
fn own_cooking(state: &State, product: &Product) -> Option<TimeDelta> {
    let closed = state.batches.iter().filter_map(Finished::of);
    let of_product = state.history.iter().cloned().chain(closed).filter(|batch| batch.product == *product);
    let minutes = |batch: Finished| Some((batch.cooking? - fill(batch.filled).time).num_minutes());
    // What is logged after the fact says nothing of how long it took.
    let all: Vec<i64> = of_product.filter_map(minutes).filter(|minutes| (15..720).contains(minutes)).collect();
    let mut latest = all.get(all.len().saturating_sub(OWN_LATEST)..)?.to_vec();
    latest.sort_unstable();
    (latest.len() >= ENOUGH).then(|| latest.get(latest.len() / 2).copied().map(TimeDelta::minutes)).flatten()
}

/// So many of the latest batches.
const OWN_LATEST: usize = 5;

fn thaw_of(heaviest: Mass) -> Takes {
    let time = in_refrigerator(heaviest).map_or(TimeDelta::days(3), |thawing| thawing.time);
    Takes::computed(Part::Thaw, time)
}

/// Nobody gets up at night for a bag: what would begin between nine in the evening and seven in the morning begins at eight the evening before
/// (a choice of this program).
fn civil(state: &State, at: DateTime<Utc>) -> DateTime<Utc> {
    let clock = state.settings.zone.local(at);
    let (Some(late), Some(early), Some(evening)) =
        (NaiveTime::from_hms_opt(21, 0, 0), NaiveTime::from_hms_opt(7, 0, 0), NaiveTime::from_hms_opt(20, 0, 0))
    else {
        return at;
    };
    if clock.time() >= late {
        state.settings.zone.at(clock.date_naive(), evening)
    } else if clock.time() < early {
        state.settings.zone.at(clock.date_naive() - Days::new(1), evening)
    } else {
        at
    }
}

/// A load, or its share for the jars that were said.
fn wanted(state: &State, planned: &PlannedDay) -> Result<Target, NoPlan> {
    if state.recipes.contains_key(planned.product.as_str()) {
        return Err(NoPlan::Process(Box::new(Refusal::OwnRecipe(planned.product.clone()))));
    }
    let load = target(state, Some(&planned.product), planned.jar).ok_or(NoPlan::NoWeight)?;
    let Some(jars) = planned.jars.filter(|jars| *jars > 0 && *jars != load.jars) else { return Ok(load) };
    let share = Number::new(i64::from(jars), i64::from(load.jars.max(1)));
    let mass = share.and_then(|share| load.mass.times(share)).ok_or(NoPlan::NoWeight)?;
    Ok(Target { jars, mass, scaled: true, ..load })
}

struct Fruit {
    bags: Vec<Bag>,
    thawing: Mass,
    fresh: Mass,
}

/// What thaws already, then bags by the rule, then, where that is not enough, fruit that is ripe by then.
fn gather(state: &State, planned: &PlannedDay, target: &Target) -> Result<Fruit, NoPlan> {
    let for_batches: Mass =
        state.open_batches().filter(|batch| batch.product == target.product).map(|batch| batch.thawed).sum();
    let thawing = (state.thawing(target.crop) + for_batches).min(target.mass);
    let missing = target.mass.less(thawing);
    let frozen = state.freezer.bags(target.crop);
    let in_freezer: Mass = frozen.iter().map(|bag| bag.mass).sum();
    if in_freezer >= missing {
        return Ok(Fruit { bags: choose_bags(frozen, missing), thawing, fresh: Mass::ZERO });
    }
    let fresh = missing.less(in_freezer);
    let ripe = ripe_by(state, target.crop, planned.day);
    if ripe >= fresh {
        return Ok(Fruit { bags: frozen.to_vec(), thawing, fresh });
    }
    let there = thawing + in_freezer + ripe;
    let jars = (f64::from(target.jars) * there.ratio(target.mass)).floor() as u32;
    Err(NoPlan::NotEnough { target: target.mass, there, jars })
}
