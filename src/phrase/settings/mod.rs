//! Settings of a room and household recipes.

mod canner;
mod hours;
mod labels;
mod recipe;
mod season;
mod ways;

use super::{
    build::{self, Carry},
    facts::{Facts, has},
    measure::Amount,
    scan::{Chunk, Item},
    supplies,
    token::{Mark, one_of, says},
    words::{Unit, Verb, Word},
};
use crate::{
    quantity::{Length, Number, Temperature},
    statement::{Bought, Set, Statement},
    vocabulary::{Kind, Missing, SettingKey},
};
pub(super) use canner::described;
use canner::{canner, yields};
pub(super) use hours::clocks;
use hours::{quiet, timezone};
pub(super) use labels::{is_sheet, labels};
pub(super) use recipe::{recipe, takes_and_makes};
use ways::ways;

fn position(f: &Facts<'_>, accept: impl Fn(u64) -> bool) -> Option<usize> {
    f.chunks.iter().position(|c| accept(c.key))
}

/// The settings one clause makes; `rest` is the whole rest of the sentence.
pub(super) fn settings(f: &Facts<'_>, rest: &Facts<'_>, carry: &Carry<'_, '_>) -> Vec<Statement> {
    if let Some(low) = low(rest) {
        return vec![low];
    }
    if let Some(way) = ways(f, carry) {
        return vec![way];
    }
    if f.has(has::FOLK | has::THEY | has::YOU) || says!(f, "their" | "his" | "her") {
        return Vec::new();
    }
    let words = says!(
        f,
        "altitude"
            | "alt"
            | "elevation"
            | "sea"
            | "bag"
            | "bags"
            | "a"
            | "the"
            | "my"
            | "usual"
            | "default"
            | "usually"
            | "normally"
            | "room"
            | "units"
            | "unit"
            | "metric"
            | "imperial"
            | "kilos"
            | "pounds"
            | "grams"
            | "lbs"
            | "lb"
            | "kg"
            | "canner"
            | "holds"
            | "hold"
            | "fits"
            | "takes"
            | "capacity"
            | "yield"
            | "ours"
            | "own"
            | "handbook"
            | "handbooks"
            | "counter"
            | "countertop"
            | "house"
            | "kitchen"
            | "here"
    );
    if !(words
        || f.unit(Unit::Bag).is_some()
        || f.canner.is_some()
        || f.has(has::FIRST) && f.has(has::AT)
        || f.has(has::CANNER))
    {
        return Vec::new();
    }
    let one = yields(f, carry)
        .or_else(|| altitude(f, carry))
        .or_else(|| bag(f))
        .or_else(|| usual(f, carry))
        .or_else(|| room(f, carry))
        .or_else(|| units(f));
    match one {
        Some(one) => vec![one],
        None => canner(f, carry),
    }
}

/// Settings that need the whole sentence: quiet hours, time zone.
pub(super) fn sentence_settings(f: &Facts<'_>) -> Option<Statement> {
    quiet(f).or_else(|| timezone(f))
}

/// The length an amount means as a height.
pub(super) fn height(amount: &Amount) -> Option<Length> {
    match amount.unit? {
        Unit::Foot => Length::FOOT.times(amount.number),
        Unit::Metre | Unit::M => Length::METRE.times(amount.number),
        _ => None,
    }
}

/// The height that a clause says: `2400 m up`, `20 ft below sea level`, `sea level`.
pub(super) fn height_said(f: &Facts<'_>) -> Option<Length> {
    let Some((amount, length)) = f.amounts.iter().find_map(|a| height(a).map(|length| (a, length))) else {
        return is_sea_level(f).then(|| Length::METRE.times(Number::whole(0))).flatten();
    };
    let below = is_sea_level(f) && says!(f, "below" | "under" | "beneath") && amount.number.as_f64() > 0.0;
    if !below {
        return Some(length);
    }
    height(&Amount { number: amount.number.checked_mul(Number::whole(-1))?, ..*amount })
}

/// A setting of the altitude.
pub(super) fn altitude_of(length: Length) -> Statement {
    Statement::Set(Set { length: Some(length), ..Set::of(SettingKey::Altitude) })
}

/// Whether the words say sea level.
pub(super) fn is_sea_level(f: &Facts<'_>) -> bool {
    f.chunks.windows(2).any(|w| one_of!(w[0].key, "sea") && one_of!(w[1].key, "level"))
}

