//! What was left over beside the statements: words that none of them took.

use super::Reader;
use crate::phrase::{
    product,
    scan::{Chunk, Item},
    token::{Token, one_of},
    words::Word,
};
use crate::{
    statement::{Clarify, Statement},
    vocabulary::Kind,
};

/// Words that no table knows, or that are none of the trade's, unless a statement took them for a name.
pub(super) fn left_words(
    text: &str,
    tokens: &[Token],
    chunks: &[Chunk],
    reader: &Reader<'_, '_, '_>,
    left: &mut Vec<(u32, u32)>,
) {
    let mut names: Option<String> = None;
    let taken =
        reader.out.iter().any(|said| matches!(said.kind(), Kind::Gave | Kind::Ate | Kind::Opened | Kind::Thawed));
    for (at, chunk) in chunks
        .iter()
        .enumerate()
        .filter(|(_, c)| matches!(c.item, Item::Unknown | Item::Word(Word::Common | Word::Alien)))
    {
        // Whom it went to and what it was for.
        let before = |n: usize| at.checked_sub(n).and_then(|at| chunks.get(at)).map_or(0, |c| c.key);
        if taken
            && (one_of!(before(1), "to" | "for" | "on" | "in" | "with")
                || one_of!(before(1), "a" | "the" | "some" | "our" | "my")
                    && one_of!(before(2), "to" | "for" | "on" | "in" | "with"))
        {
            continue;
        }
        let word = product::said(text, tokens, chunk.from as usize, chunk.to as usize).unwrap_or_default();
        if reader.whole.iter().any(|(from, to)| (*from..*to).contains(&chunk.from))
            || one_of!(
                chunk.key,
                "broke"
                    | "stocked"
                    | "restocked"
                    | "fed"
                    | "shattered"
                    | "dinner"
                    | "lunch"
                    | "supper"
                    | "save"
                    | "saved"
                    | "dead"
                    | "kept"
                    | "keeping"
                    | "saving"
                    | "power"
                    | "propane"
                    | "fuel"
                    | "pilot"
                    | "store"
                    | "flash"
                    | "stream"
                    | "home"
            )
        {
            continue;
        }
        let names = names.get_or_insert_with(|| names_of(&reader.out));
        if !word.is_empty() && !names.contains(&word) {
            left.push((chunk.from, chunk.to));
        }
    }
}

/// Kinds whose words all belong to them.
pub(super) const fn is_whole(kind: Kind) -> bool {
    matches!(
        kind,
        Kind::Set
            | Kind::Named
            | Kind::Planned
            | Kind::CalledOff
            | Kind::Stopped
            | Kind::Resumed
            | Kind::Broke
            | Kind::Siphoned
            | Kind::CookedDown
            | Kind::Dry
            | Kind::Undo
            | Kind::Correct
            | Kind::Recipe
            | Kind::TimerStart
            | Kind::TimerStop
            | Kind::Ask
    )
}

/// All the words that statements hold.
pub(super) fn names_of(out: &[Statement]) -> String {
    let one = |said: &Statement| serde_json::to_string(said).unwrap_or_default();
    out.iter()
        .map(|said| match said {
            Statement::Clarify(Clarify { partial: Some(partial), .. }) => one(partial),
            said => one(said),
        })
        .collect()
}

pub(super) fn note_unread(text: &str, tokens: &[Token], (from, to): (u32, u32), unread: &mut String) {
    let words = tokens
        .get(from as usize)
        .zip(tokens.get((to as usize).saturating_sub(1)))
        .and_then(|(a, b)| text.get(a.from as usize..b.to as usize));
    if let Some(words) = words {
        if !unread.is_empty() {
            unread.push(' ');
        }
        unread.push_str(words.trim());
    }
}
