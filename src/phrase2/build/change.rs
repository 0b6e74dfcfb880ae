//! Names, recipes, taught words, taking back and correcting.

use super::super::frame::Slots;
use super::super::item::WordKind;
use super::super::lexicon::sense::{Container, Meaning};
use super::super::value::Value;
use super::super::value::measure::of_scale;
use super::clause::Clause;
use super::fill::singular;
use super::made::{Made, Note, Used};
use super::when::Moment;
use crate::quantity::{Mass, Number};
use crate::statement::{Correct, Named, Recipe, Statement, Teach};
use crate::vocabulary::{Jar, Kind, Missing, Supply, Taught};
use smallvec::SmallVec;

fn made(used: Used, notes: SmallVec<[Note; 8]>, statement: Statement) -> Made {
    Made { statements: [statement].into_iter().collect(), used, notes, ..Made::default() }
}

/// `call the sauce big red`, `rename batch 2 to hot stuff`, `this batch is called hot mama`.
pub(super) fn named(clause: &Clause<'_>) -> Option<Made> {
    let classes = clause.classes();
    let words = clause.scene.text.words;
    let mut used = clause.used_by_trigger();
    let household = clause.scene.household;
    let count = clause.items().len();
    let verb = clause.position(classes.deed_name)?;
    let mut batch = None;
    let mut name_from = None;
    let mut n = 0;
    while n < count {
        let Some(item) = clause.item(n) else { break };
        if let (None, Some(own)) = (&batch, item.own(classes.household_batch)) {
            batch = household.batch(own).map(str::to_owned);
            used.add(n);
            name_from = Some(n + 1);
        } else if batch.is_none() && item.is(classes.batch) {
            used.add(n);
            let number = clause.item(n + 1).and_then(|next| {
                next.values.iter().find_map(|value| match value {
                    Value::Number(figure) => figure.number.as_count(),
                    _ => None,
                })
            });
            if let Some(number) = number {
                used.add(n + 1);
                batch = Some(number.to_string());
                n += 1;
            }
            name_from = Some(n + 1);
        } else if let (None, Some(Meaning::Product(product))) = (&batch, item.meaning(classes.product, words))
            && name_from.is_none()
        {
            batch = Some(household.batch_named(product.as_str()).unwrap_or_else(|| product.as_str().to_owned()));
            used.add(n);
            name_from = Some(n + 1);
        } else if name_from.is_none() && item.is(classes.pronoun) && n > verb {
            name_from = Some(n + 1);
        }
        n += 1;
        if batch.is_some() && n > verb {
            break;
        }
    }
    let mut from = name_from.unwrap_or(0).max(verb + 1);
    while clause.item(from).is_some_and(|item| {
        item.mark.is_some()
            || item.is(classes.prep_to)
            || item.is(classes.article)
            || item.is(classes.aux)
            || item.is(classes.batch)
    }) {
        from += 1;
    }
    let mut to = from;
    while clause.item(to).is_some_and(|item| item.mark.is_none() && !(item.is(classes.filler) && to > from))
        && to - from < 6
    {
        to += 1;
    }
    let name = clause.scene.text.said(clause.from + from, clause.from + to)?;
    (from..to).for_each(|n| used.add(n));
    Some(made(used, [Note::Name].into_iter().collect(), Statement::Named(Named { name, batch })))
}

