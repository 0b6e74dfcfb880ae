//! Properties of the ledger: whatever is said in whatever order, it balances, it forgets nothing and it takes back what
//! is taken back.

use crate::support::{entry, lb, minutes, noon};
use proptest::prelude::*;
use rackful::ledger::state::State;
use rackful::ledger::{Entry, Ledger, MessageId, Mode, Refusal, apply};
use rackful::quantity::{Length, Mass};
use rackful::statement::{AtHeat, Lifted};
use rackful::statement::{
    Began, Bought, CookedDown, Counted, Drained, Dried, Dry, Filled, Froze, Jarred, Named, Picked, Powdered, Sealed,
    Set, SomeJars, Stage, Statement, Taken, Thawed,
};
use rackful::vocabulary::{Crop, Jar, Product, SettingKey, Stock, Supply};
use rackful::zone::Zone;

fn mass() -> impl Strategy<Value = Option<Mass>> {
    (1u32..400).prop_map(|tenths| Some(lb(f64::from(tenths) / 10.0)))
}

fn crop() -> impl Strategy<Value = Option<Crop>> {
    prop_oneof![4 => Just(None), 1 => Just(Some(Crop::Pepper)), 1 => Just(Some(Crop::Tomato))]
}

fn taken() -> impl Strategy<Value = Taken> {
    let from = prop_oneof![Just(None), Just(Some(Stock::Freezer)), Just(Some(Stock::Counter))];
    prop_oneof![
        (mass(), crop(), from).prop_map(|(mass, crop, from)| Taken { mass, crop, from, ..Taken::default() }),
        (1u32..4).prop_map(|bags| Taken { bags: Some(bags), ..Taken::default() }),
        (1u32..4).prop_map(|jars| Taken { jars: Some(jars), jar: Some(Jar::Quart), ..Taken::default() }),
    ]
}

fn jarred() -> impl Strategy<Value = Jarred> {
    (1u32..9, prop_oneof![Just(None), mass()]).prop_map(|(jars, mass)| Jarred {
        jars: Some(jars),
        of: None,
        jar: Some(Jar::Quart),
        product: Some(Product::THICK_SAUCE),
        mass,
        ..Jarred::default()
    })
}

/// Anything that can be entered.
fn statement() -> impl Strategy<Value = Statement> {
    prop_oneof![
        4 => (mass(), crop()).prop_map(|(mass, crop)| Statement::Picked(Picked { mass, crop, ..Picked::default() })),
        4 => (mass(), crop(), prop::option::of(1u32..5))
            .prop_map(|(mass, crop, bags)| Statement::Froze(Froze { mass, crop, bags, ..Froze::default() })),
        2 => (1u32..6).prop_map(|bags| Statement::Thawed(Thawed { bags: Some(bags), ..Thawed::default() })),
        1 => mass().prop_map(|mass| Statement::Thawed(Thawed { mass, ..Thawed::default() })),
        1 => taken().prop_map(Statement::Ate),
        1 => taken().prop_map(Statement::Gave),
        1 => taken().prop_map(Statement::Tossed),
        1 => mass().prop_map(|mass| Statement::Counted(Counted { mass, ..Counted::default() })),
        1 => (0u32..6, mass()).prop_map(|(bags, mass)| Statement::Counted(Counted {
            bags: Some(bags),
            mass,
            ..Counted::default()
        })),
        2 => prop::option::of(mass())
            .prop_map(|mass| Statement::Began(Began { mass: mass.flatten(), ..Began::default() })),
        1 => (1u32..9).prop_map(|jars| Statement::Filled(Filled { jars: Some(jars), ..Filled::default() })),
        1 => Just(Statement::AtHeat(AtHeat::default())),
        1 => Just(Statement::LostHeat(Stage::default())),
        1 => Just(Statement::HeatOff(Stage::default())),
        1 => Just(Statement::Lifted(Lifted::default())),
        1 => Just(Statement::Sealed(Sealed::default())),
        1 => (1u32..3).prop_map(|jars| Statement::Unsealed(SomeJars { jars: Some(jars), ..SomeJars::default() })),
        1 => Just(Statement::Refrigerated(SomeJars::default())),
        1 => (1u32..3).prop_map(|jars| Statement::Broke(SomeJars { jars: Some(jars), ..SomeJars::default() })),
        1 => (1u32..3).prop_map(|jars| Statement::Siphoned(SomeJars { jars: Some(jars), ..SomeJars::default() })),
        1 => (1u32..3).prop_map(|jars| Statement::Froze(Froze { jars: Some(jars), ..Froze::default() })),
        1 => Just(Statement::Stopped(Stage::default())),
        1 => Just(Statement::Resumed(Stage::default())),
        1 => "[a-c]".prop_map(|name| Statement::Named(Named { name, batch: None })),
        1 => mass().prop_map(|mass| Statement::Drained(Drained { mass, kept: Some(true), ..Drained::default() })),
        1 => mass().prop_map(|mass| Statement::CookedDown(CookedDown { mass, ..CookedDown::default() })),
        1 => prop::option::of(mass()).prop_map(|mass| Statement::Dry(Dry { mass: mass.flatten(), ..Dry::default() })),
        1 => Just(Statement::Reprocessed(SomeJars::default())),
        1 => jarred().prop_map(Statement::PutUp),
        1 => jarred().prop_map(Statement::Opened),
        1 => mass().prop_map(|mass| Statement::Dried(Dried { mass, what: Some("halves".into()), ..Dried::default() })),
        1 => mass().prop_map(|mass| Statement::Powdered(Powdered { mass, ..Powdered::default() })),
        1 => (1u32..40).prop_map(|count| Statement::Bought(Bought {
            supply: Some(Supply::Lids),
            count: Some(count),
            ..Bought::default()
        })),
    ]
}

