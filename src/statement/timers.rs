//! Kitchen timers, which have nothing to do with a batch.

use serde::{Deserialize, Serialize};

/// A timer starts.
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct TimerStart {
    /// For how long, in seconds.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub seconds: Option<u32>,
    /// What for, without article.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub label: Option<String>,
}

/// A timer stops.
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct TimerStop {
    /// Which, if said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub label: Option<String>,
}
