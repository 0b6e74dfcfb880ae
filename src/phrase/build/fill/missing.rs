//! What a frame needs and a record lacks: it is asked for.

use super::filling::{Filling, Way};
use crate::phrase::build::made::Note;
use crate::phrase::build::record::{Record, clarify};
use crate::phrase::frame::Slots;
use crate::quantity::{Mass, Number};
use crate::statement::{Statement, TimerStart};
use crate::vocabulary::{Kind, Missing, SettingKey, Supply};

/// What is missing, and the number that it is missing for.
type Lack = Option<(Missing, Option<Number>)>;

fn whole(n: Option<u32>) -> Option<Number> {
    n.map(|n| Number::whole(n.into()))
}

/// Whether a record fills a slot that a frame may need.
fn fills(record: &Record, slot: Slots) -> bool {
    match slot {
        Slots::Mass => record.mass.is_some(),
        Slots::Volume => record.volume.is_some(),
        Slots::Count => record.bags.is_some(),
        Slots::Trays => record.trays.is_some(),
        Slots::Jars => record.jars.is_some() || record.jar.is_some(),
        Slots::Number => record.number.is_some(),
        Slots::Share => record.share.is_some(),
        Slots::Crop => record.crop.is_some(),
        Slots::Variety => record.variety.is_some(),
        Slots::Product => record.product.is_some(),
        Slots::Dryable => record.what.is_some(),
        Slots::Supply => record.supply.is_some(),
        Slots::Canner => record.canner.is_some(),
        Slots::Height => record.height.is_some(),
        Slots::Temp => record.temp.is_some(),
        _ => false,
    }
}

/// What is missing of jars that were put up.
fn missing_of_jars(record: &Record) -> Lack {
    match (record.jars, record.jar, &record.product) {
        (Some(_), Some(_), Some(_)) => None,
        (Some(_), None, Some(_)) => Some((Missing::Jar, whole(record.jars))),
        (None, None, Some(_)) if record.number.is_some() => Some((Missing::Jar, record.number)),
        (None, _, Some(_)) => Some((Missing::Amount, None)),
        (Some(_), _, None) => Some((Missing::Product, whole(record.jars))),
        (None, _, None) => Some((Missing::Unit, record.number)),
    }
}

/// What is missing of a supply that was bought or runs low.
fn missing_of_supply(record: &Record, kind: Kind) -> Lack {
    let measured = record.mass.is_some() || record.volume.is_some();
    let pieces = matches!(record.supply, Some(Supply::Lids | Supply::Jars | Supply::Bags));
    match record.number {
        Some(number) if kind == Kind::Bought && !pieces && !measured => Some((Missing::Unit, Some(number))),
        None if !measured && record.jars.is_none() => Some((Missing::Amount, None)),
        _ => None,
    }
}

impl Filling<'_, '_> {
    /// The statements of the records, or questions for what they lack.
    pub(super) fn statements(&mut self, records: impl IntoIterator<Item = Record>) -> Option<Vec<Statement>> {
        let frame = self.clause.frame;
        let mut statements = Vec::new();
        for mut record in records {
            // A weight of each whose unit is asked for: not nothing, and not yet known.
            record.each = record.each.or(record.each_number.map(|_| Mass::ZERO));
            if let Some((missing, amount)) = self.missing(&record) {
                self.note(match missing {
                    Missing::Unit => Note::AskUnit,
                    Missing::Amount => Note::AskAmount,
                    Missing::Product => Note::AskProduct,
                    Missing::Jar => Note::AskJar,
                    Missing::Canner | Missing::Altitude => Note::AskCanner,
                });
                statements.push(clarify(frame.kind, missing, amount, record.statement(frame)));
                continue;
            }
            // `skins in the dryer for 8 hours`: what went in, and a timer for it.
            let timer = TimerStart { seconds: record.seconds, label: record.what.clone() };
            statements.push(record.statement(frame)?);
            if frame.kind == Kind::Dried && timer.seconds.is_some() {
                statements.push(Statement::TimerStart(timer));
            }
        }
        Some(statements)
    }

    /// What the frame needs and the record lacks.
    fn missing(&self, record: &Record) -> Lack {
        let frame = self.clause.frame;
        let (jars, number) = (whole(record.jars), record.number);
        if record.each_number.is_some() {
            return Some((Missing::Unit, record.each_number));
        }
        match frame.kind {
            // `froze 14 in 2 bags`: a figure without its unit is asked about, not passed over.
            Kind::Froze | Kind::Thawed if record.bags.is_some() && record.mass.is_none() && number.is_some() => {
                Some((Missing::Unit, number))
            }
            Kind::PutUp => missing_of_jars(record),
            Kind::Filled if jars.is_none() && number.is_some() => Some((Missing::Jar, number)),
            Kind::Gave if record.product.is_none() && self.ends_with_of() => Some((Missing::Product, jars)),
            Kind::Opened if self.is_way(Way::Ask) && jars.is_some() => Some((Missing::Jar, jars)),
            Kind::Opened if record.product.is_none() && jars.is_some() => Some((Missing::Product, jars)),
            Kind::Counted if record.product.is_none() && jars.is_some() && record.supply.is_none() => {
                Some((Missing::Product, jars))
            }
            Kind::Opened | Kind::Gave | Kind::Ate | Kind::Tossed
                if record.product.is_some() && jars.is_none() && number.is_some() =>
            {
                Some((Missing::Jar, number))
            }
            Kind::Began if record.product.is_none() => Some((Missing::Product, None)),
            Kind::Bought if record.supply.is_some() => missing_of_supply(record, frame.kind),
            // `bought 12`, `bought 3 lb`: of what is asked, since without it there is nothing to keep.
            Kind::Bought if number.is_some() => Some((Missing::Unit, number)),
            Kind::Bought => Some((Missing::Product, None)),
            Kind::Set if frame.key == Some(SettingKey::Low) && record.supply.is_some() => {
                missing_of_supply(record, frame.kind)
            }
            _ if frame.needs == Slots::default() => None,
            _ if Slots::NAMES.iter().any(|(_, slot)| frame.needs.has(*slot) && fills(record, *slot)) => None,
            _ => match number.or(whole(record.bags)) {
                Some(n) => Some((Missing::Unit, Some(n))),
                None => Some((Missing::Amount, None)),
            },
        }
    }

    /// Whether the sentence breaks off behind `of`.
    fn ends_with_of(&self) -> bool {
        let last = self.clause.items().iter().rev().find(|item| item.mark.is_none());
        last.is_some_and(|item| item.is(self.clause.classes().of))
    }
}
