//! The stages of a canner batch.

closed_words! {
    /// A stage, in the order in which a batch goes through them.
    Stage {
        /// Thawing, draining, cooking down.
        Begun = "begun",
        /// The jars are filled; the canner is on its way to heat.
        Filled = "filled",
        /// Steam flows from the vent of a pressure canner.
        Venting = "venting",
        /// The process clock runs.
        Processing = "processing",
        /// The minutes are up; the heat may go off.
        Done = "done",
        /// A pressure canner comes down by itself.
        Depressurising = "depressurising",
        /// The heat is off; the jars wait in the canner.
        Resting = "resting",
        /// The jars are out and cool.
        Cooling = "cooling",
        /// It is time to look at the seals, or some are not known.
        Checking = "checking",
    }
}

impl Stage {
    /// The one next thing to do, in the words of the kitchen, and what to say when it is done.
    pub const fn next_step(self, pressure: bool) -> &'static str {
        match self {
            Self::Begun => "fill the hot jars, and say so",
            Self::Filled if pressure => "lock the lid and heat; when steam flows from the vent, say 'venting'",
            Self::Filled => "load the canner and heat; when it is at temperature, say 'steam's up' or 'rolling boil'",
            Self::Venting => "vent for 10 minutes, close the vent, and say 'at 11 pounds' (your gauge) at pressure",
            Self::Processing if pressure => "hold the pressure; if it drops, say 'lost pressure'",
            Self::Processing => "keep the heat steady; if it drops, say 'lost the boil'",
            Self::Done => "turn the heat off, and say 'heat's off'",
            Self::Depressurising => "let it come down by itself, and say 'pressure's down' at zero",
            Self::Resting => "let the jars rest, then lift them, and say 'jars are out'",
            Self::Cooling => "leave the jars alone for 12 to 24 hours",
            Self::Checking => "press the lids, and say how many sealed",
        }
    }
}
