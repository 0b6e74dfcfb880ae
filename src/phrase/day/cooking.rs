//! The pot after cooking down, juice kept or not, and what came out of the dryer.

use super::{
    has_batch, only,
    words::{cooks_down, has_brittle, is_brittle, is_cooking_down},
};
use crate::phrase::{
    build::Carry,
    facts::{Facts, has},
    measure::Amount,
    scan::{Chunk, Item},
    token::{one_of, says},
    words::{Form, Unit, Verb, Word},
};
use crate::{
    statement::{CookedDown, Dry, Statement},
    vocabulary::Crop,
};

/// The amount behind the last `to`, otherwise the only one.
fn reached(f: &Facts<'_>) -> Option<Amount> {
    let to = f.chunks.iter().rposition(|c| one_of!(c.key, "to")).unwrap_or(0);
    f.chunks.get(to..)?.iter().find_map(|c| match c.item {
        Item::Amount(a) if !a.uncounted && (a.mass.is_some() && !a.is(Unit::Bag) || a.volume().is_some()) => Some(a),
        _ => None,
    })
}

/// `cooked down to 12 lb`, `it's down to 9 quarts`, `reduced to 11 lb`, `pot weighs 14 lb now`.
pub(super) fn cooked_down(f: &Facts<'_>, carry: &Carry<'_, '_>) -> Option<Statement> {
    let elsewhere = f.stock.is_some()
        || f.dest.is_some()
        || f.source.is_some()
        || f.supply.is_some()
        || f.unit(Unit::Bag).is_some();
    if elsewhere || f.has(has::PRESSURE | has::NEEDLE | has::TEMP | has::MODAL | has::SHE) || f.amounts.is_empty() {
        return None;
    }
    let amount = reached(f)?;
    let to = f.has(has::TO);
    let down = f.has(has::DOWN);
    let pot = says!(f, "pot" | "kettle" | "it") || has_batch(f);
    let open = !carry.context.lexicon.batches.is_empty();
    let is_down = down
        && to
        && (pot && f.has(has::AUX) || says!(f, "pot" | "kettle") || f.product.is_some() || open && f.crop.is_none())
        && !f.has(has::FIRST)
        && f.verb.is_none();
    let weighs = f.verb_is(Verb::Weigh)
        && (says!(f, "pot" | "kettle") || has_batch(f))
        && amount.mass.is_some()
        && f.place.is_none()
        && f.jars().is_none()
        && f.crop.is_none();
    let reduced = cooks_down(f) && to && (down || !f.verb_is(Verb::Make));
    let plain = only(f, |c| {
        matches!(c.item, Item::Amount(_) | Item::Crop(_) | Item::Word(Word::Part(_)))
            || matches!(
                c.item,
                Item::Verb(Verb::Boil | Verb::Make | Verb::Weigh | Verb::Get | Verb::Go | Verb::Come, _)
            )
            || is_cooking_down(c.key)
            || one_of!(
                c.key,
                "pot" | "kettle" | "mash" | "pulp" | "puree" | "whole" | "thing" | "nice" | "good" | "thick" | "after"
            )
    });
    (plain && (is_down || weighs || reduced)).then(|| {
        let mass = amount.mass;
        Statement::CookedDown(CookedDown {
            mass,
            volume: if mass.is_none() { amount.volume() } else { None },
            batch: carry.batch(f),
            on: None,
        })
    })
}

/// Whether liquid that was poured off was kept: `kept it`, `saved`, `down the sink`; nothing where nothing says so.
pub(in crate::phrase) fn is_kept(chunks: &[Chunk]) -> Option<bool> {
    chunks.iter().enumerate().find_map(|(at, c)| {
        let down_the = |n: usize| chunks.get(at + n).is_some_and(|c| one_of!(c.key, "drain" | "sink" | "toilet"));
        match c.key {
            k if one_of!(k, "kept" | "saved" | "saving" | "keeping" | "keep" | "drank" | "drinking" | "bottled") => {
                Some(true)
            }
            k if one_of!(
                k,
                "sink"
                    | "tossed"
                    | "toss"
                    | "dumped"
                    | "dump"
                    | "threw"
                    | "chucked"
                    | "discarded"
                    | "binned"
                    | "compost"
                    | "ditched"
                    | "tossing"
                    | "chickens"
                    | "garden"
            ) =>
            {
                Some(false)
            }
            k if one_of!(k, "away")
                && chunks[..at]
                    .iter()
                    .any(|c| one_of!(c.key, "poured" | "threw" | "chucked" | "thrown" | "drained" | "ran")) =>
            {
                Some(false)
            }
            k if one_of!(k, "down") && (down_the(1) || down_the(2)) => Some(false),
            _ => None,
        }
    })
}

/// What is dry, as said: the pieces, otherwise the crop in the words used.
fn what(f: &Facts<'_>) -> Option<String> {
    let at = f.what.or(f.crop_at);
    at.and_then(|at| f.words(at)).or_else(|| f.variety.map(|name| format!("{name}s")))
}

