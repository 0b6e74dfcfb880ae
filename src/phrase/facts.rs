//! What one clause says, slot by slot, gathered in one pass over its chunks.

use super::{
    date::Moment,
    measure::Amount,
    product::{Named, said},
    scan::{Chunk, Item},
    token::{Mark, Sense, Sketch, Token, one_of},
    words::{Form, Unit, Verb, Word},
};
use crate::vocabulary::{Acid, CannerKind, Crop, Jar, Pack, Prep, Ripeness, Stock, Supply};

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
        self.supply = self.supply.or(other.supply);
        self.what = self.what.or(other.what);
        self.has |= other.has & !(has::MODAL | has::NOT);
        self.bad_object |= other.bad_object;
    }
}

/// Gathers the facts of a clause.
pub(super) fn gather<'t>(text: &'t str, tokens: &'t [Token], chunks: &'t [Chunk]) -> Facts<'t> {
    let sketch = chunks.iter().fold(Sketch::EMPTY, |sketch, chunk| sketch.with(chunk.key));
    let mut gatherer = Gatherer {
        facts: Facts { text, tokens, chunks, sketch, ..Facts::default() },
        way: Way::None,
        object: false,
        named: None,
        subject: 0,
        every: false,
    };
    for (at, chunk) in chunks.iter().enumerate() {
        gatherer.take(chunk, chunks.get(at + 1));
    }
    gatherer.end_name(u32::MAX);
    gatherer.facts
}

/// The number of `at 7` and `@ 7`, with nothing that makes it a time for sure.
fn bare_at(tokens: &[Token], chunk: &Chunk) -> Option<Amount> {
    match tokens.get(chunk.from as usize..chunk.to as usize)? {
        [at, Token { sense: Sense::Num(n), .. }] if one_of!(at.key, "at") || at.is_mark(Mark::At) => {
            Some(Amount::of(*n))
        }
        _ => None,
    }
}

struct Gatherer<'t> {
    facts: Facts<'t>,
    way: Way,
    /// An amount was just said and waits for what it counts.
    object: bool,
    /// Words that may be a name: first token, one past the last.
    named: Option<(u32, u32, Way)>,
    /// What stood before the verb.
    subject: u128,
    /// `every` was just said.
    every: bool,
}

