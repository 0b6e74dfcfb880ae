//! A batch, step by step: which stage follows, what does not fit, and when its clocks run out.

use crate::support::{minutes, noon};
use chrono::{DateTime, Duration, Utc};
use rackful::batch::{Batch, Clock, Fate, Misfit, Stage, Step, Timing};
use rackful::processes::facts;
use rackful::quantity::Pressure;
use rackful::vocabulary::{CannerKind, Jar, Product};
use rackful::zone::Zone;

fn at(minute: i64) -> DateTime<Utc> {
    noon() + minutes(minute)
}

/// Seven quarts to a round, 40 minutes.
fn batch(canner: CannerKind) -> Batch {
    let pressure = canner.is_pressure().then(|| Pressure::from_psi(11.0)).flatten();
    let timing = Timing { minutes: Some(40), pressure, ..Timing::default() };
    Batch::begin(1, "sauce", Product::THICK_SAUCE, Jar::Quart, canner, 7, timing, at(0))
}

/// Takes steps at minutes; each must fit.
fn after(mut batch: Batch, steps: &[(i64, Step)]) -> Batch {
    for (minute, step) in steps {
        batch.take(step, at(*minute)).unwrap_or_else(|misfit| panic!("{step:?} at {minute}: {misfit:?}"));
    }
    batch
}

/// The gauge shows what these jars need.
fn at_11() -> Step {
    Step::AtPressure(Pressure::from_psi(11.0).unwrap())
}

const FILLED: Step = Step::Filled { jars: Some(7) };
const OUT: Step = Step::Lifted { jars: None };

fn clock(batch: &Batch, which: Clock) -> Option<DateTime<Utc>> {
    batch
        .clocks(Zone::parse("America/Chicago").unwrap())
        .into_iter()
        .find(|(clock, _)| *clock == which)
        .map(|(_, at)| at)
}

#[test]
fn a_steam_batch_goes_through_its_stages() {
    let mut batch = batch(CannerKind::Steam);
    let stages = [
        (0, None, Stage::Begun),
        (60, Some(FILLED), Stage::Filled),
        (75, Some(Step::AtHeat), Stage::Processing),
        (114, None, Stage::Processing),
        (115, None, Stage::Done),
        (116, Some(Step::HeatOff), Stage::Resting),
        (125, Some(OUT), Stage::Cooling),
        (125 + 12 * 60, None, Stage::Checking),
    ];
    for (minute, step, stage) in stages {
        if let Some(step) = step {
            batch.take(&step, at(minute)).unwrap();
        }
        assert_eq!(batch.stage(at(minute)), stage, "at {minute}");
    }
    batch.take(&Step::Sealed { jars: None, of: None, round: None }, at(15 * 60)).unwrap();
    assert!(!batch.is_open());
    assert_eq!(batch.fates.sealed(), 7);
}

/// USDA AIB 539 (2015), Guide 1: five minutes' rest after boiling water; jars are looked at after 12 to 24 hours and
/// reprocessed within 24.
#[test]
fn clocks_run_out_when_the_guide_says() {
    let running = after(batch(CannerKind::BoilingWater), &[(0, FILLED), (10, Step::AtHeat)]);
    assert_eq!(clock(&running, Clock::ProcessDone), Some(at(50)));
    assert_eq!(clock(&running, Clock::HeatCheck), None);
    let resting = after(running, &[(50, Step::HeatOff)]);
    assert_eq!(clock(&resting, Clock::RestDone), Some(at(50) + facts::BOILING_WATER_REST.value));
    let cooling = after(resting, &[(60, OUT)]);
    let seals = clock(&cooling, Clock::SealCheck).unwrap();
    assert!(seals >= at(60) + Duration::hours(12) && seals <= at(60) + Duration::hours(22));
    let failed = after(cooling, &[(15 * 60, Step::Sealed { jars: Some(6), of: Some(7), round: None })]);
    assert_eq!(clock(&failed, Clock::SealCheck), None);
    assert_eq!(clock(&failed, Clock::ReprocessDeadline), Some(at(60) + Duration::hours(22)));
    assert_eq!(
        clock(
            &after(failed, &[(15 * 60, Step::Ended { fate: Fate::Refrigerated, jars: None })]),
            Clock::ReprocessDeadline
        ),
        None
    );
}

