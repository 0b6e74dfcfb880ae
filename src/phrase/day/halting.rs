//! A batch set aside, and taken up again.

use super::{has_batch, only};
use crate::phrase::{
    build::Carry,
    facts::{Facts, has},
    scan::{Chunk, Item},
    token::{one_of, says},
    words::{Verb, Word},
};
use crate::statement::{Stage, Statement};

/// `stop the salsa`, `set the sauce aside`, `done with the salsa for tonight`, `calling it a night on the sauce`.
pub(super) fn stopped(f: &Facts<'_>, carry: &Carry<'_, '_>) -> Option<Statement> {
    let batch = has_batch(f) || carry.called(f).is_some();
    if !batch || f.has_quantity() && f.amounts.iter().any(|a| !a.article) || f.any_verb(&[Verb::Boil, Verb::Seal]) {
        return None;
    }
    let while_ = f.any_token(|k| {
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
    let halts = says!(
        f,
        "stop"
            | "stopping"
            | "stopped"
            | "pause"
            | "paused"
            | "pausing"
            | "halt"
            | "halting"
            | "shelve"
            | "shelving"
            | "shelved"
            | "park"
            | "parking"
            | "parked"
            | "suspend"
            | "suspending"
            | "suspended"
            | "quit"
            | "quitting"
    );
    let aside =
        says!(f, "aside") && says!(f, "set" | "setting" | "put" | "putting" | "leave" | "leaving" | "left" | "is");
    let hold = says!(f, "hold") && f.has(has::ON);
    let finished = says!(f, "done" | "finished" | "through" | "knocking" | "leaving" | "it")
        && says!(f, "for" | "tonight" | "today")
        && while_
        && (f.any_verb(&[Verb::Do, Verb::Finish]) || says!(f, "knocking" | "through" | "that" | "thats" | "that's"));
    let leaves = says!(f, "leave" | "leaving" | "left" | "saving")
        && f.any_token(|k| one_of!(k, "tomorrow" | "morning" | "overnight" | "later"));
    let night = says!(f, "call" | "calling" | "called") && says!(f, "it") && while_;
    let called = carry.called(f).is_some();
    let plain = only(f, |c| {
        called && is_name(c)
            || one_of!(
                c.key,
                "stop"
                    | "stopping"
                    | "stopped"
                    | "pause"
                    | "paused"
                    | "pausing"
                    | "halt"
                    | "halting"
                    | "shelve"
                    | "shelving"
                    | "shelved"
                    | "park"
                    | "parking"
                    | "parked"
                    | "suspend"
                    | "suspending"
                    | "suspended"
                    | "quit"
                    | "quitting"
                    | "set"
                    | "setting"
                    | "put"
                    | "putting"
                    | "leave"
                    | "leaving"
                    | "hold"
                    | "done"
                    | "finished"
                    | "through"
                    | "knocking"
                    | "call"
                    | "calling"
                    | "till"
                    | "until"
                    | "til"
                    | "gonna"
                    | "we'll"
                    | "i'll"
                    | "ill"
                    | "going"
                    | "called"
                    | "work"
                    | "working"
                    | "day"
                    | "night"
                    | "a"
                    | "on"
                    | "making"
                    | "cooking"
            )
    });
    (plain && (halts || aside || hold || finished || night || leaves)).then(|| Statement::Stopped(stage(f, carry)))
}

fn stage(f: &Facts<'_>, carry: &Carry<'_, '_>) -> Stage {
    Stage { batch: carry.batch_meant(f), on: None }
}

/// `finishing tomorrow`, `will do the rest on sunday`.
pub(super) fn is_tail(f: &Facts<'_>) -> bool {
    !f.has_quantity()
        && says!(
            f,
            "finish"
                | "finishing"
                | "resume"
                | "resuming"
                | "continue"
                | "continuing"
                | "rest"
                | "more"
                | "back"
                | "carry"
                | "late"
                | "tired"
        )
        && only(f, |c| {
            c.word() == Some(Word::Modal)
                || one_of!(
                    c.key,
                    "finish"
                        | "finishing"
                        | "resume"
                        | "resuming"
                        | "continue"
                        | "continuing"
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
                        | "get"
                        | "come"
                        | "be"
                )
        })
}

/// `back to the sauce`, `resuming the salsa`, `picking the sauce back up`, `carry on with batch 2`.
pub(super) fn resumed(f: &Facts<'_>, carry: &Carry<'_, '_>) -> Option<Statement> {
    let batch = has_batch(f) || carry.called(f).is_some();
    if !batch || f.has_quantity() && f.amounts.iter().any(|a| !a.article) || f.any_verb(&[Verb::Boil, Verb::Seal]) {
        return None;
    }
    let back = says!(f, "back");
    let resumes = says!(
        f,
        "resume"
            | "resumed"
            | "resuming"
            | "continue"
            | "continuing"
            | "continued"
            | "restart"
            | "restarting"
            | "restarted"
            | "unpause"
            | "unpaused"
    );
    let back_to = back && (f.has(has::TO | has::ON | has::AT) || says!(f, "with" | "onto" | "at"));
    let left_off = says!(f, "left") && f.has(has::OFF) && says!(f, "pick" | "picking" | "picked");
    let up = left_off
        || says!(f, "pick" | "picking" | "picked" | "start" | "starting" | "started" | "take" | "taking" | "took")
            && f.has(has::UP)
            && (back || f.has(has::AGAIN));
    let on = says!(f, "carry" | "carrying" | "carried" | "go" | "going" | "keep" | "moving" | "pressing")
        && (f.has(has::ON) && says!(f, "with") || says!(f, "again") && says!(f, "on" | "with"));
    let called = carry.called(f).is_some();
    let plain = only(f, |c| {
        called && is_name(c)
            || one_of!(
                c.key,
                "resume"
                    | "resumed"
                    | "resuming"
                    | "continue"
                    | "continuing"
                    | "continued"
                    | "restart"
                    | "restarting"
                    | "restarted"
                    | "unpause"
                    | "unpaused"
                    | "back"
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
                    | "where"
                    | "heading"
            )
    });
    (plain && (resumes || back_to || up || on)).then(|| Statement::Resumed(stage(f, carry)))
}

/// A word that may be the name of a batch, where one was found.
fn is_name(c: &Chunk) -> bool {
    matches!(c.item, Item::Ripe(_) | Item::Unknown | Item::Word(Word::Quality | Word::Common))
}
