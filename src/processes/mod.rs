//! The published tables of home canning as a library: process times, acid, loads, headspace, and where water boils.
//!
//! ```
//! use rackful::processes::{Query, Refusal, lookup};
//! use rackful::quantity::{Length, Number};
//! use rackful::vocabulary::{CannerKind, Jar, Product};
//!
//! let here = Length::FOOT.times(Number::whole(2400));
//! let quarts = Query {
//!     product: &Product::THICK_SAUCE,
//!     pack: None,
//!     jar: Jar::Quart,
//!     canner: CannerKind::Steam,
//!     altitude: here,
//!     pressure: None,
//! };
//! let process = lookup(&quarts).ok().ok_or("no process")?;
//! assert_eq!((process.minutes, process.confirmed_by), (45, 3));
//! assert!(process.source.contains("Guide 3, Standard tomato sauce"));
//!
//! // One band higher the steam canner would run too long in quarts, but not in pints.
//! let up = Length::FOOT.times(Number::whole(3001));
//! let refused = Refusal::TooLongForSteam { minutes: 50, smaller_jar: Some(Jar::Pint) };
//! assert_eq!(lookup(&Query { altitude: up, ..quarts }), Err(refused));
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! The figures are those of the USDA *Complete Guide to Home Canning*, Agriculture Information Bulletin No. 539 (2015),
//! set out as CSV under `tables/`, a source in every row, and embedded in the program.
//!
//! Invariants:
//! - A time is a printed row or there is none: [`lookup`] never interpolates, never takes a smaller jar's time, and
//!   never gives a row that no page was seen to print (`confirmed_by` 0). [`Refusal`] says what would do instead.
//! - A table that cannot be read in full fails a test; at run time a bad row is left out, which is a refusal.
//! - Nothing here knows a household, a batch or a clock: the same question always has the same answer.
//!
//! What people call the products lives in `phrase`; the stages that a time is used in live in `batch`.

mod acid;
mod altitude;
mod catalogue;
mod conditions;
pub mod facts;
mod group;
mod jars;
mod load;
mod lookup;
mod measures;
mod names;
mod recipe;
mod refusal;
pub mod ripening;
mod tables;

pub use acid::{Dose, dose, needs_acid};
pub use altitude::{air_pressure, boiling_point, saturation_temperature};
pub use catalogue::{
    Acidity, Category, ProductInfo, Resolved, family, family_question, family_words, product, products, resolve,
};
pub use conditions::condition;
pub use group::ProductGroup;
pub use jars::JarNote;
pub use load::{Load, headspace, jars_per_load, load};
pub use lookup::{Choice, Process, Query, lookup};
pub use measures::{HarvestWeight, Measure, harvest_measure};
pub use refusal::{Refusal, Untested};
