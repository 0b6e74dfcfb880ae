//! A member of the household, by raw HTTP: nothing of the assistant's own Matrix library.

use serde_json::{Value, json};
use std::sync::atomic::{AtomicU64, Ordering};
use std::time::{Duration, Instant};

/// How long anything may take.
pub const PATIENCE: Duration = Duration::from_secs(40);

pub struct Person {
    address: String,
    pub id: String,
    token: String,
    agent: ureq::Agent,
    transactions: AtomicU64,
}

/// What somebody said in a room.
#[derive(Clone, Debug)]
pub struct Message {
    pub id: String,
    pub sender: String,
    pub kind: String,
    pub body: String,
    pub html: String,
    /// What it answers.
    pub re: Option<String>,
    pub content: Value,
}

impl Person {
    pub fn new(address: &str, id: &str, token: &str) -> Self {
        let agent = ureq::Agent::config_builder().http_status_as_error(false).build().into();
        let (address, id, token) = (address.into(), id.into(), token.into());
        Self { address, id, token, agent, transactions: AtomicU64::new(0) }
    }

    pub fn token(&self) -> &str {
        &self.token
    }

    /// A call that must go well. When the homeserver rations, it is made again.
    fn call(&self, method: &str, path: &str, body: Option<Value>) -> Value {
        self.call_at("v3", method, path, body)
    }

    fn call_at(&self, version: &str, method: &str, path: &str, body: Option<Value>) -> Value {
        let request = || {
            let request = ureq::http::Request::builder()
                .method(method)
                .uri(format!("{}/_matrix/client/{version}/{path}", self.address))
                .header("Authorization", format!("Bearer {}", self.token));
            let body = body.as_ref().map(Value::to_string).unwrap_or_default();
            self.agent.run(request.body(body).unwrap()).unwrap()
        };
        loop {
            let mut answer = request();
            let value: Value = answer.body_mut().read_json().unwrap();
            match answer.status().as_u16() {
                200 => return value,
                429 => std::thread::sleep(Duration::from_millis(value["retry_after_ms"].as_u64().unwrap_or(200))),
                status => panic!("{method} {path}: {status} {value}"),
            }
        }
    }

    fn transaction(&self) -> String {
        format!("t{}", self.transactions.fetch_add(1, Ordering::Relaxed))
    }

    /// A new private room of a version, with these people invited.
    pub fn room(&self, version: &str, invited: &[&str]) -> String {
        let room = json!({"preset": "private_chat", "room_version": version, "invite": invited});
        self.call("POST", "createRoom", Some(room))["room_id"].as_str().unwrap().to_owned()
    }

    pub fn invite(&self, room: &str, who: &str) {
        self.call("POST", &format!("rooms/{room}/invite"), Some(json!({"user_id": who})));
    }

    /// Replaces a room by a new one of a version, and returns that.
    pub fn upgrade(&self, room: &str, version: &str) -> String {
        let upgraded = self.call("POST", &format!("rooms/{room}/upgrade"), Some(json!({"new_version": version})));
        upgraded["replacement_room"].as_str().unwrap().to_owned()
    }

    /// `kick`, `ban` or `unban`.
    pub fn show_out(&self, how: &str, room: &str, who: &str) {
        self.call("POST", &format!("rooms/{room}/{how}"), Some(json!({"user_id": who})));
    }

    pub fn join(&self, room: &str) {
        self.call("POST", &format!("rooms/{room}/join"), Some(json!({})));
    }

    /// Waits until somebody's membership is this.
    pub fn wait_member(&self, room: &str, who: &str, membership: &str) {
        wait(&format!("{who} to be a member ({membership})"), || self.membership(room, who) == membership);
    }

    pub fn membership(&self, room: &str, who: &str) -> String {
        let members = self.call("GET", &format!("rooms/{room}/members"), None);
        let of = |event: &&Value| event["state_key"] == who;
        let member = members["chunk"].as_array().unwrap().iter().find(of).cloned().unwrap_or_default();
        member["content"]["membership"].as_str().unwrap_or("none").to_owned()
    }

