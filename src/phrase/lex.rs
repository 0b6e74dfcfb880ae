//! Letters into tokens: words folded to plain lower-case letters, runs of digits, marks; each with its place in the
//! text. No word is known here: what a token means is asked of the `lexicon`.
//!
//! ```text
//! "Froze 3½ lb, jalapeños!"  ->  froze | 3 | ½ | lb | , | jalapenos | !
//! ```
//!
//! Accents go (`jalapeños`, `purée`), typographic marks become plain ones, invisible and direction marks vanish,
//! letters and digits are apart even where nothing stands between them (`7lb`), a possessive or contracted `'s` is a
//! token of its own and other apostrophes are dropped (`didn't` is `didnt`). Time and memory are linear in the text.

use super::endings::{is_elided, is_possessive};
use unicode_normalization::UnicodeNormalization;

/// What a token is made of.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Shape {
    /// Letters.
    Word,
    /// A run of digits: its value, and how many there are.
    Digits(u64, u8),
    /// A fraction in one sign, `½`: above and below the line.
    Vulgar(u8, u8),
    /// Punctuation and signs.
    Mark(Mark),
}

/// Punctuation that means something.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub(super) enum Mark {
    /// `,`
    Comma,
    /// `.`
    Dot,
    /// `!`
    Bang,
    /// `?`
    Question,
    /// `;`
    Semicolon,
    /// `:`
    Colon,
    /// `-` and longer ones.
    Dash,
    /// `/`
    Slash,
    /// `=`
    Equals,
    /// `->`, `→`
    Arrow,
    /// `+`
    Plus,
    /// `&`
    Ampersand,
    /// `@`
    At,
    /// `#`
    Hash,
    /// `×`, `*`
    Times,
    /// `~`
    Tilde,
    /// A sign of money.
    Money,
    /// `%`
    Percent,
    /// `°`
    Degree,
    /// An opening or closing bracket.
    Bracket,
    /// A quotation mark.
    Quote,
    /// The end of a line.
    Line,
    /// A picture or anything else.
    Other,
}

/// One token.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Token {
    /// What it is made of.
    pub(super) shape: Shape,
    /// Where it begins in the text, in bytes.
    pub(super) from: u32,
    /// Where it ends.
    pub(super) to: u32,
    /// Where its folded letters begin in [`Lexed::folded`].
    folded_from: u32,
    folded_to: u32,
    /// Nothing stands between it and the token before.
    pub(super) glued: bool,
    /// It begins with a capital.
    pub(super) capital: bool,
}

impl Token {
    /// Whether it is this mark.
    pub(super) fn is(&self, mark: Mark) -> bool {
        self.shape == Shape::Mark(mark)
    }
}

/// The tokens of a text.
#[derive(Clone, Debug, Default)]
pub(super) struct Lexed {
    /// In order.
    pub(super) tokens: Vec<Token>,
    /// The folded letters and digits of all of them.
    folded: String,
}

impl Lexed {
    /// The folded letters of a token; its sign for a mark.
    pub(super) fn folded(&self, token: &Token) -> &str {
        self.folded.get(token.folded_from as usize..token.folded_to as usize).unwrap_or_default()
    }

    /// Makes two tokens of a word, the first of so many letters.
    pub(super) fn split(&mut self, at: usize, letters: u32) {
        let Some(token) = self.tokens.get_mut(at) else { return };
        let (mut first, mut second) = (*token, *token);
        (first.to, first.folded_to) = (token.from + letters, token.folded_from + letters);
        (second.from, second.folded_from, second.capital, second.glued) = (first.to, first.folded_to, false, false);
        *token = first;
        self.tokens.insert(at + 1, second);
    }
}

