//! Fruit onto the counter, and off it.

use super::Apply;
use crate::ledger::effect::Effect;
use crate::quantity::Mass;
use crate::statement::Picked;
use crate::vocabulary::Crop;

impl Apply<'_> {
    pub(super) fn picked(&mut self, picked: &Picked) -> Effect {
        let mass = picked.mass.unwrap_or_default();
        self.pick(picked.crop.unwrap_or(Crop::Tomato), mass);
        Effect { moved: mass, ..Effect::default() }
    }

    pub(super) fn pick(&mut self, crop: Crop, mass: Mass) {
        *self.state.counter.entry(crop).or_default() += mass;
        self.state.totals_mut(self.at).picked += mass;
    }

    /// Takes fruit off the counter. What was never entered counts as picked that day; how much that was is returned.
    pub(super) fn off_counter(&mut self, crop: Crop, mass: Mass) -> Mass {
        let implied = mass.less(self.state.on_counter(crop));
        if !implied.is_zero() {
            self.pick(crop, implied);
        }
        let left = self.state.on_counter(crop).less(mass);
        if left.is_zero() {
            self.state.counter.remove(&crop);
        } else {
            self.state.counter.insert(crop, left);
        }
        implied
    }

    /// Sets the counter right. Found more counts as picked that day; found less as thrown away, since nobody said where it
    /// went and the year must balance.
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
