//! Acid to put in each jar.

use crate::vocabulary::{Acid, Jar};
use serde::Deserialize;
use std::sync::LazyLock;

const TEXT: &str = include_str!("acidification.csv");

/// A row as printed.
#[derive(Deserialize, Debug)]
pub(in crate::processes) struct DoseRow {
    food: Food,
    acid: Printed,
    jar: Jar,
    pub(in crate::processes) amount: f64,
    pub(in crate::processes) unit: Spoon,
    pub(in crate::processes) source: String,
    confirmed_by: u8,
}

/// A food that needs added acid.
#[derive(Deserialize, Clone, Copy, PartialEq, Eq, Debug)]
#[serde(rename_all = "kebab-case")]
pub(in crate::processes) enum Food {
    Tomato,
    Tomatillo,
    Fig,
    PearAsian,
}

/// The table's own words for the acids.
#[derive(Deserialize, Clone, Copy, PartialEq, Eq, Debug)]
enum Printed {
    #[serde(rename = "bottled-lemon-juice")]
    LemonJuice,
    #[serde(rename = "citric-acid")]
    CitricAcid,
    #[serde(rename = "vinegar-5pct")]
    Vinegar,
}

/// The table's measures.
#[derive(Deserialize, Clone, Copy, PartialEq, Eq, Debug)]
pub(in crate::processes) enum Spoon {
    #[serde(rename = "tsp")]
    Teaspoon,
    #[serde(rename = "tbsp")]
    Tablespoon,
}

static DOSES: LazyLock<Vec<DoseRow>> = LazyLock::new(|| super::read(TEXT).0);

/// The dose for a food and jar size of the table, where a page was seen that prints it.
pub(in crate::processes) fn dose_row(food: Food, acid: Acid, jar: Jar) -> Option<&'static DoseRow> {
    let printed = match acid {
        Acid::LemonJuice => Printed::LemonJuice,
        Acid::CitricAcid => Printed::CitricAcid,
        Acid::Vinegar => Printed::Vinegar,
    };
    DOSES.iter().find(|row| row.food == food && row.acid == printed && row.jar == jar && row.confirmed_by > 0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_line_is_a_dose_for_a_pint_or_a_quart() {
        let (rows, broken) = super::super::read::<DoseRow>(TEXT);
        assert_eq!((rows.len(), broken), (17, 0));
        assert!(rows.iter().all(|row| matches!(row.jar, Jar::Pint | Jar::Quart) && row.amount > 0.0));
        assert_eq!(rows.iter().filter(|row| row.confirmed_by == 0).count(), 1);
    }
}
