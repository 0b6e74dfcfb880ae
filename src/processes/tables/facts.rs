//! Single figures by key.

use serde::Deserialize;
use std::{collections::HashMap, sync::LazyLock};

const TEXT: &str = include_str!("facts.csv");

/// One figure with where it is printed.
#[derive(Deserialize, Debug)]
pub(in crate::processes) struct Fact {
    key: String,
    /// A number, or words.
    pub(in crate::processes) value: String,
    /// Bulletin, guide and place, or the page it was seen on.
    pub(in crate::processes) source: String,
    /// How many different pages showed it; 0 is from memory, or exact by definition.
    pub(in crate::processes) confirmed_by: u8,
}

static FACTS: LazyLock<HashMap<String, Fact>> =
    LazyLock::new(|| super::read::<Fact>(TEXT).0.into_iter().map(|fact| (fact.key.clone(), fact)).collect());

/// The figure with this key.
pub(in crate::processes) fn fact(key: &str) -> Option<&'static Fact> {
    FACTS.get(key)
}

impl Fact {
    /// The value as a number; `None` when it is words.
    pub(in crate::processes) fn number(&self) -> Option<f64> {
        self.value.parse().ok()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_line_is_a_fact_with_a_key_of_its_own() {
        let (rows, broken) = super::super::read::<Fact>(TEXT);
        assert_eq!((rows.len(), broken, FACTS.len()), (240, 0, 240));
        assert!(rows.iter().all(|fact| !fact.source.is_empty() && !fact.value.is_empty()));
    }
}
