//! The whole canning day beside its stages: batches set aside and renamed, jars that break, lose liquid, are frozen or
//! eaten at once, the household's own yield, the plan for the day.

use crate::support::{Kitchen, entry, minutes, noon, topics};
use chrono::Duration;
use rackful::assistant::Outgoing;
use rackful::batch::Fate;
use rackful::ledger::{Ledger, Refusal};
use rackful::quantity::Length;
use rackful::statement::{AcidAdded, Began, Froze, Sealed, Set, SomeJars, Stage, Statement};
use rackful::vocabulary::{Product, SettingKey};
use rackful::zone::Zone;
use serde_json::json;

fn kitchen(said: &[&str]) -> Kitchen {
    let mut kitchen = Kitchen::new();
    say_all(&mut kitchen, said);
    kitchen
}

#[track_caller]
fn say_all(kitchen: &mut Kitchen, said: &[&str]) -> Vec<Outgoing> {
    let mut last = Vec::new();
    for words in said {
        last = kitchen.say(words);
        assert!(!last.is_empty(), "no answer to '{words}'");
        let problem = topics(&last).iter().any(|topic| topic.starts_with("problem"));
        assert!(!problem, "{words}: {}", last[0].text);
    }
    last
}

const STARTED: [&str; 4] =
    ["altitude 500 ft", "starting thick sauce in quarts", "filled 7 quarts", "lemon juice is in"];

/// From the filled jars to the cooled ones.
fn through_the_canner(kitchen: &mut Kitchen) {
    say_all(kitchen, &["rolling boil"]);
    kitchen.wait(minutes(41));
    say_all(kitchen, &["heat's off"]);
    kitchen.wait(minutes(6));
    say_all(kitchen, &["jars are out"]);
    kitchen.wait(Duration::hours(13));
}

#[test]
fn a_batch_that_is_set_aside_is_quiet_and_keeps_its_fruit() {
    let mut kitchen =
        kitchen(&["altitude 500 ft", "froze 7 bags at 7 lb", "starting thick sauce in quarts", "thawing 7 bags"]);
    let out = say_all(&mut kitchen, &["stop the sauce"]);
    assert!(
        out[0].text.contains("49 lb thawed for it stays with it") && out[0].text.contains("40 °F"),
        "{}",
        out[0].text
    );
    assert_eq!(kitchen.state()["thawing_g"], json!(22226.026));
    assert!(kitchen.state()["batch"]["stopped_at"].is_string());
    assert_eq!(kitchen.wait(Duration::days(2)), []);
    let out = say_all(&mut kitchen, &["filled 7 quarts"]);
    assert!(out[0].text.contains("had been set aside and goes on"), "{}", out[0].text);
    assert!(out[0].text.contains("49 lb of raw fruit went in"), "{}", out[0].text);
}

#[test]
fn setting_aside_loses_the_clock_and_undoing_it_gives_it_back() {
    let mut kitchen = kitchen(&STARTED);
    say_all(&mut kitchen, &["rolling boil"]);
    let ends = kitchen.state()["batch"]["ends_at"].clone();
    let out = say_all(&mut kitchen, &["stop the sauce"]);
    assert!(out[0].text.contains("the full 40 min"), "{}", out[0].text);
    assert_eq!(kitchen.state()["batch"]["ends_at"], json!(null));
    say_all(&mut kitchen, &["undo"]);
    assert_eq!(kitchen.state()["batch"]["ends_at"], ends);
    say_all(&mut kitchen, &["stop the sauce"]);
    assert_eq!(topics(&kitchen.say("stop the sauce")), ["problem out-of-range"]);
    assert_eq!(kitchen.wait(Duration::hours(1)), [], "no clock rings while it is set aside");
    let out = say_all(&mut kitchen, &["back to the sauce"]);
    assert!(out[0].text.contains("full 40 min"), "{}", out[0].text);
    assert_eq!(topics(&kitchen.say("back to the sauce")), ["problem out-of-range"]);
    say_all(&mut kitchen, &["rolling boil"]);
    assert_eq!(topics(&kitchen.wait(minutes(41))), ["alert process-done"]);
}

