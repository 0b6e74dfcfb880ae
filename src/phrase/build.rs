//! What the families share when they build a statement: what carries over from clause to clause, the question for
//! what is missing, and the product of a jar.

use super::{
    Context, Lexicon, day,
    facts::{Facts, has},
    measure::mass_unit,
    product::{Named, of_crop, resolve},
    scan::{Chunk, Item},
    spoken::{another_food, is_greens, named_in},
    token::{Mark, one_of, says},
    words::{Form, Unit, Word},
};
use crate::{
    quantity::{Mass, Number},
    statement::{Clarify, Statement, When},
    vocabulary::{Crop, Jar, Kind, Missing, Prep, Product},
};

/// What a clause may leave unsaid because an earlier one said it.
pub(super) struct Carry<'c, 'l> {
    pub(super) context: &'c Context<'l>,
    pub(super) kind: Option<Kind>,
    pub(super) unit: Option<Unit>,
    pub(super) jar: Option<Jar>,
    pub(super) when: Option<When>,
}

impl Carry<'_, '_> {
    /// A bare number in the mass unit used before.
    pub(super) fn mass(&self, n: Number) -> Option<Mass> {
        mass_unit(self.unit?)?.times(n)
    }

    /// When the clause happened: what it says, or what was said for the whole sentence; only for kinds whose
    /// statements tell it.
    pub(super) fn when(&self, kind: Kind, f: &Facts<'_>) -> Option<When> {
        if !tells_when(kind) {
            return None;
        }
        f.when.and_then(|moment| moment.when(self.context)).or(self.when)
    }

    /// The batch a stage belongs to, when the clause names one.
    pub(super) fn batch(&self, f: &Facts<'_>) -> Option<String> {
        // With none open there is none to name: `thawed 14 lb for sauce` only says what for.
        let open = self.context.lexicon.batch_names().next().is_some();
        self.called(f).or_else(|| self.named_as_product(f)).or_else(|| self.product_said(f).filter(|_| open))
    }

    /// The batch that a clause speaks of, open or not: by its name or number, otherwise by what is made.
    pub(super) fn batch_meant(&self, f: &Facts<'_>) -> Option<String> {
        self.called(f).or_else(|| self.named_as_product(f)).or_else(|| self.product_said(f))
    }

    /// A batch by its number or by a name of its own.
    pub(super) fn called(&self, f: &Facts<'_>) -> Option<String> {
        let known = f.batch.and_then(|called| called.name(self.context.lexicon));
        known.or_else(|| day::plain_name(f, self.context.lexicon))
    }

    /// `sauce`, where the batch of that name may be of another one than the usual: the latest of those called so.
    pub(super) fn named_as_product(&self, f: &Facts<'_>) -> Option<String> {
        let Lexicon { batches, closed, .. } = self.context.lexicon;
        let at = f.chunks.iter().find(|c| matches!(c.item, Item::Product(named) if Some(named) == f.product))?;
        let word = f.words((at.from, at.to)).filter(|_| at.to - at.from == 1)?;
        let numbered = |rest: &str| rest.strip_prefix(' ').is_some_and(|n| n.parse::<u32>().is_ok());
        let like =
            |name: &&String| name.strip_prefix(word.as_str()).is_some_and(|rest| rest.is_empty() || numbered(rest));
        batches.iter().rfind(like).or_else(|| closed.iter().rfind(like)).filter(|name| **name == word).cloned()
    }

    fn product_said(&self, f: &Facts<'_>) -> Option<String> {
        let product = resolve(f.product?, f.text, f.tokens, self.context.lexicon)?;
        Some(product.as_str().to_owned())
    }
}

/// Kinds whose published form has a date; the others happen when they are said.
const fn tells_when(kind: Kind) -> bool {
    matches!(
        kind,
        Kind::Picked
            | Kind::Froze
            | Kind::Thawed
            | Kind::Ate
            | Kind::Gave
            | Kind::Tossed
            | Kind::PutUp
            | Kind::Opened
            | Kind::Planted
    )
}

/// A question for what is missing.
pub(super) fn clarify((about, partial): (Kind, Statement), missing: Missing, amount: Option<Number>) -> Statement {
    Statement::Clarify(Clarify { word: None, about, missing, amount, partial: Some(Box::new(partial)) })
}

/// The same, if the clause is sure to be meant for the ledger.
pub(super) fn clarify_if(
    sure: bool,
    about: (Kind, Statement),
    missing: Missing,
    amount: Option<Number>,
) -> Option<Statement> {
    sure.then(|| clarify(about, missing, amount))
}

/// A verb and a number: no foreign word beside them.
pub(super) fn is_plain(f: &Facts<'_>) -> bool {
    f.clean() && !f.has(has::YOU | has::THEY)
}

/// Told in the past by the household, of something of the garden, with no foreign word.
pub(super) fn is_told(f: &Facts<'_>) -> bool {
    let thing = f.crop.is_some()
        || f.variety.is_some()
        || f.has(has::SOME)
        || f.place.is_some()
        || f.supply.is_some()
        || f.product.is_some();
    let past = f.verb.is_some_and(|(_, form)| form == Form::Past);
    // `the peppers froze last night`: they did it by themselves.
    let verb_at = f.chunks.iter().position(|c| matches!(c.item, super::scan::Item::Verb(..)));
    let crop_at =
        f.chunks.iter().position(|c| matches!(c.item, super::scan::Item::Crop(_) | super::scan::Item::Variety(..)));
    let by_itself = crop_at.zip(verb_at).is_some_and(|(crop, verb)| crop < verb) && !f.has(has::FIRST);
    thing && past && is_plain(f) && !f.kin_subject && !by_itself
}

