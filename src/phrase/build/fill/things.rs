//! Crops and varieties that no list has, and people and purposes that are passed over: what words are by where they
//! stand.

use super::filling::{Filling, Food, Role, Way};
use crate::phrase::build::clause::meaning_of;
use crate::phrase::build::made::Note;
use crate::phrase::endings::singular;
use crate::phrase::frame::Slots;
use crate::phrase::item::{Item, WordKind};
use crate::phrase::lex::Mark;
use crate::phrase::value::Value;
use crate::vocabulary::{Crop, Kind};
use std::ops::Range;

/// Whether a role is fruit whose variety was not said.
const fn lacks_variety(role: &Role) -> bool {
    matches!(role, Role::Food(Food { crop: Some(_), variety: None, .. }))
}

impl Filling<'_, '_> {
    /// Two or more words with capitals that no list has as one name, in a message that does not write all words so.
    pub(super) fn capital_name(&self) -> Option<Range<usize>> {
        let clause = self.clause;
        let plain = |item: &&Item| item.mark.is_none() && item.kind != WordKind::Value && !item.capital;
        if !self.takes(Slots::Variety) || clause.items().iter().filter(plain).count() < 2 {
            return None;
        }
        let capital = |n: usize| {
            clause.at(n, |item| item.capital && item.values.is_empty() && !item.is(clause.classes().own))
                && !clause.triggers(n)
        };
        let joins = |n: usize| clause.at(n, |item| item.kind == WordKind::Small) && capital(n + 1);
        let name = |n: usize| n..clause.end_of(n, 6, |end| capital(end) || end > n && joins(end));
        (0..clause.len()).map(name).find(|name| name.len() > 1)
    }

    /// Takes words with capitals for a variety; the last may be its crop.
    pub(super) fn take_capital_name(&mut self, items: Range<usize>) {
        let crop = self
            .clause
            .item(items.end - 1)
            .and_then(|item| meaning_of!(item, self.clause.classes().crop, self.clause.words(), Crop).copied());
        self.take_name(items, Note::GuessedVarietyStrange, |name| {
            Role::Food(Food { crop, variety: Some(singular(&name)), ..Food::default() })
        });
    }

    /// `7 lb wrinkled tomatoes`: words between an amount and its thing belong to the thing; a strange one or one with a
    /// capital names its variety.
    pub(super) fn take_modifiers(&mut self) {
        let clause = self.clause;
        for n in self.places_of(|role| matches!(role, Role::Food(_) | Role::What(_))) {
            let at = clause.start_of(n, 4, |at| self.is_free(at) || self.is_capital_name(at));
            if at == n {
                continue;
            }
            let named = (at..n).find(|at| self.looks_like_name(*at));
            self.note(if named.is_some() { Note::ModifierStrange } else { Note::Modifier });
            self.used.add_all(at..n);
            if !self.takes(Slots::Variety) {
                continue;
            }
            let ordinary = named.is_none() && clause.any_in(at..n, |item| item.kind == WordKind::Ordinary);
            let chosen = self.choose_if(ordinary, Way::Variety) && ordinary;
            if chosen {
                self.note(Note::GuessedVarietyOrdinary);
            }
            if let Some(first) = named.or(chosen.then_some(at)) {
                self.name_variety(n, clause.said(first, n));
            }
        }
    }

    /// Nouns beside amounts that no list has: each amount may have its own.
    pub(super) fn guess_things(&mut self) {
        let mut amounts = self.places_of(|role| match role {
            Role::Amount(Value::Weight(_) | Value::Count(_) | Value::Portions(_)) => true,
            Role::Amount(value) => matches!(value, Value::Measure(..) | Value::Number(_) | Value::CountOf(..)),
            _ => false,
        });
        amounts.sort_unstable();
        let foods = self.places_of(Role::is_food);
        for (at, amount) in amounts.iter().enumerate() {
            let next = amounts.get(at + 1).copied().unwrap_or(self.clause.len());
            let named = |food: &usize| (*amount..next).contains(food) || at == 0 && food < amount;
            if !foods.iter().any(named) && !self.guess_thing_behind(*amount) {
                self.guess_thing_before(*amount);
            }
        }
        if !self.has_role(Role::is_food) {
            self.guess_thing_of_deed();
        }
        self.roles.sort_by_key(|(n, _)| *n);
    }

