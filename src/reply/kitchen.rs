//! Replies about jars, the dryer, supplies, recipes, timers and settings.

use super::words::{plain, supply as supply_word};
use super::{Facts, Reply, Scene, Words};
use crate::ledger::state::{Answers, Digest, Stocked, SupplyKey};
use crate::ledger::{Effect, Entry};
use crate::processes::{self, Acidity, Resolved};
use crate::quantity::Volume;
use crate::statement::{Bought, Jarred, Recipe, Set, TimerStart, TimerStop};
use crate::vocabulary::{SettingKey, Supply};
use chrono::TimeDelta;

pub(super) fn put_up(scene: Scene<'_>, said: &Jarred, effect: &Effect) -> Reply {
    let (state, words) = (scene.state, Words::of(&scene.state.settings));
    let mut facts = Facts::default();
    let put: Vec<_> = effect.jars.iter().map(|(product, jar, jars)| words.jars_of(*jars, *jar, product)).collect();
    let mut text = format!("Put up {}.", put.join(", "));
    if let Some((product, jar, jars)) = effect.jars.first() {
        let known = processes::product(product.as_str());
        let tested = known.filter(|info| info.is_tested_in(*jar));
        facts.jars(*jars, *jar).set("tested", tested.is_some());
        let there = state.pantry.jars(Some(product), Some(*jar));
        text.push_str(&format!(" Pantry {}", words.jars_of(there, *jar, product)));
        text.push_str(&format!("; {} in all.", count_jars(state.pantry.jars(None, None))));
        text.push_str(&match (known, tested) {
            (None, _) if matches!(processes::resolve(product), Resolved::Family(_)) => {
                format!(
                    " Which tested {product} it is I don't know, so it counts as untested: \
                     refrigerate or freeze the jars, or name the recipe."
                )
            }
            (None, _) => " Kept as an untested recipe: refrigerate or freeze the jars; \
                 only those from a tested one are safe on a shelf."
                .to_owned(),
            (Some(_), None) => {
                format!(
                    " No tested process has it in {}, so they are not safe on a shelf: refrigerate or freeze them.",
                    jar.spoken(2)
                )
            }
            (Some(_), Some(info)) if info.acidity == Acidity::LowAcid => {
                " Low-acid food: safe on a shelf only from a pressure canner, and then best within a year.".to_owned()
            }
            (Some(_), Some(_)) => " Best within a year.".to_owned(),
        });
        // Jars of no batch that was logged: what becomes of them is theirs to tell.
        if let Some(failed) = said.of.and_then(|of| of.checked_sub(*jars)).filter(|failed| *failed > 0) {
            text.push_str(&format!(
                " What did not seal ({failed}): refrigerate and use it within several days, freeze it, \
                 or process it again in full within 24 hours."
            ));
        }
    }
    facts.pantry(state);
    Reply { text, facts }
}

fn count_jars(jars: u32) -> String {
    if jars == 1 { "1 jar".to_owned() } else { format!("{jars} jars") }
}

pub(super) fn opened(scene: Scene<'_>, effect: &Effect) -> Reply {
    off_the_shelf(scene, effect, "Opened")
}

/// Jars that left the pantry or the refrigerator, and how many of the kind are left.
pub(super) fn off_the_shelf(scene: Scene<'_>, effect: &Effect, verb: &str) -> Reply {
    let (state, words) = (scene.state, Words::of(&scene.state.settings));
    let mut facts = Facts::default();
    let taken: Vec<_> = effect.jars.iter().map(|(product, jar, jars)| words.jars_of(*jars, *jar, product)).collect();
    let mut text = format!("{verb} {}.", taken.join(", "));
    let batch = effect.batch.and_then(|number| state.batches.iter().find(|batch| batch.number == number));
    if let Some(batch) = batch {
        // They were never on a shelf: what is told is how the batch stands.
        let mut seals = super::seals::seals(scene, batch);
        seals.text.insert_str(0, &format!("{text} "));
        return seals;
    }
    if let Some((product, jar, _)) = effect.jars.first() {
        let total: u32 = effect.jars.iter().map(|(_, _, jars)| jars).sum();
        facts.jars(total, *jar);
        let left = state.pantry.jars(Some(product), Some(*jar));
        text.push_str(&format!(" {} left in the pantry.", words.jars(left, *jar)));
    }
    facts.pantry(state).set("fridge_jars", state.fridge.jars(None, None));
    Reply { text, facts }
}

