//! Letters of one word as the tables have them, and what single characters stand for.

use super::LONGEST;
use crate::phrase::words::{Unit, Word, lookup};
use crate::quantity::Number;

/// Letters of one word, lower case and without accents, on the stack.
pub(super) struct Letters {
    pub(super) buffer: [u8; LONGEST + 1],
    pub(super) len: usize,
    pub(super) apostrophe: Option<usize>,
    pub(super) with: [u8; LONGEST + 2],
    pub(super) too_long: bool,
}

impl Default for Letters {
    fn default() -> Self {
        Self { buffer: [0; LONGEST + 1], len: 0, apostrophe: None, with: [0; LONGEST + 2], too_long: false }
    }
}

impl Letters {
    pub(super) fn push(&mut self, byte: u8) {
        if self.len >= LONGEST {
            self.too_long = true;
            return;
        }
        self.buffer[self.len] = byte;
        self.with[self.len + usize::from(self.apostrophe.is_some())] = byte;
        self.len += 1;
    }

    pub(super) fn apostrophe(&mut self) {
        if self.apostrophe.is_none() && self.len < LONGEST {
            self.with[self.len] = b'\'';
            self.apostrophe = Some(self.len);
        }
    }

    pub(super) fn plain(&self) -> &str {
        std::str::from_utf8(self.buffer.get(..self.len).unwrap_or_default()).unwrap_or_default()
    }

    pub(super) fn written(&self) -> &str {
        std::str::from_utf8(self.with.get(..self.len + 1).unwrap_or_default()).unwrap_or_default()
    }

    pub(super) fn is(&self, word: &str) -> bool {
        self.plain() == word
    }

    /// What stands before `'s`.
    pub(super) fn possessive(&self) -> Option<&str> {
        let at = self.apostrophe?;
        (at + 1 == self.len && self.buffer.get(at) == Some(&b's')).then(|| self.plain().get(..at)).flatten()
    }
}

/// Whether words begin as a further sentence does: with a question word, a verb, or who did it.
pub(super) fn begins_sentence(rest: &str, told: bool) -> bool {
    // `12 lb. 3 lb went bad`; ounces and grams only add to what stands before.
    if let Some(unit) = rest
        .strip_prefix(|c: char| c.is_ascii_digit())
        .map(|rest| rest.trim_start_matches(|c: char| c.is_ascii_digit() || matches!(c, '.' | ' ')))
    {
        let end = unit.find(|c: char| !c.is_ascii_alphabetic()).unwrap_or(unit.len());
        return told && matches!(unit.get(..end).and_then(lookup), Some(Word::Unit(Unit::Pound | Unit::Kilo)));
    }
    let end = rest.find(|c: char| !c.is_ascii_alphabetic()).unwrap_or(rest.len());
    let word = rest.get(..end).and_then(lookup);
    matches!(word, Some(Word::Verb(..)) if told)
        || matches!(
            word,
            Some(Word::Question | Word::First | Word::Kin | Word::Folk | Word::They | Word::Modal | Word::Not)
        )
        || rest.get(..end).is_some_and(|word| {
            matches!(word, "is" | "are" | "any" | "enough" | "then" | "now" | "also" | "another" | "the")
        })
}

pub(super) fn decimal(whole: i64, decimals: &str) -> Number {
    let below = 10_i64.pow(decimals.len().min(6) as u32);
    let part = decimals.parse::<i64>().unwrap_or(0);
    whole
        .checked_mul(below)
        .and_then(|n| n.checked_add(part))
        .and_then(|above| Number::new(above, below))
        .unwrap_or(Number::whole(whole))
}

pub(super) fn fraction(c: char) -> Option<Number> {
    let (above, below) = match c {
        '½' => (1, 2),
        '¼' => (1, 4),
        '¾' => (3, 4),
        '⅓' => (1, 3),
        '⅔' => (2, 3),
        '⅛' => (1, 8),
        '⅜' => (3, 8),
        '⅝' => (5, 8),
        '⅞' => (7, 8),
        '⅕' => (1, 5),
        '⅖' => (2, 5),
        '⅗' => (3, 5),
        '⅘' => (4, 5),
        _ => return None,
    };
    Number::new(above, below)
}

/// Characters that print nothing: joiners, direction marks, variation selectors, byte-order marks.
pub(super) fn is_invisible(c: char) -> bool {
    matches!(c, '\u{200B}'..='\u{200F}' | '\u{202A}'..='\u{202E}' | '\u{2060}'..='\u{206F}' | '\u{FE00}'..='\u{FE0F}' | '\u{FEFF}' | '\u{AD}' | '\u{34F}' | '\u{300}'..='\u{36F}')
}

/// An accented letter without its accent.
pub(super) fn folded(c: char) -> Option<&'static str> {
    Some(match c {
        'à' | 'á' | 'â' | 'ã' | 'ä' | 'å' | 'À' | 'Á' | 'Â' | 'Ã' | 'Ä' | 'Å' => "a",
        'ç' | 'Ç' => "c",
        'è' | 'é' | 'ê' | 'ë' | 'È' | 'É' | 'Ê' | 'Ë' => "e",
        'ì' | 'í' | 'î' | 'ï' | 'Ì' | 'Í' | 'Î' | 'Ï' => "i",
        'ñ' | 'Ñ' => "n",
        'ò' | 'ó' | 'ô' | 'õ' | 'ö' | 'ø' | 'Ò' | 'Ó' | 'Ô' | 'Õ' | 'Ö' | 'Ø' => "o",
        'ù' | 'ú' | 'û' | 'ü' | 'Ù' | 'Ú' | 'Û' | 'Ü' => "u",
        'ý' | 'ÿ' => "y",
        'ß' => "ss",
        'æ' | 'Æ' => "ae",
        'œ' | 'Œ' => "oe",
        _ => return None,
    })
}
