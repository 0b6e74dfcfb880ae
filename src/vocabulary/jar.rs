//! Jar sizes.

use crate::quantity::{Number, Volume};

closed_words! {
    /// A jar by its nominal size; the customary sizes in order of volume, then the metric ones.
    Jar {
        /// 8 fl oz, a jelly jar.
        HalfPint = "half-pint",
        /// 16 fl oz.
        Pint = "pint",
        /// 24 fl oz.
        PintAndHalf = "pint-and-half",
        /// 32 fl oz.
        Quart = "quart",
        /// 64 fl oz.
        HalfGallon = "half-gallon",
        /// A quarter litre.
        Ml250 = "250ml",
        /// Half a litre.
        Ml500 = "500ml",
        /// Three quarters of a litre.
        Ml750 = "750ml",
        /// A litre.
        L1 = "1l",
    }
}

impl Jar {
    /// The nominal volume, exact by definition.
    pub fn volume(self) -> Volume {
        let (unit, n) = match self {
            Self::HalfPint => (Volume::CUP, 1),
            Self::Pint => (Volume::PINT, 1),
            Self::PintAndHalf => (Volume::CUP, 3),
            Self::Quart => (Volume::QUART, 1),
            Self::HalfGallon => (Volume::QUART, 2),
            Self::Ml250 => (Volume::MILLILITRE, 250),
            Self::Ml500 => (Volume::MILLILITRE, 500),
            Self::Ml750 => (Volume::MILLILITRE, 750),
            Self::L1 => (Volume::LITRE, 1),
        };
        unit.times(Number::whole(n)).unwrap_or(unit)
    }

    /// Whether it is one of the metric sizes.
    pub const fn is_metric(self) -> bool {
        matches!(self, Self::Ml250 | Self::Ml500 | Self::Ml750 | Self::L1)
    }

    /// So many of them: `7 quarts`, `7 × 750 ml jars`.
    pub fn counted(self, count: u32) -> String {
        let times = if self.is_metric() { "\u{d7} " } else { "" };
        format!("{count} {times}{}", self.spoken(count))
    }

    /// As said in a sentence, for one or for several, without the number: `quart`, `quarts`, `500 ml jars`.
    pub const fn spoken(self, count: u32) -> &'static str {
        match (self, count == 1) {
            (Self::HalfPint, true) => "half-pint",
            (Self::HalfPint, false) => "half-pints",
            (Self::Pint, true) => "pint",
            (Self::Pint, false) => "pints",
            (Self::PintAndHalf, true) => "pint-and-a-half jar",
            (Self::PintAndHalf, false) => "pint-and-a-half jars",
            (Self::Quart, true) => "quart",
            (Self::Quart, false) => "quarts",
            (Self::HalfGallon, true) => "half-gallon",
            (Self::HalfGallon, false) => "half-gallons",
            (Self::Ml250, true) => "250 ml jar",
            (Self::Ml250, false) => "250 ml jars",
            (Self::Ml500, true) => "500 ml jar",
            (Self::Ml500, false) => "500 ml jars",
            (Self::Ml750, true) => "750 ml jar",
            (Self::Ml750, false) => "750 ml jars",
            (Self::L1, true) => "1 l jar",
            (Self::L1, false) => "1 l jars",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn jars_are_ordered_by_volume_within_their_system() {
        let customary: Vec<_> = Jar::ALL.iter().filter(|jar| !jar.is_metric()).map(|jar| jar.volume()).collect();
        assert!(customary.is_sorted());
        assert_eq!(
            (Jar::Ml750.counted(7), Jar::Quart.counted(1)),
            ("7 × 750 ml jars".to_owned(), "1 quart".to_owned())
        );
        assert!(Jar::Ml250.volume() > Jar::HalfPint.volume() && Jar::L1.volume() > Jar::Quart.volume());
    }
}
