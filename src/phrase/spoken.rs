//! The tables' own names for the products, read back whole: `raw-packed whole tomatoes with no added liquid`.
//!
//! What the assistant calls a product must mean exactly that product when a person says it back. A name of three words
//! and more is one wherever it stands; of a shorter one (`crushed tomatoes`) the words are crop and preparation too, so
//! it names a product only where a jar's contents are asked for.

use super::{
    facts::Facts,
    lex,
    product::Named,
    scan::{Chunk, Item},
    token::{Beginnings, Mark, Token, Tokens, one_of},
    words::Word,
};
use crate::{
    processes,
    vocabulary::{Crop, Prep, Product},
};
use std::{collections::HashMap, sync::LazyLock};

/// Other ways to say a long name.
const ALIASES: &[(&str, &str)] = &[
    ("raw pack whole tomatoes with no added liquid", "tomato-whole-raw"),
    ("raw pack tomatoes with no added liquid", "tomato-whole-raw"),
    ("raw packed tomatoes with no added liquid", "tomato-whole-raw"),
    ("whole tomatoes with no added liquid", "tomato-whole-raw"),
    ("whole tomatoes without added liquid", "tomato-whole-raw"),
    ("whole tomatoes without liquid", "tomato-whole-raw"),
    ("whole tomatoes no liquid", "tomato-whole-raw"),
    ("tomatoes with no added liquid", "tomato-whole-raw"),
    ("tomatoes without added liquid", "tomato-whole-raw"),
    ("whole tomatoes in juice", "tomato-whole-juice"),
    ("tomatoes in their juice", "tomato-whole-juice"),
    ("sauce with meat", "spaghetti-sauce-meat"),
    ("tomato sauce with meat", "spaghetti-sauce-meat"),
    ("pasta sauce with meat", "spaghetti-sauce-meat"),
    ("jam without pectin", "jam-no-pectin"),
    ("jelly without pectin", "jelly-no-pectin"),
    ("jam with no added pectin", "jam-no-pectin"),
    ("jelly with no added pectin", "jelly-no-pectin"),
    ("jam with added pectin", "jams-jellies-added-pectin"),
    ("jelly with added pectin", "jams-jellies-added-pectin"),
    ("jam with pectin", "jams-jellies-added-pectin"),
    ("jelly with pectin", "jams-jellies-added-pectin"),
    ("whole kernel corn", "corn-whole"),
];

struct Name {
    words: Vec<u64>,
    id: &'static str,
}

/// By their first word, the longest first.
static NAMES: LazyLock<HashMap<u64, Vec<Name>>> = LazyLock::new(|| {
    let mut names: HashMap<u64, Vec<Name>> = HashMap::new();
    let spoken = processes::products().iter().map(|info| (info.spoken, info.id));
    for (words, id) in spoken.chain(ALIASES.iter().copied()) {
        let words: Vec<_> = lex::lex(words).iter().filter(|t| !t.is_mark(Mark::Hyphen)).map(|t| t.key).collect();
        if let Some(first) = words.first() {
            names.entry(*first).or_default().push(Name { words, id });
        }
    }
    names.values_mut().for_each(|alike| alike.sort_by_key(|name| std::cmp::Reverse(name.words.len())));
    names
});

/// What begins a name: nearly every other word is turned away before it is looked up.
static BEGINNINGS: LazyLock<Beginnings> =
    LazyLock::new(|| NAMES.keys().fold(Beginnings::EMPTY, |set, first| set.with(*first)));

/// A spoken name of at least so many words at the start: how many tokens, and which product.
pub(super) fn spoken(input: Tokens<'_>, least: usize) -> Option<(usize, &'static str)> {
    let first = input.first()?.key;
    if !BEGINNINGS.may_have(first) {
        return None;
    }
    let alike = NAMES.get(&first)?;
    alike
        .iter()
        .take_while(|name| name.words.len() >= least)
        .find_map(|name| matching(input.0, &name.words).map(|used| (used, name.id)))
}

