//! Questions about what goes on: clocks, the next step, the plan of a day, the log, and help.

use super::Words;
use super::handbook::named;
use crate::phrase::{
    facts::has,
    scan::Item,
    token::{one_of, says},
    words::{Form, Verb, Word},
};
use crate::vocabulary::Subject;

pub(super) fn help(w: &Words<'_, '_>, short: bool) -> bool {
    let use_you = w.f.has(has::YOU) && (w.f.verb_is(Verb::Use) || says!(w.f, "explain"));
    let alone = says!(w.f, "help" | "commands" | "examples" | "instructions" | "manual" | "cheatsheet" | "cheat")
        && (short || w.quest && w.f.chunks.len() <= 6)
        && w.f.when.is_none()
        && w.f.verb.is_none();
    let can_you = w.f.has(has::YOU) && w.what && (says!(w.f, "can" | "could") && w.f.verb_is(Verb::Do));
    let say = w.what
        && says!(w.f, "say" | "ask" | "tell")
        && says!(w.f, "can" | "could" | "should" | "to")
        && w.f.stock.is_none()
        && w.f.dest.is_none();
    let works = w.how && says!(w.f, "work" | "works") && (w.f.has(has::YOU | has::IT) || says!(w.f, "this"));
    let how_use = w.how && !w.how_much && w.f.verb_is(Verb::Use) && says!(w.f, "this") && w.f.amounts.is_empty();
    alone || how_use || can_you || say || works || use_you && (w.how || says!(w.f, "explain"))
}

pub(super) fn log(w: &Words<'_, '_>, asks: bool) -> Option<Subject> {
    let f = w.f;
    if says!(w.f, "log" | "entries" | "history" | "journal" | "logbook")
        && !f.has(has::OFF)
        && (asks || f.has(has::PLEASE))
        && !f.verb_is(Verb::Undo)
        && !(f.has_quantity() && f.amounts.iter().any(|a| a.mass.is_some() || a.jar.is_some()))
    {
        return Some(Subject::Log);
    }
    let frozen = w.pair(|a, b| one_of!(a, "have" | "got") && one_of!(b, "frozen"));
    let did = !frozen
        && w.what
        && f.verb_is(Verb::Do)
        && f.has(has::FIRST)
        && f.verb.is_some_and(|(_, form)| form == Form::Past)
        && !says!(w.f, "with" | "to");
    let of_batch = f.batch.is_some() || f.has(has::BATCH) || f.product.is_some();
    let happened = w.what && says!(w.f, "happened") && f.has(has::TO) && of_batch;
    let went =
        w.how && says!(w.f, "go" | "went" | "turn") && of_batch && !w.long && !w.how_much && !says!(w.f, "how's");
    let went = went && (f.batch.is_some() || says!(w.f, "did") && f.has(has::BATCH));
    if (happened || went) && asks && !f.has_quantity() && f.clean() && !says!(w.f, "store" | "recipe") {
        return Some(Subject::Log);
    }
    if says!(w.f, "happened") && (f.has_quantity() || f.has(has::TO)) {
        return None;
    }
    let logged = (w.what || f.verb_is(Verb::Show)) && says!(w.f, "logged" | "recorded" | "entered" | "happened");
    (did || logged).then_some(Subject::Log)
}

pub(super) fn timer(w: &Words<'_, '_>, short: bool) -> Option<Subject> {
    let f = w.f;
    if says!(w.f, "take" | "took" | "takes") && says!(w.f, "it" | "that") {
        return None;
    }
    let away = f.place.is_some() || f.crop.is_some() || f.has_quantity() && !short;
    if away || f.any_verb(&[Verb::Set, Verb::Cancel]) || says!(w.f, "home" | "drive" | "you" | "zone") {
        return None;
    }
    if short && w.quest && f.chunks.len() == 1 && says!(w.f, "time") {
        return Some(Subject::Timer);
    }
    let timer = says!(w.f, "timer" | "timr" | "timers" | "clock" | "countdown");
    if timer && (short || w.quest || w.how || w.what || f.verb_is(Verb::Show)) {
        return Some(Subject::Timer);
    }
    let time = says!(w.f, "time" | "minutes" | "mins" | "minute" | "min");
    let rest = w.left
        || says!(w.f, "longer" | "remaining" | "more")
        || w.pair(|a, b| one_of!(a, "to") && one_of!(b, "go")) && (w.how || says!(w.f, "minutes" | "mins"));
    if time && rest && (w.quest || w.how || short) && !says!(w.f, "no") {
        return Some(Subject::Timer);
    }
    let long = w.how && w.long;
    if f.has(has::THERE) && says!(w.f, "we" | "get" | "til" | "till" | "until") && !f.has(has::JARS | has::CANNER) {
        return None;
    }
    let ends =
        says!(w.f, "til" | "till" | "until" | "before" | "left" | "now" | "longer" | "still" | "remaining" | "more");
    if long
        && (ends
            || short
            || f.chunks
                .iter()
                .filter(|c| !matches!(c.item, Item::Word(Word::Filler | Word::Is) | Item::Mark(_)))
                .count()
                <= 2
            || f.has(has::CANNER | has::JARS))
        && !named(f)
        && f.jar().is_none()
    {
        return Some(Subject::Timer);
    }
    let done = says!(w.f, "done" | "ready" | "finished" | "finish" | "over" | "up")
        && (f.has(has::IT | has::JARS | has::CANNER | has::BATCH) || says!(w.f, "they" | "it" | "are"));
    let asked_when = w.when && (done && !f.has(has::OUT) || f.has(has::JARS) && f.has(has::OUT));
    let are_we = w.quest
        && done
        && (f.has(has::BATCH | has::CANNER) || says!(w.f, "yet") && f.has(has::IT | has::FIRST | has::JARS))
        && !says!(w.f, "load");
    (asked_when || are_we).then_some(Subject::Timer)
}

