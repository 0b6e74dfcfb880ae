//! A semi-Markov conditional random field over the lattices: the wanted statements constrain it, nothing is aligned by
//! hand.

use crate::compare::same_statements;
use crate::corpus::Line;
use rackful::phrase::{Context, training};
use rand::SeedableRng;
use rand::rngs::SmallRng;
use rand::seq::SliceRandom;
use rustc_hash::FxHashMap;
use serde_json::Value;
use std::collections::HashMap;

/// An edge, with its features by number.
pub struct Edge {
    pub from: usize,
    pub to: usize,
    pub features: Vec<u32>,
    pub statements: Vec<Value>,
    /// At which wanted statements it may stand.
    pub fits: Vec<usize>,
    pub group: Option<usize>,
    /// Whether it plainly tells of something that the household did.
    pub plain: bool,
    /// What brought it up.
    pub trigger: Option<String>,
    /// Behind which states it may stand.
    pub may: Vec<bool>,
    /// What it weighs behind each state.
    pub follows: Vec<[u32; 2]>,
}

/// A line with its lattice.
pub struct Example {
    pub line: usize,
    pub nodes: usize,
    pub edges: Vec<Edge>,
    pub wanted: usize,
    /// Whether some way says what is wanted.
    pub reachable: bool,
    pub weight: f32,
}

/// Names of features.
#[derive(Default)]
pub struct Features {
    numbers: HashMap<training::Key, u32>,
    pub keys: Vec<training::Key>,
}

impl Features {
    fn number(&mut self, key: training::Key) -> u32 {
        let next = self.keys.len() as u32;
        let number = *self.numbers.entry(key).or_insert(next);
        if number == next {
            self.keys.push(key);
        }
        number
    }
}

/// Makes the lattice of a line.
pub fn example(n: usize, line: &Line, features: &mut Features, weight: f32) -> Example {
    let context = Context { now: line.now, zone: line.zone, lexicon: &line.lexicon, last: None };
    let lattice = training::lattice_of(&line.text, &context);
    let nodes = lattice.nodes();
    let edges: Vec<Edge> = lattice
        .edges
        .iter()
        .map(|edge| {
            let statements: Vec<Value> =
                edge.statements.iter().map(|s| serde_json::to_value(s).expect("a statement")).collect();
            let count = statements.len();
            let fits = if count == 0 {
                Vec::new()
            } else {
                (0..(line.wanted.len() + 1).saturating_sub(count))
                    .filter(|at| same_statements(&line.wanted[*at..at + count], &statements, line.wants))
                    .collect()
            };
            Edge {
                from: edge.from.into(),
                to: edge.to.into(),
                features: edge.features.iter().map(|f| features.number(training::key(*f))).collect(),
                statements,
                fits,
                group: training::group(edge),
                plain: edge.plain,
                trigger: training::trigger(edge),
                may: (0..STATES).map(|state| training::may_follow(edge, state)).collect(),
                follows: (0..STATES)
                    .filter_map(|state| training::follows(edge, state))
                    .map(|pair| pair.map(|key| features.number(key)))
                    .collect(),
            }
        })
        .collect();
    let mut example = Example { line: n, nodes, edges, wanted: line.wanted.len(), reachable: false, weight };
    let scores = vec![0.0; example.edges.len()];
    let none = vec![0.0; features.keys.len()];
    example.reachable = constrained(&example, &scores, &none).0 > f32::NEG_INFINITY;
    example
}

fn log_add(a: f32, b: f32) -> f32 {
    let (high, low) = if a > b { (a, b) } else { (b, a) };
    if low == f32::NEG_INFINITY { high } else { high + (low - high).exp().ln_1p() }
}

const STATES: usize = training::STATES;

/// What an edge weighs by itself.
pub fn scores(example: &Example, weights: &[f32]) -> Vec<f32> {
    example.edges.iter().map(|edge| edge.features.iter().map(|f| weights[*f as usize]).sum()).collect()
}

impl Edge {
    /// What it weighs behind a clause of a state, beside its own score.
    fn behind(&self, state: usize, weights: &[f32]) -> f32 {
        self.follows.get(state).map_or(0.0, |pair| pair.iter().map(|f| weights[*f as usize]).sum())
    }

    /// The state behind it.
    fn next(&self, state: usize) -> usize {
        self.group.map_or(state, |group| group + 1)
    }
}

