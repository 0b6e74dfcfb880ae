//! The lines that come out.

use crate::assistant::{OutKind, Outgoing};
use crate::desk::Desk;
use crate::ledger::MessageId;
use chrono::{DateTime, FixedOffset, Utc};
use serde::Serialize;
use serde_json::{Map, Value};
use std::io::Write;

/// What goes out, in the order of the fields that other programs read.
#[derive(Serialize)]
struct Printed<'a> {
    at: String,
    room: &'a str,
    out: OutKind,
    #[serde(skip_serializing_if = "Option::is_none")]
    re: Option<&'a MessageId>,
    topic: &'a str,
    text: &'a str,
    facts: &'a Map<String, Value>,
    #[serde(skip_serializing_if = "Option::is_none")]
    thread: Option<&'a MessageId>,
}

#[derive(Serialize)]
struct State<'a> {
    at: String,
    room: &'a str,
    out: &'static str,
    state: Value,
}

/// One message as one line.
///
/// # Errors
/// When `out` does not take it.
pub fn print_outgoing(said: &Outgoing, out: &mut dyn Write) -> std::io::Result<()> {
    let Outgoing { room, at, out: kind, re, topic, text, facts, thread, .. } = said;
    let (at, re, thread) = (at.to_rfc3339(), re.as_ref(), thread.as_ref());
    print(&Printed { at, room, out: *kind, re, topic, text, facts, thread }, out)
}

/// The state of a room as one line.
///
/// # Errors
/// When `out` does not take it.
pub fn print_state(desk: &Desk, room: &str, at: DateTime<FixedOffset>, out: &mut dyn Write) -> std::io::Result<()> {
    let now = at.with_timezone(&Utc);
    let state = desk.assistant().state_json(room, now);
    // A room that was never heard has no time zone yet.
    let at = desk.assistant().ledger(room).map_or(at, |ledger| ledger.state().settings.zone.local(now));
    print(&State { at: at.to_rfc3339(), room, out: "state", state }, out)
}

fn print(line: &impl Serialize, out: &mut dyn Write) -> std::io::Result<()> {
    serde_json::to_writer(&mut *out, line)?;
    out.write_all(b"\n")
}
