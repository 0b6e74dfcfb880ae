//! Settings: a file that explains itself, with the environment over it. Everything has a default that works, so the
//! console needs no settings at all.
//!
//! ```
//! use rackful::config::Config;
//! let config = Config::from_toml("altitude = \"2400 ft\"", "rackful.toml".as_ref())?;
//! assert_eq!(config.altitude.map(|altitude| altitude.as_metres()), Some(731.52));
//! let typo = Config::from_toml("altitud = \"2400 ft\"", "rackful.toml".as_ref()).map_err(|error| error.to_string());
//! assert!(typo.is_err_and(|why| why.starts_with("rackful.toml, line 1, key altitud: unknown field `altitud`")));
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! A key that is not known is an error, not a shrug: a mistyped `allow` must not open the door. Secrets never stand in
//! the file; it names files that hold them, see [`Matrix::credential`]. Which file is read, the command line decides.

mod environment;
mod error;
mod matrix;
mod rehearsal;
mod secret;
mod words;

pub use environment::{Environment, VARIABLES};
pub use error::ConfigError;
pub use matrix::{Allowed, Credential, Matrix};
pub use rehearsal::Rehearsal;
pub use secret::Secret;
pub use words::Units;

use crate::assistant::Defaults;
use crate::clock::{Clock, SystemClock};
use crate::drawing::Theme;
use crate::quantity::Length;
use crate::zone::Zone;
use serde::Deserialize;
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// Where the settings are looked for when the command line names no file.
pub const DEFAULT_FILE: &str = "config/rackful.toml";

/// All settings.
#[derive(Clone, PartialEq, Debug, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Config {
    /// The folder of the store; without one, the user's data directory.
    pub data: Option<PathBuf>,
    /// What `serve` writes to its log, as `tracing` filters.
    #[serde(deserialize_with = "words::filter")]
    pub log: String,
    /// How many daily snapshots of the ledger are kept.
    pub snapshots: usize,
    /// The name it answers to.
    #[serde(deserialize_with = "words::name")]
    pub name: String,
    /// The time zone of rooms that set none.
    pub timezone: Option<Zone>,
    /// The altitude of rooms that set none.
    #[serde(deserialize_with = "words::altitude")]
    pub altitude: Option<Length>,
    /// The units of rooms that set none.
    pub units: Units,
    /// The theme of pictures in rooms that set none.
    pub pictures: Theme,
    /// The homeserver and the account there.
    pub matrix: Matrix,
    /// A clock that runs faster, to rehearse with.
    pub rehearsal: Option<Rehearsal>,
}

impl Default for Config {
    fn default() -> Self {
        Self {
            data: None,
            log: "info,matrix_sdk=warn,matrix_sdk::http_client=off,matrix_sdk_crypto=error".to_owned(),
            snapshots: 14,
            name: "rackful".to_owned(),
            timezone: None,
            altitude: None,
            units: Units::Us,
            pictures: Theme::Light,
            matrix: Matrix::default(),
            rehearsal: None,
        }
    }
}

impl Config {
    /// Reads the file that was named, or else the default one if it is there, and then the environment.
    ///
    /// # Errors
    /// When a named file is not there, or anything in it or in the environment cannot be read.
    pub fn load(named: Option<&Path>, environment: &Environment<'_>) -> Result<Self, ConfigError> {
        let file = named.map(Path::to_owned).or_else(|| environment.path("RACKFUL_CONFIG"));
        let mut config = match file {
            Some(path) => Self::from_file(&path)?,
            None if Path::new(DEFAULT_FILE).exists() => Self::from_file(DEFAULT_FILE.as_ref())?,
            None => Self::default(),
        };
        environment.apply(&mut config)?;
        Ok(config)
    }

    fn from_file(path: &Path) -> Result<Self, ConfigError> {
        let text =
            std::fs::read_to_string(path).map_err(|source| ConfigError::File { path: path.to_owned(), source })?;
        Self::from_toml(&text, path)
    }

    /// Reads settings as TOML; `path` is named in errors.
    ///
    /// # Errors
    /// [`ConfigError::Key`], with the line and the key.
    pub fn from_toml(text: &str, path: &Path) -> Result<Self, ConfigError> {
        let reader = toml::Deserializer::parse(text).map_err(|error| error::at(path, text, None, &error))?;
        serde_path_to_error::deserialize(reader)
            .map_err(|error| error::at(path, text, Some(error.path().to_string()), error.inner()))
    }

    /// The clock that everything goes by.
    pub fn clock(&self) -> Arc<dyn Clock> {
        match &self.rehearsal {
            Some(rehearsal) => Arc::new(rehearsal.clock()),
            None => Arc::new(SystemClock),
        }
    }

