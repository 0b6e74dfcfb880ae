//! Questions.

use crate::quantity::Length;
use crate::vocabulary::{Acid, CannerKind, Crop, Jar, Pack, Product, Subject};
use chrono::NaiveDate;
use serde::{Deserialize, Serialize};
use serde_with::skip_serializing_none;

/// A question.
#[skip_serializing_none]
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize)]
pub struct Ask {
    /// What it is about.
    pub about: Subject,
    /// Which product.
    pub product: Option<Product>,
    /// Which jar.
    pub jar: Option<Jar>,
    /// Which acid, in a question about its dose.
    pub acid: Option<Acid>,
    /// How many jars.
    pub jars: Option<u32>,
    /// Which canner.
    pub canner: Option<CannerKind>,
    /// Hot or raw pack.
    pub pack: Option<Pack>,
    /// At which altitude, when the question names one: for this answer only.
    #[serde(rename = "length_m")]
    pub length: Option<Length>,
    /// Which crop.
    pub crop: Option<Crop>,
    /// Which batch.
    pub batch: Option<String>,
    /// Which picture or table; of a picture, `light` or `dark` may stand after it.
    pub what: Option<String>,
    /// From this day.
    pub since: Option<NaiveDate>,
    /// Up to and with this day.
    pub until: Option<NaiveDate>,
}

impl Ask {
    /// About this, and no more said.
    pub fn about(about: Subject) -> Self {
        Self {
            about,
            product: None,
            jar: None,
            acid: None,
            jars: None,
            canner: None,
            pack: None,
            length: None,
            crop: None,
            batch: None,
            what: None,
            since: None,
            until: None,
        }
    }
}
