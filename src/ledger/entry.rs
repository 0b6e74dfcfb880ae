//! What the ledger keeps: entries as they were said, and the changes that came after.

use super::bounds::is_possible;
use crate::statement::{Clarify, Statement};
use crate::zone::Zone;
use chrono::{DateTime, Utc};
use serde::de::Error as _;
use serde::{Deserialize, Deserializer, Serialize, Serializer};
use std::sync::Arc;

/// The identity of a message in its room: what makes it count once. On Matrix the event id.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Debug, Serialize, Deserialize)]
#[serde(transparent)]
pub struct MessageId(Arc<str>);

impl MessageId {
    /// From the driver's own id.
    pub fn new(id: &str) -> Self {
        Self(Arc::from(id))
    }

    /// The driver's own id.
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl std::fmt::Display for MessageId {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.0)
    }
}

/// One statement of a message, as the ledger keeps it: what was said, by whom, when, and the words.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize)]
#[serde(remote = "Self")]
pub struct Entry {
    /// The message.
    pub message: MessageId,
    /// Which of the message's statements, from 0.
    pub part: u16,
    /// Who said it.
    pub who: Arc<str>,
    /// When it was said.
    pub said: DateTime<Utc>,
    /// When it happened: the fold is by this, then by arrival.
    pub happened: DateTime<Utc>,
    /// The words of the message.
    pub words: Arc<str>,
    /// What was said.
    pub statement: Statement,
}

impl Serialize for Entry {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        Self::serialize(self, to)
    }
}

/// Refuses what no household can have said: folding it would fill the memory, or leave the calendar.
impl<'de> Deserialize<'de> for Entry {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let entry = Self::deserialize(from)?;
        if is_possible(&entry) {
            Ok(entry)
        } else {
            Err(D::Error::custom("an entry with a figure or a time that cannot be"))
        }
    }
}

/// A question that waits for its answer.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize)]
pub struct Pending {
    /// The message that raised it.
    pub message: MessageId,
    /// What is missing.
    pub question: Clarify,
    /// The statement as far as it was said.
    pub partial: Option<Statement>,
    /// When it was asked; the answer counts for ten minutes.
    pub asked: DateTime<Utc>,
    /// Whether something has been said since that was no answer.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub passed: bool,
    /// The words it was asked about.
    pub words: Arc<str>,
}

/// What may have been meant, and is entered when somebody of the household says yes within a day.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize)]
pub struct Proposal {
    /// The message that said it.
    pub message: MessageId,
    /// Who said it.
    pub who: Arc<str>,
    /// When.
    pub said: DateTime<Utc>,
    /// Its words.
    pub words: Arc<str>,
    /// What a yes enters.
    pub statements: Vec<Statement>,
}

/// One change of a room. Changes are only ever added; applying them in order gives the room, always.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize)]
#[serde(tag = "change", rename_all = "snake_case")]
pub enum Change {
    /// The room was heard for the first time.
    Founded {
        /// Its time zone until one is set by phrase.
        zone: Zone,
    },
    /// A message's statements were entered.
    Entered {
        /// In the order said.
        entries: Vec<Entry>,
    },
    /// A message's entries are now these: it was edited, corrected or partly taken back. An empty list takes all of
    /// it back.
    Amended {
        /// The message as it was first said.
        message: MessageId,
        /// What stands now.
        entries: Vec<Entry>,
    },
    /// A message answered a question, and with it made the entry.
    Completed {
        /// The answering message.
        by: MessageId,
        /// The question.
        pending: Box<Pending>,
    },
    /// A message corrected another one.
    Corrected {
        /// The correcting message.
        by: MessageId,
        /// The message it corrected.
        target: MessageId,
    },
    /// A message now reads otherwise.
    Edited {
        /// The edit.
        by: MessageId,
        /// The message as it was first said.
        message: MessageId,
        /// Who edited it.
        who: Arc<str>,
        /// The words of its entries until then, if it had any.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        before: Option<Arc<str>>,
        /// Its words now.
        words: Arc<str>,
    },
    /// An edit was deleted.
    Unedited {
        /// The edit.
        by: MessageId,
    },
    /// A mark took a message's entries back.
    Struck {
        /// The mark.
        by: MessageId,
        /// The message.
        message: MessageId,
        /// Its entries until then.
        entries: Vec<Entry>,
    },
    /// A mark was taken back.
    Unmarked {
        /// The mark.
        by: MessageId,
    },
    /// A mark says that what an alert was about is done.
    Settled {
        /// The mark.
        by: MessageId,
        /// The alert's name.
        alert: String,
    },
    /// A message with entries was said in a thread.
    Threaded {
        /// The message.
        message: MessageId,
        /// The message that the thread hangs on.
        thread: MessageId,
    },
    /// A question was put to somebody.
    Asked {
        /// To whom.
        who: Arc<str>,
        /// What.
        pending: Box<Pending>,
    },
    /// Somebody's question is answered or has lapsed.
    Answered {
        /// Whose.
        who: Arc<str>,
    },
    /// Something was put to the household.
    Proposed {
        /// What.
        proposal: Box<Proposal>,
    },
    /// What was put to the household is entered, turned down or has lapsed.
    Decided {
        /// The message that had said it.
        message: MessageId,
    },
    /// An alert went out, and is not to go out again.
    Told {
        /// Its name, which holds what it is about and when it was due.
        alert: String,
        /// When it was due: names older than a few weeks may be forgotten.
        due: DateTime<Utc>,
    },
    /// What an alert was about is over: it may go out again.
    Rearmed {
        /// Its name.
        alert: String,
    },
}
