//! What the pictures plot: golden data of an invented season, and figures that agree with the ledger's own.

use crate::ledger::{lived, season};
use crate::support::{Kitchen, minutes, noon};
use chrono::{DateTime, Duration, NaiveDate, Utc};
use proptest::prelude::*;
use rackful::assistant::Defaults;
use rackful::console::{SAMPLE, play_sample};
use rackful::desk::Desk;
use rackful::ledger::Ledger;
use rackful::picture::{self, Fan, Phase, Picture, Unit};
use rackful::quantity::Mass;
use rackful::store::MemoryStore;
use rackful::vocabulary::Crop;

fn played() -> (Desk, DateTime<Utc>) {
    let mut desk = Desk::open(Box::new(MemoryStore::default()), Defaults::default()).unwrap();
    let (end, _) = play_sample(&mut desk).unwrap();
    (desk, end)
}

/// Compares plotted data and its sentence with what is kept beside this file.
fn golden(name: &str, picture: Option<Picture>) {
    let picture = picture.unwrap();
    let mut settings = insta::Settings::clone_current();
    settings.set_snapshot_path("picture");
    settings.set_prepend_module_to_snapshot(false);
    settings.bind(|| {
        insta::assert_json_snapshot!(name, serde_json::json!({"alt": picture.alt(), "plotted": picture}));
    });
    let json = serde_json::to_string(&picture).unwrap();
    assert_eq!(serde_json::from_str::<Picture>(&json).unwrap(), picture, "it is kept in the outbox");
}

#[test]
fn the_sample_season_plots_what_was_entered() {
    let (desk, end) = played();
    let ledger = desk.assistant().ledger("home").unwrap();
    golden("season", picture::season(ledger, None, end));
    golden("freezer", picture::freezer(ledger, None, None, Some(fan(end.date_naive())), end));
    golden("pantry", picture::pantry(ledger, end));
    let first = picture::batch(ledger, Some("1")).unwrap();
    golden("day-of-the-first-batch", picture::day(ledger, &first, end));
    let last = picture::batch(ledger, None).unwrap();
    golden("day-with-lost-heat", picture::day(ledger, &last, end));
}

fn fan(today: NaiveDate) -> Fan {
    let grams = |grams: f64| Mass::from_grams(grams).unwrap();
    let days = (1..=3).map(|n| {
        let (on, more) = (today + Duration::days(n), 1000.0 * n as f64);
        (on, [grams(15_876.0), grams(15_876.0 + more), grams(15_876.0 + 3.0 * more)])
    });
    Fan::of(Unit::Pound, days, [Some(today + Duration::days(2)), None, None])
}

#[test]
fn weeks_begin_on_the_rooms_own_monday() {
    let mut kitchen = Kitchen::new();
    // Sunday the 16th of August 2026, ten at night in the room, is Monday in UTC.
    kitchen.now = "2026-08-16T22:00:00-05:00".parse().unwrap();
    kitchen.say("picked 10 lb romas");
    kitchen.now = "2026-08-17T08:00:00-05:00".parse().unwrap();
    kitchen.say("picked 4 lb romas");
    let picture = picture::season(kitchen.assistant.ledger("home").unwrap(), None, kitchen.now);
    let Some(Picture::Season(season)) = picture else { panic!("no season") };
    let weeks: Vec<_> = season.weeks.iter().map(|week| (week.from.to_string(), week.picked)).collect();
    assert_eq!(weeks, [("2026-08-10".to_owned(), 10.0), ("2026-08-17".to_owned(), 4.0)]);
    assert!(season.open);
}

#[test]
fn an_entry_that_is_late_or_taken_back_moves_what_is_plotted() {
    let mut kitchen = Kitchen::new();
    kitchen.say("froze 14 lb in 2 bags");
    kitchen.say("froze 7 lb");
    let stock = |kitchen: &Kitchen| match picture::freezer(
        kitchen.assistant.ledger("home").unwrap(),
        None,
        None,
        None,
        kitchen.now,
    ) {
        Some(Picture::Freezer(freezer)) => freezer.stock.iter().map(|stock| stock.mass).collect::<Vec<_>>(),
        _ => Vec::new(),
    };
    assert_eq!(stock(&kitchen), [14.0, 21.0]);
    kitchen.say("froze 3 lb yesterday");
    assert_eq!(stock(&kitchen), [3.0, 17.0, 24.0]);
    kitchen.say("undo");
    kitchen.say("undo");
    assert_eq!(stock(&kitchen), [14.0]);
}

