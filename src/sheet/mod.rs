//! Sheets of labels: where each label stands on the paper, and what does not fit on it.
//!
//! ```
//! use rackful::sheet::Layout;
//! let layout = Layout::parse("3x8 a4")?;
//! assert_eq!((layout.width, layout.height), (70.0, 37.0));
//! let why = Layout::parse("4x8 label 63.5x38.1 a4").map_err(|why| why.to_string());
//! assert_eq!(why, Err("4 labels of 63.5 mm take 254 mm across, and A4 is 210 mm wide.".to_owned()));
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

mod read;

use read::read;
use serde::{Deserialize, Serialize};

/// A sheet of paper, in millimetres.
#[derive(Clone, Copy, PartialEq, Debug, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum SheetSize {
    /// 210 by 297 mm (ISO 216).
    A4,
    /// 148 by 210 mm (ISO 216).
    A5,
    /// 8 1/2 by 11 in (ANSI/ASME Y14.1, size A).
    Letter,
    /// 8 1/2 by 14 in.
    Legal,
}

const INCH: f64 = 25.4;

impl SheetSize {
    /// Every one.
    pub const ALL: [Self; 4] = [Self::A4, Self::A5, Self::Letter, Self::Legal];

    /// Width and height.
    pub const fn size(self) -> (f64, f64) {
        match self {
            Self::A4 => (210.0, 297.0),
            Self::A5 => (148.0, 210.0),
            Self::Letter => (8.5 * INCH, 11.0 * INCH),
            Self::Legal => (8.5 * INCH, 14.0 * INCH),
        }
    }

    /// As written.
    pub const fn as_str(self) -> &'static str {
        match self {
            Self::A4 => "A4",
            Self::A5 => "A5",
            Self::Letter => "letter",
            Self::Legal => "legal",
        }
    }

    fn named(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|sheet| sheet.as_str().eq_ignore_ascii_case(word))
    }
}

/// A grid of equal labels on a sheet. All lengths are millimetres.
#[derive(Clone, Copy, PartialEq, Debug, Serialize, Deserialize)]
pub struct Layout {
    /// The paper.
    pub sheet: SheetSize,
    /// Beside each other.
    pub columns: u32,
    /// Below each other.
    pub rows: u32,
    /// Of a label.
    pub width: f64,
    /// Of a label.
    pub height: f64,
    /// From the left edge of the paper to the first label.
    pub left: f64,
    /// From the upper edge of the paper to the first label.
    pub top: f64,
    /// Between labels beside each other.
    pub gap_x: f64,
    /// Between labels below each other.
    pub gap_y: f64,
}

/// Where one label stands.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Place {
    /// Of its left edge.
    pub x: f64,
    /// Of its upper edge.
    pub y: f64,
}

/// A sheet that is sold cut, by its dimensions.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Preset {
    /// The paper.
    pub sheet: SheetSize,
    /// Columns and rows.
    pub grid: (u32, u32),
    /// Width and height of a label, in millimetres.
    pub label: (f64, f64),
    /// Gaps, in millimetres. What is left of the sheet is margin, the same at opposite edges.
    pub gaps: (f64, f64),
}

const fn preset(sheet: SheetSize, grid: (u32, u32), label: (f64, f64), gaps: (f64, f64)) -> Preset {
    Preset { sheet, grid, label, gaps }
}

/// Common cut sheets. Other ones are told by their measures.
pub const PRESETS: &[Preset] = &[
    preset(SheetSize::A4, (3, 8), (70.0, 37.0), (0.0, 0.0)),
    preset(SheetSize::A4, (3, 7), (63.5, 38.1), (2.5, 0.0)),
    preset(SheetSize::A4, (2, 7), (99.1, 38.1), (2.5, 0.0)),
    preset(SheetSize::A4, (2, 4), (99.1, 67.7), (2.5, 0.0)),
    preset(SheetSize::A4, (4, 10), (48.5, 25.4), (0.0, 0.0)),
    preset(SheetSize::A4, (5, 13), (38.1, 21.2), (2.5, 0.0)),
    preset(SheetSize::Letter, (3, 10), (66.675, 25.4), (3.175, 0.0)),
    preset(SheetSize::Letter, (2, 10), (101.6, 25.4), (4.7625, 0.0)),
    preset(SheetSize::Letter, (2, 5), (101.6, 50.8), (4.7625, 0.0)),
    preset(SheetSize::Letter, (2, 3), (101.6, 84.667), (4.7625, 0.0)),
];

/// The smallest label that its words are readable on (a choice of this program).
const SMALLEST: (f64, f64) = (35.0, 18.0);
/// Rounding of measures in inches.
const SLACK: f64 = 0.05;

