//! Amounts: a number and its unit, composites, and containers with what is in each.
//!
//! ```text
//! amount  = number [ bag-weight ] unit | article unit | number "x" [ number ] unit | weight "x" number
//! weight  = number ("lb" | "kg" | ...) [ [ "and" ] number [ "oz" | "g" ] ]     2 lb 6 oz, 2lb6, 2 kg 300
//! jars    = number size [ "jars" ]              size = "half pints" | "quart" | 500 "ml" | "jelly" | ...
//! bags    = number weight "bags"                three 7-pound bags, 3x7lb, a 7 lb bag
//! time    = number ("min" | "h") [ number [ "min" ] ]   2h15, an hour and a half
//! ```

use super::{
    number::number,
    token::{Mark, Sense, Tokens, one_of},
    words::{Unit, Word},
};
use crate::{
    quantity::{Mass, Number, Volume},
    vocabulary::Jar,
};

/// A number with what it counts.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(super) struct Amount {
    pub(super) number: Number,
    pub(super) unit: Option<Unit>,
    pub(super) mass: Option<Mass>,
    /// What each of several weighs, when the phrase says so.
    pub(super) each: Option<Mass>,
    pub(super) jar: Option<Jar>,
    pub(super) seconds: Option<u32>,
    /// No number and no article was said: `quarts`.
    pub(super) uncounted: bool,
    /// Only an article was said.
    pub(super) article: bool,
    /// `another`, `one more`.
    pub(super) further: bool,
}

impl Amount {
    pub(super) const fn of(number: Number) -> Self {
        Self {
            number,
            unit: None,
            mass: None,
            each: None,
            jar: None,
            seconds: None,
            uncounted: false,
            article: false,
            further: false,
        }
    }

    /// As a volume of this unit.
    pub(super) fn volume(&self) -> Option<Volume> {
        let unit = match self.jar {
            Some(jar) => jar.volume(),
            None => volume_unit(self.unit?)?,
        };
        unit.times(self.number)
    }

    pub(super) fn is_jars(&self) -> bool {
        self.jar.is_some() || self.unit == Some(Unit::Jar)
    }

    pub(super) fn is(&self, unit: Unit) -> bool {
        self.unit == Some(unit)
    }

    pub(super) fn count(&self) -> Option<u32> {
        self.number.as_count()
    }
}

/// The mass of one of this unit.
pub(super) const fn mass_unit(unit: Unit) -> Option<Mass> {
    match unit {
        Unit::Pound => Some(Mass::POUND),
        Unit::Ounce => Some(Mass::OUNCE),
        Unit::Gram => Some(Mass::GRAM),
        Unit::Kilo => Some(Mass::KILOGRAM),
        _ => None,
    }
}

fn volume_unit(unit: Unit) -> Option<Volume> {
    Some(match unit {
        Unit::Millilitre => Volume::MILLILITRE,
        Unit::Centilitre => Volume::MILLILITRE.times(Number::whole(10))?,
        Unit::Decilitre => Volume::MILLILITRE.times(Number::whole(100))?,
        Unit::Litre => Volume::LITRE,
        Unit::Teaspoon => Volume::TEASPOON,
        Unit::Tablespoon => Volume::TABLESPOON,
        Unit::FluidOunce => Volume::FLUID_OUNCE,
        Unit::Cup | Unit::C => Volume::CUP,
        Unit::HalfPint => Volume::CUP,
        Unit::Pint => Volume::PINT,
        Unit::Quart => Volume::QUART,
        Unit::Gallon => Volume::GALLON,
        _ => return None,
    })
}

/// So much that the ledger will refuse it, in place of a product that does not fit its integer.
fn scaled(unit: Mass, number: Number) -> Mass {
    unit.times(number).or_else(|| Mass::from_grams(4e9)).unwrap_or(Mass::ZERO)
}

