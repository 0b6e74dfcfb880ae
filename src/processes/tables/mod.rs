//! The tables as they were handed over, embedded in the program, and their rows.
//!
//! One CSV file each, byte for byte; a row that cannot be read is left out (and fails a test of this module), so that
//! a slip in a table means a refusal, never a guess.

mod doses;
mod facts;
mod rows;
mod yields;

pub(super) use doses::{Food, Spoon, dose_row};
pub(super) use facts::{Fact, fact};
pub(super) use rows::{Row, rows};
pub(super) use yields::{Yield, yields};

use serde::de::DeserializeOwned;

/// Every readable row of an embedded table, and how many rows could not be read.
fn read<R: DeserializeOwned>(text: &str) -> (Vec<R>, usize) {
    let mut broken = 0;
    let rows = csv::Reader::from_reader(text.as_bytes())
        .into_deserialize()
        .filter_map(|row| row.inspect_err(|_| broken += 1).ok())
        .collect();
    (rows, broken)
}