fn altitude(f: &Facts<'_>, carry: &Carry<'_, '_>) -> Option<Statement> {
    let named = says!(f, "altitude" | "alt" | "elevation") || is_sea_level(f);
    let here = f.has(has::FIRST) && f.has(has::AT) && f.verb.is_none() && f.chunks.len() <= 6;
    // `it's 5200 ft here`: a height that nothing in a garden has.
    let high = |a: &Amount| height(a).is_some_and(|length| length.as_metres().abs() >= 100.0);
    let stands = f.chunks.first().is_some_and(|c| one_of!(c.key, "it" | "its"))
        && f.chunks.last().is_some_and(|c| one_of!(c.key, "here" | "up"))
        && f.amounts.iter().all(high)
        && f.verb.is_none()
        && (3..=6).contains(&f.chunks.len());
    let here = here || stands;
    if !(named || here)
        || !f.clean()
        || f.has(has::NOT | has::MODAL)
        || carry.kind == Some(Kind::TimerStart)
        || !named && says!(f, "were" | "was")
    {
        return None;
    }
    if f.amounts.is_empty() || f.amounts.iter().any(|a| height(a).is_some()) {
        return height_said(f).map(altitude_of);
    }
    let n = f.bare().filter(|_| named && f.verb.is_none())?.number;
    Some(build::clarify((Kind::Set, Statement::Set(Set::of(SettingKey::Altitude))), Missing::Unit, Some(n)))
}

fn bag(f: &Facts<'_>) -> Option<Statement> {
    let one = |a: &Amount| a.article || a.number.as_whole() == Some(1) && !a.further;
    let is_bag = |c: &Chunk| {
        matches!(c.item, Item::Word(Word::Unit(Unit::Bag)))
            || matches!(c.item, Item::Amount(a) if a.is(Unit::Bag) && one(&a) && a.each.is_none())
    };
    let at = f.chunks.iter().position(is_bag)?;
    let lead = f.chunks.iter().take(at).all(|c| {
        matches!(
            c.item,
            Item::Word(Word::Link | Word::Filler | Word::Quality | Word::Aux | Word::Modal | Word::You | Word::First)
                | Item::Verb(Verb::Set | Verb::Change, _)
        ) || one_of!(c.key, "usual" | "default" | "freezer" | "standard" | "call" | "consider" | "reckon" | "figure")
            || matches!(c.item, Item::Store(_))
    });
    let next = f.chunks.get(at + 1)?;
    let says = matches!(
        next.item,
        Item::Word(Word::Aux | Word::Is) | Item::Mark(Mark::Equals | Mark::Colon) | Item::Verb(Verb::Weigh, _)
    ) || one_of!(next.key, "size" | "weight" | "weights" | "to" | "hold" | "holds" | "at");
    let usual = f
        .chunks
        .iter()
        .take(at)
        .any(|c| one_of!(c.key, "usual" | "default" | "standard" | "call" | "consider" | "reckon" | "figure"));
    if !lead
        || !(says || usual)
        || f.has(has::NOT)
        || f.unknown + f.alien > 0
        || f.common > u16::from(usual)
        || f.dest.is_some()
        || f.has(has::THERE | has::OUT)
    {
        return None;
    }
    let mut said = Set::of(SettingKey::Bag);
    let after = f.chunks.iter().skip(at + 1).find_map(|c| match c.item {
        Item::Amount(a) => Some(a),
        _ => None,
    })?;
    said.mass = after.mass.filter(|mass| mass.as_kilograms() <= 15.0);
    if after.mass.is_some() && said.mass.is_none() {
        return None;
    }
    if said.mass.is_some() {
        return Some(Statement::Set(said));
    }
    build::clarify_if(after.unit.is_none(), (Kind::Set, Statement::Set(said)), Missing::Unit, Some(after.number))
}

fn usual(f: &Facts<'_>, carry: &Carry<'_, '_>) -> Option<Statement> {
    let named = says!(f, "usual" | "default");
    let usually = says!(f, "usually" | "normally") && f.any_verb(&[Verb::Make, Verb::Do, Verb::Can]);
    if !(named || usually)
        || f.unknown > 0
            && !matches!(f.product, Some(super::product::Named::Said(..) | super::product::Named::Recipe(_)))
        || f.has(has::NOT)
        || f.alien > 0
    {
        return None;
    }
    let mut said = Set::of(SettingKey::Usual);
    said.product = build::product(f, carry);
    said.jar = f.jar();
    (said.product.is_some() || said.jar.is_some()).then_some(Statement::Set(said))
}

