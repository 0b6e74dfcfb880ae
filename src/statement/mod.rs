//! What one phrase said, in the trade's terms and with typed quantities. `phrase` makes statements, `ledger` folds
//! them; the two meet only here.
//!
//! ```
//! use rackful::{quantity::{Mass, Number}, statement::{Froze, Statement}};
//! let said = Statement::Froze(Froze { mass: Mass::POUND.times(Number::whole(7)), ..Froze::default() });
//! assert_eq!(serde_json::to_string(&said)?, r#"{"kind":"froze","mass_g":3175.14659}"#);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! Invariants: a field that was not said is `None` and not written; the JSON form is the contract's and is also what
//! the journal keeps, so a field is never renamed and a variant never dropped.

mod asking;
mod batch;
mod freezer;
mod harvest;
mod mending;
mod pantry;
mod plans;
mod seals;
mod settings;
mod supplies;
mod timers;
mod when;

pub use asking::Ask;
pub use batch::{AcidAdded, AcidMissing, AtHeat, Began, CookedDown, Drained, Filled, Lifted, Mishap, Named, Stage};
pub use freezer::{Counted, Froze, Thawed};
pub use harvest::{Picked, Taken};
pub use mending::{Clarify, Correct, Propose, Teach};
pub use pantry::{Dried, Dry, Jarred, Powdered, Spoiled};
pub use plans::{CalledOff, Planned, Planted};
pub use seals::{Sealed, SomeJars};
pub use settings::{Recipe, Set};
pub use supplies::Bought;
pub use timers::{TimerStart, TimerStop};
pub use when::When;

use crate::quantity::{Mass, Number};
use crate::vocabulary::{Crop, Kind, Product, Whole};
use serde::{Deserialize, Serialize};

/// One statement. Every `match` on it is exhaustive, so that a new kind is missing nowhere.
#[derive(Clone, PartialEq, Debug, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "snake_case")]
#[allow(missing_docs)] // each variant is explained at its kind, see `vocabulary::Kind`
pub enum Statement {
    Picked(Picked),
    Froze(Froze),
    Thawed(Thawed),
    Ate(Taken),
    Gave(Taken),
    Tossed(Taken),
    Counted(Counted),
    Began(Began),
    Drained(Drained),
    CookedDown(CookedDown),
    Filled(Filled),
    AcidAdded(AcidAdded),
    AcidMissing(AcidMissing),
    Venting(Stage),
    AtHeat(AtHeat),
    LostHeat(Stage),
    HeatOff(Stage),
    PressureDown(Stage),
    Lifted(Lifted),
    Sealed(Sealed),
    Unsealed(SomeJars),
    Reprocessed(SomeJars),
    Refrigerated(SomeJars),
    Broke(SomeJars),
    Siphoned(SomeJars),
    Mishap(Mishap),
    Stopped(Stage),
    Resumed(Stage),
    Named(Named),
    PutUp(Jarred),
    Opened(Jarred),
    Dried(Dried),
    Dry(Dry),
    Powdered(Powdered),
    Bought(Bought),
    Planted(Planted),
    Planned(Planned),
    CalledOff(CalledOff),
    Recipe(Recipe),
    TimerStart(TimerStart),
    TimerStop(TimerStop),
    Set(Set),
    Ask(Ask),
    Undo,
    Correct(Correct),
    Teach(Teach),
    Propose(Propose),
    Clarify(Clarify),
    Spoiled(Spoiled),
}

impl Statement {
    /// Which kind it is.
    pub fn kind(&self) -> Kind {
        match self {
            Self::Picked(_) => Kind::Picked,
            Self::Froze(_) => Kind::Froze,
            Self::Thawed(_) => Kind::Thawed,
            Self::Ate(_) => Kind::Ate,
            Self::Gave(_) => Kind::Gave,
            Self::Tossed(_) => Kind::Tossed,
            Self::Counted(_) => Kind::Counted,
            Self::Began(_) => Kind::Began,
            Self::Drained(_) => Kind::Drained,
            Self::CookedDown(_) => Kind::CookedDown,
            Self::Filled(_) => Kind::Filled,
            Self::AcidAdded(_) => Kind::AcidAdded,
            Self::AcidMissing(_) => Kind::AcidMissing,
            Self::Venting(_) => Kind::Venting,
            Self::AtHeat(_) => Kind::AtHeat,
            Self::LostHeat(_) => Kind::LostHeat,
            Self::HeatOff(_) => Kind::HeatOff,
            Self::PressureDown(_) => Kind::PressureDown,
            Self::Lifted(_) => Kind::Lifted,
            Self::Sealed(_) => Kind::Sealed,
            Self::Unsealed(_) => Kind::Unsealed,
            Self::Reprocessed(_) => Kind::Reprocessed,
            Self::Refrigerated(_) => Kind::Refrigerated,
            Self::Broke(_) => Kind::Broke,
            Self::Siphoned(_) => Kind::Siphoned,
            Self::Mishap(_) => Kind::Mishap,
            Self::Stopped(_) => Kind::Stopped,
            Self::Resumed(_) => Kind::Resumed,
            Self::Named(_) => Kind::Named,
            Self::PutUp(_) => Kind::PutUp,
            Self::Opened(_) => Kind::Opened,
            Self::Dried(_) => Kind::Dried,
            Self::Dry(_) => Kind::Dry,
            Self::Powdered(_) => Kind::Powdered,
            Self::Bought(_) => Kind::Bought,
            Self::Planted(_) => Kind::Planted,
            Self::Planned(_) => Kind::Planned,
            Self::CalledOff(_) => Kind::CalledOff,
            Self::Recipe(_) => Kind::Recipe,
            Self::TimerStart(_) => Kind::TimerStart,
            Self::TimerStop(_) => Kind::TimerStop,
            Self::Set(_) => Kind::Set,
            Self::Ask(_) => Kind::Ask,
            Self::Undo => Kind::Undo,
            Self::Correct(_) => Kind::Correct,
            Self::Teach(_) => Kind::Teach,
            Self::Propose(_) => Kind::Propose,
            Self::Clarify(_) => Kind::Clarify,
            Self::Spoiled(_) => Kind::Spoiled,
        }
    }

