//! Statements from slots: each item of the clause goes into the slot that it fits, groups of thing and amount become one statement each, and
//! what no slot takes stays unaccounted.

use super::super::frame::{Slots, Types};
use super::super::item::{Item, WordKind};
use super::super::lex::Mark;
use super::super::lexicon::sense::{Container, Meaning};
use super::super::value::Value;
use super::super::value::amount::{Portions, Weight};
use super::super::value::measure::{Share, of_scale};
use super::super::value::time::{Dated, Day};
use super::record::{Record, clarify};
use super::when::Moment;
use super::{Clause, Made, Note, Used};
use crate::processes::harvest_measure;
use crate::quantity::{Mass, Number, Pressure, Temperature};
use crate::statement::{Froze, Statement, TimerStart};
use crate::vocabulary::{
    CannerKind, Crop, Kind, Missing, Prep, Product, Ripeness, SettingKey, Stock, Subject, Supply, Whole,
};
use smallvec::SmallVec;

/// What an item is taken for.
#[derive(Clone, Debug)]
enum Role {
    /// An amount.
    Amount(Value),
    /// Fruit or food, by all that its name may be.
    Food {
        crop: Option<Crop>,
        variety: Option<String>,
        product: Option<Product>,
        prep: Option<Prep>,
        ripe: Option<Ripeness>,
    },
    Prep(Prep),
    Ripe(Ripeness),
    Place(String),
    From(Stock, Option<Whole>),
    Supply(Supply),
    Canner(CannerKind),
    Pack(crate::vocabulary::Pack),
    Batch(String),
    What(String),
    Kept(bool),
    Vague,
    /// A word between thing and amount that belongs to the thing.
    Modifier,
    /// The day of this group.
    When(Dated),
}

/// How the open choices of a clause are made.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
struct Way {
    /// A count and a loose weight: the weight is that of each.
    each: bool,
    /// A noun that no list has is a variety, not a crop.
    variety: bool,
    /// A noun that no list has is passed over.
    no_guess: bool,
    /// Jars are a volume.
    volume: bool,
    /// What is missing was said in the clause before: the unit, how many jars.
    carry: bool,
    /// How many sealed is another statement.
    apart: bool,
    /// An amount without a thing of its own takes the place of the one before it: `6 bags, 7 bags`.
    later: bool,
    /// The thing that is named last is that of every group: `5 kg on Wednesday and 4 kg yesterday, all plums`.
    common: bool,
    /// The size of the jars is asked for.
    ask: bool,
    /// A name that no list has is where it grew, not its variety: `8 lb salsify, Widow Strip`.
    place: bool,
    /// The day was said before, in the same sentence: `Yesterday was wet, so I froze …`.
    day: bool,
    /// Words with capitals are one name, whatever else they mean: `Candy Roaster`, `Aunt Ruby's German Green`.
    capital: bool,
}

struct Filling<'c, 'a> {
    clause: &'c Clause<'a>,
    way: Way,
    roles: Vec<(usize, Role)>,
    used: Used,
    notes: SmallVec<[Note; 8]>,
    moment: Moment,
    /// The moment is a purpose: `for Saturday`.
    purpose: bool,
    /// Choices that turned out to be open.
    open: Way,
}

/// All ways to fill a clause.
pub(super) fn fill(clause: &Clause<'_>, out: &mut Vec<Made>) {
    let first = Filling::new(clause, Way::default()).run();
    let Some((made, open)) = first else { return };
    out.push(made);
    let ways = [
        (open.each, Way { each: true, ..Way::default() }),
        (open.variety, Way { variety: true, ..Way::default() }),
        (open.no_guess, Way { no_guess: true, ..Way::default() }),
        (open.volume, Way { volume: true, ..Way::default() }),
        (open.carry, Way { carry: true, ..Way::default() }),
        (open.apart, Way { apart: true, ..Way::default() }),
        (open.later, Way { later: true, ..Way::default() }),
        (open.common, Way { common: true, ..Way::default() }),
        (open.ask, Way { ask: true, ..Way::default() }),
        (open.capital, Way { capital: true, ..Way::default() }),
        (open.place, Way { place: true, ..Way::default() }),
        (open.day, Way { day: true, ..Way::default() }),
    ];
    for (is_open, way) in ways {
        if is_open && let Some((made, _)) = Filling::new(clause, way).run() {
            out.push(made);
        }
    }
}

/// The product that a clause names, with the items that name it.
pub(in super::super) fn product_named(clause: &Clause<'_>) -> Option<(Product, SmallVec<[usize; 8]>)> {
    let mut filling = Filling::new(clause, Way::default());
    filling.assign();
    let before = clause.used_by_trigger();
    let product = filling.roles.iter().find_map(|(_, role)| match role {
        Role::Food { product: Some(product), .. } => Some(product.clone()),
        _ => None,
    })?;
    let named = (0..clause.items().len()).filter(|n| filling.used.has(*n) && !before.has(*n)).collect();
    Some((product, named))
}

/// Jars that did not seal, put into the freezer.
pub(super) fn jars_frozen(clause: &Clause<'_>) -> Option<Made> {
    let mut filling = Filling::new(clause, Way::default());
    filling.assign();
    let mut record = Record::default();
    let roles = std::mem::take(&mut filling.roles);
    for (n, role) in roles {
        filling.put(&mut record, n, role);
    }
    let jars = record.jars.or(record.count())?;
    filling.finish_moment(&mut record)?;
    let froze = Statement::Froze(Froze { jars: Some(jars), batch: record.batch, on: record.on, ..Froze::default() });
    Some(filling.made([froze].into_iter().collect()))
}

impl<'c, 'a> Filling<'c, 'a> {
    fn new(clause: &'c Clause<'a>, way: Way) -> Self {
        Self {
            clause,
            way,
            roles: Vec::with_capacity(8),
            used: clause.used_by_trigger(),
            notes: SmallVec::new(),
            moment: Moment { metric: clause.scene.text.metric, ..Moment::default() },
            purpose: false,
            open: Way::default(),
        }
    }

    fn run(mut self) -> Option<(Made, Way)> {
        self.assign();
        self.correct_in_place();
        let sealed = if self.clause.frame.kind == Kind::PutUp { self.sealed_of() } else { None };
        let groups = self.groups();
        let mut records: SmallVec<[Record; 2]> = SmallVec::new();
        for group in groups {
            let mut record = Record::default();
            for (n, role) in group {
                self.put(&mut record, n, role);
            }
            records.push(record);
        }
        if records.is_empty() {
            records.push(Record::default());
        }
        self.leave_total(&mut records);
        self.share_between(&mut records);
        for record in &mut records {
            self.finish_moment(record)?;
            self.settle(record);
            if let (Some((said, unsealed)), Some(all)) = (sealed, record.jars.filter(|_| record.of.is_none())) {
                record.jars = Some(if unsealed { all.saturating_sub(said) } else { said });
                record.of = Some(all);
            }
        }
        if records.len() > 1 {
            self.note(Note::List);
        }
        if self.clause.frame.kind == Kind::Opened {
            self.open.ask |=
                records.iter().any(|record| record.jar.is_none() && record.jars.is_some() && record.product.is_some());
        }
        let statements = self.statements(records)?;
        let open = self.open;
        Some((self.made(statements), open))
    }

    fn made(self, statements: Vec<Statement>) -> Made {
        Made { statements, used: self.used, notes: self.notes }
    }

    fn note(&mut self, note: Note) {
        if !self.notes.contains(&note) {
            self.notes.push(note);
        }
    }

    fn takes(&self, slot: Slots) -> bool {
        self.clause.takes(slot)
    }

    // ---------------------------------------------------------------- assigning

    fn assign(&mut self) {
        let count = self.clause.items().len().min(128);
        let name = self.capital_name(count);
        self.open.capital |= name.is_some();
        let mut n = 0;
        while n < count {
            if let Some((_, to)) = name.filter(|(from, _)| self.way.capital && n == *from) {
                self.take_capital_name(n, to);
                n = to;
                continue;
            }
            n += self.assign_at(n).max(1);
        }
        self.guess(count);
    }

    /// Two or more words with capitals that no list has as one name, in a message that does not write all words so.
    fn capital_name(&self, count: usize) -> Option<(usize, usize)> {
        if !self.takes(Slots::Variety) {
            return None;
        }
        let items = self.clause.items();
        let word = |item: &Item| item.mark.is_none() && item.kind != WordKind::Value && !item.capital;
        let plain = items.iter().filter(|item| word(item)).count();
        let capital = |n: usize| {
            self.clause.item(n).is_some_and(|item| {
                item.capital
                    && item.mark.is_none()
                    && item.values.is_empty()
                    && !self.clause.triggers(n)
                    && !item.is(self.clause.classes().own)
            })
        };
        let joins = |n: usize| {
            self.clause.item(n).is_some_and(|item| item.kind == WordKind::Small && item.mark.is_none())
                && capital(n + 1)
        };
        let mut n = 0;
        while n < count {
            let mut end = n;
            while end < count && end - n < 6 && (capital(end) || end > n && joins(end)) {
                end += 1;
            }
            if end - n > 1 && plain > 1 {
                return Some((n, end));
            }
            n = end.max(n + 1);
        }
        None
    }

    fn take_capital_name(&mut self, from: usize, to: usize) {
        let classes = self.clause.classes();
        let last = self.clause.item(to - 1);
        let crop = last.and_then(|item| match item.meaning(classes.crop, self.clause.scene.text.words) {
            Some(Meaning::Crop(crop)) => Some(*crop),
            _ => None,
        });
        let Some(name) = self.clause.scene.text.said(self.clause.from + from, self.clause.from + to) else { return };
        (from..to).for_each(|n| self.used.add(n));
        self.note(Note::GuessedVarietyStrange);
        self.roles
            .push((from, Role::Food { crop, variety: Some(singular(&name)), product: None, prep: None, ripe: None }));
    }

    /// Puts the item at `n` into a slot, and says how many items went with it.
    fn assign_at(&mut self, n: usize) -> usize {
        let Some(item) = self.clause.item(n) else { return 1 };
        if item.mark.is_some() {
            return 1;
        }
        if self.is_box_label(n, item)
            && let Some(name) = self.clause.scene.text.said(self.clause.from + n, self.clause.from + n + 1)
        {
            // `in box 3`
            self.used.add(n);
            self.note(Note::GuessedPlace);
            self.roles.push((n, Role::Place(name)));
            return 1;
        }
        if let Some(value) = self.value(n, item) {
            return self.take_value(n, item, value);
        }
        if let Some(role) = self.name(n, item) {
            self.used.add(n);
            self.roles.push((n, role));
        }
        1
    }

    /// Whether an item is a container with a number behind it, where things grow: `box 3`, `tub 2`.
    fn is_box_label(&self, n: usize, item: &Item) -> bool {
        let classes = self.clause.classes();
        let behind = item.values.iter().any(|value| matches!(value, Value::Count(_))) && item.to - item.from == 2;
        let led = n
            .checked_sub(1)
            .and_then(|n| self.clause.item(n))
            .is_some_and(|item| item.is(classes.prep_in) || item.is(classes.prep_from));
        // `in box 3`, not `in four boxes`.
        behind && led && self.ends_in_digits(item) && self.takes(Slots::Place)
    }

    fn ends_in_digits(&self, item: &Item) -> bool {
        let last = self.clause.scene.text.lexed.tokens.get((item.to.saturating_sub(1)) as usize);
        last.is_some_and(|token| matches!(token.shape, super::super::lex::Shape::Digits(..)))
    }

    /// The value of an item that the frame takes.
    fn value(&mut self, n: usize, item: &Item) -> Option<Value> {
        let slots = self.clause.frame.slots;
        // `800 g a bag`: the weight of each, not one bag more.
        let weighed = n.checked_sub(1).is_some_and(|n| {
            self.clause.types(n).meets(Types::Mass)
                && self
                    .clause
                    .item(n)
                    .is_some_and(|item| item.values.iter().any(|value| matches!(value, Value::Weight(_))))
        });
        if weighed && item.is(self.clause.classes().each) {
            self.used.add(n);
            return None;
        }
        let wanted = |value: &Value| match value {
            Value::Weight(weight) => {
                slots.has(Slots::Mass) || weight.fluid.is_some() && slots.has(Slots::Volume) || slots.has(Slots::Psi)
            }
            Value::Measure(..) => slots.has(Slots::Mass),
            Value::Volume(..) => slots.has(Slots::Volume),
            Value::Count(count) => match count.container {
                Container::Tray => slots.has(Slots::Trays),
                Container::Jar => slots.has(Slots::Jars),
                _ => {
                    slots.meets(Slots::Count.with(Slots::Trays))
                        || slots.has(Slots::Mass) && count.container != Container::Box
                }
            },
            Value::Portions(_) => slots.has(Slots::Mass),
            Value::CountOf(..) => slots.has(Slots::Mass),
            Value::Jars(jars) => slots.has(Slots::Jars) && (jars.count.is_some() || jars.jar.is_some()),
            Value::OutOf(_) => slots.meets(Slots::Of.with(Slots::Jars)),
            Value::Number(_) => slots.has(Slots::Number),
            Value::Share(share) => slots.has(Slots::Share) && *share != Share::Most,
            Value::Day(_) => slots.meets(Slots::On.with(Slots::Day)),
            Value::Clock(_) => slots.meets(Slots::On.with(Slots::Clock)),
            Value::Ago(_) => slots.has(Slots::On),
            Value::Duration(_) => slots.has(Slots::Duration),
            Value::Temperature(..) => slots.has(Slots::Temp),
            Value::Pressure(_) => slots.has(Slots::Psi),
            Value::Height(_) => slots.has(Slots::Height),
            Value::Colour(_) => slots.has(Slots::Ripe),
            Value::Place => slots.has(Slots::Place),
            Value::Grid(..) => slots.has(Slots::Grid),
            Value::Entry(_) => slots.has(Slots::Entry),
        };
        let rank = |value: &Value| match value {
            Value::Portions(portions) if portions.plainly => 0,
            Value::OutOf(_) => 1,
            Value::Volume(..) if self.way.volume => 2,
            Value::Jars(_) => 3,
            Value::Portions(_) | Value::CountOf(..) => 3,
            Value::Colour(_) | Value::Ago(_) | Value::Clock(_) => 3,
            Value::Weight(_) | Value::Measure(..) | Value::Count(_) => 4,
            Value::Volume(..) | Value::Pressure(_) | Value::Height(_) | Value::Temperature(..) | Value::Duration(_) => {
                5
            }
            Value::Day(_) | Value::Place => 6,
            Value::Share(Share::It) => 9,
            Value::Share(_) => 7,
            _ => 8,
        };
        // A month or `second` that is a plain word here is no day unless something says so.
        let place = item.values.iter().any(|value| matches!(value, Value::Place)) && slots.has(Slots::Place);
        let labelled = item.to - item.from == 2 && self.ends_in_digits(item);
        let share =
            item.values.iter().find(|value| matches!(value, Value::Share(Share::All | Share::Rest)) && wanted(value));
        let tub =
            |value: &Value| matches!(value, Value::Count(count) if count.container == Container::Tub && count.article);
        let best = item.values.iter().filter(|value| wanted(value)).min_by_key(|value| rank(value)).copied()?;
        // `the lot` is all of it before it is one lot.
        let found = share.copied().filter(|_| tub(&best)).unwrap_or(best);
        // `block 7` is a place before it is seven blocks.
        let found = if place && labelled && matches!(found, Value::Count(_)) { Value::Place } else { found };
        // `froze 6.5.`: a date only beside an amount.
        let number = item.values.iter().find(|value| matches!(value, Value::Number(_)));
        let found = match (found, number) {
            (Value::Day(_), Some(number))
                if item.to - item.from > 1 && !self.has_amount(n) && slots.has(Slots::Number) =>
            {
                *number
            }
            (found, _) => found,
        };
        let both = |jars: bool, volume: bool| jars && volume;
        if both(
            matches!(found, Value::Jars(jars) if jars.count.is_some()) && slots.has(Slots::Volume),
            item.values.iter().any(|value| matches!(value, Value::Volume(..))),
        ) {
            self.open.volume = true;
        }
        // `it` and `all` say how much only where nothing else does.
        let vague = matches!(found, Value::Share(Share::It)) && self.clause.any(self.clause.classes().vague);
        if vague || matches!(found, Value::Share(Share::It | Share::All)) && self.has_amount(n) {
            self.used.add(n);
            return None;
        }
        Some(found)
    }

