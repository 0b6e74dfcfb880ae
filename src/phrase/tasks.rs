//! What can be said, by task, from the frames' examples; and the example nearest to words that were not understood.

use super::context::Context;
use super::frame::{Frame, types_of};
use super::household::Household;
use super::item::items;
use super::language::{Language, language};
use super::readings::Read;
use crate::vocabulary::{Kind, Subject};

/// A task and phrases that do it.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Task {
    /// What one wants to do.
    pub task: &'static str,
    /// Phrases that do it: first the best one of each of its frames, then their second ones, and so on.
    pub examples: Vec<Example>,
    /// How many frames do it.
    pub frames: usize,
}

/// A phrase that can be said.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Example {
    /// The phrase.
    pub words: &'static str,
    /// The kind of statement it is.
    pub kind: Kind,
    /// Of a question: what it is about.
    pub about: Option<Subject>,
}

/// All tasks, in the order of their first frames; frames of one task stand together.
pub fn tasks() -> Vec<Task> {
    let mut tasks: Vec<(&'static str, Vec<&'static Frame>)> = Vec::new();
    for frame in language().frames.frames.iter().filter(|frame| !frame.task.is_empty()) {
        match tasks.iter_mut().find(|(task, _)| *task == &*frame.task) {
            Some((_, frames)) => frames.push(frame),
            None => tasks.push((&frame.task, vec![frame])),
        }
    }
    let whole =
        |(task, frames): (_, Vec<&'static Frame>)| Task { task, examples: in_turns(&frames), frames: frames.len() };
    tasks.into_iter().map(whole).collect()
}

/// The frames' examples, one of each in turns: whoever shows few of them shows something of each frame.
fn in_turns(frames: &[&'static Frame]) -> Vec<Example> {
    let most = frames.iter().map(|frame| frame.examples.len()).max().unwrap_or_default();
    let turn = |n: usize| {
        frames.iter().filter_map(move |frame| {
            let words = frame.examples.get(n)?;
            Some(Example { words, kind: frame.kind, about: frame.about })
        })
    };
    (0..most).flat_map(turn).collect()
}

/// The example of the frame that the words come nearest to: the one with the likeliest clause, be it ever so unlikely.
pub(super) fn nearest(text: &str, language: &'static Language, context: &Context<'_>) -> Option<&'static str> {
    let household = Household::new(context.lexicon, &language.words);
    let read = items(text, &language.words, &household);
    let read = Read::new(language, &read, &household, context);
    let likeliest =
        read.lattice.edges.iter().filter(|edge| edge.frame.is_some()).max_by(|a, b| a.score.total_cmp(&b.score));
    // Without a clause a word alone: the frame that it may begin.
    let begun = || {
        let classes = &language.words.classes;
        let names = [classes.crop, classes.variety, classes.store, classes.supply, classes.deed];
        let own = read.text.items.iter().find(|item| item.is_any(&names))?;
        let mut found = None;
        language.frames.begun_by(own, types_of(own), |frame, _| found = found.or(Some(frame)));
        found
    };
    let frame = likeliest.map_or_else(begun, |edge| edge.frame);
    language.frames.get(frame)?.examples.first().map(|example| &**example)
}
