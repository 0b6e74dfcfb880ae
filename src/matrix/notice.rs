//! How an outgoing message looks on Matrix, and how to recognise it there.

use super::html::html;
use crate::assistant::Outgoing;
use crate::ledger::MessageId;
use chrono::{DateTime, TimeDelta, Utc};
use matrix_sdk::deserialized_responses::TimelineEvent;
use matrix_sdk::room::MessagesOptions;
use matrix_sdk::ruma::events::reaction::ReactionEventContent;
use matrix_sdk::ruma::events::relation::{Annotation, InReplyTo, Reply, Thread};
use matrix_sdk::ruma::events::room::message::{Relation, RoomMessageEventContent};
use matrix_sdk::ruma::events::{AnySyncMessageLikeEvent, AnySyncTimelineEvent, Mentions};
use matrix_sdk::ruma::{OwnedEventId, OwnedTransactionId, OwnedUserId, UInt, UserId};
use matrix_sdk::{Result, Room};
use sha2::{Digest, Sha256};
use std::collections::HashSet;

/// The event for a message: its words as plain text and as HTML in which everything is escaped, as a reply to what it
/// answers, calling `called` and nobody else.
///
/// An answer is a notice, which other programs leave alone. What comes by itself is a text: the push rules that every
/// account begins with pass over notices even where they mention somebody (`.m.rule.suppress_notices` stands before
/// `.m.rule.is_user_mention` among the predefined rules of the client-server API), so that no phone would ring for one.
pub(super) fn content(message: &Outgoing, called: Vec<OwnedUserId>) -> RoomMessageEventContent {
    let html = html(&message.text);
    let content = match message.re {
        Some(_) => RoomMessageEventContent::notice_html(&message.text, html),
        None => RoomMessageEventContent::text_html(&message.text, html),
    };
    // An empty list of mentions says "nobody", and keeps words that look like names from calling anybody.
    let mut content = content.add_mentions(Mentions::with_user_ids(called));
    let answered = message.re.as_ref().and_then(event_id);
    content.relates_to = match (message.thread.as_ref().and_then(event_id), answered) {
        (Some(thread), Some(event)) => Some(Relation::Thread(Thread::reply(thread, event))),
        // For clients that know no threads it answers the message that the thread hangs on.
        (Some(thread), None) => Some(Relation::Thread(Thread::plain(thread.clone(), thread))),
        (None, answered) => answered.map(|event| Relation::Reply(Reply::new(InReplyTo::new(event)))),
    };
    content
}

/// The reaction for a mark; `None` when it marks nothing on a homeserver.
pub(super) fn reaction(message: &Outgoing) -> Option<ReactionEventContent> {
    let event = message.re.as_ref().and_then(event_id)?;
    Some(ReactionEventContent::new(Annotation::new(event, message.text.clone())))
}

fn event_id(id: &MessageId) -> Option<OwnedEventId> {
    OwnedEventId::try_from(id.as_str()).ok()
}

/// What one of our own events answers.
pub(super) fn answered(event: &TimelineEvent) -> Option<OwnedEventId> {
    #[derive(serde::Deserialize)]
    struct Content {
        #[serde(rename = "m.relates_to")]
        relates_to: Option<Relates>,
    }
    #[derive(serde::Deserialize)]
    struct Relates {
        #[serde(rename = "m.in_reply_to")]
        in_reply_to: Option<InReplyTo>,
        #[serde(default)]
        is_falling_back: bool,
    }
    let content = event.raw().get_field::<Content>("content").ok().flatten()?;
    let relates = content.relates_to.filter(|relates| !relates.is_falling_back)?;
    relates.in_reply_to.map(|reply| reply.event_id)
}

/// The transaction id of one of our own events, which the homeserver tells the device that sent it.
pub(super) fn transaction_of(event: &TimelineEvent) -> Option<OwnedTransactionId> {
    event.raw().get_field::<Unsigned>("unsigned").ok().flatten()?.transaction_id
}

/// The transaction id for an outbox entry: the same for the same key in every process, and safe in an address.
pub(super) fn transaction(key: &str) -> OwnedTransactionId {
    let digest = Sha256::digest(key.as_bytes());
    let hex: String = digest.iter().take(16).map(|byte| format!("{byte:02x}")).collect();
    OwnedTransactionId::from(format!("rackful-{hex}"))
}

/// What the account has said in a room, read backwards as far as was needed.
#[derive(Debug, Default)]
pub(super) struct Past {
    transactions: HashSet<OwnedTransactionId>,
    /// What was said without a transaction id that we can see (by an earlier device): which event it answers, and the
    /// words.
    words: HashSet<(Option<OwnedEventId>, String)>,
    /// What those events of an earlier device answer that this one has no keys for.
    sealed: HashSet<Option<OwnedEventId>>,
    /// Events before this time, in milliseconds since 1970, have not been read.
    back_to: Option<i64>,
}

