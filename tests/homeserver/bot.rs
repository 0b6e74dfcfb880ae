//! The program itself, as a process: `rackful serve`.

use crate::person::wait;
use crate::synapse::Synapse;
use std::process::{Child, Command, ExitStatus, Stdio};

pub const USER: &str = "@rackful:home.test";

/// The assistant's process and its data folder. It ends with this.
pub struct Bot {
    folder: tempfile::TempDir,
    address: String,
    variables: Vec<(&'static str, String)>,
    child: Option<Child>,
}

impl Bot {
    /// An assistant that obeys Ana, on this server, with the password of its account; not yet started.
    pub fn new(server: &Synapse) -> Self {
        Self {
            folder: tempfile::tempdir().unwrap(),
            address: server.address(),
            variables: vec![("RACKFUL_PASSWORD", "rackful".into()), ("RACKFUL_ALLOW", "@ana:home.test".into())],
            child: None,
        }
    }

    /// As [`Bot::new`], its account registered, started, and in a room that Ana has made.
    pub fn in_a_room(server: &Synapse, ana: &crate::person::Person, version: &str) -> (Self, String) {
        server.register("rackful");
        let mut bot = Self::new(server);
        bot.start();
        let room = ana.room(version, &[USER]);
        ana.wait_member(&room, USER, "join");
        (bot, room)
    }

    /// Sets an environment variable of later starts.
    pub fn set(&mut self, name: &'static str, value: &str) {
        self.variables.retain(|(known, _)| *known != name);
        self.variables.push((name, value.to_owned()));
    }

    /// Another homeserver for later starts.
    pub fn set_address(&mut self, address: &str) {
        address.clone_into(&mut self.address);
    }

    pub fn start(&mut self) {
        assert!(self.child.is_none());
        let log = std::fs::OpenOptions::new().create(true).append(true).open(self.log_file()).unwrap();
        let mut command = self.command(&["serve"]);
        command.stdin(Stdio::null()).stdout(Stdio::null()).stderr(log);
        self.child = Some(command.spawn().unwrap());
    }

    /// What `check` says on standard output; all must be well.
    pub fn check(&self) -> String {
        self.run(&["check"])
    }

    /// What a subcommand says on standard output; all must be well.
    pub fn run(&self, words: &[&str]) -> String {
        let output = self.command(words).output().unwrap();
        assert!(output.status.success(), "{output:?}");
        String::from_utf8(output.stdout).unwrap()
    }

    /// What a subcommand that must fail says on standard error.
    pub fn fails(&self, words: &[&str]) -> String {
        let output = self.command(words).output().unwrap();
        assert_eq!(output.status.code(), Some(1), "{output:?}");
        String::from_utf8(output.stderr).unwrap()
    }

    fn command(&self, words: &[&str]) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_rackful"));
        command.arg("--data").arg(self.folder.path().join("data")).args(words);
        command.env_clear().env("PATH", std::env::var_os("PATH").unwrap_or_default()).env("HOME", self.folder.path());
        command.env("RACKFUL_HOMESERVER", &self.address).env("RACKFUL_USER", USER).envs(self.variables.iter().cloned());
        command.current_dir(self.folder.path());
        command
    }

    /// By SIGKILL: nothing can be tidied up.
    pub fn kill(&mut self) {
        let mut child = self.child.take().unwrap();
        child.kill().unwrap();
        child.wait().unwrap();
    }

    /// By SIGTERM, as a service manager does.
    pub fn stop(&mut self) -> ExitStatus {
        let pid = self.pid().to_string();
        assert!(Command::new("kill").args(["-TERM", &pid]).status().unwrap().success());
        self.ended()
    }

    /// Waits for it to end.
    pub fn ended(&mut self) -> ExitStatus {
        let mut child = self.child.take().unwrap();
        let mut status = None;
        wait("the program to end", || {
            status = child.try_wait().unwrap();
            status.is_some()
        });
        status.unwrap()
    }

    /// Its process, which must be running.
    pub fn pid(&self) -> u32 {
        self.child.as_ref().unwrap().id()
    }

    pub fn is_running(&mut self) -> bool {
        self.child.as_mut().is_some_and(|child| child.try_wait().unwrap().is_none())
    }

    /// What it wrote to standard error so far.
    pub fn log(&self) -> String {
        std::fs::read_to_string(self.log_file()).unwrap_or_default()
    }

    /// A file of its data folder.
    pub fn file(&self, name: &str) -> std::path::PathBuf {
        self.folder.path().join("data").join(name)
    }

    fn log_file(&self) -> std::path::PathBuf {
        self.folder.path().join("log")
    }
}

impl Drop for Bot {
    fn drop(&mut self) {
        if let Some(child) = &mut self.child {
            let _ = child.kill();
            let _ = child.wait();
        }
        if std::thread::panicking() {
            eprintln!("the program's log:\n{}", self.log());
        }
    }
}
