//! Tokens into chunks: at each place the longest thing that is understood, in one pass from left to right.

use super::{
    Context,
    crop::{place, ripeness, shown, unripe, variety},
    date::{Moment, moment},
    day::{Called, called},
    measure::{Amount, amount},
    product::{Named, canner, names, pack, product, recipe, supply},
    spoken::spoken,
    token::{Mark, Sense, Token, Tokens, key, one_of},
    words::{Form, Unit, Verb, Word},
};
use crate::vocabulary::{CannerKind, Crop, Pack, Prep, Ripeness, Stock, Supply};

/// What a chunk is.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(super) enum Item {
    Amount(Amount),
    When(Moment),
    Product(Named),
    Crop(Crop),
    Variety(&'static str, Option<Crop>),
    Prep(Prep),
    Ripe(Ripeness),
    /// The tokens of the chunk, article left out.
    Place,
    Store(Stock),
    Supply(Supply),
    Canner(CannerKind),
    Pack(Pack),
    /// A batch by its number or by a name that the household gave it.
    Batch(Called),
    Verb(Verb, Form),
    Word(Word),
    Mark(Mark),
    Unknown,
}

/// A run of tokens understood as one thing.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(super) struct Chunk {
    pub(super) item: Item,
    /// First token, and the one past the last.
    pub(super) from: u32,
    pub(super) to: u32,
    /// The first token's key.
    pub(super) key: u64,
}

impl Chunk {
    pub(super) fn is_mark(&self, mark: Mark) -> bool {
        self.item == Item::Mark(mark)
    }

    pub(super) const fn word(&self) -> Option<Word> {
        match self.item {
            Item::Word(word) => Some(word),
            _ => None,
        }
    }
}

/// All chunks of a message.
pub(super) fn scan(text: &str, tokens: &[Token], context: &Context<'_>) -> Vec<Chunk> {
    let mut out: Vec<Chunk> = Vec::with_capacity(tokens.len());
    let mut at = 0;
    while let Some(token) = tokens.get(at) {
        let (used, item) = match made_of(&out, tokens, at) {
            Some(used) => (used, Item::Product(Named::Said(at as u32, (at + used) as u32))),
            None => item(Tokens(&tokens[at..]), text, context),
        };
        let used = used.max(1);
        let mut chunk = Chunk { item, from: at as u32, to: (at + used) as u32, key: token.key };
        // `oh no, 6 bags` mends; `oh no a jar broke` laments.
        if one_of!(token.key, "oh") && used == 1 {
            let next = tokens.get(at + 1).is_some_and(|t| one_of!(t.key, "no"));
            let mends = tokens.get(at + 2).is_none_or(|t| matches!(t.sense, Sense::Mark(_) | Sense::Num(_)));
            chunk.to += u32::from(next && !mends);
        }
        let used = (chunk.to - chunk.from) as usize;
        // `put 7 lb n the freezer`
        if one_of!(token.key, "n") && used == 1 {
            let behind = tokens.get(at + 1..).unwrap_or_default();
            let article = usize::from(behind.first().is_some_and(|t| one_of!(t.key, "the" | "da" | "my" | "our")));
            if matches!(behind.get(article).and_then(Token::word), Some(Word::Store(_))) {
                (chunk.item, chunk.key) = (Item::Word(Word::Link), const { key("in") });
            }
        }
        if let Item::Product(named) = item {
            chunk = own_name(&mut out, tokens, chunk, named);
        }
        out.push(chunk);
        at += used;
    }
    out
}

