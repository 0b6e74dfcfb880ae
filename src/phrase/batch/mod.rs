//! The stages of a batch, told in a few words that all have to belong to a kitchen: steam's up, lost the boil, heat's
//! off, jars are out.

mod heat;

use super::{
    build::Carry,
    facts::{Facts, Way, has},
    scan::Item,
    token::{Mark, one_of, says},
    words::{Form, Unit, Verb, Word},
};
use crate::{
    quantity::Pressure,
    statement::{AcidAdded, AtHeat, Lifted, Stage, Statement},
    vocabulary::{Kind, Stock},
};
use heat::{at_heat, pounds, psi};

/// The stage a clause tells, if any.
pub(super) fn stage(f: &Facts<'_>, carry: &Carry<'_, '_>) -> Option<Statement> {
    if f.alien > 0 || f.has(has::YOU | has::FOLK | has::MODAL) || f.unreal {
        return None;
    }
    let open = !carry.context.lexicon.batches.is_empty();
    let kind = acid(f).or_else(|| kind(f)).or_else(|| no_heat(f, open).then_some(Kind::LostHeat))?;
    let stage = || Stage { batch: carry.batch(f), on: carry.when(kind, f) };
    Some(match kind {
        Kind::AcidAdded => {
            Statement::AcidAdded(AcidAdded { supply: f.acid(), batch: carry.batch(f), on: carry.when(kind, f) })
        }
        Kind::Venting => Statement::Venting(stage()),
        Kind::AtHeat => Statement::AtHeat(AtHeat {
            psi: psi(f).and_then(Pressure::from_psi),
            batch: carry.batch(f),
            on: carry.when(kind, f),
        }),
        Kind::LostHeat => Statement::LostHeat(stage()),
        Kind::HeatOff => Statement::HeatOff(stage()),
        Kind::PressureDown => Statement::PressureDown(stage()),
        Kind::Lifted => {
            Statement::Lifted(Lifted { jars: lifted_count(f), batch: carry.batch(f), on: carry.when(kind, f) })
        }
        _ => return None,
    })
}

/// Words that no table knows are let pass only beside words that can mean nothing else.
fn few_strangers(f: &Facts<'_>, most: u16) -> bool {
    f.unknown + f.common <= most
}

fn kind(f: &Facts<'_>) -> Option<Kind> {
    if f.has(has::FOLK) && !f.has(has::CANNER) {
        return None;
    }
    if venting(f) {
        Some(Kind::Venting)
    } else if lost(f) {
        Some(Kind::LostHeat)
    } else if pressure_down(f) {
        Some(Kind::PressureDown)
    } else if heat_off(f) {
        Some(Kind::HeatOff)
    } else if at_heat(f) {
        Some(Kind::AtHeat)
    } else if lifted(f) {
        Some(Kind::Lifted)
    } else {
        None
    }
}

fn venting(f: &Facts<'_>) -> bool {
    if f.has(has::NOT) || f.all(has::OUT) && f.has(has::FIRST) {
        return false;
    }
    let steam = f.has(has::STEAM | has::PLUME);
    if f.has(has::VENT) && f.verb_is(Verb::Go) && f.has(has::AUX) && few_strangers(f, 0) {
        return true;
    }
    if f.has(has::VENT) && (steam || f.verb_is(Verb::Come)) {
        return few_strangers(f, 2);
    }
    // `steam's flowing`; that the weight is on then ends the venting, which has no word of its own: silence.
    let flows = says!(f, "flowing" | "flows") && !f.has(has::FIRST | has::UP | has::DOWN | has::MODAL);
    let stream = says!(f, "stream" | "flow") && says!(f, "steady" | "strong" | "good" | "solid") && f.chunks.len() <= 6;
    if steam && f.amounts.iter().all(|a| a.article) && (flows && few_strangers(f, 0) || stream && few_strangers(f, 2)) {
        return true;
    }
    if steam
        && few_strangers(f, 0)
        && (f.verb_is(Verb::Come) && f.has(has::OUT | has::PLUME) || f.verb_is(Verb::Pour) && f.has(has::OUT))
        && !f.has(has::UP)
    {
        return true;
    }
    let venting = f.verb_is(Verb::Vent) && (f.forms_base & (1 << Verb::Vent as u8) == 0 || f.verb_is(Verb::Begin));
    let about = f.has(has::FIRST | has::KIN | has::TO | has::ON) && !f.has(has::CANNER);
    let work = says!(f, "about" | "work");
    venting
        && few_strangers(f, 0)
        && !about
        && !work
        && !f.has_quantity()
        && !f.has(has::THEY) | f.has(has::SHE)
        && f.amounts.is_empty()
}

