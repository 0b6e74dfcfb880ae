//! Where the driver stands in the homeserver's stream of events: one note of the desk's, written together with the
//! effects of all events before it.

use chrono::{DateTime, TimeDelta, Utc};
use matrix_sdk::ruma::{OwnedEventId, OwnedRoomId, UserId};
use serde::{Deserialize, Serialize};
use std::collections::BTreeSet;

/// The note's name.
pub(super) const NOTE: &str = "matrix";

/// At most this many events wait for keys: each costs a request whenever keys come.
const MOST_LOCKED: usize = 200;

/// Where the driver stands.
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
pub(super) struct Position {
    /// Whose stream it is: another account's position means nothing.
    user: String,
    /// All before this is taken in.
    pub(super) since: Option<String>,
    /// The rooms that were followed up to there. In a room that isn't here, what counts begins with our joining.
    pub(super) rooms: BTreeSet<OwnedRoomId>,
    /// Events that could not be decrypted yet.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(super) locked: Vec<Locked>,
}

/// An event that waits for its key.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, Deserialize)]
pub(super) struct Locked {
    /// Where.
    pub(super) room: OwnedRoomId,
    /// Which.
    pub(super) event: OwnedEventId,
    /// Since when.
    pub(super) since: DateTime<Utc>,
}

impl Position {
    /// From the note; none, a damaged one and another account's are the beginning. Starting there is safe: messages
    /// heard before are known by their ids.
    pub(super) fn read(note: Option<&str>, me: &UserId) -> Self {
        let start = || Self { user: me.to_string(), ..Self::default() };
        let Some(note) = note else { return start() };
        match serde_json::from_str::<Self>(note) {
            Ok(position) if position.user == me.as_str() => position,
            Ok(_) => start(),
            Err(error) => {
                tracing::warn!(
                    %error,
                    "the note of the position in the event stream is damaged; reading from the start"
                );
                start()
            }
        }
    }

    /// The note.
    pub(super) fn write(&self) -> Result<String, serde_json::Error> {
        serde_json::to_string(self)
    }

    /// An event has to wait for its key.
    pub(super) fn lock(&mut self, room: &OwnedRoomId, event: OwnedEventId, now: DateTime<Utc>) {
        if self.locked.iter().any(|locked| locked.event == event) {
            return;
        }
        if self.locked.len() >= MOST_LOCKED {
            self.locked.remove(0);
        }
        self.locked.push(Locked { room: room.clone(), event, since: now });
    }

    /// Gives up on events whose keys have not come within `wait`, and says which, oldest first. A clock that was set
    /// back makes nothing wait longer than from now.
    pub(super) fn give_up(&mut self, now: DateTime<Utc>, wait: TimeDelta) -> Vec<Locked> {
        for locked in &mut self.locked {
            locked.since = locked.since.min(now);
        }
        self.locked.extract_if(.., |locked| now - locked.since >= wait).collect()
    }

    /// When the next event is given up, if one waits.
    pub(super) fn gives_up_at(&self, wait: TimeDelta) -> Option<DateTime<Utc>> {
        self.locked.iter().map(|locked| locked.since + wait).min()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use matrix_sdk::ruma::{room_id, user_id};

    #[test]
    fn a_position_comes_back_from_its_note_but_not_for_another_account() -> anyhow::Result<()> {
        let me = user_id!("@rackful:home.test");
        let mut position = Position::read(None, me);
        position.since = Some("s1".into());
        position.rooms.insert(room_id!("!a:home.test").to_owned());
        position.lock(&room_id!("!a:home.test").to_owned(), OwnedEventId::try_from("$1")?, Utc::now());
        let note = position.write()?;
        assert_eq!(Position::read(Some(&note), me), position);
        assert_eq!(Position::read(Some(&note), user_id!("@other:home.test")).since, None);
        assert_eq!(Position::read(Some("{"), me).since, None);
        Ok(())
    }

    #[test]
    fn locked_events_are_bounded_in_number_and_time() -> anyhow::Result<()> {
        let mut position = Position::default();
        let room = room_id!("!a:home.test").to_owned();
        let start = Utc::now();
        for n in 0..MOST_LOCKED + 3 {
            let event = OwnedEventId::try_from(format!("${n}"))?;
            position.lock(&room, event.clone(), start);
            position.lock(&room, event, start);
        }
        assert_eq!(position.locked.len(), MOST_LOCKED);
        assert_eq!(position.locked[0].event.as_str(), "$3", "the oldest give way");
        let day = TimeDelta::days(1);
        assert_eq!(position.gives_up_at(day), Some(start + day));
        assert_eq!(position.give_up(start + TimeDelta::hours(23), day), []);
        assert_eq!(position.give_up(start + TimeDelta::hours(25), day).len(), MOST_LOCKED);
        assert_eq!(position.gives_up_at(day), None);
        Ok(())
    }

    #[test]
    fn a_clock_set_back_by_a_year_does_not_make_a_locked_event_wait_for_a_year() -> anyhow::Result<()> {
        let mut position = Position::default();
        let start = Utc::now();
        position.lock(&room_id!("!a:home.test").to_owned(), OwnedEventId::try_from("$1")?, start);
        let (back, day) = (start - TimeDelta::days(365), TimeDelta::days(1));
        assert_eq!(position.give_up(back, day), []);
        assert_eq!(position.give_up(back + day, day).len(), 1);
        Ok(())
    }
}
