//! From the words of a clause to the statement of a frame: what each item is taken for, and what is left over.
//!
//! Nothing is chosen here. Where words can be taken in several ways, each way is a candidate of its own.

mod ask;
mod change;
pub(super) mod fill;
mod plan;
mod record;
mod set;
mod when;

use super::frame::{Build, Frame, Slots, Types};
use super::item::{Item, Text};
use super::lexicon::sense::{Class, Classes};
use super::{Context, Household};
use crate::statement::Statement;
use smallvec::SmallVec;

/// What a clause is read with.
#[derive(Clone, Copy, Debug)]
pub(super) struct Scene<'a> {
    pub(super) text: &'a Text<'a>,
    pub(super) types: &'a [Types],
    pub(super) context: &'a Context<'a>,
    pub(super) household: &'a Household,
}

/// A stretch of items under a frame.
#[derive(Clone, Copy, Debug)]
pub(super) struct Clause<'a> {
    pub(super) scene: Scene<'a>,
    pub(super) frame: &'a Frame,
    /// The first item and the one behind the last.
    pub(super) from: usize,
    pub(super) to: usize,
    /// The items of the trigger.
    pub(super) trigger: &'a [u16],
}

/// Which items of a clause are accounted for: the first 128 of it.
#[derive(Clone, Copy, PartialEq, Eq, Default, Debug)]
pub(super) struct Used(pub(super) u128);

impl Used {
    pub(super) fn add(&mut self, n: usize) {
        if n < 128 {
            self.0 |= 1 << n;
        }
    }

    pub(super) fn remove(&mut self, n: usize) {
        if n < 128 {
            self.0 &= !(1 << n);
        }
    }

    pub(super) fn has(self, n: usize) -> bool {
        n < 128 && self.0 & (1 << n) != 0
    }
}

/// Something about the way in which a clause was taken, for the score.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
#[repr(u8)]
pub(super) enum Note {
    /// A weight was said.
    Mass,
    /// A count of containers.
    Count,
    /// Containers of a weight each.
    Portions,
    /// The weight of each was not plainly said to be that.
    PerhapsEach,
    /// A count and a weight, the weight taken for all.
    TotalOfCount,
    /// A count and a weight, the weight taken for each.
    EachOfCount,
    /// Jars with a number.
    Jars,
    /// Jars by their size alone.
    JarSize,
    /// Jars of no size.
    JarWord,
    /// Some out of how many.
    OutOf,
    /// A volume.
    Volume,
    /// A bare number, used.
    Number,
    /// A bare number beside an amount, not used.
    NumberLeft,
    /// An amount that is none: `some`.
    Vague,
    /// A part of something.
    Share,
    /// A measure of a harvest.
    Measure,
    /// A crop from the lists.
    Crop,
    /// A variety from the lists.
    Variety,
    /// A crop that no list has, an ordinary word.
    GuessedCropOrdinary,
    /// A crop that no list has, a strange word.
    GuessedCropStrange,
    /// A variety that no list has, an ordinary word.
    GuessedVarietyOrdinary,
    /// A variety that no list has, a strange word.
    GuessedVarietyStrange,
    /// A word before a thing passed over as its modifier.
    Modifier,
    /// A strange one.
    ModifierStrange,
    /// A place from the lists.
    Place,
    /// A place that no list has.
    GuessedPlace,
    /// Somebody or something behind `to` or `for`, passed over.
    Recipient,
    /// A product of the lists.
    Product,
    /// A product that no list has.
    GuessedProduct,
    /// A day.
    Day,
    /// A time of day.
    Clock,
    /// A day that is a purpose.
    Purpose,
    /// A day ahead for a deed that is past.
    Ahead,
    /// An earlier figure was taken back in the same breath.
    Corrected,
    /// Several groups.
    List,
    /// The unit of a figure is that of its neighbour.
    UnitCarried,
    /// A store.
    Store,
    /// A batch of the household's.
    Batch,
    /// A batch by its product.
    BatchProduct,
    /// A supply.
    Supply,
    /// An amount of a thing of the trade that the frame does not take.
    Foreign,
    /// What is missing is asked for.
    AskUnit,
    /// What is missing is asked for.
    AskAmount,
    /// What is missing is asked for.
    AskProduct,
    /// What is missing is asked for.
    AskJar,
    /// What is missing is asked for.
    AskCanner,
    /// A pressure read off a weight.
    PsiFromMass,
    /// A pressure read off a bare number.
    PsiFromNumber,
    /// A name.
    Name,
    /// A label.
    Label,
    /// A range.
    Range,
    /// Something that only a continuation can mean.
    Carried,
    /// What is named once is that of every group.
    Common,
    /// A day that stands before the clause.
    EarlierDay,
    /// What is left of something.
    Rest,
}

