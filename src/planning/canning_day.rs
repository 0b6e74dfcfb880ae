//! A canning day planned backwards from the hour at which the last round should be out: which bags, when they go into
//! the refrigerator, when to drain, cook, heat the canner and fill.
//!
//! Invariants: each duration carries whose word it is ([`Takes`]); the process is the tables' for the room's altitude,
//! and without one there is no plan; fruit that is thawing already is not taken out again.

use super::durations::{Part, Takes, cook_down, drain, fill, heat_canner, round, sum};
use super::ripening::ripe_by;
use super::thaw::{heaviest_in_cold_water, in_refrigerator};
use super::{ENOUGH, Target, choose_bags, target};
use crate::ledger::Refusal;
use crate::ledger::state::{Bag, Finished, PlannedDay, State};
use crate::processes::{self, Process};
use crate::quantity::{Mass, Number};
use crate::vocabulary::{CannerKind, Crop, Pack, Product};
use chrono::{DateTime, Days, NaiveDate, NaiveTime, TimeDelta, Utc};

/// A day, planned.
#[derive(Clone, PartialEq, Debug)]
pub struct DayPlan {
    /// What is made, of how much, in how many jars.
    pub target: Target,
    /// In how many rounds of the canner.
    pub rounds: u32,
    /// The pack whose time was reckoned with, where packs differ and a day does not say which: the one that takes
    /// longer.
    pub pack: Option<Pack>,
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

/// What holds up a day's work.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Held {
    /// The bags are still in the freezer.
    NotOut,
    /// They are out, and not thawed before this.
    Frozen(DateTime<Utc>),
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
        /// The day for so many jars, where that can be.
        instead: Option<Box<DayPlan>>,
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

