//! Questions about pictures, tables and stretches of time.

use super::clause::{Clause, meaning_of, value_of};
use super::made::Made;
use crate::phrase::value::Value;
use crate::phrase::value::day::Day;
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

/// A picture: of the freezer, the pantry, the season or a day, light or dark.
pub(super) fn chart(clause: &Clause<'_>) -> Made {
    let classes = clause.classes();
    let context = clause.scene.context;
    let today = context.zone.day(context.now);
    let mut used = clause.used_by_trigger();
    let mut page = None;
    let mut shade = "";
    let mut since = None;
    let mut crop = None;
    let pages = [
        (classes.freezer, FREEZER),
        (classes.pantry, PANTRY),
        (classes.chart_season, SEASON),
        (classes.chart_day, DAY),
    ];
    for (n, item) in clause.items().iter().enumerate() {
        let day = value_of!(item, Value::Day(dated) => dated.day);
        let named = match day {
            Some(Day::Span(..)) => Some(SEASON),
            Some(_) => Some(DAY),
            None => pages.into_iter().find(|(class, _)| item.is(*class)).map(|(_, page)| page),
        };
        if let Some(day) = day {
            since = day.past(today, context.lexicon.metric);
        }
        let shown =
            [(classes.set_dark, DARK), (classes.set_light, LIGHT)].into_iter().find(|(class, _)| item.is(*class));
        let grown = meaning_of!(item, classes.crop, clause.words(), Crop).copied();
        page = page.or(named);
        shade = shown.map_or(shade, |(_, shade)| shade);
        crop = crop.or(grown);
        if named.is_some() || shown.is_some() || grown.is_some() {
            used.add(n);
        }
    }
    let what = format!("{}{shade}", page.unwrap_or_default()).trim().to_owned();
    let what = Some(what).filter(|what| !what.is_empty());
    let since = since.filter(|_| page == Some(DAY));
    Made::one(Statement::Ask(Ask { what, since, crop, ..Ask::about(Subject::Chart) }), used, [])
}

/// A table for a spreadsheet, or the whole ledger.
pub(super) fn table(clause: &Clause<'_>) -> Made {
    let classes = clause.classes();
    let mut used = clause.used_by_trigger();
    let tables = [
        (classes.freezer, Table::Freezer.as_str()),
        (classes.pantry, Table::Pantry.as_str()),
        (classes.totals, Table::Totals.as_str()),
        (classes.chart_season, Table::Totals.as_str()),
        (classes.batch, Table::Batches.as_str()),
        (classes.log, Table::Log.as_str()),
        (classes.deed_pick, Table::Log.as_str()),
        (classes.everything, LEDGER),
    ];
    let mut what = None;
    for (n, item) in clause.items().iter().enumerate() {
        if let Some((_, table)) = tables.into_iter().find(|(class, _)| item.is(*class)) {
            what = what.or(Some(table));
            used.add(n);
        }
    }
    let what = Some(what.unwrap_or(LEDGER).to_owned());
    let (since, until, days) = stretch(clause);
    days.iter().for_each(|n| used.add(*n));
    Made::one(Statement::Ask(Ask { what, since, until, ..Ask::about(Subject::Table) }), used, [])
}

/// From which day and up to which a question asks, and the items that say it.
pub(super) fn stretch(clause: &Clause<'_>) -> (Option<NaiveDate>, Option<NaiveDate>, SmallVec<[usize; 2]>) {
    let context = clause.scene.context;
    let today = context.zone.day(context.now);
    let classes = clause.classes();
    let said = clause.items().iter().enumerate().filter(|(_, item)| !item.is(classes.modal));
    let days: SmallVec<[(usize, Day); 2]> =
        said.filter_map(|(n, item)| Some((n, value_of!(item, Value::Day(dated) => dated.day)?))).collect();
    let items = days.iter().map(|(n, _)| *n).collect();
    let past = |day: Day| day.past(today, context.lexicon.metric);
    match days.as_slice() {
        [] => (None, None, items),
        [(n, day)] => {
            let since = clause.before(*n).is_some_and(|item| item.is(classes.since));
            let (from, until) = match day.stretch(today) {
                Some((from, until)) => (Some(from), until),
                None => (past(*day), past(*day).filter(|day| *day != today)),
            };
            (from, until.filter(|_| !since), items)
        }
        [(_, from), (_, until), ..] => (past(*from), past(*until), items),
    }
}
