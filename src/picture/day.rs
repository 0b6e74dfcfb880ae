//! The day of a batch as a time line, a row for each round of the canner.

use super::Picture;
use super::freezer::spoken;
use super::history::History;
use super::unit::{Unit, counted};
use crate::batch::{Batch, Stage};
use crate::ledger::Ledger;
use crate::vocabulary::{CannerKind, Jar};
use crate::zone::Zone;
use chrono::{DateTime, NaiveDateTime, TimeDelta, Utc};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// A batch that nobody spoke of for this long ended with its last step.
const FORGOTTEN: TimeDelta = TimeDelta::hours(12);

/// The day of a batch. All times are the room's own.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize)]
pub struct Day {
    /// How days and times are written.
    pub unit: Unit,
    /// Its number in the room.
    pub number: u32,
    /// What it is called.
    pub name: String,
    /// What is made, as said in a sentence.
    pub product: String,
    /// In which jars.
    pub jar: Jar,
    /// How many: filled, or meant.
    pub jars: u32,
    /// In which canner.
    pub canner: CannerKind,
    /// The process, in minutes.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub minutes: Option<u32>,
    /// How many sealed, once it is known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub sealed: Option<u32>,
    /// When it began.
    pub began: NaiveDateTime,
    /// When the last jars came out, or the last that is known of it.
    pub ended: NaiveDateTime,
    /// Whether it still goes on.
    pub open: bool,
    /// Getting ready first, then each round.
    pub rows: Vec<Row>,
}

/// A row.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize)]
pub struct Row {
    /// The round, from 1; 0 is getting ready.
    pub round: u32,
    /// Jars that went through it.
    pub jars: u32,
    /// What happened, in order, without a gap.
    pub parts: Vec<Part>,
}

/// What a round is at.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Phase {
    /// Draining, cooking down, filling.
    Ready,
    /// Jars are full; the canner is not at heat.
    Heating,
    /// Steam flows from the vent.
    Venting,
    /// The clock runs.
    Process,
    /// The minutes are up, and the heat is still on.
    Over,
    /// A pressure canner comes down.
    Pressure,
    /// The heat is off, the jars wait in the canner.
    Rest,
    /// The batch is set aside.
    Aside,
}

/// A stretch of a round.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
pub struct Part {
    /// What.
    pub phase: Phase,
    /// From.
    pub from: NaiveDateTime,
    /// Until.
    pub to: NaiveDateTime,
    /// It ended because the heat was lost: the full time had to start again.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub lost: bool,
}

/// Every batch there has been, as it was last known, by number.
pub fn batches(ledger: &Ledger) -> BTreeMap<u32, Batch> {
    let mut known = BTreeMap::new();
    let mut keep = |batches: &[Batch]| known.extend(batches.iter().map(|batch| (batch.number, batch.clone())));
    History::whole(ledger).each(|_, state| keep(&state.batches));
    known
}

/// The batch that is meant: the latest of that name, or the latest one. Batches of earlier years are found too.
pub fn batch(ledger: &Ledger, called: Option<&str>) -> Option<Batch> {
    let is_meant = |batch: &Batch| called.is_none_or(|name| batch.is_called(name));
    let recent = ledger.state().batches.iter().rev().find(|batch| is_meant(batch)).cloned();
    recent.or_else(|| batches(ledger).into_values().rev().find(is_meant))
}

/// The day of a batch.
pub fn day(ledger: &Ledger, batch: &Batch, now: DateTime<Utc>) -> Option<Picture> {
    let zone = ledger.state().settings.zone;
    let mut line = Line::begin(batch.began, zone);
    History::since(ledger, batch.began).each(|entry, state| {
        if let Some(then) = state.batches.iter().find(|then| then.number == batch.number) {
            line.step(then, entry.happened);
        }
    });
    let (rows, open) = line.finish(now);
    let local = |at: DateTime<Utc>| zone.local(at).naive_local();
    let ended = rows.iter().flat_map(|row| &row.parts).map(|part| part.to).max()?;
    let decided = batch.filled > 0 && batch.undecided() == 0;
    Some(Picture::Day(Day {
        unit: Unit::of(ledger.state().settings.units),
        number: batch.number,
        name: batch.name.clone(),
        product: spoken(&batch.product),
        jar: batch.jar,
        jars: batch.jars(),
        canner: batch.canner,
        minutes: batch.timing.minutes,
        sealed: decided.then_some(batch.fates.sealed()),
        began: local(batch.began),
        ended,
        open,
        rows,
    }))
}

/// A time line being drawn: the phase that lasts, and the rows so far.
struct Line {
    zone: Zone,
    rows: Vec<Row>,
    phase: Option<(Phase, DateTime<Utc>)>,
    /// When the minutes are up, while the clock runs.
    ends: Option<DateTime<Utc>>,
    restarts: u32,
    outs: usize,
    /// Whether the next stretch is another round's.
    is_next_round: bool,
}

impl Line {
    fn begin(began: DateTime<Utc>, zone: Zone) -> Self {
        let rows = vec![Row { round: 0, jars: 0, parts: Vec::new() }];
        Self { zone, rows, phase: Some((Phase::Ready, began)), ends: None, restarts: 0, outs: 0, is_next_round: true }
    }

