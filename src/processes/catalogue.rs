//! Which products the tables know, by id and by family word.

use super::names::{FAMILIES, NAMINGS};
use super::tables::{Row, rows};
use crate::vocabulary::{CannerKind, Crop, Jar, Pack, Product};
use serde::Deserialize;
use std::{collections::HashMap, sync::LazyLock};

/// The guide a product is in.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Category {
    /// Tomatoes, tomatillos, sauces and ketchups.
    Tomato,
    /// Salsas and taco sauce.
    Salsa,
    /// Fruit and fruit juice.
    Fruit,
    /// Vegetables, and soups of what has directions of its own.
    Vegetable,
    /// Poultry, red meats, game, their stock, and chile con carne.
    Meat,
    /// Fish and shellfish.
    Seafood,
    /// Pickles, relishes and sauerkraut.
    Pickle,
    /// Jams and jellies.
    Jam,
}

/// What keeps the food safe at the temperature of boiling water.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Acidity {
    /// Acid as it is.
    Acid,
    /// Safe only with the recipe's added acid or vinegar.
    Acidified,
    /// Nothing: for a pressure canner only.
    LowAcid,
}

/// A product of the tables.
pub struct ProductInfo {
    /// The table's id, and the name of the [`Product`].
    pub id: &'static str,
    /// The full name, as the table has it.
    pub name: &'static str,
    /// As said in a sentence, after "7 quarts of".
    pub spoken: &'static str,
    /// The crop it uses up, where it has one main crop.
    pub crop: Option<Crop>,
    /// The guide it is in.
    pub category: Category,
    /// Whether it is safe without a pressure canner.
    pub acidity: Acidity,
    pub(super) rows: &'static [Row],
}

impl ProductInfo {
    /// As a product, without allocating.
    pub fn product(&self) -> Product {
        Product::tested(self.id)
    }

    /// Whether there is any time for it that the program gives; otherwise every one is from memory.
    pub fn is_offered(&self) -> bool {
        self.rows.iter().any(Row::is_offered)
    }

    /// The packs that have a time the program gives.
    pub fn packs(&self) -> Vec<Pack> {
        self.distinct(|row| row.pack)
    }

    /// The jar sizes that have a printed time the program gives; other sizes may take the time of one of these.
    pub fn jars(&self) -> Vec<Jar> {
        self.distinct(|row| row.jar)
    }

    /// A jar size to ask the tables for where every time is from memory, so that the refusal can name its table.
    pub fn unverified_jar(&self) -> Option<Jar> {
        self.rows.first().map(|row| row.jar).filter(|_| !self.is_offered())
    }

    /// Whether any canner has a time for jars of this size, its own or that of the next size up.
    pub fn is_tested_in(&self, jar: Jar) -> bool {
        let has = |size: Jar| self.rows.iter().any(|row| row.jar == size && row.is_offered());
        has(jar) || super::jars::next_size_up(jar).is_some_and(|note| has(note.takes))
    }

    /// Whether the tables have a row for jars of this size, seen in print or not.
    pub fn is_printed_in(&self, jar: Jar) -> bool {
        self.rows.iter().any(|row| row.jar == jar)
    }

    /// The canners that have a printed time the program gives. Steam canners have none: they take boiling-water times.
    pub fn canners(&self) -> Vec<CannerKind> {
        self.distinct(|row| row.method)
    }

    fn distinct<T: Ord>(&self, of: impl Fn(&Row) -> T) -> Vec<T> {
        let mut found: Vec<T> = self.rows.iter().filter(|row| row.is_offered()).map(of).collect();
        found.sort();
        found.dedup();
        found
    }
}

/// By id: there is one of each.
impl PartialEq for ProductInfo {
    fn eq(&self, other: &Self) -> bool {
        self.id == other.id
    }
}

impl Eq for ProductInfo {}

impl std::fmt::Debug for ProductInfo {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "ProductInfo({})", self.id)
    }
}

