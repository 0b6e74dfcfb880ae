//! From the roles of a group to the fields of its record: amounts with what each of several weighs, food, and the rest.

use super::filling::{Filling, Food, Role, Way};
use crate::phrase::build::made::Note;
use crate::phrase::build::record::Record;
use crate::phrase::frame::Slots;
use crate::phrase::lexicon::sense::Container;
use crate::phrase::value::Value;
use crate::phrase::value::jars::Jars;
use crate::phrase::value::kinds::{Count, Weight};
use crate::phrase::value::measure::{Share, of_scale};
use crate::phrase::value::portions::Portions;
use crate::quantity::{Mass, Number, Pressure, Temperature};
use crate::vocabulary::{CannerKind, Kind};

/// Kinds whose bare number counts jars.
pub(super) const fn is_about_jars(kind: Kind) -> bool {
    use Kind::{Broke, Lifted, Refrigerated, Reprocessed, Sealed, Siphoned, Unsealed};
    matches!(kind, Sealed | Unsealed | Reprocessed | Refrigerated | Broke | Siphoned | Lifted)
}

/// So many times a weight.
fn times(each: Mass, count: u32) -> Option<Mass> {
    each.times(Number::whole(count.into()))
}

/// Whether both are said and are not the same.
fn differ<T: PartialEq>(a: Option<&T>, b: Option<&T>) -> bool {
    a.zip(b).is_some_and(|(a, b)| a != b)
}

/// The canner that two words of a clause name together: `pressure canner`, `weighted`.
fn finer(known: CannerKind, new: CannerKind) -> CannerKind {
    if known == CannerKind::Pressure && new.is_pressure() { new } else { known }
}

/// The temperature of a room: a bare degree is of the scale on which it is a room's.
pub(super) fn of_room(number: Number, celsius: Option<bool>) -> Option<Temperature> {
    of_scale(number, celsius.unwrap_or(number.as_f64() <= 40.0))
}

impl Filling<'_, '_> {
    /// Puts what an item was taken for into the record of its group.
    pub(super) fn put(&mut self, record: &mut Record, n: usize, role: Role) {
        match role {
            Role::Amount(value) => self.put_amount(record, n, value),
            Role::Food(food) => self.put_food(record, n, food),
            // `shelled peas, blanched`: what is said behind the food was done to it.
            Role::Prep(prep) if record.crop.is_some() || record.prep.is_none() => record.prep = Some(prep),
            Role::Prep(_) | Role::Modifier | Role::Vague => {}
            Role::Ripe(ripe) => record.ripe = record.ripe.or(Some(ripe)),
            Role::Place(place) => self.put_first(n, &mut record.place, place),
            Role::From(stock, whole) => {
                self.put_first(n, &mut record.from, stock);
                record.whole = record.whole.or(whole);
            }
            Role::Supply(supply) => self.put_first(n, &mut record.supply, supply),
            Role::Canner(canner) => record.canner = Some(record.canner.map_or(canner, |known| finer(known, canner))),
            Role::Pack(pack) => self.put_first(n, &mut record.pack, pack),
            Role::Batch(batch) => self.put_first(n, &mut record.batch, batch),
            Role::Round(round) => self.put_first(n, &mut record.round, round),
            Role::What(what) => record.what = record.what.take().or(Some(what)),
            Role::Kept(kept) => record.kept = record.kept.or(Some(kept)),
            Role::When(dated) => record.day = record.day.or(Some(dated)),
        }
    }

    /// Fills a place that is empty; what finds it taken by something else stays unaccounted.
    fn put_first<T: PartialEq>(&mut self, n: usize, place: &mut Option<T>, value: T) {
        if differ(place.as_ref(), Some(&value)) {
            self.used.remove(n);
        }
        place.get_or_insert(value);
    }

    /// A second thing of another name is not taken in with the first.
    fn put_food(&mut self, record: &mut Record, n: usize, food: Food) {
        if differ(food.product.as_ref(), record.product.as_ref())
            || differ(food.crop.as_ref(), record.crop.as_ref())
            || differ(food.variety.as_ref(), record.variety.as_ref())
        {
            self.used.remove(n);
        }
        record.crop = record.crop.or(food.crop);
        record.variety = record.variety.take().or(food.variety);
        record.product = record.product.take().or(food.product);
        record.prep = record.prep.or(food.prep);
        record.ripe = record.ripe.or(food.ripe);
    }

    fn put_amount(&mut self, record: &mut Record, n: usize, value: Value) {
        match value {
            Value::Weight(weight) => self.put_weight(record, n, weight),
            Value::Measure(n, measure) => {
                self.note(Note::Measure);
                record.measure = Some((n, measure));
            }
            Value::Volume(volume, _) => {
                self.note(Note::Volume);
                record.volume = record.volume.or(Some(volume));
            }
            Value::Count(count) => self.put_count(record, count),
            Value::Portions(portions) => self.put_portions(record, portions),
            Value::CountOf(count, n) => {
                self.note(Note::Count);
                record.bags = count.count.as_count();
                record.each_number = Some(n);
            }
            Value::Jars(jars) => self.put_jars(record, jars),
            Value::OutOf(out) => {
                self.note(Note::OutOf);
                (record.jars, record.of) = (Some(out.jars), Some(out.of));
                record.jar = record.jar.or(out.jar);
            }
            Value::Number(figure) => self.put_number(record, figure.number),
            Value::Share(share) => self.put_share(record, share),
            Value::Duration(seconds) => record.seconds = record.seconds.or(Some(seconds)),
            Value::Temperature(n, celsius) => record.temp = of_room(n, celsius),
            Value::Pressure(psi) => record.psi = Some(psi),
            Value::Height(height) => record.height = Some(height.length),
            _ => {}
        }
    }