/// Reads an amount at the start; says how many tokens it took.
pub(super) fn amount(input: Tokens<'_>) -> Option<(usize, Amount)> {
    if let Ok((rest, n)) = number(input) {
        let used = input.0.len() - rest.0.len();
        let grouped = match input.first()?.sense {
            Sense::Grouped(_, decimals) => Some(decimals),
            _ => None,
        };
        return Some(counted(input, used, n, grouped));
    }
    if let Some((used, unit)) = size(input) {
        let mut amount = Amount::of(Number::whole(1));
        (amount.unit, amount.jar, amount.uncounted) = (Some(Unit::Jar), Some(unit), true);
        return Some((used, amount));
    }
    article(input)
}

/// `a bag`, `another pint`, `the quart of juice`, `one more bag`, `the hour and a half`.
fn article(input: Tokens<'_>) -> Option<(usize, Amount)> {
    let further = one_of!(input.key(0), "another" | "anothr" | "annother" | "anotha");
    let definite = one_of!(input.key(0), "the" | "that" | "this" | "last" | "our" | "my");
    let lone_hour = one_of!(input.key(0), "hour");
    if !(further || definite || lone_hour || one_of!(input.key(0), "a" | "an")) {
        return None;
    }
    let start = usize::from(!lone_hour);
    // `another 2 bags`, `another seven pounds`.
    if further && number(input.skip(1)).is_ok() {
        let (used, mut amount) = amount(input.skip(1))?;
        amount.further = true;
        return Some((used + 1, amount));
    }
    let adjectives = qualities(input.skip(start));
    let at = start + adjectives;
    // `a 7 lb bag` and `the 500 ml jar` have their number inside.
    if let Some((used, mut inside)) = amount_of_container(input.skip(at)) {
        inside.article = true;
        inside.further = further;
        return Some((at + used, inside));
    }
    let (used, mut amount) = with_unit(input.skip(at), Number::whole(1), None)?;
    if definite && !amount.is_jars() && !amount.is(Unit::Bag) {
        return None;
    }
    // `the jars` are not one jar.
    let several = one_of!(input.key(at + used - 1), "quarts" | "qts" | "pints" | "pts")
        && one_of!(input.key(0), "that" | "this" | "it");
    if several || one_of!(input.key(at + used - 1), "jars" | "jrs" | "bags" | "bgs") {
        return None;
    }
    amount.article = true;
    amount.further = further;
    Some((at + used, amount))
}