    /// `9 lb of oca`: whether a thing was named behind an amount.
    fn guess_thing_behind(&mut self, amount: usize) -> bool {
        let clause = self.clause;
        let classes = clause.classes();
        let leads = |n: usize| {
            clause.at(n, |item| item.is_any(&[classes.of, classes.article, classes.own, classes.harmless]))
                && (!clause.is(n, classes.harmless) || self.is_free(n + 1))
        };
        let at = clause.end_of(amount + 1, clause.len(), leads);
        let end = clause.end_of(at, 4, |n| self.is_free(n) || n > at && self.is_capital_name(n));
        if !clause.any_in(at..end, |item| item.kind != WordKind::Harmless) {
            return false;
        }
        if clause.any_in(at..end, |item| item.kind == WordKind::Trade) {
            self.note(Note::Foreign);
            return false;
        }
        self.name_thing(at..end)
    }

    /// `bottle gourd 2 kg, ridge gourd 900 g`: a name right before its amount, at the head of a clause or behind a
    /// mark.
    fn guess_thing_before(&mut self, amount: usize) {
        let clause = self.clause;
        let classes = clause.classes();
        let between = |item: &Item| matches!(item.mark, Some(Mark::Comma | Mark::Colon | Mark::Dash));
        let end = clause.start_of(amount, amount, |n| clause.at(n, between) || clause.triggers(n));
        let at = clause.start_of(end, 3, |n| self.is_strange_thing(n));
        let heads = |item: &Item| item.mark.is_some() || item.is_any(&[classes.and, classes.article]);
        let named = |item: &Item| matches!(item.kind, WordKind::Ordinary | WordKind::Strange);
        if clause.before(at).is_none_or(heads) && clause.any_in(at..end, named) {
            self.name_thing(at..end);
        }
    }

    /// `dug the oca, 19 lb`, `cut the Crown Prince this afternoon`: a name right behind the deed, where no other
    /// stands.
    fn guess_thing_of_deed(&mut self) {
        let clause = self.clause;
        let classes = clause.classes();
        let count = clause.len();
        let deed = (0..count).find(|n| clause.triggers(*n) && clause.is(*n, classes.deed));
        let Some(deed) = deed else { return };
        let leads = |item: &Item| item.is_any(&[classes.article, classes.own]) || item.kind == WordKind::Harmless;
        let at = clause.end_of(deed + 1, count, |n| clause.at(n, leads));
        let end = clause.end_of(at, 3, |n| self.is_strange_thing(n));
        if end > at {
            self.name_thing(at..end);
        }
    }

    /// Whether an item may be a thing that the trade does not know.
    fn is_strange_thing(&self, n: usize) -> bool {
        self.is_free(n) && self.clause.at(n, |item| item.kind != WordKind::Trade)
    }

    /// Takes a stretch for a crop or a variety that no list has; whether it was taken.
    fn name_thing(&mut self, items: Range<usize>) -> bool {
        if self.choose(Way::NoGuess) {
            return false;
        }
        let strange = items.clone().any(|n| self.looks_like_name(n));
        // `Widow Strip, 8 lb`
        let heads = items.start == 0 && self.clause.at(items.end, |item| item.mark.is_some());
        if self.choose_if(heads && self.takes(Slots::Place), Way::Place) && heads {
            self.take_name(items, Note::GuessedPlace, Role::Place);
            return true;
        }
        let variety = self.choose_if(self.takes(Slots::Variety), Way::Variety);
        let note = match (variety, strange) {
            (true, true) => Note::GuessedVarietyStrange,
            (true, false) => Note::GuessedVarietyOrdinary,
            (false, true) => Note::GuessedCropStrange,
            (false, false) => Note::GuessedCropOrdinary,
        };
        self.take_name(items, note, |name| {
            let name = singular(&name);
            Role::Food(match variety {
                true => Food { variety: Some(name), ..Food::default() },
                false => Food { crop: Some(Crop::of(&name)), ..Food::default() },
            })
        });
        true
    }

