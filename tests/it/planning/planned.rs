//! Canning days as a household sets, moves and calls them off.

use crate::support::{Kitchen, topics};
use chrono::Duration;
use rackful::assistant::Outgoing;
use serde_json::json;

/// A kitchen with a steam canner at 2,400 ft and a load in the freezer, on Friday the 14th of August 2026 at noon.
fn kitchen() -> Kitchen {
    let mut kitchen = Kitchen::new();
    for said in ["altitude 2400 ft", "canner is steam, holds 7 quarts", "froze 7 bags at 7 lb"] {
        kitchen.say(said);
    }
    kitchen
}

fn told(out: &[Outgoing]) -> Vec<String> {
    let label = |out: &Outgoing| out.facts.get("label").and_then(|label| label.as_str()).unwrap_or_default().to_owned();
    out.iter().map(|out| format!("{} {} {}", out.at.format("%a %H:%M"), out.topic, label(out))).collect()
}

#[test]
fn a_day_is_set_and_each_step_is_told() {
    let mut kitchen = kitchen();
    let out = kitchen.say("canning sauce on tuesday by 6 pm");
    assert_eq!(topics(&out), ["reply planned"]);
    assert_eq!(
        (&out[0].facts["rounds"], &out[0].facts["minutes"], &out[0].facts["ends_at"]),
        (&json!(1), &json!(45), &json!("2026-08-18T18:00:00-05:00"))
    );
    let mut all = told(&kitchen.wait(Duration::hours(32)));
    kitchen.say("thawing 7 bags");
    all.extend(told(&kitchen.wait(Duration::days(5))));
    assert_eq!(
        all,
        [
            "Sat 20:00 planned thaw",
            "Tue 12:25 planned drain",
            "Tue 13:25 planned cook-down",
            "Tue 16:10 planned heat-canner",
            "Tue 16:25 planned fill"
        ]
    );
}

#[test]
fn the_plan_of_a_set_day_is_said_again_when_asked() {
    let mut kitchen = kitchen();
    assert_eq!(kitchen.say("what's the plan for tuesday?")[0].facts.get("steps"), None);
    let set = kitchen.say("canning sauce on tuesday by 6 pm");
    for asked in ["what's the plan for tuesday?", "when do we can?"] {
        let again = kitchen.say(asked);
        assert_eq!((topics(&again), &again[0].facts["steps"]), (vec!["reply ask".to_owned()], &set[0].facts["steps"]));
        assert_eq!(again[0].text, set[0].text, "{asked}");
    }
    kitchen.wait(Duration::days(6));
    assert_eq!(kitchen.say("what's the plan for tuesday?")[0].facts.get("steps"), None);
}

#[test]
fn the_reminders_move_with_the_day() {
    let mut kitchen = kitchen();
    kitchen.say("canning sauce on tuesday by 6 pm");
    kitchen.wait(Duration::days(1) + Duration::hours(9));
    let out = kitchen.say("move canning to thursday");
    assert_eq!(out[0].facts["ends_at"], json!("2026-08-20T18:00:00-05:00"), "the hour stays");
    let told = told(&kitchen.wait(Duration::days(6)));
    assert_eq!(told, ["Mon 20:00 planned thaw", "Thu 12:25 planned held"]);
}

#[test]
fn what_is_frozen_meanwhile_asks_for_no_bag_twice() {
    let mut kitchen = kitchen();
    kitchen.say("canning sauce on tuesday by 6 pm");
    kitchen.wait(Duration::days(2));
    kitchen.say("froze 2 bags at 9 lb");
    kitchen.say("ate a bag from the freezer");
    let told = told(&kitchen.wait(Duration::days(6)));
    assert_eq!(told.iter().filter(|line| line.ends_with("thaw")).count(), 0, "{told:?}");
}

#[test]
fn a_day_called_off_is_told_no_more() {
    let mut kitchen = kitchen();
    kitchen.say("canning sauce on tuesday by 6 pm");
    assert_eq!(topics(&kitchen.say("canning is off")), ["reply called_off"]);
    assert_eq!(kitchen.wait(Duration::days(6)), []);
}

