//! Supplies bought.

use super::When;
use crate::quantity::{Mass, Volume};
use crate::vocabulary::{Jar, Supply};
use serde::{Deserialize, Serialize};
use serde_with::skip_serializing_none;

/// Supplies came into the house.
#[skip_serializing_none]
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct Bought {
    /// Which.
    pub supply: Option<Supply>,
    /// How many.
    pub count: Option<u32>,
    /// The weight.
    #[serde(rename = "mass_g")]
    pub mass: Option<Mass>,
    /// The volume.
    #[serde(rename = "volume_ml")]
    pub volume: Option<Volume>,
    /// For jars: which size.
    pub jar: Option<Jar>,
    /// When it happened, if said.
    pub on: Option<When>,
}
