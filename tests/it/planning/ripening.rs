//! Days to red against the published table, and the counter's pickings.

use crate::support::{entry, lb, noon};
use chrono::{Days, NaiveDate, TimeDelta};
use rackful::ledger::Ledger;
use rackful::planning::ripening::{Red, ripe_by, ripening};
use rackful::processes::ripening::{NoRed, days_to_red};
use rackful::quantity::Temperature;
use rackful::statement::{Froze, Picked, Set, Statement};
use rackful::vocabulary::{Crop, Ripeness, SettingKey};
use rackful::zone::Zone;

fn celsius(degrees: f64) -> Option<Temperature> {
    Temperature::from_celsius(degrees)
}

/// University of California, Davis, Optimum procedures for ripening tomatoes (Cantwell): days to the red stage at 12.5,
/// 15, 17.5, 20, 22.5 and 25 °C. The first column's first, second and fourth cell have been seen on a page, the others
/// are from memory.
#[test]
fn days_to_red_are_those_of_the_published_table() {
    let table = [
        (Ripeness::Green, [18.0, 15.0, 12.0, 10.0, 8.0, 7.0]),
        (Ripeness::Breakers, [16.0, 13.0, 10.0, 8.0, 6.0, 5.0]),
        (Ripeness::Turning, [13.0, 10.0, 8.0, 6.0, 4.0, 3.0]),
        (Ripeness::Pink, [10.0, 8.0, 6.0, 4.0, 3.0, 2.0]),
    ];
    for (class, days) in table {
        for (degrees, printed) in [12.5, 15.0, 17.5, 20.0, 22.5, 25.0].into_iter().zip(days) {
            let found = days_to_red(class, celsius(degrees)).unwrap();
            assert_eq!(found.days, printed, "{class} at {degrees}");
            let seen = degrees == 12.5 && matches!(class, Ripeness::Green);
            assert_eq!(found.is_confirmed, seen, "{class} at {degrees}");
            assert!(found.source.contains("Davis"));
        }
    }
}

#[test]
fn between_two_temperatures_the_days_are_between_theirs() {
    assert_eq!(days_to_red(Ripeness::Breakers, celsius(18.75)).unwrap().days, 9.0);
    assert_eq!(days_to_red(Ripeness::Pink, celsius(21.0)).unwrap().days, 3.6);
}

#[test]
fn a_room_that_was_not_told_is_an_ordinary_one() {
    assert_eq!(days_to_red(Ripeness::Turning, None), days_to_red(Ripeness::Turning, celsius(20.0)));
}

/// 85 °F: general pages on ripening, no official page seen.
#[test]
fn outside_the_table_there_is_no_extrapolation() {
    assert_eq!(days_to_red(Ripeness::Pink, celsius(12.4)), Err(NoRed::TooCold));
    assert_eq!(days_to_red(Ripeness::Pink, celsius(29.5)), Err(NoRed::TooWarm));
    let warm = days_to_red(Ripeness::Pink, celsius(28.0)).unwrap();
    assert!(warm.is_clamped && warm.days == 2.0);
}

#[test]
fn riper_fruit_and_a_warmer_room_are_never_slower() {
    for (a, b) in Ripeness::ALL.iter().zip(&Ripeness::ALL[1..]) {
        for tenths in 125..=294 {
            let room = celsius(f64::from(tenths) / 10.0);
            let (less, more) = (days_to_red(*a, room).unwrap(), days_to_red(*b, room).unwrap());
            assert!(more.days <= less.days && less.soonest == more.days);
            let warmer = days_to_red(*a, celsius(f64::from(tenths + 1) / 10.0));
            assert!(warmer.is_err() || warmer.unwrap().days <= less.days);
        }
    }
}

fn picked(pounds: f64, ripeness: Option<Ripeness>) -> Statement {
    Statement::Picked(Picked { mass: Some(lb(pounds)), ripeness, ..Picked::default() })
}

fn day(n: u64) -> NaiveDate {
    Zone::UTC.day(noon()) + Days::new(n)
}

