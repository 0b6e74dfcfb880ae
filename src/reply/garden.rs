//! Replies to what came in from the garden, went into the freezer and came out of it.

use super::words::plural;
use super::{Facts, Reply, Scene, Words};
use crate::ledger::Effect;
use crate::ledger::state::Bag;
use crate::phrase::crop_said;
use crate::planning::{LoadState, load_state, target};
use crate::statement::{Froze, Picked, Taken, Thawed};
use crate::vocabulary::{Crop, Stock};

pub(super) fn picked(scene: Scene<'_>, said: &Picked, own: &str) -> Reply {
    let (state, words) = (scene.state, Words::of(&scene.state.settings));
    let crop = said.crop.unwrap_or(Crop::Tomato);
    let mass = said.mass.unwrap_or_default();
    let what = match (&said.variety, crop) {
        (Some(variety), crop) => format!(" of {variety} {}", own_word(own, crop, Some(variety))),
        (None, Crop::Tomato) => String::new(),
        (None, crop) => format!(" of {}", own_word(own, crop, None)),
    };
    let place = said
        .place
        .as_ref()
        .map(|place| {
            // "from the tunnel", but "from bed 3".
            let the = if place.ends_with(|c: char| c.is_ascii_digit()) { "" } else { "the " };
            format!(" from {the}{place}")
        })
        .unwrap_or_default();
    let picked = state.totals(scene.now).picked;
    let text = format!(
        "Picked {}{what}{place}. Counter {}{}; {} picked this year.",
        words.mass(mass),
        words.mass(state.on_counter(crop)),
        of_crop(crop, own),
        words.mass(picked)
    );
    let mut facts = Facts::default();
    facts.counter(state, crop).mass("picked_g", picked);
    let red = super::ahead::red_of(scene, said);
    facts.merge(red.facts);
    Reply { text: text + red.text.as_str() + super::safety::of_harvest(crop, own).as_str(), facts }
}

/// ` of peppers`, in the speaker's own word (`courgettes`), and nothing for tomatoes.
fn of_crop(crop: Crop, own: &str) -> String {
    if crop == Crop::Tomato { String::new() } else { format!(" of {}", own_word(own, crop, None)) }
}

/// The word for a crop in the message `own`; the usual plural where it has none but the variety's.
fn own_word(own: &str, crop: Crop, variety: Option<&str>) -> String {
    crop_said(own, crop)
        .map(str::to_lowercase)
        .filter(|word| word != crop.as_str() && variety.is_none_or(|variety| !word.starts_with(variety)))
        .unwrap_or_else(|| plural(crop).to_string())
}

pub(super) fn froze(scene: Scene<'_>, said: &Froze, effect: &Effect, own: &str) -> Reply {
    let (state, words) = (scene.state, Words::of(&scene.state.settings));
    let crop = said.crop.unwrap_or(Crop::Tomato);
    let count = effect.bags.len() as u32;
    let usual = if effect.usual_bag {
        format!(", taken as {} each", words.mass(state.settings.usual_bag()))
    } else {
        String::new()
    };
    let mut text = format!(
        "Froze {}{} ({}{usual}). Freezer {}.",
        words.mass(effect.moved),
        of_crop(crop, own),
        words.bags(count),
        freezer_holds(scene, crop),
    );
    let mut facts = Facts::default();
    facts.freezer(state, crop).counter(state, crop);
    if let Some(load) = target(state, None, None).map(|target| load_state(state, target))
        && load.target.crop == crop
    {
        text.push(' ');
        // Which bags to thaw is said with the alert, or when asked.
        if load.is_ready() {
            text.push_str(&format!("That is a full load of {}.", words.product(&load.target.product)));
        } else {
            text.push_str(&closeness(scene, &load));
        }
        facts.load(&load);
    }
    Reply { text, facts }
}

/// What the freezer holds of a crop: `48 lb in 7 bags`, or `empty`.
pub(super) fn freezer_holds(scene: Scene<'_>, crop: Crop) -> String {
    let words = Words::of(&scene.state.settings);
    match scene.state.freezer.bags(crop).len() {
        0 => "empty".to_owned(),
        bags => format!("{} in {}", words.mass(scene.state.freezer.mass(crop)), words.bags(bags as u32)),
    }
}

