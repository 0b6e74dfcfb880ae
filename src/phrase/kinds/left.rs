//! What left the household's stocks: eaten, given away, thrown away.

use super::past_or_ing;
use crate::phrase::{
    facts::{Facts, Way, has},
    scan::Item,
    token::{Mark, one_of, says},
    words::{Form, Unit, Verb},
};
use crate::vocabulary::{Kind, Stock};

pub(super) fn left(f: &Facts<'_>) -> Option<Kind> {
    let head = |verb| past_or_ing(f, verb);
    if f.verb_is(Verb::Lose)
        && f.mass().is_some()
        && says!(
            f,
            "rot"
                | "rotting"
                | "blight"
                | "mold"
                | "mould"
                | "worms"
                | "hornworms"
                | "deer"
                | "slugs"
                | "birds"
                | "frost"
                | "splitting"
                | "cracking"
        )
    {
        return Some(Kind::Tossed);
    }
    // `2 hens laid today` counts the hens.
    let hens = f.chunks.windows(2).any(|w| {
        matches!(w[0].item, crate::phrase::scan::Item::Amount(_))
            && one_of!(w[1].key, "chickens" | "hens" | "pigs" | "chooks")
    });
    if f.has(has::CHICKENS)
        && (hens || f.any_verb(&[Verb::Make, Verb::Do, Verb::Buy, Verb::Lose, Verb::Get, Verb::Count]))
    {
        return None;
    }
    if head(Verb::Toss)
        || f.has(has::COMPOST)
            && f.verb.is_none()
            && f.chunks.iter().any(|c| c.is_mark(Mark::Colon))
            && f.has_quantity()
        || f.has(has::COMPOST | has::CHICKENS)
            && (f.has(has::IN | has::ON | has::TO) || f.verb_is(Verb::Give) || f.verb.is_some())
            && f.has_quantity()
    {
        return Some(Kind::Tossed);
    }
    // `had to bin 2`.
    if says!(f, "bin" | "compost")
        && f.chunks
            .iter()
            .position(|c| one_of!(c.key, "bin" | "compost"))
            .is_some_and(|at| at + 1 < f.chunks.len() && matches!(f.chunks[at + 1].item, Item::Amount(_)))
        && says!(f, "had" | "to")
    {
        return Some(Kind::Tossed);
    }
    let away =
        f.has(has::OUT | has::AWAY) || f.chunks.windows(2).any(|w| one_of!(w[0].key, "had") && one_of!(w[1].key, "to"));
    if f.verb_is(Verb::Throw)
        && (f.dest.is_none() || f.dest == Some(Stock::Counter))
        && (away || says!(f, "chucked" | "slung" | "lobbed"))
    {
        return Some(Kind::Tossed);
    }
    // `the tunnel gave us 15 lb`
    let place_at = f.chunks.iter().position(|c| c.item == Item::Place);
    let gave_at = f.chunks.iter().position(|c| matches!(c.item, Item::Verb(Verb::Give, _)));
    if place_at.zip(gave_at).is_some_and(|(place, gave)| place < gave)
        && f.place_way == Way::None
        && f.mass().is_some()
        && !f.has(has::FOLK | has::KIN)
    {
        return Some(Kind::Picked);
    }
    if f.verb.is_none()
        && f.has(has::TO)
        && f.has(has::FOLK | has::KIN)
        && f.mass().is_some()
        && f.clean()
        && f.dest.is_none()
        && f.place.is_none()
        && !f.has(has::AUX)
    {
        return Some(Kind::Gave);
    }
    if head(Verb::Give) && !f.to_us && !f.has(has::UP) && !f.leading_place {
        return Some(Kind::Gave);
    }
    let people =
        f.has(has::FOLK | has::KIN | has::THEY) || says!(f, "home" | "round" | "him" | "her" | "them" | "next");
    if f.verb_is(Verb::Send)
        && f.verb.is_some_and(|(_, form)| form == Form::Past)
        && people
        && f.dest.is_none()
        && f.has_quantity()
    {
        return Some(Kind::Gave);
    }
    let home = f.has(has::KIN | has::FOLK) && says!(f, "home");
    if f.any_verb(&[Verb::Take, Verb::Bring])
        && (f.has(has::TO) && f.unknown + f.common > 0 && f.dest.is_none() || home)
        && f.has_quantity()
        && f.place.is_none()
        && (f.mass().is_some() || f.jars().is_some())
        && f.verb.is_some_and(|(_, form)| form == Form::Past)
    {
        return Some(Kind::Gave);
    }
    if says!(f, "left") && f.has(has::FOLK) && f.verb.is_none() && (f.mass().is_some() || f.jars().is_some()) {
        return Some(Kind::Gave);
    }
    if f.any_verb(&[Verb::Take, Verb::Bring])
        && f.verb.is_some_and(|(_, form)| form == Form::Past)
        && f.has(has::FOLK)
        && f.has(has::TO)
        && f.has_quantity()
        && f.place.is_none()
    {
        return Some(Kind::Gave);
    }
    let finished_off = f.verb_is(Verb::Finish) && f.has(has::OFF) && f.jars().is_some() && f.product.is_some();
    if head(Verb::Eat) && !f.verb_is(Verb::Pick) || finished_off {
        return Some(Kind::Ate);
    }
    let gone_to = f.verb.is_some_and(|(verb, form)| verb == Verb::Go && form == Form::Past)
        && f.has(has::TO)
        && f.has(has::FOLK | has::KIN)
        && f.dest.is_none()
        && (f.mass().is_some() || f.jars().is_some() || f.unit(Unit::Bag).is_some());
    if gone_to && f.clean() {
        return Some(Kind::Gave);
    }
    let spoilt = says!(f, "bad" | "rotten" | "moldy" | "mouldy" | "mushy" | "spoiled" | "spoilt" | "rotted" | "off");
    let went = f.verb.is_some_and(|(verb, form)| verb == Verb::Go && form == Form::Past)
        || f.verb.is_none() && says!(f, "spoiled" | "spoilt" | "rotted");
    if spoilt
        && went
        && f.clean()
        && f.dest.is_none()
        && f.source.is_none()
        && f.place.is_none()
        && f.mass().is_some()
        && !f.has(has::PLANTS | has::LIQUID)
    {
        return Some(Kind::Tossed);
    }
    let broke = says!(f, "broke" | "shattered") && !says!(f, "open" | "into" | "out");
    if broke
        && !f.has(has::THEY | has::FOLK | has::YOU)
        && f.verb.is_none()
        && f.unknown + f.alien == 0
        && f.common <= 1
        && f.jars().is_some()
        && (f.product.is_some() || f.crop.is_some() || f.stock.or(f.dest) == Some(Stock::Pantry))
    {
        return Some(Kind::Tossed);
    }
    let meal_word = says!(f, "supper" | "dinner" | "lunch" | "breakfast" | "tea" | "brunch");
    let cooked = meal_word
        && says!(f, "for" | "with")
        && f.verb.is_none()
        && f.mass().is_some()
        && f.unknown == 0
        && f.common <= 1
        && f.alien <= 1
        && f.dest.is_none()
        && f.place.is_none()
        && !f.has(has::AUX | has::FOLK | has::YOU | has::THEY);
    if cooked {
        return Some(Kind::Ate);
    }
    // `had 2 lb for supper`, `had 1½ lb on sandwiches`.
    let had = says!(f, "had") && f.verb.is_none() && f.place.is_none();
    let meal = f.mass().is_some() || f.jars().is_some_and(|_| f.product.is_some());
    let meal = meal || f.has(has::UNSEALED | has::DUD) && f.has(has::JARS | has::ONE | has::DUD);
    (had && meal && !f.has(has::FOLK) && f.dest.is_none()).then_some(Kind::Ate)
}