/// The sum over all ways, and how likely each edge is in each state.
fn free(example: &Example, scores: &[f32], weights: &[f32]) -> (f32, Vec<(usize, usize, f32)>) {
    let at = |node: usize, state: usize| node * STATES + state;
    let mut ahead = vec![f32::NEG_INFINITY; example.nodes * STATES];
    ahead[0] = 0.0;
    let mut steps = Vec::with_capacity(example.edges.len() * 2);
    for (n, (edge, score)) in example.edges.iter().zip(scores).enumerate() {
        for state in 0..STATES {
            let before = ahead[at(edge.from, state)];
            if before == f32::NEG_INFINITY || !edge.may[state] {
                continue;
            }
            let step = score + edge.behind(state, weights);
            let to = at(edge.to, edge.next(state));
            ahead[to] = log_add(ahead[to], before + step);
            steps.push((n, state, step));
        }
    }
    let last = example.nodes - 1;
    let total = (0..STATES).fold(f32::NEG_INFINITY, |sum, state| log_add(sum, ahead[at(last, state)]));
    let mut back = vec![f32::NEG_INFINITY; example.nodes * STATES];
    (0..STATES).for_each(|state| back[at(last, state)] = 0.0);
    for (n, state, step) in steps.iter_mut().rev() {
        let edge = &example.edges[*n];
        let behind = back[at(edge.to, edge.next(*state))];
        let from = at(edge.from, *state);
        back[from] = log_add(back[from], behind + *step);
        *step = (ahead[from] + *step + behind - total).exp();
    }
    (total, steps)
}

/// The same over the ways that say what is wanted.
pub fn constrained(example: &Example, scores: &[f32], weights: &[f32]) -> (f32, Vec<(usize, usize, f32)>) {
    let width = example.wanted + 1;
    let at = |node: usize, state: usize, said: usize| (node * STATES + state) * width + said;
    let mut ahead = vec![f32::NEG_INFINITY; example.nodes * STATES * width];
    ahead[0] = 0.0;
    let mut steps = Vec::with_capacity(example.edges.len() * 2);
    for (n, (edge, score)) in example.edges.iter().zip(scores).enumerate() {
        for state in 0..STATES {
            for said in 0..width {
                let before = ahead[at(edge.from, state, said)];
                let says = edge.statements.len();
                if before == f32::NEG_INFINITY || !edge.may[state] || says > 0 && !edge.fits.contains(&said) {
                    continue;
                }
                let step = score + edge.behind(state, weights);
                let to = at(edge.to, edge.next(state), said + says);
                ahead[to] = log_add(ahead[to], before + step);
                steps.push((n, state, said, step));
            }
        }
    }
    let last = example.nodes - 1;
    let total = (0..STATES).fold(f32::NEG_INFINITY, |sum, state| log_add(sum, ahead[at(last, state, example.wanted)]));
    if total == f32::NEG_INFINITY {
        return (total, Vec::new());
    }
    let mut back = vec![f32::NEG_INFINITY; example.nodes * STATES * width];
    (0..STATES).for_each(|state| back[at(last, state, example.wanted)] = 0.0);
    let mut likely = Vec::with_capacity(steps.len());
    for (n, state, said, step) in steps.iter().rev() {
        let edge = &example.edges[*n];
        let behind = back[at(edge.to, edge.next(*state), said + edge.statements.len())];
        let from = at(edge.from, *state, *said);
        back[from] = log_add(back[from], behind + step);
        likely.push((*n, *state, (ahead[from] + step + behind - total).exp()));
    }
    (total, likely)
}

/// How training goes.
#[derive(Clone, Copy)]
pub struct Plan {
    pub epochs: usize,
    pub rate: f32,
    pub l2: f32,
    pub seed: u64,
    /// How often a feature about a word is left out.
    pub dropout: f32,
    /// Whether that holds of every feature.
    pub all: bool,
}

