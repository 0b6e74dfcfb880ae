//! Which of all ways is meant: features are weighed, the best ways through the lattice found, and their scores turned into probabilities.

use super::feature::{Feature, Reader};
use super::frame::{Frames, Group};
use super::lattice::Lattice;
use super::lexicon::{Mistake, Words};
use crate::statement::Statement;
use rustc_hash::FxHashMap;

/// The file with what each feature weighs: `name,weight`, sorted by name; written by `tests/train`.
const FILE: &str = "english/weights.csv";
const TEXT: &str = include_str!("english/weights.csv");
/// From which probability on each group acts and proposes; written by `tests/train`.
const THRESHOLDS_FILE: &str = "english/thresholds.csv";
const THRESHOLDS: &str = include_str!("english/thresholds.csv");

/// How many of the best ways are kept at each boundary.
const BEAM: usize = 12;

/// What features weigh, and when to speak.
#[derive(Debug, Default)]
pub(super) struct Weights {
    weights: FxHashMap<Feature, f32>,
    /// By group: act, propose.
    thresholds: [(f32, f32); Group::ALL.len()],
}

impl Weights {
    /// From the data files.
    pub(super) fn load(frames: &Frames, words: &mut Words) -> Result<Self, Mistake> {
        let mistake = |file, n: usize, what: &str| Mistake { file, line: n + 1, what: what.to_owned() };
        let reader = Reader::new(frames);
        let mut weights = FxHashMap::default();
        for (n, line) in TEXT.lines().enumerate().skip(1) {
            let (name, weight) = line
                .rsplit_once(',')
                .ok_or_else(|| mistake(FILE, n, "no comma: a feature and its weight belong here"))?;
            let weight: f32 = weight.parse().map_err(|_| mistake(FILE, n, "the weight is no number"))?;
            // A feature of a word or frame that is gone weighs nothing.
            if let Some(feature) = reader.read(name, words) {
                weights.insert(feature, weight);
            }
        }
        let mut thresholds = [(0.9, 0.5); Group::ALL.len()];
        for (n, line) in THRESHOLDS.lines().enumerate().skip(1) {
            let fields: Vec<&str> = line.split(',').collect();
            let place = fields
                .first()
                .and_then(|name| Group::ALL.iter().position(|group| format!("{group:?}").to_lowercase() == *name));
            let number = |n: usize| fields.get(n).and_then(|field| field.parse().ok());
            match (place.and_then(|place| thresholds.get_mut(place)), number(1), number(2)) {
                (Some(place), Some(act), Some(propose)) => *place = (act, propose),
                _ => return Err(mistake(THRESHOLDS_FILE, n, "a group and two numbers belong here")),
            }
        }
        Ok(Self { weights, thresholds })
    }

    /// What a feature weighs.
    pub(super) fn of(&self, feature: Feature) -> f32 {
        self.weights.get(&feature).copied().unwrap_or_default()
    }

    /// From which probability on a group acts, and from which it proposes.
    pub(super) fn thresholds(&self, group: Group) -> (f32, f32) {
        self.thresholds.get(group as usize).copied().unwrap_or((1.0, 1.0))
    }

    /// Weighs every edge of a lattice.
    pub(super) fn weigh(&self, lattice: &mut Lattice) {
        for edge in &mut lattice.edges {
            edge.score = edge.features.iter().map(|feature| self.of(*feature)).sum();
        }
    }
}

/// Whether a frame may stand behind a clause of a state: what a message takes back in the same breath is part of its statement.
pub(super) fn may_follow(frame: Option<&super::frame::Frame>, state: usize) -> bool {
    state == 0 || frame.is_none_or(|frame| frame.kind != crate::vocabulary::Kind::Correct)
}

/// A way through the lattice.
#[derive(Clone, PartialEq, Debug, Default)]
pub(super) struct Path {
    /// Its edges.
    pub(super) edges: Vec<u32>,
    pub(super) score: f32,
}

