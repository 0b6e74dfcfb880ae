//! How words end, and what is left of them before an apostrophe: `english/endings.txt`.

use super::lists::lists;
use std::sync::OnceLock;

const TEXT: &str = include_str!("english/endings.txt");

/// The lists, in the order of the file.
#[derive(Clone, Copy)]
enum List {
    Singular,
    Plural,
    Elided,
    Possessive,
}

fn list(list: List) -> &'static [&'static str] {
    static LISTS: OnceLock<Vec<Vec<&'static str>>> = OnceLock::new();
    LISTS.get_or_init(|| lists(TEXT)).get(list as usize).map_or(&[], |list| list)
}

/// The singular of a noun that no list has, by its letters.
pub(super) fn singular(name: &str) -> String {
    let rules = list(List::Singular).iter().filter_map(|rule| rule.split_once('>'));
    let fits = |(ending, _): &(&str, &str)| name.ends_with(ending) && name.len() > ending.len() + 2;
    let stem = rules.into_iter().find(fits).and_then(|(ending, with)| Some((name.strip_suffix(ending)?, with)));
    stem.map_or_else(|| name.to_owned(), |(stem, with)| format!("{stem}{with}"))
}

/// What so many asterisks behind a name stand for.
pub(super) fn plural(asterisks: usize) -> Option<&'static str> {
    list(List::Plural).get(asterisks.checked_sub(1)?).copied()
}

/// Whether a word ends like most plurals.
pub(super) fn is_plural(word: &str) -> bool {
    plural(1).is_some_and(|ending| word.ends_with(ending))
}

/// Whether letters before an apostrophe are the rest of an article, which says nothing.
pub(super) fn is_elided(letters: &str) -> bool {
    list(List::Elided).contains(&letters)
}

/// Whether a letter behind an apostrophe makes a possessive.
pub(super) fn is_possessive(letter: char) -> bool {
    list(List::Possessive).iter().any(|ending| ending.chars().eq(letter.to_lowercase()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nouns_lose_their_plural() {
        for (plural, one) in [
            ("berries", "berry"),
            ("pies", "pie"),
            ("potatoes", "potato"),
            ("peaches", "peach"),
            ("radishes", "radish"),
            ("leeks", "leek"),
            ("cress", "cress"),
            ("asparagus", "asparagus"),
            ("oca", "oca"),
        ] {
            assert_eq!(singular(plural), one);
        }
    }
}
