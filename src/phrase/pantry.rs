//! Jars: a batch begun, jars filled, a batch told in one go, a jar opened.

use super::{
    build::{self, Carry},
    facts::{Facts, Way, has},
    product::Named,
    scan::Item,
    token::one_of,
    words::{Form, Unit, Verb, Word},
};
use crate::{
    quantity::Number,
    statement::{Began, Filled, Jarred, Statement},
    vocabulary::{Jar, Kind, Missing},
};

/// How many jars, where `7½ pints` can only be seven half-pints.
fn count(number: Number, jar: Option<Jar>) -> Option<(u32, Option<Jar>)> {
    match number.as_count() {
        Some(n) => Some((n, jar)),
        None if jar == Some(Jar::Pint) && number.as_f64() == 0.5 => Some((1, Some(Jar::HalfPint))),
        None if jar == Some(Jar::Pint) && number.as_f64().fract() == 0.5 => {
            Some((number.as_f64().trunc() as u32, Some(Jar::HalfPint)))
        }
        None => None,
    }
}

/// A batch began.
pub(super) fn began(f: &Facts<'_>, carry: &mut Carry<'_, '_>) -> Option<Statement> {
    let jars = f.jars();
    let counted = jars.and_then(|a| count(a.number, a.jar.or(f.jar())));
    let mut said = Began {
        jar: counted.and_then(|(_, jar)| jar).or(f.jar()),
        jars: counted.map(|(n, _)| n),
        mass: f.amounts.iter().find_map(|a| a.mass),
        canner: f.canner,
        pack: f.pack,
        on: carry.when(Kind::Began, f),
        ..Began::default()
    };
    if jars.is_some_and(|a| a.article && !f.has(has::BATCH)) && said.jar.is_some() {
        said.jars = Some(1);
    }
    // `in quarts, 7 of them`
    if said.jars.is_none() && said.jar.is_some() {
        said.jars = f.bare().and_then(|a| a.count()).filter(|n| *n > 0);
    }
    let sure = f.has(has::BATCH) || said.jar.is_some() || said.canner.is_some() || said.mass.is_some();
    let own_words = f.product.is_none() && f.crop.is_none() && f.prep.is_none() && f.variety.is_none();
    if own_words && (!sure || said.jar.is_none()) && f.free_product.is_some() {
        return None;
    }
    // `canning salsa today`: without jars it may be a plan.
    let bare_canning = f.verb.is_some_and(|(verb, _)| verb == Verb::Can) && said.jar.is_none() && !f.has(has::BATCH);
    if f.alien > 0 && f.product.is_none() || f.compound || bare_canning && jars.is_none() {
        return None;
    }
    said.product = build::product(f, carry);
    said.pack = said.pack.filter(|_| !build::says_pack(said.product.as_ref()));
    let crop_alone = f.product.is_none() && (f.crop.is_some() || f.prep.is_some());
    if said.product.is_some()
        && (!crop_alone || sure || f.verb.is_some_and(|(verb, _)| verb == Verb::Begin) && f.clean())
    {
        return Some(Statement::Began(said));
    }
    let plain =
        f.clean() && f.has(has::BATCH) || sure && f.clean() && f.verb.is_some_and(|(verb, _)| verb == Verb::Begin);
    build::clarify_if(plain && said.product.is_none(), (Kind::Began, Statement::Began(said)), Missing::Product, None)
}

/// `lets do thick sauce in pints`: a plan for this hour, when it names what goes into which jars and no other day.
pub(super) fn lets_begin(f: &Facts<'_>, carry: &mut Carry<'_, '_>) -> Option<Statement> {
    let first = f.chunks.iter().position(|c| one_of!(c.key, "let" | "let's" | "lets"))?;
    let verb = f.chunks.iter().skip(first + 1).take(3).any(|c| {
        matches!(c.item, Item::Verb(Verb::Do | Verb::Make | Verb::Begin | Verb::Run, _))
            || one_of!(c.key, "can" | "get" | "go")
    });
    let now = f.when.is_none_or(|w| {
        !w.future && w.when(carry.context).is_none_or(|w| w.day() >= carry.context.zone.day(carry.context.now))
    });
    let led =
        f.chunks.get(..first)?.iter().all(|c| matches!(c.item, Item::Word(Word::Filler | Word::And) | Item::Mark(_)));
    let named = f.product.is_some() && f.jar().is_some();
    (verb && now && led && named && f.clean() && !f.has(has::NOT | has::YOU | has::THEY | has::KIN | has::FOLK))
        .then(|| began(f, carry))
        .flatten()
}

