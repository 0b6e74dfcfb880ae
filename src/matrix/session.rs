//! The account's session: logged in once, kept in a file beside the SDK's store, restored ever after. Transaction ids
//! and encryption keys belong to the device, so a new log-in is a loss and never happens by itself.

use super::kept::{Kept, make_folder, private_file, recovery_file, session_file, set_aside};
use super::settings::{LogIn, MatrixSettings};
use super::trouble::{Backoff, ServeError, Trouble, reasons, trouble, trouble_http};
use matrix_sdk::authentication::matrix::MatrixSession;
use matrix_sdk::encryption::{BackupDownloadStrategy, EncryptionSettings};
use matrix_sdk::reqwest::Url;
use matrix_sdk::ruma::{OwnedDeviceId, OwnedUserId, UserId};
use matrix_sdk::store::{RoomLoadSettings, StateStoreDataKey};
use matrix_sdk::{Client, ClientBuildError, ClientBuilder, SessionMeta, SessionTokens};
use std::path::Path;
use std::time::Duration;

/// Says whether [`serve`](super::serve) would have what it needs to log in: a kept session of the right account, or a
/// secret to read; and what an operator should know about the keys of encrypted rooms, a line each. Asks no network and
/// changes nothing.
///
/// # Errors
/// What serving would end with.
pub fn check(settings: &MatrixSettings, data: &Path) -> Result<Vec<String>, ServeError> {
    let address = address(settings);
    address.parse::<Url>().map_err(|why| bad_address(settings, why.to_string()))?;
    let passphrase = ask_passphrase(settings)?;
    match Kept::read(&session_file(data))? {
        Some(kept) => {
            same_account(settings, &kept.session, &session_file(data))?;
            kept.fits(passphrase.as_deref(), &session_file(data))?;
        }
        None => drop(ask_log_in(settings)?),
    }
    let mut told = Vec::new();
    let recovery = recovery_file(data);
    if recovery.exists() {
        private_file(&recovery)?;
        told.push(format!("recovery key: in {}; keep a copy elsewhere", recovery.display()));
    } else {
        told.push(format!("recovery key: to be made at the first start, in {}", recovery.display()));
    }
    told.push(match passphrase {
        Some(_) => "key store: locked with a passphrase".to_owned(),
        None => "key store: not locked; matrix.store_passphrase_file would lock it".to_owned(),
    });
    Ok(told)
}

/// A client with the account's session: the kept one, or a new one when none is kept. A homeserver that can't be
/// reached is tried again until it can.
pub(super) async fn open(settings: &MatrixSettings, data: &Path) -> Result<Client, ServeError> {
    let file = session_file(data);
    let folder = data.join("matrix");
    let sdk = folder.join("sdk");
    let passphrase = ask_passphrase(settings)?;
    let store = || client(settings).sqlite_store(&sdk, passphrase.as_deref());
    if let Some(kept) = Kept::read(&file)? {
        same_account(settings, &kept.session, &file)?;
        kept.fits(passphrase.as_deref(), &file)?;
        let client = build(settings, store()).await?;
        return restore(client, kept.session).await;
    }
    let with = ask_log_in(settings)?;
    make_folder(&folder)?;
    set_aside(&sdk)?;
    let built = build(settings, store()).await?;
    let locked = passphrase.is_some();
    match with {
        LogIn::Password(password) => {
            log_in(settings, &built, &password).await?;
            let session = built
                .matrix_auth()
                .session()
                .ok_or_else(|| ServeError::Sdk { doing: "log in", why: "the homeserver gave no session".into() })?;
            let kept = Kept { session, locked };
            kept.write(&file)?;
            tracing::info!(user = %kept.session.meta.user_id, device = %kept.session.meta.device_id, "logged in");
            Ok(built)
        }
        LogIn::AccessToken(token) => {
            let session = identify(settings, &token).await?;
            let client = restore(built, session.clone()).await?;
            let kept = Kept { session, locked };
            kept.write(&file)?;
            let meta = &kept.session.meta;
            tracing::info!(user = %meta.user_id, device = %meta.device_id, "took up the session");
            Ok(client)
        }
    }
}

fn ask_passphrase(settings: &MatrixSettings) -> Result<Option<String>, ServeError> {
    (settings.passphrase)().map_err(ServeError::Secret)
}

