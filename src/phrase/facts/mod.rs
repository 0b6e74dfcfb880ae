//! What one clause says, slot by slot, gathered in one pass over its chunks.

mod gather;
mod small_words;

use super::{
    date::Moment,
    day::Called,
    measure::Amount,
    product::{Named, said},
    scan::Chunk,
    token::{Sketch, Token},
    words::{Form, Unit, Verb},
};
use crate::vocabulary::{Acid, CannerKind, Crop, Jar, Pack, Prep, Ripeness, Stock, Supply};
use gather::Gatherer;
pub(super) use gather::gather;

/// Which way a noun is spoken of.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub(super) enum Way {
    #[default]
    None,
    Into,
    From,
    For,
    With,
    Of,
    Below,
}

/// Small words and things that a clause has, one bit each.
pub(super) mod has {
    macro_rules! bits {
        ($($name:ident)+) => { bits!(@ 0; $($name)+); };
        (@ $n:expr; $head:ident $($rest:ident)*) => { pub(in crate::phrase) const $head: u128 = 1 << $n; bits!(@ $n + 1; $($rest)*); };
        (@ $n:expr;) => {};
    }
    bits! {
        STEAM PRESSURE HEAT BURNER TEMP NEEDLE WEIGHT ROLLING WATER CANNER VENT JARS LIDS ACID OUT OFF UP DOWN IN ZERO BELOW
        AT ALL BOTH AGAIN THROUGH DRYER POWDER COMPOST CHICKENS BATCH RACK DUD UNSEALED NOT MODAL FIRST YOU THEY FOLK KIN IT
        SOME EACH TOTAL MORE TO ON JIGGLING DEPRESSURIZED PLANTS AWAY OVER LIQUID ONE GOOD NOW GREEN_ZONE PLEASE
        THOSE AUX
        SHE PLUME THERE
    }
}

/// The slots of a clause.
#[derive(Clone, Debug, Default)]
pub(super) struct Facts<'t> {
    pub(super) text: &'t str,
    pub(super) tokens: &'t [Token],
    pub(super) amounts: Vec<Amount>,
    /// Whether a word for each stands behind one of the amounts.
    pub(super) each: bool,
    /// Between bags and a weight stands `at`, `of`, `x`, `with`.
    pub(super) joined: bool,
    pub(super) when: Option<Moment>,
    /// The date stands before the verb.
    pub(super) leading_when: bool,
    pub(super) crop: Option<Crop>,
    /// The crop that something is for.
    pub(super) goal: Option<Crop>,
    /// The crop's word as said.
    pub(super) crop_at: Option<(u32, u32)>,
    pub(super) variety: Option<&'static str>,
    /// A word no table knows in the place of a variety.
    pub(super) unknown_variety: Option<(u32, u32)>,
    pub(super) prep: Option<Prep>,
    pub(super) ripe: Option<Ripeness>,
    pub(super) place: Option<(u32, u32)>,
    pub(super) place_way: Way,
    /// The place stands before the verb, as what yields.
    pub(super) leading_place: bool,
    /// Words behind `from the` that no table knows as a place.
    pub(super) free_place: Option<(u32, u32)>,
    pub(super) source: Option<Stock>,
    pub(super) dest: Option<Stock>,
    pub(super) stock: Option<Stock>,
    pub(super) product: Option<Named>,
    /// Words that may name a product: from and to.
    pub(super) free_product: Option<(u32, u32)>,
    pub(super) canner: Option<CannerKind>,
    pub(super) pack: Option<Pack>,
    /// A batch by its number or by a name of its own.
    pub(super) batch: Option<Called>,
    pub(super) supply: Option<Supply>,
    /// Skins, halves, slices.
    pub(super) what: Option<(u32, u32)>,
    /// The first verb that can head a statement, and all verbs as bits.
    pub(super) verb: Option<(Verb, Form)>,
    pub(super) verbs: u64,
    pub(super) forms_base: u64,
    pub(super) has: u128,
    /// Words no table knows, things of another world, ordinary words.
    pub(super) unknown: u16,
    pub(super) alien: u16,
    pub(super) common: u16,
    /// What the amount counts is none of ours.
    pub(super) bad_object: bool,
    /// It came to us: `gave us`.
    pub(super) to_us: bool,
    /// `please` stands before the verb.
    pub(super) asked_for: bool,
    /// Something of another world does it: `turkey is thawing`.
    pub(super) alien_subject: bool,
    /// The product's name is the first half of another thing's: `salsa classes`.
    pub(super) compound: bool,
    /// A modal, a negation, or somebody else stands before the verb.
    pub(super) unreal: bool,
    pub(super) negated: bool,
    pub(super) other_subject: bool,
    pub(super) kin_subject: bool,
    /// The keys of its chunks, roughly.
    pub(super) sketch: Sketch,
    /// Chunks, for what needs the order.
    pub(super) chunks: &'t [Chunk],
}