/// Up to sixty entries, each some minutes after the one before, after the altitude is set.
pub(crate) fn season() -> impl Strategy<Value = Vec<Entry>> {
    prop::collection::vec((statement(), 1i64..900), 0..60).prop_map(|said| {
        let altitude = Set { length: Length::from_metres(300.0), ..Set::of(SettingKey::Altitude) };
        let mut at = noon();
        let mut entries = vec![entry("$altitude", at, Statement::Set(altitude))];
        for (n, (statement, gap)) in said.into_iter().enumerate() {
            at += minutes(gap);
            entries.push(entry(&format!("${n}"), at, statement));
        }
        entries
    })
}

/// What of a season is accepted when each entry is decided on as it comes.
pub(crate) fn lived(entries: &[Entry]) -> (Ledger, Vec<Entry>) {
    let mut ledger = Ledger::new(Zone::UTC);
    let mut accepted = Vec::new();
    for entry in entries {
        let mut state = ledger.state_at(entry.happened);
        if Ledger::try_entry(&mut state, entry).refusal.is_none() {
            ledger.enter(vec![entry.clone()]);
            accepted.push(entry.clone());
        }
    }
    (ledger, accepted)
}

pub(super) fn balances(state: &State) -> Result<(), TestCaseError> {
    let (picked, left) = state.balance();
    prop_assert_eq!(picked, left);
    let frozen: Mass = state.years.values().map(|year| year.frozen).sum();
    let thawed: Mass = state.years.values().map(|year| year.thawed).sum();
    prop_assert!(thawed <= frozen + lb(10_000.0));
    for (_, bags) in state.freezer.crops() {
        prop_assert!(bags.iter().all(|bag| bag.mass > Mass::ZERO));
        prop_assert!(bags.is_sorted_by_key(|bag| bag.on));
    }
    for batch in &state.batches {
        let fates = batch.fates;
        prop_assert!(fates.known() <= batch.filled, "more fates than jars: {:?}", batch);
        prop_assert!(fates.again.sum() <= fates.reprocessed, "more ends than went through again: {:?}", batch);
        prop_assert!(fates.open <= batch.undecided() && batch.siphoned <= batch.filled);
        prop_assert_eq!(
            batch.filled,
            fates.known() + batch.undecided() + batch.waiting(),
            "a jar is lost: {:?}",
            batch
        );
        let out: u32 = batch.outs.iter().map(|(_, jars)| jars).sum();
        prop_assert_eq!(out, batch.lifted);
        let shelved = state.pantry.of_batch(batch.number);
        prop_assert!(shelved <= fates.sealed());
        prop_assert!(batch.lifted <= batch.filled);
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, ..ProptestConfig::default() })]

    #[test]
    fn the_year_balances_after_any_sequence(entries in season()) {
        let (ledger, _) = lived(&entries);
        balances(ledger.state())?;
    }

    /// Entries that come late are folded where they belong: the order of arrival does not matter.
    #[test]
    fn arrival_in_another_order_comes_to_the_same(entries in season(), seed in any::<u64>()) {
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

    /// The states kept along the way are a short cut and nothing else.
    #[test]
    fn the_fold_is_the_plain_fold(entries in season()) {
        let (ledger, accepted) = lived(&entries);
        let mut plain = State::new(Zone::UTC);
        for entry in &accepted {
            apply(&mut plain, entry, Mode::Fold);
        }
        prop_assert_eq!(ledger.state(), &plain);
        for entry in accepted.iter().step_by(7) {
            let mut until = State::new(Zone::UTC);
            for before in accepted.iter().filter(|before| before.happened <= entry.happened) {
                apply(&mut until, before, Mode::Fold);
            }
            prop_assert_eq!(ledger.state_at(entry.happened), until);
        }
    }

    /// Taking a message back leaves what would have been without it.
    #[test]
    fn taking_back_is_never_having_said(entries in season(), which in any::<prop::sample::Index>()) {
        let (mut ledger, accepted) = lived(&entries);
        let gone = which.get(&accepted).message.clone();
        ledger.amend(&gone, Vec::new());
        let mut without = Ledger::new(Zone::UTC);
        for entry in accepted.into_iter().filter(|entry| entry.message != gone) {
            without.enter(vec![entry]);
        }
        prop_assert_eq!(ledger.state(), without.state());
        balances(ledger.state())?;
    }

    /// Amending twice with the same is amending once.
    #[test]
    fn amending_is_idempotent(entries in season(), which in any::<prop::sample::Index>(), mass in mass()) {
        let (mut ledger, accepted) = lived(&entries);
        let old = which.get(&accepted);
        let now = vec![Entry { statement: Statement::Picked(Picked { mass, ..Picked::default() }), ..old.clone() }];
        ledger.amend(&old.message, now.clone());
        let once = ledger.state().clone();
        ledger.amend(&old.message, now);
        prop_assert_eq!(ledger.state(), &once);
        balances(ledger.state())?;
    }

    /// What is decided on strictly and accepted is folded without being cut.
    #[test]
    fn what_was_accepted_fits(entries in season()) {
        let mut ledger = Ledger::new(Zone::UTC);
        for entry in &entries {
            let mut state = ledger.state_at(entry.happened);
            let tried = Ledger::try_entry(&mut state, entry);
            if tried.refusal.is_none() {
                let (effects, cuts) = ledger.enter(vec![entry.clone()]);
                prop_assert_eq!(effects, vec![tried]);
                prop_assert!(cuts.is_empty());
                prop_assert_eq!(ledger.state(), &state);
            }
        }
    }
}