/// What is made of the food before it, and no longer that food: `pumpkin butter`, `peach pie filling`, `garlic in oil`.
fn made_of(out: &[Chunk], tokens: &[Token], at: usize) -> Option<usize> {
    let input = Tokens(&tokens[at..]);
    let used = match input.key(0) {
        k if one_of!(k, "butter" | "butters") => {
            usize::from(!matches!(input.nth(1).and_then(|t| t.word()), Some(Word::Product | Word::Crop(Crop::Bean))))
        }
        k if one_of!(k, "curd" | "curds") => 1,
        k if one_of!(k, "pie") && one_of!(input.key(1), "filling" | "fillings" | "fillin") => 2,
        k if one_of!(k, "in" | "under" | "w" | "with") && one_of!(input.key(1), "oil") => 2,
        k if one_of!(k, "in" | "under" | "w" | "with") && one_of!(input.key(2), "oil") => {
            3 * usize::from(one_of!(input.key(1), "olive" | "vegetable" | "sunflower" | "canola" | "the" | "some"))
        }
        _ => 0,
    };
    let last = out.last().filter(|_| used > 0)?;
    let last = if last.is_mark(Mark::Hyphen) { out.get(out.len().checked_sub(2)?)? } else { last };
    let food = matches!(
        last.item,
        Item::Crop(_) | Item::Variety(..) | Item::Product(_) | Item::Word(Word::Supply(_)) | Item::Supply(_)
    ) || one_of!(last.key, "greens");
    let any = one_of!(input.key(0), "curd" | "curds" | "pie")
        && matches!(last.item, Item::Unknown | Item::Ripe(_) | Item::Word(Word::Common | Word::Quality | Word::Alien));
    (food || any).then_some(used)
}

fn item(input: Tokens<'_>, text: &str, context: &Context<'_>) -> (usize, Item) {
    let Some(token) = input.first() else { return (1, Item::Unknown) };
    if let Some((used, at)) = recipe(input, text, context.lexicon) {
        return (used, Item::Product(Named::Recipe(at)));
    }
    if let Some((used, id)) = spoken(input, 3) {
        return (used, Item::Product(Named::Known(id)));
    }
    if let Some((used, called)) = called(input, text, context.lexicon) {
        return (used, Item::Batch(called));
    }
    if let Some((used, class)) = shown(input) {
        return (used, Item::Ripe(class));
    }
    if let Some(used) = unripe(input) {
        return (used, Item::Word(Word::Filler));
    }
    match token.sense {
        Sense::Mark(Mark::At) => match moment(input, context) {
            Some((used, moment)) => (used, Item::When(moment)),
            None => (1, Item::Mark(Mark::At)),
        },
        Sense::Mark(mark) => (1, Item::Mark(mark)),
        Sense::Unknown => unknown(input),
        Sense::Word(word) => worded(input, word, context),
        _ => counted(input, context),
    }
}

/// Digits: a date or time where one can be read, otherwise an amount.
fn counted(input: Tokens<'_>, context: &Context<'_>) -> (usize, Item) {
    if let Some((used, moment)) = moment(input, context) {
        return (used, Item::When(moment));
    }
    match amount(input) {
        Some((used, amount)) => (used, Item::Amount(amount)),
        None => (1, Item::Unknown),
    }
}

fn unknown(input: Tokens<'_>) -> (usize, Item) {
    if let Some((used, named)) = product(input) {
        return (used, Item::Product(named));
    }
    match variety(input) {
        Some((used, name, crop)) => (used, Item::Variety(name, crop)),
        None => (1, Item::Unknown),
    }
}

fn worded(input: Tokens<'_>, word: Word, context: &Context<'_>) -> (usize, Item) {
    match word {
        Word::Small(_) | Word::Tens(_) | Word::Hundred | Word::Thousand | Word::Dozen | Word::Couple => {
            return counted_word(input, word, context);
        }
        Word::Part(_) => {
            if let Some((used, class)) = ripeness(input) {
                return (used, Item::Ripe(class));
            }
            return counted_word(input, word, context);
        }
        Word::Unit(_) => return unit(input, word, context),
        Word::Link => return link(input, context),
        Word::Day(_) | Word::Weekday(_) | Word::Month(_) | Word::DayPart(_) => {
            if let Some((used, moment)) = moment(input, context) {
                return (used, Item::When(moment));
            }
        }
        Word::Filler
            if one_of!(
                token_key(input),
                "like" | "roughly" | "approx" | "circa" | "late" | "early" | "first" | "bout"
            ) =>
        {
            if let Some((used, moment)) = moment(input, context) {
                return (used, Item::When(moment));
            }
        }
        _ => {}
    }
    thing(input, word)
}

