//! A room's past, fetched from the homeserver.

use matrix_sdk::deserialized_responses::TimelineEvent;
use matrix_sdk::room::MessagesOptions;
use matrix_sdk::ruma::api::Direction;
use matrix_sdk::ruma::api::client::message::get_message_events::v3::Request;
use matrix_sdk::ruma::events::room::encrypted::OriginalSyncRoomEncryptedEvent;
use matrix_sdk::ruma::events::room::member::{MembershipState, SyncRoomMemberEvent};
use matrix_sdk::ruma::events::{AnySyncStateEvent, AnySyncTimelineEvent, AnyTimelineEvent};
use matrix_sdk::ruma::serde::Raw;
use matrix_sdk::ruma::{OwnedEventId, UInt, UserId};
use matrix_sdk::{Result, Room};

/// The most events that a homeserver gives at once, by what Synapse does.
const PAGE: u32 = 100;

/// A stretch of a room's history, oldest first, as it comes.
pub(super) struct Pages {
    room: Room,
    /// Where the next page begins; at the room's beginning if nowhere.
    from: Option<String>,
    until: Option<String>,
    at_end: bool,
}

/// The events after `from` and up to `until` (or the newest).
pub(super) fn between(room: &Room, from: &str, until: Option<&str>) -> Pages {
    Pages { room: room.clone(), from: Some(from.to_owned()), until: until.map(str::to_owned), at_end: false }
}

impl Pages {
    /// All events of a room.
    pub(super) fn all(room: &Room) -> Self {
        Self { room: room.clone(), from: None, until: None, at_end: false }
    }

    /// The events since the account has joined; `None` when its joining can't be found.
    pub(super) async fn since_joining(room: &Room, me: &UserId) -> Result<Option<Self>> {
        let Some(joining) = joining(room, me).await? else { return Ok(None) };
        let around = room.event_with_context(&joining, true, UInt::from(0_u32), None).await?;
        Ok(around.next_batch_token.map(|after| between(room, &after, None)))
    }

    /// Whether there are no more.
    pub(super) fn is_at_end(&self) -> bool {
        self.at_end
    }

    /// The next page; the same again after an error. It is asked for without the SDK's own way to it, which works out
    /// for each event whether a telephone should ring.
    pub(super) async fn next(&mut self) -> Result<Option<Vec<Raw<AnyTimelineEvent>>>> {
        if self.at_end {
            return Ok(None);
        }
        let mut request = Request::new(self.room.room_id().to_owned(), Direction::Forward);
        request.from.clone_from(&self.from);
        request.to.clone_from(&self.until);
        request.limit = UInt::from(PAGE);
        let page = self.room.client().send(request).await?;
        // At the newest event the end moves on for ever, with nothing in it.
        let done = self.until.is_none() && page.chunk.is_empty();
        match page.end {
            Some(end) if self.from.as_ref() != Some(&end) && !done => self.from = Some(end),
            _ => self.at_end = true,
        }
        Ok(Some(page.chunk))
    }
}

/// A page's events, decrypted where they are encrypted.
pub(super) async fn unlock(room: &Room, page: Vec<Raw<AnyTimelineEvent>>) -> Vec<TimelineEvent> {
    let mut events = Vec::with_capacity(page.len());
    for event in page {
        let kind = event.get_field::<String>("type").ok().flatten();
        // A deleted one has nothing in it to decrypt.
        let read = if kind.is_some_and(|kind| kind == "m.room.encrypted")
            && event.deserialize_as_unchecked::<OriginalSyncRoomEncryptedEvent>().is_ok()
        {
            room.decrypt_event(event.cast_ref_unchecked(), None).await.ok()
        } else {
            None
        };
        events.push(read.unwrap_or_else(|| TimelineEvent::from_plaintext(event.cast())));
    }
    events
}

/// The event by which the account came into the room. Its later membership events are only changes of its name or
/// picture.
async fn joining(room: &Room, me: &UserId) -> Result<Option<OwnedEventId>> {
    let mut from = None;
    loop {
        let mut options = MessagesOptions::backward();
        options.from = from.clone();
        options.limit = UInt::from(PAGE);
        options.filter.types = Some(vec!["m.room.member".to_owned()]);
        options.filter.senders = Some(vec![me.to_owned()]);
        let page = room.messages(options).await?;
        if let Some(joined) = page.chunk.iter().find_map(|event| joined_by(event, me)) {
            return Ok(Some(joined));
        }
        match page.end {
            Some(end) if from.as_ref() != Some(&end) => from = Some(end),
            _ => return Ok(None),
        }
    }
}

fn joined_by(event: &TimelineEvent, me: &UserId) -> Option<OwnedEventId> {
    let Ok(AnySyncTimelineEvent::State(AnySyncStateEvent::RoomMember(member))) = event.raw().deserialize() else {
        return None;
    };
    let SyncRoomMemberEvent::Original(member) = member else { return None };
    let was_in = member.prev_content().is_some_and(|before| before.membership == MembershipState::Join);
    (member.state_key == *me && member.content.membership == MembershipState::Join && !was_in)
        .then_some(member.event_id)
}
