//! How the assistant answers and when the season ends: digest, labels, answers, pictures, season.
//!
//! ```text
//! season   = "season ends" day | ( "first" | … ) "frost" [ "is" ] day | "last picking" … day
//! digest   = "digest" ( weekday [ time ] | "off" ) | "no digest" | "weekly digest please"
//! labels   = "labels" number ( "x" | "by" ) number [ "on" ( "a4" | "letter" ) ]
//! answers  = "keep it brief" | "short answers" | "just react" | "full answers"
//! pictures = ( "dark" | "light" ) ( "pictures" | "charts" | "mode" )
//! ```

use super::clocks;
use crate::phrase::{
    build::Carry,
    date::dated,
    facts::{Facts, has},
    scan::{Chunk, Item},
    token::{Mark, Sense, Token, Tokens, one_of, says},
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

fn tokens<'f>(f: &'f Facts<'_>) -> &'f [Token] {
    let range = f.chunks.first().zip(f.chunks.last()).map(|(a, b)| (a.from as usize, b.to as usize));
    range.and_then(|(from, to)| f.tokens.get(from..to)).unwrap_or_default()
}

fn small(c: &Chunk) -> bool {
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

/// `season ends October 10`, `first frost is usually oct 5`, `last picking will be around the end of september`.
fn season(f: &Facts<'_>, carry: &Carry<'_, '_>) -> Option<Statement> {
    let ends = says!(f, "season" | "growing")
        && says!(
            f,
            "end"
                | "ends"
                | "ending"
                | "over"
                | "done"
                | "until"
                | "till"
                | "til"
                | "to"
                | "through"
                | "runs"
                | "goes"
                | "finishes"
                | "finish"
                | "closes"
        );
    let frost = says!(f, "frost" | "frosts" | "freeze")
        && !says!(f, "spring")
        && (says!(f, "first" | "date" | "killing" | "hard" | "get" | "expect" | "comes" | "usually")
            || f.has(has::AUX))
        && !f.chunks.windows(2).any(|w| one_of!(w[0].key, "last") && one_of!(w[1].key, "frost" | "frosts" | "freeze"));
    let picking = says!(f, "last" | "final") && says!(f, "picking" | "harvest" | "pick" | "pickings" | "tomatoes");
    if !(ends || frost || picking)
        || f.has(has::NOT | has::YOU | has::THEY | has::FOLK | has::KIN)
        || f.alien > 0
        || f.mass().is_some()
    {
        return None;
    }
    let all = tokens(f);
    let now = carry.context.zone.day(carry.context.now);
    let (at, used, until) =
        (0..all.len()).find_map(|at| dated(Tokens(&all[at..]), now).map(|(used, day)| (at, used, day)))?;
    let base = f.chunks.first()?.from as usize;
    let plain = f.chunks.iter().all(|c| {
        let dated = c.from as usize >= base + at && c.to as usize <= base + at + used;
        dated
            || small(c)
            || matches!(
                c.item,
                Item::Word(Word::Modal | Word::If | Word::Quality)
                    | Item::Verb(
                        Verb::Pick
                            | Verb::Go
                            | Verb::Come
                            | Verb::Run
                            | Verb::Set
                            | Verb::Get
                            | Verb::Finish
                            | Verb::Cancel
                            | Verb::Do
                            | Verb::Freeze
                            | Verb::Reach,
                        _
                    )
                    | Item::Crop(_)
            )
            || one_of!(
                c.key,
                "season"
                    | "growing"
                    | "ends"
                    | "end"
                    | "ending"
                    | "frost"
                    | "frosts"
                    | "picking"
                    | "pickings"
                    | "date"
                    | "killing"
                    | "average"
                    | "expect"
                    | "expected"
                    | "over"
                    | "closes"
                    | "finishes"
                    | "mid"
                    | "beginning"
                    | "runs"
                    | "garden"
                    | "first"
                    | "avg"
            )
    });
    plain.then(|| Statement::Set(Set { until: Some(until), ..Set::of(SettingKey::Season) }))
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

/// `labels are 3 by 8 on a4`, `label sheet 2x5 letter`: columns, rows, paper.
pub(in crate::phrase) fn labels(f: &Facts<'_>, carry: &Carry<'_, '_>) -> Option<Statement> {
    if !says!(f, "label" | "labels") || f.has(has::NOT) || f.alien > 0 && !says!(f, "letter") {
        return None;
    }
    let all = tokens(f);
    let number = |n: usize| match all.get(n)?.sense {
        Sense::Num(n) => n.as_count().filter(|n| (1..=20).contains(n)),
        Sense::Word(Word::Small(n)) => Some(u32::from(n)).filter(|n| (1..=20).contains(n)),
        _ => None,
    };
    let crosses =
        |at: usize| all.get(at + 1).is_some_and(|t| one_of!(t.key, "x" | "by" | "times") || t.is_mark(Mark::Times));
    let measured = |at: usize| all.get(at + 3).is_some_and(|t| one_of!(t.key, "mm" | "in" | "inch" | "inches" | "cm"));
    let grid_at = (0..all.len()).find(|at| crosses(*at) && !measured(*at) && number(*at).zip(number(at + 2)).is_some());
    let grid = grid_at.and_then(|at| number(at).zip(number(at + 2)));
    let rest = grid_at.map_or(0, |at| at + 3);
    let measures = measures(all.get(rest..).unwrap_or_default());
    if grid.is_none() && measures.is_empty() {
        return None;
    }
    let a4 = all.windows(2).any(|w| {
        one_of!(w[0].key, "a") && matches!(w[1].sense, Sense::Num(n) if n.as_count() == Some(4)) && w[1].glued
    });
    let paper = if a4 {
        "a4"
    } else if all.iter().any(|t| one_of!(t.key, "letter" | "us")) || !carry.context.lexicon.metric {
        "letter"
    } else {
        "a4"
    };
    let grid = grid.map(|(columns, rows)| format!("{columns}x{rows} ")).unwrap_or_default();
    Some(Statement::Set(Set { word: Some(format!("{grid}{paper}{measures}")), ..Set::of(SettingKey::Labels) }))
}

/// Whether a sentence goes on about its sheet of labels behind a comma: `labels 3x8 a4, label 63.5x38.1, margin 7x15`.
pub(in crate::phrase) fn is_sheet(chunks: &[Chunk]) -> bool {
    let comma = chunks.iter().position(|c| c.is_mark(Mark::Comma)).unwrap_or(chunks.len());
    let behind = chunks.get(comma..).unwrap_or_default();
    let about =
        |c: &Chunk| one_of!(c.key, "label" | "labels" | "margin" | "margins" | "gap" | "gaps" | "size" | "each");
    behind.iter().any(about)
        && behind.iter().all(|c| {
            about(c)
                || matches!(c.item, Item::Amount(_) | Item::Mark(_) | Item::Unknown)
                || matches!(c.item, Item::Word(Word::Link | Word::Filler | Word::Unit(_) | Word::And | Word::Small(_)))
        })
}

/// `63.5x38.1`, `size 100 by 100 mm`, `margin 7x15`: measures in the words that a sheet is told in.
fn measures(all: &[Token]) -> String {
    let figure = |n: usize| match all.get(n)?.sense {
        Sense::Num(n) => Some(n.as_f64()).filter(|n| (0.0..=1000.0).contains(n)),
        Sense::Word(Word::Small(n)) => Some(f64::from(n)),
        _ => None,
    };
    let mut out = String::new();
    let mut at = 0;
    while at < all.len() {
        let cross = all.get(at + 1).is_some_and(|t| one_of!(t.key, "x" | "by" | "times") || t.is_mark(Mark::Times));
        let Some((width, height)) = figure(at).zip(figure(at + 2)).filter(|_| cross) else {
            at += 1;
            continue;
        };
        let about = match at.checked_sub(1).and_then(|before| all.get(before)).map_or(0, |t| t.key) {
            k if one_of!(k, "margin" | "margins") => "margin",
            k if one_of!(k, "gap" | "gaps") => "gap",
            _ => "label",
        };
        let tenfold = if all.get(at + 3).is_some_and(|t| one_of!(t.key, "cm")) { 10.0 } else { 1.0 };
        out.push_str(&format!(", {about} {}x{}", width * tenfold, height * tenfold));
        at += 3;
    }
    if !out.is_empty() && all.iter().any(|t| one_of!(t.key, "in" | "inch" | "inches")) {
        out.push_str(" in");
    }
    out
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
