//! A record as a line of the journal, and back.
//!
//! ```json
//! {"v":1,"seq":7,"since":6,"commit":{…},"crc":"1c291ca3"}
//! ```
//!
//! `seq` numbers the records from 1. `since` is the first record that was appended after the last sync, left out when
//! it is the record itself: it tells a write that never finished from damage to one that did. `crc` is the CRC-32 of
//! all bytes before `,"crc"`. Formats to come keep `v` and the place and kind of the checksum, so that this program
//! knows them as newer and not as broken.

use super::Notes;
use crate::assistant::{Commit, Outgoing};
use crate::ledger::MessageId;
use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};

/// The format that is written.
pub(crate) const FORMAT: u64 = 1;

/// The longest line, newline included, in bytes. A message is 8 KiB at most and its commit a small multiple of that;
/// the bound keeps a damaged file from filling the memory.
pub(crate) const LONGEST: usize = 64 << 20;

const CRC_KEY: &[u8] = b",\"crc\":\"";
const CRC_LEN: usize = 18;

/// A record. `C` is how much of a commit is read: [`Commit`] for all of it, [`Sends`] for what goes out.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize)]
pub(crate) struct Line<C> {
    pub(crate) v: u64,
    pub(crate) seq: u64,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(crate) since: Option<u64>,
    #[serde(default = "none", skip_serializing_if = "Option::is_none")]
    pub(crate) commit: Option<C>,
    /// Of what the commit sends out, the keys not yet sent when it was adopted; absent when it was made here.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(crate) waiting: Option<Vec<String>>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(crate) notes: Option<Notes>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(crate) sent: Option<String>,
    /// The id that the message sent has in the driver's world.
    #[serde(default, rename = "as", skip_serializing_if = "Option::is_none")]
    pub(crate) sent_as: Option<MessageId>,
}

fn none<C>() -> Option<C> {
    None
}

/// The part of a commit that the outbox is made of.
#[derive(Debug, Deserialize)]
pub(crate) struct Sends {
    #[serde(default)]
    pub(crate) message: Option<MessageId>,
    pub(crate) out: Vec<Outgoing>,
}

/// The part of a line that its place in the journal depends on.
#[derive(Debug, Deserialize)]
pub(crate) struct Head {
    pub(crate) v: u64,
    pub(crate) seq: u64,
    #[serde(default)]
    since: Option<u64>,
}

impl Head {
    /// The first record of the same sync.
    pub(crate) fn since(&self) -> u64 {
        self.since.unwrap_or(self.seq)
    }
}

/// What one record is to say.
#[derive(Debug)]
pub(crate) enum Body<'a> {
    /// A commit, and which of its messages still wait when not all do.
    Commit(&'a Commit, Option<Vec<String>>),
    /// The driver's notes.
    Notes(Notes),
    /// A key that was sent, and the id that the message got.
    Sent(&'a str, Option<&'a MessageId>),
}

/// Why a line is not a record.
#[derive(Debug)]
pub(crate) enum Flaw {
    /// A newer program wrote it.
    Newer(u64),
    /// It is broken.
    Broken(String),
}

/// Appends the record as a line. It is read back first: a commit that cannot be read again must be refused while nobody
/// relies on it, not found at the next start.
pub(crate) fn encode(into: &mut Vec<u8>, seq: u64, since: u64, body: Body<'_>) -> Result<(), String> {
    let start = into.len();
    into.reserve(2_048);
    let mut line = Line {
        v: FORMAT,
        seq,
        since: Some(since).filter(|s| *s != seq),
        commit: None,
        waiting: None,
        notes: None,
        sent: None,
        sent_as: None,
    };
    match body {
        Body::Commit(commit, waiting) => (line.commit, line.waiting) = (Some(commit), waiting),
        Body::Notes(notes) => line.notes = Some(notes),
        Body::Sent(key, id) => (line.sent, line.sent_as) = (Some(key.to_owned()), id.cloned()),
    }
    serde_json::to_writer(&mut *into, &line).map_err(|error| error.to_string())?;
    into.pop();
    let crc = crc32fast::hash(into.get(start..).unwrap_or_default());
    into.extend_from_slice(CRC_KEY);
    into.extend_from_slice(format!("{crc:08x}\"}}\n").as_bytes());
    let written = into.get(start..).unwrap_or_default();
    if written.len() > LONGEST {
        return Err(format!("a record of {} bytes is too long", written.len()));
    }
    match decode::<Commit>(written) {
        Ok(_) => Ok(()),
        Err(Flaw::Newer(v)) => Err(format!("it would be written as format {v}")),
        Err(Flaw::Broken(why)) => Err(format!("it would not be read again: {why}")),
    }
}

