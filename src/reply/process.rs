//! What the tables say of a product: minutes, pressure, headspace, acid, what a load takes, and where it is printed.

use super::answers::meant;
use super::{Facts, Reply, Scene, Words};
use crate::batch::{Batch, Timing};
use crate::ledger::{Made, Refusal, made};
use crate::processes::{self, Process};
use crate::quantity::Pressure;
use crate::statement::Ask;
use crate::vocabulary::{Acid, CannerKind, Jar, Product};

/// The product, the jar and the canner that a question means.
fn asked_for(scene: Scene<'_>, ask: &Ask) -> Result<(Made, Jar), Refusal> {
    let state = scene.state;
    let open = meant(scene, ask).first().copied().filter(|_| ask.product.is_none());
    let made = made(state, ask.product.as_ref().or(open.map(|batch| &batch.product)))?;
    let product = made.product();
    let jar = match (ask.jar.or(open.map(|batch| batch.jar)), &made) {
        (Some(jar), _) => jar,
        (None, _) if product == state.settings.product => state.settings.jar,
        (None, Made::Tested(info)) => match info.jars().as_slice() {
            [only] => *only,
            several => return Err(Refusal::WhichJar(product, several.to_vec())),
        },
        (None, Made::Own(_)) => state.settings.jar,
    };
    Ok((made, jar))
}

/// The process for a product here.
///
/// # Errors
/// When there is none, or the question leaves open which.
pub(super) fn process(scene: Scene<'_>, ask: &Ask) -> Result<Reply, Refusal> {
    let (state, words) = (scene.state, Words::of(&scene.state.settings));
    let (made, jar) = asked_for(scene, ask)?;
    let product = made.product();
    let found = match state.canner_meant(ask.canner) {
        Ok(canner) => vec![state.process(&product, jar, canner, ask.pack, None)?],
        // Nobody has said which gauge theirs has: a question is answered for both.
        Err(_) => both_gauges(scene, &product, jar, ask)?,
    };
    let mut facts = Facts::default();
    facts.set("jar", jar.as_str());
    if let [only] = found.as_slice() {
        facts.timing(&Timing::from(only));
    } else if let Some(first) = found.first() {
        let Timing { minutes, headspace, source, .. } = Timing::from(first);
        let same = found.iter().all(|process| Some(process.minutes) == minutes);
        facts.timing(&Timing { minutes, headspace, source, ..Timing::default() });
        if !same {
            facts.remove("minutes");
        }
    }
    let times: Vec<_> = found.iter().map(|process| time(process, words)).collect();
    let altitude = state.settings.altitude.map(|altitude| words.altitude(altitude)).unwrap_or_default();
    let name = super::refusals::capitalised(&words.product(&product));
    let mut text = format!("{name} in {}, {altitude}, {}.", jar.spoken(2), times.join("; "));
    let Some(first) = found.first() else { return Err(Refusal::WhichGauge) };
    if let Some(note) = &first.jar_note {
        text.push_str(&format!(" (The time of the {}: the tested size for these jars.)", note.takes.spoken(1)));
    }
    if let Some(headspace) = first.headspace {
        text.push_str(&format!(" Headspace {}.", words.headspace(headspace)));
    }
    if let Made::Tested(info) = made {
        if let Some(dose) = processes::dose(info, jar, state.acid_for(&product, jar)) {
            facts.set("acid", dose.acid.as_str());
            match dose.mass {
                Some(mass) => facts.mass("acid_g", mass),
                None => facts.volume("acid_ml", dose.amount),
            };
            text.push_str(&format!(" Acid: {} {} a jar.", dose.text, super::words::supply(dose.acid.supply())));
        }
        let load = crate::planning::target(state, Some(&product), Some(jar));
        if let Some(load) = load.filter(|_| processes::load(info, jar, None).is_some()) {
            facts.mass("target_g", load.mass).set("jars", load.jars);
            let jars = words.jars(load.jars, jar);
            text.push_str(&format!(" A load is {jars}, from {} raw.", words.mass(load.mass)));
        }
    }
    let mut sources: Vec<_> = found.iter().map(|process| process.source).collect();
    sources.dedup();
    let sources = sources.join("; ");
    text.push_str(&format!("\nSource: {sources}. Follow its recipe; your extension service has the last word."));
    Ok(Reply { text, facts })
}

/// The processes on either gauge, where both have one.
fn both_gauges(scene: Scene<'_>, product: &Product, jar: Jar, ask: &Ask) -> Result<Vec<Process>, Refusal> {
    let of = |canner| scene.state.process(product, jar, canner, ask.pack, None);
    match (of(CannerKind::PressureDial), of(CannerKind::PressureWeighted)) {
        (Ok(dial), Ok(weighted)) => Ok(vec![dial, weighted]),
        (Ok(one), Err(_)) | (Err(_), Ok(one)) => Ok(vec![one]),
        (Err(refusal), Err(_)) => Err(refusal),
    }
}

/// `dial-gauge pressure canner: 20 min at 12 psi`, with the other tested choices.
fn time(found: &Process, words: Words) -> String {
    let minutes = |minutes: u32, psi: Option<f64>| match psi {
        Some(psi) => format!("{minutes} min at {} psi", super::words::plain(psi, 1)),
        None => format!("{minutes} min at a steady {}", words.temperature(found.heat)),
    };
    let time = minutes(found.minutes, found.pressure.map(Pressure::as_psi));
    let others = found.choices.iter().filter(|choice| Some(choice.pressure) != found.pressure);
    let others: Vec<_> = others.map(|choice| minutes(choice.minutes, Some(choice.pressure.as_psi()))).collect();
    let others = if others.is_empty() { String::new() } else { format!(" (also tested: {})", others.join(", ")) };
    format!("{}: {time}{others}", found.canner.spoken())
}

/// How much acid, for a jar and for the jars that are meant.
///
/// # Errors
/// When the question leaves open of what.
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
    let first = batch.and_then(|batch| batch.acid).unwrap_or_else(|| state.acid_for(&product, jar));
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
