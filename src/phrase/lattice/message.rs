//! What is known of a message as a whole, summed up once: who speaks of what, sentence by sentence.

use super::super::build::{Clause, Used};
use super::super::feature::{Beside, Form, Situation, VOICES, Who};
use super::super::frame::Types;
use super::super::item::{Item, Text, WordKind};
use smallvec::SmallVec;
use std::ops::Range;

/// What is known of a message as a whole.
pub(super) struct Message<'a> {
    pub(super) text: &'a Text<'a>,
    types: &'a [Types],
    /// Per item the classes of voice that it has, by the order of [`VOICES`].
    voices: Vec<u16>,
    /// Per item the sentence that it is in.
    sentences: Vec<u16>,
    /// What its sentence says before an item, and what from the item on.
    before: Vec<Heard>,
    behind: Vec<Heard>,
    pub(super) situation: SmallVec<[Situation; 8]>,
    /// How many words belong to no statement.
    pub(super) chatter: usize,
}

/// What a stretch of a sentence says besides the clauses: summed up once, as every clause asks for it.
#[derive(Clone, Copy, Default)]
pub(super) struct Heard {
    pub(super) voices: u16,
    /// How many words belong to no statement.
    pub(super) chatter: usize,
}

/// Sums up from one end of a message to the other; every sentence begins anew.
fn heard<'a>(items: impl Iterator<Item = ((&'a Item, &'a u16), &'a u16)>, with_own: bool) -> Vec<Heard> {
    let (mut heard, mut of) = (Heard::default(), None);
    let sum = |((item, voices), sentence): ((&Item, &u16), &'a u16)| {
        let before = if of.replace(sentence) == Some(sentence) { heard } else { Heard::default() };
        let chatter = before.chatter + usize::from(is_chatter(item));
        heard = Heard { voices: before.voices | voices, chatter };
        if with_own { heard } else { before }
    };
    items.map(sum).collect()
}

impl<'a> Message<'a> {
    /// Sums a message up.
    pub(super) fn new(text: &'a Text<'a>, types: &'a [Types], sentences: Vec<u16>, situation: &[Situation]) -> Self {
        let voices: Vec<u16> = (0..text.items.len()).map(|n| voices(text, n)).collect();
        let all = || text.items.iter().zip(&voices).zip(&sentences);
        let before = heard(all(), false);
        let mut behind = heard(all().rev(), true);
        behind.reverse();
        let chatter = text.items.iter().filter(|item| is_chatter(item)).count();
        Self { text, types, voices, before, behind, sentences, situation: situation.iter().copied().collect(), chatter }
    }

    /// What the sentence in which a clause begins says before it, and behind it.
    pub(super) fn beside(&self, clause: &Clause<'_>) -> (Heard, Heard) {
        let before = self.before.get(clause.from).copied().unwrap_or_default();
        let behind = self.behind.get(clause.to).filter(|_| self.sentence(clause.to) == self.sentence(clause.from));
        (before, behind.copied().unwrap_or_default())
    }

    /// The classes of voice that an item has.
    pub(super) fn voices(&self, n: usize) -> u16 {
        self.voices.get(n).copied().unwrap_or_default()
    }

    /// The sentence that an item is in.
    pub(super) fn sentence(&self, n: usize) -> Option<u16> {
        self.sentences.get(n).copied()
    }

    /// How many amounts of each sort stand in a stretch and are not accounted for, at most two of each.
    pub(super) fn amounts(&self, stretch: Range<usize>, used: Used) -> impl Iterator<Item = (usize, usize)> {
        let sorts = [Types::Mass, Types::Count, Types::Jars, Types::Of, Types::Number];
        let mut counts = [0_usize; 5];
        for at in stretch.clone().filter(|at| !used.has(at - stretch.start)) {
            if let Some(sort) = sorts.iter().position(|sort| self.types(at).meets(*sort)) {
                tick(&mut counts, sort);
            }
        }
        counts.into_iter().enumerate().filter(|(_, count)| *count > 0).map(|(sort, count)| (sort, count.min(2)))
    }

    fn types(&self, n: usize) -> Types {
        self.types.get(n).copied().unwrap_or_default()
    }

