//! Bags into and out of the freezer, and stock counted.
//!
//! ```text
//! froze   = verb amounts prep crop date
//! amounts = mass | bags | bags ("at" | "of" | "x") mass | bags mass "each" | mass "in" bags | bags mass "and" mass ...
//! ```

use super::{
    build::{self, Carry},
    facts::{Facts, has},
    harvest::harvest,
    measure::Amount,
    scan::Item,
    supplies,
    token::{one_of, says},
    words::{Unit, Verb, Word},
};
use crate::{
    quantity::{Mass, Number},
    statement::{Bought, Counted, Froze, Statement, Thawed},
    vocabulary::{Crop, Kind, Missing, Stock, Supply},
};

/// Total, bags, and what each weighs.
#[derive(Default)]
struct Bags {
    mass: Option<Mass>,
    bags: Option<u32>,
    each: Option<Mass>,
}

/// Sorts out the amounts of a clause about bags.
fn bags(f: &Facts<'_>, carry: &mut Carry<'_, '_>) -> Bags {
    let mut out = Bags::default();
    let at = f.amounts.iter().position(|a| a.is(Unit::Bag) && a.count().is_some());
    let weights = weights(f, carry);
    // `a 6.5 lb bag and a 7 lb bag`
    let weighed: Vec<&Amount> = f.amounts.iter().filter(|a| a.is(Unit::Bag) && a.each.is_some()).collect();
    if weighed.len() > 1 {
        out.bags = weighed.iter().map(|a| a.count()).sum();
        out.mass = Some(weighed.iter().filter_map(|a| a.mass).sum());
        out.each = weighed.first().and_then(|a| a.each).filter(|each| weighed.iter().all(|a| a.each == Some(*each)));
        return out;
    }
    let Some(at) = at else {
        let lone = f.chunks.iter().any(|c| match c.item {
            Item::Word(Word::Unit(Unit::Bag)) => one_of!(c.key, "bag"),
            Item::Amount(a) => a.article && a.is(Unit::Bag),
            _ => false,
        });
        if let Some(shared) = shared(f, &weights) {
            return shared;
        }
        out.bags = (lone && weights.len() == 1).then_some(1);
        out.mass = weights
            .iter()
            .copied()
            .reduce(|sum, one| sum + one)
            .filter(|_| weights.len() > 1 && same_bag_list(f))
            .or(weights.first().copied());
        return out;
    };
    let bag = f.amounts[at];
    out.bags = bag.count();
    if bag.each.is_some() {
        out.each = bag.each;
        out.mass = bag.mass;
        return out;
    }
    let count = bag.count().unwrap_or(1);
    match weights.as_slice() {
        [] => {}
        [one] => {
            let before = f.amounts.iter().position(|a| a.mass.is_some()).is_some_and(|mass| mass < at);
            if (f.each || f.joined && !before) && !f.has(has::TOTAL) {
                out.each = Some(*one);
                out.mass = one.times(Number::whole(count.into()));
            } else {
                out.mass = Some(*one);
            }
        }
        // `18 lb in 3 bags, 6 lb each`: the weight of all was said too.
        [one, two] if f.each => {
            let (all, each) = (*one.max(two), *one.min(two));
            out.mass = Some(all);
            out.each = Some(each).filter(|each| each.times(Number::whole(count.into())) == Some(all));
        }
        many => out.mass = Some(many.iter().copied().sum()),
    }
    out
}

/// Bags that no word counts: `18 lb, 6 lb a bag`, `14 lb in 7 lb bags`, `3, 6 lb each`.
fn shared(f: &Facts<'_>, weights: &[Mass]) -> Option<Bags> {
    let bagged = f.chunks.iter().any(|c| matches!(c.item, Item::Word(Word::Unit(Unit::Bag))));
    let [one, two] = weights else { return None };
    if f.each
        && let Some(n) = f.bare().and_then(|a| a.count()).filter(|n| (1..100).contains(n))
    {
        let each = f.mass()?.mass?;
        return Some(Bags { mass: each.times(Number::whole(n.into())), bags: Some(n), each: Some(each) });
    }
    if !(f.each || bagged && f.amounts.iter().all(|a| a.unit.is_some())) {
        return None;
    }
    let (all, each) = (*one.max(two), *one.min(two));
    let n = (1..100_u32).find(|n| each.times(Number::whole((*n).into())) == Some(all))?;
    Some(Bags { mass: Some(all), bags: Some(n), each: Some(each) })
}

