//! Pictures of whatever data, in both themes: none panics, each is a PNG of its size, none is one colour.

use chrono::{Duration, NaiveDate, NaiveDateTime};
use proptest::prelude::*;
use rackful::drawing::{DrawError, Theme, WIDTH, draw};
use rackful::picture::{
    Day, Fan, FanDay, Freezer, LoadLine, Lots, Month, Pantry, Part, Phase, Picture, Row, Season, Stock, Unit, Week,
};
use rackful::vocabulary::{CannerKind, Crop, Jar};

fn monday() -> NaiveDate {
    "2026-05-04".parse().unwrap()
}

fn unit() -> impl Strategy<Value = Unit> {
    prop_oneof![Just(Unit::Pound), Just(Unit::Kilogram)]
}

/// Figures of every size, nothing among them.
fn figure() -> impl Strategy<Value = f64> {
    prop_oneof![2 => Just(0.0), 1 => 0.001..0.9f64, 4 => 1.0..60.0f64, 1 => 100.0..90_000.0f64]
}

fn name() -> impl Strategy<Value = String> {
    prop_oneof![
        Just("thick tomato sauce".to_owned()),
        Just("grandmother's very slow smoked jalapeño and roasted tomato sauce from the yellow notebook".to_owned()),
        ".{0,60}",
    ]
}

fn season() -> impl Strategy<Value = Picture> {
    (prop::collection::vec((figure(), figure(), 0u32..200), 1..54), unit(), any::<bool>()).prop_map(
        |(weeks, unit, open)| {
            let from = |n: usize| monday() + Duration::weeks(n as i64);
            let weeks: Vec<Week> = weeks
                .into_iter()
                .enumerate()
                .map(|(n, (picked, frozen, put_up))| Week { from: from(n), picked, frozen, put_up })
                .collect();
            let sum = |of: fn(&Week) -> f64| weeks.iter().map(of).sum();
            let (picked, frozen) = (sum(|week| week.picked), sum(|week| week.frozen));
            let put_up = weeks.iter().map(|week| week.put_up).sum();
            Picture::Season(Season { year: 2026, unit, weeks, open, picked, frozen, put_up })
        },
    )
}

fn fan(today: NaiveDate) -> impl Strategy<Value = Option<Fan>> {
    let day = prop::collection::vec([figure(), figure(), figure()], 1..60);
    let ready = [prop::option::of(0i64..90), prop::option::of(0i64..90), prop::option::of(0i64..90)];
    prop::option::of((day, ready).prop_map(move |(days, ready)| {
        let days = days.into_iter().zip(1..).map(|([p10, p50, p90], n)| FanDay {
            on: today + Duration::days(n),
            p10,
            p50,
            p90,
        });
        let [ready_p10, ready_p50, ready_p90] = ready.map(|n| n.map(|n| today + Duration::days(n)));
        Fan { days: days.collect(), ready_p10, ready_p50, ready_p90 }
    }))
}

fn freezer() -> impl Strategy<Value = Picture> {
    let at: NaiveDateTime = monday().and_hms_opt(9, 30, 0).unwrap();
    let stock = prop::collection::vec((1i64..5000, figure()), 1..120);
    let load = prop::option::of((figure(), name()).prop_map(|(mass, makes)| LoadLine { mass, makes }));
    (stock, 0i64..40_000, load, fan(monday()), unit(), 0u32..60).prop_map(
        move |(steps, still, load, fan, unit, bags)| {
            let mut then = at;
            let stock: Vec<Stock> = steps
                .into_iter()
                .map(|(gap, mass)| {
                    then += Duration::minutes(gap);
                    Stock { at: then, mass }
                })
                .collect();
            let (since, now) = (stock[0].at, stock[stock.len() - 1].mass);
            let until = then + Duration::minutes(still);
            Picture::Freezer(Freezer { unit, crop: Crop::Tomato, since, until, stock, now, bags, load, fan })
        },
    )
}

