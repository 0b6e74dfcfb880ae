//! All readings of a message with how likely each is, which of them is chosen, and what it leaves unaccounted.

use super::context::Context;
use super::directions::said;
use super::feature::{Situation, VOICES};
use super::frame::{Frame, Group};
use super::household::Household;
use super::item::{Item, Text, WordKind};
use super::language::Language;
use super::lattice::{Edge, Lattice, lattice};
use super::lexicon::sense::Class;
use super::score::{self, Threshold};
use super::tested::Tested;
use super::value::Value;
use crate::statement::Statement;
use crate::vocabulary::Subject;

/// While a batch is open, words about its heat, acid and seals are asked about from this probability on (our own
/// choice: one time in eight is worth the question).
const ASKED_WHILE_OPEN: f32 = 0.12;
/// A deed of the household's own with an amount, and nothing said against it, is proposed from this probability on (our
/// own choice).
const PLAIN: f32 = 0.12;

/// A message read into all its readings.
pub(super) struct Read<'a> {
    pub(super) language: &'a Language,
    pub(super) text: &'a Text<'a>,
    pub(super) lattice: Lattice,
    pub(super) readings: Vec<score::Reading>,
    pub(super) addressed: bool,
}

/// What is done with the likeliest reading that says something.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Outcome {
    /// It counts.
    Act,
    /// It is put to the household.
    Propose,
    /// It is passed over.
    Silent,
}

impl<'a> Read<'a> {
    /// Reads a text whose items are known.
    pub(super) fn new(
        language: &'a Language,
        text: &'a Text<'a>,
        household: &Household,
        context: &Context<'_>,
    ) -> Self {
        let addressed = addressed(text);
        let situation = situation(context, addressed);
        let mut lattice = lattice(text, &language.frames, household, context, &situation);
        language.weights.weigh(&mut lattice);
        let readings = score::readings(&lattice, &language.frames, &language.weights);
        Self { language, text, lattice, readings, addressed }
    }

    /// The edges of a reading.
    pub(super) fn edges<'b>(&'b self, reading: &'b score::Reading) -> impl Iterator<Item = &'b Edge> {
        reading.path.edges.iter().filter_map(|edge| self.lattice.edges.get(*edge as usize))
    }

