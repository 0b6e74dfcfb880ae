//! The answer to a question completes what was begun: a unit, an amount, a jar, a product, a canner, a height.

use super::build::Clause;
use super::build::product_named;
use super::frame::{Frame, Slots, Types, types_of};
use super::item::{Item, Text, WordKind, items};
use super::lexicon::sense::{Container, Meaning, Unit};
use super::value::Value;
use super::{Context, Household, Language};
use crate::processes::harvest_measure;
use crate::quantity::{Length, Mass, Number, Volume};
use crate::statement::{Clarify, Set, Statement};
use crate::vocabulary::{CannerKind, Crop, Jar, Kind, Missing, Product, SettingKey, Supply};

/// Longest answer that is read, in bytes.
const LONGEST: usize = 200;
/// Longest name of a product that no table knows, in items.
const NAME: usize = 5;

/// Completes a pending statement with the answer; `None` when it answers nothing.
pub(super) fn complete(pending: &Clarify, answer: &str, context: &Context<'_>) -> Option<Vec<Statement>> {
    if answer.len() > LONGEST {
        return None;
    }
    let language = super::language();
    let household = Household::new(context.lexicon, &language.words);
    let text = items(answer, &language.words, &household);
    let asks = text.items.iter().any(|item| item.is(language.words.classes.mark_question));
    if text.items.is_empty() || asks || is_command(pending, answer, context) {
        return None;
    }
    let answer = Answer { text: &text, language, context, household: &household };
    let partial = pending.partial.as_deref().cloned();
    let completed = completed(&answer, pending, partial)?;
    let held = completed.iter().find_map(|said| Some((said.kind(), super::held::held_answer(&text, said)?)));
    Some(match held {
        Some((about, word)) => vec![Statement::Clarify(Clarify {
            about,
            missing: pending.missing,
            amount: None,
            word: Some(word),
            partial: None,
        })],
        None => completed,
    })
}

fn completed(answer: &Answer<'_>, pending: &Clarify, partial: Option<Statement>) -> Option<Vec<Statement>> {
    match pending.missing {
        Missing::Altitude => {
            let set = Set { length: Some(answer.height()?), ..Set::of(SettingKey::Altitude) };
            Some(std::iter::once(Statement::Set(set)).chain(partial).collect())
        }
        Missing::Canner => answer.with_canner(partial?).map(|done| vec![done]),
        Missing::Product => answer.with_product(partial?, pending).map(|done| vec![done]),
        Missing::Jar => answer.with_jar(partial?, pending.amount).map(|done| vec![done]),
        Missing::Unit | Missing::Amount => answer.with_amount(partial?, pending.amount).map(|done| vec![done]),
    }
}

/// Whether an answer is something else that was said in full: `labels 63.5x38.1 mm` is no product.
fn is_command(pending: &Clarify, answer: &str, context: &Context<'_>) -> bool {
    let within = matches!(pending.missing, Missing::Altitude | Missing::Canner);
    !within
        && super::read::read(answer, &Context { last: None, ..*context }).statements.iter().any(|said| {
            matches!(
                said,
                Statement::Set(_)
                    | Statement::TimerStart(_)
                    | Statement::TimerStop(_)
                    | Statement::Planned(_)
                    | Statement::CalledOff(_)
                    | Statement::Undo
            )
        })
}

struct Answer<'a> {
    text: &'a Text<'a>,
    language: &'a Language,
    context: &'a Context<'a>,
    household: &'a Household,
}

