//! The account's session: logged in once, kept in a file beside the SDK's store, restored ever after. Transaction ids and
//! encryption keys belong to the device, so a new log-in is a loss and never happens by itself.

use super::settings::{LogIn, MatrixSettings};
use super::trouble::{Backoff, ServeError, Trouble, reasons, trouble, trouble_http};
use matrix_sdk::authentication::matrix::MatrixSession;
use matrix_sdk::encryption::EncryptionSettings;
use matrix_sdk::reqwest::Url;
use matrix_sdk::ruma::{OwnedDeviceId, OwnedUserId, UserId};
use matrix_sdk::store::{RoomLoadSettings, StateStoreDataKey};
use matrix_sdk::{Client, ClientBuildError, ClientBuilder, SessionMeta, SessionTokens};
use std::io::Write;
use std::os::unix::fs::{DirBuilderExt, OpenOptionsExt};
use std::path::{Path, PathBuf};
use std::time::Duration;

/// Where the session is kept in a data folder.
pub(super) fn session_file(data: &Path) -> PathBuf {
    data.join("matrix").join("session.json")
}

/// Says whether [`serve`](super::serve) would have what it needs to log in: a kept session of the right account, or a
/// secret to read. Asks no network and changes nothing.
///
/// # Errors
/// What serving would end with.
pub fn check(settings: &MatrixSettings, data: &Path) -> Result<(), ServeError> {
    let address = address(settings);
    address.parse::<Url>().map_err(|why| bad_address(settings, why.to_string()))?;
    match kept(&session_file(data))? {
        Some(session) => same_account(settings, &session, &session_file(data)),
        None => {
            ask_log_in(settings)?;
            Ok(())
        }
    }
}

/// A client with the account's session: the kept one, or a new one when none is kept. A homeserver that can't be reached
/// is tried again until it can.
pub(super) async fn open(settings: &MatrixSettings, data: &Path) -> Result<Client, ServeError> {
    let file = session_file(data);
    let folder = data.join("matrix");
    let sdk = folder.join("sdk");
    if let Some(session) = kept(&file)? {
        same_account(settings, &session, &file)?;
        let client = build(settings, client(settings).sqlite_store(&sdk, None)).await?;
        return restore(client, session).await;
    }
    let with = ask_log_in(settings)?;
    make_folder(&folder)?;
    set_aside(&sdk)?;
    let built = build(settings, client(settings).sqlite_store(&sdk, None)).await?;
    match with {
        LogIn::Password(password) => {
            log_in(settings, &built, &password).await?;
            let session = built
                .matrix_auth()
                .session()
                .ok_or_else(|| ServeError::Sdk { doing: "log in", why: "the homeserver gave no session".into() })?;
            keep(&file, &session)?;
            tracing::info!(user = %session.meta.user_id, device = %session.meta.device_id, "logged in");
            Ok(built)
        }
        LogIn::AccessToken(token) => {
            let session = identify(settings, &token).await?;
            let client = restore(built, session.clone()).await?;
            keep(&file, &session)?;
            tracing::info!(user = %session.meta.user_id, device = %session.meta.device_id, "took up the session");
            Ok(client)
        }
    }
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
        ..Default::default()
    })
}

