//! The table of words. Spellings that people use on purpose (`toms`, `frzr`, `qts`) stand here; mistyped ones are
//! found from these by `typo`.

use super::{Form::*, Unit, Verb, Word};
use crate::vocabulary::{Crop, Prep, Ripeness, Stock, Supply};
use Verb::*;
use Word::*;
use phf::{Map, phf_map};

/// Nouns with an `is` (or a plural that looks like one) written without an apostrophe.
static CONTRACTED: Map<&'static str, &'static str> = phf_map! {
    "whats" => "what", "wats" => "what", "wots" => "what", "whts" => "what", "wuts" => "what", "hows" => "how", "wheres" => "where", "whens" => "when", "theres" => "there", "thats" => "that",
    "its" => "it", "heats" => "heat", "steams" => "steam", "pressures" => "pressure", "needles" => "needle",
    "burners" => "burner", "stoves" => "stove", "gauges" => "gauge", "dials" => "dial", "canners" => "canner",
    "citrics" => "citric", "acids" => "acid", "flames" => "flame", "hobs" => "hob", "waters" => "water",
    "shes" => "she", "hes" => "he", "vinegars" => "vinegar", "pots" => "pot", "altitudes" => "altitude", "juices" => "juice",
    "whos" => "who", "temps" => "temp", "elevations" => "elevation", "lets" => "let", "salsas" => "salsa", "sauces" => "sauce",
};

pub(in crate::phrase) fn contracted(word: &str) -> Option<&'static str> {
    if !word.ends_with('s') {
        return None;
    }
    CONTRACTED.get(word).copied()
}

