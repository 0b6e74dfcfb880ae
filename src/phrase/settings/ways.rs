//! How the assistant answers: digest, answers, pictures.
//!
//! ```text
//! digest   = "digest" ( weekday [ time ] | "off" ) | "no digest" | "weekly digest please"
//! answers  = "keep it brief" | "short answers" | "just react" | "full answers"
//! pictures = ( "dark" | "light" ) ( "pictures" | "charts" | "mode" )
//! ```

use super::clocks;
use super::labels::labels;
use super::season::season;
use crate::phrase::{
    build::Carry,
    facts::{Facts, has},
    scan::{Chunk, Item},
    token::{Mark, Token, one_of, says},
    words::{Verb, Word},
};
use crate::{
    statement::{Set, Statement},
    vocabulary::SettingKey,
};

/// Which of these a clause sets.
pub(super) fn ways(f: &Facts<'_>, carry: &Carry<'_, '_>) -> Option<Statement> {
    // Most clauses have none of these words.
    let may = says!(
        f,
        "season"
            | "growing"
            | "frost"
            | "frosts"
            | "freeze"
            | "last"
            | "final"
            | "digest"
            | "label"
            | "labels"
            | "answer"
            | "answers"
            | "reply"
            | "replies"
            | "answering"
            | "replying"
            | "respond"
            | "responses"
            | "talk"
            | "messages"
            | "react"
            | "reacts"
            | "reactions"
            | "reaction"
            | "emoji"
            | "thumbs"
            | "keep"
            | "be"
            | "make"
            | "dark"
            | "light"
            | "bright"
            | "white"
    );
    if !may {
        return None;
    }
    season(f, carry).or_else(|| digest(f)).or_else(|| labels(f, carry)).or_else(|| answers(f)).or_else(|| pictures(f))
}

pub(super) fn tokens<'f>(f: &'f Facts<'_>) -> &'f [Token] {
    let range = f.chunks.first().zip(f.chunks.last()).map(|(a, b)| (a.from as usize, b.to as usize));
    range.and_then(|(from, to)| f.tokens.get(from..to)).unwrap_or_default()
}

pub(super) fn small(c: &Chunk) -> bool {
    matches!(
        c.item,
        Item::Word(
            Word::Filler
                | Word::Link
                | Word::Is
                | Word::Aux
                | Word::First
                | Word::And
                | Word::DayPart(_)
                | Word::Day(_)
                | Word::Weekday(_)
        ) | Item::When(_)
    ) || matches!(c.item, Item::Mark(mark) if !matches!(mark, Mark::Quest | Mark::Money))
}

/// `send the digest on Sundays at 6 pm`, `no digest`, `weekly digest please`.
fn digest(f: &Facts<'_>) -> Option<Statement> {
    if !says!(f, "digest")
        || f.alien > 0
        || f.has(has::THEY | has::FOLK | has::KIN)
        || says!(f, "what" | "how" | "show" | "whats")
    {
        return None;
    }
    let plain = f.chunks.iter().all(|c| {
        small(c)
            || matches!(
                c.item,
                Item::Word(Word::Not | Word::Modal | Word::You)
                    | Item::Amount(_)
                    | Item::Verb(
                        Verb::Send
                            | Verb::Set
                            | Verb::Turn
                            | Verb::Cancel
                            | Verb::Stop
                            | Verb::Get
                            | Verb::Give
                            | Verb::Put
                            | Verb::Change
                            | Verb::Do,
                        _
                    )
            )
            || one_of!(
                c.key,
                "digest"
                    | "weekly"
                    | "time"
                    | "skip"
                    | "week"
                    | "summary"
                    | "every"
                    | "need"
                    | "move"
                    | "mornings"
                    | "evenings"
            )
            || matches!(c.item, Item::Word(Word::Unit(_)))
    });
    if !plain {
        return None;
    }
    let off = f.has(has::NOT) || says!(f, "off" | "stop" | "cancel" | "skip" | "without" | "stopped");
    if off {
        return Some(Statement::Set(Set { word: Some("off".to_owned()), ..Set::of(SettingKey::Digest) }));
    }
    const DAYS: [&str; 7] = ["monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"];
    let all = tokens(f);
    let day_at = all.iter().position(|t| matches!(t.word(), Some(Word::Weekday(_))));
    let day = day_at.and_then(|at| match all[at].word() {
        Some(Word::Weekday(n)) => DAYS.get(usize::from(n)).map(|day| (*day).to_owned()),
        _ => None,
    });
    let time = clocks(all).first().map(|(hour, minute, sure)| {
        let hour = if !sure && (1..7).contains(hour) { hour + 12 } else { *hour };
        format!("{:02}:{minute:02}", hour % 24)
    });
    let part = all.iter().find_map(|t| match t.word() {
        Some(Word::DayPart(_)) if one_of!(t.key, "morning" | "mornings") => Some("08:00"),
        Some(Word::DayPart(_)) if one_of!(t.key, "evening" | "evenings" | "tonight") => Some("18:00"),
        Some(Word::DayPart(_)) if one_of!(t.key, "noon" | "midday") => Some("12:00"),
        _ => None,
    });
    let wanted = says!(
        f,
        "weekly"
            | "send"
            | "on"
            | "turn"
            | "want"
            | "give"
            | "set"
            | "please"
            | "every"
            | "need"
            | "get"
            | "start"
            | "move"
    );
    // `digest` alone asks for it; `give me the digest` too.
    let asked = day.is_none() && time.is_none() && !says!(f, "weekly" | "on" | "every");
    ((day.is_some() || time.is_some() || wanted) && !asked).then(|| {
        Statement::Set(Set { word: day, from: time.or(part.map(str::to_owned)), ..Set::of(SettingKey::Digest) })
    })
}

