//! What the tables' own directions say beside a product (`src/phrase/english/directions.txt`): it keeps the process of
//! the product as it was tested, and what makes less of it, or says otherwise, holds it back (USDA AIB 539, 2015, the
//! directions above each table; Guide 3, 'Acidification', for the doses).

use crate::danger::{Reader, counts};
use rackful::statement::Statement;

/// Starts in the words of the directions, and the product that they begin.
const AS_DIRECTED: [(&str, &str); 18] = [
    ("starting pumpkin in 1 inch cubes, quarts, hot pack, weighted canner", "pumpkin-cubed"),
    ("starting white potatoes in quarts, hot, cubed, weighted canner, boiled em 2 min", "potatoes-white"),
    ("starting carrots, sliced, raw pack, pints, tsp of salt each", "carrots"),
    ("starting pickled beets in pints, full 5% vinegar", "pickled-beets"),
    ("starting pickled beets in pints, all the vinegar, by the recipe", "pickled-beets"),
    ("starting tomato juice in quarts, acid is in", "tomato-juice"),
    ("starting crushed tomatoes, no added liquid, 7 quarts", "tomato-crushed"),
    ("starting sauerkraut in quarts, fermented five weeks", "sauerkraut"),
    ("starting vegetable soup in quarts, half solids half broth, no noodles", "soup"),
    ("starting whole tomatoes in quarts, raw pack, no added liquid", "tomato-whole-raw"),
    ("starting peaches in quarts hot pack, yellow ones from Vineland", "peaches"),
    ("starting chicken with the bones left in, quarts", "chicken-rabbit-bone-in"),
    ("starting chicken in quarts, no bones", "chicken-rabbit-boneless"),
    ("starting corn in pints, whole kernel, cut off the cob", "corn-whole"),
    ("starting mixed vegetables in quarts: carrots, corn, snap beans, limas, tomatoes, zucchini", "mixed-vegetables"),
    ("starting sour cherries in quarts 🍒", "cherries"),
    ("starting pears, 7 quarts, old tree by the ditch", "pears"),
    ("starting pinto beans, soaked overnight and boiled the 30 minutes, quarts, hot", "beans-dried"),
];