/// Why labels don't fit, or aren't understood.
#[derive(Clone, PartialEq, Debug, thiserror::Error)]
pub enum Unfit {
    /// A word that says nothing of a sheet.
    #[error(
        "I don't know '{0}' of a sheet of labels; \
         say it as '3x8 a4' or '3x8 a4, label 63.5x38.1, margin 7x15, gap 2.5x0'."
    )]
    Word(String),
    /// No grid, and no label of which a grid could be made.
    #[error("How many labels beside and below each other? Say it as '3x8 a4'.")]
    NoGrid,
    /// Too much beside each other.
    #[error(
        "{} {} mm across, and {} is {} mm wide.",
        labels(*.count, *.each, *.gap, *.margin), mm(*.needed), .sheet.as_str(), mm(*.there)
    )]
    Wide {
        /// How many.
        count: u32,
        /// How wide each.
        each: f64,
        /// Between them.
        gap: f64,
        /// At the left.
        margin: f64,
        /// All together.
        needed: f64,
        /// Of the sheet.
        there: f64,
        /// The sheet.
        sheet: SheetSize,
    },
    /// Too much below each other.
    #[error(
        "{} {} mm down, and {} is {} mm high.",
        labels(*.count, *.each, *.gap, *.margin), mm(*.needed), .sheet.as_str(), mm(*.there)
    )]
    High {
        /// How many.
        count: u32,
        /// How high each.
        each: f64,
        /// Between them.
        gap: f64,
        /// At the top.
        margin: f64,
        /// All together.
        needed: f64,
        /// Of the sheet.
        there: f64,
        /// The sheet.
        sheet: SheetSize,
    },
    /// Nobody could read it.
    #[error("A label of {} by {} mm is too small to read: it takes at least 35 by 18 mm.", mm(*.0), mm(*.1))]
    Small(f64, f64),
}

/// `3 labels of 70 mm with gaps of 2.5 mm and a margin of 5 mm`.
fn labels(count: u32, each: f64, gap: f64, margin: f64) -> String {
    let gap = if gap > 0.0 && count > 1 { format!(" with gaps of {} mm", mm(gap)) } else { String::new() };
    let margin = if margin > 0.0 { format!(" after a margin of {} mm", mm(margin)) } else { String::new() };
    let (labels, take) = if count == 1 { ("label", "takes") } else { ("labels", "take") };
    format!("{count} {labels} of {} mm{gap}{margin} {take}", mm(each))
}

fn mm(length: f64) -> String {
    let text = format!("{length:.1}");
    text.strip_suffix(".0").map(str::to_owned).unwrap_or(text)
}

impl Layout {
    /// From words: a grid (`3x8`, `3 by 8`), a sheet (`a4`, `letter`), and where they are not those of a common cut
    /// sheet the measures of a label, the margins and the gaps, in millimetres or inches: `label 63.5x38.1`, `margin
    /// 7x15`, `gap 2.5x0`, `label 2.625x1 in`.
    ///
    /// # Errors
    /// When something is not understood, or does not fit.
    pub fn parse(words: &str) -> Result<Self, Unfit> {
        let said = read(words)?;
        said.layout()
    }

    /// How many labels a sheet holds.
    pub const fn per_sheet(&self) -> u32 {
        self.columns.saturating_mul(self.rows)
    }

    /// Where the labels of a sheet stand, row by row.
    pub fn places(&self) -> impl Iterator<Item = Place> + '_ {
        (0..self.rows).flat_map(move |row| {
            (0..self.columns).map(move |column| Place {
                x: self.left + f64::from(column) * (self.width + self.gap_x),
                y: self.top + f64::from(row) * (self.height + self.gap_y),
            })
        })
    }

    /// Says what of it does not fit the sheet.
    fn check(self) -> Result<Self, Unfit> {
        let (wide, high) = self.sheet.size();
        let (across, down) = (f64::from(self.columns), f64::from(self.rows));
        let needed = self.left + across * self.width + (across - 1.0) * self.gap_x;
        if needed > wide + SLACK {
            let (count, each, gap, margin) = (self.columns, self.width, self.gap_x, self.left);
            return Err(Unfit::Wide { count, each, gap, margin, needed, there: wide, sheet: self.sheet });
        }
        let needed = self.top + down * self.height + (down - 1.0) * self.gap_y;
        if needed > high + SLACK {
            let (count, each, gap, margin) = (self.rows, self.height, self.gap_y, self.top);
            return Err(Unfit::High { count, each, gap, margin, needed, there: high, sheet: self.sheet });
        }
        if self.width < SMALLEST.0 || self.height < SMALLEST.1 {
            return Err(Unfit::Small(self.width.max(0.0), self.height.max(0.0)));
        }
        Ok(self)
    }
}

