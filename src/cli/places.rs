//! Where things lie, and opening them.

use super::Call;
use crate::assistant::Defaults;
use crate::desk::Desk;
use crate::store::{MemoryStore, Store};
use anyhow::anyhow;
use std::path::PathBuf;

impl Call {
    /// The folder of the store: as said with `--data`, otherwise as set, otherwise the user's own.
    pub(super) fn data_dir(&self) -> anyhow::Result<PathBuf> {
        if let Some(said) = self.data.as_ref().or(self.config.data.as_ref()) {
            return Ok(said.clone());
        }
        directories::ProjectDirs::from("", "", "rackful").map(|dirs| dirs.data_dir().to_owned()).ok_or_else(|| {
            anyhow!("there is no home directory to keep the ledger in; name a folder with --data or RACKFUL_DATA")
        })
    }

    /// The store on disk, made if it is not there.
    pub(super) fn store(&self) -> anyhow::Result<Box<dyn Store>> {
        let dir = self.data_dir()?;
        std::fs::create_dir_all(&dir).map_err(|error| {
            anyhow!("cannot make the folder {}: {error}; name another with --data or RACKFUL_DATA", dir.display())
        })?;
        Ok(Box::new(MemoryStore::default()))
    }

    /// What can be said of the store without changing it.
    pub(super) fn check_store(&self) -> anyhow::Result<String> {
        let dir = self.data_dir()?;
        if !dir.exists() {
            return Ok(format!("{} will be made", dir.display()));
        }
        Ok(format!("{} is there", dir.display()))
    }

    /// The assistant at work on the store on disk.
    pub(super) fn desk(&self, defaults: Defaults) -> anyhow::Result<Desk> {
        Ok(Desk::open(self.store()?, defaults)?)
    }

    /// The assistant at work on a store that is gone afterwards.
    pub(super) fn throw_away_desk(&self, defaults: Defaults) -> anyhow::Result<Desk> {
        Ok(Desk::open(Box::new(MemoryStore::default()), defaults)?)
    }
}
