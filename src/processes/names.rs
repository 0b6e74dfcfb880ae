//! What the products are called in a sentence, which crop they use up, and the family words that fit several.

use crate::vocabulary::Crop;

/// How one product is said and what it is made of.
pub(super) struct Naming {
    pub(super) id: &'static str,
    pub(super) spoken: &'static str,
    /// The main crop, where there is one and it has a word of its own.
    pub(super) crop: Option<Crop>,
}

/// A word for several products, any of which may be meant.
pub(super) struct Family {
    /// The usual word first.
    pub(super) words: &'static [&'static str],
    pub(super) members: &'static [&'static str],
}

const fn n(id: &'static str, spoken: &'static str, crop: Option<Crop>) -> Naming {
    Naming { id, spoken, crop }
}

/// Every product of the table, in its order.
pub(super) const NAMINGS: &[Naming] = &[
    n("tomato-juice", "tomato juice", Some(Crop::Tomato)),
    n("tomato-juice-blend", "tomato and vegetable juice", Some(Crop::Tomato)),
    n("tomato-crushed", "crushed tomatoes", Some(Crop::Tomato)),
    n("tomato-sauce-thin", "thin tomato sauce", Some(Crop::Tomato)),
    n("tomato-sauce-thick", "thick tomato sauce", Some(Crop::Tomato)),
    n("tomato-whole-water", "whole tomatoes in water", Some(Crop::Tomato)),
    n("tomato-whole-juice", "whole tomatoes in tomato juice", Some(Crop::Tomato)),
    n("tomato-whole-raw", "raw-packed whole tomatoes with no added liquid", Some(Crop::Tomato)),
    n("tomato-okra-zucchini", "tomatoes with okra or zucchini", Some(Crop::Tomato)),
    n("tomatillos", "tomatillos", Some(Crop::Tomatillo)),
    n("spaghetti-sauce-no-meat", "spaghetti sauce without meat", Some(Crop::Tomato)),
    n("spaghetti-sauce-meat", "spaghetti sauce with meat", Some(Crop::Tomato)),
    n("tomato-sauce-mexican", "Mexican tomato sauce", Some(Crop::Tomato)),
    n("easy-hot-sauce", "easy hot sauce", Some(Crop::Tomato)),
    n("cayenne-pepper-sauce", "cayenne pepper sauce", Some(Crop::Pepper)),
    n("tomato-ketchup", "tomato ketchup", Some(Crop::Tomato)),
    n("ketchup-country-western", "country western ketchup", Some(Crop::Tomato)),
    n("ketchup-blender", "blender ketchup", Some(Crop::Tomato)),
    n("chile-salsa", "chile salsa", Some(Crop::Tomato)),
    n("chile-salsa-ii", "chile salsa II", Some(Crop::Tomato)),
    n("tomatillo-green-salsa", "tomatillo green salsa", Some(Crop::Tomatillo)),
    n("tomato-salsa-paste-tomatoes", "salsa from paste tomatoes", Some(Crop::Tomato)),
    n("tomato-salsa-slicing-tomatoes", "salsa from slicing tomatoes", Some(Crop::Tomato)),
    n("tomato-green-chile-salsa", "tomato and green chile salsa", Some(Crop::Tomato)),
    n("tomato-paste-salsa", "salsa with tomato paste", Some(Crop::Tomato)),
    n("tomato-taco-sauce", "tomato taco sauce", Some(Crop::Tomato)),
    n("apple-butter", "apple butter", Some(Crop::Apple)),
    n("apple-juice", "apple juice", Some(Crop::Apple)),
    n("apples-sliced", "sliced apples", Some(Crop::Apple)),
    n("applesauce", "applesauce", Some(Crop::Apple)),
    n("apricots", "apricots", Some(Crop::Apricot)),
    n("berries", "whole berries", Some(Crop::Berry)),
    n("cherries", "whole cherries", Some(Crop::Cherry)),
    n("figs", "figs", Some(Crop::Fig)),
    n("fruit-puree", "fruit puree", None),
    n("grape-juice", "grape juice", Some(Crop::Grape)),
    n("nectarines", "nectarines", Some(Crop::Nectarine)),
    n("peaches", "peaches", Some(Crop::Peach)),
    n("pears", "pears", Some(Crop::Pear)),
    n("plums", "plums", Some(Crop::Plum)),
    n("rhubarb", "stewed rhubarb", Some(Crop::Rhubarb)),
    n("beans-snap", "snap beans", Some(Crop::Bean)),
    n("beets", "beets", Some(Crop::Beet)),
    n("carrots", "carrots", Some(Crop::Carrot)),
    n("corn-cream", "cream-style corn", Some(Crop::Corn)),
    n("corn-whole", "whole-kernel corn", Some(Crop::Corn)),
    n("greens", "greens", Some(Crop::Spinach)),
    n("lima-beans", "lima beans", None),
    n("mixed-vegetables", "mixed vegetables", None),
    n("okra", "okra", Some(Crop::Okra)),
    n("peas", "peas", Some(Crop::Pea)),
    n("peppers", "peppers", Some(Crop::Pepper)),
    n("potatoes-sweet", "sweet potatoes", None),
    n("potatoes-white", "white potatoes", Some(Crop::Potato)),
    n("pumpkin-cubed", "cubed pumpkin or winter squash", Some(Crop::Pumpkin)),
    n("pickles-dill-quick", "quick dill pickles", Some(Crop::Cucumber)),
    n("pickles-bread-and-butter", "bread-and-butter pickles", Some(Crop::Cucumber)),
    n("pickled-beets", "pickled beets", Some(Crop::Beet)),
    n("pickled-bell-peppers", "pickled bell peppers", Some(Crop::Pepper)),
    n("pickled-hot-peppers", "pickled hot peppers", Some(Crop::Pepper)),
    n("pickled-jalapeno-rings", "pickled jalapeno rings", Some(Crop::Pepper)),
    n("pickled-pepper-rings-yellow", "pickled yellow pepper rings", Some(Crop::Pepper)),
    n("pickle-relish", "pickle relish", Some(Crop::Cucumber)),
    n("corn-relish", "corn relish", Some(Crop::Corn)),
    n("pepper-onion-relish", "pepper-onion relish", Some(Crop::Pepper)),
    n("green-tomato-relish", "green tomato relish", Some(Crop::Tomato)),
    n("sauerkraut", "sauerkraut", Some(Crop::Cabbage)),
    n("jelly-no-pectin", "jelly without added pectin", None),
    n("jam-no-pectin", "jam without added pectin", None),
    n("jams-jellies-added-pectin", "jam or jelly with added pectin", None),
    n("pear-apple-jam", "pear-apple jam", Some(Crop::Pear)),
    n("grape-plum-jelly", "grape-plum jelly", Some(Crop::Plum)),
    n("asparagus", "asparagus", Some(Crop::Asparagus)),
];

