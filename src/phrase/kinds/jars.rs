//! Clauses about jars: filled, put up, opened, and a batch begun.

use crate::phrase::{
    facts::{Facts, has},
    token::{one_of, says},
    words::{Form, Unit, Verb},
};
use crate::vocabulary::{Kind, Stock};

pub(super) fn jars(f: &Facts<'_>) -> Option<Kind> {
    let any_jar = f.amounts.iter().any(|a| a.is_jars());
    let put_up = f.chunks.windows(2).any(|w| {
        one_of!(w[0].key, "put" | "laid") && one_of!(w[1].key, "up" | "by")
            || any_jar && one_of!(w[0].key, "put" | "laid") && one_of!(w[1].key, "away" | "down")
    }) || says!(f, "putup");
    let full = says!(f, "full")
        && f.jars().is_some()
        && f.verb.is_none()
        && f.clean()
        && f.dest.is_none()
        && f.source.is_none()
        && f.stock.is_none();
    if f.verb_is(Verb::Pour)
        && says!(f, "drain" | "sink")
        && sized_jars(f)
        && f.product.is_some_and(|p| p != crate::phrase::product::Named::Known("tomato-juice"))
    {
        return Some(Kind::Tossed);
    }
    if f.verb_is(Verb::Fill) || f.verb_is(Verb::Pack) && any_jar || full {
        return Some(Kind::Filled);
    }
    let put_them_up = any_jar && f.has(has::UP) && says!(f, "put") && f.dest.is_none() && f.jar().is_some();
    if f.verb_is(Verb::Can) && f.verb.is_some_and(|(_, form)| form == Form::Past) || put_up || put_them_up {
        return Some(Kind::PutUp);
    }
    let putting =
        f.chunks.windows(2).any(|w| one_of!(w[0].key, "putting" | "puttin") && one_of!(w[1].key, "up" | "by"));
    let canning = f.verb == Some((Verb::Can, Form::Ing)) && f.product.is_some() && f.dest.is_none();
    if (f.verb_is(Verb::Can) || putting) && any_jar || canning {
        return Some(Kind::Began);
    }
    let opening = says!(f, "open" | "into" | "out");
    let shelf = f.source == Some(Stock::Pantry)
        && sized_jars(f)
        && f.any_verb(&[Verb::Take, Verb::Grab, Verb::Get, Verb::Bring, Verb::Pull, Verb::Lift, Verb::Come]);
    if shelf
        && (f.product.is_some() || f.crop.is_some() || f.prep.is_some())
        && f.alien == 0
        && !f.has(has::FOLK | has::THEY)
    {
        return Some(Kind::Opened);
    }
    let shelved = f.verb.is_some_and(|(verb, _)| verb == Verb::Add)
        && (f.dest == Some(Stock::Pantry) || f.stock == Some(Stock::Pantry))
        && sized_jars(f)
        && f.product.is_some();
    if shelved {
        return Some(Kind::PutUp);
    }
    if f.verb_is(Verb::Finish) && says!(f, "last" | "the") && f.jars().is_some_and(|a| a.article) && f.product.is_some()
    {
        return Some(Kind::Ate);
    }
    let popped = says!(f, "popped" | "busted" | "tapped") || opening && says!(f, "broke");
    let sized = any_jar && (f.jar().is_some() || f.product.is_some());
    if f.verb_is(Verb::Open) && f.forms_base & (1 << Verb::Open as u8) == 0
        || f.verb_is(Verb::Crack) && (any_jar || f.verb_is(Verb::Open))
        || popped && sized && f.dest.is_none() && f.source.is_none_or(|s| s != Stock::Freezer) && !f.has(has::ON)
    {
        return Some(Kind::Opened);
    }
    let through =
        f.chunks.windows(2).any(|w| one_of!(w[0].key, "went" | "gone") && one_of!(w[1].key, "through" | "thru"));
    if matches!(f.verb, Some((Verb::Use, Form::Past))) || through {
        return Some(if any_jar || f.product.is_some() && f.mass().is_none() && f.unit(Unit::Bag).is_none() {
            Kind::Opened
        } else {
            Kind::Ate
        });
    }
    let done = f.chunks.last().is_some_and(|c| one_of!(c.key, "done"))
        && f.verbs.count_ones() == 1
        && sized
        && f.product.is_some()
        && f.jars().is_some()
        && f.clean()
        && !f.has(has::AUX | has::NOT | has::MODAL);
    if done {
        return Some(Kind::PutUp);
    }
    let made = !f.verb_is(Verb::Begin)
        && f.any_verb(&[Verb::Make, Verb::Do, Verb::Finish, Verb::Get])
        && f.verb.is_some_and(|(_, form)| form == Form::Past);
    if made && f.has(has::OFF) {
        return None;
    }
    if made
        && sized
        && f.dest.is_none()
        && f.source.is_none()
        && (f.product.is_some() || f.crop.is_some() || f.prep.is_some())
        && f.any_verb(&[Verb::Make, Verb::Do, Verb::Finish])
        && !f.has(has::OFF)
    {
        return Some(Kind::PutUp);
    }
    None
}

