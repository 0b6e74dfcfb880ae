//! What the handbook says of a product: minutes, pressure, headspace, acid, load, and where each is printed.

use super::answers::meant;
use super::{Facts, Reply, Scene, Words, capitalised};
use crate::batch::Batch;
use crate::ledger::{Made, Refusal, made};
use crate::processes::{self, Process, ProductInfo, facts as figures};
use crate::statement::Ask;
use crate::vocabulary::{Acid, CannerKind, Jar, Pack, Product};
use serde_json::{Value, json};

/// The product, the jar and the canner that a question means.
fn asked_for(scene: Scene<'_>, ask: &Ask) -> Result<(Made, Jar), Refusal> {
    let state = scene.state;
    let open = meant(scene, ask).first().copied().filter(|_| ask.product.is_none());
    let made = made(state, ask.product.as_ref().or(open.map(|batch| &batch.product)))?;
    let product = made.product();
    let jar = match (ask.jar.or(open.map(|batch| batch.jar)), &made) {
        (Some(jar), _) => jar,
        (None, _) if product == state.settings.product => state.settings.jar,
        (None, Made::Tested(info)) => match (info.jars().as_slice(), info.unverified_jar()) {
            ([only], _) => *only,
            (_, Some(printed)) => printed,
            (several, None) => return Err(Refusal::WhichJar(product, several.to_vec())),
        },
        (None, Made::Own(_)) => state.settings.jar,
    };
    Ok((made, jar))
}

/// Everything that is printed of a process, without starting a batch.
pub(super) fn process(scene: Scene<'_>, ask: &Ask) -> Result<Reply, Refusal> {
    // A question may be of another place than this kitchen.
    if let Some(altitude) = ask.length {
        let mut elsewhere = scene.state.clone();
        elsewhere.settings.altitude = Some(altitude);
        let there = Scene { state: &elsewhere, ..scene };
        return process(there, &Ask { length: None, ..ask.clone() });
    }
    let (made, jar) = asked_for(scene, ask)?;
    match scene.state.canner_meant(ask.canner) {
        Ok(canner) => process_in(scene, ask, &made, jar, canner),
        // Nobody has said which gauge theirs has: a question is answered for both.
        Err(_) => {
            let of = |canner| process_in(scene, ask, &made, jar, canner);
            match (of(CannerKind::PressureDial), of(CannerKind::PressureWeighted)) {
                (Ok(dial), Ok(weighted)) => Ok(both(dial, weighted)),
                (Ok(one), Err(_)) | (Err(_), Ok(one)) => Ok(one),
                (Err(refusal), Err(_)) => Err(refusal),
            }
        }
    }
}

/// Two answers as one; a figure in which they differ is not a fact of it.
fn both(mut one: Reply, other: Reply) -> Reply {
    one.text = format!("{}\n{}", one.text, other.text);
    one.facts.keep_common(&other.facts);
    one
}

fn process_in(scene: Scene<'_>, ask: &Ask, made: &Made, jar: Jar, canner: CannerKind) -> Result<Reply, Refusal> {
    let (state, words) = (scene.state, Words::of(&scene.state.settings));
    let product = made.product();
    let found = state.process(&product, jar, canner, ask.pack, None)?;
    let mut facts = Facts::default();
    facts.timing(&crate::batch::Timing::from(&found)).set("jar", jar.as_str());
    let altitude = state.settings.altitude.map(|altitude| words.altitude(altitude)).unwrap_or_default();
    let mut text = format!(
        "{} in {}{}, {}, {altitude}: {}.",
        capitalised(&words.product(&product)),
        jar.spoken(2),
        packed(found.product, found.pack),
        canner.spoken(),
        minutes(words, &found, found.minutes, found.pressure.map(crate::quantity::Pressure::as_psi))
    );
    text.push_str(&others(words, &found, &mut facts));
    if let Some(note) = &found.jar_note {
        text.push_str(&format!(" (The time of the {}: {}.)", note.takes.spoken(1), note.source));
    }
    if let Some(headspace) = found.headspace {
        text.push_str(&format!(" Headspace {}.", words.headspace(headspace)));
    }
    text.push_str(&acid_a_jar(scene, found.product, jar, &mut facts));
    text.push_str(&load(words, found.product, jar, &mut facts));
    text.push_str(&sterilise(scene, canner, found.minutes));
    if let Some(condition) = processes::condition(found.product) {
        text.push_str(&format!("\n{condition}"));
    }
    let label = if found.confirmed_by == 1 { "One source" } else { "Source" };
    text.push_str(&format!(
        "\n{label}: {}. Follow its recipe; your extension service has the last word.",
        found.source
    ));
    Ok(Reply { text, facts })
}

fn minutes(words: Words, found: &Process, minutes: u32, psi: Option<f64>) -> String {
    match psi {
        Some(psi) => format!("{minutes} min at {} psi", super::words::plain(psi, 1)),
        None => format!("{minutes} min at a steady {}", words.temperature(found.heat)),
    }
}

