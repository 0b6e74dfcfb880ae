//! Properties of canning days: whatever happens at the stove and in whatever order it is told, no jar is lost or
//! counted twice, none is on a shelf without its full time, and what is told late comes to the same.

use crate::ledger::{balances, lived};
use crate::support::{entry, minutes, noon};
use proptest::prelude::*;
use rackful::batch::{Batch, Fate};
use rackful::ledger::state::State;
use rackful::ledger::{Entry, Ledger};
use rackful::quantity::{Length, Pressure};
use rackful::statement::{
    AcidAdded, AcidMissing, AtHeat, Began, Filled, Froze, Lifted, Named, Sealed, Set, SomeJars, Stage, Statement, Taken,
};
use rackful::vocabulary::{CannerKind, SettingKey};
use rackful::zone::Zone;

fn some() -> impl Strategy<Value = SomeJars> {
    prop::option::of(1u32..4).prop_map(|jars| SomeJars { jars, ..SomeJars::default() })
}

fn taken() -> impl Strategy<Value = Taken> {
    (1u32..3).prop_map(|jars| Taken { jars: Some(jars), ..Taken::default() })
}

fn canner() -> impl Strategy<Value = Option<CannerKind>> {
    prop_oneof![3 => Just(None), 1 => Just(Some(CannerKind::PressureDial)), 1 => Just(Some(CannerKind::Steam))]
}

/// What is said at the stove, the likely things more often.
fn said() -> impl Strategy<Value = Statement> {
    let psi = Pressure::from_psi(11.0);
    prop_oneof![
        2 => (prop::option::of(1u32..20), canner())
            .prop_map(|(jars, canner)| Statement::Began(Began { jars, canner, ..Began::default() })),
        3 => prop::option::of(1u32..9).prop_map(|jars| Statement::Filled(Filled { jars, ..Filled::default() })),
        6 => prop::bool::weighted(0.3)
            .prop_map(move |gauge| Statement::AtHeat(AtHeat { psi: psi.filter(|_| gauge), ..AtHeat::default() })),
        3 => Just(Statement::AcidAdded(AcidAdded::default())),
        1 => prop::option::of(1u32..4)
            .prop_map(|jars| Statement::AcidMissing(AcidMissing { jars, ..AcidMissing::default() })),
        1 => Just(Statement::Venting(Stage::default())),
        1 => Just(Statement::LostHeat(Stage::default())),
        5 => Just(Statement::HeatOff(Stage::default())),
        2 => Just(Statement::PressureDown(Stage::default())),
        6 => prop::option::weighted(0.2, 1u32..8)
            .prop_map(|jars| Statement::Lifted(Lifted { jars, ..Lifted::default() })),
        3 => (prop::option::of(0u32..8), prop::option::of(1u32..9))
            .prop_map(|(jars, of)| (jars, of.filter(|_| jars.is_some())))
            .prop_map(|(jars, of)| Statement::Sealed(Sealed { jars, of, ..Sealed::default() })),
        3 => some().prop_map(Statement::Unsealed),
        2 => some().prop_map(Statement::Reprocessed),
        1 => some().prop_map(Statement::Refrigerated),
        2 => some().prop_map(Statement::Broke),
        1 => some().prop_map(Statement::Siphoned),
        1 => (1u32..3).prop_map(|jars| Statement::Froze(Froze { jars: Some(jars), ..Froze::default() })),
        1 => taken().prop_map(Statement::Ate),
        1 => taken().prop_map(Statement::Tossed),
        1 => Just(Statement::Stopped(Stage::default())),
        1 => Just(Statement::Resumed(Stage::default())),
        1 => "[a-c]".prop_map(|name| Statement::Named(Named { name, batch: None })),
    ]
}

/// Up to eighty things said, minutes or a night apart.
fn days() -> impl Strategy<Value = Vec<Entry>> {
    let gap = prop_oneof![4 => 1i64..20, 3 => 40i64..60, 1 => 700i64..800];
    prop::collection::vec((said(), gap), 0..80).prop_map(|said| {
        let altitude = Set { length: Length::from_metres(100.0), ..Set::of(SettingKey::Altitude) };
        let mut at = noon();
        let mut entries = vec![entry("$altitude", at, Statement::Set(altitude))];
        for (n, (statement, gap)) in said.into_iter().enumerate() {
            at += minutes(gap);
            entries.push(entry(&format!("${n}"), at, statement));
        }
        entries
    })
}