/// Jars were filled.
pub(super) fn filled(f: &Facts<'_>, carry: &mut Carry<'_, '_>) -> Option<Statement> {
    if f.bad_object && f.jars().is_none_or(|a| a.jar.is_none()) {
        return None;
    }
    let amount = f.jars();
    // `filled to 35` is no count.
    if f.has(has::TO) && amount.is_none() && f.product.is_none() && f.crop.is_none() {
        return None;
    }
    let counted = amount.and_then(|a| count(a.number, a.jar.or(f.jar())));
    let bare = f.bare().and_then(|a| a.count());
    let said = Filled {
        jars: counted.map(|(n, _)| n).or(bare),
        jar: counted.and_then(|(_, jar)| jar).or(f.jar()),
        product: build::product(f, carry)
            .filter(|_| f.product.is_some() || f.crop.is_some() || f.prep.is_some())
            .filter(|_| carry.named_as_product(f).is_none()),
        batch: carry.called(f).or_else(|| carry.named_as_product(f)),
        on: carry.when(Kind::Filled, f),
    };
    carry.jar = said.jar;
    if amount.is_none() && bare.is_some() && !f.has(has::JARS) {
        return build::clarify_if(
            build::is_plain(f),
            (Kind::Filled, Statement::Filled(Filled { jars: bare, ..said })),
            Missing::Jar,
            f.bare().map(|a| a.number),
        );
    }
    let jars = said.jars.is_some() || f.has(has::JARS);
    (jars && f.alien == 0).then_some(Statement::Filled(said))
}

/// A finished batch, or jars opened.
pub(super) fn jarred(kind: Kind, f: &Facts<'_>, carry: &mut Carry<'_, '_>) -> Option<Statement> {
    let wrap = |said: Jarred| if kind == Kind::Opened { Statement::Opened(said) } else { Statement::PutUp(said) };
    let amount = f.jars();
    let counted = amount.and_then(|a| count(a.number, a.jar.or(f.jar())));
    let mut said = Jarred {
        jars: counted.map(|(n, _)| n),
        jar: counted.and_then(|(_, jar)| jar).or(f.jar()),
        mass: f.amounts.iter().find_map(|a| a.mass),
        on: carry.when(kind, f),
        ..Jarred::default()
    };
    let named = f.product.is_some() || f.crop.is_some() || f.prep.is_some() || f.variety.is_some();
    if f.alien > 0 && !matches!(f.product, Some(Named::Said(..) | Named::Recipe(_))) && !named {
        return None;
    }
    said.product =
        build::product(f, carry).filter(|_| named || said.jar.is_some() || kind == Kind::Opened && f.has(has::JARS));
    carry.jar = said.jar;
    if kind == Kind::Opened {
        said.mass = None;
    }
    match (amount, &said.product) {
        (Some(amount), Some(_)) => {
            // Jars of no size said: an opened one can be found, a finished batch cannot be counted.
            if said.jar.is_none() && kind == Kind::PutUp {
                let number = amount.number;
                return Some(build::clarify((kind, wrap(said)), Missing::Jar, Some(number)));
            }
            said.jars?;
            Some(wrap(said))
        }
        (Some(amount), None) => {
            let sure = build::is_plain(f) && (amount.jar.is_some() || kind == Kind::PutUp && f.verb_is(Verb::Can));
            build::clarify_if(sure, (kind, wrap(said)), Missing::Product, Some(amount.number))
        }
        (None, product) => without_jars(kind, f, carry, said.clone(), product.is_some(), wrap),
    }
}

/// No jars counted: `canned 9 of salsa`, `froze` and so on without an amount.
fn without_jars(
    kind: Kind,
    f: &Facts<'_>,
    carry: &Carry<'_, '_>,
    mut said: Jarred,
    named: bool,
    wrap: impl Fn(Jarred) -> Statement,
) -> Option<Statement> {
    if let Some(amount) = f.bare().filter(|a| a.count().is_some()) {
        if f.bad_object && !named {
            return None;
        }
        said.jars = amount.count();
        if let (Some(jar), true) = (carry.jar, named) {
            said.jar = Some(jar);
            return Some(wrap(said));
        }
        let sure = f.clean() && (named || kind == Kind::PutUp && f.verb_is(Verb::Can)) && !f.has(has::YOU | has::THEY);
        let missing = if named || said.product.is_some() { Missing::Jar } else { Missing::Unit };
        return build::clarify_if(sure, (kind, wrap(said)), missing, Some(amount.number));
    }
    if f.has_quantity() && f.amounts.iter().any(|a| a.mass.is_none() && !a.is(Unit::Load)) {
        return None;
    }
    let past = f.verb.is_some_and(|(_, form)| form == Form::Past);
    let sure = past
        && f.clean()
        && (f.product.is_some() || f.crop.is_some() || f.has(has::SOME))
        && !f.has(has::YOU | has::THEY | has::FOLK)
        && f.place_way != Way::Into;
    build::clarify_if(sure, (kind, wrap(said)), Missing::Amount, None)
}
