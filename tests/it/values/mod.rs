//! The grammar of values: its rules at the head of `src/phrase/value/mod.rs` run both ways, and what it reads beside
//! what another reader reads.

mod compared;
mod derived;
mod grammar;
mod made;
mod said;

use chrono::NaiveDate;

/// A Friday.
fn today() -> NaiveDate {
    NaiveDate::from_ymd_opt(2026, 8, 14).unwrap()
}

/// A small generator of random numbers (SplitMix64): the same sentences each time.
struct Dice(u64);

impl Dice {
    fn below(&mut self, n: usize) -> usize {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        ((z ^ (z >> 31)) % n.max(1) as u64) as usize
    }

    fn of<'a, T>(&mut self, all: &'a [T]) -> &'a T {
        &all[self.below(all.len())]
    }
}