fn lost(f: &Facts<'_>) -> bool {
    let boil = f.verb_is(Verb::Boil);
    let level = f.has(has::TEMP | has::PRESSURE | has::HEAT | has::NEEDLE | has::STEAM);
    // The weather: no canner is at thirty degrees.
    let degrees =
        f.amounts.iter().any(|a| matches!(a.unit, Some(Unit::Degree | Unit::Fahrenheit | Unit::C | Unit::Celsius)));
    if f.has(has::TEMP) && (degrees || pounds(f).is_some_and(|n| (21.0..150.0).contains(&n))) {
        return false;
    }
    if f.verb_is(Verb::Lose) {
        let level = f.has(has::TEMP | has::PRESSURE | has::HEAT | has::STEAM);
        return !f.has(has::NOT) && (boil && few_strangers(f, 2) || level && few_strangers(f, 0));
    }
    let fell = f.any_verb(&[Verb::Fall, Verb::Send, Verb::Go]);
    if f.any_verb(&[Verb::Fall, Verb::Send])
        && f.has(has::PRESSURE | has::NEEDLE | has::TEMP)
        && f.has(has::TO)
        && !f.has(has::ZERO)
        && pounds(f).is_some_and(|n| n > 0.0)
        && few_strangers(f, 0)
    {
        return true;
    }
    if f.any_verb(&[Verb::Fall, Verb::Send]) && boil && f.has(has::BELOW) && few_strangers(f, 0)
        || f.has(has::TEMP | has::NEEDLE) && f.has(has::OUT) && says!(f, "green") && few_strangers(f, 0)
    {
        return true;
    }
    if fell
        && f.has(has::BELOW | has::DOWN)
        && !f.has(has::ZERO)
        && few_strangers(f, 1)
        && (level && f.has(has::BELOW)
            || f.has(has::BELOW) && f.verb_is(Verb::Send) | f.verb_is(Verb::Fall) && pounds(f).is_some())
    {
        return true;
    }
    if f.any_verb(&[Verb::Fall, Verb::Send])
        && f.has(has::TEMP | has::PRESSURE)
        && !f.has(has::ZERO)
        && !f.has(has::DOWN)
        && !f.has(has::UP)
        && few_strangers(f, 0)
        && !f.has(has::TO)
    {
        return true;
    }
    // `the canner is under pressure` says that it has some.
    let under = f.chunks.windows(2).any(|w| one_of!(w[0].key, "under") && one_of!(w[1].key, "pressure"))
        && !f.any_verb(&[Verb::Fall, Verb::Send, Verb::Go]);
    let below = f.has(has::BELOW)
        && level
        && few_strangers(f, 0)
        && !(under && f.amounts.is_empty())
        && (f.has(has::AUX) || f.unit(Unit::Psi).is_some());
    let gone = says!(f, "gone") || f.verb_is(Verb::Go) && f.has(has::AWAY);
    if boil && gone && few_strangers(f, 0) && !f.has(has::FIRST | has::NOT) {
        return true;
    }
    if boil
        && f.any_verb(&[Verb::Fall, Verb::Send])
        && few_strangers(f, 0)
        && !f.has(has::UP | has::NOT | has::TO)
        && f.amounts.is_empty()
        && f.chunks.len() <= 5
    {
        return true;
    }
    let went = f.verb_is(Verb::Go) && f.has(has::BELOW) && pounds(f).is_some() && f.unit(Unit::Psi).is_some();
    if went && few_strangers(f, 0) {
        return true;
    }
    let stopped = boil && f.verb_is(Verb::Stop) && few_strangers(f, 1);
    let off = boil && f.has(has::OFF) && few_strangers(f, 1) && !f.has(has::HEAT | has::BURNER);
    let not = boil && f.has(has::NOT) && f.has(has::AUX) && few_strangers(f, 1) && !f.has(has::THEY) && yet(f);
    below || stopped || off || not
}

