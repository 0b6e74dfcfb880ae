//! Asks the homeserver what is new and hands it to the desk, in one piece for each answer, with the new position.

use super::flood::Floods;
use super::homes::{self, Homes};
use super::incoming::Read;
use super::owner::DeskHandle;
use super::position::{Locked, NOTE, Position};
use super::settings::Permits;
use super::space::{AGAIN, Space, takes_nothing, why};
use super::taking::{Known, News};
use super::trouble::{Backoff, ServeError, Trouble, reasons, trouble};
use super::unread::unread;
use crate::assistant::{Incoming, Outgoing};
use crate::clock::Clock;
use crate::desk::Beside;
use crate::store::Notes;
use chrono::{DateTime, TimeDelta, Utc};
use matrix_sdk::Client;
use matrix_sdk::config::{SyncSettings, SyncToken};
use matrix_sdk::ruma::api::client::filter::{Filter as EventFilter, FilterDefinition, RoomEventFilter};
use matrix_sdk::ruma::api::client::sync::sync_events::v3::Filter;
use matrix_sdk::ruma::{OwnedEventId, OwnedRoomId, OwnedUserId, UInt};
use matrix_sdk::sync::SyncResponse;
use std::collections::BTreeSet;
use std::path::PathBuf;
use std::sync::{Arc, Mutex, PoisonError};
use std::time::Duration;
use tokio::sync::mpsc::UnboundedSender;
use tokio::sync::{Notify, watch};

/// How long the homeserver may hold a request when nothing is new.
const HOLD: Duration = Duration::from_secs(30);

/// Synapse gives no more events of a room at once; what is beyond is fetched as a gap.
const MOST_EVENTS: u32 = 100;

/// More messages than these in one response are what was missed.
const AT_ONCE: usize = 10;

/// The task that syncs.
pub(super) struct Syncer {
    pub(super) client: Client,
    pub(super) me: OwnedUserId,
    pub(super) permits: Permits,
    pub(super) desk: DeskHandle,
    pub(super) clock: Arc<dyn Clock>,
    /// Rung when an invitation has come.
    pub(super) invited: Arc<Notify>,
    /// Turns true when what was missed has been taken in.
    pub(super) caught_up: watch::Sender<bool>,
    /// Who writes without end.
    pub(super) floods: Mutex<Floods>,
    /// What the disk has.
    pub(super) space: Space,
    /// Where kitchens live, for whoever sends.
    pub(super) homes: Arc<watch::Sender<Homes>>,
    /// Where it is said which event was read last in a room.
    pub(super) read: UnboundedSender<(OwnedRoomId, OwnedEventId)>,
    /// How long an event waits for its key.
    pub(super) key_wait: TimeDelta,
    /// For the advice when the homeserver ends the session.
    pub(super) session_file: PathBuf,
}

impl Syncer {
    /// Runs until nothing but a new process helps.
    pub(super) async fn run(self) -> ServeError {
        match self.follow().await {
            Ok(never) => match never {},
            Err(error) => error,
        }
    }

    async fn follow(&self) -> Result<std::convert::Infallible, ServeError> {
        let note = self.desk.note(NOTE).await?;
        let mut position = Position::read(note.as_deref(), &self.me);
        let mut backoff = Backoff::new(Duration::from_secs(60));
        loop {
            self.wait_for_space().await;
            let first = !*self.caught_up.borrow();
            let settings = self.settings(&position, if first { Duration::ZERO } else { self.hold(&position) });
            match self.client.sync_once(settings).await {
                Ok(response) => {
                    if backoff.reset() {
                        tracing::info!("the homeserver answers again");
                    }
                    self.take(&mut position, response, first).await?;
                    self.caught_up.send_replace(true);
                }
                Err(error) => match trouble(&error) {
                    Trouble::Passing => self.wait(&mut backoff, &error).await,
                    Trouble::SessionEnded => return Err(ServeError::SessionEnded(self.session_file.clone())),
                    Trouble::Lasting => return Err(ServeError::Sync(reasons(&error))),
                },
            }
        }
    }

