//! Looking ahead in words: fruit that ripens, stock to use first.

use super::capitalised;
use super::words::plural;
use super::{Facts, Reply, Scene, Words};
use crate::ledger::state::{Bag, Lot};
use crate::planning::canning_day::within_reach;
use crate::planning::ripening::{Picking, Red, RedDays, ripening};
use crate::planning::shelf::{UseFirst, bag_keeps_until, old_bags};
use crate::planning::{LoadState, load_state, target};
use crate::processes::facts::{BEST_WITHIN_MONTHS, FROZEN_BEST_MONTHS_HIGH, FROZEN_BEST_MONTHS_LOW};
use crate::processes::ripening::{NoRed, best_range, days_to_red, no_red_above, red_keeps, table_ends};
use crate::quantity::{Mass, Temperature};
use crate::statement::Picked;
use crate::vocabulary::{Crop, Product, Ripeness};
use chrono::NaiveDate;
use serde_json::{Value, json};

/// `6 lb of pink san marzano tomatoes, picked Fri Aug 14`.
pub(super) fn picking_said(words: Words, picking: &Picking) -> String {
    let class = picking.class.map(|class| format!("{} ", spoken(class))).unwrap_or_default();
    let kind = match picking.varieties.as_slice() {
        [only] if !picking.is_mixed => format!("{only} "),
        _ => String::new(),
    };
    let (mass, crop, day) = (words.mass(picking.mass), plural(picking.crop), words.day(picking.on));
    format!("{mass} of {class}{kind}{crop}, picked {day}")
}

const fn spoken(class: Ripeness) -> &'static str {
    match class {
        Ripeness::Green => "green",
        Ripeness::Breakers => "breaker",
        Ripeness::Turning => "turning",
        Ripeness::Pink => "pink",
        Ripeness::LightRed => "light red",
        Ripeness::Red => "red",
    }
}

/// Where an estimate comes from and for which room: `estimate for 68 °F, the University of California table, from
/// memory`.
fn basis_of(scene: Scene<'_>, red: &RedDays) -> String {
    let words = Words::of(&scene.state.settings);
    let room = scene.state.settings.room.or_else(|| Temperature::from_celsius(20.0));
    let room = room.map(|room| words.temperature(room)).unwrap_or_default();
    let memory = if red.ripening.is_confirmed { "" } else { ", from memory" };
    let clamped = match table_ends().filter(|_| red.ripening.is_clamped) {
        Some((_, warmest)) => format!("; the table ends at {}", words.temperature(warmest)),
        None => String::new(),
    };
    format!("estimate for {room}; University of California table{memory}{clamped}")
}

/// Why a picking has no day, in the room's units.
fn no_day(words: Words, why: NoRed) -> String {
    let said =
        |temperature: Option<Temperature>| temperature.map_or_else(String::new, |it| words.temperature_exact(it));
    let best = best_range().map_or_else(String::new, |(low, high)| {
        format!("; {} to {} is best", words.temperature(low), words.temperature(high))
    });
    match why {
        NoRed::TooCold => {
            let begins = said(table_ends().map(|(coldest, _)| coldest));
            format!("too cold to ripen by the table, which begins at {begins}{best}")
        }
        NoRed::TooWarm => format!("too warm: above {} no red forms{best}", said(no_red_above())),
    }
}

/// A room's temperature was told.
pub(super) fn room_set(words: Words, room: Temperature) -> String {
    let told = words.temperature(room);
    match days_to_red(Ripeness::Green, Some(room)) {
        Ok(_) => format!("The fruit ripens at {told}."),
        Err(why) => format!("The room has {told}, {}.", no_day(words, why)),
    }
}

/// Pickings that are red by the same day, with their sum where they are several.
fn pickings_said(words: Words, pickings: &[Picking]) -> String {
    let all: Vec<String> = pickings.iter().map(|picking| picking_said(words, picking)).collect();
    let sum = pickings.iter().map(|picking| picking.mass).sum();
    if all.len() > 1 { format!("{} ({})", words.mass(sum), all.join("; ")) } else { all.concat() }
}

/// The facts of pickings: their sum, and the days of the first.
fn pickings_facts(pickings: &[Picking], label: &str) -> Facts {
    let mut facts = Facts::default();
    facts.mass("picking_g", pickings.iter().map(|picking| picking.mass).sum()).set("label", label);
    let Some(first) = pickings.first() else { return facts };
    facts.set("picked_on", first.on.to_string());
    if let Some(red) = first.red_days() {
        facts.set("red_from", red.soonest.to_string()).set("red_by", red.by.to_string());
        facts.set("source", red.ripening.source);
    }
    facts
}

