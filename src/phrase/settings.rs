//! Settings of a room and household recipes.

use super::{
    build::{self, Carry},
    facts::{Facts, has},
    measure::Amount,
    product::said,
    scan::{Chunk, Item},
    supplies,
    token::{Mark, Sense, Token, Tokens, one_of, says},
    words::{Unit, Verb, Word},
};
use crate::{
    quantity::{Length, Number, Temperature},
    statement::{Bought, Recipe, Set, Statement},
    vocabulary::{Kind, Missing, SettingKey},
    zone::Zone,
};

fn set(key: SettingKey) -> Set {
    Set {
        key,
        length: None,
        canner: None,
        jars: None,
        jar: None,
        mass: None,
        volume: None,
        product: None,
        word: None,
        from: None,
        to: None,
        supply: None,
        count: None,
        temp: None,
    }
}

fn position(f: &Facts<'_>, accept: impl Fn(u64) -> bool) -> Option<usize> {
    f.chunks.iter().position(|c| accept(c.key))
}

/// The settings one clause makes; `rest` is the whole rest of the sentence.
pub(super) fn settings(f: &Facts<'_>, rest: &Facts<'_>, carry: &Carry<'_, '_>) -> Vec<Statement> {
    if let Some(low) = low(rest) {
        return vec![low];
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
    );
    if !(words
        || f.unit(Unit::Bag).is_some()
        || f.canner.is_some()
        || f.has(has::FIRST) && f.has(has::AT)
        || f.has(has::CANNER))
    {
        return Vec::new();
    }
    let one = altitude(f, carry)
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

/// A setting of the altitude.
pub(super) fn altitude_of(length: Length) -> Statement {
    Statement::Set(Set { length: Some(length), ..set(SettingKey::Altitude) })
}

/// Whether the words say sea level.
pub(super) fn is_sea_level(f: &Facts<'_>) -> bool {
    f.chunks.windows(2).any(|w| one_of!(w[0].key, "sea") && one_of!(w[1].key, "level"))
}

fn altitude(f: &Facts<'_>, carry: &Carry<'_, '_>) -> Option<Statement> {
    let named = says!(f, "altitude" | "alt" | "elevation") || is_sea_level(f);
    let here = f.has(has::FIRST) && f.has(has::AT) && f.verb.is_none() && f.chunks.len() <= 6;
    if !(named || here)
        || !f.clean()
        || f.has(has::NOT | has::MODAL)
        || carry.kind == Some(Kind::TimerStart)
        || !named && says!(f, "were" | "was")
    {
        return None;
    }
    if let Some(length) = f.amounts.iter().find_map(height) {
        return Some(altitude_of(length));
    }
    if is_sea_level(f) && f.amounts.is_empty() {
        return Some(altitude_of(Length::METRE.times(Number::whole(0))?));
    }
    let n = f.bare().filter(|_| named && f.verb.is_none())?.number;
    Some(build::clarify((Kind::Set, Statement::Set(set(SettingKey::Altitude))), Missing::Unit, Some(n)))
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
    let mut said = set(SettingKey::Bag);
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
    let mut said = set(SettingKey::Usual);
    said.product = build::product(f, carry);
    said.jar = f.jar();
    (said.product.is_some() || said.jar.is_some()).then_some(Statement::Set(said))
}

fn room(f: &Facts<'_>, carry: &Carry<'_, '_>) -> Option<Statement> {
    let at = position(f, |k| one_of!(k, "room" | "kitchen")).filter(|at| {
        one_of!(f.chunks[*at].key, "room")
            || f.amounts
                .iter()
                .any(|a| matches!(a.unit, Some(Unit::Celsius | Unit::C | Unit::Fahrenheit | Unit::Degree)))
    })?;
    if f.alien > 0
        || f.unknown > 0
        || f.has(has::NOT)
        || f.chunks.iter().any(|c| c.is_mark(Mark::Money) || c.word() == Some(Word::Price))
    {
        return None;
    }
    let amount = f.chunks.iter().skip(at).find_map(|c| match c.item {
        Item::Amount(a) => Some(a),
        _ => None,
    })?;
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
    let plausible = amount.unit.is_some() || told && at <= 2 && f.clean() && (5.0..110.0).contains(&n);
    plausible.then(|| Statement::Set(Set { temp: Some(temp), ..set(SettingKey::Room) }))
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
    .then(|| Statement::Set(Set { word: Some(system.to_owned()), ..set(SettingKey::Units) }))
}

fn canner(f: &Facts<'_>, carry: &Carry<'_, '_>) -> Vec<Statement> {
    let holds = position(f, |k| one_of!(k, "holds" | "hold" | "fits" | "takes" | "capacity" | "fit" | "take"));
    let mut out = Vec::new();
    if f.has(has::TEMP | has::HEAT | has::AT) {
        return out;
    }
    if f.has(has::NOT | has::MODAL | has::AUX) && f.any_verb(&[Verb::Begin])
        || f.product.is_some()
        || f.crop.is_some()
        || f.mass().is_some()
    {
        return out;
    }
    let before = matches!(carry.kind, Some(Kind::Set));
    let named = f.has(has::CANNER);
    let kind_at = f.chunks.iter().position(|c| matches!(c.item, Item::Canner(_)));
    let it = f.chunks.iter().take(2).any(|c| one_of!(c.key, "it" | "mine" | "ours"));
    let fits = holds.filter(|_| {
        (named || it || before || says!(f, "capacity")) && f.jars().is_some() && f.unknown == 0 && f.alien == 0
    });
    // `the water bath canner holds 9 pints` sets what that canner holds; `canner steam holds 7` also which it is.
    let itself = fits.is_some()
        && kind_at.is_some_and(|at| at <= 2 && !f.chunks.iter().take(at).any(|c| one_of!(c.key, "canner")));
    let says = f
        .chunks
        .iter()
        .any(|c| matches!(c.item, Item::Word(Word::Aux | Word::Is) | Item::Mark(Mark::Equals | Mark::Colon)))
        || f.any_verb(&[Verb::Use, Verb::Get, Verb::Set, Verb::Change])
        || f.chunks.first().is_some_and(|c| one_of!(c.key, "canner"))
        || f.chunks.get(1).is_some_and(|c| one_of!(c.key, "canner"));
    let gear_only = f.clean()
        && !f.any_verb(&[
            Verb::Begin,
            Verb::Fill,
            Verb::Lift,
            Verb::Boil,
            Verb::Come,
            Verb::Reach,
            Verb::Put,
            Verb::Buy,
            Verb::Can,
        ])
        && !f.has(has::UP | has::OUT | has::OFF | has::YOU | has::THEY | has::NOT)
        && f.when.is_none();
    let word_canner = says!(f, "canner")
        || f.tokens
            .iter()
            .skip(f.chunks.first().map_or(0, |c| c.from as usize))
            .take(f.chunks.last().map_or(0, |c| c.to as usize) - f.chunks.first().map_or(0, |c| c.from as usize))
            .any(|t| one_of!(t.key, "canner"));
    if let Some(kind) =
        f.canner.filter(|_| says && gear_only && word_canner && !itself && (f.jars().is_none() || fits.is_some()))
    {
        out.push(Statement::Set(Set { canner: Some(kind), ..set(SettingKey::Canner) }));
    }
    if fits.is_some()
        && let Some(amount) = f.jars()
    {
        let canner = f.canner.filter(|_| itself);
        out.push(Statement::Set(Set {
            jars: amount.count(),
            jar: amount.jar.or(f.jar()),
            canner,
            ..set(SettingKey::Capacity)
        }));
    }
    out
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
        ..set(SettingKey::Low)
    }))
}

