//! Next year's rows: loads to aim for, pounds, plants.

use super::capitalised;
use super::words::plain;
use super::{Facts, Reply, Scene, Words};
use crate::planning::next_year::{Aim, Bears, NextYear, PLANT_SOURCE, Plants, next_year};
use crate::planning::shelf::use_rates;
use crate::vocabulary::Product;
use serde_json::{Value, json};

/// What to grow, as far as the year tells.
pub(super) fn planting(scene: Scene<'_>) -> Reply {
    let words = Words::of(&scene.state.settings);
    let today = scene.state.settings.zone.day(scene.now);
    let told = next_year(scene.state, today);
    let mut lines: Vec<String> = told.aims.iter().map(|aim| aim_said(words, aim)).collect();
    if lines.is_empty() {
        lines.push("No jars came or went in the last twelve months, so I can't say what to aim for.".to_owned());
    } else if told.aims.iter().any(|aim| aim.jars.is_none()) {
        lines.push(
            "Where no aim stands, too little has been used yet; say 'opened a quart of sauce' when you do.".to_owned(),
        );
    }
    if !told.plants.is_empty() {
        lines.push(plants_said(words, &told));
    }
    Reply { text: lines.join("\n"), facts: planting_facts(&told) }
}

fn aim_said(words: Words, aim: &Aim) -> String {
    let what = format!("{} in {}", words.product(&aim.product), aim.jar.spoken(2));
    let year = aim.year;
    let mut text = format!(
        "{}: {} put up, {} used, {} given, {} thrown away, {} left.",
        capitalised(&what),
        year.put_up,
        year.used,
        year.given,
        year.tossed,
        aim.left
    );
    if let (Some(0), Some(week)) = (aim.jars, aim.per_week) {
        text.push_str(&format!(" Those are enough for a year at about {} a week.", plain(week, 1)));
    } else if let Some(jars) = aim.jars {
        text.push_str(&format!(" Aim for {jars}"));
        match aim.per_week {
            Some(week) => {
                text.push_str(&format!(
                    " (about {} a week for a year, with the gifts, less what will be left)",
                    plain(week, 1)
                ));
            }
            None => text.push_str(" (as many as went)"),
        }
        if let (Some(loads), Some(mass), Some(load)) = (aim.loads(), aim.mass(), &aim.load) {
            let full = if jars % load.jars.max(1) == 0 { "" } else { ", the last not full" };
            let loads = if loads == 1 { "1 load".to_owned() } else { format!("{loads} loads") };
            text.push_str(&format!(": {} of fruit, {loads}{full}", words.mass(mass)));
        }
        text.push('.');
    }
    text
}

fn plants_said(words: Words, told: &NextYear) -> String {
    let kind = |plants: &Plants| {
        let name = plants.variety.as_ref().map(|variety| format!(" {variety}")).unwrap_or_default();
        let count = if plants.low == plants.high {
            plants.low.to_string()
        } else {
            format!("{} to {}", plants.low, plants.high)
        };
        match plants.bears {
            Bears::Own { each, plants } => {
                format!(
                    "{count}{name} plants (yours bore {} each, {plants} of them in {})",
                    words.mass(each),
                    told.year
                )
            }
            Bears::Published => format!("{count}{name} plants ({PLANT_SOURCE})"),
        }
    };
    let kinds: Vec<_> = told.plants.iter().map(kind).collect();
    if let Some(picked) = told.as_picked {
        let (picked, year) = (words.mass(picked), told.year);
        return format!("Tomatoes: as much as you picked in {year}, {picked}, takes {}.", kinds.join(", "));
    }
    format!(
        "Tomatoes: {} for the jars and {} eaten or given fresh as in {}: {}.",
        words.mass(told.for_jars),
        words.mass(told.fresh),
        told.year,
        kinds.join(", ")
    )
}

fn planting_facts(told: &NextYear) -> Facts {
    let mut facts = Facts::default();
    let aim = |aim: &Aim| {
        json!({
            "product": aim.product.as_str(),
            "jar": aim.jar.as_str(),
            "put_up": aim.year.put_up,
            "used": aim.year.used,
            "given": aim.year.given,
            "tossed": aim.year.tossed,
            "left": aim.left,
            "jars": aim.jars,
            "loads": aim.loads(),
        })
    };
    facts.set("aims", told.aims.iter().map(aim).collect::<Vec<Value>>());
    facts.mass("target_g", told.for_jars).mass("fresh_g", told.fresh);
    if let Some(picked) = told.as_picked {
        facts.mass("picked_g", picked);
    }
    let kind = |plants: &Plants| json!({"variety": plants.variety, "low": plants.low, "high": plants.high});
    facts.set("plants", told.plants.iter().map(kind).collect::<Vec<Value>>());
    if told.plants.iter().any(|plants| plants.bears == Bears::Published) {
        facts.set("source", PLANT_SOURCE);
    }
    facts
}

/// How fast jars go, a line a product, for the pantry's answer.
pub(super) fn rates_said(scene: Scene<'_>, product: Option<&Product>) -> Vec<String> {
    let words = Words::of(&scene.state.settings);
    let today = scene.state.settings.zone.day(scene.now);
    use_rates(scene.state, today)
        .into_iter()
        .filter(|rate| product.is_none_or(|name| crate::ledger::names(name, &rate.product)))
        .map(|rate| {
            let what = format!("{} in {}", words.product(&rate.product), rate.jar.spoken(2));
            let (week, end) = (plain(rate.per_week, 1), words.date(rate.runs_out));
            format!("{}: about {week} a week, gone by {end}.", capitalised(&what))
        })
        .collect()
}
