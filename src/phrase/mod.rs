//! Text to statements: what a household's message says, in the loose words that people use.
//!
//! ```
//! use rackful::{phrase::{Context, Lexicon, read}, statement::Statement, zone::Zone};
//! let lexicon = Lexicon::default();
//! let now = "2026-08-14T14:05:00Z".parse().unwrap();
//! let context = Context { now, zone: Zone::parse("-05:00").unwrap(), lexicon: &lexicon, last: None };
//! let reading = read("frozr 3 bags at 7lb yest, quaterd", &context);
//! assert_eq!(
//!     serde_json::to_string(&reading.statements).unwrap(),
//!     r#"[{"kind":"froze","mass_g":9525.43977,"bags":3,"each_g":3175.14659,"prep":"quartered","on":"2026-08-13"}]"#
//! );
//! assert!(read("my hands are frozen", &context).statements.is_empty());
//! ```
//!
//! # How a message is read
//!
//! ```text
//! text ─ lex ─▶ tokens ─ lexicon, value ─▶ items ─ lattice (frame, build) ─▶ candidates ─ score ─▶ readings ─ read, held ─▶ statements
//! ```
//!
//! - [`lex`]: letters to tokens with their places in the text.
//! - [`lexicon`]: every sense of every word and name, from `english/`; words that were mistyped or misheard keep all that they may have been.
//! - [`value`]: numbers, weights, jars, days and times, by a grammar of combinators that heads the module.
//! - [`item`]: a message cut into values, names and words.
//! - [`frame`], [`build`]: for each kind of statement what brings it up and what it takes in; each way to take a stretch is a candidate.
//! - [`lattice`]: the boundaries between clauses, and all candidates between any two of them, with the features that speak for and against each.
//! - [`score`]: what the features weigh, the best ways through, and how likely each is.
//! - [`read`](self::read()): act, propose or silence; [`held`]: the veto of what was not understood; [`discourse`]: what goes on with the message before;
//!   [`answer`]: what answers a question; [`explain`](self::explain()): why.
//!
//! Invariants: no English word stands in the code, they are all in `english/`; the order of no list decides what is meant; nothing here knows the
//! ledger or the clock; time is linear in the text, and a text over [`LONGEST`] bytes is refused.

mod answer;
mod assent;
mod build;
mod discourse;
mod explain;
pub mod feature;
mod frame;
mod held;
mod household;
mod item;
pub mod lattice;
mod lex;
mod lexicon;
mod read;
mod score;
mod tasks;
pub mod training;
mod value;

pub use explain::{ClauseExplained, Explained, Explanation, Span};
pub use lexicon::Mistake;
pub use tasks::{Example, Task, tasks};

use crate::{
    quantity::Mass,
    statement::{Clarify, Statement, Teach},
    vocabulary::{Crop, Product},
    zone::Zone,
};
use chrono::{DateTime, NaiveDate, Utc};
use household::Household;
use std::sync::OnceLock;

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

/// Everything that is known of the language.
#[derive(Debug, Default)]
struct Language {
    words: lexicon::Words,
    frames: frame::Frames,
    weights: score::Weights,
}

impl Language {
    fn load() -> Result<Self, Mistake> {
        let mut words = lexicon::Words::load()?;
        let frames = frame::Frames::load(&mut words)?;
        let weights = score::Weights::load(&frames, &mut words)?;
        Ok(Self { words, frames, weights })
    }
}

/// The language, loaded when it is first needed; with a mistake in its data it knows no word.
fn language() -> &'static Language {
    static LANGUAGE: OnceLock<Language> = OnceLock::new();
    LANGUAGE.get_or_init(|| Language::load().unwrap_or_default())
}

/// Whether the data of the language can be read.
pub fn check() -> Result<(), Mistake> {
    Language::load().map(|_| ())
}

/// Reads a message.
pub fn read(text: &str, context: &Context<'_>) -> Reading {
    read::read(text, context)
}

/// Why a message is read as it is; nothing where it is too long to be read.
pub fn explain(text: &str, context: &Context<'_>) -> Option<Explanation> {
    (text.len() <= LONGEST).then(|| explain::explain(text, context))
}

