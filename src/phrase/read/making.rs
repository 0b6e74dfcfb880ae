//! The statement of a kind: built from facts, empty, merged with the one before, dated.

use crate::phrase::{build::Carry, drying, facts::Facts, freezer, harvest, pantry, plans, supplies};
use crate::{
    statement::{Statement, When},
    vocabulary::Kind,
};

pub(super) const fn is_listable(kind: Kind) -> bool {
    matches!(
        kind,
        Kind::Picked
            | Kind::Froze
            | Kind::Thawed
            | Kind::Ate
            | Kind::Gave
            | Kind::Tossed
            | Kind::Counted
            | Kind::Filled
            | Kind::PutUp
            | Kind::Opened
            | Kind::Dried
            | Kind::Powdered
            | Kind::Bought
            | Kind::Planted
            | Kind::Drained
    )
}

pub(super) fn build(kind: Kind, f: &Facts<'_>, carry: &mut Carry<'_, '_>) -> Option<Statement> {
    match kind {
        Kind::Picked => harvest::picked(f, carry),
        Kind::Froze => freezer::froze(f, carry),
        Kind::Thawed => freezer::thawed(f, carry),
        Kind::Counted => freezer::counted(f, carry),
        Kind::Ate | Kind::Gave | Kind::Tossed => harvest::taken(kind, f, carry),
        Kind::Began => pantry::began(f, carry),
        Kind::Filled => pantry::filled(f, carry),
        Kind::PutUp | Kind::Opened => pantry::jarred(kind, f, carry),
        Kind::Drained => drying::drained(f, carry),
        Kind::Dried => drying::dried(f, carry),
        Kind::Powdered => drying::powdered(f, carry),
        Kind::Bought => supplies::bought(f, carry),
        Kind::Planted => plans::planted(f, carry),
        _ => None,
    }
}

/// A statement of a kind with nothing in it yet.
pub(super) fn blank(kind: Kind) -> Option<Statement> {
    Some(match kind {
        Kind::Picked => Statement::Picked(Default::default()),
        Kind::Froze => Statement::Froze(Default::default()),
        Kind::Thawed => Statement::Thawed(Default::default()),
        Kind::Ate => Statement::Ate(Default::default()),
        Kind::Gave => Statement::Gave(Default::default()),
        Kind::Tossed => Statement::Tossed(Default::default()),
        Kind::Drained => Statement::Drained(Default::default()),
        Kind::Filled => Statement::Filled(Default::default()),
        Kind::PutUp => Statement::PutUp(Default::default()),
        Kind::Opened => Statement::Opened(Default::default()),
        Kind::Dried => Statement::Dried(Default::default()),
        Kind::Powdered => Statement::Powdered(Default::default()),
        Kind::Bought => Statement::Bought(Default::default()),
        Kind::Planted => Statement::Planted(Default::default()),
        _ => return None,
    })
}

/// Joins a repeated stage with the one before; false when they are two.
pub(super) fn merges(last: &mut Statement, said: &Statement) -> bool {
    match (last, said) {
        (Statement::AtHeat(a), Statement::AtHeat(b)) => {
            a.psi = a.psi.or(b.psi);
            true
        }
        (Statement::Lifted(a), Statement::Lifted(b)) => {
            a.jars = a.jars.or(b.jars);
            true
        }
        (Statement::Unsealed(a), Statement::Unsealed(b))
        | (Statement::Refrigerated(a), Statement::Refrigerated(b))
        | (Statement::Reprocessed(a), Statement::Reprocessed(b)) => {
            let joins = a.jars.is_none() || b.jars.is_none() || a.jars == b.jars;
            a.jars = a.jars.or(b.jars);
            joins
        }
        (Statement::AcidAdded(a), Statement::AcidAdded(b)) => {
            let joins = a.supply.is_none() || b.supply.is_none() || a.supply == b.supply;
            a.supply = a.supply.or(b.supply);
            joins
        }
        (Statement::Sealed(a), Statement::Sealed(b)) => {
            let joins = b.jars.is_none() || *a == *b;
            if a.jars.is_none() {
                *a = b.clone();
                return true;
            }
            joins
        }
        (Statement::Venting(_), _)
        | (Statement::LostHeat(_), _)
        | (Statement::HeatOff(_), _)
        | (Statement::PressureDown(_), _) => true,
        _ => false,
    }
}

/// Sets when a statement happened, for the kinds that lists are made of.
pub(super) fn set_on(said: &mut Statement, on: When) {
    let slot = match said {
        Statement::Picked(s) => &mut s.on,
        Statement::Froze(s) => &mut s.on,
        Statement::Thawed(s) => &mut s.on,
        Statement::Ate(s) | Statement::Gave(s) | Statement::Tossed(s) => &mut s.on,
        Statement::Counted(s) => &mut s.on,
        Statement::PutUp(s) | Statement::Opened(s) => &mut s.on,
        Statement::Filled(s) => &mut s.on,
        Statement::Dried(s) => &mut s.on,
        Statement::Powdered(s) => &mut s.on,
        Statement::Bought(s) => &mut s.on,
        Statement::Planted(s) => &mut s.on,
        _ => return,
    };
    *slot = Some(on);
}
