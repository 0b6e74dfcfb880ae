//! Which message is meant: people answer and mark the assistant's own answers and alerts, and mean what these were
//! about.

use super::notice::{answered, transaction, transaction_of};
use super::owner::{DeskHandle, Known};
use super::sync::Syncer;
use super::trouble::ServeError;
use crate::assistant::{Incoming, Mark, Said};
use crate::ledger::MessageId;
use crate::store::Told;
use matrix_sdk::Room;
use matrix_sdk::ruma::OwnedEventId;

impl Syncer {
    /// The message as it is meant; `None` when it means nothing: a mark on what is neither anybody's message nor about
    /// one.
    pub(super) async fn meant(&self, room: &Room, mut message: Incoming) -> Result<Option<Incoming>, ServeError> {
        let target = match &message.said {
            Said::Text { reply_to: Some(target), .. } | Said::Mark { target, .. } => target.clone(),
            _ => return Ok(Some(message)),
        };
        let told = match self.desk.known(&message.room, &target).await? {
            Known::Heard => None,
            Known::Told(told) => Some(told),
            Known::No => self.ask_what_it_was(room, &target).await?,
        };
        match (&mut message.said, told) {
            (Said::Text { reply_to, .. }, Some(told)) => *reply_to = told.about,
            (Said::Mark { mark: Mark::Done, alert, .. }, Some(Told { alert: Some(name), .. })) => *alert = Some(name),
            (Said::Mark { target, .. }, Some(Told { about: Some(about), .. })) => *target = about,
            (Said::Mark { .. } | Said::Text { .. }, None) => {}
            (Said::Mark { .. }, _) => return Ok(None),
            _ => {}
        }
        Ok(Some(message))
    }

    /// Asks the homeserver for an event of our own that we do not know: sent by a process that ended before it could
    /// note so, or before the ledger was restored from a backup.
    async fn ask_what_it_was(&self, room: &Room, target: &MessageId) -> Result<Option<Told>, ServeError> {
        let Ok(id) = OwnedEventId::try_from(target.as_str()) else { return Ok(None) };
        let Some(event) = self.insist(|| room.event(&id, None)).await? else { return Ok(None) };
        if event.sender().is_none_or(|sender| sender != self.me) {
            return Ok(None);
        }
        let about = answered(&event).map(|about| MessageId::new(about.as_str()));
        let alert = match transaction_of(&event) {
            Some(id) => waiting_alert(&self.desk, &id).await?,
            None => None,
        };
        Ok(Some(Told { about, alert }))
    }
}

/// The name of an alert that still counts as not sent, by its transaction id.
async fn waiting_alert(desk: &DeskHandle, id: &matrix_sdk::ruma::TransactionId) -> Result<Option<String>, ServeError> {
    let outbox = desk.outbox().await?;
    Ok(outbox.into_iter().find(|out| transaction(&out.key) == id).and_then(|out| out.alert))
}
