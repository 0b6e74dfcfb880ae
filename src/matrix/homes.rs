//! Where kitchens live. A ledger goes by the room that it began in; when that room is upgraded, or the kitchen is moved
//! to another, the ledger keeps its name and only its home changes. So outbox, alerts and entries need not move at all.

use super::trouble::ServeError;
use crate::store::{Notes, Store};
use chrono::{DateTime, Utc};
use matrix_sdk::ruma::{OwnedRoomId, RoomId};
use serde::{Deserialize, Serialize};
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

/// The note's name. It is none of the account's, so a new account finds the kitchens where they are.
pub(super) const NOTE: &str = "kitchens";

/// The homes of all ledgers that are not where they began.
#[derive(Clone, PartialEq, Debug, Default, Serialize, Deserialize)]
#[serde(transparent)]
pub(super) struct Homes(BTreeMap<String, Home>);

/// Where a ledger is now.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize)]
pub(super) struct Home {
    /// The room.
    pub(super) room: OwnedRoomId,
    /// Since when.
    pub(super) since: DateTime<Utc>,
    /// Rooms on the way there, the first not counted: it is the ledger's name.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    before: Vec<OwnedRoomId>,
}

impl Homes {
    /// From the note. A damaged one is none: ledgers are then found under the rooms they began in.
    pub(super) fn read(note: Option<&str>) -> Self {
        let read = note.map(serde_json::from_str::<Self>).transpose();
        read.inspect_err(|error| tracing::error!(%error, "the note of where kitchens live is damaged"))
            .ok()
            .flatten()
            .unwrap_or_default()
    }

    /// The note.
    pub(super) fn write(&self) -> Result<String, serde_json::Error> {
        serde_json::to_string(self)
    }

    /// The ledger that is kept in a room: also in one that it has moved away from.
    pub(super) fn ledger_of(&self, room: &RoomId) -> Arc<str> {
        let lives = |home: &Home| home.room == room || home.before.iter().any(|before| before == room);
        let moved = self.0.iter().find(|(_, home)| lives(home));
        moved.map_or_else(|| Arc::from(room.as_str()), |(ledger, _)| Arc::from(ledger.as_str()))
    }

    /// Where a ledger has moved to, if it has.
    pub(super) fn home_of(&self, ledger: &str) -> Option<&Home> {
        self.0.get(ledger)
    }

    /// Whether a ledger has moved into this room.
    pub(super) fn is_home(&self, room: &RoomId) -> bool {
        self.0.values().any(|home| home.room == room)
    }

    /// A ledger moves.
    pub(super) fn move_to(&mut self, ledger: &str, room: &RoomId, now: DateTime<Utc>) {
        let earlier = self.0.remove(ledger);
        if ledger == room.as_str() {
            // Back where it began.
            return;
        }
        let mut before = Vec::new();
        if let Some(home) = earlier {
            before.extend(home.before);
            before.push(home.room);
        }
        before.retain(|before| before != room);
        self.0.insert(ledger.to_owned(), Home { room: room.to_owned(), since: now, before });
    }
}