/// Jars that are said to be out of somewhere else than a stock.
pub(super) fn part_of_day_out(_: &Facts<'_>) -> bool {
    false
}

/// Whether a product is of one pack by its name.
pub(super) fn says_pack(product: Option<&Product>) -> bool {
    product.is_some_and(|product| product.as_str() == "tomato-whole-raw")
}

/// The product of the jars in a clause. What is made of a food is not that food: `pumpkin stew` is the household's own.
pub(super) fn product(f: &Facts<'_>, carry: &Carry<'_, '_>) -> Option<Product> {
    let named = named(f, carry)?;
    match made_of(f) {
        Some(made) if !matches!(f.product, Some(Named::Recipe(_))) => Some(made),
        _ => Some(named),
    }
}

/// A dish right behind the food that it is made of, with all words for it.
fn made_of(f: &Facts<'_>) -> Option<Product> {
    let food =
        |c: &Chunk| matches!(c.item, Item::Crop(_) | Item::Variety(..) | Item::Product(_)) || one_of!(c.key, "greens");
    let part = |c: &Chunk| {
        food(c)
            || matches!(c.item, Item::Prep(_) | Item::Ripe(_) | Item::Mark(Mark::Hyphen) | Item::Word(Word::Quality))
    };
    let dish = f.chunks.iter().enumerate().position(|(at, c)| {
        is_dish(c.key)
            && !matches!(c.item, Item::Product(_))
            && f.chunks[..at].iter().rev().find(|c| !c.is_mark(Mark::Hyphen)).is_some_and(food)
    })?;
    let first = f.chunks[..dish].iter().rposition(|c| !part(c)).map_or(0, |at| at + 1);
    f.words((f.chunks[first].from, f.chunks[dish].to)).map(|name| Product::named(&name))
}

fn is_dish(key: u64) -> bool {
    one_of!(
        key,
        "puree"
            | "purée"
            | "stew"
            | "stock"
            | "paste"
            | "leather"
            | "wine"
            | "cake"
            | "bread"
            | "mash"
            | "conserve"
            | "conserves"
            | "spread"
            | "curry"
            | "casserole"
            | "pie"
            | "pies"
            | "cobbler"
            | "mincemeat"
            | "butter"
            | "curd"
            | "dip"
            | "dressing"
            | "glaze"
            | "vinaigrette"
            | "mustard"
            | "gravy"
            | "chowder"
            | "bisque"
            | "gazpacho"
            | "pudding"
            | "custard"
            | "cream"
            | "hummus"
            | "vinegar"
            | "liqueur"
            | "brandy"
            | "caviar"
            | "cocktail"
            | "topping"
            | "medley"
            | "mix"
            | "crisp"
            | "crumble"
            | "pulp"
            | "concentrate"
            | "nectar"
            | "drink"
            | "smoothie"
            | "risotto"
            | "lasagne"
            | "lasagna"
            | "goulash"
            | "ratatouille"
            | "salad"
            | "aspic"
            | "gratin"
            | "sprouts"
            | "shoots"
            | "pods"
            | "tops"
            | "leaves"
            | "stems"
            | "seeds"
            | "cobs"
            | "rind"
            | "rinds"
            | "peel"
            | "peels"
            | "blossoms"
            | "caponata"
    )
}

fn named(f: &Facts<'_>, carry: &Carry<'_, '_>) -> Option<Product> {
    let whole =
        matches!(f.crop, Some(Crop::Tomato)) || f.crop.is_none() && matches!(f.prep, Some(Prep::Whole | Prep::Halved));
    let liquid = matches!(f.product, Some(Named::Known("tomato-juice")));
    if whole && f.crop.is_some() && liquid {
        return Some(Product::tested("tomato-whole-juice"));
    }
    if let Some(other) = another_food(f) {
        return Some(other);
    }
    if let Some(named) = f.product {
        return resolve(named, f.text, f.tokens, carry.context.lexicon);
    }
    if let Some(known) = named_in(f) {
        return Some(known);
    }
    if is_greens(f) {
        return Some(Product::tested("greens"));
    }
    let dry = f.has(has::NOT) || says!(f, "without");
    if whole && f.has(has::WATER) && !dry {
        return Some(Product::tested("tomato-whole-water"));
    }
    if whole && f.pack == Some(crate::vocabulary::Pack::Raw) || whole && dry && f.has(has::WATER) {
        return Some(Product::tested("tomato-whole-raw"));
    }
    // `dilly beans` is a recipe of their own.
    if let (Some((from, to)), Some((crop, end))) = (f.free_product, f.crop_at)
        && to == crop
        && f.alien == 0
    {
        return f.words((from, end)).map(|name| Product::named(&name));
    }
    if let Some(crop) = f.crop {
        return Some(Product::tested(of_crop(crop, f.prep, f.ripe)));
    }
    match f.prep {
        Some(Prep::Crushed) => return Some(Product::tested("tomato-crushed")),
        Some(Prep::Whole) => return Some(Product::tested("whole tomatoes")),
        _ => {}
    }
    if f.variety.is_some() {
        return Some(Product::tested("whole tomatoes"));
    }
    if f.alien > 0 {
        return None;
    }
    f.words(f.free_product?).map(|name| Product::named(&name))
}
