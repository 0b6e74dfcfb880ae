//! A batch's day: a bar for getting ready and one for each round on the same axis of hours, with its stretches listed below.

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
    let kicker = format!("Batch '{}', {}", day.name, day.began.format("%a ").to_string() + &day.unit.day(day.began.date()));
    let headline = format!("{} {} of {}", day.jars, day.jar.spoken(day.jars), day.product);
    let top = canvas.head(&kicker, &headline, &[how(day)]) + 40.0;
    let axis = Hours { from: day.began, to: day.ended.max(day.began + TimeDelta::minutes(30)) };
    let mut y = top;
    let mut bars = Vec::new();
    for row in &day.rows {
        bars.push(y);
        y += row_height(row);
    }
    draw_hours(&mut canvas, day.unit, &axis, top, y);
    for (row, y) in day.rows.iter().zip(bars) {
        draw_row(&mut canvas, day, row, &axis, y + 70.0);
    }
    canvas.reach((y + 130.0).max(900.0));
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
    70.0 + BAR + 20.0 + LINE * row.parts.len() as f64 + 40.0
}

fn draw_hours(canvas: &mut Canvas, unit: Unit, axis: &Hours, top: f64, bottom: f64) {
    let colours = canvas.colours;
    let marks = hours(axis.from, axis.to, 7);
    let whole = marks.iter().all(|at| at.minute() == 0);
    let name = |at: &NaiveDateTime| match unit {
        Unit::Pound if whole => at.format("%-I %P").to_string(),
        _ => unit.clock(*at),
    };
    let mut free = EDGE - 20.0;
    for at in &marks {
        let (x, name) = (axis.x(*at), name(at));
        let half = width(&name, SMALL, Weight::Regular) / 2.0;
        canvas.line((x, top), (x, bottom), colours.grid, 3.0);
        let centre = x.clamp(EDGE + half, EDGE + ROOM - half);
        if centre - half > free {
            let style = Style::new(SMALL, Weight::Regular, colours.quiet).at(Anchor::Middle).with_halo();
            canvas.text(centre, bottom + 46.0, &name, style);
            free = centre + half + 20.0;
        }
    }
}

fn draw_row(canvas: &mut Canvas, day: &Day, row: &Row, axis: &Hours, y: f64) {
    let colours = canvas.colours;
    let title = match row.round {
        0 => "Getting ready".to_owned(),
        round => format!("Round {round}"),
    };
    let style = Style::new(40.0, Weight::SemiBold, colours.ink).with_halo();
    canvas.text(EDGE, y - 18.0, &title, style);
    if row.round > 0 {
        let jars = format!("{} {}", row.jars, day.jar.spoken(row.jars));
        canvas.text(EDGE + ROOM, y - 18.0, &jars, style.at(Anchor::End));
    }
    for part in &row.parts {
        let (from, to) = (axis.x(part.from), axis.x(part.to));
        // A gap of the page's colour between neighbours.
        canvas.rect(from, y, (to - from - 4.0).max(5.0), BAR, 6.0, fill(part.phase, colours));
    }
    let mut base = y + BAR + 20.0;
    for part in &row.parts {
        base += LINE;
        draw_part(canvas, day.unit, part, base - 12.0);
    }
}

/// A stretch in words: what, from when to when, how long.
fn draw_part(canvas: &mut Canvas, unit: Unit, part: &Part, base: f64) {
    let colours = canvas.colours;
    let style = Style::new(SMALL, Weight::Regular, colours.ink).with_halo();
    canvas.rect(EDGE, base - 27.0, 30.0, 30.0, 6.0, fill(part.phase, colours));
    let what = if part.lost { "heat lost" } else { part.phase.as_str() };
    canvas.text(EDGE + 48.0, base, what, style);
    let span = format!("{} – {}", short_clock(unit, part.from, part.to), unit.clock(part.to));
    canvas.text(EDGE + ROOM - 190.0, base, &span, Style { colour: colours.quiet, ..style }.at(Anchor::End));
    let weight = if part.phase == Phase::Process { Weight::SemiBold } else { Weight::Regular };
    canvas.text(EDGE + ROOM, base, &stretch(part.to - part.from), Style { weight, ..style }.at(Anchor::End));
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
fn fill(phase: Phase, colours: &Colours) -> Fill {
    match phase {
        Phase::Ready => Fill::Solid(colours.plain),
        Phase::Heating => Fill::Stripes(colours.red),
        Phase::Venting => Fill::Dots(colours.red),
        Phase::Process => Fill::Solid(colours.red),
        Phase::Over => Fill::Dots(colours.plain),
        Phase::Pressure => Fill::Stripes(colours.blue),
        Phase::Rest => Fill::Dots(colours.blue),
    }
}
