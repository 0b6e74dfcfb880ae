//! The kitchen card: what can be said to the assistant, on one page for the wall, in the largest letters in which all
//! of it fits.

use super::PaperError;
use super::page::{POINTS, Paper, thousandth};
use crate::drawing::{FAMILY, Theme, Weight, balance, clean, fit, width};
use crate::phrase::Task;
use crate::reply::{Topic, capitalised, topics};
use crate::sheet::SheetSize;
use svg::Document;
use svg::node::element::{Rectangle, Text};

/// The empty edge in millimetres: no printer reaches the paper's own.
const EDGE: f64 = 11.0;
/// Between columns in millimetres.
const GUTTER: f64 = 7.0;
/// From base line to base line, of the size of the letters.
const LEADING: f64 = 1.26;
/// Of what a phrase is for, beside the phrase's own letters.
const TASK: f64 = 0.7;
/// Of a topic's heading, beside the phrases' letters.
const HEADING: f64 = 1.25;
/// The height of the bar above a heading in millimetres.
const BAR: f64 = 1.0;
/// Sizes of phrases in points that are tried, the largest first. Nine point is read at an arm's length and not from a
/// metre; a card that needs less says too much.
const SIZES: (f64, f64) = (16.0, 9.0);
/// Between phrases on one line.
const DOT: &str = " · ";

/// The card as PDF, one page; `name` is what the assistant is called.
///
/// # Errors
/// When what can be said does not fit on the sheet in letters that can be read.
pub fn card(name: &str, sheet: SheetSize) -> Result<Vec<u8>, PaperError> {
    let page = Page::of(name, sheet).ok_or(PaperError::Full(sheet.as_str()))?;
    let mut paper = Paper::new(sheet);
    paper.page(&page.svg(sheet))?;
    Ok(paper.finish("Kitchen card"))
}

/// Words on one line. Places and sizes are millimetres.
#[derive(Clone, Debug)]
struct Run {
    x: f64,
    /// Of the line's upper edge.
    y: f64,
    words: String,
    size: f64,
    weight: Weight,
    colour: &'static str,
}

/// A bar above a heading.
#[derive(Clone, Debug)]
struct Bar {
    x: f64,
    y: f64,
    length: f64,
    colour: &'static str,
}

/// A topic set in a column, from its own upper left corner.
#[derive(Clone, Debug)]
struct Block {
    bar: Bar,
    runs: Vec<Run>,
    height: f64,
}

/// All that is on the page.
#[derive(Debug)]
struct Page {
    bars: Vec<Bar>,
    runs: Vec<Run>,
    /// Of the phrases, in points.
    #[cfg_attr(not(test), expect(dead_code, reason = "only the tests ask how large it came out"))]
    points: f64,
}

impl Page {
    /// In the largest letters and the fewest columns that hold everything.
    fn of(name: &str, sheet: SheetSize) -> Option<Self> {
        let (largest, smallest) = SIZES;
        let steps = ((largest - smallest) * 4.0) as u32;
        let sizes = (0..=steps).map(|step| largest - f64::from(step) / 4.0);
        let mut ways = sizes.flat_map(|points| [2usize, 3].map(|columns| (points, columns)));
        ways.find_map(|(points, columns)| Self::set(name, sheet, points, columns))
    }

    /// At this size, if it fits.
    fn set(name: &str, sheet: SheetSize, points: f64, columns: usize) -> Option<Self> {
        let (wide, high) = sheet.size();
        let size = points / POINTS;
        let column = (wide - 2.0 * EDGE - GUTTER * (columns - 1) as f64) / columns as f64;
        let blocks: Option<Vec<Block>> =
            topics().iter().map(|(topic, tasks)| block(*topic, tasks, size, column)).collect();
        let (mut runs, top) = head(name, wide, size);
        let (foot, bottom) = foot(name, wide, high, size);
        runs.extend(foot);
        let gap = size * 0.9;
        let columns = split(blocks?, columns, bottom - top, gap)?;
        let mut page = Self { bars: Vec::new(), runs, points };
        for (n, blocks) in columns.into_iter().enumerate() {
            page.column(blocks, EDGE + n as f64 * (column + GUTTER), (top, bottom), gap);
        }
        Some(page)
    }

    /// Puts topics below each other; what room is left goes between them, so that columns end at the same height.
    fn column(&mut self, blocks: Vec<Block>, x: f64, (top, bottom): (f64, f64), gap: f64) {
        let taken: f64 = blocks.iter().map(|block| block.height).sum();
        let between = blocks.len().saturating_sub(1).max(1) as f64;
        let gap = ((bottom - top - taken) / between).clamp(gap, gap * 4.5);
        let mut y = top;
        for block in blocks {
            let Block { bar, runs, height } = block;
            self.bars.push(Bar { x: bar.x + x, y: bar.y + y, ..bar });
            self.runs.extend(runs.into_iter().map(|run| Run { x: run.x + x, y: run.y + y, ..run }));
            y += height + gap;
        }
    }

