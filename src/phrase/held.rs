//! The veto of what was not understood. A process time, a pressure, a dose of acid and a place on the shelf hold only
//! for the food, the jar and the method that were tested: where a word of the message may change one of them and was
//! not taken in, nothing is made of it, and the word is asked about.
//!
//! - In its own clause a start or a question about a process must account for every word: as the product, its own crop,
//!   the jar, the canner, the pack, the height, a time, an amount, or a word that a list calls harmless. Jars that are
//!   counted may have ordinary words beside them.
//! - A food, a form of it, a jar or a way to heat is never passed over, wherever in the message it stands, unless
//!   another clause accounts for it.
//! - That a word was taken in is not enough: `mashed` is a way to cut fruit, but the tables know no mashed carrots.
//!   Only what the table's own name of the product says of it (`halved or sliced`) leaves it the same.

use super::context::{Context, LONGEST};
use super::directions::{Stretch, said, told_of};
use super::frame::{Frame, Group};
use super::household::Household;
use super::item::{Item, Text, WordKind, items};
use super::language::language;
use super::lattice::Edge;
use super::lex::Mark;
use super::lexicon::ordinary;
use super::lexicon::sense::{Classes, Meaning};
use super::lexicon::{is_hyphen, letters_of};
use super::readings::Read;
use super::score;
use super::tested::Tested;
use super::value::Value;
use crate::processes::{Category, ProductInfo, Resolved, resolve};
use crate::statement::{Clarify, Statement};
use crate::vocabulary::{Crop, Jar, Kind, Missing, Product, Subject};
use std::ops::Range;

/// Why a clause is held back.
pub(super) struct Held {
    /// The words that were not understood.
    pub(super) word: String,
    /// What they are about, where that is not what the clause is about.
    pub(super) about: Option<Kind>,
    /// Whether they may have to do with no jar at all: no food, form, jar or way to heat is among them, and no figure.
    pub(super) unknown: bool,
}

/// The words over which a clause is held back; `None` where it may count.
pub(super) fn held(read: &Read<'_>, reading: &score::Reading, edge: &Edge, frame: &Frame) -> Option<Held> {
    let shelf = matches!(frame.kind, Kind::PutUp | Kind::Filled);
    if !(frame.accounts_for_all || shelf) {
        return None;
    }
    let tested = Tested::of(&edge.statements);
    let veto = Veto::new(read.text, tested, frame.accounts_for_all, frame.group);
    let start = read.start(edge);
    let used = |n: usize| edge.made.used.has(n - start);
    // A batch has no height of its own: it is timed for the one that is set.
    let height = read.stretch(edge).find(|n| frame.kind == Kind::Began && veto.is_height(*n));
    if let Some(n) = height {
        return words(read.text, n, n + 1).map(|word| Held { word, about: Some(Kind::Set), unknown: false });
    }
    let sizes =
        frame.about == Some(Subject::Acid) || shelf && veto.tested.jars.iter().any(|jar| *jar != Jar::HalfGallon);
    let may_change = |n: &usize| veto.may_change(*n, used(*n)) || sizes && veto.is_too_large(*n);
    let beside = veto.told_beside(read.stretch(edge), used);
    let open: Vec<usize> = read.stretch(edge).filter(|n| !beside.contains(n)).filter(may_change).collect();
    let found = match (open.first(), open.last()) {
        (Some(first), Some(last)) => Some(*first..*last + 1),
        // What stands on other grounds than food does not depend on food.
        _ if frame.group == Group::Set => None,
        _ => veto.apart(read.stretch(edge), used).or_else(|| veto.beside(read, reading, edge)),
    }?;
    let word = words(read.text, found.start, found.end)?;
    Some(Held { word, about: None, unknown: veto.is_of_nothing_known(found) })
}

/// What a text beside a statement asks about instead of it: an answer that completes it (`thick sauce with chicken`),
/// or another sentence.
pub(super) fn held_in(statement: &Statement, beside: &str, context: &Context<'_>) -> Option<Clarify> {
    if beside.len() > LONGEST {
        return None;
    }
    let language = language();
    let household = Household::new(context.lexicon, &language.words);
    asked_over(&items(beside, &language.words, &household), statement)
}

