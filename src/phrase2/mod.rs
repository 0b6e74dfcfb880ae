//! Text to statements.

mod build;
pub mod feature;
mod frame;
mod household;
mod item;
pub mod lattice;
mod lex;
mod lexicon;
mod score;
pub mod training;
mod value;

pub use lexicon::Mistake;

use crate::{
    statement::{Statement, Teach},
    vocabulary::Product,
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

/// Debug aid.
pub fn debug(text: &str, context: &Context<'_>) -> String {
    use std::fmt::Write;
    if let Err(e) = check() {
        return e.to_string();
    }
    let language = language();
    let household = Household::new(context.lexicon, &language.words);
    let read = item::items(text, &language.words, &household);
    let mut lattice = lattice::lattice(&read, &language.frames, &household, context, &situation(context, false));
    language.weights.weigh(&mut lattice);
    let mut out = String::new();
    for (n, item) in read.items.iter().enumerate() {
        let _ = write!(out, "{n} {:?} {:?}", read.said(n, n + 1).unwrap_or_default(), item.kind);
        for hit in &item.senses {
            let _ = write!(out, " {}{}", language.words.path(hit.sense), if hit.repaired { "~" } else { "" });
        }
        for v in &item.values {
            let _ = write!(out, " <{v:?}>");
        }
        out.push('\n');
    }
    let _ = writeln!(out, "cuts {:?}", lattice.cuts);
    for e in lattice.edges.iter().filter(|e| e.frame.is_some()) {
        let f = &language.frames.frames[usize::from(e.frame.unwrap())];
        let _ = writeln!(
            out,
            "  {}..{} {} [{}] {} {} {:?}",
            e.from,
            e.to,
            f.name,
            f.triggers[usize::from(e.trigger)].text,
            e.score,
            serde_json::to_string(&e.statements).unwrap(),
            e.made.notes
        );
    }
    for r in score::readings(&lattice).iter().take(4) {
        let s: Vec<&Statement> = score::statements(&lattice, &r.path).collect();
        let _ = writeln!(out, "{:.3} {}", r.probability, serde_json::to_string(&s).unwrap());
    }
    out
}

/// What is known of the household, for the score.
fn situation(context: &Context<'_>, addressed: bool) -> Vec<u8> {
    let lexicon = context.lexicon;
    let mut situation = vec![if lexicon.batches.is_empty() { 1 } else { 0 }];
    if lexicon.unsealed > 0 {
        situation.push(2);
    }
    if lexicon.timer.is_some_and(|timer| timer > context.now) {
        situation.push(3);
    }
    if !lexicon.planned.is_empty() {
        situation.push(4);
    }
    if addressed {
        situation.push(5);
    }
    if lexicon.metric {
        situation.push(7);
    }
    situation
}
