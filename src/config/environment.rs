//! The environment's word over the file's.

use super::matrix::{parse_homeserver, parse_user};
use super::words::{Units, parse_altitude, parse_duration, parse_filter, parse_name, parse_theme};
use super::{Allowed, Config, ConfigError, Secret};
use crate::zone::Zone;
use std::ffi::OsString;
use std::path::PathBuf;

/// Every variable that is read, with what it sets. The list is the documentation; a test compares the settings file
/// with it.
pub const VARIABLES: &[(&str, &str)] = &[
    ("RACKFUL_CONFIG", "the settings file"),
    ("RACKFUL_DATA", "data"),
    ("RACKFUL_LOG", "log, of every command"),
    ("RACKFUL_SNAPSHOTS", "snapshots"),
    ("RACKFUL_NAME", "name"),
    ("RACKFUL_TIMEZONE", "timezone"),
    ("RACKFUL_ALTITUDE", "altitude"),
    ("RACKFUL_UNITS", "units"),
    ("RACKFUL_PICTURES", "pictures"),
    ("RACKFUL_HOMESERVER", "matrix.homeserver"),
    ("RACKFUL_USER", "matrix.user"),
    ("RACKFUL_PASSWORD", "the password itself"),
    ("RACKFUL_PASSWORD_FILE", "matrix.password_file"),
    ("RACKFUL_ACCESS_TOKEN", "the access token itself"),
    ("RACKFUL_ACCESS_TOKEN_FILE", "matrix.access_token_file"),
    ("RACKFUL_DEVICE_NAME", "matrix.device_name"),
    ("RACKFUL_ALLOW", "matrix.allow, separated by commas"),
    ("RACKFUL_STORE_PASSPHRASE", "the passphrase of the key store itself"),
    ("RACKFUL_STORE_PASSPHRASE_FILE", "matrix.store_passphrase_file"),
    ("RACKFUL_KEY_WAIT", "matrix.key_wait"),
];

/// Where variables are looked up: the process's, or a test's own. An empty variable counts as not set.
pub struct Environment<'a> {
    get: &'a dyn Fn(&str) -> Option<OsString>,
}

impl<'a> Environment<'a> {
    /// With this lookup.
    pub fn of(get: &'a dyn Fn(&str) -> Option<OsString>) -> Self {
        Self { get }
    }

    /// A variable that names a file or folder.
    pub fn path(&self, name: &str) -> Option<PathBuf> {
        (self.get)(name).filter(|value| !value.is_empty()).map(PathBuf::from)
    }

    /// A variable that is text.
    fn text(&self, name: &'static str) -> Result<Option<String>, ConfigError> {
        match (self.get)(name).filter(|value| !value.is_empty()).map(OsString::into_string) {
            None => Ok(None),
            Some(Ok(text)) => Ok(Some(text)),
            Some(Err(_)) => Err(ConfigError::Variable { name, why: "it is not valid UTF-8".to_owned() }),
        }
    }

    /// A variable that is text with a meaning, put where it belongs if it is set.
    fn set<T>(
        &self,
        name: &'static str,
        to: &mut T,
        parse: impl FnOnce(&str) -> Result<T, String>,
    ) -> Result<(), ConfigError> {
        if let Some(text) = self.text(name)? {
            *to = parse(&text).map_err(|why| ConfigError::Variable { name, why })?;
        }
        Ok(())
    }

