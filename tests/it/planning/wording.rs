//! What looking ahead and back says, in the household's own units, and that it is true.

use crate::support::{Kitchen, topics};
use chrono::Duration;

fn said(kitchen: &mut Kitchen, text: &str) -> String {
    kitchen.say(text).into_iter().map(|out| out.text).collect()
}

/// UC Davis postharvest table: from 12.5 °C; general pages on ripening: no red forms above 85 °F; university
/// extension columns: 68 to 77 °F is best.
#[test]
fn a_room_in_which_nothing_turns_red_is_told_so_in_its_own_units() {
    let mut kitchen = Kitchen::new();
    assert_eq!(said(&mut kitchen, "room is 70 F"), "The fruit ripens at 70 °F.");
    let cold = said(&mut kitchen, "room is 50 F");
    assert!(cold.contains("begins at 54.5 °F; 68 °F to 77 °F is best") && !cold.contains("°C"), "{cold}");
    kitchen.say("units metric");
    assert_eq!(said(&mut kitchen, "room is 20 C"), "The fruit ripens at 20 °C.");
    let warm = said(&mut kitchen, "room is 33 C");
    assert!(warm.contains("above 29.4 °C no red forms; 20 °C to 25 °C is best") && !warm.contains("°F"), "{warm}");
    kitchen.say("picked 5 kg green");
    let ripe = said(&mut kitchen, "what's ripe?");
    assert!(ripe.contains("above 29.4 °C") && !ripe.contains("°F"), "{ripe}");
    kitchen.say("room is 10 C");
    let cold = said(&mut kitchen, "what's ripe?");
    assert!(cold.contains("begins at 12.5 °C") && !cold.contains("°F"), "{cold}");
}

#[test]
fn fruit_of_which_some_is_red_by_now_is_said_so() {
    let mut kitchen = Kitchen::new();
    kitchen.say("picked 5 lb pink");
    let ripe = said(&mut kitchen, "what's ripe?");
    assert!(ripe.contains("red by Tue Aug 18, some from Sun Aug 16"), "{ripe}");
    kitchen.wait(Duration::days(3));
    let ripe = said(&mut kitchen, "what's ripe?");
    assert!(ripe.contains("red by Tue Aug 18, some already"), "{ripe}");
}

#[test]
fn fruit_picked_red_needs_no_estimate() {
    let mut kitchen = Kitchen::new();
    kitchen.say("picked 9 lb red");
    let ripe = said(&mut kitchen, "what's ripe?");
    assert!(ripe.contains("ripe") && !ripe.contains("table"), "{ripe}");
    let out = kitchen.wait(Duration::days(6));
    assert_eq!(topics(&out), ["alert ripe"]);
    assert!(out[0].text.contains("was red when picked") && out[0].text.contains("2 to 4 days"), "{}", out[0].text);
    kitchen.say("picked 4 lb pink");
    assert!(said(&mut kitchen, "what's ripe?").contains("University of California table"));
}

#[test]
fn hours_and_days_are_said_as_the_household_says_them() {
    let mut kitchen = Kitchen::new();
    assert_eq!(said(&mut kitchen, "digest on mondays at 6 pm"), "The digest comes on Mondays at 6:00 pm.");
    assert!(said(&mut kitchen, "quiet from 21:00 to 07:00").starts_with("Quiet from 9:00 pm until 7:00 am."));
    assert_eq!(said(&mut kitchen, "season ends on october 9"), "I expect no more fruit after Oct 9.");
    kitchen.say("units metric");
    assert_eq!(said(&mut kitchen, "digest on mondays at 18:00"), "The digest comes on Mondays at 18:00.");
    assert_eq!(said(&mut kitchen, "season ends on october 9"), "I expect no more fruit after 9 Oct.");
}

/// General pages on freezing: frozen tomatoes are best within 8 to 12 months.
#[test]
fn bags_past_the_published_time_are_named_and_dated_with_their_year() {
    let mut kitchen = Kitchen::new();
    for text in ["altitude 2400 ft", "canner is steam, holds 7 quarts", "froze 3 bags at 7 lb"] {
        kitchen.say(text);
    }
    kitchen.wait(Duration::days(20));
    kitchen.say("froze 4 bags at 7 lb");
    kitchen.wait(Duration::days(250));
    let freezer = said(&mut kitchen, "freezer?");
    assert!(freezer.contains("Use first: 7 bags") && !freezer.contains("over for"), "{freezer}");
    kitchen.wait(Duration::days(100));
    let freezer = said(&mut kitchen, "freezer?");
    assert!(freezer.contains("within 8 to 12 months, and that is over for 3 bags"), "{freezer}");
    let plan = said(&mut kitchen, "canning sauce next saturday");
    assert!(plan.contains("the oldest of Aug 14, 2026"), "the year is another: {plan}");
    kitchen.wait(Duration::days(30));
    assert!(said(&mut kitchen, "freezer?").contains("over for all of them"));
}

