//! How the jars fared: sealed, not sealed, put through again, put into the refrigerator.

use super::{
    build::Carry,
    facts::{Facts, has},
    scan::Item,
    token::{Mark, Sense, one_of, says},
    words::{Form, Unit, Verb},
};
use crate::{
    statement::{Sealed, SomeJars, Statement},
    vocabulary::{Kind, Stock},
};

/// What a clause tells of seals; `after_seals` when the clause before told of them too (`6 sealed, one didn't`).
pub(super) fn seals(f: &Facts<'_>, carry: &Carry<'_, '_>) -> Option<Statement> {
    if f.alien > 0 || f.has(has::YOU) || f.unreal || f.has(has::MODAL) || says!(f, "wont" | "cant" | "dont") {
        return None;
    }
    let some = |jars: Option<u32>| SomeJars { jars, batch: carry.batch(f), on: carry.when(Kind::Unsealed, f) };
    if reprocessed(f) {
        return Some(Statement::Reprocessed(some(pointed_count(f))));
    }
    if refrigerated(f) {
        return Some(Statement::Refrigerated(SomeJars { batch: carry.called(f), ..some(pointed_count(f)) }));
    }
    if unsealed(f, carry) {
        return Some(Statement::Unsealed(some(count(f))));
    }
    sealed(f, carry)
}

/// How many jars are pointed at: `2`, `both jars`, `that one`, `the other one`, `a jar`.
fn pointed_count(f: &Facts<'_>) -> Option<u32> {
    if f.has(has::BOTH) {
        return Some(2);
    }
    if let Some(n) = count(f) {
        return Some(n);
    }
    let one = f.chunks.iter().any(|c| one_of!(c.key, "one" | "other" | "jar" | "dud") && !one_of!(c.key, "others"));
    one.then_some(1)
}

fn count(f: &Facts<'_>) -> Option<u32> {
    f.amounts
        .iter()
        .filter(|a| a.unit.is_none() || a.is_jars() || a.is(Unit::Vessel))
        .filter(|a| !a.uncounted)
        .find_map(|a| a.count())
}

fn reprocessed(f: &Facts<'_>) -> bool {
    if f.has(has::NOT) && !f.verb_is(Verb::Reprocess) || f.unknown + f.common > 1 {
        return false;
    }
    let thing = f.has(
        has::IT | has::BOTH | has::JARS | has::ONE | has::ALL | has::LIDS | has::CANNER | has::UNSEALED | has::DUD,
    ) || count(f).is_some()
        || f.product.is_some();
    if f.verb_is(Verb::Reprocess) {
        return (thing || f.chunks.len() <= 2)
            && f.verb.is_some_and(|(_, form)| form != Form::Base || f.has(has::FIRST))
            || f.verb_is(Verb::Reprocess) && thing;
    }
    let again = f.has(has::AGAIN) || says!(f, "back");
    again && f.has(has::THROUGH | has::CANNER) && f.any_verb(&[Verb::Put, Verb::Run, Verb::Go]) && thing
}

fn refrigerated(f: &Facts<'_>) -> bool {
    let fridge = f.dest == Some(Stock::Fridge)
        || f.verb.is_some_and(|(v, _)| v == Verb::Put) && says!(f, "refrigerated" | "fridged");
    if !fridge
        || f.bad_object
        || f.unknown + f.common > 2
        || f.mass().is_some()
        || f.unit(Unit::Bag).is_some()
        || f.any_verb(&[Verb::Freeze, Verb::Thaw, Verb::Count])
    {
        return false;
    }
    let moved =
        f.any_verb(&[Verb::Put, Verb::Go, Verb::Pull, Verb::Get, Verb::Throw, Verb::Set, Verb::Fail, Verb::Seal])
            || f.verb.is_none();
    let thing = f.has(has::IT | has::BOTH | has::JARS | has::ONE | has::UNSEALED | has::DUD) || count(f).is_some();
    let eaten = f.verb_is(Verb::Eat);
    moved && thing && !eaten && !(f.has(has::THERE) && f.has(has::AUX))
}

