//! What is settled once a record is filled: fields that depend on each other and on the kind.

use super::filling::{Filling, Role, Way};
use super::put::{is_about_jars, of_room};
use crate::phrase::build::ask::{WITH_COUNTER, stretch};
use crate::phrase::build::made::Note;
use crate::phrase::build::record::Record;
use crate::phrase::build::set::word_of;
use crate::phrase::directions::told_of;
use crate::phrase::frame::Slots;
use crate::phrase::item::{Item, WordKind};
use crate::phrase::lexicon::sense::Meaning;
use crate::phrase::value::Value;
use crate::processes::{Resolved, harvest_measure, resolve};
use crate::quantity::Number;
use crate::vocabulary::{Crop, Kind, Product, SettingKey, Supply};

/// How many jars a value of an item says, bare numbers too.
fn jars_of(item: &Item) -> Option<u32> {
    item.values.iter().find_map(|value| match value {
        Value::Number(figure) => figure.number.as_count(),
        Value::Jars(jars) => jars.count.and_then(Number::as_count),
        _ => None,
    })
}

impl Filling<'_, '_> {
    /// Settles what depends on other fields: measures on the crop, jars and crops on each other.
    pub(super) fn settle(&mut self, record: &mut Record) {
        if let Some((n, measure)) = record.measure.filter(|_| record.mass.is_none()) {
            let weight = harvest_measure(record.crop.unwrap_or(Crop::Tomato), measure);
            record.mass = weight.and_then(|weight| weight.mass.times(n));
        }
        self.settle_thing(record);
        self.settle_jars(record);
        if matches!(self.kind(), Kind::Began | Kind::Filled | Kind::PutUp | Kind::Ask) {
            record.product = record.product.take().map(|named| self.one_of(named));
        }
        match self.kind() {
            Kind::Ask => self.settle_ask(record),
            Kind::Set => self.settle_set(record),
            Kind::Picked | Kind::Thawed | Kind::Ate | Kind::Gave | Kind::Tossed => record.each = None,
            Kind::Counted => {
                record.each = None;
                if record.supply.is_some() {
                    self.settle_supply(record);
                }
            }
            Kind::Bought => self.settle_supply(record),
            Kind::Dried | Kind::Dry | Kind::Powdered => {
                (record.bags, record.each) = (None, None);
                if self.kind() != Kind::Dried {
                    record.jars = None;
                }
                record.what = record.what.take().or_else(|| self.dried_name(record));
            }
            _ => {}
        }
        if self.takes(Slots::Batch) {
            let open = record.batch.as_deref().and_then(|batch| self.clause.scene.household.batch_named(batch));
            record.batch = open.or(record.batch.take());
        }
    }

    /// `2 pints of peppers` are a product, `2 lb of peppers` a crop.
    fn settle_thing(&mut self, record: &mut Record) {
        let jars = record.jars.is_some() || record.jar.is_some();
        if record.product.is_some() && record.crop.is_some() {
            let made =
                matches!(self.kind(), Kind::Ask | Kind::Began | Kind::Filled | Kind::PutUp | Kind::Opened | Kind::Set);
            let grown = self.clause.frame.about == Some(crate::vocabulary::Subject::Planting);
            if (jars || made) && !grown {
                (record.crop, record.variety) = (None, None);
            } else {
                record.product = None;
            }
        }
        let taken = matches!(self.kind(), Kind::Froze | Kind::Ate | Kind::Gave | Kind::Tossed | Kind::Thawed);
        if taken && !jars && record.crop.is_none() && record.variety.is_none() {
            record.crop = self.crop_of_them();
        }
    }