/// `keep it brief`, `short answers`, `just react`, `full answers please`.
fn answers(f: &Facts<'_>) -> Option<Statement> {
    let answer = says!(
        f,
        "answer"
            | "answers"
            | "reply"
            | "replies"
            | "answering"
            | "replying"
            | "respond"
            | "talk"
            | "responses"
            | "messages"
    );
    let react = says!(f, "react" | "reacts" | "reactions" | "reaction" | "emoji" | "thumbs");
    let brief = says!(f, "brief" | "briefly" | "short" | "shorter" | "terse" | "concise" | "less");
    let full =
        says!(f, "full" | "fully" | "long" | "longer" | "detailed" | "details" | "detail" | "everything" | "verbose");
    let silent = says!(f, "silent" | "silently" | "quiet") && answer && !says!(f, "hours");
    let keep = says!(f, "keep" | "be" | "make") && says!(f, "it" | "brief" | "things" | "them");
    let word = if react && (says!(f, "just" | "only" | "enough" | "fine" | "answers" | "with") || f.chunks.len() <= 2)
        || silent
    {
        "silent"
    } else if brief && (answer || keep) {
        "brief"
    } else if full && answer {
        "full"
    } else {
        return None;
    };
    let plain = f.chunks.iter().all(|c| {
        small(c)
            || matches!(
                c.item,
                Item::Word(Word::Modal | Word::You | Word::Quality)
                    | Item::Verb(
                        Verb::Use
                            | Verb::Give
                            | Verb::Set
                            | Verb::Send
                            | Verb::Change
                            | Verb::Get
                            | Verb::Make
                            | Verb::Go
                            | Verb::Show,
                        _
                    )
            )
            || one_of!(
                c.key,
                "answer"
                    | "answers"
                    | "reply"
                    | "replies"
                    | "answering"
                    | "replying"
                    | "respond"
                    | "responses"
                    | "react"
                    | "reacts"
                    | "reactions"
                    | "reaction"
                    | "emoji"
                    | "thumbs"
                    | "brief"
                    | "briefly"
                    | "short"
                    | "shorter"
                    | "terse"
                    | "concise"
                    | "detailed"
                    | "details"
                    | "detail"
                    | "verbose"
                    | "keep"
                    | "don't"
                    | "dont"
                    | "not"
                    | "silent"
                    | "silently"
                    | "fully"
                    | "less"
                    | "talk"
                    | "words"
                    | "messages"
                    | "things"
            )
    });
    let colon = f.chunks.iter().any(|c| c.is_mark(Mark::Colon));
    (plain && !colon && !says!(f, "of" | "later"))
        .then(|| Statement::Set(Set { word: Some(word.to_owned()), ..Set::of(SettingKey::Answers) }))
}

/// `dark pictures`, `light charts please`, `dark mode`.
fn pictures(f: &Facts<'_>) -> Option<Statement> {
    let thing = says!(f, "picture" | "pictures" | "chart" | "charts" | "graph" | "graphs" | "mode" | "theme" | "plots");
    let word = match (says!(f, "dark"), says!(f, "light" | "bright" | "white")) {
        (true, false) => "dark",
        (false, true) => "light",
        _ => return None,
    };
    let plain = f.chunks.iter().all(|c| {
        small(c)
            || matches!(
                c.item,
                Item::Word(Word::Quality | Word::Modal)
                    | Item::Verb(Verb::Use | Verb::Set | Verb::Turn | Verb::Change | Verb::Make | Verb::Go, _)
            )
            || one_of!(
                c.key,
                "picture"
                    | "pictures"
                    | "chart"
                    | "charts"
                    | "graph"
                    | "graphs"
                    | "mode"
                    | "theme"
                    | "plots"
                    | "switch"
                    | "prefer"
                    | "bright"
                    | "i"
            )
    });
    // A picture of something is asked for.
    let of_what = says!(f, "freezer" | "season" | "pantry" | "day" | "of") || f.stock.is_some();
    (thing && plain && !of_what && !f.has(has::NOT))
        .then(|| Statement::Set(Set { word: Some(word.to_owned()), ..Set::of(SettingKey::Pictures) }))
}
