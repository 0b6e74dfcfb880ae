//! What looking ahead tells by itself, and when.

use crate::support::{Kitchen, topics};
use chrono::{DateTime, Duration};
use rackful::assistant::{OutKind, Outgoing};
use serde_json::json;

/// The kitchen's clock begins on Friday the 14th of August 2026 at noon.
fn told(out: &[Outgoing]) -> Vec<String> {
    out.iter().map(|out| format!("{} {}", out.at.format("%a %H:%M"), out.topic)).collect()
}

#[test]
fn a_picking_is_told_the_morning_before_it_is_red_and_asked_about_once_after() {
    let mut kitchen = Kitchen::new();
    kitchen.say("picked 12 lb pink");
    let out = kitchen.wait(Duration::days(40));
    // Pink at 68 °F: 4 days (University of California, Davis); red fruit keeps at most 4 (North Carolina State
    // extension).
    assert_eq!(told(&out), ["Mon 09:00 ripe", "Sun 09:00 ripe"]);
    assert_eq!((&out[0].facts["label"], &out[1].facts["label"]), (&json!("ripe"), &json!("past-ripe")));
    assert!(out.iter().all(|out| out.out == OutKind::Alert && !out.mention));
    assert!(out[0].text.contains("from memory"), "{}", out[0].text);
    assert_eq!(kitchen.wait(Duration::days(60)), []);
}

#[test]
fn fruit_that_is_gone_is_not_told() {
    let mut kitchen = Kitchen::new();
    kitchen.say("picked 12 lb pink");
    kitchen.say("froze 12 lb");
    assert_eq!(kitchen.wait(Duration::days(40)), []);
}

#[test]
fn fruit_of_no_said_class_is_not_told() {
    let mut kitchen = Kitchen::new();
    kitchen.say("picked 12 lb");
    assert_eq!(kitchen.wait(Duration::days(40)), []);
}

#[test]
fn fruit_picked_red_is_only_asked_about() {
    let mut kitchen = Kitchen::new();
    kitchen.say("picked 12 lb red ones");
    assert_eq!(told(&kitchen.wait(Duration::days(40))), ["Wed 09:00 ripe"]);
}

#[test]
fn a_ripe_alert_says_what_it_does_for_the_load() {
    let mut kitchen = Kitchen::new();
    kitchen.say("froze 30 lb");
    kitchen.say("picked 10 lb pink");
    kitchen.say("picked 20 lb turning");
    let out = kitchen.wait(Duration::days(6));
    assert!(out[0].text.contains("brings the load of thick tomato sauce to 40 lb of 46 lb"), "{}", out[0].text);
    assert!(out[1].text.contains("completes the load"), "{}", out[1].text);
    assert_eq!(out[1].facts["short_g"], json!(7257.478));
}

#[test]
fn jars_and_bags_are_told_two_weeks_before_their_best_time_is_over() {
    let mut kitchen = Kitchen::new();
    kitchen.say("put up 7 quarts of sauce");
    kitchen.say("put up 9 pints of sauce");
    kitchen.say("froze 14 lb");
    let out = kitchen.wait(Duration::days(400));
    let days: Vec<_> = out.iter().map(|out| format!("{} {}", out.at.format("%F %H:%M"), out.topic)).collect();
    assert_eq!(days, ["2027-03-31 09:00 use-first", "2027-07-31 09:00 use-first"]);
    assert_eq!((&out[0].facts["label"], &out[1].facts["label"]), (&json!("freezer"), &json!("pantry")));
    assert_eq!(out[1].facts["jars"], json!(16));
}

#[test]
fn quiet_hours_hold_back_what_can_wait() {
    let mut kitchen = Kitchen::new();
    kitchen.say("quiet from 20:00 to 10:30");
    kitchen.say("picked 12 lb pink");
    assert_eq!(told(&kitchen.wait(Duration::days(5))), ["Mon 10:30 ripe"]);
}

#[test]
fn what_next_names_one_thing() {
    let mut kitchen = Kitchen::new();
    let next = |kitchen: &mut Kitchen| kitchen.say("what next?")[0].text.lines().next().unwrap().to_owned();
    assert_eq!(next(&mut kitchen), "Nothing is waiting; no batch is open.");
    kitchen.say("picked 12 lb red ones");
    assert!(next(&mut kitchen).starts_with("Freeze or eat the 12 lb"), "{}", next(&mut kitchen));
    kitchen.say("froze 42 lb");
    kitchen.wait(Duration::days(1));
    assert!(next(&mut kitchen).contains("about 1 bag"), "{}", next(&mut kitchen));
    kitchen.say("froze 7 lb");
    assert!(next(&mut kitchen).starts_with("There is a load of thick tomato sauce"), "{}", next(&mut kitchen));
    kitchen.say("picked 5 lb red ones");
    kitchen.wait(Duration::days(6));
    assert!(next(&mut kitchen).starts_with("Look at what is past ripe"), "{}", next(&mut kitchen));
}

