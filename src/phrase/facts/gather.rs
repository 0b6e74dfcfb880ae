//! The facts of a clause, gathered in one pass over its chunks.

use super::{Facts, Way, has};
use crate::phrase::{
    measure::Amount,
    scan::{Chunk, Item},
    token::{Mark, Sense, Sketch, Token, one_of},
    words::{Unit, Verb, Word},
};
use crate::vocabulary::{Stock, Supply};

/// Gathers the facts of a clause.
pub(in crate::phrase) fn gather<'t>(text: &'t str, tokens: &'t [Token], chunks: &'t [Chunk]) -> Facts<'t> {
    let sketch = chunks.iter().fold(Sketch::EMPTY, |sketch, chunk| sketch.with(chunk.key));
    let mut gatherer = Gatherer {
        facts: Facts { text, tokens, chunks, sketch, ..Facts::default() },
        way: Way::None,
        object: false,
        named: None,
        subject: 0,
        every: false,
        measured: false,
    };
    for (at, chunk) in chunks.iter().enumerate() {
        gatherer.take(chunk, chunks.get(at + 1));
    }
    gatherer.end_name(u32::MAX);
    gatherer.facts
}

/// The number of `at 7` and `@ 7`, with nothing that makes it a time for sure.
pub(super) fn bare_at(tokens: &[Token], chunk: &Chunk) -> Option<Amount> {
    match tokens.get(chunk.from as usize..chunk.to as usize)? {
        [at, Token { sense: Sense::Num(n), .. }] if one_of!(at.key, "at") || at.is_mark(Mark::At) => {
            Some(Amount::of(*n))
        }
        _ => None,
    }
}

pub(super) struct Gatherer<'t> {
    pub(super) facts: Facts<'t>,
    pub(super) way: Way,
    /// An amount was just said and waits for what it counts.
    pub(super) object: bool,
    /// Words that may be a name: first token, one past the last.
    pub(super) named: Option<(u32, u32, Way)>,
    /// What stood before the verb.
    pub(super) subject: u128,
    /// `every` was just said.
    pub(super) every: bool,
    /// A weight or volume was just said, which may be that of each: `6 lb a bag`.
    pub(super) measured: bool,
}

impl Gatherer<'_> {
    pub(super) fn take(&mut self, chunk: &Chunk, next: Option<&Chunk>) {
        let f = &mut self.facts;
        let object = std::mem::take(&mut self.object);
        let measured = std::mem::take(&mut self.measured);
        // `3 bags, all 6 lb`
        if let (Item::Word(_), [all, one]) = (chunk.item, f.chunks)
            && one_of!(all.key, "all" | "every")
            && matches!(one.item, Item::Amount(a) if a.mass.is_some() && !a.is(Unit::Bag))
        {
            f.each = true;
        }
        self.measured = measured && (chunk.is_mark(Mark::Slash) || one_of!(chunk.key, "to" | "every"));
        if measured && is_share(chunk) {
            f.each = true;
            f.has |= has::EACH;
            return;
        }
        if !matches!(chunk.item, Item::Amount(_)) {
            self.every = one_of!(chunk.key, "every" | "each");
        }
        match chunk.item {
            Item::Amount(amount) => {
                // `every one of them` is no number.
                if std::mem::take(&mut self.every) && amount.number.as_whole() == Some(1) {
                    f.has |= has::ALL | has::ONE;
                    f.each |= measured;
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
                // `bags of 6 lb`, behind how many there are.
                let of_bags = f.amounts.is_empty() && self.way == Way::Of && amount.mass.is_some();
                f.each |= of_bags && f.chunks.first().is_some_and(|c| one_of!(c.key, "bags" | "bgs" | "baggies"));
                self.measured = amount.mass.is_some() || amount.jar.is_none() && amount.volume().is_some();
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
                    && (f.mass().is_some() || f.prep.is_some() && f.jars().is_some())
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
            Item::Batch(called) => {
                f.batch = f.batch.or(Some(called));
                f.has |= has::BATCH;
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

    pub(super) fn unknown(&mut self, chunk: &Chunk, object: bool) {
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
    pub(super) fn name(&mut self, chunk: &Chunk) {
        self.named = match self.named {
            Some((from, to, way)) if to == chunk.from => Some((from, chunk.to, way)),
            Some(_) => {
                self.end_name(chunk.from);
                Some((chunk.from, chunk.to, self.way))
            }
            None => Some((chunk.from, chunk.to, self.way)),
        };
    }

    pub(super) fn end_name(&mut self, _at: u32) {
        if let Some((from, to, way)) = self.named.take() {
            match way {
                Way::From => self.facts.free_place = self.facts.free_place.or(Some((from, to))),
                Way::None if self.facts.verb.is_none() && self.facts.amounts.is_empty() => {}
                Way::Of | Way::None => self.facts.free_product = self.facts.free_product.or(Some((from, to))),
                _ => {}
            }
        }
    }
}

/// `ewww`, `gooo`: letters drawn out say nothing.
pub(super) fn is_exclamation(text: &str, tokens: &[Token], chunk: &Chunk) -> bool {
    let Some(token) = tokens.get(chunk.from as usize) else { return false };
    let word = text.get(token.from as usize..token.to as usize).unwrap_or_default().as_bytes();
    token.sense == Sense::Unknown && word.windows(3).any(|w| w[0] == w[1] && w[1] == w[2])
}

/// `a bag`, `the bag`, `/bag` behind a weight or volume: it is that of each.
fn is_share(chunk: &Chunk) -> bool {
    let holds = |unit: Unit| {
        matches!(unit, Unit::Bag | Unit::Jar | Unit::Vessel | Unit::Tray | Unit::Box | Unit::Crate | Unit::Lug)
    };
    match chunk.item {
        Item::Amount(amount) => {
            amount.article
                && one_of!(chunk.key, "a" | "an" | "the")
                && amount.unit.is_some_and(holds)
                && amount.each.is_none()
        }
        Item::Word(Word::Unit(unit)) => one_of!(chunk.key, "bag" | "jar") && holds(unit),
        _ => false,
    }
}
