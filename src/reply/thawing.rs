//! Fruit that is out of the freezer and in no jar yet.

use super::words::plural;
use super::{Facts, Reply, Scene, Words};
use crate::ledger::Effect;
use crate::statement::Froze;
use crate::vocabulary::Crop;

/// What is thawing, since when, and what is to be done with it.
pub(super) fn thawing(scene: Scene<'_>, crop: Option<Crop>) -> Reply {
    let (state, words) = (scene.state, Words::of(&scene.state.settings));
    let mut facts = Facts::default();
    facts.mass("thawing_g", state.all_thawing());
    let mut lines: Vec<String> = Vec::new();
    for (of, mass) in state.thawing.iter().filter(|(of, _)| crop.is_none_or(|crop| crop == **of)) {
        let since = state.thawing_since.get(of).map(|(since, _)| *since);
        let since = since.map(|since| {
            let days = (state.settings.zone.day(scene.now) - state.settings.zone.day(since)).num_days();
            facts.set("days", days);
            let age = match days {
                0 => "today".to_owned(),
                1 => "yesterday".to_owned(),
                days => format!("{}, {days} days ago", words.day(state.settings.zone.day(since))),
            };
            format!(", out of the freezer since {age}")
        });
        lines.push(format!("Thawing: {} of {}{}.", words.mass(*mass), plural(*of), since.unwrap_or_default()));
    }
    for batch in state.open_batches().filter(|batch| !batch.thawed.is_zero()) {
        lines.push(format!("Thawing for '{}': {}.", batch.name, words.mass(batch.thawed)));
    }
    if lines.is_empty() {
        return Reply { text: "Nothing is thawing.".to_owned(), facts };
    }
    let source = super::safety::source("thawed_produce_use");
    lines.push(format!("Cook or eat it as soon as it has thawed ({source})."));
    Reply { text: lines.join("\n"), facts }
}

/// Thawed fruit went back into the freezer.
pub(super) fn frozen_again(scene: Scene<'_>, said: &Froze, effect: &Effect) -> Reply {
    let (state, words) = (scene.state, Words::of(&scene.state.settings));
    let crop = said.crop.unwrap_or(Crop::Tomato);
    let mut facts = Facts::default();
    facts.freezer(state, crop).mass("thawing_g", state.all_thawing());
    let text = format!(
        "Back in the freezer: {} ({}). Freezer {}; {} still thawing.\n{} ({})",
        words.mass(effect.moved),
        words.bags(effect.bags.len() as u32),
        super::garden::freezer_holds(scene, crop),
        words.mass(state.all_thawing()),
        super::safety::refreezing_rule(),
        super::safety::source("refreeze_if"),
    );
    Reply { text, facts }
}