    /// What the world's clocks show: the homeserver goes by them, and so does the patience for keys.
    pub(super) fn world_now(&self) -> DateTime<Utc> {
        self.clock.world_at(self.clock.now())
    }

    /// No longer than until the next event is to be given up.
    fn hold(&self, position: &Position) -> Duration {
        let left = position.gives_up_at(self.key_wait).map(|at| at - self.world_now());
        left.map_or(HOLD, |left| left.to_std().unwrap_or_default().clamp(Duration::from_secs(1), HOLD))
    }

    /// Only what concerns the ledger: presence, typing and receipts would be one more answer each, and so would the
    /// assistant's own messages.
    fn settings(&self, position: &Position, hold: Duration) -> SyncSettings {
        let mut filter = FilterDefinition::default();
        filter.presence = EventFilter::ignore_all();
        filter.room.ephemeral = RoomEventFilter::ignore_all();
        filter.room.timeline.not_senders = vec![self.me.clone()];
        filter.room.timeline.limit = Some(UInt::from(MOST_EVENTS));
        let settings = SyncSettings::new().timeout(hold).filter(Filter::FilterDefinition(filter));
        match &position.since {
            Some(since) => settings.token(since.clone()),
            None => settings.token(SyncToken::NoToken),
        }
    }

    async fn wait(&self, backoff: &mut Backoff, error: &matrix_sdk::Error) {
        if backoff.is_fresh() {
            tracing::warn!("cannot reach the homeserver ({}); trying again until it answers", reasons(error));
        }
        backoff.wait().await;
    }

    async fn take(&self, position: &mut Position, response: SyncResponse, first: bool) -> Result<(), ServeError> {
        let before = position.clone();
        let mut news = News::default();
        let mut homes = self.homes.borrow().clone();
        let moved_into = self.follow_upgrades(position, &mut homes).await?;
        let homes_note = if moved_into.is_empty() { None } else { Some(note_of(homes.write())?) };
        // The sender goes by it at once: what goes out for the messages below belongs there.
        self.homes.send_replace(homes);
        if first || !response.to_device.is_empty() {
            self.unlock(position, &mut news).await?;
        }
        let joined = response.rooms.joined.into_iter().map(|(id, update)| (id, update.timeline, true));
        // What was said before it was shown out counts.
        let left = response.rooms.left.into_iter().map(|(id, update)| (id, update.timeline, false));
        for (id, timeline, is_in) in joined.chain(left) {
            let Some(room) = self.client.get_room(&id) else { continue };
            let known = match (position.rooms.contains(&id), is_in) {
                (true, _) => Known::Followed,
                (false, true) if moved_into.contains(&id) => Known::Replacement,
                (false, true) => Known::New,
                (false, false) => continue,
            };
            self.take_room(&room, timeline, before.since.as_deref(), known, position, &mut news).await?;
            if is_in {
                position.rooms.insert(id.clone());
            } else {
                position.rooms.remove(&id);
                tracing::warn!(
                    room = %id, state = ?room.state(),
                    "no longer in the room; its ledger is kept, and goes on when a permitted person invites again"
                );
            }
        }
        position.since = Some(response.next_batch);
        let given_up = position.give_up(self.world_now(), self.key_wait);
        let say = unread(given_up, &self.homes.borrow(), self.clock.now());
        let heard = news.ahead + news.messages.len();
        if heard > 0 || !say.is_empty() || *position != before {
            tracing::debug!(messages = heard, "heard");
            let mut notes = Notes::from([(NOTE.to_owned(), Some(note_of(position.write())?))]);
            notes.extend(homes_note.map(|note| (homes::NOTE.to_owned(), Some(note))));
            let beside = self.beside(&news, say);
            self.hand_over(news.messages, beside, notes).await?;
        }
        for (room, event) in news.read.into_iter().filter(|(room, _)| position.rooms.contains(room)) {
            // Nobody listens only when the program is ending.
            let _ = self.read.send((room, event));
        }
        let replaced = self.client.joined_rooms().iter().any(|room| room.is_tombstoned());
        if !response.rooms.invited.is_empty() || replaced {
            self.invited.notify_one();
        }
        Ok(())
    }

