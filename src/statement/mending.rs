//! Taking back, changing, and what is still missing.

use super::When;
use crate::quantity::{Length, Mass, Number, Volume};
use crate::vocabulary::{CannerKind, Crop, Jar, Kind, Missing, Prep, Product, Ripeness, Stock, Supply, Taught};
use serde::{Deserialize, Serialize};
use serde_with::skip_serializing_none;

/// The fields of an earlier entry that were wrong, with what they should be.
#[skip_serializing_none]
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct Correct {
    /// A bare number: the unit is that of the entry.
    pub amount: Option<Number>,
    /// The weight.
    #[serde(rename = "mass_g")]
    pub mass: Option<Mass>,
    /// The volume.
    #[serde(rename = "volume_ml")]
    pub volume: Option<Volume>,
    /// A height.
    #[serde(rename = "length_m")]
    pub length: Option<Length>,
    /// How many bags.
    pub bags: Option<u32>,
    /// The weight of each bag.
    #[serde(rename = "each_g")]
    pub each: Option<Mass>,
    /// How many jars.
    pub jars: Option<u32>,
    /// Which jar.
    pub jar: Option<Jar>,
    /// Which product.
    pub product: Option<Product>,
    /// Which crop.
    pub crop: Option<Crop>,
    /// Which variety.
    pub variety: Option<String>,
    /// Where it grew.
    pub place: Option<String>,
    /// Which colour class.
    pub ripeness: Option<Ripeness>,
    /// How it was prepared.
    pub prep: Option<Prep>,
    /// Which canner.
    pub canner: Option<CannerKind>,
    /// Taken from where.
    pub from: Option<Stock>,
    /// Which supply.
    pub supply: Option<Supply>,
    /// How many of it.
    pub count: Option<u32>,
    /// For a timer: how long.
    pub seconds: Option<u32>,
    /// The figure that was wrong, in the unit of the right one, if said.
    pub was: Option<Number>,
    /// Which entry of the log, if said.
    pub entry: Option<u32>,
    /// When it happened, if said.
    pub on: Option<When>,
}

/// What a household's word means.
#[skip_serializing_none]
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize)]
pub struct Teach {
    /// The word or words, lower case.
    pub word: String,
    /// What kind of thing it is.
    pub means: Taught,
    /// Which one, by the name that is known: a crop's word, a product's id.
    pub name: Option<String>,
}

/// What may have been meant: entered when somebody says yes.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize)]
pub struct Propose {
    /// What a yes enters.
    pub statements: Vec<super::Statement>,
}

/// A statement begun, and what it still needs.
#[skip_serializing_none]
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize)]
pub struct Clarify {
    /// The kind begun.
    pub about: Kind,
    /// What is missing.
    pub missing: Missing,
    /// The number already said.
    pub amount: Option<Number>,
    /// Words that were not understood and on which it depends.
    pub word: Option<String>,
    /// The statement as far as it was said, to be completed; not part of the printed form.
    #[serde(skip)]
    pub partial: Option<Box<super::Statement>>,
}
