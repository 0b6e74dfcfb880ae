//! What is in a jar, by the tables' own id or by a household recipe's name.

use serde::{Deserialize, Serialize};
use std::borrow::Cow;

/// A product: a `product_id` of the process tables, a household recipe's own name, or a family word that fits
/// several tested products and has yet to be asked about (`salsa`). Lower case. Which of the three it is, `processes`
/// and the household's recipes say.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Product(Cow<'static, str>);

impl Product {
    /// Thick tomato sauce: what `sauce` means, and a load is, until a household sets another.
    pub const THICK_SAUCE: Self = Self::tested("tomato-sauce-thick");

    /// From a table's id, without allocating.
    pub const fn tested(id: &'static str) -> Self {
        Self(Cow::Borrowed(id))
    }

    /// From any name.
    pub fn named(name: &str) -> Self {
        Self(Cow::Owned(name.to_lowercase()))
    }

    /// The id or name.
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl std::fmt::Display for Product {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.0)
    }
}