/// Pickings are red tomorrow: what can be done with them.
pub(super) fn ripe(scene: Scene<'_>, pickings: &[Picking]) -> Reply {
    let words = Words::of(&scene.state.settings);
    let mut facts = pickings_facts(pickings, "ripe");
    let Some((first, red)) = pickings.first().and_then(|first| Some((first, first.red_days()?))) else {
        return Reply::default();
    };
    facts.counter(scene.state, first.crop);
    let mut text = format!(
        "{} should be red by {} ({}). Eat it or freeze it",
        pickings_said(words, pickings),
        words.day(red.by),
        basis_of(scene, &red)
    );
    let mass = pickings.iter().map(|picking| picking.mass).sum();
    match load_with(scene, first.crop, mass) {
        Some((load, there)) => {
            let product = words.product(&load.target.product);
            if there >= load.target.mass {
                text.push_str(&format!("; frozen, it completes the load of {product}."));
            } else {
                let (there, all) = (words.mass(there), words.mass(load.target.mass));
                text.push_str(&format!("; frozen, it brings the load of {product} to {there} of {all}."));
            }
            facts.mass("freezer_g", load.freezer).mass("target_g", load.target.mass).mass("short_g", load.short);
        }
        None => text.push('.'),
    }
    text.push_str(&wanted_for_a_day(scene, first.crop, red.by));
    Reply { text, facts }
}

/// What of the ripe fruit a day that is set takes from the counter, the first such day from then on.
fn wanted_for_a_day(scene: Scene<'_>, crop: Crop, from: NaiveDate) -> String {
    let words = Words::of(&scene.state.settings);
    let days = scene.state.planned.iter().filter(|day| day.day >= from);
    let takes = days.filter_map(|day| Some((day, within_reach(scene.state, day)?)));
    let mut takes = takes.filter(|(_, plan)| plan.target.crop == crop && !plan.fresh.is_zero());
    takes.next().map_or_else(String::new, |(day, plan)| {
        let (fresh, product) = (words.mass(plan.fresh), words.product(&day.product));
        format!(" {} on {} takes {fresh} of ripe fruit from the counter.", capitalised(&product), words.day(day.day))
    })
}

/// The usual load and what the freezer would hold with so much more, where it counts towards one that is not there yet.
fn load_with(scene: Scene<'_>, crop: Crop, more: Mass) -> Option<(LoadState, Mass)> {
    let load = load_state(scene.state, target(scene.state, None, None)?);
    let counts = load.target.crop == crop && !load.is_ready();
    let there = load.freezer + more;
    counts.then_some((load, there))
}

/// Pickings are past their best and still there.
pub(super) fn past_ripe(scene: Scene<'_>, pickings: &[Picking]) -> Reply {
    let words = Words::of(&scene.state.settings);
    let Some((first, red)) = pickings.first().and_then(|first| Some((first, first.red_days()?))) else {
        return Reply::default();
    };
    let (since, (low, high)) = (words.day(red.by), red_keeps());
    let mass = words.mass(pickings.iter().map(|picking| picking.mass).sum());
    let were_red = pickings.iter().all(|picking| picking.class == Some(Ripeness::Red));
    let red_since =
        if were_red { "was red when picked".to_owned() } else { format!("should have been red since {since}") };
    let text = format!(
        "{} {red_since}, and red fruit keeps {low} to {high} days (NC State Extension). Is it still there? Say \
         'froze {mass}', 'ate {mass}' or 'tossed {mass}'.",
        pickings_said(words, pickings)
    );
    let mut facts = pickings_facts(pickings, "past-ripe");
    facts.counter(scene.state, first.crop);
    Reply { text, facts }
}