#[test]
fn a_batch_that_begins_takes_its_day_off_the_list() {
    let mut kitchen = kitchen();
    kitchen.say("canning sauce on tuesday by 6 pm");
    kitchen.wait(Duration::days(2));
    kitchen.say("thawing 7 bags");
    kitchen.wait(Duration::days(2) + Duration::hours(1));
    kitchen.say("starting thick sauce in quarts");
    let told = told(&kitchen.wait(Duration::hours(8)));
    assert!(told.iter().all(|line| !line.contains("planned")), "{told:?}");
}

#[test]
fn sooner_than_the_thaw_is_refused_and_nothing_is_set() {
    let mut kitchen = kitchen();
    let out = kitchen.say("canning sauce tomorrow by 6 pm");
    assert_eq!(topics(&out), ["problem too-soon"]);
    assert_eq!(out[0].facts["due_at"], json!("2026-08-17T18:00:00-05:00"));
    assert!(out[0].text.contains("Cold water"), "{}", out[0].text);
    assert_eq!(kitchen.wait(Duration::days(6)), []);
}

#[test]
fn a_day_with_too_little_fruit_is_noted_and_told_once_there_is_enough() {
    let mut kitchen = Kitchen::new();
    for said in ["altitude 2400 ft", "canner is steam, holds 7 quarts", "froze 4 bags at 7 lb"] {
        kitchen.say(said);
    }
    let out = kitchen.say("canning sauce on thursday by 6 pm");
    assert_eq!(topics(&out), ["reply planned"]);
    assert_eq!(out[0].facts["short_g"], json!(8164.663), "18 lb");
    kitchen.say("froze 3 bags at 7 lb");
    let told = told(&kitchen.wait(Duration::days(7)));
    assert_eq!(told[0], "Mon 20:00 planned thaw", "{told:?}");
}

#[test]
fn without_an_altitude_the_day_asks_for_it() {
    let mut kitchen = Kitchen::new();
    kitchen.say("froze 7 bags at 7 lb");
    assert_eq!(topics(&kitchen.say("canning sauce on tuesday by 6 pm")), ["problem clarify"]);
    assert_eq!(topics(&kitchen.say("2400 ft")), ["reply planned"]);
}

#[test]
fn the_digest_comes_when_it_was_asked_for_and_not_before() {
    let mut kitchen = kitchen();
    assert_eq!(told(&kitchen.wait(Duration::days(10))), Vec::<String>::new(), "off until set");
    kitchen.say("send the digest on sundays at 6 pm");
    let days: Vec<_> =
        kitchen.wait(Duration::days(14)).iter().map(|out| out.at.format("%F %H:%M").to_string()).collect();
    assert_eq!(days, ["2026-08-30 18:00", "2026-09-06 18:00"]);
    kitchen.say("no digest");
    assert_eq!(kitchen.wait(Duration::days(14)), []);
}

/// The same with ten bags.
fn ten_bags() -> Kitchen {
    let mut kitchen = kitchen();
    kitchen.say("froze 3 bags at 7 lb");
    kitchen
}

#[test]
fn the_reply_is_of_what_was_just_said() {
    let mut kitchen = ten_bags();
    kitchen.say("canning thick sauce on tuesday");
    let out = kitchen.say("we can thin sauce on tuesday");
    assert!(out[0].text.to_lowercase().contains("thin"), "{}", out[0].text);
    let out = kitchen.say("we can peaches on thursday");
    assert!(!out[0].text.contains("tomato sauce"), "{}", out[0].text);
}

#[test]
fn a_day_that_is_over_is_refused_whatever_there_is() {
    let mut kitchen = Kitchen::new();
    for said in ["altitude 2400 ft", "canner is steam, holds 7 quarts", "froze 33 lb"] {
        kitchen.say(said);
    }
    for (said, topic) in [
        ("canning sauce on august 1", "problem out-of-range"),
        ("canning sauce tomorrow", "problem too-soon"),
        ("canning sauce on thursday by 5 pm", "reply planned"),
    ] {
        assert_eq!(topics(&kitchen.say(said)), [topic], "{said}");
    }
    let out = kitchen.say("canning sauce on thursday by 5 pm");
    assert_eq!((&out[0].facts["jars"], out[0].facts["bags_chosen"].as_array().map(Vec::len)), (&json!(5), Some(5)));
    assert!(out[0].text.contains("5:00 pm"), "{}", out[0].text);
}

