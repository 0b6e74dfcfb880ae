//! One entry applied to a state. Deciding and folding are the same code: [`Mode::Decide`] refuses what is not there,
//! [`Mode::Fold`] cuts it to what is there and goes on.
//!
//! Invariant: with [`Effect::refusal`] set, the state is unchanged.

mod acid;
mod canning;
mod carrying;
mod dryer;
mod freezer;
mod garden;
mod meant;
mod plans;
mod process;
mod shelf;
mod spoiled;
mod steps;
mod supplies;
mod thawed;
mod undertaking;

pub(crate) use acid::is_as_published;
pub(crate) use canning::crop_of;
pub use process::{Made, made};
pub(crate) use shelf::names;

use super::effect::Effect;
use super::entry::Entry;
use super::state::State;
use crate::statement::Statement;
use chrono::{DateTime, NaiveDate, Utc};

/// Whether an entry is being decided on, or is known to have happened.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Mode {
    /// Refuses what does not fit.
    Decide,
    /// Takes what fits: the past may have changed under it.
    Fold,
}

/// An entry at work on a state.
pub(super) struct Apply<'a> {
    state: &'a mut State,
    at: DateTime<Utc>,
    mode: Mode,
}

impl Apply<'_> {
    /// The day in the room.
    fn day(&self) -> NaiveDate {
        self.state.settings.zone.day(self.at)
    }
}

/// Applies an entry.
pub fn apply(state: &mut State, entry: &Entry, mode: Mode) -> Effect {
    state.folded += 1;
    let mut on = Apply { state, at: entry.happened, mode };
    on.forget_old();
    match &entry.statement {
        Statement::Picked(picked) => on.picked(picked),
        Statement::Froze(froze) => on.froze(froze),
        Statement::Thawed(thawed) => on.thawed(thawed),
        Statement::Ate(taken) => on.taken(taken, undertaking::Use::Eaten),
        Statement::Gave(taken) => on.taken(taken, undertaking::Use::Given),
        Statement::Tossed(taken) => on.taken(taken, undertaking::Use::Tossed),
        Statement::Counted(counted) => on.counted(counted),
        Statement::Began(began) => on.began(began),
        Statement::Named(named) => on.named(named),
        Statement::PutUp(jarred) => on.put_up(jarred),
        Statement::Opened(jarred) => on.opened(jarred),
        Statement::Spoiled(spoiled) => on.spoiled(spoiled),
        Statement::Dried(dried) => on.dried(dried),
        Statement::Dry(dry) => on.dry(dry),
        Statement::Planted(planted) => on.planted(planted),
        Statement::Planned(planned) => on.planned(planned),
        Statement::CalledOff(off) => on.called_off(off),
        Statement::Powdered(powdered) => on.powdered(powdered),
        Statement::Bought(bought) => on.bought(bought),
        Statement::Recipe(recipe) => on.recipe(recipe),
        Statement::TimerStart(timer) => on.timer_start(timer),
        Statement::TimerStop(timer) => on.timer_stop(timer),
        Statement::Set(set) => on.set(set),
        Statement::Drained(_)
        | Statement::Filled(_)
        | Statement::AcidAdded(_)
        | Statement::AcidMissing(_)
        | Statement::Venting(_)
        | Statement::AtHeat(_)
        | Statement::LostHeat(_)
        | Statement::HeatOff(_)
        | Statement::PressureDown(_)
        | Statement::Lifted(_)
        | Statement::Sealed(_)
        | Statement::Unsealed(_)
        | Statement::Reprocessed(_)
        | Statement::Refrigerated(_)
        | Statement::Broke(_)
        | Statement::Siphoned(_)
        | Statement::Mishap(_)
        | Statement::Stopped(_)
        | Statement::Resumed(_)
        | Statement::CookedDown(_) => on.step(&entry.statement),
        // These are never entries.
        Statement::Teach(said) => {
            // The last meaning of a word counts.
            on.state.taught.retain(|known| known.word != said.word);
            on.state.taught.push(said.clone());
            Effect::default()
        }
        Statement::Ask(_) | Statement::Undo | Statement::Correct(_) | Statement::Propose(_) | Statement::Clarify(_) => {
            Effect::default()
        }
    }
}
