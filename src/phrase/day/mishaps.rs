//! Jars that broke, and jars that lost liquid.

use super::only;
use crate::phrase::{
    build::Carry,
    facts::{Facts, has},
    measure::Amount,
    scan::{Chunk, Item},
    token::{one_of, says},
    words::{Unit, Verb, Word},
};
use crate::statement::{SomeJars, Statement};

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

/// Amounts here count jars and nothing else.
fn counts_jars(f: &Facts<'_>) -> bool {
    f.amounts.iter().all(|a| is_jars(a) && a.mass.is_none() || a.is(Unit::Far))
}

/// Words that may stand beside jars in trouble.
fn is_around(c: &Chunk) -> bool {
    matches!(
        c.item,
        Item::Amount(_)
            | Item::Canner(_)
            | Item::Word(Word::Unit(Unit::Jar) | Word::Small(_) | Word::Some | Word::Part(_) | Word::Quality)
    ) || matches!(c.item, Item::Word(Word::Gear))
        && one_of!(
            c.key,
            "canner" | "pot" | "bath" | "water" | "rack" | "cooling" | "pressure" | "processing" | "process"
        )
}

fn event_at(f: &Facts<'_>) -> Option<usize> {
    f.chunks.iter().position(|c| {
        one_of!(
            c.key,
            "broke"
                | "broken"
                | "break"
                | "breaks"
                | "cracked"
                | "exploded"
                | "shattered"
                | "burst"
                | "breakage"
                | "smashed"
        )
    })
}

/// `a jar broke in the canner`, `one cracked`, `lost a jar`, `bottom fell out of one`.
pub(super) fn broke(f: &Facts<'_>, carry: &Carry<'_, '_>) -> Option<Statement> {
    let canner = f.has(has::CANNER) || says!(f, "canner" | "pot");
    // A jar of something that no open batch makes broke on the shelf.
    let shelved = f.product.is_some() && carry.batch(f).is_none() && !canner;
    if !counts_jars(f) || shelved || says!(f, "open" | "even") || f.dest.is_some() || f.stock.is_some() {
        return None;
    }
    let jars_at = f.chunks.iter().position(|c| {
        matches!(c.item, Item::Amount(a) if is_jars(&a))
            || matches!(c.item, Item::Word(Word::Unit(Unit::Jar)))
            || one_of!(c.key, "one")
    });
    let sized = f.amounts.iter().any(|a| a.is_jars()) || f.has(has::JARS);
    let event = event_at(f);
    let had = says!(f, "had" | "have" | "has") && event.is_some() && jars_at.is_some();
    let told = event.zip(jars_at).is_some_and(|(event, jars)| {
        let crack = one_of!(f.chunks[event].key, "cracked");
        let verb = f.chunks.get(event).is_some_and(|c| one_of!(c.key, "break" | "breaks"));
        jars < event && !verb || !crack && sized && !verb || canner && (sized || f.bare().is_some())
    });
    let lost = f.verb_is(Verb::Lose)
        && (sized && !f.has(has::LIQUID) || f.bare().is_some() && canner || f.bare().is_some() && event.is_some());
    let bottom = says!(f, "bottom" | "bottoms")
        && says!(f, "fell" | "blew" | "dropped" | "came" | "popped" | "out" | "gone")
        && f.has(has::OUT | has::OFF);
    if !(had || told || lost || bottom && (sized || f.bare().is_some() || says!(f, "one"))) {
        return None;
    }
    let plain = only(f, |c| {
        is_around(c)
            || matches!(
                c.item,
                Item::Verb(Verb::Lose | Verb::Crack | Verb::Fall | Verb::Come | Verb::Send | Verb::Lift | Verb::Go, _)
            )
            || one_of!(
                c.key,
                "broke"
                    | "broken"
                    | "break"
                    | "breaks"
                    | "exploded"
                    | "shattered"
                    | "burst"
                    | "breakage"
                    | "smashed"
                    | "bottom"
                    | "bottoms"
                    | "blew"
                    | "popped"
                    | "thermal"
                    | "shock"
                    | "glass"
                    | "when"
                    | "while"
                    | "clean"
                    | "lids"
                    | "batch"
            )
    });
    plain.then(|| Statement::Broke(some(f, carry)))
}

/// `bottom fell out`, `thermal shock`, `glass everywhere`, `what a mess`.
pub(super) fn is_tail(f: &Facts<'_>) -> bool {
    !f.has_quantity()
        && says!(
            f,
            "bottom"
                | "shock"
                | "glass"
                | "mess"
                | "broke"
                | "cracked"
                | "clean"
                | "exploded"
                | "shattered"
                | "burst"
                | "it"
        )
        && only(f, |c| {
            is_around(c)
                || matches!(c.item, Item::Verb(Verb::Fall | Verb::Come | Verb::Crack | Verb::Go, _))
                || one_of!(
                    c.key,
                    "bottom"
                        | "thermal"
                        | "shock"
                        | "glass"
                        | "mess"
                        | "broke"
                        | "clean"
                        | "exploded"
                        | "shattered"
                        | "burst"
                        | "blew"
                        | "popped"
                        | "what"
                )
        })
}

/// `two siphoned`, `one lost liquid`, `siphoning on 3 jars`, `a jar lost half its liquid`.
pub(super) fn siphoned(f: &Facts<'_>, carry: &Carry<'_, '_>) -> Option<Statement> {
    if !counts_jars(f) || f.has(has::MODAL | has::OFF) || f.dest.is_some() || f.source.is_some() {
        return None;
    }
    let siphon_at =
        f.chunks.iter().position(|c| one_of!(c.key, "siphoned" | "syphoned" | "siphoning" | "syphoning" | "leaked"));
    let liquid = f.has(has::LIQUID | has::WATER) || says!(f, "juice" | "headspace" | "brine" | "syrup");
    let jars =
        f.amounts.iter().any(is_jars) || f.has(has::JARS) || says!(f, "one" | "they" | "some" | "all" | "both" | "few");
    let amount_at = f.chunks.iter().position(|c| matches!(c.item, Item::Amount(_)));
    let siphons = siphon_at.is_some_and(|at| {
        let ing = one_of!(f.chunks[at].key, "siphoning" | "syphoning");
        let before = f.chunks[..at].iter().any(|c| {
            matches!(c.item, Item::Amount(_) | Item::Word(Word::Unit(Unit::Jar) | Word::Some))
                || one_of!(c.key, "jars" | "one" | "they" | "all" | "both" | "few")
        });
        before
            || ing && (jars || f.chunks.len() <= 4)
            || amount_at.is_some_and(|n| n > at) && f.has(has::JARS | has::CANNER)
    });
    let lost = f.verb_is(Verb::Lose) && liquid && jars;
    let lacks = says!(f, "low") && says!(f, "liquid") && jars;
    let plain = only(f, |c| {
        is_around(c)
            || matches!(c.item, Item::Verb(Verb::Drain | Verb::Lose | Verb::Get, _))
            || one_of!(
                c.key,
                "siphoning"
                    | "syphoning"
                    | "leaked"
                    | "liquid"
                    | "water"
                    | "juice"
                    | "headspace"
                    | "brine"
                    | "syrup"
                    | "inch"
                    | "half"
                    | "third"
                    | "batch"
            )
    });
    (plain && (siphons || lost || lacks)).then(|| {
        Statement::Siphoned(SomeJars {
            batch: carry
                .batch(f)
                .filter(|_| !matches!(f.product, Some(crate::phrase::product::Named::Known("tomato-juice")))),
            ..some(f, carry)
        })
    })
}
