//! A message cut into items: values, names and single words, each with all that it may mean. Where cuts differ, the one
//! with the fewest and best-known items is taken; what an item means is left open.

use super::household::Household;
use super::lex::{Lexed, Mark, Shape, lex};
use super::lexicon::sense::{Class, Meaning, Sense};
use super::lexicon::{Hit, Spellings, WordId, Words, ordinary};
use super::listed::listed;
use super::value::input::{Kept, Known};
use super::value::{Ending, Value, values_at};
use crate::quantity::Mass;
use crate::vocabulary::Jar;
use smallvec::SmallVec;

/// At most so many items of a message are read together: sentences beyond that are read without the others.
pub(super) const MOST: usize = 2_048;

/// One item.
#[derive(Clone, Debug)]
pub(super) struct Item {
    /// Its first token and the one behind its last.
    pub(super) from: u32,
    pub(super) to: u32,
    /// The senses of the name that it is.
    pub(super) senses: SmallVec<[Hit; 4]>,
    /// The values that it may be.
    pub(super) values: SmallVec<[Value; 2]>,
    /// What kind of word it is by itself.
    pub(super) kind: WordKind,
    /// The word, where it is a single one.
    pub(super) word: WordId,
    /// It is a mark.
    pub(super) mark: Option<Mark>,
    /// Whether it begins with a capital.
    pub(super) capital: bool,
    /// Whether it counts only if a word of it was mistyped.
    pub(super) repaired: bool,
    /// Of a product's name of several words the words by themselves: `crushed` and `tomatoes`.
    pub(super) parts: Option<Box<[Item]>>,
}

listed! {
    /// What kind of word an item is, for those that end up unaccounted.
    #[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
    pub(super) enum WordKind {
        /// A figure, a day or the like.
        Value,
        /// Articles, prepositions, pronouns, courtesies.
        Small,
        /// Whose doing, whether real.
        Voice,
        /// Changes nothing: size, age, praise.
        Harmless,
        /// A thing that is no business of a ledger.
        Alien,
        /// A deed.
        Deed,
        /// A thing of the trade: crop, product, place, gear.
        Trade,
        /// An ordinary word.
        Ordinary,
        /// A word that no list has: a name, another language, a slip.
        Strange,
        /// Punctuation.
        Mark,
    }
}

impl Item {
    /// Whether it has a sense of the class.
    pub(super) fn is(&self, class: Class) -> bool {
        self.senses.iter().any(|hit| class.has(hit.sense))
    }

    /// Whether it has a sense of one of the classes.
    pub(super) fn is_any(&self, classes: &[Class]) -> bool {
        classes.iter().any(|class| self.is(*class))
    }

    /// Whether it is one token long.
    pub(super) fn is_single(&self) -> bool {
        self.to - self.from == 1
    }

    /// Its first sense of the class.
    pub(super) fn sense(&self, class: Class) -> Option<Sense> {
        self.senses.iter().find(|hit| class.has(hit.sense)).map(|hit| hit.sense)
    }

    /// What its first sense of the class means.
    pub(super) fn meaning<'a>(&self, class: Class, words: &'a Words) -> Option<&'a Meaning> {
        self.sense(class).map(|sense| words.meaning(sense))
    }

    /// Which of the household's names of the class it is.
    pub(super) fn own(&self, class: Class) -> Option<usize> {
        self.senses.iter().find(|hit| class.has(hit.sense)).map(|hit| hit.own.into())
    }

    /// Whether it carries meaning of its own.
    pub(super) fn is_content(&self) -> bool {
        !matches!(self.kind, WordKind::Small | WordKind::Mark)
    }
}

/// A message with its items.
#[derive(Debug)]
pub(super) struct Text<'a> {
    pub(super) text: &'a str,
    pub(super) lexed: Lexed,
    pub(super) items: Vec<Item>,
    pub(super) words: &'a Words,
    /// Whether it weighs in metric units.
    pub(super) metric: bool,
}

impl<'a> Text<'a> {
    /// The item right before a place.
    pub(super) fn before(&self, n: usize) -> Option<&Item> {
        self.items.get(n.checked_sub(1)?)
    }

    /// The words from one item up to another, as they were written, in lower case, one space for each gap.
    pub(super) fn said(&self, from: usize, to: usize) -> Option<String> {
        let first = self.items.get(from)?.from as usize;
        let last = (self.items.get(to.checked_sub(1)?)?.to as usize).checked_sub(1)?;
        self.written(first, last)
    }

    /// The words from one token to another.
    pub(super) fn written(&self, first: usize, last: usize) -> Option<String> {
        let (first, last) = (self.lexed.tokens.get(first)?, self.lexed.tokens.get(last)?);
        let words = self.text.get(first.from as usize..last.to as usize)?;
        let kept = |c: &char| {
            let unseen =
                matches!(c, '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2060}'..='\u{206f}' | '\u{feff}');
            let quote = matches!(c, '"' | '\u{201c}' | '\u{201d}');
            !c.is_control() && !unseen && !quote
        };
        let plain = |c: char| if c == '\u{2019}' { '\'' } else { c };
        let joined: Vec<String> = words
            .split_whitespace()
            .map(|word| word.chars().filter(kept).map(plain).flat_map(char::to_lowercase).collect())
            .collect();
        let name = joined.join(" ");
        let trimmed = name.trim_matches(|c: char| !c.is_alphanumeric());
        (!trimmed.is_empty()).then(|| trimmed.to_owned())
    }

