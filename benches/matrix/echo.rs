//! A bot that repeats what it hears and keeps nothing: the least that answers with the same Matrix library, built with
//! the same features and opened in the same way. It waits for the homeserver as the program does, by the library's
//! fastest loop.

use matrix_sdk::config::{SyncSettings, SyncToken};
use matrix_sdk::encryption::{BackupDownloadStrategy, EncryptionSettings};
use matrix_sdk::ruma::api::client::filter::{FilterDefinition, RoomEventFilter};
use matrix_sdk::ruma::api::client::sync::sync_events::v3::Filter;
use matrix_sdk::ruma::events::relation::InReplyTo;
use matrix_sdk::ruma::events::room::message::{MessageType, Relation, RoomMessageEventContent};
use matrix_sdk::ruma::events::{AnySyncMessageLikeEvent, AnySyncTimelineEvent};
use matrix_sdk::ruma::{UInt, UserId};
use matrix_sdk::{Client, Room, deserialized_responses::TimelineEvent};
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::time::Duration;

/// The word that makes this executable the bot.
pub const WORD: &str = "echo";

/// Its name and password.
pub const NAME: &str = "echo";

/// Its user.
pub const USER: &str = "@echo:home.test";

/// The bot's process and its folder. It ends with this.
pub struct Echo {
    child: Child,
    _folder: tempfile::TempDir,
}

impl Echo {
    pub fn start(address: &str) -> Self {
        let folder = tempfile::tempdir().unwrap();
        let mut command = Command::new(std::env::current_exe().unwrap());
        command.args([WORD, address]).arg(folder.path()).stdin(Stdio::null());
        Self { child: command.spawn().unwrap(), _folder: folder }
    }

    pub fn pid(&self) -> u32 {
        self.child.id()
    }
}

impl Drop for Echo {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// Runs the bot until it is killed.
pub fn run(address: &str, folder: &Path) {
    let runtime = tokio::runtime::Builder::new_multi_thread().enable_all().build().unwrap();
    runtime.block_on(answer_all(address, folder));
}

async fn answer_all(address: &str, folder: &Path) {
    let encryption = EncryptionSettings {
        auto_enable_cross_signing: true,
        backup_download_strategy: BackupDownloadStrategy::OneShot,
        ..Default::default()
    };
    let client = Client::builder().homeserver_url(address).with_encryption_settings(encryption);
    let client = client.sqlite_store(folder.join("sdk"), None).build().await.unwrap();
    client.matrix_auth().login_username(NAME, NAME).send().await.unwrap();
    let me = client.user_id().unwrap().to_owned();
    let mut since = None;
    loop {
        let settings = settings(&me);
        let settings = match since.take() {
            Some(since) => settings.token(SyncToken::Specific(since)),
            None => settings.token(SyncToken::NoToken),
        };
        let response = client.sync_once(settings).await.unwrap();
        for id in response.rooms.invited.keys() {
            client.get_room(id).unwrap().join().await.unwrap();
        }
        for (id, update) in &response.rooms.joined {
            let room = client.get_room(id).unwrap();
            for event in &update.timeline.events {
                repeat(&room, &me, event).await;
            }
        }
        since = Some(response.next_batch);
    }
}

/// The program's own filter.
fn settings(me: &UserId) -> SyncSettings {
    let mut filter = FilterDefinition::default();
    filter.presence = matrix_sdk::ruma::api::client::filter::Filter::ignore_all();
    filter.room.ephemeral = RoomEventFilter::ignore_all();
    filter.room.timeline.not_senders = vec![me.to_owned()];
    filter.room.timeline.limit = Some(UInt::from(100_u32));
    SyncSettings::new().timeout(Duration::from_secs(30)).filter(Filter::FilterDefinition(filter))
}

async fn repeat(room: &Room, me: &UserId, event: &TimelineEvent) {
    let Ok(AnySyncTimelineEvent::MessageLike(AnySyncMessageLikeEvent::RoomMessage(message))) =
        event.raw().deserialize()
    else {
        return;
    };
    let Some(message) = message.as_original().filter(|message| message.sender != me) else { return };
    let MessageType::Text(text) = &message.content.msgtype else { return };
    let mut content = RoomMessageEventContent::notice_plain(&text.body);
    let answered = InReplyTo::new(message.event_id.clone());
    content.relates_to = Some(Relation::Reply(matrix_sdk::ruma::events::relation::Reply::new(answered)));
    room.send(content).await.unwrap();
}
