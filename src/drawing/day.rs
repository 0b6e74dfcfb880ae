//! A batch's day: a bar for getting ready and one for each round on the same axis of hours, with its stretches listed
//! below.

use super::axis::hours;
use super::canvas::{Anchor, Canvas, EDGE, Fill, ROOM, Style};
use super::lettering::{SMALL, Weight, width};
use super::theme::{Colours, Theme};
use crate::picture::{Day, Part, Phase, Row, Unit};
use chrono::{NaiveDateTime, TimeDelta, Timelike};

const BAR: f64 = 60.0;
const LINE: f64 = 50.0;

/// Where instants are on the page.
struct Hours {
    from: NaiveDateTime,
    to: NaiveDateTime,
}

impl Hours {
    fn x(&self, at: NaiveDateTime) -> f64 {
        let share = (at - self.from).num_seconds() as f64 / (self.to - self.from).num_seconds().max(1) as f64;
        EDGE + share * ROOM
    }
}

pub(super) fn page(day: &Day, theme: Theme) -> Canvas {
    let mut canvas = Canvas::new(theme);
    let kicker = format!(
        "Batch '{}', {}",
        day.name,
        day.began.format("%a ").to_string() + day.unit.day(day.began.date()).as_str()
    );
    let headline = format!("{} of {}", day.jar.counted(day.jars), day.product);
    let top = canvas.head(&kicker, &headline, &[how(day)]) + 40.0;
    let axis = Hours { from: day.began, to: day.ended.max(day.began + TimeDelta::minutes(30)) };
    let mut y = top + 60.0;
    let mut bars = Vec::new();
    for row in &day.rows {
        bars.push(y);
        y += row_height(row);
    }
    let marks = hours(axis.from, axis.to, 7);
    name_hours(&mut canvas, day.unit, &axis, &marks, top);
    for (row, y) in day.rows.iter().zip(bars) {
        draw_row(&mut canvas, day, row, &axis, &marks, y + 70.0);
    }
    canvas.reach((y + 20.0).max(760.0));
    canvas
}

/// The canner, the process, and what came of it.
fn how(day: &Day) -> String {
    let minutes = day.minutes.map(|minutes| format!(", {minutes} min")).unwrap_or_default();
    let end = match day.sealed {
        Some(sealed) if sealed == day.jars => "; all sealed".to_owned(),
        Some(sealed) => format!("; {sealed} of {} sealed", day.jars),
        None if day.open => "; still going".to_owned(),
        None => String::new(),
    };
    let canner = day.canner.spoken();
    let mut letters = canner.chars();
    let canner: String = letters.next().map(|first| first.to_uppercase().chain(letters).collect()).unwrap_or_default();
    format!("{canner}{minutes}{end}")
}

fn row_height(row: &Row) -> f64 {
    let listed = if row.round == 0 { 0.0 } else { 20.0 + LINE * row.parts.len() as f64 };
    70.0 + BAR + listed + 44.0
}

fn name_hours(canvas: &mut Canvas, unit: Unit, axis: &Hours, marks: &[NaiveDateTime], top: f64) {
    let whole = marks.iter().all(|at| at.minute() == 0);
    let name = |at: &NaiveDateTime| match unit {
        Unit::Pound if whole => at.format("%-I %P").to_string(),
        _ => unit.clock(*at),
    };
    let mut free = EDGE - 20.0;
    for at in marks {
        let (x, name) = (axis.x(*at), name(at));
        let half = width(&name, SMALL, Weight::Regular) / 2.0;
        let centre = x.clamp(EDGE + half, EDGE + ROOM - half);
        if centre - half > free {
            let style = Style::new(SMALL, Weight::Regular, canvas.colours.quiet).at(Anchor::Middle);
            canvas.text(centre, top + 40.0, &name, style);
            free = centre + half + 20.0;
        }
    }
}