pub(super) fn sized_jars(f: &Facts<'_>) -> bool {
    f.jars().is_some_and(|a| a.jar.is_some())
}

pub(super) fn began(f: &Facts<'_>) -> Option<Kind> {
    let form = f.verb.map(|(_, form)| form);
    if f.has(has::CHICKENS | has::PLANTS) {
        return None;
    }
    let batch = f.has(has::BATCH);
    let thing =
        f.product.is_some() || f.crop.is_some() || f.prep.is_some() || f.free_product.is_some() || f.jar().is_some();
    if f.verb_is(Verb::Begin) && (thing || batch) {
        return Some(Kind::Began);
    }
    let ing = form == Some(Form::Ing);
    let canning = ing && f.verb_is(Verb::Can) && (f.product.is_some() || f.crop.is_some());
    let loaded = f.has(has::CANNER)
        && says!(f, "going" | "loaded")
        && (f.product.is_some() || f.crop.is_some())
        && f.jars().is_some();
    if canning || loaded {
        return Some(Kind::Began);
    }
    if ing
        && f.any_verb(&[Verb::Make, Verb::Do, Verb::Run, Verb::Crack])
        && (f.product.is_some() || f.jar().is_some() && thing || batch || f.prep.is_some())
        && !f.verb_is(Verb::Open)
    {
        return Some(Kind::Began);
    }
    let on = says!(f, "working" | "work") && f.has(has::ON);
    if f.verb_is(Verb::Get)
        && f.product.is_some()
        && f.chunks.windows(2).any(|w| one_of!(w[0].key, "the") && one_of!(w[1].key, "go"))
    {
        return Some(Kind::Began);
    }
    let going = f.any_verb(&[Verb::Get, Verb::Go]) && says!(f, "going" | "go" | "on");
    let named = f.product.is_some() || f.crop.is_some() || f.prep.is_some();
    let under_way = f
        .chunks
        .windows(2)
        .any(|w| one_of!(w[0].key, "got" | "getting" | "get") && one_of!(w[1].key, "going" | "started" | "cracking"));
    if under_way && named && !f.has(has::OUT) {
        return Some(Kind::Began);
    }
    if batch
        && named
        && (f.verb.is_none()
            || going
            || on
            || f.any_verb(&[Verb::Make, Verb::Do, Verb::Put, Verb::Set, Verb::Get, Verb::Run])
                && form != Some(Form::Past))
        && !f.has(has::OUT | has::OFF | has::DOWN | has::UP)
    {
        return Some(Kind::Began);
    }
    (on && f.product.is_some() && f.dest.is_none()).then_some(Kind::Began)
}