/// Jars of a batch that had the full time: those of rounds that came out, and those that came out a second time.
fn had_their_time(batch: &Batch) -> u32 {
    batch.outs.iter().map(|(_, jars)| jars).sum()
}

fn check(state: &State) -> Result<(), TestCaseError> {
    balances(state)?;
    for batch in &state.batches {
        prop_assert!(batch.fates.first.sealed <= had_their_time(batch), "sealed without its time: {:?}", batch);
        prop_assert!(batch.fates.again.sum() <= batch.again_lifted, "an end before it was through again: {:?}", batch);
        if !batch.is_open() {
            prop_assert_eq!(batch.undecided() + batch.waiting(), 0, "closed with a jar that nobody knows of");
        }
        prop_assert!(batch.fates.held <= batch.undecided(), "held, and nobody knows of it: {:?}", batch);
        let shelved = state.pantry.of_batch(batch.number) + state.fridge.of_batch(batch.number);
        prop_assert!(shelved <= batch.fates.sealed() + batch.fates.of(Fate::Refrigerated));
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, ..ProptestConfig::default() })]

    #[test]
    fn no_jar_is_lost_counted_twice_or_shelved_without_its_time(entries in days()) {
        let mut ledger = Ledger::new(Zone::UTC);
        for entry in &entries {
            let mut state = ledger.state_at(entry.happened);
            let tried = Ledger::try_entry(&mut state, entry);
            if tried.refusal.is_none() {
                let (effects, cuts) = ledger.enter(vec![entry.clone()]);
                prop_assert_eq!((effects, cuts.len()), (vec![tried], 0));
                check(ledger.state())?;
            }
        }
    }

    #[test]
    fn a_day_told_in_another_order_is_the_same_day(entries in days(), seed in any::<u64>()) {
        let (ledger, accepted) = lived(&entries);
        let mut shuffled = accepted.clone();
        let mut state = seed;
        for n in (1..shuffled.len()).rev() {
            state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            shuffled.swap(n, (state >> 33) as usize % (n + 1));
        }
        let mut late = Ledger::new(Zone::UTC);
        for entry in shuffled {
            late.enter(vec![entry]);
        }
        prop_assert_eq!(late.state(), ledger.state());
    }

    /// A step taken back takes with it what it moved, and what no longer fits is left out, not bent.
    #[test]
    fn a_step_taken_back_leaves_no_jar_behind(entries in days(), which in any::<prop::sample::Index>()) {
        let (mut ledger, accepted) = lived(&entries);
        let gone = which.get(&accepted).message.clone();
        ledger.amend(&gone, Vec::new());
        check(ledger.state())?;
    }
}

/// The generator gets batches through: a property that never sees a closed batch says nothing.
#[test]
fn days_see_closed_batches_and_every_fate() {
    use proptest::strategy::ValueTree;
    use proptest::test_runner::TestRunner;
    let mut runner = TestRunner::deterministic();
    let mut seen = std::collections::BTreeMap::<String, u32>::new();
    for _ in 0..400 {
        let entries = days().new_tree(&mut runner).unwrap().current();
        let (ledger, _) = lived(&entries);
        let state = ledger.state();
        let fates = state.batches.iter().map(|batch| batch.fates).chain(state.history.iter().map(|past| past.fates));
        for fates in fates {
            for fate in [Fate::Sealed, Fate::Refrigerated, Fate::Frozen, Fate::Eaten, Fate::Tossed, Fate::Broken] {
                *seen.entry(format!("{fate:?}")).or_default() += fates.of(fate);
            }
            *seen.entry("again".into()).or_default() += fates.again.sum();
        }
        *seen.entry("closed".into()).or_default() +=
            state.batches.iter().filter(|batch| !batch.is_open()).count() as u32;
    }
    assert!(seen.values().all(|count| *count > 0), "{seen:?}");
}
