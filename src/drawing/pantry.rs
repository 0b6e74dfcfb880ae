//! A shelf for each product: jars stacked above the month they were put up.

use super::canvas::{Anchor, Canvas, EDGE, Fill, ROOM, Style};
use super::lettering::{SMALL, Weight, fit, width, wrap};
use super::theme::Theme;
use crate::picture::{Lots, Month, Pantry};

/// Shelves shown each for itself; what is on more of them is shown together.
const SHELVES: usize = 6;
/// Months shown each for itself; older ones are shown together.
const COLUMNS: usize = 9;

const NAME: f64 = 38.0;

/// A column of months.
struct Column {
    name: String,
    below: String,
    past_best: bool,
}

/// A row of the page.
struct Shelf {
    name: Vec<String>,
    total: String,
    stacks: Vec<u32>,
}

pub(super) fn page(pantry: &Pantry, theme: Theme) -> Canvas {
    let mut canvas = Canvas::new(theme);
    let headline = if pantry.jars == 1 { "1 jar".to_owned() } else { format!("{} jars", pantry.jars) };
    let past = pantry.months.iter().any(|month| month.past_best);
    let below = if past {
        "By the month they were put up; striped: past their best, use first"
    } else {
        "By the month they were put up"
    };
    let mut y = canvas.head("Pantry", &headline, &[below.to_owned()]) + 44.0;
    let older = pantry.months.len().saturating_sub(COLUMNS - 1);
    let older = if pantry.months.len() > COLUMNS { older } else { 0 };
    let columns = columns(&pantry.months, older);
    let shelves = shelves(pantry, older);
    let most = shelves.iter().flat_map(|shelf| &shelf.stacks).copied().max().unwrap_or(1);
    let jar_height = if shelves.len() <= 3 { 26.0 } else { 18.0 };
    // Stacks higher than this are drawn to scale, without the gaps between jars.
    let tallest = if shelves.len() <= 3 { 250.0 } else { 130.0 };
    let unit = (tallest / f64::from(most)).min(jar_height);
    for shelf in &shelves {
        y = draw_shelf(&mut canvas, shelf, &columns, y, unit);
    }
    name_months(&mut canvas, &columns, y);
    canvas.reach((y + 120.0).max(760.0));
    canvas
}

fn columns(months: &[Month], older: usize) -> Vec<Column> {
    let mut columns = Vec::new();
    if let Some(last) = older.checked_sub(1).and_then(|last| months.get(last)) {
        let before = Column {
            name: "until".to_owned(),
            below: last.first.format("%b %y").to_string(),
            past_best: last.past_best,
        };
        columns.push(before);
    }
    let mut year = String::new();
    for month in months.iter().skip(older) {
        let of = month.first.format("%Y").to_string();
        let below = if of == year { String::new() } else { of.clone() };
        year = of;
        columns.push(Column { name: month.first.format("%b").to_string(), below, past_best: month.past_best });
    }
    columns
}

/// The first column is the sum of the older months; the last shelf that of the rarer kinds.
fn shelves(pantry: &Pantry, older: usize) -> Vec<Shelf> {
    let stacks = |lots: &Lots| -> Vec<u32> {
        let old: u32 = lots.by_month.iter().take(older).sum();
        let first = (older > 0).then_some(old);
        first.into_iter().chain(lots.by_month.iter().skip(older).copied()).collect()
    };
    let alone = if pantry.rows.len() > SHELVES { SHELVES - 1 } else { pantry.rows.len() };
    let mut shelves: Vec<Shelf> = pantry
        .rows
        .iter()
        .take(alone)
        .map(|lots| {
            let total = lots.jar.counted(lots.jars);
            let room = ROOM - width(&total, NAME, Weight::SemiBold) - 40.0;
            Shelf { name: wrap(&lots.product, NAME, Weight::Regular, room, 2), total, stacks: stacks(lots) }
        })
        .collect();
    let rest = pantry.rows.get(alone..).unwrap_or_default();
    if !rest.is_empty() {
        let jars: u32 = rest.iter().map(|lots| lots.jars).sum();
        let mut sums: Vec<u32> = Vec::new();
        for lots in rest {
            for (n, jars) in stacks(lots).into_iter().enumerate() {
                match sums.get_mut(n) {
                    Some(sum) => *sum += jars,
                    None => sums.push(jars),
                }
            }
        }
        let name = vec![fit(&format!("{} other kinds", rest.len()), NAME, Weight::Regular, ROOM / 2.0)];
        shelves.push(Shelf { name, total: format!("{jars} jars"), stacks: sums });
    }
    shelves
}

/// Draws a shelf from `y` down and returns where the next one begins.
fn draw_shelf(canvas: &mut Canvas, shelf: &Shelf, columns: &[Column], y: f64, unit: f64) -> f64 {
    let colours = canvas.colours;
    let mut base = y;
    for (n, line) in shelf.name.iter().enumerate() {
        base += 48.0;
        canvas.text(EDGE, base, line, Style::new(NAME, Weight::Regular, colours.ink));
        if n == 0 {
            let total = Style::new(NAME, Weight::SemiBold, colours.ink).at(Anchor::End);
            canvas.text(EDGE + ROOM, base, &shelf.total, total);
        }
    }
    let most = shelf.stacks.iter().copied().max().unwrap_or(0);
    let board = base + 66.0 + f64::from(most) * unit;
    let step = step(columns);
    let wide = (step * 0.62).min(104.0);
    for (n, (jars, column)) in shelf.stacks.iter().zip(columns).enumerate().filter(|(_, (jars, _))| **jars > 0) {
        let centre = EDGE + step * (n as f64 + 0.5);
        let x = centre - wide / 2.0;
        let fill = if column.past_best { Fill::Stripes(colours.green) } else { Fill::Solid(colours.green) };
        let high = f64::from(*jars) * unit;
        if unit >= 11.0 {
            for jar in 0..*jars {
                let top = board - f64::from(jar + 1) * unit;
                canvas.rect(x, top, wide, unit - 4.0, 6.0, fill);
            }
        } else {
            canvas.bar(x, board, wide, high.max(5.0), fill);
        }
        let style = Style::new(SMALL, Weight::Regular, colours.ink).at(Anchor::Middle);
        canvas.text(centre, board - high - 14.0, &jars.to_string(), style);
    }
    canvas.line((EDGE, board), (EDGE + ROOM, board), colours.rule, 3.0);
    board + 26.0
}

/// From one month to the next: few months stand together at the left.
fn step(columns: &[Column]) -> f64 {
    (ROOM / columns.len().max(1) as f64).min(180.0)
}

fn name_months(canvas: &mut Canvas, columns: &[Column], y: f64) {
    let step = step(columns);
    let style = Style::new(SMALL, Weight::Regular, canvas.colours.quiet).at(Anchor::Middle);
    for (n, column) in columns.iter().enumerate() {
        let centre = EDGE + step * (n as f64 + 0.5);
        canvas.text(centre, y + 28.0, &column.name, style);
        canvas.text(centre, y + 72.0, &column.below, style);
    }
}
