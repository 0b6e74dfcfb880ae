//! Bags into and out of the freezer, and stock counted.

use super::When;
use crate::quantity::{Mass, Number, Volume};
use crate::vocabulary::{Crop, Jar, Prep, Product, Stock, Supply, Whole};
use serde::{Deserialize, Serialize};
use serde_with::skip_serializing_none;

/// Went into the freezer.
#[skip_serializing_none]
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct Froze {
    /// The total weight.
    #[serde(rename = "mass_g")]
    pub mass: Option<Mass>,
    /// How many bags.
    pub bags: Option<u32>,
    /// How many jars, when it is jars that did not seal.
    pub jars: Option<u32>,
    /// The batch they belong to, when the phrase names one.
    pub batch: Option<String>,
    /// The weight of each bag, when the phrase gives it.
    #[serde(rename = "each_g")]
    pub each: Option<Mass>,
    /// How the fruit was prepared.
    pub prep: Option<Prep>,
    /// The crop; tomato when not said.
    pub crop: Option<Crop>,
    /// Instead of an amount, a part of what was last spoken of: 0 to 1; 1 is all that is left of it.
    pub share: Option<Number>,
    /// A part of what, if said.
    pub of: Option<Whole>,
    /// That the amount is the middle of a range.
    pub approx: Option<bool>,
    /// Where it came from: what was thawing goes back.
    pub from: Option<Stock>,
    /// When it happened, if said.
    pub on: Option<When>,
}

/// Came out of the freezer to thaw.
#[skip_serializing_none]
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct Thawed {
    /// How many bags.
    pub bags: Option<u32>,
    /// The weight.
    #[serde(rename = "mass_g")]
    pub mass: Option<Mass>,
    /// The crop; tomato when not said.
    pub crop: Option<Crop>,
    /// Instead of an amount, a part of what was last spoken of: 0 to 1; 1 is all that is left of it.
    pub share: Option<Number>,
    /// A part of what, if said.
    pub of: Option<Whole>,
    /// That the amount is the middle of a range.
    pub approx: Option<bool>,
    /// The batch it belongs to, when the phrase names one (contract: further field, absent unless said).
    pub batch: Option<String>,
    /// When it happened, if said.
    pub on: Option<When>,
}

/// A stock counted, which sets it right.
#[skip_serializing_none]
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct Counted {
    /// What was counted, if said; bags mean the freezer, jars the pantry.
    pub from: Option<Stock>,
    /// The weight.
    #[serde(rename = "mass_g")]
    pub mass: Option<Mass>,
    /// How many bags.
    pub bags: Option<u32>,
    /// How many jars.
    pub jars: Option<u32>,
    /// Which jar.
    pub jar: Option<Jar>,
    /// What is in them.
    pub product: Option<Product>,
    /// The crop; tomato when not said.
    pub crop: Option<Crop>,
    /// A supply, when that was counted.
    pub supply: Option<Supply>,
    /// How many of it.
    pub count: Option<u32>,
    /// How much of a liquid one.
    #[serde(rename = "volume_ml")]
    pub volume: Option<Volume>,
    /// When it happened, if said.
    pub on: Option<When>,
}