#[test]
fn more_than_is_there_is_refused_and_nothing_changes() {
    let mut ledger = Ledger::new(Zone::UTC);
    let froze = Froze { mass: Some(lb(14.0)), bags: Some(2), ..Froze::default() };
    ledger.enter(vec![entry("$1", noon(), Statement::Froze(froze))]);
    let thaw = Statement::Thawed(Thawed { bags: Some(3), ..Thawed::default() });
    let mut state = ledger.state_at(noon() + minutes(5));
    let effect = Ledger::try_entry(&mut state, &entry("$2", noon() + minutes(5), thaw));
    assert!(matches!(effect.refusal, Some(Refusal::NotEnough(_))));
    assert_eq!(&state, ledger.state());
}

#[test]
fn a_smaller_past_cuts_what_came_after() {
    let mut ledger = Ledger::new(Zone::UTC);
    let froze =
        |bags| Statement::Froze(Froze { mass: Some(lb(7.0 * f64::from(bags))), bags: Some(bags), ..Froze::default() });
    ledger.enter(vec![entry("$1", noon(), froze(3))]);
    let thaw = Statement::Thawed(Thawed { bags: Some(3), ..Thawed::default() });
    ledger.enter(vec![entry("$2", noon() + minutes(5), thaw)]);
    let (_, cuts) = ledger.amend(&MessageId::new("$1"), vec![entry("$1", noon(), froze(1))]);
    assert_eq!(cuts.len(), 1);
    assert_eq!(ledger.state().all_thawing(), lb(7.0));
    assert_eq!(ledger.state().freezer.bags(Crop::Tomato), []);
}
