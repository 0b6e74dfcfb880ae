//! Fruit onto the counter, and off it.

use super::Apply;
use crate::ledger::effect::Effect;
use crate::ledger::state::Fruit;
use crate::quantity::Mass;
use crate::statement::Picked;
use crate::vocabulary::Crop;

impl Apply<'_> {
    pub(super) fn picked(&mut self, picked: &Picked) -> Effect {
        let (crop, mass) = (picked.crop.unwrap_or(Crop::Tomato), picked.mass.unwrap_or_default());
        let fruit = Fruit { on: self.day(), class: picked.ripeness, variety: picked.variety.clone(), mass };
        self.lay_down(crop, fruit);
        Effect { moved: mass, ..Effect::default() }
    }

    /// Fruit that nobody told of, picked that day.
    fn pick(&mut self, crop: Crop, mass: Mass) {
        let fruit = Fruit { on: self.day(), class: None, variety: None, mass };
        self.lay_down(crop, fruit);
    }

    fn lay_down(&mut self, crop: Crop, fruit: Fruit) {
        self.state.totals_mut(self.at).picked += fruit.mass;
        self.state.diary.note_picked(fruit.on, crop, fruit.variety.clone(), fruit.mass);
        self.state.counter.put(crop, fruit);
    }

    /// Takes fruit off the counter. What was never entered counts as picked that day; how much that was is returned.
    pub(super) fn off_counter(&mut self, crop: Crop, mass: Mass) -> Mass {
        let implied = mass.less(self.state.on_counter(crop));
        if !implied.is_zero() {
            self.pick(crop, implied);
        }
        self.state.counter.take(crop, mass, self.state.settings.room);
        implied
    }

    /// Sets the counter right. Found more counts as picked that day; found less as thrown away, since nobody said where
    /// it went and the year must balance.
    pub(super) fn count_counter(&mut self, crop: Crop, mass: Mass) {
        let there = self.state.on_counter(crop);
        if mass > there {
            self.pick(crop, mass.less(there));
        } else if mass < there {
            let gone = there.less(mass);
            self.off_counter(crop, gone);
            let totals = self.state.totals_mut(self.at);
            totals.tossed += gone;
            totals.taken_from_counter += gone;
        }
    }
}
