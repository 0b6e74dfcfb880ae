//! Every product of the tables is reached by asking for it as it is called, in every jar and canner that it is printed
//! for.

use super::feet;
use rackful::ledger::Ledger;
use rackful::ledger::Refusal;
use rackful::ledger::state::State;
use rackful::phrase::{Context, Lexicon, read};
use rackful::processes::{Refusal as Untimed, products};
use rackful::reply::{Scene, answer};
use rackful::statement::Statement;
use rackful::vocabulary::{CannerKind, Subject};
use rackful::zone::Zone;

#[test]
fn every_product_answers_to_its_name_without_a_batch() {
    let mut state = State::new(Zone::UTC);
    state.settings.altitude = Some(feet(500.0));
    let ledger = Ledger::from_state(state.clone());
    let scene = Scene { state: &state, now: crate::support::noon() };
    let lexicon = Lexicon::default();
    let context = Context { now: scene.now, zone: Zone::UTC, lexicon: &lexicon, last: None };
    let (mut answered, mut faults) = (0, Vec::new());
    for info in products() {
        let canners = if info.canners().is_empty() { vec![CannerKind::BoilingWater] } else { info.canners() };
        for canner in canners {
            let jars: Vec<_> = if info.jars().is_empty() { vec![rackful::vocabulary::Jar::Pint] } else { info.jars() };
            for jar in jars {
                let asked = format!("process for {} in {} in the {}?", info.spoken, jar.spoken(2), canner.spoken());
                let reading = read(&asked, &context);
                let [Statement::Ask(ask)] = reading.statements.as_slice() else {
                    faults.push(format!("{asked}: {:?}", reading.statements));
                    continue;
                };
                let meant = ask.product.as_ref().is_some_and(|product| product.as_str() == info.id);
                if ask.about != Subject::Process || !meant || ask.jar != Some(jar) || ask.canner != Some(canner) {
                    faults.push(format!("{asked}: {ask:?}"));
                    continue;
                }
                match answer(scene, &ledger, ask) {
                    Ok(_) => answered += 1,
                    // From memory, or printed for one canner in this jar and not for the other; or two packs.
                    Err(Refusal::Process {
                        why: Untimed::Unverified { .. } | Untimed::NotTested(_) | Untimed::WhichPack { .. },
                        ..
                    }) => {}
                    Err(other) => faults.push(format!("{asked}: {other:?}")),
                }
            }
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
    assert!(answered > 150, "{answered}");
}

/// As the table prints it, commas and brackets too, in a start and in a question; and every product is asked about or
/// named, never taken for another.
#[test]
fn every_product_is_found_by_the_name_that_the_table_prints() {
    let lexicon = Lexicon::default();
    let context = Context { now: crate::support::noon(), zone: Zone::UTC, lexicon: &lexicon, last: None };
    let mut faults = Vec::new();
    for info in products() {
        for text in [
            format!("starting {} in pints", info.name),
            format!("starting {} in pints", info.name.to_lowercase()),
            format!("process for {} in quarts, weighted gauge?", info.name),
            format!("how long for {} in pints", info.spoken),
        ] {
            let reading = read(&text, &context);
            let named = match reading.statements.as_slice() {
                [Statement::Ask(ask)] => ask.product.as_ref(),
                [Statement::Began(began)] => began.product.as_ref(),
                _ => None,
            };
            if named.is_none_or(|named| named.as_str() != info.id) {
                faults.push(format!("{text}: {:?}", reading.statements));
            }
        }
    }
    assert_eq!(products().len(), 133);
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}