/// Stock that is at its best for two more weeks.
pub(super) fn use_first(scene: Scene<'_>, group: &UseFirst) -> Reply {
    let words = Words::of(&scene.state.settings);
    let mut facts = Facts::default();
    if !group.lots.is_empty() {
        let jars: u32 = group.lots.iter().map(|lot| lot.jars).sum();
        facts.set("jars", jars).set("label", "pantry").set("source", BEST_WITHIN_MONTHS.source()).pantry(scene.state);
        let lots: Vec<String> = group
            .lots
            .iter()
            .map(|lot| format!("{} of {}", words.jars_of(lot.jars, lot.jar, &lot.product), words.date(lot.on)))
            .collect();
        let months = BEST_WITHIN_MONTHS.value;
        let last = group.lots.iter().filter_map(Lot::best_by).max().unwrap_or(group.from);
        let until = match (words.date(group.from), words.date(last)) {
            (first, last) if first == last => format!("these are so up to {last}"),
            (first, last) => format!("the oldest of these are so up to {first}, the others up to {last} at the latest"),
        };
        let text = format!("Use first: {}. Jars are best within {months} months; {until}.", lots.join(", "));
        return Reply { text, facts };
    }
    let total: Mass = group.bags.iter().map(|(_, bag)| bag.mass).sum();
    let bags: Vec<_> = group.bags.iter().map(|(_, bag)| *bag).collect();
    facts.bags("bags_chosen", &bags).mass("chosen_g", total).set("label", "freezer");
    facts.set("source", FROZEN_BEST_MONTHS_LOW.source());
    let (low, high) = (FROZEN_BEST_MONTHS_LOW.value, FROZEN_BEST_MONTHS_HIGH.value);
    let oldest = bags.first().map(|bag| words.date(bag.on)).unwrap_or_default();
    let text = format!(
        "Use first: {}, {} from the freezer, the oldest of {oldest}. \
         Frozen tomatoes are best within {low} to {high} months.",
        words.bags(bags.len() as u32),
        words.mass(total)
    );
    Reply { text, facts }
}

/// The ripening of a picking in a clause: `about red by Tue Aug 18, some from Sun Aug 16`.
fn red_said(words: Words, picking: &Picking, today: NaiveDate) -> String {
    match &picking.red {
        Red::Unknown => "ripeness not said".to_owned(),
        Red::None(why) => no_day(words, *why),
        Red::About(red) if red.past < today => format!("past ripe, red since {}", words.day(red.by)),
        Red::About(red) if red.by <= today => "ripe".to_owned(),
        Red::About(red) if red.soonest <= today => format!("red by {}, some already", words.day(red.by)),
        Red::About(red) => format!("red by {}, some from {}", words.day(red.by), words.day(red.soonest)),
    }
}

/// When fruit just picked will be red, where its class was said and it is not red yet.
pub(super) fn red_of(scene: Scene<'_>, said: &Picked) -> Reply {
    let words = Words::of(&scene.state.settings);
    let mut reply = Reply::default();
    let on = said.on.map_or_else(|| scene.state.settings.zone.day(scene.now), |on| on.day());
    let crop = said.crop.unwrap_or(Crop::Tomato);
    let same = |picking: &Picking| picking.on == on && picking.crop == crop && picking.class == said.ripeness;
    let Some(picking) = ripening(scene.state).into_iter().find(same) else { return reply };
    match &picking.red {
        Red::About(red) if red.by > on => {
            let (by, from) = (words.day(red.by), words.day(red.soonest));
            reply.text = format!("\nRed by {by}, some from {from} ({}).", basis_of(scene, red));
            reply.facts.set("red_from", red.soonest.to_string()).set("red_by", red.by.to_string());
        }
        Red::None(why) => reply.text = format!("\nYour room is {}.", no_day(words, *why)),
        Red::About(_) | Red::Unknown => {}
    }
    reply
}

/// The counter's fruit by the day it is ripe, below the sums; nothing where no ripeness was ever said.
pub(super) fn by_day(scene: Scene<'_>, crop: Option<Crop>) -> Reply {
    let words = Words::of(&scene.state.settings);
    let today = scene.state.settings.zone.day(scene.now);
    let pickings: Vec<Picking> =
        ripening(scene.state).into_iter().filter(|picking| crop.is_none_or(|crop| crop == picking.crop)).collect();
    let mut reply = Reply::default();
    if pickings.iter().all(|picking| picking.red == Red::Unknown) {
        return reply;
    }
    let ripe: Mass = pickings.iter().filter(|picking| picking.is_ripe(today)).map(|picking| picking.mass).sum();
    reply.facts.mass("ripe_g", ripe);
    reply.facts.set("ripening", pickings.iter().map(picking_json).collect::<Vec<_>>());
    for picking in &pickings {
        reply.text.push_str(&format!("\n{}: {}.", picking_said(words, picking), red_said(words, picking, today)));
    }
    // What was red when it was picked needs no table.
    let estimated = pickings.iter().filter(|picking| picking.class != Some(Ripeness::Red));
    if let Some(red) = estimated.filter_map(Picking::red_days).next() {
        reply.text.push_str(&format!("\n({}.)", capitalised(&basis_of(scene, &red))));
        reply.facts.set("source", red.ripening.source);
    }
    reply
}

