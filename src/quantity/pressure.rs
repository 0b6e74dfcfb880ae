//! Pressure: of the air at an altitude, and on a canner's gauge.

use serde::{Deserialize, Serialize};

/// A pressure; written as pounds per square inch, as gauges and tables are. Whether it is absolute or above the
/// air's own (gauge) is said where it is used.
#[derive(Clone, Copy, PartialEq, PartialOrd, Debug, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Pressure(f64);

/// Pascals in one pound-force per square inch: 0.45359237 kg x 9.80665 m/s2 over 0.0254 m squared (exact by
/// definition).
const PASCALS_PER_PSI: f64 = 6_894.757_293_168_361;

impl Pressure {
    /// More than any canner bears, for a pressure that nobody can reach.
    pub const MOST: Self = Self(1000.0);

    /// From pounds per square inch; `None` below nothing or when not finite.
    pub fn from_psi(psi: f64) -> Option<Self> {
        (psi.is_finite() && psi >= 0.0).then_some(Self(psi))
    }

    /// From pascals; `None` below nothing or when not finite.
    pub fn from_pascals(pascals: f64) -> Option<Self> {
        Self::from_psi(pascals / PASCALS_PER_PSI)
    }

    /// In pounds per square inch.
    pub fn as_psi(self) -> f64 {
        self.0
    }

    /// In pascals.
    pub fn as_pascals(self) -> f64 {
        self.0 * PASCALS_PER_PSI
    }
}
