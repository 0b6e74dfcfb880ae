//! Pictures that are asked for: which one, and the sentence that goes with it.

use super::{Facts, Reply, Scene, Words};
use crate::enclosure::Enclosure;
use crate::ledger::Ledger;
use crate::picture::{self, Fan, Picture, Unit};
use crate::planning::forecast::{fan, forecast};
use crate::planning::{load_state, target};
use crate::statement::Ask;
use crate::vocabulary::Crop;
use chrono::Datelike;
use serde_json::json;

/// The pictures there are, as they are asked for.
const NAMES: &str = "'chart season', 'chart freezer', 'chart pantry' or 'chart day'";

/// The picture that a question asks for, and a sentence that says the same; where there is nothing to draw, a sentence
/// alone.
pub(super) fn chart(scene: Scene<'_>, ledger: &Ledger, ask: &Ask) -> (Reply, Vec<Enclosure>) {
    let state = scene.state;
    let what = ask.what.as_deref().unwrap_or_default();
    let dark = match what.rsplit(' ').next() {
        Some("dark") => true,
        Some("light") => false,
        _ => state.settings.dark_pictures,
    };
    let name = what.trim_end_matches("dark").trim_end_matches("light").trim();
    let of_batch = ask.batch.is_some() || (name.is_empty() && ask.product.is_some());
    let name = if of_batch { "day" } else { name };
    match picture(scene, ledger, name, ask) {
        Err(sentence) => (Reply { text: sentence, facts: Facts::default() }, Vec::new()),
        Ok(picture) => {
            let reply = Reply { text: picture.alt(), facts: facts(scene, &picture) };
            (reply, vec![Enclosure::Picture { picture, dark }])
        }
    }
}

/// The picture of this name.
///
/// # Errors
/// A sentence, when there is no such picture or nothing to draw.
pub fn picture(scene: Scene<'_>, ledger: &Ledger, name: &str, ask: &Ask) -> Result<Picture, String> {
    let now = scene.now;
    let found = match name {
        "" | "season" | "year" => picture::season(ledger, ask.since.map(|since| since.year()), now),
        "freezer" | "load" | "forecast" => {
            picture::freezer(ledger, ask.product.as_ref(), ask.jar, outlook(scene, ask), now)
        }
        "pantry" | "shelf" | "jars" => picture::pantry(ledger, now),
        "day" | "batch" => {
            let called = ask.batch.as_deref().or(ask.product.as_ref().map(|product| product.as_str()));
            picture::batch(ledger, called).and_then(|batch| picture::day(ledger, &batch, now))
        }
        _ => {
            let name = Words::of(&scene.state.settings).quote(name);
            return Err(format!("I have no picture of '{name}'; ask for {NAMES}."));
        }
    };
    found.ok_or_else(|| nothing(name, ask))
}

/// What the freezer will hold until a load is likely there; nothing where there is no forecast.
fn outlook(scene: Scene<'_>, ask: &Ask) -> Option<Fan> {
    let (state, now) = (scene.state, scene.now);
    let told = forecast(state, target(state, ask.product.as_ref(), ask.jar)?, false, now).ok()?;
    let crop = told.target.crop;
    let ready = [told.p10, told.p50, told.p90];
    // Far enough to see the load come, and no further than anybody plans.
    let last = ready.into_iter().flatten().max().unwrap_or(told.until);
    let days = (last - state.settings.zone.day(now)).num_days().clamp(11, 57) as usize + 3;
    let days = fan(state, crop, now, days).ok()?;
    let days = days.into_iter().map(|day| (day.on, [day.p10, day.p50, day.p90]));
    Some(Fan::of(Unit::of(state.settings.units), days, ready))
}

/// Why there is no picture.
fn nothing(name: &str, ask: &Ask) -> String {
    let why = match name {
        "freezer" | "load" | "forecast" => "the freezer was empty in the last half year",
        "pantry" | "shelf" | "jars" => "the pantry is empty",
        "day" | "batch" if ask.batch.is_some() || ask.product.is_some() => "I know no such batch",
        "day" | "batch" => "no batch was begun yet",
        _ => match ask.since {
            Some(since) => {
                return format!("There is nothing to draw: nothing was picked, frozen or put up in {}.", since.year());
            }
            None => "nothing was picked, frozen or put up yet",
        },
    };
    format!("There is nothing to draw: {why}.")
}

/// The figures of a picture's sentence.
fn facts(scene: Scene<'_>, picture: &Picture) -> Facts {
    let state = scene.state;
    let mut facts = Facts::default();
    match picture {
        Picture::Season(season) => {
            let sums = state.years.get(&season.year).copied().unwrap_or_default();
            facts.set("picture", "season").set("year", season.year).set("weeks", season.weeks.len());
            facts.mass("picked_g", sums.picked).mass("frozen_g", sums.frozen).set("jars_put_up", season.put_up);
            if let Some(best) = season.best() {
                facts.mass("best_week_g", season.unit.mass(best.picked)).set("best_week", best.from.to_string());
            }
        }
        Picture::Freezer(freezer) => {
            facts.set("picture", "freezer").mass("freezer_most_g", freezer.unit.mass(freezer.most()));
            let ready = freezer.fan.as_ref().map(|fan| [fan.ready_p10, fan.ready_p50, fan.ready_p90]);
            for (name, day) in ["ready_p10", "ready_p50", "ready_p90"].into_iter().zip(ready.into_iter().flatten()) {
                if let Some(day) = day {
                    facts.set(name, day.to_string());
                }
            }
            match freezer.load.as_ref().and_then(|_| target(state, None, None)) {
                Some(target) if target.crop == freezer.crop => facts.load(&load_state(state, target)),
                _ => facts.freezer(state, Crop::named(freezer.crop.as_str()).unwrap_or(freezer.crop)),
            };
        }
        Picture::Pantry(pantry) => {
            facts.set("picture", "pantry").pantry(state);
            let row =
                |lots: &picture::Lots| json!({"product": lots.product, "jar": lots.jar.as_str(), "jars": lots.jars});
            facts.set("shelves", pantry.rows.iter().map(row).collect::<Vec<_>>());
        }
        Picture::Day(day) => {
            facts.set("picture", "day").set("label", day.name.clone()).jars(day.jars, day.jar);
            facts.set("rounds", day.rows.iter().filter(|row| row.round > 0).count());
            if let Some(minutes) = day.minutes {
                facts.set("minutes", minutes);
            }
            let zone = state.settings.zone;
            facts.time("began_at", zone.instant(day.began), state).time("ended_at", zone.instant(day.ended), state);
            if let Some(sealed) = day.sealed {
                facts.set("sealed", sealed);
            }
        }
    }
    facts
}
