//! Rows planted and days set for canning, in words.

use super::capitalised;
use super::garden::bag_list;
use super::words::plural;
use super::{Facts, Reply, Scene, Words};
use crate::ledger::Effect;
use crate::ledger::state::PlannedDay;
use crate::planning::canning_day::{DayPlan, NoPlan, PlannedStep, lay_out, plan_day, within_reach};
use crate::planning::durations::{Basis, Part, Takes};
use crate::planning::ripening::{Picking, Red, ripening};
use crate::quantity::Mass;
use crate::statement::Planted;
use crate::vocabulary::{Crop, Pack};
use serde_json::{Value, json};

/// Rows were planted.
pub(super) fn planted(scene: Scene<'_>, said: &Planted) -> Reply {
    let count = said.count.unwrap_or(0);
    let crop = said.crop.unwrap_or(Crop::Tomato);
    let variety = said.variety.as_ref().map(|variety| format!("{variety} ")).unwrap_or_default();
    let total: u32 =
        scene.state.planted.iter().filter(|planting| planting.crop == crop).map(|planting| planting.count).sum();
    let word = if count == 1 { crop.as_str().to_owned() } else { plural(crop) };
    let mut facts = Facts::default();
    facts.set("count", count);
    Reply { text: format!("Planted: {count} {variety}{word}; {total} in all."), facts }
}

/// A day was set: when each step begins, and what it takes from other days.
pub(super) fn planned(scene: Scene<'_>, effect: &Effect) -> Reply {
    let words = Words::of(&scene.state.settings);
    let Some(day) = &effect.planned else {
        return Reply {
            text: "Tell me the day, as 'canning on Saturday by 6 pm'.".to_owned(),
            facts: Facts::default(),
        };
    };
    let mut plan = None;
    let mut reply = match plan_day(scene.state, day, scene.now) {
        Ok(whole) => {
            let reply = day_plan(scene, &whole);
            plan = Some(whole);
            reply
        }
        Err(why) => {
            let mut reply = no_plan(scene, day, &why).1;
            reply.text = format!("Noted for {}. {}", words.day(day.day), reply.text);
            if let NoPlan::NotEnough { instead: Some(instead), .. } = why {
                let fewer = day_plan(scene, &instead);
                reply.text.push_str(&format!("\n{}", fewer.text));
                for name in ["bags_chosen", "chosen_g", "steps"] {
                    if let Some(value) = fewer.facts.0.get(name) {
                        reply.facts.set(name, value.clone());
                    }
                }
                plan = Some(*instead);
            }
            reply
        }
    };
    if let Some(before) = effect.moved_from {
        reply.text = format!("Moved from {}. {}", words.day(before), reply.text);
    }
    let same_canner = plan.as_ref().and_then(|plan| in_the_way(scene, day, plan));
    let quiet = plan.as_ref().and_then(|plan| held_by_quiet(scene, plan));
    for line in others_short(scene, day).into_iter().chain(same_canner).chain(quiet) {
        reply.text.push_str(&format!("\n{line}"));
    }
    reply
}

/// The days that are set and not over, each with its steps, in as many jars as there is fruit for.
pub(super) fn still_set(scene: Scene<'_>) -> Option<Reply> {
    let words = Words::of(&scene.state.settings);
    let to_come = |day: &&PlannedDay| scene.state.settings.zone.at(day.day, day.by) > scene.now;
    let said = |day: &PlannedDay| match (within_reach(scene.state, day), lay_out(scene.state, day)) {
        (Some(plan), _) | (None, Ok(plan)) => day_plan(scene, &plan),
        (None, Err(why)) => {
            let reply = no_plan(scene, day, &why).1;
            Reply { text: format!("Set for {}. {}", words.day(day.day), reply.text), ..reply }
        }
    };
    let days = scene.state.planned.iter().filter(to_come).map(said);
    days.reduce(|first, next| Reply { text: format!("{}\n{}", first.text, next.text), ..first })
}

