//! When the freezer will hold a load.

use super::{Facts, Reply, Scene, Words};
use crate::planning::forecast::{Forecast, NoForecast, forecast};
use crate::planning::ripening::ripe_by;
use crate::planning::{LoadState, Target};
use chrono::NaiveDate;

/// What is added to the answer of how close a load is: the days, or why there are none.
pub(super) fn outlook(scene: Scene<'_>, load: &LoadState) -> Reply {
    let target = load.target.clone();
    let told = forecast(scene.state, target.clone(), false, scene.now);
    let plain = told.as_ref().ok().and_then(|told| told.p50);
    let mut reply = match told {
        Ok(told) => days(scene, &told),
        Err(why) => Reply { text: no_days(scene, why), facts: Facts::default() },
    };
    if !load.is_ready() {
        reply.text.push_str(&with_counter(scene, target, plain).unwrap_or_default());
    }
    reply
}

fn days(scene: Scene<'_>, told: &Forecast) -> Reply {
    let words = Words::of(&scene.state.settings);
    let mut facts = Facts::default();
    for (name, day) in [("ready_p10", told.p10), ("ready_p50", told.p50), ("ready_p90", told.p90)] {
        if let Some(day) = day {
            facts.set(name, day.to_string());
        }
    }
    let until = if told.is_season_end {
        format!("before the season ends on {}", words.day(told.until))
    } else {
        format!("by {}", words.day(told.until))
    };
    let text = match (told.p10, told.p50, told.p90) {
        (Some(p10), Some(p50), Some(p90)) if p10 == p90 => format!("Most likely on {}.", words.day(p50)),
        (Some(p10), Some(p50), Some(p90)) => format!(
            "Most likely around {}: one chance in ten by {}, nine in ten by {}.",
            words.day(p50),
            words.day(p10),
            words.day(p90)
        ),
        (p10, Some(p50), None) => {
            format!("Perhaps around {}{}, but perhaps not {until}.", words.day(p50), earliest(words, p10))
        }
        (p10, None, _) => format!("More likely not {until}{}.", earliest(words, p10)),
        (None, Some(_), Some(_)) => String::new(),
    };
    Reply { text, facts }
}

fn earliest(words: Words, p10: Option<NaiveDate>) -> String {
    p10.map(|day| format!(" (one chance in ten by {})", words.day(day))).unwrap_or_default()
}

fn no_days(scene: Scene<'_>, why: NoForecast) -> String {
    let words = Words::of(&scene.state.settings);
    match why {
        NoForecast::Ready => String::new(),
        NoForecast::TooLittle { more } => {
            let times = if more == 1 { "one more day".to_owned() } else { format!("{more} more days") };
            format!("I can't say when yet: I need {times} of freezing this season to go by.")
        }
        NoForecast::SeasonOver { end } => {
            format!("Not this year: the season ended on {}.", words.day(end))
        }
    }
}

/// With what is ripe on the counter, where that changes the day.
fn with_counter(scene: Scene<'_>, target: Target, plain: Option<NaiveDate>) -> Option<String> {
    let words = Words::of(&scene.state.settings);
    let today = scene.state.settings.zone.day(scene.now);
    let ripe = ripe_by(scene.state, target.crop, today);
    if ripe.is_zero() {
        return None;
    }
    let ripe = words.mass(ripe);
    match forecast(scene.state, target, true, scene.now) {
        Ok(told) => told
            .p50
            .filter(|day| Some(*day) != plain)
            .map(|day| format!(" With the {ripe} ripe on the counter around {}.", words.day(day))),
        Err(NoForecast::Ready) => Some(format!(" The {ripe} ripe on the counter would complete it.")),
        Err(_) => None,
    }
}