/// Moves a kitchen: what is kept in the room `old` is carried on in the room `new`. Says which ledger that is.
///
/// # Errors
/// When one of them is no room's id, when nothing is kept for `old`, when `new` has entries of its own, and when the
/// store fails.
pub fn move_kitchen(store: &mut dyn Store, old: &str, new: &str, now: DateTime<Utc>) -> Result<String, ServeError> {
    let parse = |room: &str| RoomId::parse(room).map_err(|_| ServeError::NotARoom(room.to_owned()));
    let (old, new) = (parse(old)?, parse(new)?);
    let mut kept = BTreeSet::new();
    store.each(&mut |commit| {
        if !commit.changes.is_empty() {
            kept.insert(commit.room.to_string());
        }
    })?;
    let mut homes = Homes::read(store.note(NOTE)?.as_deref());
    let ledger = homes.ledger_of(&old);
    if !kept.contains(&*ledger) {
        let rooms = kept.into_iter().collect::<Vec<_>>().join(", ");
        return Err(ServeError::NoKitchen { room: old.to_string(), rooms });
    }
    let there = homes.ledger_of(&new);
    if there == ledger && homes.home_of(&ledger).map_or(ledger.as_ref() == new.as_str(), |home| home.room == new) {
        return Err(ServeError::LivesThere(new.to_string()));
    }
    if there != ledger && kept.contains(&*there) {
        return Err(ServeError::Occupied(new.to_string()));
    }
    homes.move_to(&ledger, &new, now);
    let note = homes.write().map_err(|error| ServeError::Sync(error.to_string()))?;
    store.keep(&[], &Notes::from([(NOTE.to_owned(), Some(note))]))?;
    Ok(ledger.to_string())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::assistant::Commit;
    use crate::ledger::Change;
    use crate::store::MemoryStore;
    use crate::zone::Zone;
    use matrix_sdk::ruma::room_id;

    #[test]
    fn a_ledger_is_found_from_every_room_that_it_ever_lived_in() -> anyhow::Result<()> {
        let (a, b, c) = (room_id!("!a:home.test"), room_id!("!b:home.test"), room_id!("!c:home.test"));
        let mut homes = Homes::default();
        assert_eq!(&*homes.ledger_of(a), "!a:home.test");
        homes.move_to("!a:home.test", b, Utc::now());
        homes.move_to("!a:home.test", c, Utc::now());
        let again = Homes::read(Some(&homes.write()?));
        assert_eq!(again, homes);
        for room in [a, b, c] {
            assert_eq!(&*again.ledger_of(room), "!a:home.test", "{room}");
        }
        assert_eq!(again.home_of("!a:home.test").map(|home| &*home.room), Some(c));
        assert!(again.is_home(c) && !again.is_home(b));
        homes.move_to("!a:home.test", a, Utc::now());
        assert_eq!(homes, Homes::default());
        assert_eq!(Homes::read(Some("{")), Homes::default());
        Ok(())
    }

    fn store(rooms: &[&str]) -> anyhow::Result<MemoryStore> {
        let mut store = MemoryStore::new();
        for room in rooms {
            let changes = vec![Change::Founded { zone: Zone::UTC }];
            let room = (*room).into();
            let commit = Commit { room, at: Utc::now(), message: None, said: None, changes, out: Vec::new() };
            store.keep(&[commit], &Notes::new())?;
        }
        Ok(store)
    }

    #[test]
    fn a_kitchen_moves_into_an_empty_room_only_and_only_one_that_there_is() -> anyhow::Result<()> {
        let mut store = store(&["!a:x.test", "!b:x.test"])?;
        let mut go =
            |old: &str, new: &str| move_kitchen(&mut store, old, new, Utc::now()).map_err(|error| error.to_string());
        assert!(go("home", "!c:x.test").is_err_and(|why| why.contains("'home' is no room's id")));
        assert!(go("!z:x.test", "!c:x.test").is_err_and(|why| why.contains("!a:x.test, !b:x.test")));
        assert!(go("!a:x.test", "!b:x.test").is_err_and(|why| why.contains("entries of its own")));
        assert!(go("!a:x.test", "!a:x.test").is_err_and(|why| why.contains("already")));
        assert_eq!(go("!a:x.test", "!c:x.test").as_deref(), Ok("!a:x.test"));
        assert_eq!(go("!c:x.test", "!d:x.test").as_deref(), Ok("!a:x.test"), "from where it is now");
        assert!(go("!b:x.test", "!d:x.test").is_err_and(|why| why.contains("entries of its own")));
        assert_eq!(go("!d:x.test", "!a:x.test").as_deref(), Ok("!a:x.test"), "and back");
        Ok(())
    }
}