#[test]
fn a_pressure_batch_in_two_rounds_shows_each_phase_once_and_what_ran_over() {
    let mut kitchen = Kitchen::new();
    for words in [
        "altitude 300 ft",
        "canner is a pressure canner with a dial gauge",
        "canner holds 7 quarts",
        "starting snap beans hot pack, 14 quarts",
    ] {
        kitchen.say(words);
    }
    let mut later = |time: i64, words: &str| {
        kitchen.now += minutes(time);
        let out = kitchen.say(words);
        assert!(out.iter().all(|out| out.out != rackful::assistant::OutKind::Problem), "{words}: {out:?}");
    };
    later(60, "filled 14 quarts");
    for _ in 0..2 {
        later(10, "venting");
        later(10, "at 11 pounds");
        later(40, "heat's off");
        later(30, "pressure's down");
        later(10, "jars are out");
    }
    let ledger = kitchen.assistant.ledger("home").unwrap();
    let batch = picture::batch(ledger, Some("beans")).unwrap();
    let Some(Picture::Day(day)) = picture::day(ledger, &batch, kitchen.now) else { panic!("no day") };
    let phases: Vec<Vec<Phase>> =
        day.rows.iter().map(|row| row.parts.iter().map(|part| part.phase).collect()).collect();
    let round = [Phase::Heating, Phase::Venting, Phase::Process, Phase::Over, Phase::Pressure, Phase::Rest];
    assert_eq!(phases, [vec![Phase::Ready], round.to_vec(), round.to_vec()]);
    assert_eq!(day.rows.iter().map(|row| (row.round, row.jars)).collect::<Vec<_>>(), [(0, 0), (1, 7), (2, 7)]);
    for row in &day.rows {
        assert!(row.parts.windows(2).all(|pair| pair[0].to == pair[1].from), "{row:?}");
    }
    assert!(!day.open);
}

#[test]
fn a_batch_of_an_earlier_year_is_still_found() {
    let (mut desk, end) = played();
    let later = end + Duration::days(400);
    let said = rackful::assistant::Incoming {
        room: "home".into(),
        who: "ana".into(),
        id: rackful::ledger::MessageId::new("$later"),
        at: later.fixed_offset(),
        direct: false,
        thread: None,
        said: rackful::assistant::Said::Text { text: "picked 3 lb romas".into(), reply_to: None },
    };
    desk.hear(&[said], later, &Default::default()).unwrap();
    let ledger = desk.assistant().ledger("home").unwrap();
    assert!(ledger.state().open_batches().next().is_none());
    assert_eq!(picture::batches(ledger).into_keys().collect::<Vec<_>>(), [1, 2, 3]);
    let salsa = picture::batch(ledger, Some("salsa")).unwrap();
    assert!(picture::day(ledger, &salsa, later).is_some());
    assert_eq!(picture::batch(ledger, Some("plum jam")), None);
}

#[test]
fn what_is_empty_is_no_picture() {
    let ledger = Ledger::new(rackful::zone::Zone::UTC);
    assert_eq!(picture::season(&ledger, None, noon()), None);
    assert_eq!(picture::season(&ledger, Some(2020), noon()), None);
    assert_eq!(picture::freezer(&ledger, None, None, None, noon()), None);
    assert_eq!(picture::pantry(&ledger, noon()), None);
    assert_eq!(picture::batch(&ledger, None), None);
    assert!(!SAMPLE.is_empty());
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn the_weeks_sum_to_the_year_and_the_last_stock_is_the_freezers(entries in season()) {
        let (ledger, _) = lived(&entries);
        let now = entries.last().unwrap().happened + minutes(1);
        let year = ledger.state().totals(now);
        if let Some(Picture::Season(season)) = picture::season(&ledger, None, now) {
            let slack = 0.001 * (season.weeks.len() as f64 + 1.0);
            let near = |sum: f64, mass: Mass| (sum - mass.as_pounds()).abs() < slack;
            prop_assert!(near(season.weeks.iter().map(|week| week.picked).sum(), year.picked));
            prop_assert!(near(season.weeks.iter().map(|week| week.frozen).sum(), year.frozen));
            prop_assert_eq!(season.weeks.iter().map(|week| week.put_up).sum::<u32>(), year.jars_put_up);
            prop_assert!(season.weeks.windows(2).all(|pair| pair[1].from - pair[0].from == Duration::days(7)));
        } else {
            prop_assert!(year.picked.is_zero() && year.frozen.is_zero() && year.jars_put_up == 0);
        }
        if let Some(Picture::Freezer(freezer)) = picture::freezer(&ledger, None, None, None, now) {
            let held = ledger.state().freezer.mass(Crop::Tomato).as_pounds();
            prop_assert!((freezer.now - held).abs() < 0.001);
            prop_assert!((freezer.stock.last().unwrap().mass - held).abs() < 0.001);
            prop_assert!(freezer.stock.windows(2).all(|pair| pair[0].at <= pair[1].at && pair[0].mass != pair[1].mass));
        }
        if let Some(Picture::Pantry(pantry)) = picture::pantry(&ledger, now) {
            prop_assert_eq!(pantry.jars, pantry.rows.iter().map(|lots| lots.jars).sum::<u32>());
            for lots in &pantry.rows {
                prop_assert_eq!(lots.jars, lots.by_month.iter().sum::<u32>());
            }
        }
        for batch in picture::batches(&ledger).values() {
            if let Some(Picture::Day(day)) = picture::day(&ledger, batch, now) {
                for row in &day.rows {
                    prop_assert!(row.parts.iter().all(|part| part.from < part.to));
                    prop_assert!(row.parts.windows(2).all(|pair| pair[0].to == pair[1].from), "{:?}", row);
                }
            }
        }
    }
}
