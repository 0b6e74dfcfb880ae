//! Where water boils at a height above the sea: the standard atmosphere and the saturation curve of water.

use crate::quantity::{Length, Pressure, Temperature};

/// The pressure of the air at a height above the sea; `None` outside the troposphere (5 km below the sea to 11 km).
///
/// U.S. Standard Atmosphere, 1976 (the same as ICAO here): 101 325 Pa and 288.15 K at the sea, 6.5 K less each
/// kilometre. Weather moves it by about 3 percent, 1 C of boiling temperature, which the published tables allow for.
pub fn air_pressure(altitude: Length) -> Option<Pressure> {
    const SEA_LEVEL_PASCALS: f64 = 101_325.0;
    const SEA_LEVEL_KELVINS: f64 = 288.15;
    const KELVINS_PER_METRE: f64 = 0.0065;
    // Gravity x molar mass of air / (gas constant x lapse rate).
    const EXPONENT: f64 = 9.806_65 * 0.028_964_4 / (8.314_32 * KELVINS_PER_METRE);

    let metres = altitude.as_metres();
    if !(-5_000.0..=11_000.0).contains(&metres) {
        return None;
    }
    Pressure::from_pascals(SEA_LEVEL_PASCALS * (1.0 - KELVINS_PER_METRE * metres / SEA_LEVEL_KELVINS).powf(EXPONENT))
}

/// The temperature of boiling water, and of the steam over it, at a height above the sea; `None` outside the
/// troposphere. Free-flowing steam in a canner has this temperature once the air is out.
///
/// ```
/// use rackful::{processes::boiling_point, quantity::{Length, Number}};
/// let denver = Length::FOOT.times(Number::whole(5280));
/// assert_eq!(denver.and_then(boiling_point).map(|water| water.as_celsius().round()), Some(95.0));
/// ```
pub fn boiling_point(altitude: Length) -> Option<Temperature> {
    saturation_temperature(air_pressure(altitude)?)
}

/// The temperature at which water boils under an absolute pressure; `None` outside 611.213 Pa to 22.064 MPa.
///
/// IAPWS-IF97, region 4, backward equation (equation 31) with the coefficients of its table 34.
pub fn saturation_temperature(pressure: Pressure) -> Option<Temperature> {
    const N: [f64; 10] = [
        1_167.052_145_276_7,
        -724_213.167_032_06,
        -17.073_846_940_092,
        12_020.824_702_470,
        -3_232_555.032_233_3,
        14.915_108_613_530,
        -4_823.265_736_159_1,
        405_113.405_420_57,
        -0.238_555_575_678_49,
        650.175_348_447_98,
    ];
    let megapascals = pressure.as_pascals() / 1e6;
    if !(0.000_611_213..=22.064).contains(&megapascals) {
        return None;
    }
    let [n1, n2, n3, n4, n5, n6, n7, n8, n9, n10] = N;
    let beta = megapascals.sqrt().sqrt();
    let e = beta * beta + n3 * beta + n6;
    let f = n1 * beta * beta + n4 * beta + n7;
    let g = n2 * beta * beta + n5 * beta + n8;
    let d = 2.0 * g / (-f - (f * f - 4.0 * e * g).sqrt());
    Temperature::from_kelvin((n10 + d - ((n10 + d).powi(2) - 4.0 * (n9 + n10 * d)).sqrt()) / 2.0)
}

#[cfg(test)]
mod tests {
    use super::super::tables::{Fact, fact};
    use super::*;
    use crate::quantity::Number;
    use anyhow::Context as _;

    fn fahrenheit_at(feet: i64) -> Option<f64> {
        Length::FOOT.times(Number::whole(feet)).and_then(boiling_point).map(Temperature::as_fahrenheit)
    }

    /// The check values of IAPWS-IF97, table 36.
    #[test]
    fn saturation_temperature_has_the_check_values_of_its_standard() -> anyhow::Result<()> {
        for (megapascals, kelvins) in [(0.1, 372.755_919), (1.0, 453.035_632), (10.0, 584.149_488)] {
            let pressure = Pressure::from_pascals(megapascals * 1e6);
            let found = pressure.and_then(saturation_temperature).context("a temperature")?;
            assert!((found.as_kelvin() - kelvins).abs() < 1e-6, "{megapascals} MPa: {found:?}");
        }
        Ok(())
    }

    /// U.S. Standard Atmosphere, 1976, geopotential heights: 89 874.6, 79 495.2 and 70 108.5 Pa.
    #[test]
    fn air_pressure_is_that_of_the_standard_atmosphere() -> anyhow::Result<()> {
        for (metres, pascals) in [(0.0, 101_325.0), (1000.0, 89_874.6), (2000.0, 79_495.2), (3000.0, 70_108.5)] {
            let found = Length::from_metres(metres).and_then(air_pressure).context("a pressure")?.as_pascals();
            assert!((found - pascals).abs() < 0.5, "{metres} m: {found}");
        }
        Ok(())
    }

    /// USDA AIB 539 (2015), Guide 7: the jelly temperature table less 8 F, in whole degrees.
    #[test]
    fn water_boils_about_where_the_guide_says() -> anyhow::Result<()> {
        for feet in (0..=8000).step_by(1000) {
            let printed = fact(&format!("boiling_point_f_at_{feet}_ft")).and_then(Fact::number).context("a figure")?;
            let boils = fahrenheit_at(feet).context("a boiling point")?;
            assert!((boils - printed).abs() < 0.7, "{feet} ft: {boils} and {printed}");
        }
        Ok(())
    }

    /// The reference tables' second set, from a page on altitude that computes with a formula of its own. That formula
    /// falls by about 1.75 F every 1000 ft where the saturation curve falls by 1.83 F, so the two drift apart: by
    /// 0.25 F up to 4000 ft, 1.1 F at 10 000 ft, the computed set always the warmer.
    #[test]
    fn water_boils_near_where_another_formula_says() -> anyhow::Result<()> {
        for feet in (1000..=10_000).step_by(1000) {
            let printed = fact(&format!("boiling_point_computed_f_at_{feet}_ft")).and_then(Fact::number);
            let (printed, boils) = printed.zip(fahrenheit_at(feet)).context("two figures")?;
            let cooler = printed - boils;
            let most = if feet <= 4000 { 0.25 } else { 1.1 };
            assert!((0.0..most).contains(&cooler), "{feet} ft: {boils} and {printed}");
        }
        Ok(())
    }

    #[test]
    fn there_is_no_boiling_point_outside_the_troposphere() {
        assert_eq!(Length::from_metres(11_001.0).map(boiling_point), Some(None));
        assert_eq!(Length::from_metres(-5_001.0).map(boiling_point), Some(None));
    }
}
