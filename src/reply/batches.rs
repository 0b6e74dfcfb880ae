//! How a batch went: what went in, what came out, and what became of every jar.

use super::seals::fates;
use super::{Facts, Reply, Scene, Words};
use crate::batch::Batch;
use crate::ledger::state::Finished;
use crate::statement::Ask;

/// The account of the batch that a question names: an open one as it stands, else the latest that is closed.
pub(super) fn account(scene: Scene<'_>, ask: &Ask) -> Reply {
    let (state, words) = (scene.state, Words::of(&scene.state.settings));
    let name = ask.batch.as_deref().unwrap_or_default();
    let known = state.batches.iter().rev().filter(|batch| batch.is_called(name));
    let open = known.clone().find(|batch| batch.is_open());
    if let Some(batch) = open.or_else(|| known.clone().next()) {
        return of(scene, batch);
    }
    let past = state.history.iter().rev().find(|past| {
        past.name == name
            || past.product.as_str() == name
            || past.number.is_some_and(|number| {
                name.trim_start_matches(['b', 'a', 't', 'c', 'h', ' ', '#']) == number.to_string()
            })
    });
    let Some(past) = past else {
        return Reply { text: format!("I know of no batch '{}'.", words.quote(name)), facts: Facts::default() };
    };
    finished(scene, past)
}

fn of(scene: Scene<'_>, batch: &Batch) -> Reply {
    let words = Words::of(&scene.state.settings);
    let mut facts = Facts::default();
    facts.timing(&batch.timing).jars(batch.jars(), batch.jar).stage(batch, scene.state, scene.now);
    let mut text = format!(
        "'{}' (batch {}, begun {}): {}",
        batch.name,
        batch.number,
        words.moment(batch.began, scene.now),
        words.jars_of(batch.jars(), batch.jar, &batch.product)
    );
    if !batch.raw.is_zero() {
        text.push_str(&format!(" from {} raw", words.mass(batch.raw)));
    }
    text.push('.');
    if batch.is_open() {
        text.push_str(&format!(" {}", super::answers::clock_line(scene, batch)));
    }
    if batch.filled > 0 && !batch.outs.is_empty() {
        text.push_str(&format!(" Jars: {}.", fates(batch)));
    }
    if batch.restarts > 0 {
        text.push_str(&format!(" The clock started again {}.", times(batch.restarts)));
    }
    if batch.siphoned > 0 {
        text.push_str(&format!(" {} lost liquid.", batch.siphoned));
    }
    Reply { text, facts }
}

fn times(count: u32) -> String {
    if count == 1 { "once".to_owned() } else { format!("{count} times") }
}

fn finished(scene: Scene<'_>, past: &Finished) -> Reply {
    let words = Words::of(&scene.state.settings);
    let mut facts = Facts::default();
    facts.jars(past.filled, past.jar);
    let number = past.number.map(|number| format!(" (batch {number})")).unwrap_or_default();
    let raw = if past.raw.is_zero() { String::new() } else { format!(" from {} raw", words.mass(past.raw)) };
    let text = format!(
        "'{}'{number}, closed {}: {}{raw}; {} sealed.",
        past.name,
        words.day_of(past.closed),
        words.jars_of(past.filled, past.jar, &past.product),
        past.fates.sealed()
    );
    Reply { text, facts }
}
