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
