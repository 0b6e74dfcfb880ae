//! Into the dryer, and the powder out of it.

use super::{Apply, Mode};
use crate::ledger::effect::{Amount, Effect, Refusal, Shortage};
use crate::ledger::state::Drying;
use crate::quantity::Mass;
use crate::statement::{Dried, Powdered};
use crate::vocabulary::Crop;

impl Apply<'_> {
    pub(super) fn dried(&mut self, dried: &Dried) -> Effect {
        let what = dried.what.clone().unwrap_or_else(|| "tomatoes".to_owned());
        let mass = dried.mass.unwrap_or_default();
        let mut effect = Effect { moved: mass, ..Effect::default() };
        if let Some(crop) = fresh_crop(&what) {
            effect.implied = self.off_counter(crop, mass);
            self.state.totals_mut(self.at).used_fresh += mass;
        }
        let (trays, on) = (dried.trays.unwrap_or(0), self.day());
        match self.state.dryer.iter_mut().find(|drying| drying.what == what && drying.on == on) {
            Some(drying) => {
                drying.mass += mass;
                drying.trays = drying.trays.saturating_add(trays);
            }
            None => self.state.dryer.push(Drying { what, mass, trays, on }),
        }
        effect
    }

    pub(super) fn powdered(&mut self, powdered: &Powdered) -> Effect {
        let mass = powdered.mass.unwrap_or_default();
        let meant = |drying: &Drying| powdered.what.as_deref().is_none_or(|what| what == drying.what);
        // Skins are what powder is made of, unless something else was said.
        let place = self.state.dryer.iter().position(|drying| meant(drying) && drying.what == "skins");
        let place = place.or_else(|| self.state.dryer.iter().position(meant));
        let there = place.and_then(|place| self.state.dryer.get(place)).map(|drying| drying.mass);
        let known_too_little = there.is_some_and(|there| !there.is_zero() && there < mass);
        let mut effect = Effect { moved: mass, ..Effect::default() };
        if there.is_none() || known_too_little {
            let amount = |mass| Amount::Mass(mass, Crop::Tomato);
            let there = amount(there.unwrap_or(Mass::ZERO));
            let shortage = Shortage { place: "dryer", wanted: amount(mass), there };
            if self.mode == Mode::Decide {
                return Effect::refused(Refusal::NotEnough(shortage));
            }
            effect.cut = Some(shortage);
        }
        let Some(place) = place else { return Effect { moved: Mass::ZERO, ..effect } };
        let drying = self.state.dryer.remove(place);
        if known_too_little {
            effect.moved = drying.mass;
        }
        let what = powdered.what.clone().unwrap_or(drying.what);
        *self.state.dried.entry(what).or_default() += effect.moved;
        effect
    }
}

/// The crop whose fresh fruit went into the dryer; `None` for what is left over from a batch.
fn fresh_crop(what: &str) -> Option<Crop> {
    match what {
        "skins" | "peels" | "seeds" | "pulp" | "pomace" => None,
        "peppers" => Some(Crop::Pepper),
        "herbs" => Some(Crop::Herb),
        "apples" => Some(Crop::Apple),
        _ => Some(Crop::named(what).unwrap_or(Crop::Tomato)),
    }
}