fn room(f: &Facts<'_>, carry: &Carry<'_, '_>) -> Option<Statement> {
    // `it's 68 degrees in here`
    let here = f.chunks.windows(2).any(|w| one_of!(w[0].key, "in") && one_of!(w[1].key, "here"))
        && (f.has(has::AUX) || f.chunks.iter().any(|c| c.item == Item::Word(Word::Is)))
        && f.chunks.first().is_some_and(|c| one_of!(c.key, "it" | "room"))
        && f.chunks.len() <= 7;
    let at = position(f, |k| one_of!(k, "room" | "kitchen" | "counter" | "countertop")).or(here.then_some(0)).filter(
        |at| {
            one_of!(f.chunks[*at].key, "room")
                || f.amounts
                    .iter()
                    .any(|a| matches!(a.unit, Some(Unit::Celsius | Unit::C | Unit::Fahrenheit | Unit::Degree)))
        },
    )?;
    if f.alien > 0
        || f.unknown > 0
        || f.has(has::NOT)
        || f.chunks.iter().any(|c| c.is_mark(Mark::Money) || c.word() == Some(Word::Price))
    {
        return None;
    }
    let behind = f.chunks.iter().skip(at).find_map(|c| match c.item {
        Item::Amount(a) => Some(a),
        _ => None,
    });
    // `it's 74F in the room`.
    let degrees = |a: &&Amount| matches!(a.unit, Some(Unit::Celsius | Unit::C | Unit::Fahrenheit));
    let amount = behind.or_else(|| f.amounts.iter().find(degrees).copied().filter(|_| f.has(has::IN | has::ON)))?;
    let n = amount.number.as_f64();
    let metric = carry.context.lexicon.metric;
    let temp = match amount.unit {
        Some(Unit::Fahrenheit) => Temperature::from_fahrenheit(n),
        Some(Unit::C | Unit::Celsius) => Temperature::from_celsius(n),
        Some(Unit::Degree) | None if n >= 45.0 && !(metric && n < 45.0) => Temperature::from_fahrenheit(n),
        Some(Unit::Degree) | None => Temperature::from_celsius(n),
        _ => None,
    }?;
    if f.amounts.len() > 1 {
        return None;
    }
    let told = n >= 32.0
        || says!(f, "temp" | "temperature" | "is" | "at" | "=")
        || f.chunks.iter().any(|c| matches!(c.item, Item::Word(Word::Is) | Item::Mark(Mark::Equals | Mark::Colon)));
    let cold = if says!(f, "temp" | "temperature") { 0.0 } else { 5.0 };
    let plausible = amount.unit.is_some() || told && at <= 2 && f.clean() && (cold..110.0).contains(&n);
    plausible.then(|| Statement::Set(Set { temp: Some(temp), ..Set::of(SettingKey::Room) }))
}

fn units(f: &Facts<'_>) -> Option<Statement> {
    let named = says!(f, "units" | "unit");
    let system = f.chunks.iter().rev().find_map(|c| match c.key {
        k if one_of!(k, "metric" | "kilos" | "kg" | "kilograms" | "grams") => Some("metric"),
        k if one_of!(k, "imperial" | "american" | "pounds" | "lbs" | "lb" | "customary") => Some("us"),
        k if one_of!(k, "us") && named => Some("us"),
        _ => None,
    })?;
    let metric_word = says!(f, "metric" | "imperial");
    let verb = f.any_verb(&[Verb::Use, Verb::Turn, Verb::Set, Verb::Change, Verb::Go, Verb::Show]);
    let short = metric_word
        && f.chunks.iter().all(|c| {
            matches!(
                c.item,
                Item::Word(Word::Filler | Word::Link | Word::Gear | Word::First | Word::Modal | Word::You | Word::Aux)
            )
        });
    (f.clean()
        && !f.has_quantity()
        && !f.has(has::NOT | has::JARS)
        && (named
            || metric_word && verb
            || short
            || verb
                && says!(f, "kilos" | "pounds" | "grams" | "lbs" | "lb" | "kg")
                && f.crop.is_none()
                && f.product.is_none()))
    .then(|| Statement::Set(Set { word: Some(system.to_owned()), ..Set::of(SettingKey::Units) }))
}

/// `warn me when we're down to 20 lids`, `low citric acid 100 g`.
fn low(f: &Facts<'_>) -> Option<Statement> {
    let supply = f.supply?;
    let low = f.chunks.iter().take(4).any(|c| one_of!(c.key, "low"));
    let warned = f.chunks.iter().take(6).any(|c| {
        matches!(c.item, Item::Verb(Verb::Remind, _)) || one_of!(c.key, "warn" | "tell" | "let" | "flag" | "warning")
    });
    let line = f.has(has::BELOW | has::DOWN)
        || says!(f, "when" | "if" | "less" | "fewer" | "left" | "once" | "low" | "hit" | "hits" | "reach");
    if !(low || warned && line) || f.chunks.iter().any(|c| c.is_mark(Mark::Quest)) || f.alien > 0 {
        return None;
    }
    let mut bought = Bought::default();
    let amount = f.amounts.iter().find(|a| !a.uncounted && supplies::measure(supply, a, &mut bought))?;
    let _ = amount;
    Some(Statement::Set(Set {
        supply: Some(supply),
        count: bought.count,
        mass: bought.mass,
        volume: bought.volume,
        ..Set::of(SettingKey::Low)
    }))
}
