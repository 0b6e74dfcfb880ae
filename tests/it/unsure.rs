//! What is not sure starts no clock, puts no acid into a jar, and is not left as a guess while a process runs.

use crate::support::{Kitchen, minutes, topics};
use serde_json::json;

const SAUCE: [&str; 4] =
    ["altitude 500 ft", "canner is boiling water, holds 9 pints", "starting thick sauce in pints", "filled 9"];

fn kitchen(before: &[&str]) -> Kitchen {
    let mut kitchen = Kitchen::new();
    for words in before {
        kitchen.say(words);
    }
    kitchen
}

#[test]
fn heat_that_is_hedged_or_of_another_pot_starts_no_clock() {
    for words in ["almost boiling", "rolling boil? no", "kettle's boiling", "not at a rolling boil yet"] {
        let mut kitchen = kitchen(&SAUCE);
        kitchen.say("lemon juice is in");
        kitchen.say(words);
        assert_eq!(kitchen.state()["batch"]["stage"], json!("filled"), "{words}");
    }
    let mut kitchen = kitchen(&SAUCE);
    kitchen.say("lemon juice is in");
    kitchen.say("rolling boil");
    assert_eq!(kitchen.state()["batch"]["stage"], json!("processing"));
}

/// A dial gauge shows a figure; boiling says nothing of it.
#[test]
fn a_dial_gauge_starts_by_its_figure_alone() {
    let beans = ["altitude 500 ft", "canner is dial gauge pressure canner, holds 9 pints"];
    let filled = ["starting green beans in pints", "filled 9", "venting"];
    let before: Vec<&str> = beans.into_iter().chain(filled).collect();
    for words in ["rolling boil", "steam's up", "almost at 11 pounds"] {
        let mut kitchen = kitchen(&before);
        kitchen.wait(minutes(12));
        kitchen.say(words);
        assert_eq!(kitchen.state()["batch"]["stage"], json!("venting"), "{words}");
        kitchen.say("at 11 pounds");
        assert_eq!(kitchen.state()["batch"]["stage"], json!("processing"), "{words}");
    }
}

#[test]
fn acid_that_is_denied_somewhere_else_or_to_come_is_not_in() {
    for words in [
        "acid: none",
        "0 lemon",
        "lemon juice is in the fridge",
        "lemon juice will be in",
        "lemon juice is in I think",
        "lemon juice is in for the first 9",
        "lemon zest is in",
        "the lemon juice expired in 2019",
    ] {
        let mut kitchen = kitchen(&SAUCE);
        let out = kitchen.say(words);
        assert!(!out.is_empty() && !out[0].text.contains("Noted"), "{words}: {out:?}");
    }
    for words in ["lemon juice is in", "citric acid's in", "lemon juice is in all the jars"] {
        assert_eq!(topics(&kitchen(&SAUCE).say(words)), ["reply acid_added"], "{words}");
    }
}

/// A guess that nobody answers would let the jars through.
#[test]
fn heat_that_may_be_lost_is_asked_and_holds_the_jars() {
    for words in ["the stove clicked off", "storm knocked the power out"] {
        let mut kitchen = kitchen(&SAUCE);
        kitchen.say("lemon juice is in");
        kitchen.say("rolling boil");
        kitchen.wait(minutes(10));
        let out = kitchen.say(words);
        assert!(out[0].text.contains("yes or no"), "{words}: {out:?}");
        kitchen.wait(minutes(30));
        for words in ["heat's off", "jars are out"] {
            kitchen.say(words);
            kitchen.wait(minutes(10));
        }
        kitchen.wait(minutes(12 * 60));
        kitchen.say("all sealed");
        assert_eq!(kitchen.state()["pantry"], json!([]), "{words}");
    }
}

/// Words that are no step and that may mean lost heat or pressure, while a process runs and when its jars are out.
#[test]
fn words_that_may_mean_lost_heat_are_asked_about_where_a_canner_was_hot() {
    let running: Vec<&str> = SAUCE.into_iter().chain(["lemon juice is in", "rolling boil"]).collect();
    for words in [
        "propane tank is empty",
        "the pot's gone cold",
        "we only did 20 minutes",
        "I fell asleep",
        "it's not bubbling",
        "turned it down to low",
    ] {
        let mut kitchen = kitchen(&running);
        kitchen.wait(minutes(10));
        let out = kitchen.say(words);
        assert!(out.first().is_some_and(|out| out.text.contains("yes or no")), "{words}: {out:?}");
    }
    let mut out_of_it = kitchen(&running);
    out_of_it.wait(minutes(36));
    for words in ["heat's off", "jars are out"] {
        out_of_it.say(words);
        out_of_it.wait(minutes(10));
    }
    let asked = out_of_it.say("lost the boil");
    assert!(asked[0].text.contains("yes or no"), "{asked:?}");
    out_of_it.wait(minutes(12 * 60));
    out_of_it.say("all sealed");
    assert_eq!(out_of_it.state()["pantry"], json!([]));
}

#[test]
fn the_same_words_are_talk_where_no_canner_was_hot() {
    for words in ["the propane tank is empty", "I fell asleep on the couch", "the power went out at the lake"] {
        assert_eq!(kitchen(&SAUCE).say(words), [], "{words}");
    }
    let running: Vec<&str> = SAUCE.into_iter().chain(["lemon juice is in", "rolling boil"]).collect();
    for words in ["the power bill went up", "early to bed tonight"] {
        assert_eq!(kitchen(&running).say(words), [], "{words}");
    }
}

/// Acid that was told and is taken back in other words is not in.
#[test]
fn acid_that_is_taken_back_is_missing() {
    let told: Vec<&str> = SAUCE.into_iter().chain(["lemon juice is in"]).collect();
    for words in ["wait, no it isn't", "oops no, still on the counter", "it was only a drop", "one jar got none"] {
        let out = kitchen(&told).say(words);
        assert!(out.first().is_some_and(|out| out.text.contains("without acid")), "{words}: {out:?}");
    }
}

/// Water boils under an open vent too: what only boils is at no pressure.
#[test]
fn boiling_starts_no_clock_under_a_weight() {
    let beans = ["altitude 500 ft", "canner is weighted gauge pressure canner, holds 9 pints"];
    let filled = ["starting green beans in pints", "filled 9", "venting"];
    let before: Vec<&str> = beans.into_iter().chain(filled).collect();
    for (words, stage) in [("rolling boil", "venting"), ("boiling", "venting"), ("the weight is rocking", "processing")]
    {
        let mut kitchen = kitchen(&before);
        kitchen.wait(minutes(12));
        kitchen.say(words);
        assert_eq!(kitchen.state()["batch"]["stage"], json!(stage), "{words}");
    }
}
