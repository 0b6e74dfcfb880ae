//! What a household means to do: rows to plant, days to can.

use super::When;
use crate::vocabulary::{Crop, Jar, Product};
use chrono::NaiveDate;
use serde::{Deserialize, Serialize};
use serde_with::skip_serializing_none;

/// Plants went into the ground.
#[skip_serializing_none]
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct Planted {
    /// How many plants.
    pub count: Option<u32>,
    /// The crop; tomato when not said.
    pub crop: Option<Crop>,
    /// The variety, singular.
    pub variety: Option<String>,
    /// Where.
    pub place: Option<String>,
    /// When it happened, if said.
    pub on: Option<When>,
}

/// A canning day was fixed. A later one of the same product moves it.
#[skip_serializing_none]
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct Planned {
    /// The day of the canning.
    pub day: Option<NaiveDate>,
    /// When the last round should be out, `HH:MM`.
    pub by: Option<String>,
    /// What is made; the usual when not said.
    pub product: Option<Product>,
    /// In which jars.
    pub jar: Option<Jar>,
    /// How many jars.
    pub jars: Option<u32>,
}

/// A canning day was called off.
#[skip_serializing_none]
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct CalledOff {
    /// Which day; the next when not said.
    pub day: Option<NaiveDate>,
    /// What was to be made, if said.
    pub product: Option<Product>,
}
