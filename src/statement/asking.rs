//! Questions.

use crate::vocabulary::{CannerKind, Crop, Jar, Pack, Product, Subject};
use chrono::NaiveDate;
use serde::{Deserialize, Serialize};

/// A question.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize)]
pub struct Ask {
    /// What it is about.
    pub about: Subject,
    /// Which product.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub product: Option<Product>,
    /// Which jar.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub jar: Option<Jar>,
    /// Which canner.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub canner: Option<CannerKind>,
    /// Hot or raw pack.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pack: Option<Pack>,
    /// Which crop.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub crop: Option<Crop>,
    /// Which batch.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub batch: Option<String>,
    /// From this day.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub since: Option<NaiveDate>,
    /// Up to and with this day.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub until: Option<NaiveDate>,
}
