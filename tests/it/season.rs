//! An invented season of twenty weeks, from setting the plants to the first shelves of winter, played on a virtual
//! clock and looked at week by week. What is said, byte by byte, is held by `tests/data/replay/season.expected`; here
//! stands what must be true of it.

use chrono::{DateTime, Datelike, Days, FixedOffset, NaiveDate, Timelike, Weekday};
use rackful::assistant::Defaults;
use rackful::desk::Desk;
use rackful::replay;
use rackful::store::MemoryStore;
use serde_json::Value;
use std::sync::LazyLock;

const SCRIPT: &str = include_str!("../data/replay/season.jsonl");

/// What came out, in order.
static OUT: LazyLock<Vec<Value>> = LazyLock::new(|| {
    let mut desk = Desk::open(Box::new(MemoryStore::default()), Defaults::default()).unwrap();
    let mut out = Vec::new();
    replay::run(SCRIPT.as_bytes(), &mut desk, &mut out).unwrap();
    out.split(|byte| *byte == b'\n')
        .filter(|line| !line.is_empty())
        .map(|line| serde_json::from_slice(line).unwrap())
        .collect()
});

fn at(line: &Value) -> DateTime<FixedOffset> {
    DateTime::parse_from_rfc3339(line["at"].as_str().unwrap()).unwrap()
}

fn day(line: &Value) -> NaiveDate {
    at(line).date_naive()
}

fn date(value: &Value) -> NaiveDate {
    value.as_str().unwrap().parse().unwrap()
}

fn told<'a>(out: &'a str, topic: &'a str) -> impl Iterator<Item = &'a Value> {
    OUT.iter().filter(move |line| line["out"] == out && line["topic"] == topic)
}

fn pounds(value: &Value) -> f64 {
    (value.as_f64().unwrap() / 453.59237 * 100.0).round() / 100.0
}

/// The state of each Sunday evening, in order.
fn weeks() -> Vec<&'static Value> {
    OUT.iter().filter(|line| line["out"] == "state").map(|line| &line["state"]).collect()
}

fn sum(state: &Value, stock: &str) -> f64 {
    pounds(&state[stock].as_array().unwrap().iter().map(|crop| crop["mass_g"].as_f64().unwrap()).sum::<f64>().into())
}

fn jars(state: &Value, shelf: &str) -> u64 {
    state[shelf].as_array().unwrap().iter().map(|lot| lot["jars"].as_u64().unwrap()).sum()
}

/// Pounds picked this year, in the freezer and on the counter, and jars in the pantry: at the end of each week, by a
/// tally kept beside the script when it was written.
const WEEKS: [(f64, f64, f64, u64); 20] = [
    (2.0, 0.0, 2.0, 0),
    (7.5, 6.5, 0.0, 0),
    (14.0, 6.5, 4.5, 0),
    (25.0, 19.5, 0.5, 0),
    (43.0, 33.0, 5.0, 0),
    (75.5, 68.0, 0.5, 0),
    (96.5, 35.0, 4.5, 6),
    (129.0, 63.0, 6.0, 6),
    (166.5, 49.0, 4.5, 13),
    (194.5, 28.0, 2.5, 20),
    (227.5, 63.0, 0.5, 20),
    (258.5, 42.0, 0.5, 27),
    (280.5, 63.0, 0.5, 27),
    (303.0, 28.0, 5.0, 33),
    (313.5, 41.5, 0.0, 32),
    (344.0, 41.5, 29.5, 31),
    (344.0, 41.5, 29.5, 27),
    (344.0, 69.5, 1.5, 26),
    (344.0, 21.0, 1.5, 31),
    (344.0, 21.0, 1.5, 30),
];

#[test]
fn each_week_ends_with_what_was_said() {
    let found: Vec<_> = weeks()
        .iter()
        .map(|state| {
            (pounds(&state["totals"]["picked_g"]), sum(state, "freezer"), sum(state, "counter"), jars(state, "pantry"))
        })
        .collect();
    assert_eq!(found, WEEKS);
}

/// picked = frozen + eaten, given and tossed from the counter + used fresh + still on the counter. Here nothing but the
/// counter's fruit was eaten by weight.
#[test]
fn each_week_balances() {
    for (week, state) in weeks().into_iter().enumerate() {
        let total = |name: &str| state["totals"][name].as_f64().unwrap();
        let counter: f64 =
            state["counter"].as_array().unwrap().iter().map(|crop| crop["mass_g"].as_f64().unwrap()).sum();
        let left = total("frozen_g")
            + total("used_fresh_g")
            + total("eaten_g")
            + total("given_g")
            + total("tossed_g")
            + counter;
        assert!((total("picked_g") - left).abs() < 0.01, "week {}: {} and {left}", week + 1, total("picked_g"));
        let freezer: f64 = state["freezer"]
            .as_array()
            .unwrap()
            .iter()
            .flat_map(|crop| crop["bags"].as_array().unwrap())
            .map(|bag| bag["mass_g"].as_f64().unwrap())
            .sum();
        assert!((total("frozen_g") - total("thawed_g") - freezer).abs() < 0.01, "week {}", week + 1);
    }
}

