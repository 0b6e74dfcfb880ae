//! A room's past, fetched from the homeserver.

use matrix_sdk::deserialized_responses::TimelineEvent;
use matrix_sdk::room::MessagesOptions;
use matrix_sdk::ruma::api::Direction;
use matrix_sdk::ruma::api::client::message::get_message_events::v3::{Request, Response};
use matrix_sdk::ruma::events::room::encrypted::OriginalSyncRoomEncryptedEvent;
use matrix_sdk::ruma::events::room::member::{MembershipState, SyncRoomMemberEvent};
use matrix_sdk::ruma::events::{AnySyncStateEvent, AnySyncTimelineEvent, AnyTimelineEvent};
use matrix_sdk::ruma::serde::Raw;
use matrix_sdk::ruma::{OwnedEventId, UInt, UserId};
use matrix_sdk::{Result, Room};

/// The most events that a homeserver gives at once, by what Synapse does.
const PAGE: u32 = 100;

/// The events after `from` and up to `until` (or the newest), oldest first.
pub(super) async fn between(room: &Room, from: &str, until: Option<&str>) -> Result<Vec<TimelineEvent>> {
    from_token(room, Some(from.to_owned()), until).await
}

async fn from_token(room: &Room, mut from: Option<String>, until: Option<&str>) -> Result<Vec<TimelineEvent>> {
    let mut events = Vec::new();
    let mut page = fetch(room, from.clone(), until).await?;
    loop {
        // At the newest event the end moves on for ever, with nothing in it.
        let done = until.is_none() && page.chunk.is_empty();
        let next = page.end.take().filter(|end| from.as_ref() != Some(end) && !done);
        let Some(next) = next else {
            unlock(room, page.chunk, &mut events).await;
            return Ok(events);
        };
        // The homeserver looks for the next page while this one is decrypted.
        let (coming, ()) = tokio::join!(fetch(room, Some(next.clone()), until), unlock(room, page.chunk, &mut events));
        (page, from) = (coming?, Some(next));
    }
}

/// One page as it comes. The SDK's own way would also work out for each event whether a telephone should ring.
async fn fetch(room: &Room, from: Option<String>, until: Option<&str>) -> Result<Response> {
    let mut request = Request::new(room.room_id().to_owned(), Direction::Forward);
    request.from = from;
    request.to = until.map(str::to_owned);
    request.limit = UInt::from(PAGE);
    Ok(room.client().send(request).await?)
}

/// Decrypts what is encrypted.
async fn unlock(room: &Room, page: Vec<Raw<AnyTimelineEvent>>, events: &mut Vec<TimelineEvent>) {
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
}

/// All events of a room, oldest first.
pub(super) async fn all(room: &Room) -> Result<Vec<TimelineEvent>> {
    from_token(room, None, None).await
}

/// The events since the account has joined, oldest first; `None` when its joining can't be found.
pub(super) async fn since_joining(room: &Room, me: &UserId) -> Result<Option<Vec<TimelineEvent>>> {
    let Some(joining) = joining(room, me).await? else { return Ok(None) };
    let around = room.event_with_context(&joining, true, UInt::from(0_u32), None).await?;
    match around.next_batch_token {
        Some(after) => between(room, &after, None).await.map(Some),
        None => Ok(None),
    }
}

/// The event by which the account came into the room. Its later membership events are only changes of its name or picture.
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