    /// When it happened, if the phrase said so.
    pub fn on(&self) -> Option<When> {
        match self {
            Self::Picked(s) => s.on,
            Self::Froze(s) => s.on,
            Self::Thawed(s) => s.on,
            Self::Ate(s) | Self::Gave(s) | Self::Tossed(s) => s.on,
            Self::Counted(s) => s.on,
            Self::Began(s) => s.on,
            Self::Drained(s) => s.on,
            Self::CookedDown(s) => s.on,
            Self::Filled(s) => s.on,
            Self::AcidAdded(s) => s.on,
            Self::AcidMissing(s) => s.on,
            Self::Venting(s)
            | Self::LostHeat(s)
            | Self::HeatOff(s)
            | Self::PressureDown(s)
            | Self::Stopped(s)
            | Self::Resumed(s) => s.on,
            Self::AtHeat(s) => s.on,
            Self::Mishap(s) => s.on,
            Self::Lifted(s) => s.on,
            Self::Sealed(s) => s.on,
            Self::Unsealed(s) | Self::Reprocessed(s) | Self::Refrigerated(s) | Self::Broke(s) | Self::Siphoned(s) => {
                s.on
            }
            Self::PutUp(s) | Self::Opened(s) => s.on,
            Self::Dried(s) => s.on,
            Self::Dry(s) => s.on,
            Self::Powdered(s) => s.on,
            Self::Bought(s) => s.on,
            Self::Planted(s) => s.on,
            Self::Spoiled(s) => s.on,
            Self::TimerStart(_)
            | Self::Named(_)
            | Self::Planned(_)
            | Self::CalledOff(_)
            | Self::Recipe(_)
            | Self::TimerStop(_)
            | Self::Set(_)
            | Self::Ask(_)
            | Self::Undo
            | Self::Correct(_)
            | Self::Teach(_)
            | Self::Propose(_)
            | Self::Clarify(_) => None,
        }
    }

    /// The same step, of the batch of this name; `None` for what belongs to no batch.
    pub fn with_batch(&self, name: &str) -> Option<Self> {
        let mut named = self.clone();
        let batch = match &mut named {
            Self::Thawed(s) => &mut s.batch,
            Self::Froze(s) if s.jars.is_some() => &mut s.batch,
            Self::Drained(s) => &mut s.batch,
            Self::CookedDown(s) => &mut s.batch,
            Self::Named(s) => &mut s.batch,
            Self::Filled(s) => &mut s.batch,
            Self::AcidAdded(s) => &mut s.batch,
            Self::AcidMissing(s) => &mut s.batch,
            Self::Venting(s)
            | Self::LostHeat(s)
            | Self::HeatOff(s)
            | Self::PressureDown(s)
            | Self::Stopped(s)
            | Self::Resumed(s) => &mut s.batch,
            Self::AtHeat(s) => &mut s.batch,
            Self::Mishap(s) => &mut s.batch,
            Self::Lifted(s) => &mut s.batch,
            Self::Sealed(s) => &mut s.batch,
            Self::Unsealed(s) | Self::Reprocessed(s) | Self::Refrigerated(s) | Self::Broke(s) | Self::Siphoned(s) => {
                &mut s.batch
            }
            _ => return None,
        };
        *batch = Some(name.to_owned());
        Some(named)
    }

