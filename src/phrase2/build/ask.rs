//! Questions about pictures, tables and stretches of time.

use super::super::lexicon::sense::Meaning;
use super::super::value::Value;
use super::super::value::time::{Day, Which};
use super::clause::Clause;
use super::made::{Made, Used};
use crate::statement::{Ask, Statement};
use crate::vocabulary::{Subject, Table};
use chrono::NaiveDate;
use smallvec::SmallVec;

/// Words of pictures and tables, as the statement keeps them.
const FREEZER: &str = "freezer";
const PANTRY: &str = "pantry";
const SEASON: &str = "season";
const DAY: &str = "day";
const LEDGER: &str = "ledger";
const DARK: &str = " dark";
const LIGHT: &str = " light";
/// A forecast that counts the fruit on the counter.
pub(super) const WITH_COUNTER: &str = "with-counter";

fn made(used: Used, ask: Ask) -> Made {
    Made { statements: [Statement::Ask(ask)].into_iter().collect(), used, ..Made::default() }
}

/// A picture: of the freezer, the pantry, the season or a day, light or dark.
pub(super) fn chart(clause: &Clause<'_>) -> Option<Made> {
    let classes = clause.classes();
    let mut used = clause.used_by_trigger();
    let mut what = None;
    let mut shade = "";
    let mut since = None;
    let mut crop = None;
    let context = clause.scene.context;
    let today = context.zone.day(context.now);
    for (n, item) in clause.items().iter().enumerate() {
        let page = match () {
            () if item.is(classes.freezer) => Some(FREEZER),
            () if item.is(classes.pantry) => Some(PANTRY),
            () if item.is(classes.chart_season) => Some(SEASON),
            () if item.is(classes.chart_day) => Some(DAY),
            () => None,
        };
        let day = item.values.iter().find_map(|value| match value {
            Value::Day(dated) => Some(dated.day),
            _ => None,
        });
        if let Some(day) = day {
            since = day.past(today, context.lexicon.metric);
            what = what.or(if matches!(day, Day::Span(..)) { Some(SEASON) } else { Some(DAY) });
            used.add(n);
        } else if page.is_some() {
            what = what.or(page);
            used.add(n);
        }
        if let Some(Meaning::Crop(found)) = item.meaning(classes.crop, clause.scene.text.words) {
            crop = crop.or(Some(*found));
            used.add(n);
        }
        if item.is(classes.set_dark) {
            shade = DARK;
            used.add(n);
        } else if item.is(classes.set_light) {
            shade = LIGHT;
            used.add(n);
        }
    }
    let what = match (what, shade) {
        (Some(page), shade) => Some(format!("{page}{shade}")),
        (None, "") => None,
        (None, shade) => Some(shade.trim().to_owned()),
    };
    let since = since.filter(|_| what.as_deref().is_some_and(|what| what.starts_with(DAY)));
    Some(made(used, Ask { what, since, crop, ..Ask::about(Subject::Chart) }))
}

/// A table for a spreadsheet, or the whole ledger.
pub(super) fn table(clause: &Clause<'_>) -> Option<Made> {
    let classes = clause.classes();
    let mut used = clause.used_by_trigger();
    let mut what = None;
    for (n, item) in clause.items().iter().enumerate() {
        let table = match () {
            () if item.is(classes.freezer) => Some(Table::Freezer.as_str()),
            () if item.is(classes.pantry) => Some(Table::Pantry.as_str()),
            () if item.is(classes.totals) || item.is(classes.chart_season) => Some(Table::Totals.as_str()),
            () if item.is(classes.batch) => Some(Table::Batches.as_str()),
            () if item.is(classes.log) || item.is(classes.deed_pick) => Some(Table::Log.as_str()),
            () if item.is(classes.everything) => Some(LEDGER),
            () => None,
        };
        if table.is_some() {
            what = what.or(table);
            used.add(n);
        }
    }
    let what = Some(what.unwrap_or(LEDGER).to_owned());
    let (since, until, days) = stretch(clause);
    days.iter().for_each(|n| used.add(*n));
    Some(made(used, Ask { what, since, until, ..Ask::about(Subject::Table) }))
}

/// From which day and up to which a question asks, and the items that say it.
pub(super) fn stretch(clause: &Clause<'_>) -> (Option<NaiveDate>, Option<NaiveDate>, SmallVec<[usize; 2]>) {
    let context = clause.scene.context;
    let today = context.zone.day(context.now);
    let classes = clause.classes();
    let mut days: SmallVec<[(usize, Day); 2]> = SmallVec::new();
    for (n, item) in clause.items().iter().enumerate() {
        let day = item.values.iter().find_map(|value| match value {
            Value::Day(dated) => Some(dated.day),
            _ => None,
        });
        days.extend(day.filter(|_| !item.is(classes.modal)).map(|day| (n, day)));
    }
    let items = days.iter().map(|(n, _)| *n).collect();
    let past = |day: Day| day.past(today, context.lexicon.metric);
    match days.as_slice() {
        [] => (None, None, items),
        [(n, day)] => {
            let since = n.checked_sub(1).and_then(|n| clause.item(n)).is_some_and(|item| item.is(classes.since));
            match day.stretch(today) {
                Some((from, until)) => (Some(from), until.filter(|_| !since), items),
                None => {
                    let from = past(*day);
                    let only = from.filter(|day| *day != today && !since);
                    (from, only, items)
                }
            }
        }
        [(_, from), (_, until), ..] => (past(*from), past(*until), items),
    }
}

/// Whether a weekday was said to be a coming one.
pub(super) const fn is_next(day: Day) -> bool {
    matches!(day, Day::Weekday(_, Which::Next))
}
