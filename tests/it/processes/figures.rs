//! Every figure of a process answer, as the program says it, against a plain reading of the reference tables: for every
//! product, pack, canner, jar and altitude band. Minutes, pressures and sources: USDA AIB 539 (2015), Guides 2 to 7,
//! the process tables; headspace and loads: the same guides under "quantity" and "procedure"; acid: Guide 3, General,
//! Acidification, and Tomatillos, and Guide 2, Figs, and Pears, Asian.
//!
//! The times themselves are compared in `exhaustive`; here it is what reaches a person that is compared: the facts of
//! the reply.

use super::feet;
use rackful::ledger::Ledger;
use rackful::ledger::state::State;
use rackful::processes::{Query, Refusal, lookup};
use rackful::reply::{Reply, Scene, answer, refusal};
use rackful::statement::Ask;
use rackful::vocabulary::{CannerKind, Jar, Pack, Product, Subject};
use rackful::zone::Zone;
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};

const YIELDS: &str = include_str!("../../../src/processes/tables/yields.csv");
const ACID: &str = include_str!("../../../src/processes/tables/acidification.csv");
const TIMES: &str = include_str!("../../../src/processes/tables/processes.csv");

/// One height in every band that any table has.
const ALTITUDES_FT: [f64; 7] = [500.0, 1500.0, 2500.0, 3500.0, 5000.0, 7000.0, 9000.0];

/// Guide 3, General, Acidification, is for whole, crushed and juiced tomatoes, and each of these procedures refers to
/// it; ketchups, hot sauces and salsas hold their acid by the recipe.
const ACIDIFIED: [(&str, &str); 11] = [
    ("tomato-juice", "tomato"),
    ("tomato-juice-blend", "tomato"),
    ("tomato-crushed", "tomato"),
    ("tomato-sauce-thin", "tomato"),
    ("tomato-sauce-thick", "tomato"),
    ("tomato-whole-water", "tomato"),
    ("tomato-whole-juice", "tomato"),
    ("tomato-whole-raw", "tomato"),
    ("tomatillos", "tomatillo"),
    ("figs", "fig"),
    ("pears-asian", "pear-asian"),
];

type Line = BTreeMap<String, String>;

fn lines(text: &str) -> Vec<Line> {
    csv::Reader::from_reader(text.as_bytes()).deserialize().collect::<Result<_, _>>().unwrap()
}

/// Volumes in fluid ounces; a litre is 33.814 of them.
fn ounces(jar: Jar) -> f64 {
    match jar {
        Jar::HalfPint => 8.0,
        Jar::Pint => 16.0,
        Jar::PintAndHalf => 24.0,
        Jar::Quart => 32.0,
        Jar::HalfGallon => 64.0,
        Jar::Ml250 => 8.4535,
        Jar::Ml500 => 16.907,
        Jar::Ml750 => 25.3605,
        Jar::L1 => 33.814,
    }
}

/// The confirmed lines of a product, the one closest in volume first.
fn closest<'a>(lines: &'a [Line], id: &str, jar: Jar, has: &str) -> Option<&'a Line> {
    let distance = |line: &Line| (ounces(Jar::named(&line["jar"]).unwrap()) / ounces(jar)).ln().abs();
    lines
        .iter()
        .filter(|line| line["product_id"] == id && line["confirmed_by"] != "0" && !line[has].is_empty())
        .min_by(|a, b| distance(a).total_cmp(&distance(b)))
}

/// Jars, pounds and source of a load.
fn load(lines: &[Line], id: &str, jar: Jar) -> Option<(f64, f64, String)> {
    let line = closest(lines, id, jar, "pounds_per_load")?;
    let (jars, pounds): (f64, f64) = (line["jars_per_load"].parse().unwrap(), line["pounds_per_load"].parse().unwrap());
    let printed = Jar::named(&line["jar"]).unwrap();
    if printed == jar {
        return Some((jars, pounds, line["source"].clone()));
    }
    let fits = match jar {
        Jar::HalfGallon => return None,
        Jar::HalfPint | Jar::Pint | Jar::Ml250 | Jar::Ml500 => 9.0,
        _ => 7.0,
    };
    Some((fits, pounds * fits / jars * ounces(jar) / ounces(printed), line["source"].clone()))
}