/// USDA AIB 539 (2015), Guide 1: jars are best within 12 months.
#[test]
fn every_lot_past_its_best_is_named() {
    let mut kitchen = Kitchen::new();
    kitchen.say("put up 14 quarts of sauce");
    kitchen.wait(Duration::days(10));
    kitchen.say("put up 9 pints of crushed tomatoes");
    kitchen.wait(Duration::days(356));
    let pantry = said(&mut kitchen, "pantry?");
    assert!(pantry.contains("14 quarts of thick tomato sauce of Aug 14, 2026; they were best until"), "{pantry}");
    kitchen.wait(Duration::days(10));
    let pantry = said(&mut kitchen, "pantry?");
    let named =
        "14 quarts of thick tomato sauce of Aug 14, 2026, 9 pints of crushed tomatoes of Aug 24, 2026; they are past";
    assert!(pantry.contains(named), "{pantry}");
}

#[test]
fn gifts_and_jars_used_are_in_the_year_s_sums() {
    let mut kitchen = Kitchen::new();
    kitchen.say("put up 14 quarts of sauce");
    assert!(!said(&mut kitchen, "totals?").contains("Jars from the shelf"));
    kitchen.say("opened 2 quarts of sauce");
    kitchen.say("gave 3 quarts of sauce to grandma");
    let totals = said(&mut kitchen, "totals?");
    assert!(totals.ends_with("14 jars put up. Jars from the shelf: 2 used, 3 given away."), "{totals}");
}

#[test]
fn in_spring_the_rows_go_by_the_whole_winter() {
    let mut kitchen = Kitchen::new();
    kitchen.say("put up 28 quarts of sauce");
    kitchen.wait(Duration::days(50));
    for _ in 0..6 {
        kitchen.say("opened 2 quarts of sauce");
        kitchen.wait(Duration::days(14));
    }
    // Nothing since: half a year later only the last of it counts for the shelf.
    kitchen.wait(Duration::days(130));
    let rows = kitchen.say("how many tomatoes should I plant next year?");
    let aim = &rows[0].facts["aims"][0];
    assert_eq!((aim["put_up"].as_u64(), aim["used"].as_u64(), aim["left"].as_u64()), (Some(28), Some(12), Some(16)));
    assert!(aim["jars"].as_u64().is_some(), "{}", rows[0].text);
}

/// Four loads of seven quarts are 28; USDA AIB 539 (2015), Guide 3: 46 lb for 7 quarts.
#[test]
fn loads_jars_and_pounds_of_next_year_agree() {
    let mut kitchen = Kitchen::new();
    kitchen.say("put up 42 quarts of sauce");
    kitchen.wait(Duration::days(40));
    for _ in 0..10 {
        kitchen.say("opened a quart of sauce");
        kitchen.wait(Duration::days(10));
    }
    let rows = kitchen.say("how many tomatoes should I plant next year?");
    let aim = &rows[0].facts["aims"][0];
    let (jars, loads) = (aim["jars"].as_u64().unwrap(), aim["loads"].as_u64().unwrap());
    assert_eq!(loads, jars.div_ceil(7));
    let pounds = rows[0].facts["target_g"].as_f64().unwrap() / 453.59237;
    assert!((pounds - jars as f64 * 46.0 / 7.0).abs() < 0.01, "{pounds} for {jars}");
    assert_eq!(rows[0].text.contains("the last not full"), jars % 7 != 0 && jars > 0, "{}", rows[0].text);
}

#[test]
fn jars_of_two_days_are_each_best_for_a_year() {
    let mut kitchen = Kitchen::new();
    kitchen.say("put up 7 quarts of sauce");
    kitchen.wait(Duration::days(7));
    kitchen.say("put up 7 quarts of sauce");
    let out = kitchen.wait(Duration::days(360));
    assert_eq!(topics(&out), ["alert use-first"]);
    assert!(out[0].text.contains("the oldest of these are so up to Aug 14, 2027"), "{}", out[0].text);
    assert!(out[0].text.contains("the others up to Aug 21, 2027"), "{}", out[0].text);
}
