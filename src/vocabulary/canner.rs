//! Canners, and how food goes into the jar.

closed_words! {
    /// What the jars are processed in.
    CannerKind {
        /// Free-flowing steam at the boiling temperature of the altitude; boiling-water times up to 45 minutes.
        Steam = "steam",
        /// Jars covered with boiling water.
        BoilingWater = "boiling-water",
        /// Pressure read off a dial gauge.
        PressureDial = "pressure-dial",
        /// Pressure held by a weight of 5, 10 or 15 lb.
        PressureWeighted = "pressure-weighted",
        /// A pressure canner whose gauge was not said; the room's own, or it is asked.
        Pressure = "pressure",
    }
}

impl CannerKind {
    /// Whether it is a pressure canner, with venting, a gauge and a depressurising stage.
    pub const fn is_pressure(self) -> bool {
        matches!(self, Self::PressureDial | Self::PressureWeighted | Self::Pressure)
    }

    /// As said in a sentence.
    pub const fn spoken(self) -> &'static str {
        match self {
            Self::Steam => "steam canner",
            Self::BoilingWater => "boiling-water canner",
            Self::PressureDial => "dial-gauge pressure canner",
            Self::PressureWeighted => "weighted-gauge pressure canner",
            Self::Pressure => "pressure canner",
        }
    }
}

closed_words! {
    /// How the food is packed into the jar, as the tables distinguish it.
    Pack {
        /// Heated first, filled hot.
        Hot = "hot",
        /// Filled raw.
        Raw = "raw",
        /// One line of the table for both.
        Either = "either",
    }
}
