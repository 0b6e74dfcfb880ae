//! A real homeserver: Synapse, installed once into the target folder and started on loopback for each test.

use crate::person::Person;
use hmac::{Hmac, Mac};
use serde_json::{Value, json};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::sync::OnceLock;
use std::time::{Duration, Instant};

const REQUIREMENTS: &str = include_str!("requirements.txt");
const SECRET: &str = "test";

/// Whether messages are rationed.
#[derive(Clone, Copy, PartialEq)]
pub enum Rations {
    /// As much as anybody likes.
    None,
    /// As Synapse comes: ten messages, then one in five seconds for each user.
    Own,
}

/// A running homeserver. It ends with this, and also when the tests' process dies: it watches its standard input.
pub struct Synapse {
    folder: tempfile::TempDir,
    port: u16,
    child: Option<Child>,
}

impl Synapse {
    pub fn start(rations: Rations) -> Self {
        let mut server = Self { folder: tempfile::tempdir().unwrap(), port: free_port(), child: None };
        std::fs::write(server.folder.path().join("homeserver.yaml"), server.settings(rations).to_string()).unwrap();
        let logging = json!({"version": 1, "handlers": {"file": {"class": "logging.FileHandler",
            "filename": server.folder.path().join("log")}}, "root": {"level": "WARNING", "handlers": ["file"]}});
        std::fs::write(server.folder.path().join("log.yaml"), logging.to_string()).unwrap();
        let made = server.python().arg("--generate-keys").output().unwrap();
        assert!(made.status.success(), "{}", String::from_utf8_lossy(&made.stderr));
        server.up();
        server
    }

    /// Starts it, again on the same data.
    pub fn up(&mut self) {
        assert!(self.child.is_none());
        self.child =
            Some(self.python().stdin(Stdio::piped()).stdout(Stdio::null()).stderr(Stdio::null()).spawn().unwrap());
        let start = Instant::now();
        while ureq::get(format!("{}/_matrix/client/versions", self.address())).call().is_err() {
            let log = std::fs::read_to_string(self.folder.path().join("log")).unwrap_or_default();
            assert!(start.elapsed() < Duration::from_secs(60), "the homeserver does not start: {log}");
            std::thread::sleep(Duration::from_millis(50));
        }
    }

    /// Stops it.
    pub fn down(&mut self) {
        if let Some(mut child) = self.child.take() {
            // Its standard input closes with this, and it ends.
            drop(child.stdin.take());
            child.wait().unwrap();
        }
    }

    pub fn address(&self) -> String {
        format!("http://127.0.0.1:{}", self.port)
    }

    /// A new user, whose password is the name.
    pub fn register(&self, name: &str) -> Person {
        let register = format!("{}/_synapse/admin/v1/register", self.address());
        let nonce: Value = ureq::get(&register).call().unwrap().body_mut().read_json().unwrap();
        let nonce = nonce["nonce"].as_str().unwrap();
        let mut mac = Hmac::<sha1::Sha1>::new_from_slice(SECRET.as_bytes()).unwrap();
        mac.update([nonce, name, name, "notadmin"].join("\0").as_bytes());
        let mac: String = mac.finalize().into_bytes().iter().map(|byte| format!("{byte:02x}")).collect();
        let user = json!({"nonce": nonce, "username": name, "password": name, "admin": false, "mac": mac});
        let user: Value = ureq::post(&register).send_json(user).unwrap().body_mut().read_json().unwrap();
        Person::new(&self.address(), user["user_id"].as_str().unwrap(), user["access_token"].as_str().unwrap())
    }

    fn python(&self) -> Command {
        // The thread ends the server when this process closes the pipe, be it by dying.
        const RUN: &str = "import os, runpy, sys, threading\n\
            threading.Thread(target=lambda: (sys.stdin.read(), os._exit(0)), daemon=True).start()\n\
            runpy.run_module('synapse.app.homeserver', run_name='__main__', alter_sys=True)";
        const KEYS: &str =
            "import runpy; runpy.run_module('synapse.app.homeserver', run_name='__main__', alter_sys=True)";
        let mut python = python();
        let run = if self.child_folder_has_keys() { RUN } else { KEYS };
        python.args(["-c", run, "-c"]).arg(self.folder.path().join("homeserver.yaml")).current_dir(self.folder.path());
        python
    }

