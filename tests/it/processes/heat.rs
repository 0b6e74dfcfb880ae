//! The temperature of boiling water against a library that implements the whole of IAPWS-IF97.

use super::ask;
use rackful::processes::boiling_point;
use rackful::quantity::Length;
use rackful::vocabulary::{CannerKind, Jar};

/// From 500 m below the sea to 3500 m above, every 5 m. The pressure is computed here once more, in the short form of
/// the ICAO standard atmosphere (Doc 7488).
#[test]
fn water_boils_where_the_steam_library_says() {
    for metres in (-500..=3500).step_by(5).map(f64::from) {
        let megapascals = 0.101_325 * (1.0 - 2.255_77e-5 * metres).powf(5.255_88);
        let reference = seuif97::px(megapascals, 0.0, seuif97::OT);
        let found = boiling_point(Length::from_metres(metres).unwrap()).unwrap().as_celsius();
        assert!((found - reference).abs() < 0.01, "{metres} m: {found}, the library says {reference}");
    }
}

/// 212 F at the sea and 203 F at 5000 ft: USDA AIB 539 (2015), Guide 7, jelly temperature table less 8 F.
#[test]
fn a_process_says_how_hot_the_steam_is() {
    for (feet, fahrenheit) in [(0.0, 212.0), (5000.0, 203.0)] {
        let process = ask("tomato-sauce-thick", None, Jar::Pint, CannerKind::Steam, feet).unwrap();
        assert_eq!(process.heat.as_fahrenheit().round(), fahrenheit);
    }
    let below = ask("tomato-sauce-thick", None, Jar::Pint, CannerKind::Steam, -1000.0).unwrap();
    assert!(below.heat.as_fahrenheit() > 213.0 && below.minutes == 35);
}
