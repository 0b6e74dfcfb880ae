//! Numbers, quantities and times beside what `duckling` reads of them: the same, or for a reason that stands here.

mod differing;

use super::{Dice, today};
use chrono::{FixedOffset, NaiveDate, NaiveTime, TimeZone, Timelike};
use differing::REASONS;
use duckling::{
    Context, DimensionKind, DimensionValue, Entity, Lang, Locale, MeasurementValue, Options, TimePoint, TimeValue,
    parse,
};
use rackful::phrase::training::{Valued, tokens_of, values_of};
use std::collections::{BTreeMap, BTreeSet};

/// What a phrase comes to.
#[derive(Clone, PartialEq, Debug)]
enum Read {
    /// A number, or so many grams, litres or seconds.
    Amount(f64),
    /// Degrees, and whether they are Celsius if that was said.
    Degrees(f64, Option<bool>),
    /// One of some days.
    Days(Vec<NaiveDate>),
    /// A time of day; whether the half of the day is sure.
    Time(NaiveTime, bool),
    /// Nothing of the kind, or not all of the words.
    Nothing,
}

impl Read {
    fn agrees(&self, other: &Self) -> bool {
        match (self, other) {
            (Self::Amount(a), Self::Amount(b)) => (a - b).abs() <= 1e-6 * a.abs().max(1.0),
            (Self::Degrees(a, first), Self::Degrees(b, second)) => (a - b).abs() < 1e-9 && first == second,
            (Self::Days(ours), Self::Days(theirs)) => theirs.iter().all(|day| ours.contains(day)),
            (Self::Time(a, sure), Self::Time(b, _)) => {
                a == b || !sure && a.minute() == b.minute() && a.hour() % 12 == b.hour() % 12
            }
            _ => false,
        }
    }
}

/// A phrase, and as what it is read.
struct Phrase {
    text: String,
    kind: &'static str,
}

fn ours(phrase: &Phrase) -> Read {
    let tokens = tokens_of(&phrase.text).len();
    let whole = |value: &&Valued| value.kind == phrase.kind && value.from == 0 && value.to == tokens;
    let values = values_of(&phrase.text, today(), false);
    let Some(value) = values.iter().find(whole) else { return Read::Nothing };
    match phrase.kind {
        "day" => Read::Days(value.days.into_iter().flatten().collect()),
        "clock" => value.time.map_or(Read::Nothing, |time| Read::Time(time, value.flag == Some(true))),
        "temperature" => value.amount.map_or(Read::Nothing, |n| Read::Degrees(n, value.flag)),
        _ => value.amount.map_or(Read::Nothing, Read::Amount),
    }
}

fn theirs(phrase: &Phrase) -> Read {
    let locale = Locale::new(Lang::EN, None);
    let zone = FixedOffset::east_opt(0).unwrap();
    let context = Context::new(zone.with_ymd_and_hms(2026, 8, 14, 12, 0, 0).unwrap(), locale);
    let kinds: &[DimensionKind] = match phrase.kind {
        "number" => &[DimensionKind::Numeral],
        "mass" => &[DimensionKind::Quantity],
        "volume" => &[DimensionKind::Volume, DimensionKind::Quantity],
        "duration" => &[DimensionKind::Duration],
        "temperature" => &[DimensionKind::Temperature],
        _ => &[DimensionKind::Time],
    };
    let found = parse(&phrase.text, &locale, kinds, &context, &Options { with_latent: true });
    let whole = |entity: &&Entity| entity.start == 0 && entity.end == phrase.text.len();
    let Some(entity) = found.iter().find(whole) else { return Read::Nothing };
    match &entity.value {
        DimensionValue::Numeral(n) => Read::Amount(*n),
        DimensionValue::Duration { normalized_seconds, .. } => Read::Amount(*normalized_seconds as f64),
        DimensionValue::Temperature(MeasurementValue::Value { value, unit }) => Read::Degrees(
            *value,
            match unit.as_str() {
                "celsius" => Some(true),
                "fahrenheit" => Some(false),
                _ => None,
            },
        ),
        DimensionValue::Volume(MeasurementValue::Value { value, unit })
        | DimensionValue::Quantity { measurement: MeasurementValue::Value { value, unit }, .. } => {
            unit_of(unit).map_or(Read::Nothing, |unit| Read::Amount(value * unit))
        }
        DimensionValue::Time(TimeValue::Single { value, .. }) => {
            let at = match value {
                TimePoint::Instant { value, .. } => value.naive_utc(),
                TimePoint::Naive { value, .. } => *value,
            };
            if phrase.kind == "day" { Read::Days(vec![at.date()]) } else { Read::Time(at.time(), false) }
        }
        _ => Read::Nothing,
    }
}

