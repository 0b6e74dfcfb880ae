//! Alerts: what fell due, and what came true.

use super::garden::bag_list;
use super::kitchen::supply_facts;
use super::{Facts, Reply, Scene, Words};
use crate::alert::{Alert, Due, Holding};
use crate::batch::{Batch, Clock};
use crate::planning::{self, LoadState, Need};
use crate::vocabulary::Jar;
use chrono::TimeDelta;

/// An alert that is told this much after it fell due says so.
const LATE: TimeDelta = TimeDelta::minutes(2);

/// The words for something that fell due.
pub fn due(scene: Scene<'_>, due: &Due) -> Reply {
    let words = Words::of(&scene.state.settings);
    let mut reply = match &due.alert {
        Alert::Batch(clock, batch) => batch_clock(scene, *clock, batch),
        Alert::Timer(label) => {
            let mut facts = Facts::default();
            if let Some(label) = label {
                facts.set("label", label.clone());
            }
            let what = label.as_ref().map(|label| format!(" '{label}'")).unwrap_or_default();
            Reply { text: format!("Timer{what}: time's up."), facts }
        }
        Alert::Fridge(lot) => {
            let mut facts = Facts::default();
            facts.jars(lot.jars, lot.jar).set("fridge_jars", scene.state.fridge.jars(None, None));
            let text = format!(
                "{} did not seal and went into the refrigerator on {}: use it now, or freeze it.",
                words.jars_of(lot.jars, lot.jar, &lot.product),
                words.day(lot.on)
            );
            Reply { text, facts }
        }
        Alert::FridgeOver(lot) => {
            let mut facts = Facts::default();
            facts.jars(lot.jars, lot.jar).set("fridge_jars", scene.state.fridge.jars(None, None));
            Reply { text: super::safety::fridge_over(words, lot), facts }
        }
        Alert::Ripe(pickings) => super::ahead::ripe(scene, pickings),
        Alert::PastRipe(pickings) => super::ahead::past_ripe(scene, pickings),
        Alert::UseFirst(group) => super::ahead::use_first(scene, group),
        Alert::Planned(step) => super::reminders::step_has_come(scene, &step.0, &step.1, &step.2),
        Alert::Digest => super::digest::weekly(scene),
    };
    reply.facts.time("due_at", due.at, scene.state);
    if due.urgent() && scene.now - due.at >= LATE {
        reply.text.push_str(&format!(
            " (This was due at {}; I am {} late.)",
            words.moment(due.at, scene.now),
            words.stretch(scene.now - due.at)
        ));
    }
    reply
}

fn batch_clock(scene: Scene<'_>, clock: Clock, batch: &Batch) -> Reply {
    let (state, words, name) = (scene.state, Words::of(&scene.state.settings), &batch.name);
    let mut facts = Facts::default();
    let jars = match clock {
        Clock::HeatCheck | Clock::ProcessDone | Clock::RestDone | Clock::StillIn => batch.in_round(),
        Clock::StandNear | Clock::StandOver => batch.waiting().max(batch.waiting_again()),
        Clock::SealCheck | Clock::ReprocessDeadline => batch.undecided().max(batch.reprocessing()),
    };
    facts.stage(batch, state, scene.now).jars(jars, batch.jar);
    let text = match clock {
        Clock::HeatCheck => {
            facts.timing(&batch.timing);
            let psi = batch.timing.pressure.map(|psi| format!(" {} psi", super::words::plain(psi.as_psi(), 1)));
            format!("'{name}' is half-way: look at the gauge, it must not fall below{}.", psi.unwrap_or_default())
        }
        Clock::ProcessDone => {
            facts.timing(&batch.timing);
            let minutes = batch.timing.minutes.unwrap_or(0);
            let asked = batch.doubt.map(|_| format!(" {}", super::mishaps::question(scene, batch))).unwrap_or_default();
            format!("'{name}': {minutes} minutes are up. Turn the heat off, and say 'heat's off'.{asked}")
        }
        Clock::StillIn => super::mishaps::still_in(batch),
        Clock::StandNear => super::mishaps::stands(scene, batch),
        Clock::StandOver => {
            super::mishaps::stood(scene, batch, batch.standing().map_or(scene.now, |standing| standing.until()))
        }
        Clock::SealCheck if batch.doubt.is_some() => {
            format!("'{name}': {} cooled. {}", have(words, jars, batch.jar), super::mishaps::question(scene, batch))
        }
        Clock::SealCheck if batch.siphoned > 0 => format!(
            "'{name}': {} cooled; {} Next: {}.",
            have(words, jars, batch.jar),
            super::seals::siphon_note(batch).unwrap_or_default(),
            super::canning::next_step(words, batch, crate::batch::Stage::Checking, scene.now)
        ),
        Clock::RestDone => format!("'{name}': rested. Lift the jars, set them on a towel, and say 'jars are out'."),
        // Those that went through again, though others that did not seal are undecided.
        Clock::SealCheck if batch.out_again() > 0 && batch.undecided() <= batch.unsealed_open() => {
            let again = batch.out_again();
            format!("'{name}': {} cooled. Next: {}.", have(words, again, batch.jar), super::canning::press_again(batch))
        }
        Clock::SealCheck => format!(
            "'{name}': {} cooled. Next: {}.",
            have(words, jars, batch.jar),
            super::canning::next_step(words, batch, crate::batch::Stage::Checking, scene.now)
        ),
        Clock::ReprocessDeadline => {
            let until = batch.reprocess_until().unwrap_or(scene.now);
            format!(
                "'{name}': {} did not seal, and the 24 hours end at {}. \
                 Reprocess with a new lid, refrigerate, or freeze.",
                words.jars(batch.unsealed_open(), batch.jar),
                words.moment(until, scene.now)
            )
        }
    };
    Reply { text, facts }
}

