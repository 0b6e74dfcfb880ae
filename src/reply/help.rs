//! What can be said, and what to answer when something was not understood.

use super::topics::{Topic, topics};
use super::{Facts, Reply, Scene, Words};
use crate::phrase::{self, Context, Lexicon, Task};

/// The longest line of help, in letters: about what a phone shows without breaking it.
const WIDEST: usize = 60;

/// What can be said: a few phrases of each topic, as many as its lines hold, so that all of it is on a phone's screen.
pub(super) fn help() -> Reply {
    let mut lines = vec!["Tell me as you would a friend:".to_owned()];
    for (topic, tasks) in topics() {
        lines.extend(topic_lines(topic, &tasks));
    }
    Reply { text: lines.join("\n"), facts: Facts::default() }
}

/// How many lines a topic may take.
const fn room(topic: Topic) -> usize {
    match topic {
        Topic::Canning => 3,
        Topic::Freezer | Topic::Questions => 2,
        _ => 1,
    }
}

/// Phrases of a topic's tasks: the first one of every task that has room, then second ones, and so on.
fn topic_lines(topic: Topic, tasks: &[Task]) -> Vec<String> {
    let most = tasks.iter().map(|task| task.examples.len()).max().unwrap_or_default();
    let phrases = (0..most).flat_map(|n| tasks.iter().filter_map(move |task| task.examples.get(n)));
    let mut lines: Vec<String> = Vec::new();
    for words in phrases.map(|example| example.words) {
        let letters = |text: &str| text.chars().count();
        if let Some(line) = lines.last_mut().filter(|line| letters(line) + letters(words) + 2 <= WIDEST) {
            line.push_str(if line.ends_with('?') { " " } else { "; " });
            line.push_str(words);
            continue;
        }
        let head = if lines.is_empty() { format!("{}: ", topic.word()) } else { "  ".to_owned() };
        if lines.len() < room(topic) && letters(&head) + letters(words) <= WIDEST {
            lines.push(head + words);
        }
    }
    lines
}

/// The answer to a greeting or to thanks, said to the assistant alone.
fn courtesy(text: &str) -> Option<Reply> {
    const GREETINGS: [&str; 8] = ["hi", "hello", "hey", "hiya", "morning", "evening", "good", "howdy"];
    const THANKS: [&str; 7] = ["thanks", "thank", "thx", "ty", "tks", "ta", "cheers"];
    let words: Vec<String> =
        text.split(|c: char| !c.is_alphabetic()).filter(|word| !word.is_empty()).map(str::to_lowercase).collect();
    let first = words.first().filter(|_| words.len() <= 3)?.as_str();
    let text = match () {
        () if GREETINGS.contains(&first) => "Hello! Tell me what you picked, froze or canned, or say 'help'.",
        () if THANKS.contains(&first) => "👍",
        () => return None,
    };
    Some(Reply { text: text.to_owned(), facts: Facts::default() })
}

/// The answer to words said to the assistant alone that it did not understand: the nearest thing it does.
pub fn not_understood(scene: Scene<'_>, text: &str) -> Reply {
    if let Some(reply) = courtesy(text) {
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
    "(That is for jars of each by itself. A mix of them in one jar is another food: \
     it needs a tested process of its own.)"
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn thanks_get_a_mark_and_no_apology() {
        let answer = |words: &str| courtesy(words).map(|reply| reply.text);
        assert_eq!(answer("Thanks!").as_deref(), Some("👍"));
        assert!(answer("good evening").is_some_and(|text| text.starts_with("Hello")));
        assert_eq!(answer("thanks to the frost we lost the lot"), None);
        assert_eq!(answer("the burner is out"), None);
    }

    #[test]
    fn help_fits_a_phone_and_has_every_topic() {
        let text = help().text;
        println!("{text}");
        assert!(text.lines().count() <= 14, "{text}");
        assert!(text.lines().all(|line| line.chars().count() <= WIDEST), "{text}");
        for topic in Topic::ALL {
            assert!(text.contains(&format!("\n{}: ", topic.word())), "{topic:?} in {text}");
        }
    }
}
