//! Replies to the steps of a batch: what it means, and the one next thing to do. Here those up to the filled jars; what
//! happens in the pot is in `pot`, in the canner in `canner`, after it in `seals`.

use super::{Facts, Reply, Scene, Words, acid, canner, pot, seals};
use crate::batch::{Batch, Stage};
use crate::ledger::Effect;
use crate::ledger::state::Units;
use crate::processes::{self, facts as figures};
use crate::statement::Statement;
use crate::vocabulary::{Acid, CannerKind};
use chrono::{DateTime, Utc};

/// The usual caution, said once a batch.
const CAUTION: &str = "Follow a tested recipe; your extension service or food-safety authority has the last word.";

pub(super) fn step(scene: Scene<'_>, statement: &Statement, effect: &Effect) -> Reply {
    let state = scene.state;
    let Some(batch) = effect.batch.and_then(|number| state.batches.iter().find(|batch| batch.number == number)) else {
        if let Statement::Mishap(said) = statement {
            return super::mishaps::rule(scene, said);
        }
        return Reply { text: "Noted.".to_owned(), facts: Facts::default() };
    };
    let mut reply = match statement {
        Statement::Began(_) => began(scene, batch),
        Statement::Drained(said) => pot::drained(scene, batch, said),
        Statement::CookedDown(_) if effect.steady => super::mishaps::steady(scene, batch),
        Statement::CookedDown(said) => pot::cooked_down(scene, batch, said),
        Statement::Filled(_) => filled(scene, batch),
        Statement::AcidAdded(said) => acid::added(scene, batch, said, effect.lost_heat),
        Statement::AcidMissing(said) => acid::missing(scene, batch, said),
        Statement::Named(_) => pot::named(batch),
        Statement::Venting(_) => canner::venting(scene, batch),
        Statement::Mishap(said) => super::mishaps::of_batch(scene, batch, said, effect),
        Statement::LostHeat(_) if effect.bearing.is_some() => super::mishaps::lost(scene, batch, effect),
        Statement::AtHeat(_) if effect.steady => super::mishaps::steady(scene, batch),
        Statement::AtHeat(_) => canner::at_heat(scene, batch),
        Statement::LostHeat(_) => canner::lost_heat(scene, batch),
        Statement::HeatOff(_) => canner::heat_off(scene, batch),
        Statement::PressureDown(_) => canner::pressure_down(scene, batch),
        Statement::Lifted(said) => canner::lifted(scene, batch, said),
        Statement::Stopped(_) => canner::stopped(scene, batch, effect),
        Statement::Resumed(_) => canner::resumed(scene, batch),
        Statement::Broke(_) => seals::broke(scene, batch, effect),
        Statement::Siphoned(_) => seals::siphoned(scene, batch),
        Statement::Reprocessed(_) => seals::reprocessed(scene, batch),
        Statement::Froze(_) => seals::froze(scene, batch, effect),
        _ => seals::seals(scene, batch),
    };
    if effect.resumed {
        reply.text.push_str(&format!(" ({} had been set aside and goes on.)", title(batch)));
    }
    reply.facts.stage(batch, state, scene.now);
    reply
}

pub(super) fn title(batch: &Batch) -> String {
    format!("'{}'", batch.name)
}

pub(super) fn next(scene: Scene<'_>, batch: &Batch, stage: Stage) -> String {
    format!("Next: {}.", next_step(Words::of(&scene.state.settings), batch, stage, scene.now))
}

