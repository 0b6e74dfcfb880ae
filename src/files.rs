//! What goes with a message, made into the bytes of a file: the one place that knows which edge makes which.
//!
//! ```
//! use rackful::{assistant::Defaults, desk::Desk, enclosure::Enclosure, files, store::MemoryStore, vocabulary::Table};
//! let desk = Desk::open(Box::new(MemoryStore::default()), Defaults::default())?;
//! let file = files::file(&Enclosure::Table { table: Table::Freezer }, "home", &desk)?;
//! assert_eq!((&*file.name, file.mime), ("freezer.csv", "text/csv"));
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! Invariants: a file of a room holds nothing of another room.

use crate::desk::Desk;
use crate::drawing::{self, DrawError, Theme, WIDTH};
use crate::enclosure::Enclosure;
use crate::export::{self, ExportError, csv};
use crate::paper::{self, PaperError};

/// A file.
#[derive(Clone, PartialEq, Debug)]
pub struct File {
    /// Its name, in letters that every system takes.
    pub name: String,
    /// Its media type.
    pub mime: &'static str,
    /// What is in it.
    pub bytes: Vec<u8>,
    /// Of a picture: what it shows, in a sentence.
    pub alt: Option<String>,
    /// Of a picture: its width and height.
    pub pixels: Option<(u32, u32)>,
}

/// Why there is no file.
#[derive(Debug, thiserror::Error)]
pub enum FileError {
    /// The picture was not drawn.
    #[error(transparent)]
    Draw(#[from] DrawError),
    /// The sheet was not made.
    #[error(transparent)]
    Paper(#[from] PaperError),
    /// The ledger was not read.
    #[error(transparent)]
    Export(#[from] ExportError),
    /// The table was not written.
    #[error("the table could not be written: {0}")]
    Table(#[from] std::io::Error),
}

/// Makes the file that goes with a message in a room.
///
/// # Errors
/// When the store cannot be read, or the data is not what a file can be made of.
pub fn file(enclosure: &Enclosure, room: &str, desk: &Desk) -> Result<File, FileError> {
    match alone(enclosure, room)? {
        Some(file) => Ok(file),
        None => read_off(enclosure, room, desk),
    }
}

/// Makes a file that needs nothing but its data: everything but tables and the ledger.
///
/// # Errors
/// As [`file()`].
pub fn alone(enclosure: &Enclosure, room: &str) -> Result<Option<File>, FileError> {
    let plain = |name: String, mime, bytes| File { name, mime, bytes, alt: None, pixels: None };
    Ok(match enclosure {
        Enclosure::Picture { picture, dark } => {
            let theme = if *dark { Theme::Dark } else { Theme::Light };
            let drawn = drawing::draw(picture, theme, WIDTH)?;
            let (alt, pixels) = (Some(picture.alt()), Some((drawn.width, drawn.height)));
            let name = format!("{}{}.png", picture.name(), if *dark { "-dark" } else { "" });
            Some(File { alt, pixels, ..plain(name, "image/png", drawn.png) })
        }
        Enclosure::Labels(sheet) => {
            let name = format!("labels-{}.pdf", slug(&sheet.label.product));
            Some(plain(name, "application/pdf", paper::labels(sheet)?))
        }
        Enclosure::Calendar(calendar) => {
            Some(plain("due.ics".to_owned(), "text/calendar", paper::calendar(calendar, room)))
        }
        Enclosure::Table { .. } | Enclosure::Ledger => None,
    })
}

fn read_off(enclosure: &Enclosure, room: &str, desk: &Desk) -> Result<File, FileError> {
    let mut bytes = Vec::new();
    let (name, mime) = match enclosure {
        Enclosure::Table { table } => {
            let ledger = desk.assistant().ledger(room);
            csv::write(*table, ledger.map(|ledger| (room, ledger)), &mut bytes)?;
            (format!("{table}.csv"), "text/csv")
        }
        _ => {
            export::export_room(desk.store(), room, &mut bytes)?;
            ("ledger.jsonl".to_owned(), "application/jsonl")
        }
    };
    Ok(File { name, mime, bytes, alt: None, pixels: None })
}

/// Small letters, digits and dashes; at most forty.
fn slug(words: &str) -> String {
    let plain = |c: char| if c.is_ascii_alphanumeric() { c.to_ascii_lowercase() } else { '-' };
    let dashed: String = words.chars().map(plain).collect();
    let parts: Vec<&str> = dashed.split('-').filter(|part| !part.is_empty()).collect();
    let short: String = parts.join("-").chars().take(40).collect();
    let short = short.trim_end_matches('-');
    if short.is_empty() { "jars".to_owned() } else { short.to_owned() }
}
