//! Sheets of jar labels as PDF, true to size.

use super::PaperError;
use super::page::{POINTS, Paper, thousandth};
use crate::drawing::{Weight, balance, clean, fit, width, wrap};
use crate::enclosure::{Label, LabelSheet};
use crate::sheet::{Layout, Place};
use svg::Document;
use svg::node::element::{Line, Text};

/// From a label's edge to its words in millimetres, on all but low labels: printers and scissors are not exact.
const INSET: f64 = 2.6;
/// The smallest letters, in millimetres: 5.5 point.
const SMALLEST: f64 = 5.5 / POINTS;
/// From base line to base line.
const LEADING: f64 = 1.24;
/// Between the name and the rest, of the name's size: a thin rule lies in it.
const BREAK: f64 = 0.55;

/// The sheets, one page each.
///
/// # Errors
/// When there is no label, or more than 2000.
pub fn labels(sheet: &LabelSheet) -> Result<Vec<u8>, PaperError> {
    if !(1..=2000).contains(&sheet.count) {
        return Err(PaperError::Count(sheet.count));
    }
    let set = Set::of(&sheet.label, &sheet.layout);
    let per_sheet = sheet.layout.per_sheet() as usize;
    let (first, all) = (sheet.skipped() as usize, (sheet.skipped() + sheet.count) as usize);
    let mut paper = Paper::new(sheet.layout.sheet);
    for page in 0..sheet.sheets() as usize {
        let used = |n: &usize| (first..all).contains(&(page * per_sheet + n));
        let places = sheet.layout.places().enumerate().filter(|(n, _)| used(n)).map(|(_, place)| place);
        paper.page(&draw(places, &set, &sheet.layout))?;
    }
    Ok(paper.finish(&sheet.label.product))
}

/// What is on a label, at the sizes at which it fits.
struct Set {
    names: Vec<String>,
    name: f64,
    below: Vec<String>,
    rest: f64,
}

impl Set {
    /// The product as large as the label allows, and the rest below it, on fewer lines where the label is low.
    fn of(label: &Label, layout: &Layout) -> Self {
        let (room, high) = room(layout);
        let largest = (layout.height * 0.2).clamp(SMALLEST, 30.0 / POINTS);
        let ways = ways(label);
        let shares = (0..48).map(|n| 1.0 - f64::from(n) * 0.02);
        let sizes =
            shares.map(|share| (largest * share).max(SMALLEST * 1.15)).map(|name| (name, (name * 0.7).max(SMALLEST)));
        let mut sets = sizes.flat_map(|(name, rest)| ways.iter().map(move |below| (name, rest, below)));
        let whole = sets.find_map(|(name, rest, below)| {
            let names = balance(&label.product, name, Weight::SemiBold, room, 3);
            let set = Self { names, name, below: below.clone(), rest };
            set.is_whole(label, room, high).then_some(set)
        });
        whole.unwrap_or_else(|| Self::cut(label, &ways, room, high))
    }

    /// At the smallest sizes, the product cut; and only where that is not enough, the rest too.
    fn cut(label: &Label, ways: &[Vec<String>], room: f64, high: f64) -> Self {
        let (name, rest) = (SMALLEST * 1.15, SMALLEST);
        let at = |lines: usize, below: &[String]| {
            let names = wrap(&label.product, name, Weight::SemiBold, room, lines);
            Self {
                names,
                name,
                below: below.iter().map(|words| fit(words, rest, Weight::Regular, room)).collect(),
                rest,
            }
        };
        let all = [2, 1].into_iter().flat_map(|lines| ways.iter().map(move |below| (lines, below)));
        let uncut = |set: &Self| set.height() <= high && !set.below.iter().any(|words| words.ends_with('…'));
        let found = all.map(|(lines, below)| at(lines, below)).find(uncut);
        found.unwrap_or_else(|| {
            let mut set = at(1, ways.last().map(Vec::as_slice).unwrap_or_default());
            while set.height() > high && set.below.pop().is_some() {}
            set
        })
    }

    fn height(&self) -> f64 {
        let lines = |count: usize, size: f64| count as f64 * size * LEADING;
        lines(self.names.len(), self.name) + self.name * BREAK + lines(self.below.len(), self.rest)
    }

    fn is_whole(&self, label: &Label, room: f64, high: f64) -> bool {
        self.height() <= high
            && self.names.join(" ") == clean(&label.product)
            && self.below.iter().all(|words| width(words, self.rest, Weight::Regular) <= room)
    }
}

/// The width and the height that the words of a label may take.
fn room(layout: &Layout) -> (f64, f64) {
    let inset = INSET.min(layout.height * 0.07);
    (layout.width - 2.0 * inset.max(1.6), layout.height - 2.0 * inset)
}