impl Gatherer<'_> {
    fn take(&mut self, chunk: &Chunk, next: Option<&Chunk>) {
        let f = &mut self.facts;
        let object = std::mem::take(&mut self.object);
        if !matches!(chunk.item, Item::Amount(_)) {
            self.every = one_of!(chunk.key, "every" | "each");
        }
        match chunk.item {
            Item::Amount(amount) => {
                // `every one of them` is no number.
                if std::mem::take(&mut self.every) && amount.number.as_whole() == Some(1) {
                    f.has |= has::ALL | has::ONE;
                    return;
                }
                if !f.amounts.is_empty()
                    && (self.way == Way::Of || self.way == Way::With || f.joined)
                    && amount.mass.is_some()
                {
                    f.joined = true;
                }
                if amount.unit == Some(Unit::Jar) {
                    f.has |= has::JARS;
                }
                if amount.number.as_whole() == Some(0) {
                    f.has |= has::ZERO;
                }
                f.amounts.push(amount);
                self.object = !amount.uncounted;
                self.way = Way::None;
                return;
            }
            // `3 bags at 7`: what each weighs, not an hour.
            Item::When(_)
                if object
                    && f.amounts.last().is_some_and(|a| a.is(Unit::Bag))
                    && bare_at(f.tokens, chunk).is_some() =>
            {
                f.joined = true;
                f.amounts.extend(bare_at(f.tokens, chunk));
                return;
            }
            // `thawing for tomorrow`: what it is for is not when it was done.
            Item::When(moment) if self.way == Way::For && moment.future => {}
            Item::When(moment) => {
                f.leading_when |= f.verb.is_none() && f.amounts.is_empty();
                f.when = Some(f.when.map_or(moment, |first| first.merge(moment)));
            }
            Item::Product(named) => {
                if self.way == Way::Into
                    && f.has_quantity()
                    && f.product.is_none()
                    && f.mass().is_some()
                    && !f.verb_is(Verb::Make)
                {
                    // `2 lb in the sauce` is eaten in it.
                } else if f.product.is_none() && self.way != Way::For || self.way == Way::Of {
                    f.product = Some(named);
                } else {
                    f.product = f.product.or(Some(named));
                }
                let behind = next.is_some_and(|n| {
                    n.from == chunk.to && matches!(n.item, Item::Unknown | Item::Word(Word::Common | Word::Alien))
                });
                f.compound |= behind
                    && f.tokens.get(chunk.to as usize).is_some_and(|t| t.sense != Sense::Unknown || t.to - t.from > 3);
                if one_of!(chunk.key, "juice" | "water") {
                    f.has |= has::LIQUID;
                }
            }
            // What it is for is not what it is: `a bag for chili`, `3 lb in the chili`.
            Item::Crop(crop) if matches!(self.way, Way::For | Way::Into) && f.has_quantity() => {
                f.goal = f.goal.or(Some(crop))
            }
            Item::Crop(crop) => {
                f.crop = f.crop.or(Some(crop));
                f.crop_at = f.crop_at.or(Some((chunk.from, chunk.to)));
            }
            Item::Variety(name, crop) => {
                f.variety = f.variety.or(Some(name));
                f.crop = f.crop.or(crop);
            }
            Item::Prep(prep) => f.prep = f.prep.or(Some(prep)),
            // `the green tunnel` is no colour of the fruit.
            Item::Ripe(_) if next.is_some_and(|n| n.item == Item::Place) && self.way != Way::None => return,
            Item::Ripe(class) => {
                f.ripe = f.ripe.or(Some(class));
                self.object = object;
                if one_of!(chunk.key, "green") && self.way == Way::Into {
                    f.has |= has::GREEN_ZONE;
                }
                return;
            }
            Item::Place => {
                f.leading_place |= f.verb.is_none() && self.way == Way::None && f.amounts.is_empty();
                if f.place.is_none() || self.way == Way::From && f.place_way != Way::From {
                    (f.place, f.place_way) = (Some((chunk.from, chunk.to)), self.way);
                }
            }
            Item::Store(stock) => match self.way {
                Way::From => f.source = Some(stock),
                Way::Into if stock != Stock::Counter => f.dest = Some(stock),
                Way::For if stock == Stock::Freezer => f.dest = Some(stock),
                _ => f.stock = Some(stock),
            },
            Item::Supply(supply) => {
                f.supply = f.supply.or(Some(supply));
                if supply == Supply::Lids {
                    f.has |= has::LIDS;
                }
            }
            Item::Canner(kind) => {
                f.canner = f.canner.or(Some(kind));
                f.has |= has::CANNER;
                if self.way == Way::From {
                    f.has |= has::OUT;
                }
                self.gear(chunk.key);
            }
            Item::Pack(pack) => f.pack = f.pack.or(Some(pack)),
            Item::Verb(verb, form) => return self.verb(chunk, verb, form, object, next),
            Item::Word(word) => return self.word(chunk, word, object, next),
            Item::Mark(mark) => {
                if matches!(mark, Mark::At | Mark::Times) && !f.amounts.is_empty() {
                    f.joined = true;
                }
                f.has |= match mark {
                    Mark::At => has::AT,
                    Mark::Plus => has::MORE,
                    _ => 0,
                };
                if mark == Mark::Hyphen {
                    self.object = object;
                    return;
                }
            }
            Item::Unknown => return self.unknown(chunk, object),
        }
        self.end_name(chunk.from);
        self.way = Way::None;
    }

    fn unknown(&mut self, chunk: &Chunk, object: bool) {
        let f = &mut self.facts;
        if is_exclamation(f.text, f.tokens, chunk) {
            self.object = object;
            return;
        }
        f.unknown += 1;
        if object {
            f.bad_object = true;
            f.unknown_variety = f.unknown_variety.or(Some((chunk.from, chunk.to)));
        }
        self.name(chunk);
    }

    /// Words that may be a place (`from the south slope`) or a product (`of dilly beans`) of the household's own.
    fn name(&mut self, chunk: &Chunk) {
        self.named = match self.named {
            Some((from, to, way)) if to == chunk.from => Some((from, chunk.to, way)),
            Some(_) => {
                self.end_name(chunk.from);
                Some((chunk.from, chunk.to, self.way))
            }
            None => Some((chunk.from, chunk.to, self.way)),
        };
    }

    fn end_name(&mut self, _at: u32) {
        if let Some((from, to, way)) = self.named.take() {
            match way {
                Way::From => self.facts.free_place = self.facts.free_place.or(Some((from, to))),
                Way::None if self.facts.verb.is_none() && self.facts.amounts.is_empty() => {}
                Way::Of | Way::None => self.facts.free_product = self.facts.free_product.or(Some((from, to))),
                _ => {}
            }
        }
    }

    fn verb(&mut self, chunk: &Chunk, verb: Verb, form: Form, object: bool, next: Option<&Chunk>) {
        self.end_name(chunk.from);
        let f = &mut self.facts;
        if one_of!(chunk.key, "done" | "do" | "going" | "go" | "see" | "gone") {
            self.object = object;
        }
        // `used to` remembers; `to thaw` and `out to defrost` are what the bags are out for.
        if one_of!(chunk.key, "used") && next.is_some_and(|n| one_of!(n.key, "to")) {
            f.unreal = true;
        }
        f.verbs |= bit(verb);
        if form == Form::Base {
            f.forms_base |= bit(verb);
        }
        if f.verb.is_none() || is_weak(f.verb) && !is_weak(Some((verb, form))) {
            if is_weak(f.verb) {
                f.unreal |= self.subject & has::MODAL != 0;
                f.negated |= self.subject & has::NOT != 0;
                f.other_subject =
                    self.subject & (has::FOLK | has::THEY | has::YOU) != 0 && self.subject & has::FIRST == 0;
                f.kin_subject = self.subject & has::KIN != 0;
            }
            f.verb = Some((verb, form));
        }
        f.has |= match verb {
            Verb::Vent => has::VENT,
            _ => 0,
        };
        self.way = match verb {
            Verb::Use | Verb::Take if form != Form::Past => Way::With,
            _ => Way::None,
        };
    }

    fn word(&mut self, chunk: &Chunk, word: Word, object: bool, next: Option<&Chunk>) {
        let before_verb = self.facts.verb.is_none_or(|verb| is_weak(Some(verb)));
        let f = &mut self.facts;
        let mark = |f: &mut Facts<'_>, subject: &mut u128, bits: u128| {
            f.has |= bits;
            if before_verb {
                *subject |= bits;
            }
        };
        match word {
            Word::Link => return self.link(chunk, object, next),
            Word::Gear => {
                if one_of!(
                    chunk.key,
                    "skins"
                        | "skin"
                        | "halves"
                        | "slices"
                        | "rings"
                        | "strips"
                        | "leather"
                        | "rounds"
                        | "chips"
                        | "greens"
                ) {
                    f.what = f.what.or(Some((chunk.from, chunk.to)));
                }
                f.bad_object |=
                    object && one_of!(chunk.key, "rubbish" | "garbage" | "trash" | "compost" | "recipe" | "chips");
                self.gear(chunk.key);
                return;
            }
            Word::Quality => {
                if one_of!(chunk.key, "good") {
                    f.has |= has::GOOD;
                }
                self.object = object;
                return;
            }
            Word::Filler => {
                // `could you note that we froze 7 lb`: what follows is told.
                if one_of!(chunk.key, "note" | "record" | "report" | "logging") {
                    self.subject = 0;
                }
                f.has |= match chunk.key {
                    k if one_of!(k, "now" | "rn") => has::NOW,
                    k if one_of!(k, "again") => has::AGAIN,
                    k if one_of!(k, "please" | "pls" | "plz" | "plse" | "kindly") => has::PLEASE,
                    _ => 0,
                };
                f.asked_for |= before_verb && f.has & has::PLEASE != 0 && f.amounts.is_empty();
                self.object = object;
                return;
            }
            Word::Is => {
                // `aunt's haul` is hers, but told by us.
                self.subject &= !(has::FOLK | has::KIN);
                self.object = object;
                f.has |= has::AUX;
                return;
            }
            Word::Unit(unit) => {
                f.has |= if unit == Unit::Jar { has::JARS } else { 0 };
                self.object = object;
                return;
            }
            Word::Some => {
                f.has |= has::SOME;
                self.object = object;
                return;
            }
            Word::Supply(supply) if next.is_some_and(|n| n.word() == Some(Word::Is) || one_of!(n.key, "in" | "is")) => {
                f.supply = f.supply.or(Some(supply))
            }
            Word::First => {
                f.to_us |= f.verb_is(Verb::Give) && one_of!(chunk.key, "us" | "me");
                mark(f, &mut self.subject, has::FIRST);
            }
            Word::You => mark(f, &mut self.subject, has::YOU),
            Word::They => {
                mark(f, &mut self.subject, has::THEY);
                if one_of!(chunk.key, "she") {
                    f.has |= has::SHE;
                }
            }
            Word::Kin => mark(f, &mut self.subject, has::KIN),
            Word::Folk => mark(f, &mut self.subject, has::FOLK),
            Word::Not => mark(f, &mut self.subject, has::NOT),
            Word::Modal => mark(f, &mut self.subject, has::MODAL),
            // A condition before the verb; `stopped when I turned it down` tells.
            Word::If if before_verb => mark(f, &mut self.subject, has::MODAL),
            Word::Aux => {
                f.has |= has::AUX;
                self.object = false;
            }
            Word::Alien => {
                f.alien += 1;
                f.alien_subject |= before_verb && f.amounts.is_empty();
                f.bad_object |= object;
                return self.name(chunk);
            }
            Word::Common => {
                f.common += 1;
                f.bad_object |= object;
                return self.name(chunk);
            }
            Word::Place | Word::PlaceSide if self.way == Way::From => {
                return self.name(chunk);
            }
            _ => {}
        }
        self.end_name(chunk.from);
        if !matches!(word, Word::Aux | Word::First | Word::Kin | Word::Folk) {
            self.way = Way::None;
        }
    }

    fn link(&mut self, chunk: &Chunk, object: bool, next: Option<&Chunk>) {
        let key = chunk.key;
        let article = one_of!(key, "a" | "an" | "the" | "my" | "our" | "his" | "her" | "their" | "this" | "these");
        if !article {
            self.end_name(chunk.from);
        }
        let f = &mut self.facts;
        match key {
            k if one_of!(
                k,
                "in" | "into" | "onto" | "inside" | "to" | "on" | "upon" | "through" | "thru" | "under"
            ) =>
            {
                self.way = Way::Into;
                f.has |= match k {
                    k if one_of!(k, "in" | "into" | "inside") => has::IN,
                    k if one_of!(k, "through" | "thru") => has::THROUGH,
                    k if one_of!(k, "to") => has::TO,
                    k if one_of!(k, "under") => has::BELOW,
                    _ => has::ON,
                };
            }
            k if one_of!(k, "from" | "frm" | "4rm" | "off" | "outta" | "outa" | "out") => {
                self.way = Way::From;
                f.has |= match k {
                    k if one_of!(k, "off") => has::OFF,
                    k if one_of!(k, "out" | "outta" | "outa") => has::OUT,
                    _ => 0,
                };
            }
            k if one_of!(k, "of") => {
                if self.way == Way::None {
                    self.way = Way::Of;
                    self.object = object;
                }
            }
            k if one_of!(k, "at") => {
                self.way = Way::With;
                f.has |= has::AT;
            }
            k if one_of!(k, "x") => {
                f.joined |= !f.amounts.is_empty();
            }
            // `3 bags à 2.5 kg`
            k if one_of!(k, "a") => {
                let weighed =
                    next.is_some_and(|n| matches!(n.item, Item::Amount(a) if a.mass.is_some() && !a.is(Unit::Bag)));
                f.joined |= weighed && f.amounts.last().is_some_and(|a| a.is(Unit::Bag));
                self.object = object;
            }
            // `3 bags weighing 20 lb`: all of them.
            k if one_of!(k, "weighing" | "weighin") => {}
            k if one_of!(k, "for") => self.way = Way::For,
            k if one_of!(k, "with" | "w") => self.way = Way::With,
            k if one_of!(k, "below" | "beneath") => {
                self.way = Way::Below;
                f.has |= has::BELOW;
            }
            k if one_of!(k, "up") => f.has |= has::UP,
            k if one_of!(k, "down") => f.has |= has::DOWN,
            k if one_of!(k, "away") => f.has |= has::AWAY,
            k if one_of!(k, "over") => f.has |= has::OVER,
            k if one_of!(k, "all" | "every") => {
                f.has |= has::ALL;
                self.object = object;
            }
            k if one_of!(k, "both") => f.has |= has::BOTH,
            k if one_of!(k, "each" | "ea" | "apiece" | "per") => {
                f.each = true;
                f.has |= has::EACH;
            }
            k if one_of!(k, "total" | "altogether" | "totalling" | "totaling") => f.has |= has::TOTAL,
            k if one_of!(k, "another" | "more" | "extra" | "anothr") => {
                f.has |= has::MORE;
                self.object = object;
            }
            k if one_of!(k, "it" | "em" | "them" | "that" | "those" | "these") => {
                f.has |= has::IT | if one_of!(k, "those" | "these" | "that") { has::THOSE } else { 0 };
            }
            k if one_of!(k, "ones" | "other" | "others") => f.has |= has::ONE,
            k if one_of!(k, "there") => f.has |= has::THERE,
            _ => self.object = object,
        }
        let _ = next;
    }

    fn gear(&mut self, key: u64) {
        let f = &mut self.facts;
        f.has |= match key {
            k if one_of!(k, "steam" | "steaming") => has::STEAM,
            k if one_of!(k, "pressure") => has::PRESSURE,
            k if one_of!(k, "heat") => has::HEAT,
            k if one_of!(k, "burner" | "stove" | "hob" | "gas" | "flame" | "stovetop" | "range") => has::BURNER,
            k if one_of!(k, "temp" | "temperature") => has::TEMP,
            k if one_of!(k, "needle" | "gauge" | "dial" | "indicator") => has::NEEDLE,
            k if one_of!(k, "weight" | "weights" | "jiggler") => has::WEIGHT,
            k if one_of!(k, "jiggling" | "jigglin" | "rocking" | "rockin" | "wobbling" | "rattling") => has::JIGGLING,
            k if one_of!(k, "rolling" | "rollin") => has::ROLLING,
            k if one_of!(k, "water" | "liquid" | "whey") => has::WATER | has::LIQUID,
            k if one_of!(k, "canner" | "cooker" | "pot" | "bath" | "waterbath" | "bwb") => has::CANNER,
            k if one_of!(k, "plume" | "column" | "jet") => has::PLUME,
            k if one_of!(k, "pipe" | "exhaust" | "spout" | "valve") => has::VENT,
            k if one_of!(k, "acid") => has::ACID,
            k if one_of!(k, "batch") => has::BATCH,
            k if one_of!(k, "dehydrator" | "dryer" | "drier" | "dehydratr" | "dehyd" | "dehydr") => has::DRYER,
            k if one_of!(k, "powder" | "powdr" | "powdered" | "flakes") => has::POWDER,
            k if one_of!(k, "compost" | "bin" | "trash" | "rubbish" | "garbage" | "worms") => has::COMPOST,
            k if one_of!(k, "chickens" | "hens" | "pigs" | "chooks") => has::CHICKENS,
            k if one_of!(k, "rack" | "towel") => has::RACK,
            k if one_of!(k, "dud" | "duds") => has::DUD,
            k if one_of!(k, "unsealed") => has::UNSEALED,
            k if one_of!(k, "depressurized" | "depressurised") => has::DEPRESSURIZED,
            k if one_of!(k, "plants" | "plant" | "vine" | "vines" | "bushes" | "bush") => has::PLANTS,
            _ => 0,
        };
        self.way = Way::None;
    }
}

/// Verbs that only help: the next one says what was done.
const fn is_weak(verb: Option<(Verb, Form)>) -> bool {
    matches!(
        verb,
        Some((Verb::Get | Verb::Go | Verb::Come | Verb::Do | Verb::Show | Verb::Finish | Verb::Run, _)) | None
    )
}

/// `ewww`, `gooo`: letters drawn out say nothing.
fn is_exclamation(text: &str, tokens: &[Token], chunk: &Chunk) -> bool {
    let Some(token) = tokens.get(chunk.from as usize) else { return false };
    let word = text.get(token.from as usize..token.to as usize).unwrap_or_default().as_bytes();
    token.sense == Sense::Unknown && word.windows(3).any(|w| w[0] == w[1] && w[1] == w[2])
}
