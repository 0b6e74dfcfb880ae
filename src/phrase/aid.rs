//! Aids for whoever works on the reader, used by examples that are not kept with the sources.
//! To be deleted with the last of those examples; `rackful parse --explain` stays.
#![allow(clippy::unwrap_used, reason = "run by nobody but developers")]

use super::context::Context;
use super::household::Household;
use super::item::items;
use super::language::{check, language};
use super::lattice::lattice;
use super::readings::{Read, situation};
use super::score;
use crate::statement::Statement;

/// Everything that was found in a message, one thing a line.
pub fn debug(text: &str, context: &Context<'_>) -> String {
    use std::fmt::Write;
    if let Err(e) = check() {
        return e.to_string();
    }
    let language = language();
    let household = Household::new(context.lexicon, &language.words);
    let text = items(text, &language.words, &household);
    let read = Read::new(language, &text, &household, context);
    let mut out = String::new();
    for (n, item) in text.items.iter().enumerate() {
        let _ = write!(out, "{n} {:?} {:?}", text.said(n, n + 1).unwrap_or_default(), item.kind);
        for hit in &item.senses {
            let _ = write!(out, " {}{}", language.words.path(hit.sense), if hit.repaired { "~" } else { "" });
        }
        for v in &item.values {
            let _ = write!(out, " <{v:?}>");
        }
        out.push('\n');
    }
    let _ = writeln!(out, "cuts {:?}", read.lattice.cuts);
    for e in read.lattice.edges.iter().filter(|e| e.frame.is_some()) {
        let f = &language.frames.frames[usize::from(e.frame.unwrap())];
        let _ = writeln!(
            out,
            "  {}..{} {} [{}] {:.2} {} {:?}",
            e.from,
            e.to,
            f.name,
            f.triggers[usize::from(e.trigger)].text,
            e.score,
            serde_json::to_string(&e.statements).unwrap(),
            e.made.notes
        );
    }
    for r in read.readings.iter().take(4) {
        let s: Vec<&Statement> = score::statements(&read.lattice, &r.path).collect();
        let _ = writeln!(out, "{:.3} {}", r.probability, serde_json::to_string(&s).unwrap());
    }
    let r = read.reading(context);
    let _ = writeln!(out, "=> {} unread {:?}", serde_json::to_string(&r.statements).unwrap(), r.unread);
    out
}

/// Nanoseconds of each phase.
pub fn phases(text: &str, context: &Context<'_>) -> [u128; 5] {
    let language = language();
    let t = std::time::Instant::now();
    let household = Household::new(context.lexicon, &language.words);
    let a = t.elapsed().as_nanos();
    let text = items(text, &language.words, &household);
    let b = t.elapsed().as_nanos();
    let mut lattice = lattice(&text, &language.frames, &household, context, &situation(context, false));
    let c = t.elapsed().as_nanos();
    language.weights.weigh(&mut lattice);
    let d = t.elapsed().as_nanos();
    std::hint::black_box(score::readings(&lattice, &language.frames, &language.weights));
    let e = t.elapsed().as_nanos();
    [a, b - a, c - b, d - c, e - d]
}
