//! From the words of a clause to the statement of a frame: what each item is taken for, and what is left over.
//!
//! Nothing is chosen here. Where words can be taken in several ways, each way is a candidate of its own.
//!
//! ```text
//! clause, made, when, record   what all builders share
//! fill                         most kinds: the slots of the frame are filled
//! ask, change, plan, set       kinds that are built in their own way
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
    match clause.frame.build {
        Build::Slots => fill::fill(clause, out),
        Build::Jars => out.extend(fill::jars_frozen(clause)),
        Build::Named => out.extend(change::named(clause)),
        Build::Plan => plan::plan(clause, out),
        Build::Recipe => out.extend(change::recipe(clause)),
        Build::Timer => plan::timer(clause, out),
        Build::Timezone => out.extend(set::timezone(clause)),
        Build::Quiet => out.extend(set::quiet(clause)),
        Build::Digest => out.extend(set::digest(clause)),
        Build::Season => out.extend(set::season(clause)),
        Build::Labels => out.extend(set::labels(clause)),
        Build::Chart => out.extend(ask::chart(clause)),
        Build::Table => out.extend(ask::table(clause)),
        Build::Undo => out.extend(change::undo(clause)),
        Build::Correct => out.extend(correct::correct(clause)),
        Build::Teach => out.extend(change::teach(clause)),
    }
}
