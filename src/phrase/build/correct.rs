//! Corrections of what was said before: `make that 6.5 lb`, `no, 6 bags`, `14 lb not 12`, `entry 4 was 21 lb`, `that
//! was yesterday`.

use super::clause::{Clause, value_of};
use super::made::{Made, Note, Used};
use super::when::Moment;
use crate::phrase::frame::{Slots, Types};
use crate::phrase::item::{Item, WordKind};
use crate::phrase::lexicon::sense::{Container, Meaning};
use crate::phrase::value::Value;
use crate::quantity::Number;
use crate::statement::{Correct, Statement};
use crate::vocabulary::Supply;
use smallvec::SmallVec;
use std::ops::Range;

/// The correction that a clause makes.
pub(super) fn correct(clause: &Clause<'_>) -> Option<Made> {
    let mut correcting = Correcting::new(clause);
    (0..clause.len()).for_each(|n| correcting.item(n));
    correcting.done()
}

struct Correcting<'c, 'a> {
    clause: &'c Clause<'a>,
    used: Used,
    notes: SmallVec<[Note; 8]>,
    correct: Correct,
    moment: Moment,
    /// Where figures stand that were wrong: behind `not`.
    wrong: Range<usize>,
}

/// The stretch of a clause whose figures were wrong: `it was 5 bags, not 4`; in `not 4 but 5` what follows `but` is
/// right again.
fn wrong(clause: &Clause<'_>) -> Range<usize> {
    let classes = clause.classes();
    let count = clause.items().len();
    let things = [classes.crop, classes.variety, classes.product, classes.prep, classes.ripe];
    let others = [classes.supply, classes.canner, classes.store, classes.jar];
    let figures = |range: Range<usize>| {
        clause.any_in(range, |item| !item.values.is_empty() || item.is_any(&things) || item.is_any(&others))
    };
    let not = (0..count).rev().find(|n| clause.is(*n, classes.correct_not) && figures(*n + 1..count));
    let Some(not) = not else { return 0..0 };
    let ends = |n: &usize| clause.at(*n, |item| item.is(classes.but) || item.mark.is_some());
    match (not + 1..count).find(ends) {
        _ if figures(0..not) => not..count,
        Some(but) if figures(but..count) => not..but,
        _ => 0..0,
    }
}

impl<'c, 'a> Correcting<'c, 'a> {
    fn new(clause: &'c Clause<'a>) -> Self {
        let classes = clause.classes();
        let mut used = clause.used_by_trigger();
        let wrong = wrong(clause);
        let said = [classes.correct_not, classes.crop, classes.variety, classes.product, classes.jar];
        let said = |item: &Item| !item.is_content() || !item.values.is_empty() || item.is_any(&said);
        wrong.clone().filter(|n| clause.at(*n, said)).for_each(|n| used.add(n));
        let (notes, correct, moment) = (SmallVec::new(), Correct::default(), Moment::default());
        Self { clause, used, notes, correct, moment, wrong }
    }

    fn item(&mut self, n: usize) {
        let Some(item) = self.clause.item(n) else { return };
        if self.wrong.contains(&n) {
            self.correct.was = self.correct.was.or_else(|| item.values.iter().find_map(figure_of));
            return;
        }
        if let Some(entry) = self.entry(n) {
            self.correct.entry = Some(entry);
            return;
        }
        // The number behind `entry` is the entry's, and no figure of what it was.
        let classes = self.clause.classes();
        let numbered = |before: usize| self.clause.at(before, |item| item.is(classes.entry) && !item.is(classes.not));
        if self.correct.entry.is_some() && self.used.has(n) && n.checked_sub(1).is_some_and(numbered) {
            return;
        }
        let mut values = item.values.clone();
        values.sort_by_key(|value| !matches!(value, Value::Jars(_) | Value::Portions(_) | Value::OutOf(_)));
        if values.iter().any(|value| self.value(value)) {
            self.used.add(n);
            return;
        }
        let named = self.name(item);
        self.place(n, item);
        let place = self.clause.types(n).has(Types::Place);
        if place {
            self.correct.place = self.clause.said(n, n + 1);
        }
        if named || place {
            self.used.add(n);
        }
    }

    /// Takes the name of a thing.
    fn name(&mut self, item: &Item) -> bool {
        if self.take_product(item) {
            return true;
        }
        let classes = self.clause.classes();
        let correct = &mut self.correct;
        let named = [
            (classes.crop, correct.crop.is_none() && correct.product.is_none()),
            (classes.variety, correct.variety.is_none()),
            (classes.prep, true),
            (classes.supply, true),
            (classes.canner, true),
            (classes.store, true),
            (classes.ripe, correct.ripeness.is_none()),
        ];
        let Some((class, _)) = named.into_iter().find(|(class, free)| *free && item.is(*class)) else { return false };
        match item.meaning(class, self.clause.words()) {
            Some(Meaning::Crop(crop)) => correct.crop = Some(*crop),
            Some(Meaning::Variety(name, crop)) => {
                correct.variety = Some((*name).to_owned());
                correct.crop = correct.crop.or(*crop);
            }
            Some(Meaning::Prep(prep)) => correct.prep = Some(*prep),
            Some(Meaning::Supply(supply)) => correct.supply = Some(*supply),
            Some(Meaning::Canner(canner)) => correct.canner = Some(*canner),
            Some(Meaning::Store(stock)) => correct.from = Some(*stock),
            Some(Meaning::Ripe(ripe)) => correct.ripeness = Some(*ripe),
            _ => {}
        }
        true
    }

