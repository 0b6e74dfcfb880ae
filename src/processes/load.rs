//! What a canner load takes of the raw crop, and the room to leave at the top of a jar.

use super::ProductInfo;
use super::jars::nearest;
use super::tables::{Yield, yields};
use crate::quantity::{Length, Mass, Number};
use crate::vocabulary::Jar;

/// The raw weight of one canner load.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Load {
    /// The main crop's weight, before anything is taken off.
    pub mass: Mass,
    /// How many jars it fills.
    pub jars: u32,
    /// Where the printed load is that it is taken or scaled from.
    pub source: &'static str,
    /// Whether it was scaled to another jar or another number of jars than printed.
    pub scaled: bool,
}

/// The raw weight of a load of `capacity` jars, or of as many as the guide prints; `None` where the guide prints no
/// weight for the product.
///
/// A jar that the guide has no line for takes its share by volume of the nearest size's line, nine jars up to half a
/// litre and seven larger ones; for a half-gallon the number must be said.
pub fn load(product: &ProductInfo, jar: Jar, capacity: Option<u32>) -> Option<Load> {
    let printed = yields(product.id).filter_map(|row| Some((row, row.jars_per_load?, row.pounds_per_load?)));
    let (row, row_jars, pounds) = nearest(jar, printed, |(row, ..)| row.jar)?;
    let own = row.jar == jar;
    let usual = if own { Some(row_jars) } else { usual_jars(jar) };
    let jars = capacity.filter(|jars| *jars > 0).or(usual)?;
    let mass = Mass::from_pounds(pounds)?;
    if own && jars == row_jars {
        return Some(Load { mass, jars, source: &row.source, scaled: false });
    }
    let mass = mass.times(Number::new(i64::from(jars), i64::from(row_jars))?)?;
    let share = jar.volume().ratio(row.jar.volume());
    let mass = if own { mass } else { Mass::from_grams(mass.as_grams() * share)? };
    Some(Load { mass, jars, source: &row.source, scaled: true })
}

/// How many jars of this size the guide's recipe or canner load makes, where it prints no weight for it.
pub fn jars_per_load(product: &ProductInfo, jar: Jar) -> Option<(u32, &'static str)> {
    let mut printed = yields(product.id).filter(|row| row.jar == jar && row.pounds_per_load.is_none());
    printed.find_map(|row| Some((row.jars_per_load?, row.source.as_str())))
}

/// The room between food and lid; that of the nearest size where the guide has no line for the jar.
pub fn headspace(product: &ProductInfo, jar: Jar) -> Option<Length> {
    let printed = yields(product.id).filter(|row| row.headspace_in.is_some());
    let row: &Yield = nearest(jar, printed, |row| row.jar)?;
    Length::from_inches(row.headspace_in?)
}

/// The guide's load is 7 quarts or 9 pints.
fn usual_jars(jar: Jar) -> Option<u32> {
    match jar {
        Jar::HalfPint | Jar::Pint | Jar::Ml250 | Jar::Ml500 => Some(9),
        Jar::PintAndHalf | Jar::Quart | Jar::Ml750 | Jar::L1 => Some(7),
        Jar::HalfGallon => None,
    }
}

#[cfg(test)]
mod tests {
    use super::super::{product, products};
    use super::*;
    use anyhow::Context as _;

    fn known(id: &str) -> anyhow::Result<&'static ProductInfo> {
        product(id).with_context(|| format!("{id} is no product"))
    }

    fn pounds(id: &str, jar: Jar, capacity: Option<u32>) -> anyhow::Result<Option<(f64, u32, bool)>> {
        let load = load(known(id)?, jar, capacity);
        Ok(load.map(|load| ((load.mass.as_pounds() * 1000.0).round() / 1000.0, load.jars, load.scaled)))
    }

    /// USDA AIB 539 (2015), Guide 3, "quantity" of each product.
    #[test]
    fn loads_are_those_of_the_guide() -> anyhow::Result<()> {
        for (id, quarts, pints) in [
            ("tomato-juice", 23.0, 14.0),
            ("tomato-crushed", 22.0, 14.0),
            ("tomato-sauce-thin", 35.0, 21.0),
            ("tomato-sauce-thick", 46.0, 28.0),
            ("tomato-whole-water", 21.0, 13.0),
            ("tomatillos", 14.0, 9.0),
        ] {
            assert_eq!(pounds(id, Jar::Quart, None)?, Some((quarts, 7, false)), "{id}");
            assert_eq!(pounds(id, Jar::Pint, None)?, Some((pints, 9, false)), "{id}");
        }
        assert_eq!(
            load(known("tomato-sauce-thick")?, Jar::Quart, None).map(|load| load.mass),
            Mass::POUND.times(Number::whole(46))
        );
        Ok(())
    }

    #[test]
    fn another_number_of_jars_or_another_size_takes_its_share() -> anyhow::Result<()> {
        assert_eq!(pounds("tomato-sauce-thick", Jar::Quart, Some(14))?, Some((92.0, 14, true)));
        assert_eq!(pounds("tomato-sauce-thick", Jar::Quart, Some(7))?, Some((46.0, 7, false)));
        assert_eq!(pounds("tomato-sauce-thick", Jar::HalfPint, None)?, Some((14.0, 9, true)));
        assert_eq!(pounds("tomato-sauce-thick", Jar::PintAndHalf, None)?, Some((34.5, 7, true)));
        assert_eq!(pounds("tomato-sauce-thick", Jar::Ml500, None)?, Some((29.587, 9, true)));
        assert_eq!(pounds("tomato-sauce-thick", Jar::Ml750, None)?, Some((36.456, 7, true)));
        assert_eq!(pounds("tomato-juice-blend", Jar::Pint, None)?, Some((14.143, 9, true)));
        Ok(())
    }

    #[test]
    fn without_a_printed_weight_there_is_no_load() -> anyhow::Result<()> {
        for id in ["fruit-puree", "easy-hot-sauce", "tomatillo-green-salsa", "chile-salsa-ii"] {
            assert_eq!(pounds(id, Jar::Pint, None)?, None, "{id}");
        }
        let jars = |id, jar| anyhow::Ok(jars_per_load(known(id)?, jar).map(|(jars, _)| jars));
        assert_eq!(
            (jars("tomatillo-green-salsa", Jar::Pint)?, jars("tomatillo-green-salsa", Jar::HalfPint)?),
            (Some(5), None)
        );
        assert_eq!((jars("fruit-puree", Jar::Quart)?, jars("tomato-juice", Jar::Quart)?), (Some(7), None));
        assert_eq!(pounds("grape-juice", Jar::HalfGallon, None)?, None);
        assert_eq!(pounds("grape-juice", Jar::HalfGallon, Some(4))?, Some((28.0, 4, true)));
        Ok(())
    }

    #[test]
    fn headspace_is_that_of_the_guide() -> anyhow::Result<()> {
        for (id, jar, inches) in [
            ("tomato-sauce-thick", Jar::Quart, 0.25),
            ("tomato-crushed", Jar::Pint, 0.5),
            ("tomato-okra-zucchini", Jar::Quart, 1.0),
            ("tomato-juice-blend", Jar::Pint, 0.5),
            ("lima-beans", Jar::Quart, 1.25),
            ("lima-beans", Jar::HalfPint, 1.0),
        ] {
            assert_eq!(headspace(known(id)?, jar), Length::from_inches(inches), "{id}");
        }
        assert_eq!(products().iter().filter(|info| headspace(info, Jar::Pint).is_none()).count(), 11);
        Ok(())
    }
}
