//! The homeserver, the account there, and who may invite.

use super::words::{duration, word};
use super::{ConfigError, Secret};
use serde::{Deserialize, Deserializer};
use std::path::PathBuf;
use std::time::Duration;

/// Settings of the Matrix driver.
#[derive(Clone, PartialEq, Debug, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Matrix {
    /// The homeserver's address, `https://…`.
    #[serde(deserialize_with = "homeserver")]
    pub homeserver: Option<String>,
    /// The assistant's own account, `@rackful:example.org`.
    #[serde(deserialize_with = "user")]
    pub user: Option<String>,
    /// A file that holds the account's password.
    pub password_file: Option<PathBuf>,
    /// A file that holds an access token, instead of a password. Which device it belongs to, the homeserver says.
    pub access_token_file: Option<PathBuf>,
    /// What the device is called in the account's list of sessions.
    pub device_name: String,
    /// Whose invitations are accepted. Empty: nobody's.
    pub allow: Vec<Allowed>,
    /// A file that holds the passphrase of the key store.
    pub store_passphrase_file: Option<PathBuf>,
    /// How long a message that can't be decrypted waits for its key before the room is told.
    #[serde(deserialize_with = "duration")]
    pub key_wait: Duration,
    /// The password, from the environment alone.
    #[serde(skip)]
    pub password: Option<Secret>,
    /// The access token, from the environment alone.
    #[serde(skip)]
    pub access_token: Option<Secret>,
    /// The key store's passphrase, from the environment alone.
    #[serde(skip)]
    pub store_passphrase: Option<Secret>,
}

impl Default for Matrix {
    fn default() -> Self {
        Self {
            homeserver: None,
            user: None,
            password_file: None,
            access_token_file: None,
            device_name: "Rackful".to_owned(),
            allow: Vec::new(),
            store_passphrase_file: None,
            key_wait: Duration::from_secs(24 * 60 * 60),
            password: None,
            access_token: None,
            store_passphrase: None,
        }
    }
}

/// How to log in.
#[derive(Clone, PartialEq, Debug)]
pub enum Credential {
    /// With the account's password.
    Password(Secret),
    /// With an access token that was made elsewhere.
    AccessToken(Secret),
}

impl Matrix {
    /// How to log in, read from the environment or from its file; `None` when nothing is named, which is enough once a
    /// session is kept.
    ///
    /// # Errors
    /// When the file cannot be read or is open to others, and when both ways are named.
    pub fn credential(&self) -> Result<Option<Credential>, ConfigError> {
        let password = secret(self.password.as_ref(), self.password_file.as_ref())?;
        let token = secret(self.access_token.as_ref(), self.access_token_file.as_ref())?;
        match (password, token) {
            (Some(_), Some(_)) => Err(ConfigError::Login(
                "both a password and an access token are set; keep one of them and remove the other".to_owned(),
            )),
            (Some(password), None) => Ok(Some(Credential::Password(password))),
            (None, Some(token)) => Ok(Some(Credential::AccessToken(token))),
            (None, None) => Ok(None),
        }
    }

    /// The passphrase of the key store, read from the environment or from its file; `None` when none is named.
    ///
    /// # Errors
    /// When the file cannot be read or is open to others.
    pub fn passphrase(&self) -> Result<Option<Secret>, ConfigError> {
        secret(self.store_passphrase.as_ref(), self.store_passphrase_file.as_ref())
    }

    /// What is still missing before it can serve, each with what to do; how to log in not counted.
    pub fn missing(&self) -> Vec<String> {
        let needed = [
            (self.homeserver.is_none(), "matrix.homeserver", "RACKFUL_HOMESERVER", "the homeserver's address"),
            (self.user.is_none(), "matrix.user", "RACKFUL_USER", "the assistant's own account"),
            (self.allow.is_empty(), "matrix.allow", "RACKFUL_ALLOW", "the users or servers that may invite it"),
        ];
        let lacking = needed.into_iter().filter(|(lacks, ..)| *lacks);
        lacking.map(|(_, key, variable, what)| format!("{key} is not set; set it, or {variable}, to {what}")).collect()
    }

    /// Whether this user's invitations are accepted.
    pub fn allows(&self, user: &str) -> bool {
        self.allow.iter().any(|allowed| allowed.includes(user))
    }
}