pub(super) static WORDS: Map<&'static str, Word> = phf_map! {
    // Numbers.
    "zero" | "nought" | "naught" | "nil" => Small(0),
    "one" => Small(1), "two" => Small(2), "three" => Small(3), "four" => Small(4), "five" => Small(5), "six" => Small(6),
    "seven" => Small(7), "eight" => Small(8), "nine" => Small(9), "ten" => Small(10), "eleven" => Small(11),
    "twelve" => Small(12), "thirteen" => Small(13), "fourteen" => Small(14), "fifteen" => Small(15),
    "sixteen" => Small(16), "seventeen" => Small(17), "eighteen" => Small(18), "nineteen" => Small(19),
    "twenty" => Tens(20), "thirty" => Tens(30), "forty" | "fourty" => Tens(40), "fifty" => Tens(50), "sixty" => Tens(60),
    "seventy" => Tens(70), "eighty" => Tens(80), "ninety" => Tens(90), "hundred" | "hundreds" => Hundred,
    "thousand" | "grand" => Thousand, "dozen" | "dozens" | "doz" | "dz" => Dozen, "couple" | "cpl" | "pair" | "coupla" => Couple,
    "half" | "halfa" => Part(2), "quarter" => Part(4), "third" | "thirds" => Part(3),
    "some" | "several" | "few" | "bunch" | "lots" | "loads" | "heap" | "heaps" | "handful" | "pile" | "lot" | "mess" | "ton" | "tons" | "batchful" | "bagful" => Some,

    // Units and containers.
    "lb" | "lbs" | "pound" | "pounds" | "lbz" | "pnd" | "pnds" | "punds" | "pd" | "lbd" => Unit(Unit::Pound),
    "oz" | "ozs" | "ounce" | "ounces" | "onz" => Unit(Unit::Ounce),
    "floz" => Unit(Unit::FluidOunce),
    "g" | "gr" | "gm" | "gms" | "gram" | "grams" | "gramme" | "grammes" | "grm" | "grms" => Unit(Unit::Gram),
    "kg" | "kgs" | "kilo" | "kilos" | "kilogram" | "kilograms" | "kilogramme" | "kilogrammes" | "kgm" | "chilo" => Unit(Unit::Kilo),
    "mg" => Unit(Unit::Milligram),
    "ml" | "mls" | "mil" | "mils" | "millilitre" | "millilitres" | "milliliter" | "milliliters" => Unit(Unit::Millilitre),
    "cl" | "centilitre" | "centilitres" => Unit(Unit::Centilitre), "dl" => Unit(Unit::Decilitre),
    "l" | "ltr" | "ltrs" | "litre" | "litres" | "liter" | "liters" | "lt" => Unit(Unit::Litre),
    "tsp" | "tsps" | "teaspoon" | "teaspoons" | "teaspoonful" | "teaspoonfuls" => Unit(Unit::Teaspoon),
    "tbsp" | "tbs" | "tbsps" | "tbl" | "tablespoon" | "tablespoons" | "tablespoonful" | "tablespoonfuls" | "tbspn" => Unit(Unit::Tablespoon),
    "c" => Unit(Unit::C), "cup" | "cups" | "cupful" | "cupfuls" => Unit(Unit::Cup),
    "halfpint" | "halfpints" | "hp" => Unit(Unit::HalfPint),
    "pt" | "pts" | "pint" | "pints" | "pnt" | "pnts" | "pinter" | "pinters" => Unit(Unit::Pint),
    "qt" | "qts" | "quart" | "quarts" | "qrt" | "qrts" => Unit(Unit::Quart),
    "gal" | "gals" | "gallon" | "gallons" => Unit(Unit::Gallon),
    "bu" | "bushel" | "bushels" | "bsh" | "bushal" | "bushals" => Unit(Unit::Bushel), "peck" | "pecks" => Unit(Unit::Peck),
    "lug" | "lugs" => Unit(Unit::Lug), "crate" | "crates" => Unit(Unit::Crate),
    "bag" | "bags" | "baggie" | "baggies" | "ziploc" | "ziplocs" | "sack" | "sacks" | "bgs" | "bg" => Unit(Unit::Bag),
    "tray" | "trays" => Unit(Unit::Tray),
    "jar" | "jars" | "jrs" | "jr" => Unit(Unit::Jar),
    "box" | "boxes" | "bx" => Unit(Unit::Box),
    "packet" | "packets" | "pack" | "packs" | "pkt" | "pkts" | "pkg" | "bottle" | "bottles" | "tub" | "tubs" | "carton" | "cartons" | "basket" | "baskets"
        | "bucket" | "buckets" | "bowl" | "bowls" | "bowlful" | "bucketful" | "basketful" | "boxful" | "crateful" | "tubful" | "case" | "cases" | "flat" | "flats" | "trug" | "trugs" | "punnet" | "punnets" | "jug" | "jugs"
        | "container" | "containers" | "sleeve" | "sleeves" | "pail" | "pails" | "wheelbarrow" | "barrow" | "colander" | "tin" | "tins" => Unit(Unit::Vessel),
    "load" | "canload" => Unit(Unit::Load),
    "sec" | "secs" | "second" | "seconds" | "s" => Unit(Unit::Second),
    "min" | "mins" | "minute" | "minutes" | "minuets" | "mns" => Unit(Unit::Minute),
    "h" | "hr" | "hrs" | "hour" | "hours" => Unit(Unit::Hour), "m" => Unit(Unit::M),
    "day" | "days" => Unit(Unit::Days), "week" | "weeks" | "wk" | "wks" | "fortnight" => Unit(Unit::Weeks),
    "month" | "months" => Unit(Unit::Months), "year" | "years" | "yr" | "yrs" => Unit(Unit::Years),
    "ft" | "foot" | "feet" => Unit(Unit::Foot), "metre" | "metres" | "meter" | "meters" | "mtr" | "mtrs" | "masl" | "metri" => Unit(Unit::Metre),
    "mile" | "miles" | "mi" | "mph" | "inch" | "inches" | "km" | "cm" | "mm" | "kph" | "acre" | "acres" => Unit(Unit::Far),
    "psi" => Unit(Unit::Psi), "degree" | "degrees" | "deg" | "degs" => Unit(Unit::Degree),
    "f" | "fahrenheit" | "farenheit" => Unit(Unit::Fahrenheit), "celsius" | "centigrade" | "celcius" => Unit(Unit::Celsius),

    // Crops.
    "tomato" | "tomatoes" | "tomatos" | "tomatoe" | "tom" | "toms" | "mater" | "maters" | "tomate" | "tomates" | "tommies" | "tommy" | "toma" | "tomatas" | "tomaters" | "pomodori" | "tamaters" | "tmts" | "tmatoes" => Crop(Crop::Tomato),
    "tomatillo" | "tomatillos" | "tomatilloes" => Crop(Crop::Tomatillo),
    "pepper" | "peppers" | "pepers" | "chili" | "chilis" | "chilies" | "chilli" | "chillies" | "chillis" | "chile" | "chiles" | "capsicum" | "capsicums" => Crop(Crop::Pepper),
    "zucchini" | "zucchinis" | "zuke" | "zukes" | "zuch" | "zucchine" | "courgette" | "courgettes" | "marrow" | "marrows" | "zukini" | "zuccini" | "zucchinni" => Crop(Crop::Zucchini),
    "squash" | "squashes" | "butternut" | "butternuts" | "pattypan" | "pattypans" => Crop(Crop::Squash), "pumpkin" | "pumpkins" => Crop(Crop::Pumpkin),
    "cucumber" | "cucumbers" | "cuke" | "cukes" | "gherkin" | "gherkins" | "cucs" => Crop(Crop::Cucumber),
    "bean" | "beans" => Crop(Crop::Bean), "pea" | "peas" => Crop(Crop::Pea),
    "corn" | "sweetcorn" | "maize" => Crop(Crop::Corn), "okra" => Crop(Crop::Okra),
    "eggplant" | "eggplants" | "aubergine" | "aubergines" => Crop(Crop::Eggplant),
    "onion" | "onions" | "shallot" | "shallots" | "scallion" | "scallions" => Crop(Crop::Onion), "garlic" => Crop(Crop::Garlic), "leek" | "leeks" => Crop(Crop::Leek),
    "carrot" | "carrots" => Crop(Crop::Carrot), "beet" | "beets" | "beetroot" | "beetroots" => Crop(Crop::Beet), "radish" | "radishes" => Crop(Crop::Radish),
    "turnip" | "turnips" => Crop(Crop::Turnip), "potato" | "potatoes" | "potatos" | "spud" | "spuds" | "tatties" | "taters" => Crop(Crop::Potato), "cabbage" | "cabbages" => Crop(Crop::Cabbage),
    "broccoli" => Crop(Crop::Broccoli), "cauliflower" | "cauliflowers" | "cauli" => Crop(Crop::Cauliflower), "kale" => Crop(Crop::Kale), "chard" => Crop(Crop::Chard),
    "spinach" => Crop(Crop::Spinach), "lettuce" | "lettuces" => Crop(Crop::Lettuce), "celery" => Crop(Crop::Celery), "asparagus" => Crop(Crop::Asparagus), "rhubarb" => Crop(Crop::Rhubarb),
    "basil" => Crop(Crop::Basil), "herb" | "herbs" => Crop(Crop::Herb), "parsley" => Crop(Crop::Parsley), "oregano" => Crop(Crop::Oregano), "thyme" => Crop(Crop::Thyme),
    "dill" => Crop(Crop::Dill), "mint" => Crop(Crop::Mint), "cilantro" | "coriander" => Crop(Crop::Cilantro),
    "apple" | "apples" => Crop(Crop::Apple), "apricot" | "apricots" => Crop(Crop::Apricot), "peach" | "peaches" => Crop(Crop::Peach), "nectarine" | "nectarines" => Crop(Crop::Nectarine),
    "pear" | "pears" => Crop(Crop::Pear), "plum" | "plums" | "damson" | "damsons" => Crop(Crop::Plum), "cherry" => Variety("cherry", None), "cherries" => Crop(Crop::Cherry), "fig" | "figs" => Crop(Crop::Fig),
    "grapes" => Crop(Crop::Grape), "grape" => Variety("grape", None), "strawberry" | "strawberries" => Crop(Crop::Strawberry), "raspberry" | "raspberries" => Crop(Crop::Raspberry),
    "blackberry" | "blackberries" => Crop(Crop::Blackberry), "blueberry" | "blueberries" => Crop(Crop::Blueberry), "berry" | "berries" => Crop(Crop::Berry), "melon" | "melons" | "watermelon" | "watermelons" | "cantaloupe" | "cantaloupes" => Crop(Crop::Melon),

    // Varieties of one word.
    "roma" | "romas" => Variety("roma", None), "brandywine" | "brandywines" => Variety("brandywine", None), "beefsteak" | "beefsteaks" => Variety("beefsteak", None), "slicers" => Variety("slicer", None),
    "celebrity" | "celebrities" => Variety("celebrity", None), "sungold" | "sungolds" => Variety("sungold", None), "rutgers" => Variety("rutgers", None),
    "amishpaste" => Variety("amish paste", None), "heirloom" | "heirlooms" => Variety("heirloom", None), "marzano" | "marzanos" => Variety("san marzano", None), "marmande" | "marmandes" => Variety("marmande", None),
    "moneymaker" | "moneymakers" => Variety("moneymaker", None), "jalapeno" | "jalapenos" | "jalepeno" | "jalepenos" | "jalapeños" => Variety("jalapeno", Option::Some(Crop::Pepper)),
    "serrano" | "serranos" => Variety("serrano", Option::Some(Crop::Pepper)), "poblano" | "poblanos" => Variety("poblano", Option::Some(Crop::Pepper)), "habanero" | "habaneros" => Variety("habanero", Option::Some(Crop::Pepper)),
    "cayenne" | "cayennes" => Variety("cayenne", Option::Some(Crop::Pepper)), "anaheim" | "anaheims" => Variety("anaheim", Option::Some(Crop::Pepper)), "shishito" | "shishitos" => Variety("shishito", Option::Some(Crop::Pepper)),
    "plumtomato" => Variety("plum", None), "paste" => Product, "juliet" | "juliets" => Variety("juliet", None), "mortgage" => Common, "ailsa" => Variety("ailsa craig", None), "gardeners" => Common, "gardener" => Common,
    "opalka" | "opalkas" => Variety("opalka", None), "cherokee" | "cherokees" => Variety("cherokee purple", None), "stupice" => Variety("stupice", None), "principe" => Common, "datterini" | "datterino" => Variety("datterini", None), "piennolo" => Variety("piennolo", None),

    // Preparation and colour.
    "quartered" | "quarters" | "qtrd" | "qtered" | "qrtrd" | "qtd" | "quatered" | "quarted" | "qtrs" => Prep(Prep::Quartered), "halved" | "hlvd" | "halfed" | "halvd" => Prep(Prep::Halved), "whole" | "uncut" | "unsliced" => Prep(Prep::Whole),
    "chopped" | "chpd" | "chopt" | "choped" => Prep(Prep::Chopped), "diced" | "cubed" => Prep(Prep::Diced), "sliced" => Prep(Prep::Sliced), "pureed" | "puree" | "purée" | "blended" | "pureéd" | "pulped" => Prep(Prep::Pureed),
    "crushed" | "smashed" => Prep(Prep::Crushed), "peeled" | "skinned" | "skinless" => Prep(Prep::Peeled), "cored" => Prep(Prep::Cored), "roasted" => Prep(Prep::Roasted), "cooked" | "stewed" => Prep(Prep::Cooked),
    "green" | "greens" | "unripe" => Ripe(Ripeness::Green), "breaker" | "breakers" | "blushing" | "blushed" | "breaking" => Ripe(Ripeness::Breakers), "turning" => Ripe(Ripeness::Turning),
    "pink" | "pinks" | "pinkish" | "orange" => Ripe(Ripeness::Pink), "red" | "reds" | "ripe" => Ripe(Ripeness::Red),

    // Where things are.
    "freezer" | "freezr" | "frzr" | "freezers" | "frezer" | "fzr" | "frezzer" | "freezerr" | "freeer" => Store(Stock::Freezer), "counter" | "countertop" | "worktop" | "counters" | "cntr" | "windowsill" | "sill" | "ctr" => Store(Stock::Counter),
    "pantry" | "larder" | "cellar" | "shelf" | "shelves" | "cupboard" | "pantri" | "pntry" => Store(Stock::Pantry), "fridge" | "refrigerator" | "fridgerator" | "icebox" | "frig" | "frige" => Store(Stock::Fridge),
    "tunnel" | "tunnels" | "greenhouse" | "glasshouse" | "garden" | "gardens" | "beds" | "bed" | "field" | "fields" | "row" | "rows" | "allotment" | "plot" | "plots" | "patch" | "yard" | "polytunnel" | "balcony"
        | "patio" | "deck" | "hoophouse" | "orchard" | "farm" | "terrace" | "planters" | "planter" | "hoop" | "glshouse" | "backyard" | "trellis" | "border" | "borders" | "arbor" | "arbour" | "ghouse" | "hedge" | "conservatory" | "hothouse" | "lottie" | "bedd" => Place,
    "back" | "front" | "lower" | "upper" | "side" | "raised" | "poly" | "north" | "south" | "east" | "west" | "fence" | "kitchen" | "veg" | "veggie" | "vegetable" | "community" | "cold" | "middle" | "roof" | "southern" | "northern" => PlaceSide,

    // Supplies.
    "lid" | "lids" => Supply(Supply::Lids), "vinegar" | "vinager" | "vinigar" => Supply(Supply::Vinegar), "salt" => Supply(Supply::Salt), "citric" => Supply(Supply::CitricAcid), "lemon" => Supply(Supply::LemonJuice),

    // Last words of products.
    "sauce" | "sauces" | "salsa" | "salsas" | "juice" | "ketchup" | "catsup" | "ketsup" | "relish" | "relishes" | "pickle" | "pickles" | "chutney" | "chutneys" | "jam" | "jams" | "jelly" | "jellies"
        | "passata" | "marinara" | "sugo" | "applesauce" | "sauerkraut" | "kraut" | "soup" | "soups" | "butter" | "preserves" | "marmalade" | "stock" | "broth" | "chow" | "piccalilli" | "pesto" | "bruschetta" | "rotel" | "ragu" | "giardiniera"
        | "catchup" | "jammy" | "compote" | "cordial" | "syrup" | "sause" | "sauc" | "dills" | "arrabbiata" | "arrabiata" | "pomodoro" | "ragout" => Product,

    // Verbs.
    "picked" | "pickd" | "pckd" | "pkd" | "pikd" | "piked" | "harvested" | "hrvstd" | "harvsted" | "gathered" | "plucked" | "collected" | "snipped" | "reaped" | "foraged" => Verb(Pick, Past),
    "picking" | "harvesting" | "gathering" | "pickin" => Verb(Pick, Ing), "pick" | "picks" | "harvest" | "gather" | "haul" | "harvests" => Verb(Pick, Base),
    "cut" | "dug" => Verb(Cut, Past), "brought" | "hauled" | "lugged" | "carried" | "brung" | "carted" | "toted" | "schlepped" => Verb(Bring, Past), "bring" | "bringing" => Verb(Bring, Base),
    "froze" | "frozen" | "frze" | "frzd" | "frzn" | "forze" | "froz" | "frzen" | "froozed" | "freezed" | "frose" | "frzed" => Verb(Freeze, Past), "freezing" | "freezin" => Verb(Freeze, Ing), "freeze" | "frz" | "freez" => Verb(Freeze, Base),
    "bagged" | "baggd" => Verb(Bag, Past), "bagging" => Verb(Bag, Ing),
    "thawed" | "defrosted" | "unfroze" | "thwd" => Verb(Thaw, Past), "thawing" | "defrosting" | "thawin" | "defrostin" => Verb(Thaw, Ing), "thaw" | "defrost" | "thaws" => Verb(Thaw, Base),
    "ate" | "eaten" | "scoffed" | "devoured" | "demolished" | "consumed" | "munched" | "snacked" | "gobbled" | "wolfed" | "noshed" | "guzzled" | "drank" | "drunk" | "polished" | "inhaled" | "nibbled" | "downed" | "feasted" | "snarfed" | "scarfed" | "chomped" => Verb(Eat, Past),
    "eating" | "eatin" | "munching" | "scoffing" => Verb(Eat, Ing), "eat" | "eats" => Verb(Eat, Base),
    "gave" | "given" | "donated" | "handed" | "gifted" | "presented" | "shared" | "delivered" | "gve" | "gived" | "gav" | "passed" | "traded" | "swapped" | "bartered" | "gifting" => Verb(Give, Past), "giving" | "donating" | "handing" => Verb(Give, Ing), "give" | "donate" => Verb(Give, Base),
    "sent" | "dropped" | "droppd" | "droped" => Verb(Send, Past), "send" | "sending" | "drop" | "dropping" => Verb(Send, Base),
    "tossed" | "tosst" | "tossd" | "binned" | "composted" | "discarded" | "pitched" | "pitchd" | "ditched" | "yeeted" | "trashed" | "scrapped" | "junked" | "culled" | "dumped" | "wasted" => Verb(Toss, Past),
    "tossing" | "binning" | "composting" | "dumping" | "pitching" | "chucking" => Verb(Toss, Ing), "toss" | "discard" | "dump" | "pitch" => Verb(Toss, Base),
    "threw" | "thrown" | "chucked" | "slung" | "flung" | "lobbed" => Verb(Throw, Past), "throw" | "chuck" | "throwing" => Verb(Throw, Base),
    "counted" | "inventoried" | "tallied" | "recounted" | "cnted" | "countd" => Verb(Count, Past), "counting" => Verb(Count, Ing), "count" | "cnt" | "counts" | "inventory" | "stocktake" | "tally" | "stocktaking" | "inv" | "recount" | "headcount" => Verb(Count, Base),
    "weighed" => Verb(Weigh, Past), "weighs" | "weigh" => Verb(Weigh, Base),
    "started" | "startd" | "began" | "begun" | "commenced" | "kicked" | "launched" | "startted" => Verb(Begin, Past), "starting" | "startin" | "startng" | "strting" | "beginning" | "commencing" | "firing" | "kicking" | "launching" | "tackling" => Verb(Begin, Ing), "start" | "begin" | "commence" | "starts" | "begins" | "strt" => Verb(Begin, Base),
    "made" => Verb(Make, Past), "making" | "cooking" | "brewing" | "makin" | "cookin" | "simmering" => Verb(Make, Ing), "make" | "makes" => Verb(Make, Base),
    "did" => Verb(Do, Past), "doing" | "doin" => Verb(Do, Ing), "do" | "does" | "done" => Verb(Do, Base),
    "ran" => Verb(Run, Past), "running" | "runnin" => Verb(Run, Ing), "run" | "runs" => Verb(Run, Base),
    "drained" | "draind" | "drnd" | "siphoned" | "syphoned" | "strained" | "skimmed" | "decanted" => Verb(Drain, Past), "draining" | "straining" => Verb(Drain, Ing), "drain" | "drains" | "siphon" => Verb(Drain, Base),
    "poured" | "pourd" | "tipped" | "drew" | "scooped" | "bailed" | "sluiced" => Verb(Pour, Past), "pouring" | "tipping" => Verb(Pour, Ing), "pour" => Verb(Pour, Base),
    "filled" | "filld" | "fild" | "ladled" | "topped" | "jarfilled" => Verb(Fill, Past), "filling" | "fillin" | "ladling" => Verb(Fill, Ing), "fill" | "fills" => Verb(Fill, Base), "packed" | "packing" => Verb(Pack, Past),
    "added" | "addd" | "spooned" | "dosed" | "acidified" | "adding" => Verb(Add, Past), "add" => Verb(Add, Base),
    "venting" | "ventin" => Verb(Vent, Ing), "vented" => Verb(Vent, Past), "vent" | "vents" | "petcock" | "ventpipe" => Verb(Vent, Base),
    "boiling" | "boilin" | "bubbling" | "bubblin" => Verb(Boil, Ing), "boiled" => Verb(Boil, Past), "boil" | "boils" => Verb(Boil, Base),
    "reached" | "hit" | "hitting" | "reaching" | "reaches" | "hits" => Verb(Reach, Past), "lost" | "losing" | "loses" => Verb(Lose, Past), "fell" | "fallen" | "dipped" | "sank" | "sunk" | "falling" | "falls" | "drops" | "dips" | "dipping" | "slipped" | "sagged" => Verb(Fall, Past),
    "stopped" | "stopd" | "quit" | "ceased" | "stalled" | "died" | "stops" => Verb(Stop, Past), "stop" | "end" => Verb(Cancel, Base),
    "turned" | "turn" | "switched" | "switch" | "shut" | "shutting" | "turnd" | "killed" | "killd" | "kill" | "knocked" | "flipped" | "switching" => Verb(Turn, Past),
    "lifted" | "liftd" | "removed" | "unloaded" | "lifting" | "hoisted" | "unloading" => Verb(Lift, Past), "lift" | "remove" | "unload" => Verb(Lift, Base),
    "sealed" | "seald" | "sealled" | "pinged" | "seeled" => Verb(Seal, Past), "sealing" | "seal" | "seals" => Verb(Seal, Base), "failed" | "faild" | "flopped" | "failing" | "fails" | "fail" => Verb(Fail, Past),
    "reprocessed" | "redid" | "redone" | "reran" | "recanned" | "reprocesed" | "reproccessed" | "reprosessed" => Verb(Reprocess, Past), "reprocessing" | "redoing" | "rerunning" | "recanning" => Verb(Reprocess, Ing), "reprocess" | "redo" | "rerun" => Verb(Reprocess, Base),
    "refrigerated" | "fridged" => Verb(Put, Past),
    "put" | "popped" | "stuck" | "bunged" | "shoved" | "tucked" | "stashed" | "stowed" | "stored" | "loaded" | "laid" | "placed" | "moved" | "transferred" | "slid" | "squirreled" | "squirrelled" | "stacked" | "whacked" | "shifted" | "crammed" | "jammed" | "plonked" | "slotted" | "banged" | "stuffed" => Verb(Put, Past),
    "putting" | "popping" | "sticking" | "bunging" | "moving" | "loading" | "shoving" | "tucking" | "puttin" => Verb(Put, Ing), "pop" | "stick" | "bung" | "shove" | "puts" => Verb(Put, Base), "set" | "setting" => Verb(Set, Past),
    "took" | "taken" | "fetched" | "taking" => Verb(Take, Past), "takes" | "take" | "needs" | "uses" | "requires" => Verb(Take, Base), "pulled" | "pulld" | "yanked" | "pulling" => Verb(Pull, Past), "pull" => Verb(Pull, Base),
    "got" | "gotten" => Verb(Get, Past), "getting" => Verb(Get, Ing), "get" | "gets" => Verb(Get, Base), "grabbed" | "nabbed" | "snagged" | "scored" => Verb(Grab, Past), "grab" => Verb(Grab, Base),
    "went" | "gone" => Verb(Go, Past), "going" | "goin" | "goes" | "go" => Verb(Go, Base), "came" => Verb(Come, Past), "coming" | "comin" | "comes" | "come" | "escaping" | "blowing" | "blowin" | "shooting" | "hissing" | "gushing" | "puffing" | "streaming" | "billowing" | "issuing" | "spewing" | "whistling" => Verb(Come, Base),
    "used" => Verb(Use, Past), "using" => Verb(Use, Ing), "use" => Verb(Use, Base), "finished" | "wrapped" => Verb(Finish, Past), "finish" | "finishing" => Verb(Finish, Base),
    "opened" | "opnd" | "opend" | "openned" => Verb(Open, Past), "opening" => Verb(Open, Ing), "open" => Verb(Open, Base), "cracked" => Verb(Crack, Past), "cracking" => Verb(Crack, Ing), "crack" => Verb(Crack, Base),
    "canned" | "cannd" | "cnd" | "cand" | "bottled" | "jarred" | "preserved" | "tinned" | "jard" | "potted" | "cannned" | "caned" => Verb(Can, Past), "canning" | "bottling" | "jarring" | "preserving" => Verb(Can, Ing),
    "dried" | "dehydrated" | "dryed" => Verb(Dry, Past), "drying" | "dehydrating" | "dryin" => Verb(Dry, Ing), "dry" | "dehydrate" => Verb(Dry, Base),
    "ground" | "blitzed" | "milled" | "pulverised" | "pulverized" | "grinding" | "blitzing" | "whizzed" | "grinded" => Verb(Grind, Past), "yielded" | "yields" | "gives" | "produced" => Verb(Yield, Past),
    "bought" | "purchased" | "bot" | "bght" | "bougt" | "ordered" | "boght" | "restocked" | "buyed" => Verb(Buy, Past), "buying" => Verb(Buy, Ing), "buy" => Verb(Buy, Base),
    "cancel" | "cancelled" | "canceled" | "silence" | "dismiss" => Verb(Cancel, Base), "remind" | "ping" | "alert" | "nudge" | "notify" | "shout" | "buzz" => Verb(Remind, Base),
    "undo" | "scratch" | "delete" | "strike" | "revert" | "erase" | "ignore" | "unsend" | "scrap" | "disregard" => Verb(Undo, Base), "show" | "list" | "display" | "see" | "gimme" => Verb(Show, Base), "change" | "correct" | "fix" | "amend" | "edit" | "changing" => Verb(Change, Base),

    "planted" | "transplanted" | "plantd" => Verb(Plant, Past), "planting" | "transplanting" => Verb(Plant, Ing), "plantin" => Verb(Plant, Ing),

    // Days.
    "today" | "tday" | "2day" | "todays" => Day(0), "yesterday" | "yest" | "ystrdy" | "yday" | "yesty" | "ystd" | "yesterdays" | "yesterdy" | "yesturday" => Day(-1), "tomorrow" | "tmrw" | "tomoz" | "tmr" | "2moro" | "tomorow" | "tmw" | "tomo" | "tmrrw" => Day(1),
    "monday" | "mon" | "mondays" => Weekday(0), "tuesday" | "tues" | "tue" | "tuesdays" => Weekday(1), "wednesday" | "wed" | "weds" | "wednesdays" => Weekday(2), "thursday" | "thurs" | "thur" | "thu" | "thursdays" => Weekday(3), "friday" | "fri" | "fridays" => Weekday(4),
    "saturday" | "sat" | "saturdays" => Weekday(5), "sunday" | "sun" | "sundays" => Weekday(6),
    "january" | "jan" => Month(1), "february" | "feb" => Month(2), "march" | "mar" => Month(3), "april" | "apr" => Month(4), "june" | "jun" => Month(6), "july" | "jul" => Month(7), "august" | "aug" => Month(8),
    "september" | "sept" | "sep" => Month(9), "october" | "oct" => Month(10), "november" | "nov" => Month(11), "december" | "dec" => Month(12),
    "morning" | "mornin" | "morn" | "am" | "breakfast" => DayPart(6), "noon" | "midday" | "lunchtime" => DayPart(12), "afternoon" | "arvo" => DayPart(13), "evening" | "eve" | "pm" | "teatime" => DayPart(17), "night" | "nite" | "tonight" | "tonite" | "tonights" => DayPart(20), "midnight" => DayPart(0),

    // People.
    "i" | "we" | "ive" | "weve" | "me" | "us" | "i've" | "we've" | "im" | "i'm" | "we're" | "ourselves" | "myself" => First, "my" | "our" | "mine" | "ours" => Link,
    "you" | "u" | "ya" | "your" | "ur" | "yours" | "yourself" | "youre" | "you're" | "youve" | "y'all" | "yall" => You,
    "he" | "she" | "they" | "theyre" | "they're" | "theyve" | "they've" | "everybody" | "something" | "somebody" | "someone" | "anybody" | "anyone" | "nobody" | "noone" => They,
    "mom" | "mum" | "mama" | "mummy" | "mommy" | "dad" | "daddy" | "wife" | "hubby" | "husband" | "kids" | "kid" | "boys" | "girls" | "son" | "daughter" | "grandma" | "granny" | "nan" | "nana" | "grandad" | "grandpa" | "gran" | "family" | "missus" | "children" | "partner" | "gramps" | "lads" | "lad" | "toddler" | "twins" | "grandkids" => Kin,
    "neighbor" | "neighbour" | "neighbors" | "neighbours" | "nbr" | "nbrs" | "nbor" | "friend" | "friends" | "sister" | "sis" | "sisters" | "brother" | "brothers" | "aunt" | "auntie" | "uncle" | "cousin" | "cousins" | "coworker" | "coworkers" | "colleague" | "colleagues" | "teacher" | "vicar" | "minister"
        | "pastor" | "priest" | "mailman" | "postman" | "postie" | "coach" | "boss" | "guy" | "lady" | "folks" | "people" | "church" | "choir" | "shelter" | "pal" | "nephew" | "niece" | "inlaws" | "landlord" | "landlady" | "grocer" | "guests" | "visitors" | "bank" | "charity" | "school" | "club" | "team"
        | "margaret" | "potluck" | "mother" | "father" | "uncles" | "aunts" | "man" | "woman" | "bloke" | "someones" | "farmer" | "stand" | "moms" | "mums" => Folk,

    // What makes a clause something else than an entry.
    "not" | "no" | "never" | "didnt" | "dont" | "doesnt" | "isnt" | "arent" | "wasnt" | "werent" | "havent" | "hasnt" | "hadnt" | "wont" | "cant" | "cannot" | "couldnt" | "wouldnt" | "shouldnt" | "none" | "nothing" | "without" | "aint" | "neither" | "nor" | "barely" | "didn" | "cba" | "nope" => Not,
    "would" | "wouldve" | "couldve" | "woulda" | "coulda" | "should" | "could" | "might" | "may" | "will" | "shall" | "must" | "ought" | "gonna" | "wanna" | "gotta" | "need" | "want" | "wish" | "hope" | "hoping" | "plan" | "planning" | "can" | "shld" | "wld" | "cld" | "imma" | "ima" | "finna" | "i'll" | "we'll" | "ill" | "i'd" | "we'd" | "id" | "you'll" | "youll"
        | "she'll" | "he'll" | "they'll" | "theyll" | "it'll" | "itll" | "intend" | "considering" | "maybe" | "perhaps" | "imagine" | "tempted" | "likely" | "supposed" | "wishing" | "probably" | "prolly" | "fancy" | "gon" | "let's" | "dreamed" | "dreamt" | "wanting" | "dreaming" | "thinking" | "wants" | "hopefully" | "you'd" | "who'll" | "who'd" | "tryna" | "dying" | "bet" | "wonder" | "wondering" => Modal,
    "if" | "unless" | "whether" | "once" | "until" | "till" | "til" | "when" | "whenever" | "wen" => If,
    "says" | "said" | "say" | "told" | "tells" | "apparently" | "supposedly" | "reckons" | "swears" | "swore" | "heard" | "claims" | "claimed" | "reckoned" | "allegedly" | "thinks" | "saying" | "bragging" | "bragged" | "rumor" | "rumour" | "posted" | "texted" | "tellin" | "telling" | "wrote" | "article" | "radio" => Hearsay,
    "remember" | "remembers" | "remembering" | "memory" | "memories" | "decades" | "nostalgia" | "childhood" | "usedto" | "rmbr" => Memory,
    "dollar" | "dollars" | "bucks" | "buck" | "quid" | "usd" | "euro" | "euros" | "cents" | "pence" | "fiver" | "tenner" | "price" | "prices" | "cost" | "costs" | "charging" | "charged" | "priced" | "robbery" | "cheaper" | "expensive" => Price,
    "what" | "how" | "which" | "who" | "where" | "why" | "whose" | "hw" | "wat" | "wut" | "howmuch" | "howmany" | "whatcha" | "wots" | "wot" => Question,
    "is" | "are" | "r" | "was" | "were" | "be" | "been" | "being" | "have" | "has" | "had" | "having" | "hav" | "hv" | "haz" | "hadda" => Aux,

    // Prepositions, articles and other small words, asked for by their letters.
    "a" | "an" | "the" | "of" | "in" | "into" | "on" | "onto" | "at" | "to" | "from" | "frm" | "off" | "out" | "outta" | "outa" | "for" | "with" | "w" | "by" | "under" | "below" | "beneath" | "above" | "over" | "up" | "down" | "away" | "through" | "per" | "each" | "ea" | "apiece" | "every" | "all"
        | "both" | "this" | "that" | "these" | "those" | "it" | "them" | "em" | "another" | "more" | "extra" | "other" | "others" | "any" | "there" | "here" | "as" | "about" | "around" | "upto" | "after" | "before" | "b4" | "since" | "ago" | "last" | "next" | "than" | "x" | "point" | "inside" | "along" | "round" | "upon" | "ones"
        | "left" | "total" | "altogether" | "his" | "her" | "their" | "him" | "anothr" | "annother" | "anotha" | "anymore" | "via" | "between" | "tht" | "dat" | "dis" | "da" | "teh" | "only" | "most" | "much" | "many" | "enough" | "enuf" | "nuff" | "sufficient" | "thru" | "4rm" | "too" | "totalling" | "totaling" | "or" | "either" | "anything" | "everything" | "everywhere" | "anywhere" | "among" | "across" | "beside" | "besides" | "beyond" | "within" | "such" | "own" | "same" | "size" | "sized" | "low" | "longer" | "itself" | "toward" | "towards" | "during" | "previous" | "weighing" | "weighin" | "ish" | "odd" | "remaining" | "remains" | "remain" | "against" | "yet" | "so" | "minus" | "negative" => Link,
    "and" | "n" | "then" | "but" | "plus" | "nd" | "und" => And,

    // The canner, and the words of a batch.
    "canner" | "steam" | "pressure" | "heat" | "burner" | "stove" | "hob" | "gas" | "flame" | "stovetop" | "cooker" | "range" | "temp" | "temperature" | "needle" | "gauge" | "dial" | "weight" | "weights" | "jiggler" | "jiggling" | "jigglin" | "rocking" | "rockin" | "wobbling" | "rattling" | "rolling" | "rollin" | "water" | "bath" | "plume" | "column" | "jet" | "pipe" | "acid" | "batch" | "batches"
        | "clock" | "timer" | "timr" | "timers" | "alarm" | "altitude" | "alt" | "elevation" | "units" | "unit" | "usual" | "default" | "timezone" | "tz" | "zone" | "quiet" | "room" | "recipe" | "recipes" | "recipie" | "recepie" | "recipee" | "capacity" | "holds" | "hold" | "fits" | "dehydrator" | "dryer" | "drier" | "dehydratr" | "dehyd" | "dehydr" | "pot" | "flex" | "flexing" | "flexes" | "steaming" | "indicator" | "totals" | "scale" | "scales" | "sink" | "cooler" | "basement" | "garage" | "bathtub" | "logged" | "recorded" | "entered" | "recent" | "happened" | "messages" | "alerts" | "notifications" | "wiped" | "rinsed" | "labeled" | "labelled" | "holding" | "step" | "steps" | "stage" | "rest" | "work" | "works" | "working" | "headspace" | "flowing" | "summary" | "weighted" | "cooling" | "sitting" | "resting" | "standing" | "fruit" | "fruits" | "produce" | "stuff" | "things" | "time" | "times" | "powder" | "powdr" | "powdered" | "skins" | "skin" | "halves" | "slices" | "rings" | "strips" | "leather" | "flakes" | "rounds" | "chips" | "compost" | "bin" | "trash" | "rubbish" | "garbage"
        | "supplies" | "supply" | "stocks" | "chart" | "graph" | "log" | "entries" | "entry" | "history" | "help" | "forecast" | "rack" | "towel" | "waterbath" | "wb" | "wbc" | "bwb" | "dud" | "duds" | "liquid" | "whey" | "vine" | "vines" | "plants" | "plant" | "seedlings" | "transplants" | "bushes" | "bush" | "chickens" | "hens" | "pigs" | "chooks" | "depressurized" | "depressurised" | "depressurizing" | "unsealed" | "lemonjuice" | "citricacid" | "metric" | "imperial" | "american" | "instructions" | "mark" | "meat" | "meatless" | "stats" | "status" | "season"
        | "process" | "processing" | "processed" | "procesing" | "commands" | "examples" | "silent" | "noodle" | "gear" | "ring" | "graphs" | "charts" | "petcocks" | "exhaust" | "spout" | "valve" | "liner" | "worms" => Gear,

    // Qualities.
    "snap" | "good" | "nice" | "lovely" | "gorgeous" | "big" | "small" | "fresh" | "rotten" | "mushy" | "moldy" | "mouldy" | "bad" | "split" | "spoiled" | "spoilt" | "soft" | "squishy" | "overripe" | "damaged" | "bruised" | "ugly" | "burned" | "burnt" | "bulged" | "full" | "large" | "little" | "tiny" | "huge" | "perfect" | "beautiful" | "homemade" | "mixed" | "assorted" | "dodgy" | "manky"
        | "sad" | "slimy" | "leaky" | "gnarly" | "icky" | "frostbitten" | "burn" | "wormy" | "buggy" | "sunburnt" | "scalded" | "diseased" | "blighted" | "rotting" | "smelly" | "funky" | "funny" | "fuzzy" | "furry" | "gross" | "juicy" | "sweet" | "hot" | "tasty" | "yummy" | "sunscald" | "nasty" | "raw" | "fat" | "heavy" | "proper" | "right" | "steady" | "hard" | "fully" | "blanched" | "washed" | "cleaned" | "deseeded" | "trimmed"
        | "squashed" | "iffy" | "spare" | "old" | "new" | "mini" | "vac" | "vacuum" | "vacuumed" | "giant" | "decent" | "plump" | "wonky" | "dented" | "empty" | "clean" | "crisp" | "light" | "dark" | "clear" | "white" | "black" | "yellow" | "purple" | "brown" | "blemished" | "cracky" | "heaping" | "generous" | "level" | "strong" | "beefy" | "medium" | "rotted" | "pickling" | "kosher" | "sea" | "cider" | "distilled" | "quick" | "bread" | "wide" | "mouth" | "regular" | "smoked" | "spicy" | "mild" | "thick" | "thin" | "smoky" | "chunky" | "plain" | "standard" | "single" | "double" | "chest" | "deep" | "upright" | "bulging" => Quality,

    // Politeness, hedges and chatter that says nothing for the ledger.
    "hey" | "hi" | "hello" | "hiya" | "yo" | "ok" | "okay" | "okey" | "k" | "kk" | "thanks" | "thank" | "thx" | "ty" | "tks" | "ta" | "cheers" | "please" | "pls" | "plz" | "plse" | "kindly" | "lol" | "lmao" | "haha" | "hahaha" | "ha" | "rofl" | "omg" | "smh" | "tbh" | "ngl" | "imo" | "fyi" | "btw" | "bro" | "bruh" | "dude" | "mate" | "buddy" | "love" | "luv" | "dear" | "darling" | "darlin" | "hun" | "hon" | "honey" | "sweetie" | "babe" | "guys" | "everyone"
        | "well" | "now" | "just" | "jus" | "already" | "also" | "again" | "finally" | "still" | "rn" | "atm" | "oh" | "ooh" | "ah" | "aw" | "oops" | "whoops" | "woops" | "ugh" | "phew" | "wow" | "yay" | "yikes" | "dang" | "damn" | "darn" | "crap" | "shoot" | "bother" | "blast" | "argh" | "ffs" | "wtf" | "sadly" | "happily" | "afraid" | "sorry" | "soz" | "apologies" | "pardon" | "excuse" | "yes" | "yeah" | "yep" | "yup" | "aye" | "sure" | "hm" | "hmm" | "um" | "uh" | "er" | "erm" | "anyway" | "anyways" | "actually" | "really" | "very" | "quite" | "pretty" | "rather" | "roughly" | "approx" | "approximately" | "circa" | "ca" | "nearly" | "almost" | "exactly" | "like" | "kinda" | "sorta" | "bit" | "bout" | "abt" | "mb" | "hbu" | "xx" | "xxx" | "xo" | "xoxo" | "ciao" | "grazie" | "baci" | "buongiorno" | "regards" | "sincerely" | "report" | "update" | "note" | "noted" | "far" | "first" | "mostly" | "mainly" | "best" | "kind" | "somewhat" | "late" | "later" | "early" | "straight" | "completely" | "totally" | "properly" | "ready" | "together" | "apart" | "quickly" | "least" | "welcome" | "ig" | "idk" | "asap" | "gtg" | "brb" | "jk" | "w00t" | "woot" | "woohoo" | "hooray" | "hurrah" | "yeehaw" | "boom" | "reckon" | "believe" | "guess" | "think" | "suppose" | "bye" | "cool" | "great" | "amazing" | "awesome" | "excellent" | "fab" | "brilliant" | "wonderful" | "fantastic" | "super" | "nvm" | "nevermind" | "wait" | "wrong" | "mistake" | "correction" | "fine" | "even" | "ever" | "always" | "usually" | "normally" | "typically" | "currently" | "presently" | "recently" | "freshly" | "safely" | "successfully" | "individually" | "evenly" | "neatly" | "carefully" | "obviously" | "clearly" | "luckily" | "unfortunately" | "fortunately" | "thankfully" | "alas" | "regret" | "glad" | "pleased" | "happy" | "proud" | "delighted" | "record" | "logging" | "forgot" | "rackful" | "somehow" | "else" | "whilst" | "while" | "because" | "bc" | "cos" | "cuz" | "coz" | "though" | "tho" | "although" | "despite" | "instead" | "except" | "merely" | "simply" | "precisely" | "overnight" | "long" | "minimum" | "alright" | "aight" | "gotcha" | "finito" | "voila" | "anyhow" | "soon" | "sooner" | "eventually" | "lately" | "certainly" | "definitely" | "possibly" | "otherwise" | "meanwhile" | "afterwards" | "afterward" | "therefore" | "truly" | "surely" | "ahead" | "aside" | "however" | "upstairs" | "downstairs" | "outdoors" | "indoors" | "seem" | "seems" | "nonetheless" | "somewhere" | "possible" | "explain" | "close" | "closer" | "near" | "moment" | "latest" | "let" | "live" | "lives" | "located" | "based" | "stands" | "reads" | "reading" | "sits" | "rate" | "basically" | "literally" | "honestly" | "fr" | "lowkey" | "ytd" | "pieces" | "pcs" | "sir" | "madam" | "ma'am" | "maam" | "mam" => Filler,

    // Objects that rule an entry out.
    "milk" | "egg" | "eggs" | "beef" | "chicken" | "pizza" | "pizzas" | "coffee" | "tea" | "teas" | "beer" | "beers" | "lager" | "wine" | "flour" | "sugar" | "rice" | "pasta" | "mince" | "shrimp" | "shrimps" | "fish" | "venison" | "ice" | "ham" | "turkey" | "sausage" | "sausages" | "bacon" | "cheese" | "crisps" | "biscuits" | "cake" | "pie" | "cookies" | "cereal" | "loaf" | "loaves" | "banana" | "bananas" | "lemons" | "limes" | "groceries" | "shopping" | "hamburger" | "burgers" | "burger" | "steak" | "pork" | "lamb" | "yogurt" | "salmon" | "car" | "truck" | "van" | "tire" | "tires" | "tyre" | "tyres" | "bus" | "phone" | "laptop" | "computer" | "screen" | "tablet" | "printer" | "dog" | "cat" | "baby" | "petrol" | "diesel" | "mulch" | "soil" | "manure" | "feed" | "fertilizer" | "fertiliser" | "laundry" | "washing" | "towels" | "clothes" | "dishes" | "pool" | "radiator" | "coolant" | "oil" | "blood" | "hair" | "money" | "homework" | "points" | "goals" | "boiler" | "oven" | "furnace" | "heating" | "heater" | "tv" | "lights" | "sprinkler" | "window" | "windows" | "door" | "doctor" | "doc" | "dentist" | "gym" | "hospital" | "oclock" | "o'clock" | "potting" | "furniture" | "tickets" | "paint" | "wood" | "firewood" | "gravel" | "sand" | "cement" | "prescriptions" | "books" | "pages" | "movie" | "episode" | "episodes" | "ears" | "mower" | "engine" | "tank" | "detergent" | "icecream" | "toes" | "hands" | "butt" | "tail" | "ass" | "lips" | "deal" | "envelope" | "account" | "acct" | "mail" | "parcels" | "parcel" | "letters" | "gift" | "gifts" | "presents" | "suitcase" | "luggage" | "bees" | "squirrel" | "squirrels" | "deer" | "raccoon" | "raccoons" | "rabbit" | "rabbits" | "crow" | "crows" | "fox" | "foxes" | "goat" | "goats" | "cows" | "groundhog" | "groundhogs" | "possum" | "possums" | "chipmunk" | "chipmunks" | "mice" | "rats" | "puppy" | "puppies" | "kitten" | "kittens" | "netflix" | "wifi" | "guitar" | "server" | "battery" | "batteries" | "fever" | "diet" => Alien,

    // Ordinary words, kept so that none of them is taken for a mistyped word of the trade.
    "able" | "age" | "air" | "alone" | "angry" | "animal" | "answer" | "anther" | "applies" | "aptitude" | "aptitudes"
        | "area" | "arm" | "arms" | "ask" | "asked" | "asking" | "attitude" | "attitudes" | "bail" | "bailing"
        | "ball" | "bans" | "barged" | "barn" | "basal" | "base" | "bashing" | "basic" | "basin" | "basis" | "battled"
        | "beach" | "beads" | "beakers" | "beaks" | "beams" | "bear" | "bearers" | "bears" | "beat" | "beaters"
        | "beats" | "beaus" | "beavers" | "bedroom" | "begged" | "behind" | "better" | "bike" | "bill" | "bird"
        | "birthday" | "bitch" | "bite" | "blasting" | "bleaker" | "blessing" | "blousing" | "blue" | "blueing"
        | "bluffing" | "blunting" | "blurring" | "blurting" | "board" | "boat" | "body" | "bogged" | "boilings"
        | "bone" | "book" | "botch" | "bottom" | "bough" | "boughs" | "bowling" | "boy" | "break" | "breakups"
        | "breathers" | "breeders" | "brewers" | "bright" | "broiling" | "broke" | "broken" | "brokers" | "brushing"
        | "bugged" | "build" | "building" | "built" | "bushed" | "bushing" | "bushings" | "bussing" | "busting"
        | "busy" | "busying" | "butch" | "call" | "called" | "calls" | "camp" | "cancels" | "cancer" | "caning"
        | "canker" | "cannery" | "cannier" | "canoed" | "canted" | "canter" | "canting" | "card" | "care" | "careful"
        | "catch" | "caught" | "chair" | "chancel" | "chanting" | "chapped" | "check" | "checked" | "checking"
        | "child" | "chipped" | "choose" | "chopper" | "city" | "clacked" | "class" | "clopped" | "clouting"
        | "clunking" | "coasting" | "coat" | "coating" | "coining" | "color" | "colour" | "comforted" | "compacted"
        | "compassed" | "competed" | "completed" | "comport" | "comported" | "compos" | "compose" | "composed"
        | "composer" | "composes" | "composite" | "composites" | "compotes" | "computed" | "concert" | "conking"
        | "conned" | "conning" | "connoting" | "consing" | "cook" | "copped" | "corner" | "corning" | "costing"
        | "couching" | "coughing" | "countering" | "counties" | "country" | "coupling" | "course" | "coursing"
        | "courted" | "courting" | "cover" | "coveting" | "cracker" | "crackled" | "cranked" | "crashed" | "cream"
        | "cricked" | "crocked" | "cropped" | "cross" | "crowd" | "crusted" | "crusting" | "cry" | "cunning" | "cute"
        | "cutting" | "damning" | "dance" | "darning" | "date" | "dawning" | "dead" | "decide" | "decided"
        | "defining" | "deforested" | "deforesting" | "defroster" | "defrosters" | "dehydration" | "deiced"
        | "delicious" | "derailing" | "desk" | "detaining" | "dices" | "dicey" | "diked" | "dined" | "dinner"
        | "dirty" | "disarmed" | "disbanded" | "disbarred" | "discerned" | "discharged" | "discorded" | "dived"
        | "divining" | "doubt" | "doyen" | "doze" | "dozed" | "dozes" | "drafting" | "dragging" | "draping" | "draw"
        | "drawing" | "drawling" | "drawn" | "dream" | "dress" | "drinking" | "dripped" | "drive" | "driving"
        | "droning" | "drooped" | "dropper" | "drove" | "drowning" | "dust" | "ear" | "earth" | "easy" | "edge"
        | "energy" | "enjoy" | "event" | "exam" | "excited" | "expect" | "eye" | "eyes" | "fabled" | "face" | "fact"
        | "fall" | "famous" | "fast" | "favorite" | "fear" | "fed" | "feeding" | "feel" | "feeling" | "felled"
        | "felling" | "felt" | "fight" | "figure" | "filed" | "filing" | "filler" | "fillet" | "fillings" | "film"
        | "filmed" | "filming" | "final" | "find" | "finger" | "fire" | "fixed" | "flailed" | "fleecing" | "fleeing"
        | "fleeting" | "flew" | "floor" | "flower" | "flowers" | "fly" | "foiled" | "follow" | "food" | "force"
        | "forced" | "forecaster" | "forecastle" | "foremast" | "foremasts" | "foremost" | "forest" | "foretaste"
        | "forget" | "form" | "found" | "freaking" | "free" | "freeing" | "fretting" | "frieze" | "fringe"
        | "frizzing" | "frost" | "frown" | "fulled" | "fulling" | "future" | "galleon" | "galleons" | "gallop"
        | "gallops" | "gallows" | "game" | "garnered" | "gate" | "gatherer" | "gatherers" | "girl" | "glass"
        | "goatherd" | "gold" | "golden" | "grabs" | "grads" | "grass" | "gray" | "grays" | "grew" | "grey" | "grow"
        | "grown" | "guest" | "guttered" | "haled" | "hales" | "haloed" | "haloes" | "halted" | "hand" | "happen"
        | "hardest" | "harnessed" | "harvester" | "harvesters" | "hat" | "hate" | "haves" | "head" | "health"
        | "heart" | "held" | "hill" | "hole" | "holiday" | "home" | "horse" | "hotel" | "house" | "hungry" | "hurt"
        | "idea" | "job" | "join" | "joke" | "juiced" | "juicer" | "jump" | "keep" | "kept" | "key" | "kills"
        | "kilns" | "kilts" | "king" | "kettle" | "knew" | "know" | "lake" | "land" | "laugh" | "lawn" | "lead"
        | "leaf" | "learn" | "leave" | "leaves" | "leg" | "lesson" | "letter" | "library" | "life" | "lilted" | "line"
        | "linted" | "listed" | "listen" | "lived" | "living" | "locked" | "lofted" | "lonely" | "looked" | "looking"
        | "loud" | "loved" | "lucky" | "lunch" | "mad" | "main" | "map" | "market" | "married" | "match" | "matter"
        | "meal" | "mean" | "meet" | "meeting" | "met" | "metrics" | "mind" | "minuet" | "minuses" | "minuted"
        | "minuter" | "minutest" | "miss" | "missed" | "moaning" | "moon" | "mooning" | "mountain" | "mourning"
        | "mow" | "mowed" | "music" | "name" | "neck" | "neighbored" | "neighborly" | "news" | "noise" | "nose"
        | "notice" | "number" | "nurse" | "office" | "opener" | "opined" | "order" | "outside" | "page" | "paid"
        | "pain" | "painted" | "paints" | "palled" | "paltry" | "pants" | "panty" | "paper" | "parents" | "park"
        | "parked" | "part" | "party" | "pass" | "past" | "pastry" | "pay" | "peaces" | "pealed" | "pecked"
        | "pecking" | "peeked" | "peeped" | "peeper" | "peepers" | "peered" | "peeved" | "pen" | "pepped" | "peppery"
        | "peppier" | "perches" | "photo" | "piano" | "picker" | "picket" | "pickings" | "pickled" | "picture"
        | "piece" | "piking" | "pilled" | "pines" | "pings" | "pinked" | "pinking" | "pins" | "pinto" | "pintos"
        | "pits" | "planned" | "plate" | "play" | "played" | "pleasure" | "poaches" | "pocked" | "pocket"
        | "pocking" | "police" | "polled" | "pond" | "ponder" | "ponds" | "poor" | "pored" | "post" | "pouted"
        | "powdery" | "power" | "pray" | "preaches" | "pressing" | "pressured" | "pressurize" | "presume" | "pricked"
        | "pricking" | "prickles" | "prints" | "prize" | "problem" | "proceeding" | "procession" | "processions"
        | "professing" | "progressing" | "promise" | "protesting" | "puller" | "pullet" | "pulley" | "pulsed"
        | "punts" | "purchase" | "purchaser" | "purchasers" | "purchases" | "purged" | "purled" | "purred" | "pursed"
        | "push" | "pushed" | "quark" | "quarks" | "quarreled" | "quarterly" | "quarto" | "quartos" | "quartz"
        | "quavered" | "quiets" | "quilt" | "race" | "rain" | "rained" | "reach" | "reacted" | "read" | "real"
        | "reason" | "recite" | "refrigerates" | "refrigeration" | "refrigerators" | "remover" | "repressed"
        | "repressing" | "retched" | "rich" | "ride" | "river" | "roached" | "road" | "roams" | "roaster" | "rock"
        | "roiling" | "roman" | "romps" | "roosted" | "rose" | "rule" | "safe" | "salting" | "sauced" | "saucer"
        | "saucy" | "save" | "saved" | "scaled" | "scanting" | "scarfing" | "scaring" | "scarring" | "scatting"
        | "score" | "scotched" | "seabed" | "sealer" | "seam" | "seamed" | "seared" | "searing" | "seat" | "seated"
        | "seating" | "seen" | "semen" | "serve" | "served" | "sever" | "shafting" | "sharing" | "sharking" | "sharp"
        | "sharping" | "shins" | "ship" | "shirt" | "shirting" | "shoe" | "shoes" | "shop" | "shopped" | "short"
        | "shorting" | "shoulder" | "shower" | "sick" | "sight" | "sign" | "signed" | "silly" | "sing" | "singing"
        | "sins" | "sit" | "skating" | "skeins" | "sketched" | "skids" | "skies" | "skims" | "skips" | "skirting"
        | "skis" | "skits" | "sky" | "slanting" | "slashed" | "slating" | "sleep" | "slept" | "slicer"
        | "slicked" | "slicks" | "slides" | "slopped" | "slow" | "sluices" | "smarted" | "smarting" | "smell"
        | "smile" | "smirched" | "smoke" | "snarfing" | "snaring" | "snarling" | "snatched" | "snitched" | "snitches"
        | "snorting" | "snow" | "soap" | "soaring" | "soccer" | "sofa" | "sold" | "soldier" | "song" | "sopped"
        | "sorting" | "sound" | "sparing" | "sparking" | "sparring" | "spatting" | "speak" | "spent" | "spiced"
        | "spices" | "spider" | "spins" | "spliced" | "splices" | "spoke" | "sport" | "sporting" | "sprained"
        | "spring" | "spurting" | "stabbing" | "stabling" | "stacking" | "staffing" | "staging" | "stained"
        | "staining" | "stairs" | "staking" | "staled" | "staling" | "stalking" | "stalling" | "stamping" | "stapling"
        | "star" | "starching" | "stared" | "staring" | "starling" | "starlings" | "starred" | "starring" | "starter"
        | "startled" | "startling" | "starved" | "starving" | "starvings" | "stashes" | "stashing" | "stated"
        | "stating" | "station" | "staving" | "stay" | "stayed" | "staying" | "stead" | "steal" | "steamy" | "stem"
        | "stepped" | "sterling" | "stinting" | "stirring" | "stitched" | "stitches" | "stomped" | "stone" | "stood"
        | "stooped" | "stopper" | "store" | "storing" | "storm" | "storming" | "story" | "strafed" | "strafing"
        | "strainer" | "strainers" | "strains" | "straiten" | "straitened" | "stranded" | "strange" | "strapped"
        | "strawed" | "strawing" | "strayed" | "straying" | "stream" | "street" | "striated" | "stringed" | "striped"
        | "strived" | "stropped" | "student" | "study" | "stunting" | "sullies" | "summer" | "sundae" | "sundry"
        | "suppler" | "supplest" | "supplied" | "supplier" | "suppliers" | "supposes" | "surplices" | "surprise"
        | "swarming" | "swashed" | "swatches" | "swathed" | "swatting" | "swim" | "swished" | "switcher" | "swopped"
        | "table" | "talk" | "talked" | "tall" | "tamer" | "tape" | "taste" | "tasted" | "tastes" | "taught" | "teach"
        | "teeth" | "temperate" | "test" | "text" | "thing" | "thirsty" | "thought" | "tied" | "tier" | "tiger"
        | "timber" | "timed" | "timeline" | "tired" | "tooth" | "touch" | "tough" | "tower" | "town" | "toy" | "train"
        | "trained" | "trams" | "trans" | "traps" | "travel" | "tree" | "trees" | "tried" | "trip" | "trouble"
        | "troys" | "true" | "trust" | "truth" | "try" | "tuned" | "turfed" | "turner" | "understand" | "vending"
        | "vesting" | "vetting" | "visit" | "visited" | "voice" | "waiting" | "walk" | "walked" | "walking" | "wall"
        | "warm" | "wash" | "watch" | "watched" | "watching" | "weather" | "wedding" | "weekend" | "wet" | "wind"
        | "winter" | "women" | "word" | "words" | "worked" | "world" | "worry" | "worth" | "write" | "young" | "pause" | "paused" | "pausing" | "halting" | "resume" | "resumed" | "resuming" | "rename" | "renamed" | "renaming" | "named" | "naming" | "siphoning" | "syphoning" | "exploded" | "shattered" | "burst" | "breakage" | "reduced" | "reducing" | "evaporated" | "rendered" | "concentrated" | "brittle" | "crispy" | "leathery" | "crumbly" | "crackly" | "shelve" | "shelving" | "shelved" | "parking" | "suspend" | "suspending" | "suspended" | "continue" | "continuing" | "continued" | "carry" | "carrying" | "restart" | "restarting" | "restarted" | "unpause" | "unpaused" | "calling" | "propane" | "handbook" | "leaked" | "leaking" | "thickened" | "frosts" | "yield" | "saves" | "outage" | "blackout" | "electricity" | "schedule" | "published" | "usda" | "numbers" | "figures" | "scheduled" | "pencil" | "reschedule" | "rescheduled" | "rescheduling" | "move" | "pushing" | "shift" | "shifting" | "postpone" | "postponed" | "skip" | "skipping" | "axe" | "session" | "dirt" | "digest" | "calendar" | "spreadsheet" | "csv" | "label" | "labels" | "sheet" | "pictures" | "briefly" | "brief" | "react" | "reacts" | "reactions" | "ripens" | "ripening" | "someday" | "sometime" | "weekly" | "answers" | "replies" | "reply" | "answering" | "replying" | "emoji" | "thumbs" | "ics" | "ical" | "icalendar" | "json" | "excel" | "print" | "export" | "mode" | "theme" | "planner" | "mid" | "simmered" | "scheduling" | "included" | "reaction" | "forward" | "download" | "backup" | "image" => Common,
};
