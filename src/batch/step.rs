//! What can be told of a batch, what telling it does beyond the batch, and why it may not fit.

use super::{Bearing, Fate, Stage};
use crate::quantity::{Mass, Pressure, Volume};
use crate::vocabulary::{Acid, Mishap};
use chrono::{DateTime, Utc};

/// A step, as the batch needs to know it.
#[derive(Clone, Copy, PartialEq, Debug)]
#[allow(missing_docs)] // as the kinds of statement of the same names, see `vocabulary::Kind`
pub enum Step {
    Drained {
        mass: Option<Mass>,
        volume: Option<Volume>,
        kept: Option<bool>,
    },
    CookedDown {
        mass: Option<Mass>,
        volume: Option<Volume>,
    },
    Filled {
        jars: Option<u32>,
    },
    AcidAdded {
        acid: Option<Acid>,
    },
    /// Jars are without acid, or with less of it than is published: so many, or all.
    AcidMissing {
        jars: Option<u32>,
    },
    Venting,
    AtHeat,
    AtPressure(Pressure),
    LostHeat,
    HeatOff,
    PressureDown,
    Lifted {
        jars: Option<u32>,
    },
    Sealed {
        jars: Option<u32>,
        of: Option<u32>,
        /// Of which filling of the canner, from 1, where that was said.
        round: Option<u32>,
    },
    Unsealed {
        jars: Option<u32>,
        round: Option<u32>,
    },
    Reprocessed {
        jars: Option<u32>,
    },
    /// Jars came to an end other than on the shelf.
    Ended {
        fate: Fate,
        jars: Option<u32>,
    },
    Broke {
        jars: Option<u32>,
    },
    Siphoned {
        jars: Option<u32>,
    },
    /// Something happened to the canner or the jars in it.
    Mishap {
        what: Mishap,
        psi: Option<Pressure>,
    },
    Stopped,
    Resumed,
}

impl Step {
    /// Whether a batch that was set aside goes on with it.
    pub const fn goes_on(&self) -> bool {
        match self {
            Self::Drained { .. }
            | Self::CookedDown { .. }
            | Self::Filled { .. }
            | Self::AcidAdded { .. }
            | Self::Venting
            | Self::AtHeat
            | Self::AtPressure(_)
            | Self::HeatOff
            | Self::PressureDown
            | Self::Lifted { .. } => true,
            Self::LostHeat
            | Self::AcidMissing { .. }
            | Self::Sealed { .. }
            | Self::Unsealed { .. }
            | Self::Reprocessed { .. }
            | Self::Ended { .. }
            | Self::Broke { .. }
            | Self::Siphoned { .. }
            | Self::Mishap { .. }
            | Self::Stopped
            | Self::Resumed => false,
        }
    }
}

impl Step {
    /// Whether it tells how jars fared.
    pub const fn is_of_seals(&self) -> bool {
        matches!(self, Self::Sealed { .. } | Self::Unsealed { .. } | Self::Ended { .. })
    }

    /// Whether it happens at the canner.
    pub const fn is_in_canner(&self) -> bool {
        matches!(
            self,
            Self::Venting
                | Self::AtHeat
                | Self::AtPressure(_)
                | Self::LostHeat
                | Self::Mishap { .. }
                | Self::HeatOff
                | Self::PressureDown
                | Self::Lifted { .. }
        )
    }
}

/// What a step did, beyond the batch itself: for the ledger.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub struct Taken {
    /// Jars newly filled.
    pub filled: u32,
    /// Jars newly sealed.
    pub sealed: u32,
    /// Jars that are on the shelf and must come off it: they were said to be without acid.
    pub unshelved: u32,
    /// Jars that came to another end, and which.
    pub ended: Option<(Fate, u32)>,
    /// Jars that go through again.
    pub reprocessed: u32,
    /// The heat went off before the minutes were up.
    pub too_soon: bool,
    /// The gauge fell short while the clock ran, which is lost.
    pub too_low: bool,
    /// The batch had been set aside and goes on.
    pub resumed: bool,
    /// The clock ran, and is lost: it was set aside.
    pub lost_heat: bool,
    /// The gauge was told while the clock ran, and is high enough.
    pub steady: bool,
    /// What a mishap means for the jars.
    pub bearing: Option<Bearing>,
}

/// Why a step does not fit.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Misfit {
    /// It comes before its time: the minutes are not up.
    TooSoon {
        /// When they will be.
        ends: DateTime<Utc>,
    },
    /// Steam has not flowed from the vent for long enough.
    Unvented {
        /// When it will have.
        until: DateTime<Utc>,
    },
    /// The canner can't be opened yet.
    UnderPressure {
        /// When it can, where the pressure is known to be down.
        until: Option<DateTime<Utc>>,
    },
    /// It belongs to another stage.
    OutOfOrder(Stage),
    /// The clock runs already.
    Running {
        /// Since when.
        since: DateTime<Utc>,
    },
    /// More jars than there are.
    TooMany {
        /// As said.
        said: u32,
        /// That there are.
        there: u32,
    },
    /// A filling of the canner that is not out, or that there is none of.
    NoSuchRound {
        /// As said.
        said: u32,
        /// How many are out.
        out: u32,
    },
    /// The 24 hours in which an unsealed jar may go through again are over.
    TooLate {
        /// Since when.
        until: DateTime<Utc>,
    },
    /// As many jars are filled already, and no more were planned.
    Filled {
        /// How many.
        jars: u32,
    },
    /// Its jars have stood for longer than the published hours without their process.
    Stood {
        /// When those were over.
        until: DateTime<Utc>,
        /// How many jars.
        jars: u32,
    },
    /// It was said that it did not vent, and it has not vented since.
    VentFirst,
    /// A dial gauge was not read out: without its figure no clock starts.
    GaugeUnread,
    /// It is not known whether their process was whole.
    Doubtful,
    /// The gauge reads too high for the pressure that was said, or nobody said what it shows.
    GaugeOff,
    /// Its jars have not been through the canner for their full time, so that no seal of theirs counts.
    Unprocessed,
    /// Only a pressure canner does this.
    NoPressure,
    /// It was set aside already.
    Stopped {
        /// Since when.
        since: DateTime<Utc>,
    },
    /// It was not set aside.
    NotStopped,
    /// The jar went through again already, and goes through no third time.
    Again,
    /// Acid must go into each jar, and nobody said that it did.
    NotAcidified,
    /// Jars without acid may be made good only for so long, and that is over.
    AcidTooLate {
        /// Since when.
        until: DateTime<Utc>,
    },
    /// It was said to be missing when the jars were processed, and is now said to be in.
    AcidDisputed,
}
