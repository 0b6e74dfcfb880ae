//! Questions, by the words that name what is asked and with no word that names anything else.

mod handbook;
mod papers;
mod stocks;
mod subjects;
mod tested;

use super::{
    build::{self, Carry},
    date::{Period, period},
    facts::{Facts, has},
    scan::{Chunk, Item},
    settings::height_said,
    token::{Mark, Tokens, one_of, says},
    words::{Verb, Word},
};
use crate::{
    statement::{Ask, Statement},
    vocabulary::{Crop, Stock, Subject},
};
use handbook::{acid, named, process, yields};
use papers::is_paper;
pub(super) use papers::{adds_to, wants_file};
use papers::{papers, picture, planting, ripe, table};
use stocks::{lasting, load, stock, totals};
use subjects::{day, help, log, next, timer};
pub(super) use tested::tested;

/// The words of a question that decide what it is about.
struct Words<'f, 't> {
    f: &'f Facts<'t>,
    quest: bool,
    how: bool,
    how_much: bool,
    what: bool,
    when: bool,
    left: bool,
    long: bool,
}

impl Words<'_, '_> {
    fn pair(&self, accept: impl Fn(u64, u64) -> bool) -> bool {
        self.f.chunks.windows(2).any(|w| accept(w[0].key, w[1].key))
    }
}

/// Whether a clause is put as a question or as a word that asks by itself.
pub(super) fn is_asking(chunks: &[Chunk], quest: bool) -> bool {
    let first = chunks.iter().find(|c| !matches!(c.item, Item::Word(Word::Filler | Word::And) | Item::Mark(_)));
    let Some(first) = first else { return false };
    if chunks.iter().take(4).any(|c| one_of!(c.key, "let")) {
        return false;
    }
    if quest {
        return true;
    }
    // `can you tell me how much`, `any idea when`: only small words before the question word.
    let led = chunks
        .iter()
        .take(7)
        .take_while(|c| {
            matches!(
                c.item,
                Item::Word(
                    Word::Filler
                        | Word::Link
                        | Word::Modal
                        | Word::You
                        | Word::First
                        | Word::Question
                        | Word::Hearsay
                        | Word::If
                ) | Item::Mark(_)
            ) || one_of!(c.key, "know" | "idea" | "tell" | "ask")
        })
        .any(|c| c.word() == Some(Word::Question) || one_of!(c.key, "when"));
    match first.item {
        Item::Word(Word::Question) => true,
        Item::Word(Word::Link | Word::Modal | Word::First) if led => true,
        Item::Word(Word::Aux) => one_of!(first.key, "is" | "are" | "r" | "have" | "has" | "was" | "were"),
        Item::Unknown if one_of!(first.key, "tell") && led => true,
        Item::Verb(Verb::Show, _) => true,
        // `did 8 quarts` tells.
        Item::Verb(Verb::Do, _)
            if one_of!(first.key, "did")
                && chunks
                    .iter()
                    .skip_while(|c| c.from <= first.from)
                    .take(1)
                    .any(|c| matches!(c.item, Item::Amount(a) if !a.uncounted)) =>
        {
            false
        }
        // `do not can pumpkin` is an order.
        Item::Verb(Verb::Do, _) if one_of!(first.key, "do") => {
            let next = chunks.iter().find(|c| c.from >= first.to);
            !next.is_some_and(|c| c.word() == Some(Word::Not))
        }
        Item::Verb(Verb::Do, _) => one_of!(first.key, "does" | "did"),
        Item::Word(Word::If) => one_of!(first.key, "when"),
        Item::Word(Word::Modal) => one_of!(first.key, "can" | "could" | "will" | "should"),
        Item::Word(Word::Link) => one_of!(first.key, "any" | "enough" | "enuf"),
        Item::Unknown | Item::Word(Word::Common | Word::Hearsay) => led && one_of!(first.key, "tell"),
        _ => false,
    }
}