    /// The batch as it stands after an entry.
    fn step(&mut self, batch: &Batch, at: DateTime<Utc>) {
        let phase = phase(batch, at);
        let lost = batch.restarts > self.restarts;
        let out = batch.outs.len() > self.outs;
        let changed = self.phase.map(|(phase, _)| phase) != phase || lost || out;
        if changed {
            self.close(at, lost);
            self.is_next_round |= out || phase.is_none();
            if let Some(phase) = phase {
                self.open(batch, phase, at);
            }
        }
        if let Some(row) = self.rows.last_mut().filter(|row| row.round > 0 && phase.is_some()) {
            row.jars = batch.in_round();
        }
        self.ends = if batch.heat.is_some() { batch.ends_at(at) } else { None };
        (self.restarts, self.outs) = (batch.restarts, batch.outs.len());
    }

    fn open(&mut self, batch: &Batch, phase: Phase, at: DateTime<Utc>) {
        let is_ready = phase == Phase::Ready || (phase == Phase::Aside && batch.filled == 0);
        if !is_ready && self.is_next_round {
            let round = self.rows.last().map_or(1, |row| row.round + 1);
            self.rows.push(Row { round, jars: batch.in_round(), parts: Vec::new() });
            self.is_next_round = false;
        }
        self.phase = Some((phase, at));
    }

    /// Ends what lasts. A process that ran longer than its minutes is two parts.
    fn close(&mut self, at: DateTime<Utc>, lost: bool) {
        let Some((phase, from)) = self.phase.take() else { return };
        let over = self.ends.filter(|ends| phase == Phase::Process && *ends < at);
        self.part(phase, from, over.unwrap_or(at), lost);
        if let Some(ends) = over {
            self.part(Phase::Over, ends, at, false);
        }
        self.ends = None;
    }

    fn part(&mut self, phase: Phase, from: DateTime<Utc>, to: DateTime<Utc>, lost: bool) {
        let local = |at: DateTime<Utc>| self.zone.local(at).naive_local();
        let part = Part { phase, from: local(from), to: local(to), lost };
        if let Some(row) = self.rows.last_mut().filter(|_| to > from) {
            row.parts.push(part);
        }
    }

    /// What lasts goes on until now, unless the batch was forgotten: then it ended where it was last heard of. Says
    /// whether it goes on.
    fn finish(mut self, now: DateTime<Utc>) -> (Vec<Row>, bool) {
        let mut open = false;
        if let Some((_, since)) = self.phase {
            let heard_of = self.ends.unwrap_or(since).max(since);
            open = now <= heard_of + FORGOTTEN;
            self.close(if open { now } else { heard_of }, false);
        }
        self.rows.retain(|row| !row.parts.is_empty());
        (self.rows, open)
    }
}

/// What a batch is at; nothing once its jars cool on the towel.
fn phase(batch: &Batch, at: DateTime<Utc>) -> Option<Phase> {
    if batch.stopped.is_some() {
        return Some(Phase::Aside);
    }
    match batch.stage(at) {
        Stage::Begun => Some(Phase::Ready),
        Stage::Filled => Some(Phase::Heating),
        Stage::Venting => Some(Phase::Venting),
        Stage::Processing | Stage::Done => Some(Phase::Process),
        Stage::Depressurising => Some(Phase::Pressure),
        Stage::Resting => Some(Phase::Rest),
        Stage::Cooling | Stage::Checking => None,
    }
}

impl Phase {
    /// As said in a picture.
    pub const fn as_str(self) -> &'static str {
        match self {
            Self::Ready => "getting ready",
            Self::Heating => "heating up",
            Self::Venting => "venting",
            Self::Process => "processing",
            Self::Over => "over its time",
            Self::Pressure => "pressure falls",
            Self::Rest => "resting",
            Self::Aside => "set aside",
        }
    }
}

impl Day {
    pub(super) fn alt(&self) -> String {
        let rounds = self.rows.iter().filter(|row| row.round > 0).count() as u32;
        let each = if rounds == 1 { "" } else { " each" };
        let minutes = self.minutes.map(|minutes| format!(", {minutes} minutes{each}")).unwrap_or_default();
        let restarts = self.rows.iter().flat_map(|row| &row.parts).filter(|part| part.lost).count() as u32;
        let lost = match restarts {
            0 => String::new(),
            1 => ", the heat lost once".to_owned(),
            times => format!(", the heat lost {times} times"),
        };
        let sealed = self.sealed.map(|sealed| format!("; {sealed} sealed")).unwrap_or_default();
        let end = if self.open { "and still going at" } else { "the last jars out at" };
        format!(
            "Batch '{}' on {}: {} of {}, begun at {}, {} in the canner{minutes}{lost}, {end} {}{sealed}.",
            self.name,
            self.unit.day(self.began.date()),
            self.jar.counted(self.jars),
            self.product,
            self.unit.clock(self.began),
            counted(rounds, "round", "rounds"),
            self.unit.clock(self.ended)
        )
    }
}
