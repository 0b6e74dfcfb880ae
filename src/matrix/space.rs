//! What is done when the disk takes nothing more: nothing is taken in, the rooms are told once, and it goes on by
//! itself when there is room again. Nothing said meanwhile is lost, for the position in the event stream stands still.

use super::sync::Syncer;
use crate::store::StoreError;
use matrix_sdk::Client;
use matrix_sdk::ruma::OwnedTransactionId;
use matrix_sdk::ruma::events::Mentions;
use matrix_sdk::ruma::events::room::message::RoomMessageEventContent;
use rustix::fs::{StatVfsMountFlags, statvfs};
use std::io::ErrorKind;
use std::path::{Path, PathBuf};
use std::time::Duration;

/// Free space, in bytes, that is left alone. The Matrix library writes too, and must never find the disk full: it would
/// take in what the ledger could not.
const KEEP_FREE: u64 = 16 << 20;

/// How often it is looked at again.
pub(super) const AGAIN: Duration = Duration::from_secs(3);

/// What the disk has.
pub(super) struct Space {
    folder: PathBuf,
}

impl Space {
    pub(super) fn of(folder: &Path) -> Self {
        Self { folder: folder.to_owned() }
    }

    /// Why nothing can be taken in, if that is so. A disk that cannot be asked is left to show it by itself.
    fn trouble(&self) -> Option<&'static str> {
        let disk = statvfs(&self.folder).ok()?;
        if disk.f_flag.contains(StatVfsMountFlags::RDONLY) {
            return Some("it is read-only");
        }
        (disk.f_bavail.saturating_mul(disk.f_frsize) < KEEP_FREE).then_some("it is full")
    }
}

/// Whether an error is one of a disk that takes nothing, and may take something later.
pub(super) fn takes_nothing(error: &StoreError) -> bool {
    let StoreError::Io { source, .. } = error else { return false };
    matches!(source.kind(), ErrorKind::StorageFull | ErrorKind::QuotaExceeded | ErrorKind::ReadOnlyFilesystem)
}

/// What is wrong with the disk, in words for a room.
pub(super) fn why(error: &StoreError) -> &'static str {
    match error {
        StoreError::Io { source, .. } if source.kind() == ErrorKind::ReadOnlyFilesystem => "it is read-only",
        _ => "it is full",
    }
}

impl Syncer {
    /// Returns when the disk has room for more.
    pub(super) async fn wait_for_space(&self) {
        let mut told = false;
        while let Some(why) = self.space.trouble() {
            if !told {
                self.say_disk_is_in_trouble(why).await;
                told = true;
            }
            tokio::time::sleep(AGAIN).await;
        }
        if told {
            tracing::info!("the disk has room again");
        }
    }

    /// Tells the log and every room that has a ledger, past the outbox: that is on the disk.
    pub(super) async fn say_disk_is_in_trouble(&self, why: &str) {
        tracing::error!(
            "nothing is taken in, the disk does not take it: {why}; \
             free some of it, nothing that is said meanwhile is lost"
        );
        for room in self.client.joined_rooms() {
            let ledger = self.homes.borrow().ledger_of(room.room_id());
            if !self.desk.has_ledger(&ledger).await.unwrap_or(false) {
                continue;
            }
            let text = format!(
                "My disk takes nothing more ({why}), so I take nothing in for now. Go on writing: \
                 I'll read it as soon as somebody has made room."
            );
            let content = RoomMessageEventContent::notice_plain(text).add_mentions(Mentions::new());
            if let Err(error) = room.send(content).with_transaction_id(once(&self.client, self.world_now())).await {
                tracing::debug!(%error, "the room could not be told");
            }
        }
    }
}

/// The same for all that is said within six hours, so that a service that starts again and again tells it once.
fn once(client: &Client, now: chrono::DateTime<chrono::Utc>) -> OwnedTransactionId {
    let device = client.device_id().map(ToString::to_string).unwrap_or_default();
    format!("rackful-disk-{device}-{}", now.timestamp() / (6 * 60 * 60)).into()
}
