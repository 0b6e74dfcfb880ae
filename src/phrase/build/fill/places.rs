//! Where things grew: places of the lists with the words that belong to their names, and places that no list has.

use super::filling::{Filling, Role};
use crate::phrase::build::made::Note;
use crate::phrase::frame::Types;
use crate::phrase::item::{Item, WordKind};
use crate::phrase::lex::Mark;

impl Filling<'_, '_> {
    /// Takes a known place with the words around it that are part of its name.
    pub(super) fn take_place(&mut self, n: usize) {
        let (first, end) = (self.first_of_place(n), self.end_of_place(n + 1));
        self.used.add_all(first..end);
        if let Some(name) = self.clause.said(first, end) {
            self.note(Note::Place);
            self.roles.push((n, Role::Place(name)));
        }
    }

    /// `the orchard strip`: one word of no list behind a place, where the name ends.
    fn end_of_place(&self, n: usize) -> usize {
        let named = |item: &Item| match item.kind {
            WordKind::Ordinary | WordKind::Strange => self.is_free(n),
            // `the patio pots`
            WordKind::Value => item.values.is_empty() && item.is(self.clause.classes().container) && !self.used.has(n),
            _ => false,
        };
        let ends = |item: &Item| item.mark.is_some() || !item.values.is_empty();
        if self.clause.at(n, named) && self.clause.item(n + 1).is_none_or(ends) { n + 1 } else { n }
    }

    /// `the old hog lot`: words of no list before a place that an article or a preposition leads.
    fn first_of_place(&self, n: usize) -> usize {
        let classes = self.clause.classes();
        let mut first = n;
        while first > 0 && n - first < 4 {
            let Some(item) = self.clause.item(first - 1) else { break };
            let leads = item.is_any(&[classes.article, classes.prep_from, classes.prep_in]);
            if leads || item.mark.is_some() || !item.values.is_empty() {
                return first;
            }
            let named = match item.kind {
                WordKind::Ordinary | WordKind::Strange | WordKind::Harmless | WordKind::Alien | WordKind::Deed => true,
                WordKind::Small if self.is_possessive(item) => true,
                WordKind::Small if first > 1 && self.clause.is(first - 2, classes.article) => {
                    !item.is(classes.preposition)
                }
                _ => item.is(classes.kin),
            };
            if !named || self.used.has(first - 1) {
                break;
            }
            first -= 1;
        }
        // At the head of a clause: `sugarhouse patch: 5 lb`.
        if first == 0 && n - first < 3 { first } else { n }
    }

    /// `from the ladies' mile`: a place that no list has.
    pub(super) fn guess_place(&mut self) {
        let clause = self.clause;
        let classes = clause.classes();
        let count = clause.len();
        let trigger = (0..count).find(|n| clause.triggers(*n)).unwrap_or(0);
        let amount = self.places_of(Role::is_amount).into_iter().min().unwrap_or(count);
        for n in trigger.min(amount)..count {
            let Some(item) = clause.item(n) else { break };
            let leads = item.is_any(&[classes.prep_from, classes.prep_in, classes.prep_place]);
            if !leads && item.mark != Some(Mark::At) {
                continue;
            }
            let start = clause.end_of(n + 1, count, |n| clause.is(n, classes.article));
            // `behind the shed`: the preposition is part of the name.
            let at = if item.is(classes.prep_place) { n } else { start };
            let end = clause.end_of(start, (at + 5).saturating_sub(start), |end| self.may_name(end, end > n + 1));
            let end = clause.start_of(end, end - at, |n| clause.at(n, |item| item.kind == WordKind::Small));
            let content = |item: &Item| {
                matches!(item.kind, WordKind::Ordinary | WordKind::Strange | WordKind::Alien | WordKind::Trade)
            };
            if clause.any_in(at..end, content) {
                self.take_name(at..end, Note::GuessedPlace, Role::Place);
                break;
            }
        }
    }

    /// Whether an item can be part of a place's name that no list has; a number only inside: `bed 3`.
    fn may_name(&self, n: usize, inside: bool) -> bool {
        let Some(item) = self.clause.item(n) else { return false };
        let classes = self.clause.classes();
        match item.kind {
            _ if self.used.has(n) => inside && self.is_label(n),
            WordKind::Ordinary | WordKind::Strange | WordKind::Harmless | WordKind::Alien => true,
            WordKind::Trade => !item.is(classes.store),
            WordKind::Voice => item.is_any(&[classes.kin, classes.folk]),
            WordKind::Value => inside && self.is_label(n),
            WordKind::Small => inside && self.is_possessive(item),
            _ => false,
        }
    }

    /// Whether an item is a bare number that was taken for nothing.
    fn is_label(&self, n: usize) -> bool {
        self.clause.types(n).has(Types::Number) && self.clause.at(n, Item::is_single) && !self.is_role(n, |_| true)
    }
}