/// Reads a line, with or without its newline.
pub(crate) fn decode<C: DeserializeOwned>(line: &[u8]) -> Result<Line<C>, Flaw> {
    let read: Line<C> = parse(line)?;
    let things =
        usize::from(read.commit.is_some()) + usize::from(read.notes.is_some()) + usize::from(read.sent.is_some());
    if things == 1 { Ok(read) } else { Err(Flaw::Broken("it holds no record that this program knows".into())) }
}

/// Reads where a line stands, and that it is whole.
pub(crate) fn head(line: &[u8]) -> Result<Head, Flaw> {
    parse(line)
}

fn parse<T: DeserializeOwned + Versioned>(line: &[u8]) -> Result<T, Flaw> {
    let line = checked(line).map_err(|why| Flaw::Broken(why.into()))?;
    let flaw = match serde_json::from_slice::<T>(line) {
        Ok(read) if read.v() <= FORMAT => return Ok(read),
        Ok(read) => return Err(Flaw::Newer(read.v())),
        // Where, but not what: the error's own words can quote what people said.
        Err(error) => format!("it is no record ({:?} error at column {})", error.classify(), error.column()),
    };
    match serde_json::from_slice::<Version>(line) {
        Ok(version) if version.v > FORMAT => Err(Flaw::Newer(version.v)),
        _ => Err(Flaw::Broken(flaw)),
    }
}

trait Versioned {
    fn v(&self) -> u64;
}

impl<C> Versioned for Line<C> {
    fn v(&self) -> u64 {
        self.v
    }
}

impl Versioned for Head {
    fn v(&self) -> u64 {
        self.v
    }
}

/// All that is known of a line of a format to come.
#[derive(Deserialize)]
struct Version {
    v: u64,
}

fn checked(line: &[u8]) -> Result<&[u8], &'static str> {
    let line = line.strip_suffix(b"\n").unwrap_or(line);
    let Some((body, tail)) = line.len().checked_sub(CRC_LEN).and_then(|at| line.split_at_checked(at)) else {
        return Err("it is too short to be a record");
    };
    let crc = tail
        .strip_prefix(CRC_KEY)
        .and_then(|tail| tail.strip_suffix(b"\"}"))
        .and_then(|hex| std::str::from_utf8(hex).ok())
        .filter(|hex| hex.bytes().all(|b| b.is_ascii_digit() || (b'a'..=b'f').contains(&b)))
        .and_then(|hex| u32::from_str_radix(hex, 16).ok())
        .ok_or("it does not end in a checksum")?;
    if crc32fast::hash(body) == crc { Ok(line) } else { Err("its checksum does not fit") }
}

#[cfg(test)]
mod tests {
    use super::*;
    use anyhow::anyhow;

    fn line(seq: u64) -> anyhow::Result<Vec<u8>> {
        let mut bytes = Vec::new();
        encode(&mut bytes, seq, 3, Body::Sent("a \"key\"", None)).map_err(anyhow::Error::msg)?;
        Ok(bytes)
    }

    #[test]
    fn a_line_says_its_number_its_sync_and_its_checksum() -> anyhow::Result<()> {
        assert_eq!(
            String::from_utf8(line(4)?)?,
            "{\"v\":1,\"seq\":4,\"since\":3,\"sent\":\"a \\\"key\\\"\",\"crc\":\"54ead799\"}\n"
        );
        let read = decode::<Commit>(&line(3)?).map_err(|flaw| anyhow!("{flaw:?}"))?;
        assert_eq!((read.seq, read.since, read.sent.as_deref()), (3, None, Some("a \"key\"")));
        assert_eq!(head(&line(4)?).map(|head| head.since()).ok(), Some(3));
        Ok(())
    }

    #[test]
    fn every_flipped_bit_is_noticed() -> anyhow::Result<()> {
        let good = line(4)?;
        for at in 0..good.len() - 1 {
            for bit in 0..8 {
                let mut bad = good.clone();
                bad[at] ^= 1 << bit;
                assert!(matches!(decode::<Commit>(&bad), Err(Flaw::Broken(_))), "byte {at}, bit {bit}");
            }
        }
        Ok(())
    }

    #[test]
    fn a_newer_line_is_newer_whatever_it_holds() {
        let mut newer = br#"{"v":2,"seq":"x","what":[1]"#.to_vec();
        let crc = crc32fast::hash(&newer);
        newer.extend_from_slice(format!(",\"crc\":\"{crc:08x}\"}}").as_bytes());
        assert!(matches!(decode::<Commit>(&newer), Err(Flaw::Newer(2))));
        assert!(matches!(head(&newer), Err(Flaw::Newer(2))));
    }
}
