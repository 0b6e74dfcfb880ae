//! The sheet of jar labels.
//!
//! ```text
//! labels = "labels" number ( "x" | "by" ) number [ "on" ( "a4" | "letter" ) ] { measure }
//! ```

use super::ways::tokens;
use crate::phrase::{
    build::Carry,
    facts::{Facts, has},
    scan::{Chunk, Item},
    token::{Mark, Sense, Token, one_of, says},
    words::Word,
};
use crate::{
    statement::{Set, Statement},
    vocabulary::SettingKey,
};

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