/// The words for a condition that came true.
pub fn holding(scene: Scene<'_>, holding: &Holding) -> Reply {
    match holding {
        Holding::LoadNear(load) => load_near(scene, load),
        Holding::LoadReady(load) => load_ready(scene, load),
        Holding::Low(need) => low(scene, need),
        Holding::Short(what, needs) => supplies_short(scene, needs, what),
    }
}

fn load_near(scene: Scene<'_>, load: &LoadState) -> Reply {
    let words = Words::of(&scene.state.settings);
    let mut facts = Facts::default();
    facts.load(load);
    let mut text = format!(
        "One more bag makes a load of {}: {} of {}, {} to go.",
        words.product(&load.target.product),
        words.mass(load.freezer),
        words.mass(load.target.mass),
        words.mass(load.short)
    );
    // In time to go shopping before the last bag is frozen.
    let target = &load.target;
    let short = planning::short_for(scene.state, &target.product, target.jar, target.jars, None);
    if let Some(first) = short.first() {
        supply_facts(&mut facts, first.key, first.left);
        text.push_str(&format!(" Short for it: {}.", shortage(words, &short)));
    }
    Reply { text, facts }
}

fn load_ready(scene: Scene<'_>, load: &LoadState) -> Reply {
    let words = Words::of(&scene.state.settings);
    let mut facts = Facts::default();
    facts.load(load);
    let text = format!(
        "The freezer holds a full load of {}: {} ({} makes {}). Thaw {} = {}.",
        words.product(&load.target.product),
        words.mass(load.freezer),
        words.mass(load.target.mass),
        words.jars(load.target.jars, load.target.jar),
        bag_list(scene, &load.chosen),
        words.mass(load.chosen_mass())
    );
    Reply { text, facts }
}

fn low(scene: Scene<'_>, need: &Need) -> Reply {
    let words = Words::of(&scene.state.settings);
    let mut facts = Facts::default();
    supply_facts(&mut facts, need.key, need.left);
    Reply { text: format!("Running low: {} left.", words.stocked(need.key, need.left)), facts }
}

/// What a batch or a load will be short of.
fn supplies_short(scene: Scene<'_>, needs: &[Need], what: &str) -> Reply {
    let words = Words::of(&scene.state.settings);
    let mut facts = Facts::default();
    if let Some(first) = needs.first() {
        supply_facts(&mut facts, first.key, first.left);
    }
    let short = shortage(words, needs);
    Reply { text: format!("Short for {what}: {short}."), facts }
}

/// `12 lids, it takes 16: get 4 lids more; …`.
fn shortage(words: Words, needs: &[Need]) -> String {
    let line = |need: &Need| {
        format!(
            "{}, it takes {}: get {} more",
            words.stocked(need.key, need.left),
            words.stocked(need.key, need.needed),
            words.stocked(need.key, need.missing())
        )
    };
    needs.iter().map(line).collect::<Vec<_>>().join("; ")
}

/// `7 quarts have`, `1 quart has`.
fn have(words: Words, jars: u32, jar: Jar) -> String {
    format!("{} {}", words.jars(jars, jar), if jars == 1 { "has" } else { "have" })
}