/// Another day's jars in the same canner at the same hours.
fn in_the_way(scene: Scene<'_>, day: &PlannedDay, plan: &DayPlan) -> Option<String> {
    let words = Words::of(&scene.state.settings);
    let busy = |plan: &DayPlan| Some((plan.begins(Part::LoadCanner)?, plan.end));
    let (from, until) = busy(plan)?;
    scene.state.planned.iter().filter(|other| other.product != day.product).find_map(|other| {
        let (begins, ends) = busy(&within_reach(scene.state, other)?)?;
        (begins < until && from < ends).then(|| {
            format!(
                "The canner has {} in it from {} until {}: move one of them to another hour.",
                words.product(&other.product),
                words.clock(begins),
                words.moment(ends, scene.now)
            )
        })
    })
}

/// Steps whose reminders quiet hours would hold back.
fn held_by_quiet(scene: Scene<'_>, plan: &DayPlan) -> Option<String> {
    let settings = &scene.state.settings;
    let quiet = |step: &PlannedStep| settings.quiet_until(settings.zone.local(step.at).time());
    let told = [Part::Drain, Part::CookDown, Part::HeatCanner, Part::Fill];
    let until = plan.steps.iter().filter(|step| told.contains(&step.takes.part)).find_map(quiet)?;
    let until = Words::of(settings).hour(until);
    Some(format!("Reminders that fall into your quiet hours come when those end, at {until}."))
}

/// Days set for later that have too little fruit once this one has its own.
fn others_short(scene: Scene<'_>, day: &PlannedDay) -> Vec<String> {
    let words = Words::of(&scene.state.settings);
    let mut without = scene.state.clone();
    without.planned.retain(|other| other != day);
    let later = scene.state.planned.iter().filter(|other| *other != day && (other.day, other.by) > (day.day, day.by));
    let short = |other: &PlannedDay| match lay_out(scene.state, other) {
        Err(NoPlan::NotEnough { target, there, .. }) if lay_out(&without, other).is_ok() => Some(format!(
            "That leaves {} on {} {} short.",
            words.product(&other.product),
            words.day(other.day),
            words.mass(target.less(there))
        )),
        _ => None,
    };
    later.filter_map(short).collect()
}

/// A plan, line by line.
fn day_plan(scene: Scene<'_>, plan: &DayPlan) -> Reply {
    let words = Words::of(&scene.state.settings);
    let (target, now) = (&plan.target, scene.now);
    let rounds = if plan.rounds == 1 { "1 round".to_owned() } else { format!("{} rounds", plan.rounds) };
    let mut lines = vec![format!(
        "{}, {rounds}, {} of fruit; the last out by {}.",
        capitalised(&words.jars_of(target.jars, target.jar, &target.product)),
        words.mass(target.mass),
        words.moment(plan.end, now)
    )];
    for part in [Part::Thaw, Part::Drain, Part::CookDown, Part::HeatCanner, Part::Fill, Part::LoadCanner] {
        if let Some(step) = plan.steps.iter().find(|step| step.takes.part == part) {
            let at = if step.at < now { "Now".to_owned() } else { words.moment(step.at, now) };
            lines.push(format!("{at}: {}.", step_said(scene, plan, step)));
        }
    }
    if !plan.fresh.is_zero() {
        let ripe = if target.crop == Crop::Tomato { "ripe " } else { "" };
        lines.push(format!("{} of it comes {ripe}from the counter.", words.mass(plan.fresh)));
    }
    Reply { text: lines.join("\n"), facts: plan_facts(scene, plan) }
}

