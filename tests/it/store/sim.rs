//! A disk for the journal that fails, forgets and remembers when asked.

use rackful::store::Disk;
use std::io::{self, Cursor, Error, ErrorKind, Read, Write};
use std::sync::{Arc, Mutex, MutexGuard};

/// The disk; a clone is the same disk.
#[derive(Clone, Default)]
pub(super) struct SimDisk(Arc<Mutex<Sim>>);

#[derive(Default)]
pub(super) struct Sim {
    /// What a reader sees.
    pub(super) cache: Vec<u8>,
    /// What a power cut leaves for certain.
    pub(super) synced: Vec<u8>,
    /// What was copied or kept aside.
    pub(super) aside: Vec<Vec<u8>>,
    /// The next append takes so many bytes and fails.
    pub(super) append_fails_at: Option<usize>,
    /// The next sync fails.
    pub(super) sync_fails: bool,
    /// So many truncations fail.
    pub(super) truncate_fails: u32,
    /// Called at each sync, before it takes effect, with what is synced and what is in the cache.
    pub(super) at_sync: Option<Watch>,
    draft: Shared,
}

pub(super) type Watch = Box<dyn FnMut(&[u8], &[u8]) + Send>;

#[derive(Clone, Default)]
struct Shared(Arc<Mutex<Vec<u8>>>);

impl Write for Shared {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.0.lock().unwrap().extend_from_slice(bytes);
        Ok(bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

impl SimDisk {
    /// A disk that holds these bytes for good.
    pub(super) fn holding(bytes: &[u8]) -> Self {
        Self(Arc::new(Mutex::new(Sim { cache: bytes.to_vec(), synced: bytes.to_vec(), ..Sim::default() })))
    }

    pub(super) fn inner(&self) -> MutexGuard<'_, Sim> {
        self.0.lock().unwrap()
    }
}

impl Disk for SimDisk {
    fn append(&mut self, bytes: &[u8]) -> io::Result<()> {
        let mut sim = self.inner();
        match sim.append_fails_at.take() {
            Some(at) => {
                sim.cache.extend_from_slice(&bytes[..at.min(bytes.len())]);
                Err(Error::new(ErrorKind::StorageFull, "no space left"))
            }
            None => {
                sim.cache.extend_from_slice(bytes);
                Ok(())
            }
        }
    }

    fn sync(&mut self) -> io::Result<()> {
        let mut guard = self.inner();
        let sim = &mut *guard;
        if let Some(watch) = &mut sim.at_sync {
            watch(&sim.synced, &sim.cache);
        }
        if std::mem::take(&mut sim.sync_fails) {
            return Err(Error::other("input/output error"));
        }
        sim.synced.clone_from(&sim.cache);
        Ok(())
    }

    fn truncate(&mut self, len: u64) -> io::Result<()> {
        let mut sim = self.inner();
        if sim.truncate_fails > 0 {
            sim.truncate_fails -= 1;
            return Err(Error::other("input/output error"));
        }
        sim.cache.truncate(usize::try_from(len).unwrap());
        Ok(())
    }

    fn len(&self) -> io::Result<u64> {
        Ok(self.inner().cache.len() as u64)
    }

    fn read(&self) -> io::Result<Box<dyn Read + '_>> {
        Ok(Box::new(Cursor::new(self.inner().cache.clone())))
    }

    fn copy_aside(&mut self, from: u64) -> io::Result<()> {
        let mut sim = self.inner();
        let rest = sim.cache[usize::try_from(from).unwrap()..].to_vec();
        sim.aside.push(rest);
        Ok(())
    }

    fn draft(&self) -> io::Result<Box<dyn Write>> {
        let sim = self.inner();
        sim.draft.0.lock().unwrap().clear();
        Ok(Box::new(sim.draft.clone()))
    }

    fn publish(&mut self) -> io::Result<()> {
        let mut sim = self.inner();
        let draft = sim.draft.0.lock().unwrap().clone();
        let old = std::mem::replace(&mut sim.cache, draft.clone());
        sim.aside.push(old);
        sim.synced = draft;
        Ok(())
    }
}
