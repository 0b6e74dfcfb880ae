//! Replies about the dryer: what to expect of a load, what came out, and powder.

use super::words::plain;
use super::{Facts, Reply, Scene, Words};
use crate::ledger::Effect;
use crate::ledger::state::Drying;
use crate::processes::facts as figures;
use crate::quantity::Mass;
use crate::statement::{Dried, Dry, Powdered};

/// What is dried and is tomatoes, as people call it. Skins are what a batch leaves, and no page says what they come to.
const TOMATOES: [&str; 6] = ["tomatoes", "halves", "slices", "quarters", "cherry tomatoes", "romas"];

pub(super) fn dried(scene: Scene<'_>, said: &Dried) -> Reply {
    let words = Words::of(&scene.state.settings);
    let what = said.what.as_deref().unwrap_or("tomatoes");
    let mut amount = Vec::new();
    amount.extend(said.trays.map(trays));
    amount.extend(said.mass.map(|mass| words.mass(mass)));
    let mut facts = Facts::default();
    facts.set("label", what);
    let mut text = if amount.is_empty() {
        format!("In the dryer: {what}.")
    } else {
        format!("In the dryer: {} of {what}.", amount.join(", "))
    };
    if let (true, Some(mass)) = (TOMATOES.contains(&what), said.mass)
        && let Some((dry, ratio, source)) = figures::expected_dry_tomatoes(mass)
    {
        facts.mass("expected_dry_g", dry).set("source", source);
        text.push_str(&format!(" Expect about {} dry: {} to 1 ({source}).", words.mass(dry), plain(ratio, 1)));
    }
    if let (true, Some((low, high, source))) = (what == "slices", figures::drying_hours()) {
        text.push_str(&format!(" Half-inch slices take {} to {} hours ({source}).", plain(low, 0), plain(high, 0)));
    }
    let (until, source) = figures::dry_until();
    text.push_str(&format!(
        " Done when {until} ({source}); then say 'got 6 oz of dried {what}', or 'got 4 oz of powder'."
    ));
    Reply { text, facts }
}

fn trays(trays: u32) -> String {
    if trays == 1 { "1 tray".to_owned() } else { format!("{trays} trays") }
}

/// Dry weight, and what it came to of the fresh.
pub(super) fn dry(scene: Scene<'_>, said: &Dry, effect: &Effect) -> Reply {
    let words = Words::of(&scene.state.settings);
    let mut facts = Facts::default();
    let what = said.what.as_deref().or(effect.dried.as_ref().map(|drying| drying.what.as_str())).unwrap_or("tomatoes");
    facts.set("label", what).mass("dry_g", effect.moved);
    let took = effect.dried.as_ref().map(|drying| words.stretch(scene.now - drying.since));
    let took = took.map(|took| format!(" after {took}")).unwrap_or_default();
    let mut text = if effect.moved.is_zero() {
        format!(
            "Out of the dryer{took}: {what}. Weigh them, and say 'got 6 oz of dried {what}', and I'll keep the weight."
        )
    } else {
        format!("Out of the dryer{took}: {} of dried {what}.", words.mass(effect.moved))
    };
    text.push_str(&came_to(words, effect, &mut facts));
    if !effect.moved.is_zero() {
        text.push_str(&format!(" {} in store.", words.mass(in_store(scene))));
    }
    Reply { text, facts }
}

/// What the fresh weight came to, and what was to be expected.
fn came_to(words: Words, effect: &Effect, facts: &mut Facts) -> String {
    let fresh = |drying: &Drying| (!drying.mass.is_zero()).then_some(drying.mass);
    let Some(fresh) = effect.dried.as_ref().and_then(fresh).filter(|_| !effect.moved.is_zero()) else {
        return String::new();
    };
    let ratio = fresh.ratio(effect.moved);
    facts.mass("fresh_g", fresh).set("fresh_to_dry", super::round(ratio));
    let mut text = format!(" From {} fresh: {} to 1", words.mass(fresh), plain(ratio, 1));
    let tomatoes = effect.dried.as_ref().is_some_and(|drying| TOMATOES.contains(&drying.what.as_str()));
    if let (true, Some((expected, ..))) = (tomatoes, figures::expected_dry_tomatoes(fresh)) {
        text.push_str(&format!(", {} was to be expected", words.mass(expected)));
    }
    text.push('.');
    text
}

fn in_store(scene: Scene<'_>) -> Mass {
    scene.state.dried.values().copied().sum()
}

pub(super) fn powdered(scene: Scene<'_>, said: &Powdered, effect: &Effect) -> Reply {
    let words = Words::of(&scene.state.settings);
    let of = said.what.as_ref().or(effect.what.as_ref());
    let of = of.map(|what| format!(" from {what}")).unwrap_or_default();
    let mut facts = Facts::default();
    let came_to = came_to(words, effect, &mut facts);
    let text =
        format!("{} of powder{of}; {} in store.{came_to}", words.mass(effect.moved), words.mass(in_store(scene)));
    Reply { text, facts }
}
