//! Which kind of statement a clause with amounts is: by its verb, or by where things went and came from.

mod counted;
mod jars;
mod left;

use super::{
    facts::{Facts, Way, has},
    plans::plants,
    supplies,
    token::{one_of, says},
    words::{Form, Unit, Verb},
};
use crate::vocabulary::{Kind, Stock};
use counted::counted;
use jars::{began, jars, sized_jars};
use left::left;

/// The kind, if the clause has what heads a statement.
pub(super) fn kind_of(f: &Facts<'_>) -> Option<Kind> {
    plants(f)
        .then_some(Kind::Planted)
        .or_else(|| counted(f))
        .or_else(|| drained(f))
        .or_else(|| dried(f))
        .or_else(|| frozen(f))
        .or_else(|| bought(f))
        .or_else(|| jars(f))
        .or_else(|| left(f))
        .or_else(|| began(f))
        .or_else(|| harvested(f))
        .or_else(|| moved(f))
}

fn past_or_ing(f: &Facts<'_>, verb: Verb) -> bool {
    f.verb_is(verb)
        && (f.forms_base & (1 << verb as u8) == 0 || f.chunks.first().is_some_and(|c| c.key == first_key(f, verb)))
}

/// The key of the clause's first word when it is this verb: `thaw 4 bags`, said like a note.
fn first_key(f: &Facts<'_>, verb: Verb) -> u64 {
    match f.verb {
        Some((first, _)) if first == verb => f.chunks.first().map_or(0, |c| c.key),
        _ => 1,
    }
}

fn frozen(f: &Facts<'_>) -> Option<Kind> {
    let freezer = f.dest == Some(Stock::Freezer);
    // `gave away 3 bags of frozen tomatoes`
    if matches!(f.verb, Some((Verb::Give | Verb::Eat | Verb::Toss | Verb::Use | Verb::Open, _))) && !freezer {
        return None;
    }
    if f.alien_subject {
        return None;
    }
    // `moved 7 bags to the fridge`, `pulled the bags out`
    let bags = f.unit(Unit::Bag).is_some() || says!(f, "bags");
    let to_fridge = f.dest == Some(Stock::Fridge)
        && says!(f, "moved" | "shifted" | "transferred" | "move")
        && f.unit(Unit::Bag).is_some_and(|a| a.count().is_some())
        && f.unknown + f.alien == 0
        && f.common <= 1;
    let pulled = f.verb.is_some_and(|(verb, form)| matches!(verb, Verb::Pull | Verb::Take) && form == Form::Past)
        && bags
        && f.has(has::OUT)
        && f.clean()
        && !f.has(has::COMPOST | has::NOT | has::MODAL | has::YOU | has::THEY)
        && f.dest.is_none()
        && f.place.is_none()
        && f.source.is_none_or(|source| source == Stock::Freezer);
    if to_fridge || pulled && !f.verb_is(Verb::Freeze) && !f.has_quantity() {
        return Some(Kind::Thawed);
    }
    if f.verb_is(Verb::Thaw) && !f.verb_is(Verb::Freeze) {
        return past_or_thaw(f).then_some(Kind::Thawed);
    }
    if f.has(has::COMPOST) || f.verb_is(Verb::Toss) && !freezer || f.verb_is(Verb::Buy) {
        return None;
    }
    if f.verb_is(Verb::Freeze)
        && f.source.is_none()
        && !says!(f, "burn" | "burned" | "burnt")
        && past_or_ing(f, Verb::Freeze)
    {
        return Some(Kind::Froze);
    }
    if f.verb_is(Verb::Bag) && f.source.is_none() && (f.has_quantity() || freezer) {
        return Some(Kind::Froze);
    }
    // `that's 3 more bags`, `another 7 lb in`: more of what is being done.
    let alone = f.verb.is_none()
        && f.clean()
        && f.crop.is_none() | f.unit(Unit::Bag).is_some()
        && f.dest.is_none()
        && f.source.is_none()
        && f.stock.is_none()
        && f.place.is_none()
        && f.supply.is_none()
        && f.product.is_none()
        && !f.has(has::PLEASE | has::TO | has::MODAL | has::NOT | has::ON | has::OFF | has::OUT | has::YOU | has::THEY);
    let ends_in = f.chunks.last().is_some_and(|c| one_of!(c.key, "in"));
    if alone
        && f.amounts.iter().any(|a| {
            a.further && a.count() != Some(0) && (a.is(Unit::Bag) && !ends_any(f) || ends_in && a.mass.is_some())
        })
    {
        return Some(Kind::Froze);
    }
    let cold = f.stock == Some(Stock::Freezer) || f.mass().is_some();
    if f.verb_is(Verb::Pack)
        && f.unit(Unit::Bag).is_some()
        && cold
        && f.clean()
        && f.source.is_none()
        && !f.amounts.iter().any(|a| a.is_jars())
    {
        return Some(Kind::Froze);
    }
    if f.verb_is(Verb::Seal)
        && f.unit(Unit::Bag).is_some()
        && f.mass().is_some()
        && f.clean()
        && past_or_ing(f, Verb::Seal)
    {
        return Some(Kind::Froze);
    }
    let added = f.stock == Some(Stock::Freezer)
        && (f.has(has::MORE) || f.amounts.iter().any(|a| a.further))
        && f.has_quantity()
        && f.verb.is_none_or(|(verb, form)| verb == Verb::Get && form == Form::Past);
    if added {
        return Some(Kind::Froze);
    }
    let put = f.any_verb(&[
        Verb::Put,
        Verb::Throw,
        Verb::Go,
        Verb::Get,
        Verb::Set,
        Verb::Add,
        Verb::Take,
        Verb::Send,
        Verb::Pack,
        Verb::Come,
    ]) || f.verb.is_none();
    (freezer && put && !f.verb_is(Verb::Eat)).then_some(Kind::Froze)
}

