//! A page: text and shapes at places, in units.

use super::WIDTH;
use super::lettering::{FAMILY, Weight, balance, clean};
use super::theme::{Colours, Theme};
use svg::Document;
use svg::node::element::{Circle, Definitions, Line, Path, Pattern, Rectangle, Text};

/// The empty edge at the left and the right.
pub(super) const EDGE: f64 = 64.0;
/// The room between the edges.
pub(super) const ROOM: f64 = WIDTH as f64 - 2.0 * EDGE;

const KICKER: f64 = 36.0;
const HEADLINE: f64 = 68.0;
const BELOW: f64 = 38.0;

/// A text style.
#[derive(Clone, Copy)]
pub(super) struct Style {
    pub(super) size: f64,
    pub(super) weight: Weight,
    pub(super) colour: &'static str,
    pub(super) anchor: Anchor,
    /// A rim of the page's colour, for text on top of marks.
    pub(super) halo: bool,
}

/// Which end of a text stands at its place.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Anchor {
    Start,
    Middle,
    End,
}

impl Style {
    pub(super) const fn new(size: f64, weight: Weight, colour: &'static str) -> Self {
        Self { size, weight, colour, anchor: Anchor::Start, halo: false }
    }

    pub(super) const fn at(self, anchor: Anchor) -> Self {
        Self { anchor, ..self }
    }

    pub(super) const fn with_halo(self) -> Self {
        Self { halo: true, ..self }
    }
}

