//! How much acid goes into each jar of a food that is not safe without.

use super::ProductInfo;
use super::jars::next_size_up;
use super::tables::{Food, Spoon, dose_row};
use crate::quantity::{Mass, Number, Volume};
use crate::vocabulary::{Acid, Jar};

/// A teaspoon of citric acid as kitchens weigh it: from memory, no page seen.
const GRAMS_PER_TEASPOON_OF_CITRIC_ACID: f64 = 4.8;

/// The acid for one jar.
#[derive(Clone, PartialEq, Debug)]
pub struct Dose {
    /// Which acid.
    pub acid: Acid,
    /// The measure, by volume as the guide prints it.
    pub amount: Volume,
    /// Citric acid by weight, at 4.8 g a teaspoon: a kitchen measure from memory, and to be marked as such.
    pub mass: Option<Mass>,
    /// As the guide prints it: `2 tablespoons`, `1/2 teaspoon`.
    pub text: String,
    /// Where it is printed.
    pub source: &'static str,
}

impl Dose {
    /// The measure for so many jars; `None` when it does not fit.
    pub fn for_jars(&self, jars: u32) -> Option<Volume> {
        self.amount.times(Number::whole(i64::from(jars)))
    }

    /// Citric acid's weight for so many jars.
    pub fn mass_for_jars(&self, jars: u32) -> Option<Mass> {
        self.mass?.times(Number::whole(i64::from(jars)))
    }
}

/// The dose of `acid` for one jar of this product; `None` when the product needs none beyond its recipe, or no dose
/// of that acid is published for the jar (vinegar is printed for quarts only; nothing for half-gallons or litres).
///
/// A jar without a dose of its own takes that of the next size up, never less than its share.
pub fn dose(product: &ProductInfo, jar: Jar, acid: Acid) -> Option<Dose> {
    let table_jar = match jar {
        Jar::Pint | Jar::Quart => jar,
        other => next_size_up(other)?.takes,
    };
    let row = dose_row(food(product.id)?, acid, table_jar)?;
    let (unit, name) = match row.unit {
        Spoon::Teaspoon => (Volume::TEASPOON, "teaspoon"),
        Spoon::Tablespoon => (Volume::TABLESPOON, "tablespoon"),
    };
    let amount = unit.times(Number::new((row.amount * 4.0).round() as i64, 4)?)?;
    let teaspoons = amount.ratio(Volume::TEASPOON);
    let mass = match acid {
        Acid::CitricAcid => Some(Mass::from_grams(teaspoons * GRAMS_PER_TEASPOON_OF_CITRIC_ACID)?),
        Acid::LemonJuice | Acid::Vinegar => None,
    };
    Some(Dose { acid, amount, mass, text: printed(row.amount, name), source: &row.source })
}

/// Whether acid goes into each jar, beyond what the recipe itself holds.
pub fn needs_acid(product: &ProductInfo) -> bool {
    food(product.id).is_some()
}

/// Which line of the acidification table a product is under. Guide 3 asks for it in juice, crushed tomatoes, sauce and
/// whole tomatoes, Guide 2 in figs and Asian pears; ketchups, hot sauces and salsas hold their acid by the recipe, and
/// what is for pressure only needs none.
fn food(id: &str) -> Option<Food> {
    match id {
        "tomato-juice" | "tomato-juice-blend" | "tomato-crushed" | "tomato-sauce-thin" | "tomato-sauce-thick"
        | "tomato-whole-water" | "tomato-whole-juice" | "tomato-whole-raw" => Some(Food::Tomato),
        "tomatillos" => Some(Food::Tomatillo),
        "figs" => Some(Food::Fig),
        "pears-asian" => Some(Food::PearAsian),
        _ => None,
    }
}

fn printed(amount: f64, unit: &str) -> String {
    let number = match (amount * 4.0).round() as i64 {
        1 => "1/4".to_owned(),
        2 => "1/2".to_owned(),
        3 => "3/4".to_owned(),
        quarters => (quarters as f64 / 4.0).to_string(),
    };
    let plural = if amount > 1.0 { "s" } else { "" };
    format!("{number} {unit}{plural}")
}