/// How many tokens say these words, hyphens between them apart.
fn matching(tokens: &[Token], words: &[u64]) -> Option<usize> {
    let mut at = 0;
    for (n, word) in words.iter().enumerate() {
        while n > 0 && tokens.get(at).is_some_and(|t| t.is_mark(Mark::Hyphen)) {
            at += 1;
        }
        if tokens.get(at)?.key != *word {
            return None;
        }
        at += 1;
    }
    Some(at)
}

/// A product whose whole spoken name of two words or more stands in a clause.
pub(super) fn named_in(f: &Facts<'_>) -> Option<Product> {
    let tokens = f.tokens.get(f.chunks.first()?.from as usize..f.chunks.last()?.to as usize)?;
    (0..tokens.len()).find_map(|at| spoken(Tokens(&tokens[at..]), 2)).map(|(_, id)| Product::tested(id))
}

/// A food that is called after a crop of the tables and is another one in a jar: `dried beans`, `chili`, `corn on the cob`.
pub(super) fn another_food(f: &Facts<'_>) -> Option<Product> {
    let named = |from: u32, to: u32| f.words((from, to)).map(|name| Product::named(&name));
    let pulse = |c: &Chunk| {
        matches!(c.item, Item::Crop(Crop::Bean | Crop::Pea) | Item::Product(Named::Known("lima-beans" | "beans-snap")))
    };
    let dried = f.chunks.iter().enumerate().find(|(_, c)| one_of!(c.key, "dry" | "dried"));
    if let Some((at, dry)) = dried {
        let mut behind = f.chunks.iter().skip(at + 1).take(3);
        let kind = |c: &&Chunk| {
            matches!(c.item, Item::Unknown | Item::Ripe(_) | Item::Word(Word::Common | Word::Quality)) && !pulse(c)
        };
        let skip = behind.clone().take_while(kind).count();
        if let Some(beans) = behind.nth(skip).filter(|c| pulse(c)) {
            return named(dry.from, beans.to);
        }
        let fruit = f.chunks.get(at + 1).filter(|c| matches!(c.item, Item::Crop(_) | Item::Variety(..)));
        if let Some(fruit) = fruit.filter(|_| f.product.is_none()) {
            return named(dry.from, fruit.to);
        }
    }
    if f.product.is_none()
        && let Some((from, to)) = another_kind(f)
    {
        return named(from, to);
    }
    let (from, to) = f.crop_at.filter(|_| f.product.is_none())?;
    let cob = f.crop == Some(Crop::Corn) && to - from > 1;
    let pepper = |c: &Chunk| matches!(c.item, Item::Crop(Crop::Pepper) | Item::Variety(_, Some(Crop::Pepper)));
    let stew = f.tokens.get(from as usize).is_some_and(|t| one_of!(t.key, "chili" | "chilli"))
        && f.chunks.iter().filter(|c| pepper(c)).count() == 1;
    (cob || stew).then(|| named(from, to)).flatten()
}

/// A crop by a word before or behind it that makes it a food which the tables do not list: `black beans`, `split peas`, `pureed
/// carrots`, `fried green tomatoes`. Range of tokens.
fn another_kind(f: &Facts<'_>) -> Option<(u32, u32)> {
    let crop_of = |c: &Chunk| match c.item {
        Item::Crop(crop) | Item::Variety(_, Some(crop)) => Some(crop),
        Item::Variety(_, None) => Some(Crop::Tomato),
        _ => None,
    };
    let at = f.chunks.iter().position(|c| crop_of(c).is_some())?;
    let (chunk, crop) = (&f.chunks[at], crop_of(&f.chunks[at])?);
    let is_own = |c: &Chunk| is_kind(c.key, crop) || is_form(c, crop);
    let part = |c: &&Chunk| is_own(c) || matches!(c.item, Item::Ripe(_) | Item::Mark(Mark::Hyphen));
    let first = f.chunks[..at].iter().rev().take(4).take_while(part).filter(|c| is_own(c)).last();
    if let Some(first) = first {
        return Some((first.from, chunk.to));
    }
    let rings = f.chunks.get(at + 1).filter(|c| crop == Crop::Apple && one_of!(c.key, "rings"))?;
    Some((chunk.from, rings.to))
}