/// How an area is filled: patterns say what colours say.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Fill {
    /// All of it.
    Solid(&'static str),
    /// Slanted stripes.
    Stripes(&'static str),
    /// Dots.
    Dots(&'static str),
    /// A tint of the colour.
    Tint(&'static str),
    /// A tint with an outline.
    Hollow(&'static str),
}

/// A page being drawn.
pub(super) struct Canvas {
    pub(super) colours: &'static Colours,
    height: f64,
    marks: Vec<Box<dyn svg::Node>>,
    patterns: Vec<(&'static str, &'static str)>,
}

impl Canvas {
    pub(super) fn new(theme: Theme) -> Self {
        Self { colours: theme.colours(), height: 0.0, marks: Vec::new(), patterns: Vec::new() }
    }

    /// The page is at least so high.
    pub(super) fn reach(&mut self, y: f64) {
        self.height = self.height.max(y);
    }

    fn add(&mut self, node: impl Into<Box<dyn svg::Node>>) {
        self.marks.push(node.into());
    }

    /// A line of text on a base line.
    pub(super) fn text(&mut self, x: f64, base: f64, words: &str, style: Style) {
        let words = clean(words);
        if words.is_empty() {
            return;
        }
        let anchor = match style.anchor {
            Anchor::Start => "start",
            Anchor::Middle => "middle",
            Anchor::End => "end",
        };
        let mut text = Text::new(words)
            .set("x", round(x))
            .set("y", round(base))
            .set("font-family", FAMILY)
            .set("font-size", style.size)
            .set("font-weight", style.weight.css())
            .set("text-anchor", anchor)
            .set("fill", style.colour);
        if style.halo {
            let rim = self.colours.page;
            text = text
                .set("paint-order", "stroke")
                .set("stroke", rim)
                .set("stroke-width", 12)
                .set("stroke-linejoin", "round");
        }
        self.add(text);
    }

    /// What it is, the figure that matters, and what follows from it. Returns where the rest of the page begins.
    pub(super) fn head(&mut self, kicker: &str, headline: &str, below: &[String]) -> f64 {
        let Colours { ink, quiet, red, .. } = self.colours;
        self.rect(EDGE, 70.0, 12.0, 34.0, 0.0, Fill::Solid(red));
        self.text(EDGE + 30.0, 100.0, kicker, Style::new(KICKER, Weight::SemiBold, quiet));
        let mut base = 100.0;
        let (size, lines) = headline_lines(headline);
        for line in lines {
            base += size * 1.2;
            self.text(EDGE, base, &line, Style::new(size, Weight::SemiBold, ink));
        }
        base += 4.0;
        for words in below.iter().filter(|words| !words.is_empty()) {
            for line in balance(words, BELOW, Weight::Regular, ROOM, 2) {
                base += 52.0;
                self.text(EDGE, base, &line, Style::new(BELOW, Weight::Regular, quiet));
            }
        }
        base
    }

    /// A rectangle, its corners this round.
    pub(super) fn rect(&mut self, x: f64, y: f64, width: f64, height: f64, radius: f64, fill: Fill) {
        let (paint, opacity) = self.paint(fill);
        // An outline lies inside.
        let inset = if matches!(fill, Fill::Hollow(_)) { 2.0 } else { 0.0 };
        let mut shape = Rectangle::new()
            .set("x", round(x + inset))
            .set("y", round(y + inset))
            .set("width", round((width - 2.0 * inset).max(0.0)))
            .set("height", round((height - 2.0 * inset).max(0.0)))
            .set("rx", radius)
            .set("fill", paint)
            .set("fill-opacity", opacity);
        if let Fill::Hollow(colour) = fill {
            shape = shape.set("stroke", colour).set("stroke-width", 4);
        }
        self.add(shape);
    }

    /// A bar that stands on its base line, with a patterned bar's outline.
    pub(super) fn bar(&mut self, x: f64, base: f64, width: f64, height: f64, fill: Fill) {
        let radius = (width / 4.0).min(height / 2.0).min(10.0);
        let (top, right) = (base - height, x + width);
        let path = format!(
            "M{} {}V{}Q{} {} {} {}H{}Q{} {} {} {}V{}Z",
            round(x),
            round(base),
            round(top + radius),
            round(x),
            round(top),
            round(x + radius),
            round(top),
            round(right - radius),
            round(right),
            round(top),
            round(right),
            round(top + radius),
            round(base)
        );
        self.area(&path, fill);
        if let Fill::Stripes(colour) = fill {
            self.stroke(&path, colour, 3.0, None);
        }
    }

    /// A closed path, filled.
    pub(super) fn area(&mut self, path: &str, fill: Fill) {
        let (paint, opacity) = self.paint(fill);
        self.add(Path::new().set("d", path).set("fill", paint).set("fill-opacity", opacity));
    }

    /// A path, drawn along.
    pub(super) fn stroke(&mut self, path: &str, colour: &'static str, width: f64, dashes: Option<&'static str>) {
        let mut shape = Path::new()
            .set("d", path)
            .set("fill", "none")
            .set("stroke", colour)
            .set("stroke-width", width)
            .set("stroke-linejoin", "round")
            .set("stroke-linecap", "round");
        if let Some(dashes) = dashes {
            shape = shape.set("stroke-dasharray", dashes);
        }
        self.add(shape);
    }

    /// A straight line.
    pub(super) fn line(&mut self, from: (f64, f64), to: (f64, f64), colour: &'static str, width: f64) {
        let line = Line::new()
            .set("x1", round(from.0))
            .set("y1", round(from.1))
            .set("x2", round(to.0))
            .set("y2", round(to.1))
            .set("stroke", colour)
            .set("stroke-width", width);
        self.add(line);
    }

    /// A dot with a rim of the page's colour.
    pub(super) fn dot(&mut self, x: f64, y: f64, radius: f64, colour: &'static str) {
        let rim = self.colours.page;
        let dot = Circle::new()
            .set("cx", round(x))
            .set("cy", round(y))
            .set("r", radius)
            .set("fill", colour)
            .set("stroke", rim)
            .set("stroke-width", 5);
        self.add(dot);
    }

    /// What an area is filled with, and how opaque it is.
    fn paint(&mut self, fill: Fill) -> (String, f64) {
        let (kind, colour) = match fill {
            Fill::Solid(colour) => return (colour.to_owned(), 1.0),
            Fill::Tint(colour) | Fill::Hollow(colour) => return (colour.to_owned(), 0.2),
            Fill::Stripes(colour) => ("stripes", colour),
            Fill::Dots(colour) => ("dots", colour),
        };
        if !self.patterns.contains(&(kind, colour)) {
            self.patterns.push((kind, colour));
        }
        (format!("url(#{})", pattern_name(kind, colour)), 1.0)
    }

    /// The page as a document, and its height.
    pub(super) fn finish(self) -> (String, f64) {
        let height = self.height.ceil();
        let page = Rectangle::new().set("width", WIDTH).set("height", height).set("fill", self.colours.page);
        let defined =
            self.patterns.iter().fold(Definitions::new(), |all, (kind, colour)| all.add(pattern(kind, colour)));
        let mut document =
            Document::new().set("width", WIDTH).set("height", height).set("viewBox", (0, 0, WIDTH, height as u32));
        document = self.marks.into_iter().fold(document.add(defined).add(page), Document::add);
        (document.to_string(), height)
    }
}

/// A headline on two lines, smaller if need be; on three, cut, if nothing helps.
fn headline_lines(words: &str) -> (f64, Vec<String>) {
    let sizes = [(HEADLINE, 2), (56.0, 2), (46.0, 3)];
    let mut set = sizes.map(|(size, lines)| (size, balance(words, size, Weight::SemiBold, ROOM, lines))).into_iter();
    let is_whole = |(_, lines): &(f64, Vec<String>)| !lines.last().is_some_and(|line| line.ends_with('…'));
    let last = (46.0, balance(words, 46.0, Weight::SemiBold, ROOM, 3));
    set.find(is_whole).unwrap_or(last)
}

fn pattern_name(kind: &str, colour: &str) -> String {
    format!("{kind}-{}", colour.trim_start_matches('#'))
}

fn pattern(kind: &str, colour: &'static str) -> Pattern {
    let pattern = Pattern::new()
        .set("id", pattern_name(kind, colour))
        .set("patternUnits", "userSpaceOnUse")
        .set("width", 14)
        .set("height", 14);
    let ground = Rectangle::new().set("width", 14).set("height", 14).set("fill", colour).set("fill-opacity", 0.25);
    match kind {
        "stripes" => pattern
            .set("patternTransform", "rotate(45)")
            .add(ground)
            .add(Rectangle::new().set("width", 6).set("height", 14).set("fill", colour)),
        _ => pattern.add(ground).add(Circle::new().set("cx", 7).set("cy", 7).set("r", 4).set("fill", colour)),
    }
}

/// Tenths of a unit are finer than a pixel.
pub(super) fn round(value: f64) -> f64 {
    (value * 10.0).round() / 10.0
}
