//! Plants in the ground.

use crate::phrase::{
    build::{self, Carry},
    facts::{Facts, Way, has},
    harvest::place,
    scan::Item,
    token::{one_of, says},
    words::{Form, Unit, Verb, Word},
};
use crate::{
    statement::{Planted, Statement},
    vocabulary::{Kind, Missing},
};

/// Whether a clause tells of planting.
pub(in crate::phrase) fn plants(f: &Facts<'_>) -> bool {
    let weighed = f.amounts.iter().any(|a| !a.uncounted && !a.article && a.unit.is_some());
    if weighed
        || f.stock.is_some()
        || f.dest.is_some()
        || f.source.is_some()
        || f.product.is_some()
        || f.alien > 0
        || f.bad_object
    {
        return false;
    }
    let thing = f.crop.is_some()
        || f.variety.is_some()
        || f.has(has::PLANTS)
        || says!(f, "seedlings" | "starts" | "transplants");
    let past = f.verb.is_some_and(|(_, form)| form == Form::Past);
    if f.verb_is(Verb::Plant) {
        return thing && f.verb.is_some_and(|(_, form)| form != Form::Base);
    }
    let counted = f.bare().is_some_and(|a| a.count().is_some());
    let set_out = past
        && (f.any_verb(&[Verb::Set, Verb::Put]) && f.has(has::OUT)
            || f.any_verb(&[Verb::Set, Verb::Put]) && f.has(has::PLANTS) && f.place.is_some());
    let put_in = past && f.verb_is(Verb::Put) && f.has(has::IN) && (f.place.is_none() || f.place_way == Way::Into);
    let ground = past && f.any_verb(&[Verb::Put, Verb::Get]) && says!(f, "ground" | "dirt" | "earth");
    let have = f.verb.is_none()
        && f.has(has::PLANTS)
        && f.has(has::FIRST | has::THERE)
        && f.has(has::AUX)
        && f.place.is_some();
    let noted = f.verb.is_none() && f.has(has::PLANTS) && f.place.is_some() && f.chunks.len() <= 8 && !f.has(has::OFF);
    let plain = f.unknown == 0
        && f.common <= u16::from(says!(f, "ground" | "dirt" | "earth" | "seedlings" | "starts" | "transplants"));
    thing
        && counted
        && plain
        && (set_out || put_in || ground || have || noted)
        && !f.has(has::NOT | has::YOU | has::THEY | has::FOLK | has::MODAL | has::TO)
}

/// `planted 24 romas in the tunnel`, `set out 12 peppers`, `we have 30 plants in bed 3`.
pub(in crate::phrase) fn planted(f: &Facts<'_>, carry: &Carry<'_, '_>) -> Option<Statement> {
    let count = f.bare().and_then(|a| a.count());
    let said = Planted {
        count,
        crop: f.crop,
        variety: f.variety.map(str::to_owned),
        place: place(f),
        on: carry.when(Kind::Planted, f),
    };
    // Rows and trays hold no one knows how many.
    let rows = f.chunks.windows(2).any(|w| {
        matches!(w[0].item, Item::Amount(_))
            && (one_of!(w[1].key, "rows" | "row" | "beds" | "bed")
                || matches!(w[1].item, Item::Word(Word::Unit(Unit::Tray))))
    });
    if count.is_some() && !rows {
        return Some(Statement::Planted(said));
    }
    build::clarify_if(
        build::is_told(f) && f.variety.is_some() | f.crop.is_some(),
        (Kind::Planted, Statement::Planted(said)),
        Missing::Amount,
        None,
    )
}