/// `recipe fire salsa takes 6 lb makes 4 pints`.
pub(super) fn recipe(clause: &Clause<'_>) -> Option<Made> {
    let classes = clause.classes();
    let mut used = clause.used_by_trigger();
    let mut mass: Option<Mass> = None;
    let mut jars = None;
    let mut jar: Option<Jar> = None;
    let mut first_value = None;
    for (n, item) in clause.items().iter().enumerate() {
        for value in &item.values {
            match value {
                Value::Weight(weight) if mass.is_none() => {
                    mass = Some(weight.mass);
                    used.add(n);
                    first_value = first_value.or(Some(n));
                }
                Value::Jars(said)
                    if said.count.is_some()
                        && (jars.is_none()
                            || clause
                                .items()
                                .get(..n)
                                .is_some_and(|before| before.iter().any(|item| item.is(classes.oops)))) =>
                {
                    jars = said.count.and_then(Number::as_count);
                    jar = said.jar;
                    used.add(n);
                    first_value = first_value.or(Some(n));
                }
                _ => {}
            }
        }
    }
    let end = clause
        .items()
        .iter()
        .position(|item| item.is(classes.recipe_takes) && !item.is(classes.prep_for) || item.is(classes.recipe_makes))
        .into_iter()
        .chain(first_value)
        .min()?;
    let mut from = clause.items().iter().position(|item| item.is(classes.recipe)).map_or(0, |n| n + 1);
    while clause.item(from).is_some_and(|item| {
        item.mark.is_some() || item.is(classes.article) || item.is(classes.prep_for) || item.is(classes.deed_name)
    }) {
        from += 1;
    }
    let mut to = end;
    let ends = |item: &super::super::item::Item| {
        item.kind == WordKind::Small
            && (item.is(classes.preposition)
                || item.is(classes.aux)
                || item.is(classes.and)
                || item.is(classes.article))
    };
    while to > from && clause.item(to - 1).is_some_and(|item| item.mark.is_some() || ends(item)) {
        to -= 1;
    }
    let behind = clause.scene.text.said(clause.from + from, clause.from + to);
    // `my bruschetta recipe needs 5 lb`
    let before = || {
        let word = from.checked_sub(1)?;
        let first = (0..word).find(|n| {
            clause.item(*n).is_some_and(|item| item.is_content() && !item.is(classes.own) && !item.is(classes.filler))
        })?;
        clause.scene.text.said(clause.from + first, clause.from + word)
    };
    let name = behind.or_else(before)?;
    (0..end).for_each(|n| used.add(n));
    (end..clause.items().len())
        .filter(|n| {
            clause.item(*n).is_some_and(|item| {
                item.is(classes.recipe_takes) || item.is(classes.recipe_makes) || item.is(classes.crop)
            })
        })
        .for_each(|n| used.add(n));
    if mass.is_none() && jars.is_none() {
        return None;
    }
    // `takes 6, makes 4 pints`: six of what?
    let bare = (end..clause.items().len()).find_map(|n| {
        clause.item(n)?.values.iter().find_map(|value| match value {
            Value::Number(figure)
                if clause.item(n.wrapping_sub(1)).is_some_and(|item| item.is(classes.recipe_takes)) =>
            {
                Some((n, figure.number))
            }
            _ => None,
        })
    });
    if let (None, Some((n, number))) = (mass, bare) {
        used.add(n);
        let statement = super::record::clarify(
            Kind::Recipe,
            Missing::Unit,
            Some(number),
            Some(Statement::Recipe(Recipe { name, mass, jars, jar })),
        );
        return Some(made(used, [Note::Name, Note::AskUnit].into_iter().collect(), statement));
    }
    Some(made(used, [Note::Name].into_iter().collect(), Statement::Recipe(Recipe { name, mass, jars, jar })))
}

/// `undo`.
pub(super) fn undo(clause: &Clause<'_>) -> Option<Made> {
    // A figure beside it is about something else: `scratch that, 5 bags`.
    let figure = clause.items().iter().any(|item| {
        item.values
            .iter()
            .any(|value| matches!(value, Value::Weight(_) | Value::Count(_) | Value::Jars(_) | Value::Portions(_)))
    });
    (!figure).then(|| made(clause.used_by_trigger(), SmallVec::new(), Statement::Undo))
}