    /// `of which I froze 2 lb`, `froze 1 kg of them`: the crop that was spoken of before.
    fn crop_of_them(&self) -> Option<Crop> {
        let text = self.clause.scene.text;
        let classes = self.clause.classes();
        let of = |item: &Item| self.clause.ends_in_of(item);
        let them = [classes.share_it, classes.pronoun, classes.question, classes.that];
        let refers = |n: usize| {
            text.items.get(n).is_some_and(of) && text.items.get(n + 1).is_some_and(|next| next.is_any(&them))
        };
        if !(self.clause.from.saturating_sub(2)..self.clause.to).any(refers) {
            return None;
        }
        self.before().iter().rev().find_map(|item| match item.meaning(classes.crop, text.words) {
            Some(Meaning::Crop(crop)) => Some(*crop),
            _ => None,
        })
    }

    /// Bare numbers and containers that are jars: of a kind that is about jars, or beside their size.
    fn settle_jars(&mut self, record: &mut Record) {
        let sized = matches!(self.kind(), Kind::Counted | Kind::PutUp | Kind::Opened | Kind::Gave | Kind::Filled);
        if record.jars.is_none() && (is_about_jars(self.kind()) || record.jar.is_some() && sized) {
            record.jars = record.count().or(record.tubs).or(record.bags);
            record.number = record.number.filter(|_| record.jars.is_none());
        }
        let opened = matches!(self.kind(), Kind::Opened | Kind::Ate | Kind::Gave | Kind::Tossed);
        if record.jars.is_some() || record.mass.is_some() || !(is_about_jars(self.kind()) || opened) {
            return;
        }
        // `the dud`, `a jar`, `opened quart of sauce`: one.
        let classes = self.clause.classes();
        // `tossed the one that didn't seal`
        let failed = opened && self.clause.any(classes.unseal);
        if let Some(n) = self.clause.position(if opened && !failed { classes.single_size } else { classes.single }) {
            if failed {
                self.clause.position(classes.unseal).into_iter().for_each(|n| self.used.add(n));
            }
            self.used.add(n);
            record.jars = Some(1);
            return;
        }
        // `one didn't seal, I put it in the fridge`
        if matches!(self.kind(), Kind::Refrigerated | Kind::Reprocessed | Kind::Tossed | Kind::Ate) {
            let before = self.jars_before();
            if self.choose_if(before.is_some(), Way::Carry) {
                self.note(Note::Carried);
                record.jars = before;
            }
        }
    }

    /// How many jars the words before the clause say that did not seal.
    fn jars_before(&self) -> Option<u32> {
        let classes = self.clause.classes();
        let before = self.before();
        let unsealed = before.iter().rposition(|item| item.is_any(&[classes.unseal, classes.not]))?;
        let near = before.get(unsealed.saturating_sub(6)..)?;
        let count = near.iter().rev().find_map(jars_of);
        count.or_else(|| near.iter().any(|item| item.is(classes.single)).then_some(1))
    }

    /// `canned 9 pints of salsa, 8 sealed`, `…, one didn't seal`: how many, and whether it is those that did not.
    pub(super) fn sealed_of(&mut self) -> Option<(u32, bool)> {
        let clause = self.clause;
        let classes = clause.classes();
        let (at, n, said) = (1..clause.len()).find_map(|n| {
            let said = |at: usize| Some((at, n, jars_of(clause.item(at)?)?));
            clause.at(n, |item| item.is_any(&[classes.seal, classes.unseal])).then_some(())?;
            said(n - 1).or_else(|| said(n.saturating_sub(2)))
        })?;
        if self.choose(Way::Apart) {
            return None;
        }
        self.used.add(n);
        self.used.add(at);
        self.note(Note::OutOf);
        self.roles.retain(|(other, role)| *other != at || !role.is_amount());
        Some((said, clause.is(n, classes.unseal)))
    }

    /// What only questions have: a stretch of days, the counter beside the freezer.
    fn settle_ask(&mut self, record: &mut Record) {
        if self.takes(Slots::Span) {
            let (since, until, items) = stretch(self.clause);
            items.iter().for_each(|n| self.used.add(*n));
            (record.since, record.until) = (since, until);
        }
        if self.takes(Slots::Counter)
            && let Some(n) = self.clause.position(self.clause.classes().counter)
        {
            self.used.add(n);
            record.what = Some(WITH_COUNTER.to_owned());
        }
    }

