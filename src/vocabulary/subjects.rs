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
        /// A picture.
        Chart = "chart",
        /// What was entered.
        Log = "log",
        /// What can be said.
        Help = "help",
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
        /// The height above the sea, without which there is no process time.
        Altitude = "altitude",
    }
}
