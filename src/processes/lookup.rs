//! The lookup: one question in, one time or one refusal out.

use super::altitude::boiling_point;
use super::jars::{JarNote, next_size_up, smaller};
use super::load::headspace;
use super::tables::Row;
use super::{Acidity, ProductInfo, Refusal, Resolved, Untested, facts, resolve};
use crate::quantity::{Length, Pressure, Temperature};
use crate::vocabulary::{CannerKind, Jar, Pack, Product};

/// What is asked.
#[derive(Clone, Copy, Debug)]
pub struct Query<'a> {
    /// The product, or a family word.
    pub product: &'a Product,
    /// The pack, if said; [`Pack::Either`] counts as not said.
    pub pack: Option<Pack>,
    /// The jar.
    pub jar: Jar,
    /// The canner.
    pub canner: CannerKind,
    /// Height above the sea.
    pub altitude: Option<Length>,
    /// What a pressure canner is run at, on the gauge, if said. Other canners ignore it.
    pub pressure: Option<Pressure>,
}

/// A tested process.
#[derive(Clone, PartialEq, Debug)]
pub struct Process {
    /// The product.
    pub product: &'static ProductInfo,
    /// The jar that was asked about.
    pub asked_jar: Jar,
    /// The jar of the table's row.
    pub jar: Jar,
    /// Why the row is another jar's, if it is.
    pub jar_note: Option<JarNote>,
    /// The pack the time holds for.
    pub pack: Pack,
    /// The canner that was asked about.
    pub canner: CannerKind,
    /// The process time, the altitude's addition included.
    pub minutes: u32,
    /// The pressure on the gauge, for a pressure canner.
    pub pressure: Option<Pressure>,
    /// For a pressure canner, everything that may be chosen here, this process among it, by rising pressure.
    pub choices: Vec<Choice>,
    /// The temperature of boiling water, or of free steam, at this altitude.
    pub heat: Temperature,
    /// The room between food and lid.
    pub headspace: Option<Length>,
    /// Bulletin, guide and table.
    pub source: &'static str,
    /// How many pages were seen that print it; at least one, and 3 means three or more.
    pub confirmed_by: u8,
}

/// A time and its pressure.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Choice {
    /// The process time.
    pub minutes: u32,
    /// The pressure on the gauge.
    pub pressure: Pressure,
    /// Bulletin, guide and table.
    pub source: &'static str,
    /// How many pages were seen that print it.
    pub confirmed_by: u8,
}

/// The rows of one pack and jar, all bands.
struct Table {
    pack: Pack,
    jar_note: Option<JarNote>,
    rows: Rows,
}

/// The process for `query`, or why there is none.
///
/// Only printed rows answer: never a time for a larger jar than was tested, never one between two rows, never one that
/// no page confirms. Steam canners take boiling-water times up to 45 minutes and jars up to a quart. Among choices
/// under pressure the one at 11 to 14 psi on a dial gauge, 10 lb up to 1000 ft and 15 lb above on a weighted gauge is
/// taken, else the highest below it; a pressure that was said gets the time of the highest row it reaches.
pub fn lookup(query: &Query<'_>) -> Result<Process, Refusal> {
    let product = match resolve(query.product) {
        Resolved::Tested(product) => product,
        Resolved::Family(members) => return Err(Refusal::WhichProduct(members)),
        Resolved::Unknown => return Err(Refusal::UnknownProduct),
    };
    let tables = tables(product, query)?;
    if query.canner == CannerKind::Steam && query.jar.volume() > Jar::Quart.volume() {
        return Err(Refusal::NotTested(Untested::JarForSteam));
    }
    if tables.iter().all(|table| table.rows.iter().all(|row| !row.is_offered())) {
        return Err(unverified(tables.iter().flat_map(|table| &table.rows)));
    }
    let altitude = query.altitude.ok_or(Refusal::AltitudeUnknown)?;
    let heat = in_range(altitude).and_then(boiling_point).ok_or(Refusal::AltitudeOutOfRange)?;
    let (pack, table, rows) = one_pack(&tables, altitude.as_feet())?;
    let row = choose(&rows, query, altitude.as_feet())?;
    if query.canner == CannerKind::Steam && i64::from(row.minutes) > facts::STEAM_MAX_PROCESS.value.num_minutes() {
        return Err(Refusal::TooLongForSteam { minutes: row.minutes, smaller_jar: smaller_jar(query) });
    }
    Ok(Process {
        product,
        asked_jar: query.jar,
        jar: row.jar,
        jar_note: table.jar_note,
        pack,
        canner: query.canner,
        minutes: row.minutes,
        pressure: pressure(row),
        choices: choices(&rows),
        heat,
        headspace: headspace(product, row.jar),
        source: &row.source,
        confirmed_by: row.confirmed_by,
    })
}

/// From 500 m below the sea to 3500 m above it.
fn in_range(altitude: Length) -> Option<Length> {
    (-500.0..=3_500.0).contains(&altitude.as_metres()).then_some(altitude)
}

/// The tables that could answer, one for each pack; at least one.
fn tables(product: &'static ProductInfo, query: &Query<'_>) -> Result<Vec<Table>, Refusal> {
    let method = match query.canner {
        CannerKind::Steam => CannerKind::BoilingWater,
        other => other,
    };
    if product.acidity == Acidity::LowAcid && !method.is_pressure() {
        return Err(Refusal::WrongCanner);
    }
    let rows: Vec<_> = product.rows.iter().filter(|row| row.method == method).collect();
    if rows.is_empty() {
        return Err(Refusal::NotTested(Untested::Canner { tested: product.canners() }));
    }
    let all: Vec<Table> = Pack::ALL.iter().filter_map(|pack| table(&rows, *pack, query.jar)).collect();
    if all.is_empty() {
        return Err(Refusal::NotTested(Untested::Jar { tested: distinct(&rows, |row| row.jar) }));
    }
    let tested = all.iter().map(|table| table.pack).collect();
    let wanted: Vec<Table> = all.into_iter().filter(|table| serves(table.pack, query.pack)).collect();
    if wanted.is_empty() { Err(Refusal::NotTested(Untested::Pack { tested })) } else { Ok(wanted) }
}