/// Learns the weights.
pub fn train(examples: &[&Example], keys: &[training::Key], allowed: Option<&[bool]>, plan: Plan) -> Vec<f32> {
    let count = keys.len();
    let drops: Vec<f32> = keys.iter().map(|key| if training::is_word(*key) || plan.all { 1.0 } else { 0.0 }).collect();
    let mut weights = vec![0.0_f32; count];
    let mut squares = vec![1e-6_f32; count];
    let mut order: Vec<usize> = (0..examples.len()).collect();
    let mut random = SmallRng::seed_from_u64(plan.seed);
    let mut gradient: FxHashMap<u32, f32> = FxHashMap::default();
    let mut sum = vec![0.0_f64; count];
    let mut summed = 0.0;
    for epoch in 0..plan.epochs {
        order.shuffle(&mut random);
        for batch in order.chunks(32) {
            gradient.clear();
            for n in batch {
                let example = examples[*n];
                if !example.reachable {
                    continue;
                }
                // Features are left out at random, so that none is leaned on alone.
                let salt = (*n as u32).wrapping_mul(0x9e37_79b9) ^ (epoch as u32).wrapping_mul(0x85eb_ca6b);
                let left_out = |f: u32| {
                    let mut h = f.wrapping_mul(0xcc9e_2d51) ^ salt;
                    h ^= h >> 15;
                    h = h.wrapping_mul(0x2c1b_3c6d);
                    h ^= h >> 12;
                    (h >> 8) as f32 / (1 << 24) as f32 * 1.0
                        < plan.dropout * drops.get(f as usize).copied().unwrap_or(1.0)
                };
                let keep = 1.0 / (1.0 - plan.dropout);
                let scores: Vec<f32> = example
                    .edges
                    .iter()
                    .map(|edge| {
                        edge.features
                            .iter()
                            .filter(|f| !left_out(**f))
                            .map(|f| weights[*f as usize] * if drops[*f as usize] > 0.0 { keep } else { 1.0 })
                            .sum()
                    })
                    .collect();
                let (_, free) = free(example, &scores, &weights);
                let (_, gold) = constrained(example, &scores, &weights);
                let mut pushes = vec![0.0_f32; example.edges.len()];
                for (sign, steps) in [(1.0, free), (-1.0, gold)] {
                    for (n, state, likely) in steps {
                        let push = sign * likely * example.weight;
                        pushes[n] += push;
                        if push.abs() > 1e-5 {
                            for feature in example.edges[n].follows.get(state).into_iter().flatten() {
                                *gradient.entry(*feature).or_default() += push;
                            }
                        }
                    }
                }
                for (edge, push) in example.edges.iter().zip(pushes) {
                    if push.abs() > 1e-5 {
                        for feature in edge.features.iter().filter(|f| !left_out(**f)) {
                            *gradient.entry(*feature).or_default() += push;
                        }
                    }
                }
            }
            for (feature, push) in &gradient {
                let f = *feature as usize;
                if allowed.is_some_and(|allowed| !allowed[f]) {
                    continue;
                }
                let push = push + plan.l2 * weights[f] * batch.len() as f32;
                squares[f] += push * push;
                weights[f] -= plan.rate * push / squares[f].sqrt();
            }
        }
        // The mean of the later rounds generalizes better than the last one.
        if epoch * 2 >= plan.epochs {
            sum.iter_mut().zip(&weights).for_each(|(sum, weight)| *sum += f64::from(*weight));
            summed += 1.0;
        }
    }
    sum.into_iter().map(|sum| (sum / summed) as f32).collect()
}

/// A reading: what it says, how likely it is, and the groups of its edges.
#[derive(Clone, Debug)]
pub struct Reading {
    pub statements: Vec<Value>,
    pub probability: f32,
    pub groups: Vec<usize>,
    /// Whether all that it says is plainly told.
    pub plain: bool,
}

/// The readings of an example, the likeliest first.
pub fn readings(example: &Example, weights: &[f32]) -> Vec<Reading> {
    const BEAM: usize = 12;
    let scores = scores(example, weights);
    let (total, _) = free(example, &scores, weights);
    let mut beams: Vec<Vec<(f32, usize, Vec<usize>)>> = vec![Vec::new(); example.nodes];
    beams[0].push((0.0, 0, Vec::new()));
    for (n, edge) in example.edges.iter().enumerate() {
        let ways: Vec<(f32, usize, Vec<usize>)> = beams[edge.from]
            .iter()
            .filter(|(_, state, _)| edge.may[*state])
            .map(|(score, state, path)| {
                let mut path = path.clone();
                path.push(n);
                (score + scores[n] + edge.behind(*state, weights), edge.next(*state), path)
            })
            .collect();
        beams[edge.to].extend(ways);
        beams[edge.to].sort_by(|a, b| b.0.total_cmp(&a.0));
        beams[edge.to].truncate(BEAM);
    }
    let mut readings: Vec<Reading> = Vec::new();
    for (score, _, path) in &beams[example.nodes - 1] {
        let statements: Vec<Value> = path.iter().flat_map(|n| example.edges[*n].statements.clone()).collect();
        let probability = (score - total).exp();
        match readings.iter_mut().find(|known| known.statements == statements) {
            Some(known) => known.probability += probability,
            None => readings.push(Reading {
                statements,
                probability,
                groups: path.iter().filter_map(|n| example.edges[*n].group).collect(),
                plain: path.iter().all(|n| example.edges[*n].group.is_none() || example.edges[*n].plain),
            }),
        }
    }
    readings.sort_by(|a, b| b.probability.total_cmp(&a.probability));
    readings
}
