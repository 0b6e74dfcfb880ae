//! The stock as steps against the line of a load, with what is likely to come as a fan.

use super::axis::{days, figure, figures};
use super::canvas::{Anchor, Canvas, EDGE, Fill, ROOM, Style, round};
use super::lettering::{SMALL, Weight, width};
use super::theme::Theme;
use crate::picture::{Fan, Freezer};
use chrono::{NaiveDate, NaiveDateTime, NaiveTime, TimeDelta};
use std::fmt::Write;

const HIGHEST: f64 = 1350.0;

/// Where instants and weights are on the page.
struct Plot {
    left: f64,
    right: f64,
    top: f64,
    base: f64,
    from: NaiveDateTime,
    to: NaiveDateTime,
    most: f64,
}

impl Plot {
    fn x(&self, at: NaiveDateTime) -> f64 {
        let share = (at - self.from).num_seconds() as f64 / (self.to - self.from).num_seconds().max(1) as f64;
        self.left + share * (self.right - self.left)
    }

    fn y(&self, mass: f64) -> f64 {
        self.base - (mass / self.most).min(1.0) * (self.base - self.top)
    }

    /// The weight shown at a place.
    fn stock(&self, freezer: &Freezer, x: f64) -> f64 {
        let before = freezer.stock.iter().rev().find(|stock| self.x(stock.at) <= x);
        before.map_or(0.0, |stock| stock.mass)
    }
}

/// The end of a day.
fn end_of(day: NaiveDate) -> NaiveDateTime {
    day.and_time(NaiveTime::MIN) + TimeDelta::days(1)
}

pub(super) fn page(freezer: &Freezer, theme: Theme) -> Canvas {
    let mut canvas = Canvas::new(theme);
    let unit = freezer.unit;
    let bags = if freezer.bags == 1 { "1 bag".to_owned() } else { format!("{} bags", freezer.bags) };
    let headline = if freezer.bags == 0 {
        "Empty now".to_owned()
    } else {
        format!("{} {} in {bags}", figure(freezer.now), unit.as_str())
    };
    let crop = freezer.crop.as_str();
    let kicker = if crop == "tomato" { "Freezer".to_owned() } else { format!("Freezer, {crop}") };
    let top = canvas.head(&kicker, &headline, &[closeness(freezer), likely(freezer)]) + 60.0;
    let plot = plot(freezer, top);
    draw_grid(&mut canvas, freezer, &plot);
    draw_days(&mut canvas, freezer, &plot);
    if let Some(fan) = &freezer.fan {
        draw_fan(&mut canvas, freezer, fan, &plot);
    }
    draw_stock(&mut canvas, freezer, &plot);
    draw_load(&mut canvas, freezer, &plot);
    if let Some(fan) = &freezer.fan {
        draw_ready(&mut canvas, freezer, fan, &plot);
    }
    canvas.reach(HIGHEST);
    canvas
}

/// How close a load is.
fn closeness(freezer: &Freezer) -> String {
    let Some(load) = &freezer.load else { return "No load weight is known for it".to_owned() };
    let amount = |mass: f64| format!("{} {}", figure(mass), freezer.unit.as_str());
    match freezer.short() {
        Some(short) if short > 0.0 => format!("{} more for {}", amount(short), load.makes),
        _ if freezer.now >= 2.0 * load.mass => {
            format!("Enough for {} loads of {}", (freezer.now / load.mass).floor(), load.makes)
        }
        _ => format!("Enough for {}", load.makes),
    }
}

/// When a load is likely.
fn likely(freezer: &Freezer) -> String {
    let day = |day: Option<NaiveDate>| day.map(|day| freezer.unit.day(day));
    let Some(fan) = &freezer.fan else { return String::new() };
    match (day(fan.ready_p10), day(fan.ready_p50), day(fan.ready_p90)) {
        (Some(early), Some(middle), Some(late)) => format!("Even odds by {middle}; 8 in 10: {early} to {late}"),
        (Some(early), Some(middle), None) => format!("Perhaps {middle}, 1 in 10 by {early}, perhaps not this year"),
        (_, Some(middle), _) => format!("Even odds by {middle}"),
        (Some(early), None, _) => format!("1 in 10 by {early}, more likely not this year"),
        (None, None, _) => "Not likely this year".to_owned(),
    }
}

