//! What can be said, by task, from the frames' examples; and the example nearest to words that were not understood.

use super::item::items;
use super::{Context, Household, Language};
use crate::vocabulary::Kind;

/// A task and phrases that do it.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Task {
    /// What one wants to do.
    pub task: &'static str,
    /// The kind of statement its phrases are.
    pub kind: Kind,
    /// Phrases that do it.
    pub examples: Vec<&'static str>,
}

/// All tasks, in the order of the frames; frames of one task stand together.
pub fn tasks() -> Vec<Task> {
    let mut tasks: Vec<Task> = Vec::new();
    for frame in super::language().frames.frames.iter().filter(|frame| !frame.task.is_empty()) {
        let examples = frame.examples.iter().map(|example| &**example);
        match tasks.iter_mut().find(|task| *task.task == *frame.task) {
            Some(task) => task.examples.extend(examples),
            None => tasks.push(Task { task: &frame.task, kind: frame.kind, examples: examples.collect() }),
        }
    }
    tasks
}

/// The example of the frame that the words come nearest to: the one with the likeliest clause, be it ever so unlikely.
pub(super) fn nearest(text: &str, language: &'static Language, context: &Context<'_>) -> Option<&'static str> {
    let household = Household::new(context.lexicon, &language.words);
    let read = items(text, &language.words, &household);
    let read = super::read::Read::new(language, &read, &household, context);
    let likeliest = read.lattice.edges.iter().filter(|edge| edge.frame.is_some()).max_by(|a, b| a.score.total_cmp(&b.score));
    if let Some(frame) = likeliest.and_then(|edge| language.frames.frames.get(usize::from(edge.frame?))) {
        return frame.examples.first().map(|example| &**example);
    }
    // Without a clause a word alone: the frame that it may begin.
    let classes = &language.words.classes;
    let own = read.text.items.iter().find(|item| item.is(classes.crop) || item.is(classes.variety) || item.is(classes.store) || item.is(classes.supply) || item.is(classes.deed))?;
    let types = super::frame::types_of(own);
    let mut found = None;
    language.frames.begun_by(own, types, |frame, _| found = found.or(Some(frame)));
    let frame = language.frames.frames.get(usize::from(found?))?;
    frame.examples.first().map(|example| &**example)
}
