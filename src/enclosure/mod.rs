//! What goes with a message as a file, as data: the edges make bytes of it when it is sent, so that what is kept and exported
//! stays small and readable.
//!
//! ```
//! use rackful::enclosure::Layout;
//! let layout = Layout::parse("3x8 a4").unwrap();
//! assert_eq!((layout.columns, layout.rows), (3, 8));
//! let why = Layout::parse("4x8 label 63.5x38.1 a4").unwrap_err().to_string();
//! assert_eq!(why, "4 labels of 63.5 mm take 254 mm across, and A4 is 210 mm wide.");
//! ```
//!
//! | file | holds | made into bytes by |
//! |---|---|---|
//! | [`Enclosure::Picture`] | what is plotted | `drawing` |
//! | [`Enclosure::Labels`] | a label for each jar of a batch, and the sheet's [`Layout`] | `paper` |
//! | [`Enclosure::Calendar`] | what is due, and when | `paper` |
//! | [`Enclosure::Table`], [`Enclosure::Ledger`] | nothing: they are read off the ledger when they are sent | `export` |
//!
//! Invariants: a [`Layout`] fits its sheet, or there is none.

mod calendar;
mod labels;
mod layout;

pub use calendar::{Calendar, Moment, Occasion};
pub use labels::{Label, LabelSheet};
pub use layout::{Layout, PRESETS, Place, Preset, SheetSize, Unfit};

use crate::picture::Picture;
use crate::vocabulary::Table;
use serde::{Deserialize, Serialize};

/// A file that goes with a message.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize)]
#[serde(tag = "file", rename_all = "snake_case")]
pub enum Enclosure {
    /// A picture.
    Picture {
        /// What is plotted.
        picture: Picture,
        /// On a dark page.
        #[serde(default, skip_serializing_if = "std::ops::Not::not")]
        dark: bool,
    },
    /// A sheet of jar labels.
    Labels(LabelSheet),
    /// What is due.
    Calendar(Calendar),
    /// A table of the room, for a spreadsheet.
    Table {
        /// Which.
        table: Table,
    },
    /// All of the room, as JSON lines.
    Ledger,
}
