//! The program on a real homeserver, beside the least that could be there in its place.
//!
//! - **Replies.** From the moment at which somebody begins to send a message until its answer comes to somebody else
//!   through a sync: of the program, and of a bare echo on the same Matrix library ([`echo`]). Both are on the same
//!   homeserver, in rooms of the same kind with the same people, and take turns, so that whatever else the machine does
//!   meets both.
//! - **Memory.** What both then have resident.
//!
//! Run it with `cargo bench --bench matrix`; words after `--` choose from `plain` and `encrypted`.
//! `RACKFUL_BENCH_MESSAGES` says how many messages each of the two answers (400). It installs and starts its own
//! homeserver, as `tests/homeserver` does.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::string_slice,
    missing_docs,
    unreachable_pub
)]

#[allow(dead_code, reason = "the tests use more of it")]
#[path = "../../tests/homeserver/bot.rs"]
mod bot;
mod contest;
mod echo;
mod encrypted;
mod figures;
mod household;
#[allow(dead_code, reason = "the tests use more of it")]
#[path = "../../tests/homeserver/person.rs"]
mod person;
mod plain;
#[allow(dead_code, reason = "the tests use more of it")]
#[path = "../../tests/homeserver/synapse.rs"]
mod synapse;

fn main() {
    let words: Vec<String> = std::env::args().skip(1).collect();
    if let [first, address, folder] = &words[..]
        && first == echo::WORD
    {
        return echo::run(address, folder.as_ref());
    }
    // Tests build this and start it; only `cargo bench` says so when it means it.
    if !words.iter().any(|word| word == "--bench") {
        return;
    }
    let chosen = |name: &str| {
        let mut names = words.iter().filter(|word| !word.starts_with("--")).peekable();
        names.peek().is_none() || names.any(|word| word == name)
    };
    let replies = figures::number("RACKFUL_BENCH_MESSAGES").unwrap_or(400);
    if chosen("plain") {
        plain::run(replies);
    }
    if chosen("encrypted") {
        encrypted::run(replies);
    }
}
