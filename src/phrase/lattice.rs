//! All ways to cut a message into clauses and to take each: boundaries, and between them candidates with what speaks
//! for and against them.

mod cuts;
mod features;
mod message;
mod trigger;

use super::build::{Clause, Made, Scene, build};
use super::context::Context;
use super::feature::{Feature, Situation, Template};
use super::frame::{Frames, Types, types_of};
use super::household::Household;
use super::item::Text;
use crate::statement::Statement;
use cuts::{Cut, bars, cuts};
use features::{Candidate, of_talk};
use message::Message;
use trigger::{Found, triggers, within};

/// A clause has at most so many items.
const LONGEST_CLAUSE: usize = 60;
/// A clause crosses at most so many boundaries.
const CROSSED: usize = 14;

/// A way to take a stretch; without statements it is left alone.
#[derive(Clone, Debug, Default)]
pub struct Edge {
    /// The boundary at which it begins.
    pub from: u16,
    /// The boundary at which it ends.
    pub to: u16,
    /// The frame; `None` for what is left alone.
    pub(super) frame: Option<u16>,
    pub(super) trigger: u16,
    /// What it says.
    pub statements: Vec<Statement>,
    /// What speaks for and against it.
    pub features: Vec<Feature>,
    pub(super) made: Made,
    /// A deed of the household's own, past or in the making, with an amount, and no word in or before it that says
    /// otherwise.
    pub plain: bool,
    /// The sum of what its features weigh.
    pub score: f32,
}

/// All ways.
#[derive(Debug)]
pub struct Lattice {
    pub(super) cuts: Vec<Cut>,
    /// Sorted by where they begin.
    pub edges: Vec<Edge>,
}

impl Lattice {
    /// How many boundaries there are.
    pub fn nodes(&self) -> usize {
        self.cuts.len()
    }
}

/// Makes the lattice of a message.
pub(super) fn lattice<'a>(
    text: &'a Text<'a>,
    frames: &'a Frames,
    household: &'a Household,
    context: &'a Context<'a>,
    situation: &[Situation],
) -> Lattice {
    let types: Vec<Types> = text.items.iter().map(types_of).collect();
    let scene = Scene { text, types: &types, context, household };
    let (cuts, sentences) = cuts(text, &types);
    let found = triggers(text, &types, frames, &sentences);
    let message = Message::new(text, &types, sentences, situation);
    let edges = Vec::with_capacity(cuts.len() * 8);
    let mut maker = Maker { scene, frames, cuts: &cuts, found, message, edges, made: Vec::new(), features: Vec::new() };
    for from in 0..cuts.len().saturating_sub(1) {
        maker.talk(from);
        for to in from + 1..cuts.len().min(from + 1 + CROSSED) {
            let Some((start, end)) = stretch(&cuts, from, to) else { break };
            if end.saturating_sub(start) > LONGEST_CLAUSE {
                break;
            }
            if end > start {
                maker.clauses((from, to), (start, end));
            }
            if bars(text, &cuts, from, to) {
                break;
            }
        }
    }
    Lattice { edges: maker.edges, cuts }
}

/// The items between two boundaries: where they begin and end.
fn stretch(cuts: &[Cut], from: usize, to: usize) -> Option<(usize, usize)> {
    Some((cuts.get(from)?.start as usize, cuts.get(to)?.end as usize))
}

/// A lattice in the making, with room that is used again for each clause.
struct Maker<'a> {
    scene: Scene<'a>,
    frames: &'a Frames,
    cuts: &'a [Cut],
    found: Vec<Found>,
    message: Message<'a>,
    edges: Vec<Edge>,
    made: Vec<Made>,
    features: Vec<Feature>,
}

impl Maker<'_> {
    /// Leaves alone what stands between a boundary and the next.
    fn talk(&mut self, from: usize) {
        let Some((start, end)) = stretch(self.cuts, from, from + 1) else { return };
        let features = of_talk(&self.message, start, end.max(start));
        self.edges.push(Edge { from: from as u16, to: (from + 1) as u16, features, ..Edge::default() });
    }

    /// Takes a stretch in all ways: under each frame that a trigger in it brings up, by its best trigger.
    fn clauses(&mut self, (from, to): (usize, usize), (start, end): (usize, usize)) {
        let found = within(&self.found, start as u32, end as u32);
        let inside = |one: &&Found| usize::from(one.low) >= start && usize::from(one.high) < end;
        let mut best: Vec<&Found> = Vec::new();
        for one in found.iter().filter(inside) {
            match best.iter_mut().find(|known| known.frame == one.frame) {
                Some(known) if known.rank < one.rank => *known = one,
                Some(_) => {}
                None => best.push(one),
            }
        }
        for one in best {
            let Some(frame) = self.frames.get(one.frame) else { continue };
            let clause = Clause { scene: self.scene, frame, from: start, to: end, trigger: &one.items };
            build(&clause, &mut self.made);
            for mut made in self.made.drain(..).filter(|made| !made.statements.is_empty()) {
                let (message, clause) = (&self.message, &clause);
                let candidate = Candidate { message, cuts: self.cuts, from, to, clause, found: one, made: &made };
                let plain = candidate.is_plain();
                self.features.clear();
                candidate.features(&mut self.features);
                let others = found.iter().filter(inside).filter(|other| other.frame == one.frame);
                self.features.extend(
                    others.map(|other| Feature::new(Template::Trigger, other.frame.into(), other.trigger.into(), 0)),
                );
                self.features.sort_unstable();
                self.features.dedup();
                self.edges.push(Edge {
                    from: from as u16,
                    to: to as u16,
                    frame: Some(one.frame),
                    trigger: one.trigger,
                    plain,
                    statements: std::mem::take(&mut made.statements),
                    features: self.features.as_slice().to_vec(),
                    made,
                    score: 0.0,
                });
            }
        }
    }
}
