//! Canning days and kitchen timers.

use super::super::frame::Slots;
use super::super::value::Value;
use super::super::value::time::Day;
use super::clause::Clause;
use super::made::{Made, Note, Used};
use super::record::clarify;
use super::set::by;
use crate::quantity::Number;
use crate::statement::{CalledOff, Planned, Statement, TimerStart, TimerStop};
use crate::vocabulary::{Jar, Kind, Missing, Product};
use chrono::NaiveDate;
use smallvec::SmallVec;

/// A canning day that is fixed, moved or called off.
pub(super) fn plan(clause: &Clause<'_>, out: &mut Vec<Made>) {
    let mut used = clause.used_by_trigger();
    let mut notes: SmallVec<[Note; 8]> = SmallVec::new();
    let classes = clause.classes();
    let context = clause.scene.context;
    let today = context.zone.day(context.now);
    let mut day: Option<NaiveDate> = None;
    let mut out_by = None;
    let mut product: Option<Product> = None;
    let mut jar: Option<Jar> = None;
    let mut jars = None;
    let mut impossible = false;
    for (n, item) in clause.items().iter().enumerate() {
        let dated = item.values.iter().find_map(|value| match value {
            Value::Day(dated) => Some(dated.day),
            _ => None,
        });
        if let Some(said) = dated.filter(|said| !matches!(said, Day::Span(..) | Day::Month(_))) {
            used.add(n);
            notes.push(Note::Day);
            let coming = said.coming(today, context.lexicon.metric);
            // A day of a month that is over is said to be over; of another, nobody plans.
            let named = matches!(said, Day::Weekend(_) | Day::OfMonth(..) | Day::Figures(..) | Day::Date(_));
            impossible |= coming.is_none_or(|day| day < today) && !named;
            // Of two days the later is meant: `move it from Saturday to Sunday`.
            day = coming.or(day);
            continue;
        }
        let clocked = item.values.iter().any(|value| matches!(value, Value::Clock(_)));
        let leads = n
            .checked_sub(1)
            .and_then(|n| clause.item(n))
            .is_some_and(|item| item.is(classes.plan_by) || item.is(classes.at));
        if out_by.is_none()
            && (clocked || leads)
            && let Some((_, time)) = by(clause, n)
        {
            used.add(n);
            notes.push(Note::Clock);
            out_by = Some(time);
            continue;
        }
        let said = item.values.iter().find_map(|value| match value {
            Value::Jars(jars) => Some(*jars),
            _ => None,
        });
        if let Some(said) = said {
            used.add(n);
            jar = jar.or(said.jar);
            jars = jars.or(said.count.filter(|_| !said.article).and_then(Number::as_count));
            continue;
        }
    }
    if let Some((named, items)) = super::fill::product_named(clause) {
        items.iter().for_each(|n| used.add(*n));
        notes.push(Note::Product);
        product = Some(named);
    }
    if impossible {
        return;
    }
    let statement = match clause.frame.kind {
        Kind::CalledOff => {
            // The weekend is no day.
            let weekend = clause.items().iter().any(|item| {
                item.values
                    .iter()
                    .any(|value| matches!(value, Value::Day(dated) if matches!(dated.day, Day::Weekend(_))))
            });
            let day = day.filter(|_| !weekend);
            // A day by itself is called off where it is one that is set.
            let set = |day| context.lexicon.planned.iter().any(|(set, _)| *set == day);
            let bare = !clause.any(classes.plan_day) && !clause.any(classes.deed_can) && product.is_none();
            if bare && day.is_some_and(|day| !set(day)) {
                return;
            }
            Statement::CalledOff(CalledOff { day, product })
        }
        _ => Statement::Planned(Planned { day, by: out_by, product, jar, jars }),
    };
    if matches!(&statement, Statement::Planned(planned) if planned.day.is_none()) {
        return;
    }
    out.push(Made { statements: [statement].into_iter().collect(), used, notes, ..Made::default() });
}

/// `make it Sunday`, `not Saturday, Sunday`: another day for the canning day that is set, where every word says so.
pub(super) fn moved(clause: &Clause<'_>) -> Option<Made> {
    let context = clause.scene.context;
    let today = context.zone.day(context.now);
    let set = context.lexicon.planned.iter().filter(|(day, _)| *day >= today).min_by_key(|(day, _)| *day)?;
    let classes = clause.classes();
    let mut used = clause.used_by_trigger();
    let mut days = Vec::new();
    for (n, item) in clause.items().iter().enumerate() {
        let dated = item.values.iter().find_map(|value| match value {
            Value::Day(dated) => Some(dated.day),
            _ => None,
        });
        let says_so = item.is_any(&[classes.correct, classes.oops, classes.not, classes.but, classes.instead]);
        match dated {
            Some(said) => days.push(said.coming(today, context.lexicon.metric).filter(|day| *day >= today)?),
            None if says_so || !item.is_content() => {}
            None => return None,
        }
        used.add(n);
    }
    let named = clause.any(classes.correct) || clause.any(classes.oops) || clause.any(classes.instead);
    let day = days.last().copied().filter(|day| *day != set.0 && (named || days.len() > 1))?;
    let planned = Planned { day: Some(day), product: Some(set.1.clone()), ..Planned::default() };
    let statements = [Statement::Planned(planned)].into_iter().collect();
    Some(Made { statements, used, notes: [Note::Day].into_iter().collect(), ..Made::default() })
}

