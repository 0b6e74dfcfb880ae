//! Text to statements: what a household's message says, in the loose words that people use.
//!
//! ```
//! use rackful::{phrase::{Context, Lexicon, read}, statement::Statement, zone::Zone};
//! let lexicon = Lexicon::default();
//! let now = "2026-08-14T14:05:00Z".parse().unwrap();
//! let context = Context { now, zone: Zone::parse("-05:00").unwrap(), lexicon: &lexicon };
//! let reading = read("frozr 3 bags at 7lb yest, quaterd", &context);
//! assert_eq!(
//!     serde_json::to_string(&reading.statements).unwrap(),
//!     r#"[{"kind":"froze","mass_g":9525.43977,"bags":3,"each_g":3175.14659,"prep":"quartered","on":"2026-08-13"}]"#
//! );
//! assert!(read("my hands are frozen", &context).statements.is_empty());
//! ```
//!
//! # Grammar
//!
//! ```text
//! message   = [ name ] sentence { ( "." | "!" | "?" | ";" | newline ) sentence }
//! sentence  = clause { ( "," | ":" | "/" | "and" | "then" | "but" | "so" | "-" | verb-with-amount | further-amount ) clause }
//! clause    = intent | question | mending | setting | timer | recipe | day | stage | seals | told | talk
//! intent    = a batch's name | a canning day fixed or called off
//! told      = { filler } [ who ] verb { slot } | { slot } verb { slot } | { slot } whereabouts
//! slot      = amount | moment | crop | variety | colour | prep | place | stock | product | jar | canner | supply
//! whereabouts = ( "in" | "into" ) ( "freezer" | "dryer" | "fridge" | "compost" ) | ( "from" | "off" ) place | "out to thaw"
//! amount    : see measure       number : see number       moment : see date
//! ```
//!
//! Each family states its own part at the head of its file: `harvest`, `freezer`, `pantry`, `batch`, `day`, `seals`,
//! `drying`, `supplies`, `plans`, `timers`, `settings`, `asking`, `mending`.
//!
//! `read` goes from sentences to clauses to statements and keeps what was left over; `spoken` reads the tables' own
//! product names back and says which foods stand beside a product.
//!
//! # Where words leave a choice
//!
//! - `put up 7 quarts, 1 didn't seal` is one batch of which six went onto the shelf: `put_up` with `jars` 6 `of` 7. No open
//!   batch could take the unsealed one; what became of it (`and it's in the fridge`) is told on its own.
//! - A batch is named by its number (`batch 2`), by a name of an open one, or by what is made. A name that is a plain word too
//!   (`red`) counts at the head of a clause, beside `batch`, or behind `on the`.
//! - `gas ran out`, `power's out` are a lost heat only while a batch is open: else they are of the car and the house.
//! - Fruit with its weight and nothing else (`12 lb romas`) is silence: picked, bought or wished for, the words do not say.
//! - A weekday of a plan is the next one, today included; `next saturday` is that of the coming week, which begins on Monday.
//!   The hour of `by 5` is in the afternoon up to nine.
//! - A day that no calendar has (`feb 30`) makes its clause silence, never an entry of today.
//! - `skins in the dryer for 8 hours` is two statements: what went in, and a timer for it.
//!
//! # Invariants
//!
//! - One pass each: letters to tokens (`lex`), tokens to chunks (`scan`), chunks of a clause to facts (`facts`); time
//!   is linear in the text, and a text over [`LONGEST`] bytes is refused.
//! - A verb and an amount can no longer be talk: what is missing becomes [`Clarify`]. A verb alone stays silence.
//! - No amount is dropped beside a statement: its clause is a statement, a [`Clarify`], or stands in [`Reading::unread`].
//! - A plan, a condition, a negation, somebody else's doing, a memory or a price is silence (`talk`, `facts`).
//! - Nothing here knows the ledger; the household's names come in as a read-only [`Lexicon`], the clock as
//!   [`Context::now`].