#[test]
fn no_bag_is_promised_to_two_days() {
    let mut kitchen = ten_bags();
    assert_eq!(topics(&kitchen.say("canning thin sauce in quarts on wednesday")), ["reply planned"]);
    let out = kitchen.say("canning thick sauce on thursday");
    let first = kitchen.say("canning thin sauce in quarts on wednesday");
    let chosen = first[0].facts["chosen_g"].as_f64().unwrap();
    let short = out[0].facts["short_g"].as_f64().unwrap();
    // 70 lb less the first day's load, against 46 lb.
    assert!(short > 0.0 && chosen + short > 70.0 * 453.59237 - 46.0 * 453.59237, "{}", out[0].text);
    assert!(out[0].text.contains("short"), "{}", out[0].text);
}

#[test]
fn a_day_without_a_product_moves_the_one_that_is_set() {
    let mut kitchen = ten_bags();
    kitchen.say("canning thin sauce in quarts on wednesday");
    let out = kitchen.say("canning on thursday");
    assert!(out[0].text.starts_with("Moved from Wed"), "{}", out[0].text);
    let off = kitchen.say("canning is off");
    assert!(off[0].text.contains("Thu Aug 20 is off"), "{}", off[0].text);
    assert_eq!(kitchen.say("canning is off")[0].text, "No such day was set.");
}

#[test]
fn bags_that_were_not_moved_are_told_once_and_the_later_steps_wait() {
    let mut kitchen = kitchen();
    kitchen.say("canning sauce on tuesday by 6 pm");
    let out = kitchen.wait(Duration::days(6));
    assert_eq!(told(&out), ["Sat 20:00 planned thaw", "Tue 12:25 planned held"]);
    assert!(out[1].text.contains("still in the freezer"), "{}", out[1].text);
}

#[test]
fn bags_that_went_in_late_are_still_frozen() {
    let mut kitchen = kitchen();
    kitchen.say("canning sauce on tuesday by 6 pm");
    kitchen.wait(Duration::hours(70));
    let out = kitchen.say("thawing 7 bags");
    assert!(out[0].text.contains("not be thawed"), "{}", out[0].text);
    let out = kitchen.wait(Duration::days(4));
    assert_eq!(told(&out), ["Tue 12:25 planned held"]);
    assert!(out[0].text.contains("still frozen"), "{}", out[0].text);
}

#[test]
fn thawed_fruit_of_a_day_that_passed_is_the_thing_to_do() {
    let mut kitchen = kitchen();
    kitchen.say("canning sauce on tuesday by 4 pm");
    kitchen.wait(Duration::hours(31));
    kitchen.say("thawing 7 bags");
    kitchen.wait(Duration::hours(71));
    let out = kitchen.say("what's next?");
    assert!(out[0].text.contains("49 lb") && out[0].text.contains("3 days"), "{}", out[0].text);
}

/// When a part of the day just set begins, and for how many minutes.
fn part(out: &[Outgoing], name: &str) -> (chrono::DateTime<chrono::FixedOffset>, f64) {
    let steps = out[0].facts["steps"].as_array().unwrap();
    let step = steps.iter().find(|step| step["part"] == json!(name)).unwrap();
    (step["at"].as_str().unwrap().parse().unwrap(), step["minutes"].as_f64().unwrap())
}

#[test]
fn jars_are_hot_before_the_first_is_filled_however_many_there_are() {
    for (holds, said) in [
        ("canner holds 14 quarts", "canning sauce in quarts on wednesday by 5 pm"),
        ("canner holds 7 quarts", "canning sauce in pints on wednesday by 5 pm"),
        ("canner is boiling water, holds 14 quarts", "canning sauce in quarts on wednesday by 5 pm"),
    ] {
        let mut kitchen = kitchen();
        kitchen.say("froze 8 bags at 7 lb");
        kitchen.say(holds);
        let out = kitchen.say(said);
        assert_eq!(topics(&out), ["reply planned"], "{said}");
        let ((heat, heats), (fill, fills)) = (part(&out, "heat-canner"), part(&out, "fill"));
        let (load, _) = part(&out, "load-canner");
        assert!(heat + Duration::minutes(heats as i64) <= fill, "{holds}: {}", out[0].text);
        assert!(fill + Duration::minutes(fills as i64) <= load, "{holds}: {}", out[0].text);
    }
}

