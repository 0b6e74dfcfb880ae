//! A canning day as a household tells it, and what must never come of it: a time that is not the table's, a jar that is
//! shelved without its full time. Minutes are those of USDA AIB 539 (2015), Guide 3, Standard tomato sauce and Crushed
//! tomatoes.

use crate::support::{Kitchen, topics};
use chrono::Duration;
use rackful::assistant::{Outgoing, Said};
use rackful::ledger::MessageId;
use serde_json::json;

fn kitchen(said: &[&str]) -> Kitchen {
    let mut kitchen = Kitchen::new();
    for words in said {
        let out = kitchen.say(words);
        assert!(topics(&out).iter().all(|topic| !topic.starts_with("problem")), "{words}: {}", out[0].text);
    }
    kitchen
}

fn minutes(out: &[Outgoing]) -> Option<u64> {
    out[0].facts.get("minutes").and_then(serde_json::Value::as_u64)
}

#[test]
fn jars_of_another_size_take_their_own_time_and_acid() {
    let mut pints_meant = kitchen(&["altitude 500 ft", "starting thick sauce in pints"]);
    let out = pints_meant.say("filled 7 quarts");
    assert_eq!(
        (minutes(&out), &out[0].facts["jar"], &out[0].facts["acid_ml"]),
        (Some(40), &json!("quart"), &json!(29.574))
    );
    assert_eq!(minutes(&pints_meant.say("rolling boil")), Some(40));
    // At 4,000 ft pints may go into the steam canner (45 minutes), quarts may not (50).
    let mut high = kitchen(&["altitude 4000 ft", "canner is steam", "starting thick sauce in pints"]);
    assert_eq!(topics(&high.say("filled 7 quarts")), ["problem too-long-for-steam"]);
}

#[test]
fn jars_of_another_product_are_not_taken_for_the_batch() {
    let mut kitchen = kitchen(&["altitude 500 ft", "starting thick sauce in quarts"]);
    assert_eq!(topics(&kitchen.say("filled 7 quarts of crushed tomatoes")), ["problem no-batch"]);
}

#[test]
fn times_follow_the_altitude_while_the_clock_runs() {
    let mut kitchen =
        kitchen(&["altitude 500 ft", "starting thick sauce in quarts", "filled 7 quarts", "rolling boil"]);
    let out = kitchen.say("altitude 2400 ft");
    assert!(out[0].text.contains("now takes 45 min"), "{}", out[0].text);
    assert_eq!(minutes(&kitchen.say("timer?")), Some(45));
}

#[test]
fn without_its_altitude_a_running_process_cannot_be_finished() {
    let mut kitchen =
        kitchen(&["altitude 500 ft", "starting thick sauce in quarts", "filled 7 quarts", "rolling boil"]);
    kitchen.hear("ana", Said::Redact { target: MessageId::new("$1") });
    kitchen.wait(Duration::hours(2));
    assert_eq!(topics(&kitchen.say("heat's off")), ["problem too-soon"]);
    assert_ne!(topics(&kitchen.say("all sealed")), ["reply sealed"]);
    assert_eq!(kitchen.state()["pantry"], json!([]));
    kitchen.say("altitude 500 ft");
    assert_eq!(minutes(&kitchen.say("rolling boil")), Some(40));
}

#[test]
fn a_recipe_of_ones_own_gets_no_time_and_no_batch_but_is_counted() {
    let mut kitchen = kitchen(&["altitude 500 ft", "recipe fire salsa takes 6 lb makes 4 pints"]);
    let out = kitchen.say("starting fire salsa in pints");
    assert_eq!((topics(&out), minutes(&out)), (vec!["problem not-tested".to_owned()], None));
    assert_eq!((&out[0].facts["tested"], &kitchen.state()["batch"]), (&json!(false), &json!(null)));
    kitchen.say("put up 4 pints of fire salsa");
    assert_eq!(kitchen.state()["pantry"], json!([{"product": "fire salsa", "jar": "pint", "jars": 4}]));
}