fn unsealed(f: &Facts<'_>, carry: &Carry<'_, '_>) -> bool {
    let strangers = f.unknown + f.common;
    if f.has(has::DUD) {
        return strangers == 0 && !f.has(has::NOT) | f.verb_is(Verb::Seal);
    }
    let jars = f.has(has::JARS | has::LIDS | has::IT | has::ONE) || count(f).is_some();
    let but = f.has(has::ALL) && says!(f, "but" | "except") && f.verb_is(Verb::Seal);
    if f.verb_is(Verb::Seal) && (f.has(has::NOT) || f.verb_is(Verb::Fail)) || but {
        let personal = f.has(has::KIN | has::FOLK | has::THEY);
        return jars
            && strangers <= 1
            && !personal
            && !f.has(has::FIRST) | f.has(has::JARS | has::LIDS) | count(f).is_some();
    }
    if f.has(has::UNSEALED) && f.chunks.len() <= 3 && count(f).is_some() && f.verb.is_none() {
        return true;
    }
    if f.has(has::UNSEALED) {
        return strangers == 0 && jars;
    }
    let popped = says!(f, "popped" | "popping" | "flexing") && f.has(has::UP) && f.dest.is_none();
    let unpopped = f.has(has::NOT)
        && f.has(has::LIDS | has::JARS)
        && says!(f, "pop" | "popped" | "ping" | "pinged" | "click" | "clicked");
    let popped = popped || unpopped && f.dest.is_none();
    let faulty = f.verb_is(Verb::Seal) && says!(f, "bad" | "broken" | "false" | "weak" | "loose");
    let not_taken = f.has(has::NOT) && f.has(has::LIDS) && f.verb_is(Verb::Take);
    let flexing = f.has(has::LIDS) && says!(f, "flexing" | "flex" | "flexes" | "springy") && count(f).is_some();
    if popped || faulty || not_taken || flexing {
        return strangers == 0 && jars && !f.has(has::FIRST | has::FOLK | has::KIN);
    }
    if f.verb_is(Verb::Fail) {
        return strangers == 0 && jars && !f.has(has::FIRST | has::FOLK | has::KIN | has::NOT) && f.dest.is_none();
    }
    // `6 sealed, one didn't`
    let after = matches!(carry.kind, Some(Kind::Sealed));
    after && f.has(has::NOT) && count(f).is_some() && strangers == 0 && f.verb.is_none_or(|(verb, _)| verb == Verb::Do)
}

fn sealed(f: &Facts<'_>, carry: &Carry<'_, '_>) -> Option<Statement> {
    let strangers = f.unknown + f.common;
    let popped_down =
        f.has(has::LIDS) && f.has(has::DOWN) && f.has(has::ALL) && strangers == 0 && !f.has(has::NOT | has::UP);
    if popped_down {
        let (jars, _) = counts(f);
        return Some(Statement::Sealed(Sealed { jars, of: jars, batch: None, on: None }));
    }
    if !f.verb_is(Verb::Seal)
        || f.has(has::NOT | has::FOLK)
        || strangers > 1
        || f.bad_object
        || f.mass().is_some()
        || f.unit(Unit::Bag).is_some()
    {
        return None;
    }
    let took = says!(f, "took" | "taken" | "got" | "made");
    let past = f.forms_base & (1 << Verb::Seal as u8) == 0 || f.has(has::GOOD) || took;
    if !past || says!(f, "vac" | "vacuum" | "vacuumed") || f.has(has::UP) || f.any_verb(&[Verb::Freeze, Verb::Bag]) {
        return None;
    }
    let percent = f.chunks.iter().any(|c| c.is_mark(Mark::Percent));
    let (jars, of) = if percent { (None, None) } else { counts(f) };
    let all = f.has(has::ALL | has::BOTH) || says!(f, "everything" | "lot");
    let subject = jars.is_some() || all || f.has(has::JARS | has::LIDS | has::IT) || says!(f, "they");
    let alone = f.chunks.len() <= 2 && strangers == 0;
    if !(subject || alone) || f.has(has::FIRST) && !all && jars.is_none() {
        return None;
    }
    // `sealed the envelope`: the verb before a thing of another world.
    if strangers > 0 && !(all || jars.is_some()) {
        return None;
    }
    let (jars, of) = match (jars, of) {
        (Some(n), None) if all => (Some(n), Some(n)),
        (None, None) if f.has(has::BOTH) => (Some(2), Some(2)),
        other => other,
    };
    Some(Statement::Sealed(Sealed { jars, of, batch: carry.batch(f), on: carry.when(Kind::Sealed, f) }))
}

/// `6 of 7`, `6/7`, `6 out of the 7`, `8`.
fn counts(f: &Facts<'_>) -> (Option<u32>, Option<u32>) {
    for chunk in f.chunks {
        if let Item::Amount(_) = chunk.item
            && let Some(Sense::Ratio(sealed, of)) = f.tokens.get(chunk.from as usize).map(|t| t.sense)
        {
            return (Some(sealed), Some(of));
        }
    }
    let mut counts =
        f.amounts.iter().filter(|a| a.unit.is_none() || a.is_jars()).filter(|a| !a.uncounted).filter_map(|a| a.count());
    let first = counts.next();
    let second = counts.next().filter(|of| first.is_some_and(|n| n <= *of));
    let of_said = says!(f, "of" | "for" | "outta" | "outa");
    (first, second.filter(|_| of_said))
}
