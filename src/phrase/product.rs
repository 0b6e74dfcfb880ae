//! What is in a jar: the published products by the names people give them, and the household's own names.

use super::{
    Lexicon,
    token::{Beginnings, Mark, Sense, Token, Tokens, key, one_of},
    words::Word,
};
use crate::vocabulary::{CannerKind, Crop, Pack, Prep, Product, Ripeness, Supply};

/// A product as it was said.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(super) enum Named {
    /// A table's id, or a family word that keeps its own name.
    Known(&'static str),
    /// The household's own words: tokens from and to.
    Said(u32, u32),
    /// A recipe of the lexicon.
    Recipe(u32),
}

macro_rules! phrases {
    ($($($word:literal)+ => $id:literal);+ $(;)?) => { &[$((&[$(key($word)),+], $id)),+] };
}

/// Names of several words, the longest first among those that begin alike.
static PHRASES: &[(&[u64], &str)] = phrases! {
    "thick" "tomato" "sauce" => "tomato-sauce-thick"; "thick" "sauce" => "tomato-sauce-thick"; "standard" "tomato" "sauce" => "tomato-sauce-thick"; "standard" "sauce" => "tomato-sauce-thick";
    "thin" "tomato" "sauce" => "tomato-sauce-thin"; "thin" "sauce" => "tomato-sauce-thin";
    "tomato" "and" "vegetable" "juice" => "tomato-juice-blend"; "tomato" "vegetable" "juice" => "tomato-juice-blend"; "tomato" "veg" "juice" => "tomato-juice-blend"; "tomato" "juice" "blend" => "tomato-juice-blend"; "juice" "blend" => "tomato-juice-blend"; "vegetable" "juice" => "tomato-juice-blend"; "veg" "juice" => "tomato-juice-blend"; "veggie" "juice" => "tomato-juice-blend";
    "tomato" "paste" "salsa" => "tomato-paste-salsa"; "tomato" "sauce" => "tomato-sauce-thick"; "tom" "sauce" => "tomato-sauce-thick"; "tomato" "juice" => "tomato-juice"; "tom" "juice" => "tomato-juice"; "toms" "juice" => "tomato-juice"; "tomato" "ketchup" => "tomato-ketchup"; "tomato" "catsup" => "tomato-ketchup"; "tomato" "taco" "sauce" => "tomato-taco-sauce"; "taco" "sauce" => "tomato-taco-sauce";
    "tomato" "and" "green" "chile" "salsa" => "tomato-green-chile-salsa"; "tomato" "green" "chile" "salsa" => "tomato-green-chile-salsa"; "tomato" "and" "green" "chili" "salsa" => "tomato-green-chile-salsa"; "tomato" "salsa" => "salsa";
    "tomatoes" "with" "okra" => "tomato-okra-zucchini"; "tomatoes" "and" "okra" => "tomato-okra-zucchini"; "tomatoes" "with" "zucchini" => "tomato-okra-zucchini"; "tomatoes" "and" "zucchini" => "tomato-okra-zucchini"; "tomato" "okra" "zucchini" => "tomato-okra-zucchini";
    "mexican" "tomato" "sauce" => "tomato-sauce-mexican"; "mexican" "sauce" => "tomato-sauce-mexican"; "easy" "hot" "sauce" => "easy-hot-sauce"; "hot" "sauce" => "easy-hot-sauce"; "cayenne" "pepper" "sauce" => "cayenne-pepper-sauce"; "cayenne" "sauce" => "cayenne-pepper-sauce";
    "spaghetti" "sauce" "with" "meat" => "spaghetti-sauce-meat"; "spaghetti" "sauce" "without" "meat" => "spaghetti-sauce-no-meat"; "spaghetti" "sauce" "no" "meat" => "spaghetti-sauce-no-meat"; "meatless" "spaghetti" "sauce" => "spaghetti-sauce-no-meat"; "spaghetti" "meat" "sauce" => "spaghetti-sauce-meat"; "spaghetti" "sauce" => "spaghetti sauce"; "spag" "sauce" => "spaghetti sauce"; "meat" "sauce" => "spaghetti-sauce-meat"; "meatless" "sauce" => "spaghetti-sauce-no-meat"; "meaty" "spaghetti" "sauce" => "spaghetti-sauce-meat";
    "chile" "salsa" "ii" => "chile-salsa-ii"; "chile" "salsa" "2" => "chile-salsa-ii"; "chile" "salsa" "two" => "chile-salsa-ii"; "chile" "salsa" => "chile-salsa"; "chili" "salsa" "ii" => "chile-salsa-ii"; "chili" "salsa" => "chile-salsa"; "green" "chile" "salsa" => "tomato-green-chile-salsa"; "green" "chili" "salsa" => "tomato-green-chile-salsa";
    "tomatillo" "green" "salsa" => "tomatillo-green-salsa"; "tomatillo" "salsa" => "tomatillo-green-salsa"; "green" "tomatillo" "salsa" => "tomatillo-green-salsa"; "green" "salsa" => "tomatillo-green-salsa"; "salsa" "verde" => "tomatillo-green-salsa";
    "paste" "tomato" "salsa" => "tomato-salsa-paste-tomatoes"; "salsa" "with" "paste" "tomatoes" => "tomato-salsa-paste-tomatoes"; "slicing" "tomato" "salsa" => "tomato-salsa-slicing-tomatoes"; "salsa" "with" "slicing" "tomatoes" => "tomato-salsa-slicing-tomatoes"; "slicer" "salsa" => "tomato-salsa-slicing-tomatoes";
    "blender" "ketchup" => "ketchup-blender"; "country" "western" "ketchup" => "ketchup-country-western"; "western" "ketchup" => "ketchup-country-western"; "country" "ketchup" => "ketchup-country-western";
    "green" "tomato" "relish" => "green-tomato-relish"; "pickled" "green" "tomato" "relish" => "green-tomato-relish"; "pepper" "onion" "relish" => "pepper-onion-relish"; "pepper" "and" "onion" "relish" => "pepper-onion-relish"; "pickled" "pepper" "onion" "relish" => "pepper-onion-relish"; "corn" "relish" => "corn-relish"; "pickled" "corn" "relish" => "corn-relish"; "pickle" "relish" => "pickle-relish";
    "apple" "butter" => "apple-butter"; "apple" "cider" => "apple cider"; "apple" "juice" => "apple-juice"; "apple" "sauce" => "applesauce"; "grape" "juice" => "grape-juice"; "fruit" "puree" => "fruit-puree"; "pear" "apple" "jam" => "pear-apple-jam"; "grape" "plum" "jelly" => "grape-plum-jelly";
    "bread" "and" "butter" "pickles" => "pickles-bread-and-butter"; "bread" "and" "butters" => "pickles-bread-and-butter"; "b" "and" "b" "pickles" => "pickles-bread-and-butter"; "bread" "n" "butter" "pickles" => "pickles-bread-and-butter"; "dill" "pickles" => "pickles-dill-quick"; "quick" "dill" "pickles" => "pickles-dill-quick"; "quick" "dills" => "pickles-dill-quick"; "refrigerator" "pickles" => "refrigerator pickles"; "fridge" "pickles" => "refrigerator pickles"; "refrigerator" "dills" => "refrigerator dills"; "fresh" "pack" "dills" => "pickles-dill-quick"; "dills" => "pickles-dill-quick";
    "pickled" "beets" => "pickled-beets"; "pickled" "beet" => "pickled-beets"; "pickled" "beetroot" => "pickled-beets"; "pickled" "beetroots" => "pickled-beets"; "pickled" "bell" "peppers" => "pickled-bell-peppers"; "pickled" "hot" "peppers" => "pickled-hot-peppers"; "pickled" "jalapeno" "rings" => "pickled-jalapeno-rings"; "pickled" "jalapenos" => "pickled-jalapeno-rings"; "pickled" "jalapeno" => "pickled-jalapeno-rings"; "jalapeno" "rings" => "pickled-jalapeno-rings"; "pickled" "pepper" "rings" => "pickled-pepper-rings-yellow"; "pickled" "yellow" "pepper" "rings" => "pickled-pepper-rings-yellow"; "yellow" "pepper" "rings" => "pickled-pepper-rings-yellow"; "pickled" "peppers" => "pickled peppers";
    "sauerkraut" => "sauerkraut"; "kraut" => "sauerkraut"; "applesauce" => "applesauce"; "cream" "style" "corn" => "corn-cream"; "creamed" "corn" => "corn-cream"; "mixed" "vegetables" => "mixed-vegetables"; "mixed" "veg" => "mixed-vegetables"; "mixed" "veggies" => "mixed-vegetables"; "lima" "beans" => "lima-beans"; "limas" => "lima-beans"; "butter" "beans" => "lima-beans"; "sweet" "potatoes" => "potatoes-sweet"; "winter" "squash" => "pumpkin-cubed";
    "sauce" => "tomato-sauce-thick"; "sause" => "tomato-sauce-thick"; "sauc" => "tomato-sauce-thick"; "salsa" => "salsa"; "juice" => "tomato-juice"; "ketchup" => "tomato-ketchup"; "catsup" => "tomato-ketchup"; "ketsup" => "tomato-ketchup"; "catchup" => "tomato-ketchup";
    "pasta" "sauce" => "pasta sauce"; "pizza" "sauce" => "pizza sauce"; "barbecue" "sauce" => "barbecue sauce"; "bbq" "sauce" => "bbq sauce"; "chili" "sauce" => "chili sauce"; "chilli" "sauce" => "chilli sauce"; "enchilada" "sauce" => "enchilada sauce"; "marinara" "sauce" => "marinara sauce"; "tomato" "soup" => "tomato soup"; "tomato" "paste" => "tomato paste"; "tomato" "puree" => "tomato puree";
};

