//! The program against a real homeserver on loopback, driven by people who speak raw HTTP.
//!
//! Needs `python3` with its `venv` module, and the Python package index the first time.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::string_slice,
    missing_docs,
    unreachable_pub
)]

mod bot;
mod canning_day;
mod disks;
mod encrypted_person;
mod encryption;
mod faulty_line;
mod files;
mod hostile;
mod kills;
mod kitchens;
mod marks;
mod person;
mod repeats;
mod rooms;
mod storms;
mod synapse;
mod trouble;
