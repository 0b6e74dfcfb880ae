//! Crops of a kitchen garden, each with its one singular lower-case word.

closed_words! {
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
