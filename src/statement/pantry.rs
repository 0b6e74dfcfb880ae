//! Jars onto and off the shelf, and what the dryer makes.

use super::When;
use crate::quantity::Mass;
use crate::vocabulary::{Jar, Product, Sign};
use serde::{Deserialize, Serialize};
use serde_with::skip_serializing_none;

/// Jars put up in one go, or opened and used.
#[skip_serializing_none]
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct Jarred {
    /// How many jars.
    pub jars: Option<u32>,
    /// Out of how many, when some did not seal.
    pub of: Option<u32>,
    /// Which jar.
    pub jar: Option<Jar>,
    /// What is in them.
    pub product: Option<Product>,
    /// The raw weight that went in.
    #[serde(rename = "mass_g")]
    pub mass: Option<Mass>,
    /// When it happened, if said.
    pub on: Option<When>,
}

/// Jars that are spoiled, or may be.
#[skip_serializing_none]
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct Spoiled {
    /// What shows it.
    pub signs: Option<Vec<Sign>>,
    /// How many jars, if that was said.
    pub jars: Option<u32>,
    /// Which jar.
    pub jar: Option<Jar>,
    /// What is in them.
    pub product: Option<Product>,
    /// When it happened, if said.
    pub on: Option<When>,
}

/// Went into the dryer.
#[skip_serializing_none]
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct Dried {
    /// The weight.
    #[serde(rename = "mass_g")]
    pub mass: Option<Mass>,
    /// How many trays.
    pub trays: Option<u32>,
    /// Skins, halves, slices, peppers, …
    pub what: Option<String>,
    /// When it happened, if said.
    pub on: Option<When>,
}

/// Came out of the dryer dry.
#[skip_serializing_none]
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct Dry {
    /// The dry weight.
    #[serde(rename = "mass_g")]
    pub mass: Option<Mass>,
    /// Skins, halves, slices, peppers, …
    pub what: Option<String>,
    /// When it happened, if said.
    pub on: Option<When>,
}

/// Powder came out.
#[skip_serializing_none]
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct Powdered {
    /// The weight.
    #[serde(rename = "mass_g")]
    pub mass: Option<Mass>,
    /// Of what, if said.
    pub what: Option<String>,
    /// When it happened, if said.
    pub on: Option<When>,
}
