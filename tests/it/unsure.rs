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
