//! What the driver must be told, free of any Matrix library: the configuration fills it in with or without the driver.

use std::sync::Arc;

/// Whether a user, by full id, may invite the assistant and write to the ledger.
pub type Permits = Arc<dyn Fn(&str) -> bool + Send + Sync>;

/// How to log in, or why that cannot be said.
pub type AskLogIn = Arc<dyn Fn() -> Result<Option<LogIn>, String> + Send + Sync>;

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
