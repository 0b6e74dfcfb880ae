//! Volume, counted in 256 millionths of a millilitre.

exact_quantity! {
    /// A volume. An eighth of a US teaspoon is exactly 157 725 491 of what is counted, and a millilitre 256 000 000, so
    /// every kitchen measure is whole.
    ///
    /// Written as millilitres; a float of them names every volume up to 8 700 litres, so JSON loses nothing. The
    /// factors are exact by definition of the US customary units (`processes/tables/facts.csv`, `ml_per_…`).
    Volume, "millilitres", 256e6, from_millilitres, as_millilitres
}

impl Volume {
    /// 1 ml.
    pub const MILLILITRE: Self = Self(256_000_000);
    /// 1 l.
    pub const LITRE: Self = Self(256_000_000_000);
    /// A US teaspoon, 4.92892159375 ml.
    pub const TEASPOON: Self = Self(8 * 157_725_491);
    /// A US tablespoon, three teaspoons.
    pub const TABLESPOON: Self = Self(3 * Self::TEASPOON.0);
    /// A US fluid ounce, two tablespoons.
    pub const FLUID_OUNCE: Self = Self(6 * Self::TEASPOON.0);
    /// A US cup, 16 tablespoons.
    pub const CUP: Self = Self(48 * Self::TEASPOON.0);
    /// A US liquid pint, two cups.
    pub const PINT: Self = Self(96 * Self::TEASPOON.0);
    /// A US liquid quart, two pints.
    pub const QUART: Self = Self(192 * Self::TEASPOON.0);
    /// A US gallon, four quarts.
    pub const GALLON: Self = Self(768 * Self::TEASPOON.0);

    /// In litres, for display.
    pub fn as_litres(self) -> f64 {
        self.ratio(Self::LITRE)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use anyhow::Context as _;
    use proptest::prelude::*;

    proptest! {
        /// Two roundings, to the float and back, are less than half of what is counted up to here: 8,796 litres.
        #[test]
        fn json_keeps_every_volume(counted in 0i64..1 << 51) {
            let volume = Volume(counted);
            let text = serde_json::to_string(&volume)?;
            prop_assert_eq!(serde_json::from_str::<Volume>(&text)?, volume);
        }
    }

    /// What was said before a restart and what is read after it are the same pot.
    #[test]
    fn nine_quarts_are_nine_quarts_after_a_restart() -> anyhow::Result<()> {
        let said = Volume::QUART.times(crate::quantity::Number::whole(9)).context("nine quarts")?;
        assert_eq!(serde_json::from_str::<Volume>(&serde_json::to_string(&said)?)?, said);
        Ok(())
    }

    /// `processes/tables/facts.csv`: ml_per_teaspoon, ml_per_cup, ml_per_quart, ml_per_gallon.
    #[test]
    fn kitchen_measures_are_those_of_the_definition() {
        for (unit, ml) in [
            (Volume::TEASPOON, 4.928_921_593_75),
            (Volume::CUP, 236.588_236_5),
            (Volume::QUART, 946.352_946),
            (Volume::GALLON, 3_785.411_784),
        ] {
            assert_eq!(Some(unit), Volume::from_millilitres(ml));
        }
    }
}