fn pantry() -> impl Strategy<Value = Picture> {
    let rows = |months: usize| prop::collection::vec((name(), prop::collection::vec(0u32..90, months)), 1..12);
    ((1usize..20).prop_flat_map(rows), unit(), 0i64..3).prop_map(|(rows, unit, old)| {
        let count = rows[0].1.len();
        let month = |n: usize| Month { first: monday() + Duration::days(31 * n as i64), past_best: (n as i64) < old };
        let rows: Vec<Lots> = rows
            .into_iter()
            .map(|(product, by_month)| Lots { product, jar: Jar::Pint, jars: by_month.iter().sum(), by_month })
            .collect();
        let jars = rows.iter().map(|lots| lots.jars).sum();
        Picture::Pantry(Pantry { unit, on: monday(), jars, months: (0..count).map(month).collect(), rows })
    })
}

fn day() -> impl Strategy<Value = Picture> {
    let phases = [
        Phase::Ready,
        Phase::Heating,
        Phase::Venting,
        Phase::Process,
        Phase::Over,
        Phase::Pressure,
        Phase::Rest,
        Phase::Aside,
    ];
    let part = (0usize..phases.len(), 1i64..400, any::<bool>());
    let rows = prop::collection::vec(prop::collection::vec(part, 1..7), 1..6);
    (rows, name(), unit(), any::<bool>()).prop_map(move |(rows, product, unit, open)| {
        let began = monday().and_hms_opt(8, 5, 0).unwrap();
        let mut at = began;
        let rows: Vec<Row> = rows
            .into_iter()
            .zip(0u32..)
            .map(|(parts, round)| Row {
                round,
                jars: round * 7,
                parts: parts
                    .into_iter()
                    .map(|(phase, minutes, lost)| {
                        let from = at;
                        at += Duration::minutes(minutes);
                        Part { phase: phases[phase], from, to: at, lost }
                    })
                    .collect(),
            })
            .collect();
        Picture::Day(Day {
            unit,
            number: 3,
            name: product.clone(),
            product,
            jar: Jar::Quart,
            jars: 14,
            canner: CannerKind::Steam,
            minutes: Some(45),
            sealed: None,
            began,
            ended: at,
            open,
            rows,
        })
    })
}

fn check(picture: &Picture) -> Result<(), TestCaseError> {
    prop_assert!(!picture.alt().is_empty() && picture.alt().ends_with('.'));
    for theme in [Theme::Light, Theme::Dark] {
        let drawn = draw(picture, theme, 270).unwrap();
        let mut reader = png::Decoder::new(&drawn.png[..]).read_info().unwrap();
        let mut pixels = vec![0; reader.output_buffer_size()];
        let info = reader.next_frame(&mut pixels).unwrap();
        prop_assert_eq!((info.width, info.height), (drawn.width, drawn.height));
        prop_assert_eq!(drawn.width, 270);
        // A page is never higher than three times its width: it is for a phone.
        prop_assert!((150..=1400).contains(&drawn.height), "{}", drawn.height);
        prop_assert!(pixels.chunks(3).any(|pixel| pixel != &pixels[..3]), "an empty page");
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(10))]

    #[test]
    fn every_season_is_drawn(picture in season()) {
        check(&picture)?;
    }

    #[test]
    fn every_freezer_is_drawn(picture in freezer()) {
        check(&picture)?;
    }

    #[test]
    fn every_pantry_is_drawn(picture in pantry()) {
        check(&picture)?;
    }

    #[test]
    fn every_day_is_drawn(picture in day()) {
        check(&picture)?;
    }
}

#[test]
fn a_picture_drawn_twice_is_the_same_and_has_the_width_asked_for() {
    let week = Week { from: monday(), picked: 3.0, frozen: 0.0, put_up: 1 };
    let season =
        Season { year: 2026, unit: Unit::Pound, weeks: vec![week], open: true, picked: 3.0, frozen: 0.0, put_up: 1 };
    let picture = Picture::Season(season);
    let drawn = draw(&picture, Theme::Light, WIDTH).unwrap();
    assert_eq!(drawn, draw(&picture, Theme::Light, WIDTH).unwrap());
    assert_eq!((drawn.width, drawn.height), (1080, 1350));
    assert!(drawn.png.len() < 150_000, "{} bytes are much for a phone", drawn.png.len());
    assert!(matches!(draw(&picture, Theme::Light, 10), Err(DrawError::Width(10))));
}