    /// Whether another item of the clause is an amount.
    fn has_amount(&self, n: usize) -> bool {
        let amount =
            Types::Mass.with(Types::Count).with(Types::Jars).with(Types::Number).with(Types::Of).with(Types::Volume);
        (0..self.clause.items().len()).any(|at| at != n && self.clause.types(at).meets(amount))
    }

    fn take_value(&mut self, n: usize, item: &Item, value: Value) -> usize {
        match value {
            Value::Day(dated) => {
                let classes = self.clause.classes();
                let before = n.checked_sub(1).and_then(|n| self.clause.item(n));
                let past = matches!(dated.day, Day::Offset(days) if days < 0);
                let purpose = before.is_some_and(|item| item.is(classes.prep_for)) && self.takes(Slots::On) && !past;
                // `in`, `on`, `since` before a month; the word `may` or `second` alone says nothing.
                let wordy = item.to - item.from == 1 && item.is(classes.modal) && matches!(dated.day, Day::Month(_));
                if wordy {
                    return 1;
                }
                self.used.add(n);
                if purpose {
                    self.purpose = true;
                    self.note(Note::Purpose);
                } else if self.takes(Slots::List)
                    && self.moment.day.is_some_and(|first| {
                        first.day != dated.day
                            && !(matches!(first.day, Day::Month(_)) && matches!(dated.day, Day::OfAny(_)))
                    })
                    && !self.is_corrected(n)
                {
                    self.roles.push((n, Role::When(dated)));
                } else if self.moment.day.is_none() {
                    self.note(Note::Day);
                    if self.takes(Slots::List) {
                        self.roles.push((n, Role::When(dated)));
                    }
                    self.moment.day = Some(dated);
                } else {
                    let day = self.later_day(n, dated);
                    let day = match (self.moment.day.map(|first| first.day), dated.day) {
                        // `in June, on the 11th`
                        (Some(Day::Month(month)), Day::OfAny(day_of_month)) => {
                            Dated { day: Day::OfMonth(month, day_of_month), ..day }
                        }
                        _ => day,
                    };
                    self.roles.retain(|(_, role)| !matches!(role, Role::When(_)));
                    self.moment.day = Some(day);
                }
            }
            Value::Clock(clock) => {
                self.used.add(n);
                self.moment.clock = self.moment.clock.or(Some(clock));
                self.note(Note::Clock);
            }
            Value::Ago(seconds) => {
                self.used.add(n);
                self.moment.ago = Some(seconds);
                self.note(Note::Clock);
            }
            Value::Place => {
                self.used.add(n);
                let first = self.first_of_place(n);
                let end = self.end_of_place(n + 1);
                (first..end).for_each(|n| self.used.add(n));
                if let Some(name) = self.clause.scene.text.said(self.clause.from + first, self.clause.from + end) {
                    self.note(Note::Place);
                    self.roles.push((n, Role::Place(name)));
                }
            }
            Value::Colour(class) => {
                self.used.add(n);
                self.roles.push((n, Role::Ripe(class)));
            }
            value => {
                self.used.add(n);
                self.roles.push((n, Role::Amount(value)));
            }
        }
        1
    }

    /// A day said again behind a correction takes the place of the first.
    fn later_day(&self, n: usize, dated: Dated) -> Dated {
        match self.moment.day {
            Some(first) if !self.is_corrected(n) => first,
            _ => dated,
        }
    }

    /// Whether something was taken back before an item.
    fn is_corrected(&self, n: usize) -> bool {
        let oops = self.clause.classes().oops;
        self.clause.items().get(..n).is_some_and(|before| before.iter().any(|item| item.is(oops)))
    }

    /// `the orchard strip`: one word of no list behind a place, where the name ends.
    fn end_of_place(&self, n: usize) -> usize {
        let classes = self.clause.classes();
        let pots = self
            .clause
            .item(n)
            .is_some_and(|item| item.kind == WordKind::Value && item.values.is_empty() && item.is(classes.container));
        let free = pots && !self.used.has(n)
            || self.is_free(n)
                && self.clause.item(n).is_some_and(|item| {
                    matches!(item.kind, WordKind::Ordinary | WordKind::Strange)
                        || item.kind == WordKind::Trade
                            && (item.is(classes.gear)
                                || item.is(classes.container)
                                || item.is(classes.jar_word)
                                || item.is(classes.plants))
                });
        let ends = self
            .clause
            .item(n + 1)
            .is_none_or(|item| item.mark.is_some() || !item.values.is_empty() || item.is(self.clause.classes().and));
        if free && ends { n + 1 } else { n }
    }

    /// `the old hog lot`: words of no list before a place that an article or a preposition leads.
    fn first_of_place(&self, n: usize) -> usize {
        let classes = self.clause.classes();
        let mut first = n;
        while first > 0 && n - first < 4 {
            let Some(item) = self.clause.item(first - 1) else { break };
            let leads = item.is(classes.article)
                || item.is(classes.prep_from)
                || item.is(classes.prep_in)
                || item.is(classes.own);
            if leads || item.mark.is_some() || !item.values.is_empty() {
                return first;
            }
            let article = |n: usize| self.clause.item(n).is_some_and(|item| item.is(classes.article));
            let possessive = item.kind == WordKind::Small
                && (self.is_possessive(item) || !item.is(classes.preposition) && first > 1 && article(first - 2));
            let named = possessive
                || matches!(
                    item.kind,
                    WordKind::Ordinary | WordKind::Strange | WordKind::Harmless | WordKind::Alien | WordKind::Deed
                )
                || item.is(classes.kin)
                || item.is(classes.folk);
            if !named || self.used.has(first - 1) {
                break;
            }
            first -= 1;
        }
        // At the head of a clause: `sugarhouse patch: 5 lb`.
        if first == 0 && n - first < 3 { first } else { n }
    }

    /// What a name is taken for.
    fn name(&mut self, n: usize, item: &Item) -> Option<Role> {
        let words = self.clause.scene.text.words;
        let classes = self.clause.classes();
        let slots = self.clause.frame.slots;
        if let Some(role) = self.own_name(n, item) {
            return Some(role);
        }
        if slots.has(Slots::Supply)
            && let Some(Meaning::Supply(supply)) = item.meaning(classes.supply, words)
        {
            self.note(Note::Supply);
            return Some(Role::Supply(*supply));
        }
        if slots.has(Slots::Dryable)
            && item
                .parts
                .as_deref()
                .is_some_and(|parts| parts.iter().any(|part| part.is(classes.crop) && !self.is_tomato(part)))
            && let Some(what) = self.clause.scene.text.said(self.clause.from + n, self.clause.from + n + 1)
        {
            // `apple slices`
            return Some(Role::What(what));
        }
        if slots.has(Slots::Dryable)
            && let Some(Meaning::Word(what)) = item.meaning(classes.dryable, words)
        {
            if item.is(classes.powder) {
                return Some(Role::Modifier);
            }
            return Some(Role::What(self.dried_thing(n, what)));
        }
        if slots.meets(Slots::Crop.with(Slots::Variety).with(Slots::Product))
            && !self.is_purpose(n, item)
            && let Some(food) = self.food(n, item)
        {
            return Some(food);
        }
        if slots.has(Slots::Batch)
            && let Some(role) = self.batch_by_product(n, item)
        {
            return Some(role);
        }
        if slots.has(Slots::Prep)
            && let Some(Meaning::Prep(prep)) = item.meaning(classes.prep, words)
        {
            return Some(Role::Prep(*prep));
        }
        if slots.has(Slots::Ripe)
            && let Some(Meaning::Ripe(class)) = item.meaning(classes.ripe, words)
        {
            return Some(Role::Ripe(*class));
        }
        if slots.meets(Slots::From.with(Slots::Store)) && item.is(classes.store) {
            return self.store(item);
        }
        if slots.has(Slots::Canner)
            && let Some(Meaning::Canner(canner)) = item.meaning(classes.canner, words)
        {
            return Some(Role::Canner(*canner));
        }
        if slots.has(Slots::Pack)
            && let Some(Meaning::Pack(pack)) = item.meaning(classes.pack, words)
        {
            return Some(Role::Pack(*pack));
        }
        if slots.has(Slots::Kept) && item.is(classes.keep) {
            return Some(Role::Kept(true));
        }
        if slots.has(Slots::Kept) && item.is(classes.away) {
            return Some(Role::Kept(false));
        }
        if item.is(classes.vague)
            && slots.meets(Slots::Mass.with(Slots::Count).with(Slots::Number))
            && !item.is(classes.small)
        {
            self.note(Note::Vague);
            return Some(Role::Vague);
        }
        None
    }

    /// A name that is the household's own: of a recipe, a batch, a word it taught.
    fn own_name(&mut self, n: usize, item: &Item) -> Option<Role> {
        let classes = self.clause.classes();
        let household = self.clause.scene.household;
        if self.takes(Slots::Batch)
            && let Some(own) = item.own(classes.household_batch)
        {
            self.note(Note::Batch);
            return Some(Role::Batch(household.batch(own)?.to_owned()));
        }
        if self.takes(Slots::Product)
            && let Some(own) = item.own(classes.household_recipe)
        {
            self.note(Note::Product);
            let product = Some(Product::named(household.recipe(own)?));
            return Some(Role::Food { crop: None, variety: None, product, prep: None, ripe: None });
        }
        if self.takes(Slots::Batch) && item.is(classes.batch) {
            // `batch 2`
            let next = self.clause.item(n + 1)?;
            let number = next.values.iter().find_map(|value| match value {
                Value::Number(figure) => figure.number.as_count(),
                _ => None,
            })?;
            if next.to - next.from == 1 && number < 1000 {
                self.used.add(n + 1);
                self.note(Note::Batch);
                return Some(Role::Batch(number.to_string()));
            }
        }
        None
    }

    /// A batch by what is made in it: where one is open, or where only a batch can be meant.
    fn batch_by_product(&mut self, n: usize, item: &Item) -> Option<Role> {
        let classes = self.clause.classes();
        let Some(Meaning::Product(product)) = item.meaning(classes.product, self.clause.scene.text.words) else {
            return None;
        };
        let kind = self.clause.frame.kind;
        let meant = matches!(kind, Kind::Stopped | Kind::Resumed | Kind::Ask);
        // `drained 11 lb of juice` says what, not from which batch; `saved for soup` what for.
        let before = n.checked_sub(1).and_then(|n| self.clause.item(n));
        let article = before.filter(|item| item.is(classes.article)).and_then(|_| self.clause.item(n.checked_sub(2)?));
        let led = article.or(before);
        let from = led.is_some_and(|item| item.is(classes.prep_from) && !item.is(classes.of));
        if kind == Kind::Drained && (item.is(classes.liquid) || !from) {
            return Some(Role::Modifier);
        }
        if !meant && !self.clause.scene.household.has_open_batch() {
            return Some(Role::Modifier);
        }
        self.note(Note::BatchProduct);
        let labels = self.clause.frame.about == Some(Subject::Labels);
        if labels && self.clause.scene.household.batch_named(product.as_str()).is_none() {
            return Some(Role::Food {
                crop: None,
                variety: None,
                product: Some(product.clone()),
                prep: None,
                ripe: None,
            });
        }
        Some(Role::Batch(product.as_str().to_owned()))
    }

    fn is_tomato(&self, item: &Item) -> bool {
        let classes = self.clause.classes();
        matches!(item.meaning(classes.crop, self.clause.scene.text.words), Some(Meaning::Crop(Crop::Tomato)))
    }

