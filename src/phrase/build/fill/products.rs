//! Products that no list has, or whose names have more words than the list knows: `fire salsa`, `kidney beans`, `ham
//! and beans`.

use super::filling::{Filling, Food, Role};
use crate::phrase::build::made::Note;
use crate::phrase::item::{Item, WordKind};
use crate::phrase::value::Value;
use crate::vocabulary::{Kind, Product};
use std::ops::Range;

impl Filling<'_, '_> {
    /// Takes words for a product; each number of jars may have one of its own behind it.
    pub(super) fn guess_product(&mut self) {
        let count = self.clause.len();
        let known = self.places_of(|role| matches!(role, Role::Food(Food { product: Some(_), .. })));
        known.iter().for_each(|n| self.widen_product(*n));
        let jars = self.places_of(|role| matches!(role, Role::Amount(Value::Jars(jars)) if jars.count.is_some()));
        if jars.len() < 2 {
            if known.is_empty() {
                // `gave Heather a jar`: who stands between the deed and the jars is no product.
                let from = jars.first().copied().filter(|_| self.kind() == Kind::Gave).unwrap_or(0);
                self.guess_product_in(from..count);
            }
            return;
        }
        for (at, from) in jars.iter().enumerate() {
            let to = jars.get(at + 1).copied().unwrap_or(count);
            if !known.iter().any(|known| (*from..to).contains(known)) {
                self.guess_product_in(from + 1..to);
            }
        }
    }

    /// Takes the first words of a stretch that may be a product. What it is for is not what it is: `3 pints for the
    /// soup`.
    fn guess_product_in(&mut self, items: Range<usize>) {
        let clause = self.clause;
        let classes = clause.classes();
        let leads = [classes.prep_for, classes.prep_to, classes.prep_with];
        let content = |item: &Item| {
            item.is_any(&[classes.dish, classes.crop, classes.variety])
                || matches!(item.kind, WordKind::Ordinary | WordKind::Strange | WordKind::Alien)
        };
        let mut at = items.start;
        // `filled 7 quarts says Ben`: who says so is not in the jars.
        let ends = |item: &Item| item.is_any(&leads) || item.is_any(&[classes.hearsay, classes.memory, classes.price]);
        while at < items.end && (self.used.has(at) || !clause.at(at, ends)) {
            let named = |n: usize| self.may_be_food(n) || n > at && self.joins_food(n);
            let end = clause.end_of(at, 5.min(items.end - at), named);
            if clause.any_in(at..end, content) {
                return self.name_product(at..end);
            }
            at = end + 1;
        }
    }

    /// Takes in the words around a known product that make it another one.
    fn widen_product(&mut self, n: usize) {
        let before = |at: usize| self.makes_another(at) || at > 0 && self.joins_food(at) && self.makes_another(at - 1);
        let first = self.clause.start_of(n, 4, before);
        let end = self.clause.end_of(n + 1, 3, |n| self.extends_food(n));
        if end - first > 1 {
            self.name_product(first..end);
        }
    }

    fn name_product(&mut self, items: Range<usize>) {
        self.roles.retain(|(n, _)| !items.contains(n));
        self.take_name(items, Note::GuessedProduct, |name| Role::product(Product::named(&name)));
        self.roles.sort_by_key(|(n, _)| *n);
    }

    /// Whether a word right before a product is part of what it is: neither how big or how good it is, nor a word of
    /// the sentence.
    fn makes_another(&self, n: usize) -> bool {
        let Some(item) = self.clause.item(n) else { return false };
        let classes = self.clause.classes();
        match item.kind {
            _ if self.clause.triggers(n) && !item.is(classes.dish) => false,
            WordKind::Ordinary | WordKind::Strange | WordKind::Alien => true,
            WordKind::Trade => {
                (self.is_food_or_form(item) || item.is_any(&[classes.product, classes.burner]))
                    && !item.is(classes.beside)
            }
            // Whose sauce it is names a recipe; whose peaches they are changes nothing.
            WordKind::Voice => {
                item.is(classes.kin)
                    && self.clause.at(n + 1, |next| self.is_possessive(next))
                    && !self.clause.is(n + 2, classes.crop)
            }
            WordKind::Deed => item.is(classes.dry_past),
            _ => self.is_role(n, |role| matches!(role, Role::Food(_) | Role::Prep(_) | Role::Ripe(_))),
        }
    }

    /// Whether a word right behind a product goes on with its name: `pie filling`.
    fn extends_food(&self, n: usize) -> bool {
        let foreign = self.clause.before(n).is_some_and(|before| before.kind == WordKind::Strange);
        self.clause.at(n, |item| match item.kind {
            WordKind::Strange => true,
            WordKind::Ordinary if foreign => true,
            _ => item.is(self.clause.classes().dish),
        })
    }

    fn may_be_food(&self, n: usize) -> bool {
        let Some(item) = self.clause.item(n) else { return false };
        let classes = self.clause.classes();
        match item.kind {
            _ if self.is_role(n, |role| matches!(role, Role::Food(_) | Role::Prep(_))) => true,
            _ if self.used.has(n) => false,
            WordKind::Ordinary | WordKind::Strange | WordKind::Alien => true,
            WordKind::Trade => self.is_food_or_form(item),
            WordKind::Voice => item.is(classes.kin),
            WordKind::Deed => item.is(classes.dry_past) && self.clause.item(n + 1).is_some(),
            _ => item.is(classes.dish),
        }
    }

    fn is_food_or_form(&self, item: &Item) -> bool {
        let classes = self.clause.classes();
        let food = [classes.crop, classes.variety, classes.dish];
        item.is_any(&food) || item.is_any(&[classes.prep, classes.ripe, classes.dryable])
    }

    /// `'s`, `and`, `in` inside a name.
    fn joins_food(&self, n: usize) -> bool {
        let classes = self.clause.classes();
        self.clause.at(n, |item| {
            self.is_possessive(item) || item.is_any(&[classes.and, classes.prep_in]) && self.may_be_food(n + 1)
        })
    }
}
