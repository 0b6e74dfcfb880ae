//! Kitchen timers: started with a time and a label, stopped by label.
//!
//! ```text
//! start = [ verb ] [ label ] "timer" time [ "for" label ] | time "timer" [ "for" label ] | "remind me in" time "to" label
//! stop  = ( "cancel" | "stop" | "turn off" ... ) [ label ] "timer" [ "for" label ]
//! ```

use super::{
    build,
    facts::{Facts, has},
    product::said,
    scan::{Chunk, Item},
    token::{Mark, one_of, says},
    words::{Verb, Word},
};
use crate::{
    statement::{Statement, TimerStart, TimerStop},
    vocabulary::{Kind, Missing},
};

fn is_timer(chunk: &Chunk) -> bool {
    one_of!(chunk.key, "timer" | "timr" | "timers" | "alarm")
}

/// What the clause says of timers; `f` is the whole rest of the sentence.
pub(super) fn timer(f: &Facts<'_>) -> Option<Statement> {
    let timer = f.chunks.iter().position(is_timer);
    let reminds = f
        .chunks
        .iter()
        .position(|c| matches!(c.item, Item::Verb(Verb::Remind, _)) || one_of!(c.key, "wake") || one_of!(c.key, "let"));
    if timer.is_none() && reminds.is_none() || f.has(has::NOT) && !f.verb_is(Verb::Cancel) {
        return None;
    }
    let time = f.chunks.iter().position(|c| matches!(c.item, Item::Amount(a) if a.seconds.is_some()));
    if let Some(at) = timer {
        if time.is_none() && stops(f, at) {
            return Some(Statement::TimerStop(TimerStop {
                label: label_before(f, at).or_else(|| label_after(f, at + 1)),
            }));
        }
        return started(f, at, time);
    }
    let (at, time) = (reminds?, time?);
    let me = says!(f, "me" | "us");
    let near = f.chunks.get(time.checked_sub(1)?).is_some_and(|c| one_of!(c.key, "in" | "for" | "after"));
    if !(me && near) || at > time || f.chunks.iter().take(time).any(|c| c.word() == Some(Word::If)) {
        return None;
    }
    let seconds = seconds(f, time);
    let label = to_label(f, time + 1).or_else(|| to_label(f, at + 1)).or_else(|| label_after(f, time + 1));
    Some(Statement::TimerStart(TimerStart { seconds, label }))
}

fn seconds(f: &Facts<'_>, at: usize) -> Option<u32> {
    match f.chunks.get(at)?.item {
        Item::Amount(amount) => amount.seconds,
        _ => None,
    }
}

fn stops(f: &Facts<'_>, timer: usize) -> bool {
    let stop = f.any_verb(&[Verb::Cancel, Verb::Undo])
        || f.verb_is(Verb::Turn) && (f.has(has::OFF) || says!(f, "kill" | "killed"))
        || f.verb_is(Verb::Lift)
        || says!(f, "forget");
    let off = f.chunks.get(timer + 1).is_some_and(|c| one_of!(c.key, "off")) && f.chunks.len() <= timer + 3;
    (stop || off) && f.chunks.iter().take(timer).all(|c| !c.is_mark(Mark::Comma) || f.alien == 0)
}

fn started(f: &Facts<'_>, timer: usize, time: Option<usize>) -> Option<Statement> {
    let Some(at) = time else {
        if says!(f, "alarm") {
            return None;
        }
        let set = f.any_verb(&[Verb::Set, Verb::Begin, Verb::Put]);
        let bare = f.bare().map(|a| a.number).filter(|_| timer <= 2 && f.unknown == 0);
        let label = label_before(f, timer).or_else(|| label_after(f, timer + 1));
        let said = Statement::TimerStart(TimerStart { seconds: None, label });
        if let Some(n) = bare {
            return Some(build::clarify((Kind::TimerStart, said), Missing::Unit, Some(n)));
        }
        let definite =
            label_of(&said).is_none() && f.chunks.get(timer.wrapping_sub(1)).is_some_and(|c| one_of!(c.key, "the"));
        let sure =
            set && !definite && f.chunks.iter().skip(timer + 1).all(|c| !c.is_mark(Mark::Quest)) && f.verb.is_some();
        return build::clarify_if(
            sure && f.amounts.iter().all(|a| a.article),
            (Kind::TimerStart, said),
            Missing::Amount,
            None,
        );
    };
    if f.any_verb(&[Verb::Stop, Verb::Lose]) || f.when.is_some_and(|w| w.has_day()) {
        return None;
    }
    let label = label_after(f, at + 1)
        .or_else(|| to_label(f, at + 1))
        .or_else(|| label_before(f, timer))
        .or_else(|| label_after(f, timer + 1))
        .or_else(|| if at > timer { label_before(f, at) } else { None });
    Some(Statement::TimerStart(TimerStart { seconds: seconds(f, at), label }))
}

