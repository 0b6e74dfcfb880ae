//! Replies in encrypted rooms. The person is a client of the same Matrix library as both bots, in this process.

use crate::bot;
use crate::contest::{self, Side};
use crate::echo::{self, Echo};
use crate::household::program;
use crate::synapse::{Rations, Synapse};
use matrix_sdk::config::{SyncSettings, SyncToken};
use matrix_sdk::ruma::api::client::room::create_room::v3::Request;
use matrix_sdk::ruma::events::room::encryption::RoomEncryptionEventContent;
use matrix_sdk::ruma::events::room::message::{Relation, RoomMessageEventContent};
use matrix_sdk::ruma::events::{AnySyncMessageLikeEvent, AnySyncTimelineEvent, InitialStateEvent};
use matrix_sdk::ruma::{OwnedEventId, UserId};
use matrix_sdk::{Client, Room, RoomMemberships};
use std::cell::RefCell;
use std::time::Duration;

/// So many, each with a room of their own, that none of them writes more than the program answers one person in a
/// minute.
const PEOPLE: usize = 16;

/// Somebody who talks with both.
struct Somebody {
    client: Client,
    since: Option<String>,
}

impl Somebody {
    async fn log_in(server: &Synapse, name: &str) -> Self {
        server.register(name);
        let client = Client::builder().homeserver_url(server.address()).build().await.unwrap();
        client.matrix_auth().login_username(name, name).send().await.unwrap();
        Self { client, since: None }
    }

    /// Syncs once and returns which events were answered.
    async fn sync(&mut self) -> Vec<OwnedEventId> {
        let settings = SyncSettings::new().timeout(Duration::from_secs(10));
        let settings = match self.since.take() {
            Some(since) => settings.token(since),
            None => settings.token(SyncToken::NoToken),
        };
        let news = self.client.sync_once(settings).await.unwrap();
        self.since = Some(news.next_batch);
        let events = news.rooms.joined.values().flat_map(|update| &update.timeline.events);
        events.filter_map(|event| event.raw().deserialize().ok()).filter_map(|event| answered(&event)).collect()
    }

    /// An encrypted room with a bot that has joined.
    async fn room(&mut self, bot: &str) -> Room {
        let bot = UserId::parse(bot).unwrap();
        let mut request = Request::new();
        request.invite = vec![bot.clone()];
        let encrypted = RoomEncryptionEventContent::with_recommended_defaults();
        request.initial_state = vec![InitialStateEvent::with_empty_state_key(encrypted).to_raw_any()];
        let room = self.client.create_room(request).await.unwrap();
        loop {
            self.sync().await;
            let members = room.members(RoomMemberships::JOIN).await.unwrap();
            if members.iter().any(|member| member.user_id() == bot) {
                return room;
            }
        }
    }

    async fn ask(&mut self, room: &Room, words: &str) {
        let event = room.send(RoomMessageEventContent::text_plain(words)).await.unwrap().response.event_id;
        while !self.sync().await.contains(&event) {}
    }
}

fn answered(event: &AnySyncTimelineEvent) -> Option<OwnedEventId> {
    let AnySyncTimelineEvent::MessageLike(AnySyncMessageLikeEvent::RoomMessage(message)) = event else { return None };
    match &message.as_original()?.content.relates_to {
        Some(Relation::Reply(reply)) => Some(reply.in_reply_to.event_id.clone()),
        _ => None,
    }
}

/// Measures and prints.
pub fn run(messages: usize) {
    let server = Synapse::start(Rations::None);
    server.register("rackful");
    server.register(echo::NAME);
    let (program, echo) = (program(&server), Echo::start(&server.address()));
    let runtime = tokio::runtime::Builder::new_multi_thread().enable_all().build().unwrap();
    let mut people = Vec::new();
    for n in 0..PEOPLE {
        people.push(RefCell::new(runtime.block_on(Somebody::log_in(&server, &format!("person{n}")))));
    }
    let side = |bot: &str, pid: u32| {
        let rooms: Vec<Room> = people.iter().map(|who| runtime.block_on(who.borrow_mut().room(bot))).collect();
        let (people, runtime) = (&people, &runtime);
        let ask = move |n: usize| {
            let (who, room) = (n % PEOPLE, &rooms[n % PEOPLE]);
            runtime.block_on(people[who].borrow_mut().ask(room, &format!("froze {} lb", 1 + n % 9)));
        };
        Side { ask: Box::new(ask), pid }
    };
    let (ours, theirs) = (side(bot::USER, program.pid()), side(echo::USER, echo.pid()));
    contest::run("Replies in encrypted rooms", messages, ours, theirs);
}
