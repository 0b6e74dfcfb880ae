//! Replies to the fates of jars: sealed, not sealed, through again, broken, frozen.

use super::canning::{process, title};
use super::{Facts, Reply, Scene, Words};
use crate::batch::{Batch, Fate};
use crate::ledger::Effect;
use crate::processes::facts as figures;
use crate::vocabulary::{CannerKind, Stock};
use chrono::{DateTime, Utc};

/// What became of a batch's jars, in the order in which it is asked: `6 sealed and shelved, 1 in the refrigerator`.
pub(super) fn fates(batch: &Batch) -> String {
    let fates = batch.fates;
    let told = [
        (fates.sealed(), "sealed and shelved"),
        (fates.held, "sealed, but held: not acidified as far as I know"),
        (fates.of(Fate::Refrigerated), "in the refrigerator"),
        (fates.of(Fate::Frozen), "in the freezer"),
        (fates.of(Fate::Eaten), "eaten at once"),
        (fates.of(Fate::Given), "given away"),
        (fates.of(Fate::Tossed), "thrown away"),
        (fates.of(Fate::Broken), "broken"),
        (batch.reprocessing().saturating_sub(fates.open_again), "going through again"),
        (fates.open + fates.open_again, "not sealed"),
    ];
    let parts: Vec<_> =
        told.iter().filter(|(jars, _)| *jars > 0).map(|(jars, fate)| format!("{jars} {fate}")).collect();
    if parts.is_empty() { "nothing known of the jars yet".to_owned() } else { parts.join(", ") }
}

/// Jars that lost liquid, and what to do with them. The rule is the National Center for Home Food Preservation's
/// (self-study course, General canning, post-processing checks; as the University of Nebraska extension quotes it); the
/// reference tables print none.
pub(super) fn siphon_note(batch: &Batch) -> Option<String> {
    let lost = match batch.siphoned {
        0 => return None,
        1 => "1 lost liquid: if it sealed, don't open it to top it up, and use it first".to_owned(),
        jars => format!("{jars} lost liquid: those that sealed, don't open to top them up, and use them first"),
    };
    Some(format!(
        "{lost}; one that lost more than half goes into the refrigerator, to be used within 2 to 3 days \
         (National Center for Home Food Preservation)."
    ))
}

fn figures_of(scene: Scene<'_>, batch: &Batch) -> Facts {
    let mut facts = Facts::default();
    facts.jars(batch.fates.sealed(), batch.jar).pantry(scene.state);
    facts.set("fridge_jars", scene.state.fridge.jars(None, None));
    facts
}

pub(super) fn seals(scene: Scene<'_>, batch: &Batch) -> Reply {
    let mut facts = figures_of(scene, batch);
    let mut text = format!("{}: {}.", title(batch), fates(batch));
    let untold = !batch.is_acidified() && batch.fates.held + batch.fates.open > 0;
    if untold {
        facts.set("acidified", false).set("held", batch.fates.held);
        text.push_str(&super::acid::held(scene, batch));
    }
    // Without acid a jar that did not seal has not even the 24 hours.
    if batch.fates.open > 0
        && !untold
        && let Some(until) = batch.reprocess_until()
    {
        facts.due(until, scene.state);
        text.push_str(&what_to_do(scene, batch, until));
    }
    if batch.fates.open_again > 0 {
        let which = if batch.fates.open > 0 { "What went through twice" } else { "It went through twice" };
        let late = batch.again_out.is_some_and(|out| scene.now > out + figures::REPROCESS_WITHIN.value);
        let then = if late { LATE } else { "refrigerate it and use it within several days, or freeze it" };
        text.push_str(&format!(" {which}: {then}."));
    }
    // Pinging lids are good news, and no more than that.
    let out = batch.again_out.or(batch.outs.last().map(|(out, _)| *out));
    let cooled = out.is_none_or(|out| scene.now >= out + figures::SEAL_CHECK_FROM.value);
    if !cooled && batch.fates.sealed() > 0 {
        text.push_str(" That is early to tell: look at them again when they have cooled for 12 hours.");
    }
    let unknown = batch.undecided().saturating_sub(batch.fates.open + batch.fates.held);
    if unknown > 0 {
        text.push_str(&format!(" And the other {unknown}?"));
    }
    if batch.waiting() > 0 {
        let next =
            super::canning::next_step(Words::of(&scene.state.settings), batch, batch.stage(scene.now), scene.now);
        text.push_str(&format!(" {} have not been through the canner. Next: {next}.", batch.waiting()));
    }
    text.push_str(&super::canner::to_fill(batch));
    if batch.fates.of(Fate::Refrigerated) > 0 {
        text.push_str(" Use what is in the refrigerator within several days.");
    }
    if batch.siphoned > 0 && batch.fates.sealed() > 0 && !batch.is_open() {
        text.push_str(&format!(" {} of them lost liquid: use those first.", batch.siphoned));
    }
    if !batch.is_open() && batch.fates.sealed() > 0 {
        text.push_str(&shelved(scene, batch, &mut facts));
    }
    Reply { text, facts }
}

/// What stood unsealed for longer than the published 24 hours (North Carolina State University, food safety answers,
/// 2004: if more than 24 hours have passed, discard the food; Kansas State extension: refrigerate or freeze what is
/// discovered within 24 hours).
pub(super) const LATE: &str =
    "throw it away untasted, unless it has stood in the refrigerator; then use it within several days, or freeze it";

