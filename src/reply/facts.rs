//! The figures of a reply, under the contract's names.

use super::words::Words;
use crate::batch::{Batch, Timing};
use crate::ledger::state::{Bag, State};
use crate::planning::LoadState;
use crate::quantity::{Mass, Volume};
use crate::vocabulary::{Crop, Jar};
use chrono::{DateTime, SecondsFormat, Utc};
use serde_json::{Map, Value, json};

/// Figures by name.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Facts(pub Map<String, Value>);

impl Facts {
    /// Sets a figure.
    pub fn set(&mut self, name: &str, value: impl Into<Value>) -> &mut Self {
        self.0.insert(name.to_owned(), value.into());
        self
    }

    /// Leaves only the figures that another answer has too.
    pub(super) fn keep_common(&mut self, other: &Self) {
        self.0.retain(|name, value| other.0.get(name) == Some(value));
    }

    /// A weight in grams, to the milligram.
    pub fn mass(&mut self, name: &str, mass: Mass) -> &mut Self {
        self.set(name, grams(mass))
    }

    /// A volume in millilitres, to the thousandth.
    pub fn volume(&mut self, name: &str, volume: Volume) -> &mut Self {
        self.set(name, round(volume.as_millilitres()))
    }

    /// An instant with the room's offset.
    pub fn time(&mut self, name: &str, at: DateTime<Utc>, state: &State) -> &mut Self {
        self.set(name, iso(at, state))
    }

    /// Takes in the figures of another part of the same message; the later one stands.
    pub fn merge(&mut self, other: Self) {
        self.0.extend(other.0);
    }

    pub(super) fn freezer(&mut self, state: &State, crop: Crop) -> &mut Self {
        self.mass("freezer_g", state.freezer.mass(crop)).set("freezer_bags", state.freezer.bags(crop).len())
    }

    pub(super) fn counter(&mut self, state: &State, crop: Crop) -> &mut Self {
        self.mass("counter_g", state.on_counter(crop))
    }

    pub(super) fn load(&mut self, load: &LoadState) -> &mut Self {
        self.mass("freezer_g", load.freezer)
            .set("freezer_bags", load.bags)
            .mass("target_g", load.target.mass)
            .mass("short_g", load.short);
        if load.is_ready() {
            self.bags("bags_chosen", &load.chosen).mass("chosen_g", load.chosen_mass());
        }
        self.set("jars", load.target.jars)
            .set("jar", load.target.jar.as_str())
            .set("source", load.target.source.clone())
    }

    pub(super) fn bags(&mut self, name: &str, bags: &[Bag]) -> &mut Self {
        self.set(name, bags.iter().map(|bag| grams(bag.mass)).collect::<Vec<_>>())
    }

    pub(super) fn timing(&mut self, timing: &Timing) -> &mut Self {
        self.set("tested", timing.minutes.is_some());
        if let Some(minutes) = timing.minutes {
            self.set("minutes", minutes);
        }
        if let Some(pressure) = timing.pressure {
            self.set("psi", pressure.as_psi());
        } else if let Some(heat) = timing.heat {
            self.set("heat_c", round(heat.as_celsius()));
        }
        if let Some(headspace) = timing.headspace {
            self.set("headspace_mm", round(headspace.as_millimetres()));
        }
        if let Some(source) = &timing.source {
            self.set("source", source.clone());
        }
        self
    }

    pub(super) fn stage(&mut self, batch: &Batch, state: &State, now: DateTime<Utc>) -> &mut Self {
        self.set("stage", batch.stage(now).as_str()).set("label", batch.name.clone());
        if let Some(ends) = batch.ends_at(now) {
            self.time("ends_at", ends, state).set("left_s", (ends - now).num_seconds().max(0));
        }
        self
    }

    pub(super) fn jars(&mut self, jars: u32, jar: Jar) -> &mut Self {
        self.set("jars", jars).set("jar", jar.as_str())
    }

    pub(super) fn due(&mut self, at: DateTime<Utc>, state: &State) -> &mut Self {
        self.time("due_at", at, state)
    }

    pub(super) fn pantry(&mut self, state: &State) -> &mut Self {
        self.set("pantry_jars", state.pantry.jars(None, None))
    }
}

/// An instant as ISO 8601 with the room's offset.
pub(crate) fn iso(at: DateTime<Utc>, state: &State) -> String {
    state.settings.zone.local(at).to_rfc3339_opts(SecondsFormat::AutoSi, false)
}

/// Grams to the milligram.
pub(crate) fn grams(mass: Mass) -> Value {
    json!(round(mass.as_grams()))
}

pub(crate) fn round(value: f64) -> f64 {
    (value * 1000.0).round() / 1000.0
}

impl Words {
    /// Feet or metres, in thousands with a comma.
    pub(super) fn whole(value: f64) -> String {
        let digits = format!("{:.0}", value.abs());
        let mut grouped = String::new();
        for (place, digit) in digits.chars().enumerate() {
            if place > 0 && (digits.len() - place).is_multiple_of(3) {
                grouped.push(',');
            }
            grouped.push(digit);
        }
        if value < -0.5 { format!("-{grouped}") } else { grouped }
    }
}
