//! What a clause says in all its fields, and the statement that a kind makes of them.

use super::super::frame::Frame;
use super::super::value::time::Dated;
use crate::processes::Measure;
use crate::quantity::{Length, Mass, Number, Pressure, Temperature, Volume};
use crate::statement::*;
use crate::vocabulary::{
    Acid, CannerKind, Crop, Jar, Kind, Missing, Pack, Prep, Product, Ripeness, Stock, Supply, Whole,
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
    pub(super) unsealed: bool,
    pub(super) supply: Option<Supply>,
    pub(super) canner: Option<CannerKind>,
    pub(super) pack: Option<Pack>,
    pub(super) batch: Option<String>,
    pub(super) what: Option<String>,
    pub(super) on: Option<When>,
    pub(super) kept: Option<bool>,
    pub(super) psi: Option<Pressure>,
    pub(super) height: Option<Length>,
    pub(super) temp: Option<Temperature>,
    pub(super) seconds: Option<u32>,
    pub(super) word: Option<String>,
    /// `some`, `a few`
    pub(super) vague: bool,
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
    /// Whether the height is to be asked about.
    pub(super) doubtful: bool,
}

impl Record {
    /// The count that a bare number is.
    pub(super) fn count(&self) -> Option<u32> {
        self.number.and_then(Number::as_count)
    }

    /// The statement of the frame's kind; `None` where the kind is built elsewhere.
    pub(super) fn statement(self, frame: &Frame) -> Option<Statement> {
        Some(match frame.kind {
            Kind::Picked => Statement::Picked(Picked {
                mass: self.mass,
                crop: self.crop,
                variety: self.variety,
                place: self.place,
                ripeness: self.ripe,
                approx: self.approx.then_some(true),
                on: self.on,
            }),
            Kind::Froze => Statement::Froze(Froze {
                mass: self.mass,
                bags: self.bags,
                jars: self.jars,
                batch: self.batch,
                each: self.each,
                prep: self.prep,
                crop: self.crop,
                share: self.share,
                of: self.whole.filter(|_| self.share.is_some()),
                approx: self.approx.then_some(true),
                on: self.on,
            }),
            Kind::Thawed => Statement::Thawed(Thawed {
                bags: self.bags,
                mass: self.mass,
                crop: self.crop,
                batch: self.batch,
                share: self.share,
                of: self.whole.filter(|_| self.share.is_some()),
                approx: self.approx.then_some(true),
                on: self.on,
            }),
            Kind::Ate => Statement::Ate(self.taken()),
            Kind::Gave => Statement::Gave(self.taken()),
            Kind::Tossed => Statement::Tossed(self.taken()),
            Kind::Counted => Statement::Counted(self.counted()),
            Kind::Began => Statement::Began(Began {
                product: self.product,
                jar: self.jar,
                jars: self.jars,
                mass: self.mass,
                canner: self.canner,
                pack: self.pack,
                on: self.on,
            }),
            Kind::Drained => Statement::Drained(Drained {
                mass: self.mass,
                volume: self.volume,
                kept: self.kept,
                batch: self.batch,
                on: self.on,
            }),
            Kind::CookedDown => Statement::CookedDown(CookedDown {
                mass: self.mass,
                volume: self.volume,
                batch: self.batch,
                on: self.on,
            }),
            Kind::Filled => Statement::Filled(Filled {
                jars: self.jars,
                jar: self.jar,
                product: self.product,
                batch: self.batch,
                on: self.on,
            }),
            Kind::AcidAdded => {
                Statement::AcidAdded(AcidAdded { supply: self.supply.and_then(acid), batch: self.batch, on: self.on })
            }
            Kind::AtHeat => Statement::AtHeat(AtHeat { psi: self.psi, batch: self.batch, on: self.on }),
            Kind::Venting => Statement::Venting(self.stage()),
            Kind::LostHeat => Statement::LostHeat(self.stage()),
            Kind::HeatOff => Statement::HeatOff(self.stage()),
            Kind::PressureDown => Statement::PressureDown(self.stage()),
            Kind::Stopped => Statement::Stopped(self.stage()),
            Kind::Resumed => Statement::Resumed(self.stage()),
            Kind::Lifted => Statement::Lifted(Lifted { jars: self.jars, batch: self.batch, on: self.on }),
            Kind::Sealed => Statement::Sealed(Sealed { jars: self.jars, of: self.of, batch: self.batch, on: self.on }),
            Kind::Unsealed => Statement::Unsealed(self.some_jars()),
            Kind::Reprocessed => Statement::Reprocessed(self.some_jars()),
            Kind::Refrigerated => Statement::Refrigerated(self.some_jars()),
            Kind::Broke => Statement::Broke(self.some_jars()),
            Kind::Siphoned => Statement::Siphoned(self.some_jars()),
            Kind::PutUp => Statement::PutUp(self.jarred()),
            Kind::Opened => Statement::Opened(self.jarred()),
            Kind::Dried => Statement::Dried(Dried { mass: self.mass, trays: self.trays, what: self.what, on: self.on }),
            Kind::Dry => Statement::Dry(Dry { mass: self.mass, what: self.what, on: self.on }),
            Kind::Powdered => Statement::Powdered(Powdered { mass: self.mass, what: self.what, on: self.on }),
            Kind::Bought => Statement::Bought(Bought {
                supply: self.supply,
                count: self.jars.or_else(|| self.number.and_then(Number::as_count)),
                mass: self.mass,
                volume: self.volume,
                jar: self.jar,
                on: self.on,
            }),
            Kind::Planted => Statement::Planted(Planted {
                count: self.number.and_then(Number::as_count),
                crop: self.crop,
                variety: self.variety,
                place: self.place,
                on: self.on,
            }),
            Kind::Ask => Statement::Ask(self.ask(frame)?),
            Kind::Set => Statement::Set(self.set(frame)?),
            _ => return None,
        })
    }