#[test]
fn a_batch_is_renamed_once_and_by_no_name_that_another_answers_to() {
    let mut kitchen =
        kitchen(&["altitude 500 ft", "starting thick sauce in quarts", "starting tomato juice in quarts"]);
    say_all(&mut kitchen, &["call the sauce big red"]);
    assert_eq!(kitchen.state()["batches"][0]["name"], json!("big red"));
    assert_eq!(topics(&kitchen.say("call the juice big red")), ["problem clarify"]);
    let out = say_all(&mut kitchen, &["filled 7 quarts of juice", "stop the big red"]);
    assert_eq!(out[0].facts["label"], json!("big red"));
}

/// A room with a batch of seven quarts of which one did not seal, by statements alone.
fn one_unsealed() -> (Ledger, chrono::DateTime<chrono::Utc>) {
    let mut ledger = Ledger::new(Zone::UTC);
    let altitude = Set { length: Length::from_metres(100.0), ..Set::of(SettingKey::Altitude) };
    let at = |minute| noon() + minutes(minute);
    let six = Sealed { jars: Some(6), of: Some(7), ..Sealed::default() };
    let said = [
        (0, Statement::Set(altitude)),
        (1, Statement::Began(Began { jars: Some(7), ..Began::default() })),
        (30, Statement::AcidAdded(AcidAdded::default())),
        (60, Statement::AtHeat(Default::default())),
        (101, Statement::HeatOff(Stage::default())),
        (110, Statement::Lifted(Default::default())),
        (900, Statement::Sealed(six)),
    ];
    for (n, (minute, statement)) in said.into_iter().enumerate() {
        enter(&mut ledger, &format!("${n}"), at(minute), statement).unwrap();
    }
    (ledger, at(910))
}

fn enter(
    ledger: &mut Ledger,
    id: &str,
    at: chrono::DateTime<chrono::Utc>,
    statement: Statement,
) -> Result<(), Refusal> {
    let entry = entry(id, at, statement);
    match Ledger::try_entry(&mut ledger.state_at(at), &entry).refusal {
        Some(refusal) => Err(refusal),
        None => {
            ledger.enter(vec![entry]);
            Ok(())
        }
    }
}

#[test]
fn a_jar_that_did_not_seal_is_frozen_from_the_batch_or_from_the_refrigerator() {
    let froze = |jars| Statement::Froze(Froze { jars: Some(jars), ..Froze::default() });
    let (mut ledger, at) = one_unsealed();
    enter(&mut ledger, "$froze", at, froze(1)).unwrap();
    let state = ledger.state();
    assert_eq!((state.batches[0].fates.of(Fate::Frozen), state.freezer_jars.jars(None, None)), (1, 1));
    assert!(!state.batches[0].is_open(), "the fate of every jar is known");
    let (mut ledger, at) = one_unsealed();
    enter(&mut ledger, "$fridge", at, Statement::Refrigerated(SomeJars::default())).unwrap();
    enter(&mut ledger, "$froze", at + minutes(10), froze(1)).unwrap();
    let state = ledger.state();
    assert_eq!((state.fridge.jars(None, None), state.freezer_jars.jars(None, None)), (0, 1));
    assert!(enter(&mut ledger, "$more", at + minutes(20), froze(1)).is_err(), "there is no jar left to freeze");
}

