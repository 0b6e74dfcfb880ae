//! Recipes of the household: their names, what they take and make.

use super::position;
use crate::phrase::{
    build::{self, Carry},
    facts::{Facts, has},
    product::said,
    scan::Item,
    token::{Mark, one_of},
    words::{Verb, Word},
};
use crate::statement::{Recipe, Statement};

/// `recipe fire salsa takes 6 lb makes 4 pints`.
pub(in crate::phrase) fn recipe(f: &Facts<'_>) -> Option<Statement> {
    let at = f.chunks.iter().position(|c| one_of!(c.key, "recipe" | "recipes" | "recipie" | "recepie" | "recipee"))?;
    let jars = f.amounts.iter().find(|a| a.jar.is_some() && !a.uncounted).or_else(|| f.jars());
    let mass = f.amounts.iter().find_map(|a| a.mass);
    if mass.is_none() && jars.is_none_or(|a| a.jar.is_none()) || f.has(has::NOT) {
        return None;
    }
    let name = name_after(f, at + 1).or_else(|| name_before(f, at))?;
    Some(Statement::Recipe(Recipe { name, mass, jars: jars.and_then(|a| a.count()), jar: jars.and_then(|a| a.jar) }))
}

/// `our fire salsa takes 6 lb and makes 4 pints`, without the word recipe.
pub(in crate::phrase) fn takes_and_makes(f: &Facts<'_>, carry: &Carry<'_, '_>) -> Option<Statement> {
    let takes = position(f, |k| one_of!(k, "takes" | "needs" | "uses" | "requires"))?;
    let makes = position(f, |k| one_of!(k, "makes" | "yields" | "gives" | "fills"))?;
    let named = f.chunks.iter().position(|c| matches!(c.item, Item::Product(_)))?;
    let jars = f.amounts.iter().find(|a| a.jar.is_some() && !a.uncounted)?;
    let mass = f.mass()?.mass;
    let plain = f.unknown + f.alien == 0 && !f.has(has::NOT | has::MODAL | has::FOLK | has::THEY);
    (named < takes && takes < makes && plain)
        .then(|| {
            Some(Statement::Recipe(Recipe {
                name: build::product(f, carry)?.as_str().to_owned(),
                mass,
                jars: jars.count(),
                jar: jars.jar,
            }))
        })
        .flatten()
}

pub(super) fn name_after(f: &Facts<'_>, mut at: usize) -> Option<String> {
    while f.chunks.get(at).is_some_and(|c| {
        matches!(
            c.item,
            Item::Mark(Mark::Colon | Mark::Comma | Mark::Dash | Mark::Equals)
                | Item::Word(Word::Filler | Word::Aux | Word::Is)
        ) || one_of!(c.key, "for" | "called" | "named" | "my" | "our" | "the" | "a" | "it")
    }) {
        at += 1;
    }
    let mut end = at;
    while let Some(chunk) = f.chunks.get(end) {
        let ends = match chunk.item {
            Item::Amount(_) => true,
            Item::Mark(mark) => !matches!(mark, Mark::Hyphen | Mark::And),
            Item::Verb(verb, _) => {
                matches!(verb, Verb::Take | Verb::Make | Verb::Use | Verb::Yield | Verb::Get | Verb::Fill | Verb::Do)
            }
            Item::Word(Word::Aux | Word::Modal) => true,
            Item::Word(Word::Link) => {
                one_of!(chunk.key, "from" | "with" | "for" | "per" | "into" | "at")
                    && end > at
                    && f.chunks.get(end + 1).is_some_and(|c| matches!(c.item, Item::Amount(_)))
            }
            _ => false,
        };
        if ends {
            break;
        }
        end += 1;
    }
    let (first, last) = (f.chunks.get(at)?, f.chunks.get(end.checked_sub(1)?)?);
    (end > at).then(|| said(f.text, f.tokens, first.from as usize, last.to as usize)).flatten()
}

pub(super) fn name_before(f: &Facts<'_>, at: usize) -> Option<String> {
    let mut first = at;
    while first > 0 {
        let chunk = f.chunks.get(first - 1)?;
        let part = match chunk.item {
            Item::Mark(mark) => mark == Mark::Hyphen,
            Item::Word(Word::Link) => !one_of!(chunk.key, "the" | "my" | "our" | "a" | "an" | "this"),
            Item::Word(Word::Filler | Word::First | Word::Modal | Word::You | Word::Aux) => false,
            Item::Word(Word::Quality) => !one_of!(chunk.key, "new"),
            Item::Verb(..) | Item::Amount(_) => false,
            Item::Word(Word::Common) => !one_of!(chunk.key, "save" | "saved"),
            Item::Unknown => !one_of!(chunk.key, "save" | "store" | "keep"),
            _ => true,
        };
        if !part {
            break;
        }
        first -= 1;
    }
    let (from, to) = (f.chunks.get(first)?, f.chunks.get(at.checked_sub(1)?)?);
    (first < at).then(|| said(f.text, f.tokens, from.from as usize, to.to as usize)).flatten()
}
