//! Fruit that came in from the garden, and food that left the house or the plate.

use super::When;
use crate::quantity::Mass;
use crate::vocabulary::{Crop, Jar, Product, Ripeness, Stock};
use serde::{Deserialize, Serialize};

/// Picked from the garden.
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct Picked {
    /// The weight.
    #[serde(rename = "mass_g", default, skip_serializing_if = "Option::is_none")]
    pub mass: Option<Mass>,
    /// The crop; tomato when not said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub crop: Option<Crop>,
    /// The variety, singular, lower case.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub variety: Option<String>,
    /// Where it grew: the noun alone.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub place: Option<String>,
    /// Its colour class.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub ripeness: Option<Ripeness>,
    /// When it happened, if said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub on: Option<When>,
}

/// Eaten, given away or thrown away: by weight, by bag, or by jar.
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct Taken {
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
    /// What was in them.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub product: Option<Product>,
    /// The crop; tomato when not said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub crop: Option<Crop>,
    /// Where it was taken from, if said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub from: Option<Stock>,
    /// When it happened, if said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub on: Option<When>,
}
