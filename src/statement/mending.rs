//! Taking back, changing, and what is still missing.

use super::When;
use crate::quantity::{Mass, Number, Volume};
use crate::vocabulary::{CannerKind, Crop, Jar, Kind, Missing, Prep, Product, Ripeness, Stock, Supply};
use serde::{Deserialize, Serialize};

/// The fields of an earlier entry that were wrong, with what they should be.
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct Correct {
    /// A bare number: the unit is that of the entry.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub amount: Option<Number>,
    /// The weight.
    #[serde(rename = "mass_g", default, skip_serializing_if = "Option::is_none")]
    pub mass: Option<Mass>,
    /// The volume.
    #[serde(rename = "volume_ml", default, skip_serializing_if = "Option::is_none")]
    pub volume: Option<Volume>,
    /// How many bags.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bags: Option<u32>,
    /// The weight of each bag.
    #[serde(rename = "each_g", default, skip_serializing_if = "Option::is_none")]
    pub each: Option<Mass>,
    /// How many jars.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub jars: Option<u32>,
    /// Which jar.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub jar: Option<Jar>,
    /// Which product.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub product: Option<Product>,
    /// Which crop.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub crop: Option<Crop>,
    /// Which variety.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub variety: Option<String>,
    /// Where it grew.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub place: Option<String>,
    /// Which colour class.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub ripeness: Option<Ripeness>,
    /// How it was prepared.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub prep: Option<Prep>,
    /// Which canner.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub canner: Option<CannerKind>,
    /// Taken from where.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub from: Option<Stock>,
    /// Which supply.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub supply: Option<Supply>,
    /// How many of it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub count: Option<u32>,
    /// For a timer: how long.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub seconds: Option<u32>,
    /// When it happened, if said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub on: Option<When>,
}

/// A statement begun, and what it still needs.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize)]
pub struct Clarify {
    /// The kind begun.
    pub about: Kind,
    /// What is missing.
    pub missing: Missing,
    /// The number already said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub amount: Option<Number>,
    /// The statement as far as it was said, to be completed; not part of the printed form.
    #[serde(skip)]
    pub partial: Option<Box<super::Statement>>,
}
