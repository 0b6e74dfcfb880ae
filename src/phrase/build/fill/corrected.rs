//! Corrections in the same breath: what is said anew takes the place of what was said before.

use super::filling::{Filling, Role, Way};
use crate::phrase::build::made::Note;
use crate::phrase::item::Item;
use crate::phrase::value::Value;
use crate::phrase::value::jars::Jars;
use crate::phrase::value::kinds::{Count, Weight};
use smallvec::SmallVec;
use std::mem::discriminant;

/// The new figure in the unit of the old one, where it is of the same sort.
fn supersede(old: Value, new: Value) -> Option<Value> {
    match (old, new) {
        (Value::Number(_), Value::Weight(_) | Value::Jars(_) | Value::Count(_))
        | (Value::Count(_), Value::Portions(_))
        | (Value::Share(_), Value::OutOf(_)) => Some(new),
        (Value::Weight(weight), Value::Number(figure)) => {
            let mass = weight.unit.times(figure.number)?;
            Some(Value::Weight(Weight { mass, figure: figure.number, fluid: None, ..weight }))
        }
        (Value::Count(count), Value::Number(figure)) => Some(Value::Count(Count { count: figure.number, ..count })),
        (Value::Jars(jars), Value::Number(figure)) => Some(Value::Jars(Jars { count: Some(figure.number), ..jars })),
        (old, new) => (discriminant(&old) == discriminant(&new)).then_some(new),
    }
}

impl Filling<'_, '_> {
    /// `16 lb, no wait, 18`: the last figure of its kind counts.
    pub(super) fn correct_in_place(&mut self) {
        let clause = self.clause;
        let classes = clause.classes();
        for at in 0..clause.len() {
            // `at no 9` is an address.
            let led = |item: &Item| item.is_any(&[classes.at, classes.prep_to]);
            if clause.is(at, classes.oops) && !clause.before(at).is_some_and(led) {
                self.take_back(at);
            }
            // `14 lb not 12`: the figure behind is the one that was wrong.
            if clause.is(at, classes.correct_not)
                && let Some(behind) = self.roles.iter().position(|(n, role)| *n == at + 1 && role.is_amount())
                && self.roles.iter().any(|(n, role)| *n + 1 == at && role.is_amount())
            {
                self.correct(at, behind);
            }
        }
    }

    /// Leaves out a role that the word at a place takes back.
    fn correct(&mut self, at: usize, role: usize) {
        self.note(Note::Corrected);
        self.used.add(at);
        self.roles.remove(role);
    }

    /// What a word takes back: the name or the figure before it, where one of the same sort follows.
    fn take_back(&mut self, at: usize) {
        if let Some(n) = self.name_taken_back(at) {
            self.correct(at, n);
        }
        let amounts: SmallVec<[(usize, usize, Value); 4]> = self
            .roles
            .iter()
            .enumerate()
            .filter_map(|(place, (n, role))| match role {
                Role::Amount(value) => Some((place, *n, *value)),
                _ => None,
            })
            .collect();
        let before = amounts.iter().rfind(|(_, n, _)| *n < at);
        let behind = amounts.iter().find(|(_, n, _)| *n > at);
        if let (Some((before, _, old)), Some((behind, _, new))) = (before, behind)
            && let Some(corrected) = supersede(*old, *new)
        {
            if let Some((_, role)) = self.roles.get_mut(*before) {
                *role = Role::Amount(corrected);
            }
            self.correct(at, *behind);
        }
    }

    /// The role of a name before a word that takes it back, where the next behind is of the same sort: `in the back
    /// forty, no, the hoop`.
    fn name_taken_back(&self, at: usize) -> Option<usize> {
        let (_, behind) = self.roles.iter().filter(|(n, _)| *n > at).min_by_key(|(n, _)| *n)?;
        let same = |role: &Role| {
            !matches!(role, Role::Amount(_) | Role::Modifier | Role::Vague)
                && discriminant(role) == discriminant(behind)
        };
        let before = self.roles.iter().enumerate().filter(|(_, (n, role))| *n < at && same(role));
        before.max_by_key(|(_, (n, _))| *n).map(|(place, _)| place)
    }

    /// `5 trays of halves, 6 trays, found room`: an amount of the same sort with nothing of its own, which says the
    /// last one anew.
    pub(super) fn says_anew(
        &mut self,
        current: &mut [(usize, Role)],
        n: usize,
        role: &Role,
        next: Option<&Role>,
    ) -> bool {
        let joined = self.clause.before(n).is_some_and(|item| item.is(self.clause.classes().and));
        let named = matches!(
            next,
            Some(Role::Food(_) | Role::What(_) | Role::Supply(_) | Role::Ripe(_) | Role::Place(_) | Role::When(_))
        );
        let last = current.iter_mut().rfind(|(_, role)| role.is_amount());
        let (Role::Amount(new), Some((_, Role::Amount(old)))) = (role, last) else { return false };
        let same = discriminant(old) == discriminant(new);
        let Some(corrected) = supersede(*old, *new).filter(|_| same && !joined && !named) else { return false };
        let chosen = self.choose(Way::Later);
        if chosen {
            *old = corrected;
            self.note(Note::Corrected);
        }
        chosen
    }
}