#[test]
fn a_day_short_of_fruit_is_reminded_of_for_the_jars_it_makes() {
    let mut kitchen = Kitchen::new();
    for said in ["altitude 2400 ft", "canner is steam, holds 7 quarts", "froze 5 bags at 7 lb"] {
        kitchen.say(said);
    }
    kitchen.say("canning sauce on tuesday by 6 pm");
    let mut out = kitchen.wait(Duration::hours(33));
    assert!(out[0].text.contains("5 quarts") && out[0].text.contains("11 lb more"), "{}", out[0].text);
    kitchen.say("thawing 5 bags");
    let next = kitchen.say("what's next?");
    assert!(next[0].text.contains("drain") && !next[0].text.contains("Nothing is waiting"), "{}", next[0].text);
    out.extend(kitchen.wait(Duration::days(4)));
    assert_eq!(
        told(&out),
        [
            "Sat 20:00 planned thaw",
            "Tue 12:30 planned drain",
            "Tue 13:30 planned cook-down",
            "Tue 16:15 planned heat-canner",
            "Tue 16:30 planned fill"
        ]
    );
    assert_eq!(out[4].facts["jars"], json!(5));
}

#[test]
fn two_products_of_one_hour_share_neither_bags_nor_canner() {
    let mut kitchen = ten_bags();
    kitchen.say("canning thick sauce on wednesday by 6 pm");
    let out = kitchen.say("canning thin sauce in quarts on wednesday by 6 pm");
    // 70 lb less the 49 lb of seven bags, against 35 lb.
    assert_eq!(out[0].facts["short_g"], json!(6350.293), "14 lb: {}", out[0].text);
    assert!(out[0].text.contains("The canner has thick tomato sauce in it"), "{}", out[0].text);
    let out = kitchen.say("canning thin sauce in quarts on wednesday by noon");
    assert!(!out[0].text.contains("The canner has"), "{}", out[0].text);
}

#[test]
fn a_day_that_was_missed_is_spoken_of() {
    let mut kitchen = kitchen();
    kitchen.say("canning sauce on tuesday by 6 pm");
    kitchen.wait(Duration::hours(102) + Duration::minutes(30));
    let out = kitchen.say("what's next?");
    assert!(out[0].text.contains("Tue Aug 18 and not begun"), "{}", out[0].text);
    kitchen.wait(Duration::days(8));
    let out = kitchen.say("what's next?");
    assert!(out[0].text.starts_with("There is a load"), "not for ever: {}", out[0].text);
}

#[test]
fn a_missed_day_whose_fruit_is_still_frozen_is_spoken_of() {
    let mut kitchen = kitchen();
    kitchen.say("canning sauce on tuesday by 6 pm");
    kitchen.wait(Duration::hours(71));
    kitchen.say("thawing 7 bags");
    kitchen.wait(Duration::hours(31));
    let out = kitchen.say("what's next?");
    assert!(out[0].text.contains("not begun") && out[0].text.contains("49 lb is thawing"), "{}", out[0].text);
}

#[test]
fn bags_left_in_the_freezer_are_named_when_the_others_are_drained() {
    let mut kitchen = kitchen();
    kitchen.say("canning sauce on tuesday by 6 pm");
    kitchen.wait(Duration::hours(33));
    kitchen.say("thawing 4 bags");
    let out = kitchen.wait(Duration::hours(64));
    assert_eq!(told(&out), ["Tue 12:25 planned drain"]);
    assert!(out[0].text.contains("3 bags, 21 lb of it, are still in the freezer"), "{}", out[0].text);
    assert!(out[0].text.contains("'thawing 3 bags'"), "{}", out[0].text);
}

#[test]
fn bags_are_asked_for_before_quiet_hours() {
    let mut kitchen = kitchen();
    kitchen.say("quiet from 20:00 to 08:00");
    let out = kitchen.say("canning sauce on tuesday by noon");
    assert!(out[0].text.contains("come when those end, at 8:00 am"), "{}", out[0].text);
    let out = kitchen.say("canning sauce on tuesday by 6 pm");
    assert!(!out[0].text.contains("quiet hours"), "{}", out[0].text);
    assert_eq!(told(&kitchen.wait(Duration::hours(40))), ["Sat 19:00 planned thaw"]);
}

