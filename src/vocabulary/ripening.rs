//! How ripe fruit is, and what was done to it before freezing.

closed_words! {
    /// The colour classes of the US standard (7 CFR 51.1860; `processes/tables/facts.csv`, `colour_…`), least ripe
    /// first.
    Ripeness {
        /// No red at all.
        Green = "green",
        /// A break in colour on not more than a tenth.
        Breakers = "breakers",
        /// More than a tenth, up to three tenths.
        Turning = "turning",
        /// More than three tenths, up to six.
        Pink = "pink",
        /// More than six tenths, up to nine.
        LightRed = "light-red",
        /// More than nine tenths.
        Red = "red",
    }
}

closed_words! {
    /// How fruit was prepared before it was frozen.
    Prep {
        /// Cut in four.
        Quartered = "quartered",
        /// Cut in two.
        Halved = "halved",
        /// Not cut.
        Whole = "whole",
        /// Cut small.
        Chopped = "chopped",
        /// Cut into cubes.
        Diced = "diced",
        /// Cut into slices.
        Sliced = "sliced",
        /// Made smooth.
        Pureed = "pureed",
        /// Crushed.
        Crushed = "crushed",
        /// Skinned.
        Peeled = "peeled",
        /// Without the core.
        Cored = "cored",
        /// Roasted.
        Roasted = "roasted",
        /// Cooked.
        Cooked = "cooked",
        /// Cut into strips.
        Strips = "strips",
        /// Cut into shreds.
        Shredded = "shredded",
        /// Rubbed on a grater.
        Grated = "grated",
        /// Without the stones.
        Pitted = "pitted",
        /// Out of the pod or the husk.
        Shelled = "shelled",
        /// Dipped into boiling water.
        Blanched = "blanched",
        /// The ends cut off.
        Trimmed = "trimmed",
        /// Made to mash.
        Mashed = "mashed",
        /// The juice pressed out.
        Juiced = "juiced",
    }
}
