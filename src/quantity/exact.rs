//! The arithmetic that mass, volume and length share: a private integer, checked where input can reach.

/// Defines a quantity that counts whole `$unit`s in an `i64`, with `$per` of them to the unit it is
/// written in (`$written`).
macro_rules! exact_quantity {
    ($(#[$doc:meta])* $name:ident, $written:literal, $per:literal, $from:ident, $as:ident) => {
        $(#[$doc])*
        #[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default, Debug)]
        pub struct $name(i64);

        impl $name {
            /// Nothing at all.
            pub const ZERO: Self = Self(0);

            #[doc = concat!(
                "From a float in ", $written,
                ", rounded to the nearest counted unit; `None` when it is not finite or too large."
            )]
            pub fn $from(value: f64) -> Option<Self> {
                let counted = (value * $per).round();
                // The largest amounts round to the first float that is none any more.
                (counted.is_finite() && counted.abs() <= i64::MAX as f64).then_some(Self(counted as i64))
            }

            #[doc = concat!("In ", $written, ", for printing and for JSON.")]
            pub fn $as(self) -> f64 {
                self.0 as f64 / $per
            }

            /// This many times `self`, rounded to the nearest counted unit; `None` when it does not fit.
            pub fn times(self, number: $crate::quantity::Number) -> Option<Self> {
                number.scale(self.0).map(Self)
            }

            /// The sum, or `None` when it does not fit.
            pub fn checked_add(self, other: Self) -> Option<Self> {
                self.0.checked_add(other.0).map(Self)
            }

            /// `self` less `other`, but never below nothing.
            pub fn less(self, other: Self) -> Self {
                Self(self.0.saturating_sub(other.0).max(0))
            }

            /// Whether it is exactly nothing.
            pub fn is_zero(self) -> bool {
                self.0 == 0
            }

            /// How many times `other` goes into `self`, as a float for display and rounding; 0 when `other` is nothing.
            pub fn ratio(self, other: Self) -> f64 {
                if other.0 == 0 { 0.0 } else { self.0 as f64 / other.0 as f64 }
            }

            /// `parts` shares that differ by at most one counted unit and sum to exactly `self`.
            pub fn split(self, parts: u32) -> Vec<Self> {
                let n = i64::from(parts.max(1));
                let (each, over) = (self.0.div_euclid(n), self.0.rem_euclid(n));
                (0..n).map(|i| Self(each + i64::from(i < over))).collect()
            }
        }

        // Sums inside the ledger: input is bounded long before these could overflow (see `ledger::bounds`), and
        // saturating keeps a damaged journal from bringing the program down.
        impl std::ops::Add for $name {
            type Output = Self;
            fn add(self, other: Self) -> Self {
                Self(self.0.saturating_add(other.0))
            }
        }

        impl std::ops::Sub for $name {
            type Output = Self;
            fn sub(self, other: Self) -> Self {
                Self(self.0.saturating_sub(other.0))
            }
        }

        impl std::ops::AddAssign for $name {
            fn add_assign(&mut self, other: Self) {
                *self = *self + other;
            }
        }

        impl std::ops::SubAssign for $name {
            fn sub_assign(&mut self, other: Self) {
                *self = *self - other;
            }
        }

        impl std::iter::Sum for $name {
            fn sum<I: Iterator<Item = Self>>(iter: I) -> Self {
                iter.fold(Self::ZERO, |sum, one| sum + one)
            }
        }

        #[doc = concat!("Written as a float in ", $written, ".")]
        impl serde::Serialize for $name {
            fn serialize<S: serde::Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
                to.serialize_f64(self.$as())
            }
        }

        impl<'de> serde::Deserialize<'de> for $name {
            fn deserialize<D: serde::Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
                let value = <f64 as serde::Deserialize>::deserialize(from)?;
                let impossible = || serde::de::Error::custom(concat!("not a possible amount in ", $written));
                Self::$from(value).ok_or_else(impossible)
            }
        }
    };
}
