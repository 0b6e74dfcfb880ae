//! Questions, by the words that name what is asked and with no word that names anything else.

use super::{
    build::{self, Carry},
    date::{Period, period},
    facts::{Facts, has},
    scan::{Chunk, Item},
    token::{Mark, Tokens, one_of, says},
    words::{Form, Unit, Verb, Word},
};
use crate::{
    statement::{Ask, Statement},
    vocabulary::{Crop, Stock, Subject},
};

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
        Item::Verb(Verb::Do, _) => one_of!(first.key, "do" | "does" | "did"),
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
    if exclaimed || doubted {
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
    let strangers = usize::from(f.unknown + f.alien + f.common) - led.min(usize::from(f.unknown + f.common));
    if strangers > 0 || f.has(has::FOLK | has::KIN) && about != Subject::Totals || tabooed(&w, about) {
        return None;
    }
    Some(Statement::Ask(fill(about, &w, carry)))
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
                | "remember"
        )
        && about != Subject::Help;
    let postponed = says!(w.f, "instead")
        || says!(w.f, "can" | "could")
            && w.f.has(has::FIRST)
            && w.f.any_verb(&[Verb::Do, Verb::Make])
            && w.f.when.is_some()
            && about != Subject::Load;
    let proposed = proposed || to_you || postponed;
    let offered = says!(w.f, "recipe" | "recipes") || says!(w.f, "want" | "wanna" | "fancy") && !w.f.has(has::FIRST);
    proposed
        || offered
        || they && !(about == Subject::Log && says!(w.f, "who"))
        || you && !says!(w.f, "show" | "tell" | "know" | "can" | "could" | "think")
}

fn subject(w: &Words<'_, '_>, short: bool) -> Option<Subject> {
    let f = w.f;
    let asks = w.quest || w.how || w.what || w.when || f.verb_is(Verb::Show) || short;
    if help(w, short) {
        return Some(Subject::Help);
    }
    if says!(w.f, "chart" | "graph" | "charts" | "graphs" | "diagram") && (asks || f.has(has::PLEASE)) {
        return Some(Subject::Chart);
    }
    if let Some(subject) = log(w, asks) {
        return Some(subject);
    }
    process(w)
        .or_else(|| acid(w, short))
        .or_else(|| load(w, short))
        .or_else(|| timer(w, short))
        .or_else(|| next(w))
        .or_else(|| totals(w, short))
        .or_else(|| stock(w, short))
}

fn help(w: &Words<'_, '_>, short: bool) -> bool {
    let use_you = w.f.has(has::YOU) && (w.f.verb_is(Verb::Use) || says!(w.f, "explain"));
    let alone = says!(w.f, "help" | "commands" | "examples" | "instructions" | "manual" | "cheatsheet" | "cheat")
        && (short || w.quest && w.f.chunks.len() <= 6)
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

fn log(w: &Words<'_, '_>, asks: bool) -> Option<Subject> {
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
    if says!(w.f, "happened") && (f.has_quantity() || f.has(has::TO)) {
        return None;
    }
    let logged = (w.what || f.verb_is(Verb::Show)) && says!(w.f, "logged" | "recorded" | "entered" | "happened");
    (did || logged).then_some(Subject::Log)
}

fn named(f: &Facts<'_>) -> bool {
    f.product.is_some()
        || f.crop.is_some()
        || super::spoken::is_greens(f)
        || f.prep == Some(crate::vocabulary::Prep::Crushed)
        || f.prep == Some(crate::vocabulary::Prep::Whole)
}

fn process(w: &Words<'_, '_>) -> Option<Subject> {
    let f = w.f;
    let word = says!(w.f, "process" | "processing" | "procesing" | "processed");
    let minutes = w.how_much && says!(w.f, "minutes" | "mins" | "min" | "minute");
    let long = w.how && w.long && !says!(w.f, "longer");
    let gauge =
        w.what && f.has(has::PRESSURE) || (w.what || w.how_much) && says!(w.f, "psi" | "pounds") && f.has(has::CANNER);
    let jar = f.jar().is_some() || f.canner.is_some() || f.pack.is_some();
    let time = says!(w.f, "time" | "times") && (w.what || w.quest || word);
    if (word || minutes || long || time && jar || gauge)
        && (named(f) || jar && (word || long))
        && !w.left
        && !says!(w.f, "til" | "till" | "until" | "since" | "ago" | "last" | "keep")
    {
        return Some(Subject::Process);
    }
    (word && (w.what || w.quest || w.how) && says!(w.f, "time" | "times" | "long")).then_some(Subject::Process)
}

fn acid(w: &Words<'_, '_>, short: bool) -> Option<Subject> {
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

fn load(w: &Words<'_, '_>, short: bool) -> Option<Subject> {
    let f = w.f;
    let load = says!(w.f, "load" | "loads" | "canload" | "batch") || f.unit(Unit::Load).is_some();
    let loaded = says!(w.f, "load") || f.unit(Unit::Load).is_some();
    let soon = w.when || says!(w.f, "forecast");
    let enough = says!(w.f, "enough" | "enuf" | "nuff" | "sufficient");
    if says!(w.f, "forecast" | "projection") && (short || w.quest || w.what) {
        return Some(Subject::Forecast);
    }
    let begin = says!(w.f, "start" | "make" | "do" | "begin" | "can") && f.product.is_some() && f.has(has::FIRST);
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
    let more = f.has(has::MORE) || w.pair(|a, b| one_of!(a, "to") && one_of!(b, "go")) || says!(w.f, "short");
    let bags = says!(w.f, "bags" | "bag" | "lb" | "lbs" | "pounds" | "kilos" | "kg");
    if w.how_much && more && (bags || named(f) || f.has(has::FIRST)) {
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

fn timer(w: &Words<'_, '_>, short: bool) -> Option<Subject> {
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

fn next(w: &Words<'_, '_>) -> Option<Subject> {
    let f = w.f;
    let next = says!(w.f, "next");
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

fn totals(w: &Words<'_, '_>, short: bool) -> Option<Subject> {
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
    if total && (season || ledger) && asks {
        return Some(Subject::Totals);
    }
    (w.how && season && f.any_verb(&[Verb::Do]) && f.has(has::FIRST) || season && short && total)
        .then_some(Subject::Totals)
}

fn stock(w: &Words<'_, '_>, short: bool) -> Option<Subject> {
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

fn fill(about: Subject, w: &Words<'_, '_>, carry: &Carry<'_, '_>) -> Ask {
    let f = w.f;
    let mut ask = Ask {
        about,
        product: None,
        jar: None,
        canner: None,
        pack: None,
        crop: None,
        batch: None,
        since: None,
        until: None,
    };
    match about {
        Subject::Process | Subject::Acid => {
            ask.product = build::product(f, carry);
            ask.jar = f.jar();
            ask.canner = f.canner.filter(|_| about == Subject::Process);
            ask.pack = f.pack.filter(|_| !build::says_pack(ask.product.as_ref()));
        }
        Subject::Load | Subject::Forecast => {
            ask.product = build::product(f, carry).filter(|_| f.product.is_some() || named(f));
            ask.jar = f.jar().filter(|_| ask.product.is_some());
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
        Subject::Timer => ask.batch = f.product.and_then(|_| carry.batch(f)),
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
