//! When the freezer will hold a load.

use super::{Facts, Reply, Scene, Words};
use crate::planning::forecast::{Forecast, NoForecast, SEASON_BREAK, forecast};
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
        Err(why) => Reply { text: no_days(scene, load, why), facts: Facts::default() },
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
    let basis = format!(" (an estimate from your last {} days of freezing)", told.freezings);
    let text = match (told.p10, told.p50, told.p90) {
        (Some(p10), Some(p50), Some(p90)) if p10 == p90 => {
            format!("On {}, nine chances in ten{basis}.", words.day(p50))
        }
        (Some(p10), Some(p50), Some(p90)) => {
            let early = if p10 == p50 { String::new() } else { format!("one chance in ten by {}, ", words.day(p10)) };
            format!("As likely before as after {}; {early}nine in ten by {}{basis}.", words.day(p50), words.day(p90))
        }
        (p10, Some(p50), None) => {
            format!("Perhaps around {}{}, but perhaps not {until}{basis}.", words.day(p50), earliest(words, p10))
        }
        (p10, None, _) => format!("More likely not {until}{}{basis}.", earliest(words, p10)),
        (None, Some(_), Some(_)) => String::new(),
    };
    Reply { text, facts }
}

fn earliest(words: Words, p10: Option<NaiveDate>) -> String {
    p10.map(|day| format!(" (one chance in ten by {})", words.day(day))).unwrap_or_default()
}

fn no_days(scene: Scene<'_>, load: &LoadState, why: NoForecast) -> String {
    let words = Words::of(&scene.state.settings);
    match why {
        NoForecast::Ready => String::new(),
        NoForecast::TooLittle { more } => {
            let times = if more == 1 { "one more day".to_owned() } else { format!("{more} more days") };
            let gone = scene.state.diary.frozen(load.target.crop).next_back().map(|day| day.on);
            let today = scene.state.settings.zone.day(scene.now);
            // What was frozen is not lost: it belongs to a season that is over.
            let paused = gone.filter(|on| (today - *on).num_days() > SEASON_BREAK).map_or_else(String::new, |on| {
                format!(
                    " (The last was on {}; {SEASON_BREAK} days without freezing begin a new season, \
                     and what is in the freezer counts all the same.)",
                    words.date(on)
                )
            });
            format!("I can't say when yet: I need {times} of freezing this season to go by.{paused}")
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