/// `maters means tomatoes`, `the long bed is a place`.
pub(super) fn teach(clause: &Clause<'_>) -> Option<Made> {
    let classes = clause.classes();
    let words = clause.scene.text.words;
    let mut used = clause.used_by_trigger();
    let count = clause.items().len();
    let verb = (1..count)
        .find(|n| clause.item(*n).is_some_and(|item| item.is(classes.teach_means) || item.is(classes.teach_is)))?;
    let mut from =
        (0..verb).rev().find(|n| clause.item(*n).is_some_and(|item| item.is(classes.teach_lead))).unwrap_or(0);
    let leads = |n: usize| {
        clause.item(n).is_some_and(|item| {
            let ends = clause.item(n + 1).is_some_and(|next| next.mark.is_some());
            item.mark.is_some()
                || item.is(classes.article)
                || item.is(classes.teach_lead)
                || item.is(classes.filler) && ends
        })
    };
    while from < verb && leads(from) {
        from += 1;
    }
    let word = clause.scene.text.said(clause.from + from, clause.from + verb)?;
    if word.split(' ').count() > 4 {
        return None;
    }
    let behind = (verb..count).find_map(|n| {
        let item = clause.item(n)?;
        let meaning = |class, taught: fn(&Meaning) -> Option<(Taught, Option<String>)>| {
            let found = item.meaning(class, words).and_then(taught)?;
            Some((n, found))
        };
        if n > verb {
            if let Some(found) = meaning(classes.crop, |m| match m {
                Meaning::Crop(crop) => Some((Taught::Crop, Some(crop.as_str().to_owned()))),
                _ => None,
            }) {
                return Some(found);
            }
            if let Some(found) = meaning(classes.variety, |m| match m {
                Meaning::Variety(name, _) => Some((Taught::Variety, Some((*name).to_owned()))),
                _ => None,
            }) {
                return Some(found);
            }
            if let Some(found) = meaning(classes.product, |m| match m {
                Meaning::Product(product) => Some((Taught::Product, Some(product.as_str().to_owned()))),
                _ => None,
            }) {
                return Some(found);
            }
            if let Some(found) = meaning(classes.store, |m| match m {
                Meaning::Store(stock) => Some((Taught::Store, Some(stock.as_str().to_owned()))),
                _ => None,
            }) {
                return Some(found);
            }
            if let Some(found) = meaning(classes.supply, |m| match m {
                Meaning::Supply(supply) => Some((Taught::Supply, Some(supply.as_str().to_owned()))),
                _ => None,
            }) {
                return Some(found);
            }
        }
        if item.is(classes.teach_place) || item.values.iter().any(|value| matches!(value, Value::Place)) && n > verb {
            return Some((n, (Taught::Place, None)));
        }
        if item.is(classes.teach_variety) && n > verb {
            return Some((n, (Taught::Variety, None)));
        }
        if item.is(classes.teach_crop) && n > verb {
            return Some((n, (Taught::Crop, None)));
        }
        None
    });
    // `toons means saskatoons`: of a word that no list has the program learns that it grows.
    let unknown = || {
        let at = (verb + 1..count).find(|n| {
            clause.item(*n).is_some_and(|item| matches!(item.kind, WordKind::Ordinary | WordKind::Strange))
        })?;
        let means = clause.item(verb).is_some_and(|item| item.is(classes.teach_means));
        let name = clause.scene.text.said(clause.from + at, clause.from + at + 1).filter(|_| means)?;
        Some((at, (Taught::Crop, Some(singular(&name)))))
    };
    let (at, (means, name)) = behind.or_else(unknown)?;
    (from..verb).for_each(|n| used.add(n));
    used.add(at);
    let name = name.or_else(|| (means != Taught::Place).then(|| singular(&word)));
    Some(made(used, SmallVec::new(), Statement::Teach(Teach { word, means, name })))
}

/// `make that 6.5 lb`, `no, 6 bags`, `14 lb not 12`, `entry 4 was 21 lb`, `that was yesterday`.
pub(super) fn correct(clause: &Clause<'_>, out: &mut Vec<Made>) {
    let mut correcting = Correcting::new(clause);
    correcting.read();
    out.extend(correcting.done());
}

