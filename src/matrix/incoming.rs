//! From the homeserver's events to messages for the assistant.
//!
//! Read are words (`m.text`), their edits and deletions, and reactions that mean something, by permitted people. Passed
//! over are notices (other bots'), emotes (`/me …` is about somebody, not to the ledger), the account's own events,
//! pictures, state and everything unknown.

use super::settings::Permits;
use crate::assistant::{Incoming, Mark, Said};
use crate::ledger::MessageId;
use chrono::{DateTime, FixedOffset, Local, Utc};
use matrix_sdk::deserialized_responses::TimelineEvent;
use matrix_sdk::ruma::events::reaction::ReactionEventContent;
use matrix_sdk::ruma::events::relation::{Annotation, InReplyTo};
use matrix_sdk::ruma::events::room::message::sanitize::remove_plain_reply_fallback;
use matrix_sdk::ruma::events::room::message::{MessageType, OriginalSyncRoomMessageEvent, Relation};
use matrix_sdk::ruma::events::{AnySyncMessageLikeEvent, AnySyncTimelineEvent};
use matrix_sdk::ruma::room_version_rules::RedactionRules;
use matrix_sdk::ruma::{MilliSecondsSinceUnixEpoch, OwnedEventId, UserId};
use std::sync::Arc;

/// What must be known to read a room's events.
pub(super) struct Reader<'a> {
    /// The room's id.
    pub(super) room: Arc<str>,
    /// How its version writes deletions.
    pub(super) redaction: RedactionRules,
    /// Whether only one person and the assistant are in it.
    pub(super) direct: bool,
    /// The account itself.
    pub(super) me: &'a UserId,
    /// Who may write.
    pub(super) permits: &'a Permits,
    /// The clock.
    pub(super) now: DateTime<Utc>,
}

/// What an event turned out to be.
#[derive(PartialEq, Debug)]
pub(super) enum Read {
    /// A message for the assistant.
    Heard(Incoming),
    /// Encrypted, and its key is not here yet.
    Locked(OwnedEventId),
    /// Nothing for the assistant.
    Nothing,
}

impl Reader<'_> {
    /// Reads one event.
    pub(super) fn read(&self, event: &TimelineEvent) -> Read {
        let (Some(sender), Some(id)) = (event.sender(), event.event_id()) else { return Read::Nothing };
        if sender == self.me {
            return Read::Nothing;
        }
        if event.kind.is_utd() {
            return if (self.permits)(sender.as_str()) { Read::Locked(id) } else { Read::Nothing };
        }
        let Ok(AnySyncTimelineEvent::MessageLike(event)) = event.raw().deserialize() else { return Read::Nothing };
        let mut thread = None;
        let said = match &event {
            AnySyncMessageLikeEvent::RoomMessage(message) if (self.permits)(sender.as_str()) => {
                thread = message.as_original().and_then(thread_of);
                message.as_original().and_then(words)
            }
            AnySyncMessageLikeEvent::Reaction(reaction) if (self.permits)(sender.as_str()) => {
                reaction.as_original().and_then(|reaction| marked(&reaction.content))
            }
            // The homeserver has checked that the sender may delete it, and for everybody in the room it is gone.
            AnySyncMessageLikeEvent::RoomRedaction(redaction) if redaction.as_original().is_some() => redaction
                .redacts(&self.redaction)
                .map(|target| Said::Redact { target: MessageId::new(target.as_str()) }),
            _ => None,
        };
        let Some(said) = said else { return Read::Nothing };
        Read::Heard(Incoming {
            room: self.room.clone(),
            who: Arc::from(sender.as_str()),
            id: MessageId::new(id.as_str()),
            at: self.sent(event.origin_server_ts()),
            direct: self.direct,
            thread,
            said,
        })
    }

    /// When it was sent, as far as that can be: the stamp is the sender's homeserver's, whose clock may be ahead of
    /// ours, and nothing has happened in the future. The offset is the machine's, which for a household is its own.
    fn sent(&self, stamp: MilliSecondsSinceUnixEpoch) -> DateTime<FixedOffset> {
        let stamped = DateTime::from_timestamp_millis(stamp.get().into()).unwrap_or(self.now);
        stamped.min(self.now).with_timezone(&Local).fixed_offset()
    }
}

