//! A correction laid over the statement it corrects.

use crate::quantity::{Mass, Number};
use crate::statement::{Correct, Statement, Taken};

/// The statement with the corrected fields; `None` when none of them belongs to this kind of statement. A bare number
/// is in `unit`, that of the words corrected, where the statement is about weight.
pub fn corrected(statement: &Statement, by: &Correct, unit: Option<Mass>) -> Option<Statement> {
    let mut by = by.clone();
    resolve_amount(statement, &mut by, unit);
    let mut now = statement.clone();
    lay_over(&mut now, &by);
    (now != *statement).then_some(now)
}

/// Gives a bare number the meaning that the statement's own number has.
fn resolve_amount(statement: &Statement, by: &mut Correct, unit: Option<Mass>) {
    let Some(amount) = by.amount.take() else { return };
    let count = amount.as_count();
    let mass = || unit.and_then(|unit| unit.times(amount));
    match statement {
        Statement::Froze(s) if s.mass.is_none() => by.bags = count,
        Statement::Froze(s) if s.each.is_some() => by.each = mass(),
        Statement::Thawed(s) if s.mass.is_none() => by.bags = count,
        Statement::Ate(s) | Statement::Gave(s) | Statement::Tossed(s) if s.jars.is_some() => by.jars = count,
        Statement::Ate(s) | Statement::Gave(s) | Statement::Tossed(s) if s.bags.is_some() => by.bags = count,
        Statement::Counted(s) if s.supply.is_some() && s.count.is_some() => by.count = count,
        Statement::Counted(s) if s.jars.is_some() => by.jars = count,
        Statement::Counted(s) if s.bags.is_some() && s.mass.is_none() => by.bags = count,
        Statement::Began(s) if s.mass.is_none() => by.jars = count,
        Statement::Filled(_)
        | Statement::Lifted(_)
        | Statement::Sealed(_)
        | Statement::Unsealed(_)
        | Statement::Reprocessed(_)
        | Statement::Refrigerated(_)
        | Statement::Broke(_)
        | Statement::Siphoned(_)
        | Statement::PutUp(_)
        | Statement::Spoiled(_)
        | Statement::Opened(_) => by.jars = count,
        Statement::Bought(s) if s.mass.is_none() && s.volume.is_none() => by.count = count,
        Statement::Planted(_) => by.count = count,
        Statement::Planned(_) => by.jars = count,
        Statement::TimerStart(_) => by.seconds = amount.checked_mul(Number::whole(60)).and_then(Number::as_count),
        Statement::Dried(s) if s.mass.is_none() => by.bags = count,
        _ => by.mass = mass(),
    }
}

/// Sets a field when the correction has it.
macro_rules! lay {
    ($statement:expr, $by:expr, $($field:ident),+) => {
        {
            $(if $by.$field.is_some() { $statement.$field = $by.$field.clone(); })+
        }
    };
}

fn lay_over(now: &mut Statement, by: &Correct) {
    match now {
        Statement::Picked(s) => lay!(s, by, mass, crop, variety, place, ripeness, on),
        Statement::Froze(s) => {
            lay!(s, by, mass, bags, each, prep, crop, on);
            froze_adds_up(s, by);
        }
        Statement::Thawed(s) => lay!(s, by, mass, bags, crop, on),
        Statement::Ate(s) | Statement::Gave(s) | Statement::Tossed(s) => lay_taken(s, by),
        Statement::Counted(s) => lay!(s, by, from, mass, bags, jars, jar, product, crop, supply, count, volume, on),
        Statement::Began(s) => lay!(s, by, product, jar, jars, mass, canner, on),
        Statement::CookedDown(s) => lay!(s, by, mass, volume, on),
        Statement::Drained(s) => lay!(s, by, mass, volume, on),
        Statement::Filled(s) => lay!(s, by, jars, jar, product, on),
        Statement::AtHeat(s) => lay!(s, by, on),
        Statement::Mishap(s) => lay!(s, by, on),
        Statement::Venting(s)
        | Statement::LostHeat(s)
        | Statement::HeatOff(s)
        | Statement::PressureDown(s)
        | Statement::Stopped(s)
        | Statement::Resumed(s) => {
            lay!(s, by, on);
        }
        Statement::Lifted(s) => lay!(s, by, jars, on),
        Statement::Sealed(s) => lay!(s, by, jars, on),
        Statement::Unsealed(s)
        | Statement::Reprocessed(s)
        | Statement::Refrigerated(s)
        | Statement::Broke(s)
        | Statement::Siphoned(s) => lay!(s, by, jars, on),
        Statement::PutUp(s) | Statement::Opened(s) => lay!(s, by, jars, jar, product, mass, on),
        Statement::Spoiled(s) => lay!(s, by, jars, jar, product, on),
        Statement::Dried(s) => {
            lay!(s, by, mass, on);
            s.trays = by.bags.or(s.trays);
        }
        Statement::Dry(s) => lay!(s, by, mass, on),
        Statement::Planted(s) => lay!(s, by, count, crop, variety, place, on),
        Statement::Planned(s) => lay!(s, by, product, jar, jars),
        Statement::Powdered(s) => lay!(s, by, mass, on),
        Statement::Bought(s) => lay!(s, by, supply, count, mass, volume, jar, on),
        Statement::Recipe(s) => lay!(s, by, mass, jars, jar),
        Statement::TimerStart(s) => lay!(s, by, seconds),
        Statement::Set(s) => lay!(s, by, length, mass, jars, jar, canner, product, count),
        Statement::AcidAdded(s) => lay!(s, by, on),
        Statement::AcidMissing(s) => lay!(s, by, jars, on),
        Statement::TimerStop(_)
        | Statement::Named(_)
        | Statement::CalledOff(_)
        | Statement::Ask(_)
        | Statement::Undo
        | Statement::Correct(_)
        | Statement::Teach(_)
        | Statement::Propose(_)
        | Statement::Clarify(_) => {}
    }
}

/// Another measure replaces the one said: "no, 2 bags" after "ate 2 lb".
fn lay_taken(s: &mut Taken, by: &Correct) {
    if by.mass.is_some() && by.bags.is_none() {
        s.bags = None;
    }
    if by.bags.is_some() || by.jars.is_some() {
        s.mass = None;
    }
    lay!(s, by, mass, bags, jars, jar, product, crop, from, on);
}

/// Bags, weight of each, and total must agree: what was not corrected follows from what was.
fn froze_adds_up(s: &mut crate::statement::Froze, by: &Correct) {
    let bags = s.bags.unwrap_or(1);
    match (by.mass, by.bags, by.each) {
        (Some(_), _, None) => s.each = None,
        (None, Some(_), _) | (None, None, Some(_)) => {
            if let Some(each) = s.each {
                s.mass = each.times(Number::whole(i64::from(bags)));
            }
        }
        (Some(_), _, Some(_)) | (None, None, None) => {}
    }
}
