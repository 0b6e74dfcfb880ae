//! No tested product stands for a food that is made of it: a time is only ever that of the words that were said.

use rackful::{
    phrase::{Context, Lexicon, read},
    processes,
    statement::Statement,
    zone::Zone,
};

const FORMS: &[&str] = &[
    "butter",
    "curd",
    "pie filling",
    "soup",
    "relish",
    "jam",
    "jelly",
    "chutney",
    "sauce",
    "puree",
    "in oil",
    "in olive oil",
    "salsa",
    "ketchup",
    "pickles",
    "preserves",
    "marmalade",
    "syrup",
    "broth",
    "stock",
    "paste",
    "pesto",
    "stew",
    "leather",
    "wine",
    "cake",
    "bread",
    "mash",
    "conserve",
    "spread",
    "curry",
    "casserole",
    "pie",
    "mincemeat",
];

/// The product that a phrase says is in the jars, and what it leaves over.
fn product(text: &str) -> Option<(String, String)> {
    let lexicon = Lexicon::default();
    let now = "2026-08-14T14:05:00Z".parse().unwrap();
    let reading = read(text, &Context { now, zone: Zone::parse("-05:00").unwrap(), lexicon: &lexicon, last: None });
    let named = reading.statements.into_iter().find_map(|said| match said {
        Statement::Ask(said) => said.product,
        Statement::Began(said) => said.product,
        Statement::PutUp(said) => said.product,
        Statement::Filled(said) => said.product,
        _ => None,
    })?;
    Some((named.as_str().to_owned(), reading.unread))
}

#[test]
fn what_is_made_of_a_tested_product_is_not_that_product() {
    let mut wrong = Vec::new();
    let singular = processes::products().iter().filter_map(|info| info.crop).map(|crop| crop.as_str().to_owned());
    let names = processes::products()
        .iter()
        .map(|info| info.spoken.to_owned())
        .chain(singular)
        .chain(["berry", "cherry", "lemon"].map(str::to_owned));
    for name in names {
        for form in FORMS {
            let food = format!("{name} {form}");
            for text in [
                format!("process for {food}"),
                format!("how long do i process {food} in pints?"),
                format!("starting {food} in pints"),
                format!("put up 7 pints of {food}"),
                format!("filled 7 pints of {food}"),
            ] {
                let Some((found, unread)) = product(&text) else { continue };
                let Some(info) = processes::product(&found) else { continue };
                let own = format!("{} {} {}", info.spoken, info.name, info.id.replace('-', " ")).to_lowercase();
                // A time question and a start with words left over get no time.
                let asks = !text.starts_with("put") && !text.starts_with("filled");
                if !(own.contains(form.trim_start_matches("in ")) || asks && unread.contains(form)) {
                    wrong.push(format!("{text}: {found}, unread {unread:?}"));
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{} read as a tested product:\n{}", wrong.len(), wrong.join("\n"));
}

#[test]
fn a_food_of_no_table_keeps_its_whole_name() {
    for food in [
        "pumpkin butter",
        "garlic in oil",
        "peppers in olive oil",
        "lemon curd",
        "lime curd",
        "tomato soup",
        "zucchini relish",
        "carrot soup",
        "pumpkin pie filling",
        "strawberry pie filling",
        "blue crab",
        "wild mushrooms",
        "vegetable stock",
        "peach salsa",
        "corn salsa",
        "strawberry jam",
        "raspberry jam",
        "pear butter",
        "squash soup",
    ] {
        for text in
            [format!("process for {food}"), format!("starting {food} in pints"), format!("put up 7 pints {food}")]
        {
            // Or nothing is made of it: then there is no time either.
            let found = product(&text).map(|found| found.0);
            assert!(
                found.as_deref().is_none_or(|found| found == food || processes::product(found).is_none()),
                "{text}: {found:?}"
            );
        }
    }
}
