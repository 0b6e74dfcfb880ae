//! All ways to cut a message into clauses and to take each: boundaries, and between them candidates with what speaks for and against them.

use super::build::{Clause, Made, Scene, Used, build};
use super::feature::{Feature, Template};
use super::frame::{Frames, Term, Types, types_of};
use super::item::{Item, Text, WordKind};
use super::lex::Mark;
use super::lexicon::WordId;
use super::lexicon::sense::Class;
use super::{Context, Household};
use crate::statement::Statement;
use smallvec::SmallVec;

/// A clause has at most so many items.
const LONGEST_CLAUSE: usize = 60;
/// A clause crosses at most so many boundaries.
const CROSSED: usize = 14;
/// At most so many triggers of a message are looked at.
const TRIGGERS: usize = 600;

/// What is known of the household when a message comes.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
#[repr(u8)]
pub(super) enum Situation {
    Batch,
    NoBatch,
    Unsealed,
    Timer,
    Planned,
    Addressed,
    Metric,
}

/// What a boundary is.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
#[repr(u8)]
pub(super) enum CutKind {
    Edge,
    Stop,
    Question,
    Comma,
    And,
    Colon,
    Deed,
    Amount,
    Line,
}

/// A boundary: where the clause before it ends and the one behind it begins; between them stand marks and conjunctions.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Cut {
    pub(super) end: u32,
    pub(super) start: u32,
    pub(super) kind: CutKind,
}

/// A way to take a stretch; without statements it is left alone.
#[derive(Clone, Debug)]
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
    /// A deed of the household's own, past or in the making, with an amount, and no word in or before it that says otherwise.
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

/// A trigger found in a message.
#[derive(Clone, Debug)]
struct Found {
    frame: u16,
    trigger: u16,
    items: SmallVec<[u16; 4]>,
    low: u16,
    high: u16,
    rank: u16,
}

/// What is known of a message as a whole.
struct Message<'a> {
    text: &'a Text<'a>,
    types: &'a [Types],
    /// Per item the classes of voice that it has.
    voices: Vec<u16>,
    /// Per item the sentence that it is in.
    sentences: Vec<u16>,
    /// What its sentence says before an item, and what from the item on.
    before: Vec<Heard>,
    behind: Vec<Heard>,
    situation: SmallVec<[Situation; 8]>,
    content: usize,
}

/// What a stretch of a sentence says besides the clauses: summed up once, as every clause asks for it.
#[derive(Clone, Copy, Default)]
struct Heard {
    voices: u16,
    /// How many words belong to no statement.
    chatter: usize,
}

impl Heard {
    fn and(self, item: &Item, voices: u16) -> Self {
        Self { voices: self.voices | voices, chatter: self.chatter + usize::from(is_chatter(item)) }
    }
}

impl<'a> Message<'a> {
    fn new(text: &'a Text<'a>, types: &'a [Types], sentences: Vec<u16>, situation: &[Situation]) -> Self {
        let voices: Vec<u16> = (0..text.items.len()).map(|n| voices(text, n)).collect();
        let all = || text.items.iter().zip(&voices).zip(&sentences);
        let mut before = Vec::with_capacity(voices.len());
        let (mut heard, mut of) = (Heard::default(), None);
        for ((item, voices), sentence) in all() {
            if of.replace(sentence) != Some(sentence) {
                heard = Heard::default();
            }
            before.push(heard);
            heard = heard.and(item, *voices);
        }
        let mut behind = Vec::with_capacity(voices.len());
        of = None;
        for ((item, voices), sentence) in all().rev() {
            if of.replace(sentence) != Some(sentence) {
                heard = Heard::default();
            }
            heard = heard.and(item, *voices);
            behind.push(heard);
        }
        behind.reverse();
        let content = text.items.iter().filter(|item| is_chatter(item)).count();
        Self { text, types, voices, before, behind, sentences, situation: situation.iter().copied().collect(), content }
    }

