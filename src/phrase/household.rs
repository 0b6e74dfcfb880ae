//! The names that are a household's own: its recipes, its batches, the assistant's name, and words it taught.

use super::context::Lexicon;
use super::lex::{Lexed, Shape, lex};
use super::lexicon::sense::{Class, Sense};
use super::lexicon::{Hit, Words, is_hyphen};
use crate::statement::Teach;

/// The household's names, taken apart into words.
#[derive(Debug, Default)]
pub(super) struct Household {
    names: Vec<Name>,
    recipes: Vec<String>,
    batches: Vec<String>,
    closed: Vec<String>,
    taught: Vec<Teach>,
}

#[derive(Debug)]
struct Name {
    words: Vec<Box<str>>,
    sense: Sense,
    own: u16,
}

impl Household {
    /// Takes a lexicon apart.
    pub(super) fn new(lexicon: &Lexicon, words: &Words) -> Self {
        let classes = &words.classes;
        let mut household = Self {
            names: Vec::new(),
            recipes: lexicon.recipes.clone(),
            batches: lexicon.batches.iter().chain(&lexicon.closed).cloned().collect(),
            closed: lexicon.closed.clone(),
            taught: lexicon.taught.clone(),
        };
        household.add(&[lexicon.name.as_str()], classes.household_name);
        household.add(&lexicon.recipes, classes.household_recipe);
        let batches = std::mem::take(&mut household.batches);
        household.add(&batches, classes.household_batch);
        household.batches = batches;
        for (own, taught) in lexicon.taught.iter().enumerate() {
            // A thing that no list has is the household's own.
            let sense = words.taught(taught).unwrap_or(Sense(classes.household_word.from));
            household.name(&taught.word, sense, own as u16);
        }
        household
    }

    /// Names of a class; one that another goes on from (`sauce`, beside `sauce 2`) says of neither which.
    fn add(&mut self, names: &[impl AsRef<str>], class: Class) {
        let is_numbered = |longer: &str, name: &str| {
            let rest = longer.strip_prefix(name).and_then(|rest| rest.strip_prefix(' '));
            rest.is_some_and(|rest| rest.chars().all(|c| c.is_ascii_digit()))
        };
        let doubtful = |name: &str| names.iter().any(|other| is_numbered(other.as_ref(), name));
        for (own, name) in names.iter().enumerate().filter(|(_, name)| !doubtful(name.as_ref())) {
            self.name(name.as_ref(), Sense(class.from), own as u16);
        }
    }

    fn name(&mut self, name: &str, sense: Sense, own: u16) {
        let lexed = lex(name);
        let words: Vec<Box<str>> = lexed
            .tokens
            .iter()
            .filter(|token| token.shape == Shape::Word || matches!(token.shape, Shape::Digits(..)))
            .map(|token| lexed.folded(token).into())
            .collect();
        if !words.is_empty() {
            self.names.push(Name { words, sense, own });
        }
    }

    /// Adds the household's names that begin at a token.
    pub(super) fn names_at(&self, lexed: &Lexed, at: usize, out: &mut Vec<Hit>) {
        for name in &self.names {
            if let Some(len) = matches(lexed, at, &name.words) {
                out.push(Hit { len, sense: name.sense, repaired: false, misheard: false, own: name.own });
            }
        }
    }

    /// A recipe by its place.
    pub(super) fn recipe(&self, own: usize) -> Option<&str> {
        self.recipes.get(own).map(String::as_str)
    }

    /// A batch by its place.
    pub(super) fn batch(&self, own: usize) -> Option<&str> {
        self.batches.get(own).map(String::as_str)
    }

    /// What a word means that the household taught and no list has.
    pub(super) fn taught(&self, own: usize) -> Option<&Teach> {
        self.taught.get(own)
    }

    /// The batch that a product's id or name means, where one is called so.
    pub(super) fn batch_named(&self, name: &str) -> Option<String> {
        self.batches.iter().rfind(|batch| *batch == name).cloned()
    }

    /// Whether a batch is open.
    pub(super) fn has_open_batch(&self) -> bool {
        self.batches.len() > self.closed.len()
    }
}

/// How many tokens say these words, hyphens between them apart.
fn matches(lexed: &Lexed, at: usize, words: &[Box<str>]) -> Option<u16> {
    let mut to = at;
    for (n, word) in words.iter().enumerate() {
        if n > 0 && is_hyphen(&lexed.tokens, to) {
            to += 1;
        }
        let token = lexed.tokens.get(to)?;
        if lexed.folded(token) != &**word {
            return None;
        }
        to += 1;
    }
    Some((to - at) as u16)
}
