//! Liquid drained, trays in the dryer, powder out of it.

use super::{
    build::{self, Carry},
    facts::{Facts, has},
    product::Named,
    words::{Form, Unit, Verb},
};
use crate::{
    statement::{Drained, Dried, Powdered, Statement},
    vocabulary::{Crop, Kind, Missing},
};

/// Liquid was poured off: a weight or a volume.
pub(super) fn drained(f: &Facts<'_>, carry: &mut Carry<'_, '_>) -> Option<Statement> {
    if f.bad_object || f.alien > 0 {
        return None;
    }
    let mut said = Drained {
        batch: carry.called(f).or_else(|| carry.batch(f).filter(|_| !is_juice(f))),
        on: carry.when(Kind::Drained, f),
        ..Drained::default()
    };
    said.mass = f.amounts.iter().find_map(|a| a.mass.filter(|_| !a.is(Unit::Bag)));
    if said.mass.is_none() {
        // `2 quarts and a cup`
        said.volume = f.amounts.iter().filter(|a| !a.uncounted).filter_map(|a| a.volume()).reduce(|sum, one| sum + one);
    }
    if said.mass.is_some() || said.volume.is_some() {
        return Some(Statement::Drained(said));
    }
    let n = f.bare()?.number;
    build::clarify_if(build::is_plain(f), (Kind::Drained, Statement::Drained(said)), Missing::Unit, Some(n))
}

/// What is poured off names no batch.
fn is_juice(f: &Facts<'_>) -> bool {
    matches!(f.product, Some(Named::Known("tomato-juice")))
}

/// What is dried, as said: the part where one is named, otherwise the crop.
fn what(f: &Facts<'_>) -> Option<String> {
    let at = match (f.what, f.crop_at) {
        (Some(part), _) => Some(part),
        (None, Some(crop)) => Some(crop),
        (None, None) => f.free_product,
    };
    f.words(at?)
}

/// Went into the dryer.
pub(super) fn dried(f: &Facts<'_>, carry: &mut Carry<'_, '_>) -> Option<Statement> {
    if f.alien > 0 || f.bad_object && f.unit(Unit::Tray).is_none() {
        return None;
    }
    let said = Dried {
        mass: f.amounts.iter().find_map(|a| a.mass),
        trays: f.unit(Unit::Tray).and_then(|a| a.count()),
        what: what(f).or_else(|| f.variety.map(|name| format!("{name}s"))),
        on: carry.when(Kind::Dried, f),
    };
    let timed = f.amounts.iter().any(|a| a.seconds.is_some())
        && (f.has(has::DRYER) || f.verb == Some((Verb::Dry, Form::Ing)))
        && said.what.is_some()
        && f.clean();
    if said.mass.is_some() || said.trays.is_some() || timed {
        return Some(Statement::Dried(said));
    }
    if let Some(n) = f.bare().map(|a| a.number) {
        return build::clarify_if(build::is_plain(f), (Kind::Dried, Statement::Dried(said)), Missing::Unit, Some(n));
    }
    let told = f.clean()
        && (f.what.is_some() || f.crop.is_some_and(|crop| crop != Crop::Herb || f.has(has::DRYER)))
        && f.has(has::DRYER)
        && !f.has_quantity();
    build::clarify_if(told, (Kind::Dried, Statement::Dried(said)), Missing::Amount, None)
}

/// Powder came out.
pub(super) fn powdered(f: &Facts<'_>, carry: &mut Carry<'_, '_>) -> Option<Statement> {
    if f.alien > 0 {
        return None;
    }
    let at = f.what.or(f.crop_at.filter(|_| f.crop != Some(Crop::Tomato)));
    let said = Powdered {
        mass: f.amounts.iter().find_map(|a| a.mass),
        what: at.and_then(|at| f.words(at)),
        on: carry.when(Kind::Powdered, f),
    };
    if said.mass.is_some() {
        return Some(Statement::Powdered(said));
    }
    let n = f.bare()?.number;
    build::clarify_if(
        build::is_plain(f) && f.has(has::POWDER),
        (Kind::Powdered, Statement::Powdered(said)),
        Missing::Unit,
        Some(n),
    )
}
