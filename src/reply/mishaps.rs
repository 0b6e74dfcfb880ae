//! Replies to what went wrong at the canner: the one thing to do, what it means for these jars, who published the rule;
//! and to jars that stand without their process.

use super::canning::{next, process, title};
use super::words::plain;
use super::{Facts, Reply, Scene, Words};
use crate::batch::{Batch, Bearing, Stage};
use crate::ledger::Effect;
use crate::processes::facts as figures;
use crate::quantity::Pressure;
use crate::statement;
use crate::vocabulary::{CannerKind, Mishap};
use chrono::{DateTime, Utc};

fn only(text: String) -> Reply {
    Reply { text, facts: Facts::default() }
}

/// `(University of Nebraska extension)`, with a space before it.
fn source(key: &str) -> String {
    match figures::publisher(key) {
        "" => String::new(),
        publisher => format!(" ({publisher})"),
    }
}

/// `, at heat by 12:05 pm`: the end of the hours in which it may be made good.
pub(super) fn by(scene: Scene<'_>, batch: &Batch, facts: &mut Facts) -> String {
    let words = Words::of(&scene.state.settings);
    let Some(standing) = batch.standing() else { return String::new() };
    facts.due(standing.until(), scene.state);
    format!(", at heat by {}", words.moment(standing.until(), scene.now))
}

/// What a mishap means where no batch is open: the rule alone.
pub(super) fn rule(scene: Scene<'_>, said: &statement::Mishap) -> Reply {
    let first = first_thing(Words::of(&scene.state.settings), said, None);
    only(format!("{first}{}", source(key(said.what))))
}

/// What it means for the jars of a batch.
pub(super) fn of_batch(scene: Scene<'_>, batch: &Batch, said: &statement::Mishap, effect: &Effect) -> Reply {
    let first = first_thing(Words::of(&scene.state.settings), said, Some(batch));
    match effect.bearing.unwrap_or(Bearing::None) {
        Bearing::Stopped => stopped(scene, batch, &first),
        Bearing::Undone { shelved } => undone(scene, batch, shelved, &first),
        Bearing::Asked => only(format!("{first} {}", question(scene, batch))),
        Bearing::Held => {
            let mut reply = steady(scene, batch);
            reply.text = format!("{}: good, nothing is lost. {}", title(batch), left(scene, batch));
            reply
        }
        Bearing::None if matches!(said.what, Mishap::Held | Mishap::Fell) => steady(scene, batch),
        Bearing::None => {
            let stage = batch.stage(scene.now);
            let means = match stage {
                Stage::Processing => format!(" The clock of {} runs on. {}", title(batch), left(scene, batch)),
                Stage::Begun | Stage::Filled | Stage::Venting => format!(" {}", next(scene, batch, stage)),
                _ if said.what == Mishap::LeftIn => String::new(),
                _ => format!(" The jars of {} have had their full time.", title(batch)),
            };
            only(format!("{first}{}{means}", source(key(said.what))))
        }
    }
}

/// The answer to a question was that the heat was lost.
pub(super) fn lost(scene: Scene<'_>, batch: &Batch, effect: &Effect) -> Reply {
    if effect.bearing == Some(Bearing::None) {
        let stage = batch.stage(scene.now);
        return only(format!(
            "{}: no clock was running, so nothing is lost. {}",
            title(batch),
            next(scene, batch, stage)
        ));
    }
    let said = statement::Mishap { what: Mishap::Fell, psi: None, batch: None, on: None };
    of_batch(scene, batch, &said, effect)
}

fn stopped(scene: Scene<'_>, batch: &Batch, first: &str) -> Reply {
    let mut facts = Facts::default();
    facts.timing(&batch.timing);
    let again = if batch.canner.is_pressure() { "at pressure" } else { "at heat" };
    let until = by(scene, batch, &mut facts);
    let text = format!(
        "{first} The clock of {} is stopped: the full {} counts again from when you say it is {again}{until}.{}",
        title(batch),
        process(scene, batch),
        source("interrupted_process_redo"),
    );
    Reply { text, facts }
}

fn undone(scene: Scene<'_>, batch: &Batch, shelved: u32, first: &str) -> Reply {
    let words = Words::of(&scene.state.settings);
    let mut facts = Facts::default();
    facts.timing(&batch.timing).pantry(scene.state);
    let until = batch.standing().map(|standing| standing.until());
    let off = if shelved > 0 { format!(" I took {shelved} off the shelf.") } else { String::new() };
    let text = match until {
        Some(until) if scene.now <= until => {
            facts.due(until, scene.state);
            let hot = if batch.outs.is_empty() && batch.lifted == 0 && batch.restarts == 1 {
                "with new lids if the jars have cooled"
            } else {
                "emptied, boiled, hot into clean jars with new lids"
            };
            format!(
                "Don't shelve the jars of {}, sealed or not.{off} {first} By {}: {hot}, and the full {} again, \
                 or into the refrigerator or freezer; after that throw the food away.{}",
                title(batch),
                words.moment(until, scene.now),
                process(scene, batch),
                source("deviation_redo_within_h")
            )
        }
        Some(until) => format!("{first}{off} {}", stood(scene, batch, until)),
        None => format!("{first}{off}"),
    };
    Reply { text, facts }
}