/// The one next thing to do, with the batch's own jars and pressure where it names some.
pub(super) fn next_step(words: Words, batch: &Batch, stage: Stage, now: DateTime<Utc>) -> String {
    let (jars, size) = (batch.jars(), batch.jar.spoken(batch.jars()));
    if batch.stopped.is_some() && stage < Stage::Cooling {
        return format!("it is set aside; say 'back to the {}' when it goes on", batch.name);
    }
    let open = batch.unsealed_open() + batch.fates.open_again;
    if batch.fates.held > 0 && batch.waiting_again() == 0 {
        return format!(
            "say whether the acid was in the {} jars that are held ('lemon juice was in', 'forgot the acid')",
            batch.fates.held
        );
    }
    match (stage, batch.timing.pressure) {
        (Stage::Begun, _) => format!("fill the hot jars, then say 'filled {jars} {size}'"),
        (Stage::Filled, _) if batch.canner == CannerKind::Steam => {
            "load the canner and heat; when steam flows and it is at temperature, say 'steam's up'".to_owned()
        }
        (Stage::Filled, _) if batch.canner == CannerKind::BoilingWater => {
            let cover = figures::water_over_jars().map_or_else(String::new, |(low, high)| {
                let low = words.headspace(low);
                format!(
                    ", {} to {} of water over the jars,",
                    low.trim_end_matches(" in").trim_end_matches(" mm"),
                    words.headspace(high)
                )
            });
            format!("load the canner{cover} and heat; when it boils, say 'rolling boil'")
        }
        (Stage::Venting, Some(pressure)) => format!(
            "let the steam flow for 10 minutes, close the vent, and say 'at {0} pounds' when the gauge is at {0}",
            super::words::plain(pressure.as_psi(), 1)
        ),
        (Stage::Checking, _)
            if open > 0 && batch.undecided() <= open && batch.reprocess_until().is_some_and(|until| now > until) =>
        {
            format!(
                "what did not seal has stood for more than 24 hours: {}; \
                 say what becomes of it ('tossed {}', 'put 1 in the fridge')",
                seals::LATE,
                words.jars_of(batch.unsealed_open().max(1), batch.jar, &batch.product)
            )
        }
        (Stage::Checking, _) if open > 0 && batch.undecided() <= open => {
            "say what becomes of what did not seal ('reprocessing it', 'put 1 in the fridge', 'froze 1 jar')".to_owned()
        }
        (Stage::Checking, _) if batch.undecided() == 0 => press_again(batch),
        (Stage::Checking, _) if batch.undecided() > 1 => {
            let left = batch.undecided();
            format!("press the lids, and say how many sealed ('{} of {left} sealed')", left - 1)
        }
        _ => stage.next_step(batch.canner.is_pressure()).to_owned(),
    }
}

/// The lids of jars that went through again.
pub(super) fn press_again(batch: &Batch) -> String {
    match batch.out_again() {
        0 | 1 => "press the lid, and say 'it sealed' or 'it didn't seal'".to_owned(),
        left => format!("press the lids, and say how many sealed ('{} of {left} sealed')", left - 1),
    }
}

/// `45 min at 204 °F`, `20 min at 11 psi`, or that there is no tested time.
pub(super) fn process(scene: Scene<'_>, batch: &Batch) -> String {
    let words = Words::of(&scene.state.settings);
    let timing = &batch.timing;
    match (timing.minutes, timing.pressure, timing.heat) {
        (Some(minutes), Some(pressure), _) => {
            format!("{minutes} min at {} psi", super::words::plain(pressure.as_psi(), 1))
        }
        (Some(minutes), None, Some(heat)) => format!("{minutes} min at a steady {}", words.temperature(heat)),
        (Some(minutes), None, None) => format!("{minutes} min"),
        (None, _, _) => "no tested time".to_owned(),
    }
}

/// A batch under way whose time followed a setting.
pub(super) fn retimed(scene: Scene<'_>, batch: &Batch) -> String {
    let words = Words::of(&scene.state.settings);
    match (batch.timing.minutes, batch.ends_at(scene.now)) {
        (None, _) => {
            format!("{} has no tested process here, so it has no time any more: do not shelve its jars.", title(batch))
        }
        (Some(_), Some(ends)) => {
            format!("{} now takes {}, until {}.", title(batch), process(scene, batch), words.moment(ends, scene.now))
        }
        (Some(_), None) => format!("{} now takes {}.", title(batch), process(scene, batch)),
    }
}

