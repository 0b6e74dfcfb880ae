//! What goes wrong at the canner while a batch is on: what stops its clock, what is asked, and which jars are never
//! shelved.

use crate::support::{Kitchen, minutes, noon, topics};
use chrono::{DateTime, Utc};
use proptest::prelude::*;
use rackful::batch::{Batch, Bearing, Misfit, Stage, Step, Timing};
use rackful::processes::facts;
use rackful::quantity::Pressure;
use rackful::vocabulary::{CannerKind, Jar, Mishap, Product};

fn at(minute: i64) -> DateTime<Utc> {
    noon() + minutes(minute)
}

fn psi(psi: f64) -> Step {
    Step::AtPressure(Pressure::from_psi(psi).unwrap())
}

fn happens(what: Mishap) -> Step {
    Step::Mishap { what, psi: None }
}

const FILLED: Step = Step::Filled { jars: Some(7) };
const OUT: Step = Step::Lifted { jars: None };
const SEALED: Step = Step::Sealed { jars: None, of: None, round: None };

/// Seven quarts in a canner with a dial gauge, 40 minutes at 11 psi.
fn batch() -> Batch {
    let timing = Timing { minutes: Some(40), pressure: Pressure::from_psi(11.0), ..Timing::default() };
    let (jar, canner) = (Jar::Quart, CannerKind::PressureDial);
    Batch::begin(1, "beans", Product::THICK_SAUCE, jar, canner, 7, timing, at(0))
}

fn after(steps: &[(i64, Step)]) -> Batch {
    let mut batch = batch();
    for (minute, step) in steps {
        batch.take(step, at(*minute)).unwrap_or_else(|misfit| panic!("{step:?} at {minute}: {misfit:?}"));
    }
    batch
}

fn running() -> Batch {
    after(&[(0, FILLED), (5, Step::Venting), (15, psi(11.0))])
}

fn cooled() -> Batch {
    let mut batch = running();
    for (minute, step) in [(56, Step::HeatOff), (80, Step::PressureDown), (90, OUT)] {
        batch.take(&step, at(minute)).unwrap();
    }
    batch
}

/// North Carolina State University extension (2004), `interrupted_process_redo`: the full time again.
#[test]
fn what_interrupts_a_process_stops_its_clock() {
    for what in [Mishap::CannerDry, Mishap::PlugBlown, Mishap::VentSkipped, Mishap::VentOpened, Mishap::WeightOff] {
        let mut batch = running();
        assert_eq!(batch.take(&happens(what), at(20)).unwrap().bearing, Some(Bearing::Stopped), "{what}");
        assert_eq!((batch.stage(at(20)), batch.restarts), (Stage::Filled, 1), "{what}");
        assert_eq!(batch.take(&SEALED, at(60)), Err(Misfit::Unprocessed), "{what}");
    }
    // Nothing is lost before the clock runs, and the pressure may be told again while it does.
    let mut waiting = after(&[(0, FILLED)]);
    assert_eq!(waiting.take(&happens(Mishap::CannerDry), at(5)).unwrap().bearing, Some(Bearing::None));
    assert!(running().take(&psi(12.0), at(20)).unwrap().steady);
    assert!(running().take(&psi(10.0), at(20)).unwrap().too_low);
}

#[test]
fn what_may_have_interrupted_it_holds_the_jars_until_it_is_answered() {
    let mut batch = running();
    assert_eq!(batch.take(&happens(Mishap::SteamLeak), at(20)).unwrap().bearing, Some(Bearing::Asked));
    for (minute, step) in [(56, Step::HeatOff), (80, Step::PressureDown), (90, OUT)] {
        batch.take(&step, at(minute)).unwrap();
    }
    assert_eq!(batch.take(&SEALED, at(900)), Err(Misfit::Doubtful));
    let (mut held, mut fell) = (batch.clone(), batch);
    held.take(&happens(Mishap::Held), at(900)).unwrap();
    assert_eq!(held.take(&SEALED, at(901)).unwrap().sealed, 7);
    fell.take(&happens(Mishap::Fell), at(900)).unwrap();
    assert_eq!(fell.take(&SEALED, at(901)), Err(Misfit::Unprocessed));
    assert!(matches!(fell.take(&psi(11.0), at(902)), Err(Misfit::Stood { .. })));
}

/// Utah State, PNW 421, Iowa State extension, `vent_skipped_or_short`: treated as underprocessed. University of
/// Nebraska extension, `deviation_redo_within_h`: made good within 2 hours only.
#[test]
fn a_vent_that_was_skipped_takes_shelved_jars_back() {
    let mut batch = cooled();
    assert_eq!(batch.take(&SEALED, at(100)).unwrap().sealed, 7);
    let bearing = batch.take(&happens(Mishap::VentSkipped), at(110)).unwrap().bearing;
    assert_eq!((bearing, batch.fates.sealed()), (Some(Bearing::Undone { shelved: 7 }), 0));
    assert_eq!(batch.standing().unwrap().until(), at(56) + facts::REDO_WITHIN.value);
    assert_eq!(batch.take(&psi(11.0), at(120)), Err(Misfit::VentFirst));
    let mut late = batch.clone();
    assert!(matches!(late.take(&Step::Venting, at(56 + 121)), Err(Misfit::Stood { .. })));
    for (minute, step) in [(120, Step::Venting), (130, psi(11.0)), (171, Step::HeatOff), (200, Step::PressureDown)] {
        batch.take(&step, at(minute)).unwrap();
    }
    batch.take(&OUT, at(210)).unwrap();
    assert_eq!(batch.take(&SEALED, at(900)).unwrap().sealed, 7);
}

