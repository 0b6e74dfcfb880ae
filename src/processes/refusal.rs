//! Why there is no process time for what was asked. A refusal is an answer: it says what would do instead.

use super::ProductInfo;
use crate::quantity::Pressure;
use crate::vocabulary::{CannerKind, Jar, Pack};

/// Why no time is given.
#[derive(Clone, PartialEq, Debug)]
pub enum Refusal {
    /// The tables have no such product; a household recipe may have the name, but no tested time.
    UnknownProduct,
    /// The name fits several products, of which these have times.
    WhichProduct(Vec<&'static ProductInfo>),
    /// The tables have the product, but not like this.
    NotTested(Untested),
    /// The tables have a row, but nobody has seen the page that prints it.
    Unverified {
        /// Where it should be printed.
        source: &'static str,
    },
    /// Low-acid food in a steam or boiling-water canner: it needs a pressure canner.
    WrongCanner,
    /// Hot and raw pack have different times (or one has none here), and the pack was not said.
    WhichPack {
        /// Minutes when packed hot, where there is such a time.
        hot: Option<u32>,
        /// Minutes when packed raw, where there is such a time.
        raw: Option<u32>,
    },
    /// The boiling-water time here is more than a steam canner can run. The boiling-water canner does it.
    TooLongForSteam {
        /// The boiling-water time.
        minutes: u32,
        /// The largest smaller jar whose time here is short enough.
        smaller_jar: Option<Jar>,
    },
    /// No altitude is set, and every time depends on it.
    AltitudeUnknown,
    /// More than 500 m below the sea or 3500 m above it.
    AltitudeOutOfRange,
    /// Every time the program gives here needs more pressure than this.
    PressureTooLow {
        /// The least that has a time, on the gauge.
        need: Pressure,
    },
}

/// What the tables lack for a product they have. The lists say what they do have, and may be empty when all of it is
/// from memory.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Untested {
    /// This canner.
    Canner {
        /// Canners with times.
        tested: Vec<CannerKind>,
    },
    /// This jar, in this canner: too large, or of a size without a rule.
    Jar {
        /// Jars with times of their own.
        tested: Vec<Jar>,
    },
    /// This pack, in this jar and canner.
    Pack {
        /// Packs with times.
        tested: Vec<Pack>,
    },
    /// A jar over a quart in a steam canner; the boiling-water canner has a time for it.
    JarForSteam,
    /// This altitude: dial gauges are printed up to 8000 ft.
    Altitude,
}