fn words(message: &OriginalSyncRoomMessageEvent) -> Option<Said> {
    let content = &message.content;
    if let Some(Relation::Replacement(edit)) = &content.relates_to {
        let text = text(&edit.new_content.msgtype)?;
        return Some(Said::Edit { target: MessageId::new(edit.event_id.as_str()), text: text.to_owned() });
    }
    let text = text(&content.msgtype)?;
    let answers = |to: &InReplyTo| Some(MessageId::new(to.event_id.as_str()));
    let (text, reply_to) = match &content.relates_to {
        Some(Relation::Reply(reply)) => (remove_plain_reply_fallback(text), answers(&reply.in_reply_to)),
        // In a thread each message names the one before it, for clients that know no threads: that is no reply.
        Some(Relation::Thread(thread)) if !thread.is_falling_back => {
            (remove_plain_reply_fallback(text), thread.in_reply_to.as_ref().and_then(answers))
        }
        _ => (text, None),
    };
    Some(Said::Text { text: text.to_owned(), reply_to })
}

fn thread_of(message: &OriginalSyncRoomMessageEvent) -> Option<MessageId> {
    match &message.content.relates_to {
        Some(Relation::Thread(thread)) => Some(MessageId::new(thread.event_id.as_str())),
        _ => None,
    }
}

/// A reaction that means something. It may be typed with or without the sign that asks for colours, and in any skin
/// tone.
fn marked(reaction: &ReactionEventContent) -> Option<Said> {
    let Annotation { event_id, key, .. } = &reaction.relates_to;
    let tone = |c: char| c == '\u{fe0f}' || ('\u{1f3fb}'..='\u{1f3ff}').contains(&c);
    let mark = match key.trim_end_matches(tone) {
        "👎" | "❌" | "✖" | "✗" | "✘" => Mark::Undo,
        "✅" | "✔" | "✓" | "☑" | "👍" => Mark::Done,
        _ => return None,
    };
    Some(Said::Mark { target: MessageId::new(event_id.as_str()), mark, alert: None })
}

