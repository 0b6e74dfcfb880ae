//! What the driver must be told, free of any Matrix library: the configuration fills it in with or without the driver.

use std::sync::Arc;
use std::time::Duration;

/// Whether a user, by full id, may invite the assistant and write to the ledger.
pub type Permits = Arc<dyn Fn(&str) -> bool + Send + Sync>;

/// How to log in, or why that cannot be said.
pub type AskLogIn = Arc<dyn Fn() -> Result<Option<LogIn>, String> + Send + Sync>;

/// The passphrase of the key store if it has one, or why that cannot be said.
pub type AskPassphrase = Arc<dyn Fn() -> Result<Option<String>, String> + Send + Sync>;

/// How to reach the homeserver, as whom, and whom to obey.
#[derive(Clone)]
pub struct MatrixSettings {
    /// The homeserver's address, such as `https://matrix.example.org`.
    pub homeserver: String,
    /// The assistant's own account: `@rackful:example.org`, or `rackful` alone.
    pub user: String,
    /// What the account's list of devices calls this one.
    pub device_name: String,
    /// Asked the first time only: later starts use the kept session, and need no secret.
    pub log_in: AskLogIn,
    /// Who may invite it and write to the ledger. Nobody else may.
    pub permits: Permits,
    /// Asked at each start: the passphrase that locks the keys of encrypted rooms.
    pub passphrase: AskPassphrase,
    /// How long a message that cannot be decrypted waits for its key.
    pub key_wait: Duration,
}

impl MatrixSettings {
    /// With the usual name of the device, no passphrase, and a day's patience for keys.
    pub fn new(homeserver: &str, user: &str, log_in: AskLogIn, permits: Permits) -> Self {
        Self {
            homeserver: homeserver.to_owned(),
            user: user.to_owned(),
            device_name: "Rackful".to_owned(),
            log_in,
            permits,
            passphrase: Arc::new(|| Ok(None)),
            key_wait: Duration::from_secs(24 * 60 * 60),
        }
    }
}

/// What to log in with.
#[derive(Clone, PartialEq, Eq)]
pub enum LogIn {
    /// The account's password.
    Password(String),
    /// The access token of a device that nothing else uses. Which device, the homeserver says.
    AccessToken(String),
}

/// Without the secret.
impl std::fmt::Debug for LogIn {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(match self {
            Self::Password(_) => "Password(…)",
            Self::AccessToken(_) => "AccessToken(…)",
        })
    }
}
