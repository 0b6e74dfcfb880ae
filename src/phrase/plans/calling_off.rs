//! A canning day called off.

use super::{day_said, moving::day_cancelled};
use crate::phrase::{
    build::{self, Carry},
    facts::{Facts, has},
    scan::{Chunk, Item},
    token::{one_of, says},
    words::{Verb, Word},
};
use crate::statement::{CalledOff, Statement};

/// `we won't can on sunday`.
fn wont_can(f: &Facts<'_>) -> bool {
    let not = f.chunks.iter().position(|c| one_of!(c.key, "won't" | "wont" | "can't" | "cant" | "cannot" | "not"));
    let can = f.chunks.iter().rposition(|c| one_of!(c.key, "can"));
    f.has(has::FIRST)
        && not.zip(can).is_some_and(|(not, can)| {
            not < can && !f.chunks.get(can + 1).is_some_and(|c| matches!(c.item, Item::Verb(..)))
        })
}

/// `canning is off`, `no canning Saturday`, `call off saturday`, `cancel the sauce on sunday`.
pub(in crate::phrase) fn called_off(f: &Facts<'_>, carry: &Carry<'_, '_>) -> Option<Statement> {
    if f.alien > 0 || f.has(has::YOU | has::THEY | has::FOLK | has::KIN) || f.has_quantity() || f.stock.is_some() {
        return None;
    }
    if let Some(said) = day_cancelled(f, carry) {
        return Some(said);
    }
    let canning = says!(f, "canning" | "bottling") || wont_can(f) || says!(f, "day") && f.product.is_some();
    let cancels = says!(
        f,
        "cancel"
            | "cancelled"
            | "canceled"
            | "cancelling"
            | "scrap"
            | "scratch"
            | "skip"
            | "skipping"
            | "forget"
            | "postpone"
            | "postponed"
            | "drop"
            | "axe"
    );
    let off = says!(f, "off");
    let call = says!(f, "call" | "calling" | "called") && off;
    let not = f.has(has::NOT);
    // A weekend has two days: whichever is planned.
    let found = day_said(f, carry, false).filter(|_| !says!(f, "weekend"));
    let range = found.map_or((0, 0), |(range, _)| range);
    let known = f.product.is_some() && !matches!(f.product, Some(crate::phrase::product::Named::Said(..)));
    let said = canning
        && (cancels
            || call
            || not && (found.is_some() || says!(f, "today" | "after" | "weekend"))
            || off && (f.has(has::AUX) || f.chunks.len() <= 3))
        || call && (found.is_some() || known && f.has(has::BATCH) | (found.is_some()))
        || cancels && known && found.is_some()
        || off && known && found.is_some() && f.has(has::AUX);
    // `postponed to sunday` moves it.
    let moved = says!(f, "postpone" | "postponed") && f.has(has::TO) && found.is_some();
    let said = said || not && known && found.is_some() && says!(f, "after");
    if !said || moved || f.any_verb(&[Verb::Turn, Verb::Boil, Verb::Take, Verb::Put]) || f.has(has::HEAT | has::BURNER)
    {
        return None;
    }
    let allowed = |c: &Chunk| {
        c.from >= range.0 && c.to <= range.1
            || matches!(
                c.item,
                Item::Word(Word::Not | Word::Link | Word::Filler | Word::Is | Word::Aux | Word::First | Word::And)
            )
            || matches!(c.item, Item::Verb(Verb::Can | Verb::Cancel | Verb::Undo | Verb::Send | Verb::Do | Verb::Go, _))
            || matches!(c.item, Item::Product(_) | Item::When(_) | Item::Mark(_) | Item::Batch(_))
            || one_of!(
                c.key,
                "call"
                    | "calling"
                    | "called"
                    | "skip"
                    | "skipping"
                    | "forget"
                    | "postpone"
                    | "postponed"
                    | "axe"
                    | "day"
                    | "weekend"
                    | "batch"
                    | "cancelling"
                    | "let"
                    | "let's"
                    | "plan"
                    | "going"
                    | "will"
                    | "we'll"
                    | "can"
                    | "won't"
                    | "wont"
            )
    };
    f.chunks.iter().all(allowed).then(|| {
        Statement::CalledOff(CalledOff {
            day: found.map(|(_, day)| day),
            product: f.product.and_then(|_| build::product(f, carry)),
        })
    })
}