    /// What the sentence in which a clause begins says before it, and behind it.
    fn beside(&self, clause: &Clause<'_>) -> (Heard, Heard) {
        let sentence = self.sentences.get(clause.from);
        let before = self.before.get(clause.from).copied().unwrap_or_default();
        let behind = self.behind.get(clause.to).filter(|_| self.sentences.get(clause.to) == sentence);
        (before, behind.copied().unwrap_or_default())
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
    let mut edges = Vec::with_capacity(cuts.len() * 8);
    let mut best: Vec<&Found> = Vec::new();
    let mut made = Vec::new();
    // A clause has some forty features: they are collected in one place and kept in as much room as they need.
    let mut features = Vec::with_capacity(128);
    for from in 0..cuts.len().saturating_sub(1) {
        edges.push(talk(&message, &cuts, from));
        let start = cuts[from].start;
        let mut barrier = false;
        for to in from + 1..cuts.len().min(from + 1 + CROSSED) {
            let end = cuts[to].end;
            if end.saturating_sub(start) as usize > LONGEST_CLAUSE || barrier {
                break;
            }
            barrier = bars(text, &cuts, from, to);
            if end <= start {
                continue;
            }
            best.clear();
            let found = within(&found, start, end);
            let inside = |one: &&Found| u32::from(one.low) >= start && u32::from(one.high) < end;
            for one in found.iter().filter(inside) {
                match best.iter_mut().find(|known| known.frame == one.frame) {
                    Some(known) if known.rank < one.rank => *known = one,
                    Some(_) => {}
                    None => best.push(one),
                }
            }
            for one in &best {
                let Some(frame) = frames.frames.get(usize::from(one.frame)) else { continue };
                let clause = Clause { scene, frame, from: start as usize, to: end as usize, trigger: &one.items };
                made.clear();
                build(&clause, &mut made);
                for mut made in made.drain(..) {
                    if made.statements.is_empty() {
                        continue;
                    }
                    features.clear();
                    add_features(&message, &cuts, from, to, &clause, one, &made, &mut features);
                    let others = found
                        .iter()
                        .filter(|other| other.frame == one.frame && other.trigger != one.trigger)
                        .filter(inside);
                    features.extend(
                        others
                            .map(|other| Feature::new(Template::Trigger, other.frame.into(), other.trigger.into(), 0)),
                    );
                    features.sort_unstable();
                    features.dedup();
                    edges.push(Edge {
                        from: from as u16,
                        to: to as u16,
                        frame: Some(one.frame),
                        trigger: one.trigger,
                        plain: is_plain(&message, &clause, one, &made),
                        statements: std::mem::take(&mut made.statements),
                        features: features.as_slice().to_vec(),
                        made,
                        score: 0.0,
                    });
                }
            }
        }
    }
    Lattice { cuts, edges }
}

// -------------------------------------------------------------------- boundaries

/// Where clauses may begin and end, and which sentence each item is in.
fn cuts(text: &Text<'_>, types: &[Types]) -> (Vec<Cut>, Vec<u16>) {
    let items = &text.items;
    let mut cuts = Vec::with_capacity(8);
    let mut sentences = Vec::with_capacity(items.len());
    let mut sentence = 0;
    let mut n = 0;
    let mut start = 0;
    while n < items.len() && separates(text, n).is_some() {
        sentences.push(sentence);
        n += 1;
        start = n;
    }
    cuts.push(Cut { end: 0, start: start as u32, kind: CutKind::Edge });
    while n < items.len() {
        if let Some(kind) = separates(text, n) {
            let end = n;
            let mut strongest = kind;
            while n < items.len()
                && let Some(kind) = separates(text, n)
            {
                if stronger(kind, strongest) {
                    strongest = kind;
                }
                sentences.push(sentence);
                n += 1;
            }
            if matches!(strongest, CutKind::Stop | CutKind::Question | CutKind::Line) {
                sentence += 1;
            }
            if n < items.len() {
                cuts.push(Cut { end: end as u32, start: n as u32, kind: strongest });
            } else {
                cuts.push(Cut {
                    end: end as u32,
                    start: n as u32,
                    kind: if strongest == CutKind::Question { CutKind::Question } else { CutKind::Edge },
                });
                return (cuts, sentences);
            }
            continue;
        }
        let last = cuts.last().map_or(0, |cut| cut.start as usize);
        if let Some(kind) = begins(text, types, n, last) {
            let back = step_back(text, n, last);
            if back > last && cuts.last().is_none_or(|cut| (cut.start as usize) < back) {
                cuts.push(Cut { end: back as u32, start: back as u32, kind });
            }
        }
        sentences.push(sentence);
        n += 1;
    }
    cuts.push(Cut { end: items.len() as u32, start: items.len() as u32, kind: CutKind::Edge });
    (cuts, sentences)
}

fn stronger(new: CutKind, old: CutKind) -> bool {
    let rank = |kind: CutKind| match kind {
        CutKind::Question => 5,
        CutKind::Stop | CutKind::Line => 4,
        CutKind::Colon => 3,
        CutKind::Comma => 2,
        CutKind::And => 1,
        _ => 0,
    };
    rank(new) > rank(old)
}

/// Whether an item stands between clauses.
fn separates(text: &Text<'_>, n: usize) -> Option<CutKind> {
    let item = text.items.get(n)?;
    let glued = |n: usize| {
        text.items.get(n).and_then(|item| text.lexed.tokens.get(item.from as usize)).is_some_and(|token| token.glued)
    };
    if item.is(text.words.classes.mark_question) {
        return Some(CutKind::Question);
    }
    let next_capital = text.items.get(n + 1).is_some_and(|next| next.capital || next.kind == WordKind::Value);
    match item.mark {
        // `approx. 5 lb`: what is abbreviated ends no sentence.
        Some(Mark::Dot) if glued(n + 1) && glued(n) => None,
        Some(Mark::Dot)
            if !next_capital
                && n + 1 < text.items.len()
                && n > 0
                && text.items.get(n - 1).is_some_and(|item| {
                    item.to - item.from == 1 && letters(text, item) <= 3 && item.kind != WordKind::Small
                }) =>
        {
            Some(CutKind::Comma)
        }
        Some(Mark::Dot | Mark::Bang) => Some(CutKind::Stop),
        Some(Mark::Line) => Some(CutKind::Line),
        Some(Mark::Comma) => Some(CutKind::Comma),
        Some(Mark::Semicolon | Mark::Colon | Mark::Dash | Mark::Arrow | Mark::Bracket | Mark::Equals)
            if !(glued(n) && glued(n + 1)) || item.mark == Some(Mark::Bracket) || item.mark == Some(Mark::Colon) =>
        {
            Some(CutKind::Colon)
        }
        Some(Mark::Slash) if !glued(n) || !glued(n + 1) => Some(CutKind::Comma),
        Some(_) => None,
        // `next?`: all there is ties nothing.
        None if text.items.len() > 2
            && item.is(text.words.classes.and)
            && item.values.is_empty()
            && !item.is(text.words.classes.prep_with) =>
        {
            Some(CutKind::And)
        }
        None => None,
    }
}

fn letters(text: &Text<'_>, item: &Item) -> usize {
    text.lexed.tokens.get(item.from as usize).map_or(0, |token| (token.to - token.from) as usize)
}

/// Whether a clause may begin at an item that nothing separates from what stands before.
fn begins(text: &Text<'_>, types: &[Types], n: usize, last: usize) -> Option<CutKind> {
    let item = text.items.get(n)?;
    let classes = &text.words.classes;
    if n <= last {
        return None;
    }
    if item.kind == WordKind::Deed
        || item.is(classes.say)
        || item.is(classes.oops)
        || item.is(classes.question) && item.kind == WordKind::Voice
    {
        return Some(CutKind::Deed);
    }
    let amount = Types::Mass.with(Types::Count).with(Types::Jars).with(Types::Of);
    let before = text.items.get(n - 1)?;
    // `… because I wanted to`, `… we have plenty`: a clause of its own begins.
    if item.is(classes.because) && item.values.is_empty()
        || is_subject(text, n) && !is_subject(text, n - 1) && !leads_subject(text, n - 1)
    {
        return Some(CutKind::And);
    }
    let free = before.kind == WordKind::Trade
        || matches!(before.kind, WordKind::Value | WordKind::Ordinary | WordKind::Strange);
    let counted =
        item.values.iter().any(|value| !matches!(value, super::value::Value::Jars(jars) if jars.count.is_none()));
    if types.get(n).is_some_and(|types| types.meets(amount))
        && free
        && counted
        && !before.is(classes.at)
        && !before.is(classes.of)
    {
        return Some(CutKind::Amount);
    }
    let acid = item.is(classes.acid_lemon) || item.is(classes.acid_citric) || item.is(classes.acid);
    if item.kind == WordKind::Trade
        && (item.is(classes.ask)
            || acid && matches!(before.kind, WordKind::Deed | WordKind::Value) && !before.is(classes.of))
    {
        return Some(CutKind::Deed);
    }
    None
}

/// Whether an item is who does something: `I`, `we`, `she`.
fn is_subject(text: &Text<'_>, n: usize) -> bool {
    let classes = &text.words.classes;
    text.items.get(n).is_some_and(|item| item.is(classes.subject))
}

/// Whether what stands before a subject belongs to the same clause: a verb in a question, a conjunction, a negation.
fn leads_subject(text: &Text<'_>, n: usize) -> bool {
    let classes = &text.words.classes;
    text.items.get(n).is_some_and(|item| {
        item.is(classes.aux)
            || item.is(classes.modal)
            || item.is(classes.question)
            || item.is(classes.because)
            || item.is(classes.and)
            || item.is(classes.prep_from)
            || item.is(classes.not)
    })
}

/// Back over what belongs to the verb: `we have frozen` begins at `we`.
fn step_back(text: &Text<'_>, n: usize, last: usize) -> usize {
    let classes = &text.words.classes;
    let mut at = n;
    while at > last && n - at < 4 {
        let Some(item) = text.items.get(at - 1) else { break };
        let belongs = item.is(classes.own)
            || item.is(classes.aux)
            || item.is(classes.not)
            || item.is(classes.other)
            || item.is(classes.modal)
            || item.is(classes.you);
        let value = !item.values.is_empty() && !item.is(classes.own);
        if !belongs || value {
            break;
        }
        at -= 1;
    }
    at
}

/// Whether no clause goes beyond a boundary: behind a full stop only what says nothing by itself still belongs to it.
fn bars(text: &Text<'_>, cuts: &[Cut], from: usize, to: usize) -> bool {
    let Some(cut) = cuts.get(to) else { return true };
    match cut.kind {
        CutKind::Question => true,
        CutKind::Stop | CutKind::Line => {
            let next = cuts.get(to + 1).map_or(cut.start, |next| next.end);
            let short = next.saturating_sub(cut.start) <= 5;
            let deed = |from: u32, to: u32| {
                text.items
                    .get(from as usize..to as usize)
                    .unwrap_or_default()
                    .iter()
                    .any(|item| item.kind == WordKind::Deed)
            };
            let before = cuts.get(from).map_or(0, |cut| cut.start);
            let left_short = cut.end.saturating_sub(before) <= 3 && !deed(before, cut.end);
            !(short && !deed(cut.start, next) || left_short)
        }
        _ => false,
    }
}

// -------------------------------------------------------------------- triggers

fn triggers(text: &Text<'_>, types: &[Types], frames: &Frames, sentences: &[u16]) -> Vec<Found> {
    let mut found: Vec<Found> = Vec::with_capacity(16);
    for (n, item) in text.items.iter().enumerate() {
        let own_types = types.get(n).copied().unwrap_or_default();
        if item.mark.is_some() {
            continue;
        }
        frames.begun_by(item, own_types, |frame, trigger| {
            let said = frames.frames.get(usize::from(frame)).and_then(|frame| frame.triggers.get(usize::from(trigger)));
            let either = said.is_some_and(|said| said.terms.len() > 1 && !said.ordered);
            let sides: &[bool] = if either { &[true, false] } else { &[true] };
            for behind in sides.iter().copied() {
                if found.len() < TRIGGERS
                    && let Some(one) = complete(text, types, frames, sentences, n, (frame, trigger), behind)
                    && found.last().is_none_or(|last: &Found| {
                        last.items != one.items || (last.frame, last.trigger) != (frame, trigger)
                    })
                {
                    found.push(one);
                }
            }
        });
    }
    found
}

/// Those triggers whose first part stands in a stretch; they are found in the order of their first parts.
fn within(found: &[Found], start: u32, end: u32) -> &[Found] {
    let before = |at: u32| move |one: &Found| one.items.first().is_some_and(|first| u32::from(*first) < at);
    let from = found.partition_point(before(start));
    let rest = found.get(from..).unwrap_or_default();
    rest.get(..rest.partition_point(before(end))).unwrap_or_default()
}

/// The other parts of a trigger, each at the nearest place behind its first part, or else before it.
fn complete(
    text: &Text<'_>,
    types: &[Types],
    frames: &Frames,
    sentences: &[u16],
    n: usize,
    (frame, trigger): (u16, u16),
    behind: bool,
) -> Option<Found> {
    let said = frames.frames.get(usize::from(frame))?.triggers.get(usize::from(trigger))?;
    let mut items: SmallVec<[u16; 4]> = SmallVec::new();
    items.push(n as u16);
    let near = |a: usize, b: usize| sentences.get(a).zip(sentences.get(b)).is_some_and(|(a, b)| a.abs_diff(*b) <= 1);
    for term in said.terms.iter().skip(1) {
        let fits = |at: usize| {
            !items.contains(&(at as u16))
                && near(n, at)
                && text.items.get(at).is_some_and(|item| term.fits(item, types.get(at).copied().unwrap_or_default()))
        };
        let after = (n + 1..text.items.len().min(n + 30)).find(|at| fits(*at));
        let before = if said.ordered { None } else { (n.saturating_sub(30)..n).rev().find(|at| fits(*at)) };
        let place = match (after, before) {
            (Some(after), Some(before)) => {
                if behind {
                    after
                } else {
                    before
                }
            }
            (Some(at), None) | (None, Some(at)) => at,
            (None, None) => return None,
        };
        items.push(place as u16);
    }
    let low = items.iter().copied().min()?;
    let high = items.iter().copied().max()?;
    let letters: u32 =
        items.iter().filter_map(|at| text.items.get(usize::from(*at))).map(|item| item.to - item.from).sum();
    // A deed says more of its form than things that stand beside it.
    let classes = &text.words.classes;
    let deed = said
        .terms
        .iter()
        .any(|term| matches!(term, Term::Class(class) if class.within(classes.deed) || class.within(classes.say)));
    let rank = u16::from(deed) * 64 + (said.terms.len() as u16) * 8 + letters.min(7) as u16;
    Some(Found { frame, trigger, items, low, high, rank })
}

// -------------------------------------------------------------------- features

fn voices(text: &Text<'_>, n: usize) -> u16 {
    let Some(item) = text.items.get(n) else { return 0 };
    let classes = &text.words.classes;
    // `do I need`, `is there`: the verb before its subject, as questions have it.
    let verb = |item: &Item| item.is(classes.aux) || item.is(classes.modal);
    let person = |item: &Item| {
        item.is(classes.own) || item.is(classes.you) || item.is(classes.other) || item.is(classes.pronoun)
    };
    let leads =
        n.checked_sub(1).and_then(|n| text.items.get(n)).is_none_or(|before| !person(before) && !before.is_content());
    let inverted =
        leads && verb(item) && !person(item) && text.items.get(n + 1).is_some_and(|next| person(next) && !verb(next));
    let all: [Class; 13] = [
        classes.own,
        classes.you,
        classes.other,
        classes.kin,
        classes.folk,
        classes.not,
        classes.modal,
        classes.want,
        classes.if_,
        classes.hearsay,
        classes.memory,
        classes.price,
        classes.question,
    ];
    all.iter()
        .enumerate()
        .filter(|(_, class)| item.is(**class))
        .fold(u16::from(inverted) << 13, |bits, (n, _)| bits | 1 << n)
}

fn talk(message: &Message<'_>, cuts: &[Cut], from: usize) -> Edge {
    let (start, end) = (cuts[from].start as usize, cuts[from + 1].end as usize);
    let items = message.text.items.get(start..end.max(start)).unwrap_or_default();
    let mut features = vec![Feature::new(Template::Talk, items.len().min(6), 0, 0)];
    let mut kinds = [0_usize; WordKind::ALL.len()];
    for item in items {
        kinds[item.kind as usize] += 1;
    }
    for (kind, count) in kinds.iter().enumerate().filter(|(_, count)| **count > 0) {
        features.push(Feature::new(Template::TalkKind, kind, (*count).min(3), 0));
    }
    for (sort, count) in amounts(message, start..end.max(start), Used::default()) {
        features.push(Feature::new(Template::TalkAmount, sort, count, 0));
    }
    for form in items.iter().filter(|item| item.kind == WordKind::Deed).filter_map(|item| form_of_item(message, item)) {
        features.push(Feature::new(Template::TalkDeed, form, 0, 0));
    }
    let classes = &message.text.words.classes;
    let oops = items.iter().position(|item| item.is(classes.oops)).is_some_and(|n| n < 3);
    if oops && items.iter().any(|item| !item.values.is_empty()) {
        features.push(Feature::new(Template::TalkOops, 0, 0, 0));
    }
    features.sort_unstable();
    features.dedup();
    Edge {
        from: from as u16,
        to: (from + 1) as u16,
        frame: None,
        trigger: 0,
        statements: Vec::new(),
        features,
        made: Made::default(),
        plain: false,
        score: 0.0,
    }
}

/// How many amounts of each sort stand in a stretch and are not accounted for, at most two of each.
fn amounts(message: &Message<'_>, stretch: std::ops::Range<usize>, used: Used) -> impl Iterator<Item = (usize, usize)> {
    let sorts = [Types::Mass, Types::Count, Types::Jars, Types::Of, Types::Number];
    let mut counts = [0_usize; 5];
    for at in stretch.clone().filter(|at| !used.has(at - stretch.start)) {
        let types = message.types.get(at).copied().unwrap_or_default();
        if let Some(sort) = sorts.iter().position(|sort| types.meets(*sort)) {
            counts[sort] += 1;
        }
    }
    counts.into_iter().enumerate().filter(|(_, count)| *count > 0).map(|(sort, count)| (sort, count.min(2)))
}

/// What an item beside a clause is.
fn beside(message: &Message<'_>, at: Option<usize>) -> usize {
    let Some((at, item)) = at.and_then(|at| Some((at, message.text.items.get(at)?))) else { return 0 };
    let classes = &message.text.words.classes;
    let types = message.types.get(at).copied().unwrap_or_default();
    match () {
        () if item.is(classes.oops) => 1,
        () if item.is(classes.not) || item.is(classes.correct_not) => 2,
        () if types.meets(Types::Mass.with(Types::Count)) => 3,
        () if types.meets(Types::Jars.with(Types::Of)) => 4,
        () if !item.values.is_empty() => 5,
        () if item.kind == WordKind::Deed => 6,
        () if item.is(classes.question) => 7,
        () if item.is(classes.own) => 8,
        () if item.kind == WordKind::Voice => 9,
        () if item.kind == WordKind::Trade => 10,
        () if item.kind == WordKind::Small => 11,
        () if item.kind == WordKind::Strange => 13,
        () => 12,
    }
}

/// Whether a word beside a clause says something of it, and is no word of another statement.
fn is_context(item: &Item) -> bool {
    !matches!(item.kind, WordKind::Value | WordKind::Deed | WordKind::Trade)
}

/// Whether a word can hardly belong to another statement of the message.
fn is_chatter(item: &Item) -> bool {
    item.is_content() && !matches!(item.kind, WordKind::Value | WordKind::Deed | WordKind::Trade | WordKind::Harmless)
}

fn form_of_item(message: &Message<'_>, item: &Item) -> Option<usize> {
    let words = message.text.words;
    item.senses.iter().find(|hit| words.classes.deed.has(hit.sense)).map(|hit| words.form(hit.sense))
}

fn form_of(message: &Message<'_>, items: &[u16]) -> usize {
    let words = message.text.words;
    items
        .iter()
        .filter_map(|at| message.text.items.get(usize::from(*at)))
        .find_map(|item| form_of_item(message, item))
        .unwrap_or_else(|| {
            let say = items
                .iter()
                .filter_map(|at| message.text.items.get(usize::from(*at)))
                .any(|item| item.is(words.classes.say));
            if say { 4 } else { 0 }
        })
}

#[expect(clippy::too_many_lines, clippy::too_many_arguments, reason = "a list of features, one after the other")]
fn add_features(
    message: &Message<'_>,
    cuts: &[Cut],
    from: usize,
    to: usize,
    clause: &Clause<'_>,
    found: &Found,
    made: &Made,
    out: &mut Vec<Feature>,
) {
    use Template as T;
    let frame = usize::from(found.frame);
    let group = clause.frame.group as usize;
    // What holds of any entry is learned for all of them together, too.
    let shared = clause.frame.group != super::frame::Group::Ask;
    let mut add = |template, a, b, c| {
        out.push(Feature::new(template, a, b, c));
        if shared
            && matches!(
                template,
                T::UnreadWord
                    | T::WordBefore
                    | T::WordAfter
                    | T::Voice
                    | T::PreviousWord
                    | T::NextWord
                    | T::Unread
                    | T::Previous
                    | T::Next
                    | T::Outside
                    | T::LeftAmount
            )
        {
            out.push(Feature::new(template, super::feature::ANY, b, c));
        }
    };
    add(T::Bias, frame, 0, 0);
    add(T::Trigger, frame, found.trigger.into(), 0);
    for (n, note) in made.notes.iter().enumerate() {
        add(T::Note, frame, *note as usize, 0);
        add(T::GroupNote, group, *note as usize, 0);
        for other in made.notes.iter().skip(n + 1) {
            let (a, b) = if note < other { (note, other) } else { (other, note) };
            add(T::Notes, group, *a as usize, *b as usize);
        }
    }
    let asks = made.statements.iter().any(|statement| matches!(statement, Statement::Clarify(_)));
    if asks {
        let first = made.notes.iter().find(|note| note.asks()).copied();
        add(T::Clarify, frame, first.map_or(0, |note| note as usize), 0);
    }
    // What stands in the clause.
    let mut unread = [0_usize; WordKind::ALL.len()];
    let mut left = 0;
    let mut repaired = 0;
    let mut own_voice = 0_u16;
    for (n, item) in clause.items().iter().enumerate() {
        let known = made.used.has(n);
        let voice = message.voices.get(clause.from + n).copied().unwrap_or_default();
        own_voice |= voice;
        if known && item.repaired {
            repaired += 1;
        }
        let small = matches!(item.kind, WordKind::Small | WordKind::Mark | WordKind::Harmless);
        if !known && !small {
            unread[item.kind as usize] += 1;
            if item.kind != WordKind::Voice {
                left += 1;
            }
            if item.word != WordId::UNKNOWN {
                add(T::UnreadWord, group, item.word.0 as usize, 0);
            }
        }
        if item.word != WordId::UNKNOWN && !clause.triggers(n) && item.values.is_empty() {
            add(T::Word, frame, item.word.0 as usize, 0);
            add(T::GroupWord, group, item.word.0 as usize, 0);
        }
    }
    for (kind, count) in unread.iter().enumerate().filter(|(_, count)| **count > 0) {
        add(T::Unread, group, kind, (*count).min(3));
    }
    add(T::FrameUnread, frame, left.min(3), 0);
    if repaired > 0 {
        add(T::Repaired, group, repaired.min(3), 0);
    }
    // Whose doing it is, and whether it is real.
    let form = form_of(message, &found.items);
    let subject = subject(message, clause, found);
    add(T::Form, group, form, subject);
    add(T::FrameForm, frame, form, 0);
    let sentence = message.sentences.get(clause.from).copied().unwrap_or_default();
    let of_sentence = |n: &usize| message.sentences.get(*n).copied() == Some(sentence);
    let word = |n: usize| message.text.items.get(n).filter(|item| item.word != WordId::UNKNOWN && is_context(item));
    for item in (clause.from.saturating_sub(6)..clause.from).rev().take_while(of_sentence).filter_map(word) {
        add(T::WordBefore, group, item.word.0 as usize, 0);
    }
    for item in (clause.to..message.text.items.len()).take(7).take_while(of_sentence).filter_map(word) {
        add(T::WordAfter, group, item.word.0 as usize, 0);
    }
    let (before, behind) = message.beside(clause);
    let outside = before.chatter + behind.chatter;
    for (place, bits) in [(0, own_voice), (1, before.voices), (2, behind.voices)] {
        for voice in (0..14).filter(|voice| bits & 1 << voice != 0) {
            add(T::Voice, group, place, voice);
            add(T::FrameVoice, frame, place, voice);
        }
    }
    let bucket = |n: usize| match n {
        0..=3 => n,
        4..=6 => 4,
        7..=12 => 5,
        _ => 6,
    };
    add(T::Outside, group, bucket(outside), 0);
    let inside = clause.items().iter().filter(|item| is_chatter(item)).count();
    add(T::Beyond, group, bucket(message.content.saturating_sub(inside)), 0);
    add(T::Size, group, bucket(clause.items().len()), 0);
    for (sort, count) in amounts(message, clause.from..clause.to, made.used) {
        add(T::LeftAmount, group, sort, count);
    }
    // Boundaries.
    add(T::Previous, group, beside(message, (cuts[from].end as usize).checked_sub(1)), 0);
    add(T::Next, group, beside(message, Some(cuts[to].start as usize)), 0);
    let beside_word = |at: Option<usize>| {
        at.and_then(|at| message.text.items.get(at))
            .filter(|item| item.word != WordId::UNKNOWN)
            .map(|item| item.word.0 as usize)
    };
    if let Some(word) = beside_word((cuts[from].end as usize).checked_sub(1)) {
        add(T::PreviousWord, group, word, 0);
    }
    if let Some(word) = beside_word(Some(cuts[to].start as usize)) {
        add(T::NextWord, group, word, 0);
    }
    add(T::Left, group, cuts[from].kind as usize, 0);
    add(T::Right, group, cuts[to].kind as usize, 0);
    if cuts[to].kind == CutKind::Question {
        add(T::Asked, frame, 0, 0);
    }
    let crossed = cuts[from + 1..to].iter().filter(|cut| matches!(cut.kind, CutKind::Stop | CutKind::Line)).count();
    if crossed > 0 {
        add(T::Crosses, group, crossed.min(2), 0);
    }
    let amount = made.notes.iter().any(|note| note.is_amount());
    let whole =
        usize::from(left == 0) + 2 * usize::from(amount) + 4 * usize::from(unread[WordKind::Voice as usize] == 0);
    add(T::Whole, group, whole, form);
    add(T::Several, group, made.statements.len().min(4), 0);
    if amount {
        let trigger = usize::from(found.low) - clause.from;
        let first = clause.items().iter().position(|item| !item.values.is_empty()).unwrap_or(0);
        add(T::AmountFirst, frame, usize::from(first < trigger), 0);
    }
    add(T::Spread, group, bucket(usize::from(found.high - found.low)), 0);
    for situation in &message.situation {
        add(T::Situation, frame, *situation as usize, 0);
        add(T::GroupSituation, group, *situation as usize, 0);
    }
}

/// Whether a clause plainly tells of something that the household did.
fn is_plain(message: &Message<'_>, clause: &Clause<'_>, found: &Found, made: &Made) -> bool {
    let told = matches!(form_of(message, &found.items), 1 | 2);
    let amount = made.notes.iter().any(|note| note.is_amount());
    // Own words for the household's people are no objection; everything else that is heard is.
    const OBJECTIONS: u16 = !0b1001;
    let left = (clause.from..clause.to).filter(|n| !made.used.has(n - clause.from));
    let heard = left.filter_map(|n| message.voices.get(n)).fold(message.beside(clause).0.voices, |all, one| all | one);
    let objection = heard & OBJECTIONS != 0;
    told && amount && !objection && matches!(subject(message, clause, found), 0 | 1 | 2)
}

/// Who did it: the last word for a person before the trigger.
fn subject(message: &Message<'_>, clause: &Clause<'_>, found: &Found) -> usize {
    let first = usize::from(found.low);
    let bits = |n: usize| message.voices.get(n).copied().unwrap_or_default();
    let sentence = message.sentences.get(first).copied();
    for n in (0..first).rev().take_while(|n| message.sentences.get(*n).copied() == sentence && first - n <= 5) {
        let voice = bits(n);
        let who = match voice {
            v if v & 1 != 0 => 1,
            v if v & 0b1000 != 0 => 2,
            v if v & 0b1_0100 != 0 => 3,
            v if v & 0b10 != 0 => 4,
            _ => 0,
        };
        if who != 0 {
            return who;
        }
        if let Some(item) = message.text.items.get(n)
            && item.capital
            && item.kind == WordKind::Strange
        {
            return 3;
        }
    }
    let _ = clause;
    0
}