    /// What is said beside, and what is not answered because somebody writes without end. Many messages at once, as
    /// after an absence, are no flood: they get a summary.
    fn beside(&self, news: &News, mut say: Vec<Outgoing>) -> Beside {
        let mut quiet = BTreeSet::new();
        if news.ahead + news.messages.len() <= AT_ONCE {
            let mut floods = self.floods.lock().unwrap_or_else(PoisonError::into_inner);
            let (beyond, told) = floods.beyond(&news.messages, self.world_now());
            say.extend(told);
            quiet = beyond;
        }
        Beside { say, quiet }
    }

    /// Hands it to the desk. If the disk has no room for it, it is held here until it has: the SDK has taken the
    /// response in, and would not give it twice.
    async fn hand_over(&self, messages: Vec<Incoming>, beside: Beside, notes: Notes) -> Result<(), ServeError> {
        let mut told = false;
        loop {
            match self.desk.hear(messages.clone(), beside.clone(), notes.clone()).await {
                Err(ServeError::Store(error)) if takes_nothing(&error) => {
                    if !told {
                        self.say_disk_is_in_trouble(why(&error)).await;
                        told = true;
                    }
                    tokio::time::sleep(AGAIN).await;
                }
                done => return done,
            }
        }
    }

    /// Tries the events that could not be decrypted again.
    async fn unlock(&self, position: &mut Position, news: &mut News) -> Result<(), ServeError> {
        for locked in std::mem::take(&mut position.locked) {
            let Some(room) = self.client.get_room(&locked.room) else { continue };
            let Some(event) = self.insist(|| room.event(&locked.event, None)).await? else { continue };
            match self.reader(&room).await?.read(&event) {
                Read::Heard(message) => self.take_message(&room, message, news).await?,
                Read::Locked(_) => position.locked.push(Locked { ..locked }),
                Read::Nothing => {}
            }
        }
        Ok(())
    }

    /// Asks something that must be known before the answer at hand is taken in. `None` when the homeserver says no: one
    /// room's lost history must not stop the others. A failure of our own must not be taken for that, and ends it.
    pub(super) async fn insist<T, F>(&self, ask: impl Fn() -> F) -> Result<Option<T>, ServeError>
    where
        F: Future<Output = matrix_sdk::Result<T>>,
    {
        let mut backoff = Backoff::new(Duration::from_secs(60));
        loop {
            let error = match ask().await {
                Ok(answer) => return Ok(Some(answer)),
                Err(error) => error,
            };
            if !self.bear(&mut backoff, &error).await? {
                return Ok(None);
            }
        }
    }

    /// What an error means for what had to be known: whether to ask again, which is waited for.
    pub(super) async fn bear(&self, backoff: &mut Backoff, error: &matrix_sdk::Error) -> Result<bool, ServeError> {
        match trouble(error) {
            Trouble::Passing => {
                self.wait(backoff, error).await;
                Ok(true)
            }
            Trouble::SessionEnded => Err(ServeError::SessionEnded(self.session_file.clone())),
            Trouble::Lasting if error.client_api_error_kind().is_none() => Err(ServeError::Sync(reasons(error))),
            Trouble::Lasting => {
                tracing::warn!("the homeserver does not give what is needed to read a room: {}", reasons(error));
                Ok(false)
            }
        }
    }
}

fn note_of(written: Result<String, serde_json::Error>) -> Result<String, ServeError> {
    written.map_err(|error| ServeError::Sync(error.to_string()))
}
