//! Which batch a phrase means, and the step that it is to the batch.

use super::{Apply, Mode};
use crate::batch::{Batch, Fate, Misfit, Stage, Step};
use crate::ledger::effect::{Effect, Refusal};
use crate::processes;
use crate::statement::{AcidAdded, Named, Statement};
use crate::vocabulary::{Jar, Mishap, Product};

/// What a phrase says of the batch it means.
#[derive(Default)]
pub(super) struct Meant<'a> {
    pub(super) name: Option<&'a str>,
    pub(super) product: Option<&'a Product>,
    pub(super) jar: Option<Jar>,
    /// What was told of the acid, where that is what is told.
    pub(super) acid: Option<&'a AcidAdded>,
    /// How many jars alone have acid.
    pub(super) only: Option<u32>,
}

impl Meant<'_> {
    fn is(&self, batch: &Batch) -> bool {
        self.name.is_none_or(|name| batch.is_called(name)) && batch.fits(self.product, self.jar)
    }
}

type Found<'a> = Vec<(usize, &'a Batch)>;

impl Apply<'_> {
    /// The batch a step is for: the one named, else the only one it fits. Where it fits none, the latest says why.
    pub(super) fn batch_meant(&self, step: &Step, meant: &Meant<'_>) -> Result<usize, Refusal> {
        let all = || self.state.batches.iter().enumerate();
        let mut open: Found<'_> = all().filter(|(_, batch)| batch.is_open() && meant.is(batch)).collect();
        // Jars that went through again, or lost liquid, may be of a batch that is closed.
        let again =
            step.is_in_canner() || step.is_of_seals() || matches!(step, Step::Reprocessed { .. } | Step::Broke { .. });
        // Jars that are done again with acid are of a batch that is closed until they are out.
        let untold = matches!(step, Step::AcidAdded { .. });
        let late = |batch: &Batch| {
            let rest = matches!(step, Step::Filled { .. }) && batch.takes_more(self.at);
            rest || (again || untold && !batch.is_acidified()) && batch.reprocessing() > 0
                || matches!(step, Step::Siphoned { .. } | Step::Mishap { .. } | Step::AcidMissing { .. })
        };
        let closed: Found<'_> = all().filter(|(_, batch)| !batch.is_open() && late(batch) && meant.is(batch)).collect();
        // "filled 7 pints" may say another jar than was planned: then it is the jar that is corrected.
        if open.is_empty() && closed.is_empty() && meant.jar.is_some() {
            let same = |batch: &Batch| meant.product.is_none_or(|product| batch.is_called(product.as_str()));
            let unfilled: Found<'_> = all().filter(|(_, batch)| batch.is_open() && batch.filled == 0).collect();
            // With several open, jars that none was begun with are nobody's.
            open = unfilled.iter().copied().filter(|(_, batch)| unfilled.len() == 1 && same(batch)).collect();
        }
        // "It sealed" may be of the jar that went through again, though its batch was closed: then it is asked.
        let through_again = closed.iter().copied().filter(|(_, batch)| step.is_of_seals() && batch.out_again() > 0);
        let mut fitting = self.fitting(step, &open.iter().copied().chain(through_again).collect::<Found<'_>>());
        if fitting.is_empty() {
            fitting = self.fitting(step, &closed);
        }
        // Where it fits none, the one in or before the canner says why, and not one that is long out of it.
        let stands = |(_, batch): &&(usize, &Batch)| step.is_in_canner() && batch.stage(self.at) < Stage::Cooling;
        // It stands at the very stage, and only has to wait.
        let waits = |(_, batch): &&(usize, &Batch)| {
            let taken = (*batch).clone().take(step, self.at);
            matches!(taken, Err(Misfit::UnderPressure { .. } | Misfit::Unvented { .. }))
        };
        let explains = open.iter().rfind(waits).or_else(|| open.iter().rfind(stands)).or(open.last()).or(closed.last());
        match (fitting.as_slice(), explains) {
            ([only], _) => Ok(only.0),
            ([.., last], _) if self.mode == Mode::Fold => Ok(last.0),
            ([], Some((last, _))) => Ok(*last),
            ([], None) => Err(self.no_batch(meant)),
            (several, _) => Err(Refusal::WhichBatch(several.iter().map(|(_, batch)| batch.name.clone()).collect())),
        }
    }

    /// The batches that a step fits; of several those that it suits best.
    fn fitting<'a>(&self, step: &Step, batches: &[(usize, &'a Batch)]) -> Found<'a> {
        let fits = |batch: &Batch| {
            let taken = batch.clone().take(step, self.at);
            matches!(taken, Ok(taken) if !taken.too_soon && !taken.too_low)
        };
        let mut fitting: Found<'a> = batches.iter().copied().filter(|(_, batch)| fits(batch)).collect();
        // What was set aside is not what goes on, unless nothing else could.
        prefer(&mut fitting, |batch| batch.stopped.is_none() || !step.goes_on());
        prefer(&mut fitting, |batch| suits(step, batch));
        fitting
    }

    /// Whether a step fits some open batch that is meant.
    pub(super) fn fits_any_open(&self, step: &Step, meant: &Meant<'_>) -> bool {
        let open = self.state.batches.iter().filter(|batch| batch.is_open() && meant.is(batch));
        let found: Found<'_> = open.map(|batch| (0, batch)).collect();
        !self.fitting(step, &found).is_empty()
    }

    fn no_batch(&self, meant: &Meant<'_>) -> Refusal {
        let open: Vec<String> = self.state.open_batches().map(|batch| batch.name.clone()).collect();
        match meant.name {
            Some(name) if !open.is_empty() => Refusal::NoSuchBatch(name.to_owned(), open),
            _ => Refusal::NoBatch(meant.product.cloned()),
        }
    }

    /// A batch gets another short name, unless another open one answers to it.
    pub(super) fn named(&mut self, named: &Named) -> Effect {
        let name = named.name.trim().to_lowercase();
        if name.is_empty() || name.len() > 40 || name.parse::<u32>().is_ok() {
            let sentence = "a batch's name is a short word, and no number; how is it to be called?";
            return Effect::refused(Refusal::Absurd(sentence.to_owned()));
        }
        let meant = Meant { name: named.batch.as_deref(), ..Meant::default() };
        let open: Found<'_> =
            self.state.batches.iter().enumerate().filter(|(_, batch)| batch.is_open() && meant.is(batch)).collect();
        let place = match open.as_slice() {
            [] => return Effect::refused(self.no_batch(&meant)),
            [(only, _)] => *only,
            [.., (last, _)] if self.mode == Mode::Fold => *last,
            several => {
                let names = several.iter().map(|(_, batch)| batch.name.clone()).collect();
                return Effect::refused(Refusal::WhichBatch(names));
            }
        };
        let another =
            |(other, batch): (usize, &crate::batch::Batch)| other != place && batch.is_open() && batch.is_called(&name);
        if self.state.batches.iter().enumerate().any(another) {
            return Effect::refused(Refusal::NameTaken(name));
        }
        let Some(batch) = self.state.batches.get_mut(place) else { return Effect::default() };
        batch.name = name;
        Effect { batch: Some(batch.number), ..Effect::default() }
    }
}

