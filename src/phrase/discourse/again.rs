//! More of what was said last: as it was in all that is not said anew; and what was said last put right.

use super::super::context::Last;
use super::super::item::{Item, WordKind};
use super::super::lexicon::sense::{Container, Meaning, Unit};
use super::super::put::put;
use super::super::said::{last_mass_unit, only_weight};
use super::super::value::Value;
use super::super::value::jars::Jars;
use super::super::value::kinds::{Count, Weight};
use super::scene::{Scene, goes_on};
use super::words::{self, Sign};
use crate::quantity::{Mass, Number};
use crate::statement::{Clarify, Correct, Jarred, Picked, Statement, Taken};
use crate::vocabulary::{Kind, Missing};

/// What is not said anew is as it was: of frozen bags the weight of each, of jars their size and what is in them, the
/// crop.
pub(super) fn like(statement: Statement, last: &Statement) -> Statement {
    match (statement, last) {
        (Statement::PutUp(new), Statement::PutUp(old)) => Statement::PutUp(like_jarred(new, old)),
        (Statement::Opened(new), Statement::Opened(old)) => Statement::Opened(like_jarred(new, old)),
        (Statement::Picked(mut new), Statement::Picked(old)) if new.crop.is_none() && new.variety.is_none() => {
            (new.crop, new.variety) = (old.crop, old.variety.clone());
            Statement::Picked(new)
        }
        (Statement::Froze(mut new), Statement::Froze(old)) if new.crop.is_none() => {
            new.crop = old.crop;
            if new.mass.is_none() {
                new.each = old.each;
                let all = |(each, bags): (Mass, u32)| each.times(Number::whole(bags.into()));
                new.mass = old.each.zip(new.bags).and_then(all);
            }
            Statement::Froze(new)
        }
        (Statement::Thawed(mut new), Statement::Thawed(old)) => {
            new.crop = new.crop.or(old.crop);
            Statement::Thawed(new)
        }
        (Statement::Ate(new), Statement::Ate(old)) => Statement::Ate(like_taken(new, old)),
        (Statement::Gave(new), Statement::Gave(old)) => Statement::Gave(like_taken(new, old)),
        (Statement::Tossed(new), Statement::Tossed(old)) => Statement::Tossed(like_taken(new, old)),
        (statement, _) => statement,
    }
}

fn like_jarred(mut new: Jarred, old: &Jarred) -> Jarred {
    new.product = new.product.or_else(|| old.product.clone());
    new.jar = new.jar.or(old.jar);
    new
}

fn like_taken(mut new: Taken, old: &Taken) -> Taken {
    if new.jars.is_some() {
        new.product = new.product.or_else(|| old.product.clone());
        new.jar = new.jar.or(old.jar);
    } else if new.product.is_none() {
        new.crop = new.crop.or(old.crop);
    }
    new
}

/// The same statement, of now.
pub(super) fn undated(last: &Statement) -> Statement {
    let mut again = last.clone();
    match &mut again {
        Statement::Picked(s) => s.on = None,
        Statement::Froze(s) => s.on = None,
        Statement::Thawed(s) => s.on = None,
        Statement::Ate(s) | Statement::Gave(s) | Statement::Tossed(s) => s.on = None,
        Statement::PutUp(s) | Statement::Opened(s) => s.on = None,
        Statement::Bought(s) => s.on = None,
        Statement::Counted(s) => s.on = None,
        Statement::Dried(s) => s.on = None,
        Statement::Planted(s) => s.on = None,
        _ => {}
    }
    again
}

/// `and the same weight of peppers`: as much of another crop.
pub(super) fn same_of(scene: &Scene<'_>, last: Last<'_>) -> Option<Statement> {
    let words = &scene.language.words;
    let classes = &words.classes;
    let items = &scene.text.items;
    let known = |(n, item): (usize, &Item)| {
        let named = item.is(classes.again) || item.is(classes.crop) || words::is(scene.text, n, Sign::Amount);
        named || !item.is_content()
    };
    let measured = (0..items.len()).any(|n| words::is(scene.text, n, Sign::Amount));
    if !measured || !scene.is(classes.again) || !items.iter().enumerate().all(known) {
        return None;
    }
    let crop = items.iter().find_map(|item| match item.meaning(classes.crop, words) {
        Some(Meaning::Crop(crop)) => Some(*crop),
        _ => None,
    })?;
    match undated(last.statement) {
        Statement::Picked(old) => {
            Some(Statement::Picked(Picked { crop: Some(crop), variety: None, ripeness: None, place: None, ..old }))
        }
        Statement::Froze(mut old) => {
            (old.crop, old.prep) = (Some(crop), None);
            Some(Statement::Froze(old))
        }
        _ => None,
    }
}

