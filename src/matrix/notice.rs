//! How an outgoing message looks on Matrix, and how to recognise it there.

use crate::assistant::Outgoing;
use chrono::{DateTime, TimeDelta, Utc};
use matrix_sdk::deserialized_responses::TimelineEvent;
use matrix_sdk::room::MessagesOptions;
use matrix_sdk::ruma::events::relation::{InReplyTo, Reply};
use matrix_sdk::ruma::events::room::message::{Relation, RoomMessageEventContent};
use matrix_sdk::ruma::events::{AnySyncMessageLikeEvent, AnySyncTimelineEvent, Mentions};
use matrix_sdk::ruma::{OwnedEventId, OwnedTransactionId, OwnedUserId, UInt, UserId};
use matrix_sdk::{Result, Room};
use sha2::{Digest, Sha256};
use std::collections::HashSet;

/// The notice for a message: its words as plain text and as HTML in which everything is escaped, as a reply to what it
/// answers, calling `called` and nobody else.
pub(super) fn content(message: &Outgoing, called: Vec<OwnedUserId>) -> RoomMessageEventContent {
    let html = html_escape::encode_text(&message.text).replace('\n', "<br>");
    // An empty list of mentions says "nobody", and keeps words that look like names from calling anybody.
    let mut content =
        RoomMessageEventContent::notice_html(&message.text, html).add_mentions(Mentions::with_user_ids(called));
    let answered = message.re.as_ref().and_then(|re| OwnedEventId::try_from(re.as_str()).ok());
    content.relates_to = answered.map(|event| Relation::Reply(Reply::new(InReplyTo::new(event))));
    content
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
    /// What was said without a transaction id that we can see (by an earlier device): which event it answers, and the words.
    words: HashSet<(Option<OwnedEventId>, String)>,
    /// Events before this time, in milliseconds since 1970, have not been read.
    back_to: Option<i64>,
}

impl Past {
    /// Whether the message, which was `made` by the world's clocks, was sent already. Reads the room's history back to when the message was made, unless an
    /// earlier search has; after an attempt in this process it has to be read anew.
    pub(super) async fn holds(
        &mut self,
        room: &Room,
        me: &UserId,
        message: &Outgoing,
        made: DateTime<Utc>,
        tried: bool,
    ) -> Result<bool> {
        // Clocks of two machines: nothing was said a good while before it was made.
        let from = (made - TimeDelta::minutes(15)).timestamp_millis();
        if tried || self.back_to.is_none_or(|back_to| back_to > from) {
            self.read(room, me, from).await?;
        }
        let answers = message.re.as_ref().and_then(|re| OwnedEventId::try_from(re.as_str()).ok());
        Ok(self.transactions.contains(&transaction(&message.key))
            || self.words.contains(&(answers, message.text.clone())))
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
        let transaction = event.raw().get_field::<Unsigned>("unsigned").ok().flatten();
        if let Some(transaction) = transaction.and_then(|unsigned| unsigned.transaction_id) {
            self.transactions.insert(transaction);
            return;
        }
        let Ok(AnySyncTimelineEvent::MessageLike(AnySyncMessageLikeEvent::RoomMessage(said))) =
            event.raw().deserialize()
        else {
            return;
        };
        let Some(said) = said.as_original() else { return };
        let answers = match &said.content.relates_to {
            Some(Relation::Reply(reply)) => Some(reply.in_reply_to.event_id.clone()),
            _ => None,
        };
        self.words.insert((answers, said.content.body().to_owned()));
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
    use crate::ledger::MessageId;
    use matrix_sdk::ruma::serde::Raw;
    use matrix_sdk::ruma::user_id;
    use serde_json::json;

    fn outgoing(text: &str, re: Option<&str>) -> Outgoing {
        Outgoing {
            key: "reply/$1".into(),
            room: "!a:home.test".into(),
            at: "2026-08-14T09:05:00-05:00".parse().unwrap(),
            out: OutKind::Reply,
            re: re.map(MessageId::new),
            topic: "froze".into(),
            text: text.into(),
            facts: serde_json::Map::new(),
            mention: false,
            thread: None,
            alert: None,
        }
    }

    #[test]
    fn a_reply_is_an_escaped_notice_that_calls_nobody() {
        let content = content(&outgoing("<b>Tom & \"Jerry\"</b>\n@room", Some("$1")), Vec::new());
        assert_eq!(
            serde_json::to_value(&content).unwrap(),
            json!({"msgtype": "m.notice", "body": "<b>Tom & \"Jerry\"</b>\n@room", "format": "org.matrix.custom.html",
                "formatted_body": "&lt;b&gt;Tom &amp; \"Jerry\"&lt;/b&gt;<br>@room", "m.mentions": {},
                "m.relates_to": {"m.in_reply_to": {"event_id": "$1"}}})
        );
    }

    #[test]
    fn an_alert_answers_nothing_and_calls_the_household() {
        let content = content(&outgoing("Heat off!", None), vec![user_id!("@ana:home.test").to_owned()]);
        let json = serde_json::to_value(&content).unwrap();
        assert_eq!(json["m.mentions"], json!({"user_ids": ["@ana:home.test"]}));
        assert_eq!(json.get("m.relates_to"), None);
    }

    #[test]
    fn a_transaction_id_follows_from_the_key_alone() {
        // Pinned: another scheme would send again what an older version had sent.
        assert_eq!(transaction("reply/$1").as_str(), "rackful-f9dfd281655767c72a783fc8459ea721");
        assert_ne!(transaction("reply/$1"), transaction("reply/$2"));
        assert!(transaction("a/b?c#d\n é").as_str().bytes().all(|byte| byte.is_ascii_alphanumeric() || byte == b'-'));
    }

    fn event(unsigned: serde_json::Value, re: &str, body: &str) -> TimelineEvent {
        let event = json!({"type": "m.room.message", "event_id": "$2", "sender": "@rackful:home.test", "origin_server_ts": 1,
            "unsigned": unsigned, "content": {"msgtype": "m.notice", "body": body,
            "m.relates_to": {"m.in_reply_to": {"event_id": re}}}});
        TimelineEvent::from_plaintext(Raw::from_json_string(event.to_string()).unwrap())
    }

    #[test]
    fn what_was_said_is_known_by_transaction_or_else_by_answer_and_words() {
        let mut past = Past::default();
        past.note(&event(json!({"transaction_id": "t1"}), "$1", "one"));
        past.note(&event(json!({}), "$1", "two"));
        assert!(past.transactions.contains::<OwnedTransactionId>(&"t1".into()));
        // An edit's reply answers the same event with other words, so the event alone says nothing.
        let answers = OwnedEventId::try_from("$1").ok();
        assert!(
            past.words.contains(&(answers.clone(), "two".into())) && !past.words.contains(&(answers, "one".into()))
        );
    }
}