pub(super) fn next(w: &Words<'_, '_>) -> Option<Subject> {
    let f = w.f;
    let next = says!(w.f, "next");
    if f.any_verb(&[Verb::Eat, Verb::Buy]) {
        return None;
    }
    let today = w.what
        && f.verb_is(Verb::Do)
        && f.has(has::FIRST)
        && says!(w.f, "should" | "could" | "to")
        && f.any_token(|k| one_of!(k, "today" | "now" | "next"))
        && f.when.is_none_or(|w| !w.future)
        && f.stock.is_none()
        && f.product.is_none()
        && f.crop.is_none();
    if today || says!(w.f, "digest") && (w.what || w.quest || f.chunks.len() <= 5) && !f.has(has::NOT) {
        return Some(Subject::Next);
    }
    if f.jar().is_some() || f.product.is_some() || f.when.is_some() || f.crop.is_some() || says!(w.f, "for" | "load") {
        return None;
    }
    let step = next && says!(w.f, "step" | "stage" | "up");
    let then = f.chunks.len() <= 4 && says!(w.f, "then");
    let now = w.what && (says!(w.f, "now") || next || then) && f.stock.is_none() && f.dest.is_none()
        || next && f.chunks.len() <= 1 + usize::from(w.quest);
    let does = f.verb_is(Verb::Do) && w.what && (next || says!(w.f, "now"));
    let small = f.chunks.len() <= 9;
    (small && (step && (w.quest || w.what || f.chunks.len() <= 3) || now || does)).then_some(Subject::Next)
}

/// The day as a whole: `when will we be done?`, `when's the last round out?`, `what's the plan for today?`, `how long in all?`
pub(super) fn day(w: &Words<'_, '_>) -> Option<Subject> {
    let f = w.f;
    let asks = w.quest || w.what || w.when || w.how || f.verb_is(Verb::Show);
    if !asks || f.stock.is_some() || f.supply.is_some() || says!(f, "load") {
        return None;
    }
    if planned_day(w) {
        return Some(Subject::Day);
    }
    let when = w.when || w.what && says!(f, "time");
    let done = says!(f, "done" | "finished" | "finish" | "through")
        && f.has(has::FIRST)
        && !f.has(has::IT)
        && f.product.is_none();
    let last = says!(f, "last" | "final") && says!(f, "round" | "rounds" | "batch" | "jars" | "canner" | "one");
    let plan = says!(f, "plan" | "plans" | "schedule" | "timeline")
        && (w.what || w.quest || f.verb_is(Verb::Show))
        && !says!(f, "planting" | "rows");
    let of_day = f.any_token(|k| one_of!(k, "today" | "todays" | "day" | "canning"));
    let plan = plan && of_day && f.when.is_none_or(|w| !w.future) && !says!(f, "saturday" | "sunday");
    let whole = w.how && w.long && (f.has(has::ALL) || says!(f, "altogether" | "total" | "whole" | "everything"))
        || w.what && says!(f, "today") && says!(f, "look" | "looks" | "like");
    let rounds = w.how_much && says!(f, "rounds" | "loads") && !says!(f, "picked" | "froze");
    (when && (done || last) || plan || whole && !named(f) || rounds).then_some(Subject::Day)
}

/// The canning day that is planned: `when do we can?`, `what's the plan for saturday?`, `when do i thaw?`
fn planned_day(w: &Words<'_, '_>) -> bool {
    let f = w.f;
    if !f.clean() || f.has_quantity() || f.has(has::YOU | has::THEY) || f.place.is_some() || f.dest.is_some() {
        return false;
    }
    let own = f.has(has::FIRST);
    // `when can we do it`: the helping word stands before who.
    let can = f.chunks.windows(2).any(|p| one_of!(p[0].key, "we" | "i") && one_of!(p[1].key, "can" | "canning"))
        || says!(f, "canning") && (own || f.has(has::AUX) || f.chunks.iter().any(|c| c.item == Item::Word(Word::Is)));
    let cans = w.when
        && can
        && says!(f, "do" | "are" | "will" | "should" | "is" | "'s" | "'re" | "canning")
        && f.crop.is_none()
        && !says!(f, "start" | "make" | "begin" | "did" | "last" | "was" | "were");
    let thaws = w.when && own && f.verb_is(Verb::Thaw) && says!(f, "do" | "should" | "to" | "must");
    let plan = w.what
        && says!(f, "plan" | "plans")
        && (f.has(has::AUX) || f.chunks.iter().any(|c| c.item == Item::Word(Word::Is)))
        && f.chunks.iter().all(|c| {
            matches!(
                c.item,
                Item::Word(
                    Word::Question
                        | Word::Link
                        | Word::Is
                        | Word::Aux
                        | Word::Filler
                        | Word::First
                        | Word::Weekday(_)
                        | Word::Day(_)
                ) | Item::Mark(_)
                    | Item::When(_)
            ) || one_of!(c.key, "plan" | "canning" | "day" | "what" | "weekend")
        })
        && !f.any_token(|k| one_of!(k, "night" | "evening" | "morning" | "lunch"))
        && (w.quest || f.when.is_none() && !f.any_token(|k| one_of!(k, "for")));
    cans || thaws || plan
}
