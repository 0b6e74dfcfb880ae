//! Length, counted in micrometres: altitude above the sea and headspace in a jar.

exact_quantity! {
    /// A length; below zero is below the sea. A foot is exactly 304 800 µm.
    ///
    /// Written as metres.
    Length, "metres", 1e6, from_metres, as_metres
}

impl Length {
    /// 1 m.
    pub const METRE: Self = Self(1_000_000);
    /// 1 ft, 0.3048 m by definition (`processes/tables/facts.csv`, `m_per_foot`).
    pub const FOOT: Self = Self(304_800);
    /// 1 in, 25.4 mm by definition (`processes/tables/facts.csv`, `mm_per_inch`).
    pub const INCH: Self = Self(25_400);

    /// In feet, as altitude bands are printed.
    pub fn as_feet(self) -> f64 {
        self.ratio(Self::FOOT)
    }

    /// In millimetres, as headspace is printed for metric readers.
    pub fn as_millimetres(self) -> f64 {
        self.as_metres() * 1000.0
    }

    /// In inches, as headspace is printed.
    pub fn as_inches(self) -> f64 {
        self.ratio(Self::INCH)
    }

    /// From a float of inches as published tables print them.
    pub fn from_inches(inches: f64) -> Option<Self> {
        Self::from_metres(inches * 0.0254)
    }
}