/// Of several, only those that are more likely meant, if there are such.
fn prefer(fitting: &mut Found<'_>, likely: impl Fn(&Batch) -> bool) {
    if fitting.len() > 1 && fitting.iter().any(|(_, batch)| likely(batch)) {
        fitting.retain(|(_, batch)| likely(batch));
    }
}

/// Whether a step that fits several batches is more likely this one's.
fn suits(step: &Step, batch: &Batch) -> bool {
    match step {
        Step::Drained { .. } => batch.filled == 0 && !batch.thawed.is_zero(),
        Step::CookedDown { .. } => batch.filled == 0,
        // Nobody heats empty jars, where another batch's are filled.
        Step::AtPressure(_) => batch.filled > 0 && batch.canner.is_pressure(),
        Step::AtHeat => batch.filled > 0,
        Step::Venting => batch.filled > 0 && batch.venting.is_none(),
        Step::AcidAdded { .. } => {
            !batch.acid_in
                && (batch.outs.is_empty() || batch.undecided() > 0)
                && processes::product(batch.product.as_str()).is_some_and(processes::needs_acid)
        }
        Step::AcidMissing { .. } => batch.needs_acid,
        // Jars that are held are told already.
        Step::Sealed { of, .. } => {
            of.is_none_or(|of| batch.filled == of) && (batch.fates.held == 0 || batch.undecided() > batch.fates.held)
        }
        Step::Ended { .. } | Step::Reprocessed { .. } => batch.unsealed_open() > 0,
        // What is answered was asked; what happens, happens to a canner that is hot.
        Step::Mishap { what: Mishap::Held | Mishap::Fell, .. } => batch.doubt.is_some(),
        Step::LostHeat => batch.heat.is_some() || batch.doubt.is_some(),
        Step::Mishap { .. } => batch.heat.is_some() || batch.heat_off.is_some(),
        _ => true,
    }
}

