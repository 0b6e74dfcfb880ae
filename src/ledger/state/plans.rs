//! What the household means to do, and what it planted.

use crate::vocabulary::{Crop, Jar, Product};
use chrono::{NaiveDate, NaiveTime};

/// Plants that went into the ground.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Planting {
    /// When.
    pub on: NaiveDate,
    /// How many.
    pub count: u32,
    /// Of which crop.
    pub crop: Crop,
    /// Of which variety, if said.
    pub variety: Option<String>,
    /// Where, if said.
    pub place: Option<String>,
}

impl PlannedDay {
    /// The hour by which the last round is out where none is said: six in the evening (a choice of this program).
    pub const USUAL_END: NaiveTime = match NaiveTime::from_hms_opt(18, 0, 0) {
        Some(time) => time,
        None => NaiveTime::MIN,
    };
}

/// A day that is set for canning.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct PlannedDay {
    /// The day.
    pub day: NaiveDate,
    /// When the last round should be out.
    pub by: NaiveTime,
    /// What is made.
    pub product: Product,
    /// In which jars; the product's usual where none was said.
    pub jar: Option<Jar>,
    /// How many jars; a load where not said.
    pub jars: Option<u32>,
}
