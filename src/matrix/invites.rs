//! Joins the rooms that permitted people invite to, and those by which they replace a room, and leaves other
//! invitations lying.
//!
//! What is to be joined is read from the SDK's store, not from the sync's answer: an invitation is told once, and
//! joining may fail, or the process end, in between.

use super::settings::Permits;
use super::trouble::{Backoff, ServeError, Trouble, reasons, trouble};
use super::upgrades;
use matrix_sdk::ruma::{OwnedRoomId, OwnedUserId};
use matrix_sdk::{Client, Room};
use std::collections::HashSet;
use std::path::PathBuf;
use std::sync::Arc;
use std::time::Duration;
use tokio::sync::Notify;

/// The task that joins.
pub(super) struct Joiner {
    pub(super) client: Client,
    pub(super) permits: Permits,
    /// Rung when an invitation has come.
    pub(super) invited: Arc<Notify>,
    /// For the advice when the homeserver ends the session.
    pub(super) session_file: PathBuf,
}

impl Joiner {
    /// Runs until the session ends.
    pub(super) async fn run(self) -> ServeError {
        let mut strangers = HashSet::new();
        // A replacement that lets nobody in without an invitation is tried once.
        let mut closed = HashSet::new();
        let mut backoff = Backoff::new(Duration::from_secs(600));
        loop {
            let mut again = false;
            for room in self.client.invited_rooms() {
                let Err(error) = self.answer(&room, &mut strangers).await else { continue };
                tracing::warn!(room = %room.room_id(), "cannot join: {}", reasons(&error));
                match trouble(&error) {
                    Trouble::SessionEnded => return ServeError::SessionEnded(self.session_file),
                    Trouble::Passing => again = true,
                    Trouble::Lasting => {}
                }
            }
            for (room, server) in upgrades::to_join(&self.client, &self.permits).await {
                if closed.contains(&room) {
                    continue;
                }
                let Err(error) = self.client.join_room_by_id_or_alias((&*room).into(), &[server]).await else {
                    tracing::info!(%room, "joined: it replaces another");
                    continue;
                };
                match trouble(&error) {
                    Trouble::SessionEnded => return ServeError::SessionEnded(self.session_file),
                    Trouble::Passing => again = true,
                    Trouble::Lasting => {
                        tracing::info!(%room, "it replaces another, and waits for an invitation ({})", reasons(&error));
                        closed.insert(room);
                    }
                }
            }
            if !again {
                backoff.reset();
            }
            tokio::select! {
                () = self.invited.notified() => {}
                () = backoff.wait(), if again => {}
            }
        }
    }

    async fn answer(&self, room: &Room, strangers: &mut HashSet<(OwnedRoomId, OwnedUserId)>) -> matrix_sdk::Result<()> {
        // An error here means that the invitation was taken back, or is answered already.
        let Ok(invite) = room.invite_details().await else { return Ok(()) };
        let (id, inviter) = (room.room_id(), invite.inviter_id);
        if (self.permits)(inviter.as_str()) {
            room.join().await?;
            tracing::info!(room = %id, %inviter, "joined");
        } else if strangers.insert((id.to_owned(), inviter.clone())) {
            tracing::info!(room = %id, %inviter, "not joined: the inviter is not on the list of those who may");
        }
        Ok(())
    }
}
