//! Three small charts above each other, on one axis of weeks: picked, frozen, put up.

use super::axis::figure;
use super::canvas::{Anchor, Canvas, EDGE, Fill, ROOM, Style};
use super::lettering::{SMALL, Weight, width};
use super::theme::Theme;
use crate::picture::{Season, Week};
use chrono::{Datelike, NaiveDate};

/// Up to so many weeks each is named; more are named by their months.
const FEW: usize = 6;
const HIGHEST: f64 = 1350.0;

/// One of the charts.
struct Panel {
    name: &'static str,
    total: String,
    values: Vec<f64>,
    colour: &'static str,
}

pub(super) fn page(season: &Season, theme: Theme) -> Canvas {
    let mut canvas = Canvas::new(theme);
    let unit = season.unit;
    let jars = if season.put_up == 1 { "1 jar".to_owned() } else { format!("{} jars", season.put_up) };
    let weight = |value: f64| format!("{} {}", figure(value), unit.as_str());
    let headline = match (season.picked > 0.0, season.put_up > 0) {
        (true, true) => format!("{} picked, {jars}", weight(season.picked)),
        (true, false) => format!("{} picked", weight(season.picked)),
        (false, true) => format!("{jars} put up"),
        (false, false) => format!("{} frozen", weight(season.frozen)),
    };
    let top = canvas.head(&format!("Season {}", season.year), &headline, &[spans(season)]) + 44.0;
    let of = |value: fn(&Week) -> f64| season.weeks.iter().map(value).collect();
    let colours = canvas.colours;
    let panels = [
        Panel { name: "Picked", total: weight(season.picked), values: of(|week| week.picked), colour: colours.red },
        Panel { name: "Frozen", total: weight(season.frozen), values: of(|week| week.frozen), colour: colours.blue },
        Panel { name: "Put up", total: jars, values: of(|week| f64::from(week.put_up)), colour: colours.green },
    ];
    let few = season.weeks.len() <= FEW;
    let step = (ROOM / season.weeks.len().max(1) as f64).min(ROOM / 4.0);
    let height = (HIGHEST - 120.0 - top) / panels.len() as f64;
    let bottom = top + height * panels.len() as f64 - 26.0;
    let months = months(season, step);
    if !few {
        for (x, _) in months.iter().filter(|(x, _)| *x > EDGE) {
            canvas.line((*x, top + 8.0), (*x, bottom), colours.grid, 3.0);
        }
    }
    for (n, panel) in panels.iter().enumerate() {
        draw_panel(&mut canvas, panel, top + height * n as f64, height, step, season.open);
    }
    name_weeks(&mut canvas, season, &months, step, bottom);
    canvas.reach(HIGHEST);
    canvas
}

/// The weeks it spans, and what the stripes mean.
fn spans(season: &Season) -> String {
    let day = |week: Option<&Week>| week.map(|week| season.unit.day(week.from)).unwrap_or_default();
    let (first, last) = (day(season.weeks.first()), day(season.weeks.last()));
    let open = if season.open { ", striped: not over yet" } else { "" };
    if season.weeks.len() == 1 {
        format!("The week from {first}{open}")
    } else {
        format!("Weeks of {first} to {last}{open}")
    }
}

fn draw_panel(canvas: &mut Canvas, panel: &Panel, top: f64, height: f64, step: f64, open: bool) {
    let colours = canvas.colours;
    let name = Style::new(40.0, Weight::SemiBold, colours.ink).with_halo();
    canvas.rect(EDGE, top + 10.0, 28.0, 28.0, 6.0, Fill::Solid(panel.colour));
    canvas.text(EDGE + 44.0, top + 39.0, panel.name, name);
    canvas.text(EDGE + ROOM, top + 39.0, &panel.total, name.at(Anchor::End));
    let base = top + height - 26.0;
    let most = panel.values.iter().copied().fold(0.0, f64::max);
    let full = height - 26.0 - 56.0 - 48.0;
    let width = (step * 0.74).min(92.0);
    let mut bars = Vec::new();
    for (n, value) in panel.values.iter().enumerate() {
        let x = EDGE + step * n as f64 + (step - width) / 2.0;
        let high = if most > 0.0 { (value / most * full).max(if *value > 0.0 { 6.0 } else { 0.0 }) } else { 0.0 };
        bars.push(Bar { x, width, high, value: *value });
        if high > 0.0 {
            let partial = open && n + 1 == panel.values.len();
            let fill = if partial { Fill::Stripes(panel.colour) } else { Fill::Solid(panel.colour) };
            canvas.bar(x, base, width, high, fill);
        }
    }
    canvas.line((EDGE, base), (EDGE + ROOM, base), colours.rule, 3.0);
    for (x, y, words) in labels(&bars, base) {
        let style = Style::new(SMALL, Weight::Regular, colours.ink).at(Anchor::Middle).with_halo();
        canvas.text(x, y, &words, style);
    }
}

