//! Files that go with a message: made into bytes, uploaded (encrypted where the room is), and sent as events of their own after
//! it, in the same place of the conversation.
//!
//! A transaction id of an event follows from the message's key and the file's place in it, so that a file whose event was
//! sent already is uploaded again after a crash, and not shown again. The words went before: a file that the homeserver
//! will never take is left out with a line in the log.

use super::notice;
use super::outgoing::{Failure, Sender};
use super::trouble::Trouble;
use crate::assistant::Outgoing;
use crate::enclosure::Enclosure;
use crate::files::{self, File, FileError};
use matrix_sdk::Room;
use matrix_sdk::ruma::UInt;
use matrix_sdk::ruma::events::room::message::{
    FileInfo, FileMessageEventContent, ImageMessageEventContent, MessageType, RoomMessageEventContent,
};
use matrix_sdk::ruma::events::room::{ImageInfo, MediaSource};
use std::io::Cursor;
use std::sync::Arc;

/// Sends all files of a message.
///
/// # Errors
/// What may pass, or ends the session.
pub(super) async fn send(sender: &Sender, room: &Room, message: &Outgoing) -> Result<(), Failure> {
    for (place, enclosure) in message.files.iter().enumerate() {
        let file = match make(sender, message, enclosure).await {
            Ok(file) => file,
            Err(error) => {
                tracing::error!(room = %message.room, topic = %message.topic, "a file was not made: {error}");
                continue;
            }
        };
        match send_one(room, message, file, place).await {
            Err(failure) if failure.trouble() == Trouble::Lasting => {
                tracing::error!(room = %message.room, topic = %message.topic, "a file will not be sent: {failure}");
            }
            sent => sent?,
        }
    }
    Ok(())
}

/// Drawing takes a while: not on a thread that others wait for, the desk's least of all.
async fn make(sender: &Sender, message: &Outgoing, enclosure: &Enclosure) -> Result<File, String> {
    let (enclosure, room) = (enclosure.clone(), Arc::clone(&message.room));
    let kept = enclosure.clone();
    let alone = tokio::task::spawn_blocking(move || files::alone(&kept, &room)).await;
    let told = |error: FileError| error.to_string();
    match alone.map_err(|error| error.to_string())?.map_err(told)? {
        Some(file) => Ok(file),
        None => {
            let made = sender.desk.file(Arc::clone(&message.room), enclosure).await;
            made.map_err(|error| error.to_string())?
        }
    }
}

async fn send_one(room: &Room, message: &Outgoing, file: File, place: usize) -> Result<(), Failure> {
    let mime: mime::Mime = file.mime.parse().unwrap_or(mime::APPLICATION_OCTET_STREAM);
    let size = UInt::try_from(file.bytes.len()).ok();
    let encrypted = room.latest_encryption_state().await?.is_encrypted();
    let source = if encrypted {
        let mut bytes = Cursor::new(file.bytes);
        MediaSource::Encrypted(Box::new(room.client().upload_encrypted_file(&mut bytes).await?))
    } else {
        let upload = room.client().media().upload(&mime, file.bytes, None).await;
        MediaSource::Plain(upload.map_err(matrix_sdk::Error::from)?.content_uri)
    };
    let content = match file.pixels {
        Some((width, height)) => {
            let mut info = ImageInfo::new();
            (info.width, info.height) = (Some(width.into()), Some(height.into()));
            (info.mimetype, info.size) = (Some(mime.to_string()), size);
            let mut image = ImageMessageEventContent::new(file.name, source);
            image.info = Some(Box::new(info));
            MessageType::Image(image)
        }
        None => {
            let mut info = FileInfo::new();
            (info.mimetype, info.size) = (Some(mime.to_string()), size);
            let mut content = FileMessageEventContent::new(file.name.clone(), source);
            (content.filename, content.info) = (Some(file.name), Some(Box::new(info)));
            MessageType::File(content)
        }
    };
    let mut content = RoomMessageEventContent::new(content);
    // It stands where the words stand, and calls nobody.
    let words = notice::content(message, Vec::new());
    (content.relates_to, content.mentions) = (words.relates_to, words.mentions);
    let transaction = notice::transaction(&format!("{}|file {place}", message.key));
    let sent = room.send(content).with_transaction_id(transaction).await?;
    tracing::debug!(room = %message.room, event = %sent.response.event_id, topic = %message.topic, "file sent");
    Ok(())
}
