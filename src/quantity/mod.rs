//! Typed quantities: what a number means is in its type, never in a variable's name.
//!
//! ```
//! use rackful::quantity::{Mass, Number};
//! let bag = Number::new(13, 2).and_then(|number| Mass::POUND.times(number)).ok_or("too large")?; // 6 1/2 lb
//! assert_eq!(bag.as_grams(), 2948.350405);
//! assert_eq!(Some(bag + bag), Mass::POUND.times(Number::whole(13)));
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! [`Mass`], [`Volume`] and [`Length`] count a unit so small that every customary unit is a whole number of
//! it, so sums are exact and a ledger's balance is an equality. Floats appear only when a quantity is
//! printed or written as JSON. [`Temperature`] and [`Pressure`] are never added up and hold a float.
//!
//! Bounds: each exact type holds a little over nine thousand of its large unit (tonnes, cubic metres /
//! 1000, million kilometres); arithmetic that can come from input is checked and says `None`.

#[macro_use]
mod exact;
mod length;
mod mass;
mod number;
mod pressure;
mod temperature;
mod volume;

pub use length::Length;
pub use mass::Mass;
pub use number::Number;
pub use pressure::Pressure;
pub use temperature::Temperature;
pub use volume::Volume;