fn ask_log_in(settings: &MatrixSettings) -> Result<LogIn, ServeError> {
    (settings.log_in)().map_err(ServeError::Secret)?.ok_or(ServeError::NoCredential)
}

fn address(settings: &MatrixSettings) -> String {
    settings.homeserver.trim().to_owned()
}

fn bad_address(settings: &MatrixSettings, why: String) -> ServeError {
    ServeError::Address { address: settings.homeserver.clone(), why }
}

fn client(settings: &MatrixSettings) -> ClientBuilder {
    Client::builder().homeserver_url(address(settings)).with_encryption_settings(EncryptionSettings {
        // Without it each of the assistant's messages in an encrypted room carries a red shield.
        auto_enable_cross_signing: true,
        // A new device gets the keys of what was said before it when it is given the recovery key.
        backup_download_strategy: BackupDownloadStrategy::OneShot,
        ..Default::default()
    })
}

async fn build(settings: &MatrixSettings, builder: ClientBuilder) -> Result<Client, ServeError> {
    builder.build().await.map_err(|error| match error {
        ClientBuildError::Url(why) => bad_address(settings, why.to_string()),
        // The library does not let its error's kinds be named.
        ClientBuildError::SqliteStore(why) if why.to_string().contains("initialize the store cipher") => {
            ServeError::Locked
        }
        other => ServeError::Sdk { doing: "open the Matrix library's store", why: reasons(&other) },
    })
}

async fn restore(client: Client, session: MatrixSession) -> Result<Client, ServeError> {
    let failed = |why| ServeError::Sdk { doing: "restore the session", why };
    // Our own position may be older than the SDK's, and may lead to just the response that the SDK remembers: it would
    // take that for a repetition and hand over nothing.
    let forget = client.state_store().remove_kv_data(StateStoreDataKey::SyncToken).await;
    forget.map_err(|error| failed(reasons(&error)))?;
    let restored = client.matrix_auth().restore_session(session, RoomLoadSettings::default()).await;
    restored.map_err(|error| failed(reasons(&error)))?;
    Ok(client)
}

async fn log_in(settings: &MatrixSettings, client: &Client, password: &str) -> Result<(), ServeError> {
    let mut waiting = Waiting::new(settings);
    loop {
        let auth = client.matrix_auth();
        let login = auth.login_username(&settings.user, password).initial_device_display_name(&settings.device_name);
        let Err(error) = login.send().await else { return Ok(()) };
        match (trouble(&error), error.client_api_error_kind()) {
            (Trouble::Passing, _) => waiting.wait(&error).await,
            (_, Some(_)) => return Err(refused(settings, &error)),
            _ => return Err(ServeError::Sdk { doing: "log in", why: reasons(&error) }),
        }
    }
}

/// Asks the homeserver whose token this is, through a client that keeps nothing.
async fn identify(settings: &MatrixSettings, token: &str) -> Result<MatrixSession, ServeError> {
    let failed = |why| ServeError::Sdk { doing: "use the access token", why };
    let asking = Client::builder().homeserver_url(address(settings));
    let asking = build(settings, asking).await?;
    let tokens = SessionTokens { access_token: token.to_owned(), refresh_token: None };
    let nobody = UserId::parse("@unknown:unknown.invalid").map_err(|error| failed(error.to_string()))?;
    let as_nobody = session(nobody, "UNKNOWN".into(), &tokens);
    let restored = asking.matrix_auth().restore_session(as_nobody, RoomLoadSettings::default()).await;
    restored.map_err(|error| failed(reasons(&error)))?;
    let mut waiting = Waiting::new(settings);
    let known = loop {
        match asking.whoami().await {
            Ok(known) => break known,
            Err(error) if trouble_http(&error) == Trouble::Passing => waiting.wait(&error).await,
            Err(error) => return Err(refused(settings, &error)),
        }
    };
    if !is_user(&settings.user, &known.user_id) {
        return Err(ServeError::OtherToken { found: known.user_id.to_string(), wanted: settings.user.clone() });
    }
    let device = known.device_id.ok_or_else(|| failed("it belongs to no device; take that of a log-in".into()))?;
    Ok(session(known.user_id, device, &tokens))
}

fn session(user_id: OwnedUserId, device_id: OwnedDeviceId, tokens: &SessionTokens) -> MatrixSession {
    MatrixSession { meta: SessionMeta { user_id, device_id }, tokens: tokens.clone() }
}

