//! Passwords and tokens: read late, never printed.

use super::ConfigError;
use std::path::Path;

/// Text that no log and no error shows.
#[derive(Clone, PartialEq, Eq)]
pub struct Secret(String);

impl Secret {
    /// Keeps it. Space around it, such as the line end of a file, does not belong to it.
    pub fn new(text: &str) -> Self {
        Self(text.trim().to_owned())
    }

    /// The text itself, for the one place that needs it.
    pub fn reveal(&self) -> &str {
        &self.0
    }

    /// Reads it from a file that only its owner can read.
    ///
    /// # Errors
    /// When the file is not there, is empty, or others can read it.
    pub fn from_file(path: &Path) -> Result<Self, ConfigError> {
        let refuse = |why: String| ConfigError::Secret { path: path.to_owned(), why };
        let advise = |error: std::io::Error| refuse(format!("{error}; put the secret there, alone on one line"));
        private(path).map_err(advise)?.map_err(refuse)?;
        let secret = Self::new(&std::fs::read_to_string(path).map_err(advise)?);
        if secret.0.is_empty() {
            return Err(refuse("it is empty; put the secret there, alone on one line".to_owned()));
        }
        Ok(secret)
    }
}

impl std::fmt::Debug for Secret {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("Secret(…)")
    }
}

/// Whether nobody but the owner can read a file; if not, what to do.
#[cfg(unix)]
fn private(path: &Path) -> std::io::Result<Result<(), String>> {
    use std::os::unix::fs::PermissionsExt;
    let mode = std::fs::metadata(path)?.permissions().mode();
    // The service manager hands credentials over in a folder that only this service can enter, and grants the read by
    // an access list, which shows up in the group's bits.
    let handed_over = std::env::var_os("CREDENTIALS_DIRECTORY").is_some_and(|folder| path.starts_with(folder));
    Ok(if mode & 0o077 == 0 || handed_over {
        Ok(())
    } else {
        Err(format!("others can read it too; close it with: chmod 600 {}", path.display()))
    })
}

#[cfg(not(unix))]
fn private(path: &Path) -> std::io::Result<Result<(), String>> {
    std::fs::metadata(path).map(|_| Ok(()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_secret_is_not_shown() {
        assert_eq!(format!("{:?}", Secret::new("pw")), "Secret(…)");
    }

    #[cfg(unix)]
    #[test]
    fn a_file_that_others_can_read_is_refused_and_an_empty_one_too() -> anyhow::Result<()> {
        use anyhow::Context as _;
        use std::os::unix::fs::PermissionsExt;
        let folder = tempfile::tempdir()?;
        let path = folder.path().join("password");
        let mode = |mode| std::fs::set_permissions(&path, std::fs::Permissions::from_mode(mode));
        std::fs::write(&path, "correct horse\n")?;
        for open in [0o640, 0o604, 0o660] {
            mode(open)?;
            let error = Secret::from_file(&path).err().context("it was read")?.to_string();
            assert!(error.contains("chmod 600") && !error.contains("horse"), "{error}");
        }
        mode(0o600)?;
        assert_eq!(Secret::from_file(&path)?.reveal(), "correct horse");
        std::fs::write(&path, "\n")?;
        let error = Secret::from_file(&path).err().context("it was read")?.to_string();
        assert!(error.contains("it is empty"));
        Ok(())
    }
}