/// The gauge was told while the clock ran.
pub(super) fn steady(scene: Scene<'_>, batch: &Batch) -> Reply {
    let mut facts = Facts::default();
    facts.timing(&batch.timing).stage(batch, scene.state, scene.now);
    only_with(format!("{}: good, that is enough. {}", title(batch), left(scene, batch)), facts)
}

const fn only_with(text: String, facts: Facts) -> Reply {
    Reply { text, facts }
}

/// What is left on the clock, or the next thing.
fn left(scene: Scene<'_>, batch: &Batch) -> String {
    let words = Words::of(&scene.state.settings);
    match (batch.stage(scene.now), batch.ends_at(scene.now)) {
        (Stage::Processing, Some(ends)) => {
            format!("{} left, until {}.", words.stretch(ends - scene.now), words.moment(ends, scene.now))
        }
        (stage, _) => next(scene, batch, stage),
    }
}

/// The one question that decides about the jars.
pub(super) fn question(scene: Scene<'_>, batch: &Batch) -> String {
    let words = Words::of(&scene.state.settings);
    let what = batch.doubt.map(|doubt| doubt.what);
    let asked = match (batch.canner, what) {
        (canner, _) if canner.is_pressure() => {
            let needed = batch.needed_on_gauge().map_or_else(
                || "the target pressure".to_owned(),
                |needed| format!("{} psi", plain(needed.as_psi(), 1)),
            );
            format!("did it drop below {needed}")
        }
        (CannerKind::BoilingWater, Some(Mishap::WaterLow)) => "did the jars stand out of the water".to_owned(),
        (CannerKind::BoilingWater, _) => "did it stop boiling".to_owned(),
        _ => match batch.timing.heat {
            Some(heat) => format!("did the steam stop, or fall below {}", words.temperature(heat)),
            None => "did the steam stop".to_owned(),
        },
    };
    format!("{}: {asked} before the minutes were up? yes or no.", title(batch))
}

/// Jars stand without their process, and their hours are nearly over.
pub(super) fn stands(scene: Scene<'_>, batch: &Batch) -> String {
    let words = Words::of(&scene.state.settings);
    let Some(standing) = batch.standing() else { return String::new() };
    let until = words.moment(standing.until(), scene.now);
    let since = words.moment(standing.since, scene.now);
    if standing.went_wrong {
        format!(
            "{}: get the canner to heat by {until}, or refrigerate or freeze what is in the jars. Their process went \
             wrong at {since}, and may be made good within 2 hours only.{}",
            title(batch),
            source("deviation_redo_within_h")
        )
    } else {
        format!(
            "{}: get the canner to heat by {until}, or refrigerate or freeze what is in the jars. They have waited \
             since {since}; no page gives filled jars a time, so the 2 hours of any food that spoils hold.{}",
            title(batch),
            source("perishable_room_temperature_max_h")
        )
    }
}

/// The hours are over: no clock starts any more.
pub(super) fn stood(scene: Scene<'_>, batch: &Batch, until: DateTime<Utc>) -> String {
    let words = Words::of(&scene.state.settings);
    let jars = batch.waiting().max(batch.waiting_again()).max(1);
    let wrong = batch.standing().is_none_or(|standing| standing.went_wrong);
    let (what, key) = if wrong {
        ("in which the process might be made good", "deviation_after_window")
    } else {
        ("that food may stand warm", "perishable_room_temperature_max_h")
    };
    format!(
        "Throw away what is in the jars of {}, untasted, sealed or not: the 2 hours {what} were over at {}. \
         Only what went into the refrigerator or freezer before then may be eaten. Say 'tossed {}'.{}",
        title(batch),
        words.moment(until, scene.now),
        words.jars_of(jars, batch.jar, &batch.product),
        source(key)
    )
}

/// Jars that rest in the canner longer than they should.
pub(super) fn still_in(batch: &Batch) -> String {
    format!(
        "{}: take the jars out and say 'jars are out'. Left in the closed canner they cool slowly and may turn sour, \
         though no hours are published.{}",
        title(batch),
        source("jars_left_in_canner")
    )
}

/// A gauge that reads high, and a pressure that is not enough on it.
pub(super) fn gauge_off(batch: &Batch) -> String {
    if batch.gauge_is_to_be_replaced() {
        return format!(
            "No clock for {} on this gauge: one that is off by more than {} psi, or nobody knows by how much, is \
             replaced first.{} If that was a mistake, say 'undo' to it.",
            title(batch),
            plain(figures::gauge_may_be_off(), 1),
            source("dial_gauge_replace_if_off_more_than_psi")
        );
    }
    let needed = batch.needed_on_gauge().map(|needed| plain(needed.as_psi(), 1)).unwrap_or_default();
    format!(
        "This gauge reads high: {} needs {needed} psi on it, so no clock was started. Say 'at {needed} pounds' when \
         it is there.{}",
        title(batch),
        source("dial_gauge_high_1_add_psi")
    )
}

