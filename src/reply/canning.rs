//! Replies to the steps of a batch: what it means, and the one next thing to do.

use super::{Facts, Reply, Scene, Words};
use crate::batch::{Batch, Stage};
use crate::ledger::Effect;
use crate::processes;
use crate::statement::Statement;
use crate::vocabulary::{Acid, CannerKind};

/// The usual caution, said once a batch.
const CAUTION: &str = "Follow a tested recipe; your extension service or food-safety authority has the last word.";

pub(super) fn step(scene: Scene<'_>, statement: &Statement, effect: &Effect) -> Reply {
    let state = scene.state;
    let Some(batch) = effect.batch.and_then(|number| state.batches.iter().find(|batch| batch.number == number)) else {
        return Reply { text: "Noted.".to_owned(), facts: Facts::default() };
    };
    let mut reply = match statement {
        Statement::Began(_) => began(scene, batch),
        Statement::Filled(_) => filled(scene, batch),
        Statement::AtHeat(_) => at_heat(scene, batch),
        Statement::Drained(said) => drained(scene, batch, said),
        Statement::AcidAdded(_) => acid_added(batch),
        Statement::Venting(_) => plain(scene, batch, "Venting: give it 10 minutes of steady steam."),
        Statement::LostHeat(_) => lost_heat(scene, batch),
        Statement::HeatOff(_) => heat_off(scene, batch),
        Statement::PressureDown(_) => plain(scene, batch, "Pressure down: weight off, and 10 minutes' rest."),
        Statement::Lifted(_) => lifted(scene, batch),
        _ => seals(scene, batch),
    };
    reply.facts.stage(batch, state, scene.now);
    reply
}

fn title(batch: &Batch) -> String {
    format!("'{}'", batch.name)
}

fn next(batch: &Batch, stage: Stage) -> String {
    format!("Next: {}.", next_step(batch, stage))
}

/// The one next thing to do, with the batch's own jars where it names some.
pub(super) fn next_step(batch: &Batch, stage: Stage) -> String {
    let (jars, size) = (batch.jars(), batch.jar.spoken(batch.jars()));
    match stage {
        Stage::Begun => format!("fill the hot jars, then say 'filled {jars} {size}'"),
        Stage::Checking if batch.jars() > 1 => {
            format!("press the lids, and say how many sealed ('{} of {jars} sealed')", jars - 1)
        }
        _ => stage.next_step(batch.canner.is_pressure()).to_owned(),
    }
}

fn plain(scene: Scene<'_>, batch: &Batch, text: &str) -> Reply {
    let mut facts = Facts::default();
    facts.timing(&batch.timing);
    let text = format!("{}: {text} {}", title(batch), next(batch, batch.stage(scene.now)));
    Reply { text, facts }
}

/// `45 min at 204 °F`, `20 min at 11 psi`, or that there is no tested time.
fn process(scene: Scene<'_>, batch: &Batch) -> String {
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
    text.push_str(&format!("\n{}", acid_line(scene, batch, &mut facts)));
    if let Some(headspace) = batch.timing.headspace {
        text.push_str(&format!("Headspace {}. ", words.headspace(headspace)));
    }
    text.push_str(&next(batch, Stage::Begun));
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
    format!(
        "Acid: {} {} in each jar{or}, {} in all. ",
        dose.text,
        super::words::supply(acid.supply()),
        words.volume(total)
    )
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
    if !batch.acid_in {
        text.push_str(&acid_line(scene, batch, &mut facts));
    } else {
        acid_line(scene, batch, &mut facts);
    }
    if let Some(headspace) = batch.timing.headspace {
        text.push_str(&format!("Headspace {}. ", words.headspace(headspace)));
    }
    if !batch.raw.is_zero() {
        text.push_str(&format!("{} of raw fruit went in. ", words.mass(batch.raw)));
    }
    text.push_str(&format!("Then {}. ", process(scene, batch)));
    text.push_str(&next(batch, batch.stage(scene.now)));
    Reply { text, facts }
}

fn at_heat(scene: Scene<'_>, batch: &Batch) -> Reply {
    let (state, words) = (scene.state, Words::of(&scene.state.settings));
    let mut facts = Facts::default();
    facts.timing(&batch.timing).jars(batch.in_round(), batch.jar);
    let Some(ends) = batch.ends_at(scene.now) else {
        let text = format!("{}: there is no tested time for it any more, so no clock runs.", title(batch));
        return Reply { text, facts };
    };
    let mut text =
        format!("{}: clock started, {}, until {}.", title(batch), process(scene, batch), words.moment(ends, scene.now));
    if batch.restarts > 0 {
        text.push_str(" The full time counts from now.");
    }
    if let Some(source) = &batch.timing.source {
        text.push_str(&format!(" ({source})"));
    }
    text.push_str(&format!("\n{}", next(batch, batch.stage(scene.now))));
    let acid = batch.acid_in || !processes::product(batch.product.as_str()).is_some_and(processes::needs_acid);
    // Once is a reminder, twice is nagging.
    if !acid && batch.restarts == 0 && batch.lifted == 0 {
        text.push_str("\nIs the acid in? I have not heard so; it goes into every jar before the lid.");
    }
    facts.time("ends_at", ends, state);
    Reply { text, facts }
}

