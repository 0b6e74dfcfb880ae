//! What a clause says in all its fields, and the statement that a kind makes of them.

use super::super::frame::Frame;
use super::super::value::day::Dated;
use crate::processes::Measure;
use crate::quantity::{Length, Mass, Number, Pressure, Temperature, Volume};
use crate::statement::*;
use crate::vocabulary::{
    Acid, CannerKind, Crop, Jar, Kind, Missing, Pack, Prep, Product, Ripeness, Stock, Subject, Supply, Whole,
};
use chrono::NaiveDate;

/// The fields of one statement, of whatever kind.
#[derive(Clone, PartialEq, Debug, Default)]
pub(super) struct Record {
    pub(super) mass: Option<Mass>,
    pub(super) volume: Option<Volume>,
    pub(super) bags: Option<u32>,
    pub(super) each: Option<Mass>,
    pub(super) trays: Option<u32>,
    pub(super) boxes: Option<u32>,
    pub(super) jars: Option<u32>,
    pub(super) of: Option<u32>,
    pub(super) jar: Option<Jar>,
    /// A bare number.
    pub(super) number: Option<Number>,
    /// The number that is the weight of each of `bags`, its unit not said.
    pub(super) each_number: Option<Number>,
    pub(super) share: Option<Number>,
    /// A part of what.
    pub(super) whole: Option<Whole>,
    pub(super) approx: bool,
    pub(super) crop: Option<Crop>,
    pub(super) variety: Option<String>,
    pub(super) place: Option<String>,
    pub(super) ripe: Option<Ripeness>,
    pub(super) prep: Option<Prep>,
    pub(super) product: Option<Product>,
    pub(super) from: Option<Stock>,
    pub(super) supply: Option<Supply>,
    pub(super) canner: Option<CannerKind>,
    pub(super) pack: Option<Pack>,
    pub(super) batch: Option<String>,
    /// A filling of the canner.
    pub(super) round: Option<u32>,
    pub(super) what: Option<String>,
    pub(super) on: Option<When>,
    pub(super) kept: Option<bool>,
    pub(super) psi: Option<Pressure>,
    pub(super) height: Option<Length>,
    pub(super) temp: Option<Temperature>,
    pub(super) seconds: Option<u32>,
    pub(super) word: Option<String>,
    /// A measure of a harvest, until the crop is known.
    pub(super) measure: Option<(Number, Measure)>,
    /// The day of this group.
    pub(super) day: Option<Dated>,
    /// From which day and up to which a question asks.
    pub(super) since: Option<NaiveDate>,
    pub(super) until: Option<NaiveDate>,
    /// Tubs, crates, buckets.
    pub(super) tubs: Option<u32>,
    /// The weight as a volume, of a liquid.
    pub(super) fluid: Option<Volume>,
    /// The weight of each, said before how many.
    pub(super) each_first: Option<Mass>,
    /// The unit of the weight.
    pub(super) unit: Option<Mass>,
}

impl Record {
    /// The count that a bare number is.
    pub(super) fn count(&self) -> Option<u32> {
        self.number.and_then(Number::as_count)
    }