    /// `apple rings`: the thing that was dried, with the crop before it; of tomato skins only the skins.
    fn dried_thing(&self, n: usize, what: &str) -> String {
        let classes = self.clause.classes();
        let words = self.clause.scene.text.words;
        let before = n.checked_sub(1).and_then(|n| self.clause.item(n));
        let crop = before.and_then(|item| item.meaning(classes.crop, words));
        let other = matches!(crop, Some(Meaning::Crop(crop)) if *crop != Crop::Tomato);
        if !other {
            // `apples in rings`
            let led = before.is_some_and(|item| item.is(classes.prep_in));
            let crop = n
                .checked_sub(2)
                .and_then(|n| self.clause.item(n))
                .filter(|item| led && item.is(classes.crop) && !self.is_tomato(item));
            let said =
                crop.and_then(|_| self.clause.scene.text.said(self.clause.from + n - 2, self.clause.from + n - 1));
            return said.unwrap_or_else(|| what.to_owned());
        }
        self.clause
            .scene
            .text
            .said(self.clause.from + n - 1, self.clause.from + n + 1)
            .unwrap_or_else(|| what.to_owned())
    }

    /// `opened 3 pints for the soup`: a dish behind `for` is what it was used for.
    fn is_purpose(&self, n: usize, item: &Item) -> bool {
        let classes = self.clause.classes();
        let used_up =
            matches!(self.clause.frame.kind, Kind::Opened | Kind::Gave | Kind::Ate | Kind::Tossed | Kind::Thawed);
        let mut at = n;
        while let Some(before) = at.checked_sub(1).and_then(|n| self.clause.item(n)) {
            if before.is(classes.prep_for) {
                return used_up && item.is(classes.product) && !item.is(classes.crop);
            }
            if !(before.is(classes.article)
                || before.is(classes.own)
                || matches!(before.kind, WordKind::Ordinary | WordKind::Harmless))
            {
                return false;
            }
            at -= 1;
        }
        false
    }

    fn is_picture(&self, item: &Item) -> bool {
        self.clause.scene.text.lexed.tokens.get(item.from as usize).is_some_and(|token| token.is(Mark::Other))
    }

    fn is_food_word(&self, n: usize) -> bool {
        let classes = self.clause.classes();
        self.clause.item(n).is_some_and(|item| {
            (item.is(classes.crop) || item.is(classes.variety) || item.is(classes.product)) && !self.is_picture(item)
        })
    }

    /// Fruit or food by its name.
    fn food(&mut self, n: usize, item: &Item) -> Option<Role> {
        // A picture of fruit beside its name says nothing more.
        if self.is_picture(item) && (0..self.clause.items().len()).any(|at| at != n && self.is_food_word(at)) {
            return Some(Role::Modifier);
        }
        let words = self.clause.scene.text.words;
        let classes = self.clause.classes();
        let slots = self.clause.frame.slots;
        let mut crop = None;
        let mut variety = None;
        let mut product = None;
        let mut prep = None;
        let mut ripe = None;
        if slots.has(Slots::Crop)
            && let Some(Meaning::Crop(found)) = item.meaning(classes.crop, words)
        {
            crop = Some(*found);
        }
        if slots.meets(Slots::Crop.with(Slots::Variety))
            && let Some(Meaning::Variety(name, of)) = item.meaning(classes.variety, words)
        {
            variety = Some((*name).to_owned());
            crop = crop.or(*of);
        }
        if slots.has(Slots::Product)
            && let Some(Meaning::Product(found)) = item.meaning(classes.product, words)
        {
            product = Some(found.clone());
        }
        if product.is_none() && crop.is_none() && variety.is_none() {
            // `crushed tomatoes` where no product is asked for: how they were cut, and what they are.
            let parts = item.parts.as_deref()?;
            for part in parts {
                if let Some(Meaning::Crop(found)) = part.meaning(classes.crop, words) {
                    crop = crop.or(Some(*found));
                }
                if let Some(Meaning::Variety(name, of)) = part.meaning(classes.variety, words) {
                    variety = Some((*name).to_owned());
                    crop = crop.or(*of);
                }
                if let Some(Meaning::Prep(found)) = part.meaning(classes.prep, words) {
                    prep = Some(*found);
                }
                if let Some(Meaning::Ripe(found)) = part.meaning(classes.ripe, words) {
                    ripe = Some(*found);
                }
            }
            if !slots.has(Slots::Crop) || crop.is_none() {
                return None;
            }
        }
        if product.is_some() {
            self.note(Note::Product);
        }
        if crop.is_some() {
            self.note(Note::Crop);
        }
        if variety.is_some() {
            self.note(Note::Variety);
        }
        let variety = variety.filter(|_| slots.has(Slots::Variety));
        Some(Role::Food { crop, variety, product, prep, ripe })
    }

    fn store(&mut self, item: &Item) -> Option<Role> {
        let classes = self.clause.classes();
        let words = self.clause.scene.text.words;
        self.note(Note::Store);
        let whole = match () {
            () if item.is(classes.thawing) => Some(Whole::Thawing),
            () if item.is(classes.counter) => Some(Whole::Counter),
            () if item.is(classes.freezer) => Some(Whole::Freezer),
            () => None,
        };
        match item.meaning(classes.store, words) {
            Some(Meaning::Store(stock)) => Some(Role::From(*stock, whole)),
            _ => Some(Role::Modifier),
        }
    }

    // ---------------------------------------------------------------- what no list has

    /// Takes words that no list has for what their place says they are: a thing behind an amount, a place behind `from`, somebody behind `to`.
    fn guess(&mut self, count: usize) {
        // Where fruit is taken by weight too, only jars speak of a product.
        let jars = (0..count).any(|n| self.clause.types(n).meets(Types::Jars.with(Types::Of)));
        if self.takes(Slots::Product)
            && (jars || !self.takes(Slots::Mass) || self.clause.frame.needs.has(Slots::Product))
        {
            self.guess_product(count);
        }
        let takes_fruit = self.takes(Slots::Crop);
        if takes_fruit && !self.clause.frame.accounts_for_all {
            self.modifiers(count);
        }
        if self.takes(Slots::Place) && !self.roles.iter().any(|(_, role)| matches!(role, Role::Place(_))) {
            self.guess_place(count);
        }
        if takes_fruit && !self.clause.frame.accounts_for_all {
            self.guess_things(count);
        }
        if self.takes(Slots::Variety) {
            self.variety_behind(count);
            self.variety_last(count);
        }
        self.pass_over_recipients(count);
    }

    /// Whether an item has no place of its own: a word of no list, or one that means nothing to this frame.
    fn is_free(&self, n: usize) -> bool {
        let Some(item) = self.clause.item(n) else { return false };
        !self.used.has(n)
            && !self.clause.triggers(n)
            && matches!(item.kind, WordKind::Ordinary | WordKind::Strange | WordKind::Harmless | WordKind::Trade)
    }

    /// `7 lb wrinkled tomatoes`: words between an amount and its thing belong to the thing; a strange one or one with a capital names its
    /// variety.
    fn modifiers(&mut self, count: usize) {
        for n in 0..count {
            let food =
                self.roles.iter().any(|(at, role)| *at == n && matches!(role, Role::Food { .. } | Role::What(_)));
            if !food {
                continue;
            }
            let mut at = n;
            while at > 0 && n - at < 4 && (self.is_free(at - 1) || self.is_capital_name(at - 1)) {
                at -= 1;
            }
            if at == n {
                continue;
            }
            let names = |at: usize| {
                self.clause
                    .item(at)
                    .is_some_and(|item| item.kind == WordKind::Strange || item.capital && at + self.clause.from > 0)
            };
            let first_name = (at..n).find(|at| names(*at));
            self.note(if first_name.is_some() { Note::ModifierStrange } else { Note::Modifier });
            (at..n).for_each(|n| self.used.add(n));
            let ordinary = self.takes(Slots::Variety)
                && first_name.is_none()
                && (at..n).any(|n| self.clause.item(n).is_some_and(|item| item.kind == WordKind::Ordinary));
            self.open.variety |= ordinary;
            if ordinary && self.way.variety {
                self.note(Note::GuessedVarietyOrdinary);
                let name = self.clause.scene.text.said(self.clause.from + at, self.clause.from + n);
                self.name_variety(n, name);
            }
            if let Some(first) = first_name.filter(|_| self.takes(Slots::Variety)) {
                let name = self.clause.scene.text.said(self.clause.from + first, self.clause.from + n);
                self.name_variety(n, name);
            }
        }
    }

    fn name_variety(&mut self, n: usize, name: Option<String>) {
        let place = self.roles.iter_mut().find(|(at, _)| *at == n);
        if let (Some((_, Role::Food { variety: variety @ None, .. })), Some(name)) = (place, name) {
            *variety = Some(name);
        }
    }

    /// Nouns behind amounts that no list has: each amount may have its own.
    fn guess_things(&mut self, count: usize) {
        let is_amount = |role: &Role| {
            matches!(
                role,
                Role::Amount(
                    Value::Weight(_)
                        | Value::Count(_)
                        | Value::Portions(_)
                        | Value::Measure(..)
                        | Value::Number(_)
                        | Value::CountOf(..)
                )
            )
        };
        let mut amounts: SmallVec<[usize; 4]> =
            self.roles.iter().filter(|(_, role)| is_amount(role)).map(|(n, _)| *n).collect();
        amounts.sort_unstable();
        let foods: SmallVec<[usize; 4]> =
            self.roles.iter().filter(|(_, role)| matches!(role, Role::Food { .. })).map(|(n, _)| *n).collect();
        for (at, amount) in amounts.iter().enumerate() {
            let next = amounts.get(at + 1).copied().unwrap_or(count);
            let named = foods.iter().any(|food| (*amount..next).contains(food))
                || at == 0 && foods.iter().any(|food| food < amount);
            let known = self.roles.len();
            if !named {
                self.guess_thing(*amount, count);
                if self.roles.len() == known && !self.way.no_guess {
                    self.guess_thing_before(*amount);
                }
            }
        }
        if !self.roles.iter().any(|(_, role)| matches!(role, Role::Food { .. })) && !self.way.no_guess {
            self.guess_thing_of_deed(count);
        }
        self.roles.sort_by_key(|(n, _)| *n);
    }

    /// `dug the oca, 19 lb`, `cut the Crown Prince this afternoon`: a name right behind the deed, where no other stands.
    fn guess_thing_of_deed(&mut self, count: usize) {
        let classes = self.clause.classes();
        let Some(deed) = (0..count)
            .find(|n| self.clause.triggers(*n) && self.clause.item(*n).is_some_and(|item| item.is(classes.deed)))
        else {
            return;
        };
        let mut at = deed + 1;
        while self.clause.item(at).is_some_and(|item| {
            item.is(classes.article) || item.is(classes.own) || item.is(classes.of) || item.kind == WordKind::Harmless
        }) {
            at += 1;
        }
        let mut end = at;
        while end < count
            && end - at < 3
            && self.is_free(end)
            && self.clause.item(end).is_some_and(|item| item.kind != WordKind::Trade)
        {
            end += 1;
        }
        if end > at {
            self.name_thing(at, end);
        }
    }

    /// `bottle gourd 2 kg, ridge gourd 900 g`: a name right before its amount, at the head of a clause or behind a mark.
    fn guess_thing_before(&mut self, amount: usize) {
        let mut end = amount;
        while end > 0
            && self.clause.item(end - 1).is_some_and(|item| {
                matches!(item.mark, Some(Mark::Comma | Mark::Colon | Mark::Dash))
                    || self.clause.triggers(end - 1)
                    || item.kind == WordKind::Harmless
            })
        {
            end -= 1;
        }
        let mut at = end;
        while at > 0
            && end - at < 3
            && self.is_free(at - 1)
            && self.clause.item(at - 1).is_some_and(|item| item.kind != WordKind::Trade)
        {
            at -= 1;
        }
        let before = at.checked_sub(1).and_then(|n| self.clause.item(n));
        let heads = before.is_none_or(|item| {
            item.mark.is_some() || item.is(self.clause.classes().and) || item.is(self.clause.classes().article)
        });
        let kinds: SmallVec<[WordKind; 3]> =
            (at..end).filter_map(|n| self.clause.item(n)).map(|item| item.kind).collect();
        if !heads || !kinds.iter().any(|kind| matches!(kind, WordKind::Ordinary | WordKind::Strange)) {
            return;
        }
        self.name_thing(at, end);
    }

    fn guess_thing(&mut self, amount: usize, count: usize) {
        let classes = self.clause.classes();
        let mut at = amount + 1;
        while self.clause.item(at).is_some_and(|item| {
            item.is(classes.of)
                || item.is(classes.article)
                || item.is(classes.own)
                || item.is(classes.harmless) && self.is_free(at + 1)
        }) {
            at += 1;
        }
        let mut end = at;
        // `noire de crimée`
        let joins = |n: usize| {
            let strange =
                |n: usize| self.is_free(n) && self.clause.item(n).is_some_and(|item| item.kind == WordKind::Strange);
            self.clause.item(n).is_some_and(|item| item.is(classes.article) && item.to - item.from == 1)
                && strange(n + 1)
        };
        while end < count
            && end - at < 4
            && (self.is_free(end) || end > at && (self.is_capital_name(end) || joins(end)))
        {
            end += 1;
        }
        let kinds: SmallVec<[WordKind; 3]> =
            (at..end).filter_map(|n| self.clause.item(n)).map(|item| item.kind).collect();
        if kinds.is_empty() || kinds.iter().all(|kind| *kind == WordKind::Harmless) {
            return;
        }
        let capital = (at..end).any(|n| self.clause.item(n).is_some_and(|item| item.capital));
        if kinds.contains(&WordKind::Trade) && !capital {
            self.note(Note::Foreign);
            return;
        }
        self.name_thing(at, end);
    }

