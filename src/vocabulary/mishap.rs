//! What happens to a canner, its heat and its jars beside the steps of a batch.

closed_words! {
    /// Something that went wrong, or what became of it.
    Mishap {
        /// The canner boiled dry.
        CannerDry = "canner-dry",
        /// The safety plug, or the overpressure valve, let go.
        PlugBlown = "plug-blown",
        /// The weight went on without steam flowing from the vent before.
        VentSkipped = "vent-skipped",
        /// The vent was opened, or the weight taken off, to let pressure out.
        VentOpened = "vent-opened",
        /// The weight came off by itself.
        WeightOff = "weight-off",
        /// The weight does not rock.
        WeightStill = "weight-still",
        /// The canner's lid was opened.
        LidOpened = "lid-opened",
        /// The jars stand out of the water, or there is little left.
        WaterLow = "water-low",
        /// Steam leaks from lid or gasket.
        SteamLeak = "steam-leak",
        /// Words that may mean that heat or pressure was lost, not sure enough to be one of these.
        Unclear = "unclear",
        /// The gauge shows more than there is.
        GaugeHigh = "gauge-high",
        /// The gauge shows less than there is.
        GaugeLow = "gauge-low",
        /// The jars were left in the closed canner.
        LeftIn = "left-in-canner",
        /// The heat or the pressure did fall below what it must be.
        Fell = "fell",
        /// It did not.
        Held = "held",
    }
}