fn what_to_do(scene: Scene<'_>, batch: &Batch, until: DateTime<Utc>) -> String {
    let words = Words::of(&scene.state.settings);
    if until > scene.now {
        format!(
            " Reprocess by {}{} with a new lid and the full time, or refrigerate and use it within several days, \
             or freeze it.",
            words.moment(until, scene.now),
            // Nobody said which round it was in.
            if batch.outs.len() > batch.settled + 1 {
                " (24 hours after the first round it may have been in)"
            } else {
                ""
            }
        )
    } else {
        format!(" The 24 hours for reprocessing are over: {LATE}.")
    }
}

/// What stands on the shelf of it now, and how long it is at its best.
fn shelved(scene: Scene<'_>, batch: &Batch, facts: &mut Facts) -> String {
    let (state, words) = (scene.state, Words::of(&scene.state.settings));
    let there = state.pantry.jars(Some(&batch.product), Some(batch.jar));
    let mut text = format!(" Pantry {}.", words.jars_of(there, batch.jar, &batch.product));
    if let Some(lot) = state.pantry.lots().iter().rfind(|lot| lot.batch == Some(batch.number)) {
        text.push_str(&format!(" Label them 'batch {}, {}'", batch.number, words.date(lot.on)));
        if let Some(best) = lot.best_by() {
            facts.set("best_by", best.to_string());
            text.push_str(&format!("; best within a year, by {}", words.month(best)));
        }
        text.push('.');
    }
    text
}

pub(super) fn reprocessed(scene: Scene<'_>, batch: &Batch) -> Reply {
    let words = Words::of(&scene.state.settings);
    let mut facts = figures_of(scene, batch);
    facts.timing(&batch.timing);
    let headspace =
        batch.timing.headspace.map(|room| format!(", headspace {}", words.headspace(room))).unwrap_or_default();
    let say = match batch.canner {
        CannerKind::Steam => "say 'steam's up'",
        CannerKind::BoilingWater => "say 'rolling boil'",
        CannerKind::PressureDial | CannerKind::PressureWeighted | CannerKind::Pressure => {
            "vent for 10 minutes, and say so at pressure"
        }
    };
    let text = format!(
        "{}: {}. A new lid, a clean rim{headspace}, and the full {}: {say} when the clock is to start.{}",
        title(batch),
        fates(batch),
        process(scene, batch),
        super::acid::again(scene, batch)
    );
    Reply { text, facts }
}

pub(super) fn broke(scene: Scene<'_>, batch: &Batch, effect: &Effect) -> Reply {
    let words = Words::of(&scene.state.settings);
    let facts = figures_of(scene, batch);
    let jars = effect.jars.iter().map(|(_, _, jars)| jars).sum::<u32>();
    let broken = words.jars(jars, batch.jar);
    let text = match effect.from {
        Some(Stock::Pantry) => format!("{}: {broken} broke on the shelf; {}.", title(batch), fates(batch)),
        _ if batch.heat.is_some() => format!(
            "{}: {broken} broke, {} left in the canner. Leave it shut and let the clock run; \
             look the others over when they are out. The lid counts as used.",
            title(batch),
            batch.in_round()
        ),
        _ if batch.heat_off.is_some() && batch.waiting() > 0 => format!(
            "{}: {broken} broke, {} left in the canner. Lift them when they have rested, and look them over for glass; \
             the lid counts as used.",
            title(batch),
            batch.in_round()
        ),
        _ if batch.waiting() > 0 => format!(
            "{}: {broken} broke, {} left to process. Take out the glass, \
             and look the other jars over before they go on; the lid counts as used.",
            title(batch),
            batch.waiting()
        ),
        _ => format!("{}: {broken} broke; {}. Look the jars beside it over for glass.", title(batch), fates(batch)),
    };
    Reply { text, facts }
}

pub(super) fn siphoned(scene: Scene<'_>, batch: &Batch) -> Reply {
    let note = siphon_note(batch).unwrap_or_default();
    let text = format!("{}: {note}", title(batch));
    Reply { text, facts: figures_of(scene, batch) }
}

/// Jars of a batch, or of the refrigerator, went into the freezer.
pub(super) fn froze(scene: Scene<'_>, batch: &Batch, effect: &Effect) -> Reply {
    let mut reply = seals(scene, batch);
    reply.text = format!("{} {}", into_freezer(scene, effect), reply.text);
    if let Some(headspace) = figures::freezing_headspace() {
        reply.facts.set("headspace_mm", super::round(headspace.as_millimetres()));
    }
    reply
}

/// Jars into the freezer, and the room that they need in it.
pub(super) fn into_freezer(scene: Scene<'_>, effect: &Effect) -> String {
    let words = Words::of(&scene.state.settings);
    let jars: Vec<_> = effect.jars.iter().map(|(product, jar, jars)| words.jars_of(*jars, *jar, product)).collect();
    let room = figures::freezing_headspace().map_or_else(String::new, |room| {
        format!(
            " Leave {} of headspace, or they may crack ({}).",
            words.headspace(room),
            figures::freezing_headspace_source()
        )
    });
    format!("Into the freezer: {}.{room}", jars.join(", "))
}
