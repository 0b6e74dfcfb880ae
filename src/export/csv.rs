//! Tables for a spreadsheet.
//!
//! ```
//! use rackful::{export::csv::{Table, write}, ledger::Ledger, zone::Zone};
//! let ledger = Ledger::new(Zone::UTC);
//! let mut out = Vec::new();
//! write(Table::Freezer, [("home", &ledger)], &mut out)?;
//! assert_eq!(out, b"room,crop,on,mass_g,mass_lb\n");
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! Weights stand in grams and in pounds, times as the room's clock showed them. Text that a spreadsheet would take for
//! a formula is defused with an apostrophe, since anybody in a room can type one. Only reads; the lossless form is JSON
//! lines.

use crate::batch::{Batch, Fate};
use crate::ledger::state::Finished;
use crate::ledger::{Entry, Ledger};
use crate::quantity::Mass;
use crate::zone::Zone;
use chrono::{DateTime, Utc};
use serde_json::Value;
use std::io::Write;

pub use crate::vocabulary::Table;

/// Writes one table over all rooms, with a line of headings.
///
/// # Errors
/// When `out` does not take it.
pub fn write<'a>(
    table: Table,
    rooms: impl IntoIterator<Item = (&'a str, &'a Ledger)>,
    out: impl Write,
) -> std::io::Result<()> {
    let mut sheet = Sheet { out: csv::Writer::from_writer(out) };
    sheet.row(headings(table).split(',').map(str::to_owned))?;
    for (room, ledger) in rooms {
        let room = text(room);
        match table {
            Table::Log => log(&mut sheet, &room, ledger)?,
            Table::Freezer => freezer(&mut sheet, &room, ledger)?,
            Table::Pantry => pantry(&mut sheet, &room, ledger)?,
            Table::Batches => batches(&mut sheet, &room, ledger)?,
            Table::Totals => totals(&mut sheet, &room, ledger)?,
        }
    }
    sheet.out.flush()
}

fn headings(table: Table) -> &'static str {
    match table {
        Table::Log => "room,happened,said,who,kind,mass_g,mass_lb,bags,jars,jar,product,crop,words",
        Table::Freezer => "room,crop,on,mass_g,mass_lb",
        Table::Pantry => "room,place,product,jar,jars,on,batch,best_by",
        Table::Batches => {
            "room,batch,name,product,jar,canner,began,minutes,raw_g,raw_lb,filled,sealed,unsealed,restarts,closed,\
             drained_g,cooked_g,reprocessed,refrigerated,frozen,eaten,given,tossed,broken,siphoned"
        }
        Table::Totals => {
            "room,year,picked_g,picked_lb,frozen_g,frozen_lb,thawed_g,thawed_lb,used_fresh_g,used_fresh_lb,\
             eaten_g,eaten_lb,given_g,given_lb,tossed_g,tossed_lb,jars_put_up"
        }
    }
}

struct Sheet<W: Write> {
    out: csv::Writer<W>,
}

impl<W: Write> Sheet<W> {
    fn row(&mut self, cells: impl IntoIterator<Item = String>) -> std::io::Result<()> {
        self.out.write_record(cells).map_err(|error| match error.into_kind() {
            csv::ErrorKind::Io(error) => error,
            other => std::io::Error::other(format!("{other:?}")),
        })
    }
}

fn log<W: Write>(sheet: &mut Sheet<W>, room: &str, ledger: &Ledger) -> std::io::Result<()> {
    let zone = ledger.state().settings.zone;
    ledger.entries().try_for_each(|entry| sheet.row(log_row(room, zone, entry)))
}

fn log_row(room: &str, zone: Zone, entry: &Entry) -> Vec<String> {
    let fields = serde_json::to_value(&entry.statement).unwrap_or_default();
    let field = |name: &str| match fields.get(name) {
        Some(Value::String(word)) => text(word),
        Some(Value::Number(number)) => number.to_string(),
        _ => String::new(),
    };
    let mass = fields.get("mass_g").and_then(Value::as_f64).and_then(Mass::from_grams);
    let [grams, pounds] = mass.map_or_else(Default::default, both);
    let kind = entry.statement.kind().to_string();
    let (happened, said) = (clock(zone, entry.happened), clock(zone, entry.said));
    let mut row = vec![room.to_owned(), happened, said, text(&entry.who), kind, grams, pounds];
    row.extend(["bags", "jars", "jar", "product", "crop"].map(field));
    row.push(text(&entry.words));
    row
}

