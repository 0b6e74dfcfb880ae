//! The stages of a canner batch, from the start to the jars coming out.

use super::When;
use crate::quantity::{Mass, Pressure, Volume};
use crate::vocabulary::{self, Acid, CannerKind, Jar, Pack, Product};
use serde::{Deserialize, Serialize};
use serde_with::skip_serializing_none;

/// A batch began.
#[skip_serializing_none]
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct Began {
    /// What is made.
    pub product: Option<Product>,
    /// Which jar.
    pub jar: Option<Jar>,
    /// How many jars.
    pub jars: Option<u32>,
    /// The weight.
    #[serde(rename = "mass_g")]
    pub mass: Option<Mass>,
    /// Which canner.
    pub canner: Option<CannerKind>,
    /// Hot or raw pack.
    pub pack: Option<Pack>,
    /// When it happened, if said.
    pub on: Option<When>,
}

/// Liquid was poured off.
#[skip_serializing_none]
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct Drained {
    /// The weight.
    #[serde(rename = "mass_g")]
    pub mass: Option<Mass>,
    /// The volume.
    #[serde(rename = "volume_ml")]
    pub volume: Option<Volume>,
    /// Whether it was kept, to drink or to cook with, if said.
    pub kept: Option<bool>,
    /// The batch it belongs to, when the phrase names one (contract: further field, absent unless said).
    pub batch: Option<String>,
    /// When it happened, if said.
    pub on: Option<When>,
}

/// What is in the pot after cooking down.
#[skip_serializing_none]
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct CookedDown {
    /// The weight.
    #[serde(rename = "mass_g")]
    pub mass: Option<Mass>,
    /// The volume.
    #[serde(rename = "volume_ml")]
    pub volume: Option<Volume>,
    /// The batch it belongs to, when the phrase names one.
    pub batch: Option<String>,
    /// When it happened, if said.
    pub on: Option<When>,
}

/// A batch gets another short name.
#[skip_serializing_none]
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct Named {
    /// The new name, lower case.
    pub name: String,
    /// The batch, by the name it had, when the phrase says it.
    pub batch: Option<String>,
}

/// Jars were filled.
#[skip_serializing_none]
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct Filled {
    /// How many jars.
    pub jars: Option<u32>,
    /// Which jar.
    pub jar: Option<Jar>,
    /// What is in them.
    pub product: Option<Product>,
    /// The batch it belongs to, when the phrase names one (contract: further field, absent unless said).
    pub batch: Option<String>,
    /// When it happened, if said.
    pub on: Option<When>,
}

/// Acid went into the jars.
#[skip_serializing_none]
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct AcidAdded {
    /// Which acid.
    pub supply: Option<Acid>,
    /// How much went into each jar, if said.
    #[serde(rename = "each_ml")]
    pub each: Option<Volume>,
    /// How much went in, where nobody said whether into each jar or into all.
    #[serde(rename = "volume_ml")]
    pub volume: Option<Volume>,
    /// The jar that the dose is for, if said: `a tablespoon per pint`.
    pub jar: Option<Jar>,
    /// Whether it is said to be fresh juice, which is not what was tested.
    pub fresh: Option<bool>,
    /// The batch it belongs to, when the phrase names one (contract: further field, absent unless said).
    pub batch: Option<String>,
    /// When it happened, if said.
    pub on: Option<When>,
}

/// Jars are without their acid, or with a part of it.
#[skip_serializing_none]
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct AcidMissing {
    /// Which acid, if said.
    pub supply: Option<Acid>,
    /// How many jars are without; all of them where that is not said.
    pub jars: Option<u32>,
    /// How many jars it is in, where that was said.
    pub only: Option<u32>,
    /// The batch it belongs to, when the phrase names one.
    pub batch: Option<String>,
    /// When it happened, if said.
    pub on: Option<When>,
}

/// The canner is at heat or at pressure: the process clock starts.
#[skip_serializing_none]
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct AtHeat {
    /// The gauge pressure, if said.
    pub psi: Option<Pressure>,
    /// The batch it belongs to, when the phrase names one (contract: further field, absent unless said).
    pub batch: Option<String>,
    /// When it happened, if said.
    pub on: Option<When>,
}

/// A stage that says no more than that it was reached: venting, heat lost, heat off, pressure down.
#[skip_serializing_none]
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct Stage {
    /// The batch it belongs to, when the phrase names one (contract: further field, absent unless said).
    pub batch: Option<String>,
    /// When it happened, if said.
    pub on: Option<When>,
}

/// The jars came out of the canner.
#[skip_serializing_none]
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct Lifted {
    /// How many jars.
    pub jars: Option<u32>,
    /// The batch it belongs to, when the phrase names one (contract: further field, absent unless said).
    pub batch: Option<String>,
    /// When it happened, if said.
    pub on: Option<When>,
}

/// Something happened to the canner or to the jars in it.
#[skip_serializing_none]
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize)]
pub struct Mishap {
    /// What.
    pub what: vocabulary::Mishap,
    /// By how much a gauge is off, if said.
    pub psi: Option<Pressure>,
    /// The batch it belongs to, when the phrase names one.
    pub batch: Option<String>,
    /// When it happened, if said.
    pub on: Option<When>,
}
