//! What people ask of the handbook: which food they mean, in which jar, at which height, and what its time holds with.
//!
//! Times: USDA AIB 539 (2015), Guides 2 to 5. Jars: North Carolina State extension (a pint-and-a-half as the quart),
//! Kansas State extension (2019, 2022; 4 oz as the half-pint, 12 oz as the pint, 24 and 28 oz as the quart) and the
//! National Center for Home Food Preservation (no jar larger than listed).

use crate::support::{Kitchen, topics};
use serde_json::Value;

fn kitchen(height: &str) -> Kitchen {
    let mut kitchen = Kitchen::new();
    kitchen.say(&format!("altitude {height}"));
    kitchen
}

/// Minutes and pressure of the answer, and its words.
fn answer(kitchen: &mut Kitchen, words: &str) -> (Option<u64>, Option<f64>, String) {
    let out = kitchen.say(words);
    let fact = |name: &str| out.iter().find_map(|out| out.facts.get(name)).cloned();
    let text = out.last().map(|out| out.text.to_string()).unwrap_or_default();
    (fact("minutes").as_ref().and_then(Value::as_u64), fact("psi").as_ref().and_then(Value::as_f64), text)
}

#[test]
fn a_word_for_several_foods_is_asked_about_and_the_answer_gets_its_time() {
    for (word, question, said, minutes) in [
        ("beans", "Snap, lima or dried beans?", "snap", 20),
        ("beans", "Snap, lima or dried beans?", "lima", 40),
        ("beans", "Snap, lima or dried beans?", "dried", 75),
        ("corn", "Whole-kernel or cream-style corn?", "whole-kernel", 55),
        ("corn", "Whole-kernel or cream-style corn?", "cream-style", 85),
        ("potatoes", "White or sweet potatoes?", "white", 35),
        ("potatoes", "White or sweet potatoes?", "sweet", 65),
        ("peas", "Green or dried peas?", "green", 40),
        ("chicken", "With or without bones?", "without bones", 75),
        ("chicken", "With or without bones?", "with bones", 65),
    ] {
        let mut kitchen = kitchen("500 ft");
        let asked = answer(&mut kitchen, &format!("process for {word} in pints, weighted gauge?"));
        assert!(asked.0.is_none() && asked.2.starts_with(question), "{word}: {asked:?}");
        assert_eq!(answer(&mut kitchen, said).0, Some(minutes), "{word}, {said}");
    }
    let asked = answer(&mut kitchen("500 ft"), "process for salsa in pints, boiling water?");
    assert!(asked.0.is_none() && asked.2.starts_with("Which salsa"), "{asked:?}");
}

#[test]
fn a_jar_takes_the_time_that_is_published_for_it_or_none() {
    for (jar, minutes) in [
        ("1.5 pint jars", Some(45)),
        ("pint and a half jars", Some(45)),
        ("24 oz jars", Some(45)),
        ("28 oz jars", Some(45)),
        ("32 oz jars", Some(45)),
        ("16 oz jars", Some(35)),
        ("12 oz jars", Some(35)),
        ("8 oz jars", Some(35)),
        ("4 oz jars", Some(35)),
        ("500 ml jars", Some(45)),
        ("2 quart jars", None),
        ("2.5 pint jars", None),
        ("half gallons", None),
        ("64 oz jars", None),
        ("litre jars", None),
        ("mayonnaise jars", None),
        ("used pickle jars", None),
    ] {
        let asked = answer(&mut kitchen("500 ft"), &format!("process for crushed tomatoes in {jar}, boiling water?"));
        assert_eq!(asked.0, minutes, "{jar}: {}", asked.2);
    }
    let metric = answer(&mut kitchen("500 ft"), "process for crushed tomatoes in 500 ml jars, boiling water?");
    assert!(metric.2.contains("no public body") && metric.2.contains("common practice"), "{}", metric.2);
    for food in ["chile con carne", "salmon", "smoked salmon", "mushrooms", "tuna"] {
        let asked = answer(&mut kitchen("500 ft"), &format!("process for {food} in quarts, weighted gauge?"));
        assert_eq!(asked.0, None, "{food}: {}", asked.2);
    }
}

#[test]
fn a_height_counts_for_the_question_that_it_stands_beside() {
    for words in [
        "process for green beans in quarts, weighted gauge? we're at 5000 ft",
        "we're at 5000 ft. process for green beans in quarts, weighted gauge?",
        "process for green beans in quarts, weighted gauge, at 5000 ft?",
    ] {
        assert_eq!(answer(&mut kitchen("500 ft"), words).1, Some(15.0), "{words}");
    }
}

#[test]
fn after_a_height_that_cannot_be_there_is_no_time_until_it_is_told() {
    let question = "process for crushed tomatoes in pints, boiling water?";
    let mut kitchen = kitchen("500 ft");
    assert_eq!(answer(&mut kitchen, question).0, Some(35));
    assert_eq!(topics(&kitchen.say("altitude 12000 ft")), ["problem out-of-range"]);
    assert_eq!(answer(&mut kitchen, question).0, None);
    kitchen.say("altitude 2.400 ft");
    assert_eq!(answer(&mut kitchen, question).0, Some(40));
    for unclear in ["altitude 24oo ft", "altitude 5"] {
        assert_eq!(topics(&kitchen.say(unclear)), ["problem clarify"], "{unclear}");
        assert_eq!(answer(&mut kitchen, question).0, None, "{unclear}");
        kitchen.say("altitude 2400 ft");
    }
    assert_eq!(answer(&mut kitchen, question).0, Some(40));
}

#[test]
fn what_a_time_holds_with_is_said_with_it() {
    for (food, jar, said) in [
        ("soup", "pints", "half with solids"),
        ("soup with seafood", "quarts", "no pasta"),
        ("smoked salmon", "pints", "4 quarts of cool tap water"),
        ("apple pie filling", "quarts", "modified starch"),
        ("mushrooms", "pints", "wild ones have no process"),
        ("dried beans", "pints", "never dry"),
        ("chicken with bones", "pints", "it takes longer"),
    ] {
        let canner = if food.contains("filling") { "boiling water" } else { "weighted gauge" };
        let asked = answer(&mut kitchen("500 ft"), &format!("process for {food} in {jar}, {canner}?"));
        assert!(asked.0.is_some() && asked.2.contains(said), "{food}: {asked:?}");
    }
    let one = answer(&mut kitchen("500 ft"), "process for easy hot sauce in half-pints, boiling water?");
    assert!(one.2.contains("One source: USDA"), "{}", one.2);
    for food in ["chicken noodle soup", "soup with rice", "cream of mushroom soup", "blue crab", "wild mushrooms"] {
        let asked = answer(&mut kitchen("500 ft"), &format!("process for {food} in pints, weighted gauge?"));
        assert_eq!(asked.0, None, "{food}: {}", asked.2);
    }
}