#[test]
fn pressure_has_stages_of_its_own_and_a_look_at_the_gauge() {
    let pressure = Pressure::from_psi(11.0).unwrap();
    let mut batch = after(batch(CannerKind::PressureDial), &[(0, FILLED), (5, Step::Venting)]);
    assert_eq!(batch.stage(at(5)), Stage::Venting);
    batch = after(batch, &[(15, Step::AtPressure(pressure))]);
    assert_eq!(clock(&batch, Clock::HeatCheck), Some(at(35)));
    batch = after(batch, &[(56, Step::HeatOff)]);
    assert_eq!(batch.stage(at(56)), Stage::Depressurising);
    assert_eq!(clock(&batch, Clock::RestDone), None, "the rest begins when the pressure is down");
    batch = after(batch, &[(90, Step::PressureDown)]);
    assert_eq!(
        (batch.stage(at(90)), clock(&batch, Clock::RestDone)),
        (Stage::Resting, Some(at(90) + facts::PRESSURE_REST.value))
    );
}

#[test]
fn heat_lost_or_off_early_starts_the_full_time_again() {
    for step in [Step::LostHeat, Step::HeatOff, OUT] {
        let mut batch = after(batch(CannerKind::Steam), &[(0, FILLED), (10, Step::AtHeat)]);
        let taken = batch.take(&step, at(49)).unwrap();
        assert_eq!(taken.too_soon, step != Step::LostHeat, "{step:?}");
        assert_eq!((batch.stage(at(49)), batch.ends_at(at(49))), (Stage::Filled, None), "{step:?}");
        batch.take(&Step::AtHeat, at(60)).unwrap();
        assert_eq!(batch.ends_at(at(60)), Some(at(100)), "{step:?}");
    }
}

#[test]
fn steps_out_of_order_change_nothing() {
    let steam = || batch(CannerKind::Steam);
    let running = || after(steam(), &[(0, FILLED), (10, Step::AtHeat)]);
    let out = || after(running(), &[(50, Step::HeatOff), (60, OUT)]);
    let cases = [
        (steam(), 5, Step::HeatOff),
        (steam(), 5, OUT),
        (steam(), 5, Step::Venting),
        (steam(), 5, Step::PressureDown),
        (steam(), 5, Step::Sealed { jars: Some(3), of: None, round: None }),
        (running(), 20, Step::AtHeat),
        (running(), 20, FILLED),
        (running(), 20, Step::Sealed { jars: None, of: None, round: None }),
        (running(), 55, Step::LostHeat),
        (out(), 70, Step::AtHeat),
        (out(), 70, Step::HeatOff),
        (running(), 55, Step::Unsealed { jars: Some(8), round: None }),
        (out(), 900, Step::Sealed { jars: Some(8), of: None, round: None }),
        (out(), 900, Step::Sealed { jars: Some(7), of: Some(8), round: None }),
        (steam(), 5, Step::Broke { jars: None }),
        (steam(), 5, Step::Resumed),
        (steam(), 5, Step::Siphoned { jars: None }),
        (running(), 20, Step::Broke { jars: Some(8) }),
        (running(), 20, Step::Siphoned { jars: Some(8) }),
        (out(), 70, Step::Stopped),
        (out(), 900, Step::Unsealed { jars: Some(8), round: None }),
        (out(), 900, Step::Ended { fate: Fate::Refrigerated, jars: Some(8) }),
    ];
    for (mut batch, minute, step) in cases {
        let before = batch.clone();
        assert!(batch.take(&step, at(minute)).is_err(), "{step:?} at {minute} was taken");
        assert_eq!(batch, before, "{step:?} at {minute}");
    }
}

#[test]
fn jars_that_do_not_fit_make_rounds_each_with_its_own_clock() {
    let mut batch = after(batch(CannerKind::Steam), &[(0, Step::Filled { jars: Some(16) })]);
    assert_eq!((batch.rounds(), batch.in_round()), (3, 7));
    for (round, left) in [(0, 9), (1, 2), (2, 0)] {
        let start = 10 + 60 * round;
        batch = after(batch, &[(start, Step::AtHeat), (start + 40, Step::HeatOff), (start + 50, OUT)]);
        assert_eq!(batch.waiting(), left);
    }
    assert_eq!(batch.stage(at(200)), Stage::Cooling);
}

