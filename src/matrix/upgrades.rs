//! Rooms that were replaced by others: the ledger moves along once the assistant is in the new room.
//!
//! A room is taken for another's replacement only when both say so: the old one by its tombstone, which takes the power
//! to change the room, and the new one by naming the old one as what it came from.

use super::homes::Homes;
use super::position::Position;
use super::settings::Permits;
use super::sync::Syncer;
use super::trouble::ServeError;
use matrix_sdk::deserialized_responses::RawSyncOrStrippedState;
use matrix_sdk::ruma::events::room::tombstone::RoomTombstoneEventContent;
use matrix_sdk::ruma::{OwnedRoomId, OwnedServerName, OwnedUserId};
use matrix_sdk::{Client, Room, RoomState};
use serde::Deserialize;

impl Syncer {
    /// Moves ledgers into the rooms that replace theirs, and says into which.
    pub(super) async fn follow_upgrades(
        &self,
        position: &Position,
        homes: &mut Homes,
    ) -> Result<Vec<OwnedRoomId>, ServeError> {
        let mut moved = Vec::new();
        for old in self.client.rooms() {
            let Some(new) = successor(&self.client, &old) else { continue };
            if new.state() != RoomState::Joined || homes.is_home(new.room_id()) {
                continue;
            }
            let ledger = homes.ledger_of(old.room_id());
            let is_known = position.rooms.contains(old.room_id()) || self.desk.has_ledger(&ledger).await?;
            // What was written in the new room before the old one was known to be replaced stays a ledger of its own.
            if !is_known || self.desk.has_ledger(&homes.ledger_of(new.room_id())).await? {
                continue;
            }
            homes.move_to(&ledger, new.room_id(), self.clock.now());
            tracing::info!(
                old = %old.room_id(), new = %new.room_id(),
                "the room was replaced, its ledger goes on in the new one"
            );
            moved.push(new.room_id().to_owned());
        }
        Ok(moved)
    }
}

/// The room that replaces another, if both say so.
fn successor(client: &Client, old: &Room) -> Option<Room> {
    let new = client.get_room(&old.successor_room()?.room_id)?;
    (new.predecessor_room()?.room_id == old.room_id()).then_some(new)
}

/// Rooms that replace those that the account is in and are not joined yet, with a server to join through, where it was
/// a permitted person who replaced them.
pub(super) async fn to_join(client: &Client, permits: &Permits) -> Vec<(OwnedRoomId, OwnedServerName)> {
    let mut rooms = Vec::new();
    for old in client.joined_rooms() {
        let Some(new) = old.successor_room() else { continue };
        let is_in = client.get_room(&new.room_id).is_some_and(|room| room.state() != RoomState::Left);
        let Some(by) = replaced_by(&old).await.filter(|by| !is_in && (permits)(by.as_str())) else { continue };
        rooms.push((new.room_id, by.server_name().to_owned()));
    }
    rooms
}

async fn replaced_by(room: &Room) -> Option<OwnedUserId> {
    #[derive(Deserialize)]
    struct Sent {
        sender: OwnedUserId,
    }
    let tombstone = room.get_state_event_static::<RoomTombstoneEventContent>().await.ok().flatten()?;
    let sent = match tombstone {
        RawSyncOrStrippedState::Sync(raw) => raw.deserialize_as_unchecked::<Sent>(),
        RawSyncOrStrippedState::Stripped(raw) => raw.deserialize_as_unchecked::<Sent>(),
    };
    sent.ok().map(|sent| sent.sender)
}