    fn name_thing(&mut self, at: usize, end: usize) {
        self.open.no_guess = true;
        if self.way.no_guess {
            return;
        }
        let Some(name) = self.clause.scene.text.said(self.clause.from + at, self.clause.from + end) else { return };
        let strange = (at..end).any(|n| {
            self.clause
                .item(n)
                .is_some_and(|item| item.capital && self.clause.from + n > 0 || item.kind == WordKind::Strange)
        });
        let placed = self.roles.iter().any(|(_, role)| matches!(role, Role::Place(_)));
        let heads = at == 0 && self.clause.item(end).is_some_and(|item| item.mark.is_some());
        self.open.place |= heads && self.takes(Slots::Place) && !placed;
        if heads && self.way.place {
            (at..end).for_each(|n| self.used.add(n));
            self.note(Note::GuessedPlace);
            self.roles.push((at, Role::Place(name)));
            return;
        }
        self.open.variety |= self.takes(Slots::Variety);
        let role = if self.way.variety {
            self.note(if strange { Note::GuessedVarietyStrange } else { Note::GuessedVarietyOrdinary });
            Role::Food { crop: None, variety: Some(singular(&name)), product: None, prep: None, ripe: None }
        } else {
            self.note(if strange { Note::GuessedCropStrange } else { Note::GuessedCropOrdinary });
            Role::Food { crop: Some(Crop::of(&singular(&name))), variety: None, product: None, prep: None, ripe: None }
        };
        (at..end).for_each(|n| self.used.add(n));
        self.roles.push((at, role));
    }

    /// A word with a capital inside a name: `Polar Baby`, `Mémé de Beauce`.
    fn is_capital_name(&self, n: usize) -> bool {
        let Some(item) = self.clause.item(n) else { return false };
        let classes = self.clause.classes();
        let capital = |n: usize| {
            self.clause.item(n).is_some_and(|item| {
                item.capital
                    && item.mark.is_none()
                    && item.values.is_empty()
                    && item.kind != WordKind::Voice
                    && !self.used.has(n)
            })
        };
        let joins = item.kind == WordKind::Small
            && item.mark.is_none()
            && item.to - item.from == 1
            && (!item.is(classes.preposition) || self.is_possessive(item));
        capital(n) || joins && capital(n + 1)
    }

    /// `plums: 8 kg picked, Opal`: a variety as the last thing that is said.
    fn variety_last(&mut self, count: usize) {
        let crops = self.roles.iter().filter(|(_, role)| matches!(role, Role::Food { crop: Some(_), .. })).count();
        let Some(comma) = (0..count).rev().find(|n| {
            self.clause.item(*n).is_some_and(|item| matches!(item.mark, Some(Mark::Comma | Mark::Dash | Mark::Colon)))
        }) else {
            return;
        };
        let from = comma + 1;
        let named = |n: usize| self.is_free(n) || self.is_capital_name(n);
        let strange = (from..count)
            .any(|n| self.clause.item(n).is_some_and(|item| item.capital || item.kind == WordKind::Strange));
        let variety = self.roles.iter().any(|(_, role)| matches!(role, Role::Food { variety: Some(_), .. }));
        let place = self.roles.iter().any(|(_, role)| matches!(role, Role::Place(_)));
        if (variety || crops == 1)
            && !place
            && from < count
            && count - from <= 2
            && (from..count).all(|n| self.is_capital_name(n))
            && self.takes(Slots::Place)
            && variety
        {
            // `San Marzano, 4.4 kg, Gewächshaus`: behind a variety it is where they grew.
            if let Some(name) = self.clause.scene.text.said(self.clause.from + from, self.clause.from + count) {
                (from..count).for_each(|n| self.used.add(n));
                self.note(Note::GuessedPlace);
                self.roles.push((from, Role::Place(name)));
            }
            return;
        }
        if crops != 1 || from >= count || count - from > 3 || !(from..count).all(named) || !strange {
            return;
        }
        self.open.no_guess = true;
        if self.way.no_guess {
            return;
        }
        let said = self.clause.scene.text.said(self.clause.from + from, self.clause.from + count);
        self.open.place |= self.takes(Slots::Place) && !place;
        if let Some(name) = said.clone().filter(|_| self.way.place) {
            (from..count).for_each(|n| self.used.add(n));
            self.note(Note::GuessedPlace);
            self.roles.push((from, Role::Place(name)));
            return;
        }
        let crop = self
            .roles
            .iter()
            .find(|(_, role)| matches!(role, Role::Food { crop: Some(_), variety: None, .. }))
            .map(|(n, _)| *n);
        if let Some(n) = crop {
            (from..count).for_each(|n| self.used.add(n));
            self.note(Note::GuessedVarietyStrange);
            self.name_variety(n, said);
        }
    }

    /// `apples, James Grieve`, `tomatoes Savignac`: a variety behind its crop.
    fn variety_behind(&mut self, count: usize) {
        let crops: SmallVec<[usize; 4]> = self
            .roles
            .iter()
            .filter(|(_, role)| matches!(role, Role::Food { crop: Some(_), variety: None, .. }))
            .map(|(n, _)| *n)
            .collect();
        for n in crops {
            let mut at = n + 1;
            if self.clause.item(at).is_some_and(|item| matches!(item.mark, Some(Mark::Comma | Mark::Bracket))) {
                at += 1;
            }
            let mut end = at;
            let name = |n: usize| {
                self.is_free(n)
                    && self.clause.item(n).is_some_and(|item| item.capital || item.kind == WordKind::Strange)
                    || n > at && end_is_name(self, n)
            };
            while end < count && end - at < 3 && name(end) {
                end += 1;
            }
            if end == at {
                // `eggplant fairy tale 6 lb`
                while end < count
                    && end - at < 3
                    && self.is_free(end)
                    && self.clause.item(end).is_some_and(|item| item.kind == WordKind::Ordinary)
                {
                    end += 1;
                }
                let amount = self.clause.item(end).is_some_and(|item| !item.values.is_empty());
                if !amount || at > n + 1 {
                    continue;
                }
            }
            if end == at {
                continue;
            }
            self.open.no_guess = true;
            if self.way.no_guess {
                continue;
            }
            let said = self.clause.scene.text.said(self.clause.from + at, self.clause.from + end);
            (at..end).for_each(|n| self.used.add(n));
            self.note(Note::GuessedVarietyStrange);
            self.name_variety(n, said);
        }
    }

    /// `from the ladies' mile`: a place that no list has.
    fn guess_place(&mut self, count: usize) {
        let classes = self.clause.classes();
        let trigger = (0..count).find(|n| self.clause.triggers(*n)).unwrap_or(0);
        let amount = self
            .roles
            .iter()
            .filter(|(_, role)| matches!(role, Role::Amount(_)))
            .map(|(n, _)| *n)
            .min()
            .unwrap_or(count);
        for n in trigger.min(amount)..count {
            let Some(item) = self.clause.item(n) else { break };
            let leads = item.is(classes.prep_from)
                || item.is(classes.prep_in)
                || item.is(classes.prep_by)
                || item.is(classes.prep_place)
                || item.mark == Some(Mark::At);
            if !leads || self.used.has(n) && !self.clause.triggers(n) {
                continue;
            }
            let mut at = n + 1;
            while self.clause.item(at).is_some_and(|item| item.is(classes.article)) {
                at += 1;
            }
            // `from behind the shed`: the second preposition is part of the name.
            if self.clause.item(at).is_some_and(|item| item.is(classes.prep_place) && !item.is(classes.prep_in)) {
                at += 1;
            }
            let mut end = at;
            let inner = self.clause.item(at.saturating_sub(1)).is_some_and(|item| item.is(classes.prep_place));
            if item.is(classes.prep_place) {
                // `behind the shed`: the preposition is part of the name.
                at = n;
            } else if inner {
                at -= 1;
            }
            while end < count && end - at < 5 && self.may_name(end, end > n + 1) {
                end += 1;
            }
            while end > at && self.clause.item(end - 1).is_some_and(|item| item.kind == WordKind::Small) {
                end -= 1;
            }
            let content = (at..end).any(|n| {
                self.clause.item(n).is_some_and(|item| {
                    matches!(item.kind, WordKind::Ordinary | WordKind::Strange | WordKind::Alien | WordKind::Trade)
                })
            });
            if !content {
                continue;
            }
            if let Some(name) = self.clause.scene.text.said(self.clause.from + at, self.clause.from + end) {
                (at..end).for_each(|n| self.used.add(n));
                self.note(Note::GuessedPlace);
                self.roles.push((at, Role::Place(name)));
            }
            break;
        }
    }

    /// Whether an item can be part of a name that no list has.
    fn may_name(&self, n: usize, inside: bool) -> bool {
        let Some(item) = self.clause.item(n) else { return false };
        if item.is(self.clause.classes().plants) {
            return false;
        }
        if self.used.has(n) || self.clause.triggers(n) {
            // A number inside a name: `bed 3`.
            return inside && self.is_label(n);
        }
        match item.kind {
            WordKind::Ordinary | WordKind::Strange | WordKind::Harmless | WordKind::Alien => true,
            WordKind::Trade => !item.is(self.clause.classes().store),
            WordKind::Voice => item.is(self.clause.classes().kin) || item.is(self.clause.classes().folk),
            WordKind::Value => {
                inside && self.is_label(n)
                    || item.is(self.clause.classes().container) && self.is_label(n + 1)
                    || item.values.iter().any(|value| matches!(value, Value::Place))
            }
            WordKind::Small => inside && (self.is_possessive(item) || self.joins_place(n)),
            _ => false,
        }
    }

    /// `the bit by the shed`: small words inside a place's name.
    fn joins_place(&self, n: usize) -> bool {
        let classes = self.clause.classes();
        let Some(item) = self.clause.item(n) else { return false };
        let joins = item.is(classes.of) || item.is(classes.article) || item.is(classes.prep_by);
        let next = self.clause.item(n + 1).is_some_and(|next| {
            matches!(
                next.kind,
                WordKind::Ordinary | WordKind::Strange | WordKind::Alien | WordKind::Harmless | WordKind::Trade
            ) || next.is(classes.article)
                || next.values.iter().any(|value| matches!(value, Value::Place))
        });
        joins && next && !item.is(classes.and)
    }

    fn is_label(&self, n: usize) -> bool {
        let Some(item) = self.clause.item(n) else { return false };
        let number = item
            .values
            .iter()
            .any(|value| matches!(value, Value::Number(figure) if figure.number.as_count().is_some_and(|n| n < 200)));
        number && item.to - item.from == 1 && !self.roles.iter().any(|(at, _)| *at == n)
    }

    /// A product that no list has, or whose name has more words than the list knows: `fire salsa`, `kidney beans`, `ham and beans`.
    fn guess_product(&mut self, count: usize) {
        let known: SmallVec<[usize; 4]> = self
            .roles
            .iter()
            .filter(|(_, role)| matches!(role, Role::Food { product: Some(_), .. }))
            .map(|(n, _)| *n)
            .collect();
        if !known.is_empty() {
            known.iter().for_each(|n| self.widen_product(*n, count));
        }
        // Each number of jars may have a name of its own behind it.
        let jars: SmallVec<[usize; 4]> = self
            .roles
            .iter()
            .filter(|(_, role)| matches!(role, Role::Amount(Value::Jars(jars)) if jars.count.is_some()))
            .map(|(n, _)| *n)
            .collect();
        if known.is_empty() && jars.len() < 2 {
            // `gave Heather a jar`: who stands between the deed and the jars is no product.
            let from = jars.first().copied().filter(|_| self.clause.frame.kind == Kind::Gave).unwrap_or(0);
            self.guess_product_in(from, count);
        } else if jars.len() > 1 {
            for (at, from) in jars.iter().enumerate() {
                let to = jars.get(at + 1).copied().unwrap_or(count);
                if !known.iter().any(|known| (*from..to).contains(known)) {
                    self.guess_product_in(from + 1, to);
                }
            }
        }
    }

    fn guess_product_in(&mut self, from: usize, count: usize) {
        let classes = self.clause.classes();
        let mut at = from;
        while at < count {
            // `3 pints for the soup`: what it is for is not what it is.
            let told = matches!(
                self.clause.frame.kind,
                Kind::PutUp | Kind::Opened | Kind::Gave | Kind::Counted | Kind::Filled
            );
            let leads = |item: &Item| {
                item.is(classes.prep_for) || item.is(classes.prep_to) || item.is(classes.prep_with) && told
            };
            if self.clause.item(at).is_some_and(leads) && !self.used.has(at) {
                return;
            }
            let mut end = at;
            while end < count && end - at < 5 && (self.may_be_food(end) || end > at && self.joins_food(end)) {
                end += 1;
            }
            let content = (at..end).any(|n| {
                self.clause.item(n).is_some_and(|item| {
                    item.is(classes.dish)
                        || item.is(classes.crop)
                        || item.is(classes.variety)
                        || matches!(item.kind, WordKind::Ordinary | WordKind::Strange | WordKind::Alien)
                })
            });
            if content {
                self.name_product(at, end);
                return;
            }
            at = end.max(at) + 1;
        }
    }

    /// Takes in the words around a known product that make it another one.
    fn widen_product(&mut self, n: usize, count: usize) {
        let (mut first, mut end) = (n, n + 1);
        while first > 0
            && n - first < 4
            && (self.makes_another(first - 1)
                || first > 1 && self.joins_food(first - 1) && self.makes_another(first - 2))
        {
            first -= 1;
        }
        while end < count && end - n < 4 && self.extends_food(end) {
            end += 1;
        }
        if end - first < 2 {
            return;
        }
        self.name_product(first, end);
    }

    fn name_product(&mut self, first: usize, end: usize) {
        let Some(name) = self.clause.scene.text.said(self.clause.from + first, self.clause.from + end) else { return };
        (first..end).for_each(|n| self.used.add(n));
        self.note(Note::GuessedProduct);
        self.roles.retain(|(n, role)| {
            !((first..end).contains(n)
                && matches!(role, Role::Food { .. } | Role::Prep(_) | Role::Modifier | Role::Ripe(_) | Role::Pack(_)))
        });
        let product = Some(Product::named(&name));
        self.roles.push((first, Role::Food { crop: None, variety: None, product, prep: None, ripe: None }));
        self.roles.sort_by_key(|(n, _)| *n);
    }

