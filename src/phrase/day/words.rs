//! The words that the canning day is told with, each set asked in two ways: of one word, and of a whole clause.

use crate::phrase::{
    facts::Facts,
    token::{one_of, says},
};

macro_rules! sets {
    ($($(#[$doc:meta])* $is:ident $has:ident: $($word:literal)|+;)+) => {
        $(
            $(#[$doc])*
            pub(super) fn $is(key: u64) -> bool {
                one_of!(key, $($word)|+)
            }

            pub(super) fn $has(f: &Facts<'_>) -> bool {
                says!(f, $($word)|+)
            }
        )+
    };
}

sets! {
    /// A batch is set aside.
    is_halt halts: "stop" | "stopping" | "stopped" | "pause" | "paused" | "pausing" | "halt" | "halting" | "halted" | "shelve" | "shelving" | "shelved"
        | "park" | "parking" | "parked" | "suspend" | "suspending" | "suspended" | "quit" | "quitting";
    /// A batch goes on.
    is_going_on goes_on: "resume" | "resumed" | "resuming" | "continue" | "continuing" | "continued" | "restart" | "restarting" | "restarted"
        | "unpause" | "unpaused";
    /// Put or left where it is.
    is_putting puts: "set" | "setting" | "put" | "putting" | "puttin" | "leave" | "leaving" | "left" | "saving";
    /// A jar is gone.
    is_breaking breaks: "broke" | "broken" | "break" | "breaks" | "cracked" | "exploded" | "shattered" | "burst" | "breakage" | "smashed";
    /// A jar lost liquid.
    is_siphoning siphons: "siphoned" | "syphoned" | "siphoning" | "syphoning" | "leaked";
    /// What a jar lost.
    is_liquid has_liquid: "liquid" | "water" | "juice" | "headspace" | "brine" | "syrup";
    /// The pot got less.
    is_cooking_down cooks_down: "cooked" | "cooking" | "cook" | "cooks" | "boiled" | "boiling" | "simmered" | "simmering" | "reduced" | "reducing"
        | "reduces" | "rendered" | "evaporated" | "thickened" | "concentrated";
    /// Dry through and through.
    is_brittle has_brittle: "brittle" | "crispy" | "crumbly" | "crackly" | "leathery";
    /// A call for a name.
    is_naming names: "call" | "calling" | "name" | "naming" | "rename" | "renaming" | "renamed" | "called" | "named" | "dub" | "calld";
}
