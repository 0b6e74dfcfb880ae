//! The kinds of statement; a reply's topic is one of these words too.

closed_words! {
    /// What a statement is, as `parse --json` names it.
    Kind {
        /// Came in from the garden.
        Picked = "picked",
        /// Went into the freezer in bags.
        Froze = "froze",
        /// Came out of the freezer to thaw.
        Thawed = "thawed",
        /// Was eaten.
        Ate = "ate",
        /// Was given away.
        Gave = "gave",
        /// Was thrown away.
        Tossed = "tossed",
        /// A stock was counted.
        Counted = "counted",
        /// A batch began.
        Began = "began",
        /// Liquid was poured off.
        Drained = "drained",
        /// The pot was weighed or measured after cooking down.
        CookedDown = "cooked_down",
        /// Jars were filled.
        Filled = "filled",
        /// Acid went into the jars.
        AcidAdded = "acid_added",
        /// Jars are without their acid, or with less than is published.
        AcidMissing = "acid_missing",
        /// Steam flows from a pressure canner's vent.
        Venting = "venting",
        /// The canner is at heat or pressure: the clock starts.
        AtHeat = "at_heat",
        /// The canner fell below heat or pressure.
        LostHeat = "lost_heat",
        /// The burner was turned off.
        HeatOff = "heat_off",
        /// A pressure canner is back at zero.
        PressureDown = "pressure_down",
        /// The jars came out.
        Lifted = "lifted",
        /// Jars sealed.
        Sealed = "sealed",
        /// Jars did not seal.
        Unsealed = "unsealed",
        /// Jars that did not seal go through again.
        Reprocessed = "reprocessed",
        /// Jars that did not seal went into the refrigerator.
        Refrigerated = "refrigerated",
        /// Jars broke, in the canner or after it.
        Broke = "broke",
        /// Jars lost liquid in the canner; their seal is another matter.
        Siphoned = "siphoned",
        /// Something happened to the canner or the jars in it.
        Mishap = "mishap",
        /// A batch is set aside: its clock stands still.
        Stopped = "stopped",
        /// A batch that was set aside goes on.
        Resumed = "resumed",
        /// A batch gets another short name.
        Named = "named",
        /// A finished batch, told in one go.
        PutUp = "put_up",
        /// A jar was opened and used.
        Opened = "opened",
        /// Something went into the dryer.
        Dried = "dried",
        /// Powder came out of it.
        Powdered = "powdered",
        /// Something came out of the dryer dry, and was weighed or not.
        Dry = "dry",
        /// Supplies were bought.
        Bought = "bought",
        /// Plants went into the ground.
        Planted = "planted",
        /// A canning day was fixed, or moved.
        Planned = "planned",
        /// A canning day was called off.
        CalledOff = "called_off",
        /// A household recipe.
        Recipe = "recipe",
        /// A kitchen timer starts.
        TimerStart = "timer_start",
        /// A kitchen timer stops.
        TimerStop = "timer_stop",
        /// A setting.
        Set = "set",
        /// A question.
        Ask = "ask",
        /// Takes the last entry back.
        Undo = "undo",
        /// Changes the last entry.
        Correct = "correct",
        /// A word of the household's own.
        Teach = "teach",
        /// What may have been meant, to be said yes to.
        Propose = "propose",
        /// Something is missing.
        Clarify = "clarify",
        /// Jars are spoiled.
        Spoiled = "spoiled",
    }
}
