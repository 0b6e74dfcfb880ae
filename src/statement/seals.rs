//! How the jars of a batch fared.

use super::When;
use serde::{Deserialize, Serialize};
use serde_with::skip_serializing_none;

/// Jars sealed.
#[skip_serializing_none]
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct Sealed {
    /// How many sealed; all of them when absent.
    pub jars: Option<u32>,
    /// Out of how many.
    pub of: Option<u32>,
    /// The batch it belongs to, when the phrase names one (contract: further field, absent unless said).
    pub batch: Option<String>,
    /// Which filling of the canner it was, from 1 (contract: further field, absent unless said).
    pub round: Option<u32>,
    /// When it happened, if said.
    pub on: Option<When>,
}

/// Jars that did not seal, and what became of them.
#[skip_serializing_none]
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct SomeJars {
    /// How many.
    pub jars: Option<u32>,
    /// The batch it belongs to, when the phrase names one (contract: further field, absent unless said).
    pub batch: Option<String>,
    /// Which filling of the canner it was, from 1 (contract: further field, absent unless said).
    pub round: Option<u32>,
    /// When it happened, if said.
    pub on: Option<When>,
}