mod answer;
mod asking;
mod batch;
mod build;
mod crop;
mod date;
mod day;
mod drying;
mod examples;
mod facts;
mod fates;
mod freezer;
mod harvest;
mod kinds;
mod lex;
mod measure;
mod mending;
mod number;
mod pantry;
mod plans;
mod product;
mod read;
mod scan;
mod seals;
mod settings;
mod spoken;
mod supplies;
mod talk;
mod timers;
mod token;
mod typo;
mod words;

pub use examples::{TASKS, Task, example};

use crate::{
    quantity::Mass,
    statement::{Clarify, Statement},
    vocabulary::{Crop, Product},
    zone::Zone,
};
use chrono::{DateTime, NaiveDate, Utc};
use token::{Mark, Sense, Token};
use words::Word;

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
            unsealed: 0,
            timer: None,
            planned: Vec::new(),
            usual: Product::THICK_SAUCE,
            metric: false,
        }
    }
}

impl Lexicon {
    /// Names of batches, the open ones first.
    fn batch_names(&self) -> impl Iterator<Item = &String> {
        self.batches.iter().chain(&self.closed)
    }

    /// The open batch of this name, or the only kind of it that a word tells: `corn` of `whole-kernel corn`.
    fn open_batch(&self, word: &str) -> Option<&String> {
        let last = |name: &&String| name.rsplit([' ', '-']).next() == Some(word);
        self.batches.iter().rfind(|name| *name == word).or_else(|| self.batches.iter().rfind(last))
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
    /// What was left over beside them.
    pub unread: String,
    /// Whether the assistant was called by name first.
    pub addressed: bool,
    /// Why nothing was read.
    pub refusal: Option<TooLong>,
}

/// Reads a message.
pub fn read(text: &str, context: &Context<'_>) -> Reading {
    if text.len() > LONGEST {
        return Reading { refusal: Some(TooLong { bytes: text.len() }), ..Reading::default() };
    }
    let mut tokens = lex::lex(text);
    let addressed = address(text, &mut tokens, &context.lexicon.name);
    let mut unread = String::new();
    let statements = read::statements(text, &tokens, context, &mut unread);
    Reading { statements, unread, addressed, refusal: None }
}

/// The answer to a clarifying question completes the pending statement; `None` when it is no answer.
pub fn complete(pending: &Clarify, answer: &str, context: &Context<'_>) -> Option<Vec<Statement>> {
    answer::complete(pending, answer, context)
}

/// The nearest example of something that can be said, from the words that were known.
pub fn nearest(text: &str) -> Option<&'static str> {
    examples::nearest(text)
}

/// The speaker's own word for a crop in a message (`courgettes`), as written; `None` when it is not named there.
pub fn crop_said(words: &str, crop: Crop) -> Option<&str> {
    (words.len() <= LONGEST).then(|| crop::said(words, crop)).flatten()
}

/// The unit of mass last used in some words, for a correction that gives a bare number.
pub fn mass_unit(words: &str) -> Option<Mass> {
    answer::last_mass_unit(words)
}

/// Takes the assistant's name out of the words; says whether it stood first, greetings apart.
fn address(text: &str, tokens: &mut [Token], name: &str) -> bool {
    let is_name = |token: &Token| {
        text.get(token.from as usize..token.to as usize).is_some_and(|word| word.eq_ignore_ascii_case(name))
    };
    let mut addressed = false;
    for at in 0..tokens.len() {
        if !is_name(&tokens[at]) {
            continue;
        }
        addressed |= tokens[..at].iter().all(|t| {
            matches!(t.sense, Sense::Word(Word::Filler | Word::DayPart(_)) | Sense::Mark(_))
                || t.word() == Some(Word::Quality)
        });
        tokens[at].sense = Sense::Word(Word::Filler);
        // The name and the mark behind it are a call, not a clause.
        if let Some(next) = tokens.get_mut(at + 1).filter(|t| t.is_mark(Mark::Colon) || t.is_mark(Mark::Dash)) {
            next.sense = Sense::Mark(Mark::Comma);
        }
    }
    addressed
}