#[test]
fn a_jar_that_breaks_on_the_shelf_leaves_it() {
    let (mut ledger, at) = one_unsealed();
    enter(&mut ledger, "$fridge", at, Statement::Refrigerated(SomeJars::default())).unwrap();
    let broke = Statement::Broke(SomeJars { jars: Some(1), ..SomeJars::default() });
    enter(&mut ledger, "$broke", at + minutes(10), broke).unwrap();
    let state = ledger.state();
    assert_eq!((state.pantry.jars(None, None), state.batches[0].fates.of(Fate::Broken)), (5, 1));
    assert_eq!(state.totals(at).jars_put_up, 6, "they had sealed");
}

#[test]
fn jars_that_broke_or_lost_liquid_are_said_when_the_seals_are_looked_at() {
    let mut kitchen = kitchen(&STARTED);
    say_all(&mut kitchen, &["bought 20 lids", "rolling boil", "a jar broke in the canner"]);
    assert_eq!(kitchen.state()["supplies"]["lids"], json!(20), "its lid was used when it was filled");
    kitchen.wait(minutes(45));
    say_all(&mut kitchen, &["heat's off"]);
    kitchen.wait(minutes(6));
    let out = say_all(&mut kitchen, &["jars are out"]);
    assert_eq!(out[0].facts["jars"], json!(6));
    say_all(&mut kitchen, &["2 jars siphoned"]);
    let out = kitchen.wait(Duration::hours(22));
    assert_eq!(topics(&out), ["alert seal-check"]);
    assert!(out[0].text.contains("6 quarts have cooled; 2 lost liquid"), "{}", out[0].text);
    let out = say_all(&mut kitchen, &["all sealed"]);
    assert!(out[0].text.contains("6 sealed and shelved, 1 broken"), "{}", out[0].text);
    assert_eq!(kitchen.state()["batch"], json!(null));
}

#[test]
fn a_jar_eaten_at_once_is_its_own_end() {
    let mut kitchen = kitchen(&STARTED);
    through_the_canner(&mut kitchen);
    say_all(&mut kitchen, &["6 of 7 sealed", "ate 1 quart of sauce", "yes"]);
    assert_eq!(
        kitchen.state()["pantry"][0]["jars"],
        json!(5),
        "sauce on the shelf is what is eaten, where it is named"
    );
    say_all(&mut kitchen, &["undo", "tossed 1 quart of sauce"]);
    assert_eq!((&kitchen.state()["batch"], &kitchen.state()["pantry"][0]["jars"]), (&json!(null), &json!(6)));
}

#[test]
fn what_was_thawed_before_is_for_the_first_batch_that_begins() {
    let mut kitchen = kitchen(&[
        "altitude 500 ft",
        "froze 7 bags at 7 lb",
        "thawing 7 bags",
        "starting thick sauce in quarts",
        "starting chile salsa in pints",
    ]);
    let out = say_all(&mut kitchen, &["filled 6 pints of salsa"]);
    assert!(!out[0].text.contains("raw fruit went in"), "{}", out[0].text);
    assert_eq!(kitchen.state()["thawing_g"], json!(22226.026));
    let out = say_all(&mut kitchen, &["filled 7 quarts"]);
    assert!(out[0].text.contains("49 lb of raw fruit went in"), "{}", out[0].text);
}

fn batch_of(kitchen: &mut Kitchen, pounds: u32) -> Vec<Outgoing> {
    say_all(kitchen, &[&format!("froze {pounds} lb in 7 bags"), "thawing 7 bags", "starting thick sauce in quarts"]);
    say_all(kitchen, &["filled 7 quarts", "lemon juice is in"]);
    through_the_canner(kitchen);
    say_all(kitchen, &["all sealed"])
}

