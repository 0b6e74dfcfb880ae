//! When it happened: the day of a clause or of a group, a day that is a purpose, and one that was said before.

use super::filling::{Filling, Role, Way};
use crate::phrase::build::clause::value_of;
use crate::phrase::build::made::Note;
use crate::phrase::build::record::Record;
use crate::phrase::build::when::Moment;
use crate::phrase::frame::Slots;
use crate::phrase::item::Item;
use crate::phrase::lex::Mark;
use crate::phrase::value::Value;
use crate::phrase::value::day::{Dated, Day};

impl Filling<'_, '_> {
    /// Takes a day: that of the clause, of a group, or what it is for.
    pub(super) fn take_day(&mut self, n: usize, item: &Item, dated: Dated) {
        let classes = self.clause.classes();
        // `may` alone says nothing.
        if item.is_single() && item.is(classes.modal) && matches!(dated.day, Day::Month(_)) {
            return;
        }
        self.used.add(n);
        let past = matches!(dated.day, Day::Offset(n) | Day::Months(n) if n < 0);
        if !past && self.takes(Slots::On) && self.clause.before(n).is_some_and(|item| item.is(classes.prep_for)) {
            self.note(Note::Purpose);
            return;
        }
        let lists = self.takes(Slots::List);
        let Some(first) = self.moment.day else {
            self.note(Note::Day);
            self.moment.day = Some(dated);
            if lists {
                self.roles.push((n, Role::When(dated)));
            }
            return;
        };
        let day = match (first.day, dated.day) {
            // `in June, on the 11th`
            (Day::Month(month), Day::OfAny(day)) => Day::OfMonth(month, day),
            (first, day) if lists && first != day && !self.clause.is_corrected(n) => {
                self.roles.push((n, Role::When(dated)));
                return;
            }
            (_, day) => day,
        };
        self.roles.retain(|(_, role)| !matches!(role, Role::When(_)));
        self.moment.day = Some(Dated { day, ..dated });
    }

    /// Settles when a record happened; `None` where that cannot be.
    pub(super) fn finish_moment(&mut self, record: &mut Record) -> Option<()> {
        if !self.takes(Slots::On) {
            return Some(());
        }
        let said = record.day.or(self.moment.day);
        let earlier = if said.is_none() && self.moment.ago.is_none() { self.earlier_day() } else { None };
        let chosen = earlier.filter(|_| self.choose(Way::Day));
        if chosen.is_some() {
            self.note(Note::EarlierDay);
        }
        match (Moment { day: said.or(chosen), ..self.moment }).past(self.clause.scene.context) {
            Ok(on) => record.on = on,
            // `thawing 4 for the stew tomorrow`: a day to come behind `for` is a purpose.
            Err(()) if self.clause.any(self.clause.classes().prep_for) => self.note(Note::Purpose),
            Err(()) => return None,
        }
        Some(())
    }

    /// A day that is past and stands before the clause, not further than the sentence before.
    fn earlier_day(&self) -> Option<Dated> {
        let text = self.clause.scene.text;
        // `sat` and `sun` are words of other sorts too.
        let short = |item: &Item| {
            let token = text.lexed.tokens.get(item.from as usize);
            item.is_single() && token.is_some_and(|token| token.to - token.from <= 3 && !token.capital)
        };
        let past = |day: Day| match day {
            Day::Weekday(..) | Day::Figures(..) | Day::OfMonth(..) | Day::OfAny(_) | Day::Date(_) => true,
            Day::Offset(n) | Day::Months(n) => n < 0,
            _ => false,
        };
        let mut stops = 0;
        let near = text.items.get(..self.clause.from)?.iter().rev().take(40).take_while(|item| {
            stops += usize::from(matches!(item.mark, Some(Mark::Dot | Mark::Bang | Mark::Line | Mark::Question)));
            stops < 2
        });
        near.filter(|item| !short(item))
            .find_map(|item| value_of!(item, Value::Day(dated) if past(dated.day) => *dated))
    }
}