    /// Says words, and returns the event's id.
    pub fn say(&self, room: &str, words: &str) -> String {
        self.send(room, json!({"msgtype": "m.text", "body": words}))
    }

    pub fn send(&self, room: &str, content: Value) -> String {
        let path = format!("rooms/{room}/send/m.room.message/{}", self.transaction());
        self.call("PUT", &path, Some(content))["event_id"].as_str().unwrap().to_owned()
    }

    /// Sends content that the homeserver may refuse, and says whether it took it.
    pub fn try_send(&self, room: &str, content: &Value) -> bool {
        let address =
            format!("{}/_matrix/client/v3/rooms/{room}/send/m.room.message/{}", self.address, self.transaction());
        let request = self.agent.put(address).header("Authorization", format!("Bearer {}", self.token));
        request.send(content.to_string()).unwrap().status().is_success()
    }

    pub fn edit(&self, room: &str, target: &str, words: &str) -> String {
        let content = json!({"msgtype": "m.text", "body": format!("* {words}"),
            "m.new_content": {"msgtype": "m.text", "body": words},
            "m.relates_to": {"rel_type": "m.replace", "event_id": target}});
        self.send(room, content)
    }

    /// Says words in the thread that hangs on an event.
    pub fn say_in(&self, room: &str, thread: &str, words: &str) -> String {
        let relation = json!({"rel_type": "m.thread", "event_id": thread, "is_falling_back": true,
            "m.in_reply_to": {"event_id": thread}});
        self.send(room, json!({"msgtype": "m.text", "body": words, "m.relates_to": relation}))
    }

    /// Replies to an event.
    pub fn reply(&self, room: &str, target: &str, words: &str) -> String {
        let relation = json!({"m.in_reply_to": {"event_id": target}});
        self.send(room, json!({"msgtype": "m.text", "body": words, "m.relates_to": relation}))
    }

    /// Reacts to an event, and returns the reaction's id.
    pub fn react(&self, room: &str, target: &str, key: &str) -> String {
        let path = format!("rooms/{room}/send/m.reaction/{}", self.transaction());
        let content = json!({"m.relates_to": {"rel_type": "m.annotation", "event_id": target, "key": key}});
        self.call("PUT", &path, Some(content))["event_id"].as_str().unwrap().to_owned()
    }

    /// The reactions of somebody to an event.
    pub fn reactions(&self, room: &str, target: &str, who: &str) -> Vec<String> {
        let path = format!("rooms/{room}/relations/{target}/m.annotation");
        let found = self.call_at("v1", "GET", &path, None);
        let by = |event: &&Value| event["sender"] == who;
        let key = |event: &Value| event["content"]["m.relates_to"]["key"].as_str().unwrap().to_owned();
        found["chunk"].as_array().unwrap().iter().filter(by).map(key).collect()
    }

    /// The event up to which somebody has read.
    pub fn read_up_to(&self, room: &str, who: &str) -> Option<String> {
        // The homeserver gives the same answer to the same question for two minutes.
        let limit = 1 + self.transactions.fetch_add(1, Ordering::Relaxed);
        let filter = json!({"presence": {"types": []}, "room": {"timeline": {"limit": limit}}}).to_string();
        let filter: String = filter.bytes().map(|byte| format!("%{byte:02x}")).collect();
        let synced = self.call("GET", &format!("sync?timeout=0&filter={filter}"), None);
        let events = synced["rooms"]["join"][room]["ephemeral"]["events"].as_array()?.clone();
        let receipts = events.into_iter().find(|event| event["type"] == "m.receipt")?;
        let mut found = receipts["content"].as_object()?.iter();
        found.find(|(_, by)| by["m.read"].get(who).is_some()).map(|(event, _)| event.clone())
    }