/// The same of words that were looked up.
pub(super) fn asked_over(text: &Text<'_>, statement: &Statement) -> Option<Clarify> {
    let word = left_beside(text, statement)?;
    Some(Clarify { about: statement.kind(), missing: Missing::Product, amount: None, word: Some(word), partial: None })
}

fn left_beside(text: &Text<'_>, statement: &Statement) -> Option<String> {
    if !matches!(statement.kind(), Kind::Began | Kind::Filled | Kind::PutUp | Kind::Ask) {
        return None;
    }
    // An answer that names a batch says which, not what is in it.
    if matches!(statement, Statement::Filled(said) if said.batch.is_some()) {
        return None;
    }
    let tested = Tested::of(std::slice::from_ref(statement));
    if tested.names_other {
        return None;
    }
    let veto = Veto::new(text, tested, false, Group::Begin);
    let open: Vec<usize> = (0..text.items.len()).filter(|n| veto.may_change(*n, false)).collect();
    words(text, *open.first()?, *open.last()? + 1)
}

fn words(text: &Text<'_>, from: usize, to: usize) -> Option<String> {
    let (from, to) = text.span(from, to);
    text.text.get(from as usize..to as usize).map(str::to_owned)
}

/// A clause that may be held back.
pub(super) struct Veto<'a> {
    pub(super) text: &'a Text<'a>,
    pub(super) tested: Tested,
    /// Whether every word must be understood.
    pub(super) strict: bool,
    /// What the clause is.
    group: Group,
    /// For each item the stretch that the directions of its products say.
    pub(super) said: Vec<Option<Stretch>>,
}

impl<'a> Veto<'a> {
    fn new(text: &'a Text<'a>, tested: Tested, strict: bool, group: Group) -> Self {
        let said = said(text, &tested.infos, &tested.jars);
        Self { text, tested, strict, group, said }
    }
}

