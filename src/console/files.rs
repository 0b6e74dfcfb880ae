//! Files that go with an answer, put into a folder; the answer says where.

use crate::assistant::Outgoing;
use crate::desk::Desk;
use crate::files::{self, File};
use std::path::{Path, PathBuf};

/// Writes a message's files into the folder and adds a line to it for each.
pub(super) fn put_down(said: &mut Outgoing, desk: &Desk, folder: &Path) {
    for enclosure in std::mem::take(&mut said.files) {
        let put = match files::file(&enclosure, &said.room, desk) {
            Ok(file) => put(&file, folder),
            Err(error) => Err(error.to_string()),
        };
        let line = match put {
            Ok(path) => format!("\n-> {}", path.display()),
            // The answer stands without its picture.
            Err(why) => format!("\n(No file: {why}.)"),
        };
        said.text.push_str(&line);
    }
}

/// Writes a file under its name, or under that name with a number when another one lies there.
fn put(file: &File, folder: &Path) -> Result<PathBuf, String> {
    std::fs::create_dir_all(folder).map_err(|error| format!("cannot make {}: {error}", folder.display()))?;
    let (stem, ending) = file.name.rsplit_once('.').unwrap_or((&file.name, "bin"));
    for n in 1..1000 {
        let name = if n == 1 { file.name.clone() } else { format!("{stem}-{n}.{ending}") };
        let path = folder.join(name);
        match std::fs::read(&path) {
            Ok(there) if there == file.bytes => return Ok(path),
            Ok(_) => {}
            Err(_) => {
                let written = std::fs::write(&path, &file.bytes);
                return written
                    .map(|()| path.clone())
                    .map_err(|error| format!("cannot write {}: {error}", path.display()));
            }
        }
    }
    Err(format!("{} is full of files of that name", folder.display()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::ffi::OsStr;

    #[test]
    fn another_file_is_never_written_over_and_the_same_one_lies_there_once() -> anyhow::Result<()> {
        let folder = tempfile::tempdir()?;
        let file = |bytes: &[u8]| File {
            name: "pantry.csv".into(),
            mime: "text/csv",
            bytes: bytes.to_vec(),
            alt: None,
            pixels: None,
        };
        let name = |bytes: &[u8]| put(&file(bytes), folder.path()).map(|path| path.file_name().map(OsStr::to_owned));
        for (bytes, called) in [(b"a", "pantry.csv"), (b"b", "pantry-2.csv"), (b"a", "pantry.csv")] {
            assert_eq!(name(bytes), Ok(Some(called.into())));
        }
        let nowhere = folder.path().join("pantry.csv");
        assert!(put(&file(b"a"), &nowhere).is_err_and(|why| why.starts_with("cannot make ")));
        Ok(())
    }
}