#[test]
fn a_jar_that_goes_through_again_can_seal_after_all() {
    let mut batch = after(
        batch(CannerKind::Steam),
        &[
            (0, FILLED),
            (10, Step::AtHeat),
            (50, OUT),
            (900, Step::Sealed { jars: Some(6), of: Some(7), round: None }),
            (910, Step::Reprocessed { jars: None }),
        ],
    );
    assert!(!batch.is_open(), "the fate of every jar is known");
    batch =
        after(batch, &[(930, Step::AtHeat), (970, OUT), (1900, Step::Sealed { jars: Some(1), of: None, round: None })]);
    assert_eq!((batch.fates.first.sealed, batch.fates.again.sealed), (6, 1));
    let mut again = batch.clone();
    assert_eq!(
        again.take(&Step::Sealed { jars: Some(1), of: None, round: None }, at(1901)),
        Err(Misfit::TooMany { said: 1, there: 0 })
    );
}

#[test]
fn seals_told_twice_count_once() {
    let out = after(batch(CannerKind::Steam), &[(0, FILLED), (10, Step::AtHeat), (50, Step::HeatOff), (60, OUT)]);
    let six = Step::Sealed { jars: Some(6), of: Some(7), round: None };
    let told = after(
        out,
        &[
            (900, Step::Sealed { jars: Some(5), of: None, round: None }),
            (901, six),
            (902, Step::Unsealed { jars: Some(1), round: None }),
        ],
    );
    assert_eq!((told.fates.sealed(), told.unsealed_open()), (6, 1));
}

#[test]
fn a_batch_that_is_set_aside_keeps_still_and_starts_its_clock_in_full() {
    let running = after(batch(CannerKind::Steam), &[(0, FILLED), (10, Step::AtHeat)]);
    let stopped = after(running.clone(), &[(30, Step::Stopped)]);
    assert_eq!((stopped.stage(at(30)), stopped.ends_at(at(30))), (Stage::Filled, None));
    assert_eq!(stopped.clocks(Zone::UTC), [], "nothing falls due while it is set aside");
    let mut twice = stopped.clone();
    assert_eq!(twice.take(&Step::Stopped, at(31)), Err(Misfit::Stopped { since: at(30) }));
    let on = after(stopped.clone(), &[(100, Step::Resumed), (110, Step::AtHeat)]);
    assert_eq!(on.ends_at(at(110)), Some(at(150)));
    // A stage word takes it up again by itself.
    let mut told = stopped;
    assert!(told.take(&Step::AtHeat, at(110)).unwrap().resumed);
    assert_eq!((told.stopped, told.ends_at(at(110))), (None, Some(at(150))));
    // Jars whose minutes were up have had their time.
    let done = after(running, &[(55, Step::Stopped), (400, OUT)]);
    assert_eq!((done.stage(at(400)), done.restarts), (Stage::Cooling, 0));
}

#[test]
fn jars_that_are_out_keep_their_clock_while_the_rest_is_set_aside() {
    let first = after(
        batch(CannerKind::Steam),
        &[
            (0, Step::Filled { jars: Some(14) }),
            (10, Step::AtHeat),
            (50, Step::HeatOff),
            (60, OUT),
            (70, Step::Stopped),
        ],
    );
    let seals = clock(&first, Clock::SealCheck).unwrap();
    assert!(seals >= at(60) + Duration::hours(12));
    assert_eq!(first.clocks(Zone::UTC).len(), 1);
}