struct Correcting<'c, 'a> {
    clause: &'c Clause<'a>,
    used: Used,
    notes: SmallVec<[Note; 8]>,
    correct: Correct,
    moment: Moment,
    /// Where figures begin that were wrong: behind `not`.
    wrong_from: Option<usize>,
    wrong_to: usize,
}

impl<'c, 'a> Correcting<'c, 'a> {
    fn new(clause: &'c Clause<'a>) -> Self {
        let classes = clause.classes();
        let count = clause.items().len();
        let figures = |from: usize, to: usize| {
            let named = [
                classes.crop,
                classes.variety,
                classes.product,
                classes.prep,
                classes.ripe,
                classes.supply,
                classes.canner,
                classes.store,
                classes.jar,
            ];
            (from..to).any(|n| {
                clause
                    .item(n)
                    .is_some_and(|item| !item.values.is_empty() || named.into_iter().any(|class| item.is(class)))
            })
        };
        let not = (0..count)
            .rev()
            .find(|n| clause.item(*n).is_some_and(|item| item.is(classes.correct_not)) && figures(*n + 1, count));
        // `it was 5 bags, not 4`; `not 4 but 5`: what follows `but` is right again.
        let (wrong_from, wrong_to) = match not {
            Some(at) => {
                let but = (at + 1..count)
                    .find(|n| clause.item(*n).is_some_and(|item| item.is(classes.but) || item.mark.is_some()));
                match but {
                    Some(but) if !figures(0, at) && figures(but, count) => (Some(at), but),
                    _ if figures(0, at) => (Some(at), count),
                    _ => (None, count),
                }
            }
            None => (None, count),
        };
        let mut used = clause.used_by_trigger();
        if let Some(at) = wrong_from {
            (at..wrong_to)
                .filter(|n| {
                    clause.item(*n).is_some_and(|item| {
                        !item.is_content()
                            || !item.values.is_empty()
                            || item.is(classes.correct_not)
                            || item.is(classes.crop)
                            || item.is(classes.variety)
                            || item.is(classes.product)
                            || item.is(classes.jar)
                    })
                })
                .for_each(|n| used.add(n));
        }
        Self {
            clause,
            used,
            notes: SmallVec::new(),
            correct: Correct::default(),
            moment: Moment::default(),
            wrong_from,
            wrong_to,
        }
    }

    fn is_wrong(&self, n: usize) -> bool {
        self.wrong_from.is_some_and(|from| n >= from && n < self.wrong_to)
    }

    fn read(&mut self) {
        for n in 0..self.clause.items().len().min(128) {
            self.item(n);
        }
    }

