//! Fruit that came in from the garden, and food that left the house or the plate.

use super::When;
use crate::quantity::{Mass, Number};
use crate::vocabulary::{Crop, Jar, Product, Ripeness, Stock, Whole};
use serde::{Deserialize, Serialize};
use serde_with::skip_serializing_none;

/// Picked from the garden.
#[skip_serializing_none]
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct Picked {
    /// The weight.
    #[serde(rename = "mass_g")]
    pub mass: Option<Mass>,
    /// The crop; tomato when not said.
    pub crop: Option<Crop>,
    /// The variety, singular, lower case.
    pub variety: Option<String>,
    /// Where it grew: the noun alone.
    pub place: Option<String>,
    /// Its colour class.
    pub ripeness: Option<Ripeness>,
    /// That the weight is the middle of a range.
    pub approx: Option<bool>,
    /// When it happened, if said.
    pub on: Option<When>,
}

/// Eaten, given away or thrown away: by weight, by bag, or by jar.
#[skip_serializing_none]
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct Taken {
    /// The weight.
    #[serde(rename = "mass_g")]
    pub mass: Option<Mass>,
    /// How many bags.
    pub bags: Option<u32>,
    /// How many jars.
    pub jars: Option<u32>,
    /// Which jar.
    pub jar: Option<Jar>,
    /// What was in them.
    pub product: Option<Product>,
    /// The crop; tomato when not said.
    pub crop: Option<Crop>,
    /// Where it was taken from, if said.
    pub from: Option<Stock>,
    /// Instead of an amount, a part of what was last spoken of: 0 to 1; 1 is all that is left of it.
    pub share: Option<Number>,
    /// A part of what, if said.
    pub of: Option<Whole>,
    /// That the amount is the middle of a range.
    pub approx: Option<bool>,
    /// That it was of the jars that did not seal and wait for what becomes of them.
    pub unsealed: Option<bool>,
    /// When it happened, if said.
    pub on: Option<When>,
}