#[cfg(test)]
mod tests {
    use super::super::{Acidity, product, products};
    use super::*;
    use anyhow::Context as _;

    fn text(id: &str, jar: Jar, acid: Acid) -> anyhow::Result<Option<String>> {
        let product = product(id).with_context(|| format!("{id} is no product"))?;
        Ok(dose(product, jar, acid).map(|dose| dose.text))
    }

    /// USDA AIB 539 (2015), Guide 3, General, Acidification: 2 tablespoons of bottled lemon juice or 1/2 teaspoon of
    /// citric acid a quart, 1 tablespoon or 1/4 teaspoon a pint; 4 tablespoons of 5 percent vinegar a quart.
    #[test]
    fn doses_are_those_of_the_guide() -> anyhow::Result<()> {
        for (jar, acid, printed) in [
            (Jar::Quart, Acid::LemonJuice, Some("2 tablespoons")),
            (Jar::Pint, Acid::LemonJuice, Some("1 tablespoon")),
            (Jar::Quart, Acid::CitricAcid, Some("1/2 teaspoon")),
            (Jar::Pint, Acid::CitricAcid, Some("1/4 teaspoon")),
            (Jar::Quart, Acid::Vinegar, Some("4 tablespoons")),
            (Jar::Pint, Acid::Vinegar, None),
        ] {
            for id in ["tomato-crushed", "tomato-sauce-thick", "tomato-juice", "tomatillos"] {
                assert_eq!(text(id, jar, acid)?.as_deref(), printed, "{id} {jar} {acid}");
            }
        }
        assert_eq!(text("figs", Jar::Quart, Acid::Vinegar)?, None);
        Ok(())
    }

    #[test]
    fn other_jars_take_the_dose_of_the_next_size_up() -> anyhow::Result<()> {
        for (jar, like) in [
            (Jar::HalfPint, Jar::Pint),
            (Jar::Ml250, Jar::Pint),
            (Jar::Ml500, Jar::Quart),
            (Jar::Ml750, Jar::Quart),
            (Jar::PintAndHalf, Jar::Quart),
        ] {
            for acid in Acid::ALL {
                assert_eq!(text("tomato-crushed", jar, *acid)?, text("tomato-crushed", like, *acid)?, "{jar}");
            }
        }
        for jar in [Jar::HalfGallon, Jar::L1] {
            assert_eq!(text("tomato-juice", jar, Acid::CitricAcid)?, None);
        }
        Ok(())
    }

    #[test]
    fn seven_quarts_take_half_a_cup_less_two_spoons_or_three_and_a_half_teaspoons() -> anyhow::Result<()> {
        let sauce = product("tomato-sauce-thick").context("a product")?;
        let lemon = dose(sauce, Jar::Quart, Acid::LemonJuice).context("a dose")?;
        assert_eq!(lemon.for_jars(7), Volume::TABLESPOON.times(Number::whole(14)));
        let citric = dose(sauce, Jar::Quart, Acid::CitricAcid).context("a dose")?;
        let half = Number::new(7, 2).context("seven halves")?;
        assert_eq!(citric.for_jars(7), Volume::TEASPOON.times(half));
        assert_eq!((citric.mass_for_jars(7), lemon.mass), (Mass::from_grams(16.8), None));
        Ok(())
    }

    #[test]
    fn acid_is_for_acidified_products_that_have_none_by_recipe() -> anyhow::Result<()> {
        let ids: Vec<_> = products().iter().filter(|info| needs_acid(info)).map(|info| info.id).collect();
        assert_eq!(ids.len(), 11);
        assert!(ids.iter().all(|id| product(id).is_some_and(|info| info.acidity == Acidity::Acidified)));
        for id in ["tomato-ketchup", "chile-salsa", "peaches", "tomato-okra-zucchini", "spaghetti-sauce-meat"] {
            assert!(!ids.contains(&id) && text(id, Jar::Quart, Acid::LemonJuice)?.is_none(), "{id}");
        }
        Ok(())
    }
}
