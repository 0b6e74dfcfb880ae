//! What a message says only together with what came before: `and 4 lb of peppers`, `another 3`, `same again`.

use super::build::{Clause, Note, build};
use super::frame::{Frame, Types, types_of};
use super::item::{Item, Text, WordKind};
use super::{Context, Household, Language, Last, Reading};
use super::lexicon::sense::Container;
use super::value::Value;
use super::value::amount::{Count, Weight};
use crate::quantity::Mass;
use crate::statement::{Clarify, Statement};
use crate::vocabulary::{Kind, Missing};

/// Longest message that goes on with the one before, in items.
const LONGEST: usize = 10;

/// Takes a message that says nothing by itself as going on with what the same person said last.
pub(super) fn continued(reading: Reading, text: &Text<'_>, language: &Language, household: &Household, context: &Context<'_>) -> Reading {
    let Some(last) = context.last.filter(|_| reading.statements.is_empty() && text.items.len() <= LONGEST) else {
        return reading;
    };
    match going_on(last, text, language, household, context) {
        Some(statements) => Reading { statements, ..reading },
        None => reading,
    }
}

fn going_on(last: Last<'_>, text: &Text<'_>, language: &Language, household: &Household, context: &Context<'_>) -> Option<Vec<Statement>> {
    let classes = &language.words.classes;
    let is = |class| text.items.iter().any(|item: &Item| item.is(class));
    let mine = |item: &Item| !matches!(item.kind, WordKind::Deed | WordKind::Voice | WordKind::Alien);
    if !text.items.iter().all(mine) || is(classes.mark_question) {
        return None;
    }
    if is(classes.again) && text.items.iter().all(|item| item.is(classes.again) || !item.is_content()) {
        return goes_on(last.statement.kind()).then(|| vec![undated(last.statement)]);
    }
    let frame = language.frames.frames.iter().find(|frame| frame.kind == last.statement.kind() && goes_on(frame.kind) && frame.about.is_none())?;
    let statements = filled(frame, text, household, context)?;
    statements.into_iter().map(|statement| with_unit(statement, last).map(|statement| like(statement, last.statement))).collect()
}

/// Kinds of which more may follow.
const fn goes_on(kind: Kind) -> bool {
    matches!(
        kind,
        Kind::Picked | Kind::Froze | Kind::Thawed | Kind::Ate | Kind::Gave | Kind::Tossed | Kind::PutUp | Kind::Opened | Kind::Bought | Kind::Counted | Kind::Dried | Kind::Planted
    )
}

/// The words as those of a frame that they do not name; only where all of them fit.
fn filled(frame: &Frame, text: &Text<'_>, household: &Household, context: &Context<'_>) -> Option<Vec<Statement>> {
    let types: Vec<Types> = text.items.iter().map(types_of).collect();
    let scene = super::build::Scene { text, types: &types, context, household };
    let clause = Clause { scene, frame, from: 0, to: text.items.len(), trigger: &[] };
    let mut made = Vec::new();
    build(&clause, &mut made);
    let whole = made.into_iter().find(|made| {
        let all = text.items.iter().enumerate().all(|(n, item)| made.used.has(n) || matches!(item.kind, WordKind::Small | WordKind::Mark | WordKind::Harmless));
        all && made.notes.iter().any(|note| note.is_amount()) && !made.notes.contains(&Note::GuessedCropOrdinary)
    });
    whole.map(|made| made.statements)
}

/// What is not said anew is as it was: of frozen bags the weight of each, of jars their size and what is in them.
fn like(statement: Statement, last: &Statement) -> Statement {
    match (statement, last) {
        (Statement::PutUp(mut new), Statement::PutUp(old)) => {
            new.product = new.product.or_else(|| old.product.clone());
            new.jar = new.jar.or(old.jar);
            Statement::PutUp(new)
        }
        (Statement::Opened(mut new), Statement::Opened(old)) => {
            new.product = new.product.or_else(|| old.product.clone());
            new.jar = new.jar.or(old.jar);
            Statement::Opened(new)
        }
        (Statement::Froze(mut new), Statement::Froze(old)) if new.mass.is_none() && new.crop.is_none() => {
            new.crop = old.crop;
            new.each = old.each;
            new.mass = old.each.zip(new.bags).and_then(|(each, bags)| each.times(crate::quantity::Number::whole(bags.into())));
            Statement::Froze(new)
        }
        (statement, _) => statement,
    }
}

/// The same statement, of now.
fn undated(last: &Statement) -> Statement {
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

/// `another 3`: of what was counted last, in its unit.
fn with_unit(statement: Statement, last: Last<'_>) -> Option<Statement> {
    let Statement::Clarify(Clarify { missing: Missing::Unit, amount: Some(amount), partial: Some(partial), .. }) = statement else {
        return (!matches!(statement, Statement::Clarify(_))).then_some(statement);
    };
    let mut statement = *partial;
    let bags = |mass: Option<Mass>, bags: Option<u32>, each: Option<Mass>| bags.is_some() && (mass.is_none() || each.is_some());
    let counted = match last.statement {
        Statement::Froze(s) => bags(s.mass, s.bags, s.each),
        Statement::Thawed(s) => bags(s.mass, s.bags, None),
        Statement::Ate(s) | Statement::Gave(s) | Statement::Tossed(s) => bags(s.mass, s.bags, None),
        _ => false,
    };
    let value = if counted {
        Value::Count(Count { count: amount, container: Container::Bag, article: false, range: false })
    } else {
        Value::Weight(Weight::of(super::answer::last_mass_unit(last.words)?, amount)?)
    };
    super::answer::put(&mut statement, value).then_some(statement)
}