    /// What rooms have before anything is said in them.
    pub fn defaults(&self) -> Defaults {
        let Self { timezone, altitude, units, pictures, name, .. } = self;
        Defaults {
            zone: *timezone,
            altitude: *altitude,
            metric: *units == Units::Metric,
            dark_pictures: *pictures == Theme::Dark,
            name: name.clone(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use anyhow::Context as _;

    const SHIPPED: &str = include_str!("../../config/rackful.toml");

    fn read(text: &str) -> Result<Config, String> {
        Config::from_toml(text, "rackful.toml".as_ref()).map_err(|error| error.to_string())
    }

    #[test]
    fn the_shipped_file_states_the_defaults() {
        assert_eq!(read(SHIPPED), Ok(Config::default()));
    }

    #[test]
    fn every_example_in_the_shipped_file_is_right_and_no_key_is_missing() -> anyhow::Result<()> {
        let is_table = |line: &str| line.starts_with("#[") && line.ends_with(']');
        let is_example = |line: &str| {
            is_table(line)
                || line.starts_with('#') && line.trim_start_matches('#').split(" = ").next().is_some_and(is_key)
        };
        let text: String = SHIPPED
            .lines()
            .map(|line| if is_example(line) { line.trim_start_matches('#') } else { line })
            .collect::<Vec<_>>()
            .join("\n");
        // Both ways to log in are shown; only one may be used.
        let config = read(&text).map_err(anyhow::Error::msg)?;
        assert!(config.data.is_some() && config.timezone.is_some() && config.altitude.is_some());
        assert!(config.rehearsal.is_some());
        let Matrix { homeserver, user, password_file, access_token_file, allow, store_passphrase_file, .. } =
            config.matrix;
        assert!(homeserver.is_some() && user.is_some() && password_file.is_some());
        assert!(access_token_file.is_some() && !allow.is_empty() && store_passphrase_file.is_some());
        Ok(())
    }

    fn is_key(word: &str) -> bool {
        !word.is_empty() && word.bytes().all(|b| b.is_ascii_lowercase() || b == b'_')
    }

    #[test]
    fn what_is_wrong_is_named_by_line_and_key() -> anyhow::Result<()> {
        for (text, says) in [
            ("\n[matrix]\nhomserver = \"x\"", "rackful.toml, line 3, key matrix.homserver: unknown field"),
            ("snapshots = \"many\"", "rackful.toml, line 1, key snapshots: invalid type"),
            ("name = 3", "rackful.toml, line 1, key name: invalid type"),
            ("[matrix]\nallow = [\n  \"@ana:example.org\",\n  7,\n]", "line 4, key matrix.allow[1]: invalid type"),
            ("altitude = \"high\"", "line 1, key altitude: 'high' is not an altitude; write \"2400 ft\" or \"730 m\""),
            ("timezone = \"Mars\"", "line 1, key timezone: 'Mars' is not a time zone"),
            ("units = \"stone\"", "line 1, key units: unknown variant `stone`"),
            ("pictures = \"grey\"", "line 1, key pictures: unknown variant `grey`"),
            ("log = \"a=b=c\"", "line 1, key log: 'a=b=c' is not a log filter"),
            (
                "[matrix]\nhomeserver = \"example.org\"",
                "line 2, key matrix.homeserver: 'example.org' is not the address",
            ),
            ("[matrix]\nuser = \"ana\"", "line 2, key matrix.user: 'ana' is not a Matrix user"),
            ("[matrix]\nallow = [\"*\"]", "line 2, key matrix.allow[0]: '*' is neither a user"),
            ("[matrix]\nkey_wait = \"a while\"", "line 2, key matrix.key_wait: 'a while' is no length of time"),
            ("data = \"a\"\ndata = \"b\"", "line 2: duplicate key"),
            (
                "[rehearsal]\nspeed = 0\nfrom = \"2026-08-14T09:00:00Z\"\nshows = \"2026-08-14T09:00:00Z\"",
                "line 2, key rehearsal.speed: a speed of 0 is not between 1 and 3600",
            ),
            ("name = ", "line 1: "),
        ] {
            let error = read(text).err().with_context(|| format!("read: {text}"))?;
            assert!(error.contains(says), "{text}\n{error}\n{says}");
            assert!(!error.contains('\n'), "one line: {error}");
        }
        Ok(())
    }

    #[test]
    fn a_file_that_was_named_must_be_there() -> anyhow::Result<()> {
        let none = Environment::of(&|_| None);
        let error = Config::load(Some("no/such.toml".as_ref()), &none).err().context("there is none")?.to_string();
        assert!(error.starts_with("cannot read the settings in no/such.toml"), "{error}");
        Ok(())
    }
}
