//! What can go wrong with a homeserver, and whether it passes.

use crate::store::StoreError;
use matrix_sdk::ruma::api::error::{ErrorKind, FromHttpResponseError};
use matrix_sdk::{Error as SdkError, HttpError};
use std::path::PathBuf;
use std::time::Duration;

/// Why serving ended, and what to do about it.
#[derive(Debug, thiserror::Error)]
pub enum ServeError {
    /// The settings name no way to log in, and no session is kept.
    #[error("no session is kept yet, and the settings name neither a password nor an access token to log in with")]
    NoCredential,
    /// The password or token is not where the settings say.
    #[error("{0}")]
    Secret(String),
    /// The homeserver's address is none.
    #[error("'{address}' is not a homeserver's address ({why}); write it as https://matrix.example.org")]
    Address {
        /// As in the settings.
        address: String,
        /// What is wrong with it.
        why: String,
    },
    /// The homeserver does not know the user by this password or token.
    #[error(
        "{homeserver} does not accept the password or access token of {user} ({why}); \
         correct it where the settings say it stands, and start again"
    )]
    Refused {
        /// The address.
        homeserver: String,
        /// As in the settings.
        user: String,
        /// What the homeserver said.
        why: String,
    },
    /// The kept session is another account's.
    #[error(
        "the session kept in {path} is that of {kept}, but the settings say {wanted}; \
         correct the settings, or move that file away to log in anew"
    )]
    OtherAccount {
        /// The session.
        path: PathBuf,
        /// Whose it is, and where.
        kept: String,
        /// Who is wanted, and where.
        wanted: String,
    },
    /// The access token of the settings is another account's.
    #[error("the access token is that of {found}, but the settings say {wanted}; correct one of them")]
    OtherToken {
        /// Whose it is.
        found: String,
        /// Who is wanted.
        wanted: String,
    },
    /// The homeserver has ended the session.
    #[error("the homeserver has ended the session kept in {0}; move that file away and start again to log in anew")]
    SessionEnded(PathBuf),
    /// A file of the session cannot be written or read.
    #[error("cannot {doing} {path}: {why}")]
    File {
        /// What was tried.
        doing: &'static str,
        /// Which file.
        path: PathBuf,
        /// Why not.
        why: String,
    },
    /// The key store needs its passphrase.
    #[error(
        "the key store is locked with a passphrase, and the settings name none; \
         name its file in matrix.store_passphrase_file"
    )]
    PassphraseMissing,
    /// The key store was made without a passphrase.
    #[error(
        "the key store was made without a passphrase and cannot be locked afterwards; \
         leave matrix.store_passphrase_file out, or move {0} away to begin a new, locked one with a new log-in"
    )]
    PassphraseTooLate(PathBuf),
    /// It is not the key store's passphrase.
    #[error("the passphrase does not open the key store; put the right one where the settings say")]
    Locked,
    /// A word of the call is no room's id.
    #[error("'{0}' is no room's id; write it as !abc:example.org, as the room's settings show it")]
    NotARoom(String),
    /// Nothing is kept for a room.
    #[error("nothing is kept for {room}; kitchens are kept for: {rooms}")]
    NoKitchen {
        /// The room.
        room: String,
        /// Those for which something is kept.
        rooms: String,
    },
    /// The kitchen is there already.
    #[error("this kitchen lives in {0} already")]
    LivesThere(String),
    /// The room has a kitchen.
    #[error(
        "{0} has entries of its own, and two ledgers cannot become one; move to a room in which nothing was said yet"
    )]
    Occupied(String),
    /// Syncing failed in a way that only a new process can mend.
    #[error("the sync with the homeserver failed: {0}; start again, nothing is lost")]
    Sync(String),
    /// The Matrix library refused.
    #[error("cannot {doing}: {why}")]
    Sdk {
        /// What was tried.
        doing: &'static str,
        /// Why not.
        why: String,
    },
    /// The store failed.
    #[error(transparent)]
    Store(#[from] StoreError),
    /// The thread that owns the desk, or a task, is gone.
    #[error("a part of the program has ended unexpectedly; start again, nothing that was answered is lost")]
    DeskGone,
}

/// Whether it is worth trying again.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Trouble {
    /// Nobody there, or too busy: later.
    Passing,
    /// The session is no longer good.
    SessionEnded,
    /// It would fail again.
    Lasting,
}

/// Which kind an error is. Passing are only those where the response, if there was one, was an error response or could
/// not be read: the SDK has taken nothing in.
pub(super) fn trouble(error: &SdkError) -> Trouble {
    match error {
        SdkError::Http(http) => trouble_http(http),
        _ => Trouble::Lasting,
    }
}

/// As [`trouble`], for requests that speak HTTP alone.
pub(super) fn trouble_http(error: &HttpError) -> Trouble {
    match error {
        HttpError::Reqwest(_) => return Trouble::Passing,
        HttpError::Cached(inner) => return trouble_http(inner),
        // A line that garbles, or a proxy's page where the homeserver's words should be.
        HttpError::Api(error) if matches!(**error, FromHttpResponseError::Deserialization(_)) => {
            return Trouble::Passing;
        }
        _ => {}
    }
    match error.client_api_error_kind() {
        Some(ErrorKind::UnknownToken(_) | ErrorKind::MissingToken | ErrorKind::UserDeactivated) => {
            return Trouble::SessionEnded;
        }
        Some(ErrorKind::LimitExceeded(_)) => return Trouble::Passing,
        _ => {}
    }
    // A proxy in front of a homeserver that is down answers 502 to 504, and not in the homeserver's words.
    match error.as_client_api_error() {
        Some(api) if api.status_code.as_u16() == 429 || api.status_code.is_server_error() => Trouble::Passing,
        _ => Trouble::Lasting,
    }
}

/// An error with what caused it: the library's own words often end at "error sending request".
pub(super) fn reasons(error: &dyn std::error::Error) -> String {
    let mut text = error.to_string();
    let mut cause = error.source();
    while let Some(inner) = cause {
        let words = inner.to_string();
        if !text.contains(&words) {
            text.push_str(": ");
            text.push_str(&words);
        }
        cause = inner.source();
    }
    text
}

const SHORTEST: Duration = Duration::from_millis(500);

/// Waiting times that double, from half a second up to a limit.
#[derive(Debug)]
pub(super) struct Backoff {
    next: Duration,
    most: Duration,
}

impl Backoff {
    /// Up to `most`.
    pub(super) fn new(most: Duration) -> Self {
        Self { next: SHORTEST, most }
    }

    /// Waits, longer each time.
    pub(super) async fn wait(&mut self) {
        let now = self.next;
        self.next = (now * 2).min(self.most);
        tokio::time::sleep(now).await;
    }

    /// Whether all went well so far.
    pub(super) fn is_fresh(&self) -> bool {
        self.next == SHORTEST
    }

    /// It went well: begin again with a short wait. Says whether there had been trouble.
    pub(super) fn reset(&mut self) -> bool {
        let waited = !self.is_fresh();
        self.next = SHORTEST;
        waited
    }
}
