//! Household recipes and the settings of a room.

use crate::quantity::{Length, Mass, Temperature, Volume};
use crate::vocabulary::{CannerKind, Jar, Product, SettingKey, Supply};
use chrono::NaiveDate;
use serde::{Deserialize, Serialize};
use serde_with::skip_serializing_none;

/// A household's own recipe: kept and counted, never timed.
#[skip_serializing_none]
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct Recipe {
    /// Its name, lower case.
    pub name: String,
    /// The raw weight it takes.
    #[serde(rename = "mass_g")]
    pub mass: Option<Mass>,
    /// How many jars it makes.
    pub jars: Option<u32>,
    /// Which jar.
    pub jar: Option<Jar>,
}

/// A setting, and what it is set to: the field that fits the key.
#[skip_serializing_none]
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize)]
pub struct Set {
    /// Which setting.
    pub key: SettingKey,
    /// Altitude.
    #[serde(rename = "length_m")]
    pub length: Option<Length>,
    /// The canner.
    pub canner: Option<CannerKind>,
    /// Capacity.
    pub jars: Option<u32>,
    /// Capacity for which jar; the usual jar.
    pub jar: Option<Jar>,
    /// Weight of a bag; low line of a supply.
    #[serde(rename = "mass_g")]
    pub mass: Option<Mass>,
    /// Low line of a supply.
    #[serde(rename = "volume_ml")]
    pub volume: Option<Volume>,
    /// The usual product.
    pub product: Option<Product>,
    /// Units (`us`, `metric`), time zone (IANA), quiet hours `off`, yield (`own`, `handbook`), digest (a weekday or
    /// `off`), labels (`3x8 a4`), answers (`full`, `brief`, `silent`), pictures (`light`, `dark`).
    pub word: Option<String>,
    /// Quiet hours from, or the digest at, `HH:MM`.
    pub from: Option<String>,
    /// Quiet hours until, `HH:MM`.
    pub to: Option<String>,
    /// Low line of which supply.
    pub supply: Option<Supply>,
    /// Low line in pieces.
    pub count: Option<u32>,
    /// Room temperature.
    #[serde(rename = "temp_c")]
    pub temp: Option<Temperature>,
    /// The last day of the season.
    pub until: Option<NaiveDate>,
}

impl Set {
    /// A setting that is set to nothing yet; the field that fits is filled in.
    pub const fn of(key: SettingKey) -> Self {
        Self {
            key,
            length: None,
            canner: None,
            jars: None,
            jar: None,
            mass: None,
            volume: None,
            product: None,
            word: None,
            from: None,
            to: None,
            supply: None,
            count: None,
            temp: None,
            until: None,
        }
    }
}