#[test]
fn pickings_are_listed_by_the_day_they_are_red() {
    let mut ledger = Ledger::new(Zone::UTC);
    let said = [(10.0, Some(Ripeness::Green)), (6.0, Some(Ripeness::Pink)), (4.0, None), (3.0, Some(Ripeness::Red))];
    for (n, (pounds, class)) in said.into_iter().enumerate() {
        ledger.enter(vec![entry(&format!("${n}"), noon(), picked(pounds, class))]);
    }
    let list = ripening(ledger.state());
    let red: Vec<_> =
        list.iter().map(|picking| picking.red_days().map(|red| (red.soonest, red.by, red.past))).collect();
    // Red fruit keeps 2 to 4 days: North Carolina State extension.
    let days = |soonest, by| Some((day(soonest), day(by), day(by + 4)));
    assert_eq!(red, [days(0, 0), days(2, 4), days(8, 10), None]);
    assert_eq!(list[3].red, Red::Unknown);
    assert_eq!(ripe_by(ledger.state(), Crop::Tomato, day(4)), lb(9.0));
    assert!(list[0].is_past(day(5)) && !list[0].is_past(day(4)));
}

#[test]
fn what_leaves_the_counter_is_the_ripest() {
    let mut ledger = Ledger::new(Zone::UTC);
    ledger.enter(vec![entry("$1", noon(), picked(10.0, Some(Ripeness::Green)))]);
    ledger.enter(vec![entry("$2", noon() + TimeDelta::days(2), picked(6.0, Some(Ripeness::Red)))]);
    let froze = Statement::Froze(Froze { mass: Some(lb(7.0)), ..Froze::default() });
    ledger.enter(vec![entry("$3", noon() + TimeDelta::days(3), froze)]);
    let left: Vec<_> = ripening(ledger.state()).into_iter().map(|picking| (picking.class, picking.mass)).collect();
    assert_eq!(left, [(Some(Ripeness::Green), lb(9.0))]);
}

#[test]
fn a_colder_room_moves_the_days_and_one_too_cold_takes_them_away() {
    let mut ledger = Ledger::new(Zone::UTC);
    ledger.enter(vec![entry("$1", noon(), picked(10.0, Some(Ripeness::Pink)))]);
    for (n, (degrees, by)) in [(15.0, Some(day(8))), (25.0, Some(day(2))), (10.0, None)].into_iter().enumerate() {
        let room = Statement::Set(Set { temp: celsius(degrees), ..Set::of(SettingKey::Room) });
        ledger.enter(vec![entry(&format!("$room {n}"), noon() + TimeDelta::minutes(n as i64 + 1), room)]);
        assert_eq!(ripening(ledger.state())[0].red_days().map(|red| red.by), by, "{degrees}");
    }
}

#[test]
fn red_fruit_is_ripe_in_any_room() {
    for degrees in [5.0, 12.0, 33.0] {
        assert_eq!(days_to_red(Ripeness::Red, celsius(degrees)).unwrap().days, 0.0, "{degrees}");
    }
}

#[test]
fn each_room_counts_for_the_days_it_was_so() {
    let mut ledger = Ledger::new(Zone::UTC);
    let room = |degrees| Statement::Set(Set { temp: celsius(degrees), ..Set::of(SettingKey::Room) });
    ledger.enter(vec![entry("$0", noon() - TimeDelta::days(1), room(20.0))]);
    ledger.enter(vec![entry("$1", noon(), picked(10.0, Some(Ripeness::Green)))]);
    // Ten days at 20 °C, fifteen at 15 °C (University of California, Davis): five days there are half of the way.
    ledger.enter(vec![entry("$2", noon() + TimeDelta::days(5), room(15.0))]);
    let by = |ledger: &Ledger| ripening(ledger.state())[0].red_days().map(|red| red.by);
    assert_eq!(by(&ledger), Some(day(5 + 8)));
    // Too warm from the ninth day on: not red yet, and none to come.
    ledger.enter(vec![entry("$3", noon() + TimeDelta::days(9), room(33.0))]);
    assert_eq!(by(&ledger), None);
    ledger.enter(vec![entry("$4", noon() + TimeDelta::days(12), room(20.0))]);
    // A half and four fifteenths were done, and three days stood still: 2.3 days at 20 °C.
    assert_eq!(by(&ledger), Some(day(12 + 2)));
    // What is red stays red.
    ledger.enter(vec![entry("$5", noon() + TimeDelta::days(20), room(33.0))]);
    assert_eq!(by(&ledger), Some(day(14)));
}
