//! Places in the garden: a noun with what stands before it (`back`, `lower`) and its label (`bed 3`, `row 3A`, `bed
//! B2`).

use super::super::lex::{Mark, Shape};
use super::super::lexicon::is_hyphen;
use super::super::lexicon::sense::{Class, Meaning};
use super::input::{Read, Tokens, mark, sense};

/// The words of a place, from the first that belongs to its name.
pub(in super::super) fn place(input: Tokens<'_>) -> Read<'_, ()> {
    if let Ok((rest, ())) = code(input) {
        return Ok(code(rest).unwrap_or((rest, ())));
    }
    let classes = input.classes();
    let mut rest = input;
    for _ in 0..3 {
        let side = sense(classes.place_side)(rest);
        match side {
            // `the top bed`, but not `a side of beef`: a noun must follow.
            Ok((after, _)) if sense(classes.place_side)(after).is_ok() || sense(classes.place_noun)(after).is_ok() => {
                rest = after;
            }
            _ => break,
        }
    }
    if !rest.hits().iter().any(|hit| classes.place_noun.has(hit.sense) && !hit.repaired) {
        return input.fail();
    }
    let (mut rest, _) = sense(classes.place_noun)(rest)?;
    for _ in 0..3 {
        let labelled = label(rest).map_or(rest, |(after, ())| after);
        match sense(classes.place_noun)(labelled) {
            // `block 4 row 12`, `hoop house bed 3`
            Ok((after, _)) => rest = after,
            Err(_) => return Ok((labelled, ())),
        }
    }
    Ok((rest, ()))
}

/// `B2`, `r3`: a letter with its number, which is no unit.
fn code(input: Tokens<'_>) -> Read<'_, ()> {
    let dash = is_hyphen(&input.known.lexed.tokens, input.at + 1);
    let at = if dash { 2 } else { 1 };
    let digits = input
        .skip(at)
        .first()
        .is_some_and(|next| next.glued && matches!(next.shape, Shape::Digits(_, count) if count <= 2));
    let classes = input.classes();
    let led = input.at.checked_sub(1).is_some_and(|before| {
        input
            .known
            .hits_at(before)
            .iter()
            .any(|hit| input.classes().prep_from.has(hit.sense) || input.classes().prep_in.has(hit.sense))
    });
    let unit = input.hits().iter().any(|hit| {
        classes.unit.has(hit.sense)
            || classes.times.has(hit.sense)
            || classes.article.has(hit.sense)
            || hit.len == 2 && classes.small.has(hit.sense) && !led && !input.first().is_some_and(|first| first.capital)
    });
    let rest = input.skip(at + 1);
    let ends = !rest.is_glued() || rest.first().is_some_and(|next| matches!(next.shape, Shape::Mark(_)));
    let capital = input.first().is_some_and(|first| first.capital);
    if letter(input, false) && digits && (!unit || capital) && ends && !counts(rest) {
        Ok((rest, ()))
    } else {
        input.fail()
    }
}

/// `3`, `#3`, `B2`, `3A`, `A`, `two`: what tells one bed from another; not a figure that counts something.
fn label(input: Tokens<'_>) -> Read<'_, ()> {
    let (start, _) = mark(Mark::Hash)(input).unwrap_or((input, ()));
    let Some(first) = start.first() else { return input.fail() };
    let mut rest = start.skip(1);
    match first.shape {
        Shape::Digits(_, count) if count <= 3 => {
            // `3A`
            if letter(rest, true) {
                rest = rest.skip(1);
            }
        }
        Shape::Word if letter(start, false) => {
            if is_hyphen(&start.known.lexed.tokens, rest.at)
                && rest.skip(1).first().is_some_and(|next| matches!(next.shape, Shape::Digits(..)))
            {
                rest = rest.skip(2);
            } else if rest.first().is_some_and(|next| matches!(next.shape, Shape::Digits(..)) && next.glued) {
                rest = rest.skip(1);
            } else if !first.capital {
                return input.fail();
            }
        }
        Shape::Word => {
            let small = |hit: &super::super::lexicon::Hit| {
                hit.len == 1
                    && input.classes().ones.has(hit.sense)
                    && matches!(input.known.words.meaning(hit.sense), Meaning::Number(n) if *n < 13)
            };
            if !start.hits().iter().any(small) {
                return input.fail();
            }
        }
        _ => return input.fail(),
    }
    if counts(rest) { input.fail() } else { Ok((rest, ())) }
}

/// A single letter that is no word of its own here.
fn letter(input: Tokens<'_>, glued: bool) -> bool {
    let Some(token) = input.first() else { return false };
    token.shape == Shape::Word && token.to - token.from == 1 && (token.glued || !glued)
}

/// Whether the figure before belongs to what follows: `bed 3 lb`.
fn counts(input: Tokens<'_>) -> bool {
    let classes = input.classes();
    let follows = |class: Class| sense(class)(input).is_ok();
    // A picture of fruit counts nothing.
    let word = input.first().is_some_and(|next| next.shape == Shape::Word);
    let decimal = input
        .first()
        .is_some_and(|next| next.glued && (next.is(Mark::Dot) || next.is(Mark::Comma) || next.is(Mark::Slash)))
        && input.skip(1).is_glued();
    follows(classes.unit)
        || follows(classes.container)
        || follows(classes.jar)
        || word && follows(classes.crop)
        || decimal
        || mark(Mark::Hash)(input).is_ok()
}
