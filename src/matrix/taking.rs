//! What one answer of the homeserver brings, read room by room on its way to the desk. A long gap goes there page by
//! page ahead of the rest, so that the homeserver looks for one page while the page before is read and heard.

use super::history::{Pages, between, unlock};
use super::incoming::{Read, Reader};
use super::position::Position;
use super::sync::Syncer;
use super::trouble::{Backoff, ServeError};
use crate::assistant::Incoming;
use matrix_sdk::deserialized_responses::TimelineEvent;
use matrix_sdk::ruma::{OwnedEventId, OwnedRoomId};
use matrix_sdk::sync::Timeline;
use matrix_sdk::{Room, RoomMemberships};
use std::time::Duration;

/// How a room of a response is known.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Known {
    /// It was followed up to the position.
    Followed,
    /// It takes the place of one that was followed.
    Replacement,
    /// It is new, or was left in between.
    New,
}

/// What an answer of the homeserver brings.
#[derive(Default)]
pub(super) struct News {
    /// What was said, without what the desk has already.
    pub(super) messages: Vec<Incoming>,
    /// How many messages went to the desk ahead of these.
    pub(super) ahead: usize,
    /// Which event came last in a room.
    pub(super) read: Vec<(OwnedRoomId, OwnedEventId)>,
}

impl Syncer {
    /// Takes in a room's update, oldest first, with all that the homeserver left out between our position and it.
    pub(super) async fn take_room(
        &self,
        room: &Room,
        timeline: Timeline,
        since: Option<&str>,
        known: Known,
        position: &mut Position,
        news: &mut News,
    ) -> Result<(), ServeError> {
        let missed = self.missed(room, &timeline, since, known).await?;
        let mut whole = false;
        if let Some(pages) = missed {
            whole = self.take_pages(room, pages, position, news).await?;
        }
        // What leads to the present has these events in it.
        if known == Known::Followed || !whole {
            self.take_events(room, &timeline.events, position, news).await?;
        }
        Ok(())
    }

    /// What of a room's history is to be read before the update's own events.
    async fn missed(
        &self,
        room: &Room,
        timeline: &Timeline,
        since: Option<&str>,
        known: Known,
    ) -> Result<Option<Pages>, ServeError> {
        Ok(match (since, known) {
            (Some(since), Known::Followed) => {
                let gap = timeline.prev_batch.as_deref().filter(|_| timeline.limited);
                gap.map(|until| between(room, since, Some(until)))
            }
            // For people it is the room they were in all along, so all that was said there counts.
            (_, Known::Replacement) => Some(Pages::all(room)),
            _ => self.insist(|| Pages::since_joining(room, &self.me)).await?.flatten(),
        })
    }

    /// Takes in a stretch of history. Says whether it was given to its end.
    async fn take_pages(
        &self,
        room: &Room,
        mut pages: Pages,
        position: &mut Position,
        news: &mut News,
    ) -> Result<bool, ServeError> {
        let mut backoff = Backoff::new(Duration::from_secs(60));
        let mut page = Vec::new();
        loop {
            let events = std::mem::take(&mut page);
            let more = !pages.is_at_end();
            let taking = async {
                let events = unlock(room, events).await;
                self.take_events(room, &events, position, news).await?;
                if more && !news.messages.is_empty() {
                    news.ahead += news.messages.len();
                    self.desk.hear_ahead(std::mem::take(&mut news.messages)).await?;
                }
                Ok::<_, ServeError>(())
            };
            let (next, taken) = tokio::join!(pages.next(), taking);
            taken?;
            match next {
                Ok(Some(next)) => {
                    backoff.reset();
                    page = next;
                }
                Ok(None) => return Ok(true),
                Err(error) => {
                    if !self.bear(&mut backoff, &error).await? {
                        return Ok(false);
                    }
                }
            }
        }
    }

    async fn take_events(
        &self,
        room: &Room,
        events: &[TimelineEvent],
        position: &mut Position,
        news: &mut News,
    ) -> Result<(), ServeError> {
        if events.is_empty() {
            return Ok(());
        }
        let (id, reader) = (room.room_id().to_owned(), self.reader(room).await?);
        let last = events.iter().rev().find_map(TimelineEvent::event_id);
        news.read.extend(last.map(|event| (id.clone(), event)));
        for event in events {
            match reader.read(event) {
                Read::Heard(message) => self.take_message(room, message, news).await?,
                Read::Locked(event) => position.lock(&id, event, self.world_now()),
                Read::Nothing => {}
            }
        }
        Ok(())
    }

    pub(super) async fn take_message(&self, room: &Room, message: Incoming, news: &mut News) -> Result<(), ServeError> {
        if let Some(mut message) = self.meant(room, message).await? {
            message.at = self.clock.shown_at(message.at.to_utc()).with_timezone(message.at.offset());
            news.messages.push(message);
        }
        Ok(())
    }

    pub(super) async fn reader(&self, room: &Room) -> Result<Reader<'_>, ServeError> {
        let people = self.insist(|| people(room)).await?;
        Ok(Reader {
            room: self.homes.borrow().ledger_of(room.room_id()),
            redaction: room.clone_info().room_version_rules_or_default().redaction,
            direct: people.is_some_and(|people| people <= 2),
            me: &self.me,
            permits: &self.permits,
            now: self.world_now(),
        })
    }
}

/// How many are in a room. Who they are is left in the SDK's store: it would cost more than all else that is done for a
/// message.
async fn people(room: &Room) -> matrix_sdk::Result<usize> {
    if room.are_members_synced() {
        return Ok(room.joined_user_ids().await?.len());
    }
    Ok(room.members(RoomMemberships::JOIN).await?.len())
}
