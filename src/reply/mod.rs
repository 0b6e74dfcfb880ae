//! Facts to text, in the reader's units. Everything a person reads from the assistant is written here, and every figure
//! in it stands in the [`Facts`] beside it.
//!
//! Invariants: a reply reads a state and changes nothing; the first line answers, what follows is what a cook would
//! want next; no process time is said without its table, and none where there is no tested one.

mod acid;
mod ahead;
mod alerts;
mod answers;
mod batches;
mod canner;
mod canning;
mod day;
mod digest;
mod dryer;
mod facts;
mod forecast;
mod garden;
mod handbook;
mod help;
mod kitchen;
mod log;
mod mishaps;
mod papers;
mod pictures;
mod plans;
mod planting;
mod pot;
mod proposals;
mod questions;
mod refusals;
mod reminders;
mod safety;
mod seals;
mod stocks;
mod thawing;
mod topics;
mod words;
mod yields;

pub use alerts::{due, holding};
pub use answers::{answer, answer_with};
pub use facts::Facts;
pub(crate) use facts::{grams, iso, round};
pub use help::{each_by_itself, left_over, not_understood, nothing_to_correct, nothing_to_undo, too_long};
pub use papers::{NoLabels, label_sheet, occasions};
pub use pictures::picture;
pub use plans::no_plan;
pub use proposals::{not_understood_in, proposal, turned_down};
pub use questions::clarify;
pub use refusals::refusal;
pub(crate) use refusals::{too_low, too_soon};
pub use stocks::{standing, summary, undone};
pub use topics::{Topic, topics};
pub use words::Words;
pub use yields::offer as yield_offer;

use crate::ledger::state::{State, SupplyKey};
use crate::ledger::{Cut, Effect, Entry};
use crate::statement::Statement;
use crate::vocabulary::{Stock, Supply};
use chrono::{DateTime, Utc};

/// Text and the figures in it.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Reply {
    /// A few short lines.
    pub text: String,
    /// Every figure in them.
    pub facts: Facts,
}

/// What a reply is made from.
#[derive(Clone, Copy)]
pub struct Scene<'a> {
    /// The state after the message.
    pub state: &'a State,
    /// The instant.
    pub now: DateTime<Utc>,
}

/// The reply to an entry that was taken in.
pub fn entered(scene: Scene<'_>, entry: &Entry, effect: &Effect) -> Reply {
    let mut reply = match &entry.statement {
        Statement::Picked(said) => garden::picked(scene, said, &entry.words),
        Statement::Froze(said) if said.jars.is_some() => jars_frozen(scene, &entry.statement, effect),
        Statement::Froze(said) if said.from == Some(Stock::Thawing) => thawing::frozen_again(scene, said, effect),
        Statement::Froze(said) => garden::froze(scene, said, effect, &entry.words),
        Statement::Thawed(said) => garden::thawed(scene, said, effect, &entry.words),
        Statement::Ate(said) => garden::taken(scene, said, effect, "Eaten", &entry.words),
        Statement::Gave(said) => garden::taken(scene, said, effect, "Given away", &entry.words),
        Statement::Tossed(said) => garden::taken(scene, said, effect, "Thrown away", &entry.words),
        Statement::Counted(said) => stocks::counted(scene, said),
        Statement::PutUp(said) => kitchen::put_up(scene, said, effect),
        Statement::Opened(_) => kitchen::opened(scene, effect),
        Statement::Spoiled(said) => safety::spoiled(scene, said, effect),
        Statement::Dried(said) => dryer::dried(scene, said),
        Statement::Dry(said) => dryer::dry(scene, said, effect),
        Statement::Powdered(said) => dryer::powdered(scene, said, effect),
        Statement::Bought(said) => kitchen::bought(scene, said),
        Statement::Recipe(said) => kitchen::recipe(scene, said),
        Statement::TimerStart(said) => kitchen::timer_start(scene, said, entry),
        Statement::TimerStop(said) => kitchen::timer_stop(said, effect),
        Statement::Set(said) => kitchen::set(scene, said, effect),
        Statement::Teach(said) => proposals::taught(said),
        Statement::Planted(said) => plans::planted(scene, said),
        Statement::Planned(_) => plans::planned(scene, effect),
        Statement::CalledOff(_) => plans::called_off(scene, effect),
        _ => canning::step(scene, &entry.statement, effect),
    };
    for key in &effect.used {
        let left = scene.state.supplies.of(*key).unwrap_or_default();
        if left == Default::default() && !matches!(entry.statement, Statement::Bought(_)) {
            let is =
                if matches!(key.0, Supply::Lids | Supply::Jars | Supply::Bags) { "are no more" } else { "is no more" };
            let what = match key {
                SupplyKey(Supply::Jars, Some(jar)) => format!("empty {}", jar.spoken(2)),
                SupplyKey(supply, _) => words::supply(*supply).to_owned(),
            };
            reply.text.push_str(&format!("\nBy my count there {is} {what}."));
        }
    }
    // A household that never logs its pickings need not read this every time.
    if !effect.implied.is_zero() && effect.implied < effect.moved {
        let words = Words::of(&scene.state.settings);
        reply.text.push_str(&format!(
            "\n({} of it was never logged as picked; I counted it in.)",
            words.mass(effect.implied)
        ));
    }
    reply
}

/// With a capital letter at the start.
pub(crate) fn capitalised(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map(|first| first.to_uppercase().chain(letters).collect()).unwrap_or_default()
}

/// Jars into the freezer: of a batch, or of the refrigerator.
fn jars_frozen(scene: Scene<'_>, statement: &Statement, effect: &Effect) -> Reply {
    if effect.batch.is_some() {
        return canning::step(scene, statement, effect);
    }
    let mut facts = Facts::default();
    facts.set("fridge_jars", scene.state.fridge.jars(None, None));
    Reply { text: seals::into_freezer(scene, effect), facts }
}

/// A line for each later entry that no longer fits.
pub fn cuts(scene: Scene<'_>, cuts: &[Cut]) -> String {
    let words = Words::of(&scene.state.settings);
    cuts.iter()
        .map(|cut| match &cut.shortage {
            Some(short) => format!(
                "\nThat leaves too little for '{}': cut to {}.",
                words.quote(&cut.words),
                words.amount(&short.there)
            ),
            None => format!("\n'{}' no longer fits and is left out.", words.quote(&cut.words)),
        })
        .collect()
}
