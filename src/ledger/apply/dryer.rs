//! Into the dryer, dry weight out of it, and powder.

use super::{Apply, Mode};
use crate::ledger::effect::{Amount, Effect, Refusal, Shortage};
use crate::ledger::state::Drying;
use crate::quantity::Mass;
use crate::statement::{Dried, Dry, Powdered};
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
            None => self.state.dryer.push(Drying { what, mass, trays, on, since: self.at }),
        }
        effect
    }

    /// What is in the dryer comes out dry. Its dry weight is stored; where it was not weighed it is waited for.
    pub(super) fn dry(&mut self, dry: &Dry) -> Effect {
        let mass = dry.mass.unwrap_or_default();
        let (load, cut) = match self.out_of_dryer(dry.what.as_deref(), mass) {
            Ok(out) => out,
            Err(refusal) => return Effect::refused(refusal),
        };
        let Some(load) = load else { return Effect { cut, ..Effect::default() } };
        let moved = if load.mass.is_zero() { mass } else { mass.min(load.mass) };
        if moved.is_zero() {
            self.state.unweighed.push(load.clone());
        } else {
            *self.state.dried.entry(load.what.clone()).or_default() += moved;
        }
        Effect { moved, cut, dried: Some(load), ..Effect::default() }
    }

    /// Takes a load out of the dryer, or one that is out and was not weighed: of what was said, else skins, which are
    /// what powder is made of, else the first. A load that was weighed going in gives no more than that.
    fn out_of_dryer(&mut self, what: Option<&str>, mass: Mass) -> Result<(Option<Drying>, Option<Shortage>), Refusal> {
        let place = load_of(&self.state.dryer, what);
        let unweighed = load_of(&self.state.unweighed, what).filter(|_| place.is_none() && !mass.is_zero());
        let load = match (place, unweighed) {
            (Some(place), _) => self.state.dryer.get(place),
            (None, Some(place)) => self.state.unweighed.get(place),
            (None, None) => None,
        };
        let there = load.map(|load| load.mass);
        let known_too_little = there.is_some_and(|there| !there.is_zero() && there < mass);
        let mut cut = None;
        if there.is_none() || known_too_little {
            let amount = |mass| Amount::Mass(mass, Crop::Tomato);
            let there = amount(there.unwrap_or(Mass::ZERO));
            let shortage = Shortage { place: "dryer", wanted: amount(mass), there };
            if self.mode == Mode::Decide {
                return Err(Refusal::NotEnough(shortage));
            }
            cut = Some(shortage);
        }
        let load = match (place, unweighed) {
            (Some(place), _) => Some(self.state.dryer.remove(place)),
            (None, Some(place)) => Some(self.state.unweighed.remove(place)),
            (None, None) => None,
        };
        Ok((load, cut))
    }

    pub(super) fn powdered(&mut self, powdered: &Powdered) -> Effect {
        let mass = powdered.mass.unwrap_or_default();
        if let Some(effect) = self.grind(powdered.what.as_deref(), mass) {
            return effect;
        }
        let (drying, cut) = match self.out_of_dryer(powdered.what.as_deref(), mass) {
            Ok(out) => out,
            Err(refusal) => return Effect::refused(refusal),
        };
        let Some(drying) = drying else { return Effect { cut, ..Effect::default() } };
        let moved = if drying.mass.is_zero() { mass } else { mass.min(drying.mass) };
        let what = drying.what.clone();
        *self.state.dried.entry(what.clone()).or_default() += moved;
        Effect { moved, cut, dried: Some(drying), what: Some(what), ..Effect::default() }
    }

    /// Powder from what was weighed dry: it leaves that and is stored by its own name. `None` where the powder is of
    /// what is in the dryer still, or there is not that much dry weight.
    fn grind(&mut self, what: Option<&str>, mass: Mass) -> Option<Effect> {
        let enough = |known: &String, dry: &Mass| {
            what.is_none_or(|what| is_same(what, known)) && *dry >= mass && !known.ends_with(POWDER)
        };
        let mut known: Vec<&String> =
            self.state.dried.iter().filter(|(known, dry)| enough(known, dry)).map(|(known, _)| known).collect();
        // Skins are what powder is made of, then whatever else of tomatoes.
        known.sort_by_key(|known| (*known != "skins", !is_tomatoes(known)));
        let from = (*known.first()?).clone();
        let loads = || self.state.dryer.iter().chain(&self.state.unweighed);
        let skins_drying = loads().any(|load| load.what == "skins");
        let meant_in_dryer = loads().any(|load| what.is_none_or(|what| is_same(what, &load.what)));
        if meant_in_dryer && (what.is_some() || skins_drying || from != "skins") {
            return None;
        }
        let left = self.state.dried.get(&from).copied().unwrap_or_default().less(mass);
        if left.is_zero() {
            self.state.dried.remove(&from);
        } else {
            self.state.dried.insert(from.clone(), left);
        }
        *self.state.dried.entry(format!("{from}{POWDER}")).or_default() += mass;
        Some(Effect { moved: mass, what: Some(from), ..Effect::default() })
    }
}

/// The place of a load: of what was said, else skins, else the first.
fn load_of(loads: &[Drying], what: Option<&str>) -> Option<usize> {
    let meant = |load: &Drying| what.is_none_or(|what| is_same(what, &load.what));
    let place = loads.iter().position(|load| meant(load) && load.what == "skins");
    place.or_else(|| loads.iter().position(meant))
}

/// "Skin powder" is of skins.
fn is_same(said: &str, known: &str) -> bool {
    said.trim_end_matches('s') == known.trim_end_matches('s')
}

fn is_tomatoes(what: &str) -> bool {
    fresh_crop(what) == Some(Crop::Tomato)
}

/// What powder is stored as that was ground from dry weight: `skins powder`.
const POWDER: &str = " powder";

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
