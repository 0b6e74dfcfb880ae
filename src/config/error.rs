//! What can be wrong with the settings; each says what to do.

use std::path::{Path, PathBuf};

/// What is wrong.
#[derive(Debug, thiserror::Error)]
pub enum ConfigError {
    /// The file cannot be read.
    #[error(
        "cannot read the settings in {path}: {source}; name another file with --config, or none to use the defaults"
    )]
    File {
        /// Which file.
        path: PathBuf,
        /// Why not.
        source: std::io::Error,
    },
    /// Something in the file.
    #[error("{path}, line {line}{key}: {why}; correct it, or remove it to use the default")]
    Key {
        /// Which file.
        path: PathBuf,
        /// Which line, from 1.
        line: usize,
        /// `, key …`, when it is known.
        key: String,
        /// What is wrong.
        why: String,
    },
    /// Something in the environment.
    #[error("the environment variable {name}: {why}; correct it or unset it")]
    Variable {
        /// Which.
        name: &'static str,
        /// What is wrong.
        why: String,
    },
    /// A file that holds a secret.
    #[error("cannot read the secret in {path}: {why}")]
    Secret {
        /// Which file.
        path: PathBuf,
        /// What is wrong, and what to do.
        why: String,
    },
    /// Settings that do not go together, or are missing.
    #[error("{0}")]
    Login(String),
}

/// A reader's error with its place in the file. The reader counts bytes; people count lines.
pub(super) fn at(path: &Path, text: &str, key: Option<String>, error: &toml::de::Error) -> ConfigError {
    let start = error.span().map_or(0, |span| span.start);
    let line = 1 + text.bytes().take(start).filter(|byte| *byte == b'\n').count();
    let key = key.filter(|key| key != ".").map_or_else(String::new, |key| format!(", key {key}"));
    ConfigError::Key { path: path.to_owned(), line, key, why: error.message().replace('\n', ", ") }
}
