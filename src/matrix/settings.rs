//! What the driver must be told, free of any Matrix library: the configuration builds it with or without the driver.

use std::path::PathBuf;

/// How to reach the homeserver, as whom, and whom to obey.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct MatrixSettings {
    /// The homeserver's address, such as `https://matrix.example.org`. Without a scheme `https` is meant.
    pub homeserver: String,
    /// The assistant's own account: `@rackful:example.org`, or `rackful` alone.
    pub user: String,
    /// How to log in the first time. Later starts use the kept session.
    pub credential: Option<Credential>,
    /// Users (`@ana:example.org`) and whole servers (`example.org`) that may invite it and write to the ledger. Nobody
    /// else may.
    pub allow: Vec<String>,
    /// What the account's list of devices calls this one.
    pub device_name: String,
}

/// What to log in with.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Credential {
    /// The account's password.
    Password(SecretSource),
    /// The access token of a device that nothing else uses.
    AccessToken(SecretSource),
}

impl Credential {
    /// Where the secret stands.
    pub fn source(&self) -> &SecretSource {
        match self {
            Self::Password(source) | Self::AccessToken(source) => source,
        }
    }
}

/// Where a secret stands. Never on the command line, where every user of the machine can read it.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum SecretSource {
    /// In a file, on its first line.
    File(PathBuf),
    /// In an environment variable of this name.
    Env(String),
}

impl SecretSource {
    /// Reads it.
    ///
    /// # Errors
    /// When it is not there or empty; the message names the place, never the secret.
    pub fn read(&self) -> Result<Secret, SecretError> {
        let text = match self {
            Self::File(path) => {
                std::fs::read_to_string(path).map_err(|source| SecretError::File { path: path.clone(), source })?
            }
            Self::Env(name) => std::env::var(name).map_err(|_| SecretError::Env(name.clone()))?,
        };
        match text.lines().next().map(str::trim) {
            Some(line) if !line.is_empty() => Ok(Secret(line.to_owned())),
            _ => Err(SecretError::Empty(self.clone())),
        }
    }
}

/// Named by its place.
impl std::fmt::Display for SecretSource {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::File(path) => write!(f, "the file {}", path.display()),
            Self::Env(name) => write!(f, "the environment variable {name}"),
        }
    }
}

/// A password or token; it cannot be printed.
#[derive(Clone, PartialEq, Eq)]
pub struct Secret(String);

impl Secret {
    /// The secret itself, for the one who sends it to the homeserver.
    pub fn reveal(&self) -> &str {
        &self.0
    }
}

impl std::fmt::Debug for Secret {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("Secret(…)")
    }
}

/// A secret that is not where the settings say.
#[derive(Debug, thiserror::Error)]
pub enum SecretError {
    /// The file cannot be read.
    #[error("cannot read the password or token from {path}: {source}; put it there, readable by this user only")]
    File {
        /// Which file.
        path: PathBuf,
        /// Why not.
        source: std::io::Error,
    },
    /// The variable is not set.
    #[error("the environment variable {0} should hold the password or token, but is not set")]
    Env(String),
    /// There is nothing in it.
    #[error("{0} should hold the password or token, but is empty")]
    Empty(SecretSource),
}

/// The people who may use the assistant.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Allow {
    users: Vec<String>,
    servers: Vec<String>,
}

impl Allow {
    /// From the settings' list. Spaces around an entry don't matter, and server names are case-blind.
    ///
    /// ```
    /// use rackful::matrix::settings::Allow;
    /// let allow = Allow::new(&["@ana:example.org".to_owned(), "home.test:8448".to_owned()]);
    /// assert!(allow.permits("@ana:example.org") && allow.permits("@ben:home.test:8448"));
    /// assert!(!allow.permits("@eve:example.org") && !allow.permits("@ana:home.test") && !allow.permits("home.test:8448"));
    /// ```
    pub fn new(entries: &[String]) -> Self {
        let trimmed = entries.iter().map(|entry| entry.trim()).filter(|entry| !entry.is_empty());
        let (users, servers): (Vec<_>, Vec<_>) = trimmed.partition(|entry| entry.starts_with('@'));
        Self {
            users: users.into_iter().map(str::to_owned).collect(),
            servers: servers.into_iter().map(str::to_ascii_lowercase).collect(),
        }
    }

    /// Whether this user, by full id, may invite and write.
    pub fn permits(&self, user: &str) -> bool {
        // The server is all that follows the first colon: it may hold a port.
        let Some((_, server)) = user.strip_prefix('@').and_then(|user| user.split_once(':')) else { return false };
        self.users.iter().any(|allowed| allowed == user)
            || self.servers.iter().any(|allowed| allowed.eq_ignore_ascii_case(server))
    }

    /// Whether nobody at all may use it.
    pub fn is_empty(&self) -> bool {
        self.users.is_empty() && self.servers.is_empty()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_secret_is_a_files_first_line_and_never_printed() {
        let dir = tempfile::tempdir().unwrap();
        let path = dir.path().join("password");
        std::fs::write(&path, "  hunter two \nsecond line\n").unwrap();
        let secret = SecretSource::File(path.clone()).read().unwrap();
        assert_eq!(secret.reveal(), "hunter two");
        assert!(!format!("{secret:?}").contains("hunter"));
        std::fs::write(&path, "\n").unwrap();
        let message = SecretSource::File(path.clone()).read().unwrap_err().to_string();
        assert!(message.contains("empty") && message.contains("password"), "{message}");
        std::fs::remove_file(&path).unwrap();
        let message = SecretSource::File(path).read().unwrap_err().to_string();
        assert!(message.starts_with("cannot read the password or token from"), "{message}");
        let message = SecretSource::Env("RACKFUL_NO_SUCH_VARIABLE".into()).read().unwrap_err().to_string();
        assert!(message.contains("RACKFUL_NO_SUCH_VARIABLE"), "{message}");
    }

    #[test]
    fn an_empty_list_permits_nobody() {
        let allow = Allow::new(&[" ".to_owned()]);
        assert!(allow.is_empty() && !allow.permits("@ana:example.org") && !allow.permits("@ana:"));
    }
}
