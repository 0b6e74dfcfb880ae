//! What leaves the program on paper or for other programs' calendars: label sheets and the kitchen card as PDF,
//! occasions as iCalendar.
//!
//! ```
//! use rackful::enclosure::{Label, LabelSheet};
//! use rackful::sheet::Layout;
//! let label = Label {
//!     product: "Jalapeño ketchup".into(),
//!     jar: "pint".into(),
//!     on: "Aug 14, 2026".into(),
//!     batch: Some("batch 3".into()),
//!     best: "best by Aug 2027".into(),
//!     acid: None,
//! };
//! let sheet = LabelSheet { layout: Layout::parse("3x8 a4")?, used: 0, label, count: 9 };
//! assert!(rackful::paper::labels(&sheet)?.starts_with(b"%PDF-"));
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! Invariants: no label has ink outside its own edges; the same calendar gives the same bytes, and they follow RFC
//! 5545. Which label stands where is `sheet`'s, the font is `drawing`'s, tables and JSON lines are `export`'s.

mod calendar;
mod card;
mod labels;
mod page;

pub use calendar::calendar;
pub use card::card;
pub use labels::labels;

/// Why there is no paper.
#[derive(Debug, thiserror::Error)]
pub enum PaperError {
    /// The library did not take a page.
    #[error("the page could not be made: {0}")]
    Page(String),
    /// There is more to say than the sheet holds in letters that can be read.
    #[error("the kitchen card does not fit on {0}; try a larger sheet")]
    Full(&'static str),
    /// More labels than anybody sticks on jars.
    #[error("a sheet is for 1 to 2000 labels, not {0}")]
    Count(u32),
}