static BEGINNINGS: Beginnings = {
    let (mut set, mut at) = (Beginnings::EMPTY, 0);
    while at < PHRASES.len() {
        set = set.with(PHRASES[at].0[0]);
        at += 1;
    }
    set
};

/// A product at the start: how many tokens, and which.
pub(super) fn product(input: Tokens<'_>) -> Option<(usize, Named)> {
    let first = input.first()?;
    let starts = match first.sense {
        Sense::Word(
            Word::Product
            | Word::Crop(_)
            | Word::Quality
            | Word::Ripe(_)
            | Word::Variety(..)
            | Word::Common
            | Word::Alien
            | Word::Gear
            | Word::PlaceSide
            | Word::Store(_)
            | Word::Filler,
        )
        | Sense::Unknown => true,
        Sense::Word(_) => false,
        _ => return None,
    };
    if !starts
        || one_of!(first.key, "stock" | "dill" | "butter" | "paste")
            && !matches!(input.nth(1).and_then(|t| t.word()), Some(Word::Product))
            && !one_of!(input.key(1), "beans")
        || one_of!(input.key(1), "cider") && one_of!(input.key(2), "vinegar")
    {
        return None;
    }
    let phrases = if BEGINNINGS.may_have(first.key) { PHRASES } else { &[] };
    let known = phrases
        .iter()
        .filter(|(words, _)| words[0] == first.key && words.iter().enumerate().all(|(n, word)| input.key(n) == *word))
        .max_by_key(|(words, _)| words.len());
    if let Some((words, id)) = known {
        return Some((words.len(), Named::Known(id)));
    }
    (first.word() == Some(Word::Product)).then_some((1, Named::Said(0, 1)))
}