#[test]
fn the_first_round_has_its_own_24_hours() {
    let mut kitchen = kitchen(&[
        "altitude 500 ft",
        "starting thick sauce in quarts, 14 quarts",
        "filled 14 quarts",
        "lemon juice is in",
        "rolling boil",
    ]);
    kitchen.wait(Duration::minutes(45));
    kitchen.say("heat's off");
    kitchen.wait(Duration::minutes(10));
    kitchen.say("jars are out");
    let first_out = kitchen.now;
    kitchen.wait(Duration::hours(8));
    kitchen.say("rolling boil");
    kitchen.wait(Duration::minutes(45));
    kitchen.say("heat's off");
    kitchen.wait(Duration::minutes(10));
    kitchen.say("jars are out");
    kitchen.wait(Duration::hours(11));
    kitchen.say("12 of 14 sealed");
    // Of the fates told, the first seven are the first round's: its jars are all known, so the day counts from the
    // second.
    let until = kitchen.say("reprocessing it");
    assert_eq!(topics(&until), ["reply reprocessed"]);
    assert!(kitchen.now < first_out + Duration::hours(24));
}

#[test]
fn after_24_hours_a_jar_is_not_reprocessed() {
    let mut kitchen = kitchen(&[
        "altitude 500 ft",
        "starting thick sauce in quarts",
        "filled 7 quarts",
        "lemon juice is in",
        "rolling boil",
    ]);
    kitchen.wait(Duration::minutes(45));
    kitchen.say("heat's off");
    kitchen.wait(Duration::minutes(10));
    kitchen.say("jars are out");
    kitchen.wait(Duration::hours(25));
    let out = kitchen.say("6 of 7 sealed");
    assert!(out[0].text.contains("24 hours for reprocessing are over"), "{}", out[0].text);
    assert_eq!(topics(&kitchen.say("reprocessing it")), ["problem out-of-range"]);
    assert_eq!(topics(&kitchen.say("put 1 in the fridge")), ["reply refrigerated"]);
    assert_eq!(kitchen.state()["batch"], json!(null));
}

#[test]
fn acid_is_counted_as_it_went_in_and_never_made() {
    let mut kitchen = kitchen(&["altitude 500 ft", "got 10 g of citric acid", "starting thick sauce in quarts"]);
    let out = kitchen.say("filled 7 quarts");
    assert_eq!((&out[0].facts["acid"], &out[0].facts["acid_total_g"]), (&json!("citric-acid"), &json!(16.8)));
    assert_eq!(kitchen.state()["supplies"], json!({"citric-acid_g": 0.0}));
    kitchen.say("lemon juice is in");
    assert_eq!(kitchen.state()["supplies"], json!({"citric-acid_g": 10.0}));
}

#[test]
fn an_acid_that_is_used_up_is_short() {
    let mut kitchen =
        kitchen(&["altitude 500 ft", "got 16.8 g of citric acid", "starting thick sauce in quarts", "filled 7 quarts"]);
    assert_eq!(topics(&kitchen.say("starting thin sauce in quarts")), ["reply began", "alert supplies-low"]);
}

#[test]
fn a_filling_told_twice_counts_once() {
    let mut kitchen =
        kitchen(&["altitude 500 ft", "bought 20 lids", "starting thick sauce in quarts", "filled 7 quarts"]);
    assert_eq!(topics(&kitchen.say_as("ben", "filled 7 quarts")), ["problem out-of-range"]);
    assert_eq!(kitchen.state()["supplies"], json!({"lids": 13}));
}

#[test]
fn an_answer_that_is_edited_answers_anew_and_a_question_that_is_deleted_takes_it_along() {
    let mut kitchen = Kitchen::new();
    kitchen.say("froze 7");
    let question = kitchen.last();
    kitchen.say("lb");
    let answer = kitchen.last();
    let out = kitchen.hear("ana", Said::Edit { target: answer, text: "bags".into() });
    assert_eq!(topics(&out)[0], "reply froze");
    assert_eq!(kitchen.state()["freezer"][0]["bags"].as_array().unwrap().len(), 7);
    assert_eq!(topics(&kitchen.hear("ana", Said::Redact { target: question })), ["reply undo"]);
    assert_eq!(kitchen.state()["freezer"], json!([]));
}

