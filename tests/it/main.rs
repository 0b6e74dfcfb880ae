//! All integration tests in one binary.

mod export;
mod store;