/// How close the freezer is to a load, in a sentence.
pub(super) fn closeness(scene: Scene<'_>, load: &LoadState) -> String {
    let words = Words::of(&scene.state.settings);
    let product = words.product(&load.target.product);
    if load.is_ready() {
        return format!(
            "That is a full load of {product} ({} for {}): thaw {} = {}.",
            words.mass(load.target.mass),
            words.jars(load.target.jars, load.target.jar),
            bag_list(scene, &load.chosen),
            words.mass(load.chosen_mass()),
        );
    }
    format!(
        "{} to go for a load of {product} ({}), about {}.",
        words.mass(load.short),
        words.mass(load.target.mass),
        words.bags(load.bags_to_go)
    )
}

/// `7 bags (1 × 7 lb, 6 × 6.5 lb; the oldest of Fri Aug 14)`.
pub(super) fn bag_list(scene: Scene<'_>, bags: &[Bag]) -> String {
    let words = Words::of(&scene.state.settings);
    let count = words.bags(bags.len() as u32);
    let Some(first) = bags.first() else { return count };
    // Bags that read alike are listed together: a counted freezer's differ by less than a scale shows.
    let mut weights: Vec<(String, u32)> = Vec::new();
    for weight in bags.iter().map(|bag| words.mass(bag.mass)) {
        match weights.iter_mut().find(|(known, _)| *known == weight) {
            Some((_, count)) => *count += 1,
            None => weights.push((weight, 1)),
        }
    }
    let weights: Vec<_> = match weights.as_slice() {
        [(weight, 1)] => vec![weight.clone()],
        several => several.iter().map(|(weight, count)| format!("{count} \u{d7} {weight}")).collect(),
    };
    format!(
        "{count} ({}; the oldest of {})",
        weights.join(", "),
        words.day_from(first.on, scene.state.settings.zone.day(scene.now))
    )
}

pub(super) fn thawed(scene: Scene<'_>, said: &Thawed, effect: &Effect, own: &str) -> Reply {
    let (state, words) = (scene.state, Words::of(&scene.state.settings));
    let crop = said.crop.unwrap_or(Crop::Tomato);
    let batch = effect.batch.and_then(|number| state.batches.iter().find(|batch| batch.number == number));
    let whose = batch.map(|batch| format!(" for '{}'", batch.name)).unwrap_or_default();
    let text = format!(
        "Thawing {}{}{whose}: {}. {} thawing in all. Freezer {}.",
        words.mass(effect.moved),
        of_crop(crop, own),
        bag_list(scene, &effect.bags),
        words.mass(state.all_thawing()),
        freezer_holds(scene, crop),
    );
    let mut text = text + super::reminders::thaws_late(scene, crop).unwrap_or_default().as_str();
    if crate::phrase::thaws_on_counter(own) {
        text.insert_str(0, &format!("{}\n", super::safety::not_on_the_counter(scene)));
    }
    let mut facts = Facts::default();
    facts.freezer(state, crop).mass("thawing_g", state.all_thawing());
    facts.bags("bags_chosen", &effect.bags).mass("chosen_g", effect.moved);
    Reply { text, facts }
}

pub(super) fn taken(scene: Scene<'_>, said: &Taken, effect: &Effect, verb: &str, own: &str) -> Reply {
    let (state, words) = (scene.state, Words::of(&scene.state.settings));
    let crop = said.crop.unwrap_or(Crop::Tomato);
    let mut facts = Facts::default();
    if said.jars.is_some() {
        let mut reply = super::kitchen::off_the_shelf(scene, effect, verb);
        reply.facts.pantry(state);
        reply.text.push_str(&super::safety::thrown_away(effect, own));
        return reply;
    }
    let from_freezer = said.from == Some(Stock::Freezer) || said.bags.is_some() && said.from != Some(Stock::Thawing);
    facts.counter(state, crop);
    let left = if said.from == Some(Stock::Thawing) {
        facts.mass("thawing_g", state.all_thawing());
        format!("{} still thawing.", words.mass(state.all_thawing()))
    } else if from_freezer {
        facts.freezer(state, crop);
        format!("Freezer {}.", freezer_holds(scene, crop))
    } else {
        format!("Counter {}.", words.mass(state.on_counter(crop)))
    };
    let bags = if said.bags.is_some() && from_freezer {
        format!(" ({})", words.bags(effect.bags.len() as u32))
    } else {
        String::new()
    };
    let text = format!("{verb} {}{}{bags}. {left}", words.mass(effect.moved), of_crop(crop, own));
    Reply { text, facts }
}