#[test]
fn a_load_that_is_emptied_and_filled_in_one_message_is_told_again() {
    let mut kitchen = kitchen(&["froze 7 bags at 7 lb"]);
    let out = kitchen.say("thawing 7 bags, froze 7 bags at 7 lb");
    assert_eq!(topics(&out), ["reply thawed", "alert load-ready"]);
}

#[test]
fn the_words_of_a_question_are_its_answer() {
    let mut kitchen = kitchen(&["altitude 500 ft"]);
    kitchen.say("starting whole tomatoes in quarts");
    let out = kitchen.say("raw-packed whole tomatoes with no added liquid");
    assert_eq!((topics(&out), minutes(&out)), (vec!["reply began".to_owned()], Some(85)));
}

#[test]
fn what_may_be_food_is_not_passed_over_in_a_start() {
    let mut kitchen = kitchen(&["altitude 500 ft"]);
    let out = kitchen.say("starting tomato sauce with peppers and onions in quarts");
    assert!(topics(&out).iter().all(|topic| topic.starts_with("problem")), "{out:?}");
    assert_eq!(kitchen.state()["batch"], json!(null));
}

#[test]
fn what_counts_as_picked_is_in_every_sum() {
    let mut kitchen = kitchen(&["froze 10 lb", "picked 5 lb"]);
    let out = kitchen.say("how much have we picked this month?");
    assert_eq!(out[0].facts["picked_g"], json!(6803.886));
}

#[test]
fn empty_jars_are_used_by_each_batch_where_they_were_ever_counted() {
    let mut kitchen = kitchen(&["altitude 500 ft", "bought 12 quart jars", "bought 5 pint jars", "bought 30 lids"]);
    let left = |kitchen: &Kitchen| {
        let supplies = kitchen.state()["supplies"].clone();
        (supplies["jars-quart"].as_u64().unwrap(), supplies["jars-pint"].as_u64().unwrap())
    };
    kitchen.say("starting thick sauce, 7 quarts");
    assert_eq!(left(&kitchen), (12, 5), "none is used before it is filled");
    kitchen.say("filled 7 quarts");
    assert_eq!(left(&kitchen), (5, 5));
    kitchen.say("put up 3 quarts of crushed tomatoes");
    assert_eq!(left(&kitchen), (2, 5));
    kitchen.say("used a quart of crushed tomatoes");
    assert_eq!(left(&kitchen), (2, 5), "an emptied jar is back when it is counted");
    let out = kitchen.say("starting crushed tomatoes, 7 quarts");
    let short = out.iter().find(|out| out.topic == "supplies-low").unwrap();
    assert!(short.text.contains("2 empty quarts, it takes 7 empty quarts: get 5 empty quarts more"), "{}", short.text);
    let out = kitchen.say("filled 7 quarts of crushed tomatoes");
    assert!(out[0].text.contains("By my count there are no more empty quarts."), "{}", out[0].text);
    kitchen.say("undo");
    assert_eq!(left(&kitchen), (2, 5), "what was not filled was not used");
    let mut uncounted = self::kitchen(&["altitude 500 ft", "starting thick sauce, 7 quarts", "filled 7 quarts"]);
    assert_eq!(uncounted.state()["supplies"], json!({}));
    assert!(!uncounted.say("supplies?")[0].text.contains("quarts"));
}

#[test]
fn a_start_with_an_altitude_of_its_own_is_not_timed_for_another() {
    let mut kitchen = kitchen(&["altitude 1200 ft", "canner is pressure dial"]);
    let out = kitchen.say("starting green beans, 7 quarts at 6500 ft");
    assert_eq!((topics(&out), minutes(&out)), (vec!["problem clarify".to_owned()], None), "{}", out[0].text);
    assert_eq!(kitchen.state()["batch"], json!(null));
}