/// Millilitres of lemon juice a jar: what the program names while no acid was ever bought.
fn lemon(lines: &[Line], id: &str, jar: Jar) -> Option<f64> {
    let (_, food) = ACIDIFIED.iter().find(|(product, _)| *product == id)?;
    let size = match jar {
        Jar::HalfPint | Jar::Pint | Jar::Ml250 => "pint",
        Jar::PintAndHalf | Jar::Quart | Jar::Ml500 | Jar::Ml750 => "quart",
        Jar::HalfGallon | Jar::L1 => return None,
    };
    let line = lines
        .iter()
        .find(|line| line["food"] == *food && line["acid"] == "bottled-lemon-juice" && line["jar"] == size)
        .unwrap();
    assert_eq!((line["unit"].as_str(), line["confirmed_by"] != "0"), ("tbsp", true));
    Some(line["amount"].parse::<f64>().unwrap() * 14.786_764_781_25)
}

fn number(reply: &Reply, name: &str) -> Option<f64> {
    reply.facts.0.get(name).and_then(Value::as_f64)
}

fn close(found: Option<f64>, expected: Option<f64>) -> bool {
    match (found, expected) {
        (Some(found), Some(expected)) => (found - expected).abs() <= 1e-4 * expected.abs() + 2e-3,
        (None, None) => true,
        _ => false,
    }
}

struct Tables {
    yields: Vec<Line>,
    acid: Vec<Line>,
}

impl Tables {
    fn check(&self, id: &str, jar: Jar, timed_as: Jar, reply: &Reply, context: &str) {
        let load = load(&self.yields, id, jar);
        // A recipe that says how many jars it makes, and of no weight.
        let makes = self.yields.iter().find(|line| {
            let is_its_own = line["product_id"] == id && Jar::named(&line["jar"]) == Some(jar);
            load.is_none() && is_its_own && line["confirmed_by"] != "0" && !line["jars_per_load"].is_empty()
        });
        let jars =
            load.as_ref().map(|load| load.0).or_else(|| makes.map(|line| line["jars_per_load"].parse().unwrap()));
        assert!(close(number(reply, "jars"), jars), "{context}: jars a load, {jars:?}");
        let grams = load.as_ref().map(|load| load.1 * 453.592_37);
        assert!(close(number(reply, "target_g"), grams), "{context}: weight of a load, {grams:?}");
        let source = reply.facts.0.get("load_source").and_then(Value::as_str);
        let printed = load.as_ref().map(|load| load.2.as_str()).or_else(|| makes.map(|line| line["source"].as_str()));
        assert_eq!(source, printed, "{context}");
        let headspace = closest(&self.yields, id, timed_as, "headspace_in");
        let millimetres = headspace.map(|line| line["headspace_in"].parse::<f64>().unwrap() * 25.4);
        assert!(close(number(reply, "headspace_mm"), millimetres), "{context}: headspace, {millimetres:?}");
        let acid = lemon(&self.acid, id, jar);
        assert!(close(number(reply, "acid_ml"), acid), "{context}: acid, {acid:?}");
        assert_eq!(reply.facts.0.contains_key("acid"), acid.is_some(), "{context}");
    }
}

fn is_one_sentence(text: &str) -> bool {
    let ends = text.match_indices(['.', '?', '!']).filter(|(at, _)| text[at + 1..].starts_with(' ')).count();
    ends == 0 && text.ends_with(['.', '?'])
}

#[test]
fn every_figure_that_reaches_a_person_is_its_rows_own_and_every_refusal_is_one_sentence() {
    let tables = Tables { yields: lines(YIELDS), acid: lines(ACID) };
    let ids: BTreeSet<String> = lines(TIMES).into_iter().map(|line| line["product_id"].clone()).collect();
    assert_eq!(ids.len(), 133);
    let (mut given, mut topics) = (0, BTreeMap::<&str, u32>::new());
    for at in ALTITUDES_FT {
        let mut state = State::new(Zone::UTC);
        state.settings.altitude = Some(feet(at));
        let ledger = Ledger::from_state(state.clone());
        let scene = Scene { state: &state, now: crate::support::noon() };
        for id in &ids {
            let product = Product::named(id);
            for canner in gauged() {
                for jar in Jar::ALL.iter().copied() {
                    for pack in [None, Some(Pack::Hot), Some(Pack::Raw)] {
                        let context = format!("{id} {pack:?} {jar} {canner} at {at} ft");
                        let query =
                            Query { product: &product, pack, jar, canner, altitude: Some(feet(at)), pressure: None };
                        let ask = Ask { canner: Some(canner), pack, jar: Some(jar), ..about(&product) };
                        match (lookup(&query), answer(scene, &ledger, &ask)) {
                            (Ok(found), Ok(reply)) => {
                                assert_eq!(number(&reply, "minutes"), Some(f64::from(found.minutes)), "{context}");
                                let psi = found.pressure.map(|pressure| pressure.as_psi());
                                assert!(close(number(&reply, "psi"), psi), "{context}");
                                assert_eq!(reply.facts.0["source"], found.source, "{context}");
                                assert!(reply.text.contains(found.source), "{context}: {}", reply.text);
                                tables.check(id, jar, found.jar, &reply, &context);
                                given += 1;
                            }
                            (Err(_), Err(why)) => {
                                let (topic, reply) = refusal(scene, &why);
                                assert!(is_one_sentence(&reply.text), "{context}: {}", reply.text);
                                let timeless = !reply.facts.0.contains_key("minutes") || topic == "too-long-for-steam";
                                assert!(timeless && !reply.facts.0.contains_key("psi"), "{context}: {}", reply.text);
                                *topics.entry(topic).or_insert(0) += 1;
                            }
                            (found, said) => panic!("{context}: {found:?}, said is {said:?}"),
                        }
                    }
                }
            }
        }
    }
    assert!(given > 7_000, "{given}");
    let all: Vec<&str> = topics.keys().copied().collect();
    assert_eq!(all, ["clarify", "not-tested", "too-long-for-steam", "wrong-canner"], "{topics:?}");
}

