//! The fold: entries in the order in which they happened, and the state at their end, with states kept along the way so
//! that a change in the past costs what came after it and not the whole season.

use super::apply::{Mode, apply};
use super::effect::{Effect, Shortage};
use super::entry::{Entry, MessageId};
use super::state::State;
use crate::quantity::Mass;
use crate::zone::Zone;
use chrono::{DateTime, Utc};
use std::collections::{BTreeMap, BTreeSet, HashMap};
use std::ops::Bound;
use std::sync::Arc;

/// An entry's place: when it happened, then when it arrived, then its part of the message.
type Place = (DateTime<Utc>, u64, u16);

/// A state is kept after every so many entries.
const KEEP_EVERY: usize = 32;

/// An entry that no longer fits whole, because one before it was changed.
#[derive(Clone, PartialEq, Debug)]
pub struct Cut {
    /// The words of the entry that was cut.
    pub words: Arc<str>,
    /// What it wanted and what was left; `None` for a step of a batch that no longer fits at all.
    pub shortage: Option<Shortage>,
}

/// All entries of a room, and what they come to.
#[derive(Debug)]
pub struct Ledger {
    entries: BTreeMap<Place, Entry>,
    /// Every message that ever was an entry, with its arrival; its entries' places are found from it.
    messages: HashMap<MessageId, Filed>,
    arrivals: Vec<MessageId>,
    /// The arrivals of each person's messages that still have entries.
    standing: HashMap<Arc<str>, BTreeSet<u64>>,
    /// Fruit that an entry took off the counter without its ever having been entered, and that counts as picked that
    /// day.
    implied: BTreeMap<Place, Mass>,
    origin: State,
    head: State,
    /// States after the entry at this place, the `usize` being how many entries were folded until then.
    kept: BTreeMap<Place, (usize, State)>,
}

#[derive(Debug)]
struct Filed {
    arrival: u64,
    places: Vec<Place>,
}

impl Ledger {
    /// With no entry yet.
    pub fn new(zone: Zone) -> Self {
        Self::from_state(State::new(zone))
    }

    /// With no entry yet, on a state that has settings.
    pub fn from_state(origin: State) -> Self {
        Self {
            entries: BTreeMap::new(),
            messages: HashMap::new(),
            arrivals: Vec::new(),
            standing: HashMap::new(),
            implied: BTreeMap::new(),
            head: origin.clone(),
            origin,
            kept: BTreeMap::new(),
        }
    }

    /// What there is, by all entries.
    pub fn state(&self) -> &State {
        &self.head
    }

    /// Every entry in the order in which it happened.
    pub fn entries(&self) -> impl DoubleEndedIterator<Item = &Entry> {
        self.entries.values()
    }

    /// Every entry in the order in which it happened, with the fruit that counts as picked on its account.
    pub fn logged(&self) -> impl DoubleEndedIterator<Item = (&Entry, Mass)> {
        self.entries.iter().map(|(place, entry)| (entry, self.implied.get(place).copied().unwrap_or_default()))
    }

    /// How many entries there are.
    pub fn len(&self) -> usize {
        self.entries.len()
    }

    /// Whether there is none.
    pub fn is_empty(&self) -> bool {
        self.entries.is_empty()
    }

    /// The entries of a message as they now stand, in the order said; `None` when the message never was an entry.
    pub fn message(&self, message: &MessageId) -> Option<Vec<&Entry>> {
        let filed = self.messages.get(message)?;
        Some(filed.places.iter().filter_map(|place| self.entries.get(place)).collect())
    }

    /// Everybody who has entries.
    pub fn people(&self) -> impl Iterator<Item = &str> {
        self.standing.iter().filter(|(_, messages)| !messages.is_empty()).map(|(who, _)| &**who)
    }

