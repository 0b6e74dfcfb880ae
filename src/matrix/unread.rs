//! What is said in a room when the keys of messages never came.

use super::homes::Homes;
use super::position::Locked;
use crate::assistant::{OutKind, Outgoing};
use crate::ledger::MessageId;
use chrono::{DateTime, Local, Utc};
use matrix_sdk::ruma::{OwnedEventId, OwnedRoomId};
use std::collections::BTreeMap;

/// One message for each room, however many events were given up; it answers the first of them.
pub(super) fn unread(given_up: Vec<Locked>, homes: &Homes, now: DateTime<Utc>) -> Vec<Outgoing> {
    let mut rooms: BTreeMap<OwnedRoomId, Vec<OwnedEventId>> = BTreeMap::new();
    for locked in given_up {
        tracing::warn!(room = %locked.room, event = %locked.event, "stays unread, its key never came");
        rooms.entry(locked.room).or_default().push(locked.event);
    }
    let say = |(room, events): (OwnedRoomId, Vec<OwnedEventId>)| {
        let first = events.first()?;
        let text = match events.len() {
            1 => "I cannot read this message: its key never reached me. Please write it again.".to_owned(),
            n => format!(
                "I cannot read this message and {} after it: their keys never reached me. Please write them again.",
                n - 1
            ),
        };
        Some(Outgoing {
            key: format!("{room}|unread {first}"),
            room: homes.ledger_of(&room),
            at: now.with_timezone(&Local).fixed_offset(),
            out: OutKind::Problem,
            re: Some(MessageId::new(first.as_str())),
            topic: "unreadable".to_owned(),
            text,
            facts: serde_json::Map::new(),
            mention: false,
            thread: None,
            alert: None,
            files: Vec::new(),
        })
    };
    rooms.into_iter().filter_map(say).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use matrix_sdk::ruma::room_id;

    #[test]
    fn each_room_is_told_once_with_the_first_message_and_the_number() -> anyhow::Result<()> {
        let now = Utc::now();
        let locked = |room: &matrix_sdk::ruma::RoomId, event: &str| {
            anyhow::Ok(Locked { room: room.to_owned(), event: OwnedEventId::try_from(event)?, since: now })
        };
        let (a, b) = (room_id!("!a:home.test"), room_id!("!b:home.test"));
        let given_up = vec![locked(b, "$1")?, locked(a, "$2")?, locked(a, "$3")?, locked(a, "$4")?];
        let said = unread(given_up, &Homes::default(), now);
        assert_eq!(said.len(), 2);
        assert_eq!((&*said[0].room, said[0].re.as_ref()), ("!a:home.test", Some(&MessageId::new("$2"))));
        assert!(said[0].text.contains("and 2 after it"), "{}", said[0].text);
        assert!(said[1].text.starts_with("I cannot read this message:"), "{}", said[1].text);
        assert_eq!(unread(Vec::new(), &Homes::default(), now), []);
        Ok(())
    }
}