/// What a clause asks, if it asks anything of the kitchen.
pub(super) fn ask(f: &Facts<'_>, quest: bool, short: bool, carry: &Carry<'_, '_>) -> Option<Statement> {
    let how = says!(f, "how" | "hw" | "howmuch" | "howmany");
    let w = Words {
        f,
        quest,
        how,
        how_much: how && says!(f, "much" | "many" | "howmuch" | "howmany"),
        what: says!(f, "what" | "wat" | "wut" | "which" | "whatve" | "wot" | "whatcha"),
        when: says!(f, "when" | "wen") || how && says!(f, "soon"),
        left: says!(f, "left" | "remaining" | "remains" | "remain" | "leftover"),
        long: says!(f, "long" | "longer"),
    };
    // Asked by a mere word, that word stands first and nothing is done: `pantry`, `timer`.
    let mere = short && !quest && !is_asking(f.chunks, false);
    let first = f
        .chunks
        .iter()
        .find(|c| !matches!(c.item, Item::Word(Word::Filler | Word::Link | Word::First) | Item::Mark(_)));
    if mere
        && (f.verb.is_some_and(|(verb, _)| !matches!(verb, Verb::Show | Verb::Count | Verb::Pick))
            || first.is_some_and(|c| c.word() == Some(Word::Quality)))
    {
        return None;
    }
    let about = subject(&w, short)?;
    // `what a load of rubbish`, `list is on the fridge`.
    let exclaimed = f.chunks.windows(2).any(|p| {
        one_of!(p[0].key, "what") && one_of!(p[1].key, "a" | "an")
            || one_of!(p[0].key, "list") && matches!(p[1].item, Item::Word(Word::Is | Word::Aux))
    });
    let doubted = about == Subject::Acid && says!(w.f, "without");
    let priced = f.chunks.iter().any(|c| c.word() == Some(Word::Price) || c.is_mark(Mark::Money));
    if exclaimed || doubted || priced {
        return None;
    }
    // `can you tell me`, `do you know`, `any idea`: words of asking.
    let led = f
        .chunks
        .iter()
        .take(5)
        .filter(|c| {
            matches!(c.item, Item::Unknown | Item::Word(Word::Common)) && one_of!(c.key, "tell" | "know" | "idea")
        })
        .count();
    let led = led
        + match about {
            Subject::Forecast
            | Subject::Chart
            | Subject::Table
            | Subject::Labels
            | Subject::Calendar
            | Subject::Planting
            | Subject::Counter
            | Subject::Next => f
                .chunks
                .iter()
                .filter(|c| matches!(c.item, Item::Word(Word::Common) | Item::Unknown) && is_paper(c.key))
                .count(),
            Subject::Pantry => f.chunks.iter().filter(|c| is_lasting(c)).count(),
            Subject::Yield | Subject::Day => f
                .chunks
                .iter()
                .filter(|c| {
                    c.word() == Some(Word::Common) && one_of!(c.key, "yield" | "yielding" | "schedule" | "average")
                })
                .count(),
            _ => 0,
        };
    let strangers = usize::from(f.unknown + f.alien + f.common) - led.min(usize::from(f.unknown + f.alien + f.common));
    if strangers > 0 || f.has(has::FOLK | has::KIN) && about != Subject::Totals || tabooed(&w, about) {
        return None;
    }
    Some(Statement::Ask(fill(about, &w, carry)))
}

/// Words for how long jars last, which the tables know only as ordinary ones or not at all.
fn is_lasting(c: &Chunk) -> bool {
    matches!(c.item, Item::Unknown | Item::Word(Word::Common | Word::Alien))
        && one_of!(
            c.key,
            "oldest"
                | "fast"
                | "quick"
                | "quickly"
                | "summer"
                | "winter"
                | "spring"
                | "season"
                | "christmas"
                | "easter"
        )
}

/// Words that turn a question to somebody else.
fn tabooed(w: &Words<'_, '_>, about: Subject) -> bool {
    let they = w.f.has(has::THEY)
        || says!(w.f, "which") && says!(w.f, "shelf" | "shelves" | "cupboard" | "drawer")
        || says!(w.f, "who" | "whose" | "why" | "where");
    let you = w.f.has(has::YOU)
        && !matches!(
            about,
            Subject::Help
                | Subject::Forecast
                | Subject::Log
                | Subject::Process
                | Subject::Chart
                | Subject::Labels
                | Subject::Calendar
                | Subject::Table
                | Subject::Next
                | Subject::Acid
                | Subject::Load
        );
    let told = w.pair(|a, b| one_of!(a, "tell" | "show") && one_of!(b, "me" | "us"));
    let proposed = !told
        && says!(w.f, "shall" | "might" | "would" | "lets" | "let's")
        && matches!(
            about,
            Subject::Pantry
                | Subject::Freezer
                | Subject::Counter
                | Subject::Fridge
                | Subject::Supplies
                | Subject::Timer
                | Subject::Totals
        );
    let to_you = w.f.chunks.iter().position(|c| c.word() == Some(Word::You)).is_some_and(|at| {
        at > 0
            && w.f.chunks[..at].iter().all(|c| {
                matches!(
                    c.item,
                    Item::Word(Word::Modal | Word::Aux | Word::Filler | Word::And) | Item::Verb(Verb::Do, _)
                )
            })
    }) && !w.f.verb_is(Verb::Show)
        && !says!(
            w.f,
            "tell"
                | "say"
                | "give"
                | "remind"
                | "know"
                | "work"
                | "help"
                | "check"
                | "look"
                | "think"
                | "calculate"
                | "figure"
                | "explain"
                | "send"
                | "print"
                | "make"
                | "draw"
                | "export"
                | "remember"
        )
        && about != Subject::Help;
    let postponed = says!(w.f, "instead")
        || says!(w.f, "can" | "could")
            && w.f.has(has::FIRST)
            && w.f.any_verb(&[Verb::Do, Verb::Make])
            && w.f.when.is_some()
            && about != Subject::Load;
    let yours = says!(w.f, "your" | "ur" | "yours")
        && matches!(about, Subject::Labels | Subject::Calendar | Subject::Table | Subject::Planting);
    let proposed = proposed || to_you || postponed || yours;
    let offered = says!(w.f, "recipe" | "recipes") || says!(w.f, "want" | "wanna" | "fancy") && !w.f.has(has::FIRST);
    proposed
        || offered
        || they && !(about == Subject::Log && says!(w.f, "who"))
        || you && !says!(w.f, "print" | "send" | "show" | "tell" | "know" | "can" | "could" | "think")
}

