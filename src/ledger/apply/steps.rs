//! A batch's further steps: which batch a phrase means, and what the step moves in the rest of the ledger.

use super::{Apply, Mode};
use crate::batch::{Batch, Misfit, Stage, Step, Taken, Timing};
use crate::ledger::effect::{Effect, Refusal};
use crate::ledger::state::{Lot, Stocked, SupplyKey};
use crate::processes;
use crate::statement::Statement;
use crate::vocabulary::{Jar, Product, Supply};

/// What a phrase says of the batch it means.
#[derive(Default)]
struct Meant<'a> {
    name: Option<&'a str>,
    product: Option<&'a Product>,
    jar: Option<Jar>,
}

impl Apply<'_> {
    pub(super) fn step(&mut self, statement: &Statement) -> Effect {
        let Some((step, meant)) = step_of(statement) else { return Effect::default() };
        let place = match self.batch_meant(&step, &meant) {
            Ok(place) => place,
            Err(refusal) => return Effect::refused(refusal),
        };
        if let Err(refusal) = self.set_jar(place, &meant).and_then(|()| self.set_timing(place, &step)) {
            return Effect::refused(refusal);
        }
        let Some(batch) = self.state.batches.get_mut(place) else { return Effect::refused(Refusal::NoBatch(None)) };
        let stage = batch.stage(self.at);
        match batch.take(&step, self.at) {
            Ok(taken) => self.carry_over(place, taken),
            Err(misfit) => Effect::refused(Refusal::Misfit {
                batch: batch.name.clone(),
                stage,
                pressure: batch.canner.is_pressure(),
                misfit,
            }),
        }
    }

    /// The batch a step is for: the one named, else the only one it fits. Where it fits none, the latest says why.
    fn batch_meant(&self, step: &Step, meant: &Meant<'_>) -> Result<usize, Refusal> {
        let named =
            |batch: &Batch| meant.name.is_none_or(|name| batch.is_called(name)) && batch.fits(meant.product, meant.jar);
        let reopens = |batch: &Batch| batch.reprocessing() > 0;
        let all = || self.state.batches.iter().enumerate();
        let mut open: Vec<_> = all().filter(|(_, batch)| batch.is_open() && named(batch)).collect();
        if open.is_empty() {
            open = all().filter(|(_, batch)| reopens(batch) && named(batch)).collect();
        }
        // "filled 7 pints" may say another jar than was planned: then it is the jar that is corrected.
        if open.is_empty() && meant.jar.is_some() {
            let same = |batch: &Batch| meant.product.is_none_or(|product| batch.is_called(product.as_str()));
            let unfilled: Vec<_> = all().filter(|(_, batch)| batch.is_open() && batch.filled == 0).collect();
            // With several open, jars that none was begun with are nobody's.
            open = unfilled.iter().copied().filter(|(_, batch)| unfilled.len() == 1 && same(batch)).collect();
        }
        let fits = |batch: &Batch| {
            let taken = batch.clone().take(step, self.at);
            matches!(taken, Ok(taken) if !taken.too_soon)
        };
        let fitting: Vec<_> = open.iter().filter(|(_, batch)| fits(batch)).map(|(place, _)| *place).collect();
        match (fitting.as_slice(), open.last()) {
            ([only], _) => Ok(*only),
            ([.., last], _) if self.mode == Mode::Fold => Ok(*last),
            ([], Some((last, _))) => Ok(*last),
            ([], None) => Err(Refusal::NoBatch(meant.product.cloned())),
            (several, _) => Err(Refusal::WhichBatch(
                several
                    .iter()
                    .filter_map(|place| self.state.batches.get(*place))
                    .map(|batch| batch.name.clone())
                    .collect(),
            )),
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

    /// The timing of a process that was looked up. What is known to have happened, and has no process any more because a setting
    /// was changed under it, keeps none: then it can't be finished.
    fn timing_or_none(&self, asked: Result<processes::Process, Refusal>) -> Result<Timing, Refusal> {
        match asked {
            Ok(process) => Ok(Timing::from(&process)),
            Err(_) if self.mode == Mode::Fold => Ok(Timing::default()),
            Err(refusal) => Err(refusal),
        }
    }

    /// The clock starts with the process as it is now: the altitude, the jar or the gauge may have been told since the batch
    /// began.
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

    /// A setting that process times follow was told while batches are under way: their times follow it at once. One that has no
    /// process any more can't be finished. Returns those whose time changed.
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
    fn count_acid_anew(&mut self, place: usize) {
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

    /// What a step moves outside the batch: fruit, lids and acid when jars are filled, jars when they seal or do not.
    fn carry_over(&mut self, place: usize, taken: Taken) -> Effect {
        let Some(batch) = self.state.batches.get(place).cloned() else { return Effect::default() };
        let mut effect = Effect { batch: Some(batch.number), too_soon: taken.too_soon, ..Effect::default() };
        if taken.filled > 0 {
            let first = batch.filled == taken.filled;
            let stated = batch.stated.filter(|_| first);
            let (fruit, implied) = self.fruit_into_jars(&batch.product, Some(batch.thawed), stated);
            if let Some(batch) = self.state.batches.get_mut(place) {
                batch.raw += fruit.raw;
                batch.fresh += fruit.fresh;
                batch.thawed = crate::quantity::Mass::ZERO;
            }
            effect.implied = implied;
            let acid = batch.acid.unwrap_or_else(|| self.state.acid_for(&batch.product, batch.jar));
            let (used, of_acid) = self.use_supplies(&batch.product, batch.jar, taken.filled, Some(acid));
            effect.used = used;
            if let Some(batch) = self.state.batches.get_mut(place) {
                let before = batch.acid_counted.filter(|(counted, ..)| *counted == acid);
                let (mass, volume) = before.map_or_else(Default::default, |(_, mass, volume)| (mass, volume));
                batch.acid_counted = Some((acid, mass + of_acid.mass, volume + of_acid.volume));
            }
        }
        self.count_acid_anew(place);
        if taken.reprocessed > 0 {
            let lids = SupplyKey(Supply::Lids, None);
            self.state.supplies.use_up(lids, Stocked { count: taken.reprocessed, ..Stocked::default() });
            effect.used = vec![lids];
            effect.used.retain(|key| self.state.supplies.get(key.0).is_some());
        }
        let on = self.day();
        let lot = |jars| Lot { product: batch.product.clone(), jar: batch.jar, jars, on, batch: Some(batch.number) };
        if taken.sealed > 0 {
            self.state.pantry.put(lot(taken.sealed));
            self.state.diary.note_put_up(on, &batch.product, batch.jar, taken.sealed);
            self.state.totals_mut(self.at).jars_put_up += taken.sealed;
        }
        self.state.fridge.put(lot(taken.refrigerated));
        effect
    }
}

/// The step and the batch that a statement means.
fn step_of(statement: &Statement) -> Option<(Step, Meant<'_>)> {
    let step = match statement {
        Statement::Drained(s) => (Step::Drained { mass: s.mass, volume: s.volume }, s.batch.as_deref()),
        Statement::Filled(s) => {
            let meant = Meant { name: s.batch.as_deref(), product: s.product.as_ref(), jar: s.jar };
            return Some((Step::Filled { jars: s.jars }, meant));
        }
        Statement::AcidAdded(s) => (Step::AcidAdded { acid: s.supply }, s.batch.as_deref()),
        Statement::Venting(s) => (Step::Venting, s.batch.as_deref()),
        Statement::AtHeat(s) => (s.psi.map_or(Step::AtHeat, Step::AtPressure), s.batch.as_deref()),
        Statement::LostHeat(s) => (Step::LostHeat, s.batch.as_deref()),
        Statement::HeatOff(s) => (Step::HeatOff, s.batch.as_deref()),
        Statement::PressureDown(s) => (Step::PressureDown, s.batch.as_deref()),
        Statement::Lifted(s) => (Step::Lifted { jars: s.jars }, s.batch.as_deref()),
        Statement::Sealed(s) => (Step::Sealed { jars: s.jars, of: s.of }, s.batch.as_deref()),
        Statement::Unsealed(s) => (Step::Unsealed { jars: s.jars }, s.batch.as_deref()),
        Statement::Reprocessed(s) => (Step::Reprocessed { jars: s.jars }, s.batch.as_deref()),
        Statement::Refrigerated(s) => (Step::Refrigerated { jars: s.jars }, s.batch.as_deref()),
        _ => return None,
    };
    Some((step.0, Meant { name: step.1, ..Meant::default() }))
}

impl Misfit {
    /// Whether it only comes before its time.
    pub fn is_too_soon(&self, stage: Stage) -> bool {
        match self {
            Self::TooSoon { .. } => true,
            Self::OutOfOrder(_) => stage < Stage::Cooling,
            Self::Running { .. }
            | Self::TooMany { .. }
            | Self::TooLate { .. }
            | Self::Filled { .. }
            | Self::NoPressure => false,
        }
    }
}
