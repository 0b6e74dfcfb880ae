//! Canning days planned backwards from an hour.

use crate::support::{entry, lb};
use chrono::{DateTime, NaiveDate, NaiveTime, Utc};
use rackful::ledger::state::{Bag, PlannedDay, State};
use rackful::ledger::{Ledger, Refusal};
use rackful::planning::canning_day::{DayPlan, NoPlan, plan_day};
use rackful::planning::choose_bags;
use rackful::planning::durations::{Basis, Part};
use rackful::quantity::Length;
use rackful::statement::{Froze, Picked, Statement, Thawed};
use rackful::vocabulary::{CannerKind, Crop, Jar, Product, Ripeness};
use rackful::zone::Zone;

fn zone() -> Zone {
    Zone::parse("America/Chicago").unwrap()
}

fn at(text: &str) -> DateTime<Utc> {
    zone().instant(format!("2026-{text}:00").parse().unwrap())
}

/// A household at 2,400 ft with a steam canner, and so many bags of 7 lb.
fn household(bags: u32) -> State {
    let mut ledger = Ledger::new(zone());
    let froze = Froze { mass: Some(lb(7.0 * f64::from(bags))), bags: Some(bags), ..Froze::default() };
    if bags > 0 {
        ledger.enter(vec![entry("$1", at("08-01T12:00"), Statement::Froze(froze))]);
    }
    let mut state = ledger.state().clone();
    state.settings.altitude = Length::from_inches(12.0 * 2400.0);
    state.settings.canner = Some(CannerKind::Steam);
    state
}

/// Saturday the 22nd of August by 18:00.
fn saturday() -> PlannedDay {
    PlannedDay {
        day: NaiveDate::from_ymd_opt(2026, 8, 22).unwrap(),
        by: NaiveTime::from_hms_opt(18, 0, 0).unwrap(),
        product: Product::THICK_SAUCE,
        jar: None,
        jars: None,
    }
}

fn clock(plan: &DayPlan, part: Part) -> String {
    zone().local(plan.begins(part).unwrap()).format("%a %H:%M").to_string()
}

#[test]
fn a_day_is_laid_out_backwards_from_its_hour() {
    let state = household(9);
    let plan = plan_day(&state, &saturday(), at("08-17T09:00")).unwrap();
    assert_eq!((plan.target.jars, plan.target.jar, plan.rounds), (7, Jar::Quart, 1));
    let bags: Vec<Bag> = state.freezer.bags(Crop::Tomato).to_vec();
    assert_eq!(plan.bags, choose_bags(&bags, lb(46.0)));
    assert_eq!(plan.end, at("08-22T18:00"));
    // 5 to load, 16.2 to come up, 45 the process (USDA AIB 539, Guide 3, quarts at 1,001 to 3,000 ft), 5 to rest, 5 to
    // unload: 76 min.
    for (part, begins) in [
        (Part::Thaw, "Wed 20:00"),
        (Part::Drain, "Sat 12:25"),
        (Part::CookDown, "Sat 13:25"),
        (Part::HeatCanner, "Sat 16:10"),
        (Part::Fill, "Sat 16:25"),
        (Part::LoadCanner, "Sat 16:40"),
        (Part::Process, "Sat 17:01"),
        (Part::Unload, "Sat 17:51"),
    ] {
        assert_eq!(clock(&plan, part), begins, "{part:?}");
    }
    assert!(plan.steps.windows(2).all(|pair| pair[0].at <= pair[1].at));
    let process = plan.steps.iter().find(|step| step.takes.part == Part::Process).unwrap();
    assert!(matches!(process.takes.basis, Basis::Published(source) if source.contains("Standard tomato sauce")));
}

#[test]
fn two_rounds_end_at_the_same_hour() {
    let plan = plan_day(&household(15), &PlannedDay { jars: Some(14), ..saturday() }, at("08-17T09:00")).unwrap();
    assert_eq!((plan.rounds, plan.target.mass), (2, lb(92.0)));
    let processes: Vec<_> = plan.steps.iter().filter(|step| step.takes.part == Part::Process).collect();
    assert_eq!(processes.iter().map(|step| step.round).collect::<Vec<_>>(), [Some(1), Some(2)]);
    let last = plan.steps.last().unwrap();
    let spare = plan.end - (last.at + last.takes.time);
    assert!((0..5).contains(&spare.num_minutes()), "{spare}");
}

#[test]
fn a_pressure_canner_is_vented_and_comes_down_by_itself() {
    let mut state = household(9);
    state.settings.canner = Some(CannerKind::PressureDial);
    let plan = plan_day(&state, &saturday(), at("08-17T09:00")).unwrap();
    let parts: Vec<Part> = plan.steps.iter().filter(|step| step.round.is_some()).map(|step| step.takes.part).collect();
    use Part::*;
    assert_eq!(parts, [LoadCanner, ComeUp, Vent, Pressurise, Process, Depressurise, Rest, Unload]);
}

