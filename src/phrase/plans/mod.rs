//! Plans: a canning day fixed, moved or called off, and plants in the ground.
//!
//! ```text
//! planned    = ( "canning" | "we can" | "plan" | "let's can" | "we're doing" ) [ product ] day [ "by" time ] [ "in" jars ]
//!            | "move canning to" day | "canning day is" day
//! called_off = "canning is off" | "no canning" [ day ] | ( "call off" | "cancel" ) [ "canning" | product ] [ day ]
//! moved      = ( "make it" | "actually" | "not" day "," ) day, while a day is planned
//! planted    = ( "planted" | "set out" | "put in" ) number ( variety | crop ) [ "in" place ] | "have" number "plants in" place
//! ```
//!
//! A plan counts only with its day, and only if every word of it belongs to it: `we should can some day` stays talk.

mod calling_off;
mod moving;
mod planting;

use super::{
    build::{self, Carry},
    date::ahead,
    facts::{Facts, has},
    scan::{Chunk, Item},
    settings::clocks,
    token::{Mark, Sense, Token, Tokens, one_of, says},
    words::{Form, Unit, Verb, Word},
};
use crate::statement::{Planned, Statement};
pub(super) use calling_off::called_off;
use chrono::NaiveDate;
pub(super) use moving::moved;
pub(super) use planting::{planted, plants};

/// A coming day said in a clause, with its tokens; the last one said where something is moved.
fn day_said(f: &Facts<'_>, carry: &Carry<'_, '_>, last: bool) -> Option<((u32, u32), NaiveDate)> {
    let end = f.chunks.last()?.to as usize;
    let tokens = f.tokens.get(..end)?;
    let mut found = None;
    let mut read_to = 0;
    for chunk in f.chunks {
        // A day inside a name (`sunday red`) is none; inside a moment (`by 5 on sunday`) it is.
        let starts = match chunk.item {
            Item::Product(_) | Item::Batch(_) | Item::Variety(..) | Item::Amount(_) => chunk.from..chunk.from,
            Item::When(_) => chunk.from..chunk.to,
            _ => chunk.from..chunk.from + 1,
        };
        for at in starts {
            if at < read_to {
                continue;
            }
            let Some((used, day)) = ahead(Tokens(tokens.get(at as usize..)?), carry.context) else { continue };
            read_to = at + used as u32;
            if found.is_none() || last {
                found = Some(((at, read_to), day));
            }
        }
    }
    found
}

/// `by 6 pm`, `done by noon`: the hour of a canning day, where a bare number up to nine is one of the afternoon.
fn by_time(f: &Facts<'_>) -> Option<String> {
    let (from, to) = (f.chunks.first()?.from as usize, f.chunks.last()?.to as usize);
    let tokens = f.tokens.get(from..to)?;
    let Some(at) = tokens.iter().position(|t| one_of!(t.key, "by" | "before")) else { return hour_said(tokens) };
    let (hour, minute, sure) = *clocks(tokens.get(at + 1..tokens.len().min(at + 6))?).first()?;
    let hour = if !sure && (1..10).contains(&hour) { hour + 12 } else { hour };
    Some(format!("{:02}:{minute:02}", hour % 24))
}

/// `at 5 pm`, `, 6pm`: an hour that can be nothing else.
fn hour_said(tokens: &[Token]) -> Option<String> {
    let at = tokens.iter().enumerate().position(|(n, token)| {
        matches!(token.sense, Sense::Clock(..))
            || matches!(token.sense, Sense::Num(_))
                && tokens.get(n + 1).is_some_and(|next| one_of!(next.key, "am" | "pm" | "oclock" | "o'clock"))
    })?;
    let (hour, minute, _) = *clocks(tokens.get(at..tokens.len().min(at + 3))?).first()?;
    Some(format!("{:02}:{minute:02}", hour % 24))
}

/// Words of doubt: a wish is no plan.
fn is_doubt(c: &Chunk) -> bool {
    c.word() == Some(Word::Modal)
        && !one_of!(
            c.key,
            "can"
                | "will"
                | "i'll"
                | "we'll"
                | "ill"
                | "gonna"
                | "plan"
                | "planning"
                | "let's"
                | "imma"
                | "shall"
                | "gon"
        )
        || matches!(
            c.item,
            Item::Word(Word::If | Word::Question | Word::Not | Word::You | Word::They | Word::Folk | Word::Kin)
        )
        || one_of!(
            c.key,
            "or" | "was"
                | "were"
                | "had"
                | "did"
                | "hoping"
                | "someday"
                | "sometime"
                | "last"
                | "ago"
                | "every"
                | "each"
        )
}

