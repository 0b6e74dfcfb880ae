//! Rows planted, and days set for canning.

use super::process::made;
use super::{Apply, Mode};
use crate::ledger::effect::Effect;
use crate::ledger::state::{PlannedDay, Planting, State};
use crate::statement::{CalledOff, Planned, Planted};
use crate::vocabulary::{Crop, Product};
use chrono::{Days, NaiveTime};

impl Apply<'_> {
    pub(super) fn planted(&mut self, planted: &Planted) -> Effect {
        let planting = Planting {
            on: self.day(),
            count: planted.count.unwrap_or(0),
            crop: planted.crop.unwrap_or(Crop::Tomato),
            variety: planted.variety.clone(),
            place: planted.place.clone(),
        };
        self.state.planted.push(planting);
        Effect::default()
    }

    /// A later day for the same product moves it. Days that are over are forgotten.
    pub(super) fn planned(&mut self, planned: &Planned) -> Effect {
        let Some(day) = planned.day else { return Effect::default() };
        // A day without a product is the only one that is set, moved; else the usual product's.
        let only = match self.state.planned.as_slice() {
            [only] if only.day >= self.day() => Some(only.product.clone()),
            _ => None,
        };
        let product = match self.product_meant(planned.product.as_ref().or(only.as_ref())) {
            Ok(product) => product,
            Err(refusal) if self.mode == Mode::Decide => return Effect::refused(refusal),
            Err(_) => return Effect::default(),
        };
        let today = self.day();
        self.state.planned.retain(|other| other.day >= today);
        let moved = self.state.planned.iter().position(|other| other.product == product);
        let moved = moved.map(|place| self.state.planned.remove(place));
        let by = planned.by.as_deref().and_then(|text| NaiveTime::parse_from_str(text, "%H:%M").ok());
        // What is not said again stays as it was.
        let by = by.or(moved.as_ref().map(|moved| moved.by)).unwrap_or(PlannedDay::USUAL_END);
        let jar = planned.jar.or(moved.as_ref().and_then(|moved| moved.jar));
        let jars = planned.jars.or(moved.and_then(|moved| moved.jars));
        let planned = PlannedDay { day, by, product, jar, jars };
        self.state.planned.push(planned);
        self.state.planned.sort_by_key(|planned| (planned.day, planned.by));
        Effect::default()
    }

    /// A batch of the product is under way, or done: the day that was set for it has come.
    pub(super) fn day_has_come(&mut self, product: &Product) {
        let tomorrow = self.day() + Days::new(1);
        self.state.planned.retain(|planned| planned.product != *product || planned.day > tomorrow);
    }

    /// Takes off the day named, of the product named; the next one where none is.
    pub(super) fn called_off(&mut self, off: &CalledOff) -> Effect {
        let today = self.day();
        self.state.planned.retain(|planned| planned.day >= today);
        let meant = |planned: &PlannedDay| {
            off.day.is_none_or(|day| planned.day == day)
                && off.product.as_ref().is_none_or(|name| super::names(name, &planned.product))
        };
        match self.state.planned.iter().position(meant) {
            Some(place) => {
                self.state.planned.remove(place);
                Effect::default()
            }
            None => Effect { not_running: true, ..Effect::default() },
        }
    }
}

impl State {
    /// The day that a phrase has set. Of several on that day, the one of the product it names: a thin sauce is not the thick one.
    pub fn day_set(&self, said: &Planned) -> Option<&PlannedDay> {
        let product = said.product.as_ref().and_then(|name| made(self, Some(name)).ok()).map(|made| made.product());
        self.planned.iter().find(|planned| {
            said.day == Some(planned.day) && product.as_ref().is_none_or(|product| planned.product == *product)
        })
    }
}
