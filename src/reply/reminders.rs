//! The steps of a day that was set, as they come: reminders, what holds them up, and the next of them when it is asked
//! for.

use super::garden::bag_list;
use super::plans::{part_name, part_said, step_said};
use super::{Facts, Reply, Scene, Words, capitalised};
use crate::ledger::state::PlannedDay;
use crate::planning::canning_day::{DayPlan, Held, NoPlan, PlannedStep, lay_out, within_reach};
use crate::planning::durations::Part;
use crate::vocabulary::Crop;

/// The next step of a day, as the one thing to do.
pub(super) fn next_of(scene: Scene<'_>, day: &PlannedDay, plan: &DayPlan, step: &PlannedStep) -> String {
    let words = Words::of(&scene.state.settings);
    let has_come = step.at <= scene.now;
    if let Some(held) = plan.held(scene.state).filter(|_| has_come && step.takes.part > Part::Thaw) {
        return held_up(scene, day, plan, held).text;
    }
    let what = match step.takes.part {
        Part::Thaw => format!("move {} to the refrigerator", bag_list(scene, &plan.bags)),
        part => part_said(part).to_owned(),
    };
    let at = words.moment(step.at, scene.now);
    let (at, since) =
        if has_come { (String::new(), format!(" (since {at})")) } else { (format!(" at {at}"), String::new()) };
    format!("Next: {what}{at}, for {} on {}{since}.", words.product(&day.product), words.day(day.day))
}

/// A day that was set is over, and no batch of it was begun.
pub(super) fn missed(scene: Scene<'_>, day: &PlannedDay) -> String {
    let words = Words::of(&scene.state.settings);
    let thawing = scene.state.thawing(crate::ledger::crop_of(&day.product));
    let thawing = if thawing.is_zero() { String::new() } else { format!(", and {} is thawing", words.mass(thawing)) };
    format!(
        "{} was set for {} and not begun, as far as I was told{thawing}. \
         Set another day, as 'canning on Saturday', or say what became of it.",
        capitalised(&words.product(&day.product)),
        words.day(day.day)
    )
}

/// A step of a planned day has come; where its fruit is not thawed, draining says so.
pub(super) fn step_has_come(scene: Scene<'_>, day: &PlannedDay, plan: &DayPlan, step: &PlannedStep) -> Reply {
    match plan.held(scene.state).filter(|_| step.takes.part == Part::Drain) {
        Some(held) => held_up(scene, day, plan, held),
        None => {
            let mut reply = planned_step(scene, day, plan, step);
            if step.takes.part == Part::Drain && !plan.bags.is_empty() {
                reply.text.push_str(&format!(" {}", left_in_freezer(scene, plan)));
            }
            reply
        }
    }
}

/// Some bags of a day that has come were not moved.
fn left_in_freezer(scene: Scene<'_>, plan: &DayPlan) -> String {
    let words = Words::of(&scene.state.settings);
    let (count, mass) = (plan.bags.len() as u32, plan.bags.iter().map(|bag| bag.mass).sum());
    let (are, they) = if count == 1 { ("is", "it is") } else { ("are", "they are") };
    format!(
        "{}, {} of it, {are} still in the freezer, as far as I was told: say 'thawing {}' if {they} out.",
        capitalised(&words.bags(count)),
        words.mass(mass),
        words.bags(count)
    )
}

/// What is missing for the whole of a day, for which fewer jars are planned meanwhile.
fn short_said(scene: Scene<'_>, day: &PlannedDay, plan: &DayPlan) -> String {
    let words = Words::of(&scene.state.settings);
    let Err(NoPlan::NotEnough { target, there, .. }) = lay_out(scene.state, day) else { return String::new() };
    let (jars, short) = (words.jars(plan.target.jars, plan.target.jar), words.mass(target.less(there)));
    format!(" That makes {jars}; {short} more would make all of it.")
}

/// A step of a planned day, as the calendar has it too.
pub(super) fn planned_step(scene: Scene<'_>, day: &PlannedDay, plan: &DayPlan, step: &PlannedStep) -> Reply {
    let words = Words::of(&scene.state.settings);
    let said = capitalised(&step_said(scene, plan, step));
    let mut text = format!("{said}. For {} on {}.", words.product(&day.product), words.day(day.day));
    let thawed_late = plan.begins(Part::Drain).is_some_and(|drain| scene.now + step.takes.time > drain);
    if step.takes.part == Part::Thaw {
        text.push_str(&short_said(scene, day, plan));
    }
    if step.takes.part == Part::Thaw && thawed_late {
        text.push_str(" They may not be quite thawed by then; the pot does the rest.");
    }
    let mut facts = Facts::default();
    facts.set("label", part_name(step.takes.part)).jars(plan.target.jars, plan.target.jar);
    facts.time("ends_at", plan.end, scene.state);
    if step.takes.part == Part::Thaw {
        facts.bags("bags_chosen", &plan.bags).mass("chosen_g", plan.bags.iter().map(|bag| bag.mass).sum());
    }
    Reply { text, facts }
}

/// The fruit of a day that has come is not thawed.
pub(super) fn held_up(scene: Scene<'_>, day: &PlannedDay, plan: &DayPlan, held: Held) -> Reply {
    let words = Words::of(&scene.state.settings);
    let (product, on) = (words.product(&day.product), words.day(day.day));
    let mut facts = Facts::default();
    facts.set("label", "held");
    let bags = words.bags(plan.bags.len() as u32);
    let (what, then) = match held {
        Held::NotOut => {
            facts.bags("bags_chosen", &plan.bags).mass("chosen_g", plan.bags.iter().map(|bag| bag.mass).sum());
            let what = format!(
                "{bags} for {product} on {on} should be thawed by now and are still in the freezer, \
                 as far as I was told"
            );
            (what, format!("Say 'thawing {bags}' if they are out, move"))
        }
        Held::Frozen(until) => {
            facts.mass("thawing_g", scene.state.thawing(plan.target.crop)).time("ends_at", until, scene.state);
            let until = words.moment(until, scene.now);
            let what = format!("The fruit for {product} on {on} is still frozen, by the estimate until {until}");
            (what, "Move".to_owned())
        }
    };
    let text =
        format!("{what}. The day's other steps wait. {then} the day, as 'canning on Sunday', or say 'canning is off'.");
    Reply { text, facts }
}

/// What was just taken out will not be thawed when it should be drained, for a day that is set.
pub(super) fn thaws_late(scene: Scene<'_>, crop: Crop) -> Option<String> {
    let words = Words::of(&scene.state.settings);
    let today = scene.state.settings.zone.day(scene.now);
    scene.state.planned.iter().filter(|day| day.day >= today).find_map(|day| {
        let plan = within_reach(scene.state, day).filter(|plan| plan.target.crop == crop)?;
        let Some(Held::Frozen(until)) = plan.held(scene.state) else { return None };
        let drain = plan.begins(Part::Drain)?;
        Some(format!(
            "\nThey will not be thawed by {}, when {} should be drained: by the estimate about {}.",
            words.moment(drain, scene.now),
            words.product(&day.product),
            words.moment(until, scene.now)
        ))
    })
}
