//! Several things in one clause: the roles in groups of one thing with its amounts, one statement each.

use super::filling::{Filling, Food, Role};
use crate::phrase::build::made::Note;
use crate::phrase::frame::Slots;
use crate::phrase::lexicon::sense::Container;
use crate::phrase::value::Value;
use crate::phrase::value::kinds::Weight;
use crate::phrase::value::portions::Portions;
use crate::quantity::{Mass, Number};
use crate::vocabulary::Kind;
use smallvec::SmallVec;

/// What belongs to one statement.
pub(super) type Group = Vec<(usize, Role)>;

/// What comes first in a clause, and so heads its groups.
#[derive(Clone, Copy)]
struct Heads {
    /// A day before the first amount heads its group; one behind it closes it.
    day: bool,
    thing: bool,
}

/// Whether two weights are the same to a hundredth: people round.
pub(super) fn close(a: Mass, b: Mass) -> bool {
    (a.ratio(b) - 1.0).abs() <= 0.01
}

const fn is_thing(role: &Role) -> bool {
    matches!(role, Role::Food(_) | Role::Supply(_))
}

fn has_thing(group: &[(usize, Role)]) -> bool {
    group.iter().any(|(_, role)| is_thing(role))
}

fn amounts(group: &[(usize, Role)]) -> impl Iterator<Item = &Value> {
    group.iter().filter_map(|(_, role)| match role {
        Role::Amount(value) => Some(value),
        _ => None,
    })
}

/// `a bottle of lemon juice, 32 oz`: two amounts of one thing.
fn measures_same(group: &[(usize, Role)], value: &Value) -> bool {
    let vessel = amounts(group).any(|value| match value {
        Value::Jars(jars) => jars.jar.is_none(),
        Value::Count(count) => matches!(count.container, Container::Bottle | Container::Box | Container::Tub),
        _ => false,
    });
    vessel && matches!(value, Value::Weight(_) | Value::Volume(..) | Value::Count(_) | Value::Number(_))
}

/// `roma tomatoes`, `green beans, french`: two words for one thing.
fn is_same_thing(group: &[(usize, Role)], role: &Role) -> bool {
    let Role::Food(new) = role else { return false };
    group.iter().any(|(_, role)| match role {
        Role::Food(Food { crop, variety, .. }) => {
            variety.is_some() != new.variety.is_some() && (crop.is_none() || new.crop.is_none() || *crop == new.crop)
        }
        _ => false,
    })
}

/// Whether the same weight is said twice: `6.25 kg in 5 bags of 1.25 kg`.
fn says_again(group: &[(usize, Role)], value: &Value) -> bool {
    amounts(group).any(|known| match (known, value) {
        (Value::Weight(weight), Value::Portions(portions)) | (Value::Portions(portions), Value::Weight(weight)) => {
            close(weight.mass, portions.total)
        }
        (Value::Weight(known), Value::Weight(new)) => known.mass == new.mass,
        _ => false,
    })
}

/// Whether an amount can be of the same group as those before it: a count and a weight.
fn combines(group: &[(usize, Role)], value: &Value) -> bool {
    let sort = |value: &Value| match value {
        Value::Jars(jars) if jars.count.is_none() => 0,
        Value::Weight(_) | Value::Measure(..) => 1,
        Value::Count(_) => 2,
        Value::Portions(_) | Value::CountOf(..) => 3,
        Value::Jars(_) | Value::OutOf(_) => 4,
        Value::Number(_) => 5,
        Value::Volume(..) => 6,
        _ => 7,
    };
    let has = |sorts: &[u8]| amounts(group).any(|value| sorts.contains(&sort(value)));
    match (sort(value), value) {
        (1 | 3, _) if says_again(group, value) => true,
        // `2 jars of piccalilli, the 500 ml`: the size of the same.
        (4, Value::Jars(jars))
            if jars.article
                && amounts(group).any(|known| matches!(known, Value::Jars(jars) if jars.count.is_some())) =>
        {
            true
        }
        (1, _) if amounts(group).any(|known| matches!(known, Value::Measure(..))) => true,
        (1, _) | (3, Value::Portions(Portions { count: 1, .. })) => !has(&[1, 3]),
        (2, _) => !has(&[2, 3]),
        (3, _) => !has(&[1, 2, 3]),
        (5, _) => amounts(group).next().is_none(),
        (sort, _) => !has(&[sort]),
    }
}

