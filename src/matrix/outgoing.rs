//! Sends what is in the outbox: a queue for each room, so that a room that is stuck stops no other. An entry leaves the
//! outbox only when the homeserver has named its event.

use super::homes::Homes;
use super::notice::{self, Past, Sent};
use super::owner::DeskHandle;
use super::settings::Permits;
use super::space::takes_nothing;
use super::trouble::{Backoff, ServeError, Trouble, reasons, trouble};
use crate::assistant::{OutKind, Outgoing};
use crate::clock::Clock;
use crate::ledger::MessageId;
use crate::store::Restored;
use chrono::TimeDelta;
use matrix_sdk::ruma::api::error::ErrorKind;
use matrix_sdk::ruma::{OwnedEventId, OwnedTransactionId, OwnedUserId, RoomId};
use matrix_sdk::{Client, Room, RoomMemberships, RoomState};
use std::collections::HashMap;
use std::path::PathBuf;
use std::sync::Arc;
use std::time::Duration;
use tokio::sync::mpsc::{UnboundedReceiver, UnboundedSender, unbounded_channel};
use tokio::sync::watch;
use tokio::task::JoinSet;

/// From this age on an entry is looked for in the room before it is sent: homeservers forget transaction ids after a
/// day, and clocks differ.
const OLD: TimeDelta = TimeDelta::hours(12);

/// For so long after the store was put back what goes out is looked for first: messages since then are heard again, and
/// what fell due since then falls due again.
const RESTORED: TimeDelta = TimeDelta::days(3);

/// How often a room that the account is not in is looked at again.
const OUTSIDE: Duration = Duration::from_secs(2);

/// So often even for a message of long ago: a homeserver may answer the first sync from its cache, as things were
/// before the account joined.
const LOOKS: u32 = 10;

/// What all queues need.
#[derive(Clone)]
pub(super) struct Sender {
    pub(super) client: Client,
    pub(super) me: OwnedUserId,
    pub(super) permits: Permits,
    pub(super) desk: DeskHandle,
    pub(super) clock: Arc<dyn Clock>,
    /// Where kitchens live.
    pub(super) homes: watch::Receiver<Homes>,
    /// The store was put back to an earlier state: then what was sent after that is looked for too.
    pub(super) restored: Option<Restored>,
    /// For the advice when the homeserver ends the session.
    pub(super) session_file: PathBuf,
}

impl Sender {
    /// Sends the outbox as it stands, then what comes, until nothing but a new process helps.
    pub(super) async fn run(self, mut news: UnboundedReceiver<Outgoing>) -> ServeError {
        let mut queues: HashMap<Arc<str>, UnboundedSender<Outgoing>> = HashMap::new();
        let mut tasks = JoinSet::new();
        let mut waiting = match self.desk.outbox().await {
            Ok(outbox) => outbox,
            Err(error) => return error,
        };
        // What was answered before this moment is in the outbox and among the news.
        while let Ok(message) = news.try_recv() {
            if !waiting.iter().any(|known| known.key == message.key) {
                waiting.push(message);
            }
        }
        let mut waiting = waiting.into_iter();
        loop {
            let message = match waiting.next() {
                Some(message) => message,
                None => tokio::select! {
                    message = news.recv() => match message {
                        Some(message) => message,
                        None => return ServeError::DeskGone,
                    },
                    Some(ended) = tasks.join_next() => return ended.unwrap_or(ServeError::DeskGone),
                },
            };
            let queue = queues.entry(message.room.clone()).or_insert_with(|| {
                let (queue, messages) = unbounded_channel();
                tasks.spawn(self.clone().run_room(messages));
                queue
            });
            // A queue ends only with an error, which is met above.
            let _ = queue.send(message);
        }
    }

    async fn run_room(self, mut messages: UnboundedReceiver<Outgoing>) -> ServeError {
        let mut past = Past::default();
        while let Some(message) = messages.recv().await {
            if let Err(error) = self.deliver(&message, &mut past).await {
                return error;
            }
        }
        ServeError::DeskGone
    }

    /// Sends one message, however long it takes, and takes it off the outbox. One that the homeserver will never take
    /// goes too, with a line in the log.
    async fn deliver(&self, message: &Outgoing, past: &mut Past) -> Result<(), ServeError> {
        let mut backoff = Backoff::new(Duration::from_secs(300));
        let mut tries = 0;
        let id = loop {
            let failure = match self.send(message, past, tries > 0).await {
                Ok(id) => break id,
                Err(failure) => failure,
            };
            tries += 1;
            let (room, topic) = (&message.room, &message.topic);
            match failure.trouble() {
                Trouble::SessionEnded => return Err(ServeError::SessionEnded(self.session_file.clone())),
                // It may be invited again; what was of an evening long past by then is no news any more.
                Trouble::Passing if failure.is_outside() && (self.age(message) < OLD || tries <= LOOKS) => {
                    if tries == 1 {
                        tracing::warn!(%room, %topic, "waits: {failure}");
                    }
                    tokio::time::sleep(OUTSIDE).await;
                }
                Trouble::Passing if !failure.is_outside() => {
                    if backoff.is_fresh() {
                        tracing::warn!(%room, %topic, "cannot send yet: {failure}");
                    }
                    backoff.wait().await;
                }
                _ => {
                    tracing::error!(%room, %topic, "given up, it will not be sent: {failure}");
                    break None;
                }
            }
        };
        match self.desk.sent(&message.key, id.map(|id| MessageId::new(id.as_str()))).await {
            // It is sent again after the next start, under the same transaction id, which is sending once.
            Err(ServeError::Store(error)) if takes_nothing(&error) => Ok(()),
            noted => noted,
        }
    }