pub(super) fn bought(scene: Scene<'_>, said: &Bought) -> Reply {
    let words = Words::of(&scene.state.settings);
    let mut facts = Facts::default();
    let Some(supply) = said.supply else { return Reply::default() };
    let key = SupplyKey(supply, said.jar.filter(|_| supply == Supply::Jars));
    let left = scene.state.supplies.iter().find(|(known, _)| *known == key).map(|(_, left)| left).unwrap_or_default();
    supply_facts(&mut facts, key, left);
    let more = Stocked {
        count: said.count.unwrap_or(0),
        mass: said.mass.unwrap_or_default(),
        volume: said.volume.unwrap_or_default(),
    };
    let text = format!("{} more: {} in the house.", words.stocked(key, more), words.stocked(key, left));
    Reply { text, facts }
}

/// What is left of a supply, in its own unit.
pub(super) fn supply_facts(facts: &mut Facts, key: SupplyKey, left: Stocked) {
    facts.set("supply", key.0.as_str());
    match key.0 {
        Supply::Lids | Supply::Jars | Supply::Bags => facts.set("supply_left", left.count),
        Supply::LemonJuice | Supply::Vinegar => facts.volume("supply_left", left.volume),
        Supply::CitricAcid | Supply::Salt => facts.mass("supply_left", left.mass),
    };
}

pub(super) fn recipe(scene: Scene<'_>, said: &Recipe) -> Reply {
    let words = Words::of(&scene.state.settings);
    let takes = said.mass.map(|mass| format!(" takes {}", words.mass(mass))).unwrap_or_default();
    let makes = match (said.jars, said.jar) {
        (Some(jars), Some(jar)) => format!(" makes {}", words.jars(jars, jar)),
        _ => String::new(),
    };
    let text = format!(
        "Kept your recipe '{}':{takes}{makes}. It has no tested process, so I count it but give no time; \
         freeze or refrigerate it, or can a tested recipe.",
        said.name
    );
    let mut facts = Facts::default();
    facts.set("tested", false);
    if let (Some(jars), Some(jar)) = (said.jars, said.jar) {
        facts.jars(jars, jar);
    }
    if let Some(mass) = said.mass {
        facts.mass("target_g", mass);
    }
    Reply { text, facts }
}

pub(super) fn timer_start(scene: Scene<'_>, said: &TimerStart, entry: &Entry) -> Reply {
    let (state, words) = (scene.state, Words::of(&scene.state.settings));
    let length = TimeDelta::seconds(i64::from(said.seconds.unwrap_or(0)));
    let ends = entry.happened + length;
    let label = said.label.as_ref().map(|label| format!(" '{label}'")).unwrap_or_default();
    let text = format!("Timer{label}: {}, until {}.", words.stretch(length), words.moment(ends, scene.now));
    let mut facts = Facts::default();
    facts.time("ends_at", ends, state).set("left_s", (ends - scene.now).num_seconds().max(0));
    if let Some(label) = &said.label {
        facts.set("label", label.clone());
    }
    Reply { text, facts }
}

pub(super) fn timer_stop(said: &TimerStop, effect: &Effect) -> Reply {
    let label = said.label.as_ref().map(|label| format!(" '{label}'")).unwrap_or_default();
    let mut facts = Facts::default();
    if let Some(label) = &said.label {
        facts.set("label", label.clone());
    }
    let text =
        if effect.not_running { format!("No timer{label} is running.") } else { format!("Timer{label} stopped.") };
    Reply { text, facts }
}

