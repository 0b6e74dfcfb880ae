//! The values that are read once at each token and kept there.

use super::super::lexicon::sense::Container;
use crate::quantity::{Mass, Number, Volume};

/// A number, and how it was written.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(in super::super) struct Figure {
    /// What it most likely is.
    pub(in super::super) number: Number,
    /// What else it may be where three digits follow a comma or a dot: `1,150` is a thousand and more, or with a metric
    /// unit one and a bit.
    pub(in super::super) other: Option<Number>,
    /// Whether the second reading is of a dot, which separates thousands in some countries only.
    pub(in super::super) dotted: bool,
    /// It is the middle of a range.
    pub(in super::super) range: bool,
    /// It is an article: `a bag`.
    pub(in super::super) article: bool,
}

impl Figure {
    /// A plain one.
    pub(in super::super) const fn of(number: Number) -> Self {
        Self { number, other: None, dotted: false, range: false, article: false }
    }
}

/// A weight.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(in super::super) struct Weight {
    pub(in super::super) mass: Mass,
    /// The figure before the unit, for a gauge that is read in pounds.
    pub(in super::super) figure: Number,
    /// The unit.
    pub(in super::super) unit: Mass,
    /// It is the middle of a range.
    pub(in super::super) range: bool,
    /// It is `a pound`, `a kilo`.
    pub(in super::super) article: bool,
    /// In ounces alone: of a liquid it is a volume.
    pub(in super::super) fluid: Option<Volume>,
}

impl Weight {
    /// So many of a unit.
    pub(in super::super) fn of(unit: Mass, number: Number) -> Option<Self> {
        let mass = unit.times(number)?;
        Some(Self { mass, figure: number, unit, range: false, article: false, fluid: None })
    }
}

/// So many containers.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(in super::super) struct Count {
    pub(in super::super) count: Number,
    pub(in super::super) container: Container,
    /// It is `a bag`.
    pub(in super::super) article: bool,
    pub(in super::super) range: bool,
}