/// Whether every chunk is part of a plan; those of its day are passed over.
fn only_plan(f: &Facts<'_>, day: (u32, u32)) -> bool {
    f.chunks.iter().all(|c| {
        let dated = c.from >= day.0 && c.to <= day.1;
        dated
            || match c.item {
                Item::Word(
                    Word::Filler
                    | Word::Link
                    | Word::Is
                    | Word::Aux
                    | Word::First
                    | Word::And
                    | Word::Modal
                    | Word::DayPart(_),
                ) => true,
                Item::Mark(mark) => !matches!(mark, Mark::Quest | Mark::Money | Mark::Percent | Mark::Slash),
                Item::When(_)
                | Item::Batch(_)
                | Item::Product(_)
                | Item::Crop(_)
                | Item::Variety(..)
                | Item::Prep(_)
                | Item::Pack(_)
                | Item::Canner(_) => true,
                Item::Amount(a) => a.is_jars() || a.unit.is_none(),
                Item::Verb(
                    Verb::Can
                    | Verb::Do
                    | Verb::Make
                    | Verb::Begin
                    | Verb::Put
                    | Verb::Go
                    | Verb::Set
                    | Verb::Run
                    | Verb::Finish
                    | Verb::Change
                    | Verb::Come,
                    _,
                ) => true,
                _ => {
                    one_of!(
                        c.key,
                        "canning"
                            | "plan"
                            | "planning"
                            | "planned"
                            | "schedule"
                            | "scheduled"
                            | "scheduling"
                            | "postponed"
                            | "postpone"
                            | "forward"
                            | "pencil"
                            | "day"
                            | "batch"
                            | "moved"
                            | "move"
                            | "moving"
                            | "push"
                            | "pushed"
                            | "pushing"
                            | "shift"
                            | "shifted"
                            | "shifting"
                            | "reschedule"
                            | "rescheduled"
                            | "rescheduling"
                            | "bring"
                            | "date"
                            | "jars"
                            | "canner"
                            | "book"
                            | "session"
                            | "weekend"
                    ) || matches!(c.item, Item::Word(Word::Unit(Unit::Jar | Unit::Days)))
                }
            }
    })
}

