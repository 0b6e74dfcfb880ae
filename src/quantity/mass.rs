//! Mass, counted in nanograms.

exact_quantity! {
    /// A mass. One ounce is exactly 28 349 523 125 ng, so pounds, ounces, grams and kilograms are all whole.
    ///
    /// Written as grams; a float of grams names every nanogram up to four tonnes, so JSON loses nothing.
    Mass, "grams", 1e9, from_grams, as_grams
}

impl Mass {
    /// 1 g.
    pub const GRAM: Self = Self(1_000_000_000);
    /// 1 kg.
    pub const KILOGRAM: Self = Self(1_000_000_000_000);
    /// 1 oz avoirdupois, 28.349523125 g by definition (`processes/tables/facts.csv`, `g_per_ounce`).
    pub const OUNCE: Self = Self(28_349_523_125);
    /// 1 lb avoirdupois, 453.59237 g by definition (`processes/tables/facts.csv`, `g_per_pound`).
    pub const POUND: Self = Self(453_592_370_000);

    /// In pounds, for display.
    pub fn as_pounds(self) -> f64 {
        self.ratio(Self::POUND)
    }

    /// In kilograms, for display.
    pub fn as_kilograms(self) -> f64 {
        self.ratio(Self::KILOGRAM)
    }

    /// From a float of pounds as published tables print them.
    pub fn from_pounds(pounds: f64) -> Option<Self> {
        Self::from_grams(pounds * 453.592_37)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn sixteen_ounces_are_a_pound() {
        assert_eq!((0..16).map(|_| Mass::OUNCE).sum::<Mass>(), Mass::POUND);
    }

    proptest! {
        #[test]
        fn json_keeps_every_nanogram(ng in 0i64..4_000_000_000_000_000) {
            let mass = Mass(ng);
            let text = serde_json::to_string(&mass)?;
            prop_assert_eq!(serde_json::from_str::<Mass>(&text)?, mass);
        }

        #[test]
        fn shares_sum_to_the_whole(ng in 0i64..1_000_000_000_000_000, parts in 1u32..60) {
            prop_assert_eq!(Mass(ng).split(parts).into_iter().sum::<Mass>(), Mass(ng));
        }
    }
}
