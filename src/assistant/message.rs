//! What comes in from a driver, and what goes out through one.

use crate::enclosure::Enclosure;
use crate::ledger::{Change, MessageId};
use chrono::{DateTime, FixedOffset, Utc};
use serde::{Deserialize, Serialize};
use serde_json::{Map, Value};
use std::sync::Arc;

/// A message as a driver hands it over.
#[derive(Clone, PartialEq, Debug)]
pub struct Incoming {
    /// The room, by the driver's own id.
    pub room: Arc<str>,
    /// The sender, by the driver's own id.
    pub who: Arc<str>,
    /// The message's own id.
    pub id: MessageId,
    /// When it was sent. The offset is the room's time zone if nothing else says which it is.
    pub at: DateTime<FixedOffset>,
    /// Whether it is said to the assistant alone (a console, a room of two): then even what is not understood is
    /// answered.
    pub direct: bool,
    /// The thread that it was said in, by the message that the thread hangs on.
    pub thread: Option<MessageId>,
    /// What it says.
    pub said: Said,
}

/// What a message says.
#[derive(Clone, PartialEq, Debug)]
pub enum Said {
    /// New words.
    Text {
        /// The words, without a reply's quotation.
        text: String,
        /// The message it replies to.
        reply_to: Option<MessageId>,
    },
    /// An earlier message now reads otherwise.
    Edit {
        /// The message as it was first sent.
        target: MessageId,
        /// All of its words now.
        text: String,
    },
    /// An earlier message, edit or mark was deleted.
    Redact {
        /// The message.
        target: MessageId,
    },
    /// Somebody put a mark on a message.
    Mark {
        /// The message: one that somebody said, or, for a mark on an answer, the message that it answers.
        target: MessageId,
        /// Which.
        mark: Mark,
        /// The name of the alert that the mark is on, if it is on one.
        alert: Option<String>,
    },
}

/// What a mark on a message means.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Mark {
    /// It does not count.
    Undo,
    /// It is done.
    Done,
}

/// What kind of message goes out.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum OutKind {
    /// An answer to a message.
    Reply,
    /// Something fell due.
    Alert,
    /// A refusal or a question back.
    Problem,
    /// A mark on the message that was taken in, where a room wants few words.
    Mark,
}

/// A message that goes out. It is on disk before it is sent.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize)]
pub struct Outgoing {
    /// Unique and made from what it answers or announces: a driver makes its transaction id from it, so that sending
    /// twice is sending once.
    pub key: String,
    /// The room.
    pub room: Arc<str>,
    /// When it was made.
    pub at: DateTime<FixedOffset>,
    /// Which kind.
    pub out: OutKind,
    /// The message it answers.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub re: Option<MessageId>,
    /// The topic, as the contract names it.
    pub topic: String,
    /// The words, plain text, several lines at most.
    pub text: String,
    /// Every figure that the words state.
    pub facts: Map<String, Value>,
    /// Whether the people of the household should be called to it: alerts that need a hand.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub mention: bool,
    /// The thread it belongs in.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub thread: Option<MessageId>,
    /// The name of the alert that it is.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub alert: Option<String>,
    /// What goes with it as files.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub files: Vec<Enclosure>,
}

/// All that one message, or one moment, did: kept and undone as one.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize)]
pub struct Commit {
    /// The room.
    pub room: Arc<str>,
    /// When it was taken in.
    pub at: DateTime<Utc>,
    /// The message that caused it; none for what fell due by itself.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub message: Option<MessageId>,
    /// When that message was sent.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub said: Option<DateTime<Utc>>,
    /// What changed in the room. May be empty: the message was heard, and that is kept.
    pub changes: Vec<Change>,
    /// What goes out for it.
    pub out: Vec<Outgoing>,
}