/// Whether a message was sent before.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Sent {
    /// It is in the room.
    Yes,
    /// It is not.
    No,
    /// There is something that may be it, and cannot be read.
    Perhaps,
}

impl Past {
    /// Whether the message, which was `made` by the world's clocks, was sent already. Reads the room's history back to
    /// when the message was made, unless an earlier search has; after an attempt in this process it has to be read
    /// anew.
    pub(super) async fn holds(
        &mut self,
        room: &Room,
        me: &UserId,
        message: &Outgoing,
        made: DateTime<Utc>,
        tried: bool,
    ) -> Result<Sent> {
        // Clocks of two machines: nothing was said a good while before it was made.
        let from = (made - TimeDelta::minutes(15)).timestamp_millis();
        if tried || self.back_to.is_none_or(|back_to| back_to > from) {
            self.read(room, me, from).await?;
        }
        let answers = message.re.as_ref().and_then(event_id);
        let known = self.transactions.contains(&transaction(&message.key));
        Ok(if known || self.words.contains(&(answers.clone(), message.text.clone())) {
            Sent::Yes
        } else if self.sealed.contains(&answers) {
            Sent::Perhaps
        } else {
            Sent::No
        })
    }

    async fn read(&mut self, room: &Room, me: &UserId, back_to: i64) -> Result<()> {
        let mut from = None;
        loop {
            let mut options = MessagesOptions::backward();
            options.from = from.clone();
            options.limit = UInt::from(100_u32);
            let page = room.messages(options).await?;
            let reached = page.chunk.iter().any(|event| stamp(event).is_some_and(|stamp| stamp < back_to));
            for event in page.chunk.iter().filter(|event| event.sender().as_deref() == Some(me)) {
                self.note(event);
            }
            match page.end {
                Some(end) if !reached && from.as_ref() != Some(&end) => from = Some(end),
                _ => break,
            }
        }
        self.back_to = Some(self.back_to.map_or(back_to, |before| before.min(back_to)));
        Ok(())
    }

    fn note(&mut self, event: &TimelineEvent) {
        if let Some(transaction) = transaction_of(event) {
            self.transactions.insert(transaction);
            return;
        }
        if event.kind.is_utd() {
            self.sealed.insert(answered(event));
            return;
        }
        let Ok(AnySyncTimelineEvent::MessageLike(AnySyncMessageLikeEvent::RoomMessage(said))) =
            event.raw().deserialize()
        else {
            return;
        };
        let Some(said) = said.as_original() else { return };
        self.words.insert((answered(event), said.content.body().to_owned()));
    }
}

#[derive(serde::Deserialize)]
struct Unsigned {
    transaction_id: Option<OwnedTransactionId>,
}