/// `7 lb bag`, `500 ml jar`, `7-pound bag`.
fn amount_of_container(input: Tokens<'_>) -> Option<(usize, Amount)> {
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
fn bag_gap(input: Tokens<'_>) -> Option<usize> {
    let hyphen = usize::from(input.first().is_some_and(|t| t.is_mark(Mark::Hyphen)));
    let at = hyphen + qualities(input.skip(hyphen));
    matches!(input.nth(at)?.word(), Some(Word::Unit(Unit::Bag))).then_some(at + 1)
}

/// How many words of quality or kind stand before a container: big, full, more, freezer.
fn qualities(input: Tokens<'_>) -> usize {
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

fn counted(input: Tokens<'_>, used: usize, n: Number, grouped: Option<Number>) -> (usize, Amount) {
    let rest = input.skip(used);
    // Sizes first: `12 750 ml jars`, `500 ml jars`, `9 half pints`.
    if let Some((more, jar)) = metric_size(rest, n, false) {
        let mut amount = Amount::of(Number::whole(1));
        (amount.unit, amount.jar, amount.uncounted) = (Some(Unit::Jar), Some(jar), true);
        return (used + more, amount);
    }
    if let Some((more, amount)) = of_containers(rest, n).or_else(|| of_those(rest, n)) {
        return (used + more, amount);
    }
    let further = usize::from(one_of!(rest.key(0), "more" | "other" | "further" | "extra" | "additional"));
    let of = usize::from(
        one_of!(rest.key(further), "of")
            && !one_of!(rest.key(further + 1), "the" | "em" | "them" | "those" | "these" | "our" | "my"),
    );
    let mut at = further + of;
    at += usize::from(of == 1 && one_of!(rest.key(at), "a" | "an"));
    at += approximate(rest.skip(at));
    at += usize::from(rest.nth(at).is_some_and(|t| t.is_mark(Mark::Hyphen)));
    at += usize::from(further == 1 && one_of!(rest.key(at), "of"));
    let unit_at = at + qualities(rest.skip(at));
    for at in [at, unit_at] {
        if let Some((more, mut amount)) = with_unit(rest.skip(at), n, grouped) {
            amount.further = further == 1;
            let total = used + at + more;
            // `7 lb bag`, one of them.
            let singular =
                |gap: usize| one_of!(input.key(total + gap - 1), "bag" | "baggie" | "ziploc" | "sack" | "bg");
            if let (Some(each), Some(gap)) = (amount.mass, bag_gap(input.skip(total)).filter(|gap| singular(*gap)))
                && let Some(bag) = bags_of(Number::whole(1), each)
            {
                let behind = input.skip(total + gap);
                if let Some((more, bags)) = times_behind(behind, amount) {
                    return (total + gap + more, bags);
                }
                return (total + gap, bag);
            }
            return times_behind(input.skip(total), amount)
                .map_or((total, amount), |(more, bags)| (total + more, bags));
        }
    }
    let mut bare = Amount::of(n);
    bare.further = further == 1;
    (used + further, bare)
}

/// `12 of the 20 lb`, `2 of the pints`: so many of that unit.
fn of_those(input: Tokens<'_>, n: Number) -> Option<(usize, Amount)> {
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
fn times_behind(input: Tokens<'_>, weight: Amount) -> Option<(usize, Amount)> {
    let each = weight.mass.filter(|_| weight.unit != Some(Unit::Bag))?;
    if !(input.first()?.is_mark(Mark::Times) || one_of!(input.key(0), "x" | "times")) {
        return None;
    }
    let (rest, n) = number(input.skip(1)).ok()?;
    let used = input.0.len() - rest.0.len();
    let more = bag_gap(rest).unwrap_or(0);
    Some((used + more, bags_of(n, each)?))
}

fn bags_of(n: Number, each: Mass) -> Option<Amount> {
    let mut amount = Amount::of(n);
    (amount.unit, amount.each, amount.mass) = (Some(Unit::Bag), Some(each), Some(scaled(each, n)));
    Some(amount)
}

/// Behind a count: `x 7 lb [bags]`, `7-pound bags`, `x 500 ml jars`, `500 ml jars`, `half pints`.
fn of_containers(input: Tokens<'_>, n: Number) -> Option<(usize, Amount)> {
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
    match bag_gap(inner.skip(end)) {
        Some(gap) => Some((at + end + gap, bags_of(n, weighed.mass?)?)),
        None if times == 1 => Some((at + end, bags_of(n, weighed.mass?)?)),
        None => None,
    }
}

/// `ish`, `or so`, `odd`.
fn approximate(input: Tokens<'_>) -> usize {
    if one_of!(input.key(0), "or") && one_of!(input.key(1), "so") {
        return 2;
    }
    let hyphen = usize::from(input.first().is_some_and(|t| t.is_mark(Mark::Hyphen)));
    if one_of!(input.key(hyphen), "ish" | "odd") { hyphen + 1 } else { 0 }
}

/// The unit behind a number, with what a composite adds to it.
fn with_unit(input: Tokens<'_>, n: Number, grouped: Option<Number>) -> Option<(usize, Amount)> {
    let mut amount = Amount::of(n);
    if let Some((used, jar)) = size(input) {
        (amount.unit, amount.jar) = (Some(Unit::Jar), Some(jar));
        return Some((used, amount));
    }
    if input.first()?.is_mark(Mark::Hash) {
        amount.unit = Some(Unit::Pound);
        return Some(weight(input.skip(1), amount, 1));
    }
    let degree = usize::from(input.first()?.is_mark(Mark::Degree));
    let fluid = usize::from(one_of!(input.key(0), "fl" | "fluid"));
    let unit = match input.nth(degree + fluid).and_then(|t| t.word()) {
        Some(Word::Unit(Unit::Ounce)) if fluid == 1 => Unit::FluidOunce,
        Some(Word::Unit(unit)) => unit,
        _ if degree == 1 => {
            amount.unit = Some(Unit::Degree);
            return Some((1, amount));
        }
        _ => return None,
    };
    let used = degree + fluid + 1;
    // `2,400 ft` is more than two thousand, `3,500 kg` is three and a half.
    if let (Some(decimals), Unit::Kilo | Unit::Litre) = (grouped, unit) {
        amount.number = decimals;
    }
    amount.unit = Some(unit);
    if unit == Unit::Degree
        && matches!(
            input.nth(used).and_then(|t| t.word()),
            Some(Word::Unit(Unit::C | Unit::Celsius | Unit::Fahrenheit))
        )
        && let Some(Word::Unit(scale)) = input.nth(used).and_then(|t| t.word())
    {
        amount.unit = Some(scale);
        return Some((used + 1, amount));
    }
    if mass_unit(unit).is_some() {
        return Some(weight(input.skip(used), amount, used));
    }
    if let Some((more, seconds)) = duration(input.skip(used), amount.number, unit) {
        amount.seconds = Some(seconds);
        return Some((used + more, amount));
    }
    if matches!(unit, Unit::Quart | Unit::Gallon | Unit::Pint) && bag_gap(input.skip(used)).is_some() {
        // Bags are sold by the volume they hold.
        amount.unit = Some(Unit::Bag);
        return bag_gap(input.skip(used)).map(|gap| (used + gap, amount));
    }
    if unit == Unit::Jar
        && let Some((more, jar)) = size_behind(input.skip(used))
    {
        amount.jar = Some(jar);
        return Some((used + more, amount));
    }
    let more = and_half(input.skip(used), &mut amount);
    Some((used + more, amount))
}

/// `of 500 ml`, behind jars.
fn size_behind(input: Tokens<'_>) -> Option<(usize, Jar)> {
    let of = usize::from(one_of!(input.key(0), "of" | "at" | "a" | "x"));
    let (rest, n) = number(input.skip(of)).ok()?;
    let used = input.0.len() - rest.0.len();
    metric_size(rest, n, true).filter(|_| of == 1).map(|(more, jar)| (used + more, jar))
}

/// `a bushel and a half`.
fn and_half(input: Tokens<'_>, amount: &mut Amount) -> usize {
    if input.first().is_some_and(|t| t.word() == Some(Word::And))
        && one_of!(input.key(1), "a")
        && let Some(Word::Part(below)) = input.nth(2).and_then(|t| t.word())
    {
        let follows_unit = matches!(input.nth(3).and_then(|t| t.word()), Some(Word::Unit(_) | Word::Dozen))
            || one_of!(input.key(3), "a" | "of") && matches!(input.nth(4).and_then(|t| t.word()), Some(Word::Unit(_)));
        let sum = Number::new(1, below.into()).and_then(|share| amount.number.checked_add(share));
        if let (false, Some(sum)) = (follows_unit, sum) {
            amount.number = sum;
            return 3;
        }
    }
    0
}

/// The rest of a weight: `6 oz`, a bare `6` for ounces, `300 g`, `and a half`.
fn weight(input: Tokens<'_>, mut amount: Amount, used: usize) -> (usize, Amount) {
    let Some(unit) = amount.unit.and_then(mass_unit) else { return (used, amount) };
    let more = and_half(input, &mut amount);
    let first = scaled(unit, amount.number);
    amount.mass = Some(first);
    if more > 0 || !matches!(amount.unit, Some(Unit::Pound | Unit::Kilo)) {
        return (used + more, amount);
    }
    let (small, small_mass) =
        if amount.is(Unit::Pound) { (Unit::Ounce, Mass::OUNCE) } else { (Unit::Gram, Mass::GRAM) };
    let joint = usize::from(input.first().is_some_and(|t| t.word() == Some(Word::And) || t.is_mark(Mark::Comma)));
    let Ok((rest, n)) = number(input.skip(joint)) else { return (used, amount) };
    let taken = input.0.len() - rest.0.len();
    let hyphen = usize::from(rest.first().is_some_and(|t| t.is_mark(Mark::Hyphen)));
    let said = rest.nth(hyphen).and_then(|t| t.word()) == Some(Word::Unit(small));
    let implied = joint == 0 && is_small_share(input, rest, n, small);
    if !(said || implied) || (said && n.as_f64() >= 1000.0) {
        return (used, amount);
    }
    let Some(sum) = first.checked_add(scaled(small_mass, n)) else { return (used, amount) };
    amount.mass = Some(sum);
    let pounds = if small == Unit::Ounce { Number::new(1, 16) } else { Number::new(1, 1000) };
    amount.number =
        pounds.and_then(|p| p.checked_mul(n)).and_then(|p| amount.number.checked_add(p)).unwrap_or(amount.number);
    (used + taken + if said { hyphen + 1 } else { 0 }, amount)
}

/// Whether a bare number behind pounds (kilograms) can only be ounces (grams): `2lb6`, `6 lb 8`.
fn is_small_share(input: Tokens<'_>, rest: Tokens<'_>, n: Number, small: Unit) -> bool {
    let fits = match small {
        Unit::Ounce => n.as_whole().is_some_and(|n| (1..16).contains(&n)) || n.as_f64() < 16.0 && n.as_f64() > 1.0,
        _ => n.as_whole().is_some_and(|n| (100..1000).contains(&n)),
    };
    let digits = input.first().is_some_and(|t| matches!(t.sense, Sense::Num(_)));
    let glued = input.first().is_some_and(|t| t.glued);
    let open = match rest.first() {
        None => true,
        Some(next) => match next.sense {
            Sense::Mark(mark) => !matches!(mark, Mark::Hyphen | Mark::Times | Mark::Slash | Mark::Hash | Mark::Money),
            Sense::Word(word) => {
                !matches!(word, Word::Unit(_) | Word::Supply(_) | Word::Kin | Word::Folk | Word::Dozen | Word::Hundred)
                    && !one_of!(next.key, "x" | "more")
                    && (small == Unit::Gram || !one_of!(next.key, "of"))
            }
            Sense::Unknown => glued,
            _ => false,
        },
    };
    fits && open && (digits || glued)
}

/// Seconds of a duration whose number and first unit were read.
fn duration(input: Tokens<'_>, n: Number, unit: Unit) -> Option<(usize, u32)> {
    let (each, next) = match unit {
        Unit::Second => (1, 0),
        Unit::Minute | Unit::M => (60, 1),
        Unit::Hour => (3600, 60),
        _ => return None,
    };
    let mut amount = Amount::of(n);
    let half = and_half(input, &mut amount);
    let seconds = |n: Number, each: i64| {
        n.checked_mul(Number::whole(each))
            .map(|s| s.as_f64().round())
            .filter(|s| (0.0..1e9).contains(s))
            .map(|s| s as u32)
    };
    let first = seconds(amount.number, each)?;
    if half > 0 || next == 0 {
        return Some((half, first));
    }
    let joint = usize::from(input.first().is_some_and(|t| t.word() == Some(Word::And) || t.is_mark(Mark::Comma)));
    let Ok((rest, more)) = number(input.skip(joint)) else { return Some((0, first)) };
    let taken = input.0.len() - rest.0.len();
    let unit_said = match rest.first().and_then(|t| t.word()) {
        Some(Word::Unit(Unit::Minute | Unit::M)) => Some(60),
        Some(Word::Unit(Unit::Second)) => Some(1),
        _ => None,
    };
    match unit_said {
        Some(each) if each < 3600 => Some((taken + 1, first + seconds(more, each)?)),
        None if joint == 0
            && more.as_whole().is_some_and(|m| (1..60).contains(&m))
            && input.first().is_some_and(|t| t.glued || unit == Unit::Hour) =>
        {
            Some((taken, first + seconds(more, next)?))
        }
        _ => Some((0, first)),
    }
}

/// A jar by its name: `half pints`, `pint and a half jars`, `quart`, `jelly jars`, `half gallon`.
pub(super) fn size(input: Tokens<'_>) -> Option<(usize, Jar)> {
    let token = input.first()?;
    let (used, jar) = match token.word()? {
        Word::Unit(Unit::HalfPint) => (1, Jar::HalfPint),
        Word::Unit(Unit::Pint) => match pint_and_half(input.skip(1)) {
            Some(more) => (1 + more, Jar::PintAndHalf),
            None => (1, Jar::Pint),
        },
        Word::Unit(Unit::Quart) => (1, Jar::Quart),
        Word::Part(2) => {
            let hyphen = usize::from(input.nth(1).is_some_and(|t| t.is_mark(Mark::Hyphen)));
            let jar = match input.nth(1 + hyphen)?.word()? {
                Word::Unit(Unit::Pint) => Jar::HalfPint,
                Word::Unit(Unit::Gallon) => Jar::HalfGallon,
                Word::Unit(Unit::Litre) => Jar::Ml500,
                _ => return None,
            };
            (2 + hyphen, jar)
        }
        Word::Product if one_of!(token.key, "jelly" | "jam") => {
            matches!(input.nth(1)?.word()?, Word::Unit(Unit::Jar)).then_some((1, Jar::HalfPint))?
        }
        Word::Unit(Unit::Litre) => matches!(input.nth(1)?.word()?, Word::Unit(Unit::Jar)).then_some((1, Jar::L1))?,
        _ => return None,
    };
    if bag_gap(input.skip(used)).is_some() {
        return None;
    }
    let hyphen = usize::from(input.nth(used).is_some_and(|t| t.is_mark(Mark::Hyphen)));
    let sized = hyphen
        + usize::from(one_of!(
            input.key(used + hyphen),
            "size" | "sized" | "mason" | "canning" | "glass" | "empty" | "new" | "wide" | "regular"
        ));
    let sized = sized + usize::from(one_of!(input.key(used + sized), "mouth"));
    match input.nth(used + sized).and_then(|t| t.word()) {
        Some(Word::Unit(Unit::Jar)) => Some((used + sized + 1, jar)),
        _ => Some((used, jar)),
    }
}

/// `and a half`, `-and-a-half`, behind `pint`.
fn pint_and_half(input: Tokens<'_>) -> Option<usize> {
    let mut at = 0;
    let hyphen = |at: usize| usize::from(input.nth(at).is_some_and(|t| t.is_mark(Mark::Hyphen)));
    at += hyphen(at);
    if input.nth(at)?.word() != Some(Word::And) {
        return None;
    }
    at += 1;
    at += hyphen(at);
    at += usize::from(one_of!(input.key(at), "a"));
    at += hyphen(at);
    (input.nth(at)?.word()? == Word::Part(2))
        .then_some(at + 1 + usize::from(input.nth(at + 1).is_some_and(|t| t.word() == Some(Word::Unit(Unit::Pint)))))
}

/// `500 ml jars`, `1 litre jar`, and behind `12 x` without the jars; `n` is the number before the unit.
fn metric_size(input: Tokens<'_>, n: Number, times: bool) -> Option<(usize, Jar)> {
    let hyphen = usize::from(input.first()?.is_mark(Mark::Hyphen));
    let ml = match input.nth(hyphen)?.word()? {
        Word::Unit(Unit::Millilitre) => n.as_whole()?,
        Word::Unit(Unit::Centilitre) => n.as_whole()?.checked_mul(10)?,
        Word::Unit(Unit::Litre) => n.checked_mul(Number::whole(1000))?.as_whole()?,
        _ => return None,
    };
    let jar = match ml {
        250 => Jar::Ml250,
        500 => Jar::Ml500,
        750 => Jar::Ml750,
        1000 => Jar::L1,
        _ => return None,
    };
    let at = hyphen + 1 + usize::from(input.nth(hyphen + 1).is_some_and(|t| t.is_mark(Mark::Hyphen)));
    let at = at + qualities(input.skip(at));
    let jarred = matches!(input.nth(at).and_then(|t| t.word()), Some(Word::Unit(Unit::Jar)))
        || one_of!(input.key(at), "kilner" | "bottles");
    if jarred {
        return Some((at + 1, jar));
    }
    times.then_some((hyphen + 1, jar))
}
