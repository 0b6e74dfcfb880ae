//! What a question is about, one function for each group of subjects.

use super::{Words, is_asking};
use crate::phrase::{
    facts::{Facts, has},
    scan::Item,
    settings::height_said,
    token::{one_of, says},
    words::{Form, Unit, Verb, Word},
};
use crate::vocabulary::{Crop, Stock, Subject};

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

pub(super) fn load(w: &Words<'_, '_>, short: bool) -> Option<Subject> {
    let f = w.f;
    if f.verb_is(Verb::Give) && f.has(has::AWAY) {
        return None;
    }
    let load = says!(w.f, "load" | "loads" | "canload" | "batch") || f.unit(Unit::Load).is_some();
    let loaded = says!(w.f, "load") || f.unit(Unit::Load).is_some();
    let soon = w.when
        || says!(w.f, "forecast")
        || w.how && w.long && loaded && says!(w.f, "until" | "till" | "til" | "before");
    let twice = f.chunks.iter().filter(|c| one_of!(c.key, "enough")).count() > 1;
    let enough = says!(w.f, "enough" | "enuf" | "nuff" | "sufficient") && !twice && f.bare().is_none();
    if says!(w.f, "forecast" | "projection") && (short || w.quest || w.what) {
        return Some(Subject::Forecast);
    }
    let begin = says!(w.f, "start" | "make" | "do" | "begin" | "can") && f.product.is_some() && f.has(has::FIRST);
    let until_load = w.how && w.long && loaded && says!(w.f, "til" | "till" | "until" | "before");
    let another = w.quest && loaded && f.any_verb(&[Verb::Get, Verb::Make]) && says!(w.f, "will" | "another");
    if until_load || another && !says!(w.f, "have" | "now" | "yet") {
        return Some(Subject::Forecast);
    }
    if soon && (load || enough || begin) && !f.any_verb(&[Verb::Pick, Verb::Freeze]) {
        return Some(Subject::Forecast);
    }
    let asks = w.quest || w.how || w.what || short || is_asking(f.chunks, false);
    if !asks || f.supply.is_some() || f.has(has::LIDS) {
        return None;
    }
    let close = says!(w.f, "close" | "near" | "far" | "almost" | "nearly" | "closer" | "away" | "short");
    if loaded
        && (close
            || enough
            || w.how
            || f.has(has::AT)
            || says!(w.f, "yet" | "have" | "full" | "got")
            || w.quest
            || short)
    {
        return Some(Subject::Load);
    }
    if f.chunks.first().is_some_and(|c| one_of!(c.key, "which"))
        && says!(w.f, "bags")
        && f.clean()
        && !f.any_verb(&[Verb::Buy, Verb::Give, Verb::Take, Verb::Toss, Verb::Throw])
        && (f.chunks.len() == 2 || says!(w.f, "take" | "pull") || f.any_verb(&[Verb::Thaw, Verb::Use]))
    {
        return Some(Subject::Load);
    }
    let more = f.has(has::MORE) || w.pair(|a, b| one_of!(a, "to") && one_of!(b, "go")) || says!(w.f, "short");
    let bags = says!(w.f, "bags" | "bag" | "lb" | "lbs" | "pounds" | "kilos" | "kg");
    let until = says!(w.f, "til" | "till" | "until" | "before") && (named(f) || load);
    if w.how_much && (more || bags && until) && (bags || named(f) || f.has(has::FIRST)) {
        return Some(Subject::Load);
    }
    let made = says!(w.f, "for" | "make" | "start" | "do" | "can") || load;
    if enough && (made && (named(f) || load || says!(w.f, "canner")) || short && !f.has(has::FIRST)) {
        return Some(Subject::Load);
    }
    if close && short && f.has(has::FIRST) && f.chunks.len() <= 5 && w.quest {
        return Some(Subject::Load);
    }
    let making =
        says!(w.f, "make" | "start" | "do" | "can") && says!(w.f, "can" | "could") && says!(w.f, "yet" | "now");
    if making && f.product.is_some() && f.has(has::FIRST) {
        return Some(Subject::Load);
    }
    if close && named(f) && f.product.is_some() && (w.how || w.quest) {
        return Some(Subject::Load);
    }
    (load && close && w.quest || bags && w.pair(|a, b| one_of!(a, "to") && one_of!(b, "go"))).then_some(Subject::Load)
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

pub(super) fn totals(w: &Words<'_, '_>, short: bool) -> Option<Subject> {
    let f = w.f;
    let word = says!(w.f, "totals" | "tally" | "stats" | "statistics" | "sum" | "summary" | "totalled");
    let total = says!(w.f, "total");
    let month =
        f.chunks.iter().any(|c| matches!(c.word(), Some(Word::Month(_)))) || says!(w.f, "year" | "ytd" | "summer");
    if total && month && short && f.verb.is_none() && f.amounts.iter().all(|a| a.article) {
        return Some(Subject::Totals);
    }
    let ledger =
        f.any_verb(&[Verb::Pick, Verb::Freeze, Verb::Can, Verb::Give, Verb::Eat, Verb::Toss, Verb::Dry, Verb::Bring])
            || w.pair(|a, b| one_of!(a, "put") && one_of!(b, "up"));
    let asks = w.quest || w.how || w.what || f.verb_is(Verb::Show) || short;
    if word && asks && f.supply.is_none() {
        return Some(Subject::Totals);
    }
    let past = f.forms_base & (1 << Verb::Eat as u8) == 0;
    let season = says!(w.f, "season" | "year" | "yr" | "month" | "week" | "wk");
    let stocked = f.stock.is_some() || f.dest.is_some();
    let frozen_stock = w.pair(|a, b| one_of!(a, "have" | "got") && one_of!(b, "frozen"));
    if ledger
        && past
        && !frozen_stock
        && (w.how_much || total || w.what && season || w.how && season)
        && !stocked
        && !w.left
    {
        return Some(Subject::Totals);
    }
    let gave_away = w.what
        && f.verb_is(Verb::Give)
        && f.has(has::FIRST)
        && f.has(has::AWAY)
        && says!(w.f, "did" | "have")
        && f.amounts.is_empty();
    if total && (season || ledger) && asks || gave_away {
        return Some(Subject::Totals);
    }
    (w.how && season && f.any_verb(&[Verb::Do]) && f.has(has::FIRST) || season && short && total)
        .then_some(Subject::Totals)
}

/// What lasts how long, and what is to be used first: `when do we run out of salsa?`, `what should we use first?`, `use first?`
pub(super) fn lasting(w: &Words<'_, '_>) -> Option<Subject> {
    let f = w.f;
    let asks = w.quest || w.how || w.what || w.when;
    if !asks || f.has_quantity() && f.jars().is_none() || f.supply.is_some() || f.has(has::LIDS) {
        return None;
    }
    let jarred = f.product.is_some() || f.has(has::JARS) || f.stock == Some(Stock::Pantry);
    let first = says!(f, "first") || f.any_token(|k| one_of!(k, "first"));
    let plain = f.clean() && f.place.is_none() && f.dest.is_none();
    let used_first = first
        && f.any_verb(&[Verb::Use, Verb::Eat, Verb::Open])
        && plain
        && f.crop.is_none()
        && !f.has(has::YOU | has::THEY | has::AUX)
        && (w.what || w.quest)
        && f.chunks.len() <= 10
        && !says!(f, "freezer" | "canner" | "did");
    let oldest = w.what && says!(f, "oldest") && (jarred || f.stock == Some(Stock::Pantry));
    let runs_out = f.has(has::OUT)
        && f.any_verb(&[Verb::Run])
        && (w.when || w.how || w.quest && says!(f, "will" | "when" | "do" | "does"))
        && f.product.is_some()
        && !says!(f, "did");
    let lasts = says!(f, "last" | "lasts")
        && says!(f, "will" | "til" | "till" | "until" | "through" | "does")
        && (w.quest || w.how)
        && f.product.is_some();
    let fast =
        w.how && says!(f, "fast" | "quickly" | "quick") && f.any_verb(&[Verb::Use, Verb::Eat, Verb::Go, Verb::Open]);
    (used_first || oldest || runs_out || lasts || fast && f.product.is_some()).then_some(Subject::Pantry)
}

pub(super) fn stock(w: &Words<'_, '_>, short: bool) -> Option<Subject> {
    let f = w.f;
    let asks = w.quest
        || w.how
        || w.what
        || f.verb_is(Verb::Show)
        || short
        || says!(w.f, "any" | "anything" | "is" | "do" | "have");
    if !asks
        || f.any_verb(&[Verb::Open, Verb::Put, Verb::Take, Verb::Toss, Verb::Thaw, Verb::Give])
            && !f.verb_is(Verb::Show)
        || w.when
    {
        return None;
    }
    let stock = f.stock.or(f.dest).or(f.source);
    let inquiring = w.how_much
        || w.what
        || f.verb_is(Verb::Show)
        || short
        || w.left
        || says!(
            w.f,
            "any"
                | "anything"
                | "much"
                | "many"
                | "full"
                | "have"
                | "got"
                | "status"
                | "count"
                | "inventory"
                | "contents"
                | "stock"
        );
    let told = w.pair(|a, b| one_of!(a, "tell" | "show" | "remind") && one_of!(b, "me" | "us"));
    let person =
        f.has(has::YOU) && !f.verb_is(Verb::Show) && !told || f.amounts.iter().any(|a| a.mass.is_some() && !a.article);
    if let Some(stock) = stock.filter(|_| (inquiring || w.how) && !person) {
        return Some(match stock {
            Stock::Freezer => Subject::Freezer,
            Stock::Counter => Subject::Counter,
            Stock::Pantry => Subject::Pantry,
            Stock::Fridge => Subject::Fridge,
        });
    }
    if f.verb_is(Verb::Freeze) && (w.what || w.how_much) && (w.left || short || says!(w.f, "have" | "got")) {
        return Some(Subject::Freezer);
    }
    let have = w.left || says!(w.f, "have" | "got" | "any" | "enough" | "stock" | "there");
    if says!(w.f, "supplies" | "supply") || f.has(has::LIDS) && (have || w.how_much || w.quest && short) {
        return Some(Subject::Supplies);
    }
    let low = says!(w.f, "low") || w.how && f.has(has::AUX) && !w.how_much;
    if f.supply.is_some() && (have || low) || f.has(has::JARS) && says!(w.f, "empty" | "spare" | "new") {
        return Some(Subject::Supplies);
    }
    let fruit = matches!(
        f.crop,
        Some(Crop::Peach | Crop::Pear | Crop::Apple | Crop::Apricot | Crop::Cherry | Crop::Plum | Crop::Nectarine)
    );
    let jarred = f.product.is_some() || f.jar().is_some() && f.crop.is_some() || fruit && w.left;
    let counts = f.jar().is_some() || f.has(has::JARS);
    if counts && w.what && have && f.supply.is_none() {
        return Some(Subject::Pantry);
    }
    if (jarred || counts && w.how_much) && (have || w.how_much || short && w.quest && !w.what) && f.supply.is_none() {
        return Some(if jarred || f.jar().is_some() || w.left { Subject::Pantry } else { Subject::Supplies });
    }
    let bags = says!(w.f, "bags" | "bag");
    if bags && w.how_much && have {
        return Some(Subject::Freezer);
    }
    let fresh = f.crop.is_some() && (w.how_much || w.left) && have && !f.any_verb(&[Verb::Pick, Verb::Buy]);
    fresh.then_some(if says!(w.f, "fresh" | "ripe") { Subject::Counter } else { Subject::Freezer })
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
