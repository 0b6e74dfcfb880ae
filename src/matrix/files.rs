//! Files and pictures that go with a message: each an event of its own after the words, under a transaction id of its
//! own.

use super::notice;
use super::outgoing::{Failure, Sender};
use super::trouble::Trouble;
use crate::assistant::Outgoing;
use crate::enclosure::Enclosure;
use crate::files::{self, File};
use matrix_sdk::Room;
use matrix_sdk::attachment::{AttachmentConfig, AttachmentInfo, BaseFileInfo, BaseImageInfo};
use matrix_sdk::room::reply::{EnforceThread, Reply};
use matrix_sdk::ruma::events::room::message::{AddMentions, TextMessageEventContent};
use matrix_sdk::ruma::{OwnedEventId, UInt};

impl Sender {
    /// Sends what goes with a message. A file that cannot be made is no reason to keep the words back; the log has it.
    pub(super) async fn enclose(&self, room: &Room, message: &Outgoing) -> Result<(), Failure> {
        for (number, enclosure) in message.files.iter().enumerate() {
            let Some(file) = self.make(enclosure, message).await else { continue };
            let Ok(mime) = file.mime.parse::<mime::Mime>() else { continue };
            let transaction = notice::transaction(&format!("{}|file {number}", message.key));
            let answered = message.re.as_ref().and_then(|id| OwnedEventId::try_from(id.as_str()).ok());
            // In the thread of what it answers, if that is in one.
            let reply = answered.map(|event_id| Reply {
                event_id,
                enforce_thread: EnforceThread::MaybeThreaded,
                add_mentions: AddMentions::No,
            });
            // A picture's sentence is most often the message itself, which stands above it.
            let caption = file.alt.clone().filter(|alt| !message.text.contains(alt));
            let config = AttachmentConfig::new()
                .txn_id(transaction)
                .info(info(&file))
                .caption(caption.map(TextMessageEventContent::plain))
                .reply(reply);
            match room.send_attachment(file.name, &mime, file.bytes, config).await.map_err(Failure::from) {
                // The words are there, and the other files can be.
                Err(failure) if failure.trouble() == Trouble::Lasting => {
                    tracing::error!(room = %message.room, topic = %message.topic, "a file is not sent: {failure}");
                }
                sent => drop(sent?),
            }
        }
        Ok(())
    }

    async fn make(&self, enclosure: &Enclosure, message: &Outgoing) -> Option<File> {
        let (alone, name) = (enclosure.clone(), message.room.clone());
        // A picture takes a while to draw, and the desk has other things to do.
        let made = tokio::task::spawn_blocking(move || files::alone(&alone, &name)).await.ok()?;
        let file = match made {
            Ok(Some(file)) => Ok(file),
            Ok(None) => self.desk.file(enclosure.clone(), message.room.clone()).await.ok()?,
            Err(error) => Err(error.to_string()),
        };
        file.inspect_err(|error| tracing::error!(room = %message.room, topic = %message.topic, "no file: {error}")).ok()
    }
}

fn info(file: &File) -> AttachmentInfo {
    let size = UInt::try_from(file.bytes.len()).ok();
    match file.pixels {
        Some((width, height)) => AttachmentInfo::Image(BaseImageInfo {
            width: Some(width.into()),
            height: Some(height.into()),
            size,
            ..Default::default()
        }),
        None => AttachmentInfo::File(BaseFileInfo { size }),
    }
}
