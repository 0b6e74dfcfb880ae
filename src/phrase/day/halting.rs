//! A batch set aside, and taken up again.

use super::{
    has_batch, only,
    words::{goes_on, halts, is_going_on, is_halt, is_putting, puts},
};
use crate::phrase::{
    build::Carry,
    facts::{Facts, has},
    scan::{Chunk, Item},
    token::{one_of, says},
    words::{Verb, Word},
};
use crate::statement::{Stage, Statement, TimerStop};

/// Whether a clause names a batch and counts nothing: what both need.
fn is_of_batch(f: &Facts<'_>, carry: &Carry<'_, '_>) -> bool {
    (has_batch(f) || carry.called(f).is_some() || food_called(f, carry).is_some())
        && f.amounts.iter().all(|a| a.uncounted || a.article)
        && !f.any_verb(&[Verb::Boil, Verb::Seal])
}

fn stage(f: &Facts<'_>, carry: &Carry<'_, '_>) -> Stage {
    Stage { batch: food_called(f, carry).or_else(|| carry.batch_meant(f)), on: None }
}

/// The open batch that is called by its food: `stop the peaches`.
fn food_called(f: &Facts<'_>, carry: &Carry<'_, '_>) -> Option<String> {
    let food = f.chunks.iter().find(|c| matches!(c.item, Item::Crop(_) | Item::Variety(..)))?;
    carry.context.lexicon.open_batch(&f.words((food.from, food.to))?).cloned()
}

/// `stop`, `pause`, `resume` and nothing else: of the only batch there can be, unless a timer runs.
fn bare(f: &Facts<'_>, carry: &Carry<'_, '_>) -> Option<Statement> {
    let lexicon = carry.context.lexicon;
    // `please stop` is said to somebody.
    if f.has(has::PLEASE) {
        return None;
    }
    let mut said = f.chunks.iter().filter(|c| !matches!(c.item, Item::Word(Word::Filler) | Item::Mark(_)));
    let (word, None) = (said.next()?.key, said.next()) else { return None };
    let halt = one_of!(word, "stop" | "pause" | "paused" | "pausing");
    if one_of!(word, "stop") && lexicon.timer.is_some_and(|ends| ends > carry.context.now) {
        return Some(Statement::TimerStop(TimerStop::default()));
    }
    if lexicon.batches.is_empty() {
        return None;
    }
    let stage = Stage::default();
    let goes_on = one_of!(word, "resume" | "resumed" | "resuming" | "unpause" | "unpaused");
    halt.then(|| Statement::Stopped(stage.clone())).or_else(|| goes_on.then_some(Statement::Resumed(stage)))
}

/// A word that may be the name of a batch, where one was found.
fn is_name(c: &Chunk) -> bool {
    matches!(
        c.item,
        Item::Crop(_) | Item::Variety(..) | Item::Ripe(_) | Item::Unknown | Item::Word(Word::Quality | Word::Common)
    )
}