fn plot(freezer: &Freezer, top: f64) -> Plot {
    let fan_end = freezer.fan.as_ref().and_then(|fan| fan.days.last()).map(|day| end_of(day.on));
    let to = fan_end.map_or(freezer.until, |end| end.max(freezer.until));
    // A freezer that was filled an hour ago still has an axis of days.
    let from = freezer.since.min(to - TimeDelta::days(3));
    let stock = freezer.stock.iter().map(|stock| stock.mass);
    let load = freezer.load.as_ref().map(|load| load.mass);
    let fan = freezer.fan.iter().flat_map(|fan| fan.days.iter().map(|day| day.p90));
    let known = stock.chain(load).fold(0.0, f64::max);
    // A forecast that goes through the roof must not flatten the rest.
    let most = (fan.fold(known, f64::max).min(known * 1.6) * 1.06).max(1e-3);
    let wide = |step: &f64| width(&labelled(*step, most, freezer.unit.as_str()), SMALL, Weight::Regular);
    let widest = figures(most, 5).iter().filter(|step| **step <= most * 1.001).map(wide).fold(0.0, f64::max);
    let left = EDGE + widest + 24.0;
    Plot { left, right: EDGE + ROOM - 14.0, top, base: HIGHEST - 120.0, from, to, most }
}

fn draw_grid(canvas: &mut Canvas, freezer: &Freezer, plot: &Plot) {
    let colours = canvas.colours;
    for step in figures(plot.most, 5).into_iter().filter(|step| *step <= plot.most * 1.001) {
        let y = plot.y(step);
        let (colour, width) = if step == 0.0 { (colours.rule, 3.0) } else { (colours.grid, 3.0) };
        canvas.line((plot.left, y), (EDGE + ROOM, y), colour, width);
        let style = Style::new(SMALL, Weight::Regular, colours.quiet).at(Anchor::End);
        canvas.text(plot.left - 20.0, y + 12.0, &labelled(step, plot.most, freezer.unit.as_str()), style);
    }
}

/// A figure of the axis; the highest one that is shown has the unit.
fn labelled(step: f64, most: f64, unit: &str) -> String {
    let highest = figures(most, 5).into_iter().filter(|step| *step <= most * 1.001).fold(0.0, f64::max);
    if (step - highest).abs() < 1e-9 { format!("{} {unit}", figure(step)) } else { figure(step) }
}

fn draw_days(canvas: &mut Canvas, freezer: &Freezer, plot: &Plot) {
    let colours = canvas.colours;
    let style = Style::new(SMALL, Weight::Regular, colours.quiet);
    let marks = days(plot.from.date(), plot.to.date(), 6);
    let mut free = plot.left - 40.0;
    for mark in marks {
        let x = plot.x(mark.on.and_time(NaiveTime::MIN));
        if x < plot.left - 1.0 || x > plot.right {
            continue;
        }
        let name = if mark.month { mark.on.format("%b").to_string() } else { freezer.unit.day(mark.on) };
        let half = width(&name, SMALL, Weight::Regular) / 2.0;
        if x - half > free && x + half < EDGE + ROOM + 10.0 {
            canvas.line((x, plot.base), (x, plot.base + 14.0), colours.rule, 3.0);
            canvas.text(x, plot.base + 58.0, &name, style.at(Anchor::Middle));
            free = x + half + 24.0;
        }
    }
}

