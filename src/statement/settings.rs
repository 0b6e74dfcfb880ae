//! Household recipes and the settings of a room.

use crate::quantity::{Length, Mass, Temperature, Volume};
use crate::vocabulary::{CannerKind, Jar, Product, SettingKey, Supply};
use serde::{Deserialize, Serialize};

/// A household's own recipe: kept and counted, never timed.
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct Recipe {
    /// Its name, lower case.
    pub name: String,
    /// The raw weight it takes.
    #[serde(rename = "mass_g", default, skip_serializing_if = "Option::is_none")]
    pub mass: Option<Mass>,
    /// How many jars it makes.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub jars: Option<u32>,
    /// Which jar.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub jar: Option<Jar>,
}

/// A setting, and what it is set to: the field that fits the key.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize)]
pub struct Set {
    /// Which setting.
    pub key: SettingKey,
    /// Altitude.
    #[serde(rename = "length_m", default, skip_serializing_if = "Option::is_none")]
    pub length: Option<Length>,
    /// The canner.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub canner: Option<CannerKind>,
    /// Capacity.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub jars: Option<u32>,
    /// Capacity for which jar; the usual jar.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub jar: Option<Jar>,
    /// Weight of a bag; low line of a supply.
    #[serde(rename = "mass_g", default, skip_serializing_if = "Option::is_none")]
    pub mass: Option<Mass>,
    /// Low line of a supply.
    #[serde(rename = "volume_ml", default, skip_serializing_if = "Option::is_none")]
    pub volume: Option<Volume>,
    /// The usual product.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub product: Option<Product>,
    /// Units (`us`, `metric`), time zone (IANA), quiet hours `off`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub word: Option<String>,
    /// Quiet hours from, `HH:MM`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub from: Option<String>,
    /// Quiet hours until, `HH:MM`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub to: Option<String>,
    /// Low line of which supply.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub supply: Option<Supply>,
    /// Low line in pieces.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub count: Option<u32>,
    /// Room temperature.
    #[serde(rename = "temp_c", default, skip_serializing_if = "Option::is_none")]
    pub temp: Option<Temperature>,
}
