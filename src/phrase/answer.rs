//! The answer to a question completes what was begun.

use super::{
    Context, Lexicon,
    build::{self, Carry},
    facts::{Facts, gather},
    harvest::harvest,
    kinds, lex,
    measure::{Amount, amount, mass_unit},
    product::said,
    scan::{Item, scan},
    settings::{altitude_of, height, height_said},
    supplies,
    token::{Token, Tokens, one_of},
    words::{Unit, Word},
};
use crate::{
    quantity::{Length, Mass, Number},
    statement::{Clarify, Statement},
    vocabulary::{CannerKind, Crop, Jar, Kind, Missing, Product, SettingKey, Supply},
};

/// Completes a pending statement with the answer; `None` when it answers nothing.
pub(super) fn complete(pending: &Clarify, answer: &str, context: &Context<'_>) -> Option<Vec<Statement>> {
    if answer.len() > 200 {
        return None;
    }
    // A minus sign needs a word before it, or it is a dash.
    let below = pending.missing == Missing::Altitude && answer.trim_start().starts_with(['-', '−']);
    let spelled = below.then(|| format!("altitude {}", answer.trim_start()));
    let answer = spelled.as_deref().unwrap_or(answer);
    let tokens = lex::lex(answer);
    let chunks = scan(answer, &tokens, context);
    let f = gather(answer, &tokens, &chunks);
    if f.chunks.is_empty() || f.chunks.iter().any(super::batch::is_quest) {
        return None;
    }
    if is_command(pending, answer, context) {
        return None;
    }
    let mut partial = pending.partial.as_deref().cloned();
    let carry = Carry { context, kind: None, unit: None, jar: None, when: None };
    match pending.missing {
        Missing::Altitude => {
            let length = height_said(&f).or_else(|| bare_height(&f, context.lexicon))?;
            Some(std::iter::once(altitude_of(length)).chain(partial).collect())
        }
        Missing::Canner => {
            let gauge = |c: &super::scan::Chunk| match c.key {
                k if one_of!(k, "dial") => Some(CannerKind::PressureDial),
                k if one_of!(k, "weighted" | "weight" | "weights" | "jiggler" | "rocker") => {
                    Some(CannerKind::PressureWeighted)
                }
                _ => None,
            };
            let named = f.canner.filter(|canner| canner.is_pressure() && *canner != CannerKind::Pressure);
            let canner = named.or_else(|| f.chunks.iter().find_map(gauge))?;
            let statement = partial.as_mut()?;
            match statement {
                Statement::Began(s) => s.canner = Some(canner),
                Statement::Set(s) => s.canner = Some(canner),
                Statement::Ask(s) => s.canner = Some(canner),
                _ => return None,
            }
            Some(vec![statement.clone()])
        }
        Missing::Product => {
            let named = build::product(&f, &carry).or_else(|| free_name(&f, &tokens, answer))?;
            let statement = partial.as_mut()?;
            set_product(statement, named);
            if let (Some(jar), None) = (f.jar(), jar_of(statement)) {
                set_jar(statement, jar);
            }
            Some(vec![still_missing(statement.clone(), pending)])
        }
        Missing::Jar => {
            let statement = partial.as_mut()?;
            let jar = f.jar()?;
            set_jar(statement, jar);
            let counted = f.jars().filter(|a| !a.uncounted && !a.article).and_then(|a| a.count());
            if let Some(jars) = counted
                .or_else(|| jars_of(statement).is_none().then(|| pending.amount.and_then(Number::as_count)).flatten())
            {
                set_jars(statement, jars);
            }
            Some(vec![statement.clone()])
        }
        Missing::Unit | Missing::Amount => {
            // `lbs of course`
            let course = f.chunks.iter().filter(|c| one_of!(c.key, "course" | "obviously" | "obv" | "duh")).count();
            let strangers = usize::from(f.unknown + f.alien + f.common);
            if strangers > course || kinds::kind_of(&f).is_some() && f.verb.is_some() {
                return None;
            }
            let amount = answered(&f, &tokens, pending.amount)?;
            let statement = partial.as_mut()?;
            // `nine` to how many jars: of which size is asked next.
            if let (Statement::PutUp(s), None, Some(jars)) = (&mut *statement, amount.unit, amount.count()) {
                s.jars = Some(jars);
                let whole = s.jar.is_some();
                let number = amount.number;
                let said = statement.clone();
                return Some(vec![if whole {
                    said
                } else {
                    Statement::Clarify(Clarify {
                        word: None,
                        about: Kind::PutUp,
                        missing: Missing::Jar,
                        amount: Some(number),
                        partial: Some(Box::new(said)),
                    })
                }]);
            }
            if let Statement::Froze(s) = &mut *statement
                && s.each.take().is_some()
                && pending.amount == Some(amount.number)
                && let Some(each) = amount.mass.filter(|_| !amount.is(Unit::Bag))
            {
                s.each = Some(each);
                s.mass = each.times(Number::whole(s.bags.unwrap_or(1).into()));
                return Some(vec![statement.clone()]);
            }
            if !fill(statement, &amount, &f, &carry) {
                return None;
            }
            let said = statement.clone();
            let unnamed = matches!(&said, Statement::PutUp(s) if s.product.is_none());
            Some(vec![if unnamed {
                Statement::Clarify(Clarify {
                    word: None,
                    about: Kind::PutUp,
                    missing: Missing::Product,
                    amount: Some(amount.number),
                    partial: Some(Box::new(said)),
                })
            } else {
                said
            }])
        }
    }
}

