//! Kitchen timers, which have nothing to do with a batch.

use serde::{Deserialize, Serialize};
use serde_with::skip_serializing_none;

/// A timer starts.
#[skip_serializing_none]
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct TimerStart {
    /// For how long, in seconds.
    pub seconds: Option<u32>,
    /// What for, without article.
    pub label: Option<String>,
}

/// A timer stops.
#[skip_serializing_none]
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub struct TimerStop {
    /// Which, if said.
    pub label: Option<String>,
}