/// `, hot pack`, for a product that is packed in more than one way.
pub(super) fn packed(info: &ProductInfo, pack: Pack) -> &'static str {
    match pack {
        Pack::Hot if info.packs().len() > 1 => ", hot pack",
        Pack::Raw if info.packs().len() > 1 => ", raw pack",
        Pack::Hot | Pack::Raw | Pack::Either => "",
    }
}

/// The other tested choices under pressure.
fn others(words: Words, found: &Process, facts: &mut Facts) -> String {
    if found.choices.len() < 2 {
        return String::new();
    }
    let choices =
        found.choices.iter().map(|choice| json!({"minutes": choice.minutes, "psi": choice.pressure.as_psi()}));
    facts.set("choices", choices.collect::<Vec<Value>>());
    let others = found.choices.iter().filter(|choice| Some(choice.pressure) != found.pressure);
    let others: Vec<_> =
        others.map(|choice| minutes(words, found, choice.minutes, Some(choice.pressure.as_psi()))).collect();
    format!(" Also tested: {}.", others.join("; "))
}

fn acid_a_jar(scene: Scene<'_>, info: &ProductInfo, jar: Jar, facts: &mut Facts) -> String {
    let Some(dose) = processes::dose(info, jar, scene.state.acid_for(&info.product(), jar)) else {
        return String::new();
    };
    facts.set("acid", dose.acid.as_str());
    match dose.mass {
        Some(mass) => facts.mass("acid_g", mass),
        None => facts.volume("acid_ml", dose.amount),
    };
    format!(" Acid {} {} a jar.", dose.text, super::words::supply(dose.acid.supply()))
}

/// What a load takes and makes, with where it is printed.
fn load(words: Words, info: &ProductInfo, jar: Jar, facts: &mut Facts) -> String {
    let Some(load) = processes::load(info, jar, None) else {
        let Some((jars, source)) = processes::jars_per_load(info, jar) else { return String::new() };
        facts.set("jars", jars).set("load_source", source);
        return format!(" A load is {} ({source}).", words.jars(jars, jar));
    };
    facts.set("jars", load.jars).mass("target_g", load.mass).set("load_source", load.source);
    let scaled = if load.scaled { ", scaled by volume" } else { "" };
    format!(" A load is {}: {} raw{scaled} ({}).", words.jars(load.jars, jar), words.mass(load.mass), load.source)
}

/// Jars for a short process are sterilised first.
pub(super) fn sterilise(scene: Scene<'_>, canner: CannerKind, minutes: u32) -> String {
    let short = i64::from(minutes) < figures::STERILISE_BELOW.value.num_minutes() && !canner.is_pressure();
    match scene.state.settings.altitude.and_then(figures::sterilise_minutes).filter(|_| short) {
        Some((boil, source)) => {
            format!(" The process is short, so boil the empty jars for {boil} min first ({source}).")
        }
        None => String::new(),
    }
}

pub(super) fn acid(scene: Scene<'_>, ask: &Ask) -> Result<Reply, Refusal> {
    let (state, words) = (scene.state, Words::of(&scene.state.settings));
    let batch = meant(scene, ask).first().copied().filter(|batch| {
        ask.product.as_ref().is_none_or(|product| batch.is_called(product.as_str()))
            && ask.jar.is_none_or(|jar| jar == batch.jar)
    });
    let (made, jar) = asked_for(scene, ask)?;
    let product = made.product();
    let mut facts = Facts::default();
    facts.set("jar", jar.as_str());
    let Made::Tested(info) = made else { return Ok(no_acid(&product, words, facts)) };
    let first = ask.acid.or(batch.and_then(|batch| batch.acid)).unwrap_or_else(|| state.acid_for(&product, jar));
    let jars = ask.jars.or(batch.map(Batch::jars));
    let doses: Vec<_> = [first, Acid::LemonJuice, Acid::CitricAcid]
        .into_iter()
        .filter_map(|acid| processes::dose(info, jar, acid))
        .collect();
    let Some(dose) = doses.first() else { return Ok(no_acid(&product, words, facts)) };
    facts.set("acid", dose.acid.as_str()).set("source", dose.source);
    match dose.mass {
        Some(mass) => facts.mass("acid_g", mass),
        None => facts.volume("acid_ml", dose.amount),
    };
    let mut text = format!("{} {} in each {}", dose.text, super::words::supply(dose.acid.supply()), jar.spoken(1));
    if let Some(other) = doses.iter().find(|other| other.acid != dose.acid) {
        text.push_str(&format!(", or {} {}", other.text, super::words::supply(other.acid.supply())));
    }
    if let (Some(jars), Some(total)) = (jars, jars.and_then(|jars| dose.for_jars(jars))) {
        match dose.mass_for_jars(jars) {
            Some(mass) => facts.mass("acid_total_g", mass),
            None => facts.volume("acid_total_ml", total),
        };
        facts.set("jars", jars);
        text.push_str(&format!("; {} for {}", words.volume(total), words.jars(jars, jar)));
    }
    text.push_str(&format!(". ({})", dose.source));
    Ok(Reply { text, facts })
}

fn no_acid(product: &Product, words: Words, facts: Facts) -> Reply {
    let text = format!(
        "No acid dose a jar is published for {}; follow the tested recipe as it is written.",
        words.product(product)
    );
    Reply { text, facts }
}
