//! See `checks/phrase.rs`.
#![no_main]

#[path = "../checks/mod.rs"]
mod checks;

libfuzzer_sys::fuzz_target!(|input: &str| checks::phrase::check(input));