fn draw_row(canvas: &mut Canvas, day: &Day, row: &Row, axis: &Hours, marks: &[NaiveDateTime], y: f64) {
    let colours = canvas.colours;
    for at in marks {
        canvas.line((axis.x(*at), y - 10.0), (axis.x(*at), y + BAR + 10.0), colours.grid, 3.0);
    }
    let style = Style::new(40.0, Weight::SemiBold, colours.ink).with_halo();
    let (title, side) = match (row.round, row.parts.as_slice()) {
        (0, [first, ..]) => {
            ("Getting ready".to_owned(), span(day.unit, first.from, row.parts.last().unwrap_or(first).to))
        }
        (round, _) => (format!("Round {round}"), day.jar.counted(row.jars)),
    };
    canvas.text(EDGE, y - 24.0, &title, style);
    let quiet = Style::new(SMALL, Weight::Regular, colours.quiet).at(Anchor::End).with_halo();
    canvas.text(EDGE + ROOM, y - 24.0, &side, quiet);
    for part in &row.parts {
        let (from, to) = (axis.x(part.from), axis.x(part.to));
        // A gap of the page's colour between neighbours.
        canvas.rect(from, y, (to - from - 4.0).max(5.0), BAR, 6.0, fill(part, colours));
    }
    let mut base = y + BAR + 20.0;
    for part in row.parts.iter().filter(|_| row.round > 0) {
        base += LINE;
        draw_part(canvas, day.unit, part, base - 12.0);
    }
}

/// A stretch in words: what, from when to when, how long.
fn draw_part(canvas: &mut Canvas, unit: Unit, part: &Part, base: f64) {
    let colours = canvas.colours;
    let style = Style::new(SMALL, Weight::Regular, colours.ink).with_halo();
    canvas.rect(EDGE, base - 27.0, 30.0, 30.0, 6.0, fill(part, colours));
    let what = if part.lost { "until heat was lost" } else { part.phase.as_str() };
    canvas.text(EDGE + 48.0, base, what, style);
    let span = span(unit, part.from, part.to);
    canvas.text(EDGE + ROOM - 190.0, base, &span, Style { colour: colours.quiet, ..style }.at(Anchor::End));
    let weight = if part.phase == Phase::Process && !part.lost { Weight::SemiBold } else { Weight::Regular };
    canvas.text(EDGE + ROOM, base, &stretch(part.to - part.from), Style { weight, ..style }.at(Anchor::End));
}

fn span(unit: Unit, from: NaiveDateTime, to: NaiveDateTime) -> String {
    format!("{} – {}", short_clock(unit, from, to), unit.clock(to))
}

/// Morning or afternoon is said once where both ends are in the same.
fn short_clock(unit: Unit, from: NaiveDateTime, to: NaiveDateTime) -> String {
    let same_half = from.hour() / 12 == to.hour() / 12 && from.date() == to.date();
    let clock = unit.clock(from);
    if same_half { clock.trim_end_matches(" am").trim_end_matches(" pm").to_owned() } else { clock }
}

fn stretch(time: TimeDelta) -> String {
    let minutes = (time.num_seconds().max(0) + 30) / 60;
    match (minutes / 60, minutes % 60) {
        (0, minutes) => format!("{minutes} min"),
        (hours, 0) => format!("{hours} h"),
        (hours, minutes) => format!("{hours} h {minutes:02}"),
    }
}

/// Heat is red, rest is blue, and each stretch has a pattern of its own.
fn fill(part: &Part, colours: &Colours) -> Fill {
    match part.phase {
        Phase::Process if part.lost => Fill::Hollow(colours.red),
        Phase::Ready => Fill::Hollow(colours.plain),
        Phase::Heating => Fill::Stripes(colours.red),
        Phase::Venting => Fill::Dots(colours.red),
        Phase::Process => Fill::Solid(colours.red),
        Phase::Over => Fill::Dots(colours.plain),
        Phase::Pressure => Fill::Stripes(colours.blue),
        Phase::Rest => Fill::Dots(colours.blue),
        Phase::Aside => Fill::Stripes(colours.plain),
    }
}
