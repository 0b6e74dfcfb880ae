//! A stock told by its count: `freezer has 5 bags`, `lids: 24`, `12 lb left on the counter`.

use crate::phrase::{
    facts::{Facts, has},
    scan::Item,
    token::{Mark, one_of, says},
    words::{Form, Unit, Verb},
};
use crate::vocabulary::{Kind, Supply};

pub(super) fn counted(f: &Facts<'_>) -> Option<Kind> {
    let stocked = f.stock.is_some() || f.dest.is_some() || f.source.is_some();
    let heads = f.verb_is(Verb::Count)
        && f.verb.is_some_and(|(v, form)| v == Verb::Count || form != Form::Past)
        && !f.any_verb(&[Verb::Freeze, Verb::Thaw, Verb::Eat, Verb::Give, Verb::Toss, Verb::Fill]);
    let weighed = f.verb_is(Verb::Weigh) && stocked && f.place.is_none();
    let had = says!(f, "had") && f.source.is_some();
    let told = !had
        && f.has(has::THERE | has::FIRST)
        && f.has(has::AUX)
        && stocked
        && f.verb.is_none()
        && f.has_quantity()
        && !f.has(has::MORE)
        && !says!(f, "another" | "now");
    // `freezer has 5 bags`, `pantry: 11 quarts of sauce`, `12 lb left on the counter`.
    let leads = f.chunks.iter().take(3).any(|c| matches!(c.item, Item::Store(_))) && f.stock.is_some();
    let listed =
        leads && f.verb.is_none() && f.has_quantity() && !f.has(has::MORE | has::NOT | has::MODAL) && f.alien == 0;
    let states = f.chunks.iter().any(|c| c.is_mark(Mark::Colon) || c.is_mark(Mark::Equals))
        || says!(f, "has" | "holds" | "contains" | "check" | "contents" | "is" | "total");
    let amount_at = f.chunks.iter().position(|c| matches!(c.item, Item::Amount(_)));
    let left_at = f.chunks.iter().position(|c| one_of!(c.key, "left" | "remaining"));
    let left = stocked
        && f.verb.is_none()
        && f.clean()
        && amount_at.zip(left_at).is_some_and(|(amount, left)| amount < left)
        && !f.has(has::NOT | has::MODAL);
    let holds = says!(f, "has" | "holds" | "contains" | "is")
        || f.chunks.iter().any(|c| c.is_mark(Mark::Colon) || c.is_mark(Mark::Equals));
    let headed = f.stock.is_some()
        && f.chunks.iter().take(3).any(|c| matches!(c.item, Item::Store(_)))
        && holds
        && f.verb.is_none()
        && f.clean()
        && f.has_quantity()
        && !f.has(has::MORE | has::NOT | has::MODAL | has::YOU | has::THEY | has::KIN | has::FOLK)
        && !f
            .amounts
            .iter()
            .any(|a| a.further || matches!(a.unit, Some(Unit::Degree | Unit::Celsius | Unit::C | Unit::Fahrenheit)))
        && f.dest.is_none()
        && f.source.is_none();
    if counts_supply(f) {
        return Some(Kind::Counted);
    }
    let headed = headed && (f.mass().is_some() || f.unit(Unit::Bag).is_some() || f.jars().is_some());
    (heads || weighed || told || headed || listed && states || left).then_some(Kind::Counted)
}

/// `lids: 24`, `2 dozen lids left`, `we have 12 oz of citric acid left`.
fn counts_supply(f: &Facts<'_>) -> bool {
    let empty = says!(f, "empty" | "spare" | "new" | "clean") && f.amounts.iter().any(|a| a.is_jars());
    let left = says!(f, "left" | "remaining" | "have" | "hand" | "stock" | "total" | "is" | "count")
        || f.chunks.iter().any(|c| c.is_mark(Mark::Colon) || c.is_mark(Mark::Equals));
    let named =
        f.supply.is_some() && f.supply != Some(Supply::Bags) || empty && says!(f, "left" | "have" | "remaining");
    let plain = f.unknown + f.alien == 0 && f.common <= u16::from(says!(f, "hand" | "glass"));
    let verb = f.verb.is_none_or(|(verb, _)| matches!(verb, Verb::Count | Verb::Get) && says!(f, "left"));
    named
        && left
        && verb
        && plain
        && f.has_quantity()
        && !f.has(has::NOT | has::MODAL | has::YOU | has::THEY | has::FOLK | has::KIN | has::EACH | has::IN | has::MORE)
        && f.source.is_none()
        && f.dest.is_none()
        && f.stock.is_none()
        && f.product.is_none()
        && !says!(f, "low" | "warn" | "need" | "needs" | "short")
        && !f.amounts.iter().any(|a| matches!(a.unit, Some(Unit::Tablespoon | Unit::Teaspoon)))
}