    /// Whether a word right before a product is part of what it is: neither how big or how good it is, nor a word of the sentence.
    fn makes_another(&self, n: usize) -> bool {
        let Some(item) = self.clause.item(n) else { return false };
        let classes = self.clause.classes();
        if self.clause.triggers(n) && !item.is(classes.dish) {
            return false;
        }
        let food = self
            .roles
            .iter()
            .any(|(at, role)| *at == n && matches!(role, Role::Food { .. } | Role::Prep(_) | Role::Ripe(_)));
        if self.used.has(n) && !food {
            return false;
        }
        match item.kind {
            WordKind::Ordinary | WordKind::Strange | WordKind::Alien => true,
            WordKind::Trade => {
                [
                    classes.crop,
                    classes.variety,
                    classes.dish,
                    classes.prep,
                    classes.ripe,
                    classes.product,
                    classes.dryable,
                ]
                .into_iter()
                .any(|class| item.is(class))
                    && !item.is(classes.pack)
                    && !item.is(classes.beside)
            }
            // Whose sauce it is names a recipe; whose peaches they are changes nothing.
            WordKind::Voice => {
                item.is(classes.kin)
                    && self.clause.item(n + 1).is_some_and(|next| self.is_possessive(next))
                    && !self.clause.item(n + 2).is_some_and(|next| next.is(classes.crop))
            }
            WordKind::Deed => item.is(classes.dry_past),
            _ => food,
        }
    }

    /// Whether a word right behind a product goes on with its name: `apple rings`, `pie filling`.
    fn extends_food(&self, n: usize) -> bool {
        let Some(item) = self.clause.item(n) else { return false };
        let classes = self.clause.classes();
        let food = self.roles.iter().any(|(at, role)| *at == n && matches!(role, Role::Food { .. } | Role::Prep(_)));
        if self.clause.triggers(n) && !item.is(classes.dish) || self.used.has(n) && !food {
            return false;
        }
        let foreign =
            n.checked_sub(1).and_then(|n| self.clause.item(n)).is_some_and(|before| before.kind == WordKind::Strange);
        item.is(classes.dish)
            || item.is(classes.dryable) && !item.is(classes.prep)
            || item.kind == WordKind::Strange && !item.capital
            || item.kind == WordKind::Ordinary && foreign
    }

    fn may_be_food(&self, n: usize) -> bool {
        let Some(item) = self.clause.item(n) else { return false };
        let classes = self.clause.classes();
        let food = self.roles.iter().any(|(at, role)| *at == n && matches!(role, Role::Food { .. } | Role::Prep(_)));
        if food {
            return true;
        }
        if self.used.has(n) || self.clause.triggers(n) && !item.is(classes.dish) {
            return false;
        }
        match item.kind {
            WordKind::Ordinary | WordKind::Strange | WordKind::Alien => true,
            WordKind::Trade => {
                [classes.crop, classes.variety, classes.dish, classes.prep, classes.ripe, classes.dryable]
                    .into_iter()
                    .any(|class| item.is(class))
            }
            WordKind::Harmless => {
                item.is(classes.dish)
                    || self.clause.item(n + 1).is_some_and(|next| {
                        next.is(classes.dish) || matches!(next.kind, WordKind::Ordinary | WordKind::Strange)
                    })
            }
            WordKind::Voice => item.is(classes.kin) && self.clause.item(n + 1).is_some(),
            WordKind::Deed => item.is(classes.dry_past) && self.clause.item(n + 1).is_some(),
            _ => item.is(classes.dish),
        }
    }

    /// `'s`, `and`, `in` inside a name.
    fn joins_food(&self, n: usize) -> bool {
        let Some(item) = self.clause.item(n) else { return false };
        let classes = self.clause.classes();
        self.is_possessive(item)
            || (item.is(classes.and) || item.is(classes.prep_in)) && item.to - item.from == 1 && self.may_be_food(n + 1)
    }

    fn is_possessive(&self, item: &Item) -> bool {
        let glued = self.clause.scene.text.lexed.tokens.get(item.from as usize).is_some_and(|token| token.glued);
        glued && item.kind == WordKind::Small && item.mark.is_none()
    }

    /// `to the food bank`, `for supper`: somebody or something that the statement does not keep.
    fn pass_over_recipients(&mut self, count: usize) {
        let classes = self.clause.classes();
        let mut n = 0;
        while n < count {
            let leads = self.clause.item(n).is_some_and(|item| {
                (item.is(classes.prep_to)
                    || item.is(classes.prep_for)
                    || item.is(classes.prep_with) && self.clause.frame.kind == Kind::Opened)
                    && !self.used.has(n)
            });
            n += 1;
            if !leads {
                continue;
            }
            let mut end = n;
            while end < count && end - n < 5 {
                let Some(item) = self.clause.item(end) else { break };
                let free = !self.used.has(end)
                    && !self.clause.triggers(end)
                    && (item.kind == WordKind::Small
                        || matches!(
                            item.kind,
                            WordKind::Ordinary | WordKind::Strange | WordKind::Harmless | WordKind::Alien
                        )
                        || item.is(classes.kin)
                        || item.is(classes.folk)
                        || item.is(classes.own)
                        || item.is(classes.daypart));
                if !free || item.is(classes.and) {
                    break;
                }
                end += 1;
            }
            let content = (n..end).any(|n| self.clause.item(n).is_some_and(|item| item.kind != WordKind::Small));
            if content {
                self.note(Note::Recipient);
                (n..end).for_each(|n| self.used.add(n));
                n = end;
            }
        }
    }

    // ---------------------------------------------------------------- corrections in the same breath

    /// `16 lb, no wait, 18`: the last figure of its kind counts.
    fn correct_in_place(&mut self) {
        let classes = self.clause.classes();
        // `at no 9` is an address.
        let led = |n: usize| {
            n.checked_sub(1)
                .and_then(|n| self.clause.item(n))
                .is_some_and(|item| item.is(classes.at) || item.is(classes.prep_to))
        };
        let oops: SmallVec<[usize; 2]> = (0..self.clause.items().len())
            .filter(|n| self.clause.item(*n).is_some_and(|item| item.is(classes.oops)) && !led(*n))
            .collect();
        for at in oops {
            if let Some(n) = self.role_taken_back(at) {
                self.note(Note::Corrected);
                self.used.add(at);
                self.roles.remove(n);
            }
            let behind = self.roles.iter().position(|(n, role)| *n > at && matches!(role, Role::Amount(_)));
            let before = self.roles.iter().rposition(|(n, role)| *n < at && matches!(role, Role::Amount(_)));
            let (Some(behind), Some(before)) = (behind, before) else { continue };
            let (Some((_, Role::Amount(new))), Some((_, Role::Amount(old)))) =
                (self.roles.get(behind).cloned(), self.roles.get(before).cloned())
            else {
                continue;
            };
            let Some(corrected) = supersede(old, new) else { continue };
            self.note(Note::Corrected);
            self.used.add(at);
            if let Some(place) = self.roles.get_mut(before) {
                place.1 = Role::Amount(corrected);
            }
            self.roles.remove(behind);
        }
        // `14 lb not 12`: the figure behind is the one that was wrong.
        let not: SmallVec<[usize; 2]> = (0..self.clause.items().len())
            .filter(|n| self.clause.item(*n).is_some_and(|item| item.is(classes.correct_not)))
            .collect();
        for at in not {
            let behind = self.roles.iter().position(|(n, role)| *n == at + 1 && matches!(role, Role::Amount(_)));
            let before = self.roles.iter().any(|(n, role)| *n + 1 == at && matches!(role, Role::Amount(_)));
            if let Some(behind) = behind.filter(|_| before) {
                self.note(Note::Corrected);
                self.used.add(at);
                self.roles.remove(behind);
            }
        }
    }

    /// The role before a word that takes something back, where the next behind it is of the same sort: `in the back forty, no, the hoop`.
    fn role_taken_back(&self, at: usize) -> Option<usize> {
        let behind = self.roles.iter().filter(|(n, _)| *n > at).min_by_key(|(n, _)| *n)?;
        let same = |role: &Role| {
            !matches!(role, Role::Amount(_) | Role::Modifier | Role::Vague)
                && std::mem::discriminant(role) == std::mem::discriminant(&behind.1)
        };
        let before = self
            .roles
            .iter()
            .enumerate()
            .filter(|(_, (n, role))| *n < at && same(role))
            .max_by_key(|(_, (n, _))| *n)?;
        Some(before.0)
    }

    // ---------------------------------------------------------------- groups

    /// The roles in groups of one thing with its amounts.
    fn groups(&mut self) -> SmallVec<[Vec<(usize, Role)>; 2]> {
        self.sum_listed();
        let mut roles = std::mem::take(&mut self.roles);
        roles.sort_by_key(|(n, _)| *n);
        if !self.takes(Slots::List) {
            return [roles].into_iter().collect();
        }
        // `1 l of lemon juice` is an amount, though it is a size of jars too.
        let bought = self.clause.frame.kind == Kind::Bought;
        let is_amount = |role: &Role| match role {
            Role::Amount(Value::Share(_)) => false,
            Role::Amount(Value::Jars(jars)) => jars.count.is_some() || bought,
            role => matches!(role, Role::Amount(_)),
        };
        let dried = self.clause.frame.kind == Kind::Dried;
        let is_thing =
            |role: &Role| matches!(role, Role::Food { .. } | Role::Supply(_)) || dried && matches!(role, Role::What(_));
        let first_thing = roles.iter().position(|(_, role)| is_thing(role));
        let first_amount = roles.iter().position(|(_, role)| is_amount(role));
        // A day before the first amount heads its group; one behind it closes it.
        let day_first = matches!((roles.iter().position(|(_, role)| matches!(role, Role::When(_))), first_amount), (Some(day), Some(amount)) if day < amount);
        let thing_first = matches!((first_thing, first_amount), (Some(thing), Some(amount)) if thing < amount);
        let mut groups: SmallVec<[Vec<(usize, Role)>; 2]> = SmallVec::new();
        let mut current: Vec<(usize, Role)> = Vec::new();
        let mut rest = roles.into_iter().peekable();
        while let Some((n, role)) = rest.next() {
            let has_amount = current.iter().any(|(_, role)| is_amount(role));
            let has_thing = current.iter().any(|(_, role)| is_thing(role));
            let jars_named = self.clause.frame.kind == Kind::Bought && current.iter().any(|(_, role)| matches!(role, Role::Amount(Value::Jars(jars)) if jars.count.is_some() && jars.jar.is_some()));
            // A bare figure beside an amount, with no thing of its own, belongs to nothing.
            if matches!(role, Role::Amount(Value::Number(_)))
                && has_amount
                && !rest.peek().is_some_and(|(_, next)| is_thing(next))
                && !(thing_first && current.last().is_some_and(|(_, last)| is_thing(last)) && !has_thing)
            {
                self.note(Note::NumberLeft);
                self.used.remove(n);
                continue;
            }
            if has_amount
                && is_amount(&role)
                && self.takes_place_of(&mut current, n, &role, rest.peek().map(|(_, next)| next))
            {
                continue;
            }
            let begins = if matches!(role, Role::When(_))
                && day_first
                && has_amount
                && rest.peek().is_some_and(|(_, next)| is_amount(next))
            {
                rest.peek().is_some_and(|(_, next)| !self.combine(&current, next))
            } else if is_amount(&role)
                && self.clause.frame.kind == Kind::Bought
                && has_amount
                && (jars_named || has_thing && !thing_first || has_thing && self.is_jar_supply(&current, &role))
                && !self.measures_same(&current, &role)
            {
                true
            } else if is_amount(&role) {
                let thing_follows = rest.peek().is_some_and(|(_, next)| is_thing(next));
                let fits = self.combine(&current, &role);
                has_amount && (!fits || has_thing && thing_follows && !thing_first)
            } else if is_thing(&role)
                && self.clause.frame.kind == Kind::Planted
                && has_thing
                && !self.same_thing(&current, &role)
                && !has_amount
            {
                true
            } else if is_thing(&role) && dried && current.last().is_some_and(|(at, last)| is_thing(last) && at + 1 == n)
            {
                false
            } else if is_thing(&role) {
                if thing_first {
                    has_amount && has_thing
                } else {
                    has_thing && has_amount && !self.same_thing(&current, &role) && self.amount_before_next_thing(&rest)
                }
            } else {
                false
            };
            if begins && !current.is_empty() {
                groups.push(std::mem::take(&mut current));
            }
            current.push((n, role));
        }
        if !current.is_empty() {
            groups.push(current);
        }
        groups
    }

    /// `5 trays of halves, 6 trays, found room`: an amount of the same sort with nothing of its own, which says the first one anew.
    fn takes_place_of(&mut self, current: &mut [(usize, Role)], n: usize, role: &Role, next: Option<&Role>) -> bool {
        let Role::Amount(new) = role else { return false };
        let alone = !matches!(
            next,
            Some(Role::Food { .. } | Role::What(_) | Role::Supply(_) | Role::Ripe(_) | Role::Place(_) | Role::When(_))
        );
        let joined =
            n.checked_sub(1).and_then(|n| self.clause.item(n)).is_some_and(|item| item.is(self.clause.classes().and));
        let last = current.iter_mut().rfind(|(_, role)| matches!(role, Role::Amount(_)));
        let Some((_, Role::Amount(old))) = last else { return false };
        let same = std::mem::discriminant(old) == std::mem::discriminant(new)
            || matches!((&*old, new), (Value::Weight(_) | Value::Count(_), Value::Number(_)));
        let Some(corrected) = supersede(*old, *new).filter(|_| alone && !joined && same) else { return false };
        self.open.later = true;
        if self.way.later {
            *old = corrected;
            self.note(Note::Corrected);
        }
        self.way.later
    }

    /// `2 bags frozen, 7 and 6.5 lb`: as many weights as bags are those of the bags.
    fn sum_listed(&mut self) {
        let count = self.roles.iter().find_map(|(n, role)| match role {
            Role::Amount(Value::Count(count)) => count.count.as_count().map(|bags| (*n, bags, count.container)),
            _ => None,
        });
        let Some((at, bags, container)) = count.filter(|(_, bags, _)| (2..20).contains(bags)) else { return };
        let weights: SmallVec<[(usize, Option<Weight>, Number); 6]> = self
            .roles
            .iter()
            .filter(|(n, _)| *n > at)
            .filter_map(|(n, role)| match role {
                Role::Amount(Value::Weight(weight)) => Some((*n, Some(*weight), weight.figure)),
                Role::Amount(Value::Number(figure)) if !figure.article => Some((*n, None, figure.number)),
                _ => None,
            })
            .collect();
        let unit = weights.iter().rev().find_map(|(_, weight, _)| *weight).map(|weight| weight.unit);
        let Some(unit) = unit.filter(|_| weights.len() == bags as usize) else { return };
        let total = weights.iter().try_fold(Mass::ZERO, |sum, (_, weight, number)| {
            sum.checked_add(weight.map_or_else(|| unit.times(*number), |weight| Some(weight.mass))?)
        });
        let Some(total) = total else { return };
        let whole = Portions {
            count: bags,
            container: Some(container),
            each: None,
            total,
            plainly: true,
            fluid: None,
            metric: false,
        };
        self.roles.retain(|(n, _)| *n != at && !weights.iter().any(|(other, ..)| other == n));
        self.roles.push((at, Role::Amount(Value::Portions(whole))));
    }