/// Words that make more bags something wanted or asked for.
fn ends_any(f: &Facts<'_>) -> bool {
    says!(f, "enough" | "until" | "till" | "any" | "how" | "what" | "or" | "short" | "away" | "only" | "left")
}

fn past_or_thaw(f: &Facts<'_>) -> bool {
    f.forms_base & (1 << Verb::Thaw as u8) == 0
        || f.has(has::TO | has::OUT)
        || f.chunks.first().is_some_and(|c| one_of!(c.key, "thaw" | "defrost"))
        || f.any_verb(&[Verb::Put, Verb::Take, Verb::Pull, Verb::Set])
}

fn dried(f: &Facts<'_>) -> Option<Kind> {
    if f.has(has::PLANTS) && !f.has(has::DRYER) {
        return None;
    }
    let powder = f.has(has::POWDER);
    if powder && f.mass().is_some() && !f.any_verb(&[Verb::Buy, Verb::Eat, Verb::Give, Verb::Toss])
        || f.verb_is(Verb::Grind) && (f.what.is_some() || f.crop.is_some() || powder)
    {
        return Some(Kind::Powdered);
    }
    if powder && f.what.is_some() && says!(f, "powdered") {
        return Some(Kind::Powdered);
    }
    if powder
        && (f.bare().is_some() || f.jars().is_some())
        && f.any_verb(&[Verb::Get, Verb::Make, Verb::Yield, Verb::Finish])
    {
        return Some(Kind::Powdered);
    }
    let dryer = f.has(has::DRYER);
    let dry = f.verb_is(Verb::Dry) && !f.any_verb(&[Verb::Eat, Verb::Give, Verb::Toss, Verb::Put]);
    let tray = f.unit(Unit::Tray).is_some();
    let loading = dryer
        && f.any_verb(&[Verb::Put])
        && f.verb.is_some_and(|(_, form)| form == Form::Past)
        && f.dest.is_none()
        && f.clean();
    let drying = f.verb_is(Verb::Dry)
        && f.verb.is_some_and(|(_, form)| form == Form::Ing)
        && (f.crop.is_some() || f.what.is_some());
    (loading
        || drying
        || dryer && (tray || f.mass().is_some() || f.what.is_some() || f.crop.is_some())
        || dry && (tray || f.mass().is_some() || f.bare().is_some())
        || tray && f.what.is_some() && f.any_verb(&[Verb::Put, Verb::Dry, Verb::Get, Verb::Begin]))
    .then_some(Kind::Dried)
}

