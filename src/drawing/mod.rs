//! Pictures as PNG: the data of [`picture`](crate::picture) laid out on a page of this program's own design, drawn by a
//! library for vector graphics with the font that lies in `font/`.
//!
//! ```
//! use rackful::drawing::{Theme, WIDTH, draw};
//! use rackful::picture::{Picture, Season, Unit, Week};
//! let week = Week { from: "2026-08-10".parse()?, picked: 23.0, frozen: 14.0, put_up: 7 };
//! let season =
//!     Season { year: 2026, unit: Unit::Pound, weeks: vec![week], open: false, picked: 23.0, frozen: 14.0, put_up: 7 };
//! let drawn = draw(&Picture::Season(season), Theme::Dark, WIDTH)?;
//! assert!(drawn.width == WIDTH && drawn.png.starts_with(b"\x89PNG"));
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! The design, for who adds a picture: a page is [`WIDTH`] units wide and as high as it needs; nothing on it is smaller
//! than `lettering::SMALL`, which is readable on a phone at arm's length. A kicker says what it is, the headline the
//! one figure that matters, the line below what follows from it. Marks are labelled where they stand: there is no
//! legend to look up. Colours come from `theme` alone and never say anything that a label, a shape or a pattern does
//! not say too.
//!
//! Invariants: a picture drawn twice is the same bytes; text never leaves the page; what the household named is cut
//! with an ellipsis before it runs into anything. What is plotted is decided in `picture`, not here.

mod axis;
mod canvas;
mod day;
mod freezer;
mod lettering;
mod pantry;
mod raster;
mod season;
mod theme;

pub use theme::Theme;

pub(crate) use lettering::{FAMILY, Weight, balance, clean, fit, fonts, width, wrap};

use crate::picture::Picture;

/// The width of a page in units, and of a picture in pixels unless another is asked for.
pub const WIDTH: u32 = 1080;

/// A picture, drawn.
#[derive(Clone, PartialEq, Debug)]
pub struct Drawn {
    /// The file.
    pub png: Vec<u8>,
    /// In pixels.
    pub width: u32,
    /// In pixels.
    pub height: u32,
}

/// Why a picture was not drawn.
#[derive(Debug, thiserror::Error)]
pub enum DrawError {
    /// The library did not take the page.
    #[error("the picture could not be drawn: {0}")]
    Page(String),
    /// No picture has that width.
    #[error("a picture is 200 to 4000 pixels wide, not {0}")]
    Width(u32),
}

/// Draws a picture this many pixels wide; its height follows from what is in it.
///
/// # Errors
/// When the width is not between 200 and 4000.
pub fn draw(picture: &Picture, theme: Theme, width: u32) -> Result<Drawn, DrawError> {
    if !(200..=4000).contains(&width) {
        return Err(DrawError::Width(width));
    }
    let page = match picture {
        Picture::Season(season) => season::page(season, theme),
        Picture::Freezer(freezer) => freezer::page(freezer, theme),
        Picture::Pantry(pantry) => pantry::page(pantry, theme),
        Picture::Day(day) => day::page(day, theme),
    };
    raster::png(page, width)
}
