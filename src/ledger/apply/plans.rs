//! Rows planted, and days set for canning.

use super::{Apply, Mode};
use crate::ledger::effect::Effect;
use crate::ledger::state::{PlannedDay, Planting};
use crate::statement::{CalledOff, Planned, Planted};
use crate::vocabulary::{Crop, Product};
use chrono::{Days, NaiveDate, NaiveTime};

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

    /// A later day for the same product moves it; so does one for which no product is said. Days that are over are
    /// forgotten.
    pub(super) fn planned(&mut self, planned: &Planned) -> Effect {
        let Some(day) = planned.day else { return Effect::default() };
        let product = match self.product_meant(planned.product.as_ref()) {
            Ok(product) => product,
            Err(refusal) if self.mode == Mode::Decide => return Effect::refused(refusal),
            Err(_) => return Effect::default(),
        };
        let today = self.day();
        self.state.planned.retain(|other| other.day >= today);
        let product = if planned.product.is_some() { product } else { self.already_planned(day, product) };
        let moved = self.state.planned.iter().position(|other| other.product == product);
        let moved = moved.map(|place| self.state.planned.remove(place));
        let by = planned.by.as_deref().and_then(|text| NaiveTime::parse_from_str(text, "%H:%M").ok());
        // What is not said again stays as it was.
        let by = by.or(moved.as_ref().map(|moved| moved.by)).unwrap_or(PlannedDay::USUAL_END);
        let jar = planned.jar.or(moved.as_ref().and_then(|moved| moved.jar));
        let jars = planned.jars.or(moved.as_ref().and_then(|moved| moved.jars));
        let planned = PlannedDay { day, by, product, jar, jars };
        self.state.planned.push(planned.clone());
        self.state.planned.sort_by_key(|planned| (planned.day, planned.by));
        let moved_from = moved.map(|moved| moved.day).filter(|before| *before != day);
        Effect { planned: Some(planned), moved_from, ..Effect::default() }
    }

    /// What is made on a day for which nothing is said: what is set for that day, else the usual if a day is set for
    /// it, else what the next day is set for.
    fn already_planned(&self, day: NaiveDate, usual: Product) -> Product {
        let all = &self.state.planned;
        let that_day = all.iter().find(|planned| planned.day == day);
        let found = that_day.or_else(|| all.iter().find(|planned| planned.product == usual)).or(all.first());
        found.map_or(usual, |planned| planned.product.clone())
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
            Some(place) => Effect { planned: Some(self.state.planned.remove(place)), ..Effect::default() },
            None => Effect { not_running: true, ..Effect::default() },
        }
    }
}
