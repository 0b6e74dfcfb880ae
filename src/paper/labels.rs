//! Sheets of jar labels as PDF, true to size: a page is drawn in millimetres by the library for vector graphics, its font
//! embedded as text.

use super::PaperError;
use crate::drawing::{Weight, fit, fonts, width, wrap};
use crate::enclosure::{Label, LabelSheet, Layout, Place};
use pdf_writer::{Content, Finish, Name, Pdf, Rect, Ref, TextStr};
use std::collections::HashMap;
use svg::Document;
use svg::node::element::Text;
use svg2pdf::usvg;

/// Points in a millimetre.
const POINTS: f64 = 72.0 / 25.4;
/// From a label's edge to its words, in millimetres: printers and scissors are not exact.
const INSET: f64 = 2.6;
/// Letters in millimetres: 6 point is the smallest that is read without effort.
const SMALLEST: f64 = 6.0 / POINTS;
const LARGEST_NAME: f64 = 18.0 / POINTS;
const LEADING: f64 = 1.24;

/// The sheets, one page each.
///
/// # Errors
/// When there is no label, or more than 2000.
pub fn labels(sheet: &LabelSheet) -> Result<Vec<u8>, PaperError> {
    if !(1..=2000).contains(&sheet.count) {
        return Err(PaperError::Count(sheet.count));
    }
    let lines = Set::of(&sheet.label, &sheet.layout);
    let per_sheet = sheet.layout.per_sheet() as usize;
    let (first, all) = (sheet.skipped() as usize, (sheet.skipped() + sheet.count) as usize);
    let mut paper = Paper::new(&sheet.layout);
    for page in 0..sheet.sheets() as usize {
        let used = |n: &usize| (first..all).contains(&(page * per_sheet + n));
        let places = sheet.layout.places().enumerate().filter(|(n, _)| used(n)).map(|(_, place)| place);
        paper.page(&draw(places, &lines, &sheet.layout))?;
    }
    Ok(paper.finish(&sheet.label.product))
}

/// One line of a label.
struct Line {
    words: String,
    size: f64,
    weight: Weight,
}

/// The lines of a label at the sizes at which they fit.
struct Set {
    lines: Vec<Line>,
}

impl Set {
    /// The product as large as the label allows, and the rest below it, on fewer lines where the label is low.
    fn of(label: &Label, layout: &Layout) -> Self {
        let (room, high) = (layout.width - 2.0 * INSET, layout.height - 2.0 * INSET);
        let sizes = |step: f64| (0..40).map(move |n| 1.0 - f64::from(n) * step);
        let all = ways(label);
        let fitting = sizes(0.02).find_map(|share| {
            let name = (LARGEST_NAME * share).max(SMALLEST * 1.15);
            let rest = (name * 0.62).max(SMALLEST);
            all.iter().map(|below| Self::at(label, below, name, rest, room)).find(|set| set.fits(room, high))
        });
        // What fits nowhere is cut at the smallest size: the layout has refused labels on which that says nothing.
        fitting.unwrap_or_else(|| {
            let below = all.last().cloned().unwrap_or_default();
            let mut set = Self::at(label, &below, SMALLEST * 1.15, SMALLEST, room);
            set.lines.iter_mut().for_each(|line| line.words = fit(&line.words, line.size, line.weight, room));
            while set.height() > high && set.lines.len() > 1 {
                set.lines.pop();
            }
            set
        })
    }

    fn at(label: &Label, below: &[String], name: f64, rest: f64, room: f64) -> Self {
        let of = |words: String, size: f64, weight: Weight| Line { words, size, weight };
        let names = wrap(&label.product, name, Weight::SemiBold, room, 2);
        let names = names.into_iter().map(|words| of(words, name, Weight::SemiBold));
        let below = below.iter().map(|words| of(crate::drawing::clean(words), rest, Weight::Regular));
        Self { lines: names.chain(below).collect() }
    }

    fn height(&self) -> f64 {
        self.lines.iter().map(|line| line.size * LEADING).sum()
    }