    /// The weight that it tells of, if it tells one.
    pub const fn mass(&self) -> Option<Mass> {
        match self {
            Self::Picked(s) => s.mass,
            Self::Froze(s) => s.mass,
            Self::Thawed(s) => s.mass,
            Self::Ate(s) | Self::Gave(s) | Self::Tossed(s) => s.mass,
            Self::Counted(s) => s.mass,
            Self::Began(s) => s.mass,
            Self::Drained(s) => s.mass,
            Self::CookedDown(s) => s.mass,
            Self::Dried(s) => s.mass,
            Self::Dry(s) => s.mass,
            Self::Powdered(s) => s.mass,
            Self::Bought(s) => s.mass,
            _ => None,
        }
    }

    /// How many bags, jars or pieces it tells of, if it tells a number.
    pub const fn count(&self) -> Option<u32> {
        match self {
            Self::Froze(s) => s.bags,
            Self::Thawed(s) => s.bags,
            Self::Ate(s) | Self::Gave(s) | Self::Tossed(s) => match s.jars {
                None => s.bags,
                jars => jars,
            },
            Self::Counted(s) => match (s.jars, s.bags) {
                (None, None) => s.count,
                (None, bags) => bags,
                (jars, _) => jars,
            },
            Self::Began(s) => s.jars,
            Self::Filled(s) => s.jars,
            Self::Lifted(s) => s.jars,
            Self::Sealed(s) => s.jars,
            Self::Unsealed(s) | Self::Reprocessed(s) | Self::Refrigerated(s) | Self::Broke(s) | Self::Siphoned(s) => {
                s.jars
            }
            Self::PutUp(s) | Self::Opened(s) => s.jars,
            Self::Spoiled(s) => s.jars,
            Self::Dried(s) => s.trays,
            Self::Bought(s) => s.count,
            Self::Planted(s) => s.count,
            _ => None,
        }
    }

    /// The part of something that it tells of, and of what, where no weight stands for it yet.
    pub const fn share(&self) -> Option<(Number, Option<Whole>)> {
        let (share, of, mass) = match self {
            Self::Froze(s) => (s.share, s.of, s.mass),
            Self::Thawed(s) => (s.share, s.of, s.mass),
            Self::Ate(s) | Self::Gave(s) | Self::Tossed(s) => (s.share, s.of, s.mass),
            _ => return None,
        };
        match (share, mass) {
            (Some(share), None) => Some((share, of)),
            _ => None,
        }
    }

    /// The same with the weight that its part comes to, and the crop, where it names none.
    pub fn with_share(mut self, mass: Mass, crop: Option<Crop>) -> Self {
        match &mut self {
            Self::Froze(s) => (s.mass, s.crop) = (Some(mass), s.crop.or(crop)),
            Self::Thawed(s) => (s.mass, s.crop) = (Some(mass), s.crop.or(crop)),
            Self::Ate(s) | Self::Gave(s) | Self::Tossed(s) => (s.mass, s.crop) = (Some(mass), s.crop.or(crop)),
            _ => {}
        }
        self
    }

    /// The crop that it names, if it names one.
    pub const fn crop(&self) -> Option<Crop> {
        match self {
            Self::Picked(s) => s.crop,
            Self::Froze(s) => s.crop,
            Self::Thawed(s) => s.crop,
            Self::Ate(s) | Self::Gave(s) | Self::Tossed(s) => s.crop,
            Self::Counted(s) => s.crop,
            _ => None,
        }
    }

    /// The product that it names, if it names one.
    pub fn product(&self) -> Option<&Product> {
        match self {
            Self::Ate(s) | Self::Gave(s) | Self::Tossed(s) => s.product.as_ref(),
            Self::Counted(s) => s.product.as_ref(),
            Self::Began(s) => s.product.as_ref(),
            Self::Filled(s) => s.product.as_ref(),
            Self::PutUp(s) | Self::Opened(s) => s.product.as_ref(),
            Self::Spoiled(s) => s.product.as_ref(),
            Self::Planned(s) => s.product.as_ref(),
            Self::CalledOff(s) => s.product.as_ref(),
            Self::Ask(s) => s.product.as_ref(),
            Self::Set(s) => s.product.as_ref(),
            _ => None,
        }
    }

    /// The same of another product; `None` for what has none.
    pub fn with_product(&self, product: &Product) -> Option<Self> {
        let mut named = self.clone();
        let field = match &mut named {
            Self::Ate(s) | Self::Gave(s) | Self::Tossed(s) => &mut s.product,
            Self::Counted(s) => &mut s.product,
            Self::Began(s) => &mut s.product,
            Self::Filled(s) => &mut s.product,
            Self::PutUp(s) | Self::Opened(s) => &mut s.product,
            Self::Planned(s) => &mut s.product,
            Self::CalledOff(s) => &mut s.product,
            Self::Ask(s) => &mut s.product,
            Self::Set(s) => &mut s.product,
            _ => return None,
        };
        *field = Some(product.clone());
        Some(named)
    }
}
