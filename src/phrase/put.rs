//! Amounts, jars and products put into the slots of a statement, whatever its kind.

use super::lexicon::sense::Container;
use super::value::Value;
use crate::processes::harvest_measure;
use crate::quantity::{Length, Mass, Number, Volume};
use crate::statement::{Bought, Statement};
use crate::vocabulary::{Crop, Jar, Product, SettingKey, Supply};

/// A field that statements of several kinds have under one name.
macro_rules! field {
    ($statement:expr, $field:ident: $($kind:ident)|+) => {
        match $statement {
            $(Statement::$kind(said) => Some(&mut said.$field),)+
            _ => None,
        }
    };
}

/// Sets fields of a statement to what was said; whether any of them was.
macro_rules! fill {
    ($statement:expr, $said:expr, $($field:ident),+) => {{
        let said = $said;
        $($statement.$field = said.$field;)+
        false $(|| said.$field.is_some())+
    }};
}

/// Sets the product.
pub(super) fn set_product(statement: &mut Statement, named: Product) {
    let slot = field!(statement, product: Began | PutUp | Opened | Ate | Gave | Tossed | Filled | Counted | Ask | Set);
    if let Some(slot) = slot {
        *slot = Some(named);
    }
}

/// Where a statement keeps the size of its jars.
pub(super) fn jar_slot(statement: &mut Statement) -> Option<&mut Option<Jar>> {
    field!(
        statement,
        jar: Began | PutUp | Opened | Ate | Gave | Tossed | Filled | Counted | Ask | Recipe | Set | Bought
    )
}

/// Sets the size of the jars.
pub(super) fn set_jar(statement: &mut Statement, jar: Jar) {
    if let Some(slot) = jar_slot(statement) {
        *slot = Some(jar);
    }
}

/// Where a statement keeps how many jars there are.
pub(super) fn jars_slot(statement: &mut Statement) -> Option<&mut Option<u32>> {
    match statement {
        Statement::Bought(said) => Some(&mut said.count),
        other => {
            field!(other, jars: Began | PutUp | Opened | Ate | Gave | Tossed | Filled | Counted | Ask | Recipe | Set)
        }
    }
}

/// Sets the weight of what is a share of something.
pub(super) fn set_mass(statement: &mut Statement, mass: Mass) {
    if let Some(slot) = field!(statement, mass: Froze | Thawed | Ate | Gave | Tossed) {
        *slot = Some(mass);
    }
}

/// The weight of what a statement takes from the garden, or of what was in store.
pub(super) fn mass_of(statement: &Statement) -> Option<Mass> {
    use Statement::{Ate, Froze, Gave, Picked, Thawed, Tossed};
    let moves = matches!(statement, Picked(_) | Froze(_) | Thawed(_) | Ate(_) | Gave(_) | Tossed(_));
    statement.mass().filter(|_| moves)
}

/// The share that a statement gives.
pub(super) fn share_of(statement: &Statement) -> Option<Number> {
    match statement {
        Statement::Froze(s) => s.share.filter(|_| s.of.is_none()),
        Statement::Thawed(s) => s.share.filter(|_| s.of.is_none()),
        Statement::Ate(s) | Statement::Gave(s) | Statement::Tossed(s) => s.share.filter(|_| s.of.is_none()),
        _ => None,
    }
}

/// What a value says in the terms of statements.
#[derive(Clone, Copy, Default)]
struct Said {
    mass: Option<Mass>,
    volume: Option<Volume>,
    bags: Option<u32>,
    each: Option<Mass>,
    trays: Option<u32>,
    jars: Option<u32>,
    jar: Option<Jar>,
    count: Option<u32>,
    boxed: bool,
    seconds: Option<u32>,
    length: Option<Length>,
}

impl Said {
    /// The volume only where nothing was weighed.
    fn or_volume(self) -> Self {
        Self { volume: self.volume.filter(|_| self.mass.is_none()), ..self }
    }