/// A recipe of the household, letter by letter; a space in its name is any gap in the text.
pub(super) fn recipe(input: Tokens<'_>, text: &str, lexicon: &Lexicon) -> Option<(usize, u32)> {
    if lexicon.recipes.is_empty() {
        return None;
    }
    let from = input.first()?.from as usize;
    let found = lexicon.recipes.iter().enumerate().filter_map(|(at, name)| {
        let rest = text.get(from..)?;
        let end = from + matching(rest, name)?;
        let used = input.0.iter().take_while(|token| (token.to as usize) <= end).count();
        (used > 0 && input.0.get(used - 1)?.to as usize == end).then_some((used, u32::try_from(at).ok()?))
    });
    found.max_by_key(|(used, _)| *used)
}

/// How many bytes of `text` spell `name`, in any case.
pub(super) fn matching(text: &str, name: &str) -> Option<usize> {
    let mut rest = text.char_indices();
    let mut end = 0;
    for wanted in name.chars() {
        let (at, c) = rest.next()?;
        if !c.to_lowercase().eq(wanted.to_lowercase()) {
            return None;
        }
        end = at + c.len_utf8();
    }
    (!name.is_empty()).then_some(end)
}

/// Whether a word can be part of a household's own name for a product.
pub(super) fn names(token: &Token) -> bool {
    // What is done with a product is no part of its name.
    let acts = one_of!(
        token.key,
        "move"
            | "push"
            | "shift"
            | "reschedule"
            | "skip"
            | "postpone"
            | "pause"
            | "pausing"
            | "paused"
            | "resume"
            | "resuming"
            | "resumed"
            | "restart"
            | "restarting"
            | "continue"
            | "continuing"
            | "call"
            | "calling"
            | "rename"
            | "renaming"
            | "name"
            | "naming"
            | "shelve"
            | "shelving"
            | "label"
            | "labels"
            | "print"
            | "draw"
            | "yield"
            | "plan"
            | "planned"
            | "schedule"
            | "scheduled"
            | "parking"
            | "shifting"
            | "pushing"
            | "calendar"
            | "called"
            | "reduced"
            | "reducing"
            | "pencil"
            | "axe"
    );
    if acts {
        return false;
    }
    match token.sense {
        Sense::Unknown => true,
        Sense::Word(
            Word::Common
            | Word::Variety(..)
            | Word::Crop(_)
            | Word::Ripe(_)
            | Word::Kin
            | Word::Folk
            | Word::Is
            | Word::Prep(_)
            | Word::Alien
            | Word::Weekday(_)
            | Word::Month(_)
            | Word::Place
            | Word::PlaceSide
            | Word::Supply(_)
            | Word::Product,
        ) => true,
        Sense::Word(Word::Quality) => one_of!(
            token.key,
            "hot"
                | "spicy"
                | "mild"
                | "smoky"
                | "sweet"
                | "chunky"
                | "smoked"
                | "black"
                | "white"
                | "yellow"
                | "purple"
                | "mixed"
                | "raw"
                | "bread"
                | "funky"
                | "old"
                | "quick"
                | "thick"
                | "thin"
                | "dark"
                | "light"
        ),
        Sense::Word(Word::Filler) => {
            one_of!(token.key, "best" | "super" | "honey" | "first" | "great" | "late" | "early" | "happy")
        }
        Sense::Word(Word::Verb(..)) => one_of!(token.key, "roasted" | "pickled"),
        Sense::Word(Word::Gear) => one_of!(token.key, "meat" | "house"),
        Sense::Mark(Mark::Hyphen) => true,
        _ => false,
    }
}

