//! What each fuzz target checks of an input. The fuzzer runs it on what it makes up, `tests/it/fuzzed.rs` on what was
//! kept of that.
#![allow(dead_code)]

mod common;
pub(crate) mod conversation;
#[path = "../../../src/matrix/html.rs"]
mod html;
pub(crate) mod import;
pub(crate) mod journal;
pub(crate) mod phrase;