const fn bit(verb: Verb) -> u64 {
    1 << verb as u8
}

impl<'t> Facts<'t> {
    pub(super) fn verb_is(&self, verb: Verb) -> bool {
        self.verbs & bit(verb) != 0
    }

    pub(super) fn any_verb(&self, verbs: &[Verb]) -> bool {
        self.verbs & verbs.iter().fold(0, |bits, verb| bits | bit(*verb)) != 0
    }

    pub(super) fn has(&self, bits: u128) -> bool {
        self.has & bits != 0
    }

    pub(super) fn all(&self, bits: u128) -> bool {
        self.has & bits == bits
    }

    /// Nothing in it is foreign to the kitchen.
    pub(super) fn clean(&self) -> bool {
        self.unknown == 0 && self.alien == 0 && self.common == 0
    }

    pub(super) fn mass(&self) -> Option<&Amount> {
        self.amounts.iter().find(|amount| amount.mass.is_some())
    }

    pub(super) fn unit(&self, unit: Unit) -> Option<&Amount> {
        self.amounts.iter().find(|amount| amount.unit == Some(unit))
    }

    /// The first amount that counts jars; one with a size before one without.
    pub(super) fn jars(&self) -> Option<&Amount> {
        self.amounts
            .iter()
            .find(|a| a.jar.is_some() && !a.uncounted)
            .or_else(|| self.amounts.iter().find(|a| a.is_jars() && !a.uncounted))
    }

    /// A jar's size, with or without a number.
    pub(super) fn jar(&self) -> Option<Jar> {
        self.amounts.iter().find_map(|amount| amount.jar)
    }

    /// A number with no unit.
    pub(super) fn bare(&self) -> Option<&Amount> {
        self.amounts.iter().find(|amount| amount.unit.is_none())
    }

    pub(super) fn has_quantity(&self) -> bool {
        self.amounts.iter().any(|a| !a.uncounted)
    }

    pub(super) fn acid(&self) -> Option<Acid> {
        match self.supply? {
            Supply::LemonJuice => Some(Acid::LemonJuice),
            Supply::CitricAcid => Some(Acid::CitricAcid),
            Supply::Vinegar => Some(Acid::Vinegar),
            _ => None,
        }
    }

    /// Whether one of its words is accepted, inside amounts and names too.
    pub(super) fn any_token(&self, accept: impl Fn(u64) -> bool) -> bool {
        self.chunks.iter().any(|c| {
            self.tokens.get(c.from as usize..c.to as usize).is_some_and(|tokens| tokens.iter().any(|t| accept(t.key)))
        })
    }

    /// The words of a range of tokens.
    pub(super) fn words(&self, (from, to): (u32, u32)) -> Option<String> {
        said(self.text, self.tokens, from as usize, to as usize)
    }

    /// Whether there is anything that could complete a statement begun elsewhere.
    pub(super) fn has_slots(&self) -> bool {
        !self.amounts.is_empty()
            || self.crop.is_some()
            || self.variety.is_some()
            || self.prep.is_some()
            || self.ripe.is_some()
            || self.place.is_some()
            || self.product.is_some()
            || self.canner.is_some()
            || self.pack.is_some()
            || self.source.is_some()
            || self.dest.is_some()
            || self.stock.is_some()
            || self.what.is_some()
            || self.supply.is_some()
            || self.when.is_some()
    }

    /// Takes over what a following clause without a verb adds.
    pub(super) fn absorb(&mut self, other: Facts<'t>) {
        self.amounts.extend(other.amounts);
        self.each |= other.each;
        self.joined |= other.joined;
        self.when = match (self.when, other.when) {
            (Some(one), Some(two)) => Some(one.merge(two)),
            (one, two) => one.or(two),
        };
        self.crop = self.crop.or(other.crop);
        self.crop_at = self.crop_at.or(other.crop_at);
        self.variety = self.variety.or(other.variety);
        self.prep = self.prep.or(other.prep);
        self.ripe = self.ripe.or(other.ripe);
        if self.place.is_none() {
            (self.place, self.place_way) = (other.place, other.place_way);
        }
        self.free_place = self.free_place.or(other.free_place);
        self.source = self.source.or(other.source);
        self.dest = self.dest.or(other.dest);
        self.stock = self.stock.or(other.stock);
        self.product = self.product.or(other.product);
        self.free_product = self.free_product.or(other.free_product);
        self.canner = self.canner.or(other.canner);
        self.pack = self.pack.or(other.pack);
        self.batch = self.batch.or(other.batch);
        self.supply = self.supply.or(other.supply);
        self.what = self.what.or(other.what);
        self.has |= other.has & !(has::MODAL | has::NOT);
        self.bad_object |= other.bad_object;
    }
}

impl Gatherer<'_> {}
