//! See `checks/import.rs`.
#![no_main]

#[path = "../checks/mod.rs"]
mod checks;

libfuzzer_sys::fuzz_target!(|input: &[u8]| checks::import::check(input));
