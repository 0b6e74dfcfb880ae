//! A bad line between the assistant and the homeserver.

use crate::synapse::{Synapse, free_port, python};
use serde_json::{Value, json};
use std::io::{BufRead, BufReader, Write};
use std::process::{Child, ChildStdin, ChildStdout, Stdio};

pub struct FaultyLine {
    port: u16,
    orders: ChildStdin,
    answers: BufReader<ChildStdout>,
    child: Child,
    _folder: tempfile::TempDir,
}

impl FaultyLine {
    /// A line that is good until told otherwise.
    pub fn start(server: &Synapse) -> Self {
        let (folder, port) = (tempfile::tempdir().unwrap(), free_port());
        let program = folder.path().join("faulty_line.py");
        std::fs::write(&program, include_str!("faulty_line.py")).unwrap();
        let mut command = python();
        command.arg(program).arg(port.to_string()).arg(server.address());
        let mut child = command.stdin(Stdio::piped()).stdout(Stdio::piped()).spawn().unwrap();
        let (orders, answers) = (child.stdin.take().unwrap(), BufReader::new(child.stdout.take().unwrap()));
        let mut line = Self { port, orders, answers, child, _folder: folder };
        assert_eq!(line.read()["ready"], true);
        line
    }

    pub fn address(&self) -> String {
        format!("http://127.0.0.1:{}", self.port)
    }

    /// Spoils this share of the requests from now on, and says what was spoilt until now.
    pub fn storm(&mut self, share: f64, seed: u64) -> Value {
        writeln!(self.orders, "{}", json!({"storm": share, "seed": seed})).unwrap();
        self.read()
    }

    fn read(&mut self) -> Value {
        let mut line = String::new();
        self.answers.read_line(&mut line).unwrap();
        serde_json::from_str(&line).unwrap_or_else(|_| panic!("the line's program ended: {line}"))
    }
}

impl Drop for FaultyLine {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}