fn stamp(event: &TimelineEvent) -> Option<i64> {
    event.raw().get_field::<i64>("origin_server_ts").ok().flatten()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::assistant::OutKind;
    use anyhow::Context as _;
    use matrix_sdk::deserialized_responses::{UnableToDecryptInfo, UnableToDecryptReason};
    use matrix_sdk::ruma::serde::Raw;
    use matrix_sdk::ruma::user_id;
    use serde_json::json;

    fn outgoing(text: &str, re: Option<&str>) -> anyhow::Result<Outgoing> {
        Ok(Outgoing {
            key: "reply/$1".into(),
            room: "!a:home.test".into(),
            at: "2026-08-14T09:05:00-05:00".parse()?,
            out: OutKind::Reply,
            re: re.map(MessageId::new),
            topic: "froze".into(),
            text: text.into(),
            facts: serde_json::Map::new(),
            mention: false,
            thread: None,
            alert: None,
            files: Vec::new(),
        })
    }

    #[test]
    fn a_reply_is_an_escaped_notice_that_calls_nobody() -> anyhow::Result<()> {
        let content = content(&outgoing("<b>Tom & \"Jerry\"</b>\n@room", Some("$1"))?, Vec::new());
        assert_eq!(
            serde_json::to_value(&content)?,
            json!({"msgtype": "m.notice", "body": "<b>Tom & \"Jerry\"</b>\n@room", "format": "org.matrix.custom.html",
                "formatted_body": "&lt;b&gt;Tom &amp; \"Jerry\"&lt;/b&gt;<br>@room", "m.mentions": {},
                "m.relates_to": {"m.in_reply_to": {"event_id": "$1"}}})
        );
        Ok(())
    }

    #[test]
    fn in_a_thread_an_answer_answers_and_an_alert_falls_back_on_the_root() -> anyhow::Result<()> {
        let in_thread =
            |re| anyhow::Ok(Outgoing { thread: Some(MessageId::new("$root")), ..outgoing("Froze 7 lb.", re)? });
        let relation = |out: &Outgoing| {
            serde_json::to_value(content(out, Vec::new())).map(|content| content["m.relates_to"].clone())
        };
        let (answer, alert) = (in_thread(Some("$1"))?, in_thread(None)?);
        assert_eq!(
            relation(&answer)?,
            json!({"rel_type": "m.thread", "event_id": "$root", "m.in_reply_to": {"event_id": "$1"}})
        );
        assert_eq!(
            relation(&alert)?,
            json!({"rel_type": "m.thread", "event_id": "$root", "is_falling_back": true,
                "m.in_reply_to": {"event_id": "$root"}})
        );
        Ok(())
    }

    #[test]
    fn a_mark_is_a_reaction_to_the_message() -> anyhow::Result<()> {
        let mark = Outgoing { out: OutKind::Mark, ..outgoing("✅", Some("$1"))? };
        assert_eq!(
            serde_json::to_value(reaction(&mark).context("a reaction")?)?,
            json!({"m.relates_to": {"rel_type": "m.annotation", "event_id": "$1", "key": "✅"}})
        );
        assert!(reaction(&outgoing("✅", None)?).is_none());
        Ok(())
    }

    #[test]
    fn an_alert_answers_nothing_and_calls_the_household_by_words_that_ring() -> anyhow::Result<()> {
        let content = content(&outgoing("Heat off!", None)?, vec![user_id!("@ana:home.test").to_owned()]);
        let json = serde_json::to_value(&content)?;
        assert_eq!(json["msgtype"], "m.text");
        assert_eq!(json["m.mentions"], json!({"user_ids": ["@ana:home.test"]}));
        assert_eq!(json.get("m.relates_to"), None);
        Ok(())
    }

    #[test]
    fn a_transaction_id_follows_from_the_key_alone() {
        // Pinned: another scheme would send again what an older version had sent.
        assert_eq!(transaction("reply/$1").as_str(), "rackful-f9dfd281655767c72a783fc8459ea721");
        assert_ne!(transaction("reply/$1"), transaction("reply/$2"));
        assert!(transaction("a/b?c#d\n é").as_str().bytes().all(|byte| byte.is_ascii_alphanumeric() || byte == b'-'));
    }

    fn event(unsigned: serde_json::Value, re: &str, body: &str) -> anyhow::Result<TimelineEvent> {
        let relation = json!({"m.in_reply_to": {"event_id": re}});
        let event = json!({
            "type": "m.room.message", "event_id": "$2", "sender": "@rackful:home.test", "origin_server_ts": 1,
            "unsigned": unsigned, "content": {"msgtype": "m.notice", "body": body, "m.relates_to": relation}
        });
        Ok(TimelineEvent::from_plaintext(Raw::from_json_string(event.to_string())?))
    }

    #[test]
    fn what_was_said_is_known_by_transaction_or_else_by_answer_and_words() -> anyhow::Result<()> {
        let mut past = Past::default();
        past.note(&event(json!({"transaction_id": "t1"}), "$1", "one")?);
        past.note(&event(json!({}), "$1", "two")?);
        assert!(past.transactions.contains::<OwnedTransactionId>(&"t1".into()));
        // An edit's reply answers the same event with other words, so the event alone says nothing.
        let answers = OwnedEventId::try_from("$1").ok();
        assert!(
            past.words.contains(&(answers.clone(), "two".into())) && !past.words.contains(&(answers, "one".into()))
        );
        Ok(())
    }

    #[test]
    fn what_a_former_device_said_and_this_one_cannot_read_may_be_it() -> anyhow::Result<()> {
        let relation = json!({"m.in_reply_to": {"event_id": "$1"}});
        let sealed = json!({"type": "m.room.encrypted", "event_id": "$2", "sender": "@rackful:home.test",
            "origin_server_ts": 1, "content": {"algorithm": "m.megolm.v1.aes-sha2", "m.relates_to": relation}});
        let why = UnableToDecryptInfo { session_id: None, reason: UnableToDecryptReason::Unknown };
        let mut past = Past::default();
        past.note(&TimelineEvent::from_utd(Raw::from_json_string(sealed.to_string())?, why));
        assert!(past.sealed.contains(&OwnedEventId::try_from("$1").ok()) && past.words.is_empty());
        Ok(())
    }
}