#[test]
fn the_digest_comes_each_sunday_at_six_and_fits_the_week() {
    let digests: Vec<_> = told("alert", "digest").collect();
    assert_eq!(digests.len(), 20);
    for (digest, next) in digests.iter().zip(&digests[1..]) {
        assert_eq!(day(next) - day(digest), chrono::TimeDelta::days(7));
    }
    for digest in digests {
        let when = at(digest);
        assert_eq!((when.weekday(), when.hour(), when.minute()), (Weekday::Sun, 18, 0));
        let said = digest["text"].as_str().unwrap();
        assert!(said.starts_with("This week: ") && said.contains("pantry"), "{said}");
        assert!(said.lines().count() <= 4, "a digest fits a phone: {said}");
        assert_eq!(digest["facts"]["due_at"], digest["at"]);
    }
}

/// A load that is there and not planned is the first thing a digest says; fruit past its best comes before it.
#[test]
fn a_digest_names_the_load_when_there_is_one() {
    for digest in told("alert", "digest") {
        let said = digest["text"].as_str().unwrap();
        let is_ready = digest["facts"]["short_g"] == 0.0;
        let first = said.lines().next().unwrap();
        assert!(
            !is_ready
                || first.contains("There is a load")
                || first.contains("past ripe")
                || first.contains("Use or freeze"),
            "{said}"
        );
    }
}

#[test]
fn loads_are_told_once_a_crossing() {
    let days: Vec<_> = told("alert", "load-ready").map(|line| day(line).to_string()).collect();
    let ready = weeks().len();
    assert!(days.len() >= 5 && days.len() < ready, "{days:?}");
    for line in told("alert", "load-ready") {
        assert!(line["facts"]["freezer_g"].as_f64() >= line["facts"]["target_g"].as_f64());
        assert!(line["facts"]["chosen_g"].as_f64() >= line["facts"]["target_g"].as_f64());
    }
}

#[test]
fn each_planned_day_is_reminded_of_step_by_step() {
    let labels: Vec<&str> = told("alert", "planned").map(|line| line["facts"]["label"].as_str().unwrap()).collect();
    // What comes after the start is the batch's own.
    assert_eq!(labels, ["thaw", "drain", "cook-down"].repeat(6));
    // The day that was moved is told where it was moved to: no bag is asked for three days before the Friday.
    for line in told("alert", "planned") {
        let end = DateTime::parse_from_rfc3339(line["facts"]["ends_at"].as_str().unwrap()).unwrap();
        assert_eq!(end.weekday(), Weekday::Sat, "{line}");
        assert!(at(line) < end);
    }
}

#[test]
fn fruit_is_told_before_it_is_red_and_asked_about_once() {
    let mut asked = Vec::new();
    for line in told("alert", "ripe") {
        let facts = &line["facts"];
        let key = (
            facts["label"].clone(),
            facts["picked_on"].clone(),
            line["text"].as_str().unwrap().split(" of ").nth(1).map(str::to_owned),
        );
        assert!(!asked.contains(&key), "told twice: {line}");
        asked.push(key);
        let red = date(&facts["red_by"]);
        match facts["label"].as_str().unwrap() {
            "ripe" => assert!(day(line) < red && day(line) > date(&facts["picked_on"]), "{line}"),
            // Red fruit keeps at most four days (North Carolina State extension).
            _ => assert_eq!(day(line), red + Days::new(5), "{line}"),
        }
        assert_eq!((at(line).hour(), at(line).minute()), (9, 0));
    }
    assert!(asked.len() > 10);
}

/// Each answer to "when will we have a load?" against the day on which the season's ledger then had one.
#[test]
fn what_was_forecast_came_about() {
    let ready: Vec<NaiveDate> = told("alert", "load-ready").map(day).collect();
    let mut held = Vec::new();
    for line in told("reply", "ask").filter(|line| line["facts"].get("ready_p50").is_some()) {
        let facts = &line["facts"];
        let came = ready.iter().find(|on| **on > day(line)).copied();
        let p10 = date(&facts["ready_p10"]);
        let p90 = facts.get("ready_p90").map(date).unwrap_or(NaiveDate::MAX);
        assert!(p10 <= date(&facts["ready_p50"]) && date(&facts["ready_p50"]) <= p90);
        held.push(came.is_some_and(|on| p10 <= on && on <= p90));
    }
    let share = held.iter().filter(|held| **held).count();
    assert!(held.len() >= 5 && 10 * share >= 6 * held.len(), "{held:?}");
}

#[test]
fn after_the_season_no_load_is_promised() {
    let after = NaiveDate::from_ymd_opt(2026, 10, 11).unwrap();
    let asked = told("reply", "ask").filter(|line| day(line) >= after && line["facts"].get("target_g").is_some());
    for line in asked {
        assert!(line["facts"].get("ready_p50").is_none(), "{line}");
    }
}

#[test]
fn next_year_is_worked_out_from_this_one() {
    let planting = OUT.iter().find(|line| line["facts"].get("aims").is_some()).unwrap();
    let aim = &planting["facts"]["aims"][0];
    let last = weeks()[19];
    let count = |name: &str| aim[name].as_u64().unwrap();
    assert_eq!(count("put_up") - count("used") - count("given") - count("tossed"), count("left"));
    assert_eq!(count("left"), jars(last, "pantry"));
    assert_eq!(count("loads"), count("jars").div_ceil(7));
    let kinds: Vec<_> =
        planting["facts"]["plants"].as_array().unwrap().iter().map(|kind| kind["variety"].as_str().unwrap()).collect();
    assert_eq!(kinds, ["brandywine", "roma"]);
}
