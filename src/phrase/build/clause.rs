//! A clause as the builders see it: a stretch of items under a frame, with short questions to ask of its items.

use super::super::context::Context;
use super::super::frame::{Frame, Slots, Types};
use super::super::household::Household;
use super::super::item::{Item, Text};
use super::super::lexicon::Words;
use super::super::lexicon::sense::{Class, Classes};
use super::made::Used;

/// What a clause is read with.
#[derive(Clone, Copy, Debug)]
pub(in super::super) struct Scene<'a> {
    pub(in super::super) text: &'a Text<'a>,
    pub(in super::super) types: &'a [Types],
    pub(in super::super) context: &'a Context<'a>,
    pub(in super::super) household: &'a Household,
}

/// A stretch of items under a frame.
#[derive(Clone, Copy, Debug)]
pub(in super::super) struct Clause<'a> {
    pub(in super::super) scene: Scene<'a>,
    pub(in super::super) frame: &'a Frame,
    /// The first item and the one behind the last.
    pub(in super::super) from: usize,
    pub(in super::super) to: usize,
    /// The items of the trigger.
    pub(in super::super) trigger: &'a [u16],
}

/// What the first value of an item that fits a pattern says.
macro_rules! value_of {
    ($item:expr, $($pattern:pat $(if $guard:expr)? => $said:expr),+ $(,)?) => {
        $item.values.iter().find_map(|value| match value {
            $($pattern $(if $guard)? => Some($said),)+
            _ => None,
        })
    };
}

/// The thing that an item means in a class, where it is of a sort.
macro_rules! meaning_of {
    ($item:expr, $class:expr, $words:expr, $sort:ident) => {
        match $item.meaning($class, $words) {
            Some($crate::phrase::lexicon::sense::Meaning::$sort(thing)) => Some(thing),
            _ => None,
        }
    };
}

pub(super) use {meaning_of, value_of};

impl<'a> Clause<'a> {
    /// Its items.
    pub(in super::super) fn items(&self) -> &'a [Item] {
        self.scene.text.items.get(self.from..self.to).unwrap_or_default()
    }

    /// How many of its items are looked at: as many as can be accounted for.
    pub(super) fn len(&self) -> usize {
        self.items().len().min(128)
    }

    /// The item at a place.
    pub(in super::super) fn item(&self, n: usize) -> Option<&'a Item> {
        self.items().get(n)
    }

    /// The item right before a place.
    pub(super) fn before(&self, n: usize) -> Option<&'a Item> {
        self.item(n.checked_sub(1)?)
    }

    /// Whether there is an item at a place that passes a test.
    pub(super) fn at(&self, n: usize, test: impl FnOnce(&Item) -> bool) -> bool {
        self.item(n).is_some_and(test)
    }

    /// Whether the item at a place is of a class.
    pub(super) fn is(&self, n: usize, class: Class) -> bool {
        self.at(n, |item| item.is(class))
    }

    /// Whether an item of a stretch passes a test.
    pub(super) fn any_in(&self, range: std::ops::Range<usize>, test: impl Fn(&Item) -> bool) -> bool {
        self.items().get(range).is_some_and(|items| items.iter().any(test))
    }

    /// The place behind the items from `n` on that pass a test, at most so many.
    pub(super) fn end_of(&self, n: usize, most: usize, test: impl Fn(usize) -> bool) -> usize {
        (n..self.len().min(n + most)).find(|at| !test(*at)).unwrap_or_else(|| self.len().min(n + most).max(n))
    }

    /// The place of the first of the items up to `n` that pass a test, at most so many.
    pub(super) fn start_of(&self, n: usize, most: usize, test: impl Fn(usize) -> bool) -> usize {
        (n.saturating_sub(most)..n).rev().find(|at| !test(*at)).map_or(n.saturating_sub(most), |at| at + 1)
    }

    /// Whether an item is `of`, or ends in it: `5 lb of`.
    pub(super) fn ends_in_of(&self, item: &Item) -> bool {
        let (text, of) = (self.scene.text, self.classes().of);
        let last = text.lexed.tokens.get(item.to.saturating_sub(1) as usize);
        let ends = |word| text.words.is(text.words.number(text.lexed.folded(word)), of);
        item.is(of) || !item.is_single() && last.is_some_and(ends)
    }

    /// The words of a stretch as they were written.
    pub(super) fn said(&self, from: usize, to: usize) -> Option<String> {
        self.scene.text.said(self.from + from, self.from + to)
    }

    /// The types of the values of an item.
    pub(in super::super) fn types(&self, n: usize) -> Types {
        self.scene.types.get(self.from + n).copied().unwrap_or_default()
    }

    /// The classes that code asks for.
    pub(in super::super) fn classes(&self) -> &'a Classes {
        &self.scene.text.words.classes
    }

    /// All words.
    pub(super) fn words(&self) -> &'a Words {
        self.scene.text.words
    }

    /// Whether its frame has a slot.
    pub(in super::super) fn takes(&self, slot: Slots) -> bool {
        self.frame.slots.has(slot)
    }

    /// Whether an item of the clause has a sense of the class.
    pub(in super::super) fn any(&self, class: Class) -> bool {
        self.position(class).is_some()
    }

    /// The first item of the class.
    pub(in super::super) fn position(&self, class: Class) -> Option<usize> {
        self.items().iter().position(|item| item.is(class))
    }

    /// Whether something was taken back before an item.
    pub(super) fn is_corrected(&self, n: usize) -> bool {
        self.any_in(0..n, |item| item.is(self.classes().oops))
    }

    /// Whether an item belongs to the trigger.
    pub(in super::super) fn triggers(&self, n: usize) -> bool {
        u16::try_from(self.from + n).is_ok_and(|at| self.trigger.contains(&at))
    }

    /// Marks what the trigger takes as accounted for.
    pub(in super::super) fn used_by_trigger(&self) -> Used {
        let mut used = Used::default();
        self.trigger.iter().for_each(|at| used.add(usize::from(*at).saturating_sub(self.from)));
        used
    }
}
