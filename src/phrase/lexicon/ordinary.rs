//! The ordinary words of the language: a word that is one of them was not mistyped. A sorted list, searched where it
//! lies: it costs nothing at the start of the program.

/// One word a line, sorted by bytes; from the word lists named in `english/ordinary.licence.txt`.
const WORDS: &str = include_str!("../english/ordinary.txt");

/// Whether it is an ordinary word.
pub(in super::super) fn has(word: &str) -> bool {
    let bytes = WORDS.as_bytes();
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
}