    /// How long ago it was made, by the world's clocks.
    fn age(&self, message: &Outgoing) -> TimeDelta {
        self.clock.world_at(self.clock.now()) - self.clock.world_at(message.at.to_utc())
    }

    /// Sends it, and says which event it became, if that is known.
    async fn send(&self, message: &Outgoing, past: &mut Past, tried: bool) -> Result<Option<OwnedEventId>, Failure> {
        let home = self.homes.borrow().home_of(&message.room).cloned();
        let id = match &home {
            Some(home) => home.room.clone(),
            None => RoomId::parse(&*message.room).map_err(|_| Failure::NotARoom)?,
        };
        let room = self.client.get_room(&id).ok_or(Failure::UnknownRoom)?;
        if room.state() != RoomState::Joined {
            return Err(Failure::Outside);
        }
        let (made, now) = (self.clock.world_at(message.at.to_utc()), self.clock.world_at(self.clock.now()));
        let restored = self.restored.as_ref().filter(|restored| now - restored.at < RESTORED);
        let made = restored.map_or(made, |restored| made.min(restored.to));
        let looked_for = now - made > OLD;
        let sent = if looked_for { past.holds(&room, &self.me, message, made, tried).await? } else { Sent::No };
        if sent == Sent::Yes {
            tracing::info!(room = %message.room, topic = %message.topic, "found in the room, sent before");
            return Ok(None);
        }
        let transaction = notice::transaction(&message.key);
        let here;
        let message = if home.is_some_and(|home| message.at < home.since + OLD) {
            // What it answers may be in the room before, and the homeserver wants relations to stay within one.
            let Some(kept) = in_this_room(&room, message).await else { return Ok(None) };
            here = kept;
            &here
        } else {
            message
        };
        if message.out == OutKind::Mark {
            return mark(&room, message, transaction).await;
        }
        let called = if message.mention { self.household(&room).await? } else { Vec::new() };
        let content = match sent {
            Sent::Perhaps => {
                let text = format!("(You may have had this before.) {}", message.text);
                notice::content(&Outgoing { text, ..message.clone() }, called)
            }
            _ => notice::content(message, called),
        };
        let sent = room.send(content).with_transaction_id(transaction).await?;
        self.enclose(&room, message).await?;
        tracing::debug!(room = %message.room, event = %sent.response.event_id, topic = %message.topic, "sent");
        Ok(Some(sent.response.event_id))
    }

    /// The people to call: who is in the room and may use the assistant.
    async fn household(&self, room: &Room) -> matrix_sdk::Result<Vec<OwnedUserId>> {
        let members = room.members(RoomMemberships::JOIN).await?;
        let people = members.iter().map(|member| member.user_id());
        Ok(people.filter(|user| **user != *self.me && (self.permits)(user.as_str())).map(ToOwned::to_owned).collect())
    }
}

/// The message without what it answers, where that is in another room; none where it is nothing without that.
async fn in_this_room(room: &Room, message: &Outgoing) -> Option<Outgoing> {
    let mut message = message.clone();
    for related in [&mut message.re, &mut message.thread] {
        let event = related.as_ref().and_then(|id| OwnedEventId::try_from(id.as_str()).ok());
        if let Some(event) = event
            && room.event(&event, None).await.is_err()
        {
            *related = None;
        }
    }
    (message.out != OutKind::Mark || message.re.is_some()).then_some(message)
}

/// Marks a message. That it carries the mark already is as good.
async fn mark(
    room: &Room,
    message: &Outgoing,
    transaction: OwnedTransactionId,
) -> Result<Option<OwnedEventId>, Failure> {
    let Some(content) = notice::reaction(message) else { return Ok(None) };
    match room.send(content).with_transaction_id(transaction).await {
        Ok(sent) => Ok(Some(sent.response.event_id)),
        Err(error) if error.client_api_error_kind() == Some(&ErrorKind::DuplicateAnnotation) => Ok(None),
        Err(error) => Err(error.into()),
    }
}

/// Why a message was not sent.
#[derive(Debug, thiserror::Error)]
pub(super) enum Failure {
    #[error("this is no room on a homeserver; the entry comes from elsewhere")]
    NotARoom,
    #[error("this account is in no such room")]
    UnknownRoom,
    #[error("this account was shown out of the room, or left it")]
    Outside,
    #[error("{}", reasons(.0))]
    Sdk(#[from] matrix_sdk::Error),
}

impl Failure {
    pub(super) fn trouble(&self) -> Trouble {
        match self {
            Self::NotARoom => Trouble::Lasting,
            Self::UnknownRoom | Self::Outside => Trouble::Passing,
            // Invited again, or joined without having heard so.
            Self::Sdk(matrix_sdk::Error::WrongRoomState(_)) => Trouble::Passing,
            Self::Sdk(error) => trouble(error),
        }
    }

    /// Whether it is because the account is not in the room.
    fn is_outside(&self) -> bool {
        matches!(self, Self::UnknownRoom | Self::Outside | Self::Sdk(matrix_sdk::Error::WrongRoomState(_)))
    }
}