    fn put_weight(&mut self, record: &mut Record, n: usize, weight: Weight) {
        let clause = self.clause;
        let classes = clause.classes();
        if self.takes(Slots::Psi) && record.psi.is_none() {
            // `at 11 pounds`: read off a gauge.
            if weight.unit == Mass::POUND {
                self.note(Note::PsiFromMass);
                record.psi = Pressure::from_psi(weight.figure.as_f64());
            }
            return;
        }
        self.note(if weight.range { Note::Range } else { Note::Mass });
        let each = clause.is(n + 1, classes.each);
        let at = clause.before(n).is_some_and(|item| item.is_any(&[classes.at, classes.of]));
        let count = record.jars.or(record.bags).or(record.trays).filter(|_| record.mass.is_none());
        if let Some(count) = count.filter(|_| each || at && record.bags.is_some()) {
            // `7 quarts, 5 lb each`; `two bags of tomatoes at 4 lb`
            self.note(Note::Portions);
            record.each = Some(weight.mass).filter(|_| record.jars.is_none());
            record.mass = times(weight.mass, count);
            return;
        }
        if each {
            record.each_first = Some(weight.mass);
        }
        record.approx |= weight.range;
        (record.fluid, record.unit) = (weight.fluid, Some(weight.unit));
        if record.each.is_some() || record.mass.is_some() {
            return;
        }
        record.mass = Some(weight.mass);
        let whole = clause.is(n + 1, classes.total) || clause.before(n).is_some_and(|item| item.is(classes.total));
        let Some(bags) = record.bags.filter(|_| !whole) else { return };
        if self.choose(Way::Each) {
            self.note(Note::EachOfCount);
            (record.each, record.mass) = (Some(weight.mass), times(weight.mass, bags));
        } else {
            self.note(Note::TotalOfCount);
        }
    }

    fn put_count(&mut self, record: &mut Record, count: Count) {
        self.note(Note::Count);
        let n = count.count.as_count();
        let counted = match count.container {
            Container::Tray => &mut record.trays,
            Container::Box => &mut record.boxes,
            // How much is in them, nobody knows.
            Container::Bottle => return,
            Container::Tub => &mut record.tubs,
            _ => &mut record.bags,
        };
        *counted = counted.or(n);
        // `2 lb each, 3 bags`
        if let (Some(each), Some(bags)) = (record.each_first.take(), record.bags) {
            self.note(Note::Portions);
            (record.each, record.mass) = (Some(each), times(each, bags));
        }
    }

    fn put_portions(&mut self, record: &mut Record, portions: Portions) {
        self.note(if portions.plainly { Note::Portions } else { Note::PerhapsEach });
        match (portions, record.bags) {
            // `9 bags of okra at a pound and a half a bag`
            (Portions { count: 1, each: Some(each), .. }, Some(bags)) if bags > 1 => {
                (record.each, record.mass) = (Some(each), times(each, bags));
            }
            _ => {
                record.bags = Some(portions.count);
                (record.each, record.mass, record.fluid) = (portions.each, Some(portions.total), portions.fluid);
            }
        }
    }

    fn put_jars(&mut self, record: &mut Record, jars: Jars) {
        self.note(match (jars.count, jars.jar) {
            (Some(_), Some(_)) => Note::Jars,
            (None, _) => Note::JarSize,
            (_, None) => Note::JarWord,
        });
        // `in a quart`: a question is about the size.
        let count = jars.count.filter(|_| !(jars.article && self.kind() == Kind::Ask));
        record.jars = record.jars.or(count.and_then(Number::as_count));
        record.jar = record.jar.or(jars.jar);
    }

    fn put_share(&mut self, record: &mut Record, share: Share) {
        self.note(Note::Share);
        if share == Share::It && self.kind() == Kind::Froze && self.choose(Way::Ask) {
            return;
        }
        if share == Share::Rest {
            self.note(Note::Rest);
        }
        let part = if let Share::Part(part) = share { part } else { Number::whole(1) };
        record.share = record.share.or(Some(part));
    }

    fn put_number(&mut self, record: &mut Record, number: Number) {
        // `needle zero, jars out`: no jars is no number of jars.
        if number == Number::whole(0) && is_about_jars(self.kind()) {
            return;
        }
        if self.takes(Slots::Psi) && record.psi.is_none() {
            self.note(Note::PsiFromNumber);
            record.psi = Pressure::from_psi(number.as_f64());
            return;
        }
        let amount = record.mass.is_some() || record.bags.is_some() || record.jars.is_some() || record.number.is_some();
        if amount && record.boxes.is_none() {
            // Never added to a weight that stands beside it.
            self.note(Note::NumberLeft);
            return;
        }
        self.note(Note::Number);
        let unit = self.unit_before().filter(|_| self.takes(Slots::Mass));
        if let Some(unit) = unit.filter(|_| self.choose(Way::Carry)) {
            self.note(Note::UnitCarried);
            (record.mass, record.unit) = (unit.times(number), Some(unit));
        } else {
            record.number = Some(number);
        }
    }

    /// The unit of the last weight that was said before the clause.
    fn unit_before(&self) -> Option<Mass> {
        self.before().iter().rev().flat_map(|item| &item.values).find_map(|value| match value {
            Value::Weight(weight) => Some(weight.unit),
            _ => None,
        })
    }
}
