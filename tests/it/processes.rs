//! The process tables against readings of their own.

mod counts;
mod exhaustive;
mod figures;
mod handbook;
mod heat;
mod published;
mod reach;
mod refusals;

use rackful::processes::{Process, Query, Refusal, lookup};
use rackful::quantity::Length;
use rackful::vocabulary::{CannerKind, Jar, Pack, Product};

fn feet(feet: f64) -> Length {
    Length::from_metres(feet * 0.3048).unwrap()
}

/// A lookup without a pressure.
fn ask(id: &'static str, pack: Option<Pack>, jar: Jar, canner: CannerKind, at: f64) -> Result<Process, Refusal> {
    let product = Product::tested(id);
    lookup(&Query { product: &product, pack, jar, canner, altitude: Some(feet(at)), pressure: None })
}
