//! What there is: freezer, counter, pantry, refrigerator, supplies, the season's sums.

use super::garden::{closeness, freezer_holds};
use super::words::plural;
use super::{Facts, Reply, Scene, Words};
use crate::ledger::state::Lot;
use crate::planning::{load_state, target};
use crate::quantity::Mass;
use crate::statement::Counted;
use crate::vocabulary::{Crop, Jar, Product, Stock};
use chrono::Datelike;

pub(super) fn counted(scene: Scene<'_>, said: &Counted) -> Reply {
    if let Some(supply) = said.supply {
        let (words, mut facts) = (Words::of(&scene.state.settings), Facts::default());
        let there =
            scene.state.supplies.iter().find(|(key, _)| key.0 == supply && (said.jar.is_none() || key.1 == said.jar));
        let left = there.map_or_else(String::new, |(key, left)| {
            super::kitchen::supply_facts(&mut facts, key, left);
            words.stocked(key, left)
        });
        return Reply { text: format!("Set right. {left} in the house."), facts };
    }
    let place = said.from.unwrap_or(match (said.jars, said.bags) {
        (Some(_), _) => Stock::Pantry,
        (None, Some(_)) => Stock::Freezer,
        (None, None) => Stock::Counter,
    });
    let mut reply = match place {
        Stock::Counter => counter(scene, said.crop),
        Stock::Freezer if said.jars.is_some() => shelf(scene, place),
        Stock::Freezer => freezer(scene, said.crop),
        Stock::Thawing => super::thawing::thawing(scene, said.crop),
        Stock::Pantry | Stock::Fridge => shelf(scene, place),
    };
    reply.text.insert_str(0, "Set right. ");
    reply
}

pub(super) fn freezer(scene: Scene<'_>, crop: Option<Crop>) -> Reply {
    let (state, words) = (scene.state, Words::of(&scene.state.settings));
    let main = crop.unwrap_or(Crop::Tomato);
    let today = state.settings.zone.day(scene.now);
    let mut facts = Facts::default();
    facts.freezer(state, main).mass("thawing_g", state.all_thawing());
    let mut lines: Vec<String> = Vec::new();
    for (crop, bags) in state.freezer.crops().filter(|(known, _)| crop.is_none_or(|crop| crop == *known)) {
        let total: Mass = bags.iter().map(|bag| bag.mass).sum();
        let oldest = bags.first().map(|bag| words.day_from(bag.on, today)).unwrap_or_default();
        lines.push(format!(
            "{} of {} in {}, the oldest of {oldest}.",
            words.mass(total),
            plural(crop),
            words.bags(bags.len() as u32)
        ));
    }
    let mut text = match (lines.is_empty(), state.freezer_jars.lots().is_empty()) {
        (true, true) => "The freezer is empty.".to_owned(),
        (true, false) => "No bags in the freezer.".to_owned(),
        (false, _) => format!("Freezer: {}", lines.join(" ")),
    };
    if state.freezer_jars.jars(None, None) > 0 {
        let jars = shelf(scene, Stock::Freezer);
        text.push_str(&format!("\n{}", jars.text));
        facts.merge(jars.facts);
    }
    if !state.all_thawing().is_zero() {
        text.push_str(&format!(" {} thawing.", words.mass(state.all_thawing())));
    }
    text.push_str(&super::ahead::oldest_bags(scene, crop));
    if let Some(load) = target(state, None, None).map(|target| load_state(state, target))
        && load.target.crop == main
    {
        text.push('\n');
        text.push_str(&closeness(scene, &load));
        facts.load(&load);
    }
    Reply { text, facts }
}

pub(super) fn counter(scene: Scene<'_>, crop: Option<Crop>) -> Reply {
    let (state, words) = (scene.state, Words::of(&scene.state.settings));
    let mut facts = Facts::default();
    facts.counter(state, crop.unwrap_or(Crop::Tomato));
    let lines: Vec<_> = state
        .counter
        .sums()
        .filter(|(known, _)| crop.is_none_or(|crop| crop == *known))
        .map(|(crop, mass)| format!("{} of {}", words.mass(mass), plural(crop)))
        .collect();
    let mut text =
        if lines.is_empty() { "Nothing on the counter.".to_owned() } else { format!("Counter: {}.", lines.join(", ")) };
    let by_day = super::ahead::by_day(scene, crop);
    text.push_str(&by_day.text);
    facts.merge(by_day.facts);
    Reply { text, facts }
}

/// The jars of the pantry or of the refrigerator.
pub(super) fn shelf(scene: Scene<'_>, place: Stock) -> Reply {
    shelf_of(scene, place, None)
}

pub(super) fn shelf_of(scene: Scene<'_>, place: Stock, product: Option<&Product>) -> Reply {
    let (state, words) = (scene.state, Words::of(&scene.state.settings));
    let mut facts = Facts::default();
    let (shelf, name, fact) = match place {
        Stock::Fridge => (&state.fridge, "Refrigerator", "fridge_jars"),
        Stock::Freezer => (&state.freezer_jars, "In the freezer", "freezer_jars"),
        _ => (&state.pantry, "Pantry", "pantry_jars"),
    };
    let meant = |known: &Product| product.is_none_or(|name| crate::ledger::names(name, known));
    let sums: Vec<_> = shelf.sums().into_iter().filter(|(known, _, _)| meant(known)).collect();
    facts.set(fact, sums.iter().map(|(_, _, jars)| jars).sum::<u32>());
    let line = |(product, jar, jars): &(Product, Jar, u32)| {
        let lots: Vec<&Lot> = shelf.lots().iter().filter(|lot| lot.is(Some(product), Some(*jar))).collect();
        format!("{}{}", words.jars_of(*jars, *jar, product), lots_of(words, place, &lots))
    };
    let lines: Vec<_> = sums.iter().map(line).collect();
    let text = match (lines.is_empty(), product) {
        (true, None) => format!("{name}: no jars."),
        (true, Some(product)) => format!("{name}: no {}.", words.product(product)),
        (false, _) => format!("{name}: {}.", lines.join(", ")),
    };
    let more = if place == Stock::Pantry { super::ahead::oldest_jars(scene, product) } else { String::new() };
    Reply { text: text + more.as_str(), facts }
}