/// `another 3`: of what was counted last, in its unit.
pub(super) fn with_unit(statement: Statement, last: Last<'_>) -> Option<Statement> {
    let Statement::Clarify(Clarify { missing, amount: Some(amount), partial, .. }) = statement else {
        return (!matches!(statement, Statement::Clarify(_))).then_some(statement);
    };
    let partial = partial.map(|partial| *partial);
    let bags = |mass: Option<Mass>, bags: Option<u32>, each: Option<Mass>| {
        bags.is_some() && (mass.is_none() || each.is_some())
    };
    let counted = match last.statement {
        Statement::Froze(s) => bags(s.mass, s.bags, s.each),
        Statement::Thawed(s) => bags(s.mass, s.bags, None),
        Statement::Ate(s) | Statement::Gave(s) | Statement::Tossed(s) => bags(s.mass, s.bags, None),
        _ => false,
    };
    let jar = match last.statement {
        Statement::PutUp(s) | Statement::Opened(s) => s.jar,
        Statement::Ate(s) | Statement::Gave(s) | Statement::Tossed(s) => s.jar.filter(|_| s.jars.is_some()),
        _ => None,
    };
    let value = match jar {
        Some(jar) => Value::Jars(Jars { count: Some(amount), jar: Some(jar), article: false }),
        None if missing != Missing::Unit => return None,
        None if counted => {
            Value::Count(Count { count: amount, container: Container::Bag, article: false, range: false })
        }
        None => Value::Weight(Weight::of(last_mass_unit(last.words)?, amount)?),
    };
    let mut statement = partial?;
    put(&mut statement, value).then_some(statement)
}

/// `and another one`, where jars were told of: so many more of the same.
pub(super) fn more_jars(scene: &Scene<'_>, last: Last<'_>) -> Option<Statement> {
    let jar = match last.statement {
        Statement::PutUp(s) | Statement::Opened(s) => s.jar?,
        Statement::Ate(s) | Statement::Gave(s) | Statement::Tossed(s) => s.jar.filter(|_| s.jars.is_some())?,
        _ => return None,
    };
    let items = &scene.text.items;
    let mut figures = items.iter().flat_map(|item| &item.values).filter_map(|value| match value {
        Value::Number(figure) => Some(figure.number),
        _ => None,
    });
    let (count, None) = (figures.next()?, figures.next()) else { return None };
    let bare = |item: &Item| !item.is_content() || matches!(&*item.values, [Value::Number(_)]);
    let mut again = undated(last.statement);
    let fits = items.iter().all(bare)
        && put(&mut again, Value::Jars(Jars { count: Some(count), jar: Some(jar), article: false }));
    fits.then_some(again)
}

/// What puts right what the same person said last, in a word that says nothing by itself: `sorry, kg`, `no, from the
/// greenhouse`.
pub(super) fn mended(scene: &Scene<'_>, last: Last<'_>) -> Option<Correct> {
    let classes = &scene.language.words.classes;
    let (slip, rest) = scene.text.items.split_first()?;
    if !last.own || !goes_on(last.statement.kind()) || !slip.is(classes.oops) {
        return None;
    }
    unit_mended(scene, last, rest).or_else(|| place_mended(scene, last))
}

/// The figure that was said, in another unit.
fn unit_mended(scene: &Scene<'_>, last: Last<'_>, rest: &[Item]) -> Option<Correct> {
    let words = &scene.language.words;
    let mut content = rest.iter().filter(|item| item.is_content());
    let (only, None) = (content.next()?, content.next()) else { return None };
    let unit = match only.meaning(words.classes.unit_mass, words)? {
        Meaning::Unit(Unit::Mass(mass, _)) => *mass,
        Meaning::Unit(Unit::Ounce) => Mass::OUNCE,
        _ => return None,
    };
    let said = only_weight(last.words).filter(|said| last.statement.mass() == Some(said.mass))?;
    Some(Correct { mass: unit.times(said.figure), ..Correct::default() })
}

/// Another place for what was picked.
fn place_mended(scene: &Scene<'_>, last: Last<'_>) -> Option<Correct> {
    let Statement::Picked(_) = last.statement else { return None };
    if !scene.any_value(|value| matches!(value, Value::Place)) || scene.any_value(Value::is_amount) {
        return None;
    }
    let frame = scene.language.frames.frames.iter().find(|frame| frame.kind == Kind::Picked)?;
    let items = &scene.text.items;
    let small = |item: &Item| matches!(item.kind, WordKind::Small | WordKind::Mark | WordKind::Harmless);
    scene.made(frame, items.len()).into_iter().find_map(|made| {
        let all = items.iter().enumerate().all(|(n, item)| made.used.has(n) || small(item) || n == 0);
        let statement = match &*made.statements {
            [Statement::Clarify(Clarify { partial: Some(partial), .. })] => partial,
            _ => return None,
        };
        let Statement::Picked(said) = &**statement else { return None };
        let only_place = Picked { place: said.place.clone(), ..Picked::default() } == *said;
        (all && only_place && said.place.is_some()).then(|| Correct { place: said.place.clone(), ..Correct::default() })
    })
}