/// The product that a crop put up on its own is, as the tables name it.
pub(super) fn of_crop(crop: Crop, prep: Option<Prep>, ripeness: Option<Ripeness>) -> &'static str {
    match (crop, prep) {
        (Crop::Tomato, Some(Prep::Crushed)) => "tomato-crushed",
        (Crop::Tomato, Some(Prep::Diced)) => "diced tomatoes",
        (Crop::Tomato, Some(Prep::Chopped)) => "chopped tomatoes",
        (Crop::Tomato, Some(Prep::Cooked)) => "stewed tomatoes",
        (Crop::Tomato, Some(Prep::Roasted)) => "roasted tomatoes",
        (Crop::Tomato, Some(Prep::Pureed)) => "tomato puree",
        (Crop::Tomato, _) if ripeness == Some(Ripeness::Green) => "green tomatoes",
        (Crop::Tomato, _) => "whole tomatoes",
        (Crop::Tomatillo, _) => "tomatillos",
        (Crop::Pepper, _) => "peppers",
        (Crop::Zucchini, _) => "zucchini",
        (Crop::Squash, _) => "squash",
        (Crop::Pumpkin, _) => "pumpkin-cubed",
        (Crop::Cucumber, _) => "cucumbers",
        (Crop::Bean, _) => "beans-snap",
        (Crop::Pea, _) => "peas",
        (Crop::Corn, _) => "corn-whole",
        (Crop::Okra, _) => "okra",
        (Crop::Carrot, _) => "carrots",
        (Crop::Beet, _) => "beets",
        (Crop::Potato, _) => "potatoes-white",
        (Crop::Spinach | Crop::Kale | Crop::Chard, _) => "greens",
        (Crop::Asparagus, _) => "asparagus",
        (Crop::Rhubarb, _) => "rhubarb",
        (Crop::Apple, _) => "apples-sliced",
        (Crop::Apricot, _) => "apricots",
        (Crop::Peach, _) => "peaches",
        (Crop::Nectarine, _) => "nectarines",
        (Crop::Pear, _) => "pears",
        (Crop::Plum, _) => "plums",
        (Crop::Cherry, _) => "cherries",
        (Crop::Fig, _) => "figs",
        (Crop::Raspberry | Crop::Blackberry | Crop::Blueberry | Crop::Berry, _) => "berries",
        (other, _) => Crop::ALL.iter().find(|known| **known == other).map_or("", |known| known.as_str()),
    }
}

