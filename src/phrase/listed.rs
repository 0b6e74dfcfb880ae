//! Enumerations that know all of their entries.

/// An enumeration with the list of its entries, in their order.
macro_rules! listed {
    ($(#[$about:meta])* $sight:vis enum $name:ident { $($(#[$doc:meta])* $entry:ident),+ $(,)? }) => {
        $(#[$about])*
        $sight enum $name { $($(#[$doc])* $entry),+ }

        impl $name {
            /// In their order.
            $sight const ALL: &'static [Self] = &[$(Self::$entry),+];
        }
    };
}

pub(super) use listed;