    fn of(value: Value, crop: Option<Crop>) -> Self {
        let none = Self::default();
        match value {
            Value::Weight(weight) => Self { mass: Some(weight.mass), volume: weight.fluid, ..none },
            Value::Measure(n, measure) => {
                let weight =
                    harvest_measure(crop.unwrap_or(Crop::Tomato), measure).and_then(|weight| weight.mass.times(n));
                Self { mass: weight, ..none }
            }
            Value::Portions(portions) => {
                Self { mass: Some(portions.total), bags: Some(portions.count), each: portions.each, ..none }
            }
            Value::Count(count) => match count.container {
                Container::Tray => Self { trays: count.count.as_count(), ..none },
                Container::Jar => Self { jars: count.count.as_count(), count: count.count.as_count(), ..none },
                _ => {
                    let (bags, boxed) = (count.count.as_count(), count.container == Container::Box);
                    Self { bags, count: bags, boxed, ..none }
                }
            },
            Value::Jars(jars) => {
                let count = jars.count.and_then(Number::as_count);
                Self {
                    jars: count,
                    jar: jars.jar,
                    count,
                    volume: jars.jar.and_then(|jar| jar.volume().times(jars.count?)),
                    ..none
                }
            }
            Value::OutOf(out) => Self { jars: Some(out.jars), jar: out.jar, ..none },
            Value::Volume(volume, _) => Self { volume: Some(volume), ..none },
            Value::Number(figure) => Self { count: figure.number.as_count(), ..none },
            Value::Duration(seconds) => Self { seconds: Some(seconds), ..none },
            Value::Height(height) => Self { length: Some(height.length), ..none },
            _ => none,
        }
    }
}

/// Puts an amount where a statement misses it; false when it does not fit there.
pub(super) fn put(statement: &mut Statement, value: Value) -> bool {
    let crop = match statement {
        Statement::Picked(s) => s.crop,
        Statement::Froze(s) => s.crop,
        _ => None,
    };
    let said = Said::of(value, crop);
    match statement {
        Statement::Picked(s) => fill!(s, said, mass),
        Statement::Froze(s) => {
            (s.bags, s.each, s.mass) = (said.bags.or(s.bags), said.each.or(s.each), said.mass);
            said.bags.is_some() || said.mass.is_some()
        }
        Statement::Thawed(s) => fill!(s, said, bags, mass),
        Statement::Counted(s) => {
            s.jar = said.jar.or(s.jar);
            let supplied = s.supply.is_some() && fill!(s, said, count);
            fill!(s, said, bags, mass, jars) || supplied || s.count.is_some()
        }
        Statement::Ate(s) | Statement::Gave(s) | Statement::Tossed(s) => {
            s.jar = said.jar.or(s.jar);
            fill!(s, said, bags, mass, jars)
        }
        // A weight is a volume too where it is in ounces: of liquid that was weighed, the weight counts.
        Statement::Drained(s) => fill!(s, said.or_volume(), mass, volume),
        Statement::CookedDown(s) => fill!(s, said.or_volume(), mass, volume),
        Statement::Dried(s) => fill!(s, said, mass, trays),
        Statement::Powdered(s) => fill!(s, said, mass),
        Statement::PutUp(s) | Statement::Opened(s) => {
            s.jar = said.jar.or(s.jar);
            fill!(s, said, jars)
        }
        Statement::Filled(s) => {
            s.jar = said.jar.or(s.jar);
            fill!(s, said, jars)
        }
        Statement::Bought(s) => put_supply(s, said),
        Statement::TimerStart(s) => fill!(s, said, seconds),
        Statement::Recipe(s) => {
            s.mass = said.mass.or(s.mass);
            said.mass.is_some()
        }
        Statement::Set(s) if s.key == SettingKey::Altitude => fill!(s, said, length),
        Statement::Set(s) => {
            (s.mass, s.count) = (said.mass.or(s.mass), said.count.or(s.count));
            said.mass.is_some() || said.count.is_some()
        }
        _ => false,
    }
}

fn put_supply(s: &mut Bought, said: Said) -> bool {
    match s.supply.unwrap_or(Supply::Lids) {
        Supply::LemonJuice | Supply::Vinegar => fill!(s, said, volume),
        Supply::CitricAcid | Supply::Salt => fill!(s, said, mass),
        Supply::Lids | Supply::Jars | Supply::Bags => {
            // A box of lids holds a dozen, as sold (common practice).
            let dozen = if said.boxed && s.supply == Some(Supply::Lids) { 12 } else { 1 };
            s.count = said.count.or(said.jars).and_then(|count| count.checked_mul(dozen));
            s.jar = s.jar.or(said.jar);
            s.count.is_some()
        }
    }
}
