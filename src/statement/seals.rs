//! How the jars of a batch fared.

use super::When;
use serde::{Deserialize, Serialize};

/// Jars sealed.
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct Sealed {
    /// How many sealed; all of them when absent.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub jars: Option<u32>,
    /// Out of how many.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub of: Option<u32>,
    /// The batch it belongs to, when the phrase names one (contract: further field, absent unless said).
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub batch: Option<String>,
    /// When it happened, if said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub on: Option<When>,
}

/// Jars that did not seal, and what became of them.
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct SomeJars {
    /// How many.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub jars: Option<u32>,
    /// The batch it belongs to, when the phrase names one (contract: further field, absent unless said).
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub batch: Option<String>,
    /// When it happened, if said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub on: Option<When>,
}
