//! Boundaries between clauses: marks, conjunctions, and the words at which a clause begins that nothing separates from
//! what stands before.

use super::super::feature::CutKind;
use super::super::frame::Types;
use super::super::item::{Item, Text, WordKind};
use super::super::lex::Mark;
use super::super::value::Value;

/// A boundary: where the clause before it ends and the one behind it begins; between them stand marks and conjunctions.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(in super::super) struct Cut {
    pub(in super::super) end: u32,
    pub(in super::super) start: u32,
    pub(in super::super) kind: CutKind,
}

/// Where clauses may begin and end, and which sentence each item is in.
pub(super) fn cuts(text: &Text<'_>, types: &[Types]) -> (Vec<Cut>, Vec<u16>) {
    let items = &text.items;
    let mut cuts = Vec::with_capacity(8);
    let mut sentences = Vec::with_capacity(items.len());
    let mut sentence = 0;
    let mut n = 0;
    let mut start = 0;
    while n < items.len() && separates(text, n).is_some() {
        sentences.push(sentence);
        n += 1;
        start = n;
    }
    cuts.push(Cut { end: 0, start: start as u32, kind: CutKind::Edge });
    while n < items.len() {
        if let Some(kind) = separates(text, n) {
            let end = n;
            let mut strongest = kind;
            while n < items.len()
                && let Some(kind) = separates(text, n)
            {
                if stronger(kind, strongest) {
                    strongest = kind;
                }
                sentences.push(sentence);
                n += 1;
            }
            if matches!(strongest, CutKind::Stop | CutKind::Question | CutKind::Line) {
                sentence += 1;
            }
            if n < items.len() {
                cuts.push(Cut { end: end as u32, start: n as u32, kind: strongest });
            } else {
                cuts.push(Cut {
                    end: end as u32,
                    start: n as u32,
                    kind: if strongest == CutKind::Question { CutKind::Question } else { CutKind::Edge },
                });
                return (cuts, sentences);
            }
            continue;
        }
        let last = cuts.last().map_or(0, |cut| cut.start as usize);
        if let Some(kind) = begins(text, types, n, last) {
            let back = step_back(text, n, last);
            if back > last && cuts.last().is_none_or(|cut| (cut.start as usize) < back) {
                cuts.push(Cut { end: back as u32, start: back as u32, kind });
            }
        }
        sentences.push(sentence);
        n += 1;
    }
    cuts.push(Cut { end: items.len() as u32, start: items.len() as u32, kind: CutKind::Edge });
    (cuts, sentences)
}

fn stronger(new: CutKind, old: CutKind) -> bool {
    let rank = |kind: CutKind| match kind {
        CutKind::Question => 5,
        CutKind::Stop | CutKind::Line => 4,
        CutKind::Colon => 3,
        CutKind::Comma => 2,
        CutKind::And => 1,
        _ => 0,
    };
    rank(new) > rank(old)
}

/// Whether an item stands between clauses.
fn separates(text: &Text<'_>, n: usize) -> Option<CutKind> {
    let item = text.items.get(n)?;
    let glued = |n: usize| {
        text.items.get(n).and_then(|item| text.lexed.tokens.get(item.from as usize)).is_some_and(|token| token.glued)
    };
    if item.is(text.words.classes.mark_question) {
        return Some(CutKind::Question);
    }
    let next_capital = text.items.get(n + 1).is_some_and(|next| next.capital || next.kind == WordKind::Value);
    match item.mark {
        // `approx. 5 lb`: what is abbreviated ends no sentence.
        Some(Mark::Dot) if glued(n + 1) && glued(n) => None,
        Some(Mark::Dot)
            if !next_capital
                && n + 1 < text.items.len()
                && n > 0
                && text.items.get(n - 1).is_some_and(|item| {
                    item.to - item.from == 1 && letters(text, item) <= 3 && item.kind != WordKind::Small
                }) =>
        {
            Some(CutKind::Comma)
        }
        Some(Mark::Dot | Mark::Bang) => Some(CutKind::Stop),
        Some(Mark::Line) => Some(CutKind::Line),
        Some(Mark::Comma) => Some(CutKind::Comma),
        Some(Mark::Semicolon | Mark::Colon | Mark::Dash | Mark::Arrow | Mark::Bracket | Mark::Equals)
            if !(glued(n) && glued(n + 1)) || item.mark == Some(Mark::Bracket) || item.mark == Some(Mark::Colon) =>
        {
            Some(CutKind::Colon)
        }
        Some(Mark::Slash) if !glued(n) || !glued(n + 1) => Some(CutKind::Comma),
        Some(_) => None,
        // `next?`: all there is ties nothing.
        None if text.items.len() > 2
            && item.is(text.words.classes.and)
            && item.values.is_empty()
            && !item.is(text.words.classes.prep_with) =>
        {
            Some(CutKind::And)
        }
        None => None,
    }
}