    /// `apples, James Grieve`, `tomatoes Savignac`: a variety behind its crop.
    pub(super) fn variety_behind(&mut self) {
        let clause = self.clause;
        for n in self.places_of(lacks_variety) {
            let mark = clause.at(n + 1, |item| matches!(item.mark, Some(Mark::Comma | Mark::Bracket)));
            let at = n + 1 + usize::from(mark);
            let strange = |item: &Item| item.capital || item.kind == WordKind::Strange;
            let mut end =
                clause.end_of(at, 3, |n| self.is_free(n) && clause.at(n, strange) || n > at && self.is_capital_name(n));
            if end == at && !mark {
                // `eggplant fairy tale 6 lb`
                let ordinary = |item: &Item| item.kind == WordKind::Ordinary;
                end = clause.end_of(at, 3, |n| self.is_free(n) && clause.at(n, ordinary));
                if !clause.at(end, |item| !item.values.is_empty()) {
                    continue;
                }
            }
            if end > at && !self.choose(Way::NoGuess) {
                self.used.add_all(at..end);
                self.note(Note::GuessedVarietyStrange);
                self.name_variety(n, clause.said(at, end));
            }
        }
    }

    /// `plums: 8 kg picked, Opal`: a variety as the last thing that is said.
    pub(super) fn variety_last(&mut self) {
        let clause = self.clause;
        let count = clause.len();
        let mark = |item: &Item| matches!(item.mark, Some(Mark::Comma | Mark::Dash | Mark::Colon));
        let Some(comma) = (0..count).rev().find(|n| clause.at(*n, mark)) else { return };
        let last = comma + 1..count;
        let placed = !self.takes(Slots::Place) || self.has_role(|role| matches!(role, Role::Place(_)));
        let variety = self.has_role(|role| matches!(role, Role::Food(Food { variety: Some(_), .. })));
        if !placed && variety && (1..3).contains(&last.len()) && last.clone().all(|n| self.is_capital_name(n)) {
            // `San Marzano, 4.4 kg, Gewächshaus`: behind a variety it is where they grew.
            return self.take_name(last, Note::GuessedPlace, Role::Place);
        }
        let crops = self.places_of(|role| matches!(role, Role::Food(Food { crop: Some(_), .. }))).len();
        let named = last.len() <= 3 && last.clone().all(|n| self.is_free(n) || self.is_capital_name(n));
        let strange = clause.any_in(last.clone(), |item| item.capital || item.kind == WordKind::Strange);
        if crops != 1 || !named || !strange || self.choose(Way::NoGuess) {
            return;
        }
        if self.choose_if(!placed, Way::Place) {
            return self.take_name(last, Note::GuessedPlace, Role::Place);
        }
        if let Some(n) = self.places_of(lacks_variety).first() {
            let said = clause.said(last.start, last.end);
            self.used.add_all(last);
            self.note(Note::GuessedVarietyStrange);
            self.name_variety(*n, said);
        }
    }

    /// `to the food bank`, `for supper`: somebody or something that the statement does not keep.
    pub(super) fn pass_over_recipients(&mut self) {
        use WordKind::{Alien, Harmless, Ordinary, Small, Strange};
        let clause = self.clause;
        let classes = clause.classes();
        let with = self.kind() == Kind::Opened;
        let leads =
            |item: &Item| item.is_any(&[classes.prep_to, classes.prep_for]) || with && item.is(classes.prep_with);
        let named = |item: &Item| {
            (matches!(item.kind, Small | Ordinary | Strange | Harmless | Alien)
                || item.is_any(&[classes.kin, classes.folk, classes.own, classes.daypart]))
                && !item.is(classes.and)
        };
        for n in 1..=clause.len() {
            if !clause.at(n - 1, leads) || self.used.has(n - 1) {
                continue;
            }
            let end = clause.end_of(n, 5, |n| clause.at(n, named) && !self.used.has(n));
            if clause.any_in(n..end, |item| item.kind != Small) {
                self.note(Note::Recipient);
                self.used.add_all(n..end);
            }
        }
    }
}