/// USDA home canning of meat and poultry bulletin, `dial_gauge_high_2_add_psi`; four extensions,
/// `dial_gauge_replace_if_off_more_than_psi`.
#[test]
fn a_gauge_that_reads_high_needs_more() {
    let high = |by| Step::Mishap { what: Mishap::GaugeHigh, psi: Pressure::from_psi(by) };
    let mut batch = running();
    assert_eq!(batch.take(&high(2.0), at(20)).unwrap().bearing, Some(Bearing::Stopped));
    assert_eq!(batch.take(&psi(12.0), at(25)), Err(Misfit::GaugeOff));
    batch.take(&psi(13.0), at(26)).unwrap();
    let mut enough = after(&[(0, FILLED), (5, Step::Venting), (15, psi(13.0))]);
    assert_eq!(enough.take(&high(2.0), at(20)).unwrap().bearing, Some(Bearing::None));
    assert_eq!(enough.take(&high(3.0), at(21)).unwrap().bearing, Some(Bearing::Stopped));
    assert_eq!(enough.take(&psi(15.0), at(25)), Err(Misfit::GaugeOff));
}

/// `perishable_room_temperature_max_h`, for which filled jars have no figure of their own.
#[test]
fn jars_that_wait_are_told_of_in_time_and_get_no_clock_afterwards() {
    let mut kitchen = Kitchen::new();
    for words in ["altitude 500 ft", "starting thick sauce in quarts", "filled 7 quarts"] {
        kitchen.say(words);
    }
    assert_eq!(topics(&kitchen.wait(minutes(130))), ["alert redo-deadline", "alert redo-over"]);
    assert_eq!(topics(&kitchen.say("rolling boil")), ["problem out-of-range"]);
    assert_eq!(topics(&kitchen.say("all sealed")), ["problem too-soon"]);
    assert_eq!(topics(&kitchen.say("tossed 7 quarts of sauce")), ["reply tossed"]);
    assert_eq!(kitchen.state()["pantry"], serde_json::json!([]));
    assert_eq!(kitchen.state()["batch"], serde_json::json!(null));
}

#[test]
fn a_number_below_the_target_is_lost_pressure_however_it_is_said() {
    for words in ["it's at 10 now", "down to 9 pounds", "gauge says 8", "no pressure"] {
        let mut kitchen = Kitchen::new();
        for words in ["altitude 500 ft", "canner is pressure with a dial gauge", "starting green beans in pints"] {
            kitchen.say(words);
        }
        for words in ["filled 9 pints", "at 11 pounds"] {
            kitchen.say(words);
        }
        assert_eq!(kitchen.state()["batch"]["stage"], serde_json::json!("processing"));
        assert_eq!(topics(&kitchen.say(words)), ["problem out-of-range"], "{words}");
        assert_eq!(kitchen.state()["batch"]["stage"], serde_json::json!("filled"), "{words}");
    }
}

/// What breaks a process whenever it is told.
const BREAKS: [Step; 2] =
    [Step::Mishap { what: Mishap::CannerDry, psi: None }, Step::Mishap { what: Mishap::VentSkipped, psi: None }];

fn any_step() -> impl Strategy<Value = Step> {
    let mishap = (0..Mishap::ALL.len()).prop_map(|n| happens(Mishap::ALL[n]));
    let steps = vec![FILLED, Step::Venting, psi(11.0), psi(9.0), psi(13.0), Step::AtHeat, Step::LostHeat];
    let after = vec![Step::HeatOff, Step::PressureDown, OUT, SEALED, Step::Stopped, Step::Resumed];
    prop_oneof![
        3 => mishap,
        5 => prop::sample::select(steps),
        7 => prop::sample::select(after)
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(4000))]

    /// The clock of an observer who knows only what was said and when. One round: jars that go through again are told
    /// apart from the others by no step.
    #[test]
    fn no_jar_is_shelved_whose_full_time_did_not_run_after_the_last_interruption(
        steps in prop::collection::vec((1..45_i64, any_step()), 1..40)
    ) {
        let (mut batch, mut now, mut started) = (batch(), 0, None);
        for (wait, step) in steps {
            now += wait;
            let ran = started.is_some_and(|since| now >= since + 40);
            let taken = batch.take(&step, at(now));
            let low = matches!(step, Step::AtPressure(shown) if shown.as_psi() < 11.0);
            let stops = low || matches!(step, Step::LostHeat | Step::HeatOff | Step::Lifted { .. } | Step::Stopped);
            let told = BREAKS.contains(&step) || matches!(step, Step::Mishap { what: Mishap::PlugBlown, .. }) && !ran;
            if taken.is_ok() && (told || stops && !ran) {
                started = None;
            }
            if let (Ok(taken), Step::AtHeat | Step::AtPressure(_)) = (&taken, &step)
                && !taken.steady && !taken.too_low {
                    started = Some(now);
                }
            if started.is_none() {
                prop_assert_eq!(batch.fates.first.sealed, 0, "at {} after {:?}", now, step);
            }
            if taken.is_ok_and(|taken| taken.sealed > 0) {
                prop_assert!(started.is_some_and(|since| now >= since + 40), "sealed at {}", now);
            }
        }
    }
}