    /// Jars of a size behind another thing that was bought.
    fn is_jar_supply(&self, current: &[(usize, Role)], role: &Role) -> bool {
        let other = current.iter().any(|(_, role)| matches!(role, Role::Supply(supply) if *supply != Supply::Jars));
        other && matches!(role, Role::Amount(Value::Jars(jars)) if jars.count.is_some() && !jars.article)
    }

    /// `a bottle of lemon juice, 32 oz`: two amounts of one thing.
    fn measures_same(&self, current: &[(usize, Role)], role: &Role) -> bool {
        let vessel = current.iter().any(|(_, role)| match role {
            Role::Amount(Value::Jars(jars)) => jars.jar.is_none(),
            Role::Amount(Value::Count(count)) => {
                matches!(count.container, Container::Bottle | Container::Box | Container::Tub)
            }
            _ => false,
        });
        vessel
            && matches!(role, Role::Amount(Value::Weight(_) | Value::Volume(..) | Value::Count(_) | Value::Number(_)))
    }

    fn amount_before_next_thing(&self, rest: &std::iter::Peekable<std::vec::IntoIter<(usize, Role)>>) -> bool {
        let mut ahead = rest.clone();
        ahead.next().is_some_and(|(_, role)| matches!(role, Role::Amount(_)))
    }

    /// `roma tomatoes`, `green beans, french`: two words for one thing.
    fn same_thing(&self, current: &[(usize, Role)], role: &Role) -> bool {
        let Role::Food { crop, variety, .. } = role else { return false };
        current.iter().any(|(_, known)| match known {
            Role::Food { crop: other, variety: kind, .. } => {
                variety.is_some() != kind.is_some() && (crop.is_none() || other.is_none() || crop == other)
            }
            _ => false,
        })
    }

    /// Whether an amount can be of the same group as those before it: a count and a weight.
    fn combine(&self, current: &[(usize, Role)], role: &Role) -> bool {
        let Role::Amount(value) = role else { return true };
        let sort = |value: &Value| match value {
            Value::Weight(_) | Value::Measure(..) => 1,
            Value::Count(_) => 2,
            Value::Portions(_) | Value::CountOf(..) => 3,
            Value::Jars(jars) if jars.count.is_some() => 4,
            Value::Jars(_) => 0,
            Value::OutOf(_) => 4,
            Value::Number(_) => 5,
            Value::Volume(..) => 6,
            _ => 7,
        };
        let amounts = || {
            current.iter().filter_map(|(_, role)| match role {
                Role::Amount(value) => Some(value),
                _ => None,
            })
        };
        let known: SmallVec<[u8; 4]> = amounts().map(sort).collect();
        let measured = amounts().any(|value| matches!(value, Value::Measure(..)));
        // The same weight said twice: `6.25 kg in 5 bags of 1.25 kg`.
        let again = match value {
            Value::Portions(new) => {
                amounts().any(|value| matches!(value, Value::Weight(weight) if close(weight.mass, new.total)))
            }
            Value::Weight(new) => amounts().any(|value| match value {
                Value::Portions(portions) => close(new.mass, portions.total),
                Value::Weight(weight) => new.mass == weight.mass,
                _ => false,
            }),
            _ => false,
        };
        let new = sort(value);
        match new {
            1 | 3 if again => true,
            // `2 jars of piccalilli, the 500 ml`: the size of the same.
            4 if amounts()
                .any(|value| matches!(value, Value::Jars(jars) if jars.count.is_some() && jars.jar.is_none()))
                && matches!(value, Value::Jars(jars) if jars.article) =>
            {
                true
            }
            1 if measured && known.len() == 1 => true,
            1 => !known.iter().any(|sort| matches!(sort, 1 | 3)),
            2 => !known.iter().any(|sort| matches!(sort, 2 | 3)),
            3 if matches!(value, Value::Portions(Portions { count: 1, .. })) => {
                !known.iter().any(|sort| matches!(sort, 1 | 3))
            }
            3 => !known.iter().any(|sort| matches!(sort, 1..=3)),
            4 => !known.contains(&4),
            5 if self.measures_same(current, role) => true,
            _ => !known.contains(&new) && !(new == 5 && !known.is_empty()),
        }
    }

    // ---------------------------------------------------------------- records

    fn put(&mut self, record: &mut Record, n: usize, role: Role) {
        match role {
            Role::Amount(value) => self.put_amount(record, n, value),
            Role::Food { crop, variety, product, prep, ripe } => {
                // A second thing of another name is not taken in with the first.
                let other = |a: bool, b: bool| a && b;
                let another_product = other(product.is_some() && record.product.is_some(), product != record.product);
                let another_crop = other(crop.is_some() && record.crop.is_some(), crop != record.crop);
                let another_variety = other(variety.is_some() && record.variety.is_some(), variety != record.variety);
                if another_product || another_crop || another_variety {
                    self.used.remove(n);
                }
                record.crop = record.crop.or(crop);
                record.variety = record.variety.take().or(variety);
                record.product = record.product.take().or(product);
                record.prep = record.prep.or(prep);
                record.ripe = record.ripe.or(ripe);
            }
            // `shelled peas, blanched`: what is said behind the food was done to it.
            Role::Prep(prep) if record.crop.is_some() && record.prep.is_some() => record.prep = Some(prep),
            Role::Prep(prep) => record.prep = record.prep.or(Some(prep)),
            Role::Ripe(ripe) => record.ripe = record.ripe.or(Some(ripe)),
            Role::Place(place) => self.first(n, &mut record.place, place),
            Role::From(stock, whole) => {
                self.first(n, &mut record.from, stock);
                record.whole = record.whole.or(whole);
            }
            Role::Supply(supply) => self.first(n, &mut record.supply, supply),
            Role::Canner(canner) => record.canner = Some(record.canner.map_or(canner, |known| finer(known, canner))),
            Role::Pack(pack) => self.first(n, &mut record.pack, pack),
            Role::Batch(batch) => self.first(n, &mut record.batch, batch),
            Role::What(what) => record.what = record.what.take().or(Some(what)),
            Role::Kept(kept) => record.kept = record.kept.or(Some(kept)),
            Role::Vague => record.vague = true,
            Role::When(dated) => record.day = record.day.or(Some(dated)),
            Role::Modifier => {}
        }
    }

    /// Fills a place that is empty; what finds it taken by something else stays unaccounted.
    fn first<T: PartialEq>(&mut self, n: usize, place: &mut Option<T>, value: T) {
        match place {
            None => *place = Some(value),
            Some(known) if *known != value => self.used.remove(n),
            Some(_) => {}
        }
    }

    fn put_amount(&mut self, record: &mut Record, n: usize, value: Value) {
        match value {
            Value::Weight(weight) => self.put_weight(record, n, weight),
            Value::Measure(n, measure) => {
                self.note(Note::Measure);
                record.measure = Some((n, measure));
            }
            Value::Volume(volume, _) => {
                self.note(Note::Volume);
                record.volume = record.volume.or(Some(volume));
            }
            Value::Count(count) => {
                self.note(Note::Count);
                let n = count.count.as_count();
                match count.container {
                    Container::Tray => record.trays = record.trays.or(n),
                    Container::Box => record.boxes = record.boxes.or(n),
                    Container::Bottle => record.bottles = record.bottles.or(n),
                    // How much is in them, nobody knows.
                    Container::Tub => record.tubs = record.tubs.or(n),
                    _ => record.bags = record.bags.or(n),
                }
                // `2 lb each, 3 bags`
                if let (Some(each), Some(bags)) = (record.each_first.take(), record.bags) {
                    self.note(Note::Portions);
                    record.each = Some(each);
                    record.mass = each.times(Number::whole(bags.into()));
                }
            }
            // `9 bags of okra at a pound and a half a bag`
            Value::Portions(Portions { count: 1, each: Some(each), .. })
                if record.bags.is_some_and(|bags| bags > 1) && record.mass.is_none() =>
            {
                self.note(Note::Portions);
                record.each = Some(each);
                record.mass = record.bags.and_then(|bags| each.times(Number::whole(bags.into())));
            }
            Value::Portions(portions) => {
                self.note(if portions.plainly { Note::Portions } else { Note::PerhapsEach });
                match portions.container {
                    Some(Container::Tray) if self.takes(Slots::Trays) => record.trays = Some(portions.count),
                    _ => record.bags = Some(portions.count),
                }
                record.each = portions.each;
                record.mass = Some(portions.total);
                record.fluid = portions.fluid;
                record.portion_box = portions.container == Some(Container::Box);
            }
            Value::CountOf(count, n) => {
                self.note(Note::Count);
                record.bags = count.count.as_count();
                record.each_number = Some(n);
            }
            Value::Jars(jars) => {
                self.note(match (jars.count, jars.jar) {
                    (Some(_), Some(_)) => Note::Jars,
                    (None, _) => Note::JarSize,
                    (_, None) => Note::JarWord,
                });
                if record.jars.is_none() {
                    record.jars = jars.count.and_then(Number::as_count);
                }
                record.jar = record.jar.or(jars.jar);
            }
            Value::OutOf(out) => {
                self.note(Note::OutOf);
                record.jars = Some(out.jars);
                record.of = Some(out.of);
                record.jar = record.jar.or(out.jar);
            }
            Value::Number(figure) => self.put_number(record, figure.number),
            Value::Share(share) => {
                self.note(Note::Share);
                if share == Share::It && self.clause.frame.kind == Kind::Froze {
                    self.open.ask = true;
                    if self.way.ask {
                        return;
                    }
                }
                let part = match share {
                    Share::Part(part) => part,
                    _ => Number::whole(1),
                };
                if share == Share::Rest {
                    self.note(Note::Rest);
                }
                record.share = record.share.or(Some(part));
            }
            Value::Duration(seconds) => record.seconds = record.seconds.or(Some(seconds)),
            Value::Temperature(n, celsius) => record.temp = self.of_room(n, celsius),
            Value::Pressure(psi) => record.psi = Some(psi),
            Value::Height(height) => {
                record.height = Some(height.length);
                record.doubtful = height.doubtful;
            }
            _ => {}
        }
    }

    fn put_weight(&mut self, record: &mut Record, n: usize, weight: Weight) {
        if self.takes(Slots::Psi) && !weight.unit.is_zero() && record.psi.is_none() {
            // `at 11 pounds`: read off a gauge.
            if weight.unit == Mass::POUND {
                self.note(Note::PsiFromMass);
                record.psi = Pressure::from_psi(weight.figure.as_f64());
            }
            return;
        }
        if !self.takes(Slots::Mass) {
            record.volume = record.volume.or(weight.fluid);
            return;
        }
        self.note(if weight.range { Note::Range } else { Note::Mass });
        let each = self.clause.item(n + 1).is_some_and(|next| next.is(self.clause.classes().each));
        let at = n.checked_sub(1).and_then(|n| self.clause.item(n)).is_some_and(|item| {
            item.is(self.clause.classes().at) || item.is(self.clause.classes().of) && item.to - item.from == 1
        });
        let count = record.jars.or(record.bags).or(record.trays);
        if (each || at && record.bags.is_some())
            && let Some(count) = count.filter(|_| record.mass.is_none())
        {
            // `7 quarts, 5 lb each`; `two bags of tomatoes at 4 lb`
            if each {
                self.used.add(n + 1);
            }
            self.note(Note::Portions);
            record.each = Some(weight.mass).filter(|_| record.jars.is_none());
            record.mass = weight.mass.times(Number::whole(count.into()));
            return;
        }
        if each && count.is_none() {
            self.used.add(n + 1);
            record.each_first = Some(weight.mass);
        }
        record.approx |= weight.range;
        record.fluid = weight.fluid;
        record.unit = Some(weight.unit);
        if record.each.is_some() || record.mass.is_some() {
            return;
        }
        let whole = [n + 1, n.wrapping_sub(1)]
            .into_iter()
            .any(|n| self.clause.item(n).is_some_and(|item| item.is(self.clause.classes().total)));
        if record.bags.is_some() && !whole {
            self.open.each = true;
            if self.way.each {
                self.note(Note::EachOfCount);
                record.each = Some(weight.mass);
                record.mass = record.bags.and_then(|bags| weight.mass.times(Number::whole(bags.into())));
                return;
            }
            self.note(Note::TotalOfCount);
        }
        record.mass = Some(weight.mass);
    }

    fn put_number(&mut self, record: &mut Record, number: Number) {
        let amount = record.mass.is_some() || record.bags.is_some() || record.jars.is_some() || record.volume.is_some();
        // `needle zero, jars out`: no jars is no number of jars.
        if number == Number::whole(0) && is_about_jars(self.clause.frame.kind) {
            return;
        }
        if self.takes(Slots::Psi) && record.psi.is_none() {
            self.note(Note::PsiFromNumber);
            record.psi = Pressure::from_psi(number.as_f64());
            return;
        }
        let boxed = record.boxes.is_some() && record.number.is_none();
        if (amount || record.number.is_some()) && !boxed {
            // Never added to a weight that stands beside it.
            self.note(Note::NumberLeft);
            return;
        }
        self.note(Note::Number);
        if self.takes(Slots::Mass)
            && let Some(unit) = self.unit_before()
        {
            self.open.carry = true;
            if self.way.carry {
                self.note(Note::UnitCarried);
                record.mass = unit.times(number);
                record.unit = Some(unit);
                return;
            }
        }
        record.number = Some(number);
    }