fn serves(printed: Pack, said: Option<Pack>) -> bool {
    match said {
        None | Some(Pack::Either) => true,
        Some(said) => printed == said || printed == Pack::Either,
    }
}

/// The rows for this pack and jar: the jar's own, or those of the next size up.
///
/// A row of its own counts even when it is from memory: a rule for jars that have none must not hide it.
fn table(rows: &[&'static Row], pack: Pack, jar: Jar) -> Option<Table> {
    let of = |jar| rows.iter().copied().filter(|row| row.pack == pack && row.jar == jar).collect::<Vec<_>>();
    let own = of(jar);
    if !own.is_empty() {
        return Some(Table { pack, jar_note: None, rows: own });
    }
    let note = next_size_up(jar)?;
    let rows = of(note.takes);
    (!rows.is_empty()).then_some(Table { pack, jar_note: Some(note), rows })
}

type Rows = Vec<&'static Row>;

/// The rows that are offered at this altitude, when the pack leaves no choice between different ones.
fn one_pack(tables: &[Table], feet: f64) -> Result<(Pack, &Table, Rows), Refusal> {
    let answers: Vec<_> = tables.iter().map(|table| (table, offered(table, feet))).collect();
    match answers.as_slice() {
        [] => Err(Refusal::NotTested(Untested::Altitude)),
        [(table, rows)] => rows.clone().map(|rows| (table.pack, *table, rows)),
        [(_, Err(refusal)), rest @ ..] if rest.iter().all(|(_, rows)| rows.is_err()) => Err(refusal.clone()),
        [(table, Ok(rows)), rest @ ..] if rest.iter().all(|(_, other)| same_times(rows, other)) => {
            Ok((Pack::Either, table, rows.clone()))
        }
        _ => {
            let minutes = |pack| {
                let (_, rows) = answers.iter().find(|(table, _)| table.pack == pack)?;
                rows.as_ref().ok()?.first().map(|row| row.minutes)
            };
            Err(Refusal::WhichPack { hot: minutes(Pack::Hot), raw: minutes(Pack::Raw) })
        }
    }
}

/// The rows of a table that are offered at this altitude, by rising pressure; at least one.
fn offered(table: &Table, feet: f64) -> Result<Rows, Refusal> {
    let band: Vec<_> = table.rows.iter().copied().filter(|row| row.covers(feet)).collect();
    if band.is_empty() {
        return Err(Refusal::NotTested(Untested::Altitude));
    }
    let mut rows: Vec<_> = band.iter().copied().filter(|row| row.is_offered()).collect();
    if rows.is_empty() {
        return Err(unverified(band.iter()));
    }
    rows.sort_by_key(|row| row.psi);
    Ok(rows)
}

fn same_times(one: &Rows, other: &Result<Rows, Refusal>) -> bool {
    let times = |rows: &Rows| rows.iter().map(|row| (row.minutes, row.psi)).collect::<Vec<_>>();
    other.as_ref().is_ok_and(|other| times(one) == times(other))
}

fn unverified<'a>(mut rows: impl Iterator<Item = &'a &'static Row>) -> Refusal {
    Refusal::Unverified { source: rows.next().map_or("", |row| &row.source) }
}

/// The row to use, of rows in order of rising pressure.
fn choose(rows: &[&'static Row], query: &Query<'_>, feet: f64) -> Result<&'static Row, Refusal> {
    let Some(lowest) = rows.first().copied() else { return Err(Refusal::NotTested(Untested::Altitude)) };
    let reached_by = |psi: f64| rows.iter().copied().rev().find(|row| row.psi.is_none_or(|row| f64::from(row) <= psi));
    let usual = match query.canner {
        CannerKind::PressureDial => 14.0,
        CannerKind::PressureWeighted if feet <= 1000.0 => 10.0,
        _ => 15.0,
    };
    match query.pressure {
        None => Ok(reached_by(usual).unwrap_or(lowest)),
        Some(said) => reached_by(said.as_psi()).ok_or_else(|| match pressure(lowest) {
            Some(need) => Refusal::PressureTooLow { need },
            None => Refusal::NotTested(Untested::Altitude),
        }),
    }
}

/// The largest smaller jar that the same steam canner has a time for.
fn smaller_jar(query: &Query<'_>) -> Option<Jar> {
    smaller(query.jar).into_iter().find(|jar| lookup(&Query { jar: *jar, ..*query }).is_ok())
}

fn pressure(row: &Row) -> Option<Pressure> {
    Pressure::from_psi(f64::from(row.psi?))
}

fn choices(rows: &[&'static Row]) -> Vec<Choice> {
    let choice = |row: &&'static Row| {
        let (minutes, confirmed_by) = (row.minutes, row.confirmed_by);
        Some(Choice { minutes, pressure: pressure(row)?, source: &row.source, confirmed_by })
    };
    rows.iter().filter_map(choice).collect()
}

fn distinct<T: Ord>(rows: &[&Row], of: impl Fn(&Row) -> T) -> Vec<T> {
    let mut found: Vec<T> = rows.iter().filter(|row| row.is_offered()).map(|row| of(row)).collect();
    found.sort();
    found.dedup();
    found
}
