//! Jars that broke, and jars that lost liquid.

use super::{
    only,
    words::{breaks, has_liquid, is_breaking, is_liquid, is_siphoning, siphons},
};
use crate::phrase::{
    build::Carry,
    facts::{Facts, has},
    measure::Amount,
    product::Named,
    scan::{Chunk, Item},
    token::{one_of, says},
    words::{Unit, Verb, Word},
};
use crate::{
    statement::{SomeJars, Statement},
    vocabulary::Stock,
};

fn is_jars(amount: &Amount) -> bool {
    amount.unit.is_none() || amount.is_jars()
}

/// How many jars: as said, one for `a jar`, `the jar`, `jar`; nothing for `jars`.
fn count(f: &Facts<'_>) -> Option<u32> {
    let counted = f.amounts.iter().filter(|a| is_jars(a) && !a.uncounted).find_map(|a| a.count());
    counted.or_else(|| says!(f, "jar" | "one" | "quart" | "pint").then_some(1))
}

fn some(f: &Facts<'_>, carry: &Carry<'_, '_>) -> SomeJars {
    SomeJars { jars: count(f), batch: carry.batch(f), on: None }
}

/// Amounts here count jars and nothing else, inches of liquid apart.
fn counts_jars(f: &Facts<'_>) -> bool {
    f.amounts.iter().all(|a| is_jars(a) && a.mass.is_none() || a.is(Unit::Far))
}

/// Words that may stand beside jars in trouble.
fn is_around(c: &Chunk) -> bool {
    match c.item {
        Item::Amount(_) | Item::Canner(_) => true,
        Item::Word(Word::Unit(Unit::Jar) | Word::Small(_) | Word::Some | Word::Part(_) | Word::Quality) => true,
        Item::Word(Word::Gear) => {
            one_of!(
                c.key,
                "canner" | "pot" | "bath" | "water" | "rack" | "cooling" | "pressure" | "processing" | "process"
            )
        }
        _ => one_of!(c.key, "glass" | "found"),
    }
}

/// `a jar broke in the canner`, `one cracked`, `lost a jar`, `bottom fell out of one`.
pub(super) fn broke(f: &Facts<'_>, carry: &Carry<'_, '_>) -> Option<Statement> {
    let canner = f.has(has::CANNER);
    // A jar of something that no open batch makes broke on the shelf.
    let shelved = f.product.is_some() && carry.batch(f).is_none() && !canner;
    // `one broke on the shelf`, where no jar's size or product asks for which it was.
    let on_shelf = f.stock.or(f.dest) == Some(Stock::Pantry)
        && !f.has(has::JARS)
        && f.product.is_none()
        && f.crop.is_none()
        && f.amounts.iter().all(|a| a.unit.is_none());
    let elsewhere = (f.dest.is_some() || f.stock.is_some()) && !on_shelf;
    if !counts_jars(f) || shelved || says!(f, "open" | "even") || elsewhere {
        return None;
    }
    let one = says!(f, "one");
    let sized = f.amounts.iter().any(|a| a.is_jars()) || f.has(has::JARS);
    let counted = sized || f.bare().is_some();
    let lost = f.verb_is(Verb::Lose) && (sized && !f.has(has::LIQUID) || f.bare().is_some() && (canner || breaks(f)));
    let bottom = says!(f, "bottom" | "bottoms")
        && says!(f, "fell" | "blew" | "dropped" | "came" | "popped" | "out" | "gone")
        && f.has(has::OUT | has::OFF);
    let open = !carry.context.lexicon.batches.is_empty();
    let starts = f.chunks.first().is_some_and(|c| one_of!(c.key, "broke"));
    let by_itself = on_shelf && starts && (open || !carry.context.lexicon.closed.is_empty());
    if !(is_told_broken(f, sized, canner) || by_itself || lost || bottom && (counted || one)) {
        return None;
    }
    let plain = only(f, |c| {
        is_around(c)
            || is_breaking(c.key)
            || on_shelf && matches!(c.item, Item::Store(Stock::Pantry))
            || matches!(
                c.item,
                Item::Verb(Verb::Lose | Verb::Crack | Verb::Fall | Verb::Come | Verb::Send | Verb::Lift | Verb::Go, _)
            )
            || one_of!(
                c.key,
                "bottom" | "bottoms" | "blew" | "popped" | "thermal" | "shock" | "when" | "while" | "clean" | "lids"
            )
    });
    plain.then(|| Statement::Broke(some(f, carry)))
}

