//! The ordinary words of the language: a word that is one of them was not mistyped. A sorted list, searched where it
//! lies: it costs nothing at the start of the program.

/// One word a line, sorted by bytes; from the word lists named in `english/ordinary.licence.txt`.
const WORDS: &str = include_str!("../english/ordinary.txt");

/// Those of them that may tell of what is in a jar, of the jar, or of how it was made or heated: food and drink,
/// plants and animals, ways to prepare and to keep, vessels, states, amounts, changes. Each word of the list was judged
/// for it.
const RELEVANT: &str = include_str!("../english/relevant.txt");

/// Whether it is an ordinary word.
pub(in super::super) fn has(word: &str) -> bool {
    is_line_of(WORDS, word)
}

/// Whether it is an ordinary word that can have to do with no jar: `umbrella`, `laughed`.
pub(in super::super) fn is_beside(word: &str) -> bool {
    has(word) && !is_line_of(RELEVANT, word)
}

fn is_line_of(list: &str, word: &str) -> bool {
    let bytes = list.as_bytes();
    let (mut low, mut high) = (0, bytes.len());
    while low < high {
        let middle = low + (high - low) / 2;
        let from =
            bytes.get(low..middle).and_then(|head| head.iter().rposition(|b| *b == b'\n')).map_or(low, |n| low + n + 1);
        let line = bytes.get(from..high).unwrap_or_default();
        let line = line.get(..line.iter().position(|b| *b == b'\n').unwrap_or(line.len())).unwrap_or_default();
        match line.cmp(word.as_bytes()) {
            std::cmp::Ordering::Equal => return true,
            std::cmp::Ordering::Less => low = from + line.len() + 1,
            std::cmp::Ordering::Greater => high = from,
        }
    }
    false
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_word_of_the_list_is_found_and_no_other() {
        assert!(WORDS.lines().collect::<Vec<_>>().is_sorted());
        for word in WORDS.lines() {
            assert!(has(word), "{word}");
        }
        for word in ["", "frozr", "zzz", "aa", "tomatos", "a\nb"] {
            assert!(!has(word), "{word}");
        }
    }

    #[test]
    fn what_may_be_in_a_jar_is_not_beside_it() {
        assert!(RELEVANT.lines().collect::<Vec<_>>().is_sorted());
        assert!(RELEVANT.lines().all(has));
        for word in ["cinnamon", "poached", "leftover", "cracked", "skipped", "zzz"] {
            assert!(!is_beside(word), "{word}");
        }
        for word in ["umbrella", "laughed", "cousin"] {
            assert!(is_beside(word), "{word}");
        }
    }
}
