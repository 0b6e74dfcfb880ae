//! What speaks for and against a candidate: its features, one family after the other.

use super::super::build::{Clause, Made, Used};
use super::super::feature::{ANY, CutKind, Feature, Form, Template as T, VOICES, Who};
use super::super::frame::Group;
use super::super::item::{Item, WordKind};
use super::super::lexicon::WordId;
use super::cuts::Cut;
use super::message::{Message, is_chatter, tick};
use super::trigger::Found;
use crate::statement::Statement;

/// A way to take a clause, between two boundaries.
pub(super) struct Candidate<'a> {
    pub(super) message: &'a Message<'a>,
    pub(super) cuts: &'a [Cut],
    pub(super) from: usize,
    pub(super) to: usize,
    pub(super) clause: &'a Clause<'a>,
    pub(super) found: &'a Found,
    pub(super) made: &'a Made,
}

/// Where features of a frame and its group are collected.
struct Collector<'a> {
    out: &'a mut Vec<Feature>,
    frame: usize,
    group: usize,
    /// What holds of any entry is learned for all of them together, too.
    shared: bool,
}

impl Collector<'_> {
    fn frame(&mut self, template: T, b: usize, c: usize) {
        self.out.push(Feature::new(template, self.frame, b, c));
    }

    fn group(&mut self, template: T, b: usize, c: usize) {
        self.out.push(Feature::new(template, self.group, b, c));
        if self.shared && template.is_shared() {
            self.out.push(Feature::new(template, ANY, b, c));
        }
    }
}

/// What of the words of a clause is left over.
#[derive(Default)]
struct Left {
    /// How many words, voices apart.
    words: usize,
    /// Whether a word says whose doing it is, or whether it is real.
    voice: bool,
}

/// A number, coarser the larger it is.
const fn bucket(n: usize) -> usize {
    match n {
        0..=3 => n,
        4..=6 => 4,
        7..=12 => 5,
        _ => 6,
    }
}

fn word_of(item: &Item) -> Option<usize> {
    (item.word != WordId::UNKNOWN).then_some(item.word.0 as usize)
}