/// `quiet hours 9pm to 7am`, `quiet off`, `no messages between 10 pm and 7`.
fn quiet(f: &Facts<'_>) -> Option<Statement> {
    let messages = |k: u64| one_of!(k, "messages" | "alerts" | "notifications");
    let at = position(f, |k| one_of!(k, "quiet" | "disturb" | "silent" | "silence"))
        .or_else(|| position(f, messages).filter(|_| f.has(has::NOT)))?;
    let off = says!(f, "off" | "none" | "cancel" | "no") || f.verb_is(Verb::Cancel);
    let first = f.chunks.get(at)?.from as usize;
    let last = f.chunks.last()?.to as usize;
    let tokens = f.tokens.get(first..last)?;
    let times = clocks(tokens);
    if let [from, to, ..] = times.as_slice() {
        let (from, to) = night(*from, *to);
        let said = |(hour, minute, _): (u32, u32, bool)| Some(format!("{:02}:{minute:02}", hour % 24));
        return Some(Statement::Set(Set { from: said(from), to: said(to), ..set(SettingKey::Quiet) }));
    }
    let short = f.unknown == 0 && f.alien == 0 && f.chunks.len() <= 8;
    (off && short && times.is_empty())
        .then(|| Statement::Set(Set { word: Some("off".to_owned()), ..set(SettingKey::Quiet) }))
}

