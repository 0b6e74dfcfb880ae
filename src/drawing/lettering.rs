//! The font, and how much room its words take.

use resvg::usvg::fontdb;
use std::sync::{Arc, LazyLock};
use ttf_parser::Face;

/// The family that both weights are of.
pub(crate) const FAMILY: &str = "Inter";

/// The smallest text on a page of [`WIDTH`](super::WIDTH) units: on a phone 65 mm wide its capitals are 1.5 mm high.
pub(super) const SMALL: f64 = 34.0;

static REGULAR: &[u8] = include_bytes!("font/Inter-Regular.otf");
static SEMIBOLD: &[u8] = include_bytes!("font/Inter-SemiBold.otf");

/// How heavy.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Weight {
    /// Text.
    Regular,
    /// Headlines and figures.
    SemiBold,
}

impl Weight {
    pub(crate) const fn css(self) -> u16 {
        match self {
            Self::Regular => 400,
            Self::SemiBold => 600,
        }
    }

    fn face(self) -> Option<&'static Face<'static>> {
        static FACES: LazyLock<[Option<Face<'static>>; 2]> =
            LazyLock::new(|| [REGULAR, SEMIBOLD].map(|bytes| Face::parse(bytes, 0).ok()));
        self.of(&FACES).as_ref()
    }

    /// How wide the letters of European languages are: setting a label tries many sizes.
    fn advances(self) -> &'static [u16] {
        static ADVANCES: LazyLock<[Vec<u16>; 2]> = LazyLock::new(|| {
            let letters = |weight: Weight| match weight.face() {
                Some(face) => ('\0'..'\u{250}').map(|c| advance(face, c)).collect(),
                None => Vec::new(),
            };
            [letters(Weight::Regular), letters(Weight::SemiBold)]
        });
        self.of::<Vec<u16>>(&ADVANCES)
    }

    /// What belongs to this weight of what there is for both.
    const fn of<T>(self, [regular, semibold]: &[T; 2]) -> &T {
        match self {
            Self::Regular => regular,
            Self::SemiBold => semibold,
        }
    }
}

/// Both weights, and no font of the system's.
pub(crate) fn fonts() -> Arc<fontdb::Database> {
    static FONTS: LazyLock<Arc<fontdb::Database>> = LazyLock::new(|| {
        let mut fonts = fontdb::Database::new();
        fonts.load_font_source(fontdb::Source::Binary(Arc::new(REGULAR)));
        fonts.load_font_source(fontdb::Source::Binary(Arc::new(SEMIBOLD)));
        fonts.set_sans_serif_family(FAMILY);
        Arc::new(fonts)
    });
    Arc::clone(&FONTS)
}

/// Words on one line, without what cannot be written: control characters, and letters that the font has no shape for.
pub(crate) fn clean(words: &str) -> String {
    let known = |c: &char| {
        let usual = Weight::Regular.advances().get(*c as usize).is_some_and(|advance| *advance > 0);
        usual || Weight::Regular.face().is_none_or(|face| face.glyph_index(*c).is_some())
    };
    let line: String = words.chars().map(|c| if c.is_whitespace() { ' ' } else { c }).collect();
    let kept: String = line.chars().filter(|c| !c.is_control()).filter(known).collect();
    kept.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// How wide a line of text is, kerning aside, which only makes it narrower.
pub(crate) fn width(words: &str, size: f64, weight: Weight) -> f64 {
    let Some(face) = weight.face() else { return size * 0.6 * words.chars().count() as f64 };
    let known = weight.advances();
    let advance = |c: char| known.get(c as usize).copied().unwrap_or_else(|| advance(face, c));
    let sum: u64 = words.chars().map(|c| u64::from(advance(c))).sum();
    sum as f64 * size / f64::from(face.units_per_em())
}

fn advance(face: &Face<'_>, c: char) -> u16 {
    face.glyph_index(c).and_then(|glyph| face.glyph_hor_advance(glyph)).unwrap_or(0)
}

/// The words if they fit, else as many of their letters as do, with an ellipsis.
pub(crate) fn fit(words: &str, size: f64, weight: Weight, room: f64) -> String {
    let words = clean(words);
    if width(&words, size, weight) <= room {
        return words;
    }
    let mut kept = words;
    while kept.pop().is_some() {
        let cut = format!("{}…", kept.trim_end());
        if width(&cut, size, weight) <= room {
            return cut;
        }
    }
    String::new()
}

/// The words on at most so many lines, broken between words; what does not fit the last one ends in an ellipsis.
pub(crate) fn wrap(words: &str, size: f64, weight: Weight, room: f64, lines: usize) -> Vec<String> {
    let words = clean(words);
    let mut broken: Vec<String> = Vec::new();
    let mut rest = words.split(' ').filter(|word| !word.is_empty()).peekable();
    while rest.peek().is_some() && broken.len() < lines.max(1) {
        let mut line = String::new();
        while let Some(word) = rest.peek() {
            let longer = if line.is_empty() { (*word).to_owned() } else { format!("{line} {word}") };
            let is_last = broken.len() + 1 == lines.max(1);
            if !line.is_empty() && !is_last && width(&longer, size, weight) > room {
                break;
            }
            line = longer;
            rest.next();
        }
        broken.push(fit(&line, size, weight, room));
    }
    broken
}

/// As [`wrap`], its lines about as long as each other.
pub(crate) fn balance(words: &str, size: f64, weight: Weight, room: f64, lines: usize) -> Vec<String> {
    let loose = wrap(words, size, weight, room, lines);
    let is_whole = |lines: &[String]| lines.join(" ") == clean(words);
    let tighter = (5..10).map(|tenths| wrap(words, size, weight, room * f64::from(tenths) / 10.0, lines));
    tighter.into_iter().find(|lines| lines.len() == loose.len() && is_whole(lines)).unwrap_or(loose)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn lines_break_between_words_and_the_last_one_is_cut() {
        let lines = wrap("raw-packed whole tomatoes with no added liquid", 40.0, Weight::Regular, 420.0, 2);
        assert_eq!(lines, ["raw-packed whole", "tomatoes with no ad…"]);
        assert_eq!(clean("jalapeño\n \u{7}salsa 🍅 №1"), "jalapeño salsa №1");
    }

    proptest! {
        #[test]
        fn whatever_is_fitted_fits(words in ".{0,80}", room in 60.0..900.0f64, lines in 1usize..4) {
            prop_assert!(width(&fit(&words, 38.0, Weight::SemiBold, room), 38.0, Weight::SemiBold) <= room);
            let wrapped = wrap(&words, 38.0, Weight::Regular, room, lines);
            prop_assert!(wrapped.len() <= lines);
            prop_assert!(wrapped.iter().all(|line| width(line, 38.0, Weight::Regular) <= room));
        }
    }
}