/// The answer to a clarifying question completes the pending statement; `None` when it is no answer.
pub fn complete(pending: &Clarify, answer: &str, context: &Context<'_>) -> Option<Vec<Statement>> {
    answer::complete(pending, answer, context)
}

/// What stands before the first mark of a message and what behind it: an answer may be followed by more (`lb. And 4 lb of peppers`).
pub fn first_clause(text: &str) -> Option<(&str, &str)> {
    if text.len() > LONGEST { None } else { discourse::first_clause(text) }
}

/// Whether an answer takes what was offered (`yes`, `go ahead`), or turns it down; `None` where it does neither.
pub fn assent(answer: &str) -> Option<bool> {
    assent::assent(answer)
}

/// The nearest example of something that can be said, from the words that were known.
pub fn nearest(text: &str, context: &Context<'_>) -> Option<&'static str> {
    if text.len() > LONGEST { None } else { tasks::nearest(text, language(), context) }
}

/// The speaker's own word for a crop in a message (`courgettes`), as written; `None` when it is not named there.
pub fn crop_said(words: &str, crop: Crop) -> Option<&str> {
    (words.len() <= LONGEST).then(|| answer::crop_said(words, crop)).flatten()
}

/// The unit of mass last used in some words, for a correction that gives a bare number.
pub fn mass_unit(words: &str) -> Option<Mass> {
    answer::last_mass_unit(words)
}

/// Debug aid.
pub fn debug(text: &str, context: &Context<'_>) -> String {
    use std::fmt::Write;
    if let Err(e) = check() {
        return e.to_string();
    }
    let language = language();
    let household = Household::new(context.lexicon, &language.words);
    let text = item::items(text, &language.words, &household);
    let read = read::Read::new(language, &text, &household, context);
    let mut out = String::new();
    for (n, item) in text.items.iter().enumerate() {
        let _ = write!(out, "{n} {:?} {:?}", text.said(n, n + 1).unwrap_or_default(), item.kind);
        for hit in &item.senses {
            let _ = write!(out, " {}{}", language.words.path(hit.sense), if hit.repaired { "~" } else { "" });
        }
        for v in &item.values {
            let _ = write!(out, " <{v:?}>");
        }
        out.push('\n');
    }
    let _ = writeln!(out, "cuts {:?}", read.lattice.cuts);
    for e in read.lattice.edges.iter().filter(|e| e.frame.is_some()) {
        let f = &language.frames.frames[usize::from(e.frame.unwrap())];
        let _ = writeln!(
            out,
            "  {}..{} {} [{}] {:.2} {} {:?}",
            e.from,
            e.to,
            f.name,
            f.triggers[usize::from(e.trigger)].text,
            e.score,
            serde_json::to_string(&e.statements).unwrap(),
            e.made.notes
        );
    }
    for r in read.readings.iter().take(4) {
        let s: Vec<&Statement> = score::statements(&read.lattice, &r.path).collect();
        let _ = writeln!(out, "{:.3} {}", r.probability, serde_json::to_string(&s).unwrap());
    }
    let r = read.reading(context);
    let _ = writeln!(out, "=> {} unread {:?}", serde_json::to_string(&r.statements).unwrap(), r.unread);
    out
}

/// Debug aid: nanoseconds of each phase.
pub fn phases(text: &str, context: &Context<'_>) -> [u128; 5] {
    let language = language();
    let t = std::time::Instant::now();
    let household = Household::new(context.lexicon, &language.words);
    let a = t.elapsed().as_nanos();
    let text = item::items(text, &language.words, &household);
    let b = t.elapsed().as_nanos();
    let mut lattice = lattice::lattice(&text, &language.frames, &household, context, &read::situation(context, false));
    let c = t.elapsed().as_nanos();
    language.weights.weigh(&mut lattice);
    let d = t.elapsed().as_nanos();
    std::hint::black_box(score::readings(&lattice, &language.frames, &language.weights));
    let e = t.elapsed().as_nanos();
    [a, b - a, c - b, d - c, e - d]
}
