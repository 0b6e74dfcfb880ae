//! Every product, pack, jar and canner at the edges of every band: the lookup equals a plain reading of the table.
//!
//! The reading goes the other way round than the lookup: it takes each row in turn and writes it down under every
//! question that it answers; what nothing was written under must be refused.

use super::feet;
use rackful::processes::{Process, Query, Refusal, Untested, lookup};
use rackful::quantity::Pressure;
use rackful::vocabulary::{CannerKind, Jar, Pack, Product};
use std::collections::{BTreeMap, BTreeSet, HashMap};

const TABLE: &str = include_str!("../../../src/processes/tables/processes.csv");

/// Below the sea, at the edges of all bands, between them (the guide prints whole feet), and high up.
const ALTITUDES_FT: [f64; 24] = [
    -1640.0, -1.0, 0.0, 1.0, 1000.0, 1000.01, 1000.9, 1001.0, 2000.0, 2000.01, 2001.0, 3000.0, 3000.01, 3001.0, 4000.0,
    4000.01, 4001.0, 6000.0, 6000.01, 6001.0, 8000.0, 8000.01, 8001.0, 11_482.0,
];
const PRESSURES_PSI: [f64; 9] = [4.9, 5.0, 6.0, 9.9, 10.0, 11.0, 14.5, 15.0, 20.0];

/// Minutes, pounds (0 without pressure), pages, source.
type Time = (u32, u32, u32, String);
/// Product, canner, jar; hot or raw.
type Question = (String, CannerKind, Jar, Pack);

struct Reading {
    low_acid: BTreeSet<String>,
    products: BTreeSet<String>,
    /// What is printed for any altitude.
    anywhere: BTreeSet<Question>,
    /// What is printed here.
    here: HashMap<Question, Vec<Time>>,
}

fn read(at: f64) -> Reading {
    let lines: Vec<BTreeMap<String, String>> =
        csv::Reader::from_reader(TABLE.as_bytes()).deserialize().collect::<Result<_, _>>().unwrap();
    let own_half_pint: BTreeSet<_> = lines
        .iter()
        .filter(|line| line["jar"] == "half-pint")
        .map(|line| (line["product_id"].clone(), line["method"].clone(), line["pack"].clone()))
        .collect();
    let mut reading = Reading {
        low_acid: BTreeSet::new(),
        products: BTreeSet::new(),
        anywhere: BTreeSet::new(),
        here: HashMap::new(),
    };
    for line in &lines {
        let id = &line["product_id"];
        reading.products.insert(id.clone());
        if line["acidity"] == "low-acid" {
            reading.low_acid.insert(id.clone());
        }
        let group = (id.clone(), line["method"].clone(), line["pack"].clone());
        let time = (
            line["minutes"].parse().unwrap(),
            line["psi"].parse().unwrap_or(0),
            line["confirmed_by"].parse().unwrap(),
            line["source"].clone(),
        );
        // Whole feet, rounded up; the sea is the floor.
        let whole = at.max(0.0).ceil() as u32;
        let from: u32 = line["altitude_min_ft"].parse().unwrap();
        let to: u32 = line["altitude_max_ft"].parse().unwrap_or(u32::MAX);
        for question in questions(&group, &line["jar"], own_half_pint.contains(&group)) {
            if (from..=to).contains(&whole) {
                reading.here.entry(question.clone()).or_default().push(time.clone());
            }
            reading.anywhere.insert(question);
        }
    }
    reading
}

fn questions((id, method, pack): &(String, String, String), jar: &str, own_half_pint: bool) -> Vec<Question> {
    let jars = match jar {
        "half-pint" => vec![Jar::HalfPint],
        "pint" if own_half_pint => vec![Jar::Pint, Jar::Ml250],
        "pint" => vec![Jar::Pint, Jar::Ml250, Jar::HalfPint],
        "quart" => vec![Jar::Quart, Jar::PintAndHalf, Jar::Ml500, Jar::Ml750],
        "half-gallon" => vec![Jar::HalfGallon],
        other => panic!("{other}"),
    };
    let packs = match pack.as_str() {
        "hot" => vec![Pack::Hot],
        "raw" => vec![Pack::Raw],
        "either" => vec![Pack::Hot, Pack::Raw],
        other => panic!("{other}"),
    };
    let canners = match method.as_str() {
        "boiling-water" => vec![CannerKind::BoilingWater, CannerKind::Steam],
        "pressure-dial" => vec![CannerKind::PressureDial],
        "pressure-weighted" => vec![CannerKind::PressureWeighted],
        other => panic!("{other}"),
    };
    let mut all = Vec::new();
    for canner in canners {
        for jar in &jars {
            all.extend(packs.iter().map(|pack| (id.clone(), canner, *jar, *pack)));
        }
    }
    all
}