    /// As the library for vector graphics reads it.
    fn svg(&self, sheet: SheetSize) -> String {
        let (wide, high) = sheet.size();
        let page = Document::new()
            .set("width", wide * POINTS)
            .set("height", high * POINTS)
            .set("viewBox", (0.0, 0.0, wide as f32, high as f32));
        let page = self.bars.iter().map(bar).fold(page, Document::add);
        self.runs.iter().map(text).fold(page, Document::add).to_string()
    }
}

/// The title and what it means, and where the columns begin.
fn head(name: &str, wide: f64, size: f64) -> (Vec<Run>, f64) {
    let colours = Theme::Light.colours();
    let room = wide - 2.0 * EDGE;
    let title = Run {
        x: EDGE,
        y: EDGE - 2.0,
        words: fit(&format!("What to say to {}", capitalised(&clean(name))), 9.5, Weight::SemiBold, room),
        size: 9.5,
        weight: Weight::SemiBold,
        colour: colours.ink,
    };
    let says = "In your own words, as to a friend: these are examples. Typos and short forms are fine.";
    let below = Run {
        x: EDGE,
        y: title.y + 9.5 * LEADING,
        words: fit(says, size * 0.9, Weight::Regular, room),
        size: size * 0.9,
        weight: Weight::Regular,
        colour: colours.quiet,
    };
    let top = below.y + below.size * LEADING + 3.5;
    (vec![title, below], top)
}

/// What is true of all of it, and where the columns end.
fn foot(name: &str, wide: f64, high: f64, size: f64) -> (Vec<Run>, f64) {
    let says = format!(
        "In a room of several, call it first: “{}, …”. It does not watch the pot: follow a tested recipe.",
        clean(name)
    );
    let size = size * 0.8;
    let y = high - EDGE - size * LEADING + 2.0;
    let colour = Theme::Light.colours().quiet;
    let words = fit(&says, size, Weight::Regular, wide - 2.0 * EDGE);
    (vec![Run { x: EDGE, y, words, size, weight: Weight::Regular, colour }], y - 3.0)
}

/// A topic with its tasks in a column so wide; nothing where a phrase does not fit into two lines of it.
fn block(topic: Topic, tasks: &[Task], size: f64, wide: f64) -> Option<Block> {
    let colour = colour(topic);
    let heading = size * HEADING;
    let bar = Bar { x: 0.0, y: 0.0, length: wide, colour };
    let weight = Weight::SemiBold;
    let mut runs =
        vec![Run { x: 0.0, y: BAR + size * 0.15, words: topic.heading().to_owned(), size: heading, weight, colour }];
    let mut y = BAR + size * 0.25 + heading * LEADING;
    for task in tasks {
        let small = size * TASK;
        if width(task.task, small, weight) > wide {
            return None;
        }
        let colour = Theme::Light.colours().quiet;
        runs.push(Run { x: 0.0, y, words: task.task.to_owned(), size: small, weight: Weight::Regular, colour });
        y += small * LEADING;
        y = phrases(shown(task), size, wide, y, &mut runs)? + size * 0.3;
    }
    Some(Block { bar, runs, height: y - size * 0.3 })
}

/// Two phrases of a task, and three where it takes more than two kinds of them.
fn shown(task: &Task) -> impl Iterator<Item = &'static str> {
    task.examples.iter().map(|example| example.words).take(task.frames.clamp(2, 3))
}

/// Sets phrases beside each other where they fit, else below; gives where the next line begins.
fn phrases(
    all: impl Iterator<Item = &'static str>,
    size: f64,
    wide: f64,
    top: f64,
    runs: &mut Vec<Run>,
) -> Option<f64> {
    let weight = Weight::SemiBold;
    let (ink, quiet) = (Theme::Light.colours().ink, Theme::Light.colours().plain);
    let dot = width(DOT, size, weight);
    let (mut x, mut y) = (0.0, top);
    for words in all {
        let length = width(words, size, weight);
        if x > 0.0 && x + dot + length <= wide {
            let words = DOT.trim().to_owned();
            let at = x + (dot - width(&words, size, weight)) / 2.0;
            runs.push(Run { x: at, y, words, size, weight, colour: quiet });
            x += dot;
        } else if x > 0.0 {
            (x, y) = (0.0, y + size * LEADING);
        }
        // The second line of a long phrase stands further in, so that it is not taken for another phrase.
        let indent = size * 0.8;
        let lines =
            if length <= wide { vec![words.to_owned()] } else { balance(words, size, weight, wide - indent, 2) };
        if lines.iter().any(|line| line.ends_with('…')) {
            return None;
        }
        for (n, words) in lines.into_iter().enumerate() {
            if n > 0 {
                (x, y) = (indent, y + size * LEADING);
            }
            let length = width(&words, size, weight);
            runs.push(Run { x, y, words, size, weight, colour: ink });
            x += length;
        }
    }
    Some(y + size * LEADING)
}

