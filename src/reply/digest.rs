//! What next: stock, what is due, and the one thing worth doing. The same for the question and for the weekly digest.

use super::ahead::picking_said;
use super::garden::{bag_list, closeness};
use super::{Facts, Reply, Scene, Words};
use crate::alert::{Alert, deadlines};
use crate::planning::next_step::{NextStep, next_step};
use crate::planning::ripening::{WORTH_SAYING, ripe_by, ripening};
use crate::planning::{load_state, target};
use crate::processes::facts::UNSEALED_KEEPS_AT_MOST;
use crate::processes::facts::{BEST_WITHIN_MONTHS, FROZEN_BEST_MONTHS_HIGH, FROZEN_BEST_MONTHS_LOW};
use crate::vocabulary::Crop;
use chrono::{TimeDelta, Utc};

/// So far ahead it is said what is due, and so many things of it.
const AHEAD: TimeDelta = TimeDelta::days(7);
const SHOWN: usize = 4;

/// What next: an open batch where there is one, else the one thing worth doing.
pub(super) fn next(scene: Scene<'_>) -> Reply {
    let (state, words) = (scene.state, Words::of(&scene.state.settings));
    let mut facts = Facts::default();
    let batch = state.open_batches().next_back();
    let step = if batch.is_some() { NextStep::Nothing } else { next_step(state, scene.now) };
    let first = batch.map_or_else(|| step_said(scene, &step), |batch| super::answers::clock_line(scene, batch));
    let mut lines = vec![first];
    if let Some(load) = target(state, None, None).map(|target| load_state(state, target)) {
        facts.load(&load);
        let is_said = matches!(step, NextStep::Can(_) | NextStep::OneMoreBag(_));
        // A load that is there or thaws is what a day was set for: no other bags are named beside its own.
        let is_set = matches!(step, NextStep::Planned(_) | NextStep::Missed(_) | NextStep::Thawed { .. });
        if !(is_said || is_set && (load.is_ready() || !state.all_thawing().is_zero())) {
            lines.push(closeness(scene, &load));
        }
    }
    facts.counter(state, Crop::Tomato).pantry(state);
    let due = due_said(scene);
    if !due.is_empty() {
        lines.push(format!("Coming up: {}.", due.join("; ")));
    }
    lines.insert(1, stock(scene, words));
    Reply { text: lines.join("\n"), facts }
}

/// The weekly digest.
pub(super) fn weekly(scene: Scene<'_>) -> Reply {
    let mut reply = next(scene);
    reply.text.insert_str(0, "This week: ");
    reply
}

fn stock(scene: Scene<'_>, words: Words) -> String {
    let state = scene.state;
    let today = state.settings.zone.day(scene.now);
    let ripe = ripe_by(state, Crop::Tomato, today);
    let ripe = if ripe.is_zero() { String::new() } else { format!(", {} of it ripe", words.mass(ripe)) };
    let thawing = state.all_thawing();
    let thawing = if thawing.is_zero() { String::new() } else { format!("; {} thawing", words.mass(thawing)) };
    format!(
        "Freezer {}{thawing}; counter {}{ripe}; pantry {} jars.",
        super::garden::freezer_holds(scene, Crop::Tomato),
        words.mass(state.on_counter(Crop::Tomato)),
        state.pantry.jars(None, None),
    )
}

/// What falls due within a week, in order: only what is still to come.
fn due_said(scene: Scene<'_>) -> Vec<String> {
    let (state, words, now) = (scene.state, Words::of(&scene.state.settings), scene.now);
    let today = state.settings.zone.day(now);
    let mut said: Vec<String> = Vec::new();
    let mut push = |line: String| {
        if !said.contains(&line) {
            said.push(line);
        }
    };
    for due in deadlines(state).into_iter().filter(|due| due.at > now && due.at <= now + AHEAD) {
        match &due.alert {
            Alert::Planned(step) => {
                push(format!("canning {} on {}", words.product(&step.0.product), words.day(step.0.day)));
            }
            Alert::Timer(label) => {
                let label = label.as_deref().unwrap_or("timer");
                push(format!("'{label}' at {}", words.moment(due.at, now)));
            }
            Alert::Fridge(lot) => push(format!("use {}", words.jars_of(lot.jars, lot.jar, &lot.product))),
            Alert::UseFirst(_) => push("some stock to use first".to_owned()),
            Alert::Batch(..) | Alert::FridgeOver(_) | Alert::Ripe(_) | Alert::PastRipe(_) | Alert::Digest => {}
        }
    }
    for picking in ripening(state).into_iter().filter(|picking| picking.mass >= WORTH_SAYING) {
        if let Some(red) = picking.red_days().filter(|red| red.by > today && red.by <= today + AHEAD) {
            push(format!("{} red by {}", words.mass(picking.mass), words.day(red.by)));
        }
    }
    said.truncate(SHOWN);
    said
}

