//! Groups of tested products, by the names that data files call them.

use super::catalogue::{Category, ProductInfo, product};

/// A product of the tables, or a group of them.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum ProductGroup {
    /// All of them.
    All,
    /// Those of a guide.
    Of(Category),
    /// Those that take bottled lemon juice.
    Lemon,
    /// Those that are acid by vinegar.
    Vinegar,
    /// One of them.
    One(&'static str),
}

impl ProductGroup {
    /// By its name: a product's id, or `@` and the name of a group.
    pub fn named(name: &str) -> Option<Self> {
        Some(match name {
            "@all" => Self::All,
            "@lemon" => Self::Lemon,
            "@vinegar" => Self::Vinegar,
            "@tomato" => Self::Of(Category::Tomato),
            "@salsa" => Self::Of(Category::Salsa),
            "@fruit" => Self::Of(Category::Fruit),
            "@vegetable" => Self::Of(Category::Vegetable),
            "@meat" => Self::Of(Category::Meat),
            "@seafood" => Self::Of(Category::Seafood),
            "@pickle" => Self::Of(Category::Pickle),
            "@jam" => Self::Of(Category::Jam),
            id => Self::One(product(id)?.id),
        })
    }

    /// Whether a product is one of them.
    pub fn has(self, info: &ProductInfo) -> bool {
        match self {
            Self::All => true,
            Self::Of(category) => info.category == category,
            Self::Lemon => info.takes_lemon(),
            Self::Vinegar => info.has_vinegar(),
            Self::One(id) => info.id == id,
        }
    }
}