/// The clock times in a run of tokens: hour, minute, and whether the half of the day is sure.
fn clocks(tokens: &[Token]) -> Vec<(u32, u32, bool)> {
    let mut out = Vec::new();
    let mut at = 0;
    while at < tokens.len() && out.len() < 3 {
        let rest = Tokens(&tokens[at..]);
        let found = match rest.0[0].sense {
            Sense::Clock(hour, minute) => Some((hour, minute)),
            Sense::Num(n) if n.as_whole().is_none() => {
                let hour = n.as_f64().trunc() as u32;
                let minute = (n.as_f64().fract() * 100.0).round() as u32;
                (hour <= 24 && minute < 60).then_some((hour, minute))
            }
            Sense::Num(n) => n.as_count().filter(|n| *n <= 24).map(|n| (n, 0)),
            Sense::Word(Word::Small(n)) => Some((u32::from(n), 0)),
            Sense::Word(Word::DayPart(hour)) if one_of!(rest.key(0), "noon" | "midday") => Some((u32::from(hour), 0)),
            Sense::Word(Word::DayPart(_)) if one_of!(rest.key(0), "midnight") => Some((24, 0)),
            _ => None,
        };
        at += 1;
        let Some((hour, minute)) = found else { continue };
        let mut half = Tokens(&tokens[at.min(tokens.len())..]);
        if let Some(Sense::Word(Word::Tens(m))) = half.first().map(|t| t.sense) {
            out.push((hour, u32::from(m), false));
            continue;
        }
        while one_of!(half.key(0), "oclock" | "o'clock" | "in" | "the" | "at") {
            half = half.skip(1);
        }
        let part = half.first().and_then(|t| t.word());
        let (hour, sure) = match part {
            Some(Word::DayPart(start)) if !one_of!(half.key(0), "noon" | "midnight" | "midday") => {
                let late = start >= 12;
                (
                    if late && hour < 12 {
                        hour + 12
                    } else if !late && hour == 12 {
                        0
                    } else {
                        hour
                    },
                    true,
                )
            }
            _ => (hour, hour > 12 || hour == 0 || matches!(rest.0[0].sense, Sense::Clock(..))),
        };
        out.push((hour, minute, sure));
    }
    out
}

/// Quiet hours that do not say which half of the day begin in the evening and end in the morning.
const fn night(from: (u32, u32, bool), to: (u32, u32, bool)) -> ((u32, u32, bool), (u32, u32, bool)) {
    let from = if !from.2 && from.0 >= 5 && from.0 < 12 { (from.0 + 12, from.1, true) } else { from };
    (from, to)
}

/// `timezone america/chicago`: any name of the tz database, in any case, or its city alone.
fn timezone(f: &Facts<'_>) -> Option<Statement> {
    let named = says!(f, "timezone" | "tz")
        || f.chunks.windows(2).any(|w| one_of!(w[0].key, "time") && one_of!(w[1].key, "zone"));
    if !named {
        return None;
    }
    let at = position(f, |k| one_of!(k, "timezone" | "tz" | "zone"))?;
    let from = f.tokens.get(f.chunks.get(at)?.to as usize - 1)?.to as usize;
    let until = f.tokens.get(f.chunks.last()?.to as usize - 1)?.to as usize;
    let rest = f.text.get(from..until)?;
    let words: Vec<&str> = rest
        .split(|c: char| c.is_whitespace() || matches!(c, ',' | '.' | '!' | '=' | ':' | ';'))
        .filter(|w| !w.is_empty())
        .take(8)
        .collect();
    let pairs = words.windows(2).map(|pair| format!("{}_{}", pair[0], pair[1]));
    let found = pairs.chain(words.iter().map(|word| (*word).to_owned())).find_map(|word| zone_named(&word))?;
    Some(Statement::Set(Set { word: Some(found), ..set(SettingKey::Timezone) }))
}

fn zone_named(word: &str) -> Option<String> {
    let familiar = match word.to_ascii_lowercase().as_str() {
        "eastern" | "est" | "edt" => "America/New_York",
        "central" | "cst" | "cdt" => "America/Chicago",
        "mountain" | "mst" | "mdt" => "America/Denver",
        "pacific" | "pst" | "pdt" => "America/Los_Angeles",
        "utc" => "UTC",
        "gmt" | "bst" | "uk" => "Europe/London",
        "is" | "to" | "the" | "us" | "set" | "in" | "cet" | "est5edt" => "",
        _ => "?",
    };
    match familiar {
        "" => return None,
        "?" => {}
        name => return Some(name.to_owned()),
    }
    if word.len() < 3 || word.len() > 40 {
        return None;
    }
    if let Some(Zone::Fixed(_)) = Zone::parse(word) {
        return Some(word.to_owned());
    }
    chrono_tz::TZ_VARIANTS
        .iter()
        .map(|tz| tz.name())
        .find(|name| {
            name.eq_ignore_ascii_case(word)
                || !word.contains('/')
                    && name.rsplit('/').next().is_some_and(|city| name.contains('/') && city.eq_ignore_ascii_case(word))
        })
        .map(str::to_owned)
}

