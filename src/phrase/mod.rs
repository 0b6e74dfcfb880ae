//! Text to statements: what a household's message says, in the loose words that people use.
//!
//! ```
//! use rackful::{phrase::{Context, Lexicon, read}, statement::Statement, zone::Zone};
//! let lexicon = Lexicon::default();
//! let now = "2026-08-14T14:05:00Z".parse()?;
//! let zone = Zone::parse("-05:00").ok_or("no zone")?;
//! let context = Context { now, zone, lexicon: &lexicon, last: None };
//! let reading = read("frozr 3 bags at 7lb yest, quaterd", &context);
//! assert_eq!(
//!     serde_json::to_string(&reading.statements)?,
//!     r#"[{"kind":"froze","mass_g":9525.43977,"bags":3,"each_g":3175.14659,"prep":"quartered","on":"2026-08-13"}]"#
//! );
//! assert!(read("my hands are frozen", &context).statements.is_empty());
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! # How a message is read
//!
//! ```text
//! text ─ lex ─▶ tokens ─ lexicon, value ─▶ items ─ lattice (frame, build) ─▶ candidates
//!      ─ score ─▶ readings ─ read, held ─▶ statements
//! ```
//!
//! - [`context`], [`language`], [`household`]: what reading depends on besides the words; the data files, loaded once;
//!   the household's own names.
//! - [`lex`]: letters to tokens with their places in the text.
//! - [`lexicon`]: every sense of every word and name, from `english/`; words that were mistyped or misheard keep all
//!   that they may have been.
//! - [`value`]: numbers, weights, jars, days and times, by a grammar of combinators that heads the module.
//! - [`item`]: a message cut into values, names and words.
//! - [`frame`], [`build`]: for each kind of statement what brings it up and what it takes in; each way to take a
//!   stretch is a candidate.
//! - [`lattice`]: the boundaries between clauses, and all candidates between any two of them, with the features that
//!   speak for and against each.
//! - [`score`]: what the features weigh, the best ways through, and how likely each is.
//! - [`readings`]: all readings of a message, which of them is chosen, and what it leaves unaccounted.
//! - [`safety`], [`thawed`]: illness, spoiled jars, thawed fruit and questions of safety, by rules and before all else.
//! - `acid`, `heat`: what is never read as acid that is in, or as a canner at heat.
//! - [`read`](self::read()): act, propose or silence; [`held`]: the veto of what was not understood; [`discourse`]:
//!   what goes on with the message before; [`answer`]: what answers a question; [`explain`](self::explain()): why.
//!
//! Invariants, which `tests/tidy.rs` checks as far as it can: no English word stands in the code, they are all in
//! `english/`; no two files import each other, not even by others, and nothing imports what stands here; the order of
//! no list decides what is meant; nothing here knows the ledger or the clock; time is linear in the text, and a text
//! over [`LONGEST`] bytes is refused.

#![allow(rustdoc::private_intra_doc_links)] // The head is the map of the folder, for those who work in it.

mod acid;
mod answer;
mod as_tested;
mod assent;
mod build;
mod context;
mod directions;
mod discourse;
mod endings;
mod explain;
pub mod feature;
mod frame;
mod heat;
mod held;
mod household;
mod item;
mod language;
pub mod lattice;
mod left;
mod lex;
mod lexicon;
mod listed;
mod lists;
mod put;
mod read;
mod readings;
mod safety;
mod said;
mod score;
mod tasks;
mod tested;
mod thawed;
pub mod training;
mod value;

pub use context::{Context, LONGEST, Last, Lexicon, Reading, TooLong};
pub use explain::{ClauseExplained, Explained, Explanation, Span};
pub use language::check;
pub use lexicon::Mistake;
pub use tasks::{Example, Task, tasks};

use crate::{
    quantity::Mass,
    statement::{Clarify, Statement},
    vocabulary::{Condition, Crop, Kind},
};

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

/// What stands before the first mark of a message and what behind it: an answer may be followed by more (`lb. And 4 lb
/// of peppers`).
pub fn first_clause(text: &str) -> Option<(&str, &str)> {
    if text.len() > LONGEST { None } else { discourse::first_clause(text) }
}

/// The question about a word of an answer that was not understood, and on which the statement that the answer completes
/// depends.
pub fn held_in(statement: &Statement, answer: &str, context: &Context<'_>) -> Option<Clarify> {
    held::held_in(statement, answer, context)
}

/// Whether an answer takes what was offered (`yes`, `go ahead`), or turns it down; `None` where it does neither.
pub fn assent(answer: &str) -> Option<bool> {
    assent::assent(answer)
}

/// Whether a message tells of somebody who ate or fell ill, for one who knows that a jar was spoiled a short while ago.
pub fn may_be_ill(text: &str) -> bool {
    text.len() <= LONGEST && read::may_be_ill(text)
}

/// Whether a message tells of a jar that was spoiled: of jars thrown away, why.
pub fn is_spoiled(text: &str) -> bool {
    text.len() <= LONGEST && read::is_spoiled(text)
}

/// Whether a message tells of fruit that thaws, or thawed, at room temperature.
pub fn thaws_on_counter(text: &str) -> bool {
    text.len() <= LONGEST && read::thaws_on_counter(text)
}

/// What a message says of the fruit that was picked, where that decides whether it may go into jars.
pub fn conditions(text: &str) -> Vec<Condition> {
    if text.len() > LONGEST { Vec::new() } else { read::conditions(text) }
}

/// Whether a short message says that something is gone, thrown away or used (`tossed it`): for who asked to know.
pub fn rid_of(text: &str) -> Option<Kind> {
    if text.len() > LONGEST { None } else { read::rid_of(text) }
}

/// Whether a message says that something boils, and nothing of pressure: for who has a canner under pressure.
pub fn only_boils(text: &str) -> bool {
    text.len() <= LONGEST && heat::only_boils(text)
}

/// Whether an answer may say no more than that something was heard (`ok`), so that nothing safe rests on it.
pub fn only_heard(answer: &str) -> bool {
    assent::only_heard(answer)
}

/// The nearest example of something that can be said, from the words that were known.
pub fn nearest(text: &str, context: &Context<'_>) -> Option<&'static str> {
    if text.len() > LONGEST { None } else { tasks::nearest(text, language::language(), context) }
}

/// The speaker's own word for a crop in a message (`courgettes`), as written; `None` when it is not named there.
pub fn crop_said(words: &str, crop: Crop) -> Option<&str> {
    (words.len() <= LONGEST).then(|| said::crop_said(words, crop)).flatten()
}

/// The unit of mass last used in some words, for a correction that gives a bare number.
pub fn mass_unit(words: &str) -> Option<Mass> {
    said::last_mass_unit(words)
}
