//! What is refused, and what the refusal says to do instead.

use super::{ask, feet};
use rackful::processes::{Query, Refusal, Untested, lookup};
use rackful::quantity::{Length, Pressure};
use rackful::vocabulary::{CannerKind, Jar, Pack, Product};

const SEA: f64 = 0.0;

#[test]
fn a_name_outside_the_tables_and_a_family_word_are_told_apart() {
    let named = |name| {
        let product = Product::named(name);
        let altitude = Some(feet(SEA));
        let (pack, jar, canner) = (None, Jar::Pint, CannerKind::BoilingWater);
        lookup(&Query { product: &product, pack, jar, canner, altitude, pressure: None }).unwrap_err()
    };
    assert_eq!(named("fire soup"), Refusal::UnknownProduct);
    let Refusal::WhichProduct(salsas) = named("salsa") else { panic!("salsa fits several") };
    assert!(salsas.iter().any(|info| info.id == "chile-salsa"));
    assert!(salsas.iter().all(|info| info.id != "chile-salsa-ii"), "all of its rows are from memory");
}

#[test]
fn a_litre_is_larger_than_any_table() {
    for id in ["tomato-sauce-thick", "apple-juice", "peaches", "beans-snap"] {
        for canner in [CannerKind::BoilingWater, CannerKind::PressureDial] {
            if id == "beans-snap" && canner == CannerKind::BoilingWater {
                continue;
            }
            let refusal = ask(id, Some(Pack::Hot), Jar::L1, canner, SEA).unwrap_err();
            assert!(matches!(refusal, Refusal::NotTested(Untested::Jar { .. } | Untested::Canner { .. })), "{id}");
        }
    }
}

#[test]
fn salsa_in_quarts_is_not_tested_and_pints_are_named() {
    let refusal = ask("chile-salsa", None, Jar::Quart, CannerKind::BoilingWater, SEA).unwrap_err();
    assert_eq!(refusal, Refusal::NotTested(Untested::Jar { tested: vec![Jar::Pint] }));
    let canners = vec![CannerKind::BoilingWater];
    let refusal = ask("chile-salsa", None, Jar::Pint, CannerKind::PressureDial, SEA).unwrap_err();
    assert_eq!(refusal, Refusal::NotTested(Untested::Canner { tested: canners }));
}

#[test]
fn a_metric_jar_over_a_half_pint_is_not_a_half_pint() {
    let jar = |jar| ask("easy-hot-sauce", None, jar, CannerKind::BoilingWater, SEA);
    assert_eq!(jar(Jar::HalfPint).unwrap().minutes, 10);
    assert_eq!(jar(Jar::Ml250).unwrap_err(), Refusal::NotTested(Untested::Jar { tested: vec![Jar::HalfPint] }));
}

#[test]
fn low_acid_food_needs_pressure() {
    for canner in [CannerKind::Steam, CannerKind::BoilingWater] {
        for id in ["beans-snap", "spaghetti-sauce-meat", "tomato-okra-zucchini"] {
            assert_eq!(ask(id, None, Jar::Pint, canner, SEA), Err(Refusal::WrongCanner));
        }
    }
}

#[test]
fn a_steam_canner_runs_45_minutes_and_quarts_at_most() {
    let steam = |id, jar, at| ask(id, Some(Pack::Hot), jar, CannerKind::Steam, at);
    assert_eq!(steam("tomato-sauce-thick", Jar::Quart, 3000.0).unwrap().minutes, 45);
    let pint = Some(Jar::Pint);
    let refusal = |minutes, smaller_jar| Err(Refusal::TooLongForSteam { minutes, smaller_jar });
    assert_eq!(steam("tomato-sauce-thick", Jar::Quart, 3000.1), refusal(50, pint));
    assert_eq!(steam("tomato-sauce-thick", Jar::Ml750, 3000.1), refusal(50, Some(Jar::Ml250)));
    assert_eq!(steam("tomato-sauce-thick", Jar::Quart, 7000.0), refusal(55, None));
    assert_eq!(steam("tomato-whole-juice", Jar::Pint, SEA), refusal(85, None));
    assert_eq!(steam("grape-juice", Jar::HalfGallon, SEA), Err(Refusal::NotTested(Untested::JarForSteam)));
    let water = ask("grape-juice", None, Jar::HalfGallon, CannerKind::BoilingWater, SEA);
    assert_eq!(water.unwrap().minutes, 10);
}

