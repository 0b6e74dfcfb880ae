//! The program as it is called: its words, its exit codes, and what it writes where.

mod chat;
mod keeping;
mod papers;
mod replay;
mod settings;
mod terminal;
mod words;

use std::io::Write;
use std::path::Path;
use std::process::{Command, Stdio};
use tempfile::TempDir;

/// A home of its own for one test, so that nobody's ledger and settings are touched.
pub(crate) struct Home {
    folder: TempDir,
}

/// What a call came to.
pub(crate) struct Outcome {
    pub(crate) code: i32,
    pub(crate) out: String,
    pub(crate) err: String,
}

impl Home {
    pub(crate) fn new() -> Self {
        Self { folder: tempfile::tempdir().unwrap() }
    }

    pub(crate) fn path(&self) -> &Path {
        self.folder.path()
    }

    /// Writes a file, with folders.
    pub(crate) fn write(&self, name: &str, text: &str) {
        let path = self.path().join(name);
        std::fs::create_dir_all(path.parent().unwrap()).unwrap();
        std::fs::write(path, text).unwrap();
    }

    /// A call, ready to be started in this home.
    pub(crate) fn command(&self, words: &[&str]) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_rackful"));
        command
            .args(words)
            .current_dir(self.path())
            .env("HOME", self.path())
            .env("USER", "ana")
            .env("TZ", "America/Chicago");
        for (name, _) in rackful::config::VARIABLES {
            command.env_remove(name);
        }
        for name in ["XDG_DATA_HOME", "CREDENTIALS_DIRECTORY"] {
            command.env_remove(name);
        }
        command
    }

    /// Calls the program and gives it this standard input.
    pub(crate) fn run(&self, words: &[&str], input: &str) -> Outcome {
        finish(self.command(words), input)
    }
}

/// Starts a command, gives it its input, and waits.
pub(crate) fn finish(mut command: Command, input: &str) -> Outcome {
    let mut child = command.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
    let mut stdin = child.stdin.take().unwrap();
    let input = input.to_owned();
    // From a thread of its own: the program may write before it has read all, and may stop reading.
    let writer = std::thread::spawn(move || stdin.write_all(input.as_bytes()));
    let output = child.wait_with_output().unwrap();
    let _ = writer.join().unwrap();
    Outcome {
        code: output.status.code().unwrap(),
        out: String::from_utf8(output.stdout).unwrap(),
        err: String::from_utf8(output.stderr).unwrap(),
    }
}

impl Outcome {
    /// It went well and has nothing to complain of.
    #[track_caller]
    pub(crate) fn well(self) -> String {
        assert_eq!((self.code, self.err.as_str()), (0, ""));
        self.out
    }

    /// It failed with this code and one plain sentence that holds this.
    #[track_caller]
    pub(crate) fn failed(self, code: i32, says: &str) {
        assert_eq!(self.code, code, "{}", self.err);
        assert!(self.err.starts_with("rackful: ") && self.err.contains(says), "{}", self.err);
        assert_eq!(self.err.lines().count(), 1, "{}", self.err);
    }
}
