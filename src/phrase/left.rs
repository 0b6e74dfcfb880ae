//! What a message says beside the clause that a process may be looked up for: in it between marks, or outside of it.

use super::held::Veto;
use super::item::{Item, WordKind};
use super::lattice::Edge;
use super::readings::Read;
use super::score;
use super::value::Value;
use crate::quantity::Number;
use crate::vocabulary::Kind;
use std::ops::Range;

/// A run of words of no list that is no longer than this and has neither verb nor person may be an addition: `…,
/// venison`.
const NOUNS: usize = 3;

/// Between what numbers one without a unit may be a height in feet: from where times change (USDA AIB 539, 2015:
/// above 1,000 ft) to higher than anybody cans. Years are among them, and are asked about.
const LOWEST: u32 = 1_001;
const HIGHEST: u32 = 14_000;

impl Veto<'_> {
    /// What stands between marks inside of the clause and was not taken in: `filled 7 pints of juice, galangal, all
    /// done`.
    pub(super) fn apart(&self, stretch: Range<usize>, used: impl Fn(usize) -> bool) -> Option<Range<usize>> {
        let items: Vec<usize> = stretch.collect();
        let is_mark = |n: &usize| self.text.items.get(*n).is_some_and(|item| item.mark.is_some());
        let taken = |n: &usize| used(*n) && self.text.items.get(*n).is_some_and(Item::is_content);
        items.split(is_mark).filter(|part| !part.iter().any(taken)).find_map(|part| {
            let (first, last) = (part.first()?, part.last()?);
            self.left_alone(*first..*last + 1, true)
        })
    }

    /// What stands outside of the clause and belongs to no other: `…, chicken`, `… (with bacon)`,
    /// `… . It has beans in it`.
    pub(super) fn beside(&self, read: &Read<'_>, reading: &score::Reading, edge: &Edge) -> Option<Range<usize>> {
        let edges: Vec<&Edge> = reading.path.edges.iter().filter_map(|n| read.lattice.edges.get(*n as usize)).collect();
        let at = edges.iter().position(|other| std::ptr::eq(*other, edge))?;
        edges.iter().enumerate().filter(|(n, _)| *n != at).find_map(|(n, other)| {
            let start = read.start(other);
            let stretch = read.stretch(other);
            match read.frame(other) {
                None => self.left_alone(stretch, n.abs_diff(at) == 1),
                Some(_) => {
                    // What only asks has not taken its words in: `I thickened it`.
                    let asks = other.statements.iter().all(|said| said.kind() == Kind::Clarify);
                    let used = |n: usize| !asks && other.made.used.has(n - start);
                    let open: Vec<usize> = stretch.filter(|n| !used(*n) && self.is_left_risk(*n)).collect();
                    Some(*open.first()?..*open.last()? + 1)
                }
            }
        })
    }

    /// `up here at 5280`: a number that is too large for anything else beside a jar.
    fn is_like_a_height(&self, n: usize) -> bool {
        let large = |number: Number| number.as_count().is_some_and(|count| (LOWEST..=HIGHEST).contains(&count));
        let numbers = |item: &Item| {
            item.values.iter().any(|value| matches!(value, Value::Number(figure) if large(figure.number)))
        };
        let year = |item: &Item| item.values.iter().any(Value::is_day);
        self.text.items.get(n).is_some_and(|item| numbers(item) && !year(item))
    }

    /// Whether a word that no clause took in may change the food, the jar or the method.
    pub(super) fn is_left_risk(&self, n: usize) -> bool {
        // A height that no clause took is one that the time does not follow.
        if self.is_height(n) || self.is_like_a_height(n) || self.is_elsewhere(n) || self.is_not_as_directed(n) {
            return true;
        }
        if self.text.items.get(n).is_some_and(|item| self.is_not_cleaned(n, item)) {
            return true;
        }
        let is_as_tested = |item: &Item| self.is_directed(n) || self.is_absent(n, item) || self.is_named_crop(n, item);
        if self.text.items.get(n).is_some_and(is_as_tested) {
            return false;
        }
        let changes =
            |item: &Item| if self.is_own(n, item) { self.is_more_of_it(n, item) } else { self.is_risky(n, item) };
        self.text
            .items
            .get(n)
            .is_some_and(|item| self.is_another_jar(item) || self.is_picture_of_other_food(item) || changes(item))
    }

    /// In a stretch that no clause has: what is risky, and right beside the clause a bare noun of no list.
    fn left_alone(&self, stretch: Range<usize>, adjacent: bool) -> Option<Range<usize>> {
        let classes = self.classes();
        // `Sunday after service`: when it was says nothing of what is in the jar.
        let when = |n: &usize| self.text.items.get(*n).is_some_and(|item| item.is(classes.prep_time));
        let timed = stretch.clone().find(when).unwrap_or(stretch.end);
        let named = |n: &usize| *n < timed || self.is_left_risk(*n);
        let stretch = stretch.filter(named);
        let items: Vec<(usize, &Item)> = stretch.filter_map(|n| Some((n, self.text.items.get(n)?))).collect();
        let says = items.iter().any(|(_, item)| {
            matches!(item.kind, WordKind::Voice | WordKind::Deed) || item.is(classes.aux) || item.is(classes.subject)
        });
        let content: Vec<usize> = items
            .iter()
            .filter(|(n, item)| {
                item.is_content()
                    && !self.is_directed(*n)
                    && !self.is_picture(item)
                    && !self.is_where_from(*n, item)
                    && !self.is_absent(*n, item)
                    && !self.is_named_crop(*n, item)
                    && !self.is_as_the_tables_add(*n, item)
                    && !self.is_harmless(*n, item)
                    && !self.is_own(*n, item)
            })
            .map(|(n, _)| *n)
            .collect();
        let bare = |n: &usize| {
            self.text.items.get(*n).is_some_and(|item| {
                matches!(item.kind, WordKind::Ordinary | WordKind::Strange | WordKind::Alien | WordKind::Trade)
            })
        };
        // `There is galangal in it`
        let inside = || {
            items.iter().any(|(_, item)| item.is(classes.within))
                || items
                    .windows(2)
                    .any(|pair| matches!(pair, [(_, a), (_, b)] if a.is(classes.prep_in) && b.is(classes.pronoun)))
        };
        let added = || {
            let adds =
                |item: &Item| item.kind == WordKind::Deed && item.is(classes.deed_add) || item.is(classes.stirred);
            items.iter().any(|(_, item)| adds(item))
        };
        let put_in: Vec<usize> = if adjacent && says && (inside() || added()) {
            content.iter().copied().filter(bare).collect()
        } else {
            Vec::new()
        };
        // `I poached it`: something was done to it that no list knows.
        let done_to_it = || {
            items.windows(3).find_map(|three| match three {
                [(_, who), (n, done), (_, it)]
                    if who.is(classes.subject) && it.is(classes.pronoun) && bare(n) && !self.is_harmless(*n, done) =>
                {
                    Some(*n)
                }
                _ => None,
            })
        };
        // `They boiled for three hours`: what is said of it may matter.
        let of_it = items.iter().any(|(_, item)| item.is(classes.pronoun));
        let told: Vec<usize> = if adjacent && says && of_it {
            items.iter().map(|(n, _)| *n).filter(|n| self.is_relevant(*n)).collect()
        } else {
            Vec::new()
        };
        let noun = adjacent && !says && (1..=NOUNS).contains(&content.len()) && content.iter().all(bare);
        let risky = || items.iter().map(|(n, _)| *n).filter(|n| self.is_left_risk(*n)).collect();
        let found: Vec<usize> = match () {
            () if noun => content,
            () if !put_in.is_empty() => put_in,
            () if !told.is_empty() => told,
            () if adjacent && done_to_it().is_some() => done_to_it().into_iter().collect(),
            () => risky(),
        };
        Some(*found.first()?..found.last()? + 1)
    }
}
