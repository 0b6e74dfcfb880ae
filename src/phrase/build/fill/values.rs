//! Amounts, days and times: which value of an item the frame takes, and what it is taken for.

use super::filling::{Filling, Role, Way};
use crate::phrase::build::made::Note;
use crate::phrase::frame::{Slots, Types};
use crate::phrase::item::Item;
use crate::phrase::lex::Shape;
use crate::phrase::lexicon::sense::Container;
use crate::phrase::value::Value;
use crate::phrase::value::measure::Share;
use crate::vocabulary::Kind;

/// Whether a frame with these slots takes a value.
fn is_wanted(value: &Value, slots: Slots) -> bool {
    match value {
        Value::Weight(_) | Value::Measure(..) | Value::Portions(_) | Value::CountOf(..) => slots.has(Slots::Mass),
        Value::Volume(..) => slots.has(Slots::Volume),
        Value::Count(count) => match count.container {
            Container::Tray => slots.has(Slots::Trays),
            Container::Jar => slots.has(Slots::Jars),
            Container::Box => slots.meets(Slots::Count.with(Slots::Trays)),
            _ => slots.meets(Slots::Count.with(Slots::Trays).with(Slots::Mass)),
        },
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
    }
}

impl Filling<'_, '_> {
    /// Takes the value of an item, where the frame takes one; whether the item is done with.
    pub(super) fn assign_value(&mut self, n: usize, item: &Item) -> bool {
        let Some(value) = self.value(n, item) else { return false };
        match value {
            Value::Day(dated) => {
                self.take_day(n, item, dated);
                return true;
            }
            Value::Place => self.take_place(n),
            Value::Clock(clock) => {
                self.moment.clock = self.moment.clock.or(Some(clock));
                self.note(Note::Clock);
            }
            Value::Ago(seconds) => {
                self.moment.ago = Some(seconds);
                self.note(Note::Clock);
            }
            Value::Colour(class) => self.roles.push((n, Role::Ripe(class))),
            value => self.roles.push((n, Role::Amount(value))),
        }
        self.used.add(n);
        true
    }

    /// How late a value is chosen of those that an item may be: what says more comes first.
    fn rank(&self, value: &Value) -> u8 {
        match value {
            // `8 oz` is a weight before it is a size, where a weight is wanted.
            Value::Jars(jars) if jars.count.is_none() && self.takes(Slots::Mass) => 5,
            Value::OutOf(_) => 1,
            Value::Volume(..) if self.is_way(Way::Volume) => 2,
            Value::Jars(_) | Value::Portions(_) | Value::CountOf(..) => 3,
            Value::Colour(_) | Value::Ago(_) | Value::Clock(_) => 3,
            Value::Weight(_) | Value::Measure(..) | Value::Count(_) => 4,
            Value::Volume(..) | Value::Pressure(_) | Value::Height(_) => 5,
            Value::Temperature(..) | Value::Duration(_) => 5,
            Value::Day(_) | Value::Place => 6,
            Value::Share(Share::It) => 9,
            Value::Share(_) => 7,
            _ => 8,
        }
    }

    /// The value of an item that the frame takes.
    fn value(&mut self, n: usize, item: &Item) -> Option<Value> {
        let clause = self.clause;
        let classes = clause.classes();
        let weighed = |item: &Item| item.values.iter().any(|value| matches!(value, Value::Weight(_)));
        if clause.before(n).is_some_and(weighed) && item.is(classes.each) {
            // `800 g a bag`: the weight of each, not one bag more.
            self.used.add(n);
            return None;
        }
        let best = *item
            .values
            .iter()
            .filter(|value| is_wanted(value, clause.frame.slots))
            .min_by_key(|value| self.rank(value))?;
        let found = self.other_value(n, item, best).unwrap_or(best);
        if matches!(found, Value::Jars(jars) if jars.count.is_some()) && clause.types(n).has(Types::Volume) {
            self.choose_if(self.takes(Slots::Volume), Way::Volume);
        }
        // `it` and `all` say how much only where nothing else does.
        let vague = matches!(found, Value::Share(Share::It)) && clause.any(classes.vague);
        if vague || matches!(found, Value::Share(Share::It | Share::All)) && self.has_other_amount(n) {
            self.used.add(n);
            return None;
        }
        Some(found)
    }

    /// `12 lb, 5 lb of it green`: of what was told already, and no more than that.
    pub(super) fn is_part_of_it(&self, n: usize) -> bool {
        let clause = self.clause;
        if self.kind() != Kind::Picked {
            return false;
        }
        let classes = clause.classes();
        let it = |n: usize| clause.at(n, |item| item.is_any(&[classes.share_it, classes.pronoun]));
        // `11 oz of those yellow peppers` points at peppers, not at what was told.
        let points = |n: usize| {
            let named = |n: usize| clause.at(n, |item| item.is_any(&[classes.crop, classes.variety]));
            let pointing = clause.is(n, classes.article);
            let between = |n: usize| clause.at(n, |item| item.values.is_empty() && item.mark.is_none());
            let thing = (n + 1..n + 4).take_while(|n| between(*n)).find(|n| named(*n));
            thing.is_some_and(|thing| pointing || clause.is(thing, classes.crop))
        };
        let part = |n: usize| it(n) && !points(n);
        let of_it =
            clause.at(n, |item| clause.ends_in_of(item)) && part(n + 1) || clause.is(n + 1, classes.of) && part(n + 2);
        let items = &clause.scene.text.items;
        let before = items.get(..clause.from + n).unwrap_or_default();
        of_it
            && before
                .iter()
                .any(|item| item.values.iter().any(|value| matches!(value, Value::Weight(_) | Value::Portions(_))))
    }

    /// The value that an item is rather than its best one.
    fn other_value(&self, n: usize, item: &Item, best: Value) -> Option<Value> {
        let slots = self.clause.frame.slots;
        match best {
            // `the lot` is all of it before it is one lot.
            Value::Count(count) if count.container == Container::Tub && count.article && slots.has(Slots::Share) => {
                let all = |value: &&Value| matches!(value, Value::Share(Share::All | Share::Rest));
                item.values.iter().find(all).copied()
            }
            // `block 7` is a place before it is seven blocks.
            Value::Count(_) if slots.has(Slots::Place) && self.clause.types(n).has(Types::Place) => {
                self.is_numbered(item).then_some(Value::Place)
            }
            // `froze 6.5.`: a date only beside an amount.
            Value::Day(_) if !item.is_single() && slots.has(Slots::Number) && !self.has_other_amount(n) => {
                item.values.iter().find(|value| matches!(value, Value::Number(_))).copied()
            }
            _ => None,
        }
    }

    /// Whether an item is a word with a figure behind it: `box 3`.
    fn is_numbered(&self, item: &Item) -> bool {
        let last = self.clause.scene.text.lexed.tokens.get(item.to.saturating_sub(1) as usize);
        item.to - item.from == 2 && last.is_some_and(|token| matches!(token.shape, Shape::Digits(..)))
    }

    /// Whether an item is a container with a number, where things grow: `in box 3`, not `in four boxes`.
    pub(super) fn is_box_label(&self, n: usize, item: &Item) -> bool {
        self.takes(Slots::Place)
            && item.values.iter().any(|value| matches!(value, Value::Count(_)))
            && self.clause.before(n).is_some_and(|item| item.is(self.clause.classes().prep_in))
            && self.is_numbered(item)
    }
}
