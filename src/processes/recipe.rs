//! What the tables' own directions put into a jar with the food, beside the food itself, and how they make it ready:
//! what is told of it leaves the process as it is (USDA AIB 539, 2015, Guides 1 to 7, the directions above each table).

use super::acid::needs_acid;
use super::catalogue::{Acidity, Category, ProductInfo};

/// What stands in a table's name before what is in it besides: `spaghetti sauce with meat`.
const BESIDES: &str = " with ";
/// What stands before what is left out of it.
const LEFT_OUT: &str = "without";
/// What ferments before it is canned (Guide 6).
const FERMENTED: [&str; 2] = ["sauerkraut", "dill-pickles-fermented"];
/// What is made of dried beans.
const SOAKED: [&str; 3] = ["beans-dried", "beans-dry-sauce", "chile-con-carne"];
/// How the ids of pie fillings end.
const PIE: &str = "-pie-filling";
/// Words of the ids of what is put through a mill or a sieve.
const SMOOTH: [&str; 7] = ["sauce", "juice", "ketchup", "puree", "butter", "applesauce", "jelly"];

impl ProductInfo {
    /// Whether its recipe is acid by vinegar. A salsa's may count on lemon juice, which vinegar is weaker than.
    pub fn has_vinegar(&self) -> bool {
        let held = self.acidity == Acidity::Acidified && !needs_acid(self);
        held && matches!(self.category, Category::Pickle | Category::Tomato)
    }

    /// Whether bottled lemon juice is in its recipe: by the acidification table, or as a salsa's or a filling's own
    /// acid.
    pub fn takes_lemon(&self) -> bool {
        needs_acid(self) || self.category == Category::Salsa || self.id.ends_with(PIE)
    }

    /// Whether it is fermented before it goes into jars.
    pub fn is_fermented(&self) -> bool {
        FERMENTED.contains(&self.id)
    }

    /// Whether it is of dried beans, which are soaked and boiled before (Guide 4; Guide 5, chile con carne).
    pub fn is_soaked(&self) -> bool {
        SOAKED.contains(&self.id)
    }

    /// Whether it is packed in water: not what is acid by its recipe, or thick.
    pub fn takes_water(&self) -> bool {
        matches!(self.category, Category::Vegetable | Category::Meat | Category::Fruit)
    }

    /// Whether it is packed in broth (Guide 5).
    pub fn takes_broth(&self) -> bool {
        self.category == Category::Meat
    }

    /// Whether it is meat, fish or shellfish itself.
    pub fn is_flesh(&self) -> bool {
        matches!(self.category, Category::Meat | Category::Seafood)
    }

    /// Whether it is made with starch (Guide 2, pie fillings: a starch made for canning).
    pub fn takes_starch(&self) -> bool {
        self.id.ends_with(PIE)
    }

    /// Whether it is sweetened to taste.
    pub fn takes_sugar(&self) -> bool {
        matches!(self.category, Category::Fruit | Category::Jam)
    }

    /// Whether it is put through a mill or a sieve.
    pub fn is_milled(&self) -> bool {
        SMOOTH.iter().any(|part| self.id.split('-').any(|word| word == *part))
    }

    /// Whether the table's own name of it has a word, and not as what is left out (`no seafood`): what a dish is called
    /// is not all in it, but the meat of `spaghetti sauce with meat` is.
    pub fn names(&self, word: &str) -> bool {
        let plain = self.name.contains(BESIDES)
            || matches!(self.category, Category::Fruit | Category::Meat | Category::Seafood);
        let said = self.name.split('(').next().and_then(|name| name.split(LEFT_OUT).next()).unwrap_or_default();
        let said = said.split_once(BESIDES).map_or(said, |(_, besides)| besides);
        plain
            && word.len() > 2
            && said.split(|c: char| !c.is_alphanumeric()).any(|part| part.eq_ignore_ascii_case(word))
    }
}

#[cfg(test)]
mod tests {
    use crate::processes::product;

    fn is(id: &str, told: impl Fn(&super::ProductInfo) -> bool) -> bool {
        product(id).is_some_and(told)
    }

    #[test]
    fn what_the_directions_add_is_theirs() {
        assert!(is("pickled-beets", |info| info.has_vinegar()) && is("tomato-ketchup", |info| info.has_vinegar()));
        for other in ["tomato-sauce-thick", "chile-salsa", "dill-pickles-fermented", "carrots", "peaches"] {
            assert!(!is(other, |info| info.has_vinegar()), "{other}");
        }
        assert!(is("carrots", |info| info.takes_water()) && !is("tomato-crushed", |info| info.takes_water()));
        assert!(is("meat-ground", |info| info.takes_broth()) && !is("carrots", |info| info.takes_broth()));
        assert!(is("apple-pie-filling", |info| info.takes_starch()) && !is("peaches", |info| info.takes_starch()));
        assert!(is("tomato-sauce-thick", |info| info.is_milled()) && !is("pumpkin-cubed", |info| info.is_milled()));
    }

    #[test]
    fn a_name_has_what_is_in_it_and_not_what_is_left_out() {
        assert!(is("spaghetti-sauce-meat", |info| info.names("meat")));
        for (id, word) in [
            ("spaghetti-sauce-meat", "spaghetti"),
            ("spaghetti-sauce-no-meat", "meat"),
            ("soup", "seafood"),
            ("fish-pints", "tuna"),
        ] {
            assert!(!is(id, |info| info.names(word)), "{id}: {word}");
        }
    }
}