/// `7, 6.5 and 6 lb` without the word bags.
fn same_bag_list(f: &Facts<'_>) -> bool {
    f.amounts.iter().filter(|a| a.unit.is_none()).count() > 0
}

/// The weights said, where a bare number in a list has the unit of the one that has one.
fn weights(f: &Facts<'_>, carry: &mut Carry<'_, '_>) -> Vec<Mass> {
    let unit = f.amounts.iter().find(|a| a.mass.is_some() && !a.is(Unit::Bag)).and_then(|a| a.unit);
    if unit.is_some() {
        carry.unit = unit;
    }
    // `froze 14 in 2 bags` behind pounds that were picked.
    let bagged = f.amounts.iter().any(|a| a.is(Unit::Bag) && a.each.is_none())
        && f.amounts.iter().filter(|a| a.unit.is_none()).count() == 1;
    let each = unit.or(carry.unit.filter(|_| bagged)).and_then(super::measure::mass_unit);
    let crop = f.crop.unwrap_or(Crop::Tomato);
    let weigh = |amount: &Amount| match amount.unit {
        Some(Unit::Bag) => None,
        None => each?.times(amount.number),
        Some(_) => amount.mass.or_else(|| harvest(amount, crop)),
    };
    f.amounts.iter().filter_map(weigh).collect()
}

/// Jars that did not seal, into the freezer: `froze the one that didn't seal`, `put the unsealed jar in the freezer`, `froze 1 jar`.
fn unsealed(f: &Facts<'_>, carry: &Carry<'_, '_>) -> Option<Statement> {
    let failed = f.has(has::UNSEALED | has::DUD) || f.verb_is(Verb::Seal) && f.has(has::NOT) || f.verb_is(Verb::Fail);
    let jar = f.amounts.iter().any(|a| a.is(Unit::Jar) && a.jar.is_none()) || f.has(has::JARS);
    let plain = f.mass().is_none()
        && f.unit(Unit::Bag).is_none()
        && (failed || f.crop.is_none() && f.variety.is_none() && f.prep.is_none());
    if !plain || f.unknown + f.alien + f.common > 0 || !(failed || jar && f.product.is_none() && f.jar().is_none()) {
        return None;
    }
    let counted = f.jars().filter(|a| !a.uncounted).or(f.bare()).and_then(|a| a.count());
    let jars = counted
        .or_else(|| f.has(has::BOTH).then_some(2))
        .or_else(|| says!(f, "jar" | "one" | "dud" | "quart" | "pint").then_some(1));
    let said =
        Statement::Froze(Froze { jars, batch: carry.batch(f), on: carry.when(Kind::Froze, f), ..Froze::default() });
    match jars {
        Some(_) => Some(said),
        None => build::clarify_if(failed, (Kind::Froze, said), Missing::Amount, None),
    }
}

/// `the two that didn't seal went in the freezer`.
pub(super) fn unsealed_went(f: &Facts<'_>, carry: &Carry<'_, '_>) -> Option<Statement> {
    let went = f.verb_is(Verb::Go) || f.verb_is(Verb::Put) || f.has(has::AUX) && f.verb_is(Verb::Seal);
    let failed = f.verb_is(Verb::Seal) && f.has(has::NOT) || f.verb_is(Verb::Fail);
    let here = f.dest == Some(Stock::Freezer) && !f.has(has::MODAL | has::FOLK | has::THEY | has::YOU);
    (went && failed && here).then(|| unsealed(f, carry)).flatten()
}