/// Every canner whose gauge is known. One whose gauge is not is answered for both, see below.
fn gauged() -> impl Iterator<Item = CannerKind> {
    CannerKind::ALL.iter().copied().filter(|canner| *canner != CannerKind::Pressure)
}

/// Asked of a pressure canner whose gauge nobody has told, both gauges are answered, and no figure in which they differ
/// is a fact.
#[test]
fn a_pressure_canner_without_its_gauge_is_answered_for_both() {
    let ids: BTreeSet<String> = lines(TIMES).into_iter().map(|line| line["product_id"].clone()).collect();
    let mut both = 0;
    for at in ALTITUDES_FT {
        let mut state = State::new(Zone::UTC);
        state.settings.altitude = Some(feet(at));
        let ledger = Ledger::from_state(state.clone());
        let scene = Scene { state: &state, now: crate::support::noon() };
        for id in &ids {
            let product = Product::named(id);
            let of = |canner| {
                let ask = Ask { canner: Some(canner), jar: Some(Jar::Pint), pack: Some(Pack::Hot), ..about(&product) };
                answer(scene, &ledger, &ask)
            };
            let parts = [CannerKind::PressureDial, CannerKind::PressureWeighted].map(of);
            let told: Vec<_> = parts.iter().flatten().map(|reply| reply.text.clone()).collect();
            match of(CannerKind::Pressure) {
                Ok(reply) => assert_eq!(reply.text, told.join("\n"), "{id} at {at} ft"),
                Err(_) => assert!(told.is_empty(), "{id} at {at} ft"),
            }
            if let ([Ok(dial), Ok(weighted)], Ok(reply)) = (&parts, of(CannerKind::Pressure)) {
                both += 1;
                for (name, value) in &reply.facts.0 {
                    assert!(
                        dial.facts.0[name] == *value && weighted.facts.0[name] == *value,
                        "{id} at {at} ft: {name}"
                    );
                }
            }
        }
    }
    assert!(both > 100, "{both}");
}

fn about(product: &Product) -> Ask {
    Ask { product: Some(product.clone()), ..Ask::about(Subject::Process) }
}

/// What the refusals suggest is itself tested: the smaller jar in the steam canner, the other canners and jars.
#[test]
fn the_way_out_that_a_refusal_names_has_a_time() {
    let mut smaller = 0;
    for at in ALTITUDES_FT {
        for line in lines(TIMES) {
            let product = Product::named(&line["product_id"]);
            for jar in Jar::ALL.iter().copied() {
                let pack = Pack::named(&line["pack"]);
                let query = Query {
                    product: &product,
                    pack,
                    jar,
                    canner: CannerKind::Steam,
                    altitude: Some(feet(at)),
                    pressure: None,
                };
                if let Err(Refusal::TooLongForSteam { minutes, smaller_jar }) = lookup(&query) {
                    assert!(minutes > 45, "{} {jar}", line["product_id"]);
                    let water = lookup(&Query { canner: CannerKind::BoilingWater, ..query }).unwrap();
                    assert_eq!(water.minutes, minutes);
                    if let Some(other) = smaller_jar {
                        let fits = lookup(&Query { jar: other, ..query }).unwrap();
                        assert!(fits.minutes <= 45 && other.volume() < jar.volume());
                        smaller += 1;
                    }
                }
            }
        }
    }
    assert!(smaller > 100, "{smaller}");
}