/// The one thing worth doing.
fn step_said(scene: Scene<'_>, step: &NextStep) -> String {
    let (words, now): (Words, chrono::DateTime<Utc>) = (Words::of(&scene.state.settings), scene.now);
    match step {
        NextStep::Planned(planned) => super::reminders::next_of(scene, &planned.0, &planned.1, &planned.2),
        NextStep::Missed(day) => super::reminders::missed(scene, day),
        NextStep::Thawed { mass, crop, since } => {
            let zone = scene.state.settings.zone;
            let days = (zone.day(now) - zone.day(*since)).num_days();
            let days = if days == 1 { "1 day".to_owned() } else { format!("{days} days") };
            format!(
                "Cook the {} of {} that came out of the freezer on {}, {days} ago: say 'starting {}' when you do.",
                words.mass(*mass),
                super::words::plural(*crop),
                words.day(scene.state.settings.zone.day(*since)),
                words.product(&scene.state.settings.product)
            )
        }
        NextStep::PastRipe(pickings) => {
            let all: Vec<_> = pickings.iter().map(|picking| picking_said(words, picking)).collect();
            format!("Look at what is past ripe: {}. Freeze it, eat it, or say 'tossed' it.", all.join("; "))
        }
        NextStep::Fridge(lot) if lot.on + UNSEALED_KEEPS_AT_MOST.value <= scene.state.settings.zone.day(scene.now) => {
            super::safety::fridge_over(words, lot)
        }
        NextStep::Fridge(lot) => format!(
            "Use or freeze {}, in the refrigerator since {}.",
            words.jars_of(lot.jars, lot.jar, &lot.product),
            words.day(lot.on)
        ),
        NextStep::Can(load) => format!(
            "There is a load of {}: set a day, as 'canning on Saturday', or thaw {} = {} and, when they are thawed, \
             say 'starting {}'.",
            words.product(&load.target.product),
            bag_list(scene, &load.chosen),
            words.mass(load.chosen_mass()),
            words.product(&load.target.product)
        ),
        NextStep::Buy(needs) => {
            let needs: Vec<_> = needs
                .iter()
                .map(|need| {
                    let (left, needed) = (words.stocked(need.key, need.left), words.stocked(need.key, need.needed));
                    format!("{left} left, a load takes {needed}")
                })
                .collect();
            format!("Buy before you can: {}.", needs.join("; "))
        }
        NextStep::Freeze { ripe, load } => {
            let bigger = load.as_ref().map(|load| {
                let there = words.mass(load.freezer + *ripe);
                format!(
                    "; that makes {there} of {} for {}",
                    words.mass(load.target.mass),
                    words.product(&load.target.product)
                )
            });
            format!(
                "Freeze or eat the {} that is ripe on the counter{}.",
                words.mass(*ripe),
                bigger.unwrap_or_default()
            )
        }
        NextStep::UseFirst { jars, bags } => {
            let jars_left: u32 = jars.iter().map(|lot| lot.jars).sum();
            let oldest = jars.first().map(|lot| lot.on).into_iter().chain(bags.first().map(|bag| bag.on)).min();
            let oldest = oldest.map(|day| words.date(day)).unwrap_or_default();
            let what = match (jars_left, bags.len() as u32) {
                (0, bags) => words.bags(bags),
                (jars, 0) => format!("{jars} jars"),
                (jars, bags) => format!("{jars} jars and {}", words.bags(bags)),
            };
            let (low, high) = (FROZEN_BEST_MONTHS_LOW.value, FROZEN_BEST_MONTHS_HIGH.value);
            let why = match (jars_left, bags.is_empty()) {
                (0, _) => format!("frozen fruit is best within {low} to {high} months"),
                (_, true) => format!("jars are best within {} months", BEST_WITHIN_MONTHS.value),
                _ => format!(
                    "jars are best within {} months, frozen fruit within {low} to {high}",
                    BEST_WITHIN_MONTHS.value
                ),
            };
            format!("Use first: {what}, the oldest of {oldest}; {why}.")
        }
        NextStep::OneMoreBag(load) => closeness(scene, load),
        NextStep::Nothing => "Nothing is waiting; no batch is open.".to_owned(),
    }
}