/// The same food with something that is not as directed: nothing may come of it.
const OTHERWISE: [&str; 80] = [
    "starting dilly beans in pints with half the vinegar",
    "starting dilly beans in pints with less than all the vinegar",
    "starting pickled beets in pints, full 3% vinegar",
    "starting pickled beets in pints, full 5% vinegar watered down",
    "starting tomato juice in quarts, 1 T bottled lemon juice in each jar",
    "starting tomato juice in quarts, a bit of lemon juice from the bottle",
    "starting tomato juice in quarts, acid is not in",
    "starting crushed tomatoes, no added liquid, no lemon juice, quarts",
    "starting sauerkraut in quarts, fermented 1 week",
    "starting sauerkraut in quarts, fermented five weeks with half the salt",
    "starting vegetable soup in quarts, three quarters solids",
    "starting vegetable soup in quarts, half solids half cream",
    "starting whole tomatoes in quarts, no liquid added but juice",
    "starting white peaches in quarts hot pack, yellow ones from Vineland",
    "starting mixed vegetables in quarts: carrots, corn, cabbage, limas, tomatoes, zucchini",
    "starting mixed vegetables, zucchini, pints",
    "starting smoked salmon in pints, 2 qt water in",
    "starting potatoes in pints, 2 inch cubes, mashed",
    "starting peaches in quarts 🍗",
    "starting carrots in pints, venison cubed",
    "starting thick sauce in quarts, all the lemon juice we had",
    "starting pickled beets in pints, all the vinegar we had",
    "starting dilly beans in pints, not the recipe as printed",
    "starting mushrooms in half pints, white, picked in the woods",
    "starting mushrooms in half pints, not store bought",
    "starting beef stock in quarts, fat not skimmed",
    "starting ground beef in pints, not browned",
    "starting pinto beans in pints, soaked overnight not boiled",
    "starting applesauce in quarts, from Denver up here at 5280",
    "how long for applesauce in pints, boiling water, canning at my sister's in Leadville",
    "starting peaches in pints 🍑🍌",
    "starting chicken stock in quarts, left on the stove overnight",
    "starting dilly beans in pints, same recipe as my aunt",
    "starting crushed tomatoes in quarts, only salt in it",
    "starting crushed tomatoes in quarts, nothing on it but salt",
    "starting crushed tomatoes in quarts, nothing else but salt",
    "starting crushed tomatoes in quarts, nothing but salt",
    "starting crushed tomatoes in quarts, just salt",
    "starting crushed tomatoes in quarts, almost all the bottled lemon juice in",
    "starting crushed tomatoes in quarts, almost all of the lemon juice in",
    "starting crushed tomatoes in quarts, all the lemon juice in half the jars",
    "starting crushed tomatoes in pints, a spoon of lemon juice every other jar",
    "starting crushed tomatoes in quarts, two tbsp lemon juice in every second quart",
    "starting crushed tomatoes in quarts, two t bottled lemon in each jar",
    "starting crushed tomatoes in pints, one t of bottled lemon in each jar",
    "starting crushed tomatoes in pints, one t lemon juice",
    "starting crushed tomatoes in quarts, lemon in, bottled in June",
    "starting crushed tomatoes in quarts, acid is already in the tomatoes",
    "starting crushed tomatoes in quarts, untested recipe",
    "starting crushed tomatoes in quarts, followed the recipe not exactly",
    "starting crushed tomatoes in quarts, enamelled pot no lid",
    "starting crushed tomatoes in quarts, enamelled canner with no rack",
    "how long for salsa in pints, boiling water, full vinegar minus a splash?",
    "starting pickled jalapeno rings in pints, lime soak",
    "starting pickled jalapeno rings in pints, lime soak done, rinsed once",
    "starting mango salsa in half pints, ripe mangoes",
    "starting sauerkraut in quarts, no salt",
    "starting sauerkraut in quarts, without salt",
    "starting sauerkraut in quarts, less salt",
    "filled 7 quarts of sauerkraut, no salt",
    "starting fermented dill pickles in quarts, no salt",
    "starting sauerkraut in quarts, one week in the crock",
    "starting sauerkraut in quarts, week in the crock",
    "starting fermented dill pickles in quarts, 4 days in the crock",
    "starting sauerkraut in quarts, still working",
    "starting sauerkraut in quarts, barely working",
    "starting sauerkraut in quarts, unfermented",
    "starting sauerkraut in quarts, not sour yet",
    "starting sauerkraut in quarts, 3 weeks in crock, brine strained and replaced with water",
    "starting dried beans in quarts, soaked an hour",
    "starting dried beans in quarts, soaked one hour",
    "starting dried beans in quarts, soaked a bit",
    "starting dried beans in quarts, boiled 5 minutes",
    "starting white potatoes in quarts, cooking water",
    "starting white potatoes in quarts, water they boiled in",
    "starting greens in quarts, not steamed",
    "starting beef chunks in quarts, fat on",
    "starting beef chunks in quarts, untrimmed",
    "starting ground beef in quarts, undrained",
    "starting chicken stock in quarts, unskimmed",
];

#[test]
fn what_the_directions_say_keeps_the_process() {
    let reader = Reader::default();
    let began = |text: &str| match reader.statements(text).as_slice() {
        [Statement::Began(began)] => began.product.as_ref().map(|product| product.as_str().to_owned()),
        _ => None,
    };
    let wrong: Vec<_> = AS_DIRECTED
        .iter()
        .map(|(text, product)| (text, product, began(text)))
        .filter(|(_, product, began)| began.as_deref() != Some(**product))
        .collect();
    assert_eq!(wrong, []);
}

/// A name that several products have, and words that do not tell of the one that is processed shorter.
const NOT_THE_SHORTER: [(&str, &str); 6] = [
    ("starting chicken in quarts, without any bones in", "chicken-rabbit-bone-in"),
    ("starting chicken in quarts, took every bone out, none of the bones in", "chicken-rabbit-bone-in"),
    ("starting rabbit in quarts, bones in the pot for stock", "chicken-rabbit-bone-in"),
    ("starting chicken in quarts, no bones in it", "chicken-rabbit-bone-in"),
    ("starting corn in pints, cut off the cob and scraped", "corn-whole"),
    ("how long for chicken in pints, never any bones in, weighted canner?", "chicken-rabbit-bone-in"),
];

#[test]
fn no_words_make_it_the_product_that_is_processed_shorter() {
    let reader = Reader::default();
    let is = |statement: &Statement, product: &str| statement.product().is_some_and(|said| said.as_str() == product);
    let shorter: Vec<_> = NOT_THE_SHORTER
        .iter()
        .filter(|(text, product)| reader.statements(text).iter().any(|statement| is(statement, product)))
        .collect();
    assert_eq!(shorter, Vec::<&(&str, &str)>::new());
}

#[test]
fn what_is_otherwise_than_directed_is_held_back() {
    let reader = Reader::default();
    let passed: Vec<_> = OTHERWISE.iter().filter(|text| reader.statements(text).iter().any(counts)).collect();
    assert_eq!(passed, Vec::<&&str>::new());
}