#[test]
fn a_jar_that_breaks_before_it_is_out_leaves_the_round() {
    let fourteen = after(batch(CannerKind::Steam), &[(0, Step::Filled { jars: Some(14) }), (10, Step::AtHeat)]);
    let broke = after(fourteen, &[(20, Step::Broke { jars: None })]);
    assert_eq!((broke.in_round(), broke.waiting(), broke.undecided()), (6, 13, 0));
    let first = after(broke, &[(50, Step::HeatOff), (60, OUT)]);
    assert_eq!((first.waiting(), first.in_round(), first.undecided()), (7, 7, 6));
    let all =
        after(first, &[(70, Step::AtHeat), (110, OUT), (900, Step::Sealed { jars: None, of: None, round: None })]);
    assert_eq!((all.fates.sealed(), all.fates.of(Fate::Broken), all.is_open()), (13, 1, false));
    // When every jar of the round breaks, nothing is left in the canner.
    let one = after(batch(CannerKind::Steam), &[(0, Step::Filled { jars: Some(1) }), (10, Step::AtHeat)]);
    let none = after(one, &[(20, Step::Broke { jars: None })]);
    assert_eq!((none.is_open(), none.ends_at(at(20))), (false, None));
}

#[test]
fn the_seals_of_a_round_may_be_told_while_the_next_is_in_the_canner() {
    let second = after(
        batch(CannerKind::Steam),
        &[
            (0, Step::Filled { jars: Some(14) }),
            (10, Step::AtHeat),
            (50, Step::HeatOff),
            (60, OUT),
            (80, Step::AtHeat),
            (90, Step::Sealed { jars: Some(6), of: Some(7), round: None }),
        ],
    );
    assert_eq!((second.fates.sealed(), second.unsealed_open(), second.stage(at(90))), (6, 1, Stage::Processing));
    let mut more = second.clone();
    assert!(
        more.take(&Step::Sealed { jars: Some(2), of: None, round: None }, at(91)).is_err(),
        "the others are in the canner"
    );
}

#[test]
fn a_jar_that_fails_twice_has_an_end_of_its_own() {
    let again = after(
        batch(CannerKind::Steam),
        &[
            (0, FILLED),
            (10, Step::AtHeat),
            (50, OUT),
            (900, Step::Sealed { jars: Some(6), of: Some(7), round: None }),
            (910, Step::Reprocessed { jars: None }),
        ],
    );
    let mut unheated = again.clone();
    assert!(
        unheated.take(&Step::Sealed { jars: Some(1), of: None, round: None }, at(920)).is_err(),
        "it has not been through again"
    );
    let failed = after(again, &[(930, Step::AtHeat), (970, OUT), (1900, Step::Unsealed { jars: None, round: None })]);
    let mut thrice = failed.clone();
    assert_eq!(thrice.take(&Step::Reprocessed { jars: None }, at(1901)), Err(Misfit::Again));
    let frozen = after(failed, &[(1901, Step::Ended { fate: Fate::Frozen, jars: None })]);
    assert_eq!((frozen.fates.sealed(), frozen.fates.of(Fate::Frozen), frozen.reprocessing()), (6, 1, 0));
}

#[test]
fn a_gauge_that_falls_short_is_pressure_lost() {
    let psi = |psi| Step::AtPressure(Pressure::from_psi(psi).unwrap());
    let running = after(batch(CannerKind::PressureDial), &[(0, FILLED), (5, Step::Venting), (15, at_11())]);
    let mut short = running.clone();
    assert!(short.take(&psi(10.0), at(30)).unwrap().too_low);
    assert_eq!((short.stage(at(30)), short.restarts), (Stage::Filled, 1));
    short.take(&psi(11.0), at(40)).unwrap();
    assert_eq!(short.ends_at(at(40)), Some(at(80)));
    let mut enough = running;
    assert!(enough.take(&psi(11.0), at(30)).unwrap().steady);
    assert_eq!(enough.ends_at(at(30)), Some(at(55)));
}

/// USDA AIB 539 (2015), Guide 1: steam flows for ten minutes before the weight goes on.
#[test]
fn a_vent_known_to_be_short_holds_the_clock() {
    let venting = after(batch(CannerKind::PressureDial), &[(0, FILLED), (5, Step::Venting)]);
    let mut early = venting.clone();
    assert_eq!(early.take(&at_11(), at(14)), Err(Misfit::Unvented { until: at(15) }));
    assert_eq!(early, venting);
    early.take(&at_11(), at(15)).unwrap();
    let again = after(venting, &[(12, Step::Venting)]);
    assert!(again.clone().take(&at_11(), at(15)).is_err(), "it flows only since it flowed again");
    assert_eq!(after(again, &[(22, at_11())]).stage(at(22)), Stage::Processing);
}