#[test]
fn the_third_batch_offers_the_households_own_yield_and_a_yes_takes_it() {
    let mut kitchen = kitchen(&["altitude 500 ft"]);
    for pounds in [42, 35] {
        let out = batch_of(&mut kitchen, pounds);
        assert!(!out[0].text.contains("own yield"), "{}", out[0].text);
    }
    let out = batch_of(&mut kitchen, 49);
    // The median of 6, 5 and 7 lb a quart, beside the 46 lb for 7 quarts of USDA AIB 539 (2015), Guide 3, Standard
    // tomato sauce.
    assert!(
        out[0].text.contains("yours takes 6 lb a quart of raw fruit, the handbook's 6.6 lb a quart"),
        "{}",
        out[0].text
    );
    assert_eq!(kitchen.say_as("ben", "yes"), [], "it was not ben who was asked");
    let out = kitchen.say("yes please");
    assert_eq!(topics(&out), ["reply set"]);
    assert_eq!(out[0].facts["target_g"], json!(19050.88));
    let out = batch_of(&mut kitchen, 42);
    assert!(!out[0].text.contains("own yield"), "offered once: {}", out[0].text);
    assert_eq!(kitchen.say("how close to a load?")[0].facts["target_g"], json!(19050.88));
    // Three months later the batches are no longer kept, but what they took is.
    kitchen.wait(Duration::days(90));
    assert_eq!(kitchen.say("froze 1 lb")[0].facts["target_g"], json!(19050.88));
}

#[test]
fn a_no_leaves_loads_by_the_handbook() {
    let mut kitchen = kitchen(&["altitude 500 ft"]);
    for pounds in [42, 35, 49] {
        batch_of(&mut kitchen, pounds);
    }
    assert_eq!(kitchen.say("no"), []);
    assert_eq!(kitchen.say("yes"), [], "the question has lapsed");
    assert_eq!(kitchen.say("how close to a load?")[0].facts["target_g"], json!(20865.249));
}

#[test]
fn an_own_yield_counts_from_three_batches_on() {
    let own = Set { product: Some(Product::THICK_SAUCE), word: Some("own".into()), ..Set::of(SettingKey::Yield) };
    let (mut ledger, at) = one_unsealed();
    enter(&mut ledger, "$own", at, Statement::Set(own)).unwrap();
    let target = rackful::planning::target(ledger.state(), None, None).unwrap();
    assert!((target.mass.as_pounds() - 46.0).abs() < 1e-9);
    assert_eq!(rackful::planning::own_yield(ledger.state(), &Product::THICK_SAUCE), None, "no raw weight is known");
}

#[test]
fn jars_that_were_told_wrong_are_put_right_while_the_clock_runs() {
    let mut kitchen =
        kitchen(&["altitude 500 ft", "starting thick sauce in quarts", "filled 7 quarts", "rolling boil"]);
    let out = say_all(&mut kitchen, &["it was 8 pints"]);
    assert_eq!(topics(&out), ["reply correct"]);
    let batch = &kitchen.state()["batch"];
    assert_eq!((&batch["jars"], &batch["jar"], &batch["stage"]), (&json!(8), &json!("pint"), &json!("processing")));
    // USDA AIB 539 (2015), Guide 3, Standard tomato sauce: pints, to 1,000 ft: 35 minutes.
    assert_eq!(kitchen.say("timer?")[0].facts["minutes"], json!(35));
}

#[test]
fn the_acid_is_asked_about_once_a_batch() {
    let mut kitchen = kitchen(&["altitude 500 ft", "starting thick sauce in quarts, 14 quarts", "filled 14 quarts"]);
    let asks = |out: &[Outgoing]| out[0].text.contains("Is the acid in?");
    assert!(asks(&say_all(&mut kitchen, &["rolling boil"])));
    say_all(&mut kitchen, &["lost the boil"]);
    assert!(!asks(&say_all(&mut kitchen, &["rolling boil"])));
    kitchen.wait(minutes(41));
    say_all(&mut kitchen, &["heat's off"]);
    kitchen.wait(minutes(6));
    say_all(&mut kitchen, &["jars are out"]);
    assert!(!asks(&say_all(&mut kitchen, &["rolling boil"])));
}