    fn child_folder_has_keys(&self) -> bool {
        self.folder.path().join("signing.key").exists()
    }

    fn settings(&self, rations: Rations) -> Value {
        let plenty = json!({"per_second": 100_000, "burst_count": 100_000});
        let path = |name: &str| self.folder.path().join(name);
        let mut settings = json!({
            "server_name": "home.test",
            "listeners": [{"port": self.port, "type": "http", "tls": false, "bind_addresses": ["127.0.0.1"],
                "resources": [{"names": ["client", "media"]}]}],
            "database": {"name": "sqlite3", "args": {"database": path("homeserver.db")}},
            "log_config": path("log.yaml"),
            "media_store_path": path("media"),
            "signing_key_path": path("signing.key"),
            "pid_file": path("pid"),
            "registration_shared_secret": SECRET,
            "macaroon_secret_key": SECRET,
            "form_secret": SECRET,
            "report_stats": false,
            "federation_domain_whitelist": [],
            "trusted_key_servers": [],
            "suppress_key_server_warning": true,
            "bcrypt_rounds": 4,
            "rc_registration": plenty,
            "rc_login": {"address": plenty, "account": plenty, "failed_attempts": plenty},
            "rc_joins": {"local": plenty, "remote": plenty},
            "rc_joins_per_room": plenty,
            "rc_invites": {"per_room": plenty, "per_user": plenty, "per_issuer": plenty},
            "rc_room_creation": plenty,
        });
        if rations == Rations::None {
            settings["rc_message"] = plenty;
        }
        settings
    }
}

impl Drop for Synapse {
    fn drop(&mut self) {
        if let Some(child) = &mut self.child {
            let _ = child.kill();
            let _ = child.wait();
        }
    }
}

/// The interpreter of the environment that the homeserver is installed in.
pub fn python() -> Command {
    Command::new(installed().join("bin").join("python"))
}

/// A port that was free a moment ago.
pub fn free_port() -> u16 {
    std::net::TcpListener::bind("127.0.0.1:0").unwrap().local_addr().unwrap().port()
}

/// The virtual environment with Synapse in it; made by whoever comes first, and kept under a name of its contents.
fn installed() -> &'static Path {
    static INSTALLED: OnceLock<PathBuf> = OnceLock::new();
    INSTALLED.get_or_init(|| {
        let version = REQUIREMENTS.lines().find_map(|line| line.strip_prefix("matrix-synapse==")).unwrap();
        // Any other change of the list counts too: its length and sum of bytes tell most apart.
        let sum: usize = REQUIREMENTS.bytes().enumerate().map(|(at, byte)| (at + 1) * usize::from(byte)).sum();
        let place = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("synapse-{version}-{sum:x}"));
        if !place.join("bin").join("python").exists() {
            install(&place);
        }
        place
    })
}

fn install(place: &Path) {
    let making = place.with_extension(std::process::id().to_string());
    let run = |command: &mut Command| {
        let output = command.output().unwrap_or_else(|error| panic!("these tests need python3: {error}"));
        let (out, err) = (String::from_utf8_lossy(&output.stdout), String::from_utf8_lossy(&output.stderr));
        assert!(output.status.success(), "{command:?}: {out}{err}");
    };
    run(Command::new("python3").args(["-m", "venv"]).arg(&making));
    let list = making.join("requirements.txt");
    std::fs::write(&list, REQUIREMENTS).unwrap();
    let python = making.join("bin").join("python");
    run(Command::new(python).args(["-m", "pip", "install", "--quiet", "--disable-pip-version-check", "-r"]).arg(list));
    if std::fs::rename(&making, place).is_err() {
        // Somebody else was faster.
        std::fs::remove_dir_all(&making).unwrap();
    }
}
