//! What a canner load takes, and the headspace to leave.

use crate::vocabulary::Jar;
use serde::Deserialize;
use std::sync::LazyLock;

const TEXT: &str = include_str!("yields.csv");

/// A row as printed, for one product and jar. The bushel's yield is in the file too; nothing asks for it.
#[derive(Deserialize, Debug)]
pub(in crate::processes) struct Yield {
    pub(in crate::processes) product_id: String,
    pub(in crate::processes) jar: Jar,
    pub(in crate::processes) jars_per_load: Option<u32>,
    pub(in crate::processes) pounds_per_load: Option<f64>,
    pub(in crate::processes) headspace_in: Option<f64>,
    pub(in crate::processes) source: String,
    pub(in crate::processes) confirmed_by: u8,
}

static YIELDS: LazyLock<Vec<Yield>> = LazyLock::new(|| super::read(TEXT).0);

/// The rows of a product that some page was seen to print.
pub(in crate::processes) fn yields(product_id: &str) -> impl Iterator<Item = &'static Yield> {
    YIELDS.iter().filter(move |row| row.product_id == product_id && row.confirmed_by > 0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn every_line_is_a_yield_of_a_product_with_process_times() {
        let (rows, broken) = super::super::read::<Yield>(TEXT);
        assert_eq!((rows.len(), broken), (175, 0));
        assert_eq!(rows.iter().map(|row| (&row.product_id, row.jar)).collect::<BTreeSet<_>>().len(), 175);
        for row in &rows {
            assert!(super::super::rows().iter().any(|process| process.product_id == row.product_id), "{row:?}");
            assert!(row.pounds_per_load.is_none() || row.jars_per_load.is_some_and(|jars| jars > 0), "{row:?}");
            assert!(row.headspace_in.is_some_and(|inches| (0.1..2.0).contains(&inches)), "{row:?}");
        }
    }
}
