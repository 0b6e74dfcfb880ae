//! What is asked for as a file: labels, a calendar, tables.

use super::{Facts, Reply, Scene, Words, capitalised};
use crate::alert::{Alert, Due, deadlines};
use crate::batch::Batch;
use crate::enclosure::{Calendar, Enclosure, Label, LabelSheet, Moment, Occasion};
use crate::ledger::state::{Lot, PlannedDay, Units};
use crate::ledger::{Ledger, Refusal};
use crate::picture;
use crate::sheet::{Layout, Unfit};
use crate::statement::Ask;
use crate::vocabulary::{Jar, Product, Table};
use chrono::{DateTime, NaiveDate, NaiveTime, Utc};
use std::collections::BTreeMap;

/// Why there are no labels.
#[derive(Clone, PartialEq, Debug, thiserror::Error)]
pub enum NoLabels {
    /// No batch is called so, and no jars on the shelf are.
    #[error("I know no batch of {0}, and no jars of it on the shelf.")]
    Unknown(String),
    /// There is no batch yet, nor any jar.
    #[error("There is no batch yet to make labels for.")]
    Nothing,
    /// They don't fit the paper.
    #[error(transparent)]
    Unfit(#[from] Unfit),
}

/// Labels for a batch.
pub(super) fn labels(scene: Scene<'_>, ledger: &Ledger, ask: &Ask) -> Result<(Reply, Vec<Enclosure>), Refusal> {
    let called = ask.batch.as_deref().or(ask.product.as_ref().map(Product::as_str));
    let words = ask.what.as_deref().or(scene.state.settings.labels.as_deref());
    let mut facts = Facts::default();
    let sheet = match label_sheet(scene, ledger, called, words) {
        Ok(sheet) => sheet,
        Err(NoLabels::Unfit(unfit)) => return Err(Refusal::Absurd(unfit.to_string())),
        Err(none) => return Ok((Reply { text: none.to_string(), facts }, Vec::new())),
    };
    facts.set("jars", sheet.count).set("label", sheet.label.product.clone());
    let sheets = sheet.sheets();
    let text = format!(
        "{} for {} ({}), {}: {} {}.",
        if sheet.count == 1 { "1 label".to_owned() } else { format!("{} labels", sheet.count) },
        sheet.label.product.to_lowercase(),
        sheet.label.on,
        sheet.layout,
        sheets,
        if sheets == 1 { "sheet" } else { "sheets" }
    );
    Ok((Reply { text, facts }, vec![Enclosure::Labels(sheet)]))
}

/// A sheet of labels for the batch of this name (the latest without one), or for the latest jars of a product that were
/// put up without a batch; on the sheet that these words say, or else the usual one of the room's units.
///
/// # Errors
/// When there is no such batch, or the labels don't fit.
pub fn label_sheet(
    scene: Scene<'_>,
    ledger: &Ledger,
    called: Option<&str>,
    sheet: Option<&str>,
) -> Result<LabelSheet, NoLabels> {
    let usual = match scene.state.settings.units {
        Units::Customary => "3x10 letter",
        Units::Metric => "3x8 a4",
    };
    let layout = Layout::parse(sheet.unwrap_or(usual))?;
    let found = picture::batch(ledger, called).map(|batch| of_batch(scene, &batch)).or_else(|| of_lot(scene, called));
    let words = Words::of(&scene.state.settings);
    let unknown = || called.map_or(NoLabels::Nothing, |name| NoLabels::Unknown(words.product(&Product::named(name))));
    let (label, count) = found.ok_or_else(unknown)?;
    Ok(LabelSheet { layout, used: 0, label, count: count.max(1) })
}

/// What stands on a jar of which nobody said that its acid is in.
const NOT_ACIDIFIED: &str = "not acidified: not for the shelf";

fn of_batch(scene: Scene<'_>, batch: &Batch) -> (Label, u32) {
    let zone = scene.state.settings.zone;
    let out = batch.outs.first().map_or(batch.filled_at.unwrap_or(batch.began), |(out, _)| *out);
    let acid = batch.acid.or(batch.acid_counted.map(|(acid, ..)| acid)).filter(|_| batch.acid_in);
    let told = acid.map(|acid| format!("{} added", super::words::supply(acid.supply())));
    let untold = (!batch.is_acidified()).then(|| NOT_ACIDIFIED.to_owned());
    let label = Label {
        batch: Some(format!("batch {}", batch.number)),
        acid: untold.or(told),
        ..label(scene, &batch.product, batch.jar, zone.day(out))
    };
    let sealed = batch.fates.sealed();
    let known = batch.filled > 0 && batch.undecided() == 0 && sealed > 0;
    (label, if known { sealed } else { batch.jars() })
}

fn of_lot(scene: Scene<'_>, called: Option<&str>) -> Option<(Label, u32)> {
    let words = Words::of(&scene.state.settings);
    let is_meant = |lot: &&Lot| {
        called.is_none_or(|name| lot.product.as_str() == name || words.product(&lot.product).contains(name))
    };
    let lot = scene.state.pantry.lots().iter().rev().find(is_meant)?;
    Some((label(scene, &lot.product, lot.jar, lot.on), lot.jars))
}

/// On the label of a household's own recipe.
const UNTESTED: &str = "untested: refrigerate or freeze";

fn label(scene: Scene<'_>, product: &Product, jar: Jar, on: NaiveDate) -> Label {
    let words = Words::of(&scene.state.settings);
    let name = words.product(product);
    let day = match scene.state.settings.units {
        Units::Customary => on.format("%b %-d, %Y"),
        Units::Metric => on.format("%-d %b %Y"),
    };
    let best = Lot { product: product.clone(), jar, jars: 1, on, batch: None }.best_by();
    Label {
        product: capitalised(&name),
        jar: jar.spoken(1).to_owned(),
        on: day.to_string(),
        batch: None,
        // Nothing is known of how long an untested recipe keeps, and a date would say that it does.
        best: best.map_or_else(|| UNTESTED.to_owned(), |best| best.format("best by %b %Y").to_string()),
        acid: None,
    }
}

/// What is due, as a calendar.
pub(super) fn calendar(scene: Scene<'_>) -> (Reply, Vec<Enclosure>) {
    let calendar = occasions(scene);
    let words = Words::of(&scene.state.settings);
    let mut facts = Facts::default();
    let Some(first) = calendar.occasions.first() else {
        return (Reply { text: "Nothing is due.".to_owned(), facts }, Vec::new());
    };
    facts.set("occasions", calendar.occasions.len());
    let when = match first.when {
        Moment::At(at) => {
            facts.due(at, scene.state);
            words.moment(at, scene.now)
        }
        Moment::Day(day) => words.day(day),
    };
    let count = calendar.occasions.len();
    let dates = if count == 1 { "1 date".to_owned() } else { format!("{count} dates") };
    let text = format!("{dates} for your calendar, the first: {}, {when}.", first.summary);
    (Reply { text, facts }, vec![Enclosure::Calendar(calendar)])
}

/// All that is due from now on: deadlines, and canning days as whole days.
pub fn occasions(scene: Scene<'_>) -> Calendar {
    let state = scene.state;
    let today = state.settings.zone.day(scene.now);
    let deadlines = deadlines(state);
    let due = deadlines.iter().filter(|due| due.at > scene.now).map(|due| (due.at, occasion(scene, due)));
    let planned =
        state.planned.iter().filter(|planned| planned.day >= today).map(|planned| canning_day(scene, planned));
    let mut all: Vec<(DateTime<Utc>, Occasion)> = planned.chain(due).collect();
    all.sort_by(|a, b| (a.0, &a.1.subject).cmp(&(b.0, &b.1.subject)));
    let mut seen: BTreeMap<String, u32> = BTreeMap::new();
    let occasions = all.into_iter().map(|(_, mut occasion)| {
        // Two rounds have two seal checks.
        let count = seen.entry(occasion.subject.clone()).or_default();
        *count += 1;
        if *count > 1 {
            occasion.subject = format!("{} {count}", occasion.subject);
        }
        occasion
    });
    Calendar { made: scene.now, occasions: occasions.collect() }
}

fn occasion(scene: Scene<'_>, due: &Due) -> Occasion {
    let words = Words::of(&scene.state.settings);
    let whose = match &due.alert {
        Alert::Batch(_, batch) => Some(batch.name.clone()),
        Alert::Timer(label) => label.clone(),
        _ => None,
    };
    // A day that is moved has all its steps at other times.
    let subject = match &due.alert {
        Alert::Planned(step) => format!("planned {} {:?}", step.0.product, step.2.takes.part),
        _ => without_instant(&due.name),
    };
    let topic = capitalised(&due.topic().replace('-', " "));
    let of_its_own = match &due.alert {
        Alert::Planned(step) => {
            let (part, product) = (super::plans::part_said(step.2.takes.part), words.product(&step.0.product));
            Some(format!("{}: {product}", capitalised(part)))
        }
        Alert::PastRipe(pickings) => {
            let all: Vec<String> = pickings.iter().map(|picking| super::ahead::picking_said(words, picking)).collect();
            Some(format!("Still there? {}", all.join("; ")))
        }
        _ => whose.map(|whose| format!("{topic}: {whose}")),
    };
    let detail = detail(Scene { now: due.at, ..scene }, due);
    // What concerns no batch is called by the first sentence of its alert: a calendar shows little more.
    let first = detail.split(['\n', '?']).next().and_then(|line| line.split(". ").next()).unwrap_or_default();
    let first = first.split(" (estimate").next().unwrap_or_default();
    Occasion { subject, summary: of_its_own.unwrap_or_else(|| first.to_owned()), detail, when: Moment::At(due.at) }
}

/// A step that is still to come is not held up by what is not thawed yet.
fn detail(scene: Scene<'_>, due: &Due) -> String {
    match &due.alert {
        Alert::Planned(step) => super::reminders::planned_step(scene, &step.0, &step.1, &step.2).text,
        _ => super::due(scene, due).text,
    }
}

/// A deadline's name without the second at which it is due: what stays when it moves.
fn without_instant(name: &str) -> String {
    let is_instant = |word: &&str| word.len() >= 9 && word.bytes().all(|b| b.is_ascii_digit());
    name.split(' ').filter(|word| !is_instant(word)).collect::<Vec<_>>().join(" ")
}

fn canning_day(scene: Scene<'_>, planned: &PlannedDay) -> (DateTime<Utc>, Occasion) {
    let words = Words::of(&scene.state.settings);
    let zone = scene.state.settings.zone;
    let product = words.product(&planned.product);
    let by = words.clock(zone.at(planned.day, planned.by));
    let occasion = Occasion {
        subject: format!("canning day {}", planned.product),
        summary: format!("Canning day: {product}"),
        detail: format!("The last round of {product} should be out by {by}."),
        when: Moment::Day(planned.day),
    };
    (zone.at(planned.day, NaiveTime::MIN), occasion)
}

/// A table of the room, or all of it.
pub(super) fn table(ask: &Ask) -> (Reply, Vec<Enclosure>) {
    let what = ask.what.as_deref().unwrap_or("log");
    let (text, file) = match what {
        "ledger" | "all" | "everything" => {
            ("The whole ledger of this room, as JSON lines.".to_owned(), Some(Enclosure::Ledger))
        }
        "fridge" => ("The shelves, for a spreadsheet.".to_owned(), Some(Enclosure::Table { table: Table::Pantry })),
        _ => match Table::named(what) {
            Some(table) => (format!("{}, for a spreadsheet.", told(table)), Some(Enclosure::Table { table })),
            None => {
                let known: Vec<&str> = Table::ALL.iter().map(|table| table.as_str()).collect();
                (format!("I have tables of {}, and 'export everything' for all of it.", known.join(", ")), None)
            }
        },
    };
    (Reply { text, facts: Facts::default() }, file.into_iter().collect())
}

const fn told(table: Table) -> &'static str {
    match table {
        Table::Log => "Every entry",
        Table::Freezer => "Every bag in the freezer",
        Table::Pantry => "Every lot on the shelves",
        Table::Batches => "Every batch",
        Table::Totals => "The sums of each year",
    }
}
