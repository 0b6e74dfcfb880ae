//! What goes with a message as a file, as data: the edges make bytes of it when it is sent, so that what is kept and
//! exported stays small and readable.
//!
//! ```
//! use rackful::enclosure::Enclosure;
//! use rackful::vocabulary::Table;
//! let file = serde_json::to_string(&Enclosure::Table { table: Table::Freezer })?;
//! assert_eq!(file, r#"{"file":"table","table":"freezer"}"#);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! | file | holds | made into bytes by |
//! |---|---|---|
//! | [`Enclosure::Picture`] | what is plotted | `drawing` |
//! | [`Enclosure::Labels`] | a label for each jar of a batch, and the sheet's [`Layout`] | `paper` |
//! | [`Enclosure::Calendar`] | what is due, and when | `paper` |
//! | [`Enclosure::Table`], [`Enclosure::Ledger`] | nothing: they are read off the ledger when sent | `export` |
//!
//! Invariants: nothing here is bytes of a file, a colour or a name of the driver's.
//!
//! [`Layout`]: crate::sheet::Layout

mod calendar;
mod labels;

pub use calendar::{Calendar, Moment, Occasion};
pub use labels::{Label, LabelSheet};

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
