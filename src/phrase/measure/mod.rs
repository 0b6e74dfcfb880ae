//! Amounts: a number and its unit, composites, and containers with what is in each.
//!
//! ```text
//! amount  = number [ bag-weight ] unit | article unit | number "x" [ number ] unit | weight "x" number
//! weight  = number ("lb" | "kg" | ...) [ [ "and" ] number [ "oz" | "g" ] ]     2 lb 6 oz, 2lb6, 2 kg 300
//! jars    = number size [ "jars" ]              size = "half pints" | "quart" | 500 "ml" | "jelly" | ...
//! bags    = number weight "bags"                three 7-pound bags, 3x7lb, a 7 lb bag
//! time    = number ("min" | "h") [ number [ "min" ] ]   2h15, an hour and a half
//! ```

mod containers;
mod jar_size;

use super::{
    number::number,
    token::{Mark, Sense, Tokens, one_of},
    words::{Unit, Word},
};
use crate::{
    quantity::{Mass, Number, Volume},
    vocabulary::Jar,
};
use containers::{amount_of_container, bag_gap, bags_of, of_containers, of_those, qualities, times_behind};
pub(super) use jar_size::size;
use jar_size::{metric_size, size_behind};

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
    if let Some((more, all)) = of_weight(input.skip(at + used), amount).filter(|_| !definite) {
        return Some((at + used + more, all));
    }
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
            if let Some((more, all)) = of_weight(input.skip(total), amount) {
                return (total + more, all);
            }
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

/// `2 crates` `of 22 lb`, `3 bottles` `of 32 oz`, `a box` `of 24` lids: all of them together.
fn of_weight(input: Tokens<'_>, vessels: Amount) -> Option<(usize, Amount)> {
    let held = matches!(vessels.unit?, Unit::Crate | Unit::Lug | Unit::Vessel | Unit::Box)
        && (one_of!(input.key(0), "of" | "at") || input.first()?.is_mark(Mark::At));
    let (rest, n) = number(input.skip(1)).ok().filter(|_| held)?;
    let used = input.0.len() - rest.0.len();
    let supply = matches!(rest.first().and_then(|t| t.word()), Some(Word::Supply(_)));
    let (more, each) = match with_unit(rest, n, None) {
        Some(found) => found,
        None if supply => (0, Amount::of(n)),
        None => return None,
    };
    let measured = each.unit.is_none() || each.mass.is_some() && !each.is(Unit::Bag) || each.volume().is_some();
    let mut all = each;
    all.number = vessels.number.checked_mul(each.number).filter(|_| measured)?;
    all.mass = each.mass.map(|mass| scaled(mass, vessels.number));
    Some((used + more, all))
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
        // `6 lb 5 percent red`
        Some(next) if one_of!(next.key, "percent" | "pct" | "per") => false,
        Some(next) => match next.sense {
            Sense::Mark(mark) => {
                !matches!(mark, Mark::Hyphen | Mark::Times | Mark::Slash | Mark::Hash | Mark::Money | Mark::Percent)
            }
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
