//! What the groups of a clause leave to each other: the unit of a bare number, the size of jars, the thing, the place,
//! where it is from.

use super::filling::{Filling, Way};
use super::groups::close;
use crate::phrase::build::made::Note;
use crate::phrase::build::record::Record;
use crate::phrase::frame::Slots;
use crate::quantity::Mass;
use smallvec::SmallVec;

/// The records of a clause.
pub(super) type Records = SmallVec<[Record; 2]>;

/// `43 lb in all: 28 lb of romas, 15 lb of plums`: a first weight that is the sum of the others is none of its own.
pub(super) fn leave_total(records: &mut Records) {
    let sum = records.iter().skip(1).try_fold(Mass::ZERO, |sum, record| sum.checked_add(record.mass?));
    let total = records.first().filter(|first| !is_named(first)).and_then(|first| first.mass);
    if records.len() > 2 && total.zip(sum).is_some_and(|(total, sum)| close(total, sum)) {
        records.remove(0);
    }
}

const fn is_named(record: &Record) -> bool {
    record.crop.is_some() || record.variety.is_some()
}

const fn is_placed(record: &Record) -> bool {
    record.place.is_some()
}

fn name_like(record: &mut Record, other: &Record) {
    record.crop = other.crop;
    record.variety.clone_from(&other.variety);
}

fn place_like(record: &mut Record, other: &Record) {
    record.place.clone_from(&other.place);
}

/// Whether a group says something by itself.
const fn says(record: &Record) -> bool {
    let weighed = record.mass.is_some() || record.measure.is_some() || record.volume.is_some();
    let counted = record.bags.is_some() || record.jars.is_some() || record.number.is_some() || record.boxes.is_some();
    let rest = record.trays.is_some() || record.share.is_some() || record.supply.is_some() && record.jar.is_some();
    weighed || counted || rest
}

impl Filling<'_, '_> {
    /// Shares between groups what only some of them say.
    pub(super) fn share_between(&mut self, records: &mut Records) {
        let Some(last) = records.len().checked_sub(1).filter(|last| *last > 0) else { return };
        self.carry_units(records);
        self.spread(records, last, is_placed, place_like);
        self.spread(records, last, is_named, name_like);
        // `green beans 525 lb on Wednesday and 480 lb yesterday`
        self.spread(records, 0, is_named, name_like);
        // Said once at the head, it counts for all.
        let mut stores = records.iter().filter_map(|record| record.from);
        let from = stores.next().filter(|_| stores.next().is_none());
        let canner = records.iter().find_map(|record| record.canner);
        for record in records.iter_mut() {
            record.from = record.from.or(from);
            record.canner = record.canner.or(canner);
        }
        if records.iter().any(says) {
            records.retain(|record| says(record));
        }
    }

    /// Gives bare numbers the unit or the jars of the other groups.
    fn carry_units(&mut self, records: &mut Records) {
        let unit = records.iter().find_map(|record| record.unit);
        let jar = records.iter().find_map(|record| record.jar).filter(|_| self.takes(Slots::Jars));
        for record in records.iter_mut() {
            let Some(number) = record.number.filter(|_| self.takes(Slots::Mass)) else { continue };
            if let Some(unit) = unit.filter(|_| record.supply.is_none()) {
                self.note(Note::UnitCarried);
                record.mass = unit.times(number);
            } else if jar.is_some() {
                (record.jars, record.jar) = (number.as_count(), jar);
            } else {
                continue;
            }
            record.number = None;
        }
    }

    /// Opens the choice that what only one group says is said of all.
    fn spread(
        &mut self,
        records: &mut Records,
        only: usize,
        says: fn(&Record) -> bool,
        like: fn(&mut Record, &Record),
    ) {
        let alone = records.iter().enumerate().all(|(n, record)| says(record) == (n == only));
        if alone
            && self.choose(Way::Common)
            && let Some(said) = records.get(only).cloned()
        {
            self.note(Note::Common);
            records.iter_mut().for_each(|record| like(record, &said));
        }
    }
}
