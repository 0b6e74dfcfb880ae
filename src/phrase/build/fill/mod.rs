//! Statements from slots: each item of the clause goes into the slot that it fits, groups of thing and amount become
//! one statement each, and what no slot takes stays unaccounted.
//!
//! ```text
//! filling                   a clause while it is filled: what its items are taken for, and the ways that are open
//! values, days, names       items that a list or the grammar of values knows
//! places, products, things  words that no list has, by where they stand
//! corrected, groups         what was taken back; one group for each statement
//! put, common, settle       from groups to records
//! missing                   statements, or questions for what they lack
//! ```

mod common;
mod corrected;
mod days;
mod filling;
mod groups;
mod missing;
mod names;
mod places;
mod products;
mod put;
mod settle;
mod things;
mod values;

use super::clause::Clause;
use super::made::{Made, Note};
use super::record::Record;
use crate::phrase::frame::Slots;
use crate::phrase::frame::Types;
use crate::statement::{Froze, Statement};
use crate::vocabulary::{Kind, Product};
use common::{Records, leave_total};
use filling::{Filling, Open, Role, Way};
use smallvec::SmallVec;

/// All ways to fill a clause: the first, and one for each choice that it leaves open.
pub(super) fn fill(clause: &Clause<'_>, out: &mut Vec<Made>) {
    let Some((made, open)) = Filling::new(clause, Way::First).run() else { return };
    out.push(made);
    let rivals = Way::rivals().filter(|way| open.has(*way));
    out.extend(rivals.filter_map(|way| Filling::new(clause, way).run()).map(|(made, _)| made));
}

/// The product that a clause names, with the items that name it.
pub(in super::super) fn product_named(clause: &Clause<'_>) -> Option<(Product, SmallVec<[usize; 8]>)> {
    let mut filling = Filling::new(clause, Way::First);
    filling.assign();
    let before = clause.used_by_trigger();
    let named = (0..clause.len()).filter(|n| filling.used.has(*n) && !before.has(*n)).collect();
    Some((filling.product()?, named))
}

/// Jars that did not seal, put into the freezer.
pub(super) fn jars_frozen(clause: &Clause<'_>) -> Option<Made> {
    let mut filling = Filling::new(clause, Way::First);
    filling.assign();
    let roles = std::mem::take(&mut filling.roles);
    let mut record = filling.record(roles);
    let one = || clause.position(clause.classes().single).map(|n| (filling.used.add(n), 1).1);
    let jars = record.jars.or(record.count()).or_else(one)?;
    filling.finish_moment(&mut record)?;
    let froze = Froze { jars: Some(jars), batch: record.batch, on: record.on, ..Froze::default() };
    Some(Made::one(Statement::Froze(froze), filling.used, filling.notes))
}

impl Filling<'_, '_> {
    fn run(mut self) -> Option<(Made, Open)> {
        let kind = self.kind();
        self.assign();
        self.correct_in_place();
        let sealed = if kind == Kind::PutUp { self.sealed_of() } else { None };
        let mut records: Records = self.groups().into_iter().map(|group| self.record(group)).collect();
        if records.is_empty() {
            records.push(Record::default());
        }
        leave_total(&mut records);
        self.share_between(&mut records);
        for record in &mut records {
            self.finish_moment(record)?;
            self.settle(record);
            self.settle_sealed(record, sealed);
        }
        if records.len() > 1 {
            self.note(Note::List);
        }
        let unsized_jars = |record: &Record| record.jar.is_none() && record.jars.is_some() && record.product.is_some();
        self.choose_if(kind == Kind::Opened && records.iter().any(unsized_jars), Way::Ask);
        let statements = self.statements(records)?;
        Some((Made { statements, used: self.used, notes: self.notes }, self.open))
    }

    /// The record of a group.
    fn record(&mut self, group: Vec<(usize, Role)>) -> Record {
        let mut record = Record::default();
        group.into_iter().for_each(|(n, role)| self.put(&mut record, n, role));
        record
    }

    /// Takes each item for what it is by itself, then the words that no list has for what their place says they are.
    fn assign(&mut self) {
        let name = self.capital_name();
        let chosen = self.choose_if(name.is_some(), Way::Capital);
        let mut n = 0;
        while n < self.clause.len() && !self.is_part_of_it(n) {
            match name.clone() {
                Some(name) if chosen && name.start == n => {
                    n = name.end;
                    self.take_capital_name(name);
                }
                _ => {
                    self.assign_item(n);
                    n += 1;
                }
            }
        }
        self.guess();
    }

    /// Puts the item at a place into a slot.
    fn assign_item(&mut self, n: usize) {
        let Some(item) = self.clause.item(n) else { return };
        // `batch 2: all sealed`: which batch, and no jars.
        let numbered = |role: &Role| matches!(role, Role::Batch(_) | Role::Round(_));
        let is_label = n.checked_sub(1).is_some_and(|before| {
            let named = self.clause.item(before).is_some_and(|item| item.is(self.clause.classes().batch));
            named && self.is_role(before, numbered) && self.used.has(n)
        });
        if is_label {
            return;
        }
        if self.is_box_label(n, item) {
            self.take_name(n..n + 1, Note::GuessedPlace, Role::Place);
        } else if !self.assign_value(n, item) {
            self.assign_name(n, item);
        }
    }

    /// Takes words that no list has: a thing behind an amount, a place behind `from`, somebody behind `to`.
    fn guess(&mut self) {
        let frame = self.clause.frame;
        // Where fruit is taken by weight too, only jars speak of a product.
        let jars = (0..self.clause.len()).any(|n| self.clause.types(n).meets(Types::Jars.with(Types::Of)));
        let product = jars || !self.takes(Slots::Mass) || frame.needs.has(Slots::Product);
        if self.takes(Slots::Product) && product {
            self.guess_product();
        }
        let fruit = self.takes(Slots::Crop) && !frame.accounts_for_all;
        if fruit {
            self.take_modifiers();
        }
        if self.takes(Slots::Place) && !self.has_role(|role| matches!(role, Role::Place(_))) {
            self.guess_place();
        }
        if fruit {
            self.guess_things();
        }
        if self.takes(Slots::Variety) {
            self.variety_behind();
            self.variety_last();
        }
        self.pass_over_recipients();
    }
}
