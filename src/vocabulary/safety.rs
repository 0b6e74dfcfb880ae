//! What is said of spoiled jars, of fruit that must not go into jars, and questions whether something is safe.

closed_words! {
    /// What shows that a jar is spoiled.
    Sign {
        /// Its lid bulges.
        Bulging = "bulging",
        /// It came open on the shelf.
        Unsealed = "unsealed",
        /// It fizzed or spurted.
        Fizzing = "fizzing",
        /// Mould.
        Mold = "mold",
        /// It leaks.
        Leaking = "leaking",
        /// It smells wrong.
        Smell = "smell",
        /// What is in it is cloudy.
        Cloudy = "cloudy",
        /// It went bad, and nothing more was said.
        Spoiled = "spoiled",
    }
}

closed_words! {
    /// How fruit was when it was picked, where that decides whether it may go into jars.
    Condition {
        /// From vines that were dead or killed by frost.
        DeadVines = "dead-vines",
        /// From plants with late blight.
        LateBlight = "late-blight",
        /// Past ripe.
        Overripe = "overripe",
        /// Cracked, bruised or otherwise damaged.
        Cracked = "cracked",
    }
}

closed_words! {
    /// Whether something is safe: what a question is about that the handbook answers.
    Matter {
        /// The signs of botulism.
        Botulism = "botulism",
        /// A jar that may be spoiled.
        Spoiled = "spoiled",
        /// Tasting to find out.
        Tasting = "tasting",
        /// Flat lids a second time.
        ReuseLids = "reuse-lids",
        /// Bands a second time.
        ReuseBands = "reuse-bands",
        /// Jars processed in an oven.
        Oven = "oven",
        /// In a dishwasher.
        Dishwasher = "dishwasher",
        /// In a microwave.
        Microwave = "microwave",
        /// Hot food into a jar, a lid on it, and no process.
        OpenKettle = "open-kettle",
        /// Hot jars turned upside down.
        Inversion = "inversion",
        /// A seal of wax.
        Paraffin = "paraffin",
        /// In the sun.
        Sun = "sun",
        /// In a slow cooker.
        SlowCooker = "slow-cooker",
        /// In an electric multi-cooker.
        MultiCooker = "multi-cooker",
        /// Low-acid food without pressure.
        LowAcidBoiling = "low-acid-boiling",
        /// Acid that may be missing in jars of an open batch.
        AcidDoubt = "acid-doubt",
        /// A pressure canner that may not have been vented.
        VentDoubt = "vent-doubt",
        /// A pressure canner that may have been opened or cooled before its time.
        OpenedDoubt = "opened-doubt",
        /// A lid that may not be down, or a jar that may have lost liquid.
        LidDoubt = "lid-doubt",
        /// A jar that may be spoiled.
        SpoiledDoubt = "spoiled-doubt",
        /// Jars that may have stood too long without their process.
        StoodDoubt = "stood-doubt",
        /// Thawing at room temperature.
        ThawCounter = "thaw-counter",
        /// Freezing again what has thawed.
        Refreeze = "refreeze",
        /// A freezer that was off.
        FreezerOff = "freezer-off",
        /// Food in it that still has ice crystals.
        StillIcy = "still-icy",
        /// Jars older than a year.
        OldJars = "old-jars",
    }
}

impl Matter {
    /// Whether it is something that may be amiss with the jars of an open batch, and no question.
    pub const fn is_doubt(self) -> bool {
        matches!(
            self,
            Self::AcidDoubt
                | Self::VentDoubt
                | Self::OpenedDoubt
                | Self::LidDoubt
                | Self::SpoiledDoubt
                | Self::StoodDoubt
        )
    }
}