/// `roast timer`: the words right before it, articles and verbs left out.
fn label_before(f: &Facts<'_>, timer: usize) -> Option<String> {
    let mut first = timer;
    while first > 0 && is_label(f.chunks.get(first - 1)?) {
        first -= 1;
    }
    (first < timer).then(|| words(f, first, timer)).flatten()
}

fn is_label(chunk: &Chunk) -> bool {
    match chunk.item {
        Item::Unknown | Item::Crop(_) | Item::Product(_) | Item::Variety(..) | Item::Prep(_) => true,
        Item::Word(Word::Alien | Word::Common | Word::Folk | Word::Kin | Word::Product) => true,
        Item::Word(Word::Quality) => one_of!(chunk.key, "bread"),
        Item::Word(Word::Gear) => !is_timer(chunk),
        Item::Amount(amount) => amount.uncounted,
        _ => false,
    }
}

fn label_of(said: &Statement) -> Option<&str> {
    match said {
        Statement::TimerStart(start) => start.label.as_deref(),
        _ => None,
    }
}

/// `for the roast`, or what stands right behind the time.
fn label_after(f: &Facts<'_>, from: usize) -> Option<String> {
    let mut at = from;
    let mut after_for = false;
    while let Some(chunk) = f.chunks.get(at) {
        match chunk.item {
            Item::Mark(Mark::Comma | Mark::Dash | Mark::Colon) if at == from => {}
            Item::Word(Word::Link) if one_of!(chunk.key, "for" | "about") => after_for = true,
            Item::Word(Word::Link)
                if one_of!(chunk.key, "the" | "my" | "our" | "a" | "an" | "this" | "that" | "those" | "these")
                    && after_for => {}
            Item::Word(Word::Link) if one_of!(chunk.key, "on") && !after_for => {}
            Item::Word(Word::Filler | Word::You | Word::Modal) | Item::Verb(Verb::Set | Verb::Begin, _)
                if !after_for => {}
            _ if is_timer(chunk) => {}
            _ => break,
        }
        at += 1;
    }
    // An article took the place of a number: `for the eggs` reads as no amount, `for a quart` does.
    let end = label_end(f, at, after_for);
    let direct = after_for || at == from || f.chunks.get(at - 1).is_some_and(is_timer);
    (direct && end > at).then(|| words(f, at, end)).flatten()
}

/// `to check the dehydrator`.
fn to_label(f: &Facts<'_>, from: usize) -> Option<String> {
    let to = f.chunks.iter().skip(from).position(|c| one_of!(c.key, "to"))? + from;
    if to > from + 3 {
        return None;
    }
    let end = label_end(f, to + 1, true);
    (end > to + 1).then(|| words(f, to + 1, end)).flatten()
}

fn label_end(f: &Facts<'_>, from: usize, free: bool) -> usize {
    let mut at = from;
    while let Some(chunk) = f.chunks.get(at) {
        let ends = match chunk.item {
            Item::Mark(mark) => !matches!(mark, Mark::Hyphen | Mark::And),
            Item::Amount(amount) => amount.seconds.is_some() || amount.unit.is_none() && !free,
            Item::Word(Word::Filler) => !one_of!(chunk.key, "first" | "second" | "super" | "honey"),
            Item::Word(Word::And) => !f.chunks.get(at + 1).is_some_and(is_label) || !free,
            Item::Word(Word::Link) => {
                !free
                    || one_of!(chunk.key, "for" | "in")
                        && f.chunks
                            .get(at + 1)
                            .is_some_and(|c| matches!(c.item, Item::Amount(a) if a.seconds.is_some()))
                    || one_of!(chunk.key, "too" | "so")
            }
            Item::Word(Word::If | Word::Modal | Word::You) => true,
            Item::Word(_) | Item::Verb(..) => !free && !is_label(chunk),
            Item::When(_) => true,
            _ => false,
        };
        if ends {
            break;
        }
        at += 1;
    }
    at
}

fn words(f: &Facts<'_>, from: usize, to: usize) -> Option<String> {
    let (first, last) = (f.chunks.get(from)?, f.chunks.get(to.checked_sub(1)?)?);
    let words = said(f.text, f.tokens, first.from as usize, last.to as usize)?;
    let bare =
        ["the ", "my ", "our ", "a ", "an "].iter().find_map(|article| words.strip_prefix(article)).unwrap_or(&words);
    Some(bare.to_owned())
}
