//! The sums of a calendar year.

use crate::quantity::Mass;
use serde::Serialize;

/// Sums of a calendar year, over all crops.
#[derive(Clone, Copy, PartialEq, Debug, Default, Serialize)]
pub struct Totals {
    /// Picked, what was never told included.
    #[serde(rename = "picked_g")]
    pub picked: Mass,
    /// Into the freezer.
    #[serde(rename = "frozen_g")]
    pub frozen: Mass,
    /// Out of the freezer to thaw.
    #[serde(rename = "thawed_g")]
    pub thawed: Mass,
    /// From the counter straight into a batch or the dryer.
    #[serde(rename = "used_fresh_g")]
    pub used_fresh: Mass,
    /// Jars that sealed, and jars put up.
    pub jars_put_up: u32,
    /// Eaten, from wherever it was.
    #[serde(rename = "eaten_g")]
    pub eaten: Mass,
    /// Given away.
    #[serde(rename = "given_g")]
    pub given: Mass,
    /// Thrown away.
    #[serde(rename = "tossed_g")]
    pub tossed: Mass,
    /// Of eaten, given and tossed: what came from the counter.
    #[serde(skip)]
    pub taken_from_counter: Mass,
}

impl Totals {
    /// All that left the counter.
    pub fn left_counter(&self) -> Mass {
        self.frozen + self.used_fresh + self.taken_from_counter
    }
}
