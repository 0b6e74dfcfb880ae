//! The tests of the whole program, in one binary; a module each, data beside them in `tests/data`.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::string_slice,
    missing_docs
)]

mod acid;
mod assistant;
mod batch;
mod canning;
mod cli;
#[path = "../train/src/compare.rs"]
#[allow(unreachable_pub)]
mod compare;
mod corpora;
mod danger;
mod day;
mod desk;
mod dialogues;
mod directions;
mod drawing;
mod export;
mod fates;
mod frames;
mod fuzzed;
mod kitchens;
mod ledger;
mod marks;
mod metamorphic;
mod mishaps;
mod moved;
mod paper;
mod perils;
mod phrase;
mod picture;
mod planning;
mod processes;
mod proposals;
mod readme;
mod replay;
mod rounds;
mod rulings;
mod season;
mod seasons;
mod store;
mod support;
mod unsure;
mod untested;
mod values;