    /// The frame of an edge.
    pub(super) fn frame(&self, edge: &Edge) -> Option<&'a Frame> {
        self.language.frames.get(edge.frame)
    }

    fn says(&self, reading: &score::Reading) -> bool {
        score::statements(&self.lattice, &reading.path).next().is_some()
    }

    /// The likeliest reading that says something, and what is done with it.
    pub(super) fn chosen(&self, context: &Context<'_>) -> Option<(&score::Reading, Outcome)> {
        let said = self.readings.iter().find(|reading| self.says(reading))?;
        let silent: f32 =
            self.readings.iter().filter(|reading| !self.says(reading)).map(|reading| reading.probability).sum();
        let threshold = self.threshold(said);
        let says = 1.0 - silent;
        let p = said.probability;
        let asks = self
            .edges(said)
            .flat_map(|edge| &edge.statements)
            .all(|statement| matches!(statement, Statement::Ask(_) | Statement::Clarify(_)));
        if !(says >= threshold.says && p >= threshold.this * says)
            && let Some(shared) = self.shared(says)
        {
            return Some((shared, Outcome::Act));
        }
        let outcome = match () {
            () if says >= threshold.says && p >= threshold.this * says => Outcome::Act,
            () if p >= threshold.propose => Outcome::Propose,
            // A question is answered or not: it is never proposed.
            () if asks => Outcome::Silent,
            () if p >= PLAIN && self.edges(said).filter(|edge| edge.frame.is_some()).all(|edge| edge.plain) => {
                Outcome::Propose
            }
            () if p >= ASKED_WHILE_OPEN && self.is_of_open_batch(said, context) => Outcome::Propose,
            () => Outcome::Silent,
        };
        Some((said, outcome))
    }

    /// A start, or a question about a process, that stands in so many readings that it is sure, whatever else the
    /// message says. Nothing is lost with the rest: acid that was told beside it is asked for when the jars are filled.
    fn shared(&self, says: f32) -> Option<&score::Reading> {
        let all: Vec<(&score::Reading, Vec<&Statement>)> = self
            .readings
            .iter()
            .map(|reading| (reading, score::statements(&self.lattice, &reading.path).collect()))
            .collect();
        let sure = all.iter().filter(|(reading, made)| {
            let has = |other: &[&Statement]| made.iter().all(|said| other.contains(said));
            let p: f32 = all.iter().filter(|(_, other)| has(other)).map(|(other, _)| other.probability).sum();
            let threshold = self.threshold(reading);
            let of_process = |said: &&Statement| match said {
                Statement::Ask(ask) => ask.about == Subject::Process,
                said => matches!(said, Statement::Began(_)),
            };
            !made.is_empty() && made.iter().all(of_process) && says >= threshold.says && p >= threshold.this * says
        });
        sure.max_by_key(|(_, made)| made.len()).map(|(reading, _)| *reading)
    }

    /// The thresholds that count: of several groups those of an entry, of a question back its own.
    fn threshold(&self, reading: &score::Reading) -> Threshold {
        let back =
            score::statements(&self.lattice, &reading.path).all(|statement| matches!(statement, Statement::Clarify(_)));
        if back {
            return self.language.weights.clarify();
        }
        let groups = || self.edges(reading).filter_map(|edge| self.frame(edge)).map(|frame| frame.group);
        let entry = groups().find(|group| *group != Group::Ask).or_else(|| groups().next());
        self.language.weights.threshold(entry.unwrap_or(Group::Ask))
    }

    fn is_of_open_batch(&self, reading: &score::Reading, context: &Context<'_>) -> bool {
        let groups = self.edges(reading).filter_map(|edge| self.frame(edge)).map(|frame| frame.group);
        !context.lexicon.batches.is_empty()
            && groups.into_iter().any(|group| matches!(group, Group::Batch | Group::Seal))
    }

    /// Which items of the message the clauses of a reading account for.
    fn accounted(&self, reading: &score::Reading) -> Vec<bool> {
        let mut known = vec![false; self.text.items.len()];
        for edge in self.edges(reading).filter(|edge| edge.frame.is_some()) {
            for n in self.stretch(edge) {
                if let Some(place) = known.get_mut(n) {
                    *place = edge.made.used.has(n - self.start(edge));
                }
            }
        }
        known
    }

    /// Where an edge begins.
    pub(super) fn start(&self, edge: &Edge) -> usize {
        self.lattice.cuts.get(usize::from(edge.from)).map_or(0, |cut| cut.start as usize)
    }

    /// The items between the boundaries of an edge.
    pub(super) fn stretch(&self, edge: &Edge) -> std::ops::Range<usize> {
        let end = self.lattice.cuts.get(usize::from(edge.to)).map_or(0, |cut| cut.end as usize);
        let start = self.start(edge);
        start..end.max(start)
    }

    /// Which items are understood, though no clause has taken them in: what the directions of a product say too, and
    /// the words of a question in a question.
    fn understood(&self, reading: &score::Reading, known: &mut [bool]) {
        for edge in self.edges(reading) {
            let Some(frame) = self.frame(edge).filter(|frame| frame.accounts_for_all) else { continue };
            let tested = Tested::of(&edge.statements);
            let directed = said(self.text, &tested.infos, &tested.jars);
            let asks = |item: &Item| frame.group == Group::Ask && item.is(self.text.words.classes.ask);
            for (n, (item, place)) in self.text.items.iter().zip(known.iter_mut()).enumerate() {
                *place |= asks(item) || directed.get(n).is_some_and(Option::is_some);
            }
        }
    }

    /// The words that were left over beside statements, run by run.
    pub(super) fn unread(&self, reading: &score::Reading) -> String {
        let mut known = self.accounted(reading);
        self.understood(reading, &mut known);
        let is_left = |n: usize| {
            let item = self.text.items.get(n);
            !known.get(n).copied().unwrap_or(true) && item.is_some_and(|item| item.mark.is_none())
        };
        // A word of voice tells no one anything: `am I` of `how far am I from a load`. A `not` does.
        let not = self.text.words.classes.not;
        let tells = |item: &Item| item.is_content() && (item.kind != WordKind::Voice || item.is(not));
        let counts = |n: usize| self.text.items.get(n).is_some_and(tells);
        let mut runs: Vec<&str> = Vec::new();
        let mut n = 0;
        while n < known.len() {
            let mut end = n;
            while end < known.len() && is_left(end) {
                end += 1;
            }
            if (n..end).any(counts) {
                let (from, to) = self.text.span(n, end);
                runs.extend(self.text.text.get(from as usize..to as usize));
            }
            n = end.max(n) + 1;
        }
        runs.join(BETWEEN)
    }

    /// Whether an amount stands in the message that no statement holds, or a canner beside a setting.
    pub(super) fn leaves_figure(&self, reading: &score::Reading) -> bool {
        let known = self.accounted(reading);
        let left = |n: usize| !known.get(n).copied().unwrap_or(true);
        let sets = self.edges(reading).filter_map(|edge| self.frame(edge)).any(|frame| frame.group == Group::Set);
        let canner = |item: &Item| sets && item.is(self.text.words.classes.canner);
        let figure = |item: &Item| item.values.iter().any(Value::is_amount) || canner(item);
        self.text.items.iter().enumerate().any(|(n, item)| left(n) && figure(item))
    }

    /// Why nothing was made of the message, for `explain`.
    pub(super) fn voice(&self, edge: &Edge) -> Vec<&'static str> {
        let items = self.stretch(edge).filter_map(|n| self.text.items.get(n));
        let classes = &self.language.words.classes;
        let all = [classes.not, classes.modal, classes.want, classes.if_, classes.hearsay, classes.memory];
        let found = |class: Class| items.clone().any(|item| item.is(class));
        all.into_iter().zip(VOICES.iter().skip(5)).filter(|(class, _)| found(*class)).map(|(_, voice)| *voice).collect()
    }
}

/// What stands between runs of words that were left over.
const BETWEEN: &str = " … ";

/// Whether the assistant was called by its name first, greetings apart.
fn addressed(text: &Text<'_>) -> bool {
    let classes = &text.words.classes;
    let called = |item: &Item| item.is(classes.household_name) || item.is(classes.bot);
    let at = text.items.iter().position(called);
    at.is_some_and(|at| text.items.iter().take(at).all(|item| matches!(item.kind, WordKind::Small | WordKind::Mark)))
}

/// What is known of the household, for the score.
pub(super) fn situation(context: &Context<'_>, addressed: bool) -> Vec<Situation> {
    let lexicon = context.lexicon;
    let mut situation = vec![if lexicon.batches.is_empty() { Situation::NoBatch } else { Situation::Batch }];
    let known = [
        (lexicon.unsealed > 0, Situation::Unsealed),
        (lexicon.timer.is_some_and(|timer| timer > context.now), Situation::Timer),
        (!lexicon.planned.is_empty(), Situation::Planned),
        (addressed, Situation::Addressed),
        (lexicon.metric, Situation::Metric),
    ];
    situation.extend(known.into_iter().filter(|(holds, _)| *holds).map(|(_, situation)| situation));
    situation
}