fn freezer<W: Write>(sheet: &mut Sheet<W>, room: &str, ledger: &Ledger) -> std::io::Result<()> {
    for (crop, bags) in ledger.state().freezer.crops() {
        for bag in bags {
            let [grams, pounds] = both(bag.mass);
            sheet.row([room.to_owned(), text(&crop.to_string()), bag.on.to_string(), grams, pounds])?;
        }
    }
    Ok(())
}

fn pantry<W: Write>(sheet: &mut Sheet<W>, room: &str, ledger: &Ledger) -> std::io::Result<()> {
    let state = ledger.state();
    let shelves = [("pantry", &state.pantry), ("fridge", &state.fridge), ("freezer", &state.freezer_jars)];
    for (place, shelf) in shelves {
        for lot in shelf.lots() {
            let batch = lot.batch.map_or_else(String::new, |number| number.to_string());
            let (product, jar, on) = (text(lot.product.as_str()), lot.jar.to_string(), lot.on.to_string());
            let best = lot.best_by().filter(|_| place == "pantry").map_or_else(String::new, |best| best.to_string());
            sheet.row([room.to_owned(), place.to_owned(), product, jar, lot.jars.to_string(), on, batch, best])?;
        }
    }
    Ok(())
}

fn batches<W: Write>(sheet: &mut Sheet<W>, room: &str, ledger: &Ledger) -> std::io::Result<()> {
    let state = ledger.state();
    let zone = state.settings.zone;
    for past in state.history.iter() {
        sheet.row(batch_row(room, zone, past, Some(past.closed)))?;
    }
    // An open batch as if it were closed now: what is known of it so far.
    for batch in &state.batches {
        let so_far = Batch { closed: batch.closed.or(Some(batch.began)), ..batch.clone() };
        if let Some(past) = Finished::of(&so_far) {
            sheet.row(batch_row(room, zone, &past, batch.closed))?;
        }
    }
    Ok(())
}

fn batch_row(room: &str, zone: Zone, past: &Finished, closed: Option<DateTime<Utc>>) -> Vec<String> {
    let at = |at: Option<DateTime<Utc>>| at.map_or_else(String::new, |at| clock(zone, at));
    let number = |number: Option<u32>| number.map_or_else(String::new, |number| number.to_string());
    let [grams, pounds] = both(past.raw);
    let [drained, _] = both(past.drained);
    let cooked = past.cooked.map(both).map_or_else(String::new, |[grams, _]| grams);
    let mut row = vec![
        room.to_owned(),
        number(past.number),
        text(&past.name),
        text(past.product.as_str()),
        past.jar.to_string(),
        past.canner.map_or_else(String::new, |canner| canner.to_string()),
        at(past.began),
        number(past.minutes),
        grams,
        pounds,
    ];
    let counts = [past.filled, past.fates.sealed(), past.fates.unsealed, past.restarts];
    row.extend(counts.map(|count| count.to_string()));
    row.extend([at(closed), drained, cooked, past.fates.reprocessed.to_string()]);
    let ends = [Fate::Refrigerated, Fate::Frozen, Fate::Eaten, Fate::Given, Fate::Tossed, Fate::Broken];
    row.extend(ends.map(|fate| past.ended(fate).to_string()));
    row.push(past.siphoned.to_string());
    row
}

fn totals<W: Write>(sheet: &mut Sheet<W>, room: &str, ledger: &Ledger) -> std::io::Result<()> {
    for (year, sums) in &ledger.state().years {
        let masses = [sums.picked, sums.frozen, sums.thawed, sums.used_fresh, sums.eaten, sums.given, sums.tossed];
        let mut row = vec![room.to_owned(), year.to_string()];
        row.extend(masses.into_iter().flat_map(both));
        row.push(sums.jars_put_up.to_string());
        sheet.row(row)?;
    }
    Ok(())
}

/// A weight in grams, to a milligram, and in pounds, to a ten-thousandth.
fn both(mass: Mass) -> [String; 2] {
    [trim(format!("{:.3}", mass.as_grams())), trim(format!("{:.4}", mass.as_pounds()))]
}