impl Answer<'_> {
    fn values(&self) -> impl Iterator<Item = &Value> {
        self.text.items.iter().flat_map(|item| &item.values)
    }

    fn bare(&self) -> Option<Number> {
        self.values().find_map(|value| match value {
            Value::Number(figure) if !figure.article => Some(figure.number),
            _ => None,
        })
    }

    /// Words that neither a value nor a name explains.
    fn strangers(&self) -> usize {
        let strange = |item: &&Item| {
            item.values.is_empty()
                && matches!(item.kind, WordKind::Ordinary | WordKind::Strange | WordKind::Alien | WordKind::Deed)
        };
        let sure = &self.language.words.classes.of_course;
        self.text.items.iter().filter(strange).filter(|item| !item.is(*sure)).count()
    }

    fn height(&self) -> Option<Length> {
        let said = self.values().find_map(|value| match value {
            Value::Height(height) => Some(height.length),
            _ => None,
        });
        let bare = || {
            let n = self.bare().filter(|_| self.strangers() == 0)?;
            let below = self.text.items.iter().any(|item| {
                item.mark == Some(super::lex::Mark::Dash) || item.is(self.language.words.classes.sea_below)
            });
            let n = if below { Number::whole(-1).checked_mul(n)? } else { n };
            if self.context.lexicon.metric { Length::METRE.times(n) } else { Length::FOOT.times(n) }
        };
        said.or_else(bare)
    }

    fn with_canner(&self, mut statement: Statement) -> Option<Statement> {
        let classes = &self.language.words.classes;
        let named = self.text.items.iter().find_map(|item| match item.meaning(classes.canner, &self.language.words) {
            Some(Meaning::Canner(canner)) if canner.is_pressure() && *canner != CannerKind::Pressure => Some(*canner),
            _ => None,
        });
        let gauge = self.text.items.iter().find_map(|item| match () {
            () if item.is(classes.gauge) => Some(CannerKind::PressureDial),
            () if item.is(classes.weight) => Some(CannerKind::PressureWeighted),
            () => None,
        });
        let canner = named.or(gauge)?;
        match &mut statement {
            Statement::Began(s) => s.canner = Some(canner),
            Statement::Set(s) => s.canner = Some(canner),
            Statement::Ask(s) => s.canner = Some(canner),
            _ => return None,
        }
        Some(statement)
    }

    /// The product of the answer: one that is known, or the whole of a short answer.
    fn product(&self) -> Option<Product> {
        let types: Vec<Types> = self.text.items.iter().map(types_of).collect();
        let frame = Frame::asking_for(Slots::Product.with(Slots::Jars));
        let scene =
            super::build::Scene { text: self.text, types: &types, context: self.context, household: self.household };
        let clause = Clause { scene, frame: &frame, from: 0, to: self.text.items.len(), trigger: &[] };
        if let Some((named, _)) = product_named(&clause) {
            return Some(named);
        }
        let told = self.text.items.iter().any(|item| item.kind == WordKind::Deed || !item.values.is_empty());
        if self.text.items.len() > NAME || told {
            return None;
        }
        self.text.said(0, self.text.items.len()).map(|name| Product::named(&name))
    }

    fn jar(&self) -> Option<(Jar, Option<Number>)> {
        self.values().find_map(|value| match value {
            Value::Jars(jars) => Some((jars.jar?, jars.count.filter(|_| !jars.article))),
            Value::OutOf(out) => Some((out.jar?, None)),
            _ => None,
        })
    }

    fn with_product(&self, mut statement: Statement, pending: &Clarify) -> Option<Statement> {
        set_product(&mut statement, self.product()?);
        if let Some((jar, _)) = self.jar()
            && jar_slot(&mut statement).is_some_and(|slot| slot.is_none())
        {
            set_jar(&mut statement, jar);
        }
        Some(still_missing(statement, pending.amount))
    }

    fn with_jar(&self, mut statement: Statement, before: Option<Number>) -> Option<Statement> {
        let (jar, counted) = self.jar()?;
        set_jar(&mut statement, jar);
        let jars = jars_slot(&mut statement)?;
        if let Some(count) = counted.or(before.filter(|_| jars.is_none())).and_then(Number::as_count) {
            *jars = Some(count);
        }
        Some(statement)
    }

    fn with_amount(&self, mut statement: Statement, before: Option<Number>) -> Option<Statement> {
        if self.strangers() > 0 {
            return None;
        }
        let amount = self.amount(before)?;
        // `nine` to how many jars: of which size is asked next.
        if let (Statement::PutUp(s), Value::Number(figure)) = (&mut statement, amount) {
            s.jars = figure.number.as_count();
            let whole = s.jar.is_some();
            return Some(if whole {
                statement
            } else {
                missing(Kind::PutUp, Missing::Jar, Some(figure.number), statement)
            });
        }
        // The number that was said was the weight of each bag.
        if let (Statement::Froze(s), Value::Weight(weight)) = (&mut statement, amount)
            && s.each.take().is_some()
            && before == Some(weight.figure)
        {
            s.each = Some(weight.mass);
            s.mass = weight.mass.times(Number::whole(s.bags.unwrap_or(1).into()));
            return Some(statement);
        }
        if !put(&mut statement, amount) {
            return None;
        }
        if let Some(named) = self.product_beside(&statement) {
            set_product(&mut statement, named);
        }
        Some(match &statement {
            Statement::PutUp(s) if s.product.is_none() => {
                let jars = s.jars.map(|n| Number::whole(n.into()));
                missing(Kind::PutUp, Missing::Product, jars, statement)
            }
            _ => statement,
        })
    }

    /// `9 pints of salsa` answers how many and of what.
    fn product_beside(&self, statement: &Statement) -> Option<Product> {
        let wants = matches!(
            statement,
            Statement::PutUp(_)
                | Statement::Opened(_)
                | Statement::Counted(_)
                | Statement::Ate(_)
                | Statement::Gave(_)
                | Statement::Tossed(_)
        );
        let jars = self.values().any(|value| matches!(value, Value::Jars(_)));
        if wants && jars && statement.product().is_none() { self.product() } else { None }
    }

    /// The amount of an answer: said in full, or its unit for the number said before.
    fn amount(&self, before: Option<Number>) -> Option<Value> {
        let rank = |value: &&Value| match value {
            Value::Portions(_) => Some(0),
            Value::Jars(jars) if jars.count.is_some() => Some(1),
            Value::Weight(_) | Value::Measure(..) | Value::Count(_) | Value::Duration(_) => Some(2),
            Value::Volume(..) | Value::Height(_) | Value::OutOf(_) => Some(3),
            _ => None,
        };
        let full = self.values().filter(|value| rank(value).is_some()).min_by_key(rank).copied();
        let article = |value: &Value| match value {
            Value::Weight(weight) => weight.article,
            Value::Count(count) => count.article,
            _ => false,
        };
        if let Some(full) = full.filter(|value| !(article(value) && before.is_some())) {
            return Some(full);
        }
        let number = self.bare().or(before);
        self.unit_of(number?).or_else(|| number.map(|n| Value::Number(super::value::number::Figure::of(n))))
    }

    /// A number in the unit that the answer names alone: `lbs`, `bags`, `quarts`, `minutes`.
    fn unit_of(&self, number: Number) -> Option<Value> {
        let classes = &self.language.words.classes;
        let words = &self.language.words;
        self.text.items.iter().find_map(|item| {
            if let Some(Value::Jars(jars)) = item.values.iter().find(|value| matches!(value, Value::Jars(_))) {
                return Some(Value::Jars(super::value::jars::Jars { count: Some(number), ..*jars }));
            }
            if let Some(Meaning::Container(container)) = item.meaning(classes.container, words) {
                let count =
                    super::value::amount::Count { count: number, container: *container, article: false, range: false };
                return Some(Value::Count(count));
            }
            let Some(Meaning::Unit(unit)) = item.meaning(classes.unit, words) else { return None };
            match unit {
                Unit::Mass(mass, _) => super::value::amount::Weight::of(*mass, number).map(Value::Weight),
                Unit::Ounce => super::value::amount::Weight::of(Mass::OUNCE, number).map(Value::Weight),
                Unit::Volume(volume, _) => volume.times(number).map(|volume| Value::Volume(volume, false)),
                Unit::Seconds(seconds) => {
                    number.checked_mul(Number::whole((*seconds).into())).and_then(Number::as_count).map(Value::Duration)
                }
                Unit::Measure(measure) => Some(Value::Measure(number, *measure)),
                Unit::Length(unit, _) => unit
                    .times(number)
                    .map(|length| Value::Height(super::value::measure::Height { length, doubtful: false })),
                _ => None,
            }
        })
    }
}

