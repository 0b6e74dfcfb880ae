//! Which of all ways is meant: features are weighed, the best ways through the lattice found, and their scores turned
//! into probabilities.

use super::feature::{Feature, Reader, STATES, Template};
use super::frame::{Frame, Frames, Group};
use super::lattice::{Edge, Lattice};
use super::lexicon::{Mistake, Words};
use crate::statement::Statement;
use crate::vocabulary::Kind;
use rustc_hash::{FxBuildHasher, FxHashMap};
use smallvec::SmallVec;

/// The file with what each feature weighs: `name,weight`, sorted by name; written by `tests/train`.
const FILE: &str = "english/weights.csv";
const TEXT: &str = include_str!("english/weights.csv");
/// From where on each group acts and proposes; written by `tests/train`.
const THRESHOLDS_FILE: &str = "english/thresholds.csv";
const THRESHOLDS: &str = include_str!("english/thresholds.csv");
/// The row of questions for what is missing.
const CLARIFY: &str = "clarify";

/// How many of the best ways are kept at each boundary.
const BEAM: usize = 12;

/// From where on a group acts and proposes.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(super) struct Threshold {
    /// So likely it must be that the message says anything,
    pub(super) says: f32,
    /// and, if it does, that it says this.
    pub(super) this: f32,
    /// From this probability of both on it is proposed.
    pub(super) propose: f32,
}

impl Threshold {
    /// Never acts, never proposes.
    const NEVER: Self = Self { says: 2.0, this: 2.0, propose: 2.0 };
}

/// What features weigh, and when to speak.
#[derive(Debug)]
pub(super) struct Weights {
    weights: FxHashMap<Feature, f32>,
    /// What a frame weighs behind a clause of each state.
    follows: Vec<[f32; STATES]>,
    thresholds: [Threshold; Group::ALL.len()],
    clarify: Threshold,
}

impl Default for Weights {
    fn default() -> Self {
        Self {
            weights: FxHashMap::default(),
            follows: Vec::new(),
            thresholds: [Threshold::NEVER; Group::ALL.len()],
            clarify: Threshold::NEVER,
        }
    }
}

impl Weights {
    /// From the data files.
    pub(super) fn load(frames: &Frames, words: &mut Words) -> Result<Self, Mistake> {
        let mistake = |n: usize, what: &str| Mistake { file: FILE, line: n + 1, what: what.to_owned() };
        let reader = Reader::new(frames);
        let mut weights = FxHashMap::with_capacity_and_hasher(TEXT.lines().count(), FxBuildHasher);
        for (n, line) in TEXT.lines().enumerate().skip(1) {
            let (name, weight) =
                line.rsplit_once(',').ok_or_else(|| mistake(n, "no comma: a feature and its weight belong here"))?;
            let weight: f32 = weight.parse().map_err(|_| mistake(n, "the weight is no number"))?;
            // A feature of a word or frame that is gone weighs nothing.
            if let Some(feature) = reader.read(name, words) {
                weights.insert(feature, weight);
            }
        }
        let of = |feature: Feature| weights.get(&feature).copied().unwrap_or_default();
        let follows = frames.frames.iter().enumerate().map(|(n, frame)| {
            std::array::from_fn(|state| {
                of(Feature::new(Template::Follows, n, state, 0))
                    + of(Feature::new(Template::GroupFollows, frame.group as usize, state, 0))
            })
        });
        let follows = follows.collect();
        let (thresholds, clarify) = thresholds()?;
        Ok(Self { weights, follows, thresholds, clarify })
    }

    /// What a feature weighs.
    pub(super) fn of(&self, feature: Feature) -> f32 {
        self.weights.get(&feature).copied().unwrap_or_default()
    }

    /// From where on a group acts and proposes.
    pub(super) fn threshold(&self, group: Group) -> Threshold {
        self.thresholds.get(group as usize).copied().unwrap_or(Threshold::NEVER)
    }