fn token_key(input: Tokens<'_>) -> u64 {
    input.key(0)
}

fn counted_word(input: Tokens<'_>, word: Word, context: &Context<'_>) -> (usize, Item) {
    // `quarter to eight`, `two days ago`, `seven pm`; most number words begin none of these.
    if let Some((used, moment)) = moment(input, context) {
        return (used, Item::When(moment));
    }
    match amount(input) {
        Some((used, amount)) => (used, Item::Amount(amount)),
        None => (1, Item::Word(word)),
    }
}

/// A unit with no number before it: a jar's size, or a pound left by itself.
fn unit(input: Tokens<'_>, word: Word, context: &Context<'_>) -> (usize, Item) {
    if one_of!(input.key(0), "hour" | "day")
        && let Some((used, moment)) = moment(input, context)
    {
        return (used, Item::When(moment));
    }
    match amount(input) {
        Some((used, amount)) => (used, Item::Amount(amount)),
        None => (1, Item::Word(word)),
    }
}

fn link(input: Tokens<'_>, context: &Context<'_>) -> (usize, Item) {
    let key = input.key(0);
    let dated = one_of!(
        key,
        "at" | "on"
            | "last"
            | "this"
            | "the"
            | "around"
            | "about"
            | "by"
            | "since"
            | "from"
            | "a"
            | "an"
            | "of"
            | "next"
            | "round"
    );
    if dated && let Some((used, moment)) = moment(input, context) {
        return (used, Item::When(moment));
    }
    if one_of!(
        key,
        "a" | "an"
            | "another"
            | "anothr"
            | "annother"
            | "anotha"
            | "the"
            | "that"
            | "this"
            | "last"
            | "minus"
            | "negative"
    ) && let Some((used, amount)) = amount(input)
    {
        return (used, Item::Amount(amount));
    }
    if one_of!(key, "next") && one_of!(input.key(1), "door" | "doors") {
        return (2, Item::Word(Word::Folk));
    }
    (1, Item::Word(Word::Link))
}

/// Nouns and verbs.
fn thing(input: Tokens<'_>, word: Word) -> (usize, Item) {
    // Canning salt and canning jars are not yet canning, nor is bottled lemon juice.
    if one_of!(input.key(0), "canning" | "bottling" | "preserving" | "bottled")
        && matches!(input.nth(1).and_then(|t| t.word()), Some(Word::Supply(_) | Word::Unit(Unit::Jar)))
    {
        return (1, Item::Word(Word::Quality));
    }
    match word {
        Word::Supply(_) | Word::Gear | Word::Verb(Verb::Boil, _) | Word::Quality => {
            if let Some((used, supply)) = supply(input) {
                return (used, Item::Supply(supply));
            }
            if let Some((used, pack)) = pack(input) {
                return (used, Item::Pack(pack));
            }
            if let Some((used, kind)) = canner(input) {
                return (used, Item::Canner(kind));
            }
        }
        _ => {}
    }
    // What the cold did to it is no place, and a deep freeze is one.
    if one_of!(input.key(0), "freezer" | "freezr" | "frzr")
        && one_of!(input.key(1), "burn" | "burned" | "burnt" | "burns")
    {
        return (2, Item::Word(Word::Quality));
    }
    if one_of!(input.key(0), "deep") && one_of!(input.key(1), "freeze" | "freezer") {
        return (2, Item::Store(Stock::Freezer));
    }
    if one_of!(input.key(0), "food") && one_of!(input.key(1), "pantry" | "bank" | "shelf" | "bin" | "drive" | "kitchen")
    {
        return (2, Item::Word(Word::Folk));
    }
    if matches!(
        word,
        Word::Place | Word::PlaceSide | Word::Quality | Word::Common | Word::Filler | Word::Ripe(_) | Word::Alien
    ) && let Some(used) = place(input)
    {
        return (used, Item::Place);
    }
    // One thing: whole ears are no kernels.
    let the = 2 + usize::from(one_of!(input.key(2), "the"));
    if word == Word::Crop(Crop::Corn) && one_of!(input.key(1), "on") && one_of!(input.key(the), "cob" | "cobs") {
        return (the + 1, Item::Crop(Crop::Corn));
    }
    if let Some((used, named)) = product(input) {
        return (used, Item::Product(named));
    }
    if let Some((used, name, crop)) = variety(input) {
        return (used, Item::Variety(name, crop));
    }
    if matches!(word, Word::Ripe(_) | Word::Quality | Word::Filler)
        && let Some((used, class)) = ripeness(input)
    {
        return (used, Item::Ripe(class));
    }
    let item = match word {
        Word::Crop(crop) => Item::Crop(crop),
        Word::Variety(name, crop) => Item::Variety(name, crop),
        Word::Prep(prep) => Item::Prep(prep),
        Word::Ripe(class) => Item::Ripe(class),
        Word::Store(stock) => Item::Store(stock),
        Word::Verb(verb, form) => Item::Verb(verb, form),
        Word::Place => Item::Place,
        other => Item::Word(other),
    };
    (1, item)
}