/// Jars, then what befell them; `cracked a jar` opens one, `broke a jar` does not.
fn is_told_broken(f: &Facts<'_>, sized: bool, canner: bool) -> bool {
    let Some(event) = f.chunks.iter().position(|c| is_breaking(c.key)) else { return false };
    let is_jar = |c: &Chunk| match c.item {
        Item::Amount(a) => is_jars(&a),
        Item::Word(Word::Unit(Unit::Jar)) => true,
        _ => one_of!(c.key, "one"),
    };
    let Some(jars) = f.chunks.iter().position(is_jar) else { return false };
    let base = one_of!(f.chunks[event].key, "break" | "breaks");
    let crack = one_of!(f.chunks[event].key, "cracked");
    says!(f, "had" | "have" | "has")
        || !base && (jars < event || !crack && sized)
        || canner && (sized || f.bare().is_some())
}

/// `bottom fell out`, `thermal shock`, `glass everywhere`, `what a mess`.
pub(super) fn is_tail(f: &Facts<'_>) -> bool {
    !f.has_quantity()
        && (breaks(f) || says!(f, "bottom" | "shock" | "glass" | "mess" | "clean" | "it" | "lifting" | "lifted"))
        && only(f, |c| {
            is_around(c)
                || is_breaking(c.key)
                || matches!(c.item, Item::Verb(Verb::Fall | Verb::Come | Verb::Crack | Verb::Go | Verb::Lift, _))
                || one_of!(c.key, "bottom" | "thermal" | "shock" | "mess" | "clean" | "blew" | "popped" | "what")
        })
}

/// `two siphoned`, `one lost liquid`, `siphoning on 3 jars`, `a jar lost half its liquid`.
pub(super) fn siphoned(f: &Facts<'_>, carry: &Carry<'_, '_>) -> Option<Statement> {
    if !counts_jars(f) || f.has(has::MODAL | has::OFF) || f.dest.is_some() || f.source.is_some() {
        return None;
    }
    let jars =
        f.amounts.iter().any(is_jars) || f.has(has::JARS) || says!(f, "one" | "they" | "some" | "all" | "both" | "few");
    let lost = f.verb_is(Verb::Lose) && has_liquid(f) && jars;
    let lacks = says!(f, "low") && says!(f, "liquid") && jars;
    let plain = only(f, |c| {
        is_around(c)
            || is_siphoning(c.key)
            || is_liquid(c.key)
            || matches!(c.item, Item::Verb(Verb::Drain | Verb::Lose | Verb::Get, _))
            || one_of!(c.key, "inch" | "half" | "third")
    });
    if !plain || !(siphons(f) && is_told_siphoned(f, jars) || lost || lacks) {
        return None;
    }
    // What was lost names no batch.
    let juice = matches!(f.product, Some(Named::Known("tomato-juice")));
    let batch = carry.batch(f).filter(|_| !juice);
    Some(Statement::Siphoned(SomeJars { batch, ..some(f, carry) }))
}

/// `two siphoned` tells of jars, `siphoned two quarts` of what was drained.
fn is_told_siphoned(f: &Facts<'_>, jars: bool) -> bool {
    let Some(at) = f.chunks.iter().position(|c| is_siphoning(c.key)) else { return false };
    let ing = one_of!(f.chunks[at].key, "siphoning" | "syphoning");
    let before = f.chunks[..at].iter().any(|c| {
        matches!(c.item, Item::Amount(_) | Item::Word(Word::Unit(Unit::Jar) | Word::Some))
            || one_of!(c.key, "jars" | "one" | "they" | "all" | "both" | "few")
    });
    let counted = f.chunks[at..].iter().any(|c| matches!(c.item, Item::Amount(_)));
    before || ing && (jars || f.chunks.len() <= 4) || counted && f.has(has::JARS | has::CANNER)
}
