//! The published tables.

mod measures;
mod tables;

pub use measures::{HarvestWeight, Measure, harvest_measure};
