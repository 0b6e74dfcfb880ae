//! What verbs and small words say of a clause: who, whether, which way, of what canner.

use super::gather::Gatherer;
use super::{Facts, Way, bit, has};
use crate::phrase::{
    scan::{Chunk, Item},
    token::one_of,
    words::{Form, Unit, Verb, Word},
};

impl Gatherer<'_> {
    pub(super) fn verb(&mut self, chunk: &Chunk, verb: Verb, form: Form, object: bool, next: Option<&Chunk>) {
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

    pub(super) fn word(&mut self, chunk: &Chunk, word: Word, object: bool, next: Option<&Chunk>) {
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

    pub(super) fn link(&mut self, chunk: &Chunk, object: bool, next: Option<&Chunk>) {
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

    pub(super) fn gear(&mut self, key: u64) {
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
            k if one_of!(k, "batch" | "batches") => has::BATCH,
            k if one_of!(k, "dehydrator" | "dryer" | "drier" | "dehydratr" | "dehyd" | "dehydr") => has::DRYER,
            k if one_of!(k, "powder" | "powdr" | "powdered" | "flakes") => has::POWDER,
            k if one_of!(k, "compost" | "bin" | "trash" | "rubbish" | "garbage" | "worms") => has::COMPOST,
            k if one_of!(k, "chickens" | "hens" | "pigs" | "chooks") => has::CHICKENS,
            k if one_of!(k, "rack" | "towel") => has::RACK,
            k if one_of!(k, "dud" | "duds") => has::DUD,
            k if one_of!(k, "unsealed") => has::UNSEALED,
            k if one_of!(k, "depressurized" | "depressurised") => has::DEPRESSURIZED,
            k if one_of!(
                k,
                "plants" | "plant" | "seedlings" | "transplants" | "vine" | "vines" | "bushes" | "bush"
            ) =>
            {
                has::PLANTS
            }
            _ => 0,
        };
        self.way = Way::None;
    }
}

/// Verbs that only help: the next one says what was done.
pub(super) const fn is_weak(verb: Option<(Verb, Form)>) -> bool {
    matches!(
        verb,
        Some((Verb::Get | Verb::Go | Verb::Come | Verb::Do | Verb::Show | Verb::Finish | Verb::Run, _)) | None
    )
}
