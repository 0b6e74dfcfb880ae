//! Values as they are said, each with what it comes to.

use super::today;
use rackful::phrase::training::{tokens_of, values_of};

const POUND: f64 = 453.592_37;

#[track_caller]
fn assert_said(kind: &str, text: &str, amount: f64) {
    let tokens = tokens_of(text).len();
    let values = values_of(text, today(), false);
    let found = values.iter().find(|value| value.kind == kind && value.from == 0 && value.to == tokens);
    let read = found.unwrap_or_else(|| panic!("{text} is no {kind}: {values:?}")).amount.unwrap();
    assert!((read - amount).abs() <= 1e-6 * amount.abs().max(1.0), "{text}: {read}, not {amount}");
}

#[test]
fn numbers() {
    for (text, n) in [
        ("two hundred thousand", 200_000.0),
        ("five hundred and twenty thousand", 520_000.0),
        ("two thousand four hundred", 2_400.0),
        ("1,150,000", 1_150_000.0),
        ("0.125", 0.125),
        ("0,125", 0.125),
        ("six point two five", 6.25),
        ("six point 05", 6.05),
        ("six point 125", 6.125),
        ("a half dozen", 6.0),
        ("2 1/2 dozen", 30.0),
        ("two and a half dozen", 30.0),
        ("between 15 and 20", 17.5),
        ("5 or 6", 5.5),
    ] {
        assert_said("number", text, n);
    }
    assert_said("share", "30 %", 0.3);
    assert_said("share", "a third of it", 1.0 / 3.0);
}

#[test]
fn masses() {
    for (text, pounds) in [
        ("6lb8oz", 6.5),
        ("6 lb 8", 6.5),
        ("20#", 20.0),
        ("2 stone 3 lb", 31.0),
        ("a pound and a half", 1.5),
        ("1,150 lb", 1_150.0),
        ("0,125 lb", 0.125),
        ("15 lb to 20 lb", 17.5),
    ] {
        assert_said("mass", text, pounds * POUND);
    }
    for (text, grams) in
        [("0.125 g", 0.125), ("1,150 g", 1_150.0), ("1.150 kg", 1_150.0), ("1,150 kg", 1_150.0), ("2 kg 300", 2_300.0)]
    {
        assert_said("mass", text, grams);
    }
}

#[test]
fn portions() {
    for (text, pounds) in [
        ("3 bags at 7 lb", 21.0),
        ("3 bags, 7 lb each", 21.0),
        ("3 x 7 lb", 21.0),
        ("7 lb x 3", 21.0),
        ("7 lb bags x 3", 21.0),
        ("7 lb each, 3 bags", 21.0),
        ("3 7-lb bags", 21.0),
        ("one 6 lb and one 7.5 lb", 13.5),
        ("2 bags, one 6 lb, one 7.5", 13.5),
        ("4 bags: 7, 7, 6.5, 8 lb", 28.5),
    ] {
        assert_said("portions", text, pounds * POUND);
    }
}

#[test]
fn heights() {
    for (text, metres, doubtful) in [
        ("2.400 ft", 731.52, true),
        ("2,400 ft", 731.52, false),
        ("2400 ft", 731.52, false),
        ("1.5 km", 1_500.0, false),
        ("1.150 km", 1_150.0, false),
        ("1 050 m", 1_050.0, false),
        ("20 ft below sea level", -6.096, false),
        ("sea level", 0.0, false),
    ] {
        assert_said("height", text, metres);
        let values = values_of(text, today(), false);
        let height = values.iter().find(|value| value.kind == "height" && value.from == 0).unwrap();
        assert_eq!(height.flag, Some(doubtful), "{text}");
    }
}

#[test]
fn times() {
    for (text, time) in [
        ("half past six", "06:30"),
        ("12 at night", "00:00"),
        ("2 at night", "02:00"),
        ("9 at night", "21:00"),
        ("12 pm", "12:00"),
        ("12 am", "00:00"),
        ("high noon", "12:00"),
        ("22h30", "22:30"),
    ] {
        let values = values_of(text, today(), false);
        let clock = values.iter().find(|value| value.kind == "clock" && value.from == 0).unwrap();
        assert_eq!(clock.time.unwrap().format("%H:%M").to_string(), time, "{text}");
    }
    for (text, past, coming) in [
        ("a month ago", Some("2026-07-14"), Some("2026-07-14")),
        ("6 months ago", Some("2026-02-14"), Some("2026-02-14")),
        ("last weekend", Some("2026-08-08"), None),
        ("next weekend", None, Some("2026-08-22")),
        ("the 12th", Some("2026-08-12"), Some("2026-09-12")),
        ("friday", Some("2026-08-14"), Some("2026-08-14")),
        ("last friday", Some("2026-08-07"), None),
    ] {
        let values = values_of(text, today(), false);
        let day = values.iter().find(|value| value.kind == "day" && value.from == 0).unwrap();
        let days = day.days.map(|day| day.map(|day| day.to_string()));
        assert_eq!(days, [past, coming].map(|day| day.map(str::to_owned)), "{text}");
    }
}

#[test]
fn a_long_list_is_no_sum() {
    let list = |n: usize| vec!["one 7 lb"; n].join(", ");
    let sums = |text: &str| {
        values_of(text, today(), false)
            .iter()
            .any(|value| value.kind == "portions" && value.from == 0 && value.amount > Some(7.5 * POUND))
    };
    assert!(sums(&list(100)));
    assert!(!sums(&list(101)));
}