    fn item(&mut self, n: usize) {
        let Some(item) = self.clause.item(n) else { return };
        let classes = self.clause.classes();
        if self.is_wrong(n) {
            if self.correct.was.is_none() {
                self.correct.was = item.values.iter().find_map(figure_of);
            }
            return;
        }
        if let Some(entry) = self.entry(n) {
            self.correct.entry = Some(entry);
            return;
        }
        let mut values = item.values.clone();
        values.sort_by_key(|value| !matches!(value, Value::Jars(_) | Value::Portions(_) | Value::OutOf(_)));
        let found = values.iter().any(|value| self.value(value));
        if found {
            self.used.add(n);
            return;
        }
        let words = self.clause.scene.text.words;
        let mut took = true;
        match () {
            () if self.take_product(item) => {}
            () if item.is(classes.crop) && self.correct.crop.is_none() && self.correct.product.is_none() => {
                if let Some(Meaning::Crop(crop)) = item.meaning(classes.crop, words) {
                    self.correct.crop = Some(*crop);
                }
            }
            () if item.is(classes.variety) && self.correct.variety.is_none() => {
                if let Some(Meaning::Variety(name, crop)) = item.meaning(classes.variety, words) {
                    self.correct.variety = Some((*name).to_owned());
                    self.correct.crop = self.correct.crop.or(*crop);
                }
            }
            () if item.is(classes.prep) => {
                if let Some(Meaning::Prep(prep)) = item.meaning(classes.prep, words) {
                    self.correct.prep = Some(*prep);
                }
            }
            () if item.is(classes.supply) => {
                if let Some(Meaning::Supply(supply)) = item.meaning(classes.supply, words) {
                    self.correct.supply = Some(*supply);
                }
            }
            () if item.is(classes.canner) => {
                if let Some(Meaning::Canner(canner)) = item.meaning(classes.canner, words) {
                    self.correct.canner = Some(*canner);
                }
            }
            () if item.is(classes.store) => {
                if let Some(Meaning::Store(stock)) = item.meaning(classes.store, words) {
                    self.correct.from = Some(*stock);
                }
            }
            () if item.is(classes.ripe) && self.correct.ripeness.is_none() => {
                if let Some(Meaning::Ripe(ripe)) = item.meaning(classes.ripe, words) {
                    self.correct.ripeness = Some(*ripe);
                }
            }
            () => took = false,
        }
        if item.is(classes.prep_from) && self.correct.place.is_none() && self.correct.from.is_none() {
            let mut at = n + 1;
            while self.clause.item(at).is_some_and(|item| item.is(classes.article)) {
                at += 1;
            }
            let mut end = at;
            while end - at < 3
                && self
                    .clause
                    .item(end)
                    .is_some_and(|item| matches!(item.kind, WordKind::Ordinary | WordKind::Strange | WordKind::Alien))
            {
                end += 1;
            }
            if end > at {
                self.correct.place = self.clause.scene.text.said(self.clause.from + at, self.clause.from + end);
                (n..end).for_each(|n| self.used.add(n));
            }
        }
        if item.values.iter().any(|value| matches!(value, Value::Place)) && self.correct.place.is_none() {
            self.correct.place = self.clause.scene.text.said(self.clause.from + n, self.clause.from + n + 1);
            took = true;
        }
        if took {
            self.used.add(n);
        }
    }

    fn take_product(&mut self, item: &super::super::item::Item) -> bool {
        let classes = self.clause.classes();
        let Some(Meaning::Product(product)) = item.meaning(classes.product, self.clause.scene.text.words) else {
            return false;
        };
        // A crop's own name is the crop, unless jars are spoken of.
        if item.is(classes.crop) && self.correct.jar.is_none() {
            return false;
        }
        if self.correct.product.is_none() {
            self.correct.product = Some(product.clone());
        }
        true
    }

    /// `entry 4`, `#4`, `4 was 21 lb`: the number of an entry.
    fn entry(&mut self, n: usize) -> Option<u32> {
        let item = self.clause.item(n)?;
        let classes = self.clause.classes();
        if self.correct.entry.is_some() {
            return None;
        }
        let number = |n: usize| {
            self.clause.item(n)?.values.iter().find_map(|value| match value {
                Value::Number(figure) => figure.number.as_count(),
                Value::Entry(n) => Some(*n),
                _ => None,
            })
        };
        if let Some(Value::Entry(entry)) = item.values.iter().find(|value| matches!(value, Value::Entry(_))) {
            self.used.add(n);
            return Some(*entry);
        }
        if item.is(classes.entry) && item.kind != WordKind::Small && !item.is(classes.not) {
            let entry = number(n + 1)?;
            self.used.add(n);
            self.used.add(n + 1);
            return Some(entry);
        }
        let first = self.clause.items().iter().position(|item| item.is_content() || !item.values.is_empty()) == Some(n);
        let was = self.clause.item(n + 1).is_some_and(|next| next.is(classes.aux) || next.is(classes.correct));
        let right = (n + 2..self.clause.items().len()).any(|n| {
            self.clause.item(n).is_some_and(|item| item.values.iter().any(|value| figure_of(value).is_some()))
        });
        if first && was && right {
            let entry = number(n)?;
            self.used.add(n);
            return Some(entry);
        }
        None
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
            Value::Temperature(n, celsius) => {
                let _ = of_scale(*n, celsius.unwrap_or(false));
                return false;
            }
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
        Some(made(self.used, self.notes, Statement::Correct(self.correct)))
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