fn text(message: &MessageType) -> Option<&str> {
    match message {
        MessageType::Text(text) if !text.body.trim().is_empty() => Some(&text.body),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use anyhow::{Context as _, bail};
    use matrix_sdk::ruma::room_version_rules::RoomVersionRules;
    use matrix_sdk::ruma::serde::Raw;
    use matrix_sdk::ruma::user_id;
    use serde_json::{Value, json};

    const STAMP: i64 = 1_786_716_300_000;

    fn read_as(
        sender: &str,
        kind: &str,
        content: Value,
        more: Value,
        rules: &RoomVersionRules,
    ) -> anyhow::Result<Read> {
        let mut event = json!({"type": kind, "event_id": "$1", "sender": sender, "origin_server_ts": STAMP,
            "content": content});
        event.as_object_mut().context("an object")?.extend(more.as_object().context("an object")?.clone());
        let permits: Permits = Arc::new(|user| user == "@ana:home.test");
        let reader = Reader {
            room: "!room".into(),
            redaction: rules.redaction.clone(),
            direct: false,
            me: user_id!("@rackful:home.test"),
            permits: &permits,
            now: DateTime::from_timestamp_millis(STAMP + 5_000).context("a time")?,
        };
        Ok(reader.read(&TimelineEvent::from_plaintext(Raw::from_json_string(event.to_string())?)))
    }

    fn read(content: Value) -> anyhow::Result<Read> {
        read_as("@ana:home.test", "m.room.message", content, json!({}), &RoomVersionRules::V12)
    }

    fn said(read: Read) -> anyhow::Result<Said> {
        match read {
            Read::Heard(incoming) => Ok(incoming.said),
            other => bail!("{other:?}"),
        }
    }

    fn plain(text: &str, reply_to: Option<&str>) -> Said {
        Said::Text { text: text.into(), reply_to: reply_to.map(MessageId::new) }
    }

    #[test]
    fn words_of_a_permitted_person_are_heard_at_the_time_they_were_sent() -> anyhow::Result<()> {
        let heard = read(json!({"msgtype": "m.text", "body": "froze 7 lb"}))?;
        let Read::Heard(heard) = heard else { bail!("{heard:?}") };
        assert_eq!((&*heard.room, &*heard.who, heard.id.as_str()), ("!room", "@ana:home.test", "$1"));
        assert_eq!(heard.at.timestamp_millis(), STAMP);
        assert_eq!(heard.said, plain("froze 7 lb", None));
        Ok(())
    }

    #[test]
    fn a_stamp_in_the_future_becomes_now_and_an_absurd_one_too() -> anyhow::Result<()> {
        for ahead in [60_000, 9_000_000_000_000_000_i64 - STAMP] {
            let more = json!({"origin_server_ts": STAMP + ahead});
            let content = json!({"msgtype": "m.text", "body": "froze 7 lb"});
            let heard = read_as("@ana:home.test", "m.room.message", content, more, &RoomVersionRules::V12)?;
            let Read::Heard(heard) = heard else { bail!("{heard:?}") };
            assert_eq!(heard.at.timestamp_millis(), STAMP + 5_000);
        }
        Ok(())
    }

    #[test]
    fn notices_emotes_pictures_strangers_and_the_assistant_itself_are_not() -> anyhow::Result<()> {
        for kind in ["m.notice", "m.emote", "m.image", "org.example.own"] {
            assert_eq!(
                read(json!({"msgtype": kind, "body": "froze 7 lb", "url": "mxc://a/b"}))?,
                Read::Nothing,
                "{kind}"
            );
        }
        for sender in ["@eve:home.test", "@rackful:home.test", "@ana:other.test"] {
            let content = json!({"msgtype": "m.text", "body": "froze 7 lb"});
            let heard = read_as(sender, "m.room.message", content, json!({}), &RoomVersionRules::V12)?;
            assert_eq!(heard, Read::Nothing, "{sender}");
        }
        assert_eq!(read(json!({"msgtype": "m.text", "body": "  "}))?, Read::Nothing);
        assert_eq!(read(json!({}))?, Read::Nothing, "deleted before it was read");
        assert_eq!(read(json!({"msgtype": 7}))?, Read::Nothing);
        Ok(())
    }

    #[test]
    fn an_edit_is_the_new_words_without_the_fallback_star() -> anyhow::Result<()> {
        let edit = |kind: &str| {
            json!({
                "msgtype": "m.text", "body": "* froze 6 lb",
                "m.new_content": {"msgtype": kind, "body": "froze 6 lb"},
                "m.relates_to": {"rel_type": "m.replace", "event_id": "$0"}
            })
        };
        let expected = Said::Edit { target: MessageId::new("$0"), text: "froze 6 lb".into() };
        assert_eq!(said(read(edit("m.text"))?)?, expected);
        assert_eq!(read(edit("m.notice"))?, Read::Nothing);
        Ok(())
    }

    #[test]
    fn a_reply_loses_its_quotation_and_names_its_target() -> anyhow::Result<()> {
        let body = "> <@rackful:home.test> Froze 7 lb.\n> 2 bags\n\nmake that 6";
        let reply = json!({"m.in_reply_to": {"event_id": "$0"}});
        let heard = read(json!({"msgtype": "m.text", "body": body, "m.relates_to": reply}))?;
        assert_eq!(said(heard)?, plain("make that 6", Some("$0")));
        let quoted = read(json!({"msgtype": "m.text", "body": "> <x> wise words\nfroze 6"}))?;
        assert_eq!(said(quoted)?, plain("> <x> wise words\nfroze 6", None), "a quotation that is no reply stays");
        Ok(())
    }

    #[test]
    fn in_a_thread_only_a_true_reply_is_one() -> anyhow::Result<()> {
        for (falling_back, reply_to) in [(true, None), (false, Some("$0"))] {
            let thread = json!({"rel_type": "m.thread", "event_id": "$root", "is_falling_back": falling_back,
                "m.in_reply_to": {"event_id": "$0"}});
            let heard = read(json!({"msgtype": "m.text", "body": "froze 6", "m.relates_to": thread}))?;
            assert_eq!(said(heard)?, plain("froze 6", reply_to));
        }
        Ok(())
    }

    #[test]
    fn a_deletion_is_read_in_the_old_and_the_new_shape_whoever_did_it() -> anyhow::Result<()> {
        let old = (json!({}), json!({"redacts": "$0"}), RoomVersionRules::V10);
        let new = (json!({"redacts": "$0"}), json!({}), RoomVersionRules::V11);
        // A field in the place of another version is not to be believed.
        let both = (json!({"redacts": "$0"}), json!({"redacts": "$other"}), RoomVersionRules::V12);
        for (content, more, rules) in [old, new, both] {
            let heard = read_as("@moderator:home.test", "m.room.redaction", content, more, &rules)?;
            assert_eq!(said(heard)?, Said::Redact { target: MessageId::new("$0") });
        }
        let own = read_as(
            "@rackful:home.test",
            "m.room.redaction",
            json!({"redacts": "$0"}),
            json!({}),
            &RoomVersionRules::V12,
        )?;
        assert_eq!(own, Read::Nothing);
        Ok(())
    }

    #[test]
    fn what_cannot_be_decrypted_waits() -> anyhow::Result<()> {
        use matrix_sdk::deserialized_responses::{UnableToDecryptInfo, UnableToDecryptReason};
        let locked = |sender: &str| {
            let event = json!({
                "type": "m.room.encrypted", "event_id": "$1", "sender": sender, "origin_server_ts": STAMP,
                "content": {"algorithm": "m.megolm.v1.aes-sha2", "ciphertext": "x", "session_id": "s"}
            });
            let info = UnableToDecryptInfo { session_id: None, reason: UnableToDecryptReason::Unknown };
            anyhow::Ok(TimelineEvent::from_utd(Raw::from_json_string(event.to_string())?, info))
        };
        let permits: Permits = Arc::new(|user| user == "@ana:home.test");
        let reader = Reader {
            room: "!room".into(),
            redaction: RoomVersionRules::V12.redaction,
            direct: false,
            me: user_id!("@rackful:home.test"),
            permits: &permits,
            now: Utc::now(),
        };
        assert_eq!(reader.read(&locked("@ana:home.test")?), Read::Locked(OwnedEventId::try_from("$1")?));
        assert_eq!(reader.read(&locked("@eve:home.test")?), Read::Nothing);
        Ok(())
    }

    #[test]
    fn reactions_that_mean_something_are_marks_and_others_are_not() -> anyhow::Result<()> {
        let react = |key: &str, sender: &str| {
            let content = json!({"m.relates_to": {"rel_type": "m.annotation", "event_id": "$0", "key": key}});
            read_as(sender, "m.reaction", content, json!({}), &RoomVersionRules::V12)
        };
        let target = MessageId::new("$0");
        let (undo, done) = (["👎", "👎🏽", "❌", "✖️"], ["✅", "✔️", "👍🏿", "✔"]);
        for (keys, mark) in [(undo, Mark::Undo), (done, Mark::Done)] {
            for key in keys {
                let expected = Said::Mark { target: target.clone(), mark, alert: None };
                assert_eq!(said(react(key, "@ana:home.test")?)?, expected, "{key}");
                assert_eq!(react(key, "@eve:home.test")?, Read::Nothing, "{key}");
            }
        }
        for key in ["❤️", "", "no 👎", "👎👎"] {
            assert_eq!(react(key, "@ana:home.test")?, Read::Nothing, "{key}");
        }
        Ok(())
    }

    #[test]
    fn what_is_said_in_a_thread_says_in_which() -> anyhow::Result<()> {
        let relation = json!({"rel_type": "m.thread", "event_id": "$root", "is_falling_back": true,
            "m.in_reply_to": {"event_id": "$before"}});
        let heard = read(json!({"msgtype": "m.text", "body": "froze 7 lb", "m.relates_to": relation}))?;
        let Read::Heard(heard) = heard else { bail!("{heard:?}") };
        assert_eq!((heard.thread, heard.said), (Some(MessageId::new("$root")), plain("froze 7 lb", None)));
        Ok(())
    }
}