/// What a message may say, with how likely it is.
#[derive(Clone, PartialEq, Debug)]
pub(super) struct Reading {
    /// The best way that says it.
    pub(super) path: Path,
    /// The probability of all ways that say it.
    pub(super) probability: f32,
}

/// The readings of a weighed lattice, the likeliest first.
pub(super) fn readings(lattice: &Lattice) -> Vec<Reading> {
    let total = total(lattice);
    let mut readings: Vec<Reading> = Vec::new();
    for path in best(lattice) {
        let probability = (path.score - total).exp();
        let same = readings.iter_mut().find(|known| statements(lattice, &known.path).eq(statements(lattice, &path)));
        match same {
            Some(known) => known.probability += probability,
            None => readings.push(Reading { path, probability }),
        }
    }
    readings.sort_by(|a, b| b.probability.total_cmp(&a.probability));
    readings
}

/// What a way says.
pub(super) fn statements<'a>(lattice: &'a Lattice, path: &'a Path) -> impl Iterator<Item = &'a Statement> {
    path.edges.iter().filter_map(|edge| lattice.edges.get(*edge as usize)).flat_map(|edge| edge.statements.iter())
}

/// The logarithm of the sum over all ways.
fn total(lattice: &Lattice) -> f32 {
    let nodes = lattice.nodes();
    let mut sums = vec![f32::NEG_INFINITY; nodes];
    if let Some(first) = sums.first_mut() {
        *first = 0.0;
    }
    // Edges are sorted by where they begin, so every way into a boundary is known before one leaves it.
    for edge in &lattice.edges {
        let from = sums.get(usize::from(edge.from)).copied().unwrap_or(f32::NEG_INFINITY);
        if let Some(to) = sums.get_mut(usize::from(edge.to)) {
            *to = log_add(*to, from + edge.score);
        }
    }
    sums.last().copied().unwrap_or_default()
}

pub(super) fn log_add(a: f32, b: f32) -> f32 {
    let (high, low) = if a > b { (a, b) } else { (b, a) };
    if low == f32::NEG_INFINITY { high } else { high + (low - high).exp().ln_1p() }
}

/// The best ways, the best first.
fn best(lattice: &Lattice) -> Vec<Path> {
    // At each boundary the best ways to it: score, the edge that leads there, and which of the ways to its beginning.
    let mut beams: Vec<Vec<(f32, u32, u32)>> = vec![Vec::new(); lattice.nodes()];
    if let Some(first) = beams.first_mut() {
        first.push((0.0, u32::MAX, 0));
    }
    for (n, edge) in lattice.edges.iter().enumerate() {
        let (from, to) = (usize::from(edge.from), usize::from(edge.to));
        if from >= to || to >= beams.len() {
            continue;
        }
        let (head, tail) = beams.split_at_mut(to);
        let (Some(source), Some(target)) = (head.get(from), tail.first_mut()) else { continue };
        for (rank, (score, ..)) in source.iter().enumerate() {
            let score = score + edge.score;
            let place = target.partition_point(|(known, ..)| *known >= score);
            if place >= BEAM {
                break;
            }
            target.insert(place, (score, n as u32, rank as u32));
            target.truncate(BEAM);
        }
    }
    let last = beams.len().saturating_sub(1);
    let count = beams.last().map_or(0, Vec::len);
    (0..count)
        .map(|rank| {
            let mut edges = Vec::new();
            let (mut node, mut rank) = (last, rank);
            let score = beams.get(node).and_then(|beam| beam.get(rank)).map_or(0.0, |(score, ..)| *score);
            while node > 0 {
                let Some((_, edge, before)) = beams.get(node).and_then(|beam| beam.get(rank)).copied() else { break };
                edges.push(edge);
                let Some(found) = lattice.edges.get(edge as usize) else { break };
                node = usize::from(found.from);
                rank = before as usize;
            }
            edges.reverse();
            Path { edges, score }
        })
        .collect()
}
