//! Questions about what is printed: process times, acid, and the raw weight for a quart.

use super::Words;
use crate::phrase::{
    facts::{Facts, has},
    scan::Item,
    settings::height_said,
    token::{one_of, says},
    words::{Unit, Verb, Word},
};
use crate::vocabulary::Subject;

pub(super) fn named(f: &Facts<'_>) -> bool {
    f.product.is_some()
        || f.crop.is_some()
        || crate::phrase::spoken::is_greens(f)
        || f.prep == Some(crate::vocabulary::Prep::Crushed)
        || f.prep == Some(crate::vocabulary::Prep::Whole)
}

pub(super) fn process(w: &Words<'_, '_>) -> Option<Subject> {
    let f = w.f;
    let word = says!(w.f, "process" | "processing" | "procesing" | "processed");
    let minutes = w.how_much && says!(w.f, "minutes" | "mins" | "min" | "minute");
    let long = w.how && w.long && !says!(w.f, "longer");
    let gauge =
        w.what && f.has(has::PRESSURE) || (w.what || w.how_much) && says!(w.f, "psi" | "pounds") && f.has(has::CANNER);
    let jar = f.jar().is_some() || f.canner.is_some() || f.pack.is_some();
    let time = says!(w.f, "time" | "times") && (w.what || w.quest || word);
    // `peaches raw pack in pints at 7000 ft?`
    let bare = w.quest && named(f) && f.jar().is_some() && (f.pack.is_some() || height_said(f).is_some());
    if bare && f.verb.is_none() && f.amounts.len() <= 2 && !f.has(has::AUX | has::FIRST | has::MODAL) && !w.left {
        return Some(Subject::Process);
    }
    // `how long do I run these?`
    let run = long
        && f.has(has::FIRST)
        && says!(f, "run" | "process" | "boil" | "cook")
        && says!(f, "these" | "those" | "them" | "this" | "jars")
        && !says!(f, "more" | "still" | "left" | "longer" | "til" | "till" | "until");
    if run && f.chunks.len() <= 9 && f.clean() {
        return Some(Subject::Process);
    }
    if (word || minutes || long || time && jar || gauge)
        && (named(f) || jar && (word || long))
        && !w.left
        && !says!(w.f, "til" | "till" | "until" | "since" | "ago" | "last" | "keep")
    {
        return Some(Subject::Process);
    }
    // `green beans in pints in the pressure canner?`
    let laid_out = w.quest
        && named(f)
        && f.jar().is_some()
        && f.canner.is_some()
        && f.verb.is_none()
        && !f.has_quantity()
        && !f.has(has::AUX | has::FIRST | has::MODAL)
        && !w.left
        && !says!(w.f, "til" | "till" | "until" | "have" | "got" | "enough");
    (laid_out || word && (w.what || w.quest || w.how) && says!(w.f, "time" | "times" | "long"))
        .then_some(Subject::Process)
}

pub(super) fn acid(w: &Words<'_, '_>, short: bool) -> Option<Subject> {
    let f = w.f;
    let acid = f.acid().is_some() || f.has(has::ACID) || says!(w.f, "acidify");
    if !acid || f.any_verb(&[Verb::Buy]) {
        return None;
    }
    let have = w.left || says!(w.f, "have" | "got" | "any" | "enough" | "low" | "stock" | "enuf");
    let dose = f.has(has::EACH)
        || f.jar().is_some()
        || says!(w.f, "need" | "add" | "use" | "put" | "goes" | "per" | "take" | "should" | "dose" | "does")
        || named(f);
    if dose && !have
        || says!(w.f, "need" | "add") && f.jar().is_some()
        || says!(w.f, "have") && w.pair(|a, b| one_of!(a, "have") && one_of!(b, "to"))
    {
        return (w.quest || w.how || w.what || short).then_some(Subject::Acid);
    }
    if have || w.quest && !w.how_much {
        return Some(Subject::Supplies);
    }
    w.how_much.then_some(Subject::Acid)
}

/// `what's our yield for sauce?`, `how many lb per quart do we get?`
pub(super) fn yields(w: &Words<'_, '_>) -> Option<Subject> {
    let f = w.f;
    let word = says!(f, "yield" | "yields" | "yielding")
        && (w.what || w.how || w.quest || f.chunks.len() <= 4)
        && (f.product.is_some()
            || f.crop.is_some()
            || f.jar().is_some()
            || f.has(has::FIRST)
            || says!(f, "our" | "my"));
    let per = w.how_much
        && f.chunks.iter().any(|c| {
            matches!(c.item, Item::Word(Word::Unit(Unit::Pound | Unit::Kilo)))
                || one_of!(c.key, "lb" | "lbs" | "pounds" | "kg" | "kilos" | "weight" | "raw")
        })
        && says!(f, "per" | "each" | "a" | "go" | "goes" | "into" | "in" | "make" | "makes" | "to")
        && f.jar().is_some()
        && f.acid().is_none()
        && !f.has(has::PRESSURE | has::CANNER)
        && !f.any_verb(&[Verb::Pick, Verb::Freeze, Verb::Can, Verb::Eat]);
    (word || per).then_some(Subject::Yield)
}