impl Candidate<'_> {
    /// Adds all features; the same one may be added more than once.
    pub(super) fn features(&self, out: &mut Vec<Feature>) {
        let (frame, group) = (usize::from(self.found.frame), self.clause.frame.group);
        let mut out = Collector { out, frame, group: group as usize, shared: group != Group::Ask };
        self.add_notes(&mut out);
        let left = self.add_words(&mut out);
        self.add_words_beside(&mut out);
        self.add_voices(&mut out);
        self.add_boundaries(&mut out);
        self.add_sizes(&mut out);
        self.add_deed(&mut out, &left);
        for situation in &self.message.situation {
            out.frame(T::Situation, *situation as usize, 0);
            out.group(T::GroupSituation, *situation as usize, 0);
        }
    }

    /// The trigger, and in which way its slots were filled.
    fn add_notes(&self, out: &mut Collector<'_>) {
        let notes = &self.made.notes;
        out.frame(T::Bias, 0, 0);
        out.frame(T::Trigger, self.found.trigger.into(), 0);
        for (n, note) in notes.iter().enumerate() {
            out.frame(T::Note, *note as usize, 0);
            out.group(T::GroupNote, *note as usize, 0);
            for other in notes.iter().skip(n + 1) {
                out.group(T::Notes, *note.min(other) as usize, *note.max(other) as usize);
            }
        }
        if self.made.statements.iter().any(|statement| matches!(statement, Statement::Clarify(_))) {
            out.frame(T::Clarify, notes.iter().find(|note| note.asks()).map_or(0, |note| *note as usize), 0);
        }
    }

    /// The words of the clause, and those that nothing accounts for.
    fn add_words(&self, out: &mut Collector<'_>) -> Left {
        let mut unread = [0_usize; WordKind::ALL.len()];
        let mut repaired = 0;
        for (n, item) in self.clause.items().iter().enumerate() {
            let known = self.made.used.has(n);
            repaired += usize::from(known && item.repaired);
            let word = word_of(item);
            if !known && !matches!(item.kind, WordKind::Small | WordKind::Mark | WordKind::Harmless) {
                tick(&mut unread, item.kind as usize);
                word.into_iter().for_each(|word| out.group(T::UnreadWord, word, 0));
            }
            if let Some(word) = word.filter(|_| !self.clause.triggers(n) && item.values.is_empty()) {
                out.frame(T::Word, word, 0);
                out.group(T::GroupWord, word, 0);
            }
        }
        for (kind, count) in unread.iter().enumerate().filter(|(_, count)| **count > 0) {
            out.group(T::Unread, kind, (*count).min(3));
        }
        let voices = unread.get(WordKind::Voice as usize).copied().unwrap_or_default();
        let words = unread.iter().sum::<usize>() - voices;
        out.frame(T::FrameUnread, words.min(3), 0);
        if repaired > 0 {
            out.group(T::Repaired, repaired.min(3), 0);
        }
        Left { words, voice: voices > 0 }
    }

    /// The words of the sentence before and behind the clause that say something of it, and are no words of another
    /// statement.
    fn add_words_beside(&self, out: &mut Collector<'_>) {
        let (message, clause) = (self.message, self.clause);
        let of_sentence = |n: &usize| message.sentence(*n) == message.sentence(clause.from);
        let word = |n: usize| {
            let item = message.text.items.get(n)?;
            word_of(item).filter(|_| !matches!(item.kind, WordKind::Value | WordKind::Deed | WordKind::Trade))
        };
        for word in (clause.from.saturating_sub(6)..clause.from).rev().take_while(of_sentence).filter_map(word) {
            out.group(T::WordBefore, word, 0);
        }
        for word in (clause.to..message.text.items.len()).take(7).take_while(of_sentence).filter_map(word) {
            out.group(T::WordAfter, word, 0);
        }
    }

    /// Whose doing it is, and whether it is real.
    fn add_voices(&self, out: &mut Collector<'_>) {
        let (before, behind) = self.message.beside(self.clause);
        let own = (self.clause.from..self.clause.to).fold(0, |all, n| all | self.message.voices(n));
        for (place, bits) in [own, before.voices, behind.voices].into_iter().enumerate() {
            for voice in (0..VOICES.len()).filter(|voice| bits & 1 << voice != 0) {
                out.group(T::Voice, place, voice);
                out.frame(T::FrameVoice, place, voice);
            }
        }
        out.group(T::Outside, bucket(before.chatter + behind.chatter), 0);
    }

    /// What stands at both ends of the clause.
    fn add_boundaries(&self, out: &mut Collector<'_>) {
        let (Some(left), Some(right)) = (self.cuts.get(self.from), self.cuts.get(self.to)) else { return };
        let before = (left.end as usize).checked_sub(1);
        let behind = Some(right.start as usize);
        out.group(T::Previous, self.message.kind_beside(before) as usize, 0);
        out.group(T::Next, self.message.kind_beside(behind) as usize, 0);
        let word = |at: Option<usize>| word_of(self.message.text.items.get(at?)?);
        word(before).into_iter().for_each(|word| out.group(T::PreviousWord, word, 0));
        word(behind).into_iter().for_each(|word| out.group(T::NextWord, word, 0));
        out.group(T::Left, left.kind as usize, 0);
        out.group(T::Right, right.kind as usize, 0);
        if right.kind == CutKind::Question {
            out.frame(T::Asked, 0, 0);
        }
        let inside = self.cuts.get(self.from + 1..self.to).unwrap_or_default();
        let crossed = inside.iter().filter(|cut| matches!(cut.kind, CutKind::Stop | CutKind::Line)).count();
        if crossed > 0 {
            out.group(T::Crosses, crossed.min(2), 0);
        }
    }

    /// How much the clause holds, and how much of the message it leaves.
    fn add_sizes(&self, out: &mut Collector<'_>) {
        let clause = self.clause;
        let inside = clause.items().iter().filter(|item| is_chatter(item)).count();
        out.group(T::Beyond, bucket(self.message.chatter.saturating_sub(inside)), 0);
        out.group(T::Size, bucket(clause.items().len()), 0);
        for (sort, count) in self.message.amounts(clause.from..clause.to, self.made.used) {
            out.group(T::LeftAmount, sort, count);
        }
        out.group(T::Several, self.made.statements.len().min(4), 0);
        out.group(T::Spread, bucket(usize::from(self.found.high - self.found.low)), 0);
    }

    /// The form of the deed, who did it, and whether there is an amount and nothing left over.
    fn add_deed(&self, out: &mut Collector<'_>, left: &Left) {
        let form = self.message.form(&self.found.items);
        out.group(T::Form, form, self.message.who(self.found.low.into()) as usize);
        out.frame(T::FrameForm, form, 0);
        let amount = self.has_amount();
        let whole = usize::from(left.words == 0) + 2 * usize::from(amount) + 4 * usize::from(!left.voice);
        out.group(T::Whole, whole, form);
        if amount {
            let trigger = usize::from(self.found.low) - self.clause.from;
            let first = self.clause.items().iter().position(|item| !item.values.is_empty()).unwrap_or(0);
            out.frame(T::AmountFirst, usize::from(first < trigger), 0);
        }
    }

    fn has_amount(&self) -> bool {
        self.made.notes.iter().any(|note| note.is_amount())
    }

    /// Whether the clause plainly tells of something that the household did.
    pub(super) fn is_plain(&self) -> bool {
        // Own words for the household's people are no objection; everything else that is heard is.
        const OBJECTIONS: u16 = !0b1001;
        let form = self.message.form(&self.found.items);
        let told = form == Form::Past as usize || form == Form::Ing as usize;
        let left = (self.clause.from..self.clause.to).filter(|n| !self.made.used.has(n - self.clause.from));
        let before = self.message.beside(self.clause).0.voices;
        let heard = left.fold(before, |all, n| all | self.message.voices(n));
        let who = || matches!(self.message.who(self.found.low.into()), Who::Nobody | Who::Own | Who::Kin);
        told && self.has_amount() && heard & OBJECTIONS == 0 && who()
    }
}

