//! What a question or a setting is about, and what an unfinished phrase still needs.

closed_words! {
    /// What a question is about.
    Subject {
        /// Bags in the freezer.
        Freezer = "freezer",
        /// Fresh fruit indoors.
        Counter = "counter",
        /// Jars on the shelf.
        Pantry = "pantry",
        /// Jars in the refrigerator.
        Fridge = "fridge",
        /// Lids, acid and the like.
        Supplies = "supplies",
        /// The season's sums.
        Totals = "totals",
        /// How close the freezer is to a canner load.
        Load = "load",
        /// When it will be.
        Forecast = "forecast",
        /// What is left on the clock.
        Timer = "timer",
        /// The next step.
        Next = "next",
        /// Minutes and pressure for a product.
        Process = "process",
        /// How much acid.
        Acid = "acid",
        /// Whether the acid is in the jars.
        AcidIn = "acid-in",
        /// A picture.
        Chart = "chart",
        /// What is to be done today, and when the last round will be out.
        Day = "day",
        /// Raw weight for a quart: the household's own and the handbook's.
        Yield = "yield",
        /// What to plant next year.
        Planting = "planting",
        /// A sheet of jar labels.
        Labels = "labels",
        /// What is due, as a calendar.
        Calendar = "calendar",
        /// A table for a spreadsheet.
        Table = "table",
        /// What was entered.
        Log = "log",
        /// What can be said.
        Help = "help",
        /// Somebody ate of a bad jar, or has the signs of botulism.
        Ill = "ill",
        /// What is out of the freezer and in no jar yet.
        Thawing = "thawing",
        /// Whether something is safe; `what` says what.
        Safety = "safety",
    }
}

closed_words! {
    /// A setting of a room.
    SettingKey {
        /// Height above the sea.
        Altitude = "altitude",
        /// The canner that is used unless another is named.
        Canner = "canner",
        /// How many jars it holds.
        Capacity = "capacity",
        /// Pounds and quarts, or kilograms and litres.
        Units = "units",
        /// The usual weight of a freezer bag.
        Bag = "bag",
        /// The usual product and jar: what a load is.
        Usual = "usual",
        /// The room's time zone.
        Timezone = "timezone",
        /// When nothing that can wait is said.
        Quiet = "quiet",
        /// The line under which a supply is called low.
        Low = "low",
        /// The temperature of the room where fruit ripens.
        Room = "room",
        /// Whose raw weight for a quart a load goes by: the household's own or the handbook's.
        Yield = "yield",
        /// When the weekly digest comes, if it does.
        Digest = "digest",
        /// The day after which no more fruit is expected.
        Season = "season",
        /// The grid and sheet of jar labels.
        Labels = "labels",
        /// How much is said of an entry that raises no question.
        Answers = "answers",
        /// Light or dark pictures.
        Pictures = "pictures",
    }
}

closed_words! {
    /// What an unfinished statement still needs.
    Missing {
        /// Pounds, bags, jars, …
        Unit = "unit",
        /// How much or how many.
        Amount = "amount",
        /// What is canned.
        Product = "product",
        /// Which jar.
        Jar = "jar",
        /// Which gauge a pressure canner has.
        Canner = "canner",
        /// The height above the sea, without which there is no process time.
        Altitude = "altitude",
    }
}

closed_words! {
    /// A table for a spreadsheet.
    Table {
        /// Every entry as it now stands, by when it happened.
        Log = "log",
        /// Every bag in the freezer, oldest first.
        Freezer = "freezer",
        /// Every lot of jars in the pantry and the refrigerator.
        Pantry = "pantry",
        /// Every batch.
        Batches = "batches",
        /// The sums of each year.
        Totals = "totals",
    }
}