    /// `no they were from the pigpen`: a place that no list has.
    fn place(&mut self, n: usize, item: &Item) {
        let clause = self.clause;
        let classes = clause.classes();
        if !item.is(classes.prep_from) {
            return;
        }
        let at = clause.end_of(n + 1, clause.len(), |n| clause.is(n, classes.article));
        let named = |item: &Item| matches!(item.kind, WordKind::Ordinary | WordKind::Strange | WordKind::Alien);
        let end = clause.end_of(at, 3, |n| clause.at(n, named));
        if end > at {
            self.correct.place = clause.said(at, end);
            self.used.add_all(n..end);
        }
    }

    /// A product; a crop's own name is the crop, unless jars are spoken of.
    fn take_product(&mut self, item: &Item) -> bool {
        let classes = self.clause.classes();
        match item.meaning(classes.product, self.clause.words()) {
            Some(Meaning::Product(product)) if !item.is(classes.crop) || self.correct.jar.is_some() => {
                self.correct.product.get_or_insert_with(|| product.clone());
                true
            }
            _ => false,
        }
    }

    /// `entry 4`, `#4`, `4 was 21 lb`: the number of an entry.
    fn entry(&mut self, n: usize) -> Option<u32> {
        let clause = self.clause;
        let classes = clause.classes();
        let item = clause.item(n).filter(|_| self.correct.entry.is_none())?;
        let number = |n: usize| {
            clause.item(n)?.values.iter().find_map(|value| match value {
                Value::Number(figure) => figure.number.as_count(),
                Value::Entry(n) => Some(*n),
                _ => None,
            })
        };
        if let Some(entry) = value_of!(item, Value::Entry(entry) => *entry) {
            self.used.add(n);
            return Some(entry);
        }
        if item.is(classes.entry) && item.kind != WordKind::Small && !item.is(classes.not) {
            let entry = number(n + 1)?;
            self.used.add_all(n..n + 2);
            return Some(entry);
        }
        let first = clause.items().iter().position(|item| item.is_content() || !item.values.is_empty()) == Some(n);
        let was = clause.at(n + 1, |next| next.is_any(&[classes.aux, classes.correct]));
        let right = || {
            clause
                .any_in(n + 2..clause.items().len(), |item| item.values.iter().any(|value| figure_of(value).is_some()))
        };
        let entry = number(n).filter(|_| first && was && right())?;
        self.used.add(n);
        Some(entry)
    }

    fn value(&mut self, value: &Value) -> bool {
        let correct = &mut self.correct;
        match value {
            Value::Weight(weight) => {
                correct.mass = Some(weight.mass);
                self.notes.push(Note::Mass);
            }
            Value::Portions(portions) => {
                correct.bags = Some(portions.count);
                correct.each = portions.each;
                correct.mass = Some(portions.total);
                self.notes.push(Note::Portions);
            }
            Value::Jars(jars) => {
                if let Some(count) = jars.count.filter(|_| !jars.article) {
                    correct.jars = count.as_count();
                }
                correct.jar = jars.jar.or(correct.jar);
                self.notes.push(Note::Jars);
            }
            Value::OutOf(out) => {
                correct.jars = Some(out.jars);
                self.notes.push(Note::OutOf);
            }
            Value::Count(count) if count.container == Container::Bag => {
                correct.bags = count.count.as_count();
                self.notes.push(Note::Count);
            }
            Value::Height(height) => correct.length = Some(height.length),
            Value::Volume(volume, _) if correct.jars.is_none() => correct.volume = Some(*volume),
            Value::Duration(seconds) => correct.seconds = Some(*seconds),
            Value::Day(dated) => {
                self.moment.day = Some(*dated);
                self.notes.push(Note::Day);
            }
            Value::Clock(clock) => self.moment.clock = Some(*clock),
            Value::Number(figure) if !figure.article => {
                if correct.amount.is_some()
                    || correct.mass.is_some()
                    || correct.jars.is_some()
                    || correct.bags.is_some()
                {
                    return false;
                }
                correct.amount = Some(figure.number);
                self.notes.push(Note::Number);
            }
            _ => return false,
        }
        true
    }

    fn done(mut self) -> Option<Made> {
        if self.moment != Moment::default() {
            self.correct.on = self.moment.past(self.clause.scene.context).ok()?;
        }
        if let (Some(amount), Some(Supply::Lids | Supply::Bags | Supply::Jars)) =
            (self.correct.amount, self.correct.supply)
        {
            self.correct.count = amount.as_count();
            self.correct.amount = None;
        }
        let empty = Correct { was: None, entry: None, ..self.correct.clone() } == Correct::default();
        if empty || !self.clause.takes(Slots::Mass) {
            return None;
        }
        Some(Made::one(Statement::Correct(self.correct), self.used, self.notes))
    }
}

/// The figure of a value, in its own unit.
fn figure_of(value: &Value) -> Option<Number> {
    match value {
        Value::Number(figure) if !figure.article => Some(figure.number),
        Value::Weight(weight) => Some(weight.figure),
        Value::Count(count) => Some(count.count),
        Value::Jars(jars) => jars.count,
        Value::OutOf(out) => Some(Number::whole(out.jars.into())),
        Value::Portions(portions) => Some(Number::whole(portions.count.into())),
        _ => None,
    }
}