    /// What only settings have: the temperature of a room, the supply that runs low, a word of a closed list.
    fn settle_set(&mut self, record: &mut Record) {
        let Some(key) = self.clause.frame.key else { return };
        if key == SettingKey::Room {
            record.temp = record.temp.or(record.number.and_then(|number| of_room(number, None)));
        }
        if key == SettingKey::Low {
            let bags = self.clause.any(self.clause.classes().container_bag).then_some(Supply::Bags);
            record.supply = record.supply.or(bags).or(record.jars.map(|_| Supply::Jars));
            record.number = record.number.or(record.bags.map(|n| Number::whole(n.into())));
        }
        if let Some((n, word)) = word_of(self.clause, key) {
            self.used.add(n);
            record.word = Some(word.to_owned());
        }
    }

    /// `peppers`, `red chillies`, `basil` as the thing that was dried.
    fn dried_name(&self, record: &Record) -> Option<String> {
        let clause = self.clause;
        let classes = clause.classes();
        let crop = record.crop?;
        let at = clause.items().iter().position(|item| item.is_any(&[classes.crop, classes.variety]));
        let part = |item: &Item| item.is(classes.ripe) || item.kind == WordKind::Ordinary;
        let said = at.and_then(|n| clause.said(clause.start_of(n, n, |n| clause.at(n, part)), n + 1));
        said.or_else(|| Some(crop.as_str().to_owned()))
    }

    fn settle_supply(&mut self, record: &mut Record) {
        match record.supply {
            Some(Supply::LemonJuice | Supply::Vinegar) => {
                record.volume = record.volume.or(record.fluid);
                record.mass = record.mass.filter(|_| record.fluid.is_none());
                if record.volume.is_none() {
                    // A bottle holds no one knows how much.
                    let count = Number::whole(record.jars.take().unwrap_or(1).into());
                    record.volume = record.jar.take().and_then(|jar| jar.volume().times(count));
                }
            }
            Some(Supply::Lids) => {
                // A box of lids holds a dozen, as sold (common practice).
                let boxed = record.boxes.map(|boxes| Number::whole(i64::from(boxes) * 12));
                record.number = record.number.or(boxed);
                (record.jar, record.bags, record.volume, record.mass) = (None, None, None, None);
            }
            Some(Supply::Bags) | None if record.bags.is_some() && record.product.is_none() => {
                record.supply = Some(Supply::Bags);
                record.number = record.count().or(record.bags).map(|n| Number::whole(n.into()));
                record.bags = None;
            }
            Some(Supply::Jars) | None
                if record.jars.is_some() && record.product.is_none() && self.kind() == Kind::Bought =>
            {
                record.supply = Some(Supply::Jars);
                record.number = None;
            }
            _ => {}
        }
    }

    /// Takes a record for those that sealed, where a clause says how many did.
    pub(super) fn settle_sealed(&self, record: &mut Record, sealed: Option<(u32, bool)>) {
        if let (Some((said, unsealed)), Some(all)) = (sealed, record.jars.filter(|_| record.of.is_none())) {
            record.jars = Some(if unsealed { all.saturating_sub(said) } else { said });
            record.of = Some(all);
        }
    }

    /// The first product that was named.
    pub(super) fn product(&self) -> Option<Product> {
        let named = self.roles.iter().find_map(|(_, role)| match role {
            Role::Food(food) => food.product.clone(),
            _ => None,
        })?;
        Some(self.one_of(named))
    }

    /// One of several products that a name may mean, where their directions tell which: `whole tomatoes …, no added
    /// liquid`.
    pub(super) fn one_of(&self, named: Product) -> Product {
        match resolve(&named) {
            Resolved::Family(members) => {
                told_of(self.clause.scene.text, &members).map_or(named, |info| Product::tested(info.id))
            }
            _ => named,
        }
    }
}