#[test]
fn the_plan_is_said_again_when_it_is_asked_for() {
    let mut kitchen = ten_bags();
    let set = kitchen.say("canning sauce on wednesday by 6 pm");
    let asked = kitchen.say("what's the plan for wednesday?");
    assert_eq!(asked[0].text, set[0].text);
    let next = kitchen.say("what's next?");
    assert!(next[0].text.contains("move 7 bags (7 × 7 lb"), "{}", next[0].text);
    assert_eq!(next[0].text.matches("7 bags").count(), 1, "no other bags beside the day's: {}", next[0].text);
}

#[test]
fn ripe_fruit_that_a_day_takes_is_named_as_such() {
    let mut kitchen = Kitchen::new();
    for said in ["altitude 2400 ft", "canner is steam, holds 7 quarts", "froze 6 bags at 7 lb", "picked 10 lb pink"] {
        kitchen.say(said);
    }
    let out = kitchen.say("canning sauce on wednesday by 6 pm");
    assert!(out[0].text.contains("4 lb of it comes ripe from the counter"), "{}", out[0].text);
    let ripe: Vec<_> = kitchen.wait(Duration::days(4)).into_iter().filter(|out| out.topic == "ripe").collect();
    assert_eq!(ripe.len(), 1);
    assert!(ripe[0].text.contains("Thick tomato sauce on Wed Aug 19 takes 4 lb"), "{}", ripe[0].text);
}

#[test]
fn what_thaws_for_a_day_is_not_said_to_be_missing_from_a_load() {
    let mut kitchen = kitchen();
    kitchen.say("canning sauce on tuesday by 6 pm");
    kitchen.wait(Duration::hours(33));
    kitchen.say("thawing 7 bags");
    let next = kitchen.say("what's next?");
    assert!(next[0].text.contains("49 lb thawing") && !next[0].text.contains("to go"), "{}", next[0].text);
}

#[test]
fn a_day_that_is_over_reminds_of_nothing_whatever_is_frozen_later() {
    let mut kitchen = Kitchen::new();
    for said in ["altitude 2400 ft", "canner is steam, holds 7 quarts", "canning sauce on tuesday by 6 pm"] {
        kitchen.say(said);
    }
    assert_eq!(kitchen.wait(Duration::days(5)), []);
    assert_eq!(topics(&kitchen.say("froze 7 bags at 7 lb")), ["reply froze", "alert load-ready"]);
    assert_eq!(kitchen.wait(Duration::days(2)), []);
}

/// USDA AIB 539 (2015), Guide 2, Peaches, quarts at 1,001 to 3,000 ft: 30 minutes hot, 35 raw.
#[test]
fn where_packs_differ_the_day_reckons_with_the_longer_and_says_so() {
    let mut kitchen = Kitchen::new();
    for said in ["altitude 2400 ft", "canner is boiling water, holds 7 quarts", "picked 20 lb peaches"] {
        kitchen.say(said);
    }
    let out = kitchen.say("canning peaches in quarts on tuesday by 6 pm");
    assert_eq!(topics(&out), ["reply planned"], "{}", out[0].text);
    assert_eq!(out[0].facts["minutes"], json!(35));
    assert!(out[0].text.contains("35 min of it the process for raw pack"), "{}", out[0].text);
    assert!(
        out[0].text.contains("17.5 lb of it comes from the counter"),
        "a peach has no colour class: {}",
        out[0].text
    );
}

#[test]
fn fruit_of_no_said_ripeness_is_named_where_a_day_is_short() {
    let mut kitchen = kitchen();
    kitchen.say("picked 30 lb");
    let out = kitchen.say("canning 14 quarts of sauce on tuesday by 6 pm");
    assert!(out[0].text.contains("I don't count the 30 lb on the counter"), "{}", out[0].text);
    let out = kitchen.say("canning 7 quarts of sauce on tuesday by 6 pm");
    assert!(!out[0].text.contains("I don't count"), "{}", out[0].text);
}
