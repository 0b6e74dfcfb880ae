//! Questions for a process, by where the food stands in them: `process for dilly beans in pints?`
//!
//! ```text
//! question = head food tail
//! head     = "process for" | "process time for" | "how long for" | "how long do I process" | "how many minutes for"
//! food     = a product of the tables, or whatever else stands there
//! tail     = ( jar | canner | gauge | pack | height ) ...
//! ```
//!
//! What stands where the food does is the food, whether a table knows it or not: a time is printed for just one food, so
//! `black-eyed peas` must never be asked about as peas, and no word of the name may be passed over.

use super::handbook::named;
use crate::phrase::{
    build::{self, Carry},
    facts::{Facts, gather, has},
    scan::{Chunk, Item},
    settings::{height, height_said},
    token::{Mark, one_of},
    words::{Form, Unit, Verb, Word},
};
use crate::{
    statement::{Ask, Statement},
    vocabulary::{CannerKind, Jar, Product, Subject},
};

/// A question for a process.
pub(in crate::phrase) struct Tested {
    pub(in crate::phrase) said: Statement,
    /// Whether the tables know the food: then what stands beside it is another.
    pub(in crate::phrase) known: bool,
    /// Words that say what else is in the jar, a range of tokens: `with garlic and onions`.
    pub(in crate::phrase) beside: Option<(u32, u32)>,
}

/// How far into a sentence its food and its jars are looked for, in chunks.
const FAR: usize = 24;

/// Reads a whole sentence as such a question; `quest` says whether it ends in a question mark.
pub(in crate::phrase) fn tested(f: &Facts<'_>, chunks: &[Chunk], quest: bool, carry: &Carry<'_, '_>) -> Option<Tested> {
    if chunks.len() > FAR {
        return None;
    }
    let headed = head(chunks);
    let from = headed.or(quest.then_some(0))?;
    // `how long for pints of salsa?`
    let led = headed.and_then(|_| leading_jar(chunks.get(from..)?));
    let from = from + led.unwrap_or(0);
    let to = (from..chunks.len()).find(|at| begins_tail(chunks, *at)).unwrap_or(chunks.len());
    let (food, tail) = (chunks.get(from..to)?, chunks.get(to..)?);
    // `salsa and for peaches` are two.
    if food.is_empty()
        || food.iter().any(|c| one_of!(c.key, "for"))
        || !tail.iter().all(is_tail)
        || !(led.is_some() || tail.iter().any(|c| fits(c, headed.is_some())))
    {
        return None;
    }
    let gathered = |chunks| gather(f.text, f.tokens, chunks);
    let (with, plain) = split(food);
    let syrup = plain.iter().position(|c| is_syrup(f, c)).filter(|at| *at > 1);
    let plain = &plain[..syrup.map_or(plain.len(), |at| at - 1)];
    let known = plain.iter().all(is_known) && (plain.iter().any(is_food) || named(&gathered(plain)));
    let joint = |c: &Chunk| matches!(c.item, Item::Word(Word::And) | Item::Mark(Mark::Comma | Mark::And));
    let whole = gathered(chunks);
    let of_food = gathered(plain);
    let product = if known {
        // Several foods of the tables are as many questions.
        if plain.iter().any(joint) {
            return None;
        }
        let all = with.is_empty() && syrup.is_none();
        build::product(if all { &whole } else { &of_food }, carry)
    } else if plain.iter().all(is_neutral) {
        None
    } else {
        headed?;
        Some(unlisted(f, food)?)
    };
    // `peaches in pints?` without more asks for what is in stock.
    if headed.is_none() && (product.is_none() || !tail.iter().any(|c| is_way(c, true)) || !with.is_empty()) {
        return None;
    }
    let gauge = tail.iter().find_map(gauge);
    let said = Ask {
        pack: whole.pack.filter(|_| !build::says_pack(product.as_ref())),
        product,
        jar: jar(chunks),
        canner: whole.canner.or(gauge),
        length: height_said(&whole),
        ..Ask::about(Subject::Process)
    };
    let beside = with.first().zip(with.last()).filter(|_| known).map(|(a, b)| (a.from, b.to));
    Some(Tested { said: Statement::Ask(said), known, beside })
}