fn bought(f: &Facts<'_>) -> Option<Kind> {
    if f.verb_is(Verb::Buy) {
        // `bought frozen peas, 2 bags`: groceries.
        if f.supply.is_none() && (f.crop.is_some() || f.verb_is(Verb::Freeze)) {
            return None;
        }
        return f.verb.is_some_and(|(_, form)| form != Form::Base).then_some(Kind::Bought);
    }
    let supply = supplies::supply_of(f);
    if f.supply.is_some()
        && f.verb.is_none()
        && f.clean()
        && f.has_quantity()
        && f.chunks.iter().any(|c| c.is_mark(super::token::Mark::Plus))
    {
        return Some(Kind::Bought);
    }
    let fetched = f.verb_is(Verb::Get)
        || f.verb_is(Verb::Grab)
        || f.verb_is(Verb::Pick) && f.has(has::UP)
        || f.any_verb(&[Verb::Bring])
        || says!(f, "stocked")
        || f.verb_is(Verb::Add) && says!(f, "supplies" | "stock" | "stocks");
    let past = f.verb.is_none_or(|(_, form)| form == Form::Past);
    let elsewhere = f.stock == Some(Stock::Freezer)
        || f.any_verb(&[
            Verb::Fill,
            Verb::Seal,
            Verb::Thaw,
            Verb::Freeze,
            Verb::Drain,
            Verb::Lift,
            Verb::Open,
            Verb::Can,
        ])
        || f.source.is_some()
        || f.dest.is_some()
        || f.has(has::OUT | has::CANNER);
    let named = f.supply.is_some()
        || supply == Some(crate::vocabulary::Supply::Jars)
            && f.product.is_none()
            && f.crop.is_none()
            && !f.has(has::POWDER)
            && f.unit(Unit::Jar).is_some()
            && !f.has(has::UP) | f.verb_is(Verb::Pick)
        || supply == Some(crate::vocabulary::Supply::Bags) && f.any_token(|k| one_of!(k, "freezer" | "ziploc" | "zip"));
    (supply.is_some() && named && fetched && past && !elsewhere).then_some(Kind::Bought)
}

fn drained(f: &Facts<'_>) -> Option<Kind> {
    // No kitchen has forty litres to pour off.
    if f.amounts.iter().any(|a| a.volume().is_some_and(|v| v.as_litres() > 40.0)) {
        return None;
    }
    if f.verb_is(Verb::Pour)
        && says!(f, "drain" | "sink")
        && sized_jars(f)
        && f.product.is_some_and(|p| p != super::product::Named::Known("tomato-juice"))
    {
        return None;
    }
    let poured = f.verb_is(Verb::Pour)
        && f.verb.is_some_and(|(_, form)| form == Form::Past)
        && f.has(has::OFF | has::AWAY | has::OUT | has::LIQUID);
    let the_juice = f
        .chunks
        .windows(2)
        .any(|w| one_of!(w[0].key, "the" | "all") && one_of!(w[1].key, "juice" | "liquid" | "water" | "whey"));
    let let_go = f.any_verb(&[Verb::Toss, Verb::Throw, Verb::Pour])
        && the_juice
        && f.clean()
        && f.mass().is_none()
        && f.jars().is_none()
        && f.source.is_none()
        && f.verb.is_some_and(|(_, form)| form == Form::Past);
    let kept = says!(f, "saved" | "kept")
        && the_juice
        && f.unknown + f.alien == 0
        && f.common == 1
        && f.amounts.iter().any(|a| !a.uncounted && (a.volume().is_some() || a.mass.is_some()))
        && f.verb.is_none()
        && f.stock.is_none();
    let got = f.has(has::LIQUID)
        && f.has(has::OFF | has::OUT)
        && f.any_verb(&[Verb::Get, Verb::Take, Verb::Pull])
        && f.amounts.iter().any(|a| a.volume().is_some() || a.mass.is_some())
        && f.source.is_none();
    (f.verb_is(Verb::Drain) || poured || got || let_go || kept).then_some(Kind::Drained)
}

fn harvested(f: &Facts<'_>) -> Option<Kind> {
    if f.verb_is(Verb::Pick)
        && !f.has(has::UP)
        && f.verb.is_some_and(|(v, _)| v != Verb::Get || f.has_quantity())
        && past_or_noun(f)
    {
        return Some(Kind::Picked);
    }
    if f.verb_is(Verb::Add) && says!(f, "harvest" | "haul") && f.mass().is_some() {
        return Some(Kind::Picked);
    }
    if f.verb_is(Verb::Cut) && (f.crop.is_some() || f.variety.is_some()) && f.has_quantity() {
        return Some(Kind::Picked);
    }
    if (f.verb_is(Verb::Yield) || f.verb_is(Verb::Give) && f.leading_place) && f.place.is_some() && f.mass().is_some() {
        return Some(Kind::Picked);
    }
    None
}

fn past_or_noun(f: &Facts<'_>) -> bool {
    // `first harvest, 3 lb`: the amount follows.
    let noun = says!(f, "harvest" | "haul") && f.verbs.count_ones() == 1 && f.clean() && f.chunks.len() <= 5;
    if noun
        && !f.has_quantity()
        && !f.has(has::FIRST | has::YOU | has::THEY | has::TO | has::MODAL | has::NOT | has::KIN | has::FOLK)
    {
        return true;
    }
    f.forms_base & (1 << Verb::Pick as u8) == 0
        || f.has_quantity()
            && f.chunks.iter().take(4).any(|c| one_of!(c.key, "harvest" | "haul" | "pick" | "picks" | "picked"))
}

