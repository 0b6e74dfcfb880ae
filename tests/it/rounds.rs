//! A batch larger than its canner, filled and sealed round by round, and steps that are told afterwards with their
//! time.

use crate::support::{Kitchen, minutes};
use rackful::assistant::OutKind;
use serde_json::json;

/// A canner for nine pints, and eighteen pints begun, of which nine are out.
fn first_round_out() -> Kitchen {
    let mut kitchen = Kitchen::new();
    kitchen.say("altitude 1000 ft, canner is boiling water, holds 9 pints");
    kitchen.say("starting peach halves in pints, 18 pints, hot pack");
    through(&mut kitchen, "filled 9");
    kitchen
}

/// A round from the filling until its jars are out.
fn through(kitchen: &mut Kitchen, filled: &str) {
    kitchen.say(filled);
    kitchen.say("rolling boil");
    kitchen.wait(minutes(20));
    kitchen.say("heat's off");
    kitchen.wait(minutes(5));
    kitchen.say("jars are out");
}

fn pints(kitchen: &Kitchen) -> u64 {
    kitchen.state()["pantry"].as_array().unwrap().iter().map(|lot| lot["jars"].as_u64().unwrap()).sum()
}

#[test]
fn a_round_is_filled_after_the_one_before_is_out() {
    let mut kitchen = first_round_out();
    let out = kitchen.say("filled 9 more");
    assert!(out[0].text.contains("18 pints filled"), "{out:?}");
    // The seals of the first may be told before the second is filled.
    let mut kitchen = first_round_out();
    let out = kitchen.say("all sealed");
    assert!(out[0].text.contains("9 are not filled"), "{out:?}");
    through(&mut kitchen, "filled 9 more");
    assert_eq!(pints(&kitchen), 9);
    kitchen.wait(minutes(12 * 60));
    kitchen.say("all sealed");
    assert_eq!(pints(&kitchen), 18);
}

#[test]
fn a_round_is_sealed_by_its_number_and_no_other_with_it() {
    let mut kitchen = first_round_out();
    through(&mut kitchen, "filled 9 more");
    kitchen.wait(minutes(12 * 60));
    let out = kitchen.say("round 2: all sealed");
    assert!(out[0].text.contains("9 sealed and shelved"), "{out:?}");
    assert_eq!(pints(&kitchen), 9);
    let out = kitchen.say("round 2: all sealed");
    assert!(!out[0].text.contains("18 sealed"), "{out:?}");
    assert_eq!(pints(&kitchen), 9);
    kitchen.say("round 1: 8 of 9 sealed");
    assert_eq!(pints(&kitchen), 17);
}

#[test]
fn a_round_that_there_is_not_seals_nothing() {
    let mut kitchen = first_round_out();
    kitchen.wait(minutes(12 * 60));
    for words in ["round 3 all sealed", "round 2 all sealed"] {
        let out = kitchen.say(words);
        assert!(out.iter().all(|out| out.out == OutKind::Problem || out.topic == "propose"), "{words}: {out:?}");
        assert_eq!(pints(&kitchen), 0, "{words}");
    }
}

#[test]
fn the_number_of_a_batch_is_no_number_of_jars() {
    let mut kitchen = first_round_out();
    kitchen.wait(minutes(12 * 60));
    kitchen.say("batch 1: all sealed");
    assert_eq!(pints(&kitchen), 9);
}

#[test]
fn jars_that_wait_for_the_canner_are_named_when_others_sealed() {
    let mut kitchen = Kitchen::new();
    kitchen.say("altitude 1000 ft, canner is boiling water, holds 9 pints");
    kitchen.say("starting peach halves in pints, 18 pints, hot pack");
    through(&mut kitchen, "filled 18");
    let out = kitchen.say("all sealed");
    assert!(out[0].text.contains("9 have not been through the canner"), "{out:?}");
    assert_eq!(pints(&kitchen), 9);
}

/// A batch whose steps are told at noon, each with its time.
fn afterwards(steps: &[&str]) -> Kitchen {
    let mut kitchen = Kitchen::new();
    kitchen.say("altitude 1000 ft");
    kitchen.say("starting thick sauce in quarts, 7 quarts, boiling water canner");
    kitchen.say("filled 7 quarts");
    kitchen.say("lemon juice is in");
    kitchen.wait(minutes(100));
    for words in steps {
        let mut out = kitchen.say(words);
        out.extend(kitchen.wait(minutes(1)));
        let rung = ["process-done", "rest-done", "heat-check"];
        assert!(out.iter().all(|out| !rung.contains(&out.topic.as_str())), "{words}: {out:?}");
    }
    kitchen
}

#[test]
fn steps_told_afterwards_are_taken_at_their_time_and_ring_no_bell() {
    let start = Kitchen::new().now.with_timezone(&chrono::FixedOffset::west_opt(5 * 3600).unwrap());
    let at = |after: i64| (start + minutes(after)).format("%-H:%M").to_string();
    let steps = [
        format!("rolling boil at {}", at(20)),
        format!("heat was off at {}", at(65)),
        format!("jars came out at {}", at(75)),
    ];
    let steps: Vec<&str> = steps.iter().map(String::as_str).collect();
    let mut kitchen = afterwards(&steps);
    assert_eq!(kitchen.state()["batch"]["stage"], json!("cooling"));
    kitchen.wait(minutes(13 * 60));
    kitchen.say("all sealed");
    assert_eq!(pints(&kitchen), 7);
}

#[test]
fn a_heat_that_was_off_too_soon_is_so_afterwards_too() {
    let start = Kitchen::new().now.with_timezone(&chrono::FixedOffset::west_opt(5 * 3600).unwrap());
    let at = |after: i64| (start + minutes(after)).format("%-H:%M").to_string();
    let steps = [format!("rolling boil at {}", at(20)), format!("heat was off at {}", at(45))];
    let steps: Vec<&str> = steps.iter().map(String::as_str).collect();
    let mut kitchen = afterwards(&steps);
    kitchen.wait(minutes(13 * 60));
    kitchen.say("all sealed");
    assert_eq!(pints(&kitchen), 0);
}