fn missing(about: Kind, missing: Missing, amount: Option<Number>, partial: Statement) -> Statement {
    Statement::Clarify(Clarify { about, missing, amount, word: None, partial: Some(Box::new(partial)) })
}

/// A finished batch without a jar still needs one.
fn still_missing(statement: Statement, amount: Option<Number>) -> Statement {
    match &statement {
        Statement::PutUp(said) if said.jars.is_some() && said.jar.is_none() => {
            missing(Kind::PutUp, Missing::Jar, amount, statement)
        }
        _ => statement,
    }
}

fn set_product(statement: &mut Statement, named: Product) {
    let slot = match statement {
        Statement::Began(s) => &mut s.product,
        Statement::PutUp(s) | Statement::Opened(s) => &mut s.product,
        Statement::Ate(s) | Statement::Gave(s) | Statement::Tossed(s) => &mut s.product,
        Statement::Filled(s) => &mut s.product,
        Statement::Counted(s) => &mut s.product,
        Statement::Ask(s) => &mut s.product,
        Statement::Set(s) => &mut s.product,
        _ => return,
    };
    *slot = Some(named);
}

fn jar_slot(statement: &mut Statement) -> Option<&mut Option<Jar>> {
    Some(match statement {
        Statement::Began(s) => &mut s.jar,
        Statement::PutUp(s) | Statement::Opened(s) => &mut s.jar,
        Statement::Ate(s) | Statement::Gave(s) | Statement::Tossed(s) => &mut s.jar,
        Statement::Filled(s) => &mut s.jar,
        Statement::Counted(s) => &mut s.jar,
        Statement::Ask(s) => &mut s.jar,
        Statement::Recipe(s) => &mut s.jar,
        Statement::Set(s) => &mut s.jar,
        Statement::Bought(s) => &mut s.jar,
        _ => return None,
    })
}