pub(super) fn set(scene: Scene<'_>, said: &Set, effect: &Effect) -> Reply {
    let (state, words) = (scene.state, Words::of(&scene.state.settings));
    let settings = &state.settings;
    let mut facts = Facts::default();
    let text = match said.key {
        SettingKey::Altitude => altitude_set(scene, &mut facts),
        SettingKey::Canner => format!("Canner: {}.", settings.usual_canner().spoken()),
        SettingKey::Capacity => {
            let jars = said.jars.unwrap_or(0);
            facts.set("jars", jars);
            let size = said.jar.map_or_else(|| count_jars(jars), |jar| words.jars(jars, jar));
            let which = said.canner.or(settings.canner).map_or("canner", |canner| canner.spoken());
            format!("The {which} holds {size}.")
        }
        SettingKey::Units => {
            let system =
                if said.word.as_deref() == Some("metric") { "kilograms and litres" } else { "pounds and quarts" };
            format!("I'll speak {system}.")
        }
        SettingKey::Bag => format!("A usual bag is {}.", words.mass(settings.usual_bag())),
        SettingKey::Usual => usual_set(scene, &mut facts),
        SettingKey::Timezone => format!("Time zone {}: it is {} here.", settings.zone, words.clock(scene.now)),
        SettingKey::Quiet => match settings.quiet {
            Some(quiet) => format!(
                "Quiet from {} until {}. A batch's clocks and kitchen timers still ring.",
                words.hour(quiet.from),
                words.hour(quiet.until)
            ),
            None => "No quiet hours.".to_owned(),
        },
        SettingKey::Low => low_set(scene, said),
        SettingKey::Yield => super::yields::chosen(scene, said, &mut facts),
        SettingKey::Digest => match settings.digest {
            Some(Digest::Weekly { day, at }) => {
                format!("The digest comes on {}s at {}.", weekday(day), words.hour(at))
            }
            _ => "No digest.".to_owned(),
        },
        SettingKey::Season => match settings.season_end {
            Some(day) => format!("I expect no more fruit after {}.", words.day_of_month(day)),
            None => "Tell me the last day, as 'season ends October 10'.".to_owned(),
        },
        SettingKey::Labels => match &settings.labels {
            Some(labels) => format!("Labels: {labels}."),
            None => "Tell me the grid and the sheet, as 'labels are 3 by 8 on a4'.".to_owned(),
        },
        SettingKey::Answers => match settings.answers {
            Answers::Full => "I'll answer in full.".to_owned(),
            Answers::Brief => "I'll answer plain entries in a line.".to_owned(),
            Answers::Silent => {
                "I'll only mark plain entries; questions, problems and alerts I still answer.".to_owned()
            }
        },
        SettingKey::Pictures => {
            format!("Pictures: {}.", if settings.dark_pictures { "dark" } else { "light" })
        }
        SettingKey::Room => match settings.room {
            Some(room) => super::ahead::room_set(words, room),
            None => "Tell me the room's temperature, as 'room is 68 F'.".to_owned(),
        },
    };
    let retimed = effect.retimed.iter().filter_map(|number| state.batches.iter().find(|batch| batch.number == *number));
    let text = retimed.fold(text, |text, batch| format!("{text}\n{}", super::canning::retimed(scene, batch)));
    Reply { text, facts }
}

const fn weekday(day: chrono::Weekday) -> &'static str {
    match day {
        chrono::Weekday::Mon => "Monday",
        chrono::Weekday::Tue => "Tuesday",
        chrono::Weekday::Wed => "Wednesday",
        chrono::Weekday::Thu => "Thursday",
        chrono::Weekday::Fri => "Friday",
        chrono::Weekday::Sat => "Saturday",
        chrono::Weekday::Sun => "Sunday",
    }
}

fn altitude_set(scene: Scene<'_>, facts: &mut Facts) -> String {
    let words = Words::of(&scene.state.settings);
    let Some(altitude) = scene.state.settings.altitude else {
        return "Tell me your altitude, as 'altitude 2400 ft'.".to_owned();
    };
    let heat = processes::boiling_point(altitude);
    if let Some(heat) = heat {
        facts.set("heat_c", super::facts::round(heat.as_celsius()));
    }
    let boils = heat.map(|heat| format!(" Water boils at {} there.", words.temperature(heat))).unwrap_or_default();
    format!("Altitude {}.{boils} Process times follow it from now on.", words.altitude(altitude))
}

fn usual_set(scene: Scene<'_>, facts: &mut Facts) -> String {
    let (state, words) = (scene.state, Words::of(&scene.state.settings));
    let usual = words.product(&state.settings.product);
    let jars = state.settings.jar.spoken(2);
    match crate::planning::target(state, None, None) {
        Some(target) => {
            let load = crate::planning::load_state(state, target);
            facts.load(&load);
            format!("Usual: {usual} in {jars}; a load is {}.", words.mass(load.target.mass))
        }
        None => {
            format!(
                "Usual: {usual} in {jars}. I know no load weight for it; \
                 say 'recipe … takes 6 lb makes 4 pints'."
            )
        }
    }
}

fn low_set(scene: Scene<'_>, said: &Set) -> String {
    let words = Words::of(&scene.state.settings);
    let Some(supply) = said.supply else { return "Tell me which supply, as 'low line for lids is 12'.".to_owned() };
    let line = match (said.count, said.mass, said.volume) {
        (Some(count), _, _) => plain(f64::from(count), 0),
        (None, Some(mass), _) => words.mass(mass),
        (None, None, volume) => words.volume(volume.unwrap_or(Volume::ZERO)),
    };
    format!("I'll say so when {} fall below {line}.", supply_word(supply))
}
