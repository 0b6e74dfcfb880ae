//! The stages of a canner batch, from the start to the jars coming out.

use super::When;
use crate::quantity::{Mass, Pressure, Volume};
use crate::vocabulary::{Acid, CannerKind, Jar, Pack, Product};
use serde::{Deserialize, Serialize};

/// A batch began.
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct Began {
    /// What is made.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub product: Option<Product>,
    /// Which jar.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub jar: Option<Jar>,
    /// How many jars.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub jars: Option<u32>,
    /// The weight.
    #[serde(rename = "mass_g", default, skip_serializing_if = "Option::is_none")]
    pub mass: Option<Mass>,
    /// Which canner.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub canner: Option<CannerKind>,
    /// Hot or raw pack.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pack: Option<Pack>,
    /// When it happened, if said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub on: Option<When>,
}

/// Liquid was poured off.
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct Drained {
    /// The weight.
    #[serde(rename = "mass_g", default, skip_serializing_if = "Option::is_none")]
    pub mass: Option<Mass>,
    /// The volume.
    #[serde(rename = "volume_ml", default, skip_serializing_if = "Option::is_none")]
    pub volume: Option<Volume>,
    /// The batch it belongs to, when the phrase names one (contract: further field, absent unless said).
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub batch: Option<String>,
    /// When it happened, if said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub on: Option<When>,
}

/// Jars were filled.
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct Filled {
    /// How many jars.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub jars: Option<u32>,
    /// Which jar.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub jar: Option<Jar>,
    /// What is in them.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub product: Option<Product>,
    /// The batch it belongs to, when the phrase names one (contract: further field, absent unless said).
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub batch: Option<String>,
    /// When it happened, if said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub on: Option<When>,
}

/// Acid went into the jars.
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct AcidAdded {
    /// Which acid.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub supply: Option<Acid>,
    /// The batch it belongs to, when the phrase names one (contract: further field, absent unless said).
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub batch: Option<String>,
    /// When it happened, if said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub on: Option<When>,
}

/// The canner is at heat or at pressure: the process clock starts.
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct AtHeat {
    /// The gauge pressure, if said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub psi: Option<Pressure>,
    /// The batch it belongs to, when the phrase names one (contract: further field, absent unless said).
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub batch: Option<String>,
    /// When it happened, if said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub on: Option<When>,
}

/// A stage that says no more than that it was reached: venting, heat lost, heat off, pressure down.
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct Stage {
    /// The batch it belongs to, when the phrase names one (contract: further field, absent unless said).
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub batch: Option<String>,
    /// When it happened, if said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub on: Option<When>,
}

/// The jars came out of the canner.
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct Lifted {
    /// How many jars.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub jars: Option<u32>,
    /// The batch it belongs to, when the phrase names one (contract: further field, absent unless said).
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub batch: Option<String>,
    /// When it happened, if said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub on: Option<When>,
}
