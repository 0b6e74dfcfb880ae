//! Crops of a kitchen garden, each with its one singular lower-case word; and any other crop by the word that a
//! household has for it.

use super::CropName;

/// Defines the crops that the program knows something about, and leaves room for all others.
macro_rules! crops {
    ($(#[$doc:meta])* $name:ident { $($(#[$vdoc:meta])* $variant:ident = $word:literal),+ $(,)? }) => {
        $(#[$doc])*
        #[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
        pub enum $name {
            $($(#[$vdoc])* $variant,)+
            /// A crop that nothing is known about but its name.
            Other(CropName),
        }

        impl $name {
            /// Every one that the program knows, in the order of their definition.
            pub const ALL: &'static [Self] = &[$(Self::$variant),+];

            /// The written form.
            pub fn as_str(&self) -> &str {
                match self {
                    $(Self::$variant => $word,)+
                    Self::Other(name) => name.as_str(),
                }
            }

            /// The known one with exactly this written form.
            pub fn named(word: &str) -> Option<Self> {
                match word {
                    $($word => Some(Self::$variant),)+
                    _ => None,
                }
            }
        }
    };
}

crops! {
    /// A crop. Varieties are free text beside it.
    Crop {
        /// The default: what is meant when no crop is said.
        Tomato = "tomato",
        /// Husk tomatoes.
        Tomatillo = "tomatillo",
        /// Sweet and hot peppers.
        Pepper = "pepper",
        /// Summer squash of the zucchini kind.
        Zucchini = "zucchini",
        /// Other summer and winter squash.
        Squash = "squash",
        /// Pumpkins.
        Pumpkin = "pumpkin",
        /// Cucumbers.
        Cucumber = "cucumber",
        /// Snap beans.
        Bean = "bean",
        /// Peas.
        Pea = "pea",
        /// Sweet corn.
        Corn = "corn",
        /// Okra.
        Okra = "okra",
        /// Aubergines.
        Eggplant = "eggplant",
        /// Onions.
        Onion = "onion",
        /// Garlic.
        Garlic = "garlic",
        /// Leeks.
        Leek = "leek",
        /// Carrots.
        Carrot = "carrot",
        /// Beets.
        Beet = "beet",
        /// Radishes.
        Radish = "radish",
        /// Turnips.
        Turnip = "turnip",
        /// Potatoes.
        Potato = "potato",
        /// Cabbages.
        Cabbage = "cabbage",
        /// Broccoli.
        Broccoli = "broccoli",
        /// Cauliflowers.
        Cauliflower = "cauliflower",
        /// Kale.
        Kale = "kale",
        /// Chard.
        Chard = "chard",
        /// Spinach.
        Spinach = "spinach",
        /// Lettuce.
        Lettuce = "lettuce",
        /// Celery.
        Celery = "celery",
        /// Asparagus.
        Asparagus = "asparagus",
        /// Rhubarb.
        Rhubarb = "rhubarb",
        /// Basil.
        Basil = "basil",
        /// Other kitchen herbs.
        Herb = "herb",
        /// Parsley.
        Parsley = "parsley",
        /// Oregano.
        Oregano = "oregano",
        /// Thyme.
        Thyme = "thyme",
        /// Dill.
        Dill = "dill",
        /// Mint.
        Mint = "mint",
        /// Cilantro.
        Cilantro = "cilantro",
        /// Apples.
        Apple = "apple",
        /// Apricots.
        Apricot = "apricot",
        /// Peaches.
        Peach = "peach",
        /// Nectarines.
        Nectarine = "nectarine",
        /// Pears.
        Pear = "pear",
        /// Plums.
        Plum = "plum",
        /// Cherries.
        Cherry = "cherry",
        /// Figs.
        Fig = "fig",
        /// Grapes.
        Grape = "grape",
        /// Strawberries.
        Strawberry = "strawberry",
        /// Raspberries.
        Raspberry = "raspberry",
        /// Blackberries.
        Blackberry = "blackberry",
        /// Blueberries.
        Blueberry = "blueberry",
        /// Berries with no other word.
        Berry = "berry",
        /// Melons.
        Melon = "melon",
    }
}

impl Crop {
    /// The crop of this singular lower-case word, known or not.
    pub fn of(word: &str) -> Self {
        Self::named(word).unwrap_or_else(|| Self::Other(CropName::new(word)))
    }
}

impl std::fmt::Display for Crop {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(self.as_str())
    }
}

/// Written as its word.
impl serde::Serialize for Crop {
    fn serialize<S: serde::Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.serialize_str(self.as_str())
    }
}

impl<'de> serde::Deserialize<'de> for Crop {
    fn deserialize<D: serde::Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let word = <std::borrow::Cow<'_, str> as serde::Deserialize>::deserialize(from)?;
        Ok(Self::of(&word))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_crop_that_no_list_has_keeps_its_name_over_a_restart() -> anyhow::Result<()> {
        for word in ["tomato", "quince", "sweet potato", "a name that is far too long for any crop there is"] {
            let crop = Crop::of(word);
            let json = serde_json::to_string(&crop)?;
            assert_eq!(serde_json::from_str::<Crop>(&json)?, crop, "{word}");
        }
        assert_eq!(Crop::of("tomato"), Crop::Tomato);
        assert_ne!(Crop::of("quince"), Crop::of("medlar"));
        Ok(())
    }
}
