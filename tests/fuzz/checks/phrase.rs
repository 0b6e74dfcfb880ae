//! No text makes reading it panic, in whatever household; what is read is read the same twice, and what a household can
//! mean comes out of JSON as it went in.

use chrono::{DateTime, NaiveDate};
use rackful::{
    ledger::check_bounds,
    phrase::{Context, Lexicon, complete, crop_said, mass_unit, nearest, read},
    statement::Statement,
    vocabulary::{Crop, Product},
    zone::Zone,
};
use std::sync::LazyLock;

/// Households: a new one, one in mid-season, and one that speaks kilograms.
static HOUSEHOLDS: LazyLock<[(Lexicon, Zone); 3]> = LazyLock::new(|| {
    let names = |names: &[&str]| names.iter().map(|name| (*name).to_owned()).collect::<Vec<_>>();
    let day = |day| NaiveDate::from_ymd_opt(2026, 8, day).unwrap_or_default();
    let busy = Lexicon {
        recipes: names(&["fire salsa", "gran's red", "7 pepper"]),
        batches: names(&["1", "red", "big red", "salsa", "2"]),
        planned: vec![(day(15), Product::THICK_SAUCE), (day(22), Product::named("fire salsa"))],
        ..Lexicon::default()
    };
    let metric = Lexicon {
        name: "tom".to_owned(),
        recipes: names(&["sugo", "mousse au chocolat"]),
        batches: names(&["3", "passata"]),
        usual: Product::named("sugo"),
        metric: true,
        ..Lexicon::default()
    };
    [
        (Lexicon::default(), Zone::UTC),
        (busy, Zone::parse("America/Chicago").unwrap_or(Zone::UTC)),
        (metric, Zone::parse("Europe/Berlin").unwrap_or(Zone::UTC)),
    ]
});

/// Checks one input.
pub(crate) fn check(text: &str) {
    let now = DateTime::from_timestamp(1_786_716_300, 0).unwrap_or_default();
    for (lexicon, zone) in &*HOUSEHOLDS {
        let context = Context { now, zone: *zone, lexicon, last: None };
        let reading = read(text, &context);
        assert!(reading.statements.len() <= text.len());
        assert_eq!(read(text, &context), reading);
        for statement in &reading.statements {
            if check_bounds(statement, now, now).is_ok() {
                let json = serde_json::to_string(statement).expect("a statement is JSON");
                let again: Statement = serde_json::from_str(&json).expect("its JSON is a statement");
                // What a question is about is kept beside it, by whoever asks it.
                assert!(
                    matches!(statement, Statement::Clarify(_) | Statement::Propose(_)) || again == *statement,
                    "{json}"
                );
            }
            if let Statement::Clarify(pending) = statement {
                for answer in ["lb", "7 lb", "2400 ft", "pints", "salsa", "red", text] {
                    let _ = complete(pending, answer, &context);
                }
            }
        }
    }
    let _ = (
        nearest(text, &Context { now, zone: Zone::UTC, lexicon: &Lexicon::default(), last: None }),
        mass_unit(text),
        crop_said(text, Crop::Tomato),
        crop_said(text, Crop::Pepper),
    );
}
