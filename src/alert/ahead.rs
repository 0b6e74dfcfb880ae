//! Deadlines of looking ahead: fruit that ripens, stock to use first, the steps of a planned day, the digest.

use super::{Alert, Due};
use crate::ledger::state::{Digest, State};
use crate::planning::canning_day::within_reach;
use crate::planning::durations::Part;
use crate::planning::ripening::{WORTH_SAYING, ripening};
use crate::planning::shelf::use_first;
use crate::quantity::Mass;
use chrono::{DateTime, Datelike, Days, NaiveDate, NaiveTime, Utc};
use std::collections::BTreeMap;

/// What can wait for the morning is told then.
const MORNING: NaiveTime = match NaiveTime::from_hms_opt(9, 0, 0) {
    Some(time) => time,
    None => NaiveTime::MIN,
};

/// Stock is spoken of so long before its best time is over.
const USE_FIRST_AHEAD: Days = Days::new(14);

/// The parts of a planned day that somebody is reminded of; the rest is the canner's own clock.
const REMINDED: [Part; 5] = [Part::Thaw, Part::Drain, Part::CookDown, Part::HeatCanner, Part::Fill];

fn due(name: String, at: DateTime<Utc>, alert: Alert) -> Due {
    Due { name, at, latest: None, alert }
}

/// Each picking twice at most: the morning before the day by which it is red, never the day it was picked; and the day
/// after which red fruit is past its best. What is red by the same day is told together. Fruit of no said class is not
/// spoken of.
pub(super) fn ripe(state: &State) -> Vec<Due> {
    let morning = |day: NaiveDate| state.settings.zone.at(day, MORNING);
    let (mut soon, mut past) = (BTreeMap::new(), BTreeMap::new());
    for picking in ripening(state) {
        let Some(red) = picking.red_days() else { continue };
        if red.by > picking.on {
            let day = (red.by - Days::new(1)).max(picking.on + Days::new(1));
            soon.entry((picking.crop, red.by, morning(day))).or_insert_with(Vec::new).push(picking.clone());
        }
        let day = morning(red.past + Days::new(1));
        past.entry((picking.crop, red.by, day)).or_insert_with(Vec::new).push(picking);
    }
    let soon = soon.into_iter().map(|(key, all)| ("ripe", key, all));
    let past = past.into_iter().map(|(key, all)| ("past-ripe", key, all));
    soon.chain(past)
        .filter(|(.., all)| all.iter().map(|picking| picking.mass).sum::<Mass>() >= WORTH_SAYING)
        .map(|(name, (crop, by, at), all)| {
            let alert = if name == "ripe" { Alert::Ripe(all) } else { Alert::PastRipe(all) };
            due(format!("{name} {crop} {by} {}", at.date_naive()), at, alert)
        })
        .collect()
}

/// Stock whose best time is over in one month, two weeks before the first of it; jars and bags apart.
pub(super) fn use_first_alerts(state: &State) -> Vec<Due> {
    let months = use_first(state).into_iter();
    months
        .map(|group| {
            let what = if group.lots.is_empty() { "bags" } else { "jars" };
            let at = state.settings.zone.at(group.from - USE_FIRST_AHEAD, MORNING);
            due(format!("use-first {what} {}", group.month), at, Alert::UseFirst(Box::new(group)))
        })
        .collect()
}

/// The steps of each day that is set, as the freezer now stands: in fewer jars where fruit is missing. A batch that
/// begins takes its day off the list and has clocks of its own.
pub(super) fn planned(state: &State) -> Vec<Due> {
    let mut all = Vec::new();
    for day in &state.planned {
        let Some(plan) = within_reach(state, day) else { continue };
        for part in REMINDED {
            if let Some(step) = plan.steps.iter().find(|step| step.takes.part == part) {
                // By the day and not by the step's own time, which moves with every bag.
                let name = format!("planned {} {} {} {part:?}", day.product, day.day, day.by.format("%H:%M"));
                let alert = Alert::Planned(Box::new((day.clone(), plan.clone(), *step)));
                all.push(due(name, step.at, alert));
            }
        }
    }
    all
}

/// Whether a step of a planned day is not to be told: it waits for fruit that is not thawed (the first of those that
/// do, draining, says so), or its day is over, whatever came into the freezer since.
pub fn is_held(state: &State, due: &Due, now: DateTime<Utc>) -> bool {
    let Alert::Planned(step) = &due.alert else { return false };
    step.1.end <= now || step.2.takes.part > Part::Drain && step.1.held(state).is_some()
}

/// The digest: the latest time it was due since it was set, and the next.
pub fn digests(state: &State, now: DateTime<Utc>) -> Vec<Due> {
    let Some(Digest::Weekly { day, at }) = state.settings.digest else { return Vec::new() };
    let today = state.settings.zone.day(now);
    let back = u64::from((today.weekday().num_days_from_monday() + 7 - day.num_days_from_monday()) % 7);
    let this = today - Days::new(back);
    let since = state.settings.digest_since;
    [this - Days::new(7), this, this + Days::new(7)]
        .into_iter()
        .map(|day| due(format!("digest {day}"), state.settings.zone.at(day, at), Alert::Digest))
        .filter(|due| since.is_none_or(|since| due.at > since) && due.at + chrono::TimeDelta::days(7) > now)
        .collect()
}