/// `skins are dry`, `halves are done, 12 oz dry`, `dry weight 5.8 oz`, `peppers came out of the dryer at 4 oz`.
pub(super) fn dry(f: &Facts<'_>) -> Option<Statement> {
    if !(f.has(has::DRYER) || f.verb_is(Verb::Dry) || f.what.is_some() || has_brittle(f) || says!(f, "crisp")) {
        return None;
    }
    let mass = f.amounts.iter().find_map(|a| a.mass.filter(|_| !a.is(Unit::Bag)));
    let counted = f.amounts.iter().any(|a| !a.uncounted && a.mass.is_none() && !a.article && !a.is(Unit::Tray));
    if counted
        || f.has(has::MODAL | has::POWDER)
        || f.dest.is_some()
        || f.source.is_some()
        || f.has(has::FIRST) && mass.is_none() && !f.has(has::DRYER)
    {
        return None;
    }
    // One's own skin is singular.
    let pieces = f.what.is_some() && !says!(f, "skin" | "greens" | "leather");
    let crop = f.crop.is_some() || f.variety.is_some();
    let sure = has_brittle(f);
    let dry = says!(f, "dry") || sure || says!(f, "crisp");
    let is = f.has(has::AUX) || f.chunks.iter().any(|c| matches!(c.item, Item::Word(Word::Is)));
    let done = says!(f, "done" | "finished" | "ready") && pieces;
    let state = (dry || done)
        && (is || f.any_verb(&[Verb::Come, Verb::Go]) || mass.is_some() || pieces && f.chunks.len() <= 3)
        && (pieces || crop || f.has(has::DRYER) && mass.is_some());
    let weight = f
        .chunks
        .windows(2)
        .any(|w| one_of!(w[0].key, "dry" | "dried") && one_of!(w[1].key, "weight" | "wt" | "weights"))
        && mass.is_some();
    let out = f.has(has::DRYER)
        && (f.has(has::OUT | has::OFF) || says!(f, "from"))
        && (pieces || crop)
        && f.verb.is_none_or(|(verb, form)| {
            matches!(
                verb,
                Verb::Come | Verb::Take | Verb::Pull | Verb::Get | Verb::Go | Verb::Lift | Verb::Weigh | Verb::Dry
            ) && form != Form::Base
                || matches!(verb, Verb::Come)
        });
    // `took out the skins`: whether from the dryer, the weight behind says.
    let taken = pieces && f.has(has::OUT) && f.any_verb(&[Verb::Take, Verb::Pull]);
    let emptied = f.has(has::DRYER) && says!(f, "emptied" | "unloaded" | "empty");
    let dried_to =
        f.verb == Some((Verb::Dry, Form::Past)) && f.has(has::DOWN | has::TO) && mass.is_some() && (pieces || crop);
    let got = says!(f, "dried")
        && (pieces || crop || f.crop == Some(Crop::Herb))
        && mass.is_some()
        && (f.any_verb(&[Verb::Get, Verb::Take, Verb::Pull, Verb::Weigh, Verb::Yield, Verb::Make, Verb::Lift]));
    let plain = only(f, |c| {
        matches!(c.item, Item::Amount(_) | Item::Crop(_) | Item::Variety(..) | Item::Prep(_) | Item::Ripe(_))
            || matches!(
                c.item,
                Item::Verb(
                    Verb::Dry
                        | Verb::Come
                        | Verb::Take
                        | Verb::Pull
                        | Verb::Get
                        | Verb::Go
                        | Verb::Lift
                        | Verb::Weigh
                        | Verb::Finish
                        | Verb::Do
                        | Verb::Yield
                        | Verb::Make,
                    _
                )
            )
            || matches!(c.item, Item::Word(Word::Gear | Word::Quality | Word::Unit(Unit::Tray)))
            || is_brittle(c.key)
            || one_of!(c.key, "bone" | "dehydration" | "emptied")
    });
    (plain && (state || weight || out || got || taken || emptied || dried_to))
        .then(|| Statement::Dry(Dry { mass, what: what(f), on: None }))
}

/// `6 oz`, `12 oz dry`, `11 oz of halves`: the dry weight, and of what, said behind.
pub(in crate::phrase) fn took_out(f: &Facts<'_>) -> Option<Dry> {
    let plain = only(f, |c| {
        matches!(c.item, Item::Amount(_) | Item::Crop(_) | Item::Prep(_))
            || matches!(c.item, Item::Verb(Verb::Dry | Verb::Weigh | Verb::Get | Verb::Come, _))
            || matches!(c.item, Item::Word(Word::Gear)) && f.what.is_some()
            || one_of!(c.key, "weight")
    });
    let mass = f.mass().filter(|_| plain && f.amounts.len() == 1).and_then(|a| a.mass)?;
    Some(Dry { mass: Some(mass), what: what(f), on: None })
}

/// Whether what is called dry can only be out of the dryer, without its weight.
pub(in crate::phrase) fn is_surely_dry(f: &Facts<'_>) -> bool {
    let taken = f.any_verb(&[Verb::Take, Verb::Pull]) && !says!(f, "dry" | "dried");
    f.what.is_some() && !taken || f.has(has::DRYER) && (f.what.is_some() || f.crop.is_some()) || has_brittle(f)
}

/// `kept it`, `and saved the juice`, `threw it out`: a clause that says what became of the liquid and nothing else.
pub(in crate::phrase) fn is_kept_tail(chunks: &[Chunk]) -> bool {
    chunks.len() <= 7
        && chunks.iter().all(|c| match c.item {
            Item::Amount(a) => a.uncounted,
            Item::Word(Word::Not | Word::You | Word::They | Word::If | Word::Modal)
            | Item::Crop(_)
            | Item::Variety(..) => false,
            _ => true,
        })
}
