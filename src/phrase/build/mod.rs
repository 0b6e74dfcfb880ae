//! From the words of a clause to the statement of a frame: what each item is taken for, and what is left over.
//!
//! Nothing is chosen here. Where words can be taken in several ways, each way is a candidate of its own.
//!
//! ```text
//! clause, made, when, record   what all builders share
//! fill                         most kinds: the slots of the frame are filled
//! ask, plan, set               questions, canning days and timers, settings
//! change, correct              names, recipes, taught words; what was said before, put right
//! ```

mod ask;
mod change;
mod clause;
mod correct;
mod fill;
mod made;
mod plan;
mod record;
mod set;
mod when;

use super::frame::Build;
pub(super) use clause::{Clause, Scene};
pub(super) use fill::product_named;
pub(super) use made::{Made, NOTES, Note, Used};

/// All ways to take a clause under its frame.
pub(super) fn build(clause: &Clause<'_>, out: &mut Vec<Made>) {
    out.extend(match clause.frame.build {
        Build::Slots => return fill::fill(clause, out),
        Build::Jars => fill::jars_frozen(clause),
        Build::Named => change::named(clause),
        Build::Plan => plan::plan(clause),
        Build::Moved => plan::moved(clause),
        Build::Recipe => change::recipe(clause),
        Build::Timer => plan::timer(clause),
        Build::Timezone => set::timezone(clause),
        Build::Quiet => set::quiet(clause),
        Build::Digest => Some(set::digest(clause)),
        Build::Season => set::season(clause),
        Build::Labels => set::labels(clause),
        Build::Chart => Some(ask::chart(clause)),
        Build::Table => Some(ask::table(clause)),
        Build::Undo => change::undo(clause),
        Build::Correct => correct::correct(clause),
        Build::Teach => change::teach(clause),
    });
}