fn refused(settings: &MatrixSettings, error: &dyn std::error::Error) -> ServeError {
    ServeError::Refused { homeserver: address(settings), user: settings.user.clone(), why: reasons(error) }
}

/// Waiting for a homeserver that can't be reached: says so once.
struct Waiting {
    homeserver: String,
    backoff: Backoff,
    said: bool,
}

impl Waiting {
    fn new(settings: &MatrixSettings) -> Self {
        Self { homeserver: address(settings), backoff: Backoff::new(Duration::from_secs(60)), said: false }
    }

    async fn wait(&mut self, error: &(dyn std::error::Error + Sync)) {
        if !self.said {
            self.said = true;
            let (homeserver, why) = (&self.homeserver, reasons(error));
            tracing::warn!("cannot reach the homeserver {homeserver} ({why}); trying again until it answers");
        }
        self.backoff.wait().await;
    }
}

fn is_user(wanted: &str, found: &UserId) -> bool {
    wanted == found.as_str() || wanted.strip_prefix('@').unwrap_or(wanted) == found.localpart()
}

fn same_account(settings: &MatrixSettings, session: &MatrixSession, file: &Path) -> Result<(), ServeError> {
    if is_user(&settings.user, &session.meta.user_id) {
        return Ok(());
    }
    Err(ServeError::OtherAccount {
        path: file.to_owned(),
        kept: session.meta.user_id.to_string(),
        wanted: settings.user.clone(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use anyhow::Context as _;
    use std::sync::Arc;

    fn settings(user: &str) -> MatrixSettings {
        let log_in = Arc::new(|| Err("cannot read the secret in no/such/file".into()));
        MatrixSettings::new("http://127.0.0.1:1", user, log_in, Arc::new(|_: &str| false))
    }

    fn ana() -> anyhow::Result<MatrixSession> {
        let tokens = SessionTokens { access_token: "secret-token".into(), refresh_token: None };
        Ok(session(UserId::parse("@ana:example.org")?, "DEVICE".into(), &tokens))
    }

    #[test]
    fn checking_says_what_serving_would_stumble_on() -> anyhow::Result<()> {
        let dir = tempfile::tempdir()?;
        let said = |user: &str| check(&settings(user), dir.path()).map(drop).map_err(|error| error.to_string());
        assert_eq!(said("ana"), Err("cannot read the secret in no/such/file".to_owned()));
        let file = session_file(dir.path());
        make_folder(file.parent().context("a folder")?)?;
        Kept { session: ana()?, locked: false }.write(&file)?;
        assert_eq!(said("ana"), Ok(()));
        assert_eq!(said("@ana:example.org"), Ok(()));
        let other = said("@ana:example.com").err().context("another account")?;
        assert!(other.contains("@ana:example.org") && other.contains("@ana:example.com"), "{other}");
        std::fs::write(&file, br#"{"access_token": "secret-token""#)?;
        let damaged = said("ana").err().context("a damaged file")?;
        assert!(damaged.contains("session.json") && !damaged.contains("secret-token"), "{damaged}");
        let nowhere = MatrixSettings { homeserver: "https://".into(), ..settings("ana") };
        let error = check(&nowhere, dir.path()).err().context("no address")?;
        assert!(error.to_string().contains("https://matrix.example.org"));
        Ok(())
    }

    #[test]
    fn a_passphrase_that_came_too_late_or_went_away_is_told_apart_from_a_wrong_one() -> anyhow::Result<()> {
        let dir = tempfile::tempdir()?;
        let file = session_file(dir.path());
        make_folder(file.parent().context("a folder")?)?;
        let with = |passphrase: Option<&'static str>| MatrixSettings {
            passphrase: Arc::new(move || Ok(passphrase.map(str::to_owned))),
            ..settings("ana")
        };
        let said = |passphrase| check(&with(passphrase), dir.path()).map_err(|error| error.to_string());
        Kept { session: ana()?, locked: false }.write(&file)?;
        let late = said(Some("horse")).err().context("a late passphrase")?;
        assert!(late.contains("without a passphrase") && !late.contains("horse"), "{late}");
        Kept { session: ana()?, locked: true }.write(&file)?;
        assert!(said(None).is_err_and(|error| error.contains("store_passphrase_file")));
        let right = said(Some("horse")).map_err(anyhow::Error::msg)?;
        assert!(right.iter().any(|line| line.starts_with("recovery key: to be made")));
        Ok(())
    }
}
