//! Read receipts: whoever looks sees that the assistant has taken in what was said, be it only talk that it does not
//! answer. They come a moment later and one for many messages, for each costs the homeserver as much as a message. No
//! typing notice is ever sent: an answer takes less time than the notice.

use matrix_sdk::Client;
use matrix_sdk::ruma::api::client::receipt::create_receipt::v3::ReceiptType;
use matrix_sdk::ruma::events::receipt::ReceiptThread;
use matrix_sdk::ruma::{OwnedEventId, OwnedRoomId};
use std::collections::BTreeMap;
use std::time::Duration;
use tokio::sync::mpsc::UnboundedReceiver;

/// How long one waits for more messages to cover.
const LINGER: Duration = Duration::from_secs(2);

/// Sends receipts for what arrives, until nobody is left to say so. One that fails is no loss: the next covers it.
pub(super) async fn send(client: Client, mut read: UnboundedReceiver<(OwnedRoomId, OwnedEventId)>) {
    while let Some((room, event)) = read.recv().await {
        let mut newest = BTreeMap::from([(room, event)]);
        tokio::time::sleep(LINGER).await;
        while let Ok((room, event)) = read.try_recv() {
            newest.insert(room, event);
        }
        for (room, event) in newest {
            let Some(room) = client.get_room(&room) else { continue };
            let sent = room.send_single_receipt(ReceiptType::Read, ReceiptThread::Unthreaded, event).await;
            if let Err(error) = sent {
                tracing::debug!(room = %room.room_id(), %error, "no receipt sent");
            }
        }
    }
}