/// What stands below the product, on ever fewer lines.
fn ways(label: &Label) -> [Vec<String>; 3] {
    let join = |parts: &[Option<&String>]| {
        let parts: Vec<&str> = parts.iter().flatten().map(|part| part.as_str()).collect();
        parts.join(" · ")
    };
    let (jar, on, best) = (Some(&label.jar), Some(&label.on), Some(&label.best));
    let (batch, acid) = (label.batch.as_ref(), label.acid.as_ref());
    let full = |lines: &[String]| lines.iter().map(|line| clean(line)).filter(|line| !line.is_empty()).collect();
    [
        full(&[join(&[jar, on]), join(&[best]), join(&[batch]), join(&[acid])]),
        full(&[join(&[jar, on]), join(&[best]), join(&[batch, acid])]),
        full(&[join(&[jar, on, best]), join(&[batch, acid])]),
    ]
}

/// A page of labels in millimetres.
fn draw(places: impl Iterator<Item = Place>, set: &Set, layout: &Layout) -> String {
    let (wide, high) = layout.sheet.size();
    let mut page = Document::new()
        .set("width", wide * POINTS)
        .set("height", high * POINTS)
        .set("viewBox", (0.0, 0.0, wide as f32, high as f32));
    for place in places {
        let middle = place.x + layout.width / 2.0;
        let mut y = place.y + (layout.height - set.height()) / 2.0;
        for words in &set.names {
            page = page.add(text(middle, y, words, set.name, Weight::SemiBold));
            y += set.name * LEADING;
        }
        page = page.add(rule(middle, y + set.name * BREAK * 0.55, layout.width * 0.18));
        y += set.name * BREAK;
        for words in &set.below {
            page = page.add(text(middle, y, words, set.rest, Weight::Regular));
            y += set.rest * LEADING;
        }
    }
    page.to_string()
}

/// A line of text whose upper edge is at `y`; its capitals stand in its middle.
fn text(middle: f64, y: f64, words: &str, size: f64, weight: Weight) -> Text {
    let base = y + size * (LEADING / 2.0 + 0.36);
    Text::new(words)
        .set("x", thousandth(middle))
        .set("y", thousandth(base))
        .set("font-family", crate::drawing::FAMILY)
        .set("font-size", thousandth(size))
        .set("font-weight", weight.css())
        .set("text-anchor", "middle")
}

/// A thin line between the product and the rest.
fn rule(middle: f64, y: f64, length: f64) -> Line {
    Line::new()
        .set("x1", thousandth(middle - length / 2.0))
        .set("x2", thousandth(middle + length / 2.0))
        .set("y1", thousandth(y))
        .set("y2", thousandth(y))
        .set("stroke", "black")
        .set("stroke-width", 0.2)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// Words as a household may name a jar, and labels on which they must go.
    fn label() -> impl Strategy<Value = Label> {
        let product = prop_oneof![
            Just("Thick tomato sauce".to_owned()),
            Just("Raw-packed whole tomatoes with no added liquid".to_owned()),
            "[A-Zñé][a-zñéß ]{0,70}",
        ];
        let acid = prop_oneof![Just(None), Just(Some("bottled lemon juice added".to_owned()))];
        (product, acid, 1u32..200).prop_map(|(product, acid, number)| Label {
            product,
            jar: "pint-and-a-half jar".into(),
            on: "Aug 14, 2026".into(),
            batch: Some(format!("batch {number}")),
            best: "best by Aug 2027".into(),
            acid,
        })
    }

    fn layout() -> impl Strategy<Value = String> {
        let size = (35.0..160.0f64, 18.0..140.0f64);
        size.prop_map(|(width, height)| format!("1x1 a4 label {width:.1}x{height:.1} margin 10x10"))
    }

    proptest! {
        #[test]
        fn all_that_must_be_on_a_label_is_on_it_and_inside(label in label(), layout in layout()) {
            let layout = Layout::parse(&layout)?;
            let set = Set::of(&label, &layout);
            let (room, high) = room(&layout);
            prop_assert!(set.height() <= high + 1e-9, "{} mm on {}", set.height(), layout);
            prop_assert!(set.rest >= SMALLEST - 1e-9 && set.name >= SMALLEST);
            for words in &set.names {
                prop_assert!(width(words, set.name, Weight::SemiBold) <= room + 1e-9);
            }
            for words in &set.below {
                prop_assert!(width(words, set.rest, Weight::Regular) <= room + 1e-9);
            }
            // From the size of a common small label on, nothing but the product is ever cut.
            let below = set.below.join(" ");
            if layout.width >= 60.0 && layout.height >= 25.0 {
                let optional = label.batch.iter().chain(&label.acid);
                for part in [&label.jar, &label.on, &label.best].into_iter().chain(optional) {
                    prop_assert!(below.contains(part.as_str()), "{part:?} is missing: {below}");
                }
            }
        }
    }
}
