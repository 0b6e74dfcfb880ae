//! What can be said, and what to answer when something was not understood.

use super::{Facts, Reply, Scene, Words};
use crate::phrase2::{self as phrase, Context, Lexicon};

pub(super) fn help() -> Reply {
    let text = "Tell me as you would a friend:\n\
        garden: picked 23 lb romas from the tunnel\n\
        freezer: froze 3 bags at 7 lb; thawing 7 bags; freezer count: 5 bags, 34 lb\n\
        canning: starting sauce in quarts; filled 7 quarts; steam's up; heat's off; jars are out; 6 of 7 sealed\n\
        its day: what's the plan for today? stop the sauce; back to the sauce; a jar broke; froze 1 jar\n\
        pantry: put up 9 pints of salsa; used 2 quarts of sauce\n\
        supplies: bought 24 lids\n\
        ask: how close to a load? time left? what's next? process for peaches in pints?\n\
        look: chart freezer; chart season; labels for the sauce; calendar please; csv of the pantry\n\
        settings: altitude 2400 ft; canner is steam, holds 7 quarts; units metric\n\
        slips: undo; make that 6.5 lb";
    Reply { text: text.to_owned(), facts: Facts::default() }
}

/// The answer to a greeting, said to the assistant alone.
fn greeting(text: &str) -> Option<Reply> {
    const GREETINGS: [&str; 8] = ["hi", "hello", "hey", "hiya", "morning", "evening", "good", "howdy"];
    let words: Vec<String> =
        text.split(|c: char| !c.is_alphabetic()).filter(|word| !word.is_empty()).map(str::to_lowercase).collect();
    let greets = words.first().is_some_and(|word| GREETINGS.contains(&word.as_str())) && words.len() <= 3;
    greets.then(|| Reply {
        text: "Hello! Tell me what you picked, froze or canned, or say 'help'.".to_owned(),
        facts: Facts::default(),
    })
}

/// The answer to words said to the assistant alone that it did not understand: the nearest thing it does.
pub fn not_understood(scene: Scene<'_>, text: &str) -> Reply {
    if let Some(reply) = greeting(text) {
        return reply;
    }
    let mut text = match nearest(scene, text) {
        Some(example) => format!("I didn't get that. Try it like '{example}', or say 'help'."),
        None => "I didn't get that. I keep count of harvest, freezer and jars; say 'help' for how.".to_owned(),
    };
    // Words that were not understood may have been about the heat.
    let running = scene.state.open_batches().find_map(|batch| {
        let ends = batch.ends_at(scene.now).filter(|ends| batch.heat.is_some() && *ends > scene.now)?;
        Some((batch, ends))
    });
    if let Some((batch, ends)) = running {
        let until = Words::of(&scene.state.settings).moment(ends, scene.now);
        let (name, lost) = (&batch.name, super::canner::lost(batch.canner.is_pressure()));
        text.push_str(&format!(
            "\nThe clock of '{name}' still runs, until {until}; if the heat dropped, say '{lost}'."
        ));
    }
    Reply { text, facts: Facts::default() }
}

fn nearest(scene: Scene<'_>, text: &str) -> Option<&'static str> {
    let lexicon = Lexicon::default();
    let context = Context { now: scene.now, zone: scene.state.settings.zone, lexicon: &lexicon, last: None };
    phrase::nearest(text, &context)
}

/// The answer to a message that is too long to be read.
pub fn too_long() -> Reply {
    let text = "That message is longer than 8 KiB; I read none of it. Send the entries in shorter messages.";
    Reply { text: text.to_owned(), facts: Facts::default() }
}

/// The answer to an undo when there is nothing left to take back.
pub fn nothing_to_undo() -> Reply {
    Reply { text: "There is nothing of yours to take back.".to_owned(), facts: Facts::default() }
}

/// The answer to a correction that fits no entry.
pub fn nothing_to_correct() -> Reply {
    let text = "I don't see which entry of yours that corrects. Reply to it, or say 'undo' and tell it again.";
    Reply { text: text.to_owned(), facts: Facts::default() }
}

/// What of a message was not read, for the end of its answer.
pub fn left_over(unread: &str) -> String {
    let line: String = unread.split_whitespace().collect::<Vec<_>>().join(" ");
    let short: String = line.chars().take(80).collect();
    format!("(I did not read: '{short}'.)")
}

/// Below the processes of several foods that were asked for at once: `peas and carrots` may be meant for one jar.
pub const fn each_by_itself() -> &'static str {
    "(That is for jars of each by itself. A mix of them in one jar is another food: it needs a tested process of its own.)"
}
