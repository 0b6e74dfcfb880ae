//! At heat: the boil, the jiggle, and what the gauge reads.

use super::few_strangers;
use crate::phrase::{
    facts::{Facts, has},
    scan::Item,
    token::{Sense, says},
    words::{Unit, Verb, Word},
};

pub(super) fn at_heat(f: &Facts<'_>) -> bool {
    let weather = f.has(has::TEMP)
        && (pounds(f).is_some_and(|n| (21.0..150.0).contains(&n))
            || f.when.is_some_and(|w| w.has_day() && !w.has_time()));
    if weather
        || f.has(has::NOT | has::BELOW | has::VENT)
        || f.any_verb(&[Verb::Stop, Verb::Lose, Verb::Fall, Verb::Send])
    {
        return false;
    }
    let boil = f.verb_is(Verb::Boil);
    let subject = f.has(has::CANNER | has::WATER | has::IT | has::JARS);
    if boil
        && f.chunks.len() <= 4
        && says!(f, "we" | "we're")
        && f.has(has::FIRST)
        && f.amounts.is_empty()
        && few_strangers(f, 0)
        && f.forms_base & (1 << Verb::Boil as u8) == 0
    {
        return true;
    }
    let boiling = boil && f.forms_base & (1 << Verb::Boil as u8) == 0;
    if boil && f.has(has::ROLLING) {
        return few_strangers(f, 1)
            && !f.has(has::FIRST) | f.verb.is_some_and(|(v, _)| matches!(v, Verb::Get | Verb::Reach | Verb::Boil));
    }
    if boil && few_strangers(f, 0) && f.when.is_none_or(|w| w.has_time()) && f.amounts.iter().all(|a| a.article) {
        let reached = f.any_verb(&[Verb::Come, Verb::Reach]) || f.has(has::AT) || says!(f, "back");
        let plain = boiling
            && !f.has(has::OVER | has::HEAT)
            && !f.has(has::FIRST) | f.has(has::IT | has::CANNER)
            && (subject || f.chunks.len() <= 3 && !f.has(has::FIRST));
        if reached || plain && !says!(f, "here" | "in" | "outside" | "about") {
            return true;
        }
    }
    if boil
        && f.chunks.len() <= 4
        && few_strangers(f, 0)
        && f.amounts.iter().all(|a| a.article)
        && says!(f, "full" | "hard" | "vigorous" | "proper")
        && !f.has(has::FIRST)
        && f.verb.is_none_or(|(verb, _)| verb == Verb::Boil)
    {
        return true;
    }
    if f.has(has::STEAM) && f.has(has::UP) && few_strangers(f, 0) && !f.has_quantity() {
        return true;
    }
    let level = f.has(has::TEMP | has::PRESSURE | has::HEAT);
    if level
        && few_strangers(f, 1)
        && (f.has(has::UP)
            || f.has(has::AT)
            || f.verb_is(Verb::Reach)
            || f.has(has::GREEN_ZONE)
            || f.verb_is(Verb::Come) && f.has(has::TO))
        && !f.has(has::DOWN)
        && !f.has(has::OFF)
        && !f.verb_is(Verb::Turn)
        && !f.has(has::ZERO)
        && f.amounts.iter().all(|a| psi_like(a.unit))
    {
        return true;
    }
    let few = f.chunks.len() <= 4
        && few_strangers(f, 0)
        && f.amounts.iter().all(|a| a.article)
        && !f.has(has::FIRST | has::COMPOST)
        && f.crop.is_none()
        && !says!(f, "ahead");
    if few && (f.has(has::GREEN_ZONE) && f.verb.is_none() || f.has(has::STEAM) && says!(f, "full") && f.verb.is_none())
    {
        return true;
    }
    if f.has(has::NEEDLE) && f.has(has::GREEN_ZONE) && few_strangers(f, 0) {
        return true;
    }
    let jiggles = f.has(has::JIGGLING) || f.verb_is(Verb::Go) && says!(f, "jiggler");
    if f.has(has::TEMP) && f.has(has::GOOD) && few_strangers(f, 0) {
        return true;
    }
    if f.has(has::WEIGHT) && jiggles && few_strangers(f, 2) {
        return true;
    }
    gauge_reading(f)
}

pub(super) const fn psi_like(unit: Option<Unit>) -> bool {
    matches!(unit, None | Some(Unit::Pound | Unit::Psi))
}

/// `at 11 pounds`, `11 lb on the gauge`, `hit 10# pressure`, `@ 11 psi`.
pub(super) fn gauge_reading(f: &Facts<'_>) -> bool {
    let Some(n) = pounds(f) else { return false };
    if !(4.0..=20.0).contains(&n)
        || !few_strangers(f, 0)
        || f.amounts.len() > 1
        || f.crop.is_some()
        || f.when.is_some_and(|w| !w.has_time())
    {
        return false;
    }
    let gauge = f.has(has::NEEDLE | has::PRESSURE | has::WEIGHT) || f.unit(Unit::Psi).is_some();
    let ledger = f.any_verb(&[Verb::Pick, Verb::Freeze, Verb::Thaw, Verb::Eat, Verb::Give, Verb::Toss, Verb::Drain])
        || f.verb_is(Verb::Get) && f.unit(Unit::Psi).is_none();
    let at = (f.has(has::AT) || says!(f, "holding")) && (f.verb.is_none() || f.any_verb(&[Verb::Reach]));
    !ledger
        && f.dest.is_none()
        && f.source.is_none()
        && (gauge && !f.has(has::OFF)
            || at && f.mass().is_some()
            || f.verb_is(Verb::Reach) && f.unit(Unit::Pound).is_some())
}

/// The number on the gauge.
pub(super) fn pounds(f: &Facts<'_>) -> Option<f64> {
    if let Some(amount) =
        f.amounts.iter().find(|a| matches!(a.unit, Some(Unit::Psi | Unit::Pound))).or_else(|| f.bare())
    {
        return Some(amount.number.as_f64());
    }
    // `pressure's at 11` looks like a time.
    let gauge =
        f.has(has::PRESSURE | has::NEEDLE | has::WEIGHT) && f.when.is_some_and(|w| w.has_time() && !w.has_day());
    let time = f.chunks.iter().find(|c| matches!(c.item, Item::When(_))).filter(|_| gauge)?;
    f.tokens.get(time.from as usize..time.to as usize)?.iter().find_map(|t| match t.sense {
        Sense::Num(n) => Some(n.as_f64()),
        Sense::Word(Word::Small(n)) => Some(n.into()),
        _ => None,
    })
}

pub(super) fn psi(f: &Facts<'_>) -> Option<f64> {
    pounds(f).filter(|n| *n > 0.0)
}
