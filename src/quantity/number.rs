//! A number as people write it, kept as a fraction: `7½` and `7,5` are the same, and a third stays a third.

/// A fraction with a positive denominator.
#[derive(Clone, Copy, Debug)]
pub struct Number {
    above: i64,
    below: i64,
}

impl Number {
    /// One.
    pub const ONE: Self = Self { above: 1, below: 1 };

    /// `above` / `below`; `None` when `below` is not positive.
    pub const fn new(above: i64, below: i64) -> Option<Self> {
        if below > 0 { Some(Self { above, below }) } else { None }
    }

    /// A whole number.
    pub const fn whole(n: i64) -> Self {
        Self { above: n, below: 1 }
    }

    /// Whether there is no fraction, and if so which number it is.
    pub fn as_whole(self) -> Option<i64> {
        (self.above % self.below == 0).then(|| self.above / self.below)
    }

    /// As a count of things: whole, not negative, and at most four thousand million.
    pub fn as_count(self) -> Option<u32> {
        self.as_whole().and_then(|n| u32::try_from(n).ok())
    }

    /// As a float, for display and JSON.
    pub fn as_f64(self) -> f64 {
        self.above as f64 / self.below as f64
    }

    /// The sum; `None` when it does not fit.
    pub fn checked_add(self, other: Self) -> Option<Self> {
        let above = i128::from(self.above) * i128::from(other.below) + i128::from(other.above) * i128::from(self.below);
        Self::reduced(above, i128::from(self.below) * i128::from(other.below))
    }

    /// The product; `None` when it does not fit.
    pub fn checked_mul(self, other: Self) -> Option<Self> {
        Self::reduced(
            i128::from(self.above) * i128::from(other.above),
            i128::from(self.below) * i128::from(other.below),
        )
    }

    /// `units` times this number, rounded half away from zero; `None` when it does not fit.
    pub(crate) fn scale(self, units: i64) -> Option<i64> {
        let product = i128::from(units) * i128::from(self.above);
        let below = i128::from(self.below);
        let rounded = (2 * product + product.signum() * below) / (2 * below);
        i64::try_from(rounded).ok()
    }

    fn reduced(above: i128, below: i128) -> Option<Self> {
        let (mut a, mut b) = (above.unsigned_abs(), below.unsigned_abs());
        while b != 0 {
            (a, b) = (b, a % b);
        }
        let common = i128::try_from(a.max(1)).ok()?;
        Self::new(i64::try_from(above / common).ok()?, i64::try_from(below / common).ok()?)
    }
}

impl PartialEq for Number {
    fn eq(&self, other: &Self) -> bool {
        i128::from(self.above) * i128::from(other.below) == i128::from(other.above) * i128::from(self.below)
    }
}

impl Eq for Number {}

/// Written as a float.
impl serde::Serialize for Number {
    fn serialize<S: serde::Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        match self.as_whole() {
            Some(n) => to.serialize_i64(n),
            None => to.serialize_f64(self.as_f64()),
        }
    }
}

/// Whole numbers are read as they are, others from a float to the nearest thousandth of a thousandth, as far as that
/// fits: far finer than anybody says. Everything that is written is read again.
impl<'de> serde::Deserialize<'de> for Number {
    fn deserialize<D: serde::Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        from.deserialize_any(Written)
    }
}

struct Written;

impl serde::de::Visitor<'_> for Written {
    type Value = Number;

    fn expecting(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("a number")
    }

    fn visit_i64<E>(self, n: i64) -> Result<Number, E> {
        Ok(Number::whole(n))
    }

    fn visit_u64<E: serde::de::Error>(self, n: u64) -> Result<Number, E> {
        i64::try_from(n).map(Number::whole).map_err(|_| E::custom("not a possible number"))
    }

    fn visit_f64<E: serde::de::Error>(self, value: f64) -> Result<Number, E> {
        if !value.is_finite() || value.abs() > i64::MAX as f64 {
            return Err(E::custom("not a possible number"));
        }
        let millionths = (value * 1e6).round() as i128;
        Ok(Number::reduced(millionths, 1_000_000).unwrap_or(Number::whole(value.round() as i64)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use anyhow::Context as _;

    /// A question keeps the number that it is about; one that could not be read again could not be kept at all.
    #[test]
    fn every_number_that_is_written_is_read_again() -> anyhow::Result<()> {
        for (above, below) in
            [(7, 2), (999_999_999_999, 1), (i64::MAX, 1), (i64::MIN, 1), (i64::MAX, 2), (-i64::MAX, 7)]
        {
            let number = Number::new(above, below).context("a number")?;
            let json = serde_json::to_string(&number)?;
            let again: Number = serde_json::from_str(&json)?;
            assert!((again.as_f64() - number.as_f64()).abs() <= number.as_f64().abs() * 1e-9, "{json}");
        }
        assert_eq!(serde_json::from_str::<Number>("7.5").ok(), Number::new(15, 2));
        assert!(serde_json::from_str::<Number>("1e300").is_err());
        assert!(serde_json::from_str::<Number>("18446744073709551615").is_err());
        Ok(())
    }

    #[test]
    fn halves_and_decimals_meet() -> anyhow::Result<()> {
        let half = Number::new(1, 2).context("a half")?;
        assert_eq!(Number::whole(7).checked_add(half), Number::new(75, 10));
        assert_eq!(half.scale(7), Some(4));
        assert_eq!(Number::new(-1, 2).and_then(|half| half.scale(7)), Some(-4));
        Ok(())
    }

    #[test]
    fn too_large_is_none() {
        assert_eq!(Number::whole(i64::MAX).checked_mul(Number::whole(2)), None);
        assert_eq!(Number::whole(i64::MAX).scale(2), None);
    }
}
