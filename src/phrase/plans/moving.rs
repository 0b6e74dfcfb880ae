//! A planned day moved in few words: `make it Monday`, `actually friday`, `not Saturday, Sunday`; only while one is planned.

use super::{by_time, day_said};
use crate::phrase::{
    build::Carry,
    date::ahead,
    facts::{Facts, has},
    scan::{Chunk, Item},
    token::{Mark, Tokens, one_of, says},
    words::{Verb, Word},
};
use crate::{
    statement::{CalledOff, Planned, Statement},
    vocabulary::Product,
};
use chrono::NaiveDate;

/// The next canning day that is planned.
fn coming<'l>(carry: &Carry<'_, 'l>) -> Option<&'l (NaiveDate, Product)> {
    let today = carry.context.zone.day(carry.context.now);
    carry.context.lexicon.planned.iter().find(|(day, _)| *day >= today)
}

/// The planned day moved to another.
pub(in crate::phrase) fn moved(f: &Facts<'_>, carry: &Carry<'_, '_>) -> Option<Statement> {
    let (planned, product) = coming(carry)?;
    if f.has(has::YOU | has::THEY | has::FOLK | has::KIN) || f.chunks.iter().any(|c| c.is_mark(Mark::Quest)) {
        return None;
    }
    let made = f.chunks.windows(2).any(|w| one_of!(w[0].key, "make" | "move") && one_of!(w[1].key, "it" | "that"));
    let rather = says!(f, "actually" | "instead" | "rather");
    let (_, first) = day_said(f, carry, false)?;
    let (_, day) = day_said(f, carry, true)?;
    let not = f.has(has::NOT) && first != day && first == *planned;
    let today = carry.context.zone.day(carry.context.now);
    if !(made || rather || not) || day <= today || !f.chunks.iter().all(|c| is_part(c, f, carry)) {
        return None;
    }
    Some(Statement::Planned(Planned {
        day: Some(day),
        by: by_time(f),
        product: Some(product.clone()),
        jar: None,
        jars: None,
    }))
}

/// Small words, days, and what moves them.
fn is_part(c: &Chunk, f: &Facts<'_>, carry: &Carry<'_, '_>) -> bool {
    match c.item {
        Item::Word(
            Word::Filler | Word::Link | Word::Is | Word::And | Word::Not | Word::DayPart(_) | Word::Weekday(_),
        ) => true,
        Item::When(_) | Item::Verb(Verb::Make | Verb::Do | Verb::Change, _) => true,
        Item::Mark(mark) => matches!(mark, Mark::Comma | Mark::Dash | Mark::Dot | Mark::Bang | Mark::Colon),
        Item::Amount(a) => a.unit.is_none(),
        _ => {
            one_of!(
                c.key,
                "let"
                    | "let's"
                    | "lets"
                    | "move"
                    | "it"
                    | "actually"
                    | "instead"
                    | "rather"
                    | "sorry"
                    | "wait"
                    | "weekend"
            ) || f
                .tokens
                .get(c.from as usize..)
                .and_then(|tokens| ahead(Tokens(tokens), carry.context))
                .is_some_and(|(used, _)| c.from as usize + used >= c.to as usize)
        }
    }
}

/// `cancel saturday`: nothing but the day that is planned.
pub(super) fn day_cancelled(f: &Facts<'_>, carry: &Carry<'_, '_>) -> Option<Statement> {
    let cancels = says!(f, "cancel" | "scrap" | "scratch" | "skip" | "forget" | "axe") || f.verb_is(Verb::Cancel);
    let (_, day) = day_said(f, carry, false).filter(|_| cancels && f.chunks.len() <= 6)?;
    let planned = carry.context.lexicon.planned.iter().any(|(planned, _)| *planned == day);
    let plain = f.chunks.iter().all(|c| {
        is_part(c, f, carry)
            || matches!(c.item, Item::Verb(Verb::Cancel | Verb::Undo, _) | Item::Word(Word::First | Word::Modal))
            || one_of!(c.key, "cancel" | "scrap" | "scratch" | "skip" | "forget" | "axe" | "let's" | "let")
    });
    (planned && plain && !f.has(has::NOT)).then_some(Statement::CalledOff(CalledOff { day: Some(day), product: None }))
}