/// What a product's name stands for.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Resolved {
    /// One product of the tables.
    Tested(&'static ProductInfo),
    /// A word for several, of which these have times the program gives; never empty.
    Family(Vec<&'static ProductInfo>),
    /// Not in the tables. It may be a household recipe.
    Unknown,
}

struct Catalogue {
    products: Vec<ProductInfo>,
    by_id: HashMap<&'static str, usize>,
}

static CATALOGUE: LazyLock<Catalogue> = LazyLock::new(|| {
    let products: Vec<_> = rows().chunk_by(|a, b| a.product_id == b.product_id).filter_map(info).collect();
    let by_id = products.iter().enumerate().map(|(place, info)| (info.id, place)).collect();
    Catalogue { products, by_id }
});

fn info(rows: &'static [Row]) -> Option<ProductInfo> {
    let first = rows.first()?;
    let naming = NAMINGS.iter().find(|naming| naming.id == first.product_id)?;
    Some(ProductInfo {
        id: naming.id,
        name: &first.product,
        spoken: naming.spoken,
        crop: naming.crop,
        category: first.category,
        acidity: first.acidity,
        rows,
    })
}

/// Every product, in the order of the table.
pub fn products() -> &'static [ProductInfo] {
    &CATALOGUE.products
}

/// The product with this id.
pub fn product(id: &str) -> Option<&'static ProductInfo> {
    CATALOGUE.by_id.get(id).and_then(|place| CATALOGUE.products.get(*place))
}

/// The members of a family word that have times the program gives: `salsa`, `whole tomatoes`.
pub fn family(word: &str) -> Option<Vec<&'static ProductInfo>> {
    let family = FAMILIES.iter().find(|family| family.words.contains(&word))?;
    Some(family.members.iter().filter_map(|id| product(id)).filter(|info| info.is_offered()).collect())
}

/// The question that tells the members of a family apart, where their names make no short one.
pub fn family_question(word: &str) -> Option<&'static str> {
    FAMILIES.iter().find(|family| family.words.contains(&word))?.question
}

/// The usual word of each family.
pub fn family_words() -> impl Iterator<Item = &'static str> {
    FAMILIES.iter().filter_map(|family| family.words.first().copied())
}

/// What a product's name stands for: an id, a family word, or neither.
pub fn resolve(product_name: &Product) -> Resolved {
    let name = product_name.as_str();
    product(name).map_or_else(|| family(name).map_or(Resolved::Unknown, Resolved::Family), Resolved::Tested)
}

#[cfg(test)]
mod tests {
    use super::*;
    use anyhow::{Context as _, bail};
    use std::collections::BTreeSet;

    #[test]
    fn every_product_of_the_table_has_a_name_and_every_name_a_product() {
        assert_eq!((products().len(), NAMINGS.len()), (133, 133));
        for (info, naming) in products().iter().zip(NAMINGS) {
            assert_eq!((info.id, product(naming.id)), (naming.id, Some(info)));
        }
        assert_eq!(NAMINGS.iter().map(|naming| naming.spoken).collect::<BTreeSet<_>>().len(), 133);
    }

    #[test]
    fn family_words_are_words_of_their_own_with_known_members() {
        let words: Vec<_> = FAMILIES.iter().flat_map(|family| family.words).collect();
        assert_eq!(words.iter().collect::<BTreeSet<_>>().len(), words.len());
        assert!(words.iter().all(|word| product(word).is_none()));
        for family in FAMILIES {
            assert!(family.members.iter().all(|id| product(id).is_some()), "{:?}", family.words);
            assert!(super::family(family.words[0]).is_some_and(|found| !found.is_empty()), "{:?}", family.words);
        }
    }

    #[test]
    fn salsa_is_a_question_sauce_ids_are_products_and_soup_is_neither() -> anyhow::Result<()> {
        let Resolved::Family(salsas) = resolve(&Product::named("Salsa")) else { bail!("salsa fits several") };
        assert_eq!(salsas.len(), 8);
        assert!(salsas.iter().all(|info| info.category == Category::Salsa && info.is_offered()));
        let sauce = product("tomato-sauce-thick").context("a product")?;
        assert_eq!(resolve(&Product::THICK_SAUCE), Resolved::Tested(sauce));
        assert_eq!(resolve(&Product::named("tomato soup")), Resolved::Unknown);
        Ok(())
    }

    #[test]
    fn a_product_says_what_it_is_packed_in() -> anyhow::Result<()> {
        let okra = product("tomato-okra-zucchini").context("a product")?;
        assert_eq!((okra.acidity, okra.jars()), (Acidity::LowAcid, vec![Jar::Pint, Jar::Quart]));
        assert_eq!(okra.canners(), [CannerKind::PressureDial, CannerKind::PressureWeighted]);
        let peaches = product("peaches").context("a product")?;
        assert_eq!(peaches.packs(), [Pack::Hot, Pack::Raw, Pack::Either]);
        Ok(())
    }
}