fn subject(w: &Words<'_, '_>, short: bool) -> Option<Subject> {
    let f = w.f;
    let asks = w.quest || w.how || w.what || w.when || f.verb_is(Verb::Show) || short;
    if help(w, short) {
        return Some(Subject::Help);
    }
    if let Some(subject) = papers(w, asks, short) {
        return Some(subject);
    }
    if let Some(subject) = log(w, asks) {
        return Some(subject);
    }
    let ends = w.when && says!(f, "season") && says!(f, "end" | "ends" | "over" | "finish" | "finished" | "done");
    (ends && !f.has_quantity() && !f.has(has::YOU))
        .then_some(Subject::Forecast)
        .or_else(|| planting(w))
        .or_else(|| ripe(w, short))
        .or_else(|| day(w))
        .or_else(|| yields(w))
        .or_else(|| lasting(w))
        .or_else(|| process(w))
        .or_else(|| acid(w, short))
        .or_else(|| load(w, short))
        .or_else(|| timer(w, short))
        .or_else(|| next(w))
        .or_else(|| totals(w, short))
        .or_else(|| stock(w, short))
}

fn fill(about: Subject, w: &Words<'_, '_>, carry: &Carry<'_, '_>) -> Ask {
    let f = w.f;
    let mut ask = Ask::about(about);
    match about {
        Subject::Process | Subject::Acid => {
            ask.product = build::product(f, carry);
            ask.jar = f.jar();
            // A time does not hang on how many jars there are; the acid for all of them does.
            ask.jars = f
                .jars()
                .filter(|_| about == Subject::Acid)
                .filter(|a| !a.uncounted && !a.article)
                .and_then(|a| a.count());
            ask.canner = f.canner.filter(|_| about == Subject::Process);
            ask.length = height_said(f).filter(|_| about == Subject::Process);
            ask.pack = f.pack.filter(|_| !build::says_pack(ask.product.as_ref()));
        }
        Subject::Yield => {
            ask.product = build::product(f, carry).filter(|_| f.product.is_some() || f.crop.is_some());
            ask.jar = f.jar();
        }
        Subject::Load | Subject::Forecast => {
            ask.product = build::product(f, carry).filter(|_| f.product.is_some() || named(f));
            ask.jar = f.jar().filter(|_| ask.product.is_some());
            let counter = about == Subject::Forecast && (f.stock == Some(Stock::Counter) || says!(f, "ripe" | "fresh"));
            ask.what = counter.then(|| "with-counter".to_owned());
        }
        Subject::Pantry | Subject::Fridge => {
            ask.product = f
                .product
                .and_then(|_| build::product(f, carry))
                .or_else(|| f.crop.and_then(|_| build::product(f, carry)));
            ask.jar = f.jar();
        }
        Subject::Freezer | Subject::Counter => ask.crop = f.crop,
        Subject::Totals => {
            ask.crop = f.crop.filter(|_| f.product.is_none());
            ask.product = f.product.and_then(|_| build::product(f, carry));
            ask.jar = f.jar();
        }
        Subject::Timer => ask.batch = carry.batch(f),
        Subject::Log if says!(f, "happened" | "go" | "went" | "turn") => ask.batch = carry.batch_meant(f),
        Subject::Labels => {
            ask.batch = carry.batch_meant(f);
            let food = ask.batch.is_none() && (f.product.is_some() || f.crop.is_some());
            ask.product = build::product(f, carry).filter(|_| food);
        }
        Subject::Chart => {
            ask.what = picture(f);
            let of_batch = ask.what.as_deref().is_some_and(|what| what.starts_with("day"));
            ask.batch = carry.batch_meant(f).filter(|_| of_batch);
            ask.product = f.product.filter(|_| !of_batch).and_then(|_| build::product(f, carry));
        }
        Subject::Table => ask.what = table(f),
        Subject::Planting => ask.crop = f.crop,
        _ => {}
    }
    if matches!(about, Subject::Totals | Subject::Log | Subject::Chart)
        && let Some(Period { since, until }) = asked_period(f, carry)
    {
        (ask.since, ask.until) = (since, until);
    }
    if ask.crop == Some(Crop::Tomato) && about == Subject::Load {
        ask.crop = None;
    }
    ask
}

fn asked_period(f: &Facts<'_>, carry: &Carry<'_, '_>) -> Option<Period> {
    let from = f.chunks.first()?.from as usize;
    let to = f.chunks.last()?.to as usize;
    let tokens = f.tokens.get(from..to)?;
    (0..tokens.len()).find_map(|at| {
        let rest = Tokens(&tokens[at..]);
        if rest.first().is_some_and(|t| t.is_mark(Mark::Comma)) {
            None
        } else {
            period(rest, carry.context).map(|(_, period)| period)
        }
    })
}
