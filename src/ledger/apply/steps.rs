//! A batch's further steps, and the process time that follows settings and jars.

use super::meant::{Meant, step_of};
use super::{Apply, Mode};
use crate::batch::{Step, Timing};
use crate::ledger::effect::{Effect, Refusal};
use crate::ledger::state::{Stocked, SupplyKey};
use crate::processes;
use crate::quantity::Pressure;
use crate::statement::Statement;

impl Apply<'_> {
    pub(super) fn step(&mut self, statement: &Statement) -> Effect {
        let Some((step, meant)) = step_of(statement) else { return Effect::default() };
        if let Step::Broke { jars } = step
            && let Some(effect) = self.broke_on_the_shelf(jars.unwrap_or(1), &meant)
        {
            return effect;
        }
        let step = self.off_the_gauge(step, &meant);
        let effect = self.take_step(&step, &meant);
        // What happens to a canner is answered whether or not a batch is in it.
        if matches!((&step, &effect.refusal), (Step::Mishap { .. }, Some(Refusal::NoBatch(_)))) {
            return Effect::default();
        }
        effect
    }

    /// `down to 9 pounds` is a gauge where a canner runs under pressure: nobody weighs a pot that is in jars.
    fn off_the_gauge(&self, step: Step, meant: &Meant<'_>) -> Step {
        let Step::CookedDown { mass: Some(mass), .. } = step else { return step };
        let place = self.batch_meant(&step, meant).ok();
        let batch = place.and_then(|place| self.state.batches.get(place));
        let runs = batch.is_some_and(|batch| batch.canner.is_pressure() && batch.heat.is_some());
        let shown = Pressure::from_psi(mass.as_pounds()).filter(|_| runs);
        shown.map_or(step, Step::AtPressure)
    }

    pub(super) fn take_step(&mut self, step: &Step, meant: &Meant<'_>) -> Effect {
        let place = match self.batch_meant(step, meant) {
            Ok(place) => place,
            Err(refusal) => return Effect::refused(refusal),
        };
        if let Err(refusal) = self.set_jar(place, meant).and_then(|()| self.set_timing(place, step)) {
            return Effect::refused(refusal);
        }
        let checked = self.as_told(place, step, meant);
        let Some(batch) = self.state.batches.get_mut(place) else { return Effect::refused(Refusal::NoBatch(None)) };
        let (stage, was_open) = (batch.stage(self.at), batch.is_open());
        match batch.take(&checked, self.at) {
            Ok(taken) => {
                let mut effect = self.carry_over(place, taken);
                effect.acid_lacks = self.lacks_acid(place, &checked);
                Effect { closed: effect.closed && was_open, ..effect }
            }
            Err(misfit) => Effect::refused(Refusal::Misfit {
                batch: batch.name.clone(),
                stage,
                pressure: batch.canner.is_pressure(),
                misfit,
            }),
        }
    }

    /// Jars of another size than the batch was begun with are jars of another process.
    fn set_jar(&mut self, place: usize, meant: &Meant<'_>) -> Result<(), Refusal> {
        let Some(batch) = self.state.batches.get(place) else { return Err(Refusal::NoBatch(None)) };
        let Some(jar) = meant.jar.filter(|jar| *jar != batch.jar && batch.filled == 0) else { return Ok(()) };
        let (product, canner) = (batch.product.clone(), batch.canner);
        let asked = self.state.process(&product, jar, canner, batch.pack, None);
        let timing = self.timing_or_none(asked)?;
        let capacity = self.state.canner_holds(&product, canner, jar);
        if let Some(batch) = self.state.batches.get_mut(place) {
            (batch.jar, batch.timing, batch.capacity) = (jar, timing, capacity);
        }
        Ok(())
    }

    /// The timing of a process that was looked up. What is known to have happened, and has no process any more because
    /// a setting was changed under it, keeps none: then it can't be finished.
    fn timing_or_none(&self, asked: Result<processes::Process, Refusal>) -> Result<Timing, Refusal> {
        match asked {
            Ok(process) => Ok(Timing::from(&process)),
            Err(_) if self.mode == Mode::Fold => Ok(Timing::default()),
            Err(refusal) => Err(refusal),
        }
    }

    /// The clock starts with the process as it is now: the altitude, the jar or the gauge may have been told since the
    /// batch began.
    fn set_timing(&mut self, place: usize, step: &Step) -> Result<(), Refusal> {
        let pressure = match step {
            Step::AtHeat => None,
            Step::AtPressure(pressure) => Some(*pressure),
            _ => return Ok(()),
        };
        let Some(batch) = self.state.batches.get(place) else { return Err(Refusal::NoBatch(None)) };
        if batch.heat.is_some() {
            return Ok(());
        }
        // On a gauge that reads high there is less than it shows.
        let high = batch.gauge_high.map_or(0.0, Pressure::as_psi);
        let pressure = pressure.and_then(|shown| Pressure::from_psi((shown.as_psi() - high).max(0.0)));
        let asked = match self.state.process(&batch.product, batch.jar, batch.canner, batch.pack, pressure) {
            Err(Refusal::Process { why: processes::Refusal::PressureTooLow { need }, .. }) => {
                return Err(Refusal::LowPressure { batch: batch.name.clone(), needed: need.as_psi() });
            }
            asked => asked,
        };
        let timing = self.timing_or_none(asked)?;
        if let Some(batch) = self.state.batches.get_mut(place) {
            batch.timing = timing;
        }
        Ok(())
    }

    /// A setting that process times follow was told while batches are under way: their times follow it at once. One
    /// that has no process any more can't be finished. Returns those whose time changed.
    pub(super) fn retime(&mut self) -> Vec<u32> {
        let mut changed = Vec::new();
        for place in 0..self.state.batches.len() {
            let Some(batch) = self.state.batches.get(place).filter(|batch| batch.is_open() && batch.heat_off.is_none())
            else {
                continue;
            };
            if batch.filled > 0 && batch.waiting() == 0 && batch.heat.is_none() {
                continue;
            }
            let pressure = batch.heat.and_then(|heat| heat.pressure);
            let asked = self.state.process(&batch.product, batch.jar, batch.canner, batch.pack, pressure);
            let timing = asked.map(|process| Timing::from(&process)).unwrap_or_default();
            if timing.minutes != batch.timing.minutes || timing.pressure != batch.timing.pressure {
                changed.push(batch.number);
            }
            if let Some(batch) = self.state.batches.get_mut(place) {
                batch.timing = timing;
            }
        }
        changed
    }

    /// When another acid turns out to have gone in than was counted down at filling, the count follows.
    pub(super) fn count_acid_anew(&mut self, place: usize) {
        let Some(batch) = self.state.batches.get(place) else { return };
        let (Some(said), Some((counted, mass, volume))) = (batch.acid, batch.acid_counted) else { return };
        if said == counted {
            return;
        }
        let (product, jar, jars) = (batch.product.clone(), batch.jar, batch.filled);
        if self.state.supplies.get(counted.supply()).is_some() {
            let back = Stocked { count: 0, mass, volume };
            self.state.supplies.add(SupplyKey(counted.supply(), None), back);
        }
        let taken = match self.state.acid_needed(&product, jar, jars, Some(said)) {
            Some((key, needed)) => self.state.supplies.use_up(key, needed),
            None => Stocked::default(),
        };
        if let Some(batch) = self.state.batches.get_mut(place) {
            batch.acid_counted = Some((said, taken.mass, taken.volume));
        }
    }
}
