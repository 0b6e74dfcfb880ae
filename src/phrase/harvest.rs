//! Picked, eaten, given away, thrown away.

use super::{
    build::{self, Carry},
    facts::{Facts, Way, has},
    measure::Amount,
    scan::Item,
    token::says,
    words::{Unit, Verb},
};
use crate::{
    processes::{Measure, harvest_measure},
    quantity::{Mass, Number},
    statement::{Picked, Statement, Taken},
    vocabulary::{Crop, Kind, Missing, Stock},
};

/// A harvest: a weight, or a measure whose weight is published for the crop.
pub(super) fn picked(f: &Facts<'_>, carry: &mut Carry<'_, '_>) -> Option<Statement> {
    let mut said = Picked {
        crop: f.crop,
        variety: f.variety.map(str::to_owned),
        place: place(f),
        ripeness: f.ripe.filter(|_| !names_kind(f)),
        on: carry.when(Kind::Picked, f),
        ..Picked::default()
    };
    if f.bad_object {
        if f.mass().is_none() || said.variety.is_some() || !f.verb_is(Verb::Pick) || f.alien > 0 {
            return None;
        }
        said.variety = Some(singular(&f.words(f.unknown_variety?)?));
    }
    let crop = f.crop.unwrap_or(Crop::Tomato);
    if let Some(amount) = f.mass() {
        carry.unit = amount.unit;
        said.mass = f.amounts.iter().find_map(|a| a.mass);
        return Some(Statement::Picked(said));
    }
    if let Some(mass) = f.amounts.iter().find_map(|amount| harvest(amount, crop)) {
        said.mass = Some(mass);
        return Some(Statement::Picked(said));
    }
    if let Some(amount) = f.bare()
        && let Some(mass) = carry.mass(amount.number)
    {
        said.mass = Some(mass);
        return Some(Statement::Picked(said));
    }
    let about = (Kind::Picked, Statement::Picked(said));
    match f.amounts.iter().find(|a| !a.uncounted) {
        Some(amount) if amount.unit.is_none() || amount.is(Unit::Bag) => {
            build::clarify_if(build::is_plain(f), about, Missing::Unit, Some(amount.number))
        }
        Some(amount) if harvest_unit(amount).is_some() => {
            Some(build::clarify(about, Missing::Unit, Some(amount.number)))
        }
        _ => build::clarify_if(build::is_told(f), about, Missing::Amount, None),
    }
}

/// `green peppers`, `red onions`: the colour is the kind's, not a stage of ripening.
fn names_kind(f: &Facts<'_>) -> bool {
    let of_kind = |crop| !matches!(crop, Crop::Tomato | Crop::Tomatillo);
    f.chunks.windows(2).any(|w| matches!((w[0].item, w[1].item), (Item::Ripe(_), Item::Crop(crop)) if of_kind(crop)))
}

fn harvest_unit(amount: &Amount) -> Option<Measure> {
    match amount.unit? {
        Unit::Bushel => Some(Measure::Bushel),
        Unit::Peck => Some(Measure::Peck),
        Unit::Lug => Some(Measure::Lug),
        Unit::Crate => Some(Measure::Crate),
        _ => None,
    }
}

/// The published weight of bushels, pecks and lugs.
pub(super) fn harvest(amount: &Amount, crop: Crop) -> Option<Mass> {
    harvest_measure(crop, harvest_unit(amount)?)?.mass.times(amount.number)
}

pub(super) fn place(f: &Facts<'_>) -> Option<String> {
    if let Some((from, to)) = f.place {
        return f.words((from, to)).map(|words| numbered(&words));
    }
    if f.has(has::PLANTS) && f.free_place.is_none() {
        return None;
    }
    f.words(f.free_place?)
}

/// `bed three` is `bed 3`, and `bed3` too.
fn numbered(place: &str) -> String {
    const NUMBERS: [&str; 10] = ["one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"];
    if let Some((noun, last)) = place.rsplit_once(' ') {
        if let Some(n) = NUMBERS.iter().position(|word| *word == last) {
            return format!("{noun} {}", n + 1);
        }
        return format!("{noun} {}", last.trim_start_matches('#')).trim_end().to_owned();
    }
    match place.find(|c: char| c.is_ascii_digit()) {
        Some(at) if at > 0 => format!("{} {}", &place[..at], &place[at..]),
        _ => place.to_owned(),
    }
}

fn singular(word: &str) -> String {
    match word {
        _ if word.ends_with("ss") || word.len() < 4 => word.to_owned(),
        _ if word.ends_with("ies") => format!("{}y", &word[..word.len() - 3]),
        _ if word.ends_with("oes") => word[..word.len() - 2].to_owned(),
        _ => word.strip_suffix('s').unwrap_or(word).to_owned(),
    }
}