#[test]
fn what_no_page_confirms_is_not_given_and_says_where_to_look() {
    let unverified = |id, jar, canner, at| match ask(id, None, jar, canner, at) {
        Err(Refusal::Unverified { source }) => source,
        other => panic!("{id}: {other:?}"),
    };
    let water = CannerKind::BoilingWater;
    assert!(unverified("chile-salsa-ii", Jar::Pint, water, SEA).contains("Chile salsa II"));
    assert!(unverified("sauerkraut", Jar::Pint, water, 1001.0).contains("Sauerkraut"));
    assert_eq!(ask("sauerkraut", Some(Pack::Hot), Jar::Pint, water, SEA).unwrap().minutes, 10);
    // It has a half-pint's row of its own, so the pint's does not stand in for it.
    assert!(!unverified("pickled-pepper-rings-yellow", Jar::HalfPint, water, SEA).is_empty());
    assert!(unverified("tomato-crushed", Jar::Quart, CannerKind::PressureDial, 2001.0).contains("crushed"));
}

#[test]
fn where_one_choice_is_from_memory_the_other_is_taken() {
    let dial = ask("tomato-crushed", None, Jar::Pint, CannerKind::PressureDial, 2001.0).unwrap();
    assert_eq!((dial.minutes, dial.pressure, dial.choices.len()), (20, Pressure::from_psi(7.0), 1));
    let weighted = ask("tomato-juice", None, Jar::Quart, CannerKind::PressureWeighted, 1001.0).unwrap();
    assert_eq!((weighted.minutes, weighted.pressure, weighted.choices.len()), (15, Pressure::from_psi(15.0), 1));
}

#[test]
fn one_minute_is_never_a_process() {
    for id in ["tomato-whole-water", "tomatillos"] {
        let fifteen = Query {
            product: &Product::tested(id),
            pack: None,
            jar: Jar::Quart,
            canner: CannerKind::PressureWeighted,
            altitude: Some(feet(SEA)),
            pressure: Pressure::from_psi(15.0),
        };
        let process = lookup(&fifteen).unwrap();
        assert_eq!((process.minutes, process.pressure), (10, Pressure::from_psi(10.0)));
        assert!(process.choices.iter().all(|choice| choice.minutes >= 10));
    }
}

#[test]
fn the_pack_is_asked_for_where_it_matters() {
    let water = |id, pack, jar, at| ask(id, pack, jar, CannerKind::BoilingWater, at);
    assert_eq!(water("peaches", None, Jar::Quart, SEA), Err(Refusal::WhichPack { hot: Some(25), raw: Some(30) }));
    assert_eq!(water("peaches", Some(Pack::Raw), Jar::Quart, SEA).unwrap().minutes, 30);
    let same = water("berries", None, Jar::Pint, SEA).unwrap();
    assert_eq!((same.pack, same.minutes), (Pack::Either, 15));
    let raw = water("tomato-sauce-thick", Some(Pack::Raw), Jar::Quart, SEA);
    assert_eq!(raw, Err(Refusal::NotTested(Untested::Pack { tested: vec![Pack::Hot] })));
    let dial = ask("peaches", None, Jar::Quart, CannerKind::PressureDial, SEA).unwrap();
    assert_eq!((dial.pack, dial.minutes), (Pack::Either, 10));
}

#[test]
fn altitude_has_bounds_and_must_be_known() {
    let at = |altitude| {
        let (pack, jar, canner) = (None, Jar::Quart, CannerKind::BoilingWater);
        lookup(&Query { product: &Product::THICK_SAUCE, pack, jar, canner, altitude, pressure: None })
            .map(|process| process.minutes)
    };
    let metres = |metres| Some(Length::from_metres(metres).unwrap());
    assert_eq!(at(None), Err(Refusal::AltitudeUnknown));
    assert_eq!((at(metres(-500.0)), at(metres(3500.0))), (Ok(40), Ok(55)));
    assert_eq!((at(metres(304.8)), at(metres(304.9))), (Ok(40), Ok(45)));
    for out in [-500.001, 3500.001, 1e9] {
        assert_eq!(at(metres(out)), Err(Refusal::AltitudeOutOfRange));
    }
    let dial = |at| ask("tomato-sauce-thick", None, Jar::Quart, CannerKind::PressureDial, at);
    assert_eq!(dial(8000.0).unwrap().pressure, Pressure::from_psi(14.0));
    assert_eq!(dial(8000.1), Err(Refusal::NotTested(Untested::Altitude)));
}
