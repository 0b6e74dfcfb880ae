//! Where things lie, and opening them.

use super::Call;
use crate::assistant::Defaults;
use crate::desk::Desk;
use crate::store::{DiskStore, MemoryStore, inspect, inspect_snapshot, snapshots};
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
    pub(super) fn store(&self) -> anyhow::Result<DiskStore> {
        Ok(DiskStore::open(&self.data_dir()?)?.keeping_snapshots(self.config.snapshots))
    }

    /// The store on disk, which must be there: reading one that is not would only make an empty one.
    pub(super) fn existing_store(&self) -> anyhow::Result<DiskStore> {
        let dir = self.data_dir()?;
        if !dir.is_dir() {
            return Err(anyhow!("there is no ledger in {}; name its folder with --data", dir.display()));
        }
        Ok(DiskStore::open(&dir)?)
    }

    /// What can be said of the store without changing it.
    pub(super) fn inspect_store(&self) -> anyhow::Result<String> {
        let dir = self.data_dir()?;
        let found = inspect(&dir)?;
        Ok(match found {
            Some(found) if found.torn > 0 => format!(
                "{}, {} commits, and {} bytes of an unfinished write that the next start cuts off",
                dir.display(),
                found.commits,
                found.torn
            ),
            Some(found) => format!("{}, {} commits", dir.display(), found.commits),
            None => format!("{}, to be made at the first start", dir.display()),
        })
    }

    /// What can be said of the snapshots, each read from end to end; and what is wrong with any.
    pub(super) fn inspect_snapshots(&self) -> anyhow::Result<(String, Vec<String>)> {
        let all = snapshots(&self.data_dir()?);
        let wrong: Vec<_> = all.iter().filter_map(|path| inspect_snapshot(path).err()).map(|e| e.to_string()).collect();
        let newest = all.last().and_then(|path| path.file_name()).map(|name| name.to_string_lossy().into_owned());
        let told = match newest {
            Some(newest) => format!("{}, the newest {newest}", all.len()),
            None => "none yet".to_owned(),
        };
        Ok((told, wrong))
    }

    /// The assistant at work on the store on disk.
    pub(super) fn desk(&self, defaults: Defaults) -> anyhow::Result<Desk> {
        Ok(Desk::open(Box::new(self.store()?), defaults)?)
    }

    /// The assistant at work on a store that is gone afterwards.
    pub(super) fn throw_away_desk(&self, defaults: Defaults) -> anyhow::Result<Desk> {
        Ok(Desk::open(Box::new(MemoryStore::new()), defaults)?)
    }
}