fn draw_stock(canvas: &mut Canvas, freezer: &Freezer, plot: &Plot) {
    let colours = canvas.colours;
    let mut steps = String::new();
    let mut last: Option<f64> = None;
    for stock in &freezer.stock {
        let (x, y) = (round(plot.x(stock.at)), round(plot.y(stock.mass)));
        // Writing to a string cannot fail.
        let _ = match last {
            None => write!(steps, "M{x} {y}"),
            Some(_) => write!(steps, "H{x}V{y}"),
        };
        last = Some(y);
    }
    let (x, y) = (round(plot.x(freezer.until)), round(plot.y(freezer.now)));
    let _ = write!(steps, "H{x}");
    let start = freezer.stock.first().map_or(plot.left, |stock| round(plot.x(stock.at)));
    let base = round(plot.base);
    canvas.area(&format!("{steps}V{base}H{start}Z"), Fill::Tint(colours.blue));
    canvas.stroke(&steps, colours.blue, 7.0, None);
    canvas.dot(x, y, 15.0, colours.blue);
}

/// The line of a load, named where the stock leaves room.
fn draw_load(canvas: &mut Canvas, freezer: &Freezer, plot: &Plot) {
    let Some(load) = &freezer.load else { return };
    let colours = canvas.colours;
    let y = plot.y(load.mass);
    canvas.stroke(
        &format!("M{} {}H{}", round(plot.left), round(y), round(EDGE + ROOM)),
        colours.ink,
        4.0,
        Some("4 12"),
    );
    let words = format!("load {} {}", figure(load.mass), freezer.unit.as_str());
    let wide = width(&words, SMALL, Weight::SemiBold) + 10.0;
    let style = Style::new(SMALL, Weight::SemiBold, colours.ink).with_halo();
    // What is to come has marks of its own on the line.
    let end = if freezer.fan.is_some() { plot.x(freezer.until) - 30.0 } else { EDGE + ROOM + 10.0 };
    let room = end - plot.left - wide;
    if room < 0.0 {
        canvas.text(plot.x(freezer.until) + 20.0, y - 30.0, &words, style);
        return;
    }
    let (left, base) = place_of_label(freezer, plot, load.mass, wide, room);
    canvas.text(left, base, &words, style);
}

/// Where the label of a line stands: above it, and above the stock where that rises higher, in the place where that is
/// the least. Over a stock far above the line it stays at the line: so high up nobody would know what it names.
fn place_of_label(freezer: &Freezer, plot: &Plot, mass: f64, wide: f64, room: f64) -> (f64, f64) {
    let at_line = plot.y(mass) - 16.0;
    let base = |left: f64| {
        let samples = (0..=96).map(|n| left - 12.0 + (wide + 14.0) * f64::from(n) / 96.0);
        plot.y(samples.map(|x| plot.stock(freezer, x)).fold(mass, f64::max)) - 16.0
    };
    let places = (0..=20).map(|n| plot.left + 6.0 + room * f64::from(n) / 20.0);
    // Lower on the page is more; the first of several.
    let lower = |a: (f64, f64), b: (f64, f64)| if b.1 > a.1 + 0.5 { b } else { a };
    let (left, base) = places.map(|left| (left, base(left))).reduce(lower).unwrap_or((plot.left, at_line));
    (left, if base < at_line - HIGH { at_line } else { base })
}

/// So far above its line a label is still read as its own.
const HIGH: f64 = 90.0;

fn draw_fan(canvas: &mut Canvas, freezer: &Freezer, fan: &Fan, plot: &Plot) {
    let colours = canvas.colours;
    let start = (plot.x(freezer.until), plot.y(freezer.now));
    let line = |of: fn(&crate::picture::FanDay) -> f64| -> Vec<(f64, f64)> {
        std::iter::once(start).chain(fan.days.iter().map(|day| (plot.x(end_of(day.on)), plot.y(of(day))))).collect()
    };
    let (low, middle, high) = (line(|day| day.p10), line(|day| day.p50), line(|day| day.p90));
    let band: Vec<_> = low.iter().chain(high.iter().rev()).copied().collect();
    canvas.area(&format!("{}Z", path(&band)), Fill::Tint(colours.blue));
    canvas.stroke(&path(&low), colours.blue, 3.0, None);
    // Where it leaves the page the band has no upper edge.
    let inside: Vec<_> = high.iter().copied().take_while(|(_, y)| *y > plot.top + 0.5).collect();
    canvas.stroke(&path(&inside), colours.blue, 3.0, None);
    canvas.stroke(&path(&middle), colours.blue, 6.0, Some("18 14"));
    canvas.line((start.0, plot.top), (start.0, plot.base), colours.rule, 3.0);
    let style = Style::new(SMALL, Weight::Regular, colours.quiet).with_halo();
    let (x, anchor) =
        if start.0 - plot.left < 160.0 { (start.0 + 16.0, Anchor::Start) } else { (start.0 - 16.0, Anchor::End) };
    canvas.text(x, plot.top + 26.0, "today", style.at(anchor));
}