async fn build(settings: &MatrixSettings, builder: ClientBuilder) -> Result<Client, ServeError> {
    builder.build().await.map_err(|error| match error {
        ClientBuildError::Url(why) => bad_address(settings, why.to_string()),
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

fn file_error(doing: &'static str, path: &Path, why: impl std::fmt::Display) -> ServeError {
    ServeError::File { doing, path: path.to_owned(), why: why.to_string() }
}

fn kept(file: &Path) -> Result<Option<MatrixSession>, ServeError> {
    match std::fs::read(file) {
        Ok(text) => match serde_json::from_slice(&text) {
            Ok(session) => Ok(Some(session)),
            // The parser's message may quote the file, and with it the token.
            Err(_) => Err(file_error(
                "read the session in",
                file,
                "it is damaged; restore it from a backup, or move it away to log in anew",
            )),
        },
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => Ok(None),
        Err(error) => Err(file_error("read the session in", file, error)),
    }
}

/// On disk whole or not at all, and for this user's eyes only.
fn keep(file: &Path, session: &MatrixSession) -> Result<(), ServeError> {
    let failed = |error: std::io::Error| file_error("keep the session in", file, error);
    let text = serde_json::to_vec(session).map_err(|error| file_error("keep the session in", file, error))?;
    let new = file.with_extension("new");
    let mut open = std::fs::OpenOptions::new();
    let mut to = open.write(true).create(true).truncate(true).mode(0o600).open(&new).map_err(failed)?;
    to.write_all(&text).map_err(failed)?;
    to.sync_all().map_err(failed)?;
    std::fs::rename(&new, file).map_err(failed)?;
    let folder = file.parent().unwrap_or(Path::new("."));
    std::fs::File::open(folder).and_then(|folder| folder.sync_all()).map_err(failed)
}

fn make_folder(folder: &Path) -> Result<(), ServeError> {
    let made = std::fs::DirBuilder::new().recursive(true).mode(0o700).create(folder);
    made.map_err(|error| file_error("make the folder", folder, error))
}

/// An SDK store without a session is what a log-in left that was cut short, or that of a lost session. It would refuse
/// the new device.
fn set_aside(sdk: &Path) -> Result<(), ServeError> {
    if !sdk.exists() {
        return Ok(());
    }
    let aside = sdk.with_extension("left-over");
    let _ = std::fs::remove_dir_all(&aside);
    std::fs::rename(sdk, &aside).map_err(|error| file_error("set aside", sdk, error))
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::os::unix::fs::PermissionsExt;
    use std::sync::Arc;

    fn settings(user: &str) -> MatrixSettings {
        MatrixSettings {
            homeserver: "http://127.0.0.1:1".into(),
            user: user.into(),
            device_name: "test".into(),
            log_in: Arc::new(|| Err("cannot read the secret in no/such/file".into())),
            permits: Arc::new(|_| false),
        }
    }

    fn ana() -> MatrixSession {
        let tokens = SessionTokens { access_token: "secret-token".into(), refresh_token: None };
        session(UserId::parse("@ana:example.org").unwrap(), "DEVICE".into(), &tokens)
    }

    #[test]
    fn the_session_file_is_whole_and_for_its_owner_only() {
        let dir = tempfile::tempdir().unwrap();
        let file = session_file(dir.path());
        make_folder(file.parent().unwrap()).unwrap();
        keep(&file, &ana()).unwrap();
        assert_eq!(std::fs::metadata(&file).unwrap().permissions().mode() & 0o777, 0o600);
        assert_eq!(std::fs::metadata(file.parent().unwrap()).unwrap().permissions().mode() & 0o777, 0o700);
        let again = kept(&file).unwrap().unwrap();
        assert_eq!(
            (again.meta.user_id.as_str(), again.tokens.access_token.as_str()),
            ("@ana:example.org", "secret-token")
        );
        assert_eq!(std::fs::read_dir(file.parent().unwrap()).unwrap().count(), 1, "no half-written file stays");
    }

    #[test]
    fn checking_says_what_serving_would_stumble_on() {
        let dir = tempfile::tempdir().unwrap();
        let said = |user: &str| check(&settings(user), dir.path()).map_err(|error| error.to_string());
        assert_eq!(said("ana").unwrap_err(), "cannot read the secret in no/such/file");
        let file = session_file(dir.path());
        make_folder(file.parent().unwrap()).unwrap();
        keep(&file, &ana()).unwrap();
        assert_eq!(said("ana"), Ok(()));
        assert_eq!(said("@ana:example.org"), Ok(()));
        let other = said("@ana:example.com").unwrap_err();
        assert!(other.contains("@ana:example.org") && other.contains("@ana:example.com"), "{other}");
        std::fs::write(&file, br#"{"access_token": "secret-token""#).unwrap();
        let damaged = said("ana").unwrap_err();
        assert!(damaged.contains("session.json") && !damaged.contains("secret-token"), "{damaged}");
        let nowhere = MatrixSettings { homeserver: "https://".into(), ..settings("ana") };
        assert!(check(&nowhere, dir.path()).unwrap_err().to_string().contains("https://matrix.example.org"));
    }
}
