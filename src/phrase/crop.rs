//! What grows and where: varieties of several words, colours, and places in the garden.

use super::{
    token::{Beginnings, Sense, Tokens, key, one_of},
    words::{Unit, Word},
};
use crate::vocabulary::{Crop, Ripeness};

/// A variety of several words, its singular, and the crop that its name alone tells.
type Named = (&'static [u64], &'static str, Option<Crop>);

macro_rules! named {
    ($($($word:literal)+ => $name:literal $(, $crop:ident)?);+ $(;)?) => {
        &[$((&[$(key($word)),+], $name, named!(@crop $($crop)?))),+]
    };
    (@crop) => { None };
    (@crop $crop:ident) => { Some(Crop::$crop) };
}

/// Names as growers use them; the plural is on the last word.
static VARIETIES: &[Named] = named! {
    "san" "marzano" => "san marzano"; "san" "marzanos" => "san marzano";
    "early" "girl" => "early girl"; "early" "girls" => "early girl";
    "amish" "paste" => "amish paste"; "amish" "pastes" => "amish paste";
    "black" "krim" => "black krim"; "black" "krims" => "black krim";
    "black" "cherry" => "black cherry"; "black" "cherries" => "black cherry";
    "black" "beauty" => "black beauty"; "black" "beauties" => "black beauty";
    "green" "zebra" => "green zebra"; "green" "zebras" => "green zebra";
    "big" "boy" => "big boy"; "big" "boys" => "big boy"; "better" "boy" => "better boy"; "better" "boys" => "better boy";
    "big" "beef" => "big beef"; "big" "beefs" => "big beef"; "beef" "master" => "beefmaster"; "beef" "masters" => "beefmaster";
    "sun" "gold" => "sungold"; "sun" "golds" => "sungold"; "sun" "sugar" => "sun sugar"; "sun" "sugars" => "sun sugar";
    "cherokee" "purple" => "cherokee purple"; "cherokee" "purples" => "cherokee purple";
    "pink" "brandywine" => "pink brandywine"; "pink" "brandywines" => "pink brandywine";
    "yellow" "pear" => "yellow pear"; "yellow" "pears" => "yellow pear"; "sweet" "million" => "sweet million"; "sweet" "millions" => "sweet million";
    "mortgage" "lifter" => "mortgage lifter"; "mortgage" "lifters" => "mortgage lifter";
    "gardeners" "delight" => "gardener's delight"; "gardener" "'s" "delight" => "gardener's delight";
    "ailsa" "craig" => "ailsa craig"; "ailsa" "craigs" => "ailsa craig"; "german" "johnson" => "german johnson"; "german" "johnsons" => "german johnson";
    "cuore" "di" "bue" => "cuore di bue"; "principe" "borghese" => "principe borghese"; "ox" "heart" => "oxheart"; "ox" "hearts" => "oxheart";
    "speckled" "roman" => "speckled roman"; "speckled" "romans" => "speckled roman"; "new" "girl" => "new girl"; "new" "girls" => "new girl";
    "hungarian" "wax" => "hungarian wax", Pepper; "banana" "pepper" => "banana", Pepper; "banana" "peppers" => "banana", Pepper;
    "bell" "pepper" => "bell", Pepper; "bell" "peppers" => "bell", Pepper; "sweet" "100" => "sweet 100"; "sweet" "100s" => "sweet 100";
    "runner" "beans" => "runner", Bean; "runner" "bean" => "runner", Bean; "pole" "beans" => "pole", Bean; "french" "beans" => "french", Bean; "lima" "beans" => "lima", Bean;
    "rutgers" => "rutgers"; "costoluto" => "costoluto"; "tigerella" => "tigerella"; "tigerellas" => "tigerella"; "alicante" => "alicante"; "alicantes" => "alicante"; "shirley" => "shirley"; "shirleys" => "shirley";
    "oxheart" => "oxheart"; "oxhearts" => "oxheart"; "beefmaster" => "beefmaster"; "beefmasters" => "beefmaster"; "krim" => "black krim"; "krims" => "black krim";
    "plum" "tomatoes" => "plum", Tomato; "plum" "tomato" => "plum", Tomato; "plum" "toms" => "plum", Tomato; "paste" "tomatoes" => "paste", Tomato; "paste" "tomato" => "paste", Tomato; "paste" "toms" => "paste", Tomato;
    "beef" "tomatoes" => "beef", Tomato; "sauce" "tomatoes" => "sauce", Tomato; "salad" "tomatoes" => "salad", Tomato; "vine" "tomatoes" => "vine", Tomato; "slicing" "tomatoes" => "slicing", Tomato; "sweet" "potatoes" => "sweet", Potato;
};

static BEGINNINGS: Beginnings = {
    let (mut set, mut at) = (Beginnings::EMPTY, 0);
    while at < VARIETIES.len() {
        set = set.with(VARIETIES[at].0[0]);
        at += 1;
    }
    set
};

