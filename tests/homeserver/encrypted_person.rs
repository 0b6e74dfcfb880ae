//! A member of the household in an encrypted room: another client implementation, in a process of its own.

use crate::person::wait;
use crate::synapse::{Synapse, python};
use serde_json::{Value, json};
use std::cell::RefCell;
use std::io::{BufRead, BufReader, Write};
use std::process::{Child, ChildStdin, ChildStdout, Stdio};

pub struct EncryptedPerson {
    inner: RefCell<(ChildStdin, BufReader<ChildStdout>)>,
    child: Child,
    to: String,
    _folder: tempfile::TempDir,
}

impl EncryptedPerson {
    /// A registered user logs in with a new device; what it says is for `to` too.
    pub fn new(server: &Synapse, name: &str, to: &str) -> Self {
        let folder = tempfile::tempdir().unwrap();
        std::fs::write(folder.path().join("person.py"), include_str!("encrypted_person.py")).unwrap();
        let mut command = python();
        command.arg(folder.path().join("person.py")).arg(server.address()).args([&format!("@{name}:home.test"), name]);
        command.arg(folder.path()).stdin(Stdio::piped()).stdout(Stdio::piped());
        let mut child = command.spawn().unwrap();
        let pipes = (child.stdin.take().unwrap(), BufReader::new(child.stdout.take().unwrap()));
        let person = Self { inner: RefCell::new(pipes), child, to: to.to_owned(), _folder: folder };
        assert_eq!(person.read()["ready"], true);
        person
    }

    fn read(&self) -> Value {
        let mut line = String::new();
        self.inner.borrow_mut().1.read_line(&mut line).unwrap();
        let answer: Value = serde_json::from_str(&line).unwrap_or_else(|_| panic!("the other client ended: {line}"));
        assert!(answer.get("error").is_none(), "{answer}");
        answer
    }

    fn order(&self, order: Value) -> Value {
        writeln!(self.inner.borrow_mut().0, "{order}").unwrap();
        self.read()
    }

    /// A new encrypted room with these people invited.
    pub fn room(&self, invited: &[&str]) -> String {
        self.order(json!({"do": "room", "invite": invited}))["room"].as_str().unwrap().to_owned()
    }

    /// Sends content, encrypted, and returns the event's id; `more` says how.
    pub fn send(&self, room: &str, content: Value, more: Value) -> String {
        let mut order = json!({"do": "say", "room": room, "to": self.to, "content": content});
        order.as_object_mut().unwrap().extend(more.as_object().unwrap().clone());
        self.order(order)["event"].as_str().unwrap().to_owned()
    }

    pub fn say(&self, room: &str, words: &str) -> String {
        self.send(room, json!({"msgtype": "m.text", "body": words}), json!({}))
    }

    /// Says words whose key is held back.
    pub fn say_locked(&self, room: &str, words: &str) -> String {
        self.send(room, json!({"msgtype": "m.text", "body": words}), json!({"hold": true, "new_key": true}))
    }

    /// Sends the keys that were held back.
    pub fn release(&self) {
        self.order(json!({"do": "release"}));
    }

    /// The keys that were held back are lost.
    pub fn forget(&self) {
        self.order(json!({"do": "forget"}));
    }

    pub fn edit(&self, room: &str, target: &str, words: &str) -> String {
        let content = json!({"msgtype": "m.text", "body": format!("* {words}"),
            "m.new_content": {"msgtype": "m.text", "body": words},
            "m.relates_to": {"rel_type": "m.replace", "event_id": target}});
        self.send(room, content, json!({}))
    }

    pub fn reply(&self, room: &str, target: &str, words: &str) -> String {
        let content =
            json!({"msgtype": "m.text", "body": words, "m.relates_to": {"m.in_reply_to": {"event_id": target}}});
        self.send(room, content, json!({}))
    }

    pub fn redact(&self, room: &str, event: &str) {
        self.order(json!({"do": "redact", "room": room, "event": event}));
    }

    /// Every event that came decrypted, as `{room, event, sender, type, content, encrypted}`.
    pub fn heard(&self) -> Vec<Value> {
        self.order(json!({"do": "heard"}))["heard"].as_array().unwrap().clone()
    }

    /// The ids of events that cannot be read.
    pub fn locked(&self) -> Vec<String> {
        let locked = self.order(json!({"do": "heard"}));
        locked["locked"].as_array().unwrap().iter().map(|id| id.as_str().unwrap().to_owned()).collect()
    }

    /// The answers to an event that could be read.
    pub fn answers(&self, event: &str) -> Vec<Value> {
        let answers = |said: &Value| said["content"]["m.relates_to"]["m.in_reply_to"]["event_id"] == event;
        self.heard().into_iter().filter(answers).filter(|said| said["sender"] == self.to.as_str()).collect()
    }

    pub fn answer(&self, event: &str) -> Value {
        let mut found = None;
        wait(&format!("an encrypted answer to {event}"), || {
            found = self.answers(event).pop();
            found.is_some()
        });
        found.unwrap()
    }

    /// What an encrypted file of a message holds, in hexadecimal.
    pub fn open_file(&self, file: &Value) -> String {
        self.order(json!({"do": "open", "file": file}))["bytes"].as_str().unwrap().to_owned()
    }

    /// How many devices of a user there are, each checked to be signed by the user's own identity.
    pub fn signed_devices(&self, user: &str) -> u64 {
        self.order(json!({"do": "trust", "user": user}))["signed"].as_u64().unwrap()
    }
}

impl Drop for EncryptedPerson {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}
