//! A room in memory: its ledger, what was heard, what was told, and which questions wait.

use crate::ledger::state::{Settings, State, Units};
use crate::ledger::{Change, Cut, Effect, Entry, Ledger, MessageId, Pending, Proposal};
use crate::phrase::Lexicon;
use crate::zone::Zone;
use chrono::{DateTime, Duration, Utc};
use std::collections::{BTreeMap, HashMap, HashSet};
use std::sync::Arc;

use super::Defaults;
use crate::alert::deadlines;

/// Names of told alerts are forgotten after this long: no deadline is found anew once it is that old.
const TOLD_KEPT: Duration = Duration::days(30);

/// A room. Its only mutation is [`Room::apply`], so that the same changes always make the same room.
#[derive(Debug)]
pub(super) struct Room {
    pub(super) ledger: Ledger,
    /// Every message heard, with the time it was sent.
    pub(super) heard: HashMap<MessageId, DateTime<Utc>>,
    /// Alerts that were told, with the instant they were due.
    pub(super) told: BTreeMap<String, DateTime<Utc>>,
    /// Questions that wait, by whom they were put to.
    pub(super) pending: BTreeMap<Arc<str>, Pending>,
    /// What was put to the household and waits for a yes, the oldest first.
    pub(super) proposals: Vec<Proposal>,
    /// Which question a message answered.
    pub(super) answers: HashMap<MessageId, Pending>,
    /// Which message answered the question that a message had raised.
    pub(super) answered: HashMap<MessageId, MessageId>,
    /// Which message a correction corrected.
    pub(super) corrections: HashMap<MessageId, MessageId>,
    /// The wordings of edited messages, oldest first: by which edit, by whom, and the words if they were ever known.
    pub(super) wordings: HashMap<MessageId, Vec<Wording>>,
    /// Which message an edit edited.
    pub(super) edits: HashMap<MessageId, MessageId>,
    /// What a mark took back: the message and its entries.
    pub(super) struck: HashMap<MessageId, (MessageId, Vec<Entry>)>,
    /// Alerts that are done, with the mark that says so.
    pub(super) settled: BTreeMap<String, MessageId>,
    /// The threads of messages with entries.
    pub(super) threads: HashMap<MessageId, MessageId>,
    pub(super) lexicon: Lexicon,
}

/// One wording of an edited message.
#[derive(Clone, Debug)]
pub(super) struct Wording {
    /// The edit, or the message itself.
    pub(super) by: MessageId,
    /// Who wrote it.
    pub(super) who: Arc<str>,
    /// The words; none where the first ones made no entry, for then they were not kept.
    pub(super) words: Option<Arc<str>>,
}

/// What applying a change did in the ledger.
#[derive(Debug, Default)]
pub(super) struct Applied {
    pub(super) effects: Vec<Effect>,
    pub(super) cuts: Vec<Cut>,
}

impl Room {
    pub(super) fn new(defaults: &Defaults, zone: Zone) -> Self {
        let settings = Settings {
            zone,
            altitude: defaults.altitude,
            units: if defaults.metric { Units::Metric } else { Units::Customary },
            dark_pictures: defaults.dark_pictures,
            ..Settings::default()
        };
        let mut state = State::new(zone);
        state.settings = settings;
        let name = if defaults.name.is_empty() { "rackful".to_owned() } else { defaults.name.to_lowercase() };
        let mut room = Self {
            ledger: Ledger::from_state(state),
            heard: HashMap::new(),
            told: BTreeMap::new(),
            pending: BTreeMap::new(),
            proposals: Vec::new(),
            answers: HashMap::new(),
            answered: HashMap::new(),
            corrections: HashMap::new(),
            wordings: HashMap::new(),
            edits: HashMap::new(),
            struck: HashMap::new(),
            settled: BTreeMap::new(),
            threads: HashMap::new(),
            lexicon: Lexicon { name, ..Lexicon::default() },
        };
        room.learn();
        room
    }

    pub(super) fn state(&self) -> &State {
        self.ledger.state()
    }

    /// The household's own names, for the grammar to read against.
    fn learn(&mut self) {
        let state = self.ledger.state();
        self.lexicon.recipes = state.recipes.keys().cloned().collect();
        let names = |open: bool| {
            state.batches.iter().filter(|batch| batch.is_open() == open).map(|batch| batch.name.clone()).collect()
        };
        self.lexicon.taught = state.taught.clone();
        self.lexicon.batches = names(true);
        self.lexicon.closed = names(false);
        self.lexicon.unsealed = state.open_batches().map(|batch| batch.unsealed_open()).sum();
        self.lexicon.timer = state.timers.iter().map(|timer| timer.ends).max();
        self.lexicon.planned = state.planned.iter().map(|planned| (planned.day, planned.product.clone())).collect();
        self.lexicon.usual = state.settings.product.clone();
        self.lexicon.metric = state.settings.units == Units::Metric;
    }

    pub(super) fn apply(&mut self, change: &Change) -> Applied {
        let (effects, cuts) = match change {
            Change::Founded { .. } => Default::default(),
            Change::Entered { entries } => self.ledger.enter(entries.clone()),
            Change::Amended { message, entries } => self.ledger.amend(message, entries.clone()),
            Change::Completed { by, pending } => {
                self.answered.insert(pending.message.clone(), by.clone());
                self.answers.insert(by.clone(), (**pending).clone());
                Default::default()
            }
            Change::Corrected { by, target } => {
                self.corrections.insert(by.clone(), target.clone());
                Default::default()
            }
            Change::Asked { who, pending } => {
                self.pending.insert(who.clone(), (**pending).clone());
                Default::default()
            }
            Change::Answered { who } => {
                self.pending.remove(who);
                Default::default()
            }
            Change::Proposed { proposal } => {
                self.proposals.retain(|open| open.message != proposal.message);
                self.proposals.push((**proposal).clone());
                Default::default()
            }
            Change::Decided { message } => {
                self.proposals.retain(|open| open.message != *message);
                Default::default()
            }
            Change::Told { alert, due } => {
                self.told.insert(alert.clone(), *due);
                Default::default()
            }
            Change::Rearmed { alert } => {
                self.told.remove(alert);
                self.settled.remove(alert);
                Default::default()
            }
            marked => {
                self.mark(marked);
                Default::default()
            }
        };
        if let Change::Entered { entries } | Change::Amended { entries, .. } = change {
            // An edit may come before what it edits: the first words must not count again when they come after all.
            for entry in entries {
                self.heard.entry(entry.message.clone()).or_insert(entry.said);
            }
            self.learn();
        }
        Applied { effects, cuts }
    }

    /// Notes that a message was heard.
    pub(super) fn hear(&mut self, message: &MessageId, at: DateTime<Utc>) {
        self.heard.insert(message.clone(), at);
    }

    /// Forgets the names of deadlines long past. Standing conditions keep theirs.
    pub(super) fn forget_old(&mut self, now: DateTime<Utc>) {
        let stands = |name: &str| name.starts_with("load-") || name.starts_with("low ");
        let is_old = |due: &DateTime<Utc>| now - *due >= TOLD_KEPT;
        if !self.told.iter().any(|(name, due)| is_old(due) && !stands(name)) {
            return;
        }
        // What still stands, such as fruit that lies there for ever, must not be told again.
        let found: HashSet<String> = deadlines(self.ledger.state()).into_iter().map(|due| due.name).collect();
        self.told.retain(|name, due| !is_old(due) || stands(name) || found.contains(name));
    }
}