impl Veto<'_> {
    pub(super) fn classes(&self) -> &Classes {
        &self.text.words.classes
    }

    /// Whether a word of the clause may change the food, the jar or the method.
    fn may_change(&self, n: usize, used: bool) -> bool {
        let Some(item) = self.text.items.get(n) else { return false };
        if self.is_another_jar(item) || self.is_not_as_directed(n) || self.is_picture_of_other_food(item) {
            return true;
        }
        // `in 1/2 inch cubes`: a figure of the directions that was taken for another is not passed over.
        if self.is_directed(n) {
            return used && item.values.iter().any(|value| matches!(value, Value::Number(_)));
        }
        if self.is_picture(item) || self.is_where_from(n, item) {
            return false;
        }
        let c = self.classes();
        let of_other_form = item.is(c.form) && !item.is(c.prep) && !self.is_as_the_tables_add(n, item);
        if of_other_form || self.is_not_cleaned(n, item) {
            return true;
        }
        if self.is_absent(n, item) {
            return false;
        }
        if self.is_own(n, item) {
            return self.is_more_of_it(n, item) || self.is_put_in(n, item);
        }
        if used {
            // A batch of the household's is called as they like.
            return !item.is(self.classes().household_batch)
                && !self.tested.names_other
                && self.is_food(item)
                && !self.is_cut_as_tested(n, item);
        }
        let dish = item.is(self.classes().beside_pot) && self.is_behind_product(n);
        // A setting depends on its figures, not on the food.
        let must = match self.group {
            Group::Set => item.kind == WordKind::Value,
            _ => self.strict || self.is_joined(n),
        };
        dish || self.is_risky(n, item) || must && self.is_unknown(n, item)
    }

    /// `… with galangal`, `…/galangal`: what is joined to a food is part of it.
    fn is_joined(&self, n: usize) -> bool {
        let c = self.classes();
        let passed = |item: &&Item| item.is(c.article) || item.kind == WordKind::Harmless;
        let before = self.text.items.get(..n).unwrap_or_default().iter().rev().find(|item| !passed(item));
        let joined =
            before.is_some_and(|item| item.is(c.prep_with) || item.is(c.and) || item.mark == Some(Mark::Slash));
        joined || self.is_behind_product(n)
    }

    /// `juice cake`, `pea casserole`: a noun right behind the product makes another food of it.
    fn is_behind_product(&self, n: usize) -> bool {
        let behind = n.checked_sub(1).and_then(|at| Some((at, self.text.items.get(at)?)));
        behind.is_some_and(|(at, item)| item.is(self.classes().product) && self.is_own(at, item))
    }

    /// Whether it names the product itself, or the crop that it is made of: tomatoes anywhere, for they are what the
    /// rest of their products is acid by; of other fruit only how much there is (`pickled peppers, 12 lb of peppers`),
    /// as `pickled peppers with peppers` are not as tested.
    pub(super) fn is_own(&self, n: usize, item: &Item) -> bool {
        let words = self.text.words;
        let classes = self.classes();
        let named = |meaning: &Meaning| match meaning {
            Meaning::Product(product) => self.tested.products.contains(product) || self.is_told_of(product),
            // A variety that is of no other crop is one of tomatoes.
            Meaning::Variety(_, None) => self.tested.is_crop(Crop::Tomato),
            Meaning::Crop(crop) | Meaning::Variety(_, Some(crop)) => {
                self.tested.is_crop(*crop) && (*crop == Crop::Tomato || self.is_weighed(n))
            }
            _ => false,
        };
        item.senses
            .iter()
            .filter(|hit| [classes.product, classes.crop, classes.variety].iter().any(|class| class.has(hit.sense)))
            .any(|hit| named(words.meaning(hit.sense)))
    }

    /// Whether it is a name of several products, and the message tells that it means this one: `whole tomatoes …, no
    /// added liquid`.
    fn is_told_of(&self, product: &Product) -> bool {
        let Resolved::Family(members) = resolve(product) else { return false };
        let told = told_of(self.text, &members);
        told.is_some_and(|told| self.tested.all(|info| info.id == told.id))
    }

    fn is_weighed(&self, n: usize) -> bool {
        let c = self.classes();
        let before = self
            .text
            .items
            .get(..n)
            .unwrap_or_default()
            .iter()
            .rev()
            .find(|item| !item.is(c.of) && item.kind != WordKind::Harmless);
        before
            .is_some_and(|item| item.values.iter().any(|value| matches!(value, Value::Weight(_) | Value::Measure(..))))
    }

    /// `extra tomatoes` in what has other things in it too: not as tested.
    pub(super) fn is_more_of_it(&self, n: usize, item: &Item) -> bool {
        let classes = self.classes();
        let product = item.meaning(classes.product, self.text.words).is_some_and(
            |meaning| matches!(meaning, Meaning::Product(product) if self.tested.products.contains(product)),
        );
        !product && self.text.before(n).is_some_and(|before| before.is(classes.more_of))
    }

    /// `a batch with chicken`: meat that something is made with is not what is made.
    fn is_put_in(&self, n: usize, item: &Item) -> bool {
        let c = self.classes();
        item.is(c.food) && self.text.before(n).is_some_and(|before| before.is(c.prep_with))
    }

    /// A jar of another size than the statement has, or of a size that no table has: `3-litre jars` and `a 3 litre jar`
    /// are not three.
    pub(super) fn is_another_jar(&self, item: &Item) -> bool {
        let tokens = &self.text.lexed.tokens;
        let words = self.text.words;
        let last =
            tokens.get((item.to as usize).saturating_sub(1)).and_then(|token| letters_of(&self.text.lexed, token));
        let one = last.is_some_and(|last| {
            words.is(words.number(last), self.classes().single_size)
                && words.is(words.number(last), self.classes().jar_word)
        });
        let is_jar = last.is_some_and(|last| words.is(words.number(last), self.classes().jar_word));
        let is_sized = |count: crate::quantity::Number| {
            let half_gallon = self.strict && is_jar && count.as_count() == Some(2);
            count.as_count().is_none()
                || half_gallon
                || count.as_count() != Some(1) && (one || is_hyphen(tokens, item.from as usize + 1))
        };
        item.values.iter().any(|value| match value {
            Value::Jars(jars) => {
                let other =
                    jars.jar.is_some_and(|jar| !self.tested.jars.is_empty() && !self.tested.jars.contains(&jar));
                other || jars.jar.is_some() && jars.count.is_some_and(is_sized)
            }
            _ => false,
        })
    }

    /// Half-gallons hold nothing but the juices that have a time in them (USDA AIB 539, 2015, Guide 2). Beside jars of
    /// another size they are not told from jars of which the first were meant to be; alone they are refused in words of
    /// their own where a time is looked up.
    fn is_too_large(&self, n: usize) -> bool {
        let large = |value: &Value| matches!(value, Value::Jars(jars) if jars.jar == Some(Jar::HalfGallon));
        let tested =
            self.tested.infos.is_empty() || self.tested.infos.iter().any(|info| info.is_printed_in(Jar::HalfGallon));
        !tested && self.text.items.get(n).is_some_and(|item| item.values.iter().any(large))
    }

    pub(super) fn is_height(&self, n: usize) -> bool {
        self.text.items.get(n).is_some_and(|item| item.values.iter().any(|value| matches!(value, Value::Height(_))))
    }

    /// A food, a form of it, or a way to heat.
    fn is_food(&self, item: &Item) -> bool {
        let c = self.classes();
        item.is_any(&[c.crop, c.variety, c.product, c.dish, c.food, c.form, c.method, c.prep]) && !self.is_small(item)
    }

    /// The same, or what goes into jars beside food.
    pub(super) fn is_risky(&self, n: usize, item: &Item) -> bool {
        let c = self.classes();
        let vessel = item.is_any(&[c.jar_word, c.canner_word, c.pot]) && !item.is_any(&[c.crop, c.method]);
        let as_tested = self.is_cut_as_tested(n, item) || self.is_syrup(item) || self.is_as_the_tables_add(n, item);
        let food = self.is_food(item) && !as_tested;
        // A jam sets and keeps by its sugar.
        let sweet = item.is(c.sugar) && self.tested.all(|info| info.category == Category::Jam);
        let added = (sweet || item.is_any(&[c.acid, c.acid_lemon, c.acid_citric, c.vinegar, c.salt]))
            && !self.is_as_the_tables_add(n, item);
        let canner = item.is(c.canner) && !self.tested.is_height && (self.strict || !self.is_pressure_canner(item));
        let milled = item.is(c.milled) && !self.tested.all(ProductInfo::is_milled);
        (food || milled || (added || canner) && !self.is_small(item)) && !vessel && !self.is_of_rim(n, item)
    }

    /// `…, Deb is peeling`: what stands between marks, takes no part in the statement, and has a person or a verb in
    /// it.
    fn told_beside(&self, stretch: Range<usize>, used: impl Fn(usize) -> bool) -> Vec<usize> {
        let c = self.classes();
        let items: Vec<usize> = stretch.collect();
        let is_mark = |n: &usize| self.text.items.get(*n).is_some_and(|item| item.mark.is_some());
        let taken = |n: &usize| used(*n) && self.text.items.get(*n).is_some_and(Item::is_content);
        let says = |n: &usize| self.text.items.get(*n).is_some_and(|item| item.is(c.aux) || item.is(c.subject));
        let told = |n: &usize| self.text.items.get(*n).is_some_and(|item| item.is(c.pronoun));
        let of_it = |part: &[usize]| part.iter().any(told) && part.iter().any(|n| self.is_relevant(*n));
        let beside = |part: &&[usize]| !part.iter().any(taken) && part.iter().any(says) && !of_it(part);
        items.split(is_mark).filter(beside).flatten().copied().collect()
    }

    /// Jars that are counted have been processed: in a pressure canner, whatever they hold was not too cool.
    fn is_pressure_canner(&self, item: &Item) -> bool {
        let kind = item.meaning(self.classes().canner, self.text.words);
        matches!(kind, Some(Meaning::Canner(canner)) if canner.is_pressure())
    }

    fn is_small(&self, item: &Item) -> bool {
        let c = self.classes();
        (item.is(c.filler) || item.is(c.own)) && !item.is_any(&[c.food, c.form, c.method])
    }

    /// A word that is in no list of what leaves a process as it is.
    fn is_unknown(&self, n: usize, item: &Item) -> bool {
        let c = self.classes();
        match item.kind {
            WordKind::Small | WordKind::Mark | WordKind::Voice => false,
            WordKind::Harmless => item.is(c.harmless_state) && !item.is(c.beside),
            // When, how much and from where: none of it is in the jar. `A second` batch is no time.
            WordKind::Value if !item.values.is_empty() => !item.values.iter().all(|value| {
                // What is begun tomorrow is not begun.
                value.is_day() && !(self.group == Group::Begin && self.is_to_come(item))
                    || self.is_of_cooking(n, value)
                    || matches!(value, Value::Volume(volume, _) if self.tested.is_dose(*volume))
                    || matches!(value, Value::Share(share) if Self::is_full_strength(*share))
                    || matches!(value, Value::Weight(_) | Value::Measure(..) | Value::Place | Value::Duration(1))
            }),
            _ => !self.is_harmless(n, item) && !self.is_as_the_tables_add(n, item),
        }
    }

    /// `tomorrow`, and not `tonight`.
    fn is_to_come(&self, item: &Item) -> bool {
        let days = item.meaning(self.classes().day_ahead, self.text.words);
        matches!(days, Some(Meaning::Number(days)) if *days > 0)
    }

    pub(super) fn is_harmless(&self, n: usize, item: &Item) -> bool {
        let c = self.classes();
        if item.is(c.milled) {
            return self.tested.all(ProductInfo::is_milled);
        }
        let listed = [
            c.harmless,
            c.beside,
            c.kin,
            c.folk,
            c.day_ago,
            c.daypart,
            c.batch,
            c.canner_word,
            c.jar_word,
            c.store,
            c.begin,
            c.deed_can,
            c.ask,
            c.pot,
        ];
        let changed = item.is(c.harmless_state) && !item.is(c.beside);
        item.is_any(&listed) && !changed
            || item.kind == WordKind::Ordinary && self.is_beside(n)
            || item.kind == WordKind::Deed && !item.is(c.deed_add)
            || !self.strict && item.is(c.told)
            || item.is(c.supply) && !item.is_any(&[c.acid, c.acid_lemon, c.acid_citric, c.vinegar, c.salt])
            || item.is(c.salt) && !self.tested.infos.iter().any(|info| info.category == Category::Pickle)
            || self.is_syrup(item)
            || matches!(self.group, Group::Set | Group::Ask) && item.is(c.set)
            || self.group == Group::Ask && item.is(c.unit_time) && item.values.is_empty()
            || !item.values.is_empty() && item.values.iter().all(Value::is_day)
    }

    /// An ordinary word that may tell of food, of a jar, or of how it is heated.
    pub(super) fn is_relevant(&self, n: usize) -> bool {
        let item = self.text.items.get(n);
        item.is_some_and(|item| item.kind == WordKind::Ordinary && !self.is_harmless(n, item) && !self.is_directed(n))
    }

    /// An ordinary word that has to do with no jar.
    fn is_beside(&self, n: usize) -> bool {
        self.text.said(n, n + 1).is_some_and(|word| ordinary::is_beside(&word.to_lowercase()))
    }

    /// Whether words of the message may be chatter: none of them is known to change what is in a jar.
    fn is_of_nothing_known(&self, mut held: Range<usize>) -> bool {
        let known = |item: &Item| !item.values.is_empty() || item.kind == WordKind::Trade;
        held.all(|n| !self.text.items.get(n).is_some_and(known) && !self.is_left_risk(n))
    }
}
