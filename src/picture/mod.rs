//! Pictures of a ledger, as data: what is plotted, in the household's units and its time zone, and a sentence that says
//! the same to who cannot see it. No colours and no pixels: those are `drawing`'s.
//!
//! ```
//! use rackful::{ledger::Ledger, picture, zone::Zone};
//! let now = "2026-08-14T14:05:00Z".parse()?;
//! // Nothing was picked yet: there is nothing to draw, and whoever asked gets a sentence instead.
//! assert_eq!(picture::season(&Ledger::new(Zone::UTC), None, now), None);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! | picture | shows |
//! |---|---|
//! | [`Season`] | picked, frozen and put up, week by week |
//! | [`Freezer`] | the weight of a crop over time, against the line of a load, with what is likely to come |
//! | [`Pantry`] | jars by product and by the month they were put up |
//! | [`Day`] | the day of a batch as a time line, a row for each round |
//!
//! Invariants: a picture is made from entries alone, so the same ledger gives the same picture; every figure in it is
//! the ledger's own or handed in ([`Fan`]), rounded to a thousandth; a picture that would be empty is `None`.

mod day;
mod freezer;
mod history;
mod pantry;
mod season;
mod unit;

pub use day::{Day, Part, Phase, Row, batch, batches, day};
pub use freezer::{Fan, FanDay, Freezer, LoadLine, Stock, freezer};
pub use pantry::{Lots, Month, Pantry, pantry};
pub use season::{Season, Week, season};
pub use unit::Unit;

use serde::{Deserialize, Serialize};

/// A picture.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize)]
#[serde(tag = "picture", rename_all = "snake_case")]
pub enum Picture {
    /// Picked, frozen and put up by week.
    Season(Season),
    /// The freezer over time.
    Freezer(Freezer),
    /// Jars by product and month.
    Pantry(Pantry),
    /// A batch's day.
    Day(Day),
}

impl Picture {
    /// What it shows, in one sentence with its figures.
    pub fn alt(&self) -> String {
        match self {
            Self::Season(season) => season.alt(),
            Self::Freezer(freezer) => freezer.alt(),
            Self::Pantry(pantry) => pantry.alt(),
            Self::Day(day) => day.alt(),
        }
    }

    /// A file name without its ending: what it shows, and of which time.
    pub fn name(&self) -> String {
        match self {
            Self::Season(season) => format!("season-{}", season.year),
            Self::Freezer(freezer) => format!("freezer-{}", freezer.until.date()),
            Self::Pantry(pantry) => format!("pantry-{}", pantry.on),
            Self::Day(day) => format!("batch-{}-{}", day.number, day.began.date()),
        }
    }
}
