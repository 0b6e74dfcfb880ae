//! Where stock is kept, and what a canner uses up.

closed_words! {
    /// A place where food is kept and counted.
    Stock {
        /// Fresh fruit indoors.
        Counter = "counter",
        /// Bags in the freezer.
        Freezer = "freezer",
        /// Sealed jars on the shelf.
        Pantry = "pantry",
        /// Jars in the refrigerator.
        Fridge = "fridge",
        /// Out of the freezer, and in no jar yet.
        Thawing = "thawing",
    }
}

closed_words! {
    /// What canning uses up.
    Supply {
        /// Flat lids, one a jar and a processing.
        Lids = "lids",
        /// Empty jars, by size.
        Jars = "jars",
        /// Bottled lemon juice.
        LemonJuice = "lemon-juice",
        /// Citric acid.
        CitricAcid = "citric-acid",
        /// Vinegar of 5 percent.
        Vinegar = "vinegar",
        /// Canning salt.
        Salt = "salt",
        /// Freezer bags.
        Bags = "bags",
    }
}

closed_words! {
    /// What tomatoes are acidified with.
    Acid {
        /// Bottled lemon juice.
        LemonJuice = "lemon-juice",
        /// Citric acid.
        CitricAcid = "citric-acid",
        /// Vinegar of 5 percent.
        Vinegar = "vinegar",
    }
}

impl Acid {
    /// The supply it is taken from.
    pub const fn supply(self) -> Supply {
        match self {
            Self::LemonJuice => Supply::LemonJuice,
            Self::CitricAcid => Supply::CitricAcid,
            Self::Vinegar => Supply::Vinegar,
        }
    }
}

closed_words! {
    /// What a part is a part of.
    Whole {
        /// What was last spoken of.
        Last = "last",
        /// Fresh fruit indoors.
        Counter = "counter",
        /// What is thawing.
        Thawing = "thawing",
        /// Bags in the freezer.
        Freezer = "freezer",
    }
}

closed_words! {
    /// What a household's own word may stand for.
    Taught {
        /// A crop.
        Crop = "crop",
        /// A variety.
        Variety = "variety",
        /// A place in the garden.
        Place = "place",
        /// What is in a jar.
        Product = "product",
        /// Where food is kept.
        Store = "store",
        /// What canning uses up.
        Supply = "supply",
    }
}