/// The product of a name.
pub(super) fn resolve(named: Named, text: &str, tokens: &[Token], lexicon: &Lexicon) -> Option<Product> {
    match named {
        Named::Known(id) => Some(Product::tested(id)),
        Named::Recipe(at) => lexicon.recipes.get(at as usize).map(|name| Product::named(name)),
        Named::Said(from, to) => said(text, tokens, from as usize, to as usize).map(|name| Product::named(&name)),
    }
}

/// The words from one token up to another, lower case, one space for each gap.
pub(super) fn said(text: &str, tokens: &[Token], from: usize, to: usize) -> Option<String> {
    let first = tokens.get(from)?;
    let last = tokens.get(to.checked_sub(1)?)?;
    let words = text.get(first.from as usize..last.to as usize)?;
    let mut out = String::with_capacity(words.len());
    for word in words.split_whitespace() {
        if !out.is_empty() {
            out.push(' ');
        }
        out.extend(word.chars().filter(|c| !matches!(c, '\u{200B}'..='\u{200F}' | '\u{202A}'..='\u{202E}' | '\u{2060}'..='\u{206F}' | '\u{FEFF}' | '"' | '“' | '”')).map(|c| if c == '’' { '\'' } else { c }).flat_map(char::to_lowercase));
    }
    let trimmed = out.trim_matches(|c: char| matches!(c, '.' | ',' | '!' | ':' | ';' | '\'' | '-' | '(' | ')'));
    (!trimmed.is_empty()).then(|| trimmed.to_owned())
}

