//! Questions about what is there: loads, sums, what lasts how long, and each stock.

use super::handbook::named;
use super::{Words, is_asking};
use crate::phrase::{
    facts::has,
    token::{one_of, says},
    words::{Unit, Verb, Word},
};
use crate::vocabulary::{Crop, Stock, Subject};

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
    // A jar's food without its product: `the peaches`, `the crushed tomatoes`; mere tomatoes may be anywhere.
    let food = f.product.is_some() || plain && f.crop.is_some_and(|crop| crop != Crop::Tomato || f.prep.is_some());
    let oldest = w.what && says!(f, "oldest") && (jarred || f.stock == Some(Stock::Pantry));
    let runs_out = f.has(has::OUT)
        && f.any_verb(&[Verb::Run])
        && (w.when || w.how || w.quest && says!(f, "will" | "when" | "do" | "does"))
        && food
        && !says!(f, "did");
    let lasts = says!(f, "last" | "lasts")
        && says!(f, "will" | "til" | "till" | "until" | "through" | "does")
        && (w.quest || w.how)
        && food;
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