/// All tokens of a text.
pub(super) fn lex(text: &str) -> Lexed {
    let mut lexer = Lexer { out: Lexed::default(), from: 0, kind: None, folded_from: 0, capital: false, space: true };
    lexer.out.tokens.reserve(text.len() / 4 + 2);
    lexer.out.folded.reserve(text.len() + 8);
    let mut letters = text.char_indices().peekable();
    while let Some((at, c)) = letters.next() {
        let next = letters.peek().map(|(_, next)| *next);
        lexer.step(at, c, next);
    }
    lexer.end(text.len());
    lexer.out
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Run {
    Letters,
    Digits,
}

struct Lexer {
    out: Lexed,
    /// Where the run that is being read began.
    from: usize,
    kind: Option<Run>,
    folded_from: usize,
    capital: bool,
    /// A space stands before what comes next.
    space: bool,
}

impl Lexer {
    fn step(&mut self, at: usize, c: char, next: Option<char>) {
        match c {
            _ if c.is_ascii_alphabetic() => self.letter(at, c),
            '0'..='9' => self.digit(at, c),
            '\'' | '\u{2019}' | '\u{2018}' | '\u{2b9}' | '`' => self.apostrophe(at, c, next),
            _ if is_invisible(c) => {}
            _ if c.is_whitespace() => {
                self.end(at);
                if matches!(c, '\n' | '\r') && !self.out.tokens.last().is_some_and(|last| last.is(Mark::Line)) {
                    self.push(Shape::Mark(Mark::Line), at, at + c.len_utf8());
                }
                self.space = true;
            }
            _ => self.other(at, c, next),
        }
    }

    fn letter(&mut self, at: usize, c: char) {
        self.run(Run::Letters, at, c.is_uppercase());
        if c.is_ascii() {
            self.out.folded.push(c.to_ascii_lowercase());
        } else {
            self.out.folded.extend(c.nfkd().filter(|c| c.is_alphanumeric()).flat_map(char::to_lowercase));
        }
    }

    fn digit(&mut self, at: usize, c: char) {
        self.run(Run::Digits, at, false);
        self.out.folded.push(c);
    }

    fn run(&mut self, kind: Run, at: usize, capital: bool) {
        if self.kind != Some(kind) {
            self.end(at);
            self.kind = Some(kind);
            self.from = at;
            self.folded_from = self.out.folded.len();
            self.capital = capital;
        }
    }

    /// `mary's` is two tokens, `didn't` one; elsewhere the sign is a quotation mark or a slip of the thumb.
    fn apostrophe(&mut self, at: usize, c: char, next: Option<char>) {
        let inside = self.kind == Some(Run::Letters) && next.is_some_and(char::is_alphabetic);
        let owns = next.is_some_and(is_possessive);
        let run = self.out.folded.get(self.folded_from..).unwrap_or_default();
        if inside && is_elided(run) {
            // `t'allotment`, `l'ail`: the article that is left of it says nothing.
            self.out.folded.truncate(self.folded_from);
            self.from = at + c.len_utf8();
        } else if owns && (inside || self.kind == Some(Run::Digits)) {
            self.end(at);
            self.kind = Some(Run::Letters);
            self.from = at;
            self.folded_from = self.out.folded.len();
            self.capital = false;
            self.out.folded.push('\'');
        } else if self.kind == Some(Run::Digits) {
            // `10'` are feet.
            self.end(at);
            self.push(Shape::Mark(Mark::Quote), at, at + c.len_utf8());
        }
    }

    fn other(&mut self, at: usize, c: char, next: Option<char>) {
        if let Some((above, below)) = vulgar(c) {
            self.end(at);
            return self.push(Shape::Vulgar(above, below), at, at + c.len_utf8());
        }
        if c.is_alphabetic() && !c.is_ascii() {
            return self.letter(at, c);
        }
        let before = self.kind;
        self.end(at);
        let dash = |last: &mut Token| c == '>' && last.is(Mark::Dash) && last.to as usize == at;
        if let Some(dash) = self.out.tokens.pop_if(dash) {
            return self.push(Shape::Mark(Mark::Arrow), dash.from as usize, at + c.len_utf8());
        }
        let mark = mark_of(c, next);
        if mark == Mark::Other && before.is_none() && !is_picture(c) {
            return;
        }
        self.push(Shape::Mark(mark), at, at + c.len_utf8());
        if let Some(token) = self.out.tokens.last_mut().filter(|_| mark == Mark::Other) {
            token.folded_from = self.out.folded.len() as u32;
            self.out.folded.push(c);
            token.folded_to = self.out.folded.len() as u32;
        }
    }

    fn end(&mut self, at: usize) {
        let Some(kind) = self.kind.take() else { return };
        let folded = self.out.folded.get(self.folded_from..).unwrap_or_default();
        let shape = match kind {
            Run::Letters => Shape::Word,
            Run::Digits => {
                let value = folded.parse().unwrap_or(u64::MAX);
                Shape::Digits(value, u8::try_from(folded.len()).unwrap_or(u8::MAX))
            }
        };
        let (from, capital, folded_from) = (self.from, self.capital, self.folded_from);
        self.push(shape, from, at);
        let end = self.out.folded.len() as u32;
        if let Some(token) = self.out.tokens.last_mut() {
            (token.folded_from, token.folded_to, token.capital) = (folded_from as u32, end, capital);
        }
    }

    fn push(&mut self, shape: Shape, from: usize, to: usize) {
        let glued = !self.space && !self.out.tokens.is_empty();
        self.space = false;
        self.out.tokens.push(Token {
            shape,
            from: from as u32,
            to: to as u32,
            folded_from: 0,
            folded_to: 0,
            glued,
            capital: false,
        });
    }
}

fn mark_of(c: char, next: Option<char>) -> Mark {
    match c {
        ',' | '\u{60c}' => Mark::Comma,
        '.' | '\u{2026}' => Mark::Dot,
        '!' => Mark::Bang,
        '?' => Mark::Question,
        ';' => Mark::Semicolon,
        ':' => Mark::Colon,
        '-' | '\u{2010}'..='\u{2015}' | '\u{2212}' => Mark::Dash,
        '/' | '\u{2044}' => Mark::Slash,
        '=' if next != Some('>') => Mark::Equals,
        '\u{2192}' | '\u{21d2}' | '>' => Mark::Arrow,
        '+' => Mark::Plus,
        '&' => Mark::Ampersand,
        '@' => Mark::At,
        '#' => Mark::Hash,
        '\u{d7}' | '*' => Mark::Times,
        '~' | '\u{2248}' => Mark::Tilde,
        '$' | '\u{a3}' | '\u{20ac}' => Mark::Money,
        '%' => Mark::Percent,
        '\u{b0}' => Mark::Degree,
        '(' | ')' | '[' | ']' => Mark::Bracket,
        '"' | '\u{201c}' | '\u{201d}' | '\u{ab}' | '\u{bb}' => Mark::Quote,
        _ => Mark::Other,
    }
}

/// Direction marks, joiners, variation selectors and controls: they are not seen, so they change nothing.
fn is_invisible(c: char) -> bool {
    let control = matches!(c, '\u{0}'..='\u{8}' | '\u{e}'..='\u{1f}' | '\u{7f}');
    let direction = matches!(c, '\u{202a}'..='\u{202e}' | '\u{2060}'..='\u{206f}');
    let joiner = matches!(c, '\u{ad}' | '\u{200b}'..='\u{200f}' | '\u{feff}');
    let variation = matches!(c, '\u{fe00}'..='\u{fe0f}' | '\u{1f3fb}'..='\u{1f3ff}' | '\u{e0000}'..='\u{e007f}');
    control || direction || joiner || variation || unicode_normalization::char::is_combining_mark(c)
}

fn is_picture(c: char) -> bool {
    matches!(u32::from(c), 0x2190..=0x2bff | 0x1f000..=0x1faff)
}

/// A fraction in one sign, as its compatibility form has it: `1⁄2`.
fn vulgar(c: char) -> Option<(u8, u8)> {
    let mut over = 0_u8;
    let mut below = None;
    for c in Some(c).filter(|c| !c.is_ascii()).into_iter().nfkd() {
        match c.to_digit(10) {
            Some(digit) => {
                let part = below.as_mut().unwrap_or(&mut over);
                *part = part.checked_mul(10)?.checked_add(digit as u8)?;
            }
            None if c == '\u{2044}' && below.is_none() => below = Some(0),
            None => return None,
        }
    }
    below.map(|below| (over, below)).filter(|(over, below)| *over > 0 && *below > 0)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn folded(text: &str) -> Vec<String> {
        let lexed = lex(text);
        lexed
            .tokens
            .iter()
            .map(|token| match token.shape {
                Shape::Mark(_) => text.get(token.from as usize..token.to as usize).unwrap_or_default().to_owned(),
                Shape::Vulgar(above, below) => format!("{above}/{below}"),
                _ => lexed.folded(token).to_owned(),
            })
            .collect()
    }

    #[test]
    fn letters_digits_and_marks_are_apart() {
        for (text, wanted) in [
            ("Froze 3½ lb, jalapeños!", "froze 3 1/2 lb , jalapenos !"),
            ("3lb4oz", "3 lb 4 oz"),
            ("didn't grandma's heat’s", "didnt grandma 's heat 's"),
            ("2x7.5lb", "2 x 7 . 5 lb"),
            ("12 lb -> 5 pints", "12 lb -> 5 pints"),
            ("20#", "20 #"),
            ("ripe 🍅🍅", "ripe 🍅 🍅"),
            ("fro\u{200b}ze \u{202e}7", "froze 7"),
        ] {
            assert_eq!(folded(text).join(" "), wanted, "{text}");
        }
    }

    #[test]
    fn spans_are_places_in_the_text() {
        let text = "é 7 lb";
        let spans: Vec<_> =
            lex(text).tokens.iter().map(|t| text.get(t.from as usize..t.to as usize).unwrap_or_default()).collect();
        assert_eq!(spans, ["é", "7", "lb"]);
    }
}