    fn fits(&self, room: f64, high: f64) -> bool {
        let whole = |line: &Line| !line.words.ends_with('…') && width(&line.words, line.size, line.weight) <= room;
        self.height() <= high && self.lines.iter().all(whole)
    }
}

/// What stands below the product, on ever fewer lines.
fn ways(label: &Label) -> [Vec<String>; 3] {
    let join = |parts: &[Option<&String>]| {
        let parts: Vec<&str> = parts.iter().flatten().map(|part| part.as_str()).collect();
        parts.join(" · ")
    };
    let (jar, on, best) = (Some(&label.jar), Some(&label.on), Some(&label.best));
    let (batch, acid) = (label.batch.as_ref(), label.acid.as_ref());
    let full = |lines: &[String]| lines.iter().filter(|line| !line.is_empty()).cloned().collect();
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
        let mut y = place.y + (layout.height - set.height()) / 2.0;
        for line in &set.lines {
            // A base line lies so that capitals stand in the middle of their line.
            let base = y + line.size * (LEADING / 2.0 + 0.36);
            y += line.size * LEADING;
            let text = Text::new(line.words.as_str())
                .set("x", thousandth(place.x + layout.width / 2.0))
                .set("y", thousandth(base))
                .set("font-family", crate::drawing::FAMILY)
                .set("font-size", thousandth(line.size))
                .set("font-weight", line.weight.css())
                .set("text-anchor", "middle");
            page = page.add(text);
        }
    }
    page.to_string()
}

fn thousandth(value: f64) -> f64 {
    (value * 1000.0).round() / 1000.0
}

/// A PDF being written, page by page.
struct Paper {
    pdf: Pdf,
    next: Ref,
    catalog: Ref,
    tree: Ref,
    pages: Vec<Ref>,
    /// In points.
    size: (f32, f32),
}

impl Paper {
    fn new(layout: &Layout) -> Self {
        let (wide, high) = layout.sheet.size();
        let mut next = Ref::new(1);
        let (catalog, tree) = (next.bump(), next.bump());
        let size = ((wide * POINTS) as f32, (high * POINTS) as f32);
        Self { pdf: Pdf::new(), next, catalog, tree, pages: Vec::new(), size }
    }

    fn page(&mut self, svg: &str) -> Result<(), PaperError> {
        let failed = |error: String| PaperError::Page(error);
        let options = usvg::Options {
            font_family: crate::drawing::FAMILY.to_owned(),
            fontdb: fonts(),
            ..usvg::Options::default()
        };
        let tree = usvg::Tree::from_str(svg, &options).map_err(|error| failed(error.to_string()))?;
        let (chunk, drawn) = svg2pdf::to_chunk(&tree, svg2pdf::ConversionOptions::default())
            .map_err(|error| failed(error.to_string()))?;
        let mut numbers = HashMap::new();
        let chunk = chunk.renumber(|old| *numbers.entry(old).or_insert_with(|| self.next.bump()));
        let drawn = numbers.get(&drawn).copied().ok_or_else(|| failed("it came out empty".to_owned()))?;
        let (page, content) = (self.next.bump(), self.next.bump());
        let name = Name(b"S");
        let (wide, high) = self.size;
        let mut writer = self.pdf.page(page);
        writer.media_box(Rect::new(0.0, 0.0, wide, high)).parent(self.tree).contents(content);
        writer.resources().x_objects().pair(name, drawn);
        writer.finish();
        let mut stream = Content::new();
        stream.save_state().transform([wide, 0.0, 0.0, high, 0.0, 0.0]).x_object(name).restore_state();
        self.pdf.stream(content, &stream.finish());
        self.pdf.extend(&chunk);
        self.pages.push(page);
        Ok(())
    }

    fn finish(mut self, title: &str) -> Vec<u8> {
        self.pdf.catalog(self.catalog).pages(self.tree);
        let count = i32::try_from(self.pages.len()).unwrap_or(i32::MAX);
        self.pdf.pages(self.tree).kids(self.pages).count(count);
        let info = self.next.bump();
        self.pdf.document_info(info).title(TextStr(title)).producer(TextStr("rackful"));
        self.pdf.finish()
    }
}