/// Where the food begins behind the words that ask for a process.
fn head(chunks: &[Chunk]) -> Option<usize> {
    let key = |at: usize| chunks.get(at).map_or(0, |c| c.key);
    let small = |c: &Chunk| {
        !one_of!(c.key, "did" | "was" | "were")
            && matches!(
                c.item,
                Item::Word(
                    Word::Filler
                        | Word::Link
                        | Word::Is
                        | Word::Aux
                        | Word::Modal
                        | Word::First
                        | Word::You
                        | Word::Question
                        | Word::And
                ) | Item::Mark(_)
                    | Item::Verb(Verb::Do | Verb::Show, _)
            )
            || one_of!(c.key, "know" | "tell" | "need" | "idea" | "any" | "minutes" | "mins" | "much" | "many")
            || matches!(c.item, Item::Amount(a) if a.article || a.uncounted)
    };
    let process = |k: u64| one_of!(k, "process" | "processing" | "procesing");
    let near = chunks.len().min(9);
    let lead = chunks[..near].iter().position(|c| process(c.key) || !small(c));
    let how = chunks[..near].iter().position(|c| one_of!(c.key, "how"));
    if let Some(at) = lead.filter(|at| process(key(*at))) {
        let behind = at + 1 + usize::from(one_of!(key(at + 1), "time" | "times" | "minutes" | "mins"));
        if one_of!(key(behind), "for") {
            return Some(behind + 1);
        }
        // `how long do i process chicken in pints?`
        return how.filter(|how| *how < at).map(|_| at + 1);
    }
    let how = how?;
    let asks = one_of!(key(how + 1), "long")
        || one_of!(key(how + 1), "many") && one_of!(key(how + 2), "minutes" | "mins" | "min");
    if !asks || !chunks[..how].iter().all(small) {
        return None;
    }
    let does = |at: &usize| {
        one_of!(key(*at), "for" | "boil" | "cook")
            || one_of!(key(*at), "can") && one_of!(key(*at - 1), "to" | "i" | "we")
    };
    let at = (how + 2..near).find(does)?;
    chunks[how + 2..at].iter().all(small).then_some(at + 1)
}

/// `pints of`, `a quart of`.
fn leading_jar(chunks: &[Chunk]) -> Option<usize> {
    let at = usize::from(chunks.first().is_some_and(|c| one_of!(c.key, "a" | "the")));
    let jar = matches!(chunks.get(at)?.item, Item::Amount(a) if a.jar.is_some());
    (jar && one_of!(chunks.get(at + 1)?.key, "of")).then_some(at + 2)
}

fn begins_tail(chunks: &[Chunk], at: usize) -> bool {
    let jar_or_canner = |c: &Chunk| {
        matches!(c.item, Item::Amount(a) if a.jar.is_some() || a.is(Unit::Jar)) || matches!(c.item, Item::Canner(_))
    };
    let chunk = &chunks[at];
    let small = |c: &&Chunk| {
        matches!(c.item, Item::Word(Word::Filler | Word::Quality)) || one_of!(c.key, "a" | "the" | "my" | "our")
    };
    let behind = || chunks[at + 1..].iter().find(|c| !small(c));
    match chunk.item {
        Item::Amount(a) => a.jar.is_some() || height(&a).is_some(),
        Item::Canner(_) | Item::Pack(_) => true,
        Item::Mark(Mark::Comma) => behind().is_some_and(|c| is_way(c, true) || jar_or_canner(c)),
        // `how long do I process salsa for?`
        _ if one_of!(chunk.key, "for") && at + 1 == chunks.len() => true,
        _ if one_of!(chunk.key, "in" | "into" | "with" | "w" | "using" | "for" | "on") => {
            behind().is_some_and(|c| jar_or_canner(c) || one_of!(c.key, "canner" | "dial" | "weighted"))
        }
        _ if one_of!(chunk.key, "at") => chunks.get(at + 1).is_some_and(is_height),
        _ => gauge(chunk).is_some() || sea(chunk),
    }
}

fn sea(c: &Chunk) -> bool {
    one_of!(c.key, "sea")
}

fn is_height(c: &Chunk) -> bool {
    matches!(c.item, Item::Amount(a) if height(&a).is_some()) || sea(c)
}

/// A gauge by itself: `dial`, `weighted`, `pressure`.
fn gauge(c: &Chunk) -> Option<CannerKind> {
    match c.key {
        _ if matches!(c.item, Item::Canner(_) | Item::Amount(_)) => None,
        k if one_of!(k, "dial") => Some(CannerKind::PressureDial),
        k if one_of!(k, "weighted" | "weight") => Some(CannerKind::PressureWeighted),
        k if one_of!(k, "pressure") => Some(CannerKind::Pressure),
        _ => None,
    }
}

fn is_tail(c: &Chunk) -> bool {
    match c.item {
        Item::Amount(a) => a.jar.is_some() || a.is(Unit::Jar) || height(&a).is_some() || a.article,
        Item::Canner(_) | Item::Pack(_) | Item::Mark(Mark::Comma | Mark::Hyphen) => true,
        Item::Word(Word::Filler | Word::Link | Word::Is) => true,
        _ => {
            gauge(c).is_some()
                || one_of!(
                    c.key,
                    "gauge"
                        | "canner"
                        | "sea"
                        | "level"
                        | "below"
                        | "up"
                        | "jars"
                        | "wide"
                        | "mouth"
                        | "i"
                        | "we"
                        | "a"
                        | "the"
                        | "my"
                        | "our"
                        | "high"
                        | "altitude"
                        | "elevation"
                )
        }
    }
}