/// No word here is a product's id.
pub(super) const FAMILIES: &[Family] = &[
    Family {
        words: &["tomatoes", "canned tomatoes"],
        members: &["tomato-crushed", "tomato-whole-water", "tomato-whole-juice", "tomato-whole-raw"],
    },
    Family {
        words: &["whole tomatoes", "halved tomatoes"],
        members: &["tomato-whole-water", "tomato-whole-juice", "tomato-whole-raw"],
    },
    Family { words: &["tomato sauce"], members: &["tomato-sauce-thick", "tomato-sauce-thin"] },
    Family {
        words: &["spaghetti sauce", "pasta sauce"],
        members: &["spaghetti-sauce-no-meat", "spaghetti-sauce-meat"],
    },
    Family { words: &["hot sauce"], members: &["easy-hot-sauce", "cayenne-pepper-sauce"] },
    Family {
        words: &["ketchup", "catsup"],
        members: &["tomato-ketchup", "ketchup-country-western", "ketchup-blender"],
    },
    Family {
        words: &["salsa"],
        members: &[
            "tomato-salsa-paste-tomatoes",
            "tomato-salsa-slicing-tomatoes",
            "tomato-paste-salsa",
            "tomato-green-chile-salsa",
            "chile-salsa",
            "chile-salsa-ii",
            "tomatillo-green-salsa",
        ],
    },
    Family { words: &["juice"], members: &["tomato-juice", "tomato-juice-blend", "apple-juice", "grape-juice"] },
    Family { words: &["apples", "apple"], members: &["apples-sliced", "applesauce", "apple-butter", "apple-juice"] },
    Family { words: &["beans", "bean"], members: &["beans-snap", "lima-beans"] },
    Family { words: &["corn"], members: &["corn-whole", "corn-cream"] },
    Family { words: &["potatoes", "potato"], members: &["potatoes-white", "potatoes-sweet"] },
    Family { words: &["pickles", "pickle"], members: &["pickles-dill-quick", "pickles-bread-and-butter"] },
    Family {
        words: &["pickled peppers"],
        members: &[
            "pickled-bell-peppers",
            "pickled-jalapeno-rings",
            "pickled-pepper-rings-yellow",
            "pickled-hot-peppers",
        ],
    },
    Family {
        words: &["relish"],
        members: &["pickle-relish", "corn-relish", "pepper-onion-relish", "green-tomato-relish"],
    },
    Family { words: &["jam"], members: &["jam-no-pectin", "pear-apple-jam", "jams-jellies-added-pectin"] },
    Family { words: &["jelly"], members: &["grape-plum-jelly", "jelly-no-pectin", "jams-jellies-added-pectin"] },
];