/// On the line of a load: from when until when it is likely, and the middle of it.
fn draw_ready(canvas: &mut Canvas, freezer: &Freezer, fan: &Fan, plot: &Plot) {
    let (Some(load), Some(early)) = (&freezer.load, fan.ready_p10) else { return };
    let colours = canvas.colours;
    let y = plot.y(load.mass);
    let x = |day: NaiveDate| plot.x(end_of(day)).min(EDGE + ROOM);
    let (from, to) = (x(early), fan.ready_p90.map_or(EDGE + ROOM, x));
    canvas.line((from, y), (to, y), colours.ink, 10.0);
    canvas.line((from, y - 18.0), (from, y + 18.0), colours.ink, 6.0);
    if fan.ready_p90.is_some() {
        canvas.line((to, y - 18.0), (to, y + 18.0), colours.ink, 6.0);
    }
    if let Some(middle) = fan.ready_p50 {
        canvas.dot(x(middle), y, 18.0, colours.ink);
    }
}

fn path(points: &[(f64, f64)]) -> String {
    let mut path = String::new();
    for (n, (x, y)) in points.iter().enumerate() {
        let _ = write!(path, "{}{} {}", if n == 0 { "M" } else { "L" }, round(*x), round(*y));
    }
    path
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::picture::{LoadLine, Stock, Unit};
    use crate::vocabulary::Crop;
    use anyhow::Context as _;
    use chrono::NaiveDate;

    /// A freezer that stood at 19 kg for ten days but for a day at a peak in each five.
    fn peaks(peak: f64) -> Option<Freezer> {
        let start = NaiveDate::from_ymd_opt(2026, 8, 1)?.and_time(NaiveTime::MIN);
        let at = |day: i64, mass: f64| Stock { at: start + TimeDelta::days(day), mass };
        let stock = vec![at(0, 19.0), at(2, peak), at(3, 19.0), at(7, peak), at(8, 19.0)];
        let load = Some(LoadLine { mass: 20.9, makes: "7 quarts of sauce".to_owned() });
        let until = start + TimeDelta::days(10);
        Some(Freezer {
            unit: Unit::Kilogram,
            crop: Crop::Tomato,
            since: start,
            until,
            stock,
            now: 19.0,
            bags: 6,
            load,
            fan: None,
        })
    }

    #[test]
    fn the_label_of_a_load_crosses_no_peak() -> anyhow::Result<()> {
        let freezer = peaks(22.2).context("a day")?;
        let plot = plot(&freezer, 340.0);
        // Wider than any gap between the peaks.
        let (left, base) = place_of_label(&freezer, &plot, 20.9, 500.0, 300.0);
        assert!(base <= plot.y(22.2) - 10.0 && left >= plot.left, "{base} over {}", plot.y(22.2));
        let (_, narrow) = place_of_label(&freezer, &plot, 20.9, 100.0, 700.0);
        assert_eq!(narrow, plot.y(20.9) - 16.0, "it fits between them");
        let far = peaks(70.0).context("a day")?;
        let plot = super::plot(&far, 340.0);
        let (_, base) = place_of_label(&far, &plot, 20.9, 500.0, 300.0);
        assert_eq!(base, plot.y(20.9) - 16.0, "too high up it would name nothing");
        Ok(())
    }
}
