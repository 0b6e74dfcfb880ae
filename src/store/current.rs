//! What the records add up to beside the commits: the outbox, the notes, and which message of the driver's world is
//! which. All are small and kept in memory.

use super::codec::{Line, Sends};
use super::{Notes, Told};
use crate::assistant::{Commit, Outgoing};
use crate::ledger::MessageId;
use std::collections::{BTreeMap, BTreeSet, HashMap};

/// The outbox and the notes as they stand.
#[derive(Debug, Default)]
pub(crate) struct Current {
    /// What waits, each with the message that brought it about.
    waiting: BTreeMap<Place, (Outgoing, Option<MessageId>)>,
    places: HashMap<String, Vec<Place>>,
    notes: BTreeMap<String, String>,
    told: HashMap<MessageId, Told>,
}

/// Which record sends it, and at which place in its commit.
type Place = (u64, usize);

impl Current {
    /// Takes in a record read from the journal.
    pub(crate) fn take(&mut self, line: Line<Sends>) {
        if let Some(commit) = line.commit {
            self.commit(line.seq, commit.message.as_ref(), commit.out, line.waiting.as_deref());
        }
        if let Some(notes) = &line.notes {
            self.note(notes);
        }
        if let Some(key) = &line.sent {
            self.sent(key, line.sent_as.as_ref());
        }
    }

    /// A commit sends these out, or of these only the keys named.
    pub(crate) fn commit(
        &mut self,
        seq: u64,
        message: Option<&MessageId>,
        out: Vec<Outgoing>,
        waiting: Option<&[String]>,
    ) {
        for (index, outgoing) in out.into_iter().enumerate() {
            if waiting.is_none_or(|keys| keys.contains(&outgoing.key)) {
                self.places.entry(outgoing.key.clone()).or_default().push((seq, index));
                self.waiting.insert((seq, index), (outgoing, message.cloned()));
            }
        }
    }

    /// A key was sent, and the message has this id.
    pub(crate) fn sent(&mut self, key: &str, id: Option<&MessageId>) {
        for place in self.places.remove(key).unwrap_or_default() {
            if let (Some((outgoing, message)), Some(id)) = (self.waiting.remove(&place), id) {
                let told = Told { about: outgoing.re.or(message), alert: outgoing.alert };
                self.told.insert(id.clone(), told);
            }
        }
    }

    /// What was sent under an id.
    pub(crate) fn told(&self, id: &MessageId) -> Option<Told> {
        self.told.get(id).cloned()
    }

    /// Whether a key waits.
    pub(crate) fn waits(&self, key: &str) -> bool {
        self.places.contains_key(key)
    }

    /// Notes change.
    pub(crate) fn note(&mut self, notes: &Notes) {
        for (name, value) in notes {
            match value {
                Some(value) => self.notes.insert(name.clone(), value.clone()),
                None => self.notes.remove(name),
            };
        }
    }

    /// Those of the notes that say something new.
    pub(crate) fn news(&self, notes: &Notes) -> Notes {
        let new = |(name, value): &(&String, &Option<String>)| self.notes.get(*name) != value.as_ref();
        notes.iter().filter(new).map(|(name, value)| (name.clone(), value.clone())).collect()
    }

    /// What waits, oldest first.
    pub(crate) fn outbox(&self) -> Vec<Outgoing> {
        self.waiting.values().map(|(outgoing, _)| outgoing.clone()).collect()
    }

    /// A note.
    pub(crate) fn named(&self, name: &str) -> Option<String> {
        self.notes.get(name).cloned()
    }
}

/// Which of a commit's keys wait, when not all of them do.
pub(crate) fn still_waiting(commit: &Commit, waiting: &BTreeSet<String>) -> Option<Vec<String>> {
    let keys: Vec<_> = commit.out.iter().map(|out| &out.key).filter(|key| waiting.contains(*key)).cloned().collect();
    (keys.len() < commit.out.len()).then_some(keys)
}