/// Guide 3 and 4 have no half-gallons of tomatoes, and low-acid food only under pressure.
#[test]
fn what_was_put_up_without_a_tested_process_is_not_called_good_for_a_year() {
    let mut kitchen = kitchen(&["altitude 500 ft"]);
    let out = kitchen.say("put up 3 half gallons of crushed tomatoes");
    assert_eq!(out[0].facts["tested"], json!(false));
    assert!(out[0].text.contains("not safe on a shelf") && !out[0].text.contains("within a year"), "{}", out[0].text);
    assert_eq!(kitchen.state()["lots"][0]["best_by"], json!(null));
    let out = kitchen.say("put up 7 quarts of green beans");
    assert!(out[0].text.contains("only from a pressure canner"), "{}", out[0].text);
    let out = kitchen.say("put up 3 half pints of crushed tomatoes");
    assert!(out[0].text.contains("Best within a year"), "the next size up is tested: {}", out[0].text);
}

/// USDA AIB 539 (2015), Guide 1: reprocessed within 24 hours, or refrigerated, or frozen.
#[test]
fn what_stood_unsealed_for_longer_than_a_day_is_not_to_be_eaten() {
    let mut kitchen = kitchen(&[
        "altitude 500 ft",
        "starting thick sauce in quarts",
        "filled 7 quarts",
        "lemon juice is in",
        "rolling boil",
    ]);
    kitchen.wait(Duration::minutes(45));
    kitchen.say("heat's off");
    kitchen.wait(Duration::minutes(6));
    kitchen.say("jars are out");
    kitchen.wait(Duration::hours(40));
    for words in ["5 of 7 sealed", "what's next?", "reprocessing it"] {
        let out = kitchen.say(words);
        assert!(
            out[0].text.contains("throw it away untasted, unless it has stood in the refrigerator"),
            "{words}: {}",
            out[0].text
        );
    }
}

#[test]
fn filled_six_is_six_of_the_jars_that_the_batch_was_begun_with() {
    let mut kitchen = kitchen(&["altitude 500 ft", "starting crushed tomatoes, 6 500 ml jars"]);
    assert_eq!(topics(&kitchen.say("filled 6")), ["reply filled"]);
    assert_eq!((&kitchen.state()["batch"]["jars"], &kitchen.state()["batch"]["jar"]), (&json!(6), &json!("500ml")));
    let mut two =
        self::kitchen(&["altitude 500 ft", "starting crushed tomatoes, 6 pints", "starting thick sauce, 6 quarts"]);
    assert_eq!(topics(&two.say("filled 6")), ["problem clarify"], "of which of the two?");
}

/// The guide prints vinegar by the quart only; the pint's half of it is confirmed by no page.
#[test]
fn an_acid_without_a_published_dose_for_the_jar_is_not_just_noted() {
    let mut pints = kitchen(&["altitude 500 ft", "starting crushed tomatoes in pints"]);
    let out = pints.say("vinegar is in");
    assert!(out[0].text.contains("no dose of vinegar is published for pints"), "{}", out[0].text);
    let mut quarts = kitchen(&["altitude 500 ft", "starting crushed tomatoes in quarts"]);
    let out = quarts.say("vinegar is in");
    assert!(!out[0].text.contains("no dose"), "{}", out[0].text);
}

/// Guide 3, Tomatillo green salsa: about 5 pints; Guide 4, Mixed vegetables: 7 quarts.
#[test]
fn jars_a_load_are_told_where_no_weight_is_printed() {
    let mut kitchen = kitchen(&["altitude 500 ft"]);
    let out = kitchen.say("process for tomatillo green salsa in pints?");
    assert_eq!((&out[0].facts["jars"], minutes(&out)), (&json!(5), Some(15)));
    let out = kitchen.say("process for mixed vegetables in quarts in a dial gauge canner?");
    assert_eq!(out[0].facts["jars"], json!(7), "{}", out[0].text);
}

#[test]
fn an_altitude_below_the_sea_is_all_accounted_for() {
    let out = Kitchen::new().say("altitude 20 ft below sea level");
    assert!(out[0].text.contains("-20 ft") && !out[0].text.contains("made nothing"), "{}", out[0].text);
}

