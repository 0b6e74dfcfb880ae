//! The plan for the day: when each round of every open batch will be at heat, done and out.
//!
//! Canners of different kinds run beside each other; a household is taken to have one of each, so batches in the same
//! canner wait for one another: first what is in it, then what is filled, then what has begun. A batch that is set
//! aside is not in the plan, and its canner is free. The process minutes are the tables'; what goes on around them is
//! as [`durations`] says, or as this batch's own last round took.

use super::durations::{self, Part, Takes};
use crate::batch::{Batch, Turn};
use crate::ledger::state::State;
use crate::processes::facts;
use crate::vocabulary::CannerKind;
use chrono::{DateTime, TimeDelta, Utc};

/// An own round that took longer than this around its process was interrupted, and says nothing of the next.
const UNINTERRUPTED: TimeDelta = TimeDelta::hours(2);

/// One filling of the canner.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Round {
    /// Which of the batch's rounds, from 1.
    pub number: usize,
    /// How many jars are in it.
    pub jars: u32,
    /// Whether its clock runs, or ran: then what follows is no estimate of the start.
    pub running: bool,
    /// When it is at heat.
    pub heat: DateTime<Utc>,
    /// When its minutes are up.
    pub done: DateTime<Utc>,
    /// When its jars are out.
    pub out: DateTime<Utc>,
}

/// The rounds of a batch that are still to come out.
#[derive(Clone, PartialEq, Debug)]
pub struct BatchDay {
    /// The batch's number.
    pub number: u32,
    /// Its canner.
    pub canner: CannerKind,
    /// Its rounds, in order; never empty.
    pub rounds: Vec<Round>,
    /// How many rounds it has in all.
    pub of: usize,
    /// Whether an earlier round of its own says how long one takes.
    pub learnt: bool,
    /// What is taken to go on around the process, where it is not learnt.
    pub around: Vec<Takes>,
}

/// The plan.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Day {
    /// Every open batch that is not set aside and has a tested time, in the order in which they are at heat.
    pub batches: Vec<BatchDay>,
}

impl Day {
    /// When the last jars of all are out.
    pub fn ends(&self) -> Option<DateTime<Utc>> {
        self.batches.iter().filter_map(BatchDay::ends).max()
    }

    /// The rounds of one batch.
    pub fn of(&self, number: u32) -> Option<&BatchDay> {
        self.batches.iter().find(|batch| batch.number == number)
    }
}

impl BatchDay {
    /// When its last jars are out.
    pub fn ends(&self) -> Option<DateTime<Utc>> {
        self.rounds.last().map(|round| round.out)
    }
}

/// The plan at an instant.
pub fn day(state: &State, now: DateTime<Utc>) -> Day {
    let mut batches: Vec<&Batch> =
        state.open_batches().filter(|batch| batch.stopped.is_none() && batch.rounds_left() > 0).collect();
    batches.sort_by_key(|batch| (turn_at(batch), batch.filled_at.unwrap_or(batch.began), batch.number));
    let mut free: Vec<(CannerKind, DateTime<Utc>)> = Vec::new();
    let mut plan = Day::default();
    for batch in batches {
        let from = free.iter().find(|(canner, _)| *canner == batch.canner).map(|(_, at)| *at);
        let Some(day) = batch_day(batch, from, now) else { continue };
        if let Some(ends) = day.ends() {
            free.retain(|(canner, _)| *canner != batch.canner);
            free.push((batch.canner, ends));
        }
        plan.batches.push(day);
    }
    plan
}

/// What is in the canner comes before what is filled, and that before what has begun.
fn turn_at(batch: &Batch) -> u8 {
    match batch {
        _ if batch.heat.is_some() || batch.heat_off.is_some() || batch.venting.is_some() => 0,
        _ if batch.filled > 0 => 1,
        _ => 2,
    }
}

/// What a round takes before it is at heat, and after its minutes are up.
struct Around {
    before: TimeDelta,
    after: TimeDelta,
    learnt: bool,
    steps: Vec<Takes>,
}

