//! `rackful serve`.

use super::Call;
use clap::Args;

/// The words of the call.
#[derive(Args, Debug)]
pub struct Serve {}

/// Why a build for the console cannot serve, and what to do.
#[cfg(not(feature = "matrix"))]
pub(super) const NO_MATRIX: &str =
    "this rackful was built without Matrix; build it with: cargo build --release (without --no-default-features)";

impl Serve {
    #[cfg(not(feature = "matrix"))]
    pub(super) fn run(&self, _call: &Call) -> anyhow::Result<()> {
        anyhow::bail!(NO_MATRIX)
    }

    #[cfg(feature = "matrix")]
    pub(super) fn run(&self, call: &Call) -> anyhow::Result<()> {
        let settings = settings(&call.config.matrix)?;
        let data = call.data_dir()?;
        let mut defaults = call.config.defaults();
        // A zone, not today's offset: rooms keep it through the change of the clocks.
        defaults.zone = defaults.zone.or_else(|| Some(crate::clock::machine_zone()));
        let desk = call.desk(defaults)?;
        let clock = call.config.clock();
        let runtime = tokio::runtime::Builder::new_multi_thread()
            .enable_all()
            .build()
            .map_err(|error| anyhow::anyhow!("cannot start waiting for messages: {error}; close other programs"))?;
        let ended = runtime.block_on(crate::matrix::serve(&settings, desk, clock, &data));
        // All that counts is on disk; what the Matrix library still does in the background must not hold up the end.
        runtime.shutdown_timeout(std::time::Duration::from_secs(2));
        Ok(ended?)
    }
}

/// What the driver must be told. Secrets are read when it asks for them, which is once.
#[cfg(feature = "matrix")]
pub(super) fn settings(matrix: &crate::config::Matrix) -> anyhow::Result<crate::matrix::settings::MatrixSettings> {
    use crate::config::Credential;
    use crate::matrix::settings::{LogIn, MatrixSettings};
    use std::sync::Arc;

    let (Some(homeserver), Some(user), true) = (&matrix.homeserver, &matrix.user, matrix.missing().is_empty()) else {
        anyhow::bail!("{}", matrix.missing().join("; "));
    };
    let (secrets, invitations, locks) = (matrix.clone(), matrix.clone(), matrix.clone());
    let log_in = Arc::new(move || {
        let credential = secrets.credential().map_err(|error| error.to_string())?;
        Ok(credential.map(|credential| match credential {
            Credential::Password(secret) => LogIn::Password(secret.reveal().to_owned()),
            Credential::AccessToken(secret) => LogIn::AccessToken(secret.reveal().to_owned()),
        }))
    });
    let permits = Arc::new(move |user: &str| invitations.allows(user));
    Ok(MatrixSettings {
        device_name: matrix.device_name.clone(),
        passphrase: Arc::new(move || {
            let passphrase = locks.passphrase().map_err(|error| error.to_string())?;
            Ok(passphrase.map(|secret| secret.reveal().to_owned()))
        }),
        key_wait: matrix.key_wait,
        ..MatrixSettings::new(homeserver, user, log_in, permits)
    })
}
