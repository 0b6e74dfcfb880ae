//! The unit of a picture's weights.

use crate::ledger::state::Units;
use crate::quantity::Mass;
use chrono::{NaiveDate, NaiveDateTime};
use serde::{Deserialize, Serialize};

/// Pounds or kilograms, as the room is answered.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
pub enum Unit {
    /// Pounds.
    #[serde(rename = "lb")]
    Pound,
    /// Kilograms.
    #[serde(rename = "kg")]
    Kilogram,
}

impl Unit {
    /// The unit of a room.
    pub const fn of(units: Units) -> Self {
        match units {
            Units::Customary => Self::Pound,
            Units::Metric => Self::Kilogram,
        }
    }

    /// As written behind a figure.
    pub const fn as_str(self) -> &'static str {
        match self {
            Self::Pound => "lb",
            Self::Kilogram => "kg",
        }
    }

    /// A weight in this unit, to the thousandth.
    pub fn figure(self, mass: Mass) -> f64 {
        let figure = match self {
            Self::Pound => mass.as_pounds(),
            Self::Kilogram => mass.as_kilograms(),
        };
        thousandth(figure)
    }

    /// The weight of a figure in this unit.
    pub fn mass(self, figure: f64) -> Mass {
        let mass = match self {
            Self::Pound => Mass::from_pounds(figure),
            Self::Kilogram => Mass::from_grams(figure * 1000.0),
        };
        mass.unwrap_or_default()
    }

    /// A day as people of this unit write it: `Aug 14`, `14 Aug`.
    pub fn day(self, day: NaiveDate) -> String {
        let form = match self {
            Self::Pound => "%b %-d",
            Self::Kilogram => "%-d %b",
        };
        day.format(form).to_string()
    }

    /// A time of day: `2:05 pm`, `14:05`.
    pub fn clock(self, at: NaiveDateTime) -> String {
        let form = match self {
            Self::Pound => "%-I:%M %P",
            Self::Kilogram => "%H:%M",
        };
        at.format(form).to_string()
    }

    /// A figure of this unit in a sentence: `24.5 lb`, `11.1 kg`.
    pub fn say(self, figure: f64) -> String {
        format!("{} {}", plain(figure), self.as_str())
    }
}

/// To the thousandth.
pub(super) fn thousandth(figure: f64) -> f64 {
    (figure * 1000.0).round() / 1000.0
}

/// One decimal where it says something.
pub(super) fn plain(figure: f64) -> String {
    let text = format!("{figure:.1}");
    text.strip_suffix(".0").map(str::to_owned).unwrap_or(text)
}

/// `1 jar`, `7 jars`.
pub(super) fn counted(count: u32, one: &str, many: &str) -> String {
    format!("{count} {}", if count == 1 { one } else { many })
}