#[test]
fn each_canner_has_its_own_capacity() {
    let mut kitchen = kitchen(&["altitude 500 ft", "canner is steam, holds 7 quarts"]);
    say_all(&mut kitchen, &["we have a dial gauge pressure canner", "canner holds 5 quarts", "canner is steam"]);
    let out = say_all(&mut kitchen, &["starting thick sauce in quarts, 14 quarts"]);
    assert_eq!(out[0].facts["rounds"], json!(2));
    let out = say_all(&mut kitchen, &["starting thin sauce in quarts in the dial gauge pressure canner, 10 quarts"]);
    assert_eq!(out[0].facts["rounds"], json!(2));
}

#[test]
fn what_is_short_is_said_with_how_much_to_get_and_before_the_load_is_full() {
    let mut kitchen = kitchen(&["bought 5 lids", "froze 5 bags at 7 lb"]);
    let out = kitchen.say("froze 6 lb");
    assert_eq!(topics(&out), ["reply froze", "alert load-near"]);
    assert!(out[1].text.contains("5 lids, it takes 7 lids: get 2 lids more"), "{}", out[1].text);
    say_all(&mut kitchen, &["altitude 500 ft"]);
    let out = kitchen.say("starting thick sauce in quarts");
    assert!(out[1].text.contains("get 2 lids more"), "{}", out[1].text);
}

#[test]
fn jars_on_the_shelf_know_their_batch_their_day_and_until_when_they_are_at_their_best() {
    let mut kitchen = kitchen(&STARTED);
    through_the_canner(&mut kitchen);
    let out = say_all(&mut kitchen, &["all sealed"]);
    assert_eq!(out[0].facts["best_by"], json!("2027-08-14"));
    let lot = json!([{
        "product": "tomato-sauce-thick", "jar": "quart", "jars": 7,
        "on": "2026-08-14", "batch": 1, "best_by": "2027-08-14",
    }]);
    assert_eq!(kitchen.state()["lots"], lot);
    let out = say_all(&mut kitchen, &["pantry?"]);
    assert!(out[0].text.contains("(batch 1, Aug 14, 2026, best by Aug 2027)"), "{}", out[0].text);
}

#[test]
fn a_filling_that_was_not_told_is_said_so_when_the_clock_starts() {
    let mut kitchen = kitchen(&["altitude 500 ft", "starting thick sauce in quarts"]);
    let out = say_all(&mut kitchen, &["rolling boil"]);
    assert!(out[0].text.contains("take it that 7 quarts are in the canner"), "{}", out[0].text);
    let out = kitchen.say("filled 7 quarts");
    assert!(out[0].text.contains("if they went in only now, say 'lost the boil'"), "{}", out[0].text);
    say_all(&mut kitchen, &["lost the boil", "rolling boil"]);
}

#[test]
fn dry_weight_is_stored_and_ground() {
    let mut kitchen = kitchen(&["drying 6 lb of slices"]);
    let out = say_all(&mut kitchen, &["slices are dry, 6 oz"]);
    assert!(out[0].text.contains("16 to 1"), "{}", out[0].text);
    assert_eq!(kitchen.state()["dryer"], json!([]));
    assert_eq!(kitchen.state()["dried"], json!([{"what": "slices", "mass_g": 170.097}]));
    say_all(&mut kitchen, &["got 4 oz of powder"]);
    assert_eq!(
        kitchen.state()["dried"],
        json!([{"what": "slices", "mass_g": 56.699}, {"what": "slices powder", "mass_g": 113.398}])
    );
    assert_eq!(topics(&kitchen.say("slices are dry, 6 oz")), ["problem not-enough"]);
}

const UNDER_PRESSURE: [&str; 5] = [
    "altitude 7000 ft",
    "canner is a dial gauge pressure canner",
    "starting green beans, 7 quarts",
    "filled 7 quarts",
    "venting",
];