fn around(batch: &Batch, process: TimeDelta) -> Around {
    // Only what goes on around the process is looked at here, so its table does not matter.
    let steps = durations::round(batch.canner, batch.jar, process, "");
    let at = steps.iter().position(|step| step.part == Part::Process).unwrap_or(steps.len());
    let (before, after) = steps.split_at(at);
    let (before, after) = (durations::sum(before), durations::sum(after.get(1..).unwrap_or_default()));
    // Before the first round the jars may have waited for the canner, or for the cook: that says nothing of the next.
    let own_before = batch.turns.iter().skip(1).rev().find_map(own).map(|(before, _)| before);
    let own_after = batch.turns.iter().rev().find_map(own).map(|(_, after)| after);
    let is_own = |step: &Takes| match step.part {
        Part::Process => true,
        Part::Depressurise | Part::Rest | Part::Unload => own_after.is_some(),
        _ => own_before.is_some(),
    };
    Around {
        before: own_before.unwrap_or(before),
        after: own_after.unwrap_or(after),
        learnt: own_after.is_some(),
        steps: steps.into_iter().filter(|step| !is_own(step)).collect(),
    }
}

/// What an own round took before heat and after its minutes, unless it was interrupted.
fn own(turn: &Turn) -> Option<(TimeDelta, TimeDelta)> {
    let before = turn.heat - turn.ready;
    let after = turn.out - (turn.heat + TimeDelta::minutes(i64::from(turn.minutes)));
    let fits = |time: &TimeDelta| *time >= TimeDelta::zero() && *time <= UNINTERRUPTED;
    (!turn.restarted && fits(&before) && fits(&after)).then_some((before, after))
}

fn batch_day(batch: &Batch, canner_free: Option<DateTime<Utc>>, now: DateTime<Utc>) -> Option<BatchDay> {
    let process = TimeDelta::minutes(i64::from(batch.timing.minutes?));
    let around = around(batch, process);
    let before = batch.outs.len();
    let left = batch.rounds_left() as usize;
    let mut rounds = vec![first(batch, &around, process, canner_free, now)];
    let mut waiting = waiting(batch).saturating_sub(batch.in_round());
    while rounds.len() < left {
        let Some(last) = rounds.last().copied() else { break };
        let heat = last.out + around.before;
        let jars = waiting.min(batch.capacity);
        waiting -= jars;
        let done = heat + process;
        rounds.push(Round { number: last.number + 1, jars, running: false, heat, done, out: done + around.after });
    }
    Some(BatchDay {
        number: batch.number,
        canner: batch.canner,
        rounds,
        of: before + left,
        learnt: around.learnt,
        around: around.steps,
    })
}

fn waiting(batch: &Batch) -> u32 {
    match batch.filled {
        0 => batch.jars(),
        _ => batch.waiting(),
    }
}

/// The round that is in the canner, or that goes in next.
fn first(
    batch: &Batch,
    around: &Around,
    process: TimeDelta,
    canner_free: Option<DateTime<Utc>>,
    now: DateTime<Utc>,
) -> Round {
    let round = |running, heat: DateTime<Utc>, done: DateTime<Utc>, out: DateTime<Utc>| Round {
        number: batch.outs.len() + 1,
        jars: batch.in_round(),
        running,
        heat,
        done,
        out: out.max(now),
    };
    if let Some(heat) = batch.heat {
        let done = heat.since + process;
        return round(true, heat.since, done, done.max(now) + around.after);
    }
    if let Some(off) = batch.heat_off {
        let heat = batch.heated.unwrap_or(off);
        return round(true, heat, off, batch.ends_at(now).unwrap_or(off + around.after));
    }
    let heat = match (batch.venting, canner_free) {
        (Some(venting), _) => {
            let pressurise = durations::round(batch.canner, batch.jar, process, "");
            let pressurise = pressurise.iter().find(|step| step.part == Part::Pressurise).map(|step| step.time);
            (venting + facts::PRESSURE_VENT.value + pressurise.unwrap_or_default()).max(now)
        }
        (None, free) => {
            let ready = jars_ready(batch, now);
            let loaded = free.map_or(ready, |free| free.max(ready));
            (loaded + around.before).max(now)
        }
    };
    round(false, heat, heat + process, heat + process + around.after)
}