/// Grams or litres of a unit of the other reader's.
fn unit_of(name: &str) -> Option<f64> {
    Some(match name {
        "gram" => 1.0,
        "kilogram" => 1_000.0,
        "pound" => 453.592_37,
        "ounce" => 28.349_523_125,
        "millilitre" => 0.001,
        "litre" => 1.0,
        "gallon" => 3.785_411_784,
        "quart" => 0.946_352_946,
        "pint" => 0.473_176_473,
        "cup" => 0.236_588_236_5,
        "tablespoon" => 0.014_786_764_781_25,
        "teaspoon" => 0.004_928_921_593_75,
        _ => return None,
    })
}

const ONES: [&str; 20] = [
    "zero",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
    "thirteen",
    "fourteen",
    "fifteen",
    "sixteen",
    "seventeen",
    "eighteen",
    "nineteen",
];
const TENS: [&str; 10] = ["", "", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"];

/// A whole number in words.
fn spelled(n: usize, and: bool, hyphen: bool) -> String {
    let joint = if and { " and " } else { " " };
    let rest = |left: usize| if left == 0 { String::new() } else { format!("{joint}{}", spelled(left, and, hyphen)) };
    match n {
        0..20 => ONES[n].to_owned(),
        20..100 if n.is_multiple_of(10) => TENS[n / 10].to_owned(),
        20..100 => format!("{}{}{}", TENS[n / 10], if hyphen { "-" } else { " " }, ONES[n % 10]),
        100..1_000 => format!("{} hundred{}", ONES[n / 100], rest(n % 100)),
        _ => {
            let left = n % 1_000;
            let behind = if left == 0 {
                String::new()
            } else if left < 100 && and {
                format!(" and {}", spelled(left, and, hyphen))
            } else {
                format!(" {}", spelled(left, and, hyphen))
            };
            format!("{} thousand{behind}", spelled(n / 1_000, and, hyphen))
        }
    }
}

/// Figures in digits: whole, decimal, fractions.
fn figure(dice: &mut Dice) -> String {
    let n = dice.below(40) + 1;
    match dice.below(8) {
        0..3 => n.to_string(),
        3 => format!("{n}.{}", dice.below(9) + 1),
        4 => format!("{}.{:02}", n, dice.below(99) + 1),
        5 => (*dice.of(&["half a", "a", "two", "three", "a dozen", "twelve", "twenty-two"])).to_owned(),
        6 => format!("{n} {}", dice.of(&["1/2", "1/4", "3/4"])),
        _ => format!("{n} and a half"),
    }
}

fn numbers(dice: &mut Dice) -> Vec<String> {
    let mut all: Vec<String> = (0..=120).map(|n| n.to_string()).collect();
    all.extend((0..100).map(|n| spelled(n, false, n % 2 == 0)));
    for _ in 0..250 {
        let most = *dice.of(&[1_000, 10_000, 900_000]);
        let n = dice.below(most);
        let (and, hyphen) = (dice.below(2) == 1, dice.below(2) == 1);
        all.push(spelled(n, and, hyphen));
    }
    for _ in 0..150 {
        let n = dice.below(400);
        all.push(format!("{n}.{}", dice.below(99) + 1));
        all.push(format!("{},{:03}", n + 1, dice.below(1_000)));
        all.push(format!("{},{:03},{:03}", n + 1, dice.below(1_000), dice.below(1_000)));
        all.push(format!("{n},{}", dice.below(9) + 1));
        all.push(format!("{n}.{:03}", dice.below(1_000)));
        all.push(format!(".{}", dice.below(99) + 1));
    }
    for below in [2, 3, 4, 8, 16] {
        all.extend((1..below).map(|above| format!("{above}/{below}")));
        all.extend((1..below).map(|above| format!("{} {above}/{below}", 1 + above * 3)));
    }
    for n in 1..13 {
        all.push(format!("{} and a half", ONES[n]));
        all.push(format!("{n} and a half"));
        all.push(format!("{} point {}", ONES[n], ONES[n % 10]));
        all.push(format!("{} dozen", ONES[n]));
        all.push(format!("{n} dozen"));
        all.push(format!("{} and three quarters", ONES[n]));
    }
    all.extend(
        [
            "half",
            "a dozen",
            "half a dozen",
            "a hundred",
            "a third",
            "three quarters",
            "a couple",
            "a pair",
            "two thirds",
            "½",
            "7½",
            "a thousand",
            "a quarter",
            "two hundred thousand",
        ]
        .map(str::to_owned),
    );
    all
}

fn measured(dice: &mut Dice, units: &[&str], count: usize) -> Vec<String> {
    (0..count)
        .map(|_| {
            let (n, unit) = (figure(dice), *dice.of(units));
            let glued = n.ends_with(|c: char| c.is_ascii_digit()) && !n.contains('/') && dice.below(3) == 0;
            if glued { format!("{n}{unit}") } else { format!("{n} {unit}") }
        })
        .collect()
}

fn masses(dice: &mut Dice) -> Vec<String> {
    let mut all = measured(
        dice,
        &["lb", "lbs", "pounds", "pound", "oz", "ounces", "g", "grams", "kg", "kilos", "kilograms"],
        300,
    );
    for n in 1..12 {
        all.push(format!("{n} lb {} oz", n + 2));
        all.push(format!("{n} pounds and {} ounces", n + 3));
        all.push(format!("{n},{:03} g", n * 37));
        all.push(format!("{n},{:03} lb", n * 37));
        all.push(format!("{n}.{:03} kg", n * 37));
        all.push(format!("{n},5 kg"));
    }
    all
}

fn volumes(dice: &mut Dice) -> Vec<String> {
    measured(
        dice,
        &[
            "quarts",
            "pints",
            "cups",
            "gallons",
            "ml",
            "litres",
            "liters",
            "l",
            "tablespoons",
            "teaspoons",
            "tbsp",
            "tsp",
        ],
        250,
    )
}

fn durations(dice: &mut Dice) -> Vec<String> {
    let mut all = measured(dice, &["minutes", "min", "hours", "hour", "hr", "seconds", "sec", "h"], 200);
    for n in 1..20 {
        all.push(format!("{n} hours and {} minutes", n + 5));
        all.push(format!("{n} hours {} minutes", n + 5));
        all.push(format!("{n} h {} min", n + 5));
        all.push(format!("{} minutes", spelled(n * 3, false, true)));
    }
    all.extend(
        [
            "an hour",
            "half an hour",
            "a minute",
            "an hour and a half",
            "a quarter of an hour",
            "two and a half hours",
            "1 h 20",
            "quarter hour",
        ]
        .map(str::to_owned),
    );
    all
}

fn temperatures(dice: &mut Dice) -> Vec<String> {
    let units = [
        "F",
        "°F",
        " °F",
        " F",
        "°C",
        " C",
        " degrees",
        " degrees celsius",
        " degrees fahrenheit",
        "°",
        " deg F",
        " celsius",
    ];
    (0..150).map(|_| format!("{}{}", dice.below(230) + 1, dice.of(&units))).collect()
}

fn clocks(dice: &mut Dice) -> Vec<String> {
    let mut all = Vec::new();
    for _ in 0..120 {
        let (hour, minute) = (dice.below(12) + 1, dice.below(60));
        let half = *dice.of(&[" am", " pm", "am", "pm", " a.m.", " p.m."]);
        all.push(match dice.below(6) {
            0 => format!("{}:{minute:02}", dice.below(24)),
            1 => format!("{hour}:{minute:02}{half}"),
            2 => format!("{hour}{half}"),
            3 => format!("{} {}", ONES[hour], dice.of(&["o'clock", "am", "pm"])),
            4 => format!("{} past {hour}", dice.below(29) + 1),
            _ => format!("{} to {}", ONES[dice.below(19) + 1], ONES[hour]),
        });
    }
    #[expect(clippy::needless_range_loop, reason = "an hour is a number and a word")]
    for hour in 1..13 {
        all.extend([format!("half past {}", ONES[hour]), format!("quarter past {hour}"), format!("quarter to {hour}")]);
        all.extend([
            format!("{} thirty", ONES[hour]),
            format!("{} in the morning", ONES[hour]),
            format!("{hour} at night"),
        ]);
    }
    all.extend(["noon", "midnight", "high noon", "midday"].map(str::to_owned));
    all
}

const WEEKDAYS: [&str; 7] = ["monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"];
const MONTHS: [&str; 12] = [
    "january",
    "february",
    "march",
    "april",
    "may",
    "june",
    "july",
    "august",
    "september",
    "october",
    "november",
    "december",
];

fn days(dice: &mut Dice) -> Vec<String> {
    let mut all: Vec<String> = [
        "today",
        "yesterday",
        "tomorrow",
        "day before yesterday",
        "day after tomorrow",
        "the day before yesterday",
        "a week ago",
        "two weeks ago",
        "last week",
        "this week",
        "last month",
        "a month ago",
        "3 months ago",
        "in two months",
        "a year ago",
        "2 years ago",
        "this weekend",
        "last weekend",
        "christmas",
        "christmas eve",
        "halloween",
        "boxing day",
        "the first of july",
        "a fortnight ago",
        "last night",
        "this morning",
        "tonight",
        "new year's eve",
        "4th of july",
        "in a week",
    ]
    .map(str::to_owned)
    .to_vec();
    for day in WEEKDAYS {
        all.extend(
            ["", "last ", "next ", "this ", "on ", "this coming ", "past "].map(|before| format!("{before}{day}")),
        );
        all.extend([" morning", " night", " last week"].map(|behind| format!("{day}{behind}")));
        all.push(day[..3].to_owned());
    }
    for _ in 0..300 {
        let (day, month) = (dice.below(28) + 1, dice.below(12));
        let (name, n) = (MONTHS[month], month + 1);
        all.push(match dice.below(12) {
            0 => format!("{name} {day}"),
            1 => format!("{} {day}", &name[..3]),
            2 => format!("{day} {name}"),
            3 => format!("{name} {day}, 2025"),
            4 => format!("2026-{n:02}-{day:02}"),
            5 => format!("{n}/{day}"),
            6 => format!("{n}/{day}/26"),
            7 => format!("{day} days ago"),
            8 => format!("in {day} days"),
            9 => format!("the {}", ordinal(day)),
            10 => format!("{} of {name}", ordinal(day)),
            _ => format!("{name} {}", ordinal(day)),
        });
    }
    all
}

fn ordinal(n: usize) -> String {
    let ending = match n {
        1 | 21 | 31 => "st",
        2 | 22 => "nd",
        3 | 23 => "rd",
        _ => "th",
    };
    format!("{n}{ending}")
}

fn phrases() -> Vec<Phrase> {
    let mut dice = Dice(11);
    let mut all = Vec::new();
    let mut add = |kind, texts: Vec<String>| all.extend(texts.into_iter().map(|text| Phrase { text, kind }));
    add("number", numbers(&mut dice));
    add("mass", masses(&mut dice));
    add("volume", volumes(&mut dice));
    add("duration", durations(&mut dice));
    add("temperature", temperatures(&mut dice));
    add("clock", clocks(&mut dice));
    add("day", days(&mut dice));
    all
}

/// A reason: of which kind of value, what it is, and for which phrases it is one.
type Reason = (&'static str, &'static str, fn(&str, &Read, &Read) -> bool);

#[test]
fn values_are_those_of_another_reader() {
    let all = phrases();
    let mut kinds: BTreeMap<&str, (usize, usize)> = BTreeMap::new();
    let mut reasons: BTreeMap<&str, usize> = BTreeMap::new();
    let mut wrong: BTreeMap<&str, BTreeSet<String>> = BTreeMap::new();
    for phrase in &all {
        let (ours, theirs) = (ours(phrase), theirs(phrase));
        let count = kinds.entry(phrase.kind).or_default();
        count.0 += 1;
        if ours.agrees(&theirs) {
            count.1 += 1;
        } else if let Some((_, reason, _)) =
            REASONS.iter().find(|(kind, _, holds)| *kind == phrase.kind && holds(&phrase.text, &ours, &theirs))
        {
            *reasons.entry(reason).or_default() += 1;
        } else {
            wrong.entry(phrase.kind).or_default().insert(format!("{}: {ours:?}, not {theirs:?}", phrase.text));
        }
    }
    println!("{} phrases; all and alike {kinds:?}\n{reasons:#?}", all.len());
    assert!(all.len() >= 2_000, "{}", all.len());
    assert!(wrong.is_empty(), "{wrong:#?}");
    let unused: Vec<_> =
        REASONS.iter().filter(|(_, reason, _)| !reasons.contains_key(reason)).map(|(_, reason, _)| reason).collect();
    assert!(unused.is_empty(), "reasons that never occur: {unused:?}");
}
