//! A room's past, fetched from the homeserver.

use matrix_sdk::deserialized_responses::TimelineEvent;
use matrix_sdk::room::MessagesOptions;
use matrix_sdk::ruma::events::room::member::{MembershipState, SyncRoomMemberEvent};
use matrix_sdk::ruma::events::{AnySyncStateEvent, AnySyncTimelineEvent};
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
    loop {
        let mut options = MessagesOptions::forward().from(from.as_deref());
        options.to = until.map(str::to_owned);
        options.limit = UInt::from(PAGE);
        let page = room.messages(options).await?;
        // At the newest event the end moves on for ever, with nothing in it.
        let done = until.is_none() && page.chunk.is_empty();
        events.extend(page.chunk);
        match page.end {
            Some(end) if from.as_ref() != Some(&end) && !done => from = Some(end),
            _ => return Ok(events),
        }
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
