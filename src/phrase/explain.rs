//! Why a message was read as it was: what each word counted as, the best readings with what spoke for and against them,
//! and why nothing was read.

use super::context::Context;
use super::feature::Namer;
use super::household::Household;
use super::item::{Item, Text, items};
use super::language::language;
use super::lattice::Edge;
use super::readings::{Outcome, Read};
use super::score;
use crate::statement::Statement;
use serde::Serialize;

/// So many readings are explained.
const READINGS: usize = 3;
/// So many features of a clause are named.
const FEATURES: usize = 8;

/// How a message was read.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct Explanation {
    /// Each word or value, in order.
    pub spans: Vec<Span>,
    /// The likeliest readings.
    pub readings: Vec<Explained>,
    /// Why nothing was made of it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub silent_because: Option<String>,
}

/// A run of letters that counts as one thing.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct Span {
    /// As written.
    pub text: String,
    /// Where it begins and ends, in bytes.
    pub at: (u32, u32),
    /// What kind of word it is.
    pub kind: String,
    /// What it may mean.
    pub senses: Vec<String>,
}

/// A reading, with its reasons.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct Explained {
    /// How likely it is.
    pub probability: f32,
    /// What it says.
    pub statements: Vec<Statement>,
    /// Its clauses.
    pub clauses: Vec<ClauseExplained>,
}

/// A clause, with its reasons.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct ClauseExplained {
    /// Its words.
    pub text: String,
    /// What it was taken as.
    pub frame: String,
    /// The words in it that nothing accounts for.
    pub unaccounted: Vec<String>,
    /// What spoke for it and against it most, with its weight.
    pub features: Vec<(String, f32)>,
}

/// Explains a message.
pub(super) fn explain(text: &str, context: &Context<'_>) -> Explanation {
    let language = language();
    let household = Household::new(context.lexicon, &language.words);
    let read = items(text, &language.words, &household);
    let spans = spans(&read);
    let read = Read::new(language, &read, &household, context);
    let readings = read.readings.iter().take(READINGS).map(|reading| explained(&read, reading)).collect();
    Explanation { spans, readings, silent_because: silent_because(&read, context) }
}

fn spans(text: &Text<'_>) -> Vec<Span> {
    let senses = |item: &Item| item.senses.iter().map(|hit| text.words.path(hit.sense).to_owned()).collect();
    let said = |(from, to): (u32, u32)| text.text.get(from as usize..to as usize).unwrap_or_default().to_owned();
    let span = |(n, item): (usize, &Item)| {
        let at = text.span(n, n + 1);
        Span { text: said(at), at, kind: format!("{:?}", item.kind).to_lowercase(), senses: senses(item) }
    };
    text.items.iter().enumerate().map(span).collect()
}

fn explained(read: &Read<'_>, reading: &score::Reading) -> Explained {
    let edges = reading.path.edges.iter().filter_map(|n| read.lattice.edges.get(*n as usize));
    Explained {
        probability: reading.probability,
        statements: score::statements(&read.lattice, &reading.path).cloned().collect(),
        clauses: edges.filter_map(|edge| clause(read, edge)).collect(),
    }
}

fn clause(read: &Read<'_>, edge: &Edge) -> Option<ClauseExplained> {
    let frame = read.frame(edge)?;
    let stretch = read.stretch(edge);
    let start = stretch.start;
    let said = |from: usize, to: usize| {
        let (from, to) = read.text.span(from, to);
        read.text.text.get(from as usize..to as usize).unwrap_or_default().to_owned()
    };
    let namer = Namer { words: &read.language.words, frames: &read.language.frames };
    let mut features: Vec<(String, f32)> = edge
        .features
        .iter()
        .map(|feature| (namer.name(*feature), read.language.weights.of(*feature)))
        .filter(|(_, weight)| *weight != 0.0)
        .collect();
    features.sort_by(|a, b| b.1.abs().total_cmp(&a.1.abs()));
    features.truncate(FEATURES);
    let left = |n: &usize| !edge.made.used.has(n - start) && read.text.items.get(*n).is_some_and(Item::is_content);
    Some(ClauseExplained {
        text: said(stretch.start, stretch.end),
        frame: frame.name.to_string(),
        unaccounted: stretch.filter(left).map(|n| said(n, n + 1)).collect(),
        features,
    })
}

fn silent_because(read: &Read<'_>, context: &Context<'_>) -> Option<String> {
    let Some((said, outcome)) = read.chosen(context) else {
        return Some("no word of it brings up anything that the ledger keeps".to_owned());
    };
    if outcome != Outcome::Silent {
        return None;
    }
    let voices: Vec<&str> = said
        .path
        .edges
        .iter()
        .filter_map(|n| read.lattice.edges.get(*n as usize))
        .flat_map(|edge| read.voice(edge))
        .collect();
    let heard = if voices.is_empty() { String::new() } else { format!("; it was heard with: {}", voices.join(", ")) };
    Some(format!(
        "the likeliest reading has a probability of {:.2}, too little to act on or to propose{heard}",
        said.probability
    ))
}
