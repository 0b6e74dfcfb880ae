//! Which clauses only add to the one before, and which begin an item of their own.

use super::making::is_listable;
use super::{Reader, State};
use crate::phrase::{
    asking, batch,
    facts::{Facts, has},
    kinds,
    measure::Amount,
    scan::{Chunk, Item},
    seals,
    token::{Mark, one_of, says},
    words::{Unit, Verb, Word},
};
use crate::vocabulary::Kind;

impl<'t> Reader<'t, '_, '_> {
    /// Takes in the clauses that only add to this one; says how many were used.
    pub(super) fn absorb(&mut self, facts: &mut Facts<'t>, kind: Kind, at: usize, state: &mut State<'t, '_>) -> usize {
        let mut used = 1;
        let mut kept = 1;
        let mut skipped = Vec::new();
        while let Some((from, to)) = state.clauses.get(at + used).copied() {
            let mut other = match state.ahead.take() {
                Some((n, facts)) if n == at + used => facts,
                _ => self.gather(&state.chunks[from..to]),
            };
            let joint = state
                .chunks
                .get(from.wrapping_sub(1))
                .is_some_and(|c| c.word() == Some(Word::And) || c.is_mark(Mark::And) || c.is_mark(Mark::Plus));
            if is_filler(&other) {
                used += 1;
                continue;
            }
            let head = kinds::kind_of(&other);
            let same = head == Some(kind) && !facts.has_quantity() && other.has_quantity();
            if other.chunks.iter().take(2).any(|c| c.word() == Some(Word::Question)) {
                state.ahead = Some((at + used, other));
                break;
            }
            if asking::is_asking(other.chunks, false)
                && !(other.has_quantity()
                    || other.chunks.first().is_some_and(|c| one_of!(c.key, "were" | "are" | "is" | "was")))
            {
                state.ahead = Some((at + used, other));
                break;
            }
            if !same
                && (head.is_some()
                    || batch::stage(&other, &self.carry).is_some()
                    || seals::seals(&other, &self.carry).is_some() && kind != Kind::Filled)
            {
                state.ahead = Some((at + used, other));
                break;
            }
            // `and they are quartered`
            let prepared = other.prep.is_some() && !other.has_quantity();
            let remark = !prepared
                && (other.has(has::AUX) || other.verb_is(Verb::Make))
                && other.chunks.first().is_some_and(|c| one_of!(c.key, "that" | "it" | "which" | "they" | "those"))
                || other.has_quantity()
                    && other.has(has::IT)
                    && facts.mass().is_some()
                    && !matches!(kind, Kind::Froze | Kind::Thawed)
                || other.ripe.is_some()
                    && !other.has_quantity()
                    && kind == Kind::Picked
                    && other.any_token(|k| one_of!(k, "half" | "some" | "rest" | "few" | "others"))
                    && !other.any_token(|k| one_of!(k, "red" | "ripe"));
            let foreign = remark
                || other.verb.is_some() && !same && !weak_tail(&other)
                || other.has(has::MODAL | has::NOT)
                || other.bad_object
                || other.alien > 0
                || other.unknown + other.common > 1;
            // Jars are nothing that was picked or drained before.
            if matches!(kind, Kind::Picked | Kind::Froze | Kind::Drained)
                && facts.mass().is_some()
                && other.jars().is_some_and(|a| a.jar.is_some())
                && !matches!(kind, Kind::Drained)
            {
                break;
            }
            if foreign || !other.has_slots() {
                if used + 1 - kept > 2 {
                    break;
                }
                skipped.push((state.chunks[from].from, state.chunks[to - 1].to));
                used += 1;
                continue;
            }
            if starts_item(facts, &other, kind, joint) || self.leads(other.chunks) || settings_follow(&other) {
                state.ahead = Some((at + used, other));
                break;
            }
            if !matches!(
                kind,
                Kind::Began
                    | Kind::Filled
                    | Kind::PutUp
                    | Kind::Opened
                    | Kind::Ate
                    | Kind::Gave
                    | Kind::Tossed
                    | Kind::Counted
            ) {
                other.product = None;
            }
            facts.absorb(other);
            used += 1;
            kept = used;
            self.left.append(&mut skipped);
        }
        kept
    }
}

/// Words that say nothing by themselves: `all good`, `very nice`.
pub(super) fn is_chatter(chunk: &Chunk) -> bool {
    matches!(
        chunk.item,
        Item::Word(
            Word::Filler
                | Word::Quality
                | Word::Link
                | Word::And
                | Word::Is
                | Word::Aux
                | Word::First
                | Word::You
                | Word::Kin
                | Word::DayPart(_)
        ) | Item::Mark(_)
    ) || one_of!(chunk.key, "log" | "entry" | "harvest")
}

