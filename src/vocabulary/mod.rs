//! The trade's closed words: each is an enum (or a table) with one written form, the one that `--json`, the
//! journal and the replay output use.
//!
//! ```
//! use rackful::vocabulary::{Jar, CannerKind};
//! assert_eq!(Jar::PintAndHalf.as_str(), "pint-and-half");
//! assert_eq!(CannerKind::named("steam"), Some(CannerKind::Steam));
//! ```
//!
//! What people *call* these things (plurals, dialect, misspellings) lives in `phrase`; what the tables say about
//! them lives in `processes`. Nothing here knows a figure, except a jar's own size.

#[macro_use]
mod words;
mod canner;
mod crop;
mod crop_name;
mod jar;
mod kind;
mod mishap;
mod product;
mod ripening;
mod safety;
mod stage;
mod stores;
mod subjects;

pub use canner::{CannerKind, Pack};
pub use crop::Crop;
pub use crop_name::CropName;
pub use jar::Jar;
pub use kind::Kind;
pub use mishap::Mishap;
pub use product::Product;
pub use ripening::{Prep, Ripeness};
pub use safety::{Condition, Matter, Sign};
pub use stage::Stage;
pub use stores::{Acid, Stock, Supply, Taught, Whole};
pub use subjects::{Missing, SettingKey, Subject, Table};
