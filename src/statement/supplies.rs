//! Supplies bought.

use super::When;
use crate::quantity::{Mass, Volume};
use crate::vocabulary::{Jar, Supply};
use serde::{Deserialize, Serialize};

/// Supplies came into the house.
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct Bought {
    /// Which.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub supply: Option<Supply>,
    /// How many.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub count: Option<u32>,
    /// The weight.
    #[serde(rename = "mass_g", default, skip_serializing_if = "Option::is_none")]
    pub mass: Option<Mass>,
    /// The volume.
    #[serde(rename = "volume_ml", default, skip_serializing_if = "Option::is_none")]
    pub volume: Option<Volume>,
    /// For jars: which size.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub jar: Option<Jar>,
    /// When it happened, if said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub on: Option<When>,
}