    /// From where on a question for what is missing is asked.
    pub(super) const fn clarify(&self) -> Threshold {
        self.clarify
    }

    /// Weighs every edge of a lattice.
    pub(super) fn weigh(&self, lattice: &mut Lattice) {
        for edge in &mut lattice.edges {
            edge.score = edge.features.iter().map(|feature| self.of(*feature)).sum();
        }
    }

    /// What an edge weighs behind a clause of a state.
    fn behind(&self, edge: &Edge, state: usize) -> f32 {
        let row = edge.frame.and_then(|frame| self.follows.get(usize::from(frame)));
        row.and_then(|row| row.get(state)).copied().unwrap_or_default()
    }
}

fn thresholds() -> Result<([Threshold; Group::ALL.len()], Threshold), Mistake> {
    let mistake = |n: usize| Mistake {
        file: THRESHOLDS_FILE,
        line: n + 1,
        what: "a group and three numbers belong here".to_owned(),
    };
    let mut groups = [Threshold::NEVER; Group::ALL.len()];
    let mut clarify = Threshold::NEVER;
    for (n, line) in THRESHOLDS.lines().enumerate().skip(1) {
        let fields: Vec<&str> = line.split(',').collect();
        let number = |n: usize| fields.get(n).and_then(|field| field.parse().ok());
        let (Some(says), Some(this), Some(propose)) = (number(1), number(2), number(3)) else {
            return Err(mistake(n));
        };
        let threshold = Threshold { says, this, propose };
        let name = fields.first().copied().unwrap_or_default();
        match Group::ALL.iter().zip(&mut groups).find(|(group, _)| group.name() == name) {
            Some((_, place)) => *place = threshold,
            None if name == CLARIFY => clarify = threshold,
            None => return Err(mistake(n)),
        }
    }
    Ok((groups, clarify))
}

/// Whether a frame may stand behind a clause of a state: what a message takes back in the same breath is part of its
/// statement.
pub(super) fn may_follow(frame: Option<&Frame>, state: usize) -> bool {
    state == 0 || frame.is_none_or(|frame| frame.kind != Kind::Correct)
}