fn plan_facts(scene: Scene<'_>, plan: &DayPlan) -> Facts {
    let mut facts = Facts::default();
    facts.mass("target_g", plan.target.mass).jars(plan.target.jars, plan.target.jar).set("rounds", plan.rounds);
    facts.time("ends_at", plan.end, scene.state);
    if !plan.bags.is_empty() {
        facts.bags("bags_chosen", &plan.bags).mass("chosen_g", plan.bags.iter().map(|bag| bag.mass).sum());
    }
    if let Some(process) = plan.steps.iter().find(|step| step.takes.part == Part::Process) {
        facts.set("minutes", process.takes.time.num_minutes()).set("tested", true);
        if let Basis::Published(source) = process.takes.basis {
            facts.set("source", source);
        }
    }
    let steps = plan.steps.iter().map(|step| {
        json!({
            "part": part_name(step.takes.part),
            "at": super::iso(step.at, scene.state),
            "minutes": step.takes.time.num_seconds() as f64 / 60.0,
            "round": step.round,
            "basis": basis_name(step.takes.basis),
        })
    });
    facts.set("steps", steps.collect::<Vec<Value>>());
    facts
}

/// The name of a part in the facts.
pub(super) const fn part_name(part: Part) -> &'static str {
    match part {
        Part::Thaw => "thaw",
        Part::Drain => "drain",
        Part::CookDown => "cook-down",
        Part::HeatCanner => "heat-canner",
        Part::Fill => "fill",
        Part::LoadCanner => "load-canner",
        Part::ComeUp => "come-up",
        Part::Vent => "vent",
        Part::Pressurise => "pressurise",
        Part::Process => "process",
        Part::Depressurise => "depressurise",
        Part::Rest => "rest",
        Part::Unload => "unload",
    }
}

const fn basis_name(basis: Basis) -> &'static str {
    match basis {
        Basis::Published(_) => "published",
        Basis::FromMemory(_) => "from memory",
        Basis::CommonPractice => "common practice",
        Basis::Computed => "computed",
        Basis::Own => "your own",
    }
}

/// What to do, in a phrase.
pub(super) const fn part_said(part: Part) -> &'static str {
    match part {
        Part::Thaw => "move the bags to the refrigerator",
        Part::Drain => "drain the thawed fruit",
        Part::CookDown => "start cooking",
        Part::HeatCanner => "heat the canner and the jars",
        Part::Fill => "fill the jars",
        Part::LoadCanner => "load the canner",
        Part::ComeUp | Part::Vent | Part::Pressurise => "bring the canner to heat",
        Part::Process => "the process",
        Part::Depressurise | Part::Rest => "let the jars rest",
        Part::Unload => "lift the jars",
    }
}

/// How long, and on whose word: `3 h, common practice`.
fn takes_said(words: Words, takes: &Takes) -> String {
    // No page prints it, and it decides the day.
    let allow = match takes.part {
        Part::CookDown if takes.basis == Basis::CommonPractice => "; an estimate, allow longer",
        _ => "",
    };
    format!("{}, {}{allow}", words.stretch(takes.time), basis_name(takes.basis))
}

pub(super) fn step_said(scene: Scene<'_>, plan: &DayPlan, step: &PlannedStep) -> String {
    let words = Words::of(&scene.state.settings);
    let takes = takes_said(words, &step.takes);
    match step.takes.part {
        Part::Thaw => {
            format!("move {} from the freezer to the refrigerator ({takes} with a margin)", bag_list(scene, &plan.bags))
        }
        Part::Drain => format!("tip the thawed fruit into a colander ({takes})"),
        Part::CookDown => {
            format!("start cooking, and say 'starting {}' ({takes})", words.product(&plan.target.product))
        }
        Part::HeatCanner => format!("heat the canner and the jars ({takes})"),
        Part::Fill => format!("fill the jars ({takes})"),
        Part::LoadCanner => {
            let round: Vec<&PlannedStep> = plan.steps.iter().filter(|other| other.round == step.round).collect();
            let whole = round.iter().fold(chrono::TimeDelta::zero(), |sum, step| sum + step.takes.time);
            let process = round.iter().find(|step| step.takes.part == Part::Process);
            let minutes = process.map_or(0, |step| step.takes.time.num_minutes());
            let pack = match plan.pack {
                Some(Pack::Hot) => " for hot pack; raw pack is shorter",
                Some(Pack::Raw) => " for raw pack; hot pack is shorter",
                Some(Pack::Either) | None => "",
            };
            format!("jars into the canner; {} a round, {minutes} min of it the process{pack}", words.stretch(whole))
        }
        part => part_said(part).to_owned(),
    }
}

