//! Volume, counted in femtolitres.

exact_quantity! {
    /// A volume. A US teaspoon is exactly 4 928 921 593 750 fl, so every kitchen measure is whole.
    ///
    /// Written as millilitres. The factors are exact by definition of the US customary units
    /// (`processes/tables/facts.csv`, `ml_per_…`).
    Volume, "millilitres", 1e12, from_millilitres, as_millilitres
}

impl Volume {
    /// 1 ml.
    pub const MILLILITRE: Self = Self(1_000_000_000_000);
    /// 1 l.
    pub const LITRE: Self = Self(1_000_000_000_000_000);
    /// A US teaspoon, 4.92892159375 ml.
    pub const TEASPOON: Self = Self(4_928_921_593_750);
    /// A US tablespoon, three teaspoons.
    pub const TABLESPOON: Self = Self(3 * 4_928_921_593_750);
    /// A US fluid ounce, two tablespoons.
    pub const FLUID_OUNCE: Self = Self(6 * 4_928_921_593_750);
    /// A US cup, 16 tablespoons.
    pub const CUP: Self = Self(48 * 4_928_921_593_750);
    /// A US liquid pint, two cups.
    pub const PINT: Self = Self(96 * 4_928_921_593_750);
    /// A US liquid quart, two pints.
    pub const QUART: Self = Self(192 * 4_928_921_593_750);
    /// A US gallon, four quarts.
    pub const GALLON: Self = Self(768 * 4_928_921_593_750);

    /// In litres, for display.
    pub fn as_litres(self) -> f64 {
        self.ratio(Self::LITRE)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

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