    pub fn redact(&self, room: &str, target: &str) {
        self.call("PUT", &format!("rooms/{room}/redact/{target}/{}", self.transaction()), Some(json!({})));
    }

    /// All that was said in a room and not deleted, oldest first.
    pub fn said(&self, room: &str) -> Vec<Message> {
        let mut said = Vec::new();
        let mut from = String::new();
        loop {
            let page = self.call("GET", &format!("rooms/{room}/messages?dir=f&limit=500{from}"), None);
            let chunk = page["chunk"].as_array().unwrap();
            said.extend(chunk.iter().filter(|event| event["type"] == "m.room.message").filter_map(message));
            match page["end"].as_str() {
                Some(end) if !chunk.is_empty() => from = format!("&from={end}"),
                _ => return said,
            }
        }
    }

    /// All that somebody else said, oldest first.
    pub fn said_by(&self, room: &str, who: &str) -> Vec<Message> {
        self.said(room).into_iter().filter(|message| message.sender == who).collect()
    }

    /// What made this person's phone ring, by the homeserver's own account, and whether with a highlight.
    pub fn rung(&self) -> Vec<(String, bool)> {
        let answer = self.call("GET", "notifications", None);
        let rung = answer["notifications"].as_array().unwrap().iter();
        rung.map(|note| {
            let highlight = |action: &&Value| action["set_tweak"] == "highlight" && action["value"] != false;
            let highlights = note["actions"].as_array().unwrap().iter().find(highlight).is_some();
            (note["event"]["event_id"].as_str().unwrap().to_owned(), highlights)
        })
        .collect()
    }

    /// What lies at a media address.
    pub fn download(&self, address: &str) -> Vec<u8> {
        let path = address.strip_prefix("mxc://").unwrap();
        let request = ureq::http::Request::builder()
            .uri(format!("{}/_matrix/client/v1/media/download/{path}", self.address))
            .header("Authorization", format!("Bearer {}", self.token));
        let mut answer = self.agent.run(request.body(()).unwrap()).unwrap();
        assert_eq!(answer.status().as_u16(), 200, "{address}");
        answer.body_mut().read_to_vec().unwrap()
    }

    /// Waits for the answer to an event.
    pub fn answer(&self, room: &str, event: &str) -> Message {
        let mut found = None;
        wait(&format!("an answer to {event}"), || {
            found = self.answers(room, event).pop();
            found.is_some()
        });
        found.unwrap()
    }

    /// All answers to an event.
    pub fn answers(&self, room: &str, event: &str) -> Vec<Message> {
        self.said(room).into_iter().filter(|message| message.re.as_deref() == Some(event)).collect()
    }

    /// Says words and waits for the answer.
    pub fn ask(&self, room: &str, words: &str) -> Message {
        let event = self.say(room, words);
        self.answer(room, &event)
    }
}

fn message(event: &Value) -> Option<Message> {
    let content = &event["content"];
    let text = |value: &Value| value.as_str().unwrap_or_default().to_owned();
    Some(Message {
        id: text(&event["event_id"]),
        sender: text(&event["sender"]),
        kind: content["msgtype"].as_str()?.to_owned(),
        body: text(&content["body"]),
        html: text(&content["formatted_body"]),
        re: content["m.relates_to"]["m.in_reply_to"]["event_id"].as_str().map(str::to_owned),
        content: content.clone(),
    })
}

/// Waits until something is so.
pub fn wait(what: &str, so: impl FnMut() -> bool) {
    wait_long(what, PATIENCE, so);
}

/// Waits until something is so that may take long.
pub fn wait_long(what: &str, patience: Duration, mut so: impl FnMut() -> bool) {
    let start = Instant::now();
    while !so() {
        assert!(start.elapsed() < patience, "waited in vain for {what}");
        std::thread::sleep(Duration::from_millis(40));
    }
}
