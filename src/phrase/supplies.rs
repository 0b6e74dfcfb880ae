//! Lids, jars, acid, salt and bags bought.

use super::{
    build::{self, Carry},
    facts::{Facts, has},
    measure::Amount,
    token::says,
    words::{Unit, Verb},
};
use crate::{
    quantity::{Number, Volume},
    statement::{Bought, Statement},
    vocabulary::{Kind, Missing, Supply},
};

/// Lids come a dozen to the box.
const BOX_OF_LIDS: i64 = 12;

/// What was bought, where nothing but the unit may tell it.
pub(super) fn supply_of(f: &Facts<'_>) -> Option<Supply> {
    if f.supply.is_some() {
        return f.supply;
    }
    if f.jars().is_some() || f.amounts.iter().any(|a| a.is_jars()) || f.has(has::JARS) {
        return Some(Supply::Jars);
    }
    f.unit(Unit::Bag).filter(|a| a.mass.is_none() && !a.article).map(|_| Supply::Bags)
}

/// How much of a supply one amount is.
pub(super) fn measure(supply: Supply, amount: &Amount, into: &mut Bought) -> bool {
    let liquid = matches!(supply, Supply::LemonJuice | Supply::Vinegar);
    match supply {
        Supply::Lids => {
            let each = match amount.unit {
                None => 1,
                Some(Unit::Box | Unit::Vessel) => BOX_OF_LIDS,
                Some(Unit::Jar | Unit::Quart | Unit::Pint) => return false,
                Some(_) => return false,
            };
            into.count = amount.number.checked_mul(Number::whole(each)).and_then(Number::as_count);
        }
        Supply::Jars => {
            into.jar = amount.jar;
            into.count = match amount.unit {
                Some(Unit::Box | Unit::Vessel) => None,
                _ => amount.count(),
            };
        }
        Supply::Bags => into.count = amount.count().filter(|_| matches!(amount.unit, None | Some(Unit::Bag))),
        _ if amount.mass.is_some() && !(liquid && amount.is(Unit::Ounce)) => into.mass = amount.mass,
        _ if liquid && amount.is(Unit::Ounce) => into.volume = Volume::FLUID_OUNCE.times(amount.number),
        _ => into.volume = amount.volume(),
    }
    into.count.is_some() || into.mass.is_some() || into.volume.is_some()
}

/// Supplies bought.
pub(super) fn bought(f: &Facts<'_>, carry: &mut Carry<'_, '_>) -> Option<Statement> {
    let supply = supply_of(f)?;
    if f.alien > 0
        || supply == Supply::Bags && f.bad_object
        || supply == Supply::Jars && (f.product.is_some() || f.crop.is_some())
    {
        return None;
    }
    let mut said = Bought { supply: Some(supply), on: carry.when(Kind::Bought, f), ..Bought::default() };
    let of_freezer = f.any_token(|k| super::token::one_of!(k, "freezer" | "ziploc" | "ziplock"));
    if supply == Supply::Bags && !f.has(has::JARS) && f.common > u16::from(of_freezer) {
        return None;
    }
    let sized = f.jar().filter(|_| supply == Supply::Jars);
    for amount in f.amounts.iter().filter(|a| !a.uncounted) {
        if measure(supply, amount, &mut said) {
            said.jar = said.jar.or(sized);
            return Some(Statement::Bought(said));
        }
    }
    said.jar = sized;
    let rare = matches!(supply, Supply::Lids | Supply::CitricAcid | Supply::LemonJuice) && f.verb_is(Verb::Buy);
    let told = (f.clean() || rare && f.unknown + f.alien == 0 && f.common <= 1)
        && (f.verb_is(Verb::Buy)
            || f.supply.is_some()
            || supply == Supply::Jars
                && (f.verb_is(Verb::Pick)
                    || f.verb_is(Verb::Get)
                        && f.amounts.iter().any(|a| matches!(a.unit, Some(Unit::Vessel | Unit::Box)))))
        && !f.has(has::YOU | has::THEY);
    let vessel = f.amounts.iter().any(|a| matches!(a.unit, Some(Unit::Vessel | Unit::Box | Unit::Bag | Unit::Jar)));
    if let Some(n) = f.bare().filter(|_| !vessel).map(|a| a.number) {
        return build::clarify_if(told, (Kind::Bought, Statement::Bought(said)), Missing::Unit, Some(n));
    }
    build::clarify_if(
        told && (supply != Supply::Bags || of_freezer) && !says!(f, "ordered"),
        (Kind::Bought, Statement::Bought(said)),
        Missing::Amount,
        None,
    )
}
