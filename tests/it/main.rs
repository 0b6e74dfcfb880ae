//! The tests of the whole program, in one binary.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, missing_docs)]

mod processes;