/// `we can on Saturday`, `canning sauce saturday, done by 6 pm`, `move canning to Sunday`.
pub(super) fn planned(f: &Facts<'_>, carry: &Carry<'_, '_>) -> Option<Statement> {
    if f.alien > 0
        || f.stock.is_some()
        || f.dest.is_some()
        || f.source.is_some()
        || f.mass().is_some()
        || f.chunks.iter().any(is_doubt)
    {
        return None;
    }
    let canning = says!(f, "canning" | "bottling" | "jarring");
    let moved = says!(
        f,
        "moved"
            | "move"
            | "moving"
            | "push"
            | "pushed"
            | "pushing"
            | "shift"
            | "shifted"
            | "shifting"
            | "reschedule"
            | "rescheduled"
            | "rescheduling"
            | "postponed"
            | "postpone"
            | "forward"
    );
    let (range, day) = day_said(f, carry, moved)?;
    if !only_plan(f, range) {
        return None;
    }
    // `making salsa today in pints` has begun.
    let begun = day == carry.context.zone.day(carry.context.now)
        && f.jar().is_some()
        && f.verb.is_some_and(|(_, form)| form == Form::Ing)
        && by_time(f).is_none();
    if begun {
        return None;
    }
    let product = build::product(f, carry)
        .filter(|_| f.product.is_some() || f.crop.is_some() || f.prep.is_some() || f.variety.is_some());
    let known = product.is_some() && !matches!(f.product, Some(super::product::Named::Said(..)))
        || product.is_some() && f.jar().is_some();
    // `we can`, `let's can`, `i'll can`: the verb behind a helping word.
    let key = |n: usize| f.chunks.get(n).map_or(0, |c| c.key);
    let can_at = f.chunks.iter().position(|c| one_of!(c.key, "can"));
    // `can we move it`, `shall we`: asked.
    let starts = f.chunks.iter().find(|c| !matches!(c.item, Item::Word(Word::Filler | Word::And) | Item::Mark(_)));
    let asked = starts.is_some_and(|c| one_of!(c.key, "can" | "shall" | "will"));
    let of_whom = f.chunks.get(1).is_some_and(|c| matches!(c.item, Item::Word(Word::First | Word::You | Word::They)));
    if asked && (of_whom || product.is_none()) {
        return None;
    }
    let can = can_at.is_some_and(|at| {
        if f.chunks.get(at + 1).is_some_and(|c| matches!(c.item, Item::Verb(..))) {
            return false;
        }
        let before = at.checked_sub(1).map_or(0, key);
        if at == 0 {
            return product.is_some();
        }
        let helped =
            one_of!(before, "to" | "'s" | "let's" | "gonna" | "will" | "we'll" | "i'll" | "ill" | "imma" | "and");
        helped
            || one_of!(before, "we") && (product.is_some() || f.has_quantity() || f.chunks.len() <= 8)
            || one_of!(before, "i") && product.is_some()
    });
    let past =
        f.verb.is_some_and(|(verb, form)| form == Form::Past && !matches!(verb, Verb::Put | Verb::Set | Verb::Change));
    let ahead = f.chunks.iter().any(|c| {
        one_of!(
            c.key,
            "will" | "we'll" | "i'll" | "ill" | "gonna" | "going" | "let" | "let's" | "imma" | "lets" | "goin"
        )
    });
    // Of a weekend only canning by its name is a plan.
    let doing = known
        && !says!(f, "weekend")
        && f.any_verb(&[Verb::Do, Verb::Make, Verb::Run, Verb::Begin])
        && (ahead || f.verb.is_some_and(|(_, form)| form == Form::Ing));
    let plans = says!(f, "scheduling" | "plan" | "planning" | "planned" | "schedule" | "scheduled" | "pencil" | "book")
        && (known || canning || can);
    let put_down = says!(f, "put" | "putting") && f.has(has::DOWN) && known;
    let day_is = says!(f, "day" | "date" | "session") && (canning || known) && f.has(has::AUX);
    let moves = moved && (canning || product.is_some() || f.has(has::BATCH));
    let bare = canning && (f.has(has::FIRST | has::AUX | has::ON) || product.is_some() || f.chunks.len() <= 6);
    (!past && (bare || can || doing || plans || put_down || day_is || moves)).then(|| {
        let jars = f.jars();
        Statement::Planned(Planned {
            day: Some(day),
            by: by_time(f),
            product,
            jar: f.jar(),
            jars: jars.filter(|a| !a.article).and_then(|a| a.count()),
        })
    })
}

/// Whether a clause has a word that a plan is made with.
pub(super) fn may_plan(f: &Facts<'_>) -> bool {
    says!(
        f,
        "put"
            | "canning"
            | "bottling"
            | "jarring"
            | "can"
            | "plan"
            | "planning"
            | "planned"
            | "schedule"
            | "scheduling"
            | "postponed"
            | "bring"
            | "bringing"
            | "scheduled"
            | "pencil"
            | "book"
            | "doing"
            | "making"
            | "going"
            | "gonna"
            | "let"
            | "let's"
            | "will"
            | "we'll"
            | "i'll"
            | "day"
            | "move"
            | "moved"
            | "moving"
            | "push"
            | "pushed"
            | "pushing"
            | "shift"
            | "shifted"
            | "reschedule"
            | "rescheduled"
            | "rescheduling"
            | "running"
            | "starting"
            | "imma"
    )
}

/// `done by 4`, `want to be finished by 6 pm`: a clause that says nothing but the hour.
pub(super) fn hour_behind(f: &Facts<'_>) -> Option<String> {
    let plain = f.chunks.iter().all(|c| {
        matches!(
            c.item,
            Item::Word(
                Word::Filler
                    | Word::Link
                    | Word::Is
                    | Word::Aux
                    | Word::First
                    | Word::And
                    | Word::Modal
                    | Word::DayPart(_)
            ) | Item::Mark(_)
                | Item::When(_)
                | Item::Verb(Verb::Do | Verb::Finish | Verb::Get, _)
        ) || matches!(c.item, Item::Amount(a) if a.unit.is_none())
            || one_of!(c.key, "jars" | "round" | "rounds" | "need" | "trying" | "done")
    });
    plain.then(|| by_time(f)).flatten()
}
