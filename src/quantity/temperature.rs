//! Temperature of rooms, refrigerators, boiling water and steam.

use serde::{Deserialize, Serialize};

/// A temperature; written as degrees Celsius.
#[derive(Clone, Copy, PartialEq, PartialOrd, Debug, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Temperature(f64);

impl Temperature {
    /// From degrees Celsius; `None` below absolute zero or when not finite.
    pub fn from_celsius(celsius: f64) -> Option<Self> {
        (celsius.is_finite() && celsius >= -273.15).then_some(Self(celsius))
    }

    /// From degrees Fahrenheit; `None` below absolute zero or when not finite.
    pub fn from_fahrenheit(fahrenheit: f64) -> Option<Self> {
        Self::from_celsius((fahrenheit - 32.0) / 1.8)
    }

    /// From kelvins; `None` below zero or when not finite.
    pub fn from_kelvin(kelvin: f64) -> Option<Self> {
        Self::from_celsius(kelvin - 273.15)
    }

    /// In degrees Celsius.
    pub fn as_celsius(self) -> f64 {
        self.0
    }

    /// In degrees Fahrenheit.
    pub fn as_fahrenheit(self) -> f64 {
        self.0 * 1.8 + 32.0
    }

    /// In kelvins.
    pub fn as_kelvin(self) -> f64 {
        self.0 + 273.15
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn water_freezes_and_boils_where_both_scales_say() {
        assert_eq!(Temperature::from_fahrenheit(212.0), Temperature::from_celsius(100.0));
        assert_eq!(Temperature::from_celsius(0.0).map(Temperature::as_fahrenheit), Some(32.0));
        assert_eq!(Temperature::from_celsius(-300.0), None);
    }
}