/// Kinds of beans and peas that are no snap beans and no green peas.
fn is_kind(key: u64, crop: Crop) -> bool {
    let dry = one_of!(
        key,
        "black"
            | "white"
            | "red"
            | "pink"
            | "brown"
            | "kidney"
            | "pinto"
            | "navy"
            | "northern"
            | "great"
            | "cannellini"
            | "borlotti"
            | "fava"
            | "broad"
            | "soy"
            | "mung"
            | "baked"
            | "refried"
            | "eyed"
            | "eye"
            | "field"
            | "crowder"
            | "october"
            | "split"
    );
    match crop {
        Crop::Bean => dry,
        Crop::Pea => dry || one_of!(key, "snow" | "snap" | "sugar" | "mushy"),
        _ => false,
    }
}

/// A form in which a crop heats otherwise than the one that its table is for. The tables' peppers are blistered to peel them.
fn is_form(c: &Chunk, crop: Crop) -> bool {
    let Item::Prep(prep) = c.item else {
        return one_of!(
            c.key,
            "mashed"
                | "mash"
                | "creamy"
                | "smoked"
                | "stuffed"
                | "fried"
                | "spiced"
                | "fermented"
                | "candied"
                | "salted"
                | "pickled"
        );
    };
    match prep {
        _ if matches!(crop, Crop::Tomato | Crop::Tomatillo) => false,
        Prep::Pureed | Prep::Crushed => true,
        Prep::Roasted => crop != Crop::Pepper,
        Prep::Whole => {
            matches!(crop, Crop::Peach | Crop::Nectarine | Crop::Apple | Crop::Pear | Crop::Apricot | Crop::Carrot)
        }
        _ => false,
    }
}

/// `greens`, also those of beets or turnips.
pub(super) fn is_greens(f: &Facts<'_>) -> bool {
    f.chunks.iter().any(|c| one_of!(c.key, "greens"))
}

/// Foods named in these chunks that are no part of the product: what a person says is in the jar must never be dropped
/// without a word, for the time depends on it. Ranges of tokens.
pub(super) fn foods_beside(chunks: &[Chunk], f: &Facts<'_>, product: Option<&Product>) -> Vec<(u32, u32)> {
    let id = product.map_or("", Product::as_str);
    let main = processes::product(id).and_then(|info| info.crop);
    let own = |crop: Crop| {
        main == Some(crop)
            || f.product.is_none() && f.crop == Some(crop)
            || crop == Crop::Tomato && main.is_none()
            || id.contains(crop.as_str())
    };
    let greens = id == "greens";
    let is_other = |at: usize| match chunks[at].item {
        Item::Crop(crop) => {
            let leaves = greens && chunks.get(at + 1).is_some_and(|next| one_of!(next.key, "greens"));
            !(own(crop) || leaves)
        }
        Item::Variety(_, Some(crop)) => !own(crop),
        Item::Product(named) => {
            f.product != Some(named) && !matches!(named, Named::Known(known) if known == id) && !id.contains("juice")
        }
        Item::Word(Word::Gear | Word::Alien | Word::Common) => {
            one_of!(
                chunks[at].key,
                "meat"
                    | "beef"
                    | "pork"
                    | "sausage"
                    | "cream"
                    | "milk"
                    | "cheese"
                    | "butter"
                    | "oil"
                    | "flour"
                    | "rice"
                    | "pasta"
                    | "noodles"
                    | "bacon"
                    | "ham"
            ) && !id.contains("-meat")
        }
        _ => false,
    };
    let joint = |c: &Chunk| {
        matches!(c.item, Item::Word(Word::And | Word::Link | Word::Some) | Item::Mark(Mark::And | Mark::Comma))
    };
    let mut out: Vec<(u32, u32)> = Vec::new();
    let mut begin = None;
    for (at, chunk) in chunks.iter().enumerate() {
        if is_other(at) {
            let from = *begin.get_or_insert(chunk.from);
            match out.last_mut().filter(|(known, _)| *known == from) {
                Some(last) => last.1 = chunk.to,
                None => out.push((from, chunk.to)),
            }
        } else if !joint(chunk) {
            begin = None;
        } else if begin.is_none() && one_of!(chunk.key, "with" | "w" | "and" | "plus") {
            begin = Some(chunk.from);
        }
    }
    out
}