/// What speaks for and against leaving the stretch between two boundaries alone.
pub(super) fn of_talk(message: &Message<'_>, from: usize, to: usize) -> Vec<Feature> {
    let items = message.text.items.get(from..to).unwrap_or_default();
    let mut features = vec![Feature::new(T::Talk, items.len().min(6), 0, 0)];
    let mut kinds = [0_usize; WordKind::ALL.len()];
    items.iter().for_each(|item| tick(&mut kinds, item.kind as usize));
    let kinds = kinds.iter().enumerate().filter(|(_, count)| **count > 0);
    features.extend(kinds.map(|(kind, count)| Feature::new(T::TalkKind, kind, (*count).min(3), 0)));
    let amounts = message.amounts(from..to, Used::default());
    features.extend(amounts.map(|(sort, count)| Feature::new(T::TalkAmount, sort, count, 0)));
    let deeds = items.iter().filter(|item| item.kind == WordKind::Deed);
    features
        .extend(deeds.filter_map(|item| message.form_of_item(item)).map(|form| Feature::new(T::TalkDeed, form, 0, 0)));
    let oops = items.iter().take(3).any(|item| item.is(message.text.words.classes.oops));
    if oops && items.iter().any(|item| !item.values.is_empty()) {
        features.push(Feature::new(T::TalkOops, 0, 0, 0));
    }
    features.sort_unstable();
    features.dedup();
    features
}