impl Filling<'_, '_> {
    /// The roles in groups of one thing with its amounts.
    pub(super) fn groups(&mut self) -> SmallVec<[Group; 2]> {
        self.sum_listed();
        let mut roles = std::mem::take(&mut self.roles);
        roles.sort_by_key(|(n, _)| *n);
        if !self.takes(Slots::List) {
            return [roles].into_iter().collect();
        }
        let amount = roles.iter().position(|(_, role)| self.is_group_amount(role));
        let heads = |test: &dyn Fn(&Role) -> bool| {
            let first = roles.iter().position(|(_, role)| test(role));
            first.zip(amount).is_some_and(|(first, amount)| first < amount)
        };
        let heads = Heads { day: heads(&|role| matches!(role, Role::When(_))), thing: heads(&is_thing) };
        let mut groups: SmallVec<[Group; 2]> = SmallVec::new();
        let mut group = Group::new();
        let mut rest = roles.into_iter().peekable();
        while let Some((n, role)) = rest.next() {
            let next = rest.peek().map(|(_, next)| next);
            if self.has_group_amount(&group) {
                // A bare figure beside an amount, with no thing of its own, belongs to nothing.
                if matches!(role, Role::Amount(Value::Number(_))) && !next.is_some_and(is_thing) {
                    self.note(Note::NumberLeft);
                    self.used.remove(n);
                    continue;
                }
                if self.is_group_amount(&role) && self.says_anew(&mut group, n, &role, next) {
                    continue;
                }
            }
            if self.begins(&group, (n, &role), next, heads) {
                groups.push(std::mem::take(&mut group));
            }
            group.push((n, role));
        }
        groups.extend(Some(group).filter(|group| !group.is_empty()));
        groups
    }

    /// Whether a role is an amount of a group. `1 l of lemon juice` is one, though it is a size of jars too.
    fn is_group_amount(&self, role: &Role) -> bool {
        match role {
            Role::Amount(Value::Share(_)) => false,
            Role::Amount(Value::Jars(jars)) => jars.count.is_some() || self.kind() == Kind::Bought,
            role => role.is_amount(),
        }
    }

    fn has_group_amount(&self, group: &[(usize, Role)]) -> bool {
        group.iter().any(|(_, role)| self.is_group_amount(role))
    }

    /// Whether a role begins another group.
    fn begins(&self, group: &[(usize, Role)], (n, role): (usize, &Role), next: Option<&Role>, heads: Heads) -> bool {
        let (amount, thing) = (self.has_group_amount(group), has_thing(group));
        match (role, next) {
            (Role::When(_), Some(Role::Amount(next))) => heads.day && amount && !combines(group, next),
            (Role::Amount(value), next) if self.is_group_amount(role) => {
                let bought = self.kind() == Kind::Bought
                    && (thing && !heads.thing
                        || amounts(group).any(
                            |value| matches!(value, Value::Jars(jars) if jars.count.is_some() && jars.jar.is_some()),
                        ))
                    && !measures_same(group, value);
                amount && (bought || !combines(group, value) || thing && next.is_some_and(is_thing) && !heads.thing)
            }
            (role, next) if is_thing(role) => {
                // `apple rings`: two words for what was dried.
                let joined = group.last().is_some_and(|(at, last)| is_thing(last) && at + 1 == n);
                match self.kind() {
                    Kind::Planted if thing && !amount => !is_same_thing(group, role),
                    Kind::Dried if joined => false,
                    _ if heads.thing => amount && thing,
                    _ => thing && amount && !is_same_thing(group, role) && next.is_some_and(Role::is_amount),
                }
            }
            _ => false,
        }
    }

    /// `2 bags frozen, 7 and 6.5 lb`: as many weights as bags are those of the bags.
    fn sum_listed(&mut self) {
        let count = self.roles.iter().find_map(|(n, role)| match role {
            Role::Amount(Value::Count(count)) => count.count.as_count().map(|bags| (*n, bags, count.container)),
            _ => None,
        });
        let Some((at, bags, container)) = count.filter(|(_, bags, _)| (2..20).contains(bags)) else { return };
        let weights: SmallVec<[(usize, Option<Weight>, Number); 6]> = self
            .roles
            .iter()
            .filter(|(n, _)| *n > at)
            .filter_map(|(n, role)| match role {
                Role::Amount(Value::Weight(weight)) => Some((*n, Some(*weight), weight.figure)),
                Role::Amount(Value::Number(figure)) if !figure.article => Some((*n, None, figure.number)),
                _ => None,
            })
            .collect();
        let unit = weights.iter().rev().find_map(|(_, weight, _)| *weight).map(|weight| weight.unit);
        let Some(unit) = unit.filter(|_| weights.len() == bags as usize) else { return };
        let total = weights.iter().try_fold(Mass::ZERO, |sum, (_, weight, number)| {
            sum.checked_add(weight.map_or_else(|| unit.times(*number), |weight| Some(weight.mass))?)
        });
        let Some(total) = total else { return };
        let container = Some(container);
        let whole = Portions { count: bags, container, each: None, total, plainly: true, fluid: None, metric: false };
        self.roles.retain(|(n, _)| *n != at && !weights.iter().any(|(other, ..)| other == n));
        self.roles.push((at, Role::Amount(Value::Portions(whole))));
    }
}