/// `burner went out`, `flame's out`; while a batch is open also `gas ran out`, `power's out`, which else are of the car or the house.
fn no_heat(f: &Facts<'_>, open: bool) -> bool {
    let fuel = says!(f, "gas" | "propane" | "fuel");
    let power = says!(f, "power" | "electricity");
    let known = u16::from(says!(f, "propane" | "fuel"))
        + u16::from(says!(f, "pilot"))
        + u16::from(power)
        + u16::from(says!(f, "blew" | "outage" | "cut" | "failed" | "dead"));
    let told =
        f.amounts.iter().all(|a| a.article) && f.when.is_none_or(|w| w.has_time()) && f.unknown + f.common <= known;
    if !told || f.has(has::FOLK | has::KIN | has::NOT | has::JARS) || f.supply.is_some() {
        return false;
    }
    let out = f.has(has::OUT);
    let went = f.any_verb(&[Verb::Go, Verb::Run, Verb::Stop, Verb::Put, Verb::Come]);
    let dead = f.verb_is(Verb::Stop) || says!(f, "dead");
    let flame = says!(f, "burner" | "flame" | "stove" | "hob" | "pilot");
    if flame
        && (!f.has(has::FIRST) || says!(f, "me" | "us"))
        && (out && (went || says!(f, "blew")) || dead && !f.verb_is(Verb::Boil))
    {
        return true;
    }
    let ran_out = fuel && out && (f.verb_is(Verb::Run) || f.verb.is_none()) || fuel && says!(f, "gone");
    let cut = power
        && (out || f.has(has::OFF) || f.verb_is(Verb::Lose) || dead || says!(f, "cut" | "outage" | "failed" | "gone"));
    open && (ran_out || cut)
}

/// `not boiling anymore` has lost it; `not boiling yet` never had it.
fn yet(f: &Facts<'_>) -> bool {
    !says!(f, "yet" | "quite" | "still")
}

fn pressure_down(f: &Facts<'_>) -> bool {
    if says!(f, "no") && f.has(has::PRESSURE) && (f.has(has::MORE) || says!(f, "left")) {
        return few_strangers(f, 0);
    }
    if f.has(has::DEPRESSURIZED) {
        return !f.has(has::NOT) && few_strangers(f, 1);
    }
    let zero = f.has(has::ZERO);
    let gauge = f.has(has::PRESSURE | has::NEEDLE) || f.unit(Unit::Psi).is_some();
    let weight_off = f.has(has::BELOW | has::NOT | has::STEAM) || f.verb_is(Verb::Boil);
    if !gauge
        || weight_off
        || f.bare().is_some_and(|a| a.number.as_whole() != Some(0))
        || pounds(f).is_some_and(|n| n > 0.0)
    {
        return false;
    }
    few_strangers(f, 1)
        && (zero || f.has(has::DOWN) && f.has(has::PRESSURE) || f.has(has::PRESSURE) && says!(f, "gone" | "released"))
}

fn heat_off(f: &Facts<'_>) -> bool {
    let heat = f.has(has::HEAT | has::BURNER);
    if !heat || f.has(has::NOT) || f.verb_is(Verb::Boil) || !few_strangers(f, 1) || f.has(has::ON) && f.unknown > 0 {
        return false;
    }
    let turned = f.verb_is(Verb::Turn);
    let order = f
        .chunks
        .iter()
        .any(|c| matches!(c.item, Item::Verb(Verb::Turn, _)) && one_of!(c.key, "turn" | "switch" | "kill"))
        && !f.has(has::FIRST);
    if turned {
        let killed = says!(f, "killed" | "killd" | "kill");
        return (f.has(has::OFF) || killed || f.has(has::DOWN) && says!(f, "shut") || says!(f, "cut"))
            && !(order && f.has(has::PLEASE));
    }
    if f.verb_is(Verb::Cut) && heat && f.amounts.is_empty() {
        return true;
    }
    if f.has(has::BURNER)
        && f.has(has::OUT)
        && f.has(has::AUX)
        && f.verb.is_none()
        && f.amounts.is_empty()
        && !f.has(has::FIRST | has::JARS)
    {
        return true;
    }
    let taken = f.any_verb(&[Verb::Take, Verb::Pull, Verb::Put]) && f.has(has::OFF);
    f.has(has::OFF) && (f.verb.is_none() || taken || f.any_verb(&[Verb::Go])) && f.amounts.iter().all(|a| a.article)
}

