//! What each of several holds: `3 buckets, 10 lb each` is thirty pounds.

use super::Reader;
use crate::phrase::{
    facts::{Facts, has},
    measure::Amount,
    words::Unit,
};
use crate::{
    quantity::{Mass, Number},
    statement::Statement,
    vocabulary::Kind,
};

impl Reader<'_, '_, '_> {
    /// `froze 3 bags. they are 6 lb each`: the weight of what was counted just before; false when it is none.
    pub(super) fn adds_each(&mut self, f: &Facts<'_>) -> bool {
        let plain = f.each
            && f.verb.is_none()
            && f.clean()
            && f.amounts.len() == 1
            && f.crop.is_none()
            && f.source.or(f.dest).or(f.stock).is_none()
            && !f.has(has::NOT | has::MODAL | has::TOTAL);
        let Some(each) = f.mass().filter(|_| plain).and_then(|a| a.mass) else { return false };
        let all = |bags: u32| each.times(Number::whole(bags.into()));
        let slot: (Option<u32>, &mut Option<Mass>) = match self.out.last_mut() {
            Some(Statement::Froze(s)) if s.mass.is_none() && s.bags.is_some() => {
                s.each = Some(each);
                (s.bags, &mut s.mass)
            }
            Some(Statement::Thawed(s)) => (s.bags, &mut s.mass),
            Some(Statement::Ate(s) | Statement::Gave(s) | Statement::Tossed(s)) => (s.bags, &mut s.mass),
            Some(Statement::Counted(s)) => (s.bags, &mut s.mass),
            _ => return false,
        };
        let (Some(bags), mass @ None) = slot else { return false };
        *mass = all(bags);
        true
    }
}

/// The facts with the weight of all in place of that of each; `None` where the weight said is that of all, or where the
/// kind tells both.
pub(super) fn of_all<'t>(kind: Kind, f: &Facts<'t>) -> Option<Facts<'t>> {
    if matches!(kind, Kind::Froze | Kind::Thawed | Kind::Counted) || f.has(has::TOTAL) {
        return None;
    }
    let holds = |a: &Amount| {
        a.each.is_none()
            && a.mass.is_none()
            && (a.is_jars() && !a.uncounted && !(a.jar.is_some() && kind == Kind::Drained)
                || matches!(
                    a.unit,
                    None | Some(Unit::Bag | Unit::Vessel | Unit::Tray | Unit::Box | Unit::Crate | Unit::Lug)
                ))
    };
    let at = f.amounts.iter().position(holds)?;
    let several = f.amounts.get(at).filter(|a| a.count().is_some_and(|n| n > 1))?;
    let is_measure = |a: &Amount| !holds(a) && (a.mass.is_some() || a.volume().is_some());
    let measures: Vec<usize> = (0..f.amounts.len()).filter(|n| *n != at && is_measure(&f.amounts[*n])).collect();
    let [measure] = measures.as_slice() else { return None };
    // `3 bags of 6 lb`, but `3 bags with 6 lb in all`.
    let joined = f.joined && several.is(Unit::Bag) && *measure > at;
    if !(f.each || joined) {
        return None;
    }
    let n = several.number;
    let mut all = f.clone();
    let amount = all.amounts.get_mut(*measure)?;
    amount.number = amount.number.checked_mul(n)?;
    amount.mass = match amount.mass {
        Some(mass) => Some(mass.times(n)?),
        None => None,
    };
    Some(all)
}
