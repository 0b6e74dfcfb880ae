//! What can be said, by task: the cheat sheet, and the example nearest to words that were not understood.

use super::{
    lex,
    token::one_of,
    words::{Verb, Word},
};
use crate::vocabulary::{Kind, Supply};

/// A task and phrases that do it. Every phrase is read by a test.
#[derive(Clone, Copy, Debug)]
pub struct Task {
    /// What one wants to do.
    pub task: &'static str,
    /// The kind of statement its phrases are.
    pub kind: Kind,
    /// Phrases that do it.
    pub examples: &'static [&'static str],
}

/// All tasks, in the order of a season.
pub static TASKS: &[Task] = &[
    Task {
        task: "Harvest",
        kind: Kind::Picked,
        examples: &["picked 23 lb romas from the tunnel", "brought in half a bushel this morning"],
    },
    Task {
        task: "Freeze",
        kind: Kind::Froze,
        examples: &["froze 7 lb quartered", "froze 3 bags at 7 lb", "2 bags in the freezer, 7 and 6.5 lb"],
    },
    Task { task: "Eat", kind: Kind::Ate, examples: &["ate 2 lb", "ate a bag from the freezer"] },
    Task { task: "Give away", kind: Kind::Gave, examples: &["gave away 2 pints of salsa", "gave the neighbors 5 lb"] },
    Task { task: "Throw away", kind: Kind::Tossed, examples: &["tossed a bag", "composted 3 lb"] },
    Task {
        task: "Count a stock",
        kind: Kind::Counted,
        examples: &["freezer count: 5 bags, 34 lb", "I count 11 quarts of sauce"],
    },
    Task {
        task: "Start a batch",
        kind: Kind::Began,
        examples: &["starting thick sauce in quarts", "batch of salsa, 9 pints"],
    },
    Task { task: "Thaw", kind: Kind::Thawed, examples: &["thawing 7 bags", "pulled 14 lb to thaw"] },
    Task {
        task: "Drain",
        kind: Kind::Drained,
        examples: &["drained 11 lb of juice", "poured off 3 quarts", "drained 2 quarts and kept it"],
    },
    Task {
        task: "Cook down",
        kind: Kind::CookedDown,
        examples: &["cooked down to 12 lb", "sauce is down to 10 quarts", "pot weighs 14 lb now"],
    },
    Task {
        task: "Name a batch",
        kind: Kind::Named,
        examples: &["call this batch big red", "rename the batch to marinara"],
    },
    Task {
        task: "Set a batch aside",
        kind: Kind::Stopped,
        examples: &["set the sauce aside", "done with the salsa for tonight"],
    },
    Task { task: "Go on with it", kind: Kind::Resumed, examples: &["back to the sauce", "resume the salsa"] },
    Task { task: "Fill jars", kind: Kind::Filled, examples: &["filled 7 quarts"] },
    Task { task: "Add acid", kind: Kind::AcidAdded, examples: &["lemon juice is in", "added the citric acid"] },
    Task { task: "Vent a pressure canner", kind: Kind::Venting, examples: &["steam's coming out of the vent"] },
    Task { task: "Start the clock", kind: Kind::AtHeat, examples: &["steam's up", "rolling boil", "at 11 pounds"] },
    Task { task: "Lose the boil", kind: Kind::LostHeat, examples: &["lost the boil", "dropped below temp"] },
    Task { task: "Turn the heat off", kind: Kind::HeatOff, examples: &["heat's off"] },
    Task { task: "Pressure back to zero", kind: Kind::PressureDown, examples: &["pressure's down"] },
    Task { task: "Take the jars out", kind: Kind::Lifted, examples: &["jars are out", "7 jars out"] },
    Task { task: "Check seals", kind: Kind::Sealed, examples: &["6 of 7 sealed", "all sealed"] },
    Task { task: "A jar that did not seal", kind: Kind::Unsealed, examples: &["one didn't seal"] },
    Task { task: "Process it again", kind: Kind::Reprocessed, examples: &["reprocessing it"] },
    Task { task: "Or keep it cold", kind: Kind::Refrigerated, examples: &["put 1 in the fridge"] },
    Task { task: "Or freeze it", kind: Kind::Froze, examples: &["froze the one that didn't seal"] },
    Task {
        task: "A jar that broke",
        kind: Kind::Broke,
        examples: &["a jar broke in the canner", "lost a jar, bottom fell out"],
    },
    Task {
        task: "A jar that lost liquid",
        kind: Kind::Siphoned,
        examples: &["two siphoned", "a jar lost half its liquid"],
    },
    Task {
        task: "Tell a finished batch",
        kind: Kind::PutUp,
        examples: &["put up 7 quarts of sauce", "canned 9 pints of salsa yesterday"],
    },
    Task { task: "Open a jar", kind: Kind::Opened, examples: &["used 2 quarts of sauce", "opened a pint of salsa"] },
    Task { task: "Dry", kind: Kind::Dried, examples: &["drying 5 trays of skins", "3 lb of halves in the dryer"] },
    Task {
        task: "Take dry things out",
        kind: Kind::Dry,
        examples: &["skins are brittle, 6 oz", "peppers came out of the dryer at 4 oz"],
    },
    Task { task: "Powder", kind: Kind::Powdered, examples: &["got 4 oz of powder"] },
    Task { task: "Buy supplies", kind: Kind::Bought, examples: &["bought 24 lids", "got a pound of citric acid"] },
    Task { task: "Count supplies", kind: Kind::Counted, examples: &["lids: 24", "12 oz of citric acid left"] },
    Task {
        task: "Plan a canning day",
        kind: Kind::Planned,
        examples: &["canning sauce saturday, done by 6 pm", "move canning to Sunday"],
    },
    Task { task: "Call it off", kind: Kind::CalledOff, examples: &["canning is off", "no canning Saturday"] },
    Task {
        task: "Plant",
        kind: Kind::Planted,
        examples: &["planted 24 romas in the tunnel", "we have 30 plants in bed 3"],
    },
    Task { task: "Keep a recipe", kind: Kind::Recipe, examples: &["recipe fire salsa takes 6 lb makes 4 pints"] },
    Task { task: "Set a timer", kind: Kind::TimerStart, examples: &["timer 45 min for the roast"] },
    Task { task: "Stop a timer", kind: Kind::TimerStop, examples: &["cancel the timer"] },
    Task {
        task: "Set things up",
        kind: Kind::Set,
        examples: &[
            "altitude 2400 ft",
            "canner is steam",
            "units metric",
            "bags are 7 lb",
            "usual is salsa in pints",
            "quiet hours 9pm to 7am",
            "timezone America/Chicago",
            "low lids 24",
            "room is 72 F",
            "use our own yield for sauce",
            "season ends October 10",
            "send the digest on Sundays at 6 pm",
            "labels are 3 by 8 on a4",
            "keep it brief",
            "dark pictures",
        ],
    },
    Task {
        task: "Ask",
        kind: Kind::Ask,
        examples: &[
            "what's in the freezer?",
            "how close to a load?",
            "time left?",
            "what's next?",
            "how long for pints of salsa?",
            "how much have we picked this year?",
            "pantry?",
            "when will we be done?",
            "what's our yield for sauce?",
            "when will we have a load?",
            "what's ripe?",
            "chart season",
            "labels for the sauce",
            "send me the calendar",
            "csv of the pantry",
            "how much should we plant next year?",
        ],
    },
    Task { task: "Take back", kind: Kind::Undo, examples: &["undo", "scratch that"] },
    Task { task: "Correct", kind: Kind::Correct, examples: &["make that 6.5 lb", "no, 6 bags"] },
];