    /// Why nothing can be drained or cooked yet, where most of the fruit was to be thawed and is not.
    pub fn held(&self, state: &State) -> Option<Held> {
        let in_freezer: Mass = self.bags.iter().map(|bag| bag.mass).sum();
        if in_freezer > self.thawing + self.fresh {
            return Some(Held::NotOut);
        }
        let drain = self.begins(Part::Drain).filter(|_| !self.thawing.is_zero())?;
        thawed_by(state, self.target.crop).filter(|thawed| *thawed > drain).map(Held::Frozen)
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
    let (plan, short) = supposed(state, planned)?;
    if plan.must_begin() < now {
        return Err(too_soon(state, planned, &plan, now));
    }
    let Some(short) = short else { return Ok(plan) };
    let fewer = PlannedDay { jars: Some(short.jars), ..planned.clone() };
    let instead = (short.jars > 0).then(|| lay_out(state, &fewer).ok()).flatten();
    let instead = instead.filter(|plan| plan.must_begin() >= now).map(Box::new);
    Err(NoPlan::NotEnough { target: plan.target.mass, there: short.there, jars: short.jars, instead })
}

/// The same hour on the first day that gives the time.
fn too_soon(state: &State, planned: &PlannedDay, plan: &DayPlan, now: DateTime<Utc>) -> NoPlan {
    let thaw = plan.steps.iter().find(|step| step.takes.part == Part::Thaw);
    let thaw = thaw.map_or(TimeDelta::zero(), |step| step.takes.time);
    let later = plan.must_begin().signed_duration_since(now).num_hours().unsigned_abs().div_ceil(24);
    let earliest = (later..later + 3)
        .map(|days| PlannedDay { day: planned.day + Days::new(days), ..planned.clone() })
        .find(|later| supposed(state, later).is_ok_and(|(plan, _)| plan.must_begin() >= now));
    let earliest = earliest.map_or(planned.day + Days::new(later + 1), |later| later.day);
    NoPlan::TooSoon { earliest: state.settings.zone.at(earliest, planned.by), thaw, in_water: heaviest_in_cold_water() }
}

/// The same, whatever the time is now.
///
/// # Errors
/// As [`plan_day`], but for the time; fewer jars are not laid out.
pub fn lay_out(state: &State, planned: &PlannedDay) -> Result<DayPlan, NoPlan> {
    match supposed(state, planned)? {
        (plan, None) => Ok(plan),
        (plan, Some(Short { there, jars })) => {
            Err(NoPlan::NotEnough { target: plan.target.mass, there, jars, instead: None })
        }
    }
}

/// The day as far as there is fruit for it: in fewer jars where some is missing, nothing where it fills none.
pub fn within_reach(state: &State, planned: &PlannedDay) -> Option<DayPlan> {
    match supposed(state, planned).ok()? {
        (plan, None) => Some(plan),
        (_, Some(Short { jars: 0, .. })) => None,
        (_, Some(Short { jars, .. })) => lay_out(state, &PlannedDay { jars: Some(jars), ..planned.clone() }).ok(),
    }
}

/// A day laid out as if what is short of fruit came ripe from the garden by then, and how much that is.
fn supposed(state: &State, planned: &PlannedDay) -> Result<(DayPlan, Option<Short>), NoPlan> {
    let target = wanted(state, planned)?;
    let canner = state.settings.usual_canner();
    let (process, pack) = process_of(state, &target, canner).map_err(|why| NoPlan::Process(Box::new(why)))?;
    let (fruit, short) = gather(state, planned, &target);
    let end = state.settings.zone.at(planned.day, planned.by);
    let capacity = state.canner_holds(&target.product, canner, target.jar);
    let rounds = target.jars.div_ceil(capacity).max(1);
    let minutes = TimeDelta::minutes(i64::from(process.minutes));
    let of_round = round(canner, target.jar, minutes, process.source);

    let first_round = on_the_clock(end - sum(&of_round) * i32::try_from(rounds).unwrap_or(1));
    let filling = fill(target.jars.min(capacity));
    let cooking = cook_down(&target.product).or_own(own_cooking(state, &target.product));
    let heating = heat_canner(canner);
    let fill_at = on_the_clock(first_round - filling.time);
    let cook_at = on_the_clock(fill_at - cooking.time);
    let drain_at = cook_at - drain().time;
    let mut steps = Vec::new();
    let mut add = |at, takes, round| steps.push(PlannedStep { at, takes, round });
    if let Some(heaviest) = fruit.bags.iter().map(|bag| bag.mass).max() {
        let thaw = thaw_of(heaviest);
        add(civil(state, drain_at - thaw.time), thaw, None);
    }
    if !fruit.bags.is_empty() || !fruit.thawing.is_zero() {
        add(drain_at, drain(), None);
    }
    add(cook_at, cooking, None);
    // Hot food goes into hot jars: they are hot before the first is filled.
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
    Ok((DayPlan { target, rounds, pack, bags, thawing, fresh, steps, end }, short))
}

/// The process of a day: where hot and raw pack have different times, the longer of those that the canner can run, and
/// which that is.
fn process_of(state: &State, target: &Target, canner: CannerKind) -> Result<(Process, Option<Pack>), Refusal> {
    let packed = |pack| state.process(&target.product, target.jar, canner, pack, None);
    match packed(None) {
        Ok(process) => Ok((process, None)),
        Err(why @ Refusal::Process { why: processes::Refusal::WhichPack { .. }, .. }) => {
            let known =
                [Pack::Hot, Pack::Raw].into_iter().filter_map(|pack| Some((packed(Some(pack)).ok()?, Some(pack))));
            known.max_by_key(|(process, _)| process.minutes).ok_or(why)
        }
        Err(why) => Err(why),
    }
}

/// Down to five minutes: no kitchen keeps to less, and no duration of the day is known closer.
fn on_the_clock(at: DateTime<Utc>) -> DateTime<Utc> {
    at - TimeDelta::seconds(at.timestamp().rem_euclid(300))
}

/// From the cold pot to filled jars, as the household's own batches took: the median of the latest, less the filling,
/// once there are enough of them.
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

/// Nobody gets up at night for a bag: what would begin between nine in the evening and seven in the morning begins at
/// eight the evening before (a choice of this program), and what would begin in the household's quiet hours an hour
/// before them.
fn civil(state: &State, at: DateTime<Utc>) -> DateTime<Utc> {
    let zone = state.settings.zone;
    let clock = zone.local(at);
    let (Some(late), Some(early), Some(evening)) =
        (NaiveTime::from_hms_opt(21, 0, 0), NaiveTime::from_hms_opt(7, 0, 0), NaiveTime::from_hms_opt(20, 0, 0))
    else {
        return at;
    };
    let at = if clock.time() >= late {
        zone.at(clock.date_naive(), evening)
    } else if clock.time() < early {
        zone.at(clock.date_naive() - Days::new(1), evening)
    } else {
        at
    };
    let clock = zone.local(at);
    match state.settings.quiet {
        Some(quiet) if state.settings.quiet_until(clock.time()).is_some() => {
            let before = quiet.from.overflowing_sub_signed(TimeDelta::hours(1)).0;
            let back = u64::from(before > clock.time());
            zone.at(clock.date_naive() - Days::new(back), before)
        }
        _ => at,
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

/// What there is where that is not enough, and how many jars it makes.
struct Short {
    there: Mass,
    jars: u32,
}

/// What is left for a day of its crop once the days before it have theirs.
struct Left {
    thawing: Mass,
    frozen: Vec<Bag>,
    ripe: Mass,
}

impl Left {
    /// Takes what thaws already, then bags by the rule, then, where that is not enough, fruit that is ripe by then; and
    /// says what is still missing.
    fn take(&mut self, wanted: Mass) -> (Fruit, Mass) {
        let thawing = self.thawing.min(wanted);
        let missing = wanted.less(thawing);
        let in_freezer: Mass = self.frozen.iter().map(|bag| bag.mass).sum();
        let bags = if in_freezer >= missing { choose_bags(&self.frozen, missing) } else { self.frozen.clone() };
        let fresh = missing.less(in_freezer).min(self.ripe);
        self.thawing = self.thawing.less(thawing);
        for bag in &bags {
            if let Some(place) = self.frozen.iter().position(|other| other == bag) {
                self.frozen.remove(place);
            }
        }
        self.ripe = self.ripe.less(fresh);
        (Fruit { bags, thawing, fresh }, missing.less(in_freezer + fresh))
    }
}

/// What of the counter can be canned on a day: tomatoes that are red by then, as far as their ripeness was said; of
/// other crops, which have no such classes, all of it.
fn usable(state: &State, crop: Crop, day: NaiveDate) -> Mass {
    if crop == Crop::Tomato { ripe_by(state, crop, day) } else { state.on_counter(crop) }
}

/// The days that are set for an earlier hour; of those for the same hour the one that was set first.
fn earlier<'a>(state: &'a State, planned: &PlannedDay) -> impl Iterator<Item = &'a PlannedDay> {
    let hour = (planned.day, planned.by);
    let is_own = |other: &PlannedDay| other.product == planned.product && (other.day, other.by) == hour;
    let own = state.planned.iter().position(is_own).unwrap_or(state.planned.len());
    let product = planned.product.clone();
    let days = state.planned.iter().enumerate();
    days.filter(move |(place, other)| {
        other.product != product && ((other.day, other.by) < hour || (other.day, other.by) == hour && *place < own)
    })
    .map(|(_, other)| other)
}

/// The fruit of a day. No bag is promised to two: days that are set for an earlier hour have theirs first, as far as
/// they can be.
fn gather(state: &State, planned: &PlannedDay, target: &Target) -> (Fruit, Option<Short>) {
    let mut left = Left {
        thawing: state.thawing(target.crop),
        frozen: state.freezer.bags(target.crop).to_vec(),
        ripe: usable(state, target.crop, planned.day),
    };
    for other in earlier(state, planned) {
        if let Ok(theirs) = wanted(state, other)
            && theirs.crop == target.crop
        {
            left.take(theirs.mass);
        }
    }
    // What open batches of the product hold is its own.
    let of_batches: Mass =
        state.open_batches().filter(|batch| batch.product == target.product).map(|batch| batch.thawed).sum();
    left.thawing += of_batches;
    let (fruit, missing) = left.take(target.mass);
    if missing.is_zero() {
        return (fruit, None);
    }
    let there = target.mass.less(missing);
    let jars = (f64::from(target.jars) * there.ratio(target.mass)).floor() as u32;
    (Fruit { fresh: fruit.fresh + missing, ..fruit }, Some(Short { there, jars }))
}

/// When what is thawing of a crop is thawed through by the equation, without its margin; `None` where nothing is.
pub fn thawed_by(state: &State, crop: Crop) -> Option<DateTime<Utc>> {
    let (since, heaviest) = state.thawing_since.get(&crop)?;
    Some(*since + in_refrigerator(*heaviest)?.estimate)
}
