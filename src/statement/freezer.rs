//! Bags into and out of the freezer, and stock counted.

use super::When;
use crate::quantity::Mass;
use crate::vocabulary::{Crop, Jar, Prep, Product, Stock};
use serde::{Deserialize, Serialize};

/// Went into the freezer.
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct Froze {
    /// The total weight.
    #[serde(rename = "mass_g", default, skip_serializing_if = "Option::is_none")]
    pub mass: Option<Mass>,
    /// How many bags.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bags: Option<u32>,
    /// The weight of each bag, when the phrase gives it.
    #[serde(rename = "each_g", default, skip_serializing_if = "Option::is_none")]
    pub each: Option<Mass>,
    /// How the fruit was prepared.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub prep: Option<Prep>,
    /// The crop; tomato when not said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub crop: Option<Crop>,
    /// When it happened, if said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub on: Option<When>,
}

/// Came out of the freezer to thaw.
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct Thawed {
    /// How many bags.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bags: Option<u32>,
    /// The weight.
    #[serde(rename = "mass_g", default, skip_serializing_if = "Option::is_none")]
    pub mass: Option<Mass>,
    /// The crop; tomato when not said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub crop: Option<Crop>,
    /// The batch it belongs to, when the phrase names one (contract: further field, absent unless said).
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub batch: Option<String>,
    /// When it happened, if said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub on: Option<When>,
}

/// A stock counted, which sets it right.
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct Counted {
    /// What was counted, if said; bags mean the freezer, jars the pantry.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub from: Option<Stock>,
    /// The weight.
    #[serde(rename = "mass_g", default, skip_serializing_if = "Option::is_none")]
    pub mass: Option<Mass>,
    /// How many bags.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bags: Option<u32>,
    /// How many jars.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub jars: Option<u32>,
    /// Which jar.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub jar: Option<Jar>,
    /// What is in them.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub product: Option<Product>,
    /// The crop; tomato when not said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub crop: Option<Crop>,
    /// When it happened, if said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub on: Option<When>,
}
