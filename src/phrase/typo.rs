//! Mistyped words. Only a word that no table knows comes here, and it is read as a word of the trade only when the
//! first letter agrees and one slip (two in a long word) explains it, or when it is that word without its vowels.

use super::words::{KEYWORDS, Word, lookup};

/// The word of the trade that was most likely meant.
pub(super) fn nearest(word: &str) -> Option<(&'static str, Word)> {
    let bytes = word.as_bytes();
    if bytes.len() < 3 || bytes.len() > 14 || !bytes.iter().all(u8::is_ascii_lowercase) {
        return None;
    }
    let first = bytes[0];
    let from = KEYWORDS.partition_point(|right| right.as_bytes()[0] < first);
    let slips = if bytes.len() >= 7 { 2 } else { 1 };
    let mask = letters(bytes);
    let bare = !bytes.iter().any(|b| is_vowel(*b));
    let mut best: Option<(usize, usize)> = None;
    for (at, right) in KEYWORDS.iter().enumerate().skip(from).take_while(|(_, right)| right.as_bytes()[0] == first) {
        if bare {
            if same_skeleton(bytes, right.as_bytes()) {
                return lookup(right).map(|sense| (*right, sense));
            }
            continue;
        }
        let allowed = if right.len() >= 8 { slips } else { 1 };
        if bytes.len() < 4
            || bytes.len().abs_diff(right.len()) > allowed
            || (mask ^ MASKS[at]).count_ones() as usize > 2 * allowed
        {
            continue;
        }
        let distance = strsim::osa_distance(word, right);
        if distance <= allowed && best.is_none_or(|(least, _)| distance < least) && !is_chance(bytes, right.as_bytes())
        {
            best = Some((distance, at));
        }
    }
    let right = KEYWORDS.get(best?.1)?;
    lookup(right).map(|sense| (*right, sense))
}

/// A four-letter word one letter away from another four-letter word is more likely a word of its own, unless the
/// letters are the same in another order.
fn is_chance(word: &[u8], right: &[u8]) -> bool {
    word.len() == 4 && right.len() <= 4 && letters(word) != letters(right)
}

static MASKS: [u32; KEYWORDS.len()] = {
    let mut masks = [0; KEYWORDS.len()];
    let mut at = 0;
    while at < masks.len() {
        masks[at] = letters(KEYWORDS[at].as_bytes());
        at += 1;
    }
    masks
};

/// Which letters occur.
const fn letters(word: &[u8]) -> u32 {
    let mut mask = 0;
    let mut at = 0;
    while at < word.len() {
        mask |= 1 << (word[at].wrapping_sub(b'a') & 31);
        at += 1;
    }
    mask
}

const fn is_vowel(byte: u8) -> bool {
    matches!(byte, b'a' | b'e' | b'i' | b'o' | b'u')
}

/// Whether a word without vowels has just the consonants of `right`, doubled ones counted once.
fn same_skeleton(word: &[u8], right: &[u8]) -> bool {
    let mut rest = word.iter().copied().peekable();
    let mut last = 0;
    for &byte in right.iter().filter(|byte| !is_vowel(**byte)) {
        if byte == last && rest.peek() != Some(&byte) {
            continue;
        }
        if rest.next() != Some(byte) {
            return false;
        }
        last = byte;
    }
    rest.next().is_none()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn slips_are_mended_and_ordinary_words_left_alone() {
        for (slip, right) in [
            ("frozr", "froze"),
            ("quaterd", "quartered"),
            ("pikced", "picked"),
            ("thwaing", "thawing"),
            ("drianed", "drained"),
            ("hrvstd", "harvested"),
            ("startng", "starting"),
            ("qrtrd", "quartered"),
            ("bougth", "bought"),
            ("tommatoes", "tomatoes"),
        ] {
            assert_eq!(nearest(slip).map(|(word, _)| word), Some(right), "{slip}");
        }
        for word in ["zebra", "kicked", "fro", "cats"] {
            assert_eq!(nearest(word), None, "{word}");
        }
    }

    #[test]
    fn keywords_are_sorted_and_known() {
        assert!(KEYWORDS.is_sorted());
        for word in KEYWORDS {
            assert!(lookup(word).is_some(), "{word}");
        }
    }
}
