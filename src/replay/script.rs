//! The lines of a script.

use super::ReplayError;
use crate::assistant::{Incoming, Mark, Said};
use crate::ledger::MessageId;
use chrono::{DateTime, FixedOffset};
use serde::Deserialize;
use std::io::BufRead;
use std::sync::Arc;

/// One line: when, and what happens.
#[derive(Clone, PartialEq, Debug)]
pub struct Line {
    /// Which line of the script, from 1.
    pub number: u64,
    /// Its time, with the offset written there.
    pub at: DateTime<FixedOffset>,
    /// What happens.
    pub act: Act,
}

/// What a line does.
#[derive(Clone, PartialEq, Debug)]
pub enum Act {
    /// Somebody says, edits or deletes something.
    Message(Incoming),
    /// The state of a room is printed.
    State {
        /// Which room.
        room: String,
    },
}

/// The line as written. Further keys are left alone: scripts keep remarks in them.
#[derive(Deserialize)]
struct Written {
    at: String,
    room: String,
    who: Option<String>,
    id: Option<String>,
    say: Option<String>,
    edit: Option<String>,
    redact: Option<String>,
    reply_to: Option<String>,
    /// `undo`: somebody marks a message as one that does not count.
    mark: Option<String>,
    on: Option<String>,
    thread: Option<String>,
    /// When it was sent, if it comes late.
    sent: Option<String>,
    #[serde(default)]
    direct: bool,
    #[serde(default)]
    state: bool,
}

/// Reads a script line by line; empty lines are passed over.
///
/// Each item is an error when its line cannot be read, is not an object with the keys of a script, or does not do
/// exactly one thing.
pub fn lines(mut script: impl BufRead) -> impl Iterator<Item = Result<Line, ReplayError>> {
    let mut number = 0;
    std::iter::from_fn(move || {
        loop {
            let mut bytes = Vec::new();
            number += 1;
            match script.read_until(b'\n', &mut bytes) {
                Err(error) => return Some(Err(ReplayError::Read(error))),
                Ok(0) => return None,
                Ok(_) if bytes.trim_ascii().is_empty() => {}
                Ok(_) => return Some(read(&bytes, number).map_err(|why| ReplayError::Line { line: number, why })),
            }
        }
    })
}

fn read(bytes: &[u8], number: u64) -> Result<Line, String> {
    let written: Written = serde_json::from_slice(bytes).map_err(|error| explain(&error))?;
    let at = time(&written.at)?;
    Ok(Line { number, at, act: act(written, at, number)? })
}

fn time(written: &str) -> Result<DateTime<FixedOffset>, String> {
    DateTime::parse_from_rfc3339(written)
        .map_err(|_| format!("'{written}' is not a time; write it with its offset, as in 2026-08-14T09:05:00-05:00"))
}

fn act(written: Written, at: DateTime<FixedOffset>, number: u64) -> Result<Act, String> {
    let Written { room, who, id, say, edit, redact, reply_to, mark, on, thread, sent, direct, state, .. } = written;
    let sent = sent.as_deref().map_or(Ok(at), time)?;
    if sent > at {
        return Err(format!("it was sent at {sent}, after it came; \"sent\" is for a message that comes late"));
    }
    let said = match (say, edit, redact, state) {
        (None, None, None, false) if mark.as_deref() == Some("undo") && on.is_some() => {
            Said::Mark { target: MessageId::new(&on.unwrap_or_default()), mark: Mark::Undo, alert: None }
        }
        (None, None, None, true) => return Ok(Act::State { room }),
        (Some(text), None, None, false) => Said::Text { text, reply_to: reply_to.as_deref().map(MessageId::new) },
        (Some(text), Some(target), None, false) => Said::Edit { target: MessageId::new(&target), text },
        (None, None, Some(target), false) => Said::Redact { target: MessageId::new(&target) },
        _ => {
            return Err("it must do one thing: \"say\" (with \"edit\" for a changed message), \"redact\", or \
                        \"state\": true"
                .to_owned());
        }
    };
    let who = who.ok_or("it does not say \"who\"; a message needs a sender")?;
    // With its time, so that two scripts played into one store do not share ids.
    let id = id.unwrap_or_else(|| format!("$line-{number}@{}", at.timestamp()));
    let (room, who) = (Arc::from(room), Arc::from(who));
    let thread = thread.as_deref().map(MessageId::new);
    Ok(Act::Message(Incoming { room, who, id: MessageId::new(&id), at: sent, direct, thread, said }))
}