/// The first example of a kind.
pub fn example(kind: Kind) -> Option<&'static str> {
    TASKS.iter().find(|task| task.kind == kind).and_then(|task| task.examples.first().copied())
}

/// The example nearest to some words, from those of them that are known.
pub(super) fn nearest(text: &str) -> Option<&'static str> {
    if text.len() > super::LONGEST {
        return None;
    }
    lex::lex(text)
        .iter()
        .filter_map(|token| of_key(token.key).or_else(|| token.word().and_then(kind_of)))
        .max_by_key(|(weight, _)| *weight)
        .and_then(|(_, kind)| example(kind))
}

/// Words of the trade that the tables know as ordinary ones.
fn of_key(key: u64) -> Option<(u8, Kind)> {
    Some(match key {
        k if one_of!(k, "pause" | "paused" | "pausing" | "aside") => (3, Kind::Stopped),
        k if one_of!(k, "resume" | "resumed" | "resuming") => (3, Kind::Resumed),
        k if one_of!(k, "rename" | "renamed") => (3, Kind::Named),
        k if one_of!(k, "siphoned" | "siphoning" | "syphoned") => (3, Kind::Siphoned),
        k if one_of!(k, "shattered" | "exploded" | "breakage") => (3, Kind::Broke),
        k if one_of!(k, "reduced" | "reducing" | "simmered") => (2, Kind::CookedDown),
        k if one_of!(k, "brittle" | "crispy") => (3, Kind::Dry),
        k if one_of!(k, "calendar" | "spreadsheet" | "csv" | "labels") => (2, Kind::Ask),
        k if one_of!(k, "digest" | "yield" | "season") => (2, Kind::Set),
        _ => return None,
    })
}

fn kind_of(word: Word) -> Option<(u8, Kind)> {
    Some(match word {
        Word::Verb(verb, _) => match verb {
            Verb::Pick | Verb::Bring => (3, Kind::Picked),
            Verb::Freeze | Verb::Bag => (3, Kind::Froze),
            Verb::Thaw => (3, Kind::Thawed),
            Verb::Eat => (3, Kind::Ate),
            Verb::Give => (3, Kind::Gave),
            Verb::Toss => (3, Kind::Tossed),
            Verb::Count => (3, Kind::Counted),
            Verb::Begin => (2, Kind::Began),
            Verb::Drain => (3, Kind::Drained),
            Verb::Fill => (3, Kind::Filled),
            Verb::Vent => (3, Kind::Venting),
            Verb::Boil => (2, Kind::AtHeat),
            Verb::Seal => (3, Kind::Sealed),
            Verb::Reprocess => (3, Kind::Reprocessed),
            Verb::Can => (3, Kind::PutUp),
            Verb::Open | Verb::Use => (2, Kind::Opened),
            Verb::Dry => (3, Kind::Dried),
            Verb::Buy => (3, Kind::Bought),
            Verb::Undo => (3, Kind::Undo),
            Verb::Lift => (2, Kind::Lifted),
            Verb::Plant => (3, Kind::Planted),
            _ => return None,
        },
        Word::Store(_) => (1, Kind::Ask),
        Word::Supply(Supply::LemonJuice | Supply::CitricAcid) => (1, Kind::AcidAdded),
        Word::Supply(_) => (1, Kind::Bought),
        Word::Crop(_) | Word::Variety(..) => (1, Kind::Picked),
        Word::Product => (1, Kind::Began),
        Word::Question => (1, Kind::Ask),
        _ => return None,
    })
}