/// What the reading says to one question: the times that may be given, or the word for the refusal.
fn answer(
    reading: &Reading,
    id: &str,
    pack: Option<Pack>,
    jar: Jar,
    canner: CannerKind,
) -> Result<Vec<Time>, &'static str> {
    let boils = matches!(canner, CannerKind::Steam | CannerKind::BoilingWater);
    if boils && reading.low_acid.contains(id) {
        return Err("wrong canner");
    }
    let packs = match pack {
        Some(Pack::Hot) => vec![Pack::Hot],
        Some(Pack::Raw) => vec![Pack::Raw],
        _ => vec![Pack::Hot, Pack::Raw],
    };
    let printed: Vec<Question> = packs
        .into_iter()
        .map(|pack| (id.to_owned(), canner, jar, pack))
        .filter(|question| reading.anywhere.contains(question))
        .collect();
    if printed.is_empty() || (canner == CannerKind::Steam && jar == Jar::HalfGallon) {
        return Err("not tested");
    }
    let here: Vec<Vec<Time>> = printed.iter().filter_map(|question| reading.here.get(question).cloned()).collect();
    if here.is_empty() {
        return Err("not tested");
    }
    // One pack is printed up here and the other is not: whose jars they are must be said.
    if here.len() < printed.len() {
        return Err("which pack");
    }
    let good = |times: &Vec<Time>| -> Vec<Time> {
        times.iter().filter(|(minutes, _, pages, _)| *pages > 0 && *minutes != 1).cloned().collect()
    };
    let offered: Vec<Vec<Time>> = here.iter().map(good).collect();
    if offered.iter().all(Vec::is_empty) {
        return Err("unverified");
    }
    let plain = |times: &Vec<Time>| times.iter().map(|(minutes, psi, ..)| (*minutes, *psi)).collect::<BTreeSet<_>>();
    if offered.iter().map(plain).collect::<BTreeSet<_>>().len() > 1 {
        return Err("which pack");
    }
    if canner == CannerKind::Steam && offered[0][0].0 > 45 {
        return Err("too long for steam");
    }
    Ok(offered.into_iter().next().unwrap())
}

fn word(refusal: &Refusal) -> &'static str {
    match refusal {
        Refusal::NotTested(_) => "not tested",
        Refusal::Unverified { .. } => "unverified",
        Refusal::WrongCanner => "wrong canner",
        Refusal::WhichPack { .. } => "which pack",
        Refusal::TooLongForSteam { .. } => "too long for steam",
        Refusal::PressureTooLow { .. } => "pressure too low",
        other => panic!("{other:?}"),
    }
}

/// The choice to make when no pressure is said.
fn usual(times: &[Time], canner: CannerKind, at: f64) -> &Time {
    let (least, most) = match canner {
        CannerKind::PressureDial => (11, 14),
        CannerKind::PressureWeighted if at <= 1000.0 => (10, 10),
        CannerKind::PressureWeighted => (15, 15),
        _ => (0, 0),
    };
    let best = times.iter().find(|(_, psi, ..)| (least..=most).contains(psi));
    let below = || times.iter().filter(|(_, psi, ..)| *psi < least).max_by_key(|(_, psi, ..)| *psi);
    best.or_else(below).unwrap_or_else(|| times.iter().min_by_key(|(_, psi, ..)| *psi).unwrap())
}