/// As [`Layout::parse`] reads it.
impl std::fmt::Display for Layout {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let Self { columns, rows, sheet, .. } = self;
        write!(f, "{columns}x{rows} on {}, labels of {} by {} mm", sheet.as_str(), mm(self.width), mm(self.height))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn a_sheet_is_read_as_people_say_it() -> anyhow::Result<()> {
        for (words, columns, rows, width, height, left, top) in [
            ("3x8 a4", 3, 8, 70.0, 37.0, 0.0, 0.5),
            ("3 by 8 on A4", 3, 8, 70.0, 37.0, 0.0, 0.5),
            ("63.5x38.1", 3, 7, 63.5, 38.1, 7.25, 15.15),
            ("3x10 letter", 3, 10, 66.675, 25.4, 4.7625, 12.7),
            ("label 2.625 x 1 in, letter", 3, 10, 66.675, 25.4, 4.7625, 12.7),
            ("2x2 a5", 2, 2, 66.0, 97.0, 8.0, 8.0),
            ("2x6 a4 margin 10 gap 4", 2, 6, 93.0, 42.833, 10.0, 10.0),
            ("label 80x40 margin 15x12 gap 5x5 letter", 2, 5, 80.0, 40.0, 15.0, 12.0),
        ] {
            let layout = Layout::parse(words)?;
            let near = |a: f64, b: f64| (a - b).abs() < 0.01;
            assert_eq!((layout.columns, layout.rows), (columns, rows), "{words}");
            assert!(near(layout.width, width) && near(layout.height, height), "{words}: {layout:?}");
            assert!(near(layout.left, left) && near(layout.top, top), "{words}: {layout:?}");
        }
        Ok(())
    }

    #[test]
    fn what_does_not_fit_is_named() {
        for (words, says) in [
            ("3x8 label 70x40 a4", "8 labels of 40 mm take 320 mm down, and A4 is 297 mm high."),
            (
                "3x8 label 70x35 margin 5 a4",
                "3 labels of 70 mm after a margin of 5 mm take 215 mm across, and A4 is 210 mm wide.",
            ),
            (
                "2x4 label 110x40 gap 3x0 letter",
                "2 labels of 110 mm with gaps of 3 mm take 223 mm across, and letter is 215.9 mm wide.",
            ),
            ("10x30 a4", "A label of 19.4 by 9.4 mm is too small to read: it takes at least 35 by 18 mm."),
            ("label 300x40", "1 label of 300 mm takes 300 mm across, and A4 is 210 mm wide."),
            ("a4", "How many labels beside and below each other? Say it as '3x8 a4'."),
        ] {
            assert_eq!(Layout::parse(words).map_err(|why| why.to_string()), Err(says.to_owned()), "{words}");
        }
        assert!(matches!(Layout::parse("3x8 on parchment"), Err(Unfit::Word(word)) if word == "parchment"));
        for words in ["0x8 a4", "3x0", "1000x1000 label 1x1", "label 0x0", "nanxnan", "1e9x3", "3x8 label infxinf"] {
            assert!(Layout::parse(words).is_err(), "{words}");
        }
    }

    #[test]
    fn every_common_sheet_fits_its_paper() -> anyhow::Result<()> {
        for preset in PRESETS {
            let words = format!("{}x{} {}", preset.grid.0, preset.grid.1, preset.sheet.as_str());
            let layout = Layout::parse(&words)?;
            assert_eq!((layout.width, layout.height), preset.label, "{words}");
        }
        Ok(())
    }

    proptest! {
        #[test]
        fn labels_that_are_accepted_lie_on_the_sheet_and_not_on_each_other(
            grid in (1u32..12, 1u32..20),
            label in prop::option::of((5.0..150.0f64, 5.0..150.0f64)),
            margin in prop::option::of((0.0..30.0f64, 0.0..30.0f64)),
            gap in prop::option::of((0.0..12.0f64, 0.0..12.0f64)),
            sheet in 0usize..4,
        ) {
            let sheet = SheetSize::ALL[sheet];
            let pair = |name: &str, pair: Option<(f64, f64)>| {
                pair.map(|(x, y)| format!(" {name} {x:.2}x{y:.2}")).unwrap_or_default()
            };
            let words = format!(
                "{}x{} {}{}{}{}",
                grid.0, grid.1, sheet.as_str(), pair("label", label), pair("margin", margin), pair("gap", gap)
            );
            let Ok(layout) = Layout::parse(&words) else { return Ok(()) };
            let places: Vec<Place> = layout.places().collect();
            prop_assert_eq!(places.len(), layout.per_sheet() as usize);
            let (wide, high) = layout.sheet.size();
            for (n, a) in places.iter().enumerate() {
                prop_assert!(a.x >= 0.0 && a.y >= 0.0, "{}", words);
                prop_assert!(a.x + layout.width <= wide + SLACK && a.y + layout.height <= high + SLACK, "{}", words);
                for b in &places[..n] {
                    let apart = (a.x - b.x).abs() >= layout.width - 1e-9 || (a.y - b.y).abs() >= layout.height - 1e-9;
                    prop_assert!(apart, "{}: {:?} on {:?}", words, a, b);
                }
            }
        }

        #[test]
        fn no_words_make_it_stumble(words in "[ -~]{0,40}") {
            let _ = Layout::parse(&words);
        }
    }
}
