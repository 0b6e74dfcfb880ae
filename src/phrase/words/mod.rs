//! What each word can mean, before the words around it are looked at: one table, one look-up a word.
//!
//! A word has one entry, under its most telling sense; a parser that can use another sense of it asks for the literal
//! (`one_of!`).

mod keywords;
mod table;

use crate::vocabulary::{Crop, Prep, Ripeness, Stock, Supply};
pub(super) use keywords::KEYWORDS;
pub(super) use table::contracted;

/// The sense of a word.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(super) enum Word {
    /// Nought to nineteen.
    Small(u8),
    /// Twenty to ninety.
    Tens(u8),
    Hundred,
    Thousand,
    Dozen,
    /// `couple`, `pair`: two.
    Couple,
    /// `half`, `quarter`, `third`: one over this.
    Part(u8),
    /// An amount that is none: some, several, a few.
    Some,
    Unit(Unit),
    Crop(Crop),
    /// A variety, singular, and the crop where its name alone tells it.
    Variety(&'static str, Option<Crop>),
    Prep(Prep),
    Ripe(Ripeness),
    Store(Stock),
    /// Where things grow.
    Place,
    /// What goes before such a place: back, lower, raised.
    PlaceSide,
    Supply(Supply),
    /// The last word of a product's name: sauce, salsa, pickles.
    Product,
    Verb(Verb, Form),
    /// Days from today.
    Day(i8),
    /// Days from Monday.
    Weekday(u8),
    Month(u8),
    /// Morning, afternoon, evening, night: the hour it is thought to begin.
    DayPart(u8),
    /// I, we.
    First,
    You,
    /// He, she, they.
    They,
    /// People of the household.
    Kin,
    /// Other people.
    Folk,
    Not,
    /// Would, should, going to, want.
    Modal,
    If,
    /// Said, heard, apparently.
    Hearsay,
    /// Remember, years.
    Memory,
    /// Dollars, quid.
    Price,
    /// What, how, when.
    Question,
    /// Is, are, have, did.
    Aux,
    /// The `'s` behind a word.
    Is,
    /// Prepositions and articles.
    Link,
    And,
    /// The canner and what belongs to it.
    Gear,
    /// What can be said of fruit or jars without changing the entry.
    Quality,
    /// Politeness, hedges, chatter.
    Filler,
    /// Known words of no use here.
    Common,
    /// Things that rule the ledger out where they are the object.
    Alien,
}

/// Units and containers.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Unit {
    Pound,
    Ounce,
    FluidOunce,
    Gram,
    Kilo,
    Milligram,
    Millilitre,
    Centilitre,
    Decilitre,
    Litre,
    Teaspoon,
    Tablespoon,
    /// Cups; after a temperature, Celsius.
    C,
    Cup,
    HalfPint,
    Pint,
    Quart,
    Gallon,
    Bushel,
    Peck,
    Lug,
    Crate,
    Bag,
    Tray,
    Jar,
    Box,
    /// A packet, bottle, tub: holds no one knows how much.
    Vessel,
    Load,
    Second,
    Minute,
    Hour,
    /// Minutes; after a height, metres.
    M,
    Days,
    Weeks,
    Months,
    Years,
    Foot,
    Metre,
    /// Miles, inches and the like.
    Far,
    Psi,
    Degree,
    Fahrenheit,
    Celsius,
}

/// What is done.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Verb {
    Pick,
    Cut,
    Bring,
    Freeze,
    Bag,
    Thaw,
    Eat,
    Give,
    Send,
    Toss,
    Throw,
    Count,
    Weigh,
    Begin,
    Make,
    Do,
    Run,
    Drain,
    Pour,
    Fill,
    Pack,
    Add,
    Vent,
    Boil,
    Reach,
    Lose,
    Fall,
    Stop,
    Turn,
    Lift,
    Seal,
    Fail,
    Reprocess,
    Put,
    Set,
    Take,
    Pull,
    Get,
    Grab,
    Go,
    Come,
    Use,
    Finish,
    Open,
    Crack,
    Can,
    Dry,
    Grind,
    Yield,
    Buy,
    Cancel,
    Remind,
    Undo,
    Show,
    Change,
    Plant,
}

/// The form of a verb.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Form {
    Past,
    Ing,
    Base,
}

/// Looks a normalised word up.
pub(super) fn lookup(word: &str) -> Option<Word> {
    if word.is_empty() || word.len() > super::lex::LONGEST {
        return None;
    }
    table::WORDS.get(word).copied()
}
