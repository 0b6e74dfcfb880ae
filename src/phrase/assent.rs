//! Whether some words take what was offered or turn it down: `english/assent.txt` holds the whole answers that do.

use super::household::Household;
use super::item::{Item, WordKind, items};
use super::language::language;
use super::lex::{Mark, Shape, lex};
use super::lists::lists;
use rustc_hash::FxHashMap;
use std::sync::OnceLock;

const ANSWERS: &str = include_str!("english/assent.txt");
/// Longest answer, in bytes.
const LONGEST: usize = 60;

/// Whether an answer is a yes, or a no; `None` where it is neither. Courtesies before and after it are passed over.
pub(super) fn assent(answer: &str) -> Option<bool> {
    if answer.len() > LONGEST {
        return None;
    }
    let known = |words: &str| answers().get(words).copied();
    let folded = folded(answer);
    known(&folded).or_else(|| {
        let language = language();
        let text = items(answer, &language.words, &Household::default());
        let polite =
            |item: &&Item| item.kind == WordKind::Small || item.mark.is_some_and(|mark| mark != Mark::Question);
        // A yes with nothing but small words around it.
        let mut words = folded.split(' ');
        let first = known(words.next()?)?;
        (text.items.iter().skip(1).all(|item| polite(&item)) && words.next().is_some()).then_some(first)
    })
}

/// Whether an answer may say no more than that something was heard: `ok`.
pub(super) fn only_heard(answer: &str) -> bool {
    let heard = lists(ANSWERS).into_iter().nth(2).unwrap_or_default();
    answer.len() > LONGEST || heard.contains(&folded(answer).as_str())
}

/// The words of an answer in lower case without marks, one space between them.
fn folded(answer: &str) -> String {
    let lexed = lex(answer);
    let kept = lexed.tokens.iter().filter(|token| matches!(token.shape, Shape::Word | Shape::Digits(..)));
    let mut words: Vec<String> = Vec::new();
    for token in kept {
        let word = lexed.folded(token).replace('\'', "");
        // What was contracted is one word: `that's`.
        match words.last_mut().filter(|_| token.glued && token.shape == Shape::Word) {
            Some(before) => before.push_str(&word),
            None => words.push(word),
        }
    }
    if words.is_empty() { answer.trim().to_owned() } else { words.join(" ") }
}

fn answers() -> &'static FxHashMap<&'static str, bool> {
    static ANSWERS_READ: OnceLock<FxHashMap<&'static str, bool>> = OnceLock::new();
    ANSWERS_READ.get_or_init(|| {
        let answers = lists(ANSWERS).into_iter().take(2).enumerate();
        answers.flat_map(|(n, all)| all.into_iter().map(move |answer| (answer, n == 0))).collect()
    })
}