/// Where the rule for a mishap is published.
const fn key(what: Mishap) -> &'static str {
    match what {
        Mishap::CannerDry | Mishap::PlugBlown | Mishap::WeightOff | Mishap::Fell => "interrupted_process_redo",
        Mishap::VentSkipped => "vent_skipped_or_short",
        Mishap::VentOpened => "force_cool_pressure_canner",
        Mishap::WeightStill => "pressure_start_timing",
        Mishap::LidOpened => "steam_may_open_to_add_water",
        Mishap::WaterLow => "boiling_water_cover_in_low",
        Mishap::GaugeHigh => "dial_gauge_replace_if_off_more_than_psi",
        Mishap::GaugeLow => "dial_gauge_low_is_safety_problem",
        Mishap::LeftIn => "jars_left_in_canner",
        Mishap::SteamLeak | Mishap::Unclear | Mishap::Held => "interrupted_process_redo",
    }
}

/// The one thing to do now.
fn first_thing(words: Words, said: &statement::Mishap, batch: Option<&Batch>) -> String {
    let steam = batch.is_some_and(|batch| batch.canner == CannerKind::Steam);
    let pressure = batch.is_some_and(|batch| batch.canner.is_pressure());
    match said.what {
        Mishap::CannerDry => "Turn the heat off and let the canner cool by itself; check it before it goes on. \
             No page says what that does to the jars, so it counts as a process that was interrupted."
            .to_owned(),
        Mishap::PlugBlown => {
            "Turn the heat off, and leave the canner alone until it is at zero; it needs a new plug before it goes on."
                .to_owned()
        }
        Mishap::VentSkipped => format!(
            "Without {} minutes of steam from the vent, air stays in and the jars stay too cold, whatever the gauge \
             says: bring the canner down by itself, and let it vent first.",
            figures::PRESSURE_VENT.value.num_minutes()
        ),
        Mishap::VentOpened => "Never let the pressure out by hand: it has to come down by itself.".to_owned(),
        Mishap::WeightOff => "Turn the heat off, keep clear of the steam, and put the weight back on when it is \
             calm."
            .to_owned(),
        Mishap::WeightStill => "A weight that does not rock shows too little pressure: more heat.".to_owned(),
        Mishap::LidOpened if pressure => "Keep the lid on until the gauge is at zero.".to_owned(),
        Mishap::LidOpened if steam => "A steam canner is never opened while it runs, not even to add water.".to_owned(),
        Mishap::LidOpened => "Lid back on, and only boiling water in.".to_owned(),
        Mishap::WaterLow if steam || pressure => {
            "The jars need not be covered here; but the canner must not boil dry.".to_owned()
        }
        Mishap::WaterLow => format!("Add boiling water until it stands {} over the jars.", cover(words, batch)),
        Mishap::SteamLeak | Mishap::Unclear => "Look at the canner now.".to_owned(),
        Mishap::GaugeHigh => gauge_high(said.psi, batch),
        Mishap::GaugeLow => format!(
            "Keep to the printed pressure on the gauge: one that reads low cooks the food longer, which is no danger. \
             Off by more than {} psi, replace it.",
            plain(figures::gauge_may_be_off(), 1)
        ),
        Mishap::LeftIn => "Take the jars out now: left in the closed canner they cool slowly and may turn sour. \
             No hours are published."
            .to_owned(),
        Mishap::Fell => "The time counts only while the heat holds.".to_owned(),
        Mishap::Held => "Good.".to_owned(),
    }
}

/// `1 in to 2 in`, `2 in` for a process of more than 30 minutes.
fn cover(words: Words, batch: Option<&Batch>) -> String {
    let (Some((low, high)), Some(deep)) = (figures::water_over_jars(), figures::water_over_jars_for_long()) else {
        return String::new();
    };
    match batch.and_then(|batch| batch.timing.minutes) {
        Some(31..) => words.headspace(deep),
        _ => format!("{} to {}", words.headspace(low), words.headspace(high)),
    }
}

fn gauge_high(psi: Option<Pressure>, batch: Option<&Batch>) -> String {
    if batch.is_some_and(|batch| batch.canner == CannerKind::PressureWeighted || !batch.canner.is_pressure()) {
        return "Here no dial counts.".to_owned();
    }
    let most = figures::gauge_may_be_off();
    match psi.map(Pressure::as_psi) {
        None => format!(
            "A gauge that reads high hides too little pressure. By how many psi? Say 'gauge reads high by 1'; off by \
             more than {} psi it is replaced.",
            plain(most, 1)
        ),
        Some(high) if high > most => format!(
            "Replace the gauge: it may be off by {} psi at most. There was less pressure than it showed.",
            plain(most, 1)
        ),
        Some(high) => {
            let needed = batch.and_then(Batch::needed_on_gauge).map(|needed| plain(needed.as_psi(), 1));
            let needed = needed.map_or_else(
                || format!("the printed pressure and {} psi more", plain(high, 1)),
                |needed| format!("{needed} psi"),
            );
            format!("There is less pressure than the gauge shows: it must show {needed}.")
        }
    }
}
