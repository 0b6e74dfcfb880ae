//! The words that a sheet is told in, and the layout that they make.

use super::{INCH, Layout, PRESETS, Preset, SLACK, SheetSize, Unfit};

/// What was said of a sheet.
#[derive(Default)]
pub(super) struct Said {
    sheet: Option<SheetSize>,
    grid: Option<(u32, u32)>,
    label: Option<(f64, f64)>,
    margin: Option<(f64, f64)>,
    gap: Option<(f64, f64)>,
}

/// What a pair of figures is about.
#[derive(Clone, Copy, PartialEq)]
enum Pair {
    Grid,
    Label,
    Margin,
    Gap,
}

pub(super) fn read(words: &str) -> Result<Said, Unfit> {
    let mut said = Said::default();
    let mut next = None;
    let mut inches = false;
    let spaced = words.to_lowercase().replace(['×', '*'], "x").replace([',', ';'], " ");
    let words: Vec<&str> = spaced.split_whitespace().collect();
    let mut at = 0;
    while let Some(word) = words.get(at) {
        at += 1;
        let (pair, used) = pair_at(&words, at - 1);
        if let Some((first, second)) = pair {
            at += used - 1;
            let about = next.take().unwrap_or(if said.grid.is_none() { Pair::Grid } else { Pair::Label });
            said.set(about, first, second);
            continue;
        }
        match word.trim_end_matches(['.', ':']) {
            "label" | "labels" | "size" => next = Some(Pair::Label),
            "margin" | "margins" => next = Some(Pair::Margin),
            "gap" | "gaps" => next = Some(Pair::Gap),
            "in" | "inch" | "inches" => inches = true,
            "grid" => next = Some(Pair::Grid),
            "mm" | "on" | "of" | "a" | "sheet" | "sheets" | "paper" | "with" | "and" | "each" | "are" => {}
            word => said.sheet = Some(SheetSize::named(word).ok_or_else(|| Unfit::Word(word.to_owned()))?),
        }
    }
    // Measures are all in one unit: nobody mixes them on a sheet.
    if inches {
        for measure in [&mut said.label, &mut said.margin, &mut said.gap].into_iter().flatten() {
            *measure = (measure.0 * INCH, measure.1 * INCH);
        }
    }
    Ok(said)
}

/// Two figures at a word: `3x8`, `3 x 8`, `3 by 8`, `7mm`; a single one counts for both. And how many words they are.
fn pair_at(words: &[&str], at: usize) -> (Option<(f64, f64)>, usize) {
    let figure = |word: &&str| -> Option<f64> {
        let figure = word.trim_end_matches("mm").trim_end_matches("in").trim_end_matches('"');
        figure.parse::<f64>().ok().filter(|figure| (0.0..=1000.0).contains(figure))
    };
    let Some(word) = words.get(at) else { return (None, 0) };
    if let Some((first, second)) = word.split_once('x')
        && let (Some(first), Some(second)) = (figure(&first), figure(&second))
    {
        return (Some((first, second)), 1);
    }
    let Some(first) = figure(word) else { return (None, 0) };
    let joined = words.get(at + 1).is_some_and(|word| matches!(*word, "x" | "by"));
    match words.get(at + 2).and_then(figure).filter(|_| joined) {
        Some(second) => (Some((first, second)), 3),
        None => (Some((first, first)), 1),
    }
}

impl Said {
    fn set(&mut self, about: Pair, first: f64, second: f64) {
        let pair = Some((first, second));
        match about {
            Pair::Label => self.label = pair,
            Pair::Margin => self.margin = pair,
            Pair::Gap => self.gap = pair,
            Pair::Grid => {
                let whole =
                    |figure: f64| (figure.fract() == 0.0 && (1.0..=50.0).contains(&figure)).then_some(figure as u32);
                match (whole(first), whole(second)) {
                    (Some(columns), Some(rows)) => self.grid = Some((columns, rows)),
                    // Nobody has a grid of 63.5 by 38.1: it is the label.
                    _ => self.label = pair,
                }
            }
        }
    }

    pub(super) fn layout(self) -> Result<Layout, Unfit> {
        let sheet = self.sheet.unwrap_or(SheetSize::A4);
        let fits = |preset: &&Preset| {
            let close = |a: (f64, f64), b: (f64, f64)| (a.0 - b.0).abs() < 0.3 && (a.1 - b.1).abs() < 0.3;
            preset.sheet == sheet
                && self.grid.is_none_or(|grid| grid == preset.grid)
                && self.label.is_none_or(|label| close(label, preset.label))
        };
        let told = self.margin.is_some() || self.gap.is_some();
        let known = PRESETS.iter().find(fits).filter(|_| !told && (self.grid.is_some() || self.label.is_some()));
        if let Some(preset) = known {
            return grid(sheet, preset.grid, Some(preset.label), None, Some(preset.gaps)).check();
        }
        let grid_said = match (self.grid, self.label) {
            (Some(grid), _) => grid,
            (None, Some(label)) => self.as_many_as_fit(sheet, label),
            (None, None) => return Err(Unfit::NoGrid),
        };
        grid(sheet, grid_said, self.label, self.margin, self.gap).check()
    }

    /// How many labels of a size go on a sheet: at least one each way, which then says what does not fit.
    fn as_many_as_fit(&self, sheet: SheetSize, label: (f64, f64)) -> (u32, u32) {
        let (wide, high) = sheet.size();
        let (margin, gap) = (self.margin.unwrap_or_default(), self.gap.unwrap_or_default());
        let count =
            |room: f64, each: f64, gap: f64| (((room + gap + SLACK) / (each + gap)).floor() as u32).clamp(1, 50);
        (count(wide - 2.0 * margin.0, label.0, gap.0), count(high - 2.0 * margin.1, label.1, gap.1))
    }
}

/// A grid: labels of a size in the middle of the sheet or after its margins; without a size they fill what the margins
/// leave.
fn grid(
    sheet: SheetSize,
    (columns, rows): (u32, u32),
    label: Option<(f64, f64)>,
    margin: Option<(f64, f64)>,
    gap: Option<(f64, f64)>,
) -> Layout {
    /// Printers leave an edge of the paper white, and scissors want room.
    const MARGIN: (f64, f64) = (8.0, 8.0);
    let (wide, high) = sheet.size();
    let (gap_x, gap_y) = gap.unwrap_or_default();
    let (across, down) = (f64::from(columns), f64::from(rows));
    let (between_x, between_y) = ((across - 1.0) * gap_x, (down - 1.0) * gap_y);
    let (width, height) = label.unwrap_or_else(|| {
        let (left, top) = margin.unwrap_or(MARGIN);
        ((wide - 2.0 * left - between_x) / across, (high - 2.0 * top - between_y) / down)
    });
    let (left, top) = margin.unwrap_or_else(|| {
        (((wide - across * width - between_x) / 2.0).max(0.0), ((high - down * height - between_y) / 2.0).max(0.0))
    });
    Layout { sheet, columns, rows, width, height, left, top, gap_x, gap_y }
}
