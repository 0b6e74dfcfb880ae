//! Replies to what happens to a batch before its jars are filled: juice poured off, cooking down, acid, another name.

use super::canning::{next, title};
use super::{Facts, Reply, Scene, Words};
use crate::batch::Batch;
use crate::quantity::{Mass, Number, Volume};
use crate::statement::{CookedDown, Drained};

/// Raw weight as far as it is known: what went in, else what is thawed or was said to go in.
fn raw(batch: &Batch) -> Mass {
    if batch.raw.is_zero() { batch.thawed.max(batch.stated.unwrap_or_default()) } else { batch.raw }
}

/// ` (23 % of 48 lb)`, where the whole is known.
fn share(words: Words, part: Mass, whole: Mass) -> String {
    if part.is_zero() || part > whole {
        return String::new();
    }
    format!(" ({:.0} % of {})", 100.0 * part.ratio(whole), words.mass(whole))
}

pub(super) fn drained(scene: Scene<'_>, batch: &Batch, said: &Drained) -> Reply {
    let words = Words::of(&scene.state.settings);
    let amount = match (said.mass, said.volume) {
        (Some(mass), _) => format!("{}{}", words.mass(mass), share(words, batch.drained, raw(batch))),
        (None, Some(volume)) => words.volume(volume),
        (None, None) => "liquid".to_owned(),
    };
    let kept = match said.kept {
        Some(true) => ", kept",
        Some(false) => ", poured away",
        None => "",
    };
    let text = format!("{}: {amount} drained{kept}. {}", title(batch), next(scene, batch, batch.stage(scene.now)));
    let mut facts = Facts::default();
    facts.mass("drained_g", batch.drained);
    Reply { text, facts }
}

/// What is in the pot, against what went in, and how many jars it fills when it was measured by volume.
pub(super) fn cooked_down(scene: Scene<'_>, batch: &Batch, said: &CookedDown) -> Reply {
    let words = Words::of(&scene.state.settings);
    let mut facts = Facts::default();
    let mut text = match (said.mass, said.volume) {
        (Some(mass), _) => {
            facts.mass("cooked_g", mass);
            format!("{}: {} in the pot{}.", title(batch), words.mass(mass), share(words, mass, raw(batch)))
        }
        (None, Some(volume)) => {
            facts.volume("cooked_ml", volume);
            format!("{}: {} in the pot{}.", title(batch), words.volume(volume), fills(words, batch, volume))
        }
        (None, None) => format!("{}: cooked down.", title(batch)),
    };
    text.push_str(&format!(" {}", next(scene, batch, batch.stage(scene.now))));
    Reply { text, facts }
}

fn fills(words: Words, batch: &Batch, volume: Volume) -> String {
    let full = volume.ratio(batch.jar.volume()).floor() as u32;
    let over = volume.less(batch.jar.volume().times(Number::whole(i64::from(full))).unwrap_or_default());
    let over = if over < Volume::TABLESPOON { String::new() } else { format!(" and {} over", words.volume(over)) };
    match full {
        0 => String::new(),
        full => format!(", enough for {}{over}", words.jars(full, batch.jar)),
    }
}

pub(super) fn named(batch: &Batch) -> Reply {
    Reply { text: format!("Batch {} is called {} now.", batch.number, title(batch)), facts: Facts::default() }
}