#[test]
fn a_day_that_is_over_or_too_soon_is_refused_with_what_is_possible() {
    let state = household(9);
    assert_eq!(plan_day(&state, &saturday(), at("08-23T09:00")), Err(NoPlan::Past));
    let NoPlan::TooSoon { earliest, thaw, in_water } = plan_day(&state, &saturday(), at("08-20T21:00")).unwrap_err()
    else {
        panic!("a bag of 7 lb does not thaw in 39 hours");
    };
    assert_eq!(earliest, at("08-23T18:00"), "59 hours from Thursday evening is Sunday morning");
    assert_eq!(thaw.num_hours(), 59);
    assert!(in_water.unwrap() < lb(3.0));
    let sunday = PlannedDay { day: zone().day(earliest), ..saturday() };
    assert!(plan_day(&state, &sunday, at("08-20T21:00")).is_ok());
}

#[test]
fn the_civil_hour_gives_time_to_spare() {
    // In at eight on Wednesday evening, but twenty past one at night would do.
    assert!(plan_day(&household(9), &saturday(), at("08-20T01:00")).is_ok());
    assert!(plan_day(&household(9), &saturday(), at("08-20T04:00")).is_err());
}

#[test]
fn too_little_fruit_says_how_much_there_is_and_for_how_many_jars() {
    let refused = plan_day(&household(4), &saturday(), at("08-17T09:00"));
    let fewer = plan_day(&household(4), &PlannedDay { jars: Some(4), ..saturday() }, at("08-17T09:00")).unwrap();
    assert_eq!(fewer.bags.len(), 4);
    assert_eq!(
        refused,
        Err(NoPlan::NotEnough { target: lb(46.0), there: lb(28.0), jars: 4, instead: Some(Box::new(fewer)) })
    );
    assert!(plan_day(&household(4), &PlannedDay { jars: Some(4), ..saturday() }, at("08-17T09:00")).is_ok());
}

#[test]
fn ripe_fruit_fills_up_what_the_freezer_has_not() {
    let mut ledger = Ledger::new(zone());
    let froze = Froze { mass: Some(lb(35.0)), bags: Some(5), ..Froze::default() };
    ledger.enter(vec![entry("$1", at("08-01T12:00"), Statement::Froze(froze))]);
    let pink = Picked { mass: Some(lb(15.0)), ripeness: Some(Ripeness::Pink), ..Picked::default() };
    ledger.enter(vec![entry("$2", at("08-17T08:00"), Statement::Picked(pink))]);
    let mut state = ledger.state().clone();
    state.settings = household(0).settings;
    let plan = plan_day(&state, &saturday(), at("08-17T09:00")).unwrap();
    assert_eq!((plan.bags.len(), plan.fresh), (5, lb(11.0)));
    let thursday = PlannedDay { day: NaiveDate::from_ymd_opt(2026, 8, 20).unwrap(), ..saturday() };
    assert!(matches!(plan_day(&state, &thursday, at("08-17T09:00")), Err(NoPlan::NotEnough { .. })), "still pink then");
}

#[test]
fn bags_that_thaw_already_are_not_taken_out_again() {
    let mut ledger = Ledger::new(zone());
    let froze = Froze { mass: Some(lb(63.0)), bags: Some(9), ..Froze::default() };
    ledger.enter(vec![entry("$1", at("08-01T12:00"), Statement::Froze(froze))]);
    let thawed = Thawed { bags: Some(7), ..Thawed::default() };
    ledger.enter(vec![entry("$2", at("08-19T20:00"), Statement::Thawed(thawed))]);
    let mut state = ledger.state().clone();
    state.settings = household(0).settings;
    let plan = plan_day(&state, &saturday(), at("08-21T09:00")).unwrap();
    assert_eq!((plan.bags.as_slice(), plan.begins(Part::Thaw)), (&[][..], None));
    assert_eq!(clock(&plan, Part::Drain), "Sat 12:25");
}

#[test]
fn without_a_tested_process_there_is_no_plan() {
    let mut state = household(9);
    state.settings.altitude = None;
    assert!(matches!(plan_day(&state, &saturday(), at("08-17T09:00")), Err(NoPlan::Process(_))));
    // USDA AIB 539, Guide 3: 50 minutes for quarts above 3,000 ft, longer than a steam canner may run.
    state.settings.altitude = Length::from_inches(12.0 * 5000.0);
    let Err(NoPlan::Process(why)) = plan_day(&state, &saturday(), at("08-17T09:00")) else {
        panic!("too long for steam")
    };
    assert!(matches!(*why, Refusal::Process { .. }));
}