fn set_jar(statement: &mut Statement, jar: Jar) {
    if let Some(slot) = jar_slot(statement) {
        *slot = Some(jar);
    }
}

fn jars_slot(statement: &mut Statement) -> Option<&mut Option<u32>> {
    Some(match statement {
        Statement::Began(s) => &mut s.jars,
        Statement::PutUp(s) | Statement::Opened(s) => &mut s.jars,
        Statement::Ate(s) | Statement::Gave(s) | Statement::Tossed(s) => &mut s.jars,
        Statement::Filled(s) => &mut s.jars,
        Statement::Counted(s) => &mut s.jars,
        Statement::Ask(s) => &mut s.jars,
        Statement::Recipe(s) => &mut s.jars,
        Statement::Set(s) => &mut s.jars,
        Statement::Bought(s) => &mut s.count,
        _ => return None,
    })
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
    seconds: Option<u32>,
    length: Option<Length>,
}

impl Said {
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
                _ => Self { bags: count.count.as_count(), count: count.count.as_count(), ..none },
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
        Statement::Picked(s) => {
            s.mass = said.mass;
            s.mass.is_some()
        }
        Statement::Froze(s) => {
            (s.bags, s.each, s.mass) = (said.bags.or(s.bags), said.each.or(s.each), said.mass);
            said.bags.is_some() || said.mass.is_some()
        }
        Statement::Thawed(s) => {
            (s.bags, s.mass) = (said.bags, said.mass);
            s.bags.is_some() || s.mass.is_some()
        }
        Statement::Counted(s) => {
            (s.bags, s.mass, s.jars, s.jar) = (said.bags, said.mass, said.jars, said.jar.or(s.jar));
            if s.supply.is_some() {
                s.count = said.count;
            }
            s.bags.is_some() || s.mass.is_some() || s.jars.is_some() || s.count.is_some()
        }
        Statement::Ate(s) | Statement::Gave(s) | Statement::Tossed(s) => {
            (s.bags, s.mass, s.jars, s.jar) = (said.bags, said.mass, said.jars, said.jar.or(s.jar));
            s.bags.is_some() || s.mass.is_some() || s.jars.is_some()
        }
        Statement::Drained(s) => {
            (s.mass, s.volume) = (said.mass, if said.mass.is_none() { said.volume } else { None });
            s.mass.is_some() || s.volume.is_some()
        }
        Statement::CookedDown(s) => {
            (s.mass, s.volume) = (said.mass, if said.mass.is_none() { said.volume } else { None });
            s.mass.is_some() || s.volume.is_some()
        }
        Statement::Dried(s) => {
            (s.mass, s.trays) = (said.mass, said.trays);
            s.mass.is_some() || s.trays.is_some()
        }
        Statement::Powdered(s) => {
            s.mass = said.mass;
            s.mass.is_some()
        }
        Statement::PutUp(s) | Statement::Opened(s) => {
            (s.jars, s.jar) = (said.jars, said.jar.or(s.jar));
            s.jars.is_some()
        }
        Statement::Filled(s) => {
            (s.jars, s.jar) = (said.jars, said.jar.or(s.jar));
            s.jars.is_some()
        }
        Statement::Bought(s) => put_supply(s, said),
        Statement::TimerStart(s) => {
            s.seconds = said.seconds;
            s.seconds.is_some()
        }
        Statement::Recipe(s) => {
            s.mass = said.mass.or(s.mass);
            said.mass.is_some()
        }
        Statement::Set(s) if s.key == SettingKey::Altitude => {
            s.length = said.length;
            s.length.is_some()
        }
        Statement::Set(s) => {
            (s.mass, s.count) = (said.mass.or(s.mass), said.count.or(s.count));
            said.mass.is_some() || said.count.is_some()
        }
        _ => false,
    }
}