struct Bar {
    x: f64,
    width: f64,
    high: f64,
    value: f64,
}

/// The figures above the bars, the highest bar's first; a figure that would touch another one, or a bar, is left out.
fn labels(bars: &[Bar], base: f64) -> Vec<(f64, f64, String)> {
    let mut order: Vec<&Bar> = bars.iter().filter(|bar| bar.value > 0.0).collect();
    order.sort_by(|a, b| b.value.total_cmp(&a.value));
    let mut placed: Vec<(f64, f64, f64, f64)> = Vec::new();
    let mut labels = Vec::new();
    for bar in order {
        let words = short(bar.value);
        let wide = width(&words, SMALL, Weight::Regular);
        let centre = (bar.x + bar.width / 2.0).clamp(EDGE + wide / 2.0, EDGE + ROOM - wide / 2.0);
        let bottom = base - bar.high - 12.0;
        let (left, right, top) = (centre - wide / 2.0 - 8.0, centre + wide / 2.0 + 8.0, bottom - SMALL);
        let on_bar = bars
            .iter()
            .any(|other| other.x < right && other.x + other.width > left && base - other.high < bottom + 6.0);
        let on_label = placed.iter().any(|(l, r, t, b)| *l < right && *r > left && *t < bottom + 4.0 && *b > top - 4.0);
        if !on_bar && !on_label {
            placed.push((left, right, top, bottom));
            labels.push((centre, bottom, words));
        }
    }
    labels
}

/// Whole from 10 on: a bar is no table.
fn short(value: f64) -> String {
    if value >= 10.0 { figure(value.round()) } else { figure(value) }
}

/// Where months begin, with their names; the month in which the first week lies stands at its beginning if there is
/// room.
fn months(season: &Season, step: f64) -> Vec<(f64, String)> {
    let Some(first) = season.weeks.first().map(|week| week.from) else { return Vec::new() };
    let x = |day: NaiveDate| EDGE + (day - first).num_days() as f64 / 7.0 * step;
    let end = EDGE + step * season.weeks.len() as f64;
    let name = |day: NaiveDate| day.format("%b").to_string();
    let mut marks: Vec<(f64, String)> =
        std::iter::successors(first.with_day(1), |day| day.checked_add_months(chrono::Months::new(1)))
            .skip_while(|day| *day <= first)
            .map(|day| (x(day), name(day)))
            .take_while(|(x, _)| *x < end - 60.0)
            .collect();
    if marks.first().is_none_or(|(x, _)| *x > EDGE + 90.0) {
        marks.insert(0, (EDGE, name(first)));
    }
    // A year is too much for every month.
    let every = (marks.len() as f64 * 84.0 / ROOM).ceil().max(1.0) as usize;
    marks.into_iter().step_by(every).collect()
}

fn name_weeks(canvas: &mut Canvas, season: &Season, months: &[(f64, String)], step: f64, base: f64) {
    let style = Style::new(SMALL, Weight::Regular, canvas.colours.quiet);
    if season.weeks.len() <= FEW {
        for (n, week) in season.weeks.iter().enumerate() {
            let centre = EDGE + step * (n as f64 + 0.5);
            canvas.text(centre, base + 50.0, &season.unit.day(week.from), style.at(Anchor::Middle));
        }
        return;
    }
    for (x, name) in months {
        canvas.text(if *x > EDGE { *x + 8.0 } else { *x }, base + 50.0, name, style);
    }
}