fn check(process: &Process, (minutes, psi, pages, source): &Time, times: &[Time]) {
    let given = process.pressure.map_or(0.0, Pressure::as_psi);
    assert_eq!((process.minutes, given), (*minutes, f64::from(*psi)));
    assert_eq!((u32::from(process.confirmed_by), process.source), (*pages, source.as_str()));
    let mut expected: Vec<_> = times.iter().filter(|(_, psi, ..)| *psi > 0).map(|(m, psi, ..)| (*psi, *m)).collect();
    expected.sort_unstable();
    let choices: Vec<_> = process.choices.iter().map(|c| (c.pressure.as_psi() as u32, c.minutes)).collect();
    assert_eq!(choices, expected);
}

#[test]
fn every_question_has_the_tables_answer_or_none() {
    let (mut given, mut refused) = (0, BTreeMap::new());
    for at in ALTITUDES_FT {
        let reading = read(at);
        for id in &reading.products {
            let product = Product::named(id);
            for (canner, jar, pack) in combinations() {
                let query = Query { product: &product, pack, jar, canner, altitude: Some(feet(at)), pressure: None };
                let context = format!("{id} {pack:?} {jar} {canner} at {at} ft");
                match (lookup(&query), answer(&reading, id, pack, jar, canner)) {
                    (Ok(process), Ok(times)) => {
                        check(&process, usual(&times, canner, at), &times);
                        assert_eq!((process.product.id, process.asked_jar, process.canner), (id.as_str(), jar, canner));
                        assert_eq!(process.jar_note.is_some(), process.jar != jar, "{context}");
                        assert!(process.jar.volume() >= jar.volume(), "{context}");
                        given += 1;
                    }
                    (Err(refusal), Err(expected)) => {
                        assert_eq!(word(&refusal), expected, "{context}: {refusal:?}");
                        *refused.entry(expected).or_insert(0) += 1;
                    }
                    (found, expected) => panic!("{context}: {found:?}, the table says {expected:?}"),
                }
            }
        }
    }
    assert_eq!(refused.len(), 5, "{refused:?}");
    assert!(given > 30_000, "{given}");
}

#[test]
fn a_pressure_that_was_said_gets_the_highest_row_it_reaches() {
    let mut too_low = 0;
    for at in ALTITUDES_FT {
        let reading = read(at);
        for id in &reading.products {
            let product = Product::named(id);
            for (canner, jar, pack) in combinations().into_iter().filter(|(canner, ..)| canner.is_pressure()) {
                let Ok(times) = answer(&reading, id, pack, jar, canner) else { continue };
                for psi in PRESSURES_PSI {
                    let pressure = Pressure::from_psi(psi);
                    let found =
                        lookup(&Query { product: &product, pack, jar, canner, altitude: Some(feet(at)), pressure });
                    let reached = times.iter().filter(|time| f64::from(time.1) <= psi).max_by_key(|time| time.1);
                    match reached {
                        Some(time) => check(&found.unwrap(), time, &times),
                        None => {
                            let least = times.iter().map(|time| time.1).min().unwrap();
                            let need = Pressure::from_psi(f64::from(least)).unwrap();
                            assert_eq!(found, Err(Refusal::PressureTooLow { need }), "{id} {psi} lb at {at} ft");
                            too_low += 1;
                        }
                    }
                }
            }
        }
    }
    assert!(too_low > 1000, "{too_low}");
}

#[test]
fn without_an_altitude_nothing_is_given_and_what_has_no_row_anywhere_is_said_so() {
    let reading = read(0.0);
    for id in &reading.products {
        let product = Product::named(id);
        for (canner, jar, pack) in combinations() {
            let query = Query { product: &product, pack, jar, canner, altitude: None, pressure: None };
            let refusal = lookup(&query).unwrap_err();
            let unknown = refusal == Refusal::AltitudeUnknown;
            let untested = matches!(answer(&reading, id, pack, jar, canner), Err("not tested" | "wrong canner"));
            assert!(!(unknown && untested), "{id} {pack:?} {jar} {canner}");
            assert!(unknown || !matches!(refusal, Refusal::NotTested(Untested::Altitude)), "{refusal:?}");
        }
    }
}

fn combinations() -> Vec<(CannerKind, Jar, Option<Pack>)> {
    let packs = [None, Some(Pack::Hot), Some(Pack::Raw), Some(Pack::Either)];
    let mut all = Vec::new();
    for canner in CannerKind::ALL {
        for jar in Jar::ALL {
            all.extend(packs.map(|pack| (*canner, *jar, pack)));
        }
    }
    all
}