fn drained(scene: Scene<'_>, batch: &Batch, said: &crate::statement::Drained) -> Reply {
    let words = Words::of(&scene.state.settings);
    let amount = match (said.mass, said.volume) {
        (Some(mass), _) => words.mass(mass),
        (None, Some(volume)) => words.volume(volume),
        (None, None) => "Liquid".to_owned(),
    };
    let text = format!("{}: {amount} drained. {}", title(batch), next(batch, batch.stage(scene.now)));
    Reply { text, facts: Facts::default() }
}

fn acid_added(batch: &Batch) -> Reply {
    let which = batch.acid.map_or("acid", |acid| super::words::supply(acid.supply()));
    let mut facts = Facts::default();
    if let Some(acid) = batch.acid {
        facts.set("acid", acid.as_str());
    }
    Reply { text: format!("{}: {which} is in. Noted.", title(batch)), facts }
}

fn lost_heat(scene: Scene<'_>, batch: &Batch) -> Reply {
    let mut facts = Facts::default();
    facts.timing(&batch.timing);
    let again = if batch.canner.is_pressure() { "at pressure again" } else { "at heat again" };
    let text = format!(
        "{}: clock stopped. Bring it back; the full {} starts over. Say so when it is {again}.",
        title(batch),
        process(scene, batch)
    );
    Reply { text, facts }
}

fn heat_off(scene: Scene<'_>, batch: &Batch) -> Reply {
    let words = Words::of(&scene.state.settings);
    let mut facts = Facts::default();
    facts.timing(&batch.timing);
    let text = match (batch.canner, batch.ends_at(scene.now)) {
        (canner, _) if canner.is_pressure() => {
            format!("{}: let it come down by itself, no cooling. Say 'pressure's down' at zero.", title(batch))
        }
        (CannerKind::BoilingWater, Some(ends)) => {
            format!("{}: lid off, and rest until {}. I'll call you.", title(batch), words.clock(ends))
        }
        (_, Some(ends)) => {
            format!("{}: leave it shut, and rest until {}. I'll call you.", title(batch), words.clock(ends))
        }
        (_, None) => format!("{}: noted. {}", title(batch), next(batch, batch.stage(scene.now))),
    };
    Reply { text, facts }
}

fn lifted(scene: Scene<'_>, batch: &Batch) -> Reply {
    let (state, words) = (scene.state, Words::of(&scene.state.settings));
    let mut facts = Facts::default();
    if batch.waiting() > 0 {
        facts.jars(batch.in_round(), batch.jar).set("rounds", batch.rounds());
        let text = format!(
            "{}: {} out, {} to go. Load the next round of {}; {}.",
            title(batch),
            batch.lifted,
            batch.waiting(),
            batch.in_round(),
            Stage::Filled.next_step(batch.canner.is_pressure())
        );
        return Reply { text, facts };
    }
    facts.jars(batch.lifted.saturating_sub(batch.fates.gone), batch.jar);
    let mut text = format!("{}: jars out. Leave them alone, no draught, no tightening.", title(batch));
    let due = batch.clocks(state.settings.zone).into_iter().find(|(clock, _)| *clock == crate::batch::Clock::SealCheck);
    if let Some((_, at)) = due {
        facts.due(at, state);
        text.push_str(&format!(" I'll ask about the seals at {}.", words.moment(at, scene.now)));
    }
    Reply { text, facts }
}

fn seals(scene: Scene<'_>, batch: &Batch) -> Reply {
    let (state, words) = (scene.state, Words::of(&scene.state.settings));
    let fates = batch.fates;
    let mut facts = Facts::default();
    facts.jars(fates.sealed + fates.sealed_later, batch.jar).pantry(state);
    facts.set("fridge_jars", state.fridge.jars(None, None));
    let mut parts = Vec::new();
    let told = [
        (fates.sealed + fates.sealed_later, "sealed and shelved"),
        (fates.refrigerated, "in the refrigerator"),
        (batch.reprocessing(), "going through again"),
        (batch.unsealed_open(), "not sealed"),
    ];
    parts.extend(told.iter().filter(|(jars, _)| *jars > 0).map(|(jars, fate)| format!("{jars} {fate}")));
    let mut text = format!("{}: {}.", title(batch), parts.join(", "));
    if batch.unsealed_open() > 0
        && let Some(until) = batch.reprocess_until()
    {
        facts.due(until, state);
        text.push_str(&if until > scene.now {
            format!(
                " Reprocess by {} with a new lid and the full time, or refrigerate and use it within several days, or freeze it.",
                words.moment(until, scene.now)
            )
        } else {
            " The 24 hours for reprocessing are over: refrigerate and use it within several days, or freeze it.".to_owned()
        });
    }
    let unknown = batch.undecided().saturating_sub(batch.unsealed_open());
    if unknown > 0 {
        text.push_str(&format!(" And the other {unknown}?"));
    }
    if fates.refrigerated > 0 {
        text.push_str(" Use what is in the refrigerator within several days.");
    }
    if !batch.is_open() && fates.sealed > 0 {
        text.push_str(&format!(
            " Pantry {}. Label them; best within a year.",
            words.jars_of(state.pantry.jars(Some(&batch.product), Some(batch.jar)), batch.jar, &batch.product)
        ));
    }
    Reply { text, facts }
}
