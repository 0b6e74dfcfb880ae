//! What reading phrases promises beyond the corpora: answers, names, what is left over, what is refused.

#![allow(clippy::unwrap_used, clippy::panic, clippy::expect_used)]

use chrono::{DateTime, Utc};
use proptest::prelude::*;
use rackful::{
    phrase::{Context, Lexicon, complete, crop_said, mass_unit, nearest, read},
    quantity::Mass,
    statement::{Statement, TimerStart},
    vocabulary::{Crop, Subject},
    zone::Zone,
};

const NOW: &str = "2026-08-14T09:05:00-05:00";

fn at(now: &str) -> (DateTime<Utc>, Zone) {
    let now = DateTime::parse_from_rfc3339(now).unwrap();
    (now.to_utc(), Zone::Fixed(*now.offset()))
}

fn said(text: &str, now: &str) -> Vec<Statement> {
    said_in(text, now, &Lexicon::default())
}

fn said_in(text: &str, now: &str, lexicon: &Lexicon) -> Vec<Statement> {
    let (now, zone) = at(now);
    read(text, &Context { now, zone, lexicon, last: None }).statements
}

fn near(text: &str) -> Option<&'static str> {
    let lexicon = Lexicon::default();
    let (now, zone) = at(NOW);
    nearest(text, &Context { now, zone, lexicon: &lexicon, last: None })
}

/// `sauce` is the usual one unless an open batch is called so.
#[test]
fn a_batch_called_like_a_product_is_that_batch() {
    let (now, zone) = at(NOW);
    let told = |batches: &[&str], text: &str| {
        let batches = batches.iter().map(|name| (*name).to_owned()).collect();
        let lexicon = Lexicon { batches, ..Lexicon::default() };
        serde_json::to_value(read(text, &Context { now, zone, lexicon: &lexicon, last: None }).statements).unwrap()
    };
    let filled = told(&["sauce"], "filled 7 quarts of sauce");
    assert_eq!(filled, serde_json::json!([{"kind": "filled", "jars": 7, "jar": "quart", "batch": "sauce"}]));
    assert_eq!(told(&["sauce"], "sauce is boiling")[0]["batch"], "sauce");
    assert_eq!(told(&["sauce", "sauce 2"], "sauce is boiling")[0]["batch"], "tomato-sauce-thick");
    assert_eq!(told(&["red"], "filled 7 quarts of sauce")[0]["product"], "tomato-sauce-thick");
    assert_eq!(told(&["sauce"], "filled 7 quarts of thick sauce")[0]["product"], "tomato-sauce-thick");
    assert_eq!(told(&[], "filled 7 quarts of sauce")[0]["product"], "tomato-sauce-thick");
    assert_eq!(told(&["sauce"], "the sauce was great last night"), serde_json::json!([]));
}

