//! Text to statements.

use crate::quantity::Mass;
use crate::statement::{Clarify, Statement};
use crate::vocabulary::Product;
use crate::zone::Zone;
use chrono::{DateTime, Utc};

/// Household names.
#[derive(Clone, Debug)]
pub struct Lexicon {
    /// The assistant's name.
    pub name: String,
    /// Recipes.
    pub recipes: Vec<String>,
    /// Batches.
    pub batches: Vec<String>,
    /// The usual product.
    pub usual: Product,
    /// Metric.
    pub metric: bool,
}

impl Default for Lexicon {
    fn default() -> Self {
        Self {
            name: "rackful".to_owned(),
            recipes: Vec::new(),
            batches: Vec::new(),
            usual: Product::THICK_SAUCE,
            metric: false,
        }
    }
}

/// What words are read against.
#[derive(Clone, Copy, Debug)]
pub struct Context<'a> {
    /// Now.
    pub now: DateTime<Utc>,
    /// The room's zone.
    pub zone: Zone,
    /// Names.
    pub lexicon: &'a Lexicon,
}

/// Too long.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TooLong;

/// What was read.
#[derive(Clone, Debug, Default)]
pub struct Reading {
    /// Statements.
    pub statements: Vec<Statement>,
    /// The rest.
    pub unread: String,
    /// By name.
    pub addressed: bool,
    /// Refused.
    pub refusal: Option<TooLong>,
}

/// Reads.
pub fn read(text: &str, context: &Context<'_>) -> Reading {
    let _ = (text, context);
    Reading::default()
}

/// Completes.
pub fn complete(pending: &Clarify, answer: &str, context: &Context<'_>) -> Option<Vec<Statement>> {
    let _ = (pending, answer, context);
    None
}

/// Nearest.
pub fn nearest(text: &str) -> Option<&'static str> {
    let _ = text;
    None
}

/// Unit.
pub fn mass_unit(words: &str) -> Option<Mass> {
    let _ = words;
    None
}