/// The JSON reader's words without its own "line 1", which would be taken for the script's.
fn explain(error: &serde_json::Error) -> String {
    let text = error.to_string();
    let what = text.split(" at line ").next().unwrap_or_default();
    format!("{what} (column {}); each line is one JSON object with \"at\", \"room\" and what happens", error.column())
}

#[cfg(test)]
mod tests {
    use super::*;
    use anyhow::{Context as _, bail};

    fn one(text: &str) -> anyhow::Result<Line> {
        Ok(lines(text.as_bytes()).next().context("no line")??)
    }

    #[test]
    fn each_form_of_line_is_read() -> anyhow::Result<()> {
        let head = r#""at": "2026-08-14T09:05:00-05:00", "room": "home", "who": "ana""#;
        let said = |rest: &str| match one(&format!("{{{head}, {rest}}}"))?.act {
            Act::Message(message) => Ok((message.id.to_string(), message.said)),
            Act::State { .. } => bail!("not a message"),
        };
        let text = |text: &str| Said::Text { text: text.to_owned(), reply_to: None };
        let target = MessageId::new("$1");
        assert_eq!(said(r#""id": "$1", "say": "hi""#)?, ("$1".to_owned(), text("hi")));
        assert_eq!(said(r#""say": "hi""#)?, ("$line-1@1786716300".to_owned(), text("hi")));
        let edit = Said::Edit { target: target.clone(), text: "ho".to_owned() };
        assert_eq!(said(r#""id": "$2", "edit": "$1", "say": "ho""#)?.1, edit);
        assert_eq!(said(r#""redact": "$1""#)?.1, Said::Redact { target });
        let state = r#"{"at": "2026-08-14T21:00:00-05:00", "room": "home", "state": true}"#;
        assert_eq!(one(state)?.act, Act::State { room: "home".to_owned() });
        Ok(())
    }

    #[test]
    fn a_message_that_comes_late_has_the_time_it_was_sent() -> anyhow::Result<()> {
        let late = one(concat!(
            r#"{"at": "2026-08-14T09:05:00-05:00", "sent": "2026-08-13T20:00:00-05:00", "#,
            r#""room": "home", "who": "ana", "say": "hi"}"#
        ))?;
        let Act::Message(message) = late.act else { bail!("not a message") };
        assert_eq!((late.at - message.at).num_minutes(), 13 * 60 + 5);
        Ok(())
    }

    #[test]
    fn a_broken_line_is_named_by_its_number() -> anyhow::Result<()> {
        let script = "\n{\"at\": \"2026-08-14T09:05:00-05:00\", \"room\": \"home\", \"state\": true}\n\n{\"at\": ";
        let last = lines(script.as_bytes()).last().and_then(Result::err).context("no error")?.to_string();
        assert!(last.starts_with("line 4 of the script: EOF while parsing a value (column 7);"), "{last}");
        Ok(())
    }

    #[test]
    fn a_line_that_does_nothing_or_two_things_or_has_no_sender_or_time_is_refused() -> anyhow::Result<()> {
        for (rest, says) in [
            (r#""who": "ana""#, "it must do one thing"),
            (r#""who": "ana", "say": "hi", "redact": "$1""#, "it must do one thing"),
            (r#""who": "ana", "edit": "$1""#, "it must do one thing"),
            (r#""say": "hi""#, "a message needs a sender"),
            (r#""who": "ana", "say": "hi", "sent": "yesterday""#, "'yesterday' is not a time"),
            (r#""who": "ana", "say": "hi", "sent": "2026-08-14T09:06:00-05:00""#, "after it came"),
        ] {
            let line = format!(r#"{{"at": "2026-08-14T09:05:00-05:00", "room": "home", {rest}}}"#);
            let error = one(&line).err().with_context(|| format!("read: {line}"))?.to_string();
            assert!(error.contains(says), "{line}: {error}");
        }
        let error = one(r#"{"at": "2026-08-14T09:05:00", "room": "home", "state": true}"#);
        let error = error.err().context("it was read")?.to_string();
        assert!(error.contains("write it with its offset"), "{error}");
        Ok(())
    }
}