    /// `of which I froze 2 lb`, `froze 1 kg of them`: the crop that was spoken of before.
    fn crop_of_them(&self) -> Option<Crop> {
        let text = self.clause.scene.text;
        let classes = self.clause.classes();
        let refers = |n: usize| {
            let of = |item: &Item| {
                let last = item
                    .to
                    .checked_sub(1)
                    .and_then(|at| text.lexed.tokens.get(at as usize))
                    .map(|token| text.words.number(text.lexed.folded(token)));
                item.is(classes.of)
                    || item.to - item.from > 1 && last.is_some_and(|word| text.words.is(word, classes.of))
            };
            text.items.get(n).is_some_and(of)
                && text.items.get(n + 1).is_some_and(|next| {
                    next.is(classes.share_it)
                        || next.is(classes.pronoun)
                        || next.is(classes.question)
                        || next.is(classes.that)
                })
        };
        if !(self.clause.from.saturating_sub(2)..self.clause.to).any(refers) {
            return None;
        }
        text.items.get(..self.clause.from)?.iter().rev().find_map(|item| match item.meaning(classes.crop, text.words) {
            Some(Meaning::Crop(crop)) => Some(*crop),
            _ => None,
        })
    }

    /// The unit of the last weight that was said before the clause.
    fn unit_before(&self) -> Option<Mass> {
        let before = self.clause.scene.text.items.get(..self.clause.from)?;
        before.iter().rev().find_map(|item| {
            item.values.iter().find_map(|value| match value {
                Value::Weight(weight) => Some(weight.unit),
                _ => None,
            })
        })
    }

    /// `43 lb in all: 28 lb of romas, 15 lb of plums`: a first weight that is the sum of the others is none of its own.
    fn leave_total(&mut self, records: &mut SmallVec<[Record; 2]>) {
        let sum = records.iter().skip(1).try_fold(Mass::ZERO, |sum, record| sum.checked_add(record.mass?));
        let total = records
            .first()
            .filter(|first| first.crop.is_none() && first.variety.is_none())
            .and_then(|first| first.mass);
        if let (Some(total), Some(sum)) = (total, sum)
            && records.len() > 2
            && close(total, sum)
        {
            records.remove(0);
        }
    }

    /// What groups leave to each other: the unit of a bare number, the product of jars, the place.
    fn share_between(&mut self, records: &mut SmallVec<[Record; 2]>) {
        if records.len() < 2 {
            return;
        }
        let unit = records.iter().find_map(|record| record.unit);
        let jar = records.iter().find_map(|record| record.jar);
        for at in 0..records.len() {
            let bare = records.get(at).and_then(|record| record.number).filter(|_| self.takes(Slots::Mass));
            let (Some(number), Some(record)) = (bare, records.get_mut(at)) else { continue };
            if let Some(unit) = unit.filter(|_| record.supply.is_none()) {
                self.note(Note::UnitCarried);
                record.mass = unit.times(number);
                record.number = None;
            } else if let Some(jar) = jar.filter(|_| self.takes(Slots::Jars)) {
                record.jars = number.as_count();
                record.jar = Some(jar);
                record.number = None;
            }
        }
        let named = |record: &Record| record.crop.is_some() || record.variety.is_some();
        let placed = |record: &Record| record.place.is_some();
        if records.iter().rev().skip(1).all(|record| !placed(record)) && records.last().is_some_and(placed) {
            self.open.common = true;
            if self.way.common {
                self.note(Note::Common);
                let place = records.last().and_then(|last| last.place.clone());
                records.iter_mut().for_each(|record| record.place.clone_from(&place));
            }
        }
        if records.iter().rev().skip(1).all(|record| !named(record)) && records.last().is_some_and(named) {
            self.open.common = true;
            if self.way.common {
                self.note(Note::Common);
                let (crop, variety) = records.last().map_or((None, None), |last| (last.crop, last.variety.clone()));
                for record in records.iter_mut() {
                    record.crop = crop;
                    record.variety.clone_from(&variety);
                }
            }
        }
        // `green beans 525 lb on Wednesday and 480 lb yesterday`
        if records.first().is_some_and(named) && records.iter().skip(1).all(|record| !named(record)) {
            self.open.common = true;
            if self.way.common {
                self.note(Note::Common);
                let (crop, variety) = records.first().map_or((None, None), |first| (first.crop, first.variety.clone()));
                for record in records.iter_mut() {
                    record.crop = crop;
                    record.variety.clone_from(&variety);
                }
            }
        }
        let only = |get: &dyn Fn(&Record) -> bool| records.iter().filter(|record| get(record)).count() == 1;
        // Said once at the head, it counts for all.
        let from = records.iter().find_map(|record| record.from).filter(|_| only(&|record| record.from.is_some()));
        let product = records
            .iter()
            .find_map(|record| record.product.clone())
            .filter(|_| only(&|record| record.product.is_some()));
        let canner = records.iter().find_map(|record| record.canner);
        let on_each = records.iter().all(|record| record.jars.is_some());
        for record in records.iter_mut() {
            record.from = record.from.or(from);
            record.canner = record.canner.or(canner);
            if record.product.is_none() && on_each {
                record.product = product.clone();
            }
        }
        // A group that says nothing by itself is no group.
        let says = |record: &Record| {
            record.mass.is_some()
                || record.measure.is_some()
                || record.bags.is_some()
                || record.jars.is_some()
                || record.number.is_some()
                || record.volume.is_some()
                || record.supply.is_some() && record.jar.is_some()
                || record.boxes.is_some()
                || record.share.is_some()
                || record.bottles.is_some()
                || record.trays.is_some()
        };
        if records.iter().any(says) {
            records.retain(|record| says(record));
        }
    }

    fn finish_moment(&mut self, record: &mut Record) -> Option<()> {
        if !self.takes(Slots::On) {
            return Some(());
        }
        let said = record.day.or(self.moment.day);
        let earlier = if said.is_none() && self.moment.ago.is_none() { self.earlier_day() } else { None };
        self.open.day |= earlier.is_some();
        if self.way.day && earlier.is_some() {
            self.note(Note::EarlierDay);
        }
        let moment = Moment { day: said.or(earlier.filter(|_| self.way.day)), ..self.moment };
        match moment.past(self.clause.scene.context) {
            Ok(on) => {
                record.on = on;
                Some(())
            }
            // `thawing 4 for the stew tomorrow`: a day to come behind `for` is a purpose.
            Err(()) if self.clause.any(self.clause.classes().prep_for) => {
                self.note(Note::Purpose);
                Some(())
            }
            Err(()) => {
                self.note(Note::Ahead);
                None
            }
        }
    }

    /// A day that is past and stands before the clause, not further than the sentence before.
    fn earlier_day(&self) -> Option<Dated> {
        // `sat` and `sun` are words of other sorts too.
        let short = |item: &Item| {
            item.to - item.from == 1
                && self
                    .clause
                    .scene
                    .text
                    .lexed
                    .tokens
                    .get(item.from as usize)
                    .is_some_and(|token| token.to - token.from <= 3 && !token.capital)
        };
        let text = self.clause.scene.text;
        let before = text.items.get(..self.clause.from)?;
        let stops = |item: &&Item| matches!(item.mark, Some(Mark::Dot | Mark::Bang | Mark::Line | Mark::Question));
        let mut near: SmallVec<[&Item; 32]> = SmallVec::new();
        let mut stopped = 0;
        for item in before.iter().rev().take(40) {
            stopped += usize::from(stops(&item));
            if stopped > 1 {
                break;
            }
            near.push(item);
        }
        near.into_iter().filter(|item| !short(item)).find_map(|item| {
            item.values.iter().find_map(|value| match value {
                Value::Day(dated)
                    if matches!(
                        dated.day,
                        Day::Weekday(..) | Day::Figures(..) | Day::OfMonth(..) | Day::OfAny(_) | Day::Date(_)
                    ) || matches!(dated.day, Day::Offset(days) if days < 0) =>
                {
                    Some(*dated)
                }
                _ => None,
            })
        })
    }

    /// Settles what depends on other fields: measures on the crop, jars and crops on each other.
    fn settle(&mut self, record: &mut Record) {
        let kind = self.clause.frame.kind;
        if let Some((n, measure)) = record.measure.filter(|_| record.mass.is_none()) {
            let crop = record.crop.unwrap_or(Crop::Tomato);
            record.mass = harvest_measure(crop, measure).and_then(|weight| weight.mass.times(n));
        }
        let jars = record.jars.is_some() || record.jar.is_some();
        if record.product.is_some() && record.crop.is_some() {
            // `2 pints of peppers` are a product, `2 lb of peppers` a crop.
            if jars
                || self.clause.frame.kind == Kind::Ask
                || matches!(kind, Kind::Began | Kind::Filled | Kind::PutUp | Kind::Opened | Kind::Set)
            {
                record.crop = None;
                record.variety = None;
            } else {
                record.product = None;
            }
        }
        if !self.takes(Slots::Crop) {
            record.crop = None;
        }
        if record.crop.is_none()
            && record.variety.is_none()
            && matches!(kind, Kind::Froze | Kind::Ate | Kind::Gave | Kind::Tossed | Kind::Thawed)
            && !jars
        {
            record.crop = self.crop_of_them();
        }
        if record.jars.is_none() && record.mass.is_none() && is_about_jars(kind) {
            record.jars = record.count().or(record.tubs).or(record.bags);
            record.number = record.number.filter(|_| record.jars.is_none());
        }
        if record.jar.is_some()
            && record.jars.is_none()
            && matches!(kind, Kind::Counted | Kind::PutUp | Kind::Opened | Kind::Gave | Kind::Filled)
        {
            record.jars = record.count();
            record.number = record.number.filter(|_| record.jars.is_none());
        }
        self.settle_singular(record);
        if kind == Kind::Ask {
            self.settle_ask(record);
        }
        if kind == Kind::Set
            && self.clause.frame.key == Some(SettingKey::Room)
            && let (None, Some(number)) = (record.temp, record.number)
        {
            record.temp = self.of_room(number, None);
        }
        if kind == Kind::Set && self.clause.frame.key == Some(SettingKey::Low) && record.supply.is_none() {
            record.supply = match () {
                () if self.clause.any(self.clause.classes().container_bag) => Some(Supply::Bags),
                () if record.jars.is_some() => Some(Supply::Jars),
                () => None,
            };
        }
        if kind == Kind::Set && self.clause.frame.key == Some(SettingKey::Low) {
            record.number = record.number.or(record.bags.map(|n| Number::whole(n.into())));
        }
        if kind == Kind::Set
            && let Some(key) = self.clause.frame.key
            && let Some((n, word)) = super::set::word_of(self.clause, key)
        {
            self.used.add(n);
            record.word = Some(word.to_owned());
        }
        match kind {
            Kind::Froze if record.each.is_some_and(|_| record.portion_box) => record.portion_box = false,
            Kind::Picked | Kind::Counted | Kind::Thawed | Kind::Ate | Kind::Gave | Kind::Tossed => record.each = None,
            Kind::Dried => {
                record.bags = None;
                record.each = None;
            }
            Kind::Powdered | Kind::Dry => {
                record.bags = None;
                record.jars = None;
            }
            _ => {}
        }
        if matches!(kind, Kind::Dried | Kind::Dry | Kind::Powdered) && record.what.is_none() {
            record.what = self.dried_name(record);
        }
        if kind == Kind::Bought || kind == Kind::Counted && record.supply.is_some() {
            self.settle_supply(record);
        }
        if kind == Kind::Counted {
            if record.jars.is_none() && !jars {
                record.product = None;
            }
            if record.from.is_none() && record.supply.is_none() && record.bags.is_some() {
                // Bags are in the freezer.
                record.from = None;
            }
        }
        if self.takes(Slots::Batch) && record.batch.is_some() {
            record.batch =
                record.batch.take().map(|batch| self.clause.scene.household.batch_named(&batch).unwrap_or(batch));
        }
    }

    /// The temperature of a room: a bare degree is of the scale on which it is a room's.
    fn of_room(&self, number: Number, celsius: Option<bool>) -> Option<Temperature> {
        let degrees = number.as_f64();
        let cool = degrees <= 40.0 && (self.clause.scene.context.lexicon.metric || degrees < 45.0);
        of_scale(number, celsius.unwrap_or(cool))
    }

    /// `the dud`, `a jar`, `opened quart of sauce`: one.
    fn settle_singular(&mut self, record: &mut Record) {
        let kind = self.clause.frame.kind;
        let classes = self.clause.classes();
        let opened = matches!(kind, Kind::Opened | Kind::Ate | Kind::Gave | Kind::Tossed);
        if record.jars.is_some() || record.mass.is_some() || record.bags.is_some() || !(is_about_jars(kind) || opened) {
            return;
        }
        let class = if opened { classes.single_size } else { classes.single };
        let one = self.clause.items().iter().position(|item| item.is(class));
        if let Some(n) = one {
            self.used.add(n);
            record.jars = Some(1);
            return;
        }
        // `one didn't seal, I put it in the fridge`
        if matches!(kind, Kind::Refrigerated | Kind::Reprocessed | Kind::Tossed | Kind::Ate) {
            let before = self.jars_before();
            self.open.carry |= before.is_some();
            if self.way.carry {
                self.note(Note::Carried);
                record.jars = before;
            }
        }
    }

    /// How many jars the words before the clause say that did not seal.
    fn jars_before(&self) -> Option<u32> {
        let text = self.clause.scene.text;
        let classes = self.clause.classes();
        let before = text.items.get(..self.clause.from)?;
        let unsealed = before.iter().rposition(|item| item.is(classes.unseal) || item.is(classes.not))?;
        let near = before.get(unsealed.saturating_sub(6)..)?;
        let count = near.iter().rev().find_map(|item| {
            item.values.iter().find_map(|value| match value {
                Value::Number(figure) => figure.number.as_count(),
                Value::Jars(jars) => jars.count.and_then(Number::as_count),
                _ => None,
            })
        });
        count.or_else(|| near.iter().any(|item| item.is(classes.single)).then_some(1))
    }