/// A kitchen timer, started or stopped.
pub(super) fn timer(clause: &Clause<'_>, out: &mut Vec<Made>) {
    let mut used = clause.used_by_trigger();
    let mut notes: SmallVec<[Note; 8]> = SmallVec::new();
    let mut seconds: Option<u32> = None;
    let mut number = None;
    for (n, item) in clause.items().iter().enumerate() {
        let span = item.values.iter().find_map(|value| match value {
            Value::Duration(span) => Some(*span),
            _ => None,
        });
        if let Some(span) = span {
            used.add(n);
            // `45 min, no, 50 min`: the last one.
            let corrected =
                clause.items().get(..n).is_some_and(|before| before.iter().any(|item| item.is(clause.classes().oops)));
            seconds = if corrected { Some(span) } else { seconds.or(Some(span)) };
            continue;
        }
        let bare = item.values.iter().find_map(|value| match value {
            Value::Number(figure) if !figure.article => Some(figure.number),
            _ => None,
        });
        if seconds.is_none() && number.is_none() && bare.is_some() {
            used.add(n);
            number = bare;
        }
    }
    let label = label(clause, &mut used);
    if label.is_some() {
        notes.push(Note::Label);
    }
    let statement = match clause.frame.kind {
        Kind::TimerStop => {
            if seconds.is_some() {
                return;
            }
            Statement::TimerStop(TimerStop { label })
        }
        _ => {
            let start = TimerStart { seconds, label };
            match (seconds, number) {
                (Some(_), _) => Statement::TimerStart(start),
                (None, Some(n)) => {
                    notes.push(Note::AskUnit);
                    clarify(Kind::TimerStart, Missing::Unit, Some(n), Some(Statement::TimerStart(start)))
                }
                (None, None) => {
                    notes.push(Note::AskAmount);
                    clarify(Kind::TimerStart, Missing::Amount, None, Some(Statement::TimerStart(start)))
                }
            }
        }
    };
    out.push(Made { statements: [statement].into_iter().collect(), used, notes, ..Made::default() });
}

/// What a timer is for: the words behind `for`, or beside the figure.
fn label(clause: &Clause<'_>, used: &mut Used) -> Option<String> {
    let classes = clause.classes();
    let count = clause.items().len();
    let mine = |n: usize, used: &Used| {
        clause.item(n).is_some_and(|item| {
            !used.has(n)
                && !clause.triggers(n)
                && item.mark.is_none()
                && (item.is_content() || item.is(classes.dish))
                && !item.is(classes.timer)
                && !item.is(classes.oops)
                && !matches!(item.kind, super::super::item::WordKind::Voice | super::super::item::WordKind::Deed)
        })
    };
    let behind_for = (0..count).find(|n| clause.item(*n).is_some_and(|item| item.is(classes.prep_for)));
    let starts = behind_for.map_or(0, |n| n + 1);
    // What is done may be the label behind `for the`: `for the venting`.
    let named = |n: usize, used: &Used| {
        mine(n, used)
            || behind_for.is_some()
                && !used.has(n)
                && !clause.triggers(n)
                && clause.item(n).is_some_and(|item| item.kind == super::super::item::WordKind::Deed)
                && clause
                    .item(n.saturating_sub(1))
                    .is_some_and(|item| item.is(classes.article) || item.is(classes.prep_for))
    };
    let first = (starts..count).find(|n| named(*n, used))?;
    let mut end = first;
    let joined =
        |n: usize, used: &Used| joins(clause, n) && (mine(n + 1, used) || joins(clause, n + 1) && mine(n + 2, used));
    while end < count
        && end - first < 6
        && (named(end, used) || end > first && (joined(end, used) || joins(clause, end) && mine(end + 1, used)))
    {
        end += 1;
    }
    (first..end).for_each(|n| used.add(n));
    clause.takes(Slots::Label).then(|| clause.scene.text.said(clause.from + first, clause.from + end)).flatten()
}

fn joins(clause: &Clause<'_>, n: usize) -> bool {
    let classes = clause.classes();
    clause.item(n).is_some_and(|item| {
        item.is(classes.of) || item.is(classes.and) || item.is(classes.pronoun) || item.is(classes.article)
    })
}