    /// Sets what the environment sets.
    ///
    /// # Errors
    /// When a variable cannot be read; it is named.
    pub fn apply(&self, config: &mut Config) -> Result<(), ConfigError> {
        let zone = |text: &str| Zone::parse(text).ok_or_else(|| format!("'{text}' is not a time zone"));
        if let Some(data) = self.path("RACKFUL_DATA") {
            config.data = Some(data);
        }
        self.set("RACKFUL_LOG", &mut config.log, parse_filter)?;
        self.set("RACKFUL_SNAPSHOTS", &mut config.snapshots, |text| {
            text.parse().map_err(|_| format!("'{text}' is no number of snapshots; write one such as 14, or 0 for none"))
        })?;
        self.set("RACKFUL_NAME", &mut config.name, parse_name)?;
        self.set("RACKFUL_TIMEZONE", &mut config.timezone, |text| zone(text).map(Some))?;
        self.set("RACKFUL_ALTITUDE", &mut config.altitude, |text| parse_altitude(text).map(Some))?;
        self.set("RACKFUL_UNITS", &mut config.units, Units::parse)?;
        self.set("RACKFUL_PICTURES", &mut config.pictures, parse_theme)?;
        let matrix = &mut config.matrix;
        self.set("RACKFUL_HOMESERVER", &mut matrix.homeserver, |text| parse_homeserver(text).map(Some))?;
        self.set("RACKFUL_USER", &mut matrix.user, |text| parse_user(text).map(Some))?;
        self.set("RACKFUL_DEVICE_NAME", &mut matrix.device_name, |text| Ok(text.to_owned()))?;
        self.set("RACKFUL_ALLOW", &mut matrix.allow, |text| {
            text.split(',').map(str::trim).filter(|word| !word.is_empty()).map(Allowed::parse).collect()
        })?;
        self.set("RACKFUL_KEY_WAIT", &mut matrix.key_wait, parse_duration)?;
        let passphrase = self.text("RACKFUL_STORE_PASSPHRASE")?.map(|text| Secret::new(&text));
        let passphrase_file = self.path("RACKFUL_STORE_PASSPHRASE_FILE");
        if passphrase.is_some() || passphrase_file.is_some() {
            matrix.store_passphrase = passphrase;
            matrix.store_passphrase_file = passphrase_file;
        }
        self.log_in(matrix)
    }

    /// A way to log in that the environment names replaces the file's, whichever that was.
    fn log_in(&self, matrix: &mut super::Matrix) -> Result<(), ConfigError> {
        let password = self.text("RACKFUL_PASSWORD")?.map(|text| Secret::new(&text));
        let access_token = self.text("RACKFUL_ACCESS_TOKEN")?.map(|text| Secret::new(&text));
        let password_file = self.path("RACKFUL_PASSWORD_FILE");
        let access_token_file = self.path("RACKFUL_ACCESS_TOKEN_FILE");
        if password.is_some() || access_token.is_some() || password_file.is_some() || access_token_file.is_some() {
            matrix.password = password;
            matrix.access_token = access_token;
            matrix.password_file = password_file;
            matrix.access_token_file = access_token_file;
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::config::Credential;
    use anyhow::Context as _;
    use std::collections::BTreeMap;

    fn with(variables: &[(&'static str, &str)]) -> anyhow::Result<Config> {
        let variables: BTreeMap<_, _> = variables.iter().map(|(name, value)| (*name, OsString::from(value))).collect();
        let get = |name: &str| variables.get(name).cloned();
        let file = "[matrix]\npassword_file = \"from-the-file\"\nuser = \"@old:example.org\"\n";
        let mut config = Config::from_toml(file, "x.toml".as_ref())?;
        Environment::of(&get).apply(&mut config)?;
        Ok(config)
    }

    #[test]
    fn a_variable_wins_over_the_file_and_an_empty_one_does_not() -> anyhow::Result<()> {
        let config = with(&[("RACKFUL_USER", "@new:example.org"), ("RACKFUL_ALTITUDE", "730 m")])?;
        assert_eq!(config.matrix.user.as_deref(), Some("@new:example.org"));
        assert_eq!(config.altitude.map(|altitude| altitude.as_metres()), Some(730.0));
        assert_eq!(with(&[("RACKFUL_USER", "")])?.matrix.user.as_deref(), Some("@old:example.org"));
        let allow = with(&[("RACKFUL_ALLOW", "@ana:example.org, example.net")])?.matrix;
        assert!(
            allow.allows("@ana:example.org") && allow.allows("@ben:example.net") && !allow.allows("@x:example.org")
        );
        Ok(())
    }

    #[test]
    fn a_token_in_the_environment_replaces_a_password_in_the_file() -> anyhow::Result<()> {
        let matrix = with(&[("RACKFUL_ACCESS_TOKEN", "t")])?.matrix;
        assert_eq!(matrix.credential()?, Some(Credential::AccessToken(Secret::new("t"))));
        Ok(())
    }

    #[test]
    fn what_is_wrong_is_named_by_its_variable() -> anyhow::Result<()> {
        let error = with(&[("RACKFUL_ALTITUDE", "up")]).err().context("up is an altitude")?.to_string();
        assert!(error.starts_with("the environment variable RACKFUL_ALTITUDE: 'up' is not an altitude"), "{error}");
        Ok(())
    }

    #[test]
    fn every_variable_is_explained_in_the_settings_file() {
        let shipped = include_str!("../../config/rackful.toml");
        for (name, _) in VARIABLES {
            let named = shipped.split(|c: char| !c.is_ascii_uppercase() && c != '_').any(|word| word == *name);
            assert!(named, "{name} is missing from config/rackful.toml");
        }
    }
}