/// Why a day cannot be as said, with the problem's topic and what is possible.
pub fn no_plan(scene: Scene<'_>, day: &PlannedDay, why: &NoPlan) -> (&'static str, Reply) {
    let words = Words::of(&scene.state.settings);
    let product = words.product(&day.product);
    let mut facts = Facts::default();
    let (topic, text) = match why {
        NoPlan::Past => ("out-of-range", format!("{} is over; which day do you mean?", words.day(day.day))),
        NoPlan::NoWeight => (
            "not-tested",
            format!(
                "No load weight is published for {product}, so I can't say which bags; 'recipe' lets you tell me yours."
            ),
        ),
        NoPlan::NotEnough { target, there, jars, .. } => {
            facts.mass("target_g", *target).mass("short_g", target.less(*there)).set("jars", *jars);
            let instead = match jars {
                0 => String::new(),
                jars => format!(" It would do for {jars} jars."),
            };
            let (needed, there, short) = (words.mass(*target), words.mass(*there), words.mass(target.less(*there)));
            let untold = unsaid_ripeness(scene, day);
            ("not-enough", format!("{product} takes {needed}; there will be {there}, {short} short.{untold}{instead}"))
        }
        NoPlan::TooSoon { earliest, thaw, in_water } => {
            facts.time("due_at", *earliest, scene.state);
            let thaws = if thaw.is_zero() {
                "The work takes longer than that.".to_owned()
            } else {
                let water = in_water
                    .map(|bag| format!(" Cold water, two hours at most, thaws only bags of up to {}.", words.mass(bag)))
                    .unwrap_or_default();
                format!("The bags take {} in the refrigerator.{water}", words.stretch(*thaw))
            };
            let possible = words.moment(*earliest, scene.now);
            ("too-soon", format!("That is too soon. {thaws} It could be done by {possible}."))
        }
        NoPlan::Process(why) => {
            let (topic, reply) = super::refusal(scene, why);
            facts = reply.facts;
            (topic, reply.text)
        }
    };
    (topic, Reply { text: capitalised(&text), facts })
}

/// Fruit on the counter of which nobody said how ripe it is, and which no plan can count on.
fn unsaid_ripeness(scene: Scene<'_>, day: &PlannedDay) -> String {
    let crop = crate::ledger::crop_of(&day.product);
    let is_meant = |picking: &Picking| picking.crop == crop && picking.red == Red::Unknown;
    let mass: Mass = ripening(scene.state).iter().filter(|picking| is_meant(picking)).map(|picking| picking.mass).sum();
    if crop != Crop::Tomato || mass.is_zero() {
        return String::new();
    }
    let mass = Words::of(&scene.state.settings).mass(mass);
    format!(" I don't count the {mass} on the counter of which nobody said how ripe it is.")
}

/// A day was called off.
pub(super) fn called_off(scene: Scene<'_>, effect: &Effect) -> Reply {
    let words = Words::of(&scene.state.settings);
    let Some(day) = effect.planned.as_ref().filter(|_| !effect.not_running) else {
        return Reply { text: "No such day was set.".to_owned(), facts: Facts::default() };
    };
    let mut text = format!("{} on {} is off.", capitalised(&words.product(&day.product)), words.day(day.day));
    let others = scene.state.planned.iter().filter(|other| other.day >= scene.state.settings.zone.day(scene.now));
    let others: Vec<String> =
        others.map(|other| format!("{} on {}", words.product(&other.product), words.day(other.day))).collect();
    if !others.is_empty() {
        text.push_str(&format!(" Still set: {}.", others.join(", ")));
    }
    Reply { text, facts: Facts::default() }
}