#[test]
fn an_answer_completes_what_was_begun() {
    let lexicon = Lexicon::default();
    let (now, zone) = at(NOW);
    let context = Context { now, zone, lexicon: &lexicon, last: None };
    let answered = |begun: &str, answer: &str| {
        let said = read(begun, &context).statements;
        let Some(Statement::Clarify(pending)) = said.first() else { panic!("{begun} asks nothing: {said:?}") };
        complete(pending, answer, &context).map(|done| serde_json::to_string(&done).unwrap())
    };
    for (begun, answer, wanted) in [
        ("froze 7", "lb", r#"[{"kind":"froze","mass_g":3175.14659}]"#),
        ("froze 7", "bags", r#"[{"kind":"froze","bags":7}]"#),
        (
            "froze 7 quartered yesterday",
            "pounds please",
            r#"[{"kind":"froze","mass_g":3175.14659,"prep":"quartered","on":"2026-08-13"}]"#,
        ),
        ("froze 7", "6 lb", r#"[{"kind":"froze","mass_g":2721.55422}]"#),
        ("picked 12", "kilos", r#"[{"kind":"picked","mass_g":12000.0}]"#),
        (
            "canned 9 of salsa yesterday",
            "pints",
            r#"[{"kind":"put_up","jars":9,"jar":"pint","product":"salsa","on":"2026-08-13"}]"#,
        ),
        (
            "put up 7 quarts",
            "thick sauce",
            r#"[{"kind":"put_up","jars":7,"jar":"quart","product":"tomato-sauce-thick"}]"#,
        ),
        ("starting a new batch", "fire salsa", r#"[{"kind":"began","product":"fire salsa"}]"#),
        ("bought lids", "24", r#"[{"kind":"bought","supply":"lids","count":24}]"#),
        ("bought lids", "2 boxes", r#"[{"kind":"bought","supply":"lids","count":24}]"#),
        (
            "got a bottle of lemon juice",
            "32 oz",
            r#"[{"kind":"bought","supply":"lemon-juice","volume_ml":946.352946}]"#,
        ),
        ("altitude 700", "m", r#"[{"kind":"set","key":"altitude","length_m":700.0}]"#),
        ("set a timer for the pasta", "9 min", r#"[{"kind":"timer_start","seconds":540,"label":"pasta"}]"#),
        ("drained 4", "quarts", r#"[{"kind":"drained","volume_ml":3785.411784}]"#),
        ("canned 7", "pints of sauce", r#"[{"kind":"put_up","jars":7,"jar":"pint","product":"tomato-sauce-thick"}]"#),
        ("froze some tomatoes", "about 7 lb I think", r#"[{"kind":"froze","mass_g":3175.14659,"crop":"tomato"}]"#),
        ("bought lids", "dozen", r#"[{"kind":"bought","supply":"lids","count":12}]"#),
        ("froze 7", "lbs of course", r#"[{"kind":"froze","mass_g":3175.14659}]"#),
        ("bought lids", "a dozen", r#"[{"kind":"bought","supply":"lids","count":12}]"#),
        ("bought lids", "lids: 24", r#"[{"kind":"bought","supply":"lids","count":24}]"#),
        ("froze 14 in 2 bags", "lb", r#"[{"kind":"froze","mass_g":6350.29318,"bags":2}]"#),
        ("froze 3 bags at 7", "lb", r#"[{"kind":"froze","mass_g":9525.43977,"bags":3,"each_g":3175.14659}]"#),
        ("ate 3", "bags", r#"[{"kind":"ate","bags":3}]"#),
    ] {
        assert_eq!(answered(begun, answer).as_deref(), Some(wanted), "{begun} / {answer}");
    }
    for (begun, answer) in
        [("froze 7", "who's picking up the kids?"), ("froze 7", "lovely weather"), ("bought lids", "picked 7 lb")]
    {
        assert_eq!(answered(begun, answer), None, "{begun} / {answer}");
    }
}

#[test]
fn the_assistant_is_called_by_its_name() {
    let lexicon = Lexicon { name: "Otto".to_owned(), ..Lexicon::default() };
    let (now, zone) = at(NOW);
    let context = Context { now, zone, lexicon: &lexicon, last: None };
    for text in ["Otto, froze 7 lb", "hey otto froze 7 lb", "OTTO: froze 7 lb", "good morning otto! froze 7 lb"] {
        let reading = read(text, &context);
        assert!(reading.addressed && reading.statements.len() == 1, "{text}: {reading:?}");
    }
    assert!(!read("froze 7 lb", &context).addressed);
    assert!(!read("told you otto froze 7 lb", &context).addressed);
}

#[test]
fn what_no_statement_took_stands_in_unread() {
    let lexicon = Lexicon::default();
    let (now, zone) = at(NOW);
    let context = Context { now, zone, lexicon: &lexicon, last: None };
    for (text, wanted) in [
        ("froze 7 lb, the cat was sick on the rug", "the cat was sick on the rug"),
        ("Hey, froze 7 lb quartered please, thanks! 🍅", ""),
        ("picked 12 lb, 5 lb of it green", "it green"),
        ("opened a pint of fire salsa", ""),
        ("timezone America/Chicago", ""),
        ("my hands are frozen", ""),
    ] {
        assert_eq!(read(text, &context).unread, wanted, "{text}");
    }
}

#[test]
fn no_clause_with_an_amount_is_lost() {
    for (text, wanted) in [
        ("picked 18 lb and froze 7 lb. how close to a load?", r#"picked froze ask"#),
        ("picked 28 lb on tuesday and 11 lb today", "picked picked"),
        ("opened 1 pt fire salsa and 1 qt crushed", "opened opened"),
        ("picked 20 lb froze 14 in 2 bags and ate 2", "propose"),
        ("picked 14 lb toms 8 lb peppers 3 lb cukes", "picked picked picked"),
        ("used 1 quart sauce 1 pint salsa", "opened opened"),
        ("froze -7 lb", "clarify"),
        ("froze 14 in 2 bags", "clarify"),
        ("froze minus 7 lb", "clarify"),
    ] {
        let kinds: Vec<_> = said(text, NOW)
            .iter()
            .map(|s| serde_json::to_value(s).unwrap()["kind"].as_str().unwrap().to_owned())
            .collect();
        assert_eq!(kinds.join(" "), wanted, "{text}");
    }
}

/// A figure behind a timer's name belongs to it, even one that may be said for a word (`4 bread`).
#[test]
fn a_timer_is_called_what_stands_behind_for() {
    for (text, seconds, label) in [
        ("timer 3 seconds for roast3", 3, Some("roast3")),
        ("timer 4 seconds for roast4", 4, Some("roast4")),
        ("timer 5 minutes for roast 4", 300, Some("roast 4")),
        ("timer 20 minutes 4 bread", 1200, Some("bread")),
        ("timer 30 min", 1800, None),
    ] {
        let label = label.map(str::to_owned);
        let wanted = [Statement::TimerStart(TimerStart { seconds: Some(seconds), label })];
        assert_eq!(said(text, NOW), wanted, "{text}");
    }
}

#[test]
fn a_crop_is_named_as_the_speaker_named_it() {
    assert_eq!(crop_said("froze 3 kg Courgettes", Crop::Zucchini), Some("Courgettes"));
    assert_eq!(crop_said("picked 2 lb jalapenos", Crop::Pepper), Some("jalapenos"));
    assert_eq!(crop_said("picked 2 lb", Crop::Tomato), None);
}

#[test]
fn words_that_were_not_understood_have_a_nearest_example() {
    assert_eq!(near("freeze the whole lot somehow"), Some("froze 7 lb quartered"));
    assert_eq!(near("blah"), None);
}

#[test]
fn the_unit_last_used_is_known() {
    assert_eq!(mass_unit("froze 2 kg and 6 lb"), Some(Mass::POUND));
    assert_eq!(mass_unit("froze 18#"), Some(Mass::POUND));
    assert_eq!(mass_unit("3 bags"), None);
}

#[test]
fn a_household_recipe_is_known_by_its_name() {
    let lexicon = Lexicon { recipes: vec!["sunday red".to_owned()], ..Lexicon::default() };
    let (now, zone) = at(NOW);
    let said = read("starting Sunday Red in quarts", &Context { now, zone, lexicon: &lexicon, last: None }).statements;
    assert_eq!(serde_json::to_string(&said).unwrap(), r#"[{"kind":"began","product":"sunday red","jar":"quart"}]"#);
}

#[test]
fn a_message_over_eight_kib_is_refused() {
    let lexicon = Lexicon::default();
    let (now, zone) = at(NOW);
    let reading = read(&"froze 7 lb ".repeat(800), &Context { now, zone, lexicon: &lexicon, last: None });
    assert!(reading.refusal.is_some() && reading.statements.is_empty());
}

fn corpus_text() -> impl Strategy<Value = String> {
    let lines = crate::corpora::texts();
    (
        proptest::sample::select(lines.clone()),
        proptest::sample::select(lines),
        any::<prop::sample::Index>(),
        any::<prop::sample::Index>(),
        any::<char>(),
    )
        .prop_map(|(one, two, cut, from, c)| {
            let head: String = one.chars().take(cut.index(one.chars().count() + 1)).collect();
            let tail: String = two.chars().skip(from.index(two.chars().count() + 1)).collect();
            format!("{head}{c}{tail}")
        })
}

proptest! {
    #[test]
    fn no_text_makes_it_panic(text in any::<String>()) {
        said(&text, NOW);
        near(&text);
        mass_unit(&text);
    }

    #[test]
    fn no_mutation_of_a_phrase_makes_it_panic(text in corpus_text()) {
        let lexicon = Lexicon { recipes: vec!["fire salsa".to_owned()], ..Lexicon::default() };
        let (now, zone) = at(NOW);
        let context = Context { now, zone, lexicon: &lexicon, last: None };
        for statement in read(&text, &context).statements {
            let json = serde_json::to_string(&statement).unwrap();
            if let Statement::Clarify(pending) = &statement {
                for answer in ["lb", "7 lb", "bags", "2400 ft", "pints", "thick sauce", &text] {
                    complete(pending, answer, &context);
                }
            } else {
                prop_assert_eq!(serde_json::from_str::<Statement>(&json).unwrap().kind(), statement.kind());
            }
        }
    }

    #[test]
    fn invisible_characters_change_nothing(
        at in any::<prop::sample::Index>(),
        c in prop::sample::select(vec!['\u{200b}', '\u{202e}', '\u{2066}', '\u{feff}']),
    ) {
        let text = "froze 3 bags at 7 lb yesterday";
        let cut = at.index(text.len());
        let dirty = format!("{}{c}{}", &text[..cut], &text[cut..]);
        prop_assert_eq!(said(&dirty, NOW), said(text, NOW));
    }
}

/// What a reading says of one product: the one asked for or begun, and what was left over.
fn product_of(text: &str) -> (Option<String>, String) {
    let lexicon = Lexicon::default();
    let (now, zone) = at(NOW);
    let reading = read(text, &Context { now, zone, lexicon: &lexicon, last: None });
    let product = match reading.statements.as_slice() {
        [Statement::Ask(ask)] if ask.about == Subject::Process => ask.product.as_ref(),
        [Statement::Began(began)] => began.product.as_ref(),
        _ => None,
    };
    (product.map(|product| product.as_str().to_owned()), reading.unread)
}

#[test]
fn every_spoken_name_is_read_back_as_its_product() {
    let mut wrong = Vec::new();
    for info in rackful::processes::products() {
        for text in [
            format!("process for {} in quarts?", info.spoken),
            format!("how long for {} in pints?", info.spoken),
            format!("process time for {} in pints", info.spoken),
            format!("starting {} in quarts", info.spoken),
            format!("starting {} in pints", info.spoken.replace('-', " ")),
        ] {
            let (product, unread) = product_of(&text);
            if product.as_deref() != Some(info.id) || !unread.is_empty() {
                wrong.push(format!("{text}: {product:?}, unread {unread:?}"));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn a_food_beside_the_product_is_never_dropped() {
    for (text, word) in [
        ("starting tomato sauce with peppers and onions in quarts", "peppers and onions"),
        ("how long for tomato sauce with onions in quarts?", "onions"),
        ("starting salsa with corn and beans in pints", "corn"),
        ("process for crushed tomatoes with garlic in pints?", "garlic"),
    ] {
        let held = said(text, NOW);
        let [Statement::Clarify(asked)] = &held[..] else { panic!("{text}: {held:?}") };
        assert_eq!(asked.word.as_deref(), Some(word), "{text}");
    }
    for text in ["how long for sauce with meat in quarts?", "starting tomato sauce with meat in pints"] {
        assert_eq!(product_of(text).0.as_deref(), Some("spaghetti-sauce-meat"), "{text}");
    }
}

/// What is read in a kitchen with these batches open.
fn with_batches(text: &str, batches: &[&str]) -> String {
    let lexicon = Lexicon { batches: batches.iter().map(|name| (*name).to_owned()).collect(), ..Lexicon::default() };
    let (now, zone) = at(NOW);
    serde_json::to_string(&read(text, &Context { now, zone, lexicon: &lexicon, last: None }).statements).unwrap()
}

#[test]
fn a_step_may_name_its_batch() {
    let mut wrong = Vec::new();
    for (text, wanted) in [
        ("salsa is at heat", r#"[{"kind":"at_heat","batch":"salsa"}]"#),
        ("the salsa's at a rolling boil", r#"[{"kind":"at_heat","batch":"salsa"}]"#),
        ("batch 2 heat's off", r#"[{"kind":"heat_off","batch":"2"}]"#),
        ("heat's off on batch 2", r#"[{"kind":"heat_off","batch":"2"}]"#),
        ("heat off on the salsa", r#"[{"kind":"heat_off","batch":"salsa"}]"#),
        ("sauce jars are out", r#"[{"kind":"lifted","batch":"sauce"}]"#),
        ("big red jars are out", r#"[{"kind":"lifted","batch":"big red"}]"#),
        ("big red: jars are out", r#"[{"kind":"lifted","batch":"big red"}]"#),
        ("6 of 7 sealed on the sauce", r#"[{"kind":"sealed","jars":6,"of":7,"batch":"sauce"}]"#),
        ("all sealed on big red", r#"[{"kind":"sealed","batch":"big red"}]"#),
        ("big red all sealed", r#"[{"kind":"sealed","batch":"big red"}]"#),
        ("big red: filled 7 quarts", r#"[{"kind":"filled","jars":7,"jar":"quart","batch":"big red"}]"#),
        ("filled 7 quarts of big red", r#"[{"kind":"filled","jars":7,"jar":"quart","batch":"big red"}]"#),
        ("granny is at heat", r#"[{"kind":"at_heat","batch":"granny"}]"#),
        ("red is at heat", r#"[{"kind":"at_heat","batch":"red"}]"#),
        ("the red batch is at heat", r#"[{"kind":"at_heat","batch":"red"}]"#),
        ("needle's in the green", r#"[{"kind":"at_heat"}]"#),
        ("salsa 2 is at heat", r#"[{"kind":"at_heat","batch":"salsa 2"}]"#),
        ("steam's up on salsa 2", r#"[{"kind":"at_heat","batch":"salsa 2"}]"#),
        ("one didn't seal on the salsa", r#"[{"kind":"unsealed","jars":1,"batch":"salsa"}]"#),
        ("put up salsa 2 quarts", r#"[{"kind":"put_up","jars":2,"jar":"quart","product":"salsa"}]"#),
        ("stop big red", r#"[{"kind":"stopped","batch":"big red"}]"#),
        ("back to big red", r#"[{"kind":"resumed","batch":"big red"}]"#),
        ("back to red", r#"[{"kind":"resumed","batch":"red"}]"#),
        ("rename big red to blue", r#"[{"kind":"named","name":"blue","batch":"big red"}]"#),
        ("big red cooked down to 12 lb", r#"[{"kind":"cooked_down","mass_g":5443.10844,"batch":"big red"}]"#),
        ("down to 12 lb", r#"[{"kind":"cooked_down","mass_g":5443.10844}]"#),
        ("drained 3 quarts off big red", r#"[{"kind":"drained","volume_ml":2839.058838,"batch":"big red"}]"#),
        ("drained 3 quarts from the sauce", r#"[{"kind":"drained","volume_ml":2839.058838,"batch":"sauce"}]"#),
        ("thawing 7 bags for big red", r#"[{"kind":"thawed","bags":7,"batch":"big red"}]"#),
        ("a jar of salsa broke", r#"[{"kind":"broke","jars":1,"batch":"salsa"}]"#),
        ("2 siphoned on big red", r#"[{"kind":"siphoned","jars":2,"batch":"big red"}]"#),
        ("froze 1 jar of big red", r#"[{"kind":"froze","jars":1,"batch":"big red"}]"#),
        ("power's out", r#"[{"kind":"lost_heat"}]"#),
        ("gas ran out on the salsa", r#"[{"kind":"lost_heat","batch":"salsa"}]"#),
        ("lost the boil on batch 3", r#"[{"kind":"lost_heat","batch":"3"}]"#),
        ("pressure's down on batch 2", r#"[{"kind":"pressure_down","batch":"2"}]"#),
        ("batch 2 is venting", r#"[{"kind":"venting","batch":"2"}]"#),
        ("lemon juice is in big red", r#"[{"kind":"acid_added","supply":"lemon-juice","batch":"big red"}]"#),
        ("how long on big red?", r#"[{"kind":"ask","about":"timer","batch":"big red"}]"#),
        ("reprocessing the one from big red", r#"[{"kind":"reprocessed","jars":1,"batch":"big red"}]"#),
    ] {
        let got = with_batches(text, &["sauce", "salsa", "salsa 2", "big red", "granny", "red", "green"]);
        if got != wanted {
            wrong.push(format!("{text}: {got}, not {wanted}"));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}