#[test]
fn a_forecast_has_its_days_as_facts() {
    let mut kitchen = Kitchen::new();
    let out = kitchen.say("when will I have a load?");
    assert_eq!(topics(&out), ["reply ask"]);
    assert!(out[0].text.contains("4 more days of freezing"), "{}", out[0].text);
    for _ in 0..5 {
        kitchen.say("froze 6 lb");
        kitchen.wait(Duration::days(2));
    }
    let out = kitchen.say("when will I have a load?");
    let days: Vec<_> = ["ready_p10", "ready_p50", "ready_p90"]
        .map(|name| {
            DateTime::parse_from_rfc3339(&format!("{}T00:00:00Z", out[0].facts[name].as_str().unwrap())).unwrap()
        })
        .to_vec();
    assert!(days.is_sorted(), "{days:?}");
    assert_eq!(out[0].facts, kitchen.say("when will I have a load?")[0].facts, "the same ledger, the same answer");
}

#[test]
fn what_is_red_by_the_same_day_is_told_together() {
    let mut kitchen = Kitchen::new();
    kitchen.say("picked 6 lb pink");
    kitchen.wait(Duration::days(2));
    kitchen.say("picked 3 lb light red romas");
    let out = kitchen.wait(Duration::days(10));
    assert_eq!(told(&out), ["Mon 09:00 ripe", "Sun 09:00 ripe"]);
    assert!(out.iter().all(|out| out.text.starts_with("9 lb (")), "{}", out[0].text);
    assert!(out[1].text.contains("NC State Extension"), "{}", out[1].text);
}

#[test]
fn pickings_of_several_kinds_bear_no_kind_s_name() {
    let mut kitchen = Kitchen::new();
    kitchen.say("picked 9 lb green");
    kitchen.say("picked 9 lb green romas");
    let out = kitchen.say("counter?");
    assert!(out[0].text.contains("18 lb of green tomatoes"), "{}", out[0].text);
}

#[test]
fn a_pause_in_freezing_is_named() {
    let mut kitchen = Kitchen::new();
    for _ in 0..5 {
        kitchen.say("froze 3 lb");
        kitchen.wait(Duration::days(2));
    }
    kitchen.wait(Duration::days(60));
    let out = kitchen.say("when will I have a load?");
    assert!(out[0].text.contains("45 days without freezing"), "{}", out[0].text);
}

#[test]
fn an_untested_recipe_gets_no_shelf_life() {
    let mut kitchen = Kitchen::new();
    kitchen.say("recipe fire salsa takes 6 lb makes 4 pints");
    let out = kitchen.say("put up 4 pints of fire salsa");
    assert!(!out[0].text.contains("Best within") && out[0].text.contains("untested"), "{}", out[0].text);
    let ledger = kitchen.assistant.ledger("home").unwrap();
    let scene = rackful::reply::Scene { state: ledger.state(), now: kitchen.now };
    let sheet = rackful::reply::label_sheet(scene, ledger, Some("fire salsa"), None).unwrap();
    assert_eq!(sheet.label.best, "untested: refrigerate or freeze");
}

#[test]
fn with_little_use_the_rows_are_for_what_was_picked() {
    let mut kitchen = Kitchen::new();
    kitchen.say("picked 155 lb");
    kitchen.say("put up 21 quarts of thick sauce");
    let out = kitchen.say("how many tomatoes to plant?");
    assert!(out[0].text.contains("as much as you picked in 2026, 155 lb"), "{}", out[0].text);
    // 155 lb at 10 to 15 lb a plant (University of Georgia extension).
    assert_eq!((&out[0].facts["plants"][0]["low"], &out[0].facts["plants"][0]["high"]), (&json!(11), &json!(16)));
}

#[test]
fn the_digest_speaks_of_an_open_batch() {
    let mut kitchen = Kitchen::new();
    for said in ["altitude 2400 ft", "canner is steam, holds 7 quarts", "digest on fridays at 2 pm"] {
        kitchen.say(said);
    }
    kitchen.say("starting thick sauce in quarts");
    let out = kitchen.wait(Duration::hours(3));
    assert_eq!(topics(&out), ["alert digest"]);
    assert!(out[0].text.starts_with("This week: 'sauce': begun"), "{}", out[0].text);
    assert!(!out[0].text.contains("no batch is open"), "{}", out[0].text);
}
