//! The journal's door to the disk: one small trait, so that tests can put a failing, freezing or forgetful disk behind
//! it.

use std::fs::{self, File, OpenOptions};
use std::io::{self, Read, Seek, SeekFrom, Write};
use std::path::{Path, PathBuf};

/// One file that grows at its end.
pub trait Disk: Send {
    /// Writes at the end, in one go.
    ///
    /// # Errors
    /// When not all was taken; then a part of it may be at the end.
    fn append(&mut self, bytes: &[u8]) -> io::Result<()>;

    /// Returns when everything appended is on disk for good.
    ///
    /// # Errors
    /// When that is not known; what was appended since the last sync is then in doubt.
    fn sync(&mut self) -> io::Result<()>;

    /// Cuts the file to its first `len` bytes.
    ///
    /// # Errors
    /// When it stays as it was.
    fn truncate(&mut self, len: u64) -> io::Result<()>;

    /// How many bytes it has.
    ///
    /// # Errors
    /// When the disk does not say.
    fn len(&self) -> io::Result<u64>;

    /// Whether there is nothing in it.
    ///
    /// # Errors
    /// As [`Disk::len`].
    fn is_empty(&self) -> io::Result<bool> {
        Ok(self.len()? == 0)
    }

    /// Reads from its beginning.
    ///
    /// # Errors
    /// When it cannot be opened.
    fn read(&self) -> io::Result<Box<dyn Read + '_>>;

    /// Keeps a copy of everything from `from` on beside the file.
    ///
    /// # Errors
    /// When the copy cannot be written.
    fn copy_aside(&mut self, from: u64) -> io::Result<()>;

    /// Begins other content for the file, which does not count before [`Disk::publish`].
    ///
    /// # Errors
    /// When there is no place for it.
    fn draft(&self) -> io::Result<Box<dyn Write>>;

    /// Puts the draft in the file's place: for good and at once, so that a crash leaves the old or the new. The old one
    /// is kept beside it.
    ///
    /// # Errors
    /// When it stays as it was.
    fn publish(&mut self) -> io::Result<()>;
}

/// A file of the file system.
#[derive(Debug)]
pub(crate) struct FileDisk {
    path: PathBuf,
    file: File,
}

impl FileDisk {
    /// Opens the file, or makes it, for good.
    pub(crate) fn open(path: &Path) -> io::Result<Self> {
        let new = !path.try_exists()?;
        let file = private().append(true).create(true).open(path)?;
        if new {
            file.sync_all()?;
            sync_folder(path)?;
        }
        match fs::remove_file(beside(path, "new")) {
            Err(error) if error.kind() != io::ErrorKind::NotFound => Err(error),
            _ => Ok(Self { path: path.to_owned(), file }),
        }
    }
}

impl Disk for FileDisk {
    fn append(&mut self, bytes: &[u8]) -> io::Result<()> {
        self.file.write_all(bytes)
    }

    fn sync(&mut self) -> io::Result<()> {
        self.file.sync_data()
    }

    fn truncate(&mut self, len: u64) -> io::Result<()> {
        self.file.set_len(len)
    }

    fn len(&self) -> io::Result<u64> {
        Ok(self.file.metadata()?.len())
    }

    fn read(&self) -> io::Result<Box<dyn Read + '_>> {
        // A handle of its own: the appending one has its position at the end.
        Ok(Box::new(File::open(&self.path)?))
    }

    fn copy_aside(&mut self, from: u64) -> io::Result<()> {
        let mut rest = File::open(&self.path)?;
        rest.seek(SeekFrom::Start(from))?;
        let mut copy =
            private().write(true).create(true).truncate(true).open(beside(&self.path, &format!("torn-{from}")))?;
        io::copy(&mut rest, &mut copy)?;
        copy.sync_all()
    }

    fn draft(&self) -> io::Result<Box<dyn Write>> {
        Ok(Box::new(private().write(true).create(true).truncate(true).open(beside(&self.path, "new"))?))
    }

    fn publish(&mut self) -> io::Result<()> {
        let (new, old) = (beside(&self.path, "new"), beside(&self.path, "damaged"));
        let file = private().append(true).open(&new)?;
        file.sync_all()?;
        match fs::remove_file(&old) {
            Err(error) if error.kind() != io::ErrorKind::NotFound => return Err(error),
            _ => {}
        }
        // A second name for the old file, so that at no moment there is no journal; a copy where there are no links.
        if fs::hard_link(&self.path, &old).is_err() {
            fs::copy(&self.path, &old)?;
        }
        fs::rename(&new, &self.path)?;
        self.file = file;
        sync_folder(&self.path)
    }
}

/// What people say at home is for them alone.
pub(crate) fn private() -> OpenOptions {
    let mut options = OpenOptions::new();
    #[cfg(unix)]
    std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o600);
    options
}

/// The path with one more extension.
pub(crate) fn beside(path: &Path, extension: &str) -> PathBuf {
    let mut name = path.as_os_str().to_owned();
    name.push(".");
    name.push(extension);
    name.into()
}

/// Makes the names in the path's folder durable. Only Unix lets a folder be synced; elsewhere the file system does it.
pub(crate) fn sync_folder(path: &Path) -> io::Result<()> {
    match path.parent() {
        #[cfg(unix)]
        Some(folder) if !folder.as_os_str().is_empty() => File::open(folder)?.sync_all(),
        _ => Ok(()),
    }
}
