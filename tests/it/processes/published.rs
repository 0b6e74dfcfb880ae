//! Guide 3's tables for whole, crushed and juiced tomatoes, transcribed a second time (`tests/data/processes`; each
//! file names its pages).

use super::{ask, feet};
use rackful::processes::{Query, Refusal, lookup, product};
use rackful::quantity::Pressure;
use rackful::vocabulary::{CannerKind, Jar, Pack, Product};

type Line = (Product, Pack, Jar, Vec<Option<u32>>);

/// Product, pack, jar, and the numbers of a line.
fn lines(text: &str, numbers: usize) -> Vec<Line> {
    let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).from_reader(text.as_bytes());
    let line = |line: csv::StringRecord| {
        let numbers = line.iter().skip(3).take(numbers).map(|number| number.parse().ok()).collect();
        (Product::named(&line[0]), Pack::named(&line[1]).unwrap(), Jar::named(&line[2]).unwrap(), numbers)
    };
    reader.records().map(|record| line(record.unwrap())).collect()
}

#[test]
fn boiling_water_times_are_those_of_the_second_transcription() {
    let lines = lines(include_str!("../../data/processes/guide3-boiling-water.csv"), 4);
    assert_eq!(lines.len(), 20);
    for (product, pack, jar, minutes) in &lines {
        for (band, minutes) in
            [(0.0, 1000.0), (1001.0, 3000.0), (3001.0, 6000.0), (6001.0, 11_000.0)].iter().zip(minutes)
        {
            for at in [band.0, band.1] {
                let query = |canner| Query {
                    product,
                    pack: Some(*pack),
                    jar: *jar,
                    canner,
                    altitude: Some(feet(at)),
                    pressure: None,
                };
                let water = lookup(&query(CannerKind::BoilingWater)).map(|process| process.minutes);
                assert_eq!(water.ok(), *minutes, "{product} {jar} at {at} ft");
                match lookup(&query(CannerKind::Steam)) {
                    Ok(steam) => {
                        assert!(Some(steam.minutes) == *minutes && steam.minutes <= 45, "{product} at {at} ft")
                    }
                    Err(Refusal::TooLongForSteam { minutes: long, .. }) => {
                        assert!(Some(long) == *minutes && long > 45, "{product} at {at} ft");
                    }
                    Err(other) => panic!("{product} at {at} ft: {other:?}"),
                }
            }
        }
    }
}

/// Every choice of a line is offered, or is one that the embedded table has from memory only.
fn check_pressures(text: &str, canner: CannerKind, bands: &[(f64, f64)], expected: usize) {
    let lines = lines(text, bands.len() + 1);
    let mut checked = 0;
    for (name, pack, jar, numbers) in &lines {
        let id = product(name.as_str()).unwrap().id;
        let minutes = numbers[0].unwrap();
        for (band, pounds) in bands.iter().zip(&numbers[1..]) {
            for at in [band.0, band.1] {
                let choices = ask(id, Some(*pack), *jar, canner, at).unwrap().choices;
                let offered = choices.iter().find(|choice| choice.minutes == minutes).map(|choice| choice.pressure);
                assert_eq!(
                    offered,
                    pounds.and_then(|psi| Pressure::from_psi(psi.into())),
                    "{id} {minutes} min at {at} ft"
                );
                checked += 1;
            }
        }
    }
    assert_eq!(checked, expected);
}

#[test]
fn dial_gauge_pressures_are_those_of_the_second_transcription() {
    let bands = [(0.0, 2000.0), (2001.0, 4000.0), (4001.0, 6000.0), (6001.0, 8000.0)];
    let text = include_str!("../../data/processes/guide3-dial-gauge.csv");
    check_pressures(text, CannerKind::PressureDial, &bands, 14 * 8);
}

#[test]
fn weighted_gauge_pressures_are_those_of_the_second_transcription() {
    let text = include_str!("../../data/processes/guide3-weighted-gauge.csv");
    check_pressures(text, CannerKind::PressureWeighted, &[(0.0, 1000.0), (1001.0, 11_000.0)], 12 * 4);
}