#[test]
fn what_broke_while_the_canner_rests_needs_no_process_any_more() {
    let mut kitchen =
        kitchen(&["altitude 500 ft", "starting thick sauce in quarts, 14 quarts", "filled 14 quarts", "rolling boil"]);
    kitchen.wait(Duration::minutes(45));
    kitchen.say("heat's off");
    let out = kitchen.say("1 jar broke in the canner");
    assert!(!out[0].text.contains("to process"), "{}", out[0].text);
    kitchen.wait(Duration::minutes(6));
    let out = kitchen.say("took 5 jars out");
    assert!(out[0].text.contains("5 out, 7 to go"), "{}", out[0].text);
}

/// Every row of these is from memory: which jar is no question then, started or asked.
#[test]
fn a_product_whose_table_nobody_has_confirmed_is_said_to_be_unverified() {
    let mut kitchen = kitchen(&["altitude 500 ft", "canner is boiling water"]);
    for words in ["process for chile salsa II?", "process for tomato and green chile salsa?", "starting chile salsa II"]
    {
        let out = kitchen.say(words);
        assert_eq!(
            (topics(&out), minutes(&out)),
            (vec!["problem not-tested".to_owned()], None),
            "{words}: {}",
            out[0].text
        );
        assert!(out[0].text.contains("isn't verified here"), "{words}: {}", out[0].text);
    }
}

#[test]
fn freezer_bags_are_used_by_what_is_frozen() {
    let mut kitchen = kitchen(&["bought 40 freezer bags"]);
    let bags = |kitchen: &Kitchen| kitchen.state()["supplies"]["bags"].clone();
    assert_eq!(bags(&kitchen), json!(40));
    kitchen.say("froze 3 bags at 7 lb");
    assert_eq!(bags(&kitchen), json!(37));
    kitchen.say("undo");
    assert_eq!(bags(&kitchen), json!(40));
}

#[test]
fn two_foods_asked_for_at_once_are_not_one_jar() {
    let mut kitchen = kitchen(&["altitude 500 ft", "canner is pressure dial"]);
    let out = kitchen.say("process for peas and carrots in pints?");
    assert_eq!((topics(&out), minutes(&out)), (vec!["problem not-tested".to_owned()], None), "{out:?}");
    assert!(out[0].text.contains("'carrots'"), "the word is named: {out:?}");
    let out = kitchen.say("process for carrots in pints?");
    assert_eq!(topics(&out), ["reply ask"], "{out:?}");
}

/// USDA AIB 539, Guide 4, Pumpkins and winter squash: "do not mash or puree".
#[test]
fn food_in_another_form_than_was_tested_gets_no_time() {
    let mut kitchen = kitchen(&["altitude 500 ft", "canner is pressure dial"]);
    for words in [
        "process for pureed pumpkin in pints?",
        "starting pureed carrots in pints",
        "starting mashed sweet potatoes in pints",
        "process for stuffed peppers in pints?",
        "process for pureed peaches in pints in boiling water?",
    ] {
        let out = kitchen.say(words);
        // Known as another food, or not known at all.
        let refused = ["problem not-tested", "problem unknown-product"].contains(&topics(&out)[0].as_str());
        assert!(refused && out.len() == 1 && minutes(&out).is_none(), "{words}: {}", out[0].text);
        assert!(!out[0].text.contains(" min"), "{words}: {}", out[0].text);
    }
    assert_eq!(kitchen.state()["batch"], json!(null));
    kitchen.say("starting carrots, 9 pints");
    let out = kitchen
        .hear("ana", Said::Edit { target: MessageId::new("$8"), text: "starting pureed carrots, 9 pints".to_owned() });
    assert!(minutes(&out).is_none(), "nor after an edit: {out:?}");
    assert_eq!(kitchen.state()["batch"], json!(null));
    assert_eq!(minutes(&kitchen.say("process for fruit puree in pints in boiling water?")), Some(15));
}
