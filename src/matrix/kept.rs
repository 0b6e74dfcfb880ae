//! What is kept in files beside the SDK's store: the session, and the recovery key of the account's encryption. Each is
//! on disk whole or not at all, and for its owner's eyes only.

use super::trouble::ServeError;
use matrix_sdk::authentication::matrix::MatrixSession;
use serde::{Deserialize, Serialize};
use std::io::Write;
use std::os::unix::fs::{DirBuilderExt, OpenOptionsExt, PermissionsExt};
use std::path::{Path, PathBuf};

/// Where the session is kept in a data folder.
pub(super) fn session_file(data: &Path) -> PathBuf {
    data.join("matrix").join("session.json")
}

/// Where the recovery key is kept in a data folder.
pub(super) fn recovery_file(data: &Path) -> PathBuf {
    data.join("matrix").join("recovery-key")
}

/// A kept session.
#[derive(Serialize, Deserialize)]
pub(super) struct Kept {
    #[serde(flatten)]
    pub(super) session: MatrixSession,
    /// Whether the SDK's store was made with a passphrase. The store itself would not notice one that came later, and
    /// could then read nothing that was written before.
    #[serde(default)]
    pub(super) locked: bool,
}

impl Kept {
    /// The kept session, if there is one.
    pub(super) fn read(file: &Path) -> Result<Option<Self>, ServeError> {
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

    pub(super) fn write(&self, file: &Path) -> Result<(), ServeError> {
        let text = serde_json::to_vec(self).map_err(|error| file_error("keep the session in", file, error))?;
        write(file, &text)
    }

    /// Whether there is a passphrase just when the store was made with one.
    pub(super) fn fits(&self, passphrase: Option<&str>, file: &Path) -> Result<(), ServeError> {
        match (self.locked, passphrase) {
            (true, None) => Err(ServeError::PassphraseMissing),
            (false, Some(_)) => Err(ServeError::PassphraseTooLate(file.to_owned())),
            _ => Ok(()),
        }
    }
}

/// The recovery key, if one is kept.
pub(super) fn read_recovery_key(file: &Path) -> Result<Option<String>, ServeError> {
    match std::fs::read_to_string(file) {
        Ok(key) => Ok(Some(key.trim().to_owned())),
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => Ok(None),
        Err(error) => Err(file_error("read the recovery key in", file, error)),
    }
}

/// Keeps the recovery key.
pub(super) fn write_recovery_key(file: &Path, key: &str) -> Result<(), ServeError> {
    write(file, format!("{key}\n").as_bytes())
}

/// Whether nobody but its owner can read a file.
pub(super) fn private_file(file: &Path) -> Result<(), ServeError> {
    let mode = std::fs::metadata(file).map_err(|error| file_error("read", file, error))?.permissions().mode();
    if mode & 0o077 == 0 {
        return Ok(());
    }
    Err(file_error("use", file, format!("others can read it too; close it with: chmod 600 {}", file.display())))
}

fn write(file: &Path, text: &[u8]) -> Result<(), ServeError> {
    let failed = |error: std::io::Error| file_error("write", file, error);
    let new = file.with_extension("new");
    let mut open = std::fs::OpenOptions::new();
    let mut to = open.write(true).create(true).truncate(true).mode(0o600).open(&new).map_err(failed)?;
    to.write_all(text).map_err(failed)?;
    to.sync_all().map_err(failed)?;
    std::fs::rename(&new, file).map_err(failed)?;
    let folder = file.parent().unwrap_or(Path::new("."));
    std::fs::File::open(folder).and_then(|folder| folder.sync_all()).map_err(failed)
}

pub(super) fn make_folder(folder: &Path) -> Result<(), ServeError> {
    let made = std::fs::DirBuilder::new().recursive(true).mode(0o700).create(folder);
    made.map_err(|error| file_error("make the folder", folder, error))
}

/// An SDK store without a session is what a log-in left that was cut short, or that of a lost session. It would refuse
/// the new device.
pub(super) fn set_aside(sdk: &Path) -> Result<(), ServeError> {
    if !sdk.exists() {
        return Ok(());
    }
    let aside = sdk.with_extension("left-over");
    let _ = std::fs::remove_dir_all(&aside);
    std::fs::rename(sdk, &aside).map_err(|error| file_error("set aside", sdk, error))
}

fn file_error(doing: &'static str, path: &Path, why: impl std::fmt::Display) -> ServeError {
    ServeError::File { doing, path: path.to_owned(), why: why.to_string() }
}

#[cfg(test)]
mod tests {
    use super::*;
    use anyhow::Context as _;
    use matrix_sdk::ruma::UserId;
    use matrix_sdk::{SessionMeta, SessionTokens};

    #[test]
    fn session_and_recovery_key_are_whole_and_for_their_owner_only() -> anyhow::Result<()> {
        let dir = tempfile::tempdir()?;
        let (file, recovery) = (session_file(dir.path()), recovery_file(dir.path()));
        let folder = file.parent().context("a folder")?;
        make_folder(folder)?;
        let meta = SessionMeta { user_id: UserId::parse("@ana:example.org")?, device_id: "DEVICE".into() };
        let tokens = SessionTokens { access_token: "secret-token".into(), refresh_token: None };
        Kept { session: MatrixSession { meta, tokens }, locked: true }.write(&file)?;
        write_recovery_key(&recovery, "EsTb 1234")?;
        for path in [&file, &recovery] {
            assert_eq!(std::fs::metadata(path)?.permissions().mode() & 0o777, 0o600);
            private_file(path)?;
        }
        assert_eq!(std::fs::metadata(folder)?.permissions().mode() & 0o777, 0o700);
        let again = Kept::read(&file)?.context("a session")?;
        assert_eq!(again.session.tokens.access_token, "secret-token");
        assert!(again.locked);
        assert_eq!(read_recovery_key(&recovery)?.as_deref(), Some("EsTb 1234"));
        assert_eq!(std::fs::read_dir(folder)?.count(), 2, "no half-written file stays");
        std::fs::set_permissions(&recovery, std::fs::Permissions::from_mode(0o640))?;
        let open = private_file(&recovery).err().context("it was taken")?;
        assert!(open.to_string().contains("chmod 600"));
        Ok(())
    }

    #[test]
    fn a_session_kept_before_there_were_passphrases_is_not_locked() -> anyhow::Result<()> {
        let dir = tempfile::tempdir()?;
        let file = dir.path().join("session.json");
        std::fs::write(&file, r#"{"user_id":"@ana:example.org","device_id":"D","access_token":"t"}"#)?;
        assert!(!Kept::read(&file)?.context("a session")?.locked);
        Ok(())
    }
}
