//! How many figures of the USDA Complete Guide to Home Canning (AIB 539, 2015) the tables hold in each guide, and how
//! many pages showed each: the counts that were written down beside the tables when they were set out, from which a row
//! that was lost, added or marked otherwise is seen.

use std::collections::{BTreeMap, BTreeSet};

const PROCESSES: &str = include_str!("../../../src/processes/tables/processes.csv");
const YIELDS: &str = include_str!("../../../src/processes/tables/yields.csv");
const ACID: &str = include_str!("../../../src/processes/tables/acidification.csv");

type Line = BTreeMap<String, String>;

fn lines(text: &str) -> Vec<Line> {
    csv::Reader::from_reader(text.as_bytes()).deserialize().collect::<Result<_, _>>().unwrap()
}

/// Rows that no page, one page, and more pages confirm.
fn confirmed<'a>(lines: impl Iterator<Item = &'a Line>) -> [usize; 3] {
    let mut counts = [0; 3];
    for line in lines {
        counts[line["confirmed_by"].parse::<usize>().unwrap().min(2)] += 1;
    }
    counts
}

#[test]
fn the_tables_hold_as_many_rows_as_were_set_out() {
    let processes = lines(PROCESSES);
    assert_eq!(confirmed(processes.iter()), [39, 251, 1120]);
    assert_eq!(confirmed(lines(YIELDS).iter()), [0, 37, 138]);
    assert_eq!(confirmed(lines(ACID).iter()), [1, 0, 16]);
    for (category, products, counts) in [
        ("tomato", 18, [12, 119, 238]),
        ("salsa", 11, [6, 14, 10]),
        ("fruit", 31, [0, 54, 369]),
        ("vegetable", 22, [0, 13, 245]),
        ("meat", 7, [0, 0, 78]),
        ("seafood", 6, [0, 1, 53]),
        ("pickle", 29, [15, 35, 101]),
        ("jam", 9, [6, 15, 26]),
    ] {
        let of = || processes.iter().filter(|line| line["category"] == category);
        assert_eq!(confirmed(of()), counts, "{category}");
        assert_eq!(of().map(|line| &line["product_id"]).collect::<BTreeSet<_>>().len(), products, "{category}");
    }
}
