//! Bags, boxes and other containers, with what is in each.

use super::jar_size::{metric_size, size};
use super::{Amount, scaled, with_unit};
use crate::phrase::{
    number::number,
    token::{Mark, Sense, Tokens, one_of},
    words::{Unit, Word},
};
use crate::quantity::{Mass, Number};

/// `7 lb bag`, `500 ml jar`, `7-pound bag`.
pub(super) fn amount_of_container(input: Tokens<'_>) -> Option<(usize, Amount)> {
    let (rest, n) = number(input).ok()?;
    let used = input.0.len() - rest.0.len();
    if let Some((more, jar)) = metric_size(rest, n, false) {
        let mut amount = Amount::of(Number::whole(1));
        (amount.unit, amount.jar) = (Some(Unit::Jar), Some(jar));
        return Some((used + more, amount));
    }
    let (more, weight) = with_unit(rest, n, None)?;
    let mass = weight.mass?;
    let gap = bag_gap(input.skip(used + more))?;
    let mut amount = Amount::of(Number::whole(1));
    (amount.unit, amount.each, amount.mass) = (Some(Unit::Bag), Some(mass), Some(mass));
    Some((used + more + gap, amount))
}

/// How far it is past `bag`, hyphen and adjectives included; `None` when no bag follows.
pub(super) fn bag_gap(input: Tokens<'_>) -> Option<usize> {
    let hyphen = usize::from(input.first().is_some_and(|t| t.is_mark(Mark::Hyphen)));
    let at = hyphen + qualities(input.skip(hyphen));
    matches!(input.nth(at)?.word(), Some(Word::Unit(Unit::Bag))).then_some(at + 1)
}

/// How many words of quality or kind stand before a container: big, full, more, freezer.
pub(super) fn qualities(input: Tokens<'_>) -> usize {
    let is_quality = |n: usize| {
        matches!(input.nth(n).and_then(|t| t.word()), Some(Word::Quality))
            || one_of!(
                input.key(n),
                "more"
                    | "other"
                    | "further"
                    | "extra"
                    | "freezer"
                    | "solid"
                    | "whole"
                    | "fresh"
                    | "good"
                    | "last"
                    | "first"
                    | "odd"
                    | "additional"
                    | "dehydrator"
                    | "dryer"
                    | "mason"
                    | "canning"
                    | "kilner"
                    | "glass"
                    | "wide"
                    | "mouth"
                    | "regular"
                    | "big"
            )
    };
    (0..3).take_while(|n| is_quality(*n)).count()
}

/// `12 of the 20 lb`, `2 of the pints`: so many of that unit.
pub(super) fn of_those(input: Tokens<'_>, n: Number) -> Option<(usize, Amount)> {
    if !(one_of!(input.key(0), "of") && one_of!(input.key(1), "the" | "those" | "our" | "my" | "these")) {
        return None;
    }
    let rest = input.skip(2);
    if let Ok((behind, _)) = number(rest) {
        let used = rest.0.len() - behind.0.len();
        let (more, amount) = with_unit(behind, n, None).filter(|(_, amount)| amount.mass.is_some())?;
        return Some((2 + used + more, amount));
    }
    let (more, amount) = with_unit(rest, n, None)?;
    (amount.is_jars() || amount.is(Unit::Bag)).then_some((2 + more, amount))
}

/// `7 lb x 3`: a weight, then how many bags of it.
pub(super) fn times_behind(input: Tokens<'_>, weight: Amount) -> Option<(usize, Amount)> {
    let each = weight.mass.filter(|_| weight.unit != Some(Unit::Bag))?;
    if !(input.first()?.is_mark(Mark::Times) || one_of!(input.key(0), "x" | "times")) {
        return None;
    }
    let (rest, n) = number(input.skip(1)).ok()?;
    let used = input.0.len() - rest.0.len();
    let more = bag_gap(rest).unwrap_or(0);
    Some((used + more, bags_of(n, each)?))
}

pub(super) fn bags_of(n: Number, each: Mass) -> Option<Amount> {
    let mut amount = Amount::of(n);
    (amount.unit, amount.each, amount.mass) = (Some(Unit::Bag), Some(each), Some(scaled(each, n)));
    Some(amount)
}

/// Behind a count: `x 7 lb [bags]`, `7-pound bags`, `x 500 ml jars`, `500 ml jars`, `half pints`.
pub(super) fn of_containers(input: Tokens<'_>, n: Number) -> Option<(usize, Amount)> {
    let times = usize::from(input.first()?.is_mark(Mark::Times) || one_of!(input.key(0), "x"));
    let further = usize::from(one_of!(input.key(times), "more" | "other" | "further"));
    let at = times + further + qualities(input.skip(times + further));
    let inner = input.skip(at);
    if let Some((used, jar)) = size(inner).or_else(|| {
        let (rest, ml) = number(inner).ok()?;
        let used = inner.0.len() - rest.0.len();
        metric_size(rest, ml, times == 1).map(|(more, jar)| (used + more, jar))
    }) {
        let mut amount = Amount::of(n);
        (amount.unit, amount.jar, amount.further) = (Some(Unit::Jar), Some(jar), further == 1);
        return Some((at + used, amount));
    }
    if times == 1 && !matches!(inner.first()?.sense, Sense::Num(_) | Sense::Grouped(..) | Sense::Fraction(_)) {
        let (used, amount) = with_unit(inner, n, None)?;
        return Some((at + used, amount));
    }
    let (rest, weight) = number(inner).ok()?;
    let used = inner.0.len() - rest.0.len();
    let hyphen = usize::from(rest.first().is_some_and(|t| t.is_mark(Mark::Hyphen)));
    let (more, weighed) = with_unit(rest.skip(hyphen), weight, None)?;
    let end = used + hyphen + more;
    // `2 32 oz bottles`: both together.
    let vessel = inner.skip(end);
    let dash = usize::from(vessel.first().is_some_and(|t| t.is_mark(Mark::Hyphen)));
    if matches!(vessel.nth(dash).and_then(|t| t.word()), Some(Word::Unit(Unit::Vessel)))
        && (weighed.mass.is_some() || weighed.volume().is_some())
    {
        let mut all = weighed;
        all.number = n.checked_mul(weighed.number)?;
        all.mass = weighed.mass.map(|mass| scaled(mass, n));
        return Some((at + end + dash + 1, all));
    }
    match bag_gap(inner.skip(end)) {
        Some(gap) => Some((at + end + gap, bags_of(n, weighed.mass?)?)),
        None if times == 1 => Some((at + end, bags_of(n, weighed.mass?)?)),
        None => None,
    }
}
