//! Letters into tokens, once and in one pass: case, accents, invisible characters and emoji are dropped here, numbers
//! are read, and a word is looked up or, when no table knows it, taken for a mistyped one.

mod letters;

use super::{
    token::{Mark, Sense, Token, Written, key, key_of, one_of},
    typo,
    words::{Word, contracted, lookup},
};
use crate::quantity::Number;
use chrono::NaiveDate;
use letters::{Letters, begins_sentence, decimal, folded, fraction, is_invisible};

/// Longest word that is looked up; nothing in the tables is longer.
pub(super) const LONGEST: usize = 24;

/// All tokens of a text.
pub(super) fn lex(text: &str) -> Vec<Token> {
    let mut lexer =
        Lexer { text, bytes: text.as_bytes(), at: 0, out: Vec::with_capacity(text.len() / 4 + 4), space: true };
    while lexer.at < lexer.bytes.len() {
        lexer.step();
    }
    lexer.out
}

struct Lexer<'a> {
    text: &'a str,
    bytes: &'a [u8],
    at: usize,
    out: Vec<Token>,
    space: bool,
}

impl Lexer<'_> {
    fn byte(&self, at: usize) -> u8 {
        self.bytes.get(at).copied().unwrap_or(0)
    }

    fn digit(&self, at: usize) -> bool {
        self.byte(at).is_ascii_digit()
    }

    fn char(&self, at: usize) -> Option<char> {
        let byte = self.byte(at);
        if byte.is_ascii() { (byte != 0).then_some(char::from(byte)) } else { self.text.get(at..)?.chars().next() }
    }

    fn push(&mut self, sense: Sense, key: u64, from: usize) {
        let glued = !self.space;
        self.space = false;
        self.out.push(Token { sense, key, from: from as u32, to: self.at as u32, glued });
    }

    fn step(&mut self) {
        let from = self.at;
        let byte = self.byte(from);
        match byte {
            b'\n' | b'\r' => {
                self.at += 1;
                if !self.out.last().is_some_and(|token| token.is_mark(Mark::Line)) {
                    self.push(Sense::Mark(Mark::Line), 0, from);
                }
                self.space = true;
            }
            b' ' | b'\t' => {
                self.at += 1;
                self.space = true;
            }
            b'0'..=b'9' => self.number(),
            b'a'..=b'z' | b'A'..=b'Z' => self.word(),
            b'.' if self.digit(from + 1) && self.space => self.number(),
            _ if byte.is_ascii() => self.punctuation(byte),
            _ => self.beyond_ascii(),
        }
    }

    fn punctuation(&mut self, byte: u8) {
        let from = self.at;
        self.at += 1;
        let spaced = self.space || matches!(self.byte(self.at), b' ' | 0);
        let mark = match byte {
            b',' => Mark::Comma,
            b'.' if self.after_abbreviation() => return,
            b'.' => Mark::Dot,
            b'!' => Mark::Bang,
            b'?' => Mark::Quest,
            b';' => Mark::Semi,
            b':' if matches!(self.byte(self.at), b'(' | b')' | b'-' | b'D' | b'P' | b'/') => {
                // A face made of punctuation.
                self.at += 1 + usize::from(self.byte(self.at) == b'-');
                self.at = self.at.min(self.bytes.len());
                while !self.text.is_char_boundary(self.at) {
                    self.at += 1;
                }
                return;
            }
            b':' => Mark::Colon,
            b'-' if self.byte(self.at) == b'>' => {
                self.at += 1;
                Mark::Arrow
            }
            b'=' if self.byte(self.at) == b'>' => {
                self.at += 1;
                Mark::Arrow
            }
            b'-' if self.space && self.digit(self.at) && self.minus_sign() => return self.negative(),
            b'-' if spaced => Mark::Dash,
            b'-' => Mark::Hyphen,
            b'/' => Mark::Slash,
            b'=' => Mark::Equals,
            // `20+ lb`
            b'+' if !self.space
                && !self.digit(self.at)
                && matches!(self.out.last().map(|t| t.sense), Some(Sense::Num(_))) =>
            {
                return;
            }
            b'+' => Mark::Plus,
            b'&' => Mark::And,
            b'@' => Mark::At,
            b'#' => Mark::Hash,
            b'<' if spaced => return self.push(Sense::Word(Word::Link), const { key("below") }, from),
            b'*' => Mark::Times,
            b'$' => Mark::Money,
            b'%' => Mark::Percent,
            b'\'' | b'"' | b'`' | b'~' | b'_' => return,
            _ => Mark::Other,
        };
        self.push(Sense::Mark(mark), 0, from);
        self.space = false;
    }

    /// Whether the dot that was just passed belongs to an abbreviation rather than ending a sentence.
    fn after_abbreviation(&self) -> bool {
        let short = self.out.last().is_some_and(|token| {
            token.to as usize + 1 == self.at
                && match token.sense {
                    Sense::Word(Word::Unit(_) | Word::Month(_) | Word::Weekday(_)) => token.to - token.from <= 4,
                    Sense::Word(_) => super::token::one_of!(token.key, "approx" | "st" | "no" | "vs" | "mr" | "mrs"),
                    _ => false,
                }
        });
        let unit = self
            .out
            .last()
            .is_some_and(|t| matches!(t.sense, Sense::Word(Word::Unit(_) | Word::Month(_) | Word::Weekday(_))));
        let rest = self.text.get(self.at..).unwrap_or_default().trim_start_matches(' ');
        short
            && rest.chars().next().is_some_and(|c| !c.is_uppercase() && c != '\n')
            && !(unit && begins_sentence(rest, self.told()))
    }

    /// Whether a verb stands among the last words.
    fn told(&self) -> bool {
        self.out.iter().rev().take(12).any(|token| matches!(token.sense, Sense::Word(Word::Verb(..))))
    }

    /// A dash before a digit is a sign only behind a word that awaits a number.
    fn minus_sign(&self) -> bool {
        let mut behind = self.out.iter().rev();
        let is = |token: &&Token| {
            token.is_mark(Mark::Colon) || token.is_mark(Mark::Equals) || one_of!(token.key, "is" | "of" | "at")
        };
        match behind.next().filter(|last| !is(last)).or_else(|| behind.next()) {
            Some(Token { key, .. }) if one_of!(*key, "altitude" | "alt" | "elevation") => true,
            _ => matches!(self.out.last().map(|token| token.sense), Some(Sense::Word(Word::Verb(..)))),
        }
    }

    fn negative(&mut self) {
        self.number();
        if let Some(token) = self.out.last_mut()
            && let Sense::Num(number) = token.sense
        {
            let minus = number.checked_mul(Number::whole(-1)).unwrap_or(number);
            token.sense = Sense::Num(minus);
        }
    }

    fn digits(&mut self) -> (usize, usize) {
        let from = self.at;
        while self.digit(self.at) {
            self.at += 1;
        }
        (from, self.at)
    }

    fn value(&self, (from, to): (usize, usize)) -> i64 {
        // Nothing in a household has more than twelve digits; longer is kept absurd, not wrapped.
        let digits = self.text.get(from..to).unwrap_or_default().trim_start_matches('0');
        if digits.len() > 12 { 999_999_999_999 } else { digits.parse().unwrap_or(0) }
    }

    fn number(&mut self) {
        let start = self.at;
        let whole = self.digits();
        let n = self.value(whole);
        let sense = match self.byte(self.at) {
            b':' if self.digit(self.at + 1) && self.digit(self.at + 2) && !self.digit(self.at + 3) && n <= 24 => {
                self.at += 1;
                let minutes = self.digits();
                Sense::Clock(n as u32, self.value(minutes).min(59) as u32)
            }
            b'/' if self.digit(self.at + 1) => self.written_date(whole).unwrap_or_else(|| self.ratio(n)),
            b'-' if whole.1 - whole.0 == 4 => self.iso_date(n).unwrap_or(Sense::Num(Number::whole(n))),
            b'.' if self.digit(self.at + 1) => self.written_date(whole).unwrap_or_else(|| self.decimals(n)),
            b',' if self.digit(self.at + 1) => self.comma(whole, n),
            _ => self.ordinal(n).unwrap_or(Sense::Num(Number::whole(n))),
        };
        self.push(sense, 0, start);
    }

    fn ratio(&mut self, above: i64) -> Sense {
        self.at += 1;
        let below = self.digits();
        let narrow = |n: i64| u32::try_from(n).unwrap_or(u32::MAX);
        Sense::Ratio(narrow(above), narrow(self.value(below)))
    }

    fn decimals(&mut self, whole: i64) -> Sense {
        self.at += 1;
        let (from, to) = self.digits();
        Sense::Num(decimal(whole, self.text.get(from..to.min(from + 6)).unwrap_or_default()))
    }

    /// A comma between digits: a decimal comma, or thousands when three digits follow.
    fn comma(&mut self, first: (usize, usize), n: i64) -> Sense {
        self.at += 1;
        let (from, to) = self.digits();
        let decimals = decimal(n, self.text.get(from..to.min(from + 6)).unwrap_or_default());
        if to - from != 3 || n == 0 || first.1 - first.0 > 3 {
            return Sense::Num(decimals);
        }
        let mut thousands = n * 1000 + self.value((from, to));
        while self.byte(self.at) == b','
            && self.digit(self.at + 1)
            && self.digit(self.at + 2)
            && self.digit(self.at + 3)
            && !self.digit(self.at + 4)
        {
            self.at += 1;
            let group = self.digits();
            thousands = thousands.saturating_mul(1000).saturating_add(self.value(group)).min(999_999_999_999);
        }
        Sense::Grouped(Number::whole(thousands), decimals)
    }

    fn iso_date(&mut self, year: i64) -> Option<Sense> {
        let at = self.at;
        let two = |at: usize| -> Option<u32> {
            (self.digit(at) && self.digit(at + 1)).then(|| self.value((at, at + 2)) as u32)
        };
        if self.byte(at + 3) != b'-' || self.digit(at + 6) {
            return None;
        }
        let date = NaiveDate::from_ymd_opt(i32::try_from(year).ok()?, two(at + 1)?, two(at + 4)?)?;
        self.at = at + 6;
        Some(Sense::Date(date))
    }

    /// `8/12/2026`, `12.8.26`: two numbers of a day and its month, and a year of two or four digits.
    fn written_date(&mut self, first: (usize, usize)) -> Option<Sense> {
        let mark = self.byte(self.at);
        let run = |from: usize| (from, (from..).find(|at| !self.digit(*at)).unwrap_or(from));
        let second = run(self.at + 1);
        let year = run(second.1 + 1);
        let digits = |(from, to): (usize, usize)| to - from;
        let ends = !(self.byte(year.1) == mark && self.digit(year.1 + 1));
        let fits = (1..=2).contains(&digits(first)) && digits(second) <= 2 && matches!(digits(year), 2 | 4);
        if self.byte(second.1) != mark || !fits || !ends {
            return None;
        }
        let century = if digits(year) == 2 { 2000 } else { 0 };
        let small = |run| u32::try_from(self.value(run)).ok().filter(|n| (1..=31).contains(n));
        let date = Written {
            first: small(first)?,
            second: small(second)?,
            year: i32::try_from(century + self.value(year)).ok().filter(|year| (1990..=2100).contains(year))?,
            dots: mark == b'.',
        };
        self.at = year.1;
        Some(Sense::Written(date))
    }

    fn ordinal(&mut self, n: i64) -> Option<Sense> {
        let suffix = [self.byte(self.at).to_ascii_lowercase(), self.byte(self.at + 1).to_ascii_lowercase()];
        let fits = matches!(&suffix, b"st" | b"nd" | b"rd" | b"th")
            && !self.byte(self.at + 2).is_ascii_alphanumeric()
            && (1..=99).contains(&n);
        fits.then(|| {
            self.at += 2;
            Sense::Ordinal(n as u32)
        })
    }

    fn beyond_ascii(&mut self) {
        let from = self.at;
        let Some(c) = self.char(from) else {
            self.at += 1;
            return;
        };
        if c.is_alphabetic() && folded(c).is_some() {
            return self.word();
        }
        self.at += c.len_utf8();
        let sense = match c {
            _ if is_invisible(c) => return,
            '−' if self.space && self.digit(self.at) && self.minus_sign() => return self.negative(),
            '–' | '—' | '−' => {
                Sense::Mark(if self.space || self.byte(self.at) == b' ' { Mark::Dash } else { Mark::Hyphen })
            }
            '×' | '✕' => Sense::Mark(Mark::Times),
            '→' => Sense::Mark(Mark::Arrow),
            '£' | '€' | '¢' => Sense::Mark(Mark::Money),
            '°' | 'º' => Sense::Mark(Mark::Degree),
            '…' => Sense::Mark(Mark::Comma),
            '’' | '‘' | '“' | '”' | '´' | 'ʼ' => return,
            _ if c.is_alphabetic() => {
                while let Some(next) = self.char(self.at).filter(|next| next.is_alphabetic()) {
                    self.at += next.len_utf8();
                }
                Sense::Unknown
            }
            _ => match fraction(c) {
                Some(number) => Sense::Fraction(number),
                None => {
                    self.space = true;
                    return;
                }
            },
        };
        self.push(sense, 0, from);
    }

    /// A word: letters with apostrophes inside; behind a number only letters (`6lb8oz`).
    fn word(&mut self) {
        let start = self.at;
        let after_number = !self.space
            && matches!(self.out.last(), Some(t) if !matches!(t.sense, Sense::Word(_) | Sense::Unknown | Sense::Mark(_)));
        let mut letters = Letters::default();
        let mut split = None;
        while let Some(c) = self.char(self.at) {
            match c {
                'a'..='z' | 'A'..='Z' => letters.push(c.to_ascii_lowercase() as u8),
                '0'..='9' if after_number => break,
                '0'..='9' => {
                    split = split.or(Some(self.at));
                    letters.push(c as u8);
                }
                '\'' | '’' | 'ʼ' | '`' | '´' => {
                    if !self.char(self.at + c.len_utf8()).is_some_and(char::is_alphabetic) {
                        break;
                    }
                    letters.apostrophe();
                }
                _ if is_invisible(c) => {}
                _ => match folded(c) {
                    Some(bytes) => bytes.bytes().for_each(|b| letters.push(b)),
                    None if c.is_alphabetic() => letters.push(b'?'),
                    None => break,
                },
            }
            self.at += c.len_utf8();
        }
        if letters.is("a") | letters.is("p")
            && self.byte(self.at) == b'.'
            && matches!(self.byte(self.at + 1), b'm' | b'M')
        {
            self.at += 2;
            letters.push(b'm');
            if self.byte(self.at) == b'.' {
                self.at += 1;
            }
        }
        self.look_up(start, &letters, split);
    }

    fn look_up(&mut self, start: usize, letters: &Letters, split: Option<usize>) {
        let plain = letters.plain();
        if letters.apostrophe.is_some()
            && let Some(word) = lookup(letters.written())
        {
            return self.push(Sense::Word(word), key(letters.written()), start);
        }
        if let Some(base) = contracted(plain).or_else(|| letters.possessive().filter(|base| lookup(base).is_some())) {
            return self.with_is(start, base);
        }
        if let Some(word) = lookup(plain) {
            return self.push(Sense::Word(word), key(plain), start);
        }
        if let Some(split) = split {
            // `bed3`, `x7lb`: letters, then a number of its own.
            let head = plain.find(|c: char| c.is_ascii_digit()).and_then(|at| plain.get(..at)).unwrap_or_default();
            if let Some(word) = lookup(head) {
                self.at = split;
                return self.push(Sense::Word(word), key(head), start);
            }
        }
        if let Some(base) = letters.possessive() {
            return self.with_is(start, base);
        }
        if letters.too_long || split.is_some() {
            return self.push(Sense::Unknown, key_of(plain.as_bytes()), start);
        }
        match typo::nearest(plain) {
            Some((right, word)) => self.push(Sense::Word(word), key(right), start),
            None => self.push(Sense::Unknown, key(plain), start),
        }
    }

    /// `heat's`, `heats`: the noun and an `is` (or a possessive) behind it.
    fn with_is(&mut self, start: usize, base: &str) {
        let sense =
            lookup(base).or_else(|| typo::nearest(base).map(|(_, word)| word)).map_or(Sense::Unknown, Sense::Word);
        self.push(sense, key(base), start);
        self.push(Sense::Word(Word::Is), const { key("'s") }, start);
    }
}