/// The step and the batch that a statement means.
pub(super) fn step_of(statement: &Statement) -> Option<(Step, Meant<'_>)> {
    let step = match statement {
        Statement::Drained(s) => (Step::Drained { mass: s.mass, volume: s.volume, kept: s.kept }, s.batch.as_deref()),
        Statement::CookedDown(s) => (Step::CookedDown { mass: s.mass, volume: s.volume }, s.batch.as_deref()),
        Statement::Filled(s) => {
            let meant = Meant { name: s.batch.as_deref(), product: s.product.as_ref(), jar: s.jar, ..Meant::default() };
            return Some((Step::Filled { jars: s.jars }, meant));
        }
        Statement::AcidAdded(s) => {
            let meant = Meant { name: s.batch.as_deref(), acid: Some(s), ..Meant::default() };
            return Some((Step::AcidAdded { acid: s.supply }, meant));
        }
        Statement::AcidMissing(s) => {
            let meant = Meant { name: s.batch.as_deref(), only: s.only, ..Meant::default() };
            return Some((Step::AcidMissing { jars: s.jars }, meant));
        }
        Statement::Venting(s) => (Step::Venting, s.batch.as_deref()),
        Statement::AtHeat(s) => (s.psi.map_or(Step::AtHeat, Step::AtPressure), s.batch.as_deref()),
        Statement::LostHeat(s) => (Step::LostHeat, s.batch.as_deref()),
        Statement::HeatOff(s) => (Step::HeatOff, s.batch.as_deref()),
        Statement::PressureDown(s) => (Step::PressureDown, s.batch.as_deref()),
        Statement::Lifted(s) => (Step::Lifted { jars: s.jars }, s.batch.as_deref()),
        Statement::Sealed(s) => (Step::Sealed { jars: s.jars, of: s.of, round: s.round }, s.batch.as_deref()),
        Statement::Unsealed(s) => (Step::Unsealed { jars: s.jars, round: s.round }, s.batch.as_deref()),
        Statement::Reprocessed(s) => (Step::Reprocessed { jars: s.jars }, s.batch.as_deref()),
        Statement::Refrigerated(s) => (Step::Ended { fate: Fate::Refrigerated, jars: s.jars }, s.batch.as_deref()),
        Statement::Broke(s) => (Step::Broke { jars: s.jars }, s.batch.as_deref()),
        Statement::Siphoned(s) => (Step::Siphoned { jars: s.jars }, s.batch.as_deref()),
        Statement::Mishap(s) => (Step::Mishap { what: s.what, psi: s.psi }, s.batch.as_deref()),
        Statement::Stopped(s) => (Step::Stopped, s.batch.as_deref()),
        Statement::Resumed(s) => (Step::Resumed, s.batch.as_deref()),
        _ => return None,
    };
    Some((step.0, Meant { name: step.1, ..Meant::default() }))
}

impl Misfit {
    /// Whether it only comes before its time.
    pub fn is_too_soon(&self, stage: Stage) -> bool {
        match self {
            Self::TooSoon { .. } | Self::Unvented { .. } | Self::UnderPressure { .. } | Self::Unprocessed => true,
            Self::OutOfOrder(_) => stage < Stage::Cooling,
            Self::Running { .. }
            | Self::TooMany { .. }
            | Self::NoSuchRound { .. }
            | Self::TooLate { .. }
            | Self::Filled { .. }
            | Self::Stopped { .. }
            | Self::NotStopped
            | Self::NotAcidified
            | Self::AcidTooLate { .. }
            | Self::AcidDisputed
            | Self::Again
            | Self::Stood { .. }
            | Self::Doubtful
            | Self::VentFirst
            | Self::GaugeUnread
            | Self::GaugeOff
            | Self::NoPressure => false,
        }
    }
}