/// ` (batch 3, Aug 15, best by Aug 2027)`: where jars are from and until when they are at their best, oldest first; how
/// many of each where they are of several days.
fn lots_of(words: Words, place: Stock, lots: &[&Lot]) -> String {
    let best = |lot: &Lot| match place {
        Stock::Pantry => match lot.best_by() {
            Some(best) => format!(", best by {}", words.month(best)),
            None => ", untested".to_owned(),
        },
        Stock::Fridge | Stock::Freezer | Stock::Counter | Stock::Thawing => String::new(),
    };
    let one = |lot: &Lot| {
        let batch = lot.batch.map(|number| format!("batch {number}, ")).unwrap_or_default();
        format!("{batch}{}{}", words.date(lot.on), best(lot))
    };
    match lots {
        [] => String::new(),
        [only] => format!(" ({})", one(only)),
        // What fits a phone: the oldest three, which are to be used first.
        several => {
            let mut parts: Vec<_> = several.iter().take(3).map(|lot| format!("{} of {}", lot.jars, one(lot))).collect();
            if several.len() > 3 {
                parts.push("newer ones".to_owned());
            }
            format!(" ({})", parts.join("; "))
        }
    }
}

pub(super) fn supplies(scene: Scene<'_>) -> Reply {
    let words = Words::of(&scene.state.settings);
    let mut facts = Facts::default();
    let lines: Vec<_> = scene.state.supplies.iter().map(|(key, left)| words.stocked(key, left)).collect();
    if let Some((key, left)) = scene.state.supplies.iter().next() {
        super::kitchen::supply_facts(&mut facts, key, left);
    }
    let text = if lines.is_empty() {
        "I know of no supplies yet; say 'bought 24 lids'.".to_owned()
    } else {
        format!("Supplies: {}.", lines.join(", "))
    };
    Reply { text, facts }
}

pub(super) fn totals(scene: Scene<'_>) -> Reply {
    let (state, words) = (scene.state, Words::of(&scene.state.settings));
    let totals = state.totals(scene.now);
    let text = format!(
        "This year: picked {}, frozen {}, used fresh {}, eaten {}, given {}, thrown away {}; {} put up.",
        words.mass(totals.picked),
        words.mass(totals.frozen),
        words.mass(totals.used_fresh),
        words.mass(totals.eaten),
        words.mass(totals.given),
        words.mass(totals.tossed),
        if totals.jars_put_up == 1 { "1 jar".to_owned() } else { format!("{} jars", totals.jars_put_up) },
    );
    let mut facts = Facts::default();
    facts.mass("picked_g", totals.picked).set("jars", totals.jars_put_up);
    Reply { text: text + jars_gone(scene).as_str(), facts }
}

/// What became of jars this year: how many were used, given away, thrown away; nothing while none was.
fn jars_gone(scene: Scene<'_>) -> String {
    let year = scene.state.settings.zone.day(scene.now).year();
    let flows = || scene.state.diary.flows().filter(|(month, ..)| month.year() == year).map(|(.., flow)| flow);
    let sums = [
        (flows().map(|flow| flow.used).sum::<u32>(), "used"),
        (flows().map(|flow| flow.given).sum(), "given away"),
        (flows().map(|flow| flow.tossed).sum(), "thrown away"),
    ];
    let gone: Vec<String> =
        sums.iter().filter(|(count, _)| *count > 0).map(|(count, how)| format!("{count} {how}")).collect();
    if gone.is_empty() { String::new() } else { format!(" Jars from the shelf: {}.", gone.join(", ")) }
}

/// The main sums, for when something was taken back.
pub fn standing(scene: Scene<'_>) -> Facts {
    let mut facts = Facts::default();
    facts.counter(scene.state, Crop::Tomato).freezer(scene.state, Crop::Tomato).pantry(scene.state);
    facts
}

/// An entry was taken back, and this is what stands.
pub fn undone(scene: Scene<'_>, words_said: &str) -> Reply {
    let (state, words) = (scene.state, Words::of(&scene.state.settings));
    let text = format!(
        "Taken back: '{}'. Counter {}, freezer {}.",
        words.quote(words_said),
        words.mass(state.on_counter(Crop::Tomato)),
        freezer_holds(scene, Crop::Tomato)
    );
    Reply { text, facts: standing(scene) }
}

/// One answer for many messages that came in while the assistant was away.
pub fn summary(scene: Scene<'_>, count: usize) -> Reply {
    let mut reply = freezer(scene, None);
    let (state, words) = (scene.state, Words::of(&scene.state.settings));
    let totals = state.totals(scene.now);
    reply.text = format!(
        "I was away and have now read everything: {count} messages taken in. \
         Counter {}, {} picked this year, {} jars in the pantry.\n{}",
        words.mass(state.on_counter(Crop::Tomato)),
        words.mass(totals.picked),
        state.pantry.jars(None, None),
        reply.text
    );
    reply.facts.counter(state, Crop::Tomato).mass("picked_g", totals.picked).pantry(state);
    reply
}