/// What besides the jar decides a time.
fn is_way(c: &Chunk, heights: bool) -> bool {
    matches!(c.item, Item::Canner(_) | Item::Pack(_)) || gauge(c).is_some() || heights && is_height(c)
}

/// What shows that jars are spoken of.
fn fits(c: &Chunk, headed: bool) -> bool {
    matches!(c.item, Item::Amount(a) if a.jar.is_some())
        || headed
            && (is_way(c, false) || one_of!(c.key, "canner") || matches!(c.item, Item::Amount(a) if a.is(Unit::Jar)))
}

fn jar(chunks: &[Chunk]) -> Option<Jar> {
    chunks.iter().find_map(|c| match c.item {
        Item::Amount(a) => a.jar,
        _ => None,
    })
}

/// What else is in it, from the joint on, and the food before it.
fn split(food: &[Chunk]) -> (&[Chunk], &[Chunk]) {
    let at = food.iter().position(|c| one_of!(c.key, "with" | "w" | "plus")).filter(|at| *at > 0).unwrap_or(food.len());
    (&food[at..], &food[..at])
}

/// What fruit lies in.
fn is_syrup(f: &Facts<'_>, c: &Chunk) -> bool {
    let tokens = f.tokens.get(c.from as usize..c.to as usize).unwrap_or_default();
    tokens.last().is_some_and(|t| one_of!(t.key, "syrup" | "syrop"))
}

fn is_food(c: &Chunk) -> bool {
    matches!(c.item, Item::Product(_) | Item::Crop(_) | Item::Variety(..))
}

/// What may stand beside a food of the tables without making another food of it.
fn is_known(c: &Chunk) -> bool {
    is_food(c)
        || matches!(c.item, Item::Prep(_) | Item::Ripe(_) | Item::Batch(_))
        || matches!(c.item, Item::Word(Word::And) | Item::Mark(Mark::Comma | Mark::Hyphen | Mark::And))
        || matches!(c.item, Item::Verb(Verb::Can, Form::Past))
        || is_neutral(c)
        || one_of!(
            c.key,
            "greens"
                | "fresh"
                | "frozen"
                | "thawed"
                | "small"
                | "large"
                | "big"
                | "nice"
                | "raw"
                | "hot"
                | "sweet"
                | "yellow"
                | "red"
                | "green"
                | "white"
                | "sour"
                | "tart"
                | "ripe"
                | "homegrown"
                | "plain"
                | "water"
                | "in"
                | "no"
                | "added"
                | "liquid"
                | "without"
                | "or"
                | "peeled"
                | "snap"
                | "string"
                | "wax"
                | "purple"
                | "italian"
                | "pole"
                | "shelled"
        )
}

/// Words that name no food.
fn is_neutral(c: &Chunk) -> bool {
    matches!(c.item, Item::Amount(a) if a.article)
        || matches!(c.item, Item::Batch(_))
        || one_of!(
            c.key,
            "a" | "an"
                | "the"
                | "my"
                | "our"
                | "some"
                | "this"
                | "that"
                | "these"
                | "those"
                | "it"
                | "them"
                | "usual"
                | "load"
                | "batch"
                | "one"
                | "ones"
                | "jars"
                | "next"
                | "everything"
                | "just"
                | "canning"
                | "please"
                | "pls"
                | "of"
        )
}

/// The food by all the words that stand there.
fn unlisted(f: &Facts<'_>, food: &[Chunk]) -> Option<Product> {
    let article = |c: &&Chunk| is_neutral(c) && !matches!(c.item, Item::Batch(_));
    let food = &food[food.iter().take_while(article).count()..];
    // Numbers, days and people are no food.
    let other = |c: &Chunk| {
        matches!(c.item, Item::Amount(a) if !a.article)
            || matches!(c.item, Item::When(_) | Item::Verb(_, Form::Ing))
            || matches!(c.item, Item::Word(Word::Folk | Word::They | Word::You | Word::First | Word::Price))
            || matches!(c.item, Item::Word(Word::Kin)) && !one_of!(c.key, "baby")
    };
    let facts = gather(f.text, f.tokens, food);
    if food.is_empty() || food.len() > 8 || food.iter().any(other) || facts.has(has::NOT) && !facts.has(has::WATER) {
        return None;
    }
    facts.words((food.first()?.from, food.last()?.to)).map(|name| Product::named(&name))
}
