//! The answer to a question completes what was begun: a unit, an amount, a jar, a product, a canner, a height.

use super::build::{Clause, Scene, product_named};
use super::context::Context;
use super::frame::{Frame, Slots, Types, types_of};
use super::held::asked_over;
use super::household::Household;
use super::item::{Item, Text, WordKind, items};
use super::language::{Language, language};
use super::lex::Mark;
use super::lexicon::sense::{Meaning, Unit};
use super::put::{jar_slot, jars_slot, put, set_jar, set_product};
use super::read::read;
use super::value::Value;
use super::value::jars::Jars;
use super::value::kinds::Figure;
use super::value::kinds::{Count, Weight};
use super::value::measure::Height;
use crate::quantity::{Length, Mass, Number};
use crate::statement::{Bought, Clarify, Set, Statement};
use crate::vocabulary::{CannerKind, Jar, Kind, Missing, Product, SettingKey, Supply};

/// Longest answer that is read, in bytes.
const LONGEST: usize = 200;
/// Longest name of a product that no table knows, in items.
const NAME: usize = 5;

/// Completes a pending statement with the answer; `None` when it answers nothing.
pub(super) fn complete(pending: &Clarify, answer: &str, context: &Context<'_>) -> Option<Vec<Statement>> {
    if answer.len() > LONGEST {
        return None;
    }
    let language = language();
    let household = Household::new(context.lexicon, &language.words);
    let text = items(answer, &language.words, &household);
    let asks = text.items.iter().any(|item| item.is(language.words.classes.mark_question));
    if text.items.is_empty() || asks || is_command(pending, answer, context) {
        return None;
    }
    let answer = Answer { text: &text, language, context, household: &household };
    let partial = pending.partial.as_deref().cloned();
    let completed = completed(&answer, pending, partial)?;
    Some(match completed.iter().find_map(|said| asked_over(&text, said)) {
        Some(question) => vec![Statement::Clarify(question)],
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
    // `kilos` answers in what, and sets no units.
    let units =
        |set: &Set| pending.missing == Missing::Unit && (set.key == SettingKey::Units || pending.about == Kind::Set);
    let within = matches!(pending.missing, Missing::Altitude | Missing::Canner);
    !within
        && read(answer, &Context { last: None, ..*context }).statements.iter().any(|said| match said {
            Statement::Set(set) => !units(set),
            other => matches!(
                other,
                Statement::TimerStart(_)
                    | Statement::TimerStop(_)
                    | Statement::Planned(_)
                    | Statement::CalledOff(_)
                    | Statement::Undo
            ),
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
            let below = self
                .text
                .items
                .iter()
                .any(|item| item.mark == Some(Mark::Dash) || item.is(self.language.words.classes.sea_below));
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
        let scene = Scene { text: self.text, types: &types, context: self.context, household: self.household };
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

    /// A supply that the answer names.
    fn supply(&self) -> Option<Supply> {
        let classes = &self.language.words.classes;
        self.text.items.iter().find_map(|item| match item.meaning(classes.supply, &self.language.words) {
            Some(Meaning::Supply(supply)) => Some(*supply),
            _ => None,
        })
    }

    fn with_product(&self, mut statement: Statement, pending: &Clarify) -> Option<Statement> {
        if let Statement::Bought(said) = &mut statement {
            said.supply = Some(self.supply()?);
            return Some(statement);
        }
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

    /// A number in the unit of length that the answer names alone.
    fn length_of(&self, number: Number) -> Option<Value> {
        let (classes, words) = (&self.language.words.classes, &self.language.words);
        self.text.items.iter().find_map(|item| match item.meaning(classes.unit_length, words) {
            Some(Meaning::Unit(Unit::Length(unit, _))) => {
                let length = unit.times(number)?;
                Some(Value::Height(crate::phrase::value::measure::Height { length, doubtful: false }))
            }
            _ => None,
        })
    }

    fn with_amount(&self, mut statement: Statement, before: Option<Number>) -> Option<Statement> {
        // `a bottle of lemon juice` is not how many lids were bought.
        let other =
            |said: &Bought| said.supply.is_some() && self.supply().is_some_and(|named| said.supply != Some(named));
        if self.strangers() > 0 || matches!(&statement, Statement::Bought(said) if other(said)) {
            return None;
        }
        // `m` are minutes elsewhere.
        let length = matches!(&statement, Statement::Set(set) if set.key == SettingKey::Altitude)
            .then(|| self.length_of(self.bare().or(before)?))
            .flatten();
        let amount = length.or_else(|| self.amount(before))?;
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
        self.unit_of(number?).or_else(|| number.map(|n| Value::Number(Figure::of(n))))
    }

    /// A number in the unit that the answer names alone: `lbs`, `bags`, `quarts`, `minutes`.
    fn unit_of(&self, number: Number) -> Option<Value> {
        let classes = &self.language.words.classes;
        let words = &self.language.words;
        self.text.items.iter().find_map(|item| {
            if let Some(Value::Jars(jars)) = item.values.iter().find(|value| matches!(value, Value::Jars(_))) {
                return Some(Value::Jars(Jars { count: Some(number), ..*jars }));
            }
            if let Some(Meaning::Container(container)) = item.meaning(classes.container, words) {
                let count = Count { count: number, container: *container, article: false, range: false };
                return Some(Value::Count(count));
            }
            let Some(Meaning::Unit(unit)) = item.meaning(classes.unit, words) else { return None };
            match unit {
                Unit::Mass(mass, _) => Weight::of(*mass, number).map(Value::Weight),
                Unit::Ounce => Weight::of(Mass::OUNCE, number).map(Value::Weight),
                Unit::Volume(volume, _) => volume.times(number).map(|volume| Value::Volume(volume, false)),
                Unit::Seconds(seconds) => {
                    number.checked_mul(Number::whole((*seconds).into())).and_then(Number::as_count).map(Value::Duration)
                }
                Unit::Measure(measure) => Some(Value::Measure(number, *measure)),
                Unit::Length(unit, _) => {
                    unit.times(number).map(|length| Value::Height(Height { length, doubtful: false }))
                }
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