    /// Where in the text the items from one up to another stand.
    pub(super) fn span(&self, from: usize, to: usize) -> (u32, u32) {
        let token = |at: u32| self.lexed.tokens.get(at as usize);
        let first = self.items.get(from).and_then(|item| token(item.from)).map_or(0, |token| token.from);
        let last =
            to.checked_sub(1).and_then(|to| self.items.get(to)).and_then(|item| token(item.to.saturating_sub(1)));
        (first, last.map_or(first, |token| token.to))
    }
}

/// Reads a text into items.
pub(super) fn items<'a>(text: &'a str, words: &'a Words, household: &Household) -> Text<'a> {
    let (lexed, items) = known(text, words, household, cut);
    let metric = items.iter().any(is_metric);
    Text { text, lexed, items, words, metric }
}

/// Reads the tokens of a text, with the names that begin at each.
pub(super) fn known<T>(
    text: &str,
    words: &Words,
    household: &Household,
    read: impl FnOnce(&Known<'_>, &[Spellings]) -> T,
) -> (Lexed, T) {
    let mut lexed = lex(text);
    part_words(&mut lexed, words);
    let spellings = spellings(&lexed, words);
    let mut hits = Vec::with_capacity(lexed.tokens.len() * 3);
    let mut starts = Vec::with_capacity(lexed.tokens.len() + 1);
    starts.push(0);
    for at in 0..lexed.tokens.len() {
        words.names_at(&lexed.tokens, &spellings, at, &mut hits);
        household.names_at(&lexed, at, &mut hits);
        starts.push(hits.len() as u32);
    }
    let kept: Vec<Kept> = lexed.tokens.iter().map(|_| Kept::default()).collect();
    let known = Known { lexed: &lexed, hits: &hits, starts: &starts, words, kept: &kept };
    let found = read(&known, &spellings);
    (lexed, found)
}

/// Longest small word that is looked for at the head of another.
const LONGEST_HEAD: usize = 4;

/// Parts words that were run together: `ofbeans`, `thefreezer`.
fn part_words(lexed: &mut Lexed, words: &Words) {
    let mut at = 0;
    while let Some(token) = lexed.tokens.get(at) {
        let letters = lexed.folded(token);
        let plain =
            token.shape == Shape::Word && letters.len() == (token.to - token.from) as usize && letters.is_ascii();
        if plain && letters.len() > 4 && !words.is_known(letters) {
            let head = (1..=LONGEST_HEAD.min(letters.len() - 3)).rev().find(|cut| {
                let (head, rest) = letters.split_at(*cut);
                words.leads(head) && words.is_name(rest)
            });
            if let Some(cut) = head {
                lexed.split(at, cut as u32);
            }
        }
        at += 1;
    }
}

/// What each token's word may be. A name with a capital inside a sentence is not mended: it is somebody's or
/// something's name.
fn spellings(lexed: &Lexed, words: &Words) -> Vec<Spellings> {
    let capitals = lexed.tokens.iter().filter(|token| token.capital).count();
    let letters = lexed.tokens.iter().filter(|token| token.shape == Shape::Word).count();
    let mut inside = false;
    let mut all = Vec::with_capacity(lexed.tokens.len());
    for token in &lexed.tokens {
        let named = token.capital && inside && capitals * 2 <= letters;
        let mut spellings = words.spellings(lexed, token);
        if named {
            spellings.truncate(1);
        }
        all.push(spellings);
        inside =
            !matches!(token.shape, Shape::Mark(Mark::Dot | Mark::Bang | Mark::Question | Mark::Line | Mark::Colon));
    }
    all
}

/// Whether a value is in metric units.
fn is_metric(item: &Item) -> bool {
    item.values.iter().any(|value| match value {
        Value::Weight(weight) => weight.unit == Mass::GRAM || weight.unit == Mass::KILOGRAM,
        Value::Portions(portions) => portions.metric,
        Value::Jars(jars) => jars.jar.is_some_and(Jar::is_metric),
        _ => false,
    })
}

/// What taking an item costs; fewer and better-known items are cheaper.
const ITEM: u32 = 10;
const UNKNOWN: u32 = 5;
const REPAIRED: u32 = 7;
/// A value that uses a figure is dearer by nothing, a name by a little: `half pint` is a size before it is a number.
const NAME: u32 = 1;

fn cut(known: &Known<'_>, spellings: &[Spellings]) -> Vec<Item> {
    let tokens = &known.lexed.tokens;
    let n = tokens.len();
    let mut values: Vec<SmallVec<[Ending; 4]>> = Vec::with_capacity(n);
    let mut found = Vec::new();
    for at in 0..n {
        found.clear();
        values_at(known, at, &mut found);
        values.push(found.iter().copied().collect());
    }
    // The cheapest way from each token to the end, and where its first item ends.
    let mut best = vec![(0_u32, n); n + 1];
    for at in (0..n).rev() {
        let mut cheapest = (u32::MAX, at + 1);
        let mut consider = |to: usize, cost: u32| {
            let total = best.get(to).map_or(u32::MAX, |rest| rest.0.saturating_add(cost));
            if total < cheapest.0 {
                cheapest = (total, to);
            }
        };
        let names = known.hits_at(at);
        for (end, _) in values.get(at).into_iter().flatten() {
            consider(*end, ITEM);
        }
        for hit in names {
            let repaired = if hit.repaired { REPAIRED } else { 0 };
            consider(at + usize::from(hit.len), ITEM + NAME + repaired);
        }
        let unknown = names.is_empty() && tokens.get(at).is_some_and(|token| token.shape == Shape::Word);
        consider(at + 1, ITEM + NAME + if unknown { UNKNOWN } else { 0 });
        if let Some(place) = best.get_mut(at) {
            *place = cheapest;
        }
    }
    let mut items = Vec::with_capacity(n);
    let mut at = 0;
    while at < n && items.len() < MOST {
        let to = best.get(at).map_or(at + 1, |(_, to)| (*to).max(at + 1));
        items.push(item(known, spellings, at, to, values.get(at).map_or(&[], |values| values)));
        at = to;
    }
    items
}

fn item(known: &Known<'_>, spellings: &[Spellings], from: usize, to: usize, values: &[Ending]) -> Item {
    let token = known.lexed.tokens.get(from);
    let len = (to - from) as u16;
    let mut senses: SmallVec<[Hit; 4]> = known.hits_at(from).iter().filter(|hit| hit.len == len).copied().collect();
    // As it is written goes before what may have been meant.
    let exact = senses.iter().any(|hit| !hit.repaired);
    senses.sort_by_key(|hit| hit.repaired);
    let values: SmallVec<[Value; 2]> = values.iter().filter(|(end, _)| *end == to).map(|(_, value)| *value).collect();
    let mark = token.filter(|_| len == 1).and_then(|token| match token.shape {
        Shape::Mark(mark) if senses.is_empty() => Some(mark),
        _ => None,
    });
    if mark == Some(Mark::Question) {
        senses.push(Hit {
            len,
            sense: Sense(known.words.classes.mark_question.from),
            repaired: false,
            misheard: false,
            own: 0,
        });
    }
    let named = len > 1 && values.is_empty() && senses.iter().any(|hit| known.words.classes.product.has(hit.sense));
    let parts = named.then(|| (from..to).map(|at| item(known, spellings, at, at + 1, &[])).collect());
    let word = if len == 1 {
        spellings.get(from).and_then(|s| s.first().copied()).unwrap_or_default()
    } else {
        WordId::UNKNOWN
    };
    let letters = token.map_or("", |token| known.lexed.folded(token));
    let kind = kind(known.words, &senses, !values.is_empty(), mark.is_some(), letters);
    Item {
        from: from as u32,
        to: to as u32,
        repaired: !exact && !senses.is_empty(),
        senses,
        values,
        kind,
        word,
        mark,
        capital: token.is_some_and(|token| token.capital),
        parts,
    }
}

fn kind(words: &Words, senses: &[Hit], is_value: bool, is_mark: bool, letters: &str) -> WordKind {
    let classes = &words.classes;
    let has = |class: Class| senses.iter().any(|hit| class.has(hit.sense));
    let risks = [classes.food, classes.form, classes.method];
    // Lists that only say whether a word may stand beside a process leave it the ordinary word that it is.
    let ordinary = [classes.place_side, classes.beside, classes.told, classes.rim, classes.more_of, classes.syrup];
    let values = [classes.num, classes.unit, classes.container, classes.each];
    match () {
        () if is_mark => WordKind::Mark,
        () if has(classes.small) || has(classes.household_name) => WordKind::Small,
        () if is_value => WordKind::Value,
        () if has(classes.voice) || has(classes.oops) => WordKind::Voice,
        () if has(classes.deed) => WordKind::Deed,
        () if has(classes.alien) => WordKind::Alien,
        () if has(classes.harmless) => WordKind::Harmless,
        () if values.into_iter().any(has) => WordKind::Value,
        () if senses.iter().all(|hit| risks.iter().any(|class| class.has(hit.sense))) && !senses.is_empty() => {
            WordKind::Alien
        }
        () if senses.iter().all(|hit| ordinary.iter().any(|class| class.has(hit.sense))) && !senses.is_empty() => {
            WordKind::Ordinary
        }
        () if !senses.is_empty() => WordKind::Trade,
        () if letters.starts_with('\'') => WordKind::Small,
        () if letters.len() <= 1 || ordinary::has(letters) => WordKind::Ordinary,
        () => WordKind::Strange,
    }
}