/// No verb of its own: told by where it came from or went.
fn moved(f: &Facts<'_>) -> Option<Kind> {
    if f.source == Some(Stock::Freezer)
        && f.any_verb(&[Verb::Take, Verb::Pull, Verb::Get, Verb::Grab, Verb::Bring, Verb::Come, Verb::Lift])
        && f.has_quantity()
        && f.verb.is_some_and(|(_, form)| form != Form::Base)
    {
        return Some(Kind::Thawed);
    }
    // `add 11 lb of romas to the counter`: what comes in is fresh.
    let onto_counter = f.stock == Some(Stock::Counter)
        && f.has(has::TO | has::ON)
        && f.verb.is_some_and(|(verb, _)| verb == Verb::Add)
        && f.mass().is_some();
    if onto_counter && f.supply.is_none() {
        return Some(Kind::Picked);
    }
    let out_of = f.source == Some(Stock::Freezer)
        && f.has(has::OUT)
        && f.verb.is_none()
        && f.has_quantity()
        && f.clean()
        && f.stock.is_none()
        && (f.mass().is_some() || f.unit(Unit::Bag).is_some());
    if out_of && !f.has(has::MODAL | has::NOT) {
        return Some(Kind::Thawed);
    }
    let pulled = (f.verb_is(Verb::Pull)
        || f.verb_is(Verb::Take) && f.has(has::OUT) && f.clean() && f.source.is_none() && !f.has(has::COMPOST))
        && f.unit(Unit::Bag).is_some()
        && f.dest.is_none()
        && f.place.is_none()
        && f.supply.is_none()
        && f.verb.is_some_and(|(_, form)| form == Form::Past);
    if pulled {
        return Some(Kind::Thawed);
    }
    let carried = f.any_verb(&[Verb::Bring, Verb::Get, Verb::Grab, Verb::Pull, Verb::Come, Verb::Take, Verb::Put])
        || f.verb.is_none();
    let grown = f.place.is_some() && f.place_way == Way::From
        || f.has(has::PLANTS) && f.has(has::OFF)
        || f.place.is_some()
            && f.any_verb(&[Verb::Bring, Verb::Get, Verb::Grab, Verb::Pull])
            && f.has(has::IN | has::OFF);
    let past = f.verb.is_none_or(|(_, form)| form == Form::Past) || says!(f, "coming");
    let weighed = f.amounts.iter().any(|a| {
        a.mass.is_some() && !a.is(Unit::Bag)
            || matches!(a.unit, Some(Unit::Bushel | Unit::Peck | Unit::Lug | Unit::Crate))
            || a.is(Unit::Vessel) && f.verb_is(Verb::Bring)
    });
    if carried
        && grown
        && past
        && f.dest.is_none()
        && f.source.is_none()
        && (weighed || f.crop.is_some() && f.has(has::SOME))
    {
        return Some(Kind::Picked);
    }
    let in_hand = f.any_verb(&[Verb::Bring, Verb::Get, Verb::Come])
        && past
        && f.has(has::IN)
        && f.dest.is_none()
        && f.source.is_none();
    let further = weighed && f.amounts.iter().any(|a| a.further) && f.clean();
    if in_hand
        && (further
            || f.verb_is(Verb::Bring) && f.crop.is_some() && !f.has_quantity()
            || weighed
                && (f.verb_is(Verb::Bring)
                    || f.crop.is_some()
                    || f.variety.is_some()
                    || f.ripe.is_some()
                    || f.has(has::ONE))
            || f.verb_is(Verb::Bring) && f.crop.is_some() && f.has(has::SOME))
        && f.alien == 0
    {
        return Some(Kind::Picked);
    }
    // Fruit with a place beside it, as a note: `23 lb romas tunnel`.
    let onto_scale = f.verb_is(Verb::Weigh)
        && f.has(has::IN)
        && f.mass().is_some()
        && (f.crop.is_some() || f.variety.is_some())
        && f.dest.is_none()
        && f.clean()
        && past;
    if onto_scale {
        return Some(Kind::Picked);
    }
    let plain_get = in_hand
        && weighed
        && f.verb_is(Verb::Get)
        && f.has(has::FIRST)
        && f.alien == 0
        && f.unknown == 0
        && !f.bad_object
        && f.mass().is_some();
    let weighed_in = f.verb_is(Verb::Weigh) && f.place.is_some() && f.place_way == Way::From && f.mass().is_some();
    if plain_get || weighed_in {
        return Some(Kind::Picked);
    }
    let note = f.verb.is_none()
        && f.mass().is_some()
        && f.place.is_some()
        && f.clean()
        && !f.has(has::FOLK | has::THEY | has::YOU)
        && !f.has(has::AUX);
    note.then_some(Kind::Picked)
}