/// A canner by its name at the start.
pub(super) fn canner(input: Tokens<'_>) -> Option<(usize, CannerKind)> {
    let skip = |n: usize| usize::from(input.nth(n).is_some_and(|t| t.is_mark(Mark::Hyphen)));
    let trailing = |mut n: usize| {
        while one_of!(
            input.key(n),
            "gauge"
                | "pressure"
                | "canner"
                | "bath"
                | "cooker"
                | "pot"
                | "kettle"
                | "one"
                | "canners"
                | "dial"
                | "weighted"
                | "water"
        ) || input.nth(n).is_some_and(|t| t.is_mark(Mark::Hyphen)) && n > 0
        {
            n += 1;
        }
        n
    };
    let second = 1 + skip(1);
    let free = usize::from(one_of!(input.key(0), "atmospheric" | "free"));
    if one_of!(input.key(free), "steam")
        && one_of!(input.key(free + 1 + skip(free + 1)), "canner" | "canning" | "flowing")
    {
        return Some((trailing(free + 1), CannerKind::Steam));
    }
    match input.key(0) {
        k if one_of!(k, "steam") => Some((1, CannerKind::Steam)),
        k if one_of!(k, "boiling" | "hot") && one_of!(input.key(second), "water") => {
            Some((trailing(second + 1), CannerKind::BoilingWater))
        }
        k if one_of!(k, "water") && one_of!(input.key(second), "bath" | "canner") => {
            Some((trailing(second + 1), CannerKind::BoilingWater))
        }
        k if one_of!(k, "bwb" | "wbc" | "wb" | "waterbath") => Some((trailing(1), CannerKind::BoilingWater)),
        k if one_of!(k, "dial") && one_of!(input.key(second), "gauge" | "pressure" | "canner") => {
            Some((trailing(second + 1), CannerKind::PressureDial))
        }
        k if one_of!(k, "weighted" | "weight") && one_of!(input.key(second), "gauge" | "pressure" | "canner") => {
            Some((trailing(second + 1), CannerKind::PressureWeighted))
        }
        k if one_of!(k, "pressure") => {
            let end = (1..8)
                .take_while(|n| {
                    one_of!(input.key(*n), "canner" | "cooker" | "one" | "with" | "a" | "the" | "and" | "has" | "pot")
                        || input.nth(*n).is_some_and(|t| t.is_mark(Mark::Comma))
                })
                .count()
                + 1;
            let kind = match input.key(end) {
                k if one_of!(k, "dial") => CannerKind::PressureDial,
                k if one_of!(k, "weighted" | "weight" | "weights" | "jiggler") => CannerKind::PressureWeighted,
                _ if one_of!(input.key(1 + skip(1)), "canner" | "cooker" | "canning") => {
                    return Some((2 + skip(1), CannerKind::Pressure));
                }
                _ => return None,
            };
            Some((trailing(end + 1), kind))
        }
        _ => None,
    }
}

/// A supply at the start.
pub(super) fn supply(input: Tokens<'_>) -> Option<(usize, Supply)> {
    let first = input.first()?;
    match first.word()? {
        Word::Supply(Supply::LemonJuice) => {
            let hyphen = usize::from(input.nth(1).is_some_and(|t| t.is_mark(Mark::Hyphen)));
            one_of!(input.key(1 + hyphen), "juice" | "juce").then_some((2 + hyphen, Supply::LemonJuice))
        }
        Word::Supply(Supply::CitricAcid) => {
            let hyphen = usize::from(input.nth(1).is_some_and(|t| t.is_mark(Mark::Hyphen)));
            let acid = usize::from(one_of!(input.key(1 + hyphen), "acid"));
            Some((1 + if acid == 1 { hyphen + 1 } else { 0 }, Supply::CitricAcid))
        }
        Word::Supply(supply) => Some((1, supply)),
        Word::Gear if one_of!(first.key, "lemonjuice") => Some((1, Supply::LemonJuice)),
        Word::Gear if one_of!(first.key, "citricacid") => Some((1, Supply::CitricAcid)),
        _ => None,
    }
}

/// Hot or raw pack.
pub(super) fn pack(input: Tokens<'_>) -> Option<(usize, Pack)> {
    let hyphen = usize::from(input.nth(1).is_some_and(|t| t.is_mark(Mark::Hyphen)));
    if !one_of!(input.key(1 + hyphen), "pack" | "packed" | "packs") {
        return None;
    }
    match input.key(0) {
        k if one_of!(k, "raw" | "cold") => Some((2 + hyphen, Pack::Raw)),
        k if one_of!(k, "hot") => Some((2 + hyphen, Pack::Hot)),
        _ => None,
    }
}