/// When the jars of the next round are there to be loaded.
fn jars_ready(batch: &Batch, now: DateTime<Utc>) -> DateTime<Utc> {
    if let Some(out) = batch.turns.last().map(|turn| turn.out) {
        return out;
    }
    if let Some(filled) = batch.filled_at {
        return filled;
    }
    let cooked = if batch.cooked.is_some() || batch.cooked_volume.is_some() {
        now
    } else {
        (batch.began + durations::cook_down(&batch.product).time).max(now)
    };
    cooked + durations::fill(batch.in_round()).time
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::batch::{Step, Timing};
    use crate::vocabulary::{Jar, Product};
    use anyhow::anyhow;

    fn at(minute: i64) -> DateTime<Utc> {
        DateTime::UNIX_EPOCH + TimeDelta::seconds(1_786_000_000 + 60 * minute)
    }

    fn batch(number: u32, canner: CannerKind, jars: u32, steps: &[(i64, Step)]) -> anyhow::Result<Batch> {
        let timing = Timing { minutes: Some(45), ..Timing::default() };
        let name = format!("batch {number}");
        let mut batch = Batch::begin(number, &name, Product::THICK_SAUCE, Jar::Quart, canner, 7, timing, at(0));
        batch.planned = Some(jars);
        for (minute, step) in steps {
            batch.take(step, at(*minute)).map_err(|misfit| anyhow!("{step:?}: {misfit:?}"))?;
        }
        Ok(batch)
    }

    fn outs(state: &State, now: i64) -> Vec<Vec<i64>> {
        let minutes = |at_: DateTime<Utc>| (at_ - at(0)).num_minutes();
        let batches = day(state, at(now)).batches;
        batches.iter().map(|batch| batch.rounds.iter().map(|round| minutes(round.out)).collect()).collect()
    }

    const FILLED: Step = Step::Filled { jars: None };
    const OUT: Step = Step::Lifted { jars: None };

    /// Steam: 5 min to load, 16 to come up, 45 of process, 5 of rest, 5 to lift.
    #[test]
    fn rounds_follow_one_another() -> anyhow::Result<()> {
        let mut state = State::default();
        state.batches = vec![batch(1, CannerKind::Steam, 16, &[(0, FILLED)])?];
        assert_eq!(outs(&state, 0), [[76, 152, 228]]);
        state.batches = vec![batch(1, CannerKind::Steam, 16, &[(0, FILLED), (30, Step::AtHeat)])?];
        assert_eq!(outs(&state, 40), [[85, 161, 237]]);
        // Minutes that were up a while ago: the jars can't be out in the past.
        assert_eq!(outs(&state, 90)[0][0], 100);
        Ok(())
    }

    #[test]
    fn an_own_round_says_what_the_next_takes() -> anyhow::Result<()> {
        let steps = [(0, FILLED), (30, Step::AtHeat), (75, Step::HeatOff), (95, OUT)];
        let mut state = State::default();
        state.batches = vec![batch(1, CannerKind::Steam, 14, &steps)?];
        // 20 min after the minutes were up; the 30 before the first round's heat may have been waiting, so 5 to load
        // and 16 to come up.
        assert_eq!(outs(&state, 95), [[95 + 21 + 45 + 20]]);
        assert!(day(&state, at(95)).batches[0].learnt);
        let more = [(95 + 25, Step::AtHeat), (95 + 70, Step::HeatOff), (95 + 90, OUT)];
        let steps: Vec<_> = steps.iter().chain(&more).copied().collect();
        state.batches = vec![batch(1, CannerKind::Steam, 21, &steps)?];
        assert_eq!(outs(&state, 185), [[185 + 25 + 45 + 20]], "the second round says what the third takes");
        Ok(())
    }

    #[test]
    fn batches_in_one_canner_wait_and_in_two_do_not() -> anyhow::Result<()> {
        let first = || batch(1, CannerKind::Steam, 7, &[(0, FILLED), (20, Step::AtHeat)]);
        let second = |canner| batch(2, canner, 7, &[(10, FILLED)]);
        let mut state = State::default();
        state.batches = vec![first()?, second(CannerKind::Steam)?];
        assert_eq!(outs(&state, 30), [[75], [75 + 76]]);
        state.batches = vec![first()?, second(CannerKind::BoilingWater)?];
        assert_eq!(outs(&state, 30), [[75], [10 + 80]]);
        let mut aside = first()?;
        aside.take(&Step::Stopped, at(25)).map_err(|misfit| anyhow!("{misfit:?}"))?;
        state.batches = vec![aside, second(CannerKind::Steam)?];
        assert_eq!(outs(&state, 30), [[10 + 76]], "what is set aside leaves its canner free");
        Ok(())
    }
}
