//! Process times: one row for each product, pack, jar, method and altitude band.

use crate::processes::{Acidity, Category};
use crate::vocabulary::{CannerKind, Jar, Pack};
use serde::Deserialize;
use std::sync::LazyLock;

const TEXT: &str = include_str!("processes.csv");

/// A row as printed.
#[derive(Deserialize, Debug)]
pub(in crate::processes) struct Row {
    pub(in crate::processes) product_id: String,
    pub(in crate::processes) product: String,
    pub(in crate::processes) category: Category,
    pub(in crate::processes) acidity: Acidity,
    pub(in crate::processes) pack: Pack,
    pub(in crate::processes) jar: Jar,
    /// Never [`CannerKind::Steam`], which has no rows of its own.
    pub(in crate::processes) method: CannerKind,
    altitude_min_ft: u16,
    altitude_max_ft: Option<u16>,
    pub(in crate::processes) minutes: u32,
    pub(in crate::processes) psi: Option<u8>,
    pub(in crate::processes) source: String,
    pub(in crate::processes) confirmed_by: u8,
}

static ROWS: LazyLock<Vec<Row>> = LazyLock::new(|| super::read(TEXT).0);

/// All rows, in the order of the table: rows of a product stand together.
pub(in crate::processes) fn rows() -> &'static [Row] {
    &ROWS
}

impl Row {
    /// Whether the band holds for this height above the sea in feet.
    ///
    /// Bands are printed in whole feet, 0-1000 and 1001-3000: what lies between the two belongs to the higher one,
    /// whose time is longer or whose pressure is higher. Below the sea the first band holds.
    pub(in crate::processes) fn covers(&self, feet: f64) -> bool {
        let above = self.altitude_min_ft == 0 || feet > f64::from(self.altitude_min_ft - 1);
        above && self.altitude_max_ft.is_none_or(|max| feet <= f64::from(max))
    }

    /// Whether the program gives this time to anybody.
    ///
    /// Not when no page was seen that prints it, and never the one-minute process of whole tomatoes in water at 15 lb:
    /// pages disagree about it, and the same food has two undisputed processes at lower pressures.
    pub(in crate::processes) fn is_offered(&self) -> bool {
        self.confirmed_by > 0 && self.minutes > 1
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::{BTreeMap, BTreeSet};

    #[test]
    fn every_line_is_a_row_of_its_own() {
        let (rows, broken) = super::super::read::<Row>(TEXT);
        assert_eq!((rows.len(), broken), (1410, 0));
        let key = |row: &Row| {
            (row.product_id.clone(), row.pack, row.jar, row.method, row.altitude_min_ft, row.psi.map(|_| row.minutes))
        };
        assert_eq!(rows.iter().map(key).collect::<BTreeSet<_>>().len(), 1410);
    }

    #[test]
    fn a_product_is_one_block_of_rows_with_one_name_category_and_acidity() {
        let blocks = rows().chunk_by(|a, b| a.product_id == b.product_id).collect::<Vec<_>>();
        assert_eq!(blocks.iter().map(|block| &block[0].product_id).collect::<BTreeSet<_>>().len(), blocks.len());
        for block in blocks {
            let first = &block[0];
            for row in block {
                assert_eq!((&row.product, row.category, row.acidity), (&first.product, first.category, first.acidity));
            }
        }
    }

    #[test]
    fn psi_stands_under_pressure_only_and_nothing_is_steamed_or_low_acid_in_boiling_water() {
        for row in rows() {
            assert_ne!(row.method, CannerKind::Steam);
            assert_eq!(row.psi.is_some(), row.method.is_pressure(), "{row:?}");
            assert!(row.acidity != Acidity::LowAcid || row.method.is_pressure(), "{row:?}");
            assert!(!row.jar.is_metric() && !row.source.is_empty() && (1..=120).contains(&row.minutes), "{row:?}");
        }
    }

    #[test]
    fn boiling_water_bands_follow_each_other_without_a_gap() {
        let mut bands: BTreeMap<_, Vec<_>> = BTreeMap::new();
        for row in rows().iter().filter(|row| !row.method.is_pressure()) {
            let key = (&row.product_id, row.pack, row.jar);
            bands.entry(key).or_default().push((row.altitude_min_ft, row.altitude_max_ft, row.minutes));
        }
        for (key, bands) in bands {
            // Nobody saw the upper bands of two salsas, and pages disagree about those of grapes packed hot.
            let unseen = ["grapes-whole", "mango-salsa", "peach-apple-salsa"].contains(&key.0.as_str());
            assert_eq!((bands[0].0, bands[bands.len() - 1].1.is_none() || unseen), (0, true), "{key:?}");
            for pair in bands.windows(2) {
                assert_eq!(pair[0].1, Some(pair[1].0 - 1), "{key:?}");
                assert!(pair[0].2 <= pair[1].2, "the time falls with altitude: {key:?}");
            }
        }
    }

    #[test]
    fn one_line_for_both_packs_never_stands_beside_a_line_for_one() {
        let mut packs: BTreeMap<_, BTreeSet<_>> = BTreeMap::new();
        for row in rows() {
            packs.entry((&row.product_id, row.method)).or_default().insert(row.pack);
        }
        assert!(packs.values().all(|packs| packs.len() == 1 || !packs.contains(&Pack::Either)), "{packs:?}");
    }
}
