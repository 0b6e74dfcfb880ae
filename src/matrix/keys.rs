//! The account's own keys: its device is signed by the account's identity, so that clients show no warning beside what
//! it says, and identity and room keys can be recovered with a key that is made once and kept in a file for the
//! operator.

use super::kept::{private_file, read_recovery_key, recovery_file, write_recovery_key};
use super::settings::{AskLogIn, LogIn};
use super::trouble::{Backoff, ServeError, reasons};
use matrix_sdk::Client;
use matrix_sdk::encryption::recovery::RecoveryState;
use matrix_sdk::ruma::api::client::uiaa::{AuthData, MatrixUserIdentifier, Password, UserIdentifier};
use std::path::{Path, PathBuf};
use std::time::Duration;

/// The task that sees to the keys, once at each start.
pub(super) struct KeyKeeper {
    pub(super) client: Client,
    pub(super) log_in: AskLogIn,
    /// Where the recovery key is kept.
    pub(super) file: PathBuf,
}

impl KeyKeeper {
    pub(super) fn new(client: Client, log_in: AskLogIn, data: &Path) -> Self {
        Self { client, log_in, file: recovery_file(data) }
    }

    /// Tries until it is done or can't be, and then waits for ever: a room that is not encrypted needs none of this, so
    /// no failure here is a reason to stop serving.
    pub(super) async fn run(self) -> ServeError {
        let mut backoff = Backoff::new(Duration::from_secs(3600));
        while let Err(why) = self.see_to_it().await {
            if backoff.is_fresh() {
                tracing::warn!("the keys for encrypted rooms are not in order yet: {why}");
            }
            backoff.wait().await;
        }
        std::future::pending().await
    }

    async fn see_to_it(&self) -> Result<(), String> {
        let encryption = self.client.encryption();
        encryption.wait_for_e2ee_initialization_tasks().await;
        self.identity().await?;
        match read_recovery_key(&self.file).map_err(|error| error.to_string())? {
            Some(key) => self.recover(&key).await?,
            None => self.make_recovery_key().await?,
        }
        let device = encryption.get_own_device().await.map_err(|error| reasons(&error))?;
        if device.is_some_and(|device| device.is_cross_signed_by_owner()) {
            tracing::info!(
                recovery_key = %self.file.display(),
                "the device is signed by its account; the recovery key is kept, keep a copy elsewhere"
            );
            Ok(())
        } else {
            Err(format!(
                "the device is not signed by its account, whose encryption was set up elsewhere; \
                 put that recovery key into {} (chmod 600) and start again",
                self.file.display()
            ))
        }
    }

    /// Makes the account's identity if it has none. A homeserver may ask for the password again.
    async fn identity(&self) -> Result<(), String> {
        let encryption = self.client.encryption();
        let Err(error) = encryption.bootstrap_cross_signing_if_needed(None).await else { return Ok(()) };
        let Some(asked) = error.as_uiaa_response() else { return Err(reasons(&error)) };
        let (Some(me), Ok(Some(LogIn::Password(password)))) = (self.client.user_id(), (self.log_in)()) else {
            return Err("the homeserver wants the account's password to sign the device".to_owned());
        };
        let user = UserIdentifier::Matrix(MatrixUserIdentifier::new(me.localpart().to_owned()));
        let mut password = Password::new(user, password);
        password.session.clone_from(&asked.session);
        let signed = encryption.bootstrap_cross_signing(Some(AuthData::Password(password))).await;
        signed.map_err(|error| reasons(&error))
    }

    /// Takes the account's secrets, and the keys of earlier messages, from the homeserver when this device lacks them.
    async fn recover(&self, key: &str) -> Result<(), String> {
        private_file(&self.file).map_err(|error| error.to_string())?;
        let recovery = self.client.encryption().recovery();
        if recovery.state() == RecoveryState::Incomplete {
            // The library's words could quote the key.
            recovery.recover(key).await.map_err(|_| {
                format!("the recovery key in {} is not this account's; put the right one there", self.file.display())
            })?;
            tracing::info!("recovered the keys of this account");
        }
        Ok(())
    }

    /// Makes the recovery key and keeps it. If the process ends in between, the next one makes another, which replaces
    /// it.
    async fn make_recovery_key(&self) -> Result<(), String> {
        let encryption = self.client.encryption();
        if encryption.recovery().state() == RecoveryState::Incomplete {
            return Err(format!(
                "the account's encryption was set up elsewhere; \
                 put its recovery key into {} (chmod 600) and start again",
                self.file.display()
            ));
        }
        let backups = encryption.backups();
        // Left by a start that ended between making the backup and keeping its key.
        if !backups.are_enabled().await && backups.fetch_exists_on_server().await.map_err(|error| reasons(&error))? {
            backups.create().await.map_err(|error| reasons(&error))?;
        }
        let key = encryption.recovery().enable().await.map_err(|error| reasons(&error))?;
        write_recovery_key(&self.file, &key).map_err(|error| error.to_string())
    }
}