    /// `canned 9 pints of salsa, 8 sealed`, `…, one didn't seal`: how many, and whether it is those that did not.
    fn sealed_of(&mut self) -> Option<(u32, bool)> {
        let classes = self.clause.classes();
        let count = |n: usize| {
            self.clause.item(n)?.values.iter().find_map(|value| match value {
                Value::Number(figure) => figure.number.as_count(),
                Value::Jars(jars) => jars.count.and_then(Number::as_count),
                _ => None,
            })
        };
        let (at, n) = (1..self.clause.items().len().min(128)).find_map(|n| {
            let item = self.clause.item(n)?;
            let sealed = item.is(classes.seal) || item.is(classes.unseal);
            let at = [n - 1, n.saturating_sub(2)].into_iter().find(|at| count(*at).is_some())?;
            sealed.then_some((at, n))
        })?;
        let said = count(at)?;
        self.open.apart = true;
        if self.way.apart {
            return None;
        }
        let unsealed = self.clause.item(n).is_some_and(|item| item.is(classes.unseal));
        self.used.add(n);
        self.used.add(at);
        self.note(Note::OutOf);
        self.roles.retain(|(other, role)| *other != at || !matches!(role, Role::Amount(_)));
        Some((said, unsealed))
    }

    /// What only questions have: a stretch of days, the counter beside the freezer, a batch by its product.
    fn settle_ask(&mut self, record: &mut Record) {
        let classes = self.clause.classes();
        if self.takes(Slots::Span) {
            let (since, until, items) = super::ask::stretch(self.clause);
            items.iter().for_each(|n| self.used.add(*n));
            (record.since, record.until) = (since, until);
        }
        if self.takes(Slots::Counter)
            && let Some(n) = self.clause.position(classes.counter)
        {
            self.used.add(n);
            record.what = Some(super::ask::WITH_COUNTER.to_owned());
        }
    }

    /// `peppers`, `basil` as the thing that was dried.
    fn dried_name(&self, record: &Record) -> Option<String> {
        let crop = record.crop?;
        let spoken = self
            .clause
            .items()
            .iter()
            .find(|item| item.is(self.clause.classes().crop) || item.is(self.clause.classes().variety));
        let at = spoken.and_then(|found| self.clause.items().iter().position(|item| std::ptr::eq(item, found)));
        let classes = self.clause.classes();
        let first = at.map(|mut n| {
            // `red chillies`
            while n > 0
                && self.clause.item(n - 1).is_some_and(|item| {
                    item.is(classes.ripe) || item.kind == WordKind::Ordinary && self.used.has(n - 1)
                })
            {
                n -= 1;
            }
            n
        });
        let said = at
            .zip(first)
            .and_then(|(n, first)| self.clause.scene.text.said(self.clause.from + first, self.clause.from + n + 1));
        said.or_else(|| Some(crop.as_str().to_owned()))
    }

    fn settle_supply(&mut self, record: &mut Record) {
        let jar_count = record.jars.or(record.count());
        match record.supply {
            Some(Supply::LemonJuice | Supply::Vinegar) => {
                record.volume = record.volume.or(record.fluid);
                if record.fluid.is_some() {
                    record.mass = None;
                }
                // A bottle holds no one knows how much.
                if record.jar.is_none() && record.volume.is_none() {
                    record.bottles = record.bottles.or(record.jars.take());
                }
                // `2 bottles of 32 oz`
                if let (Some(n), Some(volume)) =
                    (record.bottles.or(record.jars.filter(|_| record.jar.is_none())), record.volume)
                {
                    record.volume = volume.times(Number::whole(n.into())).or(Some(volume));
                    record.jars = None;
                }
                if let (Some(jar), None) = (record.jar, record.volume) {
                    record.volume = jar.volume().times(Number::whole(record.jars.unwrap_or(1).into()));
                    record.jars = None;
                    record.jar = None;
                }
            }
            Some(Supply::Lids) => {
                // A box of lids holds a dozen, as sold (common practice).
                if let Some(boxes) = record.boxes {
                    let each = self.clause.any(self.clause.classes().each);
                    record.number = match record.number {
                        None => Some(Number::whole(i64::from(boxes) * 12)),
                        Some(n) if each => n.checked_mul(Number::whole(boxes.into())),
                        said => said,
                    };
                }
                if record.number.is_none() && record.jars.is_none() {
                    record.number = record.bags.map(|n| Number::whole(n.into()));
                }
                record.jar = None;
                record.bags = None;
            }
            Some(Supply::Bags) if record.boxes.is_some_and(|n| n >= PACKED) && record.number.is_none() => {
                record.number = record.boxes.map(|n| Number::whole(n.into()));
                record.bags = None;
            }
            Some(Supply::Bags) | None if record.bags.is_some() && record.product.is_none() => {
                record.supply = Some(Supply::Bags);
                let boxed = record.number.and_then(Number::as_count);
                record.number = boxed.or(record.bags).map(|n| Number::whole(n.into()));
                record.bags = None;
            }
            Some(Supply::Jars) | None
                if record.jars.is_some() && record.product.is_none() && self.clause.frame.kind == Kind::Bought =>
            {
                record.supply = Some(Supply::Jars);
                let dozens = record.boxes.filter(|_| record.jars.is_none()).map(|n| n * 12);
                record.jars = dozens.or(jar_count);
                record.number = None;
            }
            _ => {}
        }
    }

    // ---------------------------------------------------------------- statements

    fn statements(&mut self, records: SmallVec<[Record; 2]>) -> Option<Vec<Statement>> {
        let mut statements = Vec::new();
        let record_kind = self.clause.frame.kind;
        for record in records {
            match self.missing(&record) {
                None => {
                    // `skins in the dryer for 8 hours`: what went in, and a timer for it.
                    let timer = record.seconds.filter(|_| record_kind == Kind::Dried);
                    let label = record.what.clone();
                    statements.push(record.statement(self.clause.frame)?);
                    statements.extend(
                        timer.map(|seconds| Statement::TimerStart(TimerStart { seconds: Some(seconds), label })),
                    );
                }
                Some((missing, amount)) => {
                    let note = match missing {
                        Missing::Unit => Note::AskUnit,
                        Missing::Amount => Note::AskAmount,
                        Missing::Product => Note::AskProduct,
                        Missing::Jar => Note::AskJar,
                        Missing::Canner | Missing::Altitude => Note::AskCanner,
                    };
                    self.note(note);
                    let kind = self.clause.frame.kind;
                    let partial = record.statement(self.clause.frame);
                    statements.push(clarify(kind, missing, amount, partial));
                }
            }
        }
        if statements.is_empty() { None } else { Some(statements) }
    }

    /// Whether the sentence breaks off behind `of`.
    fn ends_with_of(&self) -> bool {
        let last = self.clause.items().iter().rev().find(|item| item.mark.is_none());
        last.is_some_and(|item| item.is(self.clause.classes().of))
    }

    /// What the frame needs and the record lacks.
    fn missing(&self, record: &Record) -> Option<(Missing, Option<Number>)> {
        let frame = self.clause.frame;
        let has = |slot: Slots| match slot {
            Slots::Mass => record.mass.is_some(),
            Slots::Volume => record.volume.is_some(),
            Slots::Count => {
                record.bags.is_some() || record.boxes.is_some() && record.supply.is_some() && record.number.is_some()
            }
            Slots::Trays => record.trays.is_some(),
            Slots::Jars => record.jars.is_some() || record.jar.is_some(),
            Slots::Number => record.number.is_some(),
            Slots::Share => record.share.is_some(),
            Slots::Crop => record.crop.is_some(),
            Slots::Variety => record.variety.is_some(),
            Slots::Product => record.product.is_some(),
            Slots::Dryable => record.what.is_some(),
            Slots::Supply => record.supply.is_some(),
            Slots::Canner => record.canner.is_some(),
            Slots::Height => record.height.is_some(),
            Slots::Temp => record.temp.is_some() || record.number.is_some(),
            _ => false,
        };
        if record.each_number.is_some() {
            return Some((Missing::Unit, record.each_number));
        }
        let bare = record.number.or(record.bags.map(|n| Number::whole(n.into())));
        match frame.kind {
            Kind::PutUp => {
                return match (record.jars, record.jar, &record.product) {
                    (Some(_), Some(_), Some(_)) => None,
                    (Some(n), None, Some(_)) => Some((Missing::Jar, Some(Number::whole(n.into())))),
                    (None, None, Some(_)) if record.number.is_some() => Some((Missing::Jar, record.number)),
                    (None, _, Some(_)) => Some((Missing::Amount, None)),
                    (Some(n), _, None) => Some((Missing::Product, Some(Number::whole(n.into())))),
                    (None, _, None) => Some((Missing::Unit, record.number)),
                };
            }
            Kind::Filled if record.jars.is_none() && record.number.is_some() => {
                return Some((Missing::Jar, record.number));
            }
            Kind::Gave if record.product.is_none() && record.jars.is_some() && self.ends_with_of() => {
                return Some((Missing::Product, record.jars.map(|n| Number::whole(n.into()))));
            }
            Kind::Opened if self.way.ask && record.jar.is_none() && record.jars.is_some() => {
                return Some((Missing::Jar, record.jars.map(|n| Number::whole(n.into()))));
            }
            Kind::Opened if record.product.is_none() && record.jars.is_some() => {
                return Some((Missing::Product, record.jars.map(|n| Number::whole(n.into()))));
            }
            Kind::Opened | Kind::Gave | Kind::Ate | Kind::Tossed
                if record.product.is_some()
                    && record.jars.is_none()
                    && record.mass.is_none()
                    && record.number.is_some() =>
            {
                return Some((Missing::Jar, record.number));
            }
            Kind::Counted if record.jars.is_some() && record.product.is_none() && record.supply.is_none() => {
                return Some((Missing::Product, record.jars.map(|n| Number::whole(n.into()))));
            }
            Kind::Set if frame.key == Some(SettingKey::Low) && record.supply.is_some() => {
                let said = record.number.is_some()
                    || record.mass.is_some()
                    || record.volume.is_some()
                    || record.jars.is_some();
                return if said { None } else { Some((Missing::Amount, None)) };
            }
            Kind::Began if record.product.is_none() => return Some((Missing::Product, None)),
            Kind::Bought if record.supply.is_some() => {
                let pieces = matches!(record.supply, Some(Supply::Lids | Supply::Jars | Supply::Bags));
                if !pieces && record.number.is_some() && record.mass.is_none() && record.volume.is_none() {
                    return Some((Missing::Unit, record.number));
                }
                let counted = record.number.is_some() || record.jars.is_some();
                let measured = record.mass.is_some() || record.volume.is_some();
                return if counted || measured { None } else { Some((Missing::Amount, None)) };
            }
            _ => {}
        }
        if frame.needs == Slots::default() || Slots::NAMES.iter().any(|(_, slot)| frame.needs.has(*slot) && has(*slot))
        {
            return None;
        }
        match bare {
            Some(n) => Some((Missing::Unit, Some(n))),
            None => Some((Missing::Amount, None)),
        }
    }
}

/// `a 100 pack`: from so many on it is how many are in it.
const PACKED: u32 = 20;

/// Whether two weights are the same to a hundredth: people round.
fn close(a: Mass, b: Mass) -> bool {
    (a.ratio(b) - 1.0).abs() <= 0.01
}

/// A small word between two capitals.
fn end_is_name(filling: &Filling<'_, '_>, n: usize) -> bool {
    filling.is_capital_name(n)
}

/// Kinds whose bare number counts jars.
const fn is_about_jars(kind: Kind) -> bool {
    matches!(
        kind,
        Kind::Sealed
            | Kind::Unsealed
            | Kind::Reprocessed
            | Kind::Refrigerated
            | Kind::Broke
            | Kind::Siphoned
            | Kind::Lifted
    )
}

/// The new figure in the unit of the old one, where it is of the same sort.
fn supersede(old: Value, new: Value) -> Option<Value> {
    match (old, new) {
        (Value::Weight(_), Value::Weight(_))
        | (Value::Count(_), Value::Count(_))
        | (Value::Portions(_), Value::Portions(_))
        | (Value::Jars(_), Value::Jars(_))
        | (Value::OutOf(_), Value::OutOf(_))
        | (Value::Volume(..), Value::Volume(..))
        | (Value::Number(_), Value::Number(_))
        | (Value::Number(_), Value::Weight(_))
        | (Value::Number(_), Value::Jars(_))
        | (Value::Number(_), Value::Count(_))
        | (Value::Height(_), Value::Height(_))
        | (Value::Duration(_), Value::Duration(_))
        | (Value::Temperature(..), Value::Temperature(..))
        | (Value::Count(_), Value::Portions(_))
        | (Value::Share(_), Value::OutOf(_))
        | (Value::Share(_), Value::Share(_)) => Some(new),
        (Value::Weight(weight), Value::Number(figure)) => {
            let mass = weight.unit.times(figure.number)?;
            Some(Value::Weight(Weight { mass, figure: figure.number, fluid: None, ..weight }))
        }
        (Value::Count(count), Value::Number(figure)) => {
            Some(Value::Count(super::super::value::amount::Count { count: figure.number, ..count }))
        }
        (Value::Jars(jars), Value::Number(figure)) => {
            Some(Value::Jars(super::super::value::jars::Jars { count: Some(figure.number), ..jars }))
        }
        _ => None,
    }
}

/// The canner that two words of a clause name together: `pressure canner`, `weighted`.
fn finer(known: CannerKind, new: CannerKind) -> CannerKind {
    if known == CannerKind::Pressure && new.is_pressure() { new } else { known }
}

/// The singular of a noun that no list has, by its letters.
pub(super) fn singular(name: &str) -> String {
    let cut = |ending: usize, with: &str| name.get(..name.len() - ending).map(|stem| format!("{stem}{with}"));
    let ends = |ending: &str| name.ends_with(ending) && name.len() > ending.len() + 2;
    let found = match () {
        () if ends("ies") => cut(3, "y"),
        () if ends("oes") || ends("ches") || ends("shes") || ends("sses") || ends("xes") => cut(2, ""),
        () if ends("s") && !ends("ss") && !ends("us") && !ends("is") => cut(1, ""),
        () => None,
    };
    found.unwrap_or_else(|| name.to_owned())
}