/// A generic word such as `salsa` takes the household's words before it as part of its name: `fire salsa`.
fn own_name(out: &mut Vec<Chunk>, tokens: &[Token], chunk: Chunk, named: Named) -> Chunk {
    let generic = match named {
        Named::Said(..) => true,
        Named::Known(id) => chunk.to - chunk.from == 1 || !id.contains('-'),
        Named::Recipe(_) => false,
    };
    let mut first = chunk.from as usize;
    if generic {
        while first > 0 && first + 5 > chunk.from as usize && is_name_part(tokens, first - 1) {
            first -= 1;
        }
        // A name does not begin with a joint.
        while first < chunk.from as usize && matches!(tokens[first].sense, Sense::Mark(_) | Sense::Word(Word::Is)) {
            first += 1;
        }
    }
    // `grape juice jelly`: a product before it is what it is made of.
    if generic && let Some(last) = out.last().filter(|c| c.to == chunk.from && matches!(c.item, Item::Product(_))) {
        first = first.min(last.from as usize);
    }
    let plain = first == chunk.from as usize;
    let tomato = first + 1 == chunk.from as usize
        && tokens[first].word() == Some(Word::Crop(Crop::Tomato))
        && matches!(named, Named::Known("salsa"));
    if plain || tomato {
        let item = match named {
            Named::Said(..) => Item::Product(Named::Said(chunk.from, chunk.to)),
            known => Item::Product(known),
        };
        return Chunk { item, ..chunk };
    }
    while out.last().is_some_and(|last| last.from as usize >= first) {
        out.pop();
    }
    // A chunk that reaches into the name keeps what is before it; the name begins behind it.
    let first = out.last().map_or(first, |last| first.max(last.to as usize));
    let from = first as u32;
    if first == chunk.from as usize {
        return Chunk {
            item: if let Named::Said(..) = named {
                Item::Product(Named::Said(chunk.from, chunk.to))
            } else {
                chunk.item
            },
            ..chunk
        };
    }
    Chunk { item: Item::Product(Named::Said(from, chunk.to)), from, to: chunk.to, key: tokens[first].key }
}

fn is_name_part(tokens: &[Token], at: usize) -> bool {
    let token = &tokens[at];
    let owned = || tokens.get(at + 1).is_some_and(|next| next.word() == Some(Word::Is));
    match token.word() {
        Some(Word::Kin | Word::Folk) => owned(),
        Some(Word::Is) => {
            at > 0
                && matches!(tokens[at - 1].sense, Sense::Unknown | Sense::Word(Word::Kin | Word::Folk | Word::Common))
        }
        Some(Word::Unit(Unit::Jar)) => false,
        _ => names(token) && !(token.sense == Sense::Mark(Mark::Hyphen) && at == 0),
    }
}