fn began(scene: Scene<'_>, batch: &Batch) -> Reply {
    let (state, words) = (scene.state, Words::of(&scene.state.settings));
    let mut facts = Facts::default();
    facts.timing(&batch.timing).jars(batch.jars(), batch.jar).set("rounds", batch.rounds());
    let mut text = format!(
        "Batch {} begun: {}, {}.",
        title(batch),
        words.jars_of(batch.jars(), batch.jar, &batch.product),
        batch.canner.spoken()
    );
    if batch.timing.minutes.is_none() {
        text.push_str(
            " It has no tested process, so I keep count but give no time. Freezing or refrigerating it is safe.",
        );
        return Reply { text, facts };
    }
    let altitude = state.settings.altitude.map(|altitude| words.altitude(altitude)).unwrap_or_default();
    text.push_str(&format!(" Process {} ({altitude}).", process(scene, batch)));
    if let Some(jar) = batch.timing.timed_as {
        text.push_str(&format!(" That is the time of {}, the tested size for these jars.", jar.spoken(2)));
    }
    if let Some(source) = &batch.timing.source {
        text.push_str(&format!("\nSource: {source}."));
    }
    if let Some(condition) = processes::product(batch.product.as_str()).and_then(processes::condition) {
        text.push_str(&format!("\n{condition}"));
    }
    text.push_str(&format!("\n{}", acid_line(scene, batch, &mut facts)));
    if let Some(headspace) = batch.timing.headspace {
        text.push_str(&format!("Headspace {}. ", words.headspace(headspace)));
    }
    text.push_str(super::handbook::sterilise(scene, batch.canner, batch.timing.minutes.unwrap_or(0)).trim_start());
    if !text.ends_with([' ', '\n']) {
        text.push(' ');
    }
    text.push_str(&next(scene, batch, Stage::Begun));
    if batch.rounds() > 1 {
        text.push_str(&format!(" {} rounds of up to {}.", batch.rounds(), batch.capacity));
        text.push_str(&super::day::last_round(scene, batch, &mut facts));
    }
    text.push_str(&format!("\n{CAUTION}"));
    Reply { text, facts }
}

/// The dose a jar and for the batch, with its facts; empty where the product takes none.
pub(super) fn acid_line(scene: Scene<'_>, batch: &Batch, facts: &mut Facts) -> String {
    let (state, words) = (scene.state, Words::of(&scene.state.settings));
    let Some(info) = processes::product(batch.product.as_str()).filter(|info| processes::needs_acid(info)) else {
        return String::new();
    };
    let counted = batch.acid_counted.map(|(acid, ..)| acid);
    let acid = batch.acid.or(counted).unwrap_or_else(|| state.acid_for(&batch.product, batch.jar));
    let jars = batch.jars();
    let Some(dose) = processes::dose(info, batch.jar, acid) else {
        return "Acid: no published dose of that acid for this jar; use bottled lemon juice or citric acid. "
            .to_owned();
    };
    let total = dose.for_jars(jars).unwrap_or_default();
    facts.set("acid", acid.as_str());
    match (dose.mass, dose.mass_for_jars(jars)) {
        (Some(each), Some(all)) => facts.mass("acid_g", each).mass("acid_total_g", all),
        _ => facts.volume("acid_ml", dose.amount).volume("acid_total_ml", total),
    };
    let other = match acid {
        Acid::CitricAcid => Acid::LemonJuice,
        Acid::LemonJuice | Acid::Vinegar => Acid::CitricAcid,
    };
    let or = match processes::dose(info, batch.jar, other) {
        Some(dose) if batch.acid.is_none() => format!(" (or {} {})", dose.text, super::words::supply(other.supply())),
        _ => String::new(),
    };
    // Powder is spooned, and weighed where there are no spoons of that size.
    let in_all = match dose.mass_for_jars(jars) {
        Some(mass) if state.settings.units == Units::Metric => {
            format!("about {} (a level teaspoon taken as 4.8 g, from memory)", words.mass(mass))
        }
        _ => words.volume(total),
    };
    format!("Acid: {} {} in each jar{or}, {in_all} in all. ", dose.text, super::words::supply(acid.supply()))
}

fn filled(scene: Scene<'_>, batch: &Batch) -> Reply {
    let words = Words::of(&scene.state.settings);
    let mut facts = Facts::default();
    facts.timing(&batch.timing).jars(batch.filled, batch.jar).set("rounds", batch.rounds());
    let mut text = format!("{}: {} filled", title(batch), words.jars(batch.filled, batch.jar));
    if batch.rounds() > 1 {
        text.push_str(&format!(", {} rounds of up to {}", batch.rounds(), batch.capacity));
    }
    text.push_str(". ");
    text.push_str(&acid_line(scene, batch, &mut facts));
    if batch.acid_in {
        text.push_str("It is in already. ");
    }
    if let Some(headspace) = batch.timing.headspace {
        text.push_str(&format!("Headspace {}. ", words.headspace(headspace)));
    }
    if !batch.raw.is_zero() {
        text.push_str(&format!("{} of raw fruit went in. ", words.mass(batch.raw)));
    }
    text.push_str(&format!("Then {}. ", process(scene, batch)));
    if !batch.is_acidified() {
        text.push_str(&format!("Is the acid in? Say '{}' when it is in each jar. ", acid::say(scene, batch)));
    }
    text.push_str(&next(scene, batch, batch.stage(scene.now)));
    text.push_str(&super::day::last_round(scene, batch, &mut facts));
    Reply { text, facts }
}
