//! The plan for the day in words.

use super::{Facts, Reply, Scene, Words};
use crate::batch::{Batch, Stage};
use crate::planning::durations::{Basis, Part};
use crate::planning::{self, BatchDay};
use crate::vocabulary::CannerKind;
use chrono::{DateTime, Utc};

/// Every open batch: its rounds with their expected times, and when the last jars of all are out.
pub(super) fn day(scene: Scene<'_>) -> Reply {
    let (state, words, now) = (scene.state, Words::of(&scene.state.settings), scene.now);
    let plan = planning::day(state, now);
    let mut facts = Facts::default();
    let mut lines = Vec::new();
    for planned in &plan.batches {
        if let Some(batch) = state.open_batches().find(|batch| batch.number == planned.number) {
            lines.push(rounds(words, batch, planned, now));
        }
    }
    let others = state.open_batches().filter(|batch| plan.of(batch.number).is_none());
    lines.extend(others.map(|batch| other(scene, batch)));
    if let Some(latest) = state.open_batches().next_back() {
        facts.timing(&latest.timing).stage(latest, state, now);
    }
    facts.set("rounds", plan.batches.iter().map(|batch| batch.rounds.len()).sum::<usize>());
    if let Some(ends) = plan.ends() {
        facts.time("day_ends_at", ends, state);
        lines.push(format!("The last jars are out about {}. {}", words.moment(ends, now), basis(&plan.batches)));
    }
    Reply { text: lines.join("\n"), facts }
}

fn rounds(words: Words, batch: &Batch, planned: &BatchDay, now: DateTime<Utc>) -> String {
    let about = |at| words.moment(at, now);
    let mut parts = Vec::new();
    for round in &planned.rounds {
        let which = if planned.of > 1 { format!("round {} of {}", round.number, planned.of) } else { String::new() };
        let jars = words.jars(round.jars, batch.jar);
        let stage = batch.stage(now);
        let when = match (round.running, stage) {
            (true, Stage::Processing) => {
                format!("on the clock until {}, out about {}", about(round.done), about(round.out))
            }
            (true, Stage::Done) => format!("minutes up at {}, out about {}", about(round.done), about(round.out)),
            (true, stage) => format!("{stage}, out about {}", about(round.out)),
            (false, _) => format!("at heat about {}, out about {}", about(round.heat), about(round.out)),
        };
        let which = if which.is_empty() { which } else { format!("{which}, ") };
        parts.push(format!("{which}{jars}: {when}"));
    }
    format!("'{}' ({}), {}.", batch.name, batch.canner.spoken(), parts.join("; "))
}

/// A batch that is not in the plan: set aside, out and cooling, or without a time.
fn other(scene: Scene<'_>, batch: &Batch) -> String {
    let words = Words::of(&scene.state.settings);
    if let Some(since) = batch.stopped {
        return format!("'{}' was set aside at {}.", batch.name, words.moment(since, scene.now));
    }
    super::answers::clock_line(scene, batch)
}

/// Whose word the times around the process are.
fn basis(batches: &[BatchDay]) -> String {
    if !batches.is_empty() && batches.iter().all(|batch| batch.learnt && batch.around.is_empty()) {
        return "(As your earlier rounds went.)".to_owned();
    }
    let steps = || batches.iter().flat_map(|batch| batch.around.iter().map(|step| (batch.canner, step)));
    let of = |meant: fn(&Basis) -> bool| {
        let mut named: Vec<&str> = Vec::new();
        for (canner, step) in steps().filter(|(_, step)| meant(&step.basis)) {
            let part = spoken(step.part, canner);
            if !named.contains(&part) {
                named.push(part);
            }
        }
        named.join(", ")
    };
    let told = [
        (of(|basis| matches!(basis, Basis::Published(_))), "as published"),
        (of(|basis| matches!(basis, Basis::FromMemory(_))), "from memory of the guide"),
        (of(|basis| *basis == Basis::CommonPractice), "by common practice"),
    ];
    let own =
        if batches.iter().any(|batch| batch.learnt) { "As your earlier rounds went; estimates" } else { "Estimates" };
    let parts: Vec<_> =
        told.iter().filter(|(parts, _)| !parts.is_empty()).map(|(parts, whose)| format!("{parts} {whose}")).collect();
    format!("({own}: {}.)", parts.join("; "))
}

const fn spoken(part: Part, canner: CannerKind) -> &'static str {
    match part {
        Part::Thaw => "thawing",
        Part::Drain => "draining",
        Part::CookDown => "cooking",
        Part::HeatCanner => "heating the canner",
        Part::Fill => "filling",
        Part::LoadCanner => "loading",
        Part::ComeUp => match canner {
            CannerKind::Steam => "steam coming up",
            CannerKind::BoilingWater => "water coming to the boil",
            CannerKind::PressureDial | CannerKind::PressureWeighted | CannerKind::Pressure => {
                "steam coming to the vent"
            }
        },
        Part::Vent => "venting",
        Part::Pressurise => "coming to pressure",
        Part::Process => "the process",
        Part::Depressurise => "pressure coming down",
        Part::Rest => "rest",
        Part::Unload => "lifting",
    }
}

/// When the last round of a batch will be out, in a sentence, with its fact; nothing where no time is known.
pub(super) fn last_round(scene: Scene<'_>, batch: &Batch, facts: &mut Facts) -> String {
    let words = Words::of(&scene.state.settings);
    let plan = planning::day(scene.state, scene.now);
    let Some(planned) = plan.of(batch.number) else { return String::new() };
    let Some(ends) = planned.ends() else { return String::new() };
    facts.time("day_ends_at", ends, scene.state);
    let what = if planned.of > 1 { "The last round" } else { "The jars" };
    let are = if planned.of > 1 { "is" } else { "are" };
    let cooking = if batch.filled == 0 { ", cooking and filling reckoned by common practice" } else { "" };
    format!(" {what} {are} out about {} if all goes well{cooking}.", words.moment(ends, scene.now))
}