    /// The messages of this person that still have entries, the latest first.
    pub fn all_by<'a>(&'a self, who: &str) -> impl Iterator<Item = &'a MessageId> {
        let arrivals = self.standing.get(who).into_iter().flatten().rev();
        arrivals.filter_map(|arrival| self.arrivals.get(usize::try_from(*arrival).ok()?))
    }

    /// The latest message of this person that still has entries.
    pub fn latest_by(&self, who: &str) -> Option<&MessageId> {
        let arrival = self.standing.get(who)?.last()?;
        self.arrivals.get(usize::try_from(*arrival).ok()?)
    }

    /// The state just after all that had happened by an instant: what an entry of that instant meets.
    pub fn state_at(&self, at: DateTime<Utc>) -> State {
        if self.entries.last_key_value().is_none_or(|(place, _)| place.0 <= at) {
            return self.head.clone();
        }
        let after = (at, u64::MAX, u16::MAX);
        let (mut state, start, _) = self.kept_before(after);
        for (_, entry) in self.entries.range((start, Bound::Included(after))) {
            apply(&mut state, entry, Mode::Fold);
        }
        state
    }

    /// What an entry would do where it belongs in time, on a state that [`Ledger::state_at`] gave and that is carried
    /// from one entry of a message to the next. A refusal leaves the state as it was.
    pub fn try_entry(state: &mut State, entry: &Entry) -> Effect {
        let before = state.clone();
        let effect = apply(state, entry, Mode::Decide);
        if effect.refusal.is_some() {
            *state = before;
        }
        effect
    }

    /// Takes in the entries of a message that was decided on. Returns what each did, and which later entries were cut.
    pub fn enter(&mut self, entries: Vec<Entry>) -> (Vec<Effect>, Vec<Cut>) {
        let Some(message) = entries.first().map(|entry| entry.message.clone()) else {
            return (Vec::new(), Vec::new());
        };
        self.file(&message, entries)
    }

    /// A message's entries are now these; none takes it all back. It keeps its place among the arrivals. Returns what
    /// each did, and which entries, of this message or later ones, were cut.
    pub fn amend(&mut self, message: &MessageId, entries: Vec<Entry>) -> (Vec<Effect>, Vec<Cut>) {
        self.file(message, entries)
    }

    fn file(&mut self, message: &MessageId, entries: Vec<Entry>) -> (Vec<Effect>, Vec<Cut>) {
        let known = self.messages.remove(message);
        let arrival = known.as_ref().map_or(self.arrivals.len() as u64, |filed| filed.arrival);
        if known.is_none() {
            self.arrivals.push(message.clone());
        }
        let mut earliest: Option<Place> = None;
        let mut touched = |place: Place| earliest = Some(earliest.map_or(place, |first| first.min(place)));
        for place in known.into_iter().flat_map(|filed| filed.places) {
            if let Some(entry) = self.entries.remove(&place)
                && let Some(standing) = self.standing.get_mut(&entry.who)
            {
                standing.remove(&arrival);
            }
            self.implied.remove(&place);
            touched(place);
        }
        let places: Vec<Place> = entries.iter().map(|entry| (entry.happened, arrival, entry.part)).collect();
        for (place, entry) in places.iter().zip(entries) {
            touched(*place);
            self.standing.entry(entry.who.clone()).or_default().insert(arrival);
            self.entries.insert(*place, entry);
        }
        self.messages.insert(message.clone(), Filed { arrival, places: places.clone() });
        let Some(earliest) = earliest else { return (Vec::new(), Vec::new()) };
        let done = self.refold(earliest);
        let mut effects = Vec::new();
        let mut cuts = Vec::new();
        for (place, effect) in done {
            if effect.implied.is_zero() {
                self.implied.remove(&place);
            } else {
                self.implied.insert(place, effect.implied);
            }
            if effect.cut.is_some() || effect.refusal.is_some() {
                let words = self.entries.get(&place).map(|entry| entry.words.clone()).unwrap_or_default();
                cuts.push(Cut { words, shortage: effect.cut.clone() });
            }
            if places.contains(&place) {
                effects.push(effect);
            }
        }
        (effects, cuts)
    }

    /// Folds anew from a place on, and says what each entry from there on did.
    fn refold(&mut self, from: Place) -> Vec<(Place, Effect)> {
        // The common case, an entry after all others, goes on from the head.
        let appended = self.entries.range((Bound::Excluded(from), Bound::Unbounded)).next().is_none();
        let untouched = self.kept.range((Bound::Included(from), Bound::Unbounded)).next().is_none();
        let head_is_before = appended && untouched && self.entries.contains_key(&from) && self.head_ends_before(from);
        let (mut state, start, mut folded) = if head_is_before {
            let count = self.entries.len() - 1;
            (std::mem::take(&mut self.head), Bound::Included(from), count)
        } else {
            self.kept.split_off(&from);
            self.kept_before(from)
        };
        let mut done = Vec::new();
        let mut kept = Vec::new();
        for (place, entry) in self.entries.range((start, Bound::Unbounded)) {
            let effect = apply(&mut state, entry, Mode::Fold);
            folded += 1;
            if folded.is_multiple_of(KEEP_EVERY) {
                kept.push((*place, (folded, state.clone())));
            }
            if *place >= from {
                done.push((*place, effect));
            }
        }
        self.head = state;
        for (place, state) in kept {
            self.kept.insert(place, state);
            self.thin();
        }
        done
    }

    /// Whether the head is the fold of exactly the entries before a place that was just added.
    fn head_ends_before(&self, from: Place) -> bool {
        self.head_entries() + 1 == self.entries.len()
            && self.entries.last_key_value().is_some_and(|(last, _)| *last == from)
    }

    fn head_entries(&self) -> usize {
        self.head.folded
    }

    /// The last kept state before a place, where to go on from, and how many entries are in it.
    fn kept_before(&self, place: Place) -> (State, Bound<Place>, usize) {
        match self.kept.range((Bound::Unbounded, Bound::Excluded(place))).next_back() {
            Some((at, (folded, state))) => (state.clone(), Bound::Excluded(*at), *folded),
            None => (self.origin.clone(), Bound::Unbounded, 0),
        }
    }

    /// Keeps states densely near the end and ever more thinly before, so that their number grows with the logarithm of
    /// the entries' number.
    fn thin(&mut self) {
        let Some(newest) = self.kept.last_key_value().map(|(_, (folded, _))| folded / KEEP_EVERY) else { return };
        self.kept.retain(|_, (folded, _)| {
            let index = *folded / KEEP_EVERY;
            let distance = newest.saturating_sub(index);
            let step = (distance / 8 + 1).next_power_of_two();
            distance < 8 || index.is_multiple_of(step)
        });
    }
}