pub(super) fn is_filler(f: &Facts<'_>) -> bool {
    let asks = f.chunks.len() == 1 && one_of!(f.chunks[0].key, "next");
    !asks
        && f.chunks.iter().all(|c| {
            matches!(
                c.item,
                Item::Word(Word::Filler | Word::And | Word::Kin | Word::You | Word::DayPart(_)) | Item::Mark(_)
            ) || matches!(c.item, Item::Word(Word::Link))
                || c.word() == Some(Word::Not) && f.chunks.len() <= 2
        })
}

/// A clause like `weighing` or `went` that hangs on the one before.
pub(super) fn weak_tail(f: &Facts<'_>) -> bool {
    f.verb.is_some_and(|(verb, _)| {
        matches!(
            verb,
            Verb::Get
                | Verb::Weigh
                | Verb::Go
                | Verb::Do
                | Verb::Bag
                | Verb::Cut
                | Verb::Come
                | Verb::Use
                | Verb::Make
                | Verb::Thaw
                | Verb::Run
        )
    }) && f.has_slots()
        && !(f.verb_is(Verb::Make) && f.product.is_some())
}

pub(super) fn settings_follow(f: &Facts<'_>) -> bool {
    says!(f, "altitude" | "units" | "usual" | "room")
}

/// Whether a clause begins a further item of a list rather than adding to the one before.
pub(super) fn starts_item(facts: &Facts<'_>, other: &Facts<'_>, kind: Kind, joint: bool) -> bool {
    if !other.has_quantity() || !facts.has_quantity() || !is_listable(kind) {
        return false;
    }
    let both = |a: bool, b: bool| a && b;
    let conflict =
        both(facts.crop.is_some() || facts.variety.is_some(), other.crop.is_some() || other.variety.is_some())
            || both(facts.prep.is_some(), other.prep.is_some())
            || both(facts.place.is_some(), other.place.is_some())
            || both(facts.product.is_some(), other.product.is_some())
            || both(facts.supply.is_some(), other.supply.is_some())
            || both(facts.what.is_some(), other.what.is_some())
            || both(facts.has(has::FOLK | has::KIN), other.has(has::FOLK | has::KIN))
            || matches!(kind, Kind::Filled | Kind::PutUp | Kind::Opened)
                && other.jars().is_some_and(|a| {
                    facts.jars().is_some_and(|b| a.jar.is_some() && b.jar.is_some() && a.jar != b.jar)
                });
    if is_further(facts, other, kind, joint) {
        return true;
    }
    let own = other.crop.is_some()
        || other.variety.is_some()
        || other.supply.is_some()
        || other.product.is_some() && facts.jars().is_some() && other.jars().is_some();
    let other_measure = matches!(kind, Kind::Ate | Kind::Gave | Kind::Tossed)
        && (facts.unit(Unit::Bag).is_some() || facts.mass().is_some())
        && other.jars().is_some();
    conflict
        || other_measure
        || joint && own
        || kind == Kind::Bought && (own || other.jars().is_some() || other.unit(Unit::Bag).is_some())
}

/// A second amount of the same measure is an entry of its own, unless it only says the first in other words.
pub(super) fn is_further(facts: &Facts<'_>, other: &Facts<'_>, kind: Kind, joint: bool) -> bool {
    let counted = |f: &Facts<'_>, accept: fn(&Amount) -> bool| f.amounts.iter().any(|a| !a.uncounted && accept(a));
    let both = |accept: fn(&Amount) -> bool| counted(facts, accept) && counted(other, accept);
    if other.has(has::TOTAL | has::IT) || other.each {
        return false;
    }
    let dated = facts.when.is_some() && other.when.is_some();
    let weight = |a: &Amount| a.mass.is_some() && !a.is(Unit::Bag);
    match kind {
        Kind::Froze | Kind::Thawed => {
            let bags = both(|a| a.is(Unit::Bag)) && !both(|a| a.each.is_some());
            let plain = !counted(facts, |a| a.is(Unit::Bag)) && !counted(other, |a| a.is(Unit::Bag));
            bags && (joint || facts.mass().is_some() || dated) || plain && both(weight) && (joint || dated)
        }
        Kind::Picked | Kind::Ate | Kind::Gave | Kind::Tossed | Kind::Drained | Kind::Powdered => {
            let unit =
                |f: &Facts<'_>| f.amounts.iter().find(|a| a.mass.is_some() || a.unit.is_some()).and_then(|a| a.unit);
            both(weight) && (joint || dated || unit(facts) == unit(other))
                || both(|a| a.is(Unit::Bag)) && joint
                || both(|a| a.jar.is_some()) && joint
                || kind == Kind::Drained && joint && other.has_quantity()
        }
        Kind::PutUp | Kind::Opened | Kind::Filled | Kind::Counted => both(|a| a.is_jars()) && joint,
        Kind::Dried => both(|a| a.is(Unit::Tray)) && joint,
        _ => false,
    }
}