impl Note {
    /// In their order.
    const ALL: [Self; 55] = [
        Self::Mass,
        Self::Count,
        Self::Portions,
        Self::PerhapsEach,
        Self::TotalOfCount,
        Self::EachOfCount,
        Self::Jars,
        Self::JarSize,
        Self::JarWord,
        Self::OutOf,
        Self::Volume,
        Self::Number,
        Self::NumberLeft,
        Self::Vague,
        Self::Share,
        Self::Measure,
        Self::Crop,
        Self::Variety,
        Self::GuessedCropOrdinary,
        Self::GuessedCropStrange,
        Self::GuessedVarietyOrdinary,
        Self::GuessedVarietyStrange,
        Self::Modifier,
        Self::ModifierStrange,
        Self::Place,
        Self::GuessedPlace,
        Self::Recipient,
        Self::Product,
        Self::GuessedProduct,
        Self::Day,
        Self::Clock,
        Self::Purpose,
        Self::Ahead,
        Self::Corrected,
        Self::List,
        Self::UnitCarried,
        Self::Store,
        Self::Batch,
        Self::BatchProduct,
        Self::Supply,
        Self::Foreign,
        Self::AskUnit,
        Self::AskAmount,
        Self::AskProduct,
        Self::AskJar,
        Self::AskCanner,
        Self::PsiFromMass,
        Self::PsiFromNumber,
        Self::Name,
        Self::Label,
        Self::Range,
        Self::Carried,
        Self::Common,
        Self::EarlierDay,
        Self::Rest,
    ];
}

/// How many notes there are.
pub(super) const NOTES: usize = Note::ALL.len();

impl Note {
    /// By its number.
    pub(super) fn named(n: usize) -> Option<Self> {
        Self::ALL.get(n).copied()
    }

    /// Whether it is a question for what is missing.
    pub(super) const fn asks(self) -> bool {
        matches!(self, Self::AskUnit | Self::AskAmount | Self::AskProduct | Self::AskJar | Self::AskCanner)
    }

    /// Whether it is an amount.
    pub(super) const fn is_amount(self) -> bool {
        matches!(
            self,
            Self::Mass
                | Self::Count
                | Self::Portions
                | Self::PerhapsEach
                | Self::Jars
                | Self::JarWord
                | Self::OutOf
                | Self::Volume
                | Self::Number
                | Self::Share
                | Self::Measure
                | Self::Range
        )
    }
}

/// A way to take a clause.
#[derive(Clone, Debug, Default)]
pub(super) struct Made {
    pub(super) statements: Vec<Statement>,
    pub(super) used: Used,
    pub(super) notes: SmallVec<[Note; 8]>,
}

impl<'a> Clause<'a> {
    pub(super) fn items(&self) -> &'a [Item] {
        self.scene.text.items.get(self.from..self.to).unwrap_or_default()
    }

    pub(super) fn item(&self, n: usize) -> Option<&'a Item> {
        self.items().get(n)
    }

    pub(super) fn types(&self, n: usize) -> Types {
        self.scene.types.get(self.from + n).copied().unwrap_or_default()
    }

    pub(super) fn classes(&self) -> &'a Classes {
        &self.scene.text.words.classes
    }

    pub(super) fn takes(&self, slot: Slots) -> bool {
        self.frame.slots.has(slot)
    }

    /// Whether an item of the clause has a sense of the class.
    pub(super) fn any(&self, class: Class) -> bool {
        self.items().iter().any(|item| item.is(class))
    }

    /// The first item of the class.
    pub(super) fn position(&self, class: Class) -> Option<usize> {
        self.items().iter().position(|item| item.is(class))
    }

    /// Whether an item belongs to the trigger.
    pub(super) fn triggers(&self, n: usize) -> bool {
        u16::try_from(self.from + n).is_ok_and(|at| self.trigger.contains(&at))
    }

    /// Marks what the trigger takes as accounted for.
    pub(super) fn used_by_trigger(&self) -> Used {
        let mut used = Used::default();
        for at in self.trigger {
            used.add(usize::from(*at).saturating_sub(self.from));
        }
        used
    }
}

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
        Build::Correct => change::correct(clause, out),
        Build::Teach => out.extend(change::teach(clause)),
    }
}