const fn colour(topic: Topic) -> &'static str {
    let colours = Theme::Light.colours();
    match topic {
        Topic::Garden | Topic::Canning | Topic::Mishaps => colours.red,
        Topic::Freezer => colours.blue,
        Topic::Shelf => colours.green,
        Topic::Questions | Topic::Looking | Topic::Settings | Topic::Slips => colours.quiet,
    }
}

/// Blocks in so many columns, in their order, the columns about as high as each other; nothing where they are higher
/// than the room.
fn split(blocks: Vec<Block>, columns: usize, room: f64, gap: f64) -> Option<Vec<Vec<Block>>> {
    let all: f64 = blocks.iter().map(|block| block.height + gap).sum();
    let mut limit = (all / columns as f64 - gap).floor();
    while limit <= room {
        let filled = fill(&blocks, limit, gap);
        if filled.len() <= columns {
            return Some(filled);
        }
        limit += 1.0;
    }
    let filled = fill(&blocks, room, gap);
    (filled.len() <= columns && blocks.iter().all(|block| block.height <= room)).then_some(filled)
}

/// Blocks one after the other into columns of at most this height, or of one block.
fn fill(blocks: &[Block], limit: f64, gap: f64) -> Vec<Vec<Block>> {
    let mut columns: Vec<Vec<Block>> = Vec::new();
    let mut height = f64::INFINITY;
    for block in blocks {
        if height + gap + block.height <= limit {
            height += gap + block.height;
        } else {
            columns.push(Vec::new());
            height = block.height;
        }
        if let Some(column) = columns.last_mut() {
            column.push(block.clone());
        }
    }
    columns
}

fn bar(bar: &Bar) -> Rectangle {
    Rectangle::new()
        .set("x", thousandth(bar.x))
        .set("y", thousandth(bar.y))
        .set("width", thousandth(bar.length))
        .set("height", BAR)
        .set("fill", bar.colour)
}

/// A line of text; its capitals stand in its middle.
fn text(run: &Run) -> Text {
    Text::new(run.words.as_str())
        .set("x", thousandth(run.x))
        .set("y", thousandth(run.y + run.size * (LEADING / 2.0 + 0.36)))
        .set("font-family", FAMILY)
        .set("font-size", thousandth(run.size))
        .set("font-weight", run.weight.css())
        .set("fill", run.colour)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::paper::page::read;
    use anyhow::Context as _;
    use svg2pdf::usvg::{Group, Node, Rect};

    const SHEETS: [SheetSize; 2] = [SheetSize::A4, SheetSize::Letter];

    /// Where words stand, as the library that draws them says.
    fn boxes(group: &Group, found: &mut Vec<(String, Rect)>) {
        for node in group.children() {
            match node {
                Node::Group(group) => boxes(group, found),
                Node::Text(text) => {
                    let words = text.chunks().iter().map(|chunk| chunk.text()).collect();
                    found.push((words, text.abs_bounding_box()));
                }
                _ => {}
            }
        }
    }

    #[test]
    fn no_words_leave_the_page_or_stand_on_others() -> anyhow::Result<()> {
        for sheet in SHEETS {
            let page = Page::of("rackful", sheet).context("a page that holds it")?;
            let tree = read(&page.svg(sheet))?;
            let mut found = Vec::new();
            boxes(tree.root(), &mut found);
            assert_eq!(found.len(), page.runs.len());
            let (wide, high) = (tree.size().width(), tree.size().height());
            let edge = (5.0 * POINTS) as f32;
            for (n, (words, a)) in found.iter().enumerate() {
                let is_inside =
                    a.left() >= edge && a.top() >= edge && a.right() <= wide - edge && a.bottom() <= high - edge;
                assert!(is_inside, "'{words}' at {a:?} leaves {}", sheet.as_str());
                for (others, b) in &found[..n] {
                    let apart = a.left() >= b.right()
                        || b.left() >= a.right()
                        || a.top() >= b.bottom()
                        || b.top() >= a.bottom();
                    assert!(apart, "'{words}' at {a:?} is on '{others}' at {b:?}");
                }
            }
        }
        Ok(())
    }

    #[test]
    fn it_can_be_read_from_a_metre_and_says_every_task_whole() -> anyhow::Result<()> {
        for sheet in SHEETS {
            let page = Page::of("rackful", sheet).context("a page that holds it")?;
            println!("{}: {} points", sheet.as_str(), page.points);
            assert!(page.points >= 10.0, "{} points on {}", page.points, sheet.as_str());
            assert!(page.runs.iter().all(|run| !run.words.ends_with('…')));
            for (topic, tasks) in topics() {
                assert!(page.runs.iter().any(|run| run.words == topic.heading()), "{topic:?}");
                for task in tasks {
                    assert!(page.runs.iter().any(|run| run.words == task.task), "{}", task.task);
                }
            }
        }
        Ok(())
    }

    #[test]
    fn a_sheet_that_is_too_small_is_refused_and_a_long_name_is_cut() {
        assert!(matches!(card("rackful", SheetSize::A5), Err(PaperError::Full("A5"))));
        assert!(card(&"big red ".repeat(40), SheetSize::A4).is_ok());
    }
}