/// A variety at the start: how many words, its name, and the crop if told.
pub(super) fn variety(input: Tokens<'_>) -> Option<(usize, &'static str, Option<Crop>)> {
    let first = input.first()?;
    if let Some(Word::Variety(name, crop)) = first.word() {
        // `black cherries` and the like are found below; `cherry` needs its tomatoes, or stands alone.
        return Some((1, name, crop));
    }
    if !BEGINNINGS.may_have(first.key)
        || !matches!(
            first.sense,
            Sense::Unknown
                | Sense::Word(
                    Word::Common
                        | Word::Quality
                        | Word::Ripe(_)
                        | Word::Filler
                        | Word::Crop(_)
                        | Word::Product
                        | Word::Alien
                        | Word::Gear
                        | Word::Weekday(_)
                )
        )
    {
        return None;
    }
    VARIETIES
        .iter()
        .find(|(words, ..)| words[0] == first.key && words.iter().enumerate().all(|(n, word)| input.key(n) == *word))
        .map(|(words, name, crop)| (words.len(), *name, *crop))
}

/// A colour class of one or more words.
pub(super) fn ripeness(input: Tokens<'_>) -> Option<(usize, Ripeness)> {
    let reddish = |n: usize| one_of!(input.key(n), "red" | "ripe" | "coloured" | "colored");
    let first = input.first()?;
    let hyphen = usize::from(input.nth(1).is_some_and(|t| t.is_mark(super::token::Mark::Hyphen)));
    match first.word()? {
        Word::Part(2) if reddish(1 + hyphen) => Some((2 + hyphen, Ripeness::Pink)),
        Word::Quality if one_of!(first.key, "light") && one_of!(input.key(1 + hyphen), "red") => {
            Some((2 + hyphen, Ripeness::LightRed))
        }
        Word::Filler if one_of!(first.key, "nearly" | "almost" | "mostly") && reddish(1) => {
            Some((2, Ripeness::LightRed))
        }
        Word::Ripe(_)
            if one_of!(first.key, "turning")
                && matches!(input.nth(1).and_then(|t| t.word()), Some(Word::Ripe(Ripeness::Red))) =>
        {
            Some((2, Ripeness::Turning))
        }
        Word::Ripe(class) => Some((1, class)),
        _ => None,
    }
}

/// `not ripe yet`, `not quite red`: no class that could be told, and its tokens.
pub(super) fn unripe(input: Tokens<'_>) -> Option<usize> {
    let not = one_of!(input.key(0), "not" | "isnt" | "arent" | "wasnt" | "werent");
    let softened = |n: &usize| {
        one_of!(input.key(*n), "quite" | "yet" | "fully" | "really" | "very" | "all" | "that" | "so" | "completely")
    };
    let ripe = 1 + (1..4).take_while(softened).count();
    let class = input.nth(ripe).and_then(|t| t.word());
    (not && matches!(class, Some(Word::Ripe(Ripeness::Red | Ripeness::LightRed | Ripeness::Pink))))
        .then(|| ripe + 1 + usize::from(one_of!(input.key(ripe + 1), "yet")))
}

/// `about a third red`, `2/3 red`, `three quarters coloured`.
fn share(input: Tokens<'_>) -> Option<(usize, Ripeness)> {
    let about = usize::from(one_of!(input.key(0), "about"));
    let first = input.nth(about)?;
    let part = |at: usize| match input.nth(at)?.word() {
        Some(Word::Part(of)) => Some(f64::from(of)),
        _ if one_of!(input.key(at), "quarters" | "fourth" | "fourths") => Some(4.0),
        _ => None,
    };
    let (used, share) = match first.sense {
        Sense::Ratio(above, below) if above < below => (about + 1, f64::from(above) / f64::from(below)),
        Sense::Word(Word::Small(n)) => (about + 2, f64::from(n) / part(about + 1)?),
        Sense::Num(n) => (about + 2, n.as_f64() / part(about + 1)?),
        _ if one_of!(first.key, "a") => (about + 2, 1.0 / part(about + 1)?),
        _ => (about + 1, 1.0 / part(about)?),
    };
    let red = one_of!(input.key(used), "red" | "ripe" | "coloured" | "colored");
    red.then(|| class_of(100.0 * share)).flatten().map(|class| (used + 1, class))
}

/// A colour class by how much of the skin shows colour: `20% red`, `a third red`, `starting to turn`; and `mature green`.
pub(super) fn shown(input: Tokens<'_>) -> Option<(usize, Ripeness)> {
    let first = input.first()?;
    if let Some(read) = share(input) {
        return Some(read);
    }
    match first.sense {
        Sense::Num(n) => {
            let percent = if input.nth(1)?.is_mark(super::token::Mark::Percent)
                || one_of!(input.key(1), "percent" | "pct" | "prct")
            {
                2
            } else if one_of!(input.key(1), "per") && one_of!(input.key(2), "cent") {
                3
            } else {
                return None;
            };
            let red = one_of!(input.key(percent), "red" | "coloured" | "colored" | "colour" | "color");
            red.then(|| class_of(n.as_f64())).flatten().map(|class| (percent + 1, class))
        }
        _ if one_of!(first.key, "mature") => {
            let hyphen = usize::from(input.nth(1)?.is_mark(super::token::Mark::Hyphen));
            one_of!(input.key(1 + hyphen), "green" | "greens").then_some((2 + hyphen, Ripeness::Green))
        }
        _ if one_of!(first.key, "starting" | "beginning" | "started" | "startin") && one_of!(input.key(1), "to") => {
            starting(input).map(|used| (used, Ripeness::Breakers))
        }
        _ => None,
    }
}