#[test]
fn no_jar_comes_out_from_under_pressure() {
    let running = after(batch(CannerKind::PressureDial), &[(0, FILLED), (15, at_11())]);
    let off = after(running.clone(), &[(55, Step::HeatOff)]);
    let refused = |batch: &Batch, minute, until| {
        assert_eq!(batch.clone().take(&OUT, at(minute)), Err(Misfit::UnderPressure { until }), "at {minute}");
    };
    refused(&off, 58, None);
    refused(&running, 56, None);
    let down = after(off.clone(), &[(90, Step::PressureDown)]);
    refused(&down, 99, Some(at(90) + facts::PRESSURE_REST.value));
    assert_eq!(after(down, &[(100, OUT)]).stage(at(100)), Stage::Cooling);
    // No clock knows the gauge: it has to be told, however long it has been.
    refused(&off, 300, None);
    refused(&running, 300, None);
    // Not every step is told: lids are pressed 12 hours after, and then the jars are out.
    let seals = Step::Sealed { jars: Some(7), of: Some(7), round: None };
    assert_eq!(off.clone().take(&seals, at(54 + 12 * 60)), Err(Misfit::UnderPressure { until: None }));
    assert_eq!(after(off, &[(55 + 12 * 60, seals)]).fates.sealed(), 7);
}

#[test]
fn jars_that_came_out_untold_came_out_as_early_as_they_can_have() {
    let six = Step::Sealed { jars: Some(6), of: Some(7), round: None };
    let steam = after(batch(CannerKind::Steam), &[(0, FILLED), (10, Step::AtHeat), (60, Step::HeatOff), (900, six)]);
    let out = at(60) + facts::BOILING_WATER_REST.value;
    assert_eq!(steam.reprocess_until(), Some(out + facts::REPROCESS_WITHIN.value));
    let untold = after(batch(CannerKind::Steam), &[(0, FILLED), (10, Step::AtHeat), (900, six)]);
    assert_eq!(
        untold.reprocess_until(),
        Some(at(50) + facts::BOILING_WATER_REST.value + facts::REPROCESS_WITHIN.value)
    );
    let pressure = [(0, FILLED), (10, at_11()), (60, Step::HeatOff), (900, six)];
    let pressure = after(batch(CannerKind::PressureDial), &pressure);
    assert_eq!(pressure.reprocess_until(), Some(at(60) + facts::REPROCESS_WITHIN.value));
}

#[test]
fn a_gauge_is_of_a_pressure_canner() {
    let filled = after(batch(CannerKind::BoilingWater), &[(0, FILLED)]);
    let psi = Step::AtPressure(Pressure::from_psi(11.0).unwrap());
    assert_eq!(filled.clone().take(&psi, at(10)), Err(Misfit::NoPressure));
    assert_eq!(after(filled, &[(10, Step::AtHeat)]).stage(at(10)), Stage::Processing);
}

/// USDA AIB 539 (2015), Guide 1: an unsealed jar is reprocessed within 24 hours, and nobody knows which round it was
/// in.
#[test]
fn the_hours_for_reprocessing_count_from_the_earliest_round_that_is_not_all_decided() {
    let seven = (0, Step::Filled { jars: Some(14) });
    let first = after(batch(CannerKind::Steam), &[seven, (10, Step::AtHeat), (60, OUT)]);
    let six = |sealed, of| Step::Sealed { jars: Some(sealed), of: Some(of), round: None };
    let second = |batch, steps: &[(i64, Step)]| after(after(batch, &[(80, Step::AtHeat), (130, OUT)]), steps);
    let unknown = second(first.clone(), &[(900, six(13, 14))]);
    assert_eq!(unknown.reprocess_until(), Some(at(60) + facts::REPROCESS_WITHIN.value));
    assert_eq!(clock(&unknown, Clock::ReprocessDeadline), Some(at(60) + Duration::hours(22)));
    let told = after(first, &[(70, Step::Sealed { jars: Some(7), of: None, round: None })]);
    let known = second(told, &[(900, six(6, 7))]);
    assert_eq!(known.reprocess_until(), Some(at(130) + facts::REPROCESS_WITHIN.value));
}
