//! What reading depends on besides the words, and what comes of it.

use crate::{
    statement::{Statement, Teach},
    vocabulary::Product,
    zone::Zone,
};
use chrono::{DateTime, NaiveDate, Utc};

/// Longest message that is read, in bytes.
pub const LONGEST: usize = 8 * 1024;

/// The household's names; read only.
#[derive(Clone, Debug)]
pub struct Lexicon {
    /// What the assistant is called.
    pub name: String,
    /// Names of the household's recipes, lower case.
    pub recipes: Vec<String>,
    /// Names of open batches.
    pub batches: Vec<String>,
    /// Names of batches that are done: meant where no open one is called so.
    pub closed: Vec<String>,
    /// Words that the household taught.
    pub taught: Vec<Teach>,
    /// How many jars are known not to have sealed and wait for what becomes of them.
    pub unsealed: u32,
    /// When the last kitchen timer rings; before that, `stop` is its.
    pub timer: Option<DateTime<Utc>>,
    /// Canning days that are planned and what for, the next one first; days that are over may be among them.
    pub planned: Vec<(NaiveDate, Product)>,
    /// What the household usually makes.
    pub usual: Product,
    /// Whether a bare degree is Celsius and `8/12` the eighth of December.
    pub metric: bool,
}

impl Default for Lexicon {
    fn default() -> Self {
        Self {
            name: "rackful".to_owned(),
            recipes: Vec::new(),
            batches: Vec::new(),
            closed: Vec::new(),
            taught: Vec::new(),
            unsealed: 0,
            timer: None,
            planned: Vec::new(),
            usual: Product::THICK_SAUCE,
            metric: false,
        }
    }
}

/// What reading depends on besides the words.
#[derive(Clone, Copy, Debug)]
pub struct Context<'a> {
    /// The instant the message was sent.
    pub now: DateTime<Utc>,
    /// The room's time zone.
    pub zone: Zone,
    /// The household's names.
    pub lexicon: &'a Lexicon,
    /// What was entered last, if that is not long ago: what goes on with it needs no deed of its own.
    pub last: Option<Last<'a>>,
}

/// What was said last: by the same person, or by somebody else of the household where that person said nothing of late.
#[derive(Clone, Copy, Debug)]
pub struct Last<'a> {
    /// Whether it was the same person.
    pub own: bool,
    /// The statement.
    pub statement: &'a Statement,
    /// Its words.
    pub words: &'a str,
}

/// A message too long to read.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct TooLong {
    /// How long it is, in bytes.
    pub bytes: usize,
}

/// What a message says.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Reading {
    /// The statements, in the order said; none for talk.
    pub statements: Vec<Statement>,
    /// The words that were left over beside them.
    pub unread: String,
    /// Whether an amount is among those.
    pub figure_left: bool,
    /// Whether the assistant was called by name first.
    pub addressed: bool,
    /// Why nothing was read.
    pub refusal: Option<TooLong>,
}