/// The state behind an edge: which group of clause was the last.
fn next(edge: &Edge, frames: &Frames, state: usize) -> usize {
    let frame = frames.get(edge.frame);
    frame.map_or(state, |frame| frame.group as usize + 1)
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
pub(super) fn readings(lattice: &Lattice, frames: &Frames, weights: &Weights) -> Vec<Reading> {
    let ways = Ways { lattice, frames, weights };
    let total = ways.total();
    let mut readings: Vec<Reading> = Vec::new();
    for path in ways.best() {
        let probability = (path.score - total).exp();
        let same = readings.iter_mut().find(|known| say_the_same(lattice, &known.path, &path));
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
    said(lattice, &path.edges)
}

fn said<'a>(lattice: &'a Lattice, edges: &'a [u32]) -> impl Iterator<Item = &'a Statement> {
    edges.iter().filter_map(|edge| lattice.edges.get(*edge as usize)).flat_map(|edge| edge.statements.iter())
}

/// Whether two ways say the same; edges that they begin or end with together are not looked at.
fn say_the_same(lattice: &Lattice, a: &Path, b: &Path) -> bool {
    let both = a.edges.iter().zip(&b.edges).take_while(|(a, b)| a == b).count();
    let (a, b) = (a.edges.get(both..).unwrap_or_default(), b.edges.get(both..).unwrap_or_default());
    let both = a.iter().rev().zip(b.iter().rev()).take_while(|(a, b)| a == b).count();
    let (a, b) = (a.get(..a.len() - both).unwrap_or_default(), b.get(..b.len() - both).unwrap_or_default());
    said(lattice, a).eq(said(lattice, b))
}

/// A way to a boundary that is kept: its score, the state behind it, the edge that leads there, and which of the ways
/// to its beginning.
type Kept = (f32, u8, u32, u32);

struct Ways<'a> {
    lattice: &'a Lattice,
    frames: &'a Frames,
    weights: &'a Weights,
}

impl Ways<'_> {
    /// The states behind which an edge may stand, with what it then weighs and the state behind it.
    fn step(&self, edge: &Edge, state: usize) -> Option<(f32, usize)> {
        let frame = self.frames.get(edge.frame);
        may_follow(frame, state)
            .then(|| (edge.score + self.weights.behind(edge, state), next(edge, self.frames, state)))
    }

    /// The logarithm of the sum over all ways.
    fn total(&self) -> f32 {
        let nodes = self.lattice.nodes();
        let mut sums = vec![[f32::NEG_INFINITY; STATES]; nodes];
        if let Some(first) = sums.first_mut() {
            first[0] = 0.0;
        }
        // Edges are sorted by where they begin, so every way into a boundary is known before one leaves it.
        for edge in &self.lattice.edges {
            let from = sums.get(usize::from(edge.from)).copied().unwrap_or([f32::NEG_INFINITY; STATES]);
            for (state, sum) in from.iter().enumerate().filter(|(_, sum)| **sum > f32::NEG_INFINITY) {
                if let Some((weight, next)) = self.step(edge, state)
                    && let Some(place) = sums.get_mut(usize::from(edge.to)).and_then(|to| to.get_mut(next))
                {
                    *place = log_add(*place, sum + weight);
                }
            }
        }
        sums.last().map_or(0.0, |last| last.iter().fold(f32::NEG_INFINITY, |sum, one| log_add(sum, *one)))
    }

    /// The best ways, the best first.
    fn best(&self) -> Vec<Path> {
        let mut beams: Vec<SmallVec<[Kept; BEAM]>> = vec![SmallVec::new(); self.lattice.nodes()];
        if let Some(first) = beams.first_mut() {
            first.push((0.0, 0, u32::MAX, 0));
        }
        for (n, edge) in self.lattice.edges.iter().enumerate() {
            let (from, to) = (usize::from(edge.from), usize::from(edge.to));
            if from >= to || to >= beams.len() {
                continue;
            }
            let (head, tail) = beams.split_at_mut(to);
            let (Some(source), Some(target)) = (head.get(from), tail.first_mut()) else { continue };
            for (rank, (score, state, ..)) in source.iter().enumerate() {
                let Some((weight, next)) = self.step(edge, usize::from(*state)) else { continue };
                let score = score + weight;
                let place = target.partition_point(|(known, ..)| *known >= score);
                if place >= BEAM {
                    break;
                }
                target.truncate(BEAM - 1);
                target.insert(place.min(target.len()), (score, next as u8, n as u32, rank as u32));
            }
        }
        let count = beams.last().map_or(0, SmallVec::len);
        (0..count).map(|rank| self.path(&beams, rank)).collect()
    }

    /// The edges of one of the ways that are kept at the end.
    fn path(&self, beams: &[SmallVec<[Kept; BEAM]>], rank: usize) -> Path {
        let (mut node, mut rank) = (beams.len().saturating_sub(1), rank);
        let score = beams.get(node).and_then(|beam| beam.get(rank)).map_or(0.0, |(score, ..)| *score);
        let mut edges = Vec::new();
        while node > 0 {
            let Some((.., edge, before)) = beams.get(node).and_then(|beam| beam.get(rank)).copied() else { break };
            edges.push(edge);
            let Some(found) = self.lattice.edges.get(edge as usize) else { break };
            node = usize::from(found.from);
            rank = before as usize;
        }
        edges.reverse();
        Path { edges, score }
    }
}

fn log_add(a: f32, b: f32) -> f32 {
    let (high, low) = if a > b { (a, b) } else { (b, a) };
    if low == f32::NEG_INFINITY { high } else { high + (low - high).exp().ln_1p() }
}
