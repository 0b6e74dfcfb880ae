//! Deadlines: of batches, of kitchen timers, of jars in the refrigerator, and those of looking ahead (`ahead`).

use super::ahead;
use crate::batch::{Batch, Clock};
use crate::ledger::state::{Lot, PlannedDay, State};
use crate::planning::canning_day::{DayPlan, PlannedStep};
use crate::planning::ripening::Picking;
use crate::planning::shelf::UseFirst;
use crate::processes::facts::UNSEALED_KEEPS_AT_MOST;
use chrono::{DateTime, Days, NaiveTime, Utc};

/// What falls due.
#[derive(Clone, PartialEq, Debug)]
pub enum Alert {
    /// One of a batch's clocks ran out.
    Batch(Clock, Box<Batch>),
    /// A kitchen timer rings.
    Timer(Option<String>),
    /// Jars that did not seal have been in the refrigerator for three days.
    Fridge(Lot),
    /// Jars have been in the refrigerator longer than they keep there.
    FridgeOver(Lot),
    /// Pickings are red tomorrow.
    Ripe(Vec<Picking>),
    /// Pickings are past their best, and still there.
    PastRipe(Vec<Picking>),
    /// Stock is at its best for two more weeks.
    UseFirst(Box<UseFirst>),
    /// A step of a planned day begins.
    Planned(Box<(PlannedDay, DayPlan, PlannedStep)>),
    /// The week in a message.
    Digest,
}

/// Something that falls due at an instant.
#[derive(Clone, PartialEq, Debug)]
pub struct Due {
    /// Its name: told once.
    pub name: String,
    /// When.
    pub at: DateTime<Utc>,
    /// The latest instant to tell it, whatever the hour, where there is one.
    pub latest: Option<DateTime<Utc>>,
    /// What.
    pub alert: Alert,
}

impl Due {
    /// Whether it is told in quiet hours too.
    pub fn urgent(&self) -> bool {
        match self.alert {
            Alert::Timer(_) => true,
            Alert::Batch(clock, _) => clock != Clock::SealCheck,
            Alert::Fridge(_)
            | Alert::FridgeOver(_)
            | Alert::Ripe(_)
            | Alert::PastRipe(_)
            | Alert::UseFirst(_)
            | Alert::Planned(_)
            | Alert::Digest => false,
        }
    }

    /// Whether somebody is called to it: what needs a hand that day.
    pub fn calls(&self) -> bool {
        match self.alert {
            Alert::Timer(_) | Alert::Batch(..) | Alert::Fridge(_) | Alert::FridgeOver(_) | Alert::Planned(_) => true,
            Alert::Ripe(_) | Alert::PastRipe(_) | Alert::UseFirst(_) | Alert::Digest => false,
        }
    }

    /// The topic, as the contract names it.
    pub fn topic(&self) -> &'static str {
        match self.alert {
            Alert::Timer(_) => "timer-done",
            Alert::Fridge(_) | Alert::FridgeOver(_) => "fridge-deadline",
            Alert::Ripe(_) | Alert::PastRipe(_) => "ripe",
            Alert::UseFirst(_) => "use-first",
            Alert::Planned(_) => "planned",
            Alert::Digest => "digest",
            Alert::Batch(Clock::HeatCheck, _) => "heat-check",
            Alert::Batch(Clock::ProcessDone, _) => "process-done",
            Alert::Batch(Clock::RestDone, _) => "rest-done",
            Alert::Batch(Clock::StillIn, _) => "still-in-canner",
            Alert::Batch(Clock::StandNear, _) => "redo-deadline",
            Alert::Batch(Clock::StandOver, _) => "redo-over",
            Alert::Batch(Clock::SealCheck, _) => "seal-check",
            Alert::Batch(Clock::ReprocessDeadline, _) => "reprocess-deadline",
        }
    }
}

/// Jars in the refrigerator are asked about on their third day there, so many days after they went in ("several days"
/// in USDA AIB 539 (2015), Guide 1; other pages print 2 to 3 days, 3 days, one week: `processes/tables/facts.csv`,
/// `unsealed_refrigerate_use_within`).
const FRIDGE_DAYS: Days = Days::new(2);

/// Every deadline that is set, in order of time, but for the digest, which comes again ([`digests`](super::digests)).
pub fn deadlines(state: &State) -> Vec<Due> {
    let mut all: Vec<Due> = Vec::new();
    for batch in &state.batches {
        for (clock, at) in batch.clocks(state.settings.zone) {
            let name = format!("batch {} {clock:?} {}", batch.number, at.timestamp());
            let latest = batch.seal_check_latest().filter(|_| clock == Clock::SealCheck);
            all.push(Due { name, at, latest, alert: Alert::Batch(clock, Box::new(batch.clone())) });
        }
    }
    for timer in &state.timers {
        let label = timer.label.as_deref().unwrap_or_default();
        let name = format!("timer {} {label}", timer.ends.timestamp());
        all.push(Due { name, at: timer.ends, latest: None, alert: Alert::Timer(timer.label.clone()) });
    }
    let nine = NaiveTime::from_hms_opt(9, 0, 0).unwrap_or_default();
    for lot in state.fridge.lots() {
        let at = state.settings.zone.at(lot.on + FRIDGE_DAYS, nine);
        let name = format!("fridge {} {} {} {:?}", lot.product, lot.jar, lot.on, lot.batch);
        all.push(Due { name, at, latest: None, alert: Alert::Fridge(lot.clone()) });
        let over = lot.on + UNSEALED_KEEPS_AT_MOST.value;
        let at = state.settings.zone.at(over, nine);
        let name = format!("fridge over {} {} {} {:?}", lot.product, lot.jar, lot.on, lot.batch);
        all.push(Due { name, at, latest: None, alert: Alert::FridgeOver(lot.clone()) });
    }
    all.extend(ahead::ripe(state));
    all.extend(ahead::use_first_alerts(state));
    all.extend(ahead::planned(state));
    all.sort_by(|a, b| (a.at, &a.name).cmp(&(b.at, &b.name)));
    all
}
