//! Everything that is known of the language: words, frames and weights, loaded once.

use super::directions::Directions;
use super::frame::Frames;
use super::lexicon::{Mistake, Words};
use super::score::Weights;
use std::sync::OnceLock;

/// Everything that is known of the language.
#[derive(Debug, Default)]
pub(super) struct Language {
    pub(super) words: Words,
    pub(super) frames: Frames,
    pub(super) weights: Weights,
}

impl Language {
    fn load() -> Result<Self, Mistake> {
        let mut words = Words::load()?;
        let frames = Frames::load(&mut words)?;
        let weights = Weights::load(&frames, &mut words)?;
        Ok(Self { words, frames, weights })
    }
}

/// The language, loaded when it is first needed; with a mistake in its data it knows no word.
pub(super) fn language() -> &'static Language {
    static LANGUAGE: OnceLock<Language> = OnceLock::new();
    LANGUAGE.get_or_init(|| Language::load().unwrap_or_default())
}

/// Whether the data of the language can be read.
pub fn check() -> Result<(), Mistake> {
    Directions::read()?;
    Language::load().map(|_| ())
}