/// `recipe fire salsa takes 6 lb makes 4 pints`.
pub(super) fn recipe(f: &Facts<'_>) -> Option<Statement> {
    let at = f.chunks.iter().position(|c| one_of!(c.key, "recipe" | "recipes" | "recipie" | "recepie" | "recipee"))?;
    let jars = f.amounts.iter().find(|a| a.jar.is_some() && !a.uncounted).or_else(|| f.jars());
    let mass = f.amounts.iter().find_map(|a| a.mass);
    if mass.is_none() && jars.is_none_or(|a| a.jar.is_none()) || f.has(has::NOT) {
        return None;
    }
    let name = name_after(f, at + 1).or_else(|| name_before(f, at))?;
    Some(Statement::Recipe(Recipe { name, mass, jars: jars.and_then(|a| a.count()), jar: jars.and_then(|a| a.jar) }))
}

/// `our fire salsa takes 6 lb and makes 4 pints`, without the word recipe.
pub(super) fn takes_and_makes(f: &Facts<'_>, carry: &Carry<'_, '_>) -> Option<Statement> {
    let takes = position(f, |k| one_of!(k, "takes" | "needs" | "uses" | "requires"))?;
    let makes = position(f, |k| one_of!(k, "makes" | "yields" | "gives" | "fills"))?;
    let named = f.chunks.iter().position(|c| matches!(c.item, Item::Product(_)))?;
    let jars = f.amounts.iter().find(|a| a.jar.is_some() && !a.uncounted)?;
    let mass = f.mass()?.mass;
    let plain = f.unknown + f.alien == 0 && !f.has(has::NOT | has::MODAL | has::FOLK | has::THEY);
    (named < takes && takes < makes && plain)
        .then(|| {
            Some(Statement::Recipe(Recipe {
                name: build::product(f, carry)?.as_str().to_owned(),
                mass,
                jars: jars.count(),
                jar: jars.jar,
            }))
        })
        .flatten()
}

fn name_after(f: &Facts<'_>, mut at: usize) -> Option<String> {
    while f.chunks.get(at).is_some_and(|c| {
        matches!(
            c.item,
            Item::Mark(Mark::Colon | Mark::Comma | Mark::Dash | Mark::Equals)
                | Item::Word(Word::Filler | Word::Aux | Word::Is)
        ) || one_of!(c.key, "for" | "called" | "named" | "my" | "our" | "the" | "a" | "it")
    }) {
        at += 1;
    }
    let mut end = at;
    while let Some(chunk) = f.chunks.get(end) {
        let ends = match chunk.item {
            Item::Amount(_) => true,
            Item::Mark(mark) => !matches!(mark, Mark::Hyphen | Mark::And),
            Item::Verb(verb, _) => {
                matches!(verb, Verb::Take | Verb::Make | Verb::Use | Verb::Yield | Verb::Get | Verb::Fill | Verb::Do)
            }
            Item::Word(Word::Aux | Word::Modal) => true,
            Item::Word(Word::Link) => {
                one_of!(chunk.key, "from" | "with" | "for" | "per" | "into" | "at")
                    && end > at
                    && f.chunks.get(end + 1).is_some_and(|c| matches!(c.item, Item::Amount(_)))
            }
            _ => false,
        };
        if ends {
            break;
        }
        end += 1;
    }
    let (first, last) = (f.chunks.get(at)?, f.chunks.get(end.checked_sub(1)?)?);
    (end > at).then(|| said(f.text, f.tokens, first.from as usize, last.to as usize)).flatten()
}

fn name_before(f: &Facts<'_>, at: usize) -> Option<String> {
    let mut first = at;
    while first > 0 {
        let chunk = f.chunks.get(first - 1)?;
        let part = match chunk.item {
            Item::Mark(mark) => mark == Mark::Hyphen,
            Item::Word(Word::Link) => !one_of!(chunk.key, "the" | "my" | "our" | "a" | "an" | "this"),
            Item::Word(Word::Filler | Word::First | Word::Modal | Word::You | Word::Aux) => false,
            Item::Word(Word::Quality) => !one_of!(chunk.key, "new"),
            Item::Verb(..) | Item::Amount(_) => false,
            Item::Word(Word::Common) => !one_of!(chunk.key, "save" | "saved"),
            Item::Unknown => !one_of!(chunk.key, "save" | "store" | "keep"),
            _ => true,
        };
        if !part {
            break;
        }
        first -= 1;
    }
    let (from, to) = (f.chunks.get(first)?, f.chunks.get(at.checked_sub(1)?)?);
    (first < at).then(|| said(f.text, f.tokens, from.from as usize, to.to as usize)).flatten()
}