/// The class of a share of the surface that is not green, in percent: 7 CFR 51.1860.
fn class_of(percent: f64) -> Option<Ripeness> {
    match percent {
        p if !(0.0..=100.0).contains(&p) => None,
        0.0 => Some(Ripeness::Green),
        p if p <= 10.0 => Some(Ripeness::Breakers),
        p if p <= 30.0 => Some(Ripeness::Turning),
        p if p <= 60.0 => Some(Ripeness::Pink),
        p if p <= 90.0 => Some(Ripeness::LightRed),
        _ => Some(Ripeness::Red),
    }
}

/// `starting to turn`, `beginning to show colour`; `starting to turn the heat up` is no colour.
fn starting(input: Tokens<'_>) -> Option<usize> {
    let colour = |n: usize| one_of!(input.key(n), "red" | "pink" | "orange" | "colour" | "color");
    let used = match input.key(2) {
        k if one_of!(k, "turn" | "go" | "show") && colour(3) => 4,
        k if one_of!(k, "turn" | "colour" | "color" | "blush" | "redden" | "ripen") => 3,
        _ => return None,
    };
    let ends = match input.nth(used).map(|t| t.sense) {
        None | Some(Sense::Mark(_)) => true,
        Some(Sense::Word(Word::And | Word::Link)) => one_of!(input.key(used), "and" | "from" | "but" | "today"),
        Some(Sense::Word(Word::Day(_))) => true,
        _ => false,
    };
    ends.then_some(used)
}

/// A place in the garden: `back garden`, `bed 3`, `hoop house`, `fence row`; how many words, without the article.
pub(super) fn place(input: Tokens<'_>) -> Option<usize> {
    let mut at = 0;
    while at < 3 && is_side(input, at) {
        at += 1;
    }
    match input.nth(at)?.word()? {
        Word::Place => at += 1,
        _ if one_of!(input.key(at), "house")
            && at > 0
            && one_of!(input.key(at - 1), "hoop" | "poly" | "glass" | "hot" | "green" | "shade") =>
        {
            at += 1
        }
        _ if one_of!(input.key(at), "frame" | "frames") && at > 0 && one_of!(input.key(at - 1), "cold") => at += 1,
        _ => return None,
    }
    while at < 5
        && (matches!(input.nth(at).and_then(|t| t.word()), Some(Word::Place))
            || one_of!(input.key(at), "house") && one_of!(input.key(at - 1), "hoop"))
    {
        at += 1;
    }
    // `bed 3`, `row two`, unless the number counts something.
    let hash = usize::from(input.nth(at).is_some_and(|t| t.is_mark(super::token::Mark::Hash)));
    let numbered = matches!(input.nth(at + hash).map(|t| t.sense), Some(Sense::Num(_) | Sense::Word(Word::Small(_))));
    let counts = matches!(input.nth(at + hash + 1).and_then(|t| t.word()), Some(Word::Unit(unit)) if unit != Unit::Second)
        || input.nth(at + hash + 1).is_some_and(|t| t.is_mark(super::token::Mark::Hash));
    if numbered
        && !counts
        && one_of!(
            input.key(at - 1),
            "bed"
                | "row"
                | "tunnel"
                | "plot"
                | "greenhouse"
                | "field"
                | "patch"
                | "border"
                | "planter"
                | "polytunnel"
                | "beds"
                | "rows"
        )
    {
        at += hash + 1;
    }
    Some(at)
}

fn is_side(input: Tokens<'_>, at: usize) -> bool {
    let Some(token) = input.nth(at) else { return false };
    let is_place = |n: usize| matches!(input.nth(n).and_then(|t| t.word()), Some(Word::Place | Word::PlaceSide));
    match token.word() {
        Some(Word::PlaceSide) => true,
        Some(Word::Quality) => one_of!(token.key, "big" | "small" | "little" | "old" | "new") && is_place(at + 1),
        _ => {
            one_of!(
                token.key,
                "top" | "bottom" | "far" | "main" | "high" | "second" | "long" | "glass" | "middle" | "bottom"
            ) && (is_place(at + 1) || one_of!(input.key(at + 1), "house"))
        }
    }
}

/// The speaker's own word for a crop, as written; the first one in the message.
pub(super) fn said(text: &str, crop: Crop) -> Option<&str> {
    let of = |token: &super::token::Token| match token.word()? {
        Word::Crop(said) => Some(said),
        Word::Variety(_, said) => said,
        _ => None,
    };
    let tokens = super::lex::lex(text);
    let named = tokens.iter().find(|token| matches!(token.word(), Some(Word::Crop(said)) if said == crop));
    let token = named.or_else(|| tokens.iter().find(|token| of(token) == Some(crop)))?;
    text.get(token.from as usize..token.to as usize)
}