/// Without zeros that say nothing after the point.
fn trim(number: String) -> String {
    number.trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// A time as the room's clock showed it, in a form that spreadsheets take for one.
fn clock(zone: Zone, at: DateTime<Utc>) -> String {
    zone.local(at).format("%Y-%m-%d %H:%M:%S").to_string()
}

/// Text that is never a formula, whatever a spreadsheet drops before it: blanks, tabs, ends of lines. Some take the
/// wide signs of East Asian keyboards for the plain ones.
fn text(words: &str) -> String {
    const SIGNS: [char; 8] = ['=', '+', '-', '@', '＝', '＋', '－', '＠'];
    let is_formula = words.trim_start().starts_with(SIGNS) || words.starts_with(['\t', '\r', '\n']);
    if is_formula { format!("'{words}") } else { words.to_owned() }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ledger::MessageId;
    use crate::quantity::Number;
    use crate::statement::{Froze, Statement};
    use anyhow::Context as _;
    use proptest::test_runner::TestCaseError;

    fn ledger(words: &str) -> anyhow::Result<Ledger> {
        let at = "2026-08-14T14:05:00Z".parse()?;
        let mut ledger = Ledger::new(Zone::parse("-05:00").context("an offset")?);
        ledger.enter(vec![Entry {
            message: MessageId::new("$1"),
            part: 0,
            who: "@ana:example.org".into(),
            said: at,
            happened: at,
            words: words.into(),
            statement: Statement::Froze(Froze {
                mass: Mass::POUND.times(Number::whole(7)),
                bags: Some(2),
                ..Froze::default()
            }),
        }]);
        Ok(ledger)
    }

    fn sheet(table: Table, words: &str) -> anyhow::Result<Vec<String>> {
        let mut out = Vec::new();
        write(table, [("home", &ledger(words)?)], &mut out)?;
        Ok(String::from_utf8(out)?.lines().map(str::to_owned).collect())
    }

    #[test]
    fn each_table_has_as_many_cells_as_headings() -> anyhow::Result<()> {
        for table in [Table::Log, Table::Freezer, Table::Pantry, Table::Batches, Table::Totals] {
            // The writer refuses rows of another length than the first.
            assert!(!sheet(table, "froze 7 lb in 2 bags")?.is_empty(), "{table:?}");
        }
        Ok(())
    }

    #[test]
    fn the_freezer_lists_its_bags_and_the_year_its_sums() -> anyhow::Result<()> {
        let bags = sheet(Table::Freezer, "x")?;
        assert_eq!(bags[1..], ["home,tomato,2026-08-14,1587.573,3.5", "home,tomato,2026-08-14,1587.573,3.5"]);
        assert!(sheet(Table::Totals, "x")?[1].starts_with("home,2026,3175.147,7,3175.147,7,0,0,"));
        Ok(())
    }

    #[test]
    fn words_that_a_spreadsheet_would_run_are_defused() -> anyhow::Result<()> {
        let row = &sheet(Table::Log, "=HYPERLINK(\"http://example.org\") froze 7 lb")?[1];
        assert!(row.contains(",\"'=HYPERLINK("), "{row}");
        assert!(row.contains(",'@ana:example.org,froze,3175.147,7,2,"), "{row}");
        for words in ["+1", "-1", "@x", "\tx", "\rx", " =1+1", "\n@x", "＝1+1"] {
            assert!(text(words).starts_with('\''), "{words:?}");
        }
        assert_eq!(text("7 lb - quartered"), "7 lb - quartered");
        Ok(())
    }

    proptest::proptest! {
        #[test]
        fn no_cell_is_a_formula_and_no_word_is_lost(words in "[ \t\r\n]{0,2}[-=+@＝a-z',\"]{0,3}.{0,12}") {
            let mut out = Vec::new();
            let ledger = ledger(&words).map_err(|error| TestCaseError::fail(error.to_string()))?;
            write(Table::Log, [("=room", &ledger)], &mut out)?;
            let mut reader = csv::Reader::from_reader(out.as_slice());
            let row = reader.records().next().ok_or_else(|| TestCaseError::fail("no row"))??;
            for cell in &row {
                let first = cell.trim_start().chars().next();
                proptest::prop_assert!(!first.is_some_and(|c| "=+-@＝＋－＠".contains(c)), "{cell:?}");
            }
            let said = row.iter().next_back().ok_or_else(|| TestCaseError::fail("no cell"))?;
            let unquoted = said.strip_prefix('\'').filter(|_| !words.starts_with('\'')).unwrap_or(said);
            proptest::prop_assert_eq!(unquoted, words);
        }
    }
}