/// Went into the freezer.
pub(super) fn froze(f: &Facts<'_>, carry: &mut Carry<'_, '_>) -> Option<Statement> {
    if let Some(said) = unsealed(f, carry) {
        return Some(said);
    }
    if f.bad_object {
        return None;
    }
    let amounts = bags(f, carry);
    let mut said = Froze {
        approx: None,
        of: None,
        share: None,
        mass: amounts.mass,
        bags: amounts.bags,
        jars: None,
        batch: None,
        each: amounts.each,
        prep: f.prep,
        crop: f.crop,
        on: carry.when(Kind::Froze, f),
    };
    let loose = f.bare().filter(|_| {
        said.mass.is_none()
            && said.bags.is_some()
            && (f.has(has::IN) && f.amounts.first().is_some_and(|a| a.unit.is_none()) || f.joined)
    });
    if let Some(n) = loose.map(|a| a.number).filter(|_| build::is_plain(f)) {
        // `3 bags at 7`: what is still without its unit is the weight of each.
        said.each = f.joined.then_some(Mass::ZERO);
        return Some(build::clarify((Kind::Froze, Statement::Froze(said)), Missing::Unit, Some(n)));
    }
    if said.mass.is_some() || said.bags.is_some() {
        if said.mass.is_none() {
            carry.unit = Some(Unit::Bag);
        }
        return Some(Statement::Froze(said));
    }
    if let Some(amount) = f.bare() {
        if let Some(mass) = carry.mass(amount.number) {
            said.mass = Some(mass);
            return Some(Statement::Froze(said));
        }
        return build::clarify_if(
            build::is_plain(f) && !says!(f, "is"),
            (Kind::Froze, Statement::Froze(said)),
            Missing::Unit,
            Some(amount.number),
        );
    }
    if f.has_quantity() {
        let told = build::is_told(f) && (f.crop.is_some() || f.product.is_some());
        let counted = f.amounts.iter().find(|a| !a.uncounted && a.volume().is_some()).map(|a| a.number);
        return build::clarify_if(
            told && counted.is_some(),
            (Kind::Froze, Statement::Froze(said)),
            Missing::Unit,
            counted,
        );
    }
    build::clarify_if(build::is_told(f), (Kind::Froze, Statement::Froze(said)), Missing::Amount, None)
}

/// Came out to thaw.
pub(super) fn thawed(f: &Facts<'_>, carry: &mut Carry<'_, '_>) -> Option<Statement> {
    if f.bad_object {
        return None;
    }
    let amounts = bags(f, carry);
    let mut said = Thawed {
        approx: None,
        of: None,
        share: None,
        bags: amounts.bags,
        mass: amounts.mass,
        crop: f.crop,
        batch: carry.batch(f),
        on: carry.when(Kind::Thawed, f),
    };
    if said.mass.is_some() || said.bags.is_some() {
        return Some(Statement::Thawed(said));
    }
    if let Some(amount) = f.bare() {
        if let Some(mass) = carry.mass(amount.number) {
            said.mass = Some(mass);
            return Some(Statement::Thawed(said));
        }
        return build::clarify_if(
            build::is_plain(f),
            (Kind::Thawed, Statement::Thawed(said)),
            Missing::Unit,
            Some(amount.number),
        );
    }
    if f.has_quantity() {
        return None;
    }
    let pulled = says!(f, "bags") && f.has(has::OUT) && f.clean();
    build::clarify_if(build::is_told(f) || pulled, (Kind::Thawed, Statement::Thawed(said)), Missing::Amount, None)
}

/// Lids, acid and the like counted.
fn supply_counted(f: &Facts<'_>, carry: &Carry<'_, '_>) -> Option<Statement> {
    let empty = says!(f, "empty" | "spare" | "new" | "clean") && f.product.is_none();
    let supply = f.supply.or_else(|| (empty && f.jars().is_some()).then_some(Supply::Jars))?;
    let mut measured = Bought::default();
    f.amounts.iter().find(|a| !a.uncounted && supplies::measure(supply, a, &mut measured))?;
    Some(Statement::Counted(Counted {
        supply: Some(supply),
        count: measured.count,
        mass: measured.mass,
        volume: measured.volume,
        jar: measured.jar.or(f.jar().filter(|_| supply == Supply::Jars)),
        on: carry.when(Kind::Counted, f),
        ..Counted::default()
    }))
}

/// A stock counted.
pub(super) fn counted(f: &Facts<'_>, carry: &mut Carry<'_, '_>) -> Option<Statement> {
    if f.bad_object {
        return None;
    }
    let from = f.stock.or(f.dest).or(f.source);
    if let Some(said) = supply_counted(f, carry) {
        return Some(said);
    }
    let mut said = Counted { from, crop: f.crop, on: carry.when(Kind::Counted, f), ..Counted::default() };
    if let Some(amount) = f.jars() {
        said.jars = amount.count();
        said.jar = amount.jar.or(f.jar());
        said.product = build::product(f, carry);
        said.crop = None;
        said.jars?;
        return Some(Statement::Counted(said));
    }
    let amounts = bags(f, carry);
    (said.bags, said.mass) = (amounts.bags, amounts.mass);
    if said.bags.is_some() || said.mass.is_some() {
        return Some(Statement::Counted(said));
    }
    let n = f.bare()?.number;
    if said.from.is_none() && said.crop.is_none() {
        return None;
    }
    build::clarify_if(build::is_plain(f), (Kind::Counted, Statement::Counted(said)), Missing::Unit, Some(n))
}