    fn taken(self) -> Taken {
        Taken {
            mass: self.mass,
            bags: self.bags,
            jars: self.jars,
            jar: self.jar,
            product: self.product,
            crop: self.crop,
            from: self.from,
            unsealed: self.unsealed.then_some(true),
            share: self.share,
            of: self.whole.filter(|_| self.share.is_some()),
            approx: self.approx.then_some(true),
            on: self.on,
        }
    }

    fn counted(self) -> Counted {
        let count = self.supply.and_then(|_| self.count());
        Counted {
            from: self.from,
            mass: self.mass,
            bags: self.bags,
            jars: self.jars,
            jar: self.jar,
            product: self.product,
            crop: self.crop,
            supply: self.supply,
            count,
            volume: self.volume,
            on: self.on,
        }
    }

    fn stage(self) -> Stage {
        Stage { batch: self.batch, on: self.on }
    }

    fn some_jars(self) -> SomeJars {
        SomeJars { jars: self.jars, batch: self.batch, on: self.on }
    }

    fn jarred(self) -> Jarred {
        Jarred { jars: self.jars, of: self.of, jar: self.jar, product: self.product, mass: self.mass, on: self.on }
    }

    fn ask(self, frame: &Frame) -> Option<Ask> {
        Some(Ask {
            product: self.product,
            jar: self.jar,
            jars: self.jars,
            canner: self.canner,
            pack: self.pack,
            length: self.height,
            crop: self.crop,
            batch: self.batch,
            what: self.what,
            since: self.since,
            until: self.until,
            ..Ask::about(frame.about?)
        })
    }

    fn set(self, frame: &Frame) -> Option<Set> {
        let count = self.supply.and_then(|_| self.count().or(self.jars));
        Some(Set {
            length: self.height,
            canner: self.canner,
            jars: self.jars.filter(|_| count.is_none()),
            jar: self.jar,
            mass: self.mass.or(self.each),
            volume: self.volume,
            product: self.product,
            word: self.word,
            supply: self.supply,
            count,
            temp: self.temp,
            ..Set::of(frame.key?)
        })
    }
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