    /// What an item beside a clause is.
    pub(super) fn kind_beside(&self, at: Option<usize>) -> Beside {
        let Some((at, item)) = at.and_then(|at| Some((at, self.text.items.get(at)?))) else { return Beside::None };
        let classes = &self.text.words.classes;
        let types = self.types(at);
        match item.kind {
            _ if item.is(classes.oops) => Beside::Oops,
            _ if item.is_any(&[classes.not, classes.correct_not]) => Beside::Not,
            _ if types.meets(Types::Mass.with(Types::Count)) => Beside::Mass,
            _ if types.meets(Types::Jars.with(Types::Of)) => Beside::Jars,
            _ if !item.values.is_empty() => Beside::Value,
            WordKind::Deed => Beside::Deed,
            _ if item.is(classes.question) => Beside::Asking,
            _ if item.is(classes.own) => Beside::Own,
            WordKind::Voice => Beside::Voice,
            WordKind::Trade => Beside::Trade,
            WordKind::Small => Beside::Small,
            WordKind::Strange => Beside::Strange,
            _ => Beside::Ordinary,
        }
    }

    /// The form of a deed; `None` where an item is none.
    pub(super) fn form_of_item(&self, item: &Item) -> Option<usize> {
        let words = self.text.words;
        item.senses.iter().find(|hit| words.classes.deed.has(hit.sense)).map(|hit| words.form(hit.sense))
    }

    /// The form of the first deed of some items.
    pub(super) fn form(&self, items: &[u16]) -> usize {
        let items = || items.iter().filter_map(|at| self.text.items.get(usize::from(*at)));
        let say = || if items().any(|item| item.is(self.text.words.classes.say)) { Form::Say } else { Form::None };
        items().find_map(|item| self.form_of_item(item)).unwrap_or_else(|| say() as usize)
    }

    /// Who did what an item tells: the last word for a person before it, not further than five words.
    pub(super) fn who(&self, first: usize) -> Who {
        let people = [(0, Who::Own), (3, Who::Kin), (2, Who::Other), (4, Who::Other), (1, Who::You)];
        let near = (0..first).rev().take(5).take_while(|n| self.sentence(*n) == self.sentence(first));
        let who = |n: usize| {
            let said = people.iter().find(|(voice, _)| self.voices(n) & 1 << voice != 0).map(|(_, who)| *who);
            let item = self.text.items.get(n);
            let name = item.is_some_and(|item| item.capital && item.kind == WordKind::Strange);
            said.or(name.then_some(Who::Other))
        };
        near.into_iter().find_map(who).unwrap_or(Who::Nobody)
    }
}

/// The classes of voice of an item, by the order of [`VOICES`].
fn voices(text: &Text<'_>, n: usize) -> u16 {
    let Some(item) = text.items.get(n) else { return 0 };
    let c = &text.words.classes;
    // `do I need`, `is there`: the verb before its subject, as questions have it.
    let verb = |item: &Item| item.is(c.aux) || item.is(c.modal);
    let person = |item: &Item| item.is(c.own) || item.is(c.you) || item.is(c.other) || item.is(c.pronoun);
    let leads = text.before(n).is_none_or(|before| !person(before) && !before.is_content());
    let inverted =
        leads && verb(item) && !person(item) && text.items.get(n + 1).is_some_and(|next| person(next) && !verb(next));
    let all =
        [c.own, c.you, c.other, c.kin, c.folk, c.not, c.modal, c.want, c.if_, c.hearsay, c.memory, c.price, c.question];
    let said = all.iter().enumerate().filter(|(_, class)| item.is(**class)).fold(0, |bits, (n, _)| bits | 1 << n);
    said | u16::from(inverted) << (VOICES.len() - 1)
}

/// Whether a word can hardly belong to another statement of the message.
pub(super) fn is_chatter(item: &Item) -> bool {
    item.is_content() && !matches!(item.kind, WordKind::Value | WordKind::Deed | WordKind::Trade | WordKind::Harmless)
}

/// One more at a place.
pub(super) fn tick(counts: &mut [usize], place: usize) {
    if let Some(count) = counts.get_mut(place) {
        *count += 1;
    }
}