/// Eaten, given or tossed: by weight, by bag, or by jar.
pub(super) fn taken(kind: Kind, f: &Facts<'_>, carry: &mut Carry<'_, '_>) -> Option<Statement> {
    let wrap = |said: Taken| match kind {
        Kind::Gave => Statement::Gave(said),
        Kind::Tossed => Statement::Tossed(said),
        _ => Statement::Ate(said),
    };
    // `a jar broke on the shelf`: of what, is asked.
    let shelved = f.stock.or(f.dest) == Some(Stock::Pantry) && says!(f, "broke" | "shattered") && f.jars().is_some();
    if f.bad_object && !shelved {
        return None;
    }
    let mut said = Taken {
        crop: f.crop,
        from: f.source.or_else(|| f.stock.filter(|_| kind != Kind::Gave || f.place_way != Way::With)),
        on: carry.when(kind, f),
        ..Taken::default()
    };
    // `tossed the jar that didn't seal`: which it was is known already.
    let failed = f.has(has::UNSEALED | has::DUD) || f.verb_is(Verb::Seal) && f.has(has::NOT);
    let meal = u16::from(says!(f, "supper" | "dinner" | "lunch" | "breakfast" | "tea" | "brunch"));
    if failed && f.mass().is_none() && f.unit(Unit::Bag).is_none() && f.common + f.unknown + f.alien <= meal {
        let counted = f.jars().filter(|a| !a.uncounted).or(f.bare()).and_then(|a| a.count());
        said.jars = counted.or_else(|| says!(f, "jar" | "one" | "dud" | "quart" | "pint").then_some(1));
        said.jar = f.jar();
        said.product = build::product(f, carry);
        said.crop = None;
        // Of what there is on the shelf too: not from there.
        let named = said.product.is_some() || said.jar.is_some();
        let waits = carry.context.lexicon.unsealed > 0 && kind != Kind::Tossed && said.from.is_none();
        said.unsealed = (named && waits).then_some(true);
        return said.jars.map(|_| wrap(said));
    }
    if let Some(amount) = f.jars() {
        if build::part_of_day_out(f) {
            return None;
        }
        said.crop = None;
        said.jars = amount.count().or(Some(1));
        said.jar = amount.jar.or(f.jar());
        said.product = build::product(f, carry).filter(|_| !shelved || f.product.is_some() || f.crop.is_some());
        carry.jar = said.jar;
        if said.product.is_none() {
            let missing = build::is_plain(f) && amount.jar.is_some() && kind != Kind::Ate || shelved;
            return build::clarify_if(missing, (kind, wrap(said)), Missing::Product, Some(amount.number));
        }
        return Some(wrap(said));
    }
    let bags = f.unit(Unit::Bag);
    if let Some(amount) = bags {
        said.bags = amount.count();
        said.mass = f.amounts.iter().find_map(|a| a.mass);
        if said.mass.is_none() && said.bags.is_none() {
            return None;
        }
        return Some(wrap(said));
    }
    if let Some(amount) = f.mass() {
        carry.unit = amount.unit;
        said.mass = amount.mass;
        return Some(wrap(said));
    }
    if let Some(mass) = f.amounts.iter().find_map(|amount| harvest(amount, f.crop.unwrap_or(Crop::Tomato))) {
        said.mass = Some(mass);
        return Some(wrap(said));
    }
    if let Some(amount) = f.bare() {
        return bare(kind, f, carry, said, amount.number, wrap);
    }
    if f.has_quantity() && f.amounts.iter().any(|a| !a.is(Unit::Vessel)) {
        return None;
    }
    let told =
        build::is_told(f) && (f.crop.is_some() || f.variety.is_some() || f.product.is_some() || f.has(has::SOME));
    build::clarify_if(told, (kind, wrap(said)), Missing::Amount, None)
}

/// A bare number takes the unit of the statement before it, or asks for one.
fn bare(
    kind: Kind,
    f: &Facts<'_>,
    carry: &Carry<'_, '_>,
    mut said: Taken,
    n: Number,
    wrap: impl Fn(Taken) -> Statement,
) -> Option<Statement> {
    if let Some(mass) = carry.mass(n) {
        said.mass = Some(mass);
    } else if carry.unit == Some(Unit::Bag) {
        said.bags = n.as_count();
    } else if let (Some(product), Some(jars)) = (f.product.and_then(|_| build::product(f, carry)), n.as_count()) {
        // `ate 2 of the salsa`: jars of which size is not said.
        said.crop = None;
        said.product = Some(product);
        said.jars = Some(jars);
        return build::clarify_if(build::is_plain(f), (kind, wrap(said)), Missing::Jar, Some(n));
    } else {
        return build::clarify_if(build::is_plain(f), (kind, wrap(said)), Missing::Unit, Some(n));
    }
    Some(wrap(said))
}
