//! What a clause was taken for: statements, the items that they account for, and notes on the way in which they were
//! read.

use super::super::listed::listed;
use crate::statement::Statement;
use smallvec::SmallVec;
use std::ops::Range;

/// Which items of a clause are accounted for: the first 128 of it.
#[derive(Clone, Copy, PartialEq, Eq, Default, Debug)]
pub(in super::super) struct Used(pub(in super::super) u128);

impl Used {
    /// Accounts for an item.
    pub(in super::super) fn add(&mut self, n: usize) {
        if n < 128 {
            self.0 |= 1 << n;
        }
    }

    /// Accounts for a stretch of items.
    pub(super) fn add_all(&mut self, range: Range<usize>) {
        range.for_each(|n| self.add(n));
    }

    /// Leaves an item unaccounted.
    pub(in super::super) fn remove(&mut self, n: usize) {
        if n < 128 {
            self.0 &= !(1 << n);
        }
    }

    /// Whether an item is accounted for.
    pub(in super::super) fn has(self, n: usize) -> bool {
        n < 128 && self.0 & (1 << n) != 0
    }
}

listed! {
    /// Something about the way in which a clause was taken, for the score.
    #[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
    #[repr(u8)]
    pub(in super::super) enum Note {
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
        /// This day: what is done tonight is told when it begins as often as it is planned.
        Today,
        /// A time of day.
        Clock,
        /// A day that is a purpose.
        Purpose,
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
}

/// How many notes there are.
pub(in super::super) const NOTES: usize = Note::ALL.len();

impl Note {
    /// By its number.
    pub(in super::super) fn named(n: usize) -> Option<Self> {
        Self::ALL.get(n).copied()
    }

    /// Whether it is a question for what is missing.
    pub(in super::super) const fn asks(self) -> bool {
        matches!(self, Self::AskUnit | Self::AskAmount | Self::AskProduct | Self::AskJar | Self::AskCanner)
    }

    /// Whether it is an amount.
    pub(in super::super) const fn is_amount(self) -> bool {
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
pub(in super::super) struct Made {
    pub(in super::super) statements: Vec<Statement>,
    pub(in super::super) used: Used,
    pub(in super::super) notes: SmallVec<[Note; 8]>,
}

impl Made {
    /// A way with a single statement.
    pub(super) fn one(statement: Statement, used: Used, notes: impl IntoIterator<Item = Note>) -> Self {
        Self { statements: vec![statement], used, notes: notes.into_iter().collect() }
    }
}
