//! A message that may go on with what was said before.

use super::super::build::{self, Clause, Made, build};
use super::super::context::{Context, Reading};
use super::super::frame::{Frame, Types, types_of};
use super::super::household::Household;
use super::super::item::Text;
use super::super::language::Language;
use super::super::lexicon::sense::Class;
use super::super::value::Value;
use crate::vocabulary::Kind;

/// A message, and what it is read with.
pub(super) struct Scene<'a> {
    pub(super) text: &'a Text<'a>,
    pub(super) language: &'a Language,
    pub(super) household: &'a Household,
    pub(super) context: &'a Context<'a>,
    /// Reads a part of it by itself.
    pub(super) read: fn(&str, &Context<'_>) -> Reading,
}

impl Scene<'_> {
    /// Whether a word of it is of the class.
    pub(super) fn is(&self, class: Class) -> bool {
        self.text.items.iter().any(|item| item.is(class))
    }

    /// All ways to take the words up to an item as those of a frame.
    pub(super) fn made(&self, frame: &Frame, to: usize) -> Vec<Made> {
        let types: Vec<Types> = self.text.items.iter().map(types_of).collect();
        let scene = build::Scene { text: self.text, types: &types, context: self.context, household: self.household };
        let mut made = Vec::new();
        build(&Clause { scene, frame, from: 0, to, trigger: &[] }, &mut made);
        made
    }

    /// Whether an item is a value of the kind.
    pub(super) fn any_value(&self, is: impl Fn(&Value) -> bool) -> bool {
        self.text.items.iter().any(|item| item.values.iter().any(&is))
    }
}

/// Kinds of which more may follow.
pub(super) const fn goes_on(kind: Kind) -> bool {
    matches!(
        kind,
        Kind::Picked
            | Kind::Froze
            | Kind::Thawed
            | Kind::Ate
            | Kind::Gave
            | Kind::Tossed
            | Kind::PutUp
            | Kind::Opened
            | Kind::Bought
            | Kind::Counted
            | Kind::Dried
            | Kind::Planted
    )
}