/// USDA AIB 539 (2015), Guide 4, Beans, snap: dial gauge, 6,001 to 8,000 ft: 14 pounds.
#[test]
fn the_clock_stops_when_the_gauge_is_told_to_be_too_low() {
    let mut kitchen = kitchen(&UNDER_PRESSURE);
    let out = kitchen.say("up to pressure");
    assert_eq!(topics(&out), ["problem too-soon"]);
    assert!(out[0].text.contains("10 min"), "{}", out[0].text);
    kitchen.wait(minutes(10));
    assert_eq!(topics(&kitchen.say("up to pressure")), ["problem out-of-range"], "a dial gauge has a figure");
    say_all(&mut kitchen, &["at 14 pounds"]);
    let out = kitchen.say("at 11 pounds");
    assert_eq!(topics(&out), ["problem out-of-range"]);
    assert_eq!(out[0].facts["psi"], json!(14.0));
    assert_eq!(kitchen.state()["batch"]["stage"], json!("filled"));
    say_all(&mut kitchen, &["at 14 pounds"]);
    let out = kitchen.say("at 14 pounds");
    assert!(out[0].text.contains("left, until"), "{}", out[0].text);
}

#[test]
fn jars_are_not_out_of_a_canner_under_pressure() {
    let mut kitchen = kitchen(&UNDER_PRESSURE);
    kitchen.wait(minutes(10));
    say_all(&mut kitchen, &["at 14 pounds"]);
    kitchen.wait(minutes(30));
    // Another batch that waits for its turn is not the one that is spoken of.
    say_all(&mut kitchen, &["heat's off", "starting spaghetti sauce with meat in pints"]);
    for (step, stage) in [(None, "depressurising"), (Some("pressure's down"), "resting")] {
        step.iter().for_each(|step| drop(say_all(&mut kitchen, &[step])));
        let out = kitchen.say("jars are out");
        assert_eq!(topics(&out), ["problem too-soon"]);
        assert!(out[0].text.contains("burn"), "{}", out[0].text);
        assert_eq!(kitchen.state()["batches"][0]["stage"], json!(stage));
    }
    kitchen.wait(minutes(10));
    say_all(&mut kitchen, &["jars are out"]);
}

/// What does not come out with the others is asked about, and not taken for broken.
#[test]
fn a_jar_that_is_not_said_to_be_out_is_asked_about() {
    let mut kitchen =
        kitchen(&["altitude 500 ft", "canner is steam, holds 7 quarts", "starting thick sauce, 14 quarts"]);
    say_all(&mut kitchen, &["filled 14 quarts", "a jar broke in the canner", "steam's up"]);
    kitchen.wait(minutes(45));
    say_all(&mut kitchen, &["heat's off"]);
    kitchen.wait(minutes(6));
    let out = say_all(&mut kitchen, &["took 6 jars out"]);
    assert!(out[0].text.contains("what of the other"), "{}", out[0].text);
    let batch = &kitchen.assistant.ledger("home").unwrap().state().batches[0];
    assert_eq!(batch.fates.of(Fate::Broken), 1, "the one that was said to have broken: {:?}", batch.fates);
}

#[test]
fn before_the_clock_runs_the_time_is_said_all_the_same() {
    let mut kitchen =
        kitchen(&["altitude 2400 ft", "canner is steam, holds 7 quarts", "starting thick sauce in quarts"]);
    let out = say_all(&mut kitchen, &["time left?"]);
    // Quarts at 1001 to 3000 ft: USDA AIB 539 (2015), Guide 3, standard tomato sauce, boiling water.
    assert!(out[0].text.contains("45 min at a steady 208 °F, counted from heat"), "{}", out[0].text);
}

#[test]
fn nothing_is_said_of_figures_that_were_not_entered() {
    let mut kitchen = kitchen(&STARTED);
    through_the_canner(&mut kitchen);
    let out = kitchen.say("12 of 9 sealed");
    assert_eq!(out.len(), 1);
    assert!(!out[0].text.contains("undo"), "{}", out[0].text);
}