    /// The statement of the frame's kind; `None` where the kind is built elsewhere.
    pub(super) fn statement(self, frame: &Frame) -> Option<Statement> {
        let count = self.count();
        let Self { mass, volume, bags, each, trays, jars, jar, crop, variety, place, product, batch, on, .. } = self;
        let Self { prep, share, canner, pack, supply, what, kept, psi, from, since, until, word, temp, .. } = self;
        let Self { ripe: ripeness, height: length, .. } = self;
        let approx = self.approx.then_some(true);
        let of = self.whole.filter(|_| share.is_some());
        Some(match frame.kind {
            Kind::Picked => Statement::Picked(Picked { mass, crop, variety, place, ripeness, approx, on }),
            Kind::Froze => {
                Statement::Froze(Froze { mass, bags, jars, batch, each, prep, crop, share, of, approx, from: None, on })
            }
            Kind::Thawed => Statement::Thawed(Thawed { bags, mass, crop, batch, share, of, approx, on }),
            Kind::Ate | Kind::Gave | Kind::Tossed => {
                let unsealed = None;
                taken(frame.kind)(Taken { mass, bags, jars, jar, product, crop, from, unsealed, share, of, approx, on })
            }
            Kind::Counted => {
                let count = count.filter(|_| supply.is_some());
                Statement::Counted(Counted { from, mass, bags, jars, jar, product, crop, supply, count, volume, on })
            }
            Kind::Began => Statement::Began(Began { product, jar, jars, mass, canner, pack, on }),
            Kind::Drained => Statement::Drained(Drained { mass, volume, kept, batch, on }),
            Kind::CookedDown => Statement::CookedDown(CookedDown { mass, volume, batch, on }),
            Kind::Filled => Statement::Filled(Filled { jars, jar, product, batch, on }),
            Kind::AcidAdded => {
                Statement::AcidAdded(AcidAdded { supply: supply.and_then(acid), batch, on, ..AcidAdded::default() })
            }
            Kind::AcidMissing => Statement::AcidMissing(AcidMissing {
                supply: supply.and_then(acid),
                batch,
                on,
                ..AcidMissing::default()
            }),
            Kind::AtHeat => Statement::AtHeat(AtHeat { psi, batch, on }),
            Kind::Mishap => Statement::Mishap(crate::statement::Mishap { what: frame.mishap?, psi, batch, on }),
            Kind::Lifted => Statement::Lifted(Lifted { jars, batch, on }),
            Kind::Sealed => Statement::Sealed(Sealed { jars, of: self.of, batch, round: self.round, on }),
            Kind::PutUp => Statement::PutUp(Jarred { jars, of: self.of, jar, product, mass, on }),
            Kind::Opened => Statement::Opened(Jarred { jars, of: self.of, jar, product, mass, on }),
            Kind::Dried => Statement::Dried(Dried { mass, trays, what, on }),
            Kind::Dry => Statement::Dry(Dry { mass, what, on }),
            Kind::Powdered => Statement::Powdered(Powdered { mass, what, on }),
            Kind::Bought => Statement::Bought(Bought { supply, count: jars.or(count), mass, volume, jar, on }),
            Kind::Planted => Statement::Planted(Planted { count, crop, variety, place, on }),
            Kind::Ask => {
                let ask = Ask::about(frame.about?);
                let acid = supply.and_then(acid).filter(|_| ask.about == Subject::Acid);
                let ask =
                    Ask { product, jar, acid, jars, canner, pack, length, crop, batch, what, since, until, ..ask };
                Statement::Ask(ask)
            }
            Kind::Set => {
                let count = count.or(jars).filter(|_| supply.is_some());
                let (jars, mass, set) = (jars.filter(|_| count.is_none()), mass.or(each), Set::of(frame.key?));
                let set = Set { length, canner, jars, jar, mass, volume, product, word, supply, count, temp, ..set };
                Statement::Set(set)
            }
            kind => match stage(kind) {
                Some(stage) => stage(Stage { batch, on }),
                None => some_jars(kind)?(SomeJars { jars, batch, round: self.round, on }),
            },
        })
    }
}

/// Food that was taken out of a stock.
fn taken(kind: Kind) -> fn(Taken) -> Statement {
    match kind {
        Kind::Ate => Statement::Ate,
        Kind::Gave => Statement::Gave,
        _ => Statement::Tossed,
    }
}

/// A step of a batch.
fn stage(kind: Kind) -> Option<fn(Stage) -> Statement> {
    Some(match kind {
        Kind::Venting => Statement::Venting,
        Kind::LostHeat => Statement::LostHeat,
        Kind::HeatOff => Statement::HeatOff,
        Kind::PressureDown => Statement::PressureDown,
        Kind::Stopped => Statement::Stopped,
        Kind::Resumed => Statement::Resumed,
        _ => return None,
    })
}

/// How some jars fared.
fn some_jars(kind: Kind) -> Option<fn(SomeJars) -> Statement> {
    Some(match kind {
        Kind::Unsealed => Statement::Unsealed,
        Kind::Reprocessed => Statement::Reprocessed,
        Kind::Refrigerated => Statement::Refrigerated,
        Kind::Broke => Statement::Broke,
        Kind::Siphoned => Statement::Siphoned,
        _ => return None,
    })
}

/// The acid that a supply is.
pub(super) fn acid(supply: Supply) -> Option<Acid> {
    match supply {
        Supply::LemonJuice => Some(Acid::LemonJuice),
        Supply::CitricAcid => Some(Acid::CitricAcid),
        Supply::Vinegar => Some(Acid::Vinegar),
        _ => None,
    }
}

/// A question for what is missing.
pub(super) fn clarify(kind: Kind, missing: Missing, amount: Option<Number>, partial: Option<Statement>) -> Statement {
    Statement::Clarify(Clarify { about: kind, missing, amount, partial: partial.map(Box::new), word: None })
}
