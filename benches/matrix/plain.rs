//! Replies in rooms that are not encrypted; people speak plain HTTP.

use crate::bot;
use crate::contest::{self, Side};
use crate::echo::{self, Echo};
use crate::household::{gather, people, program};
use crate::person::Person;
use crate::synapse::{Rations, Synapse};
use serde_json::{Value, json};

/// Somebody who sees what a bot says in a room.
struct Watcher {
    agent: ureq::Agent,
    address: String,
    token: String,
    filter: String,
    since: String,
}

impl Watcher {
    /// Sees what is said from now on.
    fn new(server: &Synapse, person: &Person, room: &str, bot: &str) -> Self {
        let nothing = json!({"types": []});
        let timeline = json!({"types": ["m.room.message"], "senders": [bot], "limit": 50});
        let filter = json!({
            "presence": nothing,
            "account_data": nothing,
            "room": {
                "rooms": [room], "ephemeral": nothing, "account_data": nothing, "state": nothing, "timeline": timeline
            }
        });
        let filter = filter.to_string().bytes().map(|byte| format!("%{byte:02x}")).collect();
        let mut watcher = Self {
            agent: ureq::Agent::new_with_defaults(),
            address: server.address(),
            token: person.token().to_owned(),
            filter,
            since: String::new(),
        };
        watcher.sync(0);
        watcher
    }

    fn sync(&mut self, hold: u32) -> Value {
        let Self { address, filter, since, .. } = self;
        let since_when = if since.is_empty() { String::new() } else { format!("&since={since}") };
        let request = format!("{address}/_matrix/client/v3/sync?timeout={hold}&filter={filter}{since_when}");
        let request = self.agent.get(request).header("Authorization", format!("Bearer {}", self.token));
        let answer: Value = request.call().unwrap().body_mut().read_json().unwrap();
        answer["next_batch"].as_str().unwrap().clone_into(&mut self.since);
        answer
    }

    /// Returns when an answer to this event has come.
    fn answer(&mut self, room: &str, event: &str) {
        loop {
            let news = self.sync(30_000);
            let said = news["rooms"]["join"][room]["timeline"]["events"].as_array().cloned().unwrap_or_default();
            if said.iter().any(|said| said["content"]["m.relates_to"]["m.in_reply_to"]["event_id"] == event) {
                return;
            }
        }
    }
}

/// People in a room with one bot.
struct Household<'a> {
    people: &'a [Person],
    room: String,
    watcher: Watcher,
}

impl<'a> Household<'a> {
    fn new(server: &Synapse, people: &'a [Person], bot: &str) -> Self {
        let room = gather(people, bot);
        let watcher = Watcher::new(server, &people[0], &room, bot);
        Self { people, room, watcher }
    }

    fn ask(&mut self, n: usize) {
        let event = self.people[n % self.people.len()].say(&self.room, &format!("froze {} lb", 1 + n % 9));
        self.watcher.answer(&self.room, &event);
    }
}

/// Measures and prints.
pub fn run(messages: usize) {
    let server = Synapse::start(Rations::None);
    server.register("rackful");
    server.register(echo::NAME);
    let people = people(&server);
    let (program, echo) = (program(&server), Echo::start(&server.address()));
    let mut ours = Household::new(&server, &people, bot::USER);
    let mut theirs = Household::new(&server, &people, echo::USER);
    let ours = Side { ask: Box::new(|n| ours.ask(n)), pid: program.pid() };
    let theirs = Side { ask: Box::new(|n| theirs.ask(n)), pid: echo.pid() };
    contest::run("Replies in a plain room", messages, ours, theirs);
}