fn lifted(f: &Facts<'_>) -> bool {
    // `out of jars` has none left.
    let lacks = f.chunks.windows(3).any(|w| {
        one_of!(w[0].key, "out")
            && one_of!(w[1].key, "of")
            && matches!(w[2].item, Item::Word(Word::Unit(_) | Word::Supply(_)))
    });
    if lacks || says!(f, "stock" | "stores") {
        return false;
    }
    if f.has(has::NOT)
        || f.dest.is_some()
        || f.source.is_some()
        || f.stock.is_some_and(|s| s != Stock::Counter)
        || f.place.is_some() && f.place_way == Way::From
    {
        return false;
    }
    let jars = f.has(has::JARS);
    let number = f.amounts.iter().any(|a| a.unit.is_none() || a.is_jars());
    // `jars out in 5`: minutes from now.
    if f.chunks.windows(2).any(|w| {
        one_of!(w[0].key, "in")
            && matches!(w[1].item, super::scan::Item::Amount(a) if a.unit.is_none() || a.seconds.is_some())
    }) {
        return false;
    }
    let canner = f.has(has::CANNER);
    let out = f.has(has::OUT);
    if canner
        && out
        && f.verb.is_none()
        && few_strangers(f, 0)
        && f.canner.is_none()
        && (number || f.amounts.is_empty())
        && f.supply.is_none()
        && f.crop.is_none()
    {
        return true;
    }
    if f.any_verb(&[Verb::Lift]) {
        return few_strangers(f, 1)
            && (jars
                || number
                || canner && (out || says!(f, "unloaded" | "unloading"))
                || f.has(has::ALL | has::IT) && out);
    }
    if f.verb_is(Verb::Pull)
        && jars
        && f.amounts.iter().all(|a| a.jar.is_none())
        && f.chunks.len() <= 5
        && few_strangers(f, 0)
        && f.product.is_none()
        && f.crop.is_none()
    {
        return true;
    }
    if f.any_verb(&[Verb::Take, Verb::Pull, Verb::Get, Verb::Bring, Verb::Come]) && out {
        return few_strangers(f, 1)
            && jars
            && (canner
                || f.supply.is_none()
                    && f.product.is_none()
                    && f.crop.is_none()
                    && few_strangers(f, 0)
                    && !f.verb_is(Verb::Bring));
    }
    let everything = says!(f, "everything" | "all" | "they");
    if out && canner && everything && few_strangers(f, 0) && f.verb.is_none_or(|(verb, _)| verb == Verb::Go) {
        return true;
    }
    let rests = f.stock == Some(Stock::Counter) && f.has(has::AUX) && says!(f, "cooling" | "resting" | "sitting");
    let cooling = rests || f.has(has::RACK) || says!(f, "cooling");
    jars && (out || cooling && f.has(has::ON | has::RACK | has::AUX))
        && few_strangers(f, 1)
        && f.verb.is_none_or(|(v, _)| matches!(v, Verb::Go | Verb::Set))
        && f.supply.is_none()
        && f.free_place.is_none()
}

fn lifted_count(f: &Facts<'_>) -> Option<u32> {
    let amount = f.amounts.iter().find(|a| a.is_jars() && !a.uncounted && !a.article).or_else(|| f.bare())?;
    amount.count().filter(|_| !amount.article)
}

/// `lemon juice is in`, `added the citric acid`, `2 tbsp lemon juice in each jar`.
fn acid(f: &Facts<'_>) -> Option<Kind> {
    let acid = f.acid().is_some()
        || f.has(has::ACID)
        || f.chunks.iter().any(|c| matches!(c.word(), Some(Word::Supply(_))) && one_of!(c.key, "lemon"));
    if !acid || f.has(has::NOT) || f.any_verb(&[Verb::Buy, Verb::Drain]) || f.supply.is_some() && f.acid().is_none() {
        return None;
    }
    if f.any_verb(&[Verb::Get, Verb::Grab, Verb::Take]) && !f.has(has::IN | has::ON) {
        return None;
    }
    let spoons = f.amounts.iter().any(|a| matches!(a.unit, Some(Unit::Tablespoon | Unit::Teaspoon)));
    let into_jars = f.has(has::JARS | has::EACH | has::ALL) && f.has(has::IN | has::TO) || f.each;
    let added = f.verb_is(Verb::Add) && f.verb.is_some_and(|(_, form)| form == Form::Past);
    let put =
        f.any_verb(&[Verb::Put, Verb::Pour, Verb::Go, Verb::Get, Verb::Send]) && f.has(has::IN | has::ON | has::TO);
    let bare_in = f.verb.is_none() && f.has(has::IN) && f.dest.is_none() && f.source.is_none();
    let clean = few_strangers(f, 1) && f.dest.is_none();
    (clean && (added || put && !f.has(has::PLEASE) || bare_in || spoons && into_jars)).then_some(Kind::AcidAdded)
}

/// Whether a chunk ends a question.
pub(super) fn is_quest(chunk: &super::scan::Chunk) -> bool {
    chunk.is_mark(Mark::Quest)
}