fn picking_json(picking: &Picking) -> Value {
    let red = picking.red_days();
    json!({
        "picked_on": picking.on.to_string(),
        "crop": picking.crop.as_str(),
        "class": picking.class.map(|class| class.as_str()),
        "mass_g": super::grams(picking.mass),
        "red_from": red.map(|red| red.soonest.to_string()),
        "red_by": red.map(|red| red.by.to_string()),
    })
}

/// What of the pantry to use first, and how fast it goes.
pub(super) fn oldest_jars(scene: Scene<'_>, product: Option<&Product>) -> String {
    let words = Words::of(&scene.state.settings);
    let today = scene.state.settings.zone.day(scene.now);
    let meant = |lot: &&Lot| product.is_none_or(|name| crate::ledger::names(name, &lot.product));
    let lots: Vec<&Lot> =
        scene.state.pantry.lots().iter().filter(meant).filter(|lot| lot.best_by().is_some()).collect();
    let mut text = String::new();
    let past: Vec<&&Lot> = lots.iter().filter(|lot| lot.best_by().is_some_and(|best| best <= today)).collect();
    if past.len() > 1 {
        text.push_str(&past_their_best(words, &past));
    }
    // A shelf filled on one day has no older half.
    let oldest = lots.first().and_then(|first| Some((first, first.best_by()?)));
    if let Some((oldest, best)) = oldest
        .filter(|_| past.len() < 2)
        .filter(|(first, best)| lots.iter().any(|lot| lot.on != first.on) || *best <= today)
    {
        let what = words.jars_of(oldest.jars, oldest.jar, &oldest.product);
        let (on, until) = (words.date(oldest.on), words.date(best));
        let past = if best <= today { "were" } else { "are" };
        text.push_str(&format!("\nUse first: {what} of {on}; they {past} best until {until}."));
    }
    for line in super::planting::rates_said(scene, product) {
        text.push('\n');
        text.push_str(&line);
    }
    text
}

/// Several lots past their best, the oldest first.
fn past_their_best(words: Words, past: &[&&Lot]) -> String {
    const NAMED: usize = 4;
    let line = |lot: &&&Lot| format!("{} of {}", words.jars_of(lot.jars, lot.jar, &lot.product), words.date(lot.on));
    let named: Vec<String> = past.iter().take(NAMED).map(line).collect();
    let others: u32 = past.iter().skip(NAMED).map(|lot| lot.jars).sum();
    let others = if others == 0 { String::new() } else { format!(", and {others} jars more") };
    format!(
        "\nUse first: {}{others}; they are past the {} months within which jars are best.",
        named.join(", "),
        BEST_WITHIN_MONTHS.value
    )
}

/// Bags past the published keeping time.
pub(super) fn oldest_bags(scene: Scene<'_>, crop: Option<Crop>) -> String {
    let words = Words::of(&scene.state.settings);
    let today = scene.state.settings.zone.day(scene.now);
    let old = old_bags(scene.state, today).into_iter().filter(|(known, _)| crop.is_none_or(|crop| crop == *known));
    let (low, high) = (FROZEN_BEST_MONTHS_LOW.value, FROZEN_BEST_MONTHS_HIGH.value);
    let line = |(crop, bags): (Crop, Vec<Bag>)| {
        let total: Mass = bags.iter().map(|bag| bag.mass).sum();
        let (count, mass) = (words.bags(bags.len() as u32), words.mass(total));
        let oldest = bags.first().map(|bag| words.date(bag.on)).unwrap_or_default();
        let past = bags.iter().filter(|bag| bag_keeps_until(bag) <= today).count() as u32;
        let past = match past {
            0 => String::new(),
            past if past == bags.len() as u32 => {
                format!(", and that is over for {}", if past == 1 { "it" } else { "all of them" })
            }
            past => format!(", and that is over for {}", words.bags(past)),
        };
        format!(
            "\nUse first: {count} of {}, {mass}, the oldest of {oldest}; \
             frozen they are best within {low} to {high} months{past}.",
            plural(crop)
        )
    };
    old.map(line).collect()
}