fn letters(text: &Text<'_>, item: &Item) -> usize {
    text.lexed.tokens.get(item.from as usize).map_or(0, |token| (token.to - token.from) as usize)
}

/// Whether a clause may begin at an item that nothing separates from what stands before.
fn begins(text: &Text<'_>, types: &[Types], n: usize, last: usize) -> Option<CutKind> {
    let item = text.items.get(n)?;
    let classes = &text.words.classes;
    if n <= last {
        return None;
    }
    if item.kind == WordKind::Deed
        || item.is(classes.say)
        || item.is(classes.oops)
        || item.is(classes.question) && item.kind == WordKind::Voice
    {
        return Some(CutKind::Deed);
    }
    let amount = Types::Mass.with(Types::Count).with(Types::Jars).with(Types::Of);
    let before = text.items.get(n - 1)?;
    // `… because I wanted to`, `… we have plenty`: a clause of its own begins.
    if item.is(classes.because) && item.values.is_empty()
        || is_subject(text, n) && !is_subject(text, n - 1) && !leads_subject(text, n - 1)
    {
        return Some(CutKind::And);
    }
    let free = before.kind == WordKind::Trade
        || matches!(before.kind, WordKind::Value | WordKind::Ordinary | WordKind::Strange);
    let counted = item.values.iter().any(|value| !matches!(value, Value::Jars(jars) if jars.count.is_none()));
    if types.get(n).is_some_and(|types| types.meets(amount))
        && free
        && counted
        && !before.is(classes.at)
        && !before.is(classes.of)
    {
        return Some(CutKind::Amount);
    }
    let acid = item.is(classes.acid_lemon) || item.is(classes.acid_citric) || item.is(classes.acid);
    if item.kind == WordKind::Trade
        && (item.is(classes.ask)
            || acid && matches!(before.kind, WordKind::Deed | WordKind::Value) && !before.is(classes.of))
    {
        return Some(CutKind::Deed);
    }
    None
}

/// Whether an item is who does something: `I`, `we`, `she`.
fn is_subject(text: &Text<'_>, n: usize) -> bool {
    let classes = &text.words.classes;
    text.items.get(n).is_some_and(|item| item.is(classes.subject))
}

/// Whether what stands before a subject belongs to the same clause: a verb in a question, a conjunction, a negation.
fn leads_subject(text: &Text<'_>, n: usize) -> bool {
    let c = &text.words.classes;
    let leads = [c.aux, c.modal, c.question, c.because, c.and, c.prep_from, c.not];
    text.items.get(n).is_some_and(|item| item.is_any(&leads))
}

/// Back over what belongs to the verb: `we have frozen` begins at `we`.
fn step_back(text: &Text<'_>, n: usize, last: usize) -> usize {
    let c = &text.words.classes;
    let verbal = [c.own, c.aux, c.not, c.other, c.modal, c.you];
    let belongs = |at: &usize| {
        text.items.get(*at).is_some_and(|item| item.is_any(&verbal) && (item.values.is_empty() || item.is(c.own)))
    };
    (last.max(n.saturating_sub(4))..n).rev().take_while(belongs).last().unwrap_or(n)
}

/// Whether no clause goes beyond a boundary: behind a full stop only what says nothing by itself still belongs to it.
pub(super) fn bars(text: &Text<'_>, cuts: &[Cut], from: usize, to: usize) -> bool {
    let Some(cut) = cuts.get(to) else { return true };
    match cut.kind {
        CutKind::Question => true,
        CutKind::Stop | CutKind::Line => {
            let next = cuts.get(to + 1).map_or(cut.start, |next| next.end);
            let short = next.saturating_sub(cut.start) <= 5;
            let deed = |from: u32, to: u32| {
                text.items
                    .get(from as usize..to as usize)
                    .unwrap_or_default()
                    .iter()
                    .any(|item| item.kind == WordKind::Deed)
            };
            let before = cuts.get(from).map_or(0, |cut| cut.start);
            let left_short = cut.end.saturating_sub(before) <= 3 && !deed(before, cut.end);
            !(short && !deed(cut.start, next) || left_short)
        }
        _ => false,
    }
}
