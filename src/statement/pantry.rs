//! Jars onto and off the shelf, and what the dryer makes.

use super::When;
use crate::quantity::Mass;
use crate::vocabulary::{Jar, Product};
use serde::{Deserialize, Serialize};

/// Jars put up in one go, or opened and used.
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct Jarred {
    /// How many jars.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub jars: Option<u32>,
    /// Which jar.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub jar: Option<Jar>,
    /// What is in them.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub product: Option<Product>,
    /// The raw weight that went in.
    #[serde(rename = "mass_g", default, skip_serializing_if = "Option::is_none")]
    pub mass: Option<Mass>,
    /// When it happened, if said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub on: Option<When>,
}

/// Went into the dryer.
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct Dried {
    /// The weight.
    #[serde(rename = "mass_g", default, skip_serializing_if = "Option::is_none")]
    pub mass: Option<Mass>,
    /// How many trays.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub trays: Option<u32>,
    /// Skins, halves, slices, peppers, …
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub what: Option<String>,
    /// When it happened, if said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub on: Option<When>,
}

/// Powder came out.
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct Powdered {
    /// The weight.
    #[serde(rename = "mass_g", default, skip_serializing_if = "Option::is_none")]
    pub mass: Option<Mass>,
    /// Of what, if said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub what: Option<String>,
    /// When it happened, if said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub on: Option<When>,
}