fn secret(value: Option<&Secret>, file: Option<&PathBuf>) -> Result<Option<Secret>, ConfigError> {
    match (value, file) {
        (Some(secret), _) => Ok(Some(secret.clone())),
        (None, Some(path)) => Secret::from_file(path).map(Some),
        (None, None) => Ok(None),
    }
}

/// Who may invite: one user, or everybody on a server.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Allowed {
    /// `@ana:example.org`.
    User(String),
    /// `example.org`.
    Server(String),
}

impl Allowed {
    /// From its written form.
    pub(super) fn parse(word: &str) -> Result<Self, String> {
        if is_user(word) {
            return Ok(Self::User(word.to_owned()));
        }
        if is_server(word) {
            return Ok(Self::Server(word.to_owned()));
        }
        Err(format!("'{word}' is neither a user such as @ana:example.org nor a server such as example.org"))
    }

    fn includes(&self, user: &str) -> bool {
        match self {
            Self::User(allowed) => allowed == user,
            Self::Server(server) => {
                is_user(user) && user.split_once(':').is_some_and(|(_, of)| of.eq_ignore_ascii_case(server))
            }
        }
    }
}

impl<'de> Deserialize<'de> for Allowed {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        word(from, Self::parse)
    }
}

/// The shape of a user's id; whether there is such a user, the homeserver knows.
fn is_user(word: &str) -> bool {
    word.strip_prefix('@')
        .and_then(|rest| rest.split_once(':'))
        .is_some_and(|(name, server)| !name.is_empty() && !name.contains(char::is_whitespace) && is_server(server))
}

/// The shape of a server's name, with its port if it has one.
fn is_server(word: &str) -> bool {
    let plain = |c: char| c.is_ascii_alphanumeric() || ".-:[]".contains(c);
    word.starts_with(|c: char| c.is_ascii_alphanumeric() || c == '[') && word.chars().all(plain)
}

pub(super) fn parse_homeserver(text: &str) -> Result<String, String> {
    let rest = text.strip_prefix("https://").or_else(|| text.strip_prefix("http://"));
    match rest.map(|rest| rest.trim_end_matches('/')) {
        Some(rest) if !rest.is_empty() && !rest.contains(char::is_whitespace) => {
            Ok(text.trim_end_matches('/').to_owned())
        }
        _ => Err(format!(
            "'{text}' is not the address of a homeserver; write it in full, as in https://matrix.example.org"
        )),
    }
}

pub(super) fn parse_user(text: &str) -> Result<String, String> {
    if is_user(text) {
        Ok(text.to_owned())
    } else {
        Err(format!("'{text}' is not a Matrix user; write it in full, as in @rackful:example.org"))
    }
}

fn homeserver<'de, D: Deserializer<'de>>(from: D) -> Result<Option<String>, D::Error> {
    word(from, parse_homeserver).map(Some)
}

fn user<'de, D: Deserializer<'de>>(from: D) -> Result<Option<String>, D::Error> {
    word(from, parse_user).map(Some)
}

#[cfg(test)]
mod tests {
    use super::*;
    use anyhow::Context as _;

    #[test]
    fn nobody_is_allowed_until_named_and_a_server_means_all_of_its_users() -> anyhow::Result<()> {
        let mut matrix = Matrix::default();
        assert!(!matrix.allows("@ana:example.org"));
        let allowed = ["@ana:example.org", "example.net"].into_iter().map(Allowed::parse);
        matrix.allow = allowed.collect::<Result<_, _>>().map_err(anyhow::Error::msg)?;
        for (user, allowed) in [
            ("@ana:example.org", true),
            ("@ben:example.org", false),
            ("@ben:example.net", true),
            ("@ben:Example.NET", true),
            ("@ben:evil.example.net", false),
            ("@ben:example.net.evil.org", false),
            ("@ben:evil.org:example.net", false),
            ("example.net", false),
        ] {
            assert_eq!(matrix.allows(user), allowed, "{user}");
        }
        Ok(())
    }

    #[test]
    fn a_password_and_a_token_together_are_refused() -> anyhow::Result<()> {
        let one = Some(Secret::new("x"));
        let both = Matrix { password: one.clone(), access_token: one.clone(), ..Matrix::default() };
        let refused = both.credential().err().context("both were taken")?;
        assert!(refused.to_string().contains("keep one of them"));
        let token = Matrix { access_token: one, ..Matrix::default() };
        assert_eq!(token.credential()?, Some(Credential::AccessToken(Secret::new("x"))));
        Ok(())
    }
}