/// Whether an answer is something else that was said in full: `labels 63.5x38.1 mm` is no product.
fn is_command(pending: &Clarify, answer: &str, context: &Context<'_>) -> bool {
    if matches!(pending.missing, Missing::Altitude | Missing::Canner) {
        return false;
    }
    super::read(answer, context).statements.iter().any(|said| {
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

/// The amount of an answer: said in full, or its unit for the number said before.
fn answered(f: &Facts<'_>, tokens: &[Token], before: Option<Number>) -> Option<Amount> {
    if let Some(full) = f.amounts.iter().find(|a| !a.uncounted && a.unit.is_some()) {
        return Some(*full);
    }
    let dozen = f.chunks.iter().any(|c| one_of!(c.key, "dozen" | "doz")).then(|| Number::whole(12));
    if let Some(dozen) = dozen.filter(|_| f.bare().is_none()) {
        return dozen.checked_mul(before.unwrap_or(Number::whole(1))).map(Amount::of);
    }
    let n = f.bare().map(|a| a.number).or(before)?;
    if let Some(jar) = f.amounts.iter().find_map(|a| a.jar) {
        let mut said = f.amounts.first().copied()?;
        (said.number, said.jar, said.uncounted) = (n, Some(jar), false);
        return Some(said);
    }
    let unit = f.chunks.iter().find_map(|c| match c.item {
        Item::Word(Word::Unit(unit)) => Some(unit),
        _ => None,
    });
    let Some(unit) = unit else { return f.bare().copied() };
    // Reading `1 lb` gives the amount its unit; only its number is another.
    let at = tokens.iter().position(|t| t.word() == Some(Word::Unit(unit)))?;
    let one = Token { sense: super::token::Sense::Num(n), key: 0, from: 0, to: 0, glued: false };
    let spelled = [one, tokens[at]];
    amount(Tokens(&spelled)).map(|(_, amount)| amount)
}

fn bare_height(f: &Facts<'_>, lexicon: &Lexicon) -> Option<Length> {
    let n = f.bare().filter(|_| f.clean())?.number;
    if lexicon.metric { Length::METRE.times(n) } else { Length::FOOT.times(n) }
}

/// A product by a name that no table knows: the whole of a short answer.
fn free_name(f: &Facts<'_>, tokens: &[Token], answer: &str) -> Option<Product> {
    if tokens.len() > 5 || f.verb.is_some() || f.has_quantity() || f.when.is_some() {
        return None;
    }
    said(answer, tokens, 0, tokens.len()).map(|name| Product::named(&name))
}

/// A finished batch without a jar still needs one.
fn still_missing(statement: Statement, pending: &Clarify) -> Statement {
    match &statement {
        Statement::PutUp(said) if said.jars.is_some() && said.jar.is_none() => Statement::Clarify(Clarify {
            word: None,
            about: Kind::PutUp,
            missing: Missing::Jar,
            amount: pending.amount,
            partial: Some(Box::new(statement)),
        }),
        _ => statement,
    }
}

fn set_product(statement: &mut Statement, named: Product) {
    match statement {
        Statement::Began(s) => s.product = Some(named),
        Statement::PutUp(s) | Statement::Opened(s) => s.product = Some(named),
        Statement::Ate(s) | Statement::Gave(s) | Statement::Tossed(s) => s.product = Some(named),
        Statement::Filled(s) => s.product = Some(named),
        Statement::Counted(s) => s.product = Some(named),
        Statement::Ask(s) => s.product = Some(named),
        Statement::Set(s) => s.product = Some(named),
        _ => {}
    }
}

fn jar_of(statement: &Statement) -> Option<Jar> {
    match statement {
        Statement::Began(s) => s.jar,
        Statement::PutUp(s) | Statement::Opened(s) => s.jar,
        Statement::Ate(s) | Statement::Gave(s) | Statement::Tossed(s) => s.jar,
        Statement::Filled(s) => s.jar,
        Statement::Counted(s) => s.jar,
        Statement::Ask(s) => s.jar,
        Statement::Recipe(s) => s.jar,
        Statement::Set(s) => s.jar,
        _ => None,
    }
}

fn set_jar(statement: &mut Statement, jar: Jar) {
    let slot = match statement {
        Statement::Began(s) => &mut s.jar,
        Statement::PutUp(s) | Statement::Opened(s) => &mut s.jar,
        Statement::Ate(s) | Statement::Gave(s) | Statement::Tossed(s) => &mut s.jar,
        Statement::Filled(s) => &mut s.jar,
        Statement::Counted(s) => &mut s.jar,
        Statement::Ask(s) => &mut s.jar,
        Statement::Recipe(s) => &mut s.jar,
        Statement::Set(s) => &mut s.jar,
        Statement::Bought(s) => &mut s.jar,
        _ => return,
    };
    *slot = Some(jar);
}

fn jars_of(statement: &Statement) -> Option<u32> {
    match statement {
        Statement::Began(s) => s.jars,
        Statement::PutUp(s) | Statement::Opened(s) => s.jars,
        Statement::Ate(s) | Statement::Gave(s) | Statement::Tossed(s) => s.jars,
        Statement::Filled(s) => s.jars,
        Statement::Counted(s) => s.jars,
        Statement::Recipe(s) => s.jars,
        Statement::Set(s) => s.jars,
        _ => None,
    }
}

fn set_jars(statement: &mut Statement, jars: u32) {
    let slot = match statement {
        Statement::Began(s) => &mut s.jars,
        Statement::PutUp(s) | Statement::Opened(s) => &mut s.jars,
        Statement::Ate(s) | Statement::Gave(s) | Statement::Tossed(s) => &mut s.jars,
        Statement::Filled(s) => &mut s.jars,
        Statement::Counted(s) => &mut s.jars,
        Statement::Recipe(s) => &mut s.jars,
        Statement::Set(s) => &mut s.jars,
        _ => return,
    };
    *slot = Some(jars);
}

/// The mass of an amount, with the published weights of bushels and the like.
fn weight(amount: &Amount, crop: Option<Crop>) -> Option<Mass> {
    amount.mass.or_else(|| harvest(amount, crop.unwrap_or(Crop::Tomato)))
}

/// Puts an amount where the statement misses it; false when it does not fit there.
fn fill(statement: &mut Statement, amount: &Amount, f: &Facts<'_>, carry: &Carry<'_, '_>) -> bool {
    let bags = amount.is(Unit::Bag).then(|| amount.count()).flatten();
    match statement {
        Statement::Picked(s) => {
            s.mass = weight(amount, s.crop);
            s.mass.is_some()
        }
        Statement::Froze(s) => {
            (s.bags, s.each) = (bags.or(s.bags), amount.each.or(s.each));
            s.mass = weight(amount, s.crop);
            s.bags.is_some() || s.mass.is_some()
        }
        Statement::Thawed(s) => {
            s.bags = bags;
            s.mass = weight(amount, s.crop);
            s.bags.is_some() || s.mass.is_some()
        }
        Statement::Counted(s) => {
            (s.bags, s.mass) = (bags, weight(amount, s.crop));
            if amount.is_jars() {
                (s.jars, s.jar) = (amount.count(), amount.jar);
                s.product = s.product.take().or_else(|| build::product(f, carry));
            }
            s.bags.is_some() || s.mass.is_some() || s.jars.is_some()
        }
        Statement::Ate(s) | Statement::Gave(s) | Statement::Tossed(s) => {
            (s.bags, s.mass) = (bags, weight(amount, s.crop));
            if amount.is_jars() {
                (s.jars, s.jar) = (amount.count(), amount.jar);
                s.product = s.product.take().or_else(|| build::product(f, carry));
            }
            s.bags.is_some() || s.mass.is_some() || s.jars.is_some()
        }
        Statement::Drained(s) => {
            s.mass = amount.mass;
            s.volume = if s.mass.is_none() { amount.volume() } else { None };
            s.mass.is_some() || s.volume.is_some()
        }
        Statement::Dried(s) => {
            s.mass = amount.mass;
            s.trays = amount.is(Unit::Tray).then(|| amount.count()).flatten();
            s.mass.is_some() || s.trays.is_some()
        }
        Statement::Powdered(s) => {
            s.mass = amount.mass;
            s.mass.is_some()
        }
        Statement::PutUp(s) | Statement::Opened(s) => {
            (s.jars, s.jar) = (amount.count(), amount.jar.or(s.jar));
            s.product = s.product.take().or_else(|| build::product(f, carry));
            s.jars.is_some() && amount.is_jars()
        }
        Statement::Filled(s) => {
            (s.jars, s.jar) = (amount.count(), amount.jar.or(s.jar));
            s.jars.is_some() && amount.is_jars()
        }
        Statement::Bought(s) => {
            let supply = s.supply.unwrap_or(Supply::Lids);
            let jar = s.jar;
            let fits = supplies::measure(supply, amount, s);
            s.jar = s.jar.or(jar);
            fits
        }
        Statement::TimerStart(s) => {
            s.seconds = amount.seconds;
            s.seconds.is_some()
        }
        Statement::Set(s) => match s.key {
            SettingKey::Altitude => {
                s.length = height(amount);
                s.length.is_some()
            }
            _ => {
                s.mass = amount.mass;
                s.mass.is_some()
            }
        },
        _ => false,
    }
}

/// The unit of mass last used in some words.
pub(super) fn last_mass_unit(words: &str) -> Option<Mass> {
    if words.len() > super::LONGEST {
        return None;
    }
    lex::lex(words).iter().rev().find_map(|token| match token.word() {
        Some(Word::Unit(unit)) => mass_unit(unit),
        _ => token.is_mark(super::token::Mark::Hash).then_some(Mass::POUND),
    })
}