/// `stop the salsa`, `set the sauce aside`, `done with the salsa for tonight`, `calling it a night on the sauce`.
pub(super) fn stopped(f: &Facts<'_>, carry: &Carry<'_, '_>) -> Option<Statement> {
    if !is_of_batch(f, carry) {
        return bare(f, carry);
    }
    let for_now = f.any_token(|k| {
        one_of!(
            k,
            "tonight"
                | "tonite"
                | "today"
                | "now"
                | "night"
                | "day"
                | "evening"
                | "while"
                | "bit"
                | "tomorrow"
                | "morning"
        )
    });
    let aside = says!(f, "aside") && (puts(f) || says!(f, "is"));
    let hold = says!(f, "hold") && f.has(has::ON);
    let pause = says!(f, "break") && says!(f, "taking" | "take" | "took" | "having");
    let that_is_it = f.any_verb(&[Verb::Do, Verb::Finish])
        || says!(f, "knocking" | "through" | "that" | "thats" | "that's")
            && says!(f, "it" | "enough" | "all" | "through" | "knocking");
    let finished = that_is_it && for_now && says!(f, "for" | "tonight" | "today" | "now");
    let leaves = puts(f) && f.any_token(|k| one_of!(k, "tomorrow" | "morning" | "overnight" | "later"));
    let night = says!(f, "call" | "calling" | "called") && says!(f, "it") && for_now;
    let called = carry.called(f).is_some() || food_called(f, carry).is_some();
    let plain = only(f, |c| {
        called && is_name(c)
            || is_halt(c.key)
            || is_putting(c.key)
            || one_of!(
                c.key,
                "hold"
                    | "done"
                    | "finished"
                    | "through"
                    | "knocking"
                    | "call"
                    | "calling"
                    | "called"
                    | "work"
                    | "working"
                    | "day"
                    | "night"
                    | "making"
                    | "cooking"
                    | "till"
                    | "until"
                    | "til"
                    | "gonna"
                    | "will"
                    | "we'll"
                    | "i'll"
                    | "ill"
                    | "going"
                    | "break"
                    | "taking"
                    | "take"
                    | "took"
                    | "having"
            )
    });
    (plain && (halts(f) || aside || hold || pause || finished || night || leaves))
        .then(|| Statement::Stopped(stage(f, carry)))
}

/// `finishing tomorrow`, `will do the rest on sunday`.
pub(super) fn is_tail(f: &Facts<'_>) -> bool {
    let goes = goes_on(f)
        || says!(
            f,
            "finish" | "finishing" | "rest" | "more" | "back" | "carry" | "late" | "tired" | "exhausted" | "beat"
        );
    !f.has_quantity()
        && goes
        && only(f, |c| {
            c.word() == Some(Word::Modal)
                || is_going_on(c.key)
                || one_of!(
                    c.key,
                    "finish"
                        | "finishing"
                        | "rest"
                        | "back"
                        | "carry"
                        | "pick"
                        | "picking"
                        | "do"
                        | "start"
                        | "will"
                        | "go"
                        | "going"
                        | "tired"
                        | "exhausted"
                        | "beat"
                        | "get"
                        | "come"
                        | "be"
                )
        })
}

/// `back to the sauce`, `resuming the salsa`, `picking the sauce back up`, `carry on with batch 2`.
pub(super) fn resumed(f: &Facts<'_>, carry: &Carry<'_, '_>) -> Option<Statement> {
    if !is_of_batch(f, carry) {
        return None;
    }
    let back = says!(f, "back");
    let back_to = back && (f.has(has::TO | has::ON | has::AT) || says!(f, "with" | "onto" | "at"));
    let picks = says!(f, "pick" | "picking" | "picked");
    let starts = picks || says!(f, "start" | "starting" | "started" | "take" | "taking" | "took");
    let left_off = picks && says!(f, "left") && f.has(has::OFF);
    let up = left_off || starts && f.has(has::UP) && (back || f.has(has::AGAIN));
    let goes = says!(f, "carry" | "carrying" | "carried" | "go" | "going" | "keep" | "moving" | "pressing");
    let on = goes && (f.has(has::ON) && says!(f, "with" | "w") || f.has(has::AGAIN) && says!(f, "on" | "with"));
    let called = carry.called(f).is_some() || food_called(f, carry).is_some();
    let plain = only(f, |c| {
        called && is_name(c)
            || is_going_on(c.key)
            || one_of!(
                c.key,
                "back"
                    | "pick"
                    | "picking"
                    | "picked"
                    | "start"
                    | "starting"
                    | "started"
                    | "take"
                    | "taking"
                    | "took"
                    | "carry"
                    | "carrying"
                    | "carried"
                    | "go"
                    | "going"
                    | "keep"
                    | "moving"
                    | "pressing"
                    | "get"
                    | "getting"
                    | "got"
                    | "work"
                    | "working"
                    | "stove"
                    | "burner"
                    | "heading"
                    | "where"
            )
    });
    (plain && (goes_on(f) || back_to || up || on)).then(|| Statement::Resumed(stage(f, carry)))
}
