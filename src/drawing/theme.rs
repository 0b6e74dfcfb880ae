//! The colours of the two themes.
//!
//! The hues of the marks are those of a palette made to be told apart by the colour-blind (Okabe and Ito 2008, "Color
//! Universal Design": vermillion, blue, bluish green, orange), lightened for the dark page. Text keeps a contrast of at
//! least 4.5 to its page, marks at least 3 (WCAG 2.1, criteria 1.4.3 and 1.4.11); both are checked below.

use serde::{Deserialize, Serialize};

/// Dark marks on a light page, or light ones on a dark page.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default, Serialize, Deserialize, clap::ValueEnum)]
#[serde(rename_all = "lowercase")]
pub enum Theme {
    /// On warm white.
    #[default]
    Light,
    /// On blue black.
    Dark,
}

/// What each part of a page is painted with.
pub(crate) struct Colours {
    /// The page.
    pub(crate) page: &'static str,
    /// Headlines and figures.
    pub(crate) ink: &'static str,
    /// What explains them.
    pub(crate) quiet: &'static str,
    /// Base lines.
    pub(crate) rule: &'static str,
    /// Lines behind the marks.
    pub(crate) grid: &'static str,
    /// Fruit from the garden, and heat.
    pub(crate) red: &'static str,
    /// The freezer, and rest.
    pub(crate) blue: &'static str,
    /// Jars.
    pub(crate) green: &'static str,
    /// What has no colour of its own.
    pub(crate) plain: &'static str,
}

const LIGHT: Colours = Colours {
    page: "#fcfaf5",
    ink: "#1d2129",
    quiet: "#5c626c",
    rule: "#8d8a83",
    grid: "#e6e1d6",
    red: "#d55e00",
    blue: "#0072b2",
    green: "#00805e",
    plain: "#857c6f",
};

const DARK: Colours = Colours {
    page: "#14181f",
    ink: "#f4f1ea",
    quiet: "#aab0ba",
    rule: "#6f7682",
    grid: "#2a303a",
    red: "#f0853e",
    blue: "#56b4e9",
    green: "#2fc196",
    plain: "#8f959f",
};

impl Theme {
    /// What a page is painted with.
    pub(crate) const fn colours(self) -> &'static Colours {
        match self {
            Self::Light => &LIGHT,
            Self::Dark => &DARK,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Relative luminance as WCAG 2.1 defines it.
    fn luminance(colour: &str) -> anyhow::Result<f64> {
        let channel = |at: usize| {
            let value = f64::from(u8::from_str_radix(colour.get(at..at + 2).unwrap_or_default(), 16)?) / 255.0;
            anyhow::Ok(if value <= 0.04045 { value / 12.92 } else { ((value + 0.055) / 1.055).powf(2.4) })
        };
        Ok(0.2126 * channel(1)? + 0.7152 * channel(3)? + 0.0722 * channel(5)?)
    }

    fn contrast(a: &str, b: &str) -> anyhow::Result<f64> {
        let (a, b) = (luminance(a)?, luminance(b)?);
        Ok((a.max(b) + 0.05) / (a.min(b) + 0.05))
    }

    #[test]
    fn text_and_marks_stand_out_from_the_page_in_both_themes() -> anyhow::Result<()> {
        for theme in [Theme::Light, Theme::Dark] {
            let Colours { page, ink, quiet, rule, red, blue, green, plain, .. } = theme.colours();
            for text in [ink, quiet] {
                assert!(contrast(text, page)? >= 4.5, "{theme:?} {text}");
            }
            for mark in [rule, red, blue, green, plain] {
                let contrast = contrast(mark, page)?;
                assert!(contrast >= 3.0, "{theme:?} {mark} {contrast}");
            }
        }
        Ok(())
    }
}
