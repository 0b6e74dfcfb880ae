//! Canning days and kitchen timers.

use super::clause::{Clause, value_of};
use super::fill::product_named;
use super::made::{Made, Note, Used};
use super::record::clarify;
use super::set::by;
use crate::phrase::frame::{Slots, Types};
use crate::phrase::item::{Item, WordKind};
use crate::phrase::value::Value;
use crate::phrase::value::day::Day;
use crate::processes;
use crate::quantity::Number;
use crate::statement::{CalledOff, Planned, Statement, TimerStart, TimerStop};
use crate::vocabulary::{Kind, Missing, Product};
use smallvec::SmallVec;

/// A canning day that is fixed, moved or called off.
pub(super) fn plan(clause: &Clause<'_>) -> Option<Made> {
    let classes = clause.classes();
    let context = clause.scene.context;
    let today = context.zone.day(context.now);
    let mut used = clause.used_by_trigger();
    let mut notes: SmallVec<[Note; 8]> = SmallVec::new();
    let mut plan = Planned::default();
    // The weekend is no day.
    let mut weekend = false;
    for (n, item) in clause.items().iter().enumerate() {
        let dated = value_of!(item, Value::Day(dated) => dated.day);
        weekend |= matches!(dated, Some(Day::Weekend(_)));
        if let Some(said) = dated.filter(|said| !matches!(said, Day::Span(..) | Day::Month(_))) {
            let coming = said.coming(today, context.lexicon.metric);
            // A day of a month that is over is said to be over; of another, nobody plans.
            let named = matches!(said, Day::Weekend(_) | Day::OfMonth(..) | Day::Figures(..) | Day::Date(_));
            if coming.is_none_or(|day| day < today) && !named {
                return None;
            }
            // Of two days the later is meant: `move it from Saturday to Sunday`.
            plan.day = coming.or(plan.day);
            notes.push(if coming == Some(today) { Note::Today } else { Note::Day });
            used.add(n);
            continue;
        }
        let led = clause.before(n).is_some_and(|item| item.is_any(&[classes.plan_by, classes.at]));
        let time = by(item).filter(|_| plan.by.is_none() && (led || clause.types(n).has(Types::Clock)));
        if time.is_some() {
            plan.by = time;
            notes.push(Note::Clock);
            used.add(n);
        } else if let Some(said) = value_of!(item, Value::Jars(jars) => *jars) {
            plan.jar = plan.jar.or(said.jar);
            plan.jars = plan.jars.or(said.count.filter(|_| !said.article).and_then(Number::as_count));
            used.add(n);
        }
    }
    // Any words could be a recipe's name: for a day only those are taken that somebody knows.
    let known = |product: &Product| {
        processes::product(product.as_str()).is_some()
            || matches!(processes::resolve(product), processes::Resolved::Family(_))
            || context.lexicon.recipes.iter().any(|recipe| recipe == product.as_str())
            || context.lexicon.planned.iter().any(|(_, planned)| planned == product)
    };
    let named = product_named(clause).filter(|(product, _)| clause.any(classes.product) || known(product));
    if let Some((product, items)) = named {
        items.iter().for_each(|n| used.add(*n));
        notes.push(Note::Product);
        plan.product = Some(product);
    }
    let statement = match clause.frame.kind {
        Kind::CalledOff => {
            let day = plan.day.filter(|_| !weekend);
            // A day by itself is called off where it is one that is set.
            let set = |day| context.lexicon.planned.iter().any(|(set, _)| *set == day);
            let bare = !clause.any(classes.plan_day) && !clause.any(classes.deed_can) && plan.product.is_none();
            if bare && day.is_some_and(|day| !set(day)) {
                return None;
            }
            Statement::CalledOff(CalledOff { day, product: plan.product })
        }
        _ => Statement::Planned(Some(plan).filter(|plan| plan.day.is_some())?),
    };
    Some(Made::one(statement, used, notes))
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
        let dated = value_of!(item, Value::Day(dated) => dated.day);
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
    Some(Made::one(Statement::Planned(planned), used, [Note::Day]))
}

/// A kitchen timer, started or stopped.
pub(super) fn timer(clause: &Clause<'_>) -> Option<Made> {
    let mut used = clause.used_by_trigger();
    let mut seconds: Option<u32> = None;
    let mut number = None;
    for (n, item) in clause.items().iter().enumerate() {
        if let Some(span) = value_of!(item, Value::Duration(span) => *span) {
            used.add(n);
            // `45 min, no, 50 min`: the last one.
            seconds = seconds.filter(|_| !clause.is_corrected(n)).or(Some(span));
        } else if seconds.is_none() && number.is_none() {
            number = value_of!(item, Value::Number(figure) if !figure.article => figure.number);
            if number.is_some() {
                used.add(n);
            }
        }
    }
    let label = label(clause, &mut used);
    let labelled = label.as_ref().map(|_| Note::Label);
    if clause.frame.kind == Kind::TimerStop {
        let stop = Statement::TimerStop(TimerStop { label });
        return seconds.is_none().then(|| Made::one(stop, used, labelled));
    }
    let start = Statement::TimerStart(TimerStart { seconds, label });
    let (missing, note) = match (seconds, number) {
        (Some(_), _) => return Some(Made::one(start, used, labelled)),
        (None, Some(_)) => (Missing::Unit, Note::AskUnit),
        (None, None) => (Missing::Amount, Note::AskAmount),
    };
    let asked = clarify(Kind::TimerStart, missing, number, Some(start));
    Some(Made::one(asked, used, labelled.into_iter().chain([note])))
}

/// What a timer is for: the words behind `for`, or beside the figure.
fn label(clause: &Clause<'_>, used: &mut Used) -> Option<String> {
    let classes = clause.classes();
    let count = clause.len();
    let before = *used;
    let mine = |n: usize| {
        let content = |item: &Item| {
            (item.is_content() || item.is(classes.dish) || !item.values.is_empty())
                && !item.is_any(&[classes.timer, classes.oops])
                && !matches!(item.kind, WordKind::Voice | WordKind::Deed)
        };
        !before.has(n) && clause.at(n, content)
    };
    let behind_for = clause.position(classes.prep_for).filter(|n| *n < count);
    // What is done may be the label behind `for the`: `for the venting`.
    let deed = |n: usize| {
        behind_for.is_some()
            && !before.has(n)
            && clause.at(n, |item| item.kind == WordKind::Deed)
            && clause.at(n.saturating_sub(1), |item| item.is_any(&[classes.article, classes.prep_for]))
    };
    let joins = |n: usize| {
        let small = [classes.of, classes.and, classes.pronoun, classes.article];
        clause.at(n, |item| item.is_any(&small))
    };
    let named = |n: usize| mine(n) || deed(n);
    let first = (behind_for.map_or(0, |n| n + 1)..count).find(|n| named(*n))?;
    let end =
        clause.end_of(first, 6, |n| named(n) || n > first && joins(n) && (mine(n + 1) || joins(n + 1) && mine(n + 2)));
    used.add_all(first..end);
    clause.takes(Slots::Label).then(|| clause.said(first, end)).flatten()
}
