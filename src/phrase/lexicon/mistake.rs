//! What is wrong with a data file.

/// A mistake in a data file.
#[derive(Clone, PartialEq, Eq, Debug, thiserror::Error)]
#[error("{file}, line {line}: {what}")]
pub struct Mistake {
    /// The file, below `src/phrase`.
    pub file: &'static str,
    /// The line, from 1; 0 for the file as a whole.
    pub line: usize,
    /// What is wrong with it, and what belongs there.
    pub what: String,
}