fn put_supply(s: &mut crate::statement::Bought, said: Said) -> bool {
    match s.supply.unwrap_or(Supply::Lids) {
        Supply::LemonJuice | Supply::Vinegar => {
            s.volume = said.volume;
            s.volume.is_some()
        }
        Supply::CitricAcid | Supply::Salt => {
            s.mass = said.mass;
            s.mass.is_some()
        }
        Supply::Lids | Supply::Jars | Supply::Bags => {
            s.count = said.count.or(said.jars);
            s.jar = s.jar.or(said.jar);
            s.count.is_some()
        }
    }
}

/// The unit of mass last used in some words.
pub(super) fn last_mass_unit(words: &str) -> Option<Mass> {
    if words.len() > super::LONGEST {
        return None;
    }
    let language = super::language();
    let text = items(words, &language.words, &Household::default());
    text.items.iter().rev().find_map(|item| {
        let said = item.values.iter().find_map(|value| match value {
            Value::Weight(weight) => Some(weight.unit),
            Value::Portions(portions) => Some(if portions.metric { Mass::KILOGRAM } else { Mass::POUND }),
            _ => None,
        });
        said.or_else(|| match item.meaning(language.words.classes.unit_mass, &language.words) {
            Some(Meaning::Unit(Unit::Mass(mass, _))) => Some(*mass),
            Some(Meaning::Unit(Unit::Ounce)) => Some(Mass::OUNCE),
            _ => None,
        })
    })
}

/// The one weight in some words; nothing where there are several.
pub(super) fn only_weight(words: &str) -> Option<super::value::amount::Weight> {
    if words.len() > super::LONGEST {
        return None;
    }
    let language = super::language();
    let text = items(words, &language.words, &Household::default());
    let mut weights = text.items.iter().flat_map(|item| &item.values).filter_map(|value| match value {
        Value::Weight(weight) => Some(*weight),
        _ => None,
    });
    weights.next().filter(|_| weights.next().is_none())
}

/// The speaker's own word for a crop in a message, as written.
pub(super) fn crop_said(words: &str, crop: Crop) -> Option<&str> {
    let language = super::language();
    let text = items(words, &language.words, &Household::default());
    let is_crop = |item: &Item| matches!(item.meaning(language.words.classes.crop, &language.words), Some(Meaning::Crop(found)) if *found == crop);
    let n = text.items.iter().position(is_crop)?;
    let (from, to) = text.span(n, n + 1);
    words.get(from as usize..to as usize)
}
